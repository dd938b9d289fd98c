"""Several lenses for one job, each with focus at mid-height: which serves, and in which order they stand.

The surface reaches h = (rise + fall)/2 + tolerance to either side of the waist. What a lens does there is told
by model_check for the same job with this lens; the order is that of the documentation: lenses that serve, then
those of which only the clearance is too small, then those that lose a detail, then those that are refused; within
each by the spot at the worst places, the depth of focus, and the order in which they were named.
"""

from functools import cmp_to_key

from mpmath import log, mpf, nan

import model_check
from checks import (
    OUT_OF_RANGE,
    PARAMETERS,
    Refused,
    allowed,
    choice,
    clear_aperture,
    computed,
    computed_at_most,
    exceeds,
    number,
)
from model_beam import checked_beam
from model_check import (
    COLLIMATED,
    DETAILS_AND_DEPTH,
    DETAILS_ONLY,
    DOSE_RATIO,
    FROM_DATUM,
    SCAN,
    SINGLET,
    TEXT,
    WAIST,
    Job,
)
from model_crossing import crossing
from model_depth import criterion_number, depth_of_computed_beam
from model_material import LINEAR, LOGARITHMIC, MELT
from model_singlet import SHAPE_FACTOR
from model_text import checked_cut_offs, shares_of

SLOTS = 3
MOST = 8

SERVES = 1
SPOT_TOO_LARGE, DEPTH_TOO_SHORT = 2, 4
TEXT_TOO_SMALL, TEXT_LOST = 8, 16
FILL_HAS_GAPS, NOTHING_MARKS = 32, 64
OUT_OF_FOCUS = 128
CLEARANCE_TOO_SMALL = 256
REFUSED = 512
SMALLEST_IN_FOCUS, SMALLEST_ON_SURFACE, DEEPEST = 1024, 2048, 4096
WORKING_DISTANCE_BEYOND_FOCUS = 8192

LENS_INPUTS = ("focal_length", "lens", "glass", "lens_shape", "shape_factor", "clear_aperture")
PLACE_NUMBERS = (
    "z_offset",
    "diameter",
    "growth",
    "irradiance_ratio",
    "line_dose_ratio",
    "seen_diameter",
    "smallest_stroke",
    "smallest_gap",
    "smallest_dot_diameter",
    "smallest_hole_diameter",
    "ripple_contrast",
    "crisp_em",
    "good_em",
    "readable_em",
)
PLACE_CODES = ("text_grade", "details_hold", "in_depth")
CONDITIONED = PLACE_NUMBERS[6:]
# What a rounded half span makes of a place that model_check knows for an exact one, in ulp.
ROUNDED_SPAN_ULP = 1


def lens_of(row, i):
    """The inputs of the i-th candidate; more than three repeat the three."""
    place = i % SLOTS + 1
    lens = {name: row[f"{name}{place}"] for name in LENS_INPUTS}
    return lens | {"working_distance": row[f"working_distance{place}"]}


def check_choices(row, lenses):
    choice("raw beam", row["raw_beam"])
    choice("depth criterion", row["criterion"])
    if choice("dose of a job", row["dose"]) == SCAN:
        choice("response", row["response"])
    if choice("text of a job", row["text"]) == TEXT:
        choice("typeface", row["typeface"])
        choice("text grade", row["least_grade"])
    for lens in lenses:
        if choice("lens kind", lens["lens"]) == SINGLET:
            choice("glass", lens["glass"])
            choice("lens shape", lens["lens_shape"])


def check_beam(row):
    if row["raw_beam"] == COLLIMATED:
        checked_beam(row, "diameter_at_lens", "diameter at lens")
    elif row["raw_beam"] == WAIST:
        checked_beam(row)
        number("waist to lens", row["waist_to_lens"])
    else:
        model_check.expanded_beam(row)


def check_dose(row):
    if row["dose"] == DOSE_RATIO:
        number("any dose ratio", row["dose_ratio"])
        return
    power = number("power", row["power"])
    speed = number("speed", row["speed"])
    interval = number("line interval", row["line_interval"])
    threshold = number("threshold", row["threshold"])
    if row["response"] == LOGARITHMIC:
        number("penetration depth", row["penetration_depth"])
    if row["response"] == LINEAR:
        number("removal energy", row["removal_energy"])
    if row["response"] == MELT:
        number("thermal diffusivity", row["diffusivity"])
    computed("any dose ratio", power / speed / interval / threshold)


def check_shared(row):
    """All that does not hang on the lens; rise and fall."""
    check_beam(row)
    rise = number("surface rise", row["surface_rise"])
    fall = number("surface fall", row["surface_fall"])
    criterion_number(row, row["criterion"])
    number("finest stroke", row["finest_stroke"])
    number("finest gap", row["finest_gap"])
    check_dose(row)
    if row["text"] == TEXT:
        shares_of(row, row["typeface"])
        number("em", row["em"])
        checked_cut_offs(row)
    return rise, fall


