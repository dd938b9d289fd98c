"""What the heights of a surface ask of the focus. Heights count + away from the lens.

Round beam: the diameter is even in the distance from the waist, so that the least bad focus over the heights
from h to l lies midway. Astigmatic beam: with m the middle of the surface as the beam counts it and H half the
range, the squared diameters at both ends are four parabolas in m; the least of the greatest of them lies at a vertex
or where two cross, and is looked for among all such places.

Bands: the least whole number of bands of at most (1 - margin) of the depth, to a part in 1e9. The depth reaches from
t to a, counted from the focus f; it is centred on heights from s to e by f = (s + e)/2 - (t + a)/2.

A round part of the radius R is lower than its crown by s at the distance x with x^2 + (R - s)^2 = R^2. The normal
leans by the angle whose sine is x/R.

Engraving: stages of the most passes that fit into the usable depth. Cutting: the spots at both faces; the taper is
the slope of the straight line between them.
"""

from mpmath import asin, atan, ceil, cos, floor, mpf, pi, sqrt, workdps

from checks import NEAR, OUTSIDE_MODEL, OUT_OF_RANGE, PARAMETERS, Refused, TooClose, allowed, choice, computed, exceeds
from checks import number, number_within
from model_astigmatic import checked_astigmatic
from model_beam import checked_beam

SLACK = mpf(10) ** -9
HIGHEST_PLACE, MIDWAY = 1, 2
# So many bands or stages have columns in the rows.
MOST = 6
# Enough for sums of any doubles.
EXACT = 700
NAN = mpf("nan")


def off_focus(beam, z):
    growth = beam.growth(z)
    u = z / beam.rayleigh_range
    return {
        "diameter": beam.diameter(z),
        "growth": growth,
        "growth_minus_one": u**2 / (1 + growth),
        "irradiance_ratio": 1 / growth**2,
        "line_dose_ratio": 1 / growth,
    }


def checked_heights(row):
    highest = number("z of the highest place", row["highest_z"])
    lowest = number_within("z of the lowest place", row["lowest_z"], row["highest_z"], PARAMETERS["z of the lowest place"][2])
    return highest, lowest


def focus_between(row):
    beam = checked_beam(row)
    highest, lowest = checked_heights(row)
    half_range = (lowest - highest) / 2
    return {
        "focus_z": (highest + lowest) / 2,
        "half_range": half_range,
        **off_focus(beam, half_range),
        **beam.cone,
    }


# The astigmatic beam


def crossings(one, other):
    """Where two parabolas (A, B, c), A + B (m - c)^2, are equal."""
    # About the vertex of the first: a k^2 + 2 b k + c = 0.
    s = other[2] - one[2]
    a = one[1] - other[1]
    b = other[1] * s
    c = one[0] - other[0] - other[1] * s**2
    if a == 0:
        return [one[2] - c / (2 * b)] if b != 0 else []
    square = b**2 - a * c
    if square < 0:
        return []
    # Of the two forms of a root the one that does not cancel.
    far = -(b + sqrt(square)) if b >= 0 else -b + sqrt(square)
    return [one[2] + far / a] + ([one[2] + c / far] if far != 0 else [])


def least_greatest(parabolas):
    """Where the greatest of some parabolas is least."""
    places = [c for _, _, c in parabolas]
    for i, one in enumerate(parabolas):
        for other in parabolas[:i]:
            places += crossings(one, other)
    return min(places, key=lambda m: max(A + B * (m - c) ** 2 for A, B, c in parabolas))


def focus_between_astigmatic(row):
    beam = checked_astigmatic(row)
    highest, lowest = checked_heights(row)
    half_range = (lowest - highest) / 2
    axes = [(beam.x, beam.zx), (beam.y, beam.zy)]
    parabolas = [
        (axis.waist_diameter**2, (axis.waist_diameter / axis.rayleigh_range) ** 2, place + side * half_range)
        for axis, place in axes
        for side in (1, -1)
    ]
    m = least_greatest(parabolas)
    middle = (highest + lowest) / 2
    focus = middle - m
    scale = max(abs(middle), *(abs(c) for _, _, c in parabolas))
    if focus != 0 and abs(focus) < mpf(10) ** -12 * scale:
        raise TooClose
    high = [axis.diameter(m - half_range - place) for axis, place in axes]
    low = [axis.diameter(m + half_range - place) for axis, place in axes]
    return {
        "focus_z": focus,
        "worst_diameter": max(high + low),
        "highest_diameter_x": high[0],
        "highest_diameter_y": high[1],
        "lowest_diameter_x": low[0],
        "lowest_diameter_y": low[1],
        **beam.cone,
        "focus_z_ulp": 0 if focus == 0 else allowed(1, 1 + scale / abs(focus) * mpf(2) ** -45),
    }


# Depths of focus


def whole_digits(value, scale):
    """Leaves out differences that twice the digits of a double do not hold."""
    if value != 0 and abs(value) < mpf(10) ** -14 * scale:
        raise TooClose
    return value


def checked_depth(row):
    toward = number("limit toward the lens", row["toward_lens_z"])
    away = number("limit away from the lens", row["away_from_lens_z"])
    computed_depth(away - toward)
    return toward, away


def computed_depth(depth):
    # The longest, from end to end of the range, is allowed exactly.
    return depth if depth == 2 * mpf(10) ** 7 else computed("usable depth of focus", depth)


def usable_depth(toward, away, aim):
    if aim == MIDWAY:
        return away - toward
    if toward > 0:
        raise Refused(OUT_OF_RANGE, "limit toward the lens")
    return computed_depth(away)


