//! One job in, one verdict out: will this drawing's finest stroke and gap hold on this surface?
//!
//! The surface is given by its datum, the height that the operator calls zero, and by how far it
//! rises toward the lens and falls away from it. All heights of the verdict count from the
//! **waist**, + away from the lens:
//!
//! highest = −rise − focus,  datum = −focus,  lowest = fall − focus,
//!
//! where *focus* is the place of the waist relative to the datum, + away from the lens. A spot
//! grows with the distance from the waist on either side, so the worst place is an end of the
//! surface, never between.
//!
//! The optics are those of [`model::optics`](super::optics). With a lens of which material and shape are
//! known, the verdict rests on its 86.5 %-power spot and tells beside it what an ideal lens would have
//! promised; the spot's growth off focus, and irradiance and line dose there, are then those of a Gaussian
//! beam, whose errors its flags state.
//!
//! The details are those of [`model::mark`](super::mark) (raster fill; the fill dose does not change with
//! focus), of the spot as the material sees it: in a melt √(d² + 32·κ·t), with t = √(π/8)·d/v at each height.
//! Below a dose ratio of 1.000001 nothing marks. What those do not model is not in the verdict either, nor is
//! incubation. It is advice: engrave a test piece first.

pub mod on_surface;

#[doc(inline)]
pub use on_surface::{SurfaceVerdict, surface_check};

use super::focus::{
    DepthCriterion, FocusRange, LensNumbers, behind_a_lens, checked_criterion, checked_defocus,
    range_for_diameter, range_of,
};
use super::mark::{
    LetterShape, Resolution, Response, Scan, ScanDose, SeenSpot, SmallestDetails, SmallestText, TextGrade,
    TextGrades, TextLimits, Typeface, check_fill, fill_marks, least_over_mean, ripple_contrast, scan_dose,
};
use super::math::greater;
use super::optics::carried::expanded_before_lens;
use super::optics::{
    Beam, BeforeLens, CheckedBeam, CheckedFocus, FocusedBeam, Glass, LensShape, SingletFocus, before_lens,
    check_clear_aperture, checked_singlet_of, focus_of, singlet_focus_of,
};
use super::surface::Measured;
use super::twofold::Twofold;
use crate::error::{Error, Param, check, within_model};
use crate::flags::flags;
use crate::validity::Validity;

/// How the raw beam, before the lens, is known.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum RawBeam {
    /// By its diameter at the lens, where its wavefront is flat. Code 1.
    Collimated {
        /// 1/e² (D4σ) **diameter** at the lens in metres.
        diameter_at_lens: f64,
    },
    /// By its waist and the distance from there to the lens. Code 2.
    Waist {
        /// 1/e² (D4σ) **diameter** at the raw waist in metres.
        waist_diameter: f64,
        /// From the raw waist to the lens in metres, + when the waist lies upstream.
        waist_to_lens: f64,
    },
    /// By its waist, with a beam expander on its way to the lens. Code 3.
    Expanded {
        /// 1/e² (D4σ) **diameter** at the raw waist, before the expander, in metres.
        waist_diameter: f64,
        /// From the raw waist to the expander in metres, + when the waist lies upstream.
        waist_to_expander: f64,
        /// Beam diameter behind the expander over that before it.
        magnification: f64,
        /// By how much the expander converges collimated light, in 1/m.
        exit_power: f64,
        /// From the expander to the lens in metres.
        expander_to_lens: f64,
    },
}

impl RawBeam {
    /// Permanent number of this choice, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(&self) -> u32 {
        match self {
            Self::Collimated { .. } => 1,
            Self::Waist { .. } => 2,
            Self::Expanded { .. } => 3,
        }
    }

    /// The choice with this permanent code, ignoring the arguments that it does not name.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code. The numbers are checked when they are used.
    #[expect(
        clippy::too_many_arguments,
        reason = "one for each number of every choice, as flat faces have them"
    )]
    pub fn from_code(
        code: u32,
        diameter_at_lens: f64,
        waist_diameter: f64,
        waist_to_lens: f64,
        waist_to_expander: f64,
        magnification: f64,
        exit_power: f64,
        expander_to_lens: f64,
    ) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::Collimated { diameter_at_lens }),
            2 => Ok(Self::Waist { waist_diameter, waist_to_lens }),
            3 => Ok(Self::Expanded {
                waist_diameter,
                waist_to_expander,
                magnification,
                exit_power,
                expander_to_lens,
            }),
            value => Err(Error::UnknownChoice { param: Param::RawBeam, value }),
        }
    }
}

/// How the height of focus is known.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum FocusSetting {
    /// By the place of the waist relative to the datum of the surface. Code 1.
    FromDatum {
        /// In metres, + where the waist lies farther from the lens than the datum.
        focus_z: f64,
    },
    /// By the distance from the lens to the datum; the place of the waist follows from the optics,
    /// its shift from the focal point included. Code 2.
    LensHeight {
        /// From the lens to the datum in metres.
        lens_to_surface: f64,
    },
}

