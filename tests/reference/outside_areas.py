#!/usr/bin/env python3
"""How the area of a surface divides between heights, by numeric integration with a general-purpose library.

    python3 -m pip install -r tests/reference/requirements-outside.txt
    python3 tests/reference/outside_areas.py [--out tests/tables/areas.csv]

Written from the definition of each shape (see the README of tests/tables), not from the model's formulas: a share
is the integral over x of the length in y over which the height is at most a level, over the area. That length is
the root of a line or of a circle; scipy's quad integrates it over x, between the places at which it bends. Mean and
standard deviation are scipy's dblquad of z and of (z - mean)^2. Errors are those that scipy states, added up.

Not part of the generation of the vectors: it needs a package that those do without.
"""

import argparse
import math
import random
from pathlib import Path

import scipy
from scipy.integrate import dblquad, quad
from scipy.optimize import brentq

COLUMNS = (
    "package",
    "shape",
    "slope_x",
    "slope_y",
    "radius_m",
    "bulge",
    "crown_x_m",
    "crown_y_m",
    "axis_angle_rad",
    "grid_x_m",
    "grid_y_m",
    "grid_z_m",
    "x_least_m",
    "x_greatest_m",
    "y_least_m",
    "y_greatest_m",
    "toward_lens_z_m",
    "away_from_lens_z_m",
    "toward_lens",
    "in_focus",
    "away_from_lens",
    "unknown_share",
    "share_error",
    "mean_m",
    "deviation_m",
    "moment_error_m",
)
# Ends of the bands, as shares of the range of heights.
BANDS = ((-0.1, 0.3), (0.2, 0.6), (0.45, 0.47), (0.35, 1.1), (0.0, 1.0))


class Piece:
    """A rectangle over which the height is one formula."""

    def __init__(self, x, y):
        self.x, self.y = x, y

    @property
    def area(self):
        return (self.x[1] - self.x[0]) * (self.y[1] - self.y[0])

    def length_below(self, x, level):
        """Length in y over which the height is at most `level`."""
        low, high = self.ends_below(x, level)
        return max(0.0, min(high, self.y[1]) - max(low, self.y[0]))

    def bends(self, level):
        """Places in x between which the length is smooth: found where it begins or ceases to be cut by an edge."""
        left, right = self.x
        places = [left + (right - left) * i / 1000 for i in range(1001)]
        found = {left, right}
        for function in self.deciders(level):
            values = [function(x) for x in places]
            for (a, u), (b, v) in zip(zip(places, values), zip(places[1:], values[1:])):
                if u == 0.0:
                    found.add(a)
                elif u * v < 0.0:
                    found.add(brentq(function, a, b, xtol=1e-17, rtol=1e-15))
        return sorted(found)

    def area_below(self, level):
        """The area at most at `level`, and the error that quad states."""
        total, error = 0.0, 0.0
        bends = self.bends(level)
        for a, b in zip(bends, bends[1:]):
            middle, half = 0.5 * (a + b), 0.5 * (b - a)

            # x = middle - half cos(angle): the length leaves its ends as a root, which this makes smooth.
            def along(angle):
                return self.length_below(middle - half * math.cos(angle), level) * half * math.sin(angle)

            value, stated = quad(along, 0.0, math.pi, epsabs=1e-14 * self.area, epsrel=1e-13, limit=200)
            total, error = total + value, error + stated
        return total, error

    def integral(self, function):
        return dblquad(lambda y, x: function(self.z(x, y)), *self.x, *self.y, epsabs=0.0, epsrel=1e-13)


