/** Focus or power? What a mark says that came out otherwise than a good one, and the tests that settle it. */

import { beamNumbers, type Beam } from "./beam.js";
import { call, core } from "./core.js";
import { markKindCode, type MarkKind } from "./marks.js";
import { orElse } from "./number.js";
import { signedOffset, type Offset } from "./place.js";
import type { Angle, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";

/**
 * How depth, or the optical density of a stain, goes with the dose ratio q: by ln q, as in a bulk into which the dose falls
 * off by an exponential law, and in a stain over the straight part of its characteristic curve; or by q − 1, as in a bulk of
 * which every joule above the threshold removes its share.
 */
export type DepthLaw = "logarithmic" | "linear";

const lawCodes: ReadonlyMap<string, number> = new Map([
  ["logarithmic", 1],
  ["linear", 2],
]);

/** A measured width. */
export interface WidthReading {
  /** Width of a line, or **diameter** of a dot; 1 nm to 10 m. */
  readonly width: Length;
  /** Its standard deviation, 1 pm to 0.3 of the width. */
  readonly deviation: Length;
}

/** A good mark: made in focus, of known dose. */
export interface GoodMark {
  /** What makes it. */
  readonly kind: MarkKind;
  /** Its dose over the dose at which the material just marks, 1.000001 to 1e6. */
  readonly doseRatio: PureNumber;
  /** Standard deviation of the dose ratio over itself, at most 0.3·ln(doseRatio); left out, it counts as exact. */
  readonly doseRatioDeviation?: PureNumber | undefined;
  /** Its width. */
  readonly width: WidthReading;
}

/**
 * Depths, or optical densities of a stain that go by the same law, in any one unit, 1e-12 to 1e12. A contrast 1 − R/R₀,
 * of the reflectances R of the mark and R₀ of the bare material, follows neither law: turn it into the density log₁₀(R₀/R)
 * first, with the deviation 0.434·σ/R.
 */
export interface DepthReading {
  /** How depth goes with dose. */
  readonly law: DepthLaw;
  /** Depth of the good mark. */
  readonly goodDepth: number;
  /** Its standard deviation, at most 0.3 of it. */
  readonly goodDepthDeviation: number;
  /** Depth now. */
  readonly depth: number;
  /** Its standard deviation, at most 0.3 of it. */
  readonly depthDeviation: number;
}

/** What has changed since the good mark. */
export type MarkCause =
  | "nothing"
  | "focus"
  | "power"
  | "focus and power"
  | "focus or power"
  | "power, perhaps focus"
  | "not as assumed";

const causes: readonly MarkCause[] = [
  "nothing",
  "focus",
  "power",
  "focus and power",
  "focus or power",
  "power, perhaps focus",
  "not as assumed",
];

/** The one further test that settles what stays open. */
export type FurtherTest = "nothing" | "heights on either side" | "solid patch" | "double power";

const tests: readonly FurtherTest[] = ["nothing", "heights on either side", "solid patch", "double power"];

/** Permanent bits of what stays open in {@link Finding.ambiguityBits}, the same on every face of spotwise. */
export const ambiguityBit = {
  /** On which side of the focus the surface lies. */
  side: 1,
  /** Which of two heights it is. */
  twoHeights: 2,
  /** Whether focus or the dose has changed. */
  focusOrPower: 4,
  /** Whether heat has widened the mark, should the material melt. */
  melt: 8,
  /** What has changed the dose. */
  powerOrSpeed: 16,
  /** Whether the surface is in focus: at this dose the width hardly reacts to it. */
  insensitive: 32,
} as const;

/** What every diagnosis says. */
export interface Finding {
  /** What has changed. */
  readonly cause: MarkCause;
  /** The same as a sentence for the person at the machine. */
  readonly causeText: string;
  /** The one further test that settles what stays open. */
  readonly furtherTest: FurtherTest;
  /** How to make it, as a sentence. */
  readonly furtherTestText: string;
  /** What stays open, one sentence for each, in a fixed order. */
  readonly ambiguities: readonly string[];
  /** The same as a sum of bits; see {@link ambiguityBit}. */
  readonly ambiguityBits: number;
  /** 1/e² **half** angle of the beam. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

/** Dose that the settings give now over what they gave, with its range of the coverage asked for. */
export interface PossiblePower {
  /** The ratio. */
  readonly ratio: number;
  /** Least ratio. */
  readonly least: number;
  /** Greatest ratio. */
  readonly greatest: number;
}

/** A height that explains a width: how far from the waist, on either side. */
export interface PossibleHeight {
  /** Growth of the spot there. */
  readonly growth: number;
  /** Distance from the waist. */
  readonly distance: Length;
  /** Least distance, of the coverage asked for. */
  readonly leastDistance: Length;
  /** Greatest distance, of the coverage asked for. */
  readonly greatestDistance: Length;
}

/** What width and depth of a mark say. */
export interface MarkDiagnosis extends Finding {
  /** Growth of the spot; below 1 where errors of measurement or the good mark make it so. */
  readonly growth: number;
  /** Standard deviation of the growth over itself. */
  readonly growthDeviation: number;
  /** Distance of the surface from the waist, on either side; 0 for a growth up to 1. */
  readonly distance: Length;
  /** Least distance, of the coverage asked for; 0 where the waist is not ruled out. */
  readonly leastDistance: Length;
  /** Greatest distance, of the coverage asked for. */
  readonly greatestDistance: Length;
  /** The dose. */
  readonly power: PossiblePower;
  /** Standard deviation of the power ratio over itself. */
  readonly powerRatioDeviation: number;
  /** Correlation of the logarithms of growth and power ratio. */
  readonly correlation: number;
  /** Dose ratio of the mark where it lies. */
  readonly doseRatio: number;
}

/** What the width of a mark says. */
export interface WidthDiagnosis extends Finding {
  /** The height between the waist and where the mark is widest, if the dose is as it was. */
  readonly near: PossibleHeight | undefined;
  /** The height beyond where the mark is widest, if the dose is as it was. */
  readonly far: PossibleHeight | undefined;
  /** The dose, if focus is as it was; none where even a dose ratio of 1e6 would not do. */
  readonly power: PossiblePower | undefined;
}

/** What a solid patch and a thin line say. */
export interface PatchSettlement extends Finding {
  /** The dose. */
  readonly power: PossiblePower;
  /** The height between the waist and where the line is widest. */
  readonly near: PossibleHeight | undefined;
  /** The height beyond where the line is widest. */
  readonly far: PossibleHeight | undefined;
}

/** Two marks, alike but for the power. */
export interface PowerStep {
  /** What makes them. */
  readonly kind: MarkKind;
  /** Dose ratio that the first is meant to have in focus, 1.000001 to 1e6. */
  readonly doseRatio: PureNumber;
  /** Standard deviation of the dose ratio over itself, at most 0.3·ln(doseRatio); left out, it counts as exact. */
  readonly doseRatioDeviation?: PureNumber | undefined;
  /** Power of the second over that of the first, 1.01 to 100; 2 as a rule. */
  readonly powerStep: PureNumber;
  /** Width of the first. */
  readonly first: WidthReading;
  /** Width of the second. */
  readonly stepped: WidthReading;
}

/** What two marks of different power say. */
export interface PowerSettlement extends Finding {
  /** Spot **diameter** on the surface, 1/e². */
  readonly spotDiameter1e2: Length;
  /** Its standard deviation. */
  readonly spotDiameterDeviation: Length;
  /** Growth of the spot; below 1 where errors of measurement or the beam make it so. */
  readonly growth: number;
  /** Distance of the surface from the waist, on either side; 0 for a growth up to 1. */
  readonly distance: Length;
  /** Least distance, of the coverage asked for; 0 where the waist is not ruled out. */
  readonly leastDistance: Length;
  /** Greatest distance, of the coverage asked for. */
  readonly greatestDistance: Length;
  /** Dose ratio of the first mark where it lies. */
  readonly doseRatio: number;
  /** The dose over what the dose ratio in focus means. */
  readonly power: PossiblePower;
}

/** Readings of the same mark at three heights: depth, or darkness, in any one unit, 1e-12 to 1e12. */
export interface HeightReadings {
  /** What makes it. */
  readonly kind: MarkKind;
  /** How the reading goes with dose. */
  readonly law: DepthLaw;
  /** How much nearer the lens, and how much farther; 1 nm to 1000 m. */
  readonly heightStep: Length;
  /** Reading a step nearer the lens. */
  readonly towardLens: number;
  /** Reading at the middle height. */
  readonly middle: number;
  /** Reading a step farther from the lens. */
  readonly awayFromLens: number;
  /** Standard deviation of each reading. */
  readonly deviation: number;
}

/** What the same mark at three heights says. */
export type HeightVerdict =
  | "focus within"
  | "focus toward lens"
  | "focus away from lens"
  | "no difference"
  | "contradiction";

const verdicts: readonly HeightVerdict[] = [
  "focus within",
  "focus toward lens",
  "focus away from lens",
  "no difference",
  "contradiction",
];

/** Where three heights put the surface. */
export interface HeightSettlement {
  /** What they say. */
  readonly verdict: HeightVerdict;
  /** The same as a sentence for the person at the machine. */
  readonly verdictText: string;
  /** The surface, at the middle height, relative to the waist; none unless focus lies within. */
  readonly surface: Offset | undefined;
  /** Its standard deviation, where there is one. */
  readonly deviation: Length | undefined;
  /** The end of its range toward the lens: half a step off the waist where focus lies toward the lens. */
  readonly towardLens: Offset | undefined;
  /** The end of its range away from the lens: half a step before the waist where focus lies away from it. */
  readonly awayFromLens: Offset | undefined;
  /** 1/e² **half** angle of the beam. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

const causeTexts = causes.map((_, place) => core.cause_text(place + 1));
const testTexts = tests.map((_, place) => core.further_test_text(place + 1));
const verdictTexts = verdicts.map((_, place) => core.height_verdict_text(place + 1));
const ambiguityTexts = Object.values(ambiguityBit).map((bit): [number, string] => [bit, core.ambiguity_text(bit)]);

function finding(out: Float64Array, cone: number): Finding {
  const [cause, test, ambiguityBits] = [out[0] as number, out[1] as number, out[2] as number];
  return {
    cause: causes[cause - 1] as MarkCause,
    causeText: causeTexts[cause - 1] as string,
    furtherTest: tests[test - 1] as FurtherTest,
    furtherTestText: testTexts[test - 1] as string,
    ambiguities: ambiguityTexts.filter(([bit]) => (ambiguityBits & bit) !== 0).map(([, text]) => text),
    ambiguityBits,
    halfAngle: out[cone] as Angle,
    validity: validityOf(out[cone + 1] as number),
  };
}

function height(out: Float64Array, at: number): PossibleHeight | undefined {
  const growth = out[at] as number;
  if (Number.isNaN(growth)) return undefined;
  return {
    growth,
    distance: out[at + 1] as Length,
    leastDistance: out[at + 2] as Length,
    greatestDistance: out[at + 3] as Length,
  };
}

function power(out: Float64Array, at: number): PossiblePower {
  return { ratio: out[at] as number, least: out[at + 1] as number, greatest: out[at + 2] as number };
}

function goodNumbers(good: GoodMark): [number, number, number, number, number] {
  const kind = markKindCode(good?.kind);
  const doseRatio = good?.doseRatio;
  const doseRatioDeviation = orElse(good?.doseRatioDeviation, 0);
  return [kind, doseRatio, doseRatioDeviation, ...widthNumbers(good?.width)];
}

function widthNumbers(reading: WidthReading): [number, number] {
  return [reading?.width, reading?.deviation];
}

function depthNumbers(depths: DepthReading): [number, number, number, number, number] {
  const law = lawCodes.get(depths?.law) ?? 0;
  return [law, depths?.goodDepth, depths?.goodDepthDeviation, depths?.depth, depths?.depthDeviation];
}

/**
 * Focus or power, from width and depth of a mark against those of a good one.
 *
 * Both together part focus from power. What stays open is on which side of the focus the surface lies; and in a melt heat
 * widens the mark as well. The range of the distance begins at 0 where the waist is not ruled out.
 * {@link compensate} makes up for the distance; it needs no sign.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result, times 1 + ln(dose ratio) + what relative errors
 * of the inputs make of it.
 *
 * @param coverageProbability - of each range, 0.01 to below 1; 0.95 as a rule.
 * @throws {@link SpotwiseError} for an unknown kind or law, then for a value outside its range, and where dose ratio or
 *   growth of the mark leave the model.
 */
export function diagnoseMark(
  beam: Beam,
  good: GoodMark,
  depths: DepthReading,
  now: WidthReading,
  coverageProbability: PureNumber,
): MarkDiagnosis {
  const inputs = [...goodNumbers(good), ...depthNumbers(depths), ...widthNumbers(now)] as const;
  const out = call(core.diagnose_mark, ...beamNumbers(beam), ...inputs, coverageProbability);
  return {
    growth: out[3] as number,
    growthDeviation: out[4] as number,
    distance: out[5] as Length,
    leastDistance: out[6] as Length,
    greatestDistance: out[7] as Length,
    power: { ratio: out[8] as number, least: out[10] as number, greatest: out[11] as number },
    powerRatioDeviation: out[9] as number,
    correlation: out[12] as number,
    doseRatio: out[13] as number,
    ...finding(out, 14),
  };
}

/**
 * Focus or power, from the width of a mark alone against that of a good one: the heights that explain it if the dose is as
 * it was, and the dose that explains it if focus is.
 *
 * Two heights explain a width between that in the waist and the greatest, one explains a lesser width, none a greater
 * one: then the dose must have changed. A good line of about √e times the threshold, or a dot of e times, does not show focus.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result, times 1 + ln(dose ratio) + what relative errors
 * of the inputs make of it.
 *
 * @param coverageProbability - of each range, 0.01 to below 1; 0.95 as a rule.
 * @throws {@link SpotwiseError} for an unknown kind, then for a value outside its range.
 */
export function diagnoseWidth(
  beam: Beam,
  good: GoodMark,
  now: WidthReading,
  coverageProbability: PureNumber,
): WidthDiagnosis {
  const inputs = [...goodNumbers(good), ...widthNumbers(now)] as const;
  const out = call(core.diagnose_width, ...beamNumbers(beam), ...inputs, coverageProbability);
  return {
    near: height(out, 3),
    far: height(out, 7),
    power: Number.isNaN(out[11]) ? undefined : power(out, 11),
    ...finding(out, 14),
  };
}

/**
 * Focus or power, from a solid patch and a thin line of one job against good ones: the inside of the patch goes by the dose
 * alone, the line by dose and focus.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result, times 1 + the logarithms of both dose ratios +
 * what relative errors of the inputs make of it.
 *
 * @param patch - depths inside the patches.
 * @param patchDoseRatio - dose ratio inside the good patch, 1.000001 to 1e6.
 * @param now - the line.
 * @param coverageProbability - of each range, 0.01 to below 1; 0.95 as a rule.
 * @throws {@link SpotwiseError} for an unknown kind or law, then for a value outside its range, and where patch and line
 *   contradict each other.
 */
export function settleByPatch(
  beam: Beam,
  good: GoodMark,
  patch: DepthReading,
  patchDoseRatio: PureNumber,
  now: WidthReading,
  coverageProbability: PureNumber,
): PatchSettlement {
  const inputs = [...goodNumbers(good), ...depthNumbers(patch), patchDoseRatio, ...widthNumbers(now)] as const;
  const out = call(core.settle_by_patch, ...beamNumbers(beam), ...inputs, coverageProbability);
  return { power: power(out, 3), near: height(out, 6), far: height(out, 10), ...finding(out, 14) };
}

/**
 * Focus or power, from the same line once more at another power, twice as a rule: how much it widens tells the spot on the
 * surface. Needs no good mark, only the beam.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result, times 1 + ln(dose ratio) + what relative errors
 * of the inputs make of it.
 *
 * @param coverageProbability - of each range, 0.01 to below 1; 0.95 as a rule.
 * @throws {@link SpotwiseError} for an unknown kind, then for a value outside its range; where the second mark is wider by
 *   less than 3 standard deviations; and where spot or dose ratio leave the model.
 */
export function settleByPower(beam: Beam, step: PowerStep, coverageProbability: PureNumber): PowerSettlement {
  const out = call(
    core.settle_by_power,
    ...beamNumbers(beam),
    markKindCode(step?.kind),
    step?.doseRatio,
    orElse(step?.doseRatioDeviation, 0),
    step?.powerStep,
    ...widthNumbers(step?.first),
    ...widthNumbers(step?.stepped),
    coverageProbability,
  );
  return {
    spotDiameter1e2: out[3] as Length,
    spotDiameterDeviation: out[4] as Length,
    growth: out[5] as number,
    distance: out[6] as Length,
    leastDistance: out[7] as Length,
    greatestDistance: out[8] as Length,
    doseRatio: out[9] as number,
    power: power(out, 10),
    ...finding(out, 13),
  };
}

/**
 * Where focus lies, from the same mark at the height in question, a step nearer the lens and a step farther.
 *
 * A reading is one that is greatest in focus: depth, or the darkness of a stain, never a width, which a strong mark grows
 * out of focus. If the middle one is the greatest, focus is no farther than half a step, and the three tell where.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result, times 1 + what relative errors of the inputs make of it.
 *
 * @param coverageProbability - of the range and of each difference, 0.01 to below 1; 0.95 as a rule.
 * @throws {@link SpotwiseError} for an unknown kind or law, then for a value outside its range.
 */
export function settleByHeights(
  beam: Beam,
  readings: HeightReadings,
  coverageProbability: PureNumber,
): HeightSettlement {
  const out = call(
    core.settle_by_heights,
    ...beamNumbers(beam),
    markKindCode(readings?.kind),
    lawCodes.get(readings?.law) ?? 0,
    readings?.heightStep,
    readings?.towardLens,
    readings?.middle,
    readings?.awayFromLens,
    readings?.deviation,
    coverageProbability,
  );
  const offset = (at: number): Offset | undefined =>
    Number.isNaN(out[at]) ? undefined : signedOffset(out[at] as Length);
  const verdict = out[0] as number;
  return {
    verdict: verdicts[verdict - 1] as HeightVerdict,
    verdictText: verdictTexts[verdict - 1] as string,
    surface: offset(1),
    deviation: Number.isNaN(out[2]) ? undefined : (out[2] as Length),
    towardLens: offset(3),
    awayFromLens: offset(4),
    halfAngle: out[5] as Angle,
    validity: validityOf(out[6] as number),
  };
}
