"""Rows for focus from test pieces that an eye has judged."""

import math

from checks import OUTSIDE_MODEL, UNDETERMINED
from model_by_eye import MOST, focus_from_ranks, focus_from_vanishing
from strata import Function, Slot

PLACES = range(1, MOST + 1)
TOWARD = (UNDETERMINED, "heights beyond the good test pieces, toward the lens")
AWAY = (UNDETERMINED, "heights beyond the good test pieces, away from the lens")
NONE_GOOD = (UNDETERMINED, "good test pieces")
TOO_WIDE = (OUTSIDE_MODEL, "half width")


def deviation(draws):
    return draws.choice((0.0, 0.02, 0.05, 0.1, draws.nice(0.0, 0.3), draws.octaves(1e-9, 1.0)))


def eye(draws, zr):
    return {
        "rayleigh_range": zr,
        "judgement_deviation": deviation(draws),
        "coverage_probability": draws.choice((0.95, 0.6827, 0.99, draws.nice(0.5, 0.999))),
    }


def even(draws, zr):
    """Even steps from some height on, often with the datum far away."""
    count = draws.randint(7, MOST)
    step = zr * draws.nice(0.1, 0.6)
    first = draws.choice((0.0, 0.1, -0.25, draws.nice(-0.01, 0.01))) - step * (count // 2)
    return [first + step * i for i in range(count)], step


def uneven(draws, zr):
    count = draws.randint(7, MOST)
    heights = [draws.nice(-3.0, 3.0) * zr for _ in range(count)]
    return heights, 0.5 * zr


def repeated(draws, zr):
    """Few heights, most of them more than once, in any order."""
    step = zr * draws.nice(0.2, 0.6)
    levels = [step * (i - 2) for i in range(draws.randint(5, 6))]
    heights = levels + [draws.choice(levels) for _ in range(MOST - len(levels))]
    return draws.sample(heights, MOST), step


def large(draws, zr):
    count = draws.randint(3, MOST)
    size = 4.0 * zr
    return [draws.sign() * draws.octaves(size * 1e-3, size) for _ in range(count)], size


def judged(draws, zr, heights, step, kinds, flips):
    """Growth at each height, as an eye sees it, against these limits."""
    focus = (min(heights) + max(heights)) / 2.0 + draws.evenly(-0.5, 0.5) * step
    row = {}
    for i in PLACES:
        z = heights[i - 1] if i <= len(heights) else draws.anything()
        row[f"piece_z{i}"] = z
        growth = math.sqrt(1.0 + ((z - focus) / zr) ** 2) if i <= len(heights) else 1.0
        row |= {name: limit(growth) for name, limit in ((f"{stem}{i}", of) for stem, of in kinds.items())}
    if flips:
        for _ in range(draws.randint(1, 2)):
            i = draws.randint(1, len(heights))
            for stem, of in kinds.items():
                row[f"{stem}{i}"] = of(draws.choice((1.0, 3.0)))
    return row | {"pieces": float(len(heights))}


def vanishing(draws, heights_of, flips=False, zr=None):
    zr = zr or draws.nice(0.05e-3, 5e-3)
    heights, step = heights_of(draws, zr)
    limit = draws.nice(1.05, 2.0)
    row = judged(draws, zr, heights, step, {"seen": lambda growth: float(growth < limit)}, flips)
    return row | eye(draws, zr) | {"mark_kind": draws.randint(1, 2)}


def ranks(draws, heights_of, flips=False, zr=None):
    zr = zr or draws.nice(0.05e-3, 5e-3)
    heights, step = heights_of(draws, zr)
    sharp, usable = draws.nice(1.02, 1.3), draws.nice(1.3, 2.2)
    none_sharp = draws.one_in(8)

    def rank(growth):
        if growth < sharp and not none_sharp:
            return 3.0
        return 2.0 if growth < usable else 1.0

    return judged(draws, zr, heights, step, {"rank": rank}, flips) | eye(draws, zr)


def any_zr(draws, of):
    row = of(draws, draws.choice((even, large)), zr=draws.octaves(1e-9, 100.0))
    return row | {"rayleigh_range": draws.choice((row["rayleigh_range"], draws.octaves(1e-9, 1e10)))}


def odd_series(draws, of):
    """No pieces at all, one piece, and one good piece among two, three or many at one height."""
    rows = []
    row = of(draws, even)
    if "rank1" in row:
        for code in (0.0, 4.0, 2.0**32 - 1.0):
            rows.append(("refused", row | {"rank3": code}))
            rows.append(("order", row | {"rank2": code, "piece_z1": math.nan}))
    rows.append(("refused", row | {"pieces": 0.0}))
    rows.append(("refused", row | {"pieces": 1.0}))
    rows.append(("refused", row | {f"piece_z{i}": 1e-3 for i in PLACES}))
    for good, poor in ((1.0, 0.0), (3.0, 1.0)):
        stem = "seen" if "seen1" in row else "rank"
        if (stem == "rank") != (poor == 1):
            continue
        three = {f"piece_z{i}": 1e-4 * i for i in PLACES} | {f"{stem}{i}": poor for i in PLACES}
        rows.append(("ordinary", row | three | {f"{stem}2": good, "pieces": 3.0}))
        rows.append(("ordinary", row | three | {f"{stem}2": good, f"{stem}3": good, "pieces": 4.0, "piece_z3": 2e-4}))
        rows.append(("refused", row | three | {f"{stem}2": good, "pieces": 2.0}))
    return rows


SLOTS = [
    *(Slot(f"piece_z{i}", "height of a test piece") for i in range(1, 4)),
    Slot("rayleigh_range", "Rayleigh range"),
    Slot("judgement_deviation", "relative deviation of judgements"),
    Slot("coverage_probability", "coverage probability"),
]


def strata_of(of):
    return [
        ("ordinary", 4, lambda d: of(d, even)),
        ("out-of-order", 2, lambda d: of(d, even, flips=True)),
        ("repeated-heights", 3, lambda d: of(d, repeated, flips=d.one_in(2))),
        ("uneven", 2, lambda d: of(d, uneven)),
        ("wide", 1, lambda d: any_zr(d, of)),
    ]


FUNCTIONS = [
    Function(
        focus_from_vanishing,
        SLOTS,
        strata_of(vanishing),
        choices={"mark_kind": "mark kind"},
        computed_refusals=[NONE_GOOD, TOWARD, AWAY, TOO_WIDE],
        free=lambda d: any_zr(d, vanishing),
        extra=lambda d: odd_series(d, vanishing),
        wanted_rows=300,
        per_slot=3,
    ),
    Function(
        focus_from_ranks,
        SLOTS,
        strata_of(ranks),
        computed_refusals=[NONE_GOOD, TOWARD, AWAY, TOO_WIDE],
        free=lambda d: any_zr(d, ranks),
        extra=lambda d: odd_series(d, ranks),
        wanted_rows=300,
        per_slot=3,
    ),
]
