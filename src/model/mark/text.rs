//! Text: which letters a spot can still write.
//!
//! | symbol | meaning                                                            | unit | valid       |
//! |--------|--------------------------------------------------------------------|------|-------------|
//! | em     | size of the type; 1 point is 1/72 inch, 0.352778 mm                | m    | 1e-9 … 10   |
//! | d, w   | spot **diameter** 1/e² and its half                                | m    | 1e-9 … 10   |
//! | q      | dose ratio                                                         | 1    | 1.000001 … 1e6 |
//! | s, g   | stroke and gap, in ems, to which a typeface amounts                | 1    | 0.001 … 1   |
//! | stem   | width of an upright stem, in ems                                   | 1    | 0.001 … 1   |
//! | t      | √2·em/d                                                            | 1    |             |
//! |        | cut-off of *crisp*: share of the fill dose                         | 1    | 0.5 … 0.999999 |
//! |        | cut-offs of *good* and *readable*: dose windows                    | 1    | 1 … 1000    |
//!
//! least dose ratio at which no stroke is lost = 1/erf(s·(t + √8)), a stroke of s·(1 + 4w/em) ems: as the blur
//! grows, the strokes around feed each other
//! greatest at which no gap is filled = 1/erfc(g·t)
//! dose window = greatest over least; below 1 no power can save the letter: only focus or lens can
//!
//! | grade    | holds while                                                                    |
//! |----------|--------------------------------------------------------------------------------|
//! | crisp    | good, and the middle of a stem gets 98 % of the fill dose: erf(stem·t) ≥ 0.98   |
//! | good     | window ≥ 2, letters apart and counters open, and the dose ratio lies in the window |
//! | readable | good; or window ≥ 1.1, counters open, and the dose ratio lies in the window     |
//!
//! The three cut-offs are parameters. Their defaults were set so that the answers agree with common
//! practice; nothing else validates them.
//!
//! A letter of a typeface holds as one long stroke of s ems (fed by the strokes around it) and one long gap
//! of g ems would: s and g were fitted to simulated letters (outline blurred by a Gaussian and marked above a
//! threshold; strokes whole, counters open, and for *good* neighbours apart), and the shares of stems and
//! heights measured, in 30 openly licensed fonts. `tests/tables/typefaces.csv` has every font with its
//! version, licence and shares, and `tests/reference/measure_fonts.py` the method. Two of the fits were moved
//! on purpose: the counters of bold type, which the fit makes too wide, and the gaps of serif type, which no
//! one fit serves.
//!
//! What the law is worth: the em that it asks for is not the em that each font of a kind needs. The first over
//! the second, at windows of 1.1 and 2, is by counters alone off by −15 … +14 % (sans), −17 … +5 % (bold),
//! −12 … +19 % (light), −33 … +26 % (serif), −4 … +5 % (monospaced); with the gaps between letters by
//! −33 … +44 %, −31 … +19 %, −30 … +45 %, −33 … +68 % and −2 … +19 %, since fonts of a kind are spaced
//! differently (`tests/tables/typefaces.rs` fails if one is exceeded). Where it is below zero the law asks
//! for type that is too small. So a grade is a guide for a kind; measure your own typeface for more.
//!
//! Derived here. Point: PostScript and OpenType (units of 1/72 inch). Not modelled: hinting, the raster of
//! the artwork, kerning, scripts other than Latin.

use super::detail::{bar_argument, gap_argument};
use crate::error::{Error, Param, check};
use crate::model::focus::{checked_defocus, offset_for_diameter};
use crate::model::math;
use crate::model::optics::{Beam, checked_beam};
use crate::validity::Validity;
use core::f64::consts::{FRAC_1_SQRT_2, SQRT_2};

/// Metres in a point of 1/72 inch.
pub const POINT: f64 = 0.0254 / 72.0;

