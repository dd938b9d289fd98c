"""A tolerance stack, and the probability that the surface, or a detail on it, stays within limits.

  distribution   standard deviation                    by
  1 uniform      a/sqrt 3                              GUM 4.3.7
  2 triangular   a/sqrt 6                              GUM 4.3.9
  3 arc sine     a/sqrt 2                              GUM supplement 1, 6.4.6
  4 two-valued   a
  5 normal       a over its coverage factor            GUM 4.3.3

Variances add. The normal sum is within [A, B] with the probability (erf y - erf x)/2, x and y being the ends
less the mean over sqrt 2 deviations.

Drawn: SplitMix64 in whole numbers, of which the upper 52 bits n give the distribution function F = (n + 1/2)/2^52;
each distribution is inverted from its own distribution function. The share's interval solves
(h/N - s)^2 = z^2 s (1 - s)/N (Wilson), as a quadratic.
"""

from functools import cache

from mpmath import cos, erf, erfc, exp, mpf, nan, pi, sqrt

from checks import NEAR, OUT_OF_RANGE, Refused, TooClose, allowed, choice, exceeds, number, number_within
from model_beam import checked_beam
from model_detail import Details, erf_inverse

PLACES = range(1, 5)
UNIFORM, TRIANGULAR, ARC_SINE, TWO_VALUED, NORMAL = 1, 2, 3, 4, 5
VARIANCE = {UNIFORM: mpf(1) / 3, TRIANGULAR: mpf(1) / 6, ARC_SINE: mpf(1) / 2, TWO_VALUED: mpf(1)}
FAR = 1e7

# ulp of functions.toml for what is conditioned here
PROBABILITY_ULP = 3
EXPANDED_ULP = 3
DRAWN_ULP = 3
MARGIN_ULP = 3


class Contribution:
    def __init__(self, kind, half_width, factor, mean):
        self.kind, self.half_width, self.factor, self.mean = kind, half_width, factor, mean
        self.given = (kind, half_width, factor)

    def variance(self):
        share = 1 / self.factor**2 if self.kind == NORMAL else VARIANCE[self.kind]
        return self.half_width**2 * share

    def deviate(self, n):
        """Inverse of the distribution function at F = (2n + 1)/2^53."""
        a, f = self.half_width, mpf(2 * n + 1) / 2**53
        if self.kind == UNIFORM:
            return a * (2 * f - 1)
        if self.kind == TRIANGULAR:
            return a * (sqrt(2 * f) - 1) if f < mpf(1) / 2 else a * (1 - sqrt(2 * (1 - f)))
        if self.kind == ARC_SINE:
            return -a * cos(pi * f)
        if self.kind == TWO_VALUED:
            return -a if f < mpf(1) / 2 else a
        return a / self.factor * sqrt(2) * (erf_inverse(2 * f - 1, 2 * (1 - f)) if f > mpf(1) / 2 else
                                            -erf_inverse(1 - 2 * f, 2 * f))


def contributions(row):
    """Choices first, as every face reads them; then the numbers, contribution by contribution."""
    for i in PLACES:
        choice("tolerance source", row[f"source{i}"])
        choice("distribution", row[f"distribution{i}"])
    return lambda: [checked(row, i) for i in PLACES]


def checked(row, i):
    kind = row[f"distribution{i}"]
    half_width = number("half width", row[f"half_width{i}"])
    factor = number("coverage factor", row[f"coverage_factor{i}"]) if kind == NORMAL else None
    return Contribution(kind, half_width, factor, number("mean offset", row[f"mean{i}"]))


def greatest(terms, alike):
    """Place and share of the greatest term; the first of those that are alike, as this list of keys tells."""
    total, top = sum(terms), max(terms)
    if total == 0:
        return 0, mpf(0)
    close = [i for i, term in enumerate(terms) if top - term <= NEAR * top]
    if len({alike[i] for i in close}) > 1:
        raise TooClose
    return close[0], top / total


def tolerance_stack(row):
    them = contributions(row)()
    p = number("coverage probability", row["coverage_probability"])
    bias = sum(c.mean for c in them)
    variances = [c.variance() for c in them]
    deviation = sqrt(sum(variances))
    worst = sum(c.half_width for c in them)
    k = sqrt(2) * erf_inverse(p, 1 - p)
    expanded = k * deviation
    half_widths = [c.half_width for c in them]
    dominant, dominant_share = greatest(variances, [c.given for c in them])
    widest, widest_share = greatest(half_widths, half_widths)
    ends = {"expanded_toward_lens_z": bias - expanded, "expanded_away_from_lens_z": bias + expanded}
    answer = {
        "bias": bias,
        "worst_half_width": worst,
        "worst_toward_lens_z": bias - worst,
        "worst_away_from_lens_z": bias + worst,
        "deviation": deviation,
        "coverage_factor": k,
        "expanded_half_width": expanded,
        "dominant": dominant,
        "dominant_share": dominant_share,
        "widest": widest,
        "widest_share": widest_share,
    }
    for name, end in ends.items():
        answer |= {name: end, f"{name}_ulp": allowed(EXPANDED_ULP, shrunk(abs(bias) + expanded, end))}
    return answer


