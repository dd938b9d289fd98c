/*
 * The part of the replay about calibrated set-ups. Part of replay.c, whose helpers it uses.
 */
#ifndef SPOTWISE_TESTS_REPLAY_CALIBRATION_H
#define SPOTWISE_TESTS_REPLAY_CALIBRATION_H

/* Makes one call of this part. */
static uint32_t call_calibration(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    uint32_t status = SPOTWISE_E_NULL;
    switch (function) {
    case CALIBRATED_SET_UP: {
        spotwise_learned_focus learned;
        spotwise_calibrated_set_up_result result;
        spotwise_learned_focus_init(&learned);
        learned.wavelength_m = in[0];
        learned.measured_m2 = in[1];
        learned.m2_deviation = in[2];
        learned.waist_diameter_m = in[3];
        learned.focal_length_m = in[4];
        learned.focus_shift_m = in[5];
        learned.focus_deviation_m = in[6];
        learned.coverage_factor_95 = in[7];
        spotwise_calibrated_set_up_result_init(&result);
        CALL(spotwise_calibrated_set_up(&learned, &result, error));
        out[0] = result.m2;
        out[1] = result.raw_waist_diameter_m;
        out[2] = result.waist_to_lens_m;
        out[3] = result.diameter_at_lens_m;
        out[4] = result.rayleigh_range_m;
        out[5] = result.focus_deviation_m;
        out[6] = result.half_angle_rad;
        out[7] = result.validity;
        break;
    }
    case LEARNED_THRESHOLD: {
        spotwise_learned_line learned;
        spotwise_learned_threshold_result result;
        spotwise_learned_line_init(&learned);
        learned.power_w = in[0];
        learned.speed_m_per_s = in[1];
        learned.waist_diameter_m = in[2];
        learned.waist_diameter_deviation_m = in[3];
        learned.dose_ratio = in[4];
        learned.relative_dose_ratio_deviation = in[5];
        learned.correlation = in[6];
        learned.coverage_factor_95 = in[7];
        spotwise_learned_threshold_result_init(&result);
        CALL(spotwise_learned_threshold(&learned, &result, error));
        out[0] = result.threshold_j_per_m2;
        out[1] = result.relative_deviation;
        break;
    }
    default:
        break;
    }
    return status;
}

#endif
