// Reads the form, asks the package for a verdict, and shows it. No number is computed here.

import {
  asDiameter1e2,
  awayFromLens,
  caution,
  diameter,
  diameter1e2,
  diffusivity,
  dose,
  focusCheck,
  glassNames,
  inMrad,
  length,
  lineInterval,
  power,
  removalEnergy,
  speed,
  SpotwiseError,
  towardLens,
  typefaceNames,
} from "../dist/spotwise.mjs";
import { drawing } from "./drawing.mjs";
import { fillSentence, marks, textSentence } from "./fill.mjs";
import { drawLight } from "./light.mjs";
import { comparison } from "./promise.mjs";
import {
  element,
  showContrast,
  showDose,
  showIrradiance,
  showLength,
  showOffset,
  showPoints,
  showRatio,
  showTime,
} from "./show.mjs";
import { spotAlong } from "./spot.mjs";

const form = document.querySelector("form");
const field = (name) => form.elements.namedItem(name);

/** What each criterion asks for, and a plausible answer to start from. */
const limits = {
  growth: ["times the spot in focus", "1.1"],
  "irradiance drop": ["share lost, 0.2 for a fifth", "0.2"],
  "line dose drop": ["share lost, 0.1 for a tenth", "0.1"],
  "largest diameter": ["1/e² diameter", "120 um"],
};

/** What each response needs, and a plausible answer to start from. */
const properties = {
  melt: ["its thermal diffusivity", "0.1 mm2/s"],
  "logarithmic ablation": ["depth in which the dose falls by e", "50 um"],
  "linear ablation": ["energy that removes a volume", "3 J/mm3"],
};

/** The field in which each parameter of the model stands, by the parameter's permanent number. */
const fieldOfParameter = new Map([
  [1, "wavelength"],
  [2, "m2"],
  [8, "focalLength"],
  [14, "limit"],
  [15, "limit"],
  [16, "limit"],
  [17, "limit"],
  [22, "surfaceRise"],
  [23, "surfaceFall"],
  [25, "finestStroke"],
  [26, "finestGap"],
  [39, "focusDistance"],
  [41, "atLens"],
  [44, "surfaceRise"],
  [53, "shape"],
  [54, "clearAperture"],
  [55, "clearAperture"],
  [77, "power"],
  [78, "speed"],
  [81, "lineInterval"],
  [82, "lineInterval"],
  [85, "threshold"],
  [87, "lineInterval"],
  [91, "property"],
  [102, "property"],
  [109, "property"],
  [126, "em"],
  [130, "doseRatio"],
]);

/** The field in which a parameter stands. A dose ratio that nobody gave comes of the threshold. */
function fieldOf(parameter) {
  const name = fieldOfParameter.get(parameter);
  return name === "doseRatio" && field("doseBy").value === "scan" ? "threshold" : name;
}

/** Runs `read` on a field's text; a fault is shown at the field. */
function from(name, read) {
  try {
    return read(field(name).value);
  } catch (error) {
    if (error instanceof SpotwiseError) error.field = name;
    throw error;
  }
}

const lengthFrom = (name) => from(name, length);
/** An empty field is no zero. */
const numberIn = (text) => (text.trim() === "" ? NaN : Number(text));
const numberFrom = (name) => from(name, numberIn);
/** A length, or lines to the inch. */
const intervalIn = (text) => (/dpi\s*$/i.test(text) ? lineInterval(numberIn(text.replace(/dpi\s*$/i, ""))) : length(text));

function criterion() {
  const by = field("criterion").value;
  switch (by) {
    case "rayleigh":
      return { by };
    case "growth":
      return { by, ratio: numberFrom("limit") };
    case "largest diameter":
      return { by, diameter: diameter1e2(lengthFrom("limit")) };
    default:
      return { by, drop: numberFrom("limit") };
  }
}

/** What is known of the lens besides its focal length; nothing of an ideal one. */
function singlet() {
  if (field("lens").value === "ideal") return undefined;
  const known = field("clearAperture").value.trim() !== "";
  return {
    glass: field("glass").value,
    shape: field("shape").value,
    clearAperture: known ? diameter(lengthFrom("clearAperture")) : undefined,
  };
}

function response() {
  const kind = field("response").value;
  switch (kind) {
    case "melt":
      return { kind, diffusivity: from("property", diffusivity) };
    case "logarithmic ablation":
      return { kind, penetrationDepth: lengthFrom("property") };
    case "linear ablation":
      return { kind, removalEnergy: from("property", removalEnergy) };
    default:
      return { kind };
  }
}

