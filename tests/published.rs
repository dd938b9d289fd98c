//! The model against values printed elsewhere: documentation and tests of general-purpose
//! reference libraries, which we have read, and textbooks and tables, which are marked
//! "from memory". Each value is checked to its printed digits and no further.
//!
//! Our lengths are diameters; most sources print radii, and the checks say 2·w where they do.

use spotwise::model::focus::{DepthCriterion, clipped_depth_of_focus, depth_of_focus, offsets_for_growth};
use spotwise::model::mark::{contrast_at_pitch, smallest_details};
use spotwise::model::optics::{
    Beam, CIRCULAR_ABOVE, FocusMeasure, Glass, LensShape, Singlet, SpotMeasure, Wave, WidthDefinition,
    astigmatic_at, beam_at, beam_parameters, convert_width, diameter_for_power, focus_clipped,
    focus_collimated, focus_through_lens, lens_aberration, lens_from_radii, m2_from_divergence,
    power_through_aperture, refractive_index, smallest_spot, waist_from_divergence,
    waist_from_rayleigh_range, wave_focus, wave_irradiance, wave_power, wave_widths,
};
use std::f64::consts::{PI, SQRT_2};

#[path = "published/beam_fit.rs"]
mod beam_fit;
#[path = "published/calibration.rs"]
mod calibration;
#[path = "published/heat.rs"]
mod heat;
#[path = "published/height_budget.rs"]
mod height_budget;
#[path = "published/height_map.rs"]
mod height_map;
#[path = "published/in_focus.rs"]
mod in_focus;
#[path = "published/marks.rs"]
mod marks;
#[path = "published/scan_field.rs"]
mod scan_field;
#[path = "published/shape.rs"]
mod shape;
#[path = "published/statistics.rs"]
mod statistics;
#[path = "published/threshold_fit.rs"]
mod threshold_fit;
#[path = "published/tolerance.rs"]
mod tolerance;

/// `got` rounds to the digits of `printed`.
#[track_caller]
fn rounds_to(got: f64, printed: &str) {
    close(got, printed, 0.5);
}

/// `got` has the digits of `printed`, whose source cut them off where it should have rounded.
#[track_caller]
fn starts_with(got: f64, printed: &str) {
    close(got, printed, 1.0);
}

/// Compares in units of the last printed digit, and grants the model its 4 ulp besides.
#[track_caller]
fn close(got: f64, printed: &str, units: f64) {
    let (digits, exponent) = printed.split_once('e').unwrap_or((printed, "0"));
    let decimals = digits.split_once('.').map_or(0, |(_, decimals)| decimals.len() as i32);
    let unit = 10f64.powi(exponent.parse::<i32>().unwrap() - decimals);
    let want: f64 = printed.parse().unwrap();
    let budget = units * unit + 4.0 * f64::EPSILON * want.abs();
    assert!((got - want).abs() <= budget, "got {got:e}, printed {printed}");
}

/// A beam by the **radius** at its waist.
fn beam(wavelength: f64, m2: f64, waist_radius: f64) -> Beam {
    Beam { wavelength, m2, waist_diameter: 2.0 * waist_radius }
}

/// `sympy` 1.14.0, `sympy/physics/optics/gaussopt.py`, examples in the documentation of
/// `BeamParameter(530e-9, 1, w=1e-3)` and of its properties.
mod sympy {
    use super::*;

    fn green() -> Beam {
        beam(530e-9, 1.0, 1e-3)
    }

    #[test]
    fn rayleigh_range() {
        // `p.z_r.n()`
        rounds_to(beam_parameters(&green()).unwrap().rayleigh_range, "5.92753330865999");
    }

    #[test]
    fn radius_off_the_waist() {
        // `p.w.n()` at 1 m, `p1.w.n()` 10 m farther on
        rounds_to(beam_at(&green(), 1.0).unwrap().diameter / 2.0, "0.00101413072159615");
        rounds_to(beam_at(&green(), 11.0).unwrap().diameter / 2.0, "0.00210803120913829");
    }

    #[test]
    fn waist_of_a_rayleigh_range() {
        // `p.w_0.n()`, from the q of the example, whose imaginary part is printed
        let d0 = waist_from_rayleigh_range(530e-9, 1.0, 5.92753330865999).unwrap();
        rounds_to(d0 / 2.0, "0.00100000000000000");
    }

