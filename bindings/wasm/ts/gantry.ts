/** A lens that travels along a gantry: how the spot changes with the length of the path. */

import { beamNumbers, type Beam } from "./beam.js";
import { refuseOther, SLICE } from "./bulk.js";
import { call, core } from "./core.js";
import { distanceToLens, signedDownstream, signedOffset, type Offset, type RawPlace } from "./place.js";
import type { Angle, Curvature, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/** Spots and focus shifts at many places of a lens, in plain metres. */
export interface FocusAlongGantry {
  /** 1/e² (D4σ) **diameters** of the spots. */
  readonly spotDiametersInMetres: Float64Array;
  /** The waists relative to the focal point, + away from the lens. */
  readonly focusShiftsInMetres: Float64Array;
  /** Greatest 1/e² **half** angle, of the raw beam and of all foci. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted: the flags of all of them. */
  readonly validity: Validity;
}

/**
 * Spot and focus shift of a lens at many places along its travel, in bulk and therefore in plain
 * numbers: `waistToLensInMetres` is the distance from the raw waist to the lens, + where the waist
 * lies upstream. Each is the same bits as {@link focusThroughLens} gives.
 *
 * The places pass through the module in slices, so that an array of any length may be given.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @param raw - the beam before the lens.
 * @param focalLength - + converging, 10 µm to 10 km in magnitude.
 * @throws {@link SpotwiseError} as {@link focusThroughLens}, for the first place that is refused.
 */
export function focusAlongGantry(
  raw: Beam,
  focalLength: Length,
  waistToLensInMetres: Float64Array,
): FocusAlongGantry {
  refuseOther(waistToLensInMetres, 7, "waist to lens");
  const spots = new Float64Array(waistToLensInMetres.length);
  const shifts = new Float64Array(waistToLensInMetres.length);
  const numbers = beamNumbers(raw);
  // At least one slice, if only an empty one: it is what checks the beam.
  let start = 0;
  let [halfAngle, flags] = [0, 0];
  do {
    const slice = (array: Float64Array) => array.subarray(start, start + SLICE);
    const operation = (wavelength: number, m2: number, waist: number, f: number) =>
      core.focus_along_gantry(wavelength, m2, waist, slice(waistToLensInMetres), f, slice(spots), slice(shifts));
    const cone = call(operation, ...numbers, focalLength);
    halfAngle = Math.max(halfAngle, cone[0] as number);
    flags |= cone[1] as number;
    start += SLICE;
  } while (start < spots.length);
  return {
    spotDiametersInMetres: spots,
    focusShiftsInMetres: shifts,
    halfAngle: halfAngle as Angle,
    validity: validityOf(flags),
  };
}

/** How much the focus varies over the travel of a lens. */
export interface GantrySpread {
  /** Smallest spot on the travel. */
  readonly smallestSpot: BeamWidth;
  /** Largest spot on the travel. */
  readonly largestSpot: BeamWidth;
  /** Largest over smallest spot. */
  readonly spotRatio: number;
  /** The waist nearest the lens on the travel, relative to the focal point. */
  readonly leastFocusShift: Offset;
  /** The waist farthest from the lens on the travel, relative to the focal point. */
  readonly greatestFocusShift: Offset;
  /** How far the focus wanders in height from one to the other. */
  readonly focusWander: Length;
  /** Greatest 1/e² **half** angle, of the beam before the lens and of all foci. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted. */
  readonly validity: Validity;
}

/** A spread from its eight outputs. */
function spreadFrom(out: Float64Array): GantrySpread {
  return {
    smallestSpot: diameter1e2(out[0] as Length),
    largestSpot: diameter1e2(out[1] as Length),
    spotRatio: out[2] as number,
    leastFocusShift: signedOffset(out[3] as Length),
    greatestFocusShift: signedOffset(out[4] as Length),
    focusWander: out[5] as Length,
    halfAngle: out[6] as Angle,
    validity: validityOf(out[7] as number),
  };
}

/**
 * How much spot and focus vary as a lens travels along the beam: the exact extremes, which need not
 * lie at the ends of the travel.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @param raw - the beam before the lens.
 * @param travel - where the raw waist lies relative to the lens, `waistAtNearest` with the lens at the
 * end of its travel nearer the laser, `waistAtFarthest` at the other end; `focalLength`: 10 µm to
 * 10 km.
 * @throws {@link SpotwiseError} for a value outside its range, ends that are the wrong way round, or
 * as {@link focusThroughLens}.
 */
export function gantrySpread(
  raw: Beam,
  travel: { readonly waistAtNearest: RawPlace; readonly waistAtFarthest: RawPlace; readonly focalLength: Length },
): GantrySpread {
  const { waistAtNearest, waistAtFarthest, focalLength } = travel ?? {};
  const nearest = distanceToLens(waistAtNearest as RawPlace);
  const farthest = distanceToLens(waistAtFarthest as RawPlace);
  return spreadFrom(call(core.gantry_spread, ...beamNumbers(raw), nearest, farthest, focalLength));
}

/** The setting of a beam expander that evens out the spot over the travel of a lens. */
export interface EvenGantry {
  /** By how much the expander must converge collimated light, **+ converging**. */
  readonly exitPower: Curvature;
  /** The waist behind the expander. */
  readonly waist: BeamWidth;
  /** Where that waist lies, relative to the expander. */
  readonly waistAt: RawPlace;
  /**
   * Whether the spots at both ends of the travel are equal; if not, the beam is too thin to carry its
   * waist to mid-travel, and this setting only makes the spots least unequal.
   */
  readonly endsEqual: boolean;
  /** How the focus then varies. */
  readonly spread: GantrySpread;
}

/**
 * How to set a beam expander so that the spot is the same at both ends of a lens's travel.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result.
 *
 * @param raw - the beam before the expander.
 * @param gantry - `waistAt`: the raw waist relative to **the expander**; `magnification`: beam
 * diameter behind the expander over that before it, 0.01 to 100; `expanderToNearest` and
 * `expanderToFarthest`: from the expander to the lens at the ends of its travel, 0 to 1e7 m;
 * `focalLength`: 10 µm to 10 km.
 * @throws {@link SpotwiseError} as {@link gantrySpread}, or for an exit power beyond 1000 /m.
 */
export function evenOutGantry(
  raw: Beam,
  gantry: {
    readonly waistAt: RawPlace;
    readonly magnification: PureNumber;
    readonly expanderToNearest: Length;
    readonly expanderToFarthest: Length;
    readonly focalLength: Length;
  },
): EvenGantry {
  const { waistAt, magnification, expanderToNearest, expanderToFarthest, focalLength } = gantry ?? {};
  const out = call(
    core.even_out_gantry,
    ...beamNumbers(raw),
    distanceToLens(waistAt as RawPlace),
    magnification,
    expanderToNearest,
    expanderToFarthest,
    focalLength,
  );
  return {
    exitPower: out[0] as Curvature,
    waist: diameter1e2(out[1] as Length),
    waistAt: signedDownstream(out[2] as Length),
    endsEqual: out[3] === 1,
    spread: spreadFrom(out.subarray(4)),
  };
}
