//! A calibrated set-up: what test pieces told of a machine, in the terms in which jobs are checked.
//!
//! | symbol | meaning                                                        | unit | valid        |
//! |--------|----------------------------------------------------------------|------|--------------|
//! | λ      | vacuum wavelength                                              | m    | 1e-8 … 1e-2  |
//! | M²     | beam propagation ratio as measured; noise may put it below 1   | 1    | 0.01 … 1e4   |
//! | d₀     | waist **diameter** behind the lens as measured, 1/e²           | m    | 1e-9 … 10    |
//! | f      | focal length of the lens                                       | m    | 1e-5 … 1e4   |
//! | δ      | from the focal point to the waist, + away from the lens        | m    | ±1e4         |
//! | σ      | standard deviation of what was measured                        |      |              |
//! | k      | half width of a 95 % range over σ                              | 1    | 1.9 … 13     |
//! | P, v   | power on the surface and speed of the lines that were marked   | W, m/s |            |
//! | q      | dose on the middle of such a line in the waist over that which just marks | 1 | 1.000001 … 1e6 |
//! | ρ      | correlation of ln d₀ and ln q                                  | 1    | −1 … 1       |
//!
//! **The beam.** Light goes its way backwards as well: the raw beam that an ideal lens turns into the measured one
//! is the one into which it turns the measured beam, sent back. So it is
//! [`focus_through_lens`](crate::model::optics::focus_through_lens) of the measured beam, its waist f + δ before the
//! lens, and no formula of its own:
//!
//! h = √(δ² + z_R²), raw waist diameter = (f/h)·d₀, from there to the lens = f + (f/h)²·δ
//!
//! The raw beam stands for whatever really stands before the lens. Aberration and clipping are in the measured waist
//! and M² already, so the lens counts as ideal.
//!
//! **M².** No beam has less than 1, yet a fit to marks that scatter may. Where 1 is within the 95 % range,
//! M² ≥ 1 − k·σ, it is taken for 1 and the waist is kept; below that the measurement contradicts itself.
//!
//! **The threshold.** H_t = √(8/π)·P/(v·d₀·q), the line dose of [`scan_dose`](crate::model::mark::scan_dose) over q.
//! Where doses of lines add up, as everywhere in [`model::mark`](crate::model::mark), it is also the fill dose at which
//! the material just marks.
//! (σ_H/H_t)² = s² + σ_q² + 2·ρ·s·σ_q with s = σ_d/d₀, σ_q that of ln q: first order in the logarithms \[1\] 5.2.2.
//! In a fit to mark widths ρ is negative: a larger spot and a weaker line leave marks alike.
//!
//! **Deviations** are handed on so that ±1.959964 of them are the 95 % range: times k/1.959964. Where the scatter
//! of few marks told σ, k is the factor of Student's t, and the whole is a little wider than σ \[1\] G.3.
//!
//! \[1\] JCGM 100:2008, *Guide to the expression of uncertainty in measurement* (GUM); clauses from memory.
//! Not modelled: an error of the scale of power or speed (it cancels in jobs that are stated on the same scale), of the
//! focal length, incubation.

use crate::error::{Error, Param, check, check_within, within_model};
use crate::model::optics::{Beam, BeforeLens, checked_beam, focus_of};
use crate::model::twofold::Twofold;
use crate::validity::Validity;

/// Half width of a 95 % range over the standard deviation of a normal law, √2·erfinv(0.95): the coverage factor of
/// deviations that were known before the measurement.
pub const NORMAL_FACTOR_95: f64 = 1.959_963_984_540_054_3;
/// What that number leaves of its exact value.
const NORMAL_FACTOR_95_REST: f64 = -3.595_246_643_491_566e-17;

/// What test pieces told of the focused beam and of the height of focus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LearnedFocus {
    /// Vacuum wavelength in metres.
    pub wavelength: f64,
    /// M² as measured; it may be below 1 by noise.
    pub measured_m2: f64,
    /// Standard deviation of M².
    pub m2_deviation: f64,
    /// Waist **diameter** behind the lens as measured, in metres, 1/e² (D4σ).
    pub waist_diameter: f64,
    /// Focal length of the lens that was used, in metres, at the working wavelength.
    pub focal_length: f64,
    /// From the focal point of the lens to the waist in metres, + away from the lens: 0 unless the distance from the
    /// lens to the waist was measured too. It changes the raw beam, and with the same lens nothing else.
    pub focus_shift: f64,
    /// Standard deviation of the height at which the waist was found, in metres.
    pub focus_deviation: f64,
    /// Half width of a 95 % range over these deviations: [`NORMAL_FACTOR_95`] where the deviations of the marks were
    /// known, that of [`student_factor`](super::student_factor) where the scatter of the marks told them.
    pub coverage_factor_95: f64,
}

impl LearnedFocus {
    /// Refuses a job of another wavelength than that of its calibration.
    ///
    /// # Errors
    /// [`Error::NotFinite`] or [`Error::OutOfRange`] unless both are the same.
    pub fn check_same_wavelength(of_calibration: f64, of_job: f64) -> Result<f64, Error> {
        check_within(Param::Wavelength, of_job, of_calibration, of_calibration)
    }
}

