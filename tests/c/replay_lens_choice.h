/*
 * The part of the replay about the choice of a lens. Part of replay.c, whose helpers it uses.
 */
#ifndef SPOTWISE_TESTS_REPLAY_LENS_CHOICE_H
#define SPOTWISE_TESTS_REPLAY_LENS_CHOICE_H

/* Lenses and their numbers in a row; more lenses repeat them. */
#define LENS_PLACES 3
#define LENS_NUMBERS 7
/* Where the set-up stands in a row, and the most lenses that a row asks for: one more than a call takes. */
#define LENS_SET_UP 39
#define LENSES_ASKED (SPOTWISE_MOST_LENSES + 1)
#define RANKING_NUMBERS 29

/* The inputs of a job without lens and focus; what stands in their places is not read. */
static spotwise_job job_for_any_lens(const double *in)
{
    double whole[48];
    size_t i;
    for (i = 0; i < 48; i++) {
        whole[i] = (double)NAN;
    }
    memcpy(&whole[0], &in[0], 6 * sizeof in[0]);
    memcpy(&whole[10], &in[6], 22 * sizeof in[0]);
    memcpy(&whole[37], &in[28], 11 * sizeof in[0]);
    return job_of(whole);
}

static spotwise_lens_candidate candidate_of(const double *in)
{
    spotwise_lens_candidate lens;
    spotwise_lens_candidate_init(&lens);
    lens.focal_length_m = in[0];
    lens.lens = choice(in[1]);
    lens.glass = choice(in[2]);
    lens.lens_shape = choice(in[3]);
    lens.shape_factor = in[4];
    lens.clear_aperture_m = in[5];
    lens.working_distance_m = in[6];
    return lens;
}

static void put_ranking(const spotwise_lens_ranking *ranking, double *out)
{
    out[0] = ranking->rank;
    out[1] = ranking->reasons;
    out[2] = ranking->refused.code;
    out[3] = ranking->refused.parameter;
    out[4] = ranking->outcome;
    out[5] = ranking->waist_diameter_m;
    out[6] = ranking->rayleigh_range_m;
    out[7] = ranking->lens_to_waist_m;
    out[8] = ranking->depth_full_m;
    put_place(&ranking->worst, &out[9]);
    out[26] = ranking->spare_half_span_m;
    out[27] = ranking->clearance_m;
    out[28] = ranking->validity;
}

static uint32_t call_choice(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    const spotwise_job job = job_for_any_lens(in);
    const double asked = in[LENS_SET_UP + 2];
    /* What is no number asks for none. */
    const size_t count = !(asked > 0.0) ? 0 : asked < (double)LENSES_ASKED ? (size_t)asked : LENSES_ASKED;
    spotwise_lens_candidate lenses[LENSES_ASKED];
    spotwise_lens_ranking rankings[LENSES_ASKED];
    spotwise_set_up set_up;
    spotwise_lens_choice result;
    uint32_t status;
    size_t i;
    for (i = 0; i < LENSES_ASKED; i++) {
        lenses[i] = candidate_of(&in[LENS_SET_UP + 3 + i % LENS_PLACES * LENS_NUMBERS]);
        spotwise_lens_ranking_init(&rankings[i]);
    }
    spotwise_set_up_init(&set_up);
    set_up.tolerance_m = in[LENS_SET_UP];
    set_up.least_clearance_m = in[LENS_SET_UP + 1];
    spotwise_lens_choice_init(&result);
    CALL(spotwise_choose_lens(&job, lenses, count, &set_up, rankings, &result, error));
    out[0] = result.serving;
    out[1] = result.best;
    out[2] = result.focus_z_m;
    out[3] = result.half_span_m;
    out[4] = result.crossing_offset_m;
    out[5] = result.crossing_diameter_m;
    out[6] = result.flip_span_m;
    for (i = 0; i < LENS_PLACES; i++) {
        put_ranking(&rankings[i], &out[7 + i * RANKING_NUMBERS]);
    }
    return status;
}

static uint32_t call_lens_choice(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    uint32_t status;
    spotwise_beam first;
    spotwise_beam second;
    spotwise_caustic_crossing_result result;
    if (function == CHOOSE_LENS) {
        return call_choice(function, in, out, error);
    }
    first = beam_of(in);
    second = beam_of(&in[3]);
    spotwise_caustic_crossing_result_init(&result);
    CALL(spotwise_caustic_crossing(&first, &second, &result, error));
    out[0] = result.offset_m;
    out[1] = result.diameter_m;
    out[2] = result.sharper_in_focus;
    out[3] = result.sharper_far_off;
    out[4] = result.half_angle_rad;
    out[5] = result.validity;
    return status;
}

#endif
