"""Rows for the choice of a lens."""

import math

from checks import OUT_OF_RANGE
from model_check import COLLIMATED, EXPANDED, IDEAL, SCAN, SINGLET, TEXT, WAIST
from model_lens_choice import LENS_INPUTS, SLOTS, choose_lens
from model_material import LINEAR, LOGARITHMIC, MELT
from model_singlet import SHAPE_FACTOR
from strata import Function, Slot
from strata_check import between, digits, filled, flat_work, ordinary, real_job, real_optics, real_scales, wide
from strata_check_marking import dug, gaps, melt, scan, text, text_and_details, too_weak
from strata_focus import CRITERION_SLOTS
from strata_optics import CONE, OUTSIDE_MODEL

RATIOS = (0.5, 0.6, 2.0 / 3.0, 0.75, 0.8, 1.25, 4.0 / 3.0, 1.5, 5.0 / 3.0, 2.0, 3.0)
SHARED_ONLY = ("focus_setting", "focus_z", "lens_to_surface", *LENS_INPUTS)


def lens_of(draws, row, ratio):
    """The lens of a job, or one of the same kind so many times as long."""
    lens = {name: row[name] for name in LENS_INPUTS}
    lens["focal_length"] = digits(between(row["focal_length"] * ratio, 1e-5, 1e4))
    lens["working_distance"] = digits(between(lens["focal_length"] * draws.evenly(0.4, 0.95), 0.0, 1e4))
    return lens


def with_lenses(draws, row, lenses, count, least_clearance, tolerance):
    row = {name: value for name, value in row.items() if name not in SHARED_ONLY}
    row |= {"set_up_tolerance": tolerance, "least_clearance": least_clearance, "lenses": float(count)}
    for place in range(SLOTS):
        for name, value in lenses[place].items():
            row[f"{name}{place + 1}"] = value
    return row


def choice_for(draws, row, ratios=RATIOS):
    """Three lenses for a job, its own among them, and mostly room enough."""
    row = filled(draws, row)
    _, zr, _ = real_scales(row)
    lenses = [lens_of(draws, row, ratio) for ratio in (1.0, *draws.sample(ratios, 2))]
    draws.shuffle(lenses)
    count = draws.choice((1, 2, 2, 3, 3, 3, 3))
    room = min(lens["working_distance"] for lens in lenses)
    least = digits(between(room * draws.choice((0.0, 0.05, 0.1, draws.evenly(0.0, 2.0))), 0.0, 1e4))
    tolerance = draws.choice((0.0, digits(between(zr * draws.evenly(0.0, 0.8), 0.0, 1e3))))
    return with_lenses(draws, row, lenses, count, least, tolerance)


def usual(draws):
    return choice_for(draws, ordinary(draws))


def flat(draws):
    return choice_for(draws, flat_work(draws))


def bowed(draws):
    """A part whose span is about that at which two lenses swap."""
    row = filled(draws, flat_work(draws))
    _, zr, _ = real_scales(row)
    span = lambda: digits(between(zr * draws.evenly(0.2, 2.5), 0.0, 1e3))
    return choice_for(draws, row | {"surface_rise": span(), "surface_fall": span()})


def shop_lens(draws):
    row = real_job(
        draws,
        real_optics(draws),
        lambda d: d.evenly(0.0, 1.0),
        lambda d: 0.0,
        lambda d: d.evenly(0.5, 4.0),
        lambda d: d.nice(1.1, 3.0),
    )
    return choice_for(draws, row)


def three_shop_lenses(draws):
    """All that a row can hold is read."""
    return shop_lens(draws) | {"lenses": 3.0}


def long_mounts(draws):
    """Working distances about and above that from the lens to its focus."""
    row = draws.choice((bowed, shop_lens))(draws)
    for place in range(1, SLOTS + 1):
        distance = digits(between(row[f"focal_length{place}"] * draws.evenly(0.9, 1.5), 0.0, 1e4))
        row[f"working_distance{place}"] = distance
    return row


