"""Focus from test pieces that an eye has judged.

A run of good pieces has two ends. Spearman and Karber's sum for the end toward the lens, by parts: the height midway
before the middle of the run, less one cell for each share of a good piece below it; the cell of a height reaches
halfway to its neighbours. The middle of the run is the height up to which half of the good pieces lie.

The variance of an end, for steps s, k pieces a height and a threshold that strays normally by sigma: chance alone
gives s^2/k times the sum of p(1 - p), p being the normal distribution at each height, whose mean over all places of
the grid is s sigma/(k sqrt(pi)); the mean of the sum itself strays with the place by the Fourier series of a sampled
normal distribution.
"""

from fractions import Fraction

from mpmath import erf, exp, mpf, nan, pi, sqrt

from checks import OUT_OF_RANGE, UNDETERMINED, Refused, allowed, choice, computed_at_most, exceeds, number
from model_detail import erf_inverse
from model_tolerance import shrunk

MOST = 12
PULSE = 1
POOR, ACCEPTABLE, SHARP = 1, 2, 3
OUT_OF_ORDER, COARSE_JUDGEMENT, COARSE_STEPS, OPEN_TOWARD, OPEN_AWAY, NONE_SHARP = 1, 2, 4, 8, 16, 32

# ulp of functions.toml for what is conditioned here
RANGE_ULP = 6


def checked(row):
    count = int(row["pieces"])
    if not 1 <= count <= 256:
        raise Refused(OUT_OF_RANGE, "number of test pieces")
    for i in range(1, count + 1):
        number("height of a test piece", row[f"piece_z{i}"])
    return {
        "zr": number("Rayleigh range", row["rayleigh_range"]),
        "delta": number("relative deviation of judgements", row["judgement_deviation"]),
        "p": number("coverage probability", row["coverage_probability"]),
    }


class Series:
    """Heights in order, each with its share of good pieces."""

    def __init__(self, row, good):
        count = int(row["pieces"])
        judged = {}
        for i in range(1, count + 1):
            judged.setdefault(row[f"piece_z{i}"] + 0.0, []).append(bool(good(i)))
        self.levels = [(mpf(z), sum(them), len(them)) for z, them in sorted(judged.items())]

    @property
    def good(self):
        return sum(good for _, good, _ in self.levels)

    def in_order(self):
        shares = [Fraction(good, count) for _, good, count in self.levels]
        fell = next((i for i, (a, b) in enumerate(zip(shares, shares[1:])) if b < a), len(shares))
        return all(b <= a for a, b in zip(shares[fell:], shares[fell + 1 :]))

    def end(self, toward_lens):
        """Height, greatest step and fewest pieces of the end of the run on this side; None if it has none."""
        levels = self.levels if toward_lens else [(-z, *rest) for z, *rest in reversed(self.levels)]
        if levels[0][1] > 0:
            return None
        passed, middle = 0, 0
        for middle, (_, good, _) in enumerate(levels):
            passed += good
            if 2 * passed >= self.good:
                break
        z = [level[0] for level in levels[: middle + 1]]
        share = [mpf(good) / count for _, good, count in levels[:middle]] + [mpf(1)]
        place = (z[middle - 1] + z[middle]) / 2
        for i in range(1, middle):
            place -= share[i] * (z[i + 1] - z[i - 1]) / 2
        moves = [i for i in range(middle) if share[i] != share[i + 1]]
        step = max(z[i + 1] - z[i] for i in moves)
        pieces = min(min(levels[i][2], levels[i + 1][2]) for i in moves)
        return (place if toward_lens else -place), step, pieces


def sampled(r):
    """The Fourier series of what a step of 1 leaves over, for a normal threshold of deviation r."""
    if r < mpf("0.01"):
        return mpf(1) / 12 - r / sqrt(pi) + r**2  # what is left out is below exp(-2500)
    total, j = mpf(0), 1
    while True:
        term = exp(-((2 * pi * j * r) ** 2)) / (2 * pi**2 * j**2)
        total += term
        if term <= total * mpf(10) ** -40:
            return total
        j += 1


