"""A lens that travels: how the focus changes with the length of the path.

From the raw waist to the lens is s, x = s - f, and the lens makes the spot d0 |f|/sqrt(x^2 + zR^2) and
the shift f^2 x/(x^2 + zR^2). Over a stretch of x the spot has its extremes at the ends and where |x| is
least, the shift at the ends and at x = +-zR: all of these are tried.

To even the spot out, an expander makes the beam that leaves it, of diameter D and Z = pi D^2/(4 M2
lambda), converge by c. In units of Z the square of the beam's diameter at x is (1 - c x)^2 + x^2, with
its waist at c/(1 + c^2). The largest over the smallest on the travel from a to b can only be least where
one of these holds, and all of them are tried: both ends alike; the end b, or a, at its least over
the waist; the ratio of the ends stationary; the waist at an end.
"""

from mpmath import mpf, pi, sqrt, workdps

from checks import PARAMETERS, computed, computed_at_most, exceeds, focal_length, number, number_within
from model_beam import Beam, checked_beam, widest_cone
from model_lens import image_of
from model_moments import plane_of
from model_expander import behind_expander


def digits_of_any_travel():
    """Enough for the smallest double beside a focal length."""
    return workdps(450)


def focus_along_gantry(row):
    raw = checked_beam(row)
    places = [number("waist to lens", row[f"waist_to_lens{i}"]) for i in (1, 2, 3, 4)]
    f = focal_length(row["focal_length"])
    images = [image_of(raw, s, f) for s in places]
    answer = {f"spot{i}": image.beam.waist_diameter for i, image in enumerate(images, start=1)}
    answer |= {f"shift{i}": image.shift for i, image in enumerate(images, start=1)}
    return answer | widest_cone((raw, *(image.beam for image in images)))


def spread_of(raw, first, last, f):
    """Extremes over x from `first` to `last`; `raw` has a waist and a Rayleigh range."""
    zr = raw.rayleigh_range
    inside = [x for x in (mpf(0), -zr, zr) if first < x < last]
    spots, shifts = [], []
    with digits_of_any_travel():
        for x in (first, last, *inside):
            squared = f**2 / (x**2 + zr**2)
            spots.append(sqrt(squared) * raw.waist_diameter)
            shifts.append(squared * x)
        smallest, largest = min(spots), max(spots)
        return {
            "smallest_spot": smallest,
            "largest_spot": largest,
            "spot_ratio": largest / smallest,
            "least_focus_shift": min(shifts),
            "greatest_focus_shift": max(shifts),
            "focus_wander": max(shifts) - min(shifts),
        }


def images_in_model(wavelength, m2, spread):
    """The smallest spot has the widest cone; returns the beam that has it."""
    smallest = Beam(wavelength, m2, computed("waist diameter", spread["smallest_spot"]))
    computed_at_most("divergence half angle", smallest.half_angle)
    computed("waist diameter", spread["largest_spot"])
    return smallest


def farthest_number(value, nearest):
    _, _, greatest = PARAMETERS["farthest distance"]
    return number_within("farthest distance", value, float(nearest), greatest)


def gantry_spread(row):
    raw = checked_beam(row)
    nearest = number("nearest distance", row["nearest"])
    farthest = farthest_number(row["farthest"], nearest)
    f = number("focal length", row["focal_length"])
    with digits_of_any_travel():
        spread = spread_of(raw, nearest - f, farthest - f, f)
    return spread | widest_cone((raw, images_in_model(raw.wavelength, raw.m2, spread)))


def unevenness(c, a, b):
    """Largest over smallest squared diameter from a to b, in units of Z."""
    at = lambda x: (1 - c * x) ** 2 + x**2
    waist = c / (1 + c**2)
    values = [at(x) for x in (a, b)] + ([at(waist)] if a < waist < b else [])
    return max(values) / min(values)


def roots(square, linear, constant):
    """Real roots of square x^2 + linear x + constant."""
    if square == 0:
        return [] if linear == 0 else [-constant / linear]
    inside = linear**2 - 4 * square * constant
    if inside < 0:
        return []
    return [(-linear + sign * sqrt(inside)) / (2 * square) for sign in (-1, 1)]


# In units of Z.
NO_TRAVEL = mpf(10) ** -100


def steepness(c, x):
    """How fast the beam's diameter changes at x, relative to itself."""
    return abs(x * (1 + c**2) - c) / ((1 - c * x) ** 2 + x**2)


def refuse_close_call(a, b, alike):
    """Whether the ends come out alike may hang on no last digit."""
    exceeds(abs(a + b), mpf(1))
    for c, _ in alike:
        exceeds(2 * max(abs(a), abs(b)) * abs(c), mpf(1))


def most_even(a, b):
    """The convergence in units of 1/Z, and whether it makes the ends alike."""
    alike = sorted(((c, 1) for c in roots(a + b, mpf(-2), a + b)), key=lambda c: abs(c[0]))
    refuse_close_call(a, b, alike)
    if b - a < NO_TRAVEL:
        # Any setting is even; the one that stays so the longest as the travel grows.
        settings = alike or [(1 / a + sign, 0) for sign in (-1, 1)]
        return min(settings, key=lambda c: abs(c[0]) if c[1] else steepness(c[0], a))
    least_at_an_end = [(1 / (2 * x), 0) for x in (a, b) if x != 0]
    stationary = [(c, 0) for c in roots(a * b, -(a + b), 1 - a * b)]
    waist_at_an_end = [(c, 0) for x in (a, b) for c in roots(x, mpf(-1), x)]
    tried = [*alike, *least_at_an_end, *stationary, *waist_at_an_end]
    least = min(unevenness(c, a, b) for c, _ in tried)
    # Over a travel of next to nothing many are alike to all digits: then the first, the slighter one.
    found = next(c for c in tried if unevenness(c[0], a, b) <= least * (1 + mpf(10) ** -60))
    # Nothing beside it is more even.
    for nudge in (mpf(10) ** -12, -mpf(10) ** -12):
        assert unevenness(found[0] + nudge, a, b) >= unevenness(found[0], a, b) * (1 - mpf(10) ** -40)
    return found


def even_out_gantry(row):
    raw = checked_beam(row)
    before = number("waist to expander", row["waist_to_expander"])
    m = number("expander magnification", row["magnification"])
    _, _, far = PARAMETERS["nearest distance"]
    nearest = number_within("nearest distance", row["nearest"], 0.0, far)
    farthest = farthest_number(row["farthest"], nearest)
    f = number("focal length", row["focal_length"])
    with digits_of_any_travel():
        at_expander = plane_of(raw, before)
        z = pi * (m * at_expander.diameter) ** 2 / (4 * raw.m2 * raw.wavelength)
        a, b = nearest - f, farthest - f
        relative, alike = most_even(a / z, b / z)
        exit_power = relative / z + at_expander.curvature / m**2
        expanded = behind_expander(raw, before, m, exit_power)
        computed_at_most("divergence half angle", expanded.half_angle)
        computed("waist diameter", expanded.waist_diameter)
        # Ends that are alike lie alike on both sides of the waist.
        to_waist = (a + b) / 2 if alike else expanded.to_waist
        spread = spread_of(expanded, a - to_waist, b - to_waist, f)
    beam = Beam(raw.wavelength, raw.m2, expanded.waist_diameter)
    cone = widest_cone((raw, beam, images_in_model(raw.wavelength, raw.m2, spread)))
    return {
        "exit_power": exit_power,
        "even_waist_diameter": expanded.waist_diameter,
        "expander_to_waist": to_waist,
        "ends_equal": alike,
        **spread,
        **cone,
    }
