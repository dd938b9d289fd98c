// The preflight of drawings: the same bits as Rust, whose answers `cargo xtask wasm test` writes down before; progress,
// stops, refusals, and the memory that is stated.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import * as s from "spotwise";

const { um, mm, m, diameter1e2, awayFromLens, inFocus } = s;

const folder = process.env.SPOTWISE_ANSWERS ?? join(import.meta.dirname, "../../../target/tmp");
const bytes = readFileSync(join(folder, "artwork-answers.bin"));
const { jobs, shapes } = JSON.parse(readFileSync(join(folder, "artwork-answers.json"), "utf8"));

/** The bytes that JSON speaks of, in a buffer of their own. */
const blob = ({ from, to }) => Uint8Array.from(bytes.subarray(from, to));
const isBlob = (value) => Object.keys(value).join() === "from,to";

/** What JSON cannot hold: nothing, numbers that are not finite, arrays of doubles, bytes. */
function revived(value) {
  if (value === null) return undefined;
  if (value === "Infinity" || value === "-Infinity") return Number(value);
  if (typeof value !== "object") return value;
  if (Array.isArray(value)) return value.map(revived);
  if (isBlob(value)) return blob(value);
  if ("float64" in value) return Float64Array.from(value.float64, Number);
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, revived(inner)]));
}

const given = jobs.map(({ name, job, answers, remedies }) => ({
  name,
  job: revived(job),
  answers: revived(answers),
  remedies: remedies && revived(remedies),
}));

/** Without the flags, which are fine: Rust tells only the angle. */
function withoutFlags({ validity, ...rest }) {
  assert.ok(validity.fine);
  return rest;
}

function sameFindings(found, answers, name) {
  assert.deepEqual(withoutFlags(found.report), answers.report, name);
  for (const mask of ["mark", "lost", "filled", "unknown"]) assert.deepEqual(found[mask], answers[mask], `${name}: ${mask}`);
  for (const list of ["lostRegions", "filledRegions", "changes"]) assert.deepEqual(found[list], answers[list], `${name}: ${list}`);
}

test("every preflight is that of Rust, to the bit", () => {
  assert.equal(given.length, 17);
  for (const { name, job, answers } of given) {
    const found = s.preflight({ ...job, exposure: true });
    sameFindings(found, answers, name);
    assert.deepEqual(found.window, answers.window, name);
    assert.deepEqual(found.judgement, answers.judgement, name);
    assert.deepEqual(new Uint8Array(found.exposure.buffer), answers.exposure, name);
  }
  // They are not all alike.
  const grades = new Set(given.map(({ answers }) => answers.judgement.grade));
  assert.ok(grades.size >= 3, [...grades].join());
  assert.ok(given.some(({ answers }) => answers.unknown !== undefined));
  assert.ok(given.some(({ answers }) => answers.lostRegions.length > 1 && answers.filledRegions.length > 1));
});

test("a preview is the same without the window", () => {
  const { name, job, answers } = given.find(({ answers }) => answers.lostRegions.length > 2);
  const preview = s.previewMark(job);
  sameFindings(preview, answers, name);
  assert.equal(preview.exposure, undefined);
  assert.ok(!("window" in preview) && !("judgement" in preview));
  const few = s.previewMark({ ...job, regions: 2, changes: 0 });
  assert.deepEqual(few.lostRegions, answers.lostRegions.slice(0, 2));
  assert.deepEqual(few.changes, []);
  assert.equal(few.report.lost.regions, answers.report.lost.regions);
});

test("the usual tolerance is a quarter of the waist", () => {
  const { name, job, answers } = given.find(({ name }) => name === "a probed grid");
  const { edgeTolerance, ...rest } = job;
  assert.equal(edgeTolerance, um(22));
  sameFindings(s.preflight(rest), answers, name);
});

