"""What may be asked of the model: the range of every parameter, and the order of the checks.

The table is written out here by hand and shared with no other part of the project, so that a slip
in either copy shows up as a row whose error differs.
"""

import math
import sys

from mpmath import mp, mpf

# Decimal digits carried by every computation. At least 50 are promised; the rest are guard digits.
mp.dps = 70

NOT_FINITE, OUT_OF_RANGE, UNKNOWN_CHOICE, OUTSIDE_MODEL, UNREACHABLE = 1, 2, 3, 4, 5

FAR = 1e7
BELOW_ONE = 1.0 - 2.0**-53

# name: (code, least, greatest), both ends allowed, SI units
PARAMETERS = {
    "wavelength": (1, 1e-8, 1e-2),
    "M squared": (2, 1.0, 1e4),
    "waist diameter": (3, 1e-9, 10.0),
    "beam diameter": (4, 1e-9, 10.0),
    "z": (5, -FAR, FAR),
    "z offset": (6, -FAR, FAR),
    "waist to lens": (7, -FAR, FAR),
    "focal length": (8, 1e-5, 1e4),  # of the magnitude, either sign, unless checked as positive
    "divergence full angle": (9, 1e-12, 0.6),
    "divergence half angle": (10, 0.0, 0.3),
    "Rayleigh range": (11, 1e-9, 1e10),
    "aperture diameter": (12, 0.0, 100.0),
    "power share": (13, 0.0, BELOW_ONE),
    "growth ratio": (14, 1.0, 1e9),
    "irradiance drop": (15, 1e-9, 0.999999),
    "line dose drop": (16, 1e-9, 0.999999),
    "largest diameter": (17, 1e-9, 10.0),
    "dose ratio": (18, 1.000001, 1e6),
    "spot diameter": (19, 1e-9, 10.0),
    "pitch": (20, 1e-9, 10.0),
    "contrast": (21, 1e-12, 0.999999999999),
    "surface rise": (22, 0.0, 1e3),
    "surface fall": (23, 0.0, 1e3),
    "lens to surface": (24, 1e-6, 1e4),
    "finest stroke": (25, 1e-9, 10.0),
    "finest gap": (26, 1e-9, 10.0),
    "width definition": (27, 1, 4),
    "depth criterion": (28, 1, 5),
    "raw beam": (29, 1, 3),
    "focus setting": (30, 1, 2),
    "M squared in x": (31, 1.0, 1e4),
    "M squared in y": (32, 1.0, 1e4),
    "waist diameter in x": (33, 1e-9, 10.0),
    "waist diameter in y": (34, 1e-9, 10.0),
    "waist z in x": (35, -FAR, FAR),
    "waist z in y": (36, -FAR, FAR),
    "divergence half angle in x": (37, 0.0, 0.3),
    "divergence half angle in y": (38, 0.0, 0.3),
    "focus z": (39, -1e3, 1e3),
    "diameter at lens": (41, 1e-9, 10.0),
    "lens to waist": (43, 1e-9, 1e9),
    "lens to highest place": (44, 1e-9, 1e9),
    "glass": (45, 1, 8),
    "refractive index": (46, 1.01, 6.0),
    "design wavelength": (47, 1e-8, 1e-2),
    "first radius": (48, 1e-5, 1e6),  # of the magnitude, either sign, infinite for a flat
    "second radius": (49, 1e-5, 1e6),  # likewise
    "lens shape": (50, 1, 4),
    "shape factor": (51, -100.0, 100.0),
    "aberration phase": (52, -1e4, 1e4),
    "normalised aberration": (53, 0.0, 1.7),
    "clear aperture": (54, 1e-9, 100.0),  # or infinite for none
    "clipping ratio": (55, 0.2, sys.float_info.max),
    "spot measure": (56, 1, 3),
    "thickness": (57, 0.0, 10.0),
    "lens lowered by": (58, 0.0, 10.0),
    "path element": (59, 1, 5),
    "space length": (60, 0.0, FAR),
    "expander magnification": (61, 0.01, 100.0),
    "exit power": (62, -1e3, 1e3),
    "distance along path": (63, 0.0, FAR),
    "nearest distance": (64, -FAR, FAR),
    "farthest distance": (65, -FAR, FAR),
    "radius": (66, 0.0, 10.0),
    "lens to focus": (67, 1e-5, 1e4),
    "normalised defocus": (68, -30.0, 30.0),
    "focus measure": (69, 1, 3),
    "lens kind": (70, 1, 2),
    "waist to expander": (72, -FAR, FAR),
    "expander to lens": (73, 0.0, FAR),
    "normalised radius": (74, 0.0, 60.0),
    "tilt": (75, 0.0, 1.5),
    "grazing ratio": (76, 0.0, BELOW_ONE),
}

