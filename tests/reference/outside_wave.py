#!/usr/bin/env python3
"""The focus of clipped, aberrated and defocused waves by two general-purpose packages.

    python3 -m pip install -r tests/reference/requirements-outside.txt
    python3 tests/reference/outside_wave.py [--out tests/tables/wave_outside.csv]

LightPipes propagates the whole field in two dimensions, on a square grid, from the lens to the plane
by its Forvard command (Fresnel propagation by Fourier transforms). pyhank takes one quasi-discrete
Hankel transform of the field at the lens with the defocus in its phase. Neither transform is ours;
both are limited by their grids (see the README of tests/tables). Partial coherence is made from the coherent irradiance by spreading it: LightPipes' by
the Fourier transform of a Gaussian, so that M2 > 1 is checked too.

Not part of the generation of the vectors: it needs packages that those do without.
"""

import argparse
from pathlib import Path

import numpy
import pyhank
import scipy
from LightPipes import Begin, Forvard, SubIntensity, SubPhase
from scipy.interpolate import CubicSpline
from scipy.optimize import brentq

import LightPipes

WAVELENGTH = 10.6e-6
DIAMETER = 0.010
FOCUS = 0.4  # lens to focus, long: so the spot covers many points of the grid
# M2, clear aperture (1 m: none), aberration, z
CASES = (
    (1.0, 1.0, 0.0, 0.0),
    (1.0, 1.0, 0.0, 0.030),
    (1.0, 1.0, 0.5, -0.020),
    (1.0, 1.0, 1.0, -0.040),
    (1.0, 0.012, 0.0, 0.0),
    (1.0, 0.012, 0.5, -0.020),
    (1.0, 0.008, 0.3, 0.025),
    (1.0, 0.015, 1.0, -0.030),
    (1.3, 1.0, 0.5, -0.020),
    (1.8, 0.015, 0.3, 0.030),
)
GRID = 2000
GRID_WIDTH = 0.050
HANKEL_POINTS = 4000
# So wide only that the spot covers many points of the transform.
HANKEL_RADIUS = 0.1
SHARES_OF_SPOT = (0.0, 0.25, 0.5, 1.0)
COLUMNS = (
    "package",
    "wavelength_m",
    "m2",
    "diameter_at_lens_m",
    "clear_aperture_m",
    "lens_to_focus_m",
    "aberration_phase_rad",
    "z_m",
    "diameter_power86_m",
    *(f"{name}{i}{unit}" for i in range(1, 5) for name, unit in (("radius", "_m"), ("irradiance_ratio", ""))),
)


def ideal_irradiance(m2):
    """On the axis, in the ideal focus of a beam of one watt."""
    waist = 4.0 * m2 * WAVELENGTH * FOCUS / (numpy.pi * DIAMETER)
    return 8.0 / (numpy.pi * waist**2)


def field_at_lens(radius, alpha):
    """Irradiance of a beam of one watt, and phase without that of the ideal lens; phases grow along
    the light, so an edge that focuses nearer the lens lags as a converging wave's does."""
    w = DIAMETER / 2.0
    power_density = 2.0 / (numpy.pi * w**2) * numpy.exp(-2.0 * (radius / w) ** 2)
    return power_density, -alpha * (radius / w) ** 4


def softened(radius, aperture, step):
    """Share of each pixel inside the aperture, to the first order."""
    return numpy.clip((aperture / 2.0 - radius) / step + 0.5, 0.0, 1.0)


