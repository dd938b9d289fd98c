//! A polynomial through weighted points, term by term.
//!
//! P₀ = 1, P_{k+1} = (x − α_k)·P_k − β_k·P_{k−1}, α_k = Σw·x·P_k²/N_k, β_k = N_k/N_{k−1}, N_k = Σw·P_k²    \[1\]
//! c_k = Σw·P_k·(y − Σ_{j<k} c_j·P_j)/N_k, with the variance 1/N_k, and no correlation between any two
//!
//! The P_k are orthogonal over the points. So no term changes those before it, nothing cancels as it does in the normal
//! equations of powers of x, and a further term tells by its own size whether the points ask for it.
//!
//! \[1\] G. E. Forsythe, *J. SIAM* 5, 74 (1957), from memory.

/// One point: y has the variance 1/weight.
#[derive(Debug, Clone, Copy)]
pub(super) struct Point {
    pub(super) x: f64,
    pub(super) y: f64,
    pub(super) weight: f64,
}

/// One term.
#[derive(Debug, Clone, Copy)]
pub(super) struct Term {
    /// α_k.
    pub(super) shift: f64,
    /// β_k.
    pub(super) share: f64,
    /// N_k.
    pub(super) norm: f64,
    /// c_k.
    pub(super) coefficient: f64,
}

/// Terms of a polynomial of degree 4 at the most.
#[derive(Debug, Clone, Copy)]
pub(super) struct Curve {
    terms: [Term; 5],
    count: usize,
}

impl Curve {
    const NO_TERM: Term = Term { shift: 0.0, share: 0.0, norm: 1.0, coefficient: 0.0 };

    /// The polynomial of this degree, through one point or more.
    pub(super) fn through(points: impl Iterator<Item = Point> + Clone, degree: u32) -> Self {
        let mut curve = Self { terms: [Self::NO_TERM; 5], count: 0 };
        for _ in 0..=degree {
            curve = curve.extended(points.clone());
        }
        curve
    }

    /// With one more term, of the same points.
    pub(super) fn extended(mut self, points: impl Iterator<Item = Point>) -> Self {
        let (mut norm, mut moment, mut product) = (0.0, 0.0, 0.0);
        for point in points {
            let (value, p) = self.at(point.x);
            let weighted = point.weight * p;
            norm += weighted * p;
            moment += weighted * p * point.x;
            product += weighted * (point.y - value);
        }
        let share = self.terms().last().map_or(0.0, |last| norm / last.norm);
        if let Some(term) = self.terms.get_mut(self.count) {
            *term = Term { shift: moment / norm, share, norm, coefficient: product / norm };
            self.count += 1;
        }
        self
    }

    /// The terms, from that of degree 0 on.
    pub(super) fn terms(&self) -> impl Iterator<Item = &Term> {
        self.terms.iter().take(self.count)
    }

    /// The first two.
    pub(super) fn first_two(&self) -> [Term; 2] {
        let [first, second, ..] = self.terms;
        [first, second]
    }

    /// The first three.
    pub(super) fn first_three(&self) -> [Term; 3] {
        let [first, second, third, ..] = self.terms;
        [first, second, third]
    }

    /// The last two of five.
    pub(super) fn last_two(&self) -> [Term; 2] {
        let [.., fourth, fifth] = self.terms;
        [fourth, fifth]
    }

    /// Value at x, and what the polynomial of the next degree is there.
    pub(super) fn at(&self, x: f64) -> (f64, f64) {
        let (mut value, mut before, mut p) = (0.0, 0.0, 1.0);
        for term in self.terms() {
            value += term.coefficient * p;
            (before, p) = (p, (x - term.shift) * p - term.share * before);
        }
        (value, p)
    }

    /// Variance of the value at x.
    pub(super) fn variance(&self, x: f64) -> f64 {
        let (mut variance, mut before, mut p) = (0.0, 0.0, 1.0);
        for term in self.terms() {
            variance += p * p / term.norm;
            (before, p) = (p, (x - term.shift) * p - term.share * before);
        }
        variance
    }

    /// Σw·(y − value)².
    pub(super) fn chi_squared(&self, points: impl Iterator<Item = Point>) -> f64 {
        points.fold(0.0, |sum, point| {
            let residual = point.y - self.at(point.x).0;
            sum + point.weight * residual * residual
        })
    }
}
