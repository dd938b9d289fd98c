//! Tolerance stacks, and what holds in spite of them.

use crate::abi::{Fault, Plain, init, input, plain, report};
use crate::beam::spotwise_beam;
use crate::error::spotwise_error;
use crate::status::spotwise_status;
use spotwise::model::surface::{
    Contribution, DetailOdds, Distribution, DrawnOffsets, DrawnShare, Draws, OffsetOdds, PlaceOdds,
    SurfaceDetail, ToleranceSource, ToleranceStack, detail_odds, offset_odds, tolerance_stack,
};
use spotwise::{Error, Param};

/// Source of a contribution: the part bows, warps or is not flat.
pub const SPOTWISE_TOLERANCE_PART_BOW: u32 = 1;
/// Source of a contribution: thickness of the part.
pub const SPOTWISE_TOLERANCE_THICKNESS: u32 = 2;
/// Source of a contribution: the fixture or the table.
pub const SPOTWISE_TOLERANCE_FIXTURE: u32 = 3;
/// Source of a contribution: a lens that was changed or cleaned.
pub const SPOTWISE_TOLERANCE_LENS_CHANGE: u32 = 4;
/// Source of a contribution: the gauge with which the height is set.
pub const SPOTWISE_TOLERANCE_HEIGHT_GAUGE: u32 = 5;
/// Source of a contribution: backlash of the axis that sets the height.
pub const SPOTWISE_TOLERANCE_BACKLASH: u32 = 6;
/// Source of a contribution: smallest step of that axis.
pub const SPOTWISE_TOLERANCE_AXIS_STEP: u32 = 7;
/// Source of a contribution: machine, lens or part warm up.
pub const SPOTWISE_TOLERANCE_THERMAL_DRIFT: u32 = 8;
/// Source of a contribution: anything else.
pub const SPOTWISE_TOLERANCE_OTHER: u32 = 9;

/// Distribution: anywhere within +- the half width, alike.
pub const SPOTWISE_DISTRIBUTION_UNIFORM: u32 = 1;
/// Distribution: within +- the half width, more often in the middle.
pub const SPOTWISE_DISTRIBUTION_TRIANGULAR: u32 = 2;
/// Distribution: as a swing of this amplitude that is met at any moment.
pub const SPOTWISE_DISTRIBUTION_ARC_SINE: u32 = 3;
/// Distribution: by - or + the half width, either as often.
pub const SPOTWISE_DISTRIBUTION_TWO_VALUED: u32 = 4;
/// Distribution: by a normal law; reads coverage_factor.
pub const SPOTWISE_DISTRIBUTION_NORMAL: u32 = 5;

/// The most contributions that one call takes, since the library has no heap.
pub const SPOTWISE_TOLERANCE_MOST_CONTRIBUTIONS: u32 = 32;

const _: () = {
    assert!(SPOTWISE_TOLERANCE_PART_BOW == ToleranceSource::PartBow as u32);
    assert!(SPOTWISE_TOLERANCE_THICKNESS == ToleranceSource::Thickness as u32);
    assert!(SPOTWISE_TOLERANCE_FIXTURE == ToleranceSource::Fixture as u32);
    assert!(SPOTWISE_TOLERANCE_LENS_CHANGE == ToleranceSource::LensChange as u32);
    assert!(SPOTWISE_TOLERANCE_HEIGHT_GAUGE == ToleranceSource::HeightGauge as u32);
    assert!(SPOTWISE_TOLERANCE_BACKLASH == ToleranceSource::Backlash as u32);
    assert!(SPOTWISE_TOLERANCE_AXIS_STEP == ToleranceSource::AxisStep as u32);
    assert!(SPOTWISE_TOLERANCE_THERMAL_DRIFT == ToleranceSource::ThermalDrift as u32);
    assert!(SPOTWISE_TOLERANCE_OTHER == ToleranceSource::Other as u32);
    assert!(ToleranceSource::ALL.len() == 9);

    let (half_width, coverage_factor) = (0.0, 1.0);
    assert!(SPOTWISE_DISTRIBUTION_UNIFORM == Distribution::Uniform { half_width }.code());
    assert!(SPOTWISE_DISTRIBUTION_TRIANGULAR == Distribution::Triangular { half_width }.code());
    assert!(SPOTWISE_DISTRIBUTION_ARC_SINE == Distribution::ArcSine { half_width }.code());
    assert!(SPOTWISE_DISTRIBUTION_TWO_VALUED == Distribution::TwoValued { half_width }.code());
    assert!(SPOTWISE_DISTRIBUTION_NORMAL == Distribution::Normal { half_width, coverage_factor }.code());
    assert!(SPOTWISE_DISTRIBUTION_NORMAL as f64 == Param::Distribution.range().1);
};

