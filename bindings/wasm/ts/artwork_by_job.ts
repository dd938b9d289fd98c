/** The preflight of a drawing by a job: the laser, lens, focus and dose that {@link focusCheck} judges. */

import type { Artwork, MarkAnswer, PreflightJob, RasterScan } from "./artwork_job.js";
import { jobParts, type Job } from "./check.js";
import { callWithList, core } from "./core.js";
import { orElse } from "./number.js";
import { signedOffset } from "./place.js";
import type { Area } from "./scan_units.js";
import type { Surface } from "./shape.js";
import type { Length } from "./units.js";
import { diameter1e2 } from "./width.js";

/** What a preflight asks beyond a job. */
export interface JobMarking {
  /** Depth from which on a place of a bulk counts as marked; left out, any. */
  readonly visibleDepth?: Length | undefined;
  /** Width of the gaps that a melt closes; left out, none. */
  readonly bridge?: Length | undefined;
  /** Area below which a piece or a hole is a speck, as in {@link PreflightJob}; left out, none is. */
  readonly speckArea?: Area | undefined;
}

function answerFrom(out: Float64Array): MarkAnswer {
  switch (out[0]) {
    case 2:
      return { kind: "logarithmic ablation", penetrationDepth: out[1] as Length, visibleDepth: out[3] as Length };
    case 3:
      return { kind: "linear ablation", thresholdDepth: out[2] as Length, visibleDepth: out[3] as Length };
    case 4:
      return { kind: "melt", bridge: out[4] as Length };
    default:
      return { kind: "coating" };
  }
}

/**
 * What {@link preflight} is told of a drawing on a surface by a job, with the usual tolerance of edges.
 *
 * The beam is the job's focused one, behind a real lens that of its 86.5 %-power spot; of a scan come its lines, the
 * first half an interval from the edge, and the answer of its material: threshold dose over removal energy is the
 * threshold depth of a linear bulk, and the heat of a melt, while the spot dwells, a blur both ways. Rise and fall of the
 * job are tolerances of the set-up, and play no part: the drawing lies on the surface that is given.
 *
 * @throws {@link SpotwiseError} as {@link focusCheck}. Drawing, surface and marking are checked where they are used.
 */
export function preflightOfJob(job: Job, drawing: Artwork, surface: Surface, marking?: JobMarking): PreflightJob {
  const { numbers } = jobParts(job);
  const asked: number[] = [marking?.visibleDepth, marking?.bridge, marking?.speckArea].map((one) => orElse(one, 0));
  const out = callWithList((all) => core.preflight_of_job(Float64Array.from(all)), [...numbers, ...asked]);
  const length = (place: number) => out[place] as Length;
  const width = (place: number) => diameter1e2(length(place));
  const scan: RasterScan =
    out[7] === 2
      ? { kind: "along rows", lineInterval: length(8), firstLine: length(9) }
      : { kind: "unknown" };
  return {
    drawing,
    beam: { wavelength: length(0), m2: out[1] as PreflightJob["doseRatio"], waist: width(2) },
    focus: signedOffset(length(3)),
    surface,
    incidenceLoss: out[4] === 1,
    blur: { along: width(5), across: width(6) },
    scan,
    answer: answerFrom(out.subarray(10)),
    doseRatio: out[15] as PreflightJob["doseRatio"],
    edgeTolerance: length(16),
    speckArea: out[17] as Area,
  };
}
