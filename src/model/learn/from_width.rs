//! What the width of a mark says by itself, as on a coating, which has no depth to measure.
//!
//! | symbol | meaning                                                              | unit |
//! |--------|----------------------------------------------------------------------|------|
//! | n      | 2 for a pulse, 1 for a line                                          | 1    |
//! | q₀, B  | dose ratio of the good mark, width over that of the good mark        | 1    |
//! | ρ      | power ratio: dose that the settings give over what they gave         | 1    |
//! | c      | (2/n)·ln(q₀·ρ)                                                       | 1    |
//! | x      | ln g², g being the growth of the spot                                | 1    |
//! | β      | 2·ln B + ln(c₀/c), where c₀ is c for ρ = 1                           | 1    |
//!
//! B² = g²·ln(q₀·ρ/gⁿ)/ln q₀, and so x + ln(1 − x/c) = β
//! the left-hand side rises from 0 in the waist to c − 1 − ln c at x = c − 1, where the mark is widest, and falls
//! to −∞ where it vanishes, at x = c; for c ≤ 1 it falls from the waist on
//!
//! Two heights explain a width between that in the waist and the greatest, one explains a lesser width, none a
//! greater one: then the dose must have changed. In closed form g² = q₀^(2/n)·exp(W(−(2/n)·B²·ln q₀/q₀^(2/n))) with
//! both real branches of Lambert's function W, for ρ = 1. Here the equation above is solved as it stands, by
//! Newton's method from a side from which it cannot overshoot: W loses its digits where its argument nears −1/e.
//!
//! With focus unchanged, ρ = q₀^(B² − 1) explains every width, up to a dose ratio of 1e6.
//!
//! Ranges: each of B, q₀ (by its logarithm) and what else was measured is moved by ± k deviations and the equation
//! solved anew, so that a range does not reach beyond the widest mark or the waist; what the moves make of the number adds up
//! in squares, upward and downward each. Near the widest mark, where the width hardly changes with height, ranges
//! become wide by themselves.
//!
//! Derived here. Not modelled: as in [`diagnosis`](super::diagnosis).

use super::causes::{Ambiguities, FurtherTest, MarkCause};
use super::diagnosis::{CheckedGood, GoodMark, checked_coverage_factor};
use crate::error::Error;
use crate::model::math::{self, greater, lesser};
use crate::model::optics::{Beam, checked_beam};
use crate::validity::Validity;

/// A height that explains a width: how far from the waist, on either side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PossibleHeight {
    /// Growth of the spot there.
    pub growth: f64,
    /// Distance from the waist in metres.
    pub offset: f64,
    /// Least distance, of the coverage asked for.
    pub least_offset: f64,
    /// Greatest distance, of the coverage asked for.
    pub greatest_offset: f64,
}

/// A dose that explains a width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PossiblePower {
    /// Dose that the settings give over what they gave.
    pub ratio: f64,
    /// Least ratio, of the coverage asked for.
    pub least: f64,
    /// Greatest ratio, of the coverage asked for.
    pub greatest: f64,
}

impl PossiblePower {
    /// From the logarithm of the ratio.
    pub(super) fn of(log_ratio: &Spread) -> Self {
        Self {
            ratio: math::exp(log_ratio.middle),
            least: math::exp(log_ratio.least),
            greatest: math::exp(log_ratio.greatest),
        }
    }
}

/// What the width of a mark says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WidthDiagnosis {
    /// What has changed.
    pub cause: MarkCause,
    /// The one further test that settles what stays open.
    pub further_test: FurtherTest,
    /// What stays open.
    pub ambiguities: Ambiguities,
    /// The height between the waist and where the mark is widest, if the dose is as it was.
    pub near: Option<PossibleHeight>,
    /// The height beyond where the mark is widest, if the dose is as it was.
    pub far: Option<PossibleHeight>,
    /// The dose, if focus is as it was; none where even a dose ratio of 1e6 would not do.
    pub power: Option<PossiblePower>,
    /// Half angle of the cone in radians.
    pub half_angle: f64,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// A width to be explained by a height.