    /// `lens_makers_formula` in `sympy/physics/optics/utils.py`, its two examples of a thin lens.
    #[test]
    fn lens_makers_formula() {
        rounds_to(lens_from_radii(1.33, 10.0, -10.0).unwrap().focal_length, "15.1515151515151");
        rounds_to(lens_from_radii(1.2, 10.0, f64::INFINITY).unwrap().focal_length, "50.0000000000000");
    }

    #[test]
    fn half_angle() {
        // `p.divergence` is printed as 0.00053/pi
        rounds_to(beam_parameters(&green()).unwrap().divergence_half_angle * PI, "0.00053");
    }

    #[test]
    fn wavefront_radius() {
        // `p.radius` is printed as 1 + 3.55998576005696*pi**2
        let radius = beam_at(&green(), 1.0).unwrap().wavefront_radius;
        rounds_to((radius - 1.0) / (PI * PI), "3.55998576005696");
    }

    /// `gaussian_conj` prints three formulas. The first, s_out, is checked anywhere. The other
    /// two print 1 − (s/f)² where the ray matrix of a thin lens gives (1 − s/f)²; the two agree
    /// at s = 0 and s = f only, and only there are they checked.
    #[test]
    fn conjugation() {
        let raw = green();
        let zr = beam_parameters(&raw).unwrap().rayleigh_range;
        for (s, f) in [(0.7, 0.2), (3.0, 0.5), (-1.0, 0.3), (2.0, -0.4), (12.0, 5.0)] {
            let printed = 1.0 / (-1.0 / (s + zr * zr / (-f + s)) + 1.0 / f);
            let got = focus_through_lens(&raw, s, f).unwrap().lens_to_waist;
            assert!((got / printed - 1.0).abs() < 1e-13, "s = {s}, f = {f}: {got} against {printed}");
        }
        for (s, f) in [(0.0, 0.2), (0.2, 0.2), (0.0, 4.0), (4.0, 4.0)] {
            let square = 1.0 - s * s / (f * f) + zr * zr / (f * f);
            let got = focus_through_lens(&raw, s, f).unwrap();
            assert!((got.rayleigh_range / (zr / square) - 1.0).abs() < 1e-14);
            assert!((got.magnification / (1.0 / square.sqrt()) - 1.0).abs() < 1e-14);
        }
    }
}

/// `laserbeamsize` 2.5.0, `tests/test_gaussian.py`, by the names of its tests. Its s counts the
/// other way than ours, its f < 0 gives a negative magnification. Its documentation of the module
/// `gaussian` also prints a Rayleigh range of 4.811823616524697 m for 1 mm and 650 nm; π·w²/λ, the
/// formula of that very function, is 4.833 m, so that value is not used.
mod laserbeamsize {
    use super::*;

    #[test]
    fn magnification() {
        let m = |wavelength, m2, s: f64, f| {
            focus_through_lens(&beam(wavelength, m2, 1e-3), -s, f).unwrap().magnification
        };
        rounds_to(m(1e-6, 1.0, -0.01, 0.02), "0.006366165"); // standard_conditions
        rounds_to(m(1e-6, 1.0, 0.01, 0.02), "0.006365907"); // positive_s
        rounds_to(m(1e-6, 1.0, 0.01, -0.02), "0.006366165"); // negative_f
        rounds_to(m(1e-6, 1.0, -0.02, 0.02), "0.0063661977"); // s_equals_negative_f
        rounds_to(m(1e-6, 2.0, -0.01, 0.02), "0.012732137"); // m2_factor
        rounds_to(m(2e-6, 1.0, -0.01, 0.02), "0.012732137"); // varied_wavelength
    }

    #[test]
    fn image_distance() {
        let place = |s: f64, f, m2| focus_through_lens(&beam(1e-6, m2, 1e-3), -s, f).unwrap().lens_to_waist;
        rounds_to(place(-0.05, 0.05, 1.0), "0.05"); // default
        starts_with(place(0.02, 0.05, 1.0), "0.049982277591"); // positive_s
        starts_with(place(-0.05, -0.05, 1.0), "-0.04997469"); // negative_f
        rounds_to(place(-0.05, 0.05, 2.0), "0.050"); // with_M2_factor
    }

    #[test]
    fn curvature() {
        let radius = |wavelength, m2, z| beam_at(&beam(wavelength, m2, 1e-3), z).unwrap().wavefront_radius;
        rounds_to(radius(1e-6, 1.0, 0.001), "9869.6054"); // standard_conditions
        rounds_to(radius(1e-6, 1.0, 0.009), "1096.6317"); // large_z
        rounds_to(radius(1e-6, 1.0, -0.002), "-4934.8042"); // negative_z
        rounds_to(radius(1e-6, 2.0, 0.001), "2467.4021"); // m2_factor
        rounds_to(radius(2e-6, 1.0, 0.001), "2467.4021"); // varied_wavelength
        assert_eq!(radius(1e-6, 1.0, 0.0), f64::INFINITY); // z_equals_z0
    }

