//! Refractive index, and a lens at another wavelength.

use super::given::*;
use proptest::prelude::*;
use spotwise::model::optics::{
    Glass, LensShape, Singlet, lens_aberration, lens_at_wavelength, refractive_index,
};
use spotwise::{Error, Param};

fn glass() -> impl Strategy<Value = Glass> {
    prop::sample::select(Glass::ALL.to_vec())
}

/// A glass and two wavelengths within its range.
fn glass_and_wavelengths() -> impl Strategy<Value = (Glass, f64, f64)> {
    glass().prop_flat_map(|glass| {
        let (least, greatest) = glass.wavelengths();
        (Just(glass), spread(least, greatest), spread(least, greatest))
    })
}

fn focal_length() -> BoxedStrategy<f64> {
    (any::<bool>(), spread(1e-3, 1e2)).prop_map(|(minus, f)| if minus { -f } else { f }).boxed()
}

#[test]
fn the_ends_of_each_range_are_allowed_and_nothing_beyond() {
    let form = LensShape::BestForm;
    for glass in Glass::ALL {
        let (least, greatest) = glass.wavelengths();
        for wavelength in [least, greatest] {
            assert!(refractive_index(glass, wavelength).is_ok(), "{glass:?}");
            assert!(lens_at_wavelength(glass, form, 0.1, wavelength, wavelength).is_ok());
        }
        for wavelength in [least.next_down(), greatest.next_up()] {
            let want = Error::OutOfRange { param: Param::Wavelength, value: wavelength, least, greatest };
            assert_eq!(refractive_index(glass, wavelength).unwrap_err(), want);
            assert_eq!(lens_at_wavelength(glass, form, 0.1, least, wavelength).unwrap_err(), want);
            let want =
                Error::OutOfRange { param: Param::DesignWavelength, value: wavelength, least, greatest };
            assert_eq!(lens_at_wavelength(glass, form, 0.1, wavelength, least).unwrap_err(), want);
        }
    }
}

#[test]
fn no_two_glasses_share_a_name_or_a_code() {
    for (at, glass) in Glass::ALL.into_iter().enumerate() {
        assert_eq!(Glass::from_code(glass as u32), Ok(glass));
        assert!(Glass::ALL[..at].iter().all(|other| other.name() != glass.name()));
    }
}

proptest! {
    #![proptest_config(config())]

    /// Within its range every glass refracts and disperses normally: redder light, lower index.
    #[test]
    fn normal_dispersion((glass, a, b) in glass_and_wavelengths()) {
        let (at_a, at_b) = (refractive_index(glass, a).unwrap(), refractive_index(glass, b).unwrap());
        prop_assert!(at_a.index > 1.05 && at_a.index < 4.2);
        prop_assert!(at_a.dispersion < 0.0);
        let (bluer, redder) = if a < b { (at_a, at_b) } else { (at_b, at_a) };
        in_order(redder.index, bluer.index, 2.0);
    }

    /// dn/dλ is the slope of n: a central difference of five points agrees to its own error.
    #[test]
    fn dispersion_is_the_slope_of_the_index((glass, wavelength, _) in glass_and_wavelengths()) {
        let step = 3e-4 * wavelength;
        let (least, greatest) = glass.wavelengths();
        prop_assume!(wavelength - 2.0 * step >= least && wavelength + 2.0 * step <= greatest);
        let n = |steps: f64| refractive_index(glass, wavelength + steps * step).unwrap().index;
        let slope = (8.0 * (n(1.0) - n(-1.0)) - (n(2.0) - n(-2.0))) / (12.0 * step);
        let got = refractive_index(glass, wavelength).unwrap();
        // Rounding of the index, and the fifth derivative close to a resonance.
        near(got.dispersion, slope, 8.0 * f64::EPSILON / step + 1e-9 * slope.abs());
    }

    /// There and back again.
    #[test]
    fn another_wavelength_and_back((glass, a, b) in glass_and_wavelengths(), form in lens_shape(), f in focal_length()) {
        let there = lens_at_wavelength(glass, form, f, a, b).unwrap();
        same_bits(there.design_index, refractive_index(glass, a).unwrap().index);
        same_bits(there.index, refractive_index(glass, b).unwrap().index);
        // The shape that was ground: a best form is one at the design wavelength only.
        let ground = LensShape::ShapeFactor { factor: there.shape_factor };
        let back = lens_at_wavelength(glass, ground, there.focal_length, b, a).unwrap();
        same_bits(back.shape_factor, there.shape_factor);
        close(back.focal_length, f, 3.0);
        near(back.focal_shift, -there.focal_shift, 4.0 * f64::EPSILON * there.focal_shift.abs());
        near(there.focal_length, f + there.focal_shift, 4.0 * f64::EPSILON * f.abs().max(there.focal_length.abs()));
        // 1/f goes with n − 1.
        close(there.focal_length * (there.index - 1.0), f * (there.design_index - 1.0), 8.0);
        // Bluer light comes to focus nearer the lens, on the side of f.
        if a != b {
            prop_assert_eq!(there.focal_shift * f > 0.0, b > a);
        }
    }

    #[test]
    fn the_same_wavelength_changes_nothing((glass, a, _) in glass_and_wavelengths(), shape in lens_shape(), f in focal_length()) {
        let same = lens_at_wavelength(glass, shape, f, a, a).unwrap();
        same_bits(same.focal_length, f);
        prop_assert_eq!(same.focal_shift, 0.0);
        // The aberration is that of the lens, but for the rounding of the index on its way in.
        let lens = Singlet { index: same.index, shape, focal_length: f };
        let here = lens_aberration(&lens).unwrap();
        close(same.shape_factor, here.shape_factor, 8.0);
        let conditioning = 32.0 / (same.index - 1.0);
        close(same.blur_coefficient, here.blur_coefficient, conditioning);
        close(same.wavefront_coefficient, here.wavefront_coefficient, conditioning);
    }

    /// The aberration at the other wavelength is that of a lens of the index, shape and focal length there.
    #[test]
    fn aberration_is_that_of_the_lens_there((glass, a, b) in glass_and_wavelengths(), shape in lens_shape(), f in focal_length()) {
        let there = lens_at_wavelength(glass, shape, f, a, b).unwrap();
        let ground = LensShape::ShapeFactor { factor: there.shape_factor };
        let lens = Singlet { index: there.index, shape: ground, focal_length: there.focal_length };
        let alone = lens_aberration(&lens).unwrap();
        let conditioning = 32.0 / (there.index - 1.0);
        close(there.blur_coefficient, alone.blur_coefficient, conditioning);
        close(there.wavefront_coefficient, alone.wavefront_coefficient, conditioning);
        // A best form is one in the light that it was made for.
        let design = Singlet { index: there.design_index, shape, focal_length: f };
        close(there.shape_factor, lens_aberration(&design).unwrap().shape_factor, 8.0);
    }

    #[test]
    fn scales_and_mirrors_with_the_focal_length((glass, a, b) in glass_and_wavelengths(), form in lens_shape(), f in focal_length(), k in power_of_two()) {
        let lens = lens_at_wavelength(glass, form, f, a, b).unwrap();
        let scaled = lens_at_wavelength(glass, form, -k * f, a, b).unwrap();
        same_bits(scaled.focal_length, -k * lens.focal_length);
        opposite(scaled.focal_shift, k * lens.focal_shift);
        same_bits(scaled.blur_coefficient, lens.blur_coefficient);
        opposite(scaled.wavefront_coefficient * k * k * k, lens.wavefront_coefficient);
    }
}
