"""Writes tests/tables/elementary.csv: the functions that the model takes from libm, over their whole range.

    python3 tests/reference/elementary.py > tests/tables/elementary.csv

Needs mpmath 1.4. Differences such as exp(x) - 1 are taken as they are defined, with digits to spare;
erf, erfc and j0, which are mpmath's own, are compared with their defining integrals at every tenth row.

`exponent` is the second argument of pow, else empty. An exact value is printed as the double nearest to
it, infinite from 2^1024 - 2^970 on, and what is left over, in units in the last place: those from the
nearest double to the next one away from zero, of 2^-1074 where the double is subnormal or zero. (As a
double of its own the rest would be lost where the value is subnormal.)
"""

import math
import random

import mpmath
from mpmath import mp, mpf

DIGITS = 50
# The smallest double is above 1e-324: so many digits may cancel.
GUARD = 330
PROVED = 10
LEAST, GREATEST = math.ulp(0.0), math.nextafter(math.inf, 0.0)
LEAST_NORMAL = 2.0**-1022
PI, LN2 = math.pi, math.log(2.0)

# Arguments near which usual implementations change over from one expression to another, or where results
# get subnormal, vanish, overflow or pass through zero. erfc gets subnormal at 26.543, less than half of
# 2^-1074 at 27.227; exp at -708.396 and -745.133, and overflows at 709.783; sinh at 710.476.
CHANGES = {
    "erf": [s * x for x in (2.0**-28, 0.84375, 1.25, 1.0 / 0.35, 6.0) for s in (-1, 1)],
    "erfc": [
        *(s * x for x in (2.0**-56, 0.84375, 1.25, 1.0 / 0.35, 6.0) for s in (-1, 1)),
        *(0.25, 0.5, 1.0, 26.5, 26.543, 26.615, 27.0, 27.2266, 28.0),
    ],
    "exp": [
        *(s * x for x in (2.0**-28, 0.5 * LN2, LN2, 1.5 * LN2, 10.5 * LN2) for s in (-1, 1)),
        *(708.4, 709.782712893384, -708.3964185322641, -744.4400719213812, -745.1332191019412),
    ],
    "expm1": [
        *(s * x for x in (2.0**-54, 2.0**-28, 0.25, 0.5 * LN2, LN2, 1.5 * LN2, 19.5 * LN2) for s in (-1, 1)),
        *(20.5 * LN2, 56.0 * LN2, 56.5 * LN2, 709.782712893384, -53.0 * LN2, -56.0 * LN2),
    ],
    "log": [1.0, 0.5, 2.0, math.sqrt(0.5), math.sqrt(2.0), 1024.0, LEAST_NORMAL, 2.0**-1022 * math.sqrt(2.0)],
    "log1p": [
        *(s * x for x in (2.0**-53, 2.0**-29, 2.0**-20) for s in (-1, 1)),
        *(math.sqrt(2.0) - 1.0, math.sqrt(0.5) - 1.0, 1.0, -0.5, -0.25, 3.0, 2.0**53, 2.0**54),
    ],
    "sin": [s * k * PI / 4.0 for k in (1, 2, 3, 4, 5, 6, 7, 8, 9, 100, 710) for s in (-1, 1)] + [2.0**-26],
    "cos": [s * k * PI / 4.0 for k in (1, 2, 3, 4, 5, 6, 7, 8, 9, 100, 710) for s in (-1, 1)] + [2.0**-27],
    "atan": [s * x for x in (2.0**-27, 0.4375, 0.6875, 1.1875, 2.4375, 2.0**66) for s in (-1, 1)],
    "sinh": [
        *(s * x for x in (2.0**-26, 0.5 * LN2, 1.0, 18.0, 22.0) for s in (-1, 1)),
        *(709.782712893384, -709.782712893384, 710.4758600739439, -710.4758600739439),
    ],
    "j0": [
        *(2.0**-127, 2.0**-13, 2.0, 2.857, 4.5454, 8.0, 2.0**25),
        *(float(mpmath.besseljzero(0, n)) for n in (1, 2, 3, 10, 50)),
    ],
}

