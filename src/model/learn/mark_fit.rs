//! Focus, spot and dose from the widths of marks at stepped heights.
//!
//! Symbols and the law of the widths in `mark_law.rs`: a mark is √2·w·√L wide, where w is the spot's 1/e² **radius**
//! at its height and L the logarithm of dose over threshold there. Its width is not a width of the beam: it falls
//! where the dose falls, and past b = 0 the mark vanishes.
//!
//! χ² = Σ ((b − s)/σ)² over the marks that were seen, + Σ (max(0, s)/σ)² over those that vanished, + ((ln M² −
//! known)/deviation)² and ((ln d − known)/deviation)² where known. M² = π·d²/(4·λ·zR).
//! Its least point is looked for from up to three starts, the best of a coarse grid over z₀ and zR on which d² and
//! d²·ln q follow by linear least squares, and found by Newton's method (`solver.rs`).
//!
//! Covariance of z₀, ln d, ln zR and ln q: (JᵀJ)⁻¹ as deviations of the widths are stated
//! ([`WidthScatter::Stated`]); times χ²/ν where only their ratios are known ([`WidthScatter::Found`]). ν counts the
//! marks that were seen and used and what was known before, less four; marks that vanished add to χ² but not to ν.
//! Ranges are ± k deviations of z₀ and of the logarithms; k from the normal law, or from Student's t with ν where
//! the scatter is found.
//!
//! Outliers: the mark without which χ² would fall most, as far as the tangent at the least point tells, is left out
//! if it falls by more than `outlier_limit`² times the larger of 1 and (χ² without it)/(ν − 1), then all is fitted
//! again; and again, while ν is at least 2, up to a quarter of the marks.
//!
//! | refused as ([`Error::Undetermined`])  | where                                                     | what helps |
//! |---------------------------------------|-----------------------------------------------------------|------------|
//! | [`Param::MarksUsed`]                  | fewer than 5 marks were seen, less one for each of M² and d that is known | more marks |
//! | [`Param::DistinctHeights`]            | fewer than three heights                                  | more heights |
//! | [`Param::ShapeSignificance`]          | the widths do not change with height by 5 deviations: √(χ² of a width that depends on power alone, less χ²), over √(χ²/ν) where that exceeds 1 | less power, or heights out to where marks vanish |
//! | [`Param::WaistWithinHeights`]         | the waist lies outside the heights                        | marks beyond that end |
//! | [`Param::WaistZCertainty`]            | half the run is less than twice the deviation of z₀       | less power, or heights out to where marks vanish |
//! | [`Param::SizeCertainty`]              | d is less than its deviation, or d and q cannot be told apart | the same heights at twice the power, or M² |
//!
//! Sources: the law in `mark_width`; weighted least squares in any textbook. Not modelled: errors of the heights,
//! astigmatism, aberration, marks that heat has widened.

use super::mark_law::{Known, Law, Place, Scaled, UNKNOWNS};
use super::solver::{Least, Local, Matrix, inverse, minimise};
use super::statistics::{chi_squared_chance, normal_factor, student_factor};
use crate::error::{Error, Param, check, check_unless_infinite, undetermined, within_model};
use crate::flags::flags;
use crate::model::mark::MarkKind;
use crate::model::math;
use crate::validity::{LEAST_CERTAINTY, LEAST_PLACE_CERTAINTY, LEAST_SHAPE_SIGNIFICANCE};
use core::f64::consts::FRAC_PI_4;

/// Marks at stepped heights: at `heights[i]`, with `power_ratios[i]` of the power of reference, a mark of
/// `widths[i]` came out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeriesMarks<'a> {
    /// Heights of the surface in metres from any one datum, **+ away from the lens**.
    pub heights: &'a [f64],
    /// Widths (**diameters**) of the marks in metres; exactly 0 for one that vanished.
    pub widths: &'a [f64],
    /// Standard deviations of the widths in metres; of a mark that vanished, the width that might have been
    /// overlooked.
    pub deviations: &'a [f64],
    /// Power over the power of reference, 1 in a series at one power.
    pub power_ratios: &'a [f64],
}

/// What is known before the marks are read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeriesKnown {
    /// What makes the marks.
    pub kind: MarkKind,
    /// Vacuum wavelength in metres.
    pub wavelength: f64,
    /// Beam propagation ratio M²; not read if its deviation is infinite.
    pub m2: f64,
    /// Deviation of M² over M²; +∞ where it is not known.
    pub relative_m2_deviation: f64,
    /// Waist **diameter** in metres, 1/e²; not read if its deviation is infinite.
    pub waist_diameter: f64,
    /// Deviation of the waist diameter over itself; +∞ where it is not known.
    pub relative_waist_diameter_deviation: f64,
}

/// What the stated deviations of the widths are worth. Codes are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
#[repr(u32)]
pub enum WidthScatter {
    /// They are taken at their word.
    Stated = 1,
    /// Only their ratios are: how far the marks scatter, the fit finds.
    Found = 2,
}

