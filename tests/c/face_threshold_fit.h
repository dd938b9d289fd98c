/*
 * What the C face promises of the fit of spot and threshold: init functions, refusals, and the worked example of the
 * header. Part of face.c, whose macros it uses.
 */
#ifndef SPOTWISE_TESTS_FACE_THRESHOLD_FIT_H
#define SPOTWISE_TESTS_FACE_THRESHOLD_FIT_H

/* Dots of a spot of 60 um that marks from 20 uJ on: b = 60 um sqrt(ln(E/20)/2), to the 10 nm. */
static const double fit_dose[5] = {30e-6, 60e-6, 120e-6, 240e-6, 480e-6};
static const double fit_width[5] = {27.02e-6, 44.47e-6, 56.79e-6, 66.88e-6, 75.64e-6};

static spotwise_threshold_fit_options threshold_options(void)
{
    spotwise_threshold_fit_options options;
    spotwise_threshold_fit_options_init(&options);
    options.weights = SPOTWISE_READING_WEIGHTS_REFINED;
    options.outlier_limit = 3.0;
    options.confidence = 0.95;
    return options;
}

/* Fits marks that must be refused, and checks that nothing is stale. */
#define CHECK_FIT_REFUSED(status, named, count, ...)                                           \
    do {                                                                                       \
        spotwise_error error = stale_report();                                                 \
        spotwise_threshold_fit fit;                                                            \
        size_t at;                                                                             \
        memset(&fit, STALE, sizeof fit);                                                       \
        fit.struct_size = sizeof fit;                                                          \
        memset(used, STALE, sizeof used);                                                      \
        memset(residual, STALE, sizeof residual);                                              \
        CHECK(spotwise_fit_threshold(__VA_ARGS__, residual, used, &fit, &error) == (status));  \
        CHECK(is_filled_with(used, (count), 0) && used[count] == STALE);                       \
        for (at = 0; at < (count); at++) {                                                     \
            CHECK(isnan(residual[at]));                                                        \
        }                                                                                      \
        CHECK(is_blank(&fit, sizeof fit, 3) && reports(&error, status, named));                \
    } while (0)