# The hardest of 1.5 million arguments for each function, drawn once much as below and tried on libm 0.2.16:
# three for each branch. They keep the table from flattering. Nothing but these arguments comes from libm.
HARD = {
    "erf": [
        *(-1.0188661168240764e-07, 6.390620525262466e-06, 0.001490642622213979),
        *(-0.8456293993587759, 0.8468419802355055, -0.8494406259318517),
        *(1.2538012398157499, 1.2787479475661068, 1.296796630045926),
        *(4.610001459968253, -4.894627028375317, 5.640621523651968),
        *(1.235559370533111e-308, 8.94743242312796e-309, -8.325791671688654e-309),
    ],
    "erfc": [
        *(0.8310768289510881, 0.8377437382988807, 0.8400652352734552),
        *(1.2259004243240101, 1.2314115082367207, 1.2254763163210036),
        *(1.539831757161298, 1.3635000949977207, 1.3244836450961093),
        *(19.165451381922928, 18.652806455366747, 16.942159411129538),
        *(-0.7905043424748737, -0.8407480666150153, -0.7443359173585753),
        *(26.545435023950507, 26.54403814844844, 26.543419576982043),
    ],
    "exp": [
        *(33.626399488235165, -4.497181784612195, -12.796486442819706),
        *(-708.3978855232463, -709.0602023606154, -708.3968948271796),
    ],
    "expm1": [0.3575379241242811, 0.3491126431995586, 0.356933560944382],
    "log": [1.4040632896890648, 1.413543668330168, 1.4044098558415612],
    "log1p": [0.41286519200890426, 0.4031074622387666, -0.2962814396621265],
    "sin": [
        *(426.39627993629, -58.894730389126536, -3.942208787175309),
        *(-2.0619141077122598e176, -2.2957596025610737e113, -3.3776219108159493e55),
    ],
    "cos": [
        *(-195.49742856252183, 657.3685939299695, 7.0433087967833234),
        *(-7.371048680026102e56, 2.4096400830887728e222, -8.527047076403272e170),
    ],
    "atan": [
        *(-0.4318059638378528, 0.43228848585612939, -0.67796911998571718, -0.6840785273464618),
        *(-0.72830162647214369, -0.70485345049713122, -2.4244487361044778, 2.3819437884982664),
        *(-2.6387011076028881, 3.5329770158013885),
    ],
    "sinh": [0.7106932881614281, -0.7015973451749422, 0.4541381586967532],
    "j0": [
        *(1.9939133898975845, 1.9850348227389165, 1.9695382364987295),
        *(51.05804694581724, 41.75174284415196, 54.40441953484122),
        *(706752.7676101108, 11757587.187595109, 49392.6877388763),
    ],
    "pow": [
        *((0.40064956191694534, 143.56047234006735), (3.174008522320121e121, -0.2910256152281445)),
        *((9.06618165524659, -231.55945325964845), (7.011472637041847, -363.7650733352883)),
        *((1.23857880823469e-18, 17.193980226477823), (6.211096095016721, -387.88845636838016)),
    ],
}


def value(function, x, exponent):
    """The function of these doubles, by its definition."""
    x = mpf(x)
    if function in ("erf", "erfc", "sin", "cos", "atan", "exp", "log"):
        return getattr(mpmath, function)(x)
    if function == "j0":
        return mpmath.besselj(0, x)
    with mp.workdps(DIGITS + GUARD):
        if function == "expm1":
            found = mpmath.exp(x) - 1
        elif function == "log1p":
            found = mpmath.log(1 + x)
        elif function == "sinh":
            found = (mpmath.exp(x) - mpmath.exp(-x)) / 2
        else:
            found = mpmath.exp(mpf(exponent) * mpmath.log(x))
    return +found


