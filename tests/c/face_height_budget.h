/*
 * What the C face promises of the heights of a surface: init functions, refusals, arrays, and the worked
 * examples of the header. Part of face.c, whose macros it uses.
 */
#ifndef SPOTWISE_TESTS_FACE_HEIGHT_BUDGET_H
#define SPOTWISE_TESTS_FACE_HEIGHT_BUDGET_H

static void check_init_of_heights(void)
{
    CHECK_INIT(spotwise_focus_between_result, 1);
    CHECK_INIT(spotwise_astigmatic_focus_between, 1);
    CHECK_INIT(spotwise_height_bands_result, 1);
    CHECK_INIT(spotwise_cylinder_strip_result, 1);
    CHECK_INIT(spotwise_refocus_plan_result, 5);
    CHECK_INIT(spotwise_spot_through_result, 1);
}

static void check_refusals_of_heights(void)
{
    const double nan_value = (double)NAN;
    const spotwise_beam beam = good_beam();
    const spotwise_astigmatic_beam astigmatic = good_astigmatic();
    const spotwise_beam *no_beam = NULL;
    const spotwise_astigmatic_beam *no_astigmatic = NULL;
    spotwise_beam short_beam = beam;
    short_beam.struct_size -= 8;
    CHECK_REFUSED(spotwise_focus_between_result, BLANK(1), spotwise_focus_between, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_LOWEST_Z, &beam, 0.1e-3, 0.0);
    CHECK_REFUSED(spotwise_focus_between_result, BLANK(1), spotwise_focus_between, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_HIGHEST_Z, &beam, nan_value, 0.0);
    CHECK_REFUSED(spotwise_focus_between_result, BLANK(1), spotwise_focus_between, SPOTWISE_E_NULL, 0, no_beam,
                  0.0, 0.0);
    CHECK_REFUSED(spotwise_focus_between_result, BLANK(1), spotwise_focus_between, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_beam, 0.0, 0.0);
    CHECK_REFUSED(spotwise_astigmatic_focus_between, BLANK(1), spotwise_focus_between_astigmatic,
                  SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_HIGHEST_Z, &astigmatic, -2e7, 0.0);
    CHECK_REFUSED(spotwise_astigmatic_focus_between, BLANK(1), spotwise_focus_between_astigmatic,
                  SPOTWISE_E_NULL, 0, no_astigmatic, 0.0, 0.0);
    CHECK_REFUSED(spotwise_height_bands_result, BLANK(1), spotwise_height_bands, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_BAND_MARGIN, 0.0, 1e-3, -1e-4, 1e-4, 1.0, NULL, 0, NULL, 0);
    CHECK_REFUSED(spotwise_height_bands_result, BLANK(1), spotwise_height_bands, SPOTWISE_E_OUTSIDE_MODEL,
                  SPOTWISE_PARAM_USABLE_DEPTH, 0.0, 1e-3, 1e-4, -1e-4, 0.0, NULL, 0, NULL, 0);
    CHECK_REFUSED(spotwise_height_bands_result, BLANK(1), spotwise_height_bands, SPOTWISE_E_OUTSIDE_MODEL,
                  SPOTWISE_PARAM_HEIGHT_BANDS, 0.0, 1.0, -1e-8, 1e-8, 0.0, NULL, 0, NULL, 0);
    CHECK_REFUSED(spotwise_cylinder_strip_result, BLANK(1), spotwise_cylinder_strip, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_FOCUS_AIM, nan_value, -1e-4, 1e-4, 3);
    CHECK_REFUSED(spotwise_cylinder_strip_result, BLANK(1), spotwise_cylinder_strip, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_PART_RADIUS, -25e-3, -1e-4, 1e-4, SPOTWISE_AIM_MIDWAY);
    CHECK_REFUSED(spotwise_cylinder_strip_result, BLANK(1), spotwise_cylinder_strip, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_TOWARD_LENS_Z, 25e-3, 1e-5, 1e-4, SPOTWISE_AIM_HIGHEST_PLACE);
    CHECK_REFUSED(spotwise_refocus_plan_result, BLANK(5), spotwise_refocus_plan, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_FOCUS_AIM, 1e-3, 1e-4, -1e-4, 1e-4, 0, NULL, 0);
    CHECK_REFUSED(spotwise_refocus_plan_result, BLANK(5), spotwise_refocus_plan, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_DEPTH_PER_PASS, 1e-3, 0.0, -1e-4, 1e-4, SPOTWISE_AIM_MIDWAY, NULL, 0);
    CHECK_REFUSED(spotwise_refocus_plan_result, BLANK(5), spotwise_refocus_plan, SPOTWISE_E_OUTSIDE_MODEL,
                  SPOTWISE_PARAM_PASSES, 1.0, 1e-7, -1e-4, 1e-4, SPOTWISE_AIM_MIDWAY, NULL, 0);
    CHECK_REFUSED(spotwise_spot_through_result, BLANK(1), spotwise_spot_through, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_THICKNESS, &beam, 0.0, -3e-3);
    CHECK_REFUSED(spotwise_spot_through_result, BLANK(1), spotwise_spot_through, SPOTWISE_E_NULL, 0, no_beam,
                  0.0, 3e-3);
    CHECK_REFUSED(spotwise_spot_through_result, BLANK(1), spotwise_spot_through, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_beam, 0.0, 3e-3);
}

