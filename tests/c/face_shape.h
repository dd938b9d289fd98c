/*
 * What the C face promises of shapes of a surface: init functions, refusals, arrays, and the worked examples of
 * the header. Part of face.c, whose macros it uses.
 */
#ifndef SPOTWISE_TESTS_FACE_SHAPE_H
#define SPOTWISE_TESTS_FACE_SHAPE_H

/* A fresh surface is blank, and has no arrays. */
static int is_fresh_surface(const spotwise_surface *surface)
{
    return opens_blank(surface, sizeof *surface, 3, offsetof(spotwise_surface, x_m)) && surface->x_m == NULL &&
           surface->y_m == NULL && surface->z_m == NULL && surface->x_count == 0 && surface->y_count == 0 &&
           surface->z_count == 0;
}

static void check_init_of_surfaces(void)
{
    CHECK_INIT_AS(spotwise_surface, is_fresh_surface(&data[0]));
    CHECK_INIT(spotwise_region, 1);
    CHECK_INIT(spotwise_surface_place, 1);
    CHECK_INIT(spotwise_surface_extremes_result, 1);
}

/* A bar of 30 mm diameter along x. */
static spotwise_surface good_bar(void)
{
    spotwise_surface bar;
    spotwise_surface_init(&bar);
    bar.surface = SPOTWISE_SURFACE_CYLINDER;
    bar.bulge = SPOTWISE_BULGE_TOWARD_LENS;
    bar.slope_x = 0.0;
    bar.slope_y = 0.0;
    bar.curvature_radius_m = 15e-3;
    bar.crown_x_m = 0.0;
    bar.crown_y_m = 0.0;
    bar.axis_angle_rad = 0.0;
    return bar;
}

static const double grid_x[3] = {0.0, 20e-3, 50e-3};
static const double grid_y[2] = {0.0, 10e-3};
/* The far right corner was not found. */
static const double grid_z[6] = {0.1e-3, 0.3e-3, -0.2e-3, 0.5e-3, 0.7e-3, (double)NAN};

static spotwise_surface good_grid(void)
{
    spotwise_surface grid;
    spotwise_surface_init(&grid);
    grid.surface = SPOTWISE_SURFACE_GRID;
    grid.x_m = grid_x;
    grid.x_count = 3;
    grid.y_m = grid_y;
    grid.y_count = 2;
    grid.z_m = grid_z;
    grid.z_count = 6;
    return grid;
}

static spotwise_region region_from(double x_least, double x_greatest, double y_least, double y_greatest)
{
    spotwise_region region;
    spotwise_region_init(&region);
    region.x_least_m = x_least;
    region.x_greatest_m = x_greatest;
    region.y_least_m = y_least;
    region.y_greatest_m = y_greatest;
    return region;
}

#define CHECK_PLACE_REFUSED(status, named, ...) \
    CHECK_REFUSED(spotwise_surface_place, BLANK(1), spotwise_surface_at, status, named, __VA_ARGS__)
#define CHECK_EXTREMES_REFUSED(status, named, ...)                                                          \
    CHECK_REFUSED(spotwise_surface_extremes_result, BLANK(1), spotwise_surface_extremes, status, named, \
                  __VA_ARGS__)

static void check_refusals_of_surfaces(void)
{
    const spotwise_surface *no_surface = NULL;
    const spotwise_region *no_region = NULL;
    const spotwise_region region = region_from(0.0, 20e-3, -9e-3, 9e-3);
    const spotwise_region wide = region_from(0.0, 20e-3, -9e-3, 16e-3);
    const spotwise_region empty = region_from(0.0, 0.0, -9e-3, 9e-3);
    spotwise_region short_region = region;
    spotwise_surface bar = good_bar();
    spotwise_surface grid = good_grid();
    spotwise_surface short_surface = bar;
    spotwise_surface fresh;
    short_surface.struct_size -= 8;
    short_region.struct_size = 0;
    spotwise_surface_init(&fresh);
    CHECK_PLACE_REFUSED(SPOTWISE_E_NULL, 0, no_surface, 0.0, 0.0);
    CHECK_PLACE_REFUSED(SPOTWISE_E_STRUCT_SIZE, 0, &short_surface, 0.0, 0.0);
    CHECK_PLACE_REFUSED(SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_SURFACE_SHAPE, &fresh, 0.0, 0.0);
    CHECK_PLACE_REFUSED(SPOTWISE_E_OUTSIDE_MODEL, SPOTWISE_PARAM_DISTANCE_FROM_CROWN, &bar, 0.0, 16e-3);
    CHECK_PLACE_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_PLACE_X, &bar, 2e3, 0.0);
    CHECK_PLACE_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_PLACE_X, &grid, 60e-3, 0.0);
    CHECK_PLACE_REFUSED(SPOTWISE_E_UNDETERMINED, SPOTWISE_PARAM_KNOWN_PROBES, &grid, 30e-3, 5e-3);
    CHECK_EXTREMES_REFUSED(SPOTWISE_E_NULL, 0, no_surface, &region);
    CHECK_EXTREMES_REFUSED(SPOTWISE_E_NULL, 0, &bar, no_region);
    CHECK_EXTREMES_REFUSED(SPOTWISE_E_NULL, 0, &fresh, no_region);
    CHECK_EXTREMES_REFUSED(SPOTWISE_E_STRUCT_SIZE, 0, &bar, &short_region);
    CHECK_EXTREMES_REFUSED(SPOTWISE_E_OUTSIDE_MODEL, SPOTWISE_PARAM_DISTANCE_FROM_CROWN, &bar, &wide);
    CHECK_EXTREMES_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_REGION_WIDTH_X, &bar, &empty);
    bar.bulge = 3;
    CHECK_PLACE_REFUSED(SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_BULGE, &bar, 0.0, 0.0);
    bar = good_bar();
    bar.curvature_radius_m = (double)NAN;
    CHECK_PLACE_REFUSED(SPOTWISE_E_NOT_FINITE, SPOTWISE_PARAM_CURVATURE_RADIUS, &bar, 0.0, 0.0);
}

