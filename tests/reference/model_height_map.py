"""A map of heights turned into a map of what the spot does there, and a mask of what is in focus.

With u = (z - zf)/zR and g = sqrt(1 + u^2), for each height z by itself:

  1  growth               g
  2  diameter             d0 g
  3  irradiance ratio     1/g^2
  4  line dose ratio      1/g
  5  smallest stroke      g times the bar that a spot of d0 holds at the dose ratio

A place without a height is NaN. It stays NaN, it is neither least nor greatest, and it is not in focus.
"""

import math

from mpmath import mpf, nan, sqrt

from checks import NEAR, UNREACHABLE, Refused, TooClose, choice, exceeds, number
from model_beam import checked_beam
from model_depth import BLAMED, criterion_number, half_range
from model_detail import Details

PLACES = (1, 2, 3, 4, 5, 6)
GROWTH, DIAMETER, IRRADIANCE_RATIO, LINE_DOSE_RATIO, SMALLEST_STROKE = 1, 2, 3, 4, 5


def heights(row):
    """Every height in order; None where there is none."""
    found = [row[f"z{i}"] for i in PLACES]
    return [None if math.isnan(z) else number("z", z) for z in found]


def first_index(numbers, wanted):
    """Where an extreme first stands. Others must be it exactly, or be well apart from it."""
    for other in numbers:
        if other is not None and other != wanted and abs(other - wanted) <= NEAR * wanted:
            raise TooClose
    return numbers.index(wanted)


def map_heights(row):
    quantity = choice("height quantity", row["quantity"])
    beam = checked_beam(row)
    focus = number("focus z", row["focus_z"])
    scale = {DIAMETER: beam.waist_diameter}.get(quantity, mpf(1))
    if quantity == SMALLEST_STROKE:
        scale = beam.waist_diameter * Details(number("dose ratio", row["dose_ratio"])).bar

    def of_height(z):
        g2 = 1 + ((z - focus) / beam.rayleigh_range) ** 2
        return {IRRADIANCE_RATIO: 1 / g2, LINE_DOSE_RATIO: 1 / sqrt(g2)}.get(quantity, scale * sqrt(g2))

    numbers = [None if z is None else of_height(z) for z in heights(row)]
    known = [value for value in numbers if value is not None]
    out = {f"out{i}": nan if value is None else value for i, value in zip(PLACES, numbers)}
    extremes = {"least": nan, "least_index": 0, "greatest": nan, "greatest_index": 0}
    if known:
        extremes = {
            "least": min(known),
            "least_index": first_index(numbers, min(known)),
            "greatest": max(known),
            "greatest_index": first_index(numbers, max(known)),
        }
    return out | {"measured": len(known), "missing": len(numbers) - len(known)} | extremes | beam.cone


def in_focus_mask(row):
    criterion = choice("depth criterion", row["criterion"])
    beam = checked_beam(row)
    focus = number("focus z", row["focus_z"])
    half = half_range(beam, criterion, criterion_number(row, criterion))
    if half is None:
        raise Refused(UNREACHABLE, BLAMED[criterion])
    nearest, farthest = focus - half, focus + half
    known = heights(row)
    too_near = [z is not None and not exceeds(z, nearest) for z in known]
    too_far = [z is not None and exceeds(z, farthest) for z in known]
    held = [z is not None and not near and not far for z, near, far in zip(known, too_near, too_far)]
    return {f"in_focus{i}": int(yes) for i, yes in zip(PLACES, held)} | {
        "in_focus": sum(held),
        "too_near_lens": sum(too_near),
        "too_far_from_lens": sum(too_far),
        "missing": known.count(None),
        "toward_lens_z": nearest,
        "away_from_lens_z": farthest,
        **beam.cone,
    }
