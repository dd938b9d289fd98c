// Planned series of test pieces: the right number in the right field.

import assert from "node:assert/strict";
import { test } from "node:test";
import * as s from "spotwise";

const { um, mm, signedOffset } = s;
const beam = { wavelength: um(1.064), m2: 1.2, waist: s.diameter1e2(um(60)) };
const request = {
  purpose: { for: "widths" },
  expectedFocus: s.inFocus,
  focusUncertainty: mm(0),
  axis: { axisStep: mm(0.1), backlash: mm(0.05), direction: "away from lens", clearance: mm(6), leastClearance: mm(2) },
  layout: { pieceWidth: mm(8), pieceHeight: mm(8), labelWidth: mm(6), labelHeight: mm(2), gap: mm(2), rowWidth: mm(50) },
};
const z = (offset) => s.inMm(offset.zAwayFromLens);
const close = (value, expected, within = 1e-9) => assert.ok(Math.abs(value - expected) <= within, `${value}`);

test("a series for widths", () => {
  const plan = s.planSeries(beam, request);
  close(s.inMm(plan.rayleighRange), 2.2145, 1e-4); // π·30²/(1.2·1.064) µm
  close(s.inMm(plan.step), 0.9);
  close(s.inMm(plan.halfRange), 4.5);
  assert.deepEqual([plan.stepsPerSide, plan.stepsTowardLens, plan.stepsAwayFromLens, plan.engraved], [5, 4, 5, 14]);
  close(s.inMm(plan.preTravel), 0.1);
  assert.equal(plan.vanishingOffset, undefined);
  assert.deepEqual([plan.columns, plan.rows, plan.validity.fine], [5, 3, true]);
  close(s.inMm(plan.width), 48);
  close(s.inMm(plan.height), 3 * 14 - 2);
  const labels = plan.pieces.map((piece) => piece.label);
  const sweep = ["-4.500", "-3.600", "-2.700", "-1.800", "-0.900", "0.000", "+0.900", "+1.800", "+2.700", "+3.600", "+4.500"];
  assert.deepEqual(labels, ["0.000", "+1.800", ...sweep, "0.000", "+1.800"]);
  const [first, , skipped, start, next] = plan.pieces;
  assert.deepEqual([first.role, start.role, plan.pieces.at(-1).role], ["first repeat", "sweep", "last repeat"]);
  assert.deepEqual([skipped.skipped, skipped.approach, skipped.corner], ["too near head", null, null]);
  assert.match(skipped.skippedText, /too close/);
  close(z(start.approach), -3.7);
  close(z(next.approach), -3.6);
  close(z(first.approach), -0.1);
  // The third in the upper row, its label centred below it.
  close(s.inMm(start.corner.x), 20);
  close(s.inMm(start.corner.y), 2 * 14 + 4);
  close(s.inMm(start.labelCorner.x), 21);
  close(s.inMm(start.labelCorner.y), 2 * 14);
});

test("a series for vanishing marks", () => {
  const purpose = { for: "vanishing", kind: "line", doseRatio: 1.25 };
  const axis = { ...request.axis, axisStep: undefined, direction: "toward lens" };
  const plan = s.planSeries(beam, { ...request, purpose, axis });
  close(s.inMm(plan.vanishingOffset), 0.75 * s.inMm(plan.rayleighRange)); // √(1.25² − 1)
  close(s.inMm(plan.step), s.inMm(plan.vanishingOffset) / 4);
  assert.deepEqual([plan.stepsPerSide, plan.pieces.length], [6, 15]);
  assert.ok(z(plan.pieces[1].height) > z(plan.pieces[2].height));
});

test("what no series fits is refused, by what to change", () => {
  const refused = (change, parameter, code = s.errorCode.outsideModel) =>
    assert.throws(
      () => s.planSeries(beam, { ...request, ...change }),
      (e) => e instanceof s.SpotwiseError && e.code === code && e.parameter === parameter,
    );
  refused({ axis: { ...request.axis, clearance: mm(3) } }, 261);
  refused({ axis: { ...request.axis, travelAwayFromLens: mm(1) } }, 262);
  refused({ step: um(1), axis: { ...request.axis, axisStep: undefined } }, 260);
  refused({ purpose: { for: "fun" } }, 250, s.errorCode.unknownChoice);
  refused({ layout: { ...request.layout, rowWidth: mm(7) } }, 259, s.errorCode.outOfRange);
});

test("drift", () => {
  const drift = s.seriesDrift({ width: um(60), deviation: um(3) }, { width: um(70), deviation: um(4) }, 0.95);
  close(s.inUm(drift.change), 10);
  close(s.inUm(drift.changeDeviation), 5);
  close(drift.significance, 2);
  close(drift.chance, 0.0455, 1e-5); // two-sided, of two deviations
  assert.equal(drift.drifted, true);
  assert.equal(s.seriesDrift({ width: um(60), deviation: um(3) }, { width: um(70), deviation: um(4) }, 0.99).drifted, false);
});