test("specks are counted and ignored", () => {
  const { job } = given.find(({ name }) => name === "lines on a tilted plane");
  const { report } = s.previewMark(job);
  assert.ok(report.topology.componentsIgnoredDrawing > 0);
  const { speckArea, ...rest } = job;
  assert.equal(speckArea, 26 * 11e-6 * 14e-6);
  const all = s.previewMark(rest).report;
  assert.deepEqual(all, s.previewMark({ ...rest, speckArea: 0 }).report);
  const { componentsDrawing, componentsIgnoredDrawing, holesIgnoredDrawing } = report.topology;
  assert.equal(all.topology.componentsIgnoredDrawing, 0);
  assert.equal(all.topology.componentsDrawing, componentsDrawing + componentsIgnoredDrawing);
  assert.equal(all.topology.holesDrawing, report.topology.holesDrawing + holesIgnoredDrawing);
  // What is said of all pixels stays.
  assert.deepEqual([report.lost, report.strokeCentres], [all.lost, all.strokeCentres]);
  const { changes, ...lost } = s.previewMark({ ...job, speckArea: mm(10) * mm(10) });
  assert.deepEqual([lost.report.topology.componentsDrawing, lost.report.componentsStarved, changes.length], [0, 0, 0]);
});

test("what is left out has its default", () => {
  const { job, answers } = given.find(({ name }) => name === "digits_z070");
  const { scan, blur, ...rest } = job;
  const { rowStride, left, top, ...drawing } = job.drawing;
  assert.deepEqual([scan.kind, rowStride, left, top], ["along rows", drawing.width, 0, 0]);
  sameFindings(s.preflight({ ...rest, scan, drawing }), answers, "digits");
  const unknown = { ...job, scan: { kind: "unknown" } };
  assert.deepEqual(s.previewMark(rest), s.previewMark(unknown));
  // A level surface loses nothing by incidence.
  const { incidenceLoss, ...lossy } = job;
  assert.equal(incidenceLoss, false);
  sameFindings(s.preflight(lossy), answers, "digits");
});

test("grades may begin elsewhere", () => {
  const { job, answers } = given.find(({ answers }) => answers.judgement.grade === "crisp" || answers.judgement.grade === "good");
  const { ratio } = answers.window;
  const strict = s.preflight({ ...job, grades: { goodWindow: ratio * 1.01 } }).judgement;
  assert.equal(strict.grade, "degraded");
  assert.equal(strict.reasonBits & s.markReasonBit.narrowDoseWindow, s.markReasonBit.narrowDoseWindow);
  assert.ok(strict.reasons.some((words) => words.includes("little room")));
  assert.equal(Object.values(s.markReasonBit).reduce((all, bit) => all | bit), 255);
});

test("exposures and depths are those of Rust", () => {
  assert.equal(s.fullDose, 32_768);
  for (const { name, job, answers, remedies } of given) {
    const { exposure, spots, unknown, halfAngle } = s.exposeDrawing(job);
    assert.deepEqual(new Uint8Array(exposure.buffer), answers.exposure, name);
    assert.deepEqual([spots, unknown, halfAngle], [answers.report.spots, answers.unknown, answers.report.halfAngle]);
    const depths = s.depthMap(exposure, job.answer, job.doseRatio);
    assert.deepEqual(new Uint8Array(depths.buffer), answers.depths, name);
    if (remedies === undefined) continue;
    const exact = s.exposeDrawingExactly(job);
    const shares = new Float64Array(remedies.exact.buffer);
    assert.deepEqual(exact.shares, shares, name);
    assert.equal(exact.pixelsPerRadius, answers.report.pixelsPerRadius);
    // Fast, they are within what is promised: 5e-4 of full dose, and what rounds to 16 bits.
    exposure.forEach((level, i) => assert.ok(!(Math.abs(level / s.fullDose - shares[i]) > 5.2e-4) || level === 65_535));
  }
  assert.equal(s.expectedExposureError("coverage", "shapes", 3).toFixed(3), "0.018"); // the table's own place
  assert.equal(s.expectedExposureError("bilevel", "burnt raster", 3), 0);
});

