"""One job in, one verdict out: a round beam, a lens, a surface, and the drawing's finest details.

The surface reaches from `rise` above its datum to `fall` below it; focus is set `focus_z` from the
datum. Seen from the waist, + away from the lens, its highest place, datum and lowest place lie at

  -rise - focus_z        -focus_z        fall - focus_z

A surface with a shape reaches from `top` to `bottom` before that, in one stretch of heights or several, and its datum is
what of it lies nearest to z = 0; rise and fall are then not its own, and every band of it needs room for them.

With a real lens the waist is the place of the least 86.5 % diameter, and the beam is the one that has
this diameter there. The dose of a scan is that of model_dose with the spot of the waist; the ripple of its
lines is that of model_raster, the text that of model_text. Details, ripple and text go by the spot that the
material sees: in a melt heat spreads, as in model_material, while the spot dwells. Below a dose ratio of
1.000001 nothing marks.
"""

from mpmath import log, mpf, nan, pi, sqrt

from checks import (
    NEAR,
    TooClose,
    allowed,
    choice,
    clear_aperture,
    computed,
    computed_at_most,
    exceeds,
    number,
)
from model_beam import Beam, checked_beam, widest_cone
from model_crisp import ripple_contrast, ripple_ulp
from model_depth import criterion_number, depth_of_computed_beam, reach, symmetric
from model_detail import Details
from model_dose import doses
from model_expander import behind_expander
from model_glass import glass_wavelength, index_and_dispersion
from model_fill import LEAST_THAT_MARKS
from model_lens import focused_outputs, image_of
from model_material import LINEAR, LOGARITHMIC, MELT, heat_spread
from model_raster import greatest_and_least
from model_singlet import REAL_OUTPUTS, RealFocus, Singlet, checked_shape_factor
from model_singlet_focus import off_focus_flag
from model_text import LOST, Limits, checked_cut_offs, inverse_slope, room_factor, shares_of

COLLIMATED, WAIST, EXPANDED = 1, 2, 3
FROM_DATUM, LENS_HEIGHT = 1, 2
IDEAL, SINGLET = 1, 2
DOSE_RATIO, SCAN = 1, 2
NO_TEXT, TEXT = 1, 2

DETAILS_AND_DEPTH, DETAILS_ONLY, DETAILS_LOST, NO_MARK = 1, 2, 3, 4

STROKE_TOO_FINE, GAP_TOO_FINE = 1, 2
STROKE_LOST = {"highest": 4, "lowest": 8}
GAP_FILLED = {"highest": 16, "lowest": 32}
NOT_IN_DEPTH = {"highest": 64, "lowest": 128}
NO_DEPTH = 256
BETTER_FOCUS_HELPS = 512
BETTER_FOCUS_SHARPENS = 1024
TEXT_TOO_SMALL = 2048
TEXT_LOST = {"highest": 4096, "lowest": 8192}
FILL_HAS_GAPS = 16384
NOTHING_MARKS = 32768
BANDS_HELP = 65536

DETAIL_ULP = 4
TEXT_ULP = 4
DEPTH_ULP = 4
SCAN_OUTPUTS = ("line_dose", "fill_dose", "peak_irradiance", "dwell")
TEXT_SIZES = ("crisp_em", "good_em", "readable_em")


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


def choices_of(row):
    """The choices of a job, checked in order; None for what another choice leaves out."""
    chosen = {
        "raw_beam": choice("raw beam", row["raw_beam"]),
        "focus_setting": choice("focus setting", row["focus_setting"]),
        "criterion": choice("depth criterion", row["criterion"]),
        "dose": choice("dose of a job", row["dose"]),
    }
    chosen["response"] = choice("response", row["response"]) if chosen["dose"] == SCAN else None
    chosen["lens"] = choice("lens kind", row["lens"])
    is_singlet = chosen["lens"] == SINGLET
    chosen["glass"] = choice("glass", row["glass"]) if is_singlet else None
    chosen["lens_shape"] = choice("lens shape", row["lens_shape"]) if is_singlet else None
    chosen["text"] = choice("text of a job", row["text"])
    has_text = chosen["text"] == TEXT
    chosen["typeface"] = choice("typeface", row["typeface"]) if has_text else None
    chosen["least_grade"] = choice("text grade", row["least_grade"]) if has_text else None
    return chosen


