/** The beam from its widths at several heights, with what is known of each number. */

import { callWithList, core } from "./core.js";
import { fullAngle, type Divergence } from "./divergence.js";
import { ESTIMATE, estimateAt, type Estimate } from "./estimate.js";
import { orElse } from "./number.js";
import { signedOffset, type Offset } from "./place.js";
import type { Angle, Length, PureNumber } from "./units.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/** The width of the beam at one height. */
export interface BeamReading {
  /** Height from any one datum, at most 1000 m. */
  readonly height: Offset;
  /** Width of the beam there, 1 nm to 10 m. */
  readonly width: BeamWidth;
  /** Standard deviation of its 1/e² (D4σ) **diameter**, 1 pm to 10 m. */
  readonly deviation: Length;
}

/**
 * How a reading weighs: by its width as it was read, the standard's plain method, whose results are left as they are; or by
 * the fitted width, with the bias of the results taken off.
 */
export type ReadingWeights = "measured" | "refined";

/** How {@link fitBeam} fits. */
export interface BeamFitOptions {
  /** Vacuum wavelength. */
  readonly wavelength: Length;
  /** Left out, `refined`. */
  readonly weights?: ReadingWeights | undefined;
  /** Standard deviations beyond which a reading is left out, 2 to 1e6, 3 is usual; left out, every one is kept. */
  readonly outlierLimit?: PureNumber | undefined;
  /** Share of cases in which a range is to hold the truth, 0.5 to 1 − 1e-12; left out, 0.95. */
  readonly confidence?: PureNumber | undefined;
  /** Dose over threshold, if the widths are those of marks and it is known: the fit then says so. It enters no number. */
  readonly markDoseRatio?: PureNumber | undefined;
}

/** The bits of the warnings of a fit. */
export const beamWarningBit = Object.freeze({
  /** Fewer than ten different heights. */
  fewHeights: 1,
  /** Less than three tenths of the readings within one Rayleigh range of the waist. */
  fewNear: 2,
  /** Less than three tenths of the readings beyond two Rayleigh ranges. */
  fewFar: 4,
  /** The waist lies outside the readings: focus is extrapolated. */
  waistOutside: 8,
  /** Fewer than two readings on one side of the waist. */
  oneSided: 16,
  /** M² below 1. */
  m2BelowOne: 32,
  /** M² below 1 by more than its range: no beam has such widths at this wavelength. */
  noBeam: 64,
  /** The readings stray from a hyperbola, with a chance below 1 %. */
  noHyperbola: 128,
  /** The widths look like those of marks, or were reported as such. */
  markWidths: 256,
  /** The readings scatter more than their deviations say. */
  scatter: 512,
  /** The readings scatter less than their deviations say. */
  littleScatter: 1024,
  /** The half angle exceeds 0.15 rad. */
  wideCone: 2048,
} as const);

/** A beam that fits a set of readings. */
export interface BeamFit {
  /** Height of the waist from the datum of the readings. */
  readonly waistZ: Estimate<Offset, Length>;
  /** The waist; deviation and bias are of its 1/e² (D4σ) **diameter**. */
  readonly waist: Estimate<BeamWidth, Length>;
  /** Rayleigh range. */
  readonly rayleighRange: Estimate<Length>;
  /** Divergence; deviation and bias are of its **full** angle. */
  readonly divergence: Estimate<Divergence, Angle>;
  /** Beam propagation ratio M²; below 1 it is flagged. */
  readonly m2: Estimate;
  /** Correlation of the height and the diameter of the waist. */
  readonly zDiameterCorrelation: number;
  /** Correlation of the height of the waist and the Rayleigh range. */
  readonly zRangeCorrelation: number;
  /** Correlation of waist diameter and Rayleigh range. */
  readonly diameterRangeCorrelation: number;
  /** χ²: squared residuals of the squared diameters by their weights. */
  readonly chiSquared: number;
  /** Readings used less three. */
  readonly degreesOfFreedom: number;
  /** Chance of a χ² as great or greater. */
  readonly chiSquaredChance: number;
  /**
   * Chance of terms of third and fourth order as great or greater, if the widths do follow a hyperbola; 1 with fewer
   * than six readings or five different heights, which cannot tell.
   */
  readonly higherTermsChance: number;
  /** How many readings were used. */
  readonly readingsUsed: number;
  /** How many of them lie within one Rayleigh range of the waist. */
  readonly readingsNear: number;
  /** How many of them lie two Rayleigh ranges from the waist, or farther. */
  readonly readingsFar: number;
  /** What to be wary of, one sentence each, in a fixed order. */
  readonly warnings: readonly string[];
  /** The same as a sum of bits; see {@link beamWarningBit}. */
  readonly warningBits: number;
  /** For each reading, also those left out, the width read less that of the least-squares curve. */
  readonly residuals: readonly Length[];
  /** Which readings were used, in the order in which they were given. */
  readonly used: readonly boolean[];
}

