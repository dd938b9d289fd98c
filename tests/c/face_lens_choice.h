/*
 * The part of the checks about the choice of a lens. Part of face.c, whose helpers it uses.
 */
#ifndef SPOTWISE_TESTS_FACE_LENS_CHOICE_H
#define SPOTWISE_TESTS_FACE_LENS_CHOICE_H

static int is_blank_ranking(const spotwise_lens_ranking *ranking)
{
    return opens_blank(ranking, sizeof *ranking, 5, offsetof(spotwise_lens_ranking, refused)) &&
           is_blank(&ranking->refused, sizeof ranking->refused, 3) &&
           is_quiet_nan((const unsigned char *)&ranking->waist_diameter_m) &&
           is_quiet_nan((const unsigned char *)&ranking->rayleigh_range_m) &&
           is_quiet_nan((const unsigned char *)&ranking->lens_to_waist_m) &&
           is_quiet_nan((const unsigned char *)&ranking->depth_full_m) &&
           is_quiet_nan((const unsigned char *)&ranking->spare_half_span_m) &&
           is_quiet_nan((const unsigned char *)&ranking->clearance_m) &&
           is_blank(&ranking->worst, sizeof ranking->worst, 3);
}

/* A fresh lens is blank but for its kind, which is ideal, and its aperture, which is none. */
static int is_fresh_candidate(const spotwise_lens_candidate *candidate)
{
    spotwise_lens_candidate rest = *candidate;
    if (candidate->lens != SPOTWISE_LENS_IDEAL || candidate->clear_aperture_m != (double)INFINITY) {
        return 0;
    }
    rest.lens = 0;
    rest.clear_aperture_m = (double)NAN;
    return is_blank(&rest, sizeof rest, 3);
}

static void check_crossing(void)
{
    const double nan = (double)NAN;
    const spotwise_beam *no_beam = NULL;
    spotwise_beam narrow = good_beam();
    spotwise_beam wide = good_beam();
    spotwise_beam bad = good_beam();
    spotwise_caustic_crossing_result crossing;
    narrow.m2 = wide.m2 = 1.0;
    narrow.waist_diameter_m = 85e-6;
    wide.waist_diameter_m = 142e-6;
    bad.m2 = nan;

    CHECK_REFUSED(spotwise_caustic_crossing_result, BLANK(3), spotwise_caustic_crossing, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_M2, &bad, &wide);
    CHECK_REFUSED(spotwise_caustic_crossing_result, BLANK(3), spotwise_caustic_crossing, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_M2, &narrow, &bad);
    CHECK_REFUSED(spotwise_caustic_crossing_result, BLANK(3), spotwise_caustic_crossing, SPOTWISE_E_NULL, 0,
                  no_beam, &wide);
    CHECK_REFUSED(spotwise_caustic_crossing_result, BLANK(3), spotwise_caustic_crossing, SPOTWISE_E_NULL, 0,
                  &narrow, no_beam);
    bad.struct_size = 0;
    CHECK_REFUSED(spotwise_caustic_crossing_result, BLANK(3), spotwise_caustic_crossing,
                  SPOTWISE_E_STRUCT_SIZE, 0, &narrow, &bad);

    /* Rayleigh ranges of 535.3 and 1494.0 um: the root of their product, and sqrt(85^2 + 142^2) um. */
    spotwise_caustic_crossing_result_init(&crossing);
    CHECK(spotwise_caustic_crossing(&narrow, &wide, &crossing, NULL) == SPOTWISE_OK);
    CHECK(near_to(crossing.offset_m, 894.317e-6, 1e-5) && near_to(crossing.diameter_m, 165.496e-6, 1e-5));
    CHECK(crossing.sharper_in_focus == SPOTWISE_SHARPER_FIRST);
    CHECK(crossing.sharper_far_off == SPOTWISE_SHARPER_SECOND);
    /* A beam of twice the M^2 in the larger waist is the larger everywhere. */
    wide.m2 = 4.0;
    CHECK(spotwise_caustic_crossing(&narrow, &wide, &crossing, NULL) == SPOTWISE_OK);
    CHECK(isnan(crossing.offset_m) && isnan(crossing.diameter_m));
    CHECK(crossing.sharper_far_off == SPOTWISE_SHARPER_FIRST);
    CHECK(spotwise_caustic_crossing(&narrow, &narrow, &crossing, NULL) == SPOTWISE_OK);
    CHECK(isnan(crossing.offset_m) && crossing.sharper_in_focus == SPOTWISE_SHARPER_NEITHER);
}

