/** The exposure of a drawing by itself, and the depth of its mark. */

import { spotsFrom, type InkSpots } from "./artwork.js";
import {
  answerNumbers,
  drawingUseCode,
  drawnOn,
  outputsOf,
  sampleKindCode,
  watched,
  type DrawingUse,
  type DrawnOn,
  type MarkAnswer,
  type OnProgress,
  type SampleKind,
} from "./artwork_job.js";
import { call, callWithList, core } from "./core.js";
import { errorCode, SpotwiseError } from "./error.js";
import { described } from "./number.js";
import type { Angle, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";

/** The dose of a wide even fill in the units of an exposure: 32 768. */
export const fullDose: number = core.full_dose();

/** What is told of an exposure, of whichever kind. */
export interface ExposureFacts {
  /** Spots over the ink. */
  readonly spots: InkSpots;
  /** Where the surface has no known height, 1 for such a pixel; `undefined` if it is known everywhere. */
  readonly unknown: Uint8Array | undefined;
  /** Fewest pixels in a spot **radius**, blur included. */
  readonly pixelsPerRadius: number;
  /** Most pixels in a spot **radius**, blur included. */
  readonly mostPixelsPerRadius: number;
  /** Expected greatest error of the exposure for want of pixels, as a share of full dose. */
  readonly expectedError: number;
  /** Whether the drawing should be drawn finer to be sure. */
  readonly tooFewPixels: boolean;
  /** 1/e² **half** angle of the beam. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

/** The exposure of a drawing. */
export interface DrawingExposure extends ExposureFacts {
  /**
   * At the centre of every pixel, row by row, in units of 1/{@link fullDose}, up to twice full dose; 0 where no height is
   * known.
   */
  readonly exposure: Uint16Array;
}

/** The exact exposure of a drawing. */
export interface ExactExposure extends ExposureFacts {
  /** At the centre of every pixel, row by row, as a share of full dose; NaN where no height is known. */
  readonly shares: Float64Array;
}

function exposed(on: DrawnOn, exact: boolean, onProgress: OnProgress | undefined): ExposureFacts {
  const { samples, lists, numbers } = drawnOn(on);
  const out = watched(onProgress, (tell) =>
    outputsOf((all) => core.expose_drawing(samples, all, ...lists, exact, tell), numbers, 15),
  );
  const unknown = core.unknown_heights();
  return {
    spots: spotsFrom(out),
    unknown: unknown.length > 0 ? unknown : undefined,
    pixelsPerRadius: out[9] as number,
    mostPixelsPerRadius: out[10] as number,
    expectedError: out[11] as number,
    tooFewPixels: out[12] === 1,
    halfAngle: out[13] as Angle,
    validity: validityOf(out[14] as number),
  };
}

/**
 * The exposure of a drawing, relative to a wide even fill: within 5e-4 of full dose of the exact sum, the same bits on
 * every face of spotwise.
 *
 * @throws {@link SpotwiseError} as {@link preflight}.
 */
export function exposeDrawing(on: DrawnOn, onProgress?: OnProgress): DrawingExposure {
  const facts = exposed(on, false, onProgress);
  return { ...facts, exposure: core.drawing_exposure() };
}

/**
 * The exposure in doubles without truncation, for comparison. Slow: where all spots are the same, as many additions as
 * width·height·(width + height), else 169·width·height·w² for spot radii of w pixels.
 *
 * @throws {@link SpotwiseError} as {@link preflight}.
 */
export function exposeDrawingExactly(on: DrawnOn, onProgress?: OnProgress): ExactExposure {
  const facts = exposed(on, true, onProgress);
  return { ...facts, shares: core.exact_drawing_exposure() };
}

/**
 * Bytes of the module's memory that {@link exposeDrawing}, or {@link exposeDrawingExactly}, takes, its inputs included.
 *
 * @throws {@link SpotwiseError} as {@link preflight}, for what can be told before any work.
 */
export function exposureMemory(on: DrawnOn, how: "fast" | "exact" = "fast"): number {
  const { samples, lists, numbers } = drawnOn(on);
  const exact = how === "exact";
  return outputsOf((all) => core.expose_drawing_bytes(samples, all, ...lists, exact), numbers, 1)[0] as number;
}

/**
 * Expected greatest error of an exposure for want of pixels, as a share of full dose, from the pixels in a spot
 * **radius**, 0.1 to 10 000. 0 for a raster that is burnt as it is. A drawing of shapes should have 3 of coverage, or 8
 * bilevel.
 *
 * From a table of what was found for text, between its places by a power law.
 *
 * @throws {@link SpotwiseError} for a choice that does not exist or a value outside its range.
 */
export function expectedExposureError(kind: SampleKind, use: DrawingUse, pixelsPerRadius: PureNumber): number {
  const codes = [sampleKindCode(kind), drawingUseCode(use)] as const;
  return call(core.expected_exposure_error, ...codes, pixelsPerRadius)[0] as number;
}

/**
 * Depth of the mark at every pixel, in metres, from an exposure; 0 for a coating or a melt.
 *
 * Logarithmic ablation digs ℓ·ln(q·E), linear ablation h·(q·E − 1), both from q·E = 1 on. Depths below the visible one
 * are told as they are.
 *
 * @param exposure - as {@link exposeDrawing} or {@link preflight} gives it.
 * @param doseRatio - dose inside a wide even fill over the threshold dose, 1e-6 to 1e6.
 * @throws {@link SpotwiseError} for a choice that does not exist or a value outside its range; for an exposure that is
 * no `Uint16Array`.
 */
export function depthMap(exposure: Uint16Array, answer: MarkAnswer, doseRatio: PureNumber): Float32Array {
  // By its tag, since an array of another realm has another constructor.
  if (!ArrayBuffer.isView(exposure) || Object.prototype.toString.call(exposure) !== "[object Uint16Array]") {
    const details = { parameter: 40, parameterName: "output length", value: NaN, least: NaN, greatest: NaN };
    const message = `exposure = ${described(exposure)} is not a Uint16Array`;
    throw new SpotwiseError(message, { code: errorCode.lengthMismatch, ...details });
  }
  const depths = new Float32Array(exposure.length);
  callWithList((all) => core.depth_map(exposure, Float64Array.from(all), depths), [...answerNumbers(answer), doseRatio]);
  return depths;
}
