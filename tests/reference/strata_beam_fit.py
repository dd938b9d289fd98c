"""Rows for the fit of a beam to its widths at several heights."""

import math

from mpmath import log, mpf, sqrt

from checks import OUTSIDE_MODEL, UNDETERMINED
from model_beam_fit import MEASURED, PLACES, REFINED, fit_beam
from strata import Function, Slot

ALL = range(1, PLACES + 1)


def normal(draws):
    """About as a measured width scatters, without a logarithm."""
    return sum(draws.evenly(-1.0, 1.0) for _ in range(3))


def series(draws, waist, rayleigh, centre, span, relative, scatter=normal, width=None, count=PLACES):
    """Readings of a beam over this span of Rayleigh ranges to either side, or of what else is this wide."""
    row = {"readings": float(count)}
    for i in ALL:
        u = mpf(span) * (2 * mpf(i - 1) / (PLACES - 1) - 1)
        exact = waist * (width(u) if width else sqrt(1 + u**2))
        sigma = float(waist * relative)
        row[f"height{i}"] = float(centre + u * rayleigh)
        row[f"diameter{i}"] = max(float(exact) + sigma * scatter(draws), 1.1e-9)
        row[f"deviation{i}"] = sigma
    m2 = draws.nice(1.0, 4.0)
    return row | {
        "wavelength": float(mpf("0.785398") * waist**2 / (rayleigh * m2)),
        "weights": draws.choice((MEASURED, REFINED, REFINED)),
        "outlier_limit": draws.choice((2.5, 3.0, 3.0, 4.0, math.inf)),
        "confidence": draws.choice((0.6827, 0.9, 0.95, 0.95, 0.99)),
        "mark_dose_ratio": draws.choice((0.0, 0.0, 0.0, draws.nice(1.5, 20.0))),
    }


def a_beam(draws):
    waist = draws.nice(20e-6, 300e-6)
    return waist, waist * draws.nice(5.0, 60.0)


def ordinary(draws):
    waist, rayleigh = a_beam(draws)
    centre = draws.sign() * draws.nice(0.1, 3.0) * rayleigh
    return series(draws, waist, rayleigh, centre, draws.nice(1.5, 4.0), draws.nice(0.005, 0.06, 2))


def lopsided(draws):
    """The waist near an end of the readings, or beyond it."""
    waist, rayleigh = a_beam(draws)
    row = series(draws, waist, rayleigh, 0.0, 1.0, draws.nice(0.002, 0.01, 2))
    shift = draws.sign() * draws.nice(0.8, 2.0)
    for i in ALL:
        u = shift + 2 * (mpf(i - 1) / (PLACES - 1) * 2 - 1)
        sigma = row[f"deviation{i}"]
        row[f"height{i}"] = float(u * rayleigh)
        row[f"diameter{i}"] = float(waist * sqrt(1 + u**2)) + sigma * normal(draws)
    return row


def outlier(draws):
    """One or two readings are off by many deviations."""
    row = ordinary(draws)
    for _ in range(draws.randint(1, 2)):
        i = draws.randint(1, PLACES)
        row[f"diameter{i}"] *= 1.0 + draws.evenly(0.15, 1.2)
    return row


def noisy(draws):
    """Readings that scatter more than their deviations say."""
    waist, rayleigh = a_beam(draws)
    scatter = draws.nice(2.0, 6.0)
    return series(draws, waist, rayleigh, 0.0, draws.nice(2.0, 3.0), 0.01, lambda d: scatter * normal(d))


def repeated(draws):
    """Some heights several times over."""
    row = ordinary(draws)
    for i in draws.sample(list(ALL), draws.randint(1, 4)):
        j = draws.randint(1, PLACES)
        row[f"height{i}"] = row[f"height{j}"]
        row[f"diameter{i}"] = row[f"diameter{j}"] + row[f"deviation{i}"] * normal(draws)
    return row


def few(draws):
    return ordinary(draws) | {"readings": float(draws.randint(4, PLACES - 1))}