#[derive(Clone, Copy)]
pub(super) struct Width {
    /// 2·ln B.
    pub(super) twice_log_ratio: f64,
    /// ln q₀, and ln ρ.
    pub(super) log_dose: f64,
    pub(super) log_power: f64,
    /// n.
    pub(super) n: f64,
}

/// The equation x + ln(1 − x/c) = β.
struct Equation {
    c: f64,
    beta: f64,
}

impl Width {
    /// With the measured width moved down and up by k of its relative deviations.
    pub(super) fn moved(self, k: f64, deviation: f64) -> [Self; 2] {
        let moved = |way| Self { twice_log_ratio: self.twice_log_ratio + way * 2.0 * k * deviation, ..self };
        [moved(-1.0), moved(1.0)]
    }

    fn equation(&self) -> Equation {
        // Moved by its deviations, the dose may come out below the threshold, where nothing marks.
        let scale = 2.0 / self.n;
        let now = greater(self.log_dose + self.log_power, LEAST_LOG_DOSE);
        let beta = self.twice_log_ratio + math::log(self.log_dose / now);
        Equation { c: scale * now, beta }
    }
}

/// ln of the least dose ratio of a good mark, about.
const LEAST_LOG_DOSE: f64 = 1e-6;

impl Equation {
    /// β of the widest mark.
    fn widest(&self) -> f64 {
        let beyond = self.c - 1.0;
        if beyond > 0.0 { beyond - math::log1p(beyond) } else { 0.0 }
    }

    /// x up to the widest mark, for the β nearest to the given one that has one.
    fn near(&self) -> f64 {
        let Self { c, beta } = *self;
        if c <= 1.0 || beta <= 0.0 {
            return 0.0;
        }
        if beta >= self.widest() {
            return c - 1.0;
        }
        // From x = 0 up, along a curve that bends down: no step overshoots.
        let mut x = 0.0;
        for _ in 0..STEPS {
            let next = x + (beta - x - math::log1p(-x / c)) / (1.0 - 1.0 / (c - x));
            if next <= x || next >= c - 1.0 {
                break;
            }
            x = next;
        }
        x
    }

    /// x from the widest mark on, or from the waist on for c ≤ 1, for the β nearest to the given one that has one.
    fn far(&self) -> f64 {
        let Self { c, beta } = *self;
        if beta >= self.widest() {
            return greater(c - 1.0, 0.0);
        }
        // With p = c − x: p − ln p = c − ln c − β, from p = c·exp(β − c), which is too little, up.
        let mut p = c * math::exp(beta - c);
        for _ in 0..STEPS {
            let next = p + p * (math::log(p / c) - p + (c - beta)) / (p - 1.0);
            if next <= p || next >= 1.0 || next >= c {
                break;
            }
            p = next;
        }
        let x = c - p;
        if x > 0.5 * c {
            return x;
        }
        // Where little is left of the difference, a last step in x itself.
        let rest = x + math::log1p(-x / c) - beta;
        let slope = 1.0 - 1.0 / (c - x);
        if slope < -1e-4 { greater(x - rest / slope, 0.0) } else { x }
    }
}

/// Newton's steps at most. At the widest mark, a double root, each halves the error; elsewhere it squares it.
const STEPS: u32 = 64;

/// What moves of the measured numbers make of one that follows: up and down by ± k deviations together.
#[derive(Clone, Copy)]
pub(super) struct Spread {
    pub(super) middle: f64,
    pub(super) least: f64,
    pub(super) greatest: f64,
}

impl Spread {
    /// `moved` holds, for each measured number, what the answer becomes with it moved down and up.
    pub(super) fn of<const N: usize>(middle: f64, moved: [[f64; 2]; N]) -> Self {
        let (mut down, mut up) = (0.0, 0.0);
        for [a, b] in moved {
            let fall = greater(middle - lesser(a, b), 0.0);
            let rise = greater(greater(a, b) - middle, 0.0);
            down += fall * fall;
            up += rise * rise;
        }
        Self { middle, least: middle - math::sqrt(down), greatest: middle + math::sqrt(up) }
    }

