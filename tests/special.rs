//! Accuracy of the inverse error function, read through the details of a spot whose width term
//! d/√2 is exactly 1; and of the difference of two values of erf, read through the widths of strokes.
//!
//! Reference: `tests/tables/inverse_erf.csv`, from `tests/reference/inverse_erf.py`, and
//! `tests/tables/erf_along.csv`, from `tests/reference/erf_along.py` (mpmath, 50 digits, written from
//! the definitions). `cargo test --test special -- --nocapture` prints the worst errors. Units in the
//! last place (ulp) are those of the exact value's nearest double.

use spotwise::model::mark::{SmallestDetails, fill_width, smallest_details};
use spotwise::model::optics::Beam;
use std::f64::consts::SQRT_2;

/// An exact value, to twice the digits of a double.
#[derive(Clone, Copy)]
struct Exact {
    nearest: f64,
    rest: f64,
}

impl Exact {
    /// Error of `got` in ulp.
    fn ulps_to(self, got: f64) -> f64 {
        let ulp = self.nearest.abs().next_up() - self.nearest.abs();
        ((got - self.nearest) - self.rest).abs() / ulp
    }
}

/// One line of the table: q and, for each of its six columns, the exact value.
struct Row {
    q: f64,
    bar: Exact,
    gap: Exact,
    edge: Exact,
    bar_seen: Exact,
    gap_seen: Exact,
    edge_seen: Exact,
}

fn rows() -> Vec<Row> {
    let rows: Vec<_> = include_str!("tables/inverse_erf.csv")
        .lines()
        .skip(1)
        .map(|line| {
            let cells: Vec<f64> = line.split(',').map(|cell| cell.parse().unwrap()).collect();
            assert_eq!(cells.len(), 13, "{line}");
            let exact = |at: usize| Exact { nearest: cells[at], rest: cells[at + 1] };
            Row {
                q: cells[0],
                bar: exact(1),
                gap: exact(3),
                edge: exact(5),
                bar_seen: exact(7),
                gap_seen: exact(9),
                edge_seen: exact(11),
            }
        })
        .collect();
    assert_eq!(rows.len(), 783);
    rows
}

/// Details of the spot for which bar = erfinv(1/q), gap = erfcinv(1/q), edge = erfcinv(2/q)/2.
fn unit_details(q: f64) -> SmallestDetails {
    smallest_details(SQRT_2, q).unwrap()
}

/// Worst error over the table, and the q at which it occurs.
fn worst(error: impl Fn(&Row) -> f64) -> (f64, f64) {
    rows().iter().map(|row| (error(row), row.q)).fold((0.0, 0.0), |a, b| if b.0 > a.0 { b } else { a })
}

/// The kernel alone, against the inverse at the rounded number that it is given.
#[test]
fn inverse_erf_is_within_2_ulp() {
    let bar = worst(|row| row.bar_seen.ulps_to(unit_details(row.q).bar));
    let gap = worst(|row| row.gap_seen.ulps_to(unit_details(row.q).gap));
    let edge = worst(|row| row.edge_seen.ulps_to(2.0 * unit_details(row.q).edge_shift));
    println!("kernel: bar {bar:?}, gap {gap:?}, edge {edge:?} (ulp, at q)");
    for (error, q) in [bar, gap, edge] {
        assert!(error <= 2.0, "{error} ulp at q = {q}");
    }
}

/// Bar and gap against the exact function of q, as `smallest_details` promises.
#[test]
fn bar_and_gap_are_within_4_ulp() {
    let bar = worst(|row| row.bar.ulps_to(unit_details(row.q).bar));
    let gap = worst(|row| row.gap.ulps_to(unit_details(row.q).gap));
    println!("whole: bar {bar:?}, gap {gap:?} (ulp, at q)");
    for (error, q) in [bar, gap] {
        assert!(error <= 4.0, "{error} ulp at q = {q}");
    }
}

