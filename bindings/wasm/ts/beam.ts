/** A round beam about its waist, and an astigmatic one: what follows from them, and how wide they are. */

import { isFloat64Array, refuseOther, refuseOutput, SLICE } from "./bulk.js";
import { call, core } from "./core.js";
import { fullAngle, type Divergence } from "./divergence.js";
import { signedOffset, type Offset } from "./place.js";
import type { Angle, BeamParameterProduct, Curvature, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/** A round beam, described at its waist. */
export interface Beam {
  /** Vacuum wavelength, 10 nm to 10 mm. */
  readonly wavelength: Length;
  /** Beam propagation ratio M², 1 for a Gaussian beam, at most 1e4. */
  readonly m2: PureNumber;
  /** Width at the waist, 1 nm to 10 m in 1/e² diameter. */
  readonly waist: BeamWidth;
}

/** What follows from a {@link Beam} alone. */
export interface BeamParameters {
  /** Distance from the waist at which the diameter has grown by √2. */
  readonly rayleighRange: Length;
  /** Far-field divergence. */
  readonly divergence: Divergence;
  /** Waist radius times half angle. */
  readonly beamParameterProduct: BeamParameterProduct;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

/** A {@link Beam} at one place along its axis. */
export interface BeamSection {
  /** Width there. */
  readonly width: BeamWidth;
  /** Curvature of the wavefront; 0 at the waist, + where the wave diverges away from the lens. */
  readonly wavefrontCurvature: Curvature;
  /** Radius of curvature of the wavefront; Infinity at the waist, where the wave is plane. */
  readonly wavefrontRadius: Length;
  /** Greatest 1/e² **half** angle of the beams involved. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

/**
 * The three numbers of a beam, in the model's order.
 *
 * @internal
 */
export function beamNumbers(beam: Beam): [number, number, number] {
  return [beam?.wavelength, beam?.m2, beam?.waist?.diameter1e2];
}

/**
 * Rayleigh range, divergence and beam parameter product of a beam.
 *
 * z_R = π·d₀²/(4·M²·λ), θ = 4·M²·λ/(π·d₀), BPP = M²·λ/π.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @throws {@link SpotwiseError} for a field outside its range, or a half angle above 0.3 rad.
 */
export function beamParameters(beam: Beam): BeamParameters {
  const out = call(core.beam_parameters, ...beamNumbers(beam));
  return {
    rayleighRange: out[0] as Length,
    // Output 1 is the half angle, which a Divergence gives by name.
    divergence: fullAngle(out[2] as Divergence["fullAngle"]),
    beamParameterProduct: out[3] as BeamParameterProduct,
    validity: validityOf(out[4] as number),
  };
}

/**
 * Width and wavefront of a beam at a place relative to its waist.
 * `towardLens`: the place is nearer the lens than the waist.
 *
 * d(z) = d₀·√(1 + (z/z_R)²), 1/R = z/(z² + z_R²).
 *
 * Accuracy: diameter at most 3 ulp, wavefront at most 1.1 ulp (units in the last place) of the exact result.
 *
 * @throws {@link SpotwiseError} as {@link beamParameters}, then for a place beyond 1e7 m.
 */
export function beamAt(beam: Beam, place: Offset): BeamSection {
  const out = call(core.beam_at, ...beamNumbers(beam), place?.zAwayFromLens);
  return {
    width: diameter1e2(out[0] as Length),
    wavefrontCurvature: out[1] as Curvature,
    wavefrontRadius: out[2] as Length,
    halfAngle: out[3] as Angle,
    validity: validityOf(out[4] as number),
  };
}

/** Diameters of a {@link Beam} at many places, in plain metres. */
export interface BeamDiameters {
  /** 1/e² (D4σ) **diameters**. */
  readonly diametersInMetres: Float64Array;
  /** **Half** angle of the beam. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

/**
 * 1/e² diameters of a beam at many places, in bulk and therefore in plain numbers: `zInMetres`
 * counts from the waist, + away from the lens. Each is the same bits as {@link beamAt} gives.
 *
 * The places pass through the module in slices, so that arrays of any length may be given. `out`
 * may be `zInMetres` itself.
 *
 * Accuracy: at most 3 ulp (units in the last place) of the exact result.
 *
 * @param out - where to put the diameters, which the result then holds; a new array if left out. After an
 * error every element of it is NaN.
 * @throws {@link SpotwiseError} with code 6 if `out` is not a `Float64Array` as long as
 * `zInMetres`; then as {@link beamAt}, for the first place that is refused.
 */
export function diametersAt(beam: Beam, zInMetres: Float64Array, out?: Float64Array): BeamDiameters {
  try {
    return diametersInSlices(beam, zInMetres, out);
  } catch (error) {
    if (isFloat64Array(out)) out.fill(NaN);
    throw error;
  }
}

function diametersInSlices(beam: Beam, places: Float64Array, given?: Float64Array): BeamDiameters {
  refuseOther(places, 5, "z");
  const out = given === undefined ? new Float64Array(places.length) : given;
  refuseOutput(out, "Float64Array", places.length);
  const numbers = beamNumbers(beam);
  // Where both lie in one buffer, a slice of results could cover places yet to come.
  const z = out.buffer === places.buffer ? places.slice() : places;
  // At least one slice, if only an empty one: it is what checks the beam.
  let start = 0;
  let cone: Float64Array;
  do {
    const [from, to] = [z.subarray(start, start + SLICE), out.subarray(start, start + SLICE)];
    cone = call((wavelength, m2, waistDiameter) => core.diameters_at(wavelength, m2, waistDiameter, from, to), ...numbers);
    start += SLICE;
  } while (start < z.length);
  // Each slice tells of the same beam.
  return { diametersInMetres: out, halfAngle: cone[0] as Angle, validity: validityOf(cone[1] as number) };
}

/**
 * The waist of the beam that has this Rayleigh range, 1 nm to 1e10 m.
 *
 * d₀ = √(4·M²·λ·z_R/π).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @throws {@link SpotwiseError} for a field outside its range, or if the waist or its cone would
 * be outside the model.
 */
export function waistFromRayleighRange(beam: {
  readonly wavelength: Length;
  readonly m2: PureNumber;
  readonly rayleighRange: Length;
}): BeamWidth {
  const out = call(core.waist_from_rayleigh_range, beam?.wavelength, beam?.m2, beam?.rayleighRange);
  return diameter1e2(out[0] as Length);
}

/**
 * The waist of the beam that has this divergence, up to 0.6 rad in full angle.
 *
 * d₀ = 4·M²·λ/(π·θ).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @throws {@link SpotwiseError} as {@link waistFromRayleighRange}.
 */
export function waistFromDivergence(beam: {
  readonly wavelength: Length;
  readonly m2: PureNumber;
  readonly divergence: Divergence;
}): BeamWidth {
  const out = call(core.waist_from_divergence, beam?.wavelength, beam?.m2, beam?.divergence?.fullAngle);
  return diameter1e2(out[0] as Length);
}

/**
 * M² of the beam with this waist and divergence.
 *
 * M² = π·d₀·θ/(4·λ).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @throws {@link SpotwiseError} for a field outside its range; with code 4 if M² would be below 1,
 * which no beam can be: one of the measurements is wrong.
 */
export function m2FromDivergence(beam: {
  readonly wavelength: Length;
  readonly waist: BeamWidth;
  readonly divergence: Divergence;
}): number {
  const out = call(
    core.m2_from_divergence,
    beam?.wavelength,
    beam?.waist?.diameter1e2,
    beam?.divergence?.fullAngle,
  );
  return out[0] as number;
}

/** One axis of an {@link AstigmaticBeam}. */
export interface Axis {
  /** Beam propagation ratio M² in this axis, 1 to 1e4. */
  readonly m2: PureNumber;
  /** Width at the waist of this axis, 1 nm to 10 m in 1/e² diameter. */
  readonly waist: BeamWidth;
  /**
   * Where the waist of this axis lies, relative to the beam's z = 0. `towardLens`: the waist is
   * nearer the lens than z = 0.
   */
  readonly waistZ: Offset;
}

/**
 * A simple astigmatic beam behind a lens: its two axes are fixed and at right angles. Its z = 0 is
 * the focal point for one that {@link focusAstigmatic} gives, and where you say for another.
 */
export interface AstigmaticBeam {
  /** Vacuum wavelength, 10 nm to 10 mm. */
  readonly wavelength: Length;
  /** The first axis. */
  readonly x: Axis;
  /** The second axis. */
  readonly y: Axis;
}

/** What follows from an {@link AstigmaticBeam} alone. Places are relative to its z = 0. */
export interface AstigmaticParameters {
  /** Rayleigh range in x. */
  readonly rayleighRangeX: Length;
  /** Rayleigh range in y. */
  readonly rayleighRangeY: Length;
  /** The waist in y relative to the waist in x; `towardLens`: the one in y is nearer the lens. */
  readonly waistSeparation: Offset;
  /** Magnitude of the separation over the mean of the two Rayleigh ranges. */
  readonly relativeAstigmatism: number;
  /** √(M²x·M²y). */
  readonly m2Effective: number;
  /** Where the effective diameter is smallest. */
  readonly effectiveWaistZ: Offset;
  /** Smallest effective diameter √((dx² + dy²)/2). */
  readonly effectiveWaist: BeamWidth;
  /** Distance at which the effective diameter has grown by √2. */
  readonly effectiveRayleighRange: Length;
  /** Where the irradiance on the axis is greatest. */
  readonly brightestZ: Offset;
  /** The irradiance there, over that of the two waists at one place. */
  readonly brightestIrradianceRatio: number;
  /** Greatest 1/e² **half** angle of the beams involved. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

/** An {@link AstigmaticBeam} at one place along its axis. */
export interface AstigmaticSection {
  /** Width in x. */
  readonly widthX: BeamWidth;
  /** Width in y. */
  readonly widthY: BeamWidth;
  /** Smaller over larger diameter. */
  readonly ellipticity: number;
  /** Whether the ellipticity exceeds 0.87, above which ISO 11146 calls a profile circular. */
  readonly circular: boolean;
  /** √((dx² + dy²)/2), the effective diameter of ISO 11146. */
  readonly effective: BeamWidth;
  /** √(dx·dy), the circle of equal area. */
  readonly equalArea: BeamWidth;
  /** Greatest 1/e² **half** angle of the beams involved. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

/**
 * The seven numbers of an astigmatic beam, in the model's order.
 *
 * @internal
 */
export function astigmaticNumbers(
  beam: AstigmaticBeam,
): [number, number, number, number, number, number, number] {
  const { wavelength, x, y } = beam ?? {};
  return [
    wavelength,
    x?.m2,
    x?.waist?.diameter1e2,
    x?.waistZ?.zAwayFromLens,
    y?.m2,
    y?.waist?.diameter1e2,
    y?.waistZ?.zAwayFromLens,
  ];
}

/**
 * Rayleigh ranges, astigmatism, the waist of the effective diameter and the brightest place.
 * Where two places are equally bright, the one nearer the lens is given.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @throws {@link SpotwiseError} for a field outside its range, x before y, or a half angle of an
 * axis above 0.3 rad.
 */
export function astigmaticParameters(beam: AstigmaticBeam): AstigmaticParameters {
  const out = call(core.astigmatic_parameters, ...astigmaticNumbers(beam));
  return {
    rayleighRangeX: out[0] as Length,
    rayleighRangeY: out[1] as Length,
    waistSeparation: signedOffset(out[2] as Length),
    relativeAstigmatism: out[3] as number,
    m2Effective: out[4] as number,
    effectiveWaistZ: signedOffset(out[5] as Length),
    effectiveWaist: diameter1e2(out[6] as Length),
    effectiveRayleighRange: out[7] as Length,
    brightestZ: signedOffset(out[8] as Length),
    brightestIrradianceRatio: out[9] as number,
    halfAngle: out[10] as Angle,
    validity: validityOf(out[11] as number),
  };
}

/**
 * Widths and ellipticity of an astigmatic beam at a place relative to its z = 0.
 * `towardLens`: the place is nearer the lens than z = 0.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @throws {@link SpotwiseError} as {@link astigmaticParameters}, then for a place beyond 1e7 m.
 */
export function astigmaticAt(beam: AstigmaticBeam, place: Offset): AstigmaticSection {
  const out = call(core.astigmatic_at, ...astigmaticNumbers(beam), place?.zAwayFromLens);
  return {
    widthX: diameter1e2(out[0] as Length),
    widthY: diameter1e2(out[1] as Length),
    ellipticity: out[2] as number,
    circular: out[3] === 1,
    effective: diameter1e2(out[4] as Length),
    equalArea: diameter1e2(out[5] as Length),
    halfAngle: out[6] as Angle,
    validity: validityOf(out[7] as number),
  };
}