/// One contribution to a tolerance stack.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_contribution {
    /// Size of this struct; spotwise_contribution_init() sets it.
    pub struct_size: u32,
    /// One of SPOTWISE_TOLERANCE_*; it names the contribution and enters no number.
    pub source: u32,
    /// One of SPOTWISE_DISTRIBUTION_*.
    pub distribution: u32,
    /// Not read; keeps the numbers aligned.
    pub reserved: u32,
    /// Half width in metres: it strays by - to + this; range: SPOTWISE_PARAM_HALF_WIDTH.
    pub half_width_m: f64,
    /// Half width over standard deviation, read for a normal law alone; range:
    /// SPOTWISE_PARAM_COVERAGE_FACTOR.
    pub coverage_factor: f64,
    /// Mean in metres, + away from the lens: a known error that nobody corrects, 0 for most; range:
    /// SPOTWISE_PARAM_MEAN_OFFSET.
    pub mean_m: f64,
}
plain!(
    spotwise_contribution, 40 bytes,
    words: [source, distribution, reserved],
    numbers: [half_width_m, coverage_factor, mean_m]
);

impl TryFrom<spotwise_contribution> for Contribution {
    type Error = Error;

    fn try_from(given: spotwise_contribution) -> Result<Self, Error> {
        let source = ToleranceSource::from_code(given.source)?;
        let distribution =
            Distribution::from_code(given.distribution, given.half_width_m, given.coverage_factor)?;
        Ok(Self { source, distribution, mean: given.mean_m })
    }
}

/// Sets struct_size, the codes to 0, which are none, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_contribution_init(contribution: *mut spotwise_contribution) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(contribution) }
}

/// A tolerance stack, added up: the result of spotwise_tolerance_stack(). Offsets count from where the
/// surface should be, + away from the lens.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_tolerance_stack_result {
    /// Size of this struct; spotwise_tolerance_stack_result_init() sets it.
    pub struct_size: u32,
    /// Place, from 0, of the contribution with the greatest variance; the first of equals.
    pub dominant: u32,
    /// Place, from 0, of the contribution with the greatest half width; the first of equals.
    pub widest: u32,
    /// Always 0.
    pub reserved: u32,
    /// Sum of the means in metres.
    pub bias_m: f64,
    /// Sum of the half widths in metres.
    pub worst_half_width_m: f64,
    /// Farthest toward the lens in the worst case, in metres.
    pub worst_toward_lens_z_m: f64,
    /// Farthest away from the lens in the worst case, in metres.
    pub worst_away_from_lens_z_m: f64,
    /// Combined standard deviation in metres.
    pub deviation_m: f64,
    /// Half width over deviation for the coverage probability, of a normal sum.
    pub coverage_factor: f64,
    /// Coverage factor times combined deviation, in metres.
    pub expanded_half_width_m: f64,
    /// Expanded interval, its end toward the lens, in metres.
    pub expanded_toward_lens_z_m: f64,
    /// Expanded interval, its end away from the lens, in metres.
    pub expanded_away_from_lens_z_m: f64,
    /// Share of the dominant contribution in the combined variance; 0 where nothing strays.
    pub dominant_share: f64,
    /// Share of the widest contribution in the worst case; 0 where nothing strays.
    pub widest_share: f64,
}
plain!(
    spotwise_tolerance_stack_result, 104 bytes,
    words: [dominant, widest, reserved],
    numbers: [
        bias_m,
        worst_half_width_m,
        worst_toward_lens_z_m,
        worst_away_from_lens_z_m,
        deviation_m,
        coverage_factor,
        expanded_half_width_m,
        expanded_toward_lens_z_m,
        expanded_away_from_lens_z_m,
        dominant_share,
        widest_share,
    ]
);

