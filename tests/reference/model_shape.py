"""Shapes of a surface: heights z, + away from the lens, slopes, and extremes over a rectangle.

  plane      z = sx x + sy y
  cylinder   z = sx dx + sy dy +- (R - sqrt(R^2 - t^2)), t the distance of (dx, dy) from the axis direction:
             the cross product of the axis' unit vector (cos a, sin a) with (dx, dy)
  sphere     the same with t^2 = dx^2 + dy^2
  steps      a height for each strip
  grid       in each cell interpolated along x on two sides, then along y between these (bilinear)

+ where it bulges toward the lens; (dx, dy) is the place less the crown. The sag is Pythagoras' as it stands,
with digits to spare. The incidence angle has the tangent sqrt(zx^2 + zy^2), the slopes being the derivatives.

Extremes. Of a leaning cylinder or sphere a stationary place is where the surface is parallel to the plane:
on the arc of radius r that an edge cuts, at the angle atan(slope) from its crown, so at r sin(atan(slope));
on a sphere at the foot of its normal (-sx, -sy, 1), a radius away from the centre. Corners, stationary places
on edges, and that inside are compared. A grid is cut by the lines of the region and its own into rectangles, in
each of which the corners are compared.

Sine and cosine of the axis angle are known to a double's digits only, which matters where t is a small
difference. Outputs of a cylinder are allowed what one ulp of either makes of them: that is the condition
number.
"""

import math

from mpmath import atan, cos, mp, mpf, sin, sqrt, workdps

from checks import (
    NEAR,
    OUT_OF_RANGE,
    OUTSIDE_MODEL,
    PARAMETERS,
    UNDETERMINED,
    Refused,
    TooClose,
    allowed,
    choice,
    number,
    number_within,
)

PLANE, CYLINDER, SPHERE, STEPS, GRID = 1, 2, 3, 4, 5
TOWARD_LENS = 1
COLUMNS, ROWS = 4, 4
# Half an ulp of a double, and how a row's ulp is written for each output.
UNIT = mpf(2) ** -53
# Differences below this part of what they are made of are ties; rows between it and NEAR are left out, of cells
# (whose numbers are exact but for interpolation, carried to twice a double's digits) those up to NEAR_IN_CELLS.
TIE = mpf(10) ** -40
NEAR_IN_CELLS = mpf(10) ** -25
# Digits for a sag that is as small as a double can be.
SAG_DIGITS = 1400

PLACE_ULP = {"z": 0.75, "slope_x": 0.75, "slope_y": 0.75, "incidence": 1.5, "stretch": 0.75, "irradiance_factor": 0.75}
EXTREMES_ULP = {
    **dict.fromkeys(("highest_z", "highest_x", "highest_y", "lowest_z", "lowest_x", "lowest_y", "range"), 0.75),
    "steepest_incidence": 1.5,
}


def drop(radius, distance):
    """How far an arc lies behind its crown, at this distance from it."""
    with workdps(SAG_DIGITS):
        return radius - sqrt(radius**2 - distance**2)


