"""Marks at stepped heights, fitted by `scipy.optimize.curve_fit`: a general-purpose library on the same data.

Writes tests/tables/mark_series.csv (the marks) and tests/tables/mark_fits.csv (what SciPy finds): unknowns z0, ln d,
ln zR and ln q, their standard deviations and chi squared. The law is that of the marking model, its derivatives by
complex steps, which are exact; all marks are wide, so that the tangent below a width of one deviation plays no part.
Needs requirements-outside.txt.
"""

from pathlib import Path

import numpy as np
from scipy.optimize import curve_fit

TABLES = Path(__file__).parent.parent / "tables"
# Name, exponent n, diameter, Rayleigh range, focus, dose ratio, reach in Rayleigh ranges, noise, powers, seed.
SETS = [
    ("line-high", 1, 80e-6, 0.40e-3, 0.03e-3, 8.0, 2.0, 1.0e-6, (1.0,), 1),
    ("line-wide", 1, 80e-6, 0.40e-3, -0.05e-3, 4.0, 2.8, 1.5e-6, (1.0,), 2),
    ("line-low", 1, 80e-6, 0.40e-3, 0.02e-3, 2.2, 1.8, 1.0e-6, (1.0,), 3),
    ("two-powers", 1, 85e-6, 0.535e-3, 0.10e-3, 3.0, 2.0, 5.0e-6, (1.0, 2.0), 4),
    ("two-powers-noisy", 1, 85e-6, 0.535e-3, -0.08e-3, 3.0, 2.0, 9.0e-6, (1.0, 2.0), 5),
    ("three-powers", 1, 40e-6, 1.1e-3, 0.2e-3, 2.5, 1.5, 1.0e-6, (0.8, 1.0, 1.6), 6),
    ("pulse-high", 2, 30e-6, 0.6e-3, 0.05e-3, 20.0, 2.5, 0.4e-6, (1.0,), 7),
    ("pulse-two", 2, 30e-6, 0.6e-3, 0.0, 6.0, 1.6, 0.8e-6, (1.0, 2.0), 8),
    ("far-datum", 1, 80e-6, 0.40e-3, 50.03e-3, 6.0, 2.2, 1.0e-6, (1.0,), 9),
    ("small", 1, 8e-6, 0.03e-3, 0.002e-3, 7.0, 2.2, 0.1e-6, (1.0, 1.5), 10),
]
MARKS = 11


def law(exponent):
    def width(x, waist, log_d, log_range, log_dose):
        z, power = x
        v = ((z - waist) * np.exp(-log_range)) ** 2
        left = log_dose + np.log(power) - exponent / 2 * np.log1p(v)
        return np.exp(log_d) * np.sqrt((1 + v) * left / 2)

    def derivatives(x, *at):
        columns = []
        for i in range(4):
            step = np.array(at, dtype=complex)
            step[i] += 1e-30j
            columns.append(width(x, *step).imag / 1e-30)
        return np.stack(columns, axis=1)

    return width, derivatives


def main():
    marks, answers = ["set,exponent,height,width,deviation,power_ratio"], [
        "set,waist_z,log_diameter,log_range,log_dose,waist_z_deviation,log_diameter_deviation,log_range_deviation,"
        "log_dose_deviation,chi_squared"
    ]
    for name, n, d, zr, z0, q, reach, noise, powers, seed in SETS:
        rng = np.random.default_rng(seed)
        width, derivatives = law(n)
        middle = round(z0, 3)
        heights = np.concatenate([middle + zr * np.linspace(-reach, reach, MARKS)] * len(powers))
        power = np.repeat(powers, MARKS)
        truth = np.array([z0, np.log(d), np.log(zr), np.log(q)])
        widths = width((heights, power), *truth) + noise * rng.standard_normal(len(heights))
        # In units near 1, as every user of such a library does.
        scale = np.array([zr, 1.0, 1.0, 1.0])

        def scaled(x, waist, *rest):
            return width(x, middle + waist * zr, *rest) / noise

        def scaled_derivatives(x, waist, *rest):
            return derivatives(x, middle + waist * zr, *rest) * scale / noise

        start = (truth - [middle, 0, 0, 0]) / scale
        found, covariance = curve_fit(
            scaled,
            (heights, power),
            widths / noise,
            start,
            jac=scaled_derivatives,
            sigma=np.ones(len(heights)),
            absolute_sigma=True,
            method="lm",
            ftol=1e-15,
            xtol=1e-15,
            gtol=1e-15,
            maxfev=10000,
        )
        # It stops where chi squared no longer tells, some 1e-8 deviations off. NumPy's linear least squares go on.
        rough = found
        for _ in range(40):
            left = widths / noise - scaled((heights, power), *found)
            found = found + np.linalg.lstsq(scaled_derivatives((heights, power), *found), left, rcond=None)[0]
        assert (np.abs(found - rough) < 1e-6 * np.sqrt(np.diag(covariance))).all(), name
        residual = scaled((heights, power), *found) - widths / noise
        assert (scaled((heights, power), *found) > 1.5).all(), name
        found, deviations = found * scale + [middle, 0, 0, 0], np.sqrt(np.diag(covariance)) * scale
        numbers = [*found, *deviations, residual @ residual]
        answers.append(",".join([name] + [repr(float(x)) for x in numbers]))
        for z, b, p in zip(heights, widths, power):
            marks.append(f"{name},{n},{float(z)!r},{float(b)!r},{noise!r},{float(p)!r}")
    (TABLES / "mark_series.csv").write_text("\n".join(marks) + "\n")
    (TABLES / "mark_fits.csv").write_text("\n".join(answers) + "\n")


if __name__ == "__main__":
    main()
