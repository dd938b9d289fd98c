/** The mark of one pulse or of one line by itself, in focus and out of it. */

import { beamNumbers, type Beam } from "./beam.js";
import { call, core } from "./core.js";
import type { Offset } from "./place.js";
import type { Angle, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/** What makes a mark: one pulse (or whatever goes by the peak irradiance), or one scanned line. */
export type MarkKind = "pulse" | "line";

const kindCodes: ReadonlyMap<string, number> = new Map([
  ["pulse", 1],
  ["line", 2],
]);

/**
 * The code of a kind; 0, which the model refuses, for what is none.
 *
 * @internal
 */
export function markKindCode(kind: MarkKind): number {
  return kindCodes.get(kind) ?? 0;
}

/** A mark by itself. */
export interface IsolatedMark {
  /** What makes it. */
  readonly kind: MarkKind;
  /** Peak dose **in the waist** over the dose at which the material just marks, 1e-6 to 1e6; up to 1 nothing marks. */
  readonly doseRatio: PureNumber;
}

/** A mark at one height. */
export interface MarkWidth {
  /** Whether there is a mark at all. */
  readonly marks: boolean;
  /** Width of the line, or **diameter** of the dot; 0 without a mark. */
  readonly width: Length;
  /** Dose ratio at this height. */
  readonly doseRatio: number;
  /** The spot at this height. */
  readonly spot: BeamWidth;
  /** 1/e² **half** angle of the beam. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

/** Where a mark is widest, and where it vanishes. Distances count from the waist, alike to either side. */
export interface MarkLimits {
  /** Whether there is a mark in the waist; if not, there is none anywhere, and all lengths are 0. */
  readonly marks: boolean;
  /** Width of the mark in the waist. */
  readonly widthInWaist: Length;
  /** Distance from the waist at which the mark is widest; 0 if that is the waist. */
  readonly widestDistance: Length;
  /** Width of the mark there. */
  readonly greatestWidth: Length;
  /** Distance from the waist at which the mark vanishes. */
  readonly vanishingDistance: Length;
  /**
   * Dose ratio in the waist at which the width would not react to focus to second order: e for a pulse, √e
   * for a line. Robust in production, and useless for finding focus.
   */
  readonly focusInsensitiveDoseRatio: number;
  /** 1/e² **half** angle of the beam. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

/**
 * Width of the mark of one pulse or line on a surface that is off the waist.
 *
 * b = d·√(L/2) with L = ln q − n·ln g, n = 2 for a pulse (Liu, Optics Letters 7, 196, 1982, from memory) and
 * 1 for a line. No mark is no error: its width is then 0. Heat, incubation and elliptic spots are not
 * modelled.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result, times 1 + (1 + |ln q|)/L for the
 * width, which is large where the mark is about to vanish.
 *
 * @param surface - the surface relative to the waist, up to 1e7 m.
 * @throws {@link SpotwiseError} for an unknown kind or a value outside its range, or a half angle above
 * 0.3 rad.
 */
export function markWidth(beam: Beam, mark: IsolatedMark, surface: Offset): MarkWidth {
  const out = call(
    core.mark_width,
    ...beamNumbers(beam),
    markKindCode(mark?.kind),
    mark?.doseRatio,
    surface?.zAwayFromLens,
  );
  return {
    marks: out[0] === 1,
    width: out[1] as Length,
    doseRatio: out[2] as number,
    spot: diameter1e2(out[3] as Length),
    halfAngle: out[4] as Angle,
    validity: validityOf(out[5] as number),
  };
}

/**
 * Where the mark of a pulse or line is widest, and where it vanishes.
 *
 * It vanishes at z_R·√(q^(2/n) − 1); for ln q > n/2 it is widest at z_R·√(q^(2/n)/e − 1), else in the waist.
 * No mark is no error: `marks` is then false.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result, times 1 + 1/(q^(2/n)/e − 1) for the
 * distance of the widest mark, which is large where it leaves the waist.
 *
 * @throws {@link SpotwiseError} as {@link markWidth}.
 */
export function markLimits(beam: Beam, mark: IsolatedMark): MarkLimits {
  const out = call(core.mark_limits, ...beamNumbers(beam), markKindCode(mark?.kind), mark?.doseRatio);
  return {
    marks: out[0] === 1,
    widthInWaist: out[1] as Length,
    widestDistance: out[2] as Length,
    greatestWidth: out[3] as Length,
    vanishingDistance: out[4] as Length,
    focusInsensitiveDoseRatio: out[5] as number,
    halfAngle: out[6] as Angle,
    validity: validityOf(out[7] as number),
  };
}
