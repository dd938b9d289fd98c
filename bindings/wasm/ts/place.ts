/**
 * Places along the beam, with their direction; and the range between two of them.
 *
 * There are two frames, each with its own type and its own words. In the raw beam, places count
 * from the lens: {@link upstream} or {@link downstream} of it. Behind the lens, an {@link Offset}
 * counts from another place there: {@link towardLens} or {@link awayFromLens}.
 */

import { call, core } from "./core.js";
import { number } from "./number.js";
import type { Angle, Length } from "./units.js";
import { validityOf, type Validity } from "./validity.js";

/**
 * A place behind the lens relative to another, both of which the field or function names: most
 * often the surface relative to the waist.
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
 * An offset toward the lens: the place is nearer the lens than the one it counts from.
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
 * An offset away from the lens: the place is farther from the lens than the one it counts from.
 *
 * @param distance - 0 to 1e7 m; the direction is in the name, so a sign is refused.
 * @throws {@link SpotwiseError} for a distance that is negative, not finite or too far.
 */
export function awayFromLens(distance: Length): Offset {
  call(core.distance, distance);
  return { zAwayFromLens: distance };
}

/**
 * An offset from a signed length, **+ away from the lens**, for numbers that come from elsewhere
 * with that convention. Its range is checked where it is used.
 */
export function signedOffset(zAwayFromLens: Length): Offset {
  return { zAwayFromLens: number(zAwayFromLens) as Length };
}

/**
 * A place in the raw beam relative to the lens: where its waist lies, or would lie without the lens.
 * Where a field or function says so, it counts from something else that the beam meets in the lens's
 * place: a beam expander, or the start of a path.
 *
 * Make it with {@link upstream}, {@link downstream} or {@link atLens}. It is no {@link Offset}: a
 * waist upstream and one downstream are both away from the lens.
 */
export interface RawPlace {
  /** Signed distance from the lens along the light, + downstream of the lens. */
  readonly zDownstream: Length;
}

/** At the lens: the beam arrives collimated. */
export const atLens: RawPlace = Object.freeze({ zDownstream: 0 as Length });

/**
 * So far before the lens, between laser and lens.
 *
 * @param distance - from the lens, 0 to 1e7 m; the direction is in the name, so a sign is refused.
 * @throws {@link SpotwiseError} for a distance that is negative, not finite or too far.
 */
export function upstream(distance: Length): RawPlace {
  call(core.distance_from_lens, distance);
  return { zDownstream: (0 - distance) as Length };
}

/**
 * So far beyond the lens, where the light would go on to without it.
 *
 * @param distance - from the lens, 0 to 1e7 m; the direction is in the name, so a sign is refused.
 * @throws {@link SpotwiseError} for a distance that is negative, not finite or too far.
 */
export function downstream(distance: Length): RawPlace {
  call(core.distance_from_lens, distance);
  return { zDownstream: distance };
}

/**
 * A place in the raw beam from a signed length, **+ downstream of the lens**, for numbers that come
 * from elsewhere with that convention. Its range is checked where it is used.
 */
export function signedDownstream(zDownstream: Length): RawPlace {
  return { zDownstream: number(zDownstream) as Length };
}

/**
 * A raw place as the model of a round beam counts it: from there to the lens, + where it lies
 * upstream. What is no number stays what it is, for the model to refuse.
 *
 * @internal
 */
export function distanceToLens(place: RawPlace): number {
  const z: number = place?.zDownstream;
  return typeof z === "number" ? 0 - z : z;
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
  /** Greatest 1/e² **half** angle of the beams involved. */
  readonly halfAngle: Angle;
  /** How far the range may be trusted. */
  readonly validity: Validity;
}

/**
 * A range from its first five outputs.
 *
 * @internal
 */
export function rangeFrom(out: Float64Array): FocusRange {
  return {
    towardLens: signedOffset(out[0] as Length),
    awayFromLens: signedOffset(out[1] as Length),
    full: out[2] as Length,
    halfAngle: out[3] as Angle,
    validity: validityOf(out[4] as number),
  };
}
