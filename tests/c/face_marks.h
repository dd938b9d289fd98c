/*
 * What the C face promises of dose, marks, fills and text: init functions, refusals, and the worked
 * examples of the header. Part of face.c, whose macros it uses.
 */
#ifndef SPOTWISE_TESTS_FACE_MARKS_H
#define SPOTWISE_TESTS_FACE_MARKS_H

/* Whether two numbers agree to this share. */
static int near_to(double found, double wanted, double share)
{
    return fabs(found / wanted - 1.0) < share;
}

/* Fresh grades are the defaults. */
static int is_fresh_grades(const spotwise_text_grades *grades)
{
    return grades->struct_size == sizeof *grades && grades->reserved == 0 && grades->crisp_exposure == 0.98 &&
           grades->good_window == 2.0 && grades->readable_window == 1.1;
}

static void check_init_of_marks(void)
{
    CHECK_INIT(spotwise_scan, 1);
    CHECK_INIT(spotwise_scan_dose_result, 1);
    CHECK_INIT(spotwise_pulse_dose_result, 1);
    CHECK_INIT(spotwise_material, 1);
    CHECK_INIT(spotwise_material_mark_result, 1);
    CHECK_INIT(spotwise_mark_width_result, 3);
    CHECK_INIT(spotwise_mark_limits_result, 3);
    CHECK_INIT(spotwise_fill_width_result, 3);
    CHECK_INIT(spotwise_fill_limits_result, 3);
    CHECK_INIT(spotwise_raster_ripple_result, 1);
    CHECK_INIT(spotwise_detail_exposure_result, 1);
    CHECK_INIT(spotwise_blur, 1);
    CHECK_INIT(spotwise_blur_budget_result, 1);
    CHECK_INIT(spotwise_taste, 1);
    CHECK_INIT(spotwise_fill_quality_result, 1);
    CHECK_INIT(spotwise_pulsed_line_result, 3);
    CHECK_INIT(spotwise_crater_result, 1);
    CHECK_INIT(spotwise_groove_result, 1);
    CHECK_INIT(spotwise_connected_speed_result, 1);
    CHECK_INIT(spotwise_mark_setting, 1);
    CHECK_INIT(spotwise_compensation, 3);
    CHECK_INIT(spotwise_typeface, 1);
    CHECK_INIT_AS(spotwise_text_grades, is_fresh_grades(&data[0]));
    CHECK_INIT(spotwise_typeface_shares_result, 1);
    CHECK_INIT(spotwise_smallest_text_result, 1);
    CHECK_INIT(spotwise_text_quality_result, 1);
    CHECK_INIT(spotwise_text_offset, 1);
}

/* 20 W at 0.5 m/s with a spot of 100 um, lines 50 um apart. */
static spotwise_scan good_scan(void)
{
    spotwise_scan scan;
    spotwise_scan_init(&scan);
    scan.power_w = 20.0;
    scan.speed_m_per_s = 0.5;
    scan.diameter_across_m = 100e-6;
    scan.diameter_along_m = 100e-6;
    scan.line_interval_m = 50e-6;
    return scan;
}

static spotwise_material good_material(void)
{
    spotwise_material material;
    spotwise_material_init(&material);
    material.response = SPOTWISE_RESPONSE_LOGARITHMIC_ABLATION;
    material.threshold_j_per_m2 = 0.5e6;
    material.incubation = 1.0;
    material.penetration_depth_m = 2e-9;
    return material;
}

static spotwise_blur good_blur(void)
{
    spotwise_blur blur;
    spotwise_blur_init(&blur);
    blur.diameter_across_m = 100e-6;
    blur.diameter_along_m = 100e-6;
    blur.speed_m_per_s = 20e-3;
    blur.diffusivity_m2_per_s = 1.09e-7;
    blur.pixel_m = 0.0;
    blur.jitter_deviation_m = 0.0;
    blur.rise_time_s = 0.0;
    blur.switch_delay_s = 0.0;
    return blur;
}

static spotwise_mark_setting good_setting(void)
{
    spotwise_mark_setting setting;
    spotwise_mark_setting_init(&setting);
    setting.mark_kind = SPOTWISE_MARK_LINE;
    setting.dose_ratio = 2.7;
    setting.power_w = 20.0;
    setting.speed_m_per_s = 0.5;
    setting.greatest_power_w = 25.0;
    setting.least_speed_m_per_s = 0.1;
    setting.greatest_speed_m_per_s = 2.0;
    setting.least_irradiance_ratio = 0.0;
    return setting;
}

static void check_refusals_of_scans(void)
{
    const double nan_value = (double)NAN;
    spotwise_scan scan = good_scan();
    const spotwise_scan *no_scan = NULL;
    spotwise_scan short_scan = scan;
    spotwise_scan fresh;
    short_scan.struct_size -= 8;
    spotwise_scan_init(&fresh);
    CHECK_REFUSED(spotwise_scan_dose_result, BLANK(1), spotwise_scan_dose, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_POWER, &fresh);
    CHECK_REFUSED(spotwise_scan_dose_result, BLANK(1), spotwise_scan_dose, SPOTWISE_E_NULL, 0, no_scan);
    CHECK_REFUSED(spotwise_scan_dose_result, BLANK(1), spotwise_scan_dose, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_scan);
    CHECK_REFUSED(spotwise_pulse_dose_result, BLANK(1), spotwise_pulse_dose, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_REPETITION_RATE, &scan, 0.0);
    CHECK_REFUSED(spotwise_pulse_dose_result, BLANK(1), spotwise_pulse_dose, SPOTWISE_E_NULL, 0, no_scan, 1e3);
    CHECK_REFUSED(spotwise_pulse_dose_result, BLANK(1), spotwise_pulse_dose, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_scan, 1e3);
    scan.line_interval_m = 2.0;
    CHECK_REFUSED(spotwise_pulse_dose_result, BLANK(1), spotwise_pulse_dose, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_LINE_INTERVAL, &scan, nan_value);
    CHECK_REFUSED_NUMBER(spotwise_dose_over_threshold, SPOTWISE_E_NOT_FINITE, SPOTWISE_PARAM_DOSE, nan_value,
                         0.0);
    CHECK_REFUSED_NUMBER(spotwise_dose_over_threshold, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_THRESHOLD, 1.0,
                         0.0);
    CHECK_REFUSED_NUMBER(spotwise_line_interval, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_DOTS_PER_INCH, 0.0);
    CHECK_REFUSED_NUMBER(spotwise_dots_per_inch, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_LINE_INTERVAL, -1e-3);
}

static void check_refusals_of_materials(void)
{
    const double nan_value = (double)NAN;
    spotwise_material material = good_material();
    const spotwise_material *no_material = NULL;
    spotwise_material fresh;
    spotwise_material_init(&fresh);
    CHECK_REFUSED(spotwise_material_mark_result, BLANK(1), spotwise_material_mark, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_RESPONSE, &fresh, nan_value, nan_value, nan_value, nan_value);
    CHECK_REFUSED(spotwise_material_mark_result, BLANK(1), spotwise_material_mark, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_PULSES, &material, 1e6, 0.5, 50e-6, 1e-4);
    CHECK_REFUSED(spotwise_material_mark_result, BLANK(1), spotwise_material_mark, SPOTWISE_E_NULL, 0,
                  no_material, 1e6, 1.0, 50e-6, 1e-4);
    material.response = SPOTWISE_RESPONSE_LINEAR_ABLATION;
    CHECK_REFUSED(spotwise_material_mark_result, BLANK(1), spotwise_material_mark, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_REMOVAL_ENERGY, &material, nan_value, 1.0, 50e-6, 1e-4);
    material.struct_size++;
    CHECK_REFUSED(spotwise_material_mark_result, BLANK(1), spotwise_material_mark, SPOTWISE_E_STRUCT_SIZE, 0,
                  &material, 1e6, 1.0, 50e-6, 1e-4);
}