/* Two ideal lenses of 1.5 and 2.5 inches over a part that bows by 2 mm. */
typedef struct lens_case {
    spotwise_job job;
    spotwise_lens_candidate lenses[9];
    spotwise_set_up set_up;
    spotwise_lens_ranking rankings[9];
    spotwise_lens_choice choice;
    spotwise_error error;
} lens_case;

static lens_case good_lens_case(void)
{
    lens_case given;
    size_t i;
    given.job = face_good_job();
    given.job.surface_rise_m = 0.8e-3;
    given.job.surface_fall_m = 1.2e-3;
    given.job.finest_stroke_m = given.job.finest_gap_m = 0.15e-3;
    /* The job's own lens and focus are not read. */
    given.job.lens = given.job.focus_setting = 77;
    given.job.focal_length_m = given.job.focus_z_m = (double)NAN;
    for (i = 0; i < 9; i++) {
        spotwise_lens_candidate_init(&given.lenses[i]);
        given.lenses[i].focal_length_m = i % 2 == 0 ? 38.1e-3 : 63.5e-3;
        given.lenses[i].working_distance_m = i % 2 == 0 ? 25e-3 : 50e-3;
        memset(&given.rankings[i], STALE, sizeof given.rankings[i]);
        given.rankings[i].struct_size = sizeof given.rankings[i];
    }
    spotwise_set_up_init(&given.set_up);
    given.set_up.tolerance_m = 0.2e-3;
    given.set_up.least_clearance_m = 3e-3;
    spotwise_lens_choice_init(&given.choice);
    given.error = stale_report();
    return given;
}

static uint32_t choose(lens_case *given, size_t count)
{
    return spotwise_choose_lens(&given->job, given->lenses, count, &given->set_up, given->rankings, &given->choice,
                                &given->error);
}

static int are_blank(const lens_case *given, size_t count)
{
    size_t i;
    for (i = 0; i < count; i++) {
        if (!is_blank_ranking(&given->rankings[i])) {
            return 0;
        }
    }
    return is_blank(&given->choice, sizeof given->choice, 3);
}

static void check_choice(void)
{
    lens_case given = good_lens_case();
    CHECK(choose(&given, 2) == SPOTWISE_OK && reports(&given.error, SPOTWISE_OK, 0));
    CHECK(given.choice.best == 1 && given.rankings[0].rank == 2 && given.rankings[1].rank == 1);
    CHECK(near_to(given.choice.half_span_m, 1.2e-3, 1e-12) && near_to(given.choice.focus_z_m, 0.2e-3, 1e-12));
    /* By hand: sqrt(0.479714 * 1.332163) mm, and twice what is left of it over the tolerance. */
    CHECK(near_to(given.choice.crossing_offset_m, 0.799410e-3, 1e-5));
    CHECK(near_to(given.choice.flip_span_m, 1.198821e-3, 1e-5));
    CHECK((given.rankings[0].reasons & SPOTWISE_LENS_REASON_SMALLEST_IN_FOCUS) != 0);
    CHECK((given.rankings[1].reasons & SPOTWISE_LENS_REASON_SMALLEST_ON_SURFACE) != 0);
    CHECK(near_to(given.rankings[0].clearance_m, 23.8e-3, 1e-12));
    CHECK(given.rankings[0].worst.struct_size == sizeof given.rankings[0].worst);
    CHECK(given.rankings[0].refused.code == SPOTWISE_OK && given.rankings[0].outcome != 0);

    /* A lens so short that its cone is too wide spoils nothing but its own entry. */
    given.lenses[0].focal_length_m = 5e-3;
    CHECK(choose(&given, 2) == SPOTWISE_OK && given.choice.best == 1);
    CHECK(given.rankings[0].reasons == SPOTWISE_LENS_REASON_REFUSED && given.rankings[0].outcome == 0);
    CHECK(given.rankings[0].refused.code == SPOTWISE_E_OUTSIDE_MODEL);
    CHECK(given.rankings[0].refused.parameter == SPOTWISE_PARAM_DIVERGENCE_HALF_ANGLE);
    CHECK(isnan(given.rankings[0].waist_diameter_m) && isnan(given.choice.crossing_offset_m));

    given = good_lens_case();
    CHECK(choose(&given, SPOTWISE_MOST_LENSES) == SPOTWISE_OK);
    CHECK(given.rankings[7].rank == 4 && is_filled_with(&given.rankings[8].rank, 8, STALE));
}

