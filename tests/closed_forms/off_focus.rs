//! Off focus behind a lens that aberrates: diameters to any distance, and irradiance and line dose, which the
//! closed forms take for those of a Gaussian beam.

use super::*;
use spotwise::model::focus::{singlet_defocus, singlet_depth_of_focus};
use spotwise::model::optics::SpotMeasure;
use spotwise::{
    CAUTION_ABERRATION, CAUTION_OFF_FOCUS_CLIPPING, CAUTION_OFF_FOCUS_IRRADIANCE, DOMAIN_ABERRATION, Validity,
};

/// Irradiance on the axis and dose on the middle of a line, each over that of the unaberrated focus of the same M²,
/// so many Rayleigh ranges from there: by the transfer function of an unclipped Gaussian Schell-model beam, in which
/// neither Bessel functions nor an aperture occur.
///
/// T(s) = ∫ exp(−2x² − s²/2 + 2ixs·(−β + 2α·(x² + s²/4)))/√(1 − 2iαsx) dx, the integral over y being done;
/// irradiance ∫ T·exp(−σ²s²/2)·s ds, line dose ∫ T·exp(−σ²s²/2) ds, σ² = M⁴ − 1; in s·M² for s only t, u and 1/M⁴
/// are left. The integrands are smooth and die out, so that sums over equal steps converge at once.
pub fn on_axis(m2: f64, t: f64, z: f64) -> (f64, f64) {
    const X_STEP: f64 = 0.05;
    const S_STEP: f64 = 0.06;
    let u = -z;
    let (mut irradiance, mut line, mut irradiance_unit, mut line_unit) = (0.0, 0.0, 0.0, 0.0);
    for at in 0..110 {
        let s = S_STEP * f64::from(at);
        let share = (-0.5 * s * s).exp() * if at == 0 { 0.5 } else { 1.0 };
        let mut transfer = 0.0;
        for x in (-70..=70).map(|x| X_STEP * f64::from(x)) {
            let phase = 2.0 * x * s * (-u + 2.0 * t * (x * x + 0.25 * s * s / (m2 * m2)));
            let (real, imaginary) = (1.0, -2.0 * t * s * x);
            let angle = phase - 0.5 * f64::atan2(imaginary, real);
            transfer += X_STEP * (-2.0 * x * x).exp() * angle.cos() / f64::hypot(real, imaginary).sqrt();
        }
        let unit = (PI / 2.0).sqrt();
        // At s = 0 in place of the weight s what equal steps miss by its slope there.
        let weight = if at == 0 { S_STEP / 6.0 } else { s };
        irradiance += share * transfer * weight;
        irradiance_unit += share * unit * weight;
        line += share * transfer;
        line_unit += share * unit;
    }
    (irradiance / irradiance_unit, line / line_unit)
}

/// Dose on the middle of a line by the diffraction integral: the irradiance along a line across the axis, over that
/// of the unaberrated focus, where it goes as exp(−v²/(2·M⁴)).
fn line_dose(case: &Case, z: f64) -> f64 {
    const STEP: f64 = 0.2;
    let at = |v: f64| {
        let radius = 0.25 * v * unit_waist();
        wave_irradiance(&case.wave(), radius, case.metres(z)).unwrap().irradiance_ratio
    };
    let summed: f64 = (1..220).map(|step| at(STEP * f64::from(step))).sum();
    STEP * (0.5 * at(0.0) + summed) / ((PI / 2.0).sqrt() * case.m2)
}

/// Both ways to the axis agree where the aperture of the other lets enough light through.
#[test]
fn the_transfer_function_agrees_with_the_integral() {
    for (m2, t, z) in
        [(1.0, 0.3, -0.5), (1.0, 1.0, -2.5), (1.2, 0.5, 1.0), (2.0, 1.0, -1.0), (4.0, 0.6, -1.5)]
    {
        let case = Case { m2, t, ratio: 4.0 };
        let (irradiance, line) = on_axis(m2, t, z);
        assert!(
            (irradiance / case.axis_at(z) - 1.0).abs() < 1e-5,
            "{case:?} at {z}: {irradiance} against {}",
            case.axis_at(z)
        );
        let dose = line_dose(&case, z);
        assert!((line / dose - 1.0).abs() < 1e-3, "{case:?} at {z}: {line} against {dose}");
    }
    // Without aberration both are those of a Gaussian beam.
    for (m2, z) in [(1.0, 2.0), (3.0, -0.7)] {
        let (irradiance, line) = on_axis(m2, 0.0, z);
        assert!((irradiance * (1.0 + z * z) - 1.0).abs() < 2e-6);
        assert!((line * 1f64.hypot(z) - 1.0).abs() < 1e-9);
    }
}

