"""The rigorous focus of a clipped, aberrated, partially coherent beam, in any plane.

With w = D/2 the 1/e^2 radius at the lens, k0 = 2 pi/lambda, ZL = pi w^2/lambda, L the distance from
the lens to where the unaberrated wave would converge, and a plane at the distance l = L + z:

  X    = clear aperture / D
  beta = ZL (1/l - 1/L) = -ZL z/(L l)      normalised defocus, + toward the lens
  v    = k0 w rho / l                      normalised radius
  ratio of irradiance to that of the ideal focus of the same M2 = M^4 (L/l)^2 I(v)

and I(v), P(v) as in wave_transfer.py. Where beta is wanted as a function of z, L/l = 1 + beta L/ZL.

The planes of best focus are roots of derivatives, not minima felt for: with V(beta) the radius that
holds the share 1 - e^-2 of the transmitted power, P(V) constant gives V' = -(dP/dbeta)/(I V).

The numbers are doubles, good to 1e-13 of the ideal focus in irradiance and power; they are written
with all their digits. The bound `error` on the library's own numerical error has no exact value
and is written as 0.
"""

import math
from dataclasses import dataclass
from functools import cached_property

import numpy
from mpmath import exp, expm1, isinf, mpf, nan, pi, sqrt

from checks import (
    OUTSIDE_MODEL,
    UNKNOWN_CHOICE,
    UNREACHABLE,
    Refused,
    TooClose,
    choice,
    clear_aperture,
    computed,
    exceeds,
    number,
    number_within,
)
from model_beam import CAUTION_HALF_ANGLE, WIDE_CONE
from model_depth import BLAMED, GROWTH, IRRADIANCE_DROP, LARGEST_DIAMETER, LINE_DOSE_DROP, criterion_number
from wave_transfer import TOLERANCE, UNCLIPPED
from wave_transfer import Wave as Normalised

PEAK, POWER86, SECOND_MOMENT = 1, 2, 3
ONE_OVER_E2 = float(exp(mpf(-2)))
GREATEST_BETA = 30.0
# A closed form of the second moment holds from here on.
UNCLIPPED_MOMENT = 5
# Irradiance that the library may be off, over that of the ideal focus; and the least ulp allowed.
ALLOWED_IRRADIANCE = 2e-12
LEAST_ULP = 50
# Least L/l at which a plane is looked for.
LEAST_STRETCH = 0.05
# Least ratios and shares for which a relative error means something.
FAINT_ON_AXIS = 0.02
FAINT_IN_MAP = 0.02
FAINT_SHARE = 0.02
# Two planes so nearly as good as each other are not told apart; nor is a ring so near a threshold.
NEARLY_AS_GOOD = 0.02


