/*
 * The part of the face about maps of heights. Part of face.c, whose helpers it uses.
 */
#ifndef SPOTWISE_TESTS_FACE_HEIGHT_MAP_H
#define SPOTWISE_TESTS_FACE_HEIGHT_MAP_H

/* Flags, and four counts of two words each, stand before the numbers. */
#define MAP_WORDS 9

static int is_blank_map(const double *out, const spotwise_height_map *map)
{
    return isnan(out[0]) && isnan(out[1]) && isnan(out[2]) && isnan(out[3]) && out[4] == 1.0 &&
           is_blank(map, sizeof *map, MAP_WORDS);
}

/* Calls with inputs that must be refused, and checks what becomes of array, result and report. */
#define CHECK_MAP_REFUSED(status, named, ...)                                            \
    do {                                                                                 \
        out[0] = out[1] = out[2] = out[3] = out[4] = 1.0;                                \
        error = stale_report();                                                          \
        memset(&map, STALE, sizeof map);                                                 \
        map.struct_size = sizeof map;                                                    \
        CHECK(spotwise_map_heights(__VA_ARGS__, 4, out, &map, &error) == (status));      \
        CHECK(is_blank_map(out, &map) && reports(&error, status, named));                \
    } while (0)

#define CHECK_MASK_REFUSED(status, named, ...)                                           \
    do {                                                                                 \
        memset(in_focus, STALE, sizeof in_focus);                                        \
        error = stale_report();                                                          \
        memset(&mask, STALE, sizeof mask);                                               \
        mask.struct_size = sizeof mask;                                                  \
        CHECK(spotwise_in_focus_mask(__VA_ARGS__, 4, in_focus, &mask, &error) == (status)); \
        CHECK(is_filled_with(in_focus, 4, 0) && in_focus[4] == STALE);                   \
        CHECK(is_blank(&mask, sizeof mask, MAP_WORDS) && reports(&error, status, named)); \
    } while (0)