/*
 * From a part and what its set-up may be off by to the lens: a tube of 120 mm, engraved so far across, and a stack of
 * three contributions. tests/chain.rs has the same, by hand.
 */
static lens_case lens_case_of_tube(double width_m)
{
    lens_case given = good_lens_case();
    spotwise_surface tube = good_bar();
    const spotwise_region region = region_from(0.0, 50e-3, -0.5 * width_m, 0.5 * width_m);
    spotwise_contribution three[3];
    spotwise_tolerance_stack_result stack;
    spotwise_surface_extremes_result extremes;

    tube.curvature_radius_m = 60e-3;
    spotwise_surface_extremes_result_init(&extremes);
    CHECK(spotwise_surface_extremes(&tube, &region, &extremes, NULL) == SPOTWISE_OK);

    three[0] = contribution(SPOTWISE_TOLERANCE_FIXTURE, SPOTWISE_DISTRIBUTION_UNIFORM, 0.15e-3);
    three[1] = contribution(SPOTWISE_TOLERANCE_HEIGHT_GAUGE, SPOTWISE_DISTRIBUTION_NORMAL, 0.1e-3);
    three[1].coverage_factor = 2.0;
    three[2] = contribution(SPOTWISE_TOLERANCE_BACKLASH, SPOTWISE_DISTRIBUTION_TWO_VALUED, 0.05e-3);
    three[2].mean_m = 0.06e-3;
    spotwise_tolerance_stack_result_init(&stack);
    CHECK(spotwise_tolerance_stack(three, 3, 0.95, &stack, NULL) == SPOTWISE_OK && stack.dominant == 0);
    CHECK(near_to(stack.expanded_away_from_lens_z_m, 0.279131e-3, 1e-5));

    /* From the highest place down; the mean lies away from the lens, and so does the farther end. */
    given.job.surface_rise_m = 0.0;
    given.job.surface_fall_m = extremes.range_m;
    given.set_up.tolerance_m = stack.expanded_away_from_lens_z_m;
    return given;
}

static void check_chain_to_choice(void)
{
    lens_case given = lens_case_of_tube(16e-3);
    CHECK(choose(&given, 2) == SPOTWISE_OK && given.choice.best == 0 && given.choice.serving == 2);
    /* 0.535725/2 + 0.279131 mm, and 2 * (0.799410 - 0.279131) mm. */
    CHECK(near_to(given.choice.half_span_m, 0.546993e-3, 1e-5));
    CHECK(near_to(given.choice.flip_span_m, 1.040559e-3, 1e-5));
    /* 1.212246/2 + 0.279131 mm: the edges of more of the tube lie beyond the crossing. */
    given = lens_case_of_tube(24e-3);
    CHECK(choose(&given, 2) == SPOTWISE_OK && given.choice.best == 1);
    CHECK(near_to(given.choice.half_span_m, 0.885254e-3, 1e-5));

    /* A mount that would end below the focus of its lens. */
    given = good_lens_case();
    given.lenses[0].working_distance_m = 38.2e-3;
    CHECK(choose(&given, 2) == SPOTWISE_OK);
    CHECK((given.rankings[0].reasons & SPOTWISE_LENS_REASON_WORKING_DISTANCE_BEYOND_FOCUS) != 0);
    CHECK((given.rankings[1].reasons & SPOTWISE_LENS_REASON_WORKING_DISTANCE_BEYOND_FOCUS) == 0);
}

