/**
 * The single-piece lens: its shape, its spherical aberration, and the spot it really makes.
 *
 * Third order of a thin lens with spherical surfaces. Not modelled: thickness, aberration off the
 * axis, aspheric surfaces, decentring, heat.
 */

import { beamNumbers, type Beam } from "./beam.js";
import { call, core } from "./core.js";
import { focusedFrom, type FocusedBeam } from "./lens.js";
import { number, orUndefined } from "./number.js";
import { distanceToLens, signedOffset, type Offset, type RawPlace } from "./place.js";
import type { Angle, Length, PureNumber, WavefrontCoefficient } from "./units.js";
import { validityOf, type Validity } from "./validity.js";
import type { Wave } from "./wave.js";
import { apertureNumber, diameter, diameter1e2, type BeamWidth, type Diameter } from "./width.js";

/**
 * Shape of a single-piece lens.
 *
 * - `best form`: the least spherical aberration for a distant source; a meniscus in materials of high
 *   index.
 * - `curved side first`: plano-convex with its curved side toward the laser.
 * - `flat side first`: plano-convex with its flat side toward the laser.
 * - `{ shapeFactor }`: (R₂ + R₁)/(R₂ − R₁), −100 to 100; 0 is equiconvex, +1 has its curved side toward
 *   the laser, −1 its flat side.
 */
export type LensShape =
  | "best form"
  | "curved side first"
  | "flat side first"
  | { readonly shapeFactor: PureNumber };

/** A single-piece thin lens with spherical surfaces. */
export interface Singlet {
  /** Refractive index at the working wavelength, 1.01 to 6; see {@link refractiveIndex}. */
  readonly index: PureNumber;
  /** Shape. */
  readonly shape: LensShape;
  /** Focal length at the working wavelength, + converging, 10 µm to 10 km in magnitude. */
  readonly focalLength: Length;
}

const namedShapes: readonly unknown[] = ["best form", "curved side first", "flat side first"];

/**
 * A shape in the model's order: code, shape factor. A shape that does not exist is 0 and refused.
 *
 * @internal
 */
export function shapeNumbers(shape: LensShape): [number, number] {
  if (typeof shape === "object" && shape !== null) return [4, shape.shapeFactor];
  return [namedShapes.indexOf(shape) + 1, NaN];
}

/** A curved surface of a lens. Make it with {@link convexTowardLaser} or {@link concaveTowardLaser}. */
export interface CurvedSurface {
  /** Radius of curvature, + where the centre of the sphere lies downstream of the surface. */
  readonly centreDownstream: Length;
}

/** A surface of a lens: flat, or curved one way or the other; a bare length is refused. */
export type LensSurface = "flat" | CurvedSurface;

/**
 * A surface that bulges toward the laser, of this radius of curvature.
 *
 * @param radius - 10 µm to 1000 km; the direction is in the name, so a sign is refused.
 * @throws {@link SpotwiseError} for a radius that is negative or not finite.
 */
export function convexTowardLaser(radius: Length): CurvedSurface {
  call(core.radius_of_surface, radius);
  return { centreDownstream: radius };
}

/**
 * A surface that is hollow toward the laser, of this radius of curvature.
 *
 * @param radius - 10 µm to 1000 km; the direction is in the name, so a sign is refused.
 * @throws {@link SpotwiseError} for a radius that is negative or not finite.
 */
export function concaveTowardLaser(radius: Length): CurvedSurface {
  call(core.radius_of_surface, radius);
  return { centreDownstream: (0 - radius) as Length };
}

/**
 * A surface from a signed radius, **+ where the centre lies downstream**, for numbers that come from
 * elsewhere with that convention. An infinite one is flat.
 */
export function signedRadius(centreDownstream: Length): CurvedSurface {
  return { centreDownstream: number(centreDownstream) as Length };
}

/** A surface in the model's terms, in which a flat has an infinite radius. */
function surfaceNumber(surface: LensSurface): number {
  return surface === "flat" ? Infinity : surface?.centreDownstream;
}

/** A thin lens as its two surfaces make it. */
export interface LensForm {
  /** Focal length, + converging. */
  readonly focalLength: Length;
  /** Shape factor (R₂ + R₁)/(R₂ − R₁). */
  readonly shapeFactor: number;
}

/**
 * Focal length and shape factor of a thin lens from its surfaces, `first` being the one that the
 * light meets first.
 *
 * 1/f = (n − 1)·(1/R₁ − 1/R₂).
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @param lens - `index`: 1.01 to 6; radii of 10 µm to 1000 km.
 * @throws {@link SpotwiseError} for a value outside its range; with code 4 if the focal length or the
 * shape factor would be outside its range, as with two equal radii, which make no lens.
 */