impl WidthScatter {
    /// Both, in the order of their codes.
    pub const ALL: [Self; 2] = [Self::Stated, Self::Found];

    /// The choice with this permanent code.
    ///
    /// # Errors
    /// [`Error::UnknownChoice`] for any other code.
    pub fn from_code(code: u32) -> Result<Self, Error> {
        Self::ALL
            .into_iter()
            .find(|scatter| *scatter as u32 == code)
            .ok_or(Error::UnknownChoice { param: Param::WidthScatter, value: code })
    }

    /// Name, the same in documents and in the WebAssembly package.
    ///
    /// ```
    /// use spotwise::model::learn::WidthScatter;
    /// assert_eq!(WidthScatter::from_code(2)?.name(), "found");
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Stated => "stated",
            Self::Found => "found",
        }
    }
}

/// How [`fit_mark_widths`] is to judge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarkFitOptions {
    /// Deviations beyond which a mark is left out, from 2 on; 3 is usual, +∞ keeps every mark.
    pub outlier_limit: f64,
    /// Share of cases in which each range is to hold the truth, such as 0.95.
    pub confidence: f64,
    /// What the stated deviations are worth.
    pub scatter: WidthScatter,
}

/// A value that a fit found, how far it may be trusted, and the range that holds it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// The value.
    pub value: f64,
    /// Its standard deviation.
    pub deviation: f64,
    /// Least of the confidence range.
    pub least: f64,
    /// Greatest of the confidence range.
    pub greatest: f64,
}

/// What a series of marks tells.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarkFit {
    /// Height of the waist in metres, from the datum of the heights, + away from the lens.
    pub waist_z: Estimate,
    /// Waist **diameter** in metres, 1/e².
    pub waist_diameter: Estimate,
    /// Rayleigh range in metres.
    pub rayleigh_range: Estimate,
    /// Dose over threshold in the waist, at the power of reference.
    pub dose_ratio: Estimate,
    /// M². One clearly below 1 is flagged, not refused.
    pub m2: Estimate,
    /// Correlations of z₀, ln d, ln zR and ln q in the order (z₀, d), (z₀, zR), (z₀, q), (d, zR), (d, q), (zR, q).
    pub correlations: [f64; 6],
    /// Half width of a range over the deviation.
    pub range_factor: f64,
    /// Sum of squared residuals over their variances.
    pub chi_squared: f64,
    /// Marks seen and used, and what was known before, less four.
    pub degrees_of_freedom: u32,
    /// Chance of a χ² so great or greater, if the stated deviations hold.
    pub chance: f64,
    /// By how many deviations the widths change with height.
    pub shape_significance: f64,
    /// How many marks were used that were seen.
    pub marks_used: u32,
    /// How many marks were used that vanished.
    pub vanished_used: u32,
    /// What to beware of.
    pub cautions: MarkFitCautions,
    /// Which further marks would make the answer better.
    pub further: FurtherMarks,
}

/// What to beware of in a [`MarkFit`]; bits are permanent and the same on every face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[must_use = "a caution that nobody reads helps nobody"]
pub struct MarkFitCautions(u32);

flags!(MarkFitCautions);

/// A χ² that is met less often than this is not met by chance.
const LEAST_CHANCE: f64 = 0.01;
/// From this relative deviation on a size is weakly known.
const WEAK_SIZE: f64 = 0.2;
/// From this share of the Rayleigh range on the deviation of z₀ is large: a third of the half depth of focus in which
/// the spot grows by 10 %.
const WEAK_PLACE: f64 = 0.15;

impl MarkFitCautions {
    /// Marks were left out as outliers.
    pub const OUTLIERS: Self = Self(1);
    /// The marks scatter more than is stated: a χ² so great is met in less than 1 % of cases.
    pub const SCATTER: Self = Self(2);
    /// M² lies below 1 by more than its range: these are not widths of such marks, or wavelength, scale or kind are
    /// wrong.
    pub const M2_BELOW_ONE: Self = Self(4);
    /// The waist diameter is known to 20 % at best: spot and dose are hard to tell apart in such a series. Its
    /// range then holds the truth less often than is asked for.
    pub const WEAK_SIZE: Self = Self(8);
    /// The deviation of the height of the waist exceeds 0.15 Rayleigh ranges.
    pub const WEAK_PLACE: Self = Self(16);
    /// Another waist, farther off than two deviations, fits about as well (χ² less than 4 above, over χ²/ν where that exceeds 1).
    pub const SECOND_SOLUTION: Self = Self(32);
    /// Fewer than two used heights lie beyond the waist on one of its sides.
    pub const ONE_SIDED: Self = Self(64);

