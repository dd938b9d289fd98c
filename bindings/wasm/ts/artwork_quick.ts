/** Whether a drawing survives its preflight, at once where distances alone suffice to say so. */

import type { BoundLines } from "./artwork_bound.js";
import { outputsOf, preflightParts, watched, type OnProgress, type PreflightJob } from "./artwork_job.js";
import { core } from "./core.js";
import type { Length, PureNumber } from "./units.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/**
 * What distances alone say: "nothing at risk": no piece is lost or starved, no two come to touch, no hole closes or opens;
 * "something lost": one of these is so, and the drawing does not hold; "unsure": it is for {@link preflight} to say.
 */
export type QuickVerdict = "nothing at risk" | "something lost" | "unsure";

/** The light that bounds every exposure of a preflight, as {@link quickBound} takes it. */
export interface QuickLight {
  /** Greatest spot anywhere on the drawing and in either direction, blur included. */
  readonly greatestSpot: BeamWidth;
  /** Least dose ratio over the dose that shows, with what an exposure may be off taken off. */
  readonly leastDoseRatio: PureNumber;
  /** Greatest dose ratio, with what an exposure may be off added. */
  readonly greatestDoseRatio: PureNumber;
  /** Scan lines; undefined for an even fill. */
  readonly lines: BoundLines | undefined;
}

/**
 * What {@link quickAnswer} finds. Of pieces and holes specks are left out, and what lies where no height is known.
 *
 * The least mark that may come out is looked at first, then the greatest, then what is far and what is starved. Where one
 * of these leaves a doubt that the next cannot take away, it is not looked at: what it would tell stays 0.
 */
export interface QuickAnswer {
  /** What is sure. */
  readonly verdict: QuickVerdict;
  /** Pieces of the drawing. */
  readonly components: number;
  /** Pieces that are surely lost. */
  readonly componentsLost: number;
  /** Pieces that may be lost, those that surely are included, as in all that follow. */
  readonly componentsMaybeLost: number;
  /** Pieces whose surely marked pixels are in two parts or more. */
  readonly componentsMaybeSplit: number;
  /** Pieces of the least mark that join two pieces of the drawing or more: these surely come to touch. */
  readonly componentsMerged: number;
  /** Pieces of the greatest mark that join two pieces of the drawing or more. */
  readonly componentsMaybeMerged: number;
  /** Pieces of which less than half of the middle of strokes is surely marked. */
  readonly componentsMaybeStarved: number;
  /** Holes of the drawing. */
  readonly holes: number;
  /** Holes that surely close. */
  readonly holesClosed: number;
  /** Holes that may close. */
  readonly holesMaybeClosed: number;
  /** Holes that surely open to the outside. */
  readonly holesOpened: number;
  /** Holes that may open. */
  readonly holesMaybeOpened: number;
  /** Pixels with ink where no height is known: nothing is said of them. */
  readonly unknownInkPixels: number;
  /** Pixels of ink farther than the greatest spot diameter, and half a pixel's diagonal, from whatever is surely marked. */
  readonly farInk: number;
  /** By which light. */
  readonly light: QuickLight;
}

const verdicts: readonly QuickVerdict[] = ["nothing at risk", "something lost", "unsure"];

/**
 * Says at once whether a drawing survives, where distances alone suffice for that; "unsure" where the whole preflight
 * must tell.
 *
 * It takes what {@link previewMark} takes, of a job what {@link preflightOfJob} makes, and never contradicts its report: where
 * nothing is at risk, that has no piece lost, starved or merged and no hole closed or opened; where something is lost, it
 * does not hold. Not shown is that no further speck of a piece comes out beside it, as a part of a split piece; it would lie
 * within a spot diameter of what is surely marked. Nothing is said of grade, dose window and areas. What is several spot
 * diameters wide passes; what is finer, or only just comes out, stays unsure, and so does most of what is lost: told at once
 * is that no ink gets enough dose, that a small piece has too little ink around it, and that a melt closes a gap.
 *
 * @throws {@link SpotwiseError} as {@link previewMark}.
 */
export function quickAnswer(input: PreflightJob, onProgress?: OnProgress): QuickAnswer {
  const { samples, lists, numbers } = preflightParts(input);
  const operation = (tell: Parameters<typeof core.quick_answer>[5]) =>
    outputsOf((all) => core.quick_answer(samples, all, ...lists, tell), numbers, 20);
  const out = watched(onProgress, operation);
  const at = (place: number) => out[place] as number;
  const interval = at(19);
  return {
    verdict: verdicts[at(0) - 1] as QuickVerdict,
    components: at(1),
    componentsLost: at(2),
    componentsMaybeLost: at(3),
    componentsMaybeSplit: at(4),
    componentsMerged: at(5),
    componentsMaybeMerged: at(6),
    componentsMaybeStarved: at(7),
    holes: at(8),
    holesClosed: at(9),
    holesMaybeClosed: at(10),
    holesOpened: at(11),
    holesMaybeOpened: at(12),
    unknownInkPixels: at(13),
    farInk: at(14),
    light: {
      greatestSpot: diameter1e2(at(15) as Length),
      leastDoseRatio: at(17) as PureNumber,
      greatestDoseRatio: at(18) as PureNumber,
      lines:
        interval > 0
          ? { lineInterval: interval as Length, leastSpot: diameter1e2(at(16) as Length) }
          : undefined,
    },
  };
}

/**
 * Bytes of the module's memory that {@link quickAnswer} takes, its inputs included.
 *
 * @throws {@link SpotwiseError} as {@link quickAnswer}.
 */
export function quickAnswerMemory(input: PreflightJob): number {
  const { samples, lists, numbers } = preflightParts(input);
  return outputsOf((all) => core.quick_answer_bytes(samples, all, ...lists), numbers, 1)[0] as number;
}
