"""Rows for dose, for what it does to a material, and for the blur of a scan."""

from mpmath import mpf

from model_blur import blur_budget
from model_dose import dose_over_threshold, dots_per_inch, line_interval, pulse_dose, scan_dose
from model_material import LINEAR, LOGARITHMIC, MELT, material_mark
from strata import Function, Slot

# Scans


def scan(draws):
    """A scan as people set it."""
    spot = draws.nice(10e-6, 400e-6)
    return {
        "power": draws.nice(0.5, 150.0),
        "speed": draws.nice(0.005, 8.0),
        "diameter_across": spot,
        "diameter_along": spot if draws.one_in(2) else draws.nice(10e-6, 400e-6),
        "line_interval": draws.nice(10e-6, 300e-6),
    }


def scan_wide(draws):
    return {
        "power": draws.octaves(1e-9, 1e6),
        "speed": draws.octaves(1e-9, 1e4),
        "diameter_across": draws.octaves(1e-9, 10.0),
        "diameter_along": draws.octaves(1e-9, 10.0),
        "line_interval": draws.octaves(1e-9, 1.0),
    }


def pulsed(draws):
    return scan(draws) | {"repetition_rate": draws.nice(1e3, 500e3)}


def pulsed_wide(draws):
    return scan_wide(draws) | {"repetition_rate": draws.octaves(1e-3, 1e12)}


def just_touching(draws):
    """Dots one diameter apart, or nearly."""
    row = pulsed(draws)
    if draws.one_in(4):
        # Powers of two, so that the pitch is the diameter exactly.
        return row | {"diameter_along": 2.0**-14, "speed": 1.0, "repetition_rate": 2.0**14}
    apart = 1.0 + draws.sign() * draws.octaves(2.0**-52, 1e-2)
    return row | {"repetition_rate": row["speed"] / (row["diameter_along"] * apart)}


SCAN = [
    Slot("power", "power"),
    Slot("speed", "speed"),
    Slot("diameter_across", "diameter across"),
    Slot("diameter_along", "diameter along"),
    Slot("line_interval", "line interval"),
]


# Materials


def material(draws):
    return {
        "threshold": draws.nice(1e3, 2e6),
        "incubation": 1.0 if draws.one_in(3) else draws.nice(0.7, 1.0),
        "response": draws.randint(1, 4),
        "penetration_depth": draws.nice(1e-9, 1e-4),
        "removal_energy": draws.nice(1e9, 5e10),
        "diffusivity": draws.nice(1e-8, 1e-4),
        "exposures": 1.0 if draws.one_in(3) else float(draws.randint(1, 400)),
        "spot_diameter": draws.nice(10e-6, 400e-6),
        "dwell": draws.nice(1e-6, 1e-2),
    }


def material_wide(draws):
    return {
        "threshold": draws.octaves(1e-12, 1e18),
        "incubation": draws.evenly(0.5, 1.0),
        "response": draws.randint(1, 4),
        "penetration_depth": draws.octaves(1e-12, 1.0),
        "removal_energy": draws.octaves(1.0, 1e15),
        "diffusivity": draws.octaves(1e-12, 1e-2),
        "exposures": draws.octaves(1.0, 1e9),
        "spot_diameter": draws.octaves(1e-9, 10.0),
        "dwell": draws.octaves(1e-12, 1e6),
    }


def dosed(draws, row, ratio):
    """With a dose of this many thresholds, lowered by so many exposures."""
    lowered = mpf(row["threshold"]) * mpf(row["exposures"]) ** (mpf(row["incubation"]) - 1)
    return row | {"dose": min(1e18, max(1e-12, float(lowered * ratio)))}


def without_incubation(draws):
    """The threshold is met exactly, or to the next double."""
    row = material(draws) | {draws.choice(("incubation", "exposures")): 1.0}
    apart = draws.choice((0.0, 0.0, draws.sign() * draws.octaves(2.0**-52, 1e-3)))
    return row | {"dose": row["threshold"] * (1.0 + apart)}


UNREAD = {LOGARITHMIC: "penetration_depth", LINEAR: "removal_energy", MELT: "diffusivity"}


def fill_unread(draws, row):
    """What the response does not name may be anything."""
    row = dict(row)
    for response, name in UNREAD.items():
        if row["response"] != response:
            row[name] = draws.anything()
    return row


# Blur


def of_blur(scan):
    """What a blur takes from a scan."""
    return {name: scan[name] for name in ("diameter_across", "diameter_along", "speed")}


