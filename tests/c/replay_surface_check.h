/*
 * The part of the replay about a job on a surface with a shape. Part of replay.c, whose helpers it uses, behind
 * replay_shape.h.
 */
#ifndef SPOTWISE_TESTS_REPLAY_SURFACE_CHECK_H
#define SPOTWISE_TESTS_REPLAY_SURFACE_CHECK_H

/* So many numbers make a job, and a verdict with the extremes behind it. */
#define JOB_NUMBERS 48
#define VERDICT_NUMBERS 103
#define EXTREMES_NUMBERS 12

static uint32_t call_surface_check(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    uint32_t status = SPOTWISE_E_NULL;
    const spotwise_job job = job_of(in);
    const spotwise_surface surface = surface_of(&in[JOB_NUMBERS]);
    const spotwise_region region = region_of(&in[JOB_NUMBERS + SURFACE_NUMBERS]);
    const uint32_t cells_per_side = choice(in[JOB_NUMBERS + SURFACE_NUMBERS + 4]);
    spotwise_surface_verdict found;
    double *beside = &out[VERDICT_NUMBERS + EXTREMES_NUMBERS];
    spotwise_surface_verdict_init(&found);
    CALL(spotwise_surface_check(&job, &surface, &region, cells_per_side, &found, error));
    put_verdict(&found.verdict, out);
    put_extremes(&found.extremes, &out[VERDICT_NUMBERS]);
    beside[0] = found.worst_x_m;
    beside[1] = found.worst_y_m;
    beside[2] = found.worst_z_m;
    beside[3] = found.share_in_depth;
    beside[4] = found.share_that_holds;
    beside[5] = found.bands;
    beside[6] = found.steepest_stretch;
    beside[7] = found.steepest_irradiance_factor;
    return status;
}

#endif
