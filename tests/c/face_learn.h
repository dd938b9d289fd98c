/*
 * What the C face promises of learning from test pieces: init functions, refusals, and the worked examples of
 * the header. Part of face.c, whose macros it uses.
 */
#ifndef SPOTWISE_TESTS_FACE_LEARN_H
#define SPOTWISE_TESTS_FACE_LEARN_H

static void check_statistics(void)
{
    const double nan_value = nan("");
    double number;
    CHECK_REFUSED_NUMBER(spotwise_student_factor, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_CONFIDENCE, 0.4, 0);
    CHECK_REFUSED_NUMBER(spotwise_student_factor, SPOTWISE_E_NOT_FINITE, SPOTWISE_PARAM_CONFIDENCE, nan_value, 8);
    CHECK_REFUSED_NUMBER(spotwise_student_factor, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_DEGREES_OF_FREEDOM,
                         0.95, 0);
    CHECK_REFUSED_NUMBER(spotwise_chi_squared_chance, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_CHI_SQUARED, -1.0,
                         0);
    CHECK_REFUSED_NUMBER(spotwise_chi_squared_chance, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_DEGREES_OF_FREEDOM,
                         1.0, UINT32_MAX);
    CHECK(spotwise_student_factor(0.95, 8, &number, NULL) == SPOTWISE_OK && fabs(number - 2.306) < 5e-4);
    CHECK(spotwise_chi_squared_chance(15.507, 8, &number, NULL) == SPOTWISE_OK && fabs(number - 0.05) < 2e-5);
}

/* Lines of a spot of 80 um, zR = 0.4 mm, 4 times the threshold, in steps of 0.2 mm from -1 mm on, to the 10 nm:
 * b = 80 um u sqrt(ln(4/u)/2), u^2 = 1 + (z/0.4 mm)^2. */
static const double series_width[11] = {95.82e-6, 96.46e-6, 91.04e-6, 81.57e-6, 71.41e-6, 66.60e-6,
                                       71.41e-6, 81.57e-6, 91.04e-6, 96.46e-6, 95.82e-6};

#define CHECK_SERIES_REFUSED(status, named, ...)                                              \
    do {                                                                                      \
        spotwise_error error = stale_report();                                                \
        spotwise_mark_fit fit;                                                                \
        memset(&fit, STALE, sizeof fit);                                                      \
        fit.struct_size = sizeof fit;                                                         \
        memset(used, STALE, sizeof used);                                                     \
        memset(residual, STALE, sizeof residual);                                             \
        CHECK(spotwise_fit_mark_widths(__VA_ARGS__, residual, used, &fit, &error) == (status)); \
        CHECK(is_filled_with(used, 11, 0) && used[11] == STALE);                              \
        for (i = 0; i < 11; i++) {                                                            \
            CHECK(isnan(residual[i]));                                                        \
        }                                                                                     \
        CHECK(is_filled_with(&residual[11], sizeof(double), STALE));                          \
        CHECK(is_blank(&fit, sizeof fit, 5) && reports(&error, status, named));               \
    } while (0)

