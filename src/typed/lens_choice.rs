//! Which lens serves a job best, and where the caustics of two beams cross.

use super::beam::Beam;
use super::depth::FocusRange;
use super::job::{Job, JobLens};
use super::offset::Offset;
use super::verdict::{Place, place};
use super::width::BeamWidth;
use super::{angle, length};
use crate::error::Error;
use crate::model::check::Outcome;
use crate::model::focus::{self, Sharper, caustic_crossing};
use crate::model::lens_choice::{self as model, LensReasons};
use crate::validity::Validity;
use uom::si::f64::{Angle, Length};

/// Where the spots of two beams are equally large.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossing {
    /// Distance from the common waist, on either side.
    pub distance_from_waist: Length,
    /// Spot of both there.
    pub spot: BeamWidth,
}

impl Crossing {
    fn from_model(crossing: focus::Crossing) -> Self {
        Self { distance_from_waist: length(crossing.offset), spot: BeamWidth::computed(crossing.diameter) }
    }
}

/// Which of two beams is the sharper, and where that changes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CausticCrossing {
    /// Where their spots are equally large; none if one beam is the sharper everywhere, or the two are alike.
    pub crossing: Option<Crossing>,
    /// Which has the smaller waist.
    pub sharper_in_focus: Sharper,
    /// Which has the smaller spot far from the waist.
    pub sharper_far_off: Sharper,
    /// Greatest 1/e² half angle of both.
    pub half_angle: Angle,
    /// How far the paraxial formulas may be trusted.
    pub validity: Validity,
}

impl Beam {
    /// Which of two beams with their waists at one height has the smaller spot, and the distance beyond which it
    /// is the other. This beam is the first. As
    /// [`model::focus::caustic_crossing`](crate::model::focus::caustic_crossing).
    ///
    /// # Errors
    /// None for beams that were built; the model's own checks are made all the same.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::um;
    /// use spotwise::{Beam, BeamParts, BeamWidth};
    /// let behind_a_lens = |waist| -> Result<Beam, spotwise::Error> {
    ///     let waist = BeamWidth::from_diameter_1e2(um(waist))?;
    ///     Beam::new(BeamParts { wavelength: um(10.6), m_squared: 1.0, waist })
    /// };
    /// let found = behind_a_lens(85.0)?.crossing_with(&behind_a_lens(142.0)?)?;
    /// let crossing = found.crossing.expect("the longer lens spreads less");
    /// // The Rayleigh ranges are 535.3 and 1494.0 µm, the root of their product 894 µm.
    /// assert_eq!((crossing.distance_from_waist.value * 1e6).round(), 894.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[doc(alias = "caustic")]
    pub fn crossing_with(&self, second: &Self) -> Result<CausticCrossing, Error> {
        let found = caustic_crossing(self.as_model(), second.as_model())?;
        Ok(CausticCrossing {
            crossing: found.crossing.map(Crossing::from_model),
            sharper_in_focus: found.sharper_in_focus,
            sharper_far_off: found.sharper_far_off,
            half_angle: angle(found.half_angle),
            validity: found.validity,
        })
    }
}

/// A lens that might serve a job.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LensCandidate {
    /// The lens.
    pub lens: JobLens,
    /// From the lowest part of lens, mount and nozzle to a flat surface in focus, 0 to 10 km. One greater than from
    /// the lens to its focus is flagged: [`LensReasons::WORKING_DISTANCE_BEYOND_FOCUS`].
    pub working_distance: Length,
}

impl LensCandidate {
    fn as_model(&self) -> model::LensCandidate {
        model::LensCandidate {
            focal_length: self.lens.focal_length.value,
            lens: self.lens.as_model(),
            working_distance: self.working_distance.value,
        }
    }
}

