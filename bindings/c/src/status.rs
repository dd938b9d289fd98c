//! Statuses, choices, flags and parameters as numbers. The header shows them as `#define`s; each
//! is tied to the core's own code by an assertion.

use spotwise::model::check::{Outcome, Reasons};
use spotwise::model::optics::WidthDefinition;
use spotwise::{Param, Validity};

/// Result of a call: SPOTWISE_OK or one of SPOTWISE_E_*. The values are permanent.
pub type spotwise_status = u32;

/// Version of this ABI; spotwise_abi_version() tells that of the library.
pub const SPOTWISE_ABI_VERSION: u32 = 1;

/// The outputs are valid.
pub const SPOTWISE_OK: u32 = 0;
/// A value is NaN or infinite.
pub const SPOTWISE_E_NOT_FINITE: u32 = 1;
/// A value is finite but outside the range of spotwise_parameter_range().
pub const SPOTWISE_E_OUT_OF_RANGE: u32 = 2;
/// A whole number that stands for a choice is none of those listed.
pub const SPOTWISE_E_UNKNOWN_CHOICE: u32 = 3;
/// Each value is allowed by itself, yet together they leave the domain of the model.
pub const SPOTWISE_E_OUTSIDE_MODEL: u32 = 4;
/// The beam never reaches what was asked for.
pub const SPOTWISE_E_UNREACHABLE: u32 = 5;
/// An array has a length that it cannot have.
pub const SPOTWISE_E_LENGTH_MISMATCH: u32 = 6;
/// The data cannot tell what was asked for.
pub const SPOTWISE_E_UNDETERMINED: u32 = 8;
/// The function of yours that is told of progress said to stop.
pub const SPOTWISE_E_STOPPED: u32 = 9;
/// A pointer that must not be NULL is NULL.
pub const SPOTWISE_E_NULL: u32 = 100;
/// A struct_size is not that of this ABI: the struct was not set with its init function, or
/// program and library are of different ABI versions.
pub const SPOTWISE_E_STRUCT_SIZE: u32 = 101;
/// The arrays of inputs and outputs overlap.
pub const SPOTWISE_E_OVERLAP: u32 = 102;

/// Width definition: where the irradiance has fallen to 1/e^2 (13.5 %) of its peak.
pub const SPOTWISE_WIDTH_INVERSE_E_SQUARED: u32 = 1;
/// Width definition: four standard deviations of the irradiance, the width of ISO 11146.
pub const SPOTWISE_WIDTH_D4_SIGMA: u32 = 2;
/// Width definition: full width at half maximum.
pub const SPOTWISE_WIDTH_FWHM: u32 = 3;
/// Width definition: the diameter that holds 1 - e^-2 = 86.4665 % of the power.
pub const SPOTWISE_WIDTH_POWER_86: u32 = 4;

/// Depth of focus: the diameter is at most growth_ratio waist diameters.
pub const SPOTWISE_CRITERION_GROWTH: u32 = 1;
/// Depth of focus: the diameter is at most sqrt(2) waist diameters, one Rayleigh range each way.
pub const SPOTWISE_CRITERION_RAYLEIGH: u32 = 2;
/// Depth of focus: the irradiance on the axis falls by at most the share drop.
pub const SPOTWISE_CRITERION_IRRADIANCE_DROP: u32 = 3;
/// Depth of focus: the diameter is at most largest_diameter_m.
pub const SPOTWISE_CRITERION_LARGEST_DIAMETER: u32 = 4;
/// Depth of focus: the peak dose of a scanned line falls by at most the share drop.
pub const SPOTWISE_CRITERION_LINE_DOSE_DROP: u32 = 5;

/// Raw beam known by its diameter at the lens, where its wavefront is flat.
pub const SPOTWISE_RAW_BEAM_COLLIMATED: u32 = 1;
/// Raw beam known by its waist and the distance from there to the lens.
pub const SPOTWISE_RAW_BEAM_WAIST: u32 = 2;
/// Raw beam known by its waist, with a beam expander on its way to the lens.
pub const SPOTWISE_RAW_BEAM_EXPANDED: u32 = 3;

/// Lens of a job: nothing but its focal length is known, it is taken for ideal.
pub const SPOTWISE_LENS_IDEAL: u32 = 1;
/// Lens of a job: a single piece, whose aberration and aperture count.
pub const SPOTWISE_LENS_SINGLET: u32 = 2;

