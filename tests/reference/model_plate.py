"""A flat plate in a focused beam, and a focus inside a transparent part.

A ray at the angle A to the normal goes on at B in the medium, sin A = n sin B. A plate of thickness t
then shifts its crossing with the axis by t (1 - tan B/tan A), t (1 - 1/n) for small angles; a part whose
face stands dz before the focus in air takes the crossing to the depth dz tan A/tan B, n dz for small
angles. The quartic part of the difference in path, in radians at the angle A, is

  alpha = -(2 pi/lambda) t (n^2 - 1)/(8 n^3) A^4

`agreement.py` finds it from the exact path.
"""

from mpmath import asin, mpf, pi, sin, tan

from checks import TooClose, computed_at_most, number
from model_beam import checked_beam, widest_cone
from model_singlet import flags_of_aberration


# Of thinner plates the aberration and its parts are below the smallest double: no row is drawn.
LEAST_THICKNESS = mpf(10) ** -250


def plate_phase(beam, t, n):
    alpha = -2 * pi / beam.wavelength * t * (n**2 - 1) / (8 * n**3) * beam.half_angle**4
    if 0 < t < LEAST_THICKNESS:
        raise TooClose
    computed_at_most("aberration phase", abs(alpha))
    return alpha


def tangents(beam, n):
    outside = beam.half_angle
    return tan(outside), tan(asin(sin(outside) / n))


def focus_behind_plate(row):
    beam = checked_beam(row)
    t = number("thickness", row["thickness"])
    n = number("refractive index", row["index"])
    alpha = plate_phase(beam, t, n)
    outside, inside = tangents(beam, n)
    normalised = abs(alpha) / beam.m2
    return {
        "focus_shift": t * (1 - 1 / n),
        "edge_focus_shift": t * (1 - inside / outside),
        "aberration_phase": alpha,
        "normalised_aberration": normalised,
        **widest_cone([beam], flags_of_aberration(normalised)),
    }


def focus_inside(row):
    beam = checked_beam(row)
    lowered = number("lens lowered by", row["lens_lowered_by"])
    n = number("refractive index", row["index"])
    depth = n * lowered
    alpha = plate_phase(beam, depth, n)
    outside, inside = tangents(beam, n)
    normalised = abs(alpha) / beam.m2
    return {
        "depth": depth,
        "edge_depth": lowered * outside / inside,
        "rayleigh_range": n * beam.rayleigh_range,
        "aberration_phase": alpha,
        "normalised_aberration": normalised,
        **widest_cone([beam], flags_of_aberration(normalised)),
    }
