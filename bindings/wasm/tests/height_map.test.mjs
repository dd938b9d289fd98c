// Maps of heights: the right number in the right field, whatever the length of the map and the memory it lies in.

import assert from "node:assert/strict";
import { test } from "node:test";
import * as s from "spotwise";

const { um, mm, m, diameter1e2, awayFromLens, inFocus } = s;
const beam = { wavelength: um(10.6), m2: 1.2, waist: diameter1e2(um(88)) };
const at = awayFromLens(mm(0.2));
const heights = Float64Array.of(0.7e-3, 0.2e-3, NaN, -0.3e-3);
const kinds = ["growth", "diameter", "irradiance ratio", "line dose ratio"].map((kind) => ({ kind }));
const quantities = [...kinds, { kind: "smallest stroke", doseRatio: 2.7 }];

function prints(value, printed) {
  assert.equal(value.toFixed(printed.split(".")[1].length), printed);
}

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

test("a map of each quantity", () => {
  // z_R = π·(88 µm)²/(4·1.2·10.6 µm) = 0.4782 mm, and half a millimetre is 1.0457 of it: growth 1.4469.
  const maps = quantities.map((quantity) => s.mapHeights(beam, at, quantity, heights));
  const low = ["1.4469", "127.33", "0.4777", "0.6911", "30.70"];
  const sharp = ["1.0000", "88.00", "1.0000", "1.0000", "21.22"];
  maps.forEach((map, i) => {
    const unit = i === 1 || i === 4 ? 1e6 : 1;
    prints(map.values[0] * unit, low[i]);
    prints(map.values[1] * unit, sharp[i]);
    assert.ok(Number.isNaN(map.values[2]));
    assert.deepEqual([map.measured, map.missing], [3, 1]);
    const [least, greatest] = i === 2 || i === 3 ? [0, 1] : [1, 0];
    assert.deepEqual(map.least, { value: map.values[least], index: least });
    assert.deepEqual(map.greatest, { value: map.values[greatest], index: greatest });
    const { halfAngle, validity } = s.beamAt(beam, inFocus);
    assert.deepEqual([map.halfAngle, map.validity], [halfAngle, validity]);
  });
  const unknown = s.mapHeights(beam, at, kinds[0], Float64Array.of(NaN));
  assert.deepEqual([unknown.measured, unknown.missing, unknown.least, unknown.greatest], [0, 1, undefined, undefined]);
  const empty = s.mapHeights(beam, at, kinds[0], new Float64Array(0));
  assert.deepEqual([empty.values.length, empty.measured, empty.missing], [0, 0, 0]);
});

test("which heights are in focus", () => {
  const z = Float64Array.of(-0.3e-3, 0, NaN, 0.6e-3);
  const mask = s.inFocusMask(beam, awayFromLens(mm(0.1)), { by: "rayleigh" }, z);
  assert.deepEqual([...mask.inFocus], [1, 1, 0, 0]);
  assert.deepEqual([mask.inFocusCount, mask.tooNearLens, mask.tooFarFromLens, mask.missing], [2, 0, 1, 1]);
  prints(s.inMm(mask.towardLens.zAwayFromLens), "-0.3782");
  prints(s.inMm(mask.awayFromLens.zAwayFromLens), "0.5782");
  const depth = s.depthOfFocus(beam, { by: "rayleigh" });
  const ends = Float64Array.of(depth.towardLens.zAwayFromLens, depth.awayFromLens.zAwayFromLens);
  assert.deepEqual([...s.inFocusMask(beam, inFocus, { by: "rayleigh" }, ends).inFocus], [1, 1]);
  assert.equal(s.inFocusMask(beam, inFocus, { by: "rayleigh" }, new Float64Array(0)).inFocusCount, 0);
});

