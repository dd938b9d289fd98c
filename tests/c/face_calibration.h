/*
 * What the C face promises of calibrated set-ups: init functions, refusals, and the worked examples of the
 * header. Part of face.c, whose macros it uses.
 */
#ifndef SPOTWISE_TESTS_FACE_CALIBRATION_H
#define SPOTWISE_TESTS_FACE_CALIBRATION_H

static int is_fresh_learned_focus(const spotwise_learned_focus *learned)
{
    spotwise_learned_focus rest = *learned;
    if (learned->focus_shift_m != 0.0 || learned->coverage_factor_95 != SPOTWISE_NORMAL_FACTOR_95) {
        return 0;
    }
    rest.focus_shift_m = rest.coverage_factor_95 = (double)NAN;
    return is_blank(&rest, sizeof rest, 1);
}

static int is_fresh_learned_line(const spotwise_learned_line *learned)
{
    spotwise_learned_line rest = *learned;
    if (learned->correlation != 0.0 || learned->coverage_factor_95 != SPOTWISE_NORMAL_FACTOR_95) {
        return 0;
    }
    rest.correlation = rest.coverage_factor_95 = (double)NAN;
    return is_blank(&rest, sizeof rest, 1);
}

static spotwise_learned_focus good_learned_focus(void)
{
    spotwise_learned_focus learned;
    spotwise_learned_focus_init(&learned);
    learned.wavelength_m = 10.6e-6;
    learned.measured_m2 = 1.2;
    learned.m2_deviation = 0.05;
    learned.waist_diameter_m = 95e-6;
    learned.focal_length_m = 38.1e-3;
    learned.focus_deviation_m = 20e-6;
    return learned;
}

static spotwise_learned_line good_learned_line(void)
{
    spotwise_learned_line learned;
    spotwise_learned_line_init(&learned);
    learned.power_w = 18.0;
    learned.speed_m_per_s = 0.4;
    learned.waist_diameter_m = 95e-6;
    learned.waist_diameter_deviation_m = 1.5e-6;
    learned.dose_ratio = 4.2;
    learned.relative_dose_ratio_deviation = 0.03;
    learned.correlation = -0.6;
    return learned;
}

static void check_refusals_of_calibrations(void)
{
    const spotwise_learned_focus *no_focus = NULL;
    const spotwise_learned_line *no_line = NULL;
    spotwise_learned_focus focus = good_learned_focus();
    spotwise_learned_line line = good_learned_line();

    CHECK_REFUSED(spotwise_calibrated_set_up_result, BLANK(1), spotwise_calibrated_set_up, SPOTWISE_E_NULL, 0,
                  no_focus);
    focus.measured_m2 = 0.8;
    CHECK_REFUSED(spotwise_calibrated_set_up_result, BLANK(1), spotwise_calibrated_set_up,
                  SPOTWISE_E_OUTSIDE_MODEL, SPOTWISE_PARAM_MEASURED_M2, &focus);
    focus.measured_m2 = 1.2;
    focus.focus_shift_m = -38.1e-3;
    CHECK_REFUSED(spotwise_calibrated_set_up_result, BLANK(1), spotwise_calibrated_set_up,
                  SPOTWISE_E_OUTSIDE_MODEL, SPOTWISE_PARAM_LENS_TO_WAIST, &focus);
    focus.focus_deviation_m = -1e-6;
    CHECK_REFUSED(spotwise_calibrated_set_up_result, BLANK(1), spotwise_calibrated_set_up,
                  SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_FOCUS_DEVIATION, &focus);
    focus.struct_size = 0;
    CHECK_REFUSED(spotwise_calibrated_set_up_result, BLANK(1), spotwise_calibrated_set_up,
                  SPOTWISE_E_STRUCT_SIZE, 0, &focus);

    CHECK_REFUSED(spotwise_learned_threshold_result, BLANK(1), spotwise_learned_threshold, SPOTWISE_E_NULL, 0,
                  no_line);
    line.correlation = 1.5;
    CHECK_REFUSED(spotwise_learned_threshold_result, BLANK(1), spotwise_learned_threshold,
                  SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_CORRELATION, &line);
    line.waist_diameter_deviation_m = (double)NAN;
    CHECK_REFUSED(spotwise_learned_threshold_result, BLANK(1), spotwise_learned_threshold,
                  SPOTWISE_E_NOT_FINITE, SPOTWISE_PARAM_WAIST_DIAMETER_DEVIATION, &line);
    line.struct_size = 0;
    CHECK_REFUSED(spotwise_learned_threshold_result, BLANK(1), spotwise_learned_threshold,
                  SPOTWISE_E_STRUCT_SIZE, 0, &line);
}

