"""The spot over the field of a scan head with a flat-field lens, from numbers measured at its edge.

At a distance r from the middle, with p = r/R:

  field angle   r/f                       lens for scanning: image height f theta
  focus         zT p^2 and zS p^2         third-order curvature, tangential and sagittal
  incidence     a = aR p
  spot ratio    s = 1 + (sR - 1) p^2      of the spots in focus

On a table at z the slanted light has (z - focus)/cos a to go from its waist, which is s d0 wide and whose
Rayleigh range is s^2 zR. Across the radius the sagittal focus counts; along it the tangential one, and the spot
is longer by 1/cos a on the table.

The extent of a field is found by its own way here: the growth is looked at in many places from the middle
outward, the first place beyond the limit is bracketed, and the bracket closed by bisection. So is the best
height of a table: by golden section over its heights.
"""

import math
from dataclasses import dataclass

from mpmath import cos, log, mpf, sqrt, tan

from checks import (
    OUTSIDE_MODEL,
    UNREACHABLE,
    Refused,
    TooClose,
    allowed,
    computed_at_most,
    exceeds,
    number,
    number_within,
)
from model_beam import Beam, checked_beam
from model_shape import UNIT
from model_tilt import TILTED

CAUTION_GRAZING = mpf("0.2")
RADIUS_ULP, GRAZING_ULP = 8, 16
HALFWAY_ULP = {"best_z": mpf("0.75"), "greatest_defocus": mpf("0.75")}
# Of a height in greater error a double tells next to nothing.
GREATEST_FACTOR = mpf(10) ** 9
PLACES = 3000
# A field that comes this close to its limit inside is not asked.
NEARLY = 1e-5


@dataclass
class Field:
    """A beam and a lens that are checked."""

    beam: Beam
    focal_length: mpf
    radius: mpf
    tangential_z: mpf
    sagittal_z: mpf
    edge_incidence: mpf
    edge_spot_ratio: mpf

    def incidence(self, share):
        return self.edge_incidence * share

    def growths(self, share, z):
        """Along and across the radius, at r = share R."""
        slant = cos(self.incidence(share))
        s = 1 + (self.edge_spot_ratio - 1) * share**2
        rayleigh = s**2 * self.beam.rayleigh_range

        def grown(edge_z):
            return s * sqrt(1 + ((z - edge_z * share**2) / slant / rayleigh) ** 2)

        return grown(self.tangential_z) / slant, grown(self.sagittal_z)

    def cone(self, share):
        """Grazing ratio, half angle and flags."""
        grazing = tan(self.incidence(share)) * self.beam.half_angle
        flags = TILTED if exceeds(grazing, CAUTION_GRAZING) else 0
        return {"grazing_ratio": grazing} | self.beam.cone | {"validity": self.beam.validity | flags}


def checked_field(row):
    beam = checked_beam(row)
    field = Field(
        beam,
        number("focal length", row["focal_length"]),
        number("field radius", row["field_radius"]),
        number("edge tangential z", row["edge_tangential_z"]),
        number("edge sagittal z", row["edge_sagittal_z"]),
        number("edge incidence", row["edge_incidence"]),
        number("edge spot ratio", row["edge_spot_ratio"]),
    )
    computed_at_most("field angle", field.radius / field.focal_length)
    return field


def scan_field_at(row):
    field = checked_field(row)
    x = number("field x", row["field_x"])
    y = number("field y", row["field_y"])
    z = number("z offset", row["z_offset"])
    r = sqrt(x**2 + y**2)
    if r != field.radius and exceeds(r, field.radius):
        raise Refused(OUTSIDE_MODEL, "radius")
    share = r / field.radius
    along, across = field.growths(share, z)
    return {
        "radius": r,
        "field_angle": r / field.focal_length,
        "incidence": field.incidence(share),
        "tangential_focus_z": field.tangential_z * share**2,
        "sagittal_focus_z": field.sagittal_z * share**2,
        "diameter_along_radius": field.beam.waist_diameter * along,
        "diameter_across_radius": field.beam.waist_diameter * across,
        "growth_along_radius": along,
        "growth_across_radius": across,
        "irradiance_ratio": 1 / (along * across),
        "line_dose_ratio_along_radius": 1 / across,
        "line_dose_ratio_across_radius": 1 / along,
        **field.cone(share),
    }


