/*
 * Replays rows of numbers through the C face: on a desktop against the static or the shared
 * library, and on a controller. The outputs must be the same bytes everywhere.
 *
 * Input file:  "SPOTREP1", u32 rows; each row u32 function, u32 n, n doubles.
 * Output file: "SPOTOUT1", u32 rows; each row u32 code, u32 parameter, u32 m, u32 0, m doubles.
 * Little endian, as are all machines that this runs on. Functions count from 0 in the order of
 * tests/vectors/functions.toml.
 */
#include "replay.h"

#include "spotwise.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#ifdef SPOTWISE_MEASURE
#include "measure.h"
#else
#define BEFORE_CALL() ((void)0)
#define AFTER_CALL(function) ((void)(function))
#endif

enum {
    CONVERT_WIDTH,
    POWER_THROUGH_APERTURE,
    DIAMETER_FOR_POWER,
    BEAM_PARAMETERS,
    BEAM_AT,
    DIAMETERS_AT,
    WAIST_FROM_RAYLEIGH_RANGE,
    WAIST_FROM_DIVERGENCE,
    M2_FROM_DIVERGENCE,
    ASTIGMATIC_PARAMETERS,
    ASTIGMATIC_AT,
    FOCUS_THROUGH_LENS,
    FOCUS_COLLIMATED,
    FOCUS_ASTIGMATIC,
    REFRACTIVE_INDEX,
    LENS_AT_WAVELENGTH,
    LENS_FROM_RADII,
    LENS_ABERRATION,
    ABERRATION_GROWTH,
    FOCUS_SINGLET,
    SMALLEST_SPOT,
    FOCUS_CLIPPED,
    FOCUS_BEHIND_PLATE,
    FOCUS_INSIDE,
    BEAM_AFTER_PATH,
    BEAM_ALONG_PATH,
    FOCUS_ALONG_GANTRY,
    GANTRY_SPREAD,
    EVEN_OUT_GANTRY,
    WAVE_IRRADIANCE,
    WAVE_POWER,
    WAVE_WIDTHS,
    WAVE_FOCUS,
    WAVE_MAP,
    DEFOCUS,
    ASTIGMATIC_DEFOCUS,
    OFFSETS_FOR_DIAMETER,
    OFFSETS_FOR_GROWTH,
    DEPTH_OF_FOCUS,
    ASTIGMATIC_DEPTH_OF_FOCUS,
    CLIPPED_DEPTH_OF_FOCUS,
    WAVE_DEPTH_OF_FOCUS,
    SINGLET_DEFOCUS,
    SINGLET_DEPTH_OF_FOCUS,
    TILTED_SPOT,
    SMALLEST_DETAILS,
    LARGEST_SPOT_FOR_DETAILS,
    CONTRAST_AT_PITCH,
    PITCH_FOR_CONTRAST,
    SCAN_DOSE,
    PULSE_DOSE,
    DOSE_OVER_THRESHOLD,
    LINE_INTERVAL,
    DOTS_PER_INCH,
    MATERIAL_MARK,
    MARK_WIDTH,
    MARK_LIMITS,
    FILL_WIDTH,
    FILL_LIMITS,
    RASTER_RIPPLE,
    INTERVAL_FOR_RIPPLE,
    DETAIL_EXPOSURE,
    BLUR_BUDGET,
    FILL_QUALITY,
    OFFSET_FOR_TASTE,
    PULSED_LINE,
    CRATER,
    GROOVE,
    CONNECTED_SPEED,
    COMPENSATE,
    TYPEFACE_SHARES,
    SMALLEST_TEXT,
    TEXT_QUALITY,
    OFFSET_FOR_TEXT,
    TOLERANCE_STACK,
    OFFSET_ODDS,
    DETAIL_ODDS,
    FOCUS_CHECK,
    SURFACE_CHECK,
    MAP_HEIGHTS,
    IN_FOCUS_MASK,
    FOCUS_BETWEEN,
    FOCUS_BETWEEN_ASTIGMATIC,
    HEIGHT_BANDS,
    CYLINDER_STRIP,
    REFOCUS_PLAN,
    SPOT_THROUGH,
    SURFACE_AT,
    SURFACE_EXTREMES,
    CAUSTIC_CROSSING,
    CHOOSE_LENS,
    REGION_HEIGHTS,
    SHARE_IN_FOCUS,
    FOCUS_FOR_SURFACE,
    SCAN_FIELD_AT,
    SCAN_FIELD_EXTENT,
    SCAN_FIELD_FOCUS,
    STUDENT_FACTOR,
    CHI_SQUARED_CHANCE,
    DIAGNOSE_MARK,
    DIAGNOSE_WIDTH,
    SETTLE_BY_PATCH,
    SETTLE_BY_POWER,
    SETTLE_BY_HEIGHTS,
    CALIBRATED_SET_UP,
    LEARNED_THRESHOLD,
    FOCUS_FROM_VANISHING,
    FOCUS_FROM_RANKS,
    PLAN_SERIES,
    SERIES_DRIFT,
    FIT_MARK_WIDTHS,
    FIT_BEAM,
    FIT_THRESHOLD,
    CALIBRATION_FROM_MARKS
};

