/** What the spot leaves behind: the finest detail it holds, and the contrast of a grating. */

import { call, core } from "./core.js";
import type { Length, PureNumber } from "./units.js";
import { diameter, diameter1e2, type BeamWidth, type Diameter } from "./width.js";

/** The finest details that hold. */
export interface SmallestDetails {
  /** Width of the finest long stroke. */
  readonly bar: Length;
  /** Width of the finest long gap between filled areas. */
  readonly gap: Length;
  /** The finest filled disc. */
  readonly dot: Diameter;
  /** The finest open disc, such as a counter. */
  readonly hole: Diameter;
  /** Side of the finest filled square. */
  readonly square: Length;
  /** How far a straight edge moves, + outward (strokes grow), − inward. */
  readonly edgeShiftOutward: Length;
}

/** Exposure at the centre of a detail, over that of a wide fill. */
export interface DetailExposure {
  /** A long stroke as wide as the size given. */
  readonly bar: number;
  /** A long gap as wide, in a fill. */
  readonly gap: number;
  /** A filled square of that side. */
  readonly square: number;
  /** A filled disc of that **diameter**. */
  readonly dot: number;
  /** An open disc of that **diameter**, in a fill. */
  readonly hole: number;
}

/** Pitches at which a pattern keeps a contrast. */
export interface ContrastPitch {
  /** Pitch of a sinusoidal pattern. */
  readonly sine: Length;
  /** Pitch of equal bars and gaps; smaller, since their contrast starts out higher. */
  readonly bars: Length;
}

/** Contrast of a grating at one pitch. */
export interface GratingContrast {
  /** Contrast of a sinusoidal pattern, 0 to 1. */
  readonly sine: number;
  /** Contrast of equal bars and gaps, 0 to 1. */
  readonly bars: number;
  /**
   * Largest over smallest dose at which equal bars and gaps both hold; Infinity where the gaps
   * stay clear at any dose a double can tell.
   */
  readonly doseWindow: number;
}

/**
 * The finest bar, gap, dot, hole and square that a spot and a dose hold, and the shift of an edge.
 *
 * Exact for one long detail by itself in a dense raster. Heat that stays in the part, melt flow
 * and incubation are not modelled.
 *
 * Accuracy: at most 3 ulp (units in the last place) of the exact result.
 *
 * @param at - `spot`: 1 nm to 10 m in 1/e² diameter; `doseRatio`: fill dose over the dose at which
 * the material just marks, 1.000001 to 1e6.
 * @throws {@link SpotwiseError} for a value outside its range: at a ratio of 1 nothing marks.
 */
export function smallestDetails(at: {
  readonly spot: BeamWidth;
  readonly doseRatio: PureNumber;
}): SmallestDetails {
  const out = call(core.smallest_details, at?.spot?.diameter1e2, at?.doseRatio);
  return {
    bar: out[0] as Length,
    gap: out[1] as Length,
    dot: diameter(out[2] as Length),
    hole: diameter(out[3] as Length),
    square: out[4] as Length,
    edgeShiftOutward: out[5] as Length,
  };
}

/**
 * Exposure at the centre of a bar, gap, square, dot and hole of one size, over that of a wide fill. A detail
 * is kept while the dose ratio times this is at least 1, a gap or hole while it is below 1.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result; gap and hole that times
 * 1 + 2·(size/spot diameter)².
 *
 * @param at - `spot`: 1 nm to 10 m in 1/e² diameter; `size`: width, side or diameter, 1 nm to 10 m.
 * @throws {@link SpotwiseError} for a value outside its range.
 */
export function detailExposure(at: { readonly spot: BeamWidth; readonly size: Length }): DetailExposure {
  const out = call(core.detail_exposure, at?.spot?.diameter1e2, at?.size);
  return {
    bar: out[0] as number,
    gap: out[1] as number,
    square: out[2] as number,
    dot: out[3] as number,
    hole: out[4] as number,
  };
}

/**
 * The largest spot at which both a stroke and a gap of these widths still hold. With
 * {@link offsetsForDiameter} it tells how far a surface may stray before the detail suffers.
 *
 * Accuracy: at most 3 ulp (units in the last place) of the exact result.
 *
 * @param details - widths of 1 nm to 10 m; `doseRatio` as in {@link smallestDetails}.
 * @throws {@link SpotwiseError} for a value outside its range.
 */
export function largestSpotForDetails(details: {
  readonly finestStroke: Length;
  readonly finestGap: Length;
  readonly doseRatio: PureNumber;
}): BeamWidth {
  const out = call(
    core.largest_spot_for_details,
    details?.finestStroke,
    details?.finestGap,
    details?.doseRatio,
  );
  return diameter1e2(out[0] as Length);
}

/**
 * Contrast of a sine pattern and of equal bars and gaps, and the dose window.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result.
 *
 * @param at - `spot`: 1 nm to 10 m in 1/e² diameter; `pitch`: one bar and one gap, 1 nm to 10 m.
 * @throws {@link SpotwiseError} for a value outside its range.
 */
export function contrastAtPitch(at: { readonly spot: BeamWidth; readonly pitch: Length }): GratingContrast {
  const out = call(core.contrast_at_pitch, at?.spot?.diameter1e2, at?.pitch);
  return { sine: out[0] as number, bars: out[1] as number, doseWindow: out[2] as number };
}

/**
 * The pitches at which a sine pattern, and equal bars and gaps, keep this contrast.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result.
 *
 * @param at - `spot`: 1 nm to 10 m in 1/e² diameter; `contrast`: 1e-12 to just below 1.
 * @throws {@link SpotwiseError} for a value outside its range.
 */
export function pitchForContrast(at: {
  readonly spot: BeamWidth;
  readonly contrast: PureNumber;
}): ContrastPitch {
  const out = call(core.pitch_for_contrast, at?.spot?.diameter1e2, at?.contrast);
  return { sine: out[0] as Length, bars: out[1] as Length };
}
