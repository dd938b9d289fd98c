//! Which lens serves a job best.

use crate::abi::{Fault, Plain, error_pointer_fault, init, init_as, input, plain, pointer_fault, report};
use crate::arrays::{Extent, array_fault, structs_fault};
use crate::check::{spotwise_job, spotwise_place};
use crate::error::spotwise_error;
use crate::status::{SPOTWISE_FOCUS_FROM_DATUM, SPOTWISE_LENS_IDEAL, spotwise_status};
use crate::text::{sentences, text_of_bit, texts};
use core::ffi::c_char;
use spotwise::model::check::{Job, JobLens};
use spotwise::model::lens_choice::{
    LensCandidate, LensChoice, LensFindings, LensRanking, LensReasons, MOST_LENSES, SetUp, choose_lens,
};
use spotwise::{Error, Param};

/// The most lenses of one call.
pub const SPOTWISE_MOST_LENSES: u32 = 8;

/// It serves: every detail holds over the whole surface, tolerance included, and the clearance is enough.
pub const SPOTWISE_LENS_REASON_SERVES: u32 = 1;
/// The finest stroke or gap is lost even in the waist.
pub const SPOTWISE_LENS_REASON_SPOT_TOO_LARGE: u32 = 2;
/// Stroke and gap hold in the waist, but one is lost at the worst places.
pub const SPOTWISE_LENS_REASON_DEPTH_TOO_SHORT: u32 = 4;
/// The text lacks its grade even in the waist.
pub const SPOTWISE_LENS_REASON_TEXT_TOO_SMALL: u32 = 8;
/// The text keeps its grade in the waist, but not at the worst places.
pub const SPOTWISE_LENS_REASON_TEXT_LOST_OFF_FOCUS: u32 = 16;
/// The lines of the fill leave gaps in the waist, where the spot is smallest.
pub const SPOTWISE_LENS_REASON_FILL_HAS_GAPS: u32 = 32;
/// The dose is too little for the material.
pub const SPOTWISE_LENS_REASON_NOTHING_MARKS: u32 = 64;
/// The worst places are outside the depth of focus.
pub const SPOTWISE_LENS_REASON_OUT_OF_FOCUS: u32 = 128;
/// The clearance over the highest place is less than the least.
pub const SPOTWISE_LENS_REASON_CLEARANCE_TOO_SMALL: u32 = 256;
/// The model cannot judge this lens on this job, its light, its fill or a collision with the surface;
/// the entry says why.
pub const SPOTWISE_LENS_REASON_REFUSED: u32 = 512;
/// No lens has a smaller spot in focus.
pub const SPOTWISE_LENS_REASON_SMALLEST_IN_FOCUS: u32 = 1024;
/// No lens has a smaller spot at the worst places.
pub const SPOTWISE_LENS_REASON_SMALLEST_ON_SURFACE: u32 = 2048;
/// No lens has a greater depth of focus.
pub const SPOTWISE_LENS_REASON_DEEPEST: u32 = 4096;
/// The working distance is greater than from the lens to its focus. So it may be of a group of lenses, whose
/// principal plane may lie below its mount; of a single lens one of the two lengths is wrong, and then the
/// clearance is too. It does not change the order.
pub const SPOTWISE_LENS_REASON_WORKING_DISTANCE_BEYOND_FOCUS: u32 = 8192;

const _: () = {
    assert!(SPOTWISE_MOST_LENSES as usize == MOST_LENSES);
    assert!(SPOTWISE_LENS_REASON_SERVES == LensReasons::SERVES.bits());
    assert!(SPOTWISE_LENS_REASON_SPOT_TOO_LARGE == LensReasons::SPOT_TOO_LARGE.bits());
    assert!(SPOTWISE_LENS_REASON_DEPTH_TOO_SHORT == LensReasons::DEPTH_TOO_SHORT.bits());
    assert!(SPOTWISE_LENS_REASON_TEXT_TOO_SMALL == LensReasons::TEXT_TOO_SMALL.bits());
    assert!(SPOTWISE_LENS_REASON_TEXT_LOST_OFF_FOCUS == LensReasons::TEXT_LOST_OFF_FOCUS.bits());
    assert!(SPOTWISE_LENS_REASON_FILL_HAS_GAPS == LensReasons::FILL_HAS_GAPS.bits());
    assert!(SPOTWISE_LENS_REASON_NOTHING_MARKS == LensReasons::NOTHING_MARKS.bits());
    assert!(SPOTWISE_LENS_REASON_OUT_OF_FOCUS == LensReasons::OUT_OF_FOCUS.bits());
    assert!(SPOTWISE_LENS_REASON_CLEARANCE_TOO_SMALL == LensReasons::CLEARANCE_TOO_SMALL.bits());
    assert!(SPOTWISE_LENS_REASON_REFUSED == LensReasons::REFUSED.bits());
    assert!(SPOTWISE_LENS_REASON_SMALLEST_IN_FOCUS == LensReasons::SMALLEST_IN_FOCUS.bits());
    assert!(SPOTWISE_LENS_REASON_SMALLEST_ON_SURFACE == LensReasons::SMALLEST_ON_SURFACE.bits());
    assert!(SPOTWISE_LENS_REASON_DEEPEST == LensReasons::DEEPEST.bits());
    assert!(
        SPOTWISE_LENS_REASON_WORKING_DISTANCE_BEYOND_FOCUS
            == LensReasons::WORKING_DISTANCE_BEYOND_FOCUS.bits()
    );
    assert!(LensReasons::ALL.len() == 14);
};