static void check_map_of_heights(void)
{
    const spotwise_beam beam = good_beam();
    spotwise_beam small = good_beam();
    double z[4] = {0.7e-3, 0.2e-3, 0.0, -0.3e-3};
    double out[5] = {1.0, 1.0, 1.0, 1.0, 1.0};
    const double infinite = (double)INFINITY;
    uint32_t quantity;
    spotwise_height_map map;
    spotwise_error error = stale_report();
    int i;
    small.struct_size -= 8;
    z[2] = (double)NAN;
    spotwise_height_map_init(&map);

    /* zR = pi (88 um)^2 / (4 * 1.2 * 10.6 um) = 0.4782 mm, and half a millimetre is 1.0457 of it. */
    CHECK(spotwise_map_heights(&beam, 0.2e-3, SPOTWISE_HEIGHT_GROWTH, 0.0, z, 4, out, &map, &error) ==
          SPOTWISE_OK);
    CHECK(reports(&error, SPOTWISE_OK, 0) && out[4] == 1.0);
    CHECK(fabs(out[0] - 1.4469) < 1e-4 && out[1] == 1.0 && isnan(out[2]) && out[3] == out[0]);
    CHECK(map.measured == 3 && map.missing == 1 && map.validity == SPOTWISE_VALIDITY_FINE);
    CHECK(map.least == 1.0 && map.least_index == 1 && map.greatest == out[0] && map.greatest_index == 0);
    CHECK(fabs(map.half_angle_rad - 0.09202) < 1e-5);
    /* 88 um and 21.219 um of it; the irradiance falls with the square. */
    CHECK(spotwise_map_heights(&beam, 0.2e-3, SPOTWISE_HEIGHT_DIAMETER, 0.0, z, 4, out, &map, NULL) ==
          SPOTWISE_OK);
    CHECK(fabs(out[0] - 127.33e-6) < 1e-8 && out[1] == 88e-6);
    CHECK(spotwise_map_heights(&beam, 0.2e-3, SPOTWISE_HEIGHT_IRRADIANCE_RATIO, 0.0, z, 4, out, &map, NULL) ==
          SPOTWISE_OK);
    CHECK(fabs(out[0] - 0.4777) < 1e-4 && out[1] == 1.0 && map.least_index == 0 && map.greatest_index == 1);
    CHECK(spotwise_map_heights(&beam, 0.2e-3, SPOTWISE_HEIGHT_LINE_DOSE_RATIO, 0.0, z, 4, out, &map, NULL) ==
          SPOTWISE_OK);
    CHECK(fabs(out[0] - 0.6911) < 1e-4 && out[1] == 1.0);
    CHECK(spotwise_map_heights(&beam, 0.2e-3, SPOTWISE_HEIGHT_SMALLEST_STROKE, 2.7, z, 4, out, &map, NULL) ==
          SPOTWISE_OK);
    CHECK(fabs(out[0] - 30.70e-6) < 1e-8 && fabs(out[1] - 21.219e-6) < 1e-9);
    /* One at a time, the same bits. */
    for (quantity = SPOTWISE_HEIGHT_GROWTH; quantity <= SPOTWISE_HEIGHT_SMALLEST_STROKE; quantity++) {
        CHECK(spotwise_map_heights(&beam, 0.1e-3, quantity, 2.7, z, 4, out, &map, NULL) == SPOTWISE_OK);
        for (i = 0; i < 4; i++) {
            double one;
            CHECK(spotwise_map_heights(&beam, 0.1e-3, quantity, 2.7, &z[i], 1, &one, &map, NULL) == SPOTWISE_OK);
            CHECK(one == out[i] || (isnan(one) && isnan(out[i])));
        }
    }
    /* Nothing measured, and nothing at all. */
    CHECK(spotwise_map_heights(&beam, 0.0, SPOTWISE_HEIGHT_GROWTH, 0.0, &z[2], 1, out, &map, NULL) == SPOTWISE_OK);
    CHECK(map.measured == 0 && map.missing == 1 && isnan(map.least) && isnan(map.greatest));
    CHECK(isnan(out[0]) && map.least_index == 0 && map.greatest_index == 0 && map.half_angle_rad > 0.0);
    CHECK(spotwise_map_heights(&beam, 0.0, SPOTWISE_HEIGHT_GROWTH, 0.0, NULL, 0, NULL, &map, NULL) == SPOTWISE_OK);
    CHECK(map.measured == 0 && map.missing == 0);

    CHECK_MAP_REFUSED(SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_HEIGHT_QUANTITY, &beam, 0.0, 0, 2.7, z);
    CHECK_MAP_REFUSED(SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_HEIGHT_QUANTITY, &beam, 0.0, 6, 2.7, z);
    CHECK_MAP_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_FOCUS_Z, &beam, 2e3, SPOTWISE_HEIGHT_GROWTH, 2.7, z);
    CHECK_MAP_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_DOSE_RATIO, &beam, 0.0,
                      SPOTWISE_HEIGHT_SMALLEST_STROKE, 1.0, z);
    CHECK_MAP_REFUSED(SPOTWISE_E_NULL, 0, NULL, 0.0, SPOTWISE_HEIGHT_GROWTH, 2.7, z);
    CHECK_MAP_REFUSED(SPOTWISE_E_STRUCT_SIZE, 0, &small, 0.0, SPOTWISE_HEIGHT_GROWTH, 2.7, z);
    CHECK_MAP_REFUSED(SPOTWISE_E_NULL, 0, &beam, 0.0, SPOTWISE_HEIGHT_GROWTH, 2.7, NULL);
    z[3] = infinite;
    CHECK_MAP_REFUSED(SPOTWISE_E_NOT_FINITE, SPOTWISE_PARAM_Z, &beam, 0.0, SPOTWISE_HEIGHT_GROWTH, 2.7, z);
    z[3] = -2e7;
    CHECK_MAP_REFUSED(SPOTWISE_E_OUT_OF_RANGE, SPOTWISE_PARAM_Z, &beam, 0.0, SPOTWISE_HEIGHT_GROWTH, 2.7, z);
    CHECK(error.value == -2e7);

    /* In place, or one apart. */
    CHECK(spotwise_map_heights(&beam, 0.0, SPOTWISE_HEIGHT_GROWTH, 0.0, z, 4, z, &map, &error) ==
          SPOTWISE_E_OVERLAP);
    CHECK(reports(&error, SPOTWISE_E_OVERLAP, 0) && isnan(z[0]) && isnan(z[3]));
    for (i = 0; i < 4; i++) {
        z[i] = out[i] = 0.0;
    }
    CHECK(spotwise_map_heights(&beam, 0.0, SPOTWISE_HEIGHT_GROWTH, 0.0, out, 3, out + 1, &map, NULL) ==
          SPOTWISE_E_OVERLAP);
    CHECK(out[0] == 0.0 && isnan(out[1]) && isnan(out[3]) && out[4] == 1.0);

    /* Outputs that are missing, too long or of another size. */
    CHECK(spotwise_map_heights(&beam, 0.0, SPOTWISE_HEIGHT_GROWTH, 0.0, z, 4, NULL, &map, &error) ==
          SPOTWISE_E_NULL);
    out[0] = 1.0;
    CHECK(spotwise_map_heights(&beam, 0.0, SPOTWISE_HEIGHT_GROWTH, 0.0, z, 4, out, NULL, &error) ==
          SPOTWISE_E_NULL);
    CHECK(isnan(out[0]));
    out[0] = 1.0;
    CHECK(spotwise_map_heights(&beam, 0.0, SPOTWISE_HEIGHT_GROWTH, 0.0, z, SIZE_MAX, out, &map, &error) ==
          SPOTWISE_E_LENGTH_MISMATCH);
    CHECK(reports(&error, SPOTWISE_E_LENGTH_MISMATCH, SPOTWISE_PARAM_OUTPUT) && out[0] == 1.0);
    memset(&map, STALE, sizeof map);
    CHECK(spotwise_map_heights(&beam, 0.0, SPOTWISE_HEIGHT_GROWTH, 0.0, z, 4, out, &map, &error) ==
          SPOTWISE_E_STRUCT_SIZE);
    CHECK(isnan(out[0]) && is_filled_with(&map, sizeof map, STALE));
    spotwise_height_map_init(&map);
    memset(&error, STALE, sizeof error);
    out[0] = 1.0;
    CHECK(spotwise_map_heights(&beam, 0.0, SPOTWISE_HEIGHT_GROWTH, 0.0, z, 4, out, &map, &error) ==
          SPOTWISE_E_STRUCT_SIZE);
    CHECK(isnan(out[0]) && is_filled_with(&error, sizeof error, STALE));
}

