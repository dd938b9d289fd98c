/*
 * The part of the replay about what the heights of a surface ask of the focus. Part of replay.c, whose
 * helpers it uses.
 */
#ifndef SPOTWISE_TESTS_REPLAY_HEIGHT_BUDGET_H
#define SPOTWISE_TESTS_REPLAY_HEIGHT_BUDGET_H

/* The most bands or stages of a row. */
#define MOST_BANDS 6

/* Makes one call of this part. */
static uint32_t call_height_budget(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    uint32_t status = SPOTWISE_E_NULL;
    switch (function) {
    case FOCUS_BETWEEN: {
        const spotwise_beam beam = beam_of(in);
        spotwise_focus_between_result result;
        spotwise_focus_between_result_init(&result);
        CALL(spotwise_focus_between(&beam, in[3], in[4], &result, error));
        out[0] = result.focus_z_m;
        out[1] = result.half_range_m;
        out[2] = result.diameter_m;
        out[3] = result.growth;
        out[4] = result.growth_minus_one;
        out[5] = result.irradiance_ratio;
        out[6] = result.line_dose_ratio;
        out[7] = result.half_angle_rad;
        out[8] = result.validity;
        break;
    }
    case FOCUS_BETWEEN_ASTIGMATIC: {
        const spotwise_astigmatic_beam beam = astigmatic_of(in);
        spotwise_astigmatic_focus_between result;
        spotwise_astigmatic_focus_between_init(&result);
        CALL(spotwise_focus_between_astigmatic(&beam, in[7], in[8], &result, error));
        out[0] = result.focus_z_m;
        out[1] = result.worst_diameter_m;
        out[2] = result.highest_diameter_x_m;
        out[3] = result.highest_diameter_y_m;
        out[4] = result.lowest_diameter_x_m;
        out[5] = result.lowest_diameter_y_m;
        out[6] = result.half_angle_rad;
        out[7] = result.validity;
        break;
    }
    case HEIGHT_BANDS: {
        spotwise_height_bands_result result;
        spotwise_height_bands_result_init(&result);
        CALL(spotwise_height_bands(in[0], in[1], in[2], in[3], in[4], &out[3], MOST_BANDS + 1,
                                   &out[4 + MOST_BANDS], MOST_BANDS, &result, error));
        out[0] = result.count;
        out[1] = result.band_height_m;
        out[2] = result.share_of_depth;
        break;
    }
    case CYLINDER_STRIP: {
        spotwise_cylinder_strip_result result;
        spotwise_cylinder_strip_result_init(&result);
        CALL(spotwise_cylinder_strip(in[0], in[1], in[2], choice(in[3]), &result, error));
        out[0] = result.half_chord_m;
        out[1] = result.full_chord_m;
        out[2] = result.arc_length_m;
        out[3] = result.edge_sag_m;
        out[4] = result.edge_incidence_rad;
        out[5] = result.edge_irradiance_ratio;
        out[6] = result.focus_z_m;
        out[7] = result.whole_upper_half;
        break;
    }
    case REFOCUS_PLAN: {
        spotwise_refocus_plan_result result;
        spotwise_refocus_plan_result_init(&result);
        CALL(spotwise_refocus_plan(in[0], in[1], in[2], in[3], choice(in[4]), &out[8], MOST_BANDS, &result,
                                   error));
        out[0] = result.passes;
        out[1] = result.reached_depth_m;
        out[2] = result.passes_per_stage;
        out[3] = result.stages;
        out[4] = result.last_stage_passes;
        out[5] = result.stage_depth_m;
        out[6] = result.usable_depth_m;
        out[7] = result.stays_in_focus;
        break;
    }
    case SPOT_THROUGH: {
        const spotwise_beam beam = beam_of(in);
        spotwise_spot_through_result result;
        spotwise_spot_through_result_init(&result);
        CALL(spotwise_spot_through(&beam, in[3], in[4], &result, error));
        out[0] = result.top_diameter_m;
        out[1] = result.bottom_diameter_m;
        out[2] = result.widest_m;
        out[3] = result.narrowest_m;
        out[4] = result.worst_growth;
        out[5] = result.taper_ratio;
        out[6] = result.taper_half_angle_rad;
        out[7] = result.best_focus_z_m;
        out[8] = result.best_worst_growth;
        out[9] = result.half_angle_rad;
        out[10] = result.validity;
        break;
    }
    default:
        break;
    }
    return status;
}

#endif
