//! The rigorous wave against closed forms: the on-axis laws, the Gaussian beam of any M², the uniformly
//! lit aperture, moments, and its own definitions turned round.

use spotwise::model::focus::{DepthCriterion, wave_depth_of_focus};
use spotwise::model::optics::{
    FocusMeasure, Wave, focus_collimated, wave_focus, wave_irradiance, wave_map, wave_map_workspace,
    wave_power, wave_widths,
};
use spotwise::{Error, Param, Validity};
use std::f64::consts::PI;

const WAVELENGTH: f64 = 10.6e-6;
const DIAMETER: f64 = 8e-3;
const FOCUS: f64 = 50.8e-3;

/// A CO2 beam on a 2 inch lens; X is the clipping ratio.
fn wave(m2: f64, alpha: f64, x: f64) -> Wave {
    Wave {
        wavelength: WAVELENGTH,
        m2,
        diameter_at_lens: DIAMETER,
        clear_aperture: x * DIAMETER,
        lens_to_focus: FOCUS,
        aberration_phase: alpha,
    }
}

/// ZL/L.
fn fresnel() -> f64 {
    PI * DIAMETER * DIAMETER / (4.0 * WAVELENGTH * FOCUS)
}

/// The plane of a normalised defocus, and (L/l)² there.
fn plane(beta: f64) -> (f64, f64) {
    let nearness = 1.0 + beta / fresnel();
    (-FOCUS * beta / (fresnel() + beta), nearness * nearness)
}

/// Normalised radius over radius, at this z.
fn v_per_metre(z: f64) -> f64 {
    PI * DIAMETER / (WAVELENGTH * (FOCUS + z))
}

/// Irradiance ratios of one plane.
fn row(wave: &Wave, radii: &[f64], z: f64) -> Vec<f64> {
    let mut workspace = vec![f64::NAN; wave_map_workspace(wave, radii, &[z]).unwrap()];
    let mut ratios = vec![f64::NAN; radii.len()];
    wave_map(wave, radii, &[z], &mut workspace, &mut ratios).unwrap();
    ratios
}

const CLIPS: [f64; 6] = [0.2, 0.5, 1.0, 1.7, 2.6, f64::INFINITY];
const M2S: [f64; 11] = [1.0, 1.0 + 1e-12, 1.000_01, 1.001, 1.02, 1.043, 1.045, 1.2, 1.8, 3.0, 5.0];

/// [(1 − e)² + 4·e·sin²(βX²/2)]/(1 + β²) with e = exp(−X²): the clipped beam on its axis.
#[test]
fn on_axis_clipped() {
    for x in CLIPS {
        for beta in [0.0, 0.3, -1.7, 4.0, -9.0, 17.0, 29.9, -29.9] {
            let e = (-x * x).exp();
            let sin = if x.is_finite() { (beta * x * x / 2.0).sin() } else { 0.0 };
            let (z, nearness) = plane(beta);
            let exact = ((1.0 - e).powi(2) + 4.0 * e * sin * sin) / (1.0 + beta * beta) * nearness;
            let got = wave_irradiance(&wave(1.0, 0.0, x), 0.0, z).unwrap();
            let off = (got.irradiance_ratio - exact).abs();
            assert!(off <= got.error + 1e-14 * exact, "{x} {beta}: {off:e}, bound {:e}", got.error);
            assert!(got.error <= 5e-13, "{x} {beta}: {:e}", got.error);
        }
    }
}

/// (√π/(2√a))·exp(p²/4a)·erfc(p/(2√a)), a = −iα, p = 1 + iβ, squared: from mpmath, 40 digits.
#[test]
fn on_axis_aberrated() {
    for (alpha, beta, exact) in ON_AXIS_ABERRATED {
        let (z, nearness) = plane(beta);
        let got = wave_irradiance(&wave(1.0, alpha, f64::INFINITY), 0.0, z).unwrap();
        let off = (got.irradiance_ratio - exact * nearness).abs();
        assert!(off <= got.error + 1e-14, "{alpha} {beta}: {off:e}, bound {:e}", got.error);
    }
}

