"""Focus or power: what a mark says against a good one, and the tests that settle it.

A mark of local dose ratio q under a spot grown by g is as wide as g sqrt(ln q); q = q0 rho/g^n, n being 2 for a pulse and 1
for a line. With width and depth over those of the good mark, B and D,
  logarithmic depth: ln q = D ln q0;  linear: q = 1 + D (q0 - 1)
  g = B sqrt(ln q0/ln q), rho = g^n q/q0, |z| = zR sqrt(g^2 - 1)
With the width alone and rho known, v = g^2 solves v (ln(q0 rho) - (n/2) ln v) = B^2 ln q0; with v = Q^(2/n) e^s, Q = q0 rho,
that is s e^s = -(2/n) B^2 ln q0 Q^(-2/n), so that s is W of it: the branch -1 before the widest mark (s = -1), 0 beyond.
The power stepped up by f: b2^2 - b1^2 = (d^2/2) ln f (Liu, Opt. Lett. 7, 196 (1982), from memory).
Three heights: a reading a + s F(z), F = -ln g or g^-n, is fitted through all three exactly.

Deviations by derivatives, taken here numerically; ranges by moving each measured number by k deviations, squares added,
where the equation has an end within reach.
"""

from functools import lru_cache

from mpmath import diff, erfinv, exp, findroot, inf, lambertw, log, mpf, nan, sqrt

from checks import OUT_OF_RANGE, OUTSIDE_MODEL, UNDETERMINED, Refused, TooClose, allowed, choice, computed, exceeds
from checks import number, number_within, PARAMETERS
from deferred import Deferred
from model_beam import Beam, checked_beam

LOGARITHMIC, LINEAR = 1, 2
PULSE, LINE = 1, 2
NOTHING, FOCUS, POWER, FOCUS_AND_POWER, FOCUS_OR_POWER, POWER_PERHAPS_FOCUS, NOT_AS_ASSUMED = range(1, 8)
NO_TEST, HEIGHTS_EITHER_SIDE, SOLID_PATCH, DOUBLE_POWER = range(1, 5)
SIDE, TWO_HEIGHTS, EITHER, MELT, POWER_OR_SPEED, INSENSITIVE = 1, 2, 4, 8, 16, 32
WITHIN, TOWARD_LENS, AWAY_FROM_LENS, NO_DIFFERENCE, CONTRADICTION = range(1, 6)
ULP = 4
# A relative change too small to bend anything, and large against the digits carried.
TINY = mpf(10) ** -25
HEIGHT = ("growth", "offset", "least_offset", "greatest_offset")


def relative(parameter, value, value_of):
    """A deviation of at most 0.3 of what it belongs to."""
    _, least, greatest = PARAMETERS[parameter]
    bound = mpf(3) / 10 * value_of
    if value == value and abs(value) != inf and exceeds(mpf(value), bound):
        number(parameter, value)
        raise Refused(OUT_OF_RANGE, parameter)
    return number_within(parameter, value, least, greatest)


def width(row, name="width"):
    value = number("mark width", row[name])
    return value, relative("width deviation", row[f"{name}_deviation"], value)


def depth(row, name):
    value = number("depth of the mark", row[name])
    return value, relative("depth deviation", row[f"{name}_deviation"], value)


def dose(row):
    q = number("dose ratio", row["dose_ratio"])
    return q, relative("deviation of the dose ratio", row["dose_ratio_deviation"], log(q))


def good_mark(row):
    return (row["mark_kind"], *dose(row), *width(row, "good_width"))


def coverage(row):
    p = number("coverage probability", row["coverage_probability"])
    return sqrt(2) * erfinv(p)


def exponent(kind):
    return mpf(2 if kind == PULSE else 1)


def depths(row):
    return depth(row, "good_depth") + depth(row, "depth")


def over(a, b):
    """Of (value, deviation) of both, the ratio and the deviation of its logarithm."""
    return a[0] / b[0], sqrt((a[1] / a[0]) ** 2 + (b[1] / b[0]) ** 2)


