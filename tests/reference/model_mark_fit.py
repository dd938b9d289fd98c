"""Focus, spot and dose from the widths of marks at stepped heights.

The width of a mark at offset z from the waist, from the marking model: b = w sqrt(2 L) with the 1/e^2 radius
w = (d/2) sqrt(1 + (z/zR)^2) and L = ln(q rho) - (n/2) ln(1 + (z/zR)^2). The fit compares it with what was seen; where
b^2 is less than sigma^2 it goes on along the tangent. A mark that vanished counts where it should have been seen.

The least point is found in three steps that share nothing with the library: a fine grid over place, range and dose,
in doubles; Levenberg and Marquardt's method from its best points, in doubles, with derivatives by differences; and
Newton's method with second derivatives by automatic differentiation, in many digits. Its distance from the gradient's
zero is checked.

Covariance, leverages, ranges and flags are worked out from the definitions. Rows are left out where a second least
point is nearly as deep, or a valley without end is: which of them a search finds is no matter of accuracy.
"""

import math

import mpmath
import numpy
from mpmath import exp, log, matrix, mpf, pi, sqrt

from checks import NEAR, UNDETERMINED, Refused, TooClose, allowed, choice, computed, exceeds, number
from mark_series import PAIRS, Mark, Series, constants, descend, unknowns
from model_mark_ranges import ranges
from model_statistics import student

MARKS = 9
PLACES = range(1, MARKS + 1)
LEAST_SHAPE, LEAST_PLACE, LEAST_SIZE = 4, 2, 1
# Bends of the law, in deviations: above, ranges are those of the likelihood; above, sizes are said to be weak.
BENT, LARGE = mpf("0.2"), mpf("0.5")
MOST_DOSE = mpf(10) ** 6
OUTLIERS, SCATTER, M2_BELOW_ONE, WEAK_SIZE, WEAK_PLACE, ONE_SIDED = 1, 2, 4, 8, 16, 64
TOWARD_LENS, AWAY_FROM_LENS, TWICE_THE_POWER, UNTIL_THEY_VANISH, REPEATS = 1, 2, 4, 8, 16
LEAST_FREEDOM = mpf(10) ** -6
NAMES = ("waist_z", "waist_diameter", "rayleigh_range", "dose_ratio", "m2")


DOSES = numpy.log(numpy.array([1.02, 1.1, 1.3, 1.6, 2.0, 3.0, 5.0, 10.0, 40.0]))
RANGES = numpy.log(numpy.geomspace(0.06, 4.0, 13))
WAISTS = numpy.linspace(-1.3, 1.3, 27)


def grid_starts(series):
    """The best points of a fine grid, no two of one cell."""
    z, b, sigma, power = series.doubles.T
    waist, log_range, log_dose = (axis.ravel() for axis in numpy.meshgrid(WAISTS, RANGES, DOSES, indexing="ij"))
    v = ((z - waist[:, None]) * numpy.exp(-log_range)[:, None]) ** 2
    shape = (1 + v) * (log_dose[:, None] + power - float(series.half_exponent) * numpy.log1p(v))
    root = numpy.sqrt(numpy.maximum(shape, 0.0)) * (b > 0)
    weight = 1 / sigma**2
    below = (weight * root * root).sum(axis=1)
    scale = (weight * root * b).sum(axis=1) / numpy.where(below > 0, below, 1.0)
    usable = (below > 0) & (scale > 0)
    half = numpy.where(usable, scale, 1.0) ** 2
    r = (numpy.sqrt(numpy.maximum(half[:, None] * shape, 0.0)) - b) / sigma
    value = numpy.where(usable, (r * r).sum(axis=1), numpy.inf)
    kept = []
    for i in numpy.argsort(value, kind="stable"):
        if not usable[i]:
            break
        at = (waist[i], 0.5 * math.log(2 * half[i]), log_range[i], log_dose[i])
        if all(max(abs(a - b) for a, b in zip(at, other)) > 0.35 for other in kept):
            kept.append(at)
        if len(kept) == 8:
            break
    return kept


