"""Rows for widths, beams and lenses."""

import beams
from model_astigmatic import astigmatic_at, astigmatic_parameters
from model_beam import (
    beam_at,
    beam_parameters,
    diameters_at,
    m2_from_divergence,
    waist_from_divergence,
    waist_from_rayleigh_range,
)
from model_lens import focus_astigmatic, focus_collimated, focus_through_lens
from model_width import convert_width, diameter_for_power, power_through_aperture
from strata import Function, Slot

OUTSIDE_MODEL = 4
CONE = (OUTSIDE_MODEL, "divergence half angle")

ROUND = [
    Slot("wavelength", "wavelength"),
    Slot("m2", "M squared"),
    Slot("waist_diameter", "waist diameter"),
]
ASTIGMATIC = [
    Slot("wavelength", "wavelength"),
    Slot("m2_x", "M squared in x"),
    Slot("waist_diameter_x", "waist diameter in x"),
    Slot("waist_z_x", "waist z in x"),
    Slot("m2_y", "M squared in y"),
    Slot("waist_diameter_y", "waist diameter in y"),
    Slot("waist_z_y", "waist z in y"),
]
TWO_CONES = [
    (OUTSIDE_MODEL, "divergence half angle in x"),
    (OUTSIDE_MODEL, "divergence half angle in y"),
]


def diameter(draws):
    return draws.nice(1e-5, 2e-2) if draws.one_in(2) else draws.octaves(1e-9, 10.0)


# Widths


def width(draws):
    return {"diameter": diameter(draws), "from": draws.randint(1, 4), "to": draws.randint(1, 4)}


def aperture(draws, least, greatest):
    beam = diameter(draws)
    return {
        "beam_diameter": beam,
        "aperture_diameter": beams.within(draws, "aperture diameter", beam * least, beam * greatest),
    }


def share(draws, value):
    return {"beam_diameter": diameter(draws), "power_share": value}


# Round beams


def at_places(draws, beam, place):
    return beam | {"z": place(draws, beams.rayleigh(beam))}


def at_four_places(draws, place):
    beam = beams.any_round(draws)
    zr = beams.rayleigh(beam)
    return beam | {f"z{i}": place(draws, zr) for i in (1, 2, 3, 4)}


def from_rayleigh(draws, beam):
    return {
        "wavelength": beam["wavelength"],
        "m2": beam["m2"],
        "rayleigh_range": draws.nudge(beams.rayleigh(beam)),
    }


def from_rayleigh_free(draws):
    beam = beams.free(draws)
    return {
        "wavelength": beam["wavelength"],
        "m2": beam["m2"],
        "rayleigh_range": draws.octaves(1e-9, 1e10),
    }


def from_divergence(draws, beam):
    return {
        "wavelength": beam["wavelength"],
        "m2": beam["m2"],
        "divergence_full_angle": 2.0 * beams.half_angle(beam),
    }


def from_divergence_free(draws):
    beam = beams.free(draws)
    return {
        "wavelength": beam["wavelength"],
        "m2": beam["m2"],
        "divergence_full_angle": draws.octaves(1e-12, 0.6),
    }


def m2_wanted(draws, beam):
    return {
        "wavelength": beam["wavelength"],
        "waist_diameter": beam["waist_diameter"],
        "divergence_full_angle": 2.0 * beams.half_angle(beam),
    }


def m2_free(draws):
    beam = beams.free(draws)
    return {
        "wavelength": beam["wavelength"],
        "waist_diameter": beam["waist_diameter"],
        "divergence_full_angle": draws.octaves(1e-12, 0.6),
    }


# Astigmatic beams


def two_axes_at(draws, beam, place, signs=("x", "y")):
    """A place seen from the waist of one axis."""
    axis = draws.choice(signs)
    while True:
        z = beam[f"waist_z_{axis}"] + place(draws, beams.rayleigh(beam, f"_{axis}"))
        if abs(z) <= 1e7:
            return beam | {"z": z}


def any_astigmatic(draws):
    return beams.astigmatic(draws) if draws.one_in(2) else beams.astigmatic_wide(draws)


def stigmatic(draws):
    """Both axes alike and together: a round beam told as an astigmatic one."""
    beam = beams.any_round(draws)
    z = beams.z_ordinary(draws, beams.rayleigh(beam))
    return beams.two_axes(draws, beam, beam, z, z)


def split(draws):
    """Equal axes on either side of z = 0: below one Rayleigh range one bright place, else two."""
    beam = beams.any_round(draws)
    zr = beams.rayleigh(beam)
    half = draws.sign() * beams.within(draws, "z", zr * 0.1, zr * 10.0)
    return beams.two_axes(draws, beam, beam, -half, half)


def nearly_stigmatic(draws):
    """Waists so close together that their distance is a few steps of the double."""
    beam = beams.any_round(draws)
    other = beams.second_axis(draws, beam, wild=False)
    z = beams.z_ordinary(draws, beams.rayleigh(beam))
    return beams.two_axes(draws, beam, other, z, draws.nudge(z))


# Lenses


