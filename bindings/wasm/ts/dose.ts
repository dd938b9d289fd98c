/** Dose: how much energy a scan puts on each part of the surface. */

import { call, core } from "./core.js";
import type { Dose, Energy, Frequency, Irradiance, Power, Speed, Time } from "./scan_units.js";
import type { Length, PureNumber } from "./units.js";
import type { BeamWidth } from "./width.js";

/** A beam that scans a surface, line by line. */
export interface Scan {
  /** Power on the surface, averaged over pulses; 1 nW to 1 MW. */
  readonly power: Power;
  /** Speed of the spot along the line; 1 nm/s to 10 km/s. */
  readonly speed: Speed;
  /** The spot **across** the line; 1 nm to 10 m. */
  readonly spotAcross: BeamWidth;
  /** The spot **along** the line; the same as across if it is round. */
  readonly spotAlong: BeamWidth;
  /** From one line to the next; 1 nm to 1 m. {@link lineInterval} makes it from dots per inch. */
  readonly lineInterval: Length;
}

/** Dose of a {@link Scan}. */
export interface ScanDose {
  /** Dose on the middle of one line by itself. */
  readonly lineDose: Dose;
  /** Mean dose of a fill of such lines. It does not depend on the spot. */
  readonly fillDose: Dose;
  /** Irradiance on the axis of the spot. */
  readonly peakIrradiance: Irradiance;
  /** Line dose over peak irradiance. */
  readonly dwell: Time;
}

/** What the pulses of a {@link Scan} do one by one. */
export interface PulseDose {
  /** Energy of one pulse. */
  readonly pulseEnergy: Energy;
  /** Fluence of one pulse on the axis of the spot. */
  readonly peakFluence: Dose;
  /** From one pulse to the next along the line. */
  readonly pulsePitch: Length;
  /** One less the pitch over the diameter along the line; negative where the spots do not touch. */
  readonly overlap: number;
  /** Spot diameter along the line over pitch. */
  readonly pulsesPerDiameter: number;
  /** Line dose over peak fluence. */
  readonly effectivePulses: number;
}

/** A scan in the model's order: power, speed, diameter across, diameter along, line interval. */
function scanNumbers(scan: Scan): [number, number, number, number, number] {
  return [
    scan?.power,
    scan?.speed,
    scan?.spotAcross?.diameter1e2,
    scan?.spotAlong?.diameter1e2,
    scan?.lineInterval,
  ];
}

/**
 * The dose of a scan from its four outputs.
 *
 * @internal
 */
export function scanDoseFrom(out: Float64Array): ScanDose {
  return {
    lineDose: out[0] as Dose,
    fillDose: out[1] as Dose,
    peakIrradiance: out[2] as Irradiance,
    dwell: out[3] as Time,
  };
}

/**
 * Line dose, fill dose, peak irradiance and dwell of a scan: of a continuous beam, and of the mean of a
 * pulsed one.
 *
 * Line dose √(2/π)·P/(v·w), fill dose P/(v·p), peak irradiance 2·P/(π·w·w), dwell √(π/2)·w/v, with w half
 * the 1/e² diameter across or along the line. Losses behind the power that is given are not modelled.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result.
 *
 * @throws {@link SpotwiseError} for a value outside its range.
 */
export function scanDose(scan: Scan): ScanDose {
  return scanDoseFrom(call(core.scan_dose, ...scanNumbers(scan)));
}

/**
 * Energy, fluence, pitch and overlap of the pulses of a scan.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the exact result; the overlap at most
 * 4 ulp times 1/|overlap|.
 *
 * @param repetitionRate - 1 mHz to 1 THz.
 * @throws {@link SpotwiseError} for a value outside its range.
 */
export function pulseDose(scan: Scan, repetitionRate: Frequency): PulseDose {
  const out = call(core.pulse_dose, ...scanNumbers(scan), repetitionRate);
  return {
    pulseEnergy: out[0] as Energy,
    peakFluence: out[1] as Dose,
    pulsePitch: out[2] as Length,
    overlap: out[3] as number,
    pulsesPerDiameter: out[4] as number,
    effectivePulses: out[5] as number,
  };
}

/**
 * Dose over the dose at which a material just marks, the `doseRatio` of all else; above 1 the material
 * marks.
 *
 * Accuracy: at most 0.5 ulp (units in the last place) of the exact result.
 *
 * @param doses - both of one kind: line doses, fill doses or peak fluences; 1e-12 to 1e18 J/m².
 * @throws {@link SpotwiseError} for a value outside its range.
 */
export function doseOverThreshold(doses: { readonly dose: Dose; readonly threshold: Dose }): number {
  return call(core.dose_over_threshold, doses?.dose, doses?.threshold)[0] as number;
}

/**
 * The line interval of so many lines (dots) to the inch of 25.4 mm.
 *
 * Accuracy: at most 1 ulp (units in the last place) of the exact result.
 *
 * @param dotsPerInch - 0.0254 to 2.54e7.
 * @throws {@link SpotwiseError} for a value outside its range.
 */
export function lineInterval(dotsPerInch: PureNumber): Length {
  return call(core.line_interval, dotsPerInch)[0] as Length;
}

/**
 * The lines (dots) to the inch of a line interval, the inverse of {@link lineInterval}.
 *
 * Accuracy: at most 1 ulp (units in the last place) of the exact result.
 *
 * @param lineInterval - 1 nm to 1 m.
 * @throws {@link SpotwiseError} for a value outside its range.
 */
export function dotsPerInch(lineInterval: Length): number {
  return call(core.dots_per_inch, lineInterval)[0] as number;
}
