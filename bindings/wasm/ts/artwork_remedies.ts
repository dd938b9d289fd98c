/** What would help a drawing, found by trying: how far focus may stray, how small it may be, which beam serves it best. */

import { windowFrom, type DoseWindow } from "./artwork.js";
import { outputsOf, preflightParts, watched, type OnProgress, type PreflightJob } from "./artwork_job.js";
import { beamNumbers, type Beam } from "./beam.js";
import { callWithList, core } from "./core.js";
import { orUndefined } from "./number.js";
import { signedOffset, type Offset } from "./place.js";
import type { Length } from "./units.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/** What must hold: `legible`, strokes whole and counters open; `apart`, neighbours apart as well. */
export type Demand = "legible" | "apart";

/** How far focus may be moved before a drawing no longer holds. */
export interface FocusReach {
  /** Farthest that the waist may lie nearer to the lens than it is. */
  readonly towardLens: Length;
  /** Farthest that it may lie farther from the lens. */
  readonly awayFromLens: Length;
  /** Whether it held as far toward the lens as was tried: four Rayleigh ranges. */
  readonly towardLensIsOpen: boolean;
  /** Whether it held as far away from the lens as was tried. */
  readonly awayFromLensIsOpen: boolean;
}

/** A beam to choose from, say that of another lens, and where its waist would be. */
export interface BeamToTry {
  /** The focused beam. */
  readonly beam: Beam;
  /** Where its waist would lie, from the datum of the surface. */
  readonly focus: Offset;
}

/** What a beam does for a drawing. */
export interface RankedBeam {
  /** Its place among the candidates, from 0. */
  readonly candidate: number;
  /** The doses between which the drawing keeps what it shows. */
  readonly window: DoseWindow;
  /** Greatest spot over the ink; `undefined` without any, and for a beam too fine for the scan lines. */
  readonly greatestSpot: BeamWidth | undefined;
}

/** A drawing without its own beam, focus and dose: each beam may need another dose. A whole {@link PreflightJob} will do. */
export type JobForAnyBeam = Omit<PreflightJob, "beam" | "focus" | "doseRatio" | "edgeTolerance">;

const demands: readonly string[] = ["legible", "apart"];
const RANKED = 7;

function demandCode(demand: Demand | undefined): number {
  return demands.indexOf(demand === undefined ? "legible" : demand) + 1;
}


/**
 * How far the focus may be moved to either side before the drawing no longer holds at its dose; `undefined` if it does
 * not hold as it is.
 *
 * Steps of a quarter Rayleigh range, up to four Rayleigh ranges, find the first that does not hold; halving then finds
 * the end to 1/128 of it. What is told held. Where scan lines lie farther apart than 2.5 of the least spot radius, which
 * may be so nearer to focus only, the drawing does not hold. The focus must stay within 1 km of the datum.
 *
 * @param demand - left out, `legible`.
 * @throws {@link SpotwiseError} as {@link preflight}.
 */
export function focusReach(job: PreflightJob, demand?: Demand, onProgress?: OnProgress): FocusReach | undefined {
  const { samples, lists, numbers } = preflightParts(job);
  const out = watched(onProgress, (tell) =>
    outputsOf((all) => core.focus_reach(samples, all, ...lists, tell), [...numbers, demandCode(demand)], 4),
  );
  const towardLens = out[0] as Length;
  if (Number.isNaN(towardLens)) return undefined;
  return {
    towardLens,
    awayFromLens: out[1] as Length,
    towardLensIsOpen: out[2] === 1,
    awayFromLensIsOpen: out[3] === 1,
  };
}

/**
 * The focus that makes the greatest spot over the ink least: half-way between the highest and the lowest place with ink.
 * From the datum of the surface.
 *
 * @throws {@link SpotwiseError} as {@link preflight}; with code 8 for a drawing without ink of known height (parameter
 * 219).
 */
export function bestFocus(job: PreflightJob, onProgress?: OnProgress): Offset {
  const { samples, lists, numbers } = preflightParts(job);
  const out = watched(onProgress, (tell) =>
    outputsOf((all) => core.best_focus(samples, all, ...lists, tell), numbers, 1),
  );
  return signedOffset(out[0] as Length);
}

