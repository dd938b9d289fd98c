"""Ranges of a fit of marks by the ratio of likelihoods, for series that hardly tell spot and dose apart.

Each of z0, ln d, ln zR, ln q and ln M squared is a straight function c of the four unknowns of `model_mark_fit`. Its range
ends where half of chi squared, F, has risen by rise above the least point, with the other unknowns as good as they can be:
grad F = lambda grad c and F = least F + rise, five equations for the unknowns and lambda. They are solved by Newton's
method: in doubles, with derivatives by differences, along a path of ever larger rises, each from the one before; and from
there in many digits.

Where F at no spot at all (d = 0, q without end, and d^2 ln q as it fits best) has not risen so far, the ranges of d and M
squared end at 0 and that of q at the greatest dose of the model, and those of place and range may end there.
"""

import math

import mpmath
import numpy
from mpmath import log, matrix, mpf

from checks import NEAR, TooClose
from mark_series import PAIRS, descend, unknowns

NUMBERS = ((1, 0, 0, 0), (0, 1, 0, 0), (0, 0, 1, 0), (0, 0, 0, 1), (0, 2, -1, 0))
PATH = 6
# A step of Newton's method after which the next would change no digit that counts.
SMALL = mpf(10) ** -22
# Beyond, the fit takes a Rayleigh range to be without bounds.
LONGEST = mpf(6)


class Lost(Exception):
    """The path leads to no end."""


def summed(rows, count):
    """F, its gradient and its second derivatives."""
    value, gradient, curved = mpf(0), matrix(count, 1), matrix(count, count)
    for row in rows:
        value += row.value**2 / 2
        for i in range(count):
            gradient[i] += row.value * row.first[i]
        for bend, (i, j) in zip(row.second, PAIRS):
            if i < count:
                curved[i, j] += row.first[i] * row.first[j] + row.value * bend
    for i, j in PAIRS:
        if i < count:
            curved[j, i] = curved[i, j]
    return value, gradient, curved


def by_differences(residuals):
    """F, its gradient and its second derivatives in doubles, of residuals in doubles."""

    def gradient(at):
        r = residuals(at)
        slopes = []
        for i in range(len(at)):
            up, down = at.copy(), at.copy()
            up[i] += 1e-6
            down[i] -= 1e-6
            slopes.append((residuals(up) - residuals(down)) @ r / 2e-6)
        return numpy.array(slopes)

    def told(at):
        rows = []
        for i in range(len(at)):
            up, down = at.copy(), at.copy()
            up[i] += 1e-4
            down[i] -= 1e-4
            rows.append((gradient(up) - gradient(down)) / 2e-4)
        curved = numpy.array(rows)
        r = residuals(at)
        return r @ r / 2, gradient(at), (curved + curved.T) / 2

    return told


def newton(told, solve, at, multiplier, a, wanted, most_steps, small):
    """Unknowns and lambda where F is what is wanted and the number is at an end."""
    count = len(at)
    for _ in range(most_steps):
        value, gradient, curved = told(at)
        step = solve(value, gradient, curved, multiplier, a, wanted)
        size = max(abs(x) for x in step[:count])
        share = min(1, 1 / size) if size > 0 else 1
        at = [x + share * dx for x, dx in zip(at, step[:count])]
        multiplier += share * step[count]
        if not max(abs(x) for x in at) < 60:
            raise Lost
        if size < small:
            return at, multiplier
    raise Lost


def in_doubles(value, gradient, curved, multiplier, a, wanted):
    count = len(a)
    system = numpy.zeros((count + 1, count + 1))
    system[:count, :count], system[:count, count], system[count, :count] = curved, -a, gradient
    try:
        return numpy.linalg.solve(system, numpy.append(multiplier * a - gradient, wanted - value))
    except numpy.linalg.LinAlgError:
        raise Lost from None


def in_many_digits(value, gradient, curved, multiplier, a, wanted):
    count = len(a)
    system, right = matrix(count + 1, count + 1), matrix(count + 1, 1)
    for i in range(count):
        for j in range(count):
            system[i, j] = curved[i, j]
        system[i, count], system[count, i] = -a[i], gradient[i]
        right[i] = multiplier * a[i] - gradient[i]
    right[count] = wanted - value
    try:
        return list(mpmath.lu_solve(system, right))
    except ZeroDivisionError:
        raise Lost from None


