"""Crisp or smooth: edge and ripple of a fill against focus, and the offset that serves a taste.

  edge, 10 % to 90 % of the dose erfc(-sqrt2 x/w)/2     sqrt2 erfinv(0.8) w
  ripple contrast C                                    see model_raster
  cost of a compromise                                 s (g - 1) + (1 - s) C

The edge of a fill is the integral of exp(-2 x^2/w^2). The least cost is looked for on a fine grid of
spot sizes, then by the zero of its numerical derivative.
"""

from mpmath import diff, erfinv, mp, mpf, pi, sqrt

from checks import NEAR, UNREACHABLE, Refused, TooClose, allowed, choice, computed_at_most, exceeds, number
from model_beam import checked_beam
from model_depth import reach
from model_raster import contrast_of
from roots import root

CRISPEST, SMOOTHEST_WITHIN, COMPROMISE = 1, 2, 3

# Edge width over spot diameter.
EDGE = sqrt(2) * erfinv(mpf("0.8")) / 2
OFFSET_ULP = 4
RIPPLE_ULP = 8
# Below this r the ripple is less than 1e-10000000, and is written as nothing.
NO_RIPPLE = mpf("4.6e-4")
GRID = 80


def ripple_contrast(r):
    return contrast_of(r) if r > NO_RIPPLE else mpf(0)


def ripple_ulp(r):
    """The contrast of a fine fill falls as exp(-pi^2/(2 r^2)), and magnifies an error of r."""
    return allowed(RIPPLE_ULP, 1 + (pi / r) ** 2 if r < mpf("1.6") else 1)


def checked_fill(row):
    beam = checked_beam(row)
    p = number("line interval", row["line_interval"])
    computed_at_most("interval over spot radius", 2 * p / beam.waist_diameter)
    return beam, p


def outputs(beam, p, z, diameter):
    r = 2 * p / diameter
    quality = {
        "offset": z,
        "spot_diameter": diameter,
        "edge_width": EDGE * diameter,
        "ripple_contrast": ripple_contrast(r),
        "ripple_contrast_ulp": ripple_ulp(r),
    }
    return quality | beam.cone


def fill_quality(row):
    beam, p = checked_fill(row)
    z = abs(number("z offset", row["z_offset"]))
    return outputs(beam, p, z, beam.diameter(z))


def offset_for_taste(row):
    taste = choice("taste", row["taste"])
    beam, p = checked_fill(row)
    d0 = beam.waist_diameter
    growth_factor = mpf(1)
    if taste == CRISPEST:
        diameter = d0
    elif taste == SMOOTHEST_WITHIN:
        diameter = number("largest edge", row["largest_edge"]) / EDGE
        if exceeds(d0, diameter):
            raise Refused(UNREACHABLE, "largest edge")
    else:
        weight = number("crispness weight", row["crispness_weight"])
        r0 = 2 * p / d0
        growth = best_growth(r0, weight)
        diameter = d0 * growth
        if growth != 1:
            growth_factor = 1 + 1 / steepness(r0 / growth)
    answer = outputs(beam, p, reach(beam, diameter), diameter)
    room = mpf(1)
    if diameter != d0:
        squared = (diameter / d0) ** 2
        room = squared / (squared - 1)
        if room > 10**6:
            raise TooClose
    return answer | {
        "offset_ulp": allowed(OFFSET_ULP, growth_factor * room),
        "spot_diameter_ulp": allowed(OFFSET_ULP, growth_factor),
        "edge_width_ulp": allowed(OFFSET_ULP, growth_factor),
        "ripple_contrast_ulp": allowed(answer["ripple_contrast_ulp"], growth_factor),
    }


def cost(r0, weight, growth):
    return weight * (growth - 1) + (1 - weight) * ripple_contrast(r0 / growth)


def best_growth(r0, weight):
    """Growth of least cost; exactly 1 where that is the waist."""
    # Beyond, the ripple cannot fall by as much as the edge costs.
    most = 1 + (1 - weight) * ripple_contrast(r0) / weight
    most = min(most, max(mpf(1), r0 / mpf("0.1")))
    if most == 1:
        return mpf(1)
    with mp.workdps(25):
        places = [1 + (most - 1) * k / GRID for k in range(GRID + 1)]
        places += [r0 / (r0 / most + (r0 - r0 / most) * k / GRID) for k in range(GRID + 1)]
        places = sorted(set(places))
        costs = [cost(r0, weight, growth) for growth in places]
        # The waist counts separately: its cost is no dip.
        dips = [i for i in range(1, len(places) - 1) if costs[i] <= costs[i - 1] and costs[i] <= costs[i + 1]]
    found = mpf(1)
    least = cost(r0, weight, mpf(1))
    slope = lambda growth: diff(lambda g: cost(r0, weight, g), growth)
    for i in dips:
        low = places[i - 1]
        if slope(low) >= 0:
            continue
        # Without a rise beyond, it is no dip but the last digit of a level cost.
        beyond = next((place for place in places[i + 1 :] if slope(place) > 0), None)
        if beyond is None:
            continue
        growth = root(slope, low, beyond)
        here = cost(r0, weight, growth)
        if abs(here - least) <= NEAR * least:
            raise TooClose
        if here < least:
            found, least = growth, here
    return found


def steepness(r):
    """|d ln(r^2 C')/d ln r|: by how much the condition of a least cost pins r down."""
    with mp.workdps(30):
        f = lambda x: x**2 * diff(ripple_contrast, x)
        return abs(r * diff(f, r) / f(r))
