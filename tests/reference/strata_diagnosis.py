"""Rows for the diagnosis of a mark and for the tests that settle it: simulated marks, with errors of measurement."""

from mpmath import exp, log, mpf, sqrt

import beams
from checks import OUTSIDE_MODEL, UNDETERMINED
from model_diagnosis import (
    LINEAR,
    LOGARITHMIC,
    PULSE,
    diagnose_mark,
    diagnose_width,
    settle_by_heights,
    settle_by_patch,
    settle_by_power,
)
from strata import Function, Slot
from strata_optics import CONE, ROUND

KINDS = (1, 2, 2)


def normal(draws):
    """About as a measured width scatters, without a logarithm."""
    return sum(draws.evenly(-1.0, 1.0) for _ in range(3))


def sharp(draws):
    return draws.nice(0.002, 0.03, 2)


def blunt(draws):
    return draws.nice(0.05, 0.25, 2)


def width_over(kind, q, g, rho):
    """Width over sqrt(1/2) spots in the waist; none where nothing marks."""
    n = 2 if kind == PULSE else 1
    here = log(mpf(q)) + log(mpf(rho)) - n * log(mpf(g))
    return float(g * sqrt(here)) if here > 0.001 else None


def depth_over(law, q):
    return log(mpf(q)) if law == LOGARITHMIC else mpf(q) - 1


def ratios(draws, dose, growth, power):
    """Kind, q0, growth and power with which something marks."""
    while True:
        kind, q, g, rho = draws.choice(KINDS), dose(draws), growth(draws), power(draws)
        if width_over(kind, q, g, rho):
            return kind, q, g, rho


def marks(draws, dose, growth, power, error, beam=beams.focused):
    """A good mark and one now."""
    kind, q, g, rho = ratios(draws, dose, growth, power)
    row = beam(draws)
    good = row["waist_diameter"] * width_over(kind, q, 1, 1) * 0.7071067811865476
    now = row["waist_diameter"] * width_over(kind, q, g, rho) * 0.7071067811865476
    sigma = error(draws)
    log_q = float(log(mpf(q)))
    return row | {
        "mark_kind": kind,
        "dose_ratio": q,
        "dose_ratio_deviation": draws.choice((0.0, min(0.05, 0.2 * log_q))),
        "good_width": good * (1.0 + 0.3 * sigma * normal(draws)),
        "good_width_deviation": 0.3 * sigma * good,
        "width": now * (1.0 + sigma * normal(draws)),
        "width_deviation": sigma * now,
        "coverage_probability": draws.choice((0.95, 0.95, 0.6827, 0.99)),
    }, (kind, q, g, rho)


def depths(draws, deep, now, error):
    sigma = error(draws)
    unit = draws.choice((40e-6, 1.0, 250.0))
    return {
        "good_depth": unit * (1.0 + 0.3 * sigma * normal(draws)),
        "good_depth_deviation": 0.3 * sigma * unit,
        "depth": unit * float(now / deep) * (1.0 + sigma * normal(draws)),
        "depth_deviation": sigma * unit * float(now / deep),
    }


def with_depth(dose, growth, power, error, beam=beams.focused):
    def draw(draws):
        row, (kind, q, g, rho) = marks(draws, dose, growth, power, error, beam)
        law = draws.choice((LOGARITHMIC, LINEAR))
        here = mpf(q) * rho / mpf(g) ** (2 if kind == PULSE else 1)
        return row | {"depth_law": law} | depths(draws, depth_over(law, q), depth_over(law, here), error)

    return draw


def alone(dose, growth, power, error, beam=beams.focused):
    return lambda draws: marks(draws, dose, growth, power, error, beam)[0]


def with_patch(dose, growth, power, error, beam=beams.focused):
    def draw(draws):
        while True:
            row, (_, _, _, rho) = marks(draws, dose, growth, power, error, beam)
            law, q = draws.choice((LOGARITHMIC, LINEAR)), draws.nice(1.5, 9.0)
            if q * rho > 1.05:
                break
        deep, now = depth_over(law, q), depth_over(law, mpf(q) * rho)
        return row | {"depth_law": law, "patch_dose_ratio": q} | depths(draws, deep, now, error)

    return draw


def strong(draws):
    return draws.nice(2.5, 20.0)


def weak(draws):
    return draws.nice(1.15, 1.6)


def insensitive(draws):
    return draws.choice((1.66, 1.7, 2.75, 1.63, 2.6))


def any_dose(draws):
    return draws.choice((1.0 + draws.octaves(1e-3, 1.0), draws.octaves(2.0, 5e4)))


def off(draws):
    return draws.nice(1.1, 2.5)


def little(draws):
    return draws.nice(1.0, 1.05)


def focused(_):
    return 1.0


def far(draws):
    return draws.nice(2.5, 9.0)


def any_growth(draws):
    return 1.0 + draws.octaves(1e-3, 300.0)


def same(_):
    return 1.0


def other(draws):
    return draws.nice(0.5, 2.0)


def too_much(draws):
    return draws.nice(2.0, 6.0)


