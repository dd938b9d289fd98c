/** Flags that say how far a result may be trusted. */

import { core } from "./core.js";

/** How far a result may be trusted. A result outside the model is not flagged but refused. */
export interface Validity {
  /** No caution applies. */
  readonly fine: boolean;
  /**
   * The half angle of the cone exceeds 0.15 rad: the paraxial formulas differ by 1.1 % at that
   * limit and by 4.7 % at 0.3 rad, above which a beam is refused.
   */
  readonly wideCone: boolean;
  /**
   * A second, separate range of heights also meets the criterion (astigmatic beams only); the
   * range given is the one that holds the greatest irradiance.
   */
  readonly secondRange: boolean;
  /** The cautions that apply, one sentence for each, in a fixed order. */
  readonly cautions: readonly string[];
}

const cautionTexts = [1, 2].map((bit): [number, string] => [bit, core.validity_text(bit)]);

/**
 * The flags as words: bit 1 is a wide cone, bit 2 a second range.
 *
 * @internal
 */
export function validityOf(bits: number): Validity {
  return {
    fine: bits === 0,
    wideCone: (bits & 1) !== 0,
    secondRange: (bits & 2) !== 0,
    cautions: cautionTexts.filter(([bit]) => (bits & bit) !== 0).map(([, text]) => text),
  };
}