/// Measured shares of the em.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TypefaceShares {
    /// Height of capitals.
    pub cap_height: f64,
    /// Height of small letters without ascender.
    pub x_height: f64,
    /// Height of digits.
    pub digit_height: f64,
    /// Width of an upright stem.
    pub stem: f64,
    /// Thinnest stroke of any letter or digit.
    pub thinnest_stroke: f64,
    /// **Diameter** of the largest circle in the smallest counter.
    pub smallest_counter: f64,
    /// The stroke to which the typeface amounts.
    pub effective_stroke: f64,
    /// The gap to which its counters amount.
    pub effective_counter: f64,
    /// The gap to which its counters and the gaps between letters amount.
    pub effective_gap: f64,
}

/// A kind of typeface, or one that the user has measured.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Typeface {
    /// Sans serif of regular weight. Code 1.
    Sans,
    /// Sans serif, bold. Code 2.
    BoldSans,
    /// Sans serif, light. Code 3.
    LightSans,
    /// With serifs, regular weight. Code 4.
    Serif,
    /// All letters of one width. Code 5.
    Monospaced,
    /// Measured by the user: stem, effective stroke, counter and gap, in ems. Code 6.
    Measured {
        /// Width of an upright stem.
        stem: f64,
        /// The stroke to which the typeface amounts.
        effective_stroke: f64,
        /// The gap to which its counters amount.
        effective_counter: f64,
        /// The gap to which its counters and the gaps between letters amount.
        effective_gap: f64,
    },
}

impl Typeface {
    /// Permanent number of this kind, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(&self) -> u32 {
        match self {
            Self::Sans => 1,
            Self::BoldSans => 2,
            Self::LightSans => 3,
            Self::Serif => 4,
            Self::Monospaced => 5,
            Self::Measured { .. } => 6,
        }
    }

    /// The kind with this permanent code, ignoring the shares where the code does not name them.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code. The shares are checked when they are used.
    pub fn from_code(
        code: u32,
        stem: f64,
        effective_stroke: f64,
        effective_counter: f64,
        effective_gap: f64,
    ) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::Sans),
            2 => Ok(Self::BoldSans),
            3 => Ok(Self::LightSans),
            4 => Ok(Self::Serif),
            5 => Ok(Self::Monospaced),
            6 => Ok(Self::Measured { stem, effective_stroke, effective_counter, effective_gap }),
            value => Err(Error::UnknownChoice { param: Param::Typeface, value }),
        }
    }

    /// Name, the same in documents and in the WebAssembly package.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Sans => "sans",
            Self::BoldSans => "bold sans",
            Self::LightSans => "light sans",
            Self::Serif => "serif",
            Self::Monospaced => "monospaced",
            Self::Measured { .. } => "measured",
        }
    }
}

/// Where the grades of text begin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TextGrades {
    /// Share of the fill dose that the middle of a stem must get to be crisp.
    pub crisp_exposure: f64,
    /// Least dose window of good text.
    pub good_window: f64,
    /// Least dose window of readable text.
    pub readable_window: f64,
}

impl Default for TextGrades {
    /// 0.98, 2 and 1.1: set to agree with common practice, and not otherwise validated.
    fn default() -> Self {
        Self { crisp_exposure: 0.98, good_window: 2.0, readable_window: 1.1 }
    }
}

impl TextGrades {
    /// Checks each of them.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] for one that is not what it may be.
    pub fn checked(self) -> Result<Self, Error> {
        check(Param::CrispExposure, self.crisp_exposure)?;
        check(Param::DoseWindow, self.good_window)?;
        check(Param::DoseWindow, self.readable_window)?;
        Ok(self)
    }
}

/// How well text comes out. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum TextGrade {
    /// Edges as sharp as the spot makes them, stems at full dose.
    Crisp = 1,
    /// Letters whole, apart and open, with room for error in the dose.
    Good = 2,
    /// Just readable.
    Readable = 3,
    /// Strokes lost or counters filled.
    Lost = 4,
}

impl TextGrade {
    /// Every grade, in the order of its code.
    pub const ALL: [Self; 4] = [Self::Crisp, Self::Good, Self::Readable, Self::Lost];

    /// The grade with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub fn from_code(code: u32) -> Result<Self, Error> {
        Self::ALL
            .into_iter()
            .find(|grade| *grade as u32 == code)
            .ok_or(Error::UnknownChoice { param: Param::TextGrade, value: code })
    }

    /// Name, the same in documents and in the WebAssembly package.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Crisp => "crisp",
            Self::Good => "good",
            Self::Readable => "readable",
            Self::Lost => "lost",
        }
    }
}

