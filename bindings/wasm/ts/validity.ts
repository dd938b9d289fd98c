/** Flags that say how far a result may be trusted. */

import { core } from "./core.js";

/**
 * How much a result is worth.
 *
 * - `fine`: no flag applies.
 * - `caution`: the result stands within the error that the flag states.
 * - `out of domain`: a value is given, yet its error is not bounded: compute the {@link Wave}.
 *   Where the lens aberrates a bracket comes with it, which knows of no aperture.
 *
 * Beyond that a result is refused: a {@link SpotwiseError}, or `undefined` in the one field.
 */
export type Level = "fine" | "caution" | "out of domain";

/**
 * How far a result may be trusted. The numbers behind the flags (half angle, normalised aberration, clipping
 * ratio, focus shift, grazing ratio) stand in the result that carries them.
 */
export interface Validity {
  /** No flag applies. */
  readonly fine: boolean;
  /** How much the result is worth, by the gravest flag. */
  readonly level: Level;
  /**
   * Caution: the half angle of the cone exceeds 0.15 rad. The paraxial formulas differ by 1.1 % at
   * that limit and by 4.7 % at 0.3 rad, above which a beam is refused.
   */
  readonly wideCone: boolean;
  /**
   * Caution: a second, separate range of heights also meets the criterion (astigmatic beams and
   * waves); the range given is the one that holds the best focus.
   */
  readonly secondRange: boolean;
  /**
   * Caution: the normalised aberration exceeds 0.3. The 86.5 %-power spot in focus stays within
   * 2 % of the diffraction integral (1.5 % for M² up to 4), its growth off focus within 20 %.
   */
  readonly aberrated: boolean;
  /**
   * Out of domain: the normalised aberration exceeds 1. The second moment is exact for what it is,
   * but far above the 86.5 %-power spot, for which no closed form holds.
   */
  readonly stronglyAberrated: boolean;
  /** Caution: the clipping ratio is below 1.8. Diffraction at the aperture changes the 86.5 %-power spot by up to 6.5 %. */
  readonly clipped: boolean;
  /** Out of domain: the clipping ratio is below 1.5. Closed forms without the aperture no longer hold. */
  readonly stronglyClipped: boolean;
  /**
   * Out of domain: the 86.5 %-power spot is refused and its fields, where there are any, are `undefined`:
   * the normalised aberration exceeds 1.7, the clipping ratio of a real lens is below 1.2, its Rayleigh
   * range is above 20 % of the distance from lens to waist, or the aperture is too small for the fit.
   */
  readonly noPower86: boolean;
  /**
   * Caution: the waist lies off the focal point by more than 5 % of the focal length, or its Rayleigh
   * range is more than 5 % of its distance from the lens. The 86.5 %-power spot of a single-piece lens is
   * within 2.3 % there and its greatest irradiance within 6 %. The widths of a clipped beam are those of the
   * focal plane; where it is brightest, nearer the lens, they are smaller by up to 1.7 times that share and
   * the irradiance higher by up to 1.6 times.
   */
  readonly focusShifted: boolean;
  /**
   * Caution: the grazing ratio of a tilted surface exceeds 0.2. The contour at 1/e² of the greatest
   * irradiance on the surface is longer than the footprint by up to 1.0 % in focus and shorter by up to
   * 1.1 % off focus at that limit, by 6.0 % and 7.7 % at a ratio of 0.5.
   */
  readonly tilted: boolean;
  /**
   * Caution: irradiance or line dose off focus behind a single-piece lens whose normalised aberration exceeds
   * 0.03 or whose clipping ratio is below 2.5. They are those of a Gaussian beam, whose light fades alike on
   * either side. Their error, in parts of the greatest: irradiance −25 … +10 % and line dose −11.5 … +5.5 % for
   * a normalised aberration up to 0.3, −40 … +21 % and −20 … +10 % up to 1; by second moments −37 … +53 % and
   * −20 … +31 %. An aperture by itself makes it 10 % and 4.5 % at a clipping ratio of 1.8, 21.5 % and 11.5 % at
   * 1.5; both together stay within 43 % and 21 % by the 86.5 % spot. Without the flag 4.2 % and 1.8 %.
   */
  readonly gaussianOffFocus: boolean;
  /** The flags that apply in words, one sentence for each, in a fixed order. */
  readonly cautions: readonly string[];
}

const levels: readonly Level[] = ["fine", "caution", "out of domain"];

/** Permanent bits of the flags, the same on every face of spotwise. */
const bit = {
  wideCone: 1,
  secondRange: 2,
  aberrated: 4,
  stronglyAberrated: 8,
  clipped: 16,
  stronglyClipped: 32,
  noPower86: 64,
  focusShifted: 128,
  tilted: 256,
  gaussianOffFocus: 512,
} as const;

const cautionTexts = Object.values(bit).map((flag): [number, string] => [flag, core.validity_text(flag)]);

/** Each set of flags that came up, in words: few do, and the words would cost more than the result. */
const known = new Map<number, Validity>();

/**
 * The flags as words.
 *
 * @internal
 */
export function validityOf(bits: number): Validity {
  let validity = known.get(bits);
  if (validity === undefined) {
    validity = inWords(bits);
    known.set(bits, validity);
  }
  return validity;
}

function inWords(bits: number): Validity {
  const set = (flag: number) => (bits & flag) !== 0;
  return Object.freeze({
    fine: bits === 0,
    level: levels[core.validity_level(bits)] as Level,
    wideCone: set(bit.wideCone),
    secondRange: set(bit.secondRange),
    aberrated: set(bit.aberrated),
    stronglyAberrated: set(bit.stronglyAberrated),
    clipped: set(bit.clipped),
    stronglyClipped: set(bit.stronglyClipped),
    noPower86: set(bit.noPower86),
    focusShifted: set(bit.focusShifted),
    tilted: set(bit.tilted),
    gaussianOffFocus: set(bit.gaussianOffFocus),
    cautions: Object.freeze(cautionTexts.filter(([flag]) => set(flag)).map(([, text]) => text)),
  });
}
