"""Rows for the check of a job whose dose is that of a scan, or that has text."""

from model_check import COLLIMATED, IDEAL, SCAN, SINGLET, TEXT, WAIST, focus_check
from model_material import COATING, LINEAR, LOGARITHMIC, MELT
from strata import Function, Slot
from strata_check import (
    between,
    digits,
    filled,
    flat_work,
    off_focus,
    ordinary,
    real_job,
    real_optics,
    real_scales,
    wide,
)
from strata_crisp import TOO_WIDE_AN_INTERVAL
from strata_mark import dose_large, dose_near_one, dose_ordinary, dose_too_weak
from strata_optics import OUTSIDE_MODEL
from strata_text import SHARE_SLOTS, about_the_grades, odd_cut_offs, odd_measured, usual_cut_offs, usual_face

LOST = 4


def with_scan(draws, row, over_radius, dose):
    """The job with a scan of this dose ratio, its lines this many waist radii apart."""
    waist, _, _ = real_scales(row)
    power = draws.nice(1.0, 100.0)
    speed = draws.nice(0.01, 5.0)
    interval = digits(between(waist / 2.0 * over_radius(draws), 1e-9, 1.0))
    threshold = power / speed / interval / dose(draws)
    return row | {
        "dose": SCAN,
        "dose_ratio": draws.anything(),
        "power": power,
        "speed": speed,
        "line_interval": interval,
        "threshold": digits(between(threshold, 1e-12, 1e18), 6),
        "response": COATING,
    }


def melted(draws, row):
    """The job's material a melt, whose heat spreads by up to some spots."""
    waist, _, _ = real_scales(row)
    diffusivity = waist * row["speed"] / 20.0 * draws.octaves(0.01, 20.0)
    return row | {"response": MELT, "diffusivity": digits(between(diffusivity, 0.0, 1e-2))}


def melt(draws):
    return melted(draws, text_and_details(draws))


def melt_under_real_lens(draws):
    return melted(draws, real_lens(draws))


def dug(draws):
    row = scan(draws, even, draws.choice((usual_dose, dose_ordinary, dose_near_one, lambda d: d.evenly(0.3, 1.0))))
    if draws.one_in(2):
        return row | {"response": LOGARITHMIC, "penetration_depth": draws.nice(1e-9, 1e-5)}
    return row | {"response": LINEAR, "removal_energy": draws.nice(1e9, 5e10)}


def too_weak(draws):
    """A dose by ratio or scan that marks nothing."""
    row = text(draws)
    if row["dose"] == SCAN:
        return row | {"threshold": between(row["threshold"] * draws.octaves(5.0, 1e3), 1e-12, 1e18)}
    return row | {"dose_ratio": dose_too_weak(draws)}


def with_text(draws, row, over_waist, face=usual_face, cut_offs=usual_cut_offs):
    """The job with type this many waist diameters large."""
    waist, _, _ = real_scales(row)
    size = {
        "text": TEXT,
        "em": digits(between(waist * over_waist(draws), 1e-9, 10.0)),
        "least_grade": LOST if draws.one_in(8) else draws.randint(1, 3),
    }
    return row | face(draws) | cut_offs(draws) | size


def held(draws, row):
    """The job with details that never suffer, so that its text decides."""
    waist, _, _ = real_scales(row)
    return row | {name: digits(between(20.0 * waist, 1e-9, 10.0)) for name in ("finest_stroke", "finest_gap")}


def even(draws):
    return draws.evenly(0.3, 1.2)


def usual_dose(draws):
    return draws.nice(1.5, 4.0, 2)


def scan(draws, over_radius=even, dose=usual_dose):
    return with_scan(draws, draws.choice((ordinary, flat_work))(draws), over_radius, dose)


def some_job(draws):
    """Off focus or on a flat, and with either kind of dose."""
    row = held(draws, draws.choice((ordinary, flat_work, off_focus))(draws))
    return with_scan(draws, row, even, usual_dose) if draws.one_in(2) else row


