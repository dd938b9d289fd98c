/** Crisp or smooth: the edge of a fill and its ripple against focus, and the height that serves a taste. */

import { beamNumbers, type Beam } from "./beam.js";
import { call, core } from "./core.js";
import type { Offset } from "./place.js";
import type { Angle, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/**
 * What is wanted of a fill. Which is better is taste, and yours to say.
 *
 * - `crispest`: the crispest edge.
 * - `smoothest within`: the smoothest fill whose edge, 10 % to 90 % of the dose, is no wider than
 *   `largestEdge`, 1 nm to 10 m.
 * - `compromise`: the least of s·(growth − 1) + (1 − s)·(ripple contrast), s being the `crispnessWeight`, 0.001
 *   to 1; at ½ a growth of the edge by 1 % weighs as much as 1 % of contrast.
 */
export type Taste =
  | { readonly by: "crispest" }
  | { readonly by: "smoothest within"; readonly largestEdge: Length }
  | { readonly by: "compromise"; readonly crispnessWeight: PureNumber };

/** Edge and ripple of a fill at one height. */
export interface FillQuality {
  /** Distance from the waist, which serves alike to either side. */
  readonly distanceFromWaist: Length;
  /** The spot there. */
  readonly spot: BeamWidth;
  /** Width of an edge, 10 % to 90 % of the dose. */
  readonly edgeWidth: Length;
  /** Contrast of the ripple of the fill. */
  readonly rippleContrast: number;
  /** 1/e² **half** angle of the beam. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

/** A taste in the model's order: code, largest edge, weight of crispness. */
function tasteNumbers(taste: Taste): [number, number, number] {
  switch (taste?.by) {
    case "crispest":
      return [1, NaN, NaN];
    case "smoothest within":
      return [2, taste.largestEdge, NaN];
    case "compromise":
      return [3, NaN, taste.crispnessWeight];
    default:
      return [0, NaN, NaN];
  }
}

function qualityFrom(out: Float64Array): FillQuality {
  return {
    distanceFromWaist: out[0] as Length,
    spot: diameter1e2(out[1] as Length),
    edgeWidth: out[2] as Length,
    rippleContrast: out[3] as number,
    halfAngle: out[4] as Angle,
    validity: validityOf(out[5] as number),
  };
}

/**
 * Edge width and ripple of a fill on a surface that is off the waist: out of focus the edge grows as the
 * spot does, and the ripple fades.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result, 8 for the ripple, that times
 * 1 + (π/r)² where the interval over the spot radius, r, is below 1.6.
 *
 * @param lineInterval - 1 nm to 1 m.
 * @param surface - the surface relative to the waist, up to 1e7 m.
 * @throws {@link SpotwiseError} for a value outside its range; with code 4 if the interval exceeds 20 radii
 * of the waist, or the half angle 0.3 rad.
 */
export function fillQuality(beam: Beam, lineInterval: Length, surface: Offset): FillQuality {
  return qualityFrom(call(core.fill_quality, ...beamNumbers(beam), lineInterval, surface?.zAwayFromLens));
}

/**
 * How far off the waist best serves a taste.
 *
 * Accuracy: the distance at most 8 ulp (units in the last place) times r²/(r² − 1), r being the growth there;
 * of a compromise at most 4 ulp times a factor that grows where its cost is flat.
 *
 * @param lineInterval - 1 nm to 1 m.
 * @throws {@link SpotwiseError} for an unknown taste, then as {@link fillQuality}; with code 5 if the largest
 * edge is below that in the waist.
 */
export function offsetForTaste(beam: Beam, lineInterval: Length, taste: Taste): FillQuality {
  return qualityFrom(call(core.offset_for_taste, ...beamNumbers(beam), lineInterval, ...tasteNumbers(taste)));
}
