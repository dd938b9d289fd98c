/*
 * What the C face promises of the verdict on a job whose surface has a shape. Part of face.c, whose macros it
 * uses, behind face_shape.h.
 */
#ifndef SPOTWISE_TESTS_FACE_SURFACE_CHECK_H
#define SPOTWISE_TESTS_FACE_SURFACE_CHECK_H

static int is_blank_surface_verdict(const spotwise_surface_verdict *found)
{
    const spotwise_surface_verdict *blank = found;
    const size_t numbers = offsetof(spotwise_surface_verdict, worst_x_m);
    const unsigned char *bytes = (const unsigned char *)found;
    size_t i;
    if (found->struct_size != sizeof *found || found->bands != 0 || !is_blank_verdict(&blank->verdict) ||
        !is_blank(&blank->extremes, sizeof blank->extremes, 1)) {
        return 0;
    }
    for (i = numbers; i < sizeof *found; i += sizeof(double)) {
        if (!is_quiet_nan(bytes + i)) {
            return 0;
        }
    }
    return 1;
}

#define CHECK_SURFACE_CHECK_REFUSED(status, named, ...)                                                           \
    CHECK_REFUSED(spotwise_surface_verdict, is_blank_surface_verdict(&out), spotwise_surface_check, status, named, \
                  __VA_ARGS__)

static void check_refusals_of_surface_check(void)
{
    const spotwise_job *no_job = NULL;
    const spotwise_surface *no_surface = NULL;
    const spotwise_region *no_region = NULL;
    const spotwise_region region = region_from(0.0, 50e-3, -9e-3, 9e-3);
    const spotwise_surface bar = good_bar();
    const spotwise_surface grid = good_grid();
    spotwise_job job = face_good_job();
    spotwise_surface strange = bar;
    CHECK_SURFACE_CHECK_REFUSED(SPOTWISE_E_NULL, 0, no_job, &bar, &region, 8);
    CHECK_SURFACE_CHECK_REFUSED(SPOTWISE_E_NULL, 0, &job, no_surface, &region, 8);
    CHECK_SURFACE_CHECK_REFUSED(SPOTWISE_E_NULL, 0, &job, &bar, no_region, 8);
    strange.struct_size = 0;
    CHECK_SURFACE_CHECK_REFUSED(SPOTWISE_E_STRUCT_SIZE, 0, &job, &strange, &region, 8);
    strange = bar;
    strange.surface = 6;
    CHECK_SURFACE_CHECK_REFUSED(SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_SURFACE_SHAPE, &job, &strange, &region, 8);
    CHECK_SURFACE_CHECK_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_CELLS_PER_SIDE, &job, &bar, &region, 0);
    CHECK_SURFACE_CHECK_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_CELLS_PER_SIDE, &job, &grid, &region, 1001);
    /* The surface before the numbers of the job, its choices before both. */
    job.m2 = 0.5;
    CHECK_SURFACE_CHECK_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_CELLS_PER_SIDE, &job, &bar, &region, 0);
    CHECK_SURFACE_CHECK_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_M2, &job, &bar, &region, 8);
    job.dose = 3;
    CHECK_SURFACE_CHECK_REFUSED(SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_JOB_DOSE, &job, &strange, &region, 0);
}

static void check_surface_check(void)
{
    const spotwise_job job = face_good_job();
    const spotwise_surface bar = good_bar();
    const spotwise_region region = region_from(0.0, 50e-3, -9e-3, 9e-3);
    spotwise_surface plane;
    spotwise_surface_verdict found;
    spotwise_verdict plain;
    CHECK_INIT_AS(spotwise_surface_verdict, is_blank_surface_verdict(&data[0]));
    check_refusals_of_surface_check();

    /* By hand: 15 mm - 12 mm at the edges. A gap of 0.1 mm holds to w = 0.1/0.895780 mm, a growth of 2.533 over
       the waist of 88.143 um, at 0.4797 mm * sqrt(2.533^2 - 1) = 1.1164 mm off focus on either side. */
    spotwise_surface_verdict_init(&found);
    CHECK(spotwise_surface_check(&job, &bar, &region, 128, &found, NULL) == SPOTWISE_OK);
    CHECK(found.verdict.outcome == SPOTWISE_OUTCOME_LOST);
    CHECK((found.verdict.reasons & SPOTWISE_REASON_STEEP) != 0);
    CHECK((found.verdict.reasons & SPOTWISE_REASON_BANDS_HELP) != 0);
    CHECK(near_to(found.worst_z_m, 3e-3, 1e-12) && near_to(found.worst_y_m, -9e-3, 1e-12));
    CHECK(near_to(found.steepest_irradiance_factor, 0.8, 1e-12) && near_to(found.steepest_stretch, 1.25, 1e-12));
    /* 3 mm in ranges of 2.2328 mm less 0.6 mm for rise and fall. */
    CHECK(found.bands == 2);
    /* To a depth of 0.8164 mm, which is sqrt(0.8164*(30 - 0.8164)) = 4.881 mm from the crown, of 9 mm. */
    CHECK(near_to(found.share_that_holds, 4.881 / 9.0, 1e-3));

    /* A level plane is a job without a shape. */
    spotwise_surface_init(&plane);
    plane.surface = SPOTWISE_SURFACE_PLANE;
    plane.slope_x = plane.slope_y = 0.0;
    spotwise_verdict_init(&plain);
    CHECK(spotwise_focus_check(&job, &plain, NULL) == SPOTWISE_OK);
    CHECK(spotwise_surface_check(&job, &plane, &region, 1, &found, NULL) == SPOTWISE_OK);
    CHECK(found.verdict.outcome == plain.outcome && found.bands == 1 && found.share_that_holds == 1.0);
    CHECK(memcmp(&found.verdict, &plain, sizeof plain) == 0);
}

#endif
