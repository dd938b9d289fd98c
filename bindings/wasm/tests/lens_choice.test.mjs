// Which lens serves best. Numbers without a line of arithmetic beside them were computed elsewhere, with 30 digits,
// from the formulas of an ideal lens.

import assert from "node:assert/strict";
import { test } from "node:test";
import * as s from "spotwise";

const { um, mm, inch, diameter1e2 } = s;

/** Whether a number rounds to what is printed with this many decimals. */
function prints(value, printed) {
  const decimals = printed.split(".")[1]?.length ?? 0;
  assert.equal(value.toFixed(decimals), printed);
}

/** A part that bows by 2 mm. */
const job = {
  wavelength: um(10.6),
  m2: 1.2,
  rawBeam: { by: "collimated", atLens: diameter1e2(mm(7)) },
  surfaceRise: mm(0.8),
  surfaceFall: mm(1.2),
  criterion: { by: "rayleigh" },
  finestStroke: mm(0.15),
  finestGap: mm(0.15),
  dose: { by: "ratio", doseRatio: 2.7 },
};
const short = { focalLength: inch(1.5), workingDistance: mm(25) };
const long = { focalLength: inch(2.5), workingDistance: mm(50) };
const setUp = { tolerance: mm(0.2), leastClearance: mm(3) };

test("two caustics cross", () => {
  const beam = (waist, m2 = 1) => ({ wavelength: um(10.6), m2, waist: diameter1e2(um(waist)) });
  const found = s.causticCrossing(beam(85), beam(142));
  prints(s.inMm(found.crossing.distanceFromWaist), "0.894317"); // √(0.535330·1.494035)
  prints(s.inUm(s.asDiameter1e2(found.crossing.spot)), "165.496"); // √(85² + 142²)
  assert.deepEqual([found.sharperInFocus, found.sharperFarOff], ["first", "second"]);
  assert.ok(found.validity.fine);
  const back = s.causticCrossing(beam(142), beam(85));
  assert.deepEqual([back.crossing, back.sharperInFocus, back.sharperFarOff], [found.crossing, "second", "first"]);
  // M² of 4 in the larger waist opens it wider: the smaller one is sharper everywhere.
  const poor = s.causticCrossing(beam(85), beam(142, 4));
  assert.deepEqual([poor.crossing, poor.sharperInFocus, poor.sharperFarOff], [null, "first", "first"]);
  assert.deepEqual(s.causticCrossing(beam(85), beam(85)).sharperInFocus, "neither");
});

test("a long lens for a bowed part", () => {
  const choice = s.chooseLens(job, [short, long], setUp);
  prints(s.inMm(choice.halfSpan), "1.200000"); // (0.8 + 1.2)/2 + 0.2
  prints(s.inMm(choice.focusZ.zAwayFromLens), "0.200000"); // (1.2 − 0.8)/2
  prints(s.inMm(choice.crossing.distanceFromWaist), "0.799410"); // √(0.479714·1.332163)
  prints(s.inMm(choice.flipSpan), "1.198821"); // 2·(0.799410 − 0.2)
  assert.deepEqual([choice.best, choice.rankings.map(({ rank }) => rank)], [1, [2, 1]]);
  const [first, second] = choice.rankings;
  prints(s.inUm(s.asDiameter1e2(first.found.spotInFocus)), "88.143");
  prints(s.inMm(first.found.rayleighRange), "0.479714");
  prints(s.inMm(first.found.depthFull), "0.959428"); // twice that
  prints(s.inMm(first.found.clearance), "23.800"); // 25 − 1.2
  prints(first.found.worst.growth, "2.693967"); // √(1 + (1.2/0.479714)²)
  prints(s.inUm(second.found.worst.spotDiameter), "197.691"); // 146.885·√(1 + (1.2/1.332163)²)
  assert.equal(first.refused, null);
  assert.ok(first.reasonBits & s.lensReasonBit.smallestInFocus);
  assert.ok(second.reasonBits & s.lensReasonBit.smallestOnSurface);
  assert.ok(second.reasonBits & s.lensReasonBit.serves);
  assert.equal(second.reasons.length, [...second.reasonBits.toString(2)].filter((bit) => bit === "1").length);
  assert.match(second.reasons[0], /^It serves/);

  // A flatter part turns it round, and a whole job is as good as one without lens and focus.
  const flat = { ...job, surfaceRise: mm(0.5), surfaceFall: mm(0.5), focalLength: NaN, focus: null, singlet: 3 };
  assert.equal(s.chooseLens(flat, [short, long], setUp).best, 0);
});

test("what a lens finds is what the check says", () => {
  const { halfSpan, rankings } = s.chooseLens(job, [short, long], setUp);
  const lens = { glass: "zinc selenide", shape: "curved side first", clearAperture: s.diameter(mm(18)) };
  const real = s.chooseLens(job, [{ ...short, singlet: lens }], setUp).rankings[0];
  const focus = { by: "datum", waistZ: s.inFocus };
  const about = { ...job, focus, surfaceRise: halfSpan, surfaceFall: halfSpan };
  const check = (more) => s.focusCheck({ ...about, ...more });
  for (const [ranking, verdict] of [
    [rankings[0], check(short)],
    [rankings[1], check(long)],
    [real, check({ ...short, singlet: lens })],
  ]) {
    assert.deepEqual(ranking.found.worst, verdict.lowest);
    assert.equal(ranking.found.outcome, verdict.outcome);
    assert.equal(ranking.found.depthFull, verdict.depth.full);
    assert.deepEqual(ranking.found.validity, verdict.validity);
  }
  assert.equal(s.inUm(s.asDiameter1e2(real.found.spotInFocus)) > 88.143, true);
});