impl FocusSetting {
    /// Permanent number of this choice, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(&self) -> u32 {
        match self {
            Self::FromDatum { .. } => 1,
            Self::LensHeight { .. } => 2,
        }
    }

    /// The choice with this permanent code, ignoring the argument that it does not name.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code. The number is checked when it is used.
    pub fn from_code(code: u32, focus_z: f64, lens_to_surface: f64) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::FromDatum { focus_z }),
            2 => Ok(Self::LensHeight { lens_to_surface }),
            value => Err(Error::UnknownChoice { param: Param::FocusSetting, value }),
        }
    }
}

/// What is known of the lens of a job besides its focal length.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum JobLens {
    /// Nothing: it is taken for ideal. Code 1.
    Ideal,
    /// It is a single piece: its aberration and its aperture count. Code 2.
    Singlet {
        /// Material.
        glass: Glass,
        /// Shape.
        shape: LensShape,
        /// **Diameter** of the clear aperture in metres; infinite if unknown.
        clear_aperture: f64,
    },
}

impl JobLens {
    /// Permanent number of this choice, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(&self) -> u32 {
        match self {
            Self::Ideal => 1,
            Self::Singlet { .. } => 2,
        }
    }

    /// The choice with this permanent code, ignoring the arguments that it does not name.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code of the lens and, for a singlet, of glass or shape.
    /// The numbers are checked when they are used.
    pub fn from_code(
        code: u32,
        glass: u32,
        shape: u32,
        shape_factor: f64,
        clear_aperture: f64,
    ) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::Ideal),
            2 => Ok(Self::Singlet {
                glass: Glass::from_code(glass)?,
                shape: LensShape::from_code(shape, shape_factor)?,
                clear_aperture,
            }),
            value => Err(Error::UnknownChoice { param: Param::LensKind, value }),
        }
    }
}

/// How the dose of a job is known.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum JobDose {
    /// By the fill dose over the dose at which the material just marks. Code 1.
    Ratio {
        /// Dose ratio.
        dose_ratio: f64,
    },
    /// By what the machine is set to and what the material needs. Code 2.
    Scan {
        /// Power on the surface in watts.
        power: f64,
        /// Speed along the lines in m/s.
        speed: f64,
        /// From one line of the fill to the next, in metres.
        line_interval: f64,
        /// Fill dose at which the material just marks, in J/m².
        threshold: f64,
        /// How the material answers above it.
        response: Response,
    },
}

impl JobDose {
    /// Permanent number of this choice, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(&self) -> u32 {
        match self {
            Self::Ratio { .. } => 1,
            Self::Scan { .. } => 2,
        }
    }

    /// The choice with this permanent code, ignoring the arguments that it does not name.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code, and of a scan for that of the response. The numbers are
    /// checked when they are used.
    #[expect(
        clippy::too_many_arguments,
        reason = "one for each number of every choice, as flat faces have them"
    )]
    pub fn from_code(
        code: u32,
        dose_ratio: f64,
        power: f64,
        speed: f64,
        line_interval: f64,
        threshold: f64,
        response: u32,
        penetration_depth: f64,
        removal_energy: f64,
        diffusivity: f64,
    ) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::Ratio { dose_ratio }),
            2 => {
                let response = Response::from_code(response, penetration_depth, removal_energy, diffusivity)?;
                Ok(Self::Scan { power, speed, line_interval, threshold, response })
            }
            value => Err(Error::UnknownChoice { param: Param::JobDose, value }),
        }
    }
}

/// The text of a job.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JobText {
    /// Its typeface.
    pub typeface: Typeface,
    /// Its size, as em in metres.
    pub em: f64,
    /// The grade that it must keep everywhere; [`TextGrade::Lost`] asks for nothing.
    pub least_grade: TextGrade,
    /// Where the grades begin.
    pub grades: TextGrades,
}

/// Everything that [`focus_check`] needs to know.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Job {
    /// Vacuum wavelength in metres.
    pub wavelength: f64,
    /// Beam propagation ratio M².
    pub m2: f64,
    /// The beam before the lens.
    pub raw_beam: RawBeam,
    /// Focal length of the lens in metres, at the working wavelength.
    pub focal_length: f64,
    /// What else is known of the lens.
    pub lens: JobLens,
    /// Where focus is set.
    pub focus: FocusSetting,
    /// How far the surface comes toward the lens from its datum, in metres, not negative.
    pub surface_rise: f64,
    /// How far the surface drops away from the lens from its datum, in metres, not negative.
    pub surface_fall: f64,
    /// What counts as in focus.
    pub criterion: DepthCriterion,
    /// Width of the finest stroke in the drawing, in metres.
    pub finest_stroke: f64,
    /// Width of the finest gap in the drawing, in metres.
    pub finest_gap: f64,
    /// Dose of the fill.
    pub dose: JobDose,
    /// The text in the drawing; none if there is none.
    pub text: Option<JobText>,
}

