/** Tolerance stacks: what makes the surface stray, and how likely a detail holds in spite of it. */

import { beamNumbers, type Beam } from "./beam.js";
import { callWithList, core } from "./core.js";
import { orUndefined } from "./number.js";
import { signedOffset, type Offset } from "./place.js";
import type { Angle, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";

/** What makes the surface stray. It names a contribution and enters no number. */
export type ToleranceSource =
  | "part bow"
  | "thickness"
  | "fixture"
  | "lens change"
  | "height gauge"
  | "backlash"
  | "axis step"
  | "thermal drift"
  | "other";

const sourceCodes: ReadonlyMap<string, number> = new Map(
  [
    "part bow",
    "thickness",
    "fixture",
    "lens change",
    "height gauge",
    "backlash",
    "axis step",
    "thermal drift",
    "other",
  ].map((name, place) => [name, place + 1]),
);

/**
 * How a contribution strays about its mean; half widths are 0 to 1000 m.
 *
 * - `uniform`: anywhere within ± the half width, alike: all that is known is a limit.
 * - `triangular`: within ± the half width, more often in the middle.
 * - `arc sine`: as a swing of this amplitude that is met at any moment.
 * - `two-valued`: by − or + the half width, either as often, as backlash that is not taken up.
 * - `normal`: by a normal law; `coverageFactor` is half width over standard deviation, 1 to 10, 2 in most
 *   certificates.
 */
export type Distribution =
  | { readonly kind: "uniform" | "triangular" | "arc sine" | "two-valued"; readonly halfWidth: Length }
  | { readonly kind: "normal"; readonly halfWidth: Length; readonly coverageFactor: PureNumber };

/** One contribution to a tolerance stack. */
export interface Contribution {
  /** What makes the surface stray. */
  readonly source: ToleranceSource;
  /** How it strays about its mean. */
  readonly distribution: Distribution;
  /** A known error that nobody corrects, up to 1000 m; left out, there is none. */
  readonly mean?: Offset | undefined;
}

/** The contribution that is greatest of a stack. */
export interface GreatestContribution {
  /** Its place in the list, from 0; the first of equals. */
  readonly place: number;
  /** Its share of the whole; 0 where nothing strays. */
  readonly share: number;
}

/** A tolerance stack, added up. Offsets count from where the surface should be. */
export interface ToleranceStack {
  /** Sum of the means: where the surface is expected. */
  readonly bias: Offset;
  /** Sum of the half widths. */
  readonly worstHalfWidth: Length;
  /** Farthest toward the lens in the worst case. */
  readonly worstTowardLens: Offset;
  /** Farthest away from the lens in the worst case. */
  readonly worstAwayFromLens: Offset;
  /** Combined standard deviation. */
  readonly deviation: Length;
  /** Half width over deviation for the coverage probability, of a normal sum. */
  readonly coverageFactor: number;
  /** Coverage factor times combined deviation. */
  readonly expandedHalfWidth: Length;
  /** Expanded interval, its end toward the lens. */
  readonly expandedTowardLens: Offset;
  /** Expanded interval, its end away from the lens. */
  readonly expandedAwayFromLens: Offset;
  /** The contribution with the greatest variance, and its share of the variance. */
  readonly dominant: GreatestContribution;
  /** The contribution with the greatest half width, and its share of the worst case. */
  readonly widest: GreatestContribution;
}

/** How many cases to draw, and from which seed. The same draws give the same numbers on every face. */
export interface Draws {
  /** How many cases are drawn, a whole number from 10 to 1e7. */
  readonly count: PureNumber;
  /** Any whole number from 0 to `Number.MAX_SAFE_INTEGER`. */
  readonly seed: PureNumber;
}

/** A share of the cases drawn, and how well it is known. */
export interface DrawnShare {
  /** Cases that were within the limits, over those drawn. */
  readonly share: number;
  /** Standard error of the share; 0 if all cases agree, which the interval does not take for certain. */
  readonly standardError: number;
  /** Least share that goes with the draws, of the 95 % interval. */
  readonly least: number;
  /** Greatest share that goes with the draws, of the 95 % interval. */
  readonly greatest: number;
}

/** What was drawn of the surface's offset. */
export interface DrawnOffsets {
  /** Mean. */
  readonly mean: Offset;
  /** Standard deviation. */
  readonly deviation: Length;
  /** The one that lay farthest toward the lens. */
  readonly towardLens: Offset;
  /** The one that lay farthest away from the lens. */
  readonly awayFromLens: Offset;
}

/** The probability that the surface stays within limits. */
export interface OffsetOdds {
  /** Probability of both limits, as if the sum were normal. */
  readonly probability: number;
  /**
   * Probability that the surface lies too near the lens, as if the sum were normal; `undefined` where a detail
   * does not even hold in the waist.
   */
  readonly tooNearProbability: number | undefined;
  /** Probability that the surface lies too far from the lens, likewise. */
  readonly tooFarProbability: number | undefined;
  /** Share of the cases drawn that kept both limits. */
  readonly drawn: DrawnShare;
  /** The offsets drawn. */
  readonly offsets: DrawnOffsets;
}

/** The finest detail of a drawing, and the surface on which it is to hold. */
export interface SurfaceDetail {
  /** Width of the finest stroke, 1 nm to 10 m. */
  readonly finestStroke: Length;
  /** Width of the finest gap, 1 nm to 10 m. */
  readonly finestGap: Length;
  /** Fill dose over the dose at which the material just marks, 1.000001 to 1e6. */
  readonly doseRatio: PureNumber;
  /** Where the place nearest to the lens should lie, from the waist. */
  readonly highest: Offset;
  /** Where the place farthest from the lens should lie, from the waist. */
  readonly lowest: Offset;
}

/** The probability that a detail holds at one place. */
export interface PlaceOdds {
  /** As if the sum of the contributions were normal. */
  readonly probability: number;
  /** Share of the cases drawn. */
  readonly drawnShare: number;
}

/** The probability that a detail holds on a surface. */
export interface DetailOdds {
  /** Whether the detail holds in the waist. If not, it holds nowhere, and its probabilities are 0. */
  readonly holdsInWaist: boolean;
  /**
   * By how much the surface may stray toward the lens; negative where its highest place lies too near it
   * already, `undefined` where the detail does not hold in the waist.
   */
  readonly marginTowardLens: Length | undefined;
  /** By how much the surface may stray away from the lens, likewise. */
  readonly marginAwayFromLens: Length | undefined;
  /**
   * Everywhere on the surface. The greater of `tooNearProbability` and `tooFarProbability` tells which side
   * fails more.
   */
  readonly everywhere: OffsetOdds;
  /** At the highest place. */
  readonly atHighest: PlaceOdds;
  /** At the lowest place. */
  readonly atLowest: PlaceOdds;
  /** 1/e² **half** angle of the beam. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

const distributionCodes: ReadonlyMap<string, number> = new Map([
  ["uniform", 1],
  ["triangular", 2],
  ["arc sine", 3],
  ["two-valued", 4],
  ["normal", 5],
]);

/**
 * A contribution in the model's order: source, distribution, half width, coverage factor, mean. A name that does
 * not exist is 0 and refused.
 */
function contributionNumbers(contribution: Contribution): number[] {
  const { source, distribution, mean } = contribution ?? {};
  const kind = distribution?.kind;
  return [
    sourceCodes.get(source) ?? 0,
    distributionCodes.get(kind) ?? 0,
    distribution?.halfWidth,
    kind === "normal" ? distribution.coverageFactor : 0,
    mean === undefined ? 0 : mean?.zAwayFromLens,
  ];
}

/** All contributions, each with its numbers one after the other. */
function listNumbers(contributions: readonly Contribution[]): number[] {
  // What is no list is one contribution that does not exist.
  const list: readonly unknown[] = Array.isArray(contributions) ? contributions : [contributions];
  return list.flatMap((contribution) => contributionNumbers(contribution as Contribution));
}

const offsetAt = (out: Float64Array, at: number) => signedOffset(out[at] as Length);

/** Odds whose eleven numbers start there. */
function oddsFrom(out: Float64Array, at: number): OffsetOdds {
  return {
    probability: out[at] as number,
    tooNearProbability: orUndefined(out[at + 1] as number),
    tooFarProbability: orUndefined(out[at + 2] as number),
    drawn: {
      share: out[at + 3] as number,
      standardError: out[at + 4] as number,
      least: out[at + 5] as number,
      greatest: out[at + 6] as number,
    },
    offsets: {
      mean: offsetAt(out, at + 7),
      deviation: out[at + 8] as Length,
      towardLens: offsetAt(out, at + 9),
      awayFromLens: offsetAt(out, at + 10),
    },
  };
}

/**
 * Adds up a tolerance stack: worst case, combined standard deviation, and the half width that covers a share of
 * all cases (GUM, JCGM 100:2008, from memory).
 *
 * The stated coverage is that of a normal sum; one that a single uniform or two-valued contribution rules is not
 * normal, and {@link offsetOdds} tells. Contributions must not depend on each other.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result, the coverage factor 2, the expanded
 * half width 3; the ends of the expanded interval that times (|bias| + half width)/|end|.
 *
 * @param contributions - one at the least.
 * @param coverageProbability - 0.01 to 1 − 1e-12; 0.95 is usual.
 * @throws {@link SpotwiseError} for an unknown source or distribution, then for a value outside its range; with
 * code 8 for an empty list.
 */
export function toleranceStack(
  contributions: readonly Contribution[],
  coverageProbability: PureNumber,
): ToleranceStack {
  const operation = (given: number[]) =>
    core.tolerance_stack(Float64Array.from(given.slice(0, -1)), given[given.length - 1] as number);
  const out = callWithList(operation, [...listNumbers(contributions), coverageProbability]);
  return {
    bias: offsetAt(out, 0),
    worstHalfWidth: out[1] as Length,
    worstTowardLens: offsetAt(out, 2),
    worstAwayFromLens: offsetAt(out, 3),
    deviation: out[4] as Length,
    coverageFactor: out[5] as number,
    expandedHalfWidth: out[6] as Length,
    expandedTowardLens: offsetAt(out, 7),
    expandedAwayFromLens: offsetAt(out, 8),
    dominant: { place: out[9] as number, share: out[10] as number },
    widest: { place: out[11] as number, share: out[12] as number },
  };
}

/**
 * The probability that the offset of the surface stays between two limits: as if it were normal, and by drawing
 * from the contributions as they are.
 *
 * The random numbers are those of SplitMix64 (Steele, Lea and Flood, OOPSLA 2014, from memory), inverted, and the
 * same on every face; the interval of the drawn share is Wilson's. The call takes as long as its draws take.
 *
 * Accuracy: probabilities at most 3 ulp (units in the last place) of the exact result times 1 + x², x being the
 * deviations at which a limit stands; shares 2 ulp; what was drawn 3 ulp of the contributions.
 *
 * @param limits - of the sum of the contributions, means included.
 * @throws {@link SpotwiseError} as {@link toleranceStack}; also for limits in the wrong order, and for a count or
 * a seed that is not whole or out of range.
 */
export function offsetOdds(
  contributions: readonly Contribution[],
  limits: { readonly towardLens: Offset; readonly awayFromLens: Offset },
  draws: Draws,
): OffsetOdds {
  const numbers = [
    ...listNumbers(contributions),
    limits?.towardLens?.zAwayFromLens,
    limits?.awayFromLens?.zAwayFromLens,
    draws?.count,
    draws?.seed,
  ] as number[];
  const operation = (given: number[]) => {
    const [toward, away, count, seed] = given.slice(-4) as [number, number, number, number];
    return core.offset_odds(Float64Array.from(given.slice(0, -4)), toward, away, count, seed);
  };
  return oddsFrom(callWithList(operation, numbers), 0);
}

/**
 * The probability that the finest stroke and gap hold everywhere on a surface that strays by the sum of some
 * contributions.
 *
 * The margins are how far the surface may move until its highest or lowest place leaves the range in which the
 * spot is no wider than {@link largestSpotForDetails} allows. The incidence angle is not modelled.
 *
 * Accuracy: margins at most 3 ulp (units in the last place) of the exact result, times the offset at which the
 * detail just holds over the margin, times r²/(r² − 1), r being the largest spot over the waist; probabilities as
 * {@link offsetOdds}, and what the margins make of them.
 *
 * @throws {@link SpotwiseError} as {@link offsetOdds}; also for a half angle above 0.3 rad, and where the lowest
 * place lies nearer the lens than the highest.
 */
export function detailOdds(
  beam: Beam,
  detail: SurfaceDetail,
  contributions: readonly Contribution[],
  draws: Draws,
): DetailOdds {
  const numbers = [
    ...beamNumbers(beam),
    detail?.finestStroke,
    detail?.finestGap,
    detail?.doseRatio,
    detail?.highest?.zAwayFromLens,
    detail?.lowest?.zAwayFromLens,
    ...listNumbers(contributions),
    draws?.count,
    draws?.seed,
  ] as number[];
  type Eight = [number, number, number, number, number, number, number, number];
  const operation = (given: number[]) => {
    const [count, seed] = given.slice(-2) as [number, number];
    return core.detail_odds(...(given.slice(0, 8) as Eight), Float64Array.from(given.slice(8, -2)), count, seed);
  };
  const out = callWithList(operation, numbers);
  const place = (at: number): PlaceOdds => ({ probability: out[at] as number, drawnShare: out[at + 1] as number });
  return {
    holdsInWaist: out[0] === 1,
    marginTowardLens: orUndefined(out[1] as Length),
    marginAwayFromLens: orUndefined(out[2] as Length),
    everywhere: oddsFrom(out, 3),
    atHighest: place(14),
    atLowest: place(16),
    halfAngle: out[18] as Angle,
    validity: validityOf(out[19] as number),
  };
}
