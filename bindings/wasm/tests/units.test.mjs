// A unit is one multiplication by the double nearest to its exact value, as in Rust and in text.

import assert from "node:assert/strict";
import { test } from "node:test";
import * as s from "spotwise";

const numbers = [0, 1, -1, 10.6, 38.1, 1.5, 0.087, 1 / 3, 1e-9, 123456.789, 6.02e23];
const lengths = [
  ["nm", s.nm, s.inNm],
  ["um", s.um, s.inUm],
  ["mm", s.mm, s.inMm],
  ["cm", s.cm, s.inCm],
  ["m", s.m, s.inM],
  ["in", s.inch, s.inInch],
  ["mil", s.mil, s.inMil],
  ["pt", s.pt, s.inPt],
];
const curvatures = [["1/m", s.perM, s.inPerM], ["/m", s.perM, s.inPerM]];
const angles = [
  ["rad", s.rad, s.inRad],
  ["mrad", s.mrad, s.inMrad],
  ["urad", s.urad, s.inUrad],
  ["deg", s.deg, s.inDeg],
];
/** Quantities of a scan and of a material; then what text does not name. */
const powers = [["W", s.watt, s.inWatt], ["mW", s.milliwatt, s.inMilliwatt], ["kW", s.kilowatt, s.inKilowatt]];
const speeds = [
  ["m/s", s.mPerS, s.inMPerS],
  ["mm/s", s.mmPerS, s.inMmPerS],
  ["m/min", s.mPerMin, s.inMPerMin],
  ["in/s", s.inchPerS, s.inInchPerS],
];
const doses = [
  ["J/m2", s.jPerM2, s.inJPerM2],
  ["J/cm2", s.jPerCm2, s.inJPerCm2],
  ["J/mm2", s.jPerMm2, s.inJPerMm2],
];
const diffusivities = [["m2/s", s.m2PerS, s.inM2PerS], ["mm2/s", s.mm2PerS, s.inMm2PerS]];
const removalEnergies = [["J/m3", s.jPerM3, s.inJPerM3], ["J/mm3", s.jPerMm3, s.inJPerMm3]];
const others = [
  ["s", s.s, s.inS],
  ["ms", s.ms, s.inMs],
  ["us", s.us, s.inUs],
  ["ns", s.ns, s.inNs],
  ["Hz", s.hz, s.inHz],
  ["kHz", s.khz, s.inKhz],
  ["MHz", s.megahertz, s.inMegahertz],
  ["J", s.joule, s.inJoule],
  ["mJ", s.millijoule, s.inMillijoule],
  ["uJ", s.microjoule, s.inMicrojoule],
];
const texts = [
  [s.length, lengths],
  [s.angle, angles],
  [s.curvature, curvatures],
  [s.power, powers],
  [s.speed, speeds],
  [s.dose, doses],
  [s.diffusivity, diffusivities],
  [s.removalEnergy, removalEnergies],
];

test("text and function of a unit give the same bits", () => {
  for (const [read, units] of texts) {
    for (const [name, make] of units) {
      for (const x of numbers) assert.equal(read(`${x} ${name}`), make(x), `${x} ${name}`);
    }
  }
});

