// The package as its users meet it: module kinds, declarations, bundler, browser, contents.

import assert from "node:assert/strict";
import { execFileSync, spawnSync } from "node:child_process";
import { copyFileSync, cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import * as spotwise from "spotwise";
import { build } from "vite";
import { withPage } from "./browser.mjs";
import { functions, replay } from "./replay.mjs";

const here = import.meta.dirname;
const folder = join(here, "..");
const manifest = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));

/** Gives `use` a folder that is gone afterwards. */
async function withFolder(use) {
  const path = mkdtempSync(join(tmpdir(), "spotwise-"));
  try {
    return await use(path);
  } finally {
    rmSync(path, { recursive: true });
  }
}

/** The functions of the model's one list, by their names and the lengths of their lists. */
function listed() {
  const text = readFileSync(join(folder, "../../tests/vectors/functions.toml"), "utf8");
  const strings = (line) => [...line.matchAll(/"([^"]*)"/g)].map(([, word]) => word);
  return text
    .split("[[function]]")
    .slice(1)
    .map((block) => ({
      name: strings(block.match(/^name = .*$/m)[0])[0],
      inputs: strings(block.match(/^inputs = .*$/m)[0]),
      outputs: strings(block.match(/^outputs = .*$/m)[0]),
    }));
}

test("every function of the list is exported and replayed, in order", () => {
  const list = listed();
  assert.ok(list.length >= 50);
  for (const { name } of list) {
    const camel = name.replace(/_(\w)/g, (_, letter) => letter.toUpperCase());
    assert.equal(typeof spotwise[camel], "function", camel);
  }
  assert.deepEqual(
    functions(spotwise).map(([name, outputs]) => [name, outputs]),
    list.map(({ name, outputs }) => [name, outputs.length]),
  );
});

test("the CommonJS module is the same", () => {
  const common = createRequire(import.meta.url)("spotwise");
  assert.deepEqual(Object.keys(common).sort(), Object.keys(spotwise).sort());
  const beam = (s) => ({ wavelength: s.um(10.6), m2: 1.2, waist: s.diameter1e2(s.um(88)) });
  assert.deepEqual(common.beamParameters(beam(common)), spotwise.beamParameters(beam(spotwise)));
  assert.throws(() => common.length("1"), common.SpotwiseError);
  // A program may come to hold both, through its packages: each knows the other's errors.
  assert.notEqual(common.SpotwiseError, spotwise.SpotwiseError);
  assert.throws(() => common.length("1"), spotwise.SpotwiseError);
  assert.throws(() => spotwise.length("1"), common.SpotwiseError);
  class Derived extends spotwise.SpotwiseError {}
  const derived = new Derived("told", {});
  for (const Kind of [Derived, spotwise.SpotwiseError, common.SpotwiseError]) assert.ok(derived instanceof Kind);
  for (const other of [new Error("told"), null, undefined, "told", { name: "SpotwiseError" }]) {
    assert.ok(!(other instanceof spotwise.SpotwiseError));
  }
  const error = (() => {
    try {
      common.length("1");
    } catch (caught) {
      return caught;
    }
  })();
  assert.ok(!(error instanceof Derived));
});

test("version and caution", () => {
  assert.equal(spotwise.version, manifest.version);
  for (const word of ["blind", "eyewear", "enclosed", "fumes", "unattended", "PVC", "manual", "test piece"]) {
    assert.ok(spotwise.caution.includes(word), word);
  }
});

test("usual mistakes do not compile, and consumers need neither DOM nor Node types", () => {
  const tsc = join(folder, "node_modules/typescript/bin/tsc");
  const check = (...more) => spawnSync(process.execPath, [tsc, ...more], { cwd: folder, encoding: "utf8" });
  const run = check("--project", "ts/tests/tsconfig.json");
  assert.equal(run.status, 0, run.stdout + run.stderr);

  // Without its expectations, each mistake is one error and nothing else is: the check can fail.
  const source = readFileSync(join(folder, "ts/tests/misuse.ts"), "utf8");
  const mistakes = source.match(/^\/\/ @ts-expect-error /gm).length;
  const bare = join(folder, "dist/bare-misuse.ts");
  writeFileSync(bare, source.replace(/^\/\/ @ts-expect-error .*$/gm, ""));
  try {
    const options = ["--noEmit", "--strict", "--exactOptionalPropertyTypes"];
    const target = ["--module", "nodenext", "--target", "es2022", "--lib", "es2022", "--types", ""];
    const errors = check(...options, ...target, "--ignoreConfig", bare).stdout.match(/error TS\d+/g) ?? [];
    assert.equal(errors.length, mistakes, errors.join(", "));
  } finally {
    rmSync(bare);
  }
});