/// The smallest type of each grade, as em in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SmallestText {
    /// The smallest em at which text is crisp.
    pub crisp_em: f64,
    /// The smallest em at which it is good.
    pub good_em: f64,
    /// The smallest em at which it can be read.
    pub readable_em: f64,
}

/// How text of one size comes out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TextQuality {
    /// The best grade that holds.
    pub grade: TextGrade,
    /// Dose on the middle of a stem over that of a wide fill.
    pub stem_exposure: f64,
    /// Least dose ratio at which no stroke is lost.
    pub least_dose_ratio: f64,
    /// Greatest dose ratio at which counters stay open and letters apart; may be +∞.
    pub greatest_dose_ratio: f64,
    /// Greatest dose ratio at which counters stay open; may be +∞.
    pub greatest_dose_ratio_for_counters: f64,
}

/// How far text may be out of focus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TextOffset {
    /// Largest magnitude of the offset from the waist in metres, alike on either side.
    pub offset: f64,
    /// Spot **diameter** there in metres, 1/e² (D4σ).
    pub spot_diameter: f64,
    /// Half angle of the cone in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// What a grade asks of a typeface at a dose, already checked: the least t of each grade.
#[derive(Clone, Copy)]
pub(crate) struct TextLimits {
    crisp: f64,
    good: f64,
    readable: f64,
}

/// The shares of the em that the grades need, checked.
#[derive(Clone, Copy)]
pub(crate) struct LetterShape {
    stem: f64,
    stroke: f64,
    counter: f64,
    gap: f64,
}

impl LetterShape {
    pub(crate) fn checked(typeface: Typeface) -> Result<Self, Error> {
        if let Typeface::Measured { stem, effective_stroke, effective_counter, effective_gap } = typeface {
            return Ok(Self {
                stem: check(Param::StemShare, stem)?,
                stroke: check(Param::StrokeShare, effective_stroke)?,
                counter: check(Param::CounterShare, effective_counter)?,
                gap: check(Param::GapShare, effective_gap)?,
            });
        }
        let shares = kind_shares(typeface);
        Ok(Self {
            stem: shares.stem,
            stroke: shares.effective_stroke,
            counter: shares.effective_counter,
            gap: shares.effective_gap,
        })
    }
}

/// √8, by which t grows in the law of strokes.
const FED: f64 = 2.0 * SQRT_2;

/// Least t at which the window erf(s·(t + √8))/erfc(g·t), which grows with t, reaches `least`.
fn t_for_window(stroke: f64, gap: f64, least: f64) -> f64 {
    // At the far end erfc is all but nothing.
    let (mut low, mut high) = (0.0, 26.0 / gap);
    for _ in 0..64 {
        let t = 0.5 * (low + high);
        if math::erf(stroke * (t + FED)) >= least * math::erfc(gap * t) {
            high = t;
        } else {
            low = t;
        }
    }
    high
}

fn greatest(values: [f64; 3]) -> f64 {
    values.into_iter().fold(0.0, |greatest, value| math::greater(value, greatest))
}

impl TextLimits {
    /// Of what is checked already; the fill marks at `q`.
    pub(crate) fn of(q: f64, shape: &LetterShape, grades: &TextGrades) -> Self {
        let stroke = bar_argument(q) / shape.stroke - FED;
        let grade = |gap: f64, window: f64| {
            greatest([t_for_window(shape.stroke, gap, window), stroke, gap_argument(q) / gap])
        };
        let good = grade(shape.gap, grades.good_window);
        let readable = grade(shape.counter, grades.readable_window);
        let stem = math::inverse_erf(grades.crisp_exposure, 1.0 - grades.crisp_exposure) / shape.stem;
        // Good text can be read, whatever the cut-offs.
        let readable = math::lesser(readable, good);
        Self { crisp: greatest([stem, good, 0.0]), good, readable }
    }

