"""Rows for the check of a whole job."""

import math

from mpmath import mpf

import beams
from model_beam import Beam
from model_check import (
    COLLIMATED,
    DOSE_RATIO,
    EXPANDED,
    FROM_DATUM,
    IDEAL,
    LENS_HEIGHT,
    NO_TEXT,
    SINGLET,
    WAIST,
    focus_check,
)
from model_expander import behind_expander
from model_glass import GLASSES
from model_singlet import SHAPE_FACTOR
from strata import Function, Slot
from strata_focus import (
    CRITERION_SLOTS,
    by_criterion,
    drop_far,
    drop_ordinary,
    growth_far,
    growth_near_one,
    growth_ordinary,
)
from strata_mark import dose_large, dose_near_one, dose_near_two, dose_ordinary
from strata_optics import CONE, IMAGE_WAIST, OUTSIDE_MODEL

# wavelengths, M2 and diameter at the lens from-to, focal lengths; common practice, no source
CO2_LENSES = (0.0381, 0.0508, 0.0635, 0.0762, 0.1016, 0.127)
CO2 = ((10.6e-6, 10.2e-6, 9.3e-6), (1.05, 1.8), (3e-3, 15e-3), CO2_LENSES)
FIBRE = ((1.064e-6, 1.07e-6), (1.05, 1.8), (4e-3, 10e-3), (0.1, 0.16, 0.163, 0.21, 0.254, 0.3))
DIODE = ((450e-9, 445e-9), (3.0, 15.0), (2e-3, 6e-3), (0.025, 0.03, 0.04, 0.05, 0.06))
GREEN = ((532e-9,), (1.05, 1.5), (4e-3, 10e-3), (0.1, 0.16, 0.21))
ULTRAVIOLET = ((355e-9,), (1.05, 1.4), (4e-3, 12e-3), (0.1, 0.16, 0.21, 0.254))
SHOPS = (CO2, CO2, FIBRE, FIBRE, DIODE, GREEN, ULTRAVIOLET)


def digits(value, count=3):
    return float(format(value, f".{count}g"))


def optics(draws):
    """A raw beam in either form and a lens, with the focused waist and Rayleigh range to scale by."""
    wavelengths, m2, widths, lenses = draws.choice(SHOPS)
    row = {
        "wavelength": draws.choice(wavelengths),
        "m2": draws.nice(*m2),
        "raw_beam": draws.choice((COLLIMATED, WAIST)),
        "diameter_at_lens": draws.anything(),
        "waist_diameter": draws.anything(),
        "waist_to_lens": draws.anything(),
        "focal_length": draws.choice(lenses),
        "lens": IDEAL,
    }
    if row["raw_beam"] == COLLIMATED:
        row["diameter_at_lens"] = draws.nice(*widths)
    else:
        row["waist_diameter"] = draws.nice(1e-3, widths[1])
        row["waist_to_lens"] = draws.nice(-0.5, 4.0)
    return row


def wide_optics(draws):
    """Any beam and any lens of the model."""
    beam = beams.wide(draws)
    zr = beams.rayleigh(beam)
    row = {
        "wavelength": beam["wavelength"],
        "m2": beam["m2"],
        "raw_beam": draws.choice((COLLIMATED, WAIST)),
        "diameter_at_lens": draws.anything(),
        "waist_diameter": draws.anything(),
        "waist_to_lens": draws.anything(),
        "focal_length": beams.within(draws, "focal length", zr * 1e-9, zr * 1e3),
        "lens": IDEAL,
    }
    if row["raw_beam"] == COLLIMATED:
        row["diameter_at_lens"] = beam["waist_diameter"]
    else:
        row["waist_diameter"] = beam["waist_diameter"]
        row["waist_to_lens"] = draws.sign() * beams.within(draws, "z", zr * 2.0**-60, zr * 1e3)
    return row


def free_optics(draws):
    """Numbers from the whole of their ranges: most are no beams, or focus to none."""
    row = beams.free(draws) | {
        "raw_beam": draws.choice((COLLIMATED, WAIST)),
        "diameter_at_lens": draws.octaves(1e-9, 10.0),
        "waist_to_lens": draws.sign() * draws.octaves(1e-9, 1e7),
        "focal_length": draws.octaves(1e-5, 1e4),
        "lens": IDEAL,
    }
    return row