def blur(draws):
    row = {name: 0.0 for name in ("diffusivity", "pixel", "jitter_deviation", "rise_time", "switch_delay")}
    row |= of_blur(scan(draws))
    drawn = {
        "diffusivity": draws.octaves(1e-8, 1e-4),
        "pixel": draws.nice(5e-6, 200e-6),
        "jitter_deviation": draws.nice(1e-6, 50e-6),
        "rise_time": draws.nice(1e-6, 1e-3),
        "switch_delay": draws.nice(1e-6, 1e-3),
    }
    kept = draws.sample(sorted(drawn), draws.randint(1, 5))
    return row | {name: drawn[name] for name in kept}


def blur_wide(draws):
    return of_blur(scan_wide(draws)) | {
        "diffusivity": draws.octaves(1e-20, 1e-2),
        "pixel": draws.octaves(1e-12, 1.0),
        "jitter_deviation": draws.octaves(1e-12, 1.0),
        "rise_time": draws.octaves(1e-12, 1.0),
        "switch_delay": draws.octaves(1e-12, 1.0),
    }


def next_to_no_blur(draws):
    """So little of everything that squares vanish."""
    return blur(draws) | {
        name: abs(draws.tiny())
        for name in ("diffusivity", "pixel", "jitter_deviation", "rise_time", "switch_delay")
    }


FUNCTIONS = [
    Function(scan_dose, SCAN, [("ordinary", 2, scan), ("wide", 2, scan_wide)]),
    Function(
        pulse_dose,
        [*SCAN, Slot("repetition_rate", "repetition rate")],
        [("ordinary", 2, pulsed), ("wide", 2, pulsed_wide), ("just-touching", 1, just_touching)],
    ),
    Function(
        dose_over_threshold,
        [Slot("dose", "dose"), Slot("threshold", "threshold")],
        [
            ("ordinary", 1, lambda d: {"dose": d.nice(1e3, 1e7), "threshold": d.nice(1e3, 1e7)}),
            ("wide", 1, lambda d: {"dose": d.octaves(1e-12, 1e18), "threshold": d.octaves(1e-12, 1e18)}),
        ],
        wanted_rows=200,
    ),
    Function(
        line_interval,
        [Slot("dots_per_inch", "dots per inch")],
        [
            ("ordinary", 1, lambda d: {"dots_per_inch": float(d.randint(50, 3000))}),
            ("wide", 1, lambda d: {"dots_per_inch": d.octaves(0.0254, 2.54e7)}),
        ],
        wanted_rows=200,
    ),
    Function(
        dots_per_inch,
        [Slot("line_interval", "line interval")],
        [
            ("ordinary", 1, lambda d: {"line_interval": d.nice(5e-6, 5e-4)}),
            ("wide", 1, lambda d: {"line_interval": d.octaves(1e-9, 1.0)}),
        ],
        wanted_rows=200,
    ),
    Function(
        material_mark,
        [
            Slot("threshold", "threshold"),
            Slot("incubation", "incubation"),
            Slot("penetration_depth", "penetration depth", {"response": LOGARITHMIC}),
            Slot("removal_energy", "removal energy", {"response": LINEAR}),
            Slot("diffusivity", "thermal diffusivity", {"response": MELT}),
            Slot("dose", "dose"),
            Slot("exposures", "pulses"),
            Slot("spot_diameter", "spot diameter"),
            Slot("dwell", "dwell"),
        ],
        [
            ("ordinary", 3, lambda d: dosed(d, material(d), d.nice(0.5, 8.0))),
            ("wide", 2, lambda d: dosed(d, material_wide(d), d.octaves(1e-3, 1e6))),
            ("near-threshold", 2, lambda d: dosed(d, material(d), 1.0 + d.sign() * d.octaves(1e-5, 0.1))),
            ("at-threshold", 1, without_incubation),
        ],
        choices={"response": "response"},
        finish=fill_unread,
    ),
    Function(
        blur_budget,
        [
            *SCAN[2:4],
            SCAN[1],
            Slot("diffusivity", "thermal diffusivity"),
            Slot("pixel", "pixel"),
            Slot("jitter_deviation", "jitter deviation"),
            Slot("rise_time", "rise time"),
            Slot("switch_delay", "switch delay"),
        ],
        [("ordinary", 3, blur), ("wide", 2, blur_wide), ("no-blur", 1, next_to_no_blur)],
    ),
]
