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

LAYOUT_SIZE(spotwise_cone, 16);
LAYOUT_MEMBER(spotwise_cone, struct_size, 0);
LAYOUT_MEMBER(spotwise_cone, validity, 4);
LAYOUT_MEMBER(spotwise_cone, half_angle_rad, 8);

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

LAYOUT_SIZE(spotwise_beam_section, 40);
LAYOUT_MEMBER(spotwise_beam_section, struct_size, 0);
LAYOUT_MEMBER(spotwise_beam_section, validity, 4);
LAYOUT_MEMBER(spotwise_beam_section, diameter_m, 8);
LAYOUT_MEMBER(spotwise_beam_section, wavefront_curvature_per_m, 16);
LAYOUT_MEMBER(spotwise_beam_section, wavefront_radius_m, 24);
LAYOUT_MEMBER(spotwise_beam_section, half_angle_rad, 32);

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

LAYOUT_SIZE(spotwise_astigmatic_parameters_result, 96);
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
LAYOUT_MEMBER(spotwise_astigmatic_parameters_result, half_angle_rad, 88);

LAYOUT_SIZE(spotwise_astigmatic_section, 64);
LAYOUT_MEMBER(spotwise_astigmatic_section, struct_size, 0);
LAYOUT_MEMBER(spotwise_astigmatic_section, validity, 4);
LAYOUT_MEMBER(spotwise_astigmatic_section, circular, 8);
LAYOUT_MEMBER(spotwise_astigmatic_section, reserved, 12);
LAYOUT_MEMBER(spotwise_astigmatic_section, diameter_x_m, 16);
LAYOUT_MEMBER(spotwise_astigmatic_section, diameter_y_m, 24);
LAYOUT_MEMBER(spotwise_astigmatic_section, ellipticity, 32);
LAYOUT_MEMBER(spotwise_astigmatic_section, effective_diameter_m, 40);
LAYOUT_MEMBER(spotwise_astigmatic_section, equal_area_diameter_m, 48);
LAYOUT_MEMBER(spotwise_astigmatic_section, half_angle_rad, 56);

LAYOUT_SIZE(spotwise_glass_index, 24);
LAYOUT_MEMBER(spotwise_glass_index, struct_size, 0);
LAYOUT_MEMBER(spotwise_glass_index, reserved, 4);
LAYOUT_MEMBER(spotwise_glass_index, index, 8);
LAYOUT_MEMBER(spotwise_glass_index, dispersion_per_m, 16);

LAYOUT_SIZE(spotwise_lens_at_wavelength_result, 64);
LAYOUT_MEMBER(spotwise_lens_at_wavelength_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_lens_at_wavelength_result, reserved, 4);
LAYOUT_MEMBER(spotwise_lens_at_wavelength_result, design_index, 8);
LAYOUT_MEMBER(spotwise_lens_at_wavelength_result, index, 16);
LAYOUT_MEMBER(spotwise_lens_at_wavelength_result, focal_length_m, 24);
LAYOUT_MEMBER(spotwise_lens_at_wavelength_result, focal_shift_m, 32);
LAYOUT_MEMBER(spotwise_lens_at_wavelength_result, shape_factor, 40);
LAYOUT_MEMBER(spotwise_lens_at_wavelength_result, blur_coefficient, 48);
LAYOUT_MEMBER(spotwise_lens_at_wavelength_result, wavefront_coefficient_per_m3, 56);

LAYOUT_SIZE(spotwise_focused_beam, 72);
LAYOUT_MEMBER(spotwise_focused_beam, struct_size, 0);
LAYOUT_MEMBER(spotwise_focused_beam, validity, 4);
LAYOUT_MEMBER(spotwise_focused_beam, waist_diameter_m, 8);
LAYOUT_MEMBER(spotwise_focused_beam, rayleigh_range_m, 16);
LAYOUT_MEMBER(spotwise_focused_beam, divergence_full_angle_rad, 24);
LAYOUT_MEMBER(spotwise_focused_beam, magnification, 32);
LAYOUT_MEMBER(spotwise_focused_beam, focus_shift_m, 40);
LAYOUT_MEMBER(spotwise_focused_beam, lens_to_waist_m, 48);
LAYOUT_MEMBER(spotwise_focused_beam, diameter_at_lens_m, 56);
LAYOUT_MEMBER(spotwise_focused_beam, half_angle_rad, 64);

LAYOUT_SIZE(spotwise_astigmatic_focus, 80);
LAYOUT_MEMBER(spotwise_astigmatic_focus, struct_size, 0);
LAYOUT_MEMBER(spotwise_astigmatic_focus, validity, 4);
LAYOUT_MEMBER(spotwise_astigmatic_focus, half_angle_rad, 8);
LAYOUT_MEMBER(spotwise_astigmatic_focus, beam, 16);

LAYOUT_SIZE(spotwise_singlet, 32);
LAYOUT_MEMBER(spotwise_singlet, struct_size, 0);
LAYOUT_MEMBER(spotwise_singlet, lens_shape, 4);
LAYOUT_MEMBER(spotwise_singlet, index, 8);
LAYOUT_MEMBER(spotwise_singlet, shape_factor, 16);
LAYOUT_MEMBER(spotwise_singlet, focal_length_m, 24);

LAYOUT_SIZE(spotwise_lens_form, 24);
LAYOUT_MEMBER(spotwise_lens_form, struct_size, 0);
LAYOUT_MEMBER(spotwise_lens_form, reserved, 4);
LAYOUT_MEMBER(spotwise_lens_form, focal_length_m, 8);
LAYOUT_MEMBER(spotwise_lens_form, shape_factor, 16);

LAYOUT_SIZE(spotwise_lens_aberration_result, 32);
LAYOUT_MEMBER(spotwise_lens_aberration_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_lens_aberration_result, reserved, 4);
LAYOUT_MEMBER(spotwise_lens_aberration_result, shape_factor, 8);
LAYOUT_MEMBER(spotwise_lens_aberration_result, blur_coefficient, 16);
LAYOUT_MEMBER(spotwise_lens_aberration_result, wavefront_coefficient_per_m3, 24);

LAYOUT_SIZE(spotwise_aberration_growth_result, 80);
LAYOUT_MEMBER(spotwise_aberration_growth_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_aberration_growth_result, validity, 4);
LAYOUT_MEMBER(spotwise_aberration_growth_result, second_moment_m2, 8);
LAYOUT_MEMBER(spotwise_aberration_growth_result, second_moment_growth, 16);
LAYOUT_MEMBER(spotwise_aberration_growth_result, second_moment_shift, 24);
LAYOUT_MEMBER(spotwise_aberration_growth_result, power86_growth, 32);
LAYOUT_MEMBER(spotwise_aberration_growth_result, power86_shift, 40);
LAYOUT_MEMBER(spotwise_aberration_growth_result, handbook_growth, 48);
LAYOUT_MEMBER(spotwise_aberration_growth_result, quadrature_growth, 56);
LAYOUT_MEMBER(spotwise_aberration_growth_result, peak_irradiance_ratio, 64);
LAYOUT_MEMBER(spotwise_aberration_growth_result, normalised_aberration, 72);

LAYOUT_SIZE(spotwise_aberrated_waist, 48);
LAYOUT_MEMBER(spotwise_aberrated_waist, struct_size, 0);
LAYOUT_MEMBER(spotwise_aberrated_waist, reserved, 4);
LAYOUT_MEMBER(spotwise_aberrated_waist, waist_diameter_m, 8);
LAYOUT_MEMBER(spotwise_aberrated_waist, m2, 16);
LAYOUT_MEMBER(spotwise_aberrated_waist, rayleigh_range_m, 24);
LAYOUT_MEMBER(spotwise_aberrated_waist, shift_m, 32);
LAYOUT_MEMBER(spotwise_aberrated_waist, lens_to_waist_m, 40);

LAYOUT_SIZE(spotwise_singlet_focus, 272);
LAYOUT_MEMBER(spotwise_singlet_focus, struct_size, 0);
LAYOUT_MEMBER(spotwise_singlet_focus, validity, 4);
LAYOUT_MEMBER(spotwise_singlet_focus, handbook_diameter_m, 8);
LAYOUT_MEMBER(spotwise_singlet_focus, quadrature_diameter_m, 16);
LAYOUT_MEMBER(spotwise_singlet_focus, peak_irradiance_ratio, 24);
LAYOUT_MEMBER(spotwise_singlet_focus, shape_factor, 32);
LAYOUT_MEMBER(spotwise_singlet_focus, aberration_phase_rad, 40);
LAYOUT_MEMBER(spotwise_singlet_focus, normalised_aberration, 48);
LAYOUT_MEMBER(spotwise_singlet_focus, clipping_ratio, 56);
LAYOUT_MEMBER(spotwise_singlet_focus, transmitted, 64);
LAYOUT_MEMBER(spotwise_singlet_focus, relative_focus_shift, 72);
LAYOUT_MEMBER(spotwise_singlet_focus, relative_rayleigh_range, 80);
LAYOUT_MEMBER(spotwise_singlet_focus, lens_to_focus_m, 88);
LAYOUT_MEMBER(spotwise_singlet_focus, half_angle_rad, 96);
LAYOUT_MEMBER(spotwise_singlet_focus, ideal, 104);
LAYOUT_MEMBER(spotwise_singlet_focus, second_moment, 176);
LAYOUT_MEMBER(spotwise_singlet_focus, power86, 224);

LAYOUT_SIZE(spotwise_smallest_spot_result, 56);
LAYOUT_MEMBER(spotwise_smallest_spot_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_smallest_spot_result, validity, 4);
LAYOUT_MEMBER(spotwise_smallest_spot_result, diameter_at_lens_m, 8);
LAYOUT_MEMBER(spotwise_smallest_spot_result, spot_diameter_m, 16);
LAYOUT_MEMBER(spotwise_smallest_spot_result, aberration_phase_rad, 24);
LAYOUT_MEMBER(spotwise_smallest_spot_result, normalised_aberration, 32);
LAYOUT_MEMBER(spotwise_smallest_spot_result, relative_rayleigh_range, 40);
LAYOUT_MEMBER(spotwise_smallest_spot_result, half_angle_rad, 48);

LAYOUT_SIZE(spotwise_clipped_focus, 72);
LAYOUT_MEMBER(spotwise_clipped_focus, struct_size, 0);
LAYOUT_MEMBER(spotwise_clipped_focus, validity, 4);
LAYOUT_MEMBER(spotwise_clipped_focus, clipping_ratio, 8);
LAYOUT_MEMBER(spotwise_clipped_focus, transmitted, 16);
LAYOUT_MEMBER(spotwise_clipped_focus, diameter_1e2_m, 24);
LAYOUT_MEMBER(spotwise_clipped_focus, fwhm_m, 32);
LAYOUT_MEMBER(spotwise_clipped_focus, diameter_power86_m, 40);
LAYOUT_MEMBER(spotwise_clipped_focus, peak_irradiance_ratio, 48);
LAYOUT_MEMBER(spotwise_clipped_focus, relative_rayleigh_range, 56);
LAYOUT_MEMBER(spotwise_clipped_focus, half_angle_rad, 64);

LAYOUT_SIZE(spotwise_gantry_spread_result, 64);
LAYOUT_MEMBER(spotwise_gantry_spread_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_gantry_spread_result, validity, 4);
LAYOUT_MEMBER(spotwise_gantry_spread_result, smallest_spot_m, 8);
LAYOUT_MEMBER(spotwise_gantry_spread_result, largest_spot_m, 16);
LAYOUT_MEMBER(spotwise_gantry_spread_result, spot_ratio, 24);
LAYOUT_MEMBER(spotwise_gantry_spread_result, least_focus_shift_m, 32);
LAYOUT_MEMBER(spotwise_gantry_spread_result, greatest_focus_shift_m, 40);
LAYOUT_MEMBER(spotwise_gantry_spread_result, focus_wander_m, 48);
LAYOUT_MEMBER(spotwise_gantry_spread_result, half_angle_rad, 56);

LAYOUT_SIZE(spotwise_even_gantry, 96);
LAYOUT_MEMBER(spotwise_even_gantry, struct_size, 0);
LAYOUT_MEMBER(spotwise_even_gantry, ends_equal, 4);
LAYOUT_MEMBER(spotwise_even_gantry, exit_power_per_m, 8);
LAYOUT_MEMBER(spotwise_even_gantry, waist_diameter_m, 16);
LAYOUT_MEMBER(spotwise_even_gantry, expander_to_waist_m, 24);
LAYOUT_MEMBER(spotwise_even_gantry, spread, 32);

LAYOUT_SIZE(spotwise_path_element, 56);
LAYOUT_MEMBER(spotwise_path_element, struct_size, 0);
LAYOUT_MEMBER(spotwise_path_element, element, 4);
LAYOUT_MEMBER(spotwise_path_element, length_m, 8);
LAYOUT_MEMBER(spotwise_path_element, focal_length_m, 16);
LAYOUT_MEMBER(spotwise_path_element, index, 24);
LAYOUT_MEMBER(spotwise_path_element, magnification, 32);
LAYOUT_MEMBER(spotwise_path_element, exit_power_per_m, 40);
LAYOUT_MEMBER(spotwise_path_element, shape_factor, 48);

