// Shapes of a surface: the right number in the right field, and what is no surface refused by name.

import assert from "node:assert/strict";
import { test } from "node:test";
import * as s from "spotwise";

const { mm, m, rad } = s;
const crown = { x: mm(0), y: mm(0) };
/** 9 mm beside the crown of a bar of 15 mm radius: a triangle of 9, 12 and 15 mm. */
const bar = { kind: "cylinder", bulge: "toward lens", radius: mm(15), crown, axisAngle: rad(0) };
const region = { xLeast: mm(0), xGreatest: mm(50), yLeast: mm(-9), yGreatest: mm(9) };
const plate = {
  kind: "grid",
  columnsInMetres: Float64Array.of(0, 0.02, 0.05),
  rowsInMetres: Float64Array.of(0, 0.01),
  heightsAwayFromLensInMetres: Float64Array.of(0.1e-3, 0.3e-3, -0.2e-3, 0.5e-3, 0.7e-3, NaN),
};
const wholePlate = { xLeast: mm(0), xGreatest: mm(50), yLeast: mm(0), yGreatest: mm(10) };
const near = (got, want) => assert.ok(Math.abs(got / want - 1) < 1e-13, `${got} is not ${want}`);

function thrown(call) {
  try {
    call();
  } catch (error) {
    assert.ok(error instanceof s.SpotwiseError, error);
    return error;
  }
  return assert.fail("nothing thrown");
}

test("a bar, by radius or diameter", () => {
  const place = s.surfaceAt(bar, { x: mm(50), y: mm(9) });
  near(s.inMm(place.height.zAwayFromLens), 3);
  near(place.slope.awayFromLensAlongY, 0.75);
  assert.equal(place.slope.awayFromLensAlongX, 0);
  near(place.stretch, 1.25);
  near(place.irradianceFactor, 0.8);
  near(Math.tan(place.incidence), 0.75);
  const { radius, ...rest } = bar;
  assert.deepEqual(s.surfaceAt({ ...rest, diameter: mm(30) }, { x: mm(50), y: mm(9) }), place);
  // Turned by a quarter the other coordinate counts; a trough is the same the other way.
  near(s.surfaceAt({ ...bar, axisAngle: s.deg(90) }, { x: mm(9), y: mm(50) }).height.zAwayFromLens, 3e-3);
  near(s.surfaceAt({ ...bar, bulge: "away from lens" }, { x: mm(50), y: mm(9) }).height.zAwayFromLens, -3e-3);
  // 0.1 of lean along x adds 5 mm over 50 mm.
  const lean = { awayFromLensAlongX: 0.1, awayFromLensAlongY: 0 };
  near(s.surfaceAt({ ...bar, lean }, { x: mm(50), y: mm(9) }).height.zAwayFromLens, 8e-3);
});

test("extremes of a bar and of a dome", () => {
  const e = s.surfaceExtremes(bar, region);
  assert.deepEqual(e.highest, { height: { zAwayFromLens: 0 }, at: { x: 0, y: 0 } });
  near(s.inMm(e.range), 3);
  assert.deepEqual(e.lowest.at, { x: 0, y: mm(-9) });
  near(Math.sin(e.steepest.incidence), 0.6);
  assert.deepEqual(e.steepest.at, { x: 0, y: mm(-9) });
  assert.deepEqual([e.missingProbes, e.unknownShare], [0, 0]);
  // The corner of a square of 6 mm half width lies √72 mm from the crown: 17 − √(17² − 72) mm, by hand 2.2691.
  const square = { xLeast: mm(-6), xGreatest: mm(6), yLeast: mm(-6), yGreatest: mm(6) };
  const dome = { kind: "sphere", bulge: "toward lens", radius: mm(17), crown };
  assert.equal(s.inMm(s.surfaceExtremes(dome, square).range).toFixed(4), "2.2691");
});

