// The module takes no more memory than is stated in advance. Its memory is caught as the module is started.

import assert from "node:assert/strict";
import { test } from "node:test";

const { Instance } = WebAssembly;
let memory;
WebAssembly.Instance = function (...given) {
  const instance = new Instance(...given);
  memory = instance.exports.memory;
  return instance;
};
const s = await import("spotwise");
WebAssembly.Instance = Instance;

const { um, mm, diameter1e2, inFocus } = s;
const [width, height] = [2000, 1500];
const samples = new Uint8Array(width * height).map((_, i) => (i % 90 < 30 && (i / width) % 70 < 50 ? 255 : 0));
const job = {
  drawing: { samples, width, height, pitchX: um(10), pitchY: um(10), kind: "coverage", use: "burnt raster" },
  beam: { wavelength: um(10.6), m2: 1.2, waist: diameter1e2(um(88)) },
  focus: inFocus,
  surface: { kind: "plane", slope: { awayFromLensAlongX: 0.01, awayFromLensAlongY: 0 } },
  answer: { kind: "melt", bridge: um(30) },
  doseRatio: 2,
};

test("the module's memory grows by no more than is stated", () => {
  const [page, pixels] = [65_536, width * height];
  const stated = s.preflightMemory(job);
  // What is stated is more than inputs, exposure and masks, and within reason.
  assert.ok(stated > 3.5 * pixels && stated < 40 * pixels, `${stated / pixels} bytes for each pixel`);
  // To state it takes no more than the samples.
  assert.ok(memory.buffer.byteLength < pixels + 64 * page);
  const before = memory.buffer.byteLength;
  s.previewMark({ ...job, exposure: true });
  // A mask is handed over as one byte for each pixel once the rest is done with.
  const grown = memory.buffer.byteLength - before;
  assert.ok(grown <= stated + 64 * page, `${grown} ${stated}`);
  assert.ok(grown > 0.5 * stated, `${grown} ${stated}`);
  // Again, it takes no more.
  s.previewMark({ ...job, exposure: true });
  assert.equal(memory.buffer.byteLength - before, grown);
  for (const other of [s.exposureMemory(job), s.remedyMemory(job, "focus reach"), s.remedyMemory(job, "smallest scale"), s.remedyMemory(job, [job])]) {
    assert.ok(other > 3 * pixels && other < 60 * pixels);
  }
  assert.ok(s.exposureMemory(job, "exact") > s.exposureMemory(job));
  const bound = s.quickBoundMemory({ drawing: job.drawing, greatestSpot: diameter1e2(um(88)), leastDoseRatio: 2 });
  // It labels drawing and masks as a preflight does, and needs no exposure.
  assert.ok(bound > pixels && bound < stated);
  const quick = s.quickAnswerMemory(job);
  assert.ok(quick > pixels && quick < stated);
  assert.ok(s.pictureMemory(job.drawing, { zoom: 2 }) > 16 * pixels);
});
