//! One job in, one verdict out.

use crate::abi::{Plain, init, init_as, input, plain, report};
use crate::choices::{
    SPOTWISE_DOSE_BY_RATIO, SPOTWISE_RESPONSE_COATING, SPOTWISE_TEXT_GIVEN, SPOTWISE_TEXT_NONE,
};
use crate::dose::spotwise_scan_dose_result;
use crate::error::spotwise_error;
use crate::mark::spotwise_smallest_details_result;
use crate::singlet::spotwise_singlet_focus;
use crate::status::{SPOTWISE_LENS_IDEAL, spotwise_status};
use spotwise::model::check::{
    FocusSetting, Job, JobDose, JobLens, JobText, Place, RawBeam, Verdict, focus_check,
};
use spotwise::model::focus::{DepthCriterion, FocusRange};
use spotwise::model::mark::{TextGrade, TextGrades, Typeface};
use spotwise::{Error, Param};

/// Everything that spotwise_focus_check() needs to know. Numbers that a choice does not name are
/// not read.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_job {
    /// Size of this struct; spotwise_job_init() sets it.
    pub struct_size: u32,
    /// How the raw beam is known: one of SPOTWISE_RAW_BEAM_*.
    pub raw_beam: u32,
    /// How the height of focus is known: one of SPOTWISE_FOCUS_*.
    pub focus_setting: u32,
    /// What counts as in focus: one of SPOTWISE_CRITERION_*.
    pub criterion: u32,
    /// How the dose of the fill is known: one of SPOTWISE_DOSE_BY_*; spotwise_job_init() sets
    /// SPOTWISE_DOSE_BY_RATIO.
    pub dose: u32,
    /// How the material answers above the threshold: one of SPOTWISE_RESPONSE_*; spotwise_job_init() sets
    /// SPOTWISE_RESPONSE_COATING; for SPOTWISE_DOSE_BY_SCAN.
    pub response: u32,
    /// What is known of the lens besides its focal length: one of SPOTWISE_LENS_*;
    /// spotwise_job_init() sets SPOTWISE_LENS_IDEAL.
    pub lens: u32,
    /// Material of the lens: one of SPOTWISE_GLASS_*; for SPOTWISE_LENS_SINGLET.
    pub glass: u32,
    /// Shape of the lens: one of SPOTWISE_SHAPE_*; for SPOTWISE_LENS_SINGLET.
    pub lens_shape: u32,
    /// Whether the drawing has text: one of SPOTWISE_TEXT_*; spotwise_job_init() sets
    /// SPOTWISE_TEXT_NONE. The two choices that follow, and all from stem on, are for
    /// SPOTWISE_TEXT_GIVEN.
    pub text: u32,
    /// Typeface of the text: one of SPOTWISE_TYPEFACE_*.
    pub typeface: u32,
    /// The grade that the text must keep everywhere: one of SPOTWISE_GRADE_*.
    pub least_grade: u32,
    /// Vacuum wavelength in metres; range: SPOTWISE_PARAM_WAVELENGTH.
    pub wavelength_m: f64,
    /// Beam propagation ratio M^2; range: SPOTWISE_PARAM_M2.
    pub m2: f64,
    /// Raw beam's diameter at the lens in metres, 1/e^2 (D4 sigma); for
    /// SPOTWISE_RAW_BEAM_COLLIMATED; range: SPOTWISE_PARAM_DIAMETER_AT_LENS.
    pub diameter_at_lens_m: f64,
    /// Raw beam's waist diameter in metres, 1/e^2 (D4 sigma), before any expander; for
    /// SPOTWISE_RAW_BEAM_WAIST and SPOTWISE_RAW_BEAM_EXPANDED; range: SPOTWISE_PARAM_WAIST_DIAMETER.
    pub waist_diameter_m: f64,
    /// From the raw waist to the lens in metres, + when the waist lies upstream; for
    /// SPOTWISE_RAW_BEAM_WAIST; range: SPOTWISE_PARAM_WAIST_TO_LENS. The waist_z_x_m of an
    /// astigmatic beam counts the other way round.
    pub waist_to_lens_m: f64,
    /// Focal length of the lens at the working wavelength in metres, converging; range:
    /// SPOTWISE_PARAM_FOCAL_LENGTH.
    pub focal_length_m: f64,
    /// Place of the waist relative to the datum of the surface in metres, + where the waist lies
    /// farther from the lens; for SPOTWISE_FOCUS_FROM_DATUM; range: SPOTWISE_PARAM_FOCUS_Z.
    pub focus_z_m: f64,
    /// From the lens to the datum of the surface in metres; for SPOTWISE_FOCUS_LENS_HEIGHT; range:
    /// SPOTWISE_PARAM_LENS_TO_SURFACE.
    pub lens_to_surface_m: f64,
    /// How far the surface comes toward the lens from its datum in metres, not negative; range:
    /// SPOTWISE_PARAM_SURFACE_RISE.
    pub surface_rise_m: f64,
    /// How far the surface drops away from the lens from its datum in metres, not negative; range:
    /// SPOTWISE_PARAM_SURFACE_FALL.
    pub surface_fall_m: f64,
    /// Diameter over waist diameter, at least 1; for SPOTWISE_CRITERION_GROWTH; range:
    /// SPOTWISE_PARAM_GROWTH_RATIO.
    pub growth_ratio: f64,
    /// Share lost, 0.2 for a fifth; for SPOTWISE_CRITERION_IRRADIANCE_DROP and
    /// SPOTWISE_CRITERION_LINE_DOSE_DROP; range: SPOTWISE_PARAM_IRRADIANCE_DROP or
    /// SPOTWISE_PARAM_LINE_DOSE_DROP.
    pub drop: f64,
    /// Diameter in metres, 1/e^2 (D4 sigma); for SPOTWISE_CRITERION_LARGEST_DIAMETER; range:
    /// SPOTWISE_PARAM_LARGEST_DIAMETER.
    pub largest_diameter_m: f64,
    /// Width of the finest stroke in the drawing in metres; range: SPOTWISE_PARAM_FINEST_STROKE.
    pub finest_stroke_m: f64,
    /// Width of the finest gap in the drawing in metres; range: SPOTWISE_PARAM_FINEST_GAP.
    pub finest_gap_m: f64,
    /// Fill dose over the dose at which the material just marks; for SPOTWISE_DOSE_BY_RATIO; range:
    /// SPOTWISE_PARAM_ANY_DOSE_RATIO.
    pub dose_ratio: f64,
    /// Power on the surface in watts; for SPOTWISE_DOSE_BY_SCAN; range: SPOTWISE_PARAM_POWER.
    pub power_w: f64,
    /// Speed along the lines in m/s; for SPOTWISE_DOSE_BY_SCAN; range: SPOTWISE_PARAM_SPEED.
    pub speed_m_per_s: f64,
    /// From one line of the fill to the next in metres; for SPOTWISE_DOSE_BY_SCAN; range:
    /// SPOTWISE_PARAM_LINE_INTERVAL.
    pub line_interval_m: f64,
    /// Fill dose at which the material just marks in J/m^2; for SPOTWISE_DOSE_BY_SCAN; range:
    /// SPOTWISE_PARAM_THRESHOLD.
    pub threshold_j_per_m2: f64,
    /// Depth at which the dose has fallen by e, in metres; for SPOTWISE_DOSE_BY_SCAN with
    /// SPOTWISE_RESPONSE_LOGARITHMIC_ABLATION; range: SPOTWISE_PARAM_PENETRATION_DEPTH.
    pub penetration_depth_m: f64,
    /// Energy that removes one volume in J/m^3; for SPOTWISE_DOSE_BY_SCAN with
    /// SPOTWISE_RESPONSE_LINEAR_ABLATION; range: SPOTWISE_PARAM_REMOVAL_ENERGY.
    pub removal_energy_j_per_m3: f64,
    /// Thermal diffusivity in m^2/s; for SPOTWISE_DOSE_BY_SCAN with SPOTWISE_RESPONSE_MELT; range:
    /// SPOTWISE_PARAM_DIFFUSIVITY.
    pub diffusivity_m2_per_s: f64,
    /// From the raw waist to the beam expander in metres, + when the waist lies upstream; for
    /// SPOTWISE_RAW_BEAM_EXPANDED; range: SPOTWISE_PARAM_WAIST_TO_EXPANDER.
    pub waist_to_expander_m: f64,
    /// Beam diameter behind the expander over that before it; for SPOTWISE_RAW_BEAM_EXPANDED; range:
    /// SPOTWISE_PARAM_MAGNIFICATION.
    pub magnification: f64,
    /// By how much the expander converges collimated light, in 1/m, 0 when set to infinity; for
    /// SPOTWISE_RAW_BEAM_EXPANDED; range: SPOTWISE_PARAM_EXIT_POWER.
    pub exit_power_per_m: f64,
    /// From the expander to the lens in metres; for SPOTWISE_RAW_BEAM_EXPANDED; range:
    /// SPOTWISE_PARAM_EXPANDER_TO_LENS.
    pub expander_to_lens_m: f64,
    /// Shape factor of the lens, as in spotwise_singlet; for SPOTWISE_LENS_SINGLET with
    /// SPOTWISE_SHAPE_BY_FACTOR; range: SPOTWISE_PARAM_SHAPE_FACTOR.
    pub shape_factor: f64,
    /// Diameter of the clear aperture of the lens or its mount in metres, INFINITY if unknown, which
    /// spotwise_job_init() sets; for SPOTWISE_LENS_SINGLET; range: SPOTWISE_PARAM_CLEAR_APERTURE.
    pub clear_aperture_m: f64,
    /// Width of an upright stem in ems; for SPOTWISE_TYPEFACE_MEASURED; range:
    /// SPOTWISE_PARAM_STEM_SHARE.
    pub stem: f64,
    /// The stroke to which the typeface amounts in ems; for SPOTWISE_TYPEFACE_MEASURED; range:
    /// SPOTWISE_PARAM_STROKE_SHARE.
    pub effective_stroke: f64,
    /// The gap to which its counters amount in ems; for SPOTWISE_TYPEFACE_MEASURED; range:
    /// SPOTWISE_PARAM_COUNTER_SHARE.
    pub effective_counter: f64,
    /// The gap to which its counters and the gaps between letters amount in ems; for
    /// SPOTWISE_TYPEFACE_MEASURED; range: SPOTWISE_PARAM_GAP_SHARE.
    pub effective_gap: f64,
    /// Size of the text in metres, see SPOTWISE_POINT_M; range: SPOTWISE_PARAM_EM.
    pub em_m: f64,
    /// Share of the fill dose that the middle of a stem must get to be crisp; spotwise_job_init() sets
    /// the default of spotwise_text_grades; range: SPOTWISE_PARAM_CRISP_EXPOSURE.
    pub crisp_exposure: f64,
    /// Least dose window of good text; spotwise_job_init() sets the default of spotwise_text_grades;
    /// range: SPOTWISE_PARAM_DOSE_WINDOW.
    pub good_window: f64,
    /// Least dose window of readable text; spotwise_job_init() sets the default of
    /// spotwise_text_grades; range: SPOTWISE_PARAM_DOSE_WINDOW.
    pub readable_window: f64,
}
plain!(
    spotwise_job, 344 bytes,
    words: [
        raw_beam,
        focus_setting,
        criterion,
        dose,
        response,
        lens,
        glass,
        lens_shape,
        text,
        typeface,
        least_grade,
    ],
    numbers: [
        wavelength_m,
        m2,
        diameter_at_lens_m,
        waist_diameter_m,
        waist_to_lens_m,
        focal_length_m,
        focus_z_m,
        lens_to_surface_m,
        surface_rise_m,
        surface_fall_m,
        growth_ratio,
        drop,
        largest_diameter_m,
        finest_stroke_m,
        finest_gap_m,
        dose_ratio,
        power_w,
        speed_m_per_s,
        line_interval_m,
        threshold_j_per_m2,
        penetration_depth_m,
        removal_energy_j_per_m3,
        diffusivity_m2_per_s,
        waist_to_expander_m,
        magnification,
        exit_power_per_m,
        expander_to_lens_m,
        shape_factor,
        clear_aperture_m,
        stem,
        effective_stroke,
        effective_counter,
        effective_gap,
        em_m,
        crisp_exposure,
        good_window,
        readable_window,
    ]
);