    /// Whether it leaves out a number.
    pub(super) fn leaves_out(&self, number: f64) -> bool {
        self.least > number || self.greatest < number
    }
}

/// The heights that explain a width of given dose.
pub(super) struct Heights {
    /// Whether any height does.
    pub(super) explained: bool,
    /// Whether the mark is other than it would be in focus.
    pub(super) changed: bool,
    pub(super) near: Option<PossibleHeight>,
    pub(super) far: Option<PossibleHeight>,
    /// Whether the width would not show half a Rayleigh range.
    pub(super) insensitive: bool,
}

/// x of a growth by half a Rayleigh range: ln 1.25.
const HALF_A_RAYLEIGH_RANGE: f64 = 0.223_143_551_314_209_76;

impl Heights {
    /// `moved` holds the width with each measured number moved down and up.
    pub(super) fn of<const N: usize>(width: Width, moved: [[Width; 2]; N], rayleigh_range: f64) -> Self {
        let spread = |of: fn(&Equation) -> f64| {
            let solved = moved.map(|pair| pair.map(|width| of(&width.equation())));
            Spread::of(of(&width.equation()), solved)
        };
        let excess = spread(|e| e.beta - e.widest());
        let beta = spread(|e| e.beta);
        let explained = excess.least <= 0.0;
        let has_near = width.equation().c > 1.0 && beta.greatest >= 0.0;
        let (near, far) = (spread(Equation::near), spread(Equation::far));
        let changed = beta.leaves_out(0.0);
        // Where the widest mark is within reach, the near height and the far one are one range.
        let nearest = if has_near && excess.greatest < 0.0 { &near } else { &far };
        let height = |x: Spread| PossibleHeight {
            growth: math::exp(0.5 * x.middle),
            offset: offset_at(rayleigh_range, x.middle),
            least_offset: offset_at(rayleigh_range, x.least),
            greatest_offset: offset_at(rayleigh_range, x.greatest),
        };
        Self {
            explained,
            changed,
            near: if explained && has_near { Some(height(near)) } else { None },
            far: if explained { Some(height(far)) } else { None },
            insensitive: !changed && nearest.greatest > HALF_A_RAYLEIGH_RANGE,
        }
    }
}

/// z_R·√(g² − 1), where x = ln g².
fn offset_at(rayleigh_range: f64, x: f64) -> f64 {
    if x > 0.0 { rayleigh_range * math::sqrt(math::expm1(x)) } else { 0.0 }
}

/// ln of the greatest dose ratio, 1e6.
pub(super) const MOST_LOG_DOSE: f64 = 13.815_510_557_964_274;

