/*
 * The part of the replay about surfaces in focus. Part of replay.c, whose helpers it uses, and those of
 * replay_shape.h.
 */
#ifndef SPOTWISE_TESTS_REPLAY_IN_FOCUS_H
#define SPOTWISE_TESTS_REPLAY_IN_FOCUS_H

/* Beam and criterion stand before the surface. */
#define BEFORE_SURFACE 7

/* How many cells a number stands for. */
static uint32_t cells_of(double number)
{
    return number >= 0.0 ? choice(number) : 0;
}

static void put_focus_height(const spotwise_focus_height *height, double *out)
{
    out[0] = height->focus_z_m;
    out[1] = height->worst_growth;
    out[2] = height->mean_area_growth;
    out[3] = height->share_in_focus;
}

/* Makes one call of this part. */
static uint32_t call_in_focus(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    uint32_t status = SPOTWISE_E_NULL;
    const double *shape = function == FOCUS_FOR_SURFACE ? &in[BEFORE_SURFACE] : in;
    const spotwise_surface surface = surface_of(shape);
    const spotwise_region region = region_of(&shape[SURFACE_NUMBERS]);
    const double *rest = &shape[SURFACE_NUMBERS + 4];
    switch (function) {
    case REGION_HEIGHTS: {
        spotwise_region_heights_result result;
        spotwise_region_heights_result_init(&result);
        CALL(spotwise_region_heights(&surface, &region, cells_of(rest[0]), &result, error));
        out[0] = result.mean_z_m;
        out[1] = result.z_deviation_m;
        out[2] = result.highest_z_m;
        out[3] = result.lowest_z_m;
        out[4] = result.unknown_share;
        break;
    }
    case SHARE_IN_FOCUS: {
        spotwise_share_in_focus_result result;
        spotwise_share_in_focus_result_init(&result);
        CALL(spotwise_share_in_focus(&surface, &region, cells_of(rest[0]), rest[1], rest[2], &result, error));
        out[0] = result.in_focus;
        out[1] = result.toward_lens;
        out[2] = result.away_from_lens;
        out[3] = result.unknown_share;
        break;
    }
    case FOCUS_FOR_SURFACE: {
        const spotwise_beam beam = beam_of(in);
        const spotwise_depth_criterion criterion = criterion_of(&in[3]);
        spotwise_surface_focus result;
        spotwise_surface_focus_init(&result);
        CALL(spotwise_focus_for_surface(&beam, &criterion, &surface, &region, cells_of(rest[0]), &result,
                                        error));
        put_focus_height(&result.least_worst, &out[0]);
        put_focus_height(&result.least_mean_area, &out[4]);
        put_focus_height(&result.most_in_focus, &out[8]);
        out[12] = result.unknown_share;
        out[13] = result.half_angle_rad;
        out[14] = result.validity;
        break;
    }
    default:
        break;
    }
    return status;
}

#endif
