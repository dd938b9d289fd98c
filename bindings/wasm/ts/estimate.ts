/** A number that a fit found, with what is known of it. */

/**
 * What a fit found of a quantity: the quantity, freed of bias, how far it may be trusted, and the range that holds it.
 *
 * A fit by least squares is off on the average, however good the data, where the law is curved: by about the curvature
 * times half the variance, which the fit can work out. No more is taken off than one deviation; where so much is, the data
 * are too weak for such a correction, and the range is to be read rather than the value.
 */
export interface Estimate<Value = number, Distance = Value> {
  /** The quantity. */
  readonly value: Value;
  /**
   * Its standard deviation; of a beam's width, that of its 1/e² (D4σ) **diameter**; of a divergence, that of its **full**
   * angle.
   */
  readonly deviation: Distance;
  /** Least of the range that holds the truth with the confidence asked for. */
  readonly least: Value;
  /** Greatest of that range. */
  readonly greatest: Value;
  /**
   * What was taken off the plain least-squares quantity, which is `value` and `bias` together; of what the deviation is.
   */
  readonly bias: Distance;
}

/** How many numbers one takes in a list of results. */
export const ESTIMATE = 5;

/** The estimate that starts at this place of a list of results. */
export function estimateAt<Value, Distance>(
  out: Float64Array,
  from: number,
  of: (number: number) => Value,
): Estimate<Value, Distance> {
  return {
    value: of(out[from] as number),
    deviation: out[from + 1] as Distance,
    least: of(out[from + 2] as number),
    greatest: of(out[from + 3] as number),
    bias: out[from + 4] as Distance,
  };
}
