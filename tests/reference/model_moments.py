"""Second moments of a beam in one plane: how optics change them.

With x the distance from the axis and a the angle of the rays, both in one plane,

  V = <x^2>    T = <x a>    E = <a^2>

  diameter at this place   4 sqrt(V)         curvature of the wavefront   T/V, + diverging
  M2                       (4 pi/lambda) sqrt(V E - T^2)
  waist diameter           4 sqrt(V - T^2/E)
  Rayleigh range           sqrt(V E - T^2)/E
  from here to the waist   -T/E, + downstream

A ray matrix [A B; C D] turns (x, a) into (A x + B a, C x + D a), and the moments accordingly.

A wavefront error C4 r^4, r^2 = x^2 + y^2, as a delay that makes the edge converge more, bends the rays
of one plane by -4 C4 r^2 x. With a Gaussian profile, sx^2 = Vx and sy^2 = Vy,

  <x^2 r^2> = 3 sx^4 + sx^2 sy^2      <x^2 r^4> = 15 sx^6 + 6 sx^4 sy^2 + 3 sx^2 sy^4

and the angle a of the rays enters as its mean at x, (T/V) x; what spreads about that mean is not
touched. Siegman, Proc. SPIE 1868, 2 (1993) (from memory); moments of a Gaussian elementary.

The squares of large numbers are subtracted here: the digits carried are many.
"""

from dataclasses import dataclass
from functools import cached_property

from mpmath import mp, mpf, pi, sqrt, workdps

DIGITS = 200


@dataclass
class Plane:
    """The moments of one plane."""

    wavelength: mpf
    v: mpf
    t: mpf
    e: mpf

    @cached_property
    def _determinant(self):
        return self.v * self.e - self.t**2

    @cached_property
    def m2(self):
        return 4 * pi / self.wavelength * sqrt(self._determinant)

    @cached_property
    def diameter(self):
        return 4 * sqrt(self.v)

    @cached_property
    def curvature(self):
        return self.t / self.v

    @cached_property
    def waist_diameter(self):
        return 4 * sqrt(self._determinant / self.e)

    @cached_property
    def rayleigh_range(self):
        return sqrt(self._determinant) / self.e

    @cached_property
    def to_waist(self):
        return -self.t / self.e

    @cached_property
    def half_angle(self):
        return 2 * sqrt(self.e)

    def through(self, a, b, c, d):
        """Behind the optics of this ray matrix."""
        return Plane(
            self.wavelength,
            a**2 * self.v + 2 * a * b * self.t + b**2 * self.e,
            a * c * self.v + (a * d + b * c) * self.t + b * d * self.e,
            c**2 * self.v + 2 * c * d * self.t + d**2 * self.e,
        )

    def after_space(self, length):
        return self.through(1, length, 0, 1)

    def of_quality(self, m2):
        """The same size and curvature, with this M2."""
        determinant = (m2 * self.wavelength / (4 * pi)) ** 2
        return Plane(self.wavelength, self.v, self.t, (determinant + self.t**2) / self.v)

    def after_lens(self, power):
        return self.through(1, 0, -power, 1)

    def aberrated(self, c4, other_v):
        """Behind a wavefront error C4 r^4; `other_v` is <y^2> of the other plane."""
        x2, y2 = self.v, other_v
        x2r2 = 3 * x2**2 + x2 * y2
        x2r4 = 15 * x2**3 + 6 * x2**2 * y2 + 3 * x2 * y2**2
        return Plane(
            self.wavelength,
            self.v,
            self.t - 4 * c4 * x2r2,
            self.e - 8 * c4 * self.curvature * x2r2 + 16 * c4**2 * x2r4,
        )


def plane_of(beam, behind_waist):
    """The moments of a beam at this distance behind its waist, + downstream."""
    size = beam.waist_diameter**2 / 16
    angle = (beam.half_angle / 2) ** 2
    return Plane(beam.wavelength, size + angle * behind_waist**2, angle * behind_waist, angle)


def many_digits():
    return workdps(max(DIGITS, mp.dps))
