/*
 * The layout of the structs on drawings. Part of layout.h, whose macros it uses.
 */
#ifndef SPOTWISE_TESTS_LAYOUT_ARTWORK_H
#define SPOTWISE_TESTS_LAYOUT_ARTWORK_H

/* Pointers and lengths have 4 or 8 bytes, by the target. */
LAYOUT_SIZE(spotwise_beam_candidate, 48);
LAYOUT_MEMBER(spotwise_beam_candidate, struct_size, 0);
LAYOUT_MEMBER(spotwise_beam_candidate, reserved, 4);
LAYOUT_MEMBER(spotwise_beam_candidate, focus_z_m, 8);
LAYOUT_MEMBER(spotwise_beam_candidate, beam, 16);

LAYOUT_SIZE(spotwise_dose_window_result, 48);
LAYOUT_MEMBER(spotwise_dose_window_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_dose_window_result, reserved, 4);
LAYOUT_MEMBER(spotwise_dose_window_result, least_dose_ratio, 8);
LAYOUT_MEMBER(spotwise_dose_window_result, greatest_dose_ratio, 16);
LAYOUT_MEMBER(spotwise_dose_window_result, greatest_dose_ratio_for_counters, 24);
LAYOUT_MEMBER(spotwise_dose_window_result, ratio, 32);
LAYOUT_MEMBER(spotwise_dose_window_result, ratio_for_counters, 40);

LAYOUT_SIZE(spotwise_ranked_beam, 64);
LAYOUT_MEMBER(spotwise_ranked_beam, struct_size, 0);
LAYOUT_MEMBER(spotwise_ranked_beam, candidate, 4);
LAYOUT_MEMBER(spotwise_ranked_beam, greatest_diameter_m, 8);
LAYOUT_MEMBER(spotwise_ranked_beam, window, 16);

LAYOUT_SIZE(spotwise_drawing, 48 + 5 * sizeof(void *));
LAYOUT_MEMBER(spotwise_drawing, struct_size, 0);
LAYOUT_MEMBER(spotwise_drawing, sample_kind, 4);
LAYOUT_MEMBER(spotwise_drawing, drawing_use, 8);
LAYOUT_MEMBER(spotwise_drawing, reserved, 12);
LAYOUT_MEMBER(spotwise_drawing, pitch_x_m, 16);
LAYOUT_MEMBER(spotwise_drawing, pitch_y_m, 24);
LAYOUT_MEMBER(spotwise_drawing, drawing_x_m, 32);
LAYOUT_MEMBER(spotwise_drawing, drawing_y_m, 40);
LAYOUT_MEMBER(spotwise_drawing, samples, 48);
LAYOUT_MEMBER(spotwise_drawing, sample_count, 48 + sizeof(void *));
LAYOUT_MEMBER(spotwise_drawing, width, 48 + 2 * sizeof(void *));
LAYOUT_MEMBER(spotwise_drawing, height, 48 + 3 * sizeof(void *));
LAYOUT_MEMBER(spotwise_drawing, row_stride, 48 + 4 * sizeof(void *));

LAYOUT_SIZE(spotwise_exposing, 88 + sizeof(void *));
LAYOUT_MEMBER(spotwise_exposing, struct_size, 0);
LAYOUT_MEMBER(spotwise_exposing, scan, 4);
LAYOUT_MEMBER(spotwise_exposing, incidence_loss, 8);
LAYOUT_MEMBER(spotwise_exposing, reserved, 12);
LAYOUT_MEMBER(spotwise_exposing, focus_z_m, 16);
LAYOUT_MEMBER(spotwise_exposing, blur_along_m, 24);
LAYOUT_MEMBER(spotwise_exposing, blur_across_m, 32);
LAYOUT_MEMBER(spotwise_exposing, line_interval_m, 40);
LAYOUT_MEMBER(spotwise_exposing, first_line_m, 48);
LAYOUT_MEMBER(spotwise_exposing, beam, 56);
LAYOUT_MEMBER(spotwise_exposing, surface, 88);

