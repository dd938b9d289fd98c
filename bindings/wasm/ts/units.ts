/**
 * Quantities: numbers in SI units that carry their kind in the type.
 *
 * A quantity is a plain number at run time, so it costs nothing. The compiler refuses a bare
 * number where a quantity belongs, and one kind where another belongs.
 *
 * A unit is one multiplication by the double nearest to its exact value in SI, and a reader is
 * one division by the same; so `um(10.6)` is `10.6 * 1e-6` here, in Rust and in text. Each throws
 * a {@link SpotwiseError} with code 7 for what is no number, such as the text of a form's field.
 */

import { callWithText, core } from "./core.js";
import { number } from "./number.js";

/**
 * A number that carries its kind in the type. Make one with a unit, such as {@link mm}.
 *
 * The mark is a named key, not a symbol of its own, so that a quantity of the package's ES module
 * is one of its CommonJS module too. It exists in the type only.
 */
export type Quantity<Kind extends string> = number & { readonly "kind of quantity": Kind };

/** A length in metres. Make it with {@link mm} and its like, read it with {@link inMm} and its like. */
export type Length = Quantity<"length">;

/** A plane angle in radians. Make it with {@link mrad} and its like, read it with {@link inMrad}. */
export type Angle = Quantity<"angle">;

/** Waist radius times half angle, in metre radians. Read it with {@link inMmMrad}. */
export type BeamParameterProduct = Quantity<"beam parameter product">;

/** Curvature of a wavefront, or the power of optics, in 1/m. Make it with {@link perM}, read it with {@link inPerM}. */
export type Curvature = Quantity<"curvature">;

/** Change of a refractive index with wavelength, in 1/m. Read it with {@link inPerUm}. */
export type Dispersion = Quantity<"dispersion">;

/** Quartic wavefront coefficient C₄ in W = C₄·r⁴, in 1/m³. Read it with {@link inPerM3}. */
export type WavefrontCoefficient = Quantity<"wavefront coefficient">;

/** Irradiance for each watt of power, in 1/m². Read it with {@link inPerMm2}. */
export type IrradiancePerWatt = Quantity<"irradiance per watt">;

/** A number without a unit: a ratio, a share. A quantity is refused, so `mm(mm(3))` does not compile. */
export type PureNumber = number & { readonly "kind of quantity"?: never };

/** Metres in a nanometre, and so on: the double nearest to the exact value. */
const NM = 1e-9;
const UM = 1e-6;
const MM = 1e-3;
const CM = 1e-2;
const INCH = 0.0254;
const MIL = 2.54e-5;
const PT = 0.0254 / 72;
/** Radians in a milliradian, microradian and degree. */
const MRAD = 1e-3;
const URAD = 1e-6;
const DEG = Math.PI / 180;
/** In 1/m, a reciprocal micrometre; in 1/m², a reciprocal square millimetre. */
const PER_UM = 1e6;
const PER_MM2 = 1e6;

/** A length from nanometres. */
export function nm(nanometres: PureNumber): Length {
  return (number(nanometres) * NM) as Length;
}

/** A length from micrometres. */
export function um(micrometres: PureNumber): Length {
  return (number(micrometres) * UM) as Length;
}

/** A length from millimetres. */
export function mm(millimetres: PureNumber): Length {
  return (number(millimetres) * MM) as Length;
}

/** A length from centimetres. */
export function cm(centimetres: PureNumber): Length {
  return (number(centimetres) * CM) as Length;
}

/** A length from metres. */
export function m(metres: PureNumber): Length {
  return number(metres) as Length;
}

/** A length from inches of 25.4 mm. */
export function inch(inches: PureNumber): Length {
  return (number(inches) * INCH) as Length;
}

/** A length from thousandths of an inch. */
export function mil(mils: PureNumber): Length {
  return (number(mils) * MIL) as Length;
}

/** A length from points of 1/72 inch, the measure of type sizes. */
export function pt(points: PureNumber): Length {
  return (number(points) * PT) as Length;
}

/** A length in nanometres. */
export function inNm(length: Length): number {
  return number(length) / NM;
}

/** A length in micrometres. */
export function inUm(length: Length): number {
  return number(length) / UM;
}