/// The spot at one height of the surface, and what it holds there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Offset from the waist in metres, + away from the lens.
    pub z_offset: f64,
    /// Spot **diameter** in metres, 1/e² (D4σ).
    pub diameter: f64,
    /// Spot diameter over waist diameter.
    pub growth: f64,
    /// Irradiance on the axis over that at the waist.
    pub irradiance_ratio: f64,
    /// Peak dose of a scanned line over that at the waist.
    pub line_dose_ratio: f64,
    /// Spot **diameter** as the material sees it, widened by heat in a melt, in metres.
    pub seen_diameter: f64,
    /// The finest details that hold; none if nothing marks.
    pub smallest: Option<SmallestDetails>,
    /// Contrast of the ripple of the fill; none if the job names no line interval.
    pub ripple_contrast: Option<f64>,
    /// The smallest type of the job's typeface; none if the job has no text or nothing marks.
    pub smallest_text: Option<SmallestText>,
    /// How the job's text comes out; none if it has none.
    pub text_grade: Option<TextGrade>,
    /// Whether the drawing's finest stroke and gap both hold, and its text keeps its grade.
    pub details_hold: bool,
    /// Whether the place lies within the depth of focus.
    pub in_depth: bool,
}

/// The verdict on a [`Job`]. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum Outcome {
    /// Stroke and gap hold everywhere, and the surface stays within the depth of focus.
    Holds = 1,
    /// Stroke and gap hold everywhere, but the surface leaves the depth of focus.
    HoldsOutOfFocus = 2,
    /// Stroke, gap or text is lost somewhere, or the fill breaks up into its lines.
    Lost = 3,
    /// The dose is too little for the material: nothing marks, at any height.
    NothingMarks = 4,
}

impl Outcome {
    /// Every outcome, in the order of its code.
    pub const ALL: [Self; 4] = [Self::Holds, Self::HoldsOutOfFocus, Self::Lost, Self::NothingMarks];

    /// Short name, the same in documents and in the WebAssembly package.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Holds => "holds",
            Self::HoldsOutOfFocus => "holds out of focus",
            Self::Lost => "lost",
            Self::NothingMarks => "nothing marks",
        }
    }

    /// One sentence for the person at the machine.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::Holds => "The detail holds, and the whole surface is in focus.",
            Self::HoldsOutOfFocus => {
                "The detail holds, but part of the surface is outside the depth of focus."
            }
            Self::Lost => "The detail does not hold everywhere.",
            Self::NothingMarks => "Nothing marks, in focus or out of it.",
        }
    }
}

/// Why a verdict is what it is: a set of reasons. Bits are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Reasons(u32);

flags!(Reasons);

impl Reasons {
    /// The finest stroke is lost even in the waist: no focus height can save it.
    pub const STROKE_TOO_FINE: Self = Self(1);
    /// The finest gap fills even in the waist: no focus height can save it.
    pub const GAP_TOO_FINE: Self = Self(2);
    /// The finest stroke is lost at the highest place.
    pub const STROKE_LOST_HIGH: Self = Self(4);
    /// The finest stroke is lost at the lowest place.
    pub const STROKE_LOST_LOW: Self = Self(8);
    /// The finest gap fills at the highest place.
    pub const GAP_FILLED_HIGH: Self = Self(16);
    /// The finest gap fills at the lowest place.
    pub const GAP_FILLED_LOW: Self = Self(32);
    /// The highest place is outside the depth of focus.
    pub const HIGH_OUT_OF_FOCUS: Self = Self(64);
    /// The lowest place is outside the depth of focus.
    pub const LOW_OUT_OF_FOCUS: Self = Self(128);
    /// The waist is larger than the largest diameter allowed, so there is no depth of focus.
    pub const NO_DEPTH: Self = Self(256);
    /// Focus at mid-height of the surface would make the detail hold everywhere, and the lens has
    /// room above it.
    pub const REFOCUS_HELPS: Self = Self(512);
    /// Focus at mid-height of the surface would bring all of it into focus, and the lens has room
    /// above it.
    pub const REFOCUS_SHARPENS: Self = Self(1024);
    /// The text lacks its grade even in the waist: no focus height can save it.
    pub const TEXT_TOO_SMALL: Self = Self(2048);
    /// The text lacks its grade at the highest place.
    pub const TEXT_LOST_HIGH: Self = Self(4096);
    /// The text lacks its grade at the lowest place.
    pub const TEXT_LOST_LOW: Self = Self(8192);
    /// The lines of the fill leave gaps where the spot is smallest on the surface.
    pub const FILL_HAS_GAPS: Self = Self(16384);
    /// The dose is too little for the material, so that nothing marks at any height; no other reason then speaks
    /// of stroke, gap, text, fill or of another focus.
    pub const NOTHING_MARKS: Self = Self(32768);

    /// The detail would hold everywhere if the surface were engraved in bands of height, each in its own focus,
    /// and the lens has room for it; focus at mid-height alone would not do.
    pub const BANDS_HELP: Self = Self(65536);

    /// Somewhere the surface leans by more than [`CAUTION_INCIDENCE`](crate::CAUTION_INCIDENCE), which stretches
    /// the spot and lowers the dose there. Only [`surface_check`] knows.
    pub const STEEP: Self = Self(131_072);

    /// Nothing is known of part of the region, so that nothing is said of it. Only [`surface_check`] knows.
    pub const PARTLY_UNKNOWN: Self = Self(262_144);
    /// Where the surface is steepest, the dose is too little to mark. Only [`surface_check`] knows.
    pub const TOO_STEEP_TO_MARK: Self = Self(524_288);