test("each unit has its exact value", () => {
  assert.equal(s.inch(1), 0.0254);
  assert.equal(s.mil(1), 2.54e-5);
  assert.equal(s.pt(1), 0.000352777777777777777777778); // inch/72
  assert.equal(s.mm(1000), 1);
  assert.equal(s.cm(100), 1);
  assert.equal(s.um(1), 1e-6);
  assert.equal(s.nm(1), 1e-9);
  assert.equal(s.deg(180), Math.PI);
  assert.equal(s.mrad(1), 1e-3);
  assert.equal(s.urad(1), 1e-6);
  assert.deepEqual([s.milliwatt(1), s.watt(1), s.kilowatt(1)], [1e-3, 1, 1e3]);
  assert.deepEqual([s.mPerS(1), s.mmPerS(1), s.mPerMin(60), s.inchPerS(1)], [1, 1e-3, 1, 0.0254]);
  assert.deepEqual([s.s(1), s.ms(1), s.us(1), s.ns(1)], [1, 1e-3, 1e-6, 1e-9]);
  assert.deepEqual([s.hz(1), s.khz(1), s.megahertz(1)], [1, 1e3, 1e6]);
  assert.deepEqual([s.joule(1), s.millijoule(1), s.microjoule(1)], [1, 1e-3, 1e-6]);
  assert.deepEqual([s.jPerM2(1), s.jPerCm2(1), s.jPerMm2(1)], [1, 1e4, 1e6]);
  assert.deepEqual([s.jPerM3(1), s.jPerMm3(1)], [1, 1e9]);
  assert.deepEqual([s.m2PerS(1), s.mm2PerS(1)], [1, 1e-6]);
  assert.deepEqual([s.inWattPerM2(1), s.inWattPerCm2(1e4), s.inWattPerMm2(1e6)], [1, 1, 1]);
  assert.deepEqual([s.inM2(1), s.inUm2(1e-12), s.inM3(1), s.inUm3(1e-18)], [1, 1, 1, 1]);
});

test("a reader undoes its unit", () => {
  for (const [name, make, read] of [...texts.flatMap(([, units]) => units), ...others]) {
    for (const x of numbers) {
      const error = Math.abs(read(make(x)) - x);
      assert.ok(error <= Math.abs(x) * Number.EPSILON, `${x} ${name}: ${error}`);
    }
  }
});

test("text back from a quantity", () => {
  assert.equal(s.lengthText(s.um(10.6)), "10.6 um");
  assert.equal(s.angleText(s.mrad(2)), "2 mrad");
  assert.equal(s.curvatureText(s.perM(0.2)), "0.2 1/m");
  assert.equal(s.powerText(s.watt(20)), "20 W");
  assert.equal(s.speedText(s.mmPerS(500)), "0.5 m/s");
  assert.equal(s.doseText(s.jPerMm2(0.25)), "0.25 J/mm2");
  assert.equal(s.diffusivityText(s.mm2PerS(0.1)), "0.1 mm2/s");
  assert.equal(s.removalEnergyText(s.jPerMm3(3)), "3 J/mm3");
  for (const x of numbers) {
    assert.equal(s.length(s.lengthText(s.mm(x))), s.mm(x));
    assert.equal(s.angle(s.angleText(s.mrad(x))), s.mrad(x));
    assert.equal(s.curvature(s.curvatureText(s.perM(x))), s.perM(x));
    assert.equal(s.power(s.powerText(s.milliwatt(x))), s.milliwatt(x));
    assert.equal(s.speed(s.speedText(s.mPerMin(x))), s.mPerMin(x));
    assert.equal(s.dose(s.doseText(s.jPerCm2(x))), s.jPerCm2(x));
    assert.equal(s.diffusivity(s.diffusivityText(s.mm2PerS(x))), s.mm2PerS(x));
    assert.equal(s.removalEnergy(s.removalEnergyText(s.jPerMm3(x))), s.jPerMm3(x));
  }
});

test("other ways to write a unit", () => {
  for (const text of ["10.6um", "10.6 µm", "10.6 μm", " 10.6 um "]) assert.equal(s.length(text), s.um(10.6));
  assert.equal(s.length("1.5 inch"), s.inch(1.5));
  assert.equal(s.angle("5°"), s.deg(5));
  assert.equal(s.dose("0.25 J/mm²"), s.jPerMm2(0.25));
  assert.equal(s.diffusivity("0.1 mm²/s"), s.mm2PerS(0.1));
  assert.equal(s.removalEnergy("3 J/mm³"), s.jPerMm3(3));
  for (const text of ["", "0.2", "0.2 m", "0.2 1/mm"]) assert.throws(() => s.curvature(text), s.SpotwiseError, text);
  for (const text of ["", "um", "10.6", "10.6 furlong", "NaN m", "inf m", "1e999 m", "10,6 um"]) {
    assert.throws(() => s.length(text), s.SpotwiseError, text);
  }
});
