// The field of a scan head: the right number in the right field, worked out by hand.

import assert from "node:assert/strict";
import { test } from "node:test";
import * as s from "spotwise";

const { um, mm, rad, diameter1e2, towardLens, awayFromLens, inFocus } = s;
const beam = { wavelength: um(1.064), m2: 1.3, waist: diameter1e2(um(60)) };
const lens = {
  focalLength: mm(160),
  fieldRadius: mm(70),
  edgeTangentialFocus: towardLens(mm(1)),
  edgeSagittalFocus: towardLens(mm(0.4)),
  edgeIncidence: rad(0.25),
};
const flat = { ...lens, edgeIncidence: rad(0) };

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

test("the spot at a place", () => {
  // z_R = π·(60 µm)²/(4·1.3·1.064 µm) = 2.0441 mm; halfway to the edge a quarter of the curvature, half of the angles.
  const spot = s.scanFieldAt(beam, lens, { x: mm(-21), y: mm(28) }, inFocus);
  prints(s.inMm(spot.radius), "35.0000");
  prints(s.inRad(spot.fieldAngle), "0.21875");
  prints(s.inRad(spot.incidence), "0.12500");
  prints(s.inMm(spot.tangentialFocus.zAwayFromLens), "-0.25000");
  prints(s.inMm(spot.sagittalFocus.zAwayFromLens), "-0.10000");
  // √(1 + (0.25/(2.0441·cos 0.125))²)/cos 0.125, and √(1 + (0.1/(2.0441·cos 0.125))²)
  prints(spot.growthAlongRadius, "1.01549");
  prints(spot.growthAcrossRadius, "1.00121");
  prints(s.inUm(spot.diameterAlongRadius), "60.929");
  prints(s.inUm(spot.diameterAcrossRadius), "60.073");
  prints(spot.irradianceRatio * spot.growthAlongRadius * spot.growthAcrossRadius, "1.0000000000");
  prints(spot.lineDoseRatioAlongRadius * spot.growthAcrossRadius, "1.0000000000");
  prints(spot.lineDoseRatioAcrossRadius * spot.growthAlongRadius, "1.0000000000");
  prints(spot.grazingRatio, "0.00184"); // tan 0.125 · 0.01468
  prints(s.inRad(spot.halfAngle), "0.01468");
  assert.ok(spot.validity.fine);
  // A spot that the lens makes 1.2 times as wide at the edge: 1.05 times halfway.
  const wider = s.scanFieldAt(beam, { ...flat, edgeSpotRatio: 1.2 }, { x: mm(35), y: mm(0) }, towardLens(mm(0.1)));
  prints(wider.growthAcrossRadius, "1.05000");
});

test("how far the field reaches, and where to put the table", () => {
  const bowl = { ...flat, edgeTangentialFocus: towardLens(mm(3)), edgeSagittalFocus: towardLens(mm(3)) };
  const extent = s.scanFieldExtent(beam, bowl, inFocus, 1.1);
  prints(s.inMm(extent.radius), "39.115"); // 70 mm·√(√(1.1² − 1)·2.0441/3)
  prints(s.inMm(extent.squareSide), "55.317");
  assert.deepEqual([extent.wholeField, extent.grazingRatio, extent.validity.fine], [false, 0, true]);
  assert.equal(s.scanFieldExtent(beam, bowl, inFocus, 2).wholeField, true);
  // A table halfway up to the edge has a larger field.
  assert.ok(s.scanFieldExtent(beam, bowl, towardLens(mm(0.5)), 1.1).radius > extent.radius);

  const astigmatic = { ...bowl, edgeSagittalFocus: towardLens(mm(1)) };
  const focus = s.scanFieldFocus(beam, astigmatic, mm(70));
  prints(s.inMm(focus.best.zAwayFromLens), "-1.500000");
  prints(s.inMm(focus.greatestDefocus), "1.500000");
  prints(focus.centreGrowth, "1.24035"); // √(1 + (1.5/2.0441)²)
  prints(focus.edgeGrowthAlongRadius, "1.24035");
  prints(focus.edgeGrowthAcrossRadius, "1.02948"); // √(1 + (0.5/2.0441)²)
  assert.deepEqual([focus.grazingRatio, focus.halfAngle], [0, extent.halfAngle]);
  const half = s.scanFieldFocus(beam, astigmatic, mm(35));
  prints(s.inMm(half.best.zAwayFromLens), "-0.375000");
});

test("what is refused", () => {
  const middle = { x: mm(0), y: mm(0) };
  const cases = [
    ["outsideModel", 66, () => s.scanFieldAt(beam, lens, { x: mm(60), y: mm(40) }, inFocus)],
    ["notFinite", 195, () => s.scanFieldAt(beam, lens, { y: mm(40) }, inFocus)],
    ["notFinite", 196, () => s.scanFieldAt(beam, lens, { x: mm(40) }, inFocus)],
    ["notFinite", 195, () => s.scanFieldAt(beam, lens, undefined, inFocus)],
    ["notFinite", 6, () => s.scanFieldAt(beam, lens, middle, mm(1))],
    ["notFinite", 8, () => s.scanFieldAt(beam, undefined, middle, inFocus)],
    ["outOfRange", 8, () => s.scanFieldFocus(beam, { ...lens, focalLength: mm(-160) }, mm(1))],
    ["outOfRange", 190, () => s.scanFieldFocus(beam, { ...lens, fieldRadius: mm(0) }, mm(1))],
    ["notFinite", 191, () => s.scanFieldFocus(beam, { ...lens, edgeTangentialFocus: mm(1) }, mm(1))],
    ["outOfRange", 192, () => s.scanFieldFocus(beam, { ...lens, edgeSagittalFocus: awayFromLens(s.m(11)) }, mm(1))],
    ["outOfRange", 193, () => s.scanFieldFocus(beam, { ...lens, edgeIncidence: rad(1.1) }, mm(1))],
    ["outOfRange", 194, () => s.scanFieldFocus(beam, { ...lens, edgeSpotRatio: 0.9 }, mm(1))],
    ["notFinite", 194, () => s.scanFieldFocus(beam, { ...lens, edgeSpotRatio: null }, mm(1))],
    ["outsideModel", 197, () => s.scanFieldFocus(beam, { ...lens, focalLength: mm(50) }, mm(1))],
    ["outOfRange", 66, () => s.scanFieldFocus(beam, lens, mm(71))],
    ["outOfRange", 14, () => s.scanFieldExtent(beam, lens, inFocus, 0.9)],
    ["unreachable", 14, () => s.scanFieldExtent(beam, lens, awayFromLens(mm(2)), 1.1)],
  ];
  for (const [code, parameter, call] of cases) {
    const error = thrown(call);
    assert.deepEqual([error.code, error.parameter], [s.errorCode[code], parameter], error.message);
  }
});
