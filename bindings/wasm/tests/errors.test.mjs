// Bad input throws one kind of error, which names the parameter, its value and what is allowed.

import assert from "node:assert/strict";
import { test } from "node:test";
import { runInNewContext } from "node:vm";
import * as s from "spotwise";

const { um, mm, m, diameter1e2, inFocus, awayFromLens } = s;
const beam = { wavelength: um(10.6), m2: 1.2, waist: diameter1e2(um(88)) };
const job = {
  ...beam,
  rawBeam: { by: "collimated", atLens: diameter1e2(mm(7)) },
  focalLength: mm(38.1),
  focus: { by: "datum", waistZ: inFocus },
  surfaceRise: mm(0.3),
  surfaceFall: mm(0.3),
  criterion: { by: "rayleigh" },
  finestStroke: mm(0.1),
  finestGap: mm(0.1),
  dose: { by: "ratio", doseRatio: 2.7 },
};

/** A raw waist close before the lens: the light still spreads behind it. */
const virtualWaist = {
  rawBeam: { by: "waist", waist: diameter1e2(um(50)), waistAt: s.upstream(mm(10)) },
};

/** A plano-convex lens of zinc selenide, in a beam of 9 mm. */
const wide = { ...beam, waist: diameter1e2(mm(9)) };
const singlet = { index: 2.4028, shape: "curved side first", focalLength: mm(38.1), waistAt: s.atLens };
const realJob = { ...job, singlet: { glass: "zinc selenide", shape: "best form" } };
const wave = {
  wavelength: um(10.6),
  m2: 1.2,
  atLens: diameter1e2(mm(9)),
  lensToFocus: mm(38.1),
  aberrationPhase: s.rad(0.5),
};
const rawRound = s.roundRawBeam(wide, s.atLens);
const expanded = {
  by: "expanded",
  waist: diameter1e2(mm(4.5)),
  waistAt: s.upstream(m(0.3)),
  magnification: 2,
  exitPower: s.perM(0.2),
  expanderToLens: m(1.4),
};

/** What a scan, a mark and a text need besides the beam. */
const spot = diameter1e2(um(88));
const scan = { power: s.watt(20), speed: s.mPerS(0.5), spotAcross: spot, spotAlong: spot, lineInterval: um(50) };
const scanJob = { ...job, dose: { by: "scan", ...scan, threshold: s.jPerMm2(0.32) } };
const text = { typeface: "sans", em: s.pt(4), leastGrade: "good" };
const style = { typeface: "sans", doseRatio: 2.7 };
const line = { kind: "line", doseRatio: 2.7 };
const speeds = { speed: s.mPerS(0.5), leastSpeed: s.mPerS(0.1), greatestSpeed: s.mPerS(2) };
const setting = { ...line, ...speeds, power: s.watt(20), greatestPower: s.watt(25) };
const bulk = { threshold: s.jPerMm2(0.5), response: { kind: "coating" } };
const melting = (diffusivity) => ({ kind: "melt", diffusivity: s.m2PerS(diffusivity) });
/** A beam that is as wide at each of these heights in millimetres. */
const readings = (...heights) =>
  heights.map((z) => ({ height: s.signedOffset(mm(z)), width: diameter1e2(um(80)), deviation: um(1) }));
const exposure = { dose: s.jPerMm2(2), spot, dwell: s.us(50) };
const pulses = { spot, doseRatio: 2.7, pulsePitch: um(10), penetrationDepth: um(0.1), radius: um(0), aside: um(0) };
// Lines of a spot of 80 um, zR = 0.4 mm, so many times the threshold: b = 80 um u sqrt(ln(q/u)/2).
const seriesOf = (steps, step, focus, dose, deviation) =>
  steps.map((k) => {
    const u = Math.hypot(1, (k * step - focus) / 0.4);
    const width = um(80 * u * Math.sqrt(Math.log(dose / u) / 2));
    return { height: s.signedOffset(mm(k * step)), width, deviation: um(deviation) };
  });
const heightMarks = seriesOf([-5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5], 0.2, 0.05, 4, 1);
const heightSeries = { kind: "line", wavelength: um(10.6) };
const testMarks = [20, 30, 40].map((width, i) => ({ dose: s.watt(2 ** i), width: um(width), deviation: um(1) }));

const bow = { source: "part bow", distribution: { kind: "uniform", halfWidth: mm(0.3) } };
const aside = { towardLens: s.towardLens(mm(0.2)), awayFromLens: awayFromLens(mm(0.1)) };
const uneven = { finestStroke: um(60), finestGap: um(60), doseRatio: 2.7, highest: s.towardLens(mm(0.2)), lowest: awayFromLens(mm(0.1)) };
const shortLens = { focalLength: mm(38.1), workingDistance: mm(25) };
const series = {
  purpose: { for: "widths" },
  expectedFocus: inFocus,
  focusUncertainty: mm(0),
  axis: { backlash: mm(0), direction: "away from lens", clearance: mm(20), leastClearance: mm(2) },
  layout: { pieceWidth: mm(8), pieceHeight: mm(8), labelWidth: mm(6), labelHeight: mm(2), gap: mm(2) },
};
const judgement = { rayleighRange: mm(0.5), relativeDeviation: 0.1, coverageProbability: 0.95 };
const setUp = { tolerance: mm(0.2), leastClearance: mm(3) };

const now = { width: um(80), deviation: um(1) };
const goodMark = { kind: "line", doseRatio: 4, width: { width: um(73), deviation: um(1) } };
const depths = { law: "linear", goodDepth: 40, goodDepthDeviation: 1, depth: 30, depthDeviation: 1 };
const threeHeights = { kind: "line", law: "linear", heightStep: mm(0.3), towardLens: 3, middle: 4, awayFromLens: 3, deviation: 0.1 };

const plate = { samples: new Uint8Array(4).fill(255), width: 2, height: 2, pitchX: um(30), pitchY: um(30), kind: "bilevel", use: "burnt raster" };
const level = { kind: "plane", slope: { awayFromLensAlongX: 0, awayFromLensAlongY: 0 } };
const burn = { drawing: plate, beam, focus: inFocus, surface: level, answer: { kind: "coating" }, doseRatio: 2 };

/** The error that a call throws. */
function thrown(call) {
  try {
    call();
  } catch (error) {
    assert.ok(error instanceof s.SpotwiseError, String(error));
    assert.ok(error instanceof Error);
    assert.equal(error.name, "SpotwiseError");
    return error;
  }
  assert.fail("nothing was thrown");
}

