/** Where the caustics of two beams cross. */

import { beamNumbers, type Beam } from "./beam.js";
import { call, core } from "./core.js";
import type { Angle, Length } from "./units.js";
import { validityOf, type Validity } from "./validity.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/** Where the spots of two beams are equally large. */
export interface Crossing {
  /** Distance from the common waist, on either side. */
  readonly distanceFromWaist: Length;
  /** Spot of both there. */
  readonly spot: BeamWidth;
}

/** Which of two beams has the smaller spot. */
export type Sharper = "neither" | "first" | "second";

/** Which of two beams is the sharper, and where that changes. */
export interface CausticCrossing {
  /** Where their spots are equally large; `null` if one beam is the sharper everywhere, or the two are alike. */
  readonly crossing: Crossing | null;
  /** Which has the smaller waist. */
  readonly sharperInFocus: Sharper;
  /** Which has the smaller spot far from the waist. */
  readonly sharperFarOff: Sharper;
  /** Greatest 1/e² **half** angle of both. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted. */
  readonly validity: Validity;
}

const sharper: readonly Sharper[] = ["neither", "first", "second"];

/**
 * A crossing from its two outputs; the model says "none" with NaN.
 *
 * @internal
 */
export function crossingFrom(offset: number, diameter: number): Crossing | null {
  if (Number.isNaN(offset)) return null;
  return { distanceFromWaist: offset as Length, spot: diameter1e2(diameter as Length) };
}

/**
 * Which of two beams with their waists at one height has the smaller spot, and the distance beyond which it is
 * the other.
 *
 * Two lenses on one beam: the shorter one has the smaller spot in focus and the larger one beyond the crossing,
 * √(zR₁·zR₂) from the waist if both are ideal. On a surface whose heights span twice that, with focus at
 * mid-height, their worst spots are equal. Waists of 85 and 142 µm at 10.6 µm with M² = 1 cross at 0.894 mm.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @param second - its wavelength may differ.
 * @throws {@link SpotwiseError} for a field of the first beam outside its range, then of the second, or a half
 * angle above 0.3 rad.
 */
export function causticCrossing(first: Beam, second: Beam): CausticCrossing {
  const out = call(core.caustic_crossing, ...beamNumbers(first), ...beamNumbers(second));
  return {
    crossing: crossingFrom(out[0] as number, out[1] as number),
    sharperInFocus: sharper[out[2] as number] as Sharper,
    sharperFarOff: sharper[out[3] as number] as Sharper,
    halfAngle: out[4] as Angle,
    validity: validityOf(out[5] as number),
  };
}
