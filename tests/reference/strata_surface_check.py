"""Rows for the check of a job whose surface has a shape."""

import math

from checks import OUT_OF_RANGE, UNDETERMINED
from model_check import FROM_DATUM, SINGLET
from model_shape import CYLINDER, GRID, PLANE, SPHERE, STEPS
from model_surface_check import surface_check
from strata import Function, Slot
from strata_check import filled, flat_work, off_focus, ordinary, real_lens, too_fine
from strata_check_marking import gaps, melt, scan, text_and_details
from strata_check_marking import real_lens as lettered_real_lens
from strata_optics import OUTSIDE_MODEL
from strata_shape import CHOICES, PLACES_X, PLACES_Y, PROBES, blank, free_region

MOST_CELLS = 5


def digits(value, count=4):
    return float(format(value, f".{count}g"))


def on(draws, job, shape):
    """A job on a surface that spans about the heights which it was drawn for."""
    row = job(draws)
    rise, fall = row["surface_rise"], row["surface_fall"]
    slack = draws.choice((0.0, 0.0, 0.1, 0.3))
    row |= {"surface_rise": digits(slack * rise), "surface_fall": digits(slack * fall)}
    # A flat surface for which nothing was drawn is as thin as foil.
    return row | shape(draws, -rise, max(fall, 1e-6 - rise)) | {"cells_per_side": float(draws.randint(1, MOST_CELLS))}


def region(draws, half_x, half_y):
    ends = {"region_x_least": -half_x, "region_x_greatest": half_x}
    return ends | {"region_y_least": -half_y, "region_y_greatest": half_y}


def tilted(draws, highest, lowest):
    half = draws.nice(5e-3, 0.1)
    slope = min(2.0, (lowest - highest) / (4 * half))
    return blank(draws, PLANE) | region(draws, half, half) | {
        "slope_x": draws.sign() * digits(slope),
        "slope_y": draws.sign() * digits(slope),
    }


def round_part(draws, highest, lowest, surface):
    sag = lowest - highest
    half = max(draws.nice(5e-3, 0.05), 1.5 * sag)
    radius = digits((half * half + sag * sag) / (2.0 * sag))
    lean = draws.choice((0.0, digits(0.1 * sag / half)))
    across = draws.choice((1.0, 0.9))
    return blank(draws, surface) | region(draws, half / 3, across * half / 1.1) | {
        "curvature_radius": min(1e9, radius),
        "crown_x": draws.choice((0.0, 0.05 * half)),
        "crown_y": draws.choice((0.0, 0.05 * half)),
        "axis_angle": 0.0,
        "slope_x": lean,
        "slope_y": draws.sign() * lean,
    }


def bar(draws, highest, lowest):
    return round_part(draws, highest, lowest, CYLINDER)


def dome(draws, highest, lowest):
    return round_part(draws, highest, lowest, SPHERE)


def heights(draws, names, highest, lowest):
    """Heights from end to end, both ends among them."""
    inner = [digits(draws.evenly(highest, lowest), 5) for _ in names]
    for at, end in zip(draws.sample(range(len(names)), 2), (highest, lowest)):
        inner[at] = end
    return dict(zip(names, inner))


def steps(draws, highest, lowest):
    count = draws.randint(3, 4)
    places = [0.01 * i for i in range(count)]
    row = blank(draws, STEPS) | {"columns": float(count)} | dict(zip(PLACES_X, places))
    return row | region(draws, 0.005 + 0.01 * count, 0.02) | heights(draws, PROBES[: count - 1], highest, lowest)


def probed(draws, highest, lowest):
    columns, rows = draws.randint(2, 4), draws.randint(2, 4)
    row = blank(draws, GRID) | {"columns": float(columns), "rows": float(rows)}
    row |= dict(zip(PLACES_X, [-0.03 + 0.02 * i for i in range(columns)]))
    row |= dict(zip(PLACES_Y, [-0.01 + 0.015 * i for i in range(rows)]))
    row |= region(draws, draws.choice((0.03, 0.02, 0.04)), draws.choice((0.01, 0.008)))
    row |= heights(draws, PROBES[: columns * rows], highest, lowest)
    if columns * rows > 6 and draws.one_in(3):
        row[draws.choice(PROBES[: columns * rows])] = math.nan
    return row


