/*
 * The part of the replay about focus or power. Part of replay.c, whose helpers it uses.
 */
#ifndef SPOTWISE_TESTS_REPLAY_DIAGNOSIS_H
#define SPOTWISE_TESTS_REPLAY_DIAGNOSIS_H

static spotwise_good_mark good_mark_of(const double *in)
{
    spotwise_good_mark good;
    spotwise_good_mark_init(&good);
    good.mark_kind = choice(in[0]);
    good.dose_ratio = in[1];
    good.dose_ratio_deviation = in[2];
    good.width_m = in[3];
    good.width_deviation_m = in[4];
    return good;
}

static spotwise_depth_reading depths_of(const double *in)
{
    spotwise_depth_reading depths;
    spotwise_depth_reading_init(&depths);
    depths.depth_law = choice(in[0]);
    depths.good_depth = in[1];
    depths.good_depth_deviation = in[2];
    depths.depth = in[3];
    depths.depth_deviation = in[4];
    return depths;
}

/* Makes one call of this part. */
static uint32_t call_diagnosis(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    uint32_t status = SPOTWISE_E_NULL;
    const spotwise_beam beam = beam_of(in);
    switch (function) {
    case DIAGNOSE_MARK: {
        const spotwise_good_mark good = good_mark_of(&in[3]);
        const spotwise_depth_reading depths = depths_of(&in[8]);
        spotwise_mark_diagnosis result;
        spotwise_mark_diagnosis_init(&result);
        CALL(spotwise_diagnose_mark(&beam, &good, &depths, in[13], in[14], in[15], &result, error));
        out[0] = result.cause;
        out[1] = result.further_test;
        out[2] = result.ambiguities;
        out[3] = result.growth;
        out[4] = result.growth_deviation;
        out[5] = result.offset_m;
        out[6] = result.least_offset_m;
        out[7] = result.greatest_offset_m;
        out[8] = result.power_ratio;
        out[9] = result.power_ratio_deviation;
        out[10] = result.least_power_ratio;
        out[11] = result.greatest_power_ratio;
        out[12] = result.correlation;
        out[13] = result.dose_ratio;
        out[14] = result.half_angle_rad;
        out[15] = result.validity;
        break;
    }
    case DIAGNOSE_WIDTH: {
        const spotwise_good_mark good = good_mark_of(&in[3]);
        spotwise_width_diagnosis result;
        spotwise_width_diagnosis_init(&result);
        CALL(spotwise_diagnose_width(&beam, &good, in[8], in[9], in[10], &result, error));
        out[0] = result.cause;
        out[1] = result.further_test;
        out[2] = result.ambiguities;
        out[3] = result.near_growth;
        out[4] = result.near_offset_m;
        out[5] = result.near_least_offset_m;
        out[6] = result.near_greatest_offset_m;
        out[7] = result.far_growth;
        out[8] = result.far_offset_m;
        out[9] = result.far_least_offset_m;
        out[10] = result.far_greatest_offset_m;
        out[11] = result.power_ratio;
        out[12] = result.least_power_ratio;
        out[13] = result.greatest_power_ratio;
        out[14] = result.half_angle_rad;
        out[15] = result.validity;
        break;
    }
    case SETTLE_BY_PATCH: {
        const spotwise_good_mark good = good_mark_of(&in[3]);
        const spotwise_depth_reading patch = depths_of(&in[8]);
        spotwise_patch_settlement result;
        spotwise_patch_settlement_init(&result);
        CALL(spotwise_settle_by_patch(&beam, &good, &patch, in[13], in[14], in[15], in[16], &result, error));
        out[0] = result.cause;
        out[1] = result.further_test;
        out[2] = result.ambiguities;
        out[3] = result.power_ratio;
        out[4] = result.least_power_ratio;
        out[5] = result.greatest_power_ratio;
        out[6] = result.near_growth;
        out[7] = result.near_offset_m;
        out[8] = result.near_least_offset_m;
        out[9] = result.near_greatest_offset_m;
        out[10] = result.far_growth;
        out[11] = result.far_offset_m;
        out[12] = result.far_least_offset_m;
        out[13] = result.far_greatest_offset_m;
        out[14] = result.half_angle_rad;
        out[15] = result.validity;
        break;
    }
    case SETTLE_BY_POWER: {
        spotwise_power_step step;
        spotwise_power_settlement result;
        spotwise_power_step_init(&step);
        step.mark_kind = choice(in[3]);
        step.dose_ratio = in[4];
        step.dose_ratio_deviation = in[5];
        step.power_step = in[6];
        step.width_m = in[7];
        step.width_deviation_m = in[8];
        step.stepped_width_m = in[9];
        step.stepped_width_deviation_m = in[10];
        spotwise_power_settlement_init(&result);
        CALL(spotwise_settle_by_power(&beam, &step, in[11], &result, error));
        out[0] = result.cause;
        out[1] = result.further_test;
        out[2] = result.ambiguities;
        out[3] = result.spot_diameter_m;
        out[4] = result.spot_diameter_deviation_m;
        out[5] = result.growth;
        out[6] = result.offset_m;
        out[7] = result.least_offset_m;
        out[8] = result.greatest_offset_m;
        out[9] = result.dose_ratio;
        out[10] = result.power_ratio;
        out[11] = result.least_power_ratio;
        out[12] = result.greatest_power_ratio;
        out[13] = result.half_angle_rad;
        out[14] = result.validity;
        break;
    }
    case SETTLE_BY_HEIGHTS: {
        spotwise_height_readings readings;
        spotwise_height_settlement result;
        spotwise_height_readings_init(&readings);
        readings.mark_kind = choice(in[3]);
        readings.depth_law = choice(in[4]);
        readings.height_step_m = in[5];
        readings.toward_lens = in[6];
        readings.middle = in[7];
        readings.away_from_lens = in[8];
        readings.deviation = in[9];
        spotwise_height_settlement_init(&result);
        CALL(spotwise_settle_by_heights(&beam, &readings, in[10], &result, error));
        out[0] = result.verdict;
        out[1] = result.z_offset_m;
        out[2] = result.z_offset_deviation_m;
        out[3] = result.least_z_offset_m;
        out[4] = result.greatest_z_offset_m;
        out[5] = result.half_angle_rad;
        out[6] = result.validity;
        break;
    }
    default:
        break;
    }
    return status;
}

#endif