    #[test]
    fn divergence() {
        let full =
            |wavelength, m2, w0| beam_parameters(&beam(wavelength, m2, w0)).unwrap().divergence_full_angle;
        rounds_to(full(1e-6, 1.0, 1e-3), "0.00063662"); // standard_conditions
        rounds_to(full(1e-6, 1.0, 1e-4), "0.0063662"); // small_w0
        rounds_to(full(1e-6, 1.0, 1e-2), "0.00006366"); // large_w0
        starts_with(full(2e-6, 1.0, 1e-3), "0.00127323"); // varied_lambda0
        starts_with(full(1e-6, 2.0, 1e-3), "0.00127323"); // m2_factor
    }

    /// 4·M²·λ·f/(π·d), which is the waist of a cone d/f wide; our lens keeps the focus shift too,
    /// which at these Rayleigh ranges is below 2 parts in 10⁵.
    #[test]
    fn focused_diameter() {
        for (f, wavelength, d, m2, printed) in [
            (0.01, 1e-6, 0.002, 1.0, "6.3661977e-06"),
            (0.02, 1e-6, 0.002, 1.0, "1.2732395e-05"),
            (0.01, 2e-6, 0.002, 1.0, "1.2732395e-05"),
            (0.01, 1e-6, 0.004, 1.0, "3.18309886e-06"),
            (120e-3, 532e-9, 10e-3, 1.3, "0.010567e-03"),
        ] {
            rounds_to(waist_from_divergence(wavelength, m2, d / f).unwrap(), printed);
            let through_lens = focus_collimated(wavelength, m2, d, f).unwrap().waist_diameter;
            assert!((through_lens / printed.parse::<f64>().unwrap() - 1.0).abs() < 5e-5, "{through_lens:e}");
        }
    }

    #[test]
    fn beam_parameter_product() {
        for (theta, d0, printed) in [(0.01, 0.002, "5e-06"), (0.02, 0.002, "1e-05"), (0.01, 0.004, "1e-05")] {
            let m2 = m2_from_divergence(1e-6, d0, theta).unwrap();
            let bpp = beam_parameters(&Beam { wavelength: 1e-6, m2, waist_diameter: d0 }).unwrap();
            assert!((bpp.beam_parameter_product / printed.parse::<f64>().unwrap() - 1.0).abs() < 1e-15);
        }
    }
}

/// Inverse error functions, as the smallest details of the spot for which √2·w is 1.
mod error_function {
    use super::*;

    /// erfinv(y).
    fn erfinv(y: f64) -> f64 {
        smallest_details(SQRT_2, 1.0 / y).unwrap().bar
    }

    /// erfcinv(y).
    fn erfcinv(y: f64) -> f64 {
        smallest_details(SQRT_2, 1.0 / y).unwrap().gap
    }

    /// erf(x): the y at which erfinv(y) passes x, by halving.
    fn erf(x: f64) -> f64 {
        let (mut low, mut high) = (1e-6, 1.0 / 1.000_001);
        for _ in 0..80 {
            let middle = low + 0.5 * (high - low);
            if erfinv(middle) < x {
                low = middle;
            } else {
                high = middle;
            }
        }
        low
    }

    /// `scipy` 1.17.1, `scipy/special/_add_newdocs.py`, examples of `erfinv` and `erfcinv`.
    #[test]
    fn scipy() {
        rounds_to(erfinv(0.25), "0.22531206");
        rounds_to(erfinv(0.5), "0.4769362762044699");
        rounds_to(erfinv(0.75), "0.81341985");
        rounds_to(erfcinv(0.2), "0.9061938");
        rounds_to(erfcinv(0.4), "0.59511608");
        rounds_to(erfcinv(0.5), "0.4769362762044699");
        rounds_to(erfcinv(0.6), "0.37080716");
        rounds_to(erfcinv(0.8), "0.17914345");
        // erfcinv(1.2), through the shift of an edge: erfcinv(2/q)/2 for this spot.
        rounds_to(2.0 * smallest_details(SQRT_2, 2.0 / 1.2).unwrap().edge_shift, "-0.17914345");
    }

