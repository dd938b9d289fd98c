//! From a map of heights to a map of what the spot does there: growth, diameter, irradiance, line dose,
//! smallest stroke, and where it is in focus.
//!
//! | symbol | meaning                                                         | unit | valid          |
//! |--------|-----------------------------------------------------------------|------|----------------|
//! | z      | height of the surface at one place, + away from the lens        | m    | ±1e7, or NaN   |
//! | z_f    | height of the waist, counted from the same datum                | m    | ±1e3           |
//! | u      | (z − z_f)/z_R                                                   | 1    |                |
//! | d₀     | waist **diameter**, 1/e²                                        | m    |                |
//! | q      | dose ratio, fill dose over threshold                            | 1    | 1.000001 … 1e6 |
//!
//! growth g = √(1 + u²), diameter = d₀·g, irradiance ratio = 1/(1 + u²), line dose ratio = 1/g: those of
//! [`defocus`](crate::model::focus::defocus), which tells their sources
//! smallest stroke = s₀·g, s₀ the finest bar of [`smallest_details`](crate::model::mark::smallest_details)
//! in the waist: all its widths go with the spot
//!
//! Each height is taken by itself, as if the surface were level there; the arrangement of the map (rows,
//! rings, a cloud) is the caller's and does not matter. A place that was not measured is NaN: it stays NaN in
//! a map and is not in focus.
//!
//! **The same bits, one at a time or many.** Each number is `+ − × ÷ √` of its own height alone, in one fixed
//! order and rounded at every step, in loops without a branch that depends on a number. So neither the length
//! of a map nor its place in memory nor the width of the processor's registers can change a bit of it, and
//! diameters about z_f = 0 have the bits of [`beam_at`](crate::model::optics::beam_at).
//! [`defocus`](crate::model::focus::defocus) rounds but once, and differs by 4 ulp at most.
//!
//! Not modelled: slopes ([`tilted_spot`](crate::model::focus::tilted_spot) has them), light that is shaded by
//! walls, and what the probe did not see between its places.

use crate::error::{Error, Param, check};
use crate::model::focus::{DepthCriterion, checked_criterion, half_range_of};
use crate::model::mark::Resolution;
use crate::model::math;
use crate::model::optics::{Beam, CheckedBeam, checked_beam};
use crate::model::twofold::Twofold;
use crate::validity::Validity;

/// What a map of heights is turned into.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum HeightQuantity {
    /// Spot diameter over waist diameter. Code 1.
    Growth,
    /// Spot **diameter** in metres, 1/e² (D4σ). Code 2.
    Diameter,
    /// Irradiance on the axis over that at the waist. Code 3.
    IrradianceRatio,
    /// Peak dose of a scanned line over that at the waist. Code 4.
    LineDoseRatio,
    /// Width in metres of the finest long stroke that a fill holds. Code 5.
    SmallestStroke {
        /// Fill dose over the dose at which the material just marks.
        dose_ratio: f64,
    },
}

impl HeightQuantity {
    /// Permanent number of this quantity, shared by the C and WebAssembly faces.
    #[must_use]
    pub const fn code(&self) -> u32 {
        match self {
            Self::Growth => 1,
            Self::Diameter => 2,
            Self::IrradianceRatio => 3,
            Self::LineDoseRatio => 4,
            Self::SmallestStroke { .. } => 5,
        }
    }

    /// The quantity with this permanent code; only the smallest stroke takes the dose ratio.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code. The dose ratio is checked when it is used.
    pub fn from_code(code: u32, dose_ratio: f64) -> Result<Self, Error> {
        match code {
            1 => Ok(Self::Growth),
            2 => Ok(Self::Diameter),
            3 => Ok(Self::IrradianceRatio),
            4 => Ok(Self::LineDoseRatio),
            5 => Ok(Self::SmallestStroke { dose_ratio }),
            value => Err(Error::UnknownChoice { param: Param::HeightQuantity, value }),
        }
    }
}

