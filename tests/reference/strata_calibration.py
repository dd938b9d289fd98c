"""Rows for what test pieces told of a machine."""

from mpmath import mpf

import beams
from checks import OUT_OF_RANGE
from model_calibration import calibrated_set_up, calibration_from_marks, learned_threshold
from model_statistics import student
from strata import Function, Slot
from strata_optics import CONE, IMAGE_WAIST, OUTSIDE_MODEL

LENSES = (0.0381, 0.0508, 0.0635, 0.1016, 0.16, 0.254)
NORMAL = 1.959963984540054


def factor(draws):
    """Of a normal law or of Student's."""
    return {"coverage_factor_95": NORMAL if draws.one_in(2) else draws.nice(1.96, 12.71)}


def found(draws, beam, focal_length, shift=0.0):
    """A beam as it was measured, well known."""
    deviations = {"m2_deviation": draws.nice(0.01, 0.2), "focus_deviation": draws.nice(1e-6, 2e-4)}
    measured = {"measured_m2": beam["m2"]} | {name: beam[name] for name in ("wavelength", "waist_diameter")}
    return measured | deviations | factor(draws) | {"focal_length": focal_length, "focus_shift": shift}


def ordinary(draws):
    return found(draws, beams.focused(draws), draws.choice(LENSES))


def shifted(draws):
    """The distance from the lens was measured too."""
    beam = beams.focused(draws)
    return found(draws, beam, draws.choice(LENSES), draws.sign() * beams.rayleigh(beam) * draws.octaves(1e-6, 5.0))


def wide(draws):
    beam = beams.wide(draws)
    focal_length = draws.octaves(1e-5, 1e4)
    row = found(draws, beam, focal_length, draws.sign() * draws.octaves(1e-12, 1.0) * focal_length)
    return row | {"m2_deviation": draws.octaves(1e-9, 10.0), "focus_deviation": draws.octaves(1e-12, 1e3)}


def below_one(draws):
    """M squared put below 1 by noise that its range allows."""
    deviation = draws.nice(0.01, 0.3)
    row = ordinary(draws) | {"m2_deviation": deviation}
    m2 = 1.0 - row["coverage_factor_95"] * deviation * draws.evenly(1e-6, 0.999)
    return row | {"measured_m2": max(m2, 0.01)}


def exact(draws):
    """Nothing is said of deviations."""
    return ordinary(draws) | {"m2_deviation": 0.0, "focus_deviation": 0.0}


def set_up_free(draws):
    kind = draws.randint(1, 5)
    if kind == 1:
        return ordinary(draws) | {"measured_m2": draws.evenly(0.1, 0.9), "m2_deviation": draws.octaves(1e-4, 0.02)}
    if kind == 2:
        row = ordinary(draws)
        return row | {"focus_shift": -row["focal_length"] * draws.evenly(1.0, 3.0)}
    if kind == 3:
        # A raw waist of metres, or far off.
        row = wide(draws)
        return row | {"focal_length": draws.octaves(10.0, 1e4), "focus_shift": draws.octaves(1e-6, 1.0)}
    if kind == 4:
        # So short a lens that the raw beam spreads at once.
        return wide(draws) | {"focal_length": draws.octaves(1e-5, 1e-3), "focus_shift": draws.octaves(1e-6, 10.0)}
    return found(draws, beams.free(draws), draws.octaves(1e-5, 1e4))


def line(draws, wild=False):
    if wild:
        row = {
            "power": draws.octaves(1e-9, 1e6),
            "speed": draws.octaves(1e-9, 1e4),
            "waist_diameter": draws.octaves(1e-9, 10.0),
            "dose_ratio": draws.octaves(1.000001, 1e6),
            "relative_dose_ratio_deviation": draws.octaves(1e-9, 10.0),
        }
    else:
        row = {
            "power": draws.nice(1.0, 60.0),
            "speed": draws.nice(0.05, 2.0),
            "waist_diameter": draws.nice(15e-6, 300e-6),
            "dose_ratio": draws.nice(1.2, 12.0),
            "relative_dose_ratio_deviation": draws.nice(0.005, 0.1),
        }
    share = draws.octaves(1e-9, 1.0) if wild else draws.evenly(0.002, 0.1)
    row["waist_diameter_deviation"] = row["waist_diameter"] * share
    return row | {"correlation": draws.evenly(-0.99, 0.99)} | factor(draws)


def bound(draws):
    """Two that know of each other, or hardly."""
    edge = 1.0 - draws.octaves(2.0**-53, 1e-3)
    return line(draws) | {"correlation": draws.sign() * draws.choice((edge, 1.0, draws.octaves(1e-300, 1e-6)))}


def undoing(draws):
    """A waist and a dose ratio that stray by nearly as much, one against the other."""
    row = line(draws)
    share = row["waist_diameter_deviation"] / row["waist_diameter"]
    near = share * (1.0 + draws.sign() * draws.octaves(1e-5, 0.1))
    return row | {"relative_dose_ratio_deviation": near, "correlation": -1.0 + draws.choice((0.0, 1e-9, 1e-4))}