/** A length in millimetres. */
export function inMm(length: Length): number {
  return number(length) / MM;
}

/** A length in centimetres. */
export function inCm(length: Length): number {
  return number(length) / CM;
}

/** A length in metres. */
export function inM(length: Length): number {
  return number(length);
}

/** A length in inches of 25.4 mm. */
export function inInch(length: Length): number {
  return number(length) / INCH;
}

/** A length in thousandths of an inch. */
export function inMil(length: Length): number {
  return number(length) / MIL;
}

/** A length in points of 1/72 inch. */
export function inPt(length: Length): number {
  return number(length) / PT;
}

/** An angle from radians. */
export function rad(radians: PureNumber): Angle {
  return number(radians) as Angle;
}

/** An angle from milliradians. */
export function mrad(milliradians: PureNumber): Angle {
  return (number(milliradians) * MRAD) as Angle;
}

/** An angle from microradians. */
export function urad(microradians: PureNumber): Angle {
  return (number(microradians) * URAD) as Angle;
}

/** An angle from degrees. */
export function deg(degrees: PureNumber): Angle {
  return (number(degrees) * DEG) as Angle;
}

/** An angle in radians. */
export function inRad(angle: Angle): number {
  return number(angle);
}

/** An angle in milliradians. */
export function inMrad(angle: Angle): number {
  return number(angle) / MRAD;
}

/** An angle in microradians. */
export function inUrad(angle: Angle): number {
  return number(angle) / URAD;
}

/** An angle in degrees. */
export function inDeg(angle: Angle): number {
  return number(angle) / DEG;
}

/** A beam parameter product in the usual mm·mrad. */
export function inMmMrad(product: BeamParameterProduct): number {
  return number(product) / 1e-6;
}

/** A curvature, or the power of optics, from 1/m (dioptres). */
export function perM(perMetre: PureNumber): Curvature {
  return number(perMetre) as Curvature;
}

/** A curvature in 1/m. */
export function inPerM(curvature: Curvature): number {
  return number(curvature);
}

/** A dispersion in 1/µm. */
export function inPerUm(dispersion: Dispersion): number {
  return number(dispersion) / PER_UM;
}

/** A quartic wavefront coefficient in 1/m³. */
export function inPerM3(coefficient: WavefrontCoefficient): number {
  return number(coefficient);
}

/** Irradiance for each watt in W/mm² per W. */
export function inPerMm2(irradiance: IrradiancePerWatt): number {
  return number(irradiance) / PER_MM2;
}

/**
 * A length from text such as `"38.1 mm"` or `"1.5 in"`.
 *
 * Units: nm, um or µm, mm, cm, m, in or inch, mil, pt. The same value as the unit's function
 * gives: `length("1.5 in") === inch(1.5)`.
 *
 * @throws {@link SpotwiseError} with code 7 if the number or the unit is missing or unknown.
 */
export function length(text: string): Length {
  return callWithText(core.length, text) as Length;
}

/**
 * An angle from text such as `"2 mrad"` or `"5 deg"`. Units: rad, mrad, urad or µrad, deg or °.
 *
 * @throws {@link SpotwiseError} with code 7 if the number or the unit is missing or unknown.
 */
export function angle(text: string): Angle {
  return callWithText(core.angle, text) as Angle;
}

/**
 * A curvature, or the power of optics, from text such as `"0.2 1/m"`. The unit is 1/m, also written
 * /m; put a space before it, since `"0.21/m"` is 0.21 of it.
 *
 * @throws {@link SpotwiseError} with code 7 if the number or the unit is missing or unknown.
 */
export function curvature(text: string): Curvature {
  return callWithText(core.curvature, text) as Curvature;
}

/** A length as the shortest text that {@link length} turns back into the same bits: `"10.6 um"`. */
export function lengthText(length: Length): string {
  return core.length_text(number(length));
}

/** An angle as the shortest text that {@link angle} turns back into the same bits: `"2 mrad"`. */
export function angleText(angle: Angle): string {
  return core.angle_text(number(angle));
}

/** A curvature as the shortest text that {@link curvature} turns back into the same bits: `"0.2 1/m"`. */
export function curvatureText(curvature: Curvature): string {
  return core.curvature_text(number(curvature));
}
