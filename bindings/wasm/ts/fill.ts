/** How wide a filled stroke comes out, in focus and out of it. */

import { beamNumbers, type Beam } from "./beam.js";
import { call, core } from "./core.js";
import type { Offset } from "./place.js";
import type { Angle, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/** A long stroke that is filled by a raster. */
export interface FilledStroke {
  /** Width of the stroke as it is drawn, 1 nm to 10 m. */
  readonly drawnWidth: Length;
  /** Fill dose over the dose at which the material just marks, 1e-6 to 1e6; below 1.000001 nothing marks. */
  readonly doseRatio: PureNumber;
}

/** A filled stroke at one height. */
export interface FillWidth {
  /** Whether the stroke marks at all. */
  readonly marks: boolean;
  /** Width that marks; 0 if nothing does. */
  readonly width: Length;
  /** That width less the drawn one, + where the stroke grows. */
  readonly growth: Length;
  /** Exposure on the middle of the stroke over that of a wide fill. */
  readonly exposure: number;
  /** The spot at this height. */
  readonly spot: BeamWidth;
  /** 1/e² **half** angle of the beam. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

/**
 * Where a filled stroke is widest, and where it vanishes. Distances count from the waist, alike to either
 * side.
 */
export interface FillLimits {
  /** Whether the stroke marks in the waist; if not, it marks nowhere, and all lengths are 0. */
  readonly marks: boolean;
  /** Width in the waist. */
  readonly widthInWaist: Length;
  /** Distance from the waist at which the stroke is widest; 0 if that is the waist. */
  readonly widestDistance: Length;
  /** Width there. */
  readonly greatestWidth: Length;
  /** Distance from the waist at which the stroke vanishes. */
  readonly vanishingDistance: Length;
  /** 1/e² **half** angle of the beam. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

/**
 * Width of a long filled stroke on a surface that is off the waist.
 *
 * It marks where q·½·[erf(√2·(y + h)/w) − erf(√2·(y − h)/w)] ≥ 1, h being half the drawn width. The fill dose
 * does not change with focus, only the blur does; the fill is taken for even (see {@link rasterRipple}). A
 * stroke that is lost is no error: its width is then 0.
 *
 * Accuracy: within 1e-13 of the larger of drawn width and spot, but where the stroke is about to vanish.
 *
 * @param surface - the surface relative to the waist, up to 1e7 m.
 * @throws {@link SpotwiseError} for a value outside its range, or a half angle above 0.3 rad.
 */
export function fillWidth(beam: Beam, stroke: FilledStroke, surface: Offset): FillWidth {
  const out = call(
    core.fill_width,
    ...beamNumbers(beam),
    stroke?.drawnWidth,
    stroke?.doseRatio,
    surface?.zAwayFromLens,
  );
  return {
    marks: out[0] === 1,
    width: out[1] as Length,
    growth: out[2] as Length,
    exposure: out[3] as number,
    spot: diameter1e2(out[4] as Length),
    halfAngle: out[5] as Angle,
    validity: validityOf(out[6] as number),
  };
}

/**
 * Where a long filled stroke is widest, and where it vanishes. Up to a dose ratio of 2 it is widest in the
 * waist; beyond, it first grows out of focus.
 *
 * Accuracy: widths within 1e-13, distances within 1e-13 times r²/(r² − 1), r being the growth of the spot
 * there.
 *
 * @throws {@link SpotwiseError} as {@link fillWidth}.
 */
export function fillLimits(beam: Beam, stroke: FilledStroke): FillLimits {
  const out = call(core.fill_limits, ...beamNumbers(beam), stroke?.drawnWidth, stroke?.doseRatio);
  return {
    marks: out[0] === 1,
    widthInWaist: out[1] as Length,
    widestDistance: out[2] as Length,
    greatestWidth: out[3] as Length,
    vanishingDistance: out[4] as Length,
    halfAngle: out[5] as Angle,
    validity: validityOf(out[6] as number),
  };
}
