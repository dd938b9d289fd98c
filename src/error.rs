//! The one error type, the parameters it names, and the range each parameter is allowed.
//!
//! Every public function checks its inputs in the order they are declared, each against
//! [`Param::range`]. A beam is checked as a whole, its cone included, before the argument after it.
//! The codes of errors and parameters are permanent: the C and WebAssembly faces report the same
//! numbers.

use crate::model::math;
use crate::validity::REFUSED_HALF_ANGLE;
use core::fmt;

macro_rules! params {
    ($($(#[$doc:meta])* $variant:ident = $code:literal, $name:literal, $unit:literal, $least:expr, $greatest:expr;)+) => {
        /// A quantity that an [`Error`] can name. Codes are permanent.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        #[non_exhaustive]
        #[repr(u32)]
        pub enum Param {
            $($(#[$doc])* $variant = $code,)+
        }

        impl Param {
            /// Every parameter, in the order of its code.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)+];

            /// Name in plain words, such as `"waist diameter"`.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant => $name,)+ }
            }

            /// SI unit of the value, such as `"m"`; empty for a pure number.
            #[must_use]
            pub const fn unit(self) -> &'static str {
                match self { $(Self::$variant => $unit,)+ }
            }

            /// Least and greatest value allowed, both included, in the SI unit.
            ///
            /// For [`Param::FocalLength`] this is the range of the magnitude. For a choice it is
            /// the range of codes, for an array the range of lengths. [`f64::MAX`] where there is no greatest.
            #[must_use]
            pub const fn range(self) -> (f64, f64) {
                match self { $(Self::$variant => ($least, $greatest),)+ }
            }
        }
    };
}

/// Largest distance along the axis, in metres: far enough for any far-field test.
const FAR: f64 = 1e7;
/// Largest number below one.
const BELOW_ONE: f64 = 1.0 - f64::EPSILON / 2.0;

params! {
    /// Vacuum wavelength.
    Wavelength = 1, "wavelength", "m", 1e-8, 1e-2;
    /// Beam propagation ratio M².
    M2 = 2, "M squared", "", 1.0, 1e4;
    /// Waist diameter, 1/e² (D4σ).
    WaistDiameter = 3, "waist diameter", "m", 1e-9, 10.0;
    /// Beam diameter anywhere, 1/e² (D4σ) unless said otherwise.
    BeamDiameter = 4, "beam diameter", "m", 1e-9, 10.0;
    /// Position on the beam axis, + along the light.
    Z = 5, "z", "m", -FAR, FAR;
    /// Offset of the surface from the waist, + away from the lens.
    ZOffset = 6, "z offset", "m", -FAR, FAR;
    /// Distance from the raw beam's waist to the lens, + when the waist lies upstream.
    WaistToLens = 7, "waist to lens", "m", -FAR, FAR;
    /// Focal length, either sign; the range is that of its magnitude.
    FocalLength = 8, "focal length", "m", 1e-5, 1e4;
    /// Far-field divergence, full angle.
    DivergenceFullAngle = 9, "divergence full angle", "rad", 1e-12, 0.6;
    /// Far-field divergence, half angle.
    DivergenceHalfAngle = 10, "divergence half angle", "rad", 0.0, REFUSED_HALF_ANGLE;
    /// Rayleigh range.
    RayleighRange = 11, "Rayleigh range", "m", 1e-9, 1e10;
    /// Diameter of a round, centred aperture.
    ApertureDiameter = 12, "aperture diameter", "m", 0.0, 100.0;
    /// Share of the beam's power.
    PowerShare = 13, "power share", "", 0.0, BELOW_ONE;
    /// Diameter over waist diameter.
    GrowthRatio = 14, "growth ratio", "", 1.0, 1e9;
    /// Share of the irradiance that may be lost.
    IrradianceDrop = 15, "irradiance drop", "", 1e-9, 0.999_999;
    /// Share of the line dose that may be lost.
    LineDoseDrop = 16, "line dose drop", "", 1e-9, 0.999_999;
    /// Largest spot diameter that is allowed.
    LargestDiameter = 17, "largest diameter", "m", 1e-9, 10.0;
    /// Dose over threshold dose, enough to mark.
    DoseRatio = 18, "dose ratio", "", 1.000_001, 1e6;
    /// Spot diameter on the surface, 1/e².
    SpotDiameter = 19, "spot diameter", "m", 1e-9, 10.0;
    /// Period of a grating of bars and gaps.
    Pitch = 20, "pitch", "m", 1e-9, 10.0;
    /// Contrast (modulation) of a grating.
    Contrast = 21, "contrast", "", 1e-12, 0.999_999_999_999;
    /// How far the surface comes toward the lens from its datum.
    SurfaceRise = 22, "surface rise", "m", 0.0, 1e3;
    /// How far the surface drops away from the lens from its datum.
    SurfaceFall = 23, "surface fall", "m", 0.0, 1e3;
    /// Distance from the lens to the datum of the surface.
    LensToSurface = 24, "lens to surface", "m", 1e-6, 1e4;
    /// Finest stroke in the drawing.
    FinestStroke = 25, "finest stroke", "m", 1e-9, 10.0;
    /// Finest gap in the drawing.
    FinestGap = 26, "finest gap", "m", 1e-9, 10.0;
    /// Definition of a beam width, as a code.
    WidthDefinition = 27, "width definition", "", 1.0, 4.0;
    /// Criterion of a depth of focus, as a code.
    DepthCriterion = 28, "depth criterion", "", 1.0, 5.0;
    /// Way in which a raw beam is given, as a code.
    RawBeam = 29, "raw beam", "", 1.0, 3.0;
    /// Way in which the focus height is given, as a code.
    FocusSetting = 30, "focus setting", "", 1.0, 2.0;
    /// M² in the x axis of an astigmatic beam.
    M2X = 31, "M squared in x", "", 1.0, 1e4;
    /// M² in the y axis of an astigmatic beam.
    M2Y = 32, "M squared in y", "", 1.0, 1e4;
    /// Waist diameter in the x axis.
    WaistDiameterX = 33, "waist diameter in x", "m", 1e-9, 10.0;
    /// Waist diameter in the y axis.
    WaistDiameterY = 34, "waist diameter in y", "m", 1e-9, 10.0;
    /// Position of the waist in the x axis.
    WaistZX = 35, "waist z in x", "m", -FAR, FAR;
    /// Position of the waist in the y axis.
    WaistZY = 36, "waist z in y", "m", -FAR, FAR;
    /// Half angle of the cone in the x axis.
    DivergenceHalfAngleX = 37, "divergence half angle in x", "rad", 0.0, REFUSED_HALF_ANGLE;
    /// Half angle of the cone in the y axis.
    DivergenceHalfAngleY = 38, "divergence half angle in y", "rad", 0.0, REFUSED_HALF_ANGLE;
    /// Where focus is set relative to the datum of the surface, + away from the lens.
    FocusZ = 39, "focus z", "m", -1e3, 1e3;
    /// The caller's array of results.
    Output = 40, "output length", "", 0.0, f64::MAX;
    /// Diameter of the raw beam where it meets the lens.
    DiameterAtLens = 41, "diameter at lens", "m", 1e-9, 10.0;
    /// Text of a quantity with its unit.
    Text = 42, "text", "", 0.0, f64::MAX;
    /// Distance from the lens to the waist that it makes; a job needs a waist behind the lens.
    LensToWaist = 43, "lens to waist", "m", 1e-9, 1e9;
    /// Distance from the lens to the place of the surface nearest to it.
    LensToHighest = 44, "lens to highest place", "m", 1e-9, 1e9;
    /// Material of a lens, as a code.
    Glass = 45, "glass", "", 1.0, 8.0;
    /// Refractive index of a lens, window or part.
    RefractiveIndex = 46, "refractive index", "", 1.01, 6.0;
    /// Wavelength for which a focal length is stated; the range is that of the glass.
    DesignWavelength = 47, "design wavelength", "m", 1e-8, 1e-2;
    /// Radius of the lens surface that the light meets first, + where its centre lies behind it;
    /// infinite for a flat. The range is that of the magnitude.
    FirstRadius = 48, "first radius", "m", 1e-5, 1e6;
    /// Radius of the second lens surface, with the same sign rule.
    SecondRadius = 49, "second radius", "m", 1e-5, 1e6;
    /// Shape of a singlet, as a code.
    LensShape = 50, "lens shape", "", 1.0, 4.0;
    /// Shape factor of a singlet.
    ShapeFactor = 51, "shape factor", "", -100.0, 100.0;
    /// Quartic wavefront aberration at the 1/e² radius, + where the edge focuses nearer the lens.
    AberrationPhase = 52, "aberration phase", "rad", -1e4, 1e4;
    /// Magnitude of the aberration phase over M².
    NormalisedAberration = 53, "normalised aberration", "", 0.0, crate::validity::REFUSED_ABERRATION;
    /// Diameter of the clear, round, centred aperture of a lens or mirror; infinite for none.
    ClearAperture = 54, "clear aperture", "m", 1e-9, 100.0;
    /// Clear aperture over 1/e² beam diameter.
    ClippingRatio = 55, "clipping ratio", "", 0.2, f64::MAX;
    /// Which spot is to be smallest, as a code.
    SpotMeasure = 56, "spot measure", "", 1.0, 3.0;
    /// Thickness of a plate or window.
    Thickness = 57, "thickness", "m", 0.0, 10.0;
    /// How far the lens is lowered from focus on the face of a transparent part.
    LensLoweredBy = 58, "lens lowered by", "m", 0.0, 10.0;
    /// Kind of an element of a beam path, as a code.
    PathElement = 59, "path element", "", 1.0, 5.0;
    /// Length of empty space in a beam path.
    SpaceLength = 60, "space length", "m", 0.0, FAR;
    /// Magnification of a beam expander, beam diameter behind it over that before it.
    Magnification = 61, "expander magnification", "", 0.01, 100.0;
    /// Power in dioptres by which an expander converges the light beyond collimation.
    ExitPower = 62, "exit power", "1/m", -1e3, 1e3;
    /// Distance along a beam path from its start.
    PathDistance = 63, "distance along path", "m", 0.0, FAR;
    /// Shortest distance from the waist or the expander to the lens as a gantry moves.
    Nearest = 64, "nearest distance", "m", -FAR, FAR;
    /// Longest distance from the waist or the expander to the lens as a gantry moves.
    Farthest = 65, "farthest distance", "m", -FAR, FAR;
    /// Distance from the beam axis.
    Radius = 66, "radius", "m", 0.0, 10.0;
    /// From the lens to where the unaberrated wave would converge.
    LensToFocus = 67, "lens to focus", "m", 1e-5, 1e4;
    /// Defocus of a plane in units of λ·L²/(π·w²), the Rayleigh range of the wave with M² = 1.
    NormalisedDefocus = 68, "normalised defocus", "", -30.0, 30.0;
    /// Definition of the best focus of a wave, as a code.
    FocusMeasure = 69, "focus measure", "", 1.0, 3.0;
    /// Kind of lens in a job, as a code.
    LensKind = 70, "lens kind", "", 1.0, 2.0;
    /// The caller's working space.
    Workspace = 71, "workspace length", "", 0.0, f64::MAX;
    /// Distance from the raw waist to the beam expander, + when the waist lies upstream.
    WaistToExpander = 72, "waist to expander", "m", -FAR, FAR;
    /// Distance from the beam expander to the lens.
    ExpanderToLens = 73, "expander to lens", "m", 0.0, FAR;
    /// Radius of a wave's map or profile, over the 1/e² radius of the ideal spot.
    NormalisedRadius = 74, "normalised radius", "", 0.0, 60.0;
    /// Angle between the normal of the surface and the beam axis.
    Tilt = 75, "tilt", "rad", 0.0, 1.5;
    /// Tangent of the tilt times the half angle of the cone.
    GrazingRatio = 76, "grazing ratio", "", 0.0, BELOW_ONE;
    /// Power on the surface, averaged over pulses.
    Power = 77, "power", "W", 1e-9, 1e6;
    /// Speed of the spot along the line.
    Speed = 78, "speed", "m/s", 1e-9, 1e4;
    /// Spot diameter across the scan, 1/e² (D4σ).
    DiameterAcross = 79, "diameter across", "m", 1e-9, 10.0;
    /// Spot diameter along the scan, 1/e² (D4σ).
    DiameterAlong = 80, "diameter along", "m", 1e-9, 10.0;
    /// From one line of a raster fill to the next.
    LineInterval = 81, "line interval", "m", 1e-9, 1.0;
    /// Lines to the inch.
    DotsPerInch = 82, "dots per inch", "", 0.0254, 2.54e7;
    /// Pulses in a second.
    RepetitionRate = 83, "repetition rate", "Hz", 1e-3, 1e12;
    /// Energy for each area: a line dose, a fill dose or a peak fluence.
    Dose = 84, "dose", "J/m^2", 1e-12, 1e18;
    /// Dose at which the material just marks.
    Threshold = 85, "threshold", "J/m^2", 1e-12, 1e18;
    /// What makes a mark, as a code.
    MarkKind = 86, "mark kind", "", 1.0, 2.0;
    /// Line interval over spot radius.
    IntervalOverRadius = 87, "interval over spot radius", "", 0.0, 20.0;
    /// Contrast of the ripple of a fill.
    RippleContrast = 88, "ripple contrast", "", 1e-12, 0.999_999;
    /// Width of a stroke as it is drawn.
    DrawnWidth = 89, "drawn width", "m", 1e-9, 10.0;
    /// Width, side or diameter of a detail.
    DetailSize = 90, "detail size", "m", 1e-9, 10.0;
    /// Thermal diffusivity.
    Diffusivity = 91, "thermal diffusivity", "m^2/s", 0.0, 1e-2;
    /// Side of a pixel that is burnt as a box.
    Pixel = 92, "pixel", "m", 0.0, 1.0;
    /// Standard deviation of the place of the spot.
    JitterDeviation = 93, "jitter deviation", "m", 0.0, 1.0;
    /// Rise time of the power, 10 % to 90 %.
    RiseTime = 94, "rise time", "s", 0.0, 1.0;
    /// By how much the power lags behind the motion.
    SwitchDelay = 95, "switch delay", "s", 0.0, 1.0;
    /// What is wanted of a fill, as a code.
    Taste = 96, "taste", "", 1.0, 3.0;
    /// Greatest width of an edge, 10 % to 90 % of the dose.
    LargestEdge = 97, "largest edge", "m", 1e-9, 10.0;
    /// Weight of crispness against smoothness.
    CrispnessWeight = 98, "crispness weight", "", 1e-3, 1.0;
    /// From one pulse to the next along the line.
    PulsePitch = 99, "pulse pitch", "m", 1e-12, 10.0;
    /// Exponent of incubation, 1 for none.
    Incubation = 100, "incubation", "", 0.5, 1.0;
    /// Number of pulses that fall on one place.
    Pulses = 101, "pulses", "", 1.0, 1e9;
    /// Depth at which the fluence has fallen by e.
    PenetrationDepth = 102, "penetration depth", "m", 1e-12, 1.0;
    /// How far the edge of a pulsed line dents between dots.
    Scallop = 103, "scallop", "m", 1e-15, 10.0;
    /// What a compensation is to keep, as a code.
    CompensationRule = 104, "compensation rule", "", 1.0, 3.0;
    /// Greatest power that the laser gives.
    GreatestPower = 105, "greatest power", "W", 1e-9, 1e6;
    /// Least speed that is allowed.
    LeastSpeed = 106, "least speed", "m/s", 1e-9, 1e4;
    /// Least irradiance over that in the waist.
    LeastIrradianceRatio = 107, "least irradiance ratio", "", 0.0, 1e6;
    /// How a material answers to dose, as a code.
    Response = 108, "response", "", 1.0, 4.0;
    /// Energy that removes one volume.
    RemovalEnergy = 109, "removal energy", "J/m^3", 1.0, 1e15;
    /// Time for which the spot stays over one place.
    Dwell = 110, "dwell", "s", 0.0, 1e6;
    /// The array of widths of test marks.
    Widths = 111, "number of widths", "", 0.0, f64::MAX;
    /// The array of standard deviations of test marks.
    Deviations = 112, "number of deviations", "", 0.0, f64::MAX;
    /// Width or diameter of a test mark.
    MarkWidth = 113, "mark width", "m", 1e-9, 10.0;
    /// Standard deviation of the width of a test mark.
    WidthDeviation = 114, "width deviation", "m", 1e-12, 10.0;
    /// Deviations beyond which a mark is left out; infinite to keep all.
    OutlierLimit = 115, "outlier limit", "", 2.0, 1e6;
    /// How many test marks there are to fit.
    MarksUsed = 116, "marks to fit", "", 3.0, f64::MAX;
    /// Slope of a fit over its standard deviation.
    Significance = 117, "significance of the slope", "", crate::validity::LEAST_SIGNIFICANCE, f64::MAX;
    /// Kind of typeface, as a code.
    Typeface = 118, "typeface", "", 1.0, 6.0;
    /// Width of an upright stem, in ems.
    StemShare = 119, "stem", "em", 1e-3, 1.0;
    /// Stroke to which a typeface amounts, in ems.
    StrokeShare = 120, "effective stroke", "em", 1e-3, 1.0;
    /// Gap to which the counters of a typeface amount, in ems.
    CounterShare = 121, "effective counter", "em", 1e-3, 1.0;
    /// Gap to which counters and letter gaps of a typeface amount, in ems.
    GapShare = 122, "effective gap", "em", 1e-3, 1.0;
    /// Share of the fill dose on the middle of a crisp stem.
    CrispExposure = 123, "crisp exposure", "", 0.5, 0.999_999;
    /// Least dose window of a grade of text.
    DoseWindow = 124, "dose window", "", 1.0, 1e3;
    /// Grade of text, as a code.
    TextGrade = 125, "text grade", "", 1.0, 4.0;
    /// Size of type.
    Em = 126, "em", "m", 1e-9, 10.0;
    /// How the dose of a job is known, as a code.
    JobDose = 127, "dose", "", 1.0, 2.0;
    /// Whether a job has text, as a code.
    JobText = 128, "text", "", 1.0, 2.0;
    /// Threshold of a fit over its standard deviation.
    Certainty = 129, "certainty of the threshold", "", crate::validity::LEAST_CERTAINTY, f64::MAX;
    /// Dose over threshold dose where it may also be too little to mark.
    AnyDoseRatio = 130, "dose ratio", "", 1e-6, 1e6;
    /// Greatest speed that is allowed.
    GreatestSpeed = 131, "greatest speed", "m/s", 1e-9, 1e4;
    /// What a map of heights is turned into, as a code.
    HeightQuantity = 132, "height quantity", "", 1.0, 5.0;
    /// What makes the surface stray, as a code.
    ToleranceSource = 133, "tolerance source", "", 1.0, 9.0;
    /// How a contribution to a tolerance stack strays, as a code.
    Distribution = 134, "distribution", "", 1.0, 5.0;
    /// Half width by which a contribution strays.
    HalfWidth = 135, "half width", "m", 0.0, 1e3;
    /// Half width over standard deviation.
    CoverageFactor = 136, "coverage factor", "", 1.0, 10.0;
    /// Mean of a contribution, + away from the lens.
    MeanOffset = 137, "mean offset", "m", -1e3, 1e3;
    /// How many contributions a tolerance stack has.
    Contributions = 138, "number of contributions", "", 1.0, f64::MAX;
    /// Share of all cases that an interval is to cover.
    CoverageProbability = 139, "coverage probability", "", 0.01, 0.999_999_999_999;
    /// How many cases are drawn; a whole number.
    Draws = 140, "whole number of draws", "", 10.0, 1e7;
    /// From where random numbers start; a whole number, up to 2⁵³ − 1.
    Seed = 141, "whole-number seed", "", 0.0, 9_007_199_254_740_991.0;
    /// Limit of the surface's offset toward the lens, or end of a depth of focus there, + away from the lens.
    TowardLensZ = 142, "limit toward the lens", "m", -FAR, FAR;
    /// Limit of the surface's offset away from the lens, or end of a depth of focus there.
    AwayFromLensZ = 143, "limit away from the lens", "m", -FAR, FAR;
    /// Highest place of a surface relative to the waist or to a datum, + away from the lens.
    HighestZ = 144, "z of the highest place", "m", -FAR, FAR;
    /// Lowest place of a surface relative to the waist or to a datum, + away from the lens.
    LowestZ = 145, "z of the lowest place", "m", -FAR, FAR;
    /// What may be used of a depth of focus, from end to end.
    UsableDepth = 146, "usable depth of focus", "m", 1e-9, 2.0 * FAR;
    /// Share of the depth of focus that is kept for errors of set-up.
    BandMargin = 147, "band margin", "", 0.0, 0.99;
    /// Bands of height into which a surface is divided.
    HeightBands = 148, "number of height bands", "", 1.0, 1e6;
    /// The caller's array of limits of bands.
    BandLimits = 149, "number of band limits", "", 0.0, f64::MAX;
    /// The caller's array of focus heights.
    FocusHeights = 150, "number of focus heights", "", 0.0, f64::MAX;
    /// Radius of a round part.
    PartRadius = 151, "radius of the part", "m", 1e-6, 1e3;
    /// What focus is set on, as a code.
    FocusAim = 152, "focus aim", "", 1.0, 2.0;
    /// Depth of an engraving.
    TotalDepth = 153, "total depth", "m", 1e-9, 1e3;
    /// Depth that one pass removes.
    DepthPerPass = 154, "depth per pass", "m", 1e-9, 1e3;
    /// How often an engraving is passed over.
    Passes = 155, "number of passes", "", 1.0, 1e6;
    /// Shape of a surface, as a code.
    SurfaceShape = 156, "surface shape", "", 1.0, 5.0;
    /// How far a surface drops away from the lens on each length in x.
    SlopeX = 157, "slope in x", "", -2.0, 2.0;
    /// How far a surface drops away from the lens on each length in y.
    SlopeY = 158, "slope in y", "", -2.0, 2.0;
    /// Radius of a cylinder or sphere.
    CurvatureRadius = 159, "radius of curvature", "m", 1e-6, 1e9;
    /// Which way a cylinder or sphere bulges, as a code.
    Bulge = 160, "bulge", "", 1.0, 2.0;
    /// Where the crown of a cylinder or sphere is, in x.
    CrownX = 161, "crown x", "m", -1e3, 1e3;
    /// Where the crown of a cylinder or sphere is, in y.
    CrownY = 162, "crown y", "m", -1e3, 1e3;
    /// Angle of a cylinder's axis from the x axis, toward + y.
    AxisAngle = 163, "axis angle", "rad", -10.0, 10.0;
    /// Place on a surface, in x.
    PlaceX = 164, "place x", "m", -1e3, 1e3;
    /// Place on a surface, in y.
    PlaceY = 165, "place y", "m", -1e3, 1e3;
    /// End of a region in x.
    RegionX = 166, "region x", "m", -1e3, 1e3;
    /// End of a region in y.
    RegionY = 167, "region y", "m", -1e3, 1e3;
    /// Extent of a region in x.
    RegionWidthX = 168, "region width in x", "m", 1e-9, 2e3;
    /// Extent of a region in y.
    RegionWidthY = 169, "region width in y", "m", 1e-9, 2e3;
    /// Distance from the crown of a cylinder or sphere; it must be less than the radius.
    DistanceFromCrown = 170, "distance from the crown", "m", 0.0, 1e9;
    /// Edge of a step, in x.
    StepEdge = 171, "step edge", "m", -1e3, 1e3;
    /// From one edge of a step to the next.
    StepWidth = 172, "step width", "m", 1e-9, 2e3;
    /// Height of a step, + away from the lens.
    StepHeight = 173, "step height", "m", -1e3, 1e3;
    /// The array of the edges of steps.
    StepEdges = 174, "number of step edges", "", 2.0, f64::MAX;
    /// The array of the heights of steps.
    StepHeights = 175, "number of step heights", "", 0.0, f64::MAX;
    /// Place of a column of probes, in x.
    GridX = 176, "grid x", "m", -1e3, 1e3;
    /// Place of a row of probes, in y.
    GridY = 177, "grid y", "m", -1e3, 1e3;
    /// From one column or row of probes to the next.
    GridSpacing = 178, "grid spacing", "m", 1e-9, 2e3;
    /// Height that a probe found, + away from the lens.
    ProbedHeight = 179, "probed height", "m", -1e3, 1e3;
    /// The array of the places of columns of probes.
    GridColumns = 180, "number of grid columns", "", 2.0, f64::MAX;
    /// The array of the places of rows of probes.
    GridRows = 181, "number of grid rows", "", 2.0, f64::MAX;
    /// The array of the heights that probes found.
    ProbedHeights = 182, "number of probed heights", "", 0.0, f64::MAX;
    /// How many probes have found a height, of a grid or at the corners of one of its cells.
    KnownProbes = 183, "known probes", "", 4.0, f64::MAX;
    /// How many strips, or cells with all their probes, a region meets.
    KnownParts = 184, "known parts of the region", "", 1.0, f64::MAX;
    /// Half width of all errors of height together.
    SetUpTolerance = 185, "set-up tolerance", "m", 0.0, 1e3;
    /// Least clearance over the highest place of the surface.
    LeastClearance = 186, "least clearance", "m", 0.0, 1e4;
    /// From the lowest part of the head to a flat surface in focus.
    WorkingDistance = 187, "working distance", "m", 0.0, 1e4;
    /// How many lenses there are to choose from.
    LensCandidates = 188, "lenses to choose from", "", 1.0, crate::model::lens_choice::MOST_LENSES as f64;
    /// Cells that are laid over a curved surface, in x and in y each.
    CellsPerSide = 189, "cells per side", "", 1.0, 1000.0;
    /// Radius of the field of a scan head.
    FieldRadius = 190, "field radius", "m", 1e-6, 10.0;
    /// Height of the tangential focus at the edge of a field, + away from the lens.
    EdgeTangentialZ = 191, "edge tangential z", "m", -10.0, 10.0;
    /// Height of the sagittal focus at the edge of a field, + away from the lens.
    EdgeSagittalZ = 192, "edge sagittal z", "m", -10.0, 10.0;
    /// Angle of incidence on the table at the edge of a field.
    EdgeIncidence = 193, "edge incidence", "rad", 0.0, 1.0;
    /// Spot at the edge of a field over that in its middle, both in focus.
    EdgeSpotRatio = 194, "edge spot ratio", "", 1.0, 10.0;
    /// Place in a field, from its middle, in x.
    FieldX = 195, "field x", "m", -10.0, 10.0;
    /// Place in a field, from its middle, in y.
    FieldY = 196, "field y", "m", -10.0, 10.0;
    /// Angle by which the mirrors of a scan head turn the light off the axis.
    FieldAngle = 197, "field angle", "rad", 0.0, 1.2;
    /// Width of a drawing in pixels.
    DrawingWidth = 198, "width of the drawing in pixels", "", 1.0, 65_535.0;
    /// Height of a drawing in pixels.
    DrawingHeight = 199, "height of the drawing in pixels", "", 1.0, 65_535.0;
    /// Pixels of a drawing altogether.
    DrawingPixels = 200, "pixels of the drawing", "", 1.0, 268_435_456.0;
    /// From the start of one row of samples to that of the next, in samples; at least the width.
    RowStride = 201, "row stride", "", 1.0, 4_294_967_295.0;
    /// The array of samples of a drawing.
    DrawingSamples = 202, "number of samples", "", 1.0, f64::MAX;
    /// What a sample says, as a code.
    SampleKind = 203, "kind of samples", "", 1.0, 2.0;
    /// What a drawing is: to be sampled, or the raster that is burnt; as a code.
    DrawingUse = 204, "use of the drawing", "", 1.0, 2.0;
    /// From one pixel of a drawing to the next in x.
    PitchX = 205, "pixel pitch in x", "m", 1e-9, 1.0;
    /// From one pixel of a drawing to the next in y.
    PitchY = 206, "pixel pitch in y", "m", 1e-9, 1.0;
    /// Where a drawing lies on the surface, in x.
    DrawingX = 207, "drawing x", "m", -1e3, 1e3;
    /// Where a drawing lies on the surface, in y.
    DrawingY = 208, "drawing y", "m", -1e3, 1e3;
    /// What is known of the scan, as a code.
    ScanKind = 209, "kind of scan", "", 1.0, 2.0;
    /// From the drawing's upper edge to the first scan line.
    FirstLine = 210, "first scan line", "m", 0.0, 10.0;
    /// Blur on top of the spot, across the scan.
    BlurAcross = 211, "blur across the scan", "m", 0.0, 10.0;
    /// Blur on top of the spot, along the scan.
    BlurAlong = 212, "blur along the scan", "m", 0.0, 10.0;
    /// How far an edge may stray before it counts as lost or filled.
    EdgeTolerance = 213, "edge tolerance", "m", 0.0, 1.0;
    /// Width of the gaps that a melt closes.
    MeltBridge = 214, "melt bridge", "m", 0.0, 1.0;
    /// Radius of the spot in pixels of the drawing.
    PixelsPerRadius = 215, "pixels in a spot radius", "", 0.1, 1e4;
    /// Runs of ink or ground in the rows of a drawing: how intricate it is.
    PixelRuns = 216, "runs of pixels", "", 0.0, f64::MAX;
    /// The caller's room for findings.
    Findings = 217, "room for findings", "", 0.0, f64::MAX;
    /// How much of the work was done when it was told to stop.
    Progress = 218, "progress", "", 0.0, 1.0;
    /// Pixels with ink.
    InkPixels = 219, "pixels with ink", "", 1.0, 268_435_456.0;
    /// Depth that doubling the dose adds to what just marks.
    ThresholdDepth = 220, "threshold depth", "m", 1e-12, 1.0;
    /// Depth from which on a place counts as marked.
    VisibleDepth = 221, "visible depth", "m", 0.0, 10.0;
    /// How well a drawing comes out, as a code.
    MarkGrade = 222, "grade of a mark", "", 1.0, 4.0;
    /// What must hold of a drawing, as a code.
    Demand = 223, "demand", "", 1.0, 2.0;
    /// Area below which a piece or a hole of a drawing is a speck.
    SpeckArea = 224, "speck area", "m^2", 0.0, 1e-4;
    /// Share of cases in which a range is to hold the truth.
    Confidence = 225, "confidence", "", 0.5, 0.999_999_999_999;
    /// Readings used less parameters fitted; a whole number.
    DegreesOfFreedom = 226, "whole degrees of freedom", "", 1.0, 1e5;
    /// Sum of squared residuals over their variances.
    ChiSquared = 227, "chi squared", "", 0.0, 1e100;
    /// How depth goes with dose, as a code.
    DepthLaw = 228, "depth law", "", 1.0, 2.0;
    /// Standard deviation of a dose ratio over itself.
    DoseRatioDeviation = 229, "deviation of the dose ratio", "", 0.0, 1.0;
    /// Depth, or darkness, of a mark in any unit.
    MarkDepth = 230, "depth of the mark", "", 1e-12, 1e12;
    /// Standard deviation of a depth or darkness.
    DepthDeviation = 231, "depth deviation", "", 1e-15, 1e12;
    /// From one height of a test to the next.
    HeightStep = 232, "height step", "m", 1e-9, 1e3;
    /// Power of one mark over that of another.
    PowerStep = 233, "power step", "", 1.01, 100.0;
    /// M² as a measurement has it, which may be below 1 by noise.
    MeasuredM2 = 234, "measured M squared", "", 0.01, 1e4;
    /// Standard deviation of a measured M².
    M2Deviation = 235, "deviation of M squared", "", 0.0, 1e4;
    /// Standard deviation of a measured waist diameter.
    WaistDiameterDeviation = 236, "deviation of the waist diameter", "m", 0.0, 10.0;
    /// From the focal point of a lens to the waist, + away from the lens.
    FocusShift = 237, "focus shift", "m", -1e4, 1e4;
    /// Standard deviation of a measured height of focus.
    FocusDeviation = 238, "deviation of the height of focus", "m", 0.0, 1e3;
    /// Half width of a 95 % range over the standard deviation.
    CoverageFactor95 = 239, "95 % coverage factor", "", 1.9, 13.0;
    /// Standard deviation of a measured dose ratio over itself.
    RelativeDoseRatioDeviation = 240, "relative deviation of the dose ratio", "", 0.0, 10.0;
    /// Correlation of two measured numbers.
    Correlation = 241, "correlation", "", -1.0, 1.0;
    /// How many test pieces a series has.
    Pieces = 242, "number of test pieces", "", 1.0, crate::model::learn::by_eye::MOST_PIECES as f64;
    /// Height of a test piece, + away from the lens.
    PieceHeight = 243, "height of a test piece", "m", -1e3, 1e3;
    /// The array of what an eye said of test pieces.
    Judgements = 244, "number of judgements", "", 0.0, f64::MAX;
    /// How good an eye finds a test piece, as a code.
    PieceRank = 245, "rank of a test piece", "", 1.0, 3.0;
    /// Relative standard deviation of what an eye says of test pieces.
    JudgementDeviation = 246, "relative deviation of judgements", "", 0.0, 1.0;
    /// Test pieces that are good enough to go by: with a mark, or ranked acceptable.
    GoodPieces = 247, "good test pieces", "", 1.0, f64::MAX;
    /// Heights with poor or unmarked test pieces only, beyond the good ones toward the lens.
    BoundTowardLens = 248, "heights beyond the good test pieces, toward the lens", "", 1.0, f64::MAX;
    /// Heights with poor or unmarked test pieces only, beyond the good ones away from the lens.
    BoundAwayFromLens = 249, "heights beyond the good test pieces, away from the lens", "", 1.0, f64::MAX;
    /// What a series of test pieces is engraved for, as a code.
    SeriesPurpose = 250, "purpose of a series", "", 1.0, 2.0;
    /// Which way a series of test pieces is swept, as a code.
    SweepDirection = 251, "direction of the sweep", "", 1.0, 2.0;
    /// Step from height to height of a series of test pieces.
    SeriesStep = 252, "step of a series", "m", 1e-9, 1e3;
    /// Half of the range of heights of a series of test pieces.
    SeriesHalfRange = 253, "half range of a series", "m", 1e-9, 1e3;
    /// Smallest step of the axis that sets the height.
    AxisStep = 254, "smallest step of the axis", "m", 1e-9, 1.0;
    /// Backlash of the axis that sets the height.
    AxisBacklash = 255, "backlash of the axis", "m", 0.0, 1.0;
    /// How far the axis can move pieces from expected focus; infinite if that is no limit.
    AxisTravel = 256, "travel of the axis", "m", 0.0, 1e3;
    /// Width or height of a test piece on the drawing, or of the room for its label.
    PieceSize = 257, "size of a test piece or label", "m", 1e-6, 1.0;
    /// What is left free between test pieces and labels.
    PieceGap = 258, "gap between test pieces", "m", 0.0, 1.0;
    /// Greatest width of a row of test pieces; infinite for one row.
    RowWidth = 259, "width of a row of test pieces", "m", 1e-6, 1e3;
    /// Steps of a series on either side of expected focus.
    StepsPerSide = 260, "steps on either side", "", 2.0, 120.0;
    /// Steps of a series that are left on the side toward the lens.
    StepsTowardLens = 261, "steps left toward the lens", "", 2.0, 120.0;
    /// Steps of a series that are left on the side away from the lens.
    StepsAwayFromLens = 262, "steps left away from the lens", "", 2.0, 120.0;
    /// The caller's array of planned pieces.
    PlannedPieces = 263, "number of planned pieces", "", 0.0, f64::MAX;
    /// What the stated deviations of widths are worth, as a code.
    WidthScatter = 264, "scatter of the widths", "", 1.0, 2.0;
    /// Deviation, over itself, of what is known beforehand; infinite where it is not known.
    PriorDeviation = 265, "relative deviation of what is known", "", 1e-6, 10.0;
    /// Power of a test mark over the power of reference.
    PowerRatio = 266, "power ratio", "", 1e-3, 1e3;
    /// The array of power ratios of test marks.
    PowerRatios = 267, "number of power ratios", "", 0.0, f64::MAX;
    /// How many different heights a series of marks has. More heights help.
    DistinctHeights = 268, "different heights", "", 3.0, f64::MAX;
    /// By how many deviations the widths of marks change with height. Less power helps, or heights out to where
    /// the marks vanish.
    ShapeSignificance = 269, "significance of the change of width with height", "", crate::validity::LEAST_SHAPE_SIGNIFICANCE, f64::MAX;
    /// Height of a waist that should lie within the heights of a series; marks beyond that end help.
    WaistWithinHeights = 270, "waist within the heights of the marks", "m", -FAR, FAR;
    /// Half the run of heights over the deviation of the waist's. Less power helps, or heights out to where the
    /// marks vanish.
    WaistZCertainty = 271, "certainty of the height of the waist", "", crate::validity::LEAST_PLACE_CERTAINTY, f64::MAX;
    /// Waist diameter over its deviation. The same heights at twice the power help, or a known M².
    SizeCertainty = 272, "certainty of the waist diameter", "", crate::validity::LEAST_CERTAINTY, f64::MAX;
    /// How a reading weighs in a fit, as a code.
    ReadingWeights = 273, "weights of readings", "", 1.0, 2.0;
    /// How many readings there are to fit.
    Readings = 274, "readings to fit", "", 4.0, 100_003.0;
    /// Curvature of the squares of widths over its standard deviation; below 0 where they fall on either side.
    CurvatureSignificance = 275, "significance of the curvature", "", crate::validity::LEAST_SIGNIFICANCE, f64::MAX;
    /// Square of a fitted waist diameter over its standard deviation.
    WaistSignificance = 276, "significance of the waist", "", crate::validity::LEAST_WAIST_SIGNIFICANCE, f64::MAX;
    /// Whether the weights of readings settled: 0 or 1.
    SteadyWeights = 277, "steady weights", "", 1.0, 1.0;
}

impl Param {
    /// Which further data would settle what [`Error::Undetermined`] names, as the end of its sentence.
    const fn remedy(self) -> Option<&'static str> {
        match self {
            Self::DistinctHeights => Some("mark at more heights"),
            Self::ShapeSignificance | Self::WaistZCertainty => {
                Some("mark with less power, or at heights out to where the marks vanish")
            }
            Self::WaistWithinHeights => Some("add marks beyond that end of the heights"),
            Self::SizeCertainty => Some("mark the same heights again at twice the power, or give M squared"),
            _ => None,
        }
    }
}

/// Why an input was refused. No variant ever changes its [`code`](Error::code).
///
/// The message names the parameter, the value and the allowed range:
///
/// ```
/// use spotwise::model::optics::{beam_parameters, Beam};
/// let beam = Beam { wavelength: 10.6e-6, m2: 0.9, waist_diameter: 85e-6 };
/// let error = beam_parameters(&beam).unwrap_err();
/// assert_eq!(error.to_string(), "M squared = 0.9 is out of range (must be from 1 to 10000)");
/// ```
#[derive(Debug, Clone, Copy)]
#[non_exhaustive]
pub enum Error {
    /// The value is NaN or infinite.
    NotFinite {
        /// What was refused.
        param: Param,
        /// NaN or an infinity.
        value: f64,
    },
    /// The value is finite but outside the range that [`Param::range`] gives.
    OutOfRange {
        /// What was refused.
        param: Param,
        /// The value, in the SI unit of `param`.
        value: f64,
        /// Least allowed value.
        least: f64,
        /// Greatest allowed value.
        greatest: f64,
    },
    /// A code, or a unit's name, that stands for no choice.
    UnknownChoice {
        /// What was refused.
        param: Param,
        /// The code that was given.
        value: u32,
    },
    /// Each value is allowed by itself, yet together they leave the domain of the model.
    OutsideModel {
        /// The derived quantity that leaves its domain.
        param: Param,
        /// Its value.
        value: f64,
        /// Least value for which the model holds.
        least: f64,
        /// Greatest value for which the model holds.
        greatest: f64,
    },
    /// The beam never reaches what was asked for.
    Unreachable {
        /// What was asked for.
        param: Param,
        /// The value asked for.
        value: f64,
        /// Least value that this beam reaches.
        least: f64,
        /// Greatest value that this beam reaches.
        greatest: f64,
    },
    /// An array of results is not as long as the array of inputs.
    LengthMismatch {
        /// The array that is wrong.
        param: Param,
        /// Its length.
        value: usize,
        /// The length that was expected.
        expected: usize,
    },
    /// The data cannot tell what was asked for.
    Undetermined {
        /// What there is too little of.
        param: Param,
        /// How much there is.
        value: f64,
        /// How much there must be.
        least: f64,
        /// Greatest value allowed.
        greatest: f64,
    },
    /// The caller's watch told the work to stop.
    Stopped {
        /// Share of the work that was done.
        done: f64,
    },
    /// A text is not a number followed by a unit of the wanted kind.
    NotAQuantity {
        /// Where the fault lies.
        fault: TextFault,
        /// The kind of quantity that was wanted.
        wanted: Kind,
    },
}

/// What is wrong with the text of a quantity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum TextFault {
    /// No number stands at the start.
    NoNumber,
    /// A number without a unit.
    NoUnit,
    /// A unit that is not known, or one of another kind.
    WrongUnit,
    /// The number is not finite.
    NotFinite,
}

