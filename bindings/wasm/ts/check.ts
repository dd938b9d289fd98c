/** One job in, one verdict out: will this drawing's finest stroke, gap and text hold on this surface? */

import { call, core } from "./core.js";
import { scanDoseFrom, type ScanDose } from "./dose.js";
import { criterionNumbers, type DepthCriterion } from "./focus.js";
import { glassCode, type GlassName } from "./glass.js";
import { focusedFrom, type FocusedBeam } from "./lens.js";
import {
  gradeCode,
  gradeFrom,
  gradeNumbers,
  smallestTextFrom,
  typefaceNumbers,
  type GivenTextGrades,
  type SmallestText,
  type TextGrade,
  type Typeface,
} from "./lettering.js";
import { responseNumbers, type Response } from "./material.js";
import { distanceToLens, rangeFrom, signedOffset, type FocusRange, type Offset, type RawPlace } from "./place.js";
import type { Dose, Power, Speed } from "./scan_units.js";
import { shapeNumbers, singletFocusFrom, type AberratedWaist, type LensShape, type SingletFocus } from "./singlet.js";
import type { Curvature, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";
import { apertureNumber, diameter, type BeamWidth, type Diameter } from "./width.js";

/**
 * How the raw beam, before the lens, is known.
 *
 * - `collimated`: by its width at the lens, where its wavefront is flat; 1 nm to 10 m.
 * - `waist`: by its waist and where that lies, most often `upstream(…)` of the lens; up to 1e7 m.
 * - `expanded`: by its waist, with a beam expander on its way to the lens. `waistAt` is relative to **the
 *   expander**; `magnification`: beam diameter behind the expander over that before it, 0.01 to 100;
 *   `exitPower`: by how much the expander converges collimated light, **+ converging**, 0 when set to
 *   infinity, up to 1000 /m either way; `expanderToLens`: 0 to 1e7 m.
 */
export type RawBeam =
  | { readonly by: "collimated"; readonly atLens: BeamWidth }
  | { readonly by: "waist"; readonly waist: BeamWidth; readonly waistAt: RawPlace }
  | {
      readonly by: "expanded";
      readonly waist: BeamWidth;
      readonly waistAt: RawPlace;
      readonly magnification: PureNumber;
      readonly exitPower: Curvature;
      readonly expanderToLens: Length;
    };

/** What is known of a job's lens besides its focal length: it is a single piece. */
export interface JobSinglet {
  /** Material. */
  readonly glass: GlassName;
  /** Shape. */
  readonly shape: LensShape;
  /** Clear aperture of the lens or its mount, 1 nm to 100 m; left out if unknown. */
  readonly clearAperture?: Diameter | undefined;
}

/**
 * How the height of focus is known.
 *
 * - `datum`: by the place of the waist relative to the datum of the surface; up to 1 km.
 *   `towardLens`: the waist is above the datum, `awayFromLens`: below it, in the part.
 * - `lens height`: by the distance from the lens to the datum, 1 µm to 10 km; the place of the
 *   waist follows from the optics, its shift from the focal point included.
 */
export type FocusSetting =
  | { readonly by: "datum"; readonly waistZ: Offset }
  | { readonly by: "lens height"; readonly lensToSurface: Length };

/**
 * How the dose of the fill is known.
 *
 * - `ratio`: by the fill dose over the dose at which the material just marks, 1e-6 to 1e6.
 * - `scan`: by what the machine is set to and what the material needs. `power` on the surface: 1 nW to 1 MW;
 *   `speed` along the lines: 1 nm/s to 10 km/s; `lineInterval`: 1 nm to 1 m and at most 20 radii of the spot,
 *   {@link lineInterval} makes it from dots per inch; `threshold`: **fill** dose at which the material just
 *   marks, 1e-12 to 1e18 J/m²; `response`: how the material answers above it, left out it is a coating;
 *   incubation is not in it.
 *
 * Below a ratio of 1.000001 nothing marks, which is no error but a finding: the outcome `nothing marks`.
 */
export type JobDose =
  | { readonly by: "ratio"; readonly doseRatio: PureNumber }
  | {
      readonly by: "scan";
      readonly power: Power;
      readonly speed: Speed;
      readonly lineInterval: Length;
      readonly threshold: Dose;
      readonly response?: Response | undefined;
    };

/** The text of a job. */
export interface JobText {
  /** Its typeface. */
  readonly typeface: Typeface;
  /** Its size as em, such as `pt(4)`; 1 nm to 10 m. */
  readonly em: Length;
  /** The grade that it must keep everywhere; `lost` asks for nothing. */
  readonly leastGrade: TextGrade;
  /** Where the grades begin; left out, {@link defaultTextGrades}. */
  readonly grades?: GivenTextGrades | undefined;
}

/** Everything that {@link focusCheck} needs to know. */
export interface Job {
  /** Vacuum wavelength, 10 nm to 10 mm. */
  readonly wavelength: Length;
  /** Beam propagation ratio M², 1 to 1e4. */
  readonly m2: PureNumber;
  /** The beam before the lens. */
  readonly rawBeam: RawBeam;
  /** Focal length of the lens at the working wavelength, 10 µm to 10 km. */
  readonly focalLength: Length;
  /**
   * What else is known of the lens: its aberration and its aperture then count. Left out, it is taken
   * for ideal.
   */
  readonly singlet?: JobSinglet | undefined;
  /** Where focus is set. */
  readonly focus: FocusSetting;
  /** How far the surface comes toward the lens from its datum, 0 to 1 km. */
  readonly surfaceRise: Length;
  /** How far the surface drops away from the lens from its datum, 0 to 1 km. */
  readonly surfaceFall: Length;
  /** What counts as in focus. */
  readonly criterion: DepthCriterion;
  /** Width of the finest stroke in the drawing, 1 nm to 10 m. */
  readonly finestStroke: Length;
  /** Width of the finest gap in the drawing, 1 nm to 10 m. */
  readonly finestGap: Length;
  /** Dose of the fill. */
  readonly dose: JobDose;
  /** The text in the drawing; left out, there is none. */
  readonly text?: JobText | undefined;
}

/** The spot at one height of the surface, and what it holds there. */
export interface Place {
  /** The surface relative to the waist; `towardLens`: the surface is above the waist. */
  readonly zOffset: Offset;
  /**
   * **Diameter** of the spot on the surface: at 1/e² (D4σ) if the lens is taken for ideal, with 86.5 % of the
   * power if it is real.
   */
  readonly spotDiameter: Length;
  /** Spot diameter over waist diameter. */
  readonly growth: number;
  /** Irradiance on the axis over that at the waist. */
  readonly irradianceRatio: number;
  /** Peak dose of a scanned line over that at the waist. */
  readonly lineDoseRatio: number;
  /**
   * **Diameter** of the spot as the material sees it, in a melt widened by heat to √(d² + 32·κ·t) with
   * t = √(π/8)·d/v; details, text and ripple go by it.
   */
  readonly seenSpotDiameter: Length;
  /** Width of the finest stroke that holds; `null` if nothing marks. */
  readonly smallestStroke: Length | null;
  /** Width of the finest gap that holds; `null` if nothing marks. */
  readonly smallestGap: Length | null;
  /** The finest dot that holds; `null` if nothing marks. */
  readonly smallestDot: Diameter | null;
  /** The finest hole that holds; `null` if nothing marks. */
  readonly smallestHole: Diameter | null;
  /** Contrast of the ripple of the fill; `null` if the job names no line interval. */
  readonly rippleContrast: number | null;
  /** The smallest type of the job's typeface; `null` if the job has no text or nothing marks. */
  readonly smallestText: SmallestText | null;
  /** How the job's text comes out; `null` if it has none. */
  readonly textGrade: TextGrade | null;
  /** Whether the drawing's finest stroke and gap both hold, and its text keeps its grade. */
  readonly detailsHold: boolean;
  /** Whether the place lies within the depth of focus. */
  readonly inDepth: boolean;
}

/**
 * Stroke, gap and text hold everywhere and the surface stays in focus; they hold but the surface leaves
 * the depth of focus; one of them is lost somewhere, or the fill breaks up into its lines; or nothing marks.
 */
export type Outcome = "holds" | "holds out of focus" | "lost" | "nothing marks";

/** Permanent bits of the reasons in {@link Verdict.reasonBits}, the same on every face of spotwise. */
export const reasonBit = {
  /** The finest stroke is lost even in the waist: no focus height can save it. */
  strokeTooFine: 1,
  /** The finest gap fills even in the waist: no focus height can save it. */
  gapTooFine: 2,
  /** The finest stroke is lost at the highest place. */
  strokeLostHigh: 4,
  /** The finest stroke is lost at the lowest place. */
  strokeLostLow: 8,
  /** The finest gap fills at the highest place. */
  gapFilledHigh: 16,
  /** The finest gap fills at the lowest place. */
  gapFilledLow: 32,
  /** The highest place is outside the depth of focus. */
  highOutOfFocus: 64,
  /** The lowest place is outside the depth of focus. */
  lowOutOfFocus: 128,
  /** The waist is larger than the largest diameter allowed, so there is no depth of focus. */
  noDepth: 256,
  /** Focus at mid-height of the surface would make the detail hold everywhere, and the lens has room above it. */
  refocusHelps: 512,
  /** Focus at mid-height of the surface would bring all of it into focus, and the lens has room above it. */
  refocusSharpens: 1024,
  /** The text lacks its grade even in the waist: no focus height can save it. */
  textTooSmall: 2048,
  /** The text lacks its grade at the highest place. */
  textLostHigh: 4096,
  /** The text lacks its grade at the lowest place. */
  textLostLow: 8192,
  /** The lines of the fill leave gaps where the spot is smallest on the surface. */
  fillHasGaps: 16384,
  /**
   * The dose is too little for the material, so that nothing marks at any height; no other reason then speaks of
   * stroke, gap, text, fill or of another focus.
   */
  nothingMarks: 32768,
  /**
   * The detail would hold everywhere if the surface were engraved in bands of height, each in its own focus, and
   * the lens has room for it; focus at mid-height alone would not do.
   */
  bandsHelp: 65536,
  /**
   * Somewhere the surface leans by more than 0.35 rad (20°), which stretches the spot and lowers the dose there by
   * more than 6 %. Only `surfaceCheck` knows.
   */
  steep: 131072,
  /** Nothing is known of part of the region, so that nothing is said of it. Only `surfaceCheck` knows. */
  partlyUnknown: 262144,
  /** Where the surface is steepest, the dose is too little to mark. Only `surfaceCheck` knows. */
  tooSteepToMark: 524288,
} as const;

/** What {@link focusCheck} finds. It is advice: a test piece comes first. */
export interface Verdict {
  /** Whether the drawing holds. */
  readonly outcome: Outcome;
  /** The outcome in one sentence for the person at the machine. */
  readonly summary: string;
  /** Why, one sentence for each reason, in a fixed order. */
  readonly reasons: readonly string[];
  /** The same reasons as a sum of bits; see {@link reasonBit}. */
  readonly reasonBits: number;
  /** What an ideal lens makes of the beam. */
  readonly focused: FocusedBeam;
  /**
   * What the real lens makes of it, with the waist `real.power86` on which the verdict then rests; `null` if the
   * job takes its lens for ideal, and the verdict rests on `focused`.
   */
  readonly real: (SingletFocus & { readonly power86: AberratedWaist }) | null;
  /** The outcome of the same job with its lens taken for ideal: what the ideal lens would have promised. */
  readonly promised: Outcome;
  /** The waist on which the verdict rests, relative to the datum; `towardLens`: the waist is above the datum. */
  readonly focusZ: Offset;
  /**
   * The depth of focus by the job's criterion, relative to the waist; `null` if the waist is larger
   * than the largest diameter allowed.
   */
  readonly depth: FocusRange | null;
  /**
   * The heights at which the finest stroke and gap both hold, relative to the waist; `null` if they
   * do not even hold there, or nothing marks.
   */
  readonly detailRange: FocusRange | null;
  /**
   * The heights at which the text keeps its grade, relative to the waist; `null` if it does not even there or
   * nothing marks, if the job has no text, or if it asks for nothing.
   */
  readonly textRange: FocusRange | null;
  /** Fill dose over the dose at which the material just marks. */
  readonly doseRatio: number;
  /** Dose of the scan in the waist; `null` if the job gives its dose as a ratio. */
  readonly scan: ScanDose | null;
  /**
   * Depth that an even fill digs at its mean dose, whatever the height (where the fill is striped the depth
   * follows its ripple); 0 if nothing marks; `null` for a coating or a melt, which tell none, or if the job
   * gives its dose as a ratio.
   */
  readonly fillDepth: Length | null;
  /** The place of the surface nearest the lens. */
  readonly highest: Place;
  /** The datum of the surface. */
  readonly datum: Place;
  /** The place of the surface farthest from the lens. */
  readonly lowest: Place;
  /**
   * Where to put the waist relative to the datum so that the worst growth is least; `towardLens`:
   * above the datum.
   */
  readonly bestFocusZ: Offset;
  /** Growth at both ends of the surface if focus is set there. */
  readonly bestWorstGrowth: number;
  /** How far the numbers may be trusted: the raw and the focused cone, and the real lens. */
  readonly validity: Validity;
}

/**
 * Every outcome, in the order of its code, which counts from 1.
 *
 * @internal
 */
export const outcomes: readonly Outcome[] = ["holds", "holds out of focus", "lost", "nothing marks"];
const summaries = outcomes.map((_, i) => core.outcome_text(i + 1));
const reasonTexts = Object.values(reasonBit).map((bit): [number, string] => [bit, core.reason_text(bit)]);

/**
 * A raw beam in the model's order: code, diameter at the lens, waist diameter, waist to lens.
 *
 * @internal
 */
export function rawBeamNumbers(raw: RawBeam): [number, number, number, number] {
  switch (raw?.by) {
    case "collimated":
      return [1, raw.atLens?.diameter1e2, NaN, NaN];
    case "waist":
      return [2, NaN, raw.waist?.diameter1e2, distanceToLens(raw.waistAt)];
    case "expanded":
      return [3, NaN, raw.waist?.diameter1e2, NaN];
    default:
      return [0, NaN, NaN, NaN];
  }
}

/**
 * An expander in the model's order: waist to expander, magnification, exit power, expander to lens.
 *
 * @internal
 */
export function expanderNumbers(raw: RawBeam): [number, number, number, number] {
  if (raw?.by !== "expanded") return [NaN, NaN, NaN, NaN];
  return [distanceToLens(raw.waistAt), raw.magnification, raw.exitPower, raw.expanderToLens];
}

/**
 * A job's lens in the model's order: code, glass, shape, shape factor, clear aperture.
 *
 * @internal
 */
export function lensNumbers(singlet: JobSinglet | undefined): LensNumbers {
  if (singlet === undefined) return [1, 0, 0, NaN, NaN];
  // What is no object is no kind of lens.
  if (typeof singlet !== "object" || singlet === null) return [0, 0, 0, NaN, NaN];
  return [2, glassCode(singlet.glass), ...shapeNumbers(singlet.shape), apertureNumber(singlet.clearAperture)];
}

/** What a job's material is if nothing is said of it. */
const coating: Response = { kind: "coating" };

/**
 * A dose in the model's order: code, dose ratio, power, speed, line interval, threshold, and the four numbers of
 * the response.
 *
 * @internal
 */
export function doseNumbers(
  dose: JobDose,
): [number, number, number, number, number, number, number, number, number, number] {
  switch (dose?.by) {
    case "ratio":
      return [1, dose.doseRatio, NaN, NaN, NaN, NaN, 0, NaN, NaN, NaN];
    case "scan": {
      const { power, speed, lineInterval, threshold, response = coating } = dose;
      return [2, NaN, power, speed, lineInterval, threshold, ...responseNumbers(response)];
    }
    default:
      return [0, NaN, NaN, NaN, NaN, NaN, 0, NaN, NaN, NaN];
  }
}

/**
 * A text in the model's order: code, typeface and its four shares, em, least grade, the three cut-offs.
 *
 * @internal
 */
export function textNumbers(
  text: JobText | undefined,
): [number, number, number, number, number, number, number, number, number, number, number] {
  if (text === undefined) return [1, 0, NaN, NaN, NaN, NaN, NaN, 0, NaN, NaN, NaN];
  // What is no object is no text.
  if (typeof text !== "object" || text === null) return [0, 0, NaN, NaN, NaN, NaN, NaN, 0, NaN, NaN, NaN];
  const { typeface, em, leastGrade, grades } = text;
  return [2, ...typefaceNumbers(typeface), em, gradeCode(leastGrade), ...gradeNumbers(grades)];
}

/** A focus setting in the model's order: code, place of the waist, lens to surface. */
function focusNumbers(focus: FocusSetting): [number, number, number] {
  switch (focus?.by) {
    case "datum":
      return [1, focus.waistZ?.zAwayFromLens, NaN];
    case "lens height":
      return [2, NaN, focus.lensToSurface];
    default:
      return [0, NaN, NaN];
  }
}

/** A number that the model gives; `null` where it says "none" with NaN. */
function orNull<Kind extends number>(value: Kind): Kind | null {
  return Number.isNaN(value) ? null : value;
}

function diameterOrNull(value: Length): Diameter | null {
  return Number.isNaN(value) ? null : diameter(value);
}

/**
 * A place from its seventeen outputs.
 *
 * @internal
 */
export function placeFrom(out: Float64Array): Place {
  return {
    zOffset: signedOffset(out[0] as Length),
    spotDiameter: out[1] as Length,
    growth: out[2] as number,
    irradianceRatio: out[3] as number,
    lineDoseRatio: out[4] as number,
    seenSpotDiameter: out[5] as Length,
    smallestStroke: orNull(out[6] as Length),
    smallestGap: orNull(out[7] as Length),
    smallestDot: diameterOrNull(out[8] as Length),
    smallestHole: diameterOrNull(out[9] as Length),
    rippleContrast: orNull(out[10] as number),
    smallestText: Number.isNaN(out[11]) ? null : smallestTextFrom(out.subarray(11)),
    textGrade: gradeFrom(out[14] as number),
    detailsHold: out[15] === 1,
    inDepth: out[16] === 1,
  };
}

/** A range from three outputs and, elsewhere, half angle and flags; the model says "none" with NaN. */
function rangeOrNull(out: Float64Array, start: number, cone: number): FocusRange | null {
  if (Number.isNaN(out[start])) return null;
  return rangeFrom(Float64Array.of(out[start]!, out[start + 1]!, out[start + 2]!, out[cone]!, out[cone + 1]!));
}

/**
 * Checks whether a drawing's finest stroke, gap and text hold over a surface, and says why.
 *
 * The surface is given by its datum, the height that the operator calls zero, and by how far it
 * rises toward the lens and falls away from it. The optics are those of an ideal lens, or of a real
 * one (`singlet`), whose 86.5 %-power spot counts; the details are those of a raster fill, of the spot as the
 * material sees it. What those do not model is not in the verdict either.
 *
 * Accuracy: the optics at most 0.75 ulp (units in the last place) of the exact result of its formula; fits
 * of a real lens, details and doses at most 6 ulp, a real lens's peak irradiance and dwell 12; ripple 8 ulp,
 * text, ranges and the depth of the fill 4 ulp, times factors where they are about to vanish.
 *
 * @throws {@link SpotwiseError} for an unknown choice, then for a field outside its range, optics
 * first; with code 4 if the raw or focused half angle exceeds 0.3 rad, if the waist is virtual, so
 * that nothing is in focus behind the lens (parameter 43, "lens to waist"), if the surface
 * reaches the lens (parameter 44, "lens to highest place"), if the aberration is too strong for a
 * verdict (parameter 53, "normalised aberration"), or if the aperture of a real lens is below 1.2 beam
 * diameters (parameter 55, "clipping ratio") or its Rayleigh range above a fifth of the distance to the
 * waist (parameter 11, "Rayleigh range"), or if the interval exceeds 20 radii of the spot (parameter 87) or the
 * scan's dose ratio leaves 1e-6 to 1e6 (parameter 130). A largest diameter below the waist is
 * no error but a finding, {@link reasonBit}.noDepth, and so is a dose too little to mark.
 */
export function focusCheck(job: Job): Verdict {
  const given = jobParts(job);
  return verdictFrom(call(core.focus_check, ...given.numbers), given);
}

/**
 * What makes a job, read once: its numbers in the model's order, and what of it a verdict repeats.
 *
 * @internal
 */
export interface JobParts {
  readonly numbers: JobNumbers;
  readonly wavelength: Length;
  readonly m2: PureNumber;
  readonly lens: LensNumbers;
}

type LensNumbers = [number, number, number, number, number];
type JobNumbers = Parameters<typeof core.focus_check>;

/** @internal */
export function jobParts(job: Job): JobParts {
  const { wavelength, m2, rawBeam } = job ?? {};
  const lens = lensNumbers(job?.singlet);
  const numbers: JobNumbers = [
    wavelength,
    m2,
    ...rawBeamNumbers(rawBeam),
    job?.focalLength,
    ...focusNumbers(job?.focus),
    job?.surfaceRise,
    job?.surfaceFall,
    ...criterionNumbers(job?.criterion),
    job?.finestStroke,
    job?.finestGap,
    ...doseNumbers(job?.dose),
    ...expanderNumbers(rawBeam),
    ...lens,
    ...textNumbers(job?.text),
  ];
  return { numbers, wavelength, m2, lens };
}

/**
 * A verdict from its outputs.
 *
 * @internal
 */
export function verdictFrom(out: Float64Array, { wavelength, m2, lens }: JobParts): Verdict {
  const code = out[0] as number;
  const reasonBits = out[1] as number;
  const focused = focusedFrom(wavelength, m2, out.subarray(2), out[109] as number);
  const [isReal, , , , aperture] = lens;
  const real = isReal === 2 ? singletFocusFrom(focused, aperture, out.subarray(80), out[110] as number) : null;
  return {
    outcome: outcomes[code - 1] as Outcome,
    summary: summaries[code - 1] as string,
    reasons: reasonTexts.filter(([bit]) => (reasonBits & bit) !== 0).map(([, text]) => text),
    reasonBits,
    focused,
    // A verdict without that waist is refused.
    real: real as Verdict["real"],
    promised: outcomes[(out[79] as number) - 1] as Outcome,
    focusZ: signedOffset(out[10] as Length),
    depth: rangeOrNull(out, 11, 103),
    detailRange: rangeOrNull(out, 14, 105),
    textRange: rangeOrNull(out, 17, 107),
    doseRatio: out[20] as number,
    scan: Number.isNaN(out[21]) ? null : scanDoseFrom(out.subarray(21)),
    fillDepth: orNull(out[25] as Length),
    highest: placeFrom(out.subarray(26)),
    datum: placeFrom(out.subarray(43)),
    lowest: placeFrom(out.subarray(60)),
    bestFocusZ: signedOffset(out[77] as Length),
    bestWorstGrowth: out[78] as number,
    validity: validityOf(out[102] as number),
  };
}
