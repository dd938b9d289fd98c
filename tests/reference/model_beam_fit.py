"""The beam from its widths at several heights.

  D^2 = A + B z + C z^2                                      ISO 11146-1, from memory
  z0 = -B/2C, D0^2 = A - B^2/4C, theta = sqrt(C), zR = D0/theta, M2 = pi D0 theta/(4 lambda)

by weighted least squares: the normal equations of powers of z, whose inverse is the covariance of A, B and C, and the
derivatives of each result by these. Weights are 1/(2 D sigma)^2 with D as read, or, refined, 1/(4 F sigma^2 + 2
sigma^4) of D^2 - sigma^2, F being the fitted square, found by doing it again until F stays. Deviations are enlarged by
sqrt(chi^2/nu) where that exceeds 1; a range reaches Student's t times that to either side, else the normal factor times.

Bias, of refined weights: what the mean of a result gains from the covariance of A, B and C, half of its second
derivative along each column of a square root of that covariance, by differences in many digits. It is taken off, one
deviation at the most. A, B and C themselves have none to this order: their weights do not follow what a reading came
out as, but what the fit says of it.

Terms of third and fourth order: by how much chi^2 falls when they are fitted too, which is a chi^2 of two degrees; and
the fourth over its own deviation. An outlier is found by fitting again without each reading.
"""

import math
from functools import cached_property, lru_cache

import mpmath
from mpmath import exp, gammainc, matrix, mpf, pi, sqrt

from checks import NEAR, UNDETERMINED, Refused, TooClose, allowed, choice, computed, exceeds, number
from model_statistics import student

PLACES = 8
MEASURED, REFINED = 1, 2
ULP = 200
ULP_RANGE = 500
CHANCE_ULP = 2000
LEAST_FREEDOM = mpf(10) ** -9
STAYS = mpf(10) ** -30
MOST_STEPS = 60
UNLIKELY = mpf("0.01")

# What is left out of the rows: see the README of the vectors.
LEAST_SCATTER = mpf(10) ** -4
GREATEST_WEIGHT_RATIO = mpf(10) ** 9
LEAST_SPREAD = mpf(10) ** -4


class Reading:
    def __init__(self, z, width, deviation):
        self.z, self.width, self.deviation = z, width, deviation
        self.square, self.variance = width**2, deviation**2


@lru_cache(maxsize=1024)
def powers(x):
    """The same few places come up again and again."""
    return [x**k for k in range(9)]


class Polynomial:
    """Through (x, y, weight), by the normal equations of powers of x."""

    def __init__(self, points, degree):
        n = degree + 1
        weighted = [(y, w, powers(x)) for x, y, w in points]
        sums = [sum(w * power[k] for _, w, power in weighted) for k in range(2 * n - 1)]
        normal = matrix(n, n)
        for i in range(n):
            for j in range(n):
                normal[i, j] = sums[i + j]
        right = matrix([sum(w * y * power[k] for y, w, power in weighted) for k in range(n)])
        solved = mpmath.lu_solve(normal, right)
        self.c = [solved[k] for k in range(n)]
        self.points, self.normal = points, normal

    @cached_property
    def covariance(self):
        return self.normal**-1

    @cached_property
    def chi_squared(self):
        return sum(w * (y - self.at(x)) ** 2 for x, y, w in self.points)

    def at(self, x):
        return sum(c * power for c, power in zip(self.c, powers(x)))

    def variance(self, x):
        row = matrix(powers(x)[: len(self.c)])
        return (row.T * self.covariance * row)[0]


