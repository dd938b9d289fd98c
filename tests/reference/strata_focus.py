"""Rows for defocus and the depth of focus."""

import math

import beams
from model_astigmatic import astigmatic_defocus
from model_astigmatic_depth import astigmatic_depth_of_focus
from model_clipping import clipped_depth_of_focus
from model_depth import (
    GROWTH,
    IRRADIANCE_DROP,
    LARGEST_DIAMETER,
    LINE_DOSE_DROP,
    RAYLEIGH,
    defocus,
    depth_of_focus,
    offsets_for_diameter,
    offsets_for_growth,
)
from strata import Function, Slot
from strata_lens import clipped, clipped_free, long_clipped, no_aperture, vast_aperture
from strata_optics import (
    ASTIGMATIC,
    CONE,
    OUTSIDE_MODEL,
    ROUND,
    TWO_CONES,
    any_astigmatic,
    nearly_stigmatic,
    split,
    stigmatic,
    two_axes_at,
)

UNREACHABLE = 5
CRITERIA = (GROWTH, RAYLEIGH, IRRADIANCE_DROP, LARGEST_DIAMETER, LINE_DOSE_DROP)

CRITERION_SLOTS = [
    Slot("growth_ratio", "growth ratio", {"criterion": GROWTH}),
    Slot("drop", "irradiance drop", {"criterion": IRRADIANCE_DROP}),
    Slot("drop", "line dose drop", {"criterion": LINE_DOSE_DROP}),
    Slot("largest_diameter", "largest diameter", {"criterion": LARGEST_DIAMETER}),
]


def offset(draws, place):
    beam = beams.any_round(draws)
    return beam | {"z_offset": place(draws, beams.rayleigh(beam))}


# Growth: what the numbers of all criteria are drawn from


def growth_ordinary(draws):
    return draws.nice(1.01, 5.0) if draws.one_in(2) else 1.0 + draws.octaves(1e-3, 1e3)


def growth_near_one(draws):
    return 1.0 + draws.octaves(2.0**-52, 1e-4)


def growth_far(draws):
    return draws.octaves(1e3, 1e9)


def drop_ordinary(draws):
    return draws.nice(0.01, 0.99, 2) if draws.one_in(2) else draws.octaves(1e-3, 0.99)


def drop_near_zero(draws):
    return draws.octaves(1e-9, 1e-4)


def drop_far(draws):
    return 1.0 - draws.octaves(2e-6, 1e-2)


def to_diameter(draws, growth):
    while True:
        beam = beams.any_round(draws)
        diameter = beam["waist_diameter"] * growth(draws)
        if draws.one_in(40):
            diameter = beam["waist_diameter"]
        if diameter <= 10.0:
            return beam | {"diameter": diameter}


def to_growth(draws, growth):
    return beams.any_round(draws) | {"growth": growth(draws)}


def by_criterion(draws, beam, waist, growth, drop):
    """A beam with one of the five criteria; what the criterion does not read is left as junk."""
    row = beam | {
        "criterion": draws.choice(CRITERIA),
        "growth_ratio": draws.anything(),
        "drop": draws.anything(),
        "largest_diameter": draws.anything(),
    }
    if row["criterion"] == GROWTH:
        row["growth_ratio"] = growth(draws)
    elif row["criterion"] in (IRRADIANCE_DROP, LINE_DOSE_DROP):
        row["drop"] = drop(draws)
    elif row["criterion"] == LARGEST_DIAMETER:
        row["largest_diameter"] = waist * growth(draws)
    return row


def depth(draws, growth, drop):
    beam = beams.any_round(draws)
    return by_criterion(draws, beam, beam["waist_diameter"], growth, drop)


def depth_free(draws):
    beam = beams.wide(draws) if draws.one_in(2) else beams.free(draws)
    return by_criterion(draws, beam, draws.octaves(1e-9, 1.0), growth_ordinary, drop_ordinary)