def wide(draws):
    """Any beam, each reading with a deviation of its own."""
    waist = draws.octaves(1e-8, 1.0)
    rayleigh = waist * draws.octaves(4.0, 1e4)
    row = series(draws, waist, rayleigh, 0.0, draws.nice(1.0, 5.0), 0.01)
    for i in ALL:
        sigma = row[f"diameter{i}"] * draws.octaves(3e-3, 0.1)
        row[f"diameter{i}"] += sigma * normal(draws)
        row[f"deviation{i}"] = max(sigma, 1.1e-12)
    return row


def marks(draws):
    """Widths of marks, which are no widths of a beam: some are refused."""
    waist, rayleigh = a_beam(draws)
    q = mpf(draws.nice(2.5, 20.0))

    def width(u):
        growth = sqrt(1 + u**2)
        left = log(q / growth)
        return growth * sqrt(left / 2) if left > 0 else mpf("0.01")

    return series(draws, waist, rayleigh, 0.0, draws.nice(1.0, 3.0), draws.nice(0.005, 0.06, 2), width=width)


def free(draws):
    """Readings that tell too little, or of light that the model does not hold for."""
    kind = draws.randint(1, 5)
    if kind == 1:
        row = ordinary(draws)
        level = row["diameter4"]
        return row | {f"diameter{i}": level * draws.evenly(0.95, 1.05) for i in ALL}
    if kind == 2:
        # A point: the waist is hidden in the scatter.
        waist, rayleigh = a_beam(draws)
        return series(draws, waist, rayleigh, 0.0, draws.nice(6.0, 20.0), draws.nice(0.3, 1.0))
    if kind == 3:
        waist = draws.nice(20e-6, 80e-6)
        return series(draws, waist, waist * draws.nice(0.5, 1.5), 0.0, 2.0, 0.01) | {"wavelength": 1e-6}
    if kind == 4:
        row = ordinary(draws)
        return row | {"wavelength": 1.1e-8, **{f"diameter{i}": min(row[f"diameter{i}"] * 3e3, 9.0) for i in ALL},
                      **{f"deviation{i}": row[f"deviation{i}"] * 3e3 for i in ALL}}
    return marks(draws)


def extra(draws):
    """Too few readings, and too few heights."""
    rows = []
    for _ in range(2):
        rows += [("refused", ordinary(draws) | {"readings": count}) for count in (0.0, 1.0, 2.0, 3.0)]
        row = ordinary(draws)
        heights = (row["height1"], row["height5"])
        rows.append(("refused", row | {f"height{i}": heights[i % 2] for i in ALL}))
        rows.append(("refused", row | {f"height{i}": heights[0] for i in ALL}))
    return rows


FUNCTIONS = [
    Function(
        fit_beam,
        [Slot(f"height{i}", "height of a test piece", either_sign=False) for i in ALL]
        + [Slot(f"diameter{i}", "beam diameter") for i in ALL]
        + [Slot(f"deviation{i}", "width deviation") for i in ALL]
        + [
            Slot("wavelength", "wavelength"),
            Slot("outlier_limit", "outlier limit"),
            Slot("confidence", "confidence"),
            Slot("mark_dose_ratio", "any dose ratio"),
        ],
        [
            ("ordinary", 5, ordinary),
            ("lopsided", 2, lopsided),
            ("outlier", 4, outlier),
            ("noisy", 2, noisy),
            ("repeated-heights", 2, repeated),
            ("few", 2, few),
            ("wide", 3, wide),
            ("marks", 3, marks),
        ],
        choices={"weights": "weights of readings"},
        computed_refusals=[
            (UNDETERMINED, "readings to fit"),
            (UNDETERMINED, "different heights"),
            (UNDETERMINED, "significance of the curvature"),
            (UNDETERMINED, "significance of the waist"),
            (OUTSIDE_MODEL, "divergence full angle"),
        ],
        free=lambda draws: draws.choice((free, free, free, lambda d: d.choice(extra(d))[1]))(draws),
        base=ordinary,
        per_slot=1,
        tries=2,
        refusals_from_free=True,
        wanted_rows=305,
    ),
]
