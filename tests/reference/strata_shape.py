"""Rows for shapes of a surface."""

import math

from checks import OUT_OF_RANGE, OUTSIDE_MODEL, UNDETERMINED
from model_shape import (
    COLUMNS,
    CYLINDER,
    GRID,
    PLANE,
    ROWS,
    SPHERE,
    STEPS,
    surface_at,
    surface_extremes,
)
from strata import Function, Slot

NUMBERS = ("slope_x", "slope_y", "curvature_radius", "crown_x", "crown_y", "axis_angle")
PLACES_X = [f"grid_x{i}" for i in range(1, COLUMNS + 1)]
PLACES_Y = [f"grid_y{i}" for i in range(1, ROWS + 1)]
PROBES = [f"probe{i}" for i in range(1, COLUMNS * ROWS + 1)]


def blank(draws, surface):
    """What this shape does not read may be anything."""
    row = {name: draws.anything() for name in (*NUMBERS, *PLACES_X, *PLACES_Y, *PROBES)}
    return row | {"surface": surface, "bulge": draws.randint(1, 2), "columns": 4.0, "rows": 4.0}


def lean(draws):
    if draws.one_in(3):
        return draws.choice((0.0, -0.0))
    return draws.sign() * draws.choice((draws.nice(0.0, 0.1), draws.octaves(1e-6, 2.0)))


def size_of(draws):
    """About how large a part is."""
    return draws.octaves(1e-3, 1.0) if draws.one_in(2) else draws.nice(0.005, 0.3)


def coordinate(draws, size):
    return draws.choice((0.0, draws.sign() * draws.nice(0.0, 1.0) * size, draws.evenly(-size, size)))


def with_place(draws, row, about, size):
    """A place not farther than `size` from this one."""
    return row | {
        "place_x": about[0] + coordinate(draws, size),
        "place_y": about[1] + coordinate(draws, size),
    }


def with_region(draws, row, about, size):
    """A rectangle whose corners are not farther than `size` from this place, often around it."""
    ends = {}
    for axis, middle in zip("xy", about):
        if draws.one_in(3):
            half = draws.evenly(0.05, 0.7) * size
            least, greatest = middle - half, middle + half
        else:
            least, greatest = sorted(middle + draws.evenly(-0.7, 0.7) * size for _ in range(2))
        ends |= {f"region_{axis}_least": least, f"region_{axis}_greatest": greatest}
    return row | ends


def plane(draws):
    row = blank(draws, PLANE) | {"slope_x": lean(draws), "slope_y": lean(draws)}
    return row, (coordinate(draws, 0.5), coordinate(draws, 0.5)), size_of(draws)


def round_part(draws, surface, radius, reach):
    """A cylinder or sphere, and how far from its crown to look."""
    crown = coordinate(draws, 0.5), coordinate(draws, 0.5)
    row = blank(draws, surface) | {
        "slope_x": lean(draws),
        "slope_y": lean(draws),
        "curvature_radius": radius,
        "crown_x": crown[0],
        "crown_y": crown[1],
        "axis_angle": 0.0 if surface == CYLINDER else draws.anything(),
    }
    return row, crown, reach * radius


def bar(draws):
    return round_part(draws, CYLINDER, size_of(draws), 1.0)


def angle(draws):
    quarter = draws.randint(-4, 4) * math.pi / 2
    return draws.choice((draws.nice(-3.2, 3.2), draws.evenly(-10.0, 10.0), quarter, draws.tiny()))


def turned_bar(draws):
    row, crown, reach = bar(draws)
    return row | {"axis_angle": angle(draws)}, crown, 0.7 * reach


def dome(draws):
    return round_part(draws, SPHERE, size_of(draws), 0.7)


def near_the_crown(draws):
    """So near the crown that hardly anything of the sag is left."""
    row, crown, _ = draws.choice((bar, turned_bar, dome))(draws)
    return row | {"crown_x": 0.0, "crown_y": 0.0}, (0.0, 0.0), draws.octaves(1e-12, 1e-4) * row["curvature_radius"]