class Smooth:
    """A plane, cylinder or sphere."""

    def __init__(self, sx, sy, radius=None, side=0, crown=(0, 0), axis=None):
        self.sx, self.sy, self.radius, self.side, self.axis = sx, sy, radius, side, axis
        self.cx, self.cy = crown

    def turned_axes(self):
        """The same with the sine, and with the cosine, of its axis off by half an ulp."""
        if self.axis is None or self.axis[1] == 0:
            return []
        c, s = self.axis
        axes = ((c * (1 + UNIT), s), (c, s * (1 + UNIT)))
        return [Smooth(self.sx, self.sy, self.radius, self.side, (self.cx, self.cy), axis) for axis in axes]

    def distance(self, x, y):
        """Distance from the crown, with the side of the crown line for a cylinder."""
        dx, dy = x - self.cx, y - self.cy
        if self.axis is not None:
            c, s = self.axis
            return c * dy - s * dx
        return sqrt(dx**2 + dy**2)

    def check_on_the_part(self, x, y):
        if self.radius is None:
            return
        distance = abs(self.distance(x, y))
        if abs(distance - self.radius) <= NEAR * self.radius:
            raise TooClose
        if distance > self.radius:
            raise Refused(OUTSIDE_MODEL, "distance from the crown")

    def z(self, x, y):
        level = self.sx * (x - self.cx) + self.sy * (y - self.cy)
        if self.radius is None:
            return level
        return level + self.side * drop(self.radius, self.distance(x, y))

    def slopes(self, x, y):
        if self.radius is None:
            return self.sx, self.sy
        t = self.distance(x, y)
        over = self.side / sqrt((self.radius - t) * (self.radius + t))
        if self.axis is not None:
            c, s = self.axis
            return self.sx - s * t * over, self.sy + c * t * over
        return self.sx + (x - self.cx) * over, self.sy + (y - self.cy) * over

    def stationary(self, region):
        """Places where the slope along an edge vanishes, or any slope does."""
        if self.radius is None:
            return
        xs, ys = (region[0], region[1]), (region[2], region[3])
        if self.axis is not None:
            c, s = self.axis
            for x in xs:
                if c != 0:
                    t = -self.side * self.radius * sin(atan(self.sy / c))
                    yield x, self.cy + (t + s * (x - self.cx)) / c
            for y in ys:
                if s != 0:
                    t = self.side * self.radius * sin(atan(self.sx / s))
                    yield self.cx + (c * (y - self.cy) - t) / s, y
            return
        for x in xs:
            arc = sqrt(self.radius**2 - (x - self.cx) ** 2)
            yield x, self.cy - self.side * arc * sin(atan(self.sy))
        for y in ys:
            arc = sqrt(self.radius**2 - (y - self.cy) ** 2)
            yield self.cx - self.side * arc * sin(atan(self.sx)), y
        normal = sqrt(1 + self.sx**2 + self.sy**2)
        yield (
            self.cx - self.side * self.radius * self.sx / normal,
            self.cy - self.side * self.radius * self.sy / normal,
        )

    def size(self, region):
        """What a height is made of: its parts may cancel."""
        return max(
            abs(self.sx * (x - self.cx))
            + abs(self.sy * (y - self.cy))
            + (0 if self.radius is None else drop(self.radius, self.distance(x, y)))
            for x, y in corners(region)
        )


def corners(region):
    x0, x1, y0, y1 = region
    return [(x0, y0), (x1, y0), (x0, y1), (x1, y1)]


class Cells:
    """Rectangles with heights at their corners; steps are such, as long as need be."""

    def __init__(self, xs, ys, height):
        # height(i, j): the heights at the corners of the cell, None where a probe found nothing
        self.xs, self.ys, self.height = xs, ys, height

    def cell(self, i, j):
        x0, x1, y0, y1 = self.xs[i], self.xs[i + 1], self.ys[j], self.ys[j + 1]
        return (x0, x1, y0, y1), self.height(i, j)

    def cells(self):
        for j in range(len(self.ys) - 1):
            for i in range(len(self.xs) - 1):
                yield i, j


def in_cell(area, heights, x, y):
    """Height and slopes within a cell."""
    x0, x1, y0, y1 = area
    z00, z10, z01, z11 = heights
    near = z00 + (z10 - z00) * (x - x0) / (x1 - x0)
    far = z01 + (z11 - z01) * (x - x0) / (x1 - x0)
    left = (z01 - z00) / (y1 - y0)
    right = (z11 - z10) / (y1 - y0)
    along_near = (z10 - z00) / (x1 - x0)
    along_far = (z11 - z01) / (x1 - x0)
    z = near + (far - near) * (y - y0) / (y1 - y0)
    zx = along_near + (along_far - along_near) * (y - y0) / (y1 - y0)
    zy = left + (right - left) * (x - x0) / (x1 - x0)
    return z, zx, zy


def ascending(place, spacing, values):
    exact = [number(place, value) for value in values[:1]]
    for before, value in zip(values, values[1:]):
        exact.append(number(place, value))
        number(spacing, float(value - before))
    return exact