impl TryFrom<spotwise_job> for Job {
    type Error = Error;

    fn try_from(job: spotwise_job) -> Result<Self, Error> {
        // Choices are refused in this order.
        let raw_beam = RawBeam::from_code(
            job.raw_beam,
            job.diameter_at_lens_m,
            job.waist_diameter_m,
            job.waist_to_lens_m,
            job.waist_to_expander_m,
            job.magnification,
            job.exit_power_per_m,
            job.expander_to_lens_m,
        )?;
        let focus = FocusSetting::from_code(job.focus_setting, job.focus_z_m, job.lens_to_surface_m)?;
        let criterion =
            DepthCriterion::from_code(job.criterion, job.growth_ratio, job.drop, job.largest_diameter_m)?;
        let dose = JobDose::from_code(
            job.dose,
            job.dose_ratio,
            job.power_w,
            job.speed_m_per_s,
            job.line_interval_m,
            job.threshold_j_per_m2,
            job.response,
            job.penetration_depth_m,
            job.removal_energy_j_per_m3,
            job.diffusivity_m2_per_s,
        )?;
        let lens =
            JobLens::from_code(job.lens, job.glass, job.lens_shape, job.shape_factor, job.clear_aperture_m)?;
        let text = text_of(&job)?;
        Ok(Self {
            wavelength: job.wavelength_m,
            m2: job.m2,
            raw_beam,
            focal_length: job.focal_length_m,
            lens,
            focus,
            surface_rise: job.surface_rise_m,
            surface_fall: job.surface_fall_m,
            criterion,
            finest_stroke: job.finest_stroke_m,
            finest_gap: job.finest_gap_m,
            dose,
            text,
        })
    }
}

