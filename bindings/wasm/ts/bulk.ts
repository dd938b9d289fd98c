/** Plain numbers in bulk, which pass through the module's memory as `Float64Array`s. */

import { errorCode, SpotwiseError } from "./error.js";
import { described } from "./number.js";

/** Places that go through the module's memory at once: it grows with them and never shrinks. */
export const SLICE = 65_536;

/** By its tag, since an array of another realm (a frame, a test's sandbox) has another constructor. */
export function isFloat64Array(given: unknown): given is Float64Array {
  return ArrayBuffer.isView(given) && Object.prototype.toString.call(given) === "[object Float64Array]";
}

/**
 * Refuses what is no array of metres, in the name of this parameter.
 *
 * @throws {@link SpotwiseError} with code 1.
 */
export function refuseOther(given: Float64Array, parameter: number, parameterName: string): void {
  if (isFloat64Array(given)) return;
  const details = { parameter, parameterName, value: NaN, least: NaN, greatest: NaN };
  const message = `${parameterName} = ${described(given)} is not a Float64Array of metres`;
  throw new SpotwiseError(message, { code: errorCode.notFinite, ...details });
}
