/**
 * The compiled model, started once, and the ways to call it.
 *
 * The bytes of the WebAssembly module lie in the bundle, so that it starts without `await`,
 * network or file. Internal: nothing here is exported from the package.
 */

import * as core from "../dist/glue/spotwise_wasm.js";
import bytes from "../dist/glue/spotwise_wasm_bg.wasm";
import { SpotwiseError } from "./error.js";

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

/** Throws the last error of the model if a status says so. */
export function check(status: number): void {
  if (status === 0) return;
  throw new SpotwiseError(core.error_message(), {
    code: status,
    parameter: core.error_parameter(),
    parameterName: core.error_parameter_name(),
    value: core.error_value(),
    least: core.error_least(),
    greatest: core.error_greatest(),
  });
}

/**
 * Makes NaN of what is no number, since a caller without types may pass anything: the model
 * refuses NaN by name, while `null` or `"3"` would turn into a number silently.
 */
export function onlyNumbers<Inputs extends number[]>(inputs: Inputs): Inputs {
  for (let i = 0; i < inputs.length; i++) {
    if (typeof inputs[i] !== "number") inputs[i] = NaN;
  }
  return inputs;
}

/** Calls a compiled function and gives its outputs. Read them before the next call. */
export function call<Inputs extends number[]>(
  operation: (...inputs: Inputs) => number,
  ...inputs: Inputs
): Float64Array {
  check(operation(...onlyNumbers(inputs)));
  return current();
}

/** Calls a compiled function that turns text into one number. */
export function callWithText(operation: (text: string) => number, text: string): number {
  check(operation(String(text)));
  return current()[0] as number;
}