    /// `mpmath` 1.4.1, examples in the documentation of `erf` and `erfc`.
    #[test]
    fn mpmath() {
        rounds_to(erf(0.5), "0.520499877813047"); // the first 15 of 50 digits
        rounds_to(erf(1.0), "0.842700792949715");
        rounds_to(erf(2.0), "0.995322265018953"); // the first 15 of 50 digits
        rounds_to(erf(3.0), "0.999977909503001");
        // erfc(10), as the contrast that a very coarse grating loses: 1 − C = 2·erfc(√2·Λ/(4·w)),
        // so that the dose window (1 + C)/(1 − C) is 1/erfc(10). Printed 2.08848758376254e-45;
        // the rounding of the pitch, times 200, leaves 13 digits.
        let pitch = 0.05 * 40.0 / SQRT_2;
        rounds_to(1.0 / contrast_at_pitch(0.1, pitch).unwrap().dose_window, "2.088487583763e-45");
    }

    /// M. Abramowitz, I. A. Stegun, *Handbook of Mathematical Functions*, table 7.1, from memory.
    #[test]
    fn abramowitz_and_stegun() {
        rounds_to(erf(0.1), "0.1124629160");
        rounds_to(erf(0.5), "0.5204998778");
        rounds_to(erf(1.0), "0.8427007929");
        rounds_to(erf(1.5), "0.9661051465");
        rounds_to(erf(2.0), "0.9953222650");
    }
}

/// Quantiles of the normal distribution, printed in every table of it, from memory. A Gaussian spot
/// of radius w blurs an edge with a standard deviation of w/2.
mod normal_distribution {
    use super::*;

    /// One-sided: an edge is moved by w/2 times the quantile of 1 − 1/q.
    #[test]
    fn one_sided() {
        for (probability, printed) in
            [(0.9, "1.28155"), (0.95, "1.64485"), (0.975, "1.95996"), (0.99, "2.32635"), (0.995, "2.57583")]
        {
            // w/2 = 1 m
            let shift = smallest_details(4.0, 1.0 / (1.0 - probability)).unwrap().edge_shift;
            rounds_to(shift, printed);
        }
    }

    /// Two-sided: a bar of half width b is left with the share of the normal distribution within
    /// ± 2·b/w, so that the smallest bar is w times that quantile.
    #[test]
    fn two_sided() {
        for (probability, printed) in
            [(0.5, "0.67449"), (0.9, "1.64485"), (0.95, "1.95996"), (0.98, "2.32635"), (0.99, "2.57583")]
        {
            // w = 1 m
            rounds_to(smallest_details(2.0, 1.0 / probability).unwrap().bar, printed);
        }
        // "68.27 %, 95.45 %, 99.73 % within 1, 2, 3 standard deviations"
        for (share, deviations) in [(0.6827, "1.000"), (0.9545, "2.000"), (0.9973, "3.000")] {
            rounds_to(smallest_details(2.0, 1.0 / share).unwrap().bar, deviations);
        }
    }
}

/// `lmfit` 1.3.4, `lmfit/models.py`, documentation of `GaussianModel`: the full width at half
/// maximum is "approximately 2.3548 σ". D4σ is 4 σ.
#[test]
fn half_maximum_of_lmfit() {
    let fwhm = convert_width(4.0, WidthDefinition::D4Sigma, WidthDefinition::Fwhm).unwrap();
    rounds_to(fwhm, "2.3548");
}

/// A. E. Siegman, *Lasers* (1986), section 17.1, from memory.
mod siegman {
    use super::*;

    #[test]
    fn width_at_half_maximum() {
        // "FWHM = 1.18 w"; 1.1774 in the longer form
        let fwhm = convert_width(2.0, WidthDefinition::InverseESquared, WidthDefinition::Fwhm).unwrap();
        rounds_to(fwhm, "1.1774");
    }

    #[test]
    fn power_through_apertures() {
        // "≈ 86 %" through the radius w, here with its usual third digit; "≈ 99 %" through the
        // diameter π·w
        rounds_to(100.0 * power_through_aperture(2.0, 2.0).unwrap(), "86.5");
        rounds_to(100.0 * power_through_aperture(2.0, PI).unwrap(), "99");
        // 99 % through the radius 1.52 w
        rounds_to(diameter_for_power(2.0, 0.99).unwrap() / 2.0, "1.52");
    }