class Caustic:
    """A parabola through the squares of widths."""

    def __init__(self, readings, weights, middle, half):
        self.readings, self.weights = readings, weights
        self.x = [(r.z - middle) / half for r in readings]
        self.parabola = Polynomial(self.points(None), 2)
        if weights == REFINED:
            self.refine()

    def points(self, fitted):
        """With weights by the squares as read, or by those fitted."""
        if self.weights == MEASURED:
            return [(x, r.square, 1 / (4 * r.square * r.variance)) for x, r in zip(self.x, self.readings)]
        points = []
        for i, (x, r) in enumerate(zip(self.x, self.readings)):
            square = r.square if fitted is None else max(fitted[i], mpf(0))
            more = 0 if fitted is None else 2 * r.variance**2
            points.append((x, r.square - r.variance, 1 / (4 * square * r.variance + more)))
        return points

    def refine(self):
        fitted = [self.parabola.at(x) for x in self.x]
        for step in range(400):
            before = fitted
            self.parabola = Polynomial(self.points(before), 2)
            fitted = [self.parabola.at(x) for x in self.x]
            change = max(
                abs(now - was) / (abs(now) + r.variance) for now, was, r in zip(fitted, before, self.readings)
            )
            if change < STAYS:
                return
            if step > MOST_STEPS and change > mpf(10) ** -20:
                raise TooClose
        raise TooClose

    def final_points(self):
        return self.parabola.points

    def chi_squared(self):
        return self.parabola.chi_squared


def outlier(caustic, limit):
    """Place of the reading to be left out; None if there is none.

    The weights stay those of the fit with all readings, as the case against a reading is judged before it is gone.
    """
    points = caustic.final_points()
    cases = []
    for i, (x, _, w) in enumerate(points):
        if not exceeds(1 - w * caustic.parabola.variance(x), LEAST_FREEDOM):
            continue
        rest = Polynomial(points[:i] + points[i + 1 :], 2)
        fall = caustic.chi_squared() - rest.chi_squared
        cases.append((fall / max(mpf(1), rest.chi_squared / (len(points) - 4)), i))
    cases.sort(reverse=True)
    if not cases or not exceeds(cases[0][0], limit**2):
        return None
    if len(cases) > 1 and cases[0][0] - cases[1][0] <= NEAR * cases[0][0]:
        raise TooClose
    return cases[0][1]


def checked(row):
    count = int(row["readings"])
    names = range(1, count + 1)
    weights = choice("weights of readings", row["weights"])
    heights = [number("height of a test piece", row[f"height{i}"]) for i in names]
    widths = [number("beam diameter", row[f"diameter{i}"]) for i in names]
    deviations = [number("width deviation", row[f"deviation{i}"]) for i in names]
    wavelength = number("wavelength", row["wavelength"])
    limit = row["outlier_limit"]
    limit = mpf(limit) if limit == math.inf else number("outlier limit", limit)
    confidence = number("confidence", row["confidence"])
    if row["mark_dose_ratio"] != 0.0:
        number("any dose ratio", row["mark_dose_ratio"])
    if count < 4:
        raise Refused(UNDETERMINED, "readings to fit")
    if len(set(heights)) < 3:
        raise Refused(UNDETERMINED, "different heights")
    readings = [Reading(*given) for given in zip(heights, widths, deviations)]
    return readings, weights, wavelength, limit, confidence