    /// Every flag, in the order of its bit, with its sentence.
    pub const ALL: [(Self, &'static str); 7] = [
        (Self::OUTLIERS, "Marks were left out as outliers."),
        (Self::SCATTER, "The marks scatter more than their stated deviations allow."),
        (
            Self::M2_BELOW_ONE,
            "M squared comes out clearly below 1: wavelength, scale or kind of the marks are wrong, or they heat and melt.",
        ),
        (Self::WEAK_SIZE, "The waist diameter is known to 20 % at best."),
        (Self::WEAK_PLACE, "The height of the waist is uncertain by more than 0.15 Rayleigh ranges."),
        (Self::SECOND_SOLUTION, "A waist at another height fits the marks about as well."),
        (Self::ONE_SIDED, "Fewer than two heights lie beyond the waist on one side."),
    ];
}

/// Which further marks would make a [`MarkFit`] better; bits are permanent and the same on every face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct FurtherMarks(u32);

flags!(FurtherMarks);

impl FurtherMarks {
    /// At heights nearer to the lens.
    pub const TOWARD_LENS: Self = Self(1);
    /// At heights farther from the lens.
    pub const AWAY_FROM_LENS: Self = Self(2);
    /// At the same heights with twice the power: they tell the spot from the dose.
    pub const TWICE_THE_POWER: Self = Self(4);
    /// With less power, or out to where the marks vanish: they tell the height of the waist.
    pub const UNTIL_THEY_VANISH: Self = Self(8);
    /// The marks left out, once more.
    pub const REPEATS: Self = Self(16);

    /// Every flag, in the order of its bit, with its sentence.
    pub const ALL: [(Self, &'static str); 5] = [
        (Self::TOWARD_LENS, "Add marks at heights nearer to the lens."),
        (Self::AWAY_FROM_LENS, "Add marks at heights farther from the lens."),
        (Self::TWICE_THE_POWER, "Mark the same heights again at twice the power, or give M squared."),
        (Self::UNTIL_THEY_VANISH, "Mark with less power, or at heights out to where the marks vanish."),
        (Self::REPEATS, "Mark those heights again that were left out."),
    ];
}

/// One mark of a series, in the units of [`SeriesMarks`].
#[derive(Debug, Clone, Copy)]
pub(crate) struct Mark {
    pub(crate) height: f64,
    pub(crate) width: f64,
    pub(crate) deviation: f64,
    pub(crate) power_ratio: f64,
}

/// Most steps from one start.
const MOST_STEPS: u32 = 200;
/// The grid of starts: heights of the waist over half the run, and Rayleigh ranges over it.
const START_HEIGHTS: [f64; 5] = [-0.8, -0.4, 0.0, 0.4, 0.8];
const START_RANGES: [f64; 4] = [0.15, 0.35, 0.8, 1.8];
/// Points whose unknowns all differ by less than this lead to one least point.
const SAME_PLACE: f64 = 1e-2;
/// A start is given up where half of χ² is foretold to stay so far above the least one found.
const HOPELESS: f64 = 50.0;
/// Logarithms beyond this are none of the model's.
const GREATEST_LOGARITHM: f64 = 60.0;
/// A logarithm of a range beyond this would not be a number.
const GREATEST_RANGE: f64 = 600.0;

/// Marks by their place, however the caller keeps them, with what the fit makes of them.
struct Series<'a, At> {
    count: usize,
    at: At,
    law: Law,
    used: &'a mut [bool],
}

impl<At: Fn(usize) -> Mark> Series<'_, At> {
    /// The marks that are used, scaled, with their place.
    fn used(&self) -> impl Iterator<Item = (usize, Scaled)> {
        scaled(&self.at, &self.law, self.count)
            .zip(self.used.iter())
            .filter(|(_, used)| **used)
            .map(|(mark, _)| mark)
    }

    /// The problem of the solver.
    fn local(&self, at: &[f64; UNKNOWNS]) -> Local<UNKNOWNS> {
        let mut local = Local::NOTHING;
        if !at.iter().all(|unknown| math::fabs(*unknown) < GREATEST_LOGARITHM) {
            local.value = f64::NAN;
            return local;
        }
        let place = Place::of(at);
        for (_, mark) in self.used() {
            if let Some(residual) = self.law.residual(&place, &mark) {
                local.add(residual.value, &residual.first, &residual.second);
            }
        }
        self.law.add_known(at, &mut local);
        local.completed()
    }

    /// d² and d²·ln q for this place and range of the waist by linear least squares on b², then χ² there. `room`
    /// is for one number of each mark.
    fn start(&self, waist: f64, range: f64, room: &mut [f64]) -> Option<([f64; UNKNOWNS], f64)> {
        let growth = |mark: &Scaled| {
            let away = (mark.height - waist) / range;
            1.0 + away * away
        };
        let (mut bb, mut ba, mut aa, mut by, mut ay) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for (index, mark) in self.used() {
            let u = growth(&mark);
            let log = mark.log_power - self.law.half_exponent * math::log(u);
            if let Some(place) = room.get_mut(index) {
                *place = log;
            }
            if mark.width == 0.0 {
                continue;
            }
            let spread = mark.width * mark.deviation;
            let weight = 1.0 / (spread * spread);
            let (x, y) = (u * log, mark.width * mark.width);
            bb += weight * u * u;
            ba += weight * u * x;
            aa += weight * x * x;
            by += weight * u * y;
            ay += weight * x * y;
        }
        let determinant = bb * aa - ba * ba;
        let half_square = (bb * ay - ba * by) / determinant;
        let log_dose = (aa * by - ba * ay) / determinant / half_square;
        // Fails for numbers that are none.
        if !(half_square > 0.0 && math::fabs(log_dose) < GREATEST_LOGARITHM) {
            return None;
        }
        let at = [waist, 0.5 * math::log(2.0 * half_square), math::log(range), log_dose];
        let mut squares = self.law.known_squares(&at);
        for (index, mark) in self.used() {
            let log = room.get(index).copied().unwrap_or(f64::NAN);
            let left = Law::left(half_square * growth(&mark) * (log_dose + log), &mark);
            squares += left * left;
        }
        squares.is_finite().then_some((at, squares))
    }