def expanded(draws):
    row = real_job(
        draws,
        real_optics(draws, (EXPANDED,), (IDEAL, SINGLET)),
        lambda d: d.evenly(0.0, 1.0),
        lambda d: 0.0,
        lambda d: d.evenly(0.5, 4.0),
        lambda d: d.nice(1.1, 3.0),
    )
    return choice_for(draws, row)


def mixed(draws):
    """A real lens beside the same one taken for ideal, and another."""
    row = filled(draws, real_job(
        draws,
        real_optics(draws, (COLLIMATED, WAIST)),
        lambda d: d.evenly(0.0, 1.0),
        lambda d: 0.0,
        lambda d: d.evenly(0.5, 3.0),
        lambda d: d.nice(1.1, 3.0),
    ))
    lenses = [lens_of(draws, row, 1.0), lens_of(draws, row, 1.0) | {"lens": IDEAL}]
    lenses.append(lens_of(draws, row, draws.choice(RATIOS)))
    draws.shuffle(lenses)
    return with_lenses(draws, row, lenses, 3, digits(row["focal_length"] * 0.1), 0.0)


def twins(draws):
    """The same lens twice, in mounts of different length; or the same list over again."""
    row = filled(draws, draws.choice((ordinary, flat_work))(draws))
    if draws.one_in(4):
        return choice_for(draws, row) | {"lenses": float(draws.randint(4, 8))}
    lenses = [lens_of(draws, row, ratio) for ratio in (1.0, 1.0, draws.choice(RATIOS))]
    draws.shuffle(lenses)
    least = digits(between(row["focal_length"] * draws.evenly(0.2, 0.8), 0.0, 1e4))
    return with_lenses(draws, row, lenses, 3, least, 0.0)


def spoilt(draws):
    """One of the lenses, or all, none that the model could follow."""
    row = shop_lens(draws) if draws.one_in(2) else usual(draws)
    row |= {"lenses": 3.0}
    for place in draws.sample((1, 2, 3), draws.choice((1, 1, 2, 3))):
        which = draws.randrange(4)
        if which == 0:
            row[f"focal_length{place}"] = digits(draws.octaves(1e-5, 2e-3))
        elif which == 1:
            row |= {f"lens{place}": SINGLET, f"glass{place}": draws.choice((2, 3, 5)), f"lens_shape{place}": 1}
            row[f"clear_aperture{place}"] = math.inf
        elif which == 2:
            row |= {f"lens{place}": SINGLET, f"glass{place}": 1 if row["wavelength"] > 5e-6 else 4}
            row |= {f"lens_shape{place}": SHAPE_FACTOR, f"shape_factor{place}": draws.evenly(-20.0, 20.0)}
            row[f"clear_aperture{place}"] = draws.choice((math.inf, 1e-3))
        else:
            row[f"focal_length{place}"] = digits(between(row["surface_fall"] * 0.4, 1e-5, 1e4))
    return row


def of_job(make):
    return lambda draws: choice_for(draws, make(draws))


def off_limits(draws):
    """Numbers of lenses that are none, spans and doses beyond the model, and raw beams too wide."""
    row = choice_for(draws, scan(draws))
    which = draws.randrange(5)
    if which == 0:
        return row | {"lenses": draws.choice((0.0, 9.0))}
    if which == 1:
        return row | {"surface_rise": draws.evenly(500.0, 1e3), "surface_fall": draws.evenly(500.0, 1e3)} | {
            "set_up_tolerance": draws.evenly(1.0, 1e3)
        }
    if which == 2:
        return row | {"threshold": between(row["threshold"] * draws.choice((1e7, 1e-7)), 1e-12, 1e18)}
    if which == 3:
        return row | {"raw_beam": COLLIMATED, "diameter_at_lens": draws.octaves(1e-9, 1e-6)}
    return row | {"raw_beam": EXPANDED, "waist_diameter": draws.nice(2e-3, 8e-3), "exit_power": 0.0} | {
        "waist_to_expander": draws.octaves(5e6, 1e7),
        "magnification": draws.nice(2.0, 4.0),
        "expander_to_lens": 1.0,
    }


