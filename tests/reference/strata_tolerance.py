"""Rows for tolerance stacks, and for what holds in spite of them."""

import math
from functools import partial

from mpmath import sqrt

from checks import OUTSIDE_MODEL
from model_detail import Details
from model_tolerance import NORMAL, PLACES, Contribution, detail_odds, offset_odds, tolerance_stack
from strata import Function, Slot

MOST_SEED = 2**53 - 1


def contribution(draws, i, kind, half_width, mean):
    factor = draws.choice((1.0, 1.96, 2.0, 2.576, 3.0)) if kind == NORMAL else draws.anything()
    return {
        f"source{i}": draws.randint(1, 9),
        f"distribution{i}": kind,
        f"half_width{i}": half_width,
        f"coverage_factor{i}": factor,
        f"mean{i}": mean,
    }


def stack(draws, half_width, mean=lambda draws: 0.0, kinds=(1, 2, 3, 4, 5)):
    row = {}
    for i in PLACES:
        row |= contribution(draws, i, draws.choice(kinds), half_width(draws), mean(draws))
    return row


def some_mean(draws):
    return draws.sign() * draws.nice(5e-6, 0.2e-3) if draws.one_in(3) else 0.0


def some_half_width(draws):
    return draws.nice(5e-6, 0.5e-3)


def ordinary_stack(draws):
    return stack(draws, some_half_width, some_mean)


def one_rules(draws):
    """One contribution beside which the others are little or nothing."""
    row = stack(draws, lambda d: d.choice((0.0, d.nice(1e-7, 1e-6))))
    return row | contribution(draws, draws.randint(1, 4), draws.randint(1, 5), draws.nice(0.1e-3, 1e-3), 0.0)


def alike(draws):
    """The same contribution four times."""
    row = {}
    kind, half_width = draws.randint(1, 5), some_half_width(draws)
    for i in PLACES:
        row |= contribution(draws, i, kind, half_width, 0.0)
        row[f"coverage_factor{i}"] = 2.0
    return row


def wide_stack(draws):
    length = partial(draws.octaves, 1e-12, 1e3)
    return stack(draws, lambda d: length(), lambda d: d.sign() * length())


def tiny_stack(draws):
    """Half widths whose squares vanish."""
    return stack(draws, lambda d: d.octaves(1e-300, 1e-180))


def rigid_stack(draws):
    """Nothing strays."""
    return stack(draws, lambda d: 0.0, some_mean)


def some_coverage(draws):
    return draws.choice((0.5, 0.6827, 0.9, 0.95, 0.9545, 0.99, 0.9973, 0.999, draws.evenly(0.01, 0.9999)))


def with_coverage(of, coverage=some_coverage):
    return lambda draws: of(draws) | {"coverage_probability": coverage(draws)}


def contribution_slots():
    slots = []
    for i in PLACES:
        slots += [
            Slot(f"half_width{i}", "half width"),
            Slot(f"coverage_factor{i}", "coverage factor", {f"distribution{i}": NORMAL}),
            Slot(f"mean{i}", "mean offset"),
        ]
    return slots


CHOICES = {f"source{i}": "tolerance source" for i in PLACES} | {f"distribution{i}": "distribution" for i in PLACES}


def some_draws(draws):
    """Few, for each costs the reference an inversion of erf to 70 digits."""
    count = 200 if draws.one_in(12) else draws.randint(10, 40)
    seed = draws.choice((0, 1, draws.randint(2, 10**6), draws.randint(0, MOST_SEED), MOST_SEED))
    return {"draws": float(count), "seed": float(seed)}


def moments(row):
    """Mean and deviation of the contributions of a row, as doubles."""
    mean, variance = 0.0, 0.0
    for i in PLACES:
        kind, half_width = row[f"distribution{i}"], row[f"half_width{i}"]
        variance += Contribution(kind, half_width, row[f"coverage_factor{i}"], 0).variance()
        mean += row[f"mean{i}"]
    return mean, float(sqrt(variance))


