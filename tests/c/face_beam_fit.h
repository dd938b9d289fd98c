/*
 * What the C face promises of the fit of a beam: init functions, refusals, and the worked example of the header. Part
 * of face.c, whose macros it uses.
 */
#ifndef SPOTWISE_TESTS_FACE_BEAM_FIT_H
#define SPOTWISE_TESTS_FACE_BEAM_FIT_H

/* A beam of 80 um in its waist at +0.1 mm, with a Rayleigh range of 4 mm: D = 80 um sqrt(1 + (z - 0.1)^2/16), to
 * 10 nm. */
static const double beam_height[10] = {-8e-3, -6e-3, -4e-3, -2e-3, 0.0, 2e-3, 4e-3, 6e-3, 8e-3, 10e-3};
static const double beam_diameter[10] = {180.68e-6, 145.89e-6, 114.56e-6, 90.35e-6, 80.02e-6,
                                         88.57e-6, 111.73e-6, 142.56e-6, 177.10e-6, 213.55e-6};

static spotwise_beam_fit_options beam_options(void)
{
    spotwise_beam_fit_options options;
    spotwise_beam_fit_options_init(&options);
    options.weights = SPOTWISE_READING_WEIGHTS_REFINED;
    options.outlier_limit = 3.0;
    options.confidence = 0.95;
    options.mark_dose_ratio = 0.0;
    return options;
}

/* Fits readings that must be refused, and checks that nothing is stale. */
#define CHECK_BEAM_FIT_REFUSED(status, named, count, ...)                                      \
    do {                                                                                       \
        spotwise_error error = stale_report();                                                 \
        spotwise_beam_fit fit;                                                                 \
        size_t at;                                                                             \
        memset(&fit, STALE, sizeof fit);                                                       \
        fit.struct_size = sizeof fit;                                                          \
        memset(used, STALE, sizeof used);                                                      \
        memset(residual, STALE, sizeof residual);                                              \
        CHECK(spotwise_fit_beam(__VA_ARGS__, residual, used, &fit, &error) == (status));       \
        CHECK(is_filled_with(used, (count), 0) && used[count] == STALE);                       \
        for (at = 0; at < (count); at++) {                                                     \
            CHECK(isnan(residual[at]));                                                        \
        }                                                                                      \
        CHECK(is_blank(&fit, sizeof fit, 5) && reports(&error, status, named));                \
    } while (0)