def shrunk(parts, whole):
    """By how much a sum is less than its parts, which carry the errors."""
    if parts == 0:
        return mpf(1)
    if abs(whole) <= NEAR * parts:
        raise TooClose
    return parts / abs(whole)


def split_mix_64(seed):
    mask = 2**64 - 1
    state = seed
    while True:
        state = (state + 0x9E3779B97F4A7C15) & mask
        z = state
        z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & mask
        z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & mask
        yield z ^ (z >> 31)


def checked_draws(row):
    count, seed = int(row["draws"]), int(row["seed"])
    if not 10 <= count <= 10**7:
        raise Refused(OUT_OF_RANGE, "whole number of draws")
    if not 0 <= seed < 2**53:
        raise Refused(OUT_OF_RANGE, "whole-number seed")
    return count, seed


@cache
def normal_quantile():
    return sqrt(2) * erf_inverse(mpf("0.95"), mpf("0.05"))


def share_of(hits, count):
    h, n, z = mpf(hits), mpf(count), normal_quantile()
    # a s^2 - 2 b s + c = 0
    a, b, c = 1 + z**2 / n, h / n + z**2 / (2 * n), (h / n) ** 2
    root = sqrt(b**2 - a * c)
    return {
        "share": h / n,
        "standard_error": sqrt(h / n * (1 - h / n) / n),
        "least_share": (b - root) / a if hits else mpf(0),
        "greatest_share": (b + root) / a if hits < count else mpf(1),
    }


class Drawn:
    """The cases drawn, each with the sum of the magnitudes that it is made of."""

    def __init__(self, them, count, seed):
        numbers = split_mix_64(seed)
        bias = sum(c.mean for c in them)
        self.cases = []
        for _ in range(count):
            deviates = [c.deviate(next(numbers) >> 12) for c in them]
            self.cases.append((bias + sum(deviates), abs(bias) + sum(abs(d) for d in deviates)))
        self.bias = bias

    def hits(self, low, high):
        """How many lie within; none may lie on a limit, unless nothing at all was rounded."""
        hits = 0
        for x, parts in self.cases:
            for limit in (low, high):
                if abs(x - limit) <= NEAR * (parts + abs(limit)) and not (x == limit == self.bias):
                    raise TooClose
            hits += low <= x <= high
        return hits

    def offsets(self):
        count = len(self.cases)
        mean = sum(x for x, _ in self.cases) / count
        squares = sum((x - mean) ** 2 for x, _ in self.cases)
        deviation = sqrt(squares / (count - 1))
        strays = any(x != self.bias for x, _ in self.cases)
        if strays and deviation == 0:
            raise TooClose
        moved = sum(abs(x - mean) * (parts - abs(self.bias)) for x, parts in self.cases)
        # Equal to half a double: the first that lies there tells the parts.
        least, greatest = min(self.cases), max(self.cases)
        found = {
            "mean": (mean, shrunk(sum(parts for _, parts in self.cases) / count, mean)),
            "deviation": (deviation, 1 + moved / squares if strays else mpf(1)),
            "least_z": (least[0], shrunk(least[1], least[0])),
            "greatest_z": (greatest[0], shrunk(greatest[1], greatest[0])),
        }
        answer = {}
        for name, (value, factor) in found.items():
            answer |= {f"drawn_{name}": value, f"drawn_{name}_ulp": allowed(DRAWN_ULP, factor)}
        return answer