static void check_refusals_of_single_marks(void)
{
    const spotwise_beam beam = good_beam();
    const spotwise_beam *no_beam = NULL;
    spotwise_beam short_beam = beam;
    spotwise_beam fresh;
    short_beam.struct_size -= 8;
    spotwise_beam_init(&fresh);
    CHECK_REFUSED(spotwise_mark_width_result, BLANK(3), spotwise_mark_width, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_MARK_KIND, &fresh, 3, 2.0, 0.0);
    CHECK_REFUSED(spotwise_mark_width_result, BLANK(3), spotwise_mark_width, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_WAVELENGTH, &fresh, SPOTWISE_MARK_LINE, 2.0, 0.0);
    CHECK_REFUSED(spotwise_mark_width_result, BLANK(3), spotwise_mark_width, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_ANY_DOSE_RATIO, &beam, SPOTWISE_MARK_LINE, 0.0, 0.0);
    CHECK_REFUSED(spotwise_mark_width_result, BLANK(3), spotwise_mark_width, SPOTWISE_E_NULL, 0, no_beam, 3, 2.0,
                  0.0);
    CHECK_REFUSED(spotwise_mark_width_result, BLANK(3), spotwise_mark_width, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_beam, 3, 2.0, 0.0);
    CHECK_REFUSED(spotwise_mark_limits_result, BLANK(3), spotwise_mark_limits, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_MARK_KIND, &fresh, 0, 2.0);
    CHECK_REFUSED(spotwise_mark_limits_result, BLANK(3), spotwise_mark_limits, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_ANY_DOSE_RATIO, &beam, SPOTWISE_MARK_PULSE, 0.5e-6);
    CHECK_REFUSED(spotwise_mark_limits_result, BLANK(3), spotwise_mark_limits, SPOTWISE_E_NULL, 0, no_beam,
                  SPOTWISE_MARK_PULSE, 2.0);
    CHECK_REFUSED(spotwise_mark_limits_result, BLANK(3), spotwise_mark_limits, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_beam, SPOTWISE_MARK_PULSE, 2.0);
    CHECK_REFUSED(spotwise_fill_width_result, BLANK(3), spotwise_fill_width, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_DRAWN_WIDTH, &beam, 0.0, 2.0, 0.0);
    CHECK_REFUSED(spotwise_fill_width_result, BLANK(3), spotwise_fill_width, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_ANY_DOSE_RATIO, &beam, 1e-4, -2.0, 0.0);
    CHECK_REFUSED(spotwise_fill_width_result, BLANK(3), spotwise_fill_width, SPOTWISE_E_NULL, 0, no_beam, 1e-4,
                  2.0, 0.0);
    CHECK_REFUSED(spotwise_fill_width_result, BLANK(3), spotwise_fill_width, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_beam, 1e-4, 2.0, 0.0);
    CHECK_REFUSED(spotwise_fill_limits_result, BLANK(3), spotwise_fill_limits, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_ANY_DOSE_RATIO, &beam, 1e-4, 2e6);
    CHECK_REFUSED(spotwise_fill_limits_result, BLANK(3), spotwise_fill_limits, SPOTWISE_E_NULL, 0, no_beam,
                  1e-4, 2.0);
    CHECK_REFUSED(spotwise_fill_limits_result, BLANK(3), spotwise_fill_limits, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_beam, 1e-4, 2.0);
}

static void check_refusals_of_fills(void)
{
    const double nan_value = (double)NAN;
    const spotwise_beam beam = good_beam();
    const spotwise_beam *no_beam = NULL;
    const spotwise_taste *no_taste = NULL;
    const spotwise_blur *no_blur = NULL;
    spotwise_beam short_beam = beam;
    spotwise_beam fresh;
    spotwise_taste taste;
    spotwise_taste short_taste;
    spotwise_blur blur = good_blur();
    short_beam.struct_size -= 8;
    spotwise_beam_init(&fresh);
    spotwise_taste_init(&taste);
    short_taste = taste;
    short_taste.struct_size = 0;
    CHECK_REFUSED(spotwise_raster_ripple_result, BLANK(1), spotwise_raster_ripple, SPOTWISE_E_OUTSIDE_MODEL,
                  SPOTWISE_PARAM_INTERVAL_OVER_RADIUS, 100e-6, 1.1e-3);
    CHECK_REFUSED(spotwise_raster_ripple_result, BLANK(1), spotwise_raster_ripple, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_SPOT_DIAMETER, 0.0, nan_value);
    CHECK_REFUSED_NUMBER(spotwise_interval_for_ripple, SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_RIPPLE_CONTRAST,
                         100e-6, 1.0);
    CHECK_REFUSED(spotwise_detail_exposure_result, BLANK(1), spotwise_detail_exposure, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_DETAIL_SIZE, 100e-6, 0.0);
    CHECK_REFUSED(spotwise_contrast_pitch, BLANK(1), spotwise_pitch_for_contrast, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_CONTRAST, 1e-4, 0.0);
    blur.switch_delay_s = 2.0;
    CHECK_REFUSED(spotwise_blur_budget_result, BLANK(1), spotwise_blur_budget, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_SWITCH_DELAY, &blur);
    CHECK_REFUSED(spotwise_blur_budget_result, BLANK(1), spotwise_blur_budget, SPOTWISE_E_NULL, 0, no_blur);
    blur.struct_size = 0;
    CHECK_REFUSED(spotwise_blur_budget_result, BLANK(1), spotwise_blur_budget, SPOTWISE_E_STRUCT_SIZE, 0, &blur);

    CHECK_REFUSED(spotwise_fill_quality_result, BLANK(1), spotwise_fill_quality, SPOTWISE_E_OUTSIDE_MODEL,
                  SPOTWISE_PARAM_INTERVAL_OVER_RADIUS, &beam, 1e-3, nan_value);
    CHECK_REFUSED(spotwise_fill_quality_result, BLANK(1), spotwise_fill_quality, SPOTWISE_E_NULL, 0, no_beam,
                  60e-6, 0.0);
    CHECK_REFUSED(spotwise_fill_quality_result, BLANK(1), spotwise_fill_quality, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_beam, 60e-6, 0.0);
    CHECK_REFUSED(spotwise_fill_quality_result, BLANK(1), spotwise_offset_for_taste, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_TASTE, &fresh, 60e-6, &taste);
    CHECK_REFUSED(spotwise_fill_quality_result, BLANK(1), spotwise_offset_for_taste, SPOTWISE_E_NULL, 0, no_beam,
                  60e-6, &short_taste);
    CHECK_REFUSED(spotwise_fill_quality_result, BLANK(1), spotwise_offset_for_taste, SPOTWISE_E_STRUCT_SIZE, 0,
                  &beam, 60e-6, &short_taste);
    CHECK_REFUSED(spotwise_fill_quality_result, BLANK(1), spotwise_offset_for_taste, SPOTWISE_E_NULL, 0, &beam,
                  60e-6, no_taste);
    taste.taste = SPOTWISE_TASTE_SMOOTHEST_WITHIN;
    taste.largest_edge_m = 50e-6;
    CHECK_REFUSED(spotwise_fill_quality_result, BLANK(1), spotwise_offset_for_taste, SPOTWISE_E_UNREACHABLE,
                  SPOTWISE_PARAM_LARGEST_EDGE, &beam, 60e-6, &taste);
}

static void check_refusals_of_pulses(void)
{
    CHECK_REFUSED(spotwise_pulsed_line_result, BLANK(3), spotwise_pulsed_line, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_INCUBATION, 50e-6, 2.0, 20e-6, 1.1, 1.0);
    CHECK_REFUSED(spotwise_pulsed_line_result, BLANK(3), spotwise_pulsed_line, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_ANY_DOSE_RATIO, 50e-6, 0.5e-6, 20e-6, 1.0, 1.0);
    CHECK_REFUSED(spotwise_crater_result, BLANK(1), spotwise_crater, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_DOSE_RATIO, 50e-6, 0.5, 20e-9, 0.0);
    CHECK_REFUSED(spotwise_crater_result, BLANK(1), spotwise_crater, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_RADIUS, 50e-6, 2.0, 20e-9, -1e-6);
    CHECK_REFUSED(spotwise_groove_result, BLANK(1), spotwise_groove, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_PULSE_PITCH, 50e-6, 2.0, 20e-9, 0.0, 0.0);
    /* A dot of 50 um sqrt(ln(2)/2) = 29.4 um leaves no groove at a pitch of 30 um. */
    CHECK_REFUSED(spotwise_groove_result, BLANK(1), spotwise_groove, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_PULSE_PITCH, 50e-6, 2.0, 20e-9, 30e-6, 0.0);
    /* A dot of 50 um cannot dent by 26 um, whatever more pulses would make of it. */
    CHECK_REFUSED(spotwise_connected_speed_result, BLANK(1), spotwise_connected_speed, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_SCALLOP, 50e-6, 7.38905609893065, 50e3, 0.5, 26e-6);
    CHECK_REFUSED(spotwise_connected_speed_result, BLANK(1), spotwise_connected_speed, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_INCUBATION, 50e-6, 2.0, 50e3, 0.4, 26e-6);
    CHECK_REFUSED(spotwise_connected_speed_result, BLANK(1), spotwise_connected_speed, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_DOSE_RATIO, 50e-6, 0.5, 50e3, 1.0, 1e-6);
    /* 30 um at 1 GHz would be 30 km/s. */
    CHECK_REFUSED(spotwise_connected_speed_result, BLANK(1), spotwise_connected_speed, SPOTWISE_E_OUTSIDE_MODEL,
                  SPOTWISE_PARAM_SPEED, 50e-6, 7.38905609893065, 1e9, 1.0, 5e-6);
}