const warningTexts = Object.values(beamWarningBit).map((bit): [number, string] => [bit, core.beam_warning_text(bit)]);

const weightCodes: ReadonlyMap<string, number> = new Map([
  ["measured", 1],
  ["refined", 2],
]);

/** The permanent code of a choice; left out, `refined`. */
export function readingWeightsCode(weights: ReadingWeights | undefined): number {
  return weights === undefined ? 2 : (weightCodes.get(weights) ?? 0);
}

/**
 * Waist, Rayleigh range, divergence and M² from the widths of a beam at several heights (ISO 11146-1, from memory), with
 * deviations, ranges and warnings.
 *
 * Deviations are enlarged where the readings scatter more than they say; ranges are then Student's. A reading is left out
 * as an outlier if the fit gains by more than `outlierLimit` deviations without it, while at least five remain, up to a
 * quarter of all. Widths of marks are told from those of a beam where they can be: see `markWidths` of
 * {@link beamWarningBit}.
 *
 * Accuracy of evaluation: 1e-12 for readings over two Rayleigh ranges or more to either side; statistics 1e-11.
 *
 * @param readings - four at the least, at three heights at the least.
 * @throws {@link SpotwiseError} for a value outside its range; with code 8 where the readings cannot tell: too few of
 * them (parameter 274) or of their heights (268); no minimum seen (275; a value below 0 if the widths fall on either
 * side, as those of marks do): read farther from focus; a waist hidden in the scatter (276): read nearer to it; or
 * deviations as large as the widths (277).
 */
export function fitBeam(readings: readonly BeamReading[], options: BeamFitOptions): BeamFit {
  // What is no list holds no readings.
  const given = Array.isArray(readings) ? (readings as readonly BeamReading[]) : [];
  const count = given.length;
  const residuals = new Float64Array(count);
  const used = new Uint8Array(count);
  const code = readingWeightsCode(options?.weights);
  const numbers: number[] = [
    ...given.map((reading) => reading?.height?.zAwayFromLens),
    ...given.map((reading) => reading?.width?.diameter1e2),
    ...given.map((reading) => reading?.deviation),
    options?.wavelength,
    orElse(options?.outlierLimit, Infinity),
    orElse(options?.confidence, 0.95),
    orElse(options?.markDoseRatio, 0),
  ];
  const operation = (all: number[]) => {
    const list = (from: number) => Float64Array.from(all.slice(from * count, (from + 1) * count));
    const [wavelength, limit, confidence, dose] = all.slice(3 * count) as [number, number, number, number];
    return core.fit_beam(list(0), list(1), list(2), wavelength, code, limit, confidence, dose, residuals, used);
  };
  const out = callWithList(operation, numbers);
  const at = (place: number) => out[place] as number;
  const warningBits = at(35);
  return {
    waistZ: estimateAt(out, 0, (z) => signedOffset(z as Length)),
    waist: estimateAt(out, ESTIMATE, (width) => diameter1e2(width as Length)),
    rayleighRange: estimateAt(out, 2 * ESTIMATE, (range) => range as Length),
    divergence: estimateAt(out, 3 * ESTIMATE, (angle) => fullAngle(angle as Angle)),
    m2: estimateAt(out, 4 * ESTIMATE, (m2) => m2),
    zDiameterCorrelation: at(25),
    zRangeCorrelation: at(26),
    diameterRangeCorrelation: at(27),
    chiSquared: at(28),
    degreesOfFreedom: at(29),
    chiSquaredChance: at(30),
    higherTermsChance: at(31),
    readingsUsed: at(32),
    readingsNear: at(33),
    readingsFar: at(34),
    warnings: warningTexts.filter(([bit]) => (warningBits & bit) !== 0).map(([, text]) => text),
    warningBits,
    residuals: [...residuals] as Length[],
    used: [...used].map((byte) => byte === 1),
  };
}