test("what would help is what Rust finds", () => {
  let reaches = 0;
  for (const { name, job, remedies } of given) {
    if (remedies === undefined) continue;
    const reach = s.focusReach(job);
    assert.deepEqual(reach, remedies.focusReach, name);
    assert.deepEqual(s.focusReach(job, "legible"), reach);
    assert.equal(s.smallestScale(job, "apart"), remedies.smallestScale, name);
    assert.deepEqual(s.bestFocus(job), remedies.bestFocus, name);
    const { beam, focus, doseRatio, edgeTolerance, ...rest } = job;
    assert.deepEqual(s.rankBeams(rest, remedies.beams), remedies.ranking, name);
    assert.deepEqual(s.rankBeams(rest, []), []);
    reaches += Number(reach !== undefined);
  }
  assert.ok(reaches > 0);
});

test("the quick bound is that of Rust, and right", () => {
  for (const { name, job, answers } of given) {
    const { input, found } = answers.bound;
    assert.deepEqual(s.quickBound({ drawing: job.drawing, ...input }), found, name);
    assert.ok(found.markedPixels + found.clearPixels + found.undecidedPixels === job.drawing.width * job.drawing.height);
  }
  const { drawing } = given[0].job;
  const once = { drawing, greatestSpot: diameter1e2(um(60)), leastDoseRatio: 2 };
  assert.deepEqual(s.quickBound(once), s.quickBound({ ...once, greatestDoseRatio: 2 }));
  const lined = (lineInterval) => s.quickBound({ ...once, lines: { lineInterval, leastSpot: diameter1e2(um(60)) } });
  assert.ok(lined(um(5)).markedPixels < s.quickBound(once).markedPixels && lined(um(38)).markedPixels === 0);
  assert.equal(thrown(() => lined(um(76))).parameter, 81);
});

test("the picture is that of Rust", () => {
  for (const { name, job, answers } of given) {
    const { view, rgba } = answers.picture;
    const boxes = answers.lostRegions.map(({ box }) => box);
    const picture = s.markPicture({ drawing: job.drawing, found: answers, boxes }, view);
    assert.deepEqual(new Uint8Array(picture.data.buffer), rgba, name);
    assert.ok(picture.data instanceof Uint8ClampedArray);
    assert.deepEqual([picture.width, picture.height], [view.width * view.zoom, view.height * view.zoom]);
    assert.equal(picture.data.length, 4 * picture.width * picture.height);
  }
  const { job, answers } = given[0];
  const whole = s.markPicture({ drawing: job.drawing, found: answers });
  assert.deepEqual([whole.width, whole.height], [job.drawing.width, job.drawing.height]);
  const colours = new Set(s.pictureLegend.map(({ rgba }) => rgba.join()));
  assert.equal(colours.size, 8);
  for (let i = 0; i < whole.data.length; i += 4) assert.ok(colours.has(whole.data.subarray(i, i + 4).join()));
  assert.deepEqual(s.pictureLegend[1].name, "marked");
});

test("paths and text are drawn as in Rust", () => {
  const { font, line, shapes: inked, frame, samples } = revived(shapes);
  const text = { font, text: "0.35 mm", size: { digitHeight: m(1.1e-3) }, letterSpacing: m(20e-6), origin: { x: m(0.2e-3), y: m(1.6e-3) } };
  assert.deepEqual(s.setText(text), line);
  const around = s.frameAround(s.pathBounds(line.path), m(0.9e-3), m(13e-6));
  assert.deepEqual(around, frame);
  const drawn = s.drawShapes(inked, frame);
  assert.deepEqual(drawn, { samples, ...frame, kind: "coverage", use: "shapes" });
  assert.deepEqual(s.drawShapes([], frame).samples, new Uint8Array(samples.length));
  assert.equal(s.pitchForSpot(diameter1e2(um(88)), "coverage"), um(11));
  // DejaVu Sans: each digit advances by 1303 of 2048 units.
  const digits = s.setText({ font, text: "0042", size: { em: mm(1) } });
  assert.equal(digits.em, mm(1));
  assert.ok(Math.abs(digits.advance - (4 * 1303 * 1e-3) / 2048) < 1e-12);
  assert.ok(s.setText({ font, text: "H", size: { capHeight: mm(1) } }).em > mm(1.3));
  // A preflight of what was drawn.
  const beam = { wavelength: um(1), m2: 1.1, waist: diameter1e2(um(110)) };
  const surface = { kind: "plane", slope: { awayFromLensAlongX: 0, awayFromLensAlongY: 0 } };
  const { report } = s.preflight({ drawing: drawn, beam, focus: inFocus, surface, answer: { kind: "coating" }, doseRatio: 2 });
  assert.ok(report.topology.componentsDrawing >= 6 && report.topology.holesDrawing >= 2);
  assert.ok(!report.tooFewPixels);
});

