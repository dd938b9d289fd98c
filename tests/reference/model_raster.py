"""Ripple of the dose across the lines of a raster fill, r being the interval over the spot radius.

The dose over its mean is the sum over all lines k of sqrt(2/pi) r exp(-2 (y/w - k r)^2), greatest on a line
and least midway. By Poisson's sum these are theta3(0, Q) and theta4(0, Q) with Q = exp(-pi^2/(2 r^2)). Of the
many terms that theta3 and theta4 share nothing is left in their difference:

  (theta3 - theta4)/(theta3 + theta4) = theta2(0, Q^4)/theta3(0, Q^4)

since theta3(Q) = theta3(Q^4) + theta2(Q^4), theta4(Q) = theta3(Q^4) - theta2(Q^4) (Whittaker and Watson,
*A Course of Modern Analysis*, chapter 21, from memory). `agreement.py` compares both with the sums of
Gaussians. Lines that do not add up leave no gap where one line's own mark is as wide as the interval:
dose sqrt(2/pi) r q exp(-2 (r/2)^2) = 1.
"""

from mpmath import exp, findroot, log, mp, mpf, pi, sqrt

from checks import computed_at_most, number

# Theta functions of a nome below this are their first terms to all digits carried.
TINY_NOME = mpf(10) ** -200


def theta_ratio(nome):
    """theta2/theta3, where theta2 starts at 2 nome^(1/4) and theta3 at 1 + 2 nome."""
    if nome < TINY_NOME:
        return 2 * nome ** (mpf(1) / 4)
    return mp.jtheta(2, 0, nome) / mp.jtheta(3, 0, nome)


def theta(kind, nome):
    """theta3 or theta4 at 0."""
    if nome < TINY_NOME:
        return 1 + (2 if kind == 3 else -2) * nome
    return mp.jtheta(kind, 0, nome)


def greatest_and_least(r):
    """Dose over its mean: line by line from one radius on, where theta4 would lose digits."""
    if r > 1:
        return by_gaussians(r)
    return theta(3, nome_of(r)), theta(4, nome_of(r))


def nome_of(r):
    return exp(-(pi**2) / (2 * r**2))


def by_gaussians(r):
    """Greatest and least dose over the mean, as sums of lines."""
    reach = int(sqrt(mp.dps * log(10) / 2) / r) + 3
    dose = lambda y: sqrt(2 / pi) * r * sum(exp(-2 * (y - k * r) ** 2) for k in range(-reach, reach + 1))
    return dose(mpf(0)), dose(r / 2)


def contrast_of(r):
    return theta_ratio(nome_of(r) ** 4)


def shortfall_of(r):
    """One minus the contrast, 2 min/(max + min), of wide intervals: there are digits enough in the sums."""
    alone = [exp(-((k * r) ** 2) / 2) for k in range(12)]
    midway = 2 * sum(alone[1::2])
    on_line = 1 + 2 * sum(alone[2::2])
    return 2 * midway / (on_line + midway)


def raster_ripple(row):
    spot = number("spot diameter", row["spot_diameter"])
    interval = number("line interval", row["line_interval"])
    r = computed_at_most("interval over spot radius", interval / (spot / 2))
    greatest, least = greatest_and_least(r)
    return {
        "greatest_over_mean": greatest,
        "least_over_mean": least,
        "contrast": contrast_of(r),
        "gap_free_dose_ratio": 1 / least,
        "gap_free_dose_ratio_without_memory": exp(r**2 / 2) / (sqrt(2 / pi) * r),
        "interval_over_radius": r,
    }


def interval_over_radius(contrast):
    """The r at which the ripple has this contrast."""
    if contrast < mpf("0.5"):
        # contrast = 2 Q (1 + ...)
        start = pi / sqrt(-2 * log(contrast / 2))
        return findroot(lambda r: log(contrast_of(r) / contrast), start)
    # 1 - contrast = 4 exp(-r^2/2) (1 - ...)
    lost = 1 - contrast
    return findroot(lambda r: log(shortfall_of(r) / lost), sqrt(2 * log(4 / lost)))


def interval_for_ripple(row):
    spot = number("spot diameter", row["spot_diameter"])
    contrast = number("ripple contrast", row["ripple_contrast"])
    return {"line_interval": interval_over_radius(contrast) * spot / 2}
