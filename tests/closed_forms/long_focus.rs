//! Closed forms where the focus is long: Rayleigh ranges from 1 to 20 % of the focal length, in which a
//! spot nearer the lens is smaller and brighter than the same spot of a sharp focus.
//!
//! The 86.5 % spot of a single-piece lens knows of it; the widths of a clipped beam are those of the focal
//! plane, and their errors elsewhere are told as multiples of that share, as
//! [`Validity::FOCUS_SHIFTED`](spotwise::Validity::FOCUS_SHIFTED) states them.

use super::*;
use spotwise::{CAUTION_FOCUS_SHIFT, Validity};

/// Rayleigh range over focal length, from unflagged to the end of what is not refused.
const SHARES: [f64; 3] = [0.01, 0.05, 0.1999];
const BEAM: f64 = 0.1;
const FOCUS: f64 = 1.0;

/// The wavelength at which a Gaussian beam this wide has so long a focus: s = 4·M²·λ·f/(π·D²).
fn wavelength(share: f64, m2: f64, diameter: f64) -> f64 {
    share * PI * diameter * diameter / (4.0 * m2 * FOCUS)
}

/// A beam and a lens, bent until it aberrates this much.
fn long_singlet(share: f64, m2: f64, t: f64) -> (Beam, Singlet) {
    let raw = Beam { wavelength: wavelength(share, m2, BEAM), m2, waist_diameter: BEAM };
    let lens =
        |factor: f64| Singlet { index: 1.5, shape: LensShape::ShapeFactor { factor }, focal_length: FOCUS };
    // From the best form on, the aberration grows with the shape factor until the lens is refused.
    let (mut weaker, mut stronger) = (0.7, 100.0);
    for _ in 0..60 {
        let middle = 0.5 * (weaker + stronger);
        let found = focus_singlet(&raw, 0.0, &lens(middle), f64::INFINITY);
        if found.is_ok_and(|found| found.normalised_aberration < t) {
            weaker = middle;
        } else {
            stronger = middle;
        }
    }
    (raw, lens(weaker))
}

/// The 86.5 %-power spot of a single-piece lens, its place and its greatest irradiance.
#[test]
fn power86_of_a_long_focus() {
    let (mut spot, mut peak, mut place) = (Errors::new(), Errors::new(), Errors::new());
    let (mut sharp_spot, mut sharp_peak) = (Errors::new(), Errors::new());
    for (m2, t) in [1.0, 4.0].into_iter().flat_map(|m2| [0.15, 0.3, 0.6, 1.0].map(|t| (m2, t))) {
        for share in SHARES {
            let (raw, lens) = long_singlet(share, m2, t);
            let fit = focus_singlet(&raw, 0.0, &lens, f64::INFINITY).unwrap();
            assert!((fit.normalised_aberration - t).abs() < 1e-9 && fit.relative_rayleigh_range < 0.2);
            assert!((fit.relative_rayleigh_range / share - 1.0).abs() < 1e-9);
            let flagged = fit.validity.contains(Validity::FOCUS_SHIFTED);
            assert_eq!(flagged, fit.relative_rayleigh_range > CAUTION_FOCUS_SHIFT);
            let wave = Wave {
                wavelength: raw.wavelength,
                m2,
                diameter_at_lens: BEAM,
                clear_aperture: WIDE * BEAM,
                lens_to_focus: fit.lens_to_focus,
                aberration_phase: fit.aberration_phase,
            };
            // Places in Rayleigh ranges from the waist behind an ideal lens.
            let z_of = |u: f64| fit.ideal.lens_to_waist - fit.lens_to_focus + u * fit.ideal.rayleigh_range;
            let shift = fit.power86.shift / fit.ideal.rayleigh_range;
            let rigorous = least(|u| wave_widths(&wave, z_of(u)).unwrap().diameter_power86, shift);
            let brightness = |u: f64| wave_irradiance(&wave, 0.0, z_of(u)).unwrap().irradiance_ratio;
            let brightest = -least(|u| -brightness(u), -4.0 * t / (1.0 + t)).value;
            // The wave tells its irradiance over that of a sharp focus.
            let ideal = (4.0 * m2 * raw.wavelength * FOCUS / (PI * BEAM)) / fit.ideal.waist_diameter;

            let here = (share, m2, t);
            let (spot, peak) =
                if flagged { (&mut spot, &mut peak) } else { (&mut sharp_spot, &mut sharp_peak) };
            spot.see(fit.power86.waist_diameter, rigorous.value, here);
            peak.see(fit.peak_irradiance_ratio * ideal * ideal, brightest, here);
            place.see_error(shift - rigorous.place, here);
        }
    }
    sharp_spot.documented("86.5 % diameter of a focus without flag", -0.005, 0.013);
    spot.documented("86.5 % diameter of a long focus", -0.003, 0.023);
    sharp_peak.documented("peak irradiance of a focus without flag", -0.018, 0.009);
    peak.documented("peak irradiance of a long focus", -0.06, 0.004);
    place.documented_within("place of the 86.5 % focus in Rayleigh ranges", 0.14);
}