/// What a map holds as a whole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeightMap {
    /// How many places have a height.
    pub measured: usize,
    /// How many have none.
    pub missing: usize,
    /// The least number of the map; NaN if nothing was measured.
    pub least: f64,
    /// Its first place in the map, from 0; 0 if nothing was measured.
    pub least_index: usize,
    /// The greatest number of the map; NaN if nothing was measured.
    pub greatest: f64,
    /// Its first place in the map, from 0; 0 if nothing was measured.
    pub greatest_index: usize,
    /// 1/e² half angle of the beam, in radians.
    pub half_angle: f64,
    /// How far the paraxial formulas may be trusted for this beam.
    pub validity: Validity,
}

/// How much of a surface is in focus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FocusMask {
    /// How many places are in focus.
    pub in_focus: usize,
    /// How many lie nearer the lens than the range that is in focus: too high.
    pub too_near_lens: usize,
    /// How many lie farther from the lens than that range: too low.
    pub too_far_from_lens: usize,
    /// How many have no height.
    pub missing: usize,
    /// The end of the range nearer the lens, as a height in metres.
    pub toward_lens_z: f64,
    /// The end of the range farther from the lens, as a height in metres.
    pub away_from_lens_z: f64,
    /// 1/e² half angle of the beam, in radians.
    pub half_angle: f64,
    /// How far the paraxial formulas may be trusted for this beam.
    pub validity: Validity,
}

/// So many heights are worked on at once, while they are close to the processor.
const BLOCK: usize = 512;
/// So many least and greatest numbers are kept side by side, so that none waits for the one before.
const LANES: usize = 4;

/// The growth of one beam about one focus.
#[derive(Clone, Copy)]
struct Focus {
    z: f64,
    rayleigh_range: f64,
}

impl Focus {
    /// 1 + u², NaN where there is no height.
    fn growth_squared(self, z: f64) -> f64 {
        let u = (z - self.z) / self.rayleigh_range;
        1.0 + u * u
    }
}

/// An extreme of the map, and the start of the block that holds it.
#[derive(Clone, Copy)]
struct Extreme {
    value: f64,
    block: usize,
}

impl Extreme {
    /// The first place of the extreme.
    fn index(self, map: &[f64]) -> usize {
        let from_here = map.iter().skip(self.block).position(|&value| value == self.value);
        from_here.map_or(0, |steps| self.block + steps)
    }
}

/// A map of what a beam does on a surface of many heights: `out[i]` belongs to `z[i]`.
///
/// `focus_z` is the height of the waist. Heights count from any one datum, + away from the lens; NaN is a place
/// that was not measured, and stays NaN. Formulas, and why the bits are those of one height at a time, in the
/// [module](self). On any error every element of `out` is NaN, none is stale.
///
/// Accuracy: at most 4 ulp (`tests/vectors/map_heights.csv`).
///
/// # Errors
/// [`Error::LengthMismatch`] if `out` is not as long as `z`; [`Error::NotFinite`] or [`Error::OutOfRange`] for
/// a field of the beam, then for `focus_z`, the dose ratio of a smallest stroke, and the first height that is
/// infinite or out of range; [`Error::OutsideModel`] if the half angle of the beam exceeds 0.3 rad.
///
/// # Example
/// ```
/// use spotwise::model::optics::Beam;
/// use spotwise::model::surface::{HeightQuantity, map_heights};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// // A lid that is 0.5 mm low at one corner, in focus at the next, and was not probed at the third.
/// let z = [0.7e-3, 0.2e-3, f64::NAN];
/// let mut growth = [0.0; 3];
/// let map = map_heights(&beam, 0.2e-3, HeightQuantity::Growth, &z, &mut growth)?;
/// // z_R = π·(88 µm)²/(4·1.2·10.6 µm) = 0.4782 mm; √(1 + (0.5/0.4782)²) = 1.4469
/// assert_eq!((growth[0] * 1e4).round(), 14_469.0);
/// assert_eq!(growth[1], 1.0);
/// assert!(growth[2].is_nan());
/// assert_eq!((map.measured, map.missing), (2, 1));
/// assert_eq!((map.greatest, map.greatest_index), (growth[0], 0));
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "height field")]
pub fn map_heights(
    beam: &Beam,
    focus_z: f64,
    quantity: HeightQuantity,
    z: &[f64],
    out: &mut [f64],
) -> Result<HeightMap, Error> {
    let map = mapped(beam, focus_z, quantity, z, out);
    if map.is_err() {
        out.fill(f64::NAN);
    }
    map
}

