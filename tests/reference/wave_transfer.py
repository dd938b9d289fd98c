"""A converging wave in one plane, by its optical transfer function.

In units of the 1/e^2 radius w of the beam at the lens the field behind the lens is

  f(x) = e^(-x^2) e^(i(-beta x^2 + alpha x^4))    for x < X

The irradiance at the normalised radius v is the Fourier transform of the autocorrelation of f,

  T(s) = integral over the plane of f(r + s/2) f*(r - s/2)
       = integral over both discs of e^(-2r^2 - s^2/2) cos(2 x s (-beta + 2 alpha (r^2 + s^2/4)))

with x the part of r along s; partial coherence multiplies T(s) by e^(-sigma^2 s^2/2), where
sigma^2 = M^4 - 1 (Gaussian Schell model), and

  I(v) = (2/pi) integral of T(s) e^(-sigma^2 s^2/2) J0(v s) s ds            1 in an ideal focus, M2 = 1
  P(V) = integral of I(v) v dv from 0 to V = (2/pi) V integral of T(s) e^(-sigma^2 s^2/2) J1(V s) ds

so that P counts the power before the aperture as one. All is Gauss-Legendre in smooth variables:

  s = 2 X cos(chi), y = X sin(phi), x from 0 to X cos(phi) - s/2     with an aperture
  r from 0 to 4.5, the angle done as J0                              without

J. W. Goodman, Introduction to Fourier Optics (transfer function of an aberrated pupil), and L. Mandel
and E. Wolf, Optical Coherence and Quantum Optics (Gaussian Schell model), both from memory;
check_wave.py compares with the direct integral at 30 digits and with exact laws.
"""

import math
from functools import cache

import numpy
from mpmath import acos

from checks import TooClose
from doubles import bessel, cosine, exponential, gauss_legendre, sine, sum_last

# e^(-x^2) < 2e-17 from here on: as good as no aperture.
UNCLIPPED = 6.2
# e^(-2 r^2) < 3e-18, and e^(-s^2/2) < 4e-18.
_FAR_R = 4.5
_FAR_S = 9.0
_NODES_OF_PANEL = 12
# Panels are added, in each direction, until more change nothing above this.
TOLERANCE = 1e-14
_MOST_TERMS = 4_000_000


def nodes(panels, least, greatest):
    """Gauss-Legendre nodes and weights of so many equal panels; the ends may be arrays, then the
    nodes are the last axis."""
    x, w = _unit(panels)
    span = (numpy.asarray(greatest) - numpy.asarray(least))[..., None]
    return numpy.asarray(least)[..., None] + span * x, span * w


@cache
def _unit(panels):
    """On 0 to 1."""
    x, w = gauss_legendre(_NODES_OF_PANEL)
    starts = numpy.arange(panels)[:, None] / panels
    return (starts + (0.5 * (1.0 + x)) / panels).ravel(), numpy.tile(0.5 * w / panels, panels)


class TooCostly(TooClose):
    """So many nodes that the row is not worth them; draw another."""


