// Numbers for people, three digits in the unit that suits; and the elements that hold them.

import { inMm, inUm } from "../dist/spotwise.mjs";

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

/** An element with its text. */
export function element(name, text, attributes = {}) {
  const made = document.createElement(name);
  made.textContent = text;
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}