def scan_field_extent(row):
    field = checked_field(row)
    z = number("z offset", row["z_offset"])
    limit = number("growth ratio", row["growth_ratio"])
    if z != 0:
        in_middle = (z / field.beam.rayleigh_range) ** 2
        if abs(sqrt(1 + in_middle) - limit) < mpf(10) ** -14:
            raise TooClose
        if limit == 1 or exceeds(in_middle / ((limit - 1) * (limit + 1)), mpf(1)):
            raise Refused(UNREACHABLE, "growth ratio")
    share, factor = first_share(field, z, limit)
    whole = share == 1
    return {
        "radius": field.radius * share,
        "square_side": sqrt(2) * field.radius * share,
        "whole_field": int(whole),
        **field.cone(share),
        "radius_ulp": allowed(RADIUS_ULP, factor),
        "square_side_ulp": allowed(RADIUS_ULP, factor),
        "grazing_ratio_ulp": allowed(GRAZING_ULP, factor),
    }


def first_share(field, z, limit):
    """The least r/R at which a growth meets the limit, or 1; and what an error there is made of."""

    def excess(share):
        """(g^2 - 1) over that allowed, of the larger growth."""
        return (max(field.growths(share, z)) ** 2 - 1) / (limit**2 - 1)

    if limit == 1:
        # Nothing may grow: a field in which something does ends in its middle.
        grows = max(field.growths(mpf("1e-3"), z)) > 1 or max(field.growths(mpf(1), z)) > 1
        return (mpf(0) if grows else mpf(1)), 1
    places = looked_at(field, z, limit)
    beyond = [i for i, (_, e) in enumerate(places) if e > 1.0]
    inside = places[: beyond[0]] if beyond else places
    # Peaks inside that nearly meet the limit: any of them might be the first place.
    for (_, left), (_, peak), (_, right) in zip(inside, inside[1:], inside[2:]):
        if left <= peak >= right and peak > 1 - NEARLY:
            raise TooClose
    if not beyond:
        if excess(mpf(1)) > 1 - mpf(NEARLY):
            raise TooClose
        return mpf(1), 1
    low, high = mpf(places[beyond[0] - 1][0]), mpf(places[beyond[0]][0])
    if excess(low) >= 1:
        raise TooClose
    for _ in range(220):
        middle = (low + high) / 2
        low, high = (middle, high) if excess(middle) <= 1 else (low, middle)
    share = (low + high) / 2
    step = share * mpf(10) ** -25
    slope = log(excess(share) / excess(share - step)) / log(share / (share - step))
    if abs(slope) < 0.02:
        raise TooClose  # the limit is met at a grazing angle
    return share, 1 + 1 / abs(slope)


def looked_at(field, z, limit):
    """Places from the middle outward with what they show: evenly in r, and in r^2 down to next to nothing."""
    edges = float(field.tangential_z), float(field.sagittal_z)
    found, z, most = in_doubles(field, z), float(z), float((limit - 1) * (limit + 1))

    shares = {i / PLACES for i in range(PLACES + 1)}
    shares |= {math.exp(-60.0 * (1.0 - i / PLACES)) for i in range(PLACES + 1)}
    # About the places at which the table passes a focus.
    for edge in edges:
        if edge and 0.0 < z / edge < 1.0:
            at = math.sqrt(z / edge)
            shares |= {min(1.0, at * (1.0 + i * abs(i) / 1e7)) for i in range(-1000, 1001)}
    return [(share, found(share) / most) for share in sorted(share for share in shares if share >= 0.0)]


def in_doubles(field, z):
    """g^2 - 1 of the larger growth, by the place r/R."""
    edges = float(field.tangential_z), float(field.sagittal_z)
    slant, wider = float(field.edge_incidence), float(field.edge_spot_ratio - 1)
    zr, z = float(field.beam.rayleigh_range), float(z)

    def excess(share):
        q = share * share
        sine, cosine = math.sin(slant * share), math.cos(slant * share)
        s = 1.0 + wider * q
        u = [(z - edge * q) / (cosine * zr * s) for edge in edges]
        stretched = wider * q * (2.0 + wider * q)
        along = (stretched + u[0] ** 2 + sine**2) / cosine**2
        return max(along, stretched + u[1] ** 2)

    return excess


