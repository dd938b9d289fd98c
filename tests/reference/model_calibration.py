"""The raw beam and the threshold that follow from a measured focus.

A focus of the diameter d0 and the Rayleigh range zR, delta beyond the focal point of an ideal lens, by the complex
beam parameter q = z - z0 + i zR and the ray matrices of a lens and of free space (Kogelnik and Li, Applied Optics 5,
1550 (1966), from memory): behind the lens, at the lens, q = -(f + delta) + i zR. Before it 1/q is greater by 1/f.
There the waist lies where the real part vanishes, Re(q) behind it in the sense of the light, and zR is Im(q).

The threshold: a spot of the diameter d0 and the power P that moves with the speed v gives the middle of its line
2 P/(pi w^2) times the integral of exp(-2 x^2/w^2) over dx/v, which is sqrt(pi/2) w/v.

Its logarithm is a constant - ln d0 - ln q: the variance of the sum of two that are correlated, as a product of a
row, the covariance matrix and a column (GUM, JCGM 100:2008, 5.2.2, from memory).

A calibration from marks hands numbers on; the factor of its ranges must be that of 95 %: of a normal law, or Student's.
"""

import math

from mpmath import erfinv, im, matrix, mpc, mpf, pi, re, sqrt

from checks import NOT_FINITE, OUT_OF_RANGE, OUTSIDE_MODEL, Refused, TooClose, computed, exceeds, number
from model_beam import Beam, widest_cone
from model_statistics import student


def widened(factor):
    """So many times a deviation is the one of a normal law with the same 95 % range."""
    return factor / (sqrt(mpf(2)) * erfinv(mpf(95) / 100))


def possible(m2, reach):
    """M2 of a beam; a measurement below 1 is taken for 1 as far as its range reaches."""
    if m2 >= 1:
        return m2
    if exceeds(1 - reach, m2):
        raise Refused(OUTSIDE_MODEL, "measured M squared")
    return mpf(1)


def calibrated_set_up(row):
    wavelength = number("wavelength", row["wavelength"])
    measured = number("measured M squared", row["measured_m2"])
    deviation = number("deviation of M squared", row["m2_deviation"])
    waist = number("waist diameter", row["waist_diameter"])
    f = number("focal length", row["focal_length"])
    delta = number("focus shift", row["focus_shift"])
    height = number("deviation of the height of focus", row["focus_deviation"])
    factor = number("95 % coverage factor", row["coverage_factor_95"])
    m2 = possible(measured, factor * deviation)

    focus = Beam(wavelength, m2, waist)
    computed("divergence half angle", focus.half_angle)
    computed("lens to waist", f + delta)
    behind = mpc(-(f + delta), focus.rayleigh_range)
    before = 1 / (1 / behind + 1 / f)
    raw_range = im(before)
    raw_waist = sqrt(4 * m2 * wavelength * raw_range / pi)
    computed("waist diameter", raw_waist)
    raw = Beam(wavelength, m2, raw_waist)
    computed("divergence half angle", raw.half_angle)
    return {
        "m2": m2,
        "raw_waist_diameter": raw_waist,
        "waist_to_lens": computed_place(re(before)),
        "diameter_at_lens": focus.diameter(f + delta),
        "rayleigh_range": focus.rayleigh_range,
        "focus_deviation": height * widened(factor),
        **widest_cone((focus, raw)),
    }


def computed_place(z):
    """From the raw waist to the lens, along the light."""
    if exceeds(abs(z), mpf(10) ** 7):
        raise Refused(OUTSIDE_MODEL, "waist to lens")
    return z


def learned_threshold(row):
    power = number("power", row["power"])
    speed = number("speed", row["speed"])
    waist = number("waist diameter", row["waist_diameter"])
    waist_deviation = number("deviation of the waist diameter", row["waist_diameter_deviation"])
    ratio = number("dose ratio", row["dose_ratio"])
    of_ratio = number("relative deviation of the dose ratio", row["relative_dose_ratio_deviation"])
    correlation = number("correlation", row["correlation"])
    factor = number("95 % coverage factor", row["coverage_factor_95"])

    w = waist / 2
    line_dose = 2 * power / (pi * w**2) * sqrt(pi / 2) * w / speed
    of_waist = waist_deviation / waist
    shared = correlation * of_waist * of_ratio
    covariance = matrix([[of_waist**2, shared], [shared, of_ratio**2]])
    slopes = matrix([-1, -1])
    variance = (slopes.T * covariance * slopes)[0]
    # Two that undo each other to the last digits.
    if variance != 0 and variance < mpf(10) ** -12 * (of_waist**2 + of_ratio**2):
        raise TooClose
    return {
        "threshold": computed("threshold", line_dose / ratio),
        "relative_deviation": sqrt(variance) * widened(factor),
    }


def calibration_from_marks(row):
    handed_on = {
        "focus_z": number("focus z", row["waist_z"]),
        "focus_deviation": number("deviation of the height of focus", row["waist_z_deviation"]),
        "waist_diameter": number("waist diameter", row["waist_diameter"]),
        "waist_diameter_deviation": number("deviation of the waist diameter", row["waist_diameter_deviation"]),
        "measured_m2": number("measured M squared", row["m2"]),
        "m2_deviation": number("deviation of M squared", row["m2_deviation"]),
        "dose_ratio": number("dose ratio", row["dose_ratio"]),
    }
    name = "relative deviation of the dose ratio"
    if not math.isfinite(row["dose_ratio_deviation"]):
        raise Refused(NOT_FINITE, name)
    relative = mpf(row["dose_ratio_deviation"]) / handed_on["dose_ratio"]
    if not 0 <= relative <= 10:
        raise Refused(OUT_OF_RANGE, name)
    handed_on |= {"relative_dose_ratio_deviation": relative, "correlation": number("correlation", row["correlation"])}
    factor = number("95 % coverage factor", row["range_factor"])
    share = mpf(95) / 100
    if not same(factor, sqrt(mpf(2)) * erfinv(share)):
        freedom = number("whole degrees of freedom", row["degrees_of_freedom"])
        if not same(factor, student(1 - share, freedom)):
            raise Refused(OUT_OF_RANGE, "95 % coverage factor")
    return handed_on | {
        "coverage_factor_95": factor,
        "focus_shift": mpf(0),
        "wavelength": number("wavelength", row["wavelength"]),
        "focal_length": number("focal length", row["focal_length"]),
        "power": number("power", row["power"]),
        "speed": number("speed", row["speed"]),
    }


def same(factor, wanted):
    """Whether a factor is the one that is wanted, but for its last digits."""
    off = abs(factor / wanted - 1)
    if mpf(10) ** -12 < off < mpf(10) ** -6:
        raise TooClose
    return off < mpf(10) ** -9
