"""How much of a surface is in focus, and where focus serves it best.

Every surface is a list of bilinear cells: those of a grid, the strips of steps, a plane as a whole, and n x n cells
with their corners on a cylinder or sphere. From those, exactly:

  mean m and variance s^2 of the height, weighted by area
  share of the area between two heights                        model_bilinear
  mean of (d/d0)^2 with focus at f = 1 + ((m - f)^2 + s^2)/zR^2, since (d/d0)^2 = 1 + ((z - f)/zR)^2
  worst growth = sqrt(1 + u^2), u = max |z - f|/zR at the highest or lowest place

The focus height that keeps most area within the depth: the share S(f) is looked at in doubles, on a fine net of f, with
each cell's share by a sum over many narrow strips; this shows where the greatest S is. Rows with a rival elsewhere
are left out. About that place S is computed with all digits: the greatest by golden section, and from it outward
both ends of the range in which S is no more than 1e-6 less, by halving. The middle of that range is the answer.
"""

import numpy
from mpmath import mp, mpf, sqrt

from checks import (
    NEAR,
    OUT_OF_RANGE,
    PARAMETERS,
    UNREACHABLE,
    Refused,
    TooClose,
    allowed,
    choice,
    number,
    number_within,
)
from model_beam import checked_beam, widest_cone
from model_bilinear import mean, mean_square, share_below
from model_depth import BLAMED, criterion_number, half_range
from model_shape import (
    CYLINDER,
    SPHERE,
    UNIT,
    Cells as ProbedCells,
    Smooth,
    cell_extremes,
    checked_region,
    checked_surface,
    corners,
    in_cell,
    smooth_extremes,
)

LEEWAY = mpf(10) ** -6
# What the search itself is allowed: an error of this share of the depth of focus in f.
SEARCH_ERROR = mpf(10) ** -11
# What is left out of the rows: see the README of the vectors.
RIVAL = 4e-3
LEAST_SLOPE = mpf(10) ** -4
GREATEST_FACTOR = mpf(10) ** 9
DIGITS_OF_SEARCH = 40
STRIPS = 64
NET = 700


class Measured:
    """A surface of a row within its region, cut into cells."""

    def __init__(self, row):
        self.surface, self.region = checked_surface(row), checked_region(row)
        if isinstance(self.surface, Smooth):
            self.extremes = smooth_extremes(self.surface, self.region) | {"unknown_share": mpf(0)}
        else:
            self.extremes = cell_extremes(self.surface, self.region)
        _, least, greatest = PARAMETERS["cells per side"]
        if not least <= row["cells_per_side"] <= greatest:
            raise Refused(OUT_OF_RANGE, "cells per side")
        self.cells = Cells(list(self.cut(int(row["cells_per_side"]))))
        self.highest, self.lowest = self.extremes["highest_z"], self.extremes["lowest_z"]
        self.middle = (self.highest + self.lowest) / 2
        self.error = self.error_of_a_height()

    def cut(self, n):
        x0, x1, y0, y1 = self.region
        if isinstance(self.surface, Smooth):
            n = 1 if self.surface.radius is None else n
            xs = [x0 + (x1 - x0) * i / n for i in range(n + 1)]
            ys = [y0 + (y1 - y0) * i / n for i in range(n + 1)]
            z = [[self.surface.z(x, y) for x in xs] for y in ys]
            area = (x1 - x0) * (y1 - y0) / n**2
            for j in range(n):
                for i in range(n):
                    yield area, [z[j][i], z[j][i + 1], z[j + 1][i], z[j + 1][i + 1]]
            return
        cells = self.surface
        if cells.ys is None:
            cells = ProbedCells(cells.xs, [y0, y1], cells.height)
        for i, j in cells.cells():
            (a0, a1, b0, b1), z = whole = cells.cell(i, j)
            part = max(a0, x0), min(a1, x1), max(b0, y0), min(b1, y1)
            if part[0] < part[1] and part[2] < part[3] and None not in z:
                yield (part[1] - part[0]) * (part[3] - part[2]), [
                    in_cell(*whole, x, y)[0] for x, y in corners(part)
                ]

    def error_of_a_height(self):
        """What half an ulp in each step makes of a height, counted from the middle of the range."""
        size = self.lowest - self.highest
        if isinstance(self.surface, Smooth) and self.surface.radius is not None:
            surface = self.surface
            size += surface.size(self.region)
            for x, y in corners(self.region):
                zx, zy = surface.slopes(x, y)
                steep = sqrt((zx - surface.sx) ** 2 + (zy - surface.sy) ** 2)
                size += steep * (abs(x - surface.cx) + abs(y - surface.cy))
        return UNIT * size


