// What a verdict says of the fill and of the text, in a sentence each.

import { dotsPerInch, reasonBit } from "../dist/spotwise.mjs";
import { showContrast, showDose, showLength, showNumber, showPoints } from "./show.mjs";

const places = ({ highest, datum, lowest }) => [highest, datum, lowest];
const by = (read) => (a, b) => read(a) - read(b);

/** Whether the dose is enough to mark at all. */
export const marks = ({ reasonBits }) => (reasonBits & reasonBit.nothingMarks) === 0;

/** Interval, dose, ripple and depth; the ratio alone where the job gives nothing else, or nothing marks. */
export function fillSentence({ dose }, verdict) {
  const ratio = `${showNumber(verdict.doseRatio)} times the dose that just marks`;
  if (verdict.scan === null) return `Fill: ${ratio}.`;
  const interval = `${showLength(dose.lineInterval)} (${showNumber(dotsPerInch(dose.lineInterval))} dpi)`;
  const fill = `Fill: lines ${interval} apart, ${showDose(verdict.scan.fillDose)}, ${ratio}`;
  if (!marks(verdict)) return `${fill}.`;
  const [smoothest, , stripiest] = places(verdict)
    .map((place) => place.rippleContrast)
    .sort(by((contrast) => contrast));
  const ripple = [smoothest, stripiest].map(showContrast);
  const span = ripple[0] === ripple[1] ? ripple[0] : `${ripple.join(" to ")} over the surface`;
  const depth = verdict.fillDepth === null ? "" : `; ${showLength(verdict.fillDepth)} deep`;
  return `${fill}; ripple ${span}${depth}.`;
}

/** The smallest text at the place where the spot is largest; nothing if the job has no text. */
export function textSentence({ text }, verdict) {
  if (text === undefined) return "";
  const worst = places(verdict).sort(by((place) => -place.spotDiameter))[0];
  if (worst.smallestText === null) return `Text of ${showPoints(text.em)} is lost everywhere.`;
  const { crispEm, goodEm, readableEm } = worst.smallestText;
  const sizes = `${showPoints(readableEm)} readable, ${showPoints(goodEm)} good, ${showPoints(crispEm)} crisp`;
  return `Text of ${showPoints(text.em)} is ${worst.textGrade} at the worst place; the smallest there: ${sizes}.`;
}
