"""Rows for the crossing of two caustics."""

import beams
from model_crossing import caustic_crossing
from strata import Function, Slot
from strata_optics import CONE

NAMES = ("wavelength", "m2", "waist_diameter")


def pair(draws, first, second):
    """Both beams, in either order."""
    both = [first, second]
    if draws.one_in(2):
        both.reverse()
    return {
        f"{which}_{name}": beam[name] for which, beam in zip(("first", "second"), both) for name in NAMES
    }


def allowed(beam):
    return beams.half_angle(beam) < beams.WIDEST_HALF_ANGLE and 1e-9 <= beam["waist_diameter"] <= 10.0


def scaled(draws, beam, ratio):
    """The beam with another waist, and perhaps a little more or less of M2."""
    while True:
        other = beam | {"waist_diameter": beam["waist_diameter"] * ratio(draws)}
        if draws.one_in(2):
            other["m2"] = max(1.0, beam["m2"] * draws.evenly(0.8, 1.3))
        if allowed(other):
            return pair(draws, beam, other)


def two_lenses(draws):
    """One raw beam behind two ideal lenses: one M2."""
    beam = beams.focused(draws)
    while True:
        other = beam | {"waist_diameter": beam["waist_diameter"] * draws.evenly(1.05, 4.0)}
        if allowed(other):
            return pair(draws, beam, other)


def real_lenses(draws):
    return scaled(draws, beams.focused(draws), lambda d: d.evenly(0.4, 2.5))


def nearly_equal(draws):
    """Waists, or M2, or both, some doubles apart."""
    beam = beams.any_round(draws)
    other = dict(beam)
    if draws.one_in(2):
        other["waist_diameter"] = draws.nudge(beam["waist_diameter"])
    if not draws.one_in(3):
        other["m2"] = max(1.0, draws.nudge(beam["m2"]))
    return pair(draws, beam, other)


def parallel(draws):
    """Waists of different size whose cones are the same: k in proportion to d, which is exact here."""
    beam = beams.focused(draws)
    ratio = draws.choice((2.0, 4.0, 8.0))
    other = beam | {"waist_diameter": beam["waist_diameter"] * ratio, "m2": beam["m2"] * ratio}
    return pair(draws, beam, other)


def far_off(draws):
    """Cones that are all but the same, so that the caustics cross far away."""
    row = parallel(draws)
    name = draws.choice(("first_waist_diameter", "second_waist_diameter"))
    return row | {name: row[name] * (1.0 + draws.sign() * draws.octaves(2.0**-52, 1e-3))}


def two_lasers(draws):
    return pair(draws, beams.any_round(draws), beams.any_round(draws))


def wide(draws):
    return scaled(draws, beams.wide(draws), lambda d: d.octaves(1e-3, 1e3))


def free(draws):
    return pair(draws, beams.free(draws), beams.focused(draws))


FUNCTIONS = [
    Function(
        caustic_crossing,
        [
            Slot(f"{which}_{name}", parameter)
            for which in ("first", "second")
            for name, parameter in zip(NAMES, ("wavelength", "M squared", "waist diameter"))
        ],
        [
            ("ordinary", 4, two_lenses),
            ("ordinary", 3, real_lenses),
            ("wide", 3, wide),
            ("nearly-equal", 3, nearly_equal),
            ("nearly-equal", 1, parallel),
            ("far-field", 2, far_off),
            ("other-wavelength", 2, two_lasers),
        ],
        computed_refusals=[CONE],
        free=free,
    ),
]