def checked_surface(row):
    shape = choice("surface shape", row["surface"])
    if shape in (CYLINDER, SPHERE):
        side = 1 if choice("bulge", row["bulge"]) == TOWARD_LENS else -1
    if shape == PLANE:
        return Smooth(number("slope in x", row["slope_x"]), number("slope in y", row["slope_y"]))
    if shape in (CYLINDER, SPHERE):
        radius = number("radius of curvature", row["curvature_radius"])
        crown = number("crown x", row["crown_x"]), number("crown y", row["crown_y"])
        axis = None
        if shape == CYLINDER:
            angle = number("axis angle", row["axis_angle"])
            axis = cos(angle), sin(angle)
        sx, sy = number("slope in x", row["slope_x"]), number("slope in y", row["slope_y"])
        return Smooth(sx, sy, radius, side, crown, axis)
    columns, rows = int(row["columns"]), int(row["rows"])
    xs = [row[f"grid_x{i}"] for i in range(1, columns + 1)]
    ys = [row[f"grid_y{i}"] for i in range(1, rows + 1)]
    if shape == STEPS:
        if columns < PARAMETERS["number of step edges"][1]:
            raise Refused(OUT_OF_RANGE, "number of step edges")
        xs = ascending("step edge", "step width", xs)
        heights = [number("step height", row[f"probe{i}"]) for i in range(1, columns)]
        return Cells(xs, None, lambda i, j: [heights[i]] * 4)
    for count, name in ((columns, "number of grid columns"), (rows, "number of grid rows")):
        if count < PARAMETERS[name][1]:
            raise Refused(OUT_OF_RANGE, name)
    xs, ys = ascending("grid x", "grid spacing", xs), ascending("grid y", "grid spacing", ys)
    probes = [row[f"probe{i}"] for i in range(1, columns * rows + 1)]
    probes = [None if math.isnan(z) else number("probed height", z) for z in probes]
    if sum(z is not None for z in probes) < PARAMETERS["known probes"][1]:
        raise Refused(UNDETERMINED, "known probes")
    places = ((0, 0), (1, 0), (0, 1), (1, 1))
    return Cells(xs, ys, lambda i, j: [probes[(j + b) * columns + i + a] for a, b in places])


def touching(values, place):
    """Intervals that hold a place, the later one first."""
    return [i for i in reversed(range(len(values) - 1)) if values[i] <= place <= values[i + 1]]


def facet_at(surface, x, y):
    """Height and slopes; refused where there is no surface."""
    if isinstance(surface, Smooth):
        surface.check_on_the_part(x, y)
        return surface.z(x, y), *surface.slopes(x, y)
    number_within("place x", float(x), float(surface.xs[0]), float(surface.xs[-1]))
    if surface.ys is None:
        return surface.height(touching(surface.xs, x)[0], 0)[0], mpf(0), mpf(0)
    number_within("place y", float(y), float(surface.ys[0]), float(surface.ys[-1]))
    for i in touching(surface.xs, x):
        for j in touching(surface.ys, y):
            area, heights = surface.cell(i, j)
            if None not in heights:
                return in_cell(area, heights, x, y)
    raise Refused(UNDETERMINED, "known probes")


def place_outputs(facet):
    z, zx, zy = facet
    steep = sqrt(zx**2 + zy**2)
    return {
        "z": z,
        "slope_x": zx,
        "slope_y": zy,
        "incidence": atan(steep),
        "stretch": sqrt(1 + steep**2),
        "irradiance_factor": 1 / sqrt(1 + steep**2),
    }


def with_ulps(outputs, others, base):
    """Adds what is allowed of each output: more where other axes give other numbers."""
    answer = dict(outputs)
    for name, ulp in base.items():
        value = outputs[name]
        change = sum(abs(other[name] - value) for other in others)
        if change == 0:
            factor = 1
        elif value == 0:
            raise TooClose
        else:
            factor = 1 + 2 * change / (UNIT * abs(value))
        answer[f"{name}_ulp"] = ulp if factor == 1 else allowed(ulp, factor)
    return answer


def surface_at(row):
    surface = checked_surface(row)
    x, y = number("place x", row["place_x"]), number("place y", row["place_y"])
    outputs = place_outputs(facet_at(surface, x, y))
    turned = surface.turned_axes() if isinstance(surface, Smooth) else []
    others = [place_outputs((other.z(x, y), *other.slopes(x, y))) for other in turned]
    return with_ulps(outputs, others, PLACE_ULP)