/**
 * The smallest scale of the drawing about its middle at which it holds, 0.25 to 4, to 1.1 %; above 1 it must be made
 * larger. 0.25 if it holds down to that, `undefined` if it holds nowhere up to 4; where the model does not take these,
 * because of the pixels, a bridge or the area of specks, the ends are nearer to 1.
 *
 * The tolerance of edges plays no part in it, and specks keep their pixels. The pixels grow with the drawing: far above 1 they may be too coarse. A
 * drawing that reaches places of unknown height that it did not reach before does not hold, nor does one that reaches a
 * spot so fine that the scan lines lie farther apart than 2.5 of its radius. The lines of a raster that is burnt as it is
 * go with its rows, and the dose ratio stays that of its fills; those of other drawings stay as they are.
 *
 * @param demand - left out, `legible`.
 * @throws {@link SpotwiseError} as {@link preflight}.
 */
export function smallestScale(job: PreflightJob, demand?: Demand, onProgress?: OnProgress): number | undefined {
  const { samples, lists, numbers } = preflightParts(job);
  const out = watched(onProgress, (tell) =>
    outputsOf((all) => core.smallest_scale(samples, all, ...lists, tell), [...numbers, demandCode(demand)], 1),
  );
  return orUndefined(out[0] as number);
}

/** A job in which beam, focus, dose and tolerance say nothing, and the numbers of the beams. */
function rankingParts(job: JobForAnyBeam, beams: readonly BeamToTry[]) {
  // What is no list holds no beams.
  const given = Array.isArray(beams) ? (beams as readonly BeamToTry[]) : [];
  const beamOf = (one: BeamToTry) => [...beamNumbers(one?.beam), one?.focus?.zAwayFromLens as number];
  const whole = { ...job, beam: undefined, focus: undefined, doseRatio: 1, edgeTolerance: 0 };
  const parts = preflightParts(whole as unknown as PreflightJob);
  // Of the beam that no candidate replaces nothing is asked.
  const numbers = parts.numbers.map((number) => (number === undefined ? NaN : number));
  return { ...parts, given: [numbers, given.flatMap(beamOf)] as const, count: given.length };
}

/**
 * Ranks beams, say of several lenses, by the room that they leave the dose; the best comes first: the widest dose window
 * for all, then for strokes and counters, then the smaller greatest spot; among equals the earlier candidate.
 * Of a beam so fine that the scan lines lie farther apart than 2.5 of its radius nothing is told, and it comes after the
 * others.
 *
 * @throws {@link SpotwiseError} as {@link preflight}, for any of the beams.
 */
export function rankBeams(job: JobForAnyBeam, beams: readonly BeamToTry[], onProgress?: OnProgress): RankedBeam[] {
  const { samples, lists, given, count } = rankingParts(job, beams);
  const [numbers, candidates] = given;
  const ranking = new Float64Array(count * RANKED);
  watched(onProgress, (tell) =>
    callWithList(
      (all) => {
        const own = Float64Array.from(all.slice(0, numbers.length));
        const others = Float64Array.from(all.slice(numbers.length));
        return core.rank_beams(samples, own, ...lists, others, ranking, tell);
      },
      [...numbers, ...candidates],
    ),
  );
  return Array.from({ length: count }, (_, i) => {
    const one = ranking.subarray(i * RANKED, (i + 1) * RANKED);
    const greatest = orUndefined(one[6] as Length);
    return {
      candidate: one[0] as number,
      window: windowFrom(one.subarray(1)),
      greatestSpot: greatest === undefined ? undefined : diameter1e2(greatest),
    };
  });
}

/**
 * Bytes of the module's memory that {@link focusReach}, {@link smallestScale} or {@link rankBeams} takes, its inputs
 * included.
 *
 * @param beams - those of {@link rankBeams}, or what else is asked for.
 * @throws {@link SpotwiseError} as {@link preflight}, for what can be told before any work.
 */
export function remedyMemory(job: PreflightJob, what: "focus reach" | "smallest scale" | readonly BeamToTry[]): number {
  const remedies: readonly unknown[] = ["focus reach", "smallest scale"];
  const code = Array.isArray(what) ? 3 : remedies.indexOf(what) + 1;
  const beams = Array.isArray(what) ? (what as readonly BeamToTry[]) : [];
  const ranking = rankingParts(job, beams);
  const numbers = code === 3 ? ranking.given[0] : preflightParts(job).numbers;
  const out = callWithList(
    (all) => {
      const own = Float64Array.from(all.slice(0, numbers.length));
      const others = Float64Array.from(all.slice(numbers.length));
      return core.remedy_bytes(code, ranking.samples, own, ...ranking.lists, others);
    },
    [...numbers, ...ranking.given[1]],
  );
  return out[0] as number;
}
