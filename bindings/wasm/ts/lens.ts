/** The ideal lens acting on a beam: size and place of the new waist. For aberration and clipping see {@link focusSinglet}. */

import { beamNumbers, type AstigmaticBeam, type Beam } from "./beam.js";
import { call, core } from "./core.js";
import { fullAngle, type Divergence } from "./divergence.js";
import { distanceToLens, signedOffset, type Offset, type RawPlace } from "./place.js";
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
  /** The waist relative to the focal point; `towardLens`: the waist is nearer the lens. */
  readonly focusShift: Offset;
  /** From the lens to the waist; negative for a virtual waist before the lens. */
  readonly lensToWaist: Length;
  /** Width of the raw beam where it meets the lens. */
  readonly atLens: BeamWidth;
  /** Greatest 1/e² **half** angle, of the raw and the focused cone. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted, for the raw and the focused cone. */
  readonly validity: Validity;
}

/**
 * A focused beam from its first eight outputs and its flags, which do not always follow.
 *
 * @internal
 */
export function focusedFrom(wavelength: number, m2: PureNumber, out: Float64Array, flags: number): FocusedBeam {
  return {
    wavelength: wavelength as Length,
    m2,
    waist: diameter1e2(out[0] as Length),
    rayleighRange: out[1] as Length,
    divergence: fullAngle(out[2] as Angle),
    magnification: out[3] as number,
    focusShift: signedOffset(out[4] as Length),
    lensToWaist: out[5] as Length,
    atLens: diameter1e2(out[6] as Length),
    halfAngle: out[7] as Angle,
    validity: validityOf(flags),
  };
}

/**
 * The waist that a lens makes of a raw beam whose waist lies somewhere before (or after) it.
 *
 * d₀′ = m·d₀ with m = |f|/√((s − f)² + z_R²).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @param raw - the beam before the lens.
 * @param lens - `waistAt`: where the raw waist lies, most often `upstream(…)` of the lens, up to
 * 1e7 m either way; `focalLength`: + converging, 10 µm to 10 km in magnitude.
 * @throws {@link SpotwiseError} for a value outside its range, a raw or focused half angle above
 * 0.3 rad, or a new waist outside 1 nm to 10 m.
 */
export function focusThroughLens(
  raw: Beam,
  lens: { readonly waistAt: RawPlace; readonly focalLength: Length },
): FocusedBeam {
  const [wavelength, m2, waistDiameter] = beamNumbers(raw);
  const out = call(
    core.focus_through_lens,
    wavelength,
    m2,
    waistDiameter,
    distanceToLens(lens?.waistAt),
    lens?.focalLength,
  );
  return focusedFrom(wavelength, m2, out, out[8] as number);
}

/**
 * The waist that a lens makes of a collimated beam: one whose waist lies at the lens.
 *
 * The familiar d₀′ = 4·M²·λ·f/(π·D) is its limit for a long Rayleigh range; here the focus shift
 * is kept.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
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
  const { wavelength, m2, atLens, focalLength } = raw ?? {};
  const out = call(core.focus_collimated, wavelength, m2, atLens?.diameter1e2, focalLength);
  return focusedFrom(wavelength, m2, out, out[8] as number);
}

/** One axis of a {@link RawAstigmaticBeam}. */
export interface RawAxis {
  /** Beam propagation ratio M² in this axis, 1 to 1e4. */
  readonly m2: PureNumber;
  /** Width at the waist of this axis, 1 nm to 10 m in 1/e² diameter. */
  readonly waist: BeamWidth;
  /** Where the waist of this axis lies relative to the lens or the start of the path, up to 1e7 m either way. */
  readonly waistAt: RawPlace;
}

/**
 * A simple astigmatic beam before the lens, or at the start of a path: its two axes are fixed and at
 * right angles. It is no {@link AstigmaticBeam}, whose places count from elsewhere.
 */
export interface RawAstigmaticBeam {
  /** Vacuum wavelength, 10 nm to 10 mm. */
  readonly wavelength: Length;
  /** The first axis. */
  readonly x: RawAxis;
  /** The second axis. */
  readonly y: RawAxis;
}

/**
 * The seven numbers of a raw astigmatic beam, in the model's order.
 *
 * @internal
 */
export function rawAstigmaticNumbers(
  raw: RawAstigmaticBeam,
): [number, number, number, number, number, number, number] {
  const { wavelength, x, y } = raw ?? {};
  return [
    wavelength,
    x?.m2,
    x?.waist?.diameter1e2,
    x?.waistAt?.zDownstream,
    y?.m2,
    y?.waist?.diameter1e2,
    y?.waistAt?.zDownstream,
  ];
}

/**
 * An astigmatic beam behind a lens, its z = 0 **at the focal point**. It is an {@link AstigmaticBeam}
 * itself, to pass on as one.
 */
export interface AstigmaticFocus extends AstigmaticBeam {
  /** Greatest 1/e² **half** angle of both axes, before and behind the lens. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted, for the raw and the focused cones. */
  readonly validity: Validity;
}

/**
 * The beam that a lens makes of a simple astigmatic raw beam, axis by axis.
 *
 * For the distance from the lens to the waist of one axis, give that axis to {@link focusThroughLens}
 * as a round beam and read `lensToWaist`.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @param raw - the beam before the lens; its waists are {@link upstream} or {@link downstream} of
 * the lens, or {@link atLens}.
 * @param focalLength - + converging, 10 µm to 10 km in magnitude.
 * @returns the beam behind the lens, its z = 0 **at the focal point**.
 * @throws {@link SpotwiseError} as {@link focusThroughLens}, with the axis named.
 */
export function focusAstigmatic(raw: RawAstigmaticBeam, focalLength: Length): AstigmaticFocus {
  const out = call(core.focus_astigmatic, ...rawAstigmaticNumbers(raw), focalLength);
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
    halfAngle: out[7] as Angle,
    validity: validityOf(out[8] as number),
  };
}
