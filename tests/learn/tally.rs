//! What an answer came to over many simulated runs.

/// Errors, and how often a range held the truth.
#[derive(Default)]
pub struct Tally {
    runs: f64,
    sum: f64,
    squares: f64,
    held: f64,
}

impl Tally {
    pub fn add(&mut self, error: f64, held: bool) {
        self.runs += 1.0;
        self.sum += error;
        self.squares += error * error;
        self.held += f64::from(held);
    }

    pub fn mean(&self) -> f64 {
        self.sum / self.runs
    }

    pub fn deviation(&self) -> f64 {
        (self.squares / self.runs - self.mean() * self.mean()).sqrt()
    }

    pub fn bias_in_deviations(&self) -> f64 {
        self.mean() / self.deviation()
    }

    pub fn rms(&self) -> f64 {
        (self.squares / self.runs).sqrt()
    }

    pub fn coverage(&self) -> f64 {
        self.held / self.runs
    }
}