/* Name, inputs and outputs of each function. */
const replay_function replay_functions[REPLAY_FUNCTIONS] = {
    {"convert_width", 3, 1},
    {"power_through_aperture", 2, 1},
    {"diameter_for_power", 2, 1},
    {"beam_parameters", 3, 5},
    {"beam_at", 4, 5},
    {"diameters_at", 7, 6},
    {"waist_from_rayleigh_range", 3, 1},
    {"waist_from_divergence", 3, 1},
    {"m2_from_divergence", 3, 1},
    {"astigmatic_parameters", 7, 12},
    {"astigmatic_at", 8, 8},
    {"focus_through_lens", 5, 9},
    {"focus_collimated", 4, 9},
    {"focus_astigmatic", 8, 9},
    {"refractive_index", 2, 2},
    {"lens_at_wavelength", 6, 7},
    {"lens_from_radii", 3, 2},
    {"lens_aberration", 4, 3},
    {"aberration_growth", 2, 10},
    {"focus_singlet", 9, 32},
    {"smallest_spot", 7, 7},
    {"focus_clipped", 4, 9},
    {"focus_behind_plate", 5, 6},
    {"focus_inside", 5, 7},
    {"beam_after_path", 28, 13},
    {"beam_along_path", 29, 13},
    {"focus_along_gantry", 8, 10},
    {"gantry_spread", 6, 8},
    {"even_out_gantry", 8, 12},
    {"wave_irradiance", 8, 5},
    {"wave_power", 8, 5},
    {"wave_widths", 7, 8},
    {"wave_focus", 7, 7},
    {"wave_map", 11, 9},
    {"defocus", 4, 7},
    {"astigmatic_defocus", 8, 7},
    {"offsets_for_diameter", 4, 5},
    {"offsets_for_growth", 4, 5},
    {"depth_of_focus", 7, 5},
    {"astigmatic_depth_of_focus", 11, 5},
    {"clipped_depth_of_focus", 5, 9},
    {"wave_depth_of_focus", 10, 7},
    {"singlet_defocus", 11, 11},
    {"singlet_depth_of_focus", 14, 9},
    {"tilted_spot", 5, 9},
    {"smallest_details", 2, 6},
    {"largest_spot_for_details", 3, 1},
    {"contrast_at_pitch", 2, 3},
    {"pitch_for_contrast", 2, 2},
    {"scan_dose", 5, 4},
    {"pulse_dose", 6, 6},
    {"dose_over_threshold", 2, 1},
    {"line_interval", 1, 1},
    {"dots_per_inch", 1, 1},
    {"material_mark", 10, 5},
    {"mark_width", 6, 6},
    {"mark_limits", 5, 8},
    {"fill_width", 6, 7},
    {"fill_limits", 5, 7},
    {"raster_ripple", 2, 6},
    {"interval_for_ripple", 2, 1},
    {"detail_exposure", 2, 5},
    {"blur_budget", 8, 9},
    {"fill_quality", 5, 6},
    {"offset_for_taste", 7, 6},
    {"pulsed_line", 5, 6},
    {"crater", 4, 4},
    {"groove", 5, 4},
    {"connected_speed", 5, 3},
    {"compensate", 13, 10},
    {"typeface_shares", 5, 9},
    {"smallest_text", 10, 3},
    {"text_quality", 11, 5},
    {"offset_for_text", 14, 4},
    {"tolerance_stack", 21, 13},
    {"offset_odds", 24, 11},
    {"detail_odds", 30, 20},
    {"focus_check", 48, 103},
    {"surface_check", 87, 123},
    {"map_heights", 12, 14},
    {"in_focus_mask", 14, 14},
    {"focus_between", 5, 9},
    {"focus_between_astigmatic", 9, 8},
    {"height_bands", 5, 16},
    {"cylinder_strip", 4, 8},
    {"refocus_plan", 5, 14},
    {"spot_through", 5, 11},
    {"surface_at", 36, 6},
    {"surface_extremes", 38, 12},
    {"caustic_crossing", 6, 6},
    {"choose_lens", 63, 94},
    {"region_heights", 39, 5},
    {"share_in_focus", 41, 4},
    {"focus_for_surface", 46, 15},
    {"scan_field_at", 12, 15},
    {"scan_field_extent", 11, 6},
    {"scan_field_focus", 10, 8},
    {"student_factor", 2, 1},
    {"chi_squared_chance", 2, 1},
    {"diagnose_mark", 16, 16},
    {"diagnose_width", 11, 16},
    {"settle_by_patch", 17, 16},
    {"settle_by_power", 12, 15},
    {"settle_by_heights", 11, 7},
    {"calibrated_set_up", 8, 8},
    {"learned_threshold", 8, 2},
    {"focus_from_vanishing", 29, 11},
    {"focus_from_ranks", 28, 10},
    {"plan_series", 23, 136},
    {"series_drift", 5, 5},
    {"fit_mark_widths", 46, 58},
    {"fit_beam", 30, 52},
    {"fit_threshold", 21, 30},
    {"calibration_from_marks", 15, 15},
};

#define MOST_NUMBERS 136
/* Working space of the largest map, in numbers: 12 MB, which a board has in its slow memory. */
#define WORKSPACE 1572864
#ifdef SPOTWISE_BARE_METAL
#define IN_SLOW_MEMORY __attribute__((section(".workspace")))
#else
#define IN_SLOW_MEMORY
#endif
#define DIAMETERS 4
#define PATH_ELEMENTS 3
#define GANTRY_PLACES 4
#define MAP_RADII 3
#define MAP_PLANES 2

/* Makes one call; `status` and `function` are those of call(). */
#define CALL(expression)      \
    do {                      \
        BEFORE_CALL();        \
        status = (expression); \
        AFTER_CALL(function); \
    } while (0)

/* A choice that travels as a number; one that is none becomes an unknown one. */
static uint32_t choice(double number)
{
    return number >= 0.0 && number < 4294967296.0 ? (uint32_t)number : UINT32_MAX;
}

static spotwise_beam beam_of(const double *in)
{
    spotwise_beam beam;
    spotwise_beam_init(&beam);
    beam.wavelength_m = in[0];
    beam.m2 = in[1];
    beam.waist_diameter_m = in[2];
    return beam;
}

static spotwise_astigmatic_beam astigmatic_of(const double *in)
{
    spotwise_astigmatic_beam beam;
    spotwise_astigmatic_beam_init(&beam);
    beam.wavelength_m = in[0];
    beam.m2_x = in[1];
    beam.waist_diameter_x_m = in[2];
    beam.waist_z_x_m = in[3];
    beam.m2_y = in[4];
    beam.waist_diameter_y_m = in[5];
    beam.waist_z_y_m = in[6];
    return beam;
}

static spotwise_depth_criterion criterion_of(const double *in)
{
    spotwise_depth_criterion criterion;
    spotwise_depth_criterion_init(&criterion);
    criterion.criterion = choice(in[0]);
    criterion.growth_ratio = in[1];
    criterion.drop = in[2];
    criterion.largest_diameter_m = in[3];
    return criterion;
}

