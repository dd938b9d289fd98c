"""Rows for shares of a surface in focus, and for the focus heights that serve it."""

import math

from mpmath import mpf, sqrt

import beams
from checks import OUT_OF_RANGE, UNDETERMINED, Refused, TooClose
from model_in_focus import focus_for_surface, region_heights, share_in_focus
from model_shape import Smooth, cell_extremes, checked_region, checked_surface, smooth_extremes
from strata import Function, Slot
from strata_focus import CRITERION_SLOTS, UNREACHABLE, by_criterion
from strata_optics import CONE, ROUND
from strata_shape import (
    CELL_REFUSALS,
    CHOICES,
    across_the_rim,
    bar,
    centred,
    dome,
    free_region,
    grid,
    high_and_flat,
    near_the_crown,
    nearly_flat,
    part,
    plane,
    shape_slots,
    steps,
    turned_bar,
    wide,
    with_holes,
    with_region,
)

MOST_CELLS = 6
REGION = [Slot(f"region_{axis}_{end}", f"region {axis}") for axis in "xy" for end in ("least", "greatest")]

# name, share of the rows, and how the surface and its region are drawn
SURFACES = [
    ("plane", 2, lambda d: with_region(d, *plane(d))),
    ("bar", 1, lambda d: with_region(d, *bar(d))),
    ("turned-bar", 2, lambda d: with_region(d, *turned_bar(d))),
    ("dome", 2, lambda d: with_region(d, *dome(d))),
    ("crown-in-the-middle", 2, lambda d: centred(d, d.choice((bar, turned_bar, dome)))),
    ("near-the-crown", 1, lambda d: with_region(d, *near_the_crown(d))),
    ("near-the-rim", 1, across_the_rim),
    ("nearly-flat", 1, lambda d: with_region(d, *nearly_flat(d))),
    ("wide", 1, lambda d: with_region(d, *wide(d))),
    ("steps", 2, lambda d: part(d, steps)),
    ("probed", 4, lambda d: part(d, grid)),
    ("nearly-plane", 3, lambda d: part(d, nearly_plane)),
    ("holes", 2, lambda d: part(d, with_holes)),
    ("high-and-flat", 1, lambda d: part(d, high_and_flat)),
]

# So little height that no beam is as narrow.
TOO_LEVEL = ("near-the-crown", "high-and-flat")


def nearly_plane(draws):
    """A grid of a plane, but for a last digit or a little more."""
    row, xs, ys = grid(draws)
    slopes = draws.sign() * draws.octaves(1e-4, 0.1), draws.choice((0.0, draws.octaves(1e-12, 0.1)))
    off = draws.choice((0.0, draws.octaves(1e-18, 1e-6)))
    for j, y in enumerate(ys):
        for i, x in enumerate(xs):
            z = slopes[0] * (x - xs[0]) + slopes[1] * (y - ys[0]) + off * draws.randint(-2, 2)
            row[f"probe{j * len(xs) + i + 1}"] = z
    return row, xs, ys


def cut(draws, row):
    return row | {"cells_per_side": float(draws.randint(1, MOST_CELLS))}


def ends_of(row):
    """Highest and lowest place; None where there is none."""
    try:
        surface, region = checked_surface(row), checked_region(row)
        find = smooth_extremes if isinstance(surface, Smooth) else cell_extremes
        extremes = find(surface, region)
    except (Refused, TooClose):
        return None
    return float(extremes["highest_z"]), float(extremes["lowest_z"])


def between_heights(draws, row):
    """A band about the surface, its ends sometimes beyond it or at a probe."""
    highest, lowest = ends_of(row) or (0.0, 1.0)

    def end():
        if draws.one_in(8):
            return draws.choice((highest, lowest, row["probe1"] if row["surface"] > 3 else highest))
        return highest + draws.evenly(-0.2, 1.2) * (lowest - highest)

    ends = sorted((end(), end()))
    if draws.one_in(10):
        ends[0] = -1.0 if draws.one_in(2) else -1e3
    if any(math.isnan(z) for z in ends):
        return None
    return cut(draws, row) | {"toward_lens_z": ends[0], "away_from_lens_z": ends[1]}


def narrow_band(draws, row):
    """So narrow that hardly anything lies within."""
    highest, lowest = ends_of(row) or (0.0, 1.0)
    start = highest + draws.evenly(0.0, 1.0) * (lowest - highest)
    end = start + draws.octaves(1e-9, 1e-2) * (lowest - highest)
    return cut(draws, row) | {"toward_lens_z": start, "away_from_lens_z": end}


def banded(draw, band=between_heights):
    def drawn(draws):
        while True:
            row = band(draws, draw(draws))
            if row is not None:
                return row

    return drawn


