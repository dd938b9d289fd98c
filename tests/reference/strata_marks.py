"""Rows for marks by themselves, for filled strokes and for the lines of a fill."""

import math

from mpmath import e, erf, mpf, sqrt

import beams
from model_fill import fill_limits, fill_width
from model_isolated import LINE, PULSE, mark_limits, mark_width
from model_raster import interval_for_ripple, raster_ripple
from strata import Function, Slot
from strata_mark import (
    SPOT,
    dose_large,
    dose_near_one,
    dose_near_two,
    dose_ordinary,
    dose_too_weak,
    spot,
)
from strata_optics import CONE, OUTSIDE_MODEL, ROUND

OFFSET = Slot("z_offset", "z offset")
ANY_DOSE = Slot("dose_ratio", "any dose ratio")
DRAWN = Slot("drawn_width", "drawn width")

# Isolated marks


def any_dose(draws):
    return draws.choice((dose_ordinary, dose_ordinary, dose_near_one, dose_large))(draws)


def dose_insensitive(draws, kind):
    """About the dose at which the width does not react to focus, on either side."""
    apart = 1.0 + draws.sign() * draws.octaves(1e-8, 0.05)
    return float(e if kind == PULSE else sqrt(e)) * apart


def mark(draws, beam, dose):
    kind = draws.choice((PULSE, LINE))
    return beam | {"mark_kind": kind, "dose_ratio": dose(draws)}


def mark_at(draws, beam, dose, place):
    return mark(draws, beam, dose) | {"z_offset": place(draws, beams.rayleigh(beam))}


def insensitive(draws):
    beam = beams.any_round(draws)
    kind = draws.choice((PULSE, LINE))
    return beam | {"mark_kind": kind, "dose_ratio": dose_insensitive(draws, kind)}


def insensitive_at(draws):
    row = insensitive(draws)
    return row | {"z_offset": beams.z_ordinary(draws, beams.rayleigh(row)) * draws.octaves(1e-6, 0.1)}


def vanishing(draws):
    """About the offset at which the mark vanishes, mostly short of it."""
    row = mark(draws, beams.any_round(draws), lambda d: d.choice((dose_ordinary, dose_near_one))(d))
    q = row["dose_ratio"]
    ratio = (q - 1.0) * (q + 1.0) if row["mark_kind"] == LINE else q - 1.0
    away = beams.rayleigh(row) * math.sqrt(ratio) * (1.0 - draws.choice((1, 1, 1, -1)) * draws.octaves(1e-7, 0.1))
    return row | {"z_offset": draws.sign() * away}


# Filled strokes


def wide_stroke(draws):
    return draws.octaves(4.0, 1e5)


def ordinary_stroke(draws):
    return draws.octaves(0.4, 8.0)


def narrow_stroke(draws):
    return draws.octaves(2e-6, 0.4)


def strong_enough(draws, ratio):
    """A dose at which a narrow stroke marks, for this width over spot: erf(x) > x for small x."""
    least = max(1.01, 1.1 / min(1.0, ratio))
    return draws.octaves(least, 1e6) if least < 9e5 else 1e6


def filled(draws, beam, ratio, dose):
    """In the waist of a beam, so many spots wide."""
    drawn = beam["waist_diameter"] * ratio(draws)
    return beam | {"drawn_width": min(10.0, max(1e-9, drawn)), "dose_ratio": dose(draws)}


def diameter_at(row):
    """Spot at the row's offset, to some digits."""
    u = row["z_offset"] / beams.rayleigh(row)
    return row["waist_diameter"] * math.sqrt(1.0 + u * u)


def filled_at(draws, beam, ratio, dose, place):
    """At a place, so many of the spots there wide."""
    row = beam | {"z_offset": place(draws, beams.rayleigh(beam))}
    drawn = diameter_at(row) * ratio(draws)
    return row | {"drawn_width": min(10.0, max(1e-9, drawn)), "dose_ratio": dose(draws)}


def narrow(draws, beam):
    row = filled(draws, beam, narrow_stroke, dose_ordinary)
    return row | {"dose_ratio": strong_enough(draws, row["drawn_width"] / beam["waist_diameter"])}


def narrow_at(draws, beam, place):
    row = filled_at(draws, beam, narrow_stroke, dose_ordinary, place)
    return row | {"dose_ratio": strong_enough(draws, row["drawn_width"] / diameter_at(row))}


