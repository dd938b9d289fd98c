"""Depth of focus of an astigmatic beam.

By growth, Rayleigh range, line dose and largest diameter: the heights at which both axes, each
about its own waist, meet the criterion. By irradiance: the connected range about the brightest
place on which 1/(gx gy) is at least 1 - p.
"""

from mpmath import mpf, workdps

from checks import NEAR, UNREACHABLE, Refused, TooClose, choice
from model_astigmatic import (
    ROOT_DIGITS,
    brightest_place,
    checked_astigmatic,
    root_between,
    still_places,
)
from model_beam import widest_cone
from model_depth import BLAMED, IRRADIANCE_DROP, criterion_number, half_range

SECOND_RANGE = 2


def astigmatic_depth_of_focus(row):
    with workdps(ROOT_DIGITS):
        criterion = choice("depth criterion", row["criterion"])
        beam = checked_astigmatic(row)
        value = criterion_number(row, criterion)
        if criterion == IRRADIANCE_DROP:
            toward, away, flag = bright_range(beam, value)
        else:
            toward, away = common_range(beam, criterion, value)
            flag = 0
        return {
            "toward_lens_z": toward,
            "away_from_lens_z": away,
            "full": away - toward,
            **widest_cone((beam.x, beam.y), flag),
        }


def common_range(beam, criterion, value):
    hx = half_range(beam.x, criterion, value)
    hy = half_range(beam.y, criterion, value)
    if hx is None or hy is None:
        raise Refused(UNREACHABLE, BLAMED[criterion])
    # The ranges share a height if the waists are no farther apart than both half ranges.
    distance = abs(beam.separation)
    if distance != 0 and abs(distance - hx - hy) <= NEAR * distance:
        raise TooClose
    if distance > hx + hy:
        raise Refused(UNREACHABLE, BLAMED[criterion])
    return max(beam.zx - hx, beam.zy - hy), min(beam.zx + hx, beam.zy + hy)


def bright_range(beam, drop):
    """Ends of the bright range, and the flag of a second one."""
    # gx^2 gy^2 may grow to 1/(1 - p)^2; both sides less one.
    allowed = drop * (2 - drop) / (1 - drop) ** 2
    places = still_places(beam)
    best = brightest_place(beam, places)
    if not meets(beam, best, allowed):
        raise Refused(UNREACHABLE, "irradiance drop")
    if len(places) == 1:
        return edge(beam, allowed, best, -1), edge(beam, allowed, best, 1), 0
    dip = places[1]
    other = places[0] if best == places[2] else places[2]
    toward_other = 1 if other > best else -1
    near_end = edge(beam, allowed, best, -toward_other)
    if meets(beam, dip, allowed):
        # Bright all the way to the other bright place and beyond it.
        far_end = edge(beam, allowed, other, toward_other)
        flag = 0
    else:
        far_end = edge(beam, allowed, best, toward_other, dip)
        flag = SECOND_RANGE if beam.equal_ranges or meets(beam, other, allowed) else 0
    return min(near_end, far_end), max(near_end, far_end), flag


def meets(beam, z, allowed):
    """Whether the irradiance at z is high enough."""
    dimming = beam.dimming(z)
    if beam.separation != 0 and abs(dimming - allowed) <= NEAR * (1 + allowed):
        raise TooClose
    return dimming <= allowed


def edge(beam, allowed, centre, direction, stop=None):
    """Where the irradiance falls below the limit, going one way from a bright place.

    It falls all the way from `centre` to `stop`, or without end. The unknown is the distance from
    the bright place, so that a range far smaller than its position keeps its digits.
    """
    ax, ay = beam.x.rayleigh_range, beam.y.rayleigh_range
    a0, b0 = (centre - beam.zx) / ax, (centre - beam.zy) / ay

    def excess(distance):
        a = (a0 + direction * distance / ax) ** 2
        b = (b0 + direction * distance / ay) ** 2
        return a + b + a * b - allowed

    def slope(distance):
        a, b = a0 + direction * distance / ax, b0 + direction * distance / ay
        return 2 * direction * (a * (1 + b**2) / ax + b * (1 + a**2) / ay)

    if excess(0) == 0:
        return centre
    if stop is None:
        high = min(ax, ay)
        while excess(high) <= 0:
            high *= 2
    else:
        high = abs(stop - centre)
    return centre + direction * root_between(excess, slope, mpf(0), high)
