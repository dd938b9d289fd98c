/** A calibrated set-up: what test pieces told of a machine, and jobs on that machine. */

import type { Beam } from "./beam.js";
import type { FocusSetting, Job, RawBeam } from "./check.js";
import { call, core } from "./core.js";
import type { MarkFit } from "./mark_fit.js";
import { orElse } from "./number.js";
import { inFocus, signedDownstream, signedOffset, type Offset } from "./place.js";
import type { Dose, Power, Speed } from "./scan_units.js";
import type { Contribution } from "./tolerance.js";
import type { Angle, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";
import { diameter1e2, type BeamWidth } from "./width.js";

/** Half width of a 95 % range over the standard deviation of a normal law, the same double on every face. */
export const normalFactor95 = 1.9599639845400543;

/** A line that the scan marks in the waist, and how far it is from not marking. */
export interface CalibratedLine {
  /** Power on the surface, averaged over pulses, 1 nW to 1 MW. */
  readonly power: Power;
  /** Speed along the line, 1 nm/s to 10 km/s. */
  readonly speed: Speed;
  /** Dose on the middle of the line in the waist over that at which the material just marks, 1.000001 to 1e6. */
  readonly doseRatio: PureNumber;
  /** Standard deviation of the dose ratio over itself, 0 to 10. */
  readonly relativeDeviation: PureNumber;
  /** Correlation of the logarithms of waist diameter and dose ratio, −1 to 1; left out, 0. */
  readonly correlation?: PureNumber | undefined;
}

/**
 * What test pieces told of a machine: plain numbers and objects, which a shop may keep as JSON beside its jobs.
 * {@link withCalibration} puts it into a job.
 */
export interface Calibration {
  /** Vacuum wavelength, 10 nm to 10 mm. */
  readonly wavelength: Length;
  /** Focal length of the lens that was used, at the working wavelength, 10 µm to 10 km. */
  readonly focalLength: Length;
  /**
   * Where the waist lies, from the focal point of the lens, up to 10 km; left out, at it. It changes the raw beam, and
   * with the same lens nothing else.
   */
  readonly focusShift?: Offset | undefined;
  /**
   * Where the waist lies, from the height that the heights of the test pieces count from: the datum of the jobs on this
   * machine. `inFocus` where the machine has been set to what the test pieces told.
   */
  readonly focus: Offset;
  /** Standard deviation of the height of focus, 0 to 1 km. */
  readonly focusDeviation: Length;
  /** Width at the waist as measured, 1 nm to 10 m. */
  readonly waist: BeamWidth;
  /** Standard deviation of its 1/e² **diameter**, 0 to 10 m. */
  readonly waistDiameterDeviation: Length;
  /** M² as measured, 0.01 to 1e4; it may be below 1 by noise, and then counts as 1. */
  readonly m2: PureNumber;
  /** Standard deviation of M², 0 to 1e4. */
  readonly m2Deviation: PureNumber;
  /**
   * Half width of a 95 % range over the deviations, 1.9 to 13: {@link normalFactor95}, which it is if left out, where the
   * deviations of the marks were known, the factor of Student's t where the scatter of the marks told them.
   */
  readonly coverageFactor95?: PureNumber | undefined;
  /** What the test pieces told of a line that marks the material; left out if they told the beam alone. */
  readonly line?: CalibratedLine | undefined;
}

/** The set-up in which a job gets the measured focus. */
export interface CalibratedSetUp {
  /** M² as measured, or 1 where noise has put it below. */
  readonly m2: number;
  /** The raw beam that the lens turns into the measured focus: by its waist. */
  readonly rawBeam: RawBeam & { readonly by: "waist" };
  /** Where focus is. */
  readonly focus: FocusSetting;
  /** The focused beam. */
  readonly focused: Beam;
  /** Width of the raw beam where it meets the lens. */
  readonly widthAtLens: BeamWidth;
  /** Rayleigh range of the focus. */
  readonly rayleighRange: Length;
  /** Standard deviation of a normal law with the same 95 % range of the height of focus. */
  readonly focusDeviation: Length;
  /** Greatest 1/e² **half** angle before and behind the lens. */
  readonly halfAngle: Angle;
  /** How far the paraxial formulas may be trusted. */
  readonly validity: Validity;
}

/** The dose at which the material just marks, as test pieces told it. */
export interface LearnedThreshold {
  /** Line dose at which the material just marks; also its fill dose. */
  readonly threshold: Dose;
  /** Standard deviation over the threshold of a normal law with the same 95 % range. */
  readonly relativeDeviation: number;
}

/**
 * The set-up of which the focus is the one that test pieces found.
 *
 * Light goes its way backwards as well: the raw beam is what the lens makes of the measured focus, sent back through it.
 * Aberration and clipping are in the measured focus already, so the lens counts as ideal. An M² below 1 is taken for 1
 * where its 95 % range reaches 1.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @throws {@link SpotwiseError} for a value outside its range; with code 4 for an M² below 1 even at the end of its 95 %
 * range (parameter 234, "measured M squared"): mark widths taken for beam widths, a radius for a diameter, or a deviation
 * stated too small; for a half angle above 0.3 rad, and a waist at the lens or before it.
 */
export function calibratedSetUp(calibration: Calibration): CalibratedSetUp {
  const { wavelength, m2, m2Deviation, waist, focalLength, focusShift, focus, focusDeviation, coverageFactor95 } =
    calibration ?? {};
  const out = call(
    core.calibrated_set_up,
    wavelength,
    m2,
    m2Deviation,
    waist?.diameter1e2,
    focalLength,
    focusShift === undefined ? 0 : focusShift?.zAwayFromLens,
    focusDeviation,
    orElse(coverageFactor95, normalFactor95),
  );
  const used = out[0] as PureNumber;
  return {
    m2: used,
    rawBeam: {
      by: "waist",
      waist: diameter1e2(out[1] as Length),
      waistAt: signedDownstream((0 - (out[2] as number)) as Length),
    },
    focus: { by: "datum", waistZ: focus },
    focused: { wavelength, m2: used, waist },
    widthAtLens: diameter1e2(out[3] as Length),
    rayleighRange: out[4] as Length,
    focusDeviation: out[5] as Length,
    halfAngle: out[6] as Angle,
    validity: validityOf(out[7] as number),
  };
}

/**
 * The dose at which the material just marks, from what the line of a calibration has of it in the waist.
 *
 * √(8/π)·power/(speed·d·q), d being the waist diameter and q the dose ratio; its deviation by the full covariance of
 * both. An error of the scale of power or speed cancels in jobs that are stated on the same scale.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @throws {@link SpotwiseError} for a value outside its range, or a calibration without a line; with code 4 for a
 * threshold beyond its range.
 */
export function learnedThreshold(calibration: Calibration): LearnedThreshold {
  const { waist, waistDiameterDeviation, coverageFactor95, line } = calibration ?? {};
  const { power, speed, doseRatio, relativeDeviation, correlation } = line ?? ({} as Partial<CalibratedLine>);
  const out = call(
    core.learned_threshold,
    power as number,
    speed as number,
    waist?.diameter1e2,
    waistDiameterDeviation,
    doseRatio as number,
    relativeDeviation as number,
    orElse(correlation, 0),
    orElse(coverageFactor95, normalFactor95),
  );
  return { threshold: out[0] as Dose, relativeDeviation: out[1] as number };
}

/** How the lines of a series were marked. */
export interface MarkedLines {
  /** Vacuum wavelength, 10 nm to 10 mm. */
  readonly wavelength: Length;
  /** Focal length of the lens, at the working wavelength, 10 µm to 10 km. */
  readonly focalLength: Length;
  /** Power of reference on the surface, averaged over pulses, 1 nW to 1 MW. */
  readonly power: Power;
  /** Speed along the lines, 1 nm/s to 10 km/s. */
  readonly speed: Speed;
}

/**
 * The calibration that a fit of marks tells: the step from {@link fitMarkWidths} to {@link withCalibration}. Heights count
 * from the datum of the marks. The waist is taken to lie in the focal point of the lens: a series of marks does not tell how
 * far the lens is.
 *
 * Accuracy: numbers are handed on; the relative deviation of the dose ratio is correctly rounded.
 *
 * @param fit - with ranges for a confidence of 0.95.
 * @throws {@link SpotwiseError} for a value outside its range; with parameter 239 ("95 % coverage factor") for a fit whose
 * ranges are for another confidence.
 */
export function calibrationFromMarks(fit: MarkFit, lines: MarkedLines): Calibration {
  const out = call(
    core.calibration_from_marks,
    fit?.waistHeight?.value?.zAwayFromLens,
    fit?.waistHeight?.deviation,
    fit?.waist?.value?.diameter1e2,
    fit?.waist?.deviation,
    fit?.mSquared?.value,
    fit?.mSquared?.deviation,
    fit?.doseRatio?.value,
    fit?.doseRatio?.deviation,
    // Of ln d and ln q.
    fit?.correlations?.[4] as number,
    fit?.rangeFactor,
    fit?.degreesOfFreedom,
    lines?.wavelength,
    lines?.focalLength,
    lines?.power,
    lines?.speed,
  );
  const at = (place: number) => out[place] as number;
  return {
    wavelength: at(1) as Length,
    m2: at(2) as PureNumber,
    m2Deviation: at(3) as PureNumber,
    waist: diameter1e2(at(4) as Length),
    focalLength: at(5) as Length,
    focusShift: signedOffset(at(6) as Length),
    focus: signedOffset(at(0) as Length),
    focusDeviation: at(7) as Length,
    coverageFactor95: at(8) as PureNumber,
    waistDiameterDeviation: at(11) as Length,
    line: {
      power: at(9) as Power,
      speed: at(10) as Speed,
      doseRatio: at(12) as PureNumber,
      relativeDeviation: at(13) as PureNumber,
      correlation: at(14) as PureNumber,
    },
  };
}

/**
 * A job on the machine of a calibration: its M², raw beam, lens and focus are taken from there, and the threshold of its
 * scan if the calibration tells one. Everything else stays.
 *
 * The focus of the job is replaced by where the test pieces found the waist. If the machine has since been set to that,
 * let `focus` of the calibration be `inFocus`.
 *
 * {@link chooseLens} looks at neither lens nor focus of a job: of the calibration it keeps raw beam, M² and threshold.
 * What the aberration of the measured lens adds to its spot is then in the raw beam, and the candidates' own come on top.
 *
 * @throws {@link SpotwiseError} as {@link calibratedSetUp} and {@link learnedThreshold}; also for a job of another
 * wavelength.
 */
export function withCalibration(job: Job, calibration: Calibration): Job {
  const { m2, rawBeam, focus } = calibratedSetUp(calibration);
  const learned = calibration.line === undefined ? undefined : learnedThreshold(calibration);
  const { wavelength, focalLength } = calibration;
  const { singlet: _, ...rest } = job ?? ({} as Job);
  call(core.same_wavelength, wavelength, rest.wavelength);
  const dose =
    learned !== undefined && rest.dose?.by === "scan" ? { ...rest.dose, threshold: learned.threshold } : rest.dose;
  return { ...rest, wavelength, m2: m2 as PureNumber, rawBeam, focalLength, focus, dose };
}

/**
 * What the height of focus of a calibration may be off by, as a contribution to a {@link toleranceStack}: a normal law with
 * the same 95 % range. It names the height gauge as its source, for its zero is what the test pieces found.
 *
 * @throws {@link SpotwiseError} as {@link calibratedSetUp}.
 */
export function focusContribution(calibration: Calibration): Contribution {
  const halfWidth = calibratedSetUp(calibration).focusDeviation;
  const coverageFactor = 1 as PureNumber;
  return { source: "height gauge", distribution: { kind: "normal", halfWidth, coverageFactor }, mean: inFocus };
}