def astigmatic_depth(draws, beam, growth, drop):
    widest = max(beam["waist_diameter_x"], beam["waist_diameter_y"])
    return by_criterion(draws, beam, widest, growth, drop)


def ordinary_depth(draws, beam):
    return astigmatic_depth(draws, beam, growth_ordinary, drop_ordinary)


def close_waists(draws):
    """Waists so close together that even a narrow range has both in it."""
    beam = draws.choice((stigmatic, nearly_stigmatic))(draws)
    return astigmatic_depth(draws, beam, growth_near_one, drop_near_zero)


def two_bright_places(draws):
    """Axes far apart, asked by irradiance: two bright places, with a dip between them.

    The irradiance asked for is drawn below the dip, between the dip and the dimmer place, or
    between the two places, so that the answer is one long range, one of two, or the only one.
    """
    while True:
        beam = split(draws)
        beam["waist_diameter_y"] *= draws.choice((1.0, draws.evenly(0.7, 1.4)))
        least, middle, most = bright_levels(beam)
        if least < middle and beams.half_angle(beam, "_y") < beams.WIDEST_HALF_ANGLE:
            break
    kept = draws.choice(
        (draws.evenly(0.3 * least, least), draws.evenly(least, middle), draws.evenly(middle, most))
    )
    return ordinary_depth(draws, beam) | {"criterion": IRRADIANCE_DROP, "drop": min(1.0 - kept, 0.999999)}


def bright_levels(beam):
    """Irradiance at the dip, at the dimmer waist and at the brighter one, roughly."""
    zx, zy = beam["waist_z_x"], beam["waist_z_y"]
    ax, ay = beams.rayleigh(beam, "_x"), beams.rayleigh(beam, "_y")

    def irradiance(z):
        a, b = (z - zx) / ax, (z - zy) / ay
        return 1.0 / math.sqrt((1.0 + a * a) * (1.0 + b * b))

    between = [irradiance(zx + (zy - zx) * k / 16.0) for k in range(1, 16)]
    return min(between), *sorted((irradiance(zx), irradiance(zy)))


def astigmatic_depth_free(draws):
    beam = beams.astigmatic_wide(draws) if draws.one_in(2) else beams.astigmatic_free(draws)
    return ordinary_depth(draws, beam)


def dimmed(draws, beam, least=0.01, greatest=0.9):
    return beam | {"irradiance_drop": draws.nice(least, greatest, 2)}


def drop_ends(draws):
    """This drop has a narrower range than that of an ideal beam."""
    values = [0.01, 0.9, 0.0099, 0.91, 1e-9, 0.999999]
    values += [math.nextafter(end, side) for end in (0.01, 0.9) for side in (0.0, 1.0)]
    return [("limits", clipped(draws, 0.5, 3.0) | {"irradiance_drop": value}) for value in values]


