"""A series of test pieces at stepped heights, planned; and what its repeats say.

Heights z0 + i s; s = 2 zR/5 and half range 2 zR + U for widths, zc/4 and 3 zc/2 + U for vanishing marks, where
zc = zR sqrt(q^(2/n) - 1). A step that follows from others is rounded to a double before it is used. A height may be
used where it and its approach, two backlashes outside of it against the sweep, keep clearance and travel.

Drift: change over its deviation is normal; the chance of one so great is 1 - erf(|x|/sqrt 2).
"""

import math

from mpmath import ceil, erfc, floor, mp, mpf, nan, nint, pi, sqrt

from checks import OUT_OF_RANGE, OUTSIDE_MODEL, Refused, TooClose, allowed, choice, exceeds, number, number_within
from model_beam import checked_beam

ROOM = 15
WIDTHS, VANISHING = 1, 2
PULSE = 1
AWAY, TOWARD = 1, 2
SWEEP, FIRST, LAST = 1, 2, 3
SLACK = mpf(10) ** -9
CHANCE_ULP = 3


def double(x):
    """The nearest double."""
    with mp.workprec(53):
        return mpf(x) + 0


def or_chosen(parameter, value):
    return None if value == 0.0 else number(parameter, value)


def or_endless(parameter, value):
    return mpf(value) if value == math.inf else number(parameter, value)


def needed(parts):
    """Whole parts that make up so many, but for one in 1e9."""
    x = parts * (1 - SLACK)
    if abs(x - nint(x)) <= mpf(10) ** -11 * max(1, x):
        raise TooClose
    return max(1, int(ceil(x)))


def nearest(x):
    if abs(x - floor(x) - mpf(1) / 2) < mpf(10) ** -9:
        raise TooClose
    return int(nint(x))


def fits(part, whole):
    """But for one in 1e9."""
    if part == whole or whole == mp.inf:
        return True
    limit = whole * (1 + SLACK)
    if abs(part - limit) <= mpf(10) ** -12 * (abs(part) + abs(limit)):
        raise TooClose
    return part <= limit


