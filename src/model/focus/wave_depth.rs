//! Depth of focus of a clipped, aberrated, partly coherent wave, whose two ends differ.
//!
//! Heights count from the best focus by the measure that the criterion limits: the smallest 86.5 %-power
//! spot for a growth, the Rayleigh range and a largest diameter; the brightest point of the axis for a
//! drop of the irradiance. From there planes are tried outward, half a depth apart, until the criterion
//! no longer holds, and the end is then found between the last two; a stretch shorter than such a step
//! in which it fails is not seen. A separate range farther off is looked for among the planes
//! that led to the best focus, and flagged.
//!
//! The diffraction integral, its symbols, sources and limits: [`wave`](crate::model::optics::wave).
//! Not modelled: the dose of a line, whose criterion is refused.

use super::depth::{DepthCriterion, FocusRange, checked_criterion};
use crate::error::{Error, Param};
use crate::model::math;
use crate::model::optics::Wave;
use crate::model::optics::wave::{Best, CheckedWave, Least, checked_wave, root};
use crate::validity::Validity;
use core::f64::consts::SQRT_2;

/// Depth of focus of a wave, about its best focus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaveDepth {
    /// From where the unaberrated wave would converge to the best focus in metres, + away from the lens.
    pub best_z: f64,
    /// The range, counted from the best focus. Its ends differ where the lens aberrates.
    pub range: FocusRange,
    /// Bound on the error of the ends in metres.
    pub error: f64,
}

/// One end of a range: its normalised defocus and the error of that.
struct End {
    beta: f64,
    error: f64,
}

/// The limit that the measure must not exceed, and the measure.
fn limit_of(criterion: DepthCriterion, best: &Best) -> Result<f64, Error> {
    match criterion {
        DepthCriterion::Growth { ratio } => Ok(ratio * best.value),
        DepthCriterion::Rayleigh => Ok(SQRT_2 * best.value),
        // The measure is the negated irradiance.
        DepthCriterion::IrradianceDrop { drop } | DepthCriterion::LineDoseDrop { drop } => {
            Ok((1.0 - drop) * best.value)
        }
        DepthCriterion::LargestDiameter { diameter } => {
            let least = 2.0 * best.value;
            if diameter < least {
                let (_, greatest) = Param::LargestDiameter.range();
                return Err(Error::Unreachable {
                    param: Param::LargestDiameter,
                    value: diameter,
                    least,
                    greatest,
                });
            }
            Ok(0.5 * diameter)
        }
    }
}

/// Where the measure first exceeds the limit as β leaves the best focus in steps.
fn end(wave: &CheckedWave, measure: Least, best: &Best, limit: f64, step: f64) -> Result<End, Error> {
    let (least, (_, greatest)) = (wave.least_beta(), Param::NormalisedDefocus.range());
    let last = if step > 0.0 { greatest } else { least };
    let excess = |beta: f64| wave.measure(measure, beta).0 - limit;
    let mut inner = (best.beta, best.value - limit);
    loop {
        let next = inner.0 + step;
        let beyond = if step > 0.0 { next > last } else { next < last };
        let beta = if beyond { last } else { next };
        let outer = (beta, excess(beta));
        if !outer.1.is_finite() {
            return Err(wave.no_room());
        }
        if outer.1 > 0.0 {
            let beta = root(inner, outer, 1e-11 * step.abs(), excess);
            // The slope there turns the error of the measure into one of the place.
            let apart = 1e-3 * step;
            let (value, error) = wave.measure(measure, beta);
            let slope = (wave.measure(measure, beta + apart).0 - value) / apart;
            let doubt = (error + best.error) * value.abs();
            return Ok(End { beta, error: doubt / slope.abs() + 1e-11 * step.abs() });
        }
        if beyond {
            return Err(Error::OutsideModel {
                param: Param::NormalisedDefocus,
                value: next,
                least,
                greatest,
            });
        }
        inner = outer;
    }
}

