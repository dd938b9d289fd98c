/** Flat windows and plates in a converging beam, and focus inside a transparent part. */

import { beamNumbers, type Beam } from "./beam.js";
import { call, core } from "./core.js";
import { signedOffset, type Offset } from "./place.js";
import type { Angle, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";

/** What a flat plate does to a focus behind it. */
export interface PlateFocus {
  /** The waist relative to where it would be without the plate. */
  readonly focusShift: Offset;
  /** The crossing of the rays at the 1/e² cone, relative to where it would be, by Snell's law. */
  readonly edgeFocusShift: Offset;
  /**
   * Quartic wavefront aberration of the plate at the 1/e² radius, negative: of the opposite sign to
   * that of a converging singlet.
   */
  readonly aberrationPhase: Angle;
  /** Magnitude of that phase over M². */
  readonly normalisedAberration: number;
  /** **Half** angle of the cone in air. */
  readonly halfAngle: Angle;
  /** How far the numbers may be trusted. */
  readonly validity: Validity;
}

/**
 * What a flat plate or window at right angles to the axis does to a focus behind it.
 *
 * shift = t·(1 − 1/n).
 *
 * Accuracy: `edgeFocusShift` at most 4 ulp, all else at most 0.75 ulp (1.5 for a length below 1e-260 m; units in the last place) of the
 * exact result.
 *
 * @param beam - the focused beam as it is without the plate.
 * @param plate - `thickness`: 0 to 10 m; `index`: 1.01 to 6.
 * @throws {@link SpotwiseError} for a value outside its range, or a half angle above 0.3 rad.
 */
export function focusBehindPlate(
  beam: Beam,
  plate: { readonly thickness: Length; readonly index: PureNumber },
): PlateFocus {
  const out = call(core.focus_behind_plate, ...beamNumbers(beam), plate?.thickness, plate?.index);
  return {
    focusShift: signedOffset(out[0] as Length),
    edgeFocusShift: signedOffset(out[1] as Length),
    aberrationPhase: out[2] as Angle,
    normalisedAberration: out[3] as number,
    halfAngle: out[4] as Angle,
    validity: validityOf(out[5] as number),
  };
}

/** A focus inside a transparent part. Its waist is as wide as in air. */
export interface InsideFocus {
  /** From the face of the part to the waist. */
  readonly depth: Length;
  /** From the face to the crossing of the rays at the 1/e² cone, by Snell's law. */
  readonly edgeDepth: Length;
  /** Rayleigh range inside the part. */
  readonly rayleighRange: Length;
  /** Quartic wavefront aberration at the 1/e² radius, negative. */
  readonly aberrationPhase: Angle;
  /** Magnitude of that phase over M². */
  readonly normalisedAberration: number;
  /** **Half** angle of the cone in air. */
  readonly halfAngle: Angle;
  /** How far the numbers may be trusted. */
  readonly validity: Validity;
}

/**
 * Where focus lies inside a transparent part when the lens is lowered from focus on its face.
 *
 * depth = n·Δz, z_R′ = n·z_R.
 *
 * Accuracy: `edgeDepth` at most 4 ulp, all else at most 0.75 ulp (1.5 for a length below 1e-260 m; units in the last place) of the exact
 * result.
 *
 * @param beam - the focused beam in air.
 * @param part - `lensLoweredBy`: how far below focus on the face, 0 to 10 m; `index`: 1.01 to 6.
 * @throws {@link SpotwiseError} as {@link focusBehindPlate}.
 */
export function focusInside(
  beam: Beam,
  part: { readonly lensLoweredBy: Length; readonly index: PureNumber },
): InsideFocus {
  const out = call(core.focus_inside, ...beamNumbers(beam), part?.lensLoweredBy, part?.index);
  return {
    depth: out[0] as Length,
    edgeDepth: out[1] as Length,
    rayleighRange: out[2] as Length,
    aberrationPhase: out[3] as Angle,
    normalisedAberration: out[4] as number,
    halfAngle: out[5] as Angle,
    validity: validityOf(out[6] as number),
  };
}
