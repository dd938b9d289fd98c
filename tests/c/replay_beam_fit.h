/*
 * The part of the replay about the fit of a beam. Part of replay.c, whose helpers it uses.
 */
#ifndef SPOTWISE_TESTS_REPLAY_BEAM_FIT_H
#define SPOTWISE_TESTS_REPLAY_BEAM_FIT_H

/* The most readings of a row. */
#define BEAM_READINGS 8

/* Makes one call of this part. */
static uint32_t call_beam_fit(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    uint32_t status = SPOTWISE_E_NULL;
    switch (function) {
    case FIT_BEAM: {
        const double *rest = &in[1 + 3 * BEAM_READINGS];
        const uint32_t asked = count_of(in[0]);
        const uint32_t readings = asked < BEAM_READINGS ? asked : BEAM_READINGS;
        double residual[BEAM_READINGS] = {0};
        uint8_t used[BEAM_READINGS] = {0};
        spotwise_beam_fit_options options;
        spotwise_beam_fit result;
        uint32_t i;
        spotwise_beam_fit_options_init(&options);
        options.weights = choice(rest[1]);
        options.outlier_limit = rest[2];
        options.confidence = rest[3];
        options.mark_dose_ratio = rest[4];
        spotwise_beam_fit_init(&result);
        CALL(spotwise_fit_beam(&in[1], &in[1 + BEAM_READINGS], &in[1 + 2 * BEAM_READINGS], readings, rest[0],
                               &options, residual, used, &result, error));
        *out++ = result.waist_z_m;
        *out++ = result.waist_z_deviation_m;
        *out++ = result.waist_z_least_m;
        *out++ = result.waist_z_greatest_m;
        *out++ = result.waist_z_bias_m;
        *out++ = result.waist_diameter_m;
        *out++ = result.waist_diameter_deviation_m;
        *out++ = result.waist_diameter_least_m;
        *out++ = result.waist_diameter_greatest_m;
        *out++ = result.waist_diameter_bias_m;
        *out++ = result.rayleigh_range_m;
        *out++ = result.rayleigh_range_deviation_m;
        *out++ = result.rayleigh_range_least_m;
        *out++ = result.rayleigh_range_greatest_m;
        *out++ = result.rayleigh_range_bias_m;
        *out++ = result.divergence_full_angle_rad;
        *out++ = result.divergence_full_angle_deviation_rad;
        *out++ = result.divergence_full_angle_least_rad;
        *out++ = result.divergence_full_angle_greatest_rad;
        *out++ = result.divergence_full_angle_bias_rad;
        *out++ = result.m2;
        *out++ = result.m2_deviation;
        *out++ = result.m2_least;
        *out++ = result.m2_greatest;
        *out++ = result.m2_bias;
        *out++ = result.z_diameter_correlation;
        *out++ = result.z_range_correlation;
        *out++ = result.diameter_range_correlation;
        *out++ = result.chi_squared;
        *out++ = result.degrees_of_freedom;
        *out++ = result.chi_squared_chance;
        *out++ = result.higher_terms_chance;
        *out++ = result.readings_used;
        *out++ = result.readings_near;
        *out++ = result.readings_far;
        *out++ = result.warnings;
        for (i = 0; i < BEAM_READINGS; i++) {
            *out++ = residual[i];
        }
        for (i = 0; i < BEAM_READINGS; i++) {
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