def integral(function, x):
    """erf, erfc and J0 by the integrals that define them."""
    x = mpf(x)
    if function == "erf":
        # With t = xu: quad judges its error absolutely, and the integral from 0 to 1 is never small.
        mean = mpmath.quad(lambda u: mpmath.exp(-((x * u) ** 2)), mpmath.linspace(0, 1, 9))
        return 2 / mpmath.sqrt(mp.pi) * x * mean
    if function == "erfc":
        if x < 0:
            return 2 - integral("erfc", -x)
        # Shifted to begin at 0, so that the factor exp(-x^2) stands before it.
        ends = [mpf(k) * 12 / 8 for k in range(9)]
        tail = mpmath.quad(lambda t: mpmath.exp(-t * (t + 2 * x)), ends)
        return 2 / mpmath.sqrt(mp.pi) * mpmath.exp(-x * x) * tail
    # (1/pi) times the integral of cos(x sin t) from 0 to pi, periodic and smooth: the trapezoidal sum gains a
    # digit with each few points once there are more of them than x.
    count = 80 + int(2 * x)
    return mpmath.fsum(mpmath.cos(x * mpmath.sin(mp.pi * k / count)) for k in range(count)) / count


def prove(function, x, found):
    if function not in ("erf", "erfc", "j0") or function == "j0" and x > 200.0:
        return
    if function == "erf" and abs(x) > 8.0 or function == "erfc" and abs(x) > 30.0:
        return
    error = abs(integral(function, x) - found)
    scale = 1 if function == "j0" else abs(found)
    assert error < scale * mpf(10) ** (10 - DIGITS), (function, x, error)


def nearest_and_rest(x):
    """The nearest double, ties to even, and the rest in units in the last place."""
    if x == 0:
        return 0.0, mpf(0)
    _, exponent = mpmath.frexp(x)
    unit = max(exponent - 53, -1074)
    scaled = mpmath.ldexp(x, -unit)
    whole = mpmath.nint(scaled)
    if unit + 53 >= 1024 and abs(whole) >= 2**53 or unit + 53 > 1024:
        return math.copysign(math.inf, x), mpf(0)
    rest = scaled - whole
    # Rounded up to a power of two, above which the doubles lie twice as far apart.
    return math.ldexp(int(whole), unit), rest / 2 if abs(whole) == 2**53 else rest


def near(middle, draw):
    """Doubles about a change: its neighbours, and some farther off."""
    below = above = middle
    found = {middle}
    for _ in range(3):
        below, above = math.nextafter(below, -math.inf), math.nextafter(above, math.inf)
        found |= {below, above}
    for sign in (-1, 1):
        for least in (-15.0, -9.0, -3.0):
            found.add(middle * (1.0 + sign * 10.0 ** draw.uniform(least, least + 2.0)))
    return found


def tiny(draw):
    """Arguments next to zero, of both signs, and the ends of the subnormal range."""
    found = {LEAST, LEAST_NORMAL, math.nextafter(LEAST_NORMAL, 0.0), 3 * LEAST}
    found |= {10.0 ** draw.uniform(-323.0, -308.0) for _ in range(15)}
    found |= {10.0 ** draw.uniform(-308.0, -20.0) for _ in range(20)}
    found |= {10.0 ** draw.uniform(-20.0, -1.0) for _ in range(60)}
    return {draw.choice((-1, 1)) * x for x in sorted(found)}


def spread(draw, count, low, high):
    return {draw.uniform(low, high) for _ in range(count)}


def powers(draw, count, low, high):
    return {10.0 ** draw.uniform(low, high) for _ in range(count)}