def free_mark(draws):
    """Marks that no model makes: far too deep or far too wide."""
    row = with_depth(strong, off, other, sharp)(draws)
    if draws.one_in(2):
        row["depth"] *= 1e3
        row["depth_deviation"] *= 1e3
    else:
        row |= {"width": 9.0, "width_deviation": 0.1, "good_width": 3e-9, "good_width_deviation": 1e-10}
        row |= {"depth": row["good_depth"] * 1e-3, "depth_deviation": row["good_depth"] * 1e-4}
    return row if draws.one_in(3) else row | beams.free(draws)


def free_patch(draws):
    """Patches so deep that their dose, or so shallow that the line's, leaves the model."""
    row = with_patch(strong, off, other, sharp)(draws)
    factor = draws.choice((1e3, 1e-3))
    row |= {"depth": row["good_depth"] * factor, "depth_deviation": row["good_depth"] * factor * 0.1}
    if factor < 1.0:
        row |= {"patch_dose_ratio": 9e3, "dose_ratio": 2.5}
    return row if draws.one_in(3) else row | beams.free(draws)


MARK = [
    *ROUND,
    Slot("dose_ratio", "dose ratio"),
    Slot("dose_ratio_deviation", "deviation of the dose ratio"),
    Slot("good_width", "mark width"),
    Slot("good_width_deviation", "width deviation"),
]
DEPTHS = [
    Slot("good_depth", "depth of the mark"),
    Slot("good_depth_deviation", "depth deviation"),
    Slot("depth", "depth of the mark"),
    Slot("depth_deviation", "depth deviation"),
]
NOW = [
    Slot("width", "mark width"),
    Slot("width_deviation", "width deviation"),
    Slot("coverage_probability", "coverage probability"),
]


def strata(draw):
    return [
        ("ordinary", 5, draw(strong, off, other, sharp)),
        ("in-focus", 2, draw(strong, focused, other, sharp)),
        ("slight-defocus", 2, draw(strong, little, same, sharp)),
        ("blunt", 2, draw(strong, off, same, blunt)),
        ("near-threshold", 2, draw(weak, little, same, sharp)),
        ("insensitive", 2, draw(insensitive, little, same, sharp)),
        ("far-field", 1, draw(strong, far, same, sharp)),
        ("over-power", 2, draw(weak, little, too_much, sharp)),
        ("wide", 2, draw(any_dose, any_growth, other, sharp, beams.wide)),
    ]


def stepped(dose, growth, power, error, beam=beams.focused):
    def draw(draws):
        while True:
            row, (kind, q, g, rho) = marks(draws, dose, growth, power, error, beam)
            step = draws.choice((2.0, 2.0, draws.nice(1.3, 5.0)))
            now = row["waist_diameter"] * width_over(kind, q, g, rho * step) * 0.7071067811865476
            sigma = error(draws)
            for name in ("good_width", "good_width_deviation"):
                del row[name]
            row |= {"power_step": step, "stepped_width_deviation": sigma * now}
            row["stepped_width"] = now * (1.0 + sigma * normal(draws))
            if row["stepped_width"] > row["width"]:
                return row

    return draw


def free_step(draws):
    """Marks that hardly widen, or that widen too much or too little for any dose or spot of the model."""
    row = stepped(strong, off, other, sharp)(draws)
    case = draws.randrange(4)
    if case == 0:
        row["stepped_width"] = row["width"] * draws.choice((1.0, 0.9, 1.001))
    elif case == 1:
        row |= {"stepped_width": row["width"] * 1.01, "width_deviation": 1e-12, "stepped_width_deviation": 1e-12}
    elif case == 2:
        row |= {"width": 1.0, "width_deviation": 0.01, "stepped_width": 9.0, "stepped_width_deviation": 0.01}
        row["power_step"] = 1.02
    else:
        row |= {"wavelength": 1e-8, "m2": 1.0, "waist_diameter": 2e-8, "power_step": 1.01}
        row |= {"width": 0.1, "width_deviation": 0.001, "stepped_width": 0.9, "stepped_width_deviation": 0.001}
        row["waist_diameter"] = 2.2e-8
    return row if case else (row if draws.one_in(2) else row | beams.free(draws))


def readings(place, step, error, odd=False):
    """Readings at three heights about a surface this many steps off focus."""

    def draw(draws):
        row = beams.focused(draws)
        kind, law = draws.choice(KINDS), draws.choice((LOGARITHMIC, LINEAR))
        zr = beams.rayleigh(row)
        delta, z = step(draws), place(draws)
        top, depth, sigma = draws.nice(30e-6, 60e-6), draws.nice(20e-6, 29e-6), error(draws)
        values = []
        for way in (-1, 0, 1):
            u = 1 + (mpf(z + way) * delta) ** 2
            n = 2 if kind == PULSE else 1
            fall = -log(u) * n / 8 if law == LOGARITHMIC else u ** (-mpf(n) / 2) - 1
            values.append(max(1e-6, float(top + depth * fall) + sigma * top * normal(draws)))
        if odd:
            values = [values[1] * 1.3, values[1], values[1] * 1.4]
        return row | {
            "mark_kind": kind,
            "depth_law": law,
            "height_step": delta * zr,
            "reading_toward_lens": values[0],
            "reading_in_middle": values[1],
            "reading_away_from_lens": values[2],
            "reading_deviation": sigma * top,
            "coverage_probability": draws.choice((0.95, 0.95, 0.6827, 0.99)),
        }

    return draw


