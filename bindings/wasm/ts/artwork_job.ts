/** What the preflight of a drawing is told: the drawing, what exposes it, what answers. */

import { beamNumbers, type Beam } from "./beam.js";
import { isUint8Array } from "./bulk.js";
import { callWithList } from "./core.js";
import { errorCode, SpotwiseError } from "./error.js";
import { described, orElse } from "./number.js";
import type { Offset } from "./place.js";
import type { Area } from "./scan_units.js";
import { surfaceParts, type Surface } from "./shape.js";
import type { Length, PureNumber } from "./units.js";
import type { BeamWidth } from "./width.js";

/**
 * What a sample says: `bilevel`, 0 is bare and anything else is ink; `coverage`, the share of the pixel that is inked,
 * 0 none and 255 all of it, where ink is from 128 on.
 */
export type SampleKind = "bilevel" | "coverage";

/**
 * What a drawing is: `shapes`, a picture of what is to be marked, which the machine will sample finely; `burnt raster`,
 * the very raster that is burnt, each row of pixels one pass of the spot.
 */
export type DrawingUse = "shapes" | "burnt raster";

/**
 * A drawing as rows of 8-bit samples. Outside it there is no ink.
 *
 * The centre of the pixel in column i and row j lies at x = `left` + (i + ½)·`pitchX` and y = `top` + (j + ½)·`pitchY`
 * of the table.
 */
export interface Artwork {
  /** One for each pixel, row after row: at least (`height` − 1)·`rowStride` + `width` of them. */
  readonly samples: Uint8Array;
  /** Pixels in a row, 1 to 65 535. */
  readonly width: number;
  /** Rows, 1 to 65 535; at most 2²⁸ pixels in all. */
  readonly height: number;
  /** Samples from the start of one row to that of the next, at least `width`; left out, `width`. */
  readonly rowStride?: number | undefined;
  /** From pixel to pixel along a row, 1 nm to 1 m. */
  readonly pitchX: Length;
  /** From row to row, 1 nm to 1 m. */
  readonly pitchY: Length;
  /** Where the left edge of the first column lies, −1 to 1 km; left out, at 0. */
  readonly left?: Length | undefined;
  /** Where the upper edge of the first row lies, −1 to 1 km; left out, at 0. y grows from row to row. */
  readonly top?: Length | undefined;
  /** What a sample says. */
  readonly kind: SampleKind;
  /** What the drawing is. */
  readonly use: DrawingUse;
}

/**
 * How the machine goes over a drawing: `unknown`, each pixel counts as burnt evenly; `along rows`, lines along the rows,
 * burnt while they cross ink, the first one `firstLine` below the upper edge, at most an interval.
 *
 * Lines farther apart than 2.5 of the least spot radius anywhere on the drawing, blur across included, are refused (code
 * 4): they are strokes rather than a fill, to be drawn as ink with the scan unknown. Of a raster that is burnt as it is the
 * rows are the lines: any interval but its `pitchY`, to one part in a million, is refused (code 2).
 */
export type RasterScan =
  | { readonly kind: "unknown" }
  | { readonly kind: "along rows"; readonly lineInterval: Length; readonly firstLine: Length };

/** What widens the spot besides focus: heat, jitter, the rise of the power. Adds by squares. */
export interface ScanBlur {
  /** Along the rows, 0 to 10 m in 1/e² diameter; left out, none. */
  readonly along?: BeamWidth | undefined;
  /** From row to row; left out, none. */
  readonly across?: BeamWidth | undefined;
}

/** A drawing on a surface, and what exposes it. */
export interface DrawnOn {
  /** The drawing. */
  readonly drawing: Artwork;
  /** The focused beam. */
  readonly beam: Beam;
  /** Where its waist lies, from the datum of the surface. */
  readonly focus: Offset;
  /** The surface. Of places where it has no height nothing is said. */
  readonly surface: Surface;
  /** Whether a slope thins the irradiance by the cosine of the incidence angle; left out, it does. */
  readonly incidenceLoss?: boolean | undefined;
  /** What widens the spot besides; left out, nothing. */
  readonly blur?: ScanBlur | undefined;
  /** How the machine goes over the drawing; left out, it is not known. */
  readonly scan?: RasterScan | undefined;
}

