//! Marks as the model of marks makes them, and errors of measurement.

use spotwise::model::learn::{DepthLaw, DepthReading, GoodMark};
use spotwise::model::mark::{MarkKind, mark_width};
use spotwise::model::optics::Beam;

/// A beam of a common gas laser behind a short lens; its Rayleigh range is 0.478154 mm.
pub const BEAM: Beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };

/// How a good mark was made, and what has gone wrong since.
#[derive(Debug, Clone, Copy)]
pub struct Fault {
    pub kind: MarkKind,
    pub dose_ratio: f64,
    pub z_offset: f64,
    pub power_ratio: f64,
}

/// Depth over its scale.
pub fn depth_over(law: DepthLaw, dose_ratio: f64) -> f64 {
    match law {
        DepthLaw::Linear => dose_ratio - 1.0,
        _ => dose_ratio.ln(),
    }
}

impl Fault {
    /// Width and dose ratio, with this much of the dose at this offset; none where nothing marks.
    pub fn mark(&self, power_ratio: f64, z_offset: f64) -> Option<(f64, f64)> {
        let mark = mark_width(&BEAM, self.kind, self.dose_ratio * power_ratio, z_offset).unwrap();
        mark.marks.then_some((mark.width, mark.dose_ratio))
    }

    pub fn good(&self) -> (f64, f64) {
        self.mark(1.0, 0.0).unwrap()
    }

    pub fn now(&self) -> Option<(f64, f64)> {
        self.mark(self.power_ratio, self.z_offset)
    }
}

/// What is measured, with these relative errors of the good mark's width and depth, the mark's width and depth, and of the dose ratio,
/// in relative deviations of as much.
pub struct Measured {
    pub good: GoodMark,
    pub depths: DepthReading,
    pub width: f64,
    pub width_deviation: f64,
}

impl Measured {
    pub fn of(fault: &Fault, law: DepthLaw, relative: f64, errors: [f64; 5]) -> Option<Self> {
        let (width, dose_ratio) = fault.now()?;
        let (good_width, good_dose) = fault.good();
        let [a, b, c, d, e] = errors.map(|error| 1.0 + relative * error);
        let (good_depth, depth) = (40.0 * depth_over(law, good_dose), 40.0 * depth_over(law, dose_ratio));
        Some(Self {
            good: GoodMark {
                kind: fault.kind,
                dose_ratio: good_dose * (e - 1.0).exp(),
                dose_ratio_deviation: if e == 1.0 { 0.0 } else { relative },
                width: good_width * a,
                width_deviation: good_width * relative,
            },
            depths: DepthReading {
                law,
                good_depth: good_depth * b,
                good_depth_deviation: good_depth * relative,
                depth: depth * d,
                depth_deviation: depth * relative,
            },
            width: width * c,
            width_deviation: width * relative,
        })
    }
}

/// Normal deviates, seeded: the sum of twelve draws less six has the deviation 1, but hardly any tails, so that pairs of
/// draws are turned by Box and Muller's formula instead (from memory).
pub struct Normal(u64);

impl Normal {
    pub fn seeded(seed: u64) -> Self {
        Self(seed)
    }

    /// SplitMix64, as in `surface/random.rs`.
    fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub fn draw(&mut self) -> f64 {
        let radius = (-2.0 * (1.0 - self.share()).ln()).sqrt();
        radius * (std::f64::consts::TAU * self.share()).cos()
    }
}
