"""The spot of a round beam on a plane that leans by the angle t to the plane across the axis.

Along the plane, at s from the axis and + to the side farther from the lens, a point lies s cos t beside the
axis and s sin t beyond the place where the plane meets it. The 1/e^2 radius of the beam at height z is
sqrt(w0^2 + (a z)^2), a being the half angle, so that the contour has its ends where

  (s cos t)^2 = w0^2 + a^2 (z + s sin t)^2

a quadratic in s. It has two ends while a tan t < 1. The beam at the height z, projected along the axis,
covers d/cos t of the plane, and the irradiance falls by cos t as the light spreads over more of it.
"""

from mpmath import ceil, cos, mpf, sin, sqrt, tan

from checks import computed_at_most, exceeds, number
from model_beam import checked_beam, widest_cone

TILTED = 256
CONTOUR_ULP = 4


def contour(beam, z, tilt):
    """Middle between the two ends of the contour, and the length from one to the other."""
    w0, a = beam.waist_diameter / 2, beam.half_angle
    square = cos(tilt) ** 2 - (a * sin(tilt)) ** 2
    half_linear = a**2 * z * sin(tilt)
    constant = w0**2 + (a * z) ** 2
    # Not the mean of the ends: near the waist they cancel to all digits.
    return half_linear / square, 2 * sqrt(half_linear**2 + square * constant) / square


def tilted_spot(row):
    beam = checked_beam(row)
    z = number("z offset", row["z_offset"])
    tilt = number("tilt", row["tilt"])
    grazing = computed_at_most("grazing ratio", beam.half_angle * tan(tilt))
    middle, length = contour(beam, z, tilt)
    growth = beam.growth(z)
    ulp = int(ceil(CONTOUR_ULP / (1 - grazing**2)))
    return {
        "diameter_across": beam.diameter(z),
        "diameter_along": beam.diameter(z) / cos(tilt),
        "contour_along": length,
        "contour_shift": middle,
        "irradiance_ratio": cos(tilt) / growth**2,
        "line_dose_ratio": cos(tilt) / growth,
        "grazing_ratio": grazing,
        **widest_cone([beam], TILTED if exceeds(grazing, mpf("0.2")) else 0),
        "contour_along_ulp": ulp,
        "contour_shift_ulp": ulp,
    }