static void check_refusals_of_compensations(void)
{
    const spotwise_beam beam = good_beam();
    const spotwise_beam *no_beam = NULL;
    const spotwise_mark_setting *no_setting = NULL;
    spotwise_mark_setting setting = good_setting();
    spotwise_mark_setting short_setting = setting;
    spotwise_mark_setting fresh;
    spotwise_beam short_beam = beam;
    short_setting.struct_size -= 8;
    short_beam.struct_size -= 8;
    spotwise_mark_setting_init(&fresh);
    /* The rule comes before the kind of mark, and both after every pointer. */
    CHECK_REFUSED(spotwise_compensation, BLANK(3), spotwise_compensate, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_COMPENSATION_RULE, &beam, 0.0, 4, &fresh);
    CHECK_REFUSED(spotwise_compensation, BLANK(3), spotwise_compensate, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_MARK_KIND, &beam, 0.0, SPOTWISE_COMPENSATION_SAME_DOSE, &fresh);
    CHECK_REFUSED(spotwise_compensation, BLANK(3), spotwise_compensate, SPOTWISE_E_NULL, 0, no_beam, 0.0, 4,
                  &setting);
    CHECK_REFUSED(spotwise_compensation, BLANK(3), spotwise_compensate, SPOTWISE_E_STRUCT_SIZE, 0, &short_beam,
                  0.0, 4, no_setting);
    CHECK_REFUSED(spotwise_compensation, BLANK(3), spotwise_compensate, SPOTWISE_E_NULL, 0, &beam, 0.0, 4,
                  no_setting);
    CHECK_REFUSED(spotwise_compensation, BLANK(3), spotwise_compensate, SPOTWISE_E_STRUCT_SIZE, 0, &beam, 0.0, 4,
                  &short_setting);
    setting.greatest_power_w = 19.0;
    CHECK_REFUSED(spotwise_compensation, BLANK(3), spotwise_compensate, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_GREATEST_POWER, &beam, 0.0, SPOTWISE_COMPENSATION_SAME_DOSE, &setting);
    setting = good_setting();
    setting.greatest_speed_m_per_s = 0.4;
    CHECK_REFUSED(spotwise_compensation, BLANK(3), spotwise_compensate, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_GREATEST_SPEED, &beam, 0.0, SPOTWISE_COMPENSATION_SAME_DOSE, &setting);
    setting.greatest_speed_m_per_s = (double)NAN;
    setting.least_irradiance_ratio = -1.0;
    CHECK_REFUSED(spotwise_compensation, BLANK(3), spotwise_compensate, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_GREATEST_SPEED, &beam, 0.0, SPOTWISE_COMPENSATION_SAME_DOSE, &setting);
}

static void check_refusals_of_text(void)
{
    const double em = 4.0 * SPOTWISE_POINT_M;
    const spotwise_beam beam = good_beam();
    const spotwise_beam *no_beam = NULL;
    const spotwise_typeface *no_typeface = NULL;
    const spotwise_text_grades *no_grades = NULL;
    spotwise_beam fresh_beam;
    spotwise_typeface typeface;
    spotwise_typeface fresh;
    spotwise_typeface short_typeface;
    spotwise_text_grades grades;
    spotwise_text_grades short_grades;
    spotwise_beam_init(&fresh_beam);
    spotwise_typeface_init(&fresh);
    spotwise_typeface_init(&typeface);
    typeface.typeface = SPOTWISE_TYPEFACE_SANS;
    short_typeface = typeface;
    short_typeface.struct_size = 4;
    spotwise_text_grades_init(&grades);
    short_grades = grades;
    short_grades.struct_size = 4;

    CHECK_REFUSED(spotwise_typeface_shares_result, BLANK(1), spotwise_typeface_shares, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_TYPEFACE, &fresh);
    CHECK_REFUSED(spotwise_typeface_shares_result, BLANK(1), spotwise_typeface_shares, SPOTWISE_E_NULL, 0,
                  no_typeface);
    CHECK_REFUSED(spotwise_typeface_shares_result, BLANK(1), spotwise_typeface_shares, SPOTWISE_E_STRUCT_SIZE, 0,
                  &short_typeface);
    CHECK_REFUSED(spotwise_smallest_text_result, BLANK(1), spotwise_smallest_text, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_TYPEFACE, 0.0, 2.7, &fresh, &grades);
    CHECK_REFUSED(spotwise_smallest_text_result, BLANK(1), spotwise_smallest_text, SPOTWISE_E_NULL, 0, 88e-6, 2.7,
                  no_typeface, &short_grades);
    CHECK_REFUSED(spotwise_smallest_text_result, BLANK(1), spotwise_smallest_text, SPOTWISE_E_STRUCT_SIZE, 0,
                  88e-6, 2.7, &short_typeface, no_grades);
    CHECK_REFUSED(spotwise_smallest_text_result, BLANK(1), spotwise_smallest_text, SPOTWISE_E_NULL, 0, 88e-6, 2.7,
                  &fresh, no_grades);
    CHECK_REFUSED(spotwise_smallest_text_result, BLANK(1), spotwise_smallest_text, SPOTWISE_E_STRUCT_SIZE, 0,
                  88e-6, 2.7, &fresh, &short_grades);
    CHECK_REFUSED(spotwise_text_quality_result, BLANK(1), spotwise_text_quality, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_EM, 88e-6, 0.0, 2.7, &typeface, &grades);
    CHECK_REFUSED(spotwise_text_quality_result, BLANK(1), spotwise_text_quality, SPOTWISE_E_NULL, 0, 88e-6, em,
                  2.7, no_typeface, &grades);
    CHECK_REFUSED(spotwise_text_quality_result, BLANK(1), spotwise_text_quality, SPOTWISE_E_STRUCT_SIZE, 0, 88e-6,
                  em, 2.7, &typeface, &short_grades);
    /* Beam, typeface, grades; then the grade, the typeface; then a grade that nothing need keep. */
    CHECK_REFUSED(spotwise_text_offset, BLANK(1), spotwise_offset_for_text, SPOTWISE_E_NULL, 0, no_beam, em, 5,
                  2.7, &short_typeface, &grades);
    CHECK_REFUSED(spotwise_text_offset, BLANK(1), spotwise_offset_for_text, SPOTWISE_E_STRUCT_SIZE, 0, &beam, em,
                  5, 2.7, &short_typeface, no_grades);
    CHECK_REFUSED(spotwise_text_offset, BLANK(1), spotwise_offset_for_text, SPOTWISE_E_NULL, 0, &beam, em, 5, 2.7,
                  &fresh, no_grades);
    CHECK_REFUSED(spotwise_text_offset, BLANK(1), spotwise_offset_for_text, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_TEXT_GRADE, &fresh_beam, em, 5, 2.7, &fresh, &grades);
    CHECK_REFUSED(spotwise_text_offset, BLANK(1), spotwise_offset_for_text, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_TYPEFACE, &fresh_beam, em, SPOTWISE_GRADE_LOST, 2.7, &fresh, &grades);
    CHECK_REFUSED(spotwise_text_offset, BLANK(1), spotwise_offset_for_text, SPOTWISE_E_UNKNOWN_CHOICE,
                  SPOTWISE_PARAM_TEXT_GRADE, &fresh_beam, em, SPOTWISE_GRADE_LOST, 2.7, &typeface, &grades);
    CHECK_REFUSED(spotwise_text_offset, BLANK(1), spotwise_offset_for_text, SPOTWISE_E_UNREACHABLE,
                  SPOTWISE_PARAM_EM, &beam, 0.1 * em, SPOTWISE_GRADE_GOOD, 2.7, &typeface, &grades);
    /* The shares of a measured typeface are read, those of another are not. */
    typeface.typeface = SPOTWISE_TYPEFACE_MEASURED;
    CHECK_REFUSED(spotwise_typeface_shares_result, BLANK(1), spotwise_typeface_shares, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_STEM_SHARE, &typeface);
}