/// Focus or power, from the width of a mark alone against that of a good one.
///
/// Gives the heights that explain it if the dose is as it was, and the dose that explains it if focus is.
/// `width` and `width_deviation` are those of the mark now, in metres; `coverage_probability` is that of each range.
/// Formulas in the [module](self). A mark of the good one's width may still be far out of focus, at the far height; and
/// a good mark of about √e times the threshold, a line, or e times, a pulse, does not show focus at all.
///
/// Accuracy: at most 4 ulp times 1 + ln q₀ + what relative errors of the inputs make of the number
/// (`tests/vectors/diagnose_width.csv`). Coverage, each of 20 000 simulated marks with errors of 2 to 8 %: the range at 95 %
/// of the height that is true holds it in 94.3 to 95.6 %; near the widest mark no height is found in up to 0.7 %
/// (`tests/diagnosis.rs`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`] for a field of the beam, of the good mark, then for the arguments;
/// [`Error::OutsideModel`] if the half angle of the beam exceeds 0.3 rad.
///
/// # Example
/// ```
/// use spotwise::model::learn::{Ambiguities, GoodMark, MarkCause, diagnose_width};
/// use spotwise::model::{mark::MarkKind, optics::Beam};
/// let beam = Beam { wavelength: 10.6e-6, m2: 1.2, waist_diameter: 88e-6 };
/// let good = GoodMark {
///     kind: MarkKind::Line, dose_ratio: 4.0, dose_ratio_deviation: 0.0,
///     width: 73.265e-6, width_deviation: 1e-6,
/// };
/// // 20 % wider: with SciPy's W, g = 4·exp(½·W(−2·1.44·ln 4/16)) is 1.36057 and 3.34716 on the two branches.
/// let found = diagnose_width(&beam, &good, 1.2 * 73.265e-6, 1e-6, 0.95)?;
/// assert_eq!((found.near.unwrap().growth * 1e5).round(), 136_057.0);
/// assert_eq!((found.far.unwrap().growth * 1e5).round(), 334_716.0);
/// // In focus it takes 4^(1.44 − 1) = 1.8404 times the dose.
/// assert_eq!((found.power.unwrap().ratio * 1e4).round(), 18_404.0);
/// assert_eq!(found.cause, MarkCause::FocusOrPower);
/// assert!(found.ambiguities.contains(Ambiguities::TWO_HEIGHTS));
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "Lambert W")]
#[must_use = "the diagnosis is the result"]
pub fn diagnose_width(
    beam: &Beam,
    good: &GoodMark,
    width: f64,
    width_deviation: f64,
    coverage_probability: f64,
) -> Result<WidthDiagnosis, Error> {
    let checked = checked_beam(beam)?;
    let good = CheckedGood::of(good)?;
    let ratio = good.compared(width, width_deviation)?;
    let k = checked_coverage_factor(coverage_probability)?;

    let twice_log_ratio = 2.0 * math::log(ratio.ratio);
    let middle = Width { twice_log_ratio, log_dose: good.log_dose, log_power: 0.0, n: good.n };
    let by_width = middle.moved(k, ratio.deviation);
    // ln q₀ moved by its own logarithm, so that it stays above 0.
    let by_dose = [-1.0, 1.0].map(|way| Width {
        log_dose: good.log_dose * math::exp(way * k * good.deviation / good.log_dose),
        ..middle
    });
    let moved = [by_width, by_dose];
    let heights = Heights::of(middle, moved, checked.rayleigh_range.to_f64());

    // B²·ln q₀, the dose if focus is as it was, no more than the model knows.
    let log_dose = |width: Width| lesser(math::exp(width.twice_log_ratio) * width.log_dose, MOST_LOG_DOSE);
    let log_power = |width: Width| log_dose(width) - width.log_dose;
    let known = log_dose(middle) < MOST_LOG_DOSE;
    let power = Spread::of(log_power(middle), moved.map(|pair| pair.map(log_power)));

    let widened = twice_log_ratio > 2.0 * k * ratio.deviation;
    let either = heights.explained && heights.changed;
    let ambiguities = Ambiguities::of([
        (Ambiguities::SIDE, either),
        (Ambiguities::TWO_HEIGHTS, heights.near.is_some() && heights.far.is_some()),
        (Ambiguities::FOCUS_OR_POWER, either),
        (Ambiguities::MELT, widened),
        (Ambiguities::POWER_OR_SPEED, !heights.explained),
        (Ambiguities::INSENSITIVE, heights.insensitive),
    ]);
    let (cause, further_test) = match (heights.explained, heights.changed) {
        (false, _) => (MarkCause::PowerPerhapsFocus, FurtherTest::SolidPatch),
        (true, true) => (MarkCause::FocusOrPower, FurtherTest::HeightsEitherSide),
        (true, false) if heights.insensitive => (MarkCause::Nothing, FurtherTest::HeightsEitherSide),
        (true, false) => (MarkCause::Nothing, FurtherTest::Nothing),
    };
    Ok(WidthDiagnosis {
        cause,
        further_test,
        ambiguities,
        near: heights.near,
        far: heights.far,
        power: known.then(|| PossiblePower::of(&power)),
        half_angle: checked.cone.half_angle,
        validity: checked.cone.validity,
    })
}