def check_lens(lens):
    number("focal length", lens["focal_length"])
    if lens["lens"] == SINGLET:
        if lens["lens_shape"] == SHAPE_FACTOR:
            number("shape factor", lens["shape_factor"])
        clear_aperture(lens["clear_aperture"])
    return number("working distance", lens["working_distance"])


class Candidate:
    """One lens by itself."""

    def __init__(self, row, lens, half_span, least_clearance):
        self.lens = lens
        self.refused = None
        given = {name: lens[name] for name in LENS_INPUTS}
        surface = {"surface_rise": half_span, "surface_fall": half_span}
        try:
            self.job = Job(row | given | surface | {"focus_setting": FROM_DATUM, "focus_z": 0.0})
        except Refused as refused:
            self.refused = refused
            self.reasons = REFUSED
            return
        self.find(half_span, least_clearance)

    def find(self, half_span, least_clearance):
        job = self.job
        self.depth = depth_of_computed_beam(job.beam, job.criterion, job.criterion_value)
        places = model_check.places_of(job)
        answer = {}
        for name, z in places.items():
            answer |= model_check.place_outputs(job, name, z, self.depth)
        self.place = {
            name.removeprefix("lowest_"): value for name, value in answer.items() if name.startswith("lowest_")
        }
        self.outcome = model_check.outcome_of(job, answer)
        self.worst = self.place["diameter"]
        self.waist = job.beam.waist_diameter
        self.clearance = mpf(self.lens["working_distance"]) - half_span
        near = exceeds(least_clearance, self.clearance)
        self.reasons = self.why(model_check.reasons_of(job, places, self.depth, half_span))
        self.reasons |= CLEARANCE_TOO_SMALL if near else 0
        self.holds = self.outcome in (DETAILS_AND_DEPTH, DETAILS_ONLY)
        self.reasons |= SERVES if self.holds and not near else 0
        self.reasons |= WORKING_DISTANCE_BEYOND_FOCUS if exceeds(self.lens["working_distance"], job.lens_to_waist) else 0
        self.find_spare(half_span)

    def why(self, given):
        """The reasons of the check, for both ends at once."""
        found = 0
        if given & (model_check.STROKE_TOO_FINE | model_check.GAP_TOO_FINE):
            found |= SPOT_TOO_LARGE
        elif given & (model_check.STROKE_LOST["lowest"] | model_check.GAP_FILLED["lowest"]):
            found |= DEPTH_TOO_SHORT
        if given & model_check.TEXT_TOO_SMALL:
            found |= TEXT_TOO_SMALL
        elif given & model_check.TEXT_LOST["lowest"]:
            found |= TEXT_LOST
        same = {
            model_check.FILL_HAS_GAPS: FILL_HAS_GAPS,
            model_check.NOTHING_MARKS: NOTHING_MARKS,
            model_check.NOT_IN_DEPTH["lowest"]: OUT_OF_FOCUS,
        }
        return found | sum(mine for theirs, mine in same.items() if given & theirs)

    def find_spare(self, half_span):
        self.spare, self.spare_ulp = nan, 0
        details, detail_ulp = model_check.detail_range(self.job)
        text, text_ulp = model_check.text_range(self.job)
        if details is None or self.reasons & TEXT_TOO_SMALL:
            return
        holds = details if text is None else min(details, text)
        self.spare = holds - half_span
        if self.spare == 0:
            return
        # The range in its own ulp, then the two are taken from each other.
        factor = 2 * max(holds, half_span) / abs(self.spare)
        self.spare_ulp = allowed(max(detail_ulp, text_ulp), 1 + factor)

    @property
    def group(self):
        if self.reasons & SERVES:
            return 0
        if self.refused:
            return 3
        return 1 if self.holds else 2

    @property
    def light(self):
        """All that its light hangs on."""
        lens = self.lens
        if lens["lens"] != SINGLET:
            return (lens["focal_length"],)
        factor = lens["shape_factor"] if lens["lens_shape"] == SHAPE_FACTOR else None
        return (lens["focal_length"], lens["glass"], lens["lens_shape"], factor, lens["clear_aperture"])

    def outputs(self):
        if self.refused:
            code, parameter = self.refused.code, self.refused.parameter_code
            return BLANK | {"reasons": self.reasons, "refusal": code, "refused_parameter": parameter}
        job = self.job
        answer = BLANK | {
            "reasons": self.reasons,
            "outcome": self.outcome,
            "waist_diameter": self.waist,
            "rayleigh_range": job.beam.rayleigh_range,
            "lens_to_waist": job.lens_to_waist,
            "depth_full": nan if self.depth is None else 2 * self.depth,
            "spare_half_span": self.spare,
            "spare_half_span_ulp": self.spare_ulp,
            "clearance": self.clearance,
            "validity": job.validity,
        }
        for name in PLACE_NUMBERS + PLACE_CODES:
            answer[f"worst_{name}"] = self.place[name]
        for name in CONDITIONED:
            ulp = self.place.get(f"{name}_ulp", 0)
            answer[f"worst_{name}_ulp"] = ulp and ulp + allowed(ROUNDED_SPAN_ULP, self.span_factor(name))
        return answer

    def span_factor(self, name):
        """What a relative error of the spot makes of this number: nearly its own, but of the ripple."""
        if name != "ripple_contrast":
            return mpf(1)
        contrast = self.place[name]
        # ln(contrast) goes as (pi w/p)^2/2 where it is small.
        return 4 + 4 * abs(log(contrast)) if contrast else mpf(4)