    /// Every reason, in the order of its bit, with its sentence.
    pub const ALL: [(Self, &'static str); 20] = [
        (
            Self::STROKE_TOO_FINE,
            "The finest stroke is too fine for this spot and dose even in perfect focus: use a shorter lens or a larger raw beam, a higher dose, or a bolder drawing.",
        ),
        (
            Self::GAP_TOO_FINE,
            "The finest gap is too fine for this spot and dose even in perfect focus: use a shorter lens or a larger raw beam, a lower dose, or a more open drawing.",
        ),
        (Self::STROKE_LOST_HIGH, "The finest stroke is lost at the highest place."),
        (Self::STROKE_LOST_LOW, "The finest stroke is lost at the lowest place."),
        (Self::GAP_FILLED_HIGH, "The finest gap fills at the highest place."),
        (Self::GAP_FILLED_LOW, "The finest gap fills at the lowest place."),
        (Self::HIGH_OUT_OF_FOCUS, "The highest place is outside the depth of focus."),
        (Self::LOW_OUT_OF_FOCUS, "The lowest place is outside the depth of focus."),
        (Self::NO_DEPTH, "The spot is larger than the largest diameter allowed even in perfect focus."),
        (
            Self::REFOCUS_HELPS,
            "Setting focus at mid-height of the surface would make the detail hold everywhere.",
        ),
        (
            Self::REFOCUS_SHARPENS,
            "Setting focus at mid-height of the surface would bring all of it into focus.",
        ),
        (
            Self::TEXT_TOO_SMALL,
            "The text is too small for this spot and dose even in perfect focus: use a shorter lens or a larger raw beam, another dose, or larger or bolder type.",
        ),
        (Self::TEXT_LOST_HIGH, "The text suffers at the highest place."),
        (Self::TEXT_LOST_LOW, "The text suffers at the lowest place."),
        (
            Self::FILL_HAS_GAPS,
            "The lines of the fill leave gaps where the spot is smallest: use a finer interval or a higher dose.",
        ),
        (
            Self::NOTHING_MARKS,
            "The dose is too little for the material: use more power, less speed or a finer interval.",
        ),
        (
            Self::BANDS_HELP,
            "Engraving the surface in bands of height, each in its own focus, would make the detail hold everywhere.",
        ),
        (
            Self::STEEP,
            "Somewhere the surface leans so much that the spot is stretched and the dose falls there by more than 6 %: turn the part, or mark a narrower strip.",
        ),
        (
            Self::PARTLY_UNKNOWN,
            "Part of the marked region is unknown, for want of probes or beside the surface: nothing is said of it.",
        ),
        (
            Self::TOO_STEEP_TO_MARK,
            "Where the surface is steepest the dose is too little to mark: turn the part, mark a narrower strip, or raise the dose.",
        ),
    ];

    fn remove(&mut self, reason: Self) {
        self.0 &= !reason.0;
    }
}

/// What [`focus_check`] finds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Verdict {
    /// Whether the drawing holds.
    pub outcome: Outcome,
    /// Why.
    pub reasons: Reasons,
    /// What an ideal lens makes of the beam.
    pub focused: FocusedBeam,
    /// What the real lens makes of it: the verdict then rests on its 86.5 %-power spot. None if
    /// the job takes its lens for ideal.
    pub real: Option<SingletFocus>,
    /// The outcome of the same job with its lens taken for ideal: what the ideal lens would have
    /// promised.
    pub promised: Outcome,
    /// Where the waist lies relative to the datum, in metres, + away from the lens.
    pub focus_z: f64,
    /// The depth of focus by the job's criterion, counted from the waist; none if the waist is
    /// larger than the largest diameter allowed.
    pub depth: Option<FocusRange>,
    /// The heights at which the finest stroke and gap both hold, counted from the waist; none if
    /// they do not even hold there.
    pub detail_range: Option<FocusRange>,
    /// The heights at which the text keeps its grade, counted from the waist; none if it does not even
    /// there, if the job has no text, or if nothing is asked of it.
    pub text_range: Option<FocusRange>,
    /// Fill dose over the dose at which the material just marks.
    pub dose_ratio: f64,
    /// Dose of the scan in the waist; none if the job gives a ratio only. With a real lens the line dose is
    /// that of a Gaussian with the 86.5 %-power spot, the peak irradiance that of the real focus.
    pub scan: Option<ScanDose>,
    /// Depth that an even fill digs at its mean dose, in metres, whatever the height (where the fill is striped the
    /// depth follows its ripple); 0 if nothing marks; none for a coating or a melt, or if the job gives a ratio only.
    pub fill_depth: Option<f64>,
    /// The place of the surface nearest the lens.
    pub highest: Place,
    /// The datum of the surface.
    pub datum: Place,
    /// The place of the surface farthest from the lens.
    pub lowest: Place,
    /// Where to put the waist relative to the datum so that the worst growth is least: at
    /// mid-height of the surface. In metres, + away from the lens.
    pub best_focus_z: f64,
    /// Growth at both ends of the surface if focus is set there.
    pub best_worst_growth: f64,
    /// How far the numbers may be trusted: cones, and of a real lens its aberration, aperture and focus.
    pub validity: Validity,
}

