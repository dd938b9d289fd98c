"""Pulsed marks: a row of dots, craters and grooves.

  fluence at r from the middle of a pulse      q exp(-2 r^2/w^2) thresholds
  it marks where that is at least 1            dot radius rho = w sqrt(ln(q)/2)   Liu 1982, from memory
  threshold after N pulses                     N^(S - 1) of that of one           Jee 1988, from memory
  depth                                        l ln(fluence over threshold)       Beer and Lambert

The edge of a row of dots of pitch p runs along their circles: it dents by rho - sqrt(rho^2 - p^2/4).
A groove adds the craters up, p apart: depth and area are those of one crater integrated along the line,
over p (see agreement.py). Derived here.
"""

from mpmath import exp, log, mpf, pi, sqrt

from checks import allowed, exceeds, number, number_within

LINE_ULP = 4
DEPTH_ULP = 6


def checked_dose(row):
    """Spot diameter and ln q."""
    d = number("spot diameter", row["spot_diameter"])
    return d, log(number("dose ratio", row["dose_ratio"]))


def pulsed_line(row):
    d, log_dose = checked_dose(row)
    p = number("pulse pitch", row["pulse_pitch"])
    incubation = number("incubation", row["incubation"])
    n = number("pulses", row["pulses"])
    log_fall = (1 - incubation) * log(n)
    rho = d / 2 * sqrt((log_dose + log_fall) / 2)
    connected = exceeds(2 * rho, p)
    answer = {
        "threshold_ratio": exp(-log_fall),
        "dose_ratio": exp(log_dose + log_fall),
        "dot_diameter": 2 * rho,
        "connected": int(connected),
        "scallop": rho,
    }
    fall_ulp = allowed(LINE_ULP, 1 + log_fall)
    answer |= {"threshold_ratio_ulp": fall_ulp, "dose_ratio_ulp": fall_ulp, "scallop_ulp": LINE_ULP}
    if connected:
        half = p / 2
        root = sqrt((rho - half) * (rho + half))
        answer["scallop"] = half**2 / (rho + root)
        answer["scallop_ulp"] = allowed(LINE_ULP, 1 + half / root)
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
    pitch = number("pulse pitch", row["pulse_pitch"])
    y = number("radius", row["aside"])
    rho = d * sqrt(log_dose / 2) / 2
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
    rho = d * sqrt(log_dose / 2) / 2
    scallop = number_within("scallop", row["scallop"], 1e-15, Limit(rho))
    pitch = 2 * sqrt(scallop * (2 * rho - scallop))
    return {"pulse_pitch": pitch, "speed": pitch * rate}


class Limit:
    """A computed end of a range, to which no row comes close."""

    def __init__(self, value):
        self.value = value

    def __ge__(self, other):
        return not exceeds(mpf(other), self.value)
