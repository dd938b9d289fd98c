//! What the pieces tell: each kind of reading by itself.

use crate::readings::{Reading, WidthOf};
use crate::series_file::Series;
use spotwise::units::{m, w};
use spotwise::uom::si::f64::{Length, Power};
use spotwise::{
    Beam, BeamFit, BeamFitOptions, BeamParts, BeamReading, BeamWidth, Calibration, Error, EyeJudgement,
    GoodMark, MarkFit, MarkFitOptions, MarkKind, Offset, Prior, RankFocus, RankedPiece, SeenPiece,
    SeriesKnown, SeriesMark, VanishingFocus, WidthDiagnosis, WidthReading, WidthScatter, fit_beam,
    fit_mark_widths, focus_from_ranks, focus_from_vanishing,
};

/// Ranges are to hold the truth in this share of cases.
pub const CONFIDENCE: f64 = 0.95;
/// A mark off by more deviations than this is left out.
const OUTLIER_LIMIT: f64 = 3.0;

/// Everything that was found; nothing where there was nothing to read.
pub struct Findings {
    pub marks: Option<Result<MarkFinding, Error>>,
    pub beam: Option<Result<BeamFinding, Error>>,
    pub ranks: Option<Result<RankFocus, Error>>,
    pub vanishing: Option<Result<VanishingFocus, Error>>,
    /// There is something to read by eye, but no Rayleigh range is known to read it by.
    pub wants_range: bool,
    pub calibration: Option<Calibration>,
    pub suspect: Option<Result<WidthDiagnosis, Error>>,
}

/// A reading as the fits have it.
#[derive(Debug, Clone, Copy)]
pub struct Measured {
    pub height: Offset,
    /// None if no mark is to be seen.
    pub width: Option<Length>,
    pub deviation: Length,
    /// None if the file tells no power.
    pub power: Option<Power>,
    /// By how many deviations it is wider than the fit.
    pub residual: f64,
    pub used: bool,
}

/// What widths of marks tell.
pub struct MarkFinding {
    pub fit: MarkFit,
    /// Power at which the dose ratio of the fit holds; none if the file tells no power.
    pub reference: Option<Power>,
    pub readings: Vec<Measured>,
}

/// What widths of the beam tell.
pub struct BeamFinding {
    pub fit: BeamFit,
    pub readings: Vec<Measured>,
}

impl Findings {
    pub fn of(series: &Series) -> Result<Self, String> {
        let widths = measured(series)?;
        let (mut marks, mut beam) = (None, None);
        if !widths.is_empty() {
            match series.readings.width_of {
                WidthOf::Mark => marks = Some(read_marks(series, widths)),
                WidthOf::Beam => beam = Some(read_beam(series, widths)),
            }
        }
        let range = match (&marks, &beam) {
            (Some(Ok(found)), _) => Some(found.fit.rayleigh_range.value),
            (_, Some(Ok(found))) => Some(found.fit.rayleigh_range.value),
            _ => series.expected_rayleigh_range,
        };
        let (ranks, vanishing) = read_by_eye(series, range)?;
        let wants_range = range.is_none() && (!ranked(series)?.is_empty() || !seen(series)?.is_empty());
        let found = marks.as_ref().and_then(|marks| marks.as_ref().ok());
        let calibration = found.and_then(|found| calibration(series, found)).transpose()?;
        let suspect = found.and_then(|found| suspect(series, found));
        Ok(Self { marks, beam, ranks, vanishing, wants_range, calibration, suspect })
    }
}

/// The readings that have a width.
fn measured(series: &Series) -> Result<Vec<Measured>, String> {
    let with_width = series.readings.all.iter().filter_map(|reading| Some((reading, reading.width?)));
    with_width
        .map(|(reading, width)| {
            let deviation = reading.deviation.ok_or_else(|| {
                format!("the reading at {} mm has a width, but no deviation", reading.z * 1e3)
            })?;
            Ok(Measured {
                height: height_of(reading)?,
                width: (width != 0.0).then(|| m(width)),
                deviation: m(deviation),
                power: reading.power.map(w),
                residual: f64::NAN,
                used: false,
            })
        })
        .collect()
}

fn height_of(reading: &Reading) -> Result<Offset, String> {
    Offset::from_z_away_from_lens(m(reading.z)).map_err(|error| error.to_string())
}

fn read_marks(series: &Series, mut readings: Vec<Measured>) -> Result<MarkFinding, Error> {
    let reference = readings.iter().filter_map(|reading| reading.power).reduce(Power::min);
    let ratio = |reading: &Measured| match (reading.power, reference) {
        (Some(power), Some(reference)) => (power / reference).value,
        _ => 1.0,
    };
    let marks: Vec<SeriesMark> = readings
        .iter()
        .map(|reading| SeriesMark {
            height: reading.height,
            width: reading.width,
            deviation: reading.deviation,
            power_ratio: ratio(reading),
        })
        .collect();
    let known = SeriesKnown {
        kind: MarkKind::Line,
        wavelength: series.laser.wavelength,
        m_squared: series
            .m_squared_relative_deviation
            .map(|relative_deviation| Prior { value: series.laser.m_squared, relative_deviation }),
        waist: None,
    };
    let options = MarkFitOptions {
        outlier_limit: OUTLIER_LIMIT,
        confidence: CONFIDENCE,
        scatter: WidthScatter::Stated,
    };
    let (mut residuals, mut used) = (vec![0.0; marks.len()], vec![false; marks.len()]);
    let fit = fit_mark_widths(&marks, &known, &options, &mut residuals, &mut used)?;
    keep(&mut readings, &residuals, &used);
    Ok(MarkFinding { fit, reference, readings })
}

