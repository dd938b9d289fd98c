"""A simple astigmatic beam: each axis is a beam of its own, with its waist at its own z.

The rms diameter sqrt((dx^2 + dy^2)/2) is again a parabola in z when squared. With t the full angle
of an axis,

  dx^2 + dy^2 = dx0^2 + dy0^2 + tx^2 (z - zx)^2 + ty^2 (z - zy)^2

is least at zc = (tx^2 zx + ty^2 zy)/(tx^2 + ty^2). ISO 11146-1 (from memory) for the rms diameter,
the limit of 0.87 for "circular" and the product rule of M2; the rest is derived here.

The irradiance on the axis is proportional to 1/(gx gy), g being an axis's growth. Its places of
zero slope, with A and B the Rayleigh ranges and z = zx + t (zy - zx), are the roots of

  2 t^3 - 3 t^2 + (1 + (A/s)^2 + (B/s)^2) t - (A/s)^2 = 0,     s = zy - zx

all of which lie between the waists: one of them, or three if the waists are far apart.
"""

from dataclasses import dataclass

from mpmath import mpf, sqrt, workdps

from checks import NEAR, TooClose, computed, exceeds, number
from model_beam import Beam, widest_cone

# The brightest place can lie as near to a waist as 1e-38 of the separation.
ROOT_DIGITS = 150
# Closer than this to the separation at which one brightest place becomes two, the place moves as
# the cube root of the input: no row is drawn there.
NEAR_TRIPLE_ROOT = mpf(10) ** -4
CIRCULAR_ABOVE = mpf("0.87")


@dataclass
class Astigmatic:
    """Two axes with their waists at zx and zy."""

    x: Beam
    y: Beam
    zx: mpf
    zy: mpf

    @property
    def separation(self):
        return self.zy - self.zx

    @property
    def cone(self):
        """Greatest half angle of both axes, and the flags."""
        return widest_cone((self.x, self.y))

    def growths(self, z):
        return self.x.growth(z - self.zx), self.y.growth(z - self.zy)

    def dimming(self, z):
        """Square of the loss of irradiance, less one: gx^2 gy^2 - 1, without cancellation."""
        a = ((z - self.zx) / self.x.rayleigh_range) ** 2
        b = ((z - self.zy) / self.y.rayleigh_range) ** 2
        return a + b + a * b

    @property
    def equal_ranges(self):
        """Whether both Rayleigh ranges are the same number, asked without pi: exact."""
        return self.x.waist_diameter**2 * self.y.m2 == self.y.waist_diameter**2 * self.x.m2


def checked_axis(row, wavelength, axis):
    beam = Beam(
        wavelength,
        number(f"M squared in {axis}", row[f"m2_{axis}"]),
        number(f"waist diameter in {axis}", row[f"waist_diameter_{axis}"]),
    )
    computed(f"divergence half angle in {axis}", beam.half_angle)
    return beam, number(f"waist z in {axis}", row[f"waist_z_{axis}"])


def checked_astigmatic(row):
    """The astigmatic beam of a row: wavelength, then all of x, then all of y."""
    wavelength = number("wavelength", row["wavelength"])
    x, zx = checked_axis(row, wavelength, "x")
    y, zy = checked_axis(row, wavelength, "y")
    return Astigmatic(x, y, zx, zy)


def root_between(function, slope, low, high):
    """Root of a function that is monotone from `low` to `high` and changes sign there.

    Newton's step where it stays inside the bracket and shrinks it fast, halving otherwise.
    """
    rising = function(high) > 0
    point = (low + high) / 2
    while True:
        value = function(point)
        if value == 0:
            return point
        if (value > 0) == rising:
            high = point
        else:
            low = point
        gradient = slope(point)
        step = point - value / gradient if gradient != 0 else low
        if not low < step < high:
            step = (low + high) / 2
        if abs(step - point) <= abs(step) * mpf(10) ** (30 - ROOT_DIGITS):
            return step
        point = step


