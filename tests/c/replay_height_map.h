/*
 * The part of the replay about maps of heights. Part of replay.c, whose helpers it uses.
 */
#ifndef SPOTWISE_TESTS_REPLAY_HEIGHT_MAP_H
#define SPOTWISE_TESTS_REPLAY_HEIGHT_MAP_H

#define MAP_PLACES 6

static uint32_t call_height_map(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    uint32_t status = SPOTWISE_OK;
    const spotwise_beam beam = beam_of(in);
    if (function == MAP_HEIGHTS) {
        const uint32_t quantity = choice(in[4]);
        spotwise_height_map map;
        spotwise_height_map_init(&map);
        CALL(spotwise_map_heights(&beam, in[3], quantity, in[5], &in[6], MAP_PLACES, out, &map, error));
        out[6] = (double)map.measured;
        out[7] = (double)map.missing;
        out[8] = map.least;
        out[9] = (double)map.least_index;
        out[10] = map.greatest;
        out[11] = (double)map.greatest_index;
        out[12] = map.half_angle_rad;
        out[13] = map.validity;
    } else {
        const spotwise_depth_criterion criterion = criterion_of(&in[4]);
        uint8_t in_focus[MAP_PLACES];
        spotwise_focus_mask mask;
        int i;
        memset(in_focus, 7, sizeof in_focus); /* a stale flag would show */
        spotwise_focus_mask_init(&mask);
        CALL(spotwise_in_focus_mask(&beam, in[3], &criterion, &in[8], MAP_PLACES, in_focus, &mask, error));
        for (i = 0; i < MAP_PLACES; i++) {
            out[i] = in_focus[i];
        }
        out[6] = (double)mask.in_focus;
        out[7] = (double)mask.too_near_lens;
        out[8] = (double)mask.too_far_from_lens;
        out[9] = (double)mask.missing;
        out[10] = mask.toward_lens_z_m;
        out[11] = mask.away_from_lens_z_m;
        out[12] = mask.half_angle_rad;
        out[13] = mask.validity;
    }
    return status;
}

#endif
