//! Accuracy of the functions that the model takes from `libm`, over their whole range.
//!
//! Reference: `tests/tables/elementary.csv`, from `tests/reference/elementary.py` (mpmath, 50 digits,
//! written from the definitions). `cargo test --test elementary -- --nocapture` prints the worst errors.
//! Units in the last place (ulp) are those of the exact value's nearest double; where that is subnormal
//! the unit is the smallest double. The tests call the release of `libm` that the crate is pinned to.
//!
//! A budget must hold, and must not exceed twice the error found.

use std::f64::consts::{E, FRAC_1_PI, FRAC_PI_2, PI};

/// One line of the table.
#[derive(Clone, Copy)]
struct Row {
    x: f64,
    /// The second argument of `pow`, else NaN.
    exponent: f64,
    /// The double nearest to the exact value.
    nearest: f64,
    /// The exact value less the nearest double, in ulp.
    rest: f64,
}

/// From a double to the next one away from zero.
fn ulp(value: f64) -> f64 {
    let size = value.abs();
    if size == f64::MAX { size - size.next_down() } else { size.next_up() - size }
}

impl Row {
    fn is_subnormal(&self) -> bool {
        self.nearest.abs() < f64::MIN_POSITIVE
    }

    /// Error of `got` in ulp; an infinity must be met.
    fn error(&self, got: f64) -> f64 {
        if self.nearest.is_infinite() || !got.is_finite() {
            return if got == self.nearest { 0.0 } else { f64::INFINITY };
        }
        ((got - self.nearest) / ulp(self.nearest) - self.rest).abs()
    }
}

fn table(function: &str) -> Vec<Row> {
    let rows: Vec<_> = include_str!("tables/elementary.csv")
        .lines()
        .filter_map(|line| line.strip_prefix(function)?.strip_prefix(','))
        .map(|line| {
            let cells: Vec<_> = line.split(',').collect();
            let [x, exponent, nearest, rest] = cells[..] else { panic!("{line}") };
            let number = |cell: &str| cell.parse().unwrap();
            let exponent = if exponent.is_empty() { f64::NAN } else { number(exponent) };
            Row { x: number(x), exponent, nearest: number(nearest), rest: number(rest) }
        })
        .collect();
    assert!(rows.len() > 500, "{function}: {} rows", rows.len());
    rows
}

/// The worst of these errors is within `budget`, and above half of it.
#[track_caller]
fn holds(what: &str, budget: f64, errors: impl Iterator<Item = (Row, f64)>) {
    let mut count = 0;
    let mut worst = (f64::NAN, 0.0);
    for (row, error) in errors {
        count += 1;
        if error > worst.1 || error.is_nan() {
            worst = (row.x, error);
        }
    }
    println!("{what}: {:.3} ulp at {:?}, {count} arguments, budget {budget}", worst.1, worst.0);
    assert!(worst.1 <= budget, "{what}: {} ulp at {:?}", worst.1, worst.0);
    assert!(budget <= 2.0 * worst.1, "{what}: only {} ulp are found", worst.1);
}

/// Holds the normal results of a function of one argument, where `range` is true.
#[track_caller]
fn normal(function: &str, f: fn(f64) -> f64, range: fn(f64) -> bool, what: &str, budget: f64) {
    let rows = table(function).into_iter().filter(|row| !row.is_subnormal() && range(row.x));
    holds(&format!("{function}, {what}"), budget, rows.map(|row| (row, row.error(f(row.x)))));
}

/// Holds its subnormal results, in units of the smallest double; among them are those that vanish.
#[track_caller]
fn subnormal(function: &str, f: fn(f64) -> f64, budget: f64) {
    let rows = table(function).into_iter().filter(Row::is_subnormal);
    holds(&format!("{function}, subnormal"), budget, rows.map(|row| (row, row.error(f(row.x)))));
}

fn anywhere(_: f64) -> bool {
    true
}

#[test]
fn erf_is_within_1_ulp() {
    normal("erf", libm::erf, anywhere, "all", 1.0);
    subnormal("erf", libm::erf, 1.0);
}

#[test]
fn erfc_is_within_3_ulp() {
    normal("erfc", libm::erfc, |x| x < 0.0, "x < 0", 1.0);
    normal("erfc", libm::erfc, |x| x >= 0.0, "x > 0", 3.0);
    subnormal("erfc", libm::erfc, 2.0);
}

#[test]
fn exp_is_within_1_ulp() {
    normal("exp", libm::exp, anywhere, "all", 1.0);
    subnormal("exp", libm::exp, 1.0);
}

#[test]
fn expm1_is_within_1_ulp() {
    normal("expm1", libm::expm1, anywhere, "all", 1.0);
}

#[test]
fn logarithms_are_within_1_ulp() {
    normal("log", libm::log, anywhere, "all", 1.0);
    normal("log1p", libm::log1p, anywhere, "all", 1.0);
}

#[test]
fn sine_and_cosine_are_within_1_ulp() {
    normal("sin", libm::sin, anywhere, "all", 1.0);
    normal("cos", libm::cos, anywhere, "all", 1.0);
    for row in table("sin").into_iter().chain(table("cos")) {
        assert_eq!(libm::sincos(row.x), (libm::sin(row.x), libm::cos(row.x)), "{}", row.x);
    }
}