def polished(series, start):
    """Newton's method in many digits from a point near the least; None if it does not rest."""
    at = [mpf(float(x)) for x in start]
    for _ in range(40):
        rows = series.residuals(at)
        gradient, curved, normal = matrix(4, 1), matrix(4, 4), matrix(4, 4)
        for _, row in rows:
            for i in range(4):
                gradient[i] += row.value * row.first[i]
            for bend, (i, j) in zip(row.second, PAIRS):
                product = row.first[i] * row.first[j]
                normal[i, j] += product
                curved[i, j] += product + row.value * bend
        for i, j in PAIRS:
            normal[j, i], curved[j, i] = normal[i, j], curved[i, j]
        try:
            mpmath.cholesky(curved)
            step = mpmath.lu_solve(curved, -gradient)
        except (ValueError, ZeroDivisionError):
            return None
        if max(abs(x) for x in step) > mpf(1) / 2:
            return None
        at = [x + dx for x, dx in zip(at, step)]
        if max(abs(x) for x in step) < mpf(10) ** -45:
            return at, normal
    return None


class Fit:
    """The least point, with the covariance of the unknowns for deviations that are taken at their word."""

    def __init__(self, series):
        ends = [descend(series, start) for start in grid_starts(series)]
        points, unrest = [], []
        for at, value, rests in sorted(ends, key=lambda end: end[1]):
            if any(max(abs(a - b) for a, b in zip(at, other)) < 1e-3 for other, _ in points):
                continue
            found = polished(series, at) if rests and numpy.abs(at).max() < 20 else None
            if found is None:
                unrest.append(value)
            elif not any(max(abs(a - b) for a, b in zip(found[0], other[0][0])) < 1e-3 for _, other in points):
                points.append((at, (found, value)))
        if not points:
            raise TooClose
        (self.at, normal), lowest = points[0][1]
        scale = max(1.0, lowest)
        if any(value < lowest + 6.0 * scale for value in unrest):
            raise TooClose
        if any(other < lowest + 6.0 * scale for _, (_, other) in points[1:]):
            raise TooClose
        self.series, self.normal = series, normal
        self.rows = series.residuals(self.at)
        self.chi_squared = sum(row.value**2 for _, row in self.rows)
        self.covariance = normal**-1
        seen_marks = {mark.place for mark in series.marks if mark.width > 0}
        told = matrix(4, 4)
        for place, row in self.rows:
            if place is None or place in seen_marks:
                told += matrix(row.first) * matrix(row.first).T
        self.normal_of_seen = told
        try:
            self.covariance_of_seen = told**-1
        except ZeroDivisionError:
            raise TooClose from None
        seen = sum(1 for mark in series.marks if mark.width > 0)
        self.seen, self.vanished = seen, len(series.marks) - seen
        self.freedom = seen + len(series.known) - 4

    def condition(self):
        """Condition number of the normal matrix, scaled to a diagonal of 1."""
        n = self.normal_of_seen
        scaled = matrix(4, 4)
        for i in range(4):
            for j in range(4):
                scaled[i, j] = n[i, j] / sqrt(n[i, i] * n[j, j])
        return mpmath.mnorm(scaled, 1) * mpmath.mnorm(scaled**-1, 1)

    def bias(self, scale):
        """What the curvature of the law shifts z0 and the logarithms of d, zR, q and M squared by, how large its parts are, and
        how many deviations no shift exceeds.

        The mean of each residual is off by half its second derivative along every column of a square root of the
        covariance, by differences in many digits; a straight fit to these shifts is the bias. A mark that vanished pulls to
        one side only, which is all of it bias.
        """
        covariance = self.covariance_of_seen
        root = mpmath.cholesky(covariance * scale)
        step = mpf(10) ** -18
        pull, bound, size = matrix(4, 1), matrix(4, 1), matrix(4, 1)
        sharp = sum((mark.width / mark.deviation) ** 2 for mark in self.series.marks)
        jets = unknowns(self.at)
        moved = {
            (k, side): constants([x + side * step * root[i, k] for i, x in enumerate(self.at)])
            for k in range(4)
            for side in (1, -1)
        }
        for mark in self.series.marks:
            here = self.series.residual(mark, jets)
            if here is None:
                continue
            if mark.width == 0:
                for i in range(4):
                    bound[i] -= here.first[i] * here.value
                    # A residual is told to this share of the squares that all widths are in their deviations.
                    size[i] += abs(here.first[i]) * (abs(here.value) + sharp)
                continue
            shift = mpf(0)
            for k in range(4):
                up, down = (self.series.residual(mark, moved[k, side]).value for side in (1, -1))
                shift += (up - 2 * here.value + down) / (2 * step**2)
            for i in range(4):
                pull[i] -= here.first[i] * shift
                size[i] += abs(here.first[i] * shift)
        # Held back where it comes to as much as the deviations do.
        bend = sqrt((pull.T * covariance * pull)[0] / scale)
        held = (1 + (bend / LARGE) ** 4) ** (-mpf(1) / 4)
        shifts = list(covariance * (held * pull + bound))
        sizes = [sum(abs(covariance[i, j]) * size[j] for j in range(4)) for i in range(4)]
        return shifts + [2 * shifts[1] - shifts[2]], sizes + [2 * sizes[1] + sizes[2]], bend

    def outlier(self, limit):
        """Place of the mark to be left out; None if there is none."""
        if self.freedom < 2 or limit == math.inf:
            return None
        cases = []
        for place, row in self.rows:
            if place is None:
                continue
            first = matrix(row.first)
            free = 1 - (first.T * self.covariance * first)[0]
            if not exceeds(free, LEAST_FREEDOM):
                continue
            gain = row.value**2 / free
            cases.append((gain / max(mpf(1), (self.chi_squared - gain) / (self.freedom - 1)), place))
        cases.sort(reverse=True)
        if not cases or not exceeds(cases[0][0], limit**2):
            return None
        if len(cases) > 1 and cases[0][0] - cases[1][0] <= NEAR * cases[0][0]:
            raise TooClose
        return cases[0][1]

    def flat(self):
        """Chi squared of marks whose squared width is a straight line against the logarithm of power."""
        marks = self.series.marks
        seen = [m for m in marks if m.width > 0]
        weights = [(2 * m.width * m.deviation) ** -2 for m in seen]
        total = sum(weights)
        x = sum(w * m.log_power for w, m in zip(weights, seen)) / total
        y = sum(w * m.width**2 for w, m in zip(weights, seen)) / total
        slope = mpf(0)
        if len({m.log_power for m in seen}) > 1:
            xx = sum(w * (m.log_power - x) ** 2 for w, m in zip(weights, seen))
            xy = sum(w * (m.log_power - x) * (m.width**2 - y) for w, m in zip(weights, seen))
            slope = xy / xx
        chi_squared = mpf(0)
        for mark in marks:
            m, sigma = y + slope * (mark.log_power - x), mark.deviation
            s = sqrt(m) if m >= sigma**2 else (m + sigma**2) / (2 * sigma)
            if mark.width > 0 or s > 0:
                chi_squared += ((s - mark.width) / sigma) ** 2
        return chi_squared


