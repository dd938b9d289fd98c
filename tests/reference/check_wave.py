#!/usr/bin/env python3
"""Holds wave_transfer.py and doubles.py to exact laws and to direct integrals at 30 digits.

    python3 tests/reference/check_wave.py

prints the worst error of each comparison and fails above its limit; it takes some minutes.
generate.py runs the quick ones, `demand_laws`, every time.

  on the axis, no aperture, M2 = 1     U = sqrt(pi)/(2 sqrt(a)) e^(q^2) erfc(q), a = -i alpha,
                                       q = (1 + i beta)/(2 sqrt(a))
  on the axis, no aberration, M2 = 1   I = ((1 - e^-Y)^2 + 4 e^-Y sin^2(beta Y/2))/(1 + beta^2), Y = X^2
  no aperture, no aberration           I = e^(-v^2/(2 g))/g, P = 1 - e^(-v^2/(2 g)), g = M^4 + beta^2
  no aperture                          P(infinity) = 1
  anywhere, M2 = 1                     U(v) = 2 integral of x e^(-x^2) e^(i(-beta x^2 + alpha x^4)) J0(v x)
  anywhere, M2 > 1                     that irradiance spread by a Gaussian of 1/e^2 radius 2 sqrt(M^4 - 1)

The first two follow from the integral of U by substituting x^2; each was checked against it here.
"""

import random
import sys

import numpy
from mpmath import besseli, besselj, cos, erfc, exp, linspace, mpc, mpf, pi, quad, sin, sqrt, workdps

import doubles
from wave_transfer import Wave


def of(m2, ratio, alpha, beta, v=1.0):
    return Wave(m2, ratio, alpha, [beta], max(v, 1.0)).plane(beta)


def on_axis_unclipped():
    worst = 0
    for alpha in (0.05, 0.4, 1.0, 2.0, -1.3):
        for beta in (-2.0, 0.0, 0.7, 4.0):
            q = mpc(1, beta) / (2 * sqrt(mpc(0, -alpha)))
            exact = abs(sqrt(pi) / (2 * sqrt(mpc(0, -alpha))) * exp(q * q) * erfc(q)) ** 2
            worst = max(worst, abs(float(of(1.0, 20.0, alpha, beta).irradiance(0.0)) - exact))
    return worst


def on_axis_clipped():
    worst = 0
    for ratio in (0.2, 0.7, 1.2, 2.0):
        for beta in (0.0, 0.9, -3.0, 12.0):
            y = mpf(ratio) ** 2
            exact = (1 - exp(-y)) ** 2 + 4 * exp(-y) * sin(beta * y / 2) ** 2
            exact /= 1 + mpf(beta) ** 2
            worst = max(worst, abs(float(of(1.0, ratio, 0.0, beta).irradiance(0.0)) - exact))
    return worst


def gaussian():
    worst = 0
    for m2 in (1.0, 1.001, 1.3, 4.0):
        for beta in (0.0, 1.5, -6.0):
            for v in (0.3, 2.0, 9.0):
                growth = mpf(m2) ** 2 + mpf(beta) ** 2
                plane = of(m2, 20.0, 0.0, beta, v)
                shape = exp(-mpf(v) ** 2 / (2 * growth))
                worst = max(worst, m2**2 * abs(float(plane.irradiance(v)) - shape / growth))
                worst = max(worst, abs(plane.power(v) - (1 - shape)))
    return worst


def all_the_power():
    """With so little aberration that no light goes beyond v = 80."""
    return max(abs(of(1.5, 20.0, alpha, 1.0, 80.0).power(80.0) - 1) for alpha in (0.0, 0.1))


def amplitude(ratio, alpha, beta, v):
    """U by direct integration."""
    most = min(mpf(ratio), mpf(8))
    pieces = 6 + int(abs(alpha) * min(ratio, 3.0) ** 3 + abs(beta) * min(ratio, 3.0) + v * ratio / 4)
    alpha, beta, v = mpf(alpha), mpf(beta), mpf(v)

    def field(x):
        phase = -beta * x**2 + alpha * x**4
        return x * exp(-x * x) * mpc(cos(phase), sin(phase)) * besselj(0, v * x)

    return 2 * quad(field, linspace(0, most, pieces + 1))


COHERENT = (
    (1.5, 0.5, 1.0, 3.0),
    (0.6, -1.0, 4.0, 5.0),
    (1.8, 1.6, -2.0, 7.0),
    (1.2, 0.0, 20.0, 10.0),
    (0.2, 0.0, 1.0, 10.0),
    (1.0, 6.0, 3.0, 8.0),
    (2.6, 0.3, 2.0, 1.0),
    (8.0, 0.9, 3.0, 2.0),
)


def coherent():
    with workdps(30):
        return max(
            abs(float(of(1.0, ratio, alpha, beta, v).irradiance(v)) - abs(amplitude(ratio, alpha, beta, v)) ** 2)
            for ratio, alpha, beta, v in COHERENT
        )


PARTLY_COHERENT = ((1.01, 1.3, 0.5, 1.5, 1.7), (1.3, 1.0, -0.5, 1.0, 0.9))


def partly_coherent():
    """Relative to the ideal focus of the same M2."""
    worst = 0
    with workdps(16):
        for m2, ratio, alpha, beta, v in PARTLY_COHERENT:
            spread = 2 * sqrt(mpf(m2) ** 2 - 1)

            def smeared(u):
                irradiance = abs(amplitude(ratio, alpha, beta, u)) ** 2
                return irradiance * u * exp(-2 * (v * v + u * u) / spread**2) * besseli(0, 4 * v * u / spread**2)

            ends = [max(mpf(0), v - 4.5 * spread), v + 4.5 * spread]
            exact = 4 / spread**2 * quad(smeared, linspace(*ends, 9), maxdegree=4)
            got = float(of(m2, ratio, alpha, beta, v).irradiance(v))
            worst = max(worst, m2**2 * abs(got - exact))
    return worst


def functions_of_doubles():
    source = random.Random(1)
    worst = 0
    with workdps(40):
        cases = (
            (doubles.cosine, cos, 1e5),
            (doubles.sine, sin, 1e5),
            (lambda x: doubles.bessel(0, x), lambda x: besselj(0, x), 30.0),
            (lambda x: doubles.bessel(1, x), lambda x: besselj(1, x), 30.0),
            (lambda x: doubles.bessel(0, x), lambda x: besselj(0, x), 3000.0),
            (lambda x: doubles.exponential(-abs(x)), lambda x: exp(-abs(x)), 90.0),
        )
        for ours, exact, reach in cases:
            x = numpy.array([source.uniform(-reach, reach) for _ in range(300)])
            worst = max(worst, *(abs(float(a) - exact(mpf(float(b)))) for a, b in zip(ours(x), x)))
    return worst


LAWS = (
    (functions_of_doubles, 4e-16),
    (on_axis_clipped, 3e-14),
    (gaussian, 3e-14),
)
SLOWER = (
    (on_axis_unclipped, 3e-14),
    (all_the_power, 3e-14),
    (coherent, 3e-14),
    (partly_coherent, 1e-12),
)


def demand(comparisons, say):
    for comparison, limit in comparisons:
        worst = float(comparison())
        if say:
            print(f"{comparison.__name__:24} {worst:.1e}, at most {limit:.0e} allowed")
        if not worst <= limit:
            sys.exit(f"the wave reference is off: {comparison.__name__} by {worst:.1e}")


def demand_laws():
    demand(LAWS, False)


if __name__ == "__main__":
    demand(LAWS + SLOWER, True)