/// Errors of irradiance and of line dose off focus by one measure, in parts of the greatest on the axis.
fn errors_off_focus(aberrations: &[f64], of: impl Fn(&AberrationGrowth) -> (f64, f64)) -> (Errors, Errors) {
    let (mut irradiance, mut line) = (Errors::new(), Errors::new());
    for (m2, t) in
        [1.0, 1.1, 1.3, 2.0, 4.0, 20.0].into_iter().flat_map(|m2| aberrations.iter().map(move |t| (m2, *t)))
    {
        let (shift, growth) = of(&aberration_growth(m2, m2 * t).unwrap());
        let planes: Vec<(f64, (f64, f64))> =
            (-90..=60).map(|at| 0.1 * f64::from(at)).map(|z| (z, on_axis(m2, t, z))).collect();
        let greatest =
            |which: fn(&(f64, f64)) -> f64| planes.iter().map(|(_, both)| which(both)).fold(0.0, f64::max);
        let (brightest, strongest) = (greatest(|both| both.0), greatest(|both| both.1));
        for (z, (bright, strong)) in &planes {
            let u = (z - shift) / growth;
            irradiance.see_error(1.0 / (1.0 + u * u) - bright / brightest, (m2, t, z));
            line.see_error(1.0 / 1f64.hypot(u) - strong / strongest, (m2, t, z));
        }
    }
    (irradiance, line)
}

/// What GAUSSIAN_OFF_FOCUS states, and what stands without it.
#[test]
fn irradiance_and_line_dose_off_focus() {
    let power86 = |fit: &AberrationGrowth| (fit.power86_shift, fit.power86_growth);
    let second = |fit: &AberrationGrowth| (fit.second_moment_shift, fit.second_moment_growth);
    let (irradiance, line) = errors_off_focus(&[0.01, CAUTION_OFF_FOCUS_IRRADIANCE], power86);
    irradiance.documented_within("irradiance without the flag", 0.031);
    line.documented_within("line dose without the flag", 0.013);
    let (irradiance, line) = errors_off_focus(&[0.05, 0.1, 0.2, CAUTION_ABERRATION], power86);
    irradiance.documented("irradiance for t up to 0.3", -0.25, 0.10);
    line.documented("line dose for t up to 0.3", -0.115, 0.055);
    let (irradiance, line) = errors_off_focus(&[0.5, 0.7, DOMAIN_ABERRATION], power86);
    irradiance.documented("irradiance for t up to 1", -0.40, 0.21);
    line.documented("line dose for t up to 1", -0.20, 0.10);
    let (irradiance, line) = errors_off_focus(&[0.1, 0.3, 0.6, DOMAIN_ABERRATION], second);
    irradiance.documented("irradiance by second moments for t up to 1", -0.37, 0.53);
    line.documented("line dose by second moments for t up to 1", -0.20, 0.31);
}

/// What an aperture adds to that, and what stands without the flag where both are as great as they may be.
#[test]
fn irradiance_and_line_dose_behind_an_aperture() {
    let errors = |ratio: f64, aberrations: &[f64], qualities: &[f64]| {
        let (mut irradiance, mut line) = (Errors::new(), Errors::new());
        for (m2, t) in qualities.iter().flat_map(|m2| aberrations.iter().map(move |t| (*m2, *t))) {
            let case = Case { m2, t, ratio };
            let fit = case.growth();
            let planes: Vec<f64> = (-24..=16).map(|at| 0.25 * f64::from(at)).collect();
            let see = |errors: &mut Errors, of: &dyn Fn(f64) -> f64, closed: fn(f64) -> f64| {
                let rigorous: Vec<f64> = planes.iter().map(|z| of(*z)).collect();
                let greatest = rigorous.iter().copied().fold(0.0, f64::max);
                for (z, value) in planes.iter().zip(rigorous) {
                    let growth = 1f64.hypot((z - fit.power86_shift) / fit.power86_growth);
                    errors.see_error(closed(growth) - value / greatest, (case, z));
                }
            };
            see(&mut irradiance, &|z| case.axis_at(z), |growth| 1.0 / (growth * growth));
            if m2 == 1.0 {
                see(&mut line, &|z| line_dose(&case, z), |growth| 1.0 / growth);
            }
        }
        (irradiance, line)
    };
    let (irradiance, line) =
        errors(CAUTION_OFF_FOCUS_CLIPPING, &[0.0, CAUTION_OFF_FOCUS_IRRADIANCE], &[1.0, 1.2, 2.0]);
    irradiance.documented_within("irradiance without the flag, behind an aperture", 0.042);
    line.documented_within("line dose without the flag, behind an aperture", 0.018);
    for (ratio, of_irradiance, of_line) in [(CAUTION_CLIPPING, 0.10, 0.045), (DOMAIN_CLIPPING, 0.215, 0.115)]
    {
        let (irradiance, line) = errors(ratio, &[0.0], &[1.0, 1.2, 2.0]);
        irradiance.documented_within(&format!("irradiance, clipping ratio {ratio}"), of_irradiance);
        line.documented_within(&format!("line dose, clipping ratio {ratio}"), of_line);
        let (irradiance, line) = errors(ratio, &[0.3, 1.0], &[1.0, 1.2, 2.0]);
        irradiance.documented_within(&format!("irradiance of both, clipping ratio {ratio}"), 0.43);
        line.documented_within(&format!("line dose of both, clipping ratio {ratio}"), 0.21);
    }
}