/// Glass: zinc selenide, ZnSe.
pub const SPOTWISE_GLASS_ZINC_SELENIDE: u32 = 1;
/// Glass: germanium, Ge.
pub const SPOTWISE_GLASS_GERMANIUM: u32 = 2;
/// Glass: gallium arsenide, GaAs.
pub const SPOTWISE_GLASS_GALLIUM_ARSENIDE: u32 = 3;
/// Glass: fused silica, SiO2.
pub const SPOTWISE_GLASS_FUSED_SILICA: u32 = 4;
/// Glass: the borosilicate crown glass N-BK7.
pub const SPOTWISE_GLASS_N_BK7: u32 = 5;
/// Glass: zinc sulfide, ZnS.
pub const SPOTWISE_GLASS_ZINC_SULFIDE: u32 = 6;
/// Glass: calcium fluoride, CaF2.
pub const SPOTWISE_GLASS_CALCIUM_FLUORIDE: u32 = 7;
/// Glass: sapphire, Al2O3, ordinary ray.
pub const SPOTWISE_GLASS_SAPPHIRE: u32 = 8;

/// Shape of a singlet: the one with the least spherical aberration for a distant source; a
/// meniscus in materials of high index.
pub const SPOTWISE_SHAPE_BEST_FORM: u32 = 1;
/// Shape of a singlet: plano-convex (or plano-concave) with its curved side toward the laser.
pub const SPOTWISE_SHAPE_CURVED_SIDE_FIRST: u32 = 2;
/// Shape of a singlet: plano-convex (or plano-concave) with its flat side toward the laser.
pub const SPOTWISE_SHAPE_FLAT_SIDE_FIRST: u32 = 3;
/// Shape of a singlet: by its shape factor.
pub const SPOTWISE_SHAPE_BY_FACTOR: u32 = 4;

/// Spot of a real lens: the second-moment (D4 sigma) waist.
pub const SPOTWISE_SPOT_SECOND_MOMENT: u32 = 1;
/// Spot of a real lens: the diameter that holds 86.5 % of the power.
pub const SPOTWISE_SPOT_POWER_86: u32 = 2;
/// Spot of a real lens: the handbook upper estimate, diffraction and blur added. It gives a spot but
/// no beam, so that calls off focus refuse it.
pub const SPOTWISE_SPOT_HANDBOOK: u32 = 3;

/// Best focus of a wave: the greatest irradiance on the axis.
pub const SPOTWISE_BEST_PEAK_IRRADIANCE: u32 = 1;
/// Best focus of a wave: the smallest diameter that holds 86.5 % of the transmitted power.
pub const SPOTWISE_BEST_POWER_86: u32 = 2;
/// Best focus of a wave: the smallest second moment; only without clipping.
pub const SPOTWISE_BEST_SECOND_MOMENT: u32 = 3;

/// Element of a beam path: empty space; reads length_m.
pub const SPOTWISE_ELEMENT_SPACE: u32 = 1;
/// Element of a beam path: an ideal thin lens; reads focal_length_m.
pub const SPOTWISE_ELEMENT_THIN_LENS: u32 = 2;
/// Element of a beam path: a flat window at right angles to the beam; reads length_m, its
/// thickness, and index.
pub const SPOTWISE_ELEMENT_WINDOW: u32 = 3;
/// Element of a beam path: a beam expander of no length; reads magnification and exit_power_per_m.
pub const SPOTWISE_ELEMENT_EXPANDER: u32 = 4;
/// Element of a beam path: a single-piece thin lens with third-order spherical aberration; reads
/// focal_length_m, index and shape_factor.
pub const SPOTWISE_ELEMENT_SINGLET: u32 = 5;
/// The most elements that one call takes, since the library has no heap. A longer path goes on
/// with another call, whose raw beam is the beam at the end of the first one.
pub const SPOTWISE_PATH_MOST_ELEMENTS: u32 = 32;

/// Focus known by the place of the waist relative to the datum of the surface.
pub const SPOTWISE_FOCUS_FROM_DATUM: u32 = 1;
/// Focus known by the distance from the lens to the datum of the surface.
pub const SPOTWISE_FOCUS_LENS_HEIGHT: u32 = 2;

