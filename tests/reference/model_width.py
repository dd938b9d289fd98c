"""Widths of a beam of Gaussian profile, and the power within a centred round aperture.

With d the 1/e^2 diameter, the irradiance at radius r is proportional to exp(-8 r^2/d^2), so that

  power share within the diameter a   1 - exp(-2 a^2/d^2)
  diameter of half irradiance         d sqrt(ln 2 / 2)

D4sigma and the diameter that holds the share 1 - e^-2 of the power equal d for this profile.
Definitions of the widths as in ISO 11146-1 (from memory).
"""

from mpmath import expm1, log, log1p, mpf, sqrt

from checks import choice, number

FULL_WIDTH_HALF_MAXIMUM = 3


def width_over_1e2(definition):
    """Width by this definition over the 1/e^2 diameter."""
    return sqrt(log(2) / 2) if definition == FULL_WIDTH_HALF_MAXIMUM else mpf(1)


def convert_width(row):
    given = choice("width definition", row["from"])
    wanted = choice("width definition", row["to"])
    diameter = number("beam diameter", row["diameter"])
    if (given == FULL_WIDTH_HALF_MAXIMUM) == (wanted == FULL_WIDTH_HALF_MAXIMUM):
        return {"diameter": diameter}
    return {"diameter": diameter / width_over_1e2(given) * width_over_1e2(wanted)}


def power_through_aperture(row):
    beam = number("beam diameter", row["beam_diameter"])
    aperture = number("aperture diameter", row["aperture_diameter"])
    return {"power_share": -expm1(-2 * (aperture / beam) ** 2)}


def diameter_for_power(row):
    beam = number("beam diameter", row["beam_diameter"])
    share = number("power share", row["power_share"])
    return {"aperture_diameter": beam * sqrt(-log1p(-share) / 2)}
