/**
 * The one strict reader of numbers. A caller without types may pass anything, and JavaScript would
 * make 0 of `""` and `null`, and 38.1 of `"38.1"`.
 */

import { errorCode, SpotwiseError } from "./error.js";

/** Whether something is a number at all. NaN and the infinities are; the model refuses them by name. */
export function isNumber(given: unknown): given is number {
  return typeof given === "number";
}

/** What was given, in few words. Runs no code of the caller's, which may call this package. */
export function described(given: unknown): string {
  switch (typeof given) {
    case "string":
      return JSON.stringify(given.length > 40 ? `${given.slice(0, 40)}…` : given);
    case "bigint":
      return `${given}n`;
    case "object":
      return given === null ? "null" : "an object";
    case "function":
      return "a function";
    case "symbol":
      return "a symbol";
    default:
      return String(given);
  }
}

/**
 * Gives the number that it is given.
 *
 * @throws {@link SpotwiseError} with code 7 for what is no number.
 */
export function number(given: number): number {
  if (isNumber(given)) return given;
  const advice = 'give a number, as in mm(38.1), or read text with its unit, as in length("38.1 mm")';
  throw new SpotwiseError(`${described(given)} is not a number here; ${advice}`, {
    code: errorCode.notAQuantity,
    parameter: 42,
    parameterName: "text",
    value: NaN,
    least: NaN,
    greatest: NaN,
  });
}

/**
 * Gives a number of the model's; `undefined` for NaN, with which it refuses one field of a result.
 */
export function orUndefined<Kind extends number>(value: Kind): Kind | undefined {
  return Number.isNaN(value) ? undefined : value;
}

/** What was given, or this number where nothing was. Only what is left out has a default: `null` has none. */
export function orElse<Kind extends number>(given: Kind | undefined, otherwise: number): number {
  return given === undefined ? otherwise : given;
}