def scales(row):
    """Focused waist diameter, Rayleigh range and place of the waist, to some digits."""
    collimated = row["raw_beam"] == COLLIMATED
    d0 = row["diameter_at_lens" if collimated else "waist_diameter"]
    s = 0.0 if collimated else row["waist_to_lens"]
    f = row["focal_length"]
    zr = beams.rayleigh(row | {"waist_diameter": d0})
    squared = f * f / ((s - f) * (s - f) + zr * zr)
    return squared**0.5 * d0, squared * zr, f + squared * (s - f)


def between(value, least, greatest):
    return min(greatest, max(least, value))


def job(draws, row, heights, off_focus, detail, growth, drop, dose, scales=scales):
    """Heights in Rayleigh ranges and details in spot diameters, each written with three digits."""
    waist, zr, lens_to_waist = scales(row)
    height = lambda: draws.choice((0.0, digits(between(zr * heights(draws), 0.0, 1e3))))
    focus = zr * off_focus(draws)
    row = row | {
        "focus_setting": draws.choice((FROM_DATUM, LENS_HEIGHT)),
        "focus_z": draws.anything(),
        "lens_to_surface": draws.anything(),
        "surface_rise": height(),
        "surface_fall": height(),
        "finest_stroke": digits(between(waist * detail(draws), 1e-9, 10.0)),
        "finest_gap": digits(between(waist * detail(draws), 1e-9, 10.0)),
        "dose": DOSE_RATIO,
        "dose_ratio": dose(draws),
        "text": NO_TEXT,
    }
    if row["focus_setting"] == FROM_DATUM:
        row["focus_z"] = digits(between(focus, -1e3, 1e3))
    else:
        row["lens_to_surface"] = digits(between(lens_to_waist - focus, 1e-6, 1e4), 6)
    return by_criterion(draws, row, waist, growth, drop)


def flat_work(draws):
    """A flat surface in focus, and details the spot can hold."""
    return job(
        draws,
        optics(draws),
        heights=lambda d: d.evenly(0.0, 0.05),
        off_focus=lambda d: d.evenly(-0.05, 0.05),
        detail=lambda d: d.evenly(0.5, 4.0),
        growth=lambda d: d.nice(1.02, 1.6),
        drop=lambda d: d.nice(0.05, 0.5, 2),
        dose=lambda d: d.nice(1.5, 4.0, 2),
    )


def ordinary(draws):
    return job(
        draws,
        optics(draws),
        heights=lambda d: d.evenly(0.0, 2.0),
        off_focus=lambda d: d.evenly(-1.5, 1.5),
        detail=lambda d: d.evenly(0.2, 2.5),
        growth=growth_ordinary,
        drop=drop_ordinary,
        dose=dose_ordinary,
    )


def off_focus(draws):
    """A surface that would do, were the focus set halfway down it."""
    return job(
        draws,
        optics(draws),
        heights=lambda d: d.evenly(0.0, 0.5),
        off_focus=lambda d: d.sign() * d.evenly(0.8, 4.0),
        detail=lambda d: d.evenly(0.5, 1.5),
        growth=lambda d: d.nice(1.02, 1.6),
        drop=lambda d: d.nice(0.05, 0.5, 2),
        dose=lambda d: d.nice(1.5, 4.0, 2),
    )


def too_fine(draws):
    """Details that no focus can hold, or a largest diameter below the waist."""
    row = job(
        draws,
        optics(draws),
        heights=lambda d: d.evenly(0.0, 1.0),
        off_focus=lambda d: d.evenly(-0.5, 0.5),
        detail=lambda d: d.evenly(0.05, 0.6),
        growth=lambda d: d.evenly(0.3, 0.99),
        drop=drop_ordinary,
        dose=draws.choice((dose_near_two, dose_ordinary)),
    )
    return row if row["growth_ratio"] != row["growth_ratio"] else row | {"growth_ratio": 1.1}