    /// Table 17.1: collimated range 2·z_R of a beam that fills an aperture of π·w₀, which is
    /// 1 cm, 10 cm or 1 m across.
    #[test]
    fn collimated_ranges() {
        for (aperture, w0, far_infrared, visible) in
            [(0.01, "0.0032", "6", "100"), (0.1, "0.032", "600", "10e3"), (1.0, "0.32", "60e3", "1000e3")]
        {
            rounds_to(aperture / PI, w0);
            let range = |wavelength| {
                2.0 * beam_parameters(&beam(wavelength, 1.0, aperture / PI)).unwrap().rayleigh_range
            };
            // One digit is printed: 1.5 % is well inside it.
            for (wavelength, printed) in [(10.6e-6, far_infrared), (633e-9, visible)] {
                let printed: f64 = printed.parse().unwrap();
                assert!((range(wavelength) / printed - 1.0).abs() < 0.015, "{printed}");
            }
        }
    }
}

/// B. E. A. Saleh, M. C. Teich, *Fundamentals of Photonics*, section 3.1, from memory.
mod saleh_and_teich {
    use super::*;

    #[test]
    fn depth_of_focus_of_a_helium_neon_beam() {
        // "633 nm: a spot of 2 W₀ = 2 cm has a depth of focus 2 z₀ of about 1 km; one of 20 µm,
        // 1 mm"
        let full = |d0| {
            let beam = Beam { wavelength: 633e-9, m2: 1.0, waist_diameter: d0 };
            depth_of_focus(&beam, DepthCriterion::Rayleigh).unwrap().full
        };
        rounds_to(full(2e-2) / 1e3, "1");
        rounds_to(full(20e-6) * 1e3, "1");
    }

    #[test]
    fn power_within_a_circle() {
        // "about 86 % within W, about 99 % within 1.5 W"
        rounds_to(100.0 * power_through_aperture(2.0, 2.0).unwrap(), "86");
        rounds_to(100.0 * power_through_aperture(2.0, 3.0).unwrap(), "99");
    }
}

/// The article "Gaussian beam" of the English Wikipedia, from memory.
#[test]
fn power_within_1_224_radii() {
    rounds_to(100.0 * power_through_aperture(2.0, 2.0 * 1.224).unwrap(), "95");
    rounds_to(diameter_for_power(2.0, 0.95).unwrap() / 2.0, "1.224");
}

/// ISO 11145 and ISO 11146-1, from memory; the 0.87 read as quoted in the help text of an
/// open-source beam-image program.
mod iso {
    use super::*;
    use spotwise::model::optics::{AstigmaticBeam, Axis};

    #[test]
    fn rayleigh_length_is_where_the_diameter_has_grown_by_root_two() {
        let beam = beam(10.6e-6, 1.5, 50e-6);
        let zr = beam_parameters(&beam).unwrap().rayleigh_range;
        rounds_to(beam_at(&beam, zr).unwrap().diameter / beam.waist_diameter, "1.414214");
        rounds_to(offsets_for_growth(&beam, SQRT_2).unwrap().away_from_lens_z / zr, "1.00000");
    }

    #[test]
    fn circular_above_0_87() {
        rounds_to(CIRCULAR_ABOVE, "0.87");
        let axis = |d| Axis { m2: 1.0, waist_diameter: d, waist_z: 0.0 };
        let circular = |narrow| {
            let beam = AstigmaticBeam { wavelength: 1e-6, x: axis(100e-6), y: axis(narrow) };
            astigmatic_at(&beam, 0.0).unwrap().circular
        };
        assert!(circular(87.1e-6) && !circular(86.9e-6));
    }
}

/// S. A. Self, *Applied Optics* 22, 658 (1983), from memory: the image lies farthest from the lens
/// for a waist at s = f + z_R, at s′/f = 1 + f/(2·z_R); and for a waist at s = f it lies at s′ = f.
#[test]
fn farthest_image_of_self() {
    let raw = beam(1e-6, 1.0, 1e-3);
    let zr = beam_parameters(&raw).unwrap().rayleigh_range;
    let f = 1.3;
    let place = |s| focus_through_lens(&raw, s, f).unwrap().lens_to_waist;
    let farthest = place(f + zr);
    assert!((farthest / f / (1.0 + f / (2.0 * zr)) - 1.0).abs() < 1e-15);
    assert!(place(f + 1.01 * zr) < farthest && place(f + 0.99 * zr) < farthest);
    assert_eq!(place(f), f);
}

/// Refractive indices as tables and data sheets print them, **all from memory**; the coefficients in
/// the model were read elsewhere (see `model::optics::glass`).
mod refractive_indices {
    use super::*;

