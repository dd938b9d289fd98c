"""Rows for real lenses: glass, form, aberration, clipping, plates."""

import math

import beams
from model_clipping import focus_clipped
from model_glass import GLASSES, refractive_index
from model_other_wavelength import lens_at_wavelength
from model_plate import focus_behind_plate, focus_inside
from model_singlet import (
    SHAPE_FACTOR,
    aberration_growth,
    focus_singlet,
    lens_aberration,
    lens_from_radii,
    smallest_spot,
)
from strata import Function, Slot
from strata_optics import CONE, FOCAL, IMAGE_WAIST, OUTSIDE_MODEL, ROUND

GLASS_WAVELENGTHS = (10.6e-6, 9.3e-6, 1.064e-6, 1.07e-6, 532e-9, 450e-9, 355e-9, 2.94e-6, 1.94e-6)
# index of common lens materials, roughly; common practice, no source
INDICES = (2.4028, 4.0036, 3.2707, 1.4496, 1.5066, 2.2, 1.43, 1.76)
SHAPE_SLOT = Slot("shape_factor", "shape factor", {"lens_shape": SHAPE_FACTOR})
INDEX = Slot("index", "refractive index")
PLATE_PHASE = (OUTSIDE_MODEL, "aberration phase")


# Glass


def in_glass(draws, glass, usual):
    """A wavelength that the glass has, often one of a laser."""
    least, greatest = GLASSES[glass].least, GLASSES[glass].greatest
    if usual:
        known = [w for w in GLASS_WAVELENGTHS if least <= w <= greatest]
        return draws.choice(known)
    return draws.octaves(least, greatest)


def glass(draws, usual):
    kind = draws.randint(1, len(GLASSES))
    return {"glass": kind, "wavelength": in_glass(draws, kind, usual)}


def glass_ends(draws, name="wavelength", base=None):
    """Both ends of the range of every glass, and the doubles next to them."""
    rows = []
    for kind, material in GLASSES.items():
        for end in (material.least, material.greatest):
            for value in (end, math.nextafter(end, math.inf), math.nextafter(end, -math.inf)):
                rest = base(draws, kind) if base else {}
                rows.append(("limits", {"glass": kind} | rest | {name: value}))
    return rows


def lens_in(draws, kind, usual=True):
    return shape(
        draws,
        {
            "glass": kind,
            "focal_length": draws.choice((1.0, 1.0, -1.0))
            * (draws.nice(0.02, 0.4) if usual else draws.octaves(1e-5, 1e4)),
            "design_wavelength": in_glass(draws, kind, usual),
            "wavelength": in_glass(draws, kind, usual),
        },
    )


def lens_of_glass(draws, usual):
    return lens_in(draws, draws.randint(1, len(GLASSES)), usual)


def nearby_wavelengths(draws):
    """Two wavelengths that differ by nothing, or by a few doubles, or by little."""
    row = lens_of_glass(draws, usual=False)
    near = row["design_wavelength"] * (1.0 + draws.sign() * draws.octaves(2.0**-40, 1e-3))
    row["wavelength"] = draws.choice((row["design_wavelength"], draws.nudge(row["design_wavelength"]), near))
    return row


def junk_factor(draws):
    """Shapes that read no factor take any; the unknown shape is refused before bad numbers."""
    rows = []
    for kind in (1, 2, 3):
        for junk in (math.nan, math.inf, 1e300, -101.0):
            rows.append(("special", lens_of_glass(draws, True) | {"lens_shape": kind, "shape_factor": junk}))
    bad = {"shape_factor": math.nan, "focal_length": math.nan, "wavelength": math.nan}
    rows += [("order", lens_of_glass(draws, True) | bad | {"lens_shape": kind}) for kind in (0, 5, 77)]
    return rows


def lens_ends(draws):
    rows = glass_ends(draws, "wavelength", lambda d, kind: lens_in(d, kind))
    return draws.sample(rows + glass_ends(draws, "design_wavelength", lambda d, kind: lens_in(d, kind)), 48) + junk_factor(draws)


# Form


def surface(draws):
    return draws.sign() * draws.nice(0.01, 1.0)


def radii(draws):
    return {"index": draws.choice(INDICES), "first_radius": surface(draws), "second_radius": surface(draws)}