LAYOUT_SIZE(spotwise_path_beam, 112);
LAYOUT_MEMBER(spotwise_path_beam, struct_size, 0);
LAYOUT_MEMBER(spotwise_path_beam, validity, 4);
LAYOUT_MEMBER(spotwise_path_beam, diameter_x_m, 8);
LAYOUT_MEMBER(spotwise_path_beam, diameter_y_m, 16);
LAYOUT_MEMBER(spotwise_path_beam, distance_m, 24);
LAYOUT_MEMBER(spotwise_path_beam, normalised_aberration, 32);
LAYOUT_MEMBER(spotwise_path_beam, half_angle_rad, 40);
LAYOUT_MEMBER(spotwise_path_beam, beam, 48);

LAYOUT_SIZE(spotwise_plate_focus, 48);
LAYOUT_MEMBER(spotwise_plate_focus, struct_size, 0);
LAYOUT_MEMBER(spotwise_plate_focus, validity, 4);
LAYOUT_MEMBER(spotwise_plate_focus, focus_shift_m, 8);
LAYOUT_MEMBER(spotwise_plate_focus, edge_focus_shift_m, 16);
LAYOUT_MEMBER(spotwise_plate_focus, aberration_phase_rad, 24);
LAYOUT_MEMBER(spotwise_plate_focus, normalised_aberration, 32);
LAYOUT_MEMBER(spotwise_plate_focus, half_angle_rad, 40);

LAYOUT_SIZE(spotwise_inside_focus, 56);
LAYOUT_MEMBER(spotwise_inside_focus, struct_size, 0);
LAYOUT_MEMBER(spotwise_inside_focus, validity, 4);
LAYOUT_MEMBER(spotwise_inside_focus, depth_m, 8);
LAYOUT_MEMBER(spotwise_inside_focus, edge_depth_m, 16);
LAYOUT_MEMBER(spotwise_inside_focus, rayleigh_range_m, 24);
LAYOUT_MEMBER(spotwise_inside_focus, aberration_phase_rad, 32);
LAYOUT_MEMBER(spotwise_inside_focus, normalised_aberration, 40);
LAYOUT_MEMBER(spotwise_inside_focus, half_angle_rad, 48);

LAYOUT_SIZE(spotwise_wave, 56);
LAYOUT_MEMBER(spotwise_wave, struct_size, 0);
LAYOUT_MEMBER(spotwise_wave, reserved, 4);
LAYOUT_MEMBER(spotwise_wave, wavelength_m, 8);
LAYOUT_MEMBER(spotwise_wave, m2, 16);
LAYOUT_MEMBER(spotwise_wave, diameter_at_lens_m, 24);
LAYOUT_MEMBER(spotwise_wave, clear_aperture_m, 32);
LAYOUT_MEMBER(spotwise_wave, lens_to_focus_m, 40);
LAYOUT_MEMBER(spotwise_wave, aberration_phase_rad, 48);

LAYOUT_SIZE(spotwise_wave_irradiance_result, 40);
LAYOUT_MEMBER(spotwise_wave_irradiance_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_wave_irradiance_result, validity, 4);
LAYOUT_MEMBER(spotwise_wave_irradiance_result, irradiance_ratio, 8);
LAYOUT_MEMBER(spotwise_wave_irradiance_result, irradiance_per_watt_per_m2, 16);
LAYOUT_MEMBER(spotwise_wave_irradiance_result, error_bound, 24);
LAYOUT_MEMBER(spotwise_wave_irradiance_result, half_angle_rad, 32);

LAYOUT_SIZE(spotwise_wave_power_result, 40);
LAYOUT_MEMBER(spotwise_wave_power_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_wave_power_result, validity, 4);
LAYOUT_MEMBER(spotwise_wave_power_result, share, 8);
LAYOUT_MEMBER(spotwise_wave_power_result, share_of_transmitted, 16);
LAYOUT_MEMBER(spotwise_wave_power_result, error_bound, 24);
LAYOUT_MEMBER(spotwise_wave_power_result, half_angle_rad, 32);

LAYOUT_SIZE(spotwise_wave_widths_result, 64);
LAYOUT_MEMBER(spotwise_wave_widths_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_wave_widths_result, validity, 4);
LAYOUT_MEMBER(spotwise_wave_widths_result, irradiance_ratio, 8);
LAYOUT_MEMBER(spotwise_wave_widths_result, diameter_1e2_m, 16);
LAYOUT_MEMBER(spotwise_wave_widths_result, fwhm_m, 24);
LAYOUT_MEMBER(spotwise_wave_widths_result, diameter_power86_m, 32);
LAYOUT_MEMBER(spotwise_wave_widths_result, transmitted, 40);
LAYOUT_MEMBER(spotwise_wave_widths_result, error_bound, 48);
LAYOUT_MEMBER(spotwise_wave_widths_result, half_angle_rad, 56);

LAYOUT_SIZE(spotwise_wave_focus_result, 56);
LAYOUT_MEMBER(spotwise_wave_focus_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_wave_focus_result, validity, 4);
LAYOUT_MEMBER(spotwise_wave_focus_result, z_m, 8);
LAYOUT_MEMBER(spotwise_wave_focus_result, irradiance_ratio, 16);
LAYOUT_MEMBER(spotwise_wave_focus_result, diameter_power86_m, 24);
LAYOUT_MEMBER(spotwise_wave_focus_result, diameter_d4sigma_m, 32);
LAYOUT_MEMBER(spotwise_wave_focus_result, error_bound, 40);
LAYOUT_MEMBER(spotwise_wave_focus_result, half_angle_rad, 48);

LAYOUT_SIZE(spotwise_wave_map_result, 24);
LAYOUT_MEMBER(spotwise_wave_map_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_wave_map_result, validity, 4);
LAYOUT_MEMBER(spotwise_wave_map_result, error_bound, 8);
LAYOUT_MEMBER(spotwise_wave_map_result, half_angle_rad, 16);

LAYOUT_SIZE(spotwise_defocus_result, 56);
LAYOUT_MEMBER(spotwise_defocus_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_defocus_result, validity, 4);
LAYOUT_MEMBER(spotwise_defocus_result, diameter_m, 8);
LAYOUT_MEMBER(spotwise_defocus_result, growth, 16);
LAYOUT_MEMBER(spotwise_defocus_result, growth_minus_one, 24);
LAYOUT_MEMBER(spotwise_defocus_result, irradiance_ratio, 32);
LAYOUT_MEMBER(spotwise_defocus_result, line_dose_ratio, 40);
LAYOUT_MEMBER(spotwise_defocus_result, half_angle_rad, 48);

LAYOUT_SIZE(spotwise_astigmatic_defocus_result, 56);
LAYOUT_MEMBER(spotwise_astigmatic_defocus_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_astigmatic_defocus_result, validity, 4);
LAYOUT_MEMBER(spotwise_astigmatic_defocus_result, growth_x, 8);
LAYOUT_MEMBER(spotwise_astigmatic_defocus_result, growth_y, 16);
LAYOUT_MEMBER(spotwise_astigmatic_defocus_result, irradiance_ratio, 24);
LAYOUT_MEMBER(spotwise_astigmatic_defocus_result, line_dose_ratio_along_x, 32);
LAYOUT_MEMBER(spotwise_astigmatic_defocus_result, line_dose_ratio_along_y, 40);
LAYOUT_MEMBER(spotwise_astigmatic_defocus_result, half_angle_rad, 48);

LAYOUT_SIZE(spotwise_depth_criterion, 32);
LAYOUT_MEMBER(spotwise_depth_criterion, struct_size, 0);
LAYOUT_MEMBER(spotwise_depth_criterion, criterion, 4);
LAYOUT_MEMBER(spotwise_depth_criterion, growth_ratio, 8);
LAYOUT_MEMBER(spotwise_depth_criterion, drop, 16);
LAYOUT_MEMBER(spotwise_depth_criterion, largest_diameter_m, 24);

LAYOUT_SIZE(spotwise_focus_range, 40);
LAYOUT_MEMBER(spotwise_focus_range, struct_size, 0);
LAYOUT_MEMBER(spotwise_focus_range, validity, 4);
LAYOUT_MEMBER(spotwise_focus_range, toward_lens_z_m, 8);
LAYOUT_MEMBER(spotwise_focus_range, away_from_lens_z_m, 16);
LAYOUT_MEMBER(spotwise_focus_range, full_m, 24);
LAYOUT_MEMBER(spotwise_focus_range, half_angle_rad, 32);

LAYOUT_SIZE(spotwise_clipped_depth, 72);
LAYOUT_MEMBER(spotwise_clipped_depth, struct_size, 0);
LAYOUT_MEMBER(spotwise_clipped_depth, validity, 4);
LAYOUT_MEMBER(spotwise_clipped_depth, toward_lens_z_m, 8);
LAYOUT_MEMBER(spotwise_clipped_depth, away_from_lens_z_m, 16);
LAYOUT_MEMBER(spotwise_clipped_depth, full_m, 24);
LAYOUT_MEMBER(spotwise_clipped_depth, half_angle_rad, 32);
LAYOUT_MEMBER(spotwise_clipped_depth, brightest_z_m, 40);
LAYOUT_MEMBER(spotwise_clipped_depth, clipping_ratio, 48);
LAYOUT_MEMBER(spotwise_clipped_depth, relative_rayleigh_range, 56);
LAYOUT_MEMBER(spotwise_clipped_depth, relative_half_depth, 64);

LAYOUT_SIZE(spotwise_wave_depth, 56);
LAYOUT_MEMBER(spotwise_wave_depth, struct_size, 0);
LAYOUT_MEMBER(spotwise_wave_depth, validity, 4);
LAYOUT_MEMBER(spotwise_wave_depth, best_z_m, 8);
LAYOUT_MEMBER(spotwise_wave_depth, toward_lens_z_m, 16);
LAYOUT_MEMBER(spotwise_wave_depth, away_from_lens_z_m, 24);
LAYOUT_MEMBER(spotwise_wave_depth, full_m, 32);
LAYOUT_MEMBER(spotwise_wave_depth, error_bound_m, 40);
LAYOUT_MEMBER(spotwise_wave_depth, half_angle_rad, 48);

LAYOUT_SIZE(spotwise_singlet_defocus_result, 88);
LAYOUT_MEMBER(spotwise_singlet_defocus_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_singlet_defocus_result, validity, 4);
LAYOUT_MEMBER(spotwise_singlet_defocus_result, diameter_m, 8);
LAYOUT_MEMBER(spotwise_singlet_defocus_result, growth, 16);
LAYOUT_MEMBER(spotwise_singlet_defocus_result, growth_minus_one, 24);
LAYOUT_MEMBER(spotwise_singlet_defocus_result, irradiance_ratio, 32);
LAYOUT_MEMBER(spotwise_singlet_defocus_result, line_dose_ratio, 40);
LAYOUT_MEMBER(spotwise_singlet_defocus_result, half_angle_rad, 48);
LAYOUT_MEMBER(spotwise_singlet_defocus_result, normalised_aberration, 56);
LAYOUT_MEMBER(spotwise_singlet_defocus_result, clipping_ratio, 64);
LAYOUT_MEMBER(spotwise_singlet_defocus_result, relative_focus_shift, 72);
LAYOUT_MEMBER(spotwise_singlet_defocus_result, relative_rayleigh_range, 80);

LAYOUT_SIZE(spotwise_singlet_depth, 72);
LAYOUT_MEMBER(spotwise_singlet_depth, struct_size, 0);
LAYOUT_MEMBER(spotwise_singlet_depth, validity, 4);
LAYOUT_MEMBER(spotwise_singlet_depth, toward_lens_z_m, 8);
LAYOUT_MEMBER(spotwise_singlet_depth, away_from_lens_z_m, 16);
LAYOUT_MEMBER(spotwise_singlet_depth, full_m, 24);
LAYOUT_MEMBER(spotwise_singlet_depth, half_angle_rad, 32);
LAYOUT_MEMBER(spotwise_singlet_depth, normalised_aberration, 40);
LAYOUT_MEMBER(spotwise_singlet_depth, clipping_ratio, 48);
LAYOUT_MEMBER(spotwise_singlet_depth, relative_focus_shift, 56);
LAYOUT_MEMBER(spotwise_singlet_depth, relative_rayleigh_range, 64);

LAYOUT_SIZE(spotwise_tilted_spot_result, 72);
LAYOUT_MEMBER(spotwise_tilted_spot_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_tilted_spot_result, validity, 4);
LAYOUT_MEMBER(spotwise_tilted_spot_result, diameter_across_m, 8);
LAYOUT_MEMBER(spotwise_tilted_spot_result, diameter_along_m, 16);
LAYOUT_MEMBER(spotwise_tilted_spot_result, contour_along_m, 24);
LAYOUT_MEMBER(spotwise_tilted_spot_result, contour_shift_m, 32);
LAYOUT_MEMBER(spotwise_tilted_spot_result, irradiance_ratio, 40);
LAYOUT_MEMBER(spotwise_tilted_spot_result, line_dose_ratio, 48);
LAYOUT_MEMBER(spotwise_tilted_spot_result, grazing_ratio, 56);
LAYOUT_MEMBER(spotwise_tilted_spot_result, half_angle_rad, 64);