#[test]
fn atan_is_within_1_ulp() {
    normal("atan", libm::atan, anywhere, "all", 1.0);
}

#[test]
fn sinh_is_within_2_ulp() {
    normal("sinh", libm::sinh, anywhere, "all", 2.0);
}

/// Below 2 in ulp of the result; beyond, where J₀ passes through zero again and again, in ulp of its
/// envelope √(2/(πx)).
#[test]
fn j0_is_within_5_ulp_of_its_envelope() {
    normal("j0", libm::j0, |x| x < 2.0, "x < 2", 4.0);
    let beyond = table("j0").into_iter().filter(|row| row.x >= 2.0);
    let error = |row: Row| {
        let envelope = (2.0 * FRAC_1_PI / row.x).sqrt();
        row.error(libm::j0(row.x)) * (ulp(row.nearest) / ulp(envelope))
    };
    holds("j0, x > 2, of the envelope", 5.0, beyond.map(|row| (row, error(row))));
}

#[test]
fn pow_is_within_1_ulp() {
    let error = |row: Row| (row, row.error(libm::pow(row.x, row.exponent)));
    let (small, large): (Vec<_>, Vec<_>) = table("pow").into_iter().partition(Row::is_subnormal);
    holds("pow, all", 1.0, large.into_iter().map(error));
    holds("pow, subnormal", 1.0, small.into_iter().map(error));
}

/// `sqrt` of `libm`, for a crate without `std`, is the processor's, which IEEE 754 wants correctly rounded.
#[test]
fn square_root_is_the_processors() {
    for function in ["exp", "log", "log1p", "j0"] {
        for row in table(function) {
            for x in [row.x.abs(), row.nearest.abs()] {
                assert_eq!(libm::sqrt(x).to_bits(), x.sqrt().to_bits(), "{x:?}");
            }
        }
    }
    assert!(libm::sqrt(-1.0).is_nan() && libm::sqrt(f64::NAN).is_nan());
    assert_eq!(libm::sqrt(-0.0).to_bits(), (-0.0f64).to_bits());
}

/// A function of one argument and its values at NaN, −∞, −0, +0 and +∞, by its limits; zeros with their sign.
#[test]
fn special_values() {
    const INF: f64 = f64::INFINITY;
    const NAN: f64 = f64::NAN;
    type Case = (&'static str, fn(f64) -> f64, [f64; 4]);
    let cases: [Case; 12] = [
        ("erf", libm::erf, [-1.0, -0.0, 0.0, 1.0]),
        ("erfc", libm::erfc, [2.0, 1.0, 1.0, 0.0]),
        ("exp", libm::exp, [0.0, 1.0, 1.0, INF]),
        ("expm1", libm::expm1, [-1.0, -0.0, 0.0, INF]),
        ("log", libm::log, [NAN, -INF, -INF, INF]),
        ("log1p", libm::log1p, [NAN, -0.0, 0.0, INF]),
        ("sin", libm::sin, [NAN, -0.0, 0.0, NAN]),
        ("cos", libm::cos, [NAN, 1.0, 1.0, NAN]),
        ("atan", libm::atan, [-FRAC_PI_2, -0.0, 0.0, FRAC_PI_2]),
        ("sinh", libm::sinh, [-INF, -0.0, 0.0, INF]),
        ("j0", libm::j0, [0.0, 1.0, 1.0, 0.0]),
        ("fabs", libm::fabs, [INF, 0.0, 0.0, INF]),
    ];
    for (name, f, wanted) in cases {
        assert!(f(NAN).is_nan(), "{name}(NaN)");
        for (x, want) in [-INF, -0.0, 0.0, INF].into_iter().zip(wanted) {
            let got = f(x);
            let met = if want.is_nan() { got.is_nan() } else { got.to_bits() == want.to_bits() };
            assert!(met, "{name}({x:?}) = {got:?}");
        }
    }
}

/// Values beside the domain, and those that are exact.
#[test]
fn edges_of_the_domain() {
    assert!(libm::log(-1.0).is_nan() && libm::log(-f64::MIN_POSITIVE).is_nan());
    assert_eq!(libm::log1p(-1.0), f64::NEG_INFINITY);
    assert!(libm::log1p((-1.0f64).next_down()).is_nan());
    assert_eq!(libm::log(1.0).to_bits(), 0.0f64.to_bits());
    // The powers of C11, annex F.
    assert_eq!((libm::pow(f64::NAN, 0.0), libm::pow(1.0, f64::NAN)), (1.0, 1.0));
    assert!(libm::pow(-1.5, 0.5).is_nan() && libm::pow(f64::NAN, 1.0).is_nan());
    assert_eq!(libm::pow(f64::INFINITY, -4.744), 0.0);
    assert_eq!(libm::pow(0.0, -4.744), f64::INFINITY);
    assert_eq!((libm::pow(E, 1.0), libm::pow(PI, 2.0)), (E, PI * PI));
    // Halves are rounded away from zero.
    let halves = [(0.5, 1.0), (-0.5, -1.0), (2.5, 3.0), (0.5f64.next_down(), 0.0), (1e300, 1e300)];
    for (x, whole) in halves {
        assert_eq!(libm::round(x), whole);
    }
}