    /// em = t·d/√2.
    pub(crate) fn of_spot(&self, diameter: f64) -> SmallestText {
        let scale = diameter * FRAC_1_SQRT_2;
        SmallestText {
            crisp_em: self.crisp * scale,
            good_em: self.good * scale,
            readable_em: self.readable * scale,
        }
    }

    /// The least t of a grade; 0 for one that asks for nothing.
    fn of_grade(&self, grade: TextGrade) -> f64 {
        match grade {
            TextGrade::Crisp => self.crisp,
            TextGrade::Good => self.good,
            TextGrade::Readable => self.readable,
            TextGrade::Lost => 0.0,
        }
    }

    /// The best grade that text of this size keeps.
    pub(crate) fn grade_of(&self, em: f64, diameter: f64) -> TextGrade {
        let t = SQRT_2 * (em / diameter);
        TextGrade::ALL.into_iter().find(|grade| t >= self.of_grade(*grade)).unwrap_or(TextGrade::Lost)
    }

    /// The largest spot **diameter** with which text of this size keeps a grade; none if any does.
    pub(crate) fn largest_spot(&self, em: f64, grade: TextGrade) -> Option<f64> {
        let t = self.of_grade(grade);
        (t > 0.0).then(|| SQRT_2 * (em / t))
    }
}

/// Checks dose ratio, typeface and cut-offs in this order.
fn checked_text(
    dose_ratio: f64,
    typeface: Typeface,
    grades: &TextGrades,
) -> Result<(LetterShape, TextLimits), Error> {
    let q = check(Param::DoseRatio, dose_ratio)?;
    let shape = LetterShape::checked(typeface)?;
    Ok((shape, TextLimits::of(q, &shape, &grades.checked()?)))
}

/// Measured shares of a kind of typeface; those of [`Typeface::Measured`] that were not given are NaN.
///
/// Medians of fonts, and fits to them: where they are from, and how far fonts of a kind differ, in the
/// [module](self).
///
/// Accuracy: heights, stem and thinnest stroke are within 0.0006 em of the median of the fonts measured, the
/// smallest counter within 3 % of it, and the effective shares within 1 % of their fits but for the two that
/// were moved (`tests/tables/typefaces.rs`); these constants, and what the user gave, come back as they are
/// (`tests/vectors/typeface_shares.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a share given by the user.
///
/// # Example
/// ```
/// use spotwise::model::mark::{typeface_shares, Typeface};
/// let sans = typeface_shares(Typeface::Sans)?;
/// // Medians of the eight fonts of this kind in tests/tables/typefaces.csv: 0.7124, 0.5283, 0.0869.
/// assert_eq!((sans.cap_height, sans.x_height, sans.stem), (0.712, 0.528, 0.087));
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the shares are the result"]
pub fn typeface_shares(typeface: Typeface) -> Result<TypefaceShares, Error> {
    LetterShape::checked(typeface)?;
    Ok(kind_shares(typeface))
}

/// The smallest type that comes out crisp, good and readable with this spot and dose.
///
/// Formulas, grades and sources in the [module](self).
///
/// Accuracy of evaluation: at most 4 ulp; where a dose window decides that times 1 + 1/k, with k the slope
/// d ln(window)/d ln t of the window there, seldom below 1 (`tests/vectors/smallest_text.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments and their fields.
///
/// # Example
/// ```
/// use spotwise::model::mark::{smallest_text, TextGrades, Typeface, POINT};
/// let text = smallest_text(88e-6, 2.7, Typeface::Sans, &TextGrades::default())?;
/// // With 30 digits, elsewhere: the stem decides crisp, at t = 18.9078; the window good, at 8.3872; a stroke
/// // at this dose readable, at 5.1389; each times 88 µm/√2.
/// assert_eq!((text.crisp_em / POINT * 1e4).round(), 33_351.0); // an 88 µm spot holds 4 point text
/// assert_eq!((text.good_em / POINT * 1e4).round(), 14_794.0);
/// assert_eq!((text.readable_em / POINT * 1e4).round(), 9064.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "point size")]
#[doc(alias = "minimum font size")]
#[must_use = "the sizes are the result"]
pub fn smallest_text(
    spot_diameter: f64,
    dose_ratio: f64,
    typeface: Typeface,
    grades: &TextGrades,
) -> Result<SmallestText, Error> {
    let d = check(Param::SpotDiameter, spot_diameter)?;
    let (_, limits) = checked_text(dose_ratio, typeface, grades)?;
    Ok(limits.of_spot(d))
}

