"""Draws of beams: those that people use, and those from the whole range of the model."""

import math

from checks import PARAMETERS

WIDEST_HALF_ANGLE = 0.29

# wavelength, least and greatest M2 of lasers used for marking; common practice, no source
LASERS = (
    (10.6e-6, 1.0, 1.8),
    (10.2e-6, 1.1, 1.6),
    (9.3e-6, 1.1, 1.6),
    (1.064e-6, 1.0, 2.0),
    (1.07e-6, 1.05, 1.8),
    (532e-9, 1.05, 1.4),
    (355e-9, 1.05, 1.3),
    (450e-9, 3.0, 15.0),
)


def half_angle(row, suffix="", width="waist_diameter"):
    return 2.0 * row[f"m2{suffix}"] * row["wavelength"] / (math.pi * row[f"{width}{suffix}"])


def rayleigh(row, suffix="", width="waist_diameter"):
    """Rayleigh range to some digits: only to scale what is drawn next."""
    d0 = row[f"{width}{suffix}"]
    return math.pi * d0 * d0 / (4.0 * row[f"m2{suffix}"] * row["wavelength"])


def focused(draws):
    """A focused beam such as stands on a workpiece."""
    while True:
        wavelength, least, greatest = draws.choice(LASERS)
        row = {
            "wavelength": wavelength,
            "m2": draws.nice(least, greatest),
            "waist_diameter": float(format(draws.octaves(8e-6, 1e-3), ".3g")),
        }
        if half_angle(row) < WIDEST_HALF_ANGLE:
            return row


def raw(draws):
    """A beam as it leaves a laser or an expander."""
    wavelength, least, greatest = draws.choice(LASERS)
    return {
        "wavelength": wavelength,
        "m2": draws.nice(least, greatest),
        "waist_diameter": draws.nice(1e-3, 12e-3),
    }


def wide(draws):
    """Any beam of the model, spread evenly over the powers of two."""
    while True:
        row = {"wavelength": draws.octaves(1e-8, 1e-2), "m2": draws.octaves(1.0, 1e4)}
        if draws.one_in(8):
            row["m2"] = 1.0
        cone = draws.octaves(1e-9, WIDEST_HALF_ANGLE)
        row["waist_diameter"] = 2.0 * row["m2"] * row["wavelength"] / (math.pi * cone)
        if 1e-9 <= row["waist_diameter"] <= 10.0:
            return row


def any_round(draws):
    """One beam in common use or one from the whole range."""
    return focused(draws) if draws.one_in(2) else wide(draws)


def free(draws, width="waist_diameter"):
    """Each number from the whole of its range: most such beams are no beams."""
    return {
        "wavelength": draws.octaves(1e-8, 1e-2),
        "m2": draws.octaves(1.0, 1e4),
        width: draws.octaves(1e-9, 10.0),
    }


def two_axes(draws, x, y, zx, zy):
    """An astigmatic beam of two round ones; they share the wavelength of the first."""
    return {
        "wavelength": x["wavelength"],
        "m2_x": x["m2"],
        "waist_diameter_x": x["waist_diameter"],
        "waist_z_x": zx,
        "m2_y": y["m2"],
        "waist_diameter_y": y["waist_diameter"],
        "waist_z_y": zy,
    }


def second_axis(draws, x, wild):
    """Another beam of the same wavelength."""
    while True:
        y = dict(x)
        if not draws.one_in(4):
            scale = draws.octaves(1e-4, 1e4) if wild else draws.nice(0.4, 2.5)
            y["waist_diameter"] = x["waist_diameter"] * scale
        if not draws.one_in(3):
            y["m2"] = draws.octaves(1.0, 1e4) if wild else draws.nice(1.0, 15.0)
        if half_angle(y) < WIDEST_HALF_ANGLE and 1e-9 <= y["waist_diameter"] <= 10.0:
            return y


def astigmatic(draws, wild=False):
    """Waists apart by anything from nothing to many Rayleigh ranges."""
    x = wide(draws) if wild else focused(draws)
    y = second_axis(draws, x, wild)
    longer = max(rayleigh(x), rayleigh(y))
    shorter = min(rayleigh(x), rayleigh(y))
    while True:
        separation = draws.sign() * draws.choice(
            (0.0, longer * draws.octaves(0.01, 8.0), shorter * draws.octaves(0.01, 100.0))
        )
        middle = draws.choice((0.0, longer * draws.evenly(-3.0, 3.0), separation))
        zx, zy = middle - separation / 2.0, middle + separation / 2.0
        if draws.one_in(20):
            zx = draws.tiny()
        if max(abs(zx), abs(zy)) <= PARAMETERS["z"][2]:
            return two_axes(draws, x, y, zx, zy)


def astigmatic_wide(draws):
    return astigmatic(draws, wild=True)


def astigmatic_free(draws):
    row = {"wavelength": draws.octaves(1e-8, 1e-2)}
    for axis in ("x", "y"):
        row[f"m2_{axis}"] = draws.octaves(1.0, 1e4)
        row[f"waist_diameter_{axis}"] = draws.octaves(1e-9, 10.0)
        row[f"waist_z_{axis}"] = draws.sign() * draws.octaves(1e-9, 1e7)
    return row


def within(draws, parameter, least, greatest):
    """A size between these, as far as the parameter's range lets it."""
    _, lowest, highest = PARAMETERS[parameter]
    least = min(max(least, lowest), highest)
    greatest = min(max(greatest, lowest), highest)
    return draws.octaves(least, greatest) if least < greatest else least


def z_near_waist(draws, zr):
    """So near that the growth is one to many digits."""
    return draws.tiny() if draws.one_in(3) else draws.sign() * zr * draws.octaves(2.0**-200, 1e-6)


def z_ordinary(draws, zr):
    return draws.sign() * within(draws, "z", zr * 1e-3, zr * 30.0)


def z_far(draws, zr):
    """Many Rayleigh ranges away, as far as the model reaches."""
    return draws.sign() * within(draws, "z", zr * 1e3, zr * 1e12)


def z_growth_near_one(draws, zr):
    return draws.sign() * within(draws, "z", zr * 1e-9, zr * 1e-3)
