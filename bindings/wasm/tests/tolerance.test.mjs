// Tolerance stacks, and what holds in spite of them: the right number in the right field.

import assert from "node:assert/strict";
import { test } from "node:test";
import * as s from "spotwise";

const { um, mm, diameter1e2, towardLens, awayFromLens, inFocus } = s;

const spot88 = { wavelength: um(10.6), m2: 1.2, waist: diameter1e2(um(88)) };
const uniform = (source, halfWidth) => ({ source, distribution: { kind: "uniform", halfWidth } });
const normal = (halfWidth, coverageFactor) => ({
  source: "height gauge",
  distribution: { kind: "normal", halfWidth, coverageFactor },
});
const z = (offset) => s.inMm(offset.zAwayFromLens);

/** Whether a number rounds to what is printed with this many decimals. */
function prints(value, printed) {
  assert.equal(value.toFixed(printed.split(".")[1]?.length ?? 0), printed);
}

test("a tolerance stack", () => {
  const stack = s.toleranceStack(
    [
      { ...uniform("thickness", mm(0.1)), mean: awayFromLens(mm(0.02)) },
      normal(mm(0.04), 2),
      { source: "backlash", distribution: { kind: "two-valued", halfWidth: mm(0.03) } },
    ],
    0.95,
  );
  prints(z(stack.bias), "0.020");
  prints(s.inMm(stack.worstHalfWidth), "0.170");
  prints(z(stack.worstTowardLens), "-0.150");
  prints(z(stack.worstAwayFromLens), "0.190");
  prints(s.inUm(stack.deviation), "68.069"); // √(100²/3 + 20² + 30²)
  prints(stack.coverageFactor, "1.959964");
  prints(s.inUm(stack.expandedHalfWidth), "133.412"); // 1.959964·68.0686
  prints(z(stack.expandedTowardLens), "-0.1134");
  prints(z(stack.expandedAwayFromLens), "0.1534");
  assert.deepEqual([stack.dominant.place, stack.widest.place], [0, 0]);
  prints(stack.dominant.share, "0.7194"); // 3333.3 of 4633.3
  prints(stack.widest.share, "0.5882"); // 10 of 17

  // Of one half width each distribution has its own deviation: 1/√3, 1/√6, 1/√2, 1, 1/3.
  const deviation = (distribution) =>
    s.inMm(s.toleranceStack([{ source: "other", distribution: { halfWidth: mm(1), ...distribution } }], 0.95).deviation);
  prints(deviation({ kind: "uniform" }), "0.57735");
  prints(deviation({ kind: "triangular" }), "0.40825");
  prints(deviation({ kind: "arc sine" }), "0.70711");
  prints(deviation({ kind: "two-valued" }), "1.00000");
  prints(deviation({ kind: "normal", coverageFactor: 3 }), "0.33333");
});

test("every source has its name", () => {
  const sources = "part bow,thickness,fixture,lens change,height gauge,backlash,axis step,thermal drift,other".split(",");
  for (const source of sources) assert.ok(s.toleranceStack([uniform(source, mm(1))], 0.5).deviation > 0);
});

test("the odds of an offset", () => {
  const limits = { towardLens: towardLens(mm(0.1)), awayFromLens: awayFromLens(mm(0.2)) };
  const odds = s.offsetOdds([normal(mm(0.1), 1)], limits, { count: 20_000, seed: 1 });
  prints(odds.probability, "0.81859"); // Φ(2) − Φ(−1)
  prints(odds.tooNearProbability, "0.15866");
  prints(odds.tooFarProbability, "0.02275");
  const { share, standardError, least, greatest } = odds.drawn;
  assert.ok(Math.abs(share - odds.probability) < 4 * standardError);
  prints(standardError, Math.sqrt((share * (1 - share)) / 20_000).toFixed(6));
  assert.ok(least < share && share < greatest && greatest - least < 4 * standardError);
  assert.ok(Math.abs(z(odds.offsets.mean)) < 0.003 && Math.abs(s.inMm(odds.offsets.deviation) - 0.1) < 0.002);
  assert.ok(z(odds.offsets.towardLens) < -0.3 && z(odds.offsets.awayFromLens) > 0.3);
  // The same seed, the same numbers; another seed, others.
  const again = (seed) => s.offsetOdds([normal(mm(0.1), 1)], limits, { count: 20_000, seed });
  assert.deepEqual(again(1), odds);
  assert.notDeepEqual(again(2).offsets, odds.offsets);
  assert.ok(again(Number.MAX_SAFE_INTEGER).drawn.share > 0.8);
});

test("the odds of a detail", () => {
  const detail = { finestStroke: um(60), finestGap: um(60), doseRatio: 2.7, highest: towardLens(mm(0.2)), lowest: awayFromLens(mm(0.1)) };
  const odds = s.detailOdds(spot88, detail, [normal(mm(0.2), 1)], { count: 1000, seed: 3 });
  // It holds up to √2·60 µm/0.633412 = 133.96 µm, which is at 0.5488 mm.
  assert.equal(odds.holdsInWaist, true);
  prints(s.inMm(odds.marginTowardLens), "0.3488");
  prints(s.inMm(odds.marginAwayFromLens), "0.4488");
  prints(odds.everywhere.tooNearProbability, "0.0406"); // Φ(−0.3488/0.2)
  prints(odds.everywhere.tooFarProbability, "0.0124"); // Φ(−0.4488/0.2)
  prints(odds.everywhere.probability, "0.9470");
  prints(odds.atHighest.probability, "0.9593"); // Φ(0.7488/0.2) − Φ(−0.3488/0.2)
  prints(odds.atLowest.probability, "0.9870"); // Φ(0.4488/0.2) − Φ(−0.6488/0.2)
  assert.ok(odds.everywhere.drawn.share <= Math.min(odds.atHighest.drawnShare, odds.atLowest.drawnShare));
  const { halfAngle, validity } = s.beamAt(spot88, inFocus);
  assert.deepEqual([odds.halfAngle, odds.validity], [halfAngle, validity]);

  const fine = s.detailOdds(spot88, { ...detail, finestGap: um(1) }, [normal(mm(0.2), 1)], { count: 10, seed: 3 });
  assert.deepEqual(
    [fine.holdsInWaist, fine.marginTowardLens, fine.marginAwayFromLens, fine.everywhere.tooNearProbability],
    [false, undefined, undefined, undefined],
  );
  assert.deepEqual([fine.everywhere.probability, fine.everywhere.drawn.greatest, fine.atLowest.probability], [0, 0, 0]);
  // A surface that takes up more than the detail can bear.
  const uneven = s.detailOdds(spot88, { ...detail, highest: towardLens(mm(1)) }, [normal(mm(0.2), 1)], { count: 10, seed: 3 });
  assert.ok(uneven.marginTowardLens < 0 && uneven.everywhere.probability === 0 && uneven.atLowest.probability > 0.9);
});