/// Kind of quantity that a text can hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Kind {
    /// Metres and their like.
    Length,
    /// Radians and degrees.
    Angle,
    /// A pure number, or per cent.
    Number,
    /// One over a length.
    ReciprocalLength,
    /// Watts and their like.
    Power,
    /// Metres in a second and their like.
    Speed,
    /// Joules on a square metre and their like.
    Dose,
    /// Square metres in a second and their like.
    Diffusivity,
    /// Joules for a cubic metre and their like.
    RemovalEnergy,
}

impl Kind {
    /// What to write instead, with an example of each unit's use.
    #[must_use]
    pub const fn advice(self) -> &'static str {
        match self {
            Self::Length => {
                "a length with its unit, such as \"10.6 um\", \"38.1 mm\" or \"1.5 in\" (units: nm, um, mm, cm, m, in, mil, pt)"
            }
            Self::Angle => {
                "an angle with its unit, such as \"2 mrad\" or \"5 deg\" (units: rad, mrad, urad, deg)"
            }
            Self::Number => "a pure number, such as 1.2 or \"20 %\"",
            Self::ReciprocalLength => {
                "a reciprocal length with its unit, such as \"0.2 1/m\" (units: 1/m, /m)"
            }
            Self::Power => "a power with its unit, such as \"20 W\" (units: W, mW, kW)",
            Self::Speed => "a speed with its unit, such as \"500 mm/s\" (units: m/s, mm/s, m/min, in/s)",
            Self::Dose => "a dose with its unit, such as \"0.25 J/mm2\" (units: J/m2, J/cm2, J/mm2)",
            Self::Diffusivity => {
                "a thermal diffusivity with its unit, such as \"0.1 mm2/s\" (units: m2/s, cm2/s, mm2/s)"
            }
            Self::RemovalEnergy => {
                "a removal energy with its unit, such as \"3 J/mm3\" (units: J/m3, J/cm3, J/mm3)"
            }
        }
    }
}