class Job:
    """A checked job: the focused beam, the heights of the surface and the wanted details."""

    def __init__(self, row, as_ideal=False, stretches=None):
        """`as_ideal` asks what an ideal lens would have promised for a job with a real one; `stretches` are the
        ends of every stretch of heights that a shape has."""
        has_shape = stretches is not None
        stretches = stretches or [(mpf(0), mpf(0))]
        self.top, self.bottom = min(top for top, _ in stretches), max(bottom for _, bottom in stretches)
        chosen = choices_of(row)
        raw_beam, setting = chosen["raw_beam"], chosen["focus_setting"]
        self.criterion, self.dose, self.response = chosen["criterion"], chosen["dose"], chosen["response"]
        lens_kind, glass, shape = chosen["lens"], chosen["glass"], chosen["lens_shape"]
        self.has_text = chosen["text"] == TEXT
        typeface, self.least_grade = chosen["typeface"], chosen["least_grade"]
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
            self.validity |= self.real.validity | off_focus_flag(self.real)
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
        self.highest_z = self.top - self.rise
        computed("lens to highest place", self.lens_to_waist - self.focus_z + self.highest_z)
        self.fall = number("surface fall", row["surface_fall"])
        self.lowest_z = self.bottom + self.fall
        self.span = self.lowest_z - self.highest_z
        self.stretches = [(top - self.rise, bottom + self.fall) for top, bottom in stretches]
        self.lost_to_bands = self.rise + self.fall if has_shape else mpf(0)
        self.criterion_value = criterion_number(row, self.criterion)
        self.stroke = number("finest stroke", row["finest_stroke"])
        self.gap = number("finest gap", row["finest_gap"])
        self.interval = None
        self.scan = {name: nan for name in SCAN_OUTPUTS}
        # What heat adds to the square of a spot's diameter, over that diameter.
        self.heat = mpf(0)
        self.fill_depth, self.depth_ulp = nan, 0
        if self.dose == DOSE_RATIO:
            self.q = number("any dose ratio", row["dose_ratio"])
            self.marks = self.q >= LEAST_THAT_MARKS
        else:
            self.read_scan(row)
            self.marks = exceeds(self.q, LEAST_THAT_MARKS)
        self.details = Details(self.q) if self.marks else None
        if self.has_text:
            shares = shares_of(row, typeface)
            self.em = number("em", row["em"])
            cut_offs = checked_cut_offs(row)
            if self.marks:
                self.limits = Limits(self.q, shares, *cut_offs, dose_is_computed=self.dose == SCAN)

    def read_scan(self, row):
        power = number("power", row["power"])
        speed = number("speed", row["speed"])
        self.interval = number("line interval", row["line_interval"])
        threshold = number("threshold", row["threshold"])
        if self.response == LOGARITHMIC:
            reach_in = number("penetration depth", row["penetration_depth"])
        if self.response == LINEAR:
            removal = number("removal energy", row["removal_energy"])
        if self.response == MELT:
            self.heat = heat_spread(number("thermal diffusivity", row["diffusivity"]), sqrt(pi / 8) / speed)
        w = self.beam.waist_diameter / 2
        computed_at_most("interval over spot radius", self.interval / w)
        self.scan = doses(power, speed, w, w, self.interval)
        if self.beam is not self.image.beam:
            # The peak of the real focus is that of the ideal one, lowered.
            w = self.image.beam.waist_diameter / 2
            peak = doses(power, speed, w, w, self.interval)["peak_irradiance"] * self.real.peak
            self.scan |= {"peak_irradiance": peak, "dwell": self.scan["line_dose"] / peak}
        dose = self.scan["fill_dose"]
        self.q = computed("any dose ratio", dose / threshold)
        if self.response in (LOGARITHMIC, LINEAR):
            digs = exceeds(self.q, LEAST_THAT_MARKS)
            depth = reach_in * log(self.q) if self.response == LOGARITHMIC else (dose - threshold) / removal
            self.fill_depth = depth if digs else mpf(0)
            # The dose is computed; then the two are taken from each other.
            self.depth_ulp = allowed(DEPTH_ULP, 1 + self.q / (self.q - 1)) if digs else DEPTH_ULP

    def nearest_to(self, z):
        """The height that the surface may have nearest to another; of two as near the one toward the lens."""
        found = sorted((abs(near - z), near) for near in (min(max(top, z), bottom) for top, bottom in self.stretches))
        (least, nearest), (next_least, _) = found[0], found[min(1, len(found) - 1)]
        if least != next_least and next_least - least <= NEAR * next_least:
            raise TooClose
        return nearest

    def seen(self, diameter):
        """The spot as the material sees it."""
        return sqrt(diameter**2 + self.heat * diameter)

    def seen_as(self, diameter):
        """The spot that the material sees so large."""
        return 2 * diameter**2 / (self.heat + sqrt(self.heat**2 + 4 * diameter**2))

    def melted(self):
        """By how much more the details are in error, since the seen spot is before them."""
        return mpf(3) / 2 if self.heat else mpf(1)

    def detail_factors(self):
        """By how much each detail magnifies errors, of its own and of a dose ratio that is computed."""
        names = ("smallest_stroke", "smallest_gap", "smallest_dot_diameter", "smallest_hole_diameter")
        if self.dose == DOSE_RATIO or not self.marks:
            return {name: mpf(1) for name in names}
        q = self.q
        # In units of the spot diameter: x/sqrt2 with erf(x) or erfc(x) = 1/q, and square roots.
        by_q = (
            inverse_slope(1 / q, self.details.bar * sqrt(2)),
            inverse_slope(1 / q, self.details.gap * sqrt(2)),
            1 / ((q - 1) * 2 * log(q / (q - 1))),
            1 / (2 * log(q)),
        )
        return {name: self.melted() * (1 + factor) for name, factor in zip(names, by_q)}

    def text_keeps(self, diameter):
        return not self.has_text or self.least_grade == LOST or self.text_grade(diameter) <= self.least_grade

    def text_grade(self, diameter):
        return self.limits.grade_of(self.em, self.seen(diameter)) if self.marks else LOST

    def stroke_lost(self, diameter):
        return exceeds(self.details.bar * self.seen(diameter), self.stroke)

    def gap_filled(self, diameter):
        return exceeds(self.details.gap * self.seen(diameter), self.gap)

    def hold(self, diameter):
        # Both are asked, so that neither may be close to its limit.
        lost = [self.stroke_lost(diameter), self.gap_filled(diameter)]
        return not any(lost)

    def all_hold(self, diameter):
        """Details and text; both are asked, so that neither may be close to its limit."""
        return self.marks and all([self.hold(diameter), self.text_keeps(diameter)])

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
    seen = job.seen(diameter)
    answer = {
        f"{name}_z_offset": z,
        f"{name}_diameter": diameter,
        f"{name}_growth": growth,
        f"{name}_irradiance_ratio": 1 / growth**2,
        f"{name}_line_dose_ratio": 1 / growth,
        f"{name}_seen_diameter": seen,
        f"{name}_details_hold": int(job.all_hold(diameter)),
        f"{name}_in_depth": int(job.in_depth(z, half)),
        f"{name}_ripple_contrast": nan,
        f"{name}_text_grade": 0,
    }
    sizes = (job.details.bar, job.details.gap, job.details.dot, job.details.hole) if job.marks else (nan,) * 4
    for (detail, factor), size in zip(job.detail_factors().items(), sizes):
        answer |= {f"{name}_{detail}": seen * size, f"{name}_{detail}_ulp": allowed(DETAIL_ULP, factor)}
    if job.interval:
        r = 2 * job.interval / seen
        answer[f"{name}_ripple_contrast"] = ripple_contrast(r)
        answer[f"{name}_ripple_contrast_ulp"] = allowed(ripple_ulp(r), job.melted())
    answer |= {f"{name}_{size}": nan for size in TEXT_SIZES}
    if job.has_text:
        answer[f"{name}_text_grade"] = job.text_grade(diameter)
    if job.has_text and job.marks:
        ems = job.limits.em_outputs(seen, f"{name}_")
        answer |= {key: allowed(value, job.melted()) if key.endswith("_ulp") else value for key, value in ems.items()}
    return answer