static int all_nan(const double *numbers, size_t count)
{
    size_t i;
    for (i = 0; i < count; i++) {
        if (!is_quiet_nan((const unsigned char *)&numbers[i])) {
            return 0;
        }
    }
    return 1;
}

static void fill(double *numbers, size_t count)
{
    size_t i;
    for (i = 0; i < count; i++) {
        numbers[i] = 7.0;
    }
}

static void check_bands(void)
{
    double limit[7];
    double focus[6];
    spotwise_error error = stale_report();
    spotwise_height_bands_result bands;
    spotwise_height_bands_result_init(&bands);
    /* The header's example: how many, then where. */
    CHECK(spotwise_height_bands(0.0, 1.4e-3, -0.25e-3, 0.25e-3, 0.1, NULL, 0, NULL, 0, &bands, &error) ==
          SPOTWISE_OK);
    CHECK(bands.count == 4 && near_to(bands.band_height_m, 0.35e-3, 1e-12));
    CHECK(near_to(bands.share_of_depth, 0.7, 1e-12));
    fill(limit, 7);
    fill(focus, 6);
    CHECK(spotwise_height_bands(0.0, 1.4e-3, -0.25e-3, 0.25e-3, 0.1, limit, 6, focus, 4, &bands, NULL) ==
          SPOTWISE_OK);
    CHECK(limit[0] == 0.0 && limit[4] == 1.4e-3 && near_to(limit[1], 0.35e-3, 1e-12));
    CHECK(all_nan(&limit[5], 1) && limit[6] == 7.0 && focus[4] == 7.0);
    CHECK(near_to(focus[0], 0.175e-3, 1e-12) && near_to(focus[3], 1.225e-3, 1e-12));

    /* Too short, the same memory twice, NULL, and longer than memory. */
    fill(limit, 7);
    fill(focus, 6);
    error = stale_report();
    CHECK(spotwise_height_bands(0.0, 1.4e-3, -0.25e-3, 0.25e-3, 0.1, limit, 4, focus, 4, &bands, &error) ==
          SPOTWISE_E_LENGTH_MISMATCH);
    CHECK(reports(&error, SPOTWISE_E_LENGTH_MISMATCH, SPOTWISE_PARAM_BAND_LIMITS));
    CHECK(error.value == 4.0 && error.least == 5.0 && is_blank(&bands, sizeof bands, 1));
    CHECK(all_nan(limit, 4) && all_nan(focus, 4) && limit[4] == 7.0 && focus[4] == 7.0);
    CHECK(spotwise_height_bands(0.0, 1.4e-3, -0.25e-3, 0.25e-3, 0.1, NULL, 0, focus, 3, &bands, &error) ==
          SPOTWISE_E_LENGTH_MISMATCH);
    CHECK(reports(&error, SPOTWISE_E_LENGTH_MISMATCH, SPOTWISE_PARAM_FOCUS_HEIGHTS) && error.least == 4.0);
    CHECK(spotwise_height_bands(0.0, 1.4e-3, -0.25e-3, 0.25e-3, 0.1, limit, 5, &limit[2], 4, &bands, &error) ==
          SPOTWISE_E_OVERLAP);
    CHECK(spotwise_height_bands(0.0, 1.4e-3, -0.25e-3, 0.25e-3, 0.1, NULL, 5, focus, 4, &bands, &error) ==
          SPOTWISE_E_NULL);
    fill(focus, 6);
    CHECK(spotwise_height_bands(0.0, 1.4e-3, -0.25e-3, 0.25e-3, 0.1, limit, SIZE_MAX, focus, 4, &bands,
                                &error) == SPOTWISE_E_LENGTH_MISMATCH);
    CHECK(reports(&error, SPOTWISE_E_LENGTH_MISMATCH, SPOTWISE_PARAM_BAND_LIMITS) && focus[0] == 7.0);
    /* A refusal and a bad result leave no stale height. */
    fill(limit, 7);
    fill(focus, 6);
    CHECK(spotwise_height_bands(0.0, (double)NAN, -0.25e-3, 0.25e-3, 0.1, limit, 7, focus, 6, &bands, NULL) ==
          SPOTWISE_E_NOT_FINITE);
    CHECK(all_nan(limit, 7) && all_nan(focus, 6));
    fill(focus, 6);
    CHECK(spotwise_height_bands(0.0, 1.4e-3, -0.25e-3, 0.25e-3, 0.1, NULL, 0, focus, 6, NULL, NULL) ==
          SPOTWISE_E_NULL);
    CHECK(all_nan(focus, 6));
    /* 2.1 in bands of 0.7, though the doubles say more than three. */
    CHECK(2.1 / 0.7 > 3.0);
    CHECK(spotwise_height_bands(0.0, 2.1, 0.0, 0.7, 0.0, NULL, 0, NULL, 0, &bands, NULL) == SPOTWISE_OK);
    CHECK(bands.count == 3);
}