impl Error {
    /// Permanent number of this error, shared by the C and WebAssembly faces. Zero is success.
    #[must_use]
    pub const fn code(&self) -> u32 {
        match self {
            Self::NotFinite { .. } => 1,
            Self::OutOfRange { .. } => 2,
            Self::UnknownChoice { .. } => 3,
            Self::OutsideModel { .. } => 4,
            Self::Unreachable { .. } => 5,
            Self::LengthMismatch { .. } => 6,
            Self::NotAQuantity { .. } => 7,
            Self::Undetermined { .. } => 8,
            Self::Stopped { .. } => 9,
        }
    }

    /// The parameter that the error names.
    #[must_use]
    pub const fn param(&self) -> Param {
        match *self {
            Self::NotFinite { param, .. }
            | Self::OutOfRange { param, .. }
            | Self::UnknownChoice { param, .. }
            | Self::OutsideModel { param, .. }
            | Self::Unreachable { param, .. }
            | Self::Undetermined { param, .. }
            | Self::LengthMismatch { param, .. } => param,
            Self::Stopped { .. } => Param::Progress,
            Self::NotAQuantity { .. } => Param::Text,
        }
    }

    /// The value that was refused; NaN where the input was text.
    #[must_use]
    pub const fn value(&self) -> f64 {
        match *self {
            Self::NotFinite { value, .. }
            | Self::OutOfRange { value, .. }
            | Self::OutsideModel { value, .. }
            | Self::Unreachable { value, .. }
            | Self::Undetermined { value, .. } => value,
            Self::Stopped { done } => done,
            Self::UnknownChoice { value, .. } => value as f64,
            Self::LengthMismatch { value, .. } => value as f64,
            Self::NotAQuantity { .. } => f64::NAN,
        }
    }