LAYOUT_SIZE(spotwise_smallest_details_result, 56);
LAYOUT_MEMBER(spotwise_smallest_details_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_smallest_details_result, reserved, 4);
LAYOUT_MEMBER(spotwise_smallest_details_result, bar_m, 8);
LAYOUT_MEMBER(spotwise_smallest_details_result, gap_m, 16);
LAYOUT_MEMBER(spotwise_smallest_details_result, dot_diameter_m, 24);
LAYOUT_MEMBER(spotwise_smallest_details_result, hole_diameter_m, 32);
LAYOUT_MEMBER(spotwise_smallest_details_result, square_m, 40);
LAYOUT_MEMBER(spotwise_smallest_details_result, edge_shift_m, 48);

LAYOUT_SIZE(spotwise_grating_contrast, 32);
LAYOUT_MEMBER(spotwise_grating_contrast, struct_size, 0);
LAYOUT_MEMBER(spotwise_grating_contrast, reserved, 4);
LAYOUT_MEMBER(spotwise_grating_contrast, sine, 8);
LAYOUT_MEMBER(spotwise_grating_contrast, bars, 16);
LAYOUT_MEMBER(spotwise_grating_contrast, dose_window_ratio, 24);

LAYOUT_SIZE(spotwise_contrast_pitch, 24);
LAYOUT_MEMBER(spotwise_contrast_pitch, struct_size, 0);
LAYOUT_MEMBER(spotwise_contrast_pitch, reserved, 4);
LAYOUT_MEMBER(spotwise_contrast_pitch, sine_m, 8);
LAYOUT_MEMBER(spotwise_contrast_pitch, bars_m, 16);

LAYOUT_SIZE(spotwise_scan, 48);
LAYOUT_MEMBER(spotwise_scan, struct_size, 0);
LAYOUT_MEMBER(spotwise_scan, reserved, 4);
LAYOUT_MEMBER(spotwise_scan, power_w, 8);
LAYOUT_MEMBER(spotwise_scan, speed_m_per_s, 16);
LAYOUT_MEMBER(spotwise_scan, diameter_across_m, 24);
LAYOUT_MEMBER(spotwise_scan, diameter_along_m, 32);
LAYOUT_MEMBER(spotwise_scan, line_interval_m, 40);

LAYOUT_SIZE(spotwise_scan_dose_result, 40);
LAYOUT_MEMBER(spotwise_scan_dose_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_scan_dose_result, reserved, 4);
LAYOUT_MEMBER(spotwise_scan_dose_result, line_dose_j_per_m2, 8);
LAYOUT_MEMBER(spotwise_scan_dose_result, fill_dose_j_per_m2, 16);
LAYOUT_MEMBER(spotwise_scan_dose_result, peak_irradiance_w_per_m2, 24);
LAYOUT_MEMBER(spotwise_scan_dose_result, dwell_s, 32);

LAYOUT_SIZE(spotwise_pulse_dose_result, 56);
LAYOUT_MEMBER(spotwise_pulse_dose_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_pulse_dose_result, reserved, 4);
LAYOUT_MEMBER(spotwise_pulse_dose_result, pulse_energy_j, 8);
LAYOUT_MEMBER(spotwise_pulse_dose_result, peak_fluence_j_per_m2, 16);
LAYOUT_MEMBER(spotwise_pulse_dose_result, pulse_pitch_m, 24);
LAYOUT_MEMBER(spotwise_pulse_dose_result, overlap, 32);
LAYOUT_MEMBER(spotwise_pulse_dose_result, pulses_per_diameter, 40);
LAYOUT_MEMBER(spotwise_pulse_dose_result, effective_pulses, 48);

LAYOUT_SIZE(spotwise_material, 48);
LAYOUT_MEMBER(spotwise_material, struct_size, 0);
LAYOUT_MEMBER(spotwise_material, response, 4);
LAYOUT_MEMBER(spotwise_material, threshold_j_per_m2, 8);
LAYOUT_MEMBER(spotwise_material, incubation, 16);
LAYOUT_MEMBER(spotwise_material, penetration_depth_m, 24);
LAYOUT_MEMBER(spotwise_material, removal_energy_j_per_m3, 32);
LAYOUT_MEMBER(spotwise_material, diffusivity_m2_per_s, 40);

LAYOUT_SIZE(spotwise_material_mark_result, 40);
LAYOUT_MEMBER(spotwise_material_mark_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_material_mark_result, marks, 4);
LAYOUT_MEMBER(spotwise_material_mark_result, threshold_j_per_m2, 8);
LAYOUT_MEMBER(spotwise_material_mark_result, dose_ratio, 16);
LAYOUT_MEMBER(spotwise_material_mark_result, depth_m, 24);
LAYOUT_MEMBER(spotwise_material_mark_result, seen_diameter_m, 32);

LAYOUT_SIZE(spotwise_threshold_fit, 64);
LAYOUT_MEMBER(spotwise_threshold_fit, struct_size, 0);
LAYOUT_MEMBER(spotwise_threshold_fit, marks_used, 4);
LAYOUT_MEMBER(spotwise_threshold_fit, spot_diameter_m, 8);
LAYOUT_MEMBER(spotwise_threshold_fit, spot_diameter_deviation_m, 16);
LAYOUT_MEMBER(spotwise_threshold_fit, threshold, 24);
LAYOUT_MEMBER(spotwise_threshold_fit, relative_threshold_deviation, 32);
LAYOUT_MEMBER(spotwise_threshold_fit, correlation, 40);
LAYOUT_MEMBER(spotwise_threshold_fit, reduced_chi_squared, 48);
LAYOUT_MEMBER(spotwise_threshold_fit, significance, 56);

LAYOUT_SIZE(spotwise_mark_width_result, 48);
LAYOUT_MEMBER(spotwise_mark_width_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_mark_width_result, validity, 4);
LAYOUT_MEMBER(spotwise_mark_width_result, marks, 8);
LAYOUT_MEMBER(spotwise_mark_width_result, reserved, 12);
LAYOUT_MEMBER(spotwise_mark_width_result, width_m, 16);
LAYOUT_MEMBER(spotwise_mark_width_result, dose_ratio, 24);
LAYOUT_MEMBER(spotwise_mark_width_result, spot_diameter_m, 32);
LAYOUT_MEMBER(spotwise_mark_width_result, half_angle_rad, 40);

LAYOUT_SIZE(spotwise_mark_limits_result, 64);
LAYOUT_MEMBER(spotwise_mark_limits_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_mark_limits_result, validity, 4);
LAYOUT_MEMBER(spotwise_mark_limits_result, marks, 8);
LAYOUT_MEMBER(spotwise_mark_limits_result, reserved, 12);
LAYOUT_MEMBER(spotwise_mark_limits_result, width_in_waist_m, 16);
LAYOUT_MEMBER(spotwise_mark_limits_result, widest_offset_m, 24);
LAYOUT_MEMBER(spotwise_mark_limits_result, greatest_width_m, 32);
LAYOUT_MEMBER(spotwise_mark_limits_result, vanishing_offset_m, 40);
LAYOUT_MEMBER(spotwise_mark_limits_result, focus_insensitive_dose_ratio, 48);
LAYOUT_MEMBER(spotwise_mark_limits_result, half_angle_rad, 56);

LAYOUT_SIZE(spotwise_fill_width_result, 56);
LAYOUT_MEMBER(spotwise_fill_width_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_fill_width_result, validity, 4);
LAYOUT_MEMBER(spotwise_fill_width_result, marks, 8);
LAYOUT_MEMBER(spotwise_fill_width_result, reserved, 12);
LAYOUT_MEMBER(spotwise_fill_width_result, width_m, 16);
LAYOUT_MEMBER(spotwise_fill_width_result, growth_m, 24);
LAYOUT_MEMBER(spotwise_fill_width_result, exposure, 32);
LAYOUT_MEMBER(spotwise_fill_width_result, spot_diameter_m, 40);
LAYOUT_MEMBER(spotwise_fill_width_result, half_angle_rad, 48);

LAYOUT_SIZE(spotwise_fill_limits_result, 56);
LAYOUT_MEMBER(spotwise_fill_limits_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_fill_limits_result, validity, 4);
LAYOUT_MEMBER(spotwise_fill_limits_result, marks, 8);
LAYOUT_MEMBER(spotwise_fill_limits_result, reserved, 12);
LAYOUT_MEMBER(spotwise_fill_limits_result, width_in_waist_m, 16);
LAYOUT_MEMBER(spotwise_fill_limits_result, widest_offset_m, 24);
LAYOUT_MEMBER(spotwise_fill_limits_result, greatest_width_m, 32);
LAYOUT_MEMBER(spotwise_fill_limits_result, vanishing_offset_m, 40);
LAYOUT_MEMBER(spotwise_fill_limits_result, half_angle_rad, 48);

LAYOUT_SIZE(spotwise_raster_ripple_result, 56);
LAYOUT_MEMBER(spotwise_raster_ripple_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_raster_ripple_result, reserved, 4);
LAYOUT_MEMBER(spotwise_raster_ripple_result, greatest_over_mean, 8);
LAYOUT_MEMBER(spotwise_raster_ripple_result, least_over_mean, 16);
LAYOUT_MEMBER(spotwise_raster_ripple_result, contrast, 24);
LAYOUT_MEMBER(spotwise_raster_ripple_result, gap_free_dose_ratio, 32);
LAYOUT_MEMBER(spotwise_raster_ripple_result, gap_free_dose_ratio_without_memory, 40);
LAYOUT_MEMBER(spotwise_raster_ripple_result, interval_over_radius, 48);

LAYOUT_SIZE(spotwise_detail_exposure_result, 48);
LAYOUT_MEMBER(spotwise_detail_exposure_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_detail_exposure_result, reserved, 4);
LAYOUT_MEMBER(spotwise_detail_exposure_result, bar, 8);
LAYOUT_MEMBER(spotwise_detail_exposure_result, gap, 16);
LAYOUT_MEMBER(spotwise_detail_exposure_result, square, 24);
LAYOUT_MEMBER(spotwise_detail_exposure_result, dot, 32);
LAYOUT_MEMBER(spotwise_detail_exposure_result, hole, 40);

LAYOUT_SIZE(spotwise_blur, 72);
LAYOUT_MEMBER(spotwise_blur, struct_size, 0);
LAYOUT_MEMBER(spotwise_blur, reserved, 4);
LAYOUT_MEMBER(spotwise_blur, diameter_across_m, 8);
LAYOUT_MEMBER(spotwise_blur, diameter_along_m, 16);
LAYOUT_MEMBER(spotwise_blur, speed_m_per_s, 24);
LAYOUT_MEMBER(spotwise_blur, diffusivity_m2_per_s, 32);
LAYOUT_MEMBER(spotwise_blur, pixel_m, 40);
LAYOUT_MEMBER(spotwise_blur, jitter_deviation_m, 48);
LAYOUT_MEMBER(spotwise_blur, rise_time_s, 56);
LAYOUT_MEMBER(spotwise_blur, switch_delay_s, 64);

LAYOUT_SIZE(spotwise_blur_budget_result, 80);
LAYOUT_MEMBER(spotwise_blur_budget_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_blur_budget_result, reserved, 4);
LAYOUT_MEMBER(spotwise_blur_budget_result, dwell_s, 8);
LAYOUT_MEMBER(spotwise_blur_budget_result, diffusion_length_m, 16);
LAYOUT_MEMBER(spotwise_blur_budget_result, diameter_across_m, 24);
LAYOUT_MEMBER(spotwise_blur_budget_result, diameter_along_m, 32);
LAYOUT_MEMBER(spotwise_blur_budget_result, edge_across_m, 40);
LAYOUT_MEMBER(spotwise_blur_budget_result, edge_along_m, 48);
LAYOUT_MEMBER(spotwise_blur_budget_result, rise_smear_m, 56);
LAYOUT_MEMBER(spotwise_blur_budget_result, delay_shift_m, 64);
LAYOUT_MEMBER(spotwise_blur_budget_result, two_way_comb_m, 72);

LAYOUT_SIZE(spotwise_taste, 24);
LAYOUT_MEMBER(spotwise_taste, struct_size, 0);
LAYOUT_MEMBER(spotwise_taste, taste, 4);
LAYOUT_MEMBER(spotwise_taste, largest_edge_m, 8);
LAYOUT_MEMBER(spotwise_taste, crispness_weight, 16);

LAYOUT_SIZE(spotwise_fill_quality_result, 48);
LAYOUT_MEMBER(spotwise_fill_quality_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_fill_quality_result, validity, 4);
LAYOUT_MEMBER(spotwise_fill_quality_result, offset_m, 8);
LAYOUT_MEMBER(spotwise_fill_quality_result, spot_diameter_m, 16);
LAYOUT_MEMBER(spotwise_fill_quality_result, edge_width_m, 24);
LAYOUT_MEMBER(spotwise_fill_quality_result, ripple_contrast, 32);
LAYOUT_MEMBER(spotwise_fill_quality_result, half_angle_rad, 40);

LAYOUT_SIZE(spotwise_pulsed_line_result, 48);
LAYOUT_MEMBER(spotwise_pulsed_line_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_pulsed_line_result, marks, 4);
LAYOUT_MEMBER(spotwise_pulsed_line_result, connected, 8);
LAYOUT_MEMBER(spotwise_pulsed_line_result, reserved, 12);
LAYOUT_MEMBER(spotwise_pulsed_line_result, threshold_ratio, 16);
LAYOUT_MEMBER(spotwise_pulsed_line_result, dose_ratio, 24);
LAYOUT_MEMBER(spotwise_pulsed_line_result, dot_diameter_m, 32);
LAYOUT_MEMBER(spotwise_pulsed_line_result, scallop_m, 40);

