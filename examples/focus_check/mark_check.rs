//! The preflight of the drawing: what mark comes out as the job is set, and what would help.

use crate::artwork::Drawing;
use crate::part::Part;
use crate::progress::watched;
use spotwise::uom::si::f64::Length;
use spotwise::{
    BeamToTry, FocusReach, FocusSetting, Job, JobLens, Offset, Preflight, PreflightVerdict, RankedBeam,
};

/// What the preflight finds, and what would help.
pub struct MarkCheck<'a> {
    pub drawing: &'a Drawing,
    pub as_set: Marked<'a>,
    /// With focus half-way between the highest and the lowest place under the ink.
    pub at_best_focus: Marked<'a>,
    /// How far focus may be off its best before the drawing no longer holds; none if it does not hold there.
    pub reach: Option<FocusReach>,
    /// The smallest scale at which the drawing holds as the job is set; none if it holds at none that was tried.
    pub smallest_scale: Option<f64>,
    /// The lenses to choose from with focus at its best, the best first.
    pub lenses: Vec<LensTried>,
}

/// A preflight and what came of it.
pub struct Marked<'a> {
    pub preflight: Preflight<'a>,
    pub verdict: PreflightVerdict,
}

/// A lens to choose from.
pub struct LensTried {
    pub focal_length: Length,
    pub ranked: RankedBeam,
}

impl<'a> MarkCheck<'a> {
    pub fn of(
        job: &Job,
        drawing: &'a Drawing,
        part: &'a Part,
        lenses: &[JobLens],
    ) -> Result<Self, spotwise::Error> {
        let preflight = job.preflight(drawing.artwork(), part.surface(), &drawing.marking)?;
        let verdict = watched("the mark", |watch| preflight.run(watch))?;
        let mut best = preflight;
        best.drawn_on.focus = watched("the best focus", |watch| preflight.best_focus(watch))?;
        let at_best_focus = Marked {
            preflight: best,
            verdict: watched("the mark at the best focus", |watch| best.run(watch))?,
        };
        let demand = drawing.demand;
        let reach = watched("how far focus may stray", |watch| best.focus_reach(demand, watch))?;
        let smallest_scale = watched("the smallest scale", |watch| preflight.smallest_scale(demand, watch))?;
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
        let as_set = Marked { preflight, verdict };
        Ok(Self { drawing, as_set, at_best_focus, reach, smallest_scale, lenses })
    }
}