class Normal:
    """The normal sum, and what a relative error of the limits makes of its probabilities."""

    def __init__(self, them):
        self.mean = sum(c.mean for c in them)
        self.deviation = sqrt(sum(c.variance() for c in them))

    def odds(self, low, high, low_error=mpf(0), high_error=mpf(0)):
        """Probability within, too near and too far, each with its factor. The errors are of the limits, in metres
        for each ulp."""
        below, above = low - self.mean, high - self.mean
        if self.deviation == 0:
            for gap in (below, above):
                if gap != 0 and abs(gap) <= NEAR * (abs(low) + abs(high) + abs(self.mean)):
                    raise TooClose
            near, far = mpf(below > 0), mpf(above < 0)
            return (1 - near - far, mpf(1)), (near, mpf(1)), (far, mpf(1))
        unit = sqrt(2) * self.deviation
        x, y = below / unit, above / unit
        if x >= 0:
            within = (erfc(x) - erfc(y)) / 2
        elif y <= 0:
            within = (erfc(-y) - erfc(-x)) / 2
        else:
            within = (erf(-x) + erf(y)) / 2
        slope_x, slope_y = exp(-(x**2)) / sqrt(pi), exp(-(y**2)) / sqrt(pi)
        near, far = erfc(-x) / 2, erfc(y) / 2
        if x < 0 < y:
            own = -x * slope_x + y * slope_y
        else:
            # Both ends move together; their distance is told by itself.
            own = min(abs(x), abs(y)) * abs(slope_x - slope_y)
        moved_x, moved_y = slope_x * low_error / unit, slope_y * high_error / unit
        return (
            (within, factor(own + moved_x + moved_y, within)),
            (near, factor(abs(x) * slope_x + moved_x, near)),
            (far, factor(abs(y) * slope_y + moved_y, far)),
        )


def factor(moved, value):
    if value < mpf(10) ** -400:
        return mpf(1)
    return 1 + moved / value


def odds_answer(them, normal, drawn, low, high, errors=(mpf(0), mpf(0))):
    within, near, far = normal.odds(low, high, *errors)
    answer = {}
    for name, (value, times) in (("", within), ("too_near_", near), ("too_far_", far)):
        answer |= {f"{name}probability": value, f"{name}probability_ulp": allowed(PROBABILITY_ULP, times)}
    answer |= {f"drawn_{name}": value for name, value in share_of(drawn.hits(low, high), len(drawn.cases)).items()}
    return answer | drawn.offsets()


def offset_odds(row):
    them = contributions(row)()
    low = number("limit toward the lens", row["toward_lens_z"])
    high = number_within("limit away from the lens", row["away_from_lens_z"], row["toward_lens_z"], FAR)
    count, seed = checked_draws(row)
    return odds_answer(them, Normal(them), Drawn(them, count, seed), low, high)


def detail_odds(row):
    read = contributions(row)
    beam = checked_beam(row)
    stroke = number("finest stroke", row["finest_stroke"])
    gap = number("finest gap", row["finest_gap"])
    q = number("dose ratio", row["dose_ratio"])
    highest = number("z of the highest place", row["highest_z"])
    lowest = number_within("z of the lowest place", row["lowest_z"], row["highest_z"], FAR)
    them = read()
    count, seed = checked_draws(row)

    normal, drawn = Normal(them), Drawn(them, count, seed)
    largest = Details(q).largest_spot(stroke, gap)
    if not exceeds(largest, beam.waist_diameter):
        never = {f"drawn_{name}": mpf(0) for name in ("share", "standard_error", "least_share", "greatest_share")}
        zeros = dict.fromkeys(
            ["probability", "highest_probability", "highest_drawn_share", "lowest_probability", "lowest_drawn_share"],
            mpf(0),
        )
        unknown = ["margin_toward_lens", "margin_away_from_lens", "too_near_probability", "too_far_probability"]
        nothing = dict.fromkeys(unknown, nan)
        return {"holds_in_waist": 0} | zeros | nothing | never | drawn.offsets() | beam.cone
    r = largest / beam.waist_diameter
    half = beam.rayleigh_range * sqrt((r - 1) * (r + 1))
    # What an ulp of the largest spot moves the ends by.
    error = half * r**2 / (r**2 - 1)
    near, far = half + highest, half - lowest
    answer = {"holds_in_waist": 1, "margin_toward_lens": near, "margin_away_from_lens": far}
    for name, margin in (("margin_toward_lens", near), ("margin_away_from_lens", far)):
        answer[f"{name}_ulp"] = allowed(MARGIN_ULP, shrunk(error + half, margin))
    odds = odds_answer(them, normal, drawn, -near, far, (error, error))
    if not exceeds(2 * half, lowest - highest):
        # Not even the most lucky case holds.
        names = ("probability", "drawn_share", "drawn_standard_error", "drawn_least_share", "drawn_greatest_share")
        odds |= dict.fromkeys(names, mpf(0))
    for name, place in (("highest", highest), ("lowest", lowest)):
        low, high = -half - place, half - place
        (within, times), _, _ = normal.odds(low, high, error, error)
        answer |= {
            f"{name}_probability": within,
            f"{name}_probability_ulp": allowed(PROBABILITY_ULP, times),
            f"{name}_drawn_share": mpf(drawn.hits(low, high)) / count,
        }
    return answer | odds | beam.cone