class Cells:
    """Cells as (area, heights at (x0, y0), (x1, y0), (x0, y1), (x1, y1))."""

    def __init__(self, cells):
        self.cells = cells
        # Rounding keeps the order: what lies beyond a rounded height lies beyond the height.
        self.rounded = [(float(min(corners)), float(max(corners))) for _, corners in cells]
        self.area = sum(area for area, _ in cells)
        self.mean = sum(area * mean(corners) for area, corners in cells) / self.area
        # About the mean, so that nothing cancels that matters.
        self.variance = (
            sum(area * mean_square([z - self.mean for z in corners]) for area, corners in cells) / self.area
        )

    def share_below(self, level, or_at=False):
        below, rounded = mpf(0), float(level)
        for (area, corners), (low, high) in zip(self.cells, self.rounded):
            if rounded > high:
                below += area
            elif rounded >= low:
                below += area * share_below(corners, level, or_at)
        return below / self.area

    def split(self, toward, away):
        """Shares nearer than a band, within it, and beyond."""
        before = self.share_below(toward)
        beyond = 1 - self.share_below(away, or_at=True)
        return before, 1 - before - beyond, beyond

    def within(self, toward, away):
        return self.split(toward, away)[1]

    def corners(self):
        return [z for _, corners in self.cells for z in corners]

    def roughly_within(self, toward, away):
        """The same for many bands at once, in doubles and to about 1e-3."""
        u = (numpy.arange(STRIPS) + 0.5) / STRIPS
        total = numpy.zeros(len(toward))
        for area, corners in self.cells:
            z00, z10, z01, z11 = (float(z) for z in corners)
            z0, z1 = z00 + (z10 - z00) * u, z01 + (z11 - z01) * u
            low, high = numpy.minimum(z0, z1), numpy.maximum(z0, z1)
            common = numpy.minimum(high, away[:, None]) - numpy.maximum(low, toward[:, None])
            span = numpy.maximum(high - low, 1e-300)
            inside = (low >= toward[:, None]) & (high <= away[:, None])
            share = numpy.where(inside, 1.0, numpy.clip(common / span, 0.0, 1.0))
            total += float(area) * share.mean(axis=1)
        return total / float(self.area)


def most_in_focus(cells, highest, lowest, half):
    """The focus height, and how much a height may be in error."""
    if lowest - highest <= 2 * half:
        return (highest + lowest) / 2, mpf(0)
    if half == 0:
        raise TooClose
    with mp.workdps(DIGITS_OF_SEARCH):
        return searched(cells, highest, lowest, half)


def searched(cells, highest, lowest, half):
    # From before the first place at which a corner is in reach to beyond the last.
    start, end = float(highest - half * mpf("1.1")), float(lowest + half * mpf("1.1"))
    net = numpy.linspace(start, end, NET)
    h = float(half)
    rough = cells.roughly_within(net - h, net + h)
    near = numpy.flatnonzero(rough >= rough.max() - RIVAL)
    if near[-1] - near[0] != len(near) - 1 or near[0] == 0 or near[-1] == NET - 1:
        raise TooClose
    # Narrower than what the library tells apart.
    if (net[near[-1]] - net[near[0]]) < h / 8 or net[1] - net[0] > h / 8:
        raise TooClose
    first, last = mpf(net[near[0] - 1]), mpf(net[near[-1] + 1])

    def kept(f):
        return cells.within(f - half, f + half)

    places = [first + (last - first) * k / 24 for k in range(25)]
    shares = [kept(f) for f in places]
    best = max(range(25), key=lambda k: shares[k])
    demand_one_peak(shares, best)
    low, high = places[max(best - 1, 0)], places[min(best + 1, 24)]
    peak, greatest = golden(kept, low, high)
    if shares[best] >= greatest:
        peak, greatest = places[best], shares[best]
    least = greatest - LEEWAY
    ends = []
    for outside in (first, last):
        inside = peak
        if kept(outside) >= least:
            raise TooClose
        for _ in range(50):
            middle = (inside + outside) / 2
            if kept(middle) >= least:
                inside = middle
            else:
                outside = middle
        # Steep enough for a double to find the place.
        away = (outside - inside) / abs(outside - inside)
        if kept(inside) - kept(inside + away * half / 1000) < LEAST_SLOPE / 1000:
            raise TooClose
        ends.append(inside)
    middle = sum(ends) / 2
    if kept(middle) < least + LEEWAY / 100:
        raise TooClose
    return middle, SEARCH_ERROR * 2 * half


def demand_one_peak(shares, best):
    """S rises to the greatest and falls from it, level parts apart."""
    level = LEEWAY / 100
    rising = zip(shares[:best], shares[1 : best + 1])
    falling = zip(shares[best:], shares[best + 1 :])
    if any(b < a - level for a, b in rising) or any(b > a + level for a, b in falling):
        raise TooClose


def golden(function, low, high):
    ratio = (sqrt(mpf(5)) - 1) / 2
    a, b = high - ratio * (high - low), low + ratio * (high - low)
    at_a, at_b = function(a), function(b)
    for _ in range(60):
        if at_a >= at_b:
            high, b, at_b = b, a, at_a
            a = high - ratio * (high - low)
            at_a = function(a)
        else:
            low, a, at_a = a, b, at_b
            b = low + ratio * (high - low)
            at_b = function(b)
    return (a, at_a) if at_a >= at_b else (b, at_b)