/* The worked examples of the header: dose, material, single marks. */
static void check_examples_of_marks(void)
{
    const spotwise_beam beam = good_beam();
    const spotwise_material material = good_material();
    spotwise_scan scan = good_scan();
    spotwise_scan_dose_result dose;
    spotwise_pulse_dose_result pulses;
    spotwise_material_mark_result removed;
    spotwise_mark_width_result mark;
    spotwise_mark_limits_result limits;
    spotwise_fill_width_result fill;
    spotwise_fill_limits_result lost;
    double number = 0.0;
    spotwise_scan_dose_result_init(&dose);
    spotwise_pulse_dose_result_init(&pulses);
    spotwise_material_mark_result_init(&removed);
    spotwise_mark_width_result_init(&mark);
    spotwise_mark_limits_result_init(&limits);
    spotwise_fill_width_result_init(&fill);
    spotwise_fill_limits_result_init(&lost);

    CHECK(spotwise_scan_dose(&scan, &dose, NULL) == SPOTWISE_OK);
    CHECK(near_to(dose.fill_dose_j_per_m2, 0.8e6, 1e-14) && near_to(dose.line_dose_j_per_m2, 638308.0, 1e-6));
    CHECK(near_to(dose.peak_irradiance_w_per_m2 * dose.dwell_s, dose.line_dose_j_per_m2, 1e-14));
    scan.speed_m_per_s = 1.0;
    scan.diameter_across_m = scan.diameter_along_m = 50e-6;
    CHECK(spotwise_pulse_dose(&scan, 50e3, &pulses, NULL) == SPOTWISE_OK);
    CHECK(pulses.pulse_energy_j == 0.4e-3 && near_to(pulses.peak_fluence_j_per_m2, 407437.0, 1e-6));
    CHECK(near_to(pulses.pulse_pitch_m, 20e-6, 1e-14) && near_to(pulses.overlap, 0.6, 1e-14));
    CHECK(spotwise_dose_over_threshold(0.8e6, 0.32e6, &number, NULL) == SPOTWISE_OK && number == 2.5);
    CHECK(spotwise_line_interval(500.0, &number, NULL) == SPOTWISE_OK && near_to(number, 50.8e-6, 1e-15));
    CHECK(spotwise_dots_per_inch(50.8e-6, &number, NULL) == SPOTWISE_OK && near_to(number, 500.0, 1e-15));

    CHECK(spotwise_material_mark(&material, 2e6, 1.0, 50e-6, 1e-4, &removed, NULL) == SPOTWISE_OK);
    CHECK(removed.marks == 1 && removed.dose_ratio == 4.0 && near_to(removed.depth_m, 2.7726e-9, 1e-5));
    CHECK(removed.seen_diameter_m == 50e-6);

    CHECK(spotwise_mark_width(&beam, SPOTWISE_MARK_LINE, 2.0, 0.0, &mark, NULL) == SPOTWISE_OK);
    CHECK(mark.marks == 1 && near_to(mark.width_m, 51.806e-6, 1e-5) && mark.spot_diameter_m == 88e-6);
    CHECK(spotwise_mark_width(&beam, SPOTWISE_MARK_LINE, 2.0, 0.84e-3, &mark, NULL) == SPOTWISE_OK);
    CHECK(mark.marks == 0 && mark.width_m == 0.0);
    CHECK(spotwise_mark_limits(&beam, SPOTWISE_MARK_LINE, 4.0, &limits, NULL) == SPOTWISE_OK);
    CHECK(limits.marks == 1 && near_to(limits.greatest_width_m, 106.749e-6, 1e-5));
    CHECK(near_to(limits.width_in_waist_m, 73.265e-6, 1e-5));
    CHECK(near_to(limits.focus_insensitive_dose_ratio, 1.6487212707, 1e-10));

    CHECK(spotwise_fill_width(&beam, 1e-3, 2.7, 0.0, &fill, NULL) == SPOTWISE_OK);
    CHECK(fill.marks == 1 && near_to(fill.growth_m, 14.558e-6, 1e-4) && near_to(fill.width_m, 1.014558e-3, 1e-6));
    CHECK(spotwise_fill_limits(&beam, 100e-6, 2.0, &lost, NULL) == SPOTWISE_OK);
    CHECK(lost.marks == 1 && near_to(lost.vanishing_offset_m, 1.5386e-3, 1e-4) && lost.widest_offset_m == 0.0);
    /* A stroke so thin that it is lost in the waist is lost everywhere. */
    CHECK(spotwise_fill_limits(&beam, 1e-6, 2.0, &lost, NULL) == SPOTWISE_OK);
    CHECK(lost.marks == 0 && lost.width_in_waist_m == 0.0 && lost.vanishing_offset_m == 0.0);
}

/* Too little dose is no error: nothing marks, and what does not hang on a mark is told as ever. */
static void check_too_little_dose(void)
{
    const double widest_at_once = 1.6487212707001282; /* sqrt(e) */
    const spotwise_beam beam = good_beam();
    spotwise_error error = stale_report();
    spotwise_mark_width_result mark;
    spotwise_mark_limits_result limits;
    spotwise_fill_width_result fill;
    spotwise_fill_limits_result lost;
    spotwise_pulsed_line_result line;
    spotwise_mark_width_result_init(&mark);
    spotwise_mark_limits_result_init(&limits);
    spotwise_fill_width_result_init(&fill);
    spotwise_fill_limits_result_init(&lost);
    spotwise_pulsed_line_result_init(&line);

    CHECK(spotwise_mark_width(&beam, SPOTWISE_MARK_PULSE, 0.5, 0.0, &mark, &error) == SPOTWISE_OK);
    CHECK(reports(&error, SPOTWISE_OK, 0) && mark.marks == 0 && mark.width_m == 0.0);
    CHECK(mark.dose_ratio == 0.5 && mark.spot_diameter_m == 88e-6);
    CHECK(spotwise_mark_limits(&beam, SPOTWISE_MARK_LINE, 0.5, &limits, &error) == SPOTWISE_OK);
    CHECK(reports(&error, SPOTWISE_OK, 0) && limits.marks == 0);
    CHECK(limits.width_in_waist_m == 0.0 && limits.greatest_width_m == 0.0);
    CHECK(limits.widest_offset_m == 0.0 && limits.vanishing_offset_m == 0.0);
    CHECK(limits.focus_insensitive_dose_ratio == widest_at_once && limits.half_angle_rad == mark.half_angle_rad);
    /* Just the threshold marks a point, which is no mark. */
    CHECK(spotwise_mark_limits(&beam, SPOTWISE_MARK_LINE, 1.0, &limits, NULL) == SPOTWISE_OK);
    CHECK(limits.marks == 0 && limits.vanishing_offset_m == 0.0);

    CHECK(spotwise_fill_width(&beam, 1e-3, 0.5, 0.0, &fill, &error) == SPOTWISE_OK);
    CHECK(reports(&error, SPOTWISE_OK, 0) && fill.marks == 0 && fill.width_m == 0.0 && fill.growth_m == -1e-3);
    CHECK(fill.exposure == 1.0 && fill.spot_diameter_m == 88e-6);
    CHECK(spotwise_fill_width(&beam, 1.0, 1.0, 0.0, &fill, NULL) == SPOTWISE_OK && fill.marks == 0);
    CHECK(spotwise_fill_limits(&beam, 1e-3, 0.5, &lost, &error) == SPOTWISE_OK);
    CHECK(reports(&error, SPOTWISE_OK, 0) && lost.marks == 0);
    CHECK(lost.width_in_waist_m == 0.0 && lost.greatest_width_m == 0.0);
    CHECK(lost.widest_offset_m == 0.0 && lost.vanishing_offset_m == 0.0);

    /* A pulse of 0.9 times its threshold marks after 100 of them: the threshold falls to 100^(0.85 - 1) =
       10^-0.3 = 0.501187, L = ln 0.9 + 0.3 ln 10 = 0.585415, D = 50 um sqrt(L/2) = 27.05122 um, and the scallop
       is 13.52561 - sqrt(13.52561^2 - 5^2) = 0.958107 um. */
    CHECK(spotwise_pulsed_line(50e-6, 0.9, 10e-6, 0.85, 1.0, &line, &error) == SPOTWISE_OK);
    CHECK(reports(&error, SPOTWISE_OK, 0) && line.marks == 0 && line.connected == 0);
    CHECK(line.threshold_ratio == 1.0 && line.dose_ratio == 0.9);
    CHECK(line.dot_diameter_m == 0.0 && line.scallop_m == 0.0);
    CHECK(spotwise_pulsed_line(50e-6, 0.9, 10e-6, 0.85, 100.0, &line, NULL) == SPOTWISE_OK);
    CHECK(line.marks == 1 && line.connected == 1 && near_to(line.threshold_ratio, 0.501187, 1e-6));
    CHECK(near_to(line.dose_ratio, 1.795736, 1e-6) && near_to(line.dot_diameter_m, 27.05122e-6, 1e-6));
    CHECK(near_to(line.scallop_m, 0.958107e-6, 1e-6));
}

