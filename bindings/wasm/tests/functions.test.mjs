// Each function gives what the model's own documentation says of the same case. That every bit is
// right is the replay's to prove; these prove that the right number lands in the right field.

import assert from "node:assert/strict";
import { test } from "node:test";
import * as s from "spotwise";

const { um, mm, m, nm, inch, diameter1e2, towardLens, awayFromLens, inFocus } = s;

const helium = { wavelength: nm(633), m2: 1, waist: diameter1e2(um(100)) };
const spot88 = { wavelength: um(10.6), m2: 1.2, waist: diameter1e2(um(88)) };
const axis = (waistZ) => ({ m2: 5, waist: diameter1e2(um(30)), waistZ });
const apart = { wavelength: nm(450), x: axis(inFocus), y: axis(awayFromLens(mm(0.2))) };
const job = {
  wavelength: um(10.6),
  m2: 1.2,
  rawBeam: { by: "collimated", atLens: diameter1e2(mm(7)) },
  focalLength: inch(1.5),
  focus: { by: "datum", waistZ: inFocus },
  surfaceRise: mm(0.3),
  surfaceFall: mm(0.3),
  criterion: { by: "rayleigh" },
  finestStroke: mm(0.1),
  finestGap: mm(0.1),
  doseRatio: 2.7,
};

/** Whether a number rounds to what is printed with this many decimals. */
function prints(value, printed) {
  const decimals = printed.split(".")[1]?.length ?? 0;
  assert.equal(value.toFixed(decimals), printed);
}
const z = (offset) => offset.zAwayFromLens;
const fine = { fine: true, wideCone: false, secondRange: false, cautions: [] };

test("widths by their definitions", () => {
  prints(s.inUm(s.convertWidth(um(100), { from: "1/e2", to: "FWHM" })), "58.871");
  prints(s.inUm(s.asFwhm(diameter1e2(um(100)))), "58.871");
  prints(s.inUm(s.asDiameter1e2(s.fwhm(um(58.8705)))), "100.000");
  assert.equal(s.asDiameter1e2(s.radius1e2(um(50))), um(100));
  assert.equal(s.asRadius1e2(diameter1e2(um(100))), um(50));
  for (const width of [s.d4sigma(um(85)), s.power86(um(85)), diameter1e2(um(85))]) {
    assert.equal(s.asD4sigma(width), um(85));
    assert.equal(s.asPower86(width), um(85));
  }
});

test("power and aperture", () => {
  const beam = diameter1e2(mm(10));
  prints(s.powerThroughAperture({ beam, aperture: s.diameter(mm(10)) }), "0.864665");
  prints(s.powerThroughAperture({ beam, aperture: s.radius(mm(5)) }), "0.864665");
  prints(s.inMm(s.diameterForPower({ beam, powerShare: 0.99 }).diameter), "15.174");
});

test("a round beam", () => {
  const p = s.beamParameters(helium);
  prints(s.inMm(p.rayleighRange), "12.408");
  prints(s.inMrad(s.asFullAngle(p.divergence)), "8.060"); // d₀/z_R
  prints(s.inMrad(s.asHalfAngle(p.divergence)), "4.030");
  prints(s.inMmMrad(p.beamParameterProduct), "0.2015"); // 0.633/π
  assert.deepEqual(p.validity, fine);

  const section = s.beamAt(spot88, awayFromLens(mm(1)));
  prints(s.inUm(s.asDiameter1e2(section.width)), "203.998");
  assert.ok(s.inPerM(section.wavefrontCurvature) > 0);
  prints(s.inPerM(section.wavefrontCurvature) * section.wavefrontRadius, "1.000000");
  assert.ok(s.inPerM(s.beamAt(spot88, towardLens(mm(1))).wavefrontCurvature) < 0);
  assert.equal(s.beamAt(spot88, inFocus).wavefrontRadius, Infinity);

  const wide = s.beamParameters({ wavelength: um(1), m2: 1, waist: diameter1e2(um(4)) });
  const { cautions, ...flags } = wide.validity;
  assert.deepEqual(flags, { fine: false, wideCone: true, secondRange: false });
  assert.match(cautions.join(), /cone is wide/);
});

