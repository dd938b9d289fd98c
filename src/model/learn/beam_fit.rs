//! The beam from its widths at several heights: waist, Rayleigh range, divergence and M², and how well each is known.
//!
//! | symbol | meaning                                                             | unit | valid          |
//! |--------|---------------------------------------------------------------------|------|----------------|
//! | z      | height of a reading, + away from the lens                           | m    | −1e3 … 1e3     |
//! | D, σ   | beam width (**diameter**, 1/e² or D4σ) there, its standard deviation | m   | 1e-9 … 10, 1e-12 … 10 |
//! | z₀, D₀ | waist: its height and **diameter**                                  | m    |                |
//! | θ, z_R | divergence (full angle), Rayleigh range                             | rad, m |              |
//! | λ, M²  | wavelength, beam propagation ratio                                  | m, 1 |                |
//! | ν      | readings used less three                                            | 1    |                |
//!
//! D² = A + B·z + C·z²: z₀ = −B/2C, D₀² = A − B²/4C, θ = √C, z_R = D₀/θ, M² = π·D₀·θ/(4·λ)     \[1\]
//! by weighted least squares on centred and scaled heights, in orthogonal polynomials (`learn/curve.rs`), with the full
//! covariance of A, B and C behind every deviation.
//!
//! Weights: [`Measured`](ReadingWeights::Measured) takes 1/(2Dσ)² with the width as it was read.
//! [`Refined`](ReadingWeights::Refined) takes σ² from D², whose mean it raises, and 1/(4·D̂²·σ² + 2·σ⁴) with the fitted
//! width D̂, again and again until D̂ stays: a reading that came out small by chance then gains no weight. It has the lesser
//! bias and is what to use; the other is the straight formula of the textbooks.
//!
//! Bias: with refined weights the mean of A, B and C is right to second order. What a weight w takes from its own reading,
//! Σ x·w'·h with the leverage h of D̂, and what it takes from the scatter of D̂, −Σ x·w'·h, cancel. The results, being curved
//! in A, B and C, are off by half their curvature times the covariance: z₀ by cov(B, C)/(2C²) − B·var(C)/(2C³), D₀² by
//! −var(B + 2·z₀·C)/(4C), and so on. That is taken off ([`Estimate`]), of the numbers themselves. With measured weights the
//! numbers are left as the standard's method gives them, with a bias stated as 0, which is not what they have.
//!
//! Deviations are enlarged by √(χ²/ν) where that exceeds 1, so that readings which scatter more than σ says do not look
//! better than they are; the half widths of the ranges are then Student's t times that, else the normal factor.
//!
//! Outliers: the reading without which χ² falls most is left out if it falls by more than `outlier_limit`² times the
//! larger of 1 and (χ² without it)/(ν − 1); and again, while at least five readings remain, up to a quarter of them.
//!
//! **Wrong kind of data.** The width of a *mark* is no width of the beam: it shrinks to nothing where the dose falls below
//! threshold. Fed to this fit, marks give answers that are grossly wrong. It says so ([`BeamWarnings::MARK_WIDTHS`])
//! by what a beam cannot do: terms of third and fourth order in D² with a fourth that bends down, an M² whose range
//! ends below 1, or a dose that the caller reports; and it refuses where no minimum is seen, as with marks that are widest
//! in focus. What it cannot see is marks at many times their threshold within a Rayleigh range or so, whose widths are as
//! good as a hyperbola: then waist and Rayleigh range are too large by √(ln q/2) and more, q being the dose ratio. Use a fit
//! of mark widths for marks.
//!
//! Share of runs of 11 heights, evenly over ± H, that are refused or flagged `MARK_WIDTHS`, of 2000 simulated: lines
//! marked by a beam of 85 µm with a Rayleigh range of 0.535 mm at 10.6 µm (M² = 1.0008), σ = 5 µm; the tests assert them
//! (`tests/learn.rs`):
//!
//! | dose ratio q | H = z_R         | H = 2 z_R       | H = 3 z_R       |
//! |--------------|-----------------|-----------------|-----------------|
//! | 1.3, 2       | refused         | refused         | refused         |
//! | 3            | 78 % + 21 %     | 92 % + 8 %      | refused         |
//! | 5            | 14 % + 86 %     | flagged         | flagged         |
//! | 8            | 1 % + 60 %      | flagged         | flagged         |
//! | 20           | 1 %             | 9 %             | 61 %            |
//!
//! (refused + flagged). A beam of that M² is itself flagged in 1.9 to 2.7 % of runs, one of M² = 1.25 in 0.8 %.
//! Where M² is well above 1, only the shape tells marks from a beam, as in the last row.
//!
//! \[1\] ISO 11146-1, from memory; the weights and the deviations: any textbook of weighted least squares.
//! Not modelled: errors of the heights, astigmatism (fit each axis by itself), widths of one definition taken for
//! another.