def by_lightpipes(m2, aperture, alpha, z):
    """Radii and irradiances."""
    step = GRID_WIDTH / GRID
    field = Begin(GRID_WIDTH, WAVELENGTH, GRID)
    along = (numpy.arange(GRID) - GRID // 2) * step
    radius = numpy.hypot(along[:, None], along[None, :])
    density, phase = field_at_lens(radius, alpha)
    density = density * softened(radius, aperture, step) ** 2
    phase = phase - numpy.pi * radius**2 / (WAVELENGTH * FOCUS)
    field = SubPhase(SubIntensity(field, density), phase)
    field = Forvard(field, FOCUS + z)
    irradiance = numpy.abs(field.field) ** 2
    if m2 > 1.0:
        v_of_metre = 2.0 * numpy.pi / WAVELENGTH * DIAMETER / 2.0 / (FOCUS + z)
        sigma = numpy.sqrt(m2**2 - 1.0) / v_of_metre
        k = 2.0 * numpy.pi * numpy.fft.fftfreq(GRID, step)
        spread = numpy.exp(-0.5 * sigma**2 * (k[:, None] ** 2 + k[None, :] ** 2))
        irradiance = numpy.fft.ifft2(numpy.fft.fft2(irradiance) * spread).real
    middle = GRID // 2
    half = numpy.arange(GRID // 2 - 1)
    profile = (
        irradiance[middle, middle + half]
        + irradiance[middle, middle - half]
        + irradiance[middle + half, middle]
        + irradiance[middle - half, middle]
    ) / 4.0
    return half * step, profile


def by_pyhank(m2, aperture, alpha, z):
    if m2 > 1.0:
        return None
    transform = pyhank.HankelTransform(order=0, max_radius=HANKEL_RADIUS, n_points=HANKEL_POINTS)
    density, phase = field_at_lens(transform.r, alpha)
    # A step between two points counts by where it falls between them.
    inside = softened(transform.r, aperture, numpy.gradient(transform.r))
    defocus = numpy.pi / WAVELENGTH * (1.0 / (FOCUS + z) - 1.0 / FOCUS)
    field = inside * numpy.sqrt(density) * numpy.exp(1j * (phase + defocus * transform.r**2))
    spectrum = transform.qdht(field)
    radius = transform.kr * WAVELENGTH * (FOCUS + z) / (2.0 * numpy.pi)
    irradiance = numpy.abs(spectrum / (WAVELENGTH * (FOCUS + z))) ** 2
    return radius, irradiance


def line(package, case, radius, irradiance):
    m2, aperture, alpha, z = case
    # Mirrored, so that the spline is even.
    first = 1 if radius[0] == 0.0 else 0
    mirrored = numpy.concatenate([-radius[first : first + 5][::-1], radius])
    profile = CubicSpline(mirrored, numpy.concatenate([irradiance[first : first + 5][::-1], irradiance]))
    fine = numpy.linspace(0.0, radius[-1] * 0.6, 200_001)
    power = CubicSpline(fine, 2.0 * numpy.pi * fine * profile(fine)).antiderivative()
    passed = -numpy.expm1(-2.0 * (aperture / DIAMETER) ** 2)
    target = -numpy.expm1(-2.0) * passed
    spot = 2.0 * brentq(lambda r: float(power(r)) - target, 0.0, radius[-1] * 0.6)
    numbers = [WAVELENGTH, m2, DIAMETER, aperture, FOCUS, alpha, z, spot]
    for share in SHARES_OF_SPOT:
        place = float(f"{share * spot / 2.0:.6e}")
        numbers += [place, float(profile(place)) / ideal_irradiance(m2)]
    return ",".join([package, *(f"{number:.9g}" for number in numbers)])


def lines():
    yield ",".join(COLUMNS)
    for case in CASES:
        for package, propagate in (("LightPipes", by_lightpipes), ("pyhank", by_pyhank)):
            found = propagate(*case)
            if found is not None:
                yield line(package, case, *found)


def main():
    wanted = (Path(__file__).parent / "requirements-outside.txt").read_text().split()
    here = [
        f"LightPipes=={LightPipes.__version__}",
        f"numpy=={numpy.__version__}",
        f"pyhank=={pyhank.__version__}",
        f"scipy=={scipy.__version__}",
    ]
    if wanted != here:
        raise SystemExit(f"this needs {wanted}, not {here}")
    home = Path(__file__).parent.parent / "tables" / "wave_outside.csv"
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--out", type=Path, default=home)
    parser.parse_args().out.write_text("\n".join(lines()) + "\n", newline="\n")


if __name__ == "__main__":
    main()