export function lensFromRadii(lens: {
  readonly index: PureNumber;
  readonly first: LensSurface;
  readonly second: LensSurface;
}): LensForm {
  const { index, first, second } = lens ?? {};
  const out = call(core.lens_from_radii, index, surfaceNumber(first), surfaceNumber(second));
  return { focalLength: out[0] as Length, shapeFactor: out[1] as number };
}

/** Third-order spherical aberration of a {@link Singlet} for a distant source. */
export interface LensAberration {
  /** Shape factor. */
  readonly shapeFactor: number;
  /** k in blur = k·D³/f², the circle of least confusion of a sharp-edged bundle of diameter D. */
  readonly blurCoefficient: number;
  /** C₄ in W = C₄·r⁴, the wavefront error at the distance r from the axis. */
  readonly wavefrontCoefficient: WavefrontCoefficient;
}

/**
 * Third-order spherical aberration of a lens for a distant source.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the third-order value, from which a real
 * thick lens differs by up to 3 %.
 *
 * @throws {@link SpotwiseError} for an unknown shape, then for a field outside its range.
 */
export function lensAberration(lens: Singlet): LensAberration {
  const { index, shape, focalLength } = lens ?? {};
  const out = call(core.lens_aberration, index, ...shapeNumbers(shape), focalLength);
  return {
    shapeFactor: out[0] as number,
    blurCoefficient: out[1] as number,
    wavefrontCoefficient: out[2] as WavefrontCoefficient,
  };
}

/**
 * What quartic aberration does to the focus of a Gaussian (Schell-model) beam, relative to the ideal
 * focus. Shifts count in ideal Rayleigh ranges from the ideal waist, + away from the lens.
 */
export interface AberrationGrowth {
  /** M² of the aberrated beam by second moments. */
  readonly secondMomentM2: number;
  /** Second-moment (D4σ) waist over the ideal waist. */
  readonly secondMomentGrowth: number;
  /** Where the second-moment waist lies. */
  readonly secondMomentShift: number;
  /** Least diameter that holds 86.5 % of the power, over the ideal waist; `undefined` if refused. */
  readonly power86Growth: number | undefined;
  /** Where the plane of that least diameter lies; `undefined` if refused. */
  readonly power86Shift: number | undefined;
  /** Handbook upper estimate of the growth: diffraction and blur added. */
  readonly handbookGrowth: number;
  /** Lower end of the bracket: diffraction and blur added as squares. */
  readonly quadratureGrowth: number;
  /** Greatest irradiance on the axis over that of the ideal focus; `undefined` if refused. */
  readonly peakIrradianceRatio: number | undefined;
  /** Magnitude of the aberration phase over M². */
  readonly normalisedAberration: number;
  /** How far the numbers may be trusted. */
  readonly validity: Validity;
}

/**
 * What a quartic wavefront aberration does to a focus, relative to the ideal one.
 *
 * Accuracy: second moments and handbook estimates at most 0.75 ulp, the fits at most 4 ulp (units in
 * the last place) of their formulas. Against the diffraction integral the 86.5 %-power growth is
 * within −0.9 … +1.3 % and the peak within 0.9 % up to a normalised aberration of 1.
 *
 * @param beam - `aberrationPhase`: phase at the 1/e² radius, + where the edge focuses nearer the lens
 * (a converging singlet), − for a plate; up to 1e4 rad either way.
 * @throws {@link SpotwiseError} for a value outside its range.
 */
export function aberrationGrowth(beam: {
  readonly m2: PureNumber;
  readonly aberrationPhase: Angle;
}): AberrationGrowth {
  const out = call(core.aberration_growth, beam?.m2, beam?.aberrationPhase);
  return {
    secondMomentM2: out[0] as number,
    secondMomentGrowth: out[1] as number,
    secondMomentShift: out[2] as number,
    power86Growth: orUndefined(out[3] as number),
    power86Shift: orUndefined(out[4] as number),
    handbookGrowth: out[5] as number,
    quadratureGrowth: out[6] as number,
    peakIrradianceRatio: orUndefined(out[7] as number),
    normalisedAberration: out[8] as number,
    validity: validityOf(out[9] as number),
  };
}

/**
 * The waist of a real lens by one measure. It is no {@link Beam}: what takes one could not know the lens,
 * and its validity would lack the flags. What this waist does off focus is told by
 * {@link singletDefocus} and {@link singletDepthOfFocus}, which carry them on.
 */