/// The set-up in which a job gets the measured focus: its M², its raw beam and how well its height of focus is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CalibratedSetUp {
    /// Beam propagation ratio M²: as measured, or 1 where noise has put it below.
    pub m2: f64,
    /// **Diameter** of the raw waist in metres, 1/e² (D4σ).
    pub raw_waist_diameter: f64,
    /// From the raw waist to the lens in metres, + when the waist lies upstream.
    pub waist_to_lens: f64,
    /// Diameter of the raw beam where it meets the lens, in metres, 1/e² (D4σ).
    pub diameter_at_lens: f64,
    /// Rayleigh range of the focus in metres.
    pub rayleigh_range: f64,
    /// Standard deviation of a normal law with the same 95 % range of the height of focus, in metres: the half width
    /// of a normal [`Contribution`](crate::model::surface::Contribution) with a coverage factor of 1.
    pub focus_deviation: f64,
    /// Greatest 1/e² half angle before and behind the lens, in radians.
    pub half_angle: f64,
    /// How far the paraxial formulas may be trusted.
    pub validity: Validity,
}

/// The set-up of which the focus is the one that test pieces found.
///
/// [`focus_check`](crate::model::check::focus_check) of a job with this M², a
/// [`RawBeam::Waist`](crate::model::check::RawBeam::Waist) of this diameter and distance, an ideal lens of this focal
/// length, and focus at the height that was found has the measured waist. With another lens the raw beam
/// and M² are carried over, but neither the height of focus nor the aberration of either lens.
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/calibrated_set_up.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the fields. Then [`Error::OutsideModel`] for an M²
/// that is below 1 even at the end of its 95 % range ([`Param::MeasuredM2`], with the least that its deviation allows):
/// mark widths taken for beam widths, a radius for a diameter, or a deviation stated too small; for a half angle above
/// 0.3 rad, a waist at the lens or before it ([`Param::LensToWaist`]), and a raw beam beyond the range of
/// [`Param::WaistDiameter`] or [`Param::WaistToLens`].
///
/// # Example
/// ```
/// use spotwise::model::learn::{LearnedFocus, NORMAL_FACTOR_95, calibrated_set_up};
/// // A waist of 95 µm behind a lens of 38.1 mm (1.5 inch).
/// let set_up = calibrated_set_up(&LearnedFocus {
///     wavelength: 10.6e-6,
///     measured_m2: 1.2,
///     m2_deviation: 0.05,
///     waist_diameter: 95e-6,
///     focal_length: 38.1e-3,
///     focus_shift: 0.0,
///     focus_deviation: 20e-6,
///     coverage_factor_95: NORMAL_FACTOR_95,
/// })?;
/// // z_R = π·95²/(4·1.2·10.6) µm = 557.2499 µm, and 95 µm·38.1 mm/z_R = 6.495291 mm in the front focal plane.
/// assert_eq!((set_up.rayleigh_range * 1e10).round(), 5_572_499.0);
/// assert_eq!((set_up.raw_waist_diameter * 1e9).round(), 6_495_291.0);
/// assert_eq!((set_up.waist_to_lens, set_up.focus_deviation), (38.1e-3, 20e-6));
/// # Ok::<(), spotwise::Error>(())
/// ```
#[doc(alias = "machine profile")]
#[must_use = "the set-up is the result"]
pub fn calibrated_set_up(learned: &LearnedFocus) -> Result<CalibratedSetUp, Error> {
    let wavelength = check(Param::Wavelength, learned.wavelength)?;
    let measured_m2 = check(Param::MeasuredM2, learned.measured_m2)?;
    let m2_deviation = check(Param::M2Deviation, learned.m2_deviation)?;
    let waist_diameter = check(Param::WaistDiameter, learned.waist_diameter)?;
    let focal_length = check(Param::FocalLength, learned.focal_length)?;
    let focus_shift = check(Param::FocusShift, learned.focus_shift)?;
    let focus_deviation = check(Param::FocusDeviation, learned.focus_deviation)?;
    let factor = check(Param::CoverageFactor95, learned.coverage_factor_95)?;
    let m2 = possible_m2(measured_m2, m2_deviation, factor)?;

    let beam = checked_beam(&Beam { wavelength, m2, waist_diameter })?;
    let waist_to_lens = Twofold::sum(focal_length, focus_shift);
    within_model(Param::LensToWaist, waist_to_lens.to_f64())?;
    let sent_back = BeforeLens { wavelength, m2, beam, waist_to_lens };
    let raw = focus_of(&sent_back, focal_length)?.focused;
    within_model(Param::WaistToLens, raw.lens_to_waist)?;
    Ok(CalibratedSetUp {
        m2,
        raw_waist_diameter: raw.waist_diameter,
        waist_to_lens: raw.lens_to_waist,
        diameter_at_lens: raw.diameter_at_lens,
        rayleigh_range: beam.rayleigh_range.to_f64(),
        focus_deviation: (Twofold::from(focus_deviation) * widened(factor)).to_f64(),
        half_angle: raw.half_angle,
        validity: raw.validity,
    })
}