/// What comes on top of the surface of a job, and what must be left of the working distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SetUp {
    /// Half width of all errors of height together, 0 to 1 km: it widens the surface at both ends. A
    /// [`ToleranceStack`](crate::ToleranceStack) tells it, as the greater distance of its two ends, worst or expanded:
    /// its half width alone leaves the bias out.
    pub tolerance: Length,
    /// Least clearance over the highest place, 0 to 10 km.
    pub least_clearance: Length,
}

/// What a lens does on the surface of a job, focus at mid-height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LensFindings {
    /// What [`Job::check`] says of it.
    pub outcome: Outcome,
    /// The spot in focus, that of 86.5 % of the power for a real lens.
    pub spot_in_focus: BeamWidth,
    /// Distance from the waist at which its width has grown by √2.
    pub rayleigh_range: Length,
    /// From the lens to the waist.
    pub lens_to_waist: Length,
    /// The depth of focus; none if even the waist is wider than the largest spot allowed.
    pub depth: Option<FocusRange>,
    /// The worst places: the lower one, which is as far from the waist as the upper one.
    pub worst: Place,
    /// By how much farther the surface might reach to either side with stroke, gap and text still holding;
    /// **negative** by how much too far it does. None if they do not even hold in focus.
    pub spare_half_span: Option<Length>,
    /// What is left between the lowest part of the head and the highest place; **negative** if they collide.
    pub clearance: Length,
    /// How far the numbers may be trusted.
    pub validity: Validity,
}

/// Where a lens stands among the others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LensRanking {
    /// Its place in the order, 1 for the best; 0 before it is filled and where the call failed.
    pub rank: u32,
    /// Why; [`LensReasons::texts`] says it in sentences.
    pub reasons: LensReasons,
    /// What it does, or why the model cannot tell.
    pub found: Result<LensFindings, Error>,
}

impl LensRanking {
    /// What stands in an array before it is filled.
    pub const BLANK: Self = {
        let model::LensRanking { rank, reasons, found } = model::LensRanking::BLANK;
        match found {
            Err(error) => Self { rank, reasons, found: Err(error) },
            Ok(_) => panic!("a blank entry has found nothing"),
        }
    };

    fn from_model(ranking: &model::LensRanking) -> Self {
        Self {
            rank: ranking.rank,
            reasons: ranking.reasons,
            found: ranking.found.map(|found| LensFindings {
                outcome: found.outcome,
                spot_in_focus: BeamWidth::computed(found.waist_diameter),
                rayleigh_range: length(found.rayleigh_range),
                lens_to_waist: length(found.lens_to_waist),
                depth: found.depth.map(FocusRange::from_model),
                worst: place(&found.worst),
                spare_half_span: found.spare_half_span.map(length),
                clearance: length(found.clearance),
                validity: found.validity,
            }),
        }
    }
}

/// What a choice of lenses comes to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LensChoice {
    /// How many lenses serve.
    pub serving: u32,
    /// The place of the first in order among the candidates, from 0 on. It serves if any does.
    pub best: usize,
    /// Where focus is set, from the datum: at mid-height of the surface.
    pub focus_from_datum: Offset,
    /// How far the worst places lie from the waist, tolerance included.
    pub half_span: Length,
    /// Where the spots of the first two in order are equally large.
    pub crossing: Option<Crossing>,
    /// The span of the surface, highest to lowest without the tolerance, at which the worst spots of these two
    /// swap.
    pub flip_span: Option<Length>,
}