/* Arrays: NULL, too long, of the wrong length; those that a shape does not read are not looked at. */
static void check_arrays_of_surfaces(void)
{
    static const double descending[3] = {0.0, 20e-3, 20e-3};
    spotwise_surface grid = good_grid();
    spotwise_surface bar = good_bar();
    spotwise_surface_place place;
    grid.z_m = NULL;
    CHECK_PLACE_REFUSED(SPOTWISE_E_NULL, 0, &grid, 0.0, 0.0);
    grid = good_grid();
    grid.y_m = NULL;
    CHECK_PLACE_REFUSED(SPOTWISE_E_NULL, 0, &grid, 0.0, 0.0);
    grid = good_grid();
    grid.x_count = SIZE_MAX;
    CHECK_PLACE_REFUSED(SPOTWISE_E_LENGTH_MISMATCH, SPOTWISE_PARAM_GRID_COLUMNS, &grid, 0.0, 0.0);
    grid = good_grid();
    grid.z_count = 5;
    CHECK_PLACE_REFUSED(SPOTWISE_E_LENGTH_MISMATCH, SPOTWISE_PARAM_PROBED_HEIGHTS, &grid, 0.0, 0.0);
    grid = good_grid();
    grid.y_count = 1;
    grid.z_count = 3;
    CHECK_PLACE_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_GRID_ROWS, &grid, 0.0, 0.0);
    grid = good_grid();
    grid.x_m = descending;
    CHECK_PLACE_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_GRID_SPACING, &grid, 0.0, 0.0);
    grid = good_grid();
    grid.surface = SPOTWISE_SURFACE_STEPS;
    CHECK_PLACE_REFUSED(SPOTWISE_E_LENGTH_MISMATCH, SPOTWISE_PARAM_STEP_HEIGHTS, &grid, 0.0, 0.0);
    grid.z_count = 2;
    grid.y_m = NULL; /* steps have no rows */
    spotwise_surface_place_init(&place);
    CHECK(spotwise_surface_at(&grid, 30e-3, 7.0, &place, NULL) == SPOTWISE_OK);
    CHECK(place.z_m == grid_z[1] && place.incidence_rad == 0.0 && place.stretch == 1.0);
    grid.x_count = 0;
    grid.x_m = NULL;
    CHECK_PLACE_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_STEP_EDGES, &grid, 0.0, 0.0);
    bar.x_count = SIZE_MAX;
    CHECK(spotwise_surface_at(&bar, 0.0, 0.0, &place, NULL) == SPOTWISE_OK && place.z_m == 0.0);
}

/* The worked examples of the header, and a grid by hand. */
static void check_examples_of_surfaces(void)
{
    const spotwise_surface bar = good_bar();
    const spotwise_surface grid = good_grid();
    const spotwise_region region = region_from(0.0, 50e-3, -9e-3, 9e-3);
    const spotwise_region all = region_from(0.0, 50e-3, 0.0, 10e-3);
    spotwise_surface_place place;
    spotwise_surface_extremes_result extremes;
    spotwise_surface_place_init(&place);
    spotwise_surface_extremes_result_init(&extremes);
    CHECK(spotwise_surface_at(&bar, 50e-3, 9e-3, &place, NULL) == SPOTWISE_OK);
    CHECK(near_to(place.z_m, 3e-3, 1e-14) && near_to(place.slope_y, 0.75, 1e-14));
    CHECK(near_to(place.irradiance_factor, 0.8, 1e-14) && near_to(place.stretch, 1.25, 1e-14));
    CHECK(spotwise_surface_extremes(&bar, &region, &extremes, NULL) == SPOTWISE_OK);
    CHECK(extremes.highest_z_m == 0.0 && extremes.highest_x_m == 0.0 && extremes.highest_y_m == 0.0);
    CHECK(near_to(extremes.range_m, 3e-3, 1e-14) && extremes.lowest_y_m == -9e-3);
    CHECK(extremes.missing_probes == 0 && extremes.unknown_share == 0.0);

    /* In the middle of the first cell: the mean of 0.1, 0.3, 0.5 and 0.7 mm. */
    CHECK(spotwise_surface_at(&grid, 10e-3, 5e-3, &place, NULL) == SPOTWISE_OK);
    CHECK(near_to(place.z_m, 0.4e-3, 1e-14) && near_to(place.slope_x, 0.01, 1e-13));
    CHECK(near_to(place.slope_y, 0.04, 1e-13));
    CHECK(spotwise_surface_extremes(&grid, &all, &extremes, NULL) == SPOTWISE_OK);
    CHECK(extremes.highest_z_m == 0.1e-3 && extremes.lowest_z_m == 0.7e-3 && extremes.lowest_x_m == 20e-3);
    CHECK(extremes.missing_probes == 1 && near_to(extremes.unknown_share, 0.6, 1e-14));
}

static void check_surfaces(void)
{
    check_init_of_surfaces();
    check_refusals_of_surfaces();
    check_arrays_of_surfaces();
    check_examples_of_surfaces();
}

#endif