def factor(value, error):
    """What this error makes of half an ulp of a value."""
    if value == 0:
        if error != 0:
            raise TooClose
        return mpf(1)
    found = 1 + error / (UNIT * abs(value))
    # Of this number a double tells next to nothing.
    if found > GREATEST_FACTOR:
        raise TooClose
    return found


def with_factors(outputs, factors, base):
    return outputs | {f"{name}_ulp": allowed(base, factors[name]) for name in factors}


HEIGHT_ULP = 1
SHARE_ULP = 2
FOCUS_ULP = 2


def region_heights(row):
    measured = Measured(row)
    cells = measured.cells
    outputs = {
        "mean_z": cells.mean,
        "z_deviation": sqrt(cells.variance),
        "highest_z": measured.highest,
        "lowest_z": measured.lowest,
        "unknown_share": measured.extremes["unknown_share"],
    }
    factors = {
        name: factor(outputs[name], measured.error) for name in ("mean_z", "z_deviation", "highest_z", "lowest_z")
    }
    return with_factors(outputs, factors, HEIGHT_ULP)


def shares_and_factors(cells, toward, away, error):
    """Shares as `Cells.split`, and what an error of the heights, or of half an ulp of the area, makes of each."""
    found = cells.split(toward, away)
    factors = []
    others = [cells.split(toward + a * error, away + b * error) for a, b in ((1, 1), (-1, -1), (1, -1), (-1, 1))]
    for i, share in enumerate(found):
        change = max(abs(other[i] - share) for other in others)
        # A level part at an end, or one that nearly is.
        if change > mpf(10) ** -6:
            raise TooClose
        factors.append(factor(share, change + (UNIT if 0 < share < 1 else 0)))
    return found, factors


def share_in_focus(row):
    measured = Measured(row)
    toward = number("limit toward the lens", row["toward_lens_z"])
    _, _, greatest = PARAMETERS["limit away from the lens"]
    away = number_within("limit away from the lens", row["away_from_lens_z"], row["toward_lens_z"], greatest)
    # Ends are counted from the middle of the range as well.
    error = measured.error + UNIT * min(
        abs(toward - measured.middle) + abs(away - measured.middle), 2 * (measured.lowest - measured.highest)
    )
    if measured.lowest == measured.highest:
        error = mpf(0)
    shares, factors = shares_and_factors(measured.cells, toward, away, error)
    names = ("toward_lens", "in_focus", "away_from_lens")
    outputs = dict(zip(names, shares)) | {"unknown_share": measured.extremes["unknown_share"]}
    return with_factors(outputs, dict(zip(names, factors)), SHARE_ULP)


def focus_for_surface(row):
    criterion = choice("depth criterion", row["criterion"])
    # Choices come first.
    if choice("surface shape", row["surface"]) in (CYLINDER, SPHERE):
        choice("bulge", row["bulge"])
    beam = checked_beam(row)
    half = half_range(beam, criterion, criterion_number(row, criterion))
    if half is None:
        raise Refused(UNREACHABLE, BLAMED[criterion])
    measured = Measured(row)
    cells, zr = measured.cells, beam.rayleigh_range
    full, size = 2 * half, measured.lowest - measured.highest
    if size != 0 and abs(size - full) <= NEAR * size:
        raise TooClose
    most, search_error = most_in_focus(cells, measured.highest, measured.lowest, half)
    error = measured.error + UNIT * (abs(measured.highest) + abs(measured.lowest))
    outputs, factors = {}, {}
    for name, focus, more in (
        ("worst", measured.middle, 0),
        ("mean", cells.mean, measured.error),
        ("most", most, search_error),
    ):
        off = max(measured.lowest - focus, focus - measured.highest)
        wrong = error + more
        share, (_, share_factor, _) = shares_and_factors(
            cells, focus - half, focus + half, wrong + 2 * UNIT * half if size != 0 else mpf(0)
        )
        growth = sqrt(1 + (off / zr) ** 2)
        area = 1 + ((cells.mean - focus) ** 2 + cells.variance) / zr**2
        worse = 1 + ((abs(cells.mean - focus) + wrong) ** 2 + (sqrt(cells.variance) + wrong) ** 2) / zr**2
        outputs |= {
            f"{name}_focus_z": focus,
            f"{name}_worst_growth": growth,
            f"{name}_mean_area_growth": area,
            f"{name}_share_in_focus": share[1],
        }
        factors |= {
            f"{name}_focus_z": factor(focus, wrong),
            f"{name}_worst_growth": factor(growth, sqrt(1 + ((off + wrong) / zr) ** 2) - growth),
            f"{name}_mean_area_growth": factor(area, worse - area),
            f"{name}_share_in_focus": share_factor,
        }
    outputs |= {"unknown_share": measured.extremes["unknown_share"], **widest_cone([beam], 0)}
    return with_factors(outputs, factors, FOCUS_ULP)
