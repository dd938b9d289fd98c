#!/usr/bin/env python3
"""An exact ray trace of real, thick zinc selenide lenses against the thin third-order formula.

    python3 tests/reference/outside_rays.py [--out tests/tables/ray_trace.csv]

Needs nothing but Python. For each lens the two radii have the shape factor q that is named and make
the thick lens's focal length f. A ray parallel to the axis at the height w = D/2 is refracted at both
spheres by Snell's law, and its optical path to the sphere about the paraxial focus with radius f is
compared with that of the axial ray: W = path of the axis - path of the ray, + where the edge focuses
nearer the lens. The thin third-order formula says W = C4 w^4 with

  C4 = S/(32 f^3), S = ((n+2)/(n-1) q^2 - 4(n+1) q + (3n+2)(n-1) + n^3/(n-1))/(n(n-1))

for a distant source (W. J. Smith, Modern Optical Engineering, and others: textbook form, from memory).
"""

import argparse
from decimal import Decimal, getcontext
from math import pi
from pathlib import Path

getcontext().prec = 40

INDEX = Decimal("2.402781")  # zinc selenide at 10.6 um
WAVELENGTH = Decimal("10.6e-6")
FOCAL_LENGTHS = ("0.0381", "0.0508", "0.0635")
THICKNESSES = ("0.003", "0.004")
DIAMETERS = ("0.006", "0.010", "0.015")
BEST_FORM = 2 * (INDEX**2 - 1) / (INDEX + 2)
SHAPES = (("best-form", BEST_FORM), ("plano-convex", Decimal(1)), ("plano-convex-reversed", Decimal(-1)))
COLUMNS = (
    "shape",
    "index",
    "shape_factor",
    "focal_length_m",
    "centre_thickness_m",
    "first_curvature_per_m",
    "second_curvature_per_m",
    "diameter_at_lens_m",
    "wavefront_error_m",
    "third_order_m",
    "ratio",
    "aberration_phase_rad",
)


def curvatures(q, f, thickness):
    """Of both surfaces: shape factor q, focal length f of the thick lens; by bisection of the scale."""
    low, high = Decimal("0.5"), Decimal(2)

    def scaled(scale):
        thin = scale / (2 * f * (INDEX - 1))
        return (q + 1) * thin, (q - 1) * thin

    def power(scale):
        a, b = scaled(scale)
        return (INDEX - 1) * (a - b + (INDEX - 1) * thickness * a * b / INDEX)

    for _ in range(130):
        middle = (low + high) / 2
        low, high = (middle, high) if power(middle) < 1 / f else (low, middle)
    return scaled(low)


def to_sphere(y, z, sine, cosine, vertex, curvature):
    """Distance along a ray from (y, z) to a sphere through (0, vertex)."""
    z -= vertex
    # curvature/2 (y^2 + z^2) - z = 0 along the ray
    a = curvature * (y * sine + z * cosine) - cosine
    b = curvature * (y * y + z * z) - 2 * z
    root = (a * a - curvature * b).sqrt()
    return b / (root - a)


def refracted(y, z, sine, cosine, vertex, curvature, before, after):
    """Direction behind a sphere, by Snell's law in the plane of the ray and the axis."""
    # Unit normal along the light.
    normal_y, normal_z = -curvature * y, 1 - curvature * (z - vertex)
    along = sine * normal_y + cosine * normal_z
    ratio = before / after
    turned = (1 - ratio * ratio * (1 - along * along)).sqrt()
    push = turned - ratio * along
    return ratio * sine + push * normal_y, ratio * cosine + push * normal_z


def path(height, first, second, thickness, focus, f):
    """Optical path from the plane before the lens to the sphere of radius f about the focus."""
    y, z, sine, cosine = height, Decimal(0), Decimal(0), Decimal(1)
    total = Decimal(0)
    surfaces = ((Decimal(0), first, Decimal(1), INDEX), (thickness, second, INDEX, Decimal(1)))
    for vertex, curvature, before, after in surfaces:
        step = to_sphere(y, z, sine, cosine, vertex, curvature)
        y, z, total = y + step * sine, z + step * cosine, total + before * step
        sine, cosine = refracted(y, z, sine, cosine, vertex, curvature, before, after)
    total += to_sphere(y, z, sine, cosine, focus - f, 1 / f)
    return total


def back_focus(first, second, thickness):
    """Of a paraxial ray, from the first vertex to the focus."""
    slope = -(INDEX - 1) * first / INDEX
    height = 1 + thickness * slope
    return thickness - height / (INDEX * slope + (INDEX - 1) * second * height)


def third_order(q, f, w):
    n = INDEX
    s = ((n + 2) / (n - 1) * q * q - 4 * (n + 1) * q + (3 * n + 2) * (n - 1) + n**3 / (n - 1)) / (n * (n - 1))
    return s / (32 * f**3) * w**4


def lines():
    yield ",".join(COLUMNS)
    for shape, q in SHAPES:
        for focal_length in FOCAL_LENGTHS:
            for centre in THICKNESSES:
                for diameter in DIAMETERS:
                    f, thickness, w = Decimal(focal_length), Decimal(centre), Decimal(diameter) / 2
                    first, second = curvatures(q, f, thickness)
                    focus = back_focus(first, second, thickness)
                    axis, edge = (path(h, first, second, thickness, focus, f) for h in (Decimal(0), w))
                    error, thin = axis - edge, third_order(q, f, w)
                    phase = 2 * Decimal(pi) / WAVELENGTH * thin
                    numbers = (q, f, thickness, first, second, 2 * w, error, thin, error / thin, phase)
                    yield ",".join([shape, str(INDEX), *(f"{number:.12e}" for number in numbers)])


def main():
    home = Path(__file__).parent.parent / "tables" / "ray_trace.csv"
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--out", type=Path, default=home)
    parser.parse_args().out.write_text("\n".join(lines()) + "\n", newline="\n")


if __name__ == "__main__":
    main()
