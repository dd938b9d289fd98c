"""Spot and threshold from test marks: squared width against the logarithm of dose.

  b^2 = a + m ln E,  with m = d^2/2 and a = -m ln E0       Liu, Optics Letters 7, 196 (1982), from memory

by weighted least squares: the normal equations give a and m, their inverse the covariance. Weights are 1/(2 b sigma)^2
with b as read, or, refined, 1/(4 F sigma^2 + 2 sigma^4) of b^2 - sigma^2, F being the fitted square, found by doing it
again until F stays. Deviations are enlarged by sqrt(chi^2/nu) where that exceeds 1; half widths of ranges are Student's t
times that, else the normal factor. Deviations of d and ln E0 follow from those of a and m by their first derivatives,
and, with refined weights, what their means are off by from the second ones: half their sum by the covariance.

A mark is an outlier if chi^2 falls, when it is left out, by more than limit^2 times the larger of 1 and
what is left of chi^2 over its own nu. Each is tried by fitting again without it. Curvature: by how much chi^2 falls when
a term of second order is fitted too, which is a chi^2 of one degree.
"""

import math

import mpmath
from mpmath import exp, gammainc, log, mpf, sqrt

from checks import NEAR, UNDETERMINED, Refused, TooClose, allowed, choice, computed, exceeds, number
from model_beam_fit import MEASURED, MOST_STEPS, STAYS, Polynomial
from model_statistics import student

MARKS = 6
LEAST_SIGNIFICANCE = 3
ULP = 50
CORRELATION_ULP = 100
STATISTICS_ULP = 2000
# A mark is not judged whose residual has less than this left of its own variance: it alone holds the line.
LEAST_FREEDOM = mpf(10) ** -9
UNLIKELY = mpf("0.01")

# What is left out of the rows: see the README of the vectors.
LEAST_SCATTER = mpf(10) ** -3
GREATEST_WEIGHT_RATIO = mpf(10) ** 12


class Mark:
    def __init__(self, dose, width, deviation):
        self.x, self.width, self.square, self.variance = log(dose), width, width**2, deviation**2


class Line:
    """The straight line through the squares of widths."""

    def __init__(self, marks, weights):
        self.marks, self.weights = marks, weights
        self.line = Polynomial(self.weighted(None), 1)
        if weights != MEASURED:
            self.refine()
        self.points = self.line.points
        self.start, self.slope = self.line.c
        cov = self.line.covariance
        self.var_start, self.shared, self.var_slope = cov[0, 0], cov[0, 1], cov[1, 1]
        self.chi_squared = self.line.chi_squared
        self.scatter = sqrt(self.chi_squared / sum(w * y**2 for _, y, w in self.points))

    def weighted(self, fitted):
        """With weights by the squares as read, or by those fitted."""
        if self.weights == MEASURED:
            return [(mark.x, mark.square, 1 / (4 * mark.square * mark.variance)) for mark in self.marks]
        points = []
        for i, mark in enumerate(self.marks):
            square = mark.square if fitted is None else max(fitted[i], mpf(0))
            more = 0 if fitted is None else 2 * mark.variance**2
            points.append((mark.x, mark.square - mark.variance, 1 / (4 * square * mark.variance + more)))
        return points

    def refine(self):
        fitted = [self.line.at(mark.x) for mark in self.marks]
        for step in range(400):
            before = fitted
            self.line = Polynomial(self.weighted(before), 1)
            fitted = [self.line.at(mark.x) for mark in self.marks]
            change = max(abs(now - was) / (abs(now) + m.variance) for now, was, m in zip(fitted, before, self.marks))
            if change < STAYS:
                return
            if step > MOST_STEPS and change > mpf(10) ** -20:
                raise TooClose
        raise TooClose

    def middle(self):
        """Mean of x, by the weights."""
        return sum(w * x for x, _, w in self.points) / sum(w for _, _, w in self.points)


def outlier(line, limit):
    """Place of the mark to be left out; None if there is none. The weights stay those of the fit with all marks."""
    points = line.points
    cases = []
    for i, (x, _, w) in enumerate(points):
        if not exceeds(1 - w * line.line.variance(x), LEAST_FREEDOM):
            continue
        rest = Polynomial(points[:i] + points[i + 1 :], 1).chi_squared
        cases.append(((line.chi_squared - rest) / max(mpf(1), rest / (len(points) - 3)), i))
    cases.sort(reverse=True)
    if not cases or not exceeds(cases[0][0], limit**2):
        return None
    if len(cases) > 1 and cases[0][0] - cases[1][0] <= NEAR * cases[0][0]:
        raise TooClose
    return cases[0][1]


def checked_marks(row):
    names = range(1, MARKS + 1)
    weights = choice("weights of readings", row["weights"])
    doses = [number("dose", row[f"dose{i}"]) for i in names]
    widths = [number("mark width", row[f"width{i}"]) for i in names]
    deviations = [number("width deviation", row[f"deviation{i}"]) for i in names]
    limit = row["outlier_limit"]
    limit = mpf(limit) if limit == math.inf else number("outlier limit", limit)
    confidence = number("confidence", row["confidence"])
    return [Mark(*given) for given in zip(doses, widths, deviations)], weights, limit, confidence