/// α, β, |U(0)|².
const ON_AXIS_ABERRATED: [(f64, f64, f64); 8] = [
    (0.05, 0.2, 0.9914375611556484),
    (0.5, 0.95, 0.7838589076012435),
    (1.0, -3.0, 0.07944499020747675),
    (1.5, 2.5, 0.5836697611124085),
    (-2.0, 4.0, 0.04616577551723503),
    (4.0, 6.0, 0.33349713821739174),
    (6.0, -12.0, 0.006554673270257212),
    (-6.0, -8.0, 0.24067659285394005),
];

/// Without aperture and aberration a wave of any M² stays a Gaussian: in v, its 1/e² radius is
/// 2·√(M⁴ + β²), in every profile, power and width.
#[test]
fn gaussian_of_any_m2() {
    for m2 in M2S {
        for beta in [0.0, -0.8, 8.0] {
            let wave = wave(m2, 0.0, f64::INFINITY);
            let (z, nearness) = plane(beta);
            let radius = 2.0 * (m2 * m2 + beta * beta).sqrt() / v_per_metre(z);
            let on_axis = m2 * m2 / (m2 * m2 + beta * beta) * nearness;
            for share in [0.0, 0.3, 1.0, 2.5] {
                let gauss = f64::exp(-2.0 * share * share);
                let got = wave_irradiance(&wave, share * radius, z).unwrap();
                let off = (got.irradiance_ratio - gauss * on_axis).abs();
                assert!(off <= got.error + 1e-14, "{m2} {beta} {share}: {off:e}, bound {:e}", got.error);
                assert!(got.error < 5e-11, "{m2} {beta} {share}: bound {:e}", got.error);
                let got = wave_power(&wave, share * radius, z).unwrap();
                let off = (got.share - (1.0 - gauss)).abs();
                assert!(off <= got.error + 1e-14, "{m2} {beta} {share}: {off:e}, bound {:e}", got.error);
                assert!(got.error < 1e-9, "{m2} {beta} {share}: bound {:e}", got.error);
            }
            let got = wave_widths(&wave, z).unwrap();
            let fwhm = (2.0_f64.ln() / 2.0).sqrt() * 2.0 * radius;
            let widths =
                [(got.diameter_1e2, 2.0 * radius), (got.diameter_power86, 2.0 * radius), (got.fwhm, fwhm)];
            for (got_width, exact) in widths {
                let off = (got_width / exact - 1.0).abs();
                assert!(off <= got.error + 1e-14, "{m2} {beta}: {off:e}, bound {:e}", got.error);
            }
            assert!(got.error < 1e-9, "{m2} {beta}: bound {:e}", got.error);
        }
    }
}

/// As the aperture closes, widths in λN tend to those of the Airy pattern, in even powers of X: values
/// at X² = 0.12, 0.08 and 0.04, extrapolated to 0. The first dark ring likewise.
#[test]
fn airy_limit() {
    let number = |x: f64| WAVELENGTH * FOCUS / (x * DIAMETER);
    let widths = [0.12_f64, 0.08, 0.04].map(|square| {
        let x = (square + 1e-12).sqrt();
        let widths = wave_widths(&wave(1.0, 0.0, x), 0.0).unwrap();
        [widths.fwhm / number(x), widths.diameter_1e2 / number(x)]
    });
    let [fwhm, low] = [0, 1].map(|index| widths[0][index] - 3.0 * widths[1][index] + 3.0 * widths[2][index]);
    // Half and 1/e² of (2·J1(v)/v)², from mpmath.
    assert!((fwhm - 1.028_993_970).abs() < 2e-6, "{fwhm}");
    assert!((low - 1.644_922_990).abs() < 2e-6, "{low}");
    // 1.2196698912665·λN: the first zero of J1 over π; at X = 0.2 the light is not quite even, which
    // moves the ring by a few parts in 10⁵.
    let wave = wave(1.0, 0.0, 0.2);
    let on_axis = wave_irradiance(&wave, 0.0, 0.0).unwrap().irradiance_ratio;
    let dark = wave_irradiance(&wave, 1.219_669_891 * number(0.2), 0.0).unwrap().irradiance_ratio;
    assert!(dark / on_axis < 1e-4, "{dark:e}");
}