def focal(draws):
    return draws.choice((1.0, 1.0, 1.0, -1.0)) * draws.nice(0.02, 0.4)


def behind_lens(draws):
    return beams.raw(draws) | {"waist_to_lens": draws.nice(-2.0, 6.0), "focal_length": focal(draws)}


def behind_any_lens(draws):
    beam = beams.wide(draws)
    zr = beams.rayleigh(beam)
    return beam | {
        "waist_to_lens": draws.sign() * beams.within(draws, "z", zr * 2.0**-60, zr * 1e6),
        "focal_length": draws.sign() * beams.within(draws, "focal length", zr * 1e-9, zr * 1e3),
    }


def at_focal_plane(draws):
    """The raw waist at the focal plane, or a few steps of the double away."""
    row = behind_lens(draws) if draws.one_in(2) else behind_any_lens(draws)
    return row | {"waist_to_lens": draws.nudge(row["focal_length"])}


def far_waist(draws):
    """A raw waist so far away that the lens sees a point source."""
    row = behind_any_lens(draws)
    return row | {"waist_to_lens": beams.z_far(draws, beams.rayleigh(row))}


def waist_at_lens(draws):
    row = behind_any_lens(draws) if draws.one_in(2) else behind_lens(draws)
    return row | {"waist_to_lens": beams.z_near_waist(draws, beams.rayleigh(row))}


def behind_lens_free(draws):
    return beams.free(draws) | {
        "waist_to_lens": draws.sign() * draws.octaves(1e-9, 1e7),
        "focal_length": draws.sign() * draws.octaves(1e-5, 1e4),
    }


def collimated(row):
    return {
        "wavelength": row["wavelength"],
        "m2": row["m2"],
        "diameter_at_lens": row["waist_diameter"],
        "focal_length": row["focal_length"],
    }


def astigmatic_behind_lens(draws, wild):
    """Two raw waists, each somewhere about the lens."""
    x = beams.wide(draws) if wild else beams.raw(draws)
    y = beams.second_axis(draws, x, wild)
    shorter = min(beams.rayleigh(x), beams.rayleigh(y))
    if not wild:
        zx, zy = draws.nice(-6.0, 2.0), draws.nice(-6.0, 2.0)
        return beams.two_axes(draws, x, y, zx, zy) | {"focal_length": focal(draws)}
    zx, zy = (draws.sign() * beams.within(draws, "z", shorter * 2.0**-60, shorter * 1e6) for _ in "xy")
    return beams.two_axes(draws, x, y, zx, zy) | {
        "focal_length": draws.sign() * beams.within(draws, "focal length", shorter * 1e-9, shorter * 1e3)
    }


def astigmatic_at_focal_plane(draws):
    row = astigmatic_behind_lens(draws, wild=draws.one_in(2))
    axis = draws.choice(("x", "y"))
    return row | {f"waist_z_{axis}": -draws.nudge(row["focal_length"])}


def astigmatic_lens_free(draws):
    return beams.astigmatic_free(draws) | {"focal_length": draws.sign() * draws.octaves(1e-5, 1e4)}


IMAGE_WAIST = (OUTSIDE_MODEL, "waist diameter")
FOCAL = Slot("focal_length", "focal length", either_sign=True)