    /// Least and greatest value that would have been accepted; NaN where the input was text, [`f64::MAX`] where there
    /// is no greatest. Of [`Param::DistanceFromCrown`] the greatest itself is refused.
    #[must_use]
    pub const fn allowed(&self) -> (f64, f64) {
        match *self {
            Self::NotFinite { param, .. } | Self::UnknownChoice { param, .. } => param.range(),
            Self::Stopped { .. } => Param::Progress.range(),
            Self::OutOfRange { least, greatest, .. }
            | Self::OutsideModel { least, greatest, .. }
            | Self::Unreachable { least, greatest, .. }
            | Self::Undetermined { least, greatest, .. } => (least, greatest),
            Self::LengthMismatch { expected, .. } => (expected as f64, expected as f64),
            Self::NotAQuantity { .. } => (f64::NAN, f64::NAN),
        }
    }
}

/// Equal when code, parameter, value and allowed range are the same bits, so that a NaN that was
/// refused equals itself.
impl PartialEq for Error {
    fn eq(&self, other: &Self) -> bool {
        let bits = |e: &Self| {
            let (least, greatest) = e.allowed();
            (e.code(), e.param(), e.value().to_bits(), least.to_bits(), greatest.to_bits())
        };
        let text = |e: &Self| match *e {
            Self::NotAQuantity { fault, wanted } => Some((fault, wanted)),
            _ => None,
        };
        bits(self) == bits(other) && text(self) == text(other)
    }
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let param = self.param();
        let (name, unit) = (param.name(), Unit(param.unit()));
        let allowed = Allowed(self);
        let (least, greatest) = self.allowed();
        match *self {
            Self::NotFinite { value, .. } => {
                write!(f, "{name} = {value} is not a finite number (must be {allowed})")
            }
            Self::OutOfRange { value, .. } => {
                let value = Short(value);
                write!(f, "{name} = {value}{unit} is out of range (must be {allowed})")
            }
            Self::UnknownChoice { value, .. } => {
                if (least..=greatest).contains(&f64::from(value)) {
                    write!(f, "{name} = {value} is not offered here")
                } else {
                    write!(f, "{name} = {value} is not known (must be a code from {least} to {greatest})")
                }
            }
            Self::OutsideModel {
                param: Param::StepsTowardLens | Param::StepsAwayFromLens, value, ..
            } => {
                write!(
                    f,
                    "{name} = {value} is too few (must be at least {least}): take smaller steps, or make room on that side"
                )
            }
            Self::OutsideModel { value, .. } => {
                let value = Short(value);
                write!(f, "{name} = {value}{unit} is outside the model (must be {allowed})")
            }
            Self::Unreachable { value, .. } => {
                let value = Short(value);
                write!(f, "{name} = {value}{unit} cannot be reached by this beam (must be {allowed})")
            }
            Self::Undetermined { value, .. } => {
                let value = Short(value);
                write!(f, "the data cannot tell: {name} = {value}{unit} (must be {allowed})")?;
                match param.remedy() {
                    Some(remedy) => write!(f, "; {remedy}"),
                    None => Ok(()),
                }
            }
            Self::LengthMismatch {
                param: Param::BandLimits | Param::FocusHeights | Param::PlannedPieces,
                value,
                expected,
            } => {
                write!(f, "{name} = {value} is too few (must be at least {expected}, or none)")
            }
            Self::LengthMismatch { value, expected, .. } => {
                write!(f, "{name} = {value} is wrong (must be {expected}, as long as the input)")
            }
            Self::Stopped { done } => {
                write!(f, "told to stop when {:.0} % of the work was done", 100.0 * done)
            }
            Self::NotAQuantity { fault, wanted } => {
                let fault = match fault {
                    TextFault::NoNumber => "no number found",
                    TextFault::NoUnit => "the unit is missing",
                    TextFault::WrongUnit => "the unit is not known here",
                    TextFault::NotFinite => "the number is not finite",
                };
                write!(f, "{fault}; give {}", wanted.advice())
            }
        }
    }
}

