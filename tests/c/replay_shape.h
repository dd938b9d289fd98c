/*
 * The part of the replay about the shape of the surface. Part of replay.c, whose helpers it uses.
 */
#ifndef SPOTWISE_TESTS_REPLAY_SHAPE_H
#define SPOTWISE_TESTS_REPLAY_SHAPE_H

/* So many numbers make a surface, whose grid has up to four columns and rows. */
#define SURFACE_NUMBERS 34
#define SURFACE_SIDE 4

/* How many columns or rows a number stands for. */
static size_t surface_count(double number)
{
    const uint32_t count = number >= 0.0 ? choice(number) : 0;
    return count < SURFACE_SIDE ? count : SURFACE_SIDE;
}

/* The surface of these numbers, which hold its arrays. */
static spotwise_surface surface_of(const double *in)
{
    spotwise_surface surface;
    spotwise_surface_init(&surface);
    surface.surface = choice(in[0]);
    surface.bulge = choice(in[1]);
    surface.slope_x = in[2];
    surface.slope_y = in[3];
    surface.curvature_radius_m = in[4];
    surface.crown_x_m = in[5];
    surface.crown_y_m = in[6];
    surface.axis_angle_rad = in[7];
    surface.x_m = &in[10];
    surface.x_count = surface_count(in[8]);
    surface.y_m = &in[14];
    surface.y_count = surface_count(in[9]);
    surface.z_m = &in[18];
    if (surface.surface == SPOTWISE_SURFACE_GRID) {
        surface.z_count = surface.x_count * surface.y_count;
    } else if (surface.surface == SPOTWISE_SURFACE_STEPS) {
        surface.z_count = surface.x_count > 0 ? surface.x_count - 1 : 0;
    }
    return surface;
}

static spotwise_region region_of(const double *in)
{
    spotwise_region region;
    spotwise_region_init(&region);
    region.x_least_m = in[0];
    region.x_greatest_m = in[1];
    region.y_least_m = in[2];
    region.y_greatest_m = in[3];
    return region;
}

static void put_extremes(const spotwise_surface_extremes_result *extremes, double *out)
{
    out[0] = extremes->highest_z_m;
    out[1] = extremes->highest_x_m;
    out[2] = extremes->highest_y_m;
    out[3] = extremes->lowest_z_m;
    out[4] = extremes->lowest_x_m;
    out[5] = extremes->lowest_y_m;
    out[6] = extremes->range_m;
    out[7] = extremes->steepest_incidence_rad;
    out[8] = extremes->steepest_x_m;
    out[9] = extremes->steepest_y_m;
    out[10] = extremes->missing_probes;
    out[11] = extremes->unknown_share;
}

/* Makes one call of this part. */
static uint32_t call_shape(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    uint32_t status = SPOTWISE_E_NULL;
    switch (function) {
    case SURFACE_AT: {
        const spotwise_surface surface = surface_of(in);
        spotwise_surface_place result;
        spotwise_surface_place_init(&result);
        CALL(spotwise_surface_at(&surface, in[SURFACE_NUMBERS], in[SURFACE_NUMBERS + 1], &result, error));
        out[0] = result.z_m;
        out[1] = result.slope_x;
        out[2] = result.slope_y;
        out[3] = result.incidence_rad;
        out[4] = result.stretch;
        out[5] = result.irradiance_factor;
        break;
    }
    case SURFACE_EXTREMES: {
        const spotwise_surface surface = surface_of(in);
        const spotwise_region region = region_of(&in[SURFACE_NUMBERS]);
        spotwise_surface_extremes_result result;
        spotwise_surface_extremes_result_init(&result);
        CALL(spotwise_surface_extremes(&surface, &region, &result, error));
        put_extremes(&result, out);
        break;
    }
    default:
        break;
    }
    return status;
}

#endif