    fn printed(glass: Glass, indices: &[(f64, &str)]) {
        for (micrometres, printed) in indices {
            rounds_to(refractive_index(glass, micrometres * 1e-6).unwrap().index, printed);
        }
    }

    /// I. H. Malitson, *J. Opt. Soc. Am.* 55, 1205 (1965), table of computed indices at 20 °C.
    #[test]
    fn fused_silica_of_malitson() {
        let indices = [
            (0.404_656, "1.46962"),
            (0.435_835, "1.46669"),
            (0.486_133, "1.46313"),
            (0.546_074, "1.46008"),
            (0.587_561, "1.45846"),
            (0.656_272, "1.45637"),
            (1.013_98, "1.45024"),
            (1.529_52, "1.44427"),
            (2.3254, "1.43293"),
        ];
        printed(Glass::FusedSilica, &indices);
        // In every table of laser lines.
        printed(Glass::FusedSilica, &[(0.6328, "1.45702"), (1.064, "1.44963"), (1.55, "1.44402")]);
    }

    /// The glass's data sheet: at d, F, C, e, F′, C′, g, h, i, r, s, t, 1060 nm, a helium-neon laser, and
    /// the infrared and ultraviolet lines of mercury.
    #[test]
    fn n_bk7_of_its_data_sheet() {
        let indices = [
            (2.325_42, "1.48921"),
            (1.970_09, "1.49495"),
            (1.529_58, "1.50091"),
            (1.06, "1.50669"),
            (1.013_98, "1.50731"),
            (0.852_11, "1.50980"),
            (0.706_518_8, "1.51289"),
            (0.656_272_5, "1.51432"),
            (0.643_846_9, "1.51472"),
            (0.6328, "1.51509"),
            (0.587_561_8, "1.51680"),
            (0.546_074, "1.51872"),
            (0.486_132_7, "1.52238"),
            (0.479_991_4, "1.52283"),
            (0.435_834_3, "1.52668"),
            (0.404_656_1, "1.53024"),
            (0.365_014_6, "1.53627"),
            (0.334_147_8, "1.54272"),
            (0.312_566_3, "1.54862"),
        ];
        printed(Glass::NBk7, &indices);
        // Abbe number (n_d − 1)/(n_F − n_C), printed as 64.17.
        let n = |micrometres: f64| refractive_index(Glass::NBk7, micrometres * 1e-6).unwrap().index;
        rounds_to((n(0.587_561_8) - 1.0) / (n(0.486_132_7) - n(0.656_272_5)), "64.17");
    }

    /// Tables of infrared materials by their makers.
    #[test]
    fn infrared_materials() {
        let zinc_selenide = [
            (0.54, "2.6754"),
            (0.58, "2.6312"),
            (1.0, "2.4892"),
            (1.4, "2.4609"),
            (1.8, "2.4496"),
            (2.2, "2.4437"),
            (3.0, "2.4376"),
            (5.0, "2.4295"),
            (7.0, "2.4218"),
            (9.0, "2.4122"),
            (10.0, "2.4065"),
            (10.6, "2.4028"),
            (11.0, "2.4001"),
            (18.2, "2.3278"),
        ];
        printed(Glass::ZincSelenide, &zinc_selenide);
        // Samples differ in the third decimal.
        printed(Glass::Germanium, &[(10.6, "4.00"), (5.0, "4.02"), (3.0, "4.04")]);
        printed(Glass::GalliumArsenide, &[(10.6, "3.27")]);
        printed(Glass::ZincSulfide, &[(10.6, "2.19"), (0.6328, "2.3505")]);
    }

    /// Calcium fluoride as tables of ultraviolet and visible lines give it, from other melts than the
    /// formula's: to one unit in the last digit. Sapphire, ordinary ray.
    #[test]
    fn crystals() {
        for (micrometres, printed) in [(0.587_561_8, "1.43384"), (0.486_132_7, "1.43703"), (1.0, "1.42888")] {
            starts_with(refractive_index(Glass::CalciumFluoride, micrometres * 1e-6).unwrap().index, printed);
        }
        printed(Glass::Sapphire, &[(0.5876, "1.768"), (0.6328, "1.766"), (1.064, "1.7545"), (4.0, "1.675")]);
    }
}

/// The blur of a single lens, k in k·D³/f², as handbooks and makers of infrared lenses print it, from
/// memory.
mod blur_of_a_singlet {
    use super::*;

