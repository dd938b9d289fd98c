"""Defocus of a round beam, and how far the surface may stand from the waist.

With u = z/zR and g = sqrt(1 + u^2) the diameter grows by g, the irradiance falls as 1/g^2 and the
dose of a scanned line as 1/g. Half ranges by criterion:

  1  growth to the ratio r              zR sqrt(r^2 - 1)
  2  Rayleigh range                     zR
  3  irradiance lost by the share p     zR sqrt(p/(1 - p))
  4  largest diameter D                 zR sqrt((D/d0)^2 - 1)
  5  line dose lost by the share p      zR sqrt(p (2 - p))/(1 - p)
"""

from mpmath import mpf, sqrt

from checks import UNREACHABLE, Refused, choice, exceeds, number
from model_beam import checked_beam

GROWTH, RAYLEIGH, IRRADIANCE_DROP, LARGEST_DIAMETER, LINE_DOSE_DROP = 1, 2, 3, 4, 5

# What an unreachable criterion is blamed on.
BLAMED = {
    GROWTH: "growth ratio",
    RAYLEIGH: "growth ratio",
    IRRADIANCE_DROP: "irradiance drop",
    LARGEST_DIAMETER: "largest diameter",
    LINE_DOSE_DROP: "line dose drop",
}


def criterion_number(row, criterion):
    """The one number that the criterion uses; the others are not looked at."""
    if criterion == RAYLEIGH:
        return mpf(0)
    field = {GROWTH: "growth_ratio", LARGEST_DIAMETER: "largest_diameter"}.get(criterion, "drop")
    return number(BLAMED[criterion], row[field])


def half_range(beam, criterion, value):
    """Half range of a beam by a criterion; None if even the waist is larger than allowed."""
    zr = beam.rayleigh_range
    if criterion == GROWTH:
        return zr * sqrt((value - 1) * (value + 1))
    if criterion == RAYLEIGH:
        return zr
    if criterion == IRRADIANCE_DROP:
        return zr * sqrt(value / (1 - value))
    if criterion == LARGEST_DIAMETER:
        return reach(beam, value)
    return zr * sqrt(value * (2 - value)) / (1 - value)


def reach(beam, diameter):
    """Distance from the waist at which the beam has this diameter; None if it is never so small."""
    d0 = beam.waist_diameter
    if diameter < d0:
        return None
    return beam.rayleigh_range * sqrt((diameter - d0) * (diameter + d0)) / d0


def symmetric(half):
    return {"toward_lens_z": -half, "away_from_lens_z": half, "full": 2 * half}


def defocus_outputs(beam, z):
    u2 = (z / beam.rayleigh_range) ** 2
    g = sqrt(1 + u2)
    return {
        "diameter": beam.waist_diameter * g,
        "growth": g,
        "growth_minus_one": u2 / (1 + g),
        "irradiance_ratio": 1 / (1 + u2),
        "line_dose_ratio": 1 / g,
    }


def defocus(row):
    beam = checked_beam(row)
    return defocus_outputs(beam, number("z offset", row["z_offset"])) | beam.cone


def offsets_for_diameter(row):
    beam = checked_beam(row)
    half = reach(beam, number("spot diameter", row["diameter"]))
    if half is None:
        raise Refused(UNREACHABLE, "spot diameter")
    return symmetric(half) | beam.cone


def offsets_for_growth(row):
    beam = checked_beam(row)
    growth = number("growth ratio", row["growth"])
    return symmetric(half_range(beam, GROWTH, growth)) | beam.cone


def depth_of_focus(row):
    criterion = choice("depth criterion", row["criterion"])
    beam = checked_beam(row)
    half = half_range(beam, criterion, criterion_number(row, criterion))
    if half is None:
        raise Refused(UNREACHABLE, BLAMED[criterion])
    return symmetric(half) | beam.cone


def depth_of_computed_beam(beam, criterion, value):
    """As `half_range`, for a beam whose waist is itself computed and so never meets D exactly."""
    if criterion == LARGEST_DIAMETER and exceeds(beam.waist_diameter, value):
        return None
    return half_range(beam, criterion, value)