@dataclass
class Wave:
    """A converging wave; exact numbers."""

    wavelength: mpf
    m2: mpf
    diameter: mpf
    aperture: mpf
    focus: mpf
    alpha: mpf

    @property
    def ratio(self):
        return self.aperture / self.diameter

    @property
    def half_angle(self):
        return min(self.diameter, self.aperture) / (2 * self.focus)

    @property
    def lens_range(self):
        """ZL"""
        return pi * self.diameter**2 / (4 * self.wavelength)

    @property
    def cone(self):
        wide = exceeds(self.half_angle, CAUTION_HALF_ANGLE)
        return {"half_angle": self.half_angle, "validity": WIDE_CONE if wide else 0}

    @property
    def ideal_diameter(self):
        return 4 * self.m2 * self.wavelength * self.focus / (pi * self.diameter)

    @property
    def transmitted(self):
        return mpf(1) if isinf(self.ratio) else -expm1(-2 * self.ratio**2)

    @property
    def power86(self):
        """What the 86.5 % circle holds, over the power before the aperture."""
        return (1 - exp(mpf(-2))) * self.transmitted

    @cached_property
    def tilt(self):
        """L/ZL"""
        return float(self.focus / self.lens_range)

    def beta(self, z):
        """Normalised defocus of a plane; refused where there is no such plane, or too far off."""
        distance = self.focus + z
        if not exceeds(distance / self.focus + 1, 1):
            raise Refused(OUTSIDE_MODEL, "normalised defocus")
        return computed("normalised defocus", -self.lens_range * z / (self.focus * distance))

    def z(self, beta):
        beta = mpf(beta)
        return -beta * self.focus**2 / (self.lens_range + beta * self.focus)

    def v(self, radius, z):
        v = pi * self.diameter * radius / (self.wavelength * (self.focus + z))
        if v > 0:
            computed("normalised radius", v / 2)
        return v

    def diameter_of(self, v, z):
        """The diameter in a plane of the circle with the normalised radius v."""
        return 2 * mpf(v) * self.wavelength * (self.focus + z) / (pi * self.diameter)

    def irradiance_ratio(self, irradiance, z):
        return mpf(irradiance) * self.m2**2 * (self.focus / (self.focus + z)) ** 2

    def normalised(self, betas, most_v, tolerance=TOLERANCE):
        ratio = min(float(self.ratio), 2 * UNCLIPPED)
        return Normalised(float(self.m2), ratio, float(self.alpha), sorted(set(betas)), most_v, tolerance)

    def spread(self, beta, widest=2.2):
        """A normalised radius that holds nearly all the power, or all that passes the lens inside
        the radius `widest`, in a plane."""
        x = numpy.linspace(0.0, min(float(self.ratio), widest), 23)
        rays = numpy.abs(-2.0 * beta * x + 4.0 * float(self.alpha) * x**3)
        return float(rays.max()) + 6.0 * float(self.m2) + 8.0 / min(float(self.ratio), 2.0)


def checked_wave(row):
    """The wave of a row: its numbers in order, then how it is clipped, then its cone."""
    wave = Wave(
        number("wavelength", row["wavelength"]),
        number_within("M squared", row["m2"], 1.0, 5.0),
        number("diameter at lens", row["diameter_at_lens"]),
        clear_aperture(row["clear_aperture"]),
        number("lens to focus", row["lens_to_focus"]),
        number_within("aberration phase", row["aberration_phase"], -6.0, 6.0),
    )
    if not isinf(wave.ratio):
        computed("clipping ratio", wave.ratio)
    computed("divergence half angle", wave.half_angle)
    return wave


def checked_place(row, wave):
    """Radius and z of a row, and their normalised values."""
    radius = number("radius", row["radius"])
    z = number("z", row["z"])
    beta = wave.beta(z)
    return z, float(beta), float(wave.v(radius, z))


def ulp_of(value):
    return mpf(math.ulp(float(value)))


def wave_irradiance(row):
    wave = checked_wave(row)
    z, beta, v = checked_place(row, wave)
    plane = wave.normalised([beta], max(v, 1.0)).plane(beta)
    ratio = wave.irradiance_ratio(float(plane.irradiance(v)), z)
    scale = 8 / (pi * wave.ideal_diameter**2)
    # An error of ALLOWED_IRRADIANCE passes and no more, however dark the place.
    allowed = [max(LEAST_ULP, int(ALLOWED_IRRADIANCE * s / ulp_of(ratio * s))) for s in (mpf(1), scale)]
    return {
        "irradiance_ratio": ratio,
        "irradiance_per_watt": ratio * scale,
        "error": 0,
        **wave.cone,
        "irradiance_ratio_ulp": allowed[0],
        "irradiance_per_watt_ulp": allowed[1],
    }


def wave_power(row):
    wave = checked_wave(row)
    z, beta, v = checked_place(row, wave)
    share = mpf(wave.normalised([beta], max(v, 1.0)).plane(beta).power(v))
    if 0 < v and share < FAINT_SHARE * wave.transmitted and v > 1e-100:
        raise TooClose
    return {
        "share": share,
        "share_of_transmitted": share / wave.transmitted,
        "error": 0,
        **wave.cone,
    }


