"""Text: which letters a spot can still write.

A letter of an em counts as one long stroke of s ems and one long gap of g ems in a fill, swept by a Gaussian
spot of 1/e^2 radius w (see model_detail): with t = em/(sqrt2 w) = sqrt2 em/d its gap gets erfc(g t) of the
fill dose, and its stroke, widened to s (1 + 4 w/em) ems by what the strokes around it add,
erf(s (1 + 4 w/em) t) = erf(s (t + sqrt 8)). So it is written at dose ratios

  from 1/erf(s (t + sqrt 8)), that no stroke is lost,   to 1/erfc(g t), that no gap fills

and the window is the greatest over the least. Grades:

  crisp     good, and erf(stem t) at least the exposure asked for
  good      window of stroke and gap at least that asked for, and the dose ratio within it
  readable  good, or the same with the gap of the counters and its own least window

Derived here; the shares s and g are measured (typefaces.py).
"""

import math
from functools import cache

from mpmath import erf, erfc, exp, inf, log, mpf, nan, pi, sqrt

from checks import (
    NEAR,
    UNKNOWN_CHOICE,
    UNREACHABLE,
    Refused,
    TooClose,
    allowed,
    choice,
    exceeds,
    number,
)
from model_beam import checked_beam
from model_depth import reach
from model_detail import erf_inverse
from table import OVERFLOW
from typefaces import KINDS, MEASURED, SHARES

CRISP, GOOD, READABLE, LOST = 1, 2, 3, 4
BASE_ULP = 4
WINDOW_ULP = 6
GRADE_SHARES = ("stem", "effective_stroke", "effective_counter", "effective_gap")


def shares_of(row, kind):
    """All shares of a typeface; those that a measured one does not give are NaN."""
    if kind != MEASURED:
        return {name: mpf(value) for name, value in zip(SHARES, KINDS[kind])}
    given = {name: number(name.replace("_", " "), row[name]) for name in GRADE_SHARES}
    return {name: nan for name in SHARES} | given


def stroke_dose(t, s):
    """erf of half the widened stroke over sqrt(1/2) w."""
    over_em = 1 / (sqrt(2) * t)  # w/em
    return erf(s * (1 + 4 * over_em) * t)


def window_slope(t, s, g):
    """d ln(window)/d ln t."""
    density = lambda x: 2 / sqrt(pi) * exp(-(x**2))
    fed = s * (t + sqrt(8))
    return t * (s * density(fed) / erf(fed) + g * density(g * t) / erfc(g * t))


def t_in_doubles(s, g, least):
    """A start of about fifteen digits."""
    low, high = 1e-6, 40 / g
    for _ in range(50):
        middle = math.sqrt(low * high)
        stroke = math.erf(s * (1 + math.sqrt(8) / middle) * middle)
        if stroke < least * math.erfc(g * middle):
            low = middle
        else:
            high = middle
    return low


@cache
def t_for_window(s, g, least):
    """t at which the window is this wide."""
    excess = lambda t: log(stroke_dose(t, s) / erfc(g * t) / least)
    t = mpf(t_in_doubles(float(s), float(g), float(least)))
    while True:
        # Newton's iteration in ln t
        step = excess(t) / window_slope(t, s, g)
        t *= exp(-step)
        if abs(step) < mpf(10) ** -35:
            return t


def inverse_slope(value, x):
    """By how much an error of `value` of erf(x) or erfc(x), relative, is magnified in x."""
    return value * sqrt(pi) / 2 * exp(x**2) / x


