/*
 * Will the scale of a rain gauge hold on its round body, and if not, what helps? Seven ticks, 60 um wide and 1 mm apart,
 * burnt around a bar of 15 mm radius with a spot of 85 um at 10.6 um, focused on the crown. All memory is this program's;
 * the library says how much it needs.
 */
#include "spotwise.h"

#include <stdio.h>
#include <stdlib.h>

#define TICKS 7
#define WIDTH 640
#define HEIGHT 200
#define MASK_WORDS ((size_t)HEIGHT * ((WIDTH + 63) / 64))
#define MOST 16

/* What a preflight reads and writes. */
typedef struct gauge {
    spotwise_surface body;
    spotwise_drawing drawing;
    spotwise_exposing exposing;
    spotwise_marking marking;
    spotwise_preflight_output output;
    spotwise_mark_change changes[MOST];
    spotwise_error error;
    uint8_t samples[(size_t)WIDTH * HEIGHT];
    uint16_t exposure[(size_t)WIDTH * HEIGHT];
    uint64_t masks[3][HEIGHT * ((WIDTH + 63) / 64)];
} gauge;

/* The ticks at 0, 1, ... 6 mm, in pixels of 10 um. */
static void draw_ticks(uint8_t *samples)
{
    size_t tick;
    size_t x;
    size_t y;
    for (tick = 0; tick < TICKS; tick++) {
        for (y = 25; y < 175; y++) {
            for (x = 17 + 100 * tick; x < 23 + 100 * tick; x++) {
                samples[y * WIDTH + x] = 255;
            }
        }
    }
}

static void set_up(gauge *plate)
{
    size_t i;
    spotwise_surface_init(&plate->body);
    plate->body.surface = SPOTWISE_SURFACE_CYLINDER;
    plate->body.bulge = SPOTWISE_BULGE_TOWARD_LENS;
    plate->body.curvature_radius_m = 15e-3;
    plate->body.crown_x_m = 0.0;
    plate->body.crown_y_m = 0.0;
    plate->body.axis_angle_rad = 1.5707963267948966;
    plate->body.slope_x = 0.0;
    plate->body.slope_y = 0.0;

    draw_ticks(plate->samples);
    spotwise_drawing_init(&plate->drawing);
    plate->drawing.sample_kind = SPOTWISE_SAMPLES_COVERAGE;
    plate->drawing.drawing_use = SPOTWISE_DRAWING_BURNT_RASTER;
    plate->drawing.pitch_x_m = 10e-6;
    plate->drawing.pitch_y_m = 10e-6;
    plate->drawing.drawing_x_m = -0.2e-3; /* the first tick lies on the crown */
    plate->drawing.drawing_y_m = 0.0;
    plate->drawing.samples = plate->samples;
    plate->drawing.sample_count = sizeof plate->samples;
    plate->drawing.width = WIDTH;
    plate->drawing.height = HEIGHT;
    plate->drawing.row_stride = WIDTH;

    spotwise_exposing_init(&plate->exposing);
    plate->exposing.beam.wavelength_m = 10.6e-6;
    plate->exposing.beam.m2 = 1.2;
    plate->exposing.beam.waist_diameter_m = 85e-6;
    plate->exposing.focus_z_m = 0.0;
    plate->exposing.scan = SPOTWISE_SCAN_UNKNOWN;
    plate->exposing.blur_along_m = 0.0;
    plate->exposing.blur_across_m = 0.0;
    plate->exposing.surface = &plate->body;

    spotwise_marking_init(&plate->marking);
    plate->marking.response = SPOTWISE_RESPONSE_COATING;
    plate->marking.dose_ratio = 2.0;
    plate->marking.edge_tolerance_m = 0.25 * plate->exposing.beam.waist_diameter_m;

    spotwise_preflight_output_init(&plate->output);
    plate->output.exposure = plate->exposure;
    plate->output.pixels = (size_t)WIDTH * HEIGHT;
    plate->output.mark = plate->masks[0];
    plate->output.lost = plate->masks[1];
    plate->output.filled = plate->masks[2];
    plate->output.mask_words = MASK_WORDS;
    plate->output.change = plate->changes;
    plate->output.change_count = MOST;
    for (i = 0; i < MOST; i++) {
        spotwise_mark_change_init(&plate->changes[i]);
    }
    spotwise_error_init(&plate->error);
}

