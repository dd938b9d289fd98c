// Learning from test pieces: the right number in the right field.

import assert from "node:assert/strict";
import { test } from "node:test";
import * as s from "spotwise";

const reading = (z, diameter) => ({
  height: s.signedOffset(s.mm(z)),
  width: s.diameter1e2(s.um(diameter)),
  deviation: s.um(0.1),
});

/** A beam of 80 µm in its waist at +0.1 mm, with a Rayleigh range of 4 mm: M² = π·80²/(4·1.064·4000) = 1.1810. */
const caustic = [-8, -6, -4, -2, 0, 2, 4, 6, 8, 10].map((z) => reading(z, 80 * Math.sqrt(1 + ((z - 0.1) / 4) ** 2)));

test("a beam from its widths", () => {
  const fit = s.fitBeam(caustic, { wavelength: s.um(1.064), outlierLimit: 3 });
  assert.equal(s.inUm(s.asDiameter1e2(fit.waist.value)).toFixed(2), "80.00");
  assert.equal(s.inMm(fit.waistZ.value.zAwayFromLens).toFixed(4), "0.1000");
  assert.equal(s.inMm(fit.rayleighRange.value).toFixed(3), "4.000");
  assert.equal(fit.m2.value.toFixed(3), "1.181");
  assert.equal(((fit.m2.greatest - fit.m2.least) / (2 * fit.m2.deviation)).toFixed(2), "1.96");
  assert.equal((s.inRad(s.asFullAngle(fit.divergence.value)) * 1e3).toFixed(2), "20.00"); // 80 µm/4 mm
  assert.deepEqual([fit.degreesOfFreedom, fit.readingsUsed, fit.readingsNear, fit.readingsFar], [7, 10, 4, 2]);
  assert.equal(fit.warningBits, s.beamWarningBit.littleScatter | s.beamWarningBit.fewFar);
  assert.equal(fit.warnings.length, 2);
  assert.equal(fit.warnings[1], "the readings scatter less than their deviations say");
  assert.ok(fit.residuals.every((residual) => Math.abs(s.inUm(residual)) < 0.01));

  const spoilt = caustic.with(3, reading(-2, 130));
  const cleared = s.fitBeam(spoilt, { wavelength: s.um(1.064), outlierLimit: 3, weights: "measured", markDoseRatio: 4 });
  assert.deepEqual(cleared.used, caustic.map((_, i) => i !== 3));
  assert.equal(cleared.m2.value.toFixed(3), "1.181");
  assert.equal(s.inUm(cleared.residuals[3]).toFixed(1), "39.6");
  assert.ok((cleared.warningBits & s.beamWarningBit.markWidths) !== 0);
});

test("Student's t and chi squared, as printed in tables", () => {
  assert.equal(s.studentFactor(0.95, 8).toFixed(3), "2.306");
  assert.equal(s.studentFactor(0.99, 1).toFixed(3), "63.657");
  assert.equal(s.chiSquaredChance(15.507, 8).toFixed(4), "0.0500");
  assert.equal(s.chiSquaredChance(0, 3), 1);
  for (const degrees of [2.5, 0, 100_001]) {
    assert.throws(() => s.studentFactor(0.95, degrees), { code: 2, parameter: 226, value: degrees });
    assert.throws(() => s.chiSquaredChance(3, degrees), { code: 2, parameter: 226, value: degrees });
  }
});

// Lines of a spot of 80 um, zR = 0.4 mm, focus at +0.05 mm, so many times the threshold.
const line = (z, dose) => {
  const u = Math.hypot(1, (z - 0.05) / 0.4);
  return dose > u ? s.um(80 * u * Math.sqrt(Math.log(dose / u) / 2)) : null;
};
const series = (dose, powerRatio) =>
  Array.from({ length: 11 }, (_, i) => (i - 5) * 0.2).map((z) => ({
    height: s.signedOffset(s.mm(z)),
    width: line(z, dose * (powerRatio ?? 1)),
    deviation: s.um(1),
    powerRatio,
  }));

