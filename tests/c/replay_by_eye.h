/*
 * The part of the replay about test pieces that an eye has judged. Part of replay.c, whose helpers it uses.
 */
#ifndef SPOTWISE_TESTS_REPLAY_BY_EYE_H
#define SPOTWISE_TESTS_REPLAY_BY_EYE_H

#define PIECES 12

/* Makes one call of this part. */
static uint32_t call_by_eye(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    uint32_t status = SPOTWISE_E_NULL;
    const double *z = &in[1];
    const double *judged = &in[1 + PIECES];
    const double *rest = &in[1 + 2 * PIECES];
    const uint32_t pieces = count_of(in[0]) < PIECES ? count_of(in[0]) : PIECES;
    spotwise_eye_judgement judgement;
    uint32_t i;
    spotwise_eye_judgement_init(&judgement);
    if (function == FOCUS_FROM_VANISHING) {
        uint8_t seen[PIECES];
        spotwise_vanishing_focus result;
        for (i = 0; i < PIECES; i++) {
            seen[i] = judged[i] != 0.0;
        }
        judgement.rayleigh_range_m = rest[1];
        judgement.relative_deviation = rest[2];
        judgement.coverage_probability = rest[3];
        spotwise_vanishing_focus_init(&result);
        CALL(spotwise_focus_from_vanishing(z, seen, pieces, choice(rest[0]), &judgement, &result, error));
        out[0] = result.focus_z_m;
        out[1] = result.focus_z_deviation_m;
        out[2] = result.least_z_m;
        out[3] = result.greatest_z_m;
        out[4] = result.toward_lens_z_m;
        out[5] = result.toward_lens_deviation_m;
        out[6] = result.away_from_lens_z_m;
        out[7] = result.away_from_lens_deviation_m;
        out[8] = result.half_run_m;
        out[9] = result.dose_ratio;
        out[10] = result.warnings;
    } else {
        uint32_t rank[PIECES];
        spotwise_rank_focus result;
        for (i = 0; i < PIECES; i++) {
            rank[i] = choice(judged[i]);
        }
        judgement.rayleigh_range_m = rest[0];
        judgement.relative_deviation = rest[1];
        judgement.coverage_probability = rest[2];
        spotwise_rank_focus_init(&result);
        CALL(spotwise_focus_from_ranks(z, rank, pieces, &judgement, &result, error));
        out[0] = result.focus_z_m;
        out[1] = result.focus_z_deviation_m;
        out[2] = result.least_z_m;
        out[3] = result.greatest_z_m;
        out[4] = result.usable_toward_lens_z_m;
        out[5] = result.usable_toward_lens_deviation_m;
        out[6] = result.usable_away_from_lens_z_m;
        out[7] = result.usable_away_from_lens_deviation_m;
        out[8] = result.sharp_half_run_m;
        out[9] = result.warnings;
    }
    return status;
}

#endif