LAYOUT_SIZE(spotwise_crater_result, 40);
LAYOUT_MEMBER(spotwise_crater_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_crater_result, reserved, 4);
LAYOUT_MEMBER(spotwise_crater_result, diameter_m, 8);
LAYOUT_MEMBER(spotwise_crater_result, depth_m, 16);
LAYOUT_MEMBER(spotwise_crater_result, depth_at_radius_m, 24);
LAYOUT_MEMBER(spotwise_crater_result, volume_m3, 32);

LAYOUT_SIZE(spotwise_groove_result, 40);
LAYOUT_MEMBER(spotwise_groove_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_groove_result, reserved, 4);
LAYOUT_MEMBER(spotwise_groove_result, width_m, 8);
LAYOUT_MEMBER(spotwise_groove_result, depth_m, 16);
LAYOUT_MEMBER(spotwise_groove_result, depth_aside_m, 24);
LAYOUT_MEMBER(spotwise_groove_result, area_m2, 32);

LAYOUT_SIZE(spotwise_connected_speed_result, 32);
LAYOUT_MEMBER(spotwise_connected_speed_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_connected_speed_result, reserved, 4);
LAYOUT_MEMBER(spotwise_connected_speed_result, pulse_pitch_m, 8);
LAYOUT_MEMBER(spotwise_connected_speed_result, pulses, 16);
LAYOUT_MEMBER(spotwise_connected_speed_result, speed_m_per_s, 24);

LAYOUT_SIZE(spotwise_mark_setting, 64);
LAYOUT_MEMBER(spotwise_mark_setting, struct_size, 0);
LAYOUT_MEMBER(spotwise_mark_setting, mark_kind, 4);
LAYOUT_MEMBER(spotwise_mark_setting, dose_ratio, 8);
LAYOUT_MEMBER(spotwise_mark_setting, power_w, 16);
LAYOUT_MEMBER(spotwise_mark_setting, speed_m_per_s, 24);
LAYOUT_MEMBER(spotwise_mark_setting, greatest_power_w, 32);
LAYOUT_MEMBER(spotwise_mark_setting, least_speed_m_per_s, 40);
LAYOUT_MEMBER(spotwise_mark_setting, greatest_speed_m_per_s, 48);
LAYOUT_MEMBER(spotwise_mark_setting, least_irradiance_ratio, 56);

LAYOUT_SIZE(spotwise_compensation, 80);
LAYOUT_MEMBER(spotwise_compensation, struct_size, 0);
LAYOUT_MEMBER(spotwise_compensation, validity, 4);
LAYOUT_MEMBER(spotwise_compensation, limits, 8);
LAYOUT_MEMBER(spotwise_compensation, reserved, 12);
LAYOUT_MEMBER(spotwise_compensation, wanted_factor, 16);
LAYOUT_MEMBER(spotwise_compensation, reached_factor, 24);
LAYOUT_MEMBER(spotwise_compensation, power_w, 32);
LAYOUT_MEMBER(spotwise_compensation, speed_m_per_s, 40);
LAYOUT_MEMBER(spotwise_compensation, irradiance_ratio, 48);
LAYOUT_MEMBER(spotwise_compensation, dose_ratio, 56);
LAYOUT_MEMBER(spotwise_compensation, mark_width_m, 64);
LAYOUT_MEMBER(spotwise_compensation, half_angle_rad, 72);

LAYOUT_SIZE(spotwise_typeface, 40);
LAYOUT_MEMBER(spotwise_typeface, struct_size, 0);
LAYOUT_MEMBER(spotwise_typeface, typeface, 4);
LAYOUT_MEMBER(spotwise_typeface, stem, 8);
LAYOUT_MEMBER(spotwise_typeface, effective_stroke, 16);
LAYOUT_MEMBER(spotwise_typeface, effective_counter, 24);
LAYOUT_MEMBER(spotwise_typeface, effective_gap, 32);

LAYOUT_SIZE(spotwise_text_grades, 32);
LAYOUT_MEMBER(spotwise_text_grades, struct_size, 0);
LAYOUT_MEMBER(spotwise_text_grades, reserved, 4);
LAYOUT_MEMBER(spotwise_text_grades, crisp_exposure, 8);
LAYOUT_MEMBER(spotwise_text_grades, good_window, 16);
LAYOUT_MEMBER(spotwise_text_grades, readable_window, 24);

LAYOUT_SIZE(spotwise_typeface_shares_result, 80);
LAYOUT_MEMBER(spotwise_typeface_shares_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_typeface_shares_result, reserved, 4);
LAYOUT_MEMBER(spotwise_typeface_shares_result, cap_height, 8);
LAYOUT_MEMBER(spotwise_typeface_shares_result, x_height, 16);
LAYOUT_MEMBER(spotwise_typeface_shares_result, digit_height, 24);
LAYOUT_MEMBER(spotwise_typeface_shares_result, stem, 32);
LAYOUT_MEMBER(spotwise_typeface_shares_result, thinnest_stroke, 40);
LAYOUT_MEMBER(spotwise_typeface_shares_result, smallest_counter, 48);
LAYOUT_MEMBER(spotwise_typeface_shares_result, effective_stroke, 56);
LAYOUT_MEMBER(spotwise_typeface_shares_result, effective_counter, 64);
LAYOUT_MEMBER(spotwise_typeface_shares_result, effective_gap, 72);

LAYOUT_SIZE(spotwise_smallest_text_result, 32);
LAYOUT_MEMBER(spotwise_smallest_text_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_smallest_text_result, reserved, 4);
LAYOUT_MEMBER(spotwise_smallest_text_result, crisp_em_m, 8);
LAYOUT_MEMBER(spotwise_smallest_text_result, good_em_m, 16);
LAYOUT_MEMBER(spotwise_smallest_text_result, readable_em_m, 24);

LAYOUT_SIZE(spotwise_text_quality_result, 40);
LAYOUT_MEMBER(spotwise_text_quality_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_text_quality_result, grade, 4);
LAYOUT_MEMBER(spotwise_text_quality_result, stem_exposure, 8);
LAYOUT_MEMBER(spotwise_text_quality_result, least_dose_ratio, 16);
LAYOUT_MEMBER(spotwise_text_quality_result, greatest_dose_ratio, 24);
LAYOUT_MEMBER(spotwise_text_quality_result, greatest_dose_ratio_for_counters, 32);

LAYOUT_SIZE(spotwise_text_offset, 32);
LAYOUT_MEMBER(spotwise_text_offset, struct_size, 0);
LAYOUT_MEMBER(spotwise_text_offset, validity, 4);
LAYOUT_MEMBER(spotwise_text_offset, offset_m, 8);
LAYOUT_MEMBER(spotwise_text_offset, spot_diameter_m, 16);
LAYOUT_MEMBER(spotwise_text_offset, half_angle_rad, 24);

LAYOUT_SIZE(spotwise_job, 344);
LAYOUT_MEMBER(spotwise_job, struct_size, 0);
LAYOUT_MEMBER(spotwise_job, raw_beam, 4);
LAYOUT_MEMBER(spotwise_job, focus_setting, 8);
LAYOUT_MEMBER(spotwise_job, criterion, 12);
LAYOUT_MEMBER(spotwise_job, dose, 16);
LAYOUT_MEMBER(spotwise_job, response, 20);
LAYOUT_MEMBER(spotwise_job, lens, 24);
LAYOUT_MEMBER(spotwise_job, glass, 28);
LAYOUT_MEMBER(spotwise_job, lens_shape, 32);
LAYOUT_MEMBER(spotwise_job, text, 36);
LAYOUT_MEMBER(spotwise_job, typeface, 40);
LAYOUT_MEMBER(spotwise_job, least_grade, 44);
LAYOUT_MEMBER(spotwise_job, wavelength_m, 48);
LAYOUT_MEMBER(spotwise_job, m2, 56);
LAYOUT_MEMBER(spotwise_job, diameter_at_lens_m, 64);
LAYOUT_MEMBER(spotwise_job, waist_diameter_m, 72);
LAYOUT_MEMBER(spotwise_job, waist_to_lens_m, 80);
LAYOUT_MEMBER(spotwise_job, focal_length_m, 88);
LAYOUT_MEMBER(spotwise_job, focus_z_m, 96);
LAYOUT_MEMBER(spotwise_job, lens_to_surface_m, 104);
LAYOUT_MEMBER(spotwise_job, surface_rise_m, 112);
LAYOUT_MEMBER(spotwise_job, surface_fall_m, 120);
LAYOUT_MEMBER(spotwise_job, growth_ratio, 128);
LAYOUT_MEMBER(spotwise_job, drop, 136);
LAYOUT_MEMBER(spotwise_job, largest_diameter_m, 144);
LAYOUT_MEMBER(spotwise_job, finest_stroke_m, 152);
LAYOUT_MEMBER(spotwise_job, finest_gap_m, 160);
LAYOUT_MEMBER(spotwise_job, dose_ratio, 168);
LAYOUT_MEMBER(spotwise_job, power_w, 176);
LAYOUT_MEMBER(spotwise_job, speed_m_per_s, 184);
LAYOUT_MEMBER(spotwise_job, line_interval_m, 192);
LAYOUT_MEMBER(spotwise_job, threshold_j_per_m2, 200);
LAYOUT_MEMBER(spotwise_job, penetration_depth_m, 208);
LAYOUT_MEMBER(spotwise_job, removal_energy_j_per_m3, 216);
LAYOUT_MEMBER(spotwise_job, diffusivity_m2_per_s, 224);
LAYOUT_MEMBER(spotwise_job, waist_to_expander_m, 232);
LAYOUT_MEMBER(spotwise_job, magnification, 240);
LAYOUT_MEMBER(spotwise_job, exit_power_per_m, 248);
LAYOUT_MEMBER(spotwise_job, expander_to_lens_m, 256);
LAYOUT_MEMBER(spotwise_job, shape_factor, 264);
LAYOUT_MEMBER(spotwise_job, clear_aperture_m, 272);
LAYOUT_MEMBER(spotwise_job, stem, 280);
LAYOUT_MEMBER(spotwise_job, effective_stroke, 288);
LAYOUT_MEMBER(spotwise_job, effective_counter, 296);
LAYOUT_MEMBER(spotwise_job, effective_gap, 304);
LAYOUT_MEMBER(spotwise_job, em_m, 312);
LAYOUT_MEMBER(spotwise_job, crisp_exposure, 320);
LAYOUT_MEMBER(spotwise_job, good_window, 328);
LAYOUT_MEMBER(spotwise_job, readable_window, 336);

LAYOUT_SIZE(spotwise_place, 128);
LAYOUT_MEMBER(spotwise_place, struct_size, 0);
LAYOUT_MEMBER(spotwise_place, details_hold, 4);
LAYOUT_MEMBER(spotwise_place, in_depth, 8);
LAYOUT_MEMBER(spotwise_place, text_grade, 12);
LAYOUT_MEMBER(spotwise_place, z_offset_m, 16);
LAYOUT_MEMBER(spotwise_place, diameter_m, 24);
LAYOUT_MEMBER(spotwise_place, growth, 32);
LAYOUT_MEMBER(spotwise_place, irradiance_ratio, 40);
LAYOUT_MEMBER(spotwise_place, line_dose_ratio, 48);
LAYOUT_MEMBER(spotwise_place, seen_diameter_m, 56);
LAYOUT_MEMBER(spotwise_place, smallest_stroke_m, 64);
LAYOUT_MEMBER(spotwise_place, smallest_gap_m, 72);
LAYOUT_MEMBER(spotwise_place, smallest_dot_diameter_m, 80);
LAYOUT_MEMBER(spotwise_place, smallest_hole_diameter_m, 88);
LAYOUT_MEMBER(spotwise_place, ripple_contrast, 96);
LAYOUT_MEMBER(spotwise_place, crisp_em_m, 104);
LAYOUT_MEMBER(spotwise_place, good_em_m, 112);
LAYOUT_MEMBER(spotwise_place, readable_em_m, 120);

LAYOUT_SIZE(spotwise_verdict, 888);
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
LAYOUT_MEMBER(spotwise_verdict, half_angle_rad, 72);
LAYOUT_MEMBER(spotwise_verdict, focus_z_m, 80);
LAYOUT_MEMBER(spotwise_verdict, depth_toward_lens_z_m, 88);
LAYOUT_MEMBER(spotwise_verdict, depth_away_from_lens_z_m, 96);
LAYOUT_MEMBER(spotwise_verdict, depth_full_m, 104);
LAYOUT_MEMBER(spotwise_verdict, detail_toward_lens_z_m, 112);
LAYOUT_MEMBER(spotwise_verdict, detail_away_from_lens_z_m, 120);
LAYOUT_MEMBER(spotwise_verdict, detail_full_m, 128);
LAYOUT_MEMBER(spotwise_verdict, text_toward_lens_z_m, 136);
LAYOUT_MEMBER(spotwise_verdict, text_away_from_lens_z_m, 144);
LAYOUT_MEMBER(spotwise_verdict, text_full_m, 152);
LAYOUT_MEMBER(spotwise_verdict, dose_ratio, 160);
LAYOUT_MEMBER(spotwise_verdict, line_dose_j_per_m2, 168);
LAYOUT_MEMBER(spotwise_verdict, fill_dose_j_per_m2, 176);
LAYOUT_MEMBER(spotwise_verdict, peak_irradiance_w_per_m2, 184);
LAYOUT_MEMBER(spotwise_verdict, dwell_s, 192);
LAYOUT_MEMBER(spotwise_verdict, fill_depth_m, 200);
LAYOUT_MEMBER(spotwise_verdict, best_focus_z_m, 208);
LAYOUT_MEMBER(spotwise_verdict, best_worst_growth, 216);
LAYOUT_MEMBER(spotwise_verdict, highest, 224);
LAYOUT_MEMBER(spotwise_verdict, datum, 352);
LAYOUT_MEMBER(spotwise_verdict, lowest, 480);
LAYOUT_MEMBER(spotwise_verdict, promised, 608);
LAYOUT_MEMBER(spotwise_verdict, has_real, 612);
LAYOUT_MEMBER(spotwise_verdict, real, 616);

