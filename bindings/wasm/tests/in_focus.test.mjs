// How much of a surface is in focus, and where focus serves it best: the right number in the right field. The numbers
// were worked out by hand, as told beside them.

import assert from "node:assert/strict";
import { test } from "node:test";
import * as s from "spotwise";

const { mm, um, m, diameter1e2, inFocus, awayFromLens, towardLens } = s;

const spot88 = { wavelength: um(10.6), m2: 1.2, waist: diameter1e2(um(88)) };
const rayleigh = { by: "rayleigh" };
const region = (x, y) => ({ xLeast: mm(0), xGreatest: mm(x), yLeast: mm(0), yGreatest: mm(y) });
const plate = { kind: "plane", slope: { awayFromLensAlongX: 0.01, awayFromLensAlongY: 0 } };
const strips = {
  kind: "steps",
  edgesInMetres: Float64Array.of(0, 0.2, 0.3),
  heightsAwayFromLensInMetres: Float64Array.of(0, 2e-3),
};
const corner = {
  kind: "grid",
  columnsInMetres: Float64Array.of(0, 0.05),
  rowsInMetres: Float64Array.of(0, 0.05),
  heightsAwayFromLensInMetres: Float64Array.of(0, 0, 0, 1e-3),
};
const bar = {
  kind: "cylinder",
  bulge: "toward lens",
  radius: mm(10),
  crown: { x: mm(0), y: mm(0) },
  axisAngle: s.rad(0),
};

/** Whether a number rounds to what is printed with this many decimals. */
function prints(value, printed) {
  const decimals = printed.split(".")[1]?.length ?? 0;
  assert.equal(value.toFixed(decimals), printed);
}
/** Codes of the cells, of the shape, and of the end of the band toward the lens. */
const CELLS = 189;
const SHAPE = 156;
const LIMIT = 142;
const zInUm = (offset) => s.inUm(offset.zAwayFromLens);

test("mean and spread of a surface", () => {
  const heights = s.regionHeights(plate, region(60, 40));
  prints(zInUm(heights.mean), "300.000");
  prints(s.inUm(heights.deviation), "173.205"); // 600/√12
  assert.equal(zInUm(heights.highest), 0);
  prints(zInUm(heights.lowest), "600.000");
  assert.equal(heights.unknownShare, 0);
  // The strips end at 300 mm: a quarter of 400 mm is unknown, and of the rest a third is 2 mm lower.
  const partly = s.regionHeights(strips, region(400, 100));
  prints(partly.unknownShare, "0.250000");
  prints(zInUm(partly.mean), "666.667");
  prints(s.inUm(partly.deviation), "942.809"); // 2000·√(2/9)
});

test("shares of a surface", () => {
  const band = { towardLens: inFocus, awayFromLens: awayFromLens(mm(0.2)) };
  const share = s.shareInFocus(corner, region(50, 50), band);
  prints(share.inFocus, "0.521888"); // 0.2·(1 − ln 0.2), z being 1 mm·u·v
  assert.equal(share.towardLens, 0);
  prints(share.awayFromLens, "0.478112");
  // A third of the plate is in the band, a sixth nearer to the lens, a half farther off.
  const third = { towardLens: awayFromLens(mm(0.1)), awayFromLens: awayFromLens(mm(0.3)) };
  const plane = s.shareInFocus(plate, region(60, 40), third);
  prints(plane.inFocus, "0.333333");
  prints(plane.towardLens, "0.166667");
  prints(plane.awayFromLens, "0.500000");
});

test("cells matter to curved surfaces only", () => {
  const marked = { ...region(30, 8), yLeast: mm(-8) };
  const mean = (cells) => zInUm(s.regionHeights(bar, marked, cells).mean);
  // 4 mm − 44.7295 mm²/16 mm, the area of the circular segment over its chord
  prints(mean({ cellsPerSide: 1000 }), "1204.41");
  assert.ok(Math.abs(mean({ cellsPerSide: 2 }) - 1204.41) > 100);
  assert.equal(mean({}), mean({ cellsPerSide: 128 }));
  assert.equal(mean(), mean({ cellsPerSide: undefined }));
  const heights = s.regionHeights(plate, region(60, 40));
  assert.deepEqual(s.regionHeights(plate, region(60, 40), { cellsPerSide: 7 }), heights);
});

test("where to set focus", () => {
  const focus = s.focusForSurface(spot88, rayleigh, strips, region(300, 200));
  prints(zInUm(focus.leastWorst.focus), "1000.000"); // half-way, where nothing is in focus
  assert.equal(focus.leastWorst.shareInFocus, 0);
  const { growth, halfAngle, validity } = s.defocus(spot88, towardLens(mm(1)));
  assert.equal(focus.leastWorst.worstGrowth, growth);
  prints(focus.leastWorst.meanAreaGrowth / growth ** 2, "1.000000000"); // all of it is 1 mm off
  prints(zInUm(focus.leastMeanArea.focus), "666.667");
  prints(zInUm(focus.mostInFocus.focus), "0.000");
  prints(focus.mostInFocus.shareInFocus, "0.666667");
  prints(focus.mostInFocus.worstGrowth, s.defocus(spot88, towardLens(mm(2))).growth.toFixed(6));
  assert.ok(focus.leastMeanArea.meanAreaGrowth < focus.leastWorst.meanAreaGrowth);
  assert.deepEqual([focus.halfAngle, focus.validity, focus.unknownShare], [halfAngle, validity, 0]);
  // The depth may be told otherwise: a spot of 200 µm is reached beyond 1 mm, half-way holds everything.
  const large = { by: "largest diameter", diameter: diameter1e2(um(210)) };
  const all = s.focusForSurface(spot88, large, strips, region(300, 200));
  assert.equal(all.mostInFocus.shareInFocus, 1);
  prints(zInUm(all.mostInFocus.focus), "1000.000");
});

test("what is refused", () => {
  const refused = (call, code, parameter) => {
    assert.throws(call, (e) => e instanceof s.SpotwiseError && e.code === code && e.parameter === parameter);
  };
  const heights = (cellsPerSide) => () => s.regionHeights(plate, region(60, 40), { cellsPerSide });
  for (const cells of [0, -1, 1001, 2.5, 2 ** 32 + 2]) refused(heights(cells), 2, CELLS);
  for (const cells of [NaN, Infinity, null, "2", true]) refused(heights(cells), 1, CELLS);
  assert.throws(heights(2.5), /^SpotwiseError: cells per side = 2\.5 is out of range \(must be from 1 to 1000\)$/);
  assert.throws(heights("2"), /cells per side = "2" is not a number/);
  const band = (toward, away) => ({ towardLens: s.signedOffset(m(toward)), awayFromLens: s.signedOffset(m(away)) });
  refused(() => s.shareInFocus(plate, region(60, 40), band(NaN, 0)), 1, LIMIT);
  refused(() => s.shareInFocus(plate, region(60, 40), band(0, -1e-9)), 2, LIMIT + 1);
  refused(() => s.shareInFocus(plate, region(60, 40)), 1, LIMIT);
  refused(() => s.focusForSurface(spot88, { by: "eye" }, strips, region(60, 40)), 3, 28);
  refused(() => s.focusForSurface(spot88, rayleigh, { kind: "cone" }, region(60, 40)), 3, SHAPE);
  refused(() => s.focusForSurface({ ...spot88, m2: 0 }, rayleigh, strips, region(60, 40)), 2, 2);
  const tooSmall = { by: "largest diameter", diameter: diameter1e2(um(80)) };
  refused(() => s.focusForSurface(spot88, tooSmall, strips, region(60, 40)), 5, 17);
});
