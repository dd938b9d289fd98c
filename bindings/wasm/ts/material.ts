/** How a material answers to dose, and what the user's own test marks tell of spot and threshold. */

import { call, callWithList, core } from "./core.js";
import { orElse, orUndefined } from "./number.js";
import type { Diffusivity, Dose, Energy, EnergyPerVolume, Power, Time } from "./scan_units.js";
import type { Length, PureNumber } from "./units.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/**
 * How a material answers to dose.
 *
 * - `coating`: is removed above the threshold, and no further.
 * - `logarithmic ablation`: a bulk in which the dose falls by e over the `penetrationDepth`, 1 pm to 1 m.
 * - `linear ablation`: a bulk of which every joule above the threshold removes its share;
 *   `removalEnergy`: 1 to 1e15 J/m³.
 * - `melt`: its heat spreads while the spot dwells; `diffusivity`: 0 to 0.01 m²/s.
 */
export type Response =
  | { readonly kind: "coating" }
  | { readonly kind: "logarithmic ablation"; readonly penetrationDepth: Length }
  | { readonly kind: "linear ablation"; readonly removalEnergy: EnergyPerVolume }
  | { readonly kind: "melt"; readonly diffusivity: Diffusivity };

/**
 * A material, as the user's own test marks show it. There is no table of materials: coatings of one name
 * differ by more than any table could tell.
 */
export interface Material {
  /** Dose at which a single exposure just marks, 1e-12 to 1e18 J/m²; {@link fitThreshold} finds it. */
  readonly threshold: Dose;
  /**
   * Incubation S, by which the threshold of N exposures falls as N^(S − 1), 0.5 to 1 (an empirical law: Jee,
   * Becker and Walser, J. Opt. Soc. Am. B 5, 648, 1988, from memory); left out, there is none.
   */
  readonly incubation?: PureNumber | undefined;
  /** How it answers above the threshold. */
  readonly response: Response;
}

/** What falls on one place of a material. */
export interface Exposure {
  /** Dose there, of the same kind as the material's threshold; 1e-12 to 1e18 J/m². */
  readonly dose: Dose;
  /** From how many exposures, 1 to 1e9; left out, from one. */
  readonly exposures?: PureNumber | undefined;
  /** The spot, 1 nm to 10 m. */
  readonly spot: BeamWidth;
  /** How long the spot stays, 0 to 1e6 s; see {@link ScanDose}. It matters only to a melt. */
  readonly dwell: Time;
}

/** What a dose does to a {@link Material}. */
export interface MaterialMark {
  /** Threshold after so many exposures. */
  readonly threshold: Dose;
  /** Dose over that threshold. */
  readonly doseRatio: number;
  /** Whether it marks. */
  readonly marks: boolean;
  /** Depth, 0 below the threshold; `undefined` for a coating or a melt, which tell none. */
  readonly depth: Length | undefined;
  /** The spot as the material sees it, widened by heat in a melt. */
  readonly seenSpot: BeamWidth;
}

/**
 * A response in the model's order: code, penetration depth, removal energy, diffusivity.
 *
 * @internal
 */
export function responseNumbers(response: Response): [number, number, number, number] {
  switch (response?.kind) {
    case "coating":
      return [1, NaN, NaN, NaN];
    case "logarithmic ablation":
      return [2, response.penetrationDepth, NaN, NaN];
    case "linear ablation":
      return [3, NaN, response.removalEnergy, NaN];
    case "melt":
      return [4, NaN, NaN, response.diffusivity];
    default:
      return [0, NaN, NaN, NaN];
  }
}

/**
 * What a dose does to a material, and the spot as the material sees it.
 *
 * Logarithmic ablation digs ℓ·ln q, linear ablation the dose above the threshold over the removal energy; a
 * melt sees a spot of √(d² + 32·κ·t). Plumes and recoil are not modelled, nor neighbouring lines whose doses
 * add up only in part.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result, threshold and dose ratio times
 * 1 + (1 − S)·ln N, and times 1 + q/(q − 1) for the depth.
 *
 * @throws {@link SpotwiseError} for an unknown response or a value outside its range.
 */