def log_dose(law, log_good, ratio):
    return ratio * log_good if law == LOGARITHMIC else log(1 + ratio * (exp(log_good) - 1))


def in_model(parameter, value, least=None):
    """As `computed`, without a threshold where the value cannot be less."""
    _, low, high = PARAMETERS[parameter]
    if exceeds(value, mpf(high)) or (least is not None and not exceeds(value, mpf(least))):
        raise Refused(OUTSIDE_MODEL, parameter)


def offset(zr, growth):
    return zr * sqrt(growth**2 - 1) if growth != 1 and exceeds(growth, mpf(1)) else mpf(0)


def with_ulp(work, numbers, names, extra=lambda n: 0):
    """The answer of `work`; with the ulp allowed for each of these outputs once its row is kept."""
    answer = work(numbers)

    def ulps():
        change = {name: mpf(0) for name in names}
        for key, value in numbers.items():
            if value == 0:
                continue
            moved = work(numbers | {key: value * (1 + TINY)})
            for name in names:
                was, now = answer[name], moved[name]
                if was == was and was != 0:
                    change[name] += abs((now - was) / was) / TINY
        factors = {name: 1 + change[name] + extra(numbers) for name in names}
        return {f"{name}_ulp": allowed(ULP, factors[name]) if answer[name] == answer[name] else 0 for name in names}

    return Deferred(answer, ulps)


def beam_numbers(beam):
    return {"wavelength": beam.wavelength, "m2": beam.m2, "waist": beam.waist_diameter}


def beam_of(n):
    return Beam(n["wavelength"], n["m2"], n["waist"])


def test_of(focus):
    return HEIGHTS_EITHER_SIDE if focus else NO_TEST


def cause_of(focus, power):
    return {(0, 0): NOTHING, (1, 0): FOCUS, (0, 1): POWER, (1, 1): FOCUS_AND_POWER}[bool(focus), bool(power)]


MARK_NUMBERS = (
    "growth growth_deviation offset least_offset greatest_offset power_ratio power_ratio_deviation least_power_ratio"
    " greatest_power_ratio correlation dose_ratio"
).split()


def diagnose_mark(row):
    kind = choice("mark kind", row["mark_kind"])
    law = choice("depth law", row["depth_law"])
    beam = checked_beam(row)
    _, q, sq, gw, sgw = good_mark(row)
    gd, sgd, d, sd = depths(row)
    w, sw = width(row)
    k = coverage(row)
    n = exponent(kind)

    def work(v):
        ratio, s_ratio = over((v["w"], v["sw"]), (v["gw"], v["sgw"]))
        deep, s_deep = over((v["d"], v["sd"]), (v["gd"], v["sgd"]))
        at = [log(ratio), log(deep), log(v["q"])]
        spread = [s_ratio, s_deep, v["sq"]]

        def log_growth(x, y, z):
            return x + log(z / log_dose(law, z, exp(y))) / 2

        def log_power(x, y, z):
            return n * log_growth(x, y, z) + log_dose(law, z, exp(y)) - z

        here = log_dose(law, at[2], deep)
        in_model("any dose ratio", exp(here))
        growth = exp(log_growth(*at))
        in_model("growth ratio", growth)
        power = exp(log_power(*at))
        units = ((1, 0, 0), (0, 1, 0), (0, 0, 1))
        g = [diff(log_growth, tuple(at), unit) * s for unit, s in zip(units, spread)]
        p = [diff(log_power, tuple(at), unit) * s for unit, s in zip(units, spread)]
        sg, sp = (sqrt(sum(part**2 for part in parts)) for parts in (g, p))
        low, high = growth * exp(-v["k"] * sg), growth * exp(v["k"] * sg)
        p_low, p_high = power * exp(-v["k"] * sp), power * exp(v["k"] * sp)
        focus, narrow = exceeds(low, mpf(1)), exceeds(mpf(1), high)
        changed = exceeds(p_low, mpf(1)) or exceeds(mpf(1), p_high)
        wide = exceeds(ratio, exp(v["k"] * s_ratio))
        zr = beam_of(v).rayleigh_range
        return {
            "cause": NOT_AS_ASSUMED if narrow else cause_of(focus, changed),
            "further_test": DOUBLE_POWER if narrow else test_of(focus),
            "ambiguities": SIDE * focus | MELT * wide | POWER_OR_SPEED * (changed and not narrow),
            "growth": growth,
            "growth_deviation": sg,
            "offset": offset(zr, growth),
            "least_offset": offset(zr, low),
            "greatest_offset": offset(zr, high),
            "power_ratio": power,
            "power_ratio_deviation": sp,
            "least_power_ratio": p_low,
            "greatest_power_ratio": p_high,
            "correlation": sum(a * b for a, b in zip(g, p)) / (sg * sp),
            "dose_ratio": exp(here),
        }

    numbers = beam_numbers(beam) | {
        "q": q, "sq": sq, "gw": gw, "sgw": sgw, "gd": gd, "sgd": sgd, "d": d, "sd": sd, "w": w, "sw": sw, "k": k
    }  # fmt: skip
    return with_ulp(work, numbers, MARK_NUMBERS, lambda v: log(v["q"])) | beam.cone


