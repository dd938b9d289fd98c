/** The blur budget: everything that widens the spot before the material sees it. */

import { call, core } from "./core.js";
import { orElse } from "./number.js";
import type { Diffusivity, Speed, Time } from "./scan_units.js";
import type { Length } from "./units.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/** What blurs a scan. What is left out blurs nothing. */
export interface Blur {
  /** The spot **across** the scan, 1 nm to 10 m. */
  readonly spotAcross: BeamWidth;
  /** The spot **along** the scan, 1 nm to 10 m. */
  readonly spotAlong: BeamWidth;
  /** Speed along the scan, 1 nm/s to 10 km/s. */
  readonly speed: Speed;
  /** Thermal diffusivity of the part, 0 to 0.01 m²/s. */
  readonly diffusivity?: Diffusivity | undefined;
  /** Side of the square pixels that are burnt as boxes, 0 to 1 m. */
  readonly pixel?: Length | undefined;
  /** Standard deviation of the jitter of the spot each way, 0 to 1 m. */
  readonly jitterDeviation?: Length | undefined;
  /** Rise time of the power from 10 % to 90 %, 0 to 1 s. */
  readonly riseTime?: Time | undefined;
  /** By how much the power lags behind the motion, 0 to 1 s. */
  readonly switchDelay?: Time | undefined;
}

/** The sum of a {@link Blur}. */
export interface BlurBudget {
  /** For how long the spot dwells. */
  readonly dwell: Time;
  /** How far heat spreads over the dwell, √(4·κ·t). */
  readonly diffusionLength: Length;
  /** The spot across the scan with all blurs. */
  readonly spotAcross: BeamWidth;
  /** The spot along the scan with all blurs. */
  readonly spotAlong: BeamWidth;
  /** Width of an edge that runs along the scan, 10 % to 90 % of the dose. */
  readonly edgeAcross: Length;
  /** Width of an edge that lies across the scan, 10 % to 90 % of the dose. */
  readonly edgeAlong: Length;
  /** Way of the spot while the power rises. */
  readonly riseSmear: Length;
  /** Way of the spot while the power lags, by which an edge is shifted. */
  readonly delayShift: Length;
  /** Offset of edges between lines burnt to and fro. */
  readonly twoWayComb: Length;
}

/**
 * Adds up what blurs a scan, across and along: each part counts by four times its variance.
 *
 * That the sum acts as a Gaussian is an approximation where pixels or rise are not small, and the heat a rule
 * of order, not of digits. Heat left by earlier lines and melt flow are not modelled.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result.
 *
 * @throws {@link SpotwiseError} for a value outside its range.
 */
export function blurBudget(blur: Blur): BlurBudget {
  const out = call(
    core.blur_budget,
    blur?.spotAcross?.diameter1e2,
    blur?.spotAlong?.diameter1e2,
    blur?.speed,
    orElse(blur?.diffusivity, 0),
    orElse(blur?.pixel, 0),
    orElse(blur?.jitterDeviation, 0),
    orElse(blur?.riseTime, 0),
    orElse(blur?.switchDelay, 0),
  );
  return {
    dwell: out[0] as Time,
    diffusionLength: out[1] as Length,
    spotAcross: diameter1e2(out[2] as Length),
    spotAlong: diameter1e2(out[3] as Length),
    edgeAcross: out[4] as Length,
    edgeAlong: out[5] as Length,
    riseSmear: out[6] as Length,
    delayShift: out[7] as Length,
    twoWayComb: out[8] as Length,
  };
}
