/** Refractive index of lens materials against wavelength, and how a lens changes with it. */

import { call, core } from "./core.js";
import { signedOffset, type Offset } from "./place.js";
import { shapeNumbers, type LensShape } from "./singlet.js";
import type { Dispersion, Length, WavefrontCoefficient } from "./units.js";

/** A material of which lenses and windows are made, by its name, the same on every face of spotwise. */
export type GlassName =
  | "zinc selenide"
  | "germanium"
  | "gallium arsenide"
  | "fused silica"
  | "N-BK7"
  | "zinc sulfide"
  | "calcium fluoride"
  | "sapphire";

/** Every glass, in the order of its code, which counts from 1. Sapphire is its ordinary ray. */
export const glassNames: readonly GlassName[] = Object.freeze(
  [1, 2, 3, 4, 5, 6, 7, 8].map((code) => core.glass_name(code) as GlassName),
);

/**
 * The code of a glass; 0, which the model refuses, for what is none.
 *
 * @internal
 */
export function glassCode(glass: GlassName): number {
  return glassNames.indexOf(glass) + 1;
}

/** What is known of a glass. */
export interface GlassData {
  /** Least vacuum wavelength of the published formula. */
  readonly leastWavelength: Length;
  /** Greatest vacuum wavelength of the published formula. */
  readonly greatestWavelength: Length;
  /** Where the formula was published. */
  readonly source: string;
}

/**
 * Range and source of the formula of a glass.
 *
 * @throws {@link SpotwiseError} with code 3 for an unknown glass.
 */
export function glassData(glass: GlassName): GlassData {
  const code = glassCode(glass);
  const out = call(core.glass_wavelengths, code);
  return {
    leastWavelength: out[0] as Length,
    greatestWavelength: out[1] as Length,
    source: core.glass_source(code),
  };
}

/** Index of a glass at one wavelength. */
export interface GlassIndex {
  /** Refractive index. */
  readonly index: number;
  /** Change of the index with wavelength, dn/dλ. */
  readonly dispersion: Dispersion;
}

/**
 * Refractive index of a glass at a vacuum wavelength, by the formula published for it near 20 °C.
 *
 * n² = K + Σ B·λ²/(λ² − C). No thermal coefficient; makers and melts differ by 1e-4 to 1e-3 (from
 * memory).
 *
 * Accuracy: index at most 2 ulp, dispersion at most 4 ulp (units in the last place) of the formula's
 * exact result.
 *
 * @throws {@link SpotwiseError} for an unknown glass, then for a wavelength outside the range of its
 * formula, see {@link glassData}.
 */
export function refractiveIndex(at: { readonly glass: GlassName; readonly wavelength: Length }): GlassIndex {
  const out = call(core.refractive_index, glassCode(at?.glass), at?.wavelength);
  return { index: out[0] as number, dispersion: out[1] as Dispersion };
}

/** A thin lens at another wavelength than the one for which its focal length is stated. */
export interface LensAtWavelength {
  /** Refractive index at the design wavelength. */
  readonly designIndex: number;
  /** Refractive index at the other wavelength. */
  readonly index: number;
  /** Focal length at the other wavelength. */
  readonly focalLength: Length;
  /** The focal point of the other wavelength relative to that of the design wavelength. */
  readonly focalShift: Offset;
  /** Shape factor, which is a matter of the radii and the same for all light. */
  readonly shapeFactor: number;
  /** k in blur = k·D³/f² at the other wavelength, f being the focal length there. */
  readonly blurCoefficient: number;
  /** C₄ in W = C₄·r⁴ at the other wavelength. */
  readonly wavefrontCoefficient: WavefrontCoefficient;
}

/**
 * Focal length and spherical aberration of a thin lens for another light, such as a visible pointer
 * through a lens made for the infrared.
 *
 * 1/f ∝ n − 1; the aberration is that of {@link lensAberration} with the index there.
 *
 * Accuracy: indices at most 2 ulp, the rest at most 4 ulp (units in the last place) of the exact
 * result.
 *
 * @param lens - `shape`: as ground, so that a best form is one at the design wavelength; `focalLength`:
 * for the design wavelength, + converging, 10 µm to 10 km in magnitude.
 * @throws {@link SpotwiseError} for an unknown glass or shape, then for a value outside its range; that of
 * both wavelengths is the glass's own.
 */
export function lensAtWavelength(lens: {
  readonly glass: GlassName;
  readonly shape: LensShape;
  readonly focalLength: Length;
  readonly designWavelength: Length;
  readonly wavelength: Length;
}): LensAtWavelength {
  const { glass, shape, focalLength, designWavelength, wavelength } = lens ?? {};
  const out = call(
    core.lens_at_wavelength,
    glassCode(glass),
    ...shapeNumbers(shape),
    focalLength,
    designWavelength,
    wavelength,
  );
  return {
    designIndex: out[0] as number,
    index: out[1] as number,
    focalLength: out[2] as Length,
    focalShift: signedOffset(out[3] as Length),
    shapeFactor: out[4] as number,
    blurCoefficient: out[5] as number,
    wavefrontCoefficient: out[6] as WavefrontCoefficient,
  };
}
