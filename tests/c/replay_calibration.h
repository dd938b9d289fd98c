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
    case CALIBRATION_FROM_MARKS: {
        spotwise_mark_fit fit;
        spotwise_learned_machine result;
        spotwise_mark_fit_init(&fit);
        fit.waist_z_m = in[0];
        fit.waist_z_deviation_m = in[1];
        fit.waist_diameter_m = in[2];
        fit.waist_diameter_deviation_m = in[3];
        fit.m2 = in[4];
        fit.m2_deviation = in[5];
        fit.dose_ratio = in[6];
        fit.dose_ratio_deviation = in[7];
        fit.correlation_diameter_dose = in[8];
        fit.range_factor = in[9];
        fit.degrees_of_freedom = count_of(in[10]);
        spotwise_learned_machine_init(&result);
        CALL(spotwise_calibration_from_marks(&fit, in[11], in[12], in[13], in[14], &result, error));
        out[0] = result.focus_z_m;
        out[1] = result.focus.wavelength_m;
        out[2] = result.focus.measured_m2;
        out[3] = result.focus.m2_deviation;
        out[4] = result.focus.waist_diameter_m;
        out[5] = result.focus.focal_length_m;
        out[6] = result.focus.focus_shift_m;
        out[7] = result.focus.focus_deviation_m;
        out[8] = result.focus.coverage_factor_95;
        out[9] = result.line.power_w;
        out[10] = result.line.speed_m_per_s;
        out[11] = result.line.waist_diameter_deviation_m;
        out[12] = result.line.dose_ratio;
        out[13] = result.line.relative_dose_ratio_deviation;
        out[14] = result.line.correlation;
        break;
    }
    default:
        break;
    }
    return status;
}

#endif
