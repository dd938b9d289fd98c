/** Places along the beam, with their direction; and the range between two of them. */

import { call, core } from "./core.js";
import type { Length } from "./units.js";
import { validityOf, type Validity } from "./validity.js";

/**
 * A place along the beam axis relative to another, which the field or function names: most often
 * that of the surface relative to the waist.
 *
 * Make it with {@link towardLens}, {@link awayFromLens} or {@link inFocus}; a bare length is
 * refused, because its sign would be a guess.
 */
export interface Offset {
  /** Signed distance along the axis, + away from the lens. */
  readonly zAwayFromLens: Length;
}

/** No offset: the place itself. */
export const inFocus: Offset = Object.freeze({ zAwayFromLens: 0 as Length });

/**
 * An offset toward the lens: the surface is too high, or the lens too low.
 *
 * @param distance - 0 to 1e7 m; the direction is in the name, so a sign is refused.
 * @throws {@link SpotwiseError} for a distance that is negative, not finite or too far.
 */
export function towardLens(distance: Length): Offset {
  call(core.distance, distance);
  // Not −distance, which would make −0 of 0.
  return { zAwayFromLens: (0 - distance) as Length };
}

/**
 * An offset away from the lens: the surface is too low, or the lens too high.
 *
 * @param distance - 0 to 1e7 m; the direction is in the name, so a sign is refused.
 * @throws {@link SpotwiseError} for a distance that is negative, not finite or too far.
 */
export function awayFromLens(distance: Length): Offset {
  call(core.distance, distance);
  return { zAwayFromLens: distance };
}

/**
 * An offset against the light, toward the laser: for places in the raw beam, before the lens.
 * The same direction as {@link towardLens} behind it.
 *
 * @throws {@link SpotwiseError} as {@link towardLens}.
 */
export function upstream(distance: Length): Offset {
  return towardLens(distance);
}

/**
 * An offset with the light, away from the laser: for places in the raw beam, before the lens.
 * The same direction as {@link awayFromLens} behind it.
 *
 * @throws {@link SpotwiseError} as {@link awayFromLens}.
 */
export function downstream(distance: Length): Offset {
  return awayFromLens(distance);
}

/**
 * An offset from a signed length, **+ away from the lens**, for numbers that come from elsewhere
 * with that convention. Checked where it is used.
 */
export function signedOffset(zAwayFromLens: Length): Offset {
  return { zAwayFromLens };
}

/**
 * A range of heights, by its two ends; never "the depth", which might be half or full.
 *
 * The ends count from the waist of a round beam, or from z = 0 of an astigmatic one.
 */
export interface FocusRange {
  /** The end nearer the lens. */
  readonly towardLens: Offset;
  /** The end farther from the lens. */
  readonly awayFromLens: Offset;
  /** From one end to the other. */
  readonly full: Length;
  /** How far the range may be trusted. */
  readonly validity: Validity;
}

/**
 * A range from four outputs.
 *
 * @internal
 */
export function rangeFrom(out: Float64Array): FocusRange {
  return {
    towardLens: signedOffset(out[0] as Length),
    awayFromLens: signedOffset(out[1] as Length),
    full: out[2] as Length,
    validity: validityOf(out[3] as number),
  };
}
