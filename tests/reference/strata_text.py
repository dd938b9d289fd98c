"""Rows for text: its smallest size, its grade, and how far it may be out of focus."""

import math

import beams
from model_text import CRISP, LOST, READABLE, offset_for_text, smallest_text, text_quality, typeface_shares
from strata import Function, Slot
from strata_focus import UNREACHABLE
from strata_mark import DOSE, SPOT, dose_large, dose_near_one, dose_ordinary, spot
from strata_optics import CONE, ROUND
from typefaces import KINDS, MEASURED

SHARES = ("stem", "effective_stroke", "effective_counter", "effective_gap")
SHARE_SLOTS = [Slot(name, name.replace("_", " "), {"typeface": MEASURED}) for name in SHARES]
CUT_OFF_SLOTS = [
    Slot("crisp_exposure", "crisp exposure"),
    Slot("good_window", "dose window"),
    Slot("readable_window", "dose window"),
]
TYPEFACE = {"typeface": "typeface"}


def known(draws):
    """A kind of typeface; its shares are not read."""
    return {"typeface": draws.choice(sorted(KINDS))} | {name: draws.anything() for name in SHARES}


def measured(draws):
    return {
        "typeface": MEASURED,
        "stem": draws.nice(0.03, 0.2),
        "effective_stroke": draws.nice(0.02, 0.15),
        "effective_counter": draws.nice(0.05, 0.2),
        "effective_gap": draws.nice(0.05, 0.2),
    }


def odd_measured(draws):
    """Shares from the whole of their ranges."""
    return {"typeface": MEASURED} | {name: draws.octaves(1e-3, 1.0) for name in SHARES}


def usual_face(draws):
    return draws.choice((known, measured))(draws)


def usual_cut_offs(draws):
    if draws.one_in(2):
        return {"crisp_exposure": 0.98, "good_window": 2.0, "readable_window": 1.1}
    return {
        "crisp_exposure": draws.nice(0.8, 0.999),
        "good_window": draws.nice(1.3, 6.0),
        "readable_window": draws.nice(1.0, 1.3),
    }


def odd_cut_offs(draws):
    return {
        "crisp_exposure": draws.choice((draws.evenly(0.5, 0.99), 1.0 - draws.octaves(2e-6, 0.5))),
        "good_window": draws.octaves(1.0, 1e3),
        "readable_window": draws.choice((1.0, draws.octaves(1.0, 1e3))),
    }


def text(draws, dose, face=usual_face, cut_offs=usual_cut_offs):
    return {"dose_ratio": dose(draws)} | face(draws) | cut_offs(draws)


def of_spot(draws, dose, face=usual_face, cut_offs=usual_cut_offs):
    return {"spot_diameter": spot(draws)} | text(draws, dose, face, cut_offs)


def sized(draws, over_spot, dose, face=usual_face, cut_offs=usual_cut_offs):
    """Type this many spot diameters large."""
    while True:
        row = of_spot(draws, dose, face, cut_offs)
        em = row["spot_diameter"] * over_spot(draws)
        if 1e-9 <= em <= 10.0:
            return row | {"em": em}


def about_the_grades(draws):
    """Where the grades of usual typefaces begin."""
    return draws.octaves(1.5, 40.0)


def focused_text(draws, over_waist, dose, face=usual_face, cut_offs=usual_cut_offs):
    while True:
        beam = beams.any_round(draws)
        em = beam["waist_diameter"] * over_waist(draws)
        if 1e-9 <= em <= 10.0:
            return beam | text(draws, dose, face, cut_offs) | {"em": em, "text_grade": draws.randint(CRISP, READABLE)}


def beyond_all_sizes(draws):
    """Nothing is asked of lost text, and so no offset found."""
    rows = []
    for _ in range(5):
        row = focused_text(draws, about_the_grades, dose_ordinary) | {"text_grade": LOST}
        rows.append(("refused", row))
        rows.append(("order", row | {"wavelength": math.nan}))
    return rows


def text_strata(draw):
    """The strata that all functions of text share, from what draws a row."""
    return [
        ("ordinary", 5, lambda d: draw(d, dose_ordinary)),
        ("near-threshold", 1, lambda d: draw(d, dose_near_one)),
        ("large-dose", 1, lambda d: draw(d, dose_large)),
        ("odd-shares", 2, lambda d: draw(d, dose_ordinary, odd_measured)),
        ("odd-cut-offs", 2, lambda d: draw(d, dose_ordinary, usual_face, odd_cut_offs)),
    ]


FUNCTIONS = [
    Function(
        typeface_shares,
        SHARE_SLOTS,
        [("ordinary", 2, known), ("measured", 3, measured), ("odd-shares", 3, odd_measured)],
        choices=TYPEFACE,
        wanted_rows=240,
    ),
    Function(
        smallest_text,
        [SPOT, DOSE, *SHARE_SLOTS, *CUT_OFF_SLOTS],
        text_strata(of_spot),
        choices=TYPEFACE,
        wanted_rows=440,
    ),
    Function(
        text_quality,
        [SPOT, Slot("em", "em"), DOSE, *SHARE_SLOTS, *CUT_OFF_SLOTS],
        text_strata(lambda d, *more: sized(d, about_the_grades, *more))
        + [
            ("too-small", 1, lambda d: sized(d, lambda d: d.octaves(1e-6, 1.5), dose_ordinary)),
            ("endless-window", 1, lambda d: sized(d, lambda d: d.octaves(60.0, 1e6), dose_ordinary)),
            ("large-type", 1, lambda d: sized(d, lambda d: d.octaves(40.0, 200.0), dose_large)),
        ],
        choices=TYPEFACE,
        wanted_rows=500,
    ),
    Function(
        offset_for_text,
        [*ROUND, Slot("em", "em"), DOSE, *SHARE_SLOTS, *CUT_OFF_SLOTS],
        text_strata(lambda d, *more: focused_text(d, lambda d: d.octaves(3.0, 60.0), *more))
        + [("far-field", 1, lambda d: focused_text(d, lambda d: d.octaves(60.0, 1e5), dose_ordinary))],
        choices={"text_grade": "text grade", "typeface": "typeface"},
        computed_refusals=[CONE, (UNREACHABLE, "em")],
        free=lambda d: focused_text(d, about_the_grades, dose_ordinary) | (beams.free(d) if d.one_in(2) else {}),
        extra=beyond_all_sizes,
        wanted_rows=500,
    ),
]