test("diameters in bulk are the same bits as one at a time", () => {
  const at = Float64Array.of(-1e-3, 0, 1e-3, 0.25e-3);
  const diameters = s.diametersAt(spot88, at);
  assert.ok(diameters instanceof Float64Array);
  assert.deepEqual(
    [...diameters],
    [...at].map((x) => s.asDiameter1e2(s.beamAt(spot88, s.signedOffset(m(x))).width)),
  );
  const out = new Float64Array(4);
  assert.equal(s.diametersAt(spot88, at, out), out);
  assert.deepEqual(out, diameters);
  assert.equal(s.diametersAt(spot88, new Float64Array(0)).length, 0);
});

test("answers stay right when the memory grows, and it grows by one slice only", async () => {
  // A copy of the package of its own, to see its memory.
  const Instance = WebAssembly.Instance;
  let memory;
  WebAssembly.Instance = class extends Instance {
    constructor(...given) {
      super(...given);
      memory = this.exports.memory;
    }
  };
  const fresh = await import("../dist/spotwise.mjs?fresh").finally(() => (WebAssembly.Instance = Instance));
  const before = fresh.defocus(spot88, awayFromLens(mm(0.5)));
  const size = memory.buffer.byteLength;
  const many = fresh.diametersAt(spot88, new Float64Array(2_000_000).fill(1e-3)); // 16 MB each way
  assert.ok(many.every((diameter) => diameter === many[0]));
  prints(s.inUm(m(many[0])), "203.998");
  assert.ok(memory.buffer.byteLength > size, "the test needs the memory to grow");
  assert.ok(memory.buffer.byteLength < size + 4e6, `${memory.buffer.byteLength} bytes`);
  assert.deepEqual(fresh.defocus(spot88, awayFromLens(mm(0.5))), before);
});

test("more diameters than one slice holds, also into the same memory", () => {
  const places = Float64Array.from({ length: 150_000 }, (_, i) => (i - 75_000) * 1e-8);
  const diameters = s.diametersAt(spot88, places);
  for (const i of [0, 65_535, 65_536, 131_071, 131_072, 149_999]) {
    assert.equal(diameters[i], s.asDiameter1e2(s.beamAt(spot88, s.signedOffset(m(places[i]))).width));
  }
  const same = places.slice();
  assert.equal(s.diametersAt(spot88, same, same), same);
  assert.deepEqual(same, diameters);
  // Results that lie a little behind the places they come from.
  const shared = new Float64Array(150_010);
  shared.set(places);
  s.diametersAt(spot88, shared.subarray(0, 150_000), shared.subarray(10));
  assert.deepEqual(shared.subarray(10), diameters);
});

test("a field may be a getter that calls the package", () => {
  const text = { wavelength: "10.6 um", focalLength: "38.1 mm", waist: "7 mm", stroke: "0.1 mm" };
  /** The same object, each field a getter that asks the package for something else first. */
  const lively = (object) =>
    Object.defineProperties(
      {},
      Object.fromEntries(
        Object.entries(object).map(([key, value]) => {
          const inner = typeof value === "object" && value !== null ? lively(value) : value;
          return [key, { enumerable: true, get: () => (s.length(text.stroke), s.angle("2 mrad"), inner) }];
        }),
      ),
    );
  const raw = { wavelength: um(10.6), m2: 1.2, waist: diameter1e2(mm(7)) };
  const byText = {
    m2: 1.2,
    waist: raw.waist,
    get wavelength() {
      return s.length(text.wavelength);
    },
  };
  const lens = { waistAt: s.upstream(m(1.5)), focalLength: mm(38.1) };
  const flat = { wavelength: um(10.6), m2: 1.2, atLens: diameter1e2(mm(7)), focalLength: mm(38.1) };
  const rawAxis = { m2: 5, waist: diameter1e2(mm(5)), waistAt: s.upstream(m(2)) };
  const rawApart = { wavelength: nm(450), x: rawAxis, y: { ...rawAxis, m2: 15 } };
  assert.deepEqual(s.focusThroughLens(byText, lens), s.focusThroughLens(raw, lens));
  const z = Float64Array.of(-1e-3, 0, 1e-3);
  const calls = [
    [s.focusThroughLens, raw, lens],
    [s.focusCollimated, flat],
    [s.focusAstigmatic, rawApart, mm(50)],
    [s.beamParameters, spot88],
    [s.beamAt, spot88, awayFromLens(mm(1))],
    [(beam) => s.diametersAt(beam, z), spot88],
    [s.astigmaticParameters, apart],
    [s.astigmaticDepthOfFocus, apart, { by: "growth", ratio: 1.1 }],
    [s.depthOfFocus, spot88, { by: "largest diameter", diameter: diameter1e2(um(120)) }],
    [s.smallestDetails, { spot: diameter1e2(um(88)), doseRatio: 2.7 }],
    [s.largestSpotForDetails, job],
    [s.focusCheck, job],
    [s.focusCheck, { ...job, rawBeam: { by: "waist", waist: diameter1e2(mm(5)), waistAt: s.upstream(m(1.5)) } }],
  ];
  for (const [operation, ...inputs] of calls) {
    const getters = inputs.map((input) => (typeof input === "object" ? lively(input) : input));
    assert.deepEqual(operation(...getters), operation(...inputs), operation.name);
  }
});

