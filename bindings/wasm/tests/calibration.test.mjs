// What test pieces told of a machine, as plain JSON, and jobs on that machine.

import assert from "node:assert/strict";
import { test } from "node:test";
import * as s from "spotwise";

const { diameter1e2, mm, um } = s;

const calibration = {
  wavelength: um(10.6),
  focalLength: mm(38.1),
  focus: s.awayFromLens(mm(0.23)),
  focusDeviation: um(20),
  waist: diameter1e2(um(95)),
  waistDiameterDeviation: um(1.5),
  m2: 1.2,
  m2Deviation: 0.05,
  line: { power: s.watt(18), speed: s.mPerS(0.4), doseRatio: 4.2, relativeDeviation: 0.03, correlation: -0.6 },
};

const planned = {
  wavelength: um(10.6),
  m2: 1.1,
  rawBeam: { by: "collimated", atLens: diameter1e2(mm(7)) },
  focalLength: mm(50.8),
  singlet: { glass: "zinc selenide", shape: "curved side first" },
  focus: { by: "datum", waistZ: s.inFocus },
  surfaceRise: mm(0.3),
  surfaceFall: mm(0.3),
  criterion: { by: "rayleigh" },
  finestStroke: mm(0.1),
  finestGap: mm(0.1),
  dose: {
    by: "scan",
    power: s.watt(20),
    speed: s.mPerS(0.5),
    lineInterval: um(50),
    threshold: s.jPerMm2(0.3),
  },
};

const near = (given, expected, share) => assert.ok(Math.abs(given / expected - 1) < share, `${given}, not ${expected}`);

function thrown(call) {
  try {
    call();
  } catch (error) {
    assert.ok(error instanceof s.SpotwiseError, String(error));
    return error;
  }
  assert.fail("nothing is refused");
}

test("from marks to a calibration", () => {
  // Lines of a spot of 80 um, zR = 0.4 mm, in focus at the datum, 4 times the threshold: b = 80·u·√(ln(4/u)/2) um.
  const marks = [-5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5].map((step) => {
    const u = Math.hypot(1, step / 2);
    const width = um(80 * u * Math.sqrt(Math.log(4 / u) / 2));
    return { height: s.signedOffset(mm(step / 5)), width, deviation: um(0.01), powerRatio: 1 };
  });
  const series = { kind: "line", wavelength: um(10.6) };
  const lines = { wavelength: um(10.6), focalLength: mm(38.1), power: s.watt(10), speed: s.mPerS(0.5) };
  const fit = s.fitMarkWidths(marks, series);
  const found = s.calibrationFromMarks(fit, lines);
  assert.deepEqual([found.waist, found.focus, found.m2], [fit.waist.value, fit.waistHeight.value, fit.mSquared.value]);
  assert.deepEqual([found.focalLength, found.line.power, found.line.speed], [lines.focalLength, lines.power, lines.speed]);
  assert.equal(found.line.correlation, fit.correlations[4]);
  // √(8/π)·10/(0.5·80e-6·4) = 99 736 J/m²
  near(s.inJPerM2(s.learnedThreshold(found).threshold), 99736, 1e-5);
  near(s.inMm(s.calibratedSetUp(found).rayleighRange), 0.4, 1e-4);
  // Ranges for another confidence are none for a calibration.
  const wider = s.fitMarkWidths(marks, { ...series, confidence: 0.99 });
  assert.equal(thrown(() => s.calibrationFromMarks(wider, lines)).parameter, 239);
});

test("the worked examples", () => {
  const setUp = s.calibratedSetUp(calibration);
  // 95 um·38.1 mm over a Rayleigh range of π·95²/(4·1.2·10.6) um = 557.2499 um.
  near(s.inMm(s.asDiameter1e2(setUp.rawBeam.waist)), 6.4952908, 1e-8);
  near(s.inUm(setUp.rayleighRange), 557.2498762, 1e-9);
  assert.equal(setUp.focusDeviation, um(20));
  assert.deepEqual(setUp.focused, { wavelength: um(10.6), m2: 1.2, waist: calibration.waist });
  const learned = s.learnedThreshold(calibration);
  near(s.inJPerM2(learned.threshold), 179973.961, 1e-8); // √(8/π)·18/(0.4·95e-6·4.2)
  near(learned.relativeDeviation, 0.0241015856, 1e-8);
});

