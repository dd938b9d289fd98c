/** Focus, spot and dose from the user's own marks at stepped heights. */

import { callWithList, core } from "./core.js";
import { ESTIMATE, estimateAt, type Estimate } from "./estimate.js";
import { markKindCode, type MarkKind } from "./marks.js";
import { orElse } from "./number.js";
import { signedOffset, type Offset } from "./place.js";
import type { Length, PureNumber } from "./units.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/** One mark of a series at stepped heights. */
export interface SeriesMark {
  /** Height of the surface, from any one datum. */
  readonly height: Offset;
  /** Width of the line, or **diameter** of the dot, 1 nm to 10 m; `null` for a mark that vanished. */
  readonly width: Length | null;
  /** Standard deviation of the width, 1 pm to 10 m; of a mark that vanished, the width that might have been overlooked. */
  readonly deviation: Length;
  /** Power over the power of reference, 0.001 to 1000; left out, 1, as in a series at one power. */
  readonly powerRatio?: PureNumber | undefined;
}

/** A value that is known beforehand, and how well. */
export interface Prior<Value> {
  /** The value. */
  readonly value: Value;
  /** Its standard deviation over itself, 1e-6 to 10. */
  readonly relativeDeviation: PureNumber;
}

/**
 * What the stated deviations of widths are worth: `stated` takes them at their word; of `found` only their ratios
 * count, and how far the marks scatter, the fit finds.
 */
export type WidthScatter = "stated" | "found";

/** What is known of a series of marks, and how a fit is to judge them. */
export interface MarkSeries {
  /** What makes the marks. */
  readonly kind: MarkKind;
  /** Vacuum wavelength, 10 nm to 10 mm. */
  readonly wavelength: Length;
  /** M², if known. A rough one helps much. */
  readonly mSquared?: Prior<PureNumber> | undefined;
  /** The waist, if known, with the deviation of its diameter. */
  readonly waist?: Prior<BeamWidth> | undefined;
  /** Deviations beyond which a mark is left out, 2 to 1e6, 3 is usual; left out, every mark is kept. */
  readonly outlierLimit?: PureNumber | undefined;
  /** Share of cases in which each range is to hold the truth, 0.5 to 1 − 1e-12; left out, 0.95. */
  readonly confidence?: PureNumber | undefined;
  /** What the stated deviations are worth; left out, they are taken at their word. */
  readonly scatter?: WidthScatter | undefined;
}

/** Permanent bits of {@link MarkFit.cautionBits}, the same on every face of spotwise. */
export const markFitCautionBit = {
  /** Marks were left out as outliers. */
  outliers: 1,
  /** The marks scatter more than is stated. */
  scatter: 2,
  /** M² lies below 1 by more than its range: wavelength, scale or kind are wrong, or the marks heat and melt. */
  mSquaredBelowOne: 4,
  /** Spot and dose are hard to tell apart: the sizes are rough; read their ranges, which may be open. */
  weakSize: 8,
  /** The deviation of the height of the waist exceeds 0.15 Rayleigh ranges. */
  weakPlace: 16,
  /** A waist at another height fits about as well. */
  secondSolution: 32,
  /** Fewer than two heights lie beyond the waist on one side. */
  oneSided: 64,
} as const;

/** Permanent bits of {@link MarkFit.furtherBits}, the same on every face of spotwise. */
export const furtherMarksBit = {
  /** At heights nearer to the lens. */
  towardLens: 1,
  /** At heights farther from the lens. */
  awayFromLens: 2,
  /** At the same heights with twice the power. */
  twiceThePower: 4,
  /** With less power, or out to where the marks vanish. */
  untilTheyVanish: 8,
  /** The marks left out, once more. */
  repeats: 16,
} as const;

/** What a series of marks tells. */
export interface MarkFit {
  /** Height of the waist, from the datum of the heights. */
  readonly waistHeight: Estimate<Offset, Length>;
  /** The waist. */
  readonly waist: Estimate<BeamWidth, Length>;
  /** Rayleigh range. */
  readonly rayleighRange: Estimate<Length>;
  /** Dose over threshold in the waist, at the power of reference. */
  readonly doseRatio: Estimate;
  /** M². */
  readonly mSquared: Estimate;
  /** Correlations of height, ln d, ln zR and ln q, in the order (z, d), (z, zR), (z, q), (d, zR), (d, q), (zR, q). */
  readonly correlations: readonly number[];
  /** Half width of a range over the deviation. */
  readonly rangeFactor: number;
  /** χ². */
  readonly chiSquared: number;
  /** Marks seen and used, and what was known before, less four. */
  readonly degreesOfFreedom: number;
  /** Chance of a χ² so great or greater, if the stated deviations hold. */
  readonly chance: number;
  /** By how many deviations the widths change with height. */
  readonly shapeSignificance: number;
  /** How many marks were used that were seen. */
  readonly marksUsed: number;
  /** How many marks were used that vanished. */
  readonly vanishedUsed: number;
  /** What to beware of, one sentence each. */
  readonly cautions: readonly string[];
  /** The same as a sum of bits; see {@link markFitCautionBit}. */
  readonly cautionBits: number;
  /** Which further marks would make the answer better, one sentence each. */
  readonly further: readonly string[];
  /** The same as a sum of bits; see {@link furtherMarksBit}. */
  readonly furtherBits: number;
  /** By how many deviations each mark is wider than the fit, in the order in which they were given. */
  readonly residuals: readonly number[];
  /** Which marks were used, in that order. */
  readonly used: readonly boolean[];
}

