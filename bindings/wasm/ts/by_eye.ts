/** Focus from test pieces that only an eye has judged. */

import { callWithList, core } from "./core.js";
import { markKindCode, type MarkKind } from "./marks.js";
import { signedOffset, type Offset } from "./place.js";
import type { Length, PureNumber } from "./units.js";

/**
 * How good an eye finds a test piece.
 *
 * - `poor`: not good enough to be sold.
 * - `acceptable`: good enough, though not the best.
 * - `sharp`: as good as the best.
 */
export type PieceRank = "poor" | "acceptable" | "sharp";

/** A piece of a series of little power. */
export interface SeenPiece {
  /** Its height, from any datum, up to 1 km. */
  readonly height: Offset;
  /** Whether it shows a mark. */
  readonly seen: boolean;
}

/** A piece that an eye has ranked. */
export interface RankedPiece {
  /** Its height, from any datum, up to 1 km. */
  readonly height: Offset;
  /** How good it is. */
  readonly rank: PieceRank;
}

/** What is known of the eye and the light, and how sure the answer is to be. */
export interface EyeJudgement {
  /** Rayleigh range of the beam, as it is expected; it only turns the deviation into heights. */
  readonly rayleighRange: Length;
  /**
   * Relative standard deviation, 0 to 1: of ranks, by how much the same eye differs in the width of spot at which it
   * changes its mind; of vanishing marks, by how much power and material differ from piece to piece. 0.05 is a steady
   * hand, 0.1 a hasty one (our choice, no source).
   */
  readonly relativeDeviation: PureNumber;
  /** Share of all series whose focus the stated range is to hold, 0.01 to 1 − 1e-12. */
  readonly coverageProbability: PureNumber;
}

/** Permanent bits of the warnings in `warningBits`, the same on every face of spotwise. */
export const eyeWarningBit = {
  /** Pieces are out of order. */
  outOfOrder: 1,
  /** What the deviation makes of a height exceeds half of a run. */
  coarseJudgement: 2,
  /** A step at an end of a run exceeds half of it. */
  coarseSteps: 4,
  /** Of ranks: the acceptable run has no end toward the lens. */
  usableOpenTowardLens: 8,
  /** Of ranks: the acceptable run has no end away from the lens. */
  usableOpenAwayFromLens: 16,
  /** Of ranks: no piece is sharp. */
  noneSharp: 32,
} as const;

/** Focus height by an eye, counted from the datum of the pieces. */
export interface EyeFocus {
  /** Height of focus. */
  readonly height: Offset;
  /** Its standard deviation. */
  readonly deviation: Length;
  /** The range for the coverage probability, its end toward the lens. */
  readonly towardLens: Offset;
  /** Its end away from the lens. */
  readonly awayFromLens: Offset;
}

/** One end of a run of good pieces. */
export interface RunEnd {
  /** Its height. */
  readonly height: Offset;
  /** Its standard deviation. */
  readonly deviation: Length;
}

/** What to beware of in an answer that an eye gave. */
export interface EyeWarnings {
  /** What to beware of, one sentence for each warning, in a fixed order. */
  readonly warnings: readonly string[];
  /** The same as a sum of bits; see {@link eyeWarningBit}. */
  readonly warningBits: number;
}

/** Focus from where marks vanish. */
export interface VanishingFocus extends EyeWarnings {
  /** Where focus is. */
  readonly focus: EyeFocus;
  /** Where the mark vanishes toward the lens. */
  readonly towardLens: RunEnd;
  /** Where it vanishes away from the lens. */
  readonly awayFromLens: RunEnd;
  /** From focus to either; its deviation is that of focus. */
  readonly halfRun: Length;
  /** Dose in focus over threshold dose, by the Rayleigh range. */
  readonly doseRatio: number;
}

/** Focus and usable range from ranks. */
export interface RankFocus extends EyeWarnings {
  /** Where focus is. */
  readonly focus: EyeFocus;
  /**
   * End of the run of acceptable pieces or better, toward the lens; `null` unless the run is bounded on both sides.
   */
  readonly usableTowardLens: RunEnd | null;
  /** Its end away from the lens, likewise. */
  readonly usableAwayFromLens: RunEnd | null;
  /** Half of the run of sharp pieces; `null` if no piece is. */
  readonly sharpHalfRun: Length | null;
}

const warningTexts = Object.values(eyeWarningBit).map((bit): [number, string] => [bit, core.eye_warning_text(bit)]);
const ranks: readonly PieceRank[] = ["poor", "acceptable", "sharp"];

function judgementNumbers(judgement: EyeJudgement): [number, number, number] {
  const { rayleighRange, relativeDeviation, coverageProbability } = judgement ?? ({} as Partial<EyeJudgement>);
  return [rayleighRange as number, relativeDeviation as number, coverageProbability as number];
}

