/** What a spot surely marks and what it surely leaves clear, from distances alone and without any exposure. */

import { drawingNumbers, outputsOf, samplesOf, watched, type Artwork, type OnProgress } from "./artwork_job.js";
import { core } from "./core.js";
import { orElse } from "./number.js";
import type { Length, PureNumber } from "./units.js";
import type { BeamWidth } from "./width.js";

/** What bounds the exposure of a drawing. */
export interface BoundInput {
  /** The drawing. */
  readonly drawing: Artwork;
  /** Greatest spot anywhere on the drawing, blur included; 1 nm to 10 m. */
  readonly greatestSpot: BeamWidth;
  /** Least dose ratio anywhere on the drawing: dose in the middle of a wide fill over that at which it marks. */
  readonly leastDoseRatio: PureNumber;
  /** Greatest dose ratio anywhere on the drawing; left out, the least. */
  readonly greatestDoseRatio?: PureNumber | undefined;
  /** Scan lines that lie apart; left out, an even fill. */
  readonly lines?: BoundLines | undefined;
}

/** Scan lines of a drawing, at most 2.5 of the least spot radius apart. */
export interface BoundLines {
  /** From one line to the next. */
  readonly lineInterval: Length;
  /** Least spot across the lines anywhere on the drawing, blur included; at most the greatest. */
  readonly leastSpot: BeamWidth;
}

/** What is decided without exposure. Masks hold one byte for each pixel, row by row, 1 where it is set. */
export interface QuickBound {
  /** What is surely marked. */
  readonly marked: Uint8Array;
  /** What surely stays clear. */
  readonly clear: Uint8Array;
  /** Pixels that are surely marked. */
  readonly markedPixels: number;
  /** Pixels that surely stay clear. */
  readonly clearPixels: number;
  /** All others. */
  readonly undecidedPixels: number;
  /** Pixels in the middle of strokes. */
  readonly strokePixels: number;
  /** Those that are not surely marked. */
  readonly doubtfulStrokes: number;
  /** Pixels in the middle of gaps. */
  readonly gapPixels: number;
  /** Those that do not surely stay clear. */
  readonly doubtfulGaps: number;
  /** Pixels of ink farther than the greatest spot diameter, and half a pixel's diagonal, from whatever is surely marked. */
  readonly farInk: number;
  /** Pieces of the drawing. */
  readonly components: number;
  /** Pieces of which no pixel is surely marked. */
  readonly componentsMaybeLost: number;
  /** Pieces whose surely marked pixels are in two parts or more. */
  readonly componentsMaybeSplit: number;
  /** Pieces of what does not surely stay clear that hold two pieces of the drawing or more: these may come to touch. */
  readonly componentsMaybeMerged: number;
  /** Pieces of which less than half of the middle of strokes is surely marked. */
  readonly componentsMaybeStarved: number;
  /** Holes of the drawing. */
  readonly holes: number;
  /** Holes of which no pixel surely stays clear. */
  readonly holesMaybeClosed: number;
  /** Holes that what is surely marked does not part from the outside. */
  readonly holesMaybeOpened: number;
  /**
   * Whether the drawing holds whatever becomes of what is undecided, but for specks beside edges: all that may be of pieces
   * and holes, and `farInk`, are 0. Then no piece is lost or starved, no two come to touch, no hole closes or opens, and
   * all that is surely marked of a piece hangs together. Not shown is that no further speck of a piece comes out beside it,
   * as a part of a split piece; it would lie within a spot diameter of what is surely marked. False says nothing: the
   * spot may still do.
   */
  readonly holds: boolean;
}

function parts(input: BoundInput): [Uint8Array, number[]] {
  const least = input?.leastDoseRatio;
  const lines = input?.lines;
  const apart = lines === undefined ? [0, NaN] : [lines?.lineInterval, lines?.leastSpot?.diameter1e2];
  const light = [input?.greatestSpot?.diameter1e2, least, orElse(input?.greatestDoseRatio, least), ...apart];
  return [samplesOf(input?.drawing), [...drawingNumbers(input?.drawing), ...light]];
}

/**
 * Finds what is surely marked and what surely stays clear, and whether the drawing holds by that alone: an answer at
 * once. It is no preflight: nothing is said of the dose window and the grade.
 *
 * A disc of ink of radius d around a point is exposed at least as much as that disc alone would be, a point in a bare
 * disc at most as much as in a hole of an endless fill: these are the smallest dot and hole of {@link smallestDetails}.
 * It holds for an even fill on a surface of any shape; where tilt changes the exposure, the least and the greatest dose
 * ratio must say so. Scan lines that lie apart leave more undecided: √(2/π) times the interval over the least spot radius is
 * what they may take from full dose, and from 1.25 of that radius on nothing is surely marked. Where the spot is so large that its disc would be more than 254 pixels in radius,
 * nothing is decided.
 *
 * @throws {@link SpotwiseError} for a value outside its range or a choice that does not exist; with code 9 if the
 * progress function says so.
 */
export function quickBound(input: BoundInput, onProgress?: OnProgress): QuickBound {
  const [samples, numbers] = parts(input);
  const out = watched(onProgress, (tell) => outputsOf((all) => core.quick_bound(samples, all, tell), numbers, 17));
  return {
    marked: core.quick_bound_mask(0),
    clear: core.quick_bound_mask(1),
    markedPixels: out[0] as number,
    clearPixels: out[1] as number,
    undecidedPixels: out[2] as number,
    strokePixels: out[3] as number,
    doubtfulStrokes: out[4] as number,
    gapPixels: out[5] as number,
    doubtfulGaps: out[6] as number,
    farInk: out[7] as number,
    components: out[8] as number,
    componentsMaybeLost: out[9] as number,
    componentsMaybeSplit: out[10] as number,
    componentsMaybeMerged: out[11] as number,
    componentsMaybeStarved: out[12] as number,
    holes: out[13] as number,
    holesMaybeClosed: out[14] as number,
    holesMaybeOpened: out[15] as number,
    holds: out[16] === 1,
  };
}

/**
 * Bytes of the module's memory that {@link quickBound} takes, its inputs included.
 *
 * @throws {@link SpotwiseError} as {@link quickBound}.
 */
export function quickBoundMemory(input: BoundInput): number {
  const [samples, numbers] = parts(input);
  return outputsOf((all) => core.quick_bound_bytes(samples, all), numbers, 1)[0] as number;
}