static void check_mask_of_heights(void)
{
    const spotwise_beam beam = good_beam();
    spotwise_depth_criterion rayleigh;
    spotwise_depth_criterion other;
    double z[4] = {-0.3e-3, 0.0, 0.0, 0.6e-3};
    uint8_t in_focus[5];
    spotwise_focus_range depth;
    spotwise_focus_mask mask;
    spotwise_error error = stale_report();
    z[2] = (double)NAN;
    memset(in_focus, STALE, sizeof in_focus);
    spotwise_depth_criterion_init(&rayleigh);
    rayleigh.criterion = SPOTWISE_CRITERION_RAYLEIGH;
    other = rayleigh;
    spotwise_focus_range_init(&depth);
    spotwise_focus_mask_init(&mask);

    /* In focus from 0.1 - 0.4782 mm to 0.1 + 0.4782 mm. */
    CHECK(spotwise_in_focus_mask(&beam, 0.1e-3, &rayleigh, z, 4, in_focus, &mask, &error) == SPOTWISE_OK);
    CHECK(reports(&error, SPOTWISE_OK, 0) && in_focus[4] == STALE);
    CHECK(in_focus[0] == 1 && in_focus[1] == 1 && in_focus[2] == 0 && in_focus[3] == 0);
    CHECK(mask.in_focus == 2 && mask.too_near_lens == 0 && mask.too_far_from_lens == 1 && mask.missing == 1);
    CHECK(fabs(mask.toward_lens_z_m + 0.3782e-3) < 1e-7 && fabs(mask.away_from_lens_z_m - 0.5782e-3) < 1e-7);
    CHECK(fabs(mask.half_angle_rad - 0.09202) < 1e-5 && mask.validity == SPOTWISE_VALIDITY_FINE);
    CHECK(spotwise_in_focus_mask(&beam, 0.4e-3, &rayleigh, z, 4, in_focus, &mask, NULL) == SPOTWISE_OK);
    CHECK(mask.in_focus == 2 && mask.too_near_lens == 1 && in_focus[0] == 0 && in_focus[3] == 1);
    /* About zero the ends are those of the depth of focus, and belong to it. */
    CHECK(spotwise_depth_of_focus(&beam, &rayleigh, &depth, NULL) == SPOTWISE_OK);
    z[0] = depth.toward_lens_z_m;
    z[3] = depth.away_from_lens_z_m;
    CHECK(spotwise_in_focus_mask(&beam, 0.0, &rayleigh, z, 4, in_focus, &mask, NULL) == SPOTWISE_OK);
    CHECK(mask.toward_lens_z_m == z[0] && mask.away_from_lens_z_m == z[3] && mask.in_focus == 3);
    CHECK(spotwise_in_focus_mask(&beam, 0.0, &rayleigh, NULL, 0, NULL, &mask, NULL) == SPOTWISE_OK);
    CHECK(mask.in_focus == 0 && mask.missing == 0);

    CHECK_MASK_REFUSED(SPOTWISE_E_NULL, 0, NULL, 0.0, &rayleigh, z);
    CHECK_MASK_REFUSED(SPOTWISE_E_NULL, 0, &beam, 0.0, NULL, z);
    CHECK_MASK_REFUSED(SPOTWISE_E_NULL, 0, &beam, 0.0, &rayleigh, NULL);
    other.struct_size = 1;
    CHECK_MASK_REFUSED(SPOTWISE_E_STRUCT_SIZE, 0, &beam, 0.0, &other, z);
    other.struct_size = sizeof other;
    other.criterion = 6;
    CHECK_MASK_REFUSED(SPOTWISE_E_UNKNOWN_CHOICE, SPOTWISE_PARAM_DEPTH_CRITERION, &beam, 0.0, &other, z);
    other.criterion = SPOTWISE_CRITERION_LARGEST_DIAMETER;
    other.largest_diameter_m = 80e-6;
    CHECK_MASK_REFUSED(SPOTWISE_E_UNREACHABLE, SPOTWISE_PARAM_LARGEST_DIAMETER, &beam, 0.0, &other, z);
    CHECK_MASK_REFUSED(SPOTWISE_E_NOT_FINITE, SPOTWISE_PARAM_FOCUS_Z, &beam, (double)NAN, &rayleigh, z);
    z[1] = (double)INFINITY;
    CHECK_MASK_REFUSED(SPOTWISE_E_NOT_FINITE, SPOTWISE_PARAM_Z, &beam, 0.0, &rayleigh, z);
    z[1] = 0.0;

    CHECK(spotwise_in_focus_mask(&beam, 0.0, &rayleigh, z, 4, (uint8_t *)&z[3] + 4, &mask, &error) ==
          SPOTWISE_E_OVERLAP);
    CHECK(is_blank(&mask, sizeof mask, MAP_WORDS) && reports(&error, SPOTWISE_E_OVERLAP, 0));
    CHECK(spotwise_in_focus_mask(&beam, 0.0, &rayleigh, z, 4, NULL, &mask, &error) == SPOTWISE_E_NULL);
    memset(in_focus, STALE, sizeof in_focus);
    CHECK(spotwise_in_focus_mask(&beam, 0.0, &rayleigh, z, SIZE_MAX, in_focus, &mask, &error) ==
          SPOTWISE_E_LENGTH_MISMATCH);
    CHECK(reports(&error, SPOTWISE_E_LENGTH_MISMATCH, SPOTWISE_PARAM_OUTPUT) && in_focus[0] == STALE);
    CHECK(spotwise_in_focus_mask(&beam, 0.0, &rayleigh, z, 4, in_focus, NULL, &error) == SPOTWISE_E_NULL);
    CHECK(is_filled_with(in_focus, 4, 0));
}

static void check_height_maps(void)
{
    CHECK_INIT(spotwise_height_map, MAP_WORDS);
    CHECK_INIT(spotwise_focus_mask, MAP_WORDS);
    check_map_of_heights();
    check_mask_of_heights();
}

#endif