def limits(draws, row, least, greatest, one_side=False):
    """Limits so many deviations from the mean: one on either side, or both on one."""
    mean, deviation = moments(row)
    if one_side:
        side = draws.sign()
        ends = sorted(mean + side * deviation * draws.evenly(least, greatest) for _ in range(2))
    else:
        ends = [mean + side * deviation * draws.evenly(least, greatest) for side in (-1.0, 1.0)]
    return row | {"toward_lens_z": ends[0], "away_from_lens_z": ends[1]}


def offsets(of, least, greatest, one_side=False):
    return lambda draws: limits(draws, of(draws), least, greatest, one_side) | some_draws(draws)


def narrow(draws):
    """Limits close to each other, anywhere."""
    row = ordinary_stack(draws)
    mean, deviation = moments(row)
    low = mean + deviation * draws.evenly(-4.0, 4.0)
    high = low + deviation * draws.octaves(1e-9, 0.1)
    return row | {"toward_lens_z": low, "away_from_lens_z": high} | some_draws(draws)


def rigid_offsets(draws):
    low = draws.sign() * draws.nice(1e-5, 1e-3)
    high = low + draws.nice(1e-6, 2e-3)
    return rigid_stack(draws) | {"toward_lens_z": low, "away_from_lens_z": high} | some_draws(draws)


def clear_of_the_widest(draws):
    """Limits far outside of everything."""
    row = wide_stack(draws)
    return row | {"toward_lens_z": -draws.octaves(1e4, 1e7), "away_from_lens_z": draws.octaves(1e4, 1e7)} | some_draws(draws)


def wrong_draws(ordinary):
    """Counts and seeds that are not allowed."""

    def extra(draws):
        rows = []
        for count in (0, 1, 9, 10_000_001, 2**32 - 1):
            rows.append(("refused", ordinary(draws) | {"draws": float(count)}))
        for seed in (2**53, 2**53 + 2, 2**60, 2**63):
            rows.append(("refused", ordinary(draws) | {"seed": float(seed)}))
        rows.append(("order", ordinary(draws) | {"draws": 0.0, "seed": 2.0**53}))
        rows.append(("order", ordinary(draws) | {"draws": 0.0, "half_width4": math.nan}))
        return rows

    return extra


def job(draws, wavelength, m2, waist):
    """A beam and a detail that holds out of the waist, with the offset up to which it does."""
    q = draws.nice(1.3, 6.0, 2)
    beam = {"wavelength": wavelength, "m2": m2, "waist_diameter": waist, "dose_ratio": q}
    growth = draws.evenly(1.05, 2.5)
    details = Details(q)
    stroke = float(format(float(growth * waist * details.bar), ".3g"))
    gap = float(format(float(growth * waist * details.gap * draws.evenly(1.0, 1.6)), ".3g"))
    if draws.one_in(2):
        stroke = 2 * stroke
    spot = float(details.largest_spot(stroke, gap))
    if spot < 1.001 * waist:
        stroke, gap, spot = 2 * stroke, 2 * gap, 2 * spot
    half = math.pi * waist**2 / (4 * m2 * wavelength) * math.sqrt((spot / waist) ** 2 - 1)
    return beam | {"finest_stroke": stroke, "finest_gap": gap}, half


def some_job(draws):
    wavelength = draws.choice((10.6e-6, 9.3e-6, 1.064e-6, 532e-9, 450e-9))
    return job(draws, wavelength, draws.nice(1.0, 2.5), wavelength * draws.nice(8.0, 60.0))


def heights(draws, half, least, greatest):
    """A surface that takes up so much of the range in which the detail holds."""
    span = 2 * half * draws.evenly(least, greatest)
    middle = half * draws.evenly(-0.3, 0.3)
    return {"highest_z": middle - span / 2, "lowest_z": middle + span / 2}


def scaled_stack(draws, size):
    return stack(
        draws,
        lambda d: float(format(size * d.evenly(0.02, 1.0), ".3g")),
        lambda d: float(format(d.sign() * size * d.evenly(0.0, 0.5), ".3g")) if d.one_in(3) else 0.0,
    )


def details(least, greatest, size):
    def draw(draws):
        row, half = some_job(draws)
        return row | heights(draws, half, least, greatest) | scaled_stack(draws, half * size(draws)) | some_draws(draws)

    return draw