test("an error says everything, in words and in numbers", () => {
  const e = thrown(() => s.beamParameters({ ...beam, m2: 0.9 }));
  assert.equal(e.message, "M squared = 0.9 is out of range (must be from 1 to 10000)");
  assert.deepEqual(
    [e.code, e.parameter, e.parameterName, e.value, e.least, e.greatest],
    [s.errorCode.outOfRange, 2, "M squared", 0.9, 1, 10000],
  );
});

test("each code", () => {
  const cases = [
    ["notFinite", 5, () => s.beamAt(beam, s.signedOffset(m(NaN)))],
    ["notFinite", 1, () => s.beamParameters({ ...beam, wavelength: m(Infinity) })],
    ["outOfRange", 3, () => s.beamParameters({ ...beam, waist: diameter1e2(m(-1)) })],
    ["unknownChoice", 27, () => s.convertWidth(um(85), { from: "1/e2", to: "1/e" })],
    ["unknownChoice", 28, () => s.depthOfFocus(beam, { by: "sharpness" })],
    ["unknownChoice", 29, () => s.focusCheck({ ...job, rawBeam: { by: "hope" } })],
    ["unknownChoice", 30, () => s.focusCheck({ ...job, focus: { by: "eye" } })],
    ["unknownChoice", 45, () => s.refractiveIndex({ glass: "wood", wavelength: um(1) })],
    ["unknownChoice", 45, () => s.glassData("zinc")],
    ["unknownChoice", 45, () => s.focusCheck({ ...realJob, singlet: { shape: "best form" } })],
    ["unknownChoice", 50, () => s.lensAberration({ ...singlet, shape: "round" })],
    ["unknownChoice", 50, () => s.focusCheck({ ...realJob, singlet: { glass: "germanium", shape: null } })],
    ["unknownChoice", 56, () => s.smallestSpot({ ...wave, ...singlet, measure: "area" })],
    ["unknownChoice", 56, () => s.singletDefocus(wide, singlet, "area", inFocus)],
    ["unknownChoice", 56, () => s.singletDefocus(wide, singlet, "handbook", inFocus)],
    ["unknownChoice", 56, () => s.singletDepthOfFocus(wide, singlet, "handbook", { by: "rayleigh" })],
    ["unknownChoice", 50, () => s.lensAtWavelength({ glass: "germanium", shape: "round" })],
    ["unknownChoice", 59, () => s.beamAfterPath(rawRound, [{ kind: "mirror" }])],
    ["unknownChoice", 69, () => s.waveFocus(wave, "sharpest")],
    ["unknownChoice", 70, () => s.focusCheck({ ...job, singlet: "zinc selenide" })],
    ["unknownChoice", 70, () => s.focusCheck({ ...job, singlet: null })],
    ["outOfRange", 1, () => s.refractiveIndex({ glass: "germanium", wavelength: um(1) })],
    ["outOfRange", 1, () => s.focusCheck({ ...realJob, wavelength: um(0.45) })],
    ["outOfRange", 46, () => s.lensAberration({ ...singlet, index: 1 })],
    ["outOfRange", 51, () => s.lensAberration({ ...singlet, shape: { shapeFactor: 101 } })],
    ["outOfRange", 54, () => s.focusSinglet(wide, { ...singlet, clearAperture: s.diameter(mm(0)) })],
    ["outOfRange", 75, () => s.tiltedSpot(beam, inFocus, s.deg(-1))],
    ["outOfRange", 61, () => s.focusCheck({ ...job, rawBeam: { ...expanded, magnification: 0 } })],
    ["notFinite", 48, () => s.lensFromRadii({ index: 1.5, first: s.signedRadius(m(NaN)), second: "flat" })],
    ["notFinite", 54, () => s.focusSinglet(wide, { ...singlet, clearAperture: s.diameter(m(-Infinity)) })],
    ["outsideModel", 8, () => s.lensFromRadii({ index: 1.5, first: "flat", second: "flat" })],
    ["outsideModel", 53, () => s.focusCheck({ ...realJob, rawBeam: { by: "collimated", atLens: diameter1e2(mm(16)) } })],
    ["outsideModel", 76, () => s.tiltedSpot(beam, inFocus, s.rad(1.5))],
    ["outsideModel", 53, () => s.singletDefocus({ ...wide, waist: diameter1e2(mm(16)) }, singlet, "power 86", inFocus)],
    ["outsideModel", 55, () => s.focusSinglet(wide, { ...singlet, clearAperture: s.diameter(mm(1)) })],
    ["outsideModel", 68, () => s.waveIrradiance(wave, { radius: um(0), z: awayFromLens(mm(30)) })],
    ["outsideModel", 74, () => s.waveIrradiance(wave, { radius: mm(5), z: inFocus })],
    ["outsideModel", 10, () => s.beamParameters({ ...beam, waist: diameter1e2(um(5)) })],
    ["outsideModel", 43, () => s.focusCheck({ ...job, ...virtualWaist })],
    ["outsideModel", 44, () => s.focusCheck({ ...job, surfaceRise: mm(40) })],
    ["unreachable", 19, () => s.offsetsForDiameter(beam, diameter1e2(um(80)))],
    [
      "unreachable",
      17,
      () => s.singletDepthOfFocus(wide, singlet, "power 86", { by: "largest diameter", diameter: diameter1e2(um(70)) }),
    ],
    [
      "unreachable",
      17,
      () => s.depthOfFocus(beam, { by: "largest diameter", diameter: diameter1e2(um(80)) }),
    ],
    ["outOfRange", 71, () => s.waveMap(wave, new Float64Array(5000), new Float64Array(5000))],
    ["lengthMismatch", 40, () => s.diametersAt(beam, new Float64Array(3), new Float64Array(2))],
    ["outOfRange", 77, () => s.scanDose({ ...scan, power: s.watt(0) })],
    ["outOfRange", 78, () => s.scanDose({ ...scan, speed: s.mPerS(-1) })],
    ["notFinite", 79, () => s.scanDose({ ...scan, spotAcross: diameter1e2(m(NaN)) })],
    ["notFinite", 80, () => s.blurBudget({ ...scan, spotAlong: diameter1e2(m(NaN)) })],
    ["outOfRange", 81, () => s.scanDose({ ...scan, lineInterval: m(2) })],
    ["outOfRange", 82, () => s.lineInterval(0)],
    ["outOfRange", 83, () => s.pulseDose(scan, s.hz(0))],
    ["outOfRange", 84, () => s.doseOverThreshold({ dose: s.jPerM2(0), threshold: s.jPerM2(1) })],
    ["outOfRange", 85, () => s.doseOverThreshold({ dose: s.jPerM2(1), threshold: s.jPerM2(0) })],
    ["unknownChoice", 86, () => s.markWidth(beam, { ...line, kind: "fill" }, inFocus)],
    ["unknownChoice", 133, () => s.toleranceStack([{ ...bow, source: "wind" }], 0.95)],
    ["unknownChoice", 133, () => s.offsetOdds("part bow", {}, {})],
    ["unknownChoice", 134, () => s.toleranceStack([{ ...bow, distribution: { kind: "even" } }], 0.95)],
    ["outOfRange", 135, () => s.toleranceStack([{ ...bow, distribution: { kind: "uniform", halfWidth: mm(-1) } }], 0.95)],
    ["notFinite", 136, () => s.toleranceStack([{ ...bow, distribution: { kind: "normal", halfWidth: mm(1) } }], 0.95)],
    ["outOfRange", 137, () => s.toleranceStack([{ ...bow, mean: awayFromLens(m(1001)) }], 0.95)],
    ["undetermined", 138, () => s.toleranceStack([], 0.95)],
    ["outOfRange", 139, () => s.toleranceStack([bow], 95)],
    ["outOfRange", 140, () => s.offsetOdds([bow], aside, { count: 9, seed: 1 })],
    ["outOfRange", 140, () => s.offsetOdds([bow], aside, { count: 100.5, seed: 1 })],
    ["outOfRange", 141, () => s.offsetOdds([bow], aside, { count: 100, seed: Number.MAX_SAFE_INTEGER + 1 })],
    ["notFinite", 141, () => s.offsetOdds([bow], aside, { count: 100 })],
    ["notFinite", 142, () => s.offsetOdds([bow], {}, { count: 100, seed: 1 })],
    ["outOfRange", 143, () => s.offsetOdds([bow], { towardLens: inFocus, awayFromLens: s.towardLens(mm(1)) }, { count: 100, seed: 1 })],
    ["notFinite", 144, () => s.detailOdds(beam, { ...uneven, highest: undefined }, [bow], { count: 100, seed: 1 })],
    ["outOfRange", 145, () => s.detailOdds(beam, { ...uneven, lowest: s.towardLens(mm(1)) }, [bow], { count: 100, seed: 1 })],
    ["outsideModel", 87, () => s.rasterRipple({ spot, lineInterval: mm(1) })],
    ["outOfRange", 88, () => s.intervalForRipple({ spot, rippleContrast: 1 })],
    ["outOfRange", 89, () => s.fillWidth(beam, { drawnWidth: um(0), doseRatio: 2 }, inFocus)],
    ["outOfRange", 90, () => s.detailExposure({ spot, size: um(0) })],
    ["outOfRange", 91, () => s.blurBudget({ ...scan, diffusivity: s.m2PerS(-1) })],
    ["outOfRange", 92, () => s.blurBudget({ ...scan, pixel: m(-1) })],
    ["outOfRange", 93, () => s.blurBudget({ ...scan, jitterDeviation: m(-1) })],
    ["outOfRange", 94, () => s.blurBudget({ ...scan, riseTime: s.s(-1) })],
    ["outOfRange", 95, () => s.blurBudget({ ...scan, switchDelay: s.s(-1) })],
    ["unknownChoice", 96, () => s.offsetForTaste(beam, um(60), { by: "prettiest" })],
    ["unreachable", 97, () => s.offsetForTaste(beam, um(60), { by: "smoothest within", largestEdge: um(50) })],
    ["outOfRange", 98, () => s.offsetForTaste(beam, um(60), { by: "compromise", crispnessWeight: 0 })],
    ["outOfRange", 99, () => s.pulsedLine({ ...pulses, pulsePitch: m(0) })],
    ["outOfRange", 100, () => s.pulsedLine({ ...pulses, incubation: 1.1 })],
    ["outOfRange", 101, () => s.pulsedLine({ ...pulses, pulses: 0 })],
    ["outOfRange", 102, () => s.crater({ ...pulses, penetrationDepth: m(0) })],
    ["outOfRange", 66, () => s.groove({ ...pulses, aside: m(-1) })],
    ["outOfRange", 103, () => s.connectedSpeed({ ...pulses, repetitionRate: s.khz(50), scallop: mm(1) })],
    ["unknownChoice", 104, () => s.compensate(beam, inFocus, "same depth", setting)],
    ["outOfRange", 105, () => s.compensate(beam, inFocus, "same dose", { ...setting, greatestPower: s.watt(19) })],
    ["outOfRange", 106, () => s.compensate(beam, inFocus, "same dose", { ...setting, leastSpeed: s.mPerS(1) })],
    ["outOfRange", 107, () => s.compensate(beam, inFocus, "same dose", { ...setting, leastIrradianceRatio: -1 })],
    ["unknownChoice", 108, () => s.materialMark({ ...bulk, response: { kind: "foam" } }, exposure)],
    ["outOfRange", 109, () => s.materialMark({ ...bulk, response: { kind: "linear ablation", removalEnergy: s.jPerM3(0) } }, exposure)],
    ["outOfRange", 110, () => s.materialMark(bulk, { ...exposure, dwell: s.s(-1) })],
    ["outOfRange", 113, () => s.fitThreshold([{ ...testMarks[0], width: um(0) }, ...testMarks])],
    ["outOfRange", 114, () => s.fitThreshold([{ ...testMarks[0], deviation: um(0) }, ...testMarks])],
    ["outOfRange", 115, () => s.fitThreshold(testMarks, { outlierLimit: 1 })],
    ["undetermined", 116, () => s.fitThreshold(testMarks.slice(1))],
    ["undetermined", 117, () => s.fitThreshold(testMarks.map((mark) => ({ ...mark, width: um(30) })))],
    ["unknownChoice", 118, () => s.typefaceShares("script")],
    ["outOfRange", 119, () => s.typefaceShares({ stem: 0, effectiveStroke: 0.1, effectiveCounter: 0.1, effectiveGap: 0.1 })],
    ["notFinite", 122, () => s.typefaceShares({ stem: 0.1, effectiveStroke: 0.1, effectiveCounter: 0.1 })],
    ["outOfRange", 123, () => s.smallestText({ ...style, spot, grades: { crispExposure: 1 } })],
    ["outOfRange", 124, () => s.smallestText({ ...style, spot, grades: { readableWindow: 0.9 } })],
    ["unknownChoice", 125, () => s.offsetForText(beam, { ...style, em: s.pt(4), grade: "fair" })],
    ["unknownChoice", 125, () => s.offsetForText(beam, { ...style, em: s.pt(4), grade: "lost" })],
    ["outOfRange", 126, () => s.textQuality({ ...style, spot, em: s.pt(0) })],
    ["unreachable", 126, () => s.offsetForText(beam, { ...style, em: s.pt(0.2), grade: "crisp" })],
    ["unknownChoice", 127, () => s.focusCheck({ ...job, dose: { by: "feel" } })],
    ["unknownChoice", 127, () => s.focusCheck({ ...job, dose: 2.7 })],
    ["unknownChoice", 128, () => s.focusCheck({ ...job, text: "Hello" })],
    ["unknownChoice", 128, () => s.focusCheck({ ...job, text: null })],
    ["unknownChoice", 118, () => s.focusCheck({ ...job, text: { ...text, typeface: "script" } })],
    ["unknownChoice", 125, () => s.focusCheck({ ...job, text: { ...text, leastGrade: "fair" } })],
    ["notFinite", 123, () => s.focusCheck({ ...job, text: { ...text, grades: null } })],
    ["outOfRange", 18, () => s.smallestDetails({ spot, doseRatio: 1 })],
    ["outOfRange", 18, () => s.compensate(beam, inFocus, "same dose", { ...setting, doseRatio: 1 })],
    ["outOfRange", 99, () => s.groove({ ...pulses, pulsePitch: um(63) })], // the dot: 88·√(ln(2.7)/2) = 62.015
    ["outsideModel", 78, () => s.connectedSpeed({ ...pulses, repetitionRate: s.hz(1e12), scallop: um(5) })],
    ["unknownChoice", 108, () => s.focusCheck({ ...scanJob, dose: { ...scanJob.dose, response: { kind: "foam" } } })],
    ["unknownChoice", 108, () => s.focusCheck({ ...scanJob, dose: { ...scanJob.dose, response: null } })],
    ["outOfRange", 91, () => s.focusCheck({ ...scanJob, dose: { ...scanJob.dose, response: melting(-1) } })],
    ["notFinite", 91, () => s.focusCheck({ ...scanJob, dose: { ...scanJob.dose, response: melting(NaN) } })],
    ["outOfRange", 130, () => s.markWidth(beam, { ...line, doseRatio: 0 }, inFocus)],
    ["outOfRange", 130, () => s.markLimits(beam, { ...line, doseRatio: 1e7 })],
    ["outOfRange", 130, () => s.fillWidth(beam, { drawnWidth: um(100), doseRatio: 0 }, inFocus)],
    ["outOfRange", 130, () => s.fillLimits(beam, { drawnWidth: um(100), doseRatio: -1 })],
    ["outOfRange", 130, () => s.pulsedLine({ ...pulses, doseRatio: 0 })],
    ["outOfRange", 130, () => s.focusCheck({ ...job, dose: { by: "ratio", doseRatio: 0 } })],
    ["outsideModel", 130, () => s.focusCheck({ ...scanJob, dose: { ...scanJob.dose, threshold: s.jPerM2(1e12) } })],
    ["unknownChoice", 132, () => s.mapHeights(beam, inFocus, { kind: "gloss" }, new Float64Array(1))],
    ["unknownChoice", 132, () => s.mapHeights(beam, inFocus, "growth", new Float64Array(1))],
    ["outOfRange", 39, () => s.mapHeights(beam, s.signedOffset(m(2e3)), { kind: "growth" }, new Float64Array(1))],
    ["outOfRange", 18, () => s.mapHeights(beam, inFocus, { kind: "smallest stroke", doseRatio: 1 }, new Float64Array(1))],
    ["notFinite", 5, () => s.mapHeights(beam, inFocus, { kind: "growth" }, Float64Array.of(NaN, Infinity))],
    ["unknownChoice", 28, () => s.inFocusMask(beam, inFocus, { by: "sharpness" }, new Float64Array(1))],
    ["notFinite", 5, () => s.inFocusMask(beam, inFocus, { by: "rayleigh" }, Float64Array.of(0, -Infinity))],
    ["unreachable", 17, () =>
      s.inFocusMask(beam, inFocus, { by: "largest diameter", diameter: diameter1e2(um(80)) }, new Float64Array(1))],
    ["outOfRange", 131, () => s.compensate(beam, inFocus, "same dose", { ...setting, greatestSpeed: s.mPerS(0.4) })],
    ["notFinite", 131, () => s.compensate(beam, inFocus, "same dose", { ...setting, greatestSpeed: undefined })],
    ["unknownChoice", 250, () => s.planSeries(beam, { ...series, purpose: {} })],
    ["unknownChoice", 251, () => s.planSeries(beam, { ...series, axis: { ...series.axis, direction: "up" } })],
    ["outOfRange", 252, () => s.planSeries(beam, { ...series, step: mm(-1) })],
    ["outOfRange", 253, () => s.planSeries(beam, { ...series, halfRange: mm(-1) })],
    ["outOfRange", 254, () => s.planSeries(beam, { ...series, axis: { ...series.axis, axisStep: m(2) } })],
    ["outOfRange", 255, () => s.planSeries(beam, { ...series, axis: { ...series.axis, backlash: mm(-1) } })],
    ["outOfRange", 256, () => s.planSeries(beam, { ...series, axis: { ...series.axis, travelTowardLens: mm(-1) } })],
    ["outOfRange", 257, () => s.planSeries(beam, { ...series, layout: { ...series.layout, labelWidth: mm(0) } })],
    ["outOfRange", 258, () => s.planSeries(beam, { ...series, layout: { ...series.layout, gap: mm(-1) } })],
    ["outOfRange", 259, () => s.planSeries(beam, { ...series, layout: { ...series.layout, rowWidth: mm(1) } })],
    ["outsideModel", 260, () => s.planSeries(beam, { ...series, step: um(1) })],
    ["outsideModel", 261, () => s.planSeries(beam, { ...series, axis: { ...series.axis, clearance: mm(0) } })],
    ["outsideModel", 262, () => s.planSeries(beam, { ...series, axis: { ...series.axis, travelAwayFromLens: mm(0) } })],
    ["outOfRange", 242, () => s.focusFromRanks([], judgement)],
    ["outOfRange", 243, () => s.focusFromRanks([{ height: awayFromLens(m(1001)), rank: "poor" }], judgement)],
    ["unknownChoice", 245, () => s.focusFromRanks([{ height: inFocus, rank: "blurred" }], judgement)],
    ["outOfRange", 246, () => s.focusFromRanks([{ height: inFocus, rank: "sharp" }], { ...judgement, relativeDeviation: 2 })],
    ["undetermined", 247, () => s.focusFromRanks([{ height: inFocus, rank: "poor" }], judgement)],
    ["undetermined", 248, () => s.focusFromRanks([{ height: inFocus, rank: "sharp" }], judgement)],
    ["undetermined", 249, () => s.focusFromVanishing([{ height: inFocus, seen: false }, { height: awayFromLens(mm(1)), seen: true }], "line", judgement)],
    ["outOfRange", 185, () => s.chooseLens(job, [shortLens], { ...setUp, tolerance: mm(-1) })],
    ["notFinite", 185, () => s.chooseLens(job, [shortLens])],
    ["outOfRange", 186, () => s.chooseLens(job, [shortLens], { ...setUp, leastClearance: mm(-1) })],
    ["outOfRange", 187, () => s.chooseLens(job, [shortLens, { ...shortLens, workingDistance: mm(-1) }], setUp)],
    ["outOfRange", 188, () => s.chooseLens(job, [], setUp)],
    ["outOfRange", 188, () => s.chooseLens(job, new Array(9).fill(shortLens), setUp)],
    ["notFinite", 8, () => s.chooseLens(job, [null], setUp)],
    ["unknownChoice", 70, () => s.chooseLens(job, [{ ...shortLens, singlet: null }], setUp)],
    ["outOfRange", 3, () => s.causticCrossing(beam, { ...beam, waist: diameter1e2(m(0)) })],
    ["outsideModel", 87, () => s.focusCheck({ ...scanJob, dose: { ...scanJob.dose, lineInterval: mm(1) } })],
    ["unknownChoice", 228, () => s.diagnoseMark(beam, goodMark, { ...depths, law: "cubic" }, now, 0.95)],
    ["outOfRange", 229, () => s.diagnoseWidth(beam, { ...goodMark, doseRatioDeviation: 0.5 }, now, 0.95)],
    ["notFinite", 229, () => s.diagnoseWidth(beam, { ...goodMark, doseRatioDeviation: null }, now, 0.95)],
    ["outOfRange", 230, () => s.diagnoseMark(beam, goodMark, { ...depths, depth: 0 }, now, 0.95)],
    ["outOfRange", 231, () => s.settleByPatch(beam, goodMark, { ...depths, depthDeviation: 15 }, 5, now, 0.95)],
    ["outOfRange", 232, () => s.settleByHeights(beam, { ...threeHeights, heightStep: mm(0) }, 0.95)],
    ["outOfRange", 233, () => s.settleByPower(beam, { ...goodMark, powerStep: 1, first: now, stepped: now }, 0.95)],
    ["undetermined", 117, () => s.settleByPower(beam, { ...goodMark, powerStep: 2, first: now, stepped: now }, 0.95)],
    ["outOfRange", 114, () => s.diagnoseWidth(beam, goodMark, { ...now, deviation: um(30) }, 0.95)],
    ["notFinite", 113, () => s.diagnoseWidth(beam, goodMark, undefined, 0.95)],
    ["stopped", 218, () => s.previewMark(burn, () => false)],
    ["notAQuantity", 42, () => s.power("20")],
    ["notAQuantity", 42, () => s.speed("500 W")],
    ["notAQuantity", 42, () => s.dose("1 J")],
    ["notAQuantity", 42, () => s.diffusivity("0.1 mm/s")],
    ["notAQuantity", 42, () => s.removalEnergy("3 J/mm2")],
    ["notAQuantity", 42, () => s.length("1.5")],
    ["notAQuantity", 42, () => s.angle("1.5 mm")],
    ["outOfRange", 225, () => s.studentFactor(0.4, 8)],
    ["outOfRange", 226, () => s.studentFactor(0.95, 2.5)],
    ["outOfRange", 243, () => s.fitBeam(readings(1, 2, 3, 2e6), { wavelength: um(1) })],
    ["unknownChoice", 273, () => s.fitBeam(readings(1, 2, 3, 4), { wavelength: um(1), weights: "guessed" })],
    ["undetermined", 274, () => s.fitBeam(readings(1, 2, 3), { wavelength: um(1) })],
    ["undetermined", 268, () => s.fitBeam(readings(1, 2, 1, 2), { wavelength: um(1) })],
    ["undetermined", 275, () => s.fitBeam(readings(1, 2, 3, 4), { wavelength: um(1) })],
    ["outOfRange", 227, () => s.chiSquaredChance(-1, 8)],
    ["unknownChoice", 264, () => s.fitMarkWidths(heightMarks, { ...heightSeries, scatter: "guessed" })],
    ["outOfRange", 265, () => s.fitMarkWidths(heightMarks, { ...heightSeries, mSquared: { value: 1.2, relativeDeviation: 0 } })],
    ["outOfRange", 266, () => s.fitMarkWidths([{ ...heightMarks[0], powerRatio: 0 }, ...heightMarks], heightSeries)],
    ["undetermined", 268, () => s.fitMarkWidths(heightMarks.map((mark) => ({ ...mark, height: inFocus })), heightSeries)],
    ["undetermined", 269, () => s.fitMarkWidths(heightMarks.map((mark) => ({ ...mark, deviation: um(60) })), heightSeries)],
    ["undetermined", 270, () => s.fitMarkWidths(seriesOf([0, 1, 2, 3, 4, 5, 6, 7, 8], 0.12, -0.16, 6, 0.2), heightSeries)],
  ];
  for (const [name, parameter, call] of cases) {
    const e = thrown(call);
    assert.deepEqual([e.code, e.parameter], [s.errorCode[name], parameter], e.message);
  }
  assert.deepEqual([...new Set(cases.map(([name]) => name))].sort(), Object.keys(s.errorCode).sort());
});