FUNCTIONS = [
    Function(
        defocus,
        [*ROUND, Slot("z_offset", "z offset")],
        [
            ("ordinary", 3, lambda d: offset(d, beams.z_ordinary)),
            ("near-waist", 1, lambda d: offset(d, beams.z_near_waist)),
            ("far-field", 1, lambda d: offset(d, beams.z_far)),
            ("growth-near-1", 2, lambda d: offset(d, beams.z_growth_near_one)),
        ],
        computed_refusals=[CONE],
        free=lambda d: beams.free(d) | {"z_offset": d.evenly(-1.0, 1.0)},
    ),
    Function(
        astigmatic_defocus,
        [*ASTIGMATIC, Slot("z", "z")],
        [
            ("ordinary", 3, lambda d: two_axes_at(d, beams.astigmatic(d), beams.z_ordinary)),
            ("wide", 3, lambda d: two_axes_at(d, beams.astigmatic_wide(d), beams.z_ordinary)),
            ("near-waist", 1, lambda d: two_axes_at(d, any_astigmatic(d), beams.z_near_waist)),
            ("far-field", 1, lambda d: two_axes_at(d, any_astigmatic(d), beams.z_far)),
        ],
        computed_refusals=TWO_CONES,
        free=lambda d: beams.astigmatic_free(d) | {"z": d.evenly(-1.0, 1.0)},
    ),
    Function(
        offsets_for_diameter,
        [*ROUND, Slot("diameter", "spot diameter")],
        [
            ("ordinary", 3, lambda d: to_diameter(d, growth_ordinary)),
            ("far-field", 1, lambda d: to_diameter(d, growth_far)),
            ("growth-near-1", 2, lambda d: to_diameter(d, growth_near_one)),
        ],
        computed_refusals=[CONE, (UNREACHABLE, "spot diameter")],
        free=lambda d: beams.free(d) | {"diameter": d.octaves(1e-9, 10.0)},
    ),
    Function(
        offsets_for_growth,
        [*ROUND, Slot("growth", "growth ratio")],
        [
            ("ordinary", 3, lambda d: to_growth(d, growth_ordinary)),
            ("far-field", 1, lambda d: to_growth(d, growth_far)),
            ("growth-near-1", 2, lambda d: to_growth(d, growth_near_one)),
        ],
        computed_refusals=[CONE],
        free=lambda d: beams.free(d) | {"growth": 1.5},
    ),
    Function(
        depth_of_focus,
        [*ROUND, *CRITERION_SLOTS],
        [
            ("ordinary", 3, lambda d: depth(d, growth_ordinary, drop_ordinary)),
            ("far-field", 1, lambda d: depth(d, growth_far, drop_far)),
            ("growth-near-1", 2, lambda d: depth(d, growth_near_one, drop_near_zero)),
        ],
        choices={"criterion": "depth criterion"},
        computed_refusals=[CONE, (UNREACHABLE, "largest diameter")],
        free=depth_free,
    ),
    Function(
        astigmatic_depth_of_focus,
        [*ASTIGMATIC, *CRITERION_SLOTS],
        [
            ("ordinary", 4, lambda d: ordinary_depth(d, beams.astigmatic(d))),
            ("wide", 4, lambda d: ordinary_depth(d, beams.astigmatic_wide(d))),
            ("far-field", 1, lambda d: astigmatic_depth(d, any_astigmatic(d), growth_far, drop_far)),
            ("growth-near-1", 2, close_waists),
            ("split", 3, two_bright_places),
        ],
        choices={"criterion": "depth criterion"},
        computed_refusals=[
            *TWO_CONES,
            (UNREACHABLE, "growth ratio"),
            (UNREACHABLE, "irradiance drop"),
            (UNREACHABLE, "line dose drop"),
            (UNREACHABLE, "largest diameter"),
        ],
        free=astigmatic_depth_free,
    ),
    Function(
        clipped_depth_of_focus,
        [
            ROUND[0],
            Slot("diameter_at_lens", "diameter at lens"),
            Slot("clear_aperture", "clear aperture"),
            Slot("focal_length", "focal length"),
            Slot("irradiance_drop", "irradiance drop"),
        ],
        [
            ("ordinary", 3, lambda d: dimmed(d, clipped(d, 0.5, 3.0))),
            ("wide", 2, lambda d: dimmed(d, clipped(d, 0.2, 20.0, wild=True))),
            ("clipped", 2, lambda d: dimmed(d, clipped(d, 0.2, 1.5))),
            ("unclipped", 1, lambda d: dimmed(d, no_aperture(d))),
            ("large-share", 1, lambda d: dimmed(d, vast_aperture(d))),
            ("long-focus", 4, lambda d: dimmed(d, long_clipped(d))),
        ],
        computed_refusals=[CONE, (OUTSIDE_MODEL, "clipping ratio"), (OUTSIDE_MODEL, "Rayleigh range")],
        free=lambda d: dimmed(d, clipped_free(d)),
        extra=drop_ends,
        wanted_rows=320,
    ),
]