/// The flag stands just where these are told: with every offset, and with a depth by irradiance or line dose.
#[test]
fn where_the_flag_stands() {
    let raw = |diameter| Beam { wavelength: 10.6e-6, m2: 1.0, waist_diameter: diameter };
    let lens = Singlet { index: 2.4028, shape: LensShape::CurvedSideFirst, focal_length: 63.5e-3 };
    let flagged = |validity: Validity| validity.contains(Validity::GAUSSIAN_OFF_FOCUS);
    for diameter in [4e-3, 6e-3, 8e-3, 10e-3] {
        let raw = raw(diameter);
        let found = singlet_defocus(&raw, 0.0, &lens, f64::INFINITY, SpotMeasure::Power86, 1e-4).unwrap();
        let aberrated = found.numbers.normalised_aberration > CAUTION_OFF_FOCUS_IRRADIANCE;
        assert_eq!(flagged(found.defocus.validity), aberrated, "{diameter}");
        for (ratio, clips) in
            [(CAUTION_OFF_FOCUS_CLIPPING + 1e-9, false), (CAUTION_OFF_FOCUS_CLIPPING - 1e-9, true)]
        {
            let clear = ratio * diameter;
            let found = singlet_defocus(&raw, 0.0, &lens, clear, SpotMeasure::Power86, 1e-4).unwrap();
            assert_eq!(flagged(found.defocus.validity), aberrated || clips, "{diameter}, {ratio}");
        }
        for (criterion, by_light) in [
            (DepthCriterion::Rayleigh, false),
            (DepthCriterion::Growth { ratio: 1.1 }, false),
            (DepthCriterion::LargestDiameter { diameter: 1e-3 }, false),
            (DepthCriterion::IrradianceDrop { drop: 0.2 }, true),
            (DepthCriterion::LineDoseDrop { drop: 0.2 }, true),
        ] {
            let depth =
                singlet_depth_of_focus(&raw, 0.0, &lens, f64::INFINITY, SpotMeasure::Power86, criterion)
                    .unwrap();
            assert_eq!(flagged(depth.range.validity), by_light && aberrated, "{criterion:?}");
        }
    }
}

/// Diameters at any distance: the errors grow no further than the flags say.
#[test]
fn power86_far_off_focus() {
    let (mut weak, mut all) = (Errors::new(), Errors::new());
    for (m2, t) in [1.0, 1.2, 2.0, 4.0].into_iter().flat_map(|m2| [0.1, 0.3, 0.6, 1.0].map(|t| (m2, t))) {
        let case = Case { m2, t, ratio: WIDE };
        let fit = case.growth();
        for u in [-6.0, -4.0, -2.5, -1.0, 1.0, 2.5, 4.0, 6.0] {
            let (z, diameter) = hyperbola(&fit, u);
            // As far as the integral reaches.
            if m2 * z.abs() > 29.0 {
                continue;
            }
            let rigorous = case.power86_at(z);
            all.see(diameter, rigorous, (case, u));
            if t <= CAUTION_ABERRATION {
                weak.see(diameter, rigorous, (case, u));
            }
        }
    }
    weak.documented_within("off focus at any distance, without a flag", 0.05);
    all.documented_within("off focus at any distance, under ABERRATED", 0.20);
}