impl core::error::Error for Error {}

/// The range that an error allows: "from 1 to 10000", "at least 2", "from 0 to less than 0.01 m".
struct Allowed<'a>(&'a Error);

impl fmt::Display for Allowed<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let param = self.0.param();
        let unit = Unit(param.unit());
        let (least, greatest) = self.0.allowed();
        if greatest == f64::MAX {
            return write!(f, "at least {}{unit}", Short(least));
        }
        // One number to be less than, not the double before it.
        let (to, greatest) = match param {
            Param::DistanceFromCrown => ("less than ", greatest),
            _ if greatest == BELOW_ONE => ("less than ", 1.0),
            _ => ("", greatest),
        };
        write!(f, "from {} to {to}{}{unit}", Short(least), Short(greatest))
    }
}

/// A unit after a number, with a space before it unless it is empty.
struct Unit(&'static str);

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0.is_empty() { Ok(()) } else { write!(f, " {}", self.0) }
    }
}

/// A number in the shorter of plain and scientific notation, exact either way.
struct Short(f64);

impl fmt::Display for Short {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let magnitude = self.0.abs();
        if magnitude != 0.0 && !(1e-3..1e6).contains(&magnitude) && self.0.is_finite() {
            write!(f, "{:e}", self.0)
        } else {
            write!(f, "{}", self.0)
        }
    }
}

