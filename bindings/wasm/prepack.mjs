// Runs before npm packs: an archive without what `cargo xtask wasm` builds would install and then
// fail at its first import.

import { existsSync, readFileSync } from "node:fs";

process.chdir(import.meta.dirname);
const { exports, files } = JSON.parse(readFileSync("package.json", "utf8"));
const { import: asModule, require: asCommon } = exports["."];
const needed = [...files, ...Object.values(asModule), ...Object.values(asCommon)];
const missing = needed.filter((path) => !existsSync(path));
if (missing.length > 0) throw new Error(`missing: ${missing.join(", ")}; run \`cargo xtask wasm\` first`);