def text(draws):
    return with_text(draws, some_job(draws), about_the_grades)


def odd_text(draws):
    row = some_job(draws)
    if draws.one_in(2):
        return with_text(draws, row, about_the_grades, odd_measured)
    return with_text(draws, row, about_the_grades, usual_face, odd_cut_offs)


def small_text(draws):
    return with_text(draws, some_job(draws), lambda d: d.octaves(0.05, 3.0))


def text_and_details(draws):
    return with_text(draws, scan(draws), about_the_grades)


def gaps(draws):
    """Lines so far apart that they may not meet."""
    return scan(draws, lambda d: d.evenly(1.3, 6.0), lambda d: d.choice((usual_dose, dose_ordinary))(d))


def odd_dose(draws):
    return scan(draws, even, draws.choice((dose_near_one, dose_large)))


def fine_lines(draws):
    return scan(draws, lambda d: d.octaves(0.02, 0.3))


def real_lens(draws):
    row = real_job(
        draws,
        real_optics(draws, (COLLIMATED, WAIST), (SINGLET, IDEAL)),
        lambda d: d.evenly(0.0, 0.5),
        lambda d: d.evenly(-0.5, 0.5),
        lambda d: d.evenly(1.0, 4.0),
        lambda d: d.nice(1.1, 3.0),
    )
    return with_text(draws, with_scan(draws, row, even, usual_dose), about_the_grades)


def wide_job(draws):
    return with_text(draws, with_scan(draws, wide(draws), even, dose_ordinary), about_the_grades)


def asking_too_much(draws):
    """Intervals and doses that are none of a fill."""
    row = scan(draws)
    if draws.one_in(2):
        return row | {"line_interval": between(row["line_interval"] * draws.octaves(20.0, 200.0), 1e-9, 1.0)}
    return row | {"threshold": between(row["threshold"] * draws.choice((1e7, 1e-7)), 1e-12, 1e18)}


SCAN_ONLY = {"dose": SCAN}
TEXT_ONLY = {"text": TEXT}

FUNCTIONS = [
    Function(
        focus_check,
        [
            Slot("power", "power", SCAN_ONLY),
            Slot("speed", "speed", SCAN_ONLY),
            Slot("line_interval", "line interval", SCAN_ONLY),
            Slot("threshold", "threshold", SCAN_ONLY),
            Slot("penetration_depth", "penetration depth", SCAN_ONLY | {"response": LOGARITHMIC}),
            Slot("removal_energy", "removal energy", SCAN_ONLY | {"response": LINEAR}),
            Slot("diffusivity", "thermal diffusivity", SCAN_ONLY | {"response": MELT}),
            *[Slot(slot.name, slot.parameter, slot.when | TEXT_ONLY) for slot in SHARE_SLOTS],
            Slot("em", "em", TEXT_ONLY),
            Slot("crisp_exposure", "crisp exposure", TEXT_ONLY),
            Slot("good_window", "dose window", TEXT_ONLY),
            Slot("readable_window", "dose window", TEXT_ONLY),
        ],
        [
            ("text", 3, text_and_details),
            ("scan", 2, scan),
            ("text", 3, text),
            ("odd-text", 2, odd_text),
            ("small-text", 1, small_text),
            ("gaps", 2, gaps),
            ("odd-dose", 1, odd_dose),
            ("fine-fill", 1, fine_lines),
            ("real-lens", 2, real_lens),
            ("wide", 1, wide_job),
            ("melt", 3, melt),
            ("melt", 1, melt_under_real_lens),
            ("dug", 2, dug),
            ("too-weak", 1, too_weak),
        ],
        choices={
            "dose": "dose of a job",
            "response": "response",
            "text": "text of a job",
            "typeface": "typeface",
            "least_grade": "text grade",
        },
        computed_refusals=[TOO_WIDE_AN_INTERVAL, (OUTSIDE_MODEL, "any dose ratio")],
        free=asking_too_much,
        per_slot=2,
        wanted_rows=470,
        finish=filled,
    ),
]
