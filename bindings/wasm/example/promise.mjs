// What an ideal lens would have promised, beside what the real one gives.

import { asDiameter1e2, inRad } from "../dist/spotwise.mjs";
import { element, showLength, showOffset, showRatio } from "./show.mjs";

const marks = { holds: "✓", "holds out of focus": "!", lost: "✕", "nothing marks": "✕" };
const outcome = ({ outcome }) => `${marks[outcome]} ${outcome}`;
const full = (range) => (range === null ? "none" : showLength(range.full));

/** Rows of a table: a name, the ideal lens, the real one. Both verdicts are on the same job. */
export function comparison(ideal, verdict) {
  const { real } = verdict;
  const { power86 } = real;
  const bracket = [real.quadratureDiameter, real.handbookDiameter].map(showLength);
  const rows = [
    ["The drawing", outcome(ideal), outcome(verdict)],
    ["Spot in focus", showLength(asDiameter1e2(ideal.focused.waist)), showLength(power86.waistDiameter)],
    ["… by handbook estimates", "", bracket.join(" to ")],
    ["Focus, from that of an ideal lens", "", showOffset(power86.shift)],
    ["Depth of focus, end to end", full(ideal.depth), full(verdict.depth)],
    ["Stroke and gap hold over", full(ideal.detailRange), full(verdict.detailRange)],
    ...(verdict.textRange === null && ideal.textRange === null
      ? []
      : [["The text keeps its grade over", full(ideal.textRange), full(verdict.textRange)]]),
    ["Greatest irradiance, no aperture", showRatio(1), showRatio(real.peakIrradianceRatio)],
    ["Light through the aperture", showRatio(1), showRatio(real.transmitted)],
    ["Aberration at the 1/e² radius", "0", `${inRad(real.aberrationPhase).toPrecision(2)}\u00a0rad`],
    ["… over M² (good to 0.3, rough to 1)", "0", real.normalisedAberration.toPrecision(2)],
  ];
  return rows.map(([name, ...cells]) => {
    const row = element("tr", "");
    row.append(element("th", name, { scope: "row" }));
    row.append(...cells.map((text) => element("td", text, text.startsWith("✕") ? { class: "no" } : {})));
    return row;
  });
}