const { job } = given.find(({ name }) => name === "text_4pt_focus");
const remediable = given.find(({ remedies }) => remedies !== undefined).job;

test("what a quick answer says is what Rust says, and what the preflight does not contradict", () => {
  for (const { name, job, answers } of given) {
    const quick = s.quickAnswer(job);
    assert.deepEqual(quick, answers.quick, name);
    const { topology, componentsStarved, holds } = answers.report;
    if (quick.verdict === "nothing at risk") {
      const { componentsLost, componentsMerged, holesClosed, holesOpened } = topology;
      assert.deepEqual([componentsLost, componentsMerged, holesClosed, holesOpened, componentsStarved], [0, 0, 0, 0, 0], name);
    }
    if (quick.verdict === "something lost") assert.ok(!holds, name);
    // By its light the bound says the same of what is surely there.
    const bound = s.quickBound({ drawing: job.drawing, ...quick.light });
    if (quick.unknownInkPixels === 0 && !job.speckArea && job.answer.kind !== "melt") {
      assert.deepEqual([bound.components, bound.componentsMaybeLost, bound.holesMaybeOpened], [quick.components, quick.componentsMaybeLost, quick.holesMaybeOpened], name);
    }
  }
  assert.equal(s.quickAnswer({ ...job, doseRatio: 0.5 }).verdict, "something lost");
  // Two bars of 15 pixels, 15 apart, for a spot radius of 3.
  const samples = new Uint8Array(70 * 40).map((_, i) => (i >= 350 && i < 2450 && [5, 35].some((x) => i % 70 >= x && i % 70 < x + 15) ? 1 : 0));
  const drawing = { samples, width: 70, height: 40, pitchX: um(10), pitchY: um(10), kind: "bilevel", use: "burnt raster" };
  const beam = { wavelength: um(1.064), m2: 1, waist: diameter1e2(um(60)) };
  const level = { kind: "plane", slope: { awayFromLensAlongX: 0, awayFromLensAlongY: 0 } };
  const bars = { drawing, beam, focus: inFocus, surface: level, answer: { kind: "coating" }, doseRatio: 2 };
  const quick = s.quickAnswer(bars);
  assert.deepEqual([quick.verdict, quick.components, quick.light.lines], ["nothing at risk", 2, undefined]);
  assert.ok(s.previewMark(bars).report.holds);
  // With a bridge of 30 pixels they run together.
  assert.equal(s.quickAnswer({ ...bars, answer: { kind: "melt", bridge: um(300) } }).verdict, "something lost");
});