/// The text of a job, if it has one.
fn text_of(job: &spotwise_job) -> Result<Option<JobText>, Error> {
    match job.text {
        SPOTWISE_TEXT_NONE => Ok(None),
        SPOTWISE_TEXT_GIVEN => {
            let typeface = Typeface::from_code(
                job.typeface,
                job.stem,
                job.effective_stroke,
                job.effective_counter,
                job.effective_gap,
            )?;
            let grades = TextGrades {
                crisp_exposure: job.crisp_exposure,
                good_window: job.good_window,
                readable_window: job.readable_window,
            };
            let least_grade = TextGrade::from_code(job.least_grade)?;
            Ok(Some(JobText { typeface, em: job.em_m, least_grade, grades }))
        }
        value => Err(Error::UnknownChoice { param: Param::JobText, value }),
    }
}

/// Sets struct_size, the choices to 0, which is none, and every number to a quiet NaN; but lens to
/// SPOTWISE_LENS_IDEAL, clear_aperture_m to INFINITY, which is none, dose to SPOTWISE_DOSE_BY_RATIO,
/// response to SPOTWISE_RESPONSE_COATING, text to SPOTWISE_TEXT_NONE, and the cut-offs of its grades to
/// their defaults. NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_job_init(job: *mut spotwise_job) {
    let grades = TextGrades::default();
    let fresh = spotwise_job {
        lens: SPOTWISE_LENS_IDEAL,
        clear_aperture_m: f64::INFINITY,
        dose: SPOTWISE_DOSE_BY_RATIO,
        response: SPOTWISE_RESPONSE_COATING,
        text: SPOTWISE_TEXT_NONE,
        crisp_exposure: grades.crisp_exposure,
        good_window: grades.good_window,
        readable_window: grades.readable_window,
        ..spotwise_job::BLANK
    };
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init_as(job, fresh) }
}