static spotwise_job job_of(const double *in)
{
    spotwise_job job;
    spotwise_job_init(&job);
    job.wavelength_m = in[0];
    job.m2 = in[1];
    job.raw_beam = choice(in[2]);
    job.diameter_at_lens_m = in[3];
    job.waist_diameter_m = in[4];
    job.waist_to_lens_m = in[5];
    job.focal_length_m = in[6];
    job.focus_setting = choice(in[7]);
    job.focus_z_m = in[8];
    job.lens_to_surface_m = in[9];
    job.surface_rise_m = in[10];
    job.surface_fall_m = in[11];
    job.criterion = choice(in[12]);
    job.growth_ratio = in[13];
    job.drop = in[14];
    job.largest_diameter_m = in[15];
    job.finest_stroke_m = in[16];
    job.finest_gap_m = in[17];
    job.dose = choice(in[18]);
    job.dose_ratio = in[19];
    job.power_w = in[20];
    job.speed_m_per_s = in[21];
    job.line_interval_m = in[22];
    job.threshold_j_per_m2 = in[23];
    job.response = choice(in[24]);
    job.penetration_depth_m = in[25];
    job.removal_energy_j_per_m3 = in[26];
    job.diffusivity_m2_per_s = in[27];
    job.waist_to_expander_m = in[28];
    job.magnification = in[29];
    job.exit_power_per_m = in[30];
    job.expander_to_lens_m = in[31];
    job.lens = choice(in[32]);
    job.glass = choice(in[33]);
    job.lens_shape = choice(in[34]);
    job.shape_factor = in[35];
    job.clear_aperture_m = in[36];
    job.text = choice(in[37]);
    job.typeface = choice(in[38]);
    job.stem = in[39];
    job.effective_stroke = in[40];
    job.effective_counter = in[41];
    job.effective_gap = in[42];
    job.em_m = in[43];
    job.least_grade = choice(in[44]);
    job.crisp_exposure = in[45];
    job.good_window = in[46];
    job.readable_window = in[47];
    return job;
}

static spotwise_singlet singlet_of(const double *in)
{
    spotwise_singlet lens;
    spotwise_singlet_init(&lens);
    lens.index = in[0];
    lens.lens_shape = choice(in[1]);
    lens.shape_factor = in[2];
    lens.focal_length_m = in[3];
    return lens;
}

static void path_of(const double *in, spotwise_path_element *elements)
{
    int i;
    for (i = 0; i < PATH_ELEMENTS; i++, in += 7) {
        spotwise_path_element_init(&elements[i]);
        elements[i].element = choice(in[0]);
        elements[i].length_m = in[1];
        elements[i].focal_length_m = in[2];
        elements[i].index = in[3];
        elements[i].magnification = in[4];
        elements[i].exit_power_per_m = in[5];
        elements[i].shape_factor = in[6];
    }
}

static spotwise_wave wave_of(const double *in)
{
    spotwise_wave wave;
    spotwise_wave_init(&wave);
    wave.wavelength_m = in[0];
    wave.m2 = in[1];
    wave.diameter_at_lens_m = in[2];
    wave.clear_aperture_m = in[3];
    wave.lens_to_focus_m = in[4];
    wave.aberration_phase_rad = in[5];
    return wave;
}

static void put_astigmatic(const spotwise_astigmatic_beam *beam, double *out)
{
    out[0] = beam->wavelength_m;
    out[1] = beam->m2_x;
    out[2] = beam->waist_diameter_x_m;
    out[3] = beam->waist_z_x_m;
    out[4] = beam->m2_y;
    out[5] = beam->waist_diameter_y_m;
    out[6] = beam->waist_z_y_m;
}

static void put_cone(const spotwise_cone *cone, double *out)
{
    out[0] = cone->half_angle_rad;
    out[1] = cone->validity;
}

static void put_focused(const spotwise_focused_beam *focused, double *out)
{
    out[0] = focused->waist_diameter_m;
    out[1] = focused->rayleigh_range_m;
    out[2] = focused->divergence_full_angle_rad;
    out[3] = focused->magnification;
    out[4] = focused->focus_shift_m;
    out[5] = focused->lens_to_waist_m;
    out[6] = focused->diameter_at_lens_m;
    out[7] = focused->half_angle_rad;
    out[8] = focused->validity;
}

static void put_aberrated(const spotwise_aberrated_waist *waist, double *out)
{
    out[0] = waist->waist_diameter_m;
    out[1] = waist->m2;
    out[2] = waist->rayleigh_range_m;
    out[3] = waist->shift_m;
    out[4] = waist->lens_to_waist_m;
}

/* What a real lens makes of a beam, but for the ideal one and the validity: 22 numbers. */
static void put_real(const spotwise_singlet_focus *focus, double *out)
{
    put_aberrated(&focus->second_moment, &out[0]);
    put_aberrated(&focus->power86, &out[5]);
    out[10] = focus->handbook_diameter_m;
    out[11] = focus->quadrature_diameter_m;
    out[12] = focus->peak_irradiance_ratio;
    out[13] = focus->shape_factor;
    out[14] = focus->aberration_phase_rad;
    out[15] = focus->normalised_aberration;
    out[16] = focus->clipping_ratio;
    out[17] = focus->transmitted;
    out[18] = focus->relative_focus_shift;
    out[19] = focus->relative_rayleigh_range;
    out[20] = focus->lens_to_focus_m;
    out[21] = focus->half_angle_rad;
}

static void put_range(const spotwise_focus_range *range, double *out)
{
    out[0] = range->toward_lens_z_m;
    out[1] = range->away_from_lens_z_m;
    out[2] = range->full_m;
    out[3] = range->half_angle_rad;
    out[4] = range->validity;
}

static void put_place(const spotwise_place *place, double *out)
{
    out[0] = place->z_offset_m;
    out[1] = place->diameter_m;
    out[2] = place->growth;
    out[3] = place->irradiance_ratio;
    out[4] = place->line_dose_ratio;
    out[5] = place->seen_diameter_m;
    out[6] = place->smallest_stroke_m;
    out[7] = place->smallest_gap_m;
    out[8] = place->smallest_dot_diameter_m;
    out[9] = place->smallest_hole_diameter_m;
    out[10] = place->ripple_contrast;
    out[11] = place->crisp_em_m;
    out[12] = place->good_em_m;
    out[13] = place->readable_em_m;
    out[14] = place->text_grade;
    out[15] = place->details_hold;
    out[16] = place->in_depth;
}

