"""Spot and threshold from test marks: squared width against the logarithm of dose.

  b^2 = a + m ln E,  with m = d^2/2 and a = -m ln E0       Liu, Optics Letters 7, 196 (1982), from memory

by weighted least squares: b^2 has the deviation 2 b sigma, the normal equations give a and m, their
inverse the covariance. Deviations are enlarged by sqrt(chi^2/nu) where that exceeds 1. Those of d and
ln E0 follow from those of a and m by their derivatives.

A mark is an outlier if chi^2 falls, when it is left out, by more than limit^2 times the larger of 1 and
what is left of chi^2 over its own nu. Each is tried by fitting again without it.
"""

import math

from mpmath import exp, log, mpf, sqrt

from checks import NEAR, UNDETERMINED, Refused, TooClose, computed, exceeds, number

MARKS = 6
LEAST_SIGNIFICANCE = 3
# A mark is not judged whose residual has less than this left of its own variance: it alone holds the line.
LEAST_FREEDOM = mpf(10) ** -9

# What is left out of the rows: see the README of the vectors.
LEAST_SCATTER = mpf(10) ** -3
GREATEST_WEIGHT_RATIO = mpf(10) ** 12


class Line:
    """The straight line through points (x, y, weight)."""

    def __init__(self, points):
        self.points = points
        s = [sum(w * x**k for x, _, w in points) for k in range(3)]
        sy = sum(w * y for _, y, w in points)
        sxy = sum(w * x * y for x, y, w in points)
        self.all_alike = len({x for x, _, _ in points}) == 1
        if self.all_alike:
            return
        determinant = s[0] * s[2] - s[1] ** 2
        self.slope = (s[0] * sxy - s[1] * sy) / determinant
        self.start = (s[2] * sy - s[1] * sxy) / determinant
        # The inverse of the normal matrix: variances of start and slope, and what they share.
        self.var_start, self.var_slope = s[2] / determinant, s[0] / determinant
        self.shared = -s[1] / determinant
        self.chi_squared = sum(w * (y - self.start - self.slope * x) ** 2 for x, y, w in points)
        self.scatter = sqrt(self.chi_squared / sum(w * y**2 for _, y, w in points))

    def middle(self):
        """Mean of x, by the weights."""
        return sum(w * x for x, _, w in self.points) / sum(w for _, _, w in self.points)

    def freedom(self, point):
        """One less the leverage: what is left of the variance of a point's residual."""
        x, _, w = point
        return 1 - w * (self.var_start + 2 * x * self.shared + x**2 * self.var_slope)


def outlier(points, line, limit):
    """Place of the point to be left out; None if there is none."""
    cases = []
    for i, point in enumerate(points):
        if not exceeds(line.freedom(point), LEAST_FREEDOM):
            continue
        rest = Line(points[:i] + points[i + 1 :])
        fall = line.chi_squared - rest.chi_squared
        cases.append((fall / max(mpf(1), rest.chi_squared / (len(points) - 3)), i))
    cases.sort(reverse=True)
    if not cases or not exceeds(cases[0][0], limit**2):
        return None
    if len(cases) > 1 and cases[0][0] - cases[1][0] <= NEAR * cases[0][0]:
        raise TooClose
    return cases[0][1]


def checked_marks(row):
    names = [range(1, MARKS + 1)] * 3
    doses = [number("dose", row[f"dose{i}"]) for i in names[0]]
    widths = [number("mark width", row[f"width{i}"]) for i in names[1]]
    deviations = [number("width deviation", row[f"deviation{i}"]) for i in names[2]]
    limit = row["outlier_limit"]
    limit = mpf(limit) if limit == math.inf else number("outlier limit", limit)
    points = [(log(e), b**2, (2 * b * sigma) ** -2) for e, b, sigma in zip(doses, widths, deviations)]
    return points, limit


def fit_threshold(row):
    points, limit = checked_marks(row)
    used = [1] * MARKS
    line = Line(points)
    if not line.all_alike and limit != math.inf:
        out = outlier(points, line, limit)
        if out is not None:
            used[out] = 0
            line = Line(points[:out] + points[out + 1 :])
    if line.all_alike:
        raise Refused(UNDETERMINED, "significance of the slope")
    freedom = len(line.points) - 2
    enlarged = max(mpf(1), line.chi_squared / freedom)
    significance = line.slope / sqrt(enlarged * line.var_slope)
    if not exceeds(significance, mpf(LEAST_SIGNIFICANCE)):
        raise Refused(UNDETERMINED, "significance of the slope")
    a, m = line.start, line.slope
    spot = sqrt(2 * m)
    log_threshold = -a / m
    spot_by_m = 1 / spot
    by_a, by_m = -1 / m, a / m**2
    var_spot = enlarged * spot_by_m**2 * line.var_slope
    var_log = enlarged * (by_a**2 * line.var_start + 2 * by_a * by_m * line.shared + by_m**2 * line.var_slope)
    if exceeds(sqrt(var_log), mpf(1)):
        raise Refused(UNDETERMINED, "certainty of the threshold")
    # The middle of the doses over the threshold, and a spot of the model.
    computed("any dose ratio", exp(line.middle() - log_threshold))
    computed("spot diameter", spot)
    leave_out_the_ill_conditioned(line)
    covariance = enlarged * spot_by_m * (by_a * line.shared + by_m * line.var_slope)
    answer = {
        "spot_diameter": spot,
        "spot_diameter_deviation": sqrt(var_spot),
        "threshold": exp(log_threshold),
        "relative_threshold_deviation": sqrt(var_log),
        "correlation": covariance / sqrt(var_spot * var_log),
        "reduced_chi_squared": line.chi_squared / freedom,
        "significance": significance,
        "marks_used": sum(used),
    }
    return answer | {f"used{i}": value for i, value in enumerate(used, start=1)}


def leave_out_the_ill_conditioned(line):
    """Numbers of which a double keeps only a few digits, whatever the method."""
    weights = [w for _, _, w in line.points]
    if line.scatter < LEAST_SCATTER:
        raise TooClose
    if max(weights) > GREATEST_WEIGHT_RATIO * min(weights):
        raise TooClose