/// M², or 1 where it is below that by no more than its 95 % range.
fn possible_m2(measured: f64, deviation: f64, factor: f64) -> Result<f64, Error> {
    let least = 1.0 - factor * deviation;
    if measured >= 1.0 {
        Ok(measured)
    } else if measured >= least {
        Ok(1.0)
    } else {
        let (_, greatest) = Param::MeasuredM2.range();
        Err(Error::OutsideModel { param: Param::MeasuredM2, value: measured, least, greatest })
    }
}

/// By how much a normal law with the same 95 % range is wider than its deviation says: k/1.959964.
fn widened(factor: f64) -> Twofold {
    Twofold::from(factor) / Twofold::sum(NORMAL_FACTOR_95, NORMAL_FACTOR_95_REST)
}

/// What test pieces told of a line that the scan marks in the waist.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LearnedLine {
    /// Power on the surface in watts, averaged over pulses.
    pub power: f64,
    /// Speed along the line in m/s.
    pub speed: f64,
    /// Waist **diameter** as measured, in metres, 1/e² (D4σ).
    pub waist_diameter: f64,
    /// Its standard deviation in metres.
    pub waist_diameter_deviation: f64,
    /// Dose on the middle of the line in the waist over that at which the material just marks.
    pub dose_ratio: f64,
    /// Standard deviation of the dose ratio over itself.
    pub relative_dose_ratio_deviation: f64,
    /// Correlation of the logarithms of waist diameter and dose ratio.
    pub correlation: f64,
    /// As [`LearnedFocus::coverage_factor_95`].
    pub coverage_factor_95: f64,
}

/// The dose at which the material just marks, as test pieces told it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LearnedThreshold {
    /// Line dose at which the material just marks, in J/m²; also its fill dose.
    pub threshold: f64,
    /// Standard deviation over the threshold of a normal law with the same 95 % range.
    pub relative_deviation: f64,
}

/// The dose at which the material just marks, from what a line in the waist has of it.
///
/// H_t = √(8/π)·P/(v·d₀·q), its deviation by the full covariance of d₀ and q; sources in the [module](self).
///
/// Accuracy: at most 0.75 ulp (`tests/vectors/learned_threshold.csv`).
///
/// # Errors
/// [`Error::NotFinite`] or [`Error::OutOfRange`], in the order of the fields; [`Error::OutsideModel`] for a threshold
/// beyond its range.
///
/// # Example
/// ```
/// use spotwise::model::learn::{LearnedLine, NORMAL_FACTOR_95, learned_threshold};
/// let learned = learned_threshold(&LearnedLine {
///     power: 18.0,
///     speed: 0.4,
///     waist_diameter: 95e-6,
///     waist_diameter_deviation: 1.5e-6,
///     dose_ratio: 4.2,
///     relative_dose_ratio_deviation: 0.03,
///     correlation: -0.6,
///     coverage_factor_95: NORMAL_FACTOR_95,
/// })?;
/// // √(2/π)·18/(0.4·47.5e-6) = 755 890.64 J/m², over 4.2.
/// assert_eq!((learned.threshold * 10.0).round(), 1_799_740.0); // 0.18 J/mm²
/// // √(0.015789² + 0.03² − 1.2·0.015789·0.03) = 0.0241
/// assert_eq!((learned.relative_deviation * 1e6).round(), 24_102.0);
/// # Ok::<(), spotwise::Error>(())
/// ```
#[must_use = "the threshold is the result"]
pub fn learned_threshold(learned: &LearnedLine) -> Result<LearnedThreshold, Error> {
    let power = check(Param::Power, learned.power)?;
    let speed = check(Param::Speed, learned.speed)?;
    let diameter = check(Param::WaistDiameter, learned.waist_diameter)?;
    let diameter_deviation = check(Param::WaistDiameterDeviation, learned.waist_diameter_deviation)?;
    let q = check(Param::DoseRatio, learned.dose_ratio)?;
    let q_deviation = check(Param::RelativeDoseRatioDeviation, learned.relative_dose_ratio_deviation)?;
    let correlation = check(Param::Correlation, learned.correlation)?;
    let factor = check(Param::CoverageFactor95, learned.coverage_factor_95)?;

    // H_t = √(8/π)·P/(v·d₀·q)
    let root = (Twofold::from(8.0) / Twofold::PI).square_root();
    let threshold = root * Twofold::from(power) / (Twofold::product(speed, diameter) * Twofold::from(q));
    let threshold = within_model(Param::Threshold, threshold.to_f64())?;

    // s² + σ² + 2·ρ·s·σ = (s + ρ·σ)² + (1 − ρ)·(1 + ρ)·σ², where nothing cancels but what should.
    let (s, sigma) =
        (Twofold::from(diameter_deviation) / Twofold::from(diameter), Twofold::from(q_deviation));
    let rest = Twofold::sum(1.0, -correlation) * Twofold::sum(1.0, correlation) * sigma.squared();
    let variance = (s + Twofold::product(correlation, q_deviation)).squared() + rest;
    let relative_deviation = (variance.square_root() * widened(factor)).to_f64();
    Ok(LearnedThreshold { threshold, relative_deviation })
}