function jobDose() {
  const by = field("doseBy").value;
  if (by === "ratio") return { by, doseRatio: numberFrom("doseRatio") };
  return {
    by,
    power: from("power", power),
    speed: from("speed", speed),
    lineInterval: from("lineInterval", intervalIn),
    threshold: from("threshold", dose),
    response: response(),
  };
}

/** The text of the drawing, if it has any. */
function jobText() {
  const typeface = field("typeface").value;
  if (typeface === "") return undefined;
  return { typeface, em: lengthFrom("em"), leastGrade: field("leastGrade").value };
}

function job() {
  const side = field("focusSide").value === "toward" ? towardLens : awayFromLens;
  return {
    wavelength: lengthFrom("wavelength"),
    m2: numberFrom("m2"),
    rawBeam: { by: "collimated", atLens: diameter1e2(lengthFrom("atLens")) },
    focalLength: lengthFrom("focalLength"),
    singlet: singlet(),
    focus: { by: "datum", waistZ: from("focusDistance", (text) => side(length(text))) },
    surfaceRise: lengthFrom("surfaceRise"),
    surfaceFall: lengthFrom("surfaceFall"),
    criterion: criterion(),
    finestStroke: lengthFrom("finestStroke"),
    finestGap: lengthFrom("finestGap"),
    dose: jobDose(),
    text: jobText(),
  };
}

function showVerdict(given, verdict) {
  const box = document.querySelector("#verdict");
  const mark = { holds: "✓", "holds out of focus": "!", lost: "✕", "nothing marks": "✕" }[verdict.outcome];
  box.dataset.outcome = verdict.outcome;
  box.querySelector("h2").textContent = `${mark} ${verdict.summary}`;
  const notes = [...verdict.reasons, ...verdict.validity.cautions];
  box.querySelector("ul").replaceChildren(...notes.map((text) => element("li", text)));
  box.querySelector(".fill").textContent = fillSentence(given, verdict);
  box.querySelector(".text").textContent = textSentence(given, verdict);
}

function showPlaces(verdict) {
  const { highest, datum, lowest, real, scan } = verdict;
  const yes = (value) => (value ? "✓ yes" : "✕ no");
  const heatSpreads = datum.seenSpotDiameter !== datum.spotDiameter;
  const details = [
    ["Finest stroke held", (p) => showLength(p.smallestStroke)],
    ["Finest gap held", (p) => showLength(p.smallestGap)],
    ["Finest dot held", (p) => showLength(p.smallestDot.diameter)],
    ["Finest hole held", (p) => showLength(p.smallestHole.diameter)],
    ...(scan === null ? [] : [["Ripple of the fill", (p) => showContrast(p.rippleContrast)]]),
  ];
  const rows = [
    ["From the waist", (p) => showOffset(p.zOffset)],
    [real === null ? "Spot, 1/e² diameter" : "Spot, 86.5 % of the power", (p) => showLength(p.spotDiameter)],
    ...(heatSpreads ? [["… as the melt sees it", (p) => showLength(p.seenSpotDiameter)]] : []),
    ["Spot against that in focus", (p) => showRatio(p.growth)],
    ["Irradiance left", (p) => showRatio(p.irradianceRatio)],
    ["Line dose left", (p) => showRatio(p.lineDoseRatio)],
    ...(marks(verdict) ? details : [["Finest detail held", () => "✕ none"]]),
    ...(datum.smallestText === null
      ? []
      : [
          ["Smallest crisp text", (p) => showPoints(p.smallestText.crispEm)],
          ["Smallest good text", (p) => showPoints(p.smallestText.goodEm)],
          ["Smallest readable text", (p) => showPoints(p.smallestText.readableEm)],
        ]),
    ...(datum.textGrade === null
      ? []
      : [["The text comes out", (p) => (p.textGrade === "lost" ? "✕ lost" : p.textGrade)]]),
    ["The drawing holds", (p) => yes(p.detailsHold)],
    ["In focus", (p) => yes(p.inDepth)],
  ];
  const body = rows.map(([name, text]) => {
    const row = element("tr", "");
    row.append(element("th", name, { scope: "row" }));
    for (const place of [highest, datum, lowest]) {
      const value = text(place);
      row.append(element("td", value, value.startsWith("✕") ? { class: "no" } : {}));
    }
    return row;
  });
  document.querySelector("#places tbody").replaceChildren(...body);
}