export interface AberratedWaist {
  /**
   * **Diameter** of the spot in focus, by the measure that the field's name tells. It is no
   * {@link BeamWidth}: an aberrated spot is not Gaussian, so that no width follows from another.
   */
  readonly waistDiameter: Length;
  /** M² that gives this waist this Rayleigh range. */
  readonly m2: number;
  /** Distance from the waist at which its diameter has grown by √2. */
  readonly rayleighRange: Length;
  /** This waist relative to the ideal one. */
  readonly shift: Offset;
  /** From the lens to this waist. */
  readonly lensToWaist: Length;
}

/** What a real single-piece lens makes of a beam. */
export interface SingletFocus {
  /** What an ideal lens of the same focal length would have made of it. */
  readonly ideal: FocusedBeam;
  /** The waist by second moments (D4σ), exact for a quartic wavefront without clipping. */
  readonly secondMoment: AberratedWaist;
  /**
   * The least diameter that holds 86.5 % of the power, by a fitted closed form; `undefined` if the
   * normalised aberration exceeds 1.7.
   */
  readonly power86: AberratedWaist | undefined;
  /** Handbook upper estimate of the **diameter** of the spot: diffraction and blur added. */
  readonly handbookDiameter: Length;
  /** Lower end of the bracket: diffraction and blur added as squares. */
  readonly quadratureDiameter: Length;
  /** Greatest irradiance on the axis over that of the ideal focus; `undefined` if refused. */
  readonly peakIrradianceRatio: number | undefined;
  /** Shape factor of the lens. */
  readonly shapeFactor: number;
  /** Quartic wavefront aberration at the 1/e² radius, + where the edge focuses nearer the lens. */
  readonly aberrationPhase: Angle;
  /** Magnitude of the aberration phase over M². */
  readonly normalisedAberration: number;
  /** Clear aperture over beam diameter at the lens; Infinity without an aperture. */
  readonly clippingRatio: number;
  /** Share of the power that passes the aperture. */
  readonly transmitted: number;
  /** Magnitude of the focus shift of the ideal lens over its focal length. */
  readonly relativeFocusShift: number;
  /** Rayleigh range of the ideal waist over the magnitude of its distance from the lens. */
  readonly relativeRayleighRange: number;
  /** From the lens to where the beam would converge by rays, without diffraction and aberration. */
  readonly lensToFocus: Length;
  /** The same focus for the rigorous functions, such as {@link waveWidths}. */
  readonly wave: Wave;
  /** Greatest 1/e² **half** angle: of the raw beam, the ideal focus or that by second moments. */
  readonly halfAngle: Angle;
  /** How far the numbers may be trusted. */
  readonly validity: Validity;
}

/** A waist from its five outputs. */
function waistFrom(out: Float64Array): AberratedWaist {
  return {
    waistDiameter: out[0] as Length,
    m2: out[1] as number,
    rayleighRange: out[2] as Length,
    shift: signedOffset(out[3] as Length),
    lensToWaist: out[4] as Length,
  };
}

/**
 * A real focus from its twenty-two outputs after those of the ideal one, and its flags.
 *
 * @internal
 */
export function singletFocusFrom(
  ideal: FocusedBeam,
  aperture: number,
  out: Float64Array,
  flags: number,
): SingletFocus {
  const aberrationPhase = out[14] as Angle;
  const lensToFocus = out[20] as Length;
  const { wavelength, m2, atLens } = ideal;
  const clearAperture = aperture === Infinity ? undefined : diameter(aperture as Length);
  return {
    ideal,
    secondMoment: waistFrom(out),
    power86: Number.isNaN(out[5]) ? undefined : waistFrom(out.subarray(5)),
    handbookDiameter: out[10] as Length,
    quadratureDiameter: out[11] as Length,
    peakIrradianceRatio: orUndefined(out[12] as number),
    shapeFactor: out[13] as number,
    aberrationPhase,
    normalisedAberration: out[15] as number,
    clippingRatio: out[16] as number,
    transmitted: out[17] as number,
    relativeFocusShift: out[18] as number,
    relativeRayleighRange: out[19] as number,
    lensToFocus,
    wave: { wavelength, m2, atLens, clearAperture, lensToFocus, aberrationPhase },
    halfAngle: out[21] as Angle,
    validity: validityOf(flags),
  };
}

/** A {@link Singlet} in its place on the beam. */
export interface PlacedSinglet extends Singlet {
  /** Where the raw waist lies, most often `upstream(…)` of the lens, up to 1e7 m either way. */
  readonly waistAt: RawPlace;
  /** Clear aperture of the lens or its mount, 1 nm to 100 m; left out if it is none of your concern. */
  readonly clearAperture?: Diameter | undefined;
}