use super::curve::Curve;
use super::estimate::{Estimate, Spread};
use super::squares::{FittedSquares, ReadingWeights, Squares, Width, Widths, different, significant};
use super::statistics::{chi_squared_chance, normal_factor, student_factor};
use crate::error::{Error, Param, check, check_unless_infinite, check_within, undetermined, within_model};
use crate::flags::flags;
use crate::model::math;
use core::f64::consts::FRAC_PI_4;

/// Beam widths by height: at `heights[i]` the beam was `diameters[i]` wide.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeamReadings<'a> {
    /// Heights in metres, + away from the lens, from any one datum.
    pub heights: &'a [f64],
    /// Beam widths (**diameters**, 1/e² or D4σ) in metres.
    pub diameters: &'a [f64],
    /// Standard deviations of the widths in metres.
    pub deviations: &'a [f64],
}

/// How [`fit_beam`] fits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeamFitOptions {
    /// How a reading weighs.
    pub weights: ReadingWeights,
    /// Standard deviations beyond which a reading is left out, from 2 on; 3 is usual, +∞ keeps every one.
    pub outlier_limit: f64,
    /// Share of cases in which a range is to hold the truth, ½ to 1 − 1e-12; 0.95 is usual.
    pub confidence: f64,
    /// Dose over threshold, if the widths are those of marks and it is known; 0 if they are of the beam. It enters no
    /// number: marks are no beam widths, and the fit says so.
    pub mark_dose_ratio: f64,
}

/// What [`fit_beam`] warns of. Bits are permanent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[must_use = "a warning that nobody reads helps nobody"]
pub struct BeamWarnings(u32);

flags!(BeamWarnings);

impl BeamWarnings {
    /// Fewer than ten different heights.
    pub const FEW_HEIGHTS: Self = Self(1);
    /// Less than three tenths of the readings within one Rayleigh range of the waist.
    pub const FEW_NEAR: Self = Self(2);
    /// Less than three tenths of the readings beyond two Rayleigh ranges.
    pub const FEW_FAR: Self = Self(4);
    /// The waist lies outside the readings: focus is extrapolated.
    pub const WAIST_OUTSIDE: Self = Self(8);
    /// Fewer than two readings on one side of the waist.
    pub const ONE_SIDED: Self = Self(16);
    /// M² below 1.
    pub const M2_BELOW_ONE: Self = Self(32);
    /// M² below 1 by more than its range: no beam has such widths at this wavelength.
    pub const NO_BEAM: Self = Self(64);
    /// The readings stray from a hyperbola, with a chance below 1 %.
    pub const NO_HYPERBOLA: Self = Self(128);
    /// The widths look like those of marks, or were reported as such.
    pub const MARK_WIDTHS: Self = Self(256);
    /// χ² as great has a chance below 1 %: the readings scatter more than their deviations say.
    pub const SCATTER: Self = Self(512);
    /// χ² as small has a chance below 1 %: the deviations are larger than the scatter.
    pub const LITTLE_SCATTER: Self = Self(1024);
    /// The half angle exceeds 0.15 rad, so that the paraxial formulas are off by 1 % or more.
    pub const WIDE_CONE: Self = Self(2048);