def careful(quotient):
    """Refuses to round next to where the answer changes. With the slack, exact multiples lie 1e-9 away."""
    nearest = floor(quotient + mpf(1) / 2)
    if nearest > 0 and abs(quotient - nearest) <= NEAR / 100 * nearest:
        raise TooClose
    return quotient


def parts_needed(parameter, quotient):
    needed = quotient * (1 - SLACK)
    if careful(needed) > PARAMETERS[parameter][2]:
        raise Refused(OUTSIDE_MODEL, parameter)
    return max(1, int(ceil(needed)))


def parts_fitting(quotient, most):
    return min(most, max(1, int(floor(careful(quotient * (1 + SLACK))))))


def height_bands(row):
    highest, lowest = checked_heights(row)
    toward, away = checked_depth(row)
    margin = number("band margin", row["margin"])
    height = lowest - highest
    count = parts_needed("number of height bands", height / ((away - toward) * (1 - margin)))
    if count > MOST:
        raise TooClose
    answer = {
        "count": count,
        "band_height": height / count,
        "share_of_depth": height / count / (away - toward),
    }
    for i in range(MOST + 1):
        with workdps(EXACT):
            limit = whole_digits((highest * (count - i) + lowest * i) / count, max(abs(highest), abs(lowest)))
        answer[f"limit{i + 1}"] = limit if i <= count else NAN
    for i in range(MOST):
        with workdps(EXACT):
            middle = (highest * (2 * count - 2 * i - 1) + lowest * (2 * i + 1)) / count
            focus = whole_digits((middle - toward - away) / 2, max(map(abs, (highest, lowest, toward, away))))
        answer[f"focus_z{i + 1}"] = focus if i < count else NAN
    return answer


def cylinder_strip(row):
    aim = choice("focus aim", row["aim"])
    radius = number("radius of the part", row["part_radius"])
    toward, away = checked_depth(row)
    usable = usable_depth(toward, away, aim)
    everything = usable == radius or exceeds(usable, radius)
    sag = radius if everything else usable
    x = radius if everything else sqrt(radius**2 - (radius - sag) ** 2)
    incidence = pi / 2 if everything else asin(x / radius)
    return {
        "half_chord": x,
        "full_chord": 2 * x,
        "arc_length": 2 * radius * incidence,
        "edge_sag": sag,
        "edge_incidence": incidence,
        "edge_irradiance_ratio": mpf(0) if everything else cos(incidence),
        "focus_z": mpf(0) if aim == HIGHEST_PLACE else focus_for_strip(sag, toward, away),
        "whole_upper_half": int(everything),
    }


def focus_for_strip(sag, toward, away):
    with workdps(EXACT):
        return whole_digits(sag / 2 - (toward + away) / 2, max(abs(toward), abs(away)))


def refocus_plan(row):
    aim = choice("focus aim", row["aim"])
    total = number("total depth", row["total_depth"])
    each = number("depth per pass", row["depth_per_pass"])
    toward, away = checked_depth(row)
    usable = usable_depth(toward, away, aim)
    passes = parts_needed("number of passes", total / each)
    per_stage = parts_fitting(usable / each, passes)
    stages = -(-passes // per_stage)
    if stages > MOST:
        raise TooClose
    stays = each == usable or not exceeds_slack(each, usable)
    answer = {
        "passes": passes,
        "reached_depth": passes * each,
        "passes_per_stage": per_stage,
        "stages": stages,
        "last_stage_passes": passes - (stages - 1) * per_stage,
        "stage_depth": per_stage * each,
        "usable_depth": usable,
        "stays_in_focus": int(stays),
    }
    for i in range(MOST):
        start, end = i * per_stage, min((i + 1) * per_stage, passes)
        at = start * each if aim == HIGHEST_PLACE else ((start + end) * each - toward - away) / 2
        answer[f"focus_z{i + 1}"] = at if i < stages else NAN
    return answer


def exceeds_slack(part, depth):
    most = depth * (1 + SLACK)
    if abs(part - most) <= NEAR / 100 * most:
        raise TooClose
    return part > most


# A cut


def spot_through(row):
    beam = checked_beam(row)
    focus = number("focus z", row["focus_z"])
    thickness = number("thickness", row["thickness"])
    top, bottom = beam.diameter(focus), beam.diameter(thickness - focus)
    inside = 0 <= focus <= thickness
    if thickness > 0:
        # Of the squares, which cancel to nothing but what they differ by.
        a = beam.waist_diameter / beam.rayleigh_range
        slope = a**2 * (2 * focus - thickness) / (top + bottom) / 2
        straight = (top - bottom) / (2 * thickness)
        if abs(straight - slope) > mpf(10) ** -20 * (top + bottom) / thickness:
            raise AssertionError("the taper is not the slope of the line")
    else:
        # What is left of it at one height: half the slope of the diameter.
        u = focus / beam.rayleigh_range
        slope = beam.waist_diameter / (2 * beam.rayleigh_range) * u / sqrt(1 + u**2)
    return {
        "top_diameter": top,
        "bottom_diameter": bottom,
        "widest": max(top, bottom),
        "narrowest": beam.waist_diameter if inside else min(top, bottom),
        "worst_growth": max(top, bottom) / beam.waist_diameter,
        "taper_ratio": bottom / top,
        "taper_half_angle": atan(slope),
        "best_focus_z": thickness / 2,
        "best_worst_growth": beam.growth(thickness / 2),
        **beam.cone,
    }
