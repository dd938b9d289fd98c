/*
 * What the C face promises of tolerance stacks: init functions, refusals, and the worked examples of the
 * header. Part of face.c, whose macros it uses.
 */
#ifndef SPOTWISE_TESTS_FACE_TOLERANCE_H
#define SPOTWISE_TESTS_FACE_TOLERANCE_H

static int is_blank_detail_odds(const spotwise_detail_odds_result *odds)
{
    return opens_blank(odds, sizeof *odds, 3, offsetof(spotwise_detail_odds_result, everywhere)) &&
           is_blank(&odds->everywhere, sizeof odds->everywhere, 1);
}

static spotwise_contribution contribution(uint32_t source, uint32_t distribution, double half_width_m)
{
    spotwise_contribution one;
    spotwise_contribution_init(&one);
    one.source = source;
    one.distribution = distribution;
    one.half_width_m = half_width_m;
    one.mean_m = 0.0;
    return one;
}

static spotwise_surface_detail good_surface_detail(void)
{
    spotwise_surface_detail detail;
    spotwise_surface_detail_init(&detail);
    detail.finest_stroke_m = 60e-6;
    detail.finest_gap_m = 60e-6;
    detail.dose_ratio = 2.7;
    detail.highest_z_m = -0.2e-3;
    detail.lowest_z_m = 0.1e-3;
    return detail;
}

static void check_init_of_tolerances(void)
{
    CHECK_INIT(spotwise_contribution, 3);
    CHECK_INIT(spotwise_tolerance_stack_result, 3);
    CHECK_INIT(spotwise_offset_odds_result, 1);
    CHECK_INIT(spotwise_surface_detail, 1);
    CHECK_INIT_AS(spotwise_detail_odds_result, is_blank_detail_odds(&data[0]));
}

static void check_refusals_of_tolerances(void)
{
    const spotwise_contribution *nothing = NULL;
    const spotwise_beam *no_beam = NULL;
    const spotwise_surface_detail *no_detail = NULL;
    const spotwise_beam beam = good_beam();
    spotwise_surface_detail detail = good_surface_detail();
    spotwise_surface_detail short_detail = detail;
    spotwise_contribution two[2];
    two[0] = contribution(SPOTWISE_TOLERANCE_PART_BOW, SPOTWISE_DISTRIBUTION_UNIFORM, 0.3e-3);
    two[1] = contribution(SPOTWISE_TOLERANCE_HEIGHT_GAUGE, SPOTWISE_DISTRIBUTION_NORMAL, 0.1e-3);
    short_detail.struct_size = 0;

    /* A normal contribution needs its coverage factor. */
    CHECK_REFUSED(spotwise_tolerance_stack_result, BLANK(3), spotwise_tolerance_stack, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_COVERAGE_FACTOR, two, 2, 0.95);
    two[1].coverage_factor = 2.0;
    CHECK_REFUSED(spotwise_tolerance_stack_result, BLANK(3), spotwise_tolerance_stack, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_COVERAGE_PROBABILITY, two, 2, 1.0);
    CHECK_REFUSED(spotwise_tolerance_stack_result, BLANK(3), spotwise_tolerance_stack, SPOTWISE_E_UNDETERMINED,
                  SPOTWISE_PARAM_CONTRIBUTIONS, nothing, 0, 0.95);
    CHECK_REFUSED(spotwise_tolerance_stack_result, BLANK(3), spotwise_tolerance_stack, SPOTWISE_E_NULL, 0,
                  nothing, 1, 0.95);
    /* Too long a list is refused unread, after its pointer. */
    CHECK_REFUSED(spotwise_tolerance_stack_result, BLANK(3), spotwise_tolerance_stack,
                  SPOTWISE_E_LENGTH_MISMATCH, SPOTWISE_PARAM_CONTRIBUTIONS, two,
                  SPOTWISE_TOLERANCE_MOST_CONTRIBUTIONS + 1, 0.95);

    CHECK_REFUSED(spotwise_offset_odds_result, BLANK(1), spotwise_offset_odds, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_AWAY_FROM_LENS_Z, two, 2, 1e-3, -1e-3, 100, 1);
    CHECK_REFUSED(spotwise_offset_odds_result, BLANK(1), spotwise_offset_odds, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_DRAWS, two, 2, -1e-3, 1e-3, 9, 1);
    CHECK_REFUSED(spotwise_offset_odds_result, BLANK(1), spotwise_offset_odds, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_SEED, two, 2, -1e-3, 1e-3, 100, UINT64_MAX);
    CHECK_REFUSED(spotwise_offset_odds_result, BLANK(1), spotwise_offset_odds, SPOTWISE_E_NULL, 0, nothing, 2,
                  -1e-3, 1e-3, 100, 1);

    CHECK_REFUSED(spotwise_detail_odds_result, is_blank_detail_odds(&out), spotwise_detail_odds,
                  SPOTWISE_E_NULL, 0, no_beam, &detail, two, 2, 100, 1);
    CHECK_REFUSED(spotwise_detail_odds_result, is_blank_detail_odds(&out), spotwise_detail_odds,
                  SPOTWISE_E_NULL, 0, &beam, no_detail, two, 2, 100, 1);
    CHECK_REFUSED(spotwise_detail_odds_result, is_blank_detail_odds(&out), spotwise_detail_odds,
                  SPOTWISE_E_STRUCT_SIZE, 0, &beam, &short_detail, two, 2, 100, 1);
    detail.lowest_z_m = -1e-3;
    CHECK_REFUSED(spotwise_detail_odds_result, is_blank_detail_odds(&out), spotwise_detail_odds,
                  SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_LOWEST_Z, &beam, &detail, two, 2, 100, 1);

    /* An unknown choice comes before any number. */
    two[0].half_width_m = -1.0;
    two[1].source = 0;
    CHECK_REFUSED(spotwise_tolerance_stack_result, BLANK(3), spotwise_tolerance_stack,
                  SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_TOLERANCE_SOURCE, two, 2, 0.95);
    two[0].distribution = 6;
    CHECK_REFUSED(spotwise_offset_odds_result, BLANK(1), spotwise_offset_odds, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_DISTRIBUTION, two, 2, -1e-3, 1e-3, 100, 1);
    two[1].struct_size -= 8;
    CHECK_REFUSED(spotwise_tolerance_stack_result, BLANK(3), spotwise_tolerance_stack, SPOTWISE_E_STRUCT_SIZE,
                  0, two, 2, 0.95);
}