def nearly_lost(draws, row, diameter):
    """About the dose at which the stroke just marks, mostly above it."""
    least = 1.0 / float(erf(math.sqrt(2.0) * row["drawn_width"] / diameter))
    apart = 1.0 + draws.choice((1, 1, 1, -1)) * draws.octaves(3e-9, 0.05)
    return row | {"dose_ratio": min(1e6, max(1.000001, least * apart))}


def nearly_lost_in_waist(draws):
    row = filled(draws, beams.any_round(draws), lambda d: d.octaves(1e-5, 2.0), dose_ordinary)
    return nearly_lost(draws, row, row["waist_diameter"])


def nearly_lost_off_focus(draws):
    row = filled_at(draws, beams.any_round(draws), lambda d: d.octaves(1e-5, 2.0), dose_ordinary, beams.z_ordinary)
    return nearly_lost(draws, row, diameter_at(row))


def dose_where_methods_meet(draws):
    """About the dose at which the search for the widest stroke changes its way."""
    middle = draws.choice((4.0, 30.3320572906487))
    return middle * (1.0 + draws.sign() * draws.octaves(2.0**-52, 0.01))


def short_way_off_focus(draws):
    """A stroke whose edges' integral changes from a difference to a sum of points: way (1 + x) = 0.16."""
    way = draws.evenly(0.03, 0.155)
    x = mpf("0.16") / way - 1
    apart = 1.0 + draws.sign() * draws.octaves(2.0**-52, 1e-3)
    row = filled_at(draws, beams.any_round(draws), lambda d: way / math.sqrt(8.0), dose_ordinary, beams.z_ordinary)
    return row | {"dose_ratio": float(2 / (erf(x + way) - erf(x))) * apart}


# Lines of a fill


def raster(least, greatest):
    """Lines this many radii apart."""

    def draw(draws):
        while True:
            diameter = spot(draws)
            interval = 0.5 * diameter * draws.octaves(least, greatest)
            if 1e-9 <= interval <= 1.0:
                return {"spot_diameter": diameter, "line_interval": interval}

    return draw


def raster_nice(draws):
    return {"spot_diameter": draws.nice(1e-5, 4e-4), "line_interval": draws.nice(1e-5, 4e-4)}


def raster_where_sums_meet(draws):
    """1.6 radii apart, or some doubles beside it."""
    diameter = draws.nice(1e-5, 1e-3)
    apart = 1.0 + draws.sign() * draws.octaves(2.0**-52, 1e-3)
    return {"spot_diameter": diameter, "line_interval": 0.8 * diameter * draws.choice((1.0, apart))}


def ripple(value):
    return lambda draws: {"spot_diameter": spot(draws), "ripple_contrast": value(draws)}


ISOLATED = {"choices": {"mark_kind": "mark kind"}, "computed_refusals": [CONE]}


def free_mark(draws):
    return mark_at(draws, beams.free(draws), dose_ordinary, lambda d, zr: d.evenly(-1.0, 1.0))


def free_fill(draws):
    row = beams.free(draws)
    row |= {"drawn_width": spot(draws), "dose_ratio": dose_ordinary(draws)}
    return row | {"z_offset": draws.evenly(-1.0, 1.0)}