function showRest({ focused, real, depth, detailRange, textRange, scan, fillDepth, bestFocusZ, bestWorstGrowth }) {
  const spot =
    real === null
      ? `${showLength(asDiameter1e2(focused.waist))} (1/e² diameter)`
      : `${showLength(real.power86.waistDiameter)} (diameter with 86.5 % of the power)`;
  const pairs = [
    ["Spot in focus", spot],
    ["Rayleigh range", showLength((real?.power86 ?? focused).rayleighRange)],
    ["Widest cone", `${inMrad((real ?? focused).halfAngle).toFixed(0)} mrad half angle`],
    ["Depth of focus", depth === null ? "none" : `${showLength(depth.full)} from end to end`],
    ["Stroke and gap hold", detailRange === null ? "at no height" : `over ${showLength(detailRange.full)} from end to end`],
    ...(textRange === null ? [] : [["Text holds", `over ${showLength(textRange.full)} from end to end`]]),
    ...(scan === null
      ? []
      : [
          ["Line dose in focus", `${showDose(scan.lineDose)} on the middle of one line`],
          ["Irradiance in focus", `${showIrradiance(scan.peakIrradiance)} on the axis, for ${showTime(scan.dwell)}`],
        ]),
    ...(fillDepth === null || fillDepth === 0 ? [] : [["Depth of the fill", `${showLength(fillDepth)}, in focus and out of it`]]),
    ["Best focus", `${showOffset(bestFocusZ, "the datum")}: spot at ${showRatio(bestWorstGrowth)} of that in focus at both ends`],
  ];
  const items = pairs.flatMap(([name, text]) => [element("dt", name), element("dd", text)]);
  document.querySelector("dl").replaceChildren(...items);
}

/** Beside the real lens, what an ideal one would have promised; and the light itself. */
function showReal(given, verdict, spotAt) {
  const isReal = verdict.real !== null;
  document.querySelector("#result").classList.toggle("real", isReal);
  for (const id of ["#promise", "#light"]) document.querySelector(id).hidden = !isReal;
  if (!isReal) return;
  const ideal = focusCheck({ ...given, singlet: undefined });
  document.querySelector("#promise tbody").replaceChildren(...comparison(ideal, verdict));
  const light = document.querySelector("#light");
  drawLight(light.querySelector("canvas"), light.querySelector(".no-picture"), verdict.real, spotAt);
}

/** Shows what is wrong: at its field if it stands in one, and in place of the verdict. */
function showFault(error) {
  const name = error.field ?? fieldOf(error.parameter);
  const box = document.querySelector("#verdict");
  delete box.dataset.outcome;
  box.querySelector("h2").textContent = "No verdict";
  box.querySelector("ul").replaceChildren(element("li", error.message));
  for (const line of box.querySelectorAll("p")) line.textContent = "";
  document.querySelector("#result").classList.add("fault-found");
  if (name === undefined) return;
  field(name).setAttribute("aria-invalid", "true");
  field(name).after(element("span", error.message, { class: "fault" }));
}

function update() {
  for (const fault of form.querySelectorAll(".fault")) fault.remove();
  for (const input of form.querySelectorAll("[aria-invalid]")) input.removeAttribute("aria-invalid");
  let given;
  let verdict;
  try {
    given = job();
    verdict = focusCheck(given);
  } catch (error) {
    if (!(error instanceof SpotwiseError)) throw error;
    showFault(error);
    return;
  }
  document.querySelector("#result").classList.remove("fault-found");
  showVerdict(given, verdict);
  showPlaces(verdict);
  showRest(verdict);
  const spotAt = spotAlong(given, verdict);
  showReal(given, verdict, spotAt);
  const place = document.querySelector("#drawing");
  place.replaceChildren(drawing(verdict, spotAt, place.clientWidth));
}

/** Shows the fields that belong to what is chosen. */
function showChoices() {
  const chosen = {
    "#real-lens": field("lens").value === "real",
    "#text-given": field("typeface").value !== "",
    "#dose-scan": field("doseBy").value === "scan",
    "#dose-ratio": field("doseBy").value === "ratio",
  };
  for (const [group, shown] of Object.entries(chosen)) document.querySelector(group).hidden = !shown;
}

/** Asks for the one number that a choice needs, with an answer to start from; for none if it needs none. */
function ask(name, [words, start] = []) {
  document.querySelector(`#${name}-name`).textContent = words ?? "";
  field(name).value = start ?? "";
  field(name).closest("label").hidden = words === undefined;
}

form.addEventListener("input", (event) => {
  if (event.target === field("criterion")) ask("limit", limits[event.target.value]);
  if (event.target === field("response")) ask("property", properties[event.target.value]);
  showChoices();
  update();
});
addEventListener("resize", update);
form.addEventListener("submit", (event) => event.preventDefault());
document.querySelector("#caution").textContent = caution;
field("glass").append(...glassNames.map((name) => element("option", name)));
field("typeface").append(...typefaceNames.map((name) => element("option", name)));
field("typeface").value = "sans";
showChoices();
update();
