/** How far the surface may move: what a z-offset does to the spot, and the depth of focus. */

import { astigmaticNumbers, beamNumbers, type AstigmaticBeam, type Beam } from "./beam.js";
import { call, core } from "./core.js";
import { rangeFrom, type FocusRange, type Offset } from "./place.js";
import type { Angle, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/** A round beam on a surface that is off the waist. */
export interface Defocus {
  /** The spot on the surface. */
  readonly spot: BeamWidth;
  /** Spot diameter over waist diameter, at least 1. */
  readonly growth: number;
  /** Growth less one, exact however small it is. */
  readonly growthMinusOne: number;
  /** Irradiance on the axis over that at the waist, at most 1. */
  readonly irradianceRatio: number;
  /** Peak dose of a scanned line over that at the waist, at most 1. */
  readonly lineDoseRatio: number;
  /** Greatest 1/e² **half** angle of the beams involved. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

/** An astigmatic beam on a surface. */
export interface AstigmaticDefocus {
  /** Diameter in x over the waist diameter in x, at least 1. */
  readonly growthX: number;
  /** Diameter in y over the waist diameter in y, at least 1. */
  readonly growthY: number;
  /** Irradiance on the axis over that of both waists at one place, at most 1. */
  readonly irradianceRatio: number;
  /** Peak dose of a line scanned **along x** over that at the waist in y, at most 1. */
  readonly lineDoseRatioAlongX: number;
  /** Peak dose of a line scanned **along y** over that at the waist in x, at most 1. */
  readonly lineDoseRatioAlongY: number;
  /** Greatest 1/e² **half** angle of the beams involved. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

/**
 * What must hold for a height to count as in focus.
 *
 * - `growth`: the diameter is at most `ratio` waist diameters, 1 to 1e9.
 * - `rayleigh`: the diameter is at most √2 waist diameters, one Rayleigh range each way.
 * - `irradiance drop`: the irradiance on the axis falls by at most the share `drop`, 1e-9 to
 *   0.999999.
 * - `largest diameter`: the spot is at most this wide, 1 nm to 10 m in 1/e² diameter.
 * - `line dose drop`: the peak dose of a scanned line falls by at most the share `drop`, 1e-9 to
 *   0.999999.
 */
export type DepthCriterion =
  | { readonly by: "growth"; readonly ratio: PureNumber }
  | { readonly by: "rayleigh" }
  | { readonly by: "irradiance drop"; readonly drop: PureNumber }
  | { readonly by: "largest diameter"; readonly diameter: BeamWidth }
  | { readonly by: "line dose drop"; readonly drop: PureNumber };

/**
 * A criterion in the model's order: code, growth ratio, drop, largest diameter. What the choice
 * does not name is NaN and ignored; a choice that does not exist is 0 and refused.
 *
 * @internal
 */
export function criterionNumbers(criterion: DepthCriterion): [number, number, number, number] {
  switch (criterion?.by) {
    case "growth":
      return [1, criterion.ratio, NaN, NaN];
    case "rayleigh":
      return [2, NaN, NaN, NaN];
    case "irradiance drop":
      return [3, NaN, criterion.drop, NaN];
    case "largest diameter":
      return [4, NaN, NaN, criterion.diameter?.diameter1e2];
    case "line dose drop":
      return [5, NaN, criterion.drop, NaN];
    default:
      return [0, NaN, NaN, NaN];
  }
}

/**
 * A beam off its waist from its seven outputs.
 *
 * @internal
 */
export function defocusFrom(out: Float64Array): Defocus {
  return {
    spot: diameter1e2(out[0] as Length),
    growth: out[1] as number,
    growthMinusOne: out[2] as number,
    irradianceRatio: out[3] as number,
    lineDoseRatio: out[4] as number,
    halfAngle: out[5] as Angle,
    validity: validityOf(out[6] as number),
  };
}

/**
 * Spot, growth, irradiance and line dose of a beam on a surface that is off the waist.
 *
 * g = √(1 + (z/z_R)²); irradiance ratio 1/g², line dose ratio 1/g. The dose inside a raster fill
 * does not change with focus.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @param beam - the beam on the surface, such as a {@link FocusedBeam}.
 * @param surface - the surface relative to the waist, up to 1e7 m. `towardLens`: the surface is
 * nearer the lens than the waist, too high.
 * @throws {@link SpotwiseError} for a value outside its range, or a half angle above 0.3 rad.
 */
export function defocus(beam: Beam, surface: Offset): Defocus {
  return defocusFrom(call(core.defocus, ...beamNumbers(beam), surface?.zAwayFromLens));
}

/**
 * Growth, irradiance and line dose of an astigmatic beam on a surface.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @param beam - the beam on the surface, as {@link focusAstigmatic} gives it.
 * @param surface - the surface relative to the beam's z = 0, up to 1e7 m. `towardLens`: the surface
 * is nearer the lens than z = 0.
 * @throws {@link SpotwiseError} as {@link astigmaticAt}.
 */
export function astigmaticDefocus(beam: AstigmaticBeam, surface: Offset): AstigmaticDefocus {
  const out = call(core.astigmatic_defocus, ...astigmaticNumbers(beam), surface?.zAwayFromLens);
  return {
    growthX: out[0] as number,
    growthY: out[1] as number,
    irradianceRatio: out[2] as number,
    lineDoseRatioAlongX: out[3] as number,
    lineDoseRatioAlongY: out[4] as number,
    halfAngle: out[5] as Angle,
    validity: validityOf(out[6] as number),
  };
}

/**
 * The two offsets, one on each side of the waist, at which the spot is this wide.
 *
 * z = ± z_R·√((d/d₀ − 1)(d/d₀ + 1)).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @throws {@link SpotwiseError} for a value outside its range; with code 5 if the spot is smaller
 * than the waist.
 */
export function offsetsForDiameter(beam: Beam, spot: BeamWidth): FocusRange {
  return rangeFrom(call(core.offsets_for_diameter, ...beamNumbers(beam), spot?.diameter1e2));
}

/**
 * The two offsets, one on each side of the waist, at which the spot has grown by this ratio.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @param growth - spot diameter over waist diameter, 1 to 1e9.
 * @throws {@link SpotwiseError} for a value outside its range.
 */
export function offsetsForGrowth(beam: Beam, growth: PureNumber): FocusRange {
  return rangeFrom(call(core.offsets_for_growth, ...beamNumbers(beam), growth));
}

/**
 * Depth of focus of a round beam: the range about its waist in which a criterion holds.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @throws {@link SpotwiseError} for a value outside its range or an unknown criterion; with code 5
 * if the largest diameter is below the waist.
 */
export function depthOfFocus(beam: Beam, criterion: DepthCriterion): FocusRange {
  return rangeFrom(call(core.depth_of_focus, ...beamNumbers(beam), ...criterionNumbers(criterion)));
}

/**
 * Depth of focus of an astigmatic beam, its ends relative to the beam's z = 0. Growth, largest
 * diameter and line dose must hold in both axes.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @throws {@link SpotwiseError} as {@link depthOfFocus}; with code 5 if no height meets the
 * criterion, with the least value that one would.
 */
export function astigmaticDepthOfFocus(beam: AstigmaticBeam, criterion: DepthCriterion): FocusRange {
  return rangeFrom(
    call(core.astigmatic_depth_of_focus, ...astigmaticNumbers(beam), ...criterionNumbers(criterion)),
  );
}
