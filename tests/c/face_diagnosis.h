/*
 * What the C face promises of focus or power: init functions, refusals, texts, and the worked examples of the header.
 * Part of face.c, whose macros it uses.
 */
#ifndef SPOTWISE_TESTS_FACE_DIAGNOSIS_H
#define SPOTWISE_TESTS_FACE_DIAGNOSIS_H

static spotwise_good_mark good_good_mark(void)
{
    spotwise_good_mark good;
    spotwise_good_mark_init(&good);
    good.mark_kind = SPOTWISE_MARK_LINE;
    good.dose_ratio = 4.0;
    good.dose_ratio_deviation = 0.0;
    good.width_m = 73e-6;
    good.width_deviation_m = 1e-6;
    return good;
}

static spotwise_depth_reading good_depths(double depth)
{
    spotwise_depth_reading depths;
    spotwise_depth_reading_init(&depths);
    depths.depth_law = SPOTWISE_DEPTH_LOGARITHMIC;
    depths.good_depth = 40.0;
    depths.good_depth_deviation = 1.0;
    depths.depth = depth;
    depths.depth_deviation = 1.0;
    return depths;
}

static spotwise_power_step good_power_step(void)
{
    spotwise_power_step step;
    spotwise_power_step_init(&step);
    step.mark_kind = SPOTWISE_MARK_LINE;
    step.dose_ratio = 3.2;
    step.dose_ratio_deviation = 0.0;
    step.power_step = 2.0;
    step.width_m = 82e-6;
    step.width_deviation_m = 1e-6;
    step.stepped_width_m = 113e-6;
    step.stepped_width_deviation_m = 1e-6;
    return step;
}

static spotwise_height_readings good_height_readings(void)
{
    spotwise_height_readings readings;
    spotwise_height_readings_init(&readings);
    readings.mark_kind = SPOTWISE_MARK_LINE;
    readings.depth_law = SPOTWISE_DEPTH_LOGARITHMIC;
    readings.height_step_m = 0.3e-3;
    readings.toward_lens = 38.0;
    readings.middle = 30.0;
    readings.away_from_lens = 18.0;
    readings.deviation = 1.0;
    return readings;
}

static void check_init_of_diagnoses(void)
{
    CHECK_INIT(spotwise_good_mark, 1);
    CHECK_INIT(spotwise_depth_reading, 1);
    CHECK_INIT(spotwise_mark_diagnosis, 5);
    CHECK_INIT(spotwise_width_diagnosis, 5);
    CHECK_INIT(spotwise_patch_settlement, 5);
    CHECK_INIT(spotwise_power_step, 1);
    CHECK_INIT(spotwise_power_settlement, 5);
    CHECK_INIT(spotwise_height_readings, 3);
    CHECK_INIT(spotwise_height_settlement, 3);
}