test("progress grows, and work stops when told", () => {
  const { beam, focus, doseRatio, edgeTolerance, ...rest } = remediable;
  const works = {
    preflight: (tell) => s.preflight(job, tell),
    previewMark: (tell) => s.previewMark(job, tell),
    exposeDrawing: (tell) => s.exposeDrawing(job, tell),
    exposeDrawingExactly: (tell) => s.exposeDrawingExactly(remediable, tell),
    quickBound: (tell) => s.quickBound({ drawing: job.drawing, greatestSpot: diameter1e2(um(60)), leastDoseRatio: 2 }, tell),
    quickAnswer: (tell) => s.quickAnswer(job, tell),
    focusReach: (tell) => s.focusReach(remediable, "legible", tell),
    smallestScale: (tell) => s.smallestScale(remediable, "legible", tell),
    rankBeams: (tell) => s.rankBeams(rest, [{ beam, focus }, { beam, focus }], tell),
    bestFocus: (tell) => s.bestFocus(remediable, tell),
    drawShapes: (tell) => s.drawShapes(revived(shapes.shapes), revived(shapes.frame), tell),
  };
  for (const [name, work] of Object.entries(works)) {
    const told = [];
    const whole = work((done) => void told.push(done));
    assert.ok(told.length >= 2, `${name}: ${told.length}`);
    told.forEach((done, i) => assert.ok(done >= 0 && done <= 1 && (i === 0 || done >= told[i - 1]), `${name}: ${told}`));
    assert.deepEqual(work(undefined), whole);
    for (const word of [false, "stop"]) {
      let calls = 0;
      const e = thrown(() => work(() => (++calls === 2 ? word : undefined)));
      assert.equal(calls, 2, name);
      assert.deepEqual([e.code, e.parameter, e.value], [s.errorCode.stopped, 218, told[1]], name);
      assert.match(e.message, /^told to stop when \d+ % of the work was done$/);
    }
    const own = new Error("mine");
    assert.throws(() => work(() => { throw own; }), (error) => error === own);
    assert.deepEqual(work(() => true), whole, name);
  }
});

test("a progress function may call the package", () => {
  const inner = s.previewMark(remediable);
  const beams = s.beamParameters(remediable.beam);
  const whole = s.preflight(job);
  const outer = s.preflight(job, () => {
    assert.deepEqual(s.beamParameters(remediable.beam), beams);
    assert.throws(() => s.previewMark({ ...remediable, doseRatio: 0 }), s.SpotwiseError);
    assert.deepEqual(s.previewMark(remediable), inner);
  });
  assert.deepEqual(outer, whole);
});

test("a job becomes a preflight", () => {
  const scan = { power: s.watt(20), speed: s.mPerS(0.5), lineInterval: um(50) };
  const threshold = s.jPerMm2(0.3);
  const inJob = (dose) => ({
    wavelength: um(10.6),
    m2: 1.2,
    rawBeam: { by: "collimated", atLens: diameter1e2(mm(7)) },
    focalLength: mm(38.1),
    focus: { by: "datum", waistZ: awayFromLens(mm(0.2)) },
    surfaceRise: mm(0.1),
    surfaceFall: mm(0.1),
    criterion: { by: "rayleigh" },
    finestStroke: mm(0.1),
    finestGap: mm(0.1),
    dose,
  });
  const { drawing, surface } = remediable;
  const of = (dose, marking) => [s.focusCheck(inJob(dose)), s.preflightOfJob(inJob(dose), drawing, surface, marking)];
  const [verdict, coated] = of({ by: "scan", ...scan, threshold, response: { kind: "coating" } });
  const { waist } = verdict.focused;
  assert.equal(coated.beam.waist.diameter1e2, waist.diameter1e2);
  assert.ok(Math.abs(coated.beam.m2 - 1.2) < 1e-12);
  assert.deepEqual([coated.drawing, coated.surface, coated.focus.zAwayFromLens], [drawing, surface, mm(0.2)]);
  assert.equal(coated.doseRatio, verdict.doseRatio);
  assert.equal(coated.edgeTolerance, waist.diameter1e2 / 4);
  assert.deepEqual(coated.scan, { kind: "along rows", lineInterval: um(50), firstLine: um(50) / 2 });
  assert.deepEqual([coated.answer, coated.incidenceLoss], [{ kind: "coating" }, true]);
  const melt = { kind: "melt", diffusivity: s.mm2PerS(0.1) };
  const [, melted] = of({ by: "scan", ...scan, threshold, response: melt }, { bridge: um(12), speckArea: um(20) * um(20) });
  assert.deepEqual([coated.speckArea, melted.speckArea], [0, um(20) * um(20)]);
  assert.deepEqual(melted.answer, { kind: "melt", bridge: um(12) });
  const { diffusionLength } = s.blurBudget({ spotAcross: waist, spotAlong: waist, speed: scan.speed, diffusivity: melt.diffusivity });
  assert.ok(diffusionLength > um(5));
  for (const blur of [melted.blur.along, melted.blur.across]) assert.equal(blur.diameter1e2, Math.sqrt(8) * diffusionLength);
  const bulk = { kind: "linear ablation", removalEnergy: s.jPerMm3(3) };
  const [, dug] = of({ by: "scan", ...scan, threshold, response: bulk }, { visibleDepth: um(4) });
  // 0.3 J/mm² over 3 J/mm³ is 0.1 mm.
  assert.ok(Math.abs(dug.answer.thresholdDepth - mm(0.1)) < 1e-15);
  assert.equal(dug.answer.visibleDepth, um(4));
  const deep = { kind: "logarithmic ablation", penetrationDepth: um(30) };
  const [, sunk] = of({ by: "scan", ...scan, threshold, response: deep });
  assert.deepEqual(sunk.answer, { ...deep, visibleDepth: 0 });
  const [, plain] = of({ by: "ratio", doseRatio: 2.7 });
  assert.deepEqual([plain.scan, plain.doseRatio, plain.answer.kind], [{ kind: "unknown" }, 2.7, "coating"]);
  for (const told of [coated, melted, dug, sunk, plain]) assert.ok(s.previewMark(told).report.inkPixels > 0);
  assert.equal(thrown(() => s.preflightOfJob({ ...inJob({ by: "ratio", doseRatio: 2 }), m2: 0.9 }, drawing, surface)).parameter, 2);
  assert.equal(thrown(() => s.preflightOfJob()).code, s.errorCode.unknownChoice);
});