static void check_refocus(void)
{
    double focus[8];
    spotwise_error error = stale_report();
    spotwise_refocus_plan_result plan;
    spotwise_refocus_plan_result_init(&plan);
    fill(focus, 8);
    CHECK(spotwise_refocus_plan(1.3e-3, 0.1e-3, -0.25e-3, 0.25e-3, SPOTWISE_AIM_HIGHEST_PLACE, focus, 7, &plan,
                                &error) == SPOTWISE_OK);
    CHECK(plan.passes == 13 && plan.passes_per_stage == 2 && plan.stages == 7 && plan.last_stage_passes == 1);
    CHECK(plan.stays_in_focus == 1 && near_to(plan.stage_depth_m, 0.2e-3, 1e-12));
    CHECK(focus[0] == 0.0 && near_to(focus[6], 1.2e-3, 1e-12) && focus[7] == 7.0);
    CHECK(spotwise_refocus_plan(1.3e-3, 0.1e-3, -0.25e-3, 0.25e-3, SPOTWISE_AIM_MIDWAY, focus, 8, &plan,
                                &error) == SPOTWISE_OK);
    CHECK(plan.passes_per_stage == 5 && plan.stages == 3 && plan.last_stage_passes == 3);
    CHECK(near_to(focus[0], 0.25e-3, 1e-12) && near_to(focus[1], 0.75e-3, 1e-12));
    CHECK(near_to(focus[2], 1.15e-3, 1e-12) && all_nan(&focus[3], 5));
    /* A pass that removes more than the depth of focus: told, not refused. */
    CHECK(spotwise_refocus_plan(1.2e-3, 0.6e-3, -0.25e-3, 0.25e-3, SPOTWISE_AIM_MIDWAY, NULL, 0, &plan,
                                &error) == SPOTWISE_OK);
    CHECK(plan.stays_in_focus == 0 && plan.passes_per_stage == 1 && plan.stages == 2);

    fill(focus, 8);
    CHECK(spotwise_refocus_plan(1.3e-3, 0.1e-3, -0.25e-3, 0.25e-3, SPOTWISE_AIM_MIDWAY, focus, 2, &plan,
                                &error) == SPOTWISE_E_LENGTH_MISMATCH);
    CHECK(reports(&error, SPOTWISE_E_LENGTH_MISMATCH, SPOTWISE_PARAM_FOCUS_HEIGHTS) && error.least == 3.0);
    CHECK(all_nan(focus, 2) && focus[2] == 7.0 && is_blank(&plan, sizeof plan, 5));
    CHECK(spotwise_refocus_plan(1.3e-3, 0.1e-3, -0.25e-3, 0.25e-3, SPOTWISE_AIM_MIDWAY, NULL, 2, &plan,
                                &error) == SPOTWISE_E_NULL);
}