static void check_threshold_fit(void)
{
    const spotwise_threshold_fit_options *no_options = NULL;
    double dose[5];
    double width[5];
    double deviation[5];
    double residual[6];
    uint8_t used[6];
    spotwise_threshold_fit_options options = threshold_options();
    spotwise_threshold_fit fit;
    spotwise_error error = stale_report();
    uint32_t bit;
    size_t i;
    CHECK_INIT(spotwise_threshold_fit_options, 1);
    CHECK_INIT(spotwise_threshold_fit, 3);
    for (i = 0; i < 5; i++) {
        dose[i] = fit_dose[i];
        width[i] = fit_width[i];
        deviation[i] = 0.1e-6;
    }
    spotwise_threshold_fit_init(&fit);
    memset(used, STALE, sizeof used);
    CHECK(spotwise_fit_threshold(dose, width, deviation, 5, &options, residual, used, &fit, &error) == SPOTWISE_OK);
    CHECK(near_to(fit.spot_diameter_m, 60e-6, 1e-4) && near_to(fit.threshold, 20e-6, 1e-3));
    CHECK(fit.spot_diameter_least_m < 60e-6 && fit.spot_diameter_greatest_m > 60e-6);
    CHECK(fit.threshold_least < 20e-6 && fit.threshold_greatest > 20e-6 && fit.degrees_of_freedom == 3);
    CHECK(fit.marks_used == 5 && is_filled_with(used, 5, 1) && used[5] == STALE);
    CHECK(fit.warnings == SPOTWISE_THRESHOLD_WARNING_LITTLE_SCATTER && is_blank(&error, sizeof error, 3));
    for (i = 0; i < 5; i++) {
        CHECK(fabs(residual[i]) < 0.02e-6);
    }
    /* The header's example: the first four. */
    CHECK(spotwise_fit_threshold(dose, width, deviation, 4, &options, residual, used, &fit, &error) == SPOTWISE_OK);
    CHECK(near_to(fit.spot_diameter_m, 60e-6, 1e-3) && near_to(fit.threshold, 20e-6, 2e-3));
    /* One that is off is left out, unless all are to stay. */
    width[2] = 90e-6;
    CHECK(spotwise_fit_threshold(dose, width, deviation, 5, &options, residual, used, &fit, &error) == SPOTWISE_OK);
    CHECK(near_to(fit.spot_diameter_m, 60e-6, 1e-4) && fit.marks_used == 4);
    CHECK(used[1] == 1 && used[2] == 0 && used[3] == 1 && near_to(residual[2], 33.21e-6, 1e-3));
    CHECK((fit.warnings & SPOTWISE_THRESHOLD_WARNING_OUTLIERS) != 0);
    options.outlier_limit = (double)INFINITY;
    CHECK_FIT_REFUSED(SPOTWISE_E_UNDETERMINED, SPOTWISE_PARAM_SIGNIFICANCE, 5, dose, width, deviation, 5, &options);
    width[2] = fit_width[2];

    options.outlier_limit = 1.0;
    CHECK_FIT_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_OUTLIER_LIMIT, 5, dose, width, deviation, 5, &options);
    options = threshold_options();
    options.confidence = 1.0;
    CHECK_FIT_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_CONFIDENCE, 5, dose, width, deviation, 5, &options);
    options = threshold_options();
    options.weights = 3;
    CHECK_FIT_REFUSED(SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_READING_WEIGHTS, 5, dose, width, deviation, 5,
                      &options);
    options = threshold_options();
    options.struct_size = 0;
    CHECK_FIT_REFUSED(SPOTWISE_E_STRUCT_SIZE, 0, 5, dose, width, deviation, 5, &options);
    options = threshold_options();
    CHECK_FIT_REFUSED(SPOTWISE_E_NULL, 0, 5, NULL, width, deviation, 5, &options);
    CHECK_FIT_REFUSED(SPOTWISE_E_NULL, 0, 5, dose, NULL, deviation, 5, &options);
    CHECK_FIT_REFUSED(SPOTWISE_E_NULL, 0, 5, dose, width, NULL, 5, &options);
    CHECK_FIT_REFUSED(SPOTWISE_E_NULL, 0, 5, dose, width, deviation, 5, no_options);
    dose[4] = (double)NAN;
    CHECK_FIT_REFUSED(SPOTWISE_E_NOT_FINITE, SPOTWISE_PARAM_DOSE, 5, dose, width, deviation, 5, &options);
    for (i = 0; i < 5; i++) {
        dose[i] = 1.0;
    }
    CHECK_FIT_REFUSED(SPOTWISE_E_UNDETERMINED, SPOTWISE_PARAM_SIGNIFICANCE, 5, dose, width, deviation, 5, &options);

    /* Too few, none at all, and more than memory holds. */
    CHECK_FIT_REFUSED(SPOTWISE_E_UNDETERMINED, SPOTWISE_PARAM_MARKS_USED, 2, dose, width, deviation, 2, &options);
    CHECK(spotwise_fit_threshold(NULL, NULL, NULL, 0, &options, NULL, NULL, &fit, &error) ==
          SPOTWISE_E_UNDETERMINED);
    CHECK(error.parameter == SPOTWISE_PARAM_MARKS_USED && error.value == 0.0 && error.least == 3.0);
    memset(used, STALE, sizeof used);
    CHECK(spotwise_fit_threshold(dose, width, deviation, SIZE_MAX, &options, residual, used, &fit, &error) ==
          SPOTWISE_E_LENGTH_MISMATCH);
    CHECK(reports(&error, SPOTWISE_E_LENGTH_MISMATCH, SPOTWISE_PARAM_OUTPUT) && used[0] == STALE);
    CHECK(is_blank(&fit, sizeof fit, 3));

    /* Bad outputs; an output that is an input. */
    CHECK(spotwise_fit_threshold(dose, width, deviation, 5, &options, NULL, used, &fit, &error) == SPOTWISE_E_NULL);
    CHECK(spotwise_fit_threshold(dose, width, deviation, 5, &options, residual, NULL, &fit, &error) ==
          SPOTWISE_E_NULL);
    CHECK(spotwise_fit_threshold(dose, width, deviation, 5, &options, residual, used, NULL, &error) ==
          SPOTWISE_E_NULL);
    CHECK(is_filled_with(used, 5, 0) && reports(&error, SPOTWISE_E_NULL, 0));
    fit.struct_size = 0;
    CHECK(spotwise_fit_threshold(dose, width, deviation, 5, &options, residual, used, &fit, &error) ==
          SPOTWISE_E_STRUCT_SIZE);
    spotwise_threshold_fit_init(&fit);
    error.struct_size = 0;
    memset(used, STALE, sizeof used);
    CHECK(spotwise_fit_threshold(dose, width, deviation, 5, &options, residual, used, &fit, &error) ==
          SPOTWISE_E_STRUCT_SIZE);
    CHECK(is_filled_with(used, 5, 0));
    error = stale_report();
    CHECK(spotwise_fit_threshold(dose, width, deviation, 5, &options, residual, (uint8_t *)&width[4] + 3, &fit,
                                 &error) == SPOTWISE_E_OVERLAP);
    CHECK(reports(&error, SPOTWISE_E_OVERLAP, 0) && is_blank(&fit, sizeof fit, 3));
    for (bit = SPOTWISE_THRESHOLD_WARNING_UNTRIED; bit <= SPOTWISE_THRESHOLD_WARNING_OUTLIERS; bit *= 2) {
        CHECK(is_text(spotwise_threshold_warning_text(bit)) && !is_unknown(spotwise_threshold_warning_text(bit)));
    }
    CHECK(is_unknown(spotwise_threshold_warning_text(0)) && is_unknown(spotwise_threshold_warning_text(3)));
    CHECK(is_unknown(spotwise_threshold_warning_text(bit)));
}

#endif