test("a job on the machine of a calibration, which is JSON", () => {
  const kept = JSON.parse(JSON.stringify(calibration));
  assert.deepEqual(s.withCalibration(planned, kept), s.withCalibration(planned, calibration));
  const job = s.withCalibration(planned, kept);
  assert.deepEqual([job.singlet, job.focalLength, job.m2], [undefined, mm(38.1), 1.2]);
  assert.equal(planned.singlet.glass, "zinc selenide");
  const verdict = s.focusCheck(job);
  near(s.inUm(s.asDiameter1e2(verdict.focused.waist)), 95, 1e-14);
  assert.deepEqual(verdict.focusZ, calibration.focus);
  near(verdict.doseRatio, 800_000 / 179973.961, 1e-8); // 20/(0.5·50e-6) J/m²
  // A dose that is given as a ratio stays, and so does the threshold where the beam alone was learned.
  const ratio = { by: "ratio", doseRatio: 2.7 };
  assert.deepEqual(s.withCalibration({ ...planned, dose: ratio }, calibration).dose, ratio);
  assert.deepEqual(s.withCalibration(planned, { ...calibration, line: undefined }).dose, planned.dose);
  // Another lens is chosen with the same raw beam.
  const lenses = [{ focalLength: mm(38.1), workingDistance: mm(30) }];
  const found = s.chooseLens(job, lenses, { tolerance: mm(0), leastClearance: mm(1) });
  near(s.inUm(s.asDiameter1e2(found.rankings[0].found.spotInFocus)), 95, 1e-14);
});

test("what the height of focus may be off by", () => {
  const wide = { ...calibration, coverageFactor95: 2 * s.normalFactor95 }; // of a range twice as wide
  const stack = s.toleranceStack([s.focusContribution(calibration), s.focusContribution(wide)], 0.95);
  near(s.inUm(stack.deviation), Math.sqrt(20 ** 2 + 40 ** 2), 1e-14);
  near(s.normalFactor95, stack.coverageFactor, 1e-15);
  assert.deepEqual(stack.dominant.place, 1);
});

test("an M² below 1", () => {
  const setUp = s.calibratedSetUp({ ...calibration, m2: 0.91 });
  assert.equal(setUp.m2, 1);
  const e = thrown(() => s.calibratedSetUp({ ...calibration, m2: 0.9 }));
  assert.deepEqual([e.code, e.parameter, e.value], [4, 234, 0.9]);
  assert.match(e.message, /^measured M squared = 0\.9 is outside the model \(must be from 0\.902/);
  assert.equal(s.calibratedSetUp({ ...calibration, m2: 0.9, coverageFactor95: 2.306 }).m2, 1);
});

test("what is refused", () => {
  const cases = [
    [1, 234, { m2: NaN }],
    [2, 234, { m2: 0 }],
    [2, 235, { m2Deviation: -1 }],
    [1, 3, { waist: undefined }],
    [2, 8, { focalLength: mm(-38.1) }],
    [1, 237, { focusShift: null }],
    [2, 238, { focusDeviation: um(-1) }],
    [2, 239, { coverageFactor95: 1 }],
    [4, 43, { focusShift: s.towardLens(mm(40)) }],
    [4, 10, { waist: diameter1e2(um(10)) }],
  ];
  for (const [code, parameter, wrong] of cases) {
    const e = thrown(() => s.withCalibration(planned, { ...calibration, ...wrong }));
    assert.deepEqual([e.code, e.parameter], [code, parameter], e.message);
    assert.equal(thrown(() => s.focusContribution({ ...calibration, ...wrong })).parameter, parameter);
  }
  const lines = [
    [2, 236, { waistDiameterDeviation: um(-1) }],
    [2, 18, { line: { ...calibration.line, doseRatio: 1 } }],
    [2, 240, { line: { ...calibration.line, relativeDeviation: 11 } }],
    [2, 241, { line: { ...calibration.line, correlation: -2 } }],
    [1, 77, { line: null }],
  ];
  for (const [code, parameter, wrong] of lines) {
    const e = thrown(() => s.withCalibration(planned, { ...calibration, ...wrong }));
    assert.deepEqual([e.code, e.parameter], [code, parameter], e.message);
  }
  const other = thrown(() => s.withCalibration({ ...planned, wavelength: um(1.064) }, calibration));
  assert.deepEqual([other.code, other.parameter, other.greatest], [2, 1, um(10.6)]);
  assert.equal(thrown(() => s.withCalibration(undefined, calibration)).parameter, 1);
});