    /// Every warning with its sentence, in the order of the bits.
    pub const ALL: [(Self, &'static str); 12] = [
        (Self::FEW_HEIGHTS, "fewer than ten different heights: add some"),
        (Self::FEW_NEAR, "few readings near the waist: add some within one Rayleigh range of it"),
        (
            Self::FEW_FAR,
            "few readings far from the waist: add some beyond two Rayleigh ranges, on either side",
        ),
        (Self::WAIST_OUTSIDE, "the waist lies outside the readings: shift them toward it and repeat"),
        (Self::ONE_SIDED, "fewer than two readings on one side of the waist: add some there"),
        (Self::M2_BELOW_ONE, "M squared below 1: check wavelength, units and how widths were measured"),
        (Self::NO_BEAM, "M squared clearly below 1: no beam has such widths at this wavelength"),
        (Self::NO_HYPERBOLA, "the widths do not follow a hyperbola: a beam's would"),
        (Self::MARK_WIDTHS, "these look like widths of marks, not of the beam: fit them as marks"),
        (Self::SCATTER, "the readings scatter more than their deviations say"),
        (Self::LITTLE_SCATTER, "the readings scatter less than their deviations say"),
        (Self::WIDE_CONE, "the cone is wide: the paraxial formulas are off by 1 % or more"),
    ];
}

/// A beam that fits a set of [`BeamReadings`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeamFit {
    /// Height of the waist in metres, + away from the lens.
    pub waist_z: Estimate,
    /// Waist **diameter** in metres, of the definition that was read.
    pub waist_diameter: Estimate,
    /// Rayleigh range in metres.
    pub rayleigh_range: Estimate,
    /// Divergence in radians, **full** angle.
    pub divergence_full_angle: Estimate,
    /// Beam propagation ratio M²; below 1 it is flagged.
    pub m2: Estimate,
    /// Correlation of the height and the diameter of the waist.
    pub z_diameter_correlation: f64,
    /// Correlation of the height of the waist and the Rayleigh range.
    pub z_range_correlation: f64,
    /// Correlation of waist diameter and Rayleigh range.
    pub diameter_range_correlation: f64,
    /// χ²: squared residuals of D² by their weights.
    pub chi_squared: f64,
    /// ν: readings used less three.
    pub degrees_of_freedom: u32,
    /// Chance of a χ² as great or greater.
    pub chi_squared_chance: f64,
    /// Chance of terms of third and fourth order as great or greater, if the widths do follow a hyperbola; 1 with fewer
    /// than six readings or five different heights, which cannot tell.
    pub higher_terms_chance: f64,
    /// How many readings were used.
    pub readings_used: u32,
    /// How many of them lie within one Rayleigh range of the waist.
    pub readings_near: u32,
    /// How many of them lie two Rayleigh ranges from the waist, or farther.
    pub readings_far: u32,
    /// What to be wary of.
    pub warnings: BeamWarnings,
}

impl BeamFit {
    /// The width at each height that makes χ² least.
    fn least_squares_width(&self) -> impl Fn(f64) -> f64 + use<> {
        let waist_z = self.waist_z.least_squares();
        let diameter = self.waist_diameter.least_squares();
        let steepness = 1.0 / self.rayleigh_range.least_squares();
        move |height| {
            let off = (height - waist_z) * steepness;
            diameter * math::sqrt(1.0 + off * off)
        }
    }
}

/// Chance below which the shape or the scatter is called wrong.
const UNLIKELY: f64 = 0.01;
/// Deviations that a normal law exceeds on one side with that chance.
const UNLIKELY_DEVIATIONS: f64 = 2.326_347_874_040_841;
/// Different heights from which on the standard's sampling rule is kept.
const ENOUGH_HEIGHTS: usize = 10;
/// Share of the readings near, and far, that is asked for: the standard's "about half".
const ENOUGH_SHARE: f64 = 0.3;

/// One reading in the units of [`BeamReadings`].
#[derive(Debug, Clone, Copy)]
pub(crate) struct BeamReading {
    pub(crate) height: f64,
    pub(crate) diameter: f64,
    pub(crate) deviation: f64,
}

/// Where the heights lie.
struct Span {
    /// Where x is 0, and the height of x = 1 over that.
    middle: f64,
    half: f64,
}