def range_outputs(name, half):
    """The two ends and the full range; all NaN where there is none."""
    ends = {key: nan for key in symmetric(0)} if half is None else symmetric(half)
    return {f"{name}_{key}": value for key, value in ends.items()}


def detail_range(job):
    """Half range on which the details hold, and the ulp allowed for it."""
    if not job.marks:
        return None, 0
    largest = job.details.largest_spot(job.stroke, job.gap)
    if exceeds(job.seen(job.beam.waist_diameter), largest):
        return None, 0
    factors = job.detail_factors()
    factor = max(factors["smallest_stroke"], factors["smallest_gap"])
    return half_range_to(job, largest, DETAIL_ULP, factor)


def text_range(job):
    """Half range on which the text keeps its grade, and the ulp allowed for it."""
    if not job.has_text or job.least_grade == LOST or not job.marks:
        return None, 0
    if not job.text_keeps(job.beam.waist_diameter):
        return None, 0
    _, factor = job.limits.of_grade(job.least_grade)
    return half_range_to(job, job.limits.largest_spot(job.em, job.least_grade), TEXT_ULP, factor)


def half_range_to(job, largest_seen, ulp, factor):
    largest = job.seen_as(largest_seen)
    room = room_factor(largest, job.beam.waist_diameter)
    # A spot next to nothing goes with the square of the one that is seen.
    if job.heat:
        room *= 2
    return reach(job.beam, largest), allowed(ulp, room * factor)


