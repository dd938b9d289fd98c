/** How much of a surface is in focus, and where focus serves it best. */

import { beamNumbers, type Beam } from "./beam.js";
import { callWithList, core } from "./core.js";
import { criterionNumbers, type DepthCriterion } from "./focus.js";
import { orElse } from "./number.js";
import { signedOffset, type Offset } from "./place.js";
import { regionNumbers, surfaceParts, type Region, type Surface } from "./shape.js";
import type { Angle, Length } from "./units.js";
import { validityOf, type Validity } from "./validity.js";

/** How finely a curved surface is measured. */
export interface SurfaceCells {
  /**
   * How many equal cells are laid over a cylinder or sphere in x and in y, a whole number from 1 to 1000; left out,
   * 128, which tells shares of area to 0.05 % and heights to 0.005 % of their range where up to two thirds of the radius
   * are marked (to the rim 0.2 % and 0.03 %). Other shapes are measured
   * exactly, whatever it is.
   */
  readonly cellsPerSide?: number | undefined;
}

/** A band of heights by its two ends, both relative to the datum of the surface. */
export interface HeightBand {
  /** The end nearer the lens. */
  readonly towardLens: Offset;
  /** The end farther from the lens. */
  readonly awayFromLens: Offset;
}

/** How the heights of a surface are spread over the area of a region. */
export interface RegionHeights {
  /** Mean height, relative to the datum of the surface. */
  readonly mean: Offset;
  /** Standard deviation of the height. */
  readonly deviation: Length;
  /** Height of the place nearest the lens. */
  readonly highest: Offset;
  /** Height of the place farthest from the lens. */
  readonly lowest: Offset;
  /** Share of the region about which nothing is known. */
  readonly unknownShare: number;
}

/** How the area of a surface divides between heights. Shares are of the known area, and add up to one. */
export interface ShareInFocus {
  /** Share of the known area within the band, its ends included. */
  readonly inFocus: number;
  /** Share of the known area that lies nearer to the lens. */
  readonly towardLens: number;
  /** Share of the known area that lies farther from the lens. */
  readonly awayFromLens: number;
  /** Share of the region about which nothing is known. */
  readonly unknownShare: number;
}

/** A height at which focus may be set, and what it does. */
export interface FocusHeight {
  /** Where the waist is, relative to the datum of the surface. */
  readonly focus: Offset;
  /** Spot diameter over waist diameter where it is worst. */
  readonly worstGrowth: number;
  /** Mean over the known area of the area of the spot over that of the waist. */
  readonly meanAreaGrowth: number;
  /** Share of the known area that lies within the depth of focus. */
  readonly shareInFocus: number;
}

