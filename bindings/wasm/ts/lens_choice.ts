/** Which lens serves a job best, why, and where another would. */

import {
  doseNumbers,
  expanderNumbers,
  lensNumbers,
  outcomes,
  placeFrom,
  rawBeamNumbers,
  textNumbers,
  type Job,
  type JobSinglet,
  type Outcome,
  type Place,
} from "./check.js";
import { callWithList, core, refusedLens } from "./core.js";
import { crossingFrom, type Crossing } from "./crossing.js";
import type { SpotwiseError } from "./error.js";
import { criterionNumbers } from "./focus.js";
import { signedOffset, type Offset } from "./place.js";
import type { Length } from "./units.js";
import { validityOf, type Validity } from "./validity.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/** A job without its lens and focus: what every lens is asked to serve. A whole {@link Job} will do. */
export type JobForAnyLens = Omit<Job, "focalLength" | "singlet" | "focus">;

/** A lens that might serve a job. */
export interface LensCandidate {
  /** Focal length at the working wavelength, 10 µm to 10 km. */
  readonly focalLength: Length;
  /** What else is known of the lens; left out, it is taken for ideal, and looks better than it is. */
  readonly singlet?: JobSinglet | undefined;
  /**
   * From the lowest part of lens, mount and nozzle to a flat surface in focus, 0 to 10 km. One greater than from the
   * lens to its focus is flagged, {@link lensReasonBit}.
   */
  readonly workingDistance: Length;
}

/** What comes on top of the surface of a job, and what must be left of the working distance. */
export interface SetUp {
  /**
   * **Half** width of all errors of height together, 0 to 1 km: it widens the surface at both ends.
   * {@link toleranceStack} tells it, as the greater distance of its two ends, worst or expanded: its half width alone
   * leaves the bias out.
   */
  readonly tolerance: Length;
  /** Least clearance over the highest place, 0 to 10 km. */
  readonly leastClearance: Length;
}

/** Permanent bits of the reasons in {@link LensRanking.reasonBits}, the same on every face of spotwise. */
export const lensReasonBit = {
  /** Every detail holds over the whole surface, tolerance included, and the clearance is enough. */
  serves: 1,
  /** The finest stroke or gap is lost even in the waist. */
  spotTooLarge: 2,
  /** Stroke and gap hold in the waist, but one is lost at the worst places. */
  depthTooShort: 4,
  /** The text lacks its grade even in the waist. */
  textTooSmall: 8,
  /** The text keeps its grade in the waist, but not at the worst places. */
  textLostOffFocus: 16,
  /** The lines of the fill leave gaps in the waist, where the spot is smallest. */
  fillHasGaps: 32,
  /** The dose is too little for the material. */
  nothingMarks: 64,
  /** The worst places are outside the depth of focus. */
  outOfFocus: 128,
  /** The clearance over the highest place is less than the least. */
  clearanceTooSmall: 256,
  /** The model cannot judge this lens on this job, its light, its fill or a collision; `refused` says why. */
  refused: 512,
  /** No lens has a smaller spot in focus. */
  smallestInFocus: 1024,
  /** No lens has a smaller spot at the worst places. */
  smallestOnSurface: 2048,
  /** No lens has a greater depth of focus. */
  deepest: 4096,
  /**
   * The working distance is greater than from the lens to its focus. So it may be of a group of lenses, whose principal
   * plane may lie below its mount; of a single lens one of the two lengths is wrong, and then the clearance is too.
   * It does not change the order.
   */
  workingDistanceBeyondFocus: 8192,
} as const;

/** What a lens does on the surface of a job, focus at mid-height. */
export interface LensFindings {
  /** What {@link focusCheck} says of it. */
  readonly outcome: Outcome;
  /** The spot in focus, that of 86.5 % of the power for a real lens. */
  readonly spotInFocus: BeamWidth;
  /** Distance from the waist at which its width has grown by √2. */
  readonly rayleighRange: Length;
  /** From the lens to the waist. */
  readonly lensToWaist: Length;
  /**
   * The depth of focus from end to end by the job's criterion; `null` if the waist is larger than the largest
   * diameter allowed.
   */
  readonly depthFull: Length | null;
  /** The worst places: the lower one, which is as far from the waist as the upper one. */
  readonly worst: Place;
  /**
   * By how much farther the surface might reach to either side with stroke, gap and text still holding,
   * **negative** by how much too far it does; `null` if they do not even hold in the waist.
   */
  readonly spareHalfSpan: Length | null;
  /** What is left between the lowest part of the head and the highest place; **negative** if they collide. */
  readonly clearance: Length;
  /** How far the numbers may be trusted. */
  readonly validity: Validity;
}

/** Where a lens stands among the others. */
export interface LensRanking {
  /** Its place in the order, 1 for the best. */
  readonly rank: number;
  /** Why, one sentence for each reason, in a fixed order. */
  readonly reasons: readonly string[];
  /** The same reasons as a sum of bits; see {@link lensReasonBit}. */
  readonly reasonBits: number;
  /** What it does; `null` if the model cannot follow its light. */
  readonly found: LensFindings | null;
  /** Why the model cannot follow its light; `null` if it can. */
  readonly refused: SpotwiseError | null;
}

