"""One job in, one verdict out: a round beam, a lens, a surface, and the drawing's finest details.

The surface reaches from `rise` above its datum to `fall` below it; focus is set `focus_z` from the
datum. Seen from the waist, + away from the lens, its highest place, datum and lowest place lie at

  -rise - focus_z        -focus_z        fall - focus_z
"""

from mpmath import ceil, mpf, nan

from checks import NEAR, TooClose, choice, computed, exceeds, number
from model_beam import checked_beam
from model_depth import criterion_number, depth_of_computed_beam, reach, symmetric
from model_detail import Details
from model_lens import focused_outputs, image_of

COLLIMATED, WAIST = 1, 2
FROM_DATUM, LENS_HEIGHT = 1, 2

DETAILS_AND_DEPTH, DETAILS_ONLY, DETAILS_LOST = 1, 2, 3

STROKE_TOO_FINE, GAP_TOO_FINE = 1, 2
STROKE_LOST = {"highest": 4, "lowest": 8}
GAP_FILLED = {"highest": 16, "lowest": 32}
NOT_IN_DEPTH = {"highest": 64, "lowest": 128}
NO_DEPTH = 256
BETTER_FOCUS_HELPS = 512
BETTER_FOCUS_SHARPENS = 1024

# With r = largest spot over waist, the offset goes as sqrt(r^2 - 1). Below this no row is drawn.
LEAST_ROOM = mpf(10) ** -6
DETAIL_ULP = 4


class Job:
    """A checked job: the focused beam, the heights of the surface and the wanted details."""

    def __init__(self, row):
        raw_beam = choice("raw beam", row["raw_beam"])
        setting = choice("focus setting", row["focus_setting"])
        self.criterion = choice("depth criterion", row["criterion"])
        if raw_beam == COLLIMATED:
            self.raw = checked_beam(row, "diameter_at_lens", "diameter at lens")
            self.s = mpf(0)
        else:
            self.raw = checked_beam(row)
            self.s = number("waist to lens", row["waist_to_lens"])
        self.f = number("focal length", row["focal_length"])
        self.image = image_of(self.raw, self.s, self.f)
        self.beam = self.image.beam
        # A virtual waist is no focus.
        self.lens_to_waist = computed("lens to waist", self.f + self.image.shift)
        if setting == FROM_DATUM:
            self.focus_z = number("focus z", row["focus_z"])
        else:
            surface = number("lens to surface", row["lens_to_surface"])
            self.focus_z = self.lens_to_waist - surface
        self.rise = number("surface rise", row["surface_rise"])
        # The surface lies behind the lens.
        computed("lens to highest place", self.lens_to_waist - self.focus_z - self.rise)
        self.fall = number("surface fall", row["surface_fall"])
        self.criterion_value = criterion_number(row, self.criterion)
        self.stroke = number("finest stroke", row["finest_stroke"])
        self.gap = number("finest gap", row["finest_gap"])
        self.details = Details(number("dose ratio", row["dose_ratio"]))

    def stroke_lost(self, diameter):
        return exceeds(self.details.bar * diameter, self.stroke)

    def gap_filled(self, diameter):
        return exceeds(self.details.gap * diameter, self.gap)

    def hold(self, diameter):
        # Both are asked, so that neither may be close to its limit.
        lost = [self.stroke_lost(diameter), self.gap_filled(diameter)]
        return not any(lost)

    def in_depth(self, z, half):
        if half is None:
            return False
        # At the waist itself, and for a range of zero, there is nothing to round.
        if z != 0 and abs(abs(z) - half) <= NEAR * half:
            raise TooClose
        return abs(z) <= half


def place_outputs(job, name, z, half):
    growth = job.beam.growth(z)
    diameter = job.beam.diameter(z)
    return {
        f"{name}_z_offset": z,
        f"{name}_diameter": diameter,
        f"{name}_growth": growth,
        f"{name}_irradiance_ratio": 1 / growth**2,
        f"{name}_line_dose_ratio": 1 / growth,
        f"{name}_smallest_stroke": diameter * job.details.bar,
        f"{name}_smallest_gap": diameter * job.details.gap,
        f"{name}_smallest_dot_diameter": diameter * job.details.dot,
        f"{name}_smallest_hole_diameter": diameter * job.details.hole,
        f"{name}_details_hold": int(job.hold(diameter)),
        f"{name}_in_depth": int(job.in_depth(z, half)),
    }


def range_outputs(name, half):
    """The two ends and the full range; all NaN where there is none."""
    ends = {key: nan for key in symmetric(0)} if half is None else symmetric(half)
    return {f"{name}_{key}": value for key, value in ends.items()}


def detail_range(job):
    """Half range on which the details hold, and the ulp allowed for it."""
    largest = job.details.largest_spot(job.stroke, job.gap)
    if exceeds(job.beam.waist_diameter, largest):
        return None, 0
    squared = (largest / job.beam.waist_diameter) ** 2
    if squared - 1 < LEAST_ROOM:
        raise TooClose
    return reach(job.beam, largest), DETAIL_ULP * int(ceil(squared / (squared - 1)))


def reasons_of(job, places, half, middle):
    best_diameter = job.beam.diameter(middle)
    reasons = 0
    if job.stroke_lost(job.beam.waist_diameter):
        reasons |= STROKE_TOO_FINE
    if job.gap_filled(job.beam.waist_diameter):
        reasons |= GAP_TOO_FINE
    for name in ("highest", "lowest"):
        diameter = job.beam.diameter(places[name])
        if job.stroke_lost(diameter):
            reasons |= STROKE_LOST[name]
        if job.gap_filled(diameter):
            reasons |= GAP_FILLED[name]
        if not job.in_depth(places[name], half):
            reasons |= NOT_IN_DEPTH[name]
    if half is None:
        reasons |= NO_DEPTH
    all_hold = all(job.hold(job.beam.diameter(z)) for z in places.values())
    room = exceeds(job.lens_to_waist, (job.rise + job.fall) / 2)
    if job.hold(best_diameter) and not all_hold and room:
        reasons |= BETTER_FOCUS_HELPS
    all_in_depth = all(job.in_depth(z, half) for z in places.values())
    if job.in_depth(middle, half) and not all_in_depth and room:
        reasons |= BETTER_FOCUS_SHARPENS
    return reasons


def focus_check(row):
    job = Job(row)
    half = depth_of_computed_beam(job.beam, job.criterion, job.criterion_value)
    places = {
        "highest": -job.rise - job.focus_z,
        "datum": -job.focus_z,
        "lowest": job.fall - job.focus_z,
    }
    middle = (job.rise + job.fall) / 2
    detail_half, detail_ulp = detail_range(job)
    answer = focused_outputs(job.raw, job.s, job.f, job.image)
    answer |= {"focus_z": job.focus_z}
    answer |= range_outputs("depth", half)
    answer |= range_outputs("detail", detail_half)
    for name, z in places.items():
        answer |= place_outputs(job, name, z, half)
    answer |= {
        "best_focus_z": (job.fall - job.rise) / 2,
        "best_worst_growth": job.beam.growth(middle),
        "validity": job.raw.validity | job.beam.validity,
        "reasons": reasons_of(job, places, half, middle),
        "outcome": outcome_of(answer),
    }
    for key in symmetric(0):
        answer[f"detail_{key}_ulp"] = detail_ulp
    return answer


def outcome_of(answer):
    names = ("highest", "datum", "lowest")
    if not all(answer[f"{name}_details_hold"] for name in names):
        return DETAILS_LOST
    if not all(answer[f"{name}_in_depth"] for name in names):
        return DETAILS_ONLY
    return DETAILS_AND_DEPTH
