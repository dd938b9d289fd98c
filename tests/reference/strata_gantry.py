"""Rows for lenses that travel."""

import beams
from model_gantry import even_out_gantry, focus_along_gantry, gantry_spread
from strata import Function, Slot
from strata_optics import CONE, FOCAL, IMAGE_WAIST, ROUND

POSITIVE_FOCAL = Slot("focal_length", "focal length")
LENSES = (0.0381, 0.0508, 0.0635, 0.0762, 0.1016, 0.16)


def machine(draws):
    """A raw beam and a lens as flying optics have them."""
    return beams.raw(draws) | {"focal_length": draws.choice(LENSES)}


def wild_machine(draws):
    beam = beams.wide(draws)
    zr = beams.rayleigh(beam)
    return beam | {"focal_length": beams.within(draws, "focal length", zr * 1e-9, zr * 1e2)}


def place(draws, row, wild):
    if not wild:
        return draws.nice(-2.0, 6.0)
    return draws.sign() * beams.within(draws, "z", beams.rayleigh(row) * 2.0**-40, beams.rayleigh(row) * 1e4)


def four_places(draws, wild):
    row = wild_machine(draws) if wild else machine(draws)
    return row | {f"waist_to_lens{i}": place(draws, row, wild) for i in (1, 2, 3, 4)}


def places_at_focus(draws):
    row = four_places(draws, wild=False)
    for i in (1, 2, 3, 4):
        f = row["focal_length"]
        row[f"waist_to_lens{i}"] = draws.choice((0.0, f, draws.nudge(f), draws.tiny()))
    return row


def travel(draws, wild):
    row = wild_machine(draws) if wild else machine(draws)
    ends = sorted(place(draws, row, wild) for _ in "ab")
    return row | {"nearest": ends[0], "farthest": ends[1]}


def short_travel(draws):
    """Hardly any travel, or none."""
    row = travel(draws, draws.one_in(3))
    length = draws.choice((0.0, draws.octaves(1e-6, 1e-2))) * max(abs(row["nearest"]), 0.01)
    return row | {"farthest": row["nearest"] + length}


def about_focus(draws):
    """The focal plane on the travel, at an end of it, or the ends alike far from it."""
    row = machine(draws)
    f = row["focal_length"]
    reach = beams.rayleigh(row) * draws.octaves(0.01, 4.0)
    ends = draws.choice(
        ((f - reach, f + reach), (f, f + reach), (f - reach, f), (f - reach, f + 2.0 * reach))
    )
    return row | {"nearest": ends[0], "farthest": ends[1]}


def long_path(draws):
    row = machine(draws)
    nearest = draws.octaves(10.0, 1e3)
    return row | {"nearest": nearest, "farthest": nearest * draws.evenly(1.1, 3.0)}


def gantry_free(draws):
    row = beams.free(draws) | {"focal_length": draws.octaves(1e-5, 1e4)}
    nearest = draws.sign() * draws.octaves(1e-3, 1e6)
    return row | {"nearest": nearest, "farthest": abs(nearest) * 2.0}


def reversed_ends(draws):
    """The farthest place nearer than the nearest: refused."""
    rows = []
    for _ in range(6):
        row = travel(draws, False)
        rows.append(("refused", row | {"nearest": row["farthest"] + 1e-3}))
    return rows


def reversed_expander_ends(draws):
    rows = []
    for _ in range(6):
        row = evened(draws)
        rows.append(("refused", row | {"nearest": row["farthest"] * 1.5}))
        rows.append(("refused", row | {"nearest": -draws.octaves(1e-9, 1.0)}))
    return rows + [("special", evened(draws) | {"nearest": zero}) for zero in (0.0, -0.0)]


def evened(draws):
    """An expander before a long travel, and a beam thick enough to carry its waist to the middle."""
    row = machine(draws)
    nearest = draws.nice(0.2, 2.0)
    return row | {
        "waist_to_expander": draws.nice(-1.0, 3.0),
        "magnification": draws.nice(1.0, 4.0),
        "nearest": nearest,
        "farthest": draws.nice(nearest, nearest + 4.0),
    }


def not_evened(draws):
    """A beam too thin for its travel."""
    row = evened(draws) | {"magnification": draws.nice(0.2, 1.0)}
    row["waist_diameter"] = draws.nice(1e-3, 4e-3)
    nearest = draws.nice(1.0, 10.0)
    return row | {"nearest": nearest, "farthest": nearest + draws.nice(0.5, 10.0)}


def even_wide(draws):
    row = wild_machine(draws)
    zr = beams.rayleigh(row)
    m = draws.octaves(0.01, 100.0)
    behind = zr * m * m
    nearest = beams.within(draws, "z offset", 1e-6, behind * draws.octaves(2.0**-30, 4.0)) if behind > 1e-6 else 0.0
    nearest = min(nearest, 1e6)
    return row | {
        "waist_to_expander": draws.sign() * beams.within(draws, "z", zr * 2.0**-30, zr * 8.0),
        "magnification": m,
        "nearest": nearest,
        "farthest": nearest * (1.0 + draws.octaves(1e-3, 8.0)),
    }


def even_short(draws):
    """Hardly any travel, or the whole of it within the focal length, or centred on it."""
    row = evened(draws)
    f = row["focal_length"]
    nearest, farthest = draws.choice(
        ((f * 0.25, f * 0.5), (0.0, f), (f * 0.5, f * 1.5), (0.0, 0.0), (f, f), (1.0, 1.0), (f, 1.0), (1.0, 1.0 + 2.0**-10))
    )
    return row | {"nearest": nearest, "farthest": farthest}


def even_free(draws):
    row = even_wide(draws)
    return row | beams.free(draws)


FUNCTIONS = [
    Function(
        focus_along_gantry,
        [*ROUND, *(Slot(f"waist_to_lens{i}", "waist to lens") for i in (1, 2, 3, 4)), FOCAL],
        [
            ("ordinary", 3, lambda d: four_places(d, False)),
            ("wide", 2, lambda d: four_places(d, True)),
            ("at-focal-plane", 1, places_at_focus),
        ],
        computed_refusals=[CONE, IMAGE_WAIST],
        free=lambda d: beams.free(d)
        | {f"waist_to_lens{i}": d.sign() * d.octaves(1e-9, 1e7) for i in (1, 2, 3, 4)}
        | {"focal_length": d.octaves(1e-5, 1e4)},
        wanted_rows=280,
    ),
    Function(
        gantry_spread,
        [*ROUND, Slot("nearest", "nearest distance"), Slot("farthest", "farthest distance"), POSITIVE_FOCAL],
        [
            ("ordinary", 3, lambda d: travel(d, False)),
            ("wide", 2, lambda d: travel(d, True)),
            ("short-travel", 1, short_travel),
            ("at-focal-plane", 2, about_focus),
            ("long-path", 1, long_path),
        ],
        computed_refusals=[CONE, IMAGE_WAIST],
        free=gantry_free,
        extra=reversed_ends,
        wanted_rows=280,
    ),
    Function(
        even_out_gantry,
        [
            *ROUND,
            Slot("waist_to_expander", "waist to expander"),
            Slot("magnification", "expander magnification"),
            Slot("nearest", "nearest distance"),
            Slot("farthest", "farthest distance"),
            POSITIVE_FOCAL,
        ],
        [
            ("evened", 3, evened),
            ("not-evened", 3, not_evened),
            ("wide", 2, even_wide),
            ("short-travel", 2, even_short),
        ],
        computed_refusals=[CONE, IMAGE_WAIST],
        free=even_free,
        extra=reversed_expander_ends,
        wanted_rows=360,
    ),
]