/// Waist, Rayleigh range, divergence and M² from the widths of a beam at several heights, with deviations, ranges and
/// warnings.
///
/// On return `residuals` holds for every reading, also those left out, the width read less that of the least-squares
/// curve, in metres;
/// `used` says which readings were used. Method, sources, and what the fit can and cannot tell from widths of marks: see
/// the [module](self). On any error `residuals` is all NaN and `used` all false.
///
/// Bias and coverage, simulated (11 readings over ± 2 z_R, spot 85 µm, z_R 0.535 mm, σ 5 and 10 µm, refined weights;
/// `tests/learn.rs`): the ranges of 95 % hold the truth in 95.9 to 97.2 % of runs with 7, 11 or 21 readings, in 94.5 to 96 %
/// where deviations are stated three times too small. Nothing is biased by more than 0.03 of its deviation; without the
/// correction M² would be low by up to 0.10 of it at 5 µm and 0.17 at 10 µm. No run was refused. A reading
/// 100 µm too wide was left out in every run: the waist was then found to 15 µm, against 14 µm without it and 93 µm where
/// it was kept (and half of the runs refused). A constant width was answered, wrongly, in 1 run of 2000.
///
/// Accuracy of evaluation: 100 ulp, the height of the waist 200 and residuals 200 times their condition numbers,
/// deviations 500, ends of ranges and biases 500 times their condition numbers, χ² and chances 2000 (`tests/vectors/fit_beam.csv`), where doubles can tell: for readings
/// that stray from the curve by a ten-thousandth of D² or more, whose weights differ by less than 1e9.
///
/// # Errors
/// [`Error::LengthMismatch`] if the arrays differ in length; [`Error::NotFinite`] or [`Error::OutOfRange`] for a
/// height, then a diameter, then a deviation, then the wavelength, then the options, then for more than 100 003 readings;
/// [`Error::Undetermined`] where the readings cannot tell:
///
/// | parameter | why | what helps |
/// | --- | --- | --- |
/// | [`Param::Readings`] | fewer than four | more readings |
/// | [`Param::DistinctHeights`] | at fewer than three heights | readings at other heights |
/// | [`Param::CurvatureSignificance`] | no minimum is seen: the widths hardly change (value near 0), or fall on either side (below −3), as those of marks do | readings farther from focus, on either side; fit marks as marks |
/// | [`Param::WaistSignificance`] | the widths come to a point: the waist is too small for the readings to tell | readings nearer to focus, or more exact ones |
/// | [`Param::SteadyWeights`] | the weights do not settle: the deviations are as large as the widths | more exact readings |
///
/// [`Error::OutsideModel`] if the waist, the Rayleigh range, the divergence or M² is beyond what the model holds for.
///
/// # Example
/// ```
/// use spotwise::model::learn::{BeamFitOptions, BeamReadings, ReadingWeights, fit_beam};
/// // A beam of 80 µm in its waist at +0.1 mm, z_R = 4 mm: M² = π·80²/(4·1.064·4000) = 1.1810.
/// let heights = [-8e-3, -6e-3, -4e-3, -2e-3, 0.0, 2e-3, 4e-3, 6e-3, 8e-3, 10e-3];
/// let diameters = heights.map(|z: f64| 80e-6 * (1.0 + ((z - 0.1e-3) / 4e-3).powi(2)).sqrt());
/// let readings = BeamReadings { heights: &heights, diameters: &diameters, deviations: &[1e-6; 10] };
/// let options = BeamFitOptions {
///     weights: ReadingWeights::Measured,
///     outlier_limit: 3.0,
///     confidence: 0.95,
///     mark_dose_ratio: 0.0,
/// };
/// let fit = fit_beam(&readings, 1.064e-6, &options, &mut [0.0; 10], &mut [false; 10])?;
/// assert_eq!((fit.waist_z.value * 1e9).round(), 100_000.0);
/// assert_eq!((fit.m2.value * 1e4).round(), 11_810.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "caustic")]
#[doc(alias = "M squared fit")]
#[doc(alias = "ISO 11146")]
pub fn fit_beam(
    readings: &BeamReadings<'_>,
    wavelength: f64,
    options: &BeamFitOptions,
    residuals: &mut [f64],
    used: &mut [bool],
) -> Result<BeamFit, Error> {
    let count = readings.heights.len();
    let lengths = [(Param::Widths, readings.diameters.len()), (Param::Deviations, readings.deviations.len())];
    for (param, value) in lengths {
        if value != count {
            residuals.fill(f64::NAN);
            used.fill(false);
            return Err(Error::LengthMismatch { param, value, expected: count });
        }
    }
    let number = |list: &[f64], place: usize| list.get(place).copied().unwrap_or(f64::NAN);
    let at = |place| BeamReading {
        height: number(readings.heights, place),
        diameter: number(readings.diameters, place),
        deviation: number(readings.deviations, place),
    };
    fit_readings(count, at, wavelength, options, residuals, |residual| residual, used)
}