const scatterCodes = new Map<unknown, number>([
  ["stated", 1],
  ["found", 2],
]);
const cautionTexts = Object.values(markFitCautionBit).map((bit): [number, string] => [
  bit,
  core.mark_fit_caution_text(bit),
]);
const furtherTexts = Object.values(furtherMarksBit).map((bit): [number, string] => [bit, core.further_marks_text(bit)]);

function sentences(texts: readonly [number, string][], bits: number): string[] {
  return texts.filter(([bit]) => (bits & bit) !== 0).map(([, text]) => text);
}

/** A prior in the model's order: value, relative deviation; infinite for none. */
function priorNumbers(value: number | undefined, prior: Prior<unknown> | undefined): [number, number] {
  return prior === undefined ? [NaN, Infinity] : [value as number, prior?.relativeDeviation];
}

/** Numbers of what is known of a series. */
const KNOWN = 9;

/**
 * Focus, spot, Rayleigh range and dose from the widths of marks at stepped heights, with covariance, confidence ranges
 * and goodness of fit.
 *
 * A mark is √(2L) of the spot's 1/e² radius wide, where L is the logarithm of dose over threshold at its height: it is
 * no width of the beam. Where L is not positive the mark vanishes, and that tells something too. A mark is left out as
 * an outlier if the fit gains by more than `outlierLimit` deviations without it, up to a quarter of all.
 *
 * Where spot and dose are hard to tell apart, a range goes as far as the marks allow, and may be open: to 0 for the waist
 * and M², to 1 for the dose ratio, or to the greatest that the model knows.
 *
 * Errors of the heights, astigmatism, aberration, and marks that heat has widened are not modelled.
 *
 * @param marks - five seen at the least, less one for each of `mSquared` and `waist` that is known.
 * @throws {@link SpotwiseError} for an unknown choice or a value outside its range; with code 8 where the marks cannot
 * tell, and its message says what would help: too few marks (parameter 116) or heights (268); widths that do not clearly
 * change with height (269); a waist outside the heights (270); a height of the waist too uncertain (271); a spot that
 * cannot be told from the dose (272); with code 4 where the result is none of the model's.
 */
export function fitMarkWidths(marks: readonly SeriesMark[], series: MarkSeries): MarkFit {
  // What is no list holds no marks.
  const given = Array.isArray(marks) ? (marks as readonly SeriesMark[]) : [];
  const count = given.length;
  const residuals = new Float64Array(count);
  const used = new Uint8Array(count);
  const scatter = series?.scatter;
  const { mSquared, waist } = series ?? ({} as Partial<MarkSeries>);
  const numbers: number[] = [
    ...given.map((mark) => mark?.height?.zAwayFromLens),
    // A mark that vanished has no width. What is not even that is no number.
    ...given.map((mark) => (mark?.width === null ? 0 : mark?.width)),
    ...given.map((mark) => mark?.deviation),
    ...given.map((mark) => orElse(mark?.powerRatio, 1)),
    markKindCode(series?.kind),
    series?.wavelength,
    ...priorNumbers(mSquared?.value, mSquared),
    ...priorNumbers(waist?.value?.diameter1e2, waist),
    orElse(series?.outlierLimit, Infinity),
    orElse(series?.confidence, 0.95),
    scatter === undefined ? 1 : (scatterCodes.get(scatter) ?? 0),
  ];
  const operation = (all: number[]) => {
    const list = (from: number) => Float64Array.from(all.slice(from * count, (from + 1) * count));
    const known = all.slice(4 * count, 4 * count + KNOWN) as [
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    return core.fit_mark_widths(list(0), list(1), list(2), list(3), ...known, residuals, used);
  };
  const out = callWithList(operation, numbers);
  const same = (number: number) => number;
  const cautionBits = out[38] as number;
  const furtherBits = out[39] as number;
  return {
    waistHeight: estimateAt(out, 0, (z) => signedOffset(z as Length)),
    waist: estimateAt(out, ESTIMATE, (d) => diameter1e2(d as Length)),
    rayleighRange: estimateAt(out, 2 * ESTIMATE, (range) => range as Length),
    doseRatio: estimateAt(out, 3 * ESTIMATE, same),
    mSquared: estimateAt(out, 4 * ESTIMATE, same),
    correlations: [...out.subarray(25, 31)],
    rangeFactor: out[31] as number,
    chiSquared: out[32] as number,
    degreesOfFreedom: out[33] as number,
    chance: out[34] as number,
    shapeSignificance: out[35] as number,
    marksUsed: out[36] as number,
    vanishedUsed: out[37] as number,
    cautions: sentences(cautionTexts, cautionBits),
    cautionBits,
    further: sentences(furtherTexts, furtherBits),
    furtherBits,
    residuals: [...residuals],
    used: [...used].map((byte) => byte === 1),
  };
}
