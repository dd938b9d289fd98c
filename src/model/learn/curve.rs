//! A polynomial through weighted points, term by term.
//!
//! P₀ = 1, P_{k+1} = (x − α_k)·P_k − β_k·P_{k−1}, α_k = Σw·x·P_k²/N_k, β_k = N_k/N_{k−1}, N_k = Σw·P_k²    \[1\]
//! c_k = Σw·P_k·(y − Σ_{j<k} c_j·P_j)/N_k, with the variance 1/N_k, and no correlation between any two
//!
//! The P_k are orthogonal over the points. So no term changes those before it, nothing cancels as it does in the normal
//! equations of powers of x, and a further term tells by its own size whether the points ask for it.
//!
//! \[1\] G. E. Forsythe, *J. SIAM* 5, 74 (1957), from memory.

/// One point: y has the variance 1/weight. One of no weight is not there.
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
    /// Its variance, 1/N_k.
    pub(super) variance: f64,
}

impl Term {
    /// By how much χ² falls for it.
    pub(super) fn gain(&self) -> f64 {
        self.coefficient * self.coefficient * self.norm
    }
}

/// A point, with what the terms so far say at its x.
#[derive(Debug, Clone, Copy)]
pub(super) struct Traced {
    pub(super) point: Point,
    /// Sum of the terms so far.
    pub(super) value: f64,
    /// P_{k−1}, and P_k of the term that comes next.
    before: f64,
    p: f64,
}

impl Traced {
    /// Of no point.
    pub(super) const NONE: Self =
        Self { point: Point { x: 0.0, y: 0.0, weight: 0.0 }, value: 0.0, before: 0.0, p: 0.0 };

    /// Before the first term.
    pub(super) fn of(point: Point) -> Self {
        Self { point, value: 0.0, before: 0.0, p: 1.0 }
    }

    /// w·(y − value)².
    pub(super) fn chi_squared(&self) -> f64 {
        let residual = self.point.y - self.value;
        self.point.weight * residual * residual
    }

    /// With one more term.
    pub(super) fn add(&mut self, term: &Term) {
        self.value += term.coefficient * self.p;
        (self.before, self.p) = (self.p, (self.point.x - term.shift) * self.p - term.share * self.before);
    }
}

/// What the next term is made of, summed up over the points.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Sums {
    /// Σw·P².
    norm: f64,
    /// Σw·x·P².
    moment: f64,
    /// Σw·P·(y − value).
    product: f64,
}

impl Sums {
    pub(super) fn add(&mut self, Traced { point, value, p, .. }: &Traced) {
        let weighted = point.weight * p;
        self.norm += weighted * p;
        self.moment += weighted * p * point.x;
        self.product += weighted * (point.y - value);
    }
}

/// Terms of a polynomial of degree 3 at the most.
#[derive(Debug, Clone, Copy)]
pub(super) struct Curve {
    terms: [Term; 4],
    count: usize,
}

impl Curve {
    /// Without a term.
    pub(super) const NONE: Self = {
        let none = Term { shift: 0.0, share: 0.0, norm: 1.0, coefficient: 0.0, variance: 1.0 };
        Self { terms: [none; 4], count: 0 }
    };

    /// Takes all terms away.
    pub(super) fn clear(&mut self) {
        self.count = 0;
    }

    /// Adds the term that comes next.
    pub(super) fn add(&mut self, term: Term) {
        if let Some(next) = self.terms.get_mut(self.count) {
            *next = term;
            self.count += 1;
        }
    }

    /// The term that comes next, by points traced as far as the curve goes.
    pub(super) fn next(&self, Sums { norm, moment, product }: Sums) -> Term {
        let share = self.terms().last().map_or(0.0, |last| norm * last.variance);
        let variance = 1.0 / norm;
        Term { shift: moment * variance, share, norm, coefficient: product * variance, variance }
    }

    /// A point with all its terms.
    pub(super) fn traced(&self, point: Point) -> Traced {
        let mut traced = Traced::of(point);
        for term in self.terms() {
            traced.add(term);
        }
        traced
    }

    fn terms(&self) -> impl Iterator<Item = &Term> {
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

    /// Value at x.
    pub(super) fn at(&self, x: f64) -> f64 {
        self.traced(Point { x, y: 0.0, weight: 0.0 }).value
    }

    /// Variance of the value at x.
    pub(super) fn variance(&self, x: f64) -> f64 {
        let mut traced = Traced::of(Point { x, y: 0.0, weight: 0.0 });
        let mut variance = 0.0;
        for term in self.terms() {
            variance += traced.p * traced.p * term.variance;
            traced.add(term);
        }
        variance
    }
}
