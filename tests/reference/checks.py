"""What may be asked of the model: the range of every parameter, and the order of the checks.

The table is written out here by hand and shared with no other part of the project, so that a slip
in either copy shows up as a row whose error differs.
"""

import math
import sys

from mpmath import ceil, mp, mpf

# Decimal digits carried by every computation. At least 50 are promised; the rest are guard digits.
mp.dps = 70

NOT_FINITE, OUT_OF_RANGE, UNKNOWN_CHOICE, OUTSIDE_MODEL, UNREACHABLE = 1, 2, 3, 4, 5
UNDETERMINED = 8

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
    "power": (77, 1e-9, 1e6),
    "speed": (78, 1e-9, 1e4),
    "diameter across": (79, 1e-9, 10.0),
    "diameter along": (80, 1e-9, 10.0),
    "line interval": (81, 1e-9, 1.0),
    "dots per inch": (82, 0.0254, 2.54e7),
    "repetition rate": (83, 1e-3, 1e12),
    "dose": (84, 1e-12, 1e18),
    "threshold": (85, 1e-12, 1e18),
    "mark kind": (86, 1, 2),
    "interval over spot radius": (87, 0.0, 20.0),
    "ripple contrast": (88, 1e-12, 0.999999),
    "drawn width": (89, 1e-9, 10.0),
    "detail size": (90, 1e-9, 10.0),
    "thermal diffusivity": (91, 0.0, 1e-2),
    "pixel": (92, 0.0, 1.0),
    "jitter deviation": (93, 0.0, 1.0),
    "rise time": (94, 0.0, 1.0),
    "switch delay": (95, 0.0, 1.0),
    "taste": (96, 1, 3),
    "largest edge": (97, 1e-9, 10.0),
    "crispness weight": (98, 1e-3, 1.0),
    "pulse pitch": (99, 1e-12, 10.0),
    "incubation": (100, 0.5, 1.0),
    "pulses": (101, 1.0, 1e9),
    "penetration depth": (102, 1e-12, 1.0),
    "scallop": (103, 1e-15, 10.0),
    "compensation rule": (104, 1, 3),
    "greatest power": (105, 1e-9, 1e6),
    "least speed": (106, 1e-9, 1e4),
    "least irradiance ratio": (107, 0.0, 1e6),
    "response": (108, 1, 4),
    "removal energy": (109, 1.0, 1e15),
    "dwell": (110, 0.0, 1e6),
    "mark width": (113, 1e-9, 10.0),
    "width deviation": (114, 1e-12, 10.0),
    "outlier limit": (115, 2.0, 1e6),  # or infinite to keep every mark
    "marks to fit": (116, 3.0, sys.float_info.max),
    "significance of the slope": (117, 3.0, sys.float_info.max),
    "typeface": (118, 1, 6),
    "stem": (119, 1e-3, 1.0),
    "effective stroke": (120, 1e-3, 1.0),
    "effective counter": (121, 1e-3, 1.0),
    "effective gap": (122, 1e-3, 1.0),
    "crisp exposure": (123, 0.5, 0.999999),
    "dose window": (124, 1.0, 1e3),
    "text grade": (125, 1, 4),
    "em": (126, 1e-9, 10.0),
    "dose of a job": (127, 1, 2),
    "text of a job": (128, 1, 2),
    "certainty of the threshold": (129, 1.0, sys.float_info.max),
    "any dose ratio": (130, 1e-6, 1e6),
    "greatest speed": (131, 1e-9, 1e4),
    "height quantity": (132, 1, 5),
    "tolerance source": (133, 1, 9),
    "distribution": (134, 1, 5),
    "half width": (135, 0.0, 1e3),
    "coverage factor": (136, 1.0, 10.0),
    "mean offset": (137, -1e3, 1e3),
    "coverage probability": (139, 0.01, 0.999999999999),
    "whole number of draws": (140, 10, 10**7),
    "whole-number seed": (141, 0, 2**53 - 1),
    "limit toward the lens": (142, -FAR, FAR),
    "limit away from the lens": (143, -FAR, FAR),
    "z of the highest place": (144, -FAR, FAR),
    "z of the lowest place": (145, -FAR, FAR),
    "usable depth of focus": (146, 1e-9, 2e7),
    "band margin": (147, 0.0, 0.99),
    "number of height bands": (148, 1.0, 1e6),
    "radius of the part": (151, 1e-6, 1e3),
    "focus aim": (152, 1, 2),
    "total depth": (153, 1e-9, 1e3),
    "depth per pass": (154, 1e-9, 1e3),
    "number of passes": (155, 1.0, 1e6),
    "surface shape": (156, 1, 5),
    "slope in x": (157, -2.0, 2.0),
    "slope in y": (158, -2.0, 2.0),
    "radius of curvature": (159, 1e-6, 1e9),
    "bulge": (160, 1, 2),
    "crown x": (161, -1e3, 1e3),
    "crown y": (162, -1e3, 1e3),
    "axis angle": (163, -10.0, 10.0),
    "place x": (164, -1e3, 1e3),
    "place y": (165, -1e3, 1e3),
    "region x": (166, -1e3, 1e3),
    "region y": (167, -1e3, 1e3),
    "region width in x": (168, 1e-9, 2e3),
    "region width in y": (169, 1e-9, 2e3),
    "distance from the crown": (170, 0.0, 1e9),  # and less than the radius
    "step edge": (171, -1e3, 1e3),
    "step width": (172, 1e-9, 2e3),
    "step height": (173, -1e3, 1e3),
    "number of step edges": (174, 2, sys.float_info.max),
    "grid x": (176, -1e3, 1e3),
    "grid y": (177, -1e3, 1e3),
    "grid spacing": (178, 1e-9, 2e3),
    "probed height": (179, -1e3, 1e3),  # or not a number where the probe found nothing
    "number of grid columns": (180, 2, sys.float_info.max),
    "number of grid rows": (181, 2, sys.float_info.max),
    "known probes": (183, 4, sys.float_info.max),
    "known parts of the region": (184, 1, sys.float_info.max),
    "set-up tolerance": (185, 0.0, 1e3),
    "least clearance": (186, 0.0, 1e4),
    "working distance": (187, 0.0, 1e4),
    "lenses to choose from": (188, 1, 8),
    "cells per side": (189, 1, 1000),
    "field radius": (190, 1e-6, 10.0),
    "edge tangential z": (191, -10.0, 10.0),
    "edge sagittal z": (192, -10.0, 10.0),
    "edge incidence": (193, 0.0, 1.0),
    "edge spot ratio": (194, 1.0, 10.0),
    "field x": (195, -10.0, 10.0),
    "field y": (196, -10.0, 10.0),
    "field angle": (197, 0.0, 1.2),
    "confidence": (225, 0.5, 0.999999999999),
    "whole degrees of freedom": (226, 1, 100000),
    "chi squared": (227, 0.0, 1e100),
    "depth law": (228, 1, 2),
    "deviation of the dose ratio": (229, 0.0, 1.0),
    "depth of the mark": (230, 1e-12, 1e12),
    "depth deviation": (231, 1e-15, 1e12),
    "height step": (232, 1e-9, 1e3),
    "power step": (233, 1.01, 100.0),
    "measured M squared": (234, 0.01, 1e4),
    "deviation of M squared": (235, 0.0, 1e4),
    "deviation of the waist diameter": (236, 0.0, 10.0),
    "focus shift": (237, -1e4, 1e4),
    "deviation of the height of focus": (238, 0.0, 1e3),
    "95 % coverage factor": (239, 1.9, 13.0),
    "relative deviation of the dose ratio": (240, 0.0, 10.0),
    "correlation": (241, -1.0, 1.0),
    "number of test pieces": (242, 1, 256),
    "height of a test piece": (243, -1e3, 1e3),
    "rank of a test piece": (245, 1, 3),
    "relative deviation of judgements": (246, 0.0, 1.0),
    "good test pieces": (247, 1, sys.float_info.max),
    "heights beyond the good test pieces, toward the lens": (248, 1, sys.float_info.max),
    "heights beyond the good test pieces, away from the lens": (249, 1, sys.float_info.max),
    "purpose of a series": (250, 1, 2),
    "direction of the sweep": (251, 1, 2),
    "step of a series": (252, 1e-9, 1e3),
    "half range of a series": (253, 1e-9, 1e3),
    "smallest step of the axis": (254, 1e-9, 1.0),
    "backlash of the axis": (255, 0.0, 1.0),
    "travel of the axis": (256, 0.0, 1e3),
    "size of a test piece or label": (257, 1e-6, 1.0),
    "gap between test pieces": (258, 0.0, 1.0),
    "width of a row of test pieces": (259, 1e-6, 1e3),
    "steps on either side": (260, 2.0, 120.0),
    "steps left toward the lens": (261, 2.0, 120.0),
    "steps left away from the lens": (262, 2.0, 120.0),
    "scatter of the widths": (264, 1, 2),
    "relative deviation of what is known": (265, 1e-6, 10.0),  # or infinite where it is not known
    "power ratio": (266, 1e-3, 1e3),
    "different heights": (268, 3.0, sys.float_info.max),
    "significance of the change of width with height": (269, 4.0, sys.float_info.max),
    "waist within the heights of the marks": (270, -FAR, FAR),
    "certainty of the height of the waist": (271, 2.0, sys.float_info.max),
    "certainty of the waist diameter": (272, 1.0, sys.float_info.max),
    "weights of readings": (273, 1, 2),
    "readings to fit": (274, 4, 100003),
    "significance of the curvature": (275, 3.0, sys.float_info.max),
    "significance of the waist": (276, 2.0, sys.float_info.max),
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


def allowed(ulp, factor):
    """The ulp allowed in a row whose problem makes this much of an error."""
    return int(ceil(ulp * factor))


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
