//! Depth of focus of an astigmatic beam: its ends differ, and there may be none.
//!
//! Growth, largest diameter and line dose must hold in **both** axes, each compared with its own
//! waist: the range is where the two axes' ranges overlap. (A line along x sees the diameter in
//! y and a line along y that in x; a drawing has both.) The irradiance is one number for both
//! axes and is compared with that of the two waists at one place.

use super::depth::{DepthCriterion, FocusRange, checked_criterion, rayleigh_ranges_for_line_dose};
use super::offset::{rayleigh_ranges_for, rayleigh_ranges_for_diameter};
use crate::error::Error;
use crate::model::math;
use crate::model::optics::brightness::Brightness;
use crate::model::optics::{AstigmaticBeam, CheckedAstigmatic, checked_astigmatic};
use crate::model::twofold::Twofold;
use crate::validity::Validity;

/// Depth of focus of a simple astigmatic beam; heights count from the beam's own z = 0.
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/astigmatic_depth_of_focus.csv`), but for the
/// irradiance criterion: where the drop allowed only just reaches the brightest place, its ends
/// depend on the root of a tiny difference and carry fewer digits.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, then for the number in
/// the criterion; [`Error::Unreachable`] if no height meets the criterion, with the least value
/// that one would, to within rounding; [`Error::OutsideModel`] if the half angle of an axis exceeds 0.3 rad.
///
/// # Example
/// ```
/// use spotwise::model::focus::{astigmatic_depth_of_focus, DepthCriterion};
/// use spotwise::model::optics::{AstigmaticBeam, Axis};
/// let axis = |waist_z| Axis { m2: 5.0, waist_diameter: 30e-6, waist_z };
/// let beam = AstigmaticBeam { wavelength: 450e-9, x: axis(0.0), y: axis(0.2e-3) };
/// let depth = astigmatic_depth_of_focus(&beam, DepthCriterion::Rayleigh)?;
/// // One Rayleigh range (0.314 mm) up from the waist of y, one down from the waist of x.
/// assert_eq!((depth.toward_lens_z * 1e9).round(), -114_159.0);
/// assert_eq!((depth.away_from_lens_z * 1e9).round(), 314_159.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the range is the result"]
pub fn astigmatic_depth_of_focus(
    beam: &AstigmaticBeam,
    criterion: DepthCriterion,
) -> Result<FocusRange, Error> {
    let beam = checked_astigmatic(beam)?;
    match checked_criterion(criterion)? {
        DepthCriterion::Growth { ratio } => {
            let reach = rayleigh_ranges_for(Twofold::from(ratio));
            overlap(&beam, reach, reach).ok_or_else(|| unreachable(criterion, ratio, least_growth(&beam)))
        }
        DepthCriterion::Rayleigh => overlap(&beam, Twofold::ONE, Twofold::ONE)
            .ok_or_else(|| unreachable(criterion, core::f64::consts::SQRT_2, least_growth(&beam))),
        DepthCriterion::LineDoseDrop { drop } => {
            let reach = rayleigh_ranges_for_line_dose(drop);
            overlap(&beam, reach, reach)
                .ok_or_else(|| unreachable(criterion, drop, least_line_dose_drop(&beam)))
        }
        DepthCriterion::LargestDiameter { diameter } => {
            let narrow = diameter < beam.x.waist_diameter || diameter < beam.y.waist_diameter;
            let range = if narrow {
                None
            } else {
                let reach = |axis| rayleigh_ranges_for_diameter(axis, diameter);
                overlap(&beam, reach(&beam.x), reach(&beam.y))
            };
            range.ok_or_else(|| unreachable(criterion, diameter, least_diameter(&beam)))
        }
        DepthCriterion::IrradianceDrop { drop } => bright_range(&beam, drop),
    }
}