LAYOUT_SIZE(spotwise_marking, 64);
LAYOUT_MEMBER(spotwise_marking, struct_size, 0);
LAYOUT_MEMBER(spotwise_marking, response, 4);
LAYOUT_MEMBER(spotwise_marking, penetration_depth_m, 8);
LAYOUT_MEMBER(spotwise_marking, threshold_depth_m, 16);
LAYOUT_MEMBER(spotwise_marking, visible_depth_m, 24);
LAYOUT_MEMBER(spotwise_marking, melt_bridge_m, 32);
LAYOUT_MEMBER(spotwise_marking, dose_ratio, 40);
LAYOUT_MEMBER(spotwise_marking, edge_tolerance_m, 48);
LAYOUT_MEMBER(spotwise_marking, speck_area_m2, 56);

LAYOUT_SIZE(spotwise_bound_input, 64 + 6 * sizeof(void *));
LAYOUT_MEMBER(spotwise_bound_input, struct_size, 0);
LAYOUT_MEMBER(spotwise_bound_input, reserved, 4);
LAYOUT_MEMBER(spotwise_bound_input, pitch_x_m, 8);
LAYOUT_MEMBER(spotwise_bound_input, pitch_y_m, 16);
LAYOUT_MEMBER(spotwise_bound_input, greatest_spot_diameter_m, 24);
LAYOUT_MEMBER(spotwise_bound_input, least_dose_ratio, 32);
LAYOUT_MEMBER(spotwise_bound_input, greatest_dose_ratio, 40);
LAYOUT_MEMBER(spotwise_bound_input, line_interval_m, 48);
LAYOUT_MEMBER(spotwise_bound_input, least_spot_diameter_m, 56);
LAYOUT_MEMBER(spotwise_bound_input, ink, 64);
LAYOUT_MEMBER(spotwise_bound_input, solid, 64 + sizeof(void *));
LAYOUT_MEMBER(spotwise_bound_input, touched, 64 + 2 * sizeof(void *));
LAYOUT_MEMBER(spotwise_bound_input, mask_words, 64 + 3 * sizeof(void *));
LAYOUT_MEMBER(spotwise_bound_input, width, 64 + 4 * sizeof(void *));
LAYOUT_MEMBER(spotwise_bound_input, height, 64 + 5 * sizeof(void *));

LAYOUT_SIZE(spotwise_quick_bound_result, 104);
LAYOUT_MEMBER(spotwise_quick_bound_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_quick_bound_result, holds, 4);
LAYOUT_MEMBER(spotwise_quick_bound_result, marked, 8);
LAYOUT_MEMBER(spotwise_quick_bound_result, clear, 16);
LAYOUT_MEMBER(spotwise_quick_bound_result, undecided, 24);
LAYOUT_MEMBER(spotwise_quick_bound_result, stroke_pixels, 32);
LAYOUT_MEMBER(spotwise_quick_bound_result, doubtful_strokes, 40);
LAYOUT_MEMBER(spotwise_quick_bound_result, gap_pixels, 48);
LAYOUT_MEMBER(spotwise_quick_bound_result, doubtful_gaps, 56);
LAYOUT_MEMBER(spotwise_quick_bound_result, far_ink, 64);
LAYOUT_MEMBER(spotwise_quick_bound_result, components, 72);
LAYOUT_MEMBER(spotwise_quick_bound_result, components_maybe_lost, 76);
LAYOUT_MEMBER(spotwise_quick_bound_result, components_maybe_split, 80);
LAYOUT_MEMBER(spotwise_quick_bound_result, components_maybe_merged, 84);
LAYOUT_MEMBER(spotwise_quick_bound_result, components_maybe_starved, 88);
LAYOUT_MEMBER(spotwise_quick_bound_result, holes, 92);
LAYOUT_MEMBER(spotwise_quick_bound_result, holes_maybe_closed, 96);
LAYOUT_MEMBER(spotwise_quick_bound_result, holes_maybe_opened, 100);

