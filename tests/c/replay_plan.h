/*
 * The part of the replay about planned series of test pieces. Part of replay.c, whose helpers it uses.
 */
#ifndef SPOTWISE_TESTS_REPLAY_PLAN_H
#define SPOTWISE_TESTS_REPLAY_PLAN_H

#define PLANNED 15
#define PLAN_NUMBERS 16

static spotwise_series_request request_of(const double *in)
{
    spotwise_series_request request;
    spotwise_series_request_init(&request);
    request.purpose = choice(in[0]);
    request.mark_kind = choice(in[1]);
    request.dose_ratio = in[2];
    request.expected_focus_z_m = in[3];
    request.focus_uncertainty_m = in[4];
    request.step_m = in[5];
    request.half_range_m = in[6];
    request.axis_step_m = in[7];
    request.backlash_m = in[8];
    request.direction = choice(in[9]);
    request.clearance_m = in[10];
    request.least_clearance_m = in[11];
    request.travel_toward_lens_m = in[12];
    request.travel_away_from_lens_m = in[13];
    request.piece_width_m = in[14];
    request.piece_height_m = in[15];
    request.label_width_m = in[16];
    request.label_height_m = in[17];
    request.gap_m = in[18];
    request.row_width_m = in[19];
    return request;
}

/* Makes one call of this part. */
static uint32_t call_plan(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    uint32_t status = SPOTWISE_E_NULL;
    if (function == PLAN_SERIES) {
        const spotwise_beam beam = beam_of(in);
        const spotwise_series_request request = request_of(&in[3]);
        spotwise_planned_piece pieces[PLANNED];
        spotwise_series_plan result;
        uint32_t i;
        for (i = 0; i < PLANNED; i++) {
            spotwise_planned_piece_init(&pieces[i]);
        }
        spotwise_series_plan_init(&result);
        CALL(spotwise_plan_series(&beam, &request, pieces, PLANNED, &result, error));
        out[0] = result.step_m;
        out[1] = result.steps_per_side;
        out[2] = result.half_range_m;
        out[3] = result.steps_toward_lens;
        out[4] = result.steps_away_from_lens;
        out[5] = result.pieces;
        out[6] = result.engraved;
        out[7] = result.pre_travel_m;
        out[8] = result.rayleigh_range_m;
        out[9] = result.vanishing_offset_m;
        out[10] = result.columns;
        out[11] = result.rows;
        out[12] = result.width_m;
        out[13] = result.height_m;
        out[14] = result.half_angle_rad;
        out[15] = result.validity;
        for (i = 0; i < PLANNED; i++) {
            double *piece = &out[PLAN_NUMBERS + 8 * i];
            piece[0] = pieces[i].z_m;
            piece[1] = pieces[i].approach_z_m;
            piece[2] = pieces[i].role;
            piece[3] = pieces[i].skipped;
            piece[4] = pieces[i].x_m;
            piece[5] = pieces[i].y_m;
            piece[6] = pieces[i].label_x_m;
            piece[7] = pieces[i].label_y_m;
        }
    } else {
        spotwise_repeated_width repeats;
        spotwise_drift result;
        spotwise_repeated_width_init(&repeats);
        repeats.first_width_m = in[0];
        repeats.first_deviation_m = in[1];
        repeats.last_width_m = in[2];
        repeats.last_deviation_m = in[3];
        spotwise_drift_init(&result);
        CALL(spotwise_series_drift(&repeats, in[4], &result, error));
        out[0] = result.change_m;
        out[1] = result.change_deviation_m;
        out[2] = result.significance;
        out[3] = result.chance;
        out[4] = result.drifted;
    }
    return status;
}

#endif