fn mapped(
    beam: &Beam,
    focus_z: f64,
    quantity: HeightQuantity,
    z: &[f64],
    out: &mut [f64],
) -> Result<HeightMap, Error> {
    if out.len() != z.len() {
        return Err(Error::LengthMismatch { param: Param::Output, value: out.len(), expected: z.len() });
    }
    let beam = checked_beam(beam)?;
    let at = Focus { z: check(Param::FocusZ, focus_z)?, rayleigh_range: beam.rayleigh_range.to_f64() };
    // One loop for each quantity, so that none asks at every height which one is wanted.
    match quantity {
        HeightQuantity::Growth => fill(&beam, z, out, |z| math::sqrt(at.growth_squared(z))),
        HeightQuantity::Diameter => {
            let waist = beam.waist_diameter;
            fill(&beam, z, out, |z| waist * math::sqrt(at.growth_squared(z)))
        }
        HeightQuantity::IrradianceRatio => fill(&beam, z, out, |z| 1.0 / at.growth_squared(z)),
        HeightQuantity::LineDoseRatio => fill(&beam, z, out, |z| 1.0 / math::sqrt(at.growth_squared(z))),
        HeightQuantity::SmallestStroke { dose_ratio } => {
            let dose_ratio = check(Param::DoseRatio, dose_ratio)?;
            let in_waist = Resolution::at_dose(dose_ratio).of_spot(beam.waist_diameter).bar;
            fill(&beam, z, out, |z| in_waist * math::sqrt(at.growth_squared(z)))
        }
    }
}

/// Fills the map block by block, and looks for its extremes on the way.
fn fill(
    beam: &CheckedBeam,
    z: &[f64],
    out: &mut [f64],
    quantity: impl Fn(f64) -> f64,
) -> Result<HeightMap, Error> {
    let mut missing = 0;
    let mut least = Extreme { value: f64::INFINITY, block: 0 };
    let mut greatest = Extreme { value: f64::NEG_INFINITY, block: 0 };
    for (number, (z, out)) in z.chunks(BLOCK).zip(out.chunks_mut(BLOCK)).enumerate() {
        check_heights(z)?;
        for (out, &z) in out.iter_mut().zip(z) {
            *out = quantity(z);
        }
        let block = number * BLOCK;
        let (lowest, highest, unknown) = extremes(out);
        if lowest < least.value {
            least = Extreme { value: lowest, block };
        }
        if highest > greatest.value {
            greatest = Extreme { value: highest, block };
        }
        missing += unknown;
    }
    let measured = z.len() - missing;
    let value_of = |extreme: Extreme| if measured == 0 { f64::NAN } else { extreme.value };
    Ok(HeightMap {
        measured,
        missing,
        least: value_of(least),
        least_index: least.index(out),
        greatest: value_of(greatest),
        greatest_index: greatest.index(out),
        half_angle: beam.cone.half_angle,
        validity: beam.cone.validity,
    })
}

/// Refuses heights that are infinite or out of range, and names the first of them. The search for it starts
/// only when there is one, so that the usual pass has no branch.
fn check_heights(z: &[f64]) -> Result<(), Error> {
    let (least, greatest) = Param::Z.range();
    let all_allowed =
        z.iter().fold(true, |allowed, z| allowed & ((least..=greatest).contains(z) | z.is_nan()));
    if !all_allowed {
        for &z in z.iter().filter(|z| !z.is_nan()) {
            check(Param::Z, z)?;
        }
    }
    Ok(())
}

/// The least and the greatest number, ∞ and −∞ without any, and how many are none.
fn extremes(numbers: &[f64]) -> (f64, f64, usize) {
    let mut least = [f64::INFINITY; LANES];
    let mut greatest = [f64::NEG_INFINITY; LANES];
    let mut missing = [0; LANES];
    let mut look_at = |row: &[f64]| {
        let lanes = least.iter_mut().zip(&mut greatest).zip(&mut missing);
        for (((least, greatest), missing), &number) in lanes.zip(row) {
            // NaN is neither.
            *least = if number < *least { number } else { *least };
            *greatest = if number > *greatest { number } else { *greatest };
            *missing += usize::from(number.is_nan());
        }
    };
    let (rows, rest) = numbers.as_chunks::<LANES>();
    for row in rows {
        look_at(row);
    }
    look_at(rest);
    (
        least.into_iter().fold(f64::INFINITY, math::lesser),
        greatest.into_iter().fold(f64::NEG_INFINITY, math::greater),
        missing.into_iter().sum(),
    )
}

