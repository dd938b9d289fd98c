/** The spot on a tilted surface. */

import { beamNumbers, type Beam } from "./beam.js";
import { call, core } from "./core.js";
import type { Offset } from "./place.js";
import type { Angle, Length } from "./units.js";
import { validityOf, type Validity } from "./validity.js";

/**
 * The spot on a tilted surface. Its footprint is the circle of the beam projected onto the surface; its
 * contour is the ellipse in which the surface cuts the 1/e² edge of the beam, which is exact.
 */
export interface TiltedSpot {
  /** 1/e² (D4σ) **diameter** of the footprint across the tilt. */
  readonly diameterAcross: Length;
  /** 1/e² (D4σ) **diameter** of the footprint along the tilt, measured on the surface. */
  readonly diameterAlong: Length;
  /** Length of the contour along the tilt. */
  readonly contourAlong: Length;
  /**
   * From the beam axis to the centre of the contour along the surface, **+ to the side that lies farther
   * from the lens**.
   */
  readonly contourShiftToFarSide: Length;
  /** Irradiance on the axis, for each area of the surface, over that at the waist on a level surface. */
  readonly irradianceRatio: number;
  /** Peak dose of a scanned line over that at the waist on a level surface. */
  readonly lineDoseRatio: number;
  /** Tangent of the tilt times the half angle of the cone, below 1. */
  readonly grazingRatio: number;
  /** **Half** angle of the cone. */
  readonly halfAngle: Angle;
  /** How far the numbers may be trusted. */
  readonly validity: Validity;
}

/**
 * The spot of a round beam on a surface that is tilted, such as a wedge or the flank of a bevel.
 *
 * Along the tilt the footprint is longer by 1/cos φ; irradiance and line dose are less by cos φ.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result; the contour that times
 * 1/(1 − e²), e being the grazing ratio.
 *
 * @param surface - where the surface meets the beam axis, relative to the waist, up to 1e7 m.
 * `towardLens`: nearer the lens than the waist.
 * @param tilt - between the normal of the surface and the beam axis, 0 to 1.5 rad; it has no sign.
 * @throws {@link SpotwiseError} for a value outside its range, or a half angle above 0.3 rad; with code 4
 * for a grazing ratio of 1 or more, where the edge of the cone never meets the surface.
 */
export function tiltedSpot(beam: Beam, surface: Offset, tilt: Angle): TiltedSpot {
  const out = call(core.tilted_spot, ...beamNumbers(beam), surface?.zAwayFromLens, tilt);
  return {
    diameterAcross: out[0] as Length,
    diameterAlong: out[1] as Length,
    contourAlong: out[2] as Length,
    contourShiftToFarSide: out[3] as Length,
    irradianceRatio: out[4] as number,
    lineDoseRatio: out[5] as number,
    grazingRatio: out[6] as number,
    halfAngle: out[7] as Angle,
    validity: validityOf(out[8] as number),
  };
}
