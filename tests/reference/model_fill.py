"""How wide a long filled stroke comes out, in focus and out of it.

Drawn from -h to h and swept by a Gaussian spot of 1/e^2 radius w, its dose at h + x over that of a wide fill
is E(x) = (erf(s (2 h + x)) - erf(s x))/2, s = sqrt2/w. It marks where q E >= 1: out to the x at which

  erf(s x) + erfc(s (2 h + x)) = (q - 2)/q

if it marks in the middle at all, and if q is at least 1.000001. There is no closed form: Newton's method, kept within a bracket.

As w grows, x changes by -(dE/dw)/(dE/dx), and dE/dw is x exp(-(s x)^2) - (2 h + x) exp(-(s (2 h + x))^2) but
for a positive factor. The stroke is widest where that vanishes, which is where x no longer grows: w is found
by following the sign, then with x by Newton's method in both.
"""

from mpmath import erf, erfc, exp, findroot, log, mp, mpf, pi, sqrt

from checks import PARAMETERS, allowed, exceeds, number
from model_beam import checked_beam
from model_depth import reach
from model_detail import erf_inverse

WIDTH_ULP, LIMIT_ULP = 8, 16
LEAST_THAT_MARKS = mpf(PARAMETERS["dose ratio"][1])


def root_within(of, slope, low, high):
    """Where a rising function vanishes between these, to all digits carried but thirty."""
    enough = mpf(10) ** (30 - mp.dps)
    # From 0, by which a root next to nothing is found at once.
    x = mpf(0) if low < 0 < high else high
    for _ in range(400):
        now = of(x)
        if now == 0:
            return x
        if now > 0:
            high = x
        else:
            low = x
        following = x - now / slope(x)
        if abs(following - x) <= enough * abs(following):
            return following
        x = following if low < following < high else (low + high) / 2
    raise ArithmeticError(f"no root from {low} to {high}")


def outward(w, h, q, low):
    """x by which the edge of a stroke moves out; it lies above `low`."""
    s = sqrt(2) / w
    missing = (q - 2) / q
    dose = lambda x: erf(s * x) + erfc(s * (2 * h + x)) - missing
    slope = lambda x: 2 * s / sqrt(pi) * (exp(-((s * x) ** 2)) - exp(-((s * (2 * h + x)) ** 2)))
    # One edge by itself, by the tail exp(-(s x)^2) that lies above that of erfc.
    return root_within(dose, slope, low, sqrt(log(q)) / s)


def stroke(spot, drawn, q):
    """How far each edge moves out, None if the stroke does not mark; and the exposure of its middle."""
    exposure = erf(sqrt(2) * drawn / spot)
    if q < LEAST_THAT_MARKS or not exceeds(q * exposure, mpf(1)):
        return None, exposure
    return outward(spot / 2, drawn / 2, q, -drawn / 2), exposure


def at_stake(spot, drawn, width):
    """The length to whose digits the problem answers: the larger of both, and more where little marks."""
    larger = max(spot, drawn)
    return larger * max(1, larger / width)


def fill_width(row):
    beam = checked_beam(row)
    drawn = number("drawn width", row["drawn_width"])
    q = number("any dose ratio", row["dose_ratio"])
    spot = beam.diameter(number("z offset", row["z_offset"]))
    moved, exposure = stroke(spot, drawn, q)
    common = {"exposure": exposure, "spot_diameter": spot, **beam.cone}
    if moved is None:
        nothing = {"width_ulp": WIDTH_ULP, "growth_ulp": WIDTH_ULP}
        return {"marks": 0, "width": mpf(0), "growth": -drawn, **common, **nothing}
    width = drawn + 2 * moved
    length = at_stake(spot, drawn, width)
    return {
        "marks": 1,
        "width": width,
        "growth": 2 * moved,
        **common,
        "width_ulp": allowed(WIDTH_ULP, length / width),
        "growth_ulp": allowed(WIDTH_ULP, length / abs(2 * moved)),
    }


def gain(w, x):
    """Sign of dE/dw at x outside a stroke with h = 1: the two edges, each by its logarithm."""
    return log(x / (2 + x)) + 2 * ((2 + x) ** 2 - x**2) / w**2


def widest_near(q):
    """ln x and ln w of the widest stroke with h = 1, to some digits."""
    with mp.workdps(40):
        # So blurred that the far edge leaves the near one where it was drawn: wider is past the widest.
        blurred = sqrt(2) * 2 / erf_inverse(2 / q, (q - 2) / q)
        low, high = log(blurred) - 8, log(blurred)
        for _ in range(24):
            middle = (low + high) / 2
            w = exp(middle)
            x = outward(w, mpf(1), q, mpf(0))
            if gain(w, x) > 0:
                low = middle
            else:
                high = middle
        return log(x), middle


def widest(q):
    """x and w of the widest stroke with h = 1, for q > 2."""
    missing = (q - 2) / q

    def laws(u, v):
        x, w = exp(u), exp(v)
        s = sqrt(2) / w
        return log((erf(s * x) + erfc(s * (2 + x))) / missing), gain(w, x)

    u, v = findroot(laws, widest_near(q), tol=mpf(10) ** -90, maxsteps=50)
    return exp(u), exp(v)


def fill_limits(row):
    beam = checked_beam(row)
    drawn = number("drawn width", row["drawn_width"])
    q = number("any dose ratio", row["dose_ratio"])
    waist = beam.waist_diameter
    moved, _ = stroke(waist, drawn, q)
    names = ("width_in_waist", "widest_offset", "greatest_width", "vanishing_offset")
    if moved is None:
        nothing = {name: mpf(0) for name in names} | {f"{name}_ulp": LIMIT_ULP for name in names}
        return {"marks": 0, **nothing, **beam.cone}
    width = drawn + 2 * moved
    in_waist = at_stake(waist, drawn, width) / width
    lost = sqrt(2) * drawn / erf_inverse(1 / q, (q - 1) / q)
    outputs = {
        "marks": 1,
        "width_in_waist": width,
        "widest_offset": mpf(0),
        "greatest_width": width,
        "vanishing_offset": reach(beam, lost),
        **beam.cone,
        "width_in_waist_ulp": allowed(WIDTH_ULP, in_waist),
        "widest_offset_ulp": LIMIT_ULP,
        "greatest_width_ulp": allowed(WIDTH_ULP, in_waist),
        "vanishing_offset_ulp": allowed(LIMIT_ULP, reach_factor(lost, waist)),
    }
    if q > 2:
        x, w = widest(q)
        diameter = w * drawn
        if exceeds(diameter, waist):
            outputs |= {
                "widest_offset": reach(beam, diameter),
                "greatest_width": drawn * (1 + x),
                "widest_offset_ulp": allowed(LIMIT_ULP, reach_factor(diameter, waist)),
                "greatest_width_ulp": LIMIT_ULP,
            }
    return outputs


def reach_factor(diameter, waist):
    """r^2/(r^2 - 1), what the offset at which a beam has a diameter makes of an error in it."""
    return diameter**2 / ((diameter - waist) * (diameter + waist))
