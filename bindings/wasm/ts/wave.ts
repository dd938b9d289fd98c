/**
 * The rigorous focus of a clipped, aberrated, partially coherent beam: the radial Fresnel integral.
 *
 * It takes milliseconds where the closed forms take microseconds, and holds where those do not. Every
 * answer bounds its own numerical error. Not modelled: vector effects, light off the axis, mixtures of
 * modes other than a Gaussian Schell-model beam's.
 */

import { refuseOther } from "./bulk.js";
import { call, core } from "./core.js";
import { errorCode, SpotwiseError } from "./error.js";
import { criterionNumbers, type DepthCriterion } from "./focus.js";
import { orUndefined } from "./number.js";
import { rangeFrom, signedOffset, type FocusRange, type Offset } from "./place.js";
import type { Angle, IrradiancePerWatt, Length, PureNumber } from "./units.js";
import { validityOf, type Validity } from "./validity.js";
import { apertureNumber, type BeamWidth, type Diameter } from "./width.js";

/**
 * A converging wave as a lens hands it on, such as {@link SingletFocus}.wave. Heights count from where
 * it would converge without aberration: `lensToFocus` behind the lens.
 */
export interface Wave {
  /** Vacuum wavelength, 10 nm to 10 mm. */
  readonly wavelength: Length;
  /** Beam propagation ratio M² before aperture and aberration, 1 to 5: a Gaussian Schell-model beam. */
  readonly m2: PureNumber;
  /** Width at the lens before the aperture, 1 nm to 10 m in 1/e² diameter. */
  readonly atLens: BeamWidth;
  /** Clear aperture, 1 nm to 100 m; left out, there is none. At least 0.2 beam diameters. */
  readonly clearAperture?: Diameter | undefined;
  /** From the lens to where the unaberrated wave would converge, 10 µm to 10 km. */
  readonly lensToFocus: Length;
  /**
   * Quartic wavefront aberration at the 1/e² radius, −6 to 6 rad, + where the edge focuses nearer the
   * lens (a converging singlet).
   */
  readonly aberrationPhase: Angle;
}

/** A wave in the model's order. */
function waveNumbers(wave: Wave): [number, number, number, number, number, number] {
  const { wavelength, m2, atLens, clearAperture, lensToFocus, aberrationPhase } = wave ?? {};
  return [wavelength, m2, atLens?.diameter1e2, apertureNumber(clearAperture), lensToFocus, aberrationPhase];
}

/** Irradiance at one point. */
export interface WaveIrradiance {
  /** Irradiance over that at the focus of the same beam without aperture and aberration. */
  readonly irradianceRatio: number;
  /** Irradiance for each watt before the aperture. */
  readonly irradiancePerWatt: IrradiancePerWatt;
  /** Bound on the numerical error of `irradianceRatio`. */
  readonly error: number;
  /** **Half** angle of the cone behind the aperture. */
  readonly halfAngle: Angle;
  /** How far the numbers may be trusted: only the cone is in question. */
  readonly validity: Validity;
}

/**
 * Irradiance of a wave at one point.
 *
 * @param at - `radius`: distance from the axis, 0 to 10 m; `z`: relative to where the unaberrated wave
 * would converge, up to 1e7 m. Both also within the domain of the integral: 60 spot radii, 30
 * Rayleigh ranges.
 * @throws {@link SpotwiseError} for a value outside its range; with code 4 outside the domain of the
 * integral, for a clipping ratio below 0.2 or a half angle above 0.3 rad.
 */
export function waveIrradiance(wave: Wave, at: { readonly radius: Length; readonly z: Offset }): WaveIrradiance {
  const out = call(core.wave_irradiance, ...waveNumbers(wave), at?.radius, at?.z?.zAwayFromLens);
  return {
    irradianceRatio: out[0] as number,
    irradiancePerWatt: out[1] as IrradiancePerWatt,
    error: out[2] as number,
    halfAngle: out[3] as Angle,
    validity: validityOf(out[4] as number),
  };
}