def wide_radii(draws):
    first = draws.sign() * draws.octaves(1e-5, 1e6)
    second = draws.sign() * draws.octaves(1e-5, 1e6)
    return {"index": draws.octaves(1.01, 6.0), "first_radius": first, "second_radius": second}


def flat_side(draws):
    """One side flat, or nearly so."""
    row = radii(draws)
    flat = draws.choice((math.inf, -math.inf, draws.sign() * draws.octaves(1e3, 1e6)))
    return row | {draws.choice(("first_radius", "second_radius")): flat}


def near_meniscus(draws):
    """Radii so close that their curvatures almost cancel."""
    row = radii(draws)
    row["second_radius"] = row["first_radius"] * (1.0 + draws.sign() * draws.octaves(0.0203, 0.2))
    return row


def equal_radii(draws):
    """No power at all: equal radii, or both sides flat."""
    row = radii(draws)
    same = draws.choice((row["first_radius"], math.inf))
    return row | {"first_radius": same, "second_radius": same}


def radii_free(draws):
    row = wide_radii(draws)
    if draws.one_in(2):
        row["second_radius"] = row["first_radius"] * (1.0 + draws.octaves(1e-12, 1.0))
    return draws.choice((row, equal_radii(draws)))


# Aberration


def shape(draws, row):
    """One of the shapes; what it does not read is left as junk."""
    kind = draws.randint(1, 4)
    factor = draws.anything()
    if kind == SHAPE_FACTOR:
        factor = draws.nice(-6.0, 6.0) if draws.one_in(2) else draws.sign() * draws.octaves(1e-3, 100.0)
    return row | {"lens_shape": kind, "shape_factor": factor}


def index(draws, wild=False):
    return draws.octaves(1.01, 6.0) if wild else draws.choice((*INDICES, draws.nice(1.3, 4.0)))


def form(draws, wild):
    f = draws.sign() * (draws.octaves(1e-5, 1e4) if wild else draws.nice(0.02, 0.4))
    return shape(draws, {"index": index(draws, wild), "focal_length": f})


def diverging(draws):
    row = form(draws, wild=False)
    return row | {"focal_length": -abs(row["focal_length"])}


def phase(draws, least, greatest, m2_greatest=4.0):
    m2 = draws.choice((1.0, draws.nice(1.0, m2_greatest)))
    return {"m2": m2, "aberration_phase": draws.sign() * m2 * draws.octaves(least, greatest)}


def phase_wide(draws):
    return {"m2": draws.octaves(1.0, 1e4), "aberration_phase": draws.sign() * draws.octaves(1e-300, 1e4)}


# A lens with aberration


CO2_SETUPS = ((10.6e-6, 9.3e-6), 2.4028, (1.0, 1.8), (4e-3, 15e-3), (0.0381, 0.0508, 0.0635, 0.1016))
FIBRE_SETUPS = ((1.064e-6, 1.07e-6), 1.4496, (1.0, 1.8), (4e-3, 10e-3), (0.1, 0.16, 0.254))
DIODE_SETUPS = ((450e-9,), 1.5253, (3.0, 15.0), (2e-3, 6e-3), (0.03, 0.05, 0.06))


def real_lens(draws, far=False):
    """A lens as people have it, behind a beam as people have it."""
    wavelengths, n, m2, widths, lenses = draws.choice((CO2_SETUPS, CO2_SETUPS, FIBRE_SETUPS, DIODE_SETUPS))
    return shape(
        draws,
        {
            "wavelength": draws.choice(wavelengths),
            "m2": draws.nice(*m2),
            "waist_diameter": draws.nice(*widths),
            "waist_to_lens": draws.nice(-10.0, 30.0) if far else draws.nice(-0.5, 4.0),
            "index": n if draws.one_in(2) else index(draws),
            "focal_length": draws.choice(lenses),
            "clear_aperture": draws.choice((math.inf, 0.018, 0.02, 0.025, 0.0275)),
        },
    )


