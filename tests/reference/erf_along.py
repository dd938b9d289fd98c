"""Writes tests/tables/erf_along.csv: thin strokes under a wide spot, whose edges hang on erf over a short way.

    python3 tests/reference/erf_along.py > tests/tables/erf_along.csv

Needs mpmath 1.4. Written from the definitions, not from the crate: at x outside one of its edges a stroke of
the width `way` gets (erf(x + way) - erf(x))/2 of the dose of a wide fill, with lengths in units of w/sqrt2. It
marks out to the x at which that is 1/q. The right-hand side 2/q reaches the kernel as a double: `x` and `width`
= way + 2 x belong to the nearest one, the width as two doubles, the nearest and the rest.

`condition` is by how much a relative error of the difference of erf moves the width, relatively. `rule` is the
relative error of Gauss and Legendre's 5 points for this difference, its places and weights being the roots of
the polynomial P5 and what they weigh, in exact arithmetic: what the rule leaves out, without any rounding.
"""

import math
import random

import mpmath
from mpmath import mp, mpf

DIGITS = 50
GREATEST_RATIO = 1e6
# way (1 + |x|) up to which the model takes the rule, and how near to it no row comes.
SHORT_WAY = 0.16
CLEAR = 1e-6


def places_and_weights():
    """Of P5(t) = (63 t^5 - 70 t^3 + 15 t)/8: weights 2/((1 - t^2) P5'(t)^2)."""
    slope = lambda t: (315 * t**4 - 210 * t**2 + 15) / 8
    root = 2 * mpmath.sqrt(mpf(10) / 7)
    outer, inner = mpmath.sqrt(5 + root) / 3, mpmath.sqrt(5 - root) / 3
    return [(t, 2 / ((1 - t**2) * slope(t) ** 2)) for t in (-outer, -inner, mpf(0), inner, outer)]


def along(x, way):
    """erf(x + way) - erf(x), with digits to spare."""
    with mp.workdps(2 * DIGITS):
        found = mpmath.erfc(x) - mpmath.erfc(x + way)
    return +found


def rule_error(x, way):
    half = way / 2
    middle = x + half
    terms = [weight * mpmath.exp(-((middle + half * place) ** 2)) for place, weight in places_and_weights()]
    return 2 / mpmath.sqrt(mp.pi) * half * mpmath.fsum(terms) / along(x, way) - 1


def slope(x, way):
    return 2 / mpmath.sqrt(mp.pi) * (mpmath.exp(-((x + way) ** 2)) - mpmath.exp(-(x**2)))


def edge(way, dose, near):
    """x at which erf rises by `dose` along `way`."""
    x = mpmath.findroot(lambda x: mpmath.log(along(x, way) / dose), near, tol=mpf(10) ** (8 - 2 * DIGITS))
    assert abs(along(x, way) / dose - 1) < mpf(10) ** (12 - DIGITS)
    return x


def strokes():
    """Width of a stroke, and how far its middle is from the edge of the mark."""
    draw = random.Random(11)
    # From about to vanish to as strong as the model allows.
    for _ in range(200):
        yield 10.0 ** draw.uniform(-3.0, math.log10(0.155)), 10.0 ** draw.uniform(-4.0, 0.5)
    # On either side of where the rule ends, most where the answer hangs on every digit.
    for _ in range(150):
        way = draw.choice((SHORT_WAY, draw.uniform(0.08, SHORT_WAY)))
        x = (SHORT_WAY / way - 1.0) * draw.choice((1.0, draw.uniform(0.98, 1.02)))
        way *= 1.0 + draw.choice((-1, 1)) * 10.0 ** draw.uniform(-5.0, -1.5)
        yield way, x + 0.5 * way
    # Beyond, where the rule would soon lose digits, and the difference cancels the less.
    for _ in range(50):
        way = draw.uniform(0.16, 0.2)
        yield way, way * draw.uniform(0.48, 0.52)
    for _ in range(100):
        yield draw.uniform(0.17, 0.5), 10.0 ** draw.uniform(-4.0, 0.3)


def two_doubles(x):
    near = float(x)
    return f"{near!r},{float(x - mpf(near)):.3g}"


def main():
    mp.dps = DIGITS
    print("way,q,x,width,width_rest,condition,rule")
    for way, aside in strokes():
        exact = mpf(way)
        near = mpf(aside) - exact / 2
        q = float(2 / along(near, exact))
        if not 2.0 <= q <= GREATEST_RATIO:
            continue
        x = edge(exact, mpf(2.0 / q), near)
        width = exact + 2 * x
        extent = exact * (1 + abs(x))
        if abs(extent - SHORT_WAY) < CLEAR:
            continue
        condition = 2 * along(x, exact) / (abs(slope(x, exact)) * width)
        rule = f"{float(rule_error(x, exact)):.3g}" if extent < SHORT_WAY else ""
        print(f"{way!r},{q!r},{float(x):.6g},{two_doubles(width)},{float(condition):.4g},{rule}")


if __name__ == "__main__":
    main()