static void check_choice_refused(void)
{
    lens_case given = good_lens_case();
    CHECK(choose(&given, 9) == SPOTWISE_E_OUT_OF_RANGE && are_blank(&given, 9));
    CHECK(reports(&given.error, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_LENS_CANDIDATES));
    CHECK(given.error.value == 9.0 && given.error.least == 1.0 && given.error.greatest == 8.0);
    given = good_lens_case();
    CHECK(choose(&given, 0) == SPOTWISE_E_OUT_OF_RANGE && are_blank(&given, 0));
    CHECK(is_filled_with(&given.rankings[0].rank, 8, STALE));
    /* More than memory holds: nothing is looked at. */
    CHECK(choose(&given, SIZE_MAX) == SPOTWISE_E_OUT_OF_RANGE);
    CHECK(is_filled_with(&given.rankings[0].rank, 8, STALE));

    given = good_lens_case();
    given.lenses[1].lens = 9;
    CHECK(choose(&given, 2) == SPOTWISE_E_UNKNOWN_CHOICE && are_blank(&given, 2));
    CHECK(reports(&given.error, SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_LENS_KIND));
    given = good_lens_case();
    given.lenses[1].working_distance_m = -1.0;
    CHECK(choose(&given, 2) == SPOTWISE_E_OUT_OF_RANGE && are_blank(&given, 2));
    CHECK(reports(&given.error, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_WORKING_DISTANCE));
    given = good_lens_case();
    given.set_up.tolerance_m = (double)NAN;
    CHECK(choose(&given, 2) == SPOTWISE_E_NOT_FINITE && are_blank(&given, 2));
    CHECK(reports(&given.error, SPOTWISE_E_NOT_FINITE, SPOTWISE_PARAM_SET_UP_TOLERANCE));
    given = good_lens_case();
    given.set_up.least_clearance_m = -1.0;
    CHECK(choose(&given, 2) == SPOTWISE_E_OUT_OF_RANGE && are_blank(&given, 2));
    CHECK(reports(&given.error, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_LEAST_CLEARANCE));

    /* Pointers come first, in the order of the arguments; what can be written is blank. */
    given = good_lens_case();
    given.lenses[1].struct_size = 8;
    given.rankings[1].struct_size = 8;
    CHECK(choose(&given, 2) == SPOTWISE_E_STRUCT_SIZE && is_filled_with(&given.rankings[0].rank, 8, STALE));
    CHECK(is_blank(&given.choice, sizeof given.choice, 3));
    given = good_lens_case();
    given.lenses[0].lens = 9;
    CHECK(spotwise_choose_lens(NULL, given.lenses, 2, &given.set_up, given.rankings, &given.choice,
                               &given.error) == SPOTWISE_E_NULL && are_blank(&given, 2));
    given = good_lens_case();
    CHECK(spotwise_choose_lens(&given.job, NULL, 2, &given.set_up, given.rankings, &given.choice, &given.error) ==
              SPOTWISE_E_NULL && are_blank(&given, 2));
    given = good_lens_case();
    CHECK(spotwise_choose_lens(&given.job, given.lenses, 2, NULL, given.rankings, &given.choice, &given.error) ==
              SPOTWISE_E_NULL && are_blank(&given, 2));
    given = good_lens_case();
    CHECK(spotwise_choose_lens(&given.job, given.lenses, 2, &given.set_up, NULL, &given.choice, &given.error) ==
              SPOTWISE_E_NULL && are_blank(&given, 0));
    given = good_lens_case();
    CHECK(spotwise_choose_lens(&given.job, given.lenses, 2, &given.set_up, given.rankings, NULL, &given.error) ==
              SPOTWISE_E_NULL && is_blank_ranking(&given.rankings[1]));
    given = good_lens_case();
    given.error.struct_size = 8;
    CHECK(choose(&given, 2) == SPOTWISE_E_STRUCT_SIZE && are_blank(&given, 2));
}

static void check_lens_choice(void)
{
    uint32_t bit;
    CHECK_INIT(spotwise_caustic_crossing_result, 3);
    CHECK_INIT_AS(spotwise_lens_candidate, is_fresh_candidate(&data[0]));
    CHECK_INIT(spotwise_set_up, 1);
    CHECK_INIT_AS(spotwise_lens_ranking, is_blank_ranking(&data[0]));
    CHECK_INIT(spotwise_lens_choice, 3);
    check_crossing();
    check_choice();
    check_chain_to_choice();
    check_choice_refused();
    for (bit = SPOTWISE_LENS_REASON_SERVES; bit <= SPOTWISE_LENS_REASON_WORKING_DISTANCE_BEYOND_FOCUS;
         bit *= 2) {
        CHECK(is_text(spotwise_lens_reason_text(bit)) && !is_unknown(spotwise_lens_reason_text(bit)));
    }
    CHECK(is_unknown(spotwise_lens_reason_text(0)) && is_unknown(spotwise_lens_reason_text(3)));
    CHECK(is_unknown(spotwise_lens_reason_text(bit)));
}

#endif