def arguments(function, draw):
    found = set(HARD[function])
    for middle in CHANGES.get(function, ()):
        found |= near(middle, draw)
    if function == "erf":
        found |= tiny(draw) | spread(draw, 200, -1.3, 1.3) | spread(draw, 150, -6.1, 6.1)
        found |= {30.0, -1e10, GREATEST}
    elif function == "erfc":
        found |= tiny(draw) | spread(draw, 80, -6.1, 0.0) | spread(draw, 150, 0.0, 3.0)
        found |= spread(draw, 150, 2.8, 26.55) | spread(draw, 60, 26.5, 27.3)
        found |= {-30.0, 1e10, -GREATEST}
    elif function == "exp":
        found |= tiny(draw) | spread(draw, 150, -1.0, 1.0) | spread(draw, 100, -40.0, 40.0)
        found |= spread(draw, 150, -708.4, 709.8) | spread(draw, 60, -745.2, -708.3)
        found |= {-800.0, 800.0, -1e10, 1e10}
    elif function == "expm1":
        found |= tiny(draw) | spread(draw, 200, -1.2, 1.2) | spread(draw, 100, -42.0, 60.0)
        found |= spread(draw, 100, 39.0, 709.8) | {-800.0, 800.0, -1e10, 1e10}
    elif function == "log":
        found |= {abs(x) for x in tiny(draw)} | spread(draw, 150, 0.5, 2.0) | powers(draw, 100, -3.0, 3.0)
        found |= {1.0 + draw.choice((-1, 1)) * x for x in sorted(powers(draw, 100, -16.0, -1.0))}
        found |= powers(draw, 100, -307.0, 308.0) | {GREATEST}
    elif function == "log1p":
        found |= tiny(draw) | spread(draw, 150, -0.999, 1.0) | powers(draw, 80, -1.0, 4.0)
        found |= {x - 1.0 for x in powers(draw, 100, -15.0, -1.0)} | {math.nextafter(-1.0, 0.0)}
        found |= powers(draw, 60, 0.0, 308.0) | {GREATEST}
    elif function in ("sin", "cos"):
        found |= {x for x in tiny(draw) if abs(x) > 1e-20} | spread(draw, 120, -10.0, 10.0)
        found |= spread(draw, 80, -1e3, 1e3) | powers(draw, 50, 0.0, 6.0) | powers(draw, 50, 6.0, 308.0)
        found |= {GREATEST}
    elif function == "atan":
        found |= tiny(draw) | spread(draw, 250, -2.5, 2.5) | spread(draw, 60, -60.0, 60.0)
        found |= powers(draw, 60, 0.0, 22.0) | {-1e30, GREATEST}
    elif function == "sinh":
        found |= tiny(draw) | spread(draw, 150, -1.2, 1.2) | spread(draw, 100, -40.0, 40.0)
        found |= spread(draw, 100, -710.5, 710.5) | {-800.0, 800.0}
    elif function == "j0":
        found |= powers(draw, 40, -30.0, 0.0) | spread(draw, 120, 0.0, 2.1) | spread(draw, 120, 2.0, 60.0)
        found |= powers(draw, 80, 1.0, 4.0) | powers(draw, 60, 4.0, 12.0)
    else:
        # The exponents of the model with M squared as base; then any.
        for exponent in (-4.744, -4.692):
            bases = spread(draw, 60, 1.0, 20.0) | powers(draw, 60, 0.0, 4.0)
            bases |= {1.0 + x for x in powers(draw, 30, -15.0, -1.0)}
            found |= {(x, exponent) for x in bases}
        for x in sorted(powers(draw, 100, -300.0, 300.0) | powers(draw, 100, -1.0, 1.0)):
            # A result from underflow to overflow.
            found.add((x, draw.uniform(-745.0, 710.0) / math.log(x)))
    return sorted(x if isinstance(x, tuple) else (x, "") for x in found)


def main():
    mp.dps = DIGITS
    print("function,x,exponent,nearest,rest_ulp")
    for function in HARD:
        draw = random.Random(f"{function} 7")
        for number, (x, exponent) in enumerate(arguments(function, draw)):
            found = value(function, x, exponent)
            if number % PROVED == 0:
                prove(function, x, found)
            nearest, rest = nearest_and_rest(found)
            text = f"{float(rest):.4f}".rstrip("0").rstrip(".")
            print(f"{function},{x!r},{exponent},{nearest!r},{'0' if text == '-0' else text}")


if __name__ == "__main__":
    main()