/// The widths of a clipped beam: exact in the focal plane however long the focus, and off by a multiple
/// of the share where the light is brightest.
#[test]
fn clipped_widths_of_a_long_focus() {
    let (mut in_plane, mut width, mut power86, mut peak) =
        (Errors::new(), Errors::new(), Errors::new(), Errors::new());
    for t in [0.3, 0.5, 0.8, 1.0, 1.2, 2.0, 3.0] {
        let aperture = BEAM / t;
        for share in SHARES {
            let wavelength = wavelength(share, 1.0, BEAM.min(aperture));
            let fit = focus_clipped(wavelength, BEAM, aperture, FOCUS).unwrap();
            assert!((fit.relative_rayleigh_range / share - 1.0).abs() < 1e-12);
            let flagged = fit.validity.contains(Validity::FOCUS_SHIFTED);
            assert_eq!(flagged, fit.relative_rayleigh_range > CAUTION_FOCUS_SHIFT);
            let wave = Wave {
                wavelength,
                m2: 1.0,
                diameter_at_lens: BEAM,
                clear_aperture: aperture,
                lens_to_focus: FOCUS,
                aberration_phase: 0.0,
            };
            let here = (share, t);
            let focal = wave_widths(&wave, 0.0).unwrap();
            in_plane.see(fit.diameter_1e2, focal.diameter_1e2, here);
            in_plane.see(fit.fwhm, focal.fwhm, here);
            let brightest = wave_focus(&wave, FocusMeasure::PeakIrradiance).unwrap();
            let there = wave_widths(&wave, brightest.z).unwrap();
            width.see_error((fit.diameter_1e2 / there.diameter_1e2 - 1.0) / share, here);
            width.see_error((fit.fwhm / there.fwhm - 1.0) / share, here);
            let ratio = fit.peak_irradiance_ratio / brightest.irradiance_ratio;
            peak.see_error((ratio - 1.0) / share, here);
            if t <= 1.25 {
                in_plane.see(fit.diameter_power86, focal.diameter_power86, here);
                let least = wave_focus(&wave, FocusMeasure::Power86).unwrap();
                power86.see_error((fit.diameter_power86 / least.diameter_power86 - 1.0) / share, here);
            }
        }
    }
    in_plane.documented_within("widths in the focal plane of a long focus", 0.001);
    // (a fit that is off by 0.0006 in any focus counts 0.06 at a share of 0.01)
    width.documented("1/e² and half widths where brightest, over the share", -0.07, 1.7);
    power86.documented("86.5 % diameter of a clipped beam, over the share", -0.07, 0.5);
    peak.documented("peak irradiance of a clipped beam, over the share", -1.6, 0.0);
}
