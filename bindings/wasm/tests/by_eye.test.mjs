// Focus from test pieces that an eye has judged: the right number in the right field.

import assert from "node:assert/strict";
import { test } from "node:test";
import * as s from "spotwise";

const { mm, signedOffset } = s;
const judgement = { rayleighRange: mm(0.5), relativeDeviation: 0.05, coverageProbability: 0.95 };
const z = (offset) => s.inMm(offset.zAwayFromLens);
const close = (value, expected, within = 1e-9) => assert.ok(Math.abs(value - expected) <= within, `${value}`);

/** Pieces in steps of so many millimetres. */
function series(step, judged) {
  return judged.map((one, i) => ({ height: signedOffset(mm(step * i)), ...one }));
}

test("where marks vanish", () => {
  const pieces = series(0.1, [0, 0, 1, 1, 1, 1, 1, 0, 0].map((seen) => ({ seen: seen === 1 })));
  const found = s.focusFromVanishing(pieces, "line", judgement);
  close(z(found.focus.height), 0.4);
  close(z(found.towardLens.height), 0.15);
  close(z(found.awayFromLens.height), 0.65);
  close(s.inMm(found.halfRun), 0.25);
  close(found.doseRatio, Math.sqrt(1.25));
  // σ = 0.05·(0.5² + 0.25²)/0.25 = 0.0625 mm; √(0.1·0.0625/√π)/√2, and what is left of the step.
  close(s.inMm(found.focus.deviation), 0.041988, 1e-5);
  close(z(found.focus.awayFromLens) - 0.4, 1.959964 * s.inMm(found.focus.deviation));
  close(0.4 - z(found.focus.towardLens), 1.959964 * s.inMm(found.focus.deviation));
  assert.deepEqual([found.warnings, found.warningBits], [[], 0]);
  // A pulse falls with the square of the spot, so that the same judgement makes half of a height.
  const pulse = s.focusFromVanishing(pieces, "pulse", judgement);
  close(pulse.doseRatio, 1.25);
  assert.ok(s.inM(pulse.focus.deviation) < s.inM(found.focus.deviation));
  // Order does not matter.
  assert.deepEqual(s.focusFromVanishing([...pieces].reverse(), "line", judgement), found);
});

test("ranks", () => {
  const ranks = ["poor", "poor", "acceptable", "sharp", "sharp", "acceptable", "acceptable", "poor", "poor"];
  const pieces = series(0.2, ranks.map((rank) => ({ rank })));
  const found = s.focusFromRanks(pieces, judgement);
  close(z(found.focus.height), 0.75);
  close(z(found.usableTowardLens.height), 0.3);
  close(z(found.usableAwayFromLens.height), 1.3);
  close(s.inMm(found.sharpHalfRun), 0.2);
  assert.equal(found.warningBits, 0);
  const open = s.focusFromRanks(pieces.slice(0, 7), judgement);
  assert.deepEqual([open.usableTowardLens, open.usableAwayFromLens], [null, null]);
  assert.equal(open.warningBits, s.eyeWarningBit.usableOpenAwayFromLens);
  assert.match(open.warnings[0], /no end away from the lens/);
  close(z(open.focus.height), 0.7);
  const dull = s.focusFromRanks(pieces.map((p) => ({ ...p, rank: p.rank === "poor" ? "poor" : "acceptable" })), judgement);
  assert.deepEqual([dull.sharpHalfRun, dull.warningBits], [null, s.eyeWarningBit.noneSharp]);
  close(z(dull.focus.height), 0.8);
});

test("what cannot tell is refused by its side", () => {
  const pieces = series(0.1, [0, 1, 1, 0].map((seen) => ({ seen: seen === 1 })));
  const refused = (given, parameter, code = s.errorCode.undetermined) =>
    assert.throws(
      () => s.focusFromVanishing(given, "line", judgement),
      (e) => e instanceof s.SpotwiseError && e.code === code && e.parameter === parameter,
    );
  refused(pieces.slice(1), 248);
  refused(pieces.slice(0, 3), 249);
  refused(pieces.map((p) => ({ ...p, seen: false })), 247);
  refused([], 242, s.errorCode.outOfRange);
  refused(new Array(257).fill(pieces[0]), 242, s.errorCode.outOfRange);
  refused(undefined, 242, s.errorCode.outOfRange);
  refused([{ ...pieces[0], height: signedOffset(s.m(1001)) }, ...pieces], 243, s.errorCode.outOfRange);
  refused([null, ...pieces], 243, s.errorCode.notFinite);
});
