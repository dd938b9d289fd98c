"""A Gaussian beam, M2 = 1, clipped by a round aperture at an ideal lens.

With D the 1/e^2 diameter, a the aperture, X = a/D, T = D/a and the widths d = K lambda f/a,

  transmitted   1 - exp(-2 X^2)
  peak          (1 - exp(-X^2))^2                     over that of the same beam unclipped
  on the axis   see `Axis`

The last two follow from the integral of exp(-x^2 (1 + i b)) x dx from 0 to X. The K are fits to the
diffraction integral, no published formulas: they are what they are.
"""

import cmath
import math

from mpmath import ceil, diff, exp, expm1, isinf, log, mpc, mpf, nan, pi, sqrt

from checks import OUTSIDE_MODEL, Refused, TooClose, clear_aperture, computed_at_most, exceeds, number, number_within
from model_singlet import FOCUS_SHIFTED, NO_POWER86, clipping_ratio, flag_of_cone
from roots import root

CONTOUR = ("1.63451", "0.07116", "0.01789", "0.10201", "0.00971", "-0.00726")
HALF_MAXIMUM = ("1.02537", "0.02425", "0.04401", "0.02894", "0.01299", "-0.00449")
POWER = ("2.46939", "-1.05955", "0.05853", "0.46793", "-0.11122")
# Up to these T, and from there on, the fits hold.
LEAST_T, LEAST_T_OF_POWER, GREATEST_T_OF_POWER = mpf("0.36"), mpf("0.5"), mpf("1.25")
# Error allowed in the ends of a depth, in ulp, where the problem makes no more of an error.
DEPTH_ULP = 8


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
        self.relative_rayleigh_range = long_focus
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
        "relative_rayleigh_range": beam.relative_rayleigh_range,
        "half_angle": beam.half_angle,
        "validity": beam.validity | (NO_POWER86 if power != power else 0),
    }


class Axis:
    """The irradiance along the axis, by the integral over the aperture in closed form:

    abs((L/l) A(b)/A(0))^2, A(b) = (1 - exp(-Y q))/q, q = 1 + i b, L/l = 1 + b/N, N = pi D^2/(4 lambda f)

    with b + toward the lens. The plane b lies at z = -f b/(N + b).
    """

    def __init__(self, beam):
        self.n = pi * beam.diameter**2 / (4 * beam.wavelength * beam.f)
        self.y = beam.ratio**2

    def __call__(self, b):
        q = mpc(1, b)
        whole = 1 if isinf(self.y) else (1 - exp(-self.y * q)) / (1 - exp(-self.y))
        return ((1 + b / self.n) * abs(whole / q)) ** 2

    def slope(self, b):
        """d(ln g)/db."""
        q = mpc(1, b)
        edge = 0 if isinf(self.y) else self.y / expm1(self.y * q)
        return 2 / (self.n + b) + 2 * (mpc(0, 1) * (edge - 1 / q)).real

    def rough(self):
        """The same in doubles, for searches."""
        n, y = float(self.n), min(float(self.y), 1e3)
        whole = 1.0 - math.exp(-y)

        def g(b):
            q = complex(1.0, b)
            return ((1.0 + b / n) * abs((1.0 - cmath.exp(-y * q)) / (q * whole))) ** 2

        return g

    @property
    def period(self):
        """Of the ripple, where there is one to see."""
        return 2.0 * math.pi / min(float(self.y), 80.0)

    def brightest(self):
        near, beyond = mpf(0), 1 / self.n
        while self.slope(beyond) >= 0:
            near, beyond = beyond, 2 * beyond
        return root(self.slope, near, beyond)

    def end(self, brightest, level, side):
        """The first fall to `level`, outward from the brightest place."""
        g, least = self.rough(), float(level)
        step = side * min(1.0, self.period) / 200.0
        far = -float(self.n)
        places = [float(brightest)]
        while True:
            place = max(places[-1] + step, far)
            places.append(place)
            last = [g(b) for b in places[-3:]]
            # A trough that just misses the level, or just meets it.
            if len(last) == 3 and last[1] <= min(last[0], last[2]) and abs(last[1] / least - 1.0) < 1e-3:
                raise TooClose
            if last[-1] < least:
                return root(lambda b: self(b) - level, mpf(places[-2]), mpf(place))

    def place(self, b):
        return -b / (self.n + b)

    def condition(self, b):
        """By how much an error of g shows in the place of an end, as a share of that place."""
        return 1 + 1 / abs(b * self.slope(b) * (1 + b / self.n))

    def condition_of_brightest(self, b):
        """Likewise for an error of the terms of the slope, which cancel there."""
        return 1 + 4 / ((1 + b**2) * abs(diff(self.slope, b)) * (1 + b / self.n))


def clipped_depth_of_focus(row):
    beam = ClippedBeam(row)
    beam.check_model()
    drop = number_within("irradiance drop", row["irradiance_drop"], 0.01, 0.9)
    axis = Axis(beam)
    brightest = axis.brightest()
    level = (1 - drop) * axis(brightest)
    toward, away = (axis.end(brightest, level, side) for side in (1, -1))
    z_toward, z_away = (beam.f * axis.place(b) for b in (toward, away))
    full = z_away - z_toward
    blurs = axis.condition(toward), axis.condition(away)
    blur_of_full = (abs(z_toward) * blurs[0] + abs(z_away) * blurs[1]) / full
    relative = full / (2 * beam.f)
    return {
        "toward_lens_z": z_toward,
        "toward_lens_z_ulp": budget(blurs[0]),
        "away_from_lens_z": z_away,
        "away_from_lens_z_ulp": budget(blurs[1]),
        "full": full,
        "full_ulp": budget(blur_of_full),
        "half_angle": beam.half_angle,
        "validity": beam.validity | flag_of_shift(relative),
        "brightest_z": beam.f * axis.place(brightest),
        "brightest_z_ulp": budget(axis.condition_of_brightest(brightest)),
        "clipping_ratio": beam.ratio,
        "relative_rayleigh_range": beam.relative_rayleigh_range,
        "relative_half_depth": relative,
        "relative_half_depth_ulp": budget(blur_of_full),
    }


def budget(condition):
    return int(ceil(DEPTH_ULP * condition))