def checked_region(row):
    ends = []
    for axis in "xy":
        for end in ("least", "greatest"):
            number(f"region {axis}", row[f"region_{axis}_{end}"])
            ends.append(row[f"region_{axis}_{end}"])
    number("region width in x", float(ends[1] - ends[0]))
    number("region width in y", float(ends[3] - ends[2]))
    return [mpf(end) for end in ends]


def first_of_the_greatest(places, size, near):
    """Of (value, x, y) that of the greatest value; of equal ones that of least y, then of least x."""
    greatest = max(value for value, _, _ in places)
    best = []
    for value, x, y in places:
        if greatest - value <= TIE * size:
            best.append((y, x, value))
        elif greatest - value <= near * size:
            raise TooClose
    y, x, value = min(best)
    # Ties that hold but for the digits of this reference stand in one place.
    return value, x, y


def within(region, x, y):
    """Whether a stationary place lies in the region."""
    x0, x1, y0, y1 = region
    for place, least, greatest in ((x, x0, x1), (y, y0, y1)):
        size = max(abs(least), abs(greatest), abs(place))
        for end in (least, greatest):
            if TIE * size < abs(place - end) <= NEAR * size:
                raise TooClose
        if not least - TIE * size <= place <= greatest + TIE * size:
            return False
    return True


def smooth_extremes(surface, region):
    for x, y in corners(region):
        surface.check_on_the_part(x, y)
    heights, slopes = [], []
    for x, y in corners(region):
        heights.append((surface.z(x, y), x, y))
        zx, zy = surface.slopes(x, y)
        slopes.append((sqrt(zx**2 + zy**2), x, y))
    for x, y in surface.stationary(region):
        if within(region, x, y):
            heights.append((surface.z(x, y), x, y))
    return extremes(heights, slopes, surface.size(region), NEAR)


def extremes(heights, slopes, size, near):
    highest = first_of_the_greatest([(-z, x, y) for z, x, y in heights], size, near)
    lowest = first_of_the_greatest(heights, size, near)
    steepest = first_of_the_greatest(slopes, max(value for value, _, _ in slopes), near)
    return {
        "highest_z": -highest[0],
        "highest_x": highest[1],
        "highest_y": highest[2],
        "lowest_z": lowest[0],
        "lowest_x": lowest[1],
        "lowest_y": lowest[2],
        "range": lowest[0] + highest[0],
        "steepest_incidence": atan(steepest[0]),
        "steepest_x": steepest[1],
        "steepest_y": steepest[2],
    }


def cell_extremes(surface, region):
    x0, x1, y0, y1 = region
    if surface.ys is None:
        surface = Cells(surface.xs, [y0, y1], surface.height)
    heights, slopes, missing, known = [], [], set(), mpf(0)
    for i, j in surface.cells():
        area, z = surface.cell(i, j)
        a0, a1, b0, b1 = max(area[0], x0), min(area[1], x1), max(area[2], y0), min(area[3], y1)
        if a0 >= a1 or b0 >= b1:
            continue
        if None in z:
            places = ((0, 0), (1, 0), (0, 1), (1, 1))
            missing |= {(i + a, j + b) for (a, b), height in zip(places, z) if height is None}
            continue
        known += (a1 - a0) * (b1 - b0)
        for x, y in corners((a0, a1, b0, b1)):
            height, zx, zy = in_cell(area, z, x, y)
            heights.append((height, x, y))
            slopes.append((sqrt(zx**2 + zy**2), x, y))
    if not heights:
        raise Refused(UNDETERMINED, "known parts of the region")
    size = max(abs(z) for z, _, _ in heights)
    share = 1 - known / ((x1 - x0) * (y1 - y0))
    return {
        **extremes(heights, slopes, size, NEAR_IN_CELLS),
        "missing_probes": len(missing),
        "unknown_share": mpf(0) if share < TIE else share,
    }


def surface_extremes(row):
    surface = checked_surface(row)
    region = checked_region(row)
    if not isinstance(surface, Smooth):
        return with_ulps(cell_extremes(surface, region), [], EXTREMES_ULP)
    known = {"missing_probes": 0, "unknown_share": mpf(0)}
    outputs = smooth_extremes(surface, region) | known
    others = [smooth_extremes(other, region) for other in surface.turned_axes()]
    return with_ulps(outputs, others, EXTREMES_ULP)


assert mp.dps >= 70