/// Where both axes are within their reach, given in Rayleigh ranges about each waist.
fn overlap(beam: &CheckedAstigmatic, reach_x: Twofold, reach_y: Twofold) -> Option<FocusRange> {
    let (x, y) = (Twofold::from(beam.x_waist_z), Twofold::from(beam.y_waist_z));
    let (half_x, half_y) = (reach_x * beam.x.rayleigh_range, reach_y * beam.y.rayleigh_range);
    let (lower_x, lower_y) = (x - half_x, y - half_y);
    let (upper_x, upper_y) = (x + half_x, y + half_y);
    let lower = if (lower_x - lower_y).to_f64() >= 0.0 { lower_x } else { lower_y };
    let upper = if (upper_x - upper_y).to_f64() <= 0.0 { upper_x } else { upper_y };
    ((upper - lower).to_f64() >= 0.0).then(|| FocusRange::between(lower, upper, beam.cone))
}

/// Where the irradiance is at least (1 − drop) of that of both waists at one place.
fn bright_range(beam: &CheckedAstigmatic, drop: f64) -> Result<FocusRange, Error> {
    let brightness = Brightness::of(beam);
    // (1 + u²)(1 + v²) − 1 ≤ 1/(1 − p)² − 1 = p·(2 − p)/(1 − p)²
    let excess = rayleigh_ranges_for_line_dose(drop).squared();
    let Some(range) = brightness.range(excess) else {
        let best = brightness.irradiance_ratio(brightness.brightest());
        let least = (Twofold::ONE - best).to_f64();
        return Err(unreachable(DepthCriterion::IrradianceDrop { drop }, drop, least));
    };
    let (from, to) = (brightness.z_of(range.from), brightness.z_of(range.to));
    let (lower, upper) = if (to - from).to_f64() >= 0.0 { (from, to) } else { (to, from) };
    let second = if range.second { Validity::SECOND_RANGE } else { Validity::FINE };
    Ok(FocusRange::between(lower, upper, beam.cone.flagged(second)))
}

fn unreachable(criterion: DepthCriterion, value: f64, least: f64) -> Error {
    let param = criterion.param();
    // A value refused by a hair may be the same double as the least that is not.
    let least = if least > value { least } else { value.next_up() };
    Error::Unreachable { param, value, least, greatest: param.range().1 }
}

/// The larger of ux and uy, in magnitude, where it is least: between the waists, where both are
/// separation/(z_Rx + z_Ry).
fn least_rayleigh_ranges(beam: &CheckedAstigmatic) -> Twofold {
    let separation = Twofold::sum(beam.y_waist_z, -beam.x_waist_z);
    separation / (beam.x.rayleigh_range + beam.y.rayleigh_range)
}

/// Least growth that some height gives to both axes.
fn least_growth(beam: &CheckedAstigmatic) -> f64 {
    Twofold::ONE.root_sum_square(least_rayleigh_ranges(beam)).to_f64()
}

/// Least drop of line dose that some height gives to both axes: 1 − 1/g = u²/(g·(1 + g)).
fn least_line_dose_drop(beam: &CheckedAstigmatic) -> f64 {
    let u = least_rayleigh_ranges(beam);
    let growth = Twofold::ONE.root_sum_square(u);
    (u.squared() / (growth * (Twofold::ONE + growth))).to_f64()
}

/// Least value that the larger of the two diameters takes. Between the waists one rises and the
/// other falls, so that halving finds the height where they meet.
fn least_diameter(beam: &CheckedAstigmatic) -> f64 {
    let at = |z: f64| (beam.x.diameter_at(z - beam.x_waist_z), beam.y.diameter_at(z - beam.y_waist_z));
    let (mut nearer_x, mut nearer_y) = (beam.x_waist_z, beam.y_waist_z);
    for _ in 0..64 {
        let middle = nearer_x + 0.5 * (nearer_y - nearer_x);
        let (x, y) = at(middle);
        if x < y {
            nearer_x = middle;
        } else {
            nearer_y = middle;
        }
    }
    let larger = |(x, y): (f64, f64)| math::greater(x, y);
    let (a, b) = (larger(at(nearer_x)), larger(at(nearer_y)));
    math::lesser(a, b)
}