static void put_verdict(const spotwise_verdict *verdict, double *out)
{
    out[0] = verdict->outcome;
    out[1] = verdict->reasons;
    out[2] = verdict->waist_diameter_m;
    out[3] = verdict->rayleigh_range_m;
    out[4] = verdict->divergence_full_angle_rad;
    out[5] = verdict->magnification;
    out[6] = verdict->focus_shift_m;
    out[7] = verdict->lens_to_waist_m;
    out[8] = verdict->diameter_at_lens_m;
    out[9] = verdict->half_angle_rad;
    out[10] = verdict->focus_z_m;
    out[11] = verdict->depth_toward_lens_z_m;
    out[12] = verdict->depth_away_from_lens_z_m;
    out[13] = verdict->depth_full_m;
    out[14] = verdict->detail_toward_lens_z_m;
    out[15] = verdict->detail_away_from_lens_z_m;
    out[16] = verdict->detail_full_m;
    out[17] = verdict->text_toward_lens_z_m;
    out[18] = verdict->text_away_from_lens_z_m;
    out[19] = verdict->text_full_m;
    out[20] = verdict->dose_ratio;
    out[21] = verdict->line_dose_j_per_m2;
    out[22] = verdict->fill_dose_j_per_m2;
    out[23] = verdict->peak_irradiance_w_per_m2;
    out[24] = verdict->dwell_s;
    out[25] = verdict->fill_depth_m;
    put_place(&verdict->highest, &out[26]);
    put_place(&verdict->datum, &out[43]);
    put_place(&verdict->lowest, &out[60]);
    out[77] = verdict->best_focus_z_m;
    out[78] = verdict->best_worst_growth;
    out[79] = verdict->promised;
    put_real(&verdict->real, &out[80]);
    out[102] = verdict->validity;
}

static void put_spread(const spotwise_gantry_spread_result *spread, double *out)
{
    out[0] = spread->smallest_spot_m;
    out[1] = spread->largest_spot_m;
    out[2] = spread->spot_ratio;
    out[3] = spread->least_focus_shift_m;
    out[4] = spread->greatest_focus_shift_m;
    out[5] = spread->focus_wander_m;
    out[6] = spread->half_angle_rad;
    out[7] = spread->validity;
}

static void put_path_beam(const spotwise_path_beam *result, double *out)
{
    put_astigmatic(&result->beam, out);
    out[7] = result->diameter_x_m;
    out[8] = result->diameter_y_m;
    out[9] = result->distance_m;
    out[10] = result->normalised_aberration;
    out[11] = result->half_angle_rad;
    out[12] = result->validity;
}

static void put_defocus(const spotwise_defocus_result *result, double *out)
{
    out[0] = result->diameter_m;
    out[1] = result->growth;
    out[2] = result->growth_minus_one;
    out[3] = result->irradiance_ratio;
    out[4] = result->line_dose_ratio;
    out[5] = result->half_angle_rad;
    out[6] = result->validity;
}

#include "replay_height_budget.h"
#include "replay_marks.h"
#include "replay_height_map.h"
#include "replay_tolerance.h"
#include "replay_shape.h"
#include "replay_in_focus.h"
#include "replay_scan_field.h"
#include "replay_diagnosis.h"
#include "replay_surface_check.h"

#include "replay_lens_choice.h"
#include "replay_learn.h"
#include "replay_beam_fit.h"
#include "replay_threshold_fit.h"
#include "replay_calibration.h"
#include "replay_by_eye.h"
#include "replay_plan.h"

/* A map with just the working space that it asks for. */
static uint32_t call_map(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    static double workspace[WORKSPACE] IN_SLOW_MEMORY;
    spotwise_wave wave = wave_of(in);
    const double *radius_m = &in[6];
    const double *z_m = &in[6 + MAP_RADII];
    double *behind = &out[MAP_RADII * MAP_PLANES];
    size_t length = 0;
    spotwise_wave_map_result result;
    uint32_t refused =
        spotwise_wave_map_workspace(&wave, radius_m, MAP_RADII, z_m, MAP_PLANES, &length, error);
    uint32_t status;
    if (length > WORKSPACE) {
        fputs("the working space of the replay is too small\n", stderr);
        return SPOTWISE_E_NULL;
    }
    /* Refused inputs are refused in the same way by both calls. */
    spotwise_wave_map_result_init(&result);
    CALL(spotwise_wave_map(&wave, radius_m, MAP_RADII, z_m, MAP_PLANES, workspace, length, out, &result,
                           refused == SPOTWISE_OK ? error : NULL));
    behind[0] = result.error_bound;
    behind[1] = result.half_angle_rad;
    behind[2] = result.validity;
    return refused == SPOTWISE_OK ? status : refused;
}

