"""Rows for beams through a list of elements."""

import math

import beams
from model_path import EXPANDER, SINGLET, SPACE, THIN_LENS, WINDOW, beam_after_path, beam_along_path
from strata import Function, Slot
from strata_lens import root
from strata_optics import ASTIGMATIC, OUTSIDE_MODEL, TWO_CONES

FIELDS = ("length", "focal_length", "index", "magnification", "exit_power", "shape_factor")
KINDS = (SPACE, THIN_LENS, WINDOW, EXPANDER, SINGLET)
INDICES = (2.4028, 1.4496, 1.5066, 4.0036)


def focal(draws):
    sign = draws.choice((1.0, 1.0, -1.0))
    return sign * draws.choice((0.0381, 0.0508, 0.0635, 0.1016, 0.16, draws.nice(0.03, 1.0)))


def numbers(draws, kind, wild):
    """What an element of this kind reads."""
    if kind == SPACE:
        return {"length": draws.octaves(1e-9, 1e5) if wild else draws.nice(0.0, 4.0)}
    if kind == THIN_LENS:
        return {"focal_length": draws.sign() * draws.octaves(1e-2, 1e4) if wild else focal(draws)}
    if kind == WINDOW:
        return {
            "length": draws.octaves(1e-9, 10.0) if wild else draws.nice(1e-3, 1e-2),
            "index": draws.octaves(1.01, 6.0) if wild else draws.choice(INDICES),
        }
    if kind == EXPANDER:
        return {
            "magnification": draws.octaves(0.01, 100.0) if wild else draws.nice(0.25, 5.0),
            "exit_power": draws.choice((0.0, draws.nice(-0.5, 0.5), draws.sign() * draws.octaves(1e-6, 1.0))),
        }
    return {
        "focal_length": draws.sign() * draws.octaves(1e-2, 1e4) if wild else focal(draws),
        "index": draws.octaves(1.01, 6.0) if wild else draws.choice(INDICES),
        "shape_factor": draws.nice(-3.0, 6.0),
    }


def elements(draws, kinds, wild=False):
    """Three elements; what each does not read is left as junk."""
    row = {}
    for i, kind in enumerate(kinds, start=1):
        row[f"element{i}"] = kind
        row |= {f"{name}{i}": draws.anything() for name in FIELDS}
        row |= {f"{name}{i}": value for name, value in numbers(draws, kind, wild).items()}
    return row


def mixed(draws):
    return [draws.choice(KINDS) for _ in range(3)]


def raw_beam(draws):
    """A raw beam, round or nearly, from a laser at the start of the path."""
    x = beams.raw(draws)
    y = beams.second_axis(draws, x, wild=False) if draws.one_in(2) else x
    return beams.two_axes(draws, x, y, draws.nice(-2.0, 2.0), draws.nice(-2.0, 2.0))


def round_beam(draws):
    x = beams.raw(draws)
    z = draws.nice(-2.0, 2.0)
    return beams.two_axes(draws, x, x, z, z)


def ordinary(draws):
    return raw_beam(draws) | elements(draws, mixed(draws))


def wide(draws):
    return beams.astigmatic_wide(draws) | elements(draws, mixed(draws), wild=True)


def to_the_lens(draws):
    """Space or an expander, then space, then a real lens: each kind in its usual place."""
    kinds = (draws.choice((SPACE, EXPANDER)), SPACE, draws.choice((SINGLET, THIN_LENS)))
    return raw_beam(draws) | elements(draws, kinds)


def behind_the_lens(draws):
    """A lens, a window, and on to the work."""
    return raw_beam(draws) | elements(draws, (draws.choice((SINGLET, THIN_LENS)), WINDOW, SPACE)) | {
        "length3": draws.nice(0.02, 0.3)
    }