LAYOUT_SIZE(spotwise_height_map, 64);
LAYOUT_MEMBER(spotwise_height_map, struct_size, 0);
LAYOUT_MEMBER(spotwise_height_map, validity, 4);
LAYOUT_MEMBER(spotwise_height_map, measured, 8);
LAYOUT_MEMBER(spotwise_height_map, missing, 16);
LAYOUT_MEMBER(spotwise_height_map, least_index, 24);
LAYOUT_MEMBER(spotwise_height_map, greatest_index, 32);
LAYOUT_MEMBER(spotwise_height_map, least, 40);
LAYOUT_MEMBER(spotwise_height_map, greatest, 48);
LAYOUT_MEMBER(spotwise_height_map, half_angle_rad, 56);

LAYOUT_SIZE(spotwise_focus_mask, 64);
LAYOUT_MEMBER(spotwise_focus_mask, struct_size, 0);
LAYOUT_MEMBER(spotwise_focus_mask, validity, 4);
LAYOUT_MEMBER(spotwise_focus_mask, in_focus, 8);
LAYOUT_MEMBER(spotwise_focus_mask, too_near_lens, 16);
LAYOUT_MEMBER(spotwise_focus_mask, too_far_from_lens, 24);
LAYOUT_MEMBER(spotwise_focus_mask, missing, 32);
LAYOUT_MEMBER(spotwise_focus_mask, toward_lens_z_m, 40);
LAYOUT_MEMBER(spotwise_focus_mask, away_from_lens_z_m, 48);
LAYOUT_MEMBER(spotwise_focus_mask, half_angle_rad, 56);
LAYOUT_SIZE(spotwise_contribution, 40);
LAYOUT_MEMBER(spotwise_contribution, struct_size, 0);
LAYOUT_MEMBER(spotwise_contribution, source, 4);
LAYOUT_MEMBER(spotwise_contribution, distribution, 8);
LAYOUT_MEMBER(spotwise_contribution, reserved, 12);
LAYOUT_MEMBER(spotwise_contribution, half_width_m, 16);
LAYOUT_MEMBER(spotwise_contribution, coverage_factor, 24);
LAYOUT_MEMBER(spotwise_contribution, mean_m, 32);

LAYOUT_SIZE(spotwise_tolerance_stack_result, 104);
LAYOUT_MEMBER(spotwise_tolerance_stack_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_tolerance_stack_result, dominant, 4);
LAYOUT_MEMBER(spotwise_tolerance_stack_result, widest, 8);
LAYOUT_MEMBER(spotwise_tolerance_stack_result, reserved, 12);
LAYOUT_MEMBER(spotwise_tolerance_stack_result, bias_m, 16);
LAYOUT_MEMBER(spotwise_tolerance_stack_result, worst_half_width_m, 24);
LAYOUT_MEMBER(spotwise_tolerance_stack_result, worst_toward_lens_z_m, 32);
LAYOUT_MEMBER(spotwise_tolerance_stack_result, worst_away_from_lens_z_m, 40);
LAYOUT_MEMBER(spotwise_tolerance_stack_result, deviation_m, 48);
LAYOUT_MEMBER(spotwise_tolerance_stack_result, coverage_factor, 56);
LAYOUT_MEMBER(spotwise_tolerance_stack_result, expanded_half_width_m, 64);
LAYOUT_MEMBER(spotwise_tolerance_stack_result, expanded_toward_lens_z_m, 72);
LAYOUT_MEMBER(spotwise_tolerance_stack_result, expanded_away_from_lens_z_m, 80);
LAYOUT_MEMBER(spotwise_tolerance_stack_result, dominant_share, 88);
LAYOUT_MEMBER(spotwise_tolerance_stack_result, widest_share, 96);

LAYOUT_SIZE(spotwise_offset_odds_result, 96);
LAYOUT_MEMBER(spotwise_offset_odds_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_offset_odds_result, reserved, 4);
LAYOUT_MEMBER(spotwise_offset_odds_result, probability, 8);
LAYOUT_MEMBER(spotwise_offset_odds_result, too_near_probability, 16);
LAYOUT_MEMBER(spotwise_offset_odds_result, too_far_probability, 24);
LAYOUT_MEMBER(spotwise_offset_odds_result, drawn_share, 32);
LAYOUT_MEMBER(spotwise_offset_odds_result, drawn_standard_error, 40);
LAYOUT_MEMBER(spotwise_offset_odds_result, drawn_least_share, 48);
LAYOUT_MEMBER(spotwise_offset_odds_result, drawn_greatest_share, 56);
LAYOUT_MEMBER(spotwise_offset_odds_result, drawn_mean_m, 64);
LAYOUT_MEMBER(spotwise_offset_odds_result, drawn_deviation_m, 72);
LAYOUT_MEMBER(spotwise_offset_odds_result, drawn_least_z_m, 80);
LAYOUT_MEMBER(spotwise_offset_odds_result, drawn_greatest_z_m, 88);

LAYOUT_SIZE(spotwise_surface_detail, 48);
LAYOUT_MEMBER(spotwise_surface_detail, struct_size, 0);
LAYOUT_MEMBER(spotwise_surface_detail, reserved, 4);
LAYOUT_MEMBER(spotwise_surface_detail, finest_stroke_m, 8);
LAYOUT_MEMBER(spotwise_surface_detail, finest_gap_m, 16);
LAYOUT_MEMBER(spotwise_surface_detail, dose_ratio, 24);
LAYOUT_MEMBER(spotwise_surface_detail, highest_z_m, 32);
LAYOUT_MEMBER(spotwise_surface_detail, lowest_z_m, 40);

LAYOUT_SIZE(spotwise_detail_odds_result, 168);
LAYOUT_MEMBER(spotwise_detail_odds_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_detail_odds_result, holds_in_waist, 4);
LAYOUT_MEMBER(spotwise_detail_odds_result, validity, 8);
LAYOUT_MEMBER(spotwise_detail_odds_result, reserved, 12);
LAYOUT_MEMBER(spotwise_detail_odds_result, margin_toward_lens_m, 16);
LAYOUT_MEMBER(spotwise_detail_odds_result, margin_away_from_lens_m, 24);
LAYOUT_MEMBER(spotwise_detail_odds_result, highest_probability, 32);
LAYOUT_MEMBER(spotwise_detail_odds_result, highest_drawn_share, 40);
LAYOUT_MEMBER(spotwise_detail_odds_result, lowest_probability, 48);
LAYOUT_MEMBER(spotwise_detail_odds_result, lowest_drawn_share, 56);
LAYOUT_MEMBER(spotwise_detail_odds_result, half_angle_rad, 64);
LAYOUT_MEMBER(spotwise_detail_odds_result, everywhere, 72);
LAYOUT_SIZE(spotwise_focus_between_result, 72);
LAYOUT_MEMBER(spotwise_focus_between_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_focus_between_result, validity, 4);
LAYOUT_MEMBER(spotwise_focus_between_result, focus_z_m, 8);
LAYOUT_MEMBER(spotwise_focus_between_result, half_range_m, 16);
LAYOUT_MEMBER(spotwise_focus_between_result, diameter_m, 24);
LAYOUT_MEMBER(spotwise_focus_between_result, growth, 32);
LAYOUT_MEMBER(spotwise_focus_between_result, growth_minus_one, 40);
LAYOUT_MEMBER(spotwise_focus_between_result, irradiance_ratio, 48);
LAYOUT_MEMBER(spotwise_focus_between_result, line_dose_ratio, 56);
LAYOUT_MEMBER(spotwise_focus_between_result, half_angle_rad, 64);

LAYOUT_SIZE(spotwise_astigmatic_focus_between, 64);
LAYOUT_MEMBER(spotwise_astigmatic_focus_between, struct_size, 0);
LAYOUT_MEMBER(spotwise_astigmatic_focus_between, validity, 4);
LAYOUT_MEMBER(spotwise_astigmatic_focus_between, focus_z_m, 8);
LAYOUT_MEMBER(spotwise_astigmatic_focus_between, worst_diameter_m, 16);
LAYOUT_MEMBER(spotwise_astigmatic_focus_between, highest_diameter_x_m, 24);
LAYOUT_MEMBER(spotwise_astigmatic_focus_between, highest_diameter_y_m, 32);
LAYOUT_MEMBER(spotwise_astigmatic_focus_between, lowest_diameter_x_m, 40);
LAYOUT_MEMBER(spotwise_astigmatic_focus_between, lowest_diameter_y_m, 48);
LAYOUT_MEMBER(spotwise_astigmatic_focus_between, half_angle_rad, 56);

LAYOUT_SIZE(spotwise_height_bands_result, 24);
LAYOUT_MEMBER(spotwise_height_bands_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_height_bands_result, count, 4);
LAYOUT_MEMBER(spotwise_height_bands_result, band_height_m, 8);
LAYOUT_MEMBER(spotwise_height_bands_result, share_of_depth, 16);

LAYOUT_SIZE(spotwise_cylinder_strip_result, 64);
LAYOUT_MEMBER(spotwise_cylinder_strip_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_cylinder_strip_result, whole_upper_half, 4);
LAYOUT_MEMBER(spotwise_cylinder_strip_result, half_chord_m, 8);
LAYOUT_MEMBER(spotwise_cylinder_strip_result, full_chord_m, 16);
LAYOUT_MEMBER(spotwise_cylinder_strip_result, arc_length_m, 24);
LAYOUT_MEMBER(spotwise_cylinder_strip_result, edge_sag_m, 32);
LAYOUT_MEMBER(spotwise_cylinder_strip_result, edge_incidence_rad, 40);
LAYOUT_MEMBER(spotwise_cylinder_strip_result, edge_irradiance_ratio, 48);
LAYOUT_MEMBER(spotwise_cylinder_strip_result, focus_z_m, 56);

LAYOUT_SIZE(spotwise_refocus_plan_result, 48);
LAYOUT_MEMBER(spotwise_refocus_plan_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_refocus_plan_result, passes, 4);
LAYOUT_MEMBER(spotwise_refocus_plan_result, passes_per_stage, 8);
LAYOUT_MEMBER(spotwise_refocus_plan_result, stages, 12);
LAYOUT_MEMBER(spotwise_refocus_plan_result, last_stage_passes, 16);
LAYOUT_MEMBER(spotwise_refocus_plan_result, stays_in_focus, 20);
LAYOUT_MEMBER(spotwise_refocus_plan_result, reached_depth_m, 24);
LAYOUT_MEMBER(spotwise_refocus_plan_result, stage_depth_m, 32);
LAYOUT_MEMBER(spotwise_refocus_plan_result, usable_depth_m, 40);

LAYOUT_SIZE(spotwise_spot_through_result, 88);
LAYOUT_MEMBER(spotwise_spot_through_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_spot_through_result, validity, 4);
LAYOUT_MEMBER(spotwise_spot_through_result, top_diameter_m, 8);
LAYOUT_MEMBER(spotwise_spot_through_result, bottom_diameter_m, 16);
LAYOUT_MEMBER(spotwise_spot_through_result, widest_m, 24);
LAYOUT_MEMBER(spotwise_spot_through_result, narrowest_m, 32);
LAYOUT_MEMBER(spotwise_spot_through_result, worst_growth, 40);
LAYOUT_MEMBER(spotwise_spot_through_result, taper_ratio, 48);
LAYOUT_MEMBER(spotwise_spot_through_result, taper_half_angle_rad, 56);
LAYOUT_MEMBER(spotwise_spot_through_result, best_focus_z_m, 64);
LAYOUT_MEMBER(spotwise_spot_through_result, best_worst_growth, 72);
LAYOUT_MEMBER(spotwise_spot_through_result, half_angle_rad, 80);
/* Pointers and lengths have 4 or 8 bytes, by the target. */
LAYOUT_SIZE(spotwise_surface, 64 + 6 * sizeof(void *));
LAYOUT_CHECK(sizeof(size_t) == sizeof(void *), size_of_a_length);
LAYOUT_MEMBER(spotwise_surface, struct_size, 0);
LAYOUT_MEMBER(spotwise_surface, surface, 4);
LAYOUT_MEMBER(spotwise_surface, bulge, 8);
LAYOUT_MEMBER(spotwise_surface, reserved, 12);
LAYOUT_MEMBER(spotwise_surface, slope_x, 16);
LAYOUT_MEMBER(spotwise_surface, slope_y, 24);
LAYOUT_MEMBER(spotwise_surface, curvature_radius_m, 32);
LAYOUT_MEMBER(spotwise_surface, crown_x_m, 40);
LAYOUT_MEMBER(spotwise_surface, crown_y_m, 48);
LAYOUT_MEMBER(spotwise_surface, axis_angle_rad, 56);
LAYOUT_MEMBER(spotwise_surface, x_m, 64);
LAYOUT_MEMBER(spotwise_surface, y_m, 64 + sizeof(void *));
LAYOUT_MEMBER(spotwise_surface, z_m, 64 + 2 * sizeof(void *));
LAYOUT_MEMBER(spotwise_surface, x_count, 64 + 3 * sizeof(void *));
LAYOUT_MEMBER(spotwise_surface, y_count, 64 + 4 * sizeof(void *));
LAYOUT_MEMBER(spotwise_surface, z_count, 64 + 5 * sizeof(void *));

