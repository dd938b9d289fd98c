/*
 * The part of the replay about what the spot leaves behind: dose, marks, fills, text. Part of
 * replay.c, whose helpers it uses.
 */
#ifndef SPOTWISE_TESTS_REPLAY_MARKS_H
#define SPOTWISE_TESTS_REPLAY_MARKS_H


static spotwise_scan scan_of(const double *in)
{
    spotwise_scan scan;
    spotwise_scan_init(&scan);
    scan.power_w = in[0];
    scan.speed_m_per_s = in[1];
    scan.diameter_across_m = in[2];
    scan.diameter_along_m = in[3];
    scan.line_interval_m = in[4];
    return scan;
}

static spotwise_material material_of(const double *in)
{
    spotwise_material material;
    spotwise_material_init(&material);
    material.threshold_j_per_m2 = in[0];
    material.incubation = in[1];
    material.response = choice(in[2]);
    material.penetration_depth_m = in[3];
    material.removal_energy_j_per_m3 = in[4];
    material.diffusivity_m2_per_s = in[5];
    return material;
}

static spotwise_blur blur_of(const double *in)
{
    spotwise_blur blur;
    spotwise_blur_init(&blur);
    blur.diameter_across_m = in[0];
    blur.diameter_along_m = in[1];
    blur.speed_m_per_s = in[2];
    blur.diffusivity_m2_per_s = in[3];
    blur.pixel_m = in[4];
    blur.jitter_deviation_m = in[5];
    blur.rise_time_s = in[6];
    blur.switch_delay_s = in[7];
    return blur;
}

static spotwise_taste taste_of(const double *in)
{
    spotwise_taste taste;
    spotwise_taste_init(&taste);
    taste.taste = choice(in[0]);
    taste.largest_edge_m = in[1];
    taste.crispness_weight = in[2];
    return taste;
}

static spotwise_mark_setting setting_of(const double *in)
{
    spotwise_mark_setting setting;
    spotwise_mark_setting_init(&setting);
    setting.mark_kind = choice(in[0]);
    setting.dose_ratio = in[1];
    setting.power_w = in[2];
    setting.speed_m_per_s = in[3];
    setting.greatest_power_w = in[4];
    setting.least_speed_m_per_s = in[5];
    setting.greatest_speed_m_per_s = in[6];
    setting.least_irradiance_ratio = in[7];
    return setting;
}

static spotwise_typeface typeface_of(const double *in)
{
    spotwise_typeface typeface;
    spotwise_typeface_init(&typeface);
    typeface.typeface = choice(in[0]);
    typeface.stem = in[1];
    typeface.effective_stroke = in[2];
    typeface.effective_counter = in[3];
    typeface.effective_gap = in[4];
    return typeface;
}

static spotwise_text_grades grades_of(const double *in)
{
    spotwise_text_grades grades;
    spotwise_text_grades_init(&grades);
    grades.crisp_exposure = in[0];
    grades.good_window = in[1];
    grades.readable_window = in[2];
    return grades;
}