def aberrating(draws, least, greatest):
    """A lens that aberrates more or less, the others being space."""
    row = round_beam(draws) if draws.one_in(2) else raw_beam(draws)
    row |= elements(draws, (SPACE, SINGLET, SPACE))
    n = row["index2"]
    s = (n / (n - 1.0)) ** 2
    d = max(row["waist_diameter_x"], row["waist_diameter_y"])
    wanted = draws.octaves(least, greatest)
    cubed = math.pi * s * d**4 / (256 * row["wavelength"] * wanted)
    f = math.ldexp(1.0, math.frexp(cubed)[1] // 3)
    return row | {"focal_length2": draws.choice((1.0, 1.0, -1.0)) * f, "length1": draws.nice(0.0, 0.5)}


def two_singlets(draws):
    return raw_beam(draws) | elements(draws, (SINGLET, SPACE, SINGLET))


def diverging(draws):
    """A telescope of a diverging and a converging lens."""
    lens = lambda: draws.choice((THIN_LENS, SINGLET))
    row = raw_beam(draws) | elements(draws, (lens(), SPACE, lens()))
    short = draws.nice(0.05, 0.2)
    long = draws.nice(0.2, 0.6)
    return row | {"focal_length1": -short, "focal_length3": long, "length2": long - short}


def zero_length(draws):
    """Spaces and windows without length, and expanders and lenses between them."""
    kinds = [draws.choice((SPACE, WINDOW)), draws.choice(KINDS), draws.choice((SPACE, WINDOW))]
    row = raw_beam(draws) | elements(draws, kinds)
    for i, kind in enumerate(kinds, start=1):
        if kind in (SPACE, WINDOW):
            row[f"length{i}"] = draws.choice((0.0, 0.0, -0.0, 5e-324, abs(draws.tiny())))
    return row


def long_path(draws):
    row = raw_beam(draws) | elements(draws, (SPACE, draws.choice(KINDS), SPACE))
    return row | {"length1": draws.octaves(10.0, 1e6), "length3": draws.octaves(10.0, 1e6)}


def free(draws):
    """Waists, cones and distances at the ends of the model, and beyond, now in x, now in y."""
    row = draws.choice((too_far, too_wide, too_aberrated, any_limit))(draws)
    return swapped(row) if draws.one_in(2) else row


def swapped(row):
    """The same with x and y exchanged."""
    other = {"_x": "_y", "_y": "_x"}
    return {name[:-2] + other.get(name[-2:], name[-2:]): value for name, value in row.items()}


def any_limit(draws):
    row = beams.astigmatic_free(draws) if draws.one_in(4) else beams.astigmatic_wide(draws)
    return row | elements(draws, mixed(draws), wild=True)


def too_far(draws):
    """A waist that a long space leaves out of the model's reach."""
    row = raw_beam(draws) | elements(draws, (SPACE, draws.choice(KINDS), draws.choice(KINDS)))
    return row | {"waist_z_x": -draws.evenly(5e6, 1e7), "length1": draws.evenly(4e6, 8e6)}


def too_wide(draws):
    """A beam expanded to many metres, or focused to less than a wavelength."""
    row = raw_beam(draws) | elements(draws, (EXPANDER, SPACE, draws.choice(KINDS)))
    row |= {"waist_diameter_x": draws.octaves(0.2, 2.0), "magnification1": draws.evenly(50.0, 100.0)}
    return row | {"exit_power1": 0.0, "length2": 1.0}


def too_aberrated(draws):
    """A lens that aberrates far beyond the model, in the wider plane above all."""
    row = raw_beam(draws) | elements(draws, (SINGLET, SPACE, draws.choice(KINDS)))
    q, d = draws.sign() * draws.evenly(20.0, 100.0), draws.octaves(2e-2, 0.2)
    row |= {"wavelength": 355e-9, "waist_diameter_x": d, "waist_diameter_y": draws.octaves(1e-3, 5e-3)}
    # S is 9.3 q^2 or a little more for this index.
    f = root(math.pi * 9.3 * q * q * d**4 / (256 * row["wavelength"] * draws.octaves(1e4, 1e5)))
    return row | {"index1": 1.5, "shape_factor1": q, "focal_length1": draws.sign() * f}


def lengths(row):
    """The lengths of the three elements along the path."""
    return [row[f"length{i}"] if row[f"element{i}"] in (SPACE, WINDOW) else 0.0 for i in (1, 2, 3)]


def along(draws, draw):
    """Somewhere on the path, or a little behind it."""
    row = draw(draws)
    total = math.fsum(lengths(row))
    return row | {"distance": min(total * draws.evenly(0.0, 1.2) + draws.choice((0.0, 0.1)), 1e7)}


def at_an_element(draws):
    """At the very place of an element: lengths that doubles add exactly."""
    row = to_the_lens(draws) if draws.one_in(2) else ordinary(draws)
    for i in (1, 2, 3):
        if row[f"element{i}"] in (SPACE, WINDOW):
            row[f"length{i}"] = float(draws.randint(0, 64) / 32.0)
    places = [math.fsum(lengths(row)[:i]) for i in range(4)]
    return row | {"distance": draws.choice(places)}


def in_a_window(draws):
    row = raw_beam(draws) | elements(draws, (THIN_LENS, WINDOW, SPACE))
    row |= {"length2": draws.nice(0.01, 0.3)}
    return row | {"distance": row["length2"] * draws.evenly(0.01, 0.99)}


def at_the_start(draws):
    return ordinary(draws) | {"distance": draws.choice((0.0, -0.0, 5e-324, 1e-300))}


def far_behind(draws):
    return ordinary(draws) | {"distance": draws.octaves(1e2, 1e6)}


ELEMENT_SLOTS = [
    Slot("length1", "space length", {"element1": SPACE}),
    Slot("length3", "space length", {"element3": SPACE}),
    Slot("focal_length1", "focal length", {"element1": THIN_LENS}, either_sign=True),
    Slot("length2", "thickness", {"element2": WINDOW}),
    Slot("index2", "refractive index", {"element2": WINDOW}),
    Slot("magnification1", "expander magnification", {"element1": EXPANDER}),
    Slot("exit_power1", "exit power", {"element1": EXPANDER}),
    Slot("focal_length3", "focal length", {"element3": SINGLET}, either_sign=True),
    Slot("index3", "refractive index", {"element3": SINGLET}),
    Slot("shape_factor3", "shape factor", {"element3": SINGLET}),
]
CHOICES = {f"element{i}": "path element" for i in (1, 2, 3)}
LIMITS = [
    *TWO_CONES,
    (OUTSIDE_MODEL, "waist diameter in x"),
    (OUTSIDE_MODEL, "waist diameter in y"),
    (OUTSIDE_MODEL, "waist z in x"),
    (OUTSIDE_MODEL, "waist z in y"),
    (OUTSIDE_MODEL, "M squared in x"),
    (OUTSIDE_MODEL, "M squared in y"),
]
COMMON = [
    ("ordinary", 4, ordinary),
    ("ordinary", 3, to_the_lens),
    ("ordinary", 2, behind_the_lens),
    ("wide", 3, wide),
    ("no-aberration", 1, lambda d: aberrating(d, 1e-12, 1e-3)),
    ("strong-aberration", 2, lambda d: aberrating(d, 0.1, 10.0)),
    ("strong-aberration", 1, two_singlets),
    ("diverging", 1, diverging),
    ("zero-length", 1, zero_length),
    ("long-path", 1, long_path),
]


def placed(draw):
    return lambda draws: along(draws, draw)


FUNCTIONS = [
    Function(
        beam_after_path,
        [*ASTIGMATIC, *ELEMENT_SLOTS],
        COMMON,
        choices=CHOICES,
        computed_refusals=LIMITS,
        free=free,
        per_slot=1,
        refusals_from_free=True,
        tries=15,
        wanted_rows=300,
    ),
    Function(
        beam_along_path,
        [*ASTIGMATIC, *ELEMENT_SLOTS, Slot("distance", "distance along path")],
        [(name, share, placed(draw)) for name, share, draw in COMMON]
        + [
            ("at-an-element", 3, at_an_element),
            ("ordinary", 1, in_a_window),
            ("near-waist", 1, at_the_start),
            ("far-field", 1, far_behind),
        ],
        choices=CHOICES,
        computed_refusals=LIMITS,
        free=placed(free),
        per_slot=1,
        refusals_from_free=True,
        tries=15,
        wanted_rows=300,
    ),
]
