/** A Gaussian beam (M² = 1) clipped by a round aperture at an ideal lens. */

import { call, core } from "./core.js";
import { orUndefined } from "./number.js";
import { rangeFrom, signedOffset, type FocusRange, type Offset } from "./place.js";
import type { Angle, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";
import { apertureNumber, type BeamWidth, type Diameter } from "./width.js";

/** A collimated Gaussian beam at a lens with an aperture. */
export interface ClippedBeam {
  /** Vacuum wavelength, 10 nm to 10 mm. */
  readonly wavelength: Length;
  /** Width at the lens before the aperture, 1 nm to 10 m in 1/e² diameter. */
  readonly atLens: BeamWidth;
  /** Clear aperture of the lens, 1 nm to 100 m; left out, there is none. At least 0.2 beam diameters. */
  readonly clearAperture?: Diameter | undefined;
  /** Focal length, 10 µm to 10 km. */
  readonly focalLength: Length;
}

/**
 * The focus of a clipped Gaussian beam. It is not Gaussian any more, so that no width follows from
 * another: each is a length of its own.
 */
export interface ClippedFocus {
  /** Clear aperture over 1/e² beam diameter; Infinity without an aperture. */
  readonly clippingRatio: number;
  /** Share of the power that passes. */
  readonly transmitted: number;
  /** **Diameter** at 1/e² of the irradiance. */
  readonly diameter1e2: Length;
  /** **Full** width at half maximum. */
  readonly fwhm: Length;
  /** **Diameter** that holds 86.5 % of the **transmitted** power; `undefined` if refused. */
  readonly diameterPower86: Length | undefined;
  /** Irradiance on the axis in focus over that of the same beam unclipped. */
  readonly peakIrradianceRatio: number;
  /** The Rayleigh range, with the narrower of beam and aperture for the width at the lens, over the focal length. */
  readonly relativeRayleighRange: number;
  /** **Half** angle of the cone behind the aperture. */
  readonly halfAngle: Angle;
  /** How far the numbers may be trusted. */
  readonly validity: Validity;
}

/** A clipped beam in the model's order. */
function clippedNumbers(beam: ClippedBeam): [number, number, number, number] {
  const { wavelength, atLens, clearAperture, focalLength } = beam ?? {};
  return [wavelength, atLens?.diameter1e2, apertureNumber(clearAperture), focalLength];
}

/**
 * Widths and peak in focus of a Gaussian beam clipped by the aperture of an ideal lens. The widths are
 * fits to the diffraction integral; {@link waveWidths} is that integral, and takes any M².
 *
 * Accuracy: widths at most 8 ulp, the rest at most 4 ulp (units in the last place) of their formulas.
 *
 * @throws {@link SpotwiseError} for a value outside its range; with code 4 for a clipping ratio below
 * 0.2 or a half angle above 0.3 rad.
 */
export function focusClipped(beam: ClippedBeam): ClippedFocus {
  const out = call(core.focus_clipped, ...clippedNumbers(beam));
  return {
    clippingRatio: out[0] as number,
    transmitted: out[1] as number,
    diameter1e2: out[2] as Length,
    fwhm: out[3] as Length,
    diameterPower86: orUndefined(out[4] as Length),
    peakIrradianceRatio: out[5] as number,
    relativeRayleighRange: out[6] as number,
    halfAngle: out[7] as Angle,
    validity: validityOf(out[8] as number),
  };
}

/** Depth of focus of a clipped Gaussian beam. */
export interface ClippedDepth {
  /** The range, relative to the focal point. Its ends differ. */
  readonly range: FocusRange;
  /** The brightest place on the axis, relative to the focal point. */
  readonly brightest: Offset;
  /** Clear aperture over 1/e² beam diameter; Infinity without an aperture. */
  readonly clippingRatio: number;
  /** The Rayleigh range, with the narrower of beam and aperture for the width at the lens, over the focal length. */
  readonly relativeRayleighRange: number;
  /** Half of the full range over the focal length. */
  readonly relativeHalfDepth: number;
}

/**
 * Depth of focus of a clipped Gaussian beam behind an ideal lens: the range about the brightest place in
 * which the irradiance on the axis is below that by at most a share. Exact for the Fresnel integral, for a
 * long focus too: the two ends differ, since light is brighter nearer the lens, and the flag
 * `focusShifted` says only that they do so visibly. In a long focus both may lie on the lens side of the
 * focal point.
 *
 * Accuracy: at most 8 ulp (units in the last place) times 1 + c, where c is what the problem makes of an
 * error in the irradiance: near 1/(2·`irradianceDrop`) in a sharp focus, and large only for an end that
 * happens to lie at the focal point.
 *
 * @param beam - `irradianceDrop`: 0.01 to 0.9.
 * @throws {@link SpotwiseError} as {@link focusClipped}.
 */
export function clippedDepthOfFocus(beam: ClippedBeam & { readonly irradianceDrop: PureNumber }): ClippedDepth {
  const out = call(core.clipped_depth_of_focus, ...clippedNumbers(beam), beam?.irradianceDrop);
  return {
    range: rangeFrom(out),
    brightest: signedOffset(out[5] as Length),
    clippingRatio: out[6] as number,
    relativeRayleighRange: out[7] as number,
    relativeHalfDepth: out[8] as number,
  };
}