/// The spot at one height of the surface, and what it holds there.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_place {
    /// Size of this struct; set where it is part of a verdict.
    pub struct_size: u32,
    /// 1 if the drawing's finest stroke and gap both hold, and its text keeps its grade; else 0.
    pub details_hold: u32,
    /// 1 if the place lies within the depth of focus; else 0.
    pub in_depth: u32,
    /// How the text comes out: one of SPOTWISE_GRADE_*; 0 if the job has none.
    pub text_grade: u32,
    /// Offset from the waist in metres, + away from the lens.
    pub z_offset_m: f64,
    /// Spot diameter in metres, 1/e^2 (D4 sigma).
    pub diameter_m: f64,
    /// Spot diameter over waist diameter.
    pub growth: f64,
    /// Irradiance on the axis over that at the waist.
    pub irradiance_ratio: f64,
    /// Peak dose of a scanned line over that at the waist.
    pub line_dose_ratio: f64,
    /// Spot diameter as the material sees it in metres, 1/e^2, widened by heat in a melt. Details, text and
    /// ripple go by it.
    pub seen_diameter_m: f64,
    /// Width of the finest stroke that holds in metres; NaN, as the next three, if nothing marks
    /// (SPOTWISE_OUTCOME_NOTHING_MARKS).
    pub smallest_stroke_m: f64,
    /// Width of the finest gap that holds in metres.
    pub smallest_gap_m: f64,
    /// Diameter of the finest dot that holds in metres.
    pub smallest_dot_diameter_m: f64,
    /// Diameter of the finest hole that holds in metres.
    pub smallest_hole_diameter_m: f64,
    /// Contrast of the ripple of the fill; NaN if the job gives its dose by ratio.
    pub ripple_contrast: f64,
    /// The smallest em at which its typeface is crisp, in metres; NaN, as the next two, if the job has
    /// no text or nothing marks.
    pub crisp_em_m: f64,
    /// The smallest em at which it is good, in metres.
    pub good_em_m: f64,
    /// The smallest em at which it can be read, in metres.
    pub readable_em_m: f64,
}
plain!(
    spotwise_place, 128 bytes,
    words: [details_hold, in_depth, text_grade],
    numbers: [
        z_offset_m,
        diameter_m,
        growth,
        irradiance_ratio,
        line_dose_ratio,
        seen_diameter_m,
        smallest_stroke_m,
        smallest_gap_m,
        smallest_dot_diameter_m,
        smallest_hole_diameter_m,
        ripple_contrast,
        crisp_em_m,
        good_em_m,
        readable_em_m,
    ]
);

