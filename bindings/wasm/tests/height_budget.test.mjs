// What the heights of a surface ask of the focus.

import assert from "node:assert/strict";
import { test } from "node:test";
import * as s from "spotwise";

const { awayFromLens, diameter1e2, inFocus, inM, inMm, inUm, m, mm, nm, towardLens, um } = s;

const spot88 = { wavelength: um(10.6), m2: 1.2, waist: diameter1e2(um(88)) };
const mmOf = (offset) => inMm(offset.zAwayFromLens).toFixed(6);
const half = (x) => ({ towardLens: towardLens(mm(x)), awayFromLens: awayFromLens(mm(x)) });

function thrown(operation) {
  try {
    operation();
  } catch (error) {
    assert.ok(error instanceof s.SpotwiseError, String(error));
    return error;
  }
  return assert.fail("nothing was thrown");
}

test("the focus over a bowed plate", () => {
  const best = s.focusBetween(spot88, { highest: towardLens(mm(0.2)), lowest: awayFromLens(mm(0.8)) });
  assert.equal(mmOf(best.focus), "0.300000");
  assert.equal(inMm(best.halfRange).toFixed(6), "0.500000");
  // Half a millimetre off at either end: √(1 + (0.5/0.47815)²).
  assert.equal(best.worst.growth.toFixed(4), "1.4469");
  assert.equal(s.defocus(spot88, awayFromLens(mm(0.5))).growth.toFixed(12), best.worst.growth.toFixed(12));
  const flat = s.focusBetween(spot88, { highest: inFocus, lowest: inFocus });
  assert.equal(flat.worst.growth, 1);
});

test("the focus of an astigmatic beam over a surface", () => {
  const axis = (waistZ) => ({ m2: 5, waist: diameter1e2(um(30)), waistZ });
  const beam = { wavelength: nm(450), x: axis(inFocus), y: axis(awayFromLens(mm(0.2))) };
  const best = s.focusBetweenAstigmatic(beam, { highest: inFocus, lowest: awayFromLens(mm(0.6)) });
  assert.equal(mmOf(best.focus), "0.200000");
  // 30·√(1 + (0.4/0.314159)²), of y at the top and of x at the bottom.
  assert.equal(inUm(s.asDiameter1e2(best.worst)).toFixed(3), "48.570");
  assert.deepEqual([best.highestY, best.lowestX], [best.worst, best.worst]);
  assert.ok(s.asDiameter1e2(best.highestX) < s.asDiameter1e2(best.worst));
});

test("bands of height", () => {
  const step = { highest: inFocus, lowest: awayFromLens(mm(1.4)) };
  const bands = s.heightBands(step, { depth: half(0.25), margin: 0.1 });
  assert.equal(bands.count, 4);
  assert.deepEqual(bands.limits.map(mmOf), ["0.000000", "0.350000", "0.700000", "1.050000", "1.400000"]);
  assert.deepEqual(bands.focus.map(mmOf), ["0.175000", "0.525000", "0.875000", "1.225000"]);
  assert.equal(bands.shareOfDepth.toFixed(9), "0.700000000");
  // A depth of focus goes in as it comes out; without a margin fewer bands do.
  const depth = s.depthOfFocus(spot88, { by: "growth", ratio: 1.3 });
  const whole = s.heightBands(step, { depth });
  assert.equal(whole.count, Math.ceil(mm(1.4) / depth.full));
  assert.equal(inM(whole.limits.at(-1).zAwayFromLens), mm(1.4));
  // Rounding makes no further band.
  assert.ok(2.1 / 0.7 > 3);
  const exact = { highest: inFocus, lowest: awayFromLens(m(2.1)) };
  assert.equal(s.heightBands(exact, { depth: { towardLens: inFocus, awayFromLens: awayFromLens(m(0.7)) } }).count, 3);
  const many = s.heightBands({ highest: inFocus, lowest: awayFromLens(m(1)) }, { depth: half(0.01) });
  assert.deepEqual([many.count, many.limits.length, many.focus.length], [50_000, 50_001, 50_000]);
});

test("the strip of a round part", () => {
  const part = { radius: mm(25), depth: half(0.4) };
  const crown = s.cylinderStrip({ ...part, aim: "highest place" });
  const midway = s.cylinderStrip({ ...part, aim: "midway" });
  assert.equal(inMm(crown.fullChord).toFixed(4), "8.9084"); // 2·√(0.4·49.6)
  assert.equal(inMm(midway.fullChord).toFixed(4), "12.5475"); // 2·√(0.8·49.2)
  assert.deepEqual([mmOf(crown.focus), mmOf(midway.focus)], ["0.000000", "0.400000"]);
  assert.equal(midway.wholeUpperHalf, false);
  assert.deepEqual(s.cylinderStrip({ diameter: mm(50), depth: half(0.4), aim: "midway" }), midway);
  const ring = s.cylinderStrip({ radius: mm(0.5), depth: half(1), aim: "highest place" });
  assert.deepEqual([ring.wholeUpperHalf, ring.halfChord, ring.edgeIrradianceRatio], [true, mm(0.5), 0]);
});