/* The worked examples of the header: fills, blur, pulses. */
static void check_examples_of_fills(void)
{
    const double e = 2.718281828459045;
    const spotwise_beam beam = good_beam();
    const spotwise_blur blur = good_blur();
    spotwise_raster_ripple_result ripple;
    spotwise_detail_exposure_result exposure;
    spotwise_contrast_pitch pitch;
    spotwise_blur_budget_result budget;
    spotwise_taste taste;
    spotwise_fill_quality_result quality;
    spotwise_pulsed_line_result line;
    spotwise_crater_result crater;
    spotwise_groove_result groove;
    spotwise_connected_speed_result connected;
    double number = 0.0;
    spotwise_raster_ripple_result_init(&ripple);
    spotwise_detail_exposure_result_init(&exposure);
    spotwise_contrast_pitch_init(&pitch);
    spotwise_blur_budget_result_init(&budget);
    spotwise_taste_init(&taste);
    spotwise_fill_quality_result_init(&quality);
    spotwise_pulsed_line_result_init(&line);
    spotwise_crater_result_init(&crater);
    spotwise_groove_result_init(&groove);
    spotwise_connected_speed_result_init(&connected);

    CHECK(spotwise_raster_ripple(100e-6, 50e-6, &ripple, NULL) == SPOTWISE_OK);
    CHECK(near_to(ripple.contrast, 0.01438377, 1e-6) && near_to(ripple.interval_over_radius, 1.0, 1e-15));
    CHECK(spotwise_raster_ripple(100e-6, 100e-6, &ripple, NULL) == SPOTWISE_OK);
    CHECK(near_to(ripple.contrast, 0.5742, 1e-4) && near_to(ripple.gap_free_dose_ratio, 2.315, 1e-3));
    CHECK(spotwise_interval_for_ripple(100e-6, 0.01438376663469, &number, NULL) == SPOTWISE_OK);
    CHECK(near_to(number, 50e-6, 1e-12));
    CHECK(spotwise_detail_exposure(100e-6, 100e-6, &exposure, NULL) == SPOTWISE_OK);
    CHECK(near_to(exposure.bar, 0.9545, 1e-4) && near_to(exposure.dot, 0.8647, 1e-4));
    CHECK(spotwise_pitch_for_contrast(100e-6, 0.5, &pitch, NULL) == SPOTWISE_OK);
    CHECK(near_to(pitch.sine_m, 133.411e-6, 1e-5) && pitch.bars_m < pitch.sine_m);
    CHECK(spotwise_blur_budget(&blur, &budget, NULL) == SPOTWISE_OK);
    CHECK(near_to(budget.diffusion_length_m, 36.961e-6, 1e-4));
    CHECK(near_to(budget.diameter_across_m, 144.668e-6, 1e-5) && budget.two_way_comb_m == 0.0);

    CHECK(spotwise_fill_quality(&beam, 60e-6, 0.0, &quality, NULL) == SPOTWISE_OK);
    CHECK(near_to(quality.edge_width_m, 56.388e-6, 1e-5) && quality.offset_m == 0.0);
    taste.taste = SPOTWISE_TASTE_SMOOTHEST_WITHIN;
    taste.largest_edge_m = 70e-6;
    CHECK(spotwise_offset_for_taste(&beam, 60e-6, &taste, &quality, NULL) == SPOTWISE_OK);
    CHECK(near_to(quality.offset_m, 0.3517e-3, 1e-4) && near_to(quality.edge_width_m, 70e-6, 1e-14));
    /* Numbers that the taste does not name are not read. */
    taste.taste = SPOTWISE_TASTE_CRISPEST;
    taste.largest_edge_m = (double)NAN;
    CHECK(spotwise_offset_for_taste(&beam, 60e-6, &taste, &quality, NULL) == SPOTWISE_OK);
    CHECK(quality.offset_m == 0.0 && quality.spot_diameter_m == 88e-6);

    CHECK(spotwise_pulsed_line(50e-6, e * e, 30e-6, 1.0, 1.0, &line, NULL) == SPOTWISE_OK);
    CHECK(line.marks == 1 && line.connected == 1 && near_to(line.dot_diameter_m, 50e-6, 1e-12));
    CHECK(near_to(line.scallop_m, 5e-6, 1e-12) && line.threshold_ratio == 1.0);
    CHECK(spotwise_crater(50e-6, e, 20e-9, 0.0, &crater, NULL) == SPOTWISE_OK);
    CHECK(near_to(crater.depth_m, 20e-9, 1e-12) && near_to(crater.volume_m3, 9.817e-18, 1e-4));
    CHECK(crater.depth_at_radius_m == crater.depth_m);
    CHECK(spotwise_groove(50e-6, e, 20e-9, 5e-6, 1e-3, &groove, NULL) == SPOTWISE_OK);
    CHECK(near_to(groove.depth_m, 94.281e-9, 1e-5) && groove.depth_aside_m == 0.0);
    /* The pitch of this groove is less than its dots of 50 um/sqrt(2) = 35.4 um; one of 36 um is not. */
    CHECK(spotwise_groove(50e-6, e, 20e-9, 35e-6, 0.0, &groove, NULL) == SPOTWISE_OK);
    CHECK(spotwise_groove(50e-6, e, 20e-9, 36e-6, 0.0, &groove, NULL) == SPOTWISE_E_OUT_OF_RANGE);
    CHECK(spotwise_connected_speed(50e-6, e * e, 50e3, 1.0, 5e-6, &connected, NULL) == SPOTWISE_OK);
    CHECK(near_to(connected.pulse_pitch_m, 30e-6, 1e-12) && near_to(connected.speed_m_per_s, 1.5, 1e-12));
    CHECK(near_to(connected.pulses, 1.044428, 1e-6)); /* sqrt(pi/8) 50/30 */
    /* Twice the threshold, S = 0.8. 15 um apart N = sqrt(pi/8) 50/15 = 2.088857 pulses fall on each place, L =
       ln 2 + 0.2 ln N = 0.8404706, D = 50 um sqrt(L/2) = 32.41278 um, so that the edge dents by 16.20639 -
       sqrt(16.20639^2 - 7.5^2) = 1.839864 um. Without incubation D is 29.43525 um, and 2 sqrt(1.839864
       (29.43525 - 1.839864)) = 14.25086 um apart does that already. */
    CHECK(spotwise_connected_speed(50e-6, 2.0, 50e3, 0.8, 1.839864e-6, &connected, NULL) == SPOTWISE_OK);
    CHECK(near_to(connected.pulse_pitch_m, 15e-6, 1e-6) && near_to(connected.speed_m_per_s, 0.75, 1e-6));
    CHECK(near_to(connected.pulses, 2.088857, 1e-6));
    CHECK(spotwise_connected_speed(50e-6, 2.0, 50e3, 1.0, 1.839864e-6, &connected, NULL) == SPOTWISE_OK);
    CHECK(near_to(connected.pulse_pitch_m, 14.25086e-6, 1e-6));
}