LENS_CHOICES = {
    f"{name}{place}": parameter
    for place in (1, 2, 3)
    for name, parameter in (("lens", "lens kind"), ("glass", "glass"), ("lens_shape", "lens shape"))
}
REAL = {"lens1": SINGLET}

FUNCTIONS = [
    Function(
        choose_lens,
        [
            Slot("wavelength", "wavelength"),
            Slot("m2", "M squared"),
            Slot("diameter_at_lens", "diameter at lens", {"raw_beam": COLLIMATED}),
            Slot("waist_diameter", "waist diameter", {"raw_beam": WAIST}),
            Slot("waist_to_lens", "waist to lens", {"raw_beam": WAIST}),
            Slot("surface_rise", "surface rise"),
            Slot("surface_fall", "surface fall"),
            *CRITERION_SLOTS,
            Slot("finest_stroke", "finest stroke"),
            Slot("finest_gap", "finest gap"),
            Slot("set_up_tolerance", "set-up tolerance"),
            Slot("least_clearance", "least clearance"),
            Slot("focal_length1", "focal length"),
            Slot("working_distance1", "working distance"),
            Slot("shape_factor1", "shape factor", REAL | {"lens_shape1": SHAPE_FACTOR}),
            Slot("clear_aperture1", "clear aperture", REAL),
        ],
        [
            ("real-lens", 2, three_shop_lenses),
            ("real-lens", 1, shop_lens),
            ("ordinary", 3, usual),
            ("flat-work", 2, flat),
            ("bowed", 4, bowed),
            ("real-lens", 1, expanded),
            ("real-lens", 1, mixed),
            ("twins", 2, twins),
            ("spoilt", 3, spoilt),
            ("long-mounts", 1, long_mounts),
            ("wide", 1, of_job(wide)),
        ],
        choices={"raw_beam": "raw beam", "criterion": "depth criterion"} | LENS_CHOICES,
        computed_refusals=[
            CONE,
            (OUT_OF_RANGE, "lenses to choose from"),
            (OUTSIDE_MODEL, "surface rise"),
            (OUTSIDE_MODEL, "any dose ratio"),
            (OUTSIDE_MODEL, "waist to lens"),
        ],
        free=off_limits,
        refusals_from_free=True,
        per_slot=1,
        wanted_rows=300,
    ),
    Function(
        choose_lens,
        [
            Slot("power", "power", {"dose": SCAN}),
            Slot("speed", "speed", {"dose": SCAN}),
            Slot("line_interval", "line interval", {"dose": SCAN}),
            Slot("threshold", "threshold", {"dose": SCAN}),
            Slot("penetration_depth", "penetration depth", {"dose": SCAN, "response": LOGARITHMIC}),
            Slot("removal_energy", "removal energy", {"dose": SCAN, "response": LINEAR}),
            Slot("diffusivity", "thermal diffusivity", {"dose": SCAN, "response": MELT}),
            Slot("em", "em", {"text": TEXT}),
        ],
        [
            ("text", 3, of_job(text_and_details)),
            ("scan", 2, of_job(scan)),
            ("text", 2, of_job(text)),
            ("gaps", 2, of_job(gaps)),
            ("melt", 2, of_job(melt)),
            ("dug", 1, of_job(dug)),
            ("too-weak", 1, of_job(too_weak)),
        ],
        choices={
            "dose": "dose of a job",
            "response": "response",
            "text": "text of a job",
            "typeface": "typeface",
            "least_grade": "text grade",
        },
        per_slot=1,
        wanted_rows=170,
    ),
]