def nearly_flat(draws):
    """A radius so large that a part is nearly a plane."""
    surface = draws.choice((CYLINDER, SPHERE))
    row, crown, _ = round_part(draws, surface, draws.octaves(1e2, 1e9), 1.0)
    row |= {"axis_angle": angle(draws)} if surface == CYLINDER else {}
    return row, crown, size_of(draws)


def wide(draws):
    """Any radius, and anything on it."""
    surface = draws.choice((CYLINDER, SPHERE))
    radius = draws.octaves(1e-6, 1e3)
    row, crown, reach = round_part(draws, surface, radius, 0.7 * draws.octaves(1e-6, 1.0))
    row |= {"axis_angle": draws.choice((0.0, angle(draws)))} if surface == CYLINDER else {}
    return row | {"crown_x": 0.0, "crown_y": 0.0}, (0.0, 0.0), reach


def near_the_rim(draws):
    """A place where the part is nearly upright."""
    surface = draws.choice((CYLINDER, SPHERE))
    radius = draws.octaves(1e-3, 1.0)
    row, _, _ = round_part(draws, surface, radius, 1.0)
    off = draws.sign() * radius * (1.0 - draws.octaves(1e-8, 0.02))
    return row | {"crown_x": 0.0, "crown_y": 0.0, "place_x": 0.0, "place_y": off}


def across_the_rim(draws):
    """A region from one side nearly to the other."""
    surface = draws.choice((CYLINDER, SPHERE))
    radius = draws.octaves(1e-3, 1.0)
    row, _, _ = round_part(draws, surface, radius, 1.0)
    least, greatest = (radius * (1.0 - draws.octaves(1e-8, 0.1)) for _ in range(2))
    narrow = radius * draws.octaves(1e-6, 1e-4)
    ends = {"region_x_least": 0.0, "region_x_greatest": narrow}
    ends |= {"region_y_least": -least, "region_y_greatest": greatest}
    return row | {"crown_x": 0.0, "crown_y": 0.0} | ends


def list_of_places(draws, count, spacing):
    place = coordinate(draws, 0.3)
    places = [place]
    for _ in range(count - 1):
        place = float(f"{place + spacing(draws):.12g}")
        places.append(place)
    return places


def some_spacing(draws):
    """Alike for all, or not; as people space probes, or not."""
    common = draws.nice(1e-3, 0.05)
    return draws.choice(
        (lambda _: common, lambda d: d.nice(1e-3, 0.05), lambda d: d.octaves(1e-4, 0.5))
    )


def probed_height(draws):
    return draws.choice(
        (draws.sign() * draws.nice(0.0, 2e-3), draws.evenly(-1e-3, 1e-3), draws.choice((0.0, 0.5e-3)))
    )


def steps(draws):
    edges = draws.randint(2, COLUMNS)
    row = blank(draws, STEPS) | {"columns": float(edges)}
    places = list_of_places(draws, edges, some_spacing(draws))
    row |= dict(zip(PLACES_X, places)) | {name: probed_height(draws) for name in PROBES[: edges - 1]}
    return row, places, [-1.0, 1.0]


def grid(draws, height=probed_height):
    columns, rows = draws.randint(2, COLUMNS), draws.randint(2, ROWS)
    row = blank(draws, GRID) | {"columns": float(columns), "rows": float(rows)}
    xs = list_of_places(draws, columns, some_spacing(draws))
    ys = list_of_places(draws, rows, some_spacing(draws))
    row |= dict(zip(PLACES_X, xs)) | dict(zip(PLACES_Y, ys))
    return row | {name: height(draws) for name in PROBES[: columns * rows]}, xs, ys


def high_and_flat(draws):
    """Heights that differ in their last digits only."""
    base = draws.nice(0.1, 1.0)
    return grid(draws, lambda d: base * (1.0 + d.randint(-9, 9) * 2.0**-50))