    /// The three best starts, of different heights.
    fn starts(&self, room: &mut [f64]) -> [Option<([f64; UNKNOWNS], f64)>; 3] {
        let mut best: [Option<([f64; UNKNOWNS], f64)>; 3] = [None; 3];
        for waist in START_HEIGHTS {
            let mut here: Option<([f64; UNKNOWNS], f64)> = None;
            for range in START_RANGES {
                if let Some(start) = self.start(waist, range, room)
                    && here.is_none_or(|(_, squares)| start.1 < squares)
                {
                    here = Some(start);
                }
            }
            // Put in its order; the last falls out.
            let mut moving = here;
            for kept in &mut best {
                let better = match (&moving, &kept) {
                    (Some((_, mine)), Some((_, theirs))) => mine < theirs,
                    (Some(_), None) => true,
                    _ => false,
                };
                if better {
                    core::mem::swap(kept, &mut moving);
                }
            }
        }
        best
    }

    /// The least point of χ², and the next one, if it has another height and fits about as well.
    fn least(&self, room: &mut [f64]) -> Option<(Least<UNKNOWNS>, Option<Least<UNKNOWNS>>)> {
        let mut best: Option<Least<UNKNOWNS>> = None;
        let mut second: Option<Least<UNKNOWNS>> = None;
        for (start, _) in self.starts(room).into_iter().flatten() {
            let is_idle = |at: &[f64; UNKNOWNS], foretold: f64| {
                best.is_some_and(|best| {
                    foretold > best.local.value + HOPELESS || distance(at, &best.at) < SAME_PLACE
                })
            };
            let Some(found) = minimise(|at| self.local(at), start, MOST_STEPS, is_idle) else { continue };
            let Some(kept) = best else {
                best = Some(found);
                continue;
            };
            if distance(&found.at, &kept.at) < SAME_PLACE {
                continue;
            }
            if found.local.value < kept.local.value {
                (best, second) = (Some(found), Some(kept));
            } else if second.is_none_or(|other| found.local.value < other.local.value) {
                second = Some(found);
            }
        }
        Some((best?, second))
    }

    /// How many marks are used: seen, and vanished.
    fn counts(&self) -> (u32, u32) {
        let mut counts = (0_u32, 0_u32);
        for (_, mark) in self.used() {
            let count = if mark.width == 0.0 { &mut counts.1 } else { &mut counts.0 };
            *count = count.saturating_add(1);
        }
        counts
    }

    /// The mark whose leaving out is most called for, with what speaks for it.
    fn worst(
        &self,
        least: &Least<UNKNOWNS>,
        covariance: &Matrix<UNKNOWNS>,
        freedom: u32,
    ) -> Option<(usize, f64)> {
        let mut worst = None;
        let mut greatest = 0.0;
        let place = Place::of(&least.at);
        for (index, mark) in self.used() {
            let Some(residual) = self.law.residual(&place, &mark) else { continue };
            let mut leverage = 0.0;
            for (row, left) in covariance.iter().zip(residual.first) {
                for (number, right) in row.iter().zip(residual.first) {
                    leverage += left * number * right;
                }
            }
            let free = 1.0 - leverage;
            // A mark that alone holds one of the unknowns cannot be judged.
            if free < LEAST_FREEDOM {
                continue;
            }
            let gain = residual.value * residual.value / free;
            let rest = (2.0 * least.local.value - gain) / f64::from(freedom.saturating_sub(1));
            let case = gain / math::greater(rest, 1.0);
            if case > greatest {
                greatest = case;
                worst = Some((index, case));
            }
        }
        worst
    }