def level(draws, highest, lowest):
    """A level plane, of which the verdict is that of a job without a shape."""
    return blank(draws, PLANE) | region(draws, 0.02, 0.01) | {"slope_x": 0.0, "slope_y": 0.0}


SHAPES = (tilted, bar, dome, steps, probed)


def drawn(job, shapes=SHAPES):
    return lambda draws: on(draws, job, draws.choice(shapes))


def lettered_and_lit(draws):
    """A real lens, a scan and text at once, so that every choice is read."""
    while True:
        row = lettered_real_lens(draws)
        if row["lens"] == SINGLET:
            return row


def steep(draws):
    """A bar marked far down its side."""
    row = on(draws, ordinary, bar)
    half = row["region_y_greatest"]
    return row | {"curvature_radius": digits(half * draws.evenly(1.3, 2.5)), "slope_x": 0.0, "slope_y": 0.0}


def too_steep(draws):
    """A dose that the steepest place of a bar lowers to about what just marks."""
    row = steep(draws)
    sine = row["region_y_greatest"] / row["curvature_radius"]
    return row | {"dose_ratio": digits(max(1.01, draws.evenly(0.6, 1.3) / math.sqrt(1.0 - sine * sine)))}


def free(draws):
    """Surfaces that are none, under a job that is one, and a lens that is lowered below its surface."""
    if draws.one_in(4):
        row = filled(draws, on(draws, ordinary, draws.choice(SHAPES)))
        return row | {"focus_setting": FROM_DATUM, "focus_z": draws.nice(100.0, 1000.0)}
    return filled(draws, ordinary(draws)) | free_region(draws) | {"cells_per_side": float(draws.randint(0, 2))}


FUNCTIONS = [
    Function(
        surface_check,
        [
            Slot("slope_x", "slope in x", {"surface": PLANE}),
            Slot("curvature_radius", "radius of curvature", {"surface": CYLINDER}),
            Slot("probe1", "step height", {"surface": STEPS}),
            Slot("probe4", "probed height", {"surface": GRID}),
            Slot("region_x_least", "region x"),
            Slot("region_y_greatest", "region y"),
            Slot("surface_rise", "surface rise"),
            Slot("surface_fall", "surface fall"),
            Slot("focal_length", "focal length"),
            Slot("finest_gap", "finest gap"),
        ],
        [
            ("ordinary", 6, drawn(ordinary)),
            ("flat-work", 2, drawn(flat_work)),
            ("off-focus", 2, drawn(off_focus)),
            ("too-fine", 1, drawn(too_fine)),
            ("level", 1, drawn(ordinary, (level,))),
            ("steep", 1, steep),
            ("too-steep", 1, too_steep),
        ],
        choices=CHOICES
        | {"raw_beam": "raw beam", "focus_setting": "focus setting", "criterion": "depth criterion"},
        computed_refusals=[
            (OUTSIDE_MODEL, "distance from the crown"),
            (OUTSIDE_MODEL, "lens to highest place"),
            (UNDETERMINED, "known probes"),
            (UNDETERMINED, "known parts of the region"),
            (OUT_OF_RANGE, "region width in x"),
            (OUT_OF_RANGE, "cells per side"),
        ],
        free=free,
        per_slot=1,
        refusals_from_free=True,
        wanted_rows=250,
        finish=filled,
    ),
    Function(
        surface_check,
        [Slot("em", "em"), Slot("clear_aperture", "clear aperture", {"lens": SINGLET})],
        [
            ("all-of-it", 2, drawn(lettered_and_lit)),
            ("real-lens", 2, drawn(real_lens)),
            ("scan", 1, drawn(scan)),
            ("melt", 1, drawn(melt)),
            ("text", 2, drawn(text_and_details)),
            ("lines-on-steps", 3, drawn(gaps, (steps, steps, probed))),
        ],
        choices={
            "dose": "dose of a job",
            "response": "response",
            "lens": "lens kind",
            "glass": "glass",
            "lens_shape": "lens shape",
            "text": "text of a job",
            "typeface": "typeface",
            "least_grade": "text grade",
        },
        per_slot=1,
        wanted_rows=120,
        finish=filled,
    ),
]