/**
 * The nine numbers of a beam and a lens on it, in the model's order. The last is the aperture.
 *
 * @internal
 */
export function singletNumbers(
  raw: Beam,
  lens: PlacedSinglet,
): [number, number, number, number, number, number, number, number, number] {
  const { waistAt, index, shape, focalLength, clearAperture } = lens ?? {};
  return [
    ...beamNumbers(raw),
    distanceToLens(waistAt as RawPlace),
    index,
    ...shapeNumbers(shape),
    focalLength,
    apertureNumber(clearAperture),
  ];
}

/**
 * What a single-piece lens makes of a raw beam: by second moments, by 86.5 % of the power, and by the
 * handbook.
 *
 * Clipping is flagged and its loss told, not computed into the spots: for that see
 * {@link waveWidths}.
 *
 * Accuracy: the ideal lens, second moments and handbook estimates at most 0.75 ulp, the fits and the
 * power passed at most 4 ulp (units in the last place) of their formulas; how good those are is in the
 * validity.
 *
 * @param raw - the beam before the lens.
 * @throws {@link SpotwiseError} for an unknown shape, then for a value outside its range; with code 4
 * as {@link focusThroughLens}, for a clipping ratio below 0.2, or if the aberrated M², waist or cone
 * is outside its range. A normalised aberration above 1.7 is no error: `power86` is `undefined` then.
 */
export function focusSinglet(raw: Beam, lens: PlacedSinglet): SingletFocus {
  const numbers = singletNumbers(raw, lens);
  const [wavelength, m2] = numbers;
  const out = call(core.focus_singlet, ...numbers);
  const ideal = focusedFrom(wavelength, m2, out, out[8] as number);
  return singletFocusFrom(ideal, numbers[8], out.subarray(9), out[31] as number);
}

/**
 * Which spot is to be smallest: the second-moment (D4σ) waist, the diameter that holds 86.5 % of the
 * power, or the handbook's sum of diffraction and blur.
 */
export type SpotMeasure = "second moment" | "power 86" | "handbook";

const spotMeasures: readonly unknown[] = ["second moment", "power 86", "handbook"];

/**
 * The code of a measure; 0, which the model refuses, for what is none.
 *
 * @internal
 */
export function spotMeasureCode(measure: SpotMeasure): number {
  return spotMeasures.indexOf(measure) + 1;
}

/** The collimated beam that a lens focuses to its smallest spot. */
export interface SmallestSpot {
  /** Width of the collimated beam at the lens. */
  readonly atLens: BeamWidth;
  /** **Diameter** of the spot that it makes, by the measure asked for. */
  readonly spotDiameter: Length;
  /** Aberration phase at that width. */
  readonly aberrationPhase: Angle;
  /** Magnitude of that phase over M². */
  readonly normalisedAberration: number;
  /** Rayleigh range of the ideal waist over the focal length. */
  readonly relativeRayleighRange: number;
  /** **Half** angle of the converging cone. */
  readonly halfAngle: Angle;
  /** How far the numbers may be trusted. */
  readonly validity: Validity;
}

/**
 * The collimated beam that a lens focuses to the smallest spot: larger ones are spoilt by aberration,
 * smaller ones by diffraction. By 86.5 % of the power the minimum is flat: a beam 10 % narrower or
 * wider gives a spot larger by less than 2 %.
 *
 * Accuracy: at most 4 ulp (units in the last place) of the formula.
 *
 * @param lens - a converging lens, and the beam's wavelength and M².
 * @throws {@link SpotwiseError} for an unknown shape or measure, then for a value outside its range;
 * with code 4 if the beam, its cone or the spot is outside its range.
 */
export function smallestSpot(
  lens: Singlet & {
    readonly wavelength: Length;
    readonly m2: PureNumber;
    readonly measure: SpotMeasure;
  },
): SmallestSpot {
  const { wavelength, m2, index, shape, focalLength, measure } = lens ?? {};
  const code = spotMeasureCode(measure);
  const out = call(core.smallest_spot, wavelength, m2, index, ...shapeNumbers(shape), focalLength, code);
  return {
    atLens: diameter1e2(out[0] as Length),
    spotDiameter: out[1] as Length,
    aberrationPhase: out[2] as Angle,
    normalisedAberration: out[3] as number,
    relativeRayleighRange: out[4] as number,
    halfAngle: out[5] as Angle,
    validity: validityOf(out[6] as number),
  };
}