test("an unknown choice is refused before any number", () => {
  const bad = { ...job, m2: NaN, criterion: { by: "sharpness" } };
  assert.equal(thrown(() => s.focusCheck(bad)).parameter, 28);
  assert.equal(thrown(() => s.focusCheck({ ...bad, focus: {} })).parameter, 30);
  assert.equal(thrown(() => s.focusCheck({ ...bad, focus: {}, rawBeam: {} })).parameter, 29);
  const badLens = { ...realJob, wavelength: NaN, singlet: { glass: "wood", shape: "round" } };
  assert.equal(thrown(() => s.focusCheck(badLens)).parameter, 45);
  assert.equal(thrown(() => s.focusCheck({ ...badLens, criterion: {} })).parameter, 28);
  assert.equal(thrown(() => s.focusSinglet({}, { shape: "round" })).parameter, 50);
  // The handbook's sum is no unknown code, but refused next: after another choice, before any number.
  const handbook = (raw, criterion) => thrown(() => s.singletDepthOfFocus(raw, singlet, "handbook", criterion));
  assert.equal(handbook({}, { by: "sharpness" }).parameter, 28);
  const e = handbook({}, { by: "rayleigh" });
  assert.deepEqual([e.parameter, e.value], [56, 3]);
  assert.equal(thrown(() => s.lensAtWavelength({ glass: "wood", shape: "round" })).parameter, 45);
  assert.equal(thrown(() => s.beamAfterPath({}, [{ kind: "space", length: m(1) }, { kind: "mirror" }])).parameter, 59);
  // Of several choices the first in the model's order: dose, its response, lens, text, its typeface, its grade.
  const badDose = { ...badLens, dose: {}, text: { typeface: "script", leastGrade: "fair" } };
  assert.equal(thrown(() => s.focusCheck(badDose)).parameter, 127);
  assert.equal(thrown(() => s.focusCheck({ ...badDose, dose: { by: "scan", response: {} } })).parameter, 108);
  const goodLens = { ...badDose, dose: job.dose, singlet: undefined };
  assert.equal(thrown(() => s.focusCheck(goodLens)).parameter, 118);
  assert.equal(thrown(() => s.focusCheck({ ...goodLens, text: { ...goodLens.text, typeface: "sans" } })).parameter, 125);
  assert.equal(thrown(() => s.compensate({}, {}, "same depth", { kind: "fill" })).parameter, 104);
  assert.equal(thrown(() => s.diagnoseMark({}, { kind: "line" }, { law: "cubic" }, {}, 0.95)).parameter, 228);
  assert.equal(thrown(() => s.diagnoseMark({}, { kind: "dash" }, { law: "cubic" }, {}, 0.95)).parameter, 86);
  assert.equal(thrown(() => s.materialMark({ response: {} }, {})).parameter, 108);
  assert.equal(thrown(() => s.offsetForText({}, { typeface: "script", grade: "fair" })).parameter, 125);
  assert.equal(thrown(() => s.detailOdds({}, {}, [bow, { ...bow, distribution: {} }], {})).parameter, 134);
});