def end(told, residuals, start, number, floor, rise, side):
    """Unknowns and lambda where the number ends, from a least point.

    `told` gives F, its gradient and its second derivatives in many digits, `residuals` are in doubles.
    """
    roughly = by_differences(residuals)
    least, a = numpy.array([float(x) for x in start]), numpy.array(number, dtype=float)
    value, _, curved = roughly(least)
    below = float(rise + floor) - value
    # From the least point straight along the number, as far as the second derivatives say.
    along = numpy.linalg.solve(curved, a)
    root = math.sqrt(2 * below / (a @ along)) / PATH
    at, multiplier = least + side * root * along, side * root
    for step in range(1, PATH + 1):
        if step > 1:
            at, multiplier = least + (numpy.array(at) - least) * step / (step - 1), multiplier * step / (step - 1)
        wanted = value + below * (step / PATH) ** 2
        at, multiplier = newton(
            lambda at: roughly(numpy.array(at)), in_doubles, at, multiplier, a, wanted, 15, 1e-6
        )
    if multiplier * side <= 0:
        raise Lost
    at = [mpf(float(x)) for x in at]
    return newton(told, in_many_digits, at, mpf(float(multiplier)), number, floor + rise, 8, SMALL)


class Edge:
    """No spot: marks as wide as b0 sqrt(1 + v), by z0, ln b0 and ln zR; None where none is found."""

    def __init__(self, series, least):
        self.series = series
        waist, log_d, log_range, log_dose = least
        start = [float(x) for x in (waist, log_d + log(log_dose / 2) / 2, log_range)]
        at, _, rests = descend(self, start)
        if not rests:
            raise TooClose
        self.at = [mpf(float(x)) for x in at]
        for _ in range(8):
            self.value, gradient, curved = self.told(self.at)
            try:
                mpmath.cholesky(curved)
                step = mpmath.lu_solve(curved, -gradient)
            except (ValueError, ZeroDivisionError):
                raise TooClose from None
            self.at = [x + dx for x, dx in zip(self.at, step)]
            if max(abs(x) for x in step) < SMALL:
                return
        raise TooClose

    def told(self, at):
        rows = []
        for mark in self.series.marks:
            row = self.series.residual_of(mark, self.squared_width(mark, at))
            if row is not None:
                rows.append(row)
        return summed(rows, 3)

    def in_doubles(self, at):
        waist, log_b, log_range = at
        z, b, sigma, _ = self.series.doubles.T
        m = math.exp(2 * log_b) * (1 + ((z - waist) * math.exp(-log_range)) ** 2)
        return self.series.left_over(m, b, sigma)

    def squared_width(self, mark, at):
        waist, log_b, log_range = unknowns(at)
        away = waist.scaled(mpf(-1)).shifted(mark.height).times(log_range.scaled(mpf(-1)).exp())
        return log_b.scaled(mpf(2)).exp().times(away.squared().shifted(mpf(1)))


def ranges(series, least, floor, rise, most_dose):
    """The least and the greatest of z0 and of the logarithms of d, zR, q and M squared, each with lambda; 0 for an open end.

    Open ends of the logarithms are given as None: nothing for d and M squared, the model's most for q.
    """

    def told(at):
        return summed([row for _, row in series.residuals(at)], 4)

    edge = Edge(series, least) if not series.known else None
    is_open = edge is not None and edge.value < floor + rise
    if edge is not None and abs(edge.value - floor - rise) < NEAR * rise:
        raise TooClose
    found = []
    for place, number in enumerate(NUMBERS):
        ends = []
        for side in (-1, 1):
            opens = (place in (1, 4) and side == -1) or (place == 3 and side == 1)
            if is_open and opens:
                ends.append((None, None))
                continue
            try:
                at, multiplier = end(told, series.in_doubles, list(least), number, floor, rise, side)
                if at[2] > LONGEST - 1:
                    raise Lost
            except Lost:
                if not is_open or place not in (0, 2):
                    raise TooClose from None
                along = (1, 0, 0) if place == 0 else (0, 0, 1)
                try:
                    at, multiplier = end(edge.told, edge.in_doubles, edge.at, along, floor, rise, side)
                except Lost:
                    raise TooClose from None
                ends.append((at[0] if place == 0 else at[2], multiplier))
                continue
            ends.append((sum(c * x for c, x in zip(number, at)), multiplier))
        found.append(ends)
    if found[3][1][0] is not None and found[3][1][0] > log(most_dose):
        found[3][1] = (None, None)
    return found