/// The edge shift passes through zero at q = 2; its promise is 4 ulp of the spot diameter over 16,
/// or of itself where that is larger.
#[test]
fn edge_shift_is_within_4_ulp() {
    let error = |row: &Row| {
        let got = unit_details(row.q).edge_shift;
        let off = ((2.0 * got - row.edge.nearest) - row.edge.rest).abs() / 2.0;
        let scale = (SQRT_2 / 16.0).max(got.abs());
        off / (scale.next_up() - scale)
    };
    let edge = worst(error);
    println!("whole: edge {edge:?} (ulp, at q)");
    assert!(edge.0 <= 4.0, "{} ulp at q = {}", edge.0, edge.1);
}

/// A thin stroke under a wide spot, one line of its table.
struct Stroke {
    way: f64,
    q: f64,
    width: Exact,
    condition: f64,
    /// What 5 points of Gauss and Legendre leave out, where the model takes them.
    rule: Option<f64>,
}

impl Stroke {
    fn got(&self) -> f64 {
        // Lengths in units of w/√2: here 2·√2/d is 1, and the drawn width the way.
        let beam = Beam { wavelength: 1e-7, m2: 1.0, waist_diameter: 2.0 * SQRT_2 };
        fill_width(&beam, self.way, self.q, 0.0).unwrap().width
    }

    /// Relative error of the difference of erf, as the width that hangs on it shows.
    fn error(&self) -> f64 {
        let off = (self.got() - self.width.nearest) - self.width.rest;
        (off / self.width.nearest).abs() / self.condition
    }
}

/// Strokes whose width moves by more than twice the error of the difference, which shows it alone; and
/// those whose width moves by less.
fn strokes() -> (Vec<Stroke>, Vec<Stroke>) {
    let rows = include_str!("tables/erf_along.csv").lines().skip(1).map(|line| {
        let cells: Vec<_> = line.split(',').collect();
        let [way, q, _, nearest, rest, condition, rule] = cells[..] else { panic!("{line}") };
        let number = |cell: &str| cell.parse::<f64>().unwrap();
        Stroke {
            way: number(way),
            q: number(q),
            width: Exact { nearest: number(nearest), rest: number(rest) },
            condition: number(condition),
            rule: (!rule.is_empty()).then(|| number(rule)),
        }
    });
    rows.partition(|stroke| stroke.condition > 2.0)
}

/// What the documentation of `SHORT_WAY` says: the rule leaves out at most RULE, and with the roundings of its sum
/// the difference errs by ROUNDED; where it is taken of two values of erfc, by CANCELLED. Wide marks hang less
/// on it.
#[test]
fn a_difference_of_erf_keeps_its_digits() {
    const RULE: f64 = 1.3e-16;
    const ROUNDED: f64 = 5e-16;
    const CANCELLED: f64 = 8e-16;
    const WIDE_ULP: f64 = 5.0;
    let (telling, wide) = strokes();
    assert_eq!((telling.len(), wide.len()), (424, 74));
    let (short, long): (Vec<_>, Vec<_>) = telling.into_iter().partition(|stroke| stroke.rule.is_some());
    let greatest = |errors: &mut dyn Iterator<Item = f64>| errors.fold(0.0, f64::max);
    let rule = greatest(&mut short.iter().filter_map(|stroke| stroke.rule).map(f64::abs));
    let rounded = greatest(&mut short.iter().map(Stroke::error));
    let cancelled = greatest(&mut long.iter().map(Stroke::error));
    let wide = greatest(&mut wide.iter().map(|stroke| stroke.width.ulps_to(stroke.got())));
    println!("erf along a way: rule {rule:.2e}, with roundings {rounded:.2e}; of two erfc {cancelled:.2e}");
    println!("wide marks: {wide:.2} ulp");
    for (found, stated) in [(rule, RULE), (rounded, ROUNDED), (cancelled, CANCELLED), (wide, WIDE_ULP)] {
        assert!(found <= stated && stated <= 2.0 * found, "{found:e}, {stated:e} is stated");
    }
}