/// Checks whether a drawing's finest stroke and gap hold over a surface, and says why.
///
/// The model's [module](self) says how; sources are those of the parts it is made of.
///
/// Accuracy: details, text, doses and depth at most 4 ulp, the seen spot 2, ripple as in
/// [`fill_quality`](super::mark::fill_quality), text as in [`smallest_text`](super::mark::smallest_text),
/// all else at most 0.75 ulp (`tests/vectors/focus_check.csv`); the ends of the ranges in which detail and
/// text hold at most 4 ulp times r²/(r² − 1), r being the largest spot that holds them over the waist. With
/// the dose of a scan, details and text also take on what they make of the dose ratio's rounding: that times
/// 1 + c, c being the relative change of the size over that of the dose. In a melt the seen spot comes
/// before them: details, text and ripple that times 3/2, ranges at most times 3. The depth of the fill is
/// that times 1 + q/(q − 1), q being the dose ratio.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field outside its range, in the order of
/// the fields of [`Job`] (optics first, and their [`Error::OutsideModel`] before the rest);
/// [`Error::OutsideModel`] also if the waist is virtual, so that nothing is in focus behind the lens
/// ([`Param::LensToWaist`]), if the surface reaches the lens ([`Param::LensToHighest`]), or if no closed
/// form gives the spot of a real lens: for a normalised aberration above 1.7, a clipping ratio below 1.2 or
/// a Rayleigh range above a fifth of the distance to the waist; and if the lines of a scan lie more than 20
/// radii of the waist apart, or its dose over the threshold is no [`Param::AnyDoseRatio`]. A glass opaque at
/// the wavelength is [`Error::OutOfRange`]. A largest diameter below the waist is no error but a finding:
/// [`Reasons::NO_DEPTH`]; so is a dose too little to mark: [`Outcome::NothingMarks`].
///
/// # Example
/// ```
/// use spotwise::model::check::{focus_check, FocusSetting, Job, JobDose, JobLens, Outcome, RawBeam};
/// use spotwise::model::focus::DepthCriterion;
/// let verdict = focus_check(&Job {
///     wavelength: 10.6e-6,
///     m2: 1.2,
///     raw_beam: RawBeam::Collimated { diameter_at_lens: 7e-3 },
///     focal_length: 38.1e-3,
///     lens: JobLens::Ideal,
///     focus: FocusSetting::FromDatum { focus_z: 0.0 },
///     surface_rise: 0.3e-3,
///     surface_fall: 0.3e-3,
///     criterion: DepthCriterion::Rayleigh,
///     finest_stroke: 0.1e-3,
///     finest_gap: 0.1e-3,
///     dose: JobDose::Ratio { dose_ratio: 2.7 },
///     text: None,
/// })?;
/// assert_eq!(verdict.outcome, Outcome::Holds);
/// assert_eq!((verdict.focused.waist_diameter * 1e9).round(), 88_143.0); // 88.1 µm
/// assert_eq!((verdict.highest.growth * 1e3).round(), 1179.0); // 18 % larger at either end
/// # Ok::<(), spotwise::Error>(())
/// ```
// Inline, so that a face converts the verdict in the frame in which it was made: 3 kB of a controller's stack.
#[inline]
#[must_use = "the verdict is the result"]
pub fn focus_check(job: &Job) -> Result<Verdict, Error> {
    verdict_over(job, &Heights::LEVEL)
}

/// Heights of a surface before the rise and the fall of a job are added, in metres from the datum, + away from the
/// lens.
struct Heights<'a> {
    highest: f64,
    lowest: f64,
    /// What of a range of heights no band of the surface can use.
    lost_to_bands: f64,
    /// The shape that has them; none where every height between the two is one of the surface.
    shape: Option<&'a Measured<'a>>,
}

impl Heights<'_> {
    /// A surface that is nothing but its datum: rise and fall are its own.
    const LEVEL: Self = Self { highest: 0.0, lowest: 0.0, lost_to_bands: 0.0, shape: None };

    /// The height at which the surface may lie, rise and fall included, that is nearest to another; of two as near
    /// the one toward the lens.
    fn nearest_to(&self, wanted: Twofold, rise: f64, fall: f64) -> Twofold {
        let mut nearest = Twofold::from(f64::INFINITY);
        let mut least = f64::INFINITY;
        let mut look_at = |highest: f64, lowest: f64| {
            let (highest_z, lowest_z) = (Twofold::sum(highest, -rise), Twofold::sum(lowest, fall));
            let (above, below) = ((highest_z - wanted).to_f64(), (wanted - lowest_z).to_f64());
            let (z, distance) = if above > 0.0 {
                (highest_z, above)
            } else if below > 0.0 {
                (lowest_z, below)
            } else {
                (wanted, 0.0)
            };
            if distance < least || (distance == least && (z - nearest).is_negative()) {
                (nearest, least) = (z, distance);
            }
        };
        match self.shape {
            Some(shape) => shape.for_each_stretch(look_at),
            None => look_at(self.highest, self.lowest),
        }
        nearest
    }
}

