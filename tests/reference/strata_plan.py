"""Rows for planned series of test pieces, and for their drift."""

import math

import beams
from checks import OUTSIDE_MODEL
from model_plan import plan_series, series_drift
from strata import Function, Slot
from strata_optics import CONE, ROUND

SIZES = ("piece_width", "piece_height", "label_width", "label_height")


def base(draws, beam, purpose):
    """A request with room enough on every side."""
    row = beam | {
        "purpose": purpose,
        "mark_kind": draws.randint(1, 2) if purpose == 2 else draws.randint(0, 3),
        "dose_ratio": draws.nice(1.05, 3.0) if purpose == 2 else draws.anything(),
        "expected_focus_z": draws.choice((0.0, -0.0, 0.1, draws.nice(-0.05, 0.05))),
        "focus_uncertainty": 0.0,
        "series_step": 0.0,
        "series_half_range": 0.0,
        "axis_step": 0.0,
        "backlash": draws.choice((0.0, draws.nice(0.0, 0.1e-3))),
        "sweep_direction": draws.randint(1, 2),
        "clearance": draws.nice(10.0, 100.0),
        "least_clearance": draws.nice(0.0, 5e-3),
        "travel_toward_lens": math.inf,
        "travel_away_from_lens": math.inf,
        "piece_gap": draws.choice((0.0, draws.nice(0.5e-3, 4e-3))),
    }
    row |= {name: draws.nice(1e-3, 12e-3) for name in SIZES}
    cell = max(row["piece_width"], row["label_width"])
    row["row_width"] = draws.choice((math.inf, cell, cell * draws.evenly(1.0, 12.0)))
    return row


def zr(beam):
    return beams.rayleigh(beam)


def widths(draws):
    return base(draws, beams.focused(draws), 1)


def vanishing(draws):
    return base(draws, beams.focused(draws), 2)


def given(draws):
    """Step and range of the caller's own, or a coarse axis."""
    row = base(draws, beams.focused(draws), draws.randint(1, 2))
    step = zr(row) * draws.nice(0.1, 1.5)
    row |= {"series_step": step, "series_half_range": step * draws.nice(0.4, 5.4)}
    if draws.one_in(2):
        row["axis_step"] = step * draws.choice((0.01, 0.3, 1.0, 1.7))
    return row


def uncertain(draws):
    row = base(draws, beams.focused(draws), 1)
    return row | {"focus_uncertainty": zr(row) * draws.nice(0.1, 2.0), "series_step": zr(row) * draws.nice(0.75, 1.2)}


def hemmed_in(draws):
    """Hardly room on one side or both."""
    row = base(draws, beams.focused(draws), draws.randint(1, 2))
    step = zr(row) * 0.4
    row |= {"series_step": step, "series_half_range": step * 4.9, "backlash": step * draws.choice((0.0, 0.2, 0.9))}
    limits = {
        "clearance": row["least_clearance"] + step * draws.nice(2.0, 5.5),
        "travel_toward_lens": step * draws.nice(2.0, 5.5),
        "travel_away_from_lens": step * draws.nice(2.0, 5.5),
    }
    return row | {name: limits[name] for name in limits if draws.one_in(2)}


def wide(draws):
    return base(draws, beams.wide(draws), draws.randint(1, 2))


def free(draws):
    if draws.one_in(8):
        return base(draws, beams.free(draws), 1)
    row = draws.choice((given, hemmed_in, wide))(draws)
    name = draws.choice(("series_step", "series_half_range", "clearance", "travel_away_from_lens", "expected_focus_z"))
    least, greatest = {"expected_focus_z": (1e-3, 1e3), "clearance": (1e-6, 1e2)}.get(name, (1e-9, 1e3))
    return row | {name: draws.octaves(least, greatest)}


def repeats(draws):
    deviation = draws.nice(0.2e-6, 8e-6)
    first = draws.nice(20e-6, 200e-6)
    return {
        "first_width": first,
        "first_deviation": deviation,
        "last_width": max(1e-9, first + deviation * draws.choice((0.0, draws.nice(-6.0, 6.0)))),
        "last_deviation": deviation * draws.choice((1.0, draws.nice(0.3, 3.0))),
        "coverage_probability": draws.choice((0.95, 0.99, draws.nice(0.5, 0.999))),
    }


def wide_repeats(draws):
    first = draws.octaves(1e-9, 10.0)
    return {
        "first_width": first,
        "first_deviation": max(1e-12, first * draws.octaves(0.03, 1.0)),
        "last_width": first * draws.evenly(0.5, 1.0),
        "last_deviation": max(1e-12, first * draws.octaves(1e-9, 1.0)),
        "coverage_probability": draws.evenly(0.01, 0.99999),
    } if first > 1e-8 else repeats(draws)


FUNCTIONS = [
    Function(
        plan_series,
        [
            *ROUND,
            Slot("dose_ratio", "dose ratio", {"purpose": 2}),
            Slot("expected_focus_z", "focus z"),
            Slot("focus_uncertainty", "set-up tolerance"),
            Slot("series_step", "step of a series"),
            Slot("series_half_range", "half range of a series"),
            Slot("axis_step", "smallest step of the axis"),
            Slot("backlash", "backlash of the axis"),
            Slot("clearance", "working distance"),
            Slot("least_clearance", "least clearance"),
            Slot("travel_toward_lens", "travel of the axis"),
            Slot("travel_away_from_lens", "travel of the axis"),
            *(Slot(name, "size of a test piece or label") for name in SIZES),
            Slot("piece_gap", "gap between test pieces"),
            Slot("row_width", "width of a row of test pieces"),
        ],
        [
            ("ordinary", 3, widths),
            ("vanishing", 3, vanishing),
            ("given", 3, given),
            ("uncertain", 1, uncertain),
            ("hemmed-in", 4, hemmed_in),
            ("wide", 2, wide),
        ],
        choices={"purpose": "purpose of a series", "mark_kind": "mark kind", "sweep_direction": "direction of the sweep"},
        computed_refusals=[
            CONE,
            (OUTSIDE_MODEL, "steps on either side"),
            (OUTSIDE_MODEL, "steps left toward the lens"),
            (OUTSIDE_MODEL, "steps left away from the lens"),
            (OUTSIDE_MODEL, "height of a test piece"),
        ],
        free=free,
        wanted_rows=430,
        per_slot=2,
        base=vanishing,
        tries=4,
    ),
    Function(
        series_drift,
        [
            Slot("first_width", "mark width"),
            Slot("first_deviation", "width deviation"),
            Slot("last_width", "mark width"),
            Slot("last_deviation", "width deviation"),
            Slot("coverage_probability", "coverage probability"),
        ],
        [("ordinary", 3, repeats), ("wide", 1, wide_repeats)],
        wanted_rows=160,
        per_slot=3,
    ),
]