def scan_field_focus(row):
    field = checked_field(row)
    used = number_within("radius", row["radius"], 0.0, row["field_radius"])
    share = used / field.radius
    heights = [mpf(0), field.tangential_z * share**2, field.sagittal_z * share**2]
    best, error = best_height(field, share, heights)
    outputs, errors = told_of(field, share, heights, best), {}
    for name, value in told_of(field, share, heights, best + error).items():
        errors[name] = abs(value - outputs[name])
    ulps = {name: allowed(HALFWAY_ULP.get(name, 4), factor(outputs[name], errors[name])) for name in outputs}
    return outputs | field.cone(share) | {f"{name}_ulp": ulp for name, ulp in ulps.items()}


def told_of(field, share, heights, z):
    along, across = field.growths(share, z)
    return {
        "best_z": z,
        "greatest_defocus": max(abs(height - z) for height in heights),
        "centre_growth": field.growths(mpf(0), z)[1],
        "edge_growth_along_radius": along,
        "edge_growth_across_radius": across,
    }


def factor(value, error):
    """What this error makes of half an ulp of a value."""
    if error == 0:
        return mpf(1)
    if value == 0 or error > UNIT * abs(value) * GREATEST_FACTOR:
        raise TooClose
    return 1 + error / (UNIT * abs(value))


def best_height(field, share, heights):
    """The height that makes the largest spot smallest, and how much of an error doubles may make of it.

    The largest of growths that are each convex in z is convex; its least by golden section, over the spots in the
    middle and at the edge. Then the whole field is looked at from there: rows in which a place between has a larger
    spot are left out.
    """
    lowest, highest = min(heights), max(heights)
    if lowest == highest:
        return lowest, mpf(0)

    slant = cos(field.incidence(share))
    s = 1 + (field.edge_spot_ratio - 1) * share**2
    zr = field.beam.rayleigh_range

    def spots(z):
        """g^2 - 1 in the middle and at the edge."""
        off = [z / zr, *((z - height) / (slant * s * zr) for height in heights[1:])]
        return [off[0] ** 2, (s**2 + off[1] ** 2) / slant**2 - 1, s**2 + off[2] ** 2 - 1]

    best = golden_least(lambda z: max(spots(z)), lowest, highest)
    largest = max(spots(best))
    for height in heights:
        if max(spots(height)) <= largest * (1 + mpf(10) ** -40):
            best = height
    demand_ends(field, share, best, sqrt(1 + max(spots(best))))
    if field.edge_incidence == 0 and field.edge_spot_ratio == 1:
        return best, mpf(0)
    return best, error_of_height(spots, best, highest - lowest)


def golden_least(function, low, high):
    ratio = (sqrt(mpf(5)) - 1) / 2
    a, b = high - ratio * (high - low), low + ratio * (high - low)
    at_a, at_b = function(a), function(b)
    for _ in range(150):
        if at_a <= at_b:
            high, b, at_b = b, a, at_a
            a = high - ratio * (high - low)
            at_a = function(a)
        else:
            low, a, at_a = a, b, at_b
            b = low + ratio * (high - low)
            at_b = function(b)
    return (low + high) / 2


def demand_ends(field, share, z, largest):
    """The largest spot is in the middle or at the edge, and not just beside."""
    beside = share * mpf(10) ** -6
    for end, inward in ((mpf(0), beside), (share, share - beside)):
        ends, inwards = field.growths(end, z), field.growths(inward, z)
        if any(a >= largest * (1 - mpf(10) ** -15) and b > a for a, b in zip(ends, inwards)):
            raise TooClose
    excess = in_doubles(field, z)
    if any(excess(float(share) * k / 200) > float(largest**2 - 1) * (1 + 1e-11) for k in range(1, 200)):
        raise TooClose


def error_of_height(spots, best, span):
    """What 8 ulp of g^2 - 1 make of the height at which two of the spots are alike; none where one is in focus."""
    step = span * mpf(10) ** -30
    here, beside = spots(best), spots(best + step)
    largest = max(here)
    slopes = [(b - a) / step for a, b in zip(here, beside) if a >= largest * (1 - mpf(10) ** -25)]
    rivals = [a for a in here if largest * (1 - mpf(10) ** -13) <= a < largest * (1 - mpf(10) ** -25)]
    if rivals:
        raise TooClose
    if min(slopes) >= 0 or max(slopes) <= 0 or len(slopes) == 1:
        return mpf(0)
    return 2 * 8 * 2 * UNIT * largest / (max(slopes) - min(slopes))