def wave_map(row):
    wave = checked_wave(row)
    radii = [number("radius", row[f"radius{i}"]) for i in (1, 2, 3)]
    planes = [number("z", row[f"z{i}"]) for i in (1, 2)]
    betas = [float(wave.beta(z)) for z in planes]
    places = [[float(wave.v(radius, z)) for radius in radii] for z in planes]
    normalised = wave.normalised(betas, max(1.0, *places[0], *places[1]))
    found = {"error": 0, **wave.cone}
    for i, (z, beta, row_of_v) in enumerate(zip(planes, betas, places), start=1):
        for j, irradiance in enumerate(normalised.plane(beta).irradiance(row_of_v), start=1):
            ratio = wave.irradiance_ratio(float(irradiance), z)
            if ratio < FAINT_IN_MAP:
                raise TooClose
            found[f"irradiance{i}{j}"] = ratio
    return found


def root(f, a, b):
    """A root of f between a and b, where it changes sign, to the last bits: secants that keep it
    between two ends (Illinois)."""
    fa, fb = f(a), f(b)
    if fa * fb > 0.0:
        raise TooClose
    for _ in range(100):
        if fa == 0.0 or a == b:
            return a
        if fb == 0.0:
            return b
        c = b - fb * (b - a) / (fb - fa)
        if not min(a, b) < c < max(a, b):
            return b
        fc = f(c)
        if fc * fb < 0.0:
            a, fa = b, fb
        else:
            fa *= 0.5
        settled = abs(c - b) <= 1e-15 * abs(c)
        b, fb = c, fc
        if settled:
            return b
    return b


def radius_for(plane, target, guess):
    """The normalised radius that holds this power."""
    least, most = 0.0, guess
    while plane.power(most) < target:
        least, most = most, 1.3 * most
    return root(lambda v: plane.power(v) - target, least, most)


def brightest_in(plane, radii, irradiances):
    """The greatest irradiance of a plane, on the axis or on a ring."""
    at = int(numpy.argmax(irradiances))
    if at == 0:
        return float(irradiances[0])
    if at == len(radii) - 1:
        raise TooClose
    if at == 1:
        # So small a ring may be no ring.
        raise TooClose
    return float(plane.irradiance(root(plane.irradiance_slope, float(radii[at - 1]), float(radii[at + 1]))))


def outermost(plane, radii, irradiances, level):
    """The outermost radius at which the irradiance falls through a level."""
    above = numpy.nonzero(irradiances > level)[0]
    at = int(above[-1])
    if at == len(radii) - 1:
        raise TooClose
    inner = irradiances[1:-1]
    extreme = (inner - irradiances[:-2]) * (inner - irradiances[2:]) > 0.0
    if numpy.any(numpy.abs(inner[extreme] / level - 1.0) < NEARLY_AS_GOOD):
        raise TooClose
    return root(lambda v: float(plane.irradiance(v)) - level, float(radii[at]), float(radii[at + 1]))


def wave_widths(row):
    wave = checked_wave(row)
    z = number("z", row["z"])
    beta = float(wave.beta(z))
    most_v = wave.spread(beta)
    plane = wave.normalised([beta], most_v).plane(beta)
    # The irradiance has no detail finer than its band limit, the greatest s.
    steps = math.ceil(most_v * float(plane.s.max()) * 3.0)
    radii = numpy.arange(steps + 1) * (most_v / steps)
    irradiances = plane.irradiance(radii)
    peak = brightest_in(plane, radii, irradiances)
    target = float(wave.power86)
    on_axis = wave.irradiance_ratio(float(irradiances[0]), z)
    if on_axis < FAINT_ON_AXIS:
        raise TooClose
    return {
        "irradiance_ratio": on_axis,
        "diameter_1e2": wave.diameter_of(outermost(plane, radii, irradiances, peak * ONE_OVER_E2), z),
        "fwhm": wave.diameter_of(outermost(plane, radii, irradiances, peak * 0.5), z),
        "diameter_power86": wave.diameter_of(radius_for(plane, target, 2.0 * float(wave.m2)), z),
        "transmitted": wave.transmitted,
        "error": 0,
        **wave.cone,
    }