def fit_beam(row):
    readings, weights, wavelength, limit, confidence = checked(row)
    count = len(readings)
    low, high = min(r.z for r in readings), max(r.z for r in readings)
    middle, half = (low + high) / 2, (high - low) / 2
    kept = list(range(count))
    again = lambda: Caustic([readings[i] for i in kept], weights, middle, half)  # noqa: E731
    leave_out_the_ill_conditioned(again())
    caustic = again()
    for _ in range(count // 4):
        if len(kept) <= 5 or limit == math.inf:
            break
        out = outlier(caustic, limit)
        if out is None:
            break
        del kept[out]
        if len({readings[i].z for i in kept}) < 3:
            raise TooClose
        caustic = again()
    leave_out_the_ill_conditioned(caustic)
    used = [readings[i] for i in kept]
    a, b, c = caustic.parabola.c
    nu = len(used) - 3
    reduced = caustic.chi_squared() / nu
    beyond = exceeds(reduced, mpf(1))
    enlarged = reduced if beyond else mpf(1)
    cov = caustic.parabola.covariance * enlarged
    if not exceeds(c / sqrt(cov[2, 2]), mpf(3)):
        raise Refused(UNDETERMINED, "significance of the curvature")
    x0 = -b / (2 * c)
    square = a - b**2 / (4 * c)
    by_square = matrix([1, -b / (2 * c), b**2 / (4 * c**2)])
    var_square = (by_square.T * cov * by_square)[0]
    if not exceeds(square / sqrt(var_square), mpf(2)):
        raise Refused(UNDETERMINED, "significance of the waist")
    results = lambda a, b, c: (  # noqa: E731
        middle - half * b / (2 * c),
        sqrt(a - b**2 / (4 * c)),
        half * sqrt(a / c - b**2 / (4 * c**2)),
        sqrt(c) / half,
        pi * sqrt(a * c - b**2 / 4) / (4 * wavelength * half),
    )
    z0, waist, rayleigh, theta, m2 = results(a, b, c)
    log_waist = by_square / (2 * square)
    log_theta = matrix([0, 0, 1 / (2 * c)])
    slopes = {
        "waist_z": half * matrix([0, -1 / (2 * c), b / (2 * c**2)]),
        "waist_diameter": waist * log_waist,
        "rayleigh_range": rayleigh * (log_waist - log_theta),
        "divergence_full_angle": theta * log_theta,
        "m2": m2 * (log_waist + log_theta),
    }
    values = dict(zip(slopes, (z0, waist, rayleigh, theta, m2)))
    shared = lambda one, other: (slopes[one].T * cov * slopes[other])[0]  # noqa: E731
    factor = student(1 - confidence, mpf(nu)) if beyond else sqrt(2) * mpmath.erfinv(confidence)
    answer = {}
    biases = curved(results, (a, b, c), cov) if weights == REFINED else [mpf(0)] * 5
    for (name, value), bias in zip(values.items(), biases):
        deviation = sqrt(shared(name, name))
        bias = min(max(bias, -deviation), deviation)
        least, greatest = value - bias - factor * deviation, value - bias + factor * deviation
        answer |= {
            name: value - bias,
            f"{name}_deviation": deviation,
            f"{name}_least": least,
            f"{name}_greatest": greatest,
            f"{name}_bias": bias,
        }
        error = abs(value) + abs(bias) + factor * deviation
        if name == "waist_z":
            error += abs(middle) + half
        answer[f"{name}_least_ulp"] = allowed(ULP_RANGE, error / abs(least))
        answer[f"{name}_greatest_ulp"] = allowed(ULP_RANGE, error / abs(greatest))
        # The parts of which a bias is made are as great as this.
        if name == "waist_z":
            part = half * cov[2, 2] / c**2 * (1 + x0**2 + square / c)
        else:
            part = deviation**2 / value + value * shared("waist_z", "waist_z") / rayleigh**2
        answer[f"{name}_bias_ulp"] = allowed(ULP_RANGE, 1 + part / abs(bias)) if bias else 0
    computed("z", answer["waist_z"])
    computed("waist diameter", answer["waist_diameter"])
    computed("Rayleigh range", answer["rayleigh_range"])
    computed("divergence full angle", answer["divergence_full_angle"])
    computed("M squared", max(answer["m2"], mpf(1) + NEAR * 2))
    for name, one, other in (
        ("z_diameter", "waist_z", "waist_diameter"),
        ("z_range", "waist_z", "rayleigh_range"),
        ("diameter_range", "waist_diameter", "rayleigh_range"),
    ):
        correlation = shared(one, other) / sqrt(shared(one, one) * shared(other, other))
        answer[f"{name}_correlation"] = correlation
        answer[f"{name}_correlation_ulp"] = allowed(ULP, 1 / abs(correlation))
    chance = gammainc(mpf(nu) / 2, caustic.chi_squared() / 2, mpmath.inf, regularized=True)
    off = [(r.z - answer["waist_z"]) / answer["rayleigh_range"] for r in used]
    near = sum(not exceeds(abs(o), mpf(1)) for o in off)
    far = sum(exceeds(abs(o), mpf(2)) for o in off)
    higher, bends_down = higher_terms(caustic, nu)
    answer |= {
        "chi_squared": caustic.chi_squared(),
        "degrees_of_freedom": nu,
        "chi_squared_chance": chance,
        "higher_terms_chance": higher,
        "readings_used": len(used),
        "readings_near": near,
        "readings_far": far,
    }
    no_beam = not exceeds(answer["m2_greatest"], mpf(1))
    below, above = sum(o < 0 for o in off), sum(o > 0 for o in off)
    flags = [
        len({r.z for r in used}) < 10,
        10 * near < 3 * len(used),
        10 * far < 3 * len(used),
        below == 0 or above == 0,
        below < 2 or above < 2,
        not exceeds(answer["m2"], mpf(1)),
        no_beam,
        not exceeds(higher, UNLIKELY),
        row["mark_dose_ratio"] != 0.0 or no_beam or bends_down,
        not exceeds(chance, UNLIKELY),
        exceeds(chance, 1 - UNLIKELY),
        exceeds(answer["divergence_full_angle"], mpf("0.3")),
    ]
    answer["warnings"] = sum(1 << bit for bit, flag in enumerate(flags) if flag)
    for i in range(PLACES):
        residual = mpf(0)
        if i < count:
            fitted = waist * sqrt(1 + ((readings[i].z - z0) / rayleigh) ** 2)
            residual = readings[i].width - fitted
        answer[f"residual{i + 1}"] = residual
        factor = (fitted + readings[i].width) / abs(residual) if residual else mpf(1)
        answer[f"residual{i + 1}_ulp"] = allowed(ULP, factor)
        answer[f"used{i + 1}"] = int(i in kept)
    half_chi = caustic.chi_squared() / 2
    density = exp(mpf(nu) / 2 * mpmath.log(half_chi) - half_chi - mpmath.loggamma(mpf(nu) / 2))
    answer["chi_squared_chance_ulp"] = allowed(CHANCE_ULP, 1 + density / chance)
    answer["higher_terms_chance_ulp"] = allowed(CHANCE_ULP, 1 + abs(mpmath.log(higher)))
    answer["waist_z_ulp"] = allowed(ULP, 1 + (abs(middle) + half) / abs(answer["waist_z"]))
    return answer


def curved(results, at, covariance):
    """What curvature adds to the mean of each result, to second order."""
    root = mpmath.cholesky(covariance)
    step = mpf(10) ** -18
    biases = [mpf(0)] * 5
    middle = results(*at)
    for k in range(3):
        up, down = (results(*(x + side * step * root[i, k] for i, x in enumerate(at))) for side in (1, -1))
        for i in range(5):
            biases[i] += (up[i] - 2 * middle[i] + down[i]) / (2 * step**2)
    return biases


def higher_terms(caustic, nu):
    """Chance of what two more terms take from chi^2, and whether the fourth clearly bends down."""
    points = caustic.final_points()
    if len(points) < 6 or len({x for x, _, _ in points}) < 5:
        return mpf(1), False
    quartic = Polynomial(points, 4)
    gain = caustic.chi_squared() - quartic.chi_squared
    scatter = max(quartic.chi_squared / (nu - 2), mpf(1))
    chance = exp(-gain / scatter / 2)
    bend = quartic.c[4] / sqrt(quartic.covariance[4, 4] * scatter)
    # 1 % of a normal law lies beyond this.
    return chance, exceeds(-bend, sqrt(2) * mpmath.erfinv(1 - 2 * UNLIKELY))


def leave_out_the_ill_conditioned(caustic):
    """Numbers of which a double keeps only a few digits, whatever the method."""
    points = caustic.final_points()
    total = sum(w * y**2 for _, y, w in points)
    if caustic.chi_squared() < LEAST_SCATTER**2 * total:
        raise TooClose
    weights = [w for _, _, w in points]
    if max(weights) > GREATEST_WEIGHT_RATIO * min(weights):
        raise TooClose
    # What of the curvature the heights can tell: x runs from -1 to 1.
    if 1 / (caustic.parabola.covariance[2, 2] * sum(weights)) < LEAST_SPREAD:
        raise TooClose
