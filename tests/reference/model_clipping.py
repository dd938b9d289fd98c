"""A Gaussian beam, M2 = 1, clipped by a round aperture at an ideal lens.

With D the 1/e^2 diameter, a the aperture, X = a/D, T = D/a and the widths d = K lambda f/a,

  transmitted   1 - exp(-2 X^2)
  peak          (1 - exp(-X^2))^2                     over that of the same beam unclipped
  on the axis   [1 + (sin(b Y/2)/sinh(Y/2))^2]/(1 + b^2)   over the peak, Y = X^2, b = z pi D^2/(4 lambda f^2)

The last two follow from the integral of exp(-x^2 (1 - i b)) x dx from 0 to X. The K are fits to the
diffraction integral, no published formulas: they are what they are.
"""

import math

from mpmath import expm1, findroot, isinf, log, mpf, nan, pi, sin, sinh, sqrt

from checks import OUTSIDE_MODEL, Refused, TooClose, clear_aperture, computed_at_most, exceeds, number, number_within
from model_depth import symmetric
from model_singlet import FOCUS_SHIFTED, NO_POWER86, clipping_ratio, flag_of_cone

CONTOUR = ("1.63451", "0.07116", "0.01789", "0.10201", "0.00971", "-0.00726")
HALF_MAXIMUM = ("1.02537", "0.02425", "0.04401", "0.02894", "0.01299", "-0.00449")
POWER = ("2.46939", "-1.05955", "0.05853", "0.46793", "-0.11122")
# Up to these T, and from there on, the fits hold.
LEAST_T, LEAST_T_OF_POWER, GREATEST_T_OF_POWER = mpf("0.36"), mpf("0.5"), mpf("1.25")


def flag_of_shift(share):
    return FOCUS_SHIFTED if exceeds(share, mpf("0.05")) else 0


class ClippedBeam:
    """A checked beam, aperture and lens."""

    def __init__(self, row):
        self.wavelength = number("wavelength", row["wavelength"])
        self.diameter = number("diameter at lens", row["diameter_at_lens"])
        self.aperture = clear_aperture(row["clear_aperture"])
        self.f = number("focal length", row["focal_length"])

    def check_model(self):
        self.ratio = clipping_ratio(self.aperture, self.diameter)
        self.half_angle = min(self.diameter, self.aperture) / (2 * self.f)
        computed_at_most("divergence half angle", self.half_angle)
        narrower = min(self.diameter, self.aperture)
        long_focus = 4 * self.wavelength * self.f / (pi * narrower**2)
        if exceeds(long_focus, mpf("0.2")):
            raise Refused(OUTSIDE_MODEL, "Rayleigh range")
        self.validity = flag_of_cone(self.half_angle) | flag_of_shift(long_focus)


def fitted(coefficients, t):
    return sum(mpf(c) / t**i for i, c in enumerate(coefficients))


def scaled_widths(t):
    """T K of the 1/e^2, half-maximum and 86.5 % widths."""
    free = 4 / pi
    half = sqrt(log(2) / 2)
    if t == 0:
        return free, free * half, free
    weak = not exceeds(t, LEAST_T)
    contour = free if weak else t * fitted(CONTOUR, t)
    half_maximum = free * half if weak else t * fitted(HALF_MAXIMUM, t)
    if exceeds(t, GREATEST_T_OF_POWER):
        return contour, half_maximum, nan
    return contour, half_maximum, t * fitted(POWER, t) if exceeds(t, LEAST_T_OF_POWER) else free


def focus_clipped(row):
    beam = ClippedBeam(row)
    beam.check_model()
    contour, half_maximum, power = scaled_widths(1 / beam.ratio)
    scale = beam.wavelength * beam.f / beam.diameter
    return {
        "clipping_ratio": beam.ratio,
        "transmitted": -expm1(-2 * beam.ratio**2),
        "diameter_1e2": contour * scale,
        "fwhm": half_maximum * scale,
        "diameter_power86": power * scale,
        "peak_irradiance_ratio": expm1(-(beam.ratio**2)) ** 2,
        "validity": beam.validity | (NO_POWER86 if power != power else 0),
    }


def first_fall(y, kept):
    """The least b > 0 at which the irradiance on the axis falls to `kept` of the peak."""
    if isinf(y) or y > 2000:
        # The ripple is below 1e-800.
        return sqrt((1 - kept) / kept)

    def excess(b):
        return (1 + (sin(b * y / 2) / sinh(y / 2)) ** 2) / (1 + b**2) - kept

    # Steps so small that no fall and rise hides within one.
    # It falls at least as fast as the uniform beam's: half of it is lost by b = 2.8/y, all by 6.3/y.
    step = min(0.02, 0.05 / float(y)) if y > 1.0 else 0.05 / float(y)
    ripple = 1.0 / math.sinh(float(y) / 2.0) if y < 1400 else 0.0
    rough = lambda b: (1.0 + (math.sin(b * float(y) / 2.0) * ripple) ** 2) / (1.0 + b * b) - float(kept)
    b = step
    while rough(b) > 0.0:
        b += step
    low, high = mpf(b - step), mpf(b)
    if excess(low) <= 0 or excess(high) > 0:
        raise TooClose
    return findroot(excess, (low, high), solver="anderson", tol=mpf(10) ** -60, maxsteps=400)


def clipped_depth_of_focus(row):
    beam = ClippedBeam(row)
    beam.check_model()
    drop = number_within("irradiance drop", row["irradiance_drop"], 0.01, 0.9)
    b = first_fall(beam.ratio**2, 1 - drop)
    half = b * 4 * beam.wavelength * beam.f**2 / (pi * beam.diameter**2)
    return symmetric(half) | {"validity": beam.validity | flag_of_shift(half / beam.f)}
