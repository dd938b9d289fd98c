/** The ripple of a raster fill: how even the dose is across the lines. */

import { call, core } from "./core.js";
import type { Length, PureNumber } from "./units.js";
import type { BeamWidth } from "./width.js";

/** The dose of a raster fill across its lines. */
export interface RasterRipple {
  /** Greatest dose over the mean, on a line. */
  readonly greatestOverMean: number;
  /** Least dose over the mean, midway between lines. */
  readonly leastOverMean: number;
  /** (Greatest − least)/(greatest + least). */
  readonly contrast: number;
  /** Mean fill dose over threshold at which no gap is left, where doses of neighbouring lines add up. */
  readonly gapFreeDoseRatio: number;
  /** The same where each line must mark by itself. Real materials lie between the two. */
  readonly gapFreeDoseRatioWithoutMemory: number;
  /** Line interval over spot **radius**. */
  readonly intervalOverRadius: number;
}

/**
 * Ripple of a raster fill, and the dose that leaves no gap. The mean dose does not depend on the spot, so
 * that a fill out of focus is as strong, and smoother.
 *
 * The dose across the lines is Jacobi's theta function (NIST Digital Library of Mathematical Functions,
 * 20.2), the sum of Gaussians over all lines. An interval of the spot radius leaves 1.4 %, one of the
 * diameter 57 %. With the pulse pitch as interval it tells the ripple along a line of pulses.
 *
 * Accuracy: at most 8 ulp (units in the last place) of the exact result.
 *
 * @param fill - `spot`: 1 nm to 10 m in 1/e² diameter; `lineInterval`: 1 nm to 1 m.
 * @throws {@link SpotwiseError} for a value outside its range; with code 4 if the interval exceeds 20 spot
 * radii: that is no fill.
 */
export function rasterRipple(fill: { readonly spot: BeamWidth; readonly lineInterval: Length }): RasterRipple {
  const out = call(core.raster_ripple, fill?.spot?.diameter1e2, fill?.lineInterval);
  return {
    greatestOverMean: out[0] as number,
    leastOverMean: out[1] as number,
    contrast: out[2] as number,
    gapFreeDoseRatio: out[3] as number,
    gapFreeDoseRatioWithoutMemory: out[4] as number,
    intervalOverRadius: out[5] as number,
  };
}

/**
 * The largest line interval whose ripple has at most this contrast, the inverse of {@link rasterRipple}.
 *
 * Accuracy: at most 8 ulp (units in the last place) of the exact result.
 *
 * @param fill - `spot`: 1 nm to 10 m in 1/e² diameter; `rippleContrast`: 1e-12 to 0.999999.
 * @throws {@link SpotwiseError} for a value outside its range.
 */
export function intervalForRipple(fill: {
  readonly spot: BeamWidth;
  readonly rippleContrast: PureNumber;
}): Length {
  return call(core.interval_for_ripple, fill?.spot?.diameter1e2, fill?.rippleContrast)[0] as Length;
}