class Limits:
    """The least t of each grade, and by how much each magnifies errors: of rounding, and of q."""

    def __init__(self, q, shares, exposure, good_window, readable_window, dose_is_computed=False):
        # Dose limits: 1/q = erf(s (t + sqrt 8)) and 1/q = erfc(g t). Where the first holds at any t, it asks for
        # nothing.
        s = shares["effective_stroke"]
        dose_error = 1 if dose_is_computed else 0
        bar = erf_inverse(1 / q, (q - 1) / q)
        gap = erf_inverse((q - 1) / q, 1 / q)
        by_stroke = (bar / s - sqrt(8), mpf(1))
        if by_stroke[0] > 0:
            magnified = 1 + dose_error * inverse_slope(1 / q, bar)
            by_stroke = (by_stroke[0], magnified * (bar / s + sqrt(8)) / by_stroke[0])

        def grade(g, window):
            t = t_for_window(s, g, window)
            by_window = (t, 1 + 1 / window_slope(t, s, g))
            by_gap = (gap / g, 1 + dose_error * inverse_slope(1 / q, gap))
            return greatest(by_window, by_stroke, by_gap)

        self.good = grade(shares["effective_gap"], good_window)
        stem = (erf_inverse(exposure, 1 - exposure) / shares["stem"], mpf(1))
        self.crisp = greatest(stem, self.good)
        readable = grade(shares["effective_counter"], readable_window)
        # Good text can be read.
        self.readable = min(readable, self.good)

    def of_grade(self, grade):
        return {CRISP: self.crisp, GOOD: self.good, READABLE: self.readable}[grade]

    def grade_of(self, em, diameter):
        t = sqrt(2) * em / diameter
        for grade in (CRISP, GOOD, READABLE):
            if not exceeds(self.of_grade(grade)[0], t):
                return grade
        return LOST

    def largest_spot(self, em, grade):
        return sqrt(2) * em / self.of_grade(grade)[0]

    def em_outputs(self, diameter, prefix=""):
        answer = {}
        for name, (t, factor) in (("crisp", self.crisp), ("good", self.good), ("readable", self.readable)):
            answer[f"{prefix}{name}_em"] = t * diameter / sqrt(2)
            answer[f"{prefix}{name}_em_ulp"] = allowed(BASE_ULP, factor)
        return answer


def greatest(*limits):
    """The greatest limit; near a tie, with the greatest magnification of those that meet."""
    most = max(t for t, _ in limits)
    return most, max(factor for t, factor in limits if most - t <= NEAR * most)


def checked_cut_offs(row):
    return (
        number("crisp exposure", row["crisp_exposure"]),
        number("dose window", row["good_window"]),
        number("dose window", row["readable_window"]),
    )


def checked_limits(row, kind):
    q = number("dose ratio", row["dose_ratio"])
    shares = shares_of(row, kind)
    return Limits(q, shares, *checked_cut_offs(row)), shares


def typeface_shares(row):
    return shares_of(row, choice("typeface", row["typeface"]))


def smallest_text(row):
    kind = choice("typeface", row["typeface"])
    spot = number("spot diameter", row["spot_diameter"])
    limits, _ = checked_limits(row, kind)
    return limits.em_outputs(spot)


def greatest_dose(argument):
    """1/erfc; endless where a double overflows."""
    value = 1 / erfc(argument)
    if abs(value / OVERFLOW - 1) < NEAR:
        raise TooClose
    return inf if value > OVERFLOW else value


def text_quality(row):
    kind = choice("typeface", row["typeface"])
    spot = number("spot diameter", row["spot_diameter"])
    em = number("em", row["em"])
    limits, shares = checked_limits(row, kind)
    t = sqrt(2) * em / spot
    gap, counter = shares["effective_gap"] * t, shares["effective_counter"] * t
    return {
        "grade": limits.grade_of(em, spot),
        "stem_exposure": erf(shares["stem"] * t),
        "least_dose_ratio": 1 / stroke_dose(t, shares["effective_stroke"]),
        "greatest_dose_ratio": greatest_dose(gap),
        "greatest_dose_ratio_ulp": window_ulp(gap),
        "greatest_dose_ratio_for_counters": greatest_dose(counter),
        "greatest_dose_ratio_for_counters_ulp": window_ulp(counter),
    }


def window_ulp(argument):
    """erfc falls as exp(-x^2), and magnifies an error of x. Beyond x = 27 the answer is endless."""
    return allowed(WINDOW_ULP, 1 + min(argument, mpf(27)) ** 2)


def offset_for_text(row):
    grade = choice("text grade", row["text_grade"])
    kind = choice("typeface", row["typeface"])
    # Nothing is asked of lost text.
    if grade == LOST:
        raise Refused(UNKNOWN_CHOICE, "text grade")
    beam = checked_beam(row)
    em = number("em", row["em"])
    limits, _ = checked_limits(row, kind)
    spot = limits.largest_spot(em, grade)
    if exceeds(beam.waist_diameter, spot):
        raise Refused(UNREACHABLE, "em")
    factor = limits.of_grade(grade)[1]
    return {
        "offset": reach(beam, spot),
        "offset_ulp": allowed(BASE_ULP, factor * room_factor(spot, beam.waist_diameter)),
        "spot_diameter": spot,
        "spot_diameter_ulp": allowed(BASE_ULP, factor),
        **beam.cone,
    }


def room_factor(diameter, waist):
    """r^2/(r^2 - 1), by which the offset of a diameter magnifies its error; no row has r near 1."""
    squared = (diameter / waist) ** 2
    if squared - 1 < mpf(10) ** -6:
        raise TooClose
    return squared / (squared - 1)
