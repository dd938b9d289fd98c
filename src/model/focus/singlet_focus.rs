//! Z-offset and depth of focus behind a real single-piece lens.
//!
//! The beam behind the lens is taken for a hyperbola about the waist of the measure asked for, with the
//! Rayleigh range that [`focus_singlet`](crate::model::optics::focus_singlet) gives: exact for second
//! moments, fitted for 86.5 % of the power, where the growth off focus is off by as much as
//! [`singlet`](crate::model::optics::singlet) states. So both ends of the range are equally far from that
//! waist. The true ends differ where the lens aberrates:
//! [`wave_depth_of_focus`](crate::model::focus::wave_depth_of_focus) finds them.
//!
//! Irradiance and line dose off focus are those of this Gaussian beam, and so is a depth of focus by either. The
//! true ones are less even on the two sides; [`Validity::GAUSSIAN_OFF_FOCUS`] says by how much, and stands wherever
//! they are told with a normalised aberration above
//! [`CAUTION_OFF_FOCUS_IRRADIANCE`](crate::CAUTION_OFF_FOCUS_IRRADIANCE) or a clipping ratio below
//! [`CAUTION_OFF_FOCUS_CLIPPING`](crate::CAUTION_OFF_FOCUS_CLIPPING).
//!
//! The results carry the flags of the lens, its aperture and its focus, with the numbers behind them, so
//! that no number of a beam made by a real lens comes without them. Formulas and sources: those of
//! [`offset`](super::offset) and [`depth`](super::depth).

use super::depth::{DepthCriterion, FocusRange, checked_criterion, range_of};
use super::offset::{Defocus, checked_defocus};
use crate::error::{Error, Param, check};
use crate::model::optics::{Beam, CheckedBeam, Singlet, SingletFocus, SpotMeasure, checked_singlet_beam};
use crate::model::twofold::Twofold;
use crate::validity::Validity;

/// The numbers behind the flags of a single-piece lens, as
/// [`focus_singlet`](crate::model::optics::focus_singlet) gives them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LensNumbers {
    /// Magnitude of the aberration phase over M².
    pub normalised_aberration: f64,
    /// Clear aperture over beam diameter at the lens; infinite without an aperture.
    pub clipping_ratio: f64,
    /// Magnitude of the focus shift of the ideal lens over its focal length.
    pub relative_focus_shift: f64,
    /// Rayleigh range of the ideal waist over the magnitude of its distance from the lens.
    pub relative_rayleigh_range: f64,
}

impl LensNumbers {
    pub(crate) fn of(focus: &SingletFocus) -> Self {
        Self {
            normalised_aberration: focus.normalised_aberration,
            clipping_ratio: focus.clipping_ratio,
            relative_focus_shift: focus.relative_focus_shift,
            relative_rayleigh_range: focus.relative_rayleigh_range,
        }
    }

    /// The caution for irradiance and line dose off focus.
    pub(crate) fn off_focus_caution(&self) -> Validity {
        Validity::of_off_focus_irradiance(self.normalised_aberration, self.clipping_ratio)
    }
}

/// A surface off the focus of a single-piece lens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SingletDefocus {
    /// The spot there, by the measure asked for, with the flags of the lens.
    pub defocus: Defocus,
    /// The numbers behind those flags.
    pub numbers: LensNumbers,
}

/// Depth of focus behind a single-piece lens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SingletDepth {
    /// The range, counted from the waist of the measure asked for, with the flags of the lens.
    pub range: FocusRange,
    /// The numbers behind those flags.
    pub numbers: LensNumbers,
}

