/*
 * Will the finest stroke and gap of a drawing hold on a warped sheet, and will its 4 point text stay
 * readable? A 10.6 um laser, 7 mm wide at a 38.1 mm lens; the sheet comes 0.3 mm up and 0.3 mm down
 * from where focus is set; 20 W at 0.5 m/s, lines 40 um apart, on a coating that test marks have shown
 * to go from 0.37 J/mm^2 on. Asked first of an ideal lens, and then of a real one: plano-convex, of
 * zinc selenide, 18 mm clear, put in with its curved and with its flat side toward the laser.
 */
#include "spotwise.h"

#include <stdio.h>

static void print_place(const char *name, const spotwise_place *place)
{
    printf("%-8s %+6.2f mm from the waist: spot %6.1f um, stroke %5.1f um, gap %5.1f um, %s\n", name,
           place->z_offset_m * 1e3, place->diameter_m * 1e6, place->smallest_stroke_m * 1e6,
           place->smallest_gap_m * 1e6, place->details_hold ? "holds" : "lost");
    printf("         ripple %.1f %%, 4 point text %s, good from %.1f point, readable from %.1f point\n",
           place->ripple_contrast * 1e2, spotwise_text_grade_name(place->text_grade),
           place->good_em_m / SPOTWISE_POINT_M, place->readable_em_m / SPOTWISE_POINT_M);
}

/* Asks and prints; the outcome, or 0 if the job is refused. */
static uint32_t ask(const spotwise_job *job)
{
    spotwise_verdict verdict;
    spotwise_error error;
    uint32_t bit;

    spotwise_verdict_init(&verdict);
    spotwise_error_init(&error);
    if (spotwise_focus_check(job, &verdict, &error) != SPOTWISE_OK) {
        fprintf(stderr, "%s = %g %s: %s (from %g to %g)\n", spotwise_parameter_name(error.parameter),
                error.value, spotwise_parameter_unit(error.parameter), spotwise_status_text(error.code),
                error.least, error.greatest);
        return 0;
    }

    printf("%s\n", spotwise_outcome_text(verdict.outcome));
    for (bit = 1; bit <= verdict.reasons; bit *= 2) {
        if (verdict.reasons & bit) {
            printf("  %s\n", spotwise_reason_text(bit));
        }
    }
    for (bit = 1; bit <= verdict.validity; bit *= 2) {
        if (verdict.validity & bit) {
            printf("  %s\n", spotwise_validity_text(bit));
        }
    }
    if (verdict.has_real) {
        printf("An ideal lens would have promised: %s\n", spotwise_outcome_text(verdict.promised));
        printf("Spot in focus %.3f um instead of %.3f um, %.3f mm nearer the lens.\n",
               verdict.real.power86.waist_diameter_m * 1e6, verdict.waist_diameter_m * 1e6,
               -verdict.real.power86.shift_m * 1e3);
    } else {
        printf("Spot in focus %.3f um.\n", verdict.waist_diameter_m * 1e6);
    }
    printf("Fill dose %.2f J/mm^2, %.2f times the threshold.\n", verdict.fill_dose_j_per_m2 * 1e-6,
           verdict.dose_ratio);
    printf("Depth of focus from %+.3f to %+.3f mm.\n", verdict.depth_toward_lens_z_m * 1e3,
           verdict.depth_away_from_lens_z_m * 1e3);
    print_place("highest", &verdict.highest);
    print_place("datum", &verdict.datum);
    print_place("lowest", &verdict.lowest);
    return verdict.outcome;
}

int main(void)
{
    spotwise_job job;
    uint32_t outcome;

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
    job.dose = SPOTWISE_DOSE_BY_SCAN;
    job.power_w = 20.0;
    job.speed_m_per_s = 0.5;
    job.line_interval_m = 40e-6;
    job.threshold_j_per_m2 = 0.37e6;
    job.text = SPOTWISE_TEXT_GIVEN;
    job.typeface = SPOTWISE_TYPEFACE_SANS;
    job.em_m = 4.0 * SPOTWISE_POINT_M;
    job.least_grade = SPOTWISE_GRADE_READABLE;
    puts("An ideal lens.");
    outcome = ask(&job);

    job.lens = SPOTWISE_LENS_SINGLET;
    job.glass = SPOTWISE_GLASS_ZINC_SELENIDE;
    job.clear_aperture_m = 18e-3;
    if (outcome != 0) {
        puts("\nA real one, its curved side toward the laser.");
        job.lens_shape = SPOTWISE_SHAPE_CURVED_SIDE_FIRST;
        outcome = ask(&job);
    }
    if (outcome != 0) {
        puts("\nThe same one, put in the wrong way round.");
        job.lens_shape = SPOTWISE_SHAPE_FLAT_SIDE_FIRST;
        outcome = ask(&job);
    }
    printf("\n%s\n", spotwise_caution_text());
    return outcome == 0 ? 1 : 0;
}