static uint32_t call(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    uint32_t status = SPOTWISE_E_NULL;
    switch (function) {
    case CONVERT_WIDTH: {
        uint32_t from = choice(in[1]);
        uint32_t to = choice(in[2]);
        CALL(spotwise_convert_width(in[0], from, to, &out[0], error));
        break;
    }
    case POWER_THROUGH_APERTURE:
        CALL(spotwise_power_through_aperture(in[0], in[1], &out[0], error));
        break;
    case DIAMETER_FOR_POWER:
        CALL(spotwise_diameter_for_power(in[0], in[1], &out[0], error));
        break;
    case BEAM_PARAMETERS: {
        spotwise_beam beam = beam_of(in);
        spotwise_beam_parameters_result result;
        spotwise_beam_parameters_result_init(&result);
        CALL(spotwise_beam_parameters(&beam, &result, error));
        out[0] = result.rayleigh_range_m;
        out[1] = result.divergence_half_angle_rad;
        out[2] = result.divergence_full_angle_rad;
        out[3] = result.beam_parameter_product_m_rad;
        out[4] = result.validity;
        break;
    }
    case BEAM_AT: {
        spotwise_beam beam = beam_of(in);
        spotwise_beam_section result;
        spotwise_beam_section_init(&result);
        CALL(spotwise_beam_at(&beam, in[3], &result, error));
        out[0] = result.diameter_m;
        out[1] = result.wavefront_curvature_per_m;
        out[2] = result.wavefront_radius_m;
        out[3] = result.half_angle_rad;
        out[4] = result.validity;
        break;
    }
    case DIAMETERS_AT: {
        spotwise_beam beam = beam_of(in);
        spotwise_cone cone;
        spotwise_cone_init(&cone);
        CALL(spotwise_diameters_at(&beam, &in[3], DIAMETERS, out, &cone, error));
        put_cone(&cone, &out[DIAMETERS]);
        break;
    }
    case WAIST_FROM_RAYLEIGH_RANGE:
        CALL(spotwise_waist_from_rayleigh_range(in[0], in[1], in[2], &out[0], error));
        break;
    case WAIST_FROM_DIVERGENCE:
        CALL(spotwise_waist_from_divergence(in[0], in[1], in[2], &out[0], error));
        break;
    case M2_FROM_DIVERGENCE:
        CALL(spotwise_m2_from_divergence(in[0], in[1], in[2], &out[0], error));
        break;
    case ASTIGMATIC_PARAMETERS: {
        spotwise_astigmatic_beam beam = astigmatic_of(in);
        spotwise_astigmatic_parameters_result result;
        spotwise_astigmatic_parameters_result_init(&result);
        CALL(spotwise_astigmatic_parameters(&beam, &result, error));
        out[0] = result.rayleigh_range_x_m;
        out[1] = result.rayleigh_range_y_m;
        out[2] = result.waist_separation_m;
        out[3] = result.relative_astigmatism;
        out[4] = result.m2_effective;
        out[5] = result.effective_waist_z_m;
        out[6] = result.effective_waist_diameter_m;
        out[7] = result.effective_rayleigh_range_m;
        out[8] = result.brightest_z_m;
        out[9] = result.brightest_irradiance_ratio;
        out[10] = result.half_angle_rad;
        out[11] = result.validity;
        break;
    }
    case ASTIGMATIC_AT: {
        spotwise_astigmatic_beam beam = astigmatic_of(in);
        spotwise_astigmatic_section result;
        spotwise_astigmatic_section_init(&result);
        CALL(spotwise_astigmatic_at(&beam, in[7], &result, error));
        out[0] = result.diameter_x_m;
        out[1] = result.diameter_y_m;
        out[2] = result.ellipticity;
        out[3] = result.circular;
        out[4] = result.effective_diameter_m;
        out[5] = result.equal_area_diameter_m;
        out[6] = result.half_angle_rad;
        out[7] = result.validity;
        break;
    }
    case FOCUS_THROUGH_LENS: {
        spotwise_beam raw = beam_of(in);
        spotwise_focused_beam result;
        spotwise_focused_beam_init(&result);
        CALL(spotwise_focus_through_lens(&raw, in[3], in[4], &result, error));
        put_focused(&result, out);
        break;
    }
    case FOCUS_COLLIMATED: {
        spotwise_focused_beam result;
        spotwise_focused_beam_init(&result);
        CALL(spotwise_focus_collimated(in[0], in[1], in[2], in[3], &result, error));
        put_focused(&result, out);
        break;
    }
    case FOCUS_ASTIGMATIC: {
        spotwise_astigmatic_beam raw = astigmatic_of(in);
        spotwise_astigmatic_focus result;
        spotwise_astigmatic_focus_init(&result);
        CALL(spotwise_focus_astigmatic(&raw, in[7], &result, error));
        put_astigmatic(&result.beam, out);
        out[7] = result.half_angle_rad;
        out[8] = result.validity;
        break;
    }
    case REFRACTIVE_INDEX: {
        spotwise_glass_index result;
        uint32_t glass = choice(in[0]);
        spotwise_glass_index_init(&result);
        CALL(spotwise_refractive_index(glass, in[1], &result, error));
        out[0] = result.index;
        out[1] = result.dispersion_per_m;
        break;
    }
    case LENS_AT_WAVELENGTH: {
        spotwise_lens_at_wavelength_result result;
        uint32_t glass = choice(in[0]);
        uint32_t shape = choice(in[1]);
        spotwise_lens_at_wavelength_result_init(&result);
        CALL(spotwise_lens_at_wavelength(glass, shape, in[2], in[3], in[4], in[5], &result, error));
        out[0] = result.design_index;
        out[1] = result.index;
        out[2] = result.focal_length_m;
        out[3] = result.focal_shift_m;
        out[4] = result.shape_factor;
        out[5] = result.blur_coefficient;
        out[6] = result.wavefront_coefficient_per_m3;
        break;
    }
    case LENS_FROM_RADII: {
        spotwise_lens_form result;
        spotwise_lens_form_init(&result);
        CALL(spotwise_lens_from_radii(in[0], in[1], in[2], &result, error));
        out[0] = result.focal_length_m;
        out[1] = result.shape_factor;
        break;
    }
    case LENS_ABERRATION: {
        spotwise_singlet lens = singlet_of(in);
        spotwise_lens_aberration_result result;
        spotwise_lens_aberration_result_init(&result);
        CALL(spotwise_lens_aberration(&lens, &result, error));
        out[0] = result.shape_factor;
        out[1] = result.blur_coefficient;
        out[2] = result.wavefront_coefficient_per_m3;
        break;
    }
    case ABERRATION_GROWTH: {
        spotwise_aberration_growth_result result;
        spotwise_aberration_growth_result_init(&result);
        CALL(spotwise_aberration_growth(in[0], in[1], &result, error));
        out[0] = result.second_moment_m2;
        out[1] = result.second_moment_growth;
        out[2] = result.second_moment_shift;
        out[3] = result.power86_growth;
        out[4] = result.power86_shift;
        out[5] = result.handbook_growth;
        out[6] = result.quadrature_growth;
        out[7] = result.peak_irradiance_ratio;
        out[8] = result.normalised_aberration;
        out[9] = result.validity;
        break;
    }
    case FOCUS_SINGLET: {
        spotwise_beam raw = beam_of(in);
        spotwise_singlet lens = singlet_of(&in[4]);
        spotwise_singlet_focus result;
        spotwise_singlet_focus_init(&result);
        CALL(spotwise_focus_singlet(&raw, in[3], &lens, in[8], &result, error));
        put_focused(&result.ideal, out);
        put_real(&result, &out[9]);
        out[31] = result.validity;
        break;
    }
    case SMALLEST_SPOT: {
        spotwise_singlet lens = singlet_of(&in[2]);
        uint32_t measure = choice(in[6]);
        spotwise_smallest_spot_result result;
        spotwise_smallest_spot_result_init(&result);
        CALL(spotwise_smallest_spot(in[0], in[1], &lens, measure, &result, error));
        out[0] = result.diameter_at_lens_m;
        out[1] = result.spot_diameter_m;
        out[2] = result.aberration_phase_rad;
        out[3] = result.normalised_aberration;
        out[4] = result.relative_rayleigh_range;
        out[5] = result.half_angle_rad;
        out[6] = result.validity;
        break;
    }
    case FOCUS_CLIPPED: {
        spotwise_clipped_focus result;
        spotwise_clipped_focus_init(&result);
        CALL(spotwise_focus_clipped(in[0], in[1], in[2], in[3], &result, error));
        out[0] = result.clipping_ratio;
        out[1] = result.transmitted;
        out[2] = result.diameter_1e2_m;
        out[3] = result.fwhm_m;
        out[4] = result.diameter_power86_m;
        out[5] = result.peak_irradiance_ratio;
        out[6] = result.relative_rayleigh_range;
        out[7] = result.half_angle_rad;
        out[8] = result.validity;
        break;
    }
    case FOCUS_BEHIND_PLATE: {
        spotwise_beam beam = beam_of(in);
        spotwise_plate_focus result;
        spotwise_plate_focus_init(&result);
        CALL(spotwise_focus_behind_plate(&beam, in[3], in[4], &result, error));
        out[0] = result.focus_shift_m;
        out[1] = result.edge_focus_shift_m;
        out[2] = result.aberration_phase_rad;
        out[3] = result.normalised_aberration;
        out[4] = result.half_angle_rad;
        out[5] = result.validity;
        break;
    }
    case FOCUS_INSIDE: {
        spotwise_beam beam = beam_of(in);
        spotwise_inside_focus result;
        spotwise_inside_focus_init(&result);
        CALL(spotwise_focus_inside(&beam, in[3], in[4], &result, error));
        out[0] = result.depth_m;
        out[1] = result.edge_depth_m;
        out[2] = result.rayleigh_range_m;
        out[3] = result.aberration_phase_rad;
        out[4] = result.normalised_aberration;
        out[5] = result.half_angle_rad;
        out[6] = result.validity;
        break;
    }
    case BEAM_AFTER_PATH: {
        spotwise_astigmatic_beam raw = astigmatic_of(in);
        spotwise_path_element elements[PATH_ELEMENTS];
        spotwise_path_beam result;
        path_of(&in[7], elements);
        spotwise_path_beam_init(&result);
        CALL(spotwise_beam_after_path(&raw, elements, PATH_ELEMENTS, &result, error));
        put_path_beam(&result, out);
        break;
    }
    case BEAM_ALONG_PATH: {
        spotwise_astigmatic_beam raw = astigmatic_of(in);
        spotwise_path_element elements[PATH_ELEMENTS];
        spotwise_path_beam result;
        path_of(&in[7], elements);
        spotwise_path_beam_init(&result);
        CALL(spotwise_beam_along_path(&raw, elements, PATH_ELEMENTS, in[28], &result, error));
        put_path_beam(&result, out);
        break;
    }
    case FOCUS_ALONG_GANTRY: {
        spotwise_beam raw = beam_of(in);
        spotwise_cone cone;
        spotwise_cone_init(&cone);
        CALL(spotwise_focus_along_gantry(&raw, &in[3], GANTRY_PLACES, in[7], out, &out[GANTRY_PLACES],
                                         &cone, error));
        put_cone(&cone, &out[2 * GANTRY_PLACES]);
        break;
    }
    case GANTRY_SPREAD: {
        spotwise_beam raw = beam_of(in);
        spotwise_gantry_spread_result result;
        spotwise_gantry_spread_result_init(&result);
        CALL(spotwise_gantry_spread(&raw, in[3], in[4], in[5], &result, error));
        put_spread(&result, out);
        break;
    }
    case EVEN_OUT_GANTRY: {
        spotwise_beam raw = beam_of(in);
        spotwise_even_gantry result;
        spotwise_even_gantry_init(&result);
        CALL(spotwise_even_out_gantry(&raw, in[3], in[4], in[5], in[6], in[7], &result, error));
        out[0] = result.exit_power_per_m;
        out[1] = result.waist_diameter_m;
        out[2] = result.expander_to_waist_m;
        out[3] = result.ends_equal;
        put_spread(&result.spread, &out[4]);
        break;
    }
    case WAVE_IRRADIANCE: {
        spotwise_wave wave = wave_of(in);
        spotwise_wave_irradiance_result result;
        spotwise_wave_irradiance_result_init(&result);
        CALL(spotwise_wave_irradiance(&wave, in[6], in[7], &result, error));
        out[0] = result.irradiance_ratio;
        out[1] = result.irradiance_per_watt_per_m2;
        out[2] = result.error_bound;
        out[3] = result.half_angle_rad;
        out[4] = result.validity;
        break;
    }
    case WAVE_POWER: {
        spotwise_wave wave = wave_of(in);
        spotwise_wave_power_result result;
        spotwise_wave_power_result_init(&result);
        CALL(spotwise_wave_power(&wave, in[6], in[7], &result, error));
        out[0] = result.share;
        out[1] = result.share_of_transmitted;
        out[2] = result.error_bound;
        out[3] = result.half_angle_rad;
        out[4] = result.validity;
        break;
    }
    case WAVE_WIDTHS: {
        spotwise_wave wave = wave_of(in);
        spotwise_wave_widths_result result;
        spotwise_wave_widths_result_init(&result);
        CALL(spotwise_wave_widths(&wave, in[6], &result, error));
        out[0] = result.irradiance_ratio;
        out[1] = result.diameter_1e2_m;
        out[2] = result.fwhm_m;
        out[3] = result.diameter_power86_m;
        out[4] = result.transmitted;
        out[5] = result.error_bound;
        out[6] = result.half_angle_rad;
        out[7] = result.validity;
        break;
    }
    case WAVE_FOCUS: {
        spotwise_wave wave = wave_of(in);
        uint32_t measure = choice(in[6]);
        spotwise_wave_focus_result result;
        spotwise_wave_focus_result_init(&result);
        CALL(spotwise_wave_focus(&wave, measure, &result, error));
        out[0] = result.z_m;
        out[1] = result.irradiance_ratio;
        out[2] = result.diameter_power86_m;
        out[3] = result.diameter_d4sigma_m;
        out[4] = result.error_bound;
        out[5] = result.half_angle_rad;
        out[6] = result.validity;
        break;
    }
    case WAVE_MAP:
        status = call_map(function, in, out, error);
        break;
    case DEFOCUS: {
        spotwise_beam beam = beam_of(in);
        spotwise_defocus_result result;
        spotwise_defocus_result_init(&result);
        CALL(spotwise_defocus(&beam, in[3], &result, error));
        put_defocus(&result, out);
        break;
    }
    case ASTIGMATIC_DEFOCUS: {
        spotwise_astigmatic_beam beam = astigmatic_of(in);
        spotwise_astigmatic_defocus_result result;
        spotwise_astigmatic_defocus_result_init(&result);
        CALL(spotwise_astigmatic_defocus(&beam, in[7], &result, error));
        out[0] = result.growth_x;
        out[1] = result.growth_y;
        out[2] = result.irradiance_ratio;
        out[3] = result.line_dose_ratio_along_x;
        out[4] = result.line_dose_ratio_along_y;
        out[5] = result.half_angle_rad;
        out[6] = result.validity;
        break;
    }
    case OFFSETS_FOR_DIAMETER: {
        spotwise_beam beam = beam_of(in);
        spotwise_focus_range result;
        spotwise_focus_range_init(&result);
        CALL(spotwise_offsets_for_diameter(&beam, in[3], &result, error));
        put_range(&result, out);
        break;
    }
    case OFFSETS_FOR_GROWTH: {
        spotwise_beam beam = beam_of(in);
        spotwise_focus_range result;
        spotwise_focus_range_init(&result);
        CALL(spotwise_offsets_for_growth(&beam, in[3], &result, error));
        put_range(&result, out);
        break;
    }
    case DEPTH_OF_FOCUS: {
        spotwise_beam beam = beam_of(in);
        spotwise_depth_criterion criterion = criterion_of(&in[3]);
        spotwise_focus_range result;
        spotwise_focus_range_init(&result);
        CALL(spotwise_depth_of_focus(&beam, &criterion, &result, error));
        put_range(&result, out);
        break;
    }
    case ASTIGMATIC_DEPTH_OF_FOCUS: {
        spotwise_astigmatic_beam beam = astigmatic_of(in);
        spotwise_depth_criterion criterion = criterion_of(&in[7]);
        spotwise_focus_range result;
        spotwise_focus_range_init(&result);
        CALL(spotwise_astigmatic_depth_of_focus(&beam, &criterion, &result, error));
        put_range(&result, out);
        break;
    }
    case CLIPPED_DEPTH_OF_FOCUS: {
        spotwise_clipped_depth result;
        spotwise_clipped_depth_init(&result);
        CALL(spotwise_clipped_depth_of_focus(in[0], in[1], in[2], in[3], in[4], &result, error));
        out[0] = result.toward_lens_z_m;
        out[1] = result.away_from_lens_z_m;
        out[2] = result.full_m;
        out[3] = result.half_angle_rad;
        out[4] = result.validity;
        out[5] = result.brightest_z_m;
        out[6] = result.clipping_ratio;
        out[7] = result.relative_rayleigh_range;
        out[8] = result.relative_half_depth;
        break;
    }
    case WAVE_DEPTH_OF_FOCUS: {
        spotwise_wave wave = wave_of(in);
        spotwise_depth_criterion criterion = criterion_of(&in[6]);
        spotwise_wave_depth result;
        spotwise_wave_depth_init(&result);
        CALL(spotwise_wave_depth_of_focus(&wave, &criterion, &result, error));
        out[0] = result.best_z_m;
        out[1] = result.toward_lens_z_m;
        out[2] = result.away_from_lens_z_m;
        out[3] = result.full_m;
        out[4] = result.error_bound_m;
        out[5] = result.half_angle_rad;
        out[6] = result.validity;
        break;
    }
    case SINGLET_DEFOCUS: {
        spotwise_beam raw = beam_of(in);
        spotwise_singlet lens = singlet_of(&in[4]);
        uint32_t measure = choice(in[9]);
        spotwise_singlet_defocus_result result;
        spotwise_singlet_defocus_result_init(&result);
        CALL(spotwise_singlet_defocus(&raw, in[3], &lens, in[8], measure, in[10], &result, error));
        out[0] = result.diameter_m;
        out[1] = result.growth;
        out[2] = result.growth_minus_one;
        out[3] = result.irradiance_ratio;
        out[4] = result.line_dose_ratio;
        out[5] = result.half_angle_rad;
        out[6] = result.validity;
        out[7] = result.normalised_aberration;
        out[8] = result.clipping_ratio;
        out[9] = result.relative_focus_shift;
        out[10] = result.relative_rayleigh_range;
        break;
    }
    case SINGLET_DEPTH_OF_FOCUS: {
        spotwise_beam raw = beam_of(in);
        spotwise_singlet lens = singlet_of(&in[4]);
        uint32_t measure = choice(in[9]);
        spotwise_depth_criterion criterion = criterion_of(&in[10]);
        spotwise_singlet_depth result;
        spotwise_singlet_depth_init(&result);
        CALL(spotwise_singlet_depth_of_focus(&raw, in[3], &lens, in[8], measure, &criterion, &result, error));
        out[0] = result.toward_lens_z_m;
        out[1] = result.away_from_lens_z_m;
        out[2] = result.full_m;
        out[3] = result.half_angle_rad;
        out[4] = result.validity;
        out[5] = result.normalised_aberration;
        out[6] = result.clipping_ratio;
        out[7] = result.relative_focus_shift;
        out[8] = result.relative_rayleigh_range;
        break;
    }
    case TILTED_SPOT: {
        spotwise_beam beam = beam_of(in);
        spotwise_tilted_spot_result result;
        spotwise_tilted_spot_result_init(&result);
        CALL(spotwise_tilted_spot(&beam, in[3], in[4], &result, error));
        out[0] = result.diameter_across_m;
        out[1] = result.diameter_along_m;
        out[2] = result.contour_along_m;
        out[3] = result.contour_shift_m;
        out[4] = result.irradiance_ratio;
        out[5] = result.line_dose_ratio;
        out[6] = result.grazing_ratio;
        out[7] = result.half_angle_rad;
        out[8] = result.validity;
        break;
    }
    case SMALLEST_DETAILS: {
        spotwise_smallest_details_result result;
        spotwise_smallest_details_result_init(&result);
        CALL(spotwise_smallest_details(in[0], in[1], &result, error));
        out[0] = result.bar_m;
        out[1] = result.gap_m;
        out[2] = result.dot_diameter_m;
        out[3] = result.hole_diameter_m;
        out[4] = result.square_m;
        out[5] = result.edge_shift_m;
        break;
    }
    case LARGEST_SPOT_FOR_DETAILS:
        CALL(spotwise_largest_spot_for_details(in[0], in[1], in[2], &out[0], error));
        break;
    case CONTRAST_AT_PITCH: {
        spotwise_grating_contrast result;
        spotwise_grating_contrast_init(&result);
        CALL(spotwise_contrast_at_pitch(in[0], in[1], &result, error));
        out[0] = result.sine;
        out[1] = result.bars;
        out[2] = result.dose_window_ratio;
        break;
    }
    case PITCH_FOR_CONTRAST: {
        spotwise_contrast_pitch result;
        spotwise_contrast_pitch_init(&result);
        CALL(spotwise_pitch_for_contrast(in[0], in[1], &result, error));
        out[0] = result.sine_m;
        out[1] = result.bars_m;
        break;
    }
    case FOCUS_CHECK: {
        spotwise_job job = job_of(in);
        spotwise_verdict result;
        spotwise_verdict_init(&result);
        CALL(spotwise_focus_check(&job, &result, error));
        put_verdict(&result, out);
        break;
    }
    case SURFACE_CHECK:
        return call_surface_check(function, in, out, error);
    case MAP_HEIGHTS:
    case IN_FOCUS_MASK:
        return call_height_map(function, in, out, error);
    case TOLERANCE_STACK:
    case OFFSET_ODDS:
    case DETAIL_ODDS:
        return call_tolerance(function, in, out, error);
    case FOCUS_BETWEEN:
    case FOCUS_BETWEEN_ASTIGMATIC:
    case HEIGHT_BANDS:
    case CYLINDER_STRIP:
    case REFOCUS_PLAN:
    case SPOT_THROUGH:
        return call_height_budget(function, in, out, error);
    case SURFACE_AT:
    case SURFACE_EXTREMES:
        return call_shape(function, in, out, error);
    case CAUSTIC_CROSSING:
    case CHOOSE_LENS:
        return call_lens_choice(function, in, out, error);
    case REGION_HEIGHTS:
    case SHARE_IN_FOCUS:
    case FOCUS_FOR_SURFACE:
        return call_in_focus(function, in, out, error);
    case SCAN_FIELD_AT:
    case SCAN_FIELD_EXTENT:
    case SCAN_FIELD_FOCUS:
        return call_scan_field(function, in, out, error);
    case FIT_BEAM:
        return call_beam_fit(function, in, out, error);
    case FIT_THRESHOLD:
        return call_threshold_fit(function, in, out, error);
    case STUDENT_FACTOR:
    case CHI_SQUARED_CHANCE:
    case FIT_MARK_WIDTHS:
        return call_learn(function, in, out, error);
    case DIAGNOSE_MARK:
    case DIAGNOSE_WIDTH:
    case SETTLE_BY_PATCH:
    case SETTLE_BY_POWER:
    case SETTLE_BY_HEIGHTS:
        return call_diagnosis(function, in, out, error);
    case CALIBRATED_SET_UP:
    case LEARNED_THRESHOLD:
    case CALIBRATION_FROM_MARKS:
        return call_calibration(function, in, out, error);
    case FOCUS_FROM_VANISHING:
    case FOCUS_FROM_RANKS:
        return call_by_eye(function, in, out, error);
    case PLAN_SERIES:
    case SERIES_DRIFT:
        return call_plan(function, in, out, error);
    default:
        return call_mark(function, in, out, error);
    }
    return status;
}

