//! Which of several beams serves a drawing best.

use super::drawing::spotwise_drawing;
use super::exposing::spotwise_exposing;
use super::marking::spotwise_marking;
use super::memory::{Input, Output, first};
use super::preflight::Asked;
use super::remedies::Room;
use super::watch::{spotwise_tell, watched};
use super::window::spotwise_dose_window_result;
use crate::abi::{Fault, Plain, error_pointer_fault, init, plain, pointer_fault, report, report_alone};
use crate::arrays::{array_fault, structs_fault};
use crate::beam::spotwise_beam;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use core::ffi::c_void;
use spotwise::Param;
use spotwise::artwork::{BeamCandidate, RankedBeam, rank_beams, rank_beams_words};
use spotwise::model::optics::Beam;

/// The most beams of one call of spotwise_rank_beams().
pub const SPOTWISE_MOST_BEAMS: u32 = 64;

/// A beam to choose from, say that of another lens, and where its waist would be.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_beam_candidate {
    /// Size of this struct; spotwise_beam_candidate_init() sets it, and that of the beam.
    pub struct_size: u32,
    /// Set to 0.
    pub reserved: u32,
    /// Height of its waist in metres, + away from the lens; range: SPOTWISE_PARAM_FOCUS_Z.
    pub focus_z_m: f64,
    /// The focused beam.
    pub beam: spotwise_beam,
}
plain!(
    spotwise_beam_candidate, 48 bytes,
    words: [reserved],
    numbers: [focus_z_m],
    nested: [beam: spotwise_beam]
);

/// Sets struct_size, also of the beam, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_beam_candidate_init(candidate: *mut spotwise_beam_candidate) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(candidate) }
}

/// What a candidate does for a drawing.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_ranked_beam {
    /// Size of this struct; spotwise_ranked_beam_init() sets it, and that of the window.
    pub struct_size: u32,
    /// Its place among the candidates, from 0 on.
    pub candidate: u32,
    /// Greatest spot DIAMETER over the ink in metres; NaN without ink, and for a beam too fine for the scan lines.
    pub greatest_diameter_m: f64,
    /// The doses between which the drawing keeps what it shows.
    pub window: spotwise_dose_window_result,
}
plain!(
    spotwise_ranked_beam, 64 bytes,
    words: [candidate],
    numbers: [greatest_diameter_m],
    nested: [window: spotwise_dose_window_result]
);

impl From<RankedBeam> for spotwise_ranked_beam {
    fn from(beam: RankedBeam) -> Self {
        Self {
            // Below the number of beams of one call.
            candidate: beam.candidate as u32,
            greatest_diameter_m: beam.greatest_diameter,
            window: beam.window.into(),
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, also of the window, candidate to 0, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_ranked_beam_init(beam: *mut spotwise_ranked_beam) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(beam) }
}

/// How many 64-bit words of workspace spotwise_rank_beams() needs.
///
/// @param[in]  drawing    drawing, set with spotwise_drawing_init() and filled in; not NULL.
/// @param[in]  exposing   what exposes it, set with spotwise_exposing_init() and filled in; not NULL. Its own beam and
///                        focus_z_m are not read.
/// @param[in]  marking    what answers, set with spotwise_marking_init() and filled in; not NULL.
/// @param[in]  candidates the beams, each set with spotwise_beam_candidate_init(); not NULL unless count is 0.
/// @param[in]  count      number of beams, at most SPOTWISE_MOST_BEAMS.
/// @param[in]  threads    how many threads are to work, if the library is built for threads; 0 counts as 1.
/// @param[in]  tell       told of progress, may stop the work; may be NULL.
/// @param[in]  user       given to tell as it is; not looked at.
/// @param[out] words      that many words; not NULL. On any status other than SPOTWISE_OK it is set to 0.
/// @param[out] error      what was refused; may be NULL.
/// @return as spotwise_rank_beams(), but for its arrays.
///
/// No allocation, no globals, no errno; any thread. Looks at each pixel once for each beam. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_rank_beams_workspace(
    drawing: *const spotwise_drawing,
    exposing: *const spotwise_exposing,
    marking: *const spotwise_marking,
    candidates: *const spotwise_beam_candidate,
    count: usize,
    threads: usize,
    tell: spotwise_tell,
    user: *mut c_void,
    words: *mut usize,
    error: *mut spotwise_error,
) -> spotwise_status {
    let candidates = Candidates { given: Input { start: candidates, count } };
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(words).or(error_pointer_fault(error));
        let asked = Asked::read(drawing, exposing, marking);
        report(words, error, || {
            let pointers = first([asked.pointer_fault(), candidates.pointer_fault(), last_fault]);
            if let Some(fault) = pointers.or(candidates.length_fault()) {
                return Err(fault);
            }
            let mut beams = [NO_BEAM; MOST_BEAMS];
            let beams = candidates.read(&mut beams);
            let preflight = asked.preflight()?;
            Ok(watched(tell, user, |watch| rank_beams_words(&preflight, beams, threads, watch))?)
        })
    }
}