class Bilinear(Piece):
    """z = a + b u + c v + d u v with u, v from 0 to 1 over a cell, of which this is a part."""

    def __init__(self, cell_x, cell_y, z, x, y):
        super().__init__(x, y)
        self.cell_x, self.cell_y, self.corners = cell_x, cell_y, z

    def edges(self, x):
        """Heights at both ends in y of the whole cell."""
        u = (x - self.cell_x[0]) / (self.cell_x[1] - self.cell_x[0])
        z00, z10, z01, z11 = self.corners
        return z00 * (1 - u) + z10 * u, z01 * (1 - u) + z11 * u

    def z(self, x, y):
        near, far = self.edges(x)
        v = (y - self.cell_y[0]) / (self.cell_y[1] - self.cell_y[0])
        return near * (1 - v) + far * v

    def ends_below(self, x, level):
        near, far = self.edges(x)
        if near == far:
            return (-math.inf, math.inf) if near <= level else (math.inf, -math.inf)
        at = self.cell_y[0] + (self.cell_y[1] - self.cell_y[0]) * (level - near) / (far - near)
        return (-math.inf, at) if far > near else (at, math.inf)

    def deciders(self, level):
        return [
            lambda x: self.z(x, self.y[0]) - level,
            lambda x: self.z(x, self.y[1]) - level,
            lambda x: self.edges(x)[1] - self.edges(x)[0],
        ]

    def extremes(self):
        return [self.z(x, y) for x in self.x for y in self.y]


class Round(Piece):
    """z = sx dx + sy dy + s (R - sqrt(R^2 - t^2)), t the distance from the crown, s = 1 toward the lens, else -1."""

    def __init__(self, row, x, y):
        super().__init__(x, y)
        self.radius, self.sign = row["radius_m"], 1.0 if row["bulge"] == "toward" else -1.0
        self.crown = row["crown_x_m"], row["crown_y_m"]
        self.slopes = row["slope_x"], row["slope_y"]
        self.turn = None if row["shape"] == "sphere" else row["axis_angle_rad"]

    def squared_distance(self, dx, dy):
        if self.turn is None:
            return dx * dx + dy * dy
        return (dy * math.cos(self.turn) - dx * math.sin(self.turn)) ** 2

    def z(self, x, y):
        dx, dy = x - self.crown[0], y - self.crown[1]
        squared = self.squared_distance(dx, dy)
        sag = squared / (self.radius + math.sqrt(self.radius**2 - squared))
        return self.slopes[0] * dx + self.slopes[1] * dy + self.sign * sag

    def square(self, x, level):
        """Coefficients of a q^2 + 2 b q + c <= 0, q from the crown in y: s z <= s level.

        sqrt(R^2 - t^2) >= R - s (level - sx dx - sy q), squared; t^2 = p q^2 - 2 r q + w.
        """
        dx = x - self.crown[0]
        if self.turn is None:
            p, r, w = 1.0, 0.0, dx * dx
        else:
            sine, cosine = math.sin(self.turn), math.cos(self.turn)
            p, r, w = cosine**2, dx * sine * cosine, (dx * sine) ** 2
        slope = self.sign * self.slopes[1]
        drop = self.sign * (level - self.slopes[0] * dx)
        m = self.radius - drop
        assert m - abs(slope) * (abs(self.y[0] - self.crown[1]) + abs(self.y[1] - self.crown[1])) > 0.0
        # m^2 - R^2 = -drop (2 R - drop)
        return p + slope**2, m * slope - r, w - drop * (2 * self.radius - drop)

    def ends(self, x, level):
        a, b, c = self.square(x, level)
        inside = b * b - a * c
        if inside <= 0.0:
            return None
        far = -b - math.copysign(math.sqrt(inside), b)
        roots = sorted((far / a, c / far))
        return roots[0] + self.crown[1], roots[1] + self.crown[1]

    def length_below(self, x, level):
        ends = self.ends(x, level)
        cut = 0.0 if ends is None else max(0.0, min(ends[1], self.y[1]) - max(ends[0], self.y[0]))
        # What bulges away is at most at the level outside of the roots.
        return cut if self.sign > 0.0 else self.y[1] - self.y[0] - cut

    def deciders(self, level):
        def inside(x):
            a, b, c = self.square(x, level)
            return b * b - a * c

        return [inside, *(lambda x, y=y: self.z(x, y) - level for y in self.y)]

    def extremes(self):
        places = [[low + (high - low) * i / 400 for i in range(401)] for low, high in (self.x, self.y)]
        return [self.z(x, y) for x in places[0] for y in places[1]]