def fit_threshold(row):
    marks, weights, limit, confidence = checked_marks(row)
    used = list(marks)
    if len({mark.x for mark in marks}) == 1:
        raise Refused(UNDETERMINED, "significance of the slope")
    line = Line(marks, weights)
    out = None if limit == math.inf else outlier(line, limit)
    if out is not None:
        used = marks[:out] + marks[out + 1 :]
        line = Line(used, weights)
    freedom = len(used) - 2
    scatters = exceeds(line.chi_squared / freedom, mpf(1))
    enlarged = line.chi_squared / freedom if scatters else mpf(1)
    significance = line.slope / sqrt(enlarged * line.var_slope)
    if not exceeds(significance, mpf(LEAST_SIGNIFICANCE)):
        raise Refused(UNDETERMINED, "significance of the slope")
    a, m = line.start, line.slope
    var_a, shared, var_m = (enlarged * number for number in (line.var_start, line.shared, line.var_slope))
    spot = sqrt(2 * m)
    log_threshold = -a / m
    spot_by_m = 1 / spot
    by_a, by_m = -1 / m, a / m**2
    var_spot = spot_by_m**2 * var_m
    var_log = by_a**2 * var_a + 2 * by_a * by_m * shared + by_m**2 * var_m
    if exceeds(sqrt(var_log), mpf(1)):
        raise Refused(UNDETERMINED, "certainty of the threshold")
    # The middle of the doses over the threshold, and a spot of the model.
    computed("any dose ratio", exp(line.middle() - log_threshold))
    spot_bias, log_bias = mpf(0), mpf(0)
    if weights != MEASURED:
        spot_bias = -(spot**-3) / 2 * var_m
        log_bias = shared / m**2 - a / m**3 * var_m
    computed("spot diameter", spot - spot_bias)
    leave_out_the_ill_conditioned(line)
    factor = student(1 - confidence, mpf(freedom)) if scatters else sqrt(2) * mpmath.erfinv(confidence)
    value, threshold = spot - spot_bias, exp(log_threshold - log_bias)
    reach, log_reach = factor * sqrt(var_spot), factor * sqrt(var_log)
    answer = {
        "spot_diameter": value,
        "spot_diameter_deviation": sqrt(var_spot),
        "spot_diameter_least": value - reach,
        "spot_diameter_greatest": value + reach,
        "spot_diameter_bias": spot_bias,
        "threshold": threshold,
        "threshold_deviation": threshold * sqrt(var_log),
        "threshold_least": threshold * exp(-log_reach),
        "threshold_greatest": threshold * exp(log_reach),
        "threshold_bias": exp(log_threshold) - threshold,
        "correlation": spot_by_m * (by_a * shared + by_m * var_m) / sqrt(var_spot * var_log),
        "significance": significance,
        "chi_squared": line.chi_squared,
        "degrees_of_freedom": freedom,
        "marks_used": len(used),
    }
    least = abs(answer["spot_diameter_least"])
    answer["spot_diameter_least_ulp"] = allowed(ULP, (value + 40 * reach) / least)
    answer["spot_diameter_greatest_ulp"] = allowed(ULP, 1 + 40 * reach / value)
    for end in ("threshold_least_ulp", "threshold_greatest_ulp"):
        answer[end] = allowed(ULP, 1 + 40 * log_reach)
    answer["correlation_ulp"] = allowed(CORRELATION_ULP, 1 / abs(answer["correlation"]))
    chance = tail(freedom, line.chi_squared)
    curvature, tried = bend(line, freedom)
    answer |= {"chi_squared_chance": chance, "curvature_chance": curvature}
    answer["chi_squared_chance_ulp"] = allowed(STATISTICS_ULP, condition(freedom, line.chi_squared))
    answer["curvature_chance_ulp"] = allowed(STATISTICS_ULP, 1 + abs(log(curvature)))
    low, high = min(mark.x for mark in used), max(mark.x for mark in used)
    flags = [
        not tried,
        not exceeds(curvature, UNLIKELY),
        exceeds(low - log_threshold, high - low),
        not exceeds(chance, UNLIKELY),
        exceeds(chance, 1 - UNLIKELY),
        out is not None,
    ]
    answer["warnings"] = sum(1 << bit for bit, flag in enumerate(flags) if flag)
    for i, mark in enumerate(marks):
        fitted = sqrt(max(line.line.at(mark.x), mpf(0)))
        residual = mark.width - fitted
        answer[f"residual{i + 1}"] = residual
        # A square near nothing is told to so much of the spot.
        shaken = (mark.width + fitted + (spot**2 / fitted if fitted else 0)) / abs(residual)
        answer[f"residual{i + 1}_ulp"] = allowed(ULP, shaken)
        answer[f"used{i + 1}"] = int(i != out)
    return answer


def tail(freedom, chi_squared):
    return gammainc(mpf(freedom) / 2, chi_squared / 2, mpmath.inf, regularized=True)


def condition(freedom, chi_squared):
    """By how many ulp a chance moves with one of its chi squared."""
    half = chi_squared / 2
    density = exp(mpf(freedom) / 2 * log(half) - half - mpmath.loggamma(mpf(freedom) / 2))
    return 1 + density / tail(freedom, chi_squared)


def bend(line, freedom):
    """Chance of what a term of second order takes from chi^2, and whether there is one to be told."""
    if len({x for x, _, _ in line.points}) < 3 or freedom < 2:
        return mpf(1), False
    rest = Polynomial(line.points, 2).chi_squared
    scatter = max(rest / (freedom - 1), mpf(1))
    return tail(1, (line.chi_squared - rest) / scatter), True


def leave_out_the_ill_conditioned(line):
    """Numbers of which a double keeps only a few digits, whatever the method."""
    weights = [w for _, _, w in line.points]
    if line.scatter < LEAST_SCATTER:
        raise TooClose
    if max(weights) > GREATEST_WEIGHT_RATIO * min(weights):
        raise TooClose