LAYOUT_SIZE(spotwise_region, 40);
LAYOUT_MEMBER(spotwise_region, struct_size, 0);
LAYOUT_MEMBER(spotwise_region, reserved, 4);
LAYOUT_MEMBER(spotwise_region, x_least_m, 8);
LAYOUT_MEMBER(spotwise_region, x_greatest_m, 16);
LAYOUT_MEMBER(spotwise_region, y_least_m, 24);
LAYOUT_MEMBER(spotwise_region, y_greatest_m, 32);

LAYOUT_SIZE(spotwise_surface_place, 56);
LAYOUT_MEMBER(spotwise_surface_place, struct_size, 0);
LAYOUT_MEMBER(spotwise_surface_place, reserved, 4);
LAYOUT_MEMBER(spotwise_surface_place, z_m, 8);
LAYOUT_MEMBER(spotwise_surface_place, slope_x, 16);
LAYOUT_MEMBER(spotwise_surface_place, slope_y, 24);
LAYOUT_MEMBER(spotwise_surface_place, incidence_rad, 32);
LAYOUT_MEMBER(spotwise_surface_place, stretch, 40);
LAYOUT_MEMBER(spotwise_surface_place, irradiance_factor, 48);

LAYOUT_SIZE(spotwise_surface_extremes_result, 96);
LAYOUT_MEMBER(spotwise_surface_extremes_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_surface_extremes_result, missing_probes, 4);
LAYOUT_MEMBER(spotwise_surface_extremes_result, highest_z_m, 8);
LAYOUT_MEMBER(spotwise_surface_extremes_result, highest_x_m, 16);
LAYOUT_MEMBER(spotwise_surface_extremes_result, highest_y_m, 24);
LAYOUT_MEMBER(spotwise_surface_extremes_result, lowest_z_m, 32);
LAYOUT_MEMBER(spotwise_surface_extremes_result, lowest_x_m, 40);
LAYOUT_MEMBER(spotwise_surface_extremes_result, lowest_y_m, 48);
LAYOUT_MEMBER(spotwise_surface_extremes_result, range_m, 56);
LAYOUT_MEMBER(spotwise_surface_extremes_result, steepest_incidence_rad, 64);
LAYOUT_MEMBER(spotwise_surface_extremes_result, steepest_x_m, 72);
LAYOUT_MEMBER(spotwise_surface_extremes_result, steepest_y_m, 80);
LAYOUT_MEMBER(spotwise_surface_extremes_result, unknown_share, 88);

LAYOUT_SIZE(spotwise_surface_verdict, 1048);
LAYOUT_MEMBER(spotwise_surface_verdict, struct_size, 0);
LAYOUT_MEMBER(spotwise_surface_verdict, bands, 4);
LAYOUT_MEMBER(spotwise_surface_verdict, verdict, 8);
LAYOUT_MEMBER(spotwise_surface_verdict, extremes, 896);
LAYOUT_MEMBER(spotwise_surface_verdict, worst_x_m, 992);
LAYOUT_MEMBER(spotwise_surface_verdict, worst_y_m, 1000);
LAYOUT_MEMBER(spotwise_surface_verdict, worst_z_m, 1008);
LAYOUT_MEMBER(spotwise_surface_verdict, share_in_depth, 1016);
LAYOUT_MEMBER(spotwise_surface_verdict, share_that_holds, 1024);
LAYOUT_MEMBER(spotwise_surface_verdict, steepest_stretch, 1032);
LAYOUT_MEMBER(spotwise_surface_verdict, steepest_irradiance_factor, 1040);

LAYOUT_SIZE(spotwise_caustic_crossing_result, 40);
LAYOUT_MEMBER(spotwise_caustic_crossing_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_caustic_crossing_result, validity, 4);
LAYOUT_MEMBER(spotwise_caustic_crossing_result, sharper_in_focus, 8);
LAYOUT_MEMBER(spotwise_caustic_crossing_result, sharper_far_off, 12);
LAYOUT_MEMBER(spotwise_caustic_crossing_result, offset_m, 16);
LAYOUT_MEMBER(spotwise_caustic_crossing_result, diameter_m, 24);
LAYOUT_MEMBER(spotwise_caustic_crossing_result, half_angle_rad, 32);

LAYOUT_SIZE(spotwise_lens_candidate, 48);
LAYOUT_MEMBER(spotwise_lens_candidate, struct_size, 0);
LAYOUT_MEMBER(spotwise_lens_candidate, lens, 4);
LAYOUT_MEMBER(spotwise_lens_candidate, glass, 8);
LAYOUT_MEMBER(spotwise_lens_candidate, lens_shape, 12);
LAYOUT_MEMBER(spotwise_lens_candidate, focal_length_m, 16);
LAYOUT_MEMBER(spotwise_lens_candidate, shape_factor, 24);
LAYOUT_MEMBER(spotwise_lens_candidate, clear_aperture_m, 32);
LAYOUT_MEMBER(spotwise_lens_candidate, working_distance_m, 40);

LAYOUT_SIZE(spotwise_set_up, 24);
LAYOUT_MEMBER(spotwise_set_up, struct_size, 0);
LAYOUT_MEMBER(spotwise_set_up, reserved, 4);
LAYOUT_MEMBER(spotwise_set_up, tolerance_m, 8);
LAYOUT_MEMBER(spotwise_set_up, least_clearance_m, 16);

LAYOUT_SIZE(spotwise_lens_choice, 56);
LAYOUT_MEMBER(spotwise_lens_choice, struct_size, 0);
LAYOUT_MEMBER(spotwise_lens_choice, serving, 4);
LAYOUT_MEMBER(spotwise_lens_choice, best, 8);
LAYOUT_MEMBER(spotwise_lens_choice, reserved, 12);
LAYOUT_MEMBER(spotwise_lens_choice, focus_z_m, 16);
LAYOUT_MEMBER(spotwise_lens_choice, half_span_m, 24);
LAYOUT_MEMBER(spotwise_lens_choice, crossing_offset_m, 32);
LAYOUT_MEMBER(spotwise_lens_choice, crossing_diameter_m, 40);
LAYOUT_MEMBER(spotwise_lens_choice, flip_span_m, 48);

LAYOUT_SIZE(spotwise_lens_ranking, 240);
LAYOUT_MEMBER(spotwise_lens_ranking, struct_size, 0);
LAYOUT_MEMBER(spotwise_lens_ranking, rank, 4);
LAYOUT_MEMBER(spotwise_lens_ranking, reasons, 8);
LAYOUT_MEMBER(spotwise_lens_ranking, outcome, 12);
LAYOUT_MEMBER(spotwise_lens_ranking, validity, 16);
LAYOUT_MEMBER(spotwise_lens_ranking, reserved, 20);
LAYOUT_MEMBER(spotwise_lens_ranking, refused, 24);
LAYOUT_MEMBER(spotwise_lens_ranking, waist_diameter_m, 64);
LAYOUT_MEMBER(spotwise_lens_ranking, rayleigh_range_m, 72);
LAYOUT_MEMBER(spotwise_lens_ranking, lens_to_waist_m, 80);
LAYOUT_MEMBER(spotwise_lens_ranking, depth_full_m, 88);
LAYOUT_MEMBER(spotwise_lens_ranking, spare_half_span_m, 96);
LAYOUT_MEMBER(spotwise_lens_ranking, clearance_m, 104);
LAYOUT_MEMBER(spotwise_lens_ranking, worst, 112);
LAYOUT_SIZE(spotwise_region_heights_result, 48);
LAYOUT_MEMBER(spotwise_region_heights_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_region_heights_result, reserved, 4);
LAYOUT_MEMBER(spotwise_region_heights_result, mean_z_m, 8);
LAYOUT_MEMBER(spotwise_region_heights_result, z_deviation_m, 16);
LAYOUT_MEMBER(spotwise_region_heights_result, highest_z_m, 24);
LAYOUT_MEMBER(spotwise_region_heights_result, lowest_z_m, 32);
LAYOUT_MEMBER(spotwise_region_heights_result, unknown_share, 40);

LAYOUT_SIZE(spotwise_share_in_focus_result, 40);
LAYOUT_MEMBER(spotwise_share_in_focus_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_share_in_focus_result, reserved, 4);
LAYOUT_MEMBER(spotwise_share_in_focus_result, in_focus, 8);
LAYOUT_MEMBER(spotwise_share_in_focus_result, toward_lens, 16);
LAYOUT_MEMBER(spotwise_share_in_focus_result, away_from_lens, 24);
LAYOUT_MEMBER(spotwise_share_in_focus_result, unknown_share, 32);

LAYOUT_SIZE(spotwise_focus_height, 40);
LAYOUT_MEMBER(spotwise_focus_height, struct_size, 0);
LAYOUT_MEMBER(spotwise_focus_height, reserved, 4);
LAYOUT_MEMBER(spotwise_focus_height, focus_z_m, 8);
LAYOUT_MEMBER(spotwise_focus_height, worst_growth, 16);
LAYOUT_MEMBER(spotwise_focus_height, mean_area_growth, 24);
LAYOUT_MEMBER(spotwise_focus_height, share_in_focus, 32);

LAYOUT_SIZE(spotwise_surface_focus, 144);
LAYOUT_MEMBER(spotwise_surface_focus, struct_size, 0);
LAYOUT_MEMBER(spotwise_surface_focus, validity, 4);
LAYOUT_MEMBER(spotwise_surface_focus, least_worst, 8);
LAYOUT_MEMBER(spotwise_surface_focus, least_mean_area, 48);
LAYOUT_MEMBER(spotwise_surface_focus, most_in_focus, 88);
LAYOUT_MEMBER(spotwise_surface_focus, unknown_share, 128);
LAYOUT_MEMBER(spotwise_surface_focus, half_angle_rad, 136);

LAYOUT_SIZE(spotwise_scan_lens, 56);
LAYOUT_MEMBER(spotwise_scan_lens, struct_size, 0);
LAYOUT_MEMBER(spotwise_scan_lens, reserved, 4);
LAYOUT_MEMBER(spotwise_scan_lens, focal_length_m, 8);
LAYOUT_MEMBER(spotwise_scan_lens, field_radius_m, 16);
LAYOUT_MEMBER(spotwise_scan_lens, edge_tangential_z_m, 24);
LAYOUT_MEMBER(spotwise_scan_lens, edge_sagittal_z_m, 32);
LAYOUT_MEMBER(spotwise_scan_lens, edge_incidence_rad, 40);
LAYOUT_MEMBER(spotwise_scan_lens, edge_spot_ratio, 48);

LAYOUT_SIZE(spotwise_scan_field_spot, 120);
LAYOUT_MEMBER(spotwise_scan_field_spot, struct_size, 0);
LAYOUT_MEMBER(spotwise_scan_field_spot, validity, 4);
LAYOUT_MEMBER(spotwise_scan_field_spot, radius_m, 8);
LAYOUT_MEMBER(spotwise_scan_field_spot, field_angle_rad, 16);
LAYOUT_MEMBER(spotwise_scan_field_spot, incidence_rad, 24);
LAYOUT_MEMBER(spotwise_scan_field_spot, tangential_focus_z_m, 32);
LAYOUT_MEMBER(spotwise_scan_field_spot, sagittal_focus_z_m, 40);
LAYOUT_MEMBER(spotwise_scan_field_spot, diameter_along_radius_m, 48);
LAYOUT_MEMBER(spotwise_scan_field_spot, diameter_across_radius_m, 56);
LAYOUT_MEMBER(spotwise_scan_field_spot, growth_along_radius, 64);
LAYOUT_MEMBER(spotwise_scan_field_spot, growth_across_radius, 72);
LAYOUT_MEMBER(spotwise_scan_field_spot, irradiance_ratio, 80);
LAYOUT_MEMBER(spotwise_scan_field_spot, line_dose_ratio_along_radius, 88);
LAYOUT_MEMBER(spotwise_scan_field_spot, line_dose_ratio_across_radius, 96);
LAYOUT_MEMBER(spotwise_scan_field_spot, grazing_ratio, 104);
LAYOUT_MEMBER(spotwise_scan_field_spot, half_angle_rad, 112);

LAYOUT_SIZE(spotwise_scan_field_extent_result, 48);
LAYOUT_MEMBER(spotwise_scan_field_extent_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_scan_field_extent_result, validity, 4);
LAYOUT_MEMBER(spotwise_scan_field_extent_result, whole_field, 8);
LAYOUT_MEMBER(spotwise_scan_field_extent_result, reserved, 12);
LAYOUT_MEMBER(spotwise_scan_field_extent_result, radius_m, 16);
LAYOUT_MEMBER(spotwise_scan_field_extent_result, square_side_m, 24);
LAYOUT_MEMBER(spotwise_scan_field_extent_result, grazing_ratio, 32);
LAYOUT_MEMBER(spotwise_scan_field_extent_result, half_angle_rad, 40);