def pieces_of(row):
    """The surface over the region in rectangles, as far as it is known."""
    x, y = ((row[f"{axis}_least_m"], row[f"{axis}_greatest_m"]) for axis in "xy")
    if row["shape"] in ("cylinder", "sphere"):
        return [Round(row, x, y)]
    if row["shape"] == "plane":
        z = [row["slope_x"] * px + row["slope_y"] * py for py in y for px in x]
        return [Bilinear(x, y, z, x, y)]
    columns, rows, heights = row["grid_x_m"], row["grid_y_m"], row["grid_z_m"]
    found = []
    for i, cell_x in enumerate(zip(columns, columns[1:])):
        for j, cell_y in enumerate(zip(rows, rows[1:])):
            z = [heights[k * len(columns) + h] for k in (j, j + 1) for h in (i, i + 1)]
            part_x = max(cell_x[0], x[0]), min(cell_x[1], x[1])
            part_y = max(cell_y[0], y[0]), min(cell_y[1], y[1])
            if part_x[0] < part_x[1] and part_y[0] < part_y[1] and not any(map(math.isnan, z)):
                found.append(Bilinear(cell_x, cell_y, z, part_x, part_y))
    return found


def answered(row):
    """The row once for each band, with its answers."""
    pieces = pieces_of(row)
    known = math.fsum(piece.area for piece in pieces)
    whole = (row["x_greatest_m"] - row["x_least_m"]) * (row["y_greatest_m"] - row["y_least_m"])
    heights = [z for piece in pieces for z in piece.extremes()]
    highest, extent = min(heights), max(heights) - min(heights)
    scale = extent or 1e-4
    # In ranges, and more than zero: so nothing cancels.
    first = [piece.integral(lambda z: 1 + (z - highest) / scale) for piece in pieces]
    mean = highest + scale * (math.fsum(value for value, _ in first) / known - 1)
    moment_error = scale * math.fsum(error for _, error in first) / known
    deviation = 0.0
    if extent > 0.0:
        second = [piece.integral(lambda z: 1 + ((z - mean) / scale) ** 2) for piece in pieces]
        deviation = scale * math.sqrt(math.fsum(value for value, _ in second) / known - 1)
        moment_error += scale**2 * math.fsum(error for _, error in second) / known / (2 * deviation)
    for near, far in BANDS if extent > 0.0 else ((-0.5, 0.5),):
        band = [float(f"{highest + share * scale:.9g}") for share in (near, far)]
        below = [[piece.area_below(level) for piece in pieces] for level in band]
        shares = [math.fsum(value for value, _ in areas) / known for areas in below]
        error = math.fsum(stated for areas in below for _, stated in areas) / known
        yield row | {
            "toward_lens_z_m": band[0],
            "away_from_lens_z_m": band[1],
            "toward_lens": shares[0],
            "in_focus": shares[1] - shares[0],
            "away_from_lens": 1.0 - shares[1],
            "unknown_share": 1.0 - known / whole if known < whole * (1 - 1e-12) else 0.0,
            "share_error": error,
            "mean_m": mean,
            "deviation_m": deviation,
            "moment_error_m": moment_error,
        }


def region(x_least, x_greatest, y_least, y_greatest):
    return {"x_least_m": x_least, "x_greatest_m": x_greatest, "y_least_m": y_least, "y_greatest_m": y_greatest}


def plane(slope_x, slope_y, *ends):
    return {"shape": "plane", "slope_x": slope_x, "slope_y": slope_y} | region(*ends)


def cylinder(radius, bulge, crown, turn, slopes, *ends):
    return sphere(radius, bulge, crown, slopes, *ends) | {"shape": "cylinder", "axis_angle_rad": turn}


def sphere(radius, bulge, crown, slopes, *ends):
    numbers = {"shape": "sphere", "radius_m": radius, "bulge": bulge, "crown_x_m": crown[0], "crown_y_m": crown[1]}
    return numbers | {"slope_x": slopes[0], "slope_y": slopes[1]} | region(*ends)


def grid(x, y, z, *ends):
    return {"shape": "grid", "grid_x_m": x, "grid_y_m": y, "grid_z_m": z} | region(*ends)