/// How text of one size comes out with this spot and dose.
///
/// Formulas, grades and sources in the [module](self). `em` is the size of the type in metres.
///
/// Accuracy of evaluation: at most 4 ulp, the greatest dose ratios 6 ulp times 1 + (g·t)²
/// (`tests/vectors/text_quality.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the arguments and their fields.
///
/// # Example
/// ```
/// use spotwise::model::mark::{text_quality, TextGrade, TextGrades, Typeface, POINT};
/// let quality = text_quality(88e-6, 4.0 * POINT, 2.7, Typeface::Sans, &TextGrades::default())?;
/// assert_eq!(quality.grade, TextGrade::Crisp);
/// // By hand: t = √2·4·0.352778 mm/88 µm = 22.677, 1/erf(0.0428·(t + √8)) = 1.1398, 1/erfc(0.0967·t) = 518.9.
/// assert_eq!((quality.least_dose_ratio * 1e4).round(), 11_398.0);
/// assert_eq!((quality.greatest_dose_ratio * 10.0).round(), 5189.0);
/// assert_eq!((quality.stem_exposure * 1e4).round(), 9947.0); // erf(0.087·t)
/// assert_eq!(quality.greatest_dose_ratio_for_counters.round(), 176_091.0); // 1/erfc(0.1415·t)
/// let fine = text_quality(88e-6, 0.5 * POINT, 2.7, Typeface::Sans, &TextGrades::default())?;
/// assert_eq!(fine.grade, TextGrade::Lost);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the quality is the result"]
pub fn text_quality(
    spot_diameter: f64,
    em: f64,
    dose_ratio: f64,
    typeface: Typeface,
    grades: &TextGrades,
) -> Result<TextQuality, Error> {
    let d = check(Param::SpotDiameter, spot_diameter)?;
    let em = check(Param::Em, em)?;
    let (shape, limits) = checked_text(dose_ratio, typeface, grades)?;
    let t = SQRT_2 * (em / d);
    Ok(TextQuality {
        grade: limits.grade_of(em, d),
        stem_exposure: math::erf(shape.stem * t),
        least_dose_ratio: 1.0 / math::erf(shape.stroke * (t + FED)),
        greatest_dose_ratio: 1.0 / math::erfc(shape.gap * t),
        greatest_dose_ratio_for_counters: 1.0 / math::erfc(shape.counter * t),
    })
}