/* Makes one call of this part. */
static uint32_t call_mark(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    uint32_t status = SPOTWISE_E_NULL;
    switch (function) {
    case SCAN_DOSE: {
        const spotwise_scan scan = scan_of(in);
        spotwise_scan_dose_result result;
        spotwise_scan_dose_result_init(&result);
        CALL(spotwise_scan_dose(&scan, &result, error));
        out[0] = result.line_dose_j_per_m2;
        out[1] = result.fill_dose_j_per_m2;
        out[2] = result.peak_irradiance_w_per_m2;
        out[3] = result.dwell_s;
        break;
    }
    case PULSE_DOSE: {
        const spotwise_scan scan = scan_of(in);
        spotwise_pulse_dose_result result;
        spotwise_pulse_dose_result_init(&result);
        CALL(spotwise_pulse_dose(&scan, in[5], &result, error));
        out[0] = result.pulse_energy_j;
        out[1] = result.peak_fluence_j_per_m2;
        out[2] = result.pulse_pitch_m;
        out[3] = result.overlap;
        out[4] = result.pulses_per_diameter;
        out[5] = result.effective_pulses;
        break;
    }
    case DOSE_OVER_THRESHOLD:
        CALL(spotwise_dose_over_threshold(in[0], in[1], &out[0], error));
        break;
    case LINE_INTERVAL:
        CALL(spotwise_line_interval(in[0], &out[0], error));
        break;
    case DOTS_PER_INCH:
        CALL(spotwise_dots_per_inch(in[0], &out[0], error));
        break;
    case MATERIAL_MARK: {
        const spotwise_material material = material_of(in);
        spotwise_material_mark_result result;
        spotwise_material_mark_result_init(&result);
        CALL(spotwise_material_mark(&material, in[6], in[7], in[8], in[9], &result, error));
        out[0] = result.threshold_j_per_m2;
        out[1] = result.dose_ratio;
        out[2] = result.marks;
        out[3] = result.depth_m;
        out[4] = result.seen_diameter_m;
        break;
    }
    case MARK_WIDTH: {
        const spotwise_beam beam = beam_of(in);
        spotwise_mark_width_result result;
        spotwise_mark_width_result_init(&result);
        CALL(spotwise_mark_width(&beam, choice(in[3]), in[4], in[5], &result, error));
        out[0] = result.marks;
        out[1] = result.width_m;
        out[2] = result.dose_ratio;
        out[3] = result.spot_diameter_m;
        out[4] = result.half_angle_rad;
        out[5] = result.validity;
        break;
    }
    case MARK_LIMITS: {
        const spotwise_beam beam = beam_of(in);
        spotwise_mark_limits_result result;
        spotwise_mark_limits_result_init(&result);
        CALL(spotwise_mark_limits(&beam, choice(in[3]), in[4], &result, error));
        out[0] = result.marks;
        out[1] = result.width_in_waist_m;
        out[2] = result.widest_offset_m;
        out[3] = result.greatest_width_m;
        out[4] = result.vanishing_offset_m;
        out[5] = result.focus_insensitive_dose_ratio;
        out[6] = result.half_angle_rad;
        out[7] = result.validity;
        break;
    }
    case FILL_WIDTH: {
        const spotwise_beam beam = beam_of(in);
        spotwise_fill_width_result result;
        spotwise_fill_width_result_init(&result);
        CALL(spotwise_fill_width(&beam, in[3], in[4], in[5], &result, error));
        out[0] = result.marks;
        out[1] = result.width_m;
        out[2] = result.growth_m;
        out[3] = result.exposure;
        out[4] = result.spot_diameter_m;
        out[5] = result.half_angle_rad;
        out[6] = result.validity;
        break;
    }
    case FILL_LIMITS: {
        const spotwise_beam beam = beam_of(in);
        spotwise_fill_limits_result result;
        spotwise_fill_limits_result_init(&result);
        CALL(spotwise_fill_limits(&beam, in[3], in[4], &result, error));
        out[0] = result.marks;
        out[1] = result.width_in_waist_m;
        out[2] = result.widest_offset_m;
        out[3] = result.greatest_width_m;
        out[4] = result.vanishing_offset_m;
        out[5] = result.half_angle_rad;
        out[6] = result.validity;
        break;
    }
    case RASTER_RIPPLE: {
        spotwise_raster_ripple_result result;
        spotwise_raster_ripple_result_init(&result);
        CALL(spotwise_raster_ripple(in[0], in[1], &result, error));
        out[0] = result.greatest_over_mean;
        out[1] = result.least_over_mean;
        out[2] = result.contrast;
        out[3] = result.gap_free_dose_ratio;
        out[4] = result.gap_free_dose_ratio_without_memory;
        out[5] = result.interval_over_radius;
        break;
    }
    case INTERVAL_FOR_RIPPLE:
        CALL(spotwise_interval_for_ripple(in[0], in[1], &out[0], error));
        break;
    case DETAIL_EXPOSURE: {
        spotwise_detail_exposure_result result;
        spotwise_detail_exposure_result_init(&result);
        CALL(spotwise_detail_exposure(in[0], in[1], &result, error));
        out[0] = result.bar;
        out[1] = result.gap;
        out[2] = result.square;
        out[3] = result.dot;
        out[4] = result.hole;
        break;
    }
    case BLUR_BUDGET: {
        const spotwise_blur blur = blur_of(in);
        spotwise_blur_budget_result result;
        spotwise_blur_budget_result_init(&result);
        CALL(spotwise_blur_budget(&blur, &result, error));
        out[0] = result.dwell_s;
        out[1] = result.diffusion_length_m;
        out[2] = result.diameter_across_m;
        out[3] = result.diameter_along_m;
        out[4] = result.edge_across_m;
        out[5] = result.edge_along_m;
        out[6] = result.rise_smear_m;
        out[7] = result.delay_shift_m;
        out[8] = result.two_way_comb_m;
        break;
    }
    case FILL_QUALITY: {
        const spotwise_beam beam = beam_of(in);
        spotwise_fill_quality_result result;
        spotwise_fill_quality_result_init(&result);
        CALL(spotwise_fill_quality(&beam, in[3], in[4], &result, error));
        out[0] = result.offset_m;
        out[1] = result.spot_diameter_m;
        out[2] = result.edge_width_m;
        out[3] = result.ripple_contrast;
        out[4] = result.half_angle_rad;
        out[5] = result.validity;
        break;
    }
    case OFFSET_FOR_TASTE: {
        const spotwise_beam beam = beam_of(in);
        const spotwise_taste taste = taste_of(&in[4]);
        spotwise_fill_quality_result result;
        spotwise_fill_quality_result_init(&result);
        CALL(spotwise_offset_for_taste(&beam, in[3], &taste, &result, error));
        out[0] = result.offset_m;
        out[1] = result.spot_diameter_m;
        out[2] = result.edge_width_m;
        out[3] = result.ripple_contrast;
        out[4] = result.half_angle_rad;
        out[5] = result.validity;
        break;
    }
    case PULSED_LINE: {
        spotwise_pulsed_line_result result;
        spotwise_pulsed_line_result_init(&result);
        CALL(spotwise_pulsed_line(in[0], in[1], in[2], in[3], in[4], &result, error));
        out[0] = result.marks;
        out[1] = result.threshold_ratio;
        out[2] = result.dose_ratio;
        out[3] = result.dot_diameter_m;
        out[4] = result.connected;
        out[5] = result.scallop_m;
        break;
    }
    case CRATER: {
        spotwise_crater_result result;
        spotwise_crater_result_init(&result);
        CALL(spotwise_crater(in[0], in[1], in[2], in[3], &result, error));
        out[0] = result.diameter_m;
        out[1] = result.depth_m;
        out[2] = result.depth_at_radius_m;
        out[3] = result.volume_m3;
        break;
    }
    case GROOVE: {
        spotwise_groove_result result;
        spotwise_groove_result_init(&result);
        CALL(spotwise_groove(in[0], in[1], in[2], in[3], in[4], &result, error));
        out[0] = result.width_m;
        out[1] = result.depth_m;
        out[2] = result.depth_aside_m;
        out[3] = result.area_m2;
        break;
    }
    case CONNECTED_SPEED: {
        spotwise_connected_speed_result result;
        spotwise_connected_speed_result_init(&result);
        CALL(spotwise_connected_speed(in[0], in[1], in[2], in[3], in[4], &result, error));
        out[0] = result.pulse_pitch_m;
        out[1] = result.pulses;
        out[2] = result.speed_m_per_s;
        break;
    }
    case COMPENSATE: {
        const spotwise_beam beam = beam_of(in);
        const spotwise_mark_setting setting = setting_of(&in[5]);
        spotwise_compensation result;
        spotwise_compensation_init(&result);
        CALL(spotwise_compensate(&beam, in[3], choice(in[4]), &setting, &result, error));
        out[0] = result.wanted_factor;
        out[1] = result.reached_factor;
        out[2] = result.power_w;
        out[3] = result.speed_m_per_s;
        out[4] = result.irradiance_ratio;
        out[5] = result.dose_ratio;
        out[6] = result.mark_width_m;
        out[7] = result.limits;
        out[8] = result.half_angle_rad;
        out[9] = result.validity;
        break;
    }
    case TYPEFACE_SHARES: {
        const spotwise_typeface typeface = typeface_of(in);
        spotwise_typeface_shares_result result;
        spotwise_typeface_shares_result_init(&result);
        CALL(spotwise_typeface_shares(&typeface, &result, error));
        out[0] = result.cap_height;
        out[1] = result.x_height;
        out[2] = result.digit_height;
        out[3] = result.stem;
        out[4] = result.thinnest_stroke;
        out[5] = result.smallest_counter;
        out[6] = result.effective_stroke;
        out[7] = result.effective_counter;
        out[8] = result.effective_gap;
        break;
    }
    case SMALLEST_TEXT: {
        const spotwise_typeface typeface = typeface_of(&in[2]);
        const spotwise_text_grades grades = grades_of(&in[7]);
        spotwise_smallest_text_result result;
        spotwise_smallest_text_result_init(&result);
        CALL(spotwise_smallest_text(in[0], in[1], &typeface, &grades, &result, error));
        out[0] = result.crisp_em_m;
        out[1] = result.good_em_m;
        out[2] = result.readable_em_m;
        break;
    }
    case TEXT_QUALITY: {
        const spotwise_typeface typeface = typeface_of(&in[3]);
        const spotwise_text_grades grades = grades_of(&in[8]);
        spotwise_text_quality_result result;
        spotwise_text_quality_result_init(&result);
        CALL(spotwise_text_quality(in[0], in[1], in[2], &typeface, &grades, &result, error));
        out[0] = result.grade;
        out[1] = result.stem_exposure;
        out[2] = result.least_dose_ratio;
        out[3] = result.greatest_dose_ratio;
        out[4] = result.greatest_dose_ratio_for_counters;
        break;
    }
    case OFFSET_FOR_TEXT: {
        const spotwise_beam beam = beam_of(in);
        const spotwise_typeface typeface = typeface_of(&in[6]);
        const spotwise_text_grades grades = grades_of(&in[11]);
        spotwise_text_offset result;
        spotwise_text_offset_init(&result);
        CALL(spotwise_offset_for_text(&beam, in[3], choice(in[4]), in[5], &typeface, &grades, &result,
                                      error));
        out[0] = result.offset_m;
        out[1] = result.spot_diameter_m;
        out[2] = result.half_angle_rad;
        out[3] = result.validity;
        break;
    }
    default:
        break;
    }
    return status;
}

#endif