impl From<Place> for spotwise_place {
    fn from(place: Place) -> Self {
        let smallest = place.smallest.map_or(spotwise_smallest_details_result::BLANK, Into::into);
        let [crisp_em_m, good_em_m, readable_em_m] = place
            .smallest_text
            .map_or([f64::BLANK; 3], |text| [text.crisp_em, text.good_em, text.readable_em]);
        Self {
            details_hold: u32::from(place.details_hold),
            in_depth: u32::from(place.in_depth),
            text_grade: place.text_grade.map_or(0, |grade| grade as u32),
            z_offset_m: place.z_offset,
            diameter_m: place.diameter,
            growth: place.growth,
            irradiance_ratio: place.irradiance_ratio,
            line_dose_ratio: place.line_dose_ratio,
            seen_diameter_m: place.seen_diameter,
            smallest_stroke_m: smallest.bar_m,
            smallest_gap_m: smallest.gap_m,
            smallest_dot_diameter_m: smallest.dot_diameter_m,
            smallest_hole_diameter_m: smallest.hole_diameter_m,
            ripple_contrast: place.ripple_contrast.unwrap_or(f64::BLANK),
            crisp_em_m,
            good_em_m,
            readable_em_m,
            ..Self::BLANK
        }
    }
}

/// What spotwise_focus_check() finds. Heights count from the waist, + away from the lens, but for
/// focus_z_m and best_focus_z_m, which count from the datum of the surface. For a real lens "the
/// waist" of heights and places is that of its 86.5 %-power spot, real.power86.
#[derive(Debug, Clone, Copy)]
#[repr(C)]
pub struct spotwise_verdict {
    /// Size of this struct; spotwise_verdict_init() sets it.
    pub struct_size: u32,
    /// SPOTWISE_VALIDITY_* bits that apply.
    pub validity: u32,
    /// Whether the drawing holds: one of SPOTWISE_OUTCOME_*; 0 if the call failed.
    pub outcome: u32,
    /// Why: SPOTWISE_REASON_* bits.
    pub reasons: u32,
    /// Waist diameter behind the lens, taken for ideal, in metres, 1/e^2 (D4 sigma): the spot in
    /// focus. What a real lens makes of it is in real.
    pub waist_diameter_m: f64,
    /// Rayleigh range behind the ideal lens in metres.
    pub rayleigh_range_m: f64,
    /// Far-field full angle of the focused cone in radians.
    pub divergence_full_angle_rad: f64,
    /// New waist over the waist before the lens.
    pub magnification: f64,
    /// From the focal point to the ideal lens's waist in metres, + away from the lens.
    pub focus_shift_m: f64,
    /// From the lens to the ideal lens's waist in metres, never negative: a virtual waist is refused.
    pub lens_to_waist_m: f64,
    /// Diameter of the raw beam where it meets the lens in metres, 1/e^2 (D4 sigma).
    pub diameter_at_lens_m: f64,
    /// Greatest 1/e^2 half angle before and behind the ideal lens in radians.
    pub half_angle_rad: f64,
    /// Where the waist lies relative to the datum in metres, + away from the lens.
    pub focus_z_m: f64,
    /// End of the depth of focus nearer the lens in metres; NaN, as the next two, if the waist is
    /// larger than the largest diameter allowed (SPOTWISE_REASON_NO_DEPTH).
    pub depth_toward_lens_z_m: f64,
    /// End of the depth of focus farther from the lens in metres.
    pub depth_away_from_lens_z_m: f64,
    /// Depth of focus from end to end in metres.
    pub depth_full_m: f64,
    /// End nearer the lens of the heights at which stroke and gap both hold, in metres; NaN, as the
    /// next two, if they do not even hold in the waist.
    pub detail_toward_lens_z_m: f64,
    /// End of those heights farther from the lens in metres.
    pub detail_away_from_lens_z_m: f64,
    /// Those heights from end to end in metres.
    pub detail_full_m: f64,
    /// End nearer the lens of the heights at which the text keeps its grade, in metres; NaN, as the next
    /// two, if it does not even in the waist, or if the job has none, or asks nothing of it.
    pub text_toward_lens_z_m: f64,
    /// End of those heights farther from the lens in metres.
    pub text_away_from_lens_z_m: f64,
    /// Those heights from end to end in metres.
    pub text_full_m: f64,
    /// Fill dose over the dose at which the material just marks.
    pub dose_ratio: f64,
    /// Dose on the middle of one line by itself, in the waist, in J/m^2; NaN, as the next three, if the
    /// job gives its dose by ratio.
    pub line_dose_j_per_m2: f64,
    /// Mean dose of the fill in J/m^2.
    pub fill_dose_j_per_m2: f64,
    /// Irradiance on the axis, in the waist, in W/m^2.
    pub peak_irradiance_w_per_m2: f64,
    /// Line dose over peak irradiance in seconds.
    pub dwell_s: f64,
    /// Depth that an even fill digs at its mean dose in metres, whatever the height (where the fill is
    /// striped the depth follows its ripple); 0 if nothing marks; NaN for a coating or a melt, which tell
    /// none, or if the job gives its dose by ratio.
    pub fill_depth_m: f64,
    /// Where to put the waist relative to the datum so that the worst growth is least: at
    /// mid-height of the surface. In metres, + away from the lens.
    pub best_focus_z_m: f64,
    /// Growth at both ends of the surface if focus is set there.
    pub best_worst_growth: f64,
    /// The place of the surface nearest the lens.
    pub highest: spotwise_place,
    /// The datum of the surface.
    pub datum: spotwise_place,
    /// The place of the surface farthest from the lens.
    pub lowest: spotwise_place,
    /// What an ideal lens would have promised: the outcome of the same job with its lens taken for
    /// ideal, one of SPOTWISE_OUTCOME_*; 0 if the call failed.
    pub promised: u32,
    /// 1 if the job names a real lens, so that real holds numbers; else 0.
    pub has_real: u32,
    /// What the real lens makes of the beam; blank, all NaN, without one.
    pub real: spotwise_singlet_focus,
}
plain!(
    spotwise_verdict, 888 bytes,
    words: [validity, outcome, reasons],
    numbers: [
        waist_diameter_m,
        rayleigh_range_m,
        divergence_full_angle_rad,
        magnification,
        focus_shift_m,
        lens_to_waist_m,
        diameter_at_lens_m,
        half_angle_rad,
        focus_z_m,
        depth_toward_lens_z_m,
        depth_away_from_lens_z_m,
        depth_full_m,
        detail_toward_lens_z_m,
        detail_away_from_lens_z_m,
        detail_full_m,
        text_toward_lens_z_m,
        text_away_from_lens_z_m,
        text_full_m,
        dose_ratio,
        line_dose_j_per_m2,
        fill_dose_j_per_m2,
        peak_irradiance_w_per_m2,
        dwell_s,
        fill_depth_m,
        best_focus_z_m,
        best_worst_growth,
    ],
    nested: [highest: spotwise_place, datum: spotwise_place, lowest: spotwise_place],
    words: [promised, has_real],
    nested: [real: spotwise_singlet_focus]
);