static void check_refusals_of_diagnoses(void)
{
    const spotwise_beam *no_beam = NULL;
    const spotwise_good_mark *no_mark = NULL;
    const spotwise_depth_reading *no_depths = NULL;
    const spotwise_beam beam = good_beam();
    const spotwise_good_mark fresh = good_good_mark();
    const spotwise_depth_reading half = good_depths(20.0);
    spotwise_good_mark good = fresh;
    spotwise_depth_reading depths = half;
    spotwise_power_step step = good_power_step();
    spotwise_height_readings readings = good_height_readings();

    CHECK_REFUSED(spotwise_mark_diagnosis, BLANK(5), spotwise_diagnose_mark, SPOTWISE_E_NULL, 0, no_beam, &fresh, &half,
                  80e-6, 1e-6, 0.95);
    CHECK_REFUSED(spotwise_mark_diagnosis, BLANK(5), spotwise_diagnose_mark, SPOTWISE_E_NULL, 0, &beam, no_mark, &half,
                  80e-6, 1e-6, 0.95);
    CHECK_REFUSED(spotwise_mark_diagnosis, BLANK(5), spotwise_diagnose_mark, SPOTWISE_E_NULL, 0, &beam, &fresh, no_depths,
                  80e-6, 1e-6, 0.95);
    CHECK_REFUSED(spotwise_mark_diagnosis, BLANK(5), spotwise_diagnose_mark, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_WIDTH_DEVIATION, &beam, &fresh, &half, 80e-6, 25e-6, 0.95);
    CHECK_REFUSED(spotwise_mark_diagnosis, BLANK(5), spotwise_diagnose_mark, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_COVERAGE_PROBABILITY, &beam, &fresh, &half, 80e-6, 1e-6, 95.0);
    depths.depth = 1e4;
    CHECK_REFUSED(spotwise_mark_diagnosis, BLANK(5), spotwise_diagnose_mark, SPOTWISE_E_OUTSIDE_MODEL,
                  SPOTWISE_PARAM_ANY_DOSE_RATIO, &beam, &fresh, &depths, 80e-6, 1e-6, 0.95);
    /* Choices come before numbers, the kind before the law. */
    depths.depth_law = 3;
    CHECK_REFUSED(spotwise_mark_diagnosis, BLANK(5), spotwise_diagnose_mark, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_DEPTH_LAW, &beam, &fresh, &depths, -1.0, 1e-6, 0.95);
    good.mark_kind = 0;
    CHECK_REFUSED(spotwise_mark_diagnosis, BLANK(5), spotwise_diagnose_mark, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_MARK_KIND, &beam, &good, &depths, -1.0, 1e-6, 0.95);
    CHECK_REFUSED(spotwise_width_diagnosis, BLANK(5), spotwise_diagnose_width, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_MARK_KIND, &beam, &good, 80e-6, 1e-6, 0.95);
    good = fresh;
    good.struct_size = 0;
    CHECK_REFUSED(spotwise_width_diagnosis, BLANK(5), spotwise_diagnose_width, SPOTWISE_E_STRUCT_SIZE, 0, &beam, &good,
                  80e-6, 1e-6, 0.95);
    good = fresh;
    good.dose_ratio_deviation = 0.5;
    CHECK_REFUSED(spotwise_width_diagnosis, BLANK(5), spotwise_diagnose_width, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_DOSE_RATIO_DEVIATION, &beam, &good, 80e-6, 1e-6, 0.95);
    CHECK_REFUSED(spotwise_width_diagnosis, BLANK(5), spotwise_diagnose_width, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_MARK_WIDTH, &beam, &fresh, (double)NAN, 1e-6, 0.95);
    depths = half;
    depths.good_depth = 0.0;
    CHECK_REFUSED(spotwise_patch_settlement, BLANK(5), spotwise_settle_by_patch, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_MARK_DEPTH, &beam, &fresh, &depths, 5.0, 80e-6, 1e-6, 0.95);
    depths = half;
    depths.depth_deviation = 8.0;
    CHECK_REFUSED(spotwise_patch_settlement, BLANK(5), spotwise_settle_by_patch, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_DEPTH_DEVIATION, &beam, &fresh, &depths, 5.0, 80e-6, 1e-6, 0.95);
    /* Half as deep at 100 times the threshold is a tenth of the dose: the line could not mark. */
    CHECK_REFUSED(spotwise_patch_settlement, BLANK(5), spotwise_settle_by_patch, SPOTWISE_E_OUTSIDE_MODEL,
                  SPOTWISE_PARAM_DOSE_RATIO, &beam, &fresh, &half, 100.0, 80e-6, 1e-6, 0.95);
    step.power_step = 1.0;
    CHECK_REFUSED(spotwise_power_settlement, BLANK(5), spotwise_settle_by_power, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_POWER_STEP, &beam, &step, 0.95);
    step = good_power_step();
    step.stepped_width_m = 80e-6;
    CHECK_REFUSED(spotwise_power_settlement, BLANK(5), spotwise_settle_by_power, SPOTWISE_E_UNDETERMINED,
                  SPOTWISE_PARAM_SIGNIFICANCE, &beam, &step, 0.95);
    readings.height_step_m = 0.0;
    CHECK_REFUSED(spotwise_height_settlement, BLANK(3), spotwise_settle_by_heights, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_HEIGHT_STEP, &beam, &readings, 0.95);
    readings.depth_law = 0;
    CHECK_REFUSED(spotwise_height_settlement, BLANK(3), spotwise_settle_by_heights, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_DEPTH_LAW, &beam, &readings, 0.95);
}