def variance(end, sigma):
    _, step, pieces = end
    r = sigma / step
    return step**2 * (r / (pieces * sqrt(pi)) + sampled(r))


class Run:
    def __init__(self, toward, away, eye, exponent):
        self.ends = (toward, away)
        self.half = (away[0] - toward[0]) / 2
        sigma = eye["delta"] * (eye["zr"] ** 2 + self.half**2) / (exponent * self.half)
        self.variances = [variance(end, sigma) for end in self.ends]
        self.warnings = COARSE_JUDGEMENT * exceeds(sigma, self.half)
        self.warnings |= COARSE_STEPS * exceeds(max(toward[1], away[1]), self.half)

    def named(self, *names):
        answer = {}
        for name, end, spread in zip(names, self.ends, self.variances):
            answer |= {f"{name}_z": end[0], f"{name}_deviation": sqrt(spread)}
        return answer


def focus(runs, eye):
    ends = [end[0] for run in runs for end in run.ends]
    spread = sqrt(sum(sum(run.variances) for run in runs)) / len(ends)
    middle = sum(ends) / len(ends)
    reach = computed_at_most("half width", sqrt(2) * erf_inverse(eye["p"], 1 - eye["p"]) * spread)
    answer = {"focus_z": middle, "focus_z_deviation": spread}
    for name, end in {"least_z": middle - reach, "greatest_z": middle + reach}.items():
        answer |= {name: end, f"{name}_ulp": allowed(RANGE_ULP, shrunk(abs(middle) + reach, end))}
    return answer


def bound(end, parameter):
    if end is None:
        raise Refused(UNDETERMINED, parameter)
    return end


def bounds(series):
    return (
        bound(series.end(True), "heights beyond the good test pieces, toward the lens"),
        bound(series.end(False), "heights beyond the good test pieces, away from the lens"),
    )


def focus_from_vanishing(row):
    kind = choice("mark kind", row["mark_kind"])
    eye = checked(row)
    series = Series(row, lambda i: row[f"seen{i}"] != 0.0)
    if series.good == 0:
        raise Refused(UNDETERMINED, "good test pieces")
    exponent = 2 if kind == PULSE else 1
    run = Run(*bounds(series), eye, exponent)
    growth = 1 + (run.half / eye["zr"]) ** 2
    warnings = run.warnings | OUT_OF_ORDER * (not series.in_order())
    return (
        focus([run], eye)
        | run.named("toward_lens", "away_from_lens")
        | {"half_run": run.half, "dose_ratio": growth if kind == PULSE else sqrt(growth), "warnings": warnings}
    )


def focus_from_ranks(row):
    for i in range(1, min(int(row["pieces"]), MOST) + 1):
        choice("rank of a test piece", row[f"rank{i}"])
    eye = checked(row)
    usable = Series(row, lambda i: row[f"rank{i}"] >= ACCEPTABLE)
    sharp = Series(row, lambda i: row[f"rank{i}"] == SHARP)
    if usable.good == 0:
        raise Refused(UNDETERMINED, "good test pieces")
    warnings = OUT_OF_ORDER * (not (usable.in_order() and sharp.in_order()))
    ends = usable.end(True), usable.end(False)
    warnings |= OPEN_TOWARD * (ends[0] is None) | OPEN_AWAY * (ends[1] is None)
    bounds(sharp if sharp.good else usable)
    runs = []
    if sharp.good:
        runs.append(Run(*bounds(sharp), eye, 1))
    else:
        warnings |= NONE_SHARP
    answer = {f"usable_{side}_{what}": nan for side in ("toward_lens", "away_from_lens") for what in ("z", "deviation")}
    if None not in ends:
        runs.append(Run(*ends, eye, 1))
        answer |= runs[-1].named("usable_toward_lens", "usable_away_from_lens")
    for run in runs:
        warnings |= run.warnings
    return focus(runs, eye) | answer | {
        "sharp_half_run": runs[0].half if sharp.good else nan,
        "warnings": warnings,
    }