test("what a choice does not name is ignored", () => {
  const extra = { by: "rayleigh", ratio: NaN, drop: NaN };
  assert.deepEqual(s.depthOfFocus(beam, extra), s.depthOfFocus(beam, { by: "rayleigh" }));
  const ratio = { ...job.dose, power: NaN, threshold: "much", response: "foam" };
  assert.deepEqual(s.focusCheck({ ...job, dose: ratio }), s.focusCheck(job));
  assert.deepEqual(s.focusCheck({ ...scanJob, dose: { ...scanJob.dose, doseRatio: NaN } }), s.focusCheck(scanJob));
  const dull = { ...scanJob.dose, response: { kind: "coating", diffusivity: NaN, removalEnergy: "much" } };
  assert.deepEqual(s.focusCheck({ ...scanJob, dose: dull }), s.focusCheck(scanJob));
  const melt = { ...bulk, response: { kind: "coating", diffusivity: NaN } };
  assert.deepEqual(s.materialMark(melt, exposure), s.materialMark(bulk, exposure));
  const element = { kind: "space", length: m(1), focalLength: NaN, index: "glass" };
  assert.deepEqual(s.beamAfterPath(rawRound, [element]), s.beamAfterPath(rawRound, [{ kind: "space", length: m(1) }]));
});

