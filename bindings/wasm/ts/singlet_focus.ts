/**
 * How far the surface may move behind a single-piece lens: defocus and depth of focus about the waist of
 * {@link focusSinglet} by one measure, with the flags of the lens.
 *
 * The diameter grows as that of a beam about this waist, alike on both sides. By second moments that is
 * exact without clipping. By 86.5 % of the power it is good to the share that the validity states, and the
 * true ends differ: for those see {@link waveDepthOfFocus}.
 */

import type { Beam } from "./beam.js";
import { call, core } from "./core.js";
import { criterionNumbers, type Defocus, type DepthCriterion } from "./focus.js";
import { rangeFrom, type FocusRange, type Offset } from "./place.js";
import { singletNumbers, spotMeasureCode, type PlacedSinglet, type SpotMeasure } from "./singlet.js";
import type { Angle, Length } from "./units.js";
import { validityOf } from "./validity.js";

/** A measure that gives a waist and a Rayleigh range; the handbook's sum gives a spot alone. */
export type WaistMeasure = Exclude<SpotMeasure, "handbook">;

/** The numbers behind the flags of a single-piece lens, as {@link focusSinglet} tells them. */
export interface LensNumbers {
  /** Magnitude of the aberration phase over M². */
  readonly normalisedAberration: number;
  /** Clear aperture over beam diameter at the lens; Infinity without an aperture. */
  readonly clippingRatio: number;
  /** Magnitude of the focus shift of the ideal lens over its focal length. */
  readonly relativeFocusShift: number;
  /** Rayleigh range of the ideal waist over the magnitude of its distance from the lens. */
  readonly relativeRayleighRange: number;
}

/** What a {@link Defocus} tells, behind a single-piece lens: its spot is by the measure asked for. */
export interface SingletDefocus extends Omit<Defocus, "spot">, LensNumbers {
  /** **Diameter** of the spot on the surface, by the measure asked for. */
  readonly spotDiameter: Length;
}

/** A range about the waist of a single-piece lens, with the numbers behind its flags. */
export interface SingletDepth extends FocusRange, LensNumbers {}

/** Those numbers, which come last. */
function lensNumbers(out: Float64Array, first: number): LensNumbers {
  return {
    normalisedAberration: out[first] as number,
    clippingRatio: out[first + 1] as number,
    relativeFocusShift: out[first + 2] as number,
    relativeRayleighRange: out[first + 3] as number,
  };
}

/**
 * Spot, growth, irradiance and line dose on a surface that is off the waist of a single-piece lens.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the formula; how good that is is in the validity.
 *
 * @param raw - the beam before the lens.
 * @param surface - the surface relative to the waist of this measure, up to 1e7 m. `towardLens`: the
 * surface is nearer the lens than the waist, too high.
 * @throws {@link SpotwiseError} for an unknown shape or measure, `"handbook"` included, which has no waist;
 * then as {@link focusSinglet}; with code 4 where the 86.5 %-power spot is refused.
 */
export function singletDefocus(
  raw: Beam,
  lens: PlacedSinglet,
  measure: WaistMeasure,
  surface: Offset,
): SingletDefocus {
  const code = spotMeasureCode(measure);
  const out = call(core.singlet_defocus, ...singletNumbers(raw, lens), code, surface?.zAwayFromLens);
  return {
    spotDiameter: out[0] as Length,
    growth: out[1] as number,
    growthMinusOne: out[2] as number,
    irradianceRatio: out[3] as number,
    lineDoseRatio: out[4] as number,
    halfAngle: out[5] as Angle,
    validity: validityOf(out[6] as number),
    ...lensNumbers(out, 7),
  };
}

/**
 * Depth of focus behind a single-piece lens, about the waist of this measure. A largest diameter is by the
 * same measure: `d4sigma(…)` or `power86(…)`.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the formula; for a largest diameter that times
 * r²/(r² − 1), r being its ratio to the waist. How good the formula is is in the validity.
 *
 * @param raw - the beam before the lens.
 * @throws {@link SpotwiseError} for an unknown shape, measure or criterion, then as
 * {@link singletDefocus}; with code 5 if the largest diameter is below the waist.
 */
export function singletDepthOfFocus(
  raw: Beam,
  lens: PlacedSinglet,
  measure: WaistMeasure,
  criterion: DepthCriterion,
): SingletDepth {
  const code = spotMeasureCode(measure);
  const limit = criterionNumbers(criterion);
  const out = call(core.singlet_depth_of_focus, ...singletNumbers(raw, lens), code, ...limit);
  return { ...rangeFrom(out), ...lensNumbers(out, 5) };
}