test("a deep engraving", () => {
  const engraving = { totalDepth: mm(1.3), depthPerPass: mm(0.1), depth: half(0.25) };
  const above = s.refocusPlan({ ...engraving, aim: "highest place" });
  assert.deepEqual([above.passes, above.passesPerStage, above.stages, above.lastStagePasses], [13, 2, 7, 1]);
  assert.equal(mmOf(above.focus[6]), "1.200000");
  const midway = s.refocusPlan({ ...engraving, aim: "midway" });
  assert.deepEqual(midway.focus.map(mmOf), ["0.250000", "0.750000", "1.150000"]);
  assert.equal(midway.staysInFocus, true);
  const coarse = s.refocusPlan({ ...engraving, depthPerPass: mm(0.6), aim: "midway" });
  assert.deepEqual([coarse.staysInFocus, coarse.passesPerStage], [false, 1]);
});

test("a cut through a thickness", () => {
  const onTop = s.spotThrough(spot88, { focus: inFocus, thickness: mm(3) });
  assert.equal(inUm(s.asDiameter1e2(onTop.bottom)).toFixed(2), "559.09"); // 88·√(1 + (3/0.47815)²)
  assert.equal(mmOf(onTop.bestFocus), "1.500000");
  assert.ok(onTop.taperHalfAngle < 0); // wider at the bottom
  const best = s.spotThrough(spot88, { focus: onTop.bestFocus, thickness: mm(3) });
  assert.deepEqual([best.taperHalfAngle, best.taperRatio, best.worstGrowth], [0, 1, onTop.bestWorstGrowth]);
  assert.equal(inUm(s.asDiameter1e2(best.narrowest)), 88);
});

test("what is refused", () => {
  const up = { highest: awayFromLens(mm(1)), lowest: inFocus };
  const flat = { highest: inFocus, lowest: inFocus };
  const far = { highest: inFocus, lowest: awayFromLens(m(1e3)) };
  const none = { towardLens: inFocus, awayFromLens: inFocus };
  const part = { radius: mm(25), depth: half(0.4), aim: "midway" };
  const cut = { totalDepth: mm(1), depthPerPass: mm(0.1), depth: half(0.25), aim: "midway" };
  const below = { towardLens: awayFromLens(mm(0.1)), awayFromLens: awayFromLens(mm(0.3)) };
  const cases = [
    [2, 145, () => s.focusBetween(spot88, up)],
    [1, 144, () => s.focusBetween(spot88, { ...flat, highest: undefined })],
    [2, 145, () => s.focusBetween(spot88, { ...flat, lowest: s.signedOffset(m(2e7)) })],
    [2, 147, () => s.heightBands(flat, { depth: half(0.3), margin: 1 })],
    [1, 142, () => s.heightBands(flat, {})],
    [4, 146, () => s.heightBands(flat, { depth: none })],
    [4, 148, () => s.heightBands(far, { depth: half(1e-4) })],
    [2, 151, () => s.cylinderStrip({ ...part, radius: mm(-25) })],
    [3, 152, () => s.cylinderStrip({ ...part, aim: "crown" })],
    [2, 142, () => s.cylinderStrip({ ...part, depth: below, aim: "highest place" })],
    [2, 153, () => s.refocusPlan({ ...cut, totalDepth: mm(0) })],
    [2, 154, () => s.refocusPlan({ ...cut, depthPerPass: mm(0) })],
    [4, 155, () => s.refocusPlan({ ...cut, totalDepth: m(1), depthPerPass: nm(1) })],
    [2, 57, () => s.spotThrough(spot88, { focus: inFocus, thickness: mm(-3) })],
    [1, 39, () => s.spotThrough(spot88, { thickness: mm(3) })],
  ];
  for (const [code, parameter, operation] of cases) {
    const error = thrown(operation);
    assert.deepEqual([error.code, error.parameter], [code, parameter], error.message);
  }
  const text = thrown(() => s.heightBands(flat, { depth: half(0.3), margin: "0.1" })).message;
  assert.match(text, /^band margin = "0\.1" is not a number/);
});
