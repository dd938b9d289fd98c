/*
 * What the C face promises of planned series: init functions, refusals, and the worked examples of the header. Part of
 * face.c, whose macros it uses.
 */
#ifndef SPOTWISE_TESTS_FACE_PLAN_H
#define SPOTWISE_TESTS_FACE_PLAN_H

#define FACE_PLANNED 16

static int is_blank_request(const spotwise_series_request *request)
{
    return request->struct_size == sizeof *request && request->purpose == 0 && request->mark_kind == 0 &&
           request->direction == 0 && isnan(request->dose_ratio) && isnan(request->clearance_m) &&
           isnan(request->gap_m) && request->step_m == 0.0 && request->half_range_m == 0.0 &&
           request->axis_step_m == 0.0 && isinf(request->travel_toward_lens_m) &&
           isinf(request->travel_away_from_lens_m) && isinf(request->row_width_m);
}

static spotwise_series_request good_request(void)
{
    spotwise_series_request request;
    spotwise_series_request_init(&request);
    request.purpose = SPOTWISE_SERIES_WIDTHS;
    request.direction = SPOTWISE_SWEEP_AWAY_FROM_LENS;
    request.expected_focus_z_m = 0.0;
    request.focus_uncertainty_m = 0.0;
    request.axis_step_m = 0.1e-3;
    request.backlash_m = 0.05e-3;
    request.clearance_m = 6e-3;
    request.least_clearance_m = 2e-3;
    request.piece_width_m = 8e-3;
    request.piece_height_m = 8e-3;
    request.label_width_m = 8e-3;
    request.label_height_m = 2e-3;
    request.gap_m = 2e-3;
    return request;
}

static void check_refusals_of_plans(const spotwise_beam *beam)
{
    const spotwise_beam *no_beam = NULL;
    const spotwise_series_request *no_request = NULL;
    spotwise_planned_piece *none = NULL;
    spotwise_planned_piece pieces[FACE_PLANNED];
    spotwise_planned_piece small;
    spotwise_series_request request = good_request();
    uint32_t i;
    for (i = 0; i < FACE_PLANNED; i++) {
        spotwise_planned_piece_init(&pieces[i]);
    }
    spotwise_planned_piece_init(&small);
    small.struct_size -= 8;
    CHECK_REFUSED(spotwise_series_plan, BLANK(9), spotwise_plan_series, SPOTWISE_E_NULL, 0, no_beam, &request,
                  pieces, FACE_PLANNED);
    CHECK_REFUSED(spotwise_series_plan, BLANK(9), spotwise_plan_series, SPOTWISE_E_NULL, 0, beam, no_request,
                  pieces, FACE_PLANNED);
    CHECK_REFUSED(spotwise_series_plan, BLANK(9), spotwise_plan_series, SPOTWISE_E_NULL, 0, beam, &request, none, 1);
    CHECK_REFUSED(spotwise_series_plan, BLANK(9), spotwise_plan_series, SPOTWISE_E_STRUCT_SIZE, 0, beam, &request,
                  &small, 1);
    CHECK_REFUSED(spotwise_series_plan, BLANK(9), spotwise_plan_series, SPOTWISE_E_LENGTH_MISMATCH,
                  SPOTWISE_PARAM_PLANNED_PIECES, beam, &request, pieces, 14);
    CHECK_REFUSED(spotwise_series_plan, BLANK(9), spotwise_plan_series, SPOTWISE_E_LENGTH_MISMATCH,
                  SPOTWISE_PARAM_PLANNED_PIECES, beam, &request, pieces, SIZE_MAX);
    request.clearance_m = 3e-3;
    CHECK_REFUSED(spotwise_series_plan, BLANK(9), spotwise_plan_series, SPOTWISE_E_OUTSIDE_MODEL,
                  SPOTWISE_PARAM_STEPS_TOWARD_LENS, beam, &request, pieces, FACE_PLANNED);
    CHECK(pieces[0].role == 0 && isnan(pieces[0].z_m));
    request = good_request();
    request.travel_away_from_lens_m = 1e-3;
    CHECK_REFUSED(spotwise_series_plan, BLANK(9), spotwise_plan_series, SPOTWISE_E_OUTSIDE_MODEL,
                  SPOTWISE_PARAM_STEPS_AWAY_FROM_LENS, beam, &request, pieces, FACE_PLANNED);
    request = good_request();
    request.row_width_m = 7e-3;
    CHECK_REFUSED(spotwise_series_plan, BLANK(9), spotwise_plan_series, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_ROW_WIDTH, beam, &request, pieces, FACE_PLANNED);
    request = good_request();
    request.purpose = SPOTWISE_SERIES_VANISHING;
    CHECK_REFUSED(spotwise_series_plan, BLANK(9), spotwise_plan_series, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_MARK_KIND, beam, &request, pieces, FACE_PLANNED);
    request.purpose = 3;
    CHECK_REFUSED(spotwise_series_plan, BLANK(9), spotwise_plan_series, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_SERIES_PURPOSE, beam, &request, pieces, FACE_PLANNED);
    request = good_request();
    request.direction = 0;
    CHECK_REFUSED(spotwise_series_plan, BLANK(9), spotwise_plan_series, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_SWEEP_DIRECTION, beam, &request, pieces, FACE_PLANNED);
}

