/*
 * Will the finest stroke and gap of a drawing hold on a warped sheet? A 10.6 um laser, 7 mm wide
 * at a 38.1 mm lens; the sheet comes 0.3 mm up and 0.3 mm down from where focus is set.
 */
#include "spotwise.h"

#include <stdio.h>

static void print_place(const char *name, const spotwise_place *place)
{
    printf("%-8s %+6.2f mm from the waist: spot %6.1f um, stroke %5.1f um, gap %5.1f um, %s\n", name,
           place->z_offset_m * 1e3, place->diameter_m * 1e6, place->smallest_stroke_m * 1e6,
           place->smallest_gap_m * 1e6, place->details_hold ? "holds" : "lost");
}

int main(void)
{
    spotwise_job job;
    spotwise_verdict verdict;
    spotwise_error error;
    uint32_t reason;

    spotwise_job_init(&job);
    job.wavelength_m = 10.6e-6;
    job.m2 = 1.2;
    job.raw_beam = SPOTWISE_RAW_BEAM_COLLIMATED;
    job.diameter_at_lens_m = 7e-3;
    job.focal_length_m = 38.1e-3;
    job.focus_setting = SPOTWISE_FOCUS_FROM_DATUM;
    job.focus_z_m = 0.0;
    job.surface_rise_m = 0.3e-3;
    job.surface_fall_m = 0.3e-3;
    job.criterion = SPOTWISE_CRITERION_RAYLEIGH;
    job.finest_stroke_m = 0.1e-3;
    job.finest_gap_m = 0.1e-3;
    job.dose_ratio = 2.7;

    spotwise_verdict_init(&verdict);
    spotwise_error_init(&error);
    if (spotwise_focus_check(&job, &verdict, &error) != SPOTWISE_OK) {
        fprintf(stderr, "%s = %g %s: %s (from %g to %g)\n", spotwise_parameter_name(error.parameter),
                error.value, spotwise_parameter_unit(error.parameter), spotwise_status_text(error.code),
                error.least, error.greatest);
        return 1;
    }

    printf("%s\n", spotwise_outcome_text(verdict.outcome));
    for (reason = 1; reason <= verdict.reasons; reason *= 2) {
        if (verdict.reasons & reason) {
            printf("  %s\n", spotwise_reason_text(reason));
        }
    }
    printf("Spot in focus %.3f um, depth of focus from %+.3f to %+.3f mm.\n", verdict.waist_diameter_m * 1e6,
           verdict.depth_toward_lens_z_m * 1e3, verdict.depth_away_from_lens_z_m * 1e3);
    print_place("highest", &verdict.highest);
    print_place("datum", &verdict.datum);
    print_place("lowest", &verdict.lowest);
    printf("\n%s\n", spotwise_caution_text());
    return verdict.outcome == SPOTWISE_OUTCOME_LOST ? 2 : 0;
}