/// Stroke and gap hold everywhere, and the surface stays within the depth of focus.
pub const SPOTWISE_OUTCOME_HOLDS: u32 = 1;
/// Stroke and gap hold everywhere, but the surface leaves the depth of focus.
pub const SPOTWISE_OUTCOME_HOLDS_OUT_OF_FOCUS: u32 = 2;
/// Stroke, gap or text is lost somewhere, or the fill breaks up into its lines.
pub const SPOTWISE_OUTCOME_LOST: u32 = 3;
/// The dose is too little for the material: nothing marks, at any height.
pub const SPOTWISE_OUTCOME_NOTHING_MARKS: u32 = 4;

/// The finest stroke is lost even in the waist: no focus height can save it.
pub const SPOTWISE_REASON_STROKE_TOO_FINE: u32 = 1;
/// The finest gap fills even in the waist: no focus height can save it.
pub const SPOTWISE_REASON_GAP_TOO_FINE: u32 = 2;
/// The finest stroke is lost at the highest place.
pub const SPOTWISE_REASON_STROKE_LOST_HIGH: u32 = 4;
/// The finest stroke is lost at the lowest place.
pub const SPOTWISE_REASON_STROKE_LOST_LOW: u32 = 8;
/// The finest gap fills at the highest place.
pub const SPOTWISE_REASON_GAP_FILLED_HIGH: u32 = 16;
/// The finest gap fills at the lowest place.
pub const SPOTWISE_REASON_GAP_FILLED_LOW: u32 = 32;
/// The highest place is outside the depth of focus.
pub const SPOTWISE_REASON_HIGH_OUT_OF_FOCUS: u32 = 64;
/// The lowest place is outside the depth of focus.
pub const SPOTWISE_REASON_LOW_OUT_OF_FOCUS: u32 = 128;
/// The waist is larger than the largest diameter allowed, so there is no depth of focus.
pub const SPOTWISE_REASON_NO_DEPTH: u32 = 256;
/// Focus at mid-height of the surface would make the detail hold everywhere, and the lens has room
/// above it.
pub const SPOTWISE_REASON_REFOCUS_HELPS: u32 = 512;
/// Focus at mid-height of the surface would bring all of it into focus, and the lens has room above
/// it.
pub const SPOTWISE_REASON_REFOCUS_SHARPENS: u32 = 1024;
/// The text lacks its grade even in the waist: no focus height can save it.
pub const SPOTWISE_REASON_TEXT_TOO_SMALL: u32 = 2048;
/// The text lacks its grade at the highest place.
pub const SPOTWISE_REASON_TEXT_LOST_HIGH: u32 = 4096;
/// The text lacks its grade at the lowest place.
pub const SPOTWISE_REASON_TEXT_LOST_LOW: u32 = 8192;
/// The lines of the fill leave gaps where the spot is smallest on the surface.
pub const SPOTWISE_REASON_FILL_HAS_GAPS: u32 = 16384;
/// The dose is too little for the material, so that nothing marks at any height; no other reason then
/// speaks of stroke, gap, text, fill or of another focus.
pub const SPOTWISE_REASON_NOTHING_MARKS: u32 = 32768;
/// The detail would hold everywhere if the surface were engraved in bands of height, each in its own
/// focus, and the lens has room for it; focus at mid-height alone would not do.
pub const SPOTWISE_REASON_BANDS_HELP: u32 = 65536;
/// Somewhere the surface leans by more than 0.35 rad (20 degrees), which stretches the spot and lowers
/// the dose there by more than 6 %. Only spotwise_surface_check() knows.
pub const SPOTWISE_REASON_STEEP: u32 = 131072;
/// Nothing is known of part of the region, so that nothing is said of it. Only spotwise_surface_check()
/// knows.
pub const SPOTWISE_REASON_PARTLY_UNKNOWN: u32 = 262144;
/// Where the surface is steepest, the dose is too little to mark. Only spotwise_surface_check() knows.
pub const SPOTWISE_REASON_TOO_STEEP_TO_MARK: u32 = 524288;