/// Which places of a surface are in focus by a criterion: `in_focus[i]` belongs to `z[i]`.
///
/// A height is in focus from one end of the depth of focus to the other, both included:
/// [`depth_of_focus`](crate::model::focus::depth_of_focus) about `focus_z`, each end rounded to a double. A
/// place that was not measured (NaN) is not. On any error all of `in_focus` is false.
///
/// Accuracy: the ends at most 0.75 ulp; each yes or no is exact for the ends that are returned
/// (`tests/vectors/in_focus_mask.csv`).
///
/// # Errors
/// [`Error::LengthMismatch`] if `in_focus` is not as long as `z`; [`Error::NotFinite`] or
/// [`Error::OutOfRange`] for a field of the beam, then for `focus_z`, the number in the criterion, and the first
/// height that is infinite or out of range; [`Error::Unreachable`] if the largest diameter is below the waist
/// diameter; [`Error::OutsideModel`] if the half angle of the beam exceeds 0.3 rad.
///
/// # Example
/// ```
/// use spotwise::model::focus::DepthCriterion;
/// use spotwise::model::optics::Beam;
/// use spotwise::model::surface::in_focus_mask;
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let mut in_focus = [false; 4];
/// let z = [-0.3e-3, 0.0, f64::NAN, 0.6e-3];
/// // The Rayleigh range is 0.4782 mm, so that heights from −0.3782 mm to 0.5782 mm are in focus.
/// let mask = in_focus_mask(&beam, 0.1e-3, DepthCriterion::Rayleigh, &z, &mut in_focus)?;
/// assert_eq!(in_focus, [true, true, false, false]);
/// assert_eq!((mask.in_focus, mask.too_far_from_lens, mask.missing), (2, 1, 1));
/// assert_eq!((mask.away_from_lens_z * 1e7).round(), 5782.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
pub fn in_focus_mask(
    beam: &Beam,
    focus_z: f64,
    criterion: DepthCriterion,
    z: &[f64],
    in_focus: &mut [bool],
) -> Result<FocusMask, Error> {
    let mask = masked(beam, focus_z, criterion, z, in_focus);
    if mask.is_err() {
        in_focus.fill(false);
    }
    mask
}

fn masked(
    beam: &Beam,
    focus_z: f64,
    criterion: DepthCriterion,
    z: &[f64],
    in_focus: &mut [bool],
) -> Result<FocusMask, Error> {
    if in_focus.len() != z.len() {
        return Err(Error::LengthMismatch { param: Param::Output, value: in_focus.len(), expected: z.len() });
    }
    let beam = checked_beam(beam)?;
    let focus_z = Twofold::from(check(Param::FocusZ, focus_z)?);
    let half = half_range_of(&beam, checked_criterion(criterion)?)?;
    let (nearest, farthest) = ((focus_z - half).to_f64(), (focus_z + half).to_f64());
    let mut mask = FocusMask {
        in_focus: 0,
        too_near_lens: 0,
        too_far_from_lens: 0,
        missing: 0,
        toward_lens_z: nearest,
        away_from_lens_z: farthest,
        half_angle: beam.cone.half_angle,
        validity: beam.cone.validity,
    };
    for (z, in_focus) in z.chunks(BLOCK).zip(in_focus.chunks_mut(BLOCK)) {
        check_heights(z)?;
        for (in_focus, &z) in in_focus.iter_mut().zip(z) {
            // All three are false of NaN.
            *in_focus = (z >= nearest) & (z <= farthest);
            mask.in_focus += usize::from(*in_focus);
            mask.too_near_lens += usize::from(z < nearest);
            mask.too_far_from_lens += usize::from(z > farthest);
        }
    }
    mask.missing = z.len() - mask.in_focus - mask.too_near_lens - mask.too_far_from_lens;
    Ok(mask)
}