def wide(draws):
    return job(
        draws,
        wide_optics(draws),
        heights=lambda d: d.octaves(2.0**-40, 2.0**10),
        off_focus=lambda d: d.sign() * d.octaves(2.0**-40, 2.0**10),
        detail=lambda d: d.octaves(2.0**-6, 2.0**12),
        growth=draws.choice((growth_ordinary, growth_far)),
        drop=draws.choice((drop_ordinary, drop_far)),
        dose=draws.choice((dose_ordinary, dose_near_one, dose_near_two, dose_large)),
    )


def near_waist(draws):
    """Surfaces so near the waist, and criteria so strict, that every growth is one to many digits."""
    row = job(
        draws,
        optics(draws) if draws.one_in(2) else wide_optics(draws),
        heights=lambda d: d.octaves(1e-12, 1e-3),
        off_focus=lambda d: d.sign() * d.octaves(1e-12, 1e-3),
        detail=lambda d: d.octaves(0.5, 8.0),
        growth=growth_near_one,
        drop=lambda d: d.octaves(1e-9, 1e-4),
        dose=dose_ordinary,
    )
    if row["focus_setting"] == FROM_DATUM and draws.one_in(4):
        row["focus_z"] = draws.tiny()
    return row


def free(draws):
    row = free_optics(draws)
    return row | {
        "focus_setting": FROM_DATUM,
        "focus_z": 0.0,
        "lens_to_surface": 0.1,
        "surface_rise": 0.0,
        "surface_fall": 0.0,
        "criterion": 2,
        "growth_ratio": 1.1,
        "drop": 0.1,
        "largest_diameter": 1e-3,
        "finest_stroke": 1e-3,
        "finest_gap": 1e-3,
        "dose": DOSE_RATIO,
        "dose_ratio": 2.0,
        "text": NO_TEXT,
    }


# What the rows below leave open: inputs that only an expander, a real lens, a scan or text reads.


def without_expander(draws):
    return {
        "waist_to_expander": draws.anything(),
        "magnification": draws.anything(),
        "exit_power": draws.anything(),
        "expander_to_lens": draws.anything(),
    }


def without_lens(draws):
    return {
        "glass": draws.choice((0, 1, 2, 3, 4, 5, 8, 77)),
        "lens_shape": draws.choice((0, 1, 2, 3, 4, 77)),
        "shape_factor": draws.anything(),
        "clear_aperture": draws.anything(),
    }


def without_scan(draws):
    names = ("power", "speed", "line_interval", "threshold", "penetration_depth", "removal_energy", "diffusivity")
    return {name: draws.anything() for name in names} | {"response": draws.choice((0, 1, 2, 3, 4, 5, 77))}


def without_text(draws):
    numbers = ("stem", "effective_stroke", "effective_counter", "effective_gap", "em")
    cut_offs = ("crisp_exposure", "good_window", "readable_window")
    return {name: draws.anything() for name in numbers + cut_offs} | {
        "typeface": draws.choice((0, 1, 2, 5, 6, 77)),
        "least_grade": draws.choice((0, 1, 4, 5, 77)),
    }


def filled(draws, row):
    """A row with junk in all that it left open."""
    return without_expander(draws) | without_lens(draws) | without_scan(draws) | without_text(draws) | row


# Real lenses and expanders: glass and form to go with each laser


def material(wavelength):
    """Code of a glass for lenses at this wavelength; common practice, no source."""
    if wavelength > 5e-6:
        return 1
    return 4