def with_holes(draws):
    row, xs, ys = grid(draws)
    count = len(xs) * len(ys)
    for name in draws.sample(PROBES[:count], draws.randint(1, max(1, count // 4))):
        row[name] = math.nan
    return row, xs, ys


def between(draws, places):
    return draws.evenly(places[0], places[-1])


def inside(draws, cells):
    """A place between probes or edges."""
    row, xs, ys = cells(draws)
    return row | {"place_x": between(draws, xs), "place_y": between(draws, ys)}


def on_a_line(draws, cells):
    """A place on an edge between cells, or on a probe."""
    row, xs, ys = cells(draws)
    x, y = draws.choice(xs), draws.choice(ys)
    beside = draws.randrange(3)
    return row | {
        "place_x": between(draws, xs) if beside == 0 else x,
        "place_y": between(draws, ys) if beside == 1 else y,
    }


def part(draws, cells):
    """A region that lies within the cells, on their lines or beside them."""
    row, xs, ys = cells(draws)
    ends = {}
    for axis, places in zip("xy", (xs, ys)):
        length = places[-1] - places[0]
        chosen = [
            draws.choice(
                (
                    draws.choice(places),
                    between(draws, places),
                    draws.evenly(places[0] - length / 2, places[-1] + length / 2),
                    between(draws, places),
                )
            )
            for _ in range(2)
        ]
        least, greatest = min(chosen), max(chosen)
        ends |= {f"region_{axis}_least": least, f"region_{axis}_greatest": greatest}
    return row | ends


def centred(draws, shape):
    """A region with the crown in its middle, so that both sides are alike."""
    row, _, reach = shape(draws)
    half_x, half_y = draws.evenly(0.05, 0.7) * reach, draws.evenly(0.05, 0.7) * reach
    level = {"slope_x": 0.0, "slope_y": 0.0} if draws.one_in(2) else {}
    ends = {"region_x_least": -half_x, "region_x_greatest": half_x}
    return row | level | {"crown_x": 0.0, "crown_y": 0.0} | ends | {
        "region_y_least": -half_y,
        "region_y_greatest": half_y,
    }


def spoilt_cells(draws):
    """Counts and spacings that no surface has."""
    row, _, _ = draws.choice((steps, grid, with_holes))(draws)
    spoilt = draws.choice(("columns", "rows", "x", "y", "holes"))
    if spoilt in ("columns", "rows"):
        return row | {spoilt: float(draws.randint(0, 1))}
    if spoilt == "holes":
        return row | {name: math.nan for name in PROBES[: len(PROBES) - draws.randint(0, 3)]}
    return row | {f"grid_{spoilt}2": row[f"grid_{spoilt}1"] + draws.choice((0.0, -1e-3, 5e-10))}


def beside(draws):
    """A place beside the part."""
    if draws.one_in(2):
        row, crown, reach = draws.choice((bar, dome))(draws)
        return row | {"place_x": crown[0], "place_y": crown[1] + reach * draws.evenly(1.5, 3.0)}
    row, xs, ys = draws.choice((steps, grid))(draws)
    off = draws.sign() * draws.evenly(1.1, 3.0) * (xs[-1] - xs[0])
    return row | {"place_x": xs[0] + off, "place_y": ys[0]}


def region_beside(draws):
    if draws.one_in(2):
        row, crown, reach = draws.choice((bar, dome))(draws)
        ends = {"region_x_least": crown[0], "region_x_greatest": crown[0] + reach}
        return row | ends | {"region_y_least": crown[1], "region_y_greatest": crown[1] + 2 * reach}
    row, xs, ys = draws.choice((steps, grid))(draws)
    ends = {"region_x_least": xs[-1] + 0.1, "region_x_greatest": xs[-1] + 0.2}
    return row | ends | {"region_y_least": ys[0], "region_y_greatest": ys[-1]}


def empty_region(draws):
    row = part(draws, grid)
    axis = draws.choice("xy")
    return row | {f"region_{axis}_greatest": row[f"region_{axis}_least"] - draws.choice((0.0, 1e-3))}


def free_place(draws):
    return draws.choice((beside, lambda d: spoilt_cells(d) | {"place_x": 0.0, "place_y": 0.0}))(draws)


def free_region(draws):
    ends = {"region_x_least": -0.1, "region_x_greatest": 0.1, "region_y_least": -0.1, "region_y_greatest": 0.1}
    return draws.choice((region_beside, empty_region, lambda d: spoilt_cells(d) | ends))(draws)


def shape_slots():
    """Each number under a shape that reads it."""
    leaning = [Slot(name, f"slope in {name[-1]}", {"surface": CYLINDER}) for name in ("slope_x", "slope_y")]
    round_ones = [
        Slot("curvature_radius", "radius of curvature", {"surface": SPHERE}),
        Slot("crown_x", "crown x", {"surface": CYLINDER}),
        Slot("crown_y", "crown y", {"surface": SPHERE}),
        Slot("axis_angle", "axis angle", {"surface": CYLINDER}),
    ]
    cells = [
        Slot("grid_x1", "step edge", {"surface": STEPS}),
        Slot("probe1", "step height", {"surface": STEPS}),
        Slot("grid_x2", "grid x", {"surface": GRID}),
        Slot("grid_y1", "grid y", {"surface": GRID}),
        Slot("probe4", "probed height", {"surface": GRID}),
    ]
    return leaning + round_ones + cells


CHOICES = {"surface": "surface shape", "bulge": "bulge"}
CELL_REFUSALS = [
    (OUTSIDE_MODEL, "distance from the crown"),
    (UNDETERMINED, "known probes"),
    (OUT_OF_RANGE, "step width"),
    (OUT_OF_RANGE, "grid spacing"),
    (OUT_OF_RANGE, "number of step edges"),
    (OUT_OF_RANGE, "number of grid columns"),
    (OUT_OF_RANGE, "number of grid rows"),
]

FUNCTIONS = [
    Function(
        surface_at,
        [*shape_slots(), Slot("place_x", "place x"), Slot("place_y", "place y")],
        [
            ("dome", 2, lambda d: with_place(d, *dome(d))),
            ("plane", 2, lambda d: with_place(d, *plane(d))),
            ("bar", 2, lambda d: with_place(d, *bar(d))),
            ("turned-bar", 3, lambda d: with_place(d, *turned_bar(d))),
            ("near-the-crown", 1, lambda d: with_place(d, *near_the_crown(d))),
            ("near-the-rim", 1, near_the_rim),
            ("nearly-flat", 1, lambda d: with_place(d, *nearly_flat(d))),
            ("wide", 2, lambda d: with_place(d, *wide(d))),
            ("steps", 1, lambda d: inside(d, steps)),
            ("probed", 3, lambda d: inside(d, grid)),
            ("holes", 2, lambda d: inside(d, with_holes)),
            ("on-a-line", 2, lambda d: on_a_line(d, d.choice((steps, grid, with_holes)))),
            ("high-and-flat", 1, lambda d: inside(d, high_and_flat)),
        ],
        choices=CHOICES,
        computed_refusals=CELL_REFUSALS,
        free=free_place,
        per_slot=2,
    ),
    Function(
        surface_extremes,
        [
            *shape_slots(),
            Slot("region_x_least", "region x"),
            Slot("region_x_greatest", "region x"),
            Slot("region_y_least", "region y"),
            Slot("region_y_greatest", "region y"),
        ],
        [
            ("dome", 3, lambda d: with_region(d, *dome(d))),
            ("plane", 2, lambda d: with_region(d, *plane(d))),
            ("bar", 2, lambda d: with_region(d, *bar(d))),
            ("turned-bar", 3, lambda d: with_region(d, *turned_bar(d))),
            ("crown-in-the-middle", 2, lambda d: centred(d, d.choice((bar, turned_bar, dome)))),
            ("near-the-crown", 1, lambda d: with_region(d, *near_the_crown(d))),
            ("near-the-rim", 1, across_the_rim),
            ("nearly-flat", 1, lambda d: with_region(d, *nearly_flat(d))),
            ("wide", 2, lambda d: with_region(d, *wide(d))),
            ("steps", 2, lambda d: part(d, steps)),
            ("probed", 3, lambda d: part(d, grid)),
            ("holes", 3, lambda d: part(d, with_holes)),
            ("high-and-flat", 1, lambda d: part(d, high_and_flat)),
        ],
        choices=CHOICES,
        computed_refusals=[
            *CELL_REFUSALS,
            (UNDETERMINED, "known parts of the region"),
            (OUT_OF_RANGE, "region width in x"),
            (OUT_OF_RANGE, "region width in y"),
        ],
        free=free_region,
        per_slot=2,
    ),
]
