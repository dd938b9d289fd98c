//! The quick bound against the marks of the cases and against the exposure summed over all pixels.

use crate::cases;
use crate::masks::{Mask, any_mask};
use crate::plate::{PITCH, bilevel, exact, level, lines};
use proptest::prelude::*;
use spotwise::artwork::{BitmapMut, BoundInput, BoundSummary, Step, Watch, quick_bound, quick_bound_words};
use spotwise::{Error, Param};

/// A drawing that is ink or bare in each pixel.
pub fn input(ink: &Mask, pitch: (f64, f64), diameter: f64, dose_ratio: f64) -> BoundInput<'_> {
    BoundInput {
        ink: ink.view(),
        solid: ink.view(),
        touched: ink.view(),
        pitch_x: pitch.0,
        pitch_y: pitch.1,
        greatest_spot_diameter: diameter,
        least_dose_ratio: dose_ratio,
        greatest_dose_ratio: dose_ratio,
        line_interval: 0.0,
        least_spot_diameter: f64::NAN,
    }
}

pub fn bound(input: &BoundInput) -> (Mask, Mask, BoundSummary) {
    let (width, height) = (input.ink.width(), input.ink.height());
    let mut marked = Mask::empty(width, height);
    let mut clear = Mask::empty(width, height);
    let mut room = vec![!0; quick_bound_words(input, 1).unwrap()];
    let mut one = BitmapMut::new(&mut marked.words, width, height).unwrap();
    let mut other = BitmapMut::new(&mut clear.words, width, height).unwrap();
    let summary = quick_bound(input, &mut one, &mut other, &mut room, &mut Watch::quiet()).unwrap();
    let (marks, bare) = (marked.view().count(), clear.view().count());
    assert_eq!((summary.marked, summary.clear), (marks, bare));
    assert_eq!(summary.undecided, (width * height) as u64 - marks - bare);
    assert!(marked.words.iter().zip(&clear.words).all(|(marked, clear)| marked & clear == 0));
    (marked, clear, summary)
}

/// No pixel of any case's mark says otherwise, and the bound is of use: it decides most pixels.
#[test]
fn the_marks_of_the_cases_agree() {
    let (mut decided, mut all) = (0, 0);
    for case in cases::all() {
        let samples = |least| Mask {
            words: cases_words(&case.drawing, case.width, least),
            width: case.width,
            height: case.height,
        };
        let (ink, solid, touched) = (samples(128), samples(255), samples(1));
        let mark = Mask { words: case.mark_words(), width: case.width, height: case.height };
        let pitch = case.facts["pixel_mm"].as_f64().unwrap() * 1e-3;
        let dose_ratio = case.facts["q"].as_f64().unwrap();
        let input = BoundInput {
            ink: ink.view(),
            solid: solid.view(),
            touched: touched.view(),
            pitch_x: pitch,
            pitch_y: pitch,
            greatest_spot_diameter: 2e-3 * case.facts["w_max_mm"].as_f64().unwrap(),
            least_dose_ratio: dose_ratio,
            greatest_dose_ratio: dose_ratio,
            line_interval: 0.0,
            least_spot_diameter: f64::NAN,
        };
        let (marked, clear, summary) = bound(&input);
        for ((marked, clear), mark) in marked.words.iter().zip(&clear.words).zip(&mark.words) {
            assert_eq!((marked & !mark, clear & mark), (0, 0), "{}", case.name);
        }
        decided += summary.marked + summary.clear;
        all += (case.width * case.height) as u64;
    }
    assert!(2 * decided > all, "{decided} of {all}");
}

fn cases_words(samples: &[u8], width: usize, least: u8) -> Vec<u64> {
    let all: Vec<u8> = samples.iter().map(|&sample| if sample >= least { 255 } else { 0 }).collect();
    crate::cases::words(&all, width)
}