def certain(draws):
    row = line(draws)
    names = draws.choice((["waist_diameter_deviation"], ["relative_dose_ratio_deviation"], None))
    return row | {name: 0.0 for name in names or ["waist_diameter_deviation", "relative_dose_ratio_deviation"]}


def line_free(draws):
    return line(draws, wild=True) | {"power": draws.octaves(1e2, 1e6), "speed": draws.octaves(1e-9, 1e-6)}


def marks(draws, wild=False):
    """What a fit of marks told, with ranges of a normal law or of Student's."""
    beam, told = beams.wide(draws) if wild else beams.focused(draws), line(draws, wild)
    freedom = draws.randint(1, 40)
    ranges = NORMAL if draws.one_in(2) else float(student(mpf(5) / 100, mpf(freedom)))
    row = {
        "waist_z": draws.sign() * (draws.octaves(1e-9, 1e3) if wild else draws.nice(1e-6, 3e-3)),
        "waist_z_deviation": draws.octaves(1e-12, 1e3) if wild else draws.nice(1e-6, 2e-4),
        "waist_diameter": told["waist_diameter"],
        "waist_diameter_deviation": told["waist_diameter_deviation"],
        "m2": beam["m2"],
        "m2_deviation": draws.nice(0.01, 0.2),
        "dose_ratio_deviation": told["dose_ratio"] * told["relative_dose_ratio_deviation"],
        "range_factor": ranges,
        "degrees_of_freedom": float(freedom),
        "wavelength": beam["wavelength"],
        "focal_length": draws.octaves(1e-5, 1e4) if wild else draws.choice(LENSES),
    }
    return row | {name: told[name] for name in ("dose_ratio", "correlation", "power", "speed")}


def marks_free(draws):
    """Ranges of another confidence, or of other degrees of freedom, or of none."""
    row = marks(draws)
    return row | {"range_factor": draws.nice(1.96, 12.71), "degrees_of_freedom": float(draws.randint(0, 30))}


FUNCTIONS = [
    Function(
        calibrated_set_up,
        [
            Slot("wavelength", "wavelength"),
            Slot("measured_m2", "measured M squared"),
            Slot("m2_deviation", "deviation of M squared"),
            Slot("waist_diameter", "waist diameter"),
            Slot("focal_length", "focal length"),
            Slot("focus_shift", "focus shift"),
            Slot("focus_deviation", "deviation of the height of focus"),
            Slot("coverage_factor_95", "95 % coverage factor"),
        ],
        [
            ("ordinary", 4, ordinary),
            ("wide", 3, wide),
            ("shifted", 3, shifted),
            ("below-one", 3, below_one),
            ("exact", 1, exact),
        ],
        computed_refusals=[
            (OUTSIDE_MODEL, "measured M squared"),
            CONE,
            (OUTSIDE_MODEL, "lens to waist"),
            IMAGE_WAIST,
            (OUTSIDE_MODEL, "waist to lens"),
        ],
        free=set_up_free,
        per_slot=2,
        wanted_rows=260,
    ),
    Function(
        learned_threshold,
        [
            Slot("power", "power"),
            Slot("speed", "speed"),
            Slot("waist_diameter", "waist diameter"),
            Slot("waist_diameter_deviation", "deviation of the waist diameter"),
            Slot("dose_ratio", "dose ratio"),
            Slot("relative_dose_ratio_deviation", "relative deviation of the dose ratio"),
            Slot("correlation", "correlation"),
            Slot("coverage_factor_95", "95 % coverage factor"),
        ],
        [
            ("ordinary", 4, line),
            ("wide", 3, lambda d: line(d, wild=True)),
            ("bound", 2, bound),
            ("undoing", 2, undoing),
            ("exact", 1, certain),
        ],
        computed_refusals=[(OUTSIDE_MODEL, "threshold")],
        free=line_free,
        per_slot=2,
        wanted_rows=240,
    ),
    Function(
        calibration_from_marks,
        [
            Slot("waist_z", "focus z", either_sign=False),
            Slot("waist_z_deviation", "deviation of the height of focus"),
            Slot("waist_diameter", "waist diameter"),
            Slot("waist_diameter_deviation", "deviation of the waist diameter"),
            Slot("m2", "measured M squared"),
            Slot("m2_deviation", "deviation of M squared"),
            Slot("dose_ratio", "dose ratio"),
            Slot("dose_ratio_deviation", "relative deviation of the dose ratio"),
            Slot("correlation", "correlation"),
            Slot("range_factor", "95 % coverage factor"),
            Slot("wavelength", "wavelength"),
            Slot("focal_length", "focal length"),
            Slot("power", "power"),
            Slot("speed", "speed"),
        ],
        [("ordinary", 3, marks), ("wide", 1, lambda d: marks(d, wild=True))],
        computed_refusals=[(OUT_OF_RANGE, "95 % coverage factor"), (OUT_OF_RANGE, "whole degrees of freedom")],
        free=marks_free,
        per_slot=1,
        wanted_rows=160,
    ),
]
