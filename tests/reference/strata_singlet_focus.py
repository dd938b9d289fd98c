"""Rows for what stands off focus behind a real lens."""

import math

import beams
from checks import Refused, TooClose
from model_singlet import HANDBOOK, POWER86, SECOND_MOMENT, real_focus
from model_singlet_focus import beam_by, singlet_defocus, singlet_depth_of_focus
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
from strata_lens import (
    INDEX,
    SHAPE_SLOT,
    clipped_lens,
    conjugates,
    diverging_lens,
    real_lens,
    singlet_free,
    unclipped_lens,
    with_aberration,
)
from strata_optics import CONE, FOCAL, IMAGE_WAIST, OUTSIDE_MODEL, ROUND

SINGLET = [
    *ROUND,
    Slot("waist_to_lens", "waist to lens"),
    INDEX,
    SHAPE_SLOT,
    FOCAL,
    Slot("clear_aperture", "clear aperture"),
]
# What may come out of the lens, and of the 86.5 % spot.
LIMITS = [
    CONE,
    IMAGE_WAIST,
    (OUTSIDE_MODEL, "M squared"),
    (OUTSIDE_MODEL, "clipping ratio"),
    (OUTSIDE_MODEL, "normalised aberration"),
    (OUTSIDE_MODEL, "Rayleigh range"),
]


def measured(draws, row):
    return row | {"measure": draws.choice((SECOND_MOMENT, POWER86))}


def scales(row):
    """Waist diameter and Rayleigh range by the row's measure, to some digits; any if there are none."""
    try:
        beam = beam_by(row["measure"], real_focus(row, row["lens_shape"]))
    except (Refused, TooClose):
        return 1e-4, 1e-3
    return float(beam.waist_diameter), float(beam.rayleigh_range)


def at_place(draws, lens, place):
    row = measured(draws, lens)
    _, zr = scales(row)
    return row | {"z_offset": place(draws, zr)}


def at_criterion(draws, lens, growth, drop):
    row = measured(draws, lens)
    waist, _ = scales(row)
    return by_criterion(draws, row, waist, growth, drop)


def any_lens(draws):
    return real_lens(draws) if draws.one_in(2) else with_aberration(draws, 1e-3, 2.0)


def aberrated_lens(draws):
    return with_aberration(draws, 0.3, 3.0)


def clipping_lens(draws):
    return clipped_lens(draws, 0.9, 1.8)


def long_focus(draws):
    """A beam so thin, or a lens so weak, that the focus is nowhere sharp."""
    row = real_lens(draws)
    return row | {"waist_diameter": draws.nice(2e-4, 1e-3), "waist_to_lens": 0.0, "clear_aperture": math.inf}


def lens_free(draws):
    return draws.choice((singlet_free, singlet_free, aberrated_lens, clipping_lens, long_focus))(draws)


def handbook(draw, bad):
    """A measure that gives no beam is refused before any number, yet after unknown codes."""

    def rows(draws):
        found = []
        for _ in range(4):
            row = draw(draws) | {"measure": HANDBOOK}
            found.append(("refused", row))
            found.append(("order", row | {"wavelength": math.nan, "index": -1.0, **bad}))
            found.append(("order", row | {"lens_shape": draws.choice((0, 5, 77)), **bad}))
            if "criterion" in row:
                found.append(("order", row | {"criterion": draws.choice((0, 6, 77))}))
        return found

    return rows


def ordinary_place(draws):
    return at_place(draws, real_lens(draws), beams.z_ordinary)


def ordinary_criterion(draws):
    return at_criterion(draws, real_lens(draws), growth_ordinary, drop_ordinary)


KINDS = (
    ("ordinary", 4, real_lens),
    ("wide", 3, lambda d: with_aberration(d, 1e-3, 2.0)),
    ("no-aberration", 1, lambda d: with_aberration(d, 1e-12, 1e-3)),
    ("strong-aberration", 1, aberrated_lens),
    ("clipped", 1, clipping_lens),
    ("unclipped", 1, unclipped_lens),
    ("diverging", 1, diverging_lens),
    ("far-field", 1, conjugates),
)

FUNCTIONS = [
    Function(
        singlet_defocus,
        [*SINGLET, Slot("z_offset", "z offset")],
        [
            *(
                (name, share, lambda d, kind=kind: at_place(d, kind(d), beams.z_ordinary))
                for name, share, kind in KINDS
            ),
            ("near-waist", 1, lambda d: at_place(d, any_lens(d), beams.z_near_waist)),
            ("far-field", 1, lambda d: at_place(d, any_lens(d), beams.z_far)),
            ("growth-near-1", 1, lambda d: at_place(d, any_lens(d), beams.z_growth_near_one)),
        ],
        choices={"lens_shape": "lens shape", "measure": "spot measure"},
        computed_refusals=LIMITS,
        free=lambda d: at_place(d, lens_free(d), beams.z_ordinary),
        refusals_from_free=True,
        extra=handbook(ordinary_place, {"z_offset": math.inf}),
        per_slot=1,
        wanted_rows=400,
    ),
    Function(
        singlet_depth_of_focus,
        [*SINGLET, *CRITERION_SLOTS],
        [
            *(
                (name, share, lambda d, kind=kind: at_criterion(d, kind(d), growth_ordinary, drop_ordinary))
                for name, share, kind in KINDS
            ),
            ("far-field", 1, lambda d: at_criterion(d, any_lens(d), growth_far, drop_far)),
            ("growth-near-1", 2, lambda d: at_criterion(d, any_lens(d), growth_near_one, drop_near_zero)),
        ],
        choices={"lens_shape": "lens shape", "measure": "spot measure", "criterion": "depth criterion"},
        computed_refusals=[*LIMITS, (UNREACHABLE, "largest diameter")],
        free=lambda d: at_criterion(d, lens_free(d), lambda d: d.evenly(0.5, 3.0), drop_ordinary),
        refusals_from_free=True,
        extra=handbook(ordinary_criterion, {"growth_ratio": math.nan, "drop": 2.0, "largest_diameter": -1.0}),
        per_slot=1,
        wanted_rows=460,
    ),
]
