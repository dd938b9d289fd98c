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
    DEFOCUS,
    ASTIGMATIC_DEFOCUS,
    OFFSETS_FOR_DIAMETER,
    OFFSETS_FOR_GROWTH,
    DEPTH_OF_FOCUS,
    ASTIGMATIC_DEPTH_OF_FOCUS,
    SMALLEST_DETAILS,
    LARGEST_SPOT_FOR_DETAILS,
    CONTRAST_AT_PITCH,
    PITCH_FOR_CONTRAST,
    FOCUS_CHECK
};

/* Name, inputs and outputs of each function. */
const replay_function replay_functions[REPLAY_FUNCTIONS] = {
    {"convert_width", 3, 1},
    {"power_through_aperture", 2, 1},
    {"diameter_for_power", 2, 1},
    {"beam_parameters", 3, 5},
    {"beam_at", 4, 4},
    {"diameters_at", 7, 4},
    {"waist_from_rayleigh_range", 3, 1},
    {"waist_from_divergence", 3, 1},
    {"m2_from_divergence", 3, 1},
    {"astigmatic_parameters", 7, 11},
    {"astigmatic_at", 8, 7},
    {"focus_through_lens", 5, 8},
    {"focus_collimated", 4, 8},
    {"focus_astigmatic", 8, 7},
    {"defocus", 4, 6},
    {"astigmatic_defocus", 8, 6},
    {"offsets_for_diameter", 4, 4},
    {"offsets_for_growth", 4, 4},
    {"depth_of_focus", 7, 4},
    {"astigmatic_depth_of_focus", 11, 4},
    {"smallest_details", 2, 5},
    {"largest_spot_for_details", 3, 1},
    {"contrast_at_pitch", 2, 3},
    {"pitch_for_contrast", 2, 1},
    {"focus_check", 19, 52},
};

#define MOST_NUMBERS 64

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
    job.dose_ratio = in[18];
    return job;
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
    out[7] = focused->validity;
}

static void put_range(const spotwise_focus_range *range, double *out)
{
    out[0] = range->toward_lens_z_m;
    out[1] = range->away_from_lens_z_m;
    out[2] = range->full_m;
    out[3] = range->validity;
}

static void put_place(const spotwise_place *place, double *out)
{
    out[0] = place->z_offset_m;
    out[1] = place->diameter_m;
    out[2] = place->growth;
    out[3] = place->irradiance_ratio;
    out[4] = place->line_dose_ratio;
    out[5] = place->smallest_stroke_m;
    out[6] = place->smallest_gap_m;
    out[7] = place->smallest_dot_diameter_m;
    out[8] = place->smallest_hole_diameter_m;
    out[9] = place->details_hold;
    out[10] = place->in_depth;
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
    out[9] = verdict->focus_z_m;
    out[10] = verdict->depth_toward_lens_z_m;
    out[11] = verdict->depth_away_from_lens_z_m;
    out[12] = verdict->depth_full_m;
    out[13] = verdict->detail_toward_lens_z_m;
    out[14] = verdict->detail_away_from_lens_z_m;
    out[15] = verdict->detail_full_m;
    put_place(&verdict->highest, &out[16]);
    put_place(&verdict->datum, &out[27]);
    put_place(&verdict->lowest, &out[38]);
    out[49] = verdict->best_focus_z_m;
    out[50] = verdict->best_worst_growth;
    out[51] = verdict->validity;
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
        out[3] = result.validity;
        break;
    }
    case DIAMETERS_AT: {
        spotwise_beam beam = beam_of(in);
        CALL(spotwise_diameters_at(&beam, &in[3], 4, out, error));
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
        out[10] = result.validity;
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
        out[6] = result.validity;
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
        spotwise_astigmatic_beam result;
        spotwise_astigmatic_beam_init(&result);
        CALL(spotwise_focus_astigmatic(&raw, in[7], &result, error));
        out[0] = result.wavelength_m;
        out[1] = result.m2_x;
        out[2] = result.waist_diameter_x_m;
        out[3] = result.waist_z_x_m;
        out[4] = result.m2_y;
        out[5] = result.waist_diameter_y_m;
        out[6] = result.waist_z_y_m;
        break;
    }
    case DEFOCUS: {
        spotwise_beam beam = beam_of(in);
        spotwise_defocus_result result;
        spotwise_defocus_result_init(&result);
        CALL(spotwise_defocus(&beam, in[3], &result, error));
        out[0] = result.diameter_m;
        out[1] = result.growth;
        out[2] = result.growth_minus_one;
        out[3] = result.irradiance_ratio;
        out[4] = result.line_dose_ratio;
        out[5] = result.validity;
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
        out[5] = result.validity;
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
    case SMALLEST_DETAILS: {
        spotwise_smallest_details_result result;
        spotwise_smallest_details_result_init(&result);
        CALL(spotwise_smallest_details(in[0], in[1], &result, error));
        out[0] = result.bar_m;
        out[1] = result.gap_m;
        out[2] = result.dot_diameter_m;
        out[3] = result.hole_diameter_m;
        out[4] = result.edge_shift_m;
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
    case PITCH_FOR_CONTRAST:
        CALL(spotwise_pitch_for_contrast(in[0], in[1], &out[0], error));
        break;
    case FOCUS_CHECK: {
        spotwise_job job = job_of(in);
        spotwise_verdict result;
        spotwise_verdict_init(&result);
        CALL(spotwise_focus_check(&job, &result, error));
        put_verdict(&result, out);
        break;
    }
    default:
        break;
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
