/*
 * What the C face promises of test pieces that an eye has judged: init functions, refusals, and the worked examples of
 * the header. Part of face.c, whose macros it uses.
 */
#ifndef SPOTWISE_TESTS_FACE_BY_EYE_H
#define SPOTWISE_TESTS_FACE_BY_EYE_H

#define EYE_PIECES 9

static spotwise_eye_judgement good_judgement(void)
{
    spotwise_eye_judgement judgement;
    spotwise_eye_judgement_init(&judgement);
    judgement.rayleigh_range_m = 0.5e-3;
    judgement.relative_deviation = 0.05;
    judgement.coverage_probability = 0.95;
    return judgement;
}

static void check_refusals_by_eye(const double *z, const uint8_t *seen, const uint32_t *rank)
{
    const double *no_heights = NULL;
    const uint8_t *nothing = NULL;
    const uint32_t *no_ranks = NULL;
    const spotwise_eye_judgement *no_judgement = NULL;
    const uint8_t none[EYE_PIECES] = {0};
    const uint8_t all[EYE_PIECES] = {1, 1, 1, 1, 1, 1, 1, 1, 0};
    const uint32_t unknown[EYE_PIECES] = {1, 1, 2, 4, 3, 2, 2, 1, 1};
    const uint32_t open[EYE_PIECES] = {1, 1, 2, 3, 3, 3, 3, 3, 3};
    spotwise_eye_judgement judgement = good_judgement();
    spotwise_eye_judgement short_judgement = judgement;
    short_judgement.struct_size = 0;

    CHECK_REFUSED(spotwise_vanishing_focus, BLANK(1), spotwise_focus_from_vanishing, SPOTWISE_E_NULL, 0,
                  no_heights, seen, EYE_PIECES, SPOTWISE_MARK_LINE, &judgement);
    CHECK_REFUSED(spotwise_vanishing_focus, BLANK(1), spotwise_focus_from_vanishing, SPOTWISE_E_NULL, 0, z,
                  nothing, EYE_PIECES, SPOTWISE_MARK_LINE, &judgement);
    CHECK_REFUSED(spotwise_vanishing_focus, BLANK(1), spotwise_focus_from_vanishing, SPOTWISE_E_NULL, 0, z, seen,
                  EYE_PIECES, SPOTWISE_MARK_LINE, no_judgement);
    CHECK_REFUSED(spotwise_vanishing_focus, BLANK(1), spotwise_focus_from_vanishing, SPOTWISE_E_STRUCT_SIZE, 0, z,
                  seen, EYE_PIECES, SPOTWISE_MARK_LINE, &short_judgement);
    CHECK_REFUSED(spotwise_vanishing_focus, BLANK(1), spotwise_focus_from_vanishing, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_MARK_KIND, z, seen, EYE_PIECES, 3, &judgement);
    CHECK_REFUSED(spotwise_vanishing_focus, BLANK(1), spotwise_focus_from_vanishing, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_PIECES, no_heights, nothing, 0, SPOTWISE_MARK_LINE, &judgement);
    CHECK_REFUSED(spotwise_vanishing_focus, BLANK(1), spotwise_focus_from_vanishing, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_PIECES, z, seen, SPOTWISE_MOST_PIECES + 1, SPOTWISE_MARK_LINE, &judgement);
    CHECK_REFUSED(spotwise_vanishing_focus, BLANK(1), spotwise_focus_from_vanishing, SPOTWISE_E_LENGTH_MISMATCH,
                  SPOTWISE_PARAM_JUDGEMENTS, z, seen, SIZE_MAX, SPOTWISE_MARK_LINE, &judgement);
    CHECK_REFUSED(spotwise_vanishing_focus, BLANK(1), spotwise_focus_from_vanishing, SPOTWISE_E_UNDETERMINED,
                  SPOTWISE_PARAM_GOOD_PIECES, z, none, EYE_PIECES, SPOTWISE_MARK_LINE, &judgement);
    CHECK_REFUSED(spotwise_vanishing_focus, BLANK(1), spotwise_focus_from_vanishing, SPOTWISE_E_UNDETERMINED,
                  SPOTWISE_PARAM_BOUND_TOWARD_LENS, z, all, EYE_PIECES, SPOTWISE_MARK_LINE, &judgement);
    CHECK_REFUSED(spotwise_vanishing_focus, BLANK(1), spotwise_focus_from_vanishing, SPOTWISE_E_UNDETERMINED,
                  SPOTWISE_PARAM_BOUND_AWAY_FROM_LENS, z, seen, 5, SPOTWISE_MARK_LINE, &judgement);

    CHECK_REFUSED(spotwise_rank_focus, BLANK(1), spotwise_focus_from_ranks, SPOTWISE_E_NULL, 0, z, no_ranks,
                  EYE_PIECES, &judgement);
    CHECK_REFUSED(spotwise_rank_focus, BLANK(1), spotwise_focus_from_ranks, SPOTWISE_E_STRUCT_SIZE, 0, z, rank,
                  EYE_PIECES, &short_judgement);
    CHECK_REFUSED(spotwise_rank_focus, BLANK(1), spotwise_focus_from_ranks, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_PIECE_RANK, z, unknown, EYE_PIECES, &judgement);
    CHECK_REFUSED(spotwise_rank_focus, BLANK(1), spotwise_focus_from_ranks, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_PIECES, z, rank, SPOTWISE_MOST_PIECES + 1, &judgement);
    CHECK_REFUSED(spotwise_rank_focus, BLANK(1), spotwise_focus_from_ranks, SPOTWISE_E_UNDETERMINED,
                  SPOTWISE_PARAM_GOOD_PIECES, z, rank, 2, &judgement);
    CHECK_REFUSED(spotwise_rank_focus, BLANK(1), spotwise_focus_from_ranks, SPOTWISE_E_UNDETERMINED,
                  SPOTWISE_PARAM_BOUND_AWAY_FROM_LENS, z, open, EYE_PIECES, &judgement);
    judgement.relative_deviation = 1.5;
    CHECK_REFUSED(spotwise_rank_focus, BLANK(1), spotwise_focus_from_ranks, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_JUDGEMENT_DEVIATION, z, rank, EYE_PIECES, &judgement);
}