    /// χ² of marks whose squared width depends on the power alone, and only through its logarithm.
    fn flat_squares(&self) -> f64 {
        let (mut weights, mut sum_x, mut sum_y) = (0.0, 0.0, 0.0);
        let seen = || self.used().filter(|(_, mark)| mark.width > 0.0);
        let weight = |mark: &Scaled| {
            let spread = 2.0 * mark.width * mark.deviation;
            1.0 / (spread * spread)
        };
        for (_, mark) in seen() {
            weights += weight(&mark);
            sum_x += weight(&mark) * mark.log_power;
            sum_y += weight(&mark) * mark.width * mark.width;
        }
        let (mean_x, mean_y) = (sum_x / weights, sum_y / weights);
        let (mut sum_xx, mut sum_xy) = (0.0, 0.0);
        for (_, mark) in seen() {
            let x = mark.log_power - mean_x;
            sum_xx += weight(&mark) * x * x;
            sum_xy += weight(&mark) * x * (mark.width * mark.width - mean_y);
        }
        let slope = if sum_xx > 0.0 { sum_xy / sum_xx } else { 0.0 };
        let mut squares = 0.0;
        for (_, mark) in self.used() {
            let left = Law::left(mean_y + slope * (mark.log_power - mean_x), &mark);
            squares += left * left;
        }
        squares
    }
}

/// A mark is not judged whose residual has less than this left of its own variance.
const LEAST_FREEDOM: f64 = 1e-6;

/// The marks, scaled, with their place; ln ρ is worked out where ρ changes.
fn scaled<At: Fn(usize) -> Mark>(at: &At, law: &Law, count: usize) -> impl Iterator<Item = (usize, Scaled)> {
    let (mut ratio, mut log_power) = (1.0, 0.0);
    (0..count).map(move |index| {
        let mark = at(index);
        if mark.power_ratio != ratio {
            ratio = mark.power_ratio;
            log_power = math::log(ratio);
        }
        (index, law.scaled(&mark, log_power))
    })
}

/// The greatest difference between two sets of unknowns.
fn distance(one: &[f64; UNKNOWNS], other: &[f64; UNKNOWNS]) -> f64 {
    one.iter().zip(other).fold(0.0, |most, (a, b)| math::greater(most, math::fabs(a - b)))
}

/// Focus, spot, Rayleigh range and dose from the widths of marks at stepped heights.
///
/// `used` says on return which marks were used, `residuals` how far each mark lies from the fit, (b − s)/σ in
/// deviations; that of a mark that vanished is negative where it should have been seen, and else 0. Those left out
/// have theirs too. On any error `used` is all false and `residuals` all NaN. Law, method, sources and refusals in
/// the [module](self).
///
/// Accuracy of evaluation (`tests/vectors/fit_mark_widths.csv`), in deviations of the values themselves: 1e-12; the
/// deviations to 1e-9 of themselves where the marks tell all four unknowns apart. SciPy's `curve_fit` finds the same
/// to 1e-13 and 1e-8 (`tests/mark_fit.rs`).
///
/// How well it does, by 4000 seeded series of a spot of 85 µm each (`tests/mark_fit.rs`): coverage of the ranges for 95 %,
/// the largest bias of z₀ and of the logarithms in deviations, and the share refused; H is half the run in Rayleigh
/// ranges, q the dose ratio.
///
/// | series                            | noise | coverage       | bias | refused |
/// |-----------------------------------|-------|----------------|------|---------|
/// | two powers                        | 2 µm  | 94.5 to 95.7 % | 0.04 | none    |
/// | two powers                        | 5 µm  | 94.6 to 95.8 % | 0.11 | none    |
/// | two powers                        | 10 µm | 95.2 to 95.7 % | 0.22 | 1.4 %   |
/// | M² known to 10 %, q = 8           | 5 µm  | 94.3 to 95.5 % | 0.10 | 0.15 %  |
/// | M² known to 10 %, q = 3           | 2 µm  | 94.8 to 95.4 % | 0.13 | 0.35 %  |
/// | M² known to 10 %, q = 1.3         | 2 µm  | 92.4 to 94.1 % | 0.24 | 0.3 %   |
/// | one power, past vanishing (H = 3) | 1 µm  | 94.6 to 95.3 % | 0.03 | none    |
/// | one power, past vanishing (H = 3) | 5 µm  | 92.0 to 95.8 % | 0.09 | 2 %     |
/// | one power, q = 3, H = 2           | 5 µm  |                |      | 77 %    |
///
/// Where spot and dose are known to 10 % or worse the law is no plane over the ranges, which is the bias. Of series of
/// noise alone, fewer than one in a thousand is fitted.
///
/// # Errors
/// [`Error::LengthMismatch`] for an array of another length than the heights; [`Error::NotFinite`] or
/// [`Error::OutOfRange`] for the heights, then the widths, deviations and power ratios, the wavelength, M² and the
/// waist diameter, each after its deviation, the outlier limit and the confidence; [`Error::Undetermined`] where
/// the marks cannot tell, as the table in the [module](self) says; [`Error::OutsideModel`] where the waist, the
/// Rayleigh range or the dose ratio that fit are none of the model's.
///
/// # Example
/// ```
/// use spotwise::model::learn::{
///     MarkFitOptions, SeriesKnown, SeriesMarks, WidthScatter, fit_mark_widths,
/// };
/// use spotwise::model::mark::MarkKind;
/// // Lines of a spot of 80 µm with a Rayleigh range of 0.4 mm, focus at +0.1 mm, 4 times the threshold:
/// // b = 80 µm·u·√(ln(4/u)/2), u² = 1 + ((z − 0.1 mm)/0.4 mm)².
/// let heights: [f64; 11] = core::array::from_fn(|i| (i as f64 - 5.0) * 0.2e-3);
/// let widths = heights.map(|z| {
///     let u = 1.0_f64.hypot((z - 0.1e-3) / 0.4e-3);
///     80e-6 * u * ((4.0 / u).ln() / 2.0).sqrt()
/// });
/// let marks = SeriesMarks {
///     heights: &heights,
///     widths: &widths,
///     deviations: &[1e-6; 11],
///     power_ratios: &[1.0; 11],
/// };
/// let known = SeriesKnown {
///     kind: MarkKind::Line,
///     wavelength: 10.6e-6,
///     m2: f64::NAN,
///     relative_m2_deviation: f64::INFINITY,
///     waist_diameter: f64::NAN,
///     relative_waist_diameter_deviation: f64::INFINITY,
/// };
/// let options = MarkFitOptions { outlier_limit: 3.0, confidence: 0.95, scatter: WidthScatter::Stated };
/// let fit = fit_mark_widths(&marks, &known, &options, &mut [0.0; 11], &mut [false; 11])?;
/// assert_eq!((fit.waist_z.value * 1e9).round(), 100_000.0);
/// assert_eq!((fit.waist_diameter.value * 1e12).round(), 80_000_000.0);
/// assert_eq!((fit.rayleigh_range.value * 1e9).round(), 400_000.0);
/// assert_eq!((fit.dose_ratio.value * 1e6).round(), 4_000_000.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "focus ladder")]
#[doc(alias = "Levenberg-Marquardt")]
pub fn fit_mark_widths(
    marks: &SeriesMarks<'_>,
    known: &SeriesKnown,
    options: &MarkFitOptions,
    residuals: &mut [f64],
    used: &mut [bool],
) -> Result<MarkFit, Error> {
    let count = marks.heights.len();
    let lengths = [
        (Param::Widths, marks.widths.len()),
        (Param::Deviations, marks.deviations.len()),
        (Param::PowerRatios, marks.power_ratios.len()),
    ];
    for (param, value) in lengths {
        if value != count {
            used.fill(false);
            residuals.fill(f64::NAN);
            return Err(Error::LengthMismatch { param, value, expected: count });
        }
    }
    let number = |list: &[f64], index: usize| list.get(index).copied().unwrap_or(f64::NAN);
    let at = |index| Mark {
        height: number(marks.heights, index),
        width: number(marks.widths, index),
        deviation: number(marks.deviations, index),
        power_ratio: number(marks.power_ratios, index),
    };
    fit_series(count, at, known, options, residuals, used)
}