/// The two ends and the full length of a range; NaN where there is none.
fn ends(range: Option<FocusRange>) -> [f64; 3] {
    range.map_or([f64::BLANK; 3], |range| [range.toward_lens_z, range.away_from_lens_z, range.full])
}

impl From<Verdict> for spotwise_verdict {
    fn from(verdict: Verdict) -> Self {
        let focused = verdict.focused;
        let [depth_toward_lens_z_m, depth_away_from_lens_z_m, depth_full_m] = ends(verdict.depth);
        let [detail_toward_lens_z_m, detail_away_from_lens_z_m, detail_full_m] = ends(verdict.detail_range);
        let [text_toward_lens_z_m, text_away_from_lens_z_m, text_full_m] = ends(verdict.text_range);
        let scan = verdict.scan.map_or(spotwise_scan_dose_result::BLANK, Into::into);
        Self {
            validity: verdict.validity.bits(),
            outcome: verdict.outcome as u32,
            reasons: verdict.reasons.bits(),
            waist_diameter_m: focused.waist_diameter,
            rayleigh_range_m: focused.rayleigh_range,
            divergence_full_angle_rad: focused.divergence_full_angle,
            magnification: focused.magnification,
            focus_shift_m: focused.focus_shift,
            lens_to_waist_m: focused.lens_to_waist,
            diameter_at_lens_m: focused.diameter_at_lens,
            half_angle_rad: focused.half_angle,
            focus_z_m: verdict.focus_z,
            depth_toward_lens_z_m,
            depth_away_from_lens_z_m,
            depth_full_m,
            detail_toward_lens_z_m,
            detail_away_from_lens_z_m,
            detail_full_m,
            text_toward_lens_z_m,
            text_away_from_lens_z_m,
            text_full_m,
            dose_ratio: verdict.dose_ratio,
            line_dose_j_per_m2: scan.line_dose_j_per_m2,
            fill_dose_j_per_m2: scan.fill_dose_j_per_m2,
            peak_irradiance_w_per_m2: scan.peak_irradiance_w_per_m2,
            dwell_s: scan.dwell_s,
            fill_depth_m: verdict.fill_depth.unwrap_or(f64::BLANK),
            best_focus_z_m: verdict.best_focus_z,
            best_worst_growth: verdict.best_worst_growth,
            highest: verdict.highest.into(),
            datum: verdict.datum.into(),
            lowest: verdict.lowest.into(),
            promised: verdict.promised as u32,
            has_real: u32::from(verdict.real.is_some()),
            real: verdict.real.map_or(spotwise_singlet_focus::BLANK, Into::into),
            ..Self::BLANK
        }
    }
}