LAYOUT_SIZE(spotwise_scan_field_focus_result, 64);
LAYOUT_MEMBER(spotwise_scan_field_focus_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_scan_field_focus_result, validity, 4);
LAYOUT_MEMBER(spotwise_scan_field_focus_result, best_z_m, 8);
LAYOUT_MEMBER(spotwise_scan_field_focus_result, greatest_defocus_m, 16);
LAYOUT_MEMBER(spotwise_scan_field_focus_result, centre_growth, 24);
LAYOUT_MEMBER(spotwise_scan_field_focus_result, edge_growth_along_radius, 32);
LAYOUT_MEMBER(spotwise_scan_field_focus_result, edge_growth_across_radius, 40);
LAYOUT_MEMBER(spotwise_scan_field_focus_result, grazing_ratio, 48);
LAYOUT_MEMBER(spotwise_scan_field_focus_result, half_angle_rad, 56);

LAYOUT_SIZE(spotwise_good_mark, 40);
LAYOUT_MEMBER(spotwise_good_mark, struct_size, 0);
LAYOUT_MEMBER(spotwise_good_mark, mark_kind, 4);
LAYOUT_MEMBER(spotwise_good_mark, dose_ratio, 8);
LAYOUT_MEMBER(spotwise_good_mark, dose_ratio_deviation, 16);
LAYOUT_MEMBER(spotwise_good_mark, width_m, 24);
LAYOUT_MEMBER(spotwise_good_mark, width_deviation_m, 32);

LAYOUT_SIZE(spotwise_depth_reading, 40);
LAYOUT_MEMBER(spotwise_depth_reading, struct_size, 0);
LAYOUT_MEMBER(spotwise_depth_reading, depth_law, 4);
LAYOUT_MEMBER(spotwise_depth_reading, good_depth, 8);
LAYOUT_MEMBER(spotwise_depth_reading, good_depth_deviation, 16);
LAYOUT_MEMBER(spotwise_depth_reading, depth, 24);
LAYOUT_MEMBER(spotwise_depth_reading, depth_deviation, 32);

LAYOUT_SIZE(spotwise_mark_diagnosis, 120);
LAYOUT_MEMBER(spotwise_mark_diagnosis, struct_size, 0);
LAYOUT_MEMBER(spotwise_mark_diagnosis, cause, 4);
LAYOUT_MEMBER(spotwise_mark_diagnosis, further_test, 8);
LAYOUT_MEMBER(spotwise_mark_diagnosis, ambiguities, 12);
LAYOUT_MEMBER(spotwise_mark_diagnosis, validity, 16);
LAYOUT_MEMBER(spotwise_mark_diagnosis, reserved, 20);
LAYOUT_MEMBER(spotwise_mark_diagnosis, growth, 24);
LAYOUT_MEMBER(spotwise_mark_diagnosis, growth_deviation, 32);
LAYOUT_MEMBER(spotwise_mark_diagnosis, offset_m, 40);
LAYOUT_MEMBER(spotwise_mark_diagnosis, least_offset_m, 48);
LAYOUT_MEMBER(spotwise_mark_diagnosis, greatest_offset_m, 56);
LAYOUT_MEMBER(spotwise_mark_diagnosis, power_ratio, 64);
LAYOUT_MEMBER(spotwise_mark_diagnosis, power_ratio_deviation, 72);
LAYOUT_MEMBER(spotwise_mark_diagnosis, least_power_ratio, 80);
LAYOUT_MEMBER(spotwise_mark_diagnosis, greatest_power_ratio, 88);
LAYOUT_MEMBER(spotwise_mark_diagnosis, correlation, 96);
LAYOUT_MEMBER(spotwise_mark_diagnosis, dose_ratio, 104);
LAYOUT_MEMBER(spotwise_mark_diagnosis, half_angle_rad, 112);

LAYOUT_SIZE(spotwise_width_diagnosis, 120);
LAYOUT_MEMBER(spotwise_width_diagnosis, struct_size, 0);
LAYOUT_MEMBER(spotwise_width_diagnosis, cause, 4);
LAYOUT_MEMBER(spotwise_width_diagnosis, further_test, 8);
LAYOUT_MEMBER(spotwise_width_diagnosis, ambiguities, 12);
LAYOUT_MEMBER(spotwise_width_diagnosis, validity, 16);
LAYOUT_MEMBER(spotwise_width_diagnosis, reserved, 20);
LAYOUT_MEMBER(spotwise_width_diagnosis, near_growth, 24);
LAYOUT_MEMBER(spotwise_width_diagnosis, near_offset_m, 32);
LAYOUT_MEMBER(spotwise_width_diagnosis, near_least_offset_m, 40);
LAYOUT_MEMBER(spotwise_width_diagnosis, near_greatest_offset_m, 48);
LAYOUT_MEMBER(spotwise_width_diagnosis, far_growth, 56);
LAYOUT_MEMBER(spotwise_width_diagnosis, far_offset_m, 64);
LAYOUT_MEMBER(spotwise_width_diagnosis, far_least_offset_m, 72);
LAYOUT_MEMBER(spotwise_width_diagnosis, far_greatest_offset_m, 80);
LAYOUT_MEMBER(spotwise_width_diagnosis, power_ratio, 88);
LAYOUT_MEMBER(spotwise_width_diagnosis, least_power_ratio, 96);
LAYOUT_MEMBER(spotwise_width_diagnosis, greatest_power_ratio, 104);
LAYOUT_MEMBER(spotwise_width_diagnosis, half_angle_rad, 112);

LAYOUT_SIZE(spotwise_patch_settlement, 120);
LAYOUT_MEMBER(spotwise_patch_settlement, struct_size, 0);
LAYOUT_MEMBER(spotwise_patch_settlement, cause, 4);
LAYOUT_MEMBER(spotwise_patch_settlement, further_test, 8);
LAYOUT_MEMBER(spotwise_patch_settlement, ambiguities, 12);
LAYOUT_MEMBER(spotwise_patch_settlement, validity, 16);
LAYOUT_MEMBER(spotwise_patch_settlement, reserved, 20);
LAYOUT_MEMBER(spotwise_patch_settlement, power_ratio, 24);
LAYOUT_MEMBER(spotwise_patch_settlement, least_power_ratio, 32);
LAYOUT_MEMBER(spotwise_patch_settlement, greatest_power_ratio, 40);
LAYOUT_MEMBER(spotwise_patch_settlement, near_growth, 48);
LAYOUT_MEMBER(spotwise_patch_settlement, near_offset_m, 56);
LAYOUT_MEMBER(spotwise_patch_settlement, near_least_offset_m, 64);
LAYOUT_MEMBER(spotwise_patch_settlement, near_greatest_offset_m, 72);
LAYOUT_MEMBER(spotwise_patch_settlement, far_growth, 80);
LAYOUT_MEMBER(spotwise_patch_settlement, far_offset_m, 88);
LAYOUT_MEMBER(spotwise_patch_settlement, far_least_offset_m, 96);
LAYOUT_MEMBER(spotwise_patch_settlement, far_greatest_offset_m, 104);
LAYOUT_MEMBER(spotwise_patch_settlement, half_angle_rad, 112);

LAYOUT_SIZE(spotwise_power_step, 64);
LAYOUT_MEMBER(spotwise_power_step, struct_size, 0);
LAYOUT_MEMBER(spotwise_power_step, mark_kind, 4);
LAYOUT_MEMBER(spotwise_power_step, dose_ratio, 8);
LAYOUT_MEMBER(spotwise_power_step, dose_ratio_deviation, 16);
LAYOUT_MEMBER(spotwise_power_step, power_step, 24);
LAYOUT_MEMBER(spotwise_power_step, width_m, 32);
LAYOUT_MEMBER(spotwise_power_step, width_deviation_m, 40);
LAYOUT_MEMBER(spotwise_power_step, stepped_width_m, 48);
LAYOUT_MEMBER(spotwise_power_step, stepped_width_deviation_m, 56);

LAYOUT_SIZE(spotwise_power_settlement, 112);
LAYOUT_MEMBER(spotwise_power_settlement, struct_size, 0);
LAYOUT_MEMBER(spotwise_power_settlement, cause, 4);
LAYOUT_MEMBER(spotwise_power_settlement, further_test, 8);
LAYOUT_MEMBER(spotwise_power_settlement, ambiguities, 12);
LAYOUT_MEMBER(spotwise_power_settlement, validity, 16);
LAYOUT_MEMBER(spotwise_power_settlement, reserved, 20);
LAYOUT_MEMBER(spotwise_power_settlement, spot_diameter_m, 24);
LAYOUT_MEMBER(spotwise_power_settlement, spot_diameter_deviation_m, 32);
LAYOUT_MEMBER(spotwise_power_settlement, growth, 40);
LAYOUT_MEMBER(spotwise_power_settlement, offset_m, 48);
LAYOUT_MEMBER(spotwise_power_settlement, least_offset_m, 56);
LAYOUT_MEMBER(spotwise_power_settlement, greatest_offset_m, 64);
LAYOUT_MEMBER(spotwise_power_settlement, dose_ratio, 72);
LAYOUT_MEMBER(spotwise_power_settlement, power_ratio, 80);
LAYOUT_MEMBER(spotwise_power_settlement, least_power_ratio, 88);
LAYOUT_MEMBER(spotwise_power_settlement, greatest_power_ratio, 96);
LAYOUT_MEMBER(spotwise_power_settlement, half_angle_rad, 104);

LAYOUT_SIZE(spotwise_height_readings, 56);
LAYOUT_MEMBER(spotwise_height_readings, struct_size, 0);
LAYOUT_MEMBER(spotwise_height_readings, mark_kind, 4);
LAYOUT_MEMBER(spotwise_height_readings, depth_law, 8);
LAYOUT_MEMBER(spotwise_height_readings, reserved, 12);
LAYOUT_MEMBER(spotwise_height_readings, height_step_m, 16);
LAYOUT_MEMBER(spotwise_height_readings, toward_lens, 24);
LAYOUT_MEMBER(spotwise_height_readings, middle, 32);
LAYOUT_MEMBER(spotwise_height_readings, away_from_lens, 40);
LAYOUT_MEMBER(spotwise_height_readings, deviation, 48);

LAYOUT_SIZE(spotwise_height_settlement, 56);
LAYOUT_MEMBER(spotwise_height_settlement, struct_size, 0);
LAYOUT_MEMBER(spotwise_height_settlement, verdict, 4);
LAYOUT_MEMBER(spotwise_height_settlement, validity, 8);
LAYOUT_MEMBER(spotwise_height_settlement, reserved, 12);
LAYOUT_MEMBER(spotwise_height_settlement, z_offset_m, 16);
LAYOUT_MEMBER(spotwise_height_settlement, z_offset_deviation_m, 24);
LAYOUT_MEMBER(spotwise_height_settlement, least_z_offset_m, 32);
LAYOUT_MEMBER(spotwise_height_settlement, greatest_z_offset_m, 40);
LAYOUT_MEMBER(spotwise_height_settlement, half_angle_rad, 48);
LAYOUT_SIZE(spotwise_learned_focus, 72);
LAYOUT_MEMBER(spotwise_learned_focus, struct_size, 0);
LAYOUT_MEMBER(spotwise_learned_focus, reserved, 4);
LAYOUT_MEMBER(spotwise_learned_focus, wavelength_m, 8);
LAYOUT_MEMBER(spotwise_learned_focus, measured_m2, 16);
LAYOUT_MEMBER(spotwise_learned_focus, m2_deviation, 24);
LAYOUT_MEMBER(spotwise_learned_focus, waist_diameter_m, 32);
LAYOUT_MEMBER(spotwise_learned_focus, focal_length_m, 40);
LAYOUT_MEMBER(spotwise_learned_focus, focus_shift_m, 48);
LAYOUT_MEMBER(spotwise_learned_focus, focus_deviation_m, 56);
LAYOUT_MEMBER(spotwise_learned_focus, coverage_factor_95, 64);

LAYOUT_SIZE(spotwise_calibrated_set_up_result, 64);
LAYOUT_MEMBER(spotwise_calibrated_set_up_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_calibrated_set_up_result, validity, 4);
LAYOUT_MEMBER(spotwise_calibrated_set_up_result, m2, 8);
LAYOUT_MEMBER(spotwise_calibrated_set_up_result, raw_waist_diameter_m, 16);
LAYOUT_MEMBER(spotwise_calibrated_set_up_result, waist_to_lens_m, 24);
LAYOUT_MEMBER(spotwise_calibrated_set_up_result, diameter_at_lens_m, 32);
LAYOUT_MEMBER(spotwise_calibrated_set_up_result, rayleigh_range_m, 40);
LAYOUT_MEMBER(spotwise_calibrated_set_up_result, focus_deviation_m, 48);
LAYOUT_MEMBER(spotwise_calibrated_set_up_result, half_angle_rad, 56);