def with_aberration(draws, least, greatest, n=None):
    """Any beam, and a lens whose |alpha|/M2 lies about here for a distant source."""
    beam = beams.wide(draws)
    n = n or index(draws, wild=True)
    row = shape(draws, {"index": n, "focal_length": 1.0, "clear_aperture": math.inf})
    q = row["shape_factor"] if row["lens_shape"] == SHAPE_FACTOR else {2: 1.0, 3: -1.0}.get(row["lens_shape"])
    q = 2 * (n * n - 1) / (n + 2) if q is None else q
    s = ((n + 2) / (n - 1) * q * q - 4 * (n + 1) * q + (3 * n + 2) * (n - 1) + n**3 / (n - 1)) / (n * (n - 1))
    wanted = beam["m2"] * draws.octaves(least, greatest)
    f = root(math.pi * s * beam["waist_diameter"] ** 4 / (256 * beam["wavelength"] * wanted))
    zr = beams.rayleigh(beam)
    row["focal_length"] = draws.choice((1.0, 1.0, 1.0, -1.0)) * min(max(f, 1e-5), 1e4)
    place = draws.choice((0.0, draws.sign() * beams.within(draws, "z", zr * 2.0**-30, zr * 2.0)))
    if draws.one_in(2):
        row["clear_aperture"] = min(beam["waist_diameter"] * draws.octaves(0.25, 16.0), 100.0)
    return row | beam | {"waist_to_lens": place}