static void check_drift(void)
{
    const spotwise_repeated_width *nothing = NULL;
    spotwise_repeated_width repeats;
    spotwise_drift drift;
    CHECK_INIT(spotwise_repeated_width, 1);
    CHECK_INIT(spotwise_drift, 1);
    spotwise_repeated_width_init(&repeats);
    spotwise_drift_init(&drift);
    CHECK_REFUSED(spotwise_drift, BLANK(1), spotwise_series_drift, SPOTWISE_E_NULL, 0, nothing, 0.95);
    CHECK_REFUSED(spotwise_drift, BLANK(1), spotwise_series_drift, SPOTWISE_E_NOT_FINITE, SPOTWISE_PARAM_MARK_WIDTH,
                  &repeats, 0.95);
    repeats.first_width_m = 60e-6;
    repeats.first_deviation_m = 3e-6;
    repeats.last_width_m = 70e-6;
    repeats.last_deviation_m = 4e-6;
    CHECK_REFUSED(spotwise_drift, BLANK(1), spotwise_series_drift, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_COVERAGE_PROBABILITY, &repeats, 1.0);
    CHECK(spotwise_series_drift(&repeats, 0.95, &drift, NULL) == SPOTWISE_OK);
    CHECK(drift.drifted == 1 && near_to(drift.significance, 2.0, 1e-12) && near_to(drift.chance, 0.0455, 1e-3));
}

/* The worked examples of the header. */
static void check_plans(void)
{
    spotwise_beam beam;
    spotwise_series_request request = good_request();
    spotwise_planned_piece pieces[FACE_PLANNED];
    spotwise_series_plan plan;
    char label[SPOTWISE_LABEL_ROOM];
    uint32_t i;
    CHECK_INIT_AS(spotwise_series_request, is_blank_request(&data[0]));
    CHECK_INIT(spotwise_planned_piece, 3);
    CHECK_INIT(spotwise_series_plan, 9);
    spotwise_beam_init(&beam);
    beam.wavelength_m = 1.064e-6;
    beam.m2 = 1.2;
    beam.waist_diameter_m = 60e-6;
    check_refusals_of_plans(&beam);
    check_drift();

    for (i = 0; i < FACE_PLANNED; i++) {
        spotwise_planned_piece_init(&pieces[i]);
    }
    spotwise_series_plan_init(&plan);
    CHECK(spotwise_plan_series(&beam, &request, NULL, 0, &plan, NULL) == SPOTWISE_OK);
    CHECK(plan.pieces == 15 && plan.engraved == 14 && plan.steps_toward_lens == 4 && plan.reserved == 0);
    CHECK(near_to(plan.rayleigh_range_m, 2.2145e-3, 1e-4) && near_to(plan.step_m, 0.9e-3, 1e-12));
    CHECK(isnan(plan.vanishing_offset_m) && near_to(plan.width_m, 14 * 10e-3 - 2e-3, 1e-12));
    CHECK(spotwise_plan_series(&beam, &request, pieces, FACE_PLANNED, &plan, NULL) == SPOTWISE_OK);
    CHECK(pieces[0].role == SPOTWISE_PIECE_FIRST_REPEAT && pieces[14].role == SPOTWISE_PIECE_LAST_REPEAT);
    CHECK(pieces[15].role == 0 && isnan(pieces[15].z_m));
    CHECK(pieces[2].skipped == SPOTWISE_SKIP_TOO_NEAR_HEAD && isnan(pieces[2].x_m));
    CHECK(near_to(pieces[3].z_m, -3.6e-3, 1e-12) && near_to(pieces[3].approach_z_m, -3.7e-3, 1e-12));
    CHECK(near_to(pieces[4].approach_z_m, -3.6e-3, 1e-12) && near_to(pieces[4].x_m, 30e-3, 1e-12));
    CHECK(spotwise_height_label(pieces[3].z_m, label) == 6 && strcmp(label, "-3.600") == 0);
    CHECK(spotwise_height_label(NAN, label) == 0 && label[0] == 0);
    CHECK(spotwise_height_label(-1e3, label) == 12 && strcmp(label, "-1000000.000") == 0);
    CHECK(spotwise_height_label(1e-3, NULL) == 6);

    request.purpose = SPOTWISE_SERIES_VANISHING;
    request.mark_kind = SPOTWISE_MARK_LINE;
    request.dose_ratio = 1.25;
    request.axis_step_m = 0.0;
    CHECK(spotwise_plan_series(&beam, &request, pieces, FACE_PLANNED, &plan, NULL) == SPOTWISE_OK);
    CHECK(near_to(plan.vanishing_offset_m, 0.75 * plan.rayleigh_range_m, 1e-12) && plan.pieces == 15);

    for (i = SPOTWISE_SKIP_TOO_NEAR_HEAD; i <= SPOTWISE_SKIP_NO_ROOM_TO_APPROACH; i++) {
        CHECK(is_text(spotwise_skip_reason_text(i)) && !is_unknown(spotwise_skip_reason_text(i)));
    }
    CHECK(is_unknown(spotwise_skip_reason_text(0)) && is_unknown(spotwise_skip_reason_text(i)));
}

#endif
