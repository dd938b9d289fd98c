"""Rows for the quality of a fill against focus, and for the offset that serves a taste."""

import beams
from model_crisp import COMPROMISE, CRISPEST, SMOOTHEST_WITHIN, fill_quality, offset_for_taste
from strata import Function, Slot
from strata_focus import UNREACHABLE
from strata_optics import CONE, OUTSIDE_MODEL, ROUND

TOO_WIDE_AN_INTERVAL = (OUTSIDE_MODEL, "interval over spot radius")
INTERVAL = Slot("line_interval", "line interval")
EDGE = 0.6407757827723


def fill(draws, ratio):
    """A beam, and lines this many waist radii apart."""
    while True:
        beam = beams.any_round(draws)
        interval = beam["waist_diameter"] / 2.0 * ratio(draws)
        if 1e-9 <= interval <= 1.0:
            return beam | {"line_interval": interval}


def ratio_ordinary(draws):
    return draws.nice(0.4, 2.5)


def ratio_wide(draws):
    return draws.octaves(2.0, 19.9)


def ratio_fine(draws):
    return draws.octaves(0.02, 0.4)


def ratio_where_sums_meet(draws):
    return 1.6 * (1.0 + draws.sign() * draws.octaves(1e-12, 0.02))


def quality(draws, ratio, place):
    row = fill(draws, ratio)
    return row | {"z_offset": place(draws, beams.rayleigh(row))}


def in_waist(draws, _):
    return draws.choice((0.0, -0.0))


def beside(draws, zr):
    return draws.sign() * beams.within(draws, "z", zr * 0.01, zr * 5.0)


def free_fill(draws):
    beam = beams.any_round(draws) if draws.one_in(2) else beams.free(draws)
    return beam | {"line_interval": draws.octaves(1e-9, 1.0)}


def taste_row(draws, row, taste):
    """What the taste does not read is left as junk."""
    return row | {"taste": taste, "largest_edge": draws.anything(), "crispness_weight": draws.anything()}


def crispest(draws):
    return taste_row(draws, fill(draws, ratio_ordinary), CRISPEST)


def smoothest(draws, growth):
    while True:
        row = fill(draws, draws.choice((ratio_ordinary, ratio_ordinary, ratio_fine, ratio_wide)))
        edge = row["waist_diameter"] * growth(draws) * EDGE
        if 1e-9 <= edge <= 10.0:
            return taste_row(draws, row, SMOOTHEST_WITHIN) | {"largest_edge": edge}


def compromise(draws, ratio, weight):
    return taste_row(draws, fill(draws, ratio), COMPROMISE) | {"crispness_weight": weight(draws)}


def weight_ordinary(draws):
    return draws.nice(0.02, 0.6, 2)


def weight_any(draws):
    return 1.0 if draws.one_in(6) else draws.octaves(1e-3, 1.0)


def taste_free(draws):
    taste = draws.randint(1, 3)
    row = taste_row(draws, free_fill(draws), taste)
    if taste == SMOOTHEST_WITHIN:
        row["largest_edge"] = draws.octaves(1e-9, 10.0)
    if taste == COMPROMISE:
        row["crispness_weight"] = weight_any(draws)
    return row


FUNCTIONS = [
    Function(
        fill_quality,
        [*ROUND, INTERVAL, Slot("z_offset", "z offset")],
        [
            ("ordinary", 4, lambda d: quality(d, ratio_ordinary, beside)),
            ("in-waist", 1, lambda d: quality(d, d.choice((ratio_ordinary, ratio_wide)), in_waist)),
            ("sums-meet", 2, lambda d: quality(d, ratio_where_sums_meet, in_waist)),
            ("near-waist", 1, lambda d: quality(d, ratio_ordinary, beams.z_near_waist)),
            ("fine-fill", 1, lambda d: quality(d, ratio_fine, beside)),
            ("coarse-fill", 2, lambda d: quality(d, ratio_wide, beside)),
            ("far-field", 1, lambda d: quality(d, ratio_ordinary, beams.z_far)),
        ],
        computed_refusals=[CONE, TOO_WIDE_AN_INTERVAL],
        free=lambda d: free_fill(d) | {"z_offset": 0.0},
    ),
    Function(
        offset_for_taste,
        [
            *ROUND,
            INTERVAL,
            Slot("largest_edge", "largest edge", {"taste": SMOOTHEST_WITHIN}),
            Slot("crispness_weight", "crispness weight", {"taste": COMPROMISE}),
        ],
        [
            ("ordinary", 3, lambda d: compromise(d, ratio_ordinary, weight_ordinary)),
            ("coarse-fill", 2, lambda d: compromise(d, ratio_wide, weight_any)),
            ("wide", 2, lambda d: compromise(d, d.choice((ratio_ordinary, ratio_fine)), weight_any)),
            ("crispest", 1, crispest),
            ("smoothest", 3, lambda d: smoothest(d, lambda d: d.nice(1.01, 4.0))),
            ("far-field", 1, lambda d: smoothest(d, lambda d: d.octaves(10.0, 1e6))),
            ("growth-near-1", 1, lambda d: smoothest(d, lambda d: 1.0 + d.octaves(1e-5, 1e-2))),
        ],
        choices={"taste": "taste"},
        computed_refusals=[CONE, TOO_WIDE_AN_INTERVAL, (UNREACHABLE, "largest edge")],
        free=taste_free,
    ),
]