class Focus:
    """The wave about its best focus, as a function of beta between two ends."""

    # Planes searched for the best focus, on the side to which an aberration draws it.
    LEAST, GREATEST, STEP = -3.0, 8.0, 0.5
    # Enough to tell in which step something lies.
    ROUGH = 1e-6

    def __init__(self, wave, by_axis, ends, tolerance):
        self.wave = wave
        self.by_axis = by_axis
        self.target = float(wave.power86)
        self.ends = min(ends), max(ends)
        self.tolerance = tolerance
        if self.stretch(self.ends[0]) < LEAST_STRETCH:
            raise TooClose
        # 95 % of the power and more passes inside 1.25 w.
        most_v = 1.0 if by_axis else max(wave.spread(beta, 1.25) for beta in self.ends)
        self.normalised = wave.normalised(self.ends, most_v, tolerance)

    def between(self, a, b):
        """The same in full accuracy, between two planes."""
        return Focus(self.wave, self.by_axis, (a, b), TOLERANCE)

    def covers(self, beta):
        return self.ends[0] <= beta <= self.ends[1]

    def widened(self, beta):
        """The same with a plane beyond this one."""
        beyond = max(-GREATEST_BETA, min(GREATEST_BETA, 1.5 * beta))
        ends = min(self.ends[0], beyond), max(self.ends[1], beyond)
        return Focus(self.wave, self.by_axis, ends, self.tolerance)

    def stretch(self, beta):
        """L/l"""
        return 1.0 + beta * self.wave.tilt

    def on_axis(self, beta):
        plane = self.normalised.plane(beta)
        return self.stretch(beta) ** 2 * float(plane.irradiance(0.0))

    def v86(self, beta, slope=False):
        plane = self.normalised.plane(beta, slope)
        v = radius_for(plane, self.target, 2.0 * float(self.wave.m2))
        return (plane, v) if slope else v

    def size(self, beta):
        """The 86.5 % diameter but for a constant factor."""
        return self.v86(beta) / self.stretch(beta)

    def quality(self, beta):
        """What is least in the best plane, with a logarithm's slope."""
        return 1.0 / self.on_axis(beta) if self.by_axis else self.size(beta)

    def slope(self, beta):
        """Derivative by beta of the logarithm of the irradiance on the axis, or of the diameter."""
        turn = self.wave.tilt / self.stretch(beta)
        if self.by_axis:
            plane = self.normalised.plane(beta, True)
            return plane.axis_change() / float(plane.irradiance(0.0)) + 2.0 * turn
        plane, v = self.v86(beta, True)
        return -plane.power_change(v) / (float(plane.irradiance(v)) * v * v) - turn


def searched(wave, by_axis):
    """A rough view of the planes that are searched, and beta of the best, which no other plane
    comes near."""
    forward = -1.0 if wave.alpha < 0 else 1.0
    steps = round((Focus.GREATEST - Focus.LEAST) / Focus.STEP)
    betas = [forward * (Focus.LEAST + Focus.STEP * k) for k in range(steps + 1)]
    focus = Focus(wave, by_axis, (betas[0], betas[-1]), Focus.ROUGH)
    qualities = [focus.quality(beta) for beta in betas]
    at = qualities.index(min(qualities))
    if at in (0, len(qualities) - 1):
        raise TooClose
    for i in range(1, len(qualities) - 1):
        valley = qualities[i] <= min(qualities[i - 1], qualities[i + 1])
        if valley and i != at and qualities[i] < (1.0 + NEARLY_AS_GOOD) * qualities[at]:
            raise TooClose
    fine = focus.between(betas[at - 1], betas[at + 1])
    return focus, root(fine.slope, betas[at - 1], betas[at + 1])


