//! The preflight of the drawing: what mark comes out as the job is set, and what would help.

use crate::artwork::{Detail, Drawing};
use crate::part::Part;
use crate::progress::watched;
use spotwise::uom::si::f64::Length;
use spotwise::uom::si::length::meter;
use spotwise::{
    BeamToTry, FocusReach, FocusSetting, Job, JobLens, Offset, Preflight, PreflightVerdict, QuickAnswer,
    RankedBeam, RasterScan,
};

/// What the preflight finds, and what would help.
pub struct MarkCheck<'a> {
    pub drawing: &'a Drawing,
    /// What distances alone say of it as the job is set.
    pub at_once: QuickAnswer,
    pub as_set: Marked<'a>,
    /// With focus half-way between the highest and the lowest place under the ink.
    pub at_best_focus: Marked<'a>,
    /// How far focus may be off its best before the drawing no longer holds; none if it does not hold there.
    pub reach: Option<FocusReach>,
    /// The smallest scale at which the drawing holds as the job is set; none if it holds at none that was tried.
    pub smallest_scale: Option<f64>,
    /// The drawing's details, each as if it stood alone.
    pub details: Vec<DetailMarked<'a>>,
    /// The lenses to choose from with focus at its best, the best first.
    pub lenses: Vec<LensTried>,
}

/// A preflight and what came of it.
pub struct Marked<'a> {
    pub preflight: Preflight<'a>,
    pub verdict: PreflightVerdict,
}

/// What comes of a part of the drawing.
pub struct DetailMarked<'a> {
    pub detail: &'a Detail,
    pub as_set: Marked<'a>,
    pub at_best_focus: Marked<'a>,
}

/// A lens to choose from.
pub struct LensTried {
    pub focal_length: Length,
    pub ranked: RankedBeam,
}

impl<'a> MarkCheck<'a> {
    /// Tells at once what is sure before the long work.
    pub fn of(
        job: &Job,
        drawing: &'a Drawing,
        part: &'a Part,
        lenses: &[JobLens],
        tell_at_once: impl FnOnce(&QuickAnswer),
    ) -> Result<Self, spotwise::Error> {
        let preflight = job.preflight(drawing.artwork(), part.surface(), &drawing.marking)?;
        let at_once = watched("what is sure", |watch| preflight.quick_answer(watch))?;
        tell_at_once(&at_once);
        let as_set = Marked::of(preflight)?;
        let mut best = preflight;
        best.drawn_on.focus = watched("the best focus", |watch| preflight.best_focus(watch))?;
        let at_best_focus = Marked::of(best)?;
        let demand = drawing.demand;
        let reach = watched("how far focus may stray", |watch| best.focus_reach(demand, watch))?;
        let smallest_scale = watched("the smallest scale", |watch| preflight.smallest_scale(demand, watch))?;
        let details = drawing
            .details
            .iter()
            .map(|detail| {
                let as_set = Marked::of(part_of(&preflight, drawing, detail))?;
                let at_best_focus = Marked::of(part_of(&best, drawing, detail))?;
                Ok(DetailMarked { detail, as_set, at_best_focus })
            })
            .collect::<Result<_, spotwise::Error>>()?;
        let beams = lenses
            .iter()
            .map(|lens| {
                // Where the job has its focus is no matter: each lens gets the best.
                let job = Job { lens: *lens, focus: FocusSetting::FromDatum(Offset::ZERO), ..*job };
                let with = job.preflight(drawing.artwork(), part.surface(), &drawing.marking)?;
                Ok(BeamToTry { beam: with.drawn_on.beam, focus: best.drawn_on.focus })
            })
            .collect::<Result<Vec<_>, spotwise::Error>>()?;
        let ranking = watched("the lenses", |watch| best.rank_beams(&beams, watch))?;
        let lenses = ranking
            .into_iter()
            .filter_map(|ranked| {
                let focal_length = lenses.get(ranked.candidate)?.focal_length;
                Some(LensTried { focal_length, ranked })
            })
            .collect();
        Ok(Self { drawing, at_once, as_set, at_best_focus, reach, smallest_scale, details, lenses })
    }
}

impl<'a> Marked<'a> {
    fn of(preflight: Preflight<'a>) -> Result<Self, spotwise::Error> {
        let verdict = watched("the mark", |watch| preflight.run(watch))?;
        Ok(Self { preflight, verdict })
    }
}

/// The preflight of a detail alone: same light, same lines.
fn part_of<'a>(whole: &Preflight<'a>, drawing: &'a Drawing, detail: &Detail) -> Preflight<'a> {
    let mut part = *whole;
    part.artwork = drawing.artwork_of(detail);
    if let RasterScan::AlongRows { line_interval, first_line } = &mut part.drawn_on.scan {
        // The first line at or below the upper edge of the detail.
        let above = drawing.pitch * f64::from(detail.extent.top);
        let beyond = (*first_line - above).value.rem_euclid(line_interval.length().value);
        *first_line = Length::new::<meter>(beyond);
    }
    part
}