def holding_half(job):
    """Half range on which stroke, gap and text all hold."""
    if not job.all_hold(job.beam.waist_diameter):
        return None
    halves = [half for half, _ in (detail_range(job), text_range(job)) if half is not None]
    return min(halves)


def reasons_of(job, places, half, middle):
    best_diameter = job.beam.diameter(middle)
    reasons = 0 if job.marks else NOTHING_MARKS
    if job.marks and job.stroke_lost(job.beam.waist_diameter):
        reasons |= STROKE_TOO_FINE
    if job.marks and job.gap_filled(job.beam.waist_diameter):
        reasons |= GAP_TOO_FINE
    for name in ("highest", "lowest"):
        diameter = job.beam.diameter(places[name])
        if job.marks and job.stroke_lost(diameter):
            reasons |= STROKE_LOST[name]
        if job.marks and job.gap_filled(diameter):
            reasons |= GAP_FILLED[name]
        if not job.in_depth(places[name], half):
            reasons |= NOT_IN_DEPTH[name]
        if job.marks and not job.text_keeps(diameter):
            reasons |= TEXT_LOST[name]
    if half is None:
        reasons |= NO_DEPTH
    if job.marks and not job.text_keeps(job.beam.waist_diameter):
        reasons |= TEXT_TOO_SMALL
    gaps = fill_has_gaps(job, job.focus_z)
    if gaps:
        reasons |= FILL_HAS_GAPS
    all_hold = not gaps and all(job.all_hold(job.beam.diameter(z)) for z in places.values())
    room = exceeds(job.lens_to_waist, job.span / 2)
    refocus = job.all_hold(best_diameter) and room
    if not all_hold:
        if refocus and not fill_has_gaps(job, (job.highest_z + job.lowest_z) / 2):
            reasons |= BETTER_FOCUS_HELPS
        # A band of it at a time, which may pass through the waist.
        elif fill_has_gaps_at(job, mpf(0)):
            pass
        elif holding_half(job) is not None and exceeds(job.lens_to_waist, job.span):
            # Nothing is lost to the bands of a job without a shape.
            if not job.lost_to_bands or exceeds(2 * holding_half(job), job.lost_to_bands):
                reasons |= BANDS_HELP
    all_in_depth = all(job.in_depth(z, half) for z in places.values())
    if job.marks and job.in_depth(middle, half) and not all_in_depth and room:
        reasons |= BETTER_FOCUS_SHARPENS
    return reasons