test("planes and steps", () => {
  const slope = { awayFromLensAlongX: 0.02, awayFromLensAlongY: -0.01 };
  const plane = s.surfaceExtremes({ kind: "plane", slope }, wholePlate);
  near(s.inMm(plane.lowest.height.zAwayFromLens), 1); // 0.02·50
  near(s.inMm(plane.highest.height.zAwayFromLens), -0.1); // 0.01·10
  const steps = {
    kind: "steps",
    edgesInMetres: Float64Array.of(0, 0.02, 0.05),
    heightsAwayFromLensInMetres: Float64Array.of(0.5e-3, 2e-3),
  };
  assert.equal(s.surfaceAt(steps, { x: mm(20), y: m(3) }).height.zAwayFromLens, 2e-3);
  near(s.surfaceExtremes(steps, wholePlate).range, 1.5e-3);
});

test("a probed plate with a hole, its heights counted either way", () => {
  near(s.surfaceAt(plate, { x: mm(10), y: mm(5) }).height.zAwayFromLens, 0.4e-3);
  const e = s.surfaceExtremes(plate, wholePlate);
  assert.deepEqual([e.highest.height.zAwayFromLens, e.lowest.height.zAwayFromLens], [0.1e-3, 0.7e-3]);
  assert.equal(e.missingProbes, 1);
  near(e.unknownShare, 0.6);
  const { heightsAwayFromLensInMetres: heights, ...places } = plate;
  const gauge = heights.map((height) => -height);
  assert.deepEqual(s.surfaceExtremes({ ...places, heightsTowardLensInMetres: gauge }, wholePlate), e);
  assert.equal(gauge[0], -0.1e-3);
});

test("what is no surface is refused by name", () => {
  const place = { x: mm(10), y: mm(5) };
  const cases = [
    [3, 156, () => s.surfaceAt({ kind: "saddle" }, place)],
    [3, 156, () => s.surfaceAt(undefined, place)],
    [3, 160, () => s.surfaceAt({ ...bar, bulge: "up" }, place)],
    [1, 159, () => s.surfaceAt({ ...bar, radius: undefined }, place)],
    [2, 159, () => s.surfaceAt({ ...bar, radius: mm(-15) }, place)],
    [1, 157, () => s.surfaceAt({ kind: "plane" }, place)],
    [1, 157, () => s.surfaceAt({ ...bar, lean: null }, place)],
    [1, 161, () => s.surfaceAt({ ...bar, crown: undefined }, place)],
    [4, 170, () => s.surfaceAt(bar, { x: mm(0), y: mm(15) })],
    [4, 170, () => s.surfaceExtremes(bar, { ...region, yLeast: mm(-16) })],
    [2, 168, () => s.surfaceExtremes(bar, { ...region, xGreatest: mm(0) })],
    [1, 167, () => s.surfaceExtremes(bar, { ...region, yGreatest: undefined })],
    [1, 164, () => s.surfaceAt(bar, undefined)],
    [2, 165, () => s.surfaceAt(plate, { x: mm(10), y: mm(11) })],
    [8, 183, () => s.surfaceAt(plate, { x: mm(30), y: mm(5) })],
    [8, 184, () => s.surfaceExtremes(plate, { ...wholePlate, xLeast: mm(21) })],
    [8, 183, () => s.surfaceAt({ ...plate, heightsAwayFromLensInMetres: new Float64Array(6).fill(NaN) }, place)],
    [6, 182, () => s.surfaceAt({ ...plate, heightsAwayFromLensInMetres: new Float64Array(5) }, place)],
    [1, 179, () => s.surfaceAt({ ...plate, heightsAwayFromLensInMetres: [0, 0, 0, 0, 0, 0] }, place)],
    [2, 181, () => s.surfaceAt({ ...plate, rowsInMetres: Float64Array.of(0) }, place)],
    [2, 178, () => s.surfaceAt({ ...plate, columnsInMetres: Float64Array.of(0, 0, 1) }, place)],
    [1, 176, () => s.surfaceAt({ ...plate, columnsInMetres: undefined }, place)],
    [1, 171, () => s.surfaceAt({ kind: "steps" }, place)],
  ];
  for (const [code, parameter, call] of cases) {
    const error = thrown(call);
    assert.deepEqual([error.code, error.parameter], [code, parameter], error.message);
  }
  const named = (call) => thrown(call).message;
  assert.match(named(() => s.surfaceAt(bar, { x: "1", y: mm(5) })), /^place x = "1" is not a number/);
  assert.match(named(() => s.surfaceAt({ ...plate, rowsInMetres: [0, 1] }, place)), /^grid y = an object is not a Float64Array/);
});