test("from a part and its set-up to the lens", () => {
  // A tube of 120 mm, engraved so far across; the stack by hand is 1.959964·√(0.15²/3 + 0.05² + 0.05²) + 0.06.
  const crown = { x: mm(0), y: mm(0) };
  const tube = { kind: "cylinder", bulge: "toward lens", diameter: mm(120), crown, axisAngle: s.rad(0) };
  const stack = s.toleranceStack(
    [
      { source: "fixture", distribution: { kind: "uniform", halfWidth: mm(0.15) } },
      { source: "height gauge", distribution: { kind: "normal", halfWidth: mm(0.1), coverageFactor: 2 } },
      {
        source: "backlash",
        distribution: { kind: "two-valued", halfWidth: mm(0.05) },
        mean: s.awayFromLens(mm(0.06)),
      },
    ],
    0.95,
  );
  prints(s.inMm(stack.expandedAwayFromLens.zAwayFromLens), "0.279131");
  const chosen = (width) => {
    const region = { xLeast: mm(0), xGreatest: mm(50), yLeast: mm(-width / 2), yGreatest: mm(width / 2) };
    const { range } = s.surfaceExtremes(tube, region);
    // From the highest place down; the mean lies away from the lens, and so does the farther end.
    const tolerance = stack.expandedAwayFromLens.zAwayFromLens;
    return s.chooseLens({ ...job, surfaceRise: mm(0), surfaceFall: range }, [short, long], { ...setUp, tolerance });
  };
  const narrow = chosen(16);
  prints(s.inMm(narrow.halfSpan), "0.546993"); // (60 − √(60² − 8²))/2 + 0.279131
  prints(s.inMm(narrow.flipSpan), "1.040559"); // 2·(0.799410 − 0.279131)
  assert.deepEqual([narrow.best, narrow.serving], [0, 2]);
  const wide = chosen(24);
  prints(s.inMm(wide.halfSpan), "0.885254"); // (60 − √(60² − 12²))/2 + 0.279131
  assert.deepEqual([wide.best, wide.flipSpan], [1, narrow.flipSpan]);
});

test("a lens whose light cannot be followed stands last and says why", () => {
  const tiny = { focalLength: mm(5), workingDistance: mm(4) };
  const { rankings, best, crossing } = s.chooseLens(job, [tiny, long], setUp);
  assert.deepEqual([best, crossing, rankings.map(({ rank }) => rank)], [1, null, [2, 1]]);
  const { refused, found, reasonBits, reasons } = rankings[0];
  assert.deepEqual([found, reasonBits, reasons.length], [null, s.lensReasonBit.refused, 1]);
  assert.ok(refused instanceof s.SpotwiseError);
  assert.deepEqual([refused.code, refused.parameter, refused.greatest], [4, 10, 0.3]);
  assert.match(refused.message, /^divergence half angle = 0\.\d+ rad is outside the model/);
  // It leaves nothing behind for the next choice.
  assert.ok(s.chooseLens(job, [short, long], setUp).rankings.every(({ refused: none }) => none === null));
});

test("every reason of a lens has its bit and its sentence", () => {
  const lenses = [short, long];
  const seen = new Set();
  const look = (more, set = setUp) => {
    for (const { reasonBits, reasons } of s.chooseLens({ ...job, ...more }, lenses, set).rankings) {
      const bits = Object.values(s.lensReasonBit).filter((bit) => reasonBits & bit);
      assert.equal(bits.length, reasons.length);
      bits.forEach((bit) => seen.add(bit));
    }
  };
  const text = { typeface: "sans", em: s.pt(4), leastGrade: "good" };
  const scan = { by: "scan", power: s.watt(20), speed: s.mPerS(0.5), threshold: s.jPerMm2(0.1) };
  look({});
  look({ finestStroke: um(20) });
  look({ finestStroke: um(60), finestGap: um(60) });
  look({ text });
  look({ text: { ...text, em: s.pt(2) } });
  look({ text: { ...text, em: s.pt(1) } });
  look({ dose: { by: "ratio", doseRatio: 0.5 } });
  look({ dose: { ...scan, lineInterval: um(250) } });
  look({}, { ...setUp, leastClearance: mm(40) });
  // A mount that would end below the focus of its lens.
  const mount = s.chooseLens(job, [{ ...short, workingDistance: mm(38.2) }], setUp).rankings[0];
  assert.match(mount.reasons.at(-1), /^Its working distance is greater than from the lens to its focus/);
  seen.add(s.lensReasonBit.workingDistanceBeyondFocus & mount.reasonBits);
  seen.add(s.chooseLens(job, [{ ...short, focalLength: mm(5) }], setUp).rankings[0].reasonBits);
  assert.deepEqual([...seen].sort((a, b) => a - b), Object.values(s.lensReasonBit));
});