def plan_series(row):
    purpose = choice("purpose of a series", row["purpose"])
    if purpose == VANISHING:
        choice("mark kind", row["mark_kind"])
    direction = choice("direction of the sweep", row["sweep_direction"])
    beam = checked_beam(row)
    zr = beam.rayleigh_range
    zc = None
    if purpose == VANISHING:
        q = number("dose ratio", row["dose_ratio"])
        zc = zr * sqrt(q - 1 if row["mark_kind"] == PULSE else q**2 - 1)
    z0 = number("focus z", row["expected_focus_z"])
    uncertainty = number("set-up tolerance", row["focus_uncertainty"])
    step = or_chosen("step of a series", row["series_step"])
    half_range = or_chosen("half range of a series", row["series_half_range"])
    axis_step = or_chosen("smallest step of the axis", row["axis_step"])
    backlash = number("backlash of the axis", row["backlash"])
    clearance = number("working distance", row["clearance"])
    head_room = clearance - number("least clearance", row["least_clearance"])
    travel = {
        TOWARD: or_endless("travel of the axis", row["travel_toward_lens"]),
        AWAY: or_endless("travel of the axis", row["travel_away_from_lens"]),
    }
    sizes = [
        number("size of a test piece or label", row[name])
        for name in ("piece_width", "piece_height", "label_width", "label_height")
    ]
    width, height, label_width, label_height = sizes
    gap = number("gap between test pieces", row["piece_gap"])
    cell = max(width, label_width)
    if row["row_width"] != math.inf:
        number_within("width of a row of test pieces", row["row_width"], cell, 1e3)

    if step is None:
        step = double(2 * zr / 5 if zc is None else zc / 4)
    if axis_step is not None:
        step = double(max(nearest(step / axis_step), 1) * axis_step)
    outside("step of a series", step, 1e-9, 1e3)
    if half_range is None:
        half_range = (2 * zr if zc is None else 3 * zc / 2) + uncertainty
    if exceeds(half_range / step * (1 - SLACK), mpf(120)):
        raise Refused(OUTSIDE_MODEL, "steps on either side")
    n = max(2, needed(half_range / step))
    for side in (-1, 1):
        outside("height of a test piece", z0 + side * n * step, -1e3, 1e3)

    sign = 1 if direction == AWAY else -1
    pre = 2 * backlash

    def reason_at(away):
        if not fits(-away, head_room):
            return 1
        if not fits(-away, travel[TOWARD]):
            return 2
        return 0 if fits(away, travel[AWAY]) else 3

    def reason(i):
        return reason_at(i * step) or (4 if reason_at(i * step - sign * pre) else 0)

    left = {}
    for side, name in ((-1, "steps left toward the lens"), (1, "steps left away from the lens")):
        left[side] = next((i for i in range(n) if reason(side * (i + 1))), n)
        if left[side] < 2:
            raise Refused(OUTSIDE_MODEL, name)

    within = zr / step * (1 + SLACK)
    if abs(within - nint(within)) < mpf(10) ** -11 * within:
        raise TooClose
    flank = min(max(int(floor(within)), 1), left[1])
    again = [0] if zc is not None else [0, flank]
    sweep = [sign * i for i in range(-n, n + 1)]
    entries = [(i, FIRST) for i in again] + [(i, SWEEP) for i in sweep] + [(i, LAST) for i in again]
    if len(entries) > ROOM:
        raise TooClose  # no room in a row
    engraved = sum(1 for i, _ in entries if not reason(i))
    columns = engraved
    if row["row_width"] != math.inf:
        quotient = (mpf(row["row_width"]) + gap) / (cell + gap) * (1 + SLACK)
        if abs(quotient - nint(quotient)) < mpf(10) ** -11 * quotient:
            raise TooClose
        columns = min(engraved, max(1, int(floor(quotient))))
    rows = -(-engraved // columns)
    pitch_x, pitch_y = cell + gap, height + label_height + 2 * gap

    answer = {
        "step": step,
        "steps_per_side": n,
        "half_range": n * step,
        "steps_toward_lens": left[-1],
        "steps_away_from_lens": left[1],
        "pieces": len(entries),
        "engraved": engraved,
        "pre_travel": pre,
        "rayleigh_range": zr,
        "vanishing_offset": nan if zc is None else zc,
        "columns": columns,
        "rows": rows,
        "width": columns * pitch_x - gap,
        "height": rows * pitch_y - gap,
        "half_angle": beam.half_angle,
        "validity": beam.validity,
    }
    place, before = 0, None
    for k in range(ROOM):
        names = [f"piece{k + 1}_{what}" for what in PIECE]
        if k >= len(entries):
            answer |= dict(zip(names, (nan, nan, 0, 0, nan, nan, nan, nan)))
            continue
        i, role = entries[k]
        z, why = z0 + i * step, reason(i)
        if why:
            answer |= dict(zip(names, (z, nan, role, why, nan, nan, nan, nan)))
            continue
        approach = before if role == SWEEP and before is not None else z - sign * pre
        before = double(z) if role == SWEEP else None
        x, y = (place % columns) * pitch_x, (rows - 1 - place // columns) * pitch_y
        corners = (x + (cell - width) / 2, y + label_height + gap, x + (cell - label_width) / 2, y)
        answer |= dict(zip(names, (z, approach, role, 0, *corners)))
        place += 1
    return answer


PIECE = ("z", "approach_z", "role", "skipped", "x", "y", "label_x", "label_y")


def outside(parameter, value, least, greatest):
    if exceeds(value, mpf(greatest)) or (value != least and not exceeds(value, mpf(least))):
        raise Refused(OUTSIDE_MODEL, parameter)


def series_drift(row):
    first = number("mark width", row["first_width"])
    first_deviation = number("width deviation", row["first_deviation"])
    last = number("mark width", row["last_width"])
    last_deviation = number("width deviation", row["last_deviation"])
    p = number("coverage probability", row["coverage_probability"])
    deviation = sqrt(first_deviation**2 + last_deviation**2)
    x = (last - first) / deviation
    chance = erfc(abs(x) / sqrt(mpf(2)))
    return {
        "change": last - first,
        "change_deviation": deviation,
        "significance": x,
        "chance": chance,
        "drifted": int(not exceeds(chance, 1 - p)),
        "chance_ulp": allowed(CHANCE_ULP, 1 + x**2),
    }
