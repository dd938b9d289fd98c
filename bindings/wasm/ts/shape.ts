/** Where the workpiece really is: the shape of its surface, and how high it lies in the marked region. */

import { refuseOther } from "./bulk.js";
import { callWithList, core } from "./core.js";
import { signedOffset, type Offset } from "./place.js";
import type { Angle, Length, PureNumber } from "./units.js";

/** A place across the table, −1 to 1 km each way. */
export interface TablePlace {
  readonly x: Length;
  readonly y: Length;
}

/** The part of the table that is marked: 1 nm to 2 km wide, −1 to 1 km each way. */
export interface Region {
  readonly xLeast: Length;
  readonly xGreatest: Length;
  readonly yLeast: Length;
  readonly yGreatest: Length;
}

/** How a surface leans: how far it drops **away from the lens** on each length, −2 to 2; 0 is level. */
export interface SurfaceSlope {
  readonly awayFromLensAlongX: PureNumber;
  readonly awayFromLensAlongY: PureNumber;
}

/** Which way a cylinder or sphere bulges: a bar or dome `toward lens`, a trough or bowl `away from lens`. */
export type Bulge = "toward lens" | "away from lens";

/** The **radius** or the **diameter** of a cylinder or sphere; 1 µm to 1e9 m of radius. */
export type RoundSize = { readonly radius: Length } | { readonly diameter: Length };

/**
 * What a probe found at the crossings of columns and rows, in plain metres, row after row: the first of each
 * column at the first y, and so on. NaN where it found nothing. The field says which way the heights count.
 */
export type ProbedHeights =
  | { readonly heightsAwayFromLensInMetres: Float64Array }
  | { readonly heightsTowardLensInMetres: Float64Array };

/**
 * Shape of a surface.
 *
 * - `plane`: z = 0 at x = y = 0, level or tilted.
 * - `cylinder`: lying; `crown` is a place on its crown line, at z = 0, `axisAngle` that of its axis from the x
 *   axis toward + y, −10 to 10 rad.
 * - `sphere`: also a dome or bowl; `crown` is at z = 0.
 * - `steps`: level strips across x, endless in y, in plain metres: edges ascend by 1 nm or more, and are one
 *   more than the heights.
 * - `grid`: heights that a probe found, bilinear between; columns (x) and rows (y) in plain metres, two or
 *   more of each, ascend by 1 nm or more. Their spacing may vary.
 *
 * `lean` is added to a cylinder or sphere, whose crown stays at z = 0; left out, it does not lean.
 */
export type Surface =
  | { readonly kind: "plane"; readonly slope: SurfaceSlope }
  | ({
      readonly kind: "cylinder";
      readonly bulge: Bulge;
      readonly crown: TablePlace;
      readonly axisAngle: Angle;
      readonly lean?: SurfaceSlope | undefined;
    } & RoundSize)
  | ({
      readonly kind: "sphere";
      readonly bulge: Bulge;
      readonly crown: TablePlace;
      readonly lean?: SurfaceSlope | undefined;
    } & RoundSize)
  | {
      readonly kind: "steps";
      readonly edgesInMetres: Float64Array;
      readonly heightsAwayFromLensInMetres: Float64Array;
    }
  | ({
      readonly kind: "grid";
      readonly columnsInMetres: Float64Array;
      readonly rowsInMetres: Float64Array;
    } & ProbedHeights);

/** A surface at one place. */
export interface SurfacePlace {
  /** Height, relative to the datum of the surface. */
  readonly height: Offset;
  /** How it leans there. */
  readonly slope: SurfaceSlope;
  /** Angle between the normal of the surface and the beam axis. */
  readonly incidence: Angle;
  /** Length of the spot along the slope over its diameter. */
  readonly stretch: number;
  /** Irradiance for each area of the surface over that on a level one. */
  readonly irradianceFactor: number;
}

/** A height and where it is. */
export interface SurfaceHeight {
  /** Relative to the datum of the surface. */
  readonly height: Offset;
  readonly at: TablePlace;
}

/** Extremes of a surface over a region. */
export interface SurfaceExtremes {
  /** The place nearest the lens. */
  readonly highest: SurfaceHeight;
  /** The place farthest from the lens. */
  readonly lowest: SurfaceHeight;
  /** From the highest place to the lowest. */
  readonly range: Length;
  /** The steepest place. */
  readonly steepest: { readonly incidence: Angle; readonly at: TablePlace };
  /** How many probes that bear on the region found nothing. */
  readonly missingProbes: number;
  /** Share of the region about which nothing is known: cells that lack a probe, and what lies beside. */
  readonly unknownShare: number;
}

const kinds: readonly string[] = ["plane", "cylinder", "sphere", "steps", "grid"];
const bulges: readonly string[] = ["toward lens", "away from lens"];
const level: SurfaceSlope = Object.freeze({ awayFromLensAlongX: 0, awayFromLensAlongY: 0 });
const nothing = new Float64Array(0);

/**
 * A surface in the model's order: its eight numbers, and its lists of x, y and z.
 *
 * @internal
 */
export interface SurfaceParts {
  readonly numbers: number[];
  readonly lists: readonly [Float64Array, Float64Array, Float64Array];
}

function slopeNumbers(slope: SurfaceSlope): [number, number] {
  return [slope?.awayFromLensAlongX, slope?.awayFromLensAlongY];
}

/**
 * The radius of something round.
 *
 * @internal
 */
export function radiusOf(size: RoundSize): number {
  const { radius, diameter } = size as { readonly radius?: Length; readonly diameter?: Length };
  if (radius !== undefined) return radius;
  // What is no number stays what it is, for the model to refuse.
  return typeof diameter === "number" ? diameter / 2 : (diameter as unknown as number);
}