/**
 * What answers to the dose.
 *
 * - `coating`: is removed above the threshold, and no further.
 * - `logarithmic ablation`: a bulk in which the dose falls by e over the `penetrationDepth`, 1 pm to 1 m; depth
 *   ℓ·ln(dose over threshold).
 * - `linear ablation`: a bulk of which every joule above the threshold removes its share; `thresholdDepth`, 1 pm to
 *   1 m: threshold dose over removal energy, the depth that doubling the dose adds to what just marks.
 * - `melt`: closes gaps up to the width `bridge`, 0 for none.
 *
 * `visibleDepth` is the depth from which on a place counts as marked, up to ten of the other depth; left out, any.
 */
export type MarkAnswer =
  | { readonly kind: "coating" }
  | {
      readonly kind: "logarithmic ablation";
      readonly penetrationDepth: Length;
      readonly visibleDepth?: Length | undefined;
    }
  | {
      readonly kind: "linear ablation";
      readonly thresholdDepth: Length;
      readonly visibleDepth?: Length | undefined;
    }
  | { readonly kind: "melt"; readonly bridge: Length };

/** A drawing, what exposes it, and what answers to the dose. */
export interface PreflightJob extends DrawnOn {
  /** What answers. */
  readonly answer: MarkAnswer;
  /** Dose inside a wide even fill over the dose at which the material just marks, 1e-6 to 200. */
  readonly doseRatio: PureNumber;
  /**
   * How far an edge may stray before it counts as lost or filled, at most 254 pixels; left out, a quarter of the 1/e²
   * diameter of the waist.
   */
  readonly edgeTolerance?: Length | undefined;
  /**
   * Area below which a piece of ink, or a hole in one, is a speck: a grain of dust in a scan, a bare pixel in a letter.
   * Of specks the report says how many are ignored, and no more: they play no part in what becomes of pieces and
   * holes, in the grade, in the dose window and in what would help. Lost and filled areas, centre-lines and widths are
   * those of all pixels. At most 100 mm²; left out, none is a speck.
   *
   * The area is one on the surface, of the drawing as it is; at another scale ({@link smallestScale}) specks stay specks.
   */
  readonly speckArea?: Area | undefined;
}

/**
 * Is told the share of long work that is done, from 0 to 1 and never less than before, every few milliseconds, on the
 * caller's own thread. If it answers `false` or `"stop"`, the work ends with a {@link SpotwiseError} of code 9; what it
 * throws ends the work too, and is thrown on.
 */
export type OnProgress = (done: number) => void | boolean | "stop";

type Tell = (done: number) => boolean;

const kinds: readonly string[] = ["bilevel", "coverage"];
const uses: readonly string[] = ["shapes", "burnt raster"];
const scans: readonly string[] = ["unknown", "along rows"];

/**
 * The code of a kind of samples; 0, which the model refuses, for what is none.
 *
 * @internal
 */
export function sampleKindCode(kind: SampleKind): number {
  return kinds.indexOf(kind) + 1;
}

/**
 * The code of a use of drawings; 0 for what is none.
 *
 * @internal
 */
export function drawingUseCode(use: DrawingUse): number {
  return uses.indexOf(use) + 1;
}

/**
 * Refuses what is no array of bytes, in the name of this parameter.
 *
 * @internal
 */
export function refuseNoBytes(given: Uint8Array, parameter: number, parameterName: string): void {
  if (isUint8Array(given)) return;
  const details = { parameter, parameterName, value: NaN, least: NaN, greatest: NaN };
  const message = `${parameterName} = ${described(given)} is not a Uint8Array`;
  throw new SpotwiseError(message, { code: errorCode.notFinite, ...details });
}

/**
 * 1 for yes and 0 for no. Only what is left out has a default.
 *
 * @internal
 */
export function yesNumber(given: boolean | undefined, otherwise: boolean): number {
  if (given === undefined) return Number(otherwise);
  if (typeof given === "boolean") return Number(given);
  const details = { parameter: 42, parameterName: "text", value: NaN, least: NaN, greatest: NaN };
  throw new SpotwiseError(`${described(given)} is neither true nor false`, { code: errorCode.notAQuantity, ...details });
}

/**
 * The nine numbers of a drawing, in the model's order.
 *
 * @internal
 */
export function drawingNumbers(drawing: Artwork): number[] {
  const width: number = drawing?.width;
  return [
    width,
    drawing?.height,
    orElse(drawing?.rowStride, width),
    drawing?.pitchX,
    drawing?.pitchY,
    orElse(drawing?.left, 0),
    orElse(drawing?.top, 0),
    sampleKindCode(drawing?.kind),
    drawingUseCode(drawing?.use),
  ];
}