/// As [`fit_mark_widths`], of marks that the caller keeps in another form: `at` gives the mark at each place below
/// `count`.
pub(crate) fn fit_series(
    count: usize,
    at: impl Fn(usize) -> Mark,
    known: &SeriesKnown,
    options: &MarkFitOptions,
    residuals: &mut [f64],
    used: &mut [bool],
) -> Result<MarkFit, Error> {
    let fit = checked_fit(count, at, known, options, residuals, used);
    if fit.is_err() {
        used.fill(false);
        residuals.fill(f64::NAN);
    }
    fit
}

/// Checks all, and gives what the marks have in common.
fn checked_law(
    count: usize,
    at: &impl Fn(usize) -> Mark,
    known: &SeriesKnown,
    options: &MarkFitOptions,
) -> Result<Law, Error> {
    let all = || (0..count).map(at);
    let (mut least, mut greatest, mut widest) = (f64::INFINITY, f64::NEG_INFINITY, 0.0);
    for mark in all() {
        let height = check(Param::ZOffset, mark.height)?;
        (least, greatest) = (math::lesser(least, height), math::greater(greatest, height));
    }
    for mark in all() {
        if mark.width != 0.0 {
            widest = math::greater(widest, check(Param::MarkWidth, mark.width)?);
        }
    }
    for mark in all() {
        check(Param::WidthDeviation, mark.deviation)?;
    }
    for mark in all() {
        check(Param::PowerRatio, mark.power_ratio)?;
    }
    let wavelength = check(Param::Wavelength, known.wavelength)?;
    let knows_m2 = check_unless_infinite(Param::PriorDeviation, known.relative_m2_deviation)?;
    if knows_m2 {
        check(Param::M2, known.m2)?;
    }
    let knows_diameter =
        check_unless_infinite(Param::PriorDeviation, known.relative_waist_diameter_deviation)?;
    if knows_diameter {
        check(Param::WaistDiameter, known.waist_diameter)?;
    }
    check_unless_infinite(Param::OutlierLimit, options.outlier_limit)?;
    check(Param::Confidence, options.confidence)?;

    let seen = all().filter(|mark| mark.width > 0.0).count();
    let needed = 5_u8 - u8::from(knows_m2) - u8::from(knows_diameter);
    if seen < usize::from(needed) {
        let (_, greatest) = Param::MarksUsed.range();
        return Err(Error::Undetermined {
            param: Param::MarksUsed,
            value: seen as f64,
            least: f64::from(needed),
            greatest,
        });
    }
    let between = all().any(|mark| mark.height > least && mark.height < greatest);
    if !between {
        return Err(undetermined(Param::DistinctHeights, if least < greatest { 2.0 } else { 1.0 }));
    }
    let (middle, reach) = (0.5 * (least + greatest), 0.5 * (greatest - least));
    // M² = π·d²/(4·λ·zR), with d in units of the widest and zR in units of the reach
    let log_m2_of_one = log_m2_of_one(wavelength, widest, reach);
    Ok(Law {
        middle,
        reach,
        widest,
        half_exponent: 0.5 * known.kind.exponent(),
        known: [
            Known {
                coefficients: [0.0, 2.0, -1.0, 0.0],
                target: math::log(known.m2) - log_m2_of_one,
                deviation: known.relative_m2_deviation,
            },
            Known {
                coefficients: [0.0, 1.0, 0.0, 0.0],
                target: math::log(known.waist_diameter / widest),
                deviation: known.relative_waist_diameter_deviation,
            },
        ],
    })
}