def growth(draws):
    return draws.nice(1.02, 2.5)


def drop(draws):
    return draws.nice(0.03, 0.8, 2)


def lit(draw, least, greatest):
    """A beam whose Rayleigh range is between these parts of the surface's range of heights."""

    def drawn(draws):
        while True:
            row = draw(draws)
            ends = ends_of(row)
            if ends is None or ends[0] == ends[1]:
                continue
            laser = beams.focused(draws)
            zr = (ends[1] - ends[0]) * draws.octaves(least, greatest)
            waist = sqrt(4 * mpf(laser["m2"]) * mpf(laser["wavelength"]) * mpf(zr) / mpf(3.14159))
            laser["waist_diameter"] = float(f"{float(waist):.4g}")
            if 1e-9 <= laser["waist_diameter"] <= 1.0 and beams.half_angle(laser) < beams.WIDEST_HALF_ANGLE:
                return cut(draws, by_criterion(draws, row | laser, laser["waist_diameter"], growth, drop))

    return drawn


def under_a_laser(draw):
    """A beam as people have it, whatever the surface."""

    def drawn(draws):
        laser = beams.focused(draws)
        row = draw(draws) | laser
        return cut(draws, by_criterion(draws, row, laser["waist_diameter"], growth, drop))

    return drawn


def with_beam(draws, row):
    laser = beams.focused(draws)
    return by_criterion(draws, row | laser, laser["waist_diameter"], growth, drop)


def free(draws):
    """A region or a number of cells that is refused."""
    if draws.one_in(4):
        row = part(draws, grid) | {"cells_per_side": draws.choice((0.0, 1001.0))}
    else:
        row = cut(draws, free_region(draws))
    return row | {"toward_lens_z": -1e-3, "away_from_lens_z": 1e-3}


def endless_probe(draws):
    """A probe at infinity, which is no hole."""
    row = cut(draws, part(draws, grid)) | {"toward_lens_z": 0.0, "away_from_lens_z": 1.0}
    return [("refused", with_beam(draws, row) | {"probe4": draws.sign() * math.inf}) for _ in range(2)]


def free_focus(draws):
    if draws.one_in(4):
        row = cut(draws, part(draws, grid)) | beams.wide(draws) | {"waist_diameter": draws.octaves(1e-9, 10.0)}
        return by_criterion(draws, row, draws.octaves(1e-9, 1.0), growth, drop)
    return with_beam(draws, free(draws))


REFUSALS = [
    *CELL_REFUSALS,
    (UNDETERMINED, "known parts of the region"),
    (OUT_OF_RANGE, "region width in x"),
    (OUT_OF_RANGE, "region width in y"),
    (OUT_OF_RANGE, "cells per side"),
]

FUNCTIONS = [
    Function(
        region_heights,
        [*shape_slots(), *REGION],
        [(name, share, lambda d, draw=draw: cut(d, draw(d))) for name, share, draw in SURFACES],
        choices=CHOICES,
        computed_refusals=REFUSALS,
        free=free,
        refusals_from_free=True,
        extra=endless_probe,
        per_slot=2,
    ),
    Function(
        share_in_focus,
        [
            *shape_slots(),
            *REGION,
            Slot("toward_lens_z", "limit toward the lens"),
            Slot("away_from_lens_z", "limit away from the lens"),
        ],
        [(name, share, banded(draw)) for name, share, draw in SURFACES]
        + [("narrow-band", 3, banded(lambda d: d.choice(SURFACES)[2](d), narrow_band))],
        choices=CHOICES,
        computed_refusals=REFUSALS,
        free=free,
        refusals_from_free=True,
        extra=endless_probe,
        per_slot=2,
        wanted_rows=380,
    ),
    Function(
        focus_for_surface,
        [*ROUND, *CRITERION_SLOTS, *shape_slots(), *REGION],
        [(name, share, lit(draw, 0.02, 0.6)) for name, share, draw in SURFACES if name not in TOO_LEVEL]
        + [("ordinary", 4, under_a_laser(lambda d: d.choice(SURFACES)[2](d)))],
        choices=CHOICES | {"criterion": "depth criterion"},
        computed_refusals=[*REFUSALS, CONE, (UNREACHABLE, "largest diameter")],
        free=free_focus,
        refusals_from_free=True,
        base=lit(lambda d: d.choice([draw for name, _, draw in SURFACES if name not in TOO_LEVEL])(d), 4.0, 40.0),
        extra=endless_probe,
        per_slot=1,
        tries=20,
        # Each takes a controller with doubles in software up to a second.
        wanted_rows=350,
    ),
]