/**
 * A drawing's samples, which are refused if they are none. Whoever gave no drawing at all is told so by its width.
 *
 * @internal
 */
export function samplesOf(drawing: Artwork): Uint8Array {
  if (typeof drawing !== "object" || drawing === null) return new Uint8Array(0);
  const samples = drawing.samples;
  refuseNoBytes(samples, 202, "number of samples");
  return samples;
}

/**
 * What a compiled function of this part takes besides its numbers.
 *
 * @internal
 */
export interface Given {
  readonly samples: Uint8Array;
  readonly lists: readonly [Float64Array, Float64Array, Float64Array];
  readonly numbers: number[];
}

/**
 * A drawing and what exposes it, in the model's order.
 *
 * @internal
 */
export function drawnOn(on: DrawnOn): Given {
  const { numbers, lists } = surfaceParts(on?.surface);
  const blur = on?.blur;
  // Only what is left out has a default: what is no object has none.
  const hasBlur = typeof blur === "object" && blur !== null;
  const width = (given: BeamWidth | undefined): number => (given === undefined ? 0 : given?.diameter1e2);
  const blurs = blur === undefined ? [0, 0] : hasBlur ? [width(blur.along), width(blur.across)] : [NaN, NaN];
  const scan = on?.scan === undefined ? { kind: "unknown" as const } : on.scan;
  const lines = scan?.kind === "along rows" ? [scan.lineInterval, scan.firstLine] : [NaN, NaN];
  return {
    samples: samplesOf(on?.drawing),
    lists,
    numbers: [
      ...drawingNumbers(on?.drawing),
      ...beamNumbers(on?.beam),
      on?.focus?.zAwayFromLens,
      ...numbers,
      yesNumber(on?.incidenceLoss, true),
      ...blurs,
      scans.indexOf(scan?.kind) + 1,
      ...lines,
    ] as number[],
  };
}

/**
 * The five numbers of an answer, in the model's order.
 *
 * @internal
 */
export function answerNumbers(answer: MarkAnswer): number[] {
  switch (answer?.kind) {
    case "coating":
      return [1, NaN, NaN, NaN, NaN];
    case "logarithmic ablation":
      return [2, answer.penetrationDepth, NaN, orElse(answer.visibleDepth, 0), NaN];
    case "linear ablation":
      return [3, NaN, answer.thresholdDepth, orElse(answer.visibleDepth, 0), NaN];
    case "melt":
      return [4, NaN, NaN, NaN, answer.bridge];
    default:
      return [0, NaN, NaN, NaN, NaN];
  }
}

/**
 * A preflight in the model's order.
 *
 * @internal
 */
export function preflightParts(job: PreflightJob): Given {
  const given = drawnOn(job);
  const tolerance = job?.edgeTolerance;
  // The last number says whether the usual tolerance is meant.
  const tolerances = tolerance === undefined ? [0, 1] : [tolerance, 0];
  const rest: number[] = [job?.doseRatio, ...tolerances, orElse(job?.speckArea, 0)];
  return { ...given, numbers: [...given.numbers, ...answerNumbers(job?.answer), ...rest] };
}

/**
 * Does work that tells how far it is.
 *
 * @internal
 */
export function watched<Result>(onProgress: OnProgress | undefined, work: (tell: Tell | undefined) => Result): Result {
  if (onProgress === undefined) return work(undefined);
  if (typeof onProgress !== "function") {
    const details = { parameter: 218, parameterName: "progress", value: NaN, least: 0, greatest: 1 };
    const message = `progress = ${described(onProgress)} is not a function`;
    throw new SpotwiseError(message, { code: errorCode.notFinite, ...details });
  }
  // No exception may cross the compiled code, which would not clear up behind itself.
  let thrown: { readonly error: unknown } | undefined;
  const tell = (done: number): boolean => {
    try {
      const answer = onProgress(done);
      return answer !== false && answer !== "stop";
    } catch (error) {
      thrown = { error };
      return false;
    }
  };
  try {
    return work(tell);
  } catch (error) {
    throw thrown === undefined ? error : thrown.error;
  }
}

/**
 * Calls a compiled function of this part, and gives its outputs for good: what the function keeps is handed over by
 * further calls, in which the module's memory may move.
 *
 * @internal
 */
export function outputsOf(operation: (numbers: Float64Array) => number, numbers: number[], count: number): Float64Array {
  return callWithList((all) => operation(Float64Array.from(all)), numbers).slice(0, count);
}
