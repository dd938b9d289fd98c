"""A raw beam behind a beam expander, as seen from a lens further on.

The expander magnifies the diameter by m and the curvature of the wavefront by 1/m^2, and then converges
by its exit power: a telescope without length and a thin lens.
"""

from dataclasses import dataclass

from mpmath import mpf

from model_moments import many_digits, plane_of


@dataclass
class Expanded:
    """A round beam by its waist, and from the expander to that waist, + downstream."""

    waist_diameter: mpf
    rayleigh_range: mpf
    half_angle: mpf
    to_waist: mpf


def behind_expander(raw, waist_to_expander, magnification, exit_power):
    with many_digits():
        plane = plane_of(raw, waist_to_expander)
        plane = plane.through(magnification, 0, 0, 1 / magnification).after_lens(exit_power)
        return Expanded(plane.waist_diameter, plane.rayleigh_range, plane.half_angle, plane.to_waist)