/// No flag applies to the result.
pub const SPOTWISE_VALIDITY_FINE: u32 = 0;
/// Caution: the half angle of the cone exceeds 0.15 rad: the paraxial formulas differ by 1.1 %
/// there, and by 4.7 % at 0.3 rad, above which a beam is refused.
pub const SPOTWISE_VALIDITY_WIDE_CONE: u32 = 1;
/// Caution: a second, separate range of heights also meets the criterion (astigmatic beams and
/// waves); the range returned is the one that holds the best focus.
pub const SPOTWISE_VALIDITY_SECOND_RANGE: u32 = 2;
/// Caution: the normalised aberration exceeds 0.3. The 86.5 %-power spot in focus stays within
/// 2 % of the diffraction integral (1.5 % for M^2 up to 4), its growth off focus within 20 %.
pub const SPOTWISE_VALIDITY_ABERRATED: u32 = 4;
/// Out of domain: the normalised aberration exceeds 1. The second moment is exact for what it is,
/// but far above the 86.5 %-power spot, for which no closed form holds.
pub const SPOTWISE_VALIDITY_STRONGLY_ABERRATED: u32 = 8;
/// Caution: the clipping ratio is below 1.8: diffraction at the aperture changes the 86.5 %-power
/// spot by up to 6.5 %, in focus and, for a normalised aberration up to 0.3, off it.
pub const SPOTWISE_VALIDITY_CLIPPED: u32 = 16;
/// Out of domain: the clipping ratio is below 1.5: closed forms that do not contain the aperture
/// no longer hold.
pub const SPOTWISE_VALIDITY_STRONGLY_CLIPPED: u32 = 32;
/// Out of domain: the 86.5 %-power spot is refused, and where the result has fields for it they are NaN:
/// the normalised aberration exceeds 1.7, the clipping ratio of a real lens is below 1.2, its Rayleigh
/// range is above 20 % of the distance from lens to waist, or the aperture is too small for the fit.
pub const SPOTWISE_VALIDITY_NO_POWER_86: u32 = 64;
/// Caution: the waist lies off the focal point by more than 5 % of the focal length, or its Rayleigh
/// range is more than 5 % of its distance from the lens. The 86.5 %-power spot of a single-piece lens is
/// within 2.3 % there and its greatest irradiance within 6 %. The widths of a clipped beam are those of
/// the focal plane; where it is brightest, nearer the lens, they are smaller by up to 1.7 times that share
/// and the irradiance higher by up to 1.6 times.
pub const SPOTWISE_VALIDITY_FOCUS_SHIFTED: u32 = 128;
/// Caution: the grazing ratio of a tilted surface exceeds 0.2. The contour at 1/e^2 of the greatest
/// irradiance on the surface is longer than the footprint of the beam by up to 1.0 % in focus and shorter
/// by up to 1.1 % off focus at that limit, by 6.0 % and 7.7 % at a ratio of 0.5.
pub const SPOTWISE_VALIDITY_TILTED: u32 = 256;
/// Caution: irradiance or line dose off focus behind a single-piece lens whose normalised aberration
/// exceeds 0.03 or whose clipping ratio is below 2.5. They are those of a Gaussian beam, whose light fades alike
/// on either side. Their error, in parts of the greatest: irradiance -25 to +10 % and line dose -11.5 to
/// +5.5 % for a normalised aberration up to 0.3, -40 to +21 % and -20 to +10 % up to 1; by second moments
/// -37 to +53 % and -20 to +31 %. An aperture by itself makes it 10 % and 4.5 % at a clipping ratio of 1.8, 21.5 %
/// and 11.5 % at 1.5; both together stay within 43 % and 21 % by the 86.5 % spot. Without the flag 4.2 % and 1.8 %.
pub const SPOTWISE_VALIDITY_GAUSSIAN_OFF_FOCUS: u32 = 512;

/// No flag applies.
pub const SPOTWISE_LEVEL_FINE: u32 = 0;
/// The result stands within the error that its flags state.
pub const SPOTWISE_LEVEL_CAUTION: u32 = 1;
/// The result lies outside the domain in which its error is known: compute the wave. Where the lens
/// aberrates a bracket comes with it, which knows of no aperture.
pub const SPOTWISE_LEVEL_OUT_OF_DOMAIN: u32 = 2;