FUNCTIONS = [
    Function(
        mark_width,
        [*ROUND, ANY_DOSE, OFFSET],
        [
            ("ordinary", 4, lambda d: mark_at(d, beams.focused(d), dose_ordinary, beams.z_ordinary)),
            ("wide", 2, lambda d: mark_at(d, beams.wide(d), any_dose, beams.z_ordinary)),
            ("near-waist", 1, lambda d: mark_at(d, beams.any_round(d), any_dose, beams.z_near_waist)),
            ("growth-near-1", 1, lambda d: mark_at(d, beams.any_round(d), any_dose, beams.z_growth_near_one)),
            ("far-field", 1, lambda d: mark_at(d, beams.any_round(d), dose_large, beams.z_far)),
            ("near-threshold", 1, lambda d: mark_at(d, beams.any_round(d), dose_near_one, beams.z_growth_near_one)),
            ("insensitive", 2, insensitive_at),
            ("vanishing", 3, vanishing),
            ("too-weak", 1, lambda d: mark_at(d, beams.any_round(d), dose_too_weak, beams.z_ordinary)),
        ],
        free=free_mark,
        **ISOLATED,
    ),
    Function(
        mark_limits,
        [*ROUND, ANY_DOSE],
        [
            ("ordinary", 3, lambda d: mark(d, beams.focused(d), dose_ordinary)),
            ("wide", 2, lambda d: mark(d, beams.wide(d), any_dose)),
            ("near-threshold", 2, lambda d: mark(d, beams.any_round(d), dose_near_one)),
            ("large-dose", 2, lambda d: mark(d, beams.any_round(d), dose_large)),
            ("insensitive", 3, insensitive),
            ("too-weak", 1, lambda d: mark(d, beams.any_round(d), dose_too_weak)),
        ],
        free=free_mark,
        **ISOLATED,
    ),
    Function(
        fill_width,
        [*ROUND, DRAWN, ANY_DOSE, OFFSET],
        [
            (
                "ordinary",
                4,
                lambda d: filled_at(d, beams.focused(d), ordinary_stroke, dose_ordinary, beams.z_ordinary),
            ),
            ("wide", 2, lambda d: filled_at(d, beams.wide(d), ordinary_stroke, any_dose, beams.z_ordinary)),
            ("wide-stroke", 2, lambda d: filled_at(d, beams.any_round(d), wide_stroke, any_dose, beams.z_ordinary)),
            ("narrow-stroke", 2, lambda d: narrow_at(d, beams.any_round(d), beams.z_ordinary)),
            (
                "near-edge-true",
                2,
                lambda d: filled_at(d, beams.any_round(d), ordinary_stroke, dose_near_two, beams.z_ordinary),
            ),
            (
                "near-threshold",
                2,
                lambda d: filled_at(d, beams.any_round(d), wide_stroke, dose_near_one, beams.z_ordinary),
            ),
            (
                "near-waist",
                1,
                lambda d: filled_at(d, beams.any_round(d), ordinary_stroke, any_dose, beams.z_near_waist),
            ),
            ("far-field", 1, lambda d: narrow_at(d, beams.any_round(d), beams.z_far)),
            ("methods-meet", 1, short_way_off_focus),
            ("vanishing", 3, nearly_lost_off_focus),
            (
                "too-weak",
                1,
                lambda d: filled_at(d, beams.any_round(d), ordinary_stroke, dose_too_weak, beams.z_ordinary),
            ),
        ],
        computed_refusals=[CONE],
        free=free_fill,
    ),
    Function(
        fill_limits,
        [*ROUND, DRAWN, ANY_DOSE],
        [
            ("ordinary", 4, lambda d: filled(d, beams.focused(d), ordinary_stroke, dose_ordinary)),
            ("wide", 2, lambda d: filled(d, beams.wide(d), ordinary_stroke, any_dose)),
            ("wide-stroke", 2, lambda d: filled(d, beams.any_round(d), wide_stroke, any_dose)),
            ("narrow-stroke", 2, lambda d: narrow(d, beams.any_round(d))),
            ("near-edge-true", 2, lambda d: filled(d, beams.any_round(d), ordinary_stroke, dose_near_two)),
            ("near-threshold", 1, lambda d: filled(d, beams.any_round(d), wide_stroke, dose_near_one)),
            ("methods-meet", 2, lambda d: filled(d, beams.any_round(d), wide_stroke, dose_where_methods_meet)),
            ("vanishing", 2, nearly_lost_in_waist),
            ("too-weak", 1, lambda d: filled(d, beams.any_round(d), ordinary_stroke, dose_too_weak)),
        ],
        computed_refusals=[CONE],
        free=free_fill,
    ),
    Function(
        raster_ripple,
        [SPOT, Slot("line_interval", "line interval")],
        [
            ("ordinary", 3, raster_nice),
            ("wide", 3, raster(0.2, 4.0)),
            ("sums-meet", 2, raster_where_sums_meet),
            ("fine-interval", 2, raster(0.08, 0.3)),
            ("faded", 1, raster(1e-9, 0.08)),
            ("coarse-interval", 2, raster(3.0, 19.99)),
        ],
        computed_refusals=[(OUTSIDE_MODEL, "interval over spot radius")],
        free=raster(20.01, 1e6),
    ),
    Function(
        interval_for_ripple,
        [SPOT, Slot("ripple_contrast", "ripple contrast")],
        [
            ("ordinary", 3, ripple(lambda d: d.nice(0.001, 0.99))),
            ("small-contrast", 2, ripple(lambda d: d.octaves(1e-12, 0.01))),
            ("large-contrast", 2, ripple(lambda d: 1.0 - d.octaves(1.01e-6, 0.1))),
            # r = 1.6, and where the contrast is taken from the other side
            ("sums-meet", 1, ripple(lambda d: 0.2907168799048282 * (1.0 + d.sign() * d.octaves(2.0**-52, 1e-3)))),
            ("sums-meet", 1, ripple(lambda d: 0.5 * (1.0 + d.sign() * d.octaves(2.0**-52, 1e-3)))),
        ],
    ),
]