# A width alone


@lru_cache(maxsize=4096)
def heights(n, log_ratio, log_good, log_power):
    """ln v before and beyond the widest mark, of the nearest width that has them; v is the square of the growth."""
    log_q = log_good + log_power
    if log_q < mpf(10) ** -6:
        log_q = mpf(10) ** -6
    c = 2 * log_q / n
    target = exp(2 * log_ratio) * log_good  # of v (ln Q - (n/2) ln v)
    in_focus = log_q
    # -(2/n) B^2 ln q0 Q^(-2/n), not below -1/e
    argument = -2 / n * target * exp(-c)
    too_wide = c > 1 and -argument >= exp(-1) or c <= 1 and target >= in_focus
    if too_wide:
        near = far = max(c - 1, mpf(0))
    else:
        far = c + lambertw(argument, 0).real
        near = c + lambertw(argument, -1).real if c > 1 and target > in_focus else mpf(0)
    if c <= 1:
        near = mpf(0)
    widest = (c - 1) - log(c) if c > 1 else mpf(0)
    beta = 2 * log_ratio + log(log_good / log_q)
    return {"near": near, "far": far, "beta": beta, "excess": beta - widest, "c": c}


def spread(of, middle, moved):
    """(least, middle, greatest): squares of what each move makes, down and up."""
    m = of(middle)
    down = up = mpf(0)
    for pair in moved:
        values = [of(one) for one in pair]
        down += max(m - min(values), 0) ** 2
        up += max(max(values) - m, 0) ** 2
    return m - sqrt(down), m, m + sqrt(up)


def close(a, b):
    """a > b, for numbers of about 1 that are not close."""
    if abs(a - b) < mpf(10) ** -9:
        raise TooClose
    return a > b


def explained_by(n, zr, middle, moved):
    """Whether a height explains a width, whether it is not that in focus, both heights, and whether it would show."""

    def of(name):
        return spread(lambda one: heights(n, *one)[name], middle, moved)

    excess, beta, near, far = of("excess"), of("beta"), of("near"), of("far")
    # Close to the widest mark the last digits of the width decide.
    for one in [middle, *[one for pair in moved for one in pair]]:
        found = heights(n, *one)
        if one is not middle or found["excess"] != 0:
            close(found["excess"], mpf(0))
    c = heights(n, *middle)["c"]
    explained = not close(excess[0], mpf(0))
    has_near = close(c, mpf(1)) and close(beta[2], mpf(0))
    changed = close(beta[0], mpf(0)) or close(mpf(0), beta[2])
    # Where the widest mark is within reach, the near height and the far one are one range.
    nearest = near if has_near and not close(excess[2], mpf(0)) else far

    def height(x):
        return {
            "growth": exp(x[1] / 2),
            "offset": offset(zr, exp(x[1] / 2)),
            "least_offset": offset(zr, exp(x[0] / 2)),
            "greatest_offset": offset(zr, exp(x[2] / 2)),
        }

    none = {name: nan for name in HEIGHT}
    return {
        "explained": explained,
        "changed": changed,
        "near": height(near) if explained and has_near else none,
        "far": height(far) if explained else none,
        "both": explained and has_near,
        "insensitive": not changed and close(nearest[2], log(mpf(5) / 4)),
    }


