"""Rows for the smallest details, their exposure, and the contrast of a grating."""

from model_contrast import contrast_at_pitch, pitch_for_contrast
from model_detail import detail_exposure, largest_spot_for_details, smallest_details
from strata import Function, Slot


def dose_ordinary(draws):
    return draws.nice(1.1, 8.0) if draws.one_in(2) else draws.octaves(1.05, 20.0)


def dose_near_two(draws):
    """About the dose at which an edge stays where it was drawn."""
    if draws.one_in(8):
        return 2.0
    return 2.0 + draws.sign() * draws.octaves(2.0**-51, 0.05)


def dose_near_one(draws):
    return 1.0 + draws.octaves(1.01e-6, 0.05)


def dose_large(draws):
    return draws.octaves(20.0, 1e6)


def dose_too_weak(draws):
    """Below the threshold, or at it."""
    return draws.choice((draws.octaves(1e-6, 1.0), draws.evenly(0.5, 1.0), 1.0 - draws.octaves(1e-16, 1e-3), 1.0))


DOSES = [
    ("ordinary", 3, dose_ordinary),
    ("near-edge-true", 2, dose_near_two),
    ("near-threshold", 2, dose_near_one),
    ("large-dose", 2, dose_large),
]


def spot(draws):
    return draws.nice(1e-5, 1e-3) if draws.one_in(2) else draws.octaves(1e-9, 10.0)


def details(dose):
    return lambda draws: {"spot_diameter": spot(draws), "dose_ratio": dose(draws)}


def wanted_details(dose):
    def draw(draws):
        stroke = spot(draws)
        gap = min(10.0, max(1e-9, stroke * draws.octaves(1e-4, 1e4)))
        return {"finest_stroke": stroke, "finest_gap": gap, "dose_ratio": dose(draws)}

    return draw


def detail(least, greatest):
    """A detail this many spots wide."""

    def draw(draws):
        while True:
            diameter = spot(draws)
            size = diameter * draws.octaves(least, greatest)
            if 1e-9 <= size <= 10.0:
                return {"spot_diameter": diameter, "detail_size": size}

    return draw


def grating(least, greatest):
    """A grating whose pitch puts w/L between these."""

    def draw(draws):
        while True:
            diameter = spot(draws)
            pitch = diameter / (2.0 * draws.octaves(least, greatest))
            if 1e-9 <= pitch <= 10.0:
                return {"spot_diameter": diameter, "pitch": pitch}

    return draw


def grating_where_sums_meet(draws):
    """w/L about 0.4, or some doubles beside it."""
    if draws.one_in(2):
        return grating(0.25, 0.45)(draws)
    diameter = draws.nice(1e-5, 1e-3)
    apart = 1.0 + draws.sign() * draws.octaves(2.0**-52, 1e-3)
    return {"spot_diameter": diameter, "pitch": 1.25 * diameter * apart}


def contrast(value):
    return lambda draws: {"spot_diameter": spot(draws), "contrast": value(draws)}


SPOT = Slot("spot_diameter", "spot diameter")
DOSE = Slot("dose_ratio", "dose ratio")

FUNCTIONS = [
    Function(
        smallest_details,
        [SPOT, DOSE],
        [(name, share, details(dose)) for name, share, dose in DOSES],
    ),
    Function(
        largest_spot_for_details,
        [Slot("finest_stroke", "finest stroke"), Slot("finest_gap", "finest gap"), DOSE],
        [(name, share, wanted_details(dose)) for name, share, dose in DOSES],
    ),
    Function(
        detail_exposure,
        [SPOT, Slot("detail_size", "detail size")],
        [
            ("ordinary", 3, detail(0.1, 2.0)),
            ("fine-detail", 2, detail(1e-10, 0.1)),
            ("coarse-detail", 2, detail(2.0, 19.0)),
            ("far-apart", 1, detail(19.0, 1e10)),
        ],
    ),
    Function(
        contrast_at_pitch,
        [SPOT, Slot("pitch", "pitch")],
        [
            ("ordinary", 4, grating(0.05, 1.5)),
            ("sums-meet", 2, grating_where_sums_meet),
            ("fine-pitch", 2, grating(1.5, 11.8)),
            ("coarse-pitch", 2, grating(0.0133, 0.05)),
            ("endless-window", 1, grating(1e-8, 0.0133)),
            ("faded", 1, grating(21.0, 1e6)),
        ],
    ),
    Function(
        pitch_for_contrast,
        [SPOT, Slot("contrast", "contrast")],
        [
            ("ordinary", 3, contrast(lambda d: d.nice(0.01, 0.99))),
            ("small-contrast", 1, contrast(lambda d: d.octaves(1e-12, 0.01))),
            ("large-contrast", 2, contrast(lambda d: 1.0 - d.octaves(1.01e-12, 0.01))),
            ("sums-meet", 1, contrast(lambda d: 0.5777545736524769 * (1.0 + d.sign() * d.octaves(2.0**-52, 1e-3)))),
        ],
    ),
]