    fn k(index: f64, shape: LensShape) -> f64 {
        lens_aberration(&Singlet { index, shape, focal_length: 0.1 }).unwrap().blur_coefficient
    }

    #[test]
    fn of_infrared_materials() {
        let at_10_6 = |glass| refractive_index(glass, 10.6e-6).unwrap().index;
        rounds_to(k(at_10_6(Glass::ZincSelenide), LensShape::BestForm), "0.0187");
        rounds_to(k(at_10_6(Glass::ZincSelenide), LensShape::CurvedSideFirst), "0.0286");
        rounds_to(k(at_10_6(Glass::GalliumArsenide), LensShape::BestForm), "0.0114");
        rounds_to(k(at_10_6(Glass::Germanium), LensShape::BestForm), "0.0087");
    }

    /// W. J. Smith, *Modern Optical Engineering*: the angular blur of a singlet bent for least aberration
    /// is 0.067/N³ for an index of 1.5, 0.027/N³ for 2, 0.0129/N³ for 3 and 0.0087/N³ for 4.
    #[test]
    fn of_best_forms_by_index() {
        for (index, printed) in [(1.5, "0.067"), (2.0, "0.027"), (3.0, "0.0129"), (4.0, "0.0087")] {
            rounds_to(k(index, LensShape::BestForm), printed);
        }
    }

    /// "A lens of index 1.5 has its best form at a shape factor of about 0.7, near plano-convex with the
    /// curved side to the light", E. Hecht, *Optics*, section on third-order aberrations, and F. A. Jenkins,
    /// H. E. White, *Fundamentals of Optics*, where the least is at q = 0.714.
    #[test]
    fn best_form_of_crown_glass() {
        let lens = Singlet { index: 1.5, shape: LensShape::BestForm, focal_length: 0.1 };
        rounds_to(lens_aberration(&lens).unwrap().shape_factor, "0.714");
    }

    /// A tutorial on spot sizes by a maker of infrared lenses, read as a plot: 10.6 µm, a meniscus of zinc
    /// selenide with 127 mm focal length and M² = 1 has its least sum of diffraction and aberration, about
    /// 85 µm, at about 25 mm. Read off a flat minimum: 5 % and 10 %.
    #[test]
    fn smallest_sum_of_a_meniscus() {
        let index = refractive_index(Glass::ZincSelenide, 10.6e-6).unwrap().index;
        let lens = Singlet { index, shape: LensShape::BestForm, focal_length: 127e-3 };
        let best = smallest_spot(10.6e-6, 1.0, &lens, SpotMeasure::Handbook).unwrap();
        assert!((best.spot_diameter / 85e-6 - 1.0).abs() < 0.05, "{:e}", best.spot_diameter);
        assert!((best.diameter_at_lens / 25e-3 - 1.0).abs() < 0.10, "{:e}", best.diameter_at_lens);
    }
}

/// Diffraction at a round aperture: M. Born, E. Wolf, *Principles of Optics*, chapters 8 and 9, from
/// memory.
mod diffraction {
    use super::*;

    const WAVELENGTH: f64 = 1e-8;
    const FOCAL_LENGTH: f64 = 1.0;

    /// A perfect beam 0.2 m wide, this many times narrower than the aperture.
    fn wave(clipping_ratio: f64, aberration_phase: f64) -> Wave {
        Wave {
            wavelength: WAVELENGTH,
            m2: 1.0,
            diameter_at_lens: 0.2,
            clear_aperture: clipping_ratio * 0.2,
            lens_to_focus: FOCAL_LENGTH,
            aberration_phase,
        }
    }

    /// λ·N for the aperture of that wave.
    fn lambda_n(wave: &Wave) -> f64 {
        WAVELENGTH * FOCAL_LENGTH / wave.clear_aperture
    }

    /// A quantity that a taper of the light changes in proportion to X², freed of that: from clipping
    /// ratios of 0.2 and 0.4. What is left goes with X⁴.
    fn uniform_limit(of: impl Fn(f64) -> f64) -> f64 {
        (4.0 * of(0.2) - of(0.4)) / 3.0
    }