def prefixed(found):
    return {f"{side}_{name}": found[side][name] for side in ("near", "far") for name in HEIGHT}


WIDTH_NUMBERS = [f"{side}_{name}" for side in ("near", "far") for name in HEIGHT]
POWER_NUMBERS = ["power_ratio", "least_power_ratio", "greatest_power_ratio"]


def diagnose_width(row):
    kind = choice("mark kind", row["mark_kind"])
    beam = checked_beam(row)
    _, q, sq, gw, sgw = good_mark(row)
    w, sw = width(row)
    k = coverage(row)
    n = exponent(kind)
    most = log(mpf(10) ** 6)

    def work(v):
        ratio, s_ratio = over((v["w"], v["sw"]), (v["gw"], v["sgw"]))
        at, good = log(ratio), log(v["q"])
        middle = (at, good, mpf(0))
        moved = [
            [(at + way * v["k"] * s_ratio, good, mpf(0)) for way in (-1, 1)],
            [(at, good * exp(way * v["k"] * v["sq"] / good), mpf(0)) for way in (-1, 1)],
        ]
        found = explained_by(n, beam_of(v).rayleigh_range, middle, moved)

        def log_power(one):
            return min(exp(2 * one[0]) * one[1], most) - one[1]

        power = [exp(x) for x in spread(log_power, middle, moved)]
        known = not exceeds(exp(2 * at) * good, most)
        wide = exceeds(ratio, exp(v["k"] * s_ratio))
        explained, changed, insensitive = found["explained"], found["changed"], found["insensitive"]
        either = explained and changed
        if not explained:
            cause, test = POWER_PERHAPS_FOCUS, SOLID_PATCH
        elif changed:
            cause, test = FOCUS_OR_POWER, HEIGHTS_EITHER_SIDE
        else:
            cause, test = NOTHING, test_of(insensitive)
        flags = (SIDE | EITHER) * either | TWO_HEIGHTS * found["both"] | MELT * wide
        flags |= POWER_OR_SPEED * (not explained) | INSENSITIVE * insensitive
        return {
            "cause": cause,
            "further_test": test,
            "ambiguities": flags,
            "power_ratio": power[1] if known else nan,
            "least_power_ratio": power[0] if known else nan,
            "greatest_power_ratio": power[2] if known else nan,
        } | prefixed(found)

    numbers = beam_numbers(beam) | {"q": q, "sq": sq, "gw": gw, "sgw": sgw, "w": w, "sw": sw, "k": k}
    return with_ulp(work, numbers, WIDTH_NUMBERS + POWER_NUMBERS, lambda v: log(v["q"])) | beam.cone


