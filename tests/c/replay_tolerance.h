/*
 * The part of the replay about tolerance stacks. Part of replay.c, whose helpers it uses.
 */
#ifndef SPOTWISE_TESTS_REPLAY_TOLERANCE_H
#define SPOTWISE_TESTS_REPLAY_TOLERANCE_H

#define CONTRIBUTIONS 4
#define CONTRIBUTION_NUMBERS 5
#define STACK_NUMBERS (CONTRIBUTIONS * CONTRIBUTION_NUMBERS)

static void contributions_of(const double *in, spotwise_contribution *contributions)
{
    int i;
    for (i = 0; i < CONTRIBUTIONS; i++, in += CONTRIBUTION_NUMBERS) {
        spotwise_contribution_init(&contributions[i]);
        contributions[i].source = choice(in[0]);
        contributions[i].distribution = choice(in[1]);
        contributions[i].half_width_m = in[2];
        contributions[i].coverage_factor = in[3];
        contributions[i].mean_m = in[4];
    }
}

/* A whole number that travels as a double; one that is none becomes the nearest that is. */
static uint32_t count_of(double number)
{
    return number >= 4294967295.0 ? UINT32_MAX : number >= 0.0 ? (uint32_t)number : 0;
}

static uint64_t seed_of(double number)
{
    return number >= 18446744073709551616.0 ? UINT64_MAX : number >= 0.0 ? (uint64_t)number : 0;
}

static void put_odds(const spotwise_offset_odds_result *result, double *out)
{
    out[0] = result->probability;
    out[1] = result->too_near_probability;
    out[2] = result->too_far_probability;
    out[3] = result->drawn_share;
    out[4] = result->drawn_standard_error;
    out[5] = result->drawn_least_share;
    out[6] = result->drawn_greatest_share;
    out[7] = result->drawn_mean_m;
    out[8] = result->drawn_deviation_m;
    out[9] = result->drawn_least_z_m;
    out[10] = result->drawn_greatest_z_m;
}

/* Makes one call of this part. */
static uint32_t call_tolerance(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    uint32_t status = SPOTWISE_E_NULL;
    spotwise_contribution contributions[CONTRIBUTIONS];
    switch (function) {
    case TOLERANCE_STACK: {
        spotwise_tolerance_stack_result result;
        spotwise_tolerance_stack_result_init(&result);
        contributions_of(in, contributions);
        CALL(spotwise_tolerance_stack(contributions, CONTRIBUTIONS, in[STACK_NUMBERS], &result, error));
        out[0] = result.bias_m;
        out[1] = result.worst_half_width_m;
        out[2] = result.worst_toward_lens_z_m;
        out[3] = result.worst_away_from_lens_z_m;
        out[4] = result.deviation_m;
        out[5] = result.coverage_factor;
        out[6] = result.expanded_half_width_m;
        out[7] = result.expanded_toward_lens_z_m;
        out[8] = result.expanded_away_from_lens_z_m;
        out[9] = result.dominant;
        out[10] = result.dominant_share;
        out[11] = result.widest;
        out[12] = result.widest_share;
        break;
    }
    case OFFSET_ODDS: {
        const double *rest = &in[STACK_NUMBERS];
        spotwise_offset_odds_result result;
        spotwise_offset_odds_result_init(&result);
        contributions_of(in, contributions);
        CALL(spotwise_offset_odds(contributions, CONTRIBUTIONS, rest[0], rest[1], count_of(rest[2]),
                                  seed_of(rest[3]), &result, error));
        put_odds(&result, out);
        break;
    }
    case DETAIL_ODDS: {
        const spotwise_beam beam = beam_of(in);
        const double *rest = &in[8 + STACK_NUMBERS];
        spotwise_surface_detail detail;
        spotwise_detail_odds_result result;
        spotwise_surface_detail_init(&detail);
        detail.finest_stroke_m = in[3];
        detail.finest_gap_m = in[4];
        detail.dose_ratio = in[5];
        detail.highest_z_m = in[6];
        detail.lowest_z_m = in[7];
        spotwise_detail_odds_result_init(&result);
        contributions_of(&in[8], contributions);
        CALL(spotwise_detail_odds(&beam, &detail, contributions, CONTRIBUTIONS, count_of(rest[0]),
                                  seed_of(rest[1]), &result, error));
        out[0] = result.holds_in_waist;
        out[1] = result.margin_toward_lens_m;
        out[2] = result.margin_away_from_lens_m;
        put_odds(&result.everywhere, &out[3]);
        out[14] = result.highest_probability;
        out[15] = result.highest_drawn_share;
        out[16] = result.lowest_probability;
        out[17] = result.lowest_drawn_share;
        out[18] = result.half_angle_rad;
        out[19] = result.validity;
        break;
    }
    default:
        break;
    }
    return status;
}

#endif