test("waist and M² from measurements", () => {
  const co2 = { wavelength: um(10.6), m2: 1.2 };
  prints(s.inUm(s.asDiameter1e2(s.waistFromRayleighRange({ ...co2, rayleighRange: mm(0.5) }))), "89.988");
  const fibre = { wavelength: um(1.064), m2: 1.1 };
  const full = s.waistFromDivergence({ ...fibre, divergence: s.fullAngle(s.mrad(40)) });
  prints(s.inUm(s.asDiameter1e2(full)), "37.255");
  assert.deepEqual(s.waistFromDivergence({ ...fibre, divergence: s.halfAngle(s.mrad(20)) }), full);
  const measured = { wavelength: um(1.064), waist: diameter1e2(um(40)) };
  prints(s.m2FromDivergence({ ...measured, divergence: s.fullAngle(s.rad(0.04)) }), "1.1810");
});

test("an astigmatic beam", () => {
  const p = s.astigmaticParameters(apart);
  prints(s.inUm(z(p.effectiveWaistZ)), "100.000");
  prints(p.relativeAstigmatism, "0.6366");
  prints(s.inMm(p.rayleighRangeX), "0.314159");
  prints(s.inMm(p.rayleighRangeY), "0.314159");
  prints(s.inMm(z(p.waistSeparation)), "0.200000");
  prints(s.inUm(z(p.brightestZ)), "100.000"); // by symmetry, with waists less than 2·z_R apart
  assert.equal(p.m2Effective, 5);
  // 1/(1 + (0.1/0.314159)²), since both axes are 0.1 mm from their waists.
  prints(p.brightestIrradianceRatio, "0.908000");
  prints(s.inUm(s.asDiameter1e2(p.effectiveWaist)), "31.483"); // 30·√(1 + (0.1/0.314159)²)
  assert.ok(p.effectiveRayleighRange > p.rayleighRangeX);

  const round = { wavelength: nm(450), x: axis(inFocus), y: axis(inFocus) };
  const unequal = {
    ...round,
    x: { m2: 5, waist: diameter1e2(um(28.648)), waistZ: inFocus },
    y: { m2: 15, waist: diameter1e2(um(85.942)), waistZ: inFocus },
  };
  const section = s.astigmaticAt(unequal, inFocus);
  prints(section.ellipticity, "0.3333");
  assert.equal(section.circular, false);
  assert.equal(s.astigmaticAt(round, inFocus).circular, true);
  prints(s.inUm(s.asDiameter1e2(section.widthX)), "28.648");
  prints(s.inUm(s.asDiameter1e2(section.widthY)), "85.942");
  prints(s.inUm(s.asDiameter1e2(section.effective)), "64.06");
  prints(s.inUm(s.asDiameter1e2(section.equalArea)), "49.62");

  const d = s.astigmaticDefocus(apart, inFocus);
  assert.equal(d.growthX, 1);
  prints(d.growthY, "1.1854");
  prints(d.lineDoseRatioAlongX, "0.8436"); // 1/1.1854: the diameter across the line is that in y
  assert.equal(d.lineDoseRatioAlongY, 1);
  prints(d.irradianceRatio, "0.8436");
});