/** Heights as the model counts them. */
function heightsOf(given: ProbedHeights): Float64Array {
  if ("heightsTowardLensInMetres" in given) {
    const heights = given.heightsTowardLensInMetres;
    refuseOther(heights, 179, "probed height");
    return heights.map((height) => 0 - height);
  }
  refuseOther(given.heightsAwayFromLensInMetres, 179, "probed height");
  return given.heightsAwayFromLensInMetres;
}

/**
 * What makes a surface, read once.
 *
 * @internal
 */
export function surfaceParts(surface: Surface): SurfaceParts {
  const code = kinds.indexOf(surface?.kind) + 1;
  const none = [NaN, NaN, NaN, NaN, NaN, NaN];
  switch (surface?.kind) {
    case "plane": {
      return { numbers: [code, 0, ...slopeNumbers(surface.slope), NaN, NaN, NaN, NaN], lists: [nothing, nothing, nothing] };
    }
    case "cylinder":
    case "sphere": {
      const { bulge, crown, lean } = surface;
      const axisAngle = surface.kind === "cylinder" ? surface.axisAngle : NaN;
      const slopes = slopeNumbers(lean === undefined ? level : lean);
      const numbers = [code, bulges.indexOf(bulge) + 1, ...slopes, radiusOf(surface), crown?.x, crown?.y, axisAngle];
      return { numbers, lists: [nothing, nothing, nothing] };
    }
    case "steps": {
      const { edgesInMetres: edges, heightsAwayFromLensInMetres: heights } = surface;
      refuseOther(edges, 171, "step edge");
      refuseOther(heights, 173, "step height");
      return { numbers: [code, 0, ...none], lists: [edges, nothing, heights] };
    }
    case "grid": {
      const { columnsInMetres: columns, rowsInMetres: rows } = surface;
      refuseOther(columns, 176, "grid x");
      refuseOther(rows, 177, "grid y");
      return { numbers: [code, 0, ...none], lists: [columns, rows, heightsOf(surface)] };
    }
    default:
      return { numbers: [0, 0, ...none], lists: [nothing, nothing, nothing] };
  }
}

/**
 * A region in the model's order.
 *
 * @internal
 */
export function regionNumbers(region: Region): [number, number, number, number] {
  return [region?.xLeast, region?.xGreatest, region?.yLeast, region?.yGreatest];
}

type Eight = [number, number, number, number, number, number, number, number];

/**
 * Height, slope and incidence angle of a surface at one place, and what the slope makes of the spot.
 *
 * On a place of a grid between cells, the slope is that of the cell of greater x and y; where that lacks a
 * probe, of the cell of greater x and lesser y, then of that of lesser x and greater y, then of the last. Each
 * step counts from its first edge; the last one also at its end. Walls of steps and shadows are not modelled.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result, 1.5 ulp of the angle, besides what
 * the rounded sine and cosine of the axis angle make.
 *
 * @throws {@link SpotwiseError} for a value outside its range; beside steps or a grid the range is theirs. With
 * code 4 beside a cylinder or sphere (parameter 170); with code 6 where the heights are not as many as strips,
 * or as columns times rows; with code 8 where a cell, or all of the grid, lacks probes (parameter 183).
 */
export function surfaceAt(surface: Surface, place: TablePlace): SurfacePlace {
  const { numbers, lists } = surfaceParts(surface);
  const operation = (all: number[]) =>
    core.surface_at(...(all.slice(0, 8) as Eight), ...lists, ...(all.slice(8) as [number, number]));
  const out = callWithList(operation, [...numbers, place?.x, place?.y]);
  return {
    height: signedOffset(out[0] as Length),
    slope: { awayFromLensAlongX: out[1] as PureNumber, awayFromLensAlongY: out[2] as PureNumber },
    incidence: out[3] as Angle,
    stretch: out[4] as number,
    irradianceFactor: out[5] as number,
  };
}

/**
 * Highest, lowest and steepest place of a surface within a region, in closed form: nothing is searched for.
 *
 * Where part of the region is unknown, the extremes are those of the rest. Of several places that are equally
 * extreme the one of least y is told, of these the one of least x. Between cells of a grid the steepest of them
 * counts.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result, 1.5 ulp of the angle, besides what
 * the rounded sine and cosine of the axis angle make.
 *
 * @throws {@link SpotwiseError} as {@link surfaceAt} for the surface; for an end of the region or a width of it
 * outside its range; with code 4 where it reaches beside a cylinder or sphere (parameter 170); with code 8 where
 * it meets no strip, or no cell with all its probes (parameter 184).
 */
export function surfaceExtremes(surface: Surface, region: Region): SurfaceExtremes {
  const { numbers, lists } = surfaceParts(surface);
  const operation = (all: number[]) =>
    core.surface_extremes(
      ...(all.slice(0, 8) as Eight),
      ...lists,
      ...(all.slice(8) as [number, number, number, number]),
    );
  return extremesFrom(callWithList(operation, [...numbers, ...regionNumbers(region)]));
}

/**
 * Extremes from their twelve outputs.
 *
 * @internal
 */
export function extremesFrom(out: Float64Array): SurfaceExtremes {
  const place = (x: number) => ({ x: out[x] as Length, y: out[x + 1] as Length });
  return {
    highest: { height: signedOffset(out[0] as Length), at: place(1) },
    lowest: { height: signedOffset(out[3] as Length), at: place(4) },
    range: out[6] as Length,
    steepest: { incidence: out[7] as Angle, at: place(8) },
    missingProbes: out[10] as number,
    unknownShare: out[11] as number,
  };
}
