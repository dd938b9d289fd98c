/*
 * What the C face promises of surfaces in focus: init functions, refusals, and the worked examples of the header.
 * Part of face.c, whose macros it uses, and those of face_shape.h.
 */
#ifndef SPOTWISE_TESTS_FACE_IN_FOCUS_H
#define SPOTWISE_TESTS_FACE_IN_FOCUS_H

/* Strips of 200 mm and 100 mm, the second 2 mm lower. */
static const double strip_edges[3] = {0.0, 0.2, 0.3};
static const double strip_heights[2] = {0.0, 2e-3};

static spotwise_surface good_strips(void)
{
    spotwise_surface strips;
    spotwise_surface_init(&strips);
    strips.surface = SPOTWISE_SURFACE_STEPS;
    strips.x_m = strip_edges;
    strips.x_count = 3;
    strips.z_m = strip_heights;
    strips.z_count = 2;
    return strips;
}

/* 10.6 um, M2 1.2, 88 um, as in the header. */
static spotwise_beam beam_of_88_um(void)
{
    spotwise_beam beam;
    spotwise_beam_init(&beam);
    beam.wavelength_m = 10.6e-6;
    beam.m2 = 1.2;
    beam.waist_diameter_m = 88e-6;
    return beam;
}

static int is_fresh_height(const spotwise_focus_height *height)
{
    return is_blank(height, sizeof *height, 1);
}

static int is_fresh_surface_focus(const spotwise_surface_focus *focus)
{
    return focus->struct_size == sizeof *focus && focus->validity == 0 && is_fresh_height(&focus->least_worst) &&
           is_fresh_height(&focus->least_mean_area) && is_fresh_height(&focus->most_in_focus) &&
           is_quiet_nan((const unsigned char *)&focus->unknown_share) &&
           is_quiet_nan((const unsigned char *)&focus->half_angle_rad);
}

static void check_init_in_focus(void)
{
    CHECK_INIT(spotwise_region_heights_result, 1);
    CHECK_INIT(spotwise_share_in_focus_result, 1);
    CHECK_INIT_AS(spotwise_surface_focus, is_fresh_surface_focus(&data[0]));
}

#define CHECK_HEIGHTS_REFUSED(status, named, ...) \
    CHECK_REFUSED(spotwise_region_heights_result, BLANK(1), spotwise_region_heights, status, named, __VA_ARGS__)
#define CHECK_SHARE_REFUSED(status, named, ...) \
    CHECK_REFUSED(spotwise_share_in_focus_result, BLANK(1), spotwise_share_in_focus, status, named, __VA_ARGS__)
#define CHECK_FOCUS_REFUSED(status, named, ...)                                                       \
    CHECK_REFUSED(spotwise_surface_focus, is_fresh_surface_focus(&out), spotwise_focus_for_surface, \
                  status, named, __VA_ARGS__)

static void check_refusals_in_focus(void)
{
    const spotwise_surface *no_surface = NULL;
    const spotwise_region *no_region = NULL;
    const spotwise_beam *no_beam = NULL;
    const spotwise_depth_criterion *no_criterion = NULL;
    const spotwise_region region = region_from(0.0, 0.3, 0.0, 0.2);
    const spotwise_surface strips = good_strips();
    const spotwise_beam beam = beam_of_88_um();
    spotwise_beam odd_beam = beam;
    spotwise_surface fresh;
    spotwise_depth_criterion criterion;
    spotwise_depth_criterion unknown;
    spotwise_surface_init(&fresh);
    spotwise_depth_criterion_init(&criterion);
    spotwise_depth_criterion_init(&unknown);
    criterion.criterion = SPOTWISE_CRITERION_RAYLEIGH;
    odd_beam.m2 = 0.5;
    CHECK_HEIGHTS_REFUSED(SPOTWISE_E_NULL, 0, no_surface, &region, 1);
    CHECK_HEIGHTS_REFUSED(SPOTWISE_E_NULL, 0, &fresh, no_region, 1);
    CHECK_HEIGHTS_REFUSED(SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_SURFACE_SHAPE, &fresh, &region, 0);
    CHECK_HEIGHTS_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_CELLS_PER_SIDE, &strips, &region, 0);
    CHECK_HEIGHTS_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_CELLS_PER_SIDE, &strips, &region, 1001);
    CHECK_SHARE_REFUSED(SPOTWISE_E_NULL, 0, no_surface, &region, 1, 0.0, 1e-3);
    CHECK_SHARE_REFUSED(SPOTWISE_E_NULL, 0, &strips, no_region, 1, 0.0, 1e-3);
    CHECK_SHARE_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_CELLS_PER_SIDE, &strips, &region, 0, 1.0, 0.0);
    CHECK_SHARE_REFUSED(SPOTWISE_E_NOT_FINITE, SPOTWISE_PARAM_TOWARD_LENS_Z, &strips, &region, 1, (double)NAN,
                        (double)NAN);
    CHECK_SHARE_REFUSED(SPOTWISE_E_NOT_FINITE, SPOTWISE_PARAM_AWAY_FROM_LENS_Z, &strips, &region, 1, 0.0,
                        (double)INFINITY);
    CHECK_SHARE_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_AWAY_FROM_LENS_Z, &strips, &region, 1, 1e-3, 0.0);
    CHECK_FOCUS_REFUSED(SPOTWISE_E_NULL, 0, no_beam, &criterion, &strips, &region, 1);
    CHECK_FOCUS_REFUSED(SPOTWISE_E_NULL, 0, &beam, no_criterion, &strips, &region, 1);
    CHECK_FOCUS_REFUSED(SPOTWISE_E_NULL, 0, &beam, &unknown, no_surface, &region, 1);
    CHECK_FOCUS_REFUSED(SPOTWISE_E_NULL, 0, &beam, &unknown, &fresh, no_region, 1);
    CHECK_FOCUS_REFUSED(SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_DEPTH_CRITERION, &beam, &unknown, &fresh,
                        &region, 1);
    CHECK_FOCUS_REFUSED(SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_SURFACE_SHAPE, &odd_beam, &criterion, &fresh,
                        &region, 1);
    CHECK_FOCUS_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_M2, &odd_beam, &criterion, &strips, &region, 0);
    CHECK_FOCUS_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_CELLS_PER_SIDE, &beam, &criterion, &strips,
                        &region, 0);
}

