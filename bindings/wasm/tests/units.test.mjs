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

test("text and function of a unit give the same bits", () => {
  for (const [read, units] of [[s.length, lengths], [s.angle, angles], [s.curvature, curvatures]]) {
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
});

test("a reader undoes its unit", () => {
  for (const [name, make, read] of [...lengths, ...angles, ...curvatures]) {
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
  for (const x of numbers) {
    assert.equal(s.length(s.lengthText(s.mm(x))), s.mm(x));
    assert.equal(s.angle(s.angleText(s.mrad(x))), s.mrad(x));
    assert.equal(s.curvature(s.curvatureText(s.perM(x))), s.perM(x));
  }
});

test("other ways to write a unit", () => {
  for (const text of ["10.6um", "10.6 µm", "10.6 μm", " 10.6 um "]) assert.equal(s.length(text), s.um(10.6));
  assert.equal(s.length("1.5 inch"), s.inch(1.5));
  assert.equal(s.angle("5°"), s.deg(5));
  for (const text of ["", "0.2", "0.2 m", "0.2 1/mm"]) assert.throws(() => s.curvature(text), s.SpotwiseError, text);
  for (const text of ["", "um", "10.6", "10.6 furlong", "NaN m", "inf m", "1e999 m", "10,6 um"]) {
    assert.throws(() => s.length(text), s.SpotwiseError, text);
  }
});