test("lenses", () => {
  const raw = { wavelength: um(10.6), m2: 1.2, waist: diameter1e2(mm(5)) };
  const focus = s.focusThroughLens(raw, { waistAt: s.upstream(m(1.5)), focalLength: mm(50) });
  prints(s.inUm(s.asDiameter1e2(focus.waist)), "118.044");
  prints(s.inMm(z(focus.focusShift)), "0.808198");
  prints(s.inMm(focus.lensToWaist), "50.808198");
  prints(focus.magnification, "0.023609"); // 118.044 µm over 5 mm
  assert.deepEqual([focus.wavelength, focus.m2, focus.validity.fine], [um(10.6), 1.2, true]);
  assert.equal(s.beamParameters(focus).rayleighRange.toPrecision(12), focus.rayleighRange.toPrecision(12));

  const flat = s.focusCollimated({ ...raw, atLens: diameter1e2(mm(7)), focalLength: mm(38.1) });
  prints(s.inUm(s.asDiameter1e2(flat.waist)), "88.143");
  assert.equal(s.asDiameter1e2(flat.atLens), mm(7));
  assert.ok(z(flat.focusShift) < 0);

  const diode = {
    wavelength: nm(450),
    x: { m2: 5, waist: diameter1e2(mm(5)), waistAt: s.atLens },
    y: { m2: 15, waist: diameter1e2(mm(5)), waistAt: s.atLens },
  };
  const focused = s.focusAstigmatic(diode, mm(50));
  prints(s.inUm(s.asDiameter1e2(focused.x.waist)), "28.647");
  prints(s.inUm(s.asDiameter1e2(focused.y.waist)), "85.931");
  assert.deepEqual([focused.wavelength, focused.x.m2, focused.y.m2], [nm(450), 5, 15]);

  // A raw waist far upstream focuses beyond the focal point, one far downstream before it.
  const at = (waistAt) => ({ ...diode, x: { ...diode.x, waistAt }, y: { ...diode.y, waistAt } });
  assert.ok(z(s.focusAstigmatic(at(s.upstream(m(2))), mm(50)).x.waistZ) > 0);
  assert.ok(z(s.focusAstigmatic(at(s.downstream(m(2))), mm(50)).x.waistZ) < 0);
  // And so does a round one: the two ways to say where the raw waist lies agree.
  for (const waistAt of [s.upstream(m(2)), s.downstream(m(2)), s.atLens]) {
    const round = { wavelength: diode.wavelength, m2: diode.x.m2, waist: diode.x.waist };
    const one = s.focusThroughLens(round, { waistAt, focalLength: mm(50) });
    assert.deepEqual(one.focusShift, s.focusAstigmatic(at(waistAt), mm(50)).x.waistZ);
  }
});

test("defocus and offsets", () => {
  const d = s.defocus(spot88, awayFromLens(mm(0.5)));
  prints(d.growth, "1.4469");
  prints(d.growthMinusOne, "0.4469");
  prints(d.irradianceRatio, "0.4777");
  prints(d.lineDoseRatio, "0.6911"); // 1/1.4469
  prints(s.inUm(s.asDiameter1e2(d.spot)), "127.33"); // 88·1.4469
  assert.deepEqual(s.defocus(spot88, towardLens(mm(0.5))), d);

  const at = s.offsetsForDiameter(spot88, diameter1e2(um(120)));
  prints(s.inMm(z(at.awayFromLens)), "0.443294");
  prints(s.inMm(z(at.towardLens)), "-0.443294");
  assert.equal(at.full, 2 * z(at.awayFromLens));
  prints(s.inMm(z(s.offsetsForGrowth(spot88, 1.05).awayFromLens)), "0.153084");
});

