/*
 * The part of the replay about the field of a scan head. Part of replay.c, whose helpers it uses.
 */
#ifndef SPOTWISE_TESTS_REPLAY_SCAN_FIELD_H
#define SPOTWISE_TESTS_REPLAY_SCAN_FIELD_H

static spotwise_scan_lens scan_lens_of(const double *in)
{
    spotwise_scan_lens lens;
    spotwise_scan_lens_init(&lens);
    lens.focal_length_m = in[0];
    lens.field_radius_m = in[1];
    lens.edge_tangential_z_m = in[2];
    lens.edge_sagittal_z_m = in[3];
    lens.edge_incidence_rad = in[4];
    lens.edge_spot_ratio = in[5];
    return lens;
}

static uint32_t call_scan_field(uint32_t function, const double *in, double *out, spotwise_error *error)
{
    uint32_t status = SPOTWISE_OK;
    const spotwise_beam beam = beam_of(in);
    const spotwise_scan_lens lens = scan_lens_of(&in[3]);
    if (function == SCAN_FIELD_AT) {
        spotwise_scan_field_spot spot;
        spotwise_scan_field_spot_init(&spot);
        CALL(spotwise_scan_field_at(&beam, &lens, in[9], in[10], in[11], &spot, error));
        out[0] = spot.radius_m;
        out[1] = spot.field_angle_rad;
        out[2] = spot.incidence_rad;
        out[3] = spot.tangential_focus_z_m;
        out[4] = spot.sagittal_focus_z_m;
        out[5] = spot.diameter_along_radius_m;
        out[6] = spot.diameter_across_radius_m;
        out[7] = spot.growth_along_radius;
        out[8] = spot.growth_across_radius;
        out[9] = spot.irradiance_ratio;
        out[10] = spot.line_dose_ratio_along_radius;
        out[11] = spot.line_dose_ratio_across_radius;
        out[12] = spot.grazing_ratio;
        out[13] = spot.half_angle_rad;
        out[14] = spot.validity;
    } else if (function == SCAN_FIELD_EXTENT) {
        spotwise_scan_field_extent_result extent;
        spotwise_scan_field_extent_result_init(&extent);
        CALL(spotwise_scan_field_extent(&beam, &lens, in[9], in[10], &extent, error));
        out[0] = extent.radius_m;
        out[1] = extent.square_side_m;
        out[2] = extent.whole_field;
        out[3] = extent.grazing_ratio;
        out[4] = extent.half_angle_rad;
        out[5] = extent.validity;
    } else {
        spotwise_scan_field_focus_result focus;
        spotwise_scan_field_focus_result_init(&focus);
        CALL(spotwise_scan_field_focus(&beam, &lens, in[9], &focus, error));
        out[0] = focus.best_z_m;
        out[1] = focus.greatest_defocus_m;
        out[2] = focus.centre_growth;
        out[3] = focus.edge_growth_along_radius;
        out[4] = focus.edge_growth_across_radius;
        out[5] = focus.grazing_ratio;
        out[6] = focus.half_angle_rad;
        out[7] = focus.validity;
    }
    return status;
}

#endif