static void check_mark_series(void)
{
    double height[11];
    double width[11];
    double deviation[11];
    double power[11];
    double residual[12];
    uint8_t used[12];
    uint32_t bit;
    size_t i;
    spotwise_error error = stale_report();
    spotwise_mark_series series;
    spotwise_mark_fit fit;
    for (i = 0; i < 11; i++) {
        height[i] = ((double)i - 5.0) * 0.2e-3;
        width[i] = series_width[i];
        deviation[i] = 1e-6;
        power[i] = 1.0;
    }
    memset(&series, STALE, sizeof series);
    spotwise_mark_series_init(&series);
    CHECK(series.struct_size == sizeof series && series.mark_kind == 0 && isnan(series.confidence));
    series.mark_kind = SPOTWISE_MARK_LINE;
    series.scatter = SPOTWISE_WIDTH_SCATTER_STATED;
    series.wavelength_m = 10.6e-6;
    series.relative_m2_deviation = (double)INFINITY;
    series.relative_waist_diameter_deviation = (double)INFINITY;
    series.outlier_limit = 3.0;
    series.confidence = 0.95;
    spotwise_mark_fit_init(&fit);
    memset(used, STALE, sizeof used);
    CHECK(spotwise_fit_mark_widths(height, width, deviation, power, 11, &series, residual, used, &fit, &error) ==
          SPOTWISE_OK);
    CHECK(fabs(fit.waist_z_m) < 1e-7 && near_to(fit.waist_diameter_m, 80e-6, 1e-3));
    CHECK(near_to(fit.rayleigh_range_m, 0.4e-3, 1e-3) && near_to(fit.dose_ratio, 4.0, 1e-3));
    CHECK(fit.waist_diameter_least_m < 80e-6 && fit.waist_diameter_greatest_m > 80e-6);
    CHECK(fit.marks_used == 11 && fit.vanished_used == 0 && fit.degrees_of_freedom == 7);
    CHECK(is_filled_with(used, 11, 1) && used[11] == STALE && fabs(residual[3]) < 0.1);
    CHECK(is_blank(&error, sizeof error, 3));

    CHECK_SERIES_REFUSED(SPOTWISE_E_NULL, 0, NULL, width, deviation, power, 11, &series);
    CHECK_SERIES_REFUSED(SPOTWISE_E_NULL, 0, height, width, deviation, NULL, 11, &series);
    CHECK_SERIES_REFUSED(SPOTWISE_E_NULL, 0, height, width, deviation, power, 11, NULL);
    series.scatter = 3;
    CHECK_SERIES_REFUSED(SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_WIDTH_SCATTER, height, width, deviation, power,
                         11, &series);
    series.scatter = SPOTWISE_WIDTH_SCATTER_FOUND;
    series.relative_m2_deviation = 0.1;
    CHECK_SERIES_REFUSED(SPOTWISE_E_NOT_FINITE, SPOTWISE_PARAM_M2, height, width, deviation, power, 11, &series);
    series.relative_m2_deviation = (double)INFINITY;
    power[2] = 0.0;
    CHECK_SERIES_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_POWER_RATIO, height, width, deviation, power, 11,
                         &series);
    power[2] = 1.0;
    for (i = 0; i < 11; i++) {
        width[i] = 0.0; /* all have vanished */
    }
    CHECK_SERIES_REFUSED(SPOTWISE_E_UNDETERMINED, SPOTWISE_PARAM_MARKS_USED, height, width, deviation, power, 11,
                         &series);
    /* None at all, more than memory holds, outputs that are inputs or missing. */
    CHECK(spotwise_fit_mark_widths(NULL, NULL, NULL, NULL, 0, &series, NULL, NULL, &fit, &error) ==
          SPOTWISE_E_UNDETERMINED);
    CHECK(error.parameter == SPOTWISE_PARAM_MARKS_USED && error.value == 0.0 && error.least == 5.0);
    memset(used, STALE, sizeof used);
    CHECK(spotwise_fit_mark_widths(height, width, deviation, power, SIZE_MAX, &series, residual, used, &fit,
                                   &error) == SPOTWISE_E_LENGTH_MISMATCH);
    CHECK(used[0] == STALE && is_blank(&fit, sizeof fit, 5));
    CHECK(spotwise_fit_mark_widths(height, width, deviation, power, 11, &series, width, used, &fit, &error) ==
          SPOTWISE_E_OVERLAP);
    CHECK(spotwise_fit_mark_widths(height, width, deviation, power, 11, &series, residual, NULL, &fit, &error) ==
          SPOTWISE_E_NULL);
    CHECK(spotwise_fit_mark_widths(height, width, deviation, power, 11, &series, residual, used, NULL, &error) ==
          SPOTWISE_E_NULL);
    series.struct_size = 0;
    CHECK(spotwise_fit_mark_widths(height, width, deviation, power, 11, &series, residual, used, &fit, &error) ==
          SPOTWISE_E_STRUCT_SIZE);

    for (bit = 1; bit <= SPOTWISE_MARK_FIT_ONE_SIDED; bit *= 2) {
        CHECK(is_text(spotwise_mark_fit_caution_text(bit)) && !is_unknown(spotwise_mark_fit_caution_text(bit)));
    }
    CHECK(is_unknown(spotwise_mark_fit_caution_text(0)) && is_unknown(spotwise_mark_fit_caution_text(bit)));
    for (bit = 1; bit <= SPOTWISE_FURTHER_MARKS_REPEATS; bit *= 2) {
        CHECK(is_text(spotwise_further_marks_text(bit)) && !is_unknown(spotwise_further_marks_text(bit)));
    }
    CHECK(is_unknown(spotwise_further_marks_text(3)) && is_unknown(spotwise_further_marks_text(bit)));
}

static void check_learning(void)
{
    check_mark_series();
    check_statistics();
}

#endif
