#!/usr/bin/env python3
"""Marks at several doses, fitted by a general-purpose library: least squares of SciPy.

    python3 -m pip install -r tests/reference/requirements-outside.txt
    python3 tests/reference/outside_threshold_fit.py [--out tests/tables]

Draws marks of some spots and thresholds (threshold_marks.csv) and fits them (threshold_scipy.csv). b^2 = d^2/2 ln(E/E0)
is fitted by curve_fit for d and ln E0 to the squares of the widths, each with the deviation of its weight: 2 b sigma, with
b as read ("measured"); and, with sigma^2 taken from b^2, sqrt(4 F sigma^2 + 2 sigma^4), F being the fitted square, again and
again until it stays ("refined"). Deviations are those of absolute_sigma. Where all squares weigh alike ("even": sigma is
in proportion to 1/b), linregress must give the same line, or this stops: spot and threshold to 1e-9, the deviation of the
slope, which it takes from the scatter alone, to 1e-6.

Not part of the generation of the vectors: it needs a package that those do without.
"""

import argparse
from pathlib import Path

import numpy as np
import scipy
from scipy.optimize import curve_fit
from scipy.stats import linregress

COLUMNS = ("package", "set", "weights", "d_mm", "ln_E0", "se_d_mm", "se_ln_E0", "correlation", "chi2")
# Spot in millimetres, threshold, marks, greatest dose over threshold, deviation over the spot.
SETS = {
    "few": (0.06, 20.0, 5, 6.0, 0.02),
    "many": (0.06, 20.0, 14, 12.0, 0.03),
    "rough": (0.12, 3.0, 9, 8.0, 0.07),
    "fine": (0.025, 0.4, 9, 20.0, 0.005),
    "narrow": (0.2, 7.0, 10, 2.5, 0.01),
    "even": (0.08, 50.0, 10, 9.0, 0.02),
}


def square(x, spot, log_threshold):
    return spot**2 / 2 * (x - log_threshold)


def slopes(x, spot, log_threshold):
    return np.array([spot * (x - log_threshold), np.full_like(x, -(spot**2) / 2)]).T


def fitted(x, y, deviation, start):
    best = np.array(start)
    # It stops as soon as the sum of squares stays, which is too soon for the last digits: begin again beside the end.
    for beside in (0.0, 1e-3, -1e-4, 1e-5, -1e-6):
        best, covariance = curve_fit(
            square, x, y, p0=best + beside, sigma=deviation, absolute_sigma=True, ftol=1e-15, xtol=1e-15, gtol=1e-15,
            jac=slopes
        )
    errors = np.sqrt(np.diag(covariance))
    chi_squared = float(np.sum(((y - square(x, *best)) / deviation) ** 2))
    return best, errors, covariance[0, 1] / (errors[0] * errors[1]), chi_squared


def series(name, draws):
    """Doses, widths and deviations of a set; the widths as they stand in the file."""
    spot, threshold, count, greatest, relative = SETS[name]
    ratios = np.geomspace(1.3, greatest, count)
    exact = spot * np.sqrt(np.log(ratios) / 2)
    deviation = np.full(count, relative * spot)
    width = np.round(exact + deviation * draws.standard_normal(count), 7)
    if name == "even":
        deviation = relative * spot**2 / width
    return np.round(ratios * threshold, 6), width, deviation


def agree(one, other, relative):
    if not np.allclose(one, other, rtol=relative, atol=0):
        raise ArithmeticError(f"{one} and {other} differ")


def rows(name, doses, widths, deviations):
    spot, threshold, *_ = SETS[name]
    # Squares of spots, so that all numbers are near 1.
    x, b, s = np.log(doses / threshold), widths / spot, deviations / spot
    best, errors, correlation, chi_squared = fitted(x, b**2, 2 * b * s, (1.0, 0.0))
    yield line(name, "measured", best, errors, correlation, chi_squared)
    if name == "even":
        other = linregress(x, b**2)
        agree(best, (np.sqrt(2 * other.slope), -other.intercept / other.slope), 1e-9)
        scatter = np.sqrt(chi_squared / (len(x) - 2))
        agree(best[0] * errors[0] * scatter, other.stderr, 1e-6)
    y = b**2 - s**2
    for _ in range(60):
        spread = np.sqrt(4 * np.maximum(square(x, *best), 0) * s**2 + 2 * s**4)
        best, errors, correlation, chi_squared = fitted(x, y, spread, best)
    yield line(name, "refined", best, errors, correlation, chi_squared)


def line(name, weights, best, errors, correlation, chi_squared):
    spot, threshold, *_ = SETS[name]
    numbers = (best[0] * spot, best[1] + np.log(threshold), errors[0] * spot, errors[1], correlation, chi_squared)
    return ",".join([f"scipy {scipy.__version__}", name, weights, *(repr(float(number)) for number in numbers)])


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--out", type=Path, default=Path("tests/tables"))
    out = parser.parse_args().out
    draws = np.random.default_rng(20)
    marks, fits = ["set,dose,width_mm,sigma_mm"], [",".join(COLUMNS)]
    for name in SETS:
        given = series(name, draws)
        marks += [f"{name},{float(e)!r},{float(b)!r},{float(s)!r}" for e, b, s in zip(*given)]
        fits += rows(name, *given)
    (out / "threshold_marks.csv").write_text("\n".join(marks) + "\n")
    (out / "threshold_scipy.csv").write_text("\n".join(fits) + "\n")


if __name__ == "__main__":
    main()
