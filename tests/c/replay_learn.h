/*
 * The part of the replay about learning from test pieces. Part of replay.c, whose helpers it uses.
 */
#ifndef SPOTWISE_TESTS_REPLAY_LEARN_H
#define SPOTWISE_TESTS_REPLAY_LEARN_H

#define SERIES_MARKS 9

static void put_mark_fit(const spotwise_mark_fit *fit, double *out)
{
    out[0] = fit->waist_z_m;
    out[1] = fit->waist_z_deviation_m;
    out[2] = fit->waist_z_least_m;
    out[3] = fit->waist_z_greatest_m;
    out[4] = fit->waist_z_bias_m;
    out[5] = fit->waist_diameter_m;
    out[6] = fit->waist_diameter_deviation_m;
    out[7] = fit->waist_diameter_least_m;
    out[8] = fit->waist_diameter_greatest_m;
    out[9] = fit->waist_diameter_bias_m;
    out[10] = fit->rayleigh_range_m;
    out[11] = fit->rayleigh_range_deviation_m;
    out[12] = fit->rayleigh_range_least_m;
    out[13] = fit->rayleigh_range_greatest_m;
    out[14] = fit->rayleigh_range_bias_m;
    out[15] = fit->dose_ratio;
    out[16] = fit->dose_ratio_deviation;
    out[17] = fit->dose_ratio_least;
    out[18] = fit->dose_ratio_greatest;
    out[19] = fit->dose_ratio_bias;
    out[20] = fit->m2;
    out[21] = fit->m2_deviation;
    out[22] = fit->m2_least;
    out[23] = fit->m2_greatest;
    out[24] = fit->m2_bias;
    out[25] = fit->correlation_z_diameter;
    out[26] = fit->correlation_z_range;
    out[27] = fit->correlation_z_dose;
    out[28] = fit->correlation_diameter_range;
    out[29] = fit->correlation_diameter_dose;
    out[30] = fit->correlation_range_dose;
    out[31] = fit->range_factor;
    out[32] = fit->chi_squared;
    out[33] = fit->degrees_of_freedom;
    out[34] = fit->chance;
    out[35] = fit->shape_significance;
    out[36] = fit->marks_used;
    out[37] = fit->vanished_used;
    out[38] = fit->cautions;
    out[39] = fit->further;
}

/* Makes one call of this part. */
static uint32_t call_learn(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    uint32_t status = SPOTWISE_E_NULL;
    switch (function) {
    case STUDENT_FACTOR:
        CALL(spotwise_student_factor(in[0], count_of(in[1]), &out[0], error));
        break;
    case CHI_SQUARED_CHANCE:
        CALL(spotwise_chi_squared_chance(in[0], count_of(in[1]), &out[0], error));
        break;
    case FIT_MARK_WIDTHS: {
        const uint32_t asked = count_of(in[0]);
        const uint32_t marks = asked < SERIES_MARKS ? asked : SERIES_MARKS;
        const double *rest = &in[1 + 4 * SERIES_MARKS];
        double residual[SERIES_MARKS];
        uint8_t used[SERIES_MARKS];
        spotwise_mark_series series;
        spotwise_mark_fit fit;
        uint32_t i;
        memset(residual, 0, sizeof residual);
        memset(used, 0, sizeof used);
        for (i = 0; i < marks; i++) {
            residual[i] = 2.0; /* stale numbers would show */
            used[i] = 2;
        }
        spotwise_mark_series_init(&series);
        series.mark_kind = choice(rest[0]);
        series.wavelength_m = rest[1];
        series.m2 = rest[2];
        series.relative_m2_deviation = rest[3];
        series.waist_diameter_m = rest[4];
        series.relative_waist_diameter_deviation = rest[5];
        series.outlier_limit = rest[6];
        series.confidence = rest[7];
        series.scatter = choice(rest[8]);
        spotwise_mark_fit_init(&fit);
        CALL(spotwise_fit_mark_widths(&in[1], &in[1 + SERIES_MARKS], &in[1 + 2 * SERIES_MARKS],
                                      &in[1 + 3 * SERIES_MARKS], marks, &series, residual, used, &fit, error));
        put_mark_fit(&fit, out);
        for (i = 0; i < SERIES_MARKS; i++) {
            out[40 + i] = residual[i];
            out[40 + SERIES_MARKS + i] = used[i];
        }
        break;
    }
    default:
        break;
    }
    return status;
}

#endif