/** What takes a length whose direction is in the name, and the parameter in whose name it is refused. */
const directed = [
  [s.towardLens, 6],
  [s.awayFromLens, 6],
  [s.upstream, 7],
  [s.downstream, 7],
  [s.convexTowardLaser, 48],
  [s.concaveTowardLaser, 48],
];

test("a direction and a sign together are refused", () => {
  for (const [make, parameter] of directed) {
    const e = thrown(() => make(mm(-0.3)));
    assert.deepEqual([e.code, e.parameter, e.value, e.least], [2, parameter, mm(-0.3), 0]);
    assert.equal(thrown(() => make(m(NaN))).code, 1);
    assert.equal(thrown(() => make(m(2e7))).code, 2);
  }
  assert.ok(Object.is(s.towardLens(mm(0)).zAwayFromLens, 0));
  assert.equal(s.towardLens(mm(0.3)).zAwayFromLens, -mm(0.3));
  assert.equal(s.signedOffset(mm(-0.3)).zAwayFromLens, mm(-0.3));
  assert.ok(Object.is(s.upstream(mm(0)).zDownstream, 0));
  assert.equal(s.upstream(mm(0.3)).zDownstream, -mm(0.3));
  assert.equal(s.signedDownstream(mm(-0.3)).zDownstream, mm(-0.3));
  assert.equal(s.concaveTowardLaser(mm(0.3)).centreDownstream, -mm(0.3));
  assert.equal(s.signedRadius(mm(-0.3)).centreDownstream, mm(-0.3));
});