/// Widths are where the irradiance and the power say that they are, clipped, aberrated and smeared.
#[test]
fn widths_against_profile_and_power() {
    for m2 in [1.0, 1.01, 1.3, 2.2] {
        for (alpha, x, beta) in [
            (0.5, 1.1, 0.7),
            (-2.0, 1.6, -3.0),
            (1.0, 2.0, -6.0),
            (3.0, f64::INFINITY, 5.0),
            (0.0, 0.3, 20.0),
        ] {
            let wave = wave(m2, alpha, x);
            let (z, _) = plane(beta);
            let widths = wave_widths(&wave, z).unwrap();
            let at = |diameter: f64| wave_irradiance(&wave, diameter / 2.0, z).unwrap();
            let (low, half) = (at(widths.diameter_1e2), at(widths.fwhm));
            let ratio = low.irradiance_ratio / half.irradiance_ratio;
            let exact = 2.0 * (-2.0_f64).exp();
            assert!((ratio / exact - 1.0).abs() < 1e-8, "{m2} {alpha} {x} {beta}: {ratio}");
            let power = wave_power(&wave, widths.diameter_power86 / 2.0, z).unwrap();
            let exact = 1.0 - (-2.0_f64).exp();
            assert!((power.share_of_transmitted - exact).abs() < 1e-9, "{m2} {alpha} {x} {beta}");
            // No place in the plane is brighter than twice the irradiance at the half width, and
            // outside the widths no place passes their level again.
            let reach = 3.0 * widths.diameter_1e2;
            let radii: Vec<f64> = (0..600).map(|step| reach * f64::from(step) / 600.0).collect();
            let profile = row(&wave, &radii, z);
            for (radius, got) in radii.iter().zip(profile) {
                let peak = 2.0 * half.irradiance_ratio;
                assert!(got <= peak * (1.0 + 1e-8));
                assert!(*radius < widths.fwhm / 2.0 || got <= half.irradiance_ratio * (1.0 + 1e-8));
                assert!(*radius < widths.diameter_1e2 / 2.0 || got <= low.irradiance_ratio * (1.0 + 1e-8));
            }
        }
    }
}

/// The whole power passes through any plane; what a sharp edge sends beyond v is, on average over the
/// rings, 4·X·exp(−2X²)/(πv) (from the asymptotic form of J1).
#[test]
fn power_is_kept() {
    let v = 118.0;
    let cases = [
        (1.0, 0.0, 1.5),
        (1.0, 0.3, f64::INFINITY),
        (1.5, -0.5, f64::INFINITY),
        (3.0, 0.0, 2.5),
        (2.0, 0.0, 1.0),
    ];
    for (m2, alpha, x) in cases {
        let got = wave_power(&wave(m2, alpha, x), v / v_per_metre(0.0), 0.0).unwrap();
        let transmitted = -f64::exp_m1(-2.0 * x * x);
        let beyond = if x.is_finite() { 4.0 * x * f64::exp(-2.0 * x * x) / (PI * v) } else { 0.0 };
        let off = (transmitted - got.share) - beyond;
        assert!(off.abs() <= 0.02 * beyond + got.error, "{m2} {alpha} {x}: {off:e} beside {beyond:e}");
    }
}

/// Without aberration and aperture the best focus is the waist of a Gaussian beam, by every measure.
#[test]
fn focus_of_a_gaussian_beam() {
    for m2 in [1.0, 1.2, 2.0] {
        let beam = focus_collimated(WAVELENGTH, m2, DIAMETER, FOCUS).unwrap();
        let wave = wave(m2, 0.0, f64::INFINITY);
        for measure in FocusMeasure::ALL {
            let got = wave_focus(&wave, measure).unwrap();
            let off = (got.z - beam.focus_shift).abs() / beam.rayleigh_range;
            assert!(off < 2e-8, "{m2} {measure:?}: {off:e}");
            assert!((got.diameter_power86 / beam.waist_diameter - 1.0).abs() < 1e-10);
            assert!((got.diameter_d4sigma / beam.waist_diameter - 1.0).abs() < 1e-12);
        }
    }
}