BLANK = (
    {name: 0 for name in ("rank", "reasons", "refusal", "refused_parameter", "outcome", "validity")}
    | {name: nan for name in ("waist_diameter", "rayleigh_range", "lens_to_waist", "depth_full")}
    | {name: nan for name in ("spare_half_span", "clearance")}
    | {f"worst_{name}": nan for name in PLACE_NUMBERS}
    | {f"worst_{name}": 0 for name in PLACE_CODES}
)


def compare(a, b, same):
    """-1, 0 or 1; numbers that are close are no question, but for those of one and the same lens."""
    if same or a == b:
        return 0
    return 1 if exceeds(a, b) else -1


def order(one, other):
    """Which of two lenses stands first; `sorted` keeps the order in which they were named."""
    if one.group != other.group:
        return one.group - other.group
    if one.refused:
        return 0
    same = one.light == other.light
    return compare(one.worst, other.worst, same) or compare(other.depth or 0, one.depth or 0, same)


def compare_all(found):
    """The reasons that say what no other lens has more or less of."""
    for one in found:
        others = [(other, one.light == other.light) for other in found if other is not one]
        if all(compare(one.waist, other.waist, same) <= 0 for other, same in others):
            one.reasons |= SMALLEST_IN_FOCUS
        if all(compare(one.worst, other.worst, same) <= 0 for other, same in others):
            one.reasons |= SMALLEST_ON_SURFACE
        deepest = all(compare(other.depth or 0, one.depth or 0, same) <= 0 for other, same in others)
        if one.depth is not None and deepest:
            one.reasons |= DEEPEST


def flip(first, second, tolerance):
    """Where the first two swap."""
    answer = {"crossing_offset": nan, "crossing_diameter": nan, "flip_span": nan}
    if first.refused or second.refused or first.light == second.light:
        return answer
    # Whether they cross may not be close.
    exceeds(first.job.beam.waist_diameter, second.job.beam.waist_diameter)
    exceeds(first.job.beam.half_angle, second.job.beam.half_angle)
    found = crossing(first.job.beam, second.job.beam)
    if found:
        answer["crossing_offset"], answer["crossing_diameter"] = found
        if exceeds(found[0], tolerance):
            answer["flip_span"] = 2 * (found[0] - tolerance)
    return answer


def choose_lens(row):
    count = int(row["lenses"])
    if not 1 <= count <= MOST:
        raise Refused(OUT_OF_RANGE, "lenses to choose from")
    lenses = [lens_of(row, i) for i in range(count)]
    check_choices(row, lenses)
    rise, fall = check_shared(row)
    tolerance = number("set-up tolerance", row["set_up_tolerance"])
    half_span = (rise + fall) / 2 + tolerance
    # At the limit itself there is nothing to round.
    if half_span > PARAMETERS["surface rise"][2]:
        computed_at_most("surface rise", half_span)
    least_clearance = number("least clearance", row["least_clearance"])
    for lens in lenses:
        check_lens(lens)

    candidates = [Candidate(row, lens, half_span, least_clearance) for lens in lenses]
    found = [candidate for candidate in candidates if not candidate.refused]
    if len(found) > 1:
        compare_all(found)
    ordered = sorted(candidates, key=cmp_to_key(order))
    answer = {
        "serving": sum(candidate.reasons & SERVES for candidate in candidates),
        "best": candidates.index(ordered[0]),
        "focus_z": (fall - rise) / 2,
        "half_span": half_span,
        "crossing_offset": nan,
        "crossing_diameter": nan,
        "flip_span": nan,
    }
    if count > 1:
        answer |= flip(ordered[0], ordered[1], tolerance)
    for i in range(SLOTS):
        outputs = BLANK
        if i < count:
            outputs = candidates[i].outputs() | {"rank": ordered.index(candidates[i]) + 1}
        for name, value in outputs.items():
            answer[ulp_name(name, i + 1)] = value
    return answer


def ulp_name(name, place):
    base = name.removesuffix("_ulp")
    return f"{base}{place}_ulp" if base != name else f"{name}{place}"