static void check_height_budget(void)
{
    const spotwise_beam beam = good_beam();
    const spotwise_astigmatic_beam astigmatic = good_astigmatic();
    spotwise_focus_between_result best;
    spotwise_astigmatic_focus_between least;
    spotwise_cylinder_strip_result strip;
    spotwise_spot_through_result through;
    check_init_of_heights();
    check_refusals_of_heights();
    check_bands();
    check_refocus();

    spotwise_focus_between_result_init(&best);
    CHECK(spotwise_focus_between(&beam, -0.2e-3, 0.8e-3, &best, NULL) == SPOTWISE_OK);
    CHECK(near_to(best.focus_z_m, 0.3e-3, 1e-12) && near_to(best.half_range_m, 0.5e-3, 1e-12));
    CHECK(near_to(best.growth, 1.4469, 1e-4));
    /* 30 um sqrt(1 + (0.4/0.314159)^2) at either end. */
    spotwise_astigmatic_focus_between_init(&least);
    CHECK(spotwise_focus_between_astigmatic(&astigmatic, 0.0, 0.6e-3, &least, NULL) == SPOTWISE_OK);
    CHECK(near_to(least.focus_z_m, 0.2e-3, 1e-12) && near_to(least.worst_diameter_m, 48.570e-6, 1e-5));
    CHECK(least.highest_diameter_y_m == least.worst_diameter_m && least.lowest_diameter_x_m == least.worst_diameter_m);
    spotwise_cylinder_strip_result_init(&strip);
    CHECK(spotwise_cylinder_strip(25e-3, -0.4e-3, 0.4e-3, SPOTWISE_AIM_HIGHEST_PLACE, &strip, NULL) ==
          SPOTWISE_OK);
    CHECK(near_to(strip.full_chord_m, 8.9084e-3, 1e-5) && strip.focus_z_m == 0.0);
    CHECK(spotwise_cylinder_strip(25e-3, -0.4e-3, 0.4e-3, SPOTWISE_AIM_MIDWAY, &strip, NULL) == SPOTWISE_OK);
    CHECK(near_to(strip.full_chord_m, 12.5475e-3, 1e-5) && strip.focus_z_m == 0.4e-3);
    CHECK(strip.whole_upper_half == 0);
    spotwise_spot_through_result_init(&through);
    CHECK(spotwise_spot_through(&beam, 0.0, 3e-3, &through, NULL) == SPOTWISE_OK);
    CHECK(near_to(through.bottom_diameter_m, 559.09e-6, 1e-5) && through.top_diameter_m == 88e-6);
    CHECK(through.taper_half_angle_rad < 0.0 && through.best_focus_z_m == 1.5e-3);
}

#endif
