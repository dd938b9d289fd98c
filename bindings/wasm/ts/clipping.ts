/** A Gaussian beam (M² = 1) clipped by a round aperture at an ideal lens. */

import { call, core } from "./core.js";
import { orUndefined } from "./number.js";
import { rangeFrom, type FocusRange } from "./place.js";
import type { Length, PureNumber } from "./units.js";
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
    validity: validityOf(out[6] as number),
  };
}

/**
 * Depth of focus of a clipped Gaussian beam behind an ideal lens: the range about the focal point in
 * which the irradiance on the axis falls by at most a share. Exact for the on-axis law of a clipped
 * beam.
 *
 * Accuracy: at most 200 ulp (units in the last place) of the exact result.
 *
 * @param beam - `irradianceDrop`: 0.01 to 0.9.
 * @throws {@link SpotwiseError} as {@link focusClipped}.
 */
export function clippedDepthOfFocus(beam: ClippedBeam & { readonly irradianceDrop: PureNumber }): FocusRange {
  return rangeFrom(call(core.clipped_depth_of_focus, ...clippedNumbers(beam), beam?.irradianceDrop));
}