test("depth of focus, by each criterion", () => {
  const away = (criterion) => s.inMm(z(s.depthOfFocus(spot88, criterion).awayFromLens));
  prints(away({ by: "irradiance drop", drop: 0.2 }), "0.239077");
  prints(away({ by: "growth", ratio: 1.05 }), "0.153084");
  prints(away({ by: "rayleigh" }), "0.478154"); // half an irradiance is twice that of a fifth
  prints(away({ by: "largest diameter", diameter: diameter1e2(um(120)) }), "0.443294");
  prints(away({ by: "line dose drop", drop: 0.2 }), "0.358616"); // z_R·√(0.2·1.8)/0.8 = 0.75·z_R
  const range = s.depthOfFocus(spot88, { by: "irradiance drop", drop: 0.2 });
  prints(s.inMm(range.full), "0.478154");
  assert.deepEqual(range.validity, fine);

  const astigmatic = s.astigmaticDepthOfFocus(apart, { by: "rayleigh" });
  prints(s.inMm(z(astigmatic.towardLens)), "-0.114159");
  prints(s.inMm(z(astigmatic.awayFromLens)), "0.314159");
  prints(s.inMm(astigmatic.full), "0.428319");

  // Two waists far apart: the brightest range is given, and the other is told of.
  const far = { ...apart, y: axis(awayFromLens(mm(3))) };
  const bright = s.astigmaticDepthOfFocus(far, { by: "irradiance drop", drop: 0.95 });
  const { cautions, ...flags } = bright.validity;
  assert.deepEqual(flags, { fine: false, wideCone: false, secondRange: true });
  assert.equal(cautions.length, 1);
});

test("detail and contrast", () => {
  const detail = s.smallestDetails({ spot: diameter1e2(um(88)), doseRatio: 2.7 });
  prints(s.inUm(detail.bar), "21.219");
  prints(s.inUm(detail.gap), "39.414");
  prints(s.inUm(detail.dot.diameter), "42.32"); // 88·√(ln(2.7/1.7)/2)
  prints(s.inUm(detail.hole.diameter), "62.02"); // 88·√(ln(2.7)/2)
  assert.ok(detail.edgeShiftOutward > 0);
  assert.ok(s.smallestDetails({ spot: diameter1e2(um(88)), doseRatio: 1.5 }).edgeShiftOutward < 0);

  const fits = { finestStroke: um(100), finestGap: um(100), doseRatio: 2.7 };
  prints(s.inUm(s.asDiameter1e2(s.largestSpotForDetails(fits))), "223.269");
  const contrast = s.contrastAtPitch({ spot: diameter1e2(um(100)), pitch: um(100) });
  prints(contrast.sine, "0.2912");
  prints(contrast.bars, "0.3708");
  prints(contrast.doseWindow, "2.179");
  prints(s.inUm(s.pitchForContrast({ spot: diameter1e2(um(100)), contrast: 0.5 })), "133.411");
});

test("a verdict: holds", () => {
  const v = s.focusCheck(job);
  assert.equal(v.outcome, "holds");
  assert.equal(v.summary, "The detail holds, and the whole surface is in focus.");
  assert.deepEqual([v.reasons, v.reasonBits], [[], 0]);
  prints(s.inUm(s.asDiameter1e2(v.focused.waist)), "88.143");
  prints(v.highest.growth, "1.179");
  prints(v.lowest.growth, "1.179");
  prints(v.bestWorstGrowth, "1.179");
  assert.deepEqual([s.inMm(z(v.highest.zOffset)), s.inMm(z(v.lowest.zOffset))], [-0.3, 0.3]);
  assert.equal(v.datum.growth, 1);
  assert.deepEqual([v.highest.detailsHold, v.highest.inDepth], [true, true]);
  assert.equal(v.depth.full, 2 * v.focused.rayleighRange);
  // Each place is what the parts of the model say of it.
  const d = s.defocus(v.focused, towardLens(mm(0.3)));
  assert.deepEqual(d.spot, v.highest.spot);
  const detail = s.smallestDetails({ spot: d.spot, doseRatio: 2.7 });
  assert.deepEqual(
    [v.highest.smallestStroke, v.highest.smallestGap, v.highest.smallestDot, v.highest.smallestHole],
    [detail.bar, detail.gap, detail.dot, detail.hole],
  );
  const detailRange = s.offsetsForDiameter(v.focused, s.largestSpotForDetails(job));
  prints(s.inMm(v.detailRange.full), s.inMm(detailRange.full).toFixed(9));
});

