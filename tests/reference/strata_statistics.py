"""Rows for Student's t and chi squared."""

from model_statistics import chi_squared_chance, student_factor
from strata import Function, Slot

USUAL = (0.5, 0.6827, 0.8, 0.9, 0.95, 0.9545, 0.98, 0.99, 0.9973, 0.999)


def some_confidence(draws):
    return draws.choice(USUAL) if draws.one_in(2) else draws.evenly(0.5, 0.999999)


def few(draws):
    return {"confidence": some_confidence(draws), "degrees_of_freedom": float(draws.randint(1, 12))}


def some(draws):
    """About where the library changes its way, and beyond."""
    return {"confidence": some_confidence(draws), "degrees_of_freedom": float(draws.randint(13, 60))}


def many(draws):
    return {"confidence": some_confidence(draws), "degrees_of_freedom": float(draws.choice((61, 100, 999, 4321, 10**5)))}


def near_certain(draws):
    outside = draws.octaves(1.001e-12, 1e-4)
    degrees = draws.choice((1, 2, 3, 5, 8, 20, 39, 40, 41, 60, 3000))
    return {"confidence": 1.0 - outside, "degrees_of_freedom": float(degrees)}


def whole_only(draws, draw):
    """Degrees of freedom that are none: too few, too many."""
    rows = []
    for degrees in (0.0, 100001.0, 4294967295.0):
        rows += [("refused", draw(draws) | {"degrees_of_freedom": degrees}) for _ in range(3)]
    return rows


def chi(draws, degrees, least, greatest):
    return {"chi_squared": degrees * draws.evenly(least, greatest), "degrees_of_freedom": float(degrees)}


def good_fit(draws):
    return chi(draws, draws.randint(1, 30), 0.2, 2.5)


def bad_fit(draws):
    return chi(draws, draws.randint(1, 30), 3.0, 60.0)


def long_fit(draws):
    return chi(draws, draws.choice((99, 100, 301, 1000, 2001)), 0.8, 1.3)


def wide_chi(draws):
    return {"chi_squared": draws.octaves(1e-12, 1400.0), "degrees_of_freedom": float(draws.randint(1, 40))}


def vanishing(draws):
    """Chances beyond the doubles, or nearly, and sums that need their exponential in pieces."""
    degrees = draws.choice((1, 2, 9, 10, 700, 701))
    return {"chi_squared": draws.octaves(1300.0, 6000.0), "degrees_of_freedom": float(degrees)}


FUNCTIONS = [
    Function(
        student_factor,
        [Slot("confidence", "confidence")],
        [("ordinary", 4, few), ("wide", 2, some), ("far-field", 1, many), ("near-certain", 3, near_certain)],
        wanted_rows=150,
        extra=lambda draws: whole_only(draws, few),
    ),
    Function(
        chi_squared_chance,
        [Slot("chi_squared", "chi squared")],
        [
            ("ordinary", 4, good_fit),
            ("noisy", 2, bad_fit),
            ("far-field", 1, long_fit),
            ("wide", 2, wide_chi),
            ("vanishing", 1, vanishing),
        ],
        wanted_rows=150,
        extra=lambda draws: whole_only(draws, good_fit),
    ),
]
