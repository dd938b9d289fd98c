/** Student's t and χ²: ranges that hold in a stated share of cases, and the chance that a fit is as bad as this. */

import { call, core } from "./core.js";
import type { PureNumber } from "./units.js";

/**
 * Half width of a range over the standard deviation that holds the truth with this confidence, where the deviation
 * is known from scatter alone: Student's t. For many degrees of freedom it is that of the normal law, 1.96 at 95 %.
 *
 * Accuracy: at most 8 ulp (units in the last place) of the exact result.
 *
 * @param confidence - share of cases in which the range is to hold the truth, 0.5 to 1 − 1e-12.
 * @param degreesOfFreedom - readings used less parameters fitted: a whole number, 1 to 100 000.
 * @throws {@link SpotwiseError} for a value outside its range, or degrees that are not whole.
 */
export function studentFactor(confidence: PureNumber, degreesOfFreedom: PureNumber): number {
  return call(core.student_factor, confidence, degreesOfFreedom)[0] as number;
}

/**
 * Chance of a χ² as great as this or greater, where readings scatter as their deviations say. Near 0 the fit is bad:
 * the model is wrong, or the deviations are too small. Near 1 it is too good: the deviations are too large.
 *
 * Accuracy: at most 12 ulp (units in the last place) of the exact result, times 1 + |d ln(chance)/d ln χ²|.
 *
 * @param chiSquared - sum of squared residuals over their variances, 0 to 1e100.
 * @param degreesOfFreedom - readings used less parameters fitted: a whole number, 1 to 100 000.
 * @throws {@link SpotwiseError} for a value outside its range, or degrees that are not whole.
 */
export function chiSquaredChance(chiSquared: PureNumber, degreesOfFreedom: PureNumber): number {
  return call(core.chi_squared_chance, chiSquared, degreesOfFreedom)[0] as number;
}
