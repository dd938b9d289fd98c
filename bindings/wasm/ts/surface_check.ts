/** One job on a surface with a shape in, one verdict out. */

import { jobParts, verdictFrom, type Job, type Verdict } from "./check.js";
import { callWithList, core } from "./core.js";
import { cellsNumber, type SurfaceCells } from "./in_focus.js";
import { signedOffset } from "./place.js";
import {
  extremesFrom,
  regionNumbers,
  surfaceParts,
  type Region,
  type Surface,
  type SurfaceExtremes,
  type SurfaceHeight,
} from "./shape.js";
import type { Length } from "./units.js";

/** What {@link surfaceCheck} finds. It is advice: a test piece comes first. */
export interface SurfaceVerdict {
  /**
   * The verdict, with what the shape adds to its reasons. Only heights count that the surface has; its `datum` is the
   * one of them nearest to the datum, of two as near the one toward the lens. A fill is judged where the surface
   * comes nearest to the waist.
   */
  readonly verdict: Verdict;
  /** Highest, lowest and steepest place of the surface. */
  readonly extremes: SurfaceExtremes;
  /** Where the spot is worst: the highest or the lowest place, whichever is farther from focus. */
  readonly worst: SurfaceHeight;
  /** Share of the known area that stays in the depth of focus, rise and fall of the job included. */
  readonly shareInDepth: number;
  /**
   * Share of the known area where stroke, gap and text hold, rise and fall of the job included. It goes by the
   * heights alone: neither the slope nor lines of a fill that leave gaps are in it.
   */
  readonly shareThatHolds: number;
  /**
   * In how many bands of height, each in its own focus, stroke, gap and text would hold everywhere; `null` if they
   * do not even in the waist, if rise and fall leave no range, if the steepest place does not mark, or if it would
   * take over a million. A band in which the surface has no height needs no focus of its own.
   */
  readonly bands: number | null;
  /** Length of the spot along the slope over its diameter at the steepest place. */
  readonly steepestStretch: number;
  /** Irradiance, and dose, for each area of the surface over that on a level one, at the steepest place. */
  readonly steepestIrradianceFactor: number;
}

/**
 * Checks whether a drawing's finest stroke and gap hold, and its text keeps its grade, all over the region of a
 * surface; says where it is worst, how much of the area holds, and what would help.
 *
 * As {@link focusCheck} for the highest and the lowest place of {@link surfaceExtremes}, which count from the datum
 * of the job. Its `surfaceRise` and `surfaceFall` are then no part of the shape: they are added at its ends, for all
 * by which the surface may lie otherwise than told. Where part of the region is unknown, the verdict is that on the
 * rest, and {@link reasonBit}.partlyUnknown says so. A slope lowers the dose by the cosine of its angle: where that
 * leaves too little to mark at the steepest place, the outcome is "lost" ({@link reasonBit}.tooSteepToMark); else what
 * it does to spot and dose is not in the verdict but beside it, and above 0.35 rad (20°) {@link reasonBit}.steep says
 * so.
 *
 * Accuracy: those of {@link focusCheck}, {@link surfaceExtremes} and {@link shareInFocus}; stretch and factor 4
 * ulp times 1 + φ·tan φ, φ being the steepest incidence.
 *
 * @param cells - how finely the shares of a cylinder or sphere are measured.
 * @throws {@link SpotwiseError} as {@link focusCheck} for the choices of the job, then as {@link surfaceExtremes},
 * then for the number of cells, then as {@link focusCheck} for the numbers of the job.
 */
export function surfaceCheck(job: Job, surface: Surface, region: Region, cells?: SurfaceCells): SurfaceVerdict {
  const given = jobParts(job);
  const { numbers, lists } = surfaceParts(surface);
  const out = callWithList(
    (all) => core.surface_check(Float64Array.from(all), ...lists),
    [...given.numbers, ...numbers, ...regionNumbers(region), cellsNumber(cells)],
  );
  // The verdict with what its list leaves out, the extremes, and the rest.
  const beside = out.subarray(123);
  const bands = beside[5] as number;
  return {
    verdict: verdictFrom(out, given),
    extremes: extremesFrom(out.subarray(111)),
    worst: {
      height: signedOffset(beside[2] as Length),
      at: { x: beside[0] as Length, y: beside[1] as Length },
    },
    shareInDepth: beside[3] as number,
    shareThatHolds: beside[4] as number,
    bands: bands === 0 ? null : bands,
    steepestStretch: beside[6] as number,
    steepestIrradianceFactor: beside[7] as number,
  };
}