/// Beams of M² above 4: greatest irradiance by the transfer function, which covers any M², and diameters off
/// focus by rays, which is what is left for M² → ∞.
#[test]
fn poor_beams() {
    let mut peak = Errors::new();
    for (m2, t) in [5.0, 8.0, 20.0, 1e3].into_iter().flat_map(|m2| ABERRATIONS.map(|t| (m2, t))) {
        let rigorous = -least(|z| -on_axis(m2, t, z).0, -3.0 * t / (1.0 + t)).value;
        peak.see(aberration_growth(m2, m2 * t).unwrap().peak_irradiance_ratio, rigorous, (m2, t));
    }
    peak.documented_within("peak irradiance of a poor beam for t up to 1", 0.012);
    let (mut weak, mut all) = (Errors::new(), Errors::new());
    for t in [0.1, 0.3, 0.6, 1.0] {
        let fit = aberration_growth(1e4, 1e4 * t).unwrap();
        for u in [-6.0, -3.0, -1.7, -0.8, 0.8, 1.7, 3.0, 6.0] {
            let (z, diameter) = hyperbola(&fit, u);
            let rigorous = rays::power86(t, -z);
            all.see(diameter, rigorous, (t, u));
            if t <= CAUTION_ABERRATION {
                weak.see(diameter, rigorous, (t, u));
            }
        }
    }
    weak.documented_within("off focus of a poor beam, without a flag", 0.05);
    all.documented_within("off focus of a poor beam, under ABERRATED", 0.20);
}

/// A clipped beam off focus, without a flag and with CLIPPED alone.
#[test]
fn clipped_off_focus() {
    let (mut fine, mut caution) = (Errors::new(), Errors::new());
    for (ratio, t) in [DOMAIN_CLIPPING, 1.65, CAUTION_CLIPPING, 2.3]
        .into_iter()
        .flat_map(|ratio| [0.1, 0.2, 0.3].map(|t| (ratio, t)))
    {
        for m2 in [1.0, 1.1, 1.3, 2.0, 4.0] {
            let case = Case { m2, t, ratio };
            let fit = case.growth();
            for u in [-2.5, -1.7, -1.0, -0.5, 0.5, 1.0, 1.7, 2.5] {
                let (z, diameter) = hyperbola(&fit, u);
                let rigorous = case.power86_at(z);
                let errors = if ratio < CAUTION_CLIPPING { &mut caution } else { &mut fine };
                errors.see(diameter, rigorous, (case, u));
            }
        }
    }
    fine.documented_within("off focus, clipping ratio from 1.8, t up to 0.3", 0.05);
    caution.documented_within("off focus, clipping ratio from 1.5 to 1.8, t up to 0.3", 0.065);
}

/// The greatest irradiance that the closed form promises knows of no aperture.
#[test]
fn peak_behind_an_aperture() {
    let (mut fine, mut caution) = (Errors::new(), Errors::new());
    for (m2, t) in [1.0, 1.2, 2.0, 4.0].into_iter().flat_map(|m2| [0.0, 0.3, 1.0].map(|t| (m2, t))) {
        for (ratio, errors) in [(CAUTION_CLIPPING, &mut fine), (DOMAIN_CLIPPING, &mut caution)] {
            let case = Case { m2, t, ratio };
            errors.see(case.growth().peak_irradiance_ratio, case.peak(), case);
        }
    }
    fine.documented_within("peak irradiance, clipping ratio from 1.8", 0.085);
    caution.documented_within("peak irradiance, clipping ratio from 1.5", 0.26);
}

/// Other mixtures of modes: a share b of TEM₀₁* in TEM₀₀ has M² = 1 + b, and less of its power far out than
/// a Gaussian Schell-model beam. Power within r: 1 − exp(−2r²), and 1 − (1 + 2r²)·exp(−2r²) of TEM₀₁*.
#[test]
fn other_mixtures_of_modes() {
    let mut errors = Errors::new();
    for share in (0..=100).map(|at| 0.01 * f64::from(at)) {
        let outside = |r: f64| (1.0 + 2.0 * share * r * r) * (-2.0 * r * r).exp();
        let (mut low, mut high) = (0.5, 3.0);
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if outside(middle) > (-2f64).exp() { low = middle } else { high = middle }
        }
        // Their embedded Gaussian is √(M²) times smaller than a Gaussian of the same second moment.
        errors.see(low, (1.0 + share).sqrt(), share);
    }
    errors.documented("86.5 % spot of another mixture of the same M²", -0.07, 0.0);
}
