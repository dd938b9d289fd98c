"""Arrays of doubles whose every bit repeats on every machine.

The wave functions need hundreds of millions of cosines, too many for mpmath. NumPy's own functions,
its dot products and the platform's mathematics differ in the last bit from one processor to the
next; its elementwise + - * and rint do not. So cosine, exponential and Bessel functions are made of
those here, with constants from mpmath rounded to the nearest double. Sums run over the last axis,
always in the same order.

Absolute errors (see check_wave.py): below 4e-16 for |x| < 1e5, the argument's own rounding apart.
"""

from functools import cache

import numpy
from mpmath import besselj, cos, factorial, mp, mpf, pi, workdps

# pi in three parts of 33 bits: a whole number below 2^20 times one of the first two is exact.
_BITS = 33


@cache
def _pi_parts():
    with workdps(60):
        rest, parts = +pi, []
        for _ in range(2):
            scale = mpf(2) ** (_BITS - int(mp.floor(mp.log(rest, 2))) - 1)
            parts.append(float(mp.floor(rest * scale) / scale))
            rest -= mpf(parts[-1])
        return *parts, float(rest)


def _without_half_turns(x):
    """x less the nearest multiple of pi, and the sign (-1)^multiple."""
    first, second, third = _pi_parts()
    turns = numpy.rint(x * (1.0 / numpy.pi))
    rest = ((x - turns * first) - turns * second) - turns * third
    half = turns * 0.5
    return rest, 1.0 - 4.0 * numpy.abs(half - numpy.rint(half))


def _power_series(terms, square):
    """Sum of terms[k] square^k."""
    total = numpy.full_like(square, terms[-1])
    for term in terms[-2::-1]:
        total *= square
        total += term
    return total


_COSINE = [float((-1) ** k / factorial(2 * k)) for k in range(12)]
_SINE = [float((-1) ** k / factorial(2 * k + 1)) for k in range(12)]
_EXPONENTIAL = [float(1 / factorial(k)) for k in range(15)]


def cosine(x):
    rest, sign = _without_half_turns(x)
    return sign * _power_series(_COSINE, rest * rest)


def sine(x):
    rest, sign = _without_half_turns(x)
    return sign * (rest * _power_series(_SINE, rest * rest))


def exponential(x):
    """e^x for x from -700 to 0."""
    with workdps(30):
        high = float(mp.floor(mp.ln2 * 2**33) / 2**33)
        low = float(mp.ln2 - mpf(high))
    halvings = numpy.rint(x * (1.0 / (high + low)))
    rest = (x - halvings * high) - halvings * low
    return numpy.ldexp(_power_series(_EXPONENTIAL, rest), halvings.astype(int))


# Bessel functions: up to EDGE the Taylor series about the nearest of evenly spaced points, above it
# Hankel's asymptotic series.
_EDGE = 24.0
_SPACING = 0.5
_TAYLOR_TERMS = 14
_HANKEL_TERMS = 12


@cache
def _taylor(order):
    """One array for each power: its factors at all the points."""
    with workdps(40):
        points = [mpf(k) * mpf(_SPACING) for k in range(int(_EDGE / _SPACING) + 1)]
        rows = [_taylor_about(order, point) for point in points]
        return [numpy.array([float(row[k]) for row in rows]) for k in range(_TAYLOR_TERMS)]


def _taylor_about(order, point):
    """By the derivatives J0' = -J1 and 2 Jn' = J(n-1) - J(n+1)."""
    terms, derivative = [], {order: mpf(1)}
    for k in range(_TAYLOR_TERMS):
        terms.append(sum(c * besselj(n, point) for n, c in derivative.items()) / factorial(k))
        following = {}
        for n, c in derivative.items():
            following[n - 1] = following.get(n - 1, 0) + c / 2
            following[n + 1] = following.get(n + 1, 0) - c / 2
        derivative = following
    return terms


@cache
def _hankel(order):
    """Terms of the two series in 1/z^2."""
    with workdps(40):
        a, terms = mpf(1), []
        for k in range(2 * _HANKEL_TERMS):
            terms.append(a)
            a *= (4 * mpf(order) ** 2 - (2 * k + 1) ** 2) / (8 * (k + 1))
        even = [float((-1) ** (k // 2) * terms[k]) for k in range(0, 2 * _HANKEL_TERMS, 2)]
        odd = [float((-1) ** (k // 2) * terms[k]) for k in range(1, 2 * _HANKEL_TERMS, 2)]
        return even, odd


def _bessel_near(order, z):
    place = numpy.rint(z * (1.0 / _SPACING))
    step = z - place * _SPACING
    at = place.astype(int)
    factors = _taylor(order)
    total = factors[-1][at]
    for factor in factors[-2::-1]:
        total = total * step + factor[at]
    return total


def _bessel_far(order, z):
    inverse = 1.0 / z
    square = inverse * inverse
    even, odd = _hankel(order)
    p = _power_series(even, square)
    q = _power_series(odd, square) * inverse
    # cos(z - (2 order + 1) pi/4), by the sums of cosine and sine: no rounding of the angle.
    c, s = cosine(z), sine(z)
    if order == 0:
        turned, turned_sine = c + s, s - c
    else:
        turned, turned_sine = s - c, -(c + s)
    return (p * turned - q * turned_sine) / numpy.sqrt(numpy.pi * z)


def bessel(order, z):
    """J0 or J1 of an array of either sign."""
    size = numpy.abs(z)
    value = _bessel_near(order, numpy.minimum(size, _EDGE))
    far = size > _EDGE
    if far.any():
        value[far] = _bessel_far(order, size[far])
    return value if order == 0 else numpy.where(z < 0.0, -value, value)


@cache
def gauss_legendre(count):
    """Nodes and weights on -1 to 1."""
    with workdps(30):
        nodes, weights = [], []
        for k in range((count + 1) // 2):
            x = cos(pi * (k + mpf(3) / 4) / (count + mpf(1) / 2))
            for _ in range(60):
                before, here = mpf(1), x
                for n in range(2, count + 1):
                    before, here = here, ((2 * n - 1) * x * here - (n - 1) * before) / n
                slope = count * (x * here - before) / (x * x - 1)
                step = here / slope
                x -= step
                if abs(step) < mpf(10) ** -24:
                    break
            nodes.append(x)
            weights.append(2 / ((1 - x * x) * slope**2))
        if count % 2:
            nodes[-1] = mpf(0)
        mirrored = count // 2
        nodes = [-x for x in nodes[:mirrored]] + nodes[::-1]
        weights = weights[:mirrored] + weights[::-1]
        return numpy.array([float(x) for x in nodes]), numpy.array([float(w) for w in weights])


def sum_last(values):
    return numpy.add.reduce(values, axis=-1)
