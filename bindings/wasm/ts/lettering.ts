/** Text: which letters a spot can still write. */

import { beamNumbers, type Beam } from "./beam.js";
import { call, core } from "./core.js";
import { orElse, orUndefined } from "./number.js";
import type { Angle, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/** Kinds of typeface whose shares of the em were measured, from openly licensed fonts. */
export const typefaceNames = ["sans", "bold sans", "light sans", "serif", "monospaced"] as const;

/** A kind of typeface; see {@link typefaceNames}. */
export type TypefaceName = (typeof typefaceNames)[number];

/** A typeface that you have measured, in shares of the em, each 0.001 to 1. */
export interface MeasuredTypeface {
  /** Width of an upright stem. */
  readonly stem: PureNumber;
  /** The stroke to which the typeface amounts. */
  readonly effectiveStroke: PureNumber;
  /** The gap to which its counters amount. */
  readonly effectiveCounter: PureNumber;
  /** The gap to which its counters and the gaps between letters amount. */
  readonly effectiveGap: PureNumber;
}

/** A typeface, by its kind or as measured. */
export type Typeface = TypefaceName | MeasuredTypeface;

/** How well text comes out, best first: stems at full dose; letters whole, apart and open; just readable; lost. */
export type TextGrade = "crisp" | "good" | "readable" | "lost";

/**
 * Where the grades of text begin. The defaults are set to agree with common practice; nothing else validates
 * them.
 */
export interface TextGrades {
  /** Share of the fill dose that the middle of a stem must get to be crisp, 0.5 to 0.999999. */
  readonly crispExposure: PureNumber;
  /** Least dose window of good text, 1 to 1000. */
  readonly goodWindow: PureNumber;
  /** Least dose window of readable text, 1 to 1000. */
  readonly readableWindow: PureNumber;
}

/** Cut-offs, some of which may be left out for their defaults. */
export type GivenTextGrades = { readonly [Cut in keyof TextGrades]?: PureNumber | undefined };

/** Measured shares of the em; `undefined` where a {@link MeasuredTypeface} does not tell. */
export interface TypefaceShares {
  /** Height of capitals. */
  readonly capHeight: number | undefined;
  /** Height of small letters without ascender. */
  readonly xHeight: number | undefined;
  /** Height of digits. */
  readonly digitHeight: number | undefined;
  /** Width of an upright stem. */
  readonly stem: number;
  /** Thinnest stroke of any letter or digit. */
  readonly thinnestStroke: number | undefined;
  /** **Diameter** of the largest circle in the smallest counter. */
  readonly smallestCounter: number | undefined;
  /** The stroke to which the typeface amounts. */
  readonly effectiveStroke: number;
  /** The gap to which its counters amount. */
  readonly effectiveCounter: number;
  /** The gap to which its counters and the gaps between letters amount. */
  readonly effectiveGap: number;
}

/** The smallest type of each grade, as its em; read it with {@link inPt}. */
export interface SmallestText {
  /** The smallest em at which text is crisp. */
  readonly crispEm: Length;
  /** The smallest em at which it is good. */
  readonly goodEm: Length;
  /** The smallest em at which it can be read. */
  readonly readableEm: Length;
}

/** How text of one size comes out. */
export interface TextQuality {
  /** The best grade that holds. */
  readonly grade: TextGrade;
  /** Dose on the middle of a stem over that of a wide fill. */
  readonly stemExposure: number;
  /** Least dose ratio at which no stroke is lost. */
  readonly leastDoseRatio: number;
  /** Greatest dose ratio at which counters stay open and letters apart; may be Infinity. */
  readonly greatestDoseRatio: number;
  /** Greatest dose ratio at which counters stay open; may be Infinity. */
  readonly greatestDoseRatioForCounters: number;
}

/** How far text may be out of focus. */
export interface TextOffset {
  /** Largest distance from the waist, alike to either side. */
  readonly distanceFromWaist: Length;
  /** The spot there. */
  readonly spot: BeamWidth;
  /** 1/e² **half** angle of the beam. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted for this beam. */
  readonly validity: Validity;
}

/** Typeface and dose of some text. */
export interface TextStyle {
  /** Its typeface. */
  readonly typeface: Typeface;
  /** Fill dose over the dose at which the material just marks, 1.000001 to 1e6. */
  readonly doseRatio: PureNumber;
  /** Where its grades begin; left out, {@link defaultTextGrades}. */
  readonly grades?: GivenTextGrades | undefined;
}

const grades: readonly TextGrade[] = ["crisp", "good", "readable", "lost"];
const MEASURED = 6;

/** The cut-offs that hold where none are given: 98 % of the fill dose, and windows of 2 and 1.1. */
export const defaultTextGrades: TextGrades = Object.freeze(readDefaults());

function readDefaults(): TextGrades {
  const out = call(core.default_text_grades);
  return { crispExposure: out[0]!, goodWindow: out[1]!, readableWindow: out[2]! };
}

/**
 * The code of a grade; 0, which the model refuses, for what is none.
 *
 * @internal
 */
export function gradeCode(grade: TextGrade): number {
  return grades.indexOf(grade) + 1;
}

/**
 * The grade of a code; `null` for 0, which stands for no text.
 *
 * @internal
 */
export function gradeFrom(code: number): TextGrade | null {
  return grades[code - 1] ?? null;
}

/**
 * A typeface in the model's order: code, stem, effective stroke, counter and gap.
 *
 * @internal
 */
export function typefaceNumbers(typeface: Typeface): [number, number, number, number, number] {
  if (typeof typeface === "object" && typeface !== null) {
    const { stem, effectiveStroke, effectiveCounter, effectiveGap } = typeface;
    return [MEASURED, stem, effectiveStroke, effectiveCounter, effectiveGap];
  }
  return [typefaceNames.indexOf(typeface) + 1, NaN, NaN, NaN, NaN];
}

/**
 * Cut-offs in the model's order: exposure of crisp text, windows of good and of readable text.
 *
 * @internal
 */
export function gradeNumbers(given: GivenTextGrades | undefined): [number, number, number] {
  const cuts = given === undefined ? {} : given;
  // Only what is left out has a default: what is no object has none.
  if (typeof cuts !== "object" || cuts === null) return [NaN, NaN, NaN];
  return [
    orElse(cuts.crispExposure, defaultTextGrades.crispExposure),
    orElse(cuts.goodWindow, defaultTextGrades.goodWindow),
    orElse(cuts.readableWindow, defaultTextGrades.readableWindow),
  ];
}

/**
 * The smallest text from its three outputs.
 *
 * @internal
 */
export function smallestTextFrom(out: Float64Array): SmallestText {
  return { crispEm: out[0] as Length, goodEm: out[1] as Length, readableEm: out[2] as Length };
}

/**
 * Measured shares of the em of a kind of typeface.
 *
 * @throws {@link SpotwiseError} for an unknown kind, or a measured share outside its range.
 */
export function typefaceShares(typeface: Typeface): TypefaceShares {
  const out = call(core.typeface_shares, ...typefaceNumbers(typeface));
  return {
    capHeight: orUndefined(out[0] as number),
    xHeight: orUndefined(out[1] as number),
    digitHeight: orUndefined(out[2] as number),
    stem: out[3] as number,
    thinnestStroke: orUndefined(out[4] as number),
    smallestCounter: orUndefined(out[5] as number),
    effectiveStroke: out[6] as number,
    effectiveCounter: out[7] as number,
    effectiveGap: out[8] as number,
  };
}

/**
 * The smallest type that comes out crisp, good and readable with this spot and dose.
 *
 * A letter is taken to hold as one long stroke, fed by the strokes around it, and one long gap would. For a
 * font of a kind the size may be off by 15 to 45 %, with serifs by up to 68 %. The dose window is the greatest dose
 * ratio at which no gap fills over the least at which no stroke is lost. Hinting, kerning, the raster of the
 * artwork and scripts other than Latin are not modelled.
 *
 * Accuracy of evaluation: at most 4 ulp (units in the last place) of the exact result of the formula, times
 * 1 + 1/k where a dose window decides, k being its slope d ln(window)/d ln(em).
 *
 * @param text - `spot`: 1 nm to 10 m in 1/e² diameter.
 * @throws {@link SpotwiseError} for an unknown typeface or a value outside its range.
 */
export function smallestText(text: TextStyle & { readonly spot: BeamWidth }): SmallestText {
  const out = call(
    core.smallest_text,
    text?.spot?.diameter1e2,
    text?.doseRatio,
    ...typefaceNumbers(text?.typeface),
    ...gradeNumbers(text?.grades),
  );
  return smallestTextFrom(out);
}

/**
 * How text of one size comes out with this spot and dose.
 *
 * Accuracy of evaluation: at most 6 ulp (units in the last place) of the exact result of the formula, the
 * greatest dose ratios that times 1 + (g·t)², with the gap g in ems and t = √2·em/spot.
 *
 * @param text - `spot`: 1 nm to 10 m in 1/e² diameter; `em`: size of the type, such as `pt(4)`, 1 nm to 10 m.
 * @throws {@link SpotwiseError} for an unknown typeface or a value outside its range.
 */
export function textQuality(text: TextStyle & { readonly spot: BeamWidth; readonly em: Length }): TextQuality {
  const out = call(
    core.text_quality,
    text?.spot?.diameter1e2,
    text?.em,
    text?.doseRatio,
    ...typefaceNumbers(text?.typeface),
    ...gradeNumbers(text?.grades),
  );
  return {
    grade: gradeFrom(out[0] as number) as TextGrade,
    stemExposure: out[1] as number,
    leastDoseRatio: out[2] as number,
    greatestDoseRatio: out[3] as number,
    greatestDoseRatioForCounters: out[4] as number,
  };
}

/**
 * How far off the waist text of one size keeps a grade.
 *
 * Accuracy of evaluation: at most 8 ulp (units in the last place) times r²/(r² − 1), r being the growth there.
 *
 * @param text - `em`: size of the type, such as `pt(4)`, 1 nm to 10 m; `grade`: any but `lost`.
 * @throws {@link SpotwiseError} for an unknown choice or a value outside its range; with code 5 if the text
 * lacks the grade even in the waist.
 */
export function offsetForText(
  beam: Beam,
  text: TextStyle & { readonly em: Length; readonly grade: Exclude<TextGrade, "lost"> },
): TextOffset {
  const out = call(
    core.offset_for_text,
    ...beamNumbers(beam),
    text?.em,
    gradeCode(text?.grade),
    text?.doseRatio,
    ...typefaceNumbers(text?.typeface),
    ...gradeNumbers(text?.grades),
  );
  return {
    distanceFromWaist: out[0] as Length,
    spot: diameter1e2(out[1] as Length),
    halfAngle: out[2] as Angle,
    validity: validityOf(out[3] as number),
  };
}
