/** Plain numbers in bulk, which pass through the module's memory as `Float64Array`s. */

import { check, core } from "./core.js";
import { errorCode, SpotwiseError } from "./error.js";
import { described } from "./number.js";

/** Places that go through the module's memory at once: it grows with them and never shrinks. */
export const SLICE = 65_536;

/** By its tag, since an array of another realm (a frame, a test's sandbox) has another constructor. */
function isTagged(given: unknown, tag: string): boolean {
  return ArrayBuffer.isView(given) && Object.prototype.toString.call(given) === `[object ${tag}]`;
}

export function isFloat64Array(given: unknown): given is Float64Array {
  return isTagged(given, "Float64Array");
}

export function isUint8Array(given: unknown): given is Uint8Array {
  return isTagged(given, "Uint8Array");
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

/**
 * Refuses a place for results that is no array of this kind, or not as long as the array of inputs.
 *
 * @throws {@link SpotwiseError} with code 6.
 */
export function refuseOutput(out: Float64Array | Uint8Array, kind: "Float64Array" | "Uint8Array", length: number): void {
  if (isTagged(out, kind)) return check(core.same_length(out.length, length));
  const details = { parameter: 40, parameterName: "output length", value: NaN, least: length, greatest: length };
  const message = `output = ${described(out)} is not a ${kind} (must be one of ${length} elements)`;
  throw new SpotwiseError(message, { code: errorCode.lengthMismatch, ...details });
}