test("a map of more than one slice is the same bits, with the extremes of the whole", () => {
  const many = Float64Array.from({ length: 150_000 }, (_, i) => (i % 1000 === 7 ? NaN : (i - 60_000) * 2e-8));
  many[140_000] = many[0] = 5e-3; // alike: the first counts
  for (const quantity of quantities) {
    const map = s.mapHeights(beam, inFocus, quantity, many);
    for (const i of [0, 1, 60_000, 65_535, 65_536, 131_072, 149_999]) {
      assert.equal(map.values[i], s.mapHeights(beam, inFocus, quantity, Float64Array.of(many[i])).values[0]);
    }
    assert.deepEqual([map.measured, map.missing], [149_850, 150]);
    const ends = [map.least, map.greatest].map(({ index }) => index).sort((a, b) => a - b);
    assert.deepEqual(ends, [0, 60_000]);
    assert.ok([map.least, map.greatest].every(({ value, index }) => map.values[index] === value));
    // In place.
    const same = many.slice();
    assert.equal(s.mapHeights(beam, inFocus, quantity, same, same).values, same);
    assert.deepEqual(same, map.values);
  }
  const mask = s.inFocusMask(beam, inFocus, { by: "growth", ratio: 1.1 }, many);
  assert.equal(mask.inFocus.reduce((sum, byte) => sum + byte, 0), mask.inFocusCount);
  assert.equal(mask.inFocusCount + mask.tooNearLens + mask.tooFarFromLens + mask.missing, 150_000);
  const growths = s.mapHeights(beam, inFocus, quantities[0], many).values;
  assert.ok(growths.every((growth, i) => mask.inFocus[i] === Number(growth <= 1.1)));
  // A mask that lies in the memory of its heights.
  const shared = many.slice();
  const bytes = new Uint8Array(shared.buffer, 3, 150_000);
  assert.equal(s.inFocusMask(beam, inFocus, { by: "growth", ratio: 1.1 }, shared, bytes).inFocus, bytes);
  assert.deepEqual(bytes, mask.inFocus);
});

test("after an error nothing is stale, and other arrays are refused", () => {
  const many = new Float64Array(100_000);
  many[99_999] = Infinity;
  const out = new Float64Array(100_000).fill(1);
  const mask = new Uint8Array(100_000).fill(1);
  assert.equal(thrown(() => s.mapHeights(beam, inFocus, kinds[0], many, out)).parameter, 5);
  assert.ok(out.every(Number.isNaN));
  assert.equal(thrown(() => s.inFocusMask(beam, inFocus, { by: "rayleigh" }, many, mask)).parameter, 5);
  assert.ok(mask.every((byte) => byte === 0));
  assert.equal(thrown(() => s.mapHeights(beam, inFocus, { kind: "gloss" }, many, out.fill(1))).parameter, 132);
  assert.ok(out.every(Number.isNaN));
  for (const wrong of [[0], null, 3, new Float32Array(1), new Float64Array(2)]) {
    const e = thrown(() => s.mapHeights(beam, inFocus, kinds[0], new Float64Array(1), wrong));
    assert.deepEqual([e.code, e.parameter, e.least], [6, 40, 1], e.message);
    const f = thrown(() => s.inFocusMask(beam, inFocus, { by: "rayleigh" }, new Float64Array(1), wrong));
    assert.deepEqual([f.code, f.parameter, f.least], [6, 40, 1], f.message);
  }
  for (const z of [[0.001], 3, undefined, null, new Float32Array(3)]) {
    assert.equal(thrown(() => s.mapHeights(beam, inFocus, kinds[0], z)).parameter, 5);
    assert.equal(thrown(() => s.inFocusMask(beam, inFocus, { by: "rayleigh" }, z)).parameter, 5);
  }
  const one = new Float64Array(1);
  assert.match(thrown(() => s.mapHeights({ ...beam, m2: "1.2" }, inFocus, kinds[0], one)).message, /^M squared = "1\.2" is not a number/);
  assert.equal(thrown(() => s.mapHeights(beam, mm(1), kinds[0], one)).parameter, 39);
  assert.equal(thrown(() => s.mapHeights(beam, inFocus, { kind: "smallest stroke" }, one)).parameter, 18);
});
