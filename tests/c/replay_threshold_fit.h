/*
 * The part of the replay about the fit of spot and threshold. Part of replay.c, whose helpers it uses.
 */
#ifndef SPOTWISE_TESTS_REPLAY_THRESHOLD_FIT_H
#define SPOTWISE_TESTS_REPLAY_THRESHOLD_FIT_H

/* How many marks a row has. */
#define FIT_MARKS 6

/* Makes one call of this part. */
static uint32_t call_threshold_fit(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    uint32_t status = SPOTWISE_E_NULL;
    switch (function) {
    case FIT_THRESHOLD: {
        const double *rest = &in[3 * FIT_MARKS];
        double residual[FIT_MARKS] = {0};
        uint8_t used[FIT_MARKS];
        spotwise_threshold_fit_options options;
        spotwise_threshold_fit result;
        uint32_t i;
        memset(used, 2, sizeof used); /* a stale flag would show */
        spotwise_threshold_fit_options_init(&options);
        options.weights = choice(rest[0]);
        options.outlier_limit = rest[1];
        options.confidence = rest[2];
        spotwise_threshold_fit_init(&result);
        CALL(spotwise_fit_threshold(in, &in[FIT_MARKS], &in[2 * FIT_MARKS], FIT_MARKS, &options, residual, used,
                                    &result, error));
        *out++ = result.spot_diameter_m;
        *out++ = result.spot_diameter_deviation_m;
        *out++ = result.spot_diameter_least_m;
        *out++ = result.spot_diameter_greatest_m;
        *out++ = result.spot_diameter_bias_m;
        *out++ = result.threshold;
        *out++ = result.threshold_deviation;
        *out++ = result.threshold_least;
        *out++ = result.threshold_greatest;
        *out++ = result.threshold_bias;
        *out++ = result.correlation;
        *out++ = result.significance;
        *out++ = result.chi_squared;
        *out++ = result.degrees_of_freedom;
        *out++ = result.chi_squared_chance;
        *out++ = result.curvature_chance;
        *out++ = result.marks_used;
        *out++ = result.warnings;
        for (i = 0; i < FIT_MARKS; i++) {
            *out++ = residual[i];
        }
        for (i = 0; i < FIT_MARKS; i++) {
            *out++ = used[i];
        }
        break;
    }
    default:
        break;
    }
    return status;
}

#endif