/* From a fit to both calls, without a number touched in between. */
static void check_calibration_from_marks(void)
{
    const spotwise_mark_fit *no_fit = NULL;
    spotwise_mark_fit fit;
    spotwise_learned_machine learned;
    spotwise_learned_threshold_result threshold;
    spotwise_calibrated_set_up_result set_up;
    spotwise_error error = stale_report();
    spotwise_mark_fit_init(&fit);
    fit.waist_z_m = 0.23e-3;
    fit.waist_z_deviation_m = 20e-6;
    fit.waist_diameter_m = 95e-6;
    fit.waist_diameter_deviation_m = 1.5e-6;
    fit.m2 = 1.2;
    fit.m2_deviation = 0.05;
    fit.dose_ratio = 4.2;
    fit.dose_ratio_deviation = 0.126;
    fit.correlation_diameter_dose = -0.6;
    fit.range_factor = SPOTWISE_NORMAL_FACTOR_95;
    spotwise_learned_machine_init(&learned);
    CHECK(learned.struct_size == sizeof learned && learned.focus.struct_size == sizeof learned.focus);
    CHECK(isnan(learned.focus_z_m) && isnan(learned.line.power_w));
    CHECK(spotwise_calibration_from_marks(&fit, 10.6e-6, 38.1e-3, 18.0, 0.4, &learned, &error) == SPOTWISE_OK);
    CHECK(learned.focus_z_m == 0.23e-3 && near_to(learned.line.relative_dose_ratio_deviation, 0.03, 1e-15));
    CHECK(is_blank(&error, sizeof error, 3));
    spotwise_calibrated_set_up_result_init(&set_up);
    CHECK(spotwise_calibrated_set_up(&learned.focus, &set_up, NULL) == SPOTWISE_OK);
    CHECK(near_to(set_up.raw_waist_diameter_m, 6.4952908e-3, 1e-8));
    spotwise_learned_threshold_result_init(&threshold);
    CHECK(spotwise_learned_threshold(&learned.line, &threshold, NULL) == SPOTWISE_OK);
    CHECK(near_to(threshold.threshold_j_per_m2, 179974.0, 1e-6));
    CHECK(near_to(threshold.relative_deviation, 0.0241016, 1e-5));

    /* Ranges of 99 %: no calibration. */
    fit.range_factor = 2.5758293;
    fit.degrees_of_freedom = 7;
    CHECK(spotwise_calibration_from_marks(&fit, 10.6e-6, 38.1e-3, 18.0, 0.4, &learned, &error) ==
          SPOTWISE_E_OUT_OF_RANGE);
    CHECK(reports(&error, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_COVERAGE_FACTOR_95));
    CHECK(near_to(error.least, 2.3646243, 1e-7) && isnan(learned.focus_z_m) && isnan(learned.line.speed_m_per_s));
    CHECK(spotwise_calibration_from_marks(no_fit, 10.6e-6, 38.1e-3, 18.0, 0.4, &learned, &error) ==
          SPOTWISE_E_NULL);
    fit.struct_size = 0;
    CHECK(spotwise_calibration_from_marks(&fit, 10.6e-6, 38.1e-3, 18.0, 0.4, &learned, &error) ==
          SPOTWISE_E_STRUCT_SIZE);
}

/* The worked examples of the header, and a job that is filled in from them. */
static void check_calibrations(void)
{
    spotwise_learned_focus focus = good_learned_focus();
    const spotwise_learned_line line = good_learned_line();
    spotwise_calibrated_set_up_result set_up;
    spotwise_learned_threshold_result learned;
    spotwise_job job = face_good_job();
    spotwise_verdict verdict;
    CHECK_INIT_AS(spotwise_learned_focus, is_fresh_learned_focus(&data[0]));
    CHECK_INIT_AS(spotwise_learned_line, is_fresh_learned_line(&data[0]));
    CHECK_INIT(spotwise_calibrated_set_up_result, 1);
    CHECK_INIT(spotwise_learned_threshold_result, 1);
    check_refusals_of_calibrations();

    spotwise_calibrated_set_up_result_init(&set_up);
    CHECK(spotwise_calibrated_set_up(&focus, &set_up, NULL) == SPOTWISE_OK);
    CHECK(set_up.m2 == 1.2 && near_to(set_up.raw_waist_diameter_m, 6.4952908e-3, 1e-8));
    CHECK(set_up.waist_to_lens_m == 38.1e-3 && set_up.focus_deviation_m == 20e-6);

    spotwise_learned_threshold_result_init(&learned);
    CHECK(spotwise_learned_threshold(&line, &learned, NULL) == SPOTWISE_OK);
    CHECK(near_to(learned.threshold_j_per_m2, 179974.0, 1e-6) && learned.reserved == 0);
    CHECK(near_to(learned.relative_deviation, 0.0241016, 1e-5));

    job.raw_beam = SPOTWISE_RAW_BEAM_WAIST;
    job.m2 = set_up.m2;
    job.waist_diameter_m = set_up.raw_waist_diameter_m;
    job.waist_to_lens_m = set_up.waist_to_lens_m;
    job.focus_z_m = 0.1e-3;
    job.dose = SPOTWISE_DOSE_BY_SCAN;
    job.power_w = 20.0;
    job.speed_m_per_s = 0.5;
    job.line_interval_m = 50e-6;
    job.threshold_j_per_m2 = learned.threshold_j_per_m2;
    spotwise_verdict_init(&verdict);
    CHECK(spotwise_focus_check(&job, &verdict, NULL) == SPOTWISE_OK);
    CHECK(near_to(verdict.waist_diameter_m, 95e-6, 1e-14));
    CHECK(near_to(verdict.dose_ratio, 800000.0 / 179974.0, 1e-6));

    check_calibration_from_marks();

    /* Noise has put M^2 below 1, within its range; three marks told the deviation, of which t is 4.303. */
    focus.measured_m2 = 0.95;
    focus.coverage_factor_95 = 4.303;
    CHECK(spotwise_calibrated_set_up(&focus, &set_up, NULL) == SPOTWISE_OK);
    CHECK(set_up.m2 == 1.0 && near_to(set_up.focus_deviation_m, 20e-6 * 4.303 / 1.959964, 1e-6));
}

#endif
