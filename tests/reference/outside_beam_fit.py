#!/usr/bin/env python3
"""Beams fitted to widths by a general-purpose library: least squares and orthogonal distance regression of SciPy.

    python3 -m pip install -r tests/reference/requirements-outside.txt
    python3 tests/reference/outside_beam_fit.py [--out tests/tables/series_scipy.csv]

The readings are those of tests/tables/series_widths.csv. D^2 = D0^2 (1 + ((z - z0)/zR)^2) is fitted to the squares of
the widths, each with the deviation of its weight: 2 D sigma, with D as read ("measured"); and, with sigma^2 taken from
D^2, sqrt(4 F sigma^2 + 2 sigma^4), F being the fitted square, again and again until it stays ("refined"). curve_fit
gives parameters and covariance (absolute_sigma); ODR, with the heights taken as exact, must give the same, or this
stops: parameters to 1e-6, deviations to a hundredth, which is what it settles to.

Not part of the generation of the vectors: it needs a package that those do without.
"""

import argparse
import csv
import warnings
from pathlib import Path

import numpy as np
import scipy
from scipy.optimize import curve_fit

warnings.simplefilter("ignore", DeprecationWarning)
from scipy import odr  # noqa: E402

TABLES = Path("tests/tables")
COLUMNS = ("package", "set", "weights", "z0_mm", "D0_mm", "zR_mm", "se_z0_mm", "se_D0_mm", "se_zR_mm", "chi2")


def squares(z, z0, waist, rayleigh):
    return waist**2 * (1 + ((z - z0) / rayleigh) ** 2)


def slopes(z, z0, waist, rayleigh):
    u = (z - z0) / rayleigh
    by_height, by_waist, by_range = -2 * waist**2 * u / rayleigh, 2 * waist * (1 + u**2), -2 * waist**2 * u**2 / rayleigh
    return np.array([by_height, by_waist, by_range])


def fitted(z, y, deviation, start):
    """Parameters, deviations and chi squared, in units near 1."""
    best = np.array(start)
    # It stops as soon as the sum of squares stays, which is too soon for the last digits: begin again beside the end.
    for beside in (0.0, 1e-3, -1e-4, 1e-5, -1e-6):
        best, covariance = curve_fit(
            squares, z, y, p0=best + beside, sigma=deviation, absolute_sigma=True, ftol=1e-15, xtol=1e-15, gtol=1e-15,
            jac=lambda x, *b: slopes(x, *b).T
        )
    again = odr.ODR(odr.RealData(z, y, sx=1e-12, sy=deviation), odr.Model(lambda b, x: squares(x, *b), fjacb=lambda b, x: slopes(x, *b)), beta0=start,
                    sstol=1e-15, partol=1e-15)
    again.set_job(fit_type=2)
    other = again.run()
    chi_squared = float(np.sum(((y - squares(z, *best)) / deviation) ** 2))
    errors = np.sqrt(np.diag(covariance))
    of_odr = np.sqrt(np.diag(other.cov_beta))
    if not np.allclose(best, other.beta, rtol=1e-6, atol=1e-6):
        raise ArithmeticError(f"curve_fit {best} and ODR {other.beta} differ")
    if not np.allclose(errors, of_odr, rtol=1e-2):
        raise ArithmeticError(f"deviations of curve_fit {errors} and ODR {of_odr} differ")
    return best, errors, chi_squared


def rows():
    widths = {}
    for row in csv.DictReader((TABLES / "series_widths.csv").open()):
        widths.setdefault(row["set"], []).append((float(row["z_mm"]), float(row["width_mm"])))
    for row in csv.DictReader((TABLES / "series_fit.csv").open()):
        name, sigma = row["set"], float(row["sigma_mm"])
        z, width = np.array(widths[name]).T
        # Heights in Rayleigh ranges from the true waist and widths in true waists, so that all numbers are near 1.
        centre, unit, scale = float(row["true_z0"]), float(row["true_zR"]), float(row["true_D0"])
        u, d, s = (z - centre) / unit, width / scale, sigma / scale
        start = (0.0, 1.0, 1.0)
        yield line(name, "measured", *fitted(u, d**2, 2 * d * s, start), centre, unit, scale)
        y = d**2 - s**2
        best, _, _ = fitted(u, y, 2 * d * s, start)
        for _ in range(60):
            deviation = np.sqrt(4 * squares(u, *best) * s**2 + 2 * s**4)
            best, errors, chi_squared = fitted(u, y, deviation, best)
        yield line(name, "refined", best, errors, chi_squared, centre, unit, scale)


def line(name, weights, best, errors, chi_squared, centre, unit, scale):
    units = np.array((unit, scale, unit))
    values = best * units + (centre, 0, 0)
    numbers = [*map(float, values), *map(float, errors * units), chi_squared]
    return [f"scipy {scipy.__version__}", name, weights, *map(repr, numbers)]


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--out", type=Path, default=TABLES / "series_scipy.csv")
    lines = [",".join(COLUMNS), *(",".join(row) for row in rows())]
    parser.parse_args().out.write_text("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
