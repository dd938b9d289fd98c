"""One job in, one verdict out: a round beam, a lens, a surface, and the drawing's finest details.

The surface reaches from `rise` above its datum to `fall` below it; focus is set `focus_z` from the
datum. Seen from the waist, + away from the lens, its highest place, datum and lowest place lie at

  -rise - focus_z        -focus_z        fall - focus_z

With a real lens the waist is the place of the least 86.5 % diameter, and the beam is the one that has
this diameter there.
"""

from mpmath import ceil, mpf, nan

from checks import (
    NEAR,
    TooClose,
    choice,
    clear_aperture,
    computed,
    computed_at_most,
    exceeds,
    number,
)
from model_beam import Beam, checked_beam, widest_cone
from model_depth import criterion_number, depth_of_computed_beam, reach, symmetric
from model_detail import Details
from model_expander import behind_expander
from model_glass import glass_wavelength, index_and_dispersion
from model_lens import focused_outputs, image_of
from model_singlet import REAL_OUTPUTS, RealFocus, Singlet, checked_shape_factor

COLLIMATED, WAIST, EXPANDED = 1, 2, 3
FROM_DATUM, LENS_HEIGHT = 1, 2
IDEAL, SINGLET = 1, 2

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


def expanded_beam(row):
    """The beam that an expander sends to the lens, from its waist to the lens, and the beam before it."""
    raw = checked_beam(row)
    before = number("waist to expander", row["waist_to_expander"])
    m = number("expander magnification", row["magnification"])
    power = number("exit power", row["exit_power"])
    to_lens = number("expander to lens", row["expander_to_lens"])
    expanded = behind_expander(raw, before, m, power)
    computed_at_most("divergence half angle", expanded.half_angle)
    computed("waist diameter", expanded.waist_diameter)
    s = to_lens - expanded.to_waist
    computed_at_most("waist to lens", abs(s))
    return Beam(raw.wavelength, raw.m2, expanded.waist_diameter), s, raw


def checked_singlet(row, glass, shape, f):
    """A lens whose index is that of its glass, and its aperture."""
    n, _ = index_and_dispersion(glass, glass_wavelength(glass, "wavelength", row["wavelength"]))
    given = checked_shape_factor(row, shape)
    aperture = clear_aperture(row["clear_aperture"])
    return Singlet(n, shape, given, f), aperture


class Job:
    """A checked job: the focused beam, the heights of the surface and the wanted details."""

    def __init__(self, row, as_ideal=False):
        """`as_ideal` asks what an ideal lens would have promised for a job with a real one."""
        raw_beam = choice("raw beam", row["raw_beam"])
        setting = choice("focus setting", row["focus_setting"])
        self.criterion = choice("depth criterion", row["criterion"])
        lens_kind = choice("lens kind", row["lens"])
        if lens_kind == SINGLET:
            glass = choice("glass", row["glass"])
            shape = choice("lens shape", row["lens_shape"])
        # Every beam whose cone counts; an expander has one before it.
        self.before_lens = []
        if raw_beam == COLLIMATED:
            self.raw = checked_beam(row, "diameter_at_lens", "diameter at lens")
            self.s = mpf(0)
        elif raw_beam == WAIST:
            self.raw = checked_beam(row)
            self.s = number("waist to lens", row["waist_to_lens"])
        else:
            self.raw, self.s, first = expanded_beam(row)
            self.before_lens.append(first)
        self.f = number("focal length", row["focal_length"])
        self.real = None
        if lens_kind == SINGLET:
            self.real = RealFocus(self.raw, self.s, *checked_singlet(row, glass, shape, self.f))
        self.image = image_of(self.raw, self.s, self.f)
        self.beam = self.image.beam
        lens_to_waist = self.f + self.image.shift
        self.ideal = widest_cone((*self.before_lens, self.raw, self.beam))
        self.validity = self.ideal["validity"]
        if self.real:
            self.validity |= self.real.validity
            if not as_ideal:
                computed("lens to waist", lens_to_waist)
                self.real.demand_power86()
                spot = self.real.power86
                self.beam = Beam(self.raw.wavelength, spot["m2"], spot["waist_diameter"])
                lens_to_waist = spot["lens_to_waist"]
        # A virtual waist is no focus.
        self.lens_to_waist = computed("lens to waist", lens_to_waist)
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
    places = places_of(job)
    middle = (job.rise + job.fall) / 2
    detail_half, detail_ulp = detail_range(job)
    answer = focused_outputs(job.raw, job.s, job.f, job.image)
    answer |= {"half_angle": job.ideal["half_angle"], "focus_z": job.focus_z}
    answer |= range_outputs("depth", half)
    answer |= range_outputs("detail", detail_half)
    for name, z in places.items():
        answer |= place_outputs(job, name, z, half)
    answer |= {
        "best_focus_z": (job.fall - job.rise) / 2,
        "best_worst_growth": job.beam.growth(middle),
        "validity": job.validity,
        "reasons": reasons_of(job, places, half, middle),
        "outcome": outcome_of(answer),
        "promised": outcome_of(answer),
    }
    for key in REAL_OUTPUTS:
        answer[f"real_{key}"] = nan
    if job.real:
        answer |= {f"real_{key}": value for key, value in job.real.outputs().items()}
        # A beam before an expander counts here too.
        answer["real_half_angle"] = max(job.ideal["half_angle"], job.real.half_angle)
        answer["promised"] = promised_outcome(Job(row, as_ideal=True))
    for key in symmetric(0):
        answer[f"detail_{key}_ulp"] = detail_ulp
    return answer


def places_of(job):
    return {
        "highest": -job.rise - job.focus_z,
        "datum": -job.focus_z,
        "lowest": job.fall - job.focus_z,
    }


def promised_outcome(job):
    """The outcome of the job with its lens taken for ideal."""
    half = depth_of_computed_beam(job.beam, job.criterion, job.criterion_value)
    # The detail range hangs on the same limits, and may not be close to them either.
    detail_range(job)
    answer = {}
    for name, z in places_of(job).items():
        answer |= place_outputs(job, name, z, half)
    return outcome_of(answer)


def outcome_of(answer):
    names = ("highest", "datum", "lowest")
    if not all(answer[f"{name}_details_hold"] for name in names):
        return DETAILS_LOST
    if not all(answer[f"{name}_in_depth"] for name in names):
        return DETAILS_ONLY
    return DETAILS_AND_DEPTH