/// Error function, for the share of a Gaussian in an interval (Abramowitz and Stegun 7.1.5, its power series, and
/// 7.1.14, its continued fraction; from memory).
fn erf(x: f64) -> f64 {
    if x < 0.0 {
        return -erf(-x);
    }
    if x < 3.0 {
        let (mut term, mut sum) = (x, x);
        for n in 1..200 {
            term *= -x * x / f64::from(n);
            sum += term / f64::from(2 * n + 1);
        }
        return sum * 2.0 / std::f64::consts::PI.sqrt();
    }
    let mut fraction = x;
    for k in (1..60).rev() {
        fraction = x + f64::from(k) / 2.0 / fraction;
    }
    1.0 - (-x * x).exp() / fraction / std::f64::consts::PI.sqrt()
}

/// The exposure of every pixel's centre by ink that fills whole pixels, relative to an endless fill: shares of the
/// Gaussian over the sides of each pixel, summed over all of them.
fn exposures(ink: &Mask, pitch: (f64, f64), radius: f64) -> Vec<f64> {
    let share = |offset: f64, side: f64| {
        let scale = std::f64::consts::SQRT_2 / radius;
        0.5 * (erf((offset + side / 2.0) * scale) - erf((offset - side / 2.0) * scale))
    };
    let table =
        |count: usize, side: f64| -> Vec<f64> { (0..count).map(|k| share(k as f64 * side, side)).collect() };
    let (along, across) = (table(ink.width, pitch.0), table(ink.height, pitch.1));
    let inked: Vec<_> = ink.pixels().filter(|&(x, y)| ink.view().get(x, y)).collect();
    ink.pixels()
        .map(|(x, y)| inked.iter().map(|&(i, j)| along[x.abs_diff(i)] * across[y.abs_diff(j)]).sum())
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn no_exposure_says_otherwise(
        ink in any_mask(30, 30), radius in 0.3..6.0_f64, log_dose in 0.01..2.5_f64, log_ratio in -1.0..1.0_f64,
    ) {
        let dose_ratio = log_dose.exp();
        let pitch = (1e-5, 1e-5 * log_ratio.exp());
        let input = input(&ink, pitch, 2e-5 * radius, dose_ratio);
        let (marked, clear, _) = bound(&input);
        for ((x, y), exposure) in ink.pixels().zip(exposures(&ink, pitch, 1e-5 * radius)) {
            prop_assert!(!marked.view().get(x, y) || dose_ratio * exposure >= 1.0 - 1e-12, "({x}, {y}) {exposure}");
            prop_assert!(!clear.view().get(x, y) || dose_ratio * exposure <= 1.0 + 1e-12, "({x}, {y}) {exposure}");
        }
    }

    /// The same under lines wherever they lie, against the exposure in doubles.
    #[test]
    fn no_exposure_by_lines_says_otherwise(
        ink in any_mask(40, 30), radius in 0.6..4.0_f64, log_dose in 0.01..2.5_f64, apart in 0.05..1.2_f64,
        first in 0.0..1.0_f64,
    ) {
        let (dose_ratio, diameter) = (log_dose.exp(), 2.0 * radius * PITCH);
        let interval = apart * radius;
        let lined = BoundInput {
            line_interval: interval * PITCH,
            least_spot_diameter: diameter,
            ..input(&ink, (PITCH, PITCH), diameter, dose_ratio)
        };
        let (marked, clear, summary) = bound(&lined);
        let (_, _, even) = bound(&input(&ink, (PITCH, PITCH), diameter, dose_ratio));
        prop_assert!(summary.marked <= even.marked && (summary.clear <= even.clear || dose_ratio < 1.0));
        let samples: Vec<u8> = ink.pixels().map(|(x, y)| u8::from(ink.view().get(x, y))).collect();
        let exposing = level(radius, lines(interval, first * interval));
        for ((x, y), exposure) in ink.pixels().zip(exact(&bilevel(&samples, ink.width), &exposing)) {
            prop_assert!(!marked.view().get(x, y) || dose_ratio * exposure >= 1.0 - 1e-9, "({x}, {y}) {exposure}");
            prop_assert!(!clear.view().get(x, y) || dose_ratio * exposure <= 1.0 + 1e-9, "({x}, {y}) {exposure}");
        }
    }

    /// A finer spot decides all that a coarser one does; more dose marks more and leaves less clear.
    #[test]
    fn bounds_are_nested(ink in any_mask(200, 40), radius in 0.3..9.0_f64, more in 1.0..2.0_f64, q in 1.01..6.0_f64) {
        let pitch = (1e-5, 1e-5);
        let within = |few: &Mask, many: &Mask| few.words.iter().zip(&many.words).all(|(few, many)| few & !many == 0);
        let (marked, clear, summary) = bound(&input(&ink, pitch, 2e-5 * radius, q));
        let (coarse_marked, coarse_clear, coarse) = bound(&input(&ink, pitch, 2e-5 * radius * more, q));
        prop_assert!(within(&coarse_marked, &marked) && within(&coarse_clear, &clear));
        prop_assert!(coarse.doubtful_gaps >= summary.doubtful_gaps && coarse.components_maybe_lost >= summary.components_maybe_lost);
        let (hot_marked, hot_clear, _) = bound(&input(&ink, pitch, 2e-5 * radius, q * more));
        prop_assert!(within(&marked, &hot_marked) && within(&hot_clear, &clear));
    }
}

