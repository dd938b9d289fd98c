/** The one error of the package. */

/** Marks an error of any copy of this package: its ES and its CommonJS module may meet in one program. */
const brand = Symbol.for("spotwise error");

/** Permanent numbers of the errors, the same on every face of spotwise. */
export const errorCode = {
  /** The value is NaN, infinite or no number at all. */
  notFinite: 1,
  /** The value is finite but outside its range. */
  outOfRange: 2,
  /** A choice that does not exist. */
  unknownChoice: 3,
  /** Each value is allowed by itself, yet together they leave the domain of the model. */
  outsideModel: 4,
  /** The beam never reaches what was asked for. */
  unreachable: 5,
  /** An array of results is not as long as the array of inputs. */
  lengthMismatch: 6,
  /**
   * What was given is no quantity: a text that is not a number followed by a unit of the wanted
   * kind, or something else than a number for a unit, as in `mm("")`.
   */
  notAQuantity: 7,
  /** The data cannot tell what was asked for, such as a threshold from too few test marks. */
  undetermined: 8,
  /** The progress function said that the work shall stop; `value` is the share that was done. */
  stopped: 9,
} as const;

/** What an error says besides its message. */
export interface ErrorDetails {
  /** Permanent number of the error; see {@link errorCode}. */
  readonly code: number;
  /** Permanent number of the parameter that was refused; 0 for what has none, as a path or a font. */
  readonly parameter: number;
  /** Its name in plain words, such as `"waist diameter"`. */
  readonly parameterName: string;
  /** The value that was refused, in SI units; NaN where it was no number. */
  readonly value: number;
  /** Least value that would have been accepted, in SI units; NaN where it was no number. */
  readonly least: number;
  /** Greatest value that would have been accepted, in SI units; NaN where it was no number. */
  readonly greatest: number;
}

/**
 * Why an input was refused: which parameter, its value, and what is allowed.
 *
 * The message says all of it in words, the same on every face of spotwise:
 * `"M squared = 0.9 is out of range (must be from 1 to 10000)"`.
 */
export class SpotwiseError extends Error implements ErrorDetails {
  override readonly name = "SpotwiseError";
  /** Permanent number of the error; see {@link errorCode}. */
  readonly code: number;
  /** Permanent number of the parameter that was refused; 0 for what has none, as a path or a font. */
  readonly parameter: number;
  /** Its name in plain words, such as `"waist diameter"`. */
  readonly parameterName: string;
  /** The value that was refused, in SI units; NaN where it was no number. */
  readonly value: number;
  /** Least value that would have been accepted, in SI units; NaN where it was no number. */
  readonly least: number;
  /**
   * Greatest value that would have been accepted, in SI units; NaN where it was no number, `Number.MAX_VALUE` where
   * none is the greatest. A distance from a crown must be less than it.
   */
  readonly greatest: number;

  /** Made by the package; a program only catches it. */
  constructor(message: string, details: ErrorDetails) {
    super(message);
    this.code = details.code;
    this.parameter = details.parameter;
    this.parameterName = details.parameterName;
    this.value = details.value;
    this.least = details.least;
    this.greatest = details.greatest;
  }

  /** @internal */
  get [brand](): true {
    return true;
  }

  /** Errors of every copy of this package are instances of each copy's class. */
  static override [Symbol.hasInstance](value: unknown): value is SpotwiseError {
    // A class derived from this one inherits the method, but has only its own instances.
    if (this !== SpotwiseError) return Function.prototype[Symbol.hasInstance].call(this, value);
    return typeof value === "object" && value !== null && brand in value;
  }
}