def real_optics(draws, beams_before=(COLLIMATED, WAIST, EXPANDED), lenses=(SINGLET,)):
    """A raw beam in any of the three forms, and a lens of glass; or an ideal one."""
    row = optics(draws) | without_expander(draws) | without_lens(draws)
    row["raw_beam"] = draws.choice(beams_before)
    row["lens"] = draws.choice(lenses)
    for name in ("diameter_at_lens", "waist_diameter", "waist_to_lens"):
        row[name] = draws.anything()
    co2 = row["wavelength"] > 5e-6
    if row["raw_beam"] == COLLIMATED:
        row["diameter_at_lens"] = draws.nice(3e-3, 12e-3)
    else:
        row["waist_diameter"] = draws.nice(2e-3, 8e-3)
    if row["raw_beam"] == WAIST:
        row["waist_to_lens"] = draws.nice(-0.5, 4.0)
    if row["raw_beam"] == EXPANDED:
        row |= {
            "waist_diameter": draws.nice(1e-3, 5e-3),
            "waist_to_expander": draws.nice(0.0, 2.0),
            "magnification": draws.nice(1.0, 4.0) if not co2 else draws.nice(1.0, 2.5),
            "exit_power": draws.choice((0.0, draws.nice(-0.1, 0.3))),
            "expander_to_lens": draws.nice(0.1, 3.0),
        }
    if row["lens"] == SINGLET:
        shape = draws.randint(1, 4)
        row |= {
            "glass": material(row["wavelength"]) if draws.one_in(2) else usable_glass(draws, row["wavelength"]),
            "lens_shape": shape,
            "clear_aperture": draws.choice((math.inf, 0.018, 0.02, 0.025)),
        }
        if shape == SHAPE_FACTOR:
            row["shape_factor"] = draws.nice(-1.0, 4.0)
    return row


def usable_glass(draws, wavelength):
    return draws.choice([code for code, g in GLASSES.items() if g.least <= wavelength <= g.greatest])


def real_scales(row):
    """Ideal waist, Rayleigh range and place of the waist behind lens and expander, to some digits."""
    if row["raw_beam"] != EXPANDED:
        return scales(row)
    raw = Beam(mpf(row["wavelength"]), mpf(row["m2"]), mpf(row["waist_diameter"]))
    inputs = (mpf(row[name]) for name in ("waist_to_expander", "magnification", "exit_power"))
    expanded = behind_expander(raw, *inputs)
    return scales(
        row
        | {
            "raw_beam": WAIST,
            "waist_diameter": float(expanded.waist_diameter),
            "waist_to_lens": row["expander_to_lens"] - float(expanded.to_waist),
        }
    )


def real_job(draws, row, heights, off, detail, growth):
    return job(
        draws,
        row,
        heights=heights,
        off_focus=off,
        detail=detail,
        growth=growth,
        drop=lambda d: d.nice(0.05, 0.5, 2),
        dose=lambda d: d.nice(1.5, 4.0, 2),
        scales=real_scales,
    )


def usual_job(draws, row):
    return real_job(
        draws,
        row,
        lambda d: d.evenly(0.0, 1.0),
        lambda d: d.evenly(-1.0, 1.0),
        lambda d: d.evenly(0.3, 4.0),
        lambda d: d.nice(1.1, 3.0),
    )


def real_lens(draws):
    return usual_job(draws, real_optics(draws))


def expanded(draws):
    return usual_job(draws, real_optics(draws, (EXPANDED,), (IDEAL, SINGLET)))


def lost_promise(draws):
    """Details that an ideal lens holds and the real one may not."""
    return real_job(
        draws,
        real_optics(draws),
        lambda d: d.evenly(0.0, 0.1),
        lambda d: d.evenly(-0.1, 0.1),
        lambda d: d.evenly(0.6, 1.3),
        lambda d: d.nice(1.02, 1.3),
    )


def clipped_job(draws):
    row = real_optics(draws, (COLLIMATED,))
    return usual_job(draws, row | {"clear_aperture": row["diameter_at_lens"] * draws.evenly(0.25, 2.0)})


def unclipped_job(draws):
    return usual_job(draws, real_optics(draws) | {"clear_aperture": math.inf})


def real_free(draws):
    """A lens or an expander that asks too much of the model."""
    row = real_lens(draws) if draws.one_in(2) else expanded(draws)
    which = draws.randrange(7)
    if which == 0 and row["lens"] == SINGLET:
        row |= {"lens_shape": SHAPE_FACTOR, "shape_factor": draws.evenly(-20.0, 20.0)}
    elif which == 1:
        row |= {"focal_length": draws.octaves(1e-5, 1e4)}
    elif which == 2 and row["lens"] == SINGLET:
        row |= {"lens_shape": SHAPE_FACTOR, "shape_factor": -100.0, "focal_length": draws.octaves(1e-4, 0.1)}
    elif which == 3 and row["raw_beam"] == EXPANDED:
        row |= {"magnification": 0.01, "exit_power": draws.nice(-1e3, 1e3)}
    elif which == 4 and row["raw_beam"] == EXPANDED:
        row |= {"magnification": draws.nice(2.0, 4.0), "waist_to_expander": draws.octaves(5e6, 1e7)}
        row |= {"exit_power": 0.0}
    elif which == 5 and row["lens"] == SINGLET:
        row |= {"clear_aperture": 1e-3}
    elif which == 6 and row["raw_beam"] == EXPANDED:
        row |= {"waist_diameter": draws.octaves(0.1, 10.0), "magnification": 100.0, "exit_power": 0.0}
    return row