/// ln M² where d is the widest mark and zR the reach.
fn log_m2_of_one(wavelength: f64, widest: f64, reach: f64) -> f64 {
    math::log(FRAC_PI_4 * (widest / wavelength) * (widest / reach))
}

/// The fit that stands after outliers are left out.
struct Standing {
    least: Least<UNKNOWNS>,
    second: Option<Least<UNKNOWNS>>,
    covariance: Matrix<UNKNOWNS>,
    seen: u32,
    vanished: u32,
    freedom: u32,
}

impl Standing {
    /// χ²/ν where that exceeds 1.
    fn excess(&self) -> f64 {
        math::greater(2.0 * self.least.local.value / f64::from(self.freedom), 1.0)
    }
}

fn checked_fit(
    count: usize,
    at: impl Fn(usize) -> Mark,
    known: &SeriesKnown,
    options: &MarkFitOptions,
    residuals: &mut [f64],
    used: &mut [bool],
) -> Result<MarkFit, Error> {
    for value in [residuals.len(), used.len()] {
        if value != count {
            return Err(Error::LengthMismatch { param: Param::Output, value, expected: count });
        }
    }
    let law = checked_law(count, &at, known, options)?;
    used.fill(true);
    let series = Series { count, at, law, used };
    let mut standing = stand(&series, residuals)?;
    let mut left_out = false;
    for _ in 0..count / 4 {
        if standing.freedom < 2 {
            break;
        }
        match series.worst(&standing.least, &standing.covariance, standing.freedom) {
            Some((index, case)) if case > options.outlier_limit * options.outlier_limit => {
                if let Some(used) = series.used.get_mut(index) {
                    *used = false;
                }
                left_out = true;
                standing = stand(&series, residuals)?;
            }
            _ => break,
        }
    }
    let fit = answer(&series, &standing, known.wavelength, options, left_out)?;
    let place = Place::of(&standing.least.at);
    for (residual, (_, mark)) in residuals.iter_mut().zip(scaled(&series.at, &series.law, series.count)) {
        *residual = series.law.residual(&place, &mark).map_or(0.0, |left| -left.value);
    }
    Ok(fit)
}

/// Fits the marks that are used.
fn stand(series: &Series<'_, impl Fn(usize) -> Mark>, room: &mut [f64]) -> Result<Standing, Error> {
    let (seen, vanished) = series.counts();
    let known = series.law.known.iter().filter(|known| known.deviation.is_finite()).count();
    let freedom = seen.saturating_add(known as u32).saturating_sub(UNKNOWNS as u32);
    let vague = undetermined(Param::SizeCertainty, 0.0);
    let (least, second) = series.least(room).ok_or(vague)?;
    let covariance = inverse(&least.local.tangent).ok_or(vague)?;
    Ok(Standing { least, second, covariance, seen, vanished, freedom })
}

