"""The smallest bar, gap, square, dot and hole that a filled area of overdose q can hold.

A fill is swept by a Gaussian spot of 1/e^2 radius w, and the mark is where its dose is at least the
threshold, 1/q of the dose deep inside the fill. In the middle of the shape the dose is

  bar of width a     erf(a/(sqrt2 w))           gap of width a     erfc(a/(sqrt2 w))
  dot of radius r    1 - exp(-2 r^2/w^2)        hole of radius r   exp(-2 r^2/w^2)
  square of side a   erf(a/(sqrt2 w))^2

times that of the fill; at x inside a straight edge it is erfc(-sqrt2 x/w)/2. Setting each to 1/q
gives the smallest shape that survives, and how far an edge moves outward. Derived here.
"""

import math

from mpmath import erf, erfc, exp, expm1, log, log1p, mpf, pi, sqrt

from checks import allowed, number

EXPOSURE_ULP = 4


def erf_inverse(value, complement):
    """x with erf(x) = `value`, 0 <= value < 1, given 1 - value as well so that neither is rounded.

    Newton's iteration on the logarithm of erf or erfc, whichever is the smaller number.
    """
    if value == 0:
        return mpf(0)
    x = mpf(erf_inverse_in_doubles(float(value), float(complement)))
    while True:
        slope = 2 / sqrt(pi) * exp(-x * x)
        if value < complement:
            now = erf(x)
            step = -now / slope * log(now / value)
        else:
            now = erfc(x)
            step = now / slope * log(now / complement)
        x += step
        if abs(step) <= abs(x) * mpf(10) ** -40:  # quadratic: the next step would be 80 digits down
            return x


def erf_inverse_in_doubles(value, complement):
    """A start of about fifteen digits, by the same iteration."""
    x = erf_inverse_guess(value, complement)
    for _ in range(6):
        slope = 2 / math.sqrt(math.pi) * math.exp(-x * x)
        now = math.erf(x) if value < complement else math.erfc(x)
        if slope == 0 or now == 0:
            break
        x += -now / slope * math.log(now / value) if value < complement else now / slope * math.log(now / complement)
    return x


def erf_inverse_guess(value, complement):
    """A start that lies within the reach of Newton's iteration."""
    if value < 0.5:
        return value * 0.886
    return max(0.4, float(sqrt(-log(complement) - log(1 + sqrt(-log(complement))))))


class Details:
    """Smallest details over the spot diameter, for one dose ratio."""

    def __init__(self, q):
        bar_dose, gap_dose = 1 / q, (q - 1) / q
        # sqrt2 w = d/sqrt2
        self.bar = erf_inverse(bar_dose, gap_dose) / sqrt(2)
        self.gap = erf_inverse(gap_dose, bar_dose) / sqrt(2)
        self.dot = sqrt(log(q / (q - 1)) / 2)
        self.hole = sqrt(log1p(q - 1) / 2)
        self.square = erf_inverse(1 / sqrt(q), (q - 1) / (q + sqrt(q))) / sqrt(2)

    def largest_spot(self, stroke, gap):
        return min(stroke / self.bar, gap / self.gap)


def edge_shift(q):
    """How far an edge moves outward over the spot diameter; inward, and negative, below q = 2."""
    # erfc(y) = 2/q is erf(y) = (q - 2)/q
    if q == 2:
        return mpf(0)
    side = 1 if q > 2 else -1
    value = abs(q - 2) / q
    complement = 2 / q if q > 2 else 2 * (q - 1) / q
    return side * erf_inverse(value, complement) / (2 * sqrt(2))


def smallest_details(row):
    spot = number("spot diameter", row["spot_diameter"])
    q = number("dose ratio", row["dose_ratio"])
    details = Details(q)
    return {
        "bar": spot * details.bar,
        "gap": spot * details.gap,
        "dot_diameter": spot * details.dot,
        "hole_diameter": spot * details.hole,
        "square": spot * details.square,
        "edge_shift": spot * edge_shift(q),
    }


def detail_exposure(row):
    w = number("spot diameter", row["spot_diameter"]) / 2
    size = number("detail size", row["detail_size"])
    bar = erf(size / (sqrt(2) * w))
    exponent = 2 * (size / 2) ** 2 / w**2
    # gap and hole fall by exp(-exponent), with the exponent's own digits
    tail = allowed(EXPOSURE_ULP, 1 + exponent)
    return {
        "bar": bar,
        "gap": erfc(size / (sqrt(2) * w)),
        "square": bar**2,
        "dot": -expm1(-exponent),
        "hole": exp(-exponent),
        "gap_ulp": tail,
        "hole_ulp": tail,
    }


def largest_spot_for_details(row):
    stroke = number("finest stroke", row["finest_stroke"])
    gap = number("finest gap", row["finest_gap"])
    q = number("dose ratio", row["dose_ratio"])
    return {"spot_diameter": Details(q).largest_spot(stroke, gap)}