def root(value):
    """Cube root by Newton's steps: only to scale what is drawn."""
    guess = math.ldexp(1.0, math.frexp(value)[1] // 3)
    for _ in range(60):
        guess = (2.0 * guess + value / (guess * guess)) / 3.0
    return guess


def clipped_lens(draws, least, greatest):
    row = real_lens(draws) | {"waist_to_lens": draws.nice(-0.2, 0.5)}
    return row | {"clear_aperture": row["waist_diameter"] * draws.evenly(least, greatest)}


def unclipped_lens(draws):
    return real_lens(draws) | {"clear_aperture": math.inf}


def diverging_lens(draws):
    row = real_lens(draws)
    return row | {"focal_length": -row["focal_length"]}


def conjugates(draws):
    """A diverging or converging raw beam, whose curvature counts."""
    row = real_lens(draws)
    zr = beams.rayleigh(row)
    return row | {"waist_to_lens": draws.sign() * zr * draws.evenly(0.2, 3.0)}


def singlet_free(draws):
    """Numbers that ask too much of the model in one way or another."""
    row = with_aberration(draws, 1e-3, 1e6)
    if draws.one_in(3):
        row |= {"m2": draws.octaves(1.0, 1e4)}
    if draws.one_in(3):
        row["clear_aperture"] = min(row["waist_diameter"] * draws.octaves(0.05, 0.5), 100.0)
    if draws.one_in(3):
        row |= {"focal_length": draws.sign() * draws.octaves(1e-5, 1e4)}
    if draws.one_in(3):
        row |= beams.free(draws)
    return row


def smallest(draws, wild):
    wavelengths, n, m2, _, lenses = draws.choice((CO2_SETUPS, FIBRE_SETUPS, DIODE_SETUPS))
    row = {
        "wavelength": draws.octaves(1e-8, 1e-2) if wild else draws.choice(wavelengths),
        "m2": draws.octaves(1.0, 1e3) if wild else draws.nice(*m2),
        "index": index(draws, wild) if wild or draws.one_in(2) else n,
        "focal_length": draws.octaves(1e-5, 1e4) if wild else draws.choice(lenses),
        "measure": draws.randint(1, 3),
    }
    return shape(draws, row)


def smallest_free(draws):
    row = smallest(draws, wild=True) | {"m2": draws.octaves(1.0, 1e4)}
    if draws.one_in(4):
        # Spots of many metres.
        row |= {"wavelength": draws.octaves(1e-3, 1e-2), "m2": draws.octaves(1e3, 1e4)}
        row |= {"focal_length": draws.octaves(0.1, 10.0), "index": draws.evenly(1.01, 1.1)}
        row |= {"lens_shape": SHAPE_FACTOR, "shape_factor": draws.evenly(50.0, 100.0)}
    return row


# Clipping


def clipped(draws, least, greatest, wild=False):
    """A beam with M2 = 1 and an aperture of so many diameters."""
    diameter = draws.octaves(1e-7, 5.0) if wild else draws.nice(3e-3, 15e-3)
    aperture = diameter * draws.evenly(least, greatest)
    f = draws.octaves(2.0 * diameter, 1e4) if wild else draws.choice((0.0381, 0.0508, 0.1016, 0.16, 0.254))
    return {
        "wavelength": draws.octaves(1e-8, 1e-2) if wild else draws.choice((10.6e-6, 1.064e-6, 355e-9)),
        "diameter_at_lens": diameter,
        "clear_aperture": aperture,
        "focal_length": f,
    }


def no_aperture(draws):
    return clipped(draws, 1.0, 2.0, draws.one_in(2)) | {"clear_aperture": math.inf}


def vast_aperture(draws):
    row = clipped(draws, 1.0, 2.0)
    return row | {"clear_aperture": row["diameter_at_lens"] * draws.octaves(5.0, 1e3)}


def long_clipped(draws):
    """A focus so long that it is hardly sharp: the narrower of beam and aperture has N = pi D^2/(4 lam f)
    of 5 to 100."""
    row = clipped(draws, 0.2, 4.0)
    if draws.one_in(4):
        row["clear_aperture"] = math.inf
    narrower = min(row["diameter_at_lens"], row["clear_aperture"])
    f = math.pi * narrower**2 / (4.0 * row["wavelength"] * draws.octaves(5.001, 100.0))
    return row | {"focal_length": f}


def clipped_free(draws):
    return {
        "wavelength": draws.octaves(1e-8, 1e-2),
        "diameter_at_lens": draws.octaves(1e-4, 1.0),
        "clear_aperture": draws.octaves(1e-5, 1.0),
        "focal_length": draws.octaves(1e-4, 1e2),
    }


# Plates


def plate(draws, wild, name="thickness"):
    if wild:
        beam = beams.wide(draws)
        return beam | {name: draws.octaves(1e-9, 10.0), "index": draws.octaves(1.01, 6.0)}
    beam = beams.focused(draws)
    return beam | {name: draws.nice(0.5e-3, 15e-3), "index": index(draws)}


def thin_plate(draws, name="thickness"):
    """No thickness, or hardly any."""
    return plate(draws, wild=True, name=name) | {name: draws.choice((0.0, abs(draws.tiny()), 5e-324, 1e-9))}


def wide_cone(draws, name="thickness"):
    row = plate(draws, wild=False, name=name)
    cone = draws.evenly(0.1, 0.29)
    return row | {"waist_diameter": 2.0 * row["m2"] * row["wavelength"] / (math.pi * cone)}


def plate_free(draws, name="thickness"):
    row = wide_cone(draws, name)
    thick = row | {"wavelength": 1e-8, name: 10.0}
    return draws.choice((thick, beams.free(draws) | {name: 1e-3, "index": 1.5}))


def plate_thick(draws, name):
    """So thick a plate in so wide a cone of so short a wave that the aberration leaves the model."""
    cone = draws.evenly(0.2, 0.29)
    return {
        "wavelength": 1e-8,
        "m2": 1.0,
        "waist_diameter": 2e-8 / (math.pi * cone),
        name: draws.evenly(5.0, 10.0),
        "index": draws.nice(1.3, 2.0),
    }


def plate_any_free(draws, name):
    return draws.choice((plate_thick(draws, name), plate_free(draws, name)))


def plate_function(reference, name, parameter):
    return Function(
        reference,
        [*ROUND, Slot(name, parameter), INDEX],
        [
            ("ordinary", 3, lambda d: plate(d, False, name)),
            ("wide", 3, lambda d: plate(d, True, name)),
            ("zero-length", 1, lambda d: thin_plate(d, name)),
            ("strong-aberration", 2, lambda d: wide_cone(d, name)),
        ],
        computed_refusals=[CONE, PLATE_PHASE],
        free=lambda d: plate_any_free(d, name),
        wanted_rows=260,
    )


FUNCTIONS = [
    Function(
        refractive_index,
        [Slot("wavelength", "wavelength")],
        [("ordinary", 2, lambda d: glass(d, True)), ("wide", 3, lambda d: glass(d, False))],
        choices={"glass": "glass"},
        extra=glass_ends,
        wanted_rows=170,
    ),
    Function(
        lens_at_wavelength,
        [SHAPE_SLOT, FOCAL, Slot("design_wavelength", "design wavelength"), Slot("wavelength", "wavelength")],
        [
            ("ordinary", 3, lambda d: lens_of_glass(d, True)),
            ("wide", 2, lambda d: lens_of_glass(d, False)),
            ("nearly-equal", 2, nearby_wavelengths),
        ],
        choices={"glass": "glass", "lens_shape": "lens shape"},
        extra=lens_ends,
        wanted_rows=300,
    ),
    Function(
        lens_from_radii,
        [
            INDEX,
            Slot("first_radius", "first radius", either_sign=True),
            Slot("second_radius", "second radius", either_sign=True),
        ],
        [
            ("ordinary", 3, radii),
            ("wide", 2, wide_radii),
            ("near-flat", 2, flat_side),
            ("nearly-equal", 1, near_meniscus),
        ],
        computed_refusals=[(OUTSIDE_MODEL, "focal length"), (OUTSIDE_MODEL, "shape factor")],
        free=radii_free,
        wanted_rows=240,
    ),
    Function(
        lens_aberration,
        [INDEX, SHAPE_SLOT, FOCAL],
        [
            ("ordinary", 3, lambda d: form(d, False)),
            ("wide", 3, lambda d: form(d, True)),
            ("diverging", 1, diverging),
        ],
        choices={"lens_shape": "lens shape"},
        wanted_rows=200,
    ),
    Function(
        aberration_growth,
        [Slot("m2", "M squared"), Slot("aberration_phase", "aberration phase")],
        [
            ("ordinary", 4, lambda d: phase(d, 1e-2, 2.0)),
            ("wide", 2, phase_wide),
            ("no-aberration", 1, lambda d: phase(d, 2.0**-500, 1e-6)),
            ("strong-aberration", 1, lambda d: phase(d, 1.0, 50.0)),
        ],
        wanted_rows=200,
    ),
    Function(
        focus_singlet,
        [*ROUND, Slot("waist_to_lens", "waist to lens"), INDEX, SHAPE_SLOT, FOCAL]
        + [Slot("clear_aperture", "clear aperture")],
        [
            ("ordinary", 4, real_lens),
            ("wide", 3, lambda d: with_aberration(d, 1e-3, 3.0)),
            ("no-aberration", 1, lambda d: with_aberration(d, 1e-12, 1e-3)),
            ("strong-aberration", 1, lambda d: with_aberration(d, 1.0, 50.0)),
            ("clipped", 1, lambda d: clipped_lens(d, 0.21, 1.8)),
            ("unclipped", 1, unclipped_lens),
            ("diverging", 1, diverging_lens),
            ("far-field", 1, conjugates),
        ],
        choices={"lens_shape": "lens shape"},
        computed_refusals=[
            CONE,
            IMAGE_WAIST,
            (OUTSIDE_MODEL, "M squared"),
            (OUTSIDE_MODEL, "clipping ratio"),
        ],
        free=singlet_free,
        refusals_from_free=True,
        wanted_rows=300,
    ),
    Function(
        smallest_spot,
        [*ROUND[:2], INDEX, SHAPE_SLOT, Slot("focal_length", "focal length")],
        [
            ("ordinary", 3, lambda d: smallest(d, False)),
            ("wide", 3, lambda d: smallest(d, True)),
        ],
        choices={"lens_shape": "lens shape", "measure": "spot measure"},
        computed_refusals=[CONE, (OUTSIDE_MODEL, "diameter at lens"), IMAGE_WAIST],
        free=smallest_free,
        refusals_from_free=True,
        wanted_rows=240,
    ),
    Function(
        focus_clipped,
        [
            ROUND[0],
            Slot("diameter_at_lens", "diameter at lens"),
            Slot("clear_aperture", "clear aperture"),
            Slot("focal_length", "focal length"),
        ],
        [
            ("ordinary", 3, lambda d: clipped(d, 0.5, 3.0)),
            ("wide", 2, lambda d: clipped(d, 0.2, 20.0, wild=True)),
            ("clipped", 2, lambda d: clipped(d, 0.2, 1.5)),
            ("unclipped", 1, no_aperture),
            ("large-share", 1, vast_aperture),
        ],
        computed_refusals=[CONE, (OUTSIDE_MODEL, "clipping ratio"), (OUTSIDE_MODEL, "Rayleigh range")],
        free=clipped_free,
        wanted_rows=270,
    ),
    plate_function(focus_behind_plate, "thickness", "thickness"),
    plate_function(focus_inside, "lens_lowered_by", "lens lowered by"),
]