/// A lens that might serve a job.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_lens_candidate {
    /// Size of this struct; spotwise_lens_candidate_init() sets it.
    pub struct_size: u32,
    /// What is known of the lens besides its focal length: one of SPOTWISE_LENS_*;
    /// spotwise_lens_candidate_init() sets SPOTWISE_LENS_IDEAL.
    pub lens: u32,
    /// Material of the lens: one of SPOTWISE_GLASS_*; for SPOTWISE_LENS_SINGLET.
    pub glass: u32,
    /// Shape of the lens: one of SPOTWISE_SHAPE_*; for SPOTWISE_LENS_SINGLET.
    pub lens_shape: u32,
    /// Focal length at the working wavelength in metres, converging; range: SPOTWISE_PARAM_FOCAL_LENGTH.
    pub focal_length_m: f64,
    /// Shape factor of the lens, as in spotwise_singlet; for SPOTWISE_LENS_SINGLET with
    /// SPOTWISE_SHAPE_BY_FACTOR; range: SPOTWISE_PARAM_SHAPE_FACTOR.
    pub shape_factor: f64,
    /// Diameter of the clear aperture of the lens or its mount in metres, INFINITY if unknown, which
    /// spotwise_lens_candidate_init() sets; for SPOTWISE_LENS_SINGLET; range:
    /// SPOTWISE_PARAM_CLEAR_APERTURE.
    pub clear_aperture_m: f64,
    /// From the lowest part of lens, mount and nozzle to a flat surface in focus, in metres; range:
    /// SPOTWISE_PARAM_WORKING_DISTANCE. One greater than from the lens to its focus is flagged:
    /// SPOTWISE_LENS_REASON_WORKING_DISTANCE_BEYOND_FOCUS.
    pub working_distance_m: f64,
}
plain!(
    spotwise_lens_candidate, 48 bytes,
    words: [lens, glass, lens_shape],
    numbers: [focal_length_m, shape_factor, clear_aperture_m, working_distance_m]
);

impl TryFrom<spotwise_lens_candidate> for LensCandidate {
    type Error = Error;

    fn try_from(candidate: spotwise_lens_candidate) -> Result<Self, Error> {
        Ok(Self {
            focal_length: candidate.focal_length_m,
            lens: JobLens::from_code(
                candidate.lens,
                candidate.glass,
                candidate.lens_shape,
                candidate.shape_factor,
                candidate.clear_aperture_m,
            )?,
            working_distance: candidate.working_distance_m,
        })
    }
}

/// Sets struct_size, the choices to 0, which is none, and every number to a quiet NaN; but lens to
/// SPOTWISE_LENS_IDEAL and clear_aperture_m to INFINITY, which is none. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_lens_candidate_init(candidate: *mut spotwise_lens_candidate) {
    let fresh = spotwise_lens_candidate {
        lens: SPOTWISE_LENS_IDEAL,
        clear_aperture_m: f64::INFINITY,
        ..spotwise_lens_candidate::BLANK
    };
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init_as(candidate, fresh) }
}

/// What comes on top of the surface of a job, and what must be left of the working distance.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_set_up {
    /// Size of this struct; spotwise_set_up_init() sets it.
    pub struct_size: u32,
    /// Not read.
    pub reserved: u32,
    /// Half width of all errors of height together in metres, not negative: it widens the surface at both
    /// ends; range: SPOTWISE_PARAM_SET_UP_TOLERANCE. spotwise_tolerance_stack() tells it, as the greater distance
    /// of its two ends, worst or expanded: its half width alone leaves the bias out.
    pub tolerance_m: f64,
    /// Least clearance over the highest place in metres, not negative; range:
    /// SPOTWISE_PARAM_LEAST_CLEARANCE.
    pub least_clearance_m: f64,
}
plain!(spotwise_set_up, 24 bytes, words: [reserved], numbers: [tolerance_m, least_clearance_m]);

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_set_up_init(set_up: *mut spotwise_set_up) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(set_up) }
}