/* The worked examples of the header. */
static void check_diagnoses(void)
{
    const spotwise_beam beam = good_beam();
    spotwise_good_mark good = good_good_mark();
    spotwise_depth_reading depths = good_depths(20.0);
    const spotwise_power_step step = good_power_step();
    spotwise_height_readings readings = good_height_readings();
    spotwise_mark_diagnosis mark;
    spotwise_width_diagnosis width;
    spotwise_patch_settlement patch;
    spotwise_power_settlement power;
    spotwise_height_settlement heights;
    check_init_of_diagnoses();
    check_refusals_of_diagnoses();
    spotwise_mark_diagnosis_init(&mark);
    spotwise_width_diagnosis_init(&width);
    spotwise_patch_settlement_init(&patch);
    spotwise_power_settlement_init(&power);
    spotwise_height_settlement_init(&heights);

    /* 1.2/sqrt(1/2) = 1.6971, and 0.478154 mm sqrt(1.44/0.5 - 1) = 0.6556 mm. */
    CHECK(spotwise_diagnose_mark(&beam, &good, &depths, 87.6e-6, 1e-6, 0.95, &mark, NULL) == SPOTWISE_OK);
    CHECK(fabs(mark.growth - 1.69706) < 1e-5 && fabs(mark.offset_m - 0.6556e-3) < 1e-7);
    CHECK(fabs(mark.power_ratio - 0.84853) < 1e-5 && mark.cause == SPOTWISE_CAUSE_FOCUS_AND_POWER);
    CHECK(mark.least_offset_m < mark.offset_m && mark.offset_m < mark.greatest_offset_m);
    CHECK((mark.ambiguities & SPOTWISE_AMBIGUITY_SIDE) != 0 && mark.reserved == 0);
    CHECK(mark.further_test == SPOTWISE_TEST_HEIGHTS_EITHER_SIDE && mark.validity == SPOTWISE_VALIDITY_FINE);

    /* SciPy's W, both branches: 1.360570 and 3.347158. */
    CHECK(spotwise_diagnose_width(&beam, &good, 87.6e-6, 1e-6, 0.95, &width, NULL) == SPOTWISE_OK);
    CHECK(fabs(width.near_growth - 1.360570) < 1e-6 && fabs(width.far_growth - 3.347158) < 1e-6);
    CHECK(fabs(width.near_offset_m - 0.44113e-3) < 1e-8 && fabs(width.far_offset_m - 1.52736e-3) < 1e-8);
    CHECK(fabs(width.power_ratio - 1.840375) < 1e-6 && width.cause == SPOTWISE_CAUSE_FOCUS_OR_POWER);
    /* Wider than any height makes it. */
    CHECK(spotwise_diagnose_width(&beam, &good, 120e-6, 1e-6, 0.95, &width, NULL) == SPOTWISE_OK);
    CHECK(width.cause == SPOTWISE_CAUSE_POWER_PERHAPS_FOCUS && isnan(width.near_growth) && isnan(width.far_offset_m));
    CHECK(width.further_test == SPOTWISE_TEST_SOLID_PATCH);

    depths.depth = 40.0;
    CHECK(spotwise_settle_by_patch(&beam, &good, &depths, 5.0, 87.6e-6, 1e-6, 0.95, &patch, NULL) == SPOTWISE_OK);
    CHECK(patch.cause == SPOTWISE_CAUSE_FOCUS && patch.power_ratio == 1.0);
    CHECK(fabs(patch.near_growth - 1.360570) < 1e-6 && fabs(patch.far_growth - 3.347158) < 1e-6);
    CHECK(patch.least_power_ratio < 1.0 && patch.greatest_power_ratio > 1.0);

    /* d = sqrt(2 (113^2 - 82^2)/ln 2) = 132.069 um. */
    CHECK(spotwise_settle_by_power(&beam, &step, 0.95, &power, NULL) == SPOTWISE_OK);
    CHECK(fabs(power.spot_diameter_m - 132.069e-6) < 1e-9 && fabs(power.offset_m - 0.53509e-3) < 1e-8);
    CHECK(fabs(power.dose_ratio - 2.16194) < 1e-5 && fabs(power.power_ratio - 1.01394) < 1e-5);
    CHECK(power.cause == SPOTWISE_CAUSE_FOCUS);

    CHECK(spotwise_settle_by_heights(&beam, &readings, 0.95, &heights, NULL) == SPOTWISE_OK);
    CHECK(heights.verdict == SPOTWISE_HEIGHTS_FOCUS_TOWARD_LENS && isnan(heights.z_offset_m));
    CHECK(heights.least_z_offset_m == 0.15e-3 && isnan(heights.greatest_z_offset_m));
    readings.middle = 42.0;
    readings.away_from_lens = 38.0;
    CHECK(spotwise_settle_by_heights(&beam, &readings, 0.95, &heights, NULL) == SPOTWISE_OK);
    CHECK(heights.verdict == SPOTWISE_HEIGHTS_FOCUS_WITHIN && heights.z_offset_m == 0.0);
    CHECK(heights.least_z_offset_m == -heights.greatest_z_offset_m && heights.z_offset_deviation_m > 0.0);

    CHECK(strcmp(spotwise_cause_text(0), "unknown") == 0 && strcmp(spotwise_cause_text(8), "unknown") == 0);
    CHECK(strncmp(spotwise_cause_text(SPOTWISE_CAUSE_FOCUS), "The surface is out of focus", 27) == 0);
    CHECK(strcmp(spotwise_further_test_text(5), "unknown") == 0);
    CHECK(strcmp(spotwise_further_test_text(SPOTWISE_TEST_NOTHING), "No further test is needed.") == 0);
    CHECK(strcmp(spotwise_ambiguity_text(3), "unknown") == 0 && strcmp(spotwise_ambiguity_text(64), "unknown") == 0);
    CHECK(strncmp(spotwise_ambiguity_text(SPOTWISE_AMBIGUITY_SIDE), "On which side", 13) == 0);
    CHECK(strcmp(spotwise_height_verdict_text(6), "unknown") == 0);
    CHECK(strncmp(spotwise_height_verdict_text(SPOTWISE_HEIGHTS_NO_DIFFERENCE), "The marks do not differ", 23) == 0);
}

#endif