# A yes or no that hangs on a computed number is not asked this close to its threshold: there the
# answer of a correctly working program depends on its last bit.
NEAR = mpf(10) ** -9


class Refused(Exception):
    """The input is refused with this error code, naming this parameter."""

    def __init__(self, code, parameter):
        super().__init__(code, parameter)
        self.code = code
        self.parameter = parameter

    @property
    def parameter_code(self):
        return PARAMETERS[self.parameter][0]


class TooClose(Exception):
    """The row sits on a decision boundary; draw another."""


def choice(parameter, value):
    """A choice must be one of the known codes."""
    _, least, greatest = PARAMETERS[parameter]
    if not least <= value <= greatest:
        raise Refused(UNKNOWN_CHOICE, parameter)
    return value


def number(parameter, value):
    """A number must be finite, then within its range. Returns its exact value."""
    _, least, greatest = PARAMETERS[parameter]
    return number_within(parameter, value, least, greatest)


def number_within(parameter, value, least, greatest):
    """A number whose range here is narrower than that of the parameter."""
    if not math.isfinite(value):
        raise Refused(NOT_FINITE, parameter)
    if not least <= value <= greatest:
        raise Refused(OUT_OF_RANGE, parameter)
    return mpf(value)


def focal_length(value):
    """A focal length of either sign; its magnitude must be within the range."""
    _, least, greatest = PARAMETERS["focal length"]
    if not math.isfinite(value):
        raise Refused(NOT_FINITE, "focal length")
    if not least <= abs(value) <= greatest:
        raise Refused(OUT_OF_RANGE, "focal length")
    return mpf(value)


def radius(parameter, value):
    """Radius of a lens surface, either sign; infinite for a flat one."""
    if math.isinf(value):
        return mpf(value)
    if math.isnan(value):
        raise Refused(NOT_FINITE, parameter)
    _, least, greatest = PARAMETERS[parameter]
    if not least <= abs(value) <= greatest:
        raise Refused(OUT_OF_RANGE, parameter)
    return mpf(value)


def clear_aperture(value):
    """Diameter of an aperture; +infinity is no aperture."""
    return mpf(value) if value == math.inf else number("clear aperture", value)


def computed(parameter, value):
    """A number that follows from the inputs must stay where the model holds."""
    _, least, greatest = PARAMETERS[parameter]
    if exceeds(value, mpf(greatest)) or not exceeds(value, mpf(least)):
        raise Refused(OUTSIDE_MODEL, parameter)
    return value


def computed_magnitude(parameter, value):
    """As `computed`, for a number of either sign whose range is that of its magnitude."""
    computed(parameter, abs(value))
    return value


def computed_at_most(parameter, value):
    """As `computed`, for a number that cannot come out too small."""
    if exceeds(value, mpf(PARAMETERS[parameter][2])):
        raise Refused(OUTSIDE_MODEL, parameter)
    return value


def exceeds(value, threshold):
    """Whether `value` > `threshold`, for numbers that are not close."""
    if abs(value - threshold) <= NEAR * abs(threshold):
        raise TooClose
    return value > threshold