LAYOUT_SIZE(spotwise_quick_answer_result, 112);
LAYOUT_MEMBER(spotwise_quick_answer_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_quick_answer_result, verdict, 4);
LAYOUT_MEMBER(spotwise_quick_answer_result, unknown_ink_pixels, 8);
LAYOUT_MEMBER(spotwise_quick_answer_result, far_ink, 16);
LAYOUT_MEMBER(spotwise_quick_answer_result, components, 24);
LAYOUT_MEMBER(spotwise_quick_answer_result, components_lost, 28);
LAYOUT_MEMBER(spotwise_quick_answer_result, components_maybe_lost, 32);
LAYOUT_MEMBER(spotwise_quick_answer_result, components_maybe_split, 36);
LAYOUT_MEMBER(spotwise_quick_answer_result, components_merged, 40);
LAYOUT_MEMBER(spotwise_quick_answer_result, components_maybe_merged, 44);
LAYOUT_MEMBER(spotwise_quick_answer_result, components_maybe_starved, 48);
LAYOUT_MEMBER(spotwise_quick_answer_result, holes, 52);
LAYOUT_MEMBER(spotwise_quick_answer_result, holes_closed, 56);
LAYOUT_MEMBER(spotwise_quick_answer_result, holes_maybe_closed, 60);
LAYOUT_MEMBER(spotwise_quick_answer_result, holes_opened, 64);
LAYOUT_MEMBER(spotwise_quick_answer_result, holes_maybe_opened, 68);
LAYOUT_MEMBER(spotwise_quick_answer_result, greatest_spot_diameter_m, 72);
LAYOUT_MEMBER(spotwise_quick_answer_result, least_spot_diameter_m, 80);
LAYOUT_MEMBER(spotwise_quick_answer_result, least_dose_ratio, 88);
LAYOUT_MEMBER(spotwise_quick_answer_result, greatest_dose_ratio, 96);
LAYOUT_MEMBER(spotwise_quick_answer_result, line_interval_m, 104);

LAYOUT_SIZE(spotwise_ink_spots, 80);
LAYOUT_MEMBER(spotwise_ink_spots, struct_size, 0);
LAYOUT_MEMBER(spotwise_ink_spots, reserved, 4);
LAYOUT_MEMBER(spotwise_ink_spots, ink_pixels, 8);
LAYOUT_MEMBER(spotwise_ink_spots, unknown_pixels, 16);
LAYOUT_MEMBER(spotwise_ink_spots, unknown_ink_pixels, 24);
LAYOUT_MEMBER(spotwise_ink_spots, least_diameter_m, 32);
LAYOUT_MEMBER(spotwise_ink_spots, least_x_m, 40);
LAYOUT_MEMBER(spotwise_ink_spots, least_y_m, 48);
LAYOUT_MEMBER(spotwise_ink_spots, greatest_diameter_m, 56);
LAYOUT_MEMBER(spotwise_ink_spots, greatest_x_m, 64);
LAYOUT_MEMBER(spotwise_ink_spots, greatest_y_m, 72);

LAYOUT_SIZE(spotwise_exposure_survey, 128);
LAYOUT_MEMBER(spotwise_exposure_survey, struct_size, 0);
LAYOUT_MEMBER(spotwise_exposure_survey, validity, 4);
LAYOUT_MEMBER(spotwise_exposure_survey, too_few_pixels, 8);
LAYOUT_MEMBER(spotwise_exposure_survey, reserved, 12);
LAYOUT_MEMBER(spotwise_exposure_survey, pixels_per_radius, 16);
LAYOUT_MEMBER(spotwise_exposure_survey, most_pixels_per_radius, 24);
LAYOUT_MEMBER(spotwise_exposure_survey, expected_error, 32);
LAYOUT_MEMBER(spotwise_exposure_survey, half_angle_rad, 40);
LAYOUT_MEMBER(spotwise_exposure_survey, spots, 48);

LAYOUT_SIZE(spotwise_mark_region, 40);
LAYOUT_MEMBER(spotwise_mark_region, struct_size, 0);
LAYOUT_MEMBER(spotwise_mark_region, pixels, 4);
LAYOUT_MEMBER(spotwise_mark_region, left, 8);
LAYOUT_MEMBER(spotwise_mark_region, top, 12);
LAYOUT_MEMBER(spotwise_mark_region, right, 16);
LAYOUT_MEMBER(spotwise_mark_region, bottom, 20);
LAYOUT_MEMBER(spotwise_mark_region, worst_x, 24);
LAYOUT_MEMBER(spotwise_mark_region, worst_y, 28);
LAYOUT_MEMBER(spotwise_mark_region, depth_m, 32);

LAYOUT_SIZE(spotwise_mark_change, 32);
LAYOUT_MEMBER(spotwise_mark_change, struct_size, 0);
LAYOUT_MEMBER(spotwise_mark_change, kind, 4);
LAYOUT_MEMBER(spotwise_mark_change, pixels, 8);
LAYOUT_MEMBER(spotwise_mark_change, left, 12);
LAYOUT_MEMBER(spotwise_mark_change, top, 16);
LAYOUT_MEMBER(spotwise_mark_change, right, 20);
LAYOUT_MEMBER(spotwise_mark_change, bottom, 24);
LAYOUT_MEMBER(spotwise_mark_change, reserved, 28);

