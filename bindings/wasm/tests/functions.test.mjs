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
  dose: { by: "ratio", doseRatio: 2.7 },
};

/** A plano-convex lens of zinc selenide, and what it makes of 9 mm of this light. */
const singlet = {
  index: 2.4028,
  shape: "curved side first",
  focalLength: mm(38.1),
  waistAt: s.atLens,
  clearAperture: s.diameter(mm(18)),
};
const ninemm = { wavelength: um(10.6), m2: 1.2, waist: diameter1e2(mm(9)) };
const realLens = { glass: "zinc selenide", shape: "curved side first", clearAperture: s.diameter(mm(18)) };
const expanded = {
  by: "expanded",
  waist: diameter1e2(mm(4.5)),
  waistAt: s.upstream(m(0.3)),
  magnification: 2,
  exitPower: s.perM(0.2),
  expanderToLens: m(1.4),
};
const wave = {
  wavelength: um(10.6),
  m2: 1,
  atLens: diameter1e2(mm(9)),
  lensToFocus: mm(38.1),
  aberrationPhase: s.rad(0),
};

/** Whether a number rounds to what is printed with this many decimals. */
function prints(value, printed) {
  const decimals = printed.split(".")[1]?.length ?? 0;
  assert.equal(value.toFixed(decimals), printed);
}
const z = (offset) => offset.zAwayFromLens;
const fine = {
  fine: true,
  level: "fine",
  wideCone: false,
  secondRange: false,
  aberrated: false,
  stronglyAberrated: false,
  clipped: false,
  stronglyClipped: false,
  noPower86: false,
  focusShifted: false,
  tilted: false,
  gaussianOffFocus: false,
  cautions: [],
};
/** Validity with these flags and this level. */
const flagged = (level, ...names) => ({ ...fine, fine: false, level, ...Object.fromEntries(names.map((name) => [name, true])) });
/** Whether a validity has these flags and this level, and a sentence for each. */
function isFlagged(validity, level, ...names) {
  assert.deepEqual({ ...validity, cautions: [] }, flagged(level, ...names));
  assert.equal(validity.cautions.length, names.length);
}

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
  prints(s.inRad(section.halfAngle), "0.092020"); // 2·M²·λ/(π·d₀)
  assert.ok(s.inPerM(section.wavefrontCurvature) > 0);
  prints(s.inPerM(section.wavefrontCurvature) * section.wavefrontRadius, "1.000000");
  assert.ok(s.inPerM(s.beamAt(spot88, towardLens(mm(1))).wavefrontCurvature) < 0);
  assert.equal(s.beamAt(spot88, inFocus).wavefrontRadius, Infinity);

  const wide = s.beamParameters({ wavelength: um(1), m2: 1, waist: diameter1e2(um(4)) });
  isFlagged(wide.validity, "caution", "wideCone");
  assert.match(wide.validity.cautions.join(), /cone is wide/);
});

test("diameters in bulk are the same bits as one at a time", () => {
  const at = Float64Array.of(-1e-3, 0, 1e-3, 0.25e-3);
  const { diametersInMetres: diameters, ...cone } = s.diametersAt(spot88, at);
  assert.ok(diameters instanceof Float64Array);
  assert.deepEqual(
    [...diameters],
    [...at].map((x) => s.asDiameter1e2(s.beamAt(spot88, s.signedOffset(m(x))).width)),
  );
  const out = new Float64Array(4);
  assert.equal(s.diametersAt(spot88, at, out).diametersInMetres, out);
  assert.deepEqual(out, diameters);
  const { halfAngle, validity } = s.beamAt(spot88, inFocus);
  assert.deepEqual(cone, { halfAngle, validity });
  const wide = { wavelength: um(1), m2: 1, waist: diameter1e2(um(4)) };
  const none = s.diametersAt(wide, new Float64Array(0));
  assert.equal(none.diametersInMetres.length, 0);
  prints(s.inRad(none.halfAngle), "0.159155"); // 1/(2·π), of a beam without a place
  isFlagged(none.validity, "caution", "wideCone");
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
  const many = fresh.diametersAt(spot88, new Float64Array(2_000_000).fill(1e-3)).diametersInMetres; // 16 MB each way
  assert.ok(many.every((diameter) => diameter === many[0]));
  prints(s.inUm(m(many[0])), "203.998");
  assert.ok(memory.buffer.byteLength > size, "the test needs the memory to grow");
  assert.ok(memory.buffer.byteLength < size + 4e6, `${memory.buffer.byteLength} bytes`);
  assert.deepEqual(fresh.defocus(spot88, awayFromLens(mm(0.5))), before);
});

