/*
 * The layout of every struct of ABI 1, checked while this compiles. Plain numbers on purpose: a
 * change of the header must not change what it is checked against.
 */
#ifndef SPOTWISE_TESTS_LAYOUT_H
#define SPOTWISE_TESTS_LAYOUT_H

#include "spotwise.h"

#if defined(__cplusplus)
#define LAYOUT_CHECK(condition, name) static_assert(condition, #name)
#elif defined(__STDC_VERSION__) && __STDC_VERSION__ >= 201112L
#define LAYOUT_CHECK(condition, name) _Static_assert(condition, #name)
#else
#define LAYOUT_CHECK(condition, name) typedef char name[(condition) ? 1 : -1]
#endif

#define LAYOUT_SIZE(type, size) LAYOUT_CHECK(sizeof(type) == (size), type##_size)
#define LAYOUT_MEMBER(type, member, offset) \
    LAYOUT_CHECK(offsetof(type, member) == (offset), type##_##member)

LAYOUT_SIZE(spotwise_error, 40);
LAYOUT_MEMBER(spotwise_error, struct_size, 0);
LAYOUT_MEMBER(spotwise_error, code, 4);
LAYOUT_MEMBER(spotwise_error, parameter, 8);
LAYOUT_MEMBER(spotwise_error, reserved, 12);
LAYOUT_MEMBER(spotwise_error, value, 16);
LAYOUT_MEMBER(spotwise_error, least, 24);
LAYOUT_MEMBER(spotwise_error, greatest, 32);

LAYOUT_SIZE(spotwise_beam, 32);
LAYOUT_MEMBER(spotwise_beam, struct_size, 0);
LAYOUT_MEMBER(spotwise_beam, reserved, 4);
LAYOUT_MEMBER(spotwise_beam, wavelength_m, 8);
LAYOUT_MEMBER(spotwise_beam, m2, 16);
LAYOUT_MEMBER(spotwise_beam, waist_diameter_m, 24);

LAYOUT_SIZE(spotwise_beam_parameters_result, 40);
LAYOUT_MEMBER(spotwise_beam_parameters_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_beam_parameters_result, validity, 4);
LAYOUT_MEMBER(spotwise_beam_parameters_result, rayleigh_range_m, 8);
LAYOUT_MEMBER(spotwise_beam_parameters_result, divergence_half_angle_rad, 16);
LAYOUT_MEMBER(spotwise_beam_parameters_result, divergence_full_angle_rad, 24);
LAYOUT_MEMBER(spotwise_beam_parameters_result, beam_parameter_product_m_rad, 32);

LAYOUT_SIZE(spotwise_beam_section, 32);
LAYOUT_MEMBER(spotwise_beam_section, struct_size, 0);
LAYOUT_MEMBER(spotwise_beam_section, validity, 4);
LAYOUT_MEMBER(spotwise_beam_section, diameter_m, 8);
LAYOUT_MEMBER(spotwise_beam_section, wavefront_curvature_per_m, 16);
LAYOUT_MEMBER(spotwise_beam_section, wavefront_radius_m, 24);

LAYOUT_SIZE(spotwise_astigmatic_beam, 64);
LAYOUT_MEMBER(spotwise_astigmatic_beam, struct_size, 0);
LAYOUT_MEMBER(spotwise_astigmatic_beam, reserved, 4);
LAYOUT_MEMBER(spotwise_astigmatic_beam, wavelength_m, 8);
LAYOUT_MEMBER(spotwise_astigmatic_beam, m2_x, 16);
LAYOUT_MEMBER(spotwise_astigmatic_beam, waist_diameter_x_m, 24);
LAYOUT_MEMBER(spotwise_astigmatic_beam, waist_z_x_m, 32);
LAYOUT_MEMBER(spotwise_astigmatic_beam, m2_y, 40);
LAYOUT_MEMBER(spotwise_astigmatic_beam, waist_diameter_y_m, 48);
LAYOUT_MEMBER(spotwise_astigmatic_beam, waist_z_y_m, 56);

LAYOUT_SIZE(spotwise_astigmatic_parameters_result, 88);
LAYOUT_MEMBER(spotwise_astigmatic_parameters_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_astigmatic_parameters_result, validity, 4);
LAYOUT_MEMBER(spotwise_astigmatic_parameters_result, rayleigh_range_x_m, 8);
LAYOUT_MEMBER(spotwise_astigmatic_parameters_result, rayleigh_range_y_m, 16);
LAYOUT_MEMBER(spotwise_astigmatic_parameters_result, waist_separation_m, 24);
LAYOUT_MEMBER(spotwise_astigmatic_parameters_result, relative_astigmatism, 32);
LAYOUT_MEMBER(spotwise_astigmatic_parameters_result, m2_effective, 40);
LAYOUT_MEMBER(spotwise_astigmatic_parameters_result, effective_waist_z_m, 48);
LAYOUT_MEMBER(spotwise_astigmatic_parameters_result, effective_waist_diameter_m, 56);
LAYOUT_MEMBER(spotwise_astigmatic_parameters_result, effective_rayleigh_range_m, 64);
LAYOUT_MEMBER(spotwise_astigmatic_parameters_result, brightest_z_m, 72);
LAYOUT_MEMBER(spotwise_astigmatic_parameters_result, brightest_irradiance_ratio, 80);

LAYOUT_SIZE(spotwise_astigmatic_section, 56);
LAYOUT_MEMBER(spotwise_astigmatic_section, struct_size, 0);
LAYOUT_MEMBER(spotwise_astigmatic_section, validity, 4);
LAYOUT_MEMBER(spotwise_astigmatic_section, circular, 8);
LAYOUT_MEMBER(spotwise_astigmatic_section, reserved, 12);
LAYOUT_MEMBER(spotwise_astigmatic_section, diameter_x_m, 16);
LAYOUT_MEMBER(spotwise_astigmatic_section, diameter_y_m, 24);
LAYOUT_MEMBER(spotwise_astigmatic_section, ellipticity, 32);
LAYOUT_MEMBER(spotwise_astigmatic_section, effective_diameter_m, 40);
LAYOUT_MEMBER(spotwise_astigmatic_section, equal_area_diameter_m, 48);

LAYOUT_SIZE(spotwise_focused_beam, 64);
LAYOUT_MEMBER(spotwise_focused_beam, struct_size, 0);
LAYOUT_MEMBER(spotwise_focused_beam, validity, 4);
LAYOUT_MEMBER(spotwise_focused_beam, waist_diameter_m, 8);
LAYOUT_MEMBER(spotwise_focused_beam, rayleigh_range_m, 16);
LAYOUT_MEMBER(spotwise_focused_beam, divergence_full_angle_rad, 24);
LAYOUT_MEMBER(spotwise_focused_beam, magnification, 32);
LAYOUT_MEMBER(spotwise_focused_beam, focus_shift_m, 40);
LAYOUT_MEMBER(spotwise_focused_beam, lens_to_waist_m, 48);
LAYOUT_MEMBER(spotwise_focused_beam, diameter_at_lens_m, 56);

LAYOUT_SIZE(spotwise_defocus_result, 48);
LAYOUT_MEMBER(spotwise_defocus_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_defocus_result, validity, 4);
LAYOUT_MEMBER(spotwise_defocus_result, diameter_m, 8);
LAYOUT_MEMBER(spotwise_defocus_result, growth, 16);
LAYOUT_MEMBER(spotwise_defocus_result, growth_minus_one, 24);
LAYOUT_MEMBER(spotwise_defocus_result, irradiance_ratio, 32);
LAYOUT_MEMBER(spotwise_defocus_result, line_dose_ratio, 40);

LAYOUT_SIZE(spotwise_astigmatic_defocus_result, 48);
LAYOUT_MEMBER(spotwise_astigmatic_defocus_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_astigmatic_defocus_result, validity, 4);
LAYOUT_MEMBER(spotwise_astigmatic_defocus_result, growth_x, 8);
LAYOUT_MEMBER(spotwise_astigmatic_defocus_result, growth_y, 16);
LAYOUT_MEMBER(spotwise_astigmatic_defocus_result, irradiance_ratio, 24);
LAYOUT_MEMBER(spotwise_astigmatic_defocus_result, line_dose_ratio_along_x, 32);
LAYOUT_MEMBER(spotwise_astigmatic_defocus_result, line_dose_ratio_along_y, 40);

LAYOUT_SIZE(spotwise_depth_criterion, 32);
LAYOUT_MEMBER(spotwise_depth_criterion, struct_size, 0);
LAYOUT_MEMBER(spotwise_depth_criterion, criterion, 4);
LAYOUT_MEMBER(spotwise_depth_criterion, growth_ratio, 8);
LAYOUT_MEMBER(spotwise_depth_criterion, drop, 16);
LAYOUT_MEMBER(spotwise_depth_criterion, largest_diameter_m, 24);

LAYOUT_SIZE(spotwise_focus_range, 32);
LAYOUT_MEMBER(spotwise_focus_range, struct_size, 0);
LAYOUT_MEMBER(spotwise_focus_range, validity, 4);
LAYOUT_MEMBER(spotwise_focus_range, toward_lens_z_m, 8);
LAYOUT_MEMBER(spotwise_focus_range, away_from_lens_z_m, 16);
LAYOUT_MEMBER(spotwise_focus_range, full_m, 24);

LAYOUT_SIZE(spotwise_smallest_details_result, 48);
LAYOUT_MEMBER(spotwise_smallest_details_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_smallest_details_result, reserved, 4);
LAYOUT_MEMBER(spotwise_smallest_details_result, bar_m, 8);
LAYOUT_MEMBER(spotwise_smallest_details_result, gap_m, 16);
LAYOUT_MEMBER(spotwise_smallest_details_result, dot_diameter_m, 24);
LAYOUT_MEMBER(spotwise_smallest_details_result, hole_diameter_m, 32);
LAYOUT_MEMBER(spotwise_smallest_details_result, edge_shift_m, 40);

LAYOUT_SIZE(spotwise_grating_contrast, 32);
LAYOUT_MEMBER(spotwise_grating_contrast, struct_size, 0);
LAYOUT_MEMBER(spotwise_grating_contrast, reserved, 4);
LAYOUT_MEMBER(spotwise_grating_contrast, sine, 8);
LAYOUT_MEMBER(spotwise_grating_contrast, bars, 16);
LAYOUT_MEMBER(spotwise_grating_contrast, dose_window_ratio, 24);

LAYOUT_SIZE(spotwise_job, 144);
LAYOUT_MEMBER(spotwise_job, struct_size, 0);
LAYOUT_MEMBER(spotwise_job, raw_beam, 4);
LAYOUT_MEMBER(spotwise_job, focus_setting, 8);
LAYOUT_MEMBER(spotwise_job, criterion, 12);
LAYOUT_MEMBER(spotwise_job, wavelength_m, 16);
LAYOUT_MEMBER(spotwise_job, m2, 24);
LAYOUT_MEMBER(spotwise_job, diameter_at_lens_m, 32);
LAYOUT_MEMBER(spotwise_job, waist_diameter_m, 40);
LAYOUT_MEMBER(spotwise_job, waist_to_lens_m, 48);
LAYOUT_MEMBER(spotwise_job, focal_length_m, 56);
LAYOUT_MEMBER(spotwise_job, focus_z_m, 64);
LAYOUT_MEMBER(spotwise_job, lens_to_surface_m, 72);
LAYOUT_MEMBER(spotwise_job, surface_rise_m, 80);
LAYOUT_MEMBER(spotwise_job, surface_fall_m, 88);
LAYOUT_MEMBER(spotwise_job, growth_ratio, 96);
LAYOUT_MEMBER(spotwise_job, drop, 104);
LAYOUT_MEMBER(spotwise_job, largest_diameter_m, 112);
LAYOUT_MEMBER(spotwise_job, finest_stroke_m, 120);
LAYOUT_MEMBER(spotwise_job, finest_gap_m, 128);
LAYOUT_MEMBER(spotwise_job, dose_ratio, 136);

LAYOUT_SIZE(spotwise_place, 88);
LAYOUT_MEMBER(spotwise_place, struct_size, 0);
LAYOUT_MEMBER(spotwise_place, details_hold, 4);
LAYOUT_MEMBER(spotwise_place, in_depth, 8);
LAYOUT_MEMBER(spotwise_place, reserved, 12);
LAYOUT_MEMBER(spotwise_place, z_offset_m, 16);
LAYOUT_MEMBER(spotwise_place, diameter_m, 24);
LAYOUT_MEMBER(spotwise_place, growth, 32);
LAYOUT_MEMBER(spotwise_place, irradiance_ratio, 40);
LAYOUT_MEMBER(spotwise_place, line_dose_ratio, 48);
LAYOUT_MEMBER(spotwise_place, smallest_stroke_m, 56);
LAYOUT_MEMBER(spotwise_place, smallest_gap_m, 64);
LAYOUT_MEMBER(spotwise_place, smallest_dot_diameter_m, 72);
LAYOUT_MEMBER(spotwise_place, smallest_hole_diameter_m, 80);

LAYOUT_SIZE(spotwise_verdict, 408);
LAYOUT_MEMBER(spotwise_verdict, struct_size, 0);
LAYOUT_MEMBER(spotwise_verdict, validity, 4);
LAYOUT_MEMBER(spotwise_verdict, outcome, 8);
LAYOUT_MEMBER(spotwise_verdict, reasons, 12);
LAYOUT_MEMBER(spotwise_verdict, waist_diameter_m, 16);
LAYOUT_MEMBER(spotwise_verdict, rayleigh_range_m, 24);
LAYOUT_MEMBER(spotwise_verdict, divergence_full_angle_rad, 32);
LAYOUT_MEMBER(spotwise_verdict, magnification, 40);
LAYOUT_MEMBER(spotwise_verdict, focus_shift_m, 48);
LAYOUT_MEMBER(spotwise_verdict, lens_to_waist_m, 56);
LAYOUT_MEMBER(spotwise_verdict, diameter_at_lens_m, 64);
LAYOUT_MEMBER(spotwise_verdict, focus_z_m, 72);
LAYOUT_MEMBER(spotwise_verdict, depth_toward_lens_z_m, 80);
LAYOUT_MEMBER(spotwise_verdict, depth_away_from_lens_z_m, 88);
LAYOUT_MEMBER(spotwise_verdict, depth_full_m, 96);
LAYOUT_MEMBER(spotwise_verdict, detail_toward_lens_z_m, 104);
LAYOUT_MEMBER(spotwise_verdict, detail_away_from_lens_z_m, 112);
LAYOUT_MEMBER(spotwise_verdict, detail_full_m, 120);
LAYOUT_MEMBER(spotwise_verdict, best_focus_z_m, 128);
LAYOUT_MEMBER(spotwise_verdict, best_worst_growth, 136);
LAYOUT_MEMBER(spotwise_verdict, highest, 144);
LAYOUT_MEMBER(spotwise_verdict, datum, 232);
LAYOUT_MEMBER(spotwise_verdict, lowest, 320);

#endif