export function materialMark(material: Material, exposure: Exposure): MaterialMark {
  const out = call(
    core.material_mark,
    material?.threshold,
    orElse(material?.incubation, 1),
    ...responseNumbers(material?.response),
    exposure?.dose,
    orElse(exposure?.exposures, 1),
    exposure?.spot?.diameter1e2,
    exposure?.dwell,
  );
  return {
    threshold: out[0] as Dose,
    doseRatio: out[1] as number,
    marks: out[2] === 1,
    depth: orUndefined(out[3] as Length),
    seenSpot: diameter1e2(out[4] as Length),
  };
}

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

/** Spot and threshold that fit a set of test marks. */
export interface ThresholdFit<Varied extends VariedDose> {
  /** The spot on the surface. */
  readonly spot: BeamWidth;
  /** Standard deviation of its 1/e² **diameter**. */
  readonly spotDiameterDeviation: Length;
  /** The threshold, of the same kind as what was varied. */
  readonly threshold: Varied;
  /** Its standard deviation over itself, that of its logarithm. */
  readonly relativeThresholdDeviation: number;
  /** Correlation of spot diameter and logarithm of threshold. */
  readonly correlation: number;
  /** χ² for each degree of freedom: about 1 where the marks scatter as their deviations say. */
  readonly reducedChiSquared: number;
  /** Slope of the fitted line over its deviation. */
  readonly significance: number;
  /** How many marks were used. */
  readonly marksUsed: number;
  /** Which marks were used, in the order in which they were given. */
  readonly used: readonly boolean[];
}

/**
 * Spot and threshold from test marks of several doses: squared width against the logarithm of dose (Liu,
 * Optics Letters 7, 196, 1982, from memory), weighted, with outliers left out.
 *
 * It holds for dots against pulse energy and for lines against power at one speed, in focus and out of it.
 * Deviations are enlarged where the marks scatter more than they say. A mark is left out as an outlier if
 * the fit gains by more than `outlierLimit` deviations without it, while at least four remain, up to a
 * quarter of all.
 *
 * Accuracy of evaluation: 1e-12 for marks whose doses span a factor of two.
 *
 * @param marks - three at the least.
 * @param options - `outlierLimit`: 2 to 1e6, 3 is usual; left out, every mark is kept.
 * @throws {@link SpotwiseError} for a value outside its range; with code 8 where the marks cannot tell: too
 * few of them (parameter 116), widths that do not clearly grow with the dose (parameter 117), or a threshold
 * out of their sight (parameter 129); with code 4 where they follow another law: doses on average more than 1e6
 * thresholds (parameter 130), or a spot that is none (parameter 19).
 */
export function fitThreshold<Varied extends VariedDose>(
  marks: readonly TestMark<Varied>[],
  options?: { readonly outlierLimit?: PureNumber | undefined },
): ThresholdFit<Varied> {
  // What is no list holds no marks.
  const given = Array.isArray(marks) ? (marks as readonly TestMark<Varied>[]) : [];
  const count = given.length;
  const used = new Uint8Array(count);
  const numbers: number[] = [
    ...given.map((mark) => mark?.dose),
    ...given.map((mark) => mark?.width),
    ...given.map((mark) => mark?.deviation),
    orElse(options?.outlierLimit, Infinity),
  ];
  const operation = (all: number[]) => {
    const list = (from: number) => Float64Array.from(all.slice(from * count, (from + 1) * count));
    return core.fit_threshold(list(0), list(1), list(2), all[3 * count] as number, used);
  };
  const out = callWithList(operation, numbers);
  return {
    spot: diameter1e2(out[0] as Length),
    spotDiameterDeviation: out[1] as Length,
    threshold: out[2] as Varied,
    relativeThresholdDeviation: out[3] as number,
    correlation: out[4] as number,
    reducedChiSquared: out[5] as number,
    significance: out[6] as number,
    marksUsed: out[7] as number,
    used: [...used].map((byte) => byte === 1),
  };
}
