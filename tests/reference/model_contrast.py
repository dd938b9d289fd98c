"""Contrast of a grating written by a Gaussian spot of 1/e^2 radius w, at the pitch L.

  of a sine grating      exp(-pi^2 w^2/(2 L^2))
  of bars and gaps       C = (4/pi) sum (-1)^k/(2k+1) exp(-pi^2 w^2 (2k+1)^2/(2 L^2))
  its complement         1 - C = 2 sum (-1)^k erfc(sqrt2 (k/2 + 1/4) L/w)

the last two being the same sum over waves and over edges. The window of doses that leave every bar
and every gap is (1 + C)/(1 - C). Derived here; the pitch of a given sine contrast is
pi w/sqrt(-2 ln C), that of bars and gaps the root of either sum.
"""

from mpmath import erfc, exp, findroot, inf, log, log1p, mpf, pi, sqrt

from checks import TooClose, number
from model_detail import erf_inverse

# Beyond this w/L every contrast is 0 by definition; from FADING on it is below normal doubles.
FADED = 20
FADING = mpf("11.9")
CLEARLY_FADED = mpf("20.5")
# Below this w/L the sum over edges is used, above it the sum over waves; both converge fast.
EDGES_BELOW = mpf("0.3")
ENOUGH = mpf(10) ** -80


def alternating_sum(term):
    """term(0) - term(1) + term(2) - ..., for terms that fall faster than geometrically."""
    total, k = mpf(0), 0
    while True:
        part = term(k)
        total += part if k % 2 == 0 else -part
        if part <= total * ENOUGH:
            return total
        k += 1


def bars_and_complement(ratio):
    """Contrast of bars and gaps at w/L = ratio, and one minus it, both without cancellation."""
    if ratio < EDGES_BELOW:
        lost = 2 * alternating_sum(lambda k: erfc(sqrt(2) * (2 * k + 1) / (4 * ratio)))
        return 1 - lost, lost
    slope = pi**2 * ratio**2 / 2
    kept = 4 / pi * alternating_sum(lambda k: exp(-slope * (2 * k + 1) ** 2) / (2 * k + 1))
    return kept, 1 - kept


def contrast_at_pitch(row):
    spot = number("spot diameter", row["spot_diameter"])
    pitch = number("pitch", row["pitch"])
    ratio = spot / (2 * pitch)
    if FADING < ratio < CLEARLY_FADED:
        raise TooClose
    if ratio > FADED:
        return {"sine": mpf(0), "bars": mpf(0), "dose_window": mpf(1)}
    kept, lost = bars_and_complement(ratio)
    return {
        "sine": exp(-(pi**2) * ratio**2 / 2),
        "bars": kept,
        "dose_window": (1 + kept) / lost if lost > 0 else inf,
    }


def pitch_of_bars(contrast):
    """L/w at which bars and gaps keep this contrast."""
    if contrast < mpf("0.5"):
        # The first wave by itself, which is most of them.
        start = pi / sqrt(2 * log(4 / (pi * contrast)))
        return findroot(lambda pitch: log(bars_and_complement(1 / pitch)[0] / contrast), start)
    # Two edges by themselves: 2 erfc(sqrt2 L/(4 w)) is missing; their neighbours give back a little.
    lost = 1 - contrast
    start = 4 / sqrt(2) * erf_inverse(1 - lost / 2, lost / 2)
    return findroot(lambda pitch: log(bars_and_complement(1 / pitch)[1] / lost), start)


def pitch_for_contrast(row):
    spot = number("spot diameter", row["spot_diameter"])
    contrast = number("contrast", row["contrast"])
    return {
        "sine": pi * (spot / 2) / sqrt(-2 * log1p(contrast - 1)),
        "bars": pitch_of_bars(contrast) * (spot / 2),
    }
