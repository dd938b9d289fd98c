// Bad input throws one kind of error, which names the parameter, its value and what is allowed.

import assert from "node:assert/strict";
import { test } from "node:test";
import * as s from "spotwise";

const { um, mm, m, diameter1e2, inFocus } = s;
const beam = { wavelength: um(10.6), m2: 1.2, waist: diameter1e2(um(88)) };
const job = {
  ...beam,
  rawBeam: { by: "collimated", atLens: diameter1e2(mm(7)) },
  focalLength: mm(38.1),
  focus: { by: "datum", waistZ: inFocus },
  surfaceRise: mm(0.3),
  surfaceFall: mm(0.3),
  criterion: { by: "rayleigh" },
  finestStroke: mm(0.1),
  finestGap: mm(0.1),
  doseRatio: 2.7,
};

/** The error that a call throws. */
function thrown(call) {
  try {
    call();
  } catch (error) {
    assert.ok(error instanceof s.SpotwiseError, String(error));
    assert.ok(error instanceof Error);
    assert.equal(error.name, "SpotwiseError");
    return error;
  }
  assert.fail("nothing was thrown");
}

test("an error says everything, in words and in numbers", () => {
  const e = thrown(() => s.beamParameters({ ...beam, m2: 0.9 }));
  assert.equal(e.message, "M squared = 0.9 is out of range (must be from 1 to 10000)");
  assert.deepEqual(
    [e.code, e.parameter, e.parameterName, e.value, e.least, e.greatest],
    [s.errorCode.outOfRange, 2, "M squared", 0.9, 1, 10000],
  );
});

test("each code", () => {
  const cases = [
    ["notFinite", 5, () => s.beamAt(beam, s.signedOffset(m(NaN)))],
    ["notFinite", 1, () => s.beamParameters({ ...beam, wavelength: m(Infinity) })],
    ["outOfRange", 3, () => s.beamParameters({ ...beam, waist: diameter1e2(m(-1)) })],
    ["unknownChoice", 27, () => s.convertWidth(um(85), { from: "1/e2", to: "1/e" })],
    ["unknownChoice", 28, () => s.depthOfFocus(beam, { by: "sharpness" })],
    ["unknownChoice", 29, () => s.focusCheck({ ...job, rawBeam: { by: "hope" } })],
    ["unknownChoice", 30, () => s.focusCheck({ ...job, focus: { by: "eye" } })],
    ["outsideModel", 10, () => s.beamParameters({ ...beam, waist: diameter1e2(um(5)) })],
    ["unreachable", 19, () => s.offsetsForDiameter(beam, diameter1e2(um(80)))],
    [
      "unreachable",
      17,
      () => s.depthOfFocus(beam, { by: "largest diameter", diameter: diameter1e2(um(80)) }),
    ],
    ["lengthMismatch", 40, () => s.diametersAt(beam, new Float64Array(3), new Float64Array(2))],
    ["notAQuantity", 42, () => s.length("1.5")],
    ["notAQuantity", 42, () => s.angle("1.5 mm")],
  ];
  for (const [name, parameter, call] of cases) {
    const e = thrown(call);
    assert.deepEqual([e.code, e.parameter], [s.errorCode[name], parameter], e.message);
  }
  assert.deepEqual([...new Set(cases.map(([name]) => name))].sort(), Object.keys(s.errorCode).sort());
});

test("an unknown choice is refused before any number", () => {
  const bad = { ...job, m2: NaN, criterion: { by: "sharpness" } };
  assert.equal(thrown(() => s.focusCheck(bad)).parameter, 28);
  assert.equal(thrown(() => s.focusCheck({ ...bad, focus: {} })).parameter, 30);
  assert.equal(thrown(() => s.focusCheck({ ...bad, focus: {}, rawBeam: {} })).parameter, 29);
});

test("what a choice does not name is ignored", () => {
  const extra = { by: "rayleigh", ratio: NaN, drop: NaN };
  assert.deepEqual(s.depthOfFocus(beam, extra), s.depthOfFocus(beam, { by: "rayleigh" }));
});

test("a direction and a sign together are refused", () => {
  for (const make of [s.towardLens, s.awayFromLens, s.upstream, s.downstream]) {
    const e = thrown(() => make(mm(-0.3)));
    assert.deepEqual([e.code, e.parameter, e.value, e.least], [2, 6, mm(-0.3), 0]);
    assert.equal(thrown(() => make(m(NaN))).code, 1);
    assert.equal(thrown(() => make(m(2e7))).code, 2);
  }
  assert.ok(Object.is(s.towardLens(mm(0)).zAwayFromLens, 0));
  assert.equal(s.towardLens(mm(0.3)).zAwayFromLens, -mm(0.3));
  assert.equal(s.signedOffset(mm(-0.3)).zAwayFromLens, mm(-0.3));
});

test("after an error nothing is stale", () => {
  const out = Float64Array.of(1, 2);
  assert.equal(thrown(() => s.diametersAt(beam, Float64Array.of(0, NaN), out)).parameter, 5);
  assert.deepEqual([...out], [NaN, NaN]);
  const good = s.beamParameters(beam);
  thrown(() => s.beamParameters({ ...beam, m2: 0 }));
  assert.deepEqual(s.beamParameters(beam), good);
});

test("a result does not change under later calls", () => {
  const first = s.focusCheck(job);
  const copy = structuredClone(first);
  s.focusCheck({ ...job, surfaceFall: mm(0.6), finestStroke: um(15) });
  s.beamParameters(beam);
  assert.deepEqual(first, copy);
});

test("callers without types get the same errors, not silent numbers", () => {
  // Left out, null, text, or a bare number where an object belongs.
  for (const wavelength of [undefined, null, "1e-6", {}, [1e-6], true]) {
    const e = thrown(() => s.beamParameters({ ...beam, wavelength }));
    assert.deepEqual([e.code, e.parameter], [1, 1]);
  }
  assert.equal(thrown(() => s.beamParameters({ ...beam, waist: 88e-6 })).parameter, 3);
  assert.equal(thrown(() => s.beamParameters({ ...beam, waist: undefined })).parameter, 3);
  assert.equal(thrown(() => s.defocus(beam, 0.3e-3)).parameter, 6);
  assert.equal(thrown(() => s.defocus(beam)).parameter, 6);
  assert.equal(thrown(() => s.focusCheck({ ...job, surfaceRise: null })).parameter, 22);
  assert.equal(thrown(() => s.focusCheck({ ...job, rawBeam: undefined })).parameter, 29);
  assert.equal(thrown(() => s.diametersAt({ ...beam, m2: "1.2" }, new Float64Array(1))).parameter, 2);
  assert.equal(thrown(() => s.length(38.1)).code, s.errorCode.notAQuantity);
});