impl Job {
    /// Ranks the lenses that might serve this job, with reasons, and says where the first two would swap; focus is
    /// at mid-height of the surface for every lens. The job's own lens and focus are not looked at.
    /// `rankings[i]` belongs to `candidates[i]`. As
    /// [`model::lens_choice::choose_lens`](crate::model::lens_choice::choose_lens).
    ///
    /// # Errors
    /// As there; every entry of `rankings` then holds the error. Of a lens that the model cannot follow only its
    /// own entry holds one.
    ///
    /// # Example
    /// ```
    /// use spotwise::units::{inch, mm, um};
    /// use spotwise::{
    ///     BeamWidth, Criterion, Drawing, FocusSetting, Job, JobDose, Laser, Lens, LensCandidate, LensRanking,
    ///     LensReasons, Offset, RawBeam, SetUp, SurfaceExtent,
    /// };
    /// let job = Job {
    ///     laser: Laser { wavelength: um(10.6), m_squared: 1.2 },
    ///     raw_beam: RawBeam::WidthAtLens(BeamWidth::from_diameter_1e2(mm(7.0))?),
    ///     lens: Lens::new(inch(1.5)).into(),
    ///     focus: FocusSetting::FromDatum(Offset::ZERO),
    ///     surface: SurfaceExtent { rise: mm(0.8), fall: mm(1.2) }, // a bowed part
    ///     depth_criterion: Criterion::Rayleigh,
    ///     drawing: Drawing { finest_stroke: mm(0.15), finest_gap: mm(0.15) },
    ///     dose: JobDose::Ratio(2.7),
    ///     text: None,
    /// };
    /// let lenses = [(1.5, 25.0), (2.5, 50.0)].map(|(focal_length, gap)| LensCandidate {
    ///     lens: Lens::new(inch(focal_length)).into(),
    ///     working_distance: mm(gap),
    /// });
    /// let set_up = SetUp { tolerance: mm(0.2), least_clearance: mm(3.0) };
    /// let mut rankings = [LensRanking::BLANK; 2];
    /// let choice = job.choose_lens(&lenses, set_up, &mut rankings)?;
    /// assert_eq!(choice.best, 1); // the longer lens, although its spot in focus is larger
    /// assert!(rankings[0].reasons.contains(LensReasons::SMALLEST_IN_FOCUS));
    /// // On parts that span less than 2·(0.7994 − 0.2) mm it is the shorter one.
    /// assert_eq!((choice.flip_span.unwrap().value * 1e6).round(), 1199.0);
    /// # Ok::<(), spotwise::Error>(())
    /// ```
    #[doc(alias = "which lens")]
    pub fn choose_lens(
        &self,
        candidates: &[LensCandidate],
        set_up: SetUp,
        rankings: &mut [LensRanking],
    ) -> Result<LensChoice, Error> {
        let chosen = self.choose(candidates, set_up, rankings);
        if let Err(error) = chosen {
            rankings.fill(LensRanking { found: Err(error), ..LensRanking::BLANK });
        }
        chosen
    }

    fn choose(
        &self,
        candidates: &[LensCandidate],
        set_up: SetUp,
        rankings: &mut [LensRanking],
    ) -> Result<LensChoice, Error> {
        let set_up =
            model::SetUp { tolerance: set_up.tolerance.value, least_clearance: set_up.least_clearance.value };
        // Room for as many as one call takes; the model refuses more, and answers that do not fit.
        let most = model::MOST_LENSES;
        let nothing = model::LensCandidate {
            focal_length: f64::NAN,
            lens: crate::model::check::JobLens::Ideal,
            working_distance: f64::NAN,
        };
        let mut lenses = [nothing; model::MOST_LENSES + 1];
        for (lens, candidate) in lenses.iter_mut().zip(candidates) {
            *lens = candidate.as_model();
        }
        let mut found = [model::LensRanking::BLANK; model::MOST_LENSES + 1];
        let lenses = lenses.get(..candidates.len().min(most + 1)).unwrap_or(&[]);
        let answers = found.get_mut(..rankings.len().min(most + 1)).unwrap_or(&mut []);
        let choice = model::choose_lens(&self.as_model()?, lenses, &set_up, answers)?;
        for (ranking, found) in rankings.iter_mut().zip(answers) {
            *ranking = LensRanking::from_model(found);
        }
        Ok(LensChoice {
            serving: choice.serving,
            best: choice.best,
            focus_from_datum: Offset::from_metres(choice.focus_z),
            half_span: length(choice.half_span),
            crossing: choice.crossing.map(Crossing::from_model),
            flip_span: choice.flip_span.map(length),
        })
    }
}