test("marks at stepped heights tell focus, spot, range and dose", () => {
  const fit = s.fitMarkWidths(series(4), { kind: "line", wavelength: s.um(10.6) });
  // The marks are exact, so the plain least-squares quantities are too: value and bias together.
  assert.equal(s.inMm(fit.waistHeight.value.zAwayFromLens + fit.waistHeight.bias).toFixed(6), "0.050000");
  assert.equal(s.inUm(fit.waist.value.diameter1e2 + fit.waist.bias).toFixed(5), "80.00000");
  assert.equal(s.inMm(fit.rayleighRange.value + fit.rayleighRange.bias).toFixed(7), "0.4000000");
  assert.equal((fit.doseRatio.value + fit.doseRatio.bias).toFixed(7), "4.0000000");
  // pi d^2/(4 lambda zR) = pi 0.0064/(4 0.0106 0.4)
  assert.equal((fit.mSquared.value + fit.mSquared.bias).toFixed(4), "1.1855");
  assert.ok(Math.abs(fit.waist.bias) < 0.1 * fit.waist.deviation && fit.waist.bias !== 0);
  assert.equal(fit.rangeFactor.toFixed(3), "1.960");
  assert.equal(fit.degreesOfFreedom, 7);
  assert.deepEqual([fit.marksUsed, fit.vanishedUsed, fit.used.length, fit.residuals.length], [11, 0, 11, 11]);
  assert.ok(fit.used.every(Boolean) && fit.chiSquared < 1e-9);
  for (const e of [fit.rayleighRange, fit.doseRatio, fit.mSquared]) assert.ok(e.least < e.value && e.value < e.greatest);
  assert.deepEqual(fit.correlations.length, 6);
});

test("marks that vanish and a second power tell more; an outlier is left out; sentences go with bits", () => {
  const both = [...series(1.6, 1), ...series(1.6, 2)];
  const known = { kind: "line", wavelength: s.um(10.6), outlierLimit: 3, scatter: "stated", confidence: 0.9 };
  const fit = s.fitMarkWidths(both, known);
  assert.ok(fit.vanishedUsed > 0 && fit.marksUsed + fit.vanishedUsed === 22);
  const alone = s.fitMarkWidths(series(1.6, 1), known);
  assert.ok(fit.waist.deviation < alone.waist.deviation);
  const helped = s.fitMarkWidths(series(1.6, 1), { ...known, mSquared: { value: 1.1855, relativeDeviation: 0.1 } });
  assert.ok(helped.waist.deviation < alone.waist.deviation);
  const spot = { value: s.diameter1e2(s.um(80)), relativeDeviation: 0.01 };
  assert.ok(s.fitMarkWidths(both, { ...known, waist: spot }).waist.deviation < s.um(0.81));

  const spoilt = both.map((mark, i) => (i === 16 ? { ...mark, width: s.um(s.inUm(mark.width) + 40) } : mark));
  const cleared = s.fitMarkWidths(spoilt, known);
  assert.deepEqual([cleared.used[16], cleared.used[15]], [false, true]);
  assert.equal(cleared.residuals[16].toFixed(0), "40");
  assert.equal(cleared.cautionBits & s.markFitCautionBit.outliers, 1);
  assert.equal(cleared.furtherBits & s.furtherMarksBit.repeats, 16);
  assert.equal(cleared.cautions[0], "Marks were left out as outliers.");
  assert.equal(cleared.further.at(-1), "Mark those heights again that were left out.");
  for (const [bits, texts] of [[cleared.cautionBits, cleared.cautions], [cleared.furtherBits, cleared.further]]) {
    assert.equal(texts.length, bits.toString(2).replaceAll("0", "").length);
  }
});

test("marks that cannot tell are refused with what would help", () => {
  const flat = series(4).map((mark) => ({ ...mark, width: s.um(100) }));
  const known = { kind: "line", wavelength: s.um(10.6) };
  assert.throws(() => s.fitMarkWidths(flat, known), { code: 8 });
  assert.throws(() => s.fitMarkWidths(series(4).slice(0, 2), known), { code: 8, parameter: 116, value: 2, least: 5 });
  const level = series(4).map((mark) => ({ ...mark, height: s.inFocus }));
  assert.throws(() => s.fitMarkWidths(level, known), { code: 8, parameter: 268, message: /mark at more heights$/ });
  for (const marks of [undefined, null, 3, {}, []]) assert.throws(() => s.fitMarkWidths(marks, known), { parameter: 116 });
  assert.throws(() => s.fitMarkWidths([null, 3, undefined], known), { code: 1, parameter: 6 });
  const missing = series(4).map((mark) => ({ ...mark, width: undefined }));
  assert.throws(() => s.fitMarkWidths(missing, known), { code: 1, parameter: 113 });
});