/// As [`fit_beam`], of readings that the caller keeps in another form: `at` gives the reading at each place below
/// `count`, and a residual is kept as `kept` makes it.
pub(crate) fn fit_readings<Residual>(
    count: usize,
    at: impl Fn(usize) -> BeamReading,
    wavelength: f64,
    options: &BeamFitOptions,
    residuals: &mut [Residual],
    kept: impl Fn(f64) -> Residual,
    used: &mut [bool],
) -> Result<BeamFit, Error> {
    let fit = checked_fit(count, &at, wavelength, options, residuals.len(), used);
    match &fit {
        Ok(fit) => {
            let width = fit.least_squares_width();
            for (place, residual) in residuals.iter_mut().enumerate() {
                let reading = at(place);
                *residual = kept(reading.diameter - width(reading.height));
            }
        }
        Err(_) => {
            for residual in residuals {
                *residual = kept(f64::NAN);
            }
            used.fill(false);
        }
    }
    fit
}

fn checked_fit(
    count: usize,
    at: &impl Fn(usize) -> BeamReading,
    wavelength: f64,
    options: &BeamFitOptions,
    residuals: usize,
    used: &mut [bool],
) -> Result<BeamFit, Error> {
    for value in [residuals, used.len()] {
        if value != count {
            return Err(Error::LengthMismatch { param: Param::Output, value, expected: count });
        }
    }
    let span = check_readings(count, at)?;
    check(Param::Wavelength, wavelength)?;
    check_options(options)?;
    let (least, most) = Param::Readings.range();
    if (count as f64) < least {
        return Err(undetermined(Param::Readings, count as f64));
    }
    check_within(Param::Readings, count as f64, least, most)?;
    let heights = different::<3>((0..count).map(|place| at(place).height));
    if heights < 3 {
        return Err(undetermined(Param::DistinctHeights, heights as f64));
    }

    let scale = 1.0 / span.half;
    let width = |place| {
        let reading = at(place);
        Width {
            x: (reading.height - span.middle) * scale,
            width: reading.diameter,
            deviation: reading.deviation,
        }
    };
    let widths = Widths { count, at: width, weights: options.weights, degree: 2 };
    let mut squares = Squares::of(widths, used);
    let fitted = squares.without_outliers(options.outlier_limit)?;
    let mut fit = answer(&span, squares.curve(), &fitted, wavelength, options);
    if let Ok(fit) = &mut fit {
        warn(fit, at, &mut squares, &fitted, options);
    }
    fit
}

/// Checks heights, diameters and deviations; gives where the heights lie.
fn check_readings(count: usize, at: &impl Fn(usize) -> BeamReading) -> Result<Span, Error> {
    let (mut least, mut greatest) = (f64::MAX, f64::MIN);
    for place in 0..count {
        let height = check(Param::PieceHeight, at(place).height)?;
        least = math::lesser(least, height);
        greatest = math::greater(greatest, height);
    }
    for place in 0..count {
        check(Param::BeamDiameter, at(place).diameter)?;
    }
    for place in 0..count {
        check(Param::WidthDeviation, at(place).deviation)?;
    }
    Ok(Span { middle: 0.5 * (least + greatest), half: 0.5 * (greatest - least) })
}

fn check_options(options: &BeamFitOptions) -> Result<(), Error> {
    check_unless_infinite(Param::OutlierLimit, options.outlier_limit)?;
    check(Param::Confidence, options.confidence)?;
    if options.mark_dose_ratio != 0.0 {
        check(Param::AnyDoseRatio, options.mark_dose_ratio)?;
    }
    Ok(())
}