/** The error that a call throws. */
function thrown(call) {
  try {
    call();
  } catch (error) {
    assert.ok(error instanceof s.SpotwiseError, String(error));
    return error;
  }
  assert.fail("nothing was thrown");
}

test("bad input is refused by name", () => {
  const run = (change) => () => s.preflight({ ...job, ...change });
  const draw = (change) => run({ drawing: { ...job.drawing, ...change } });
  const small = { width: 4, height: 4, rowStride: 4, samples: new Uint8Array(16) };
  const ablation = (change) => run({ answer: { kind: "linear ablation", thresholdDepth: um(5), ...change } });
  const lines = (change) => run({ scan: { kind: "along rows", lineInterval: um(50), firstLine: um(10), ...change } });
  const offRows = { kind: "along rows", lineInterval: mm(5), firstLine: um(10) };
  const sheet = revived(shapes.frame);
  const path = [{ kind: "move", to: { x: mm(0), y: mm(0) } }, { kind: "line", to: { x: mm(1), y: mm(1) } }];
  const font = blob(shapes.font);
  const cases = [
    ["outOfRange", 198, draw({ width: 0 })],
    ["outOfRange", 198, draw({ width: 65_536, rowStride: 65_536 })],
    ["outOfRange", 198, draw({ width: 10.5 })],
    ["outOfRange", 198, draw({ width: 2 ** 40 })],
    ["outOfRange", 198, draw({ width: -1 })],
    ["notFinite", 198, draw({ width: NaN })],
    ["notFinite", 198, draw({ width: "600" })],
    ["outOfRange", 199, draw({ height: 0 })],
    ["notFinite", 199, draw({ height: undefined })],
    ["outOfRange", 200, draw({ width: 65_535, height: 65_535, rowStride: 65_535 })],
    ["outOfRange", 201, draw({ rowStride: job.drawing.width - 1 })],
    ["outOfRange", 201, draw({ rowStride: 2 ** 33 })],
    ["notFinite", 201, draw({ rowStride: null })],
    ["outOfRange", 202, draw({ samples: job.drawing.samples.subarray(1) })],
    ["outOfRange", 202, draw({ samples: new Uint8Array(0) })],
    ["notFinite", 202, draw({ samples: [...job.drawing.samples] })],
    ["notFinite", 202, draw({ samples: undefined })],
    ["unknownChoice", 203, draw({ kind: "grey" })],
    ["unknownChoice", 204, draw({ use: "picture" })],
    ["outOfRange", 205, draw({ pitchX: um(0) })],
    ["notFinite", 206, draw({ pitchY: m(NaN) })],
    ["outOfRange", 207, draw({ left: m(1001) })],
    ["outOfRange", 208, draw({ top: m(-1001) })],
    ["outOfRange", 3, run({ beam: { ...job.beam, waist: diameter1e2(m(0)) } })],
    ["notFinite", 1, run({ beam: undefined })],
    ["notFinite", 39, run({ focus: mm(1) })],
    ["unknownChoice", 156, run({ surface: { kind: "cube" } })],
    ["outOfRange", 212, run({ blur: { along: diameter1e2(m(11)) } })],
    ["notFinite", 211, run({ blur: { across: um(20) } })],
    ["unknownChoice", 209, run({ scan: { kind: "spiral" } })],
    ["outOfRange", 81, lines({ lineInterval: m(2) })],
    ["outOfRange", 210, lines({ firstLine: um(51) })],
    ["outOfRange", 81, run({ drawing: { ...job.drawing, use: "burnt raster" }, scan: offRows })],
    ["outsideModel", 81, run({ drawing: { ...job.drawing, use: "shapes" }, scan: offRows })],
    ["outOfRange", 130, run({ doseRatio: 201 })],
    ["outOfRange", 130, run({ doseRatio: 0 })],
    ["unknownChoice", 108, run({ answer: { kind: "foam" } })],
    ["outOfRange", 102, run({ answer: { kind: "logarithmic ablation", penetrationDepth: um(0) } })],
    ["outOfRange", 220, ablation({ thresholdDepth: um(0) })],
    ["outOfRange", 221, ablation({ visibleDepth: um(51) })],
    ["outOfRange", 214, run({ answer: { kind: "melt", bridge: um(-1) } })],
    ["notFinite", 214, run({ answer: { kind: "melt" } })],
    ["outOfRange", 213, run({ edgeTolerance: mm(-1) })],
    ["notFinite", 213, run({ edgeTolerance: null })],
    ["outOfRange", 224, run({ speckArea: mm(10) * mm(11) })],
    ["outOfRange", 224, run({ speckArea: -1e-12 })],
    ["notFinite", 224, run({ speckArea: null })],
    ["outsideModel", 215, run({ blur: { along: diameter1e2(m(1)) } })],
    ["outOfRange", 217, run({ regions: 1.5 })],
    ["notFinite", 217, run({ changes: null })],
    ["notAQuantity", 42, run({ exposure: 1 })],
    ["notAQuantity", 42, run({ incidenceLoss: "no" })],
    ["notFinite", 218, () => s.preflight(job, 3)],
    ["unknownChoice", 223, () => s.focusReach(job, "pretty")],
    ["undetermined", 219, () => s.bestFocus({ ...job, drawing: { ...job.drawing, ...small } })],
    ["unknownChoice", 223, () => s.remedyMemory(job, "prayer")],
    ["notFinite", 2, () => s.rankBeams(job, [{ beam: { ...job.beam, m2: undefined }, focus: inFocus }])],
    ["notFinite", 1, () => s.rankBeams(job, [null])],
    ["lengthMismatch", 40, () => s.depthMap([1], { kind: "coating" }, 2)],
    ["unknownChoice", 108, () => s.depthMap(new Uint16Array(1), undefined, 2)],
    ["unknownChoice", 203, () => s.expectedExposureError("grey", "shapes", 3)],
    ["outOfRange", 215, () => s.expectedExposureError("coverage", "shapes", 0)],
    ["lengthMismatch", 40, () => s.markPicture({ drawing: job.drawing, found: { mark: new Uint8Array(3), lost: new Uint8Array(3), filled: new Uint8Array(3) } })],
    ["notFinite", 40, () => s.markPicture({ drawing: job.drawing, found: null })],
    ["outOfRange", 200, () => s.pictureMemory(job.drawing, { zoom: 0 })],
    ["notFinite", 198, () => s.drawShapes([], undefined)],
    ["notAQuantity", 0, () => s.drawShapes([{ path: [], fill: "non-zero" }], sheet)],
    ["notAQuantity", 0, () => s.drawShapes([{ path: path.slice(1), fill: "even-odd" }], sheet)],
    ["unknownChoice", 0, () => s.drawShapes([{ path, fill: "odd" }], sheet)],
    ["unknownChoice", 0, () => s.drawShapes([{ path: [{ kind: "jump" }], fill: "odd" }], sheet)],
    ["unknownChoice", 0, () => s.drawShapes([{ path, stroke: { width: um(9), cap: "flat" } }], sheet)],
    ["outOfRange", 0, () => s.drawShapes([{ path, stroke: { width: um(9), mitreLimit: 0 } }], sheet)],
    ["outOfRange", 89, () => s.drawShapes([{ path, stroke: { width: um(0) } }], sheet)],
    ["notAQuantity", 0, () => s.setText({ font: new Uint8Array(9), text: "0", size: { em: mm(1) } })],
    ["notAQuantity", 0, () => s.setText({ font, text: "\u{1f600}", size: { em: mm(1) } })],
    ["notAQuantity", 0, () => s.setText({ font, text: 35, size: { em: mm(1) } })],
    ["outOfRange", 0, () => s.setText({ font, text: "0", size: { em: mm(1) }, letterSpacing: mm(11) })],
    ["notFinite", 0, () => s.setText({ font: "file", text: "0", size: { em: mm(1) } })],
    ["notFinite", 126, () => s.setText({ font, text: "0", size: {} })],
    ["outOfRange", 205, () => s.frameAround(s.pathBounds(path), mm(0), um(0))],
    ["notAQuantity", 0, () => s.pathBounds([])],
  ];
  for (const [code, parameter, call] of cases) {
    const e = thrown(call);
    assert.deepEqual([e.code, e.parameter], [s.errorCode[code], parameter], `${call}: ${e.message}`);
  }
  assert.match(thrown(draw({ width: "600" })).message, /^width of the drawing in pixels = "600" is not a number/);
  // Without any arguments the first number is missed.
  for (const name of ["preflight", "previewMark", "preflightMemory", "exposeDrawing", "focusReach", "smallestScale", "bestFocus", "quickBound", "quickAnswer", "quickAnswerMemory", "rankBeams", "remedyMemory"]) {
    for (const nothing of [[], [null], [3], ["text"], [{}]]) {
      assert.equal(thrown(() => s[name](...nothing)).parameter, 198, name);
    }
  }
});