def cell(*z):
    """One cell of 40 mm x 30 mm, heights in mm."""
    return grid([0.0, 0.04], [0.0, 0.03], [h * 1e-3 for h in z], 0.0, 0.04, 0.0, 0.03)


def cases():
    yield plane(0.01, 0.0, 0.0, 0.06, 0.0, 0.04)
    yield plane(0.003, -0.007, -0.03, 0.03, -0.01, 0.05)
    yield plane(-2e-6, 1e-9, -0.5, 0.5, 0.0, 0.2)
    yield plane(0.0, 0.0, 0.0, 0.06, 0.0, 0.04)
    # A saddle; one level edge; a level diagonal; a nearly plane one, and one that is twisted by its last digits.
    yield cell(0.0, 0.4, 0.3, -0.2)
    yield cell(0.1, 0.1, 0.3, 0.5)
    yield cell(0.2, -0.1, 0.4, 0.2)
    yield cell(0.0, 0.3, 0.2, 0.500001)
    yield cell(0.0, 0.3, 0.2, 0.5 + 4e-16)
    draws = random.Random(5)
    for _ in range(6):
        yield cell(*(round(draws.uniform(-1.0, 1.0), 3) for _ in range(4)))
    x, y = [-0.06, -0.02, 0.01, 0.06], [0.0, 0.008, 0.02]
    z = [round(draws.uniform(-0.3, 0.3), 3) * 1e-3 for _ in range(12)]
    yield grid(x, y, z, -0.06, 0.06, 0.0, 0.02)
    yield grid(x, y, z, -0.035, 0.0475, 0.003, 0.0125)
    yield grid(x, y, [*z[:7], math.nan, *z[8:]], -0.06, 0.06, 0.0, 0.02)
    yield grid(x, y, [math.nan, *z[1:]], -0.07, 0.05, -0.005, 0.025)
    x, y = [0.01 * i for i in range(7)], [0.02 * i for i in range(5)]
    z = [round(0.2 * math.hypot(px - 0.03, py - 0.03) ** 2 + draws.uniform(-2e-5, 2e-5), 7) for py in y for px in x]
    for hole in (3, 16, 17, 30):
        z[hole] = math.nan
    yield grid(x, y, z, 0.0, 0.06, 0.0, 0.08)

    level, middle = (0.0, 0.0), (0.0, 0.0)
    yield cylinder(0.025, "toward", middle, 0.0, level, -0.03, 0.03, -0.006, 0.006)
    yield cylinder(0.025, "toward", middle, 0.0, level, -0.03, 0.03, -0.016, 0.016)
    yield cylinder(0.05, "toward", (0.002, -0.003), 0.6, (0.01, -0.004), -0.02, 0.015, -0.012, 0.01)
    yield cylinder(0.05, "away", (0.0, 0.004), -1.2, level, -0.02, 0.02, -0.01, 0.012)
    yield cylinder(2.0, "toward", (0.05, 0.0), 1.5707963267948966, (0.0, 0.002), -0.06, 0.06, 0.0, 0.02)
    yield sphere(0.25, "toward", middle, level, -0.06, 0.06, -0.06, 0.06)
    yield sphere(0.1, "toward", (0.01, -0.02), level, -0.03, 0.05, -0.04, 0.01)
    yield sphere(0.05, "toward", middle, level, -0.022, 0.022, -0.022, 0.022)
    yield sphere(0.1, "away", (0.004, 0.0), (0.02, -0.03), -0.02, 0.03, -0.03, 0.02)
    yield sphere(5.0, "toward", (0.2, 0.0), level, -0.06, 0.06, 0.0, 0.02)


def written(value):
    if isinstance(value, list):
        return " ".join(map(repr, value))
    return value if isinstance(value, str) else repr(value)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--out", type=Path, default=Path("tests/tables/areas.csv"))
    lines = [",".join(COLUMNS)]
    for case in cases():
        for row in answered(case | {"package": f"scipy {scipy.__version__}"}):
            lines.append(",".join(written(row.get(name, "")) for name in COLUMNS))
    parser.parse_args().out.write_text("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