def glass_limits(draws):
    """Wavelengths at the ends of the glass, beyond them, and glasses that the light does not pass."""
    rows = []
    for code, g in GLASSES.items():
        for value in (g.least, g.greatest, math.nextafter(g.least, 0.0), math.nextafter(g.greatest, 1.0)):
            row = real_lens(draws) | {"glass": code, "wavelength": value}
            rows.append(("limits", row))
    return draws.sample(rows, 14)


BASIC_SLOTS = [
    Slot("wavelength", "wavelength"),
    Slot("m2", "M squared"),
    Slot("diameter_at_lens", "diameter at lens", {"raw_beam": COLLIMATED}),
    Slot("waist_diameter", "waist diameter", {"raw_beam": WAIST}),
    Slot("waist_to_lens", "waist to lens", {"raw_beam": WAIST}),
    Slot("focal_length", "focal length"),
    Slot("focus_z", "focus z", {"focus_setting": FROM_DATUM}),
    Slot("lens_to_surface", "lens to surface", {"focus_setting": LENS_HEIGHT}),
    Slot("surface_rise", "surface rise"),
    Slot("surface_fall", "surface fall"),
    *CRITERION_SLOTS,
    Slot("finest_stroke", "finest stroke"),
    Slot("finest_gap", "finest gap"),
    Slot("dose_ratio", "any dose ratio"),
]

FUNCTIONS = [
    Function(
        focus_check,
        BASIC_SLOTS,
        [
            ("ordinary", 5, ordinary),
            ("flat-work", 3, flat_work),
            ("off-focus", 3, off_focus),
            ("too-fine", 2, too_fine),
            ("near-waist", 1, near_waist),
            ("wide", 2, wide),
        ],
        choices={
            "raw_beam": "raw beam",
            "focus_setting": "focus setting",
            "criterion": "depth criterion",
        },
        computed_refusals=[
            CONE,
            IMAGE_WAIST,
            (OUTSIDE_MODEL, "lens to waist"),
            (OUTSIDE_MODEL, "lens to highest place"),
        ],
        free=free,
        wanted_rows=620,
        finish=filled,
    ),
    Function(
        focus_check,
        [
            Slot("waist_diameter", "waist diameter", {"raw_beam": EXPANDED}),
            Slot("waist_to_expander", "waist to expander", {"raw_beam": EXPANDED}),
            Slot("magnification", "expander magnification", {"raw_beam": EXPANDED}),
            Slot("exit_power", "exit power", {"raw_beam": EXPANDED}),
            Slot("expander_to_lens", "expander to lens", {"raw_beam": EXPANDED}),
            Slot("shape_factor", "shape factor", {"lens": SINGLET, "lens_shape": SHAPE_FACTOR}),
            Slot("clear_aperture", "clear aperture", {"lens": SINGLET}),
        ],
        [
            ("ordinary", 4, real_lens),
            ("ordinary", 2, expanded),
            ("too-fine", 3, lost_promise),
            ("clipped", 1, clipped_job),
            ("unclipped", 1, unclipped_job),
        ],
        choices={"lens": "lens kind", "glass": "glass", "lens_shape": "lens shape"},
        computed_refusals=[
            CONE,
            IMAGE_WAIST,
            (OUTSIDE_MODEL, "M squared"),
            (OUTSIDE_MODEL, "clipping ratio"),
            (OUTSIDE_MODEL, "normalised aberration"),
            (OUTSIDE_MODEL, "waist to lens"),
        ],
        free=real_free,
        extra=glass_limits,
        per_slot=1,
        refusals_from_free=True,
        wanted_rows=170,
        finish=filled,
    ),
]