/** What a choice of lenses comes to. */
export interface LensChoice {
  /** How many lenses serve. */
  readonly serving: number;
  /** The place of the first in order among the candidates, from 0 on. It serves if any does. */
  readonly best: number;
  /** One for each lens, in the order in which they were named. */
  readonly rankings: readonly LensRanking[];
  /** Where focus is set relative to the datum: at mid-height of the surface. `towardLens`: above the datum. */
  readonly focusZ: Offset;
  /** How far the worst places lie from the waist, tolerance included. */
  readonly halfSpan: Length;
  /**
   * Where the spots of the first two in order are equally large; `null` if one is smaller everywhere, or if there
   * are not two.
   */
  readonly crossing: Crossing | null;
  /**
   * The span of the surface, from its highest to its lowest place without the tolerance, at which the worst spots
   * of these two swap; `null` if no span does that.
   */
  readonly flipSpan: Length | null;
}

const reasonTexts = Object.values(lensReasonBit).map((bit): [number, string] => [bit, core.lens_reason_text(bit)]);

/** Numbers of a job without lens and focus, and of the set-up. */
const JOB = 41;
/** Numbers of one ranking. */
const RANKING = 29;

/** A lens in the model's order: focal length, code, glass, shape, shape factor, clear aperture, working distance. */
function candidateNumbers(lens: LensCandidate): number[] {
  // Null is no lens; nothing of it is a number.
  const { focalLength, singlet, workingDistance } = lens ?? ({} as Partial<LensCandidate>);
  return [focalLength as number, ...lensNumbers(singlet), workingDistance as number];
}

function orNull(value: number): Length | null {
  return Number.isNaN(value) ? null : (value as Length);
}

function findingsFrom(out: Float64Array): LensFindings {
  return {
    outcome: outcomes[(out[4] as number) - 1] as Outcome,
    spotInFocus: diameter1e2(out[5] as Length),
    rayleighRange: out[6] as Length,
    lensToWaist: out[7] as Length,
    depthFull: orNull(out[8] as number),
    worst: placeFrom(out.subarray(9)),
    spareHalfSpan: orNull(out[26] as number),
    clearance: out[27] as Length,
    validity: validityOf(out[28] as number),
  };
}

function rankingFrom(out: Float64Array, place: number): LensRanking {
  const reasonBits = out[1] as number;
  const refused = refusedLens(place);
  return {
    rank: out[0] as number,
    reasons: reasonTexts.filter(([bit]) => (reasonBits & bit) !== 0).map(([, text]) => text),
    reasonBits,
    found: refused === null ? findingsFrom(out) : null,
    refused,
  };
}

/**
 * Ranks the lenses that might serve a job, with reasons, and says where the first two would swap.
 *
 * Every lens has its focus at mid-height of the surface; the worst places lie (rise + fall)/2 + tolerance from the
 * waist. What a lens does there is what {@link focusCheck} says. The order: lenses that serve; those of which only
 * the clearance is too small; those with which a detail or the text is lost, the fill breaks up into its lines, or
 * nothing marks; those whose light the model cannot follow. Within each the smaller spot at the worst places goes
 * first, then the greater depth of focus, then the one named first. A lens whose light the model cannot follow
 * spoils nothing: its `refused` says why. A lens taken for ideal looks better than the same lens taken as it is.
 *
 * Accuracy: waist, Rayleigh range, crossing, clearance, depth and spans at most 0.75 ulp (units in the last place)
 * of the exact result; growth, line dose and diameters 2, irradiance 2.5; details and text 5 ulp, ripple 8 and
 * `spareHalfSpan` 4 ulp of the heights that hold, times the factors that {@link focusCheck} names.
 *
 * @param job - a whole {@link Job} will do; its own lens and focus are not looked at.
 * @param candidates - 1 to 8 lenses.
 * @throws {@link SpotwiseError} for a number of lenses that is none of these (parameter 188), then for an unknown
 * choice, then for a number outside its range, of the job, of the set-up, of the lenses one by one; with code 4 for
 * what {@link focusCheck} refuses of raw beam and dose, and for worst places more than 1 km from the waist
 * (parameter 22).
 */
export function chooseLens(job: JobForAnyLens, candidates: readonly LensCandidate[], setUp: SetUp): LensChoice {
  // What is no list holds no lenses.
  const lenses = Array.isArray(candidates) ? (candidates as readonly LensCandidate[]) : [];
  const { wavelength, m2, rawBeam } = job ?? {};
  const numbers: number[] = [
    wavelength,
    m2,
    ...rawBeamNumbers(rawBeam),
    job?.surfaceRise,
    job?.surfaceFall,
    ...criterionNumbers(job?.criterion),
    job?.finestStroke,
    job?.finestGap,
    ...doseNumbers(job?.dose),
    ...expanderNumbers(rawBeam),
    ...textNumbers(job?.text),
    setUp?.tolerance,
    setUp?.leastClearance,
    ...lenses.flatMap(candidateNumbers),
  ];
  const rankings = new Float64Array(lenses.length * RANKING);
  const operation = (all: number[]) =>
    core.choose_lens(Float64Array.from(all.slice(0, JOB)), Float64Array.from(all.slice(JOB)), rankings);
  const [serving, best, focusZ, halfSpan, offset, diameter, flipSpan] = callWithList(operation, numbers);
  return {
    serving: serving as number,
    best: best as number,
    rankings: lenses.map((_, place) => rankingFrom(rankings.subarray(place * RANKING), place)),
    focusZ: signedOffset(focusZ as Length),
    halfSpan: halfSpan as Length,
    crossing: crossingFrom(offset as number, diameter as number),
    flipSpan: orNull(flipSpan as number),
  };
}