def fill_has_gaps(job, focus_z):
    """Whether the dose midway between two lines is below the threshold where the spot is smallest: where the
    surface comes nearest to the waist."""
    return fill_has_gaps_at(job, job.nearest_to(focus_z) - focus_z)


def fill_has_gaps_at(job, z):
    if not job.interval or not job.marks:
        return False
    diameter = job.seen(job.beam.diameter(z))
    _, least = greatest_and_least(2 * job.interval / diameter)
    return exceeds(mpf(1), job.q * least)


def focus_check(row):
    return verdict_on(Job(row), row)


def verdict_on(job, row, stretches=None):
    half = depth_of_computed_beam(job.beam, job.criterion, job.criterion_value)
    places = places_of(job)
    middle = job.span / 2
    detail_half, detail_ulp = detail_range(job)
    text_half, text_ulp = text_range(job)
    answer = focused_outputs(job.raw, job.s, job.f, job.image)
    answer |= {"half_angle": job.ideal["half_angle"], "focus_z": job.focus_z}
    answer |= range_outputs("depth", half)
    answer |= range_outputs("detail", detail_half)
    answer |= range_outputs("text", text_half)
    answer |= {"dose_ratio": job.q} | job.scan
    answer |= {"fill_depth": job.fill_depth, "fill_depth_ulp": job.depth_ulp}
    for name, z in places.items():
        answer |= place_outputs(job, name, z, half)
    answer |= {
        "best_focus_z": (job.lowest_z + job.highest_z) / 2,
        "best_worst_growth": job.beam.growth(middle),
        "validity": job.validity,
        "reasons": reasons_of(job, places, half, middle),
        "outcome": outcome_of(job, answer),
        "promised": outcome_of(job, answer),
    }
    for key in REAL_OUTPUTS:
        answer[f"real_{key}"] = nan
    if job.real:
        answer |= {f"real_{key}": value for key, value in job.real.outputs().items()}
        # A beam before an expander counts here too.
        answer["real_half_angle"] = max(job.ideal["half_angle"], job.real.half_angle)
        answer["promised"] = promised_outcome(Job(row, as_ideal=True, stretches=stretches))
    for key in symmetric(0):
        answer[f"detail_{key}_ulp"] = detail_ulp
        answer[f"text_{key}_ulp"] = text_ulp
    return answer


def places_of(job):
    heights = {"highest": job.highest_z, "datum": job.nearest_to(mpf(0)), "lowest": job.lowest_z}
    return {name: z - job.focus_z for name, z in heights.items()}


def promised_outcome(job):
    """The outcome of the job with its lens taken for ideal."""
    half = depth_of_computed_beam(job.beam, job.criterion, job.criterion_value)
    # The ranges hang on the same limits, and may not be close to them either.
    detail_range(job)
    text_range(job)
    answer = {}
    for name, z in places_of(job).items():
        answer |= place_outputs(job, name, z, half)
    return outcome_of(job, answer)


def outcome_of(job, answer):
    names = ("highest", "datum", "lowest")
    if not job.marks:
        return NO_MARK
    if fill_has_gaps(job, job.focus_z) or not all(answer[f"{name}_details_hold"] for name in names):
        return DETAILS_LOST
    if not all(answer[f"{name}_in_depth"] for name in names):
        return DETAILS_ONLY
    return DETAILS_AND_DEPTH