/** Power inside a circle about the axis. */
export interface WavePower {
  /** Share of the power before the aperture. */
  readonly share: number;
  /** Share of the power that passes the aperture. */
  readonly shareOfTransmitted: number;
  /** Bound on the numerical error of `share`. */
  readonly error: number;
  /** **Half** angle of the cone behind the aperture. */
  readonly halfAngle: Angle;
  /** How far the numbers may be trusted: only the cone is in question. */
  readonly validity: Validity;
}

/**
 * Power of a wave inside a circle about the axis.
 *
 * @param circle - `radius`, not diameter; ranges as in {@link waveIrradiance}.
 * @throws {@link SpotwiseError} as {@link waveIrradiance}.
 */
export function wavePower(wave: Wave, circle: { readonly radius: Length; readonly z: Offset }): WavePower {
  const out = call(core.wave_power, ...waveNumbers(wave), circle?.radius, circle?.z?.zAwayFromLens);
  return {
    share: out[0] as number,
    shareOfTransmitted: out[1] as number,
    error: out[2] as number,
    halfAngle: out[3] as Angle,
    validity: validityOf(out[4] as number),
  };
}

/** Widths of a wave in one plane. It is not Gaussian, so that no width follows from another. */
export interface WaveWidths {
  /** Irradiance on the axis over that at the focus of the same beam without aperture and aberration. */
  readonly irradianceRatio: number;
  /** **Diameter** of the outermost circle at 1/e² of the greatest irradiance in this plane. */
  readonly diameter1e2: Length;
  /** **Diameter** of the outermost circle at half the greatest irradiance in this plane. */
  readonly fwhm: Length;
  /** **Diameter** that holds 86.5 % of the transmitted power. */
  readonly diameterPower86: Length;
  /** Share of the power that passes the aperture. */
  readonly transmitted: number;
  /** Bound on the relative numerical error of the diameters. */
  readonly error: number;
  /** **Half** angle of the cone behind the aperture. */
  readonly halfAngle: Angle;
  /** How far the numbers may be trusted: only the cone is in question. */
  readonly validity: Validity;
}

/**
 * Widths of a wave in the plane at a height.
 *
 * @param z - relative to where the unaberrated wave would converge; range as in
 * {@link waveIrradiance}.
 * @throws {@link SpotwiseError} as {@link waveIrradiance}.
 */
export function waveWidths(wave: Wave, z: Offset): WaveWidths {
  const out = call(core.wave_widths, ...waveNumbers(wave), z?.zAwayFromLens);
  return {
    irradianceRatio: out[0] as number,
    diameter1e2: out[1] as Length,
    fwhm: out[2] as Length,
    diameterPower86: out[3] as Length,
    transmitted: out[4] as number,
    error: out[5] as number,
    halfAngle: out[6] as Angle,
    validity: validityOf(out[7] as number),
  };
}

/**
 * What makes a plane the best focus: the greatest irradiance on the axis, the smallest diameter that
 * holds 86.5 % of the transmitted power, or the smallest second moment (only without clipping: at a
 * clipping ratio of 5 or more).
 */
export type FocusMeasure = "peak irradiance" | "power 86" | "second moment";

const focusMeasures: readonly unknown[] = ["peak irradiance", "power 86", "second moment"];

/** The best focus of a wave by one measure. */
export interface WaveFocus {
  /** The plane relative to where the unaberrated wave would converge. */
  readonly z: Offset;
  /** Irradiance on the axis over that at the focus of the same beam without aperture and aberration. */
  readonly irradianceRatio: number;
  /** **Diameter** that holds 86.5 % of the transmitted power there. */
  readonly diameterPower86: Length;
  /** Second-moment (D4σ) **diameter** there; `undefined` for a clipped beam, which has none. */
  readonly diameterD4sigma: Length | undefined;
  /** Bound on the relative numerical error of the least diameter or greatest irradiance. */
  readonly error: number;
  /** **Half** angle of the cone behind the aperture. */
  readonly halfAngle: Angle;
  /** How far the numbers may be trusted: only the cone is in question. */
  readonly validity: Validity;
}