FUNCTIONS = [
    Function(
        convert_width,
        [Slot("diameter", "beam diameter")],
        [("ordinary", 1, width)],
        choices={"from": "width definition", "to": "width definition"},
    ),
    Function(
        power_through_aperture,
        [Slot("beam_diameter", "beam diameter"), Slot("aperture_diameter", "aperture diameter")],
        [
            ("ordinary", 4, lambda d: aperture(d, 0.05, 5.0)),
            ("small-share", 2, lambda d: aperture(d, 2.0**-300, 0.05)),
            ("large-share", 2, lambda d: aperture(d, 3.0, 1e10)),
        ],
    ),
    Function(
        diameter_for_power,
        [Slot("beam_diameter", "beam diameter"), Slot("power_share", "power share")],
        [
            ("ordinary", 4, lambda d: share(d, d.nice(0.01, 0.99))),
            ("small-share", 2, lambda d: share(d, d.octaves(5e-324, 0.01))),
            ("large-share", 2, lambda d: share(d, 1.0 - d.octaves(2.0**-53, 0.01))),
        ],
    ),
    Function(
        beam_parameters,
        ROUND,
        [("ordinary", 1, beams.focused), ("wide", 1, beams.wide)],
        computed_refusals=[CONE],
        free=beams.free,
    ),
    Function(
        beam_at,
        [*ROUND, Slot("z", "z")],
        [
            ("ordinary", 3, lambda d: at_places(d, beams.focused(d), beams.z_ordinary)),
            ("wide", 3, lambda d: at_places(d, beams.wide(d), beams.z_ordinary)),
            ("near-waist", 2, lambda d: at_places(d, beams.any_round(d), beams.z_near_waist)),
            ("far-field", 2, lambda d: at_places(d, beams.any_round(d), beams.z_far)),
            ("growth-near-1", 1, lambda d: at_places(d, beams.any_round(d), beams.z_growth_near_one)),
        ],
        computed_refusals=[CONE],
        free=lambda d: beams.free(d) | {"z": d.evenly(-1.0, 1.0)},
    ),
    Function(
        diameters_at,
        [*ROUND, *(Slot(f"z{i}", "z") for i in (1, 2, 3, 4))],
        [
            ("ordinary", 3, lambda d: at_four_places(d, beams.z_ordinary)),
            ("near-waist", 1, lambda d: at_four_places(d, beams.z_near_waist)),
            ("far-field", 1, lambda d: at_four_places(d, beams.z_far)),
            ("growth-near-1", 1, lambda d: at_four_places(d, beams.z_growth_near_one)),
        ],
        computed_refusals=[CONE],
        free=lambda d: beams.free(d) | {f"z{i}": d.evenly(-1.0, 1.0) for i in (1, 2, 3, 4)},
    ),
    Function(
        waist_from_rayleigh_range,
        [*ROUND[:2], Slot("rayleigh_range", "Rayleigh range")],
        [
            ("ordinary", 1, lambda d: from_rayleigh(d, beams.focused(d))),
            ("wide", 1, lambda d: from_rayleigh(d, beams.wide(d))),
        ],
        computed_refusals=[IMAGE_WAIST, CONE],
        free=from_rayleigh_free,
    ),
    Function(
        waist_from_divergence,
        [*ROUND[:2], Slot("divergence_full_angle", "divergence full angle")],
        [
            ("ordinary", 1, lambda d: from_divergence(d, beams.focused(d))),
            ("wide", 1, lambda d: from_divergence(d, beams.wide(d))),
        ],
        # A cone too wide cannot come up: the full angle that is given has been checked.
        computed_refusals=[IMAGE_WAIST],
        free=from_divergence_free,
    ),
    Function(
        m2_from_divergence,
        [ROUND[0], ROUND[2], Slot("divergence_full_angle", "divergence full angle")],
        [
            ("ordinary", 1, lambda d: m2_wanted(d, beams.focused(d))),
            ("wide", 1, lambda d: m2_wanted(d, beams.wide(d))),
        ],
        computed_refusals=[(OUTSIDE_MODEL, "M squared")],
        free=m2_free,
    ),
    Function(
        astigmatic_parameters,
        ASTIGMATIC,
        [
            ("ordinary", 4, beams.astigmatic),
            ("wide", 4, beams.astigmatic_wide),
            ("stigmatic", 1, stigmatic),
            ("nearly-stigmatic", 1, nearly_stigmatic),
            ("split", 2, split),
        ],
        computed_refusals=TWO_CONES,
        free=beams.astigmatic_free,
    ),
    Function(
        astigmatic_at,
        [*ASTIGMATIC, Slot("z", "z")],
        [
            ("ordinary", 3, lambda d: two_axes_at(d, beams.astigmatic(d), beams.z_ordinary)),
            ("wide", 3, lambda d: two_axes_at(d, beams.astigmatic_wide(d), beams.z_ordinary)),
            ("stigmatic", 1, lambda d: two_axes_at(d, stigmatic(d), beams.z_ordinary)),
            ("near-waist", 1, lambda d: two_axes_at(d, any_astigmatic(d), beams.z_near_waist)),
            ("far-field", 1, lambda d: two_axes_at(d, any_astigmatic(d), beams.z_far)),
        ],
        computed_refusals=TWO_CONES,
        free=lambda d: beams.astigmatic_free(d) | {"z": d.evenly(-1.0, 1.0)},
    ),
    Function(
        focus_through_lens,
        [*ROUND, Slot("waist_to_lens", "waist to lens"), FOCAL],
        [
            ("ordinary", 3, behind_lens),
            ("wide", 3, behind_any_lens),
            ("at-focal-plane", 1, at_focal_plane),
            ("near-waist", 1, waist_at_lens),
            ("far-field", 1, far_waist),
        ],
        computed_refusals=[IMAGE_WAIST, CONE],
        free=behind_lens_free,
    ),
    Function(
        focus_collimated,
        [*ROUND[:2], Slot("diameter_at_lens", "diameter at lens"), FOCAL],
        [
            ("ordinary", 1, lambda d: collimated(behind_lens(d))),
            ("wide", 1, lambda d: collimated(behind_any_lens(d))),
        ],
        computed_refusals=[IMAGE_WAIST, CONE],
        free=lambda d: collimated(behind_lens_free(d)),
    ),
    Function(
        focus_astigmatic,
        [*ASTIGMATIC, FOCAL],
        [
            ("ordinary", 3, lambda d: astigmatic_behind_lens(d, wild=False)),
            ("wide", 3, lambda d: astigmatic_behind_lens(d, wild=True)),
            ("at-focal-plane", 1, astigmatic_at_focal_plane),
        ],
        computed_refusals=[
            *TWO_CONES,
            (OUTSIDE_MODEL, "waist diameter in x"),
            (OUTSIDE_MODEL, "waist diameter in y"),
        ],
        free=astigmatic_lens_free,
    ),
]
