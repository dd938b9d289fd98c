/** Compensation: which power and speed make up for a known defocus, and what stands in the way. */

import { beamNumbers, type Beam } from "./beam.js";
import { call, core } from "./core.js";
import { markKindCode, type IsolatedMark } from "./marks.js";
import { orElse } from "./number.js";
import type { Offset } from "./place.js";
import type { Power, Speed } from "./scan_units.js";
import type { Angle, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";

/**
 * What is to be as it was in focus: the dose of a line or the fluence of a pulse; the width of the mark; or,
 * not as it was, a width that no longer reacts to focus. A raster fill needs none: its mean dose does not
 * change with focus.
 */
export type CompensationRule = "same dose" | "same width" | "focus-insensitive width";

/** How a mark is made in focus, and how far power and speed may go. */
export interface MarkSetting extends IsolatedMark {
  /** Peak dose **in the waist** over the dose at which the material just marks, 1.000001 to 1e6. */
  readonly doseRatio: PureNumber;
  /** Power, 1 nW to 1 MW. */
  readonly power: Power;
  /** Speed, 1 nm/s to 10 km/s. */
  readonly speed: Speed;
  /** Greatest power that the laser gives, `power` to 1 MW. */
  readonly greatestPower: Power;
  /** Least speed that is allowed, 1 nm/s to `speed`. */
  readonly leastSpeed: Speed;
  /** Greatest speed that is allowed, `speed` to 10 km/s. */
  readonly greatestSpeed: Speed;
  /** Least irradiance on the axis over that in the waist before, up to 1e6; left out, it does not matter. */
  readonly leastIrradianceRatio?: PureNumber | undefined;
}

/** Permanent bits of the limits in {@link Compensation.limitBits}, the same on every face of spotwise. */
export const limitBit = {
  /**
   * The greatest power is less than is wanted. Where speed cannot make up for it, the dose stays short: always so
   * for a pulse.
   */
  greatestPower: 1,
  /** The least speed is more than is wanted, so that the dose stays short. */
  leastSpeed: 2,
  /** The irradiance stays below the least allowed. */
  leastIrradiance: 4,
  /** The greatest speed is less than is wanted to go with the power for the least irradiance. */
  greatestSpeed: 8,
} as const;

/** Power and speed that make up for a defocus. */
export interface Compensation {
  /** By which factor the rule wants the dose to change. */
  readonly wantedFactor: number;
  /** By which factor power and speed below change it. */
  readonly reachedFactor: number;
  /** Power. */
  readonly power: Power;
  /** Speed. */
  readonly speed: Speed;
  /** Irradiance on the axis over that in the waist before. */
  readonly irradianceRatio: number;
  /** Dose ratio on the surface, with that power and speed. */
  readonly doseRatio: number;
  /** Width of the mark, with that power and speed; 0 if there is none. */
  readonly markWidth: Length;
  /** The limits that bind, one sentence for each, in a fixed order. */
  readonly limits: readonly string[];
  /** The same limits as a sum of bits; see {@link limitBit}. */
  readonly limitBits: number;
  /** 1/e² **half** angle of the beam. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

const ruleCodes: ReadonlyMap<string, number> = new Map([
  ["same dose", 1],
  ["same width", 2],
  ["focus-insensitive width", 3],
]);
const limitTexts = Object.values(limitBit).map((bit): [number, string] => [bit, core.limit_text(bit)]);

/**
 * Power and speed that make up for a known defocus by a rule, within limits.
 *
 * Power is changed first (lowered where less dose is wanted), since only power brings back irradiance, and raised
 * further for the least irradiance, with the speed of a line in step; speed makes up the rest, for lines. A rule that cannot be met is no error: the nearest
 * setting is given, with the limits that bind.
 *
 * Accuracy: at most 6 ulp (units in the last place) of the exact result, for the same width times
 * 1 + (1 − 1/g²)·ln q, and times 1 + 1/ln(dose ratio) for the
 * width of the mark.
 *
 * @param surface - the surface relative to the waist, up to 1e7 m.
 * @throws {@link SpotwiseError} for an unknown rule or kind, then for a value outside its range.
 */
export function compensate(
  beam: Beam,
  surface: Offset,
  rule: CompensationRule,
  setting: MarkSetting,
): Compensation {
  const out = call(
    core.compensate,
    ...beamNumbers(beam),
    surface?.zAwayFromLens,
    ruleCodes.get(rule) ?? 0,
    markKindCode(setting?.kind),
    setting?.doseRatio,
    setting?.power,
    setting?.speed,
    setting?.greatestPower,
    setting?.leastSpeed,
    setting?.greatestSpeed,
    orElse(setting?.leastIrradianceRatio, 0),
  );
  const limitBits = out[7] as number;
  return {
    wantedFactor: out[0] as number,
    reachedFactor: out[1] as number,
    power: out[2] as Power,
    speed: out[3] as Speed,
    irradianceRatio: out[4] as number,
    doseRatio: out[5] as number,
    markWidth: out[6] as Length,
    limits: limitTexts.filter(([bit]) => (limitBits & bit) !== 0).map(([, text]) => text),
    limitBits,
    halfAngle: out[8] as Angle,
    validity: validityOf(out[9] as number),
  };
}
