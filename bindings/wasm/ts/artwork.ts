/** The preflight of a drawing: the mark that will come out, what is lost of it, and which dose would keep it. */

import {
  outputsOf,
  preflightParts,
  watched,
  yesNumber,
  type OnProgress,
  type PreflightJob,
} from "./artwork_job.js";
import { core } from "./core.js";
import { gradeNumbers, type GivenTextGrades } from "./lettering.js";
import { orElse, orUndefined } from "./number.js";
import type { Area } from "./scan_units.js";
import type { TablePlace } from "./shape.js";
import type { Angle, Length } from "./units.js";
import { validityOf, type Validity } from "./validity.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/** A preflight, and how much is told of it. */
export interface PreflightInput extends PreflightJob {
  /** Most areas that are listed of what is lost, and of what is filled; left out, 100. All of them are counted. */
  readonly regions?: number | undefined;
  /** Most changes of pieces and holes that are listed; left out, 100. All of them are counted. */
  readonly changes?: number | undefined;
  /** Whether the exposure is handed out as well; left out, it is not. */
  readonly exposure?: boolean | undefined;
  /** Where the grades begin; left out, {@link defaultTextGrades}. */
  readonly grades?: GivenTextGrades | undefined;
}

/** Columns and rows of the outermost pixels of something, all of them inside, counted from 0. */
export interface PixelBox {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** A place where something is lost or filled: pixels that hang together. */
export interface FoundArea {
  /** Its pixels. */
  readonly pixels: number;
  /** Its area. */
  readonly size: Area;
  /** The box around it. */
  readonly box: PixelBox;
  /** Its worst pixel, and where the centre of that lies on the table. */
  readonly worst: { readonly column: number; readonly row: number; readonly at: TablePlace };
  /** From there to the nearest mark where something is lost, to the nearest unmarked place where it is filled. */
  readonly depth: Length;
}

/**
 * What became of a piece or a hole.
 *
 * - `component lost`: a piece of the drawing of which no pixel is marked.
 * - `component split`: a piece of the drawing that is marked in two pieces or more.
 * - `components merged`: a piece of the mark that joins two pieces of the drawing or more.
 * - `component new`: a piece of the mark in which no pixel is drawn.
 * - `hole closed`: a hole of the drawing of which every pixel is marked.
 * - `hole opened`: a hole of the drawing that is open to the outside in the mark.
 * - `hole split`: a hole of the drawing that is parted in the mark.
 * - `holes merged`: a hole of the mark that joins two holes of the drawing or more.
 * - `hole new`: a hole of the mark that shares no pixel with a hole of the drawing.
 */
export type ChangeKind =
  | "component lost"
  | "component split"
  | "components merged"
  | "component new"
  | "hole closed"
  | "hole opened"
  | "hole split"
  | "holes merged"
  | "hole new";

/** A piece or a hole that changed, and where it lies. */
export interface PartChange {
  /** What became of it. */
  readonly kind: ChangeKind;
  /** Its pixels: those of the drawing, or those of the mark for what is merged or new. */
  readonly pixels: number;
  /** The box around these. */
  readonly box: PixelBox;
}

/**
 * Pieces (8-connected) and holes (4-connected) of a drawing and of its mark, and how many became what. What is ignored is
 * counted by itself, and in nothing else.
 */
export interface Topology {
  readonly componentsDrawing: number;
  readonly componentsMark: number;
  readonly componentsLost: number;
  readonly componentsSplit: number;
  readonly componentsMerged: number;
  readonly componentsNew: number;
  readonly holesDrawing: number;
  readonly holesMark: number;
  readonly holesClosed: number;
  readonly holesOpened: number;
  readonly holesSplit: number;
  readonly holesMerged: number;
  readonly holesNew: number;
  /** Pieces of the drawing that are specks. */
  readonly componentsIgnoredDrawing: number;
  /** Pieces of the mark that share pixels with specks of the drawing alone, or with nothing drawn and are specks. */
  readonly componentsIgnoredMark: number;
  /** Holes of the drawing that are specks. */
  readonly holesIgnoredDrawing: number;
  /** Holes of the mark that share pixels with holes that are specks alone, or with no hole and are specks. */
  readonly holesIgnoredMark: number;
  /** Pieces of the drawing less its holes. */
  readonly eulerDrawing: number;
  /** Pieces of the mark less its holes. */
  readonly eulerMark: number;
  /** All changes together. */
  readonly changes: number;
}

/** How much of a set of centre-lines is kept. */
export interface CentreShare {
  /** Pixels of the centre-lines. */
  readonly pixels: number;
  /** Those that are kept: marked on a stroke, unmarked in a gap. */
  readonly kept: number;
  /** The share that is lost, 0 to 1; 0 if there is no centre-line. */
  readonly lostShare: number;
}

/** A spot over the ink, and the first pixel that has it. */
export interface InkSpot {
  /** The spot, without blur. */
  readonly spot: BeamWidth;
  /** Where that pixel's centre lies on the table. */
  readonly at: TablePlace;
}

/** The spots over the ink of a drawing. */
export interface InkSpots {
  /** Pixels with ink. */
  readonly inkPixels: number;
  /** Pixels where the surface has no known height. */
  readonly unknownPixels: number;
  /** How many of them have ink. */
  readonly unknownInkPixels: number;
  /** The least spot over ink; `undefined` without any ink of known height. */
  readonly least: InkSpot | undefined;
  /** The greatest spot over ink. */
  readonly greatest: InkSpot | undefined;
}

/** What a mark keeps of its drawing. Places without a known height count for nothing. */
export interface MarkReport {
  /** Pixels with ink. */
  readonly inkPixels: number;
  /** Pixels that are marked. */
  readonly markPixels: number;
  /** Pixels with ink that are not marked. */
  readonly missingPixels: number;
  /** Marked pixels without ink. */
  readonly extraPixels: number;
  /** Area of one pixel. */
  readonly pixelArea: Area;
  /** How far an edge may stray before it counts as lost or filled. */
  readonly edgeTolerance: Length;
  /** Ink that is lost: farther than the tolerance from any mark. */
  readonly lost: { readonly regions: number; readonly pixels: number };
  /** Ground that is filled: farther than the tolerance from any unmarked place. */
  readonly filled: { readonly regions: number; readonly pixels: number };
  /** What became of pieces and holes, but for specks. */
  readonly topology: Topology;
  /**
   * Pieces that are not ignored of which less than half of the centre-line is marked. What lies 255 pixels deep in a wide
   * stroke, or deeper, counts as centre-line.
   */
  readonly componentsStarved: number;
  /** Centre-lines of strokes; `lostShare` is what the trade calls the length of strokes lost. */
  readonly strokeCentres: CentreShare;
  /** Centre-lines of gaps. */
  readonly gapCentres: CentreShare;
  /** Smallest stroke from which on nothing is lost; `undefined` if there is none. */
  readonly smallestStrokeKept: Length | undefined;
  /** Largest stroke up to which nothing is kept; `undefined` if there is none. */
  readonly largestStrokeLost: Length | undefined;
  /** Smallest gap from which on nothing is filled; `undefined` if there is none. */
  readonly smallestGapKept: Length | undefined;
  /** Largest gap up to which nothing stays clear; `undefined` if there is none. */
  readonly largestGapLost: Length | undefined;
  /** Median over the centre-lines of strokes of the exposure relative to a wide even fill; `undefined` without any. */
  readonly typicalStrokeExposure: number | undefined;
  /** Spots over the ink. */
  readonly spots: InkSpots;
  /** Fewest pixels in a spot **radius**, blur included. */
  readonly pixelsPerRadius: number;
  /** Expected greatest error of the exposure for want of pixels, as a share of full dose. */
  readonly expectedError: number;
  /** Whether the drawing should be drawn finer to be sure. */
  readonly tooFewPixels: boolean;
  /** 1/e² **half** angle of the beam. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
  /** Whether strokes are lost or broken. */
  readonly isBroken: boolean;
  /** Whether all holds: no stroke is lost or broken, no counter filled, and neighbours stay apart. */
  readonly holds: boolean;
}

/** The doses between which a drawing keeps what it shows, over the threshold dose. */
export interface DoseWindow {
  /** Least dose ratio that keeps every stroke; `undefined` if none does. */
  readonly leastDoseRatio: number | undefined;
  /** Greatest dose ratio that leaves every counter open and neighbours apart; Infinity if all do. */
  readonly greatestDoseRatio: number;
  /** Greatest dose ratio that leaves every counter open; Infinity if all do. */
  readonly greatestDoseRatioForCounters: number;
  /** Greatest over least dose ratio; below 1 no dose keeps all; `undefined` if none keeps the strokes. */
  readonly ratio: number | undefined;
  /** The same for strokes and counters alone, whether neighbours touch or not. */
  readonly ratioForCounters: number | undefined;
}

/**
 * How well a drawing comes out.
 *
 * - `crisp`: everything is whole, with room for error in the dose, and strokes get all but the full dose.
 * - `good`: everything is whole, with room for error in the dose.
 * - `degraded`: strokes and counters hold, but neighbours touch or the dose has little room.
 * - `lost`: strokes are lost or broken, or counters filled.
 */
export type MarkGrade = "crisp" | "good" | "degraded" | "lost";

/** Permanent bits of the reasons in {@link Judgement.reasonBits}, the same on every face of spotwise. */
export const markReasonBit = {
  /** No dose keeps every stroke and every counter: focus or lens is the cause, not power. */
  noDoseSaves: 1,
  /** At this dose strokes are lost or broken that a higher one keeps. */
  doseTooLow: 2,
  /** At this dose counters fill that a lower one leaves open. */
  doseTooHigh: 4,
  /** Neighbours touch at this dose. */
  neighboursTouch: 8,
  /** The dose at which all holds has little room. */
  narrowDoseWindow: 16,
  /** Half of the strokes' length gets less than all but the full dose, so that edges are soft. */
  softStrokes: 32,
  /** Part of the drawing lies where the surface has no known height: nothing is said of it. */
  partlyUnknown: 64,
  /** The pixels are too coarse for the spot: draw it finer to be sure. */
  coarsePixels: 128,
} as const;

/** The grade of a drawing, and why. */
export interface Judgement {
  /** The grade. */
  readonly grade: MarkGrade;
  /** Why it is no better, and what to know besides: {@link markReasonBit}s. */
  readonly reasonBits: number;
  /** The same in words, in the order of the bits. */
  readonly reasons: readonly string[];
}

/** The mark of a drawing, and what is lost of it. Masks hold one byte for each pixel, row by row, 1 where it is set. */
export interface MarkPreview {
  /** What the mark keeps, and what not. */
  readonly report: MarkReport;
  /** The mark. */
  readonly mark: Uint8Array;
  /** Ink that is lost beyond the tolerance. */
  readonly lost: Uint8Array;
  /** Ground that is filled beyond the tolerance. */
  readonly filled: Uint8Array;
  /** Where the surface has no known height; `undefined` if it is known everywhere. */
  readonly unknown: Uint8Array | undefined;
  /** Areas that are lost, those of most pixels first. */
  readonly lostRegions: readonly FoundArea[];
  /** Areas that are filled, likewise. */
  readonly filledRegions: readonly FoundArea[];
  /** Pieces and holes that changed, kind by kind, within a kind by the first pixel. */
  readonly changes: readonly PartChange[];
  /** Exposure of every pixel in units of 1/{@link fullDose}, if it was asked for. */
  readonly exposure: Uint16Array | undefined;
}

/** What {@link preflight} finds. It is advice: a test piece comes first. */
export interface PreflightVerdict extends MarkPreview {
  /** Between which doses all is kept. */
  readonly window: DoseWindow;
  /** The grade, and why. */
  readonly judgement: Judgement;
}

const changeKinds: readonly ChangeKind[] = [
  "component lost",
  "component split",
  "components merged",
  "component new",
  "hole closed",
  "hole opened",
  "hole split",
  "holes merged",
  "hole new",
];
const grades: readonly MarkGrade[] = ["crisp", "good", "degraded", "lost"];
const USUAL_ROOM = 100;
const REPORT = 58;
const ALL = REPORT + 7;

/** Words of the reasons, by their bits. */
const reasonTexts = Object.values(markReasonBit).map((bit): [number, string] => [bit, core.mark_reason_text(bit)]);

function parts(input: PreflightInput, withWindow: boolean) {
  const { samples, lists, numbers } = preflightParts(input);
  const grades = withWindow ? gradeNumbers(input?.grades) : [NaN, NaN, NaN];
  const options = [
    orElse(input?.regions, USUAL_ROOM),
    orElse(input?.changes, USUAL_ROOM),
    yesNumber(input?.exposure, false),
    Number(withWindow),
    ...grades,
  ];
  return { samples, lists, numbers: [...numbers, ...options] };
}

function found(input: PreflightInput, withWindow: boolean, onProgress: OnProgress | undefined): [Float64Array, MarkPreview] {
  const { samples, lists, numbers } = parts(input, withWindow);
  const operation = (tell: Parameters<typeof core.preflight>[5]) =>
    outputsOf((all) => core.preflight(samples, all, ...lists, tell), numbers, ALL);
  const out = watched(onProgress, operation);
  const exposure = core.preflight_exposure();
  const unknown = core.preflight_mask(3);
  const preview = {
    report: reportFrom(out),
    mark: core.preflight_mask(0),
    lost: core.preflight_mask(1),
    filled: core.preflight_mask(2),
    unknown: unknown.length > 0 ? unknown : undefined,
    lostRegions: areasFrom(core.preflight_regions(0)),
    filledRegions: areasFrom(core.preflight_regions(1)),
    changes: changesFrom(core.preflight_changes()),
    exposure: exposure.length > 0 ? exposure : undefined,
  };
  return [out, preview];
}

/**
 * Predicts the mark of a drawing on a surface, finds what is lost and filled, the window of doses that keep everything,
 * and the grade with its reasons.
 *
 * The exposure is that of the spot at each pixel's height, wide as the blur makes it, relative to a wide even fill. It
 * is within 5e-4 of full dose of the exact sum, and the same bits on every face of spotwise; where a drawing of shapes
 * has few pixels in a spot radius, `report.expectedError` tells what that adds. Heat left by earlier lines and walls
 * that shade the light are not modelled.
 *
 * A million pixels take some 0.15 s (Node 20, one thread, measured), most of it for the window; {@link previewMark} goes
 * without, in 0.03 s on a level surface and 0.06 s on another. What memory it takes is told by {@link preflightMemory}: the module's memory grows to that and never
 * shrinks.
 *
 * @throws {@link SpotwiseError} for a value outside its range; with code 3 for a choice that does not exist; with code
 * 4 for a beam too wide or a spot far finer or wider than the pixels (parameter 215); with code 2 for a drawing or a
 * mark that is too intricate (parameter 216); with code 8 where no height is known, or for a drawing without ink of
 * known height (parameter 219); with code 6 where the module can have no more memory (parameter 71); with code 9 if
 * the progress function says so.
 */
export function preflight(input: PreflightInput, onProgress?: OnProgress): PreflightVerdict {
  const [out, preview] = found(input, true, onProgress);
  const bits = out[REPORT + 6] as number;
  return {
    ...preview,
    window: windowFrom(out.subarray(REPORT)),
    judgement: {
      grade: grades[(out[REPORT + 5] as number) - 1] as MarkGrade,
      reasonBits: bits,
      reasons: reasonTexts.filter(([bit]) => (bits & bit) !== 0).map(([, text]) => text),
    },
  };
}

/**
 * As {@link preflight}, without the dose window and the judgement, which take most of its time: for a picture that
 * follows a slider. A drawing without ink has a preview too.
 *
 * @throws {@link SpotwiseError} as {@link preflight}.
 */
export function previewMark(input: PreflightInput, onProgress?: OnProgress): MarkPreview {
  return found(input, false, onProgress)[1];
}

/**
 * Bytes of the module's memory that {@link preflight} or {@link previewMark} takes for this job, its inputs included.
 * The results come on top as arrays of their own: a byte for each pixel of a mask, two for one of the exposure.
 *
 * @throws {@link SpotwiseError} as {@link preflight}, for what can be told before any work.
 */
export function preflightMemory(input: PreflightInput): number {
  const { samples, lists, numbers } = parts(input, true);
  return outputsOf((all) => core.preflight_bytes(samples, all, ...lists), numbers, 1)[0] as number;
}

function reportFrom(out: Float64Array): MarkReport {
  const at = (place: number) => out[place] as number;
  const width = (place: number) => orUndefined(at(place) as Length);
  const centres = (place: number) => ({ pixels: at(place), kept: at(place + 1), lostShare: at(place + 2) });
  return {
    inkPixels: at(0),
    markPixels: at(1),
    missingPixels: at(2),
    extraPixels: at(3),
    pixelArea: at(4) as Area,
    edgeTolerance: at(5) as Length,
    lost: { regions: at(6), pixels: at(7) },
    filled: { regions: at(8), pixels: at(9) },
    topology: {
      componentsDrawing: at(10),
      componentsMark: at(11),
      componentsLost: at(12),
      componentsSplit: at(13),
      componentsMerged: at(14),
      componentsNew: at(15),
      holesDrawing: at(16),
      holesMark: at(17),
      holesClosed: at(18),
      holesOpened: at(19),
      holesSplit: at(20),
      holesMerged: at(21),
      holesNew: at(22),
      componentsIgnoredDrawing: at(54),
      componentsIgnoredMark: at(55),
      holesIgnoredDrawing: at(56),
      holesIgnoredMark: at(57),
      eulerDrawing: at(24),
      eulerMark: at(25),
      changes: at(53),
    },
    componentsStarved: at(23),
    strokeCentres: centres(26),
    gapCentres: centres(29),
    smallestStrokeKept: width(32),
    largestStrokeLost: width(33),
    smallestGapKept: width(34),
    largestGapLost: width(35),
    typicalStrokeExposure: orUndefined(at(36)),
    spots: spotsFrom(out.subarray(37)),
    pixelsPerRadius: at(46),
    expectedError: at(47),
    tooFewPixels: at(48) === 1,
    halfAngle: at(49) as Angle,
    validity: validityOf(at(50)),
    isBroken: at(51) === 1,
    holds: at(52) === 1,
  };
}

/**
 * Spots from their nine outputs.
 *
 * @internal
 */
export function spotsFrom(out: Float64Array): InkSpots {
  const spot = (place: number): InkSpot | undefined =>
    Number.isNaN(out[place])
      ? undefined
      : { spot: diameter1e2(out[place] as Length), at: { x: out[place + 1] as Length, y: out[place + 2] as Length } };
  const [inkPixels, unknownPixels, unknownInkPixels] = out as unknown as [number, number, number];
  return { inkPixels, unknownPixels, unknownInkPixels, least: spot(3), greatest: spot(6) };
}

/**
 * A dose window from its five outputs.
 *
 * @internal
 */
export function windowFrom(out: Float64Array): DoseWindow {
  return {
    leastDoseRatio: orUndefined(out[0] as number),
    greatestDoseRatio: out[1] as number,
    greatestDoseRatioForCounters: out[2] as number,
    ratio: orUndefined(out[3] as number),
    ratioForCounters: orUndefined(out[4] as number),
  };
}

function boxFrom(out: Float64Array, place: number): PixelBox {
  const [left, top, right, bottom] = out.subarray(place) as unknown as [number, number, number, number];
  return { left, top, right, bottom };
}

/** Rows of so many numbers. */
function rows(all: Float64Array, length: number): Float64Array[] {
  return Array.from({ length: all.length / length }, (_, i) => all.subarray(i * length, (i + 1) * length));
}

function areasFrom(all: Float64Array): FoundArea[] {
  return rows(all, 11).map((one) => ({
    pixels: one[0] as number,
    size: one[1] as Area,
    box: boxFrom(one, 2),
    worst: { column: one[6] as number, row: one[7] as number, at: { x: one[9] as Length, y: one[10] as Length } },
    depth: one[8] as Length,
  }));
}

function changesFrom(all: Float64Array): PartChange[] {
  return rows(all, 6).map((one) => ({
    kind: changeKinds[(one[0] as number) - 1] as ChangeKind,
    pixels: one[1] as number,
    box: boxFrom(one, 2),
  }));
}
