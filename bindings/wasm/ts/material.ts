/** How a material answers to dose. */

import { call, core } from "./core.js";
import { orElse, orUndefined } from "./number.js";
import type { Diffusivity, Dose, EnergyPerVolume, Time } from "./scan_units.js";
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