/// The verdict on a job whose surface lies between these heights.
// In the frame of either caller, as these are in that of a face: each copy of a verdict takes 1 kB of stack.
#[inline(always)]
fn verdict_over(job: &Job, heights: &Heights<'_>) -> Result<Verdict, Error> {
    let optics = optics_of(job)?;
    let verdict = judge(job, &optics.ideal, heights)?;
    let Some((real, focus)) = optics.real else {
        return Ok(verdict);
    };
    let promised = verdict.outcome;
    let ideal_peak = verdict.scan.map(|scan| scan.peak_irradiance);
    let verdict = judge(job, &focus, heights)?;
    // The spot of 86.5 % of the power is no Gaussian's: its peak is that of the ideal focus, lowered.
    let scan = verdict.scan.zip(ideal_peak).map(|(scan, ideal_peak)| {
        let peak_irradiance = ideal_peak * real.peak_irradiance_ratio;
        ScanDose { peak_irradiance, dwell: scan.line_dose / peak_irradiance, ..scan }
    });
    let numbers = LensNumbers::of(&real);
    let depth = verdict.depth.map(|depth| behind_a_lens(depth, job.criterion, &numbers));
    Ok(Verdict {
        focused: optics.ideal.focused,
        real: Some(real),
        depth,
        promised,
        scan,
        // Its places tell irradiance and line dose off focus.
        validity: real.validity.union(numbers.off_focus_caution()),
        ..verdict
    })
}

/// The beam on which the verdict of a job rests.
pub(crate) fn beam_of(job: &Job) -> Result<CheckedBeam, Error> {
    let optics = optics_of(job)?;
    Ok(optics.real.map_or(optics.ideal, |(_, focus)| focus).beam)
}

/// Refuses what [`focus_check`] would refuse of a job whatever its lens and focus.
pub(crate) fn check_all_but_lens(job: &Job) -> Result<(), Error> {
    raw_of(job)?;
    check(Param::SurfaceRise, job.surface_rise)?;
    check(Param::SurfaceFall, job.surface_fall)?;
    checked_criterion(job.criterion)?;
    check(Param::FinestStroke, job.finest_stroke)?;
    check(Param::FinestGap, job.finest_gap)?;
    // In the largest spot there is, no interval is too wide; the dose of the fill does not depend on the spot.
    let (_, widest) = Param::SpotDiameter.range();
    let fill = checked_fill(job.dose, widest)?;
    job.text.as_ref().map(|text| CheckedText::of(text, fill.q)).transpose()?;
    Ok(())
}

/// What the light of a job does: with its lens taken for ideal and, if more is known of it, as it is,
/// with the beam on which the verdict then rests.
struct Optics {
    ideal: CheckedFocus,
    real: Option<(SingletFocus, CheckedFocus)>,
}

/// The beam of a job on its way to the lens.
fn raw_of(job: &Job) -> Result<BeforeLens, Error> {
    let wavelength = check(Param::Wavelength, job.wavelength)?;
    let m2 = check(Param::M2, job.m2)?;
    let beam = |waist_diameter| Beam { wavelength, m2, waist_diameter };
    match job.raw_beam {
        RawBeam::Collimated { diameter_at_lens } => {
            before_lens(&beam(check(Param::DiameterAtLens, diameter_at_lens)?), 0.0)
        }
        RawBeam::Waist { waist_diameter, waist_to_lens } => before_lens(&beam(waist_diameter), waist_to_lens),
        RawBeam::Expanded {
            waist_diameter,
            waist_to_expander,
            magnification,
            exit_power,
            expander_to_lens,
        } => expanded_before_lens(
            &beam(waist_diameter),
            waist_to_expander,
            magnification,
            exit_power,
            expander_to_lens,
        ),
    }
}

fn optics_of(job: &Job) -> Result<Optics, Error> {
    let raw = raw_of(job)?;
    // A job focuses onto a surface, so its lens converges.
    let focal_length = check(Param::FocalLength, job.focal_length)?;
    match job.lens {
        JobLens::Ideal => {
            let ideal = real_waist(focus_of(&raw, focal_length)?)?;
            Ok(Optics { ideal, real: None })
        }
        JobLens::Singlet { glass, shape, clear_aperture } => {
            let lens = checked_singlet_of(glass, raw.wavelength, shape, focal_length)?;
            let clear_aperture = check_clear_aperture(clear_aperture)?;
            let found = singlet_focus_of(&raw, &lens, clear_aperture)?;
            let ideal = real_waist(found.ideal)?;
            let (beam, lens_to_waist) = found.power86()?;
            let real = real_waist(CheckedFocus { beam, lens_to_waist, ..ideal })?;
            Ok(Optics { ideal, real: Some((found.focus, real)) })
        }
    }
}

/// The fill of a job, checked.
struct JobFill {
    q: f64,
    scan: Option<ScanDose>,
    line_interval: Option<f64>,
    depth: Option<f64>,
    seen: SeenSpot,
}

fn checked_fill(dose: JobDose, waist_diameter: f64) -> Result<JobFill, Error> {
    match dose {
        JobDose::Ratio { dose_ratio } => Ok(JobFill {
            q: check(Param::AnyDoseRatio, dose_ratio)?,
            scan: None,
            line_interval: None,
            depth: None,
            seen: SeenSpot::AS_IT_IS,
        }),
        JobDose::Scan { power, speed, line_interval, threshold, response } => {
            let scan = scan_dose(&Scan {
                power,
                speed,
                diameter_across: waist_diameter,
                diameter_along: waist_diameter,
                line_interval,
            })?;
            let threshold = check(Param::Threshold, threshold)?;
            let response = response.checked()?;
            check_fill(waist_diameter, line_interval)?;
            let q = within_model(Param::AnyDoseRatio, scan.fill_dose / threshold)?;
            let depth = response.depth(scan.fill_dose, threshold);
            Ok(JobFill {
                q,
                scan: Some(scan),
                line_interval: Some(line_interval),
                depth: depth.map(|depth| if fill_marks(q) { depth } else { 0.0 }),
                seen: SeenSpot::of_scan(response, speed),
            })
        }
    }
}

