"""Rows for the fit of spot and threshold to test marks."""

import math

from mpmath import log, mpf, sqrt

from checks import OUTSIDE_MODEL, UNDETERMINED
from model_beam_fit import MEASURED, REFINED
from model_threshold_fit import MARKS, fit_threshold
from strata import Function, Slot

PLACES = range(1, MARKS + 1)


def marks(draws, spot, threshold, ratios, deviation, scatter, limit):
    """Marks of a spot and threshold at these dose ratios, that scatter about the law."""
    row = {
        "weights": draws.choice((MEASURED, REFINED, REFINED)),
        "outlier_limit": limit,
        "confidence": draws.choice((0.6827, 0.9, 0.95, 0.95, 0.99)),
    }
    for i, ratio in zip(PLACES, ratios):
        width = float(mpf(spot) * sqrt(log(mpf(ratio)) / 2))
        sigma = width * deviation(draws)
        row[f"dose{i}"] = threshold * ratio
        row[f"width{i}"] = width + sigma * scatter(draws)
        row[f"deviation{i}"] = sigma
    return row


def spread_ratios(draws, least=2.0):
    """Six dose ratios, the greatest at least `least` times the smallest."""
    while True:
        ratios = [draws.nice(1.1, 12.0) for _ in PLACES]
        if max(ratios) > least * min(ratios):
            return draws.sample(ratios, MARKS)


def spot(draws):
    return draws.nice(15e-6, 300e-6)


def threshold(draws):
    return draws.nice(1e-6, 1e-3) if draws.one_in(2) else draws.nice(0.5, 30.0)


def some_limit(draws):
    return draws.choice((2.0, 2.5, 3.0, 4.0, math.inf))


def normal(draws):
    """About as a measured width scatters, without a logarithm."""
    return sum(draws.evenly(-1.0, 1.0) for _ in range(3))


def ordinary(draws):
    common = draws.nice(0.01, 0.05, 2)
    return marks(
        draws, spot(draws), threshold(draws), spread_ratios(draws), lambda _: common, normal, some_limit(draws)
    )


def outlier(draws):
    """One mark is off by many deviations."""
    common = draws.nice(0.01, 0.03, 2)
    row = marks(
        draws,
        spot(draws),
        threshold(draws),
        spread_ratios(draws),
        lambda _: common,
        normal,
        draws.choice((2.5, 3.0, 3.0, 4.0, math.inf)),
    )
    i = draws.randint(1, MARKS)
    row[f"width{i}"] *= 1.0 + draws.sign() * draws.evenly(0.15, 0.6)
    return row


def noisy(draws):
    """Marks that scatter more than their deviations say."""
    scatter = draws.nice(3.0, 8.0)
    return marks(
        draws,
        spot(draws),
        threshold(draws),
        spread_ratios(draws, 4.0),
        lambda d: d.nice(0.005, 0.02, 2),
        lambda d: scatter * normal(d),
        some_limit(draws),
    )


def two_doses(draws):
    """Each dose several times over."""
    low, high = draws.nice(1.2, 2.0), draws.nice(4.0, 12.0)
    ratios = draws.sample([low] * 3 + [high] * 3, MARKS)
    return marks(
        draws, spot(draws), threshold(draws), ratios, lambda d: d.nice(0.01, 0.05, 2), normal, some_limit(draws)
    )


def one_holds_the_slope(draws):
    """All doses alike but one: no limit may leave that one out."""
    ratios = draws.sample([draws.nice(1.2, 2.0)] * 5 + [draws.nice(4.0, 12.0)], MARKS)
    return marks(draws, spot(draws), threshold(draws), ratios, lambda _: 0.02, normal, some_limit(draws))


def wide(draws):
    """Any spot and any unit of dose."""
    ratios = [1.0 + draws.octaves(0.1, 1e4) for _ in PLACES]
    return marks(
        draws,
        draws.octaves(2e-8, 1.0),
        draws.octaves(1e-11, 1e13),
        ratios,
        lambda d: d.octaves(3e-3, 0.1),
        normal,
        some_limit(draws),
    )


def far_above(draws):
    """Marks that grow clearly, yet lie so far above their threshold that they do not tell it."""
    base = draws.nice(5e4, 5e5)
    ratios = [base * factor for factor in (1.0, 1.1, 1.2, 1.3, 1.4, 1.6)]
    return marks(draws, spot(draws), 1e-6, ratios, lambda _: 0.004, lambda _: 0.0, math.inf)


def another_law(draws):
    """Clear marks millions of thresholds up, or of a spot wider than any."""
    if draws.one_in(2):
        base = 10.0 ** draws.evenly(6.5, 12.0)
        ratios = [base * factor for factor in (1.0, 2.0, 4.0, 8.0, 16.0, 32.0)]
        return marks(draws, spot(draws), 1e-9, ratios, lambda _: 0.004, normal, math.inf)
    ratios = [1.0 + 1e-7 * draws.evenly(i, i + 0.5) for i in PLACES]
    return marks(draws, 1e4, 1.0, ratios, lambda _: 0.01, normal, math.inf)


def free(draws):
    return draws.choice((no_trend, another_law))(draws)


def no_trend(draws):
    """Widths that have nothing to do with the dose."""
    row = ordinary(draws)
    for i in PLACES:
        row[f"width{i}"] = draws.nice(50e-6, 80e-6)
    return row


def extra(draws):
    """Widths that fall as the dose grows, and doses that are all alike."""
    rows = []
    for _ in range(5):
        row = ordinary(draws)
        doses = sorted(row[f"dose{i}"] for i in PLACES)
        widths = sorted((row[f"width{i}"] for i in PLACES), reverse=True)
        for i, dose, width in zip(PLACES, doses, widths):
            row |= {f"dose{i}": dose, f"width{i}": width}
        rows.append(("refused", row))
        rows.append(("refused", ordinary(draws) | {f"dose{i}": doses[0] for i in PLACES}))
        rows.append(("refused", far_above(draws)))
    return rows


FUNCTIONS = [
    Function(
        fit_threshold,
        [Slot(f"dose{i}", "dose") for i in PLACES]
        + [Slot(f"width{i}", "mark width") for i in PLACES]
        + [Slot(f"deviation{i}", "width deviation") for i in PLACES]
        + [Slot("outlier_limit", "outlier limit"), Slot("confidence", "confidence")],
        [
            ("ordinary", 4, ordinary),
            ("outlier", 4, outlier),
            ("noisy", 3, noisy),
            ("repeated-doses", 2, two_doses),
            ("one-holds-the-slope", 1, one_holds_the_slope),
            ("wide", 3, wide),
        ],
        choices={"weights": "weights of readings"},
        computed_refusals=[
            (UNDETERMINED, "significance of the slope"),
            (OUTSIDE_MODEL, "any dose ratio"),
            (OUTSIDE_MODEL, "spot diameter"),
        ],
        free=free,
        per_slot=1,
        extra=extra,
        wanted_rows=300,
    ),
]
