"""Rows for pulsed marks, and for the power and speed that make up for a defocus."""

import math

from mpmath import log, mpf, sqrt

import beams
from model_compensation import FOCUS_INSENSITIVE_WIDTH, LINE, PULSE, SAME_DOSE, SAME_WIDTH, compensate
from model_pulsed import connected_speed, crater, groove, pulsed_line
from strata import Function, Slot
from strata_mark import DOSE, SPOT, dose_large, dose_near_one, dose_ordinary, dose_too_weak, spot
from strata_marks import ANY_DOSE
from strata_optics import CONE, OUTSIDE_MODEL, ROUND

E = 2.718281828459045
ROOT_E = 1.6487212707001282


def dot_diameter(row, log_fall=0):
    """To some digits, to scale by."""
    return float(row["spot_diameter"] * sqrt((log(mpf(row["dose_ratio"])) + log_fall) / 2))


def pulse(draws, dose):
    return {"spot_diameter": spot(draws), "dose_ratio": dose(draws)}


def any_dose(draws):
    return draws.choice((dose_ordinary, dose_near_one, dose_large))(draws)


def drawn(draw, parameter, name, value):
    """Rows whose value lies within the range of its parameter."""
    _, least, greatest = beams.PARAMETERS[parameter]

    def draws_row(draws):
        while True:
            row = draw(draws)
            row[name] = value(draws, row)
            if least <= row[name] <= greatest:
                return row

    return draws_row


# Rows of dots


def dots(dose, over_dot, incubation=lambda d: 1.0, pulses=lambda d: 1.0):
    """Dots this many diameters apart."""

    def base(draws):
        return pulse(draws, dose) | {"incubation": incubation(draws), "pulses": pulses(draws)}

    def pitch(draws, row):
        fall = (1 - mpf(row["incubation"])) * log(mpf(row["pulses"]))
        return dot_diameter(row, fall) * over_dot(draws)

    return drawn(base, "pulse pitch", "pulse_pitch", pitch)


def some_incubation(draws):
    return draws.choice((1.0, draws.nice(0.7, 0.99, 2), draws.evenly(0.5, 1.0)))


def some_pulses(draws):
    return draws.choice((1.0, draws.nice(1.0, 50.0), draws.octaves(1.0, 1e9)))


def nearly_apart(draws):
    return 1.0 + draws.sign() * draws.octaves(1e-8, 1e-2)


def incubated(draws):
    """A pulse below its threshold, and about as many as bring the threshold below it."""
    while True:
        q, incubation = draws.evenly(0.3, 1.0), draws.nice(0.7, 0.95, 2)
        just_enough = q ** (1.0 / (incubation - 1.0))
        pulses = just_enough * draws.octaves(0.5, 1e3)
        if 1.0 <= pulses <= 1e9:
            pitch = 10.0 ** draws.evenly(-7.0, -4.0)
            return {
                "spot_diameter": draws.nice(1e-5, 1e-3),
                "dose_ratio": q,
                "pulse_pitch": pitch,
                "incubation": incubation,
                "pulses": pulses,
            }


def too_weak(draws):
    row = {"spot_diameter": spot(draws), "dose_ratio": dose_too_weak(draws), "pulse_pitch": draws.octaves(1e-9, 1.0)}
    return row | {"incubation": some_incubation(draws), "pulses": some_pulses(draws)}


# Craters and grooves


def penetration(draws):
    return draws.nice(1e-9, 1e-6) if draws.one_in(2) else draws.octaves(1e-12, 1.0)


def dug(dose, over_radius, name, more=lambda d, row: {}):
    """A depth asked for at this many radii from the middle."""

    def base(draws):
        row = pulse(draws, dose) | {"penetration_depth": penetration(draws)}
        return row | more(draws, row)

    return drawn(base, "radius", name, lambda d, row: dot_diameter(row) / 2.0 * over_radius(d))


def inside(draws):
    return draws.evenly(0.0, 0.95)


def near_edge(draws):
    return 1.0 + draws.sign() * draws.octaves(1e-8, 0.05)


def outside(draws):
    return draws.octaves(1.05, 1e3)


def near_middle(draws):
    return draws.choice((0.0, draws.octaves(1e-300, 1e-6)))


def some_pitch(draws, row):
    return {"pulse_pitch": max(1e-12, dot_diameter(row) * draws.octaves(1e-4, 0.99))}


def apart(draws, row):
    return {"pulse_pitch": max(1e-12, dot_diameter(row) * draws.octaves(1.01, 1e3))}


