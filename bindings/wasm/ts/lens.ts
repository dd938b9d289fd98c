/** The ideal lens acting on a beam: size and place of the new waist. Aberration and clipping are not modelled. */

import { astigmaticNumbers, beamNumbers, type AstigmaticBeam, type Beam } from "./beam.js";
import { call, core } from "./core.js";
import { fullAngle, type Divergence } from "./divergence.js";
import { signedOffset, type Offset } from "./place.js";
import type { Angle, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/** A beam behind a lens. It is a {@link Beam} itself, to pass on as one. */
export interface FocusedBeam extends Beam {
  /** The spot in focus: the width of the waist behind the lens. */
  readonly waist: BeamWidth;
  /** Rayleigh range behind the lens. */
  readonly rayleighRange: Length;
  /** Divergence of the focused cone. */
  readonly divergence: Divergence;
  /** New waist over raw waist. */
  readonly magnification: number;
  /** The waist relative to the focal point. */
  readonly focusShift: Offset;
  /** From the lens to the waist; negative for a virtual waist before the lens. */
  readonly lensToWaist: Length;
  /** Width of the raw beam where it meets the lens. */
  readonly atLens: BeamWidth;
  /** How far the paraxial formulas may be trusted for the focused cone. */
  readonly validity: Validity;
}

/**
 * A focused beam from its outputs, of which the last is the flags.
 *
 * @internal
 */
export function focusedFrom(wavelength: Length, m2: PureNumber, out: Float64Array, flags: number): FocusedBeam {
  return {
    wavelength,
    m2,
    waist: diameter1e2(out[0] as Length),
    rayleighRange: out[1] as Length,
    divergence: fullAngle(out[2] as Angle),
    magnification: out[3] as number,
    focusShift: signedOffset(out[4] as Length),
    lensToWaist: out[5] as Length,
    atLens: diameter1e2(out[6] as Length),
    validity: validityOf(flags),
  };
}

/**
 * The waist that a lens makes of a raw beam whose waist lies somewhere before (or after) it.
 *
 * d₀′ = m·d₀ with m = |f|/√((s − f)² + z_R²).
 *
 * Accuracy: at most 0.51 ulp (units in the last place) of the exact result.
 *
 * @param raw - the beam before the lens.
 * @param lens - `waistToLens`: from the raw waist to the lens, negative when the waist would lie
 * beyond it, up to 1e7 m either way; `focalLength`: + converging, 10 µm to 10 km in magnitude.
 * @throws {@link SpotwiseError} for a value outside its range, a raw or focused half angle above
 * 0.3 rad, or a new waist outside 1 nm to 10 m.
 */
export function focusThroughLens(
  raw: Beam,
  lens: { readonly waistToLens: Length; readonly focalLength: Length },
): FocusedBeam {
  const out = call(core.focus_through_lens, ...beamNumbers(raw), lens.waistToLens, lens.focalLength);
  return focusedFrom(raw.wavelength, raw.m2, out, out[7] as number);
}

/**
 * The waist that a lens makes of a collimated beam: one whose waist lies at the lens.
 *
 * The familiar d₀′ = 4·M²·λ·f/(π·D) is its limit for a long Rayleigh range; here the focus shift
 * is kept.
 *
 * Accuracy: at most 0.51 ulp (units in the last place) of the exact result.
 *
 * @param raw - `atLens`: width at the lens, 1 nm to 10 m in 1/e² diameter; the rest as in
 * {@link focusThroughLens}.
 * @throws {@link SpotwiseError} as {@link focusThroughLens}.
 */
export function focusCollimated(raw: {
  readonly wavelength: Length;
  readonly m2: PureNumber;
  readonly atLens: BeamWidth;
  readonly focalLength: Length;
}): FocusedBeam {
  const { wavelength, m2, atLens, focalLength } = raw;
  const out = call(core.focus_collimated, wavelength, m2, atLens?.diameter1e2, focalLength);
  return focusedFrom(wavelength, m2, out, out[7] as number);
}

/**
 * The beam that a lens makes of a simple astigmatic raw beam, axis by axis.
 *
 * Accuracy: at most 0.51 ulp (units in the last place) of the exact result.
 *
 * @param raw - the beam before the lens, its z = 0 **at the lens**: say {@link upstream} for a waist
 * on the laser's side.
 * @param focalLength - + converging, 10 µm to 10 km in magnitude.
 * @returns the beam behind the lens, its z = 0 **at the focal point**.
 * @throws {@link SpotwiseError} as {@link focusThroughLens}, with the axis named.
 */
export function focusAstigmatic(raw: AstigmaticBeam, focalLength: Length): AstigmaticBeam {
  const out = call(core.focus_astigmatic, ...astigmaticNumbers(raw), focalLength);
  return {
    wavelength: out[0] as Length,
    x: {
      m2: out[1] as PureNumber,
      waist: diameter1e2(out[2] as Length),
      waistZ: signedOffset(out[3] as Length),
    },
    y: {
      m2: out[4] as PureNumber,
      waist: diameter1e2(out[5] as Length),
      waistZ: signedOffset(out[6] as Length),
    },
  };
}