test("after an error nothing is stale", () => {
  const out = Float64Array.of(1, 2);
  assert.equal(thrown(() => s.diametersAt(beam, Float64Array.of(0, NaN), out)).parameter, 5);
  assert.deepEqual([...out], [NaN, NaN]);
  // Also if slices before the fault are done, or the fault is no number's.
  const many = new Float64Array(200_000);
  const places = new Float64Array(200_000);
  places[199_999] = Infinity;
  const stale = () => many.fill(1);
  for (const call of [
    () => s.diametersAt(beam, places, many),
    () => s.diametersAt({ ...beam, m2: 0 }, places, many),
    () => s.diametersAt(null, places, many),
    () => s.diametersAt(beam, places.subarray(1), many),
    () => s.diametersAt(beam, [...places], many),
  ]) {
    stale();
    thrown(call);
    assert.ok(many.every(Number.isNaN), String(call));
  }
  const good = s.beamParameters(beam);
  thrown(() => s.beamParameters({ ...beam, m2: 0 }));
  assert.deepEqual(s.beamParameters(beam), good);
});

test("a result does not change under later calls", () => {
  const first = s.focusCheck(job);
  const copy = structuredClone(first);
  s.focusCheck({ ...job, surfaceFall: mm(0.6), finestStroke: um(15) });
  s.beamParameters(beam);
  assert.deepEqual(first, copy);
});