/** The best focus heights for a surface. */
export interface SurfaceFocus {
  /** Makes the worst spot least: half-way between the highest and the lowest place. */
  readonly leastWorst: FocusHeight;
  /** Makes the mean area of the spot least: the mean height. */
  readonly leastMeanArea: FocusHeight;
  /** Keeps most of the area within the depth of focus. */
  readonly mostInFocus: FocusHeight;
  /** Share of the region about which nothing is known. */
  readonly unknownShare: number;
  /** Greatest 1/e² **half** angle of the beams involved. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

type Four = [number, number, number, number];
type Seven = [number, number, number, number, number, number, number];
type Eight = [number, number, number, number, number, number, number, number];

const USUAL_CELLS = 128;

/**
 * The number of cells to be taken.
 *
 * @internal
 */
export function cellsNumber(cells: SurfaceCells | undefined): number {
  return orElse(cells?.cellsPerSide, USUAL_CELLS);
}

/**
 * Mean and spread of a surface's height over a region.
 *
 * Steps, grids and planes are measured exactly, as bilinear cells; over a cylinder or sphere equal cells are laid.
 * Where part of the region is unknown, the numbers are those of the rest.
 *
 * Accuracy: some ulp (units in the last place) of the range of heights, besides what the cells make.
 *
 * @throws {@link SpotwiseError} as {@link surfaceExtremes}; for cells that are no whole number from 1 to 1000.
 */
export function regionHeights(surface: Surface, region: Region, cells?: SurfaceCells): RegionHeights {
  const { numbers, lists } = surfaceParts(surface);
  const operation = (all: number[]) =>
    core.region_heights(
      ...(all.slice(0, 8) as Eight),
      ...lists,
      ...(all.slice(8, 12) as Four),
      all[12] as number,
    );
  const given = [...numbers, ...regionNumbers(region), cellsNumber(cells)];
  const out = callWithList(operation, given);
  return {
    mean: signedOffset(out[0] as Length),
    deviation: out[1] as Length,
    highest: signedOffset(out[2] as Length),
    lowest: signedOffset(out[3] as Length),
    unknownShare: out[4] as number,
  };
}

/**
 * Share of a surface's area that lies in a band of heights, such as a depth of focus about where focus is set.
 *
 * Exact within each bilinear cell, also of one that is nearly plane.
 *
 * Accuracy: some ulp (units in the last place) of the whole, besides what the cells make.
 *
 * @throws {@link SpotwiseError} as {@link regionHeights}; for an end of the band beyond 1e7 m, or ends in the
 * wrong order.
 */
export function shareInFocus(
  surface: Surface,
  region: Region,
  band: HeightBand,
  cells?: SurfaceCells,
): ShareInFocus {
  const { numbers, lists } = surfaceParts(surface);
  const operation = (all: number[]) =>
    core.share_in_focus(
      ...(all.slice(0, 8) as Eight),
      ...lists,
      ...(all.slice(8, 12) as Four),
      ...(all.slice(12) as [number, number, number]),
    );
  const ends = [band?.towardLens?.zAwayFromLens, band?.awayFromLens?.zAwayFromLens];
  const given = [...numbers, ...regionNumbers(region), cellsNumber(cells), ...ends];
  const out = callWithList(operation, given);
  return {
    inFocus: out[0] as number,
    towardLens: out[1] as number,
    awayFromLens: out[2] as number,
    unknownShare: out[3] as number,
  };
}

/**
 * The focus heights that serve a surface best: for the worst spot, for the mean spot, and for the area in focus.
 *
 * The worst spot is least with focus half-way between the highest and the lowest place, the mean area of the spot
 * with focus at the mean height. The height that keeps most area within the depth is found by search, and then proven:
 * no other keeps more by over 1.1e-5 of the area. (Where parts of the surface lie one depth apart to a millionth
 * of the depth, or to 2^-44 of the range, whether both fit is told for level parts only.) Of a range of heights that
 * keep as much its middle is told, of several such ranges that nearest the lens.
 *
 * Accuracy: heights by formula to some ulp (units in the last place) of the range; that by search, of a surface of so
 * many cells, to 1e-11 of the depth of focus.
 *
 * @throws {@link SpotwiseError} as {@link depthOfFocus}, then as {@link regionHeights}.
 */
export function focusForSurface(
  beam: Beam,
  criterion: DepthCriterion,
  surface: Surface,
  region: Region,
  cells?: SurfaceCells,
): SurfaceFocus {
  const light = [...beamNumbers(beam), ...criterionNumbers(criterion)];
  const { numbers, lists } = surfaceParts(surface);
  const operation = (all: number[]) =>
    core.focus_for_surface(
      ...(all.slice(0, 7) as Seven),
      ...(all.slice(7, 15) as Eight),
      ...lists,
      ...(all.slice(15, 19) as Four),
      all[19] as number,
    );
  const given = [...light, ...numbers, ...regionNumbers(region), cellsNumber(cells)];
  const out = callWithList(operation, given);
  const height = (start: number): FocusHeight => ({
    focus: signedOffset(out[start] as Length),
    worstGrowth: out[start + 1] as number,
    meanAreaGrowth: out[start + 2] as number,
    shareInFocus: out[start + 3] as number,
  });
  return {
    leastWorst: height(0),
    leastMeanArea: height(4),
    mostInFocus: height(8),
    unknownShare: out[12] as number,
    halfAngle: out[13] as Angle,
    validity: validityOf(out[14] as number),
  };
}
