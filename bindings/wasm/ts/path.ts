/** A beam through a list of elements: space, thin lens, window, expander, singlet. */

import type { AstigmaticBeam, Beam } from "./beam.js";
import { callWithList, core } from "./core.js";
import { rawAstigmaticNumbers, type RawAstigmaticBeam } from "./lens.js";
import { signedDownstream, signedOffset, type RawPlace } from "./place.js";
import type { Angle, Curvature, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/**
 * One element of a beam path.
 *
 * - `space`: empty space, 0 to 1e7 m long.
 * - `thin lens`: an ideal lens; `focalLength` + converging, 10 µm to 10 km in magnitude.
 * - `window`: flat and at right angles to the beam; 0 to 10 m thick, index 1.01 to 6.
 * - `expander`: two ideal lenses without length; `magnification`: beam diameter behind over that
 *   before, 0.01 to 100; `exitPower`: by how much it converges collimated light, 0 when set to
 *   infinity, **+ converging**, up to 1000 /m either way.
 * - `singlet`: a single-piece lens with spherical aberration; index 1.01 to 6, shape factor as in
 *   {@link LensShape}.
 */
export type PathElement =
  | { readonly kind: "space"; readonly length: Length }
  | { readonly kind: "thin lens"; readonly focalLength: Length }
  | { readonly kind: "window"; readonly thickness: Length; readonly index: PureNumber }
  | { readonly kind: "expander"; readonly magnification: PureNumber; readonly exitPower: Curvature }
  | {
      readonly kind: "singlet";
      readonly focalLength: Length;
      readonly index: PureNumber;
      readonly shapeFactor: PureNumber;
    };

/** A beam at one place of its path. */
export interface PathBeam {
  readonly wavelength: Length;
  /**
   * M², waist and place of the waist in x, with z = 0 **at this place**; behind a singlet by second moments
   * (D4σ). Inside a window they are those of the beam in air that has the same waist and cone.
   */
  readonly x: AstigmaticBeam["x"];
  /** The same in y. */
  readonly y: AstigmaticBeam["y"];
  /**
   * The beam, to examine as one behind a lens; `undefined` where {@link validity} says `aberrated`: its
   * irradiances and doses would take it for Gaussian, and its flags would be lost.
   */
  readonly beam: AstigmaticBeam | undefined;
  /**
   * The same beam as a raw one, its waists relative to this place: what arrives at a lens put here;
   * `undefined` where `beam` is.
   */
  readonly raw: RawAstigmaticBeam | undefined;
  /** Width in x there; behind a singlet by second moments (D4σ). */
  readonly widthX: BeamWidth;
  /** Width in y there; behind a singlet by second moments (D4σ). */
  readonly widthY: BeamWidth;
  /** From the start of the path. */
  readonly distance: Length;
  /** Sum over the singlets and windows passed of the normalised aberration, in the axis where each is greater. */
  readonly normalisedAberration: number;
  /** Greatest 1/e² **half** angle along the path up to there, of either axis. */
  readonly halfAngle: Angle;
  /** How far the numbers may be trusted. */
  readonly validity: Validity;
}

/**
 * A round beam as a raw one whose axes are alike.
 *
 * @param waistAt - where its waist lies relative to the lens or the start of the path.
 */
export function roundRawBeam(beam: Beam, waistAt: RawPlace): RawAstigmaticBeam {
  const { wavelength, m2, waist } = beam ?? {};
  const axis = { m2, waist, waistAt };
  return { wavelength, x: axis, y: axis };
}

/** Numbers of the raw beam, which stand before those of the elements. */
const RAW_BEAM = 7;

/**
 * An element in the model's order: code, length, focal length, index, magnification, exit power, shape
 * factor. What its kind does not name is 0 and ignored; a kind that does not exist is 0 and refused.
 */
function elementNumbers(element: PathElement): number[] {
  switch (element?.kind) {
    case "space":
      return [1, element.length, 0, 0, 0, 0, 0];
    case "thin lens":
      return [2, 0, element.focalLength, 0, 0, 0, 0];
    case "window":
      return [3, element.thickness, 0, element.index, 0, 0, 0];
    case "expander":
      return [4, 0, 0, 0, element.magnification, element.exitPower, 0];
    case "singlet":
      return [5, 0, element.focalLength, element.index, 0, 0, element.shapeFactor];
    default:
      return [0, 0, 0, 0, 0, 0, 0];
  }
}

/** A raw beam and the elements, each with its numbers one after the other. */
function pathNumbers(raw: RawAstigmaticBeam, elements: readonly PathElement[]): number[] {
  // What is no list is one element that does not exist.
  const list: readonly unknown[] = Array.isArray(elements) ? elements : [elements];
  const numbers: number[] = [...rawAstigmaticNumbers(raw)];
  for (const element of list) numbers.push(...elementNumbers(element as PathElement));
  return numbers;
}

/** The raw beam and the elements apart again, as the compiled functions take them. */
function apart(numbers: number[], end: number): [number, number, number, number, number, number, number, Float64Array] {
  const [wavelength, m2x, waistX, zX, m2y, waistY, zY] = numbers as [number, number, number, number, number, number, number];
  return [wavelength, m2x, waistX, zX, m2y, waistY, zY, Float64Array.from(numbers.slice(RAW_BEAM, end))];
}

function pathBeamFrom(out: Float64Array): PathBeam {
  const wavelength = out[0] as Length;
  const axis = (start: number) => ({
    m2: out[start] as PureNumber,
    waist: diameter1e2(out[start + 1] as Length),
    z: out[start + 2] as Length,
  });
  const [x, y] = [axis(1), axis(4)];
  const examined = ({ m2, waist, z }: typeof x) => ({ m2, waist, waistZ: signedOffset(z) });
  const raw = ({ m2, waist, z }: typeof x) => ({ m2, waist, waistAt: signedDownstream(z) });
  const validity = validityOf(out[12] as number);
  const whole = { wavelength, x: examined(x), y: examined(y) };
  return {
    ...whole,
    beam: validity.aberrated ? undefined : whole,
    raw: validity.aberrated ? undefined : { wavelength, x: raw(x), y: raw(y) },
    widthX: diameter1e2(out[7] as Length),
    widthY: diameter1e2(out[8] as Length),
    distance: out[9] as Length,
    normalisedAberration: out[10] as number,
    halfAngle: out[11] as Angle,
    validity,
  };
}

/**
 * The beam behind a list of elements, in the order in which the light meets them.
 *
 * A singlet acts by exact second moments of a Gaussian profile: it raises M² and adds power; wavefront errors of
 * several are added, which is exact where they stand close to each other. The aberration of a window counts for
 * the flags alone.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @param raw - the beam at the start of the path; its waists are {@link upstream} or
 * {@link downstream} of **the start of the path**. See {@link roundRawBeam} for a round one.
 * @throws {@link SpotwiseError} for an unknown kind, then for a value outside its range, in the order
 * of the elements; with code 4 if the beam leaves the model on its way, as {@link focusThroughLens}.
 */
export function beamAfterPath(raw: RawAstigmaticBeam, elements: readonly PathElement[]): PathBeam {
  const numbers = pathNumbers(raw, elements);
  return pathBeamFrom(callWithList((given) => core.beam_after_path(...apart(given, given.length)), numbers));
}

/**
 * The beam at a place on its path: the elements up to there act, one at that place included, and
 * behind the last one the beam goes on through empty space.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @param distance - from the start of the path, 0 to 1e7 m.
 * @throws {@link SpotwiseError} as {@link beamAfterPath}.
 */
export function beamAlongPath(
  raw: RawAstigmaticBeam,
  elements: readonly PathElement[],
  distance: Length,
): PathBeam {
  const numbers = [...pathNumbers(raw, elements), distance];
  const operation = (given: number[]) =>
    core.beam_along_path(...apart(given, given.length - 1), given[given.length - 1] as number);
  return pathBeamFrom(callWithList(operation, numbers));
}
