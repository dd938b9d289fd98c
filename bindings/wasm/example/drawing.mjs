// The focused beam from the side: its outline through focus, the heights of the surface across it,
// and beside it the heights that are in focus and those at which the drawing holds.

import { diametersAt, inM, reasonBit } from "../dist/spotwise.mjs";
import { showLength } from "./show.mjs";

const HEIGHT = 400;
const TOP = 34;
const BOTTOM = 386;
/** Room for the bars to the left of the beam, and for the labels to its right. */
const BARS = 112;
const LABELS = 104;
/** Wider, the beam would hide how slender it is. */
const WIDEST = 640;
const STEPS = 160;

const NAMESPACE = "http://www.w3.org/2000/svg";

function shape(name, attributes, text = "") {
  const made = document.createElementNS(NAMESPACE, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.textContent = text;
  return made;
}

const metres = (offset) => inM(offset.zAwayFromLens);

/** An SVG of a verdict, at most this many pixels wide. `spotAt` gives the diameter at a distance from the waist. */
export function drawing(verdict, spotAt, room) {
  const { focused, real, depth } = verdict;
  const places = [
    ["highest", verdict.highest],
    ["datum", verdict.datum],
    ["lowest", verdict.lowest],
  ];
  // As far as the surface and the depth of focus reach, and a bit.
  const ends = depth === null ? [] : [metres(depth.towardLens), metres(depth.awayFromLens)];
  const { rayleighRange } = real?.power86 ?? focused;
  const heights = places.map(([, place]) => metres(place.zOffset)).concat(ends, inM(rayleighRange) / 2);
  const reach = 1.2 * Math.max(...heights.map(Math.abs));
  const y = (z) => TOP + ((z + reach) / (2 * reach)) * (BOTTOM - TOP);

  const z = Float64Array.from({ length: STEPS + 1 }, (_, i) => -reach + (2 * reach * i) / STEPS);
  const diameters = z.map(spotAt);
  // Heights count from the waist of the real lens, which lies `shift` beyond that of the ideal one.
  const ideal =
    real === null ? null : diametersAt(real.ideal, z.map((at) => at + metres(real.power86.shift))).diametersInMetres;
  const width = Math.min(room, WIDEST);
  const [left, right] = [BARS, width - LABELS];
  const middle = (left + right) / 2;
  const widest = Math.max(...diameters, ...(ideal ?? []));
  const half = (diameter) => ((diameter / widest) * (right - left)) / 2;

  const svg = shape("svg", {
    width,
    height: HEIGHT,
    role: "img",
    "aria-label": "The focused beam with the heights of the surface",
    "font-family": "system-ui, sans-serif",
    "font-size": "14",
    fill: "var(--ink)",
  });
  svg.append(...outline(z, diameters, y, half, middle));
  if (ideal !== null) svg.append(...edges(z, ideal, y, half, middle));
  svg.append(...bar(30, "in focus", "var(--depth)", depth, reach, y));
  svg.append(...bar(86, "holds", "var(--detail)", heldRange(verdict), reach, y));
  svg.append(...levels(places, y, (place) => half(inM(place.spotDiameter)), left, right));
  svg.append(shape("text", { x: middle, y: TOP - 12, "text-anchor": "middle", fill: "var(--quiet)" }, "↑ lens"));
  return svg;
}

/** The points of one edge of a beam. */
function edge(sign, z, diameters, y, half, middle) {
  return [...z].map((at, i) => `${(middle + sign * half(diameters[i])).toFixed(1)},${y(at).toFixed(1)}`);
}

/** Both edges of the beam of an ideal lens, dotted. */
function edges(...beam) {
  const line = { fill: "none", stroke: "var(--quiet)", "stroke-width": 1.5, "stroke-dasharray": "2 4" };
  return [-1, 1].map((sign) => shape("polyline", { points: edge(sign, ...beam).join(" "), ...line }));
}

/** Both edges of the beam, filled between. */
function outline(...beam) {
  const middle = beam.at(-1);
  const points = [...edge(-1, ...beam), ...edge(1, ...beam).reverse()].join(" ");
  return [
    shape("polygon", { points, fill: "var(--beam)", "fill-opacity": 0.16, stroke: "var(--beam)", "stroke-width": 2 }),
    shape("line", {
      x1: middle,
      x2: middle,
      y1: TOP,
      y2: BOTTOM,
      stroke: "var(--beam)",
      "stroke-dasharray": "2 6",
    }),
  ];
}

/** The heights at which the whole drawing holds: the narrower of those of detail and text, `null` if none. */
function heldRange({ detailRange, textRange, reasonBits }) {
  if (detailRange === null || reasonBits & reasonBit.textTooSmall) return null;
  return textRange !== null && textRange.full < detailRange.full ? textRange : detailRange;
}

/** A range of heights as a bar. An end beyond the drawing is an arrow. */
function bar(x, name, colour, range, reach, y) {
  const label = shape("text", { x, y: TOP - 12, "text-anchor": "middle" }, name);
  if (range === null) {
    return [label, shape("text", { x, y: TOP + 16, "text-anchor": "middle" }, "none")];
  }
  const ends = [metres(range.towardLens), metres(range.awayFromLens)];
  const [from, to] = ends.map((z) => y(Math.max(-reach, Math.min(reach, z))));
  const cap = (end, at, into) =>
    Math.abs(end) <= reach
      ? shape("line", { x1: x - 13, x2: x + 13, y1: at, y2: at, stroke: colour, "stroke-width": 3 })
      : shape("path", { d: `M${x - 11},${at + 14 * into} L${x},${at} L${x + 11},${at + 14 * into} Z`, fill: colour });
  const inset = (end) => (Math.abs(end) <= reach ? 0 : 10);
  return [
    label,
    shape("line", {
      x1: x,
      x2: x,
      y1: from + inset(ends[0]),
      y2: to - inset(ends[1]),
      stroke: colour,
      "stroke-width": 9,
    }),
    cap(ends[0], from, 1),
    cap(ends[1], to, -1),
  ];
}

/** The heights of the surface, each across the beam with its name and spot. */
function levels(places, y, half, left, right) {
  const middle = (left + right) / 2;
  const heights = places.map(([, place]) => y(metres(place.zOffset)));
  const labels = apart(heights, 40);
  return places.flatMap(([name, place], i) => {
    const at = heights[i];
    const good = place.detailsHold && place.inDepth;
    const line = { stroke: good ? "var(--ink)" : "var(--lost)", ...(good ? {} : { "stroke-dasharray": "7 4" }) };
    const [from, to] = [middle - half(place), middle + half(place)];
    const path = `M${left},${at} H${right + 6} L${right + 20},${labels[i]}`;
    return [
      shape("path", { d: path, fill: "none", "stroke-width": 1.5, ...line }),
      shape("line", { x1: from, x2: to, y1: at, y2: at, stroke: line.stroke, "stroke-width": 4 }),
      shape("text", { x: right + 24, y: labels[i] - 3 }, `${name}${good ? "" : " ✕"}`),
      shape("text", { x: right + 24, y: labels[i] + 14 }, showLength(place.spotDiameter)),
    ];
  });
}

/** The heights of three labels, moved apart until they do not touch, and kept in the drawing. */
function apart([high, middle, low], distance) {
  const first = Math.max(TOP + 14, Math.min(high, middle - distance));
  const second = Math.max(middle, first + distance);
  const third = Math.min(BOTTOM - 14, Math.max(low, second + distance));
  const above = Math.min(second, third - distance);
  return [Math.min(first, above - distance), above, third];
}