const _: () = {
    assert!(SPOTWISE_WIDTH_INVERSE_E_SQUARED == WidthDefinition::InverseESquared as u32);
    assert!(SPOTWISE_WIDTH_D4_SIGMA == WidthDefinition::D4Sigma as u32);
    assert!(SPOTWISE_WIDTH_FWHM == WidthDefinition::Fwhm as u32);
    assert!(SPOTWISE_WIDTH_POWER_86 == WidthDefinition::Power86 as u32);
    assert!(WidthDefinition::ALL.len() == 4);

    use spotwise::model::focus::DepthCriterion;
    assert!(SPOTWISE_CRITERION_GROWTH == DepthCriterion::Growth { ratio: 0.0 }.code());
    assert!(SPOTWISE_CRITERION_RAYLEIGH == DepthCriterion::Rayleigh.code());
    assert!(SPOTWISE_CRITERION_IRRADIANCE_DROP == DepthCriterion::IrradianceDrop { drop: 0.0 }.code());
    assert!(SPOTWISE_CRITERION_LARGEST_DIAMETER == DepthCriterion::LargestDiameter { diameter: 0.0 }.code());
    assert!(SPOTWISE_CRITERION_LINE_DOSE_DROP == DepthCriterion::LineDoseDrop { drop: 0.0 }.code());
    assert!(SPOTWISE_CRITERION_LINE_DOSE_DROP as f64 == Param::DepthCriterion.range().1);

    use spotwise::model::check::{FocusSetting, RawBeam};
    assert!(SPOTWISE_RAW_BEAM_COLLIMATED == RawBeam::Collimated { diameter_at_lens: 0.0 }.code());
    assert!(SPOTWISE_RAW_BEAM_WAIST == RawBeam::Waist { waist_diameter: 0.0, waist_to_lens: 0.0 }.code());
    let expanded = RawBeam::Expanded {
        waist_diameter: 0.0,
        waist_to_expander: 0.0,
        magnification: 0.0,
        exit_power: 0.0,
        expander_to_lens: 0.0,
    };
    assert!(SPOTWISE_RAW_BEAM_EXPANDED == expanded.code());
    assert!(SPOTWISE_RAW_BEAM_EXPANDED as f64 == Param::RawBeam.range().1);
    assert!(SPOTWISE_FOCUS_FROM_DATUM == FocusSetting::FromDatum { focus_z: 0.0 }.code());
    assert!(SPOTWISE_FOCUS_LENS_HEIGHT == FocusSetting::LensHeight { lens_to_surface: 0.0 }.code());
    assert!(SPOTWISE_FOCUS_LENS_HEIGHT as f64 == Param::FocusSetting.range().1);

    use spotwise::model::check::JobLens;
    use spotwise::model::optics::{Glass, LensShape};
    let (glass, shape) = (Glass::ZincSelenide, LensShape::BestForm);
    assert!(SPOTWISE_LENS_IDEAL == JobLens::Ideal.code());
    assert!(SPOTWISE_LENS_SINGLET == JobLens::Singlet { glass, shape, clear_aperture: 0.0 }.code());
    assert!(SPOTWISE_LENS_SINGLET as f64 == Param::LensKind.range().1);

    assert!(SPOTWISE_GLASS_ZINC_SELENIDE == Glass::ZincSelenide as u32);
    assert!(SPOTWISE_GLASS_GERMANIUM == Glass::Germanium as u32);
    assert!(SPOTWISE_GLASS_GALLIUM_ARSENIDE == Glass::GalliumArsenide as u32);
    assert!(SPOTWISE_GLASS_FUSED_SILICA == Glass::FusedSilica as u32);
    assert!(SPOTWISE_GLASS_N_BK7 == Glass::NBk7 as u32);
    assert!(SPOTWISE_GLASS_ZINC_SULFIDE == Glass::ZincSulfide as u32);
    assert!(SPOTWISE_GLASS_CALCIUM_FLUORIDE == Glass::CalciumFluoride as u32);
    assert!(SPOTWISE_GLASS_SAPPHIRE == Glass::Sapphire as u32);
    assert!(Glass::ALL.len() == 8);

    assert!(SPOTWISE_SHAPE_BEST_FORM == LensShape::BestForm.code());
    assert!(SPOTWISE_SHAPE_CURVED_SIDE_FIRST == LensShape::CurvedSideFirst.code());
    assert!(SPOTWISE_SHAPE_FLAT_SIDE_FIRST == LensShape::FlatSideFirst.code());
    assert!(SPOTWISE_SHAPE_BY_FACTOR == LensShape::ShapeFactor { factor: 0.0 }.code());
    assert!(SPOTWISE_SHAPE_BY_FACTOR as f64 == Param::LensShape.range().1);

    use spotwise::model::optics::{Element, FocusMeasure, SpotMeasure};
    assert!(SPOTWISE_SPOT_SECOND_MOMENT == SpotMeasure::SecondMoment as u32);
    assert!(SPOTWISE_SPOT_POWER_86 == SpotMeasure::Power86 as u32);
    assert!(SPOTWISE_SPOT_HANDBOOK == SpotMeasure::Handbook as u32);
    assert!(SpotMeasure::ALL.len() == 3);
    assert!(SPOTWISE_BEST_PEAK_IRRADIANCE == FocusMeasure::PeakIrradiance as u32);
    assert!(SPOTWISE_BEST_POWER_86 == FocusMeasure::Power86 as u32);
    assert!(SPOTWISE_BEST_SECOND_MOMENT == FocusMeasure::SecondMoment as u32);
    assert!(FocusMeasure::ALL.len() == 3);

    let (length, focal_length, index) = (0.0, 0.0, 0.0);
    assert!(SPOTWISE_ELEMENT_SPACE == Element::Space { length }.code());
    assert!(SPOTWISE_ELEMENT_THIN_LENS == Element::ThinLens { focal_length }.code());
    assert!(SPOTWISE_ELEMENT_WINDOW == Element::Window { thickness: length, index }.code());
    assert!(SPOTWISE_ELEMENT_EXPANDER == Element::Expander { magnification: 0.0, exit_power: 0.0 }.code());
    assert!(SPOTWISE_ELEMENT_SINGLET == Element::Singlet { focal_length, index, shape_factor: 0.0 }.code());
    assert!(SPOTWISE_ELEMENT_SINGLET as f64 == Param::PathElement.range().1);

    assert!(SPOTWISE_OUTCOME_HOLDS == Outcome::Holds as u32);
    assert!(SPOTWISE_OUTCOME_HOLDS_OUT_OF_FOCUS == Outcome::HoldsOutOfFocus as u32);
    assert!(SPOTWISE_OUTCOME_LOST == Outcome::Lost as u32);
    assert!(SPOTWISE_OUTCOME_NOTHING_MARKS == Outcome::NothingMarks as u32);
    assert!(Outcome::ALL.len() == 4);

    assert!(SPOTWISE_REASON_STROKE_TOO_FINE == Reasons::STROKE_TOO_FINE.bits());
    assert!(SPOTWISE_REASON_GAP_TOO_FINE == Reasons::GAP_TOO_FINE.bits());
    assert!(SPOTWISE_REASON_STROKE_LOST_HIGH == Reasons::STROKE_LOST_HIGH.bits());
    assert!(SPOTWISE_REASON_STROKE_LOST_LOW == Reasons::STROKE_LOST_LOW.bits());
    assert!(SPOTWISE_REASON_GAP_FILLED_HIGH == Reasons::GAP_FILLED_HIGH.bits());
    assert!(SPOTWISE_REASON_GAP_FILLED_LOW == Reasons::GAP_FILLED_LOW.bits());
    assert!(SPOTWISE_REASON_HIGH_OUT_OF_FOCUS == Reasons::HIGH_OUT_OF_FOCUS.bits());
    assert!(SPOTWISE_REASON_LOW_OUT_OF_FOCUS == Reasons::LOW_OUT_OF_FOCUS.bits());
    assert!(SPOTWISE_REASON_NO_DEPTH == Reasons::NO_DEPTH.bits());
    assert!(SPOTWISE_REASON_REFOCUS_HELPS == Reasons::REFOCUS_HELPS.bits());
    assert!(SPOTWISE_REASON_REFOCUS_SHARPENS == Reasons::REFOCUS_SHARPENS.bits());
    assert!(SPOTWISE_REASON_TEXT_TOO_SMALL == Reasons::TEXT_TOO_SMALL.bits());
    assert!(SPOTWISE_REASON_TEXT_LOST_HIGH == Reasons::TEXT_LOST_HIGH.bits());
    assert!(SPOTWISE_REASON_TEXT_LOST_LOW == Reasons::TEXT_LOST_LOW.bits());
    assert!(SPOTWISE_REASON_FILL_HAS_GAPS == Reasons::FILL_HAS_GAPS.bits());
    assert!(SPOTWISE_REASON_NOTHING_MARKS == Reasons::NOTHING_MARKS.bits());
    assert!(SPOTWISE_REASON_BANDS_HELP == Reasons::BANDS_HELP.bits());
    assert!(SPOTWISE_REASON_STEEP == Reasons::STEEP.bits());
    assert!(SPOTWISE_REASON_PARTLY_UNKNOWN == Reasons::PARTLY_UNKNOWN.bits());
    assert!(SPOTWISE_REASON_TOO_STEEP_TO_MARK == Reasons::TOO_STEEP_TO_MARK.bits());
    assert!(Reasons::ALL.len() == 20);

    assert!(SPOTWISE_VALIDITY_FINE == Validity::FINE.bits());
    assert!(SPOTWISE_VALIDITY_WIDE_CONE == Validity::WIDE_CONE.bits());
    assert!(SPOTWISE_VALIDITY_SECOND_RANGE == Validity::SECOND_RANGE.bits());
    assert!(SPOTWISE_VALIDITY_ABERRATED == Validity::ABERRATED.bits());
    assert!(SPOTWISE_VALIDITY_STRONGLY_ABERRATED == Validity::STRONGLY_ABERRATED.bits());
    assert!(SPOTWISE_VALIDITY_CLIPPED == Validity::CLIPPED.bits());
    assert!(SPOTWISE_VALIDITY_STRONGLY_CLIPPED == Validity::STRONGLY_CLIPPED.bits());
    assert!(SPOTWISE_VALIDITY_NO_POWER_86 == Validity::NO_POWER86.bits());
    assert!(SPOTWISE_VALIDITY_FOCUS_SHIFTED == Validity::FOCUS_SHIFTED.bits());
    assert!(SPOTWISE_VALIDITY_TILTED == Validity::TILTED.bits());
    assert!(SPOTWISE_VALIDITY_GAUSSIAN_OFF_FOCUS == Validity::GAUSSIAN_OFF_FOCUS.bits());
    assert!(Validity::ALL.len() == 10);

    // The limits that the comments of the flags state.
    assert!(spotwise::CAUTION_HALF_ANGLE == 0.15 && spotwise::REFUSED_HALF_ANGLE == 0.3);
    assert!(spotwise::CAUTION_ABERRATION == 0.3 && spotwise::DOMAIN_ABERRATION == 1.0);
    assert!(spotwise::CAUTION_OFF_FOCUS_IRRADIANCE == 0.03 && spotwise::CAUTION_OFF_FOCUS_CLIPPING == 2.5);
    assert!(spotwise::CAUTION_CLIPPING == 1.8 && spotwise::DOMAIN_CLIPPING == 1.5);
    assert!(spotwise::REFUSED_ABERRATION == 1.7 && spotwise::CAUTION_FOCUS_SHIFT == 0.05);
    assert!(spotwise::CAUTION_GRAZING == 0.2);

    use spotwise::Level;
    assert!(SPOTWISE_LEVEL_FINE == Level::Fine as u32);
    assert!(SPOTWISE_LEVEL_CAUTION == Level::Caution as u32);
    assert!(SPOTWISE_LEVEL_OUT_OF_DOMAIN == Level::OutOfDomain as u32);

    use spotwise::Error;
    let param = Param::Z;
    assert!(SPOTWISE_E_NOT_FINITE == Error::NotFinite { param, value: 0.0 }.code());
    assert!(
        SPOTWISE_E_OUT_OF_RANGE == Error::OutOfRange { param, value: 0.0, least: 0.0, greatest: 0.0 }.code()
    );
    assert!(SPOTWISE_E_UNKNOWN_CHOICE == Error::UnknownChoice { param, value: 0 }.code());
    assert!(
        SPOTWISE_E_OUTSIDE_MODEL
            == Error::OutsideModel { param, value: 0.0, least: 0.0, greatest: 0.0 }.code()
    );
    assert!(
        SPOTWISE_E_UNREACHABLE == Error::Unreachable { param, value: 0.0, least: 0.0, greatest: 0.0 }.code()
    );
    assert!(SPOTWISE_E_LENGTH_MISMATCH == Error::LengthMismatch { param, value: 0, expected: 0 }.code());
    let undetermined = Error::Undetermined { param, value: 0.0, least: 0.0, greatest: 0.0 };
    assert!(SPOTWISE_E_UNDETERMINED == undetermined.code());
    assert!(SPOTWISE_E_STOPPED == Error::Stopped { done: 0.0 }.code());
};