LAYOUT_SIZE(spotwise_judgement, 16);
LAYOUT_MEMBER(spotwise_judgement, struct_size, 0);
LAYOUT_MEMBER(spotwise_judgement, grade, 4);
LAYOUT_MEMBER(spotwise_judgement, reasons, 8);
LAYOUT_MEMBER(spotwise_judgement, reserved, 12);

LAYOUT_SIZE(spotwise_mark_report, 360);
LAYOUT_MEMBER(spotwise_mark_report, struct_size, 0);
LAYOUT_MEMBER(spotwise_mark_report, validity, 4);
LAYOUT_MEMBER(spotwise_mark_report, holds, 8);
LAYOUT_MEMBER(spotwise_mark_report, broken, 12);
LAYOUT_MEMBER(spotwise_mark_report, too_few_pixels, 16);
LAYOUT_MEMBER(spotwise_mark_report, lost_regions, 20);
LAYOUT_MEMBER(spotwise_mark_report, filled_regions, 24);
LAYOUT_MEMBER(spotwise_mark_report, changes, 28);
LAYOUT_MEMBER(spotwise_mark_report, components_drawing, 32);
LAYOUT_MEMBER(spotwise_mark_report, components_mark, 36);
LAYOUT_MEMBER(spotwise_mark_report, components_lost, 40);
LAYOUT_MEMBER(spotwise_mark_report, components_split, 44);
LAYOUT_MEMBER(spotwise_mark_report, components_merged, 48);
LAYOUT_MEMBER(spotwise_mark_report, components_new, 52);
LAYOUT_MEMBER(spotwise_mark_report, components_starved, 56);
LAYOUT_MEMBER(spotwise_mark_report, holes_drawing, 60);
LAYOUT_MEMBER(spotwise_mark_report, holes_mark, 64);
LAYOUT_MEMBER(spotwise_mark_report, holes_closed, 68);
LAYOUT_MEMBER(spotwise_mark_report, holes_opened, 72);
LAYOUT_MEMBER(spotwise_mark_report, holes_split, 76);
LAYOUT_MEMBER(spotwise_mark_report, holes_merged, 80);
LAYOUT_MEMBER(spotwise_mark_report, holes_new, 84);
LAYOUT_MEMBER(spotwise_mark_report, components_ignored_drawing, 88);
LAYOUT_MEMBER(spotwise_mark_report, components_ignored_mark, 92);
LAYOUT_MEMBER(spotwise_mark_report, holes_ignored_drawing, 96);
LAYOUT_MEMBER(spotwise_mark_report, holes_ignored_mark, 100);
LAYOUT_MEMBER(spotwise_mark_report, ink_pixels, 104);
LAYOUT_MEMBER(spotwise_mark_report, mark_pixels, 112);
LAYOUT_MEMBER(spotwise_mark_report, missing_pixels, 120);
LAYOUT_MEMBER(spotwise_mark_report, extra_pixels, 128);
LAYOUT_MEMBER(spotwise_mark_report, lost_pixels, 136);
LAYOUT_MEMBER(spotwise_mark_report, filled_pixels, 144);
LAYOUT_MEMBER(spotwise_mark_report, stroke_centre_pixels, 152);
LAYOUT_MEMBER(spotwise_mark_report, stroke_centres_kept, 160);
LAYOUT_MEMBER(spotwise_mark_report, gap_centre_pixels, 168);
LAYOUT_MEMBER(spotwise_mark_report, gap_centres_kept, 176);
LAYOUT_MEMBER(spotwise_mark_report, stroke_length_lost, 184);
LAYOUT_MEMBER(spotwise_mark_report, gap_length_lost, 192);
LAYOUT_MEMBER(spotwise_mark_report, pixel_area_m2, 200);
LAYOUT_MEMBER(spotwise_mark_report, edge_tolerance_m, 208);
LAYOUT_MEMBER(spotwise_mark_report, smallest_stroke_kept_m, 216);
LAYOUT_MEMBER(spotwise_mark_report, largest_stroke_lost_m, 224);
LAYOUT_MEMBER(spotwise_mark_report, smallest_gap_kept_m, 232);
LAYOUT_MEMBER(spotwise_mark_report, largest_gap_lost_m, 240);
LAYOUT_MEMBER(spotwise_mark_report, typical_stroke_exposure, 248);
LAYOUT_MEMBER(spotwise_mark_report, pixels_per_radius, 256);
LAYOUT_MEMBER(spotwise_mark_report, expected_error, 264);
LAYOUT_MEMBER(spotwise_mark_report, half_angle_rad, 272);
LAYOUT_MEMBER(spotwise_mark_report, spots, 280);