test("the README's examples compile, run and print what they say", async () => {
  const readme = readFileSync(join(folder, "README.md"), "utf8");
  const blocks = [...readme.matchAll(/```ts\n(import [^]*?)```/g)].map(([, code]) => code);
  assert.equal(blocks.length, 4);
  const tsc = join(folder, "node_modules/typescript/bin/tsc");
  const options = ["--noEmit", "--strict", "--module", "nodenext", "--target", "es2022", "--lib", "es2022", "--types", ""];
  for (const code of blocks) {
    // In the package's own folder, where its name leads to itself; with a console, which neither Node's
    // types nor the DOM's declare here.
    const files = [join(folder, "dist/readme.ts"), join(folder, "dist/readme.mjs")];
    writeFileSync(files[0], `${code}\ndeclare const console: { log(...words: unknown[]): void };`);
    writeFileSync(files[1], code);
    try {
      const run = (...inputs) => spawnSync(process.execPath, inputs, { cwd: folder, encoding: "utf8" });
      const compiled = run(tsc, ...options, "--ignoreConfig", files[0]);
      assert.equal(compiled.status, 0, compiled.stdout);
      const printed = run(files[1]).stdout.trimEnd().split("\n");
      const promised = [...code.matchAll(/^console\.log.*; \/\/ (.*)$/gm)].map(([, words]) => words);
      assert.equal(printed.length, promised.length, printed.join("\n"));
      // After a colon stands what it means.
      promised.forEach((words, i) => assert.equal(printed[i], words.split(": ")[0]));
    } finally {
      files.forEach((file) => rmSync(file));
    }
  }
});

test("the packed archive holds what it should and nothing else", () => {
  const [{ files }] = JSON.parse(
    execFileSync("npm", ["pack", "--dry-run", "--json", "--ignore-scripts"], {
      cwd: folder,
      encoding: "utf8",
      stdio: ["ignore", "pipe", "ignore"],
    }),
  );
  const names = files.map(({ path }) => path).filter((path) => !path.startsWith("dist/types/"));
  assert.deepEqual(names.sort(), [
    "README.md",
    "dist/LICENSE-APACHE",
    "dist/LICENSE-MIT",
    "dist/spotwise.cjs",
    "dist/spotwise.mjs",
    "package.json",
  ]);
  assert.ok(!files.some(({ path }) => path.includes("core.d")));
});

test("npm does not pack before the package is built", async () => {
  await withFolder(async (path) => {
    for (const name of ["package.json", "prepack.mjs", "README.md"]) copyFileSync(join(folder, name), join(path, name));
    const pack = () => spawnSync("npm", ["pack", "--dry-run"], { cwd: path, encoding: "utf8" });
    const early = pack();
    assert.notEqual(early.status, 0);
    assert.match(early.stderr, /missing: dist\/spotwise\.mjs.*run `cargo xtask wasm` first/);
    cpSync(join(folder, "dist"), join(path, "dist"), { recursive: true });
    assert.equal(pack().status, 0);
  });
});

test("the lock file names no registry", () => {
  const lock = JSON.parse(readFileSync(join(folder, "package-lock.json"), "utf8"));
  for (const [name, entry] of Object.entries(lock.packages)) assert.equal(entry.resolved, undefined, name);
});

test("Vite bundles a consumer, which runs without await", async () => {
  await withFolder(async (path) => {
    const entry = join(path, "main.js");
    writeFileSync(entry, `import { inUm, um } from "spotwise"; globalThis.answer = inUm(um(10.6));`);
    await build({
      root: path,
      configFile: false,
      logLevel: "error",
      resolve: { alias: { spotwise: join(folder, manifest.exports["."].import.default) } },
      build: { lib: { entry, formats: ["es"], fileName: () => "main.mjs" }, outDir: "out" },
    });
    const page = '<!doctype html><script type="module" src="./main.mjs"></script>';
    const files = { "/": Buffer.from(page), "/main.mjs": join(path, "out/main.mjs") };
    const answer = await withPage({ files }, (tab) => tab.evaluate(() => globalThis.answer));
    assert.equal(answer, 10.6);
  });
});

test("Node and the browser answer a replay with the same bytes", async () => {
  await withFolder(async (path) => {
    // Every function once with numbers that suit none in particular, and once with NaN.
    const rows = listed().flatMap(({ inputs }, index) =>
      [0.5, NaN].map((x) => ({ index, numbers: inputs.map((_, i) => (i === 0 ? 1e-6 : x)) })),
    );
    const index = listed().findIndex(({ name }) => name === "defocus");
    const beam = { index, numbers: [10.6e-6, 1.2, 88e-6, 0.5e-3] };
    const blob = join(path, "blob");
    writeFileSync(blob, rowsAsBytes([...rows, beam]));
    const answer = (script) => {
      execFileSync(process.execPath, [join(here, script), blob, join(path, "out")], { stdio: "inherit" });
      return readFileSync(join(path, "out"));
    };
    const inNode = answer("replay-node.mjs");
    assert.deepEqual(answer("replay-browser.mjs"), inNode);

    const last = new DataView(inNode.buffer, inNode.byteOffset + inNode.length - 72, 72);
    assert.deepEqual([last.getUint32(0, true), last.getUint32(8, true)], [0, 7]);
    assert.equal(last.getFloat64(24, true).toFixed(4), "1.4469");
    assert.throws(() => replay(new Uint8Array(20), spotwise), /not a replay/);
  });
});

function rowsAsBytes(rows) {
  const bytes = Buffer.alloc(12 + rows.reduce((sum, { numbers }) => sum + 8 + 8 * numbers.length, 0));
  bytes.write("SPOTREP1", "latin1");
  bytes.writeUInt32LE(rows.length, 8);
  let at = 12;
  for (const { index, numbers } of rows) {
    bytes.writeUInt32LE(index, at);
    bytes.writeUInt32LE(numbers.length, at + 4);
    at += 8;
    for (const number of numbers) at = bytes.writeDoubleLE(number, at);
  }
  return bytes;
}