impl From<ToleranceStack> for spotwise_tolerance_stack_result {
    fn from(result: ToleranceStack) -> Self {
        Self {
            dominant: result.dominant,
            widest: result.widest,
            bias_m: result.bias,
            worst_half_width_m: result.worst_half_width,
            worst_toward_lens_z_m: result.worst_toward_lens_z,
            worst_away_from_lens_z_m: result.worst_away_from_lens_z,
            deviation_m: result.deviation,
            coverage_factor: result.coverage_factor,
            expanded_half_width_m: result.expanded_half_width,
            expanded_toward_lens_z_m: result.expanded_toward_lens_z,
            expanded_away_from_lens_z_m: result.expanded_away_from_lens_z,
            dominant_share: result.dominant_share,
            widest_share: result.widest_share,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_tolerance_stack_result_init(stack: *mut spotwise_tolerance_stack_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(stack) }
}

/// The probability that the surface stays within limits: the result of spotwise_offset_odds().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_offset_odds_result {
    /// Size of this struct; spotwise_offset_odds_result_init() sets it.
    pub struct_size: u32,
    /// Always 0.
    pub reserved: u32,
    /// Probability of both limits, as if the sum were normal.
    pub probability: f64,
    /// Probability that the surface lies too near the lens, as if the sum were normal. NaN where a detail
    /// does not even hold in the waist.
    pub too_near_probability: f64,
    /// Probability that the surface lies too far from the lens, likewise.
    pub too_far_probability: f64,
    /// Share of the cases drawn that kept both limits.
    pub drawn_share: f64,
    /// Its standard error.
    pub drawn_standard_error: f64,
    /// Least share that goes with the draws, of the 95 % interval.
    pub drawn_least_share: f64,
    /// Greatest share that goes with the draws, of the 95 % interval.
    pub drawn_greatest_share: f64,
    /// Mean of the offsets drawn, in metres, + away from the lens.
    pub drawn_mean_m: f64,
    /// Standard deviation of the offsets drawn, in metres.
    pub drawn_deviation_m: f64,
    /// The offset drawn that lay farthest toward the lens, in metres.
    pub drawn_least_z_m: f64,
    /// The offset drawn that lay farthest away from the lens, in metres.
    pub drawn_greatest_z_m: f64,
}
plain!(
    spotwise_offset_odds_result, 96 bytes,
    words: [reserved],
    numbers: [
        probability,
        too_near_probability,
        too_far_probability,
        drawn_share,
        drawn_standard_error,
        drawn_least_share,
        drawn_greatest_share,
        drawn_mean_m,
        drawn_deviation_m,
        drawn_least_z_m,
        drawn_greatest_z_m,
    ]
);

impl From<OffsetOdds> for spotwise_offset_odds_result {
    fn from(result: OffsetOdds) -> Self {
        let DrawnShare { share, standard_error, least, greatest } = result.drawn;
        let DrawnOffsets { mean, deviation, least_z, greatest_z } = result.offsets;
        Self {
            probability: result.probability,
            too_near_probability: result.too_near_probability,
            too_far_probability: result.too_far_probability,
            drawn_share: share,
            drawn_standard_error: standard_error,
            drawn_least_share: least,
            drawn_greatest_share: greatest,
            drawn_mean_m: mean,
            drawn_deviation_m: deviation,
            drawn_least_z_m: least_z,
            drawn_greatest_z_m: greatest_z,
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_offset_odds_result_init(odds: *mut spotwise_offset_odds_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(odds) }
}

/// The finest detail of a drawing, and the surface on which it is to hold.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_surface_detail {
    /// Size of this struct; spotwise_surface_detail_init() sets it.
    pub struct_size: u32,
    /// Not read.
    pub reserved: u32,
    /// Width of the finest stroke in metres; range: SPOTWISE_PARAM_FINEST_STROKE.
    pub finest_stroke_m: f64,
    /// Width of the finest gap in metres; range: SPOTWISE_PARAM_FINEST_GAP.
    pub finest_gap_m: f64,
    /// Fill dose over threshold dose; range: SPOTWISE_PARAM_DOSE_RATIO.
    pub dose_ratio: f64,
    /// Place that should lie nearest to the lens: its z from the waist in metres, + away from the lens;
    /// range: SPOTWISE_PARAM_HIGHEST_Z.
    pub highest_z_m: f64,
    /// Place that should lie farthest from the lens, likewise; at least highest_z_m; range:
    /// SPOTWISE_PARAM_LOWEST_Z.
    pub lowest_z_m: f64,
}
plain!(
    spotwise_surface_detail, 48 bytes,
    words: [reserved],
    numbers: [finest_stroke_m, finest_gap_m, dose_ratio, highest_z_m, lowest_z_m]
);

impl From<spotwise_surface_detail> for SurfaceDetail {
    fn from(given: spotwise_surface_detail) -> Self {
        Self {
            finest_stroke: given.finest_stroke_m,
            finest_gap: given.finest_gap_m,
            dose_ratio: given.dose_ratio,
            highest_z: given.highest_z_m,
            lowest_z: given.lowest_z_m,
        }
    }
}

/// Sets struct_size, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_surface_detail_init(detail: *mut spotwise_surface_detail) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(detail) }
}

/// The probability that a detail holds on a surface: the result of spotwise_detail_odds().
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_detail_odds_result {
    /// Size of this struct; spotwise_detail_odds_result_init() sets it.
    pub struct_size: u32,
    /// 1 if the detail holds in the waist. If not, it holds nowhere: its probabilities are 0, and there
    /// are no margins.
    pub holds_in_waist: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Always 0.
    pub reserved: u32,
    /// By how much the surface may stray toward the lens, in metres; negative where its highest place lies
    /// too near it already. NaN where the detail does not hold in the waist.
    pub margin_toward_lens_m: f64,
    /// By how much the surface may stray away from the lens, in metres; negative where its lowest place
    /// lies too far from it already. NaN where the detail does not hold in the waist.
    pub margin_away_from_lens_m: f64,
    /// Probability at the highest place, as if the sum were normal.
    pub highest_probability: f64,
    /// Share of the cases drawn in which the detail held at the highest place.
    pub highest_drawn_share: f64,
    /// Probability at the lowest place, as if the sum were normal.
    pub lowest_probability: f64,
    /// Share of the cases drawn in which the detail held at the lowest place.
    pub lowest_drawn_share: f64,
    /// Half angle of the cone in radians: the number behind SPOTWISE_VALIDITY_WIDE_CONE.
    pub half_angle_rad: f64,
    /// Everywhere on the surface. The greater of too_near_probability and too_far_probability tells which
    /// side fails more.
    pub everywhere: spotwise_offset_odds_result,
}
plain!(
    spotwise_detail_odds_result, 168 bytes,
    words: [holds_in_waist, validity, reserved],
    numbers: [
        margin_toward_lens_m,
        margin_away_from_lens_m,
        highest_probability,
        highest_drawn_share,
        lowest_probability,
        lowest_drawn_share,
        half_angle_rad,
    ],
    nested: [everywhere: spotwise_offset_odds_result]
);

impl From<DetailOdds> for spotwise_detail_odds_result {
    fn from(result: DetailOdds) -> Self {
        let (PlaceOdds { probability: high, drawn_share: drawn_high }, low) =
            (result.at_highest, result.at_lowest);
        Self {
            holds_in_waist: u32::from(result.holds_in_waist),
            validity: result.validity.bits(),
            margin_toward_lens_m: result.margin_toward_lens,
            margin_away_from_lens_m: result.margin_away_from_lens,
            highest_probability: high,
            highest_drawn_share: drawn_high,
            lowest_probability: low.probability,
            lowest_drawn_share: low.drawn_share,
            half_angle_rad: result.half_angle,
            everywhere: result.everywhere.into(),
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, also of the nested struct, and every number to a quiet NaN. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_detail_odds_result_init(odds: *mut spotwise_detail_odds_result) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(odds) }
}

/// The most contributions of one call.
const MOST: usize = SPOTWISE_TOLERANCE_MOST_CONTRIBUTIONS as usize;

/// Room for the contributions, as the model takes them.
const ROOM: [Contribution; MOST] = [Contribution {
    source: ToleranceSource::Other,
    distribution: Distribution::Uniform { half_width: 0.0 },
    mean: 0.0,
}; MOST];

/// Reads contributions into `room`. Their pointers and sizes are looked at before any code.
///
/// # Safety
/// `contributions` is NULL, or aligned and readable for `count` of them.
unsafe fn read_contributions(
    contributions: *const spotwise_contribution,
    count: usize,
    room: &mut [Contribution; MOST],
) -> Result<&[Contribution], Fault> {
    if count > 0 && contributions.is_null() {
        return Err(Fault::Null);
    }
    let too_long = Fault::TooLong { array: Param::Contributions, count, most: MOST };
    let them = room.get_mut(..count).ok_or(too_long)?;
    for i in 0..count {
        // SAFETY: not NULL, and readable for `count` contributions as the caller vouches.
        unsafe { input(contributions.add(i)) }?;
    }
    for (i, contribution) in them.iter_mut().enumerate() {
        // SAFETY: as above.
        *contribution = unsafe { input(contributions.add(i)) }?.try_into()?;
    }
    Ok(them)
}

/// Adds up a tolerance stack: worst case, combined deviation, and the half width that covers a share of
/// all cases.
///
/// Variances add: of a uniform contribution a^2/3, triangular a^2/6, arc sine a^2/2, two-valued a^2,
/// normal (a/coverage factor)^2. The stated coverage is that of a normal sum; one that a single uniform or
/// two-valued contribution rules is not normal, and spotwise_offset_odds() tells. Contributions must not
/// depend on each other.
///
/// @param[in]  contributions        count contributions, each set with spotwise_contribution_init(); not
///                                  NULL unless count is 0.
/// @param[in]  count                number of contributions, 1 to SPOTWISE_TOLERANCE_MOST_CONTRIBUTIONS.
/// @param[in]  coverage_probability share of all cases; range: SPOTWISE_PARAM_COVERAGE_PROBABILITY.
/// @param[out] stack                result; set with spotwise_tolerance_stack_result_init(); not NULL. On
///                                  any status other than SPOTWISE_OK its numbers are set to a quiet NaN,
///                                  its places to 0.
/// @param[out] error                what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_LENGTH_MISMATCH (too many
///         contributions, as SPOTWISE_PARAM_CONTRIBUTIONS), SPOTWISE_E_UNKNOWN_CHOICE (the first unknown
///         source or distribution, before any number), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE
///         (contribution by contribution, then the coverage probability), SPOTWISE_E_UNDETERMINED (no
///         contribution, as SPOTWISE_PARAM_CONTRIBUTIONS).
///
/// Accuracy: at most 0.75 ulp (units in the last place) of the exact result, the coverage factor 2, the
///           expanded half width 3; the ends of the expanded interval that times (|bias| + half width)/|end|.
/// No allocation, no globals, no errno; any thread or interrupt. About 2 kB of stack for the list.
/// Since ABI 1.
/// Example: +-0.3 mm and +-0.1 mm, both uniform: worst case 0.4 mm, deviation 0.182574 mm.
/// Source: JCGM 100:2008 (GUM) 4.3.7, 4.3.9, 5.1.2, 6.2.1, from memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_tolerance_stack(
    contributions: *const spotwise_contribution,
    count: usize,
    coverage_probability: f64,
    stack: *mut spotwise_tolerance_stack_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(stack, error, || {
            let mut room = ROOM;
            let them = read_contributions(contributions, count, &mut room)?;
            Ok(tolerance_stack(them, coverage_probability)?.into())
        })
    }
}