def settle_by_patch(row):
    kind = choice("mark kind", row["mark_kind"])
    law = choice("depth law", row["depth_law"])
    beam = checked_beam(row)
    _, q, sq, gw, sgw = good_mark(row)
    gd, sgd, d, sd = depths(row)
    pq = number("dose ratio", row["patch_dose_ratio"])
    w, sw = width(row)
    k = coverage(row)
    n = exponent(kind)

    def work(v):
        ratio, s_ratio = over((v["w"], v["sw"]), (v["gw"], v["sgw"]))
        deep, s_deep = over((v["d"], v["sd"]), (v["gd"], v["sgd"]))
        at, good, in_patch = log(ratio), log(v["q"]), log(v["pq"])

        def log_power(depth_ratio, more):
            # Moved by its deviations, the dose inside the patch stays within the model.
            found = log_dose(law, in_patch + more, depth_ratio) - (in_patch + more)
            return found if close(log(mpf(10) ** 6) - in_patch, found) else log(mpf(10) ** 6) - in_patch

        in_model("any dose ratio", exp(log_dose(law, in_patch, deep)), 1e-6)
        rho = log_power(deep, mpf(0))
        in_model("dose ratio", exp(good + rho), 1.000001)
        by_dose = []
        for way in (-1, 1):
            moved_good = good * exp(way * v["k"] * v["sq"] / good)
            more = moved_good - good
            if close(-mpf("0.999") * in_patch, more):
                more = -mpf("0.999") * in_patch
            by_dose.append((at, moved_good, log_power(deep, more)))
        moved = [
            [(at + way * v["k"] * s_ratio, good, rho) for way in (-1, 1)],
            by_dose,
            [(at, good, log_power(deep * exp(way * v["k"] * s_deep), mpf(0))) for way in (-1, 1)],
        ]
        found = explained_by(n, beam_of(v).rayleigh_range, (at, good, rho), moved)
        logs = spread(lambda one: one[2], (at, good, rho), moved)
        power = [exp(x) for x in logs]
        power_changed = close(logs[0], mpf(0)) or close(mpf(0), logs[2])
        wide = exceeds(ratio, exp(v["k"] * s_ratio))
        explained, changed, insensitive = found["explained"], found["changed"], found["insensitive"]
        flags = SIDE * (explained and changed) | TWO_HEIGHTS * found["both"] | MELT * wide
        flags |= POWER_OR_SPEED * power_changed | INSENSITIVE * insensitive
        return {
            "cause": cause_of(changed, power_changed) if explained else NOT_AS_ASSUMED,
            "further_test": test_of(changed or insensitive) if explained else DOUBLE_POWER,
            "ambiguities": flags,
            "power_ratio": power[1],
            "least_power_ratio": power[0],
            "greatest_power_ratio": power[2],
        } | prefixed(found)

    numbers = beam_numbers(beam) | {
        "q": q, "sq": sq, "gw": gw, "sgw": sgw, "gd": gd, "sgd": sgd, "d": d, "sd": sd, "pq": pq, "w": w, "sw": sw, "k": k
    }  # fmt: skip
    return with_ulp(work, numbers, POWER_NUMBERS + WIDTH_NUMBERS, lambda v: log(v["q"]) + log(v["pq"])) | beam.cone


STEP_NUMBERS = (
    "spot_diameter spot_diameter_deviation growth offset least_offset greatest_offset dose_ratio power_ratio"
    " least_power_ratio greatest_power_ratio"
).split()


def settle_by_power(row):
    kind = choice("mark kind", row["mark_kind"])
    beam = checked_beam(row)
    q, sq = dose(row)
    f = number("power step", row["power_step"])
    w, sw = width(row)
    w2, sw2 = width(row, "stepped_width")
    k = coverage(row)
    n = exponent(kind)
    most = log(mpf(10) ** 6)

    def work(v):
        rise = v["w2"] ** 2 - v["w"] ** 2
        its = 2 * sqrt((v["w2"] * v["sw2"]) ** 2 + (v["w"] * v["sw"]) ** 2)
        if not exceeds(rise / its, mpf(3)):
            raise Refused(UNDETERMINED, "significance of the slope")
        step = log(v["f"])
        spot = sqrt(2 * rise / step)
        computed("spot diameter", spot)
        growth = spot / v["waist"]
        in_model("growth ratio", growth)
        here = v["w"] ** 2 * step / rise
        in_model("any dose ratio", exp(here))

        def log_power(a, b, log_good):
            apart = b**2 - a**2
            if not close(apart / (a * b), mpf(0)):
                return most - log_good
            return n * log(sqrt(2 * apart / step) / v["waist"]) + min(a**2 * step / apart, most) - log_good

        def moved(middle, s):
            return [middle - v["k"] * s, middle + v["k"] * s]

        a, b, good = v["w"], v["w2"], log(v["q"])
        ways = [
            [(x, b, good) for x in moved(a, v["sw"])],
            [(a, x, good) for x in moved(b, v["sw2"])],
            [(a, b, x) for x in moved(good, v["sq"])],
        ]
        logs = spread(lambda one: log_power(*one), (a, b, good), ways)
        less = rise - v["k"] * its
        low = sqrt(2 * less / step) / v["waist"] if close(less / rise, mpf(0)) else mpf(0)
        high = sqrt(2 * (rise + v["k"] * its) / step) / v["waist"]
        focus, small = exceeds(low, mpf(1)), exceeds(mpf(1), high)
        changed = close(logs[0], mpf(0)) or close(mpf(0), logs[2])
        zr = beam_of(v).rayleigh_range
        return {
            "cause": NOT_AS_ASSUMED if small else cause_of(focus, changed),
            "further_test": test_of(focus),
            "ambiguities": SIDE * focus | POWER_OR_SPEED * (changed and not small),
            "spot_diameter": spot,
            "spot_diameter_deviation": spot * its / rise / 2,
            "growth": growth,
            "offset": offset(zr, growth),
            "least_offset": offset(zr, low),
            "greatest_offset": offset(zr, high),
            "dose_ratio": exp(here),
            "power_ratio": exp(logs[1]),
            "least_power_ratio": exp(logs[0]),
            "greatest_power_ratio": exp(logs[2]),
        }

    numbers = beam_numbers(beam) | {"q": q, "sq": sq, "f": f, "w": w, "sw": sw, "w2": w2, "sw2": sw2, "k": k}
    return with_ulp(work, numbers, STEP_NUMBERS, lambda v: log(v["q"])) | beam.cone


