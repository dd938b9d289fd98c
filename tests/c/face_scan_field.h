/*
 * The part of the face about the field of a scan head. Part of face.c, whose helpers it uses.
 */
#ifndef SPOTWISE_TESTS_FACE_SCAN_FIELD_H
#define SPOTWISE_TESTS_FACE_SCAN_FIELD_H

static spotwise_beam good_scanned_beam(void)
{
    spotwise_beam beam;
    spotwise_beam_init(&beam);
    beam.wavelength_m = 1.064e-6;
    beam.m2 = 1.3;
    beam.waist_diameter_m = 60e-6;
    return beam;
}

static spotwise_scan_lens good_scan_lens(void)
{
    spotwise_scan_lens lens;
    spotwise_scan_lens_init(&lens);
    lens.focal_length_m = 0.16;
    lens.field_radius_m = 70e-3;
    lens.edge_tangential_z_m = -3e-3;
    lens.edge_sagittal_z_m = -1e-3;
    lens.edge_incidence_rad = 0.25;
    lens.edge_spot_ratio = 1.0;
    return lens;
}

static void check_refusals_of_scan_fields(void)
{
    const double missing = (double)NAN;
    const spotwise_beam beam = good_scanned_beam();
    const spotwise_scan_lens good = good_scan_lens();
    const spotwise_beam *no_beam = NULL;
    const spotwise_scan_lens *no_lens = NULL;
    spotwise_scan_lens lens = good;

    CHECK_REFUSED(spotwise_scan_field_spot, BLANK(1), spotwise_scan_field_at, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_FIELD_X, &beam, &good, missing, 0.0, 0.0);
    CHECK_REFUSED(spotwise_scan_field_spot, BLANK(1), spotwise_scan_field_at, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_FIELD_Y, &beam, &good, 0.0, -11.0, 0.0);
    CHECK_REFUSED(spotwise_scan_field_spot, BLANK(1), spotwise_scan_field_at, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_Z_OFFSET, &beam, &good, 0.0, 0.0, 2e7);
    CHECK_REFUSED(spotwise_scan_field_spot, BLANK(1), spotwise_scan_field_at, SPOTWISE_E_OUTSIDE_MODEL,
                  SPOTWISE_PARAM_RADIUS, &beam, &good, 60e-3, 40e-3, 0.0);
    CHECK_REFUSED(spotwise_scan_field_spot, BLANK(1), spotwise_scan_field_at, SPOTWISE_E_NULL, 0, no_beam, &good,
                  0.0, 0.0, 0.0);
    CHECK_REFUSED(spotwise_scan_field_spot, BLANK(1), spotwise_scan_field_at, SPOTWISE_E_NULL, 0, &beam, no_lens,
                  0.0, 0.0, 0.0);
    CHECK_REFUSED(spotwise_scan_field_extent_result, BLANK(3), spotwise_scan_field_extent, SPOTWISE_E_UNREACHABLE,
                  SPOTWISE_PARAM_GROWTH_RATIO, &beam, &good, 2e-3, 1.1);
    CHECK_REFUSED(spotwise_scan_field_extent_result, BLANK(3), spotwise_scan_field_extent, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_GROWTH_RATIO, &beam, &good, 0.0, 0.9);
    CHECK_REFUSED(spotwise_scan_field_extent_result, BLANK(3), spotwise_scan_field_extent, SPOTWISE_E_NULL, 0,
                  &beam, no_lens, 0.0, 1.1);
    CHECK_REFUSED(spotwise_scan_field_focus_result, BLANK(1), spotwise_scan_field_focus, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_RADIUS, &beam, &good, 71e-3);
    CHECK_REFUSED(spotwise_scan_field_focus_result, BLANK(1), spotwise_scan_field_focus, SPOTWISE_E_NULL, 0,
                  no_beam, &good, 10e-3);

    lens.focal_length_m = -0.16;
    CHECK_REFUSED(spotwise_scan_field_focus_result, BLANK(1), spotwise_scan_field_focus, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_FOCAL_LENGTH, &beam, &lens, 10e-3);
    lens.focal_length_m = 0.05;
    CHECK_REFUSED(spotwise_scan_field_focus_result, BLANK(1), spotwise_scan_field_focus, SPOTWISE_E_OUTSIDE_MODEL,
                  SPOTWISE_PARAM_FIELD_ANGLE, &beam, &lens, 10e-3);
    lens = good;
    lens.field_radius_m = 0.0;
    CHECK_REFUSED(spotwise_scan_field_spot, BLANK(1), spotwise_scan_field_at, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_FIELD_RADIUS, &beam, &lens, 0.0, 0.0, 0.0);
    lens = good;
    lens.edge_tangential_z_m = 11.0;
    CHECK_REFUSED(spotwise_scan_field_spot, BLANK(1), spotwise_scan_field_at, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_EDGE_TANGENTIAL_Z, &beam, &lens, 0.0, 0.0, 0.0);
    lens = good;
    lens.edge_sagittal_z_m = missing;
    CHECK_REFUSED(spotwise_scan_field_spot, BLANK(1), spotwise_scan_field_at, SPOTWISE_E_NOT_FINITE,
                  SPOTWISE_PARAM_EDGE_SAGITTAL_Z, &beam, &lens, 0.0, 0.0, 0.0);
    lens = good;
    lens.edge_incidence_rad = 1.1;
    CHECK_REFUSED(spotwise_scan_field_extent_result, BLANK(3), spotwise_scan_field_extent, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_EDGE_INCIDENCE, &beam, &lens, 0.0, 1.1);
    lens = good;
    lens.edge_spot_ratio = 0.9;
    CHECK_REFUSED(spotwise_scan_field_extent_result, BLANK(3), spotwise_scan_field_extent, SPOTWISE_E_OUT_OF_RANGE,
                  SPOTWISE_PARAM_EDGE_SPOT_RATIO, &beam, &lens, 0.0, 1.1);
    lens = good;
    lens.struct_size = 8;
    CHECK_REFUSED(spotwise_scan_field_focus_result, BLANK(1), spotwise_scan_field_focus, SPOTWISE_E_STRUCT_SIZE, 0,
                  &beam, &lens, 10e-3);
}