/* The worked examples of the header, and what a warning says. */
static void check_by_eye(void)
{
    const uint8_t seen[EYE_PIECES] = {0, 0, 1, 255, 1, 1, 1, 0, 0};
    const uint32_t rank[EYE_PIECES] = {1, 1, 2, 3, 3, 2, 2, 1, 1};
    const uint32_t out_of_order[EYE_PIECES] = {1, 1, 2, 1, 3, 3, 2, 2, 2};
    const spotwise_eye_judgement judgement = good_judgement();
    double z[EYE_PIECES];
    spotwise_vanishing_focus vanishing;
    spotwise_rank_focus ranked;
    uint32_t i;
    CHECK_INIT(spotwise_eye_judgement, 1);
    CHECK_INIT(spotwise_vanishing_focus, 1);
    CHECK_INIT(spotwise_rank_focus, 1);
    for (i = 0; i < EYE_PIECES; i++) {
        z[i] = 0.1e-3 * i;
    }
    check_refusals_by_eye(z, seen, rank);

    spotwise_vanishing_focus_init(&vanishing);
    CHECK(spotwise_focus_from_vanishing(z, seen, EYE_PIECES, SPOTWISE_MARK_LINE, &judgement, &vanishing, NULL) ==
          SPOTWISE_OK);
    CHECK(near_to(vanishing.focus_z_m, 0.4e-3, 1e-12) && near_to(vanishing.half_run_m, 0.25e-3, 1e-12));
    CHECK(near_to(vanishing.toward_lens_z_m, 0.15e-3, 1e-12) && vanishing.warnings == 0);
    CHECK(near_to(vanishing.focus_z_deviation_m, 0.04199e-3, 1e-4));

    for (i = 0; i < EYE_PIECES; i++) {
        z[i] = 0.2e-3 * i;
    }
    spotwise_rank_focus_init(&ranked);
    CHECK(spotwise_focus_from_ranks(z, rank, EYE_PIECES, &judgement, &ranked, NULL) == SPOTWISE_OK);
    CHECK(near_to(ranked.focus_z_m, 0.75e-3, 1e-12) && near_to(ranked.usable_away_from_lens_z_m, 1.3e-3, 1e-12));
    CHECK(spotwise_focus_from_ranks(z, out_of_order, EYE_PIECES, &judgement, &ranked, NULL) == SPOTWISE_OK);
    CHECK(ranked.warnings & SPOTWISE_EYE_OUT_OF_ORDER);
    CHECK(ranked.warnings & SPOTWISE_EYE_USABLE_OPEN_AWAY_FROM_LENS);
    CHECK(isnan(ranked.usable_toward_lens_z_m) && near_to(ranked.focus_z_m, 0.9e-3, 1e-12));

    for (i = SPOTWISE_EYE_OUT_OF_ORDER; i <= SPOTWISE_EYE_NONE_SHARP; i *= 2) {
        CHECK(is_text(spotwise_eye_warning_text(i)) && !is_unknown(spotwise_eye_warning_text(i)));
    }
    CHECK(is_unknown(spotwise_eye_warning_text(0)) && is_unknown(spotwise_eye_warning_text(64)));
}

#endif