/// Ranks beams, say of several lenses, by the room that they leave the dose; the best comes first.
///
/// First comes the widest dose window for all, then for strokes and counters, then the smaller greatest spot; among
/// equals the earlier candidate. The dose ratio of the marking plays no part: each beam may need another. Of a beam so
/// fine that the scan lines lie farther apart than 2.5 of its radius all numbers are NaN, and it comes after the others.
///
/// @param[in]  drawing         drawing, set with spotwise_drawing_init() and filled in; not NULL.
/// @param[in]  exposing        what exposes it, set with spotwise_exposing_init() and filled in; not NULL. Its own beam
///                             and focus_z_m are not read.
/// @param[in]  marking         what answers, set with spotwise_marking_init() and filled in; not NULL.
/// @param[in]  candidates      the beams, each set with spotwise_beam_candidate_init(); not NULL unless count is 0.
/// @param[in]  count           number of beams, at most SPOTWISE_MOST_BEAMS.
/// @param[out] exposure        room for the exposure of a try; not NULL unless pixels is 0; what it holds afterwards
///                             means nothing.
/// @param[in]  pixels          its length: width times height.
/// @param[out] workspace       room to work in; neither it nor exposure need be set, and they must not overlap each
///                             other, ranking or an input. What it holds afterwards means nothing.
/// @param[in]  workspace_words its length, at least what spotwise_rank_beams_workspace() says.
/// @param[in]  tell            told of progress, may stop the work; may be NULL.
/// @param[in]  user            given to tell as it is; not looked at.
/// @param[out] ranking         count entries, the best first; each set with spotwise_ranked_beam_init(); not NULL unless
///                             count is 0. On any status other than SPOTWISE_OK each is made as that makes it, but for
///                             too many beams: then nothing is written to it.
/// @param[out] error           what was refused; may be NULL.
/// @return as spotwise_preflight(), for any of the beams; SPOTWISE_E_LENGTH_MISMATCH also for more than
///         SPOTWISE_MOST_BEAMS, as SPOTWISE_PARAM_LENS_CANDIDATES.
///
/// No allocation, no globals, no errno; any thread that has 64 kB of stack left. Since ABI 1.
/// Source: derived by the authors.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_rank_beams(
    drawing: *const spotwise_drawing,
    exposing: *const spotwise_exposing,
    marking: *const spotwise_marking,
    candidates: *const spotwise_beam_candidate,
    count: usize,
    exposure: *mut u16,
    pixels: usize,
    workspace: *mut u64,
    workspace_words: usize,
    tell: spotwise_tell,
    user: *mut c_void,
    ranking: *mut spotwise_ranked_beam,
    error: *mut spotwise_error,
) -> spotwise_status {
    let candidates = Candidates { given: Input { start: candidates, count } };
    let room = Room::new(exposure, pixels, workspace, workspace_words);
    let ranking = Output { start: ranking, count };
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let asked = Asked::read(drawing, exposing, marking);
        report_alone(error, || {
            let before = first([asked.pointer_fault(), candidates.pointer_fault()]);
            let too_many = candidates.length_fault();
            let structs = match too_many {
                None => structs_fault(ranking.start.cast_const(), count),
                Some(_) => None,
            };
            if too_many.is_none() && structs.is_none() {
                ranking.fill(spotwise_ranked_beam::BLANK);
            }
            let [exposure, workspace] = room.extents();
            let outputs = [exposure, workspace, ranking.extent()];
            let overlap = asked.scene.overlap_fault(&[candidates.given.extent()], &outputs);
            let pointers = first([before, structs, overlap, error_pointer_fault(error)]);
            if let Some(fault) = pointers.or(too_many).or(room.length_fault()) {
                return Err(fault);
            }
            let mut beams = [NO_BEAM; MOST_BEAMS];
            let beams = candidates.read(&mut beams);
            let preflight = asked.preflight()?;
            let ranked = ranking.lent(RankedBeam::NONE);
            let done =
                watched(tell, user, |watch| rank_beams(&preflight, beams, ranked, &mut room.items(), watch));
            ranking.take_back::<RankedBeam>(if done.is_ok() { count } else { 0 });
            Ok(done?)
        })
    }
}

const MOST_BEAMS: usize = SPOTWISE_MOST_BEAMS as usize;

/// What stands in the room for beams before they are read.
const NO_BEAM: BeamCandidate = BeamCandidate {
    beam: Beam { wavelength: f64::NAN, m2: f64::NAN, waist_diameter: f64::NAN },
    focus_z: f64::NAN,
};

/// The beams of one call.
struct Candidates {
    given: Input<spotwise_beam_candidate>,
}

impl Candidates {
    fn length_fault(&self) -> Option<Fault> {
        let Input { count, .. } = self.given;
        let array = Param::LensCandidates;
        (count > MOST_BEAMS).then_some(Fault::TooLong { array, count, most: MOST_BEAMS })
    }

    /// What is wrong with a pointer or with a struct; no more are looked at than a call may have.
    ///
    /// # Safety
    /// The array is NULL, or valid for its items.
    unsafe fn pointer_fault(&self) -> Option<Fault> {
        let Input { start, count } = self.given;
        if let Some(fault) = array_fault(&[Input { start, count }.extent()], &[]) {
            return Some(fault);
        }
        let count = count.min(MOST_BEAMS);
        // SAFETY: as the caller vouches.
        let candidates = unsafe { structs_fault(start, count) };
        // SAFETY: as the caller vouches, and whole structs, as was just looked at.
        candidates
            .or_else(|| unsafe { (0..count).find_map(|i| pointer_fault(&raw const (*start.add(i)).beam)) })
    }

    /// # Safety
    /// The array is valid for its items, of which there are not too many, and no pointer is at fault.
    unsafe fn read<'b>(&self, beams: &'b mut [BeamCandidate; MOST_BEAMS]) -> &'b [BeamCandidate] {
        // SAFETY: as the caller vouches.
        let given = unsafe { self.given.items() };
        for (beam, given) in beams.iter_mut().zip(given) {
            *beam = BeamCandidate { beam: given.beam.into(), focus_z: given.focus_z_m };
        }
        beams.get(..given.len()).unwrap_or_default()
    }
}