/* Gives every number of a refused row, and every NaN, the bits of the quiet NaN. */
static void canonical(double *out, uint32_t count, int refused)
{
    const uint64_t nan_bits = UINT64_C(0x7ff8000000000000);
    uint32_t i;
    for (i = 0; i < count; i++) {
        if (isnan(out[i])) {
            memcpy(&out[i], &nan_bits, sizeof nan_bits);
        } else if (refused) {
            /* A code or flag of a call that failed must be 0; anything else is stale. */
            if (out[i] == 0.0) {
                memcpy(&out[i], &nan_bits, sizeof nan_bits);
            }
        }
    }
}

static int read_u32(FILE *file, uint32_t *number)
{
    return fread(number, sizeof *number, 1, file) == 1;
}

static int replay_rows(FILE *in_file, FILE *out_file)
{
    char magic[8];
    uint32_t rows;
    uint32_t row;
    if (fread(magic, sizeof magic, 1, in_file) != 1 || memcmp(magic, "SPOTREP1", sizeof magic) != 0 ||
        !read_u32(in_file, &rows)) {
        fputs("the input file is no replay\n", stderr);
        return 1;
    }
    fwrite("SPOTOUT1", 8, 1, out_file);
    fwrite(&rows, sizeof rows, 1, out_file);
    for (row = 0; row < rows; row++) {
        double in[MOST_NUMBERS];
        double out[MOST_NUMBERS];
        spotwise_error error;
        uint32_t function;
        uint32_t inputs;
        uint32_t head[4];
        uint32_t i;
        if (!read_u32(in_file, &function) || !read_u32(in_file, &inputs) || function >= REPLAY_FUNCTIONS ||
            inputs != replay_functions[function].inputs ||
            fread(in, sizeof in[0], inputs, in_file) != inputs) {
            fprintf(stderr, "row %lu of the input file is broken\n", (unsigned long)row);
            return 1;
        }
        for (i = 0; i < MOST_NUMBERS; i++) {
            out[i] = -1.0; /* a stale number would show */
        }
        spotwise_error_init(&error);
        head[0] = call(function, in, out, &error);
        if (head[0] != error.code) {
            fprintf(stderr, "row %lu: status and report differ\n", (unsigned long)row);
            return 1;
        }
        head[1] = error.parameter;
        head[2] = replay_functions[function].outputs;
        head[3] = 0;
        canonical(out, head[2], head[0] != SPOTWISE_OK);
        fwrite(head, sizeof head, 1, out_file);
        fwrite(out, sizeof out[0], head[2], out_file);
    }
    return 0;
}

int replay(const char *in_path, const char *out_path)
{
    FILE *in_file = fopen(in_path, "rb");
    FILE *out_file = in_file ? fopen(out_path, "wb") : NULL;
    int failed = 1;
    if (out_file) {
        failed = replay_rows(in_file, out_file);
        if (fclose(out_file) != 0) {
            failed = 1;
        }
    } else {
        fputs("a file of the replay cannot be opened\n", stderr);
    }
    if (in_file) {
        fclose(in_file);
    }
    return failed;
}

#ifndef SPOTWISE_BARE_METAL
int main(int count, char **arguments)
{
    if (count != 3) {
        fputs("usage: replay INPUT OUTPUT\n", stderr);
        return 2;
    }
    return replay(arguments[1], arguments[2]);
}
#endif