fn answer(
    span: &Span,
    curve: &Curve,
    fitted: &FittedSquares,
    wavelength: f64,
    options: &BeamFitOptions,
) -> Result<BeamFit, Error> {
    let degrees = fitted.degrees();
    let reduced = fitted.chi_squared / degrees;
    let enlarged = math::sqrt(math::greater(reduced, 1.0));
    let [constant, linear, curvature] = curve.first_three();
    let deviations = [constant, linear, curvature].map(|term| enlarged / math::sqrt(term.norm));
    let [_, linear_deviation, curvature_deviation] = deviations;

    let bend = curvature.coefficient;
    significant(Param::CurvatureSignificance, bend / curvature_deviation)?;
    // Where the slope c₁ + c₂·(2s − (α₁ − α₀)) vanishes, s counting from the weighted mean of x.
    let lean = linear.coefficient / (2.0 * bend);
    let waist_s = 0.5 * (linear.shift - constant.shift) - lean;
    let waist_x = constant.shift + waist_s;
    // At the minimum, a change of its place does not count.
    let squared = curve.at(waist_x);
    let second = (waist_x - linear.shift) * waist_s - linear.share;
    let of_square = Spread::of([deviations[0], deviations[1] * waist_s, deviations[2] * second]);
    significant(Param::WaistSignificance, squared / of_square.deviation())?;

    let waist_diameter = math::sqrt(squared);
    let slope = math::sqrt(bend);
    let waist_z = span.middle + span.half * waist_x;
    let divergence = slope / span.half;
    let rayleigh_range = span.half * (waist_diameter / slope);
    let m2 = FRAC_PI_4 * (waist_diameter / wavelength) * divergence;
    // Deviations of the logarithms, each by those of the three terms.
    let of_z = Spread::of([0.0, -linear_deviation / (2.0 * bend), curvature_deviation * (lean / bend)]);
    let of_z = of_z.times(span.half);
    let of_diameter = of_square.times(0.5 / squared);
    let of_divergence = Spread::of([0.0, 0.0, 0.5 * curvature_deviation / bend]);
    let of_range = of_diameter.less(&of_divergence);
    let of_m2 = of_diameter.plus(&of_divergence);
    let factor = if reduced > 1.0 {
        student_factor(options.confidence, degrees)?
    } else {
        normal_factor(options.confidence)
    };
    // What its curvature shifts the place of the waist by, and what the others over themselves.
    let [of_place, of_diameter_itself, of_range_itself, of_divergence_itself, of_m2_itself] =
        match options.weights {
            ReadingWeights::Measured => [0.0; 5],
            ReadingWeights::Refined => {
                let linear_variance = linear_deviation * linear_deviation;
                let curvature_variance = curvature_deviation * curvature_deviation;
                let of_place = -span.half * curvature_variance * lean / (bend * bend);
                let of_square = -(0.25 * linear_variance + curvature_variance * lean * lean) / bend;
                // Of the logarithms of waist diameter and divergence.
                let diameter = 0.5 * of_square / squared - of_diameter.variance();
                let divergence = -of_divergence.variance();
                [
                    of_place,
                    diameter + 0.5 * of_diameter.variance(),
                    diameter - divergence + 0.5 * of_range.variance(),
                    divergence + 0.5 * of_divergence.variance(),
                    diameter + divergence + 0.5 * of_m2.variance(),
                ]
            }
        };
    let estimate = |value: f64, bias: f64, of_log: &Spread| {
        Estimate::even(value, value * bias, value * of_log.deviation(), factor)
    };
    let waist_z = Estimate::even(waist_z, of_place, of_z.deviation(), factor);
    let waist_diameter = estimate(waist_diameter, of_diameter_itself, &of_diameter);
    let rayleigh_range = estimate(rayleigh_range, of_range_itself, &of_range);
    let divergence_full_angle = estimate(divergence, of_divergence_itself, &of_divergence);
    let m2 = estimate(m2, of_m2_itself, &of_m2);
    let chi_squared_chance = chi_squared_chance(fitted.chi_squared, degrees)?;
    within_model(Param::Z, waist_z.value)?;
    within_model(Param::WaistDiameter, waist_diameter.value)?;
    within_model(Param::RayleighRange, rayleigh_range.value)?;
    within_model(Param::DivergenceFullAngle, divergence_full_angle.value)?;
    within_model(Param::M2, math::greater(m2.value, 1.0))?;
    Ok(BeamFit {
        waist_z,
        waist_diameter,
        rayleigh_range,
        divergence_full_angle,
        m2,
        z_diameter_correlation: of_z.correlation(&of_diameter),
        z_range_correlation: of_z.correlation(&of_range),
        diameter_range_correlation: of_diameter.correlation(&of_range),
        chi_squared: fitted.chi_squared,
        degrees_of_freedom: fitted.degrees_of_freedom(),
        chi_squared_chance,
        higher_terms_chance: 1.0,
        readings_used: fitted.count,
        readings_near: 0,
        readings_far: 0,
        warnings: BeamWarnings::default(),
    })
}