static void check_scan_fields(void)
{
    const spotwise_beam beam = good_scanned_beam();
    spotwise_scan_lens lens = good_scan_lens();
    spotwise_scan_field_spot spot;
    spotwise_scan_field_extent_result extent;
    spotwise_scan_field_focus_result focus;
    CHECK_INIT(spotwise_scan_lens, 1);
    CHECK_INIT(spotwise_scan_field_spot, 1);
    CHECK_INIT(spotwise_scan_field_extent_result, 3);
    CHECK_INIT(spotwise_scan_field_focus_result, 1);
    check_refusals_of_scan_fields();
    spotwise_scan_field_spot_init(&spot);
    spotwise_scan_field_extent_result_init(&extent);
    spotwise_scan_field_focus_result_init(&focus);

    /* zR = pi (60 um)^2/(4 * 1.3 * 1.064 um) = 2.0441 mm. Halfway to the edge the tangential focus is
       0.25 mm high and the incidence 0.125 rad: sqrt(1 + (0.25/(2.0441 cos 0.125))^2)/cos 0.125. */
    lens.edge_tangential_z_m = -1e-3;
    CHECK(spotwise_scan_field_at(&beam, &lens, 21e-3, -28e-3, 0.0, &spot, NULL) == SPOTWISE_OK);
    CHECK(fabs(spot.radius_m - 35e-3) < 1e-16 && fabs(spot.field_angle_rad - 0.21875) < 1e-15);
    CHECK(fabs(spot.incidence_rad - 0.125) < 1e-15);
    CHECK(fabs(spot.tangential_focus_z_m + 0.25e-3) < 1e-15 && spot.sagittal_focus_z_m == spot.tangential_focus_z_m);
    CHECK(fabs(spot.growth_along_radius - 1.01549) < 1e-5 && fabs(spot.growth_across_radius - 1.00757) < 1e-5);
    CHECK(fabs(spot.diameter_along_radius_m - 60.929e-6) < 1e-9);
    CHECK(fabs(spot.irradiance_ratio - 0.97735) < 1e-5 && spot.validity == SPOTWISE_VALIDITY_FINE);
    CHECK(fabs(spot.line_dose_ratio_along_radius - 0.99249) < 1e-5);
    CHECK(fabs(spot.line_dose_ratio_across_radius - 0.98474) < 1e-5);
    CHECK(fabs(spot.half_angle_rad - 0.014676) < 1e-6 && fabs(spot.grazing_ratio - 0.0018442) < 1e-6);

    /* 70 mm * sqrt(0.93674/3): a tenth more at 0.93674 mm off focus. */
    lens.edge_tangential_z_m = lens.edge_sagittal_z_m = -3e-3;
    lens.edge_incidence_rad = 0.0;
    CHECK(spotwise_scan_field_extent(&beam, &lens, 0.0, 1.1, &extent, NULL) == SPOTWISE_OK);
    CHECK(fabs(extent.radius_m - 39.115e-3) < 1e-6 && fabs(extent.square_side_m - 55.317e-3) < 2e-6);
    CHECK(extent.whole_field == 0 && extent.reserved == 0 && extent.grazing_ratio == 0.0);
    CHECK(spotwise_scan_field_extent(&beam, &lens, 0.0, 2.0, &extent, NULL) == SPOTWISE_OK);
    CHECK(extent.whole_field == 1 && extent.radius_m == 70e-3);

    /* Halfway between 0 and 3 mm: sqrt(1 + (1.5/2.0441)^2) in the middle and at the edge. */
    lens.edge_sagittal_z_m = -1e-3;
    CHECK(spotwise_scan_field_focus(&beam, &lens, 70e-3, &focus, NULL) == SPOTWISE_OK);
    CHECK(focus.best_z_m == -1.5e-3 && focus.greatest_defocus_m == 1.5e-3);
    CHECK(fabs(focus.centre_growth - 1.24035) < 1e-5 && focus.edge_growth_along_radius == focus.centre_growth);
    CHECK(focus.edge_growth_across_radius < 1.04 && focus.validity == SPOTWISE_VALIDITY_FINE);
    CHECK(focus.grazing_ratio == 0.0 && fabs(focus.half_angle_rad - 0.014676) < 1e-6);
}

#endif