/* The worked examples of the header. */
static void check_examples_in_focus(void)
{
    static const double corner_places[2] = {0.0, 50e-3};
    static const double corner_heights[4] = {0.0, 0.0, 0.0, 1e-3};
    const spotwise_region plate_region = region_from(0.0, 60e-3, 0.0, 40e-3);
    const spotwise_region corner_region = region_from(0.0, 50e-3, 0.0, 50e-3);
    const spotwise_region strip_region = region_from(0.0, 0.3, 0.0, 0.2);
    const spotwise_surface strips = good_strips();
    const spotwise_beam beam = beam_of_88_um();
    spotwise_surface plate;
    spotwise_surface corner;
    spotwise_depth_criterion criterion;
    spotwise_region_heights_result heights;
    spotwise_share_in_focus_result share;
    spotwise_surface_focus focus;
    spotwise_surface_init(&plate);
    plate.surface = SPOTWISE_SURFACE_PLANE;
    plate.slope_x = 0.01;
    plate.slope_y = 0.0;
    spotwise_surface_init(&corner);
    corner.surface = SPOTWISE_SURFACE_GRID;
    corner.x_m = corner_places;
    corner.x_count = 2;
    corner.y_m = corner_places;
    corner.y_count = 2;
    corner.z_m = corner_heights;
    corner.z_count = 4;
    spotwise_depth_criterion_init(&criterion);
    criterion.criterion = SPOTWISE_CRITERION_RAYLEIGH;
    spotwise_region_heights_result_init(&heights);
    spotwise_share_in_focus_result_init(&share);
    spotwise_surface_focus_init(&focus);
    CHECK(spotwise_region_heights(&plate, &plate_region, 1, &heights, NULL) == SPOTWISE_OK);
    CHECK(near_to(heights.mean_z_m, 0.3e-3, 1e-14) && near_to(heights.z_deviation_m, 173.205080756888e-6, 1e-14));
    CHECK(heights.highest_z_m == 0.0 && near_to(heights.lowest_z_m, 0.6e-3, 1e-14) && heights.unknown_share == 0.0);
    CHECK(spotwise_share_in_focus(&corner, &corner_region, 1, 0.0, 0.2e-3, &share, NULL) == SPOTWISE_OK);
    CHECK(near_to(share.in_focus, 0.521887582486820, 1e-14) && share.toward_lens == 0.0);
    CHECK(near_to(share.away_from_lens, 0.478112417513180, 1e-14) && share.unknown_share == 0.0);
    CHECK(spotwise_focus_for_surface(&beam, &criterion, &strips, &strip_region, 1, &focus, NULL) == SPOTWISE_OK);
    CHECK(focus.least_worst.focus_z_m == 1e-3 && focus.least_worst.share_in_focus == 0.0);
    CHECK(near_to(focus.least_mean_area.focus_z_m, 2e-3 / 3.0, 1e-14));
    CHECK(fabs(focus.most_in_focus.focus_z_m) < 1e-12);
    CHECK(near_to(focus.most_in_focus.share_in_focus, 2.0 / 3.0, 1e-14) && focus.validity == 0);
}

static void check_surfaces_in_focus(void)
{
    check_init_in_focus();
    check_refusals_in_focus();
    check_examples_in_focus();
}

#endif