/// The text of a job, checked.
struct CheckedText {
    /// None if nothing marks.
    limits: Option<TextLimits>,
    em: f64,
    least_grade: TextGrade,
}

impl CheckedText {
    fn of(text: &JobText, q: f64) -> Result<Self, Error> {
        let shape = LetterShape::checked(text.typeface)?;
        let em = check(Param::Em, text.em)?;
        let grades = text.grades.checked()?;
        let limits = fill_marks(q).then(|| TextLimits::of(q, &shape, &grades));
        Ok(Self { limits, em, least_grade: text.least_grade })
    }

    fn grade_of(&self, diameter: f64) -> TextGrade {
        self.limits.map_or(TextGrade::Lost, |limits| limits.grade_of(self.em, diameter))
    }

    fn keeps(&self, diameter: f64) -> bool {
        self.grade_of(diameter) <= self.least_grade
    }

    /// The largest spot in which the text keeps its grade; none if any does, or none.
    fn largest_spot(&self) -> Option<f64> {
        self.limits.and_then(|limits| limits.largest_spot(self.em, self.least_grade))
    }
}

/// Refuses a virtual waist, which is no focus: the light spreads from the lens on.
fn real_waist(focus: CheckedFocus) -> Result<CheckedFocus, Error> {
    within_model(Param::LensToWaist, focus.lens_to_waist.to_f64())?;
    Ok(focus)
}