/// Sets struct_size, also of the nested structs, codes and flags to 0, and every number to a quiet NaN.
/// NULL does nothing.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn spotwise_verdict_init(verdict: *mut spotwise_verdict) {
    // SAFETY: NULL or writable, as the header demands.
    unsafe { init(verdict) }
}

/// Checks whether a drawing's finest stroke and gap hold over a surface, and its text keeps its grade,
/// and says why.
///
/// A raster fill, whose dose is given by ratio or by what the machine is set to and how the material answers
/// to it. A melt sees the spot widened by heat, sqrt(d^2 + 32 k t) with t = sqrt(pi/8) d/v at that height (not dwell_s), and
/// details, text and ripple go by that. What spotwise_focus_through_lens(), for a real lens
/// spotwise_focus_singlet(), spotwise_smallest_details(), with text spotwise_smallest_text() and with a dose
/// by scan spotwise_material_mark() do not model is not in the verdict either; nor is incubation. It is
/// advice: engrave a test piece first. With a real lens the verdict rests on its 86.5 %-power spot, and
/// promised says what an ideal lens would have. Two things are no errors but findings: a largest diameter
/// below the waist, SPOTWISE_REASON_NO_DEPTH, and a dose ratio below 1.000001, whose outcome is
/// SPOTWISE_OUTCOME_NOTHING_MARKS. A virtual waist is refused, since nothing is in focus behind the lens, and
/// so are a surface that reaches the lens and a lens too aberrated for an 86.5 %-power spot.
///
/// @param[in]  job     job to read; set with spotwise_job_init(); not NULL.
/// @param[out] verdict result; set with spotwise_verdict_init(); not NULL. On any status other
///                     than SPOTWISE_OK its numbers are set to a quiet NaN, outcome, reasons and
///                     flags to 0.
/// @param[out] error   what was refused; may be NULL.
/// @return SPOTWISE_OK, SPOTWISE_E_NULL, SPOTWISE_E_STRUCT_SIZE, SPOTWISE_E_UNKNOWN_CHOICE (raw
///         beam, focus setting, criterion, dose, for one by scan the response, lens, for a singlet glass
///         and shape, text, and if it is given typeface and least grade, in this order, before any
///         number), SPOTWISE_E_NOT_FINITE, SPOTWISE_E_OUT_OF_RANGE (the optics, expander and lens with
///         them, before all else; also a wavelength outside spotwise_glass_range()),
///         SPOTWISE_E_OUTSIDE_MODEL (raw, expanded or focused half angle above 0.3 rad, a waist outside
///         1e-9 to 10 m, a virtual waist as SPOTWISE_PARAM_LENS_TO_WAIST, a clipping ratio of a real
///         lens below 1.2, its Rayleigh range above a fifth of the distance to the waist, or a
///         normalised aberration above 1.7 as SPOTWISE_PARAM_NORMALISED_ABERRATION, all once the
///         optics are checked; or a surface that reaches the lens as SPOTWISE_PARAM_LENS_TO_HIGHEST once
///         surface_rise_m is; with a dose by scan an interval above 20 radii of the waist as
///         SPOTWISE_PARAM_INTERVAL_OVER_RADIUS, and a fill dose outside the range of
///         SPOTWISE_PARAM_ANY_DOSE_RATIO thresholds as that, once the threshold and the number of the
///         response are).
///
/// Accuracy: the optics at most 0.75 ulp (units in the last place) of the exact result; fits of a real
///           lens, details, seen diameters and doses at most 6 ulp, a real lens's peak irradiance and
///           dwell 12; ripple 8 ulp, text and ranges 4 ulp, and so the depth of the fill, times factors
///           where they are about to vanish; in a melt details, text and ripple times 3/2, ranges times
///           up to 3; how well the fits describe a lens is told at spotwise_aberration_growth().
/// No allocation, no globals, no errno; any thread or interrupt. Since ABI 1.
/// Source: those of the calls named above, and of spotwise_defocus().
#[unsafe(no_mangle)]
#[must_use]
pub unsafe extern "C" fn spotwise_focus_check(
    job: *const spotwise_job,
    verdict: *mut spotwise_verdict,
    error: *mut spotwise_error,
) -> spotwise_status {
    // SAFETY: pointers are NULL or valid, as the header demands.
    unsafe { report(verdict, error, || Ok(focus_check(&input(job)?.try_into()?)?.into())) }
}