/// Counts where the readings lie, tries higher terms, and warns.
fn warn(
    fit: &mut BeamFit,
    at: &impl Fn(usize) -> BeamReading,
    squares: &mut Squares<'_, impl Fn(usize) -> Width>,
    fitted: &FittedSquares,
    options: &BeamFitOptions,
) {
    let heights =
        || squares.used().iter().enumerate().filter(|(_, used)| **used).map(|(place, _)| at(place).height);
    let (waist_z, rayleigh_range) = (fit.waist_z.value, fit.rayleigh_range.value);
    let (mut below, mut above) = (0_u32, 0_u32);
    for height in heights() {
        let away = math::fabs(height - waist_z);
        fit.readings_near += u32::from(away <= rayleigh_range);
        fit.readings_far += u32::from(away >= 2.0 * rayleigh_range);
        below += u32::from(height < waist_z);
        above += u32::from(height > waist_z);
    }
    let heights = different::<ENOUGH_HEIGHTS>(heights());
    let bends_down = if heights >= 5 && fitted.count >= 6 {
        let third = squares.next();
        squares.add(third);
        let fourth = squares.next();
        let gain = third.gain() + fourth.gain();
        let scatter = fitted.scatter_without(gain, 2.0);
        // χ² of two degrees of freedom
        fit.higher_terms_chance = math::exp(-0.5 * gain / scatter);
        fourth.coefficient * math::sqrt(fourth.norm / scatter) < -UNLIKELY_DEVIATIONS
    } else {
        false
    };

    let few = |count: u32| f64::from(count) < ENOUGH_SHARE * f64::from(fit.readings_used);
    let no_beam = fit.m2.greatest < 1.0;
    let no_hyperbola = fit.higher_terms_chance < UNLIKELY;
    let reported = options.mark_dose_ratio != 0.0;
    let wide = fit.divergence_full_angle.value > 2.0 * crate::validity::CAUTION_HALF_ANGLE;
    let warnings = &mut fit.warnings;
    warnings.add(BeamWarnings::FEW_HEIGHTS, heights < ENOUGH_HEIGHTS);
    warnings.add(BeamWarnings::FEW_NEAR, few(fit.readings_near));
    warnings.add(BeamWarnings::FEW_FAR, few(fit.readings_far));
    warnings.add(BeamWarnings::WAIST_OUTSIDE, below == 0 || above == 0);
    warnings.add(BeamWarnings::ONE_SIDED, below < 2 || above < 2);
    warnings.add(BeamWarnings::M2_BELOW_ONE, fit.m2.value < 1.0);
    warnings.add(BeamWarnings::NO_BEAM, no_beam);
    warnings.add(BeamWarnings::NO_HYPERBOLA, no_hyperbola);
    warnings.add(BeamWarnings::MARK_WIDTHS, reported || no_beam || bends_down);
    warnings.add(BeamWarnings::SCATTER, fit.chi_squared_chance < UNLIKELY);
    warnings.add(BeamWarnings::LITTLE_SCATTER, fit.chi_squared_chance > 1.0 - UNLIKELY);
    warnings.add(BeamWarnings::WIDE_CONE, wide);
}
