"""Rows for maps of heights."""

import math

import beams
from checks import PARAMETERS, Refused, TooClose
from model_beam import checked_beam
from model_depth import criterion_number, half_range
from model_height_map import PLACES, SMALLEST_STROKE, in_focus_mask, map_heights
from strata import Function, Slot
from strata_focus import (
    CRITERION_SLOTS,
    UNREACHABLE,
    by_criterion,
    drop_far,
    drop_near_zero,
    drop_ordinary,
    growth_far,
    growth_near_one,
    growth_ordinary,
)
from strata_optics import CONE, ROUND

HEIGHTS = [Slot(f"z{i}", "z") for i in PLACES]
FOCUS = Slot("focus_z", "focus z")


def focus_height(draws, zr):
    wide = draws.sign() * beams.within(draws, "focus z", zr / 9, zr * 9)
    return draws.choice((0.0, draws.nice(-2e-3, 2e-3), wide))


def height(draws, focus, offset):
    """A height so far from focus, as far as heights go."""
    _, least, greatest = PARAMETERS["z"]
    return min(max(focus + offset, least), greatest)


def places(draws, beam, place, missing=8):
    """Six heights about a focus, the first by `place`, the others ordinary; one in `missing` is not known.

    Only one is drawn by `place`, for of several that hardly grow no double tells which is least.
    """
    zr = beams.rayleigh(beam)
    row = beam | {"focus_z": focus_height(draws, zr)}
    for i in PLACES:
        offset = (place if i == 1 else beams.z_ordinary)(draws, zr)
        row[f"z{i}"] = math.nan if draws.one_in(missing) else height(draws, row["focus_z"], offset)
    return row


def quantity(draws, row):
    """One of the quantities; a dose ratio that is not read is junk."""
    code = draws.randint(1, 5)
    ratio = draws.choice((draws.nice(1.1, 5.0), 1.0 + draws.octaves(1e-6, 9e5)))
    return row | {"quantity": code, "dose_ratio": ratio if code == SMALLEST_STROKE else draws.anything()}


def mapped(draws, beam, place, missing=8):
    return quantity(draws, places(draws, beam, place, missing))


def mirrored(draws):
    """Heights in pairs alike from focus: the first of a pair is the extreme."""
    row = mapped(draws, beams.any_round(draws), beams.z_ordinary, missing=12)
    row["focus_z"] = draws.choice((0.0, -0.0))
    for i in (1, 3, 5):
        row[f"z{i + 1}"] = -row[f"z{i}"]
    return row


def in_steps(draws):
    """A surface read to a hundredth of a millimetre, level but for a step."""
    row = quantity(draws, beams.focused(draws) | {"focus_z": draws.nice(-1e-3, 1e-3, 2)})
    levels = [draws.nice(-2e-3, 2e-3, 2) for _ in range(2)]
    return row | {f"z{i}": draws.choice(levels) for i in PLACES}


def masked(draws, growth, drop):
    """A criterion, and heights of which some meet it."""
    while True:
        row = places(draws, beams.any_round(draws), beams.z_ordinary)
        row = by_criterion(draws, row, row["waist_diameter"], growth, drop)
        half = half_of(row)
        for i in PLACES:
            if not draws.one_in(8):
                row[f"z{i}"] = row["focus_z"] + half * draws.evenly(-1.0, 1.0) * draws.choice((1.0, 2.0))
        if half > 0.0 and all(math.isnan(row[f"z{i}"]) or abs(row[f"z{i}"]) < 1e7 for i in PLACES):
            return row


def half_of(row):
    """The half range to some digits, only to scale what is drawn next; 0 if there is none."""
    criterion = row["criterion"]
    try:
        return float(half_range(checked_beam(row), criterion, criterion_number(row, criterion)))
    except (Refused, TooClose):
        return 0.0


def mask_free(draws):
    """Many of these are no beams, or have a waist wider than is allowed."""
    beam = beams.wide(draws) if draws.one_in(2) else beams.free(draws)
    row = by_criterion(draws, beam, draws.octaves(1e-9, 1.0), growth_ordinary, drop_ordinary)
    return row | {"focus_z": 0.0} | {f"z{i}": draws.evenly(-1.0, 1.0) for i in PLACES}


def map_free(draws):
    row = quantity(draws, beams.free(draws) | {"focus_z": draws.evenly(-1.0, 1.0)})
    return row | {f"z{i}": draws.evenly(-1.0, 1.0) for i in PLACES}


FUNCTIONS = [
    Function(
        map_heights,
        [*ROUND, FOCUS, Slot("dose_ratio", "dose ratio", {"quantity": SMALLEST_STROKE}), *HEIGHTS],
        [
            ("ordinary", 4, lambda d: mapped(d, beams.focused(d), beams.z_ordinary)),
            ("wide", 3, lambda d: mapped(d, beams.wide(d), beams.z_ordinary)),
            ("near-waist", 1, lambda d: mapped(d, beams.any_round(d), beams.z_near_waist)),
            ("far-field", 1, lambda d: mapped(d, beams.any_round(d), beams.z_far)),
            ("growth-near-1", 1, lambda d: mapped(d, beams.any_round(d), beams.z_growth_near_one)),
            ("missing", 1, lambda d: mapped(d, beams.focused(d), beams.z_ordinary, d.randint(1, 2))),
            ("mirrored", 1, mirrored),
            ("in-steps", 1, in_steps),
        ],
        choices={"quantity": "height quantity"},
        computed_refusals=[CONE],
        free=map_free,
        wanted_rows=600,
    ),
    Function(
        in_focus_mask,
        [*ROUND, FOCUS, *CRITERION_SLOTS, *HEIGHTS],
        [
            ("ordinary", 3, lambda d: masked(d, growth_ordinary, drop_ordinary)),
            ("far-field", 1, lambda d: masked(d, growth_far, drop_far)),
            ("growth-near-1", 1, lambda d: masked(d, growth_near_one, drop_near_zero)),
        ],
        choices={"criterion": "depth criterion"},
        computed_refusals=[CONE, (UNREACHABLE, "largest diameter")],
        free=mask_free,
        wanted_rows=500,
    ),
]
