/** A series of test pieces at stepped heights, planned; and its drift. */

import { beamNumbers, type Beam } from "./beam.js";
import { call, callWithList, core } from "./core.js";
import { markKindCode, type MarkKind } from "./marks.js";
import { orElse, orUndefined } from "./number.js";
import { signedOffset, type Offset } from "./place.js";
import type { Angle, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";

/**
 * What a series is engraved for.
 *
 * - `widths`: to measure widths, or to rank pieces by eye.
 * - `vanishing`: to see where marks of little power vanish; `doseRatio`: dose in focus over threshold dose, as
 *   expected; 1.2 to 2 is best.
 */
export type SeriesPurpose =
  | { readonly for: "widths" }
  | { readonly for: "vanishing"; readonly kind: MarkKind; readonly doseRatio: PureNumber };

/** Which way the axis sweeps: from the height nearest the lens on, or from the one farthest from it. */
export type SweepDirection = "away from lens" | "toward lens";

/** What the axis and the head allow. */
export interface SeriesAxis {
  /** Smallest step of the axis, 1 nm to 1 m; left out, it takes any height. */
  readonly axisStep?: Length | undefined;
  /** Backlash of the axis, up to 1 m. */
  readonly backlash: Length;
  /** Which way to sweep. */
  readonly direction: SweepDirection;
  /** From the lowest part of the head to a piece in expected focus. */
  readonly clearance: Length;
  /** What must be left of it over any piece. */
  readonly leastClearance: Length;
  /** How far pieces can move from expected focus toward the lens; left out, that is no limit. */
  readonly travelTowardLens?: Length | undefined;
  /** How far they can move away from the lens, likewise. */
  readonly travelAwayFromLens?: Length | undefined;
}

/** Sizes of the pieces and their labels. */
export interface PieceLayout {
  /** Width of a piece, 1 µm to 1 m, as the next three. */
  readonly pieceWidth: Length;
  /** Height of a piece on the drawing. */
  readonly pieceHeight: Length;
  /** Width of the room for a label. */
  readonly labelWidth: Length;
  /** Height of the room for a label. */
  readonly labelHeight: Length;
  /** What is left free between a piece, its label and its neighbours, up to 1 m. */
  readonly gap: Length;
  /** Greatest width of a row, at least a piece and its label; left out, there is one row. */
  readonly rowWidth?: Length | undefined;
}

/** What a series is to be. */
export interface SeriesRequest {
  /** What it is engraved for. */
  readonly purpose: SeriesPurpose;
  /** Where focus is expected, from the caller's datum. */
  readonly expectedFocus: Offset;
  /** How far focus may be from there, either way. */
  readonly focusUncertainty: Length;
  /** Step from height to height; left out, it is chosen. */
  readonly step?: Length | undefined;
  /** Half of the range; left out, it is chosen. */
  readonly halfRange?: Length | undefined;
  /** What the axis and the head allow. */
  readonly axis: SeriesAxis;
  /** Sizes on the drawing. */
  readonly layout: PieceLayout;
}

/** Why a piece is in a series: as a height of the sweep, or engraved before or after it to reveal drift. */
export type PieceRole = "sweep" | "first repeat" | "last repeat";

/** Why a height is left out. */
export type SkipReason =
  | "too near head"
  | "beyond travel toward lens"
  | "beyond travel away from lens"
  | "no room to approach";

/** A place on the drawing of a series, from its lower left corner. */
export interface SeriesPlace {
  /** To the right. */
  readonly x: Length;
  /** Upward. */
  readonly y: Length;
}

/** One piece of a planned series. */
export interface PlannedPiece {
  /** Its height from the caller's datum. */
  readonly height: Offset;
  /** The height as it is printed below the piece: millimetres with three decimals and a sign. */
  readonly label: string;
  /** Why it is in the series. */
  readonly role: PieceRole;
  /** Why it is left out; `null` if it is engraved. */
  readonly skipped: SkipReason | null;
  /** The same as a sentence, with what would bring it back; `null` if it is engraved. */
  readonly skippedText: string | null;
  /**
   * Where the axis is to be before it goes to that height; of a piece that follows another one in the sweep the height
   * of that; `null`, as the next, for a piece that is left out.
   */
  readonly approach: Offset | null;
  /** Lower left corner of the piece. */
  readonly corner: SeriesPlace | null;
  /** Lower left corner of the room for its label. */
  readonly labelCorner: SeriesPlace | null;
}

/** A planned series. */
export interface SeriesPlan {
  /** Every piece in the order in which they are engraved, those that are left out among them. */
  readonly pieces: readonly PlannedPiece[];
  /** Step from height to height. */
  readonly step: Length;
  /** Steps on either side of expected focus, skipped ones among them. */
  readonly stepsPerSide: number;
  /** Half of the range: so many steps. */
  readonly halfRange: Length;
  /** Steps that are engraved on the side toward the lens. */
  readonly stepsTowardLens: number;
  /** Steps that are engraved on the side away from the lens. */
  readonly stepsAwayFromLens: number;
  /** Pieces that are engraved. */
  readonly engraved: number;
  /** From how far before its height the first piece of the sweep, and every repeat, is approached. */
  readonly preTravel: Length;
  /** Rayleigh range of the expected beam. */
  readonly rayleighRange: Length;
  /** How far from focus the mark is expected to vanish; `undefined` unless that is what the series is for. */
  readonly vanishingOffset: Length | undefined;
  /** Pieces in a full row. */
  readonly columns: number;
  /** Rows. */
  readonly rows: number;
  /** Width of the whole drawing. */
  readonly width: Length;
  /** Height of the whole drawing. */
  readonly height: Length;
  /** Half angle of the cone of the expected beam. */
  readonly halfAngle: Angle;
  /** How far the numbers may be trusted. */
  readonly validity: Validity;
}

const directions: readonly SweepDirection[] = ["away from lens", "toward lens"];
const roles: readonly PieceRole[] = ["sweep", "first repeat", "last repeat"];
const skips: readonly SkipReason[] = [
  "too near head",
  "beyond travel toward lens",
  "beyond travel away from lens",
  "no room to approach",
];
/** Numbers of one piece. */
const PIECE = 8;

/** A purpose in the model's order: code, kind, dose ratio. One that does not exist is 0 and refused. */
function purposeNumbers(purpose: SeriesPurpose): [number, number, number] {
  if (purpose?.for === "widths") return [1, 0, NaN];
  if (purpose?.for === "vanishing") return [2, markKindCode(purpose.kind), purpose.doseRatio as number];
  return [0, 0, NaN];
}

function requestNumbers(request: SeriesRequest): number[] {
  const { purpose, expectedFocus, focusUncertainty, step, halfRange, axis, layout } =
    request ?? ({} as Partial<SeriesRequest>);
  return [
    ...purposeNumbers(purpose as SeriesPurpose),
    expectedFocus?.zAwayFromLens as number,
    focusUncertainty as number,
    orElse(step, 0),
    orElse(halfRange, 0),
    orElse(axis?.axisStep, 0),
    axis?.backlash as number,
    directions.indexOf(axis?.direction as SweepDirection) + 1,
    axis?.clearance as number,
    axis?.leastClearance as number,
    orElse(axis?.travelTowardLens, Infinity),
    orElse(axis?.travelAwayFromLens, Infinity),
    layout?.pieceWidth as number,
    layout?.pieceHeight as number,
    layout?.labelWidth as number,
    layout?.labelHeight as number,
    layout?.gap as number,
    orElse(layout?.rowWidth, Infinity),
  ];
}

function pieceFrom(out: Float64Array): PlannedPiece {
  const [z, approach, role, skipped, x, y, labelX, labelY] = out as unknown as Length[];
  const reason = skips[(skipped as number) - 1] ?? null;
  const isEngraved = reason === null;
  return {
    height: signedOffset(z as Length),
    label: core.height_label(z as number),
    role: roles[(role as number) - 1] as PieceRole,
    skipped: reason,
    skippedText: isEngraved ? null : core.skip_reason_text(skipped as number),
    approach: isEngraved ? signedOffset(approach as Length) : null,
    corner: isEngraved ? { x: x as Length, y: y as Length } : null,
    labelCorner: isEngraved ? { x: labelX as Length, y: labelY as Length } : null,
  };
}

/**
 * Plans a series of test pieces at stepped heights for a beam, as it is expected.
 *
 * Unless told otherwise: for widths or ranks, steps of 0.4 Rayleigh ranges over 2 of them on either side and the
 * uncertainty of focus; for vanishing marks, steps of a quarter of the offset at which they vanish, over 1.5 times that
 * offset and the uncertainty. A step is rounded to whole steps of the axis. The axis sweeps one way; every piece is
 * approached in that direction, the first and every repeat from two backlashes before its height. Expected focus and, of
 * widths, the farthest height within a Rayleigh range away from it are engraved before and after the sweep, for
 * {@link seriesDrift}. A height without clearance, travel or room to approach it is left out and says why. Pieces stand
 * in rows in the order in which they are engraved, the height below each.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result, counted from the step as it is rounded.
 *
 * @throws {@link SpotwiseError} for an unknown choice, then for a value outside its range; with code 4 for fewer than 2
 * or more than 120 steps on either side, and where fewer than two are left on one side: then take smaller steps, or make
 * room there.
 */
export function planSeries(beam: Beam, request: SeriesRequest): SeriesPlan {
  const numbers = [...beamNumbers(beam), ...requestNumbers(request)] as number[];
  const planned = (pieces: Float64Array) =>
    callWithList((all) => core.plan_series(Float64Array.from(all), pieces), numbers);
  const count = planned(new Float64Array(0))[5] as number;
  const pieces = new Float64Array(PIECE * count);
  const out = planned(pieces);
  return {
    pieces: Array.from({ length: count }, (_, i) => pieceFrom(pieces.subarray(PIECE * i, PIECE * (i + 1)))),
    step: out[0] as Length,
    stepsPerSide: out[1] as number,
    halfRange: out[2] as Length,
    stepsTowardLens: out[3] as number,
    stepsAwayFromLens: out[4] as number,
    engraved: out[6] as number,
    preTravel: out[7] as Length,
    rayleighRange: out[8] as Length,
    vanishingOffset: orUndefined(out[9] as Length),
    columns: out[10] as number,
    rows: out[11] as number,
    width: out[12] as Length,
    height: out[13] as Length,
    halfAngle: out[14] as Angle,
    validity: validityOf(out[15] as number),
  };
}

/** A width with its standard deviation. */
export interface MeasuredWidth {
  /** Width of a mark. */
  readonly width: Length;
  /** Its standard deviation. */
  readonly deviation: Length;
}

/** What two repeats of one height say. */
export interface SeriesDrift {
  /** Last width less first; **negative** where marks became narrower. */
  readonly change: Length;
  /** Its standard deviation. */
  readonly changeDeviation: Length;
  /** Change over its deviation. */
  readonly significance: number;
  /** The chance of a change so great either way, were there no drift. */
  readonly chance: number;
  /** Whether that is less than 1 − coverage probability. */
  readonly drifted: boolean;
}

/**
 * Whether something drifted in the course of a series, from a height that was engraved before and after it.
 *
 * In focus a change tells of dose: power, speed, material. On the flank, about a Rayleigh range off, it tells of height
 * as well, of which focus tells next to nothing. Deviations are taken for known and errors for normal.
 *
 * Accuracy: change at most 0.75 ulp (units in the last place) of the exact result, its deviation 2, significance 3,
 * chance 3 times (1 + significance²).
 *
 * @throws {@link SpotwiseError} for a value outside its range.
 */
export function seriesDrift(first: MeasuredWidth, last: MeasuredWidth, coverageProbability: PureNumber): SeriesDrift {
  const out = call(
    core.series_drift,
    first?.width as number,
    first?.deviation as number,
    last?.width as number,
    last?.deviation as number,
    coverageProbability as number,
  );
  return {
    change: out[0] as Length,
    changeDeviation: out[1] as Length,
    significance: out[2] as number,
    chance: out[3] as number,
    drifted: out[4] === 1,
  };
}
