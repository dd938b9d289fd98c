/*
 * What the C face promises and the vectors do not show: NULL, struct_size, nothing stale on
 * failure, init functions, texts and ranges. Runs on a desktop and on a controller.
 */
#include "face.h"

#include "layout.h"
#include "spotwise.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static int checks;
static int failures;

#define CHECK(condition)                                          \
    do {                                                          \
        checks++;                                                 \
        if (!(condition)) {                                       \
            failures++;                                           \
            printf("line %d: %s\n", __LINE__, #condition);        \
        }                                                         \
    } while (0)

/* Filler that is no valid size, code, flag or NaN. */
#define STALE 0x55

static int is_quiet_nan(const unsigned char *bytes)
{
    uint64_t bits;
    memcpy(&bits, bytes, sizeof bits);
    return bits == UINT64_C(0x7ff8000000000000);
}

/* As is_blank, for the members before the first nested struct; `size` is that of the whole struct. */
static int opens_blank(const void *data, size_t size, size_t words, size_t nested)
{
    const unsigned char *bytes = (const unsigned char *)data;
    uint32_t word;
    size_t at;
    memcpy(&word, bytes, sizeof word);
    if (word != size) {
        return 0;
    }
    for (at = 4; at < 4 + 4 * words; at += 4) {
        memcpy(&word, &bytes[at], sizeof word);
        if (word != 0) {
            return 0;
        }
    }
    for (; at < nested; at += 8) {
        if (!is_quiet_nan(&bytes[at])) {
            return 0;
        }
    }
    return 1;
}

/* Whether a struct holds its size, `words` zeros and then nothing but quiet NaNs. */
static int is_blank(const void *data, size_t size, size_t words)
{
    return opens_blank(data, size, words, size);
}

static int is_blank_singlet_focus(const spotwise_singlet_focus *focus)
{
    return opens_blank(focus, sizeof *focus, 1, offsetof(spotwise_singlet_focus, ideal)) &&
           is_blank(&focus->ideal, sizeof focus->ideal, 1) &&
           is_blank(&focus->second_moment, sizeof focus->second_moment, 1) &&
           is_blank(&focus->power86, sizeof focus->power86, 1);
}

static int is_blank_astigmatic_focus(const spotwise_astigmatic_focus *focus)
{
    return opens_blank(focus, sizeof *focus, 1, offsetof(spotwise_astigmatic_focus, beam)) &&
           is_blank(&focus->beam, sizeof focus->beam, 1);
}

static int is_blank_path_beam(const spotwise_path_beam *beam)
{
    return opens_blank(beam, sizeof *beam, 1, offsetof(spotwise_path_beam, beam)) &&
           is_blank(&beam->beam, sizeof beam->beam, 1);
}

static int is_blank_even_gantry(const spotwise_even_gantry *even)
{
    return opens_blank(even, sizeof *even, 1, offsetof(spotwise_even_gantry, spread)) &&
           is_blank(&even->spread, sizeof even->spread, 1);
}

static int is_blank_verdict(const spotwise_verdict *verdict)
{
    return opens_blank(verdict, sizeof *verdict, 3, offsetof(spotwise_verdict, highest)) &&
           is_blank(&verdict->highest, sizeof verdict->highest, 3) &&
           is_blank(&verdict->datum, sizeof verdict->datum, 3) &&
           is_blank(&verdict->lowest, sizeof verdict->lowest, 3) && verdict->promised == 0 &&
           verdict->has_real == 0 && is_blank_singlet_focus(&verdict->real);
}

/* A fresh job is blank but for the lens, which is ideal, its aperture, which is none, the dose, which is by
   ratio, the response, which is that of a coating, the text, of which there is none, and the cut-offs of its
   grades. */
static int is_fresh_job(const spotwise_job *job)
{
    spotwise_job rest = *job;
    if (job->lens != SPOTWISE_LENS_IDEAL || job->clear_aperture_m != (double)INFINITY ||
        job->dose != SPOTWISE_DOSE_BY_RATIO || job->response != SPOTWISE_RESPONSE_COATING ||
        job->text != SPOTWISE_TEXT_NONE || job->crisp_exposure != 0.98 || job->good_window != 2.0 ||
        job->readable_window != 1.1) {
        return 0;
    }
    rest.lens = rest.dose = rest.response = rest.text = 0;
    rest.clear_aperture_m = rest.crisp_exposure = rest.good_window = rest.readable_window = (double)NAN;
    return is_blank(&rest, sizeof rest, 11);
}

static int is_filled_with(const void *data, size_t size, int filler)
{
    const unsigned char *bytes = (const unsigned char *)data;
    size_t i;
    for (i = 0; i < size; i++) {
        if (bytes[i] != filler) {
            return 0;
        }
    }
    return 1;
}

/* Calls an init function, and checks what it writes, and that it writes no further. */
#define CHECK_INIT_AS(type, blank)                            \
    do {                                                      \
        type data[2];                                         \
        memset(data, STALE, sizeof data);                     \
        type##_init(&data[0]);                                \
        CHECK(blank);                                         \
        CHECK(is_filled_with(&data[1], sizeof(type), STALE)); \
        type##_init(NULL);                                    \
    } while (0)

#define CHECK_INIT(type, words) CHECK_INIT_AS(type, is_blank(&data[0], sizeof(type), words))

static void check_init(void)
{
    CHECK_INIT(spotwise_error, 3);
    CHECK_INIT(spotwise_cone, 1);
    CHECK_INIT(spotwise_beam, 1);
    CHECK_INIT(spotwise_beam_parameters_result, 1);
    CHECK_INIT(spotwise_beam_section, 1);
    CHECK_INIT(spotwise_astigmatic_beam, 1);
    CHECK_INIT(spotwise_astigmatic_parameters_result, 1);
    CHECK_INIT(spotwise_astigmatic_section, 3);
    CHECK_INIT(spotwise_glass_index, 1);
    CHECK_INIT(spotwise_lens_at_wavelength_result, 1);
    CHECK_INIT(spotwise_focused_beam, 1);
    CHECK_INIT_AS(spotwise_astigmatic_focus, is_blank_astigmatic_focus(&data[0]));
    CHECK_INIT(spotwise_singlet, 1);
    CHECK_INIT(spotwise_lens_form, 1);
    CHECK_INIT(spotwise_lens_aberration_result, 1);
    CHECK_INIT(spotwise_aberration_growth_result, 1);
    CHECK_INIT_AS(spotwise_singlet_focus, is_blank_singlet_focus(&data[0]));
    CHECK_INIT(spotwise_smallest_spot_result, 1);
    CHECK_INIT(spotwise_clipped_focus, 1);
    CHECK_INIT(spotwise_gantry_spread_result, 1);
    CHECK_INIT_AS(spotwise_even_gantry, is_blank_even_gantry(&data[0]));
    CHECK_INIT(spotwise_path_element, 1);
    CHECK_INIT_AS(spotwise_path_beam, is_blank_path_beam(&data[0]));
    CHECK_INIT(spotwise_plate_focus, 1);
    CHECK_INIT(spotwise_inside_focus, 1);
    CHECK_INIT(spotwise_wave, 1);
    CHECK_INIT(spotwise_wave_irradiance_result, 1);
    CHECK_INIT(spotwise_wave_power_result, 1);
    CHECK_INIT(spotwise_wave_widths_result, 1);
    CHECK_INIT(spotwise_wave_focus_result, 1);
    CHECK_INIT(spotwise_wave_map_result, 1);
    CHECK_INIT(spotwise_defocus_result, 1);
    CHECK_INIT(spotwise_astigmatic_defocus_result, 1);
    CHECK_INIT(spotwise_depth_criterion, 1);
    CHECK_INIT(spotwise_focus_range, 1);
    CHECK_INIT(spotwise_clipped_depth, 1);
    CHECK_INIT(spotwise_wave_depth, 1);
    CHECK_INIT(spotwise_singlet_defocus_result, 1);
    CHECK_INIT(spotwise_singlet_depth, 1);
    CHECK_INIT(spotwise_tilted_spot_result, 1);
    CHECK_INIT(spotwise_smallest_details_result, 1);
    CHECK_INIT(spotwise_grating_contrast, 1);
    CHECK_INIT(spotwise_contrast_pitch, 1);
    CHECK_INIT_AS(spotwise_job, is_fresh_job(&data[0]));
    CHECK_INIT_AS(spotwise_verdict, is_blank_verdict(&data[0]));
}

/* Whether a report says this status, and names a parameter exactly when a value was refused. */
static int reports(const spotwise_error *error, uint32_t status, uint32_t parameter)
{
    return error->struct_size == sizeof *error && error->code == status && error->parameter == parameter &&
           error->reserved == 0 &&
           (parameter != 0 || (isnan(error->value) && isnan(error->least) && isnan(error->greatest)));
}

/* A report with stale contents, as a caller has it after an earlier failure. */
static spotwise_error stale_report(void)
{
    spotwise_error error;
    memset(&error, STALE, sizeof error);
    error.struct_size = sizeof error;
    return error;
}

/*
 * Calls `function` with inputs that must be refused, and checks what becomes of an output struct
 * and of the report; then with a bad output and a bad report.
 */
#define CHECK_REFUSED(type, blank, function, status, named, ...)          \
    do {                                                                      \
        spotwise_error error = stale_report();                                \
        uint32_t pointer_status =                                             \
            (status) >= SPOTWISE_E_NULL ? (uint32_t)(status) : (uint32_t)SPOTWISE_E_STRUCT_SIZE; \
        type out;                                                             \
        memset(&out, STALE, sizeof out);                                      \
        out.struct_size = sizeof out;                                         \
        CHECK(function(__VA_ARGS__, &out, &error) == (status));               \
        CHECK(blank);                                                         \
        CHECK(reports(&error, status, named));                            \
                                                                              \
        memset(&out, STALE, sizeof out);                                      \
        out.struct_size = sizeof out;                                         \
        CHECK(function(__VA_ARGS__, &out, NULL) == (status));                 \
        CHECK(blank);                                                         \
                                                                              \
        memset(&out, STALE, sizeof out);                                      \
        CHECK(function(__VA_ARGS__, &out, &error) == pointer_status);         \
        CHECK(is_filled_with(&out, sizeof out, STALE));                       \
        CHECK(reports(&error, pointer_status, 0));                            \
                                                                              \
        out.struct_size = sizeof out;                                         \
        memset(&error, STALE, sizeof error);                                  \
        CHECK(function(__VA_ARGS__, &out, &error) == pointer_status);         \
        CHECK(blank);                                                         \
        CHECK(is_filled_with(&error, sizeof error, STALE));                   \
                                                                              \
        error = stale_report();                                               \
        CHECK(function(__VA_ARGS__, NULL, &error) ==                          \
              ((status) >= SPOTWISE_E_NULL ? (uint32_t)(status) : (uint32_t)SPOTWISE_E_NULL)); \
        CHECK(error.code >= SPOTWISE_E_NULL && error.parameter == 0);         \
    } while (0)

#define BLANK(words) is_blank(&out, sizeof out, words)

/* As CHECK_REFUSED, for an output that is one number. */
#define CHECK_REFUSED_NUMBER(function, status, named, ...)                \
    do {                                                                      \
        spotwise_error error = stale_report();                                \
        double out = 1.0;                                                     \
        CHECK(function(__VA_ARGS__, &out, &error) == (status));               \
        CHECK(is_quiet_nan((const unsigned char *)&out));                     \
        CHECK(reports(&error, status, named));                            \
        out = 1.0;                                                            \
        CHECK(function(__VA_ARGS__, &out, NULL) == (status));                 \
        CHECK(is_quiet_nan((const unsigned char *)&out));                     \
        out = 1.0;                                                            \
        memset(&error, STALE, sizeof error);                                  \
        CHECK(function(__VA_ARGS__, &out, &error) == SPOTWISE_E_STRUCT_SIZE); \
        CHECK(is_quiet_nan((const unsigned char *)&out));                     \
        CHECK(is_filled_with(&error, sizeof error, STALE));                   \
        error = stale_report();                                               \
        CHECK(function(__VA_ARGS__, NULL, &error) == SPOTWISE_E_NULL);        \
        CHECK(reports(&error, SPOTWISE_E_NULL, 0));                           \
        CHECK(function(__VA_ARGS__, NULL, NULL) == SPOTWISE_E_NULL);          \
    } while (0)

static spotwise_beam good_beam(void)
{
    spotwise_beam beam;
    spotwise_beam_init(&beam);
    beam.wavelength_m = 10.6e-6;
    beam.m2 = 1.2;
    beam.waist_diameter_m = 88e-6;
    return beam;
}

static spotwise_astigmatic_beam good_astigmatic(void)
{
    spotwise_astigmatic_beam beam;
    spotwise_astigmatic_beam_init(&beam);
    beam.wavelength_m = 450e-9;
    beam.m2_x = 5.0;
    beam.waist_diameter_x_m = 30e-6;
    beam.waist_z_x_m = 0.0;
    beam.m2_y = 5.0;
    beam.waist_diameter_y_m = 30e-6;
    beam.waist_z_y_m = 0.2e-3;
    return beam;
}

/* A plano-convex lens of zinc selenide at 10.6 um, curved side to the laser. */
static spotwise_singlet good_singlet(void)
{
    spotwise_singlet lens;
    spotwise_singlet_init(&lens);
    lens.lens_shape = SPOTWISE_SHAPE_CURVED_SIDE_FIRST;
    lens.index = 2.4028;
    lens.focal_length_m = 38.1e-3;
    return lens;
}

static spotwise_wave good_wave(void)
{
    spotwise_wave wave;
    spotwise_wave_init(&wave);
    wave.wavelength_m = 10.6e-6;
    wave.m2 = 1.0;
    wave.diameter_at_lens_m = 7e-3;
    wave.clear_aperture_m = 18e-3;
    wave.lens_to_focus_m = 38.1e-3;
    wave.aberration_phase_rad = 0.2;
    return wave;
}

spotwise_job face_good_job(void)
{
    spotwise_job job;
    spotwise_job_init(&job);
    job.raw_beam = SPOTWISE_RAW_BEAM_COLLIMATED;
    job.focus_setting = SPOTWISE_FOCUS_FROM_DATUM;
    job.criterion = SPOTWISE_CRITERION_RAYLEIGH;
    job.wavelength_m = 10.6e-6;
    job.m2 = 1.2;
    job.diameter_at_lens_m = 7e-3;
    job.focal_length_m = 38.1e-3;
    job.focus_z_m = 0.0;
    job.surface_rise_m = 0.3e-3;
    job.surface_fall_m = 0.3e-3;
    job.finest_stroke_m = 0.1e-3;
    job.finest_gap_m = 0.1e-3;
    job.dose_ratio = 2.7;
    return job;
}

static void check_refusals_of_numbers(void)
{
    const double nan_value = (double)NAN;
    CHECK_REFUSED_NUMBER(spotwise_convert_width, SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_WIDTH_DEFINITION,
                         nan_value, 0, SPOTWISE_WIDTH_FWHM);
    CHECK_REFUSED_NUMBER(spotwise_convert_width, SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_WIDTH_DEFINITION,
                         1e-3, SPOTWISE_WIDTH_FWHM, 5);
    CHECK_REFUSED_NUMBER(spotwise_convert_width, SPOTWISE_E_NOT_FINITE, SPOTWISE_PARAM_BEAM_DIAMETER,
                         nan_value, SPOTWISE_WIDTH_FWHM, SPOTWISE_WIDTH_D4_SIGMA);
    CHECK_REFUSED_NUMBER(spotwise_power_through_aperture, SPOTWISE_E_OUT_OF_RANGE,
                         SPOTWISE_PARAM_APERTURE_DIAMETER, 1e-3, -1.0);
    CHECK_REFUSED_NUMBER(spotwise_diameter_for_power, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_POWER_SHARE,
                         1e-3, 1.0);
    CHECK_REFUSED_NUMBER(spotwise_waist_from_rayleigh_range, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_M2,
                         1e-6, 0.5, 1e-3);
    CHECK_REFUSED_NUMBER(spotwise_waist_from_divergence, SPOTWISE_E_OUT_OF_RANGE,
                         SPOTWISE_PARAM_DIVERGENCE_FULL_ANGLE, 1e-6, 1.0, 0.7);
    CHECK_REFUSED_NUMBER(spotwise_m2_from_divergence, SPOTWISE_E_OUTSIDE_MODEL, SPOTWISE_PARAM_M2, 1.064e-6,
                         20e-6, 0.02);
    CHECK_REFUSED_NUMBER(spotwise_largest_spot_for_details, SPOTWISE_E_OUT_OF_RANGE,
                         SPOTWISE_PARAM_DOSE_RATIO, 1e-4, 1e-4, 1.0);
}

/* One row for each function that returns a struct: refused values, then NULL and a wrong size. */
static void check_refusals_of_structs(void)
{
    const spotwise_beam beam = good_beam();
    const spotwise_astigmatic_beam astigmatic = good_astigmatic();
    const spotwise_beam *no_beam = NULL;
    const spotwise_astigmatic_beam *no_astigmatic = NULL;
    spotwise_beam short_beam = beam;
    spotwise_beam wide_beam = beam;
    spotwise_astigmatic_beam short_astigmatic = astigmatic;
    spotwise_depth_criterion criterion;
    spotwise_depth_criterion short_criterion;
    const spotwise_depth_criterion *no_criterion = NULL;
    short_beam.struct_size -= 8;
    wide_beam.waist_diameter_m = 10e-6;
    short_astigmatic.struct_size += 8;
    spotwise_depth_criterion_init(&criterion);
    criterion.criterion = SPOTWISE_CRITERION_LARGEST_DIAMETER;
    criterion.largest_diameter_m = 20e-6;
    short_criterion = criterion;
    short_criterion.struct_size = 0;

    CHECK_REFUSED(spotwise_beam_parameters_result, BLANK(1), spotwise_beam_parameters,
                  SPOTWISE_E_OUTSIDE_MODEL, SPOTWISE_PARAM_DIVERGENCE_HALF_ANGLE, &wide_beam);
    CHECK_REFUSED(spotwise_beam_parameters_result, BLANK(1), spotwise_beam_parameters, SPOTWISE_E_NULL, 0,
                  no_beam);
    CHECK_REFUSED(spotwise_beam_parameters_result, BLANK(1), spotwise_beam_parameters,
                  SPOTWISE_E_STRUCT_SIZE, 0, &short_beam);
    CHECK_REFUSED(spotwise_beam_section, BLANK(1), spotwise_beam_at, SPOTWISE_E_NOT_FINITE, SPOTWISE_PARAM_Z,
                  &beam, (double)INFINITY);
    CHECK_REFUSED(spotwise_beam_section, BLANK(1), spotwise_beam_at, SPOTWISE_E_NULL, 0, no_beam, 0.0);
    CHECK_REFUSED(spotwise_beam_section, BLANK(1), spotwise_beam_at, SPOTWISE_E_STRUCT_SIZE, 0, &short_beam,
                  0.0);
    CHECK_REFUSED(spotwise_astigmatic_parameters_result, BLANK(1), spotwise_astigmatic_parameters,
                  SPOTWISE_E_NULL, 0, no_astigmatic);
    CHECK_REFUSED(spotwise_astigmatic_parameters_result, BLANK(1), spotwise_astigmatic_parameters,
                  SPOTWISE_E_STRUCT_SIZE, 0, &short_astigmatic);
    CHECK_REFUSED(spotwise_astigmatic_section, BLANK(3), spotwise_astigmatic_at, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_Z, &astigmatic, (double)NAN);
    CHECK_REFUSED(spotwise_astigmatic_section, BLANK(3), spotwise_astigmatic_at, SPOTWISE_E_NULL, 0,
                  no_astigmatic, 0.0);
    CHECK_REFUSED(spotwise_astigmatic_section, BLANK(3), spotwise_astigmatic_at, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_astigmatic, 0.0);
    CHECK_REFUSED(spotwise_focused_beam, BLANK(1), spotwise_focus_through_lens, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_FOCAL_LENGTH, &beam, 0.0, 0.0);
    CHECK_REFUSED(spotwise_focused_beam, BLANK(1), spotwise_focus_through_lens, SPOTWISE_E_NULL, 0, no_beam,
                  0.0, 0.05);
    CHECK_REFUSED(spotwise_focused_beam, BLANK(1), spotwise_focus_through_lens, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_beam, 0.0, 0.05);
    CHECK_REFUSED(spotwise_focused_beam, BLANK(1), spotwise_focus_collimated, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_DIAMETER_AT_LENS, 1e-6, 1.0, (double)NAN, 0.05);
    CHECK_REFUSED(spotwise_astigmatic_focus, is_blank_astigmatic_focus(&out), spotwise_focus_astigmatic,
                  SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_FOCAL_LENGTH, &astigmatic, 1e5);
    CHECK_REFUSED(spotwise_astigmatic_focus, is_blank_astigmatic_focus(&out), spotwise_focus_astigmatic,
                  SPOTWISE_E_NULL, 0, no_astigmatic, 0.05);
    CHECK_REFUSED(spotwise_astigmatic_focus, is_blank_astigmatic_focus(&out), spotwise_focus_astigmatic,
                  SPOTWISE_E_STRUCT_SIZE, 0, &short_astigmatic, 0.05);
    CHECK_REFUSED(spotwise_defocus_result, BLANK(1), spotwise_defocus, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_Z_OFFSET, &beam, 1e8);
    CHECK_REFUSED(spotwise_defocus_result, BLANK(1), spotwise_defocus, SPOTWISE_E_NULL, 0, no_beam, 0.0);
    CHECK_REFUSED(spotwise_defocus_result, BLANK(1), spotwise_defocus, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_beam, 0.0);
    CHECK_REFUSED(spotwise_tilted_spot_result, BLANK(1), spotwise_tilted_spot, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_TILT, &beam, 0.0, -0.1);
    CHECK_REFUSED(spotwise_tilted_spot_result, BLANK(1), spotwise_tilted_spot, SPOTWISE_E_OUTSIDE_MODEL,
                  SPOTWISE_PARAM_GRAZING_RATIO, &beam, 0.0, 1.5);
    CHECK_REFUSED(spotwise_tilted_spot_result, BLANK(1), spotwise_tilted_spot, SPOTWISE_E_NULL, 0, no_beam,
                  0.0, 0.0);
    CHECK_REFUSED(spotwise_tilted_spot_result, BLANK(1), spotwise_tilted_spot, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_beam, 0.0, 0.0);
    CHECK_REFUSED(spotwise_astigmatic_defocus_result, BLANK(1), spotwise_astigmatic_defocus,
                  SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_Z, &astigmatic, -1e8);
    CHECK_REFUSED(spotwise_astigmatic_defocus_result, BLANK(1), spotwise_astigmatic_defocus,
                  SPOTWISE_E_NULL, 0, no_astigmatic, 0.0);
    CHECK_REFUSED(spotwise_astigmatic_defocus_result, BLANK(1), spotwise_astigmatic_defocus,
                  SPOTWISE_E_STRUCT_SIZE, 0, &short_astigmatic, 0.0);
    CHECK_REFUSED(spotwise_focus_range, BLANK(1), spotwise_offsets_for_diameter, SPOTWISE_E_UNREACHABLE,
                  SPOTWISE_PARAM_SPOT_DIAMETER, &beam, 50e-6);
    CHECK_REFUSED(spotwise_focus_range, BLANK(1), spotwise_offsets_for_diameter, SPOTWISE_E_NULL, 0, no_beam,
                  1e-4);
    CHECK_REFUSED(spotwise_focus_range, BLANK(1), spotwise_offsets_for_diameter, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_beam, 1e-4);
    CHECK_REFUSED(spotwise_focus_range, BLANK(1), spotwise_offsets_for_growth, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_GROWTH_RATIO, &beam, 0.9);
    CHECK_REFUSED(spotwise_focus_range, BLANK(1), spotwise_offsets_for_growth, SPOTWISE_E_NULL, 0, no_beam,
                  1.1);
    CHECK_REFUSED(spotwise_focus_range, BLANK(1), spotwise_offsets_for_growth, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_beam, 1.1);
    CHECK_REFUSED(spotwise_focus_range, BLANK(1), spotwise_depth_of_focus, SPOTWISE_E_UNREACHABLE,
                  SPOTWISE_PARAM_LARGEST_DIAMETER, &beam, &criterion);
    CHECK_REFUSED(spotwise_focus_range, BLANK(1), spotwise_depth_of_focus, SPOTWISE_E_NULL, 0, no_beam,
                  &criterion);
    CHECK_REFUSED(spotwise_focus_range, BLANK(1), spotwise_depth_of_focus, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_beam, no_criterion);
    CHECK_REFUSED(spotwise_focus_range, BLANK(1), spotwise_depth_of_focus, SPOTWISE_E_NULL, 0, &beam,
                  no_criterion);
    CHECK_REFUSED(spotwise_focus_range, BLANK(1), spotwise_depth_of_focus, SPOTWISE_E_STRUCT_SIZE, 0, &beam,
                  &short_criterion);
    CHECK_REFUSED(spotwise_focus_range, BLANK(1), spotwise_astigmatic_depth_of_focus, SPOTWISE_E_UNREACHABLE,
                  SPOTWISE_PARAM_LARGEST_DIAMETER, &astigmatic, &criterion);
    CHECK_REFUSED(spotwise_focus_range, BLANK(1), spotwise_astigmatic_depth_of_focus, SPOTWISE_E_NULL, 0,
                  no_astigmatic, &criterion);
    CHECK_REFUSED(spotwise_focus_range, BLANK(1), spotwise_astigmatic_depth_of_focus, SPOTWISE_E_STRUCT_SIZE,
                  0, &short_astigmatic, &criterion);
    CHECK_REFUSED(spotwise_focus_range, BLANK(1), spotwise_astigmatic_depth_of_focus, SPOTWISE_E_NULL, 0,
                  &astigmatic, no_criterion);
    CHECK_REFUSED(spotwise_focus_range, BLANK(1), spotwise_astigmatic_depth_of_focus, SPOTWISE_E_STRUCT_SIZE,
                  0, &astigmatic, &short_criterion);
    CHECK_REFUSED(spotwise_smallest_details_result, BLANK(1), spotwise_smallest_details,
                  SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_SPOT_DIAMETER, 0.0, 2.7);
    CHECK_REFUSED(spotwise_grating_contrast, BLANK(1), spotwise_contrast_at_pitch, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_PITCH, 1e-4, 0.0);

    /* A criterion fresh from its init function is refused before any number is looked at. */
    spotwise_depth_criterion_init(&criterion);
    spotwise_beam_init(&wide_beam);
    CHECK_REFUSED(spotwise_focus_range, BLANK(1), spotwise_depth_of_focus, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_DEPTH_CRITERION, &wide_beam, &criterion);
    /* A beam is checked as a whole, its cone included, before the number that follows it. */
    wide_beam = beam;
    wide_beam.waist_diameter_m = 10e-6;
    CHECK_REFUSED(spotwise_beam_section, BLANK(1), spotwise_beam_at, SPOTWISE_E_OUTSIDE_MODEL,
                  SPOTWISE_PARAM_DIVERGENCE_HALF_ANGLE, &wide_beam, (double)NAN);
    /* And a forgotten number is refused by name. */
    spotwise_beam_init(&wide_beam);
    CHECK_REFUSED(spotwise_beam_parameters_result, BLANK(1), spotwise_beam_parameters, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_WAVELENGTH, &wide_beam);
}

/* As check_refusals_of_structs, for real lenses, plates, paths and gantries. */
static void check_refusals_of_lenses(void)
{
    const double nan_value = (double)NAN;
    const spotwise_beam beam = good_beam();
    const spotwise_beam *no_beam = NULL;
    const spotwise_singlet lens = good_singlet();
    const spotwise_singlet *no_lens = NULL;
    spotwise_beam short_beam = beam;
    spotwise_beam raw = beam;
    spotwise_singlet short_lens = lens;
    spotwise_singlet strange_lens = lens;
    short_beam.struct_size -= 8;
    short_lens.struct_size -= 8;
    strange_lens.lens_shape = 5;
    raw.waist_diameter_m = 7e-3;

    CHECK_REFUSED(spotwise_glass_index, BLANK(1), spotwise_refractive_index, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_GLASS, 0, nan_value);
    CHECK_REFUSED(spotwise_glass_index, BLANK(1), spotwise_refractive_index, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_WAVELENGTH, SPOTWISE_GLASS_N_BK7, 10.6e-6);
    CHECK_REFUSED(spotwise_lens_at_wavelength_result, BLANK(1), spotwise_lens_at_wavelength,
                  SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_GLASS, 9, 0, nan_value, nan_value, nan_value,
                  nan_value);
    CHECK_REFUSED(spotwise_lens_at_wavelength_result, BLANK(1), spotwise_lens_at_wavelength,
                  SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_LENS_SHAPE, SPOTWISE_GLASS_ZINC_SELENIDE, 0,
                  nan_value, nan_value, nan_value, nan_value);
    CHECK_REFUSED(spotwise_lens_at_wavelength_result, BLANK(1), spotwise_lens_at_wavelength,
                  SPOTWISE_E_NOT_FINITE, SPOTWISE_PARAM_SHAPE_FACTOR, SPOTWISE_GLASS_ZINC_SELENIDE,
                  SPOTWISE_SHAPE_BY_FACTOR, nan_value, nan_value, nan_value, nan_value);
    /* Only a shape by its factor reads the factor. */
    CHECK_REFUSED(spotwise_lens_at_wavelength_result, BLANK(1), spotwise_lens_at_wavelength,
                  SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_DESIGN_WAVELENGTH, SPOTWISE_GLASS_ZINC_SELENIDE,
                  SPOTWISE_SHAPE_BEST_FORM, nan_value, 38.1e-3, 0.355e-6, 10.6e-6);
    CHECK_REFUSED(spotwise_lens_form, BLANK(1), spotwise_lens_from_radii, SPOTWISE_E_OUTSIDE_MODEL,
                  SPOTWISE_PARAM_FOCAL_LENGTH, 1.5, 0.1, 0.1);
    CHECK_REFUSED(spotwise_lens_form, BLANK(1), spotwise_lens_from_radii, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_SECOND_RADIUS, 1.5, 0.1, nan_value);
    CHECK_REFUSED(spotwise_lens_aberration_result, BLANK(1), spotwise_lens_aberration,
                  SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_LENS_SHAPE, &strange_lens);
    CHECK_REFUSED(spotwise_lens_aberration_result, BLANK(1), spotwise_lens_aberration, SPOTWISE_E_NULL, 0,
                  no_lens);
    CHECK_REFUSED(spotwise_lens_aberration_result, BLANK(1), spotwise_lens_aberration,
                  SPOTWISE_E_STRUCT_SIZE, 0, &short_lens);
    CHECK_REFUSED(spotwise_aberration_growth_result, BLANK(1), spotwise_aberration_growth,
                  SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_ABERRATION_PHASE, 1.0, 2e4);
    CHECK_REFUSED(spotwise_singlet_focus, is_blank_singlet_focus(&out), spotwise_focus_singlet,
                  SPOTWISE_E_OUTSIDE_MODEL, SPOTWISE_PARAM_CLIPPING_RATIO, &raw, 0.0, &lens, 1e-3);
    CHECK_REFUSED(spotwise_singlet_focus, is_blank_singlet_focus(&out), spotwise_focus_singlet,
                  SPOTWISE_E_NULL, 0, no_beam, 0.0, &lens, 18e-3);
    CHECK_REFUSED(spotwise_singlet_focus, is_blank_singlet_focus(&out), spotwise_focus_singlet,
                  SPOTWISE_E_STRUCT_SIZE, 0, &short_beam, 0.0, no_lens, 18e-3);
    CHECK_REFUSED(spotwise_singlet_focus, is_blank_singlet_focus(&out), spotwise_focus_singlet,
                  SPOTWISE_E_NULL, 0, &raw, 0.0, no_lens, 18e-3);
    CHECK_REFUSED(spotwise_singlet_focus, is_blank_singlet_focus(&out), spotwise_focus_singlet,
                  SPOTWISE_E_STRUCT_SIZE, 0, &raw, 0.0, &short_lens, 18e-3);
    CHECK_REFUSED(spotwise_smallest_spot_result, BLANK(1), spotwise_smallest_spot,
                  SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_SPOT_MEASURE, nan_value, 1.0, &lens, 0);
    CHECK_REFUSED(spotwise_smallest_spot_result, BLANK(1), spotwise_smallest_spot,
                  SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_LENS_SHAPE, nan_value, 1.0, &strange_lens, 0);
    CHECK_REFUSED(spotwise_smallest_spot_result, BLANK(1), spotwise_smallest_spot, SPOTWISE_E_NULL, 0,
                  10.6e-6, 1.0, no_lens, SPOTWISE_SPOT_HANDBOOK);
    CHECK_REFUSED(spotwise_smallest_spot_result, BLANK(1), spotwise_smallest_spot, SPOTWISE_E_STRUCT_SIZE, 0,
                  10.6e-6, 1.0, &short_lens, SPOTWISE_SPOT_HANDBOOK);
    CHECK_REFUSED(spotwise_clipped_focus, BLANK(1), spotwise_focus_clipped, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_CLEAR_APERTURE, 10.6e-6, 7e-3, nan_value, 38.1e-3);
    CHECK_REFUSED(spotwise_clipped_depth, BLANK(1), spotwise_clipped_depth_of_focus, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_IRRADIANCE_DROP, 10.6e-6, 7e-3, 10e-3, 38.1e-3, 0.95);
    CHECK_REFUSED(spotwise_plate_focus, BLANK(1), spotwise_focus_behind_plate, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_REFRACTIVE_INDEX, &beam, 3e-3, 1.0);
    CHECK_REFUSED(spotwise_plate_focus, BLANK(1), spotwise_focus_behind_plate, SPOTWISE_E_NULL, 0, no_beam,
                  3e-3, 1.5);
    CHECK_REFUSED(spotwise_plate_focus, BLANK(1), spotwise_focus_behind_plate, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_beam, 3e-3, 1.5);
    CHECK_REFUSED(spotwise_inside_focus, BLANK(1), spotwise_focus_inside, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_LENS_LOWERED_BY, &beam, -1e-3, 1.5);
    CHECK_REFUSED(spotwise_inside_focus, BLANK(1), spotwise_focus_inside, SPOTWISE_E_NULL, 0, no_beam, 3e-3,
                  1.5);
    CHECK_REFUSED(spotwise_inside_focus, BLANK(1), spotwise_focus_inside, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_beam, 3e-3, 1.5);
    CHECK_REFUSED(spotwise_gantry_spread_result, BLANK(1), spotwise_gantry_spread, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_FARTHEST, &raw, 2.0, 1.0, 38.1e-3);
    CHECK_REFUSED(spotwise_gantry_spread_result, BLANK(1), spotwise_gantry_spread, SPOTWISE_E_NULL, 0,
                  no_beam, 1.0, 2.0, 38.1e-3);
    CHECK_REFUSED(spotwise_gantry_spread_result, BLANK(1), spotwise_gantry_spread, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_beam, 1.0, 2.0, 38.1e-3);
    CHECK_REFUSED(spotwise_even_gantry, is_blank_even_gantry(&out), spotwise_even_out_gantry,
                  SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_MAGNIFICATION, &raw, 0.3, 0.0, 0.5, 2.5, 38.1e-3);
    CHECK_REFUSED(spotwise_even_gantry, is_blank_even_gantry(&out), spotwise_even_out_gantry,
                  SPOTWISE_E_NULL, 0, no_beam, 0.3, 2.0, 0.5, 2.5, 38.1e-3);
    CHECK_REFUSED(spotwise_even_gantry, is_blank_even_gantry(&out), spotwise_even_out_gantry,
                  SPOTWISE_E_STRUCT_SIZE, 0, &short_beam, 0.3, 2.0, 0.5, 2.5, 38.1e-3);
}

/* As check_refusals_of_lenses, for a surface off the focus of a real lens. */
static void check_refusals_off_singlets(void)
{
    const double nan_value = (double)NAN;
    const uint32_t power86 = SPOTWISE_SPOT_POWER_86;
    const uint32_t handbook = SPOTWISE_SPOT_HANDBOOK;
    const spotwise_singlet lens = good_singlet();
    const spotwise_beam *no_beam = NULL;
    const spotwise_singlet *no_lens = NULL;
    const spotwise_depth_criterion *no_criterion = NULL;
    spotwise_beam raw = good_beam();
    spotwise_beam short_raw;
    spotwise_beam fresh_raw;
    spotwise_singlet short_lens = lens;
    spotwise_singlet strange_lens = lens;
    spotwise_depth_criterion criterion;
    spotwise_depth_criterion strange_criterion;
    spotwise_depth_criterion short_criterion;
    raw.waist_diameter_m = 7e-3;
    short_raw = raw;
    short_raw.struct_size -= 8;
    spotwise_beam_init(&fresh_raw);
    short_lens.struct_size -= 8;
    strange_lens.lens_shape = 5;
    spotwise_depth_criterion_init(&criterion);
    strange_criterion = criterion;
    criterion.criterion = SPOTWISE_CRITERION_LARGEST_DIAMETER;
    criterion.largest_diameter_m = 20e-6;
    short_criterion = criterion;
    short_criterion.struct_size = 0;

    CHECK_REFUSED(spotwise_singlet_defocus_result, BLANK(1), spotwise_singlet_defocus, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_Z_OFFSET, &raw, 0.0, &lens, 18e-3, power86, nan_value);
    CHECK_REFUSED(spotwise_singlet_defocus_result, BLANK(1), spotwise_singlet_defocus, SPOTWISE_E_NULL, 0, no_beam,
                  0.0, &lens, 18e-3, power86, 0.0);
    CHECK_REFUSED(spotwise_singlet_defocus_result, BLANK(1), spotwise_singlet_defocus, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_raw, 0.0, no_lens, 18e-3, power86, 0.0);
    CHECK_REFUSED(spotwise_singlet_defocus_result, BLANK(1), spotwise_singlet_defocus, SPOTWISE_E_NULL, 0, &raw, 0.0,
                  no_lens, 18e-3, power86, 0.0);
    CHECK_REFUSED(spotwise_singlet_defocus_result, BLANK(1), spotwise_singlet_defocus, SPOTWISE_E_STRUCT_SIZE, 0,
                  &raw, 0.0, &short_lens, 18e-3, power86, 0.0);
    /* Shape, then measure; and the handbook, which gives no beam, before any number. */
    CHECK_REFUSED(spotwise_singlet_defocus_result, BLANK(1), spotwise_singlet_defocus, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_LENS_SHAPE, &fresh_raw, nan_value, &strange_lens, nan_value, 0, nan_value);
    CHECK_REFUSED(spotwise_singlet_defocus_result, BLANK(1), spotwise_singlet_defocus, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_SPOT_MEASURE, &fresh_raw, nan_value, &lens, nan_value, 4, nan_value);
    CHECK_REFUSED(spotwise_singlet_defocus_result, BLANK(1), spotwise_singlet_defocus, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_SPOT_MEASURE, &fresh_raw, nan_value, &lens, nan_value, handbook, nan_value);
    /* The 86.5 %-power spot that focus_singlet leaves out is refused here; a clipping ratio of 1.1. */
    CHECK_REFUSED(spotwise_singlet_defocus_result, BLANK(1), spotwise_singlet_defocus, SPOTWISE_E_OUTSIDE_MODEL,
                  SPOTWISE_PARAM_CLIPPING_RATIO, &raw, 0.0, &lens, 7.7e-3, power86, nan_value);

    CHECK_REFUSED(spotwise_singlet_depth, BLANK(1), spotwise_singlet_depth_of_focus, SPOTWISE_E_UNREACHABLE,
                  SPOTWISE_PARAM_LARGEST_DIAMETER, &raw, 0.0, &lens, 18e-3, power86, &criterion);
    CHECK_REFUSED(spotwise_singlet_depth, BLANK(1), spotwise_singlet_depth_of_focus, SPOTWISE_E_NULL, 0,
                  no_beam, 0.0, &lens, 18e-3, power86, &criterion);
    CHECK_REFUSED(spotwise_singlet_depth, BLANK(1), spotwise_singlet_depth_of_focus, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_raw, 0.0, no_lens, 18e-3, power86, &criterion);
    CHECK_REFUSED(spotwise_singlet_depth, BLANK(1), spotwise_singlet_depth_of_focus, SPOTWISE_E_NULL, 0, &raw,
                  0.0, no_lens, 18e-3, power86, &short_criterion);
    CHECK_REFUSED(spotwise_singlet_depth, BLANK(1), spotwise_singlet_depth_of_focus, SPOTWISE_E_STRUCT_SIZE, 0,
                  &raw, 0.0, &short_lens, 18e-3, power86, no_criterion);
    /* Every pointer comes before any choice. */
    CHECK_REFUSED(spotwise_singlet_depth, BLANK(1), spotwise_singlet_depth_of_focus, SPOTWISE_E_NULL, 0, &raw,
                  0.0, &strange_lens, 18e-3, 0, no_criterion);
    CHECK_REFUSED(spotwise_singlet_depth, BLANK(1), spotwise_singlet_depth_of_focus, SPOTWISE_E_STRUCT_SIZE, 0,
                  &raw, 0.0, &strange_lens, 18e-3, 0, &short_criterion);
    /* Shape, measure, criterion; then the handbook; then numbers. */
    CHECK_REFUSED(spotwise_singlet_depth, BLANK(1), spotwise_singlet_depth_of_focus, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_LENS_SHAPE, &fresh_raw, 0.0, &strange_lens, 18e-3, 4, &strange_criterion);
    CHECK_REFUSED(spotwise_singlet_depth, BLANK(1), spotwise_singlet_depth_of_focus, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_SPOT_MEASURE, &fresh_raw, 0.0, &lens, 18e-3, 4, &strange_criterion);
    CHECK_REFUSED(spotwise_singlet_depth, BLANK(1), spotwise_singlet_depth_of_focus, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_DEPTH_CRITERION, &fresh_raw, 0.0, &lens, 18e-3, handbook,
                  &strange_criterion);
    CHECK_REFUSED(spotwise_singlet_depth, BLANK(1), spotwise_singlet_depth_of_focus, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_SPOT_MEASURE, &fresh_raw, 0.0, &lens, 18e-3, handbook, &criterion);
    CHECK_REFUSED(spotwise_singlet_depth, BLANK(1), spotwise_singlet_depth_of_focus, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_WAVELENGTH, &fresh_raw, 0.0, &lens, 18e-3, power86, &criterion);
}

static void check_refusals_of_waves(void)
{
    const spotwise_wave wave = good_wave();
    const spotwise_wave *no_wave = NULL;
    const spotwise_depth_criterion *no_criterion = NULL;
    spotwise_wave short_wave = wave;
    spotwise_wave fresh;
    spotwise_depth_criterion criterion;
    spotwise_depth_criterion short_criterion;
    short_wave.struct_size += 8;
    spotwise_wave_init(&fresh);
    spotwise_depth_criterion_init(&criterion);
    criterion.criterion = SPOTWISE_CRITERION_LINE_DOSE_DROP;
    criterion.drop = 0.2;
    short_criterion = criterion;
    short_criterion.struct_size = 0;

    CHECK_REFUSED(spotwise_wave_irradiance_result, BLANK(1), spotwise_wave_irradiance, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_WAVELENGTH, &fresh, 0.0, 0.0);
    CHECK_REFUSED(spotwise_wave_irradiance_result, BLANK(1), spotwise_wave_irradiance,
                  SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_RADIUS, &wave, -1e-6, 0.0);
    CHECK_REFUSED(spotwise_wave_irradiance_result, BLANK(1), spotwise_wave_irradiance, SPOTWISE_E_NULL, 0,
                  no_wave, 0.0, 0.0);
    CHECK_REFUSED(spotwise_wave_irradiance_result, BLANK(1), spotwise_wave_irradiance,
                  SPOTWISE_E_STRUCT_SIZE, 0, &short_wave, 0.0, 0.0);
    CHECK_REFUSED(spotwise_wave_power_result, BLANK(1), spotwise_wave_power, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_Z, &wave, 0.0, (double)INFINITY);
    CHECK_REFUSED(spotwise_wave_power_result, BLANK(1), spotwise_wave_power, SPOTWISE_E_NULL, 0, no_wave,
                  0.0, 0.0);
    CHECK_REFUSED(spotwise_wave_power_result, BLANK(1), spotwise_wave_power, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_wave, 0.0, 0.0);
    CHECK_REFUSED(spotwise_wave_widths_result, BLANK(1), spotwise_wave_widths, SPOTWISE_E_OUTSIDE_MODEL,
                  SPOTWISE_PARAM_NORMALISED_DEFOCUS, &wave, 1.0);
    CHECK_REFUSED(spotwise_wave_widths_result, BLANK(1), spotwise_wave_widths, SPOTWISE_E_NULL, 0, no_wave,
                  0.0);
    CHECK_REFUSED(spotwise_wave_widths_result, BLANK(1), spotwise_wave_widths, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_wave, 0.0);
    CHECK_REFUSED(spotwise_wave_focus_result, BLANK(1), spotwise_wave_focus, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_FOCUS_MEASURE, &fresh, 4);
    CHECK_REFUSED(spotwise_wave_focus_result, BLANK(1), spotwise_wave_focus, SPOTWISE_E_NULL, 0, no_wave,
                  SPOTWISE_BEST_POWER_86);
    CHECK_REFUSED(spotwise_wave_focus_result, BLANK(1), spotwise_wave_focus, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_wave, SPOTWISE_BEST_POWER_86);
    CHECK_REFUSED(spotwise_wave_depth, BLANK(1), spotwise_wave_depth_of_focus, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_DEPTH_CRITERION, &fresh, &criterion);
    CHECK_REFUSED(spotwise_wave_depth, BLANK(1), spotwise_wave_depth_of_focus, SPOTWISE_E_NULL, 0, no_wave,
                  &criterion);
    CHECK_REFUSED(spotwise_wave_depth, BLANK(1), spotwise_wave_depth_of_focus, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_wave, no_criterion);
    CHECK_REFUSED(spotwise_wave_depth, BLANK(1), spotwise_wave_depth_of_focus, SPOTWISE_E_NULL, 0, &wave,
                  no_criterion);
    CHECK_REFUSED(spotwise_wave_depth, BLANK(1), spotwise_wave_depth_of_focus, SPOTWISE_E_STRUCT_SIZE, 0,
                  &wave, &short_criterion);
}

static void check_refusals_of_paths(void)
{
    spotwise_astigmatic_beam raw = good_astigmatic();
    const spotwise_astigmatic_beam *no_raw = NULL;
    const spotwise_path_element *nothing = NULL;
    spotwise_astigmatic_beam short_raw;
    spotwise_path_element path[2];
    raw.waist_diameter_x_m = 5e-3;
    raw.waist_diameter_y_m = 5e-3;
    short_raw = raw;
    short_raw.struct_size -= 8;
    spotwise_path_element_init(&path[0]);
    path[0].element = SPOTWISE_ELEMENT_SPACE;
    path[0].length_m = -1.0;
    spotwise_path_element_init(&path[1]);
    path[1].element = SPOTWISE_ELEMENT_THIN_LENS;
    path[1].focal_length_m = 0.0;

    CHECK_REFUSED(spotwise_path_beam, is_blank_path_beam(&out), spotwise_beam_after_path,
                  SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_SPACE_LENGTH, &raw, path, 2);
    path[0].length_m = 1.0;
    CHECK_REFUSED(spotwise_path_beam, is_blank_path_beam(&out), spotwise_beam_after_path,
                  SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_FOCAL_LENGTH, &raw, path, 2);
    path[1].focal_length_m = 50e-3;
    CHECK_REFUSED(spotwise_path_beam, is_blank_path_beam(&out), spotwise_beam_after_path, SPOTWISE_E_NULL, 0,
                  no_raw, path, 2);
    CHECK_REFUSED(spotwise_path_beam, is_blank_path_beam(&out), spotwise_beam_after_path,
                  SPOTWISE_E_STRUCT_SIZE, 0, &short_raw, nothing, 2);
    CHECK_REFUSED(spotwise_path_beam, is_blank_path_beam(&out), spotwise_beam_after_path, SPOTWISE_E_NULL, 0,
                  &raw, nothing, 2);
    CHECK_REFUSED(spotwise_path_beam, is_blank_path_beam(&out), spotwise_beam_along_path,
                  SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_PATH_DISTANCE, &raw, path, 2, -1.0);
    CHECK_REFUSED(spotwise_path_beam, is_blank_path_beam(&out), spotwise_beam_along_path, SPOTWISE_E_NULL, 0,
                  no_raw, path, 2, 0.5);
    CHECK_REFUSED(spotwise_path_beam, is_blank_path_beam(&out), spotwise_beam_along_path,
                  SPOTWISE_E_STRUCT_SIZE, 0, &short_raw, path, 2, 0.5);
    CHECK_REFUSED(spotwise_path_beam, is_blank_path_beam(&out), spotwise_beam_along_path, SPOTWISE_E_NULL, 0,
                  &raw, nothing, 1, 0.5);
    /* Too long a list is refused unread, after its pointer. */
    CHECK_REFUSED(spotwise_path_beam, is_blank_path_beam(&out), spotwise_beam_after_path,
                  SPOTWISE_E_LENGTH_MISMATCH, SPOTWISE_PARAM_PATH_ELEMENT, &raw, path,
                  SPOTWISE_PATH_MOST_ELEMENTS + 1);
    CHECK_REFUSED(spotwise_path_beam, is_blank_path_beam(&out), spotwise_beam_along_path,
                  SPOTWISE_E_LENGTH_MISMATCH, SPOTWISE_PARAM_PATH_ELEMENT, &raw, path, SIZE_MAX, 0.5);
    /* Every kind comes before any number, the first unknown one first. */
    path[1].element = 6;
    raw.wavelength_m = (double)NAN;
    CHECK_REFUSED(spotwise_path_beam, is_blank_path_beam(&out), spotwise_beam_after_path,
                  SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_PATH_ELEMENT, &raw, path, 2);
    /* And every size before any kind. */
    path[0].element = 0;
    path[1].struct_size = 0;
    CHECK_REFUSED(spotwise_path_beam, is_blank_path_beam(&out), spotwise_beam_after_path,
                  SPOTWISE_E_STRUCT_SIZE, 0, &raw, path, 2);
}

static void check_refusals_of_verdicts(void)
{
    spotwise_job job = face_good_job();
    const spotwise_job *no_job = NULL;
    job.dose_ratio = 0.5e-6;
    CHECK_REFUSED(spotwise_verdict, is_blank_verdict(&out), spotwise_focus_check, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_ANY_DOSE_RATIO, &job);
    CHECK_REFUSED(spotwise_verdict, is_blank_verdict(&out), spotwise_focus_check, SPOTWISE_E_NULL, 0, no_job);
    job.struct_size++;
    CHECK_REFUSED(spotwise_verdict, is_blank_verdict(&out), spotwise_focus_check, SPOTWISE_E_STRUCT_SIZE, 0,
                  &job);
    /* Choices first, in their order. */
    spotwise_job_init(&job);
    CHECK_REFUSED(spotwise_verdict, is_blank_verdict(&out), spotwise_focus_check, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_RAW_BEAM, &job);
    job.raw_beam = SPOTWISE_RAW_BEAM_WAIST;
    CHECK_REFUSED(spotwise_verdict, is_blank_verdict(&out), spotwise_focus_check, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_FOCUS_SETTING, &job);
    job.focus_setting = SPOTWISE_FOCUS_LENS_HEIGHT;
    CHECK_REFUSED(spotwise_verdict, is_blank_verdict(&out), spotwise_focus_check, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_DEPTH_CRITERION, &job);
    job.criterion = SPOTWISE_CRITERION_RAYLEIGH;
    job.dose = 3;
    job.response = 5;
    job.lens = 3;
    CHECK_REFUSED(spotwise_verdict, is_blank_verdict(&out), spotwise_focus_check, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_JOB_DOSE, &job);
    job.dose = SPOTWISE_DOSE_BY_SCAN;
    CHECK_REFUSED(spotwise_verdict, is_blank_verdict(&out), spotwise_focus_check, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_RESPONSE, &job);
    job.response = SPOTWISE_RESPONSE_MELT;
    CHECK_REFUSED(spotwise_verdict, is_blank_verdict(&out), spotwise_focus_check, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_LENS_KIND, &job);
    job.lens = SPOTWISE_LENS_SINGLET;
    CHECK_REFUSED(spotwise_verdict, is_blank_verdict(&out), spotwise_focus_check, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_GLASS, &job);
    job.glass = SPOTWISE_GLASS_GERMANIUM;
    CHECK_REFUSED(spotwise_verdict, is_blank_verdict(&out), spotwise_focus_check, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_LENS_SHAPE, &job);
    job.lens_shape = SPOTWISE_SHAPE_BEST_FORM;
    job.text = 3;
    CHECK_REFUSED(spotwise_verdict, is_blank_verdict(&out), spotwise_focus_check, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_JOB_TEXT, &job);
    job.text = SPOTWISE_TEXT_GIVEN;
    CHECK_REFUSED(spotwise_verdict, is_blank_verdict(&out), spotwise_focus_check, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_TYPEFACE, &job);
    job.typeface = SPOTWISE_TYPEFACE_MONOSPACED;
    CHECK_REFUSED(spotwise_verdict, is_blank_verdict(&out), spotwise_focus_check, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_TEXT_GRADE, &job);
    job.least_grade = SPOTWISE_GRADE_LOST;
    CHECK_REFUSED(spotwise_verdict, is_blank_verdict(&out), spotwise_focus_check, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_WAVELENGTH, &job);
    /* The response to a dose by ratio, glass and shape of an ideal lens, typeface and grade of no text are not
       looked at. */
    job.dose = SPOTWISE_DOSE_BY_RATIO;
    job.lens = SPOTWISE_LENS_IDEAL;
    job.text = SPOTWISE_TEXT_NONE;
    job.response = job.glass = job.lens_shape = job.typeface = job.least_grade = 77;
    CHECK_REFUSED(spotwise_verdict, is_blank_verdict(&out), spotwise_focus_check, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_WAVELENGTH, &job);
}

/* Jobs whose every number is allowed by itself, but that have nothing in focus behind the lens. */
static void check_refusals_of_places(void)
{
    spotwise_job job = face_good_job();
    spotwise_verdict verdict;
    spotwise_error error = stale_report();
    spotwise_verdict_init(&verdict);

    /* A waist within the focal length, whose image is virtual. By hand: Rayleigh range 1.018 mm, so
       the shift is -20 mm * 50^2 / (20^2 + 1.018^2) = -124.7 mm, and the waist at -74.7 mm. */
    job.wavelength_m = 1e-6;
    job.m2 = 1.0;
    job.raw_beam = SPOTWISE_RAW_BEAM_WAIST;
    job.waist_diameter_m = 36e-6;
    job.waist_to_lens_m = 30e-3;
    job.focal_length_m = 50e-3;
    CHECK_REFUSED(spotwise_verdict, is_blank_verdict(&out), spotwise_focus_check, SPOTWISE_E_OUTSIDE_MODEL,
                  SPOTWISE_PARAM_LENS_TO_WAIST, &job);
    CHECK(spotwise_focus_check(&job, &verdict, &error) == SPOTWISE_E_OUTSIDE_MODEL);
    CHECK(fabs(error.value - -74.7e-3) < 0.05e-3 && error.least == 1e-9 && error.greatest == 1e9);
    /* Right after the optics: before any number of the surface. */
    job.focus_z_m = (double)NAN;
    CHECK(spotwise_focus_check(&job, &verdict, &error) == SPOTWISE_E_OUTSIDE_MODEL);
    CHECK(error.parameter == SPOTWISE_PARAM_LENS_TO_WAIST);

    /* A surface 1 m from the lens that rises by 1.5 m, and so is half a metre past it. */
    job = face_good_job();
    job.focus_setting = SPOTWISE_FOCUS_LENS_HEIGHT;
    job.lens_to_surface_m = 1.0;
    job.surface_rise_m = 1.5;
    CHECK_REFUSED(spotwise_verdict, is_blank_verdict(&out), spotwise_focus_check, SPOTWISE_E_OUTSIDE_MODEL,
                  SPOTWISE_PARAM_LENS_TO_HIGHEST, &job);
    CHECK(spotwise_focus_check(&job, &verdict, &error) == SPOTWISE_E_OUTSIDE_MODEL);
    CHECK(fabs(error.value - -0.5) < 1e-12 && error.least == 1e-9 && error.greatest == 1e9);
    /* Right after the rise: before the fall. */
    job.surface_fall_m = (double)NAN;
    CHECK(spotwise_focus_check(&job, &verdict, &error) == SPOTWISE_E_OUTSIDE_MODEL);
    CHECK(error.parameter == SPOTWISE_PARAM_LENS_TO_HIGHEST);
}

/* What the report says of a value, and that success clears it. */
static void check_report(void)
{
    spotwise_beam beam = good_beam();
    spotwise_beam_section section;
    spotwise_error error = stale_report();
    spotwise_beam_section_init(&section);
    beam.m2 = 0.9;
    CHECK(spotwise_beam_at(&beam, 0.0, &section, &error) == SPOTWISE_E_OUT_OF_RANGE);
    CHECK(error.code == SPOTWISE_E_OUT_OF_RANGE && error.parameter == SPOTWISE_PARAM_M2);
    CHECK(error.value == 0.9 && error.least == 1.0 && error.greatest == 1e4);
    CHECK(strcmp(spotwise_parameter_name(error.parameter), "M squared") == 0);

    beam.m2 = 1.2;
    CHECK(spotwise_beam_at(&beam, 0.0, &section, &error) == SPOTWISE_OK);
    CHECK(is_blank(&error, sizeof error, 3));
    CHECK(section.struct_size == sizeof section && section.validity == SPOTWISE_VALIDITY_FINE);
    CHECK(section.diameter_m == 88e-6 && section.wavefront_curvature_per_m == 0.0);
    CHECK(isinf(section.wavefront_radius_m));
}

static void check_arrays(void)
{
    const spotwise_beam beam = good_beam();
    spotwise_beam small = beam;
    double z[4] = {-1e-3, 0.0, 1e-3, 2e-3};
    double out[5] = {1.0, 1.0, 1.0, 1.0, 1.0};
    spotwise_cone cone;
    spotwise_error error = stale_report();
    int i;
    small.struct_size -= 8;
    spotwise_cone_init(&cone);

    CHECK(spotwise_diameters_at(&beam, z, 4, out, &cone, &error) == SPOTWISE_OK);
    CHECK(reports(&error, SPOTWISE_OK, 0));
    CHECK(out[1] == 88e-6 && out[0] == out[2] && out[3] > out[2] && out[4] == 1.0);
    /* By hand: 2 * 1.2 * 10.6 um / (pi * 88 um) = 0.09202. */
    CHECK(fabs(cone.half_angle_rad - 0.09202) < 1e-5 && cone.validity == SPOTWISE_VALIDITY_FINE);
    for (i = 0; i < 4; i++) {
        spotwise_beam_section section;
        spotwise_beam_section_init(&section);
        CHECK(spotwise_beam_at(&beam, z[i], &section, NULL) == SPOTWISE_OK);
        CHECK(section.diameter_m == out[i] && section.half_angle_rad == cone.half_angle_rad);
    }

    z[2] = (double)NAN;
    CHECK(spotwise_diameters_at(&beam, z, 4, out, &cone, &error) == SPOTWISE_E_NOT_FINITE);
    CHECK(error.parameter == SPOTWISE_PARAM_Z);
    CHECK(isnan(out[0]) && isnan(out[1]) && isnan(out[2]) && isnan(out[3]) && out[4] == 1.0);
    CHECK(is_blank(&cone, sizeof cone, 1));

    z[2] = 1e-3;
    out[0] = 1.0;
    CHECK(spotwise_diameters_at(NULL, z, 4, out, &cone, &error) == SPOTWISE_E_NULL && isnan(out[0]));
    out[0] = 1.0;
    CHECK(spotwise_diameters_at(&beam, NULL, 4, out, &cone, &error) == SPOTWISE_E_NULL && isnan(out[0]));
    CHECK(reports(&error, SPOTWISE_E_NULL, 0));
    CHECK(spotwise_diameters_at(&beam, z, 4, NULL, &cone, NULL) == SPOTWISE_E_NULL);

    /* A cone that is missing, or cannot be written: the array is blank all the same. */
    out[0] = 1.0;
    CHECK(spotwise_diameters_at(&beam, z, 4, out, NULL, &error) == SPOTWISE_E_NULL && isnan(out[0]));
    CHECK(reports(&error, SPOTWISE_E_NULL, 0));
    out[0] = 1.0;
    memset(&cone, STALE, sizeof cone);
    CHECK(spotwise_diameters_at(&beam, z, 4, out, &cone, &error) == SPOTWISE_E_STRUCT_SIZE && isnan(out[0]));
    CHECK(reports(&error, SPOTWISE_E_STRUCT_SIZE, 0) && is_filled_with(&cone, sizeof cone, STALE));
    spotwise_cone_init(&cone);

    /* Nothing to do is no failure, and needs no arrays; the beam is still looked at. */
    CHECK(spotwise_diameters_at(&beam, NULL, 0, NULL, &cone, &error) == SPOTWISE_OK);
    CHECK(spotwise_diameters_at(&beam, z, 0, out, &cone, NULL) == SPOTWISE_OK && isnan(out[0]));
    CHECK(spotwise_diameters_at(NULL, NULL, 0, NULL, &cone, NULL) == SPOTWISE_E_NULL);

    /* In place, and one element apart. */
    CHECK(spotwise_diameters_at(&beam, z, 4, z, &cone, &error) == SPOTWISE_E_OVERLAP);
    CHECK(reports(&error, SPOTWISE_E_OVERLAP, 0) && isnan(z[0]) && isnan(z[3]));
    for (i = 0; i < 5; i++) {
        out[i] = 0.0;
    }
    CHECK(spotwise_diameters_at(&beam, out, 4, out + 1, &cone, NULL) == SPOTWISE_E_OVERLAP);
    CHECK(out[0] == 0.0 && isnan(out[1]) && isnan(out[4]));
    for (i = 0; i < 5; i++) {
        out[i] = 0.0;
    }
    CHECK(spotwise_diameters_at(&beam, out, 2, out + 2, &cone, NULL) == SPOTWISE_OK);
    CHECK(out[2] == 88e-6 && out[3] == 88e-6 && out[4] == 0.0);

    /* A length that no array can have: nothing is read or written. Pointers and sizes come first. */
    out[0] = 1.0;
    CHECK(spotwise_diameters_at(&beam, z, SIZE_MAX, out, &cone, &error) == SPOTWISE_E_LENGTH_MISMATCH);
    CHECK(error.parameter == SPOTWISE_PARAM_OUTPUT && error.value == (double)SIZE_MAX);
    CHECK(is_blank(&cone, sizeof cone, 1));
    CHECK(error.least == 0.0 && error.greatest == (double)(SIZE_MAX / 2 / sizeof(double)));
    CHECK(spotwise_diameters_at(&beam, z, SIZE_MAX / 16 + 1, out, &cone, NULL) == SPOTWISE_E_LENGTH_MISMATCH);
    CHECK(spotwise_diameters_at(NULL, z, SIZE_MAX, out, &cone, &error) == SPOTWISE_E_NULL);
    CHECK(reports(&error, SPOTWISE_E_NULL, 0));
    CHECK(spotwise_diameters_at(&small, z, SIZE_MAX, out, &cone, NULL) == SPOTWISE_E_STRUCT_SIZE);
    CHECK(spotwise_diameters_at(&beam, NULL, SIZE_MAX, out, &cone, NULL) == SPOTWISE_E_NULL);
    CHECK(spotwise_diameters_at(&beam, z, SIZE_MAX, NULL, &cone, NULL) == SPOTWISE_E_NULL);
    memset(&error, STALE, sizeof error);
    CHECK(spotwise_diameters_at(&beam, z, SIZE_MAX, out, &cone, &error) == SPOTWISE_E_STRUCT_SIZE);
    CHECK(is_filled_with(&error, sizeof error, STALE) && out[0] == 1.0);

    /* A report that cannot be written. */
    error.struct_size = 1;
    z[0] = 0.0;
    CHECK(spotwise_diameters_at(&beam, z, 1, out, &cone, &error) == SPOTWISE_E_STRUCT_SIZE && isnan(out[0]));
}

static void check_gantry_arrays(void)
{
    spotwise_beam raw = good_beam();
    double places[4] = {0.5, 1.0, 2.0, 3.0};
    double spots[5] = {1.0, 1.0, 1.0, 1.0, 1.0};
    double shifts[5] = {1.0, 1.0, 1.0, 1.0, 1.0};
    spotwise_cone cone;
    spotwise_error error = stale_report();
    double widest = 0.0;
    int i;
    raw.waist_diameter_m = 4e-3;
    spotwise_cone_init(&cone);

    CHECK(spotwise_focus_along_gantry(&raw, places, 4, 50e-3, spots, shifts, &cone, &error) == SPOTWISE_OK);
    CHECK(reports(&error, SPOTWISE_OK, 0) && spots[4] == 1.0 && shifts[4] == 1.0);
    for (i = 0; i < 4; i++) {
        spotwise_focused_beam focused;
        spotwise_focused_beam_init(&focused);
        CHECK(spotwise_focus_through_lens(&raw, places[i], 50e-3, &focused, NULL) == SPOTWISE_OK);
        CHECK(focused.waist_diameter_m == spots[i] && focused.focus_shift_m == shifts[i]);
        widest = focused.half_angle_rad > widest ? focused.half_angle_rad : widest;
    }
    CHECK(cone.half_angle_rad == widest && cone.validity == SPOTWISE_VALIDITY_FINE);

    places[2] = (double)NAN;
    CHECK(spotwise_focus_along_gantry(&raw, places, 4, 50e-3, spots, shifts, &cone, &error) ==
          SPOTWISE_E_NOT_FINITE);
    CHECK(error.parameter == SPOTWISE_PARAM_WAIST_TO_LENS);
    for (i = 0; i < 4; i++) {
        CHECK(isnan(spots[i]) && isnan(shifts[i]));
    }
    CHECK(is_blank(&cone, sizeof cone, 1));
    places[2] = 2.0;

    /* Pointers. Whatever can be written is made blank. */
    spots[0] = shifts[0] = 1.0;
    CHECK(spotwise_focus_along_gantry(NULL, places, 4, 50e-3, spots, shifts, &cone, &error) ==
          SPOTWISE_E_NULL);
    CHECK(isnan(spots[0]) && isnan(shifts[0]));
    spots[0] = shifts[0] = 1.0;
    CHECK(spotwise_focus_along_gantry(&raw, NULL, 4, 50e-3, spots, shifts, &cone, &error) == SPOTWISE_E_NULL);
    CHECK(isnan(spots[0]) && isnan(shifts[0]) && reports(&error, SPOTWISE_E_NULL, 0));
    spots[0] = shifts[0] = 1.0;
    CHECK(spotwise_focus_along_gantry(&raw, places, 4, 50e-3, NULL, shifts, &cone, NULL) == SPOTWISE_E_NULL);
    CHECK(isnan(shifts[0]));
    CHECK(spotwise_focus_along_gantry(&raw, places, 4, 50e-3, spots, NULL, &cone, NULL) == SPOTWISE_E_NULL);
    CHECK(isnan(spots[0]));
    CHECK(spotwise_focus_along_gantry(&raw, NULL, 0, 50e-3, NULL, NULL, &cone, &error) == SPOTWISE_OK);
    memset(&error, STALE, sizeof error);
    spots[0] = 1.0;
    CHECK(spotwise_focus_along_gantry(&raw, places, 4, 50e-3, spots, shifts, &cone, &error) ==
          SPOTWISE_E_STRUCT_SIZE);
    CHECK(isnan(spots[0]) && is_filled_with(&error, sizeof error, STALE));

    /* A cone that is missing, or cannot be written. */
    error = stale_report();
    spots[0] = shifts[0] = 1.0;
    CHECK(spotwise_focus_along_gantry(&raw, places, 4, 50e-3, spots, shifts, NULL, &error) ==
          SPOTWISE_E_NULL);
    CHECK(isnan(spots[0]) && isnan(shifts[0]) && reports(&error, SPOTWISE_E_NULL, 0));
    memset(&cone, STALE, sizeof cone);
    CHECK(spotwise_focus_along_gantry(&raw, places, 4, 50e-3, spots, shifts, &cone, &error) ==
          SPOTWISE_E_STRUCT_SIZE);
    CHECK(reports(&error, SPOTWISE_E_STRUCT_SIZE, 0) && is_filled_with(&cone, sizeof cone, STALE));
    spotwise_cone_init(&cone);

    /* No two arrays may share memory. */
    error = stale_report();
    CHECK(spotwise_focus_along_gantry(&raw, places, 2, 50e-3, spots, spots + 1, &cone, &error) ==
          SPOTWISE_E_OVERLAP);
    CHECK(reports(&error, SPOTWISE_E_OVERLAP, 0) && isnan(spots[0]) && isnan(spots[2]));
    CHECK(spotwise_focus_along_gantry(&raw, places, 2, 50e-3, spots, spots + 2, &cone, NULL) == SPOTWISE_OK);
    CHECK(spotwise_focus_along_gantry(&raw, places, 2, 50e-3, spots, places + 1, &cone, NULL) ==
          SPOTWISE_E_OVERLAP);
    CHECK(places[0] == 0.5 && isnan(places[1]) && isnan(places[2]) && places[3] == 3.0);
    CHECK(spotwise_focus_along_gantry(&raw, places, 2, 50e-3, places, spots, &cone, NULL) ==
          SPOTWISE_E_OVERLAP);

    /* A length that no array can have. */
    spots[0] = shifts[0] = 1.0;
    CHECK(spotwise_focus_along_gantry(&raw, places, SIZE_MAX, 50e-3, spots, shifts, &cone, &error) ==
          SPOTWISE_E_LENGTH_MISMATCH);
    CHECK(error.parameter == SPOTWISE_PARAM_OUTPUT && spots[0] == 1.0 && shifts[0] == 1.0);
}

/* Working space for a map of three radii and two planes. */
static double map_workspace[65536];

/* A result as an earlier call may have left it. */
static void stale_map(spotwise_wave_map_result *map)
{
    spotwise_wave_map_result_init(map);
    map->validity = SPOTWISE_VALIDITY_WIDE_CONE;
    map->error_bound = map->half_angle_rad = 1.0;
}

static void check_map(void)
{
    const size_t most = sizeof map_workspace / sizeof map_workspace[0];
    spotwise_wave wave = good_wave();
    const double radius_m[3] = {0.0, 20e-6, 60e-6};
    double z_m[6] = {-0.2e-3, 0.3e-3}; /* two planes, and room for a map that is written over them */
    double ratio[7] = {1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0};
    spotwise_wave_map_result map;
    size_t length = 77;
    spotwise_error error = stale_report();
    int i;
    spotwise_wave_map_result_init(&map);

    CHECK(spotwise_wave_map_workspace(&wave, radius_m, 3, z_m, 2, &length, &error) == SPOTWISE_OK);
    CHECK(reports(&error, SPOTWISE_OK, 0) && length > 0 && length <= most);
    CHECK(spotwise_wave_map(&wave, radius_m, 3, z_m, 2, map_workspace, length, ratio, &map, &error) ==
          SPOTWISE_OK);
    CHECK(reports(&error, SPOTWISE_OK, 0) && ratio[6] == 1.0);
    CHECK(map.error_bound >= 0.0 && map.error_bound < 1e-6 && map.validity == SPOTWISE_VALIDITY_FINE);
    for (i = 0; i < 6; i++) {
        spotwise_wave_irradiance_result point;
        spotwise_wave_irradiance_result_init(&point);
        CHECK(spotwise_wave_irradiance(&wave, radius_m[i % 3], z_m[i / 3], &point, NULL) == SPOTWISE_OK);
        CHECK(fabs(point.irradiance_ratio - ratio[i]) <= map.error_bound + point.error_bound);
        CHECK(point.half_angle_rad == map.half_angle_rad && point.validity == map.validity);
    }

    /* Too little working space. */
    CHECK(spotwise_wave_map(&wave, radius_m, 3, z_m, 2, map_workspace, length - 1, ratio, &map, &error) ==
          SPOTWISE_E_LENGTH_MISMATCH);
    CHECK(error.parameter == SPOTWISE_PARAM_WORKSPACE && error.value == (double)(length - 1));
    CHECK(error.least == (double)length && is_blank(&map, sizeof map, 1));
    CHECK(isnan(ratio[0]) && isnan(ratio[5]));
    CHECK(ratio[6] == 1.0);

    /* Refused values. */
    z_m[1] = (double)NAN;
    stale_map(&map);
    length = 77;
    CHECK(spotwise_wave_map_workspace(&wave, radius_m, 3, z_m, 2, &length, &error) == SPOTWISE_E_NOT_FINITE);
    CHECK(error.parameter == SPOTWISE_PARAM_Z && length == 0);
    CHECK(spotwise_wave_map(&wave, radius_m, 3, z_m, 2, map_workspace, most, ratio, &map, &error) ==
          SPOTWISE_E_NOT_FINITE);
    CHECK(error.parameter == SPOTWISE_PARAM_Z && is_blank(&map, sizeof map, 1) && isnan(ratio[0]));
    z_m[1] = 0.3e-3;

    /* Pointers. */
    length = 77;
    CHECK(spotwise_wave_map_workspace(NULL, radius_m, 3, z_m, 2, &length, &error) == SPOTWISE_E_NULL);
    CHECK(length == 0 && reports(&error, SPOTWISE_E_NULL, 0));
    CHECK(spotwise_wave_map_workspace(&wave, NULL, 3, z_m, 2, &length, NULL) == SPOTWISE_E_NULL);
    CHECK(spotwise_wave_map_workspace(&wave, radius_m, 3, NULL, 2, &length, NULL) == SPOTWISE_E_NULL);
    CHECK(spotwise_wave_map_workspace(&wave, radius_m, 3, z_m, 2, NULL, NULL) == SPOTWISE_E_NULL);
    for (i = 0; i < 6; i++) {
        const spotwise_wave *const waves[6] = {NULL, &wave, &wave, &wave, &wave, &wave};
        ratio[0] = 1.0;
        stale_map(&map);
        CHECK(spotwise_wave_map(waves[i], i == 1 ? NULL : radius_m, 3, i == 2 ? NULL : z_m, 2,
                                i == 3 ? NULL : map_workspace, most, i == 4 ? NULL : ratio,
                                i == 5 ? NULL : &map, &error) == SPOTWISE_E_NULL);
        CHECK(reports(&error, SPOTWISE_E_NULL, 0));
        CHECK(i == 4 ? ratio[0] == 1.0 : isnan(ratio[0]));
        CHECK(i == 5 ? map.error_bound == 1.0 : is_blank(&map, sizeof map, 1));
    }
    ratio[0] = 1.0;
    map.struct_size = 8;
    CHECK(spotwise_wave_map(&wave, radius_m, 3, z_m, 2, map_workspace, most, ratio, &map, &error) ==
          SPOTWISE_E_STRUCT_SIZE);
    CHECK(map.struct_size == 8 && isnan(ratio[0]));
    spotwise_wave_map_result_init(&map);
    wave.struct_size = 0;
    CHECK(spotwise_wave_map(&wave, radius_m, 3, z_m, 2, map_workspace, most, ratio, &map, &error) ==
          SPOTWISE_E_STRUCT_SIZE);
    wave = good_wave();

    /* No output may share memory with another array. */
    CHECK(spotwise_wave_map(&wave, radius_m, 3, z_m, 2, map_workspace, most, map_workspace + 8, &map,
                            &error) == SPOTWISE_E_OVERLAP);
    CHECK(reports(&error, SPOTWISE_E_OVERLAP, 0) && is_blank(&map, sizeof map, 1) && isnan(map_workspace[8]));
    CHECK(spotwise_wave_map(&wave, radius_m, 3, z_m, 2, map_workspace, most, z_m, &map, NULL) ==
          SPOTWISE_E_OVERLAP);

    /* Lengths that no array can have: nothing is read or written. */
    z_m[0] = -0.2e-3;
    z_m[1] = 0.3e-3;
    ratio[0] = 1.0;
    stale_map(&map);
    CHECK(spotwise_wave_map(&wave, radius_m, SIZE_MAX / 2, z_m, 4, map_workspace, most, ratio, &map,
                            &error) == SPOTWISE_E_LENGTH_MISMATCH);
    CHECK(error.parameter == SPOTWISE_PARAM_OUTPUT && ratio[0] == 1.0 && is_blank(&map, sizeof map, 1));
    CHECK(spotwise_wave_map(&wave, radius_m, 3, z_m, 2, map_workspace, SIZE_MAX, ratio, &map, &error) ==
          SPOTWISE_E_LENGTH_MISMATCH);
    CHECK(error.parameter == SPOTWISE_PARAM_WORKSPACE && ratio[0] == 1.0 && is_blank(&map, sizeof map, 1));
    CHECK(spotwise_wave_map_workspace(&wave, radius_m, SIZE_MAX, z_m, 2, &length, &error) ==
          SPOTWISE_E_LENGTH_MISMATCH);
}

/* An empty path changes nothing, and space at the end of it is space beyond it. */
static void check_path(void)
{
    spotwise_astigmatic_beam raw = good_astigmatic();
    spotwise_path_beam here;
    spotwise_path_beam there;
    spotwise_path_element space;
    spotwise_path_beam_init(&here);
    spotwise_path_beam_init(&there);
    CHECK(spotwise_beam_after_path(&raw, NULL, 0, &here, NULL) == SPOTWISE_OK);
    CHECK(here.beam.waist_diameter_x_m == raw.waist_diameter_x_m && here.distance_m == 0.0);
    CHECK(here.beam.waist_z_y_m == raw.waist_z_y_m && here.beam.struct_size == sizeof here.beam);
    spotwise_path_element_init(&space);
    space.element = SPOTWISE_ELEMENT_SPACE;
    space.length_m = 0.5;
    CHECK(spotwise_beam_after_path(&raw, &space, 1, &here, NULL) == SPOTWISE_OK);
    CHECK(spotwise_beam_along_path(&raw, NULL, 0, 0.5, &there, NULL) == SPOTWISE_OK);
    CHECK(here.diameter_x_m == there.diameter_x_m && here.distance_m == 0.5 && there.distance_m == 0.5);
}

/* An unclipped wave without aberration is the ideal beam; a singlet hands on what a wave asks for. */
static void check_wave(void)
{
    const spotwise_singlet lens = good_singlet();
    spotwise_beam raw = good_beam();
    spotwise_singlet_focus focus;
    spotwise_wave wave;
    spotwise_wave_irradiance_result point;
    spotwise_singlet_focus_init(&focus);
    spotwise_wave_init(&wave);
    spotwise_wave_irradiance_result_init(&point);
    raw.waist_diameter_m = 9e-3;
    CHECK(spotwise_focus_singlet(&raw, 0.0, &lens, (double)INFINITY, &focus, NULL) == SPOTWISE_OK);
    CHECK(isinf(focus.clipping_ratio) && focus.transmitted == 1.0);
    /* By hand, lengths in mm: pi * 0.02859 * 9^4 / (2 * 0.0106 * 38.1^3) = 0.5026. */
    CHECK(fabs(focus.aberration_phase_rad - 0.5026) < 0.0005);
    CHECK((focus.validity & SPOTWISE_VALIDITY_ABERRATED) != 0 && focus.ideal.validity == 0);
    CHECK(focus.power86.waist_diameter_m > focus.ideal.waist_diameter_m);
    CHECK(focus.power86.waist_diameter_m < focus.handbook_diameter_m);

    wave.wavelength_m = raw.wavelength_m;
    wave.m2 = raw.m2;
    wave.diameter_at_lens_m = focus.ideal.diameter_at_lens_m;
    wave.clear_aperture_m = (double)INFINITY;
    wave.lens_to_focus_m = focus.lens_to_focus_m;
    wave.aberration_phase_rad = 0.0;
    CHECK(spotwise_wave_irradiance(&wave, 0.0, 0.0, &point, NULL) == SPOTWISE_OK);
    CHECK(fabs(point.irradiance_ratio - 1.0) <= point.error_bound + 1e-14);
    wave.aberration_phase_rad = focus.aberration_phase_rad;
    CHECK(spotwise_wave_irradiance(&wave, 0.0, 0.0, &point, NULL) == SPOTWISE_OK);
    CHECK(point.irradiance_ratio < 0.9);
}

static void check_in_place(void)
{
    spotwise_astigmatic_beam raw = good_astigmatic();
    spotwise_astigmatic_focus apart;
    spotwise_astigmatic_focus focus;
    raw.waist_diameter_x_m = 5e-3;
    raw.waist_diameter_y_m = 5e-3;
    spotwise_astigmatic_focus_init(&apart);
    spotwise_astigmatic_focus_init(&focus);
    focus.beam = raw;
    CHECK(spotwise_focus_astigmatic(&raw, 50e-3, &apart, NULL) == SPOTWISE_OK);
    CHECK(spotwise_focus_astigmatic(&focus.beam, 50e-3, &focus, NULL) == SPOTWISE_OK);
    CHECK(focus.beam.waist_diameter_x_m == apart.beam.waist_diameter_x_m);
    CHECK(focus.beam.waist_z_y_m == apart.beam.waist_z_y_m && focus.half_angle_rad == apart.half_angle_rad);
}

/* A surface off the focus of a real lens: the flags of the lens stay, and in the waist nothing grows. */
static void check_off_singlet(void)
{
    const spotwise_singlet lens = good_singlet();
    spotwise_beam raw = good_beam();
    spotwise_depth_criterion criterion;
    spotwise_singlet_focus focus;
    spotwise_singlet_defocus_result off;
    spotwise_singlet_depth depth;
    spotwise_singlet_focus_init(&focus);
    spotwise_singlet_defocus_result_init(&off);
    spotwise_singlet_depth_init(&depth);
    spotwise_depth_criterion_init(&criterion);
    criterion.criterion = SPOTWISE_CRITERION_RAYLEIGH;
    raw.waist_diameter_m = 9e-3;
    CHECK(spotwise_focus_singlet(&raw, 0.0, &lens, 18e-3, &focus, NULL) == SPOTWISE_OK);
    CHECK(spotwise_singlet_defocus(&raw, 0.0, &lens, 18e-3, SPOTWISE_SPOT_POWER_86, 0.0, &off, NULL) ==
          SPOTWISE_OK);
    CHECK(off.diameter_m == focus.power86.waist_diameter_m && off.growth == 1.0);
    /* Irradiance and line dose are a Gaussian beam's, which takes one more flag. */
    CHECK(off.validity == (focus.validity | SPOTWISE_VALIDITY_GAUSSIAN_OFF_FOCUS));
    CHECK(off.half_angle_rad == focus.half_angle_rad);
    CHECK(off.normalised_aberration == focus.normalised_aberration && off.clipping_ratio == focus.clipping_ratio);
    CHECK(off.relative_focus_shift == focus.relative_focus_shift);
    CHECK(off.relative_rayleigh_range == focus.relative_rayleigh_range);
    CHECK((off.validity & SPOTWISE_VALIDITY_ABERRATED) != 0);
    CHECK(spotwise_singlet_depth_of_focus(&raw, 0.0, &lens, 18e-3, SPOTWISE_SPOT_SECOND_MOMENT, &criterion,
                                          &depth, NULL) == SPOTWISE_OK);
    CHECK(depth.away_from_lens_z_m == focus.second_moment.rayleigh_range_m);
    CHECK(depth.normalised_aberration == focus.normalised_aberration);
    CHECK(depth.clipping_ratio == focus.clipping_ratio);
    CHECK(depth.relative_focus_shift == focus.relative_focus_shift);
    CHECK(depth.relative_rayleigh_range == focus.relative_rayleigh_range);
    CHECK(depth.validity == focus.validity && depth.half_angle_rad == focus.half_angle_rad);
    criterion.criterion = SPOTWISE_CRITERION_LINE_DOSE_DROP;
    criterion.drop = 0.1;
    CHECK(spotwise_singlet_depth_of_focus(&raw, 0.0, &lens, 18e-3, SPOTWISE_SPOT_POWER_86, &criterion, &depth,
                                          NULL) == SPOTWISE_OK);
    CHECK(depth.validity == (focus.validity | SPOTWISE_VALIDITY_GAUSSIAN_OFF_FOCUS));
}

/* A level surface is that of defocus; a tilted one spreads the light over 1/cos of it. */
static void check_tilt(void)
{
    const double sixty_degrees = 1.0471975511965976;
    const spotwise_beam beam = good_beam();
    spotwise_defocus_result level;
    spotwise_tilted_spot_result spot;
    spotwise_defocus_result_init(&level);
    spotwise_tilted_spot_result_init(&spot);
    CHECK(spotwise_defocus(&beam, 0.5e-3, &level, NULL) == SPOTWISE_OK);
    CHECK(spotwise_tilted_spot(&beam, 0.5e-3, 0.0, &spot, NULL) == SPOTWISE_OK);
    CHECK(spot.diameter_across_m == level.diameter_m && spot.diameter_along_m == level.diameter_m);
    CHECK(spot.irradiance_ratio == level.irradiance_ratio && spot.half_angle_rad == level.half_angle_rad);
    CHECK(spot.grazing_ratio == 0.0 && spot.validity == SPOTWISE_VALIDITY_FINE);
    CHECK(spotwise_tilted_spot(&beam, 0.0, sixty_degrees, &spot, NULL) == SPOTWISE_OK);
    CHECK(fabs(spot.diameter_along_m - 176e-6) < 1e-18 && spot.diameter_across_m == 88e-6);
    CHECK(fabs(spot.irradiance_ratio - 0.5) < 1e-15 && spot.validity == SPOTWISE_VALIDITY_FINE);
    /* By hand: tan 1.2 = 2.5722, times 0.09202 is 0.2367. */
    CHECK(spotwise_tilted_spot(&beam, 0.0, 1.2, &spot, NULL) == SPOTWISE_OK);
    CHECK(fabs(spot.grazing_ratio - 0.2367) < 1e-4 && spot.validity == SPOTWISE_VALIDITY_TILTED);
}

static void check_verdict(void)
{
    spotwise_job job = face_good_job();
    spotwise_verdict verdict;
    spotwise_verdict_init(&verdict);
    CHECK(spotwise_focus_check(&job, &verdict, NULL) == SPOTWISE_OK);
    CHECK(verdict.outcome == SPOTWISE_OUTCOME_HOLDS && verdict.reasons == 0);
    CHECK(fabs(verdict.waist_diameter_m - 88.143e-6) < 0.5e-9);
    CHECK(verdict.highest.in_depth == 1 && verdict.highest.details_hold == 1);
    CHECK(verdict.highest.z_offset_m == -0.3e-3 && verdict.lowest.z_offset_m == 0.3e-3);
    CHECK(verdict.highest.growth == verdict.lowest.growth && verdict.datum.growth == 1.0);

    /* A largest diameter below the waist is a finding, not a failure; its ends are no numbers. */
    job.criterion = SPOTWISE_CRITERION_LARGEST_DIAMETER;
    job.largest_diameter_m = 50e-6;
    CHECK(spotwise_focus_check(&job, &verdict, NULL) == SPOTWISE_OK);
    CHECK(verdict.outcome == SPOTWISE_OUTCOME_HOLDS_OUT_OF_FOCUS);
    CHECK((verdict.reasons & SPOTWISE_REASON_NO_DEPTH) != 0);
    CHECK(isnan(verdict.depth_toward_lens_z_m) && isnan(verdict.depth_full_m));
    CHECK(verdict.detail_full_m > 0.0);

    CHECK(verdict.promised == verdict.outcome && verdict.has_real == 0);
    CHECK(is_blank_singlet_focus(&verdict.real));

    job.finest_gap_m = 10e-6;
    CHECK(spotwise_focus_check(&job, &verdict, NULL) == SPOTWISE_OK);
    CHECK(verdict.outcome == SPOTWISE_OUTCOME_LOST);
    CHECK((verdict.reasons & SPOTWISE_REASON_GAP_TOO_FINE) != 0);
    CHECK(isnan(verdict.detail_away_from_lens_z_m));
}

/* A real lens, and an expander that does nothing. */
static void check_real_verdict(void)
{
    spotwise_job job = face_good_job();
    spotwise_verdict ideal;
    spotwise_verdict verdict;
    spotwise_error error = stale_report();
    spotwise_verdict_init(&ideal);
    spotwise_verdict_init(&verdict);
    job.diameter_at_lens_m = 9e-3;
    CHECK(spotwise_focus_check(&job, &ideal, NULL) == SPOTWISE_OK);
    job.lens = SPOTWISE_LENS_SINGLET;
    job.glass = SPOTWISE_GLASS_ZINC_SELENIDE;
    job.lens_shape = SPOTWISE_SHAPE_CURVED_SIDE_FIRST;
    CHECK(spotwise_focus_check(&job, &verdict, &error) == SPOTWISE_OK);
    CHECK(reports(&error, SPOTWISE_OK, 0) && verdict.has_real == 1);
    CHECK(verdict.promised == ideal.outcome && verdict.waist_diameter_m == ideal.waist_diameter_m);
    CHECK(verdict.datum.diameter_m == verdict.real.power86.waist_diameter_m);
    CHECK(verdict.datum.diameter_m > ideal.datum.diameter_m);
    CHECK((verdict.validity & SPOTWISE_VALIDITY_ABERRATED) != 0);
    CHECK((verdict.validity & SPOTWISE_VALIDITY_GAUSSIAN_OFF_FOCUS) != 0);
    CHECK(spotwise_validity_level(verdict.validity) == SPOTWISE_LEVEL_CAUTION);
    CHECK(isinf(verdict.real.clipping_ratio));
    job.clear_aperture_m = 18e-3;
    CHECK(spotwise_focus_check(&job, &verdict, NULL) == SPOTWISE_OK);
    CHECK(verdict.real.clipping_ratio == 2.0);

    /* Germanium does not pass a wavelength of 1.06 um; 30 mm is too wide for this lens. */
    job.glass = SPOTWISE_GLASS_GERMANIUM;
    job.wavelength_m = 1.06e-6;
    CHECK(spotwise_focus_check(&job, &verdict, &error) == SPOTWISE_E_OUT_OF_RANGE);
    CHECK(error.parameter == SPOTWISE_PARAM_WAVELENGTH && error.least == 2e-6);
    CHECK(is_blank_verdict(&verdict));
    job = face_good_job();
    job.diameter_at_lens_m = 14e-3;
    job.lens = SPOTWISE_LENS_SINGLET;
    job.glass = SPOTWISE_GLASS_ZINC_SELENIDE;
    job.lens_shape = SPOTWISE_SHAPE_FLAT_SIDE_FIRST;
    CHECK(spotwise_focus_check(&job, &verdict, &error) == SPOTWISE_E_OUTSIDE_MODEL);
    CHECK(error.parameter == SPOTWISE_PARAM_NORMALISED_ABERRATION && error.greatest == 1.7);

    job = face_good_job();
    job.raw_beam = SPOTWISE_RAW_BEAM_WAIST;
    job.waist_diameter_m = 7e-3;
    job.waist_to_lens_m = 1.5;
    CHECK(spotwise_focus_check(&job, &ideal, NULL) == SPOTWISE_OK);
    job.raw_beam = SPOTWISE_RAW_BEAM_EXPANDED;
    job.waist_to_expander_m = 0.5;
    job.magnification = 1.0;
    job.exit_power_per_m = 0.0;
    job.expander_to_lens_m = 1.0;
    CHECK(spotwise_focus_check(&job, &verdict, NULL) == SPOTWISE_OK);
    CHECK(fabs(verdict.waist_diameter_m / ideal.waist_diameter_m - 1.0) < 1e-14);
    job.magnification = (double)NAN;
    CHECK(spotwise_focus_check(&job, &verdict, &error) == SPOTWISE_E_NOT_FINITE);
    CHECK(error.parameter == SPOTWISE_PARAM_MAGNIFICATION);
}

static int is_text(const char *text)
{
    return text != NULL && text[0] != '\0';
}

static int is_unknown(const char *text)
{
    return text != NULL && strcmp(text, "unknown") == 0;
}

static void check_texts(void)
{
    uint32_t i;
    CHECK(spotwise_abi_version() == SPOTWISE_ABI_VERSION);
    CHECK(strchr(spotwise_version_string(), '.') != NULL);
    CHECK(strstr(spotwise_caution_text(), "eyewear") != NULL);

    CHECK(strcmp(spotwise_status_text(SPOTWISE_OK), "success") == 0);
    for (i = SPOTWISE_OK; i <= SPOTWISE_E_LENGTH_MISMATCH; i++) {
        CHECK(is_text(spotwise_status_text(i)) && !is_unknown(spotwise_status_text(i)));
    }
    CHECK(is_text(spotwise_status_text(SPOTWISE_E_UNDETERMINED)) &&
          !is_unknown(spotwise_status_text(SPOTWISE_E_UNDETERMINED)));
    CHECK(is_text(spotwise_status_text(SPOTWISE_E_STOPPED)) &&
          !is_unknown(spotwise_status_text(SPOTWISE_E_STOPPED)));
    for (i = SPOTWISE_E_NULL; i <= SPOTWISE_E_OVERLAP; i++) {
        CHECK(is_text(spotwise_status_text(i)) && !is_unknown(spotwise_status_text(i)));
    }
    CHECK(is_unknown(spotwise_status_text(SPOTWISE_E_OVERLAP + 1)));

    for (i = SPOTWISE_PARAM_WAVELENGTH; i <= SPOTWISE_PARAM_SIZE_CERTAINTY; i++) {
        CHECK(is_text(spotwise_parameter_name(i)) && !is_unknown(spotwise_parameter_name(i)));
        CHECK(!is_unknown(spotwise_parameter_unit(i)));
    }
    CHECK(strcmp(spotwise_parameter_name(SPOTWISE_PARAM_FOCUS_Z), "focus z") == 0);
    CHECK(strcmp(spotwise_parameter_unit(SPOTWISE_PARAM_FOCUS_Z), "m") == 0);
    CHECK(strcmp(spotwise_parameter_unit(SPOTWISE_PARAM_M2), "") == 0);
    CHECK(is_unknown(spotwise_parameter_name(0)) && is_unknown(spotwise_parameter_unit(0)));
    CHECK(is_unknown(spotwise_parameter_name(SPOTWISE_PARAM_STEADY_WEIGHTS + 1)));
    CHECK(is_unknown(spotwise_parameter_unit(UINT32_MAX)));

    for (i = SPOTWISE_OUTCOME_HOLDS; i <= SPOTWISE_OUTCOME_NOTHING_MARKS; i++) {
        CHECK(is_text(spotwise_outcome_text(i)) && !is_unknown(spotwise_outcome_text(i)));
    }
    CHECK(is_unknown(spotwise_outcome_text(0)) && is_unknown(spotwise_outcome_text(5)));

    for (i = SPOTWISE_REASON_STROKE_TOO_FINE; i <= SPOTWISE_REASON_TOO_STEEP_TO_MARK; i *= 2) {
        CHECK(is_text(spotwise_reason_text(i)) && !is_unknown(spotwise_reason_text(i)));
    }
    CHECK(strstr(spotwise_validity_text(SPOTWISE_VALIDITY_WIDE_CONE), "cone is wide") != NULL);
    for (i = SPOTWISE_VALIDITY_WIDE_CONE; i <= SPOTWISE_VALIDITY_GAUSSIAN_OFF_FOCUS; i *= 2) {
        CHECK(is_text(spotwise_validity_text(i)) && !is_unknown(spotwise_validity_text(i)));
    }
    CHECK(is_unknown(spotwise_validity_text(SPOTWISE_VALIDITY_FINE)) && is_unknown(spotwise_validity_text(3)));
    CHECK(is_unknown(spotwise_validity_text(SPOTWISE_VALIDITY_GAUSSIAN_OFF_FOCUS * 2)));
    CHECK(is_unknown(spotwise_reason_text(0)) && is_unknown(spotwise_reason_text(3)));
    CHECK(is_unknown(spotwise_reason_text(SPOTWISE_REASON_TOO_STEEP_TO_MARK * 2)));
    CHECK(is_unknown(spotwise_reason_text(UINT32_C(0x80000000))));
    CHECK(strstr(spotwise_reason_text(SPOTWISE_REASON_GAP_FILLED_LOW), "gap fills at the lowest") != NULL);
    CHECK(strstr(spotwise_reason_text(SPOTWISE_REASON_NOTHING_MARKS), "too little") != NULL);
}

static void check_levels(void)
{
    CHECK(spotwise_validity_level(SPOTWISE_VALIDITY_FINE) == SPOTWISE_LEVEL_FINE);
    CHECK(spotwise_validity_level(SPOTWISE_VALIDITY_WIDE_CONE) == SPOTWISE_LEVEL_CAUTION);
    CHECK(spotwise_validity_level(SPOTWISE_VALIDITY_SECOND_RANGE) == SPOTWISE_LEVEL_CAUTION);
    CHECK(spotwise_validity_level(SPOTWISE_VALIDITY_ABERRATED) == SPOTWISE_LEVEL_CAUTION);
    CHECK(spotwise_validity_level(SPOTWISE_VALIDITY_STRONGLY_ABERRATED) == SPOTWISE_LEVEL_OUT_OF_DOMAIN);
    CHECK(spotwise_validity_level(SPOTWISE_VALIDITY_CLIPPED) == SPOTWISE_LEVEL_CAUTION);
    CHECK(spotwise_validity_level(SPOTWISE_VALIDITY_STRONGLY_CLIPPED) == SPOTWISE_LEVEL_OUT_OF_DOMAIN);
    CHECK(spotwise_validity_level(SPOTWISE_VALIDITY_NO_POWER_86) == SPOTWISE_LEVEL_OUT_OF_DOMAIN);
    CHECK(spotwise_validity_level(SPOTWISE_VALIDITY_FOCUS_SHIFTED) == SPOTWISE_LEVEL_CAUTION);
    CHECK(spotwise_validity_level(SPOTWISE_VALIDITY_TILTED) == SPOTWISE_LEVEL_CAUTION);
    CHECK(spotwise_validity_level(UINT32_MAX) == SPOTWISE_LEVEL_OUT_OF_DOMAIN);
    CHECK(spotwise_validity_level(UINT32_C(0x80000000)) == SPOTWISE_LEVEL_FINE);
}

static void check_glasses(void)
{
    double least = 0.0;
    double greatest = 0.0;
    uint32_t i;
    for (i = SPOTWISE_GLASS_ZINC_SELENIDE; i <= SPOTWISE_GLASS_SAPPHIRE; i++) {
        spotwise_glass_index found;
        spotwise_glass_index_init(&found);
        CHECK(is_text(spotwise_glass_name(i)) && !is_unknown(spotwise_glass_name(i)));
        CHECK(is_text(spotwise_glass_source(i)) && !is_unknown(spotwise_glass_source(i)));
        CHECK(spotwise_glass_range(i, &least, &greatest) == SPOTWISE_OK && least < greatest);
        CHECK(spotwise_refractive_index(i, least, &found, NULL) == SPOTWISE_OK && found.index > 1.0);
        CHECK(spotwise_refractive_index(i, greatest, &found, NULL) == SPOTWISE_OK);
        CHECK(spotwise_refractive_index(i, greatest * 1.01, &found, NULL) == SPOTWISE_E_OUT_OF_RANGE);
    }
    CHECK(strcmp(spotwise_glass_name(SPOTWISE_GLASS_N_BK7), "N-BK7") == 0);
    CHECK(is_unknown(spotwise_glass_name(0)) && is_unknown(spotwise_glass_name(9)));
    CHECK(is_unknown(spotwise_glass_source(0)) && is_unknown(spotwise_glass_source(UINT32_MAX)));
    CHECK(spotwise_glass_range(0, &least, &greatest) == SPOTWISE_E_UNKNOWN_CHOICE);
    CHECK(isnan(least) && isnan(greatest));
    least = greatest = 0.0;
    CHECK(spotwise_glass_range(SPOTWISE_GLASS_SAPPHIRE, &least, NULL) == SPOTWISE_E_NULL && isnan(least));
    CHECK(spotwise_glass_range(9, NULL, &greatest) == SPOTWISE_E_NULL && isnan(greatest));
}

static void check_ranges(void)
{
    double least = 0.0;
    double greatest = 0.0;
    CHECK(spotwise_parameter_range(SPOTWISE_PARAM_M2, &least, &greatest) == SPOTWISE_OK);
    CHECK(least == 1.0 && greatest == 1e4);
    CHECK(spotwise_parameter_range(SPOTWISE_PARAM_OUTPUT, &least, &greatest) == SPOTWISE_OK);
    CHECK(isnan(least) && isnan(greatest));
    least = greatest = 0.0;
    CHECK(spotwise_parameter_range(SPOTWISE_PARAM_TEXT, &least, &greatest) == SPOTWISE_OK);
    CHECK(isnan(least) && isnan(greatest));
    least = greatest = 0.0;
    CHECK(spotwise_parameter_range(SPOTWISE_PARAM_WORKSPACE, &least, &greatest) == SPOTWISE_OK);
    CHECK(isnan(least) && isnan(greatest));
    least = greatest = 0.0;
    CHECK(spotwise_parameter_range(SPOTWISE_PARAM_WIDTHS, &least, &greatest) == SPOTWISE_OK);
    CHECK(isnan(least) && isnan(greatest));
    least = greatest = 0.0;
    CHECK(spotwise_parameter_range(SPOTWISE_PARAM_DEVIATIONS, &least, &greatest) == SPOTWISE_OK);
    CHECK(isnan(least) && isnan(greatest));
    least = greatest = 0.0;
    CHECK(spotwise_parameter_range(SPOTWISE_PARAM_BAND_LIMITS, &least, &greatest) == SPOTWISE_OK);
    CHECK(isnan(least) && isnan(greatest));
    least = greatest = 0.0;
    CHECK(spotwise_parameter_range(SPOTWISE_PARAM_FOCUS_HEIGHTS, &least, &greatest) == SPOTWISE_OK);
    CHECK(isnan(least) && isnan(greatest));
    least = greatest = 0.0;
    CHECK(spotwise_parameter_range(0, &least, &greatest) == SPOTWISE_E_UNKNOWN_CHOICE);
    CHECK(isnan(least) && isnan(greatest));
    least = 0.0;
    CHECK(spotwise_parameter_range(SPOTWISE_PARAM_M2, &least, NULL) == SPOTWISE_E_NULL && isnan(least));
    greatest = 0.0;
    CHECK(spotwise_parameter_range(SPOTWISE_PARAM_M2, NULL, &greatest) == SPOTWISE_E_NULL && isnan(greatest));
    CHECK(spotwise_parameter_range(SPOTWISE_PARAM_M2, NULL, NULL) == SPOTWISE_E_NULL);
}

#include "face_marks.h"
#include "face_height_map.h"
#include "face_tolerance.h"
#include "face_height_budget.h"
#include "face_shape.h"
#include "face_in_focus.h"
#include "face_scan_field.h"
#include "face_diagnosis.h"
#include "face_surface_check.h"

#include "face_lens_choice.h"
#include "face_by_eye.h"
#include "face_plan.h"
#include "face_learn.h"
#include "face_beam_fit.h"
#include "face_threshold_fit.h"
#include "face_calibration.h"
#ifdef SPOTWISE_ARTWORK
#include "face_artwork.h"
#endif

int face(void)
{
    check_init();
    check_refusals_of_numbers();
    check_refusals_of_structs();
    check_refusals_of_lenses();
    check_refusals_off_singlets();
    check_refusals_of_waves();
    check_refusals_of_paths();
    check_refusals_of_verdicts();
    check_refusals_of_places();
    check_report();
    check_arrays();
    check_gantry_arrays();
    check_map();
    check_in_place();
    check_off_singlet();
    check_tilt();
    check_path();
    check_wave();
    check_verdict();
    check_real_verdict();
    check_texts();
    check_levels();
    check_glasses();
    check_ranges();
    check_marks();
    check_height_maps();
    check_tolerances();
    check_height_budget();
    check_surfaces();
    check_lens_choice();
    check_surfaces_in_focus();
    check_scan_fields();
    check_diagnoses();
    check_surface_check();
    check_by_eye();
    check_plans();
    check_learning();
    check_beam_fit();
    check_threshold_fit();
    check_calibrations();
#ifdef SPOTWISE_ARTWORK
    check_artwork();
#endif
    printf("C face: %d checks, %d failed\n", checks, failures);
    return failures;
}

#ifndef SPOTWISE_BARE_METAL
int main(void)
{
    return face() == 0 ? 0 : 1;
}
#endif
