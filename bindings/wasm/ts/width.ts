/** Beam widths by their definitions, and the power inside an aperture, for a Gaussian profile. */

import { call, core } from "./core.js";
import { number } from "./number.js";
import type { Length, PureNumber } from "./units.js";

/**
 * How wide a beam is: its 1/e² diameter, which for the beams of this model equals D4σ.
 *
 * Make it with the definition in which the width was measured ({@link diameter1e2},
 * {@link radius1e2}, {@link d4sigma}, {@link fwhm}, {@link power86}); a bare length is refused.
 */
export interface BeamWidth {
  /** **Diameter** at 1/e² of the irradiance (D4σ). */
  readonly diameter1e2: Length;
}

/**
 * The diameter of something round and sharp: an aperture, a dot, a hole.
 * Make it with {@link diameter} or {@link radius}; a bare length is refused.
 */
export interface Diameter {
  /** **Diameter**, not radius. */
  readonly diameter: Length;
}

/**
 * By which rule a beam's width is read: where the irradiance has fallen to 1/e² of its peak; four
 * standard deviations (ISO 11146); full width at half maximum; the circle that holds 1 − e⁻² =
 * 86.4665 % of the power.
 */
export type WidthDefinition = "1/e2" | "D4sigma" | "FWHM" | "power 86";

const definitionCodes: ReadonlyMap<string, number> = new Map([
  ["1/e2", 1],
  ["D4sigma", 2],
  ["FWHM", 3],
  ["power 86", 4],
]);

/** The code of a definition; 0, which the model refuses, for what is none. */
function codeOf(definition: WidthDefinition): number {
  return definitionCodes.get(definition) ?? 0;
}

/**
 * The same Gaussian beam's diameter by another definition.
 *
 * Gaussian profile only: at the same D4σ, the 86 % diameter of a mixture of the two lowest modes
 * is 0.982 of it at M² = 1.5 and 0.956 at M² = 1.8.
 *
 * Accuracy: at most 0.75 ulp (units in the last place) of the exact result.
 *
 * @param diameter - **diameter** by the definition `from`, 1 nm to 10 m.
 * @throws {@link SpotwiseError} for an unknown definition or a diameter outside its range.
 */
export function convertWidth(
  diameter: Length,
  definitions: { readonly from: WidthDefinition; readonly to: WidthDefinition },
): Length {
  return call(core.convert_width, diameter, codeOf(definitions?.from), codeOf(definitions?.to))[0] as Length;
}

/** A beam width from its 1/e² **diameter**. */
export function diameter1e2(diameter: Length): BeamWidth {
  return { diameter1e2: number(diameter) as Length };
}

/** A beam width from its 1/e² **radius**. */
export function radius1e2(radius: Length): BeamWidth {
  return { diameter1e2: (number(radius) * 2) as Length };
}

/**
 * A beam width from its D4σ **diameter**, four standard deviations.
 *
 * @throws {@link SpotwiseError} for a diameter outside 1 nm to 10 m.
 */
export function d4sigma(diameter: Length): BeamWidth {
  return { diameter1e2: convertWidth(diameter, { from: "D4sigma", to: "1/e2" }) };
}

/**
 * A beam width from its full width at half maximum, for a Gaussian profile.
 *
 * @throws {@link SpotwiseError} for a width outside 1 nm to 10 m.
 */
export function fwhm(fullWidth: Length): BeamWidth {
  return { diameter1e2: convertWidth(fullWidth, { from: "FWHM", to: "1/e2" }) };
}

/**
 * A beam width from the **diameter** that holds 86.5 % (1 − e⁻²) of the power.
 *
 * @throws {@link SpotwiseError} for a diameter outside 1 nm to 10 m.
 */
export function power86(diameter: Length): BeamWidth {
  return { diameter1e2: convertWidth(diameter, { from: "power 86", to: "1/e2" }) };
}

/** The 1/e² **diameter** of a beam. */
export function asDiameter1e2(width: BeamWidth): Length {
  return number(width?.diameter1e2) as Length;
}

/** The 1/e² **radius** of a beam. */
export function asRadius1e2(width: BeamWidth): Length {
  return (number(width?.diameter1e2) / 2) as Length;
}

/** The D4σ **diameter** of a beam. Throws as {@link convertWidth}. */
export function asD4sigma(width: BeamWidth): Length {
  return convertWidth(width?.diameter1e2, { from: "1/e2", to: "D4sigma" });
}

/** The full width at half maximum of a Gaussian beam. Throws as {@link convertWidth}. */
export function asFwhm(width: BeamWidth): Length {
  return convertWidth(width?.diameter1e2, { from: "1/e2", to: "FWHM" });
}

/** The **diameter** that holds 86.5 % (1 − e⁻²) of a Gaussian beam's power. Throws as {@link convertWidth}. */
export function asPower86(width: BeamWidth): Length {
  return convertWidth(width?.diameter1e2, { from: "1/e2", to: "power 86" });
}

/** Something round from its **diameter**. */
export function diameter(length: Length): Diameter {
  return { diameter: number(length) as Length };
}

/** Something round from its **radius**. */
export function radius(length: Length): Diameter {
  return { diameter: (number(length) * 2) as Length };
}

/**
 * A clear aperture in the model's terms: left out, there is none, which is an infinite one.
 *
 * @internal
 */
export function apertureNumber(clearAperture: Diameter | undefined): number {
  return clearAperture === undefined ? Infinity : clearAperture?.diameter;
}

/**
 * Share of a Gaussian beam's power that passes a centred round aperture, 0 to 1.
 * Diffraction at the aperture is not modelled.
 *
 * Accuracy: at most 2 ulp (units in the last place) of the exact result.
 *
 * @param at - the beam's width there, 1 nm to 10 m, and the aperture, 0 to 100 m in diameter.
 * @throws {@link SpotwiseError} for a value outside its range.
 */
export function powerThroughAperture(at: { readonly beam: BeamWidth; readonly aperture: Diameter }): number {
  return call(core.power_through_aperture, at?.beam?.diameter1e2, at?.aperture?.diameter)[0] as number;
}

/**
 * The centred round aperture that passes this share of a Gaussian beam's power.
 *
 * Accuracy: at most 2 ulp (units in the last place) of the exact result.
 *
 * @param at - the beam's width there, 1 nm to 10 m, and a share from 0 to below 1.
 * @throws {@link SpotwiseError} for a value outside its range: a share of 1 has no aperture.
 */
export function diameterForPower(at: { readonly beam: BeamWidth; readonly powerShare: PureNumber }): Diameter {
  return diameter(call(core.diameter_for_power, at?.beam?.diameter1e2, at?.powerShare)[0] as Length);
}