/// Bars and gaps of 20 pixels of 10 µm. With w = 40 µm and a dose ratio of 2.7 (worked with bc): the smallest dot has
/// a radius of 40·√(ln(2.7/1.7)/2) = 19.24 µm and the smallest hole 40·√(ln(2.7)/2) = 28.19 µm, half a diagonal is
/// 7.07 µm. So a pixel surely marks if the next bare centre is more than 26.31 µm off, and surely stays clear if
/// the next ink's is more than 35.26 µm off: all but 2 and all but 3 rows at each edge.
#[test]
fn bars_by_hand() {
    let ink = Mask::from_fn(70, 200, |_, y| y / 20 % 2 == 1);
    let (marked, clear, summary) = bound(&input(&ink, (1e-5, 1e-5), 80e-6, 2.7));
    // Left and right the bars end with the drawing: outside there is no ink.
    for (y, row) in (0..200).map(|y| (y, y % 20)) {
        let bar = y / 20 % 2 == 1;
        assert_eq!(marked.view().get(35, y), bar && (2..18).contains(&row), "{y}");
        let edges = if y < 20 { 0..17 } else { 3..17 };
        assert_eq!(clear.view().get(35, y), !bar && edges.contains(&row), "{y}");
    }
    assert!(!marked.view().get(1, 30) && marked.view().get(2, 30));
    assert_eq!(summary.doubtful_gaps, 0);
    assert!(summary.doubtful_strokes > 0, "the corners of the bars are doubtful");
    let (_, _, wide) = bound(&input(&ink, (1e-5, 1e-5), 400e-6, 2.7));
    assert!(wide.doubtful_gaps > 0 && wide.doubtful_strokes > 0 && !wide.holds());
}

#[test]
fn soft_edges_are_doubtful() {
    let ring = Mask::from_fn(400, 400, |x, y| {
        let radius = (x as f64 - 199.5).hypot(y as f64 - 199.5);
        (80.0..120.0).contains(&radius)
    });
    // Of a soft drawing nothing is solid: every middle is doubtful, also far from the edges.
    let none = Mask::empty(400, 400);
    let soft = BoundInput { solid: none.view(), ..input(&ring, (1e-5, 1e-5), 80e-6, 2.7) };
    let (marked, _, summary) = bound(&soft);
    assert_eq!(marked.view().count(), 0);
    assert!(
        summary.doubtful_strokes > 2000
            && summary.doubtful_strokes == summary.stroke_pixels
            && !summary.holds(),
        "{summary:?}"
    );
}

