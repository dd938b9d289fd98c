"""Diagnoses of marks by SciPy, in doubles: tests/tables/diagnosis_outside.csv, read by tests/diagnosis.rs.

    python3 -m pip install scipy
    python3 tests/reference/outside_diagnosis.py > tests/tables/diagnosis_outside.csv

Width and depth: `curve_fit` takes five measured numbers (width and depth of the good mark, its dose ratio, width and depth now)
and five unknown ones (those of the good mark, growth and power ratio), by their logarithms, with three-point derivatives. Its covariance
is that of the diagnosis. Width alone: `lambertw`, both branches.
"""

import numpy as np
from scipy.optimize import curve_fit
from scipy.special import lambertw

RANDOM = np.random.default_rng(20260712)
COLUMNS = (
    "mark_kind depth_law dose_ratio dose_ratio_deviation good_width good_width_deviation good_depth good_depth_deviation"
    " width width_deviation depth depth_deviation growth growth_deviation power_ratio power_ratio_deviation correlation"
    " near_growth far_growth"
).split()


def depth_over(law, log_q):
    return log_q if law == 1 else np.expm1(log_q)


def marks(n, law):
    """Logarithms of the five measured numbers from those of the five unknown ones."""

    def model(_, log_b, log_d, log_q, log_g, log_rho):
        here = log_q + log_rho - n * log_g
        width = log_b + log_g + np.log(here / log_q) / 2
        depth = log_d + np.log(depth_over(law, here) / depth_over(law, log_q))
        return np.array([log_b, log_d, log_q, width, depth])

    return model


def row(kind, law):
    n = 2 if kind == 1 else 1
    while True:
        q, g, rho = RANDOM.uniform(1.3, 15.0), RANDOM.uniform(1.05, 2.5), RANDOM.uniform(0.5, 2.0)
        if q * rho / g**n > 1.1:
            break
    good_width, good_depth = RANDOM.uniform(20e-6, 200e-6), RANDOM.uniform(5.0, 80.0)
    truth = np.log([good_width, good_depth, q, g, rho])
    width, depth = np.exp(marks(n, law)(0, *truth)[3:])
    relative = RANDOM.uniform(0.005, 0.04, 5)
    data = np.log([good_width, good_depth, q, width, depth])
    found, covariance = curve_fit(
        marks(n, law), np.arange(5), data, p0=truth + 0.01, sigma=relative, absolute_sigma=True,
        method="trf", jac="3-point", xtol=1e-15, ftol=1e-15, gtol=1e-15
    )
    s = np.sqrt(np.diag(covariance))
    b = width / good_width
    argument = -2 / n * b * b * np.log(q) / q ** (2 / n)
    near, far = (
        q ** (1 / n) * np.exp(lambertw(argument, k).real / 2) if argument >= -np.exp(-1) else np.nan for k in (-1, 0)
    )
    values = [good_width, good_width * relative[0], good_depth, good_depth * relative[1]]
    values += [width, width * relative[3], depth, depth * relative[4]]
    return [kind, law, q, relative[2], *values, np.exp(found[3]), s[3], np.exp(found[4]), s[4], covariance[3, 4] / s[3] / s[4], near, far]


print(",".join(COLUMNS))
for kind in (1, 2):
    for law in (1, 2):
        for _ in range(25):
            print(",".join(repr(float(x)) if i > 1 else str(x) for i, x in enumerate(row(kind, law))))