/// Depths of a Gaussian beam about its waist.
#[test]
fn depth_of_a_gaussian_beam() {
    for m2 in [1.0, 1.3] {
        let beam = focus_collimated(WAVELENGTH, m2, DIAMETER, FOCUS).unwrap();
        let wave = wave(m2, 0.0, f64::INFINITY);
        let cases = [
            (DepthCriterion::Growth { ratio: 1.05 }, (1.05_f64 * 1.05 - 1.0).sqrt()),
            (DepthCriterion::Rayleigh, 1.0),
            (DepthCriterion::IrradianceDrop { drop: 0.2 }, 0.5),
            (DepthCriterion::LargestDiameter { diameter: 3.0 * beam.waist_diameter }, 8.0_f64.sqrt()),
        ];
        for (criterion, half) in cases {
            let got = wave_depth_of_focus(&wave, criterion).unwrap();
            let half = half * beam.rayleigh_range;
            let ends = [(got.range.toward_lens_z, -half), (got.range.away_from_lens_z, half)];
            for (end, exact) in ends {
                let off = (end - exact).abs();
                assert!(off < 1e-7 * beam.rayleigh_range, "{m2} {criterion:?}: {off:e}");
            }
            assert!((got.best_z - beam.focus_shift).abs() < 1e-7 * beam.rayleigh_range);
            assert!(got.error < 1e-7 * beam.rayleigh_range, "{m2} {criterion:?}: {:e}", got.error);
        }
    }
}

/// An aberrated beam: the second moment of the profile is the closed form's, and the ends of a depth
/// are where the criterion says.
#[test]
fn aberrated_depth_ends() {
    let wave = wave(1.2, 0.6, 1.8);
    let best = wave_focus(&wave, FocusMeasure::Power86).unwrap();
    let depth = wave_depth_of_focus(&wave, DepthCriterion::Growth { ratio: 1.1 }).unwrap();
    assert_eq!(depth.best_z.to_bits(), best.z.to_bits());
    for end in [depth.range.toward_lens_z, depth.range.away_from_lens_z] {
        let widths = wave_widths(&wave, best.z + end).unwrap();
        assert!((widths.diameter_power86 / best.diameter_power86 - 1.1).abs() < 1e-8);
    }
    assert!(depth.range.away_from_lens_z > -1.05 * depth.range.toward_lens_z, "the ends must differ");
    assert!(!depth.range.validity.contains(Validity::SECOND_RANGE));
}

/// ∫ v²·I·v dv of the unclipped profile against M⁴ + 2α² + (β − 2α)², which is the D4σ diameter.
#[test]
fn second_moment_of_the_profile() {
    for (m2, alpha, beta) in [(1.0, 0.1, 0.5), (1.4, -0.2, 1.0)] {
        let wave = wave(m2, alpha, f64::INFINITY);
        let (z, nearness) = plane(beta);
        // Simpson's rule to v = 30, beyond which less than 1e-8 of the moment lies.
        let (steps, end) = (600, 30.0);
        let step = end / f64::from(steps);
        let radii: Vec<f64> = (0..=steps).map(|index| step * f64::from(index) / v_per_metre(z)).collect();
        let profile = row(&wave, &radii, z);
        let moment: f64 = (0..=steps)
            .zip(profile)
            .map(|(index, irradiance)| {
                let v = step * f64::from(index);
                let weight = if index == 0 || index == steps { 1.0 } else { f64::from(2 + 2 * (index % 2)) };
                weight * v.powi(3) * irradiance / (m2 * m2 * nearness)
            })
            .sum::<f64>()
            * step
            / 3.0;
        // The variance for each axis of exp(−v²/2) is 1; that of the plane together, 2.
        let exact = 2.0 * (m2 * m2 + 2.0 * alpha * alpha + (beta - 2.0 * alpha).powi(2));
        assert!((moment / exact - 1.0).abs() < 1e-6, "{m2} {alpha} {beta}: {moment} {exact}");
    }
}

