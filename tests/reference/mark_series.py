"""The widths of marks at stepped heights as a law of four unknowns, z0, ln d, ln zR and ln q, with its derivatives.

For `model_mark_fit` and `model_mark_ranges`.
"""

import math

import numpy
from mpmath import exp, log, log1p, mpf, sqrt


# Second derivatives do not depend on the order.
PAIRS = [(i, j) for i in range(4) for j in range(i + 1)]


class Jet:
    """A number with first derivatives by four unknowns, and with second ones by each of PAIRS; or with none."""

    def __init__(self, value, first, second):
        self.value, self.first, self.second = value, first, second

    def through(self, value, slope, bend):
        first = [slope * d for d in self.first]
        second = [slope * d + bend * self.first[i] * self.first[j] for d, (i, j) in zip(self.second, PAIRS)]
        return Jet(value, first, second)

    def plus(self, other):
        return Jet(
            self.value + other.value,
            [a + b for a, b in zip(self.first, other.first)],
            [a + b for a, b in zip(self.second, other.second)],
        )

    def shifted(self, number):
        return Jet(self.value + number, self.first, self.second)

    def times(self, other):
        a, b = self, other
        first = [d * b.value + a.value * e for d, e in zip(a.first, b.first)]
        second = [
            d * b.value + a.value * e + a.first[i] * b.first[j] + a.first[j] * b.first[i]
            for d, e, (i, j) in zip(a.second, b.second, PAIRS)
        ]
        return Jet(a.value * b.value, first, second)

    def scaled(self, factor):
        return self.through(self.value * factor, factor, mpf(0))

    def exp(self):
        e = exp(self.value)
        return self.through(e, e, e)

    def squared(self):
        return self.through(self.value**2, 2 * self.value, mpf(2))

    def log1p(self):
        over = 1 / (1 + self.value)
        return self.through(log1p(self.value), over, -(over**2))


def unknowns(at):
    jets = []
    for i, value in enumerate(at):
        first = [mpf(0)] * 4
        first[i] = mpf(1)
        jets.append(Jet(value, first, [mpf(0)] * len(PAIRS)))
    return jets


def constants(at):
    return [Jet(value, [], []) for value in at]


class Mark:
    def __init__(self, place, height, width, deviation, power):
        self.place, self.height, self.width, self.deviation = place, height, width, deviation
        self.log_power = log(power)


class Series:
    """The marks that are used, in units of half the run and of the widest mark, and what is known besides."""

    def __init__(self, marks, half_exponent, known):
        self.marks, self.half_exponent, self.known = marks, half_exponent, known
        self.doubles = numpy.array([[float(m.height), float(m.width), float(m.deviation), float(m.log_power)] for m in marks])

    def squared_width(self, mark, jets):
        waist, log_d, log_range, log_dose = jets
        away = waist.scaled(mpf(-1)).shifted(mark.height).times(log_range.scaled(mpf(-1)).exp())
        v = away.squared()
        dose = log_dose.shifted(mark.log_power).plus(v.log1p().scaled(-self.half_exponent))
        return log_d.scaled(mpf(2)).exp().scaled(mpf(1) / 2).times(v.shifted(mpf(1))).times(dose)

    def residual(self, mark, jets):
        """(s - b)/sigma; None of a mark that vanished where it should."""
        return self.residual_of(mark, self.squared_width(mark, jets))

    def residual_of(self, mark, m):
        sigma = mark.deviation
        if m.value >= sigma**2:
            root = sqrt(m.value)
            s = m.through(root, 1 / (2 * root), -1 / (4 * root**3))
        else:
            s = m.shifted(sigma**2).scaled(1 / (2 * sigma))
        if mark.width == 0 and s.value <= 0:
            return None
        return s.shifted(-mark.width).scaled(1 / sigma)

    def residuals(self, at):
        """All that count, with the place of their mark, None for what is known besides."""
        jets = unknowns(at)
        rows = [(mark.place, self.residual(mark, jets)) for mark in self.marks]
        for coefficients, target, deviation in self.known:
            sum_ = Jet(-target, [mpf(0)] * 4, [mpf(0)] * len(PAIRS))
            for coefficient, jet in zip(coefficients, jets):
                sum_ = sum_.plus(jet.scaled(mpf(coefficient)))
            rows.append((None, sum_.scaled(1 / deviation)))
        return [(place, row) for place, row in rows if row is not None]

    def in_doubles(self, at):
        """The residuals in doubles, those that do not count as 0."""
        waist, log_d, log_range, log_dose = at
        z, b, sigma, power = self.doubles.T
        v = ((z - waist) * math.exp(-log_range)) ** 2
        m = 0.5 * math.exp(2 * log_d) * (1 + v) * (log_dose + power - float(self.half_exponent) * numpy.log1p(v))
        r = self.left_over(m, b, sigma)
        extra = [
            (sum(c * x for c, x in zip(coefficients, at)) - float(target)) / float(deviation)
            for coefficients, target, deviation in self.known
        ]
        return numpy.concatenate([r, extra])

    @staticmethod
    def left_over(m, b, sigma):
        s = numpy.where(m >= sigma**2, numpy.sqrt(numpy.maximum(m, sigma**2)), (m + sigma**2) / (2 * sigma))
        return numpy.where((b == 0) & (s <= 0), 0.0, (s - b) / sigma)


def descend(series, start):
    """Levenberg and Marquardt's method in doubles: where it ends, chi squared there, and whether it came to rest."""
    at = numpy.array(start)
    r = series.in_doubles(at)
    value, damping = r @ r, 1e-3
    for _ in range(120):
        jacobian = numpy.empty((len(r), len(at)))
        for i in range(len(at)):
            step = 1e-6
            up, down = at.copy(), at.copy()
            up[i] += step
            down[i] -= step
            jacobian[:, i] = (series.in_doubles(up) - series.in_doubles(down)) / (2 * step)
        gradient, normal = jacobian.T @ r, jacobian.T @ jacobian
        for _ in range(30):
            held = normal + damping * numpy.diag(numpy.diag(normal) + 1e-30)
            try:
                step = numpy.linalg.solve(held, -gradient)
            except numpy.linalg.LinAlgError:
                damping *= 10
                continue
            if numpy.abs(at + step).max() < 50:
                there = series.in_doubles(at + step)
                if there @ there < value:
                    break
            damping *= 10
        else:
            return at, value, True
        fall = value - there @ there
        at, r, value, damping = at + step, there, there @ there, damping / 10
        if fall < 1e-10 * value:
            return at, value, True
    return at, value, False