/// At a dose that marks nothing all is clear; at one that a fill just reaches no ink is sure to mark.
#[test]
fn doses_at_which_nothing_marks() {
    let ink = Mask::from_fn(100, 100, |x, y| (20..80).contains(&x) && (20..80).contains(&y));
    let (marked, clear, summary) = bound(&input(&ink, (1e-5, 1e-5), 80e-6, 0.99));
    assert_eq!((marked.view().count(), clear.view().count()), (0, 10_000));
    assert!(!summary.holds());
    let (marked, clear, _) = bound(&input(&ink, (1e-5, 1e-5), 80e-6, 1.0));
    assert_eq!(marked.view().count(), 0);
    assert_eq!(clear.view().count(), 10_000 - 3600);
    // So large a spot decides nothing.
    let (marked, clear, _) = bound(&input(&ink, (1e-5, 1e-5), 1.0, 2.0));
    assert_eq!((marked.view().count(), clear.view().count()), (0, 0));
}

#[test]
fn what_is_refused() {
    let ink = Mask::empty(80, 60);
    let good = input(&ink, (1e-5, 1e-5), 80e-6, 2.0);
    let bad = |change: fn(&mut BoundInput)| {
        let mut input = good;
        change(&mut input);
        let error = quick_bound_words(&input, 1).unwrap_err();
        let mut words = [ink.words.clone(), ink.words.clone()];
        let [one, other] = &mut words;
        let mut one = BitmapMut::new(one, 80, 60).unwrap();
        let mut other = BitmapMut::new(other, 80, 60).unwrap();
        let mut room = vec![0; 100_000];
        assert_eq!(quick_bound(&input, &mut one, &mut other, &mut room, &mut Watch::quiet()), Err(error));
        error.param()
    };
    assert_eq!(bad(|input| input.pitch_x = 0.0), Param::PitchX);
    assert_eq!(bad(|input| input.pitch_y = f64::INFINITY), Param::PitchY);
    assert_eq!(bad(|input| input.greatest_spot_diameter = -1e-6), Param::SpotDiameter);
    assert_eq!(bad(|input| input.least_dose_ratio = 0.0), Param::AnyDoseRatio);
    assert_eq!(bad(|input| input.greatest_dose_ratio = 1e9), Param::AnyDoseRatio);
    let lined = BoundInput { line_interval: 20e-6, least_spot_diameter: 60e-6, ..good };
    for (wrong, param) in [
        (BoundInput { line_interval: -1e-6, ..lined }, Param::LineInterval),
        (BoundInput { line_interval: f64::NAN, ..good }, Param::LineInterval),
        (BoundInput { line_interval: 75.1e-6, ..lined }, Param::LineInterval),
        (BoundInput { least_spot_diameter: f64::NAN, ..lined }, Param::SpotDiameter),
        (BoundInput { least_spot_diameter: 80.1e-6, ..lined }, Param::SpotDiameter),
    ] {
        assert_eq!(quick_bound_words(&wrong, 1).unwrap_err().param(), param);
    }
    let needed = quick_bound_words(&good, 1).unwrap();
    let mut words = [ink.words.clone(), ink.words.clone()];
    let [one, other] = &mut words;
    let mut one = BitmapMut::new(one, 80, 60).unwrap();
    let mut other = BitmapMut::new(other, 80, 60).unwrap();
    let mut room = vec![0; needed];
    let short = quick_bound(&good, &mut one, &mut other, &mut room[1..], &mut Watch::quiet());
    assert!(matches!(short, Err(Error::LengthMismatch { .. })));
    let small = Mask::empty(80, 59);
    let sizes = quick_bound(
        &BoundInput { solid: small.view(), ..good },
        &mut one,
        &mut other,
        &mut room,
        &mut Watch::quiet(),
    );
    assert!(matches!(sizes, Err(Error::LengthMismatch { .. })));
    let mut stop = |_| Step::Stop;
    let stopped = quick_bound(&good, &mut one, &mut other, &mut room, &mut Watch::new(&mut stop));
    assert!(matches!(stopped, Err(Error::Stopped { .. })));
}
