// Focus or power, and the tests that settle it: the right number in the right field.

import assert from "node:assert/strict";
import { test } from "node:test";
import * as s from "spotwise";

const { um, mm, diameter1e2 } = s;

const spot88 = { wavelength: um(10.6), m2: 1.2, waist: diameter1e2(um(88)) };
const reading = (width) => ({ width: um(width), deviation: um(1) });
const good = { kind: "line", doseRatio: 4, width: reading(73) };
const depths = (depth) => ({ law: "logarithmic", goodDepth: 40, goodDepthDeviation: 1, depth, depthDeviation: 1 });

/** Whether a number rounds to what is printed with this many decimals. */
function prints(value, printed) {
  assert.equal(value.toFixed(printed.split(".")[1]?.length ?? 0), printed);
}

test("width and depth part focus from power", () => {
  const found = s.diagnoseMark(spot88, good, depths(20), reading(87.6), 0.95);
  prints(found.growth, "1.69706"); // 1.2/√½
  prints(s.inMm(found.distance), "0.6556"); // 0.478154·√(1.44/½ − 1)
  prints(found.power.ratio, "0.84853"); // 1.69706·4^(−½)
  prints(found.doseRatio, "2.00000");
  assert.ok(found.leastDistance < found.distance && found.distance < found.greatestDistance);
  assert.ok(found.power.least < found.power.ratio && found.power.ratio < found.power.greatest);
  // Deviations of B and D are those of both marks: √((1/87.6)² + (1/73)²), √((1/20)² + (1/40)²).
  prints(found.growthDeviation, Math.hypot(1 / 87.6, 1 / 73, 0.5 / 20, 0.5 / 40).toFixed(9));
  prints(found.powerRatioDeviation, Math.hypot(1 / 87.6, 1 / 73, (0.5 * Math.log(4) - 0.5) * Math.hypot(1 / 20, 1 / 40)).toFixed(9));
  assert.equal(found.cause, "focus and power");
  assert.equal(found.furtherTest, "heights on either side");
  assert.match(found.causeText, /^The surface is out of focus, and the dose/);
  assert.match(found.furtherTestText, /a step nearer the lens and a step farther/);
  const { side, melt, powerOrSpeed } = s.ambiguityBit;
  assert.equal(found.ambiguityBits, side | melt | powerOrSpeed);
  assert.equal(found.ambiguities.length, 3);
  assert.equal(found.validity.level, "fine");
  // Made up for, with no sign.
  const setting = {
    kind: "line",
    doseRatio: 4,
    power: s.watt(20),
    speed: s.mPerS(0.5),
    greatestPower: s.watt(60),
    leastSpeed: s.mPerS(0.1),
    greatestSpeed: s.mPerS(2),
  };
  const made = s.compensate(spot88, s.awayFromLens(found.distance), "same dose", setting);
  prints(made.wantedFactor, "1.69706");
});

test("a width alone", () => {
  const found = s.diagnoseWidth(spot88, good, reading(87.6), 0.95);
  prints(found.near.growth, "1.360570"); // SciPy's W, both branches
  prints(found.far.growth, "3.347158");
  prints(s.inMm(found.near.distance), "0.4411");
  prints(s.inMm(found.far.distance), "1.5274");
  prints(found.power.ratio, "1.840375"); // 4^(1.44 − 1)
  assert.equal(found.cause, "focus or power");
  // No height makes it wider than 4/√e/√(2·ln 4) = 1.457 times.
  const wide = s.diagnoseWidth(spot88, good, reading(115), 0.95);
  assert.deepEqual([wide.cause, wide.near, wide.far], ["power, perhaps focus", undefined, undefined]);
  assert.equal(wide.furtherTest, "solid patch");
  assert.equal(s.diagnoseWidth(spot88, good, reading(300), 0.95).power, undefined);
  // A dose ratio that is not known exactly makes the ranges wider.
  const doubtful = s.diagnoseWidth(spot88, { ...good, doseRatioDeviation: 0.2 }, reading(87.6), 0.95);
  assert.ok(doubtful.near.greatestDistance > found.near.greatestDistance);
});

test("the tests that settle it", () => {
  const patch = s.settleByPatch(spot88, good, depths(40), 5, reading(87.6), 0.95);
  assert.deepEqual([patch.cause, patch.power.ratio], ["focus", 1]);
  prints(patch.near.growth, "1.360570");
  prints(patch.far.growth, "3.347158");

  const step = { kind: "line", doseRatio: 3.2, powerStep: 2, first: reading(82), stepped: reading(113) };
  const power = s.settleByPower(spot88, step, 0.95);
  prints(s.inUm(power.spotDiameter1e2), "132.069"); // √(2·(113² − 82²)/ln 2)
  prints(s.inMm(power.distance), "0.5351");
  prints(power.doseRatio, "2.16194");
  prints(power.power.ratio, "1.01394");
  prints(power.growth, "1.50078");
  assert.equal(power.cause, "focus");
  assert.ok(power.leastDistance < power.distance && power.distance < power.greatestDistance);
  // d/2 of the relative deviation of the difference
  prints(s.inUm(power.spotDiameterDeviation), (132.0688572 * Math.hypot(113, 82) / (113 ** 2 - 82 ** 2)).toFixed(4));

  const readings = { kind: "line", law: "linear", heightStep: mm(0.3), towardLens: 38, middle: 30, awayFromLens: 18, deviation: 1 };
  const low = s.settleByHeights(spot88, readings, 0.95);
  assert.equal(low.verdict, "focus toward lens");
  assert.match(low.verdictText, /move the surface toward the lens/);
  assert.deepEqual([low.surface, low.deviation, low.awayFromLens], [undefined, undefined, undefined]);
  prints(s.inMm(low.towardLens.zAwayFromLens), "0.15");
  const within = s.settleByHeights(spot88, { ...readings, middle: 42, awayFromLens: 38 }, 0.95);
  assert.equal(within.verdict, "focus within");
  assert.equal(within.surface.zAwayFromLens, 0);
  assert.ok(within.towardLens.zAwayFromLens < 0 && within.awayFromLens.zAwayFromLens > 0 && within.deviation > 0);
  const high = s.settleByHeights(spot88, { ...readings, towardLens: 18, awayFromLens: 38 }, 0.95);
  assert.deepEqual([high.verdict, s.inMm(high.awayFromLens.zAwayFromLens)], ["focus away from lens", -0.15]);
});

test("every sentence is there", () => {
  const found = s.diagnoseMark(spot88, good, depths(40), reading(73), 0.95);
  assert.deepEqual([found.cause, found.furtherTest, found.ambiguities], ["nothing", "nothing", []]);
  assert.equal(found.furtherTestText, "No further test is needed.");
  assert.ok(Object.values(s.ambiguityBit).every((bit, place) => bit === 2 ** place));
});