test("callers without types get the same errors, not silent numbers", () => {
  // Left out, null, text, or a bare number where an object belongs.
  for (const wavelength of [undefined, null, "1e-6", {}, [1e-6], true]) {
    const e = thrown(() => s.beamParameters({ ...beam, wavelength }));
    assert.deepEqual([e.code, e.parameter], [1, 1]);
  }
  assert.equal(
    thrown(() => s.beamParameters({ ...beam, wavelength: "1e-6" })).message,
    'wavelength = "1e-6" is not a number (must be from 1e-8 to 0.01 m)',
  );
  // It is the refused input that is spoken of, not another.
  assert.match(thrown(() => s.beamParameters({ ...beam, wavelength: NaN, m2: "2" })).message, /^wavelength = NaN is/);
  assert.match(
    thrown(() => s.focusCheck({ ...job, dose: { by: "ratio", doseRatio: null }, finestGap: "$&" })).message,
    /^finest gap = "\$&" is not a number \(/,
  );
  assert.equal(thrown(() => s.beamParameters({ ...beam, m2: 0.5, waist: diameter1e2(m(NaN)) })).code, 2);
  assert.equal(thrown(() => s.beamParameters({ ...beam, waist: 88e-6 })).parameter, 3);
  assert.equal(thrown(() => s.beamParameters({ ...beam, waist: undefined })).parameter, 3);
  assert.equal(thrown(() => s.defocus(beam, 0.3e-3)).parameter, 6);
  assert.equal(thrown(() => s.defocus(beam)).parameter, 6);
  assert.equal(thrown(() => s.focusCheck({ ...job, surfaceRise: null })).parameter, 22);
  assert.equal(thrown(() => s.focusCheck({ ...job, rawBeam: undefined })).parameter, 29);
  assert.equal(thrown(() => s.diametersAt({ ...beam, m2: "1.2" }, new Float64Array(1))).parameter, 2);
  assert.equal(thrown(() => s.length(38.1)).code, s.errorCode.notAQuantity);
  // Also where the model takes Infinity: for "no aperture", and for a flat surface.
  assert.match(
    thrown(() => s.focusSinglet(wide, { ...singlet, clearAperture: { diameter: "18 mm" } })).message,
    /^clear aperture = "18 mm" is not a number \(/,
  );
  assert.match(
    thrown(() => s.focusSinglet(wide, { ...singlet, clearAperture: mm(18) })).message,
    /^clear aperture = undefined is not a number \(/,
  );
  assert.equal(thrown(() => s.focusSinglet(wide, { ...singlet, clearAperture: null })).parameter, 54);
  assert.match(
    thrown(() => s.lensFromRadii({ index: 1.5, first: "curved", second: null })).message,
    /^first radius = undefined is not a number \(/,
  );
  assert.match(
    thrown(() => s.beamAfterPath(rawRound, [{ kind: "space", length: m(1) }, { kind: "window", thickness: mm(3), index: "1.5" }])).message,
    /^refractive index = "1\.5" is not a number \(/,
  );
  assert.equal(thrown(() => s.beamAlongPath(rawRound, [], "1 m")).parameter, 63);
  assert.equal(thrown(() => s.focusCheck({ ...job, rawBeam: { ...expanded, exitPower: "0.2 1/m" } })).parameter, 62);
  assert.equal(thrown(() => s.waveWidths({ ...wave, aberrationPhase: null }, inFocus)).parameter, 52);
  // What may be left out has a default; null, or a text, has none.
  assert.match(thrown(() => s.blurBudget({ ...scan, pixel: null })).message, /^pixel = null is not a number \(/);
  assert.equal(thrown(() => s.pulsedLine({ ...pulses, pulses: "3" })).parameter, 101);
  assert.equal(thrown(() => s.materialMark({ ...bulk, incubation: null }, exposure)).parameter, 100);
  assert.equal(thrown(() => s.compensate(beam, inFocus, "same dose", { ...setting, leastIrradianceRatio: "0" })).parameter, 107);
  for (const grades of [null, "strict", 2]) assert.equal(thrown(() => s.smallestText({ ...style, spot, grades })).parameter, 123);
  assert.match(
    thrown(() => s.fitThreshold([...testMarks, { ...testMarks[0], width: "20 um" }])).message,
    /^mark width = "20 um" is not a number \(/,
  );
  assert.match(
    thrown(() => s.fitThreshold(testMarks, { outlierLimit: "3" })).message,
    /^outlier limit = "3" is not a number \(/,
  );
  for (const marks of [undefined, null, 3, "marks", {}, []]) assert.equal(thrown(() => s.fitThreshold(marks)).parameter, 116);
  assert.equal(thrown(() => s.fitThreshold([null, 3, undefined])).parameter, 84);
});

test("what is no number is no quantity", () => {
  const strange = ["", "38.1", null, undefined, true, [3], {}, 3n, Symbol("3"), () => 3, Object(3), diameter1e2(mm(3))];
  const takers = [
    ..."nm um mm cm m inch mil pt rad mrad urad deg".split(" "),
    ..."inNm inUm inMm inCm inM inInch inMil inPt inRad inMrad inUrad inDeg inMmMrad inPerM".split(" "),
    ..."perM inPerUm inPerM3 inPerMm2 curvatureText signedRadius".split(" "),
    ..."lengthText angleText diameter1e2 radius1e2 diameter radius fullAngle halfAngle".split(" "),
    ..."asDiameter1e2 asRadius1e2 asFullAngle asHalfAngle signedOffset signedDownstream".split(" "),
    ..."length angle curvature power speed dose powerText speedText doseText".split(" "),
    ..."watt milliwatt kilowatt mPerS mmPerS mPerMin inchPerS s ms us ns hz khz megahertz".split(" "),
    ..."joule millijoule microjoule jPerM2 jPerCm2 jPerMm2 jPerM3 jPerMm3 m2PerS mm2PerS".split(" "),
    ..."inWatt inMilliwatt inKilowatt inMPerS inMmPerS inMPerMin inInchPerS inS inMs inUs inNs".split(" "),
    ..."inHz inKhz inMegahertz inJoule inMillijoule inMicrojoule inJPerM2 inJPerCm2 inJPerMm2".split(" "),
    ..."inWattPerM2 inWattPerCm2 inWattPerMm2 inJPerM3 inJPerMm3 inM2PerS inMm2PerS inM2 inUm2 inM3 inUm3".split(" "),
  ];
  for (const name of takers) {
    for (const given of strange) {
      // The one thing in the list that a width's readers do take.
      if (/^as.*1e2$/.test(name) && given?.diameter1e2) continue;
      const e = thrown(() => s[name](given));
      assert.deepEqual([e.code, e.parameter], [s.errorCode.notAQuantity, 42], `${name}: ${e.message}`);
    }
  }
  assert.match(thrown(() => mm("")).message, /^"" is not a number here; give a number, as in mm\(38\.1\)/);
  assert.match(thrown(() => s.inMm(diameter1e2(mm(3)))).message, /^an object is not a number here/);
  thrown(() => s.asDiameter1e2(um(5)));
  thrown(() => s.radius1e2("44e-6"));
  thrown(() => s.halfAngle("0.01"));
  thrown(() => s.asRadius1e2({ diameter1e2: "88e-6" }));
  thrown(() => s.length(["1.5 in"]));
  // These say for which parameter.
  for (const given of strange) {
    for (const [make, parameter] of directed) {
      assert.deepEqual([thrown(() => make(given)).code, thrown(() => make(given)).parameter], [1, parameter]);
    }
    for (const make of [s.d4sigma, s.fwhm, s.power86]) assert.equal(thrown(() => make(given)).parameter, 4);
    if (given?.diameter1e2) continue;
    for (const read of [s.asD4sigma, s.asFwhm, s.asPower86]) assert.equal(thrown(() => read(given)).parameter, 4);
  }
});

test("nothing at all, null, or something else in place of an object", () => {
  const first = {
    powerThroughAperture: 4,
    diameterForPower: 4,
    beamParameters: 1,
    beamAt: 1,
    waistFromRayleighRange: 1,
    waistFromDivergence: 1,
    m2FromDivergence: 1,
    astigmaticParameters: 1,
    astigmaticAt: 1,
    focusThroughLens: 1,
    focusCollimated: 1,
    focusAstigmatic: 1,
    defocus: 1,
    astigmaticDefocus: 1,
    offsetsForDiameter: 1,
    offsetsForGrowth: 1,
    depthOfFocus: 28,
    astigmaticDepthOfFocus: 28,
    smallestDetails: 19,
    largestSpotForDetails: 25,
    contrastAtPitch: 19,
    pitchForContrast: 19,
    focusCheck: 29,
    convertWidth: 27,
    diametersAt: 5,
    glassData: 45,
    refractiveIndex: 45,
    lensAtWavelength: 45,
    lensFromRadii: 46,
    lensAberration: 50,
    aberrationGrowth: 2,
    focusSinglet: 50,
    singletDefocus: 50,
    singletDepthOfFocus: 50,
    tiltedSpot: 1,
    smallestSpot: 50,
    focusClipped: 1,
    clippedDepthOfFocus: 1,
    focusBehindPlate: 1,
    focusInside: 1,
    beamAfterPath: 59,
    beamAlongPath: 59,
    focusAlongGantry: 7,
    gantrySpread: 1,
    evenOutGantry: 1,
    waveIrradiance: 1,
    wavePower: 1,
    waveWidths: 1,
    waveFocus: 69,
    waveDepthOfFocus: 28,
    waveMap: 66,
    scanDose: 77,
    pulseDose: 77,
    doseOverThreshold: 84,
    materialMark: 108,
    fitThreshold: 116,
    markWidth: 86,
    markLimits: 86,
    fillWidth: 1,
    fillLimits: 1,
    rasterRipple: 19,
    intervalForRipple: 19,
    detailExposure: 19,
    blurBudget: 79,
    fillQuality: 1,
    offsetForTaste: 96,
    pulsedLine: 19,
    crater: 19,
    groove: 19,
    connectedSpeed: 19,
    compensate: 104,
    typefaceShares: 118,
    smallestText: 118,
    textQuality: 118,
    offsetForText: 125,
    mapHeights: 5,
    inFocusMask: 5,
    toleranceStack: 133,
    offsetOdds: 133,
    detailOdds: 133,
    focusBetween: 1,
    focusBetweenAstigmatic: 1,
    heightBands: 144,
    cylinderStrip: 152,
    refocusPlan: 152,
    spotThrough: 1,
    causticCrossing: 1,
    chooseLens: 188,
    regionHeights: 156,
    shareInFocus: 156,
    focusForSurface: 28,
    scanFieldAt: 1,
    scanFieldExtent: 1,
    scanFieldFocus: 1,
    studentFactor: 225,
    fitBeam: 1,
    diagnoseMark: 86,
    diagnoseWidth: 86,
    settleByPatch: 86,
    settleByPower: 86,
    settleByHeights: 86,
    calibratedSetUp: 1,
    calibrationFromMarks: 39,
    learnedThreshold: 77,
    planSeries: 250,
    seriesDrift: 113,
    focusFromVanishing: 86,
    focusFromRanks: 242,
    fitMarkWidths: 86,
  };
  for (const [name, parameter] of Object.entries(first)) {
    for (const given of [[], [null], [3], ["text"], [true, true], [null, null]]) {
      assert.equal(thrown(() => s[name](...given)).parameter, parameter, name);
    }
  }
  assert.equal(thrown(() => s.convertWidth(um(1))).parameter, 27);
  for (const given of [undefined, null, "text", true]) {
    assert.equal(thrown(() => s.lineInterval(given)).parameter, 82);
    assert.equal(thrown(() => s.dotsPerInch(given)).parameter, 81);
    assert.equal(thrown(() => s.chiSquaredChance(given)).parameter, 227);
  }
  assert.equal(thrown(() => s.focusThroughLens(beam)).parameter, 7);
  const textAt = { waistAt: { zDownstream: "-1.5" }, focalLength: mm(50) };
  assert.match(thrown(() => s.focusThroughLens(beam, textAt)).message, /^waist to lens = "-1\.5" is not a number/);
  assert.equal(thrown(() => s.focusThroughLens(beam, { waistAt: s.atLens })).parameter, 8);
  // A focused astigmatic beam is no raw one: its places count from elsewhere.
  const axis = { m2: 5, waist: diameter1e2(mm(5)), waistAt: s.upstream(m(2)) };
  const focused = s.focusAstigmatic({ wavelength: um(1), x: axis, y: axis }, mm(50));
  assert.equal(thrown(() => s.focusAstigmatic(focused, mm(50))).parameter, 35);
});

test("places and results in bulk are Float64Arrays", () => {
  const others = [new Float32Array(3), new DataView(new ArrayBuffer(24))];
  for (const z of [[null, "0.001", true], [0.001], 3, undefined, null, "1", ...others]) {
    const e = thrown(() => s.diametersAt(beam, z));
    assert.deepEqual([e.code, e.parameter], [1, 5], e.message);
    assert.deepEqual(thrown(() => s.focusAlongGantry(wide, mm(50), z)).parameter, 7);
    assert.deepEqual(thrown(() => s.waveMap(wave, z, new Float64Array(1))).parameter, 66);
    assert.deepEqual(thrown(() => s.waveMap(wave, new Float64Array(1), z)).parameter, 5);
  }
  for (const out of [[0, 0, 0], null, 3, new Float32Array(3), new Float64Array(3).buffer]) {
    const e = thrown(() => s.diametersAt(beam, new Float64Array(3), out));
    assert.deepEqual([e.code, e.parameter, e.least], [6, 40, 3], e.message);
  }
  const e = thrown(() => s.diametersAt(beam, new Float64Array(200_000), new Float64Array(150_000)));
  assert.deepEqual([e.code, e.parameter, e.value, e.least, e.greatest], [6, 40, 150_000, 200_000, 200_000]);
  // An array of another realm, such as a test's sandbox, is one too.
  const foreign = runInNewContext("new Float64Array(3)");
  assert.equal(s.diametersAt(beam, foreign, foreign).diametersInMetres, foreign);
});
