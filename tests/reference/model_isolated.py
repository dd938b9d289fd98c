"""The mark of one pulse, or of one scanned line, at a distance z from the waist.

At y from its middle the dose over the threshold is q g^-n exp(-2 y^2/w^2): n = 2 for a pulse, whose energy
spreads over an area, 1 for a line. The mark reaches to where that is 1, so that

  b = 2 y = w sqrt(2 L), L = ln q - n ln g, while L > 0

With s = g^2 = 1 + (z/zR)^2 the square of b is 2 w0^2 s (ln q - (n/2) ln s). Its derivative in s is
ln q - (n/2) ln s - n/2: it vanishes at s = q^(2/n)/e, where L = n/2, if that is beyond 1.
"""

from mpmath import e, exp, log, log1p, mpf, sqrt

from checks import allowed, choice, exceeds, number
from model_beam import checked_beam

PULSE, LINE = 1, 2
FALL = {PULSE: 2, LINE: 1}
ULP = 4


def mark_width(row):
    fall = FALL[choice("mark kind", row["mark_kind"])]
    beam = checked_beam(row)
    q = number("any dose ratio", row["dose_ratio"])
    growth = beam.growth(number("z offset", row["z_offset"]))
    local = q / growth**fall
    marks = exceeds(local, mpf(1))
    strength = log(local)
    width = beam.waist_diameter / 2 * growth * sqrt(2 * strength) if marks else mpf(0)
    return {
        "marks": int(marks),
        "width": width,
        "dose_ratio": local,
        "spot_diameter": beam.waist_diameter * growth,
        **beam.cone,
        "width_ulp": allowed(ULP, 1 + (1 + abs(log(q))) / strength) if marks else ULP,
    }


def mark_limits(row):
    fall = FALL[choice("mark kind", row["mark_kind"])]
    beam = checked_beam(row)
    q = number("any dose ratio", row["dose_ratio"])
    insensitive = {"focus_insensitive_dose_ratio": exp(mpf(fall) / 2)}
    if q <= 1:
        names = ("width_in_waist", "widest_offset", "greatest_width", "vanishing_offset")
        return {"marks": 0, **{name: mpf(0) for name in names}, "widest_offset_ulp": ULP, **insensitive, **beam.cone}
    zr, radius = beam.rayleigh_range, beam.waist_diameter / 2
    # s - 1 where the mark vanishes: exp(2 ln(q)/n) - 1
    vanishing = (q - 1) * (q + 1) if fall == 1 else q - 1
    widest = (vanishing + 1) / e
    in_waist = radius * sqrt(2 * log1p(q - 1))
    widens = exceeds(widest, mpf(1))
    return {
        "marks": 1,
        "width_in_waist": in_waist,
        "widest_offset": zr * sqrt(widest - 1) if widens else mpf(0),
        "greatest_width": radius * sqrt(widest) * sqrt(fall) if widens else in_waist,
        "vanishing_offset": zr * sqrt(vanishing),
        **insensitive,
        **beam.cone,
        "widest_offset_ulp": allowed(ULP, 1 + 1 / (widest - 1)) if widens else ULP,
    }