/// The probability that the offset of the surface stays between two limits: as if it were normal, and by
/// drawing from the contributions as they are.
///
/// The random numbers are those of SplitMix64 and the same on every machine and face; the time goes with
/// their number, and nothing is stored. A case counts by its offset as a double.
///
/// @param[in]  contributions    count contributions, each set with spotwise_contribution_init(); not NULL
///                              unless count is 0.
/// @param[in]  count            number of contributions, 1 to SPOTWISE_TOLERANCE_MOST_CONTRIBUTIONS.
/// @param[in]  toward_lens_z_m  limit toward the lens in metres, + away from the lens; range:
///                              SPOTWISE_PARAM_TOWARD_LENS_Z.
/// @param[in]  away_from_lens_z_m limit away from the lens in metres, at least toward_lens_z_m; range:
///                              SPOTWISE_PARAM_AWAY_FROM_LENS_Z.
/// @param[in]  draws            number of cases; range: SPOTWISE_PARAM_DRAWS.
/// @param[in]  seed             any whole number below 2^53, which is what every face can hold; range:
///                              SPOTWISE_PARAM_SEED.
/// @param[out] odds             result; set with spotwise_offset_odds_result_init(); not NULL. On any
///                              status other than SPOTWISE_OK its numbers are set to a quiet NaN.
/// @param[out] error            what was refused; may be NULL.
/// @return as spotwise_tolerance_stack(); after the contributions the limits, the draws and the seed are
///         checked.
///
/// Accuracy: probabilities at most 3 ulp (units in the last place) of the exact result times 1 + x^2, x
///           being the deviations at which a limit stands; shares 2 ulp; what was drawn 3 ulp of the
///           contributions.
/// No allocation, no globals, no errno; any thread or interrupt. About 2 kB of stack for the list.
/// Since ABI 1.
/// Example: a single normal contribution of +-0.1 mm, coverage factor 1, from -0.1 to 0.2 mm: 0.8186.
/// Source: JCGM 101:2008; G. L. Steele Jr., D. Lea, C. H. Flood, OOPSLA 2014; E. B. Wilson, J. Am. Stat.
///         Assoc. 22, 209 (1927); from memory.
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_offset_odds(
    contributions: *const spotwise_contribution,
    count: usize,
    toward_lens_z_m: f64,
    away_from_lens_z_m: f64,
    draws: u32,
    seed: u64,
    odds: *mut spotwise_offset_odds_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    let draws = Draws::of(draws, seed);
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(odds, error, || {
            let mut room = ROOM;
            let them = read_contributions(contributions, count, &mut room)?;
            Ok(offset_odds(them, toward_lens_z_m, away_from_lens_z_m, draws)?.into())
        })
    }
}