LAYOUT_SIZE(spotwise_picture_layers, 8 + 8 * sizeof(void *));
LAYOUT_MEMBER(spotwise_picture_layers, struct_size, 0);
LAYOUT_MEMBER(spotwise_picture_layers, reserved, 4);
LAYOUT_MEMBER(spotwise_picture_layers, ink, 8);
LAYOUT_MEMBER(spotwise_picture_layers, mark, 8 + sizeof(void *));
LAYOUT_MEMBER(spotwise_picture_layers, lost, 8 + 2 * sizeof(void *));
LAYOUT_MEMBER(spotwise_picture_layers, filled, 8 + 3 * sizeof(void *));
LAYOUT_MEMBER(spotwise_picture_layers, unknown, 8 + 4 * sizeof(void *));
LAYOUT_MEMBER(spotwise_picture_layers, mask_words, 8 + 5 * sizeof(void *));
LAYOUT_MEMBER(spotwise_picture_layers, width, 8 + 6 * sizeof(void *));
LAYOUT_MEMBER(spotwise_picture_layers, height, 8 + 7 * sizeof(void *));

LAYOUT_SIZE(spotwise_picture_view, 8 + 5 * sizeof(void *));
LAYOUT_MEMBER(spotwise_picture_view, struct_size, 0);
LAYOUT_MEMBER(spotwise_picture_view, reserved, 4);
LAYOUT_MEMBER(spotwise_picture_view, left, 8);
LAYOUT_MEMBER(spotwise_picture_view, top, 8 + sizeof(void *));
LAYOUT_MEMBER(spotwise_picture_view, width, 8 + 2 * sizeof(void *));
LAYOUT_MEMBER(spotwise_picture_view, height, 8 + 3 * sizeof(void *));
LAYOUT_MEMBER(spotwise_picture_view, zoom, 8 + 4 * sizeof(void *));

LAYOUT_SIZE(spotwise_preflight_output, 8 + 12 * sizeof(void *));
LAYOUT_MEMBER(spotwise_preflight_output, struct_size, 0);
LAYOUT_MEMBER(spotwise_preflight_output, reserved, 4);
LAYOUT_MEMBER(spotwise_preflight_output, exposure, 8);
LAYOUT_MEMBER(spotwise_preflight_output, mark, 8 + sizeof(void *));
LAYOUT_MEMBER(spotwise_preflight_output, lost, 8 + 2 * sizeof(void *));
LAYOUT_MEMBER(spotwise_preflight_output, filled, 8 + 3 * sizeof(void *));
LAYOUT_MEMBER(spotwise_preflight_output, lost_region, 8 + 4 * sizeof(void *));
LAYOUT_MEMBER(spotwise_preflight_output, filled_region, 8 + 5 * sizeof(void *));
LAYOUT_MEMBER(spotwise_preflight_output, change, 8 + 6 * sizeof(void *));
LAYOUT_MEMBER(spotwise_preflight_output, pixels, 8 + 7 * sizeof(void *));
LAYOUT_MEMBER(spotwise_preflight_output, mask_words, 8 + 8 * sizeof(void *));
LAYOUT_MEMBER(spotwise_preflight_output, lost_region_count, 8 + 9 * sizeof(void *));
LAYOUT_MEMBER(spotwise_preflight_output, filled_region_count, 8 + 10 * sizeof(void *));
LAYOUT_MEMBER(spotwise_preflight_output, change_count, 8 + 11 * sizeof(void *));

LAYOUT_SIZE(spotwise_focus_reach_result, 32);
LAYOUT_MEMBER(spotwise_focus_reach_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_focus_reach_result, toward_lens_is_open, 4);
LAYOUT_MEMBER(spotwise_focus_reach_result, away_from_lens_is_open, 8);
LAYOUT_MEMBER(spotwise_focus_reach_result, reserved, 12);
LAYOUT_MEMBER(spotwise_focus_reach_result, toward_lens_m, 16);
LAYOUT_MEMBER(spotwise_focus_reach_result, away_from_lens_m, 24);

#endif