test("what is odd has a right answer", () => {
  const tiny = (samples, width) => ({ ...job, drawing: { ...job.drawing, samples: Uint8Array.from(samples), width, height: samples.length / width, rowStride: width } });
  const one = s.preflight(tiny([255], 1));
  assert.deepEqual([one.report.inkPixels, one.mark.length], [1, 1]);
  // Of no ink there is nothing to judge.
  const nothing = tiny(new Array(12).fill(0), 4);
  assert.deepEqual([thrown(() => s.preflight(nothing))].map((e) => [e.code, e.parameter])[0], [s.errorCode.undetermined, 219]);
  const bare = s.previewMark(nothing);
  assert.deepEqual([bare.report.markPixels, bare.report.spots.least, bare.report.typicalStrokeExposure], [0, undefined, undefined]);
  const board = s.preflight(tiny(Array.from({ length: 4096 }, (_, i) => 255 * ((i + (i >> 6)) % 2)), 64));
  assert.equal(board.report.inkPixels, 2048);
  const beside = { ...job, surface: { kind: "grid", columnsInMetres: Float64Array.of(5, 6), rowsInMetres: Float64Array.of(5, 6), heightsAwayFromLensInMetres: new Float64Array(4) } };
  assert.deepEqual(thrown(() => s.preflight(beside)).code, s.errorCode.undetermined);
});