/// Where a lens stands among the others, and what it does on the surface with focus at mid-height.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_lens_ranking {
    /// Size of this struct; spotwise_lens_ranking_init() sets it.
    pub struct_size: u32,
    /// Its place in the order, 1 for the best; 0 if the call failed.
    pub rank: u32,
    /// Why: SPOTWISE_LENS_REASON_* bits.
    pub reasons: u32,
    /// What spotwise_focus_check() says of it: one of SPOTWISE_OUTCOME_*; 0, and all numbers NaN, if the
    /// model cannot follow its light.
    pub outcome: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// 0.
    pub reserved: u32,
    /// Why the model cannot follow its light; code 0 if it can.
    pub refused: spotwise_error,
    /// Waist diameter in metres: 1/e^2 (D4 sigma), for a real lens that of 86.5 % of the power.
    pub waist_diameter_m: f64,
    /// Distance from the waist at which the diameter has grown by sqrt(2), in metres.
    pub rayleigh_range_m: f64,
    /// From the lens to the waist in metres.
    pub lens_to_waist_m: f64,
    /// Depth of focus from end to end by the job's criterion, in metres; NaN if the waist is larger than the
    /// largest diameter allowed.
    pub depth_full_m: f64,
    /// By how much farther the surface might reach to either side with stroke, gap and text still holding, in
    /// metres; negative by how much too far it does; NaN if they do not even hold in the waist.
    pub spare_half_span_m: f64,
    /// What is left between the lowest part of the head and the highest place of the surface in metres;
    /// negative if they collide.
    pub clearance_m: f64,
    /// The worst places: the lower one, which is as far from the waist as the upper one.
    pub worst: spotwise_place,
}
plain!(
    spotwise_lens_ranking, 240 bytes,
    words: [rank, reasons, outcome, validity, reserved],
    nested: [refused: spotwise_error],
    numbers: [
        waist_diameter_m,
        rayleigh_range_m,
        lens_to_waist_m,
        depth_full_m,
        spare_half_span_m,
        clearance_m,
    ],
    nested: [worst: spotwise_place]
);

impl From<LensRanking> for spotwise_lens_ranking {
    fn from(ranking: LensRanking) -> Self {
        let found = match ranking.found {
            Ok(found) => found.into(),
            Err(error) => Self { refused: spotwise_error::of(Some(Fault::Refused(error))), ..Self::BLANK },
        };
        Self { rank: ranking.rank, reasons: ranking.reasons.bits(), ..found }
    }
}