def second_moment_plane(wave):
    """z of the least second moment: an ideal lens of power 1/L + 4 C4 w^2 on a beam of M2 M'."""
    m = sqrt(wave.m2**2 + 2 * wave.alpha**2)
    curvature = 1 / wave.focus + 2 * wave.alpha / wave.lens_range
    return curvature / (curvature**2 + (m / wave.lens_range) ** 2) - wave.focus


def wave_focus(row):
    measure = choice("focus measure", row["focus_measure"])
    wave = checked_wave(row)
    unclipped = isinf(wave.ratio) or exceeds(wave.ratio, UNCLIPPED_MOMENT)
    if measure == SECOND_MOMENT:
        if not unclipped:
            raise Refused(OUTSIDE_MODEL, "clipping ratio")
        z = second_moment_plane(wave)
        beta = float(wave.beta(z))
    else:
        _, beta = searched(wave, measure == PEAK)
        z = wave.z(beta)
    plane = wave.normalised([beta], wave.spread(beta)).plane(beta)
    v86 = radius_for(plane, float(wave.power86), 2.0 * float(wave.m2))
    exact = wave.beta(z)
    moment = wave.m2**2 + 2 * wave.alpha**2 + (exact - 2 * wave.alpha) ** 2
    ratio = wave.irradiance_ratio(float(plane.irradiance(0.0)), z)
    if ratio < FAINT_ON_AXIS:
        raise TooClose
    return {
        "z": z,
        "irradiance_ratio": ratio,
        "diameter_power86": wave.diameter_of(v86, z),
        "diameter_d4sigma": wave.diameter_of(2 * sqrt(moment), z) if unclipped else nan,
        "error": 0,
        **wave.cone,
    }


def wave_depth_of_focus(row):
    criterion = choice("depth criterion", row["criterion"])
    if criterion == LINE_DOSE_DROP:
        raise Refused(UNKNOWN_CHOICE, "depth criterion")
    wave = checked_wave(row)
    value = criterion_number(row, criterion)
    focus, best = searched(wave, criterion == IRRADIANCE_DROP)
    z = wave.z(best)
    limit = allowed_quality(focus, best, criterion, value)
    ends = [depth_end(focus, best, limit, side) for side in (1.0, -1.0)]
    toward, away = (wave.z(beta) - z for beta in ends)
    return {
        "best_z": z,
        "toward_lens_z": toward,
        "away_from_lens_z": away,
        "full": away - toward,
        "error": 0,
        **wave.cone,
    }


def allowed_quality(focus, best, criterion, value):
    """The greatest `Focus.quality` that still counts as in focus."""
    least = focus.between(best, best).quality(best)
    if criterion == IRRADIANCE_DROP:
        return least / (1.0 - float(value))
    if criterion == LARGEST_DIAMETER:
        # quality is v L/l; the diameter follows as in Wave.diameter_of.
        wave = focus.wave
        limit = float(value * pi * wave.diameter / (2 * wave.wavelength * wave.focus))
        if exceeds(mpf(least), mpf(limit)):
            raise Refused(UNREACHABLE, BLAMED[criterion])
        return limit
    return least * (float(value) if criterion == GROWTH else math.sqrt(2.0))


def depth_end(focus, best, limit, side):
    """The first beta from the best plane to this side where the criterion fails."""
    step = 0.25 * float(focus.wave.m2)
    near = best
    while True:
        far = max(-GREATEST_BETA, min(GREATEST_BETA, near + side * step))
        if not focus.covers(far):
            focus = focus.widened(far)
        if focus.quality(far) > limit:
            break
        if abs(far) == GREATEST_BETA:
            raise Refused(OUTSIDE_MODEL, "normalised defocus")
        near = far
    # A second range, as far as this looks, is left to other tests.
    beyond = far + side * step
    while focus.covers(beyond):
        if focus.quality(beyond) <= limit:
            raise TooClose
        beyond += side * step
    fine = focus.between(near, far)
    return root(lambda beta: fine.quality(beta) / limit - 1.0, near, far)