test("more diameters than one slice holds, also into the same memory", () => {
  const places = Float64Array.from({ length: 150_000 }, (_, i) => (i - 75_000) * 1e-8);
  const diameters = s.diametersAt(spot88, places).diametersInMetres;
  for (const i of [0, 65_535, 65_536, 131_071, 131_072, 149_999]) {
    assert.equal(diameters[i], s.asDiameter1e2(s.beamAt(spot88, s.signedOffset(m(places[i]))).width));
  }
  const same = places.slice();
  assert.equal(s.diametersAt(spot88, same, same).diametersInMetres, same);
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
  const spot = diameter1e2(um(88));
  const scan = { power: s.watt(20), speed: s.mPerS(0.5), lineInterval: um(50) };
  const style = { typeface: { stem: 0.088, effectiveStroke: 0.09, effectiveCounter: 0.139, effectiveGap: 0.13 }, grades: { goodWindow: 3 } };
  const response = { kind: "melt", diffusivity: s.mm2PerS(0.1) };
  const plate = { kind: "plane", slope: { awayFromLensAlongX: 0.01, awayFromLensAlongY: 0.02 } };
  const plateRegion = { xLeast: mm(0), xGreatest: mm(60), yLeast: mm(0), yGreatest: mm(40) };
  const melted = { by: "scan", ...scan, threshold: s.jPerMm2(0.3), response };
  const eitherWay = { towardLens: towardLens(mm(0.3)), awayFromLens: awayFromLens(mm(0.3)) };
  const planned = {
    purpose: { for: "vanishing", kind: "line", doseRatio: 1.5 },
    expectedFocus: inFocus,
    focusUncertainty: mm(0),
    axis: { backlash: mm(0), direction: "toward lens", clearance: mm(20), leastClearance: mm(2) },
    layout: { pieceWidth: mm(8), pieceHeight: mm(8), labelWidth: mm(6), labelHeight: mm(2), gap: mm(2) },
  };
  const judged = { rayleighRange: mm(1), relativeDeviation: 0.1, coverageProbability: 0.95 };
  const rankedPieces = ["poor", "sharp", "poor"].map((rank, i) => ({ height: awayFromLens(mm(i)), rank }));
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
    [s.largestSpotForDetails, { ...job, doseRatio: 2.7 }],
    [s.focusCheck, job],
    [s.focusCheck, { ...job, rawBeam: { by: "waist", waist: diameter1e2(mm(5)), waistAt: s.upstream(m(1.5)) } }],
    [s.focusCheck, { ...job, rawBeam: expanded, singlet: realLens }],
    [s.focusCheck, { ...job, dose: melted, text: { ...style, em: s.pt(4), leastGrade: "good" } }],
    [s.scanDose, { ...scan, spotAcross: spot, spotAlong: spot }],
    [s.materialMark, { threshold: s.jPerMm2(0.3), response: { kind: "coating" } }, { dose: s.jPerMm2(1), spot, dwell: s.ms(1) }],
    [(...pieces) => s.focusFromVanishing(pieces, "line", judged), ...[0, 1, 0].map((seen, i) => ({ height: awayFromLens(mm(i)), seen: seen === 1 }))],
    [s.planSeries, spot88, planned],
    [(first, last) => s.seriesDrift(first, last, 0.95), { width: um(60), deviation: um(3) }, { width: um(70), deviation: um(4) }],
    [(judgement) => s.focusFromRanks(rankedPieces, judgement), judged],
    [(...marks) => s.fitThreshold(marks), ...[1, 2, 3].map((k) => ({ dose: 2 ** k, width: um(20 * Math.sqrt(k)), deviation: um(1) }))],
    [
      (known, ...marks) => s.fitMarkWidths(marks, known),
      { kind: "line", wavelength: um(10.6), mSquared: { value: 1.2, relativeDeviation: 0.1 } },
      ...[0, 62, 73, 66, 59, 66, 73, 62, 0].map((width, i) => ({
        height: s.signedOffset(mm(0.3 * (i - 4))),
        width: width === 0 ? null : um(width),
        deviation: um(1),
      })),
    ],
    [(beam, mark) => s.markWidth(beam, mark, inFocus), spot88, { kind: "line", doseRatio: 2.7 }],
    [(beam, taste) => s.offsetForTaste(beam, um(60), taste), spot88, { by: "compromise", crispnessWeight: 0.5 }],
    [s.smallestText, { ...style, spot, doseRatio: 2.7 }],
    [s.focusSinglet, raw, singlet],
    [s.lensFromRadii, { index: 1.5, first: s.convexTowardLaser(mm(50)), second: "flat" }],
    [s.gantrySpread, raw, { waistAtNearest: s.upstream(m(1)), waistAtFarthest: s.upstream(m(2)), focalLength: mm(50) }],
    [(beam, element) => s.beamAfterPath(beam, [element]), rawApart, { kind: "window", thickness: mm(3), index: 1.5 }],
    [s.waveWidths, wave, inFocus],
    [(beam, lens, surface) => s.singletDefocus(beam, lens, "power 86", surface), raw, singlet, towardLens(mm(0.1))],
    [s.tiltedSpot, spot88, towardLens(mm(0.1)), s.deg(30)],
    [
      (beam, detail, bow, draws) => s.detailOdds(beam, detail, [bow], draws),
      spot88,
      { finestStroke: um(60), finestGap: um(60), doseRatio: 2.7, highest: inFocus, lowest: inFocus },
      { source: "part bow", distribution: { kind: "normal", halfWidth: mm(0.3), coverageFactor: 2 }, mean: inFocus },
      { count: 20, seed: 1 },
    ],
    [s.focusBetween, spot88, { highest: inFocus, lowest: awayFromLens(mm(1)) }],
    [s.heightBands, { highest: inFocus, lowest: awayFromLens(mm(1)) }, { depth: eitherWay, margin: 0.1 }],
    [s.refocusPlan, { totalDepth: mm(1), depthPerPass: mm(0.1), depth: eitherWay, aim: "midway" }],
    [s.spotThrough, spot88, { focus: inFocus, thickness: mm(3) }],
    [s.regionHeights, plate, plateRegion, { cellsPerSide: 3 }],
    [s.shareInFocus, plate, plateRegion, { towardLens: inFocus, awayFromLens: awayFromLens(mm(0.3)) }],
    [s.focusForSurface, spot88, { by: "growth", ratio: 1.1 }, plate, plateRegion],
    [(beam, quantity) => s.mapHeights(beam, inFocus, quantity, z), spot88, { kind: "smallest stroke", doseRatio: 2.7 }],
    [
      (beam, lens) => s.scanFieldFocus(beam, lens, mm(10)),
      spot88,
      {
        focalLength: mm(160),
        fieldRadius: mm(70),
        edgeTangentialFocus: towardLens(mm(1)),
        edgeSagittalFocus: towardLens(mm(1)),
        edgeIncidence: s.deg(10),
      },
    ],
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
  prints(s.inRad(focused.halfAngle), "0.050007"); // the greater of D/(2·f)·√(1 + (f/z_R)²)
  assert.deepEqual(focused.validity, fine);
  isFlagged(s.focusAstigmatic(diode, mm(15)).validity, "caution", "wideCone");
  // The flags know of the raw cone too, which is the wider one in front of a lens that collimates.
  const emitter = { m2: 1, waist: diameter1e2(um(1.7)), waistAt: s.upstream(mm(4)) };
  const collimated = s.focusAstigmatic({ wavelength: nm(450), x: emitter, y: emitter }, mm(4));
  prints(s.inRad(collimated.halfAngle), "0.168517"); // 2·λ/(π·d₀)
  isFlagged(collimated.validity, "caution", "wideCone");
  assert.deepEqual(s.astigmaticParameters(collimated).validity, fine);

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

test("glass", () => {
  assert.deepEqual(s.glassNames, [
    "zinc selenide",
    "germanium",
    "gallium arsenide",
    "fused silica",
    "N-BK7",
    "zinc sulfide",
    "calcium fluoride",
    "sapphire",
  ]);
  // By the published formula with 30 digits, elsewhere.
  const { index, dispersion } = s.refractiveIndex({ glass: "zinc selenide", wavelength: um(10.6) });
  prints(index, "2.40278089377");
  prints(s.inPerUm(dispersion), "-0.00646627871");
  // A red pointer through a lens made for 10.6 µm focuses short.
  const red = s.lensAtWavelength({
    glass: "zinc selenide",
    shape: "curved side first",
    focalLength: mm(50.8),
    designWavelength: um(10.6),
    wavelength: um(0.65),
  });
  prints(red.designIndex, "2.40278089377");
  prints(red.index, "2.58092387755");
  prints(s.inMm(red.focalLength), "45.07571200");
  prints(s.inMm(z(red.focalShift)), "-5.72428800");
  // Plano-convex, by hand: k = (n³ − 2n² + 2)/(32·n·(n − 1)²) = 0.02844, C₄ = 4k/f³.
  assert.equal(red.shapeFactor, 1);
  prints(red.blurCoefficient, "0.02844");
  prints((s.inPerM3(red.wavefrontCoefficient) * red.focalLength ** 3) / 4, red.blurCoefficient.toFixed(12));
  // A best form is one for the light it was made for, q = 2·(n² − 1)/(n + 2), and none in other light.
  const made = { glass: "zinc selenide", focalLength: mm(50.8), designWavelength: um(10.6), wavelength: um(0.65) };
  const best = s.lensAtWavelength({ ...made, shape: "best form" });
  prints(best.shapeFactor, "2.1683"); // 2·4.773356/4.402781
  const bestInRed = s.lensAberration({ index: best.index, shape: "best form", focalLength: best.focalLength });
  assert.ok(best.blurCoefficient > bestInRed.blurCoefficient);
  for (const glass of s.glassNames) {
    const data = s.glassData(glass);
    assert.ok(data.leastWavelength < data.greatestWavelength && data.source.length > 20, glass);
    for (const wavelength of [data.leastWavelength, data.greatestWavelength]) {
      assert.ok(s.refractiveIndex({ glass, wavelength }).index > 1, glass);
    }
    assert.throws(() => s.refractiveIndex({ glass, wavelength: m(data.greatestWavelength * 1.001) }), s.SpotwiseError);
  }
  prints(s.inUm(s.glassData("zinc selenide").leastWavelength), "0.54");
});

test("the shape of a lens", () => {
  // By hand: 1/f = 1.4028·(1/0.0337 − 1/0.0913), q = (91.3 + 33.7)/(91.3 − 33.7).
  const meniscus = s.lensFromRadii({
    index: 2.4028,
    first: s.convexTowardLaser(mm(33.7)),
    second: s.convexTowardLaser(mm(91.3)),
  });
  prints(s.inMm(meniscus.focalLength), "38.079");
  prints(meniscus.shapeFactor, "2.1701");
  // Turned round, it is the same lens with its other side first.
  const turned = s.lensFromRadii({
    index: 2.4028,
    first: s.concaveTowardLaser(mm(91.3)),
    second: s.concaveTowardLaser(mm(33.7)),
  });
  prints(s.inMm(turned.focalLength), "38.079");
  prints(turned.shapeFactor, "-2.1701");
  const plano = s.lensFromRadii({ index: 1.5, first: s.convexTowardLaser(mm(50)), second: "flat" });
  assert.deepEqual([s.inMm(plano.focalLength).toFixed(6), plano.shapeFactor], ["100.000000", 1]);
  const flatFirst = s.lensFromRadii({ index: 1.5, first: "flat", second: s.concaveTowardLaser(mm(50)) });
  assert.deepEqual([s.inMm(flatFirst.focalLength).toFixed(6), flatFirst.shapeFactor], ["100.000000", -1]);
  assert.deepEqual(s.signedRadius(mm(-50)), s.concaveTowardLaser(mm(50)));
});

test("spherical aberration", () => {
  const best = s.lensAberration({ index: 2.402781, shape: "best form", focalLength: mm(63.5) });
  prints(best.blurCoefficient, "0.0187"); // as handbooks give it for zinc selenide, from memory
  prints((s.inPerM3(best.wavefrontCoefficient) * 0.0635 ** 3) / 4, best.blurCoefficient.toFixed(12)); // C₄ = 4k/f³
  const same = s.lensAberration({ index: 2.402781, shape: { shapeFactor: best.shapeFactor }, focalLength: mm(63.5) });
  assert.deepEqual(same, best);
  const [curved, flat] = ["curved side first", "flat side first"].map((shape) => s.lensAberration({ ...singlet, shape }));
  assert.deepEqual([curved.shapeFactor, flat.shapeFactor], [1, -1]);
  assert.ok(best.blurCoefficient < curved.blurCoefficient && curved.blurCoefficient < flat.blurCoefficient);

  const growth = s.aberrationGrowth({ m2: 1, aberrationPhase: s.rad(0.5) });
  prints(growth.secondMomentM2, "1.224745"); // √(1 + 2·0.5²)
  prints(growth.secondMomentGrowth, "1.224745");
  assert.equal(growth.secondMomentShift, -1);
  prints(growth.power86Growth, "1.104167"); // 1 + 0.25/(1 + 2.8·0.5)
  prints(growth.power86Shift, "-0.833333"); // 1/(1 + 0.2)
  assert.equal(growth.handbookGrowth, 1.25);
  prints(growth.quadratureGrowth, "1.030776"); // √(1 + 1/16)
  assert.ok(growth.peakIrradianceRatio > 0.8 && growth.peakIrradianceRatio < 0.95);
  assert.equal(growth.normalisedAberration, 0.5);
  isFlagged(growth.validity, "caution", "aberrated");
  const strong = s.aberrationGrowth({ m2: 1, aberrationPhase: s.rad(-1.8) });
  assert.deepEqual([strong.power86Growth, strong.power86Shift, strong.peakIrradianceRatio], [undefined, undefined, undefined]);
  assert.equal(strong.secondMomentShift, 3.6);
  isFlagged(strong.validity, "out of domain", "aberrated", "stronglyAberrated", "noPower86");
});

test("a real lens, beside the ideal one", () => {
  const f = s.focusSinglet(ninemm, singlet);
  // With 30 digits, elsewhere, from the formulas.
  prints(s.inRad(f.aberrationPhase), "0.5025633568");
  prints(f.normalisedAberration, "0.4188027973");
  prints(s.inUm(s.asDiameter1e2(f.ideal.waist)), "68.5594137");
  prints(s.inUm(f.power86.waistDiameter), "74.5005292");
  prints(s.inUm(f.handbookDiameter), "82.9158508");
  prints(s.inUm(f.quadratureDiameter), "70.0464167");
  prints(f.secondMoment.m2, "1.3946827077");
  prints(f.power86.m2, "1.3111212720"); // 1.2 times the growth
  assert.equal(f.clippingRatio, 2);
  prints(f.transmitted, "0.9996645374"); // 1 − exp(−8)
  assert.deepEqual([f.shapeFactor, f.lensToFocus], [1, mm(38.1)]);
  assert.ok(z(f.secondMoment.shift) < z(f.power86.shift) && z(f.power86.shift) < 0);
  prints(s.inMm(f.power86.lensToWaist), s.inMm(f.ideal.lensToWaist + z(f.power86.shift)).toFixed(9));
  isFlagged(f.validity, "caution", "aberrated");
  assert.deepEqual(f.ideal, s.focusThroughLens(ninemm, singlet));
  prints(f.relativeRayleighRange, (f.ideal.rayleighRange / f.ideal.lensToWaist).toFixed(12));
  prints(s.inRad(f.ideal.halfAngle), "0.118114"); // D/(2·f)·√(1 + (f/z_R)²)
  // The aberrated cone converges as if from a lens of more power.
  assert.ok(f.halfAngle > f.ideal.halfAngle);
  prints(f.halfAngle, (f.secondMoment.waistDiameter / 2 / f.secondMoment.rayleighRange).toFixed(12));
  // No waist passes for a beam: what came of it would lack the flags.
  for (const waist of [f.power86, f.secondMoment]) {
    assert.throws(() => s.beamParameters(waist), s.SpotwiseError);
  }
  // Without an aperture nothing is clipped, and nothing else changes.
  const { clearAperture, ...open } = singlet;
  const unclipped = s.focusSinglet(ninemm, open);
  assert.deepEqual([unclipped.clippingRatio, unclipped.transmitted, unclipped.wave.clearAperture], [Infinity, 1, undefined]);
  assert.deepEqual(unclipped.power86, f.power86);
  assert.deepEqual(s.focusSinglet(ninemm, { ...open, clearAperture: undefined }), unclipped);

  const elevenmm = { ...ninemm, waist: diameter1e2(mm(11)) };
  const tight = s.focusSinglet(elevenmm, { ...singlet, shape: "flat side first", clearAperture: s.diameter(mm(15)) });
  assert.equal(tight.power86, undefined);
  assert.equal(tight.peakIrradianceRatio, undefined);
  isFlagged(
    tight.validity,
    "out of domain",
    "aberrated",
    "stronglyAberrated",
    "clipped",
    "stronglyClipped",
    "noPower86",
  );
  const far = { ...open, focalLength: mm(500), waistAt: s.upstream(m(3)) };
  const shifted = s.focusSinglet({ ...ninemm, waist: diameter1e2(mm(4)) }, far);
  isFlagged(shifted.validity, "caution", "focusShifted");
  assert.ok(shifted.relativeFocusShift > 0.05);
});

test("off focus behind a real lens, with its flags", () => {
  const f = s.focusSinglet(ninemm, singlet);
  for (const [measure, waist] of [["second moment", f.secondMoment], ["power 86", f.power86]]) {
    const inWaist = s.singletDefocus(ninemm, singlet, measure, inFocus);
    assert.deepEqual([inWaist.spotDiameter, inWaist.growth, inWaist.irradianceRatio], [waist.waistDiameter, 1, 1]);
    // Irradiance and line dose are a Gaussian beam's, which takes one more flag.
    assert.equal(inWaist.halfAngle, f.halfAngle);
    isFlagged(inWaist.validity, "caution", "aberrated", "gaussianOffFocus");
    for (const name of ["normalisedAberration", "clippingRatio", "relativeFocusShift", "relativeRayleighRange"]) {
      assert.ok(f[name] > 0);
      assert.equal(inWaist[name], f[name]);
      assert.equal(s.singletDepthOfFocus(ninemm, singlet, measure, { by: "rayleigh" })[name], f[name]);
    }
    // A Rayleigh range off, the diameter is √2 as large and half the irradiance is left.
    const off = s.singletDefocus(ninemm, singlet, measure, awayFromLens(waist.rayleighRange));
    prints(off.spotDiameter / waist.waistDiameter, Math.SQRT2.toFixed(12));
    prints(off.growth, Math.SQRT2.toFixed(12));
    prints(off.growthMinusOne, (Math.SQRT2 - 1).toFixed(12));
    prints(off.irradianceRatio, "0.500000000000");
    prints(off.lineDoseRatio, Math.SQRT1_2.toFixed(12));
    assert.deepEqual(off, s.singletDefocus(ninemm, singlet, measure, towardLens(waist.rayleighRange)));

    const depth = s.singletDepthOfFocus(ninemm, singlet, measure, { by: "rayleigh" });
    prints(s.inMm(z(depth.awayFromLens)), s.inMm(waist.rayleighRange).toFixed(12));
    prints(s.inMm(z(depth.towardLens)), s.inMm(-waist.rayleighRange).toFixed(12));
    prints(s.inMm(depth.full), s.inMm(m(2 * waist.rayleighRange)).toFixed(12));
    assert.deepEqual([depth.halfAngle, depth.validity], [f.halfAngle, f.validity]);
    isFlagged(depth.validity, "caution", "aberrated");
    const byLight = s.singletDepthOfFocus(ninemm, singlet, measure, { by: "irradiance drop", drop: 0.2 });
    isFlagged(byLight.validity, "caution", "aberrated", "gaussianOffFocus");
  }
  // By hand: 0.3137 mm·√((120/74.50)² − 1).
  const largest = { by: "largest diameter", diameter: s.power86(um(120)) };
  prints(s.inMm(z(s.singletDepthOfFocus(ninemm, singlet, "power 86", largest).awayFromLens)), "0.396");
});

test("a tilted surface", () => {
  // By hand: half angle 2·M²·λ/(π·d₀), e = tan 30° times that.
  const flat = s.tiltedSpot(spot88, inFocus, s.deg(30));
  prints(s.inRad(flat.halfAngle), "0.092020");
  prints(flat.grazingRatio, "0.05313");
  prints(s.inUm(flat.diameterAcross), "88.000");
  prints(s.inUm(flat.diameterAlong), "101.614"); // 88/cos 30°
  prints(s.inUm(flat.contourAlong), "101.757"); // 101.614/√(1 − e²)
  assert.equal(flat.contourShiftToFarSide, 0);
  prints(flat.irradianceRatio, "0.866025");
  prints(flat.lineDoseRatio, "0.866025");
  assert.deepEqual(flat.validity, fine);

  // The ends of the contour lie on the edge of the beam, whichever way they are found: the wider end is
  // that on the far side, for there the beam is wider.
  const low = s.tiltedSpot(spot88, awayFromLens(mm(0.5)), s.deg(60));
  assert.ok(low.contourShiftToFarSide > 0);
  for (const side of [1, -1]) {
    const along = low.contourShiftToFarSide + (side * low.contourAlong) / 2;
    const there = s.beamAt(spot88, awayFromLens(m(0.5e-3 + along * Math.sin(Math.PI / 3))));
    prints(Math.abs(along) * Math.cos(Math.PI / 3) * 1e6, (s.asRadius1e2(there.width) * 1e6).toFixed(9));
  }
  const high = s.tiltedSpot(spot88, towardLens(mm(0.5)), s.deg(60));
  assert.equal(high.contourShiftToFarSide, -low.contourShiftToFarSide);
  const level = s.defocus(spot88, awayFromLens(mm(0.5)));
  assert.equal(low.diameterAcross, s.asDiameter1e2(level.spot));
  prints(low.irradianceRatio, (level.irradianceRatio / 2).toFixed(12));
  prints(low.lineDoseRatio, (level.lineDoseRatio / 2).toFixed(12));

  const grazing = s.tiltedSpot(spot88, inFocus, s.deg(70));
  isFlagged(grazing.validity, "caution", "tilted");
  assert.match(grazing.validity.cautions[0], /tilt/);
});

test("the raw beam that gives the smallest spot", () => {
  const lens = { ...singlet, wavelength: um(10.6), m2: 1 };
  // t = α/M² is 1/√6 by second moments and ⅔ by the handbook's sum.
  prints(s.inRad(s.smallestSpot({ ...lens, measure: "second moment" }).aberrationPhase), "0.408248");
  prints(s.inRad(s.smallestSpot({ ...lens, measure: "handbook" }).aberrationPhase), "0.666667");
  const best = s.smallestSpot({ ...lens, measure: "power 86" });
  const spot = (atLens) => s.focusSinglet({ ...ninemm, m2: 1, waist: diameter1e2(atLens) }, singlet).power86.waistDiameter;
  const [narrow, right, wide] = [0.95, 1, 1.05].map((factor) => spot(m(s.asDiameter1e2(best.atLens) * factor)));
  assert.ok(right < narrow && right < wide);
  // The limit of a sharp focus; this one lies nearer the lens and is smaller, by two Rayleigh ranges at most.
  const smaller = 1 - right / best.spotDiameter;
  assert.ok(smaller > 0 && smaller < 2 * best.relativeRayleighRange);
  prints(best.normalisedAberration, s.inRad(best.aberrationPhase).toFixed(12)); // M² = 1
  prints(s.inRad(best.halfAngle), (s.asDiameter1e2(best.atLens) / 2 / mm(38.1)).toFixed(12));
  prints(best.relativeRayleighRange, ((4 * um(10.6) * mm(38.1)) / (Math.PI * s.asDiameter1e2(best.atLens) ** 2)).toFixed(12));
  assert.equal(best.validity.aberrated, true);
});

test("clipping", () => {
  const beam = { wavelength: um(10.6), atLens: diameter1e2(mm(9)), focalLength: mm(38.1) };
  const open = s.focusClipped(beam);
  prints(s.inUm(open.diameter1e2), "57.1345025"); // 4·λ·f/(π·D)
  prints(s.inUm(open.fwhm), "33.6354"); // 0.588705 of it
  assert.equal(open.diameterPower86, open.diameter1e2);
  assert.deepEqual([open.clippingRatio, open.transmitted, open.peakIrradianceRatio], [Infinity, 1, 1]);
  prints(open.relativeRayleighRange, "0.0063483"); // 241.869394 µm over 38.1 mm
  prints(s.inRad(open.halfAngle), "0.118110"); // 9 mm over twice 38.1 mm
  const clipped = s.focusClipped({ ...beam, clearAperture: s.diameter(mm(12)) });
  prints(clipped.transmitted, "0.97143449922"); // 1 − exp(−2·(4/3)²)
  prints(clipped.peakIrradianceRatio, "0.69053886997"); // (1 − exp(−(4/3)²))²
  assert.ok(clipped.diameter1e2 > open.diameter1e2);
  const hard = s.focusClipped({ ...beam, clearAperture: s.diameter(mm(6)) });
  assert.equal(hard.diameterPower86, undefined);
  isFlagged(hard.validity, "out of domain", "noPower86");
  prints(s.inRad(hard.halfAngle), "0.078740"); // 6 mm over twice 38.1 mm
  prints(hard.relativeRayleighRange, "0.0142836"); // 9²/6² times that of the open beam

  const depth = s.clippedDepthOfFocus({ ...beam, irradianceDrop: 0.5 });
  // zR = 241.869394 µm by 4·λ·f²/(π·D²); the waist lies zR/(f/zR + zR/f) nearer the lens than the focal
  // point, and zR/(1 + zR²/f²) from it on either side half the irradiance is left.
  prints(s.inUm(z(depth.brightest)), "-1.53539");
  prints(s.inUm(z(depth.range.awayFromLens)), "240.32425");
  prints(s.inUm(z(depth.range.towardLens)), "-243.39504");
  prints(depth.relativeHalfDepth, "0.0063480");
  assert.equal(depth.relativeRayleighRange, open.relativeRayleighRange);
  assert.equal(depth.clippingRatio, Infinity);
  assert.deepEqual([depth.range.halfAngle, depth.range.validity], [open.halfAngle, fine]);
  const longer = s.clippedDepthOfFocus({ ...beam, clearAperture: s.diameter(mm(9)), irradianceDrop: 0.5 });
  assert.ok(longer.range.full > 1.5 * depth.range.full);
  assert.equal(longer.clippingRatio, 1);
  prints(longer.relativeHalfDepth, (longer.range.full / 2 / mm(38.1)).toFixed(12));
});

test("a plate in the beam, and focus inside a part", () => {
  const plate = s.focusBehindPlate(spot88, { thickness: mm(3), index: 1.5 });
  assert.equal(z(plate.focusShift), mm(1)); // t·(1 − 1/n)
  prints(s.inMm(z(plate.edgeFocusShift)), "1.00471428128"); // by Snell's law, elsewhere
  prints(s.inMrad(plate.aberrationPhase), "-5.9030947649");
  prints(plate.normalisedAberration, "0.0049192456");
  assert.deepEqual(plate.validity, fine);
  prints(s.inRad(plate.halfAngle), "0.092020");
  const inside = s.focusInside(spot88, { lensLoweredBy: mm(2), index: 1.5 });
  assert.equal(inside.depth, mm(3));
  prints(s.inMm(inside.edgeDepth), "3.00708812963");
  prints(s.inMm(inside.rayleighRange), "0.71723153035");
  prints(s.inMrad(inside.aberrationPhase), "-5.9030947649");
  prints(inside.normalisedAberration, "0.0049192456");
  prints(s.inRad(inside.halfAngle), "0.092020"); // in air
});

test("a beam along its path", () => {
  const raw = s.roundRawBeam({ wavelength: um(10.6), m2: 1.2, waist: diameter1e2(mm(5)) }, s.upstream(m(0.5)));
  const elements = [{ kind: "space", length: m(1) }, { kind: "thin lens", focalLength: mm(50) }];
  const after = s.beamAfterPath(raw, elements);
  // The waist lies 1.5 m before the lens, as where the lens is computed by itself.
  prints(s.inUm(s.asDiameter1e2(after.beam.x.waist)), "118.044");
  prints(s.inMm(z(after.beam.x.waistZ)), "50.808198");
  assert.deepEqual(after.beam.x, after.beam.y);
  assert.equal(after.raw.x.waistAt.zDownstream, z(after.beam.x.waistZ));
  assert.deepEqual([after.distance, after.normalisedAberration, after.validity], [m(1), 0, fine]);
  assert.equal(after.halfAngle, s.focusThroughLens({ wavelength: um(10.6), m2: 1.2, waist: diameter1e2(mm(5)) }, { waistAt: s.upstream(m(1.5)), focalLength: mm(50) }).halfAngle);
  assert.deepEqual(s.beamAlongPath(raw, elements, m(1)), after);
  // What arrives at the lens, given to the lens.
  const arriving = s.beamAlongPath(raw, [elements[0]], m(1)).raw;
  prints(s.inMm(z(s.focusAstigmatic(arriving, mm(50)).x.waistZ)), "0.808198");
  // Beyond the last element the beam goes on: here to its waist.
  const atWaist = s.beamAlongPath(raw, elements, m(1.050808198));
  prints(s.inUm(s.asDiameter1e2(atWaist.widthX)), "118.044");
  prints(Math.abs(s.inUm(z(s.astigmaticParameters(atWaist.beam).effectiveWaistZ))), "0.000");
  // A window shortens the way to the waist by t·(1 − 1/n).
  const space = s.beamAfterPath(raw, [{ kind: "space", length: mm(3) }]);
  const window = s.beamAfterPath(raw, [{ kind: "window", thickness: mm(3), index: 1.5 }]);
  prints(s.inMm(z(window.beam.x.waistZ) - z(space.beam.x.waistZ)), "1.000000");
  assert.equal(window.distance, space.distance);
  // An expander set to infinity magnifies the waist; a converging one brings it nearer.
  const expander = (exitPower) => s.beamAfterPath(raw, [elements[0], { kind: "expander", magnification: 2, exitPower }]);
  prints(s.inMm(s.asDiameter1e2(expander(s.perM(0)).beam.x.waist)), "10.000000");
  prints(expander(s.perM(0)).beam.x.waistZ.zAwayFromLens, "-6.000000"); // 1.5 m times 2²
  assert.ok(z(expander(s.perM(0.2)).beam.x.waistZ) > 0);
  // A singlet by the same second moments as by itself.
  const real = s.focusSinglet(ninemm, { ...singlet, shape: { shapeFactor: 1 } });
  const { index, focalLength } = singlet;
  const behind = s.beamAfterPath(s.roundRawBeam(ninemm, s.atLens), [{ kind: "singlet", index, focalLength, shapeFactor: 1 }]);
  prints(behind.x.m2, real.secondMoment.m2.toFixed(12));
  prints(s.inMm(z(behind.y.waistZ)), s.inMm(real.secondMoment.lensToWaist).toFixed(9));
  assert.deepEqual([behind.beam, behind.raw], [undefined, undefined]); // no plain beam loses the flags
  prints(behind.normalisedAberration, real.normalisedAberration.toFixed(12));
  isFlagged(behind.validity, "caution", "aberrated");
  assert.equal(s.beamAfterPath(raw, []).distance, 0);
});

test("a gantry", () => {
  const raw = { wavelength: um(10.6), m2: 1.2, waist: diameter1e2(mm(5)) };
  const distances = Float64Array.of(-0.5, 0, 0.05, 1.5, 3);
  const along = s.focusAlongGantry(raw, mm(50), distances);
  const one = [...distances].map((x) =>
    s.focusThroughLens(raw, { waistAt: s.signedDownstream(m(-x)), focalLength: mm(50) }),
  );
  assert.deepEqual([...along.spotDiametersInMetres], one.map((f) => s.asDiameter1e2(f.waist)));
  assert.deepEqual([...along.focusShiftsInMetres], one.map((f) => z(f.focusShift)));
  const many = s.focusAlongGantry(raw, mm(50), new Float64Array(150_000).fill(1.5));
  assert.ok(many.spotDiametersInMetres.every((d) => d === along.spotDiametersInMetres[3]));
  assert.ok(many.focusShiftsInMetres.every((d) => d === along.focusShiftsInMetres[3]));
  assert.equal(along.halfAngle, Math.max(...one.map((f) => f.halfAngle)));
  assert.deepEqual(along.validity, fine);
  const none = s.focusAlongGantry(raw, mm(50), new Float64Array(0));
  assert.equal(none.focusShiftsInMetres.length, 0);
  prints(s.inMrad(none.halfAngle), "1.61956"); // of the raw beam: 2·M²·λ/(π·d₀)
  // The widest cone and the flags of every slice count, not of the last: far off, the beam is wide and so
  // is the cone, but in the last slice all places are near.
  const near = new Float64Array(150_000).fill(1.5);
  near[3] = 20;
  const wide = s.focusAlongGantry(raw, mm(125), near);
  const far = s.focusThroughLens(raw, { waistAt: s.upstream(m(20)), focalLength: mm(125) });
  isFlagged(far.validity, "caution", "wideCone");
  assert.deepEqual([wide.halfAngle, wide.validity], [far.halfAngle, far.validity]);

  const travel = { waistAtNearest: s.upstream(m(0)), waistAtFarthest: s.upstream(m(3)), focalLength: mm(50) };
  const spread = s.gantrySpread(raw, travel);
  // The spot is largest where the waist lies a focal length before the lens, smallest at the far end.
  assert.equal(s.asDiameter1e2(spread.largestSpot), along.spotDiametersInMetres[2]);
  assert.equal(s.asDiameter1e2(spread.smallestSpot), along.spotDiametersInMetres[4]);
  assert.equal(spread.halfAngle, along.halfAngle);
  prints(spread.spotRatio, (along.spotDiametersInMetres[2] / along.spotDiametersInMetres[4]).toFixed(12));
  assert.equal(z(spread.leastFocusShift), along.focusShiftsInMetres[1]);
  // Greatest at s − f = z_R, where it is f²/(2·z_R).
  prints(s.inMm(z(spread.greatestFocusShift)), s.inMm((0.05 * 0.05) / (2 * s.beamParameters(raw).rayleighRange)).toFixed(9));
  prints(s.inMm(spread.focusWander), s.inMm(z(spread.greatestFocusShift) - z(spread.leastFocusShift)).toFixed(9));

  const even = s.evenOutGantry(raw, {
    waistAt: s.upstream(m(0.3)),
    magnification: 2,
    expanderToNearest: m(0.5),
    expanderToFarthest: m(2.5),
    focalLength: mm(50),
  });
  assert.equal(even.endsEqual, true);
  assert.ok(even.spread.spotRatio < spread.spotRatio);
  prints(s.inMm(even.waistAt.zDownstream), "1450.000"); // a focal length short of mid-travel
  // The path says the same of that setting: equal spots at both ends.
  const path = (toLens) =>
    s.beamAfterPath(s.roundRawBeam(raw, s.atLens), [
      { kind: "space", length: m(0.3) },
      { kind: "expander", magnification: 2, exitPower: even.exitPower },
      { kind: "space", length: toLens },
      { kind: "thin lens", focalLength: mm(50) },
    ]);
  const ends = [m(0.5), m(2.5)].map((toLens) => s.inUm(s.asDiameter1e2(path(toLens).beam.x.waist)));
  prints(ends[0], ends[1].toFixed(9));
  prints(even.spread.halfAngle, path(m(0.5)).halfAngle.toFixed(9)); // widest where the spot is smallest
  prints(s.inUm(s.asDiameter1e2(even.spread.smallestSpot)), ends[0].toFixed(6));
});

test("the wave of a beam that nothing spoils is the Gaussian's", () => {
  const d0 = 57.1345025; // 4·λ·L/(π·D) in µm
  const middle = s.waveIrradiance(wave, { radius: um(0), z: inFocus });
  prints(middle.irradianceRatio, "1.000000000");
  prints(s.inPerMm2(middle.irradiancePerWatt), (8 / (Math.PI * (d0 * 1e-3) ** 2)).toFixed(4));
  assert.ok(middle.error >= 0 && middle.error < 1e-9);
  assert.deepEqual(middle.validity, fine);
  prints(s.inRad(middle.halfAngle), "0.118110"); // 9 mm over twice 38.1 mm
  const edge = { radius: um(d0 / 2), z: inFocus };
  prints(s.waveIrradiance(wave, edge).irradianceRatio, "0.13533528"); // e⁻²
  const power = s.wavePower(wave, edge);
  prints(power.share, "0.8646647"); // 1 − e⁻²
  prints(power.shareOfTransmitted, "0.8646647");
  assert.ok(power.error < 1e-9);
  const widths = s.waveWidths(wave, inFocus);
  prints(s.inUm(widths.diameter1e2), "57.13450");
  prints(s.inUm(widths.fwhm), "33.6354"); // 0.588705 of it
  prints(s.inUm(widths.diameterPower86), "57.13450");
  prints(widths.transmitted, "1.000000000");
  for (const { halfAngle } of [power, widths]) assert.equal(halfAngle, middle.halfAngle);
  prints(widths.irradianceRatio, "1.000000000");
  assert.ok(widths.error < 1e-6);
  const focus = s.waveFocus(wave, "second moment");
  assert.equal(focus.halfAngle, middle.halfAngle);
  prints(s.inUm(focus.diameterD4sigma), "57.1334"); // narrower than in the focal plane by half of (z_R/L)²
  // Partly coherent light: every width times M².
  prints(s.inUm(s.waveWidths({ ...wave, m2: 1.5 }, inFocus).diameter1e2), "85.7018");
});

test("the wave proves the closed forms", () => {
  // α = 0.5: 86.5 % of the power in 1.10162 ideal diameters at best, by an integral computed elsewhere.
  const spoilt = { ...wave, wavelength: um(1.064), aberrationPhase: s.rad(0.5) };
  const best = s.waveFocus(spoilt, "power 86");
  assert.ok(Math.abs(s.inUm(best.diameterPower86) / 5.735011 / 1.10162309 - 1) < 1e-3); // 4·λ·L/(π·D)
  assert.ok(best.diameterD4sigma > best.diameterPower86);
  assert.ok(z(best.z) < 0 && z(s.waveFocus(spoilt, "peak irradiance").z) < z(best.z));
  const bright = s.waveFocus(spoilt, "peak irradiance");
  assert.ok(bright.irradianceRatio > best.irradianceRatio);
  // The same of the real lens above: its fit is good to 1.3 %.
  const f = s.focusSinglet(ninemm, singlet);
  const wide = s.waveFocus(f.wave, "power 86");
  assert.ok(Math.abs(wide.diameterPower86 / f.power86.waistDiameter - 1) < 0.013);
  assert.equal(wide.diameterD4sigma, undefined); // clipped at 18 mm: no second moment
  const { clearAperture, ...unclipped } = f.wave;
  const moment = s.waveFocus(unclipped, "second moment");
  assert.ok(Math.abs(moment.diameterD4sigma / f.secondMoment.waistDiameter - 1) < 1e-6);
  // A clipped wave in focus against the closed form for the same.
  const beam = { wavelength: um(10.6), atLens: diameter1e2(mm(9)), focalLength: mm(38.1), clearAperture: s.diameter(mm(12)) };
  const clipped = s.waveWidths({ ...wave, clearAperture: beam.clearAperture }, inFocus);
  const closed = s.focusClipped(beam);
  prints(clipped.transmitted, closed.transmitted.toFixed(9));
  prints(clipped.irradianceRatio, closed.peakIrradianceRatio.toFixed(9));
  for (const name of ["diameter1e2", "fwhm", "diameterPower86"]) {
    assert.ok(Math.abs(clipped[name] / closed[name] - 1) < 0.01, name);
  }
});

test("depth of focus of a wave", () => {
  // Unspoilt, it is a Rayleigh range each way of the waist: 4·λ·f²/(π·D²) = 241.87 µm, less in
  // proportion to z_R/L.
  const plain = s.waveDepthOfFocus(wave, { by: "rayleigh" });
  assert.ok(Math.abs(s.inUm(plain.range.full) / 2 / 241.869 - 1) < 1e-3);
  prints(s.inUm(z(plain.range.awayFromLens) - z(plain.range.towardLens)), s.inUm(plain.range.full).toFixed(6));
  prints(s.inUm(z(plain.best)), "-1.54"); // z_R²/L before the focal point
  assert.ok(plain.error < um(1));
  prints(s.inRad(plain.range.halfAngle), "0.118110");
  assert.deepEqual(plain.range.validity, fine);
  // Aberration makes its ends differ.
  const spoilt = s.waveDepthOfFocus({ ...wave, aberrationPhase: s.rad(0.5) }, { by: "growth", ratio: 1.2 });
  assert.ok(Math.abs(z(spoilt.range.awayFromLens) + z(spoilt.range.towardLens)) > um(10));
  assert.ok(z(spoilt.best) < z(plain.best));
  const drop = s.waveDepthOfFocus(wave, { by: "irradiance drop", drop: 0.5 });
  assert.ok(Math.abs(s.inUm(drop.range.full) / 2 / 241.869 - 1) < 1e-3);
});

test("a map of a wave is the same light as one point at a time", () => {
  const spoilt = { ...wave, m2: 1.2, aberrationPhase: s.rad(0.5), clearAperture: s.diameter(mm(15)) };
  const radii = Float64Array.of(0, 10e-6, 40e-6, 90e-6);
  const heights = Float64Array.of(-0.4e-3, 0, 0.3e-3);
  const map = s.waveMap(spoilt, radii, heights);
  assert.equal(map.irradianceRatios.length, 12);
  const { halfAngle, validity } = s.waveIrradiance(spoilt, { radius: um(0), z: inFocus });
  assert.deepEqual([map.halfAngle, map.validity], [halfAngle, validity]);
  isFlagged(s.waveMap({ ...spoilt, lensToFocus: mm(28) }, radii, heights).validity, "caution", "wideCone");
  assert.ok(map.error < 1e-6);
  heights.forEach((height, row) =>
    radii.forEach((radius, column) => {
      const at = { radius: m(radius), z: s.signedOffset(m(height)) };
      const point = s.waveIrradiance(spoilt, at);
      const difference = Math.abs(map.irradianceRatios[row * 4 + column] - point.irradianceRatio);
      assert.ok(difference <= map.error + point.error, `${row} ${column}: ${difference}`);
    }),
  );
});

test("defocus and offsets", () => {
  const d = s.defocus(spot88, awayFromLens(mm(0.5)));
  prints(d.growth, "1.4469");
  prints(d.growthMinusOne, "0.4469");
  prints(d.irradianceRatio, "0.4777");
  prints(d.lineDoseRatio, "0.6911"); // 1/1.4469
  prints(s.inUm(s.asDiameter1e2(d.spot)), "127.33"); // 88·1.4469
  assert.deepEqual(s.defocus(spot88, towardLens(mm(0.5))), d);
  prints(s.inRad(d.halfAngle), "0.092020");

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
  prints(s.inRad(range.halfAngle), "0.092020");

  const astigmatic = s.astigmaticDepthOfFocus(apart, { by: "rayleigh" });
  prints(s.inMm(z(astigmatic.towardLens)), "-0.114159");
  prints(s.inMm(z(astigmatic.awayFromLens)), "0.314159");
  prints(s.inMm(astigmatic.full), "0.428319");
  prints(s.inRad(astigmatic.halfAngle), "0.047746"); // 2·5·0.45/(π·30)

  // Two waists far apart: the brightest range is given, and the other is told of.
  const far = { ...apart, y: axis(awayFromLens(mm(3))) };
  const bright = s.astigmaticDepthOfFocus(far, { by: "irradiance drop", drop: 0.95 });
  isFlagged(bright.validity, "caution", "secondRange");
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
  prints(s.inUm(s.pitchForContrast({ spot: diameter1e2(um(100)), contrast: 0.5 }).sine), "133.411");
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
  assert.equal(s.asDiameter1e2(d.spot), v.highest.spotDiameter);
  const detail = s.smallestDetails({ spot: d.spot, doseRatio: 2.7 });
  assert.deepEqual(
    [v.highest.smallestStroke, v.highest.smallestGap, v.highest.smallestDot, v.highest.smallestHole],
    [detail.bar, detail.gap, detail.dot, detail.hole],
  );
  const detailRange = s.offsetsForDiameter(v.focused, s.largestSpotForDetails({ ...job, doseRatio: 2.7 }));
  prints(s.inMm(v.detailRange.full), s.inMm(detailRange.full).toFixed(9));
  // Each carries the widest cone, which here is that behind the lens.
  prints(s.inRad(v.focused.halfAngle), s.inRad(s.asHalfAngle(v.focused.divergence)).toFixed(12));
  for (const range of [v.depth, v.detailRange]) {
    assert.deepEqual([range.halfAngle, range.validity], [v.focused.halfAngle, fine]);
  }
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
  const typeface = { stem: 0.088, effectiveStroke: 0.043, effectiveCounter: 0.1415, effectiveGap: 0.097 };
  const text = (points) => ({ typeface, em: s.pt(points), leastGrade: "good" });
  const coarse = { by: "scan", power: s.watt(20), speed: s.mPerS(0.5), lineInterval: um(100), threshold: s.jPerMm2(0.16) };
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
    ["textTooSmall", { text: text(0.5) }],
    ["textLostHigh", { text: text(1.65), surfaceFall: mm(0) }],
    ["textLostLow", { text: text(1.65), surfaceRise: mm(0) }],
    ["fillHasGaps", { dose: coarse }],
    ["nothingMarks", { dose: { by: "ratio", doseRatio: 0.5 } }],
    ["bandsHelp", { finestStroke: um(24), surfaceRise: mm(1), surfaceFall: mm(1) }],
  ];
  // A job without a shape knows no slope.
  assert.deepEqual([...cases.map(([name]) => name), "steep", "partlyUnknown", "tooSteepToMark"], Object.keys(s.reasonBit));
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
      textTooSmall: /text is too small/,
      textLostHigh: /text suffers at the highest/,
      textLostLow: /text suffers at the lowest/,
      fillHasGaps: /leave gaps/,
      nothingMarks: /too little for the material/,
      bandsHelp: /bands of height/,
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

test("a verdict on a real lens, beside what the ideal one would have promised", () => {
  const bare = { ...job, focalLength: mm(38.1), rawBeam: { by: "collimated", atLens: diameter1e2(mm(9)) } };
  const ideal = s.focusCheck(bare);
  assert.deepEqual([ideal.real, ideal.promised], [null, ideal.outcome]);
  const real = (change) => s.focusCheck({ ...bare, singlet: realLens, ...change });
  const v = real({});
  const index = s.refractiveIndex({ glass: "zinc selenide", wavelength: um(10.6) }).index;
  const alone = s.focusSinglet(ninemm, { ...singlet, index });
  prints(v.real.normalisedAberration, alone.normalisedAberration.toFixed(12));
  prints(s.inUm(v.real.power86.waistDiameter), s.inUm(alone.power86.waistDiameter).toFixed(9));
  assert.deepEqual([v.real.ideal, v.real.transmitted, v.real.lensToFocus], [alone.ideal, alone.transmitted, mm(38.1)]);
  assert.deepEqual([v.focused, v.promised], [ideal.focused, ideal.outcome]);
  prints(s.inUm(v.datum.spotDiameter), "74.5005");
  isFlagged(v.validity, "caution", "aberrated", "gaussianOffFocus");
  prints(v.real.halfAngle, alone.halfAngle.toFixed(12));
  prints(v.real.relativeRayleighRange, alone.relativeRayleighRange.toFixed(12));
  // Its ranges and places are those of the real lens, flags included.
  for (const range of [v.depth, v.detailRange]) {
    assert.deepEqual([range.halfAngle, range.validity], [v.real.halfAngle, v.real.validity]);
  }
  const depth = s.singletDepthOfFocus(ninemm, { ...singlet, index }, "power 86", bare.criterion);
  prints(s.inMm(v.depth.full), s.inMm(depth.full).toFixed(9));
  const off = s.singletDefocus(ninemm, { ...singlet, index }, "power 86", towardLens(mm(0.3)));
  prints(s.inUm(v.highest.spotDiameter), s.inUm(off.spotDiameter).toFixed(9));
  assert.deepEqual(v.focused.validity, fine);
  // A gap that the ideal lens would keep and the real one fills: at 74.5 µm 33.4 µm holds, at 68.6 µm 30.7 µm.
  const lost = real({ finestGap: um(32), surfaceRise: mm(0), surfaceFall: mm(0) });
  assert.deepEqual([lost.outcome, lost.promised], ["lost", "holds"]);
  assert.ok(lost.reasonBits & s.reasonBit.gapTooFine);
  // Set by the height of the lens, focus lies where the real lens puts it: nearer by its shift.
  const byHeight = real({ focus: { by: "lens height", lensToSurface: mm(38.1) } });
  prints(s.inMm(z(byHeight.focusZ)), s.inMm(v.real.power86.lensToWaist - mm(38.1)).toFixed(9));
  // An aperture left out clips nothing.
  const open = real({ singlet: { glass: "zinc selenide", shape: "curved side first" } });
  assert.deepEqual([open.real.clippingRatio, open.real.wave.clearAperture], [Infinity, undefined]);
});

test("a verdict on a beam that passes an expander", () => {
  const v = s.focusCheck({ ...job, rawBeam: expanded });
  const path = s.beamAfterPath(s.roundRawBeam({ ...ninemm, waist: expanded.waist }, s.atLens), [
    { kind: "space", length: m(0.3) },
    { kind: "expander", magnification: 2, exitPower: s.perM(0.2) },
    { kind: "space", length: m(1.4) },
  ]);
  const byPath = s.focusThroughLens(
    { ...ninemm, waist: path.raw.x.waist },
    { waistAt: path.raw.x.waistAt, focalLength: job.focalLength },
  );
  prints(s.inUm(s.asDiameter1e2(v.focused.waist)), s.inUm(s.asDiameter1e2(byPath.waist)).toFixed(9));
  prints(s.inMm(v.focused.lensToWaist), s.inMm(byPath.lensToWaist).toFixed(9));
  prints(s.inMm(s.asDiameter1e2(v.focused.atLens)), s.inMm(s.asDiameter1e2(path.widthX)).toFixed(9));
});