def alike(draws):
    row = readings(lambda d: 0.0, lambda d: d.nice(0.6, 1.0), lambda d: 0.002)(draws)
    return row | {"reading_away_from_lens": row["reading_toward_lens"]}


def fine(draws):
    return draws.nice(0.001, 0.01, 2)


FUNCTIONS = [
    Function(
        diagnose_mark,
        [*MARK, *DEPTHS, *NOW],
        strata(with_depth),
        choices={"mark_kind": "mark kind", "depth_law": "depth law"},
        computed_refusals=[CONE, (OUTSIDE_MODEL, "any dose ratio"), (OUTSIDE_MODEL, "growth ratio")],
        free=free_mark,
        per_slot=1,
        wanted_rows=200,
    ),
    Function(
        diagnose_width,
        [*MARK, *NOW],
        strata(alone),
        choices={"mark_kind": "mark kind"},
        computed_refusals=[CONE],
        free=lambda d: alone(strong, off, same, sharp)(d) | beams.free(d),
        per_slot=1,
        wanted_rows=200,
    ),
    Function(
        settle_by_patch,
        [*MARK, *DEPTHS, Slot("patch_dose_ratio", "dose ratio"), *NOW],
        strata(with_patch),
        choices={"mark_kind": "mark kind", "depth_law": "depth law"},
        computed_refusals=[CONE, (OUTSIDE_MODEL, "any dose ratio"), (OUTSIDE_MODEL, "dose ratio")],
        free=free_patch,
        per_slot=1,
        wanted_rows=220,
    ),
    Function(
        settle_by_power,
        [
            *ROUND,
            Slot("dose_ratio", "dose ratio"),
            Slot("dose_ratio_deviation", "deviation of the dose ratio"),
            Slot("power_step", "power step"),
            Slot("width", "mark width"),
            Slot("width_deviation", "width deviation"),
            Slot("stepped_width", "mark width"),
            Slot("stepped_width_deviation", "width deviation"),
            Slot("coverage_probability", "coverage probability"),
        ],
        [
            ("ordinary", 5, stepped(strong, off, other, sharp)),
            ("in-focus", 2, stepped(strong, focused, same, sharp)),
            ("blunt", 1, stepped(weak, off, other, lambda d: d.nice(0.03, 0.1, 2))),
            ("insensitive", 2, stepped(insensitive, little, same, sharp)),
            ("near-threshold", 1, stepped(weak, little, same, sharp)),
            ("wide", 2, stepped(lambda d: d.octaves(1.5, 1e3), any_growth, other, lambda d: 1e-4, beams.wide)),
        ],
        choices={"mark_kind": "mark kind"},
        computed_refusals=[
            CONE,
            (UNDETERMINED, "significance of the slope"),
            (OUTSIDE_MODEL, "any dose ratio"),
            (OUTSIDE_MODEL, "spot diameter"),
        ],
        free=free_step,
        per_slot=1,
        wanted_rows=180,
    ),
    Function(
        settle_by_heights,
        [
            *ROUND,
            Slot("height_step", "height step"),
            Slot("reading_toward_lens", "depth of the mark"),
            Slot("reading_in_middle", "depth of the mark"),
            Slot("reading_away_from_lens", "depth of the mark"),
            Slot("reading_deviation", "depth deviation"),
            Slot("coverage_probability", "coverage probability"),
        ],
        [
            ("ordinary", 5, readings(lambda d: d.evenly(-0.5, 0.5), lambda d: d.nice(0.3, 1.2), fine)),
            ("off-focus", 3, readings(lambda d: d.sign() * d.evenly(0.6, 3.0), lambda d: d.nice(0.2, 1.0), fine)),
            ("too-fine", 2, readings(lambda d: d.evenly(-1.0, 1.0), lambda d: d.nice(0.01, 0.1), fine)),
            ("blunt", 1, readings(lambda d: d.evenly(-0.5, 0.5), lambda d: d.nice(0.8, 3.0), lambda d: 0.05)),
            ("far-field", 1, readings(lambda d: d.evenly(-0.4, 0.4), lambda d: d.nice(3.0, 30.0), lambda d: 0.003)),
            ("in-waist", 1, alike),
            ("wide", 1, readings(lambda d: 0.0, lambda d: d.nice(0.3, 1.0), fine, odd=True)),
        ],
        choices={"mark_kind": "mark kind", "depth_law": "depth law"},
        computed_refusals=[CONE],
        free=lambda d: readings(lambda d: 0.1, lambda d: 0.5, fine)(d) | beams.free(d),
        per_slot=1,
        wanted_rows=180,
    ),
]
