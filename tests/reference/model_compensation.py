"""Power and speed that make up for a known defocus.

The dose of a line is P/v over the spot width, that of a pulse P over the spot area: with the growth g,
and n = 1 for a line and 2 for a pulse, off focus it is g^-n of that in the waist, and the dose ratio
q g^-n. The factor asked of P/v, or of P:

  same dose                   g^n
  same width                  g^n q^(1/g^2 - 1)     from d sqrt(ln(.)/2) at both places
  width insensitive to focus  e^(n/2) g^n/q         so that the local dose ratio is e^(n/2)

Power is changed first, for a line as far as the irradiance asks for, P/g^2 in the waist's, and as the greatest
speed makes up for; never beyond the greatest. For a line the speed makes up the rest, never below the least.
Derived here.
"""

from mpmath import exp, log, mpf, sqrt

from checks import allowed, choice, exceeds, number, number_within
from model_beam import checked_beam

SAME_DOSE, SAME_WIDTH, FOCUS_INSENSITIVE_WIDTH = 1, 2, 3
PULSE, LINE = 1, 2

GREATEST_POWER, LEAST_SPEED, LEAST_IRRADIANCE, GREATEST_SPEED = 1, 2, 4, 8
BASE_ULP = 6


def beyond(value, limit):
    """Whether value > limit; a tie that holds exactly is none."""
    return value != limit and exceeds(value, limit)


def wanted_factor(rule, n, g, q):
    if rule == SAME_DOSE:
        return g**n
    if rule == SAME_WIDTH:
        return g**n * q ** (1 / g**2 - 1)
    return exp(mpf(n) / 2) * g**n / q


def compensate(row):
    rule = choice("compensation rule", row["rule"])
    kind = choice("mark kind", row["mark_kind"])
    beam = checked_beam(row)
    g = beam.growth(number("z offset", row["z_offset"]))
    q = number("dose ratio", row["dose_ratio"])
    power = number("power", row["power"])
    speed = number("speed", row["speed"])
    most_power = number_within("greatest power", row["greatest_power"], row["power"], 1e6)
    least_speed = number_within("least speed", row["least_speed"], 1e-9, row["speed"])
    most_speed = number_within("greatest speed", row["greatest_speed"], row["speed"], 1e4)
    least_irradiance = number("least irradiance ratio", row["least_irradiance_ratio"])
    n = 2 if kind == PULSE else 1
    wanted = wanted_factor(rule, n, g, q)

    # In irradiance of the waist before, what a power factor of 1 gives here.
    here = 1 / g**2
    by_power, for_irradiance, too_fast = wanted, False, False
    if kind == LINE and beyond(least_irradiance / here, wanted):
        by_power, for_irradiance = least_irradiance / here, True
        if beyond(by_power, wanted * most_speed / speed):
            by_power, too_fast = wanted * most_speed / speed, True
    power_clipped = beyond(power * by_power, most_power)
    if power_clipped:
        by_power, too_fast = most_power / power, False

    too_slow = False
    new_speed, reached = speed, by_power
    if kind == LINE:
        new_speed, reached = speed * by_power / wanted, wanted
        if beyond(least_speed, new_speed):
            new_speed, too_slow = least_speed, True
            reached = by_power * speed / least_speed
    irradiance = by_power * here
    # With just the power that the irradiance asks for, it is reached.
    as_asked = for_irradiance and not (power_clipped or too_fast)
    dull = not as_asked and beyond(least_irradiance, irradiance)
    local = q * reached / g**n
    limits = GREATEST_POWER * power_clipped | LEAST_SPEED * too_slow
    limits |= LEAST_IRRADIANCE * dull | GREATEST_SPEED * too_fast

    width, width_factor = mpf(0), mpf(1)
    if local != 1 and exceeds(local, mpf(1)):
        width = beam.diameter(row["z_offset"]) * sqrt(log(local) / 2)
        width_factor = 1 + 1 / log(local)
    # exp(-x) magnifies an error of x = ln(q) (1 - 1/g^2) by x.
    factor = 1 + log(q) * (1 - here) if rule == SAME_WIDTH else mpf(1)
    answer = {
        "wanted_factor": wanted,
        "reached_factor": reached,
        "power": power * by_power,
        "speed": new_speed,
        "irradiance_ratio": irradiance,
        "dose_ratio": local,
        "mark_width": width,
        "limits": limits,
    }
    for name in ("wanted_factor", "reached_factor", "power", "speed", "irradiance_ratio", "dose_ratio"):
        answer[f"{name}_ulp"] = allowed(BASE_ULP, factor)
    answer["mark_width_ulp"] = allowed(BASE_ULP, factor * width_factor)
    return answer | beam.cone