/// Spot diameter, growth, irradiance and line dose behind a single-piece lens, at `z_offset` from the
/// waist of this measure, + away from the lens.
///
/// The first four arguments are those of [`focus_singlet`](crate::model::optics::focus_singlet); the
/// irradiance and the dose are relative to those in that waist. The [module](self) says what the
/// hyperbola is worth.
///
/// Accuracy of evaluation: at most 4 ulp (`tests/vectors/singlet_defocus.csv`).
///
/// # Errors
/// [`Error::UnknownChoice`] for [`SpotMeasure::Handbook`], which gives a spot but no beam; as
/// [`focus_singlet`](crate::model::optics::focus_singlet); [`Error::OutsideModel`] also where the
/// 86.5 %-power spot is refused; then [`Error::NotFinite`] or [`Error::OutOfRange`] for `z_offset`.
///
/// # Example
/// ```
/// use spotwise::model::focus::singlet_defocus;
/// use spotwise::model::optics::{Beam, LensShape, Singlet, SpotMeasure};
/// let raw = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 9e-3 };
/// let lens = Singlet { index: 2.4028, shape: LensShape::CurvedSideFirst, focal_length: 38.1e-3 };
/// let found = singlet_defocus(&raw, 0.0, &lens, 18e-3, SpotMeasure::Power86, 0.3e-3)?;
/// // A waist of 74.50 µm and a Rayleigh range of 0.3137 mm: 74.50·√(1 + (0.3/0.3137)²) = 103.1 µm.
/// assert_eq!((found.defocus.diameter * 1e7).round(), 1031.0);
/// // The lens aberrates: by hand, t = 0.4188.
/// assert!(!found.defocus.validity.is_fine());
/// assert_eq!((found.numbers.normalised_aberration * 1e4).round(), 4188.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the defocus is the result"]
pub fn singlet_defocus(
    raw: &Beam,
    waist_to_lens: f64,
    lens: &Singlet,
    clear_aperture: f64,
    measure: SpotMeasure,
    z_offset: f64,
) -> Result<SingletDefocus, Error> {
    let (beam, numbers) = beam_of(raw, waist_to_lens, lens, clear_aperture, measure)?;
    let z_offset = check(Param::ZOffset, z_offset)?;
    let mut defocus = checked_defocus(&beam, Twofold::from(z_offset));
    defocus.validity = defocus.validity.union(numbers.off_focus_caution());
    Ok(SingletDefocus { defocus, numbers })
}

/// Depth of focus behind a single-piece lens, about the waist of this measure.
///
/// The first four arguments are those of [`focus_singlet`](crate::model::optics::focus_singlet). The
/// [module](self) says what the hyperbola is worth.
///
/// Accuracy of evaluation: at most 4 ulp (`tests/vectors/singlet_depth_of_focus.csv`); for a largest
/// diameter, that times r²/(r² − 1), r being that diameter over the waist.
///
/// # Errors
/// As [`singlet_defocus`], with the number in the criterion last; [`Error::Unreachable`] if the largest
/// diameter is below the waist diameter.
///
/// # Example
/// ```
/// use spotwise::model::focus::{singlet_depth_of_focus, DepthCriterion};
/// use spotwise::model::optics::{Beam, LensShape, Singlet, SpotMeasure};
/// let raw = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 9e-3 };
/// let lens = Singlet { index: 2.4028, shape: LensShape::CurvedSideFirst, focal_length: 38.1e-3 };
/// let criterion = DepthCriterion::LargestDiameter { diameter: 120e-6 };
/// let depth = singlet_depth_of_focus(&raw, 0.0, &lens, 18e-3, SpotMeasure::Power86, criterion)?;
/// // 0.3137 mm·√((120/74.50)² − 1) = 0.396 mm each way.
/// assert_eq!((depth.range.away_from_lens_z * 1e6).round(), 396.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "DOF")]
#[must_use = "the range is the result"]
pub fn singlet_depth_of_focus(
    raw: &Beam,
    waist_to_lens: f64,
    lens: &Singlet,
    clear_aperture: f64,
    measure: SpotMeasure,
    criterion: DepthCriterion,
) -> Result<SingletDepth, Error> {
    let (beam, numbers) = beam_of(raw, waist_to_lens, lens, clear_aperture, measure)?;
    let range = range_of(&beam, checked_criterion(criterion)?)?;
    Ok(SingletDepth { range: behind_a_lens(range, criterion, &numbers), numbers })
}

/// A range found for the Gaussian beam behind a lens of these numbers, with the caution that it takes if it goes
/// by irradiance or line dose.
pub(crate) fn behind_a_lens(
    range: FocusRange,
    criterion: DepthCriterion,
    numbers: &LensNumbers,
) -> FocusRange {
    let by_light =
        matches!(criterion, DepthCriterion::IrradianceDrop { .. } | DepthCriterion::LineDoseDrop { .. });
    let caution = if by_light { numbers.off_focus_caution() } else { Validity::FINE };
    FocusRange { validity: range.validity.union(caution), ..range }
}

/// The beam behind the lens by a measure that gives one, and the numbers behind its flags.
fn beam_of(
    raw: &Beam,
    waist_to_lens: f64,
    lens: &Singlet,
    clear_aperture: f64,
    measure: SpotMeasure,
) -> Result<(CheckedBeam, LensNumbers), Error> {
    if measure == SpotMeasure::Handbook {
        return Err(Error::UnknownChoice { param: Param::SpotMeasure, value: measure as u32 });
    }
    let (beam, focus) = checked_singlet_beam(raw, waist_to_lens, lens, clear_aperture, measure)?;
    Ok((beam, LensNumbers::of(&focus)))
}
