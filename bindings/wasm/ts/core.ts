/**
 * The compiled model, started once, and the ways to call it.
 *
 * The bytes of the WebAssembly module lie in the bundle, so that it starts without `await`,
 * network or file. Internal: nothing here is exported from the package.
 */

import * as core from "../dist/glue/spotwise_wasm.js";
import bytes from "../dist/glue/spotwise_wasm_bg.wasm";
import { errorCode, SpotwiseError, type ErrorDetails } from "./error.js";
import { described, isNumber } from "./number.js";

const { memory } = core.initSync({ module: bytes });
const address = core.outputs();
let outputs = new Float64Array(memory.buffer, address);

/** The compiled functions, flat: numbers in the order of the model's list, a status out. */
export { core };

/** The outputs of the last call. A memory that grew has left the old view empty. */
function current(): Float64Array {
  if (outputs.length === 0) outputs = new Float64Array(memory.buffer, address);
  return outputs;
}

/** What the model says of its last error. */
function lastError(code: number): ErrorDetails {
  return {
    code,
    parameter: core.error_parameter(),
    parameterName: core.error_parameter_name(),
    value: core.error_value(),
    least: core.error_least(),
    greatest: core.error_greatest(),
  };
}

/** Throws the last error of the model if a status says so. */
export function check(status: number): void {
  if (status !== 0) throw new SpotwiseError(core.error_message(), lastError(status));
}

/** Why one of the lenses of the last choice is refused; `null` if it is not. */
export function refusedLens(place: number): SpotwiseError | null {
  const status = core.lens_refusal(place);
  return status === 0 ? null : new SpotwiseError(core.error_message(), lastError(status));
}

/**
 * Calls a compiled function and gives its outputs, a view that the next call overwrites. So read
 * every field of an input before: a field may be a getter, and a getter may call this package.
 */
export function call<Inputs extends number[]>(
  operation: (...inputs: Inputs) => number,
  ...inputs: Inputs
): Float64Array {
  if (inputs.every(isNumber)) check(operation(...inputs));
  else callWithOther((numbers) => operation(...(numbers as Inputs)), inputs);
  return current();
}

/** As {@link call}, for a function that takes a list of any length. */
export function callWithList(operation: (numbers: number[]) => number, numbers: number[]): Float64Array {
  if (numbers.every(isNumber)) check(operation(numbers));
  else callWithOther(operation, numbers);
  return current();
}

/**
 * As {@link call}, where a caller without types gave something else than a number. The model gets
 * NaN in its place and refuses that by name; the message then says what was given.
 */
function callWithOther(operation: (numbers: number[]) => number, given: readonly number[]): void {
  const numbers = given.map((input) => (isNumber(input) ? input : NaN));
  const status = operation(numbers);
  if (status === 0) return;
  const message = core.error_message();
  const details = lastError(status);
  if (status === errorCode.notFinite && Number.isNaN(details.value)) {
    // Which input was it? The one in whose place the model does not refuse Infinity as it does NaN.
    const sameRefusal = (probe: number[]) =>
      operation(probe) === status && core.error_parameter() === details.parameter && Number.isNaN(core.error_value());
    for (let i = 0; i < given.length; i++) {
      if (isNumber(given[i]) || sameRefusal(numbers.map((x, j) => (j === i ? Infinity : x)))) continue;
      const words = () => `${described(given[i])} is not a number`;
      throw new SpotwiseError(message.replace("NaN is not a finite number", words), details);
    }
  }
  throw new SpotwiseError(message, details);
}

/** Calls a compiled function that turns text into one number. What is no text holds no quantity either. */
export function callWithText(operation: (text: string) => number, text: string): number {
  check(operation(typeof text === "string" ? text : ""));
  return current()[0] as number;
}
