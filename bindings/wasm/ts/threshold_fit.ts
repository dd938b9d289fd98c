/** Spot and threshold from the user's own marks at several doses, with what is known of both. */

import { readingWeightsCode, type ReadingWeights } from "./beam_fit.js";
import { callWithList, core } from "./core.js";
import { estimateAt, type Estimate } from "./estimate.js";
import { orElse } from "./number.js";
import type { Dose, Energy, Power } from "./scan_units.js";
import type { Length, PureNumber } from "./units.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/** What may be varied from one test mark to the next: a pulse energy, a power, a dose, or a share of one. */
export type VariedDose = Energy | Power | Dose | PureNumber;

/** One test mark of the user's own. */
export interface TestMark<Varied extends VariedDose> {
  /** What was varied, 1e-12 to 1e18; of one kind for all marks. */
  readonly dose: Varied;
  /** Width of the line, or **diameter** of the dot; 1 nm to 10 m. */
  readonly width: Length;
  /** Standard deviation of the width, 1 pm to 10 m. */
  readonly deviation: Length;
}

/** How {@link fitThreshold} fits. */
export interface ThresholdFitOptions {
  /** Left out, `refined`. */
  readonly weights?: ReadingWeights | undefined;
  /** Standard deviations beyond which a mark is left out, 2 to 1e6, 3 is usual; left out, every one is kept. */
  readonly outlierLimit?: PureNumber | undefined;
  /** Share of cases in which a range is to hold the truth, 0.5 to 1 − 1e-12; left out, 0.95. */
  readonly confidence?: PureNumber | undefined;
}

/** The bits of the warnings of a fit of spot and threshold. */
export const thresholdWarningBit = Object.freeze({
  /** Fewer than three different doses, or than four marks: nothing tells whether squared widths follow a line. */
  untried: 1,
  /** The squares stray from a line, with a chance below 1 %: heat, or another law. */
  noLine: 2,
  /** The least dose lies farther above the threshold than below the greatest, by their ratios. */
  farAbove: 4,
  /** The marks scatter more than their deviations say. */
  scatter: 8,
  /** The marks scatter less than their deviations say. */
  littleScatter: 16,
  /** At least one mark was left out as an outlier. */
  outliers: 32,
} as const);

/** Spot and threshold that fit a set of test marks. */
export interface ThresholdFit<Varied extends VariedDose> {
  /** The spot on the surface. */
  readonly spot: Estimate<BeamWidth, Length>;
  /** The threshold, of the same kind as what was varied; its range is even about its logarithm. */
  readonly threshold: Estimate<Varied>;
  /** Correlation of spot diameter and logarithm of threshold. */
  readonly correlation: number;
  /** Slope of the fitted line over its deviation. */
  readonly significance: number;
  /** χ²: squared residuals of the squared widths by their weights. */
  readonly chiSquared: number;
  /** Marks used less two. */
  readonly degreesOfFreedom: number;
  /** Chance of a χ² as great or greater. */
  readonly chiSquaredChance: number;
  /**
   * Chance of a curvature as great or greater, either way, if the squares do follow a line; 1 with fewer than four marks
   * or three different doses, which cannot tell.
   */
  readonly curvatureChance: number;
  /** How many marks were used. */
  readonly marksUsed: number;
  /** What to be wary of, one sentence each, in a fixed order. */
  readonly warnings: readonly string[];
  /** The same as a sum of bits; see {@link thresholdWarningBit}. */
  readonly warningBits: number;
  /** For each mark, also those left out, the width read less the width fitted, which is 0 below the threshold found. */
  readonly residuals: readonly Length[];
  /** Which marks were used, in the order in which they were given. */
  readonly used: readonly boolean[];
}

const warningTexts = Object.values(thresholdWarningBit).map((bit): [number, string] => [
  bit,
  core.threshold_warning_text(bit),
]);

/**
 * Spot and threshold from test marks of several doses: squared width against the logarithm of dose (Liu,
 * Optics Letters 7, 196, 1982, from memory), weighted, with deviations, ranges and warnings.
 *
 * It holds for dots against pulse energy and for lines against power at one speed, in focus and out of it.
 * Deviations are enlarged where the marks scatter more than they say; ranges are then Student's. A mark is left out as an
 * outlier if the fit gains by more than `outlierLimit` deviations without it, while at least four remain, up to a
 * quarter of all.
 *
 * Accuracy of evaluation: 1e-12 for marks whose doses span a factor of two; statistics 1e-11.
 *
 * @param marks - three at the least.
 * @throws {@link SpotwiseError} for a value outside its range; with code 8 where the marks cannot tell: too
 * few of them (parameter 116), widths that do not clearly grow with the dose (parameter 117), a threshold
 * out of their sight (parameter 129), or deviations as large as the widths (277); with code 4 where they follow another
 * law: doses on average more than 1e6 thresholds (parameter 130), or a spot that is none (parameter 19).
 */
export function fitThreshold<Varied extends VariedDose>(
  marks: readonly TestMark<Varied>[],
  options?: ThresholdFitOptions,
): ThresholdFit<Varied> {
  // What is no list holds no marks.
  const given = Array.isArray(marks) ? (marks as readonly TestMark<Varied>[]) : [];
  const count = given.length;
  const residuals = new Float64Array(count);
  const used = new Uint8Array(count);
  const code = readingWeightsCode(options?.weights);
  const numbers: number[] = [
    ...given.map((mark) => mark?.dose),
    ...given.map((mark) => mark?.width),
    ...given.map((mark) => mark?.deviation),
    orElse(options?.outlierLimit, Infinity),
    orElse(options?.confidence, 0.95),
  ];
  const operation = (all: number[]) => {
    const list = (from: number) => Float64Array.from(all.slice(from * count, (from + 1) * count));
    const [limit, confidence] = all.slice(3 * count) as [number, number];
    return core.fit_threshold(list(0), list(1), list(2), code, limit, confidence, residuals, used);
  };
  const out = callWithList(operation, numbers);
  const at = (place: number) => out[place] as number;
  const warningBits = at(17);
  return {
    spot: estimateAt(out, 0, (width) => diameter1e2(width as Length)),
    threshold: estimateAt(out, 5, (threshold) => threshold as Varied),
    correlation: at(10),
    significance: at(11),
    chiSquared: at(12),
    degreesOfFreedom: at(13),
    chiSquaredChance: at(14),
    curvatureChance: at(15),
    marksUsed: at(16),
    warnings: warningTexts.filter(([bit]) => (warningBits & bit) !== 0).map(([, text]) => text),
    warningBits,
    residuals: [...residuals] as Length[],
    used: [...used].map((byte) => byte === 1),
  };
}
