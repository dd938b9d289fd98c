"""A job whose surface has a shape: the verdict of model_check between the highest and the lowest place of it.

Rise and fall of the job are added at its ends. A place holds, wherever it then lies, if

  t + rise <= z - focus <= a - fall

t and a being the ends of the range in which details and text hold; shares of area as in model_in_focus. On a
surface that leans the dose is lowered by the cosine; it must still mark at the steepest place. Every band
of height needs room for rise and fall: the least whole number of bands is (lowest - highest)/(a - t - rise - fall),
rounded up.

Only heights count that the surface has: those of a smooth one make one stretch, steps and cells have each their own.
The heights of the ends are taken as doubles, as the extremes give them.
"""

from mpmath import ceil, cos, mpf

from checks import NEAR, TooClose, allowed, choice, exceeds
from model_check import (
    BANDS_HELP,
    BETTER_FOCUS_HELPS,
    DETAILS_LOST,
    Job,
    choices_of,
    detail_range,
    holding_half,
    text_range,
    verdict_on,
)
from model_depth import depth_of_computed_beam
from model_fill import LEAST_THAT_MARKS
from model_in_focus import SHARE_ULP, UNIT, Measured, shares_and_factors
from model_shape import CYLINDER, SPHERE, Smooth, surface_extremes

STEEP = 131072
PARTLY_UNKNOWN = 262144
TOO_STEEP_TO_MARK = 524288
CAUTION_INCIDENCE = mpf(float("0.35"))
MOST_BANDS = 10**6
# Less than this part of a band is none.
SLACK = mpf(10) ** -9


def surface_check(row):
    choices_of(row)
    if choice("surface shape", row["surface"]) in (CYLINDER, SPHERE):
        choice("bulge", row["bulge"])
    extremes = surface_extremes(row)
    measured = Measured(row)
    ends = tuple(mpf(float(extremes[f"{end}_z"])) for end in ("highest", "lowest"))
    stretches = stretches_of(measured, ends)
    job = Job(row, stretches=stretches)
    answer = verdict_on(job, row, stretches)
    if exceeds(extremes["steepest_incidence"], CAUTION_INCIDENCE):
        answer["reasons"] |= STEEP
    if extremes["unknown_share"] > 0:
        answer["reasons"] |= PARTLY_UNKNOWN
    factor = cos(extremes["steepest_incidence"])
    # On a level surface it is asked already, and no product is rounded.
    steepest_marks = job.marks and (factor == 1 or exceeds(job.q * factor, LEAST_THAT_MARKS))
    if job.marks and not steepest_marks:
        answer["reasons"] = answer["reasons"] & ~(BETTER_FOCUS_HELPS | BANDS_HELP) | TOO_STEEP_TO_MARK
        answer |= {"outcome": DETAILS_LOST, "promised": DETAILS_LOST}
    answer |= extremes | worst_place(answer, extremes)
    half = depth_of_computed_beam(job.beam, job.criterion, job.criterion_value)
    answer |= share("share_in_depth", measured, job, half, mpf(0))
    holding = holding_half(job)
    answer |= share("share_that_holds", measured, job, holding, holding_error(job, holding))
    answer["bands"] = bands(job, ends, holding) if steepest_marks else 0
    if answer["bands"] == 0:
        answer["reasons"] &= ~BANDS_HELP
    return answer | {"steepest_irradiance_factor": factor, "steepest_stretch": 1 / factor}


def stretches_of(measured, ends):
    if isinstance(measured.surface, Smooth):
        return [ends]
    return [(mpf(float(min(z))), mpf(float(max(z)))) for _, z in measured.cells.cells]


def worst_place(answer, extremes):
    high, low = abs(answer["highest_z_offset"]), abs(answer["lowest_z_offset"])
    if high != low and abs(high - low) <= NEAR * max(high, low):
        raise TooClose
    end = "lowest" if low > high else "highest"
    return {f"worst_{axis}": extremes[f"{end}_{axis}"] for axis in "xyz"} | {
        f"worst_{axis}_ulp": extremes.get(f"{end}_{axis}_ulp", 1) for axis in "xyz"
    }


def holding_error(job, half):
    """What the ulp of the narrower range makes of its ends."""
    if half is None:
        return mpf(0)
    ulps = [ulp for found, ulp in (detail_range(job), text_range(job)) if found == half]
    return max(ulps) * 2 * UNIT * half


def share(name, measured, job, half, error):
    if half is None:
        return {name: mpf(0)}
    toward, away = job.focus_z - half + job.rise, job.focus_z + half - job.fall
    # The sums are rounded, and so are the ends that they are counted from.
    parts = abs(job.focus_z) + half + job.rise + job.fall
    error += measured.error + 4 * UNIT * parts
    for one, other in ((toward, away), (toward, measured.lowest), (measured.highest, away)):
        if abs(one - other) <= NEAR * parts:
            raise TooClose
    if toward > away:
        return {name: mpf(0)}
    if measured.lowest == measured.highest:
        return {name: mpf(int(toward <= measured.lowest <= away))}
    (_, found, _), (_, factor, _) = shares_and_factors(measured.cells, toward, away, error)
    return {name: found, f"{name}_ulp": allowed(SHARE_ULP, factor)}


def bands(job, ends, half):
    usable = None if half is None else 2 * half - job.rise - job.fall
    if usable is None or usable <= 0:
        return 0
    if abs(usable) <= NEAR * half:
        raise TooClose
    needed = (ends[1] - ends[0]) / usable * (1 - SLACK)
    if abs(needed - round(needed)) <= NEAR * (1 + needed):
        if needed != 0:
            raise TooClose
    return 0 if needed > MOST_BANDS else max(1, int(ceil(needed)))
