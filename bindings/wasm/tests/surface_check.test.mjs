// The verdict on a job whose surface has a shape: the right number in the right field, and refusals by name.

import assert from "node:assert/strict";
import { test } from "node:test";
import * as s from "spotwise";

const { mm, um, rad } = s;
const job = {
  wavelength: um(10.6),
  m2: 1.2,
  rawBeam: { by: "collimated", atLens: s.diameter1e2(mm(7)) },
  focalLength: mm(38.1),
  focus: { by: "datum", waistZ: s.inFocus },
  surfaceRise: mm(0.3),
  surfaceFall: mm(0.3),
  criterion: { by: "rayleigh" },
  finestStroke: mm(0.1),
  finestGap: mm(0.1),
  dose: { by: "ratio", doseRatio: 2.7 },
};
const crown = { x: mm(0), y: mm(0) };
const bar = { kind: "cylinder", bulge: "toward lens", radius: mm(15), crown, axisAngle: rad(0) };
const region = { xLeast: mm(0), xGreatest: mm(50), yLeast: mm(-9), yGreatest: mm(9) };
const near = (got, want, by = 1e-12) => assert.ok(Math.abs(got / want - 1) < by, `${got} is not ${want}`);

test("a bar: where it is worst, how much of it holds, and in how many bands all of it would", () => {
  const found = s.surfaceCheck(job, bar, region);
  assert.equal(found.verdict.outcome, "lost");
  assert.ok(found.verdict.reasonBits & s.reasonBit.steep && found.verdict.reasonBits & s.reasonBit.bandsHelp);
  assert.ok(found.verdict.reasons.some((reason) => /leans so much/.test(reason)));
  // By hand, as in tests/c/face_surface_check.h.
  near(s.inMm(found.worst.height.zAwayFromLens), 3);
  near(s.inMm(found.worst.at.y), -9);
  near(found.steepestIrradianceFactor, 0.8);
  near(found.steepestStretch, 1.25);
  near(Math.sin(found.extremes.steepest.incidence), 0.6);
  assert.equal(found.bands, 2);
  near(found.shareThatHolds, 4.881 / 9, 1e-3);
  assert.deepEqual(s.surfaceCheck(job, bar, region, { cellsPerSide: 128 }), found);
});

test("a level plane is a job without a shape", () => {
  const plane = { kind: "plane", slope: { awayFromLensAlongX: 0, awayFromLensAlongY: 0 } };
  const found = s.surfaceCheck(job, plane, region);
  assert.deepEqual(found.verdict, s.focusCheck(job));
  assert.deepEqual([found.bands, found.shareThatHolds], [1, 1]);
  // Nothing holds where the details do not even in the waist.
  const lost = s.surfaceCheck({ ...job, finestGap: um(20) }, plane, region);
  assert.deepEqual([lost.bands, lost.shareThatHolds, lost.verdict.detailRange], [null, 0, null]);
});

test("refusals: the surface before the job, each by name", () => {
  const refused = (...given) => {
    try {
      s.surfaceCheck(...given);
    } catch (error) {
      assert.ok(error instanceof s.SpotwiseError, error);
      return error.parameterName ?? error.message;
    }
    return assert.fail("nothing thrown");
  };
  const bad = { ...job, m2: 0.5 };
  assert.match(refused(bad, { ...bar, radius: mm(8) }, region), /crown/);
  assert.match(refused(bad, bar, { ...region, xGreatest: mm(0) }), /region/);
  assert.match(refused(bad, bar, region, { cellsPerSide: 0 }), /cells/);
  assert.match(refused(bad, bar, region, { cellsPerSide: 1.5 }), /cells/);
  assert.match(refused(bad, bar, region), /M squared/);
  assert.match(refused(undefined, bar, region), /raw beam/);
  assert.match(refused(job, undefined, region), /surface/);
});