static void check_compensation(void)
{
    const spotwise_beam beam = good_beam();
    spotwise_mark_setting setting = good_setting();
    spotwise_compensation made_up;
    uint32_t bit;
    spotwise_compensation_init(&made_up);
    CHECK(spotwise_compensate(&beam, 0.5e-3, SPOTWISE_COMPENSATION_SAME_DOSE, &setting, &made_up, NULL) ==
          SPOTWISE_OK);
    CHECK(near_to(made_up.wanted_factor, 1.4469, 1e-4) && made_up.power_w == 25.0);
    CHECK(near_to(made_up.speed_m_per_s, 0.432, 1e-4) && made_up.limits == SPOTWISE_LIMIT_GREATEST_POWER);
    CHECK(spotwise_compensate(&beam, 0.0, SPOTWISE_COMPENSATION_SAME_WIDTH, &setting, &made_up, NULL) ==
          SPOTWISE_OK);
    CHECK(made_up.wanted_factor == 1.0 && made_up.power_w == 20.0 && made_up.limits == 0);

    /* Half a millimetre off g = 1.44688: 20 W and a speed down to 0.4 m/s, where 0.3456 m/s is wanted, give
       0.5/0.4 = 1.25 times the dose. A pulse wants g^2 = 2.09346, and only its power counts. */
    setting.greatest_power_w = 20.0;
    setting.least_speed_m_per_s = 0.4;
    CHECK(spotwise_compensate(&beam, 0.5e-3, SPOTWISE_COMPENSATION_SAME_DOSE, &setting, &made_up, NULL) ==
          SPOTWISE_OK);
    CHECK(made_up.limits == (SPOTWISE_LIMIT_GREATEST_POWER | SPOTWISE_LIMIT_LEAST_SPEED));
    CHECK(made_up.speed_m_per_s == 0.4 && near_to(made_up.reached_factor, 1.25, 1e-14));
    setting.mark_kind = SPOTWISE_MARK_PULSE;
    CHECK(spotwise_compensate(&beam, 0.5e-3, SPOTWISE_COMPENSATION_SAME_DOSE, &setting, &made_up, NULL) ==
          SPOTWISE_OK);
    CHECK(made_up.limits == SPOTWISE_LIMIT_GREATEST_POWER && made_up.speed_m_per_s == 0.5);
    CHECK(near_to(made_up.wanted_factor, 2.09346, 1e-5) && made_up.reached_factor == 1.0);

    /* In the waist 1.2 times the irradiance wants 24 W, and so 0.6 m/s for the dose; with 0.55 m/s at most
       22 W remain, and 1.1 times the irradiance. */
    setting = good_setting();
    setting.least_irradiance_ratio = 1.2;
    CHECK(spotwise_compensate(&beam, 0.0, SPOTWISE_COMPENSATION_SAME_DOSE, &setting, &made_up, NULL) ==
          SPOTWISE_OK);
    CHECK(near_to(made_up.power_w, 24.0, 1e-14) && near_to(made_up.speed_m_per_s, 0.6, 1e-14));
    CHECK(made_up.limits == 0 && near_to(made_up.reached_factor, 1.0, 1e-14));
    setting.greatest_speed_m_per_s = 0.55;
    CHECK(spotwise_compensate(&beam, 0.0, SPOTWISE_COMPENSATION_SAME_DOSE, &setting, &made_up, NULL) ==
          SPOTWISE_OK);
    CHECK(near_to(made_up.power_w, 22.0, 1e-14) && near_to(made_up.speed_m_per_s, 0.55, 1e-14));
    CHECK(made_up.limits == (SPOTWISE_LIMIT_LEAST_IRRADIANCE | SPOTWISE_LIMIT_GREATEST_SPEED));
    CHECK(near_to(made_up.irradiance_ratio, 1.1, 1e-14) && near_to(made_up.reached_factor, 1.0, 1e-14));

    for (bit = SPOTWISE_LIMIT_GREATEST_POWER; bit <= SPOTWISE_LIMIT_GREATEST_SPEED; bit *= 2) {
        CHECK(is_text(spotwise_limit_text(bit)) && !is_unknown(spotwise_limit_text(bit)));
    }
    CHECK(is_unknown(spotwise_limit_text(0)) && is_unknown(spotwise_limit_text(3)));
    CHECK(is_unknown(spotwise_limit_text(SPOTWISE_LIMIT_GREATEST_SPEED * 2)));
}

static void check_text(void)
{
    const double em = 4.0 * SPOTWISE_POINT_M;
    const spotwise_beam beam = good_beam();
    spotwise_typeface typeface;
    spotwise_text_grades grades;
    spotwise_typeface_shares_result shares;
    spotwise_smallest_text_result smallest;
    spotwise_smallest_text_result measured;
    spotwise_text_quality_result quality;
    spotwise_text_offset good;
    spotwise_text_offset readable;
    uint32_t i;
    spotwise_typeface_init(&typeface);
    spotwise_text_grades_init(&grades);
    spotwise_typeface_shares_result_init(&shares);
    spotwise_smallest_text_result_init(&smallest);
    spotwise_smallest_text_result_init(&measured);
    spotwise_text_quality_result_init(&quality);
    spotwise_text_offset_init(&good);
    spotwise_text_offset_init(&readable);

    typeface.typeface = SPOTWISE_TYPEFACE_SANS;
    CHECK(spotwise_typeface_shares(&typeface, &shares, NULL) == SPOTWISE_OK);
    CHECK(shares.cap_height > 0.65 && shares.cap_height < 0.75 && shares.x_height < shares.cap_height);
    CHECK(spotwise_smallest_text(88e-6, 2.7, &typeface, &grades, &smallest, NULL) == SPOTWISE_OK);
    CHECK(smallest.readable_em_m < smallest.good_em_m && smallest.good_em_m < smallest.crisp_em_m);
    /* Text at the limit of a grade, and just below it. */
    CHECK(spotwise_text_quality(88e-6, smallest.good_em_m * 1.001, 2.7, &typeface, &grades, &quality, NULL) ==
          SPOTWISE_OK);
    CHECK(quality.grade == SPOTWISE_GRADE_GOOD);
    CHECK(spotwise_text_quality(88e-6, smallest.readable_em_m * 0.999, 2.7, &typeface, &grades, &quality,
                                NULL) == SPOTWISE_OK);
    CHECK(quality.grade == SPOTWISE_GRADE_LOST);
    CHECK(spotwise_offset_for_text(&beam, em, SPOTWISE_GRADE_GOOD, 2.7, &typeface, &grades, &good, NULL) ==
          SPOTWISE_OK);
    CHECK(spotwise_offset_for_text(&beam, em, SPOTWISE_GRADE_READABLE, 2.7, &typeface, &grades, &readable,
                                   NULL) == SPOTWISE_OK);
    CHECK(readable.offset_m > good.offset_m && good.spot_diameter_m > 88e-6);
    /* A typeface measured to be the same is the same. */
    typeface.typeface = SPOTWISE_TYPEFACE_MEASURED;
    typeface.stem = shares.stem;
    typeface.effective_stroke = shares.effective_stroke;
    typeface.effective_counter = shares.effective_counter;
    typeface.effective_gap = shares.effective_gap;
    CHECK(spotwise_smallest_text(88e-6, 2.7, &typeface, &grades, &measured, NULL) == SPOTWISE_OK);
    CHECK(memcmp(&measured, &smallest, sizeof smallest) == 0);
    CHECK(spotwise_typeface_shares(&typeface, &shares, NULL) == SPOTWISE_OK);
    CHECK(isnan(shares.cap_height) && shares.stem == typeface.stem);

    for (i = SPOTWISE_TYPEFACE_SANS; i <= SPOTWISE_TYPEFACE_MEASURED; i++) {
        CHECK(is_text(spotwise_typeface_name(i)) && !is_unknown(spotwise_typeface_name(i)));
    }
    for (i = SPOTWISE_GRADE_CRISP; i <= SPOTWISE_GRADE_LOST; i++) {
        CHECK(is_text(spotwise_text_grade_name(i)) && !is_unknown(spotwise_text_grade_name(i)));
    }
    CHECK(strcmp(spotwise_typeface_name(SPOTWISE_TYPEFACE_SERIF), "serif") == 0);
    CHECK(strcmp(spotwise_text_grade_name(SPOTWISE_GRADE_READABLE), "readable") == 0);
    CHECK(is_unknown(spotwise_typeface_name(0)) && is_unknown(spotwise_typeface_name(7)));
    CHECK(is_unknown(spotwise_text_grade_name(0)) && is_unknown(spotwise_text_grade_name(UINT32_MAX)));
}

