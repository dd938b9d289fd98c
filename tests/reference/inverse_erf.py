"""Writes tests/tables/inverse_erf.csv: inverse error functions at the dose ratios of the model.

    python3 tests/reference/inverse_erf.py > tests/tables/inverse_erf.csv

Needs mpmath 1.4. Written from the definitions, not from the crate:

    bar   erfinv(1/q)      gap   erfcinv(1/q)      edge   erfcinv(2/q)

For the kernel alone, `bar_seen`, `gap_seen` and `edge_seen` are the same inverses at the numbers
that reach it, which are rounded: of y and 1 - y, each the nearest double to its formula, the
smaller one. Each value is printed as two doubles, the nearest and the rest, so that an error can
be told to a small part of a unit in the last place.
"""

import math
import random

import mpmath
from mpmath import mp, mpf

DIGITS = 50


def erfinv_of(y, complement):
    """x with erf(x) = y, taken from the smaller of y and 1 - y."""
    if y == 0:
        return mpf(0)
    if y <= complement:
        x = mpmath.findroot(lambda x: mpmath.erf(x) - y, mpmath.erfinv(y))
        error = mpmath.erf(x) / y - 1
    else:
        # The logarithm turns the steep tail into a smooth function.
        target = mpmath.log(complement)
        x = mpmath.findroot(lambda x: mpmath.log(mpmath.erfc(x)) - target, mpmath.sqrt(-target))
        error = mpmath.erfc(x) / complement - 1
    assert x > 0 and abs(error) < mpf(10) ** (8 - DIGITS), (y, complement, error)
    return x


def two_doubles(x):
    near = float(x)
    return f"{near!r},{float(x - mpf(near)):.3g}"


def ratios():
    """Dose ratios over the range allowed, denser where a branch changes."""
    least, greatest = 1.000001, 1e6
    draw = random.Random(7)
    found = {least, greatest, 2.0, 2.7, math.e, 4.0}
    for _ in range(200):
        found.add(1.0 + 10.0 ** draw.uniform(-6.0, 0.0))
    for _ in range(200):
        found.add(10.0 ** draw.uniform(math.log10(2.0), 6.0))
    # 1/q or 2/q near 1/2, 1 or 2: where erf gives way to erfc, and where the edge stays.
    for middle in (4.0 / 3.0, 2.0, 4.0):
        for _ in range(50):
            found.add(middle * (1.0 + draw.choice((-1, 1)) * 10.0 ** draw.uniform(-16.0, -1.0)))
        below = above = middle
        for _ in range(8):
            below, above = math.nextafter(below, 0.0), math.nextafter(above, math.inf)
            found.update((below, above))
    # Plain numbers, as people type them.
    found.update(1.0 + k / 100.0 for k in range(1, 100))
    found.update(2.0 + k / 10.0 for k in range(1, 100))
    return sorted(q for q in found if least <= q <= greatest)


def main():
    mp.dps = DIGITS
    names = [name + part for name in ("bar", "gap", "edge", "bar_seen", "gap_seen", "edge_seen") for part in ("", "_rest")]
    print(",".join(["q", *names]))
    for q in ratios():
        exact = mpf(q)
        y, complement = 1 / exact, (exact - 1) / exact
        bar, gap = erfinv_of(y, complement), erfinv_of(complement, y)
        if q < 2.0:
            edge = -erfinv_of((2 - exact) / exact, 2 * (exact - 1) / exact)
        else:
            edge = erfinv_of((exact - 2) / exact, 2 / exact)
        # As they reach the kernel: differences of neighbours are exact, quotients are rounded.
        y, complement = mpf(1.0 / q), mpf((q - 1.0) / q)
        bar_seen, gap_seen = erfinv_of(y, complement), erfinv_of(complement, y)
        if q < 2.0:
            edge_seen = -erfinv_of(mpf((2.0 - q) / q), mpf(2.0 * ((q - 1.0) / q)))
        else:
            edge_seen = erfinv_of(mpf((q - 2.0) / q), mpf(2.0 / q))
        values = (bar, gap, edge, bar_seen, gap_seen, edge_seen)
        print(",".join([repr(q), *(two_doubles(x) for x in values)]))


if __name__ == "__main__":
    main()