/// The largest offset from focus at which text of one size keeps a grade.
///
/// Formulas, grades and sources in the [module](self). `em` is the size of the type in metres.
///
/// Accuracy of evaluation: the spot as the sizes of [`smallest_text`], the offset that times r²/(r² − 1), r
/// being the growth there (`tests/vectors/offset_for_text.csv`).
///
/// # Errors
/// [`Error::UnknownChoice`] for [`TextGrade::Lost`], which nothing need keep; [`Error::NotFinite`] or
/// [`Error::OutOfRange`] for a field of the beam, then in the order of the arguments;
/// [`Error::Unreachable`] if the text lacks the grade even in the waist; [`Error::OutsideModel`] if the half
/// angle exceeds 0.3 rad.
///
/// # Example
/// ```
/// use spotwise::model::mark::{offset_for_text, TextGrade, TextGrades, Typeface, POINT};
/// use spotwise::model::optics::Beam;
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let grades = TextGrades::default();
/// let good = offset_for_text(&beam, 4.0 * POINT, TextGrade::Good, 2.7, Typeface::Sans, &grades)?;
/// let readable = offset_for_text(&beam, 4.0 * POINT, TextGrade::Readable, 2.7, Typeface::Sans, &grades)?;
/// // By smallest_text, at 4 points the spot may be 88 µm·4/1.47939 = 237.9 µm for good and 88 µm·4/0.90643 =
/// // 388.3 µm for readable: that far off, 0.478154 mm·√((d/88 µm)² − 1).
/// assert_eq!((good.offset * 1e9).round(), 1_201_169.0); // 1.2 mm
/// assert_eq!((good.spot_diameter * 1e9).round(), 237_936.0);
/// assert_eq!((readable.offset * 1e9).round(), 2_055_159.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the offset is the result"]
pub fn offset_for_text(
    beam: &Beam,
    em: f64,
    grade: TextGrade,
    dose_ratio: f64,
    typeface: Typeface,
    grades: &TextGrades,
) -> Result<TextOffset, Error> {
    let not_offered = Error::UnknownChoice { param: Param::TextGrade, value: grade as u32 };
    if grade == TextGrade::Lost {
        return Err(not_offered);
    }
    let checked = checked_beam(beam)?;
    let em = check(Param::Em, em)?;
    let (_, limits) = checked_text(dose_ratio, typeface, grades)?;
    let largest_spot = limits.largest_spot(em, grade).ok_or(not_offered)?;
    if largest_spot < checked.waist_diameter {
        let least = limits.of_grade(grade) * (checked.waist_diameter * FRAC_1_SQRT_2);
        let (_, greatest) = Param::Em.range();
        return Err(Error::Unreachable { param: Param::Em, value: em, least, greatest });
    }
    let offset = offset_for_diameter(&checked, largest_spot);
    let spot = checked_defocus(&checked, offset);
    Ok(TextOffset {
        offset: offset.to_f64(),
        spot_diameter: spot.diameter,
        half_angle: spot.half_angle,
        validity: spot.validity,
    })
}

/// What was measured of each kind.
const fn kind_shares(typeface: Typeface) -> TypefaceShares {
    match typeface {
        Typeface::Sans => SANS,
        Typeface::BoldSans => BOLD_SANS,
        Typeface::LightSans => LIGHT_SANS,
        Typeface::Serif => SERIF,
        Typeface::Monospaced => MONOSPACED,
        Typeface::Measured { stem, effective_stroke, effective_counter, effective_gap } => TypefaceShares {
            cap_height: f64::NAN,
            x_height: f64::NAN,
            digit_height: f64::NAN,
            stem,
            thinnest_stroke: f64::NAN,
            smallest_counter: f64::NAN,
            effective_stroke,
            effective_counter,
            effective_gap,
        },
    }
}

const SANS: TypefaceShares = TypefaceShares {
    cap_height: 0.712,
    x_height: 0.528,
    digit_height: 0.714,
    stem: 0.087,
    thinnest_stroke: 0.043,
    smallest_counter: 0.154,
    effective_stroke: 0.0428,
    effective_counter: 0.1415,
    effective_gap: 0.0967,
};
const BOLD_SANS: TypefaceShares = TypefaceShares {
    cap_height: 0.714,
    x_height: 0.528,
    digit_height: 0.714,
    stem: 0.147,
    thinnest_stroke: 0.065,
    smallest_counter: 0.111,
    effective_stroke: 0.067,
    effective_counter: 0.094,
    effective_gap: 0.0777,
};
const LIGHT_SANS: TypefaceShares = TypefaceShares {
    cap_height: 0.709,
    x_height: 0.513,
    digit_height: 0.712,
    stem: 0.048,
    thinnest_stroke: 0.028,
    smallest_counter: 0.175,
    effective_stroke: 0.0261,
    effective_counter: 0.1774,
    effective_gap: 0.1166,
};
const SERIF: TypefaceShares = TypefaceShares {
    cap_height: 0.655,
    x_height: 0.459,
    digit_height: 0.654,
    stem: 0.081,
    thinnest_stroke: 0.027,
    smallest_counter: 0.141,
    effective_stroke: 0.0289,
    effective_counter: 0.1296,
    effective_gap: 0.075,
};
const MONOSPACED: TypefaceShares = TypefaceShares {
    cap_height: 0.718,
    x_height: 0.543,
    digit_height: 0.718,
    stem: 0.089,
    thinnest_stroke: 0.043,
    smallest_counter: 0.158,
    effective_stroke: 0.0454,
    effective_counter: 0.1484,
    effective_gap: 0.1243,
};