/// Depth of focus of a wave, from its end toward the lens to its end away from it.
///
/// Growth, Rayleigh and largest diameter limit the diameter that holds 86.5 % of the transmitted
/// power, irradiance drop the irradiance on the axis; how the ends are found stands in the [module](self).
/// [`Validity::SECOND_RANGE`] says that farther off, among the planes tried for the best focus, the criterion
/// is met again.
///
/// Accuracy: the result says its own bound in metres, that of the best focus included. Against the closed
/// forms of a Gaussian beam the ends agree within 1e-9 of a Rayleigh range. Cost: twice that of
/// [`wave_focus`](crate::model::optics::wave_focus), more for a wide range. Uses 52 kB of stack.
///
/// # Errors
/// [`Error::UnknownChoice`] for a line dose drop, which is not modelled; as
/// [`wave_focus`](crate::model::optics::wave_focus) for the wave; [`Error::NotFinite`] or [`Error::OutOfRange`]
/// for the number in the criterion; [`Error::Unreachable`] if the largest diameter is below that of the best
/// focus; [`Error::OutsideModel`] if the normalised defocus reaches ±30 before the end of the range.
///
/// # Example
/// ```
/// use spotwise::model::{focus::{wave_depth_of_focus, DepthCriterion}, optics::{focus_collimated, Wave}};
/// let wave = Wave {
///     wavelength: 10.6e-6,
///     m2: 1.2,
///     diameter_at_lens: 7e-3,
///     clear_aperture: f64::INFINITY,
///     lens_to_focus: 38.1e-3,
///     aberration_phase: 0.0,
/// };
/// // Without clipping and aberration it is one Rayleigh range each way from the waist of a Gaussian beam.
/// let beam = focus_collimated(10.6e-6, 1.2, 7e-3, 38.1e-3)?;
/// let depth = wave_depth_of_focus(&wave, DepthCriterion::Rayleigh)?;
/// assert!((depth.best_z - beam.focus_shift).abs() < 1e-7 * beam.rayleigh_range);
/// assert!((depth.range.full / (2.0 * beam.rayleigh_range) - 1.0).abs() < 1e-9);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "DOF")]
#[must_use = "the range is the result"]
pub fn wave_depth_of_focus(wave: &Wave, criterion: DepthCriterion) -> Result<WaveDepth, Error> {
    if let DepthCriterion::LineDoseDrop { .. } = criterion {
        return Err(Error::UnknownChoice { param: Param::DepthCriterion, value: criterion.code() });
    }
    let checked = checked_wave(wave)?;
    let criterion = checked_criterion(criterion)?;
    let measure = match criterion {
        DepthCriterion::IrradianceDrop { .. } => Least::AxisIrradiance,
        _ => Least::Power86,
    };
    let (best, scan) = checked.best(measure)?;
    let limit = limit_of(criterion, &best)?;
    let step = checked.step();
    let toward = end(&checked, measure, &best, limit, step)?;
    let away = end(&checked, measure, &best, limit, -step)?;
    let elsewhere = |(beta, value): (f64, f64)| (beta > toward.beta || beta < away.beta) && value <= limit;
    let second = Validity::when(scan.planes().any(elsewhere), Validity::SECOND_RANGE);
    let place = best.place_error(step);
    let error_in_z = |end: &End| (end.error + place) * checked.depth_of_unit(end.beta);
    let (one, other) = (error_in_z(&toward), error_in_z(&away));
    Ok(WaveDepth {
        best_z: checked.z_of(best.beta),
        range: FocusRange {
            toward_lens_z: checked.z_between(best.beta, toward.beta),
            away_from_lens_z: checked.z_between(best.beta, away.beta),
            full: checked.z_between(toward.beta, away.beta),
            half_angle: checked.cone.half_angle,
            validity: checked.cone.validity.union(second),
        },
        error: math::greater(one, other),
    })
}