/// The verdict on a job with this focus.
fn judge(job: &Job, optics: &CheckedFocus, heights: &Heights<'_>) -> Result<Verdict, Error> {
    let CheckedFocus { beam, lens_to_waist, focused, .. } = *optics;
    let focus_z = match job.focus {
        FocusSetting::FromDatum { focus_z } => Twofold::from(check(Param::FocusZ, focus_z)?),
        FocusSetting::LensHeight { lens_to_surface } => {
            lens_to_waist - Twofold::from(check(Param::LensToSurface, lens_to_surface)?)
        }
    };
    let rise = check(Param::SurfaceRise, job.surface_rise)?;
    let highest_z = Twofold::sum(heights.highest, -rise);
    let lens_to_highest = lens_to_waist - focus_z + highest_z;
    within_model(Param::LensToHighest, lens_to_highest.to_f64())?;
    let fall = check(Param::SurfaceFall, job.surface_fall)?;
    let lowest_z = Twofold::sum(heights.lowest, fall);
    let criterion = checked_criterion(job.criterion)?;
    let stroke = check(Param::FinestStroke, job.finest_stroke)?;
    let gap = check(Param::FinestGap, job.finest_gap)?;
    let JobFill { q, scan, line_interval, depth: fill_depth, seen } =
        checked_fill(job.dose, beam.waist_diameter)?;
    let text = job.text.as_ref().map(|text| CheckedText::of(text, q)).transpose()?;

    let depth = found(range_of(&beam, criterion))?;
    // Details and text go by the spot as the material sees it. Whether they hold in the waist decides whether
    // there is a range in which they do.
    let resolution = fill_marks(q).then(|| Resolution::at_dose(q));
    let details_of = |seen_diameter: f64| resolution.as_ref().map(|finest| finest.of_spot(seen_diameter));
    let hold = |finest: SmallestDetails| finest.bar <= stroke && finest.gap <= gap;
    let waist_seen = seen.of_spot(beam.waist_diameter);
    let in_waist = details_of(waist_seen);
    // The spot in which something just holds is no smaller than the waist, if it holds there.
    let range_to = |largest_seen: f64| {
        let widest = greater(seen.spot_seen_as(largest_seen), beam.waist_diameter);
        range_for_diameter(&beam, Param::SpotDiameter, widest)
    };
    let detail_range = match &resolution {
        Some(finest) if in_waist.is_some_and(hold) => Some(range_to(finest.largest_spot(stroke, gap))?),
        _ => None,
    };
    let text_keeps = |seen_diameter: f64| text.as_ref().is_none_or(|text| text.keeps(seen_diameter));
    let text_range = match &text {
        Some(text) if text.keeps(waist_seen) => text.largest_spot().map(range_to).transpose()?,
        _ => None,
    };

    let place = |offset: Twofold| {
        let z_offset = offset.to_f64();
        let defocus = checked_defocus(&beam, offset);
        let seen_diameter = seen.of_spot(defocus.diameter);
        let smallest = details_of(seen_diameter);
        let limits = text.as_ref().and_then(|text| text.limits);
        Place {
            z_offset,
            diameter: defocus.diameter,
            growth: defocus.growth,
            irradiance_ratio: defocus.irradiance_ratio,
            line_dose_ratio: defocus.line_dose_ratio,
            seen_diameter,
            smallest,
            ripple_contrast: line_interval.map(|interval| ripple_contrast(seen_diameter, interval)),
            smallest_text: limits.map(|limits| limits.of_spot(seen_diameter)),
            text_grade: text.as_ref().map(|text| text.grade_of(seen_diameter)),
            details_hold: smallest.is_some_and(hold) && text_keeps(seen_diameter),
            in_depth: depth.is_some_and(|depth| depth.contains(z_offset)),
        }
    };
    let nearest_to = |z: Twofold| heights.nearest_to(z, rise, fall);
    let highest = place(highest_z - focus_z);
    // A surface that misses its datum is told by its place nearest to it.
    let datum = place(nearest_to(Twofold::ZERO) - focus_z);
    let lowest = place(lowest_z - focus_z);

    // The ends are then equally far from the waist on either side.
    let half = Twofold::from(0.5);
    let best_focus = half * (lowest_z + highest_z);
    let half_span = half * (lowest_z - highest_z);
    let at_best = place(half_span);

    // Lines lie apart the most where the spot is smallest: where the surface comes nearest to the waist.
    let striped = |seen_diameter: f64| {
        fill_marks(q)
            && line_interval.is_some_and(|interval| q * least_over_mean(seen_diameter, interval) < 1.0)
    };
    let striped_with =
        |focus: Twofold| striped(seen.of_spot(checked_defocus(&beam, nearest_to(focus) - focus).diameter));
    let gaps = striped_with(focus_z);

    let marks = in_waist.is_some();
    let holds = highest.details_hold && datum.details_hold && lowest.details_hold && !gaps;
    let in_depth = highest.in_depth && datum.in_depth && lowest.in_depth;
    let outcome = match (holds, in_depth) {
        (true, true) => Outcome::Holds,
        (true, false) => Outcome::HoldsOutOfFocus,
        (false, _) if marks => Outcome::Lost,
        (false, _) => Outcome::NothingMarks,
    };

    let mut reasons = Reasons::default();
    reasons.add(Reasons::NOTHING_MARKS, !marks);
    if let (Some(in_waist), Some(high), Some(low)) = (in_waist, highest.smallest, lowest.smallest) {
        reasons.add(Reasons::STROKE_TOO_FINE, in_waist.bar > stroke);
        reasons.add(Reasons::GAP_TOO_FINE, in_waist.gap > gap);
        reasons.add(Reasons::STROKE_LOST_HIGH, high.bar > stroke);
        reasons.add(Reasons::STROKE_LOST_LOW, low.bar > stroke);
        reasons.add(Reasons::GAP_FILLED_HIGH, high.gap > gap);
        reasons.add(Reasons::GAP_FILLED_LOW, low.gap > gap);
        reasons.add(Reasons::TEXT_TOO_SMALL, !text_keeps(waist_seen));
        reasons.add(Reasons::TEXT_LOST_HIGH, !text_keeps(highest.seen_diameter));
        reasons.add(Reasons::TEXT_LOST_LOW, !text_keeps(lowest.seen_diameter));
        reasons.add(Reasons::FILL_HAS_GAPS, gaps);
    }
    reasons.add(Reasons::HIGH_OUT_OF_FOCUS, !highest.in_depth);
    reasons.add(Reasons::LOW_OUT_OF_FOCUS, !lowest.in_depth);
    reasons.add(Reasons::NO_DEPTH, depth.is_none());
    let room = (lens_to_waist - half_span).to_f64() > 0.0;
    let refocus_helps = !holds && !striped_with(best_focus) && at_best.details_hold && room;
    reasons.add(Reasons::REFOCUS_HELPS, refocus_helps);
    reasons.add(Reasons::REFOCUS_SHARPENS, marks && !in_depth && at_best.in_depth && room);
    // The lens must clear the highest place when it is focused on the lowest.
    let room_for_bands = (lens_to_waist - half_span - half_span).to_f64() > 0.0;
    let holding = holding_range(detail_range, text_range, text_keeps(waist_seen));
    let bands = holding.is_some_and(|range| range.full > heights.lost_to_bands);
    // A band may take the surface through the waist.
    let bands_help = !holds && !striped(waist_seen) && bands;
    reasons.add(Reasons::BANDS_HELP, bands_help && !refocus_helps && room_for_bands);

    Ok(Verdict {
        outcome,
        reasons,
        focused,
        real: None,
        promised: outcome,
        focus_z: focus_z.to_f64(),
        depth,
        detail_range,
        text_range,
        dose_ratio: q,
        scan,
        fill_depth,
        highest,
        datum,
        lowest,
        best_focus_z: best_focus.to_f64(),
        best_worst_growth: at_best.growth,
        validity: beam.cone.validity,
    })
}

/// The heights at which stroke, gap and text hold together; none if one of them does not even in the waist.
fn holding_range(
    detail_range: Option<FocusRange>,
    text_range: Option<FocusRange>,
    text_keeps_in_waist: bool,
) -> Option<FocusRange> {
    match (detail_range, text_range) {
        (Some(_), _) if !text_keeps_in_waist => None,
        // Both are even about the waist.
        (Some(detail), Some(text)) if text.full < detail.full => Some(text),
        (detail, _) => detail,
    }
}

fn found(range: Result<FocusRange, Error>) -> Result<Option<FocusRange>, Error> {
    match range {
        Ok(range) => Ok(Some(range)),
        Err(Error::Unreachable { .. }) => Ok(None),
        Err(error) => Err(error),
    }
}
