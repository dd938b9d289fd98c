"""Where the hyperbolas of two beams with one waist height cross.

d1^2 + t1^2 z^2 = d2^2 + t2^2 z^2 with the full angles t = 4 M2 lambda/(pi d): a linear equation in z^2,
which has a positive root if the smaller waist goes with the larger angle.
"""

from mpmath import nan, sqrt

from model_beam import checked_beam, widest_cone

NEITHER, FIRST, SECOND = 0, 1, 2


def smaller(a, b):
    """Which of two numbers is the smaller."""
    return NEITHER if a == b else FIRST if a < b else SECOND


def crossing(first, second):
    """Offset and diameter where two beams are equally wide; None if that is nowhere, or only in the waist."""
    d1, d2 = first.waist_diameter, second.waist_diameter
    t1, t2 = 2 * first.half_angle, 2 * second.half_angle
    if (d2 - d1) * (t1 - t2) <= 0:
        return None
    z = sqrt((d2**2 - d1**2) / (t1**2 - t2**2))
    return z, sqrt(d1**2 + t1**2 * z**2)


def caustic_crossing(row):
    beams = []
    for which in ("first", "second"):
        names = ("wavelength", "m2", "waist_diameter")
        beams.append(checked_beam({name: row[f"{which}_{name}"] for name in names}))
    first, second = beams
    # k1 d2 and k2 d1 are exact; angles are not.
    angle1 = first.m2 * first.wavelength * second.waist_diameter
    angle2 = second.m2 * second.wavelength * first.waist_diameter
    found = crossing(first, second) if angle1 != angle2 else None
    offset, diameter = found or (nan, nan)
    return {
        "offset": offset,
        "diameter": diameter,
        "sharper_in_focus": smaller(first.waist_diameter, second.waist_diameter),
        "sharper_far_off": smaller(angle1, angle2),
        **widest_cone(beams),
    }
