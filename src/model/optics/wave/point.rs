//! Irradiance at one point, and power inside one circle.

use super::checked::{check_normalised_radius, checked_wave};
use super::profile::{Profile, square_error};
use super::pupil::FINE;
use super::{Wave, WaveIrradiance, WavePower, no_room};
use crate::error::{Error, Param, check};
use crate::model::math::greater;

/// Irradiance of a wave at a radius in a plane.
///
/// `radius` is the distance from the axis and `z` that of the plane from where the unaberrated wave
/// would converge, + away from the lens, both in metres; the integral, its limits and sources stand in
/// the [module](super).
///
/// Accuracy: the result says its own bound, on the axis at most 1.2e-11 over 1764 planes of the whole
/// range; the error measured there against closed forms for M² = 1 is 5e-14 at most. Uses 48 kB of
/// stack.
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], for the fields of the wave in order (M² 1 to 5, α −6 to
/// 6); [`Error::OutsideModel`] for a clipping ratio below 0.2, then a half angle above 0.3 rad; then
/// as the first for `radius` and `z`; then [`Error::OutsideModel`] for a plane at or before the lens or a
/// normalised defocus beyond ±30, then for a normalised radius above 60.
///
/// # Example
/// ```
/// use spotwise::model::optics::{wave_irradiance, Wave};
/// // A 7 mm beam on an aperture of 7 mm: (1 − exp(−1))² of the irradiance of the full beam.
/// let wave = Wave {
///     wavelength: 10.6e-6,
///     m2: 1.0,
///     diameter_at_lens: 7e-3,
///     clear_aperture: 7e-3,
///     lens_to_focus: 38.1e-3,
///     aberration_phase: 0.0,
/// };
/// let focus = wave_irradiance(&wave, 0.0, 0.0)?;
/// assert!((focus.irradiance_ratio - 0.399_576_400_893_728).abs() <= focus.error);
/// assert_eq!((focus.irradiance_per_watt * 1e-6).round(), 189.0); // W/mm² for each watt
/// assert!(focus.error < 1e-13);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "PSF")]
#[doc(alias = "point spread function")]
#[must_use = "the irradiance is the result"]
pub fn wave_irradiance(wave: &Wave, radius: f64, z: f64) -> Result<WaveIrradiance, Error> {
    let checked = checked_wave(wave)?;
    let radius = check(Param::Radius, radius)?;
    let z = check(Param::Z, z)?;
    let plane = checked.plane(z)?;
    let v = check_normalised_radius(plane.v_per_metre * radius)?;
    let smear = checked.smear;
    let (irradiance, error) = if smear.is_coherent() {
        let ([real], [imaginary]) = plane.pupil.field(&[v]);
        let irradiance = real * real + imaginary * imaginary;
        (irradiance, square_error(irradiance, plane.pupil.error(v)))
    } else {
        let near = v - smear.window();
        let mut profile = Profile::new(plane.pupil, smear, greater(near, 0.0), &FINE);
        if !profile.reach(v) {
            return Err(no_room(v));
        }
        let irradiance = profile.smeared(v);
        (irradiance, profile.irradiance_error(irradiance, false))
    };
    let ratio = irradiance * plane.brightness;
    Ok(WaveIrradiance {
        irradiance_ratio: ratio,
        irradiance_per_watt: ratio * checked.ideal_per_watt,
        error: error * plane.brightness,
        half_angle: checked.cone.half_angle,
        validity: checked.cone.validity,
    })
}

/// Power of a wave within a circle about the axis.
///
/// `radius` is that of the circle and `z` the place of the plane, as for
/// [`wave_irradiance`](super::wave_irradiance); formulas in the [module](super).
///
/// Accuracy: the result says its own bound, which grows with the circle: 1e-12 near the focus, 3e-9 at the
/// greatest radius. Uses 48 kB of stack.
///
/// # Errors
/// As [`wave_irradiance`](super::wave_irradiance).
///
/// # Example
/// ```
/// use spotwise::model::optics::{wave_power, Wave};
/// // The ideal focus of a whole beam holds 1 − exp(−2) within its 1/e² radius, whatever its M².
/// let wave = Wave {
///     wavelength: 10.6e-6,
///     m2: 1.2,
///     diameter_at_lens: 7e-3,
///     clear_aperture: f64::INFINITY,
///     lens_to_focus: 38.1e-3,
///     aberration_phase: 0.0,
/// };
/// let power = wave_power(&wave, 44.075_187_646e-6, 0.0)?; // 2·M²·λ·L/(π·D)
/// assert!((power.share - 0.864_664_716_8).abs() < 1e-9);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "encircled energy")]
#[must_use = "the share is the result"]
pub fn wave_power(wave: &Wave, radius: f64, z: f64) -> Result<WavePower, Error> {
    let checked = checked_wave(wave)?;
    let radius = check(Param::Radius, radius)?;
    let z = check(Param::Z, z)?;
    let plane = checked.plane(z)?;
    let v = check_normalised_radius(plane.v_per_metre * radius)?;
    // Within so small a circle lies less than v²/2, which is no normal number.
    let (mut share, mut error) = (0.0, v * v);
    if v > 1e-154 {
        let mut profile = checked.profile(&plane);
        let panels = profile.end_panels_at(v);
        for _ in 0..panels {
            share += profile.extend().ok_or(no_room(v))?;
        }
        error = profile.power_error(v);
    }
    Ok(WavePower {
        share,
        share_of_transmitted: share / checked.transmitted,
        error,
        half_angle: checked.cone.half_angle,
        validity: checked.cone.validity,
    })
}
