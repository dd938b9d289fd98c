// Numbers for people, three digits in the unit that suits; and the elements that hold them.

import { inJPerMm2, inMm, inMs, inPt, inUm, inUs, inWattPerMm2 } from "../dist/spotwise.mjs";

/** Keeps a number and its unit on one line. */
const SPACE = "\u00a0";

/** A number with three significant digits, or all before the point if they are more. */
function three(x) {
  return Math.abs(x) < 999.5 ? x.toPrecision(3) : x.toFixed(0);
}

/** A length in µm below a millimetre, in mm above. */
export function showLength(length) {
  return Math.abs(inUm(length)) < 999.5 ? `${three(inUm(length))}${SPACE}µm` : `${three(inMm(length))}${SPACE}mm`;
}

/** An offset, with its direction in words. */
export function showOffset(offset, origin = "it") {
  const z = inMm(offset.zAwayFromLens);
  if (z === 0) return `at ${origin}`;
  return `${three(Math.abs(z))}${SPACE}mm ${z < 0 ? "above" : "below"}${origin === "it" ? "" : ` ${origin}`}`;
}

/** A ratio in per cent. */
export function showRatio(ratio) {
  return `${three(ratio * 100)}${SPACE}%`;
}

/** A contrast in per cent; what no eye could see is not told to the last digit. */
export function showContrast(contrast) {
  return contrast < 1e-4 ? `below 0.01${SPACE}%` : showRatio(contrast);
}

/** A size of type in points. */
export function showPoints(em) {
  return `${three(inPt(em))}${SPACE}pt`;
}

/** A dose in J/mm². */
export function showDose(dose) {
  return `${three(inJPerMm2(dose))}${SPACE}J/mm²`;
}

/** An irradiance in W/mm². */
export function showIrradiance(irradiance) {
  return `${three(inWattPerMm2(irradiance))}${SPACE}W/mm²`;
}

/** A time in µs below a millisecond, in ms above. */
export function showTime(time) {
  return inUs(time) < 999.5 ? `${three(inUs(time))}${SPACE}µs` : `${three(inMs(time))}${SPACE}ms`;
}

/** A pure number with three digits. */
export function showNumber(x) {
  return three(x);
}

/** An element with its text. */
export function element(name, text, attributes = {}) {
  const made = document.createElement(name);
  made.textContent = text;
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}