def connected(dose, over_radius, rates=(1e-3, 1e9), incubation=some_incubation):
    def base(draws):
        rate = draws.nice(1e3, 1e6) if draws.one_in(2) else draws.octaves(*rates)
        return pulse(draws, dose) | {"repetition_rate": rate, "incubation": incubation(draws)}

    return drawn(base, "scallop", "scallop", lambda d, row: dot_diameter(row) / 2.0 * over_radius(d))


# Compensation


def setting(draws, place, dose, power_room, speed_room, irradiance, wide=False, haste=None):
    """A beam, a mark and how far power and speed may go, as factors."""
    beam = beams.any_round(draws)
    power = draws.octaves(1e-9, 1e6) if wide else draws.nice(1.0, 100.0)
    speed = draws.octaves(1e-9, 1e4) if wide else draws.nice(0.01, 5.0)
    return beam | {
        "z_offset": place(draws, beams.rayleigh(beam)),
        "rule": draws.choice((SAME_DOSE, SAME_WIDTH, FOCUS_INSENSITIVE_WIDTH)),
        "mark_kind": draws.choice((PULSE, LINE)),
        "dose_ratio": dose(draws),
        "power": power,
        "speed": speed,
        "greatest_power": min(1e6, power * power_room(draws)),
        "least_speed": max(1e-9, speed / speed_room(draws)),
        "greatest_speed": min(1e4, speed * (haste or speed_room)(draws)),
        "least_irradiance_ratio": irradiance(draws),
    }


def little(draws):
    return 1.0 if draws.one_in(4) else draws.evenly(1.0, 1.5)


def much(draws):
    return draws.octaves(10.0, 1e4)


def some(draws):
    return draws.octaves(1.0, 16.0)


def no_irradiance(draws):
    return 0.0


def some_irradiance(draws):
    return draws.choice((0.0, draws.evenly(0.1, 1.2), draws.octaves(1e-3, 10.0)))


def usual_offset(draws, zr):
    return draws.sign() * beams.within(draws, "z", zr * 0.05, zr * 4.0)


def no_offset(draws, zr):
    return draws.choice((0.0, -0.0, beams.z_near_waist(draws, zr)))


def dose_insensitive(draws):
    return draws.choice((E, ROOT_E, draws.nudge(E), draws.nudge(ROOT_E)))