fn answer(
    series: &Series<'_, impl Fn(usize) -> Mark>,
    standing: &Standing,
    wavelength: f64,
    options: &MarkFitOptions,
    left_out: bool,
) -> Result<MarkFit, Error> {
    let Law { middle, reach, widest, .. } = series.law;
    let chi_squared = 2.0 * standing.least.local.value;
    let degrees = f64::from(standing.freedom);
    let excess = standing.excess();
    let gain = (series.flat_squares() - chi_squared) / excess;
    let shape_significance = if gain > 0.0 { math::sqrt(gain) } else { 0.0 };
    if shape_significance < LEAST_SHAPE_SIGNIFICANCE {
        return Err(undetermined(Param::ShapeSignificance, shape_significance));
    }
    let [waist, log_diameter, log_rayleigh, log_dose] = standing.least.at;
    let waist_z = middle + reach * waist;
    if math::fabs(waist) > 1.0 {
        let (least, greatest) = (middle - reach, middle + reach);
        return Err(Error::Undetermined {
            param: Param::WaistWithinHeights,
            value: waist_z,
            least,
            greatest,
        });
    }
    let (scale, range_factor) = match options.scatter {
        WidthScatter::Stated => (1.0, normal_factor(options.confidence)),
        WidthScatter::Found => (chi_squared / degrees, student_factor(options.confidence, degrees)?),
    };
    let covariance = standing.covariance.map(|row| row.map(|number| scale * number));
    let [[zz, zd, zr, zq], [_, dd, dr, dq], [_, _, rr, rq], [_, _, _, qq]] = covariance;
    let [z_deviation, d_deviation, r_deviation, q_deviation] = [zz, dd, rr, qq].map(math::sqrt);
    let certainty = 1.0 / z_deviation;
    if certainty.is_nan() || certainty < LEAST_PLACE_CERTAINTY {
        return Err(undetermined(Param::WaistZCertainty, certainty));
    }
    let certainty = 1.0 / d_deviation;
    if certainty.is_nan() || certainty < LEAST_CERTAINTY {
        return Err(undetermined(Param::SizeCertainty, certainty));
    }
    let waist_diameter = within_model(Param::WaistDiameter, widest * math::exp(log_diameter))?;
    let rayleigh_range = within_model(Param::RayleighRange, reach * math::exp(log_rayleigh))?;
    let dose_ratio = within_model(Param::AnyDoseRatio, math::exp(log_dose))?;
    // ln M² = 2·ln d − ln zR + a constant
    let log_m2 = log_m2_of_one(wavelength, widest, reach) + 2.0 * log_diameter - log_rayleigh;
    let m2_variance = 4.0 * (dd - dr) + rr;
    let m2_deviation = math::sqrt(math::greater(m2_variance, 0.0));
    let around = |value: f64, deviation: f64| {
        let reach = math::exp(math::lesser(range_factor * deviation, GREATEST_RANGE));
        Estimate { value, deviation: value * deviation, least: value / reach, greatest: value * reach }
    };
    let place_deviation = reach * z_deviation;
    let half_range = range_factor * place_deviation;
    let chance = chi_squared_chance(chi_squared, degrees)?;

    let (mut before, mut beyond) = (0_u32, 0_u32);
    for (_, mark) in series.used() {
        if mark.height < waist {
            before = before.saturating_add(1);
        } else if mark.height > waist {
            beyond = beyond.saturating_add(1);
        }
    }
    let second = standing.second.is_some_and(|other| {
        let [place, ..] = other.at;
        let above = 2.0 * other.local.value - chi_squared;
        above < 4.0 * excess && math::fabs(place) <= 1.0 && math::fabs(place - waist) > 2.0 * z_deviation
    });
    let weak_size = d_deviation > WEAK_SIZE;
    let weak_place = place_deviation > WEAK_PLACE * rayleigh_range;
    let scatters = options.scatter == WidthScatter::Stated && chance < LEAST_CHANCE;
    let mut cautions = MarkFitCautions::default();
    cautions.add(MarkFitCautions::OUTLIERS, left_out);
    cautions.add(MarkFitCautions::SCATTER, scatters);
    cautions.add(MarkFitCautions::M2_BELOW_ONE, log_m2 + range_factor * m2_deviation < 0.0);
    cautions.add(MarkFitCautions::WEAK_SIZE, weak_size);
    cautions.add(MarkFitCautions::WEAK_PLACE, weak_place);
    cautions.add(MarkFitCautions::SECOND_SOLUTION, second);
    cautions.add(MarkFitCautions::ONE_SIDED, before < 2 || beyond < 2);
    let mut further = FurtherMarks::default();
    further.add(FurtherMarks::TOWARD_LENS, before < 2);
    further.add(FurtherMarks::AWAY_FROM_LENS, beyond < 2);
    further.add(FurtherMarks::TWICE_THE_POWER, weak_size);
    further.add(FurtherMarks::UNTIL_THEY_VANISH, weak_place || second);
    further.add(FurtherMarks::REPEATS, left_out);
    Ok(MarkFit {
        waist_z: Estimate {
            value: waist_z,
            deviation: place_deviation,
            least: waist_z - half_range,
            greatest: waist_z + half_range,
        },
        waist_diameter: around(waist_diameter, d_deviation),
        rayleigh_range: around(rayleigh_range, r_deviation),
        dose_ratio: around(dose_ratio, q_deviation),
        m2: around(math::exp(log_m2), m2_deviation),
        correlations: [
            zd / (z_deviation * d_deviation),
            zr / (z_deviation * r_deviation),
            zq / (z_deviation * q_deviation),
            dr / (d_deviation * r_deviation),
            dq / (d_deviation * q_deviation),
            rq / (r_deviation * q_deviation),
        ],
        range_factor,
        chi_squared,
        degrees_of_freedom: standing.freedom,
        chance,
        shape_significance,
        marks_used: standing.seen,
        vanished_used: standing.vanished,
        cautions,
        further,
    })
}