static void check_beam_fit(void)
{
    const spotwise_beam_fit_options *no_options = NULL;
    double diameter[10];
    double height[10];
    double deviation[10];
    double residual[11];
    uint8_t used[11];
    spotwise_beam_fit_options options = beam_options();
    spotwise_beam_fit fit;
    spotwise_error error = stale_report();
    uint32_t bit;
    size_t i;
    CHECK_INIT(spotwise_beam_fit_options, 1);
    CHECK_INIT(spotwise_beam_fit, 5);
    for (i = 0; i < 10; i++) {
        height[i] = beam_height[i];
        diameter[i] = beam_diameter[i];
        deviation[i] = 0.1e-6;
    }
    spotwise_beam_fit_init(&fit);
    memset(used, STALE, sizeof used);
    /* The header's example: pi 80^2/(4 1.064 4000) = 1.1810. */
    CHECK(spotwise_fit_beam(height, diameter, deviation, 10, 1.064e-6, &options, residual, used, &fit, &error) ==
          SPOTWISE_OK);
    CHECK(near_to(fit.waist_diameter_m, 80e-6, 1e-3) && near_to(fit.m2, 1.181, 1e-3));
    CHECK(near_to(fit.waist_z_m, 0.1e-3, 1e-2) && near_to(fit.rayleigh_range_m, 4e-3, 1e-3));
    CHECK(fit.readings_used == 10 && is_filled_with(used, 10, 1) && used[10] == STALE);
    CHECK(fit.degrees_of_freedom == 7 && fit.readings_near == 4 && fit.readings_far == 2);
    CHECK(fit.warnings == (SPOTWISE_BEAM_WARNING_LITTLE_SCATTER | SPOTWISE_BEAM_WARNING_FEW_FAR));
    CHECK(is_blank(&error, sizeof error, 3));
    for (i = 0; i < 10; i++) {
        CHECK(fabs(residual[i]) < 0.02e-6);
    }
    /* One that is off is left out; what was reported as marks is called marks. */
    diameter[3] = 130e-6;
    options.mark_dose_ratio = 5.0;
    CHECK(spotwise_fit_beam(height, diameter, deviation, 10, 1.064e-6, &options, residual, used, &fit, &error) ==
          SPOTWISE_OK);
    CHECK(near_to(fit.m2, 1.181, 1e-3) && fit.readings_used == 9 && used[3] == 0 && used[4] == 1);
    CHECK(near_to(residual[3], 39.65e-6, 1e-2) && (fit.warnings & SPOTWISE_BEAM_WARNING_MARK_WIDTHS) != 0);
    options = beam_options();
    diameter[3] = beam_diameter[3];

    CHECK_BEAM_FIT_REFUSED(SPOTWISE_E_UNDETERMINED, SPOTWISE_PARAM_READINGS, 3, height, diameter, deviation, 3,
                           1.064e-6, &options);
    CHECK_BEAM_FIT_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_WAVELENGTH, 10, height, diameter, deviation, 10,
                           1.0, &options);
    CHECK_BEAM_FIT_REFUSED(SPOTWISE_E_NULL, 0, 10, NULL, diameter, deviation, 10, 1.064e-6, &options);
    CHECK_BEAM_FIT_REFUSED(SPOTWISE_E_NULL, 0, 10, height, diameter, NULL, 10, 1.064e-6, &options);
    CHECK_BEAM_FIT_REFUSED(SPOTWISE_E_NULL, 0, 10, height, diameter, deviation, 10, 1.064e-6, no_options);
    options.weights = 3;
    CHECK_BEAM_FIT_REFUSED(SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_READING_WEIGHTS, 10, height, diameter,
                           deviation, 10, 1.064e-6, &options);
    options = beam_options();
    options.confidence = 1.0;
    CHECK_BEAM_FIT_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_CONFIDENCE, 10, height, diameter, deviation, 10,
                           1.064e-6, &options);
    options = beam_options();
    options.struct_size = 0;
    CHECK_BEAM_FIT_REFUSED(SPOTWISE_E_STRUCT_SIZE, 0, 10, height, diameter, deviation, 10, 1.064e-6, &options);
    options = beam_options();
    CHECK(spotwise_fit_beam(height, diameter, deviation, 10, 1.064e-6, &options, height, used, &fit, &error) ==
          SPOTWISE_E_OVERLAP);
    CHECK(isnan(height[0]) && is_filled_with(used, 10, 0) && is_blank(&fit, sizeof fit, 5));
    for (i = 0; i < 10; i++) {
        height[i] = beam_height[i];
        diameter[i] = 80e-6;
    }
    CHECK_BEAM_FIT_REFUSED(SPOTWISE_E_UNDETERMINED, SPOTWISE_PARAM_CURVATURE_SIGNIFICANCE, 10, height, diameter,
                           deviation, 10, 1.064e-6, &options);
    for (i = 0; i < 10; i++) {
        height[i] = i < 5 ? 0.0 : 1e-3;
    }
    CHECK_BEAM_FIT_REFUSED(SPOTWISE_E_UNDETERMINED, SPOTWISE_PARAM_DISTINCT_HEIGHTS, 10, height, diameter,
                           deviation, 10, 1.064e-6, &options);
    for (bit = SPOTWISE_BEAM_WARNING_FEW_HEIGHTS; bit <= SPOTWISE_BEAM_WARNING_WIDE_CONE; bit *= 2) {
        CHECK(is_text(spotwise_beam_warning_text(bit)) && !is_unknown(spotwise_beam_warning_text(bit)));
    }
    CHECK(is_unknown(spotwise_beam_warning_text(0)) && is_unknown(spotwise_beam_warning_text(3)));
    CHECK(is_unknown(spotwise_beam_warning_text(bit)));
}

#endif