    /// Uniform light: the first dark ring has the radius 1.22·λ·N, the disk is 1.029·λ·N wide at half its
    /// irradiance, and 83.8 % of the power fall within the ring.
    #[test]
    fn disk_of_uniform_light() {
        let dark_ring = uniform_limit(|ratio| {
            let wave = wave(ratio, 0.0);
            let at =
                |rings: f64| wave_irradiance(&wave, rings * lambda_n(&wave), 0.0).unwrap().irradiance_ratio;
            let (mut inner, mut outer) = (1.0, 1.5);
            while outer - inner > 1e-6 {
                let third = (outer - inner) / 3.0;
                if at(inner + third) < at(outer - third) {
                    outer -= third;
                } else {
                    inner += third;
                }
            }
            inner
        });
        rounds_to(dark_ring, "1.22");
        let half = |ratio| {
            let wave = wave(ratio, 0.0);
            wave_widths(&wave, 0.0).unwrap().fwhm / lambda_n(&wave)
        };
        rounds_to(uniform_limit(half), "1.029");
        let within = uniform_limit(|ratio| {
            let wave = wave(ratio, 0.0);
            wave_power(&wave, 1.21967 * lambda_n(&wave), 0.0).unwrap().share_of_transmitted
        });
        rounds_to(100.0 * within, "83.8");
        // The fitted width at the end of its domain has a taper of exp(−0.04) in the field.
        let fit = focus_clipped(WAVELENGTH, 0.2, 0.200_001 * 0.2, FOCAL_LENGTH).unwrap();
        assert!((fit.fwhm / lambda_n(&wave(0.2, 0.0)) / 1.029 - 1.0).abs() < 0.01);
    }

    /// Uniform light: the irradiance on the axis is sinc² of the defocus, 8/π² = 0.811 at ±2·λ·N², a
    /// quarter wave at the edge, and 0.8 at ±2.06·λ·N².
    #[test]
    fn defocus_of_uniform_light() {
        let ratio = 0.25;
        let wave = wave(ratio, 0.0);
        let n = FOCAL_LENGTH / wave.clear_aperture;
        let at = |z: f64| wave_irradiance(&wave, 0.0, z * WAVELENGTH * n * n).unwrap().irradiance_ratio;
        // A taper of exp(−0.0625) in the field is left.
        assert!((at(2.0) / at(0.0) - 0.8106).abs() < 0.0005);
        assert!((at(-2.0) / at(0.0) - 0.8106).abs() < 0.0005);
        let depth = |ratio: f64| {
            let n = FOCAL_LENGTH / (ratio * 0.2);
            let depth = clipped_depth_of_focus(WAVELENGTH, 0.2, ratio * 0.2, FOCAL_LENGTH, 0.2).unwrap();
            0.5 * depth.range.full / (WAVELENGTH * n * n)
        };
        rounds_to(depth(0.2001), "2.060");
    }

    /// A beam that is hardly clipped: 4/π·λ·f/D, and 1/(1 + β²) on the axis, β the defocus in
    /// Rayleigh ranges.
    #[test]
    fn gaussian_beam() {
        let wave = wave(f64::INFINITY, 0.0);
        let waist = 4.0 / PI * WAVELENGTH * FOCAL_LENGTH / 0.2;
        let widths = wave_widths(&wave, 0.0).unwrap();
        for diameter in [widths.diameter_1e2, widths.diameter_power86] {
            assert!((diameter / waist - 1.0).abs() < 1e-9);
        }
        let rayleigh_range = PI * waist * waist / (4.0 * WAVELENGTH);
        for beta in [0.5, 1.0, 2.0, 5.0, -3.0] {
            let at = wave_irradiance(&wave, 0.0, beta * rayleigh_range).unwrap().irradiance_ratio;
            assert!((at * (1.0 + beta * beta) - 1.0).abs() < 1e-5, "{at}");
        }
        for ratio in [2.8, 5.0] {
            let clipped = focus_clipped(WAVELENGTH, 0.2, ratio * 0.2, FOCAL_LENGTH).unwrap();
            assert!((clipped.diameter_1e2 / waist - 1.0).abs() < 1e-14);
        }
    }

    /// A. Maréchal: where the phase errors are small the peak falls by their variance, exp(−σ²). Of quartic
    /// aberration in the best focus of a Gaussian beam σ is 2·α: the variance of α·(y² − 4y) under
    /// exp(−y) is 4·α².
    #[test]
    fn small_aberrations() {
        for alpha in [0.02, 0.04, -0.04] {
            let peak = wave_focus(&wave(f64::INFINITY, alpha), FocusMeasure::PeakIrradiance).unwrap();
            let fall = -peak.irradiance_ratio.ln();
            // The next term is of the order of (10·α)² of the first.
            let budget = 120.0 * alpha * alpha;
            assert!((fall / (4.0 * alpha * alpha) - 1.0).abs() < budget, "{alpha}: {fall:e}");
        }
    }
}
