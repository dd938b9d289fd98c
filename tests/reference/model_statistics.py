"""Student's t and chi squared, from the incomplete beta and gamma functions.

  within -t ... t lies 1 - I_x(nu/2, 1/2), x = nu/(nu + t^2)          any textbook, e.g. DLMF 8.17
  beyond chi^2 lies Q(nu/2, chi^2/2) = Gamma(nu/2, chi^2/2)/Gamma(nu/2)

The beta function is integrated along its tail, so that nothing is lost near a confidence of 1.
"""

import mpmath
from mpmath import exp, gammainc, log, mpf, pi, sqrt

from checks import allowed, number

STEP = mpf(10) ** -60
CHANCE_ULP = 12


def student_factor(row):
    outside = 1 - number("confidence", row["confidence"])
    degrees = number("whole degrees of freedom", row["degrees_of_freedom"])
    return {"factor": student(outside, degrees)}


def beyond(t, degrees):
    """Share of cases beyond -t ... t: I_x(nu/2, 1/2), or less than that what I_(1-x)(1/2, nu/2) holds."""
    x = degrees / (degrees + t**2)
    return mpmath.betainc(degrees / 2, mpf(1) / 2, 0, x, regularized=True)


def density(t, degrees):
    scale = exp(mpmath.loggamma((degrees + 1) / 2) - mpmath.loggamma(degrees / 2)) / sqrt(degrees * pi)
    return scale * exp(-(degrees + 1) / 2 * mpmath.log1p(t**2 / degrees))


def student(outside, degrees):
    """t by Newton's method on ln(share) against ln(t), from a start at the right."""
    u = log(mpf(1))
    for _ in range(200):
        t = exp(u)
        share = beyond(t, degrees)
        step = log(share / outside) * share / (2 * density(t, degrees) * t)
        u += step
        if abs(step) < STEP:
            return exp(u)
    raise ArithmeticError("no t found")


def chi_squared_chance(row):
    half = number("chi squared", row["chi_squared"]) / 2
    shape = number("whole degrees of freedom", row["degrees_of_freedom"]) / 2
    chance = gammainc(shape, half, mpmath.inf, regularized=True)
    condition = mpf(1)
    if half > 0 and chance > 0:
        # d ln Q/d ln h = -h^shape*exp(-h)/(Gamma(shape)*Q)
        condition += exp(shape * log(half) - half - mpmath.loggamma(shape)) / chance
    return {"chance": chance, "chance_ulp": allowed(CHANCE_ULP, condition)}