/// The one check that every plain number passes: finite, then within [`Param::range`].
pub(crate) fn check(param: Param, value: f64) -> Result<f64, Error> {
    let (least, greatest) = param.range();
    check_within(param, value, least, greatest)
}

/// As [`check`], with a range that is not the parameter's own.
pub(crate) fn check_within(param: Param, value: f64, least: f64, greatest: f64) -> Result<f64, Error> {
    if !value.is_finite() {
        return Err(Error::NotFinite { param, value });
    }
    if value < least || value > greatest {
        return Err(Error::OutOfRange { param, value, least, greatest });
    }
    Ok(value)
}

/// As [`check`], for a number that must be whole.
pub(crate) fn check_whole(param: Param, value: f64) -> Result<f64, Error> {
    let value = check(param, value)?;
    if math::round(value) == value {
        Ok(value)
    } else {
        let (least, greatest) = param.range();
        Err(Error::OutOfRange { param, value, least, greatest })
    }
}

/// As [`check`], for a number that is left out by +∞. Tells whether it is there.
pub(crate) fn check_unless_infinite(param: Param, value: f64) -> Result<bool, Error> {
    if value == f64::INFINITY {
        return Ok(false);
    }
    check(param, value)?;
    Ok(true)
}

/// That the data cannot tell, for this found less than the least that `param` is allowed.
pub(crate) fn undetermined(param: Param, value: f64) -> Error {
    let (least, greatest) = param.range();
    Error::Undetermined { param, value, least, greatest }
}

/// Refuses an array of another length than expected.
#[cfg(feature = "artwork")]
pub(crate) fn check_length(param: Param, value: usize, expected: usize) -> Result<(), Error> {
    if value == expected { Ok(()) } else { Err(Error::LengthMismatch { param, value, expected }) }
}

/// The check of a distance whose direction is told by a name, so that a sign would say it twice: from
/// 0 to the greatest value that `param` is allowed.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`].
///
/// # Example
/// ```
/// use spotwise::{Param, check_distance};
/// assert!(check_distance(Param::ZOffset, 0.5e-3).is_ok());
/// assert!(check_distance(Param::ZOffset, -0.5e-3).is_err());
/// ```
pub fn check_distance(param: Param, value: f64) -> Result<f64, Error> {
    let (_, greatest) = param.range();
    check_within(param, value, 0.0, greatest)
}

/// Refuses a derived quantity outside the range in which the model holds.
pub(crate) fn within_model(param: Param, value: f64) -> Result<f64, Error> {
    let (least, greatest) = param.range();
    if value >= least && value <= greatest {
        Ok(value)
    } else {
        Err(Error::OutsideModel { param, value, least, greatest })
    }
}