def known_or_not(parameter, value):
    return None if value == math.inf else number(parameter, value)


def checked(row):
    """The marks, what is known of them and of how to judge them."""
    kind = choice("mark kind", row["mark_kind"])
    scatter = choice("scatter of the widths", row["scatter"])
    places = range(1, int(row["marks"]) + 1)
    heights = [number("z offset", row[f"height{i}"]) for i in places]
    widths = [mpf(0) if row[f"width{i}"] == 0 else number("mark width", row[f"width{i}"]) for i in places]
    deviations = [number("width deviation", row[f"deviation{i}"]) for i in places]
    powers = [number("power ratio", row[f"power_ratio{i}"]) for i in places]
    wavelength = number("wavelength", row["wavelength"])
    m2_deviation = known_or_not("relative deviation of what is known", row["relative_m2_deviation"])
    m2 = number("M squared", row["known_m2"]) if m2_deviation is not None else None
    d_deviation = known_or_not("relative deviation of what is known", row["relative_diameter_deviation"])
    diameter = number("waist diameter", row["known_diameter"]) if d_deviation is not None else None
    limit = known_or_not("outlier limit", row["outlier_limit"])
    confidence = number("confidence", row["confidence"])
    needed = 5 - (m2 is not None) - (diameter is not None)
    if sum(1 for b in widths if b > 0) < needed:
        raise Refused(UNDETERMINED, "marks to fit")
    if not any(min(heights) < z < max(heights) for z in heights):
        raise Refused(UNDETERMINED, "different heights")
    middle, reach = (min(heights) + max(heights)) / 2, (max(heights) - min(heights)) / 2
    widest = max(widths)
    log_m2_of_one = log(pi * widest**2 / (4 * wavelength * reach))
    known = []
    if m2 is not None:
        known.append(((0, 2, -1, 0), log(m2) - log_m2_of_one, m2_deviation))
    if diameter is not None:
        known.append(((0, 1, 0, 0), log(diameter / widest), d_deviation))
    marks = [
        Mark(i, (z - middle) / reach, b / widest, sigma / widest, power)
        for i, z, b, sigma, power in zip(places, heights, widths, deviations, powers)
    ]
    series = Series(marks, mpf(1) if kind == 1 else mpf(1) / 2, known)
    return series, (middle, reach, widest, log_m2_of_one), (scatter, limit, confidence)


