//! What would help, found by trying.

use super::found::DoseWindow;
use super::set_up::Preflight;
use crate::artwork::{self, Demand, TrialRoom, Watch};
use crate::error::Error;
use crate::typed::beam::Beam;
use crate::typed::offset::Offset;
use crate::typed::width::BeamWidth;
use crate::typed::{known, length};
use alloc::vec;
use alloc::vec::Vec;
use uom::si::f64::Length;

/// How far focus may be moved before the drawing no longer holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FocusReach {
    /// Farthest that the waist may lie nearer to the lens than it is.
    pub toward_lens: Length,
    /// Farthest that it may lie farther from the lens.
    pub away_from_lens: Length,
    /// Whether it held as far toward the lens as was tried: four Rayleigh ranges.
    pub toward_lens_is_open: bool,
    /// Whether it held as far away from the lens as was tried.
    pub away_from_lens_is_open: bool,
}

/// A beam to choose from, say that of another lens, and where its waist would be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeamToTry {
    /// The focused beam.
    pub beam: Beam,
    /// Where its waist would lie, from the datum of the surface.
    pub focus: Offset,
}

/// What a beam does for a drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RankedBeam {
    /// Its place among the candidates, from 0.
    pub candidate: usize,
    /// The doses between which the drawing keeps what it shows.
    pub window: DoseWindow,
    /// Greatest spot over the ink; none without ink, and for a beam too fine for the scan lines.
    pub greatest_spot: Option<BeamWidth>,
}

impl Preflight<'_> {
    /// How far the focus may be moved to either side before the drawing no longer holds at its dose; none if it does
    /// not hold as it is. Where scan lines lie farther apart than 2.5 of the least spot radius, it does not hold. As
    /// [`artwork::focus_reach`].
    ///
    /// # Errors
    /// As there.
    pub fn focus_reach(&self, demand: Demand, watch: &mut Watch<'_>) -> Result<Option<FocusReach>, Error> {
        let model = self.as_model();
        let words = artwork::focus_reach_words(&model, artwork::threads(), &mut watch.part(0.0, 0.02))?;
        let found = self
            .try_in(words, |room| artwork::focus_reach(&model, demand, room, &mut watch.part(0.02, 1.0)))?;
        Ok(known(found.toward_lens).map(|toward_lens| FocusReach {
            toward_lens: length(toward_lens),
            away_from_lens: length(found.away_from_lens),
            toward_lens_is_open: found.toward_lens_is_open,
            away_from_lens_is_open: found.away_from_lens_is_open,
        }))
    }

    /// The focus that makes the greatest spot over the ink least: half-way between its highest and its lowest place.
    /// As [`artwork::best_focus_z`].
    ///
    /// # Errors
    /// As there.
    pub fn best_focus(&self, watch: &mut Watch<'_>) -> Result<Offset, Error> {
        Offset::from_z_away_from_lens(length(artwork::best_focus_z(&self.as_model(), watch)?))
    }

    /// The smallest scale of the drawing about its middle at which it holds, 0.25 to 4; none if it holds nowhere up to 4.
    /// The lines of a raster that is burnt as it is go with its rows; those of other drawings stay as they are. As [`artwork::smallest_scale`].
    ///
    /// # Errors
    /// As there.
    pub fn smallest_scale(&self, demand: Demand, watch: &mut Watch<'_>) -> Result<Option<f64>, Error> {
        let model = self.as_model();
        let words = artwork::smallest_scale_words(&model, artwork::threads(), &mut watch.part(0.0, 0.02))?;
        let found = self.try_in(words, |room| {
            artwork::smallest_scale(&model, demand, room, &mut watch.part(0.02, 1.0))
        })?;
        Ok(known(found))
    }

    /// Ranks beams by the room that they leave the dose; the best comes first. A beam so fine that the scan lines lie
    /// farther apart than 2.5 of its radius comes after the others. As [`artwork::rank_beams`].
    ///
    /// # Errors
    /// As there.
    pub fn rank_beams(&self, beams: &[BeamToTry], watch: &mut Watch<'_>) -> Result<Vec<RankedBeam>, Error> {
        let model = self.as_model();
        let candidates: Vec<artwork::BeamCandidate> = beams
            .iter()
            .map(|beam| artwork::BeamCandidate { beam: *beam.beam.as_model(), focus_z: beam.focus.metres() })
            .collect();
        let words =
            artwork::rank_beams_words(&model, &candidates, artwork::threads(), &mut watch.part(0.0, 0.02))?;
        let mut ranking = vec![artwork::RankedBeam::NONE; beams.len()];
        self.try_in(words, |room| {
            artwork::rank_beams(&model, &candidates, &mut ranking, room, &mut watch.part(0.02, 1.0))
        })?;
        Ok(ranking
            .iter()
            .map(|found| RankedBeam {
                candidate: found.candidate,
                window: found.window,
                greatest_spot: known(found.greatest_diameter).map(BeamWidth::computed),
            })
            .collect())
    }

    fn try_in<T>(
        &self,
        words: usize,
        attempt: impl FnOnce(&mut TrialRoom<'_>) -> Result<T, Error>,
    ) -> Result<T, Error> {
        let mut exposure = vec![0; self.artwork.width * self.artwork.height];
        let mut words = vec![0; words];
        attempt(&mut TrialRoom { exposure: &mut exposure, words: &mut words })
    }
}