PLACES = ["z_offset", "z_offset_deviation", "least_z_offset", "greatest_z_offset"]


def settle_by_heights(row):
    kind = choice("mark kind", row["mark_kind"])
    law = choice("depth law", row["depth_law"])
    beam = checked_beam(row)
    step = number("height step", row["height_step"])
    names = ("reading_toward_lens", "reading_in_middle", "reading_away_from_lens")
    before, middle, behind = (number("depth of the mark", row[name]) for name in names)
    deviation = number("depth deviation", row["reading_deviation"])
    k = coverage(row)
    n = exponent(kind)

    def work(v):
        clear = v["k"] * v["s"] * sqrt(2)
        scale = v["s"]
        toward, away = (close((x - v["m"] - clear) / scale, mpf(0)) for x in (v["b"], v["a"]))
        fall = 2 * v["m"] - v["b"] - v["a"]
        stands_out = close((fall - 3 * v["s"] * sqrt(6)) / scale, mpf(0))
        found = {name: nan for name in PLACES}
        if toward and away:
            return found | {"verdict": CONTRADICTION}
        if toward:
            return found | {"verdict": TOWARD_LENS, "least_z_offset": v["step"] / 2}
        if away:
            return found | {"verdict": AWAY_FROM_LENS, "greatest_z_offset": -v["step"] / 2}
        if not stands_out:
            return found | {"verdict": NO_DIFFERENCE}
        zr = beam_of(v).rayleigh_range

        def height_function(z):
            u = 1 + (z / zr) ** 2
            return -log(u) / 2 if law == LOGARITHMIC else u ** (-n / 2)

        def ratio(z):
            plus, here, minus = (height_function(z + way * v["step"]) for way in (1, 0, -1))
            return (plus - minus) / (2 * here - plus - minus)

        lean = (v["a"] - v["b"]) / fall
        if lean == 0:
            z = mpf(0)
        elif abs(lean) == 1 or close(abs(lean), mpf(1)):
            z = -v["step"] / 2 if lean > 0 else v["step"] / 2
        else:
            z = findroot(lambda x: ratio(x) - lean, (-v["step"] / 2, v["step"] / 2), solver="anderson", tol=mpf(10) ** -100)
        r = ratio(z)
        gradient = [(1 + r) / fall, (r - 1) / fall, -2 * r / fall]
        its = v["s"] * sqrt(sum(x**2 for x in gradient)) / abs(diff(ratio, z))
        places = [z, its, z - v["k"] * its, z + v["k"] * its]
        return {"verdict": WITHIN} | dict(zip(PLACES, places))

    numbers = beam_numbers(beam) | {"step": step, "b": before, "m": middle, "a": behind, "s": deviation, "k": k}
    return with_ulp(work, numbers, PLACES, lambda v: 0) | beam.cone
