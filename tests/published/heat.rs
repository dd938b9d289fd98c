//! Spread of heat, against a handbook and against the heat equation solved step by step.

use super::*;
use spotwise::model::mark::{Blur, BlurBudget, blur_budget};

/// F. P. Incropera, D. P. DeWitt, *Fundamentals of Heat and Mass Transfer*, table A.1, at 300 K, from memory:
/// density in kg/m³, specific heat in J/(kg·K), conductivity in W/(m·K), diffusivity in 10⁻⁶ m²/s.
const METALS: [(&str, f64, f64, f64, &str); 3] = [
    ("copper", 8933.0, 385.0, 401.0, "117"),
    ("aluminium", 2702.0, 903.0, 237.0, "97.1"),
    ("stainless steel AISI 304", 7900.0, 477.0, 14.9, "3.95"),
];

/// The printed diffusivity of each in m²/s.
fn diffusivities() -> impl Iterator<Item = f64> {
    METALS.iter().map(|(_, _, _, _, printed)| 1e-6 * printed.parse::<f64>().unwrap())
}

/// A spot of 100 µm at 2 m/s, blurred by heat alone.
fn blurred(diffusivity: f64) -> BlurBudget {
    blur_budget(&Blur {
        diameter_across: 100e-6,
        diameter_along: 100e-6,
        speed: 2.0,
        diffusivity,
        pixel: 0.0,
        jitter_deviation: 0.0,
        rise_time: 0.0,
        switch_delay: 0.0,
    })
    .unwrap()
}

/// Temperatures along a bar, a step apart, between two ends that do not change. It solves
/// ∂u/∂t = κ·∂²u/∂x² by finite differences forward in time, and knows no Gaussian and no error function.
struct Bar {
    step: f64,
    temperatures: Vec<f64>,
}

impl Bar {
    /// κ·Δt/Δx², for which the leading errors of both differences cancel.
    const RATIO: f64 = 1.0 / 6.0;

    /// Δx for a time t in so many steps, where `spread` is κ·t.
    fn step(spread: f64, steps: u32) -> f64 {
        (spread / f64::from(steps) / Self::RATIO).sqrt()
    }

    /// A bar of `length` points that started with `temperature` of x, after that time.
    fn new(spread: f64, steps: u32, length: usize, temperature: impl Fn(f64) -> f64) -> Self {
        let step = Self::step(spread, steps);
        let temperatures = (0..length).map(|place| temperature(place as f64 * step)).collect();
        let mut bar = Self { step, temperatures };
        for _ in 0..steps {
            bar.wait();
        }
        bar
    }

    fn wait(&mut self) {
        let mut before = self.temperatures[0];
        for place in 1..self.temperatures.len() - 1 {
            let (here, after) = (self.temperatures[place], self.temperatures[place + 1]);
            self.temperatures[place] += Self::RATIO * (before - 2.0 * here + after);
            before = here;
        }
    }

    /// Temperature at x, by the cubic through four points.
    fn at(&self, x: f64) -> f64 {
        let place = x / self.step;
        let first = place as usize - 1;
        (first..first + 4)
            .map(|one| {
                let others = (first..first + 4).filter(|other| *other != one);
                others.fold(self.temperatures[one], |share, other| {
                    share * (place - other as f64) / (one as f64 - other as f64)
                })
            })
            .sum()
    }
}

/// The recalled rows agree with themselves: κ = k/(ρ·c).
#[test]
fn diffusivity_of_the_handbook() {
    for (_, density, heat, conductivity, printed) in METALS {
        rounds_to(1e6 * conductivity / (density * heat), printed);
    }
}

/// H. S. Carslaw, J. C. Jaeger, *Conduction of Heat in Solids*, from memory: in a half-space whose face is
/// set to another temperature, erfc(x/√(4κt)) of the step has arrived at the depth x; so at one diffusion
/// length erfc(1) = 1 − 0.8427007929 (Abramowitz and Stegun, table 7.1, from memory) of it. The bar shows
/// it to 2e-5.
#[test]
fn one_diffusion_length_below_a_heated_face() {
    for diffusivity in diffusivities() {
        let budget = blurred(diffusivity);
        let face = |x| if x == 0.0 { 1.0 } else { 0.0 };
        // One diffusion length is 63 steps; the far end lies ten such lengths off.
        let bar = Bar::new(diffusivity * budget.dwell, 6000, 640, face);
        assert!((bar.step * 63.0 / budget.diffusion_length - 1.0).abs() < 0.01);
        let arrived = bar.at(budget.diffusion_length);
        assert!((arrived - (1.0 - 0.8427007929)).abs() < 2e-5, "{arrived}");
    }
}

/// A Gaussian of heat stays one and widens (Carslaw and Jaeger, as above): its variance grows by 2κt, the
/// square of its 1/e² **radius** by 8κt, and as no heat is lost the peak falls as the width grows. The bar
/// shows all three.
#[test]
fn gaussian_spot_after_the_dwell() {
    for diffusivity in diffusivities() {
        let budget = blurred(diffusivity);
        let spread = diffusivity * budget.dwell;
        let before: f64 = 50e-6;
        let after = budget.diameter_across / 2.0;
        // Either end lies four final radii from the middle, where exp(−2·4²) is left.
        let steps = 4000;
        let step = Bar::step(spread, steps);
        let half = (4.0 * after / step) as usize;
        let middle = half as f64 * step;
        let gaussian = |x: f64| (-2.0 * ((x - middle) / before).powi(2)).exp();
        let bar = Bar::new(spread, steps, 2 * half + 1, gaussian);

        let moment = |power: i32| -> f64 {
            let places = bar.temperatures.iter().enumerate();
            places.map(|(place, heat)| heat * (place as f64 * step - middle).powi(power)).sum()
        };
        let variance = moment(2) / moment(0);
        assert!((variance / (before * before / 4.0 + 2.0 * spread) - 1.0).abs() < 1e-12);
        assert!((4.0 * variance / (after * after) - 1.0).abs() < 1e-12, "{variance:e}");
        let peak = bar.temperatures[half];
        assert!((peak - before / after).abs() < 1e-8, "{peak}");
        let rim = bar.at(middle + after) / peak;
        assert!((rim - (-2f64).exp()).abs() < 1e-8, "{rim}");
        assert_eq!(budget.diameter_along, budget.diameter_across);
    }
}

/// The dwell is the dose of a line over its greatest irradiance: the time integral of exp(−2·(v·t)²/w²).
#[test]
fn dwell_is_the_time_integral() {
    let (radius, speed): (f64, f64) = (50e-6, 2.0);
    let tick = 1e-7;
    let irradiance = |count: i32| (-2.0 * (speed * tick * f64::from(count) / radius).powi(2)).exp();
    let dose = (-2000..=2000).map(irradiance).sum::<f64>() * tick;
    assert!((blurred(0.0).dwell / dose - 1.0).abs() < 1e-13);
}