LAYOUT_SIZE(spotwise_learned_line, 72);
LAYOUT_MEMBER(spotwise_learned_line, struct_size, 0);
LAYOUT_MEMBER(spotwise_learned_line, reserved, 4);
LAYOUT_MEMBER(spotwise_learned_line, power_w, 8);
LAYOUT_MEMBER(spotwise_learned_line, speed_m_per_s, 16);
LAYOUT_MEMBER(spotwise_learned_line, waist_diameter_m, 24);
LAYOUT_MEMBER(spotwise_learned_line, waist_diameter_deviation_m, 32);
LAYOUT_MEMBER(spotwise_learned_line, dose_ratio, 40);
LAYOUT_MEMBER(spotwise_learned_line, relative_dose_ratio_deviation, 48);
LAYOUT_MEMBER(spotwise_learned_line, correlation, 56);
LAYOUT_MEMBER(spotwise_learned_line, coverage_factor_95, 64);

LAYOUT_SIZE(spotwise_learned_threshold_result, 24);
LAYOUT_MEMBER(spotwise_learned_threshold_result, struct_size, 0);
LAYOUT_MEMBER(spotwise_learned_threshold_result, reserved, 4);
LAYOUT_MEMBER(spotwise_learned_threshold_result, threshold_j_per_m2, 8);
LAYOUT_MEMBER(spotwise_learned_threshold_result, relative_deviation, 16);

LAYOUT_SIZE(spotwise_eye_judgement, 32);
LAYOUT_MEMBER(spotwise_eye_judgement, struct_size, 0);
LAYOUT_MEMBER(spotwise_eye_judgement, reserved, 4);
LAYOUT_MEMBER(spotwise_eye_judgement, rayleigh_range_m, 8);
LAYOUT_MEMBER(spotwise_eye_judgement, relative_deviation, 16);
LAYOUT_MEMBER(spotwise_eye_judgement, coverage_probability, 24);

LAYOUT_SIZE(spotwise_vanishing_focus, 88);
LAYOUT_MEMBER(spotwise_vanishing_focus, struct_size, 0);
LAYOUT_MEMBER(spotwise_vanishing_focus, warnings, 4);
LAYOUT_MEMBER(spotwise_vanishing_focus, focus_z_m, 8);
LAYOUT_MEMBER(spotwise_vanishing_focus, focus_z_deviation_m, 16);
LAYOUT_MEMBER(spotwise_vanishing_focus, least_z_m, 24);
LAYOUT_MEMBER(spotwise_vanishing_focus, greatest_z_m, 32);
LAYOUT_MEMBER(spotwise_vanishing_focus, toward_lens_z_m, 40);
LAYOUT_MEMBER(spotwise_vanishing_focus, toward_lens_deviation_m, 48);
LAYOUT_MEMBER(spotwise_vanishing_focus, away_from_lens_z_m, 56);
LAYOUT_MEMBER(spotwise_vanishing_focus, away_from_lens_deviation_m, 64);
LAYOUT_MEMBER(spotwise_vanishing_focus, half_run_m, 72);
LAYOUT_MEMBER(spotwise_vanishing_focus, dose_ratio, 80);

LAYOUT_SIZE(spotwise_rank_focus, 80);
LAYOUT_MEMBER(spotwise_rank_focus, struct_size, 0);
LAYOUT_MEMBER(spotwise_rank_focus, warnings, 4);
LAYOUT_MEMBER(spotwise_rank_focus, focus_z_m, 8);
LAYOUT_MEMBER(spotwise_rank_focus, focus_z_deviation_m, 16);
LAYOUT_MEMBER(spotwise_rank_focus, least_z_m, 24);
LAYOUT_MEMBER(spotwise_rank_focus, greatest_z_m, 32);
LAYOUT_MEMBER(spotwise_rank_focus, usable_toward_lens_z_m, 40);
LAYOUT_MEMBER(spotwise_rank_focus, usable_toward_lens_deviation_m, 48);
LAYOUT_MEMBER(spotwise_rank_focus, usable_away_from_lens_z_m, 56);
LAYOUT_MEMBER(spotwise_rank_focus, usable_away_from_lens_deviation_m, 64);
LAYOUT_MEMBER(spotwise_rank_focus, sharp_half_run_m, 72);

LAYOUT_SIZE(spotwise_series_request, 152);
LAYOUT_MEMBER(spotwise_series_request, struct_size, 0);
LAYOUT_MEMBER(spotwise_series_request, purpose, 4);
LAYOUT_MEMBER(spotwise_series_request, mark_kind, 8);
LAYOUT_MEMBER(spotwise_series_request, direction, 12);
LAYOUT_MEMBER(spotwise_series_request, dose_ratio, 16);
LAYOUT_MEMBER(spotwise_series_request, expected_focus_z_m, 24);
LAYOUT_MEMBER(spotwise_series_request, focus_uncertainty_m, 32);
LAYOUT_MEMBER(spotwise_series_request, step_m, 40);
LAYOUT_MEMBER(spotwise_series_request, half_range_m, 48);
LAYOUT_MEMBER(spotwise_series_request, axis_step_m, 56);
LAYOUT_MEMBER(spotwise_series_request, backlash_m, 64);
LAYOUT_MEMBER(spotwise_series_request, clearance_m, 72);
LAYOUT_MEMBER(spotwise_series_request, least_clearance_m, 80);
LAYOUT_MEMBER(spotwise_series_request, travel_toward_lens_m, 88);
LAYOUT_MEMBER(spotwise_series_request, travel_away_from_lens_m, 96);
LAYOUT_MEMBER(spotwise_series_request, piece_width_m, 104);
LAYOUT_MEMBER(spotwise_series_request, piece_height_m, 112);
LAYOUT_MEMBER(spotwise_series_request, label_width_m, 120);
LAYOUT_MEMBER(spotwise_series_request, label_height_m, 128);
LAYOUT_MEMBER(spotwise_series_request, gap_m, 136);
LAYOUT_MEMBER(spotwise_series_request, row_width_m, 144);

LAYOUT_SIZE(spotwise_planned_piece, 64);
LAYOUT_MEMBER(spotwise_planned_piece, struct_size, 0);
LAYOUT_MEMBER(spotwise_planned_piece, role, 4);
LAYOUT_MEMBER(spotwise_planned_piece, skipped, 8);
LAYOUT_MEMBER(spotwise_planned_piece, reserved, 12);
LAYOUT_MEMBER(spotwise_planned_piece, z_m, 16);
LAYOUT_MEMBER(spotwise_planned_piece, approach_z_m, 24);
LAYOUT_MEMBER(spotwise_planned_piece, x_m, 32);
LAYOUT_MEMBER(spotwise_planned_piece, y_m, 40);
LAYOUT_MEMBER(spotwise_planned_piece, label_x_m, 48);
LAYOUT_MEMBER(spotwise_planned_piece, label_y_m, 56);

LAYOUT_SIZE(spotwise_series_plan, 104);
LAYOUT_MEMBER(spotwise_series_plan, struct_size, 0);
LAYOUT_MEMBER(spotwise_series_plan, steps_per_side, 4);
LAYOUT_MEMBER(spotwise_series_plan, steps_toward_lens, 8);
LAYOUT_MEMBER(spotwise_series_plan, steps_away_from_lens, 12);
LAYOUT_MEMBER(spotwise_series_plan, pieces, 16);
LAYOUT_MEMBER(spotwise_series_plan, engraved, 20);
LAYOUT_MEMBER(spotwise_series_plan, columns, 24);
LAYOUT_MEMBER(spotwise_series_plan, rows, 28);
LAYOUT_MEMBER(spotwise_series_plan, validity, 32);
LAYOUT_MEMBER(spotwise_series_plan, reserved, 36);
LAYOUT_MEMBER(spotwise_series_plan, step_m, 40);
LAYOUT_MEMBER(spotwise_series_plan, half_range_m, 48);
LAYOUT_MEMBER(spotwise_series_plan, pre_travel_m, 56);
LAYOUT_MEMBER(spotwise_series_plan, rayleigh_range_m, 64);
LAYOUT_MEMBER(spotwise_series_plan, vanishing_offset_m, 72);
LAYOUT_MEMBER(spotwise_series_plan, width_m, 80);
LAYOUT_MEMBER(spotwise_series_plan, height_m, 88);
LAYOUT_MEMBER(spotwise_series_plan, half_angle_rad, 96);

LAYOUT_SIZE(spotwise_repeated_width, 40);
LAYOUT_MEMBER(spotwise_repeated_width, struct_size, 0);
LAYOUT_MEMBER(spotwise_repeated_width, reserved, 4);
LAYOUT_MEMBER(spotwise_repeated_width, first_width_m, 8);
LAYOUT_MEMBER(spotwise_repeated_width, first_deviation_m, 16);
LAYOUT_MEMBER(spotwise_repeated_width, last_width_m, 24);
LAYOUT_MEMBER(spotwise_repeated_width, last_deviation_m, 32);

LAYOUT_SIZE(spotwise_drift, 40);
LAYOUT_MEMBER(spotwise_drift, struct_size, 0);
LAYOUT_MEMBER(spotwise_drift, drifted, 4);
LAYOUT_MEMBER(spotwise_drift, change_m, 8);
LAYOUT_MEMBER(spotwise_drift, change_deviation_m, 16);
LAYOUT_MEMBER(spotwise_drift, significance, 24);
LAYOUT_MEMBER(spotwise_drift, chance, 32);

LAYOUT_SIZE(spotwise_mark_series, 72);
LAYOUT_MEMBER(spotwise_mark_series, struct_size, 0);
LAYOUT_MEMBER(spotwise_mark_series, mark_kind, 4);
LAYOUT_MEMBER(spotwise_mark_series, scatter, 8);
LAYOUT_MEMBER(spotwise_mark_series, reserved, 12);
LAYOUT_MEMBER(spotwise_mark_series, wavelength_m, 16);
LAYOUT_MEMBER(spotwise_mark_series, m2, 24);
LAYOUT_MEMBER(spotwise_mark_series, relative_m2_deviation, 32);
LAYOUT_MEMBER(spotwise_mark_series, waist_diameter_m, 40);
LAYOUT_MEMBER(spotwise_mark_series, relative_waist_diameter_deviation, 48);
LAYOUT_MEMBER(spotwise_mark_series, outlier_limit, 56);
LAYOUT_MEMBER(spotwise_mark_series, confidence, 64);

LAYOUT_SIZE(spotwise_mark_fit, 264);
LAYOUT_MEMBER(spotwise_mark_fit, struct_size, 0);
LAYOUT_MEMBER(spotwise_mark_fit, marks_used, 4);
LAYOUT_MEMBER(spotwise_mark_fit, vanished_used, 8);
LAYOUT_MEMBER(spotwise_mark_fit, degrees_of_freedom, 12);
LAYOUT_MEMBER(spotwise_mark_fit, cautions, 16);
LAYOUT_MEMBER(spotwise_mark_fit, further, 20);
LAYOUT_MEMBER(spotwise_mark_fit, waist_z_m, 24);
LAYOUT_MEMBER(spotwise_mark_fit, waist_z_deviation_m, 32);
LAYOUT_MEMBER(spotwise_mark_fit, waist_z_least_m, 40);
LAYOUT_MEMBER(spotwise_mark_fit, waist_z_greatest_m, 48);
LAYOUT_MEMBER(spotwise_mark_fit, waist_diameter_m, 56);
LAYOUT_MEMBER(spotwise_mark_fit, waist_diameter_deviation_m, 64);
LAYOUT_MEMBER(spotwise_mark_fit, waist_diameter_least_m, 72);
LAYOUT_MEMBER(spotwise_mark_fit, waist_diameter_greatest_m, 80);
LAYOUT_MEMBER(spotwise_mark_fit, rayleigh_range_m, 88);
LAYOUT_MEMBER(spotwise_mark_fit, rayleigh_range_deviation_m, 96);
LAYOUT_MEMBER(spotwise_mark_fit, rayleigh_range_least_m, 104);
LAYOUT_MEMBER(spotwise_mark_fit, rayleigh_range_greatest_m, 112);
LAYOUT_MEMBER(spotwise_mark_fit, dose_ratio, 120);
LAYOUT_MEMBER(spotwise_mark_fit, dose_ratio_deviation, 128);
LAYOUT_MEMBER(spotwise_mark_fit, dose_ratio_least, 136);
LAYOUT_MEMBER(spotwise_mark_fit, dose_ratio_greatest, 144);
LAYOUT_MEMBER(spotwise_mark_fit, m2, 152);
LAYOUT_MEMBER(spotwise_mark_fit, m2_deviation, 160);
LAYOUT_MEMBER(spotwise_mark_fit, m2_least, 168);
LAYOUT_MEMBER(spotwise_mark_fit, m2_greatest, 176);
LAYOUT_MEMBER(spotwise_mark_fit, correlation_z_diameter, 184);
LAYOUT_MEMBER(spotwise_mark_fit, correlation_z_range, 192);
LAYOUT_MEMBER(spotwise_mark_fit, correlation_z_dose, 200);
LAYOUT_MEMBER(spotwise_mark_fit, correlation_diameter_range, 208);
LAYOUT_MEMBER(spotwise_mark_fit, correlation_diameter_dose, 216);
LAYOUT_MEMBER(spotwise_mark_fit, correlation_range_dose, 224);
LAYOUT_MEMBER(spotwise_mark_fit, range_factor, 232);
LAYOUT_MEMBER(spotwise_mark_fit, chi_squared, 240);
LAYOUT_MEMBER(spotwise_mark_fit, chance, 248);
LAYOUT_MEMBER(spotwise_mark_fit, shape_significance, 256);

#ifdef SPOTWISE_ARTWORK
#include "layout_artwork.h"
#endif

#endif