/* Progress of long work; the work goes on. */
static uint32_t tell(void *user, double done)
{
    *(double *)user = done;
    return SPOTWISE_GO_ON;
}

/* Asks, judges and prints; 0 if all went well. */
static spotwise_status ask(gauge *plate)
{
    spotwise_mark_report found;
    spotwise_dose_window_result window;
    spotwise_text_grades grades;
    spotwise_judgement judgement;
    spotwise_status status;
    uint64_t *workspace;
    size_t words;
    double done = 0.0;
    uint32_t i;
    spotwise_mark_report_init(&found);
    spotwise_dose_window_result_init(&window);
    spotwise_text_grades_init(&grades);
    spotwise_judgement_init(&judgement);

    status = spotwise_preflight_workspace(&plate->drawing, &plate->exposing, &plate->marking, 1, tell, &done, &words,
                                          &plate->error);
    if (status != SPOTWISE_OK) {
        return status;
    }
    workspace = (uint64_t *)malloc(words * sizeof *workspace);
    if (workspace == NULL) {
        return SPOTWISE_E_NULL;
    }
    status = spotwise_preflight(&plate->drawing, &plate->exposing, &plate->marking, &plate->output, workspace, words,
                                tell, &done, &found, &plate->error);
    if (status == SPOTWISE_OK) {
        status = spotwise_dose_window(&plate->drawing, &plate->exposing, &plate->marking, plate->exposure,
                                      plate->output.pixels, workspace, words, tell, &done, &window, &plate->error);
    }
    free(workspace);
    if (status == SPOTWISE_OK) {
        status = spotwise_judge_mark(&found, &window, &grades, &judgement, &plate->error);
    }
    if (status != SPOTWISE_OK) {
        return status;
    }
    printf("Grade: %s. Ticks lost: %u of %u.\n", spotwise_mark_grade_name(judgement.grade),
           (unsigned)found.components_lost, (unsigned)found.components_drawing);
    for (i = 1; i <= judgement.reasons; i *= 2) {
        if (judgement.reasons & i) {
            printf("  %s\n", spotwise_mark_reason_text(i));
        }
    }
    for (i = 0; i < found.changes && i < MOST; i++) {
        const spotwise_mark_change *change = &plate->changes[i];
        if (change->kind == SPOTWISE_CHANGE_COMPONENT_LOST) {
            printf("  Lost at x = %.2f mm.\n", (plate->drawing.drawing_x_m + 0.5 * (change->left + change->right + 1.0) *
                                                                                plate->drawing.pitch_x_m) * 1e3);
        }
    }
    printf("Spot %.0f to %.0f um over the ticks; a dose ratio of %.2f and more keeps them all.\n",
           found.spots.least_diameter_m * 1e6, found.spots.greatest_diameter_m * 1e6, window.least_dose_ratio);
    return SPOTWISE_OK;
}

int main(void)
{
    static gauge plate;
    spotwise_status status;
    double done = 0.0;
    set_up(&plate);
    puts("Focus on the crown.");
    status = ask(&plate);
    if (status == SPOTWISE_OK) {
        status = spotwise_best_focus_z(&plate.drawing, &plate.exposing, tell, &done, &plate.exposing.focus_z_m,
                                       &plate.error);
    }
    if (status == SPOTWISE_OK) {
        printf("\nFocus %.2f mm below it.\n", plate.exposing.focus_z_m * 1e3);
        status = ask(&plate);
    }
    if (status != SPOTWISE_OK) {
        fprintf(stderr, "%s = %g %s: %s (from %g to %g)\n", spotwise_parameter_name(plate.error.parameter),
                plate.error.value, spotwise_parameter_unit(plate.error.parameter),
                spotwise_status_text(plate.error.code), plate.error.least, plate.error.greatest);
        return 1;
    }
    printf("\n%s\n", spotwise_caution_text());
    return 0;
}