def still_places(beam):
    """Every z at which the irradiance on the axis has zero slope, from t = 0 to t = 1.

    The first and last are bright places, the one between them (if any) is a dip.
    """
    s = beam.separation
    if s == 0:
        return [beam.zx]
    a2 = (beam.x.rayleigh_range / s) ** 2
    b2 = (beam.y.rayleigh_range / s) ** 2
    if all(abs(2 * sqrt(q) - 1) < NEAR_TRIPLE_ROOT for q in (a2, b2)):
        raise TooClose

    def cubic(t):
        return ((2 * t - 3) * t + 1 + a2 + b2) * t - a2

    def slope(t):
        return (6 * t - 6) * t + 1 + a2 + b2

    turn = (3 - 2 * (1 + a2 + b2)) / 12
    ends = [mpf(0), mpf(1)]
    if turn > 0:
        ends = [mpf(0), mpf(1) / 2 - sqrt(turn), mpf(1) / 2 + sqrt(turn), mpf(1)]
    roots = []
    for low, high in zip(ends, ends[1:]):
        if cubic(low) * cubic(high) < 0:
            roots.append(root_between(cubic, slope, low, high))
    if beam.equal_ranges:
        # By symmetry; not left to the last digit of the iteration, since z may be exactly zero.
        roots[len(roots) // 2] = mpf(1) / 2
    return [beam.zx + t * s for t in roots]


def brightest_place(beam, places):
    """The place of greatest irradiance; of two that are equal, the one at the smaller z."""
    first, last = places[0], places[-1]
    if beam.equal_ranges:
        return min(first, last)
    if len(places) == 1:
        return first
    low, high = 1 + beam.dimming(first), 1 + beam.dimming(last)
    if abs(low - high) <= NEAR * high:
        raise TooClose
    return first if low < high else last


def astigmatic_parameters(row):
    with workdps(ROOT_DIGITS):
        beam = checked_astigmatic(row)
        ax, ay = beam.x.rayleigh_range, beam.y.rayleigh_range
        # Squares of the full angles, less the factor that both share.
        tx = (beam.x.m2 * beam.y.waist_diameter) ** 2
        ty = (beam.y.m2 * beam.x.waist_diameter) ** 2
        effective_z = (tx * beam.zx + ty * beam.zy) / (tx + ty)
        dx, dy = beam.x.diameter(effective_z - beam.zx), beam.y.diameter(effective_z - beam.zy)
        effective_diameter = rms(dx, dy)
        effective_angle = rms(2 * beam.x.half_angle, 2 * beam.y.half_angle)
        brightest = brightest_place(beam, still_places(beam))
        return {
            "rayleigh_range_x": ax,
            "rayleigh_range_y": ay,
            "waist_separation": beam.separation,
            "relative_astigmatism": abs(beam.separation) / ((ax + ay) / 2),
            "m2_effective": sqrt(beam.x.m2 * beam.y.m2),
            "effective_waist_z": effective_z,
            "effective_waist_diameter": effective_diameter,
            "effective_rayleigh_range": effective_diameter / effective_angle,
            "brightest_z": brightest,
            "brightest_irradiance_ratio": 1 / sqrt(1 + beam.dimming(brightest)),
            **beam.cone,
        }


def rms(a, b):
    return sqrt((a**2 + b**2) / 2)


def astigmatic_at(row):
    beam = checked_astigmatic(row)
    z = number("z", row["z"])
    dx, dy = beam.x.diameter(z - beam.zx), beam.y.diameter(z - beam.zy)
    ellipticity = min(dx, dy) / max(dx, dy)
    return {
        "diameter_x": dx,
        "diameter_y": dy,
        "ellipticity": ellipticity,
        "circular": int(exceeds(ellipticity, CIRCULAR_ABOVE)),
        "effective_diameter": rms(dx, dy),
        "equal_area_diameter": sqrt(dx * dy),
        **beam.cone,
    }


def astigmatic_defocus(row):
    beam = checked_astigmatic(row)
    gx, gy = beam.growths(number("z", row["z"]))
    return {
        "growth_x": gx,
        "growth_y": gy,
        "irradiance_ratio": 1 / (gx * gy),
        # A line is as wide as the spot across it.
        "line_dose_ratio_along_x": 1 / gy,
        "line_dose_ratio_along_y": 1 / gx,
        **beam.cone,
    }