impl From<LensFindings> for spotwise_lens_ranking {
    fn from(found: LensFindings) -> Self {
        Self {
            outcome: found.outcome as u32,
            validity: found.validity.bits(),
            waist_diameter_m: found.waist_diameter,
            rayleigh_range_m: found.rayleigh_range,
            lens_to_waist_m: found.lens_to_waist,
            depth_full_m: found.depth.map_or(f64::BLANK, |depth| depth.full),
            spare_half_span_m: found.spare_half_span.unwrap_or(f64::BLANK),
            clearance_m: found.clearance,
            worst: found.worst.into(),
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, also of the nested structs, codes and flags to 0, and every number to a quiet NaN.
/// NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_lens_ranking_init(ranking: *mut spotwise_lens_ranking) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(ranking) }
}

/// What a choice of lenses comes to: the result of spotwise_choose_lens().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_lens_choice {
    /// Size of this struct; spotwise_lens_choice_init() sets it.
    pub struct_size: u32,
    /// How many lenses serve.
    pub serving: u32,
    /// Place of the first in order among the candidates, from 0 on. It serves if any does.
    pub best: u32,
    /// 0.
    pub reserved: u32,
    /// Where focus is set relative to the datum in metres, + away from the lens: at mid-height of the surface.
    pub focus_z_m: f64,
    /// How far the worst places lie from the waist in metres, tolerance included.
    pub half_span_m: f64,
    /// Distance from the waist at which the spots of the first two in order are equal, in metres; NaN, as the
    /// next, if one is smaller everywhere, or if there are not two.
    pub crossing_offset_m: f64,
    /// Spot diameter of both there in metres.
    pub crossing_diameter_m: f64,
    /// Span of the surface, from its highest to its lowest place without the tolerance, at which the worst
    /// spots of these two swap, in metres; NaN if no span does that.
    pub flip_span_m: f64,
}
plain!(
    spotwise_lens_choice, 56 bytes,
    words: [serving, best, reserved],
    numbers: [focus_z_m, half_span_m, crossing_offset_m, crossing_diameter_m, flip_span_m]
);

impl From<LensChoice> for spotwise_lens_choice {
    fn from(choice: LensChoice) -> Self {
        let [crossing_offset_m, crossing_diameter_m] =
            choice.crossing.map_or([f64::BLANK; 2], |crossing| [crossing.offset, crossing.diameter]);
        Self {
            serving: choice.serving,
            // Below the number of lenses of one call.
            best: choice.best as u32,
            focus_z_m: choice.focus_z,
            half_span_m: choice.half_span,
            crossing_offset_m,
            crossing_diameter_m,
            flip_span_m: choice.flip_span.unwrap_or(f64::BLANK),
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_lens_choice_init(choice: *mut spotwise_lens_choice) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(choice) }
}

/// Ranks the lenses that might serve a job, with reasons, and says where the first two would swap.
///
/// Every lens has its focus at mid-height of the surface; the worst places lie (rise + fall)/2 + tolerance
/// from the waist. What a lens does there is what spotwise_focus_check() says. The order: lenses that serve;
/// those of which only the clearance is too small; those with which a detail or the text is lost, the fill
/// breaks up into its lines, or nothing marks; those whose light the model cannot follow. Within each the
/// smaller spot at the worst places goes first, then the greater depth of focus, then the one named first. A
/// lens whose light the model cannot follow spoils nothing: its entry says why. So it is with a glass opaque
/// at the wavelength, a spot that no closed form gives, lines of a scan too far apart for the spot, and a
/// surface that reaches the lens. A lens taken for ideal looks better than the same lens taken as it is.
///
/// @param[in]  job        job to read; set with spotwise_job_init(); not NULL. Its own lens and focus
///                        (focal_length_m, lens and all that goes with it, focus_setting, focus_z_m,
///                        lens_to_surface_m) are not read.
/// @param[in]  candidates count lenses, each set with spotwise_lens_candidate_init(); not NULL unless count
///                        is 0.
/// @param[in]  count      number of lenses, 1 to SPOTWISE_MOST_LENSES.
/// @param[in]  set_up     tolerance and least clearance; set with spotwise_set_up_init(); not NULL.
/// @param[out] rankings   count entries, the i-th for the i-th lens; each set with
///                        spotwise_lens_ranking_init(); not NULL unless count is 0, and apart from the
///                        lenses. On any status other than SPOTWISE_OK each is made as that makes it, but for
///                        a number of lenses that no array can have: then nothing is written to it.
/// @param[out] choice     result; set with spotwise_lens_choice_init(); not NULL. On any status other than
///                        SPOTWISE_OK its numbers are set to a quiet NaN, serving and best to 0.
/// @param[out] error      what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_OVERLAP,
///         SPOTWISE_E_OUT_OF_RANGE (no lenses or more than SPOTWISE_MOST_LENSES, as
///         SPOTWISE_PARAM_LENS_CANDIDATES, before any choice), SPOTWISE_E_UNKNOWN_CHOICE (of the job, in the
///         order of spotwise_focus_check(), then of the lenses, one by one), SPOTWISE_E_NOT_FINITE,
///         SPOTWISE_E_OUT_OF_RANGE (of the job, then of the set-up, then focal length, shape factor,
///         aperture and working distance of each lens), SPOTWISE_E_OUTSIDE_MODEL (raw beam and dose as
///         spotwise_focus_check(); worst places more than 1 km from the waist, as
///         SPOTWISE_PARAM_SURFACE_RISE).
///
/// Accuracy: waist, Rayleigh range, lens_to_waist_m, crossing, clearance and spans at most 0.75 ulp (units in
///           the last place) of the exact result, depth_full_m too; growth, line dose and diameters at most 2,
///           irradiance 2.5; details and text 5 ulp, ripple 8 and spare_half_span_m 4 ulp of the heights that
///           hold, times the factors that spotwise_focus_check() names.
/// No allocation, no globals, no errno; any thread or interrupt. About 4 kB of stack besides that of
/// spotwise_focus_check(). Since ABI 1.
/// Source: those of spotwise_focus_check() and spotwise_caustic_crossing().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_choose_lens(
    job: *const spotwise_job,
    candidates: *const spotwise_lens_candidate,
    count: usize,
    set_up: *const spotwise_set_up,
    rankings: *mut spotwise_lens_ranking,
    choice: *mut spotwise_lens_choice,
    error: *mut spotwise_error,
) -> spotwise_status {
    let given = Given { job, candidates, count, set_up, rankings };
    // SAFETY: pointers are NULL or valid, those to arrays for their items, as the header demands.
    unsafe {
        let last_fault = pointer_fault(choice).or(error_pointer_fault(error));
        report(choice, error, || Ok(chosen(&given, last_fault)?.into()))
    }
}

/// One sentence for a reason of a lens; "unknown" unless exactly one reason is given.
///
/// @param[in] reason one bit, one of SPOTWISE_LENS_REASON_*.
/// @return a constant text, never NULL. Any thread or interrupt. Since ABI 1.
#[unsafe(no_mangle)]
#[must_use]
pub extern "C" fn spotwise_lens_reason_text(reason: u32) -> *const c_char {
    const SENTENCES: [&str; LensReasons::ALL.len()] = sentences!(LensReasons);
    texts!(REASONS, SENTENCES);
    text_of_bit(&REASONS, reason)
}

/// The inputs and the array of one call.
struct Given {
    job: *const spotwise_job,
    candidates: *const spotwise_lens_candidate,
    count: usize,
    set_up: *const spotwise_set_up,
    rankings: *mut spotwise_lens_ranking,
}

/// The most entries that an array can hold: no object is larger than half of memory.
const LONGEST: usize = isize::MAX as usize / size_of::<spotwise_lens_ranking>();

/// Chooses, and fills the rankings: blank ones on a fault.
///
/// # Safety
/// Pointers are NULL or valid for their items.
unsafe fn chosen(given: &Given, last_fault: Option<Fault>) -> Result<LensChoice, Fault> {
    let Given { job, candidates, count, set_up, rankings } = *given;
    let (least, greatest) = Param::LensCandidates.range();
    let too_many = Error::OutOfRange { param: Param::LensCandidates, value: count as f64, least, greatest };
    // No array is so long, so there is none to look at.
    let looked_at = if count > LONGEST { 0 } else { count };
    // SAFETY: NULL or valid for their items, as the caller vouches.
    let (pointers, rankings_fault) = unsafe {
        let before = pointer_fault(job).or(structs_fault(candidates, looked_at)).or(pointer_fault(set_up));
        (before, structs_fault(rankings, looked_at))
    };
    let overlap =
        array_fault(&[Extent::of(candidates, looked_at)], &[Extent::of(rankings.cast_const(), looked_at)]);
    if rankings_fault.is_none() {
        for i in 0..looked_at {
            // SAFETY: not NULL, and writable as the caller vouches.
            unsafe { rankings.add(i).write(spotwise_lens_ranking::BLANK) };
        }
    }
    if let Some(fault) = pointers.or(rankings_fault).or(overlap).or(last_fault) {
        return Err(fault);
    }
    let mut lenses = [NO_LENS; MOST_LENSES];
    let mut found = [LensRanking::BLANK; MOST_LENSES];
    let (Some(lenses), Some(found)) = (lenses.get_mut(..count), found.get_mut(..count)) else {
        return Err(Fault::Refused(too_many));
    };
    if count == 0 {
        return Err(Fault::Refused(too_many));
    }
    // SAFETY: not NULL, as looked at above.
    let (job, set_up) = unsafe { (input(job)?, input(set_up)?) };
    let job = Job::try_from(spotwise_job {
        lens: SPOTWISE_LENS_IDEAL,
        focus_setting: SPOTWISE_FOCUS_FROM_DATUM,
        ..job
    })?;
    for (i, lens) in lenses.iter_mut().enumerate() {
        // SAFETY: not NULL, and readable for `count` lenses, as looked at above.
        *lens = unsafe { input(candidates.add(i)) }?.try_into()?;
    }
    let set_up = SetUp { tolerance: set_up.tolerance_m, least_clearance: set_up.least_clearance_m };
    let choice = choose_lens(&job, lenses, &set_up, found)?;
    for (i, ranking) in found.iter().enumerate() {
        // SAFETY: not NULL, and writable for `count` entries, as looked at above.
        unsafe { rankings.add(i).write((*ranking).into()) };
    }
    Ok(choice)
}

/// What stands in the room for lenses before they are read.
const NO_LENS: LensCandidate =
    LensCandidate { focal_length: f64::NAN, lens: JobLens::Ideal, working_distance: f64::NAN };
