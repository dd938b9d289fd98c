// Checks the TypeScript, writes the declarations and bundles the package. Needs dist/glue, which
// `cargo xtask wasm` writes before it runs this.

import { build } from "esbuild";
import { execFileSync } from "node:child_process";
import { copyFileSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { gzipSync } from "node:zlib";

process.chdir(import.meta.dirname);
rmSync("dist/types", { recursive: true, force: true });
execFileSync(process.execPath, ["node_modules/typescript/bin/tsc", "--project", "tsconfig.json"], {
  stdio: "inherit",
});

// Internal declarations lean on the glue, which is not in the package; no public one names them.
rmSync("dist/types/core.d.ts");
for (const name of readdirSync("dist/types")) {
  const text = readFileSync(`dist/types/${name}`, "utf8");
  if (text.includes("core.js")) throw new Error(`${name} names an internal module`);
  // The same declarations for `require`, whose modules TypeScript tells apart by their ending.
  const common = text.replaceAll(/(from "\.\/\w+)\.js"/g, '$1.cjs"');
  writeFileSync(`dist/types/${name.replace(/\.ts$/, ".cts")}`, common);
}

for (const [outfile, format] of [
  ["dist/spotwise.mjs", "esm"],
  ["dist/spotwise.cjs", "cjs"],
]) {
  await build({
    entryPoints: ["ts/index.ts"],
    outfile,
    format,
    bundle: true,
    // Neither Node nor browser: nothing of either is needed.
    platform: "neutral",
    target: "es2022",
    loader: { ".wasm": "binary" },
    banner: { js: "// spotwise, MIT OR Apache-2.0. Lasers blind and burn: read the export `caution`." },
    logLevel: "warning",
  });
  const packed = gzipSync(readFileSync(outfile)).length;
  console.log(`${outfile}: ${statSync(outfile).size} bytes, ${packed} packed`);
}
console.log(`WebAssembly in it: ${statSync("dist/glue/spotwise_wasm_bg.wasm").size} bytes`);

for (const licence of ["LICENSE-MIT", "LICENSE-APACHE"]) copyFileSync(`../../${licence}`, `dist/${licence}`);