/// A map holds the numbers of single points, within the bound that it returns.
#[test]
fn map_against_points() {
    for (m2, x) in [(1.0, 1.2), (1.0, f64::INFINITY), (1.01, 1.5), (1.5, f64::INFINITY), (4.0, 0.8)] {
        let wave = wave(m2, 0.8, x);
        let z: Vec<f64> = (0..9).map(|index| plane(-8.0 + 2.0 * f64::from(index)).0).collect();
        let radii: Vec<f64> = (0..17).map(|index| f64::from(index) * 15e-6).collect();
        let needed = wave_map_workspace(&wave, &radii, &z).unwrap();
        let mut workspace = vec![f64::NAN; needed];
        let mut map = vec![f64::NAN; radii.len() * z.len()];
        let bound = wave_map(&wave, &radii, &z, &mut workspace, &mut map).unwrap().error;
        assert!(bound < 1e-9, "{m2} {x}: bound {bound:e}");
        for (row, z) in map.chunks(radii.len()).zip(&z) {
            for (got, radius) in row.iter().zip(&radii) {
                let point = wave_irradiance(&wave, *radius, *z).unwrap();
                let off = (got - point.irradiance_ratio).abs();
                assert!(off <= bound + point.error, "{m2} {x} {radius} {z}: {off:e}, bound {bound:e}");
            }
        }

        // Too short a space, too short a result: refused, and nothing stale is left.
        let refused = wave_map(&wave, &radii, &z, &mut workspace[1..], &mut map).unwrap_err();
        assert_eq!(
            refused,
            Error::LengthMismatch { param: Param::Workspace, value: needed - 1, expected: needed }
        );
        assert!(map.iter().all(|number| number.is_nan()));
        let short = map.len() - 1;
        let refused = wave_map(&wave, &radii, &z, &mut workspace, &mut map[1..]).unwrap_err();
        assert_eq!(
            refused,
            Error::LengthMismatch { param: Param::Output, value: short, expected: short + 1 }
        );
    }
}

/// What is refused, in the order of the checks.
#[test]
fn refusals() {
    let good = wave(1.2, 0.5, 2.0);
    let code = |wave: &Wave, radius, z| {
        let error = wave_irradiance(wave, radius, z).unwrap_err();
        (error.code(), error.param())
    };
    let (range, outside) = (2, 4);
    assert_eq!(code(&Wave { m2: 5.1, ..good }, f64::NAN, 0.0), (range, Param::M2));
    assert_eq!(code(&Wave { aberration_phase: 6.1, ..good }, 0.0, 0.0), (range, Param::AberrationPhase));
    assert_eq!(code(&Wave { clear_aperture: f64::NAN, ..good }, 0.0, 0.0), (1, Param::ClearAperture));
    assert_eq!(code(&Wave { clear_aperture: 1e-3, ..good }, 0.0, 0.0), (outside, Param::ClippingRatio));
    assert_eq!(code(&Wave { lens_to_focus: 13e-3, ..good }, 0.0, 0.0), (outside, Param::DivergenceHalfAngle));
    assert_eq!(code(&good, -1e-6, 0.0), (range, Param::Radius));
    assert_eq!(code(&good, 0.0, -FOCUS), (outside, Param::NormalisedDefocus));
    assert_eq!(code(&good, 0.0, plane(30.1).0), (outside, Param::NormalisedDefocus));
    assert_eq!(code(&good, 121.0 / v_per_metre(0.0), 0.0), (outside, Param::NormalisedRadius));
    let error = wave_focus(&good, FocusMeasure::SecondMoment).unwrap_err();
    assert_eq!((error.code(), error.param(), error.allowed().0), (outside, Param::ClippingRatio, 5.0));
    let error = wave_depth_of_focus(&good, DepthCriterion::LineDoseDrop { drop: 0.1 }).unwrap_err();
    assert_eq!((error.code(), error.param()), (3, Param::DepthCriterion));
    let error = wave_depth_of_focus(&good, DepthCriterion::LargestDiameter { diameter: 50e-6 }).unwrap_err();
    assert_eq!((error.code(), error.param()), (5, Param::LargestDiameter));
    let error = wave_depth_of_focus(&good, DepthCriterion::Growth { ratio: 50.0 }).unwrap_err();
    assert_eq!((error.code(), error.param()), (outside, Param::NormalisedDefocus));
    let wide = wave_irradiance(&Wave { lens_to_focus: 20e-3, ..good }, 0.0, 0.0).unwrap();
    assert!(wide.validity.contains(Validity::WIDE_CONE));
}
