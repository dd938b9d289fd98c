"""Ranges of a fit of marks by the ratio of likelihoods, with `scipy.optimize`: a general-purpose library on the same data.

Writes tests/tables/range_series.csv (the marks) and tests/tables/mark_ranges.csv (where the ranges of 95 % of z0, ln d, ln zR,
ln q and ln M squared end): `brentq` looks for the number at which chi squared has risen by 1.96 squared, with the other
unknowns fitted by `least_squares` at each. A range is open (inf) where it has not risen so far at a dose of 1e6 times the
threshold. All marks are wide, so that the tangent below a width of one deviation plays no part.
Needs requirements-outside.txt.
"""

from pathlib import Path

import numpy as np
from scipy.optimize import brentq, least_squares
from scipy.stats import norm

TABLES = Path(__file__).parent.parent / "tables"
# Name, dose ratio, reach in Rayleigh ranges, noise, powers, seed: a spot of 85 um with zR = 0.4 mm, lines.
SETS = [
    ("high", 8.0, 2.0, 5e-6, (1.0,), 1),
    ("high-again", 8.0, 2.0, 5e-6, (1.0,), 4),
    ("high-quiet", 8.0, 2.0, 2e-6, (1.0,), 3),
    ("medium", 5.0, 2.0, 2e-6, (1.0,), 4),
    ("two-powers", 3.0, 2.0, 9e-6, (1.0, 2.0), 5),
]
DIAMETER, RAYLEIGH, MARKS = 85e-6, 0.4e-3, 11
# In z0 over zR and the logarithms.
NUMBERS = [(1, 0, 0, 0), (0, 1, 0, 0), (0, 0, 1, 0), (0, 0, 0, 1), (0, 2, -1, 0)]
FARTHEST = np.log(1e6)


def widths(at, z, power):
    waist, log_d, log_range, log_dose = at
    v = ((z - waist) * np.exp(-log_range)) ** 2
    square = np.exp(2 * log_d) / 2 * (1 + v) * (log_dose + np.log(power) - np.log1p(v) / 2)
    return np.sqrt(np.maximum(square, 1e-12))


def fitted(residuals, start):
    return least_squares(residuals, start, method="lm", xtol=1e-15, ftol=1e-15, gtol=1e-15, max_nfev=4000)


def main():
    marks = ["set,height,width,deviation,power_ratio"]
    answers = ["set," + ",".join(f"{name}_{end}" for name in ("z", "d", "r", "q", "m2") for end in ("least", "greatest"))]
    for name, dose, reach, noise, powers, seed in SETS:
        rng = np.random.default_rng(seed)
        z, power = np.tile(np.linspace(-reach, reach, MARKS), len(powers)), np.repeat(powers, MARKS)
        truth = np.array([0.05, 0.0, 0.0, np.log(dose)])
        sigma = noise / DIAMETER
        seen = widths(truth, z, power) + sigma * rng.standard_normal(len(z))

        def residuals(at):
            return (widths(at, z, power) - seen) / sigma

        least = fitted(residuals, truth)
        squares = 2 * least.cost
        deviations = np.sqrt(np.diag(np.linalg.inv(least.jac.T @ least.jac)))
        row = []
        for number in NUMBERS:
            a = np.array(number, dtype=float)
            # The other unknowns: all that is orthogonal to the number.
            basis = np.linalg.svd(a[None, :])[2][1:]
            middle = a @ least.x
            deviation = np.sqrt(a @ np.linalg.inv(least.jac.T @ least.jac) @ a)

            for side in (-1, 1):
                last = [least.x]

                def rise(c):
                    base = a * c / (a @ a)
                    starts = [basis @ start for start in (last[0], least.x)]
                    runs = [fitted(lambda rest: residuals(base + rest @ basis), start) for start in starts]
                    best = min(runs, key=lambda run: run.cost)
                    last[0] = base + best.x @ basis
                    return 2 * best.cost - squares - norm.ppf(0.975) ** 2

                c = middle
                while True:
                    c += side * 0.25 * deviation
                    high = rise(c) > 0
                    # Without a spot, place and range go on to their end; all else is open there.
                    if high or (number not in (NUMBERS[0], NUMBERS[2]) and last[0][3] > FARTHEST):
                        break
                if high:
                    row.append(brentq(rise, c - side * 0.25 * deviation, c, xtol=1e-13, rtol=1e-14))
                else:
                    row.append(side * np.inf)
        assert (widths(least.x, z, power) > 1.5 * sigma).all(), name
        row[0:2] = [x * RAYLEIGH for x in row[0:2]]
        shifts = [0, np.log(DIAMETER), np.log(RAYLEIGH), 0, 2 * np.log(DIAMETER) - np.log(RAYLEIGH)]
        row = [x + shift for x, shift in zip(row, np.repeat(shifts, 2))]
        answers.append(",".join([name] + [repr(float(x)) for x in row]))
        for height, width, ratio in zip(z, seen, power):
            marks.append(f"{name},{float(height * RAYLEIGH)!r},{float(width * DIAMETER)!r},{noise!r},{float(ratio)!r}")
    (TABLES / "range_series.csv").write_text("\n".join(marks) + "\n")
    (TABLES / "mark_ranges.csv").write_text("\n".join(answers) + "\n")


if __name__ == "__main__":
    main()