function focusFrom(out: Float64Array): EyeFocus {
  return {
    height: signedOffset(out[0] as Length),
    deviation: out[1] as Length,
    towardLens: signedOffset(out[2] as Length),
    awayFromLens: signedOffset(out[3] as Length),
  };
}

function endFrom(out: Float64Array, place: number): RunEnd {
  return { height: signedOffset(out[place] as Length), deviation: out[place + 1] as Length };
}

function warningsFrom(warningBits: number): EyeWarnings {
  return {
    warnings: warningTexts.filter(([bit]) => (warningBits & bit) !== 0).map(([, text]) => text),
    warningBits,
  };
}

/** What is no list holds no pieces. */
function listOf<Piece>(pieces: readonly Piece[]): readonly Piece[] {
  return Array.isArray(pieces) ? (pieces as readonly Piece[]) : [];
}

/**
 * Focus height from a series of little power, of which only the pieces near focus show a mark.
 *
 * Focus is midway between the two heights at which the mark vanishes. Each is found from the seen pieces, counted
 * from the middle of the run outward (the sum of Spearman and Kärber, from memory); its deviation comes from the step
 * and from how much chance there is in a piece. Pieces may stand in any order, and more than one at the same height.
 * Where nothing is left to chance the range holds on average over all places of focus between two heights, not at
 * each.
 *
 * Accuracy: heights at most 0.75 ulp (units in the last place) of the exact result, deviations and dose ratio 2, the
 * range 6 times (|focus| + half width)/|end|.
 *
 * @param pieces - 1 to 256, of lines or of single pulses.
 * @throws {@link SpotwiseError} for an unknown kind, a number of pieces (parameter 242) or a value outside its range;
 * with code 8 if no piece shows a mark (parameter 247: more power or other heights would tell), or if there is none
 * without a mark toward the lens (parameter 248) or away from it (parameter 249): further pieces there would tell.
 */
export function focusFromVanishing(
  pieces: readonly SeenPiece[],
  kind: MarkKind,
  judgement: EyeJudgement,
): VanishingFocus {
  const given = listOf(pieces);
  const count = given.length;
  const seen = Uint8Array.from(given, (piece) => Number(piece?.seen === true));
  const numbers = [...given.map((piece) => piece?.height?.zAwayFromLens), ...judgementNumbers(judgement)] as number[];
  const operation = (all: number[]) =>
    core.focus_from_vanishing(
      Float64Array.from(all.slice(0, count)),
      seen,
      markKindCode(kind),
      ...(all.slice(count) as [number, number, number]),
    );
  const out = callWithList(operation, numbers);
  return {
    focus: focusFrom(out),
    towardLens: endFrom(out, 4),
    awayFromLens: endFrom(out, 6),
    halfRun: out[8] as Length,
    doseRatio: out[9] as number,
    ...warningsFrom(out[10] as number),
  };
}

/**
 * Focus height and usable range from the ranks of a series of pieces.
 *
 * Focus is the mean of the middle of the sharp pieces and that of the acceptable or better ones, as far as each run is
 * bounded on both sides; how ends and deviations are found: {@link focusFromVanishing}. The usable range is the run of
 * acceptable pieces or better; where it is open, a warning says so.
 *
 * Accuracy: heights at most 0.75 ulp (units in the last place) of the exact result, deviations 2, the range 6 times
 * (|focus| + half width)/|end|.
 *
 * @param pieces - 1 to 256.
 * @throws {@link SpotwiseError} as {@link focusFromVanishing}; parameter 245 for an unknown rank, 247 if no piece is
 * acceptable or sharp, 248 or 249 for the side on which the sharp run (without any sharp piece the acceptable one)
 * has no end.
 */
export function focusFromRanks(pieces: readonly RankedPiece[], judgement: EyeJudgement): RankFocus {
  const given = listOf(pieces);
  const count = given.length;
  const codes = Uint32Array.from(given, (piece) => ranks.indexOf(piece?.rank) + 1);
  const numbers = [...given.map((piece) => piece?.height?.zAwayFromLens), ...judgementNumbers(judgement)] as number[];
  const operation = (all: number[]) =>
    core.focus_from_ranks(
      Float64Array.from(all.slice(0, count)),
      codes,
      ...(all.slice(count) as [number, number, number]),
    );
  const out = callWithList(operation, numbers);
  const isBounded = !Number.isNaN(out[4]);
  return {
    focus: focusFrom(out),
    usableTowardLens: isBounded ? endFrom(out, 4) : null,
    usableAwayFromLens: isBounded ? endFrom(out, 6) : null,
    sharpHalfRun: Number.isNaN(out[8]) ? null : (out[8] as Length),
    ...warningsFrom(out[9] as number),
  };
}
