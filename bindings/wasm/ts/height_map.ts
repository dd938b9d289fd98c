/** From a map of heights to a map of what the spot does there, in bulk and therefore in plain numbers. */

import { beamNumbers, type Beam } from "./beam.js";
import { isFloat64Array, isUint8Array, refuseOther, refuseOutput, SLICE } from "./bulk.js";
import { call, core } from "./core.js";
import { criterionNumbers, type DepthCriterion } from "./focus.js";
import { signedOffset, type Offset } from "./place.js";
import type { Angle, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";

/**
 * What a map of heights is turned into.
 *
 * - `growth`: spot diameter over waist diameter.
 * - `diameter`: 1/e² (D4σ) **diameter** of the spot in metres.
 * - `irradiance ratio`: irradiance on the axis over that at the waist.
 * - `line dose ratio`: peak dose of a scanned line over that at the waist.
 * - `smallest stroke`: width in metres of the finest long stroke that a fill holds; `doseRatio`: fill dose over the
 *   dose at which the material just marks, 1.000001 to 1e6.
 */
export type HeightQuantity =
  | { readonly kind: "growth" }
  | { readonly kind: "diameter" }
  | { readonly kind: "irradiance ratio" }
  | { readonly kind: "line dose ratio" }
  | { readonly kind: "smallest stroke"; readonly doseRatio: PureNumber };

/** The least or the greatest number of a map. */
export interface MapExtreme {
  /** The number, a length in metres. */
  readonly value: number;
  /** Its first place in the map, from 0. */
  readonly index: number;
}

/** What a beam does on a surface of many heights. */
export interface HeightMap {
  /** The map, lengths in metres; NaN where there is no height. */
  readonly values: Float64Array;
  /** How many places have a height. */
  readonly measured: number;
  /** How many have none. */
  readonly missing: number;
  /** The least number of the map; `undefined` if nothing was measured. */
  readonly least: MapExtreme | undefined;
  /** The greatest number of the map; `undefined` if nothing was measured. */
  readonly greatest: MapExtreme | undefined;
  /** 1/e² **half** angle of the beam. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

/** Which places of a surface are in focus. */
export interface FocusMask {
  /** 1 for a place in focus, else 0. */
  readonly inFocus: Uint8Array;
  /** How many places are in focus. */
  readonly inFocusCount: number;
  /** How many lie nearer the lens than the range that is in focus: too high. */
  readonly tooNearLens: number;
  /** How many lie farther from the lens than that range: too low. */
  readonly tooFarFromLens: number;
  /** How many have no height. */
  readonly missing: number;
  /** The end of the range nearer the lens, from the datum of the heights. */
  readonly towardLens: Offset;
  /** The end of the range farther from the lens, from the datum of the heights. */
  readonly awayFromLens: Offset;
  /** 1/e² **half** angle of the beam. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

/** A quantity in the model's order: code, dose ratio. A quantity that does not exist is 0 and refused. */
function quantityNumbers(quantity: HeightQuantity): [number, number] {
  switch (quantity?.kind) {
    case "growth":
      return [1, NaN];
    case "diameter":
      return [2, NaN];
    case "irradiance ratio":
      return [3, NaN];
    case "line dose ratio":
      return [4, NaN];
    case "smallest stroke":
      return [5, quantity.doseRatio];
    default:
      return [0, NaN];
  }
}

/**
 * A map of what a beam does on a surface of many heights: growth, diameter, irradiance, line dose or the finest
 * stroke. Each height is taken by itself, as if the surface were level there, and gives the same bits whatever the
 * length of the map; diameters about a focus at 0 are the bits of {@link beamAt}. NaN is a place that was not
 * measured, and stays NaN. Slopes, light that is shaded by walls, and what lies between the places are not modelled.
 *
 * The heights pass through the module in slices, so that arrays of any length may be given. `out` may be
 * `heightsInMetres` itself.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result.
 *
 * @param focus - the waist, from the datum of the heights, up to 1 km.
 * @param heightsInMetres - + away from the lens, up to 1e7 m, or NaN.
 * @param out - where to put the map, which the result then holds; a new array if left out. After an error every
 * element of it is NaN.
 * @throws {@link SpotwiseError} with code 6 if `out` is not a `Float64Array` as long as `heightsInMetres`; for an
 * unknown quantity, a value outside its range, an infinite height, or a half angle above 0.3 rad.
 */
export function mapHeights(
  beam: Beam,
  focus: Offset,
  quantity: HeightQuantity,
  heightsInMetres: Float64Array,
  out?: Float64Array,
): HeightMap {
  try {
    return mapInSlices(beam, focus, quantity, heightsInMetres, out);
  } catch (error) {
    if (isFloat64Array(out)) out.fill(NaN);
    throw error;
  }
}

function mapInSlices(
  beam: Beam,
  focus: Offset,
  quantity: HeightQuantity,
  heights: Float64Array,
  given?: Float64Array,
): HeightMap {
  refuseOther(heights, 5, "z");
  const values = given === undefined ? new Float64Array(heights.length) : given;
  refuseOutput(values, "Float64Array", heights.length);
  const numbers = [...beamNumbers(beam), focus?.zAwayFromLens, ...quantityNumbers(quantity)] as const;
  // Where both lie in one buffer, a slice of results could cover heights yet to come.
  const z = values.buffer === heights.buffer ? heights.slice() : heights;
  let [start, measured, missing] = [0, 0, 0];
  let least: MapExtreme | undefined;
  let greatest: MapExtreme | undefined;
  let cone: Float64Array;
  // At least one slice, if only an empty one: it is what checks the beam.
  do {
    const [from, to] = [z.subarray(start, start + SLICE), values.subarray(start, start + SLICE)];
    const operation = (...[wavelength, m2, waist, focusZ, code, doseRatio]: [number, number, number, number, number, number]) =>
      core.map_heights(wavelength, m2, waist, focusZ, code, doseRatio, from, to);
    const part = call(operation, ...numbers);
    measured += part[0] as number;
    missing += part[1] as number;
    // Of equal extremes the first stays. A slice without a height has NaN for both, which is neither.
    const [low, high] = [part[2] as number, part[4] as number];
    if (low < (least?.value ?? Infinity)) least = { value: low, index: start + (part[3] as number) };
    if (high > (greatest?.value ?? -Infinity)) greatest = { value: high, index: start + (part[5] as number) };
    cone = part.subarray(6);
    start += SLICE;
  } while (start < z.length);
  // Each slice tells of the same beam.
  const [halfAngle, validity] = [cone[0] as Angle, validityOf(cone[1] as number)];
  return { values, measured, missing, least, greatest, halfAngle, validity };
}

/**
 * Which of many heights are in focus by a criterion: those from one end of {@link depthOfFocus} about `focus` to the
 * other, both included. NaN is a place that was not measured, and is not in focus.
 *
 * Accuracy: the ends at most 0.75 ulp (units in the last place) of the exact result; each yes or no is exact for
 * the ends that are given.
 *
 * @param focus - the waist, from the datum of the heights, up to 1 km.
 * @param heightsInMetres - + away from the lens, up to 1e7 m, or NaN.
 * @param out - where to put the mask, which the result then holds; a new array if left out. After an error every
 * element of it is 0.
 * @throws {@link SpotwiseError} with code 6 if `out` is not a `Uint8Array` as long as `heightsInMetres`; else as
 * {@link depthOfFocus}, and for an infinite height.
 */
export function inFocusMask(
  beam: Beam,
  focus: Offset,
  criterion: DepthCriterion,
  heightsInMetres: Float64Array,
  out?: Uint8Array,
): FocusMask {
  try {
    return maskInSlices(beam, focus, criterion, heightsInMetres, out);
  } catch (error) {
    if (isUint8Array(out)) out.fill(0);
    throw error;
  }
}

function maskInSlices(
  beam: Beam,
  focus: Offset,
  criterion: DepthCriterion,
  heights: Float64Array,
  given?: Uint8Array,
): FocusMask {
  refuseOther(heights, 5, "z");
  const inFocus = given === undefined ? new Uint8Array(heights.length) : given;
  refuseOutput(inFocus, "Uint8Array", heights.length);
  const numbers = [...beamNumbers(beam), focus?.zAwayFromLens, ...criterionNumbers(criterion)] as const;
  // Where both lie in one buffer, a slice of results could cover heights yet to come.
  const z = inFocus.buffer === heights.buffer ? heights.slice() : heights;
  let start = 0;
  const counts = [0, 0, 0, 0];
  let rest: Float64Array;
  // At least one slice, if only an empty one: it is what checks the beam.
  do {
    const [from, to] = [z.subarray(start, start + SLICE), inFocus.subarray(start, start + SLICE)];
    type Inputs = [number, number, number, number, number, number, number, number];
    const operation = (...[wavelength, m2, waist, focusZ, code, growth, drop, largest]: Inputs) =>
      core.in_focus_mask(wavelength, m2, waist, focusZ, code, growth, drop, largest, from, to);
    const part = call(operation, ...numbers);
    for (let i = 0; i < counts.length; i++) counts[i] = (counts[i] as number) + (part[i] as number);
    rest = part.subarray(counts.length);
    start += SLICE;
  } while (start < z.length);
  // Each slice tells of the same range.
  return {
    inFocus,
    inFocusCount: counts[0] as number,
    tooNearLens: counts[1] as number,
    tooFarFromLens: counts[2] as number,
    missing: counts[3] as number,
    towardLens: signedOffset(rest[0] as Length),
    awayFromLens: signedOffset(rest[1] as Length),
    halfAngle: rest[2] as Angle,
    validity: validityOf(rest[3] as number),
  };
}