fn read_beam(series: &Series, mut readings: Vec<Measured>) -> Result<BeamFinding, Error> {
    // Where nothing was seen, there is no width to be fitted.
    readings.retain(|reading| reading.width.is_some());
    let widths = readings.iter().filter_map(|reading| {
        let width = BeamWidth::from_diameter_1e2(reading.width?);
        Some(width.map(|width| BeamReading { height: reading.height, width, deviation: reading.deviation }))
    });
    let widths: Vec<BeamReading> = widths.collect::<Result<_, _>>()?;
    let options =
        BeamFitOptions { outlier_limit: OUTLIER_LIMIT, confidence: CONFIDENCE, ..BeamFitOptions::default() };
    let (mut residuals, mut used) = (vec![Length::default(); widths.len()], vec![false; widths.len()]);
    let fit = fit_beam(&widths, series.laser.wavelength, &options, &mut residuals, &mut used)?;
    let by_deviation: Vec<f64> =
        residuals.iter().zip(&readings).map(|(off, reading)| (*off / reading.deviation).value).collect();
    keep(&mut readings, &by_deviation, &used);
    Ok(BeamFinding { fit, readings })
}

/// Writes beside each reading what the fit made of it.
fn keep(readings: &mut [Measured], residuals: &[f64], used: &[bool]) {
    for ((reading, residual), used) in readings.iter_mut().zip(residuals).zip(used) {
        reading.residual = *residual;
        reading.used = *used;
    }
}

/// Ranks and vanishing marks, as far as there are any.
type ByEye = (Option<Result<RankFocus, Error>>, Option<Result<VanishingFocus, Error>>);

/// What ranks tell, and where marks vanish. The range turns what an eye may be off by into heights; without one,
/// nothing is read by eye.
fn read_by_eye(series: &Series, rayleigh_range: Option<Length>) -> Result<ByEye, String> {
    let (ranked, seen) = (ranked(series)?, seen(series)?);
    let Some(rayleigh_range) = rayleigh_range else { return Ok((None, None)) };
    let judgement = EyeJudgement {
        rayleigh_range,
        relative_deviation: series.judgement_relative_deviation,
        coverage_probability: CONFIDENCE,
    };
    let ranks = (!ranked.is_empty()).then(|| focus_from_ranks(&ranked, judgement));
    let vanishing = (!seen.is_empty()).then(|| focus_from_vanishing(&seen, MarkKind::Line, judgement));
    Ok((ranks, vanishing))
}

/// The pieces that an eye has ranked.
fn ranked(series: &Series) -> Result<Vec<RankedPiece>, String> {
    let all = series.readings.all.iter();
    all.filter_map(|reading| {
        let rank = reading.rank?;
        Some(height_of(reading).map(|height| RankedPiece { height, rank }))
    })
    .collect()
}

/// Which pieces of the least power show a mark; none unless some do and some do not.
fn seen(series: &Series) -> Result<Vec<SeenPiece>, String> {
    let looked_at = || {
        series
            .readings
            .all
            .iter()
            .filter(|reading| series.readings.width_of == WidthOf::Mark && reading.width.is_some())
    };
    let least = looked_at().filter_map(|reading| reading.power).reduce(f64::min);
    let pieces: Vec<SeenPiece> = looked_at()
        .filter(|reading| reading.power == least)
        .map(|reading| {
            Ok(SeenPiece {
                height: height_of(reading)?,
                seen: reading.width.is_some_and(|width| width > 0.0),
            })
        })
        .collect::<Result<_, String>>()?;
    let some_vanished = pieces.iter().any(|piece| !piece.seen) && pieces.iter().any(|piece| piece.seen);
    Ok(if some_vanished { pieces } else { Vec::new() })
}

/// The machine as the pieces show it, where the file tells lens, speed and power.
fn calibration(series: &Series, found: &MarkFinding) -> Option<Result<Calibration, String>> {
    let (lens, speed, power) = (series.lens?, series.speed?, found.reference?);
    let calibration =
        Calibration::from_marks(&found.fit, series.laser.wavelength, lens.focal_length, power, speed);
    Some(calibration.map_err(|error| error.to_string()))
}

/// What is wrong with the suspect line, against a line in focus of the same power.
fn suspect(series: &Series, found: &MarkFinding) -> Option<Result<WidthDiagnosis, Error>> {
    let (suspect, reference) = (series.suspect?, found.reference?);
    let fit = &found.fit;
    let diagnose = || {
        let beam = fitted_beam(series.laser.wavelength, fit)?;
        let dose_ratio = fit.dose_ratio.value * (suspect.power.0 / reference).value;
        let width = beam.mark_width(MarkKind::Line, dose_ratio, Offset::ZERO)?.width;
        let good = GoodMark {
            kind: MarkKind::Line,
            dose_ratio,
            dose_ratio_deviation: fit.dose_ratio.deviation / fit.dose_ratio.value,
            width: WidthReading { width, deviation: suspect.deviation.0 },
        };
        let now = WidthReading { width: suspect.width.0, deviation: suspect.deviation.0 };
        beam.diagnose_width(&good, now, CONFIDENCE)
    };
    Some(diagnose())
}

/// The beam of a fit. Its caustic goes by the product of wavelength and M²; written as that of a longer wave it is
/// there also for an M² that noise has put below 1.
pub fn fitted_beam(wavelength: Length, fit: &MarkFit) -> Result<Beam, Error> {
    Beam::new(BeamParts {
        wavelength: wavelength * fit.m_squared.value,
        m_squared: 1.0,
        waist: fit.waist.value,
    })
}
