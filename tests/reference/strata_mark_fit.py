"""Rows for the fit of focus, spot and dose to marks at stepped heights."""

import math

from mpmath import log, mpf, pi, sqrt

from model_mark_fit import MARKS, PLACES, fit_mark_widths
from strata import Function, Slot

UNKNOWN = math.inf


def normal(draws):
    """About as a measured width scatters, without a logarithm."""
    return sum(draws.evenly(-1.0, 1.0) for _ in range(3))


def series(draws, dose, reach, noise, powers=(1.0,), kind=2, count=MARKS, prior=UNKNOWN, limit=UNKNOWN, off=0.1):
    """Marks of some beam over so many Rayleigh ranges to each side, at these powers one after another."""
    wavelength = draws.choice((0.355e-6, 1.064e-6, 10.6e-6))
    diameter = draws.nice(15e-6, 150e-6)
    m2 = draws.nice(1.05, 2.5)
    rayleigh = float(pi * mpf(diameter) ** 2 / (4 * mpf(wavelength) * mpf(m2)))
    datum = draws.choice((0.0, 0.0, draws.evenly(-0.05, 0.05)))
    focus = datum + rayleigh * draws.evenly(-off, off)
    row = {"marks": float(count), "mark_kind": kind, "wavelength": wavelength}
    per_power = (count + len(powers) - 1) // len(powers)
    for i in PLACES:
        row |= {f"height{i}": 0.0, f"width{i}": 0.0, f"deviation{i}": 0.0, f"power_ratio{i}": 0.0}
    for i in range(count):
        power = powers[i // per_power]
        step = i % per_power
        z = datum + reach * rayleigh * (2.0 * step / (per_power - 1) - 1.0)
        u2 = 1 + ((mpf(z) - mpf(focus)) / mpf(rayleigh)) ** 2
        left = log(mpf(dose) * mpf(power)) - log(u2) * (mpf(1) if kind == 1 else mpf(1) / 2)
        sigma = diameter * noise
        width = float(mpf(diameter) * sqrt(u2 * left / 2)) + sigma * normal(draws) if left > 0 else 0.0
        row[f"height{i + 1}"] = z
        row[f"width{i + 1}"] = width if width > sigma else 0.0
        row[f"deviation{i + 1}"] = sigma
        row[f"power_ratio{i + 1}"] = power
    row |= {
        "known_m2": m2 if prior != UNKNOWN else 1.0,
        "relative_m2_deviation": prior,
        "known_diameter": 1e-4,
        "relative_diameter_deviation": UNKNOWN,
        "outlier_limit": limit,
        "confidence": draws.choice((0.68, 0.9, 0.95, 0.99)),
        "scatter": draws.choice((1, 2)),
    }
    return row


def one_power(draws):
    return series(draws, draws.nice(2.5, 5.0), draws.evenly(2.6, 3.4), draws.choice((0.01, 0.02)))


def until_they_vanish(draws):
    return series(draws, draws.nice(1.4, 2.2), draws.evenly(1.8, 2.6), draws.choice((0.01, 0.02)), count=draws.choice((8, 9)))


def pulses(draws):
    return series(draws, draws.nice(3.0, 9.0), draws.evenly(2.0, 3.2), draws.choice((0.01, 0.02)), kind=1)


def two_powers(draws):
    return series(draws, draws.nice(1.5, 4.0), draws.evenly(1.6, 2.4), draws.choice((0.01, 0.02, 0.04)), powers=(1.0, 2.0), count=draws.choice((8, 9)))


def known_m2(draws):
    return series(
        draws,
        draws.nice(1.5, 6.0),
        draws.evenly(1.6, 2.6),
        draws.choice((0.01, 0.02)),
        prior=draws.choice((0.05, 0.1, 0.3)),
        count=draws.choice((6, 7, 8, 9)),
    )


def known_spot(draws):
    """A rough idea of the spot: somewhat less than the widest mark."""
    row = known_m2(draws)
    widest = max(row[f"width{i}"] for i in PLACES)
    return row | {
        "known_diameter": widest * draws.evenly(0.6, 0.9),
        "relative_diameter_deviation": draws.choice((0.3, 0.5)),
    }


def far_above_threshold(draws):
    """Spot and dose can hardly be told apart: the law is bent, and some ranges are open."""
    return series(draws, draws.nice(5.0, 12.0), draws.evenly(1.6, 2.6), draws.choice((0.01, 0.02, 0.04)))


def outlier(draws):
    row = series(
        draws,
        draws.nice(2.5, 5.0),
        draws.evenly(2.0, 3.0),
        0.02,
        powers=draws.choice(((1.0,), (1.0, 2.0))),
        prior=0.1,
        limit=draws.choice((2.5, 3.0, 4.0)),
    )
    i = draws.randint(1, MARKS)
    if row[f"width{i}"] > 0.0:
        row[f"width{i}"] *= 1.0 + draws.choice((-0.3, 0.4, 0.8))
    return row


def nothing_but_noise(draws):
    """Widths that have nothing to do with the height."""
    row = one_power(draws)
    width = draws.nice(30e-6, 80e-6)
    for i in PLACES:
        row[f"width{i}"] = width * (1.0 + 0.03 * normal(draws))
        row[f"deviation{i}"] = width * 0.03
    return row


def marks_beyond(draws):
    """Only those marks of a series that lie to one side, with one or none beyond the waist."""
    row = series(draws, draws.nice(4.0, 8.0), 2.0, 0.01, prior=0.05)
    first = draws.choice((3, 4, 5))
    kept = MARKS - first
    moved = {"marks": float(kept)}
    for i in range(1, kept + 1):
        moved |= {name + str(i): row[name + str(i + first)] for name in ("height", "width", "deviation", "power_ratio")}
    return row | moved


def extra(draws):
    rows = []
    for _ in range(2):
        row = one_power(draws)
        rows.append(("refused", row | {f"width{i}": 0.0 for i in range(5, MARKS + 1)}))
        rows.append(("refused", row | {f"height{i}": row["height1" if i < 5 else "height9"] for i in PLACES}))
        rows.append(("refused", nothing_but_noise(draws)))
        rows.append(("one-sided", marks_beyond(draws)))
    return rows


FUNCTIONS = [
    Function(
        fit_mark_widths,
        [Slot(f"height{i}", "z offset") for i in (4,)]
        + [Slot(f"width{i}", "mark width") for i in (2,)]
        + [Slot(f"deviation{i}", "width deviation") for i in (3,)]
        + [Slot(f"power_ratio{i}", "power ratio") for i in (5,)]
        + [
            Slot("wavelength", "wavelength"),
            Slot("known_m2", "M squared"),
            Slot("relative_m2_deviation", "relative deviation of what is known"),
            Slot("relative_diameter_deviation", "relative deviation of what is known"),
            Slot("outlier_limit", "outlier limit"),
            Slot("confidence", "confidence"),
        ],
        [
            ("one-power", 3, one_power),
            ("until-they-vanish", 3, until_they_vanish),
            ("pulses", 2, pulses),
            ("two-powers", 4, two_powers),
            ("known-m2", 4, known_m2),
            ("known-spot", 2, known_spot),
            ("far-above-threshold", 3, far_above_threshold),
            ("outlier", 3, outlier),
        ],
        choices={"mark_kind": "mark kind", "scatter": "scatter of the widths"},
        base=known_m2,
        per_slot=1,
        tries=2,
        extra=extra,
        wanted_rows=150,
    ),
]