class Transfer:
    """T(s) at fixed nodes, ready for any beta: everything that does not hang on beta."""

    def __init__(self, m2, ratio, alpha, sizes):
        self.unclipped = ratio >= UNCLIPPED
        along_s, along_y, along_x = sizes
        widest = _FAR_S / m2
        if self.unclipped:
            self.s, self.weight_s = nodes(along_s, 0.0, widest)
            r, weight = nodes(along_x, 0.0, _FAR_R)
            r2 = (r * r)[None, :]
            self.amplitude = (2.0 * math.pi * r * weight * exponential(-2.0 * r * r))[None, :]
            self.slope = 2.0 * self.s[:, None] * r[None, :]
        else:
            least = float(acos(widest / (2.0 * ratio))) if widest < 2.0 * ratio else 0.0
            chi, weight = nodes(along_s, least, 0.5 * math.pi)
            self.s = 2.0 * ratio * cosine(chi)
            self.weight_s = 2.0 * ratio * sine(chi) * weight
            # arccos(s/2X) is chi itself.
            phi, weight_y = nodes(along_y, numpy.zeros_like(chi), chi)
            y, step = ratio * sine(phi), ratio * cosine(phi)
            reach = numpy.minimum(step - 0.5 * self.s[:, None], _FAR_R)
            x, weight_x = nodes(along_x, numpy.zeros_like(reach), reach)
            r2 = x * x + (y * y)[..., None]
            # Four quadrants alike.
            fall = exponential(-numpy.minimum(2.0 * r2, 600.0))
            both = 4.0 * (step * weight_y)[..., None] * weight_x * fall
            rows = len(self.s)
            self.amplitude = both.reshape(rows, -1)
            self.slope = (2.0 * self.s[:, None, None] * x).reshape(rows, -1)
            r2 = r2.reshape(rows, -1)
        self.offset = self.slope * (2.0 * alpha * (r2 + (0.25 * self.s * self.s)[:, None]))
        # (2/pi) e^(-s^2/2) e^(-sigma^2 s^2/2)
        self.share = self.weight_s * (2.0 / math.pi) * exponential(-0.5 * (m2 * m2) * self.s * self.s)

    def plane(self, beta, slope=False):
        """The wave in the plane beta; with `slope` also its derivative by beta."""
        phase = self.offset - self.slope * beta
        if self.unclipped:
            values = bessel(0, phase)
            changes = bessel(1, phase) * self.slope if slope else None
        else:
            values = cosine(phase)
            changes = sine(phase) * self.slope if slope else None
        t = self.share * sum_last(self.amplitude * values)
        dt = self.share * sum_last(self.amplitude * changes) if slope else None
        return Plane(self.s, t, dt)


class Plane:
    """Irradiance and power over the normalised radius v in one plane."""

    def __init__(self, s, t, dt):
        self.s = s
        self.t = t
        self.ts = t * s
        self.dt = dt

    def irradiance(self, v):
        """I at one v, or at an array of them."""
        v = numpy.asarray(v, dtype=float)
        return sum_last(self.ts * bessel(0, v[..., None] * self.s))

    def irradiance_slope(self, v):
        """dI/dv"""
        return -float(sum_last(self.ts * self.s * bessel(1, v * self.s)))

    def power(self, v):
        return v * float(sum_last(self.t * bessel(1, v * self.s)))

    def power_change(self, v):
        """dP/dbeta"""
        return v * float(sum_last(self.dt * bessel(1, v * self.s)))

    def axis_change(self):
        """dI/dbeta on the axis"""
        return float(sum_last(self.dt * self.s))


class Wave:
    """A wave that is good to the tolerance, a share of its ideal focus, in planes between the least
    and the greatest of `betas`, at radii up to `most_v`."""

    def __init__(self, m2, ratio, alpha, betas, most_v, tolerance=TOLERANCE):
        self.m2 = m2
        self.ratio = ratio
        self.alpha = alpha
        self.betas = betas
        self.radii = numpy.array([0.0, 0.13, 0.31, 0.55, 0.83, 1.0]) * most_v
        sizes = [2, 1, 2]
        self.transfer, seen = self._seen(sizes)
        settled = set() if ratio < UNCLIPPED else {1}
        while len(settled) < 3:
            for direction in {0, 1, 2} - settled:
                more = list(sizes)
                more[direction] += max(1, more[direction] // 2)
                transfer, finer = self._seen(more)
                change = float(numpy.max(numpy.abs(finer - seen)))
                if change < tolerance / (m2 * m2):
                    # These were enough already; more of them proved it.
                    settled.add(direction)
                else:
                    sizes, self.transfer, seen = more, transfer, finer
                    settled -= {0, 2} - {direction}

    def _seen(self, sizes):
        terms = _NODES_OF_PANEL**2 * sizes[0] * sizes[2]
        if self.ratio < UNCLIPPED:
            terms *= _NODES_OF_PANEL * sizes[1]
        if terms > _MOST_TERMS:
            raise TooCostly
        transfer = Transfer(self.m2, self.ratio, self.alpha, sizes)
        found = []
        for beta in self.betas:
            plane = transfer.plane(beta)
            found += [plane.irradiance(self.radii), numpy.array([plane.power(float(v)) for v in self.radii])]
        return transfer, numpy.concatenate(found)

    def plane(self, beta, slope=False):
        return self.transfer.plane(beta, slope)
