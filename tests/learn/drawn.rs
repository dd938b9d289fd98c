//! Seeded normal deviates.

/// SplitMix64 (Steele, Lea, Flood, OOPSLA 2014, from memory) with the transform of Box and Muller.
pub struct Drawn(u64);

impl Drawn {
    pub fn from_seed(seed: u64) -> Self {
        Self(seed)
    }

    /// From 0 to below 1, never 0.
    pub fn even(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let z = self.0;
        let z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        let z = z ^ (z >> 31);
        ((z >> 11) as f64 + 0.5) / (1_u64 << 53) as f64
    }

    /// Of a normal law with mean 0 and deviation 1.
    pub fn normal(&mut self) -> f64 {
        let (a, b) = (self.even(), self.even());
        (-2.0 * a.ln()).sqrt() * (2.0 * std::f64::consts::PI * b).cos()
    }
}