/* A job whose dose is told by a scan: 20 W/(0.5 m/s 50 um) = 0.8 J/mm^2, 2.5 times the threshold. */
static spotwise_job scanned_job(void)
{
    spotwise_job job = face_good_job();
    job.dose = SPOTWISE_DOSE_BY_SCAN;
    job.dose_ratio = (double)NAN;
    job.power_w = 20.0;
    job.speed_m_per_s = 0.5;
    job.line_interval_m = 50e-6;
    job.threshold_j_per_m2 = 0.32e6;
    return job;
}

/* A job whose dose is told by a scan, and that has text. */
static void check_verdict_of_marks(void)
{
    spotwise_job job = face_good_job();
    spotwise_verdict ratio;
    spotwise_verdict verdict;
    spotwise_error error = stale_report();
    spotwise_verdict_init(&ratio);
    spotwise_verdict_init(&verdict);
    CHECK(spotwise_focus_check(&job, &ratio, NULL) == SPOTWISE_OK);
    CHECK(ratio.dose_ratio == 2.7 && isnan(ratio.line_dose_j_per_m2) && isnan(ratio.fill_dose_j_per_m2));
    CHECK(isnan(ratio.peak_irradiance_w_per_m2) && isnan(ratio.dwell_s) && isnan(ratio.text_full_m));
    CHECK(isnan(ratio.datum.ripple_contrast) && isnan(ratio.datum.good_em_m) && ratio.datum.text_grade == 0);
    CHECK(isnan(ratio.fill_depth_m) && ratio.highest.seen_diameter_m == ratio.highest.diameter_m);

    job = scanned_job();
    job.text = SPOTWISE_TEXT_GIVEN;
    job.typeface = SPOTWISE_TYPEFACE_SANS;
    job.em_m = 8.0 * SPOTWISE_POINT_M;
    job.least_grade = SPOTWISE_GRADE_GOOD;
    CHECK(spotwise_focus_check(&job, &verdict, &error) == SPOTWISE_OK && reports(&error, SPOTWISE_OK, 0));
    CHECK(near_to(verdict.dose_ratio, 2.5, 1e-14) && near_to(verdict.fill_dose_j_per_m2, 0.8e6, 1e-14));
    CHECK(near_to(verdict.peak_irradiance_w_per_m2 * verdict.dwell_s, verdict.line_dose_j_per_m2, 1e-14));
    CHECK(verdict.datum.text_grade >= SPOTWISE_GRADE_CRISP && verdict.datum.text_grade <= SPOTWISE_GRADE_GOOD);
    CHECK(verdict.datum.good_em_m < job.em_m && verdict.highest.good_em_m > verdict.datum.good_em_m);
    CHECK(verdict.datum.ripple_contrast > verdict.highest.ripple_contrast && verdict.text_full_m > 0.0);
    CHECK(verdict.reasons == 0 && verdict.outcome == SPOTWISE_OUTCOME_HOLDS);
    CHECK(isnan(verdict.fill_depth_m) && verdict.lowest.seen_diameter_m == verdict.lowest.diameter_m);

    /* Too small, but nothing is asked of it; then something is. */
    job.em_m = 0.5 * SPOTWISE_POINT_M;
    job.least_grade = SPOTWISE_GRADE_LOST;
    CHECK(spotwise_focus_check(&job, &verdict, NULL) == SPOTWISE_OK);
    CHECK(verdict.outcome == SPOTWISE_OUTCOME_HOLDS && verdict.datum.text_grade == SPOTWISE_GRADE_LOST);
    job.least_grade = SPOTWISE_GRADE_READABLE;
    CHECK(spotwise_focus_check(&job, &verdict, NULL) == SPOTWISE_OK);
    CHECK(verdict.outcome == SPOTWISE_OUTCOME_LOST && verdict.datum.details_hold == 0);
    CHECK(verdict.reasons == (SPOTWISE_REASON_TEXT_TOO_SMALL | SPOTWISE_REASON_TEXT_LOST_HIGH |
                              SPOTWISE_REASON_TEXT_LOST_LOW));
    CHECK(isnan(verdict.text_toward_lens_z_m) && isnan(verdict.text_full_m));

    /* Lines so far apart that they leave gaps, though the mean dose is as it was; then too far for a fill. */
    job.text = SPOTWISE_TEXT_NONE;
    job.line_interval_m = 100e-6;
    job.speed_m_per_s = 0.25;
    job.threshold_j_per_m2 = 0.6e6;
    job.finest_stroke_m = job.finest_gap_m = 1e-3;
    CHECK(spotwise_focus_check(&job, &verdict, NULL) == SPOTWISE_OK);
    CHECK(verdict.reasons == SPOTWISE_REASON_FILL_HAS_GAPS);
    job.line_interval_m = 1e-3;
    CHECK(spotwise_focus_check(&job, &verdict, &error) == SPOTWISE_E_OUTSIDE_MODEL);
    CHECK(error.parameter == SPOTWISE_PARAM_INTERVAL_OVER_RADIUS && is_blank_verdict(&verdict));
    /* 1.6 J/mm^2 are 2e-7 thresholds, of which at least 1e-6 are taken. */
    job.line_interval_m = 50e-6;
    job.threshold_j_per_m2 = 8e12;
    CHECK(spotwise_focus_check(&job, &verdict, &error) == SPOTWISE_E_OUTSIDE_MODEL);
    CHECK(error.parameter == SPOTWISE_PARAM_ANY_DOSE_RATIO && near_to(error.value, 2e-7, 1e-12));
    CHECK(error.least == 1e-6 && is_blank_verdict(&verdict));
}

/* A scan too weak for its material is a finding, in focus all the same; a dose ratio as low is one too. */
static void check_verdict_of_nothing(void)
{
    spotwise_job job = scanned_job();
    spotwise_verdict verdict;
    spotwise_error error = stale_report();
    spotwise_verdict_init(&verdict);
    job.threshold_j_per_m2 = 1e6;
    job.text = SPOTWISE_TEXT_GIVEN;
    job.typeface = SPOTWISE_TYPEFACE_SANS;
    job.em_m = 8.0 * SPOTWISE_POINT_M;
    job.least_grade = SPOTWISE_GRADE_GOOD;
    CHECK(spotwise_focus_check(&job, &verdict, &error) == SPOTWISE_OK && reports(&error, SPOTWISE_OK, 0));
    CHECK(verdict.outcome == SPOTWISE_OUTCOME_NOTHING_MARKS && verdict.promised == verdict.outcome);
    CHECK(verdict.reasons == SPOTWISE_REASON_NOTHING_MARKS && near_to(verdict.dose_ratio, 0.8, 1e-14));
    CHECK(isnan(verdict.datum.smallest_stroke_m) && isnan(verdict.datum.smallest_gap_m));
    CHECK(isnan(verdict.datum.smallest_dot_diameter_m) && isnan(verdict.datum.smallest_hole_diameter_m));
    CHECK(isnan(verdict.highest.crisp_em_m) && isnan(verdict.highest.good_em_m));
    CHECK(isnan(verdict.highest.readable_em_m) && verdict.highest.text_grade == SPOTWISE_GRADE_LOST);
    CHECK(verdict.datum.details_hold == 0 && verdict.datum.in_depth == 1);
    CHECK(isnan(verdict.detail_full_m) && isnan(verdict.text_full_m) && verdict.depth_full_m > 0.0);
    CHECK(verdict.datum.ripple_contrast > 0.0 && verdict.datum.seen_diameter_m == verdict.datum.diameter_m);
    /* Its numbers are looked at, though nothing comes of them. */
    job.good_window = 0.5;
    CHECK(spotwise_focus_check(&job, &verdict, &error) == SPOTWISE_E_OUT_OF_RANGE);
    CHECK(error.parameter == SPOTWISE_PARAM_DOSE_WINDOW);
    job.text = SPOTWISE_TEXT_NONE;
    CHECK(spotwise_focus_check(&job, &verdict, NULL) == SPOTWISE_OK && verdict.datum.text_grade == 0);
    CHECK(isnan(verdict.datum.smallest_stroke_m) && verdict.reasons == SPOTWISE_REASON_NOTHING_MARKS);

    job = face_good_job();
    job.dose_ratio = 1.0;
    CHECK(spotwise_focus_check(&job, &verdict, &error) == SPOTWISE_OK && reports(&error, SPOTWISE_OK, 0));
    CHECK(verdict.outcome == SPOTWISE_OUTCOME_NOTHING_MARKS && verdict.dose_ratio == 1.0);
    CHECK(verdict.reasons == SPOTWISE_REASON_NOTHING_MARKS && isnan(verdict.lowest.smallest_gap_m));
    /* 0.9 mm down the surface leaves the Rayleigh range of 0.4797 mm, and focus at mid-height would bring all
       of it in. That is said only where something marks. */
    job.surface_rise_m = 0.0;
    job.surface_fall_m = 0.9e-3;
    job.dose_ratio = 0.5;
    CHECK(spotwise_focus_check(&job, &verdict, NULL) == SPOTWISE_OK);
    CHECK(verdict.reasons == (SPOTWISE_REASON_NOTHING_MARKS | SPOTWISE_REASON_LOW_OUT_OF_FOCUS));
    job.dose_ratio = 2.7;
    CHECK(spotwise_focus_check(&job, &verdict, NULL) == SPOTWISE_OK);
    CHECK((verdict.reasons & SPOTWISE_REASON_REFOCUS_SHARPENS) != 0);
}