/**
 * The best focus of a wave by one measure.
 *
 * @throws {@link SpotwiseError} for an unknown measure, then as {@link waveIrradiance}.
 */
export function waveFocus(wave: Wave, measure: FocusMeasure): WaveFocus {
  const out = call(core.wave_focus, ...waveNumbers(wave), focusMeasures.indexOf(measure) + 1);
  return {
    z: signedOffset(out[0] as Length),
    irradianceRatio: out[1] as number,
    diameterPower86: out[2] as Length,
    diameterD4sigma: orUndefined(out[3] as Length),
    error: out[4] as number,
    halfAngle: out[5] as Angle,
    validity: validityOf(out[6] as number),
  };
}

/** Depth of focus of a wave, about its best focus. */
export interface WaveDepth {
  /** The best focus relative to where the unaberrated wave would converge. */
  readonly best: Offset;
  /** The range, relative to the best focus. Its ends differ where the lens aberrates. */
  readonly range: FocusRange;
  /** Bound on the numerical error of the ends. */
  readonly error: Length;
}

/**
 * Depth of focus of a wave: by the irradiance on the axis about its brightest plane for
 * `irradiance drop`, else by the 86.5 %-power diameter about the plane where that is smallest.
 *
 * @throws {@link SpotwiseError} for an unknown criterion, `line dose drop` included, which a wave does
 * not have; then as {@link waveIrradiance}; with code 5 if the largest diameter is below the smallest.
 */
export function waveDepthOfFocus(wave: Wave, criterion: DepthCriterion): WaveDepth {
  const out = call(core.wave_depth_of_focus, ...waveNumbers(wave), ...criterionNumbers(criterion));
  return {
    best: signedOffset(out[0] as Length),
    range: rangeFrom(Float64Array.of(out[1]!, out[2]!, out[3]!, out[5]!, out[6]!)),
    error: out[4] as Length,
  };
}

/** Irradiance of a wave over radius and height. */
export interface WaveMap {
  /**
   * Irradiance over that at the focus of the same beam without aperture and aberration: a row of all
   * radii for the first height, then for the next.
   */
  readonly irradianceRatios: Float64Array;
  /** Bound on the numerical error of every one of them. */
  readonly error: number;
  /** **Half** angle of the cone behind the aperture. */
  readonly halfAngle: Angle;
  /** How far the numbers may be trusted: only the cone is in question. */
  readonly validity: Validity;
}

/** Points in one map: what a module's memory surely holds. */
const MOST_POINTS = 2 ** 24;

/**
 * Irradiance of a wave over radius and height, in bulk and therefore in plain numbers: distances from
 * the axis, and heights from where the unaberrated wave would converge, + away from the lens, in
 * metres. Ranges as in {@link waveIrradiance}.
 *
 * @throws {@link SpotwiseError} as {@link waveIrradiance}; with code 2 for more than 16 777 216 points.
 */
export function waveMap(wave: Wave, radiiInMetres: Float64Array, zInMetres: Float64Array): WaveMap {
  refuseOther(radiiInMetres, 66, "radius");
  refuseOther(zInMetres, 5, "z");
  const points = radiiInMetres.length * zInMetres.length;
  // (Either list by itself too, for beside an empty one the product is nothing.)
  if (Math.max(points, radiiInMetres.length, zInMetres.length) > MOST_POINTS) {
    const details = { parameter: 71, parameterName: "workspace length", value: points, least: 0, greatest: MOST_POINTS };
    const message = `map of ${points} points is too large (must be of at most ${MOST_POINTS})`;
    throw new SpotwiseError(message, { code: errorCode.outOfRange, ...details });
  }
  const irradianceRatios = new Float64Array(points);
  const operation = (...[wavelength, m2, atLens, aperture, focus, phase]: ReturnType<typeof waveNumbers>) =>
    core.wave_map(wavelength, m2, atLens, aperture, focus, phase, radiiInMetres, zInMetres, irradianceRatios);
  const out = call(operation, ...waveNumbers(wave));
  return {
    irradianceRatios,
    error: out[0] as number,
    halfAngle: out[1] as Angle,
    validity: validityOf(out[2] as number),
  };
}