def too_fine(draws):
    """A detail that not even the waist holds."""
    row, half = some_job(draws)
    row["finest_stroke"] *= draws.evenly(0.1, 0.3)
    return row | heights(draws, half, 0.0, 1.0) | scaled_stack(draws, half) | some_draws(draws)


def wide_details(draws):
    wavelength = draws.octaves(1e-8, 1e-2)
    waist = wavelength * draws.octaves(4.0, 500.0)
    row, half = job(draws, wavelength, 1.0 + draws.octaves(1e-3, 3.0), min(waist, 9.0))
    size = min(half, 500.0)
    return row | heights(draws, half, 0.0, 0.9) | scaled_stack(draws, size) | some_draws(draws)


def fast_cone(draws):
    row = details(0.0, 1.0, lambda d: 1.0)(draws)
    return row | {"waist_diameter": 2.0 * row["wavelength"]}


DETAIL_SLOTS = [
    Slot("wavelength", "wavelength"),
    Slot("m2", "M squared"),
    Slot("waist_diameter", "waist diameter"),
    Slot("finest_stroke", "finest stroke"),
    Slot("finest_gap", "finest gap"),
    Slot("dose_ratio", "dose ratio"),
    Slot("highest_z", "z of the highest place"),
    Slot("lowest_z", "z of the lowest place"),
]
some_details = details(0.0, 0.9, lambda d: d.evenly(0.2, 1.2))

FUNCTIONS = [
    Function(
        tolerance_stack,
        contribution_slots() + [Slot("coverage_probability", "coverage probability")],
        [
            ("ordinary", 5, with_coverage(ordinary_stack)),
            ("one-rules", 2, with_coverage(one_rules)),
            ("alike", 2, with_coverage(alike)),
            ("wide", 3, with_coverage(wide_stack)),
            ("tiny", 1, with_coverage(tiny_stack)),
            ("rigid", 1, with_coverage(rigid_stack)),
            ("near-certain", 2, with_coverage(ordinary_stack, lambda d: 1.0 - d.octaves(2e-12, 1e-3))),
        ],
        choices=CHOICES,
        per_slot=2,
    ),
    Function(
        offset_odds,
        contribution_slots()
        + [Slot("toward_lens_z", "limit toward the lens"), Slot("away_from_lens_z", "limit away from the lens")],
        [
            ("ordinary", 5, offsets(ordinary_stack, 0.0, 3.0)),
            ("one-rules", 2, offsets(one_rules, 0.0, 3.0)),
            ("alike", 2, offsets(alike, 0.0, 3.0)),
            ("one-side", 2, offsets(ordinary_stack, 0.0, 3.0, True)),
            ("far-tail", 2, offsets(ordinary_stack, 4.0, 45.0)),
            ("far-tail", 1, offsets(ordinary_stack, 4.0, 30.0, True)),
            ("narrow", 2, narrow),
            ("wide", 2, offsets(wide_stack, 0.0, 3.0)),
            ("wide", 1, clear_of_the_widest),
            ("tiny", 1, offsets(tiny_stack, 0.0, 3.0)),
            ("rigid", 1, rigid_offsets),
        ],
        choices=CHOICES,
        per_slot=1,
        extra=wrong_draws(offsets(ordinary_stack, 0.0, 3.0)),
        wanted_rows=300,
    ),
    Function(
        detail_odds,
        DETAIL_SLOTS + contribution_slots(),
        [
            ("ordinary", 6, some_details),
            ("flat-work", 2, details(0.0, 0.0, lambda d: d.evenly(0.2, 1.2))),
            ("far-tail", 2, details(0.0, 0.5, lambda d: d.evenly(0.02, 0.1))),
            ("too-uneven", 2, details(1.1, 3.0, lambda d: d.evenly(0.2, 1.2))),
            ("too-fine", 2, too_fine),
            ("wide", 2, wide_details),
        ],
        choices=CHOICES,
        computed_refusals=[(OUTSIDE_MODEL, "divergence half angle")],
        free=fast_cone,
        per_slot=1,
        extra=wrong_draws(some_details),
        wanted_rows=320,
    ),
]