/* Materials that are dug, and a melt, whose heat spreads while the spot dwells. */
static void check_verdict_of_materials(void)
{
    spotwise_job job = scanned_job();
    spotwise_beam focused = good_beam();
    spotwise_verdict coating;
    spotwise_verdict verdict;
    spotwise_smallest_details_result details;
    spotwise_raster_ripple_result ripple;
    spotwise_defocus_result end;
    spotwise_error error = stale_report();
    double largest = 0.0;
    spotwise_verdict_init(&coating);
    spotwise_verdict_init(&verdict);
    spotwise_smallest_details_result_init(&details);
    spotwise_raster_ripple_result_init(&ripple);
    spotwise_defocus_result_init(&end);
    CHECK(spotwise_focus_check(&job, &coating, NULL) == SPOTWISE_OK && isnan(coating.fill_depth_m));

    /* 20 nm ln 2.5 = 18.32581 nm; (0.8 - 0.32) J/mm^2 at 10 J/mm^3 = 48 um; below the threshold 0. */
    job.response = SPOTWISE_RESPONSE_LOGARITHMIC_ABLATION;
    job.penetration_depth_m = 20e-9;
    CHECK(spotwise_focus_check(&job, &verdict, NULL) == SPOTWISE_OK);
    CHECK(near_to(verdict.fill_depth_m, 18.32581e-9, 1e-6) && verdict.reasons == coating.reasons);
    CHECK(memcmp(&verdict.highest, &coating.highest, sizeof verdict.highest) == 0);
    job.response = SPOTWISE_RESPONSE_LINEAR_ABLATION;
    CHECK(spotwise_focus_check(&job, &verdict, &error) == SPOTWISE_E_NOT_FINITE);
    CHECK(error.parameter == SPOTWISE_PARAM_REMOVAL_ENERGY && is_blank_verdict(&verdict));
    job.removal_energy_j_per_m3 = 1e10;
    CHECK(spotwise_focus_check(&job, &verdict, NULL) == SPOTWISE_OK);
    CHECK(near_to(verdict.fill_depth_m, 48e-6, 1e-14));
    job.threshold_j_per_m2 = 1e6;
    CHECK(spotwise_focus_check(&job, &verdict, NULL) == SPOTWISE_OK);
    CHECK(verdict.fill_depth_m == 0.0 && verdict.reasons == SPOTWISE_REASON_NOTHING_MARKS);

    /* A dwell of sqrt(pi/8) 88.143 um/0.5 m/s = 0.1104709 ms; the square of the seen diameter is 88.143^2 um^2
       + 32*1e-6 m^2/s*0.1104709 ms = 7769.19 + 3535.07 um^2, that of 106.321 um. */
    job = scanned_job();
    job.response = SPOTWISE_RESPONSE_MELT;
    job.diffusivity_m2_per_s = 1e-6;
    job.finest_stroke_m = job.finest_gap_m = 0.15e-3;
    CHECK(spotwise_focus_check(&job, &verdict, NULL) == SPOTWISE_OK && isnan(verdict.fill_depth_m));
    CHECK(near_to(verdict.dwell_s, 0.1104709e-3, 1e-5));
    CHECK(near_to(verdict.datum.seen_diameter_m, 106.321e-6, 1e-5));
    CHECK(verdict.datum.diameter_m == coating.datum.diameter_m);
    /* The details and the ripple are those of the spot seen. */
    CHECK(spotwise_smallest_details(verdict.datum.seen_diameter_m, verdict.dose_ratio, &details, NULL) ==
          SPOTWISE_OK);
    CHECK(near_to(verdict.datum.smallest_stroke_m, details.bar_m, 1e-14));
    CHECK(near_to(verdict.datum.smallest_hole_diameter_m, details.hole_diameter_m, 1e-14));
    CHECK(spotwise_raster_ripple(verdict.datum.seen_diameter_m, 50e-6, &ripple, NULL) == SPOTWISE_OK);
    CHECK(near_to(verdict.datum.ripple_contrast, ripple.contrast, 1e-13));
    /* Where the details just hold, d^2 + 32*1e-6*sqrt(pi/8)/0.5 d is the square of the largest spot. */
    CHECK(spotwise_largest_spot_for_details(0.15e-3, 0.15e-3, verdict.dose_ratio, &largest, NULL) == SPOTWISE_OK);
    focused.waist_diameter_m = verdict.waist_diameter_m;
    CHECK(spotwise_defocus(&focused, verdict.detail_away_from_lens_z_m, &end, NULL) == SPOTWISE_OK);
    CHECK(near_to(end.diameter_m * (end.diameter_m + 40.1060524e-6), largest * largest, 1e-8));
    /* Without any heat it is the coating. With 1e-4 m^2/s the spot seen is sqrt(88.143 (88.143 + 4010.61)) um
       = 601.06 um wide, and the finest stroke that times erfinv(1/2.5)/sqrt(2) = 0.262200: 157.6 um. */
    job.finest_stroke_m = job.finest_gap_m = 0.1e-3;
    job.diffusivity_m2_per_s = 0.0;
    CHECK(spotwise_focus_check(&job, &verdict, NULL) == SPOTWISE_OK);
    CHECK(memcmp(&verdict, &coating, sizeof verdict) == 0 && coating.outcome == SPOTWISE_OUTCOME_HOLDS);
    job.diffusivity_m2_per_s = 1e-4;
    CHECK(spotwise_focus_check(&job, &verdict, NULL) == SPOTWISE_OK);
    CHECK(near_to(verdict.datum.seen_diameter_m, 601.06e-6, 1e-5));
    CHECK(near_to(verdict.datum.smallest_stroke_m, 157.6e-6, 1e-4));
    CHECK(verdict.outcome == SPOTWISE_OUTCOME_LOST && verdict.datum.in_depth == 1);
    CHECK((verdict.reasons & SPOTWISE_REASON_STROKE_TOO_FINE) != 0);
}

static void check_marks(void)
{
    check_init_of_marks();
    check_refusals_of_scans();
    check_refusals_of_materials();
    check_refusals_of_single_marks();
    check_refusals_of_fills();
    check_refusals_of_pulses();
    check_refusals_of_compensations();
    check_refusals_of_text();
    check_examples_of_marks();
    check_too_little_dose();
    check_examples_of_fills();
    check_compensation();
    check_text();
    check_verdict_of_marks();
    check_verdict_of_nothing();
    check_verdict_of_materials();
}

#endif