test("a verdict: holds out of focus", () => {
  const v = s.focusCheck({ ...job, surfaceFall: mm(0.6) });
  assert.equal(v.outcome, "holds out of focus");
  assert.equal(v.reasonBits, s.reasonBit.lowOutOfFocus + s.reasonBit.refocusSharpens);
  assert.deepEqual(v.reasons, [
    "The lowest place is outside the depth of focus.",
    "Setting focus at mid-height of the surface would bring all of it into focus.",
  ]);
  prints(s.inMm(z(v.bestFocusZ)), "0.150000");
});

test("a verdict: lost, with every reason", () => {
  const cases = [
    ["strokeTooFine", { finestStroke: um(15) }],
    ["gapTooFine", { finestGap: um(30) }],
    ["strokeLostHigh", { finestStroke: um(24), surfaceFall: mm(0) }],
    ["strokeLostLow", { finestStroke: um(24), surfaceRise: mm(0) }],
    ["gapFilledHigh", { finestGap: um(42), surfaceFall: mm(0) }],
    ["gapFilledLow", { finestGap: um(42), surfaceRise: mm(0) }],
    ["highOutOfFocus", { criterion: { by: "growth", ratio: 1.1 }, surfaceFall: mm(0) }],
    ["lowOutOfFocus", { criterion: { by: "growth", ratio: 1.1 }, surfaceRise: mm(0) }],
    ["noDepth", { criterion: { by: "largest diameter", diameter: diameter1e2(um(80)) } }],
    ["refocusHelps", { finestStroke: um(24), surfaceFall: mm(0) }],
    ["refocusSharpens", { surfaceFall: mm(0.6) }],
  ];
  assert.deepEqual(cases.map(([name]) => name), Object.keys(s.reasonBit));
  for (const [name, change] of cases) {
    const v = s.focusCheck({ ...job, ...change });
    assert.ok(v.reasonBits & s.reasonBit[name], name);
    // One sentence per bit, and each says what the bit's name says.
    const bits = Object.values(s.reasonBit).filter((bit) => v.reasonBits & bit);
    assert.equal(v.reasons.length, bits.length, name);
    const words = {
      strokeTooFine: /stroke is too fine/,
      gapTooFine: /gap is too fine/,
      strokeLostHigh: /stroke is lost at the highest/,
      strokeLostLow: /stroke is lost at the lowest/,
      gapFilledHigh: /gap fills at the highest/,
      gapFilledLow: /gap fills at the lowest/,
      highOutOfFocus: /highest place is outside/,
      lowOutOfFocus: /lowest place is outside/,
      noDepth: /larger than the largest diameter/,
      refocusHelps: /mid-height .* detail hold/,
      refocusSharpens: /mid-height .* into focus/,
    };
    assert.match(v.reasons[bits.indexOf(s.reasonBit[name])], words[name]);
  }
  const lost = s.focusCheck({ ...job, finestStroke: um(15) });
  assert.equal(lost.outcome, "lost");
  assert.equal(lost.detailRange, null);
  assert.equal(s.focusCheck({ ...job, ...cases[8][1] }).depth, null);
});

test("a verdict by the other choices of beam and focus", () => {
  const raw = { by: "waist", waist: diameter1e2(mm(5)), waistAt: s.upstream(m(1.5)) };
  const v = s.focusCheck({
    ...job,
    rawBeam: raw,
    focalLength: mm(50),
    focus: { by: "lens height", lensToSurface: mm(50) },
  });
  prints(s.inUm(s.asDiameter1e2(v.focused.waist)), "118.044");
  prints(s.inMm(z(v.focusZ)), "0.808198"); // the waist lies that far below a surface in the focal plane
});
