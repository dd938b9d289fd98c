"""Rows for the spot on a tilted surface."""

import math

from mpmath import mpf, tan

import beams
from model_tilt import tilted_spot
from strata import Function, Slot
from strata_optics import CONE, OUTSIDE_MODEL, ROUND


def leaning(draws, beam, place, tilt):
    return beam | {"z_offset": place(draws, beams.rayleigh(beam)), "tilt": tilt(draws)}


def any_tilt(draws):
    return draws.nice(0.0, 1.2) if draws.one_in(2) else draws.octaves(1e-6, 1.5)


def slight_tilt(draws):
    """No tilt, or hardly any."""
    return draws.choice((0.0, -0.0, abs(draws.tiny()), draws.octaves(2.0**-200, 1e-6)))


def any_place(draws, zr):
    places = (beams.z_ordinary, beams.z_near_waist, beams.z_growth_near_one, beams.z_far)
    return draws.choice(places)(draws, zr)


def grazing(draws, ratio):
    """A beam so wide that the edge of its cone leaves this share of the tilt to spare."""
    tilt = draws.evenly(1.29, 1.5)
    beam = beams.any_round(draws)
    cone = ratio / float(tan(mpf(tilt)))
    beam |= {"waist_diameter": 2.0 * beam["m2"] * beam["wavelength"] / (math.pi * cone)}
    return leaning(draws, beam, any_place, lambda d: tilt)


def nearly_grazing(draws):
    return grazing(draws, 1.0 - draws.octaves(1e-8, 0.05))


def beyond_grazing(draws):
    return grazing(draws, draws.choice((1.0 + draws.octaves(1e-8, 1e-3), draws.evenly(1.001, 1.03))))


def next_to_nothing(draws):
    """A tilt or an offset so small that a product with it may vanish, the other being large."""
    rows = []
    for tiny in (5e-324, 2.0**-1060, 2.0**-1040, 2.0**-1023, 1e-300):
        beam = beams.wide(draws)
        far = beams.z_far(draws, beams.rayleigh(beam))
        rows.append(("slight-tilt", beam | {"z_offset": far, "tilt": tiny}))
        rows.append(("grazing", grazing(draws, draws.evenly(0.15, 0.95)) | {"z_offset": draws.sign() * tiny}))
        rows.append(("grazing", nearly_grazing(draws) | {"z_offset": draws.sign() * tiny}))
    return rows


def free(draws):
    if draws.one_in(2):
        return beyond_grazing(draws)
    return leaning(draws, beams.free(draws), lambda d, zr: d.evenly(-1.0, 1.0), any_tilt)


FUNCTIONS = [
    Function(
        tilted_spot,
        [*ROUND, Slot("z_offset", "z offset"), Slot("tilt", "tilt")],
        [
            ("ordinary", 3, lambda d: leaning(d, beams.focused(d), beams.z_ordinary, any_tilt)),
            ("wide", 2, lambda d: leaning(d, beams.wide(d), beams.z_ordinary, any_tilt)),
            ("near-waist", 1, lambda d: leaning(d, beams.any_round(d), beams.z_near_waist, any_tilt)),
            ("far-field", 1, lambda d: leaning(d, beams.any_round(d), beams.z_far, any_tilt)),
            ("growth-near-1", 1, lambda d: leaning(d, beams.any_round(d), beams.z_growth_near_one, any_tilt)),
            ("slight-tilt", 2, lambda d: leaning(d, beams.any_round(d), any_place, slight_tilt)),
            ("grazing", 2, lambda d: grazing(d, d.evenly(0.15, 0.95))),
            ("grazing", 2, nearly_grazing),
        ],
        computed_refusals=[CONE, (OUTSIDE_MODEL, "grazing ratio")],
        free=free,
        extra=next_to_nothing,
    ),
]
