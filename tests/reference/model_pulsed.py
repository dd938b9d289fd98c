"""Pulsed marks: a row of dots, craters and grooves.

  fluence at r from the middle of a pulse      q exp(-2 r^2/w^2) thresholds
  it marks where that is at least 1            dot radius rho = w sqrt(ln(q)/2)   Liu 1982, from memory
  threshold after N pulses                     N^(S - 1) of that of one           Jee 1988, from memory
  depth                                        l ln(fluence over threshold)       Beer and Lambert

The edge of a row of dots of pitch p runs along their circles: it dents by rho - sqrt(rho^2 - p^2/4).
The fastest connected scan is the root p of p = 2 sqrt(c (2 rho - c)), where rho is that after as many pulses as
fall there: N = sqrt(pi/8) d/p, the line dose of a row of pulses over the fluence of one, but at least 1.
A groove adds the craters up, p apart: depth and area are those of one crater integrated along the line,
over p (see agreement.py). Derived here.
"""

from mpmath import exp, log, mp, mpf, pi, sqrt

from checks import allowed, computed, computed_at_most, exceeds, number, number_within
from roots import root

LINE_ULP = 4
DEPTH_ULP = 6


def checked_dose(row, parameter="dose ratio"):
    """Spot diameter and ln q."""
    d = number("spot diameter", row["spot_diameter"])
    return d, log(number(parameter, row["dose_ratio"]))


def pulsed_line(row):
    d, log_dose = checked_dose(row, "any dose ratio")
    p = number("pulse pitch", row["pulse_pitch"])
    incubation = number("incubation", row["incubation"])
    n = number("pulses", row["pulses"])
    log_fall = (1 - incubation) * log(n)
    strength = log_dose + log_fall
    # Without incubation nothing is computed before the dose ratio is compared with 1.
    marks = strength > 0 if log_fall == 0 else exceeds(exp(strength), mpf(1))
    fall_ulp = allowed(LINE_ULP, 1 + log_fall)
    answer = {
        "marks": int(marks),
        "threshold_ratio": exp(-log_fall),
        "dose_ratio": exp(strength),
        "dot_diameter": mpf(0),
        "connected": 0,
        "scallop": mpf(0),
        "threshold_ratio_ulp": fall_ulp,
        "dose_ratio_ulp": fall_ulp,
        "dot_diameter_ulp": LINE_ULP,
        "scallop_ulp": LINE_ULP,
    }
    if not marks:
        return answer
    rho = d / 2 * sqrt(strength / 2)
    # Below the threshold of one pulse the two logarithms are taken from each other.
    close = 1 + max(mpf(0), -log_dose) / strength
    answer |= {
        "dot_diameter": 2 * rho,
        "scallop": rho,
        "dot_diameter_ulp": allowed(LINE_ULP, close),
        "scallop_ulp": allowed(LINE_ULP, close),
    }
    if exceeds(2 * rho, p):
        half = p / 2
        root = sqrt((rho - half) * (rho + half))
        answer |= {
            "connected": 1,
            "scallop": half**2 / (rho + root),
            "scallop_ulp": allowed(LINE_ULP, close * (1 + half / root)),
        }
    return answer


def crater_depth(d, log_dose, penetration, r):
    """Depth at r from the middle, 0 outside; and what is left of the logarithm there, over its whole."""
    left = (log_dose - 2 * (2 * r / d) ** 2) / log_dose
    if not exceeds(1 - left, mpf(1)):
        return penetration * log_dose * left, left
    return mpf(0), None


def crater(row):
    d, log_dose = checked_dose(row)
    penetration = number("penetration depth", row["penetration_depth"])
    depth, left = crater_depth(d, log_dose, penetration, number("radius", row["radius"]))
    return {
        "diameter": d * sqrt(log_dose / 2),
        "depth": penetration * log_dose,
        "depth_at_radius": depth,
        "depth_at_radius_ulp": DEPTH_ULP if left is None else allowed(DEPTH_ULP, 1 / left),
        "volume": crater_volume(d, log_dose, penetration),
    }


def crater_volume(d, log_dose, penetration):
    return pi * (d / 2) ** 2 * penetration * log_dose**2 / 4


def groove_depth(d, log_dose, penetration, pitch, y):
    """Mean depth at y from the middle, inside the groove."""
    w = d / 2
    return 8 * penetration * (w**2 * log_dose / 2 - y**2) ** mpf("1.5") / (3 * pitch * w**2)


def groove(row):
    d, log_dose = checked_dose(row)
    penetration = number("penetration depth", row["penetration_depth"])
    rho = d * sqrt(log_dose / 2) / 2
    # A dot may be smaller than any pitch elsewhere.
    pitch = number_within("pulse pitch", row["pulse_pitch"], min(mpf(1e-12), 2 * rho), Limit(2 * rho))
    y = number("radius", row["aside"])
    inside = exceeds(rho, y)
    return {
        "width": 2 * rho,
        "depth": groove_depth(d, log_dose, penetration, pitch, 0),
        "depth_aside": groove_depth(d, log_dose, penetration, pitch, y) if inside else mpf(0),
        "depth_aside_ulp": allowed(DEPTH_ULP, 1 + 3 / (1 - (y / rho) ** 2)) if inside else DEPTH_ULP,
        "area": crater_volume(d, log_dose, penetration) / pitch,
    }


def connected_speed(row):
    d, log_dose = checked_dose(row)
    rate = number("repetition rate", row["repetition_rate"])
    incubation = number("incubation", row["incubation"])
    rho = d * sqrt(log_dose / 2) / 2
    scallop = number_within("scallop", row["scallop"], 1e-15, Limit(rho))

    def pitch_after(n):
        dot = d * sqrt((log_dose + (1 - incubation) * log(n)) / 2)
        return 2 * sqrt(scallop * (dot - scallop))

    def pulses_at(p):
        return sqrt(pi / 8) * d / p

    pitch = pitch_after(mpf(1))
    if incubation < 1 and exceeds(pulses_at(pitch), mpf(1)):
        pitch = root(lambda p: p / pitch_after(pulses_at(p)) - 1, pitch, pitch_after(pulses_at(pitch)))
    return {
        "pulse_pitch": pitch,
        "pulses": computed_at_most("pulses", max(mpf(1), pulses_at(pitch))),
        "speed": computed("speed", pitch * rate),
    }


class Limit:
    """A computed end of a range, to which no row comes close."""

    def __init__(self, value):
        self.value = value

    def __ge__(self, other):
        return not exceeds(mpf(other), self.value)