/* The worked examples of the header, and a detail that does not even hold in the waist. */
static void check_tolerances(void)
{
    const spotwise_beam beam = good_beam();
    spotwise_surface_detail detail = good_surface_detail();
    spotwise_contribution two[2];
    spotwise_tolerance_stack_result stack;
    spotwise_offset_odds_result odds;
    spotwise_detail_odds_result found;
    check_init_of_tolerances();
    check_refusals_of_tolerances();
    spotwise_tolerance_stack_result_init(&stack);
    spotwise_offset_odds_result_init(&odds);
    spotwise_detail_odds_result_init(&found);

    two[0] = contribution(SPOTWISE_TOLERANCE_PART_BOW, SPOTWISE_DISTRIBUTION_UNIFORM, 0.3e-3);
    two[1] = contribution(SPOTWISE_TOLERANCE_THICKNESS, SPOTWISE_DISTRIBUTION_UNIFORM, 0.1e-3);
    CHECK(spotwise_tolerance_stack(two, 2, 0.95, &stack, NULL) == SPOTWISE_OK);
    CHECK(near_to(stack.worst_half_width_m, 0.4e-3, 1e-12) && near_to(stack.deviation_m, 0.182574e-3, 1e-5));
    CHECK(stack.dominant == 0 && near_to(stack.dominant_share, 0.9, 1e-12) && stack.reserved == 0);

    two[0] = contribution(SPOTWISE_TOLERANCE_HEIGHT_GAUGE, SPOTWISE_DISTRIBUTION_NORMAL, 0.1e-3);
    two[0].coverage_factor = 1.0;
    CHECK(spotwise_offset_odds(two, 1, -0.1e-3, 0.2e-3, 1000, 1, &odds, NULL) == SPOTWISE_OK);
    CHECK(near_to(odds.probability, 0.8186, 1e-4));
    CHECK(odds.drawn_least_share <= odds.drawn_share && odds.drawn_share <= odds.drawn_greatest_share);

    CHECK(spotwise_detail_odds(&beam, &detail, two, 1, 100, 1, &found, NULL) == SPOTWISE_OK);
    CHECK(found.holds_in_waist == 1 && found.everywhere.struct_size == sizeof found.everywhere);
    CHECK(found.everywhere.probability <= found.highest_probability);
    detail.finest_gap_m = 1e-6;
    CHECK(spotwise_detail_odds(&beam, &detail, two, 1, 100, 1, &found, NULL) == SPOTWISE_OK);
    CHECK(found.holds_in_waist == 0 && isnan(found.margin_toward_lens_m));
    CHECK(found.everywhere.probability == 0.0 && isnan(found.everywhere.too_near_probability));
    CHECK(found.everywhere.drawn_greatest_share == 0.0 && found.lowest_probability == 0.0);
}

#endif