FUNCTIONS = [
    Function(
        pulsed_line,
        [
            SPOT,
            ANY_DOSE,
            Slot("pulse_pitch", "pulse pitch"),
            Slot("incubation", "incubation"),
            Slot("pulses", "pulses"),
        ],
        [
            ("ordinary", 4, dots(dose_ordinary, lambda d: d.evenly(0.1, 1.5), some_incubation, some_pulses)),
            ("near-threshold", 1, dots(dose_near_one, lambda d: d.evenly(0.1, 1.5))),
            ("large-dose", 1, dots(dose_large, lambda d: d.evenly(0.1, 1.5), some_incubation, some_pulses)),
            ("just-connected", 2, dots(dose_ordinary, nearly_apart, some_incubation, some_pulses)),
            ("close-dots", 2, dots(any_dose, lambda d: d.octaves(1e-6, 0.1), some_incubation, some_pulses)),
            ("apart", 1, dots(any_dose, lambda d: d.octaves(1.1, 1e4), some_incubation, some_pulses)),
            ("incubated", 2, incubated),
            ("too-weak", 1, too_weak),
        ],
    ),
    Function(
        crater,
        [SPOT, DOSE, Slot("penetration_depth", "penetration depth"), Slot("radius", "radius")],
        [
            ("ordinary", 4, dug(dose_ordinary, inside, "radius")),
            ("near-threshold", 1, dug(dose_near_one, inside, "radius")),
            ("large-dose", 1, dug(dose_large, inside, "radius")),
            ("near-edge", 2, dug(any_dose, near_edge, "radius")),
            ("outside", 1, dug(any_dose, outside, "radius")),
            ("near-middle", 1, dug(any_dose, near_middle, "radius")),
        ],
    ),
    Function(
        groove,
        [
            SPOT,
            DOSE,
            Slot("penetration_depth", "penetration depth"),
            Slot("pulse_pitch", "pulse pitch"),
            Slot("aside", "radius"),
        ],
        [
            ("ordinary", 4, dug(dose_ordinary, inside, "aside", some_pitch)),
            ("near-threshold", 1, dug(dose_near_one, inside, "aside", some_pitch)),
            ("large-dose", 1, dug(dose_large, inside, "aside", some_pitch)),
            ("near-edge", 2, dug(any_dose, near_edge, "aside", some_pitch)),
            ("outside", 1, dug(any_dose, outside, "aside", some_pitch)),
            ("near-middle", 1, dug(any_dose, near_middle, "aside", some_pitch)),
        ],
        extra=lambda d: [("refused", dug(any_dose, inside, "aside", apart)(d)) for _ in range(10)],
    ),
    Function(
        connected_speed,
        [
            SPOT,
            DOSE,
            Slot("repetition_rate", "repetition rate"),
            Slot("incubation", "incubation"),
            Slot("scallop", "scallop"),
        ],
        [
            ("ordinary", 4, connected(dose_ordinary, lambda d: d.evenly(0.01, 0.99))),
            ("near-threshold", 1, connected(dose_near_one, lambda d: d.evenly(0.01, 0.99))),
            ("large-dose", 1, connected(dose_large, lambda d: d.evenly(0.01, 0.99))),
            ("close-dots", 2, connected(any_dose, lambda d: d.octaves(1e-9, 0.01))),
            ("just-connected", 1, connected(any_dose, lambda d: 1.0 - d.octaves(1e-8, 1e-3))),
            ("fresh", 1, connected(any_dose, lambda d: d.evenly(0.01, 0.99), incubation=lambda d: 1.0)),
        ],
        computed_refusals=[(OUTSIDE_MODEL, "speed")],
        free=connected(any_dose, lambda d: d.evenly(0.01, 0.99), (1e9, 1e12)),
    ),
    Function(
        compensate,
        [
            *ROUND,
            Slot("z_offset", "z offset"),
            DOSE,
            Slot("power", "power"),
            Slot("speed", "speed"),
            Slot("greatest_power", "greatest power"),
            Slot("least_speed", "least speed"),
            Slot("greatest_speed", "greatest speed"),
            Slot("least_irradiance_ratio", "least irradiance ratio"),
        ],
        [
            ("ordinary", 4, lambda d: setting(d, usual_offset, dose_ordinary, some, some, some_irradiance)),
            ("room-enough", 2, lambda d: setting(d, usual_offset, dose_ordinary, much, much, no_irradiance)),
            ("no-room", 3, lambda d: setting(d, usual_offset, dose_ordinary, little, little, some_irradiance)),
            ("dull", 2, lambda d: setting(d, usual_offset, dose_ordinary, little, much, some_irradiance)),
            ("no-haste", 2, lambda d: setting(d, usual_offset, dose_ordinary, much, some, some_irradiance, haste=little)),
            ("no-offset", 2, lambda d: setting(d, no_offset, dose_ordinary, little, little, some_irradiance)),
            ("insensitive", 1, lambda d: setting(d, usual_offset, dose_insensitive, some, some, no_irradiance)),
            ("near-threshold", 1, lambda d: setting(d, usual_offset, dose_near_one, some, some, no_irradiance)),
            ("far-field", 1, lambda d: setting(d, beams.z_far, dose_large, much, much, no_irradiance)),
            ("wide", 1, lambda d: setting(d, usual_offset, any_dose, much, much, some_irradiance, wide=True)),
        ],
        choices={"rule": "compensation rule", "mark_kind": "mark kind"},
        computed_refusals=[CONE],
        free=lambda d: setting(d, usual_offset, dose_ordinary, some, some, no_irradiance) | beams.free(d),
        extra=lambda d: narrowed(d),
        wanted_rows=520,
    ),
]


def narrowed(draws):
    """A greatest power below the power, a least speed above the speed and a greatest below: ranges are narrowed."""
    rows = []
    for _ in range(5):
        row = setting(draws, usual_offset, dose_ordinary, some, some, no_irradiance)
        below = draws.choice((row["power"] / 2.0, math.nextafter(row["power"], 0.0)))
        rows.append(("refused", row | {"greatest_power": below}))
        above = draws.choice((row["speed"] * 2.0, math.nextafter(row["speed"], 1.0)))
        rows.append(("refused", row | {"least_speed": above}))
        slower = draws.choice((row["speed"] / 2.0, math.nextafter(row["speed"], 0.0)))
        rows.append(("refused", row | {"greatest_speed": slower}))
        tight = {"greatest_power": row["power"], "least_speed": row["speed"], "greatest_speed": row["speed"]}
        rows.append(("limits", row | tight))
    return rows