def fit_mark_widths(row):
    series, (middle, reach, widest, log_m2_of_one), (scatter, limit, confidence) = checked(row)
    everything = series.marks
    fit = Fit(series)
    left_out = set()
    for _ in range(len(everything) // 4):
        out = fit.outlier(math.inf if limit is None else limit)
        if out is None:
            break
        left_out.add(out)
        series = Series([m for m in everything if m.place not in left_out], series.half_exponent, series.known)
        fit = Fit(series)
    excess = max(mpf(1), fit.chi_squared / fit.freedom)
    gain = (fit.flat() - fit.chi_squared) / excess
    significance = sqrt(gain) if gain > 0 else mpf(0)
    if not exceeds(significance, mpf(LEAST_SHAPE)):
        raise Refused(UNDETERMINED, "significance of the change of width with height")
    waist, log_d, log_range, log_dose = fit.at
    if exceeds(abs(waist), mpf(1)):
        raise Refused(UNDETERMINED, "waist within the heights of the marks")
    if scatter == 1:
        scale, factor = mpf(1), sqrt(mpf(2)) * mpmath.erfinv(confidence)
    else:
        scale, factor = fit.chi_squared / fit.freedom, student(1 - confidence, mpf(fit.freedom))
    c = fit.covariance_of_seen * scale
    z_dev, d_dev, r_dev, q_dev = (sqrt(c[i, i]) for i in range(4))
    if not exceeds(1 / z_dev, mpf(LEAST_PLACE)):
        raise Refused(UNDETERMINED, "certainty of the height of the waist")
    if not exceeds(1 / d_dev, mpf(LEAST_SIZE)):
        raise Refused(UNDETERMINED, "certainty of the waist diameter")
    diameter, rayleigh, dose = widest * exp(log_d), reach * exp(log_range), exp(log_dose)
    log_m2 = log_m2_of_one + 2 * log_d - log_range
    m2_dev = sqrt(4 * c[1, 1] + c[2, 2] - 4 * c[1, 2])

    devs = [z_dev, d_dev, r_dev, q_dev, m2_dev]
    shifts, parts, bend = fit.bias(scale)
    shifts = [min(max(shift, -dev), dev) for shift, dev in zip(shifts, devs)]
    waist_z = middle + reach * (waist - shifts[0])
    half = factor * reach * z_dev
    estimates = [[waist_z, reach * z_dev, waist_z - half, waist_z + half, reach * shifts[0]]]
    for least_squares, shift, dev in zip((diameter, rayleigh, dose, exp(log_m2)), shifts[1:], devs[1:]):
        value = least_squares * exp(-shift)
        estimates.append(
            [value, value * dev, value * exp(-factor * dev), value * exp(factor * dev), least_squares - value]
        )
    slopes = {}
    if exceeds(bend, BENT):
        found = ranges(series, fit.at, fit.chi_squared / 2, factor**2 * scale / 2, MOST_DOSE)
        of_numbers = [
            lambda x: middle + reach * x,
            lambda x: mpf(0) if x is None else widest * exp(x),
            lambda x: reach * exp(x),
            lambda x: MOST_DOSE if x is None else exp(x),
            lambda x: mpf(0) if x is None else exp(log_m2_of_one + x),
        ]
        for place, (of_number, ends) in enumerate(zip(of_numbers, found)):
            (least, low), (greatest, high) = ends
            value, dev, _, _, shift = estimates[place]
            least, greatest = of_number(least), of_number(greatest)
            held = min(max(value, least), greatest)
            estimates[place] = [held, dev, least, greatest, value + shift - held]
            slopes[place] = {"_least": low, "_greatest": high}
    for parameter, place in (("waist diameter", 1), ("Rayleigh range", 2), ("any dose ratio", 3)):
        computed(parameter, estimates[place][0])
    half_chi = fit.chi_squared / 2
    shape = mpf(fit.freedom) / 2
    chance = mpmath.gammainc(shape, half_chi, mpmath.inf, regularized=True)

    before = sum(1 for m in series.marks if m.height < waist)
    beyond = sum(1 for m in series.marks if m.height > waist)
    weak_size = exceeds(d_dev, mpf("0.2")) or exceeds(bend, LARGE)
    weak_place = exceeds(reach * z_dev / estimates[2][0], mpf("0.15"))
    cautions = OUTLIERS * bool(left_out)
    cautions |= SCATTER * (scatter == 1 and not exceeds(chance, mpf("0.01")))
    cautions |= M2_BELOW_ONE * (estimates[4][3] < 1)
    cautions |= WEAK_SIZE * weak_size | WEAK_PLACE * weak_place | ONE_SIDED * (before < 2 or beyond < 2)
    further = TOWARD_LENS * (before < 2) | AWAY_FROM_LENS * (beyond < 2)
    further |= TWICE_THE_POWER * weak_size | UNTIL_THEY_VANISH * weak_place | REPEATS * bool(left_out)

    answer = {}
    sharp = sqrt(sum((m.width / m.deviation) ** 2 for m in everything))
    condition = 1 + fit.condition()
    widen = condition + sharp * max(devs)
    for place, (name, numbers) in enumerate(zip(NAMES, estimates)):
        error = sharp * devs[place] + widen * parts[place] + (1 + abs(middle) / reach if place == 0 else 1)
        for suffix, value in zip(("", "_deviation", "_least", "_greatest", "_bias"), numbers):
            answer[name + suffix] = value
            wide = error
            if suffix:
                wide = widen if suffix == "_deviation" else error + factor * devs[place] * widen
            if suffix in slopes.get(place, {}):
                # F is told to so much, and how far the number goes with it.
                slope = slopes[place][suffix]
                risen = sqrt(fit.chi_squared + factor**2 * scale)
                wide = 0 if slope is None else 1 + sharp * risen / abs(slope) + (abs(middle) / reach if place == 0 else 0)
            if place == 0 and suffix in ("", "_least", "_greatest"):
                wide = wide * reach / abs(value)
            if suffix == "_bias":
                unit = reach if place == 0 else estimates[place][0]
                wide = widen * parts[place] * unit / abs(value) if value != 0 else 0
            answer[f"{name}{suffix}_ulp"] = allowed(BUDGETS.get(suffix, ULP), wide)
    pairs = [(0, 1), (0, 2), (0, 3), (1, 2), (1, 3), (2, 3)]
    for name, (i, j) in zip(("z_d", "z_r", "z_q", "d_r", "d_q", "r_q"), pairs):
        value = c[i, j] / sqrt(c[i, i] * c[j, j])
        answer[f"correlation_{name}"] = value
        answer[f"correlation_{name}_ulp"] = allowed(ULP_CORRELATION, widen / abs(value)) if value != 0 else 0
    answer |= {
        "range_factor": factor,
        "chi_squared": fit.chi_squared,
        "chi_squared_ulp": allowed(ULP_SQUARES, 1 + sharp / sqrt(fit.chi_squared)),
        "degrees_of_freedom": fit.freedom,
        "chance": chance,
        "chance_ulp": allowed(
            ULP_SQUARES,
            (1 + sharp / sqrt(fit.chi_squared))
            * (1 + half_chi**shape * exp(-half_chi) / (mpmath.gamma(shape) * chance)),
        ),
        "shape_significance": significance,
        "shape_significance_ulp": allowed(ULP_SQUARES, 1 + sharp / significance),
        "marks_used": fit.seen,
        "vanished_used": fit.vanished,
        "cautions": cautions,
        "further": further,
    }
    jets = constants(fit.at)
    for i in PLACES:
        answer[f"residual{i}"], answer[f"residual{i}_ulp"] = mpf(0), 0
        answer[f"used{i}"] = 0
    for mark in everything:
        left = series.residual(mark, jets)
        if left is not None:
            answer[f"residual{mark.place}"] = -left.value
            answer[f"residual{mark.place}_ulp"] = allowed(ULP, 1 + sharp * sharp / abs(left.value))
        answer[f"used{mark.place}"] = int(mark.place not in left_out)
    return answer


# Units in the last place for each unit of conditioning.
ULP, ULP_SQUARES, ULP_CORRELATION = 60, 300, 2500
BUDGETS = {"_deviation": 120, "_bias": 300}