/// The probability that the finest stroke and gap hold everywhere on a surface of given heights, which
/// strays by the sum of some contributions.
///
/// The margins are how far the surface may move until its highest or lowest place leaves the range of
/// spotwise_offsets_for_diameter() at the diameter of spotwise_largest_spot_for_details(). The contributions
/// move the surface as a whole. The incidence angle is not modelled.
///
/// @param[in]  beam          beam to read; set with spotwise_beam_init(); not NULL.
/// @param[in]  detail        detail and surface; set with spotwise_surface_detail_init(); not NULL.
/// @param[in]  contributions count contributions, each set with spotwise_contribution_init(); not NULL
///                           unless count is 0.
/// @param[in]  count         number of contributions, 1 to SPOTWISE_TOLERANCE_MOST_CONTRIBUTIONS.
/// @param[in]  draws         number of cases; range: SPOTWISE_PARAM_DRAWS.
/// @param[in]  seed          any whole number below 2^53; range: SPOTWISE_PARAM_SEED.
/// @param[out] odds          result; set with spotwise_detail_odds_result_init(); not NULL. On any status
///                           other than SPOTWISE_OK its numbers are set to a quiet NaN, its flags to 0.
/// @param[out] error         what was refused; may be NULL.
/// @return as spotwise_offset_odds(), and SPOTWISE_E_OUTSIDE_MODEL (half angle above 0.3 rad). Beam and
///         detail are checked before the contributions.
///
/// Accuracy: margins at most 3 ulp (units in the last place) of the exact result, times the offset at which
///           the detail just holds over the margin, times r^2/(r^2 - 1), r being the largest spot over the
///           waist; probabilities as spotwise_offset_odds(), and what the margins make of them.
/// No allocation, no globals, no errno; any thread or interrupt. About 2 kB of stack for the list.
/// Since ABI 1.
/// Source: as spotwise_offset_odds(), spotwise_offsets_for_diameter().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_detail_odds(
    beam: *const spotwise_beam,
    detail: *const spotwise_surface_detail,
    contributions: *const spotwise_contribution,
    count: usize,
    draws: u32,
    seed: u64,
    odds: *mut spotwise_detail_odds_result,
    error: *mut spotwise_error,
) -> spotwise_status {
    let draws = Draws::of(draws, seed);
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe {
        report(odds, error, || {
            let (beam, detail) = (input(beam)?.into(), input(detail)?.into());
            let mut room = ROOM;
            let them = read_contributions(contributions, count, &mut room)?;
            Ok(detail_odds(&beam, &detail, them, draws)?.into())
        })
    }
}
