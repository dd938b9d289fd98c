// Answers a file of rows in Chromium: node replay-browser.mjs IN OUT
//
// The page is a plain module script: no bundler, and no `await` for the package.

import { readFileSync, writeFileSync } from "node:fs";
import { withPage } from "./browser.mjs";

const [input, output] = process.argv.slice(2);
if (output === undefined) throw new Error("usage: node replay-browser.mjs IN OUT");

const page = `<!doctype html>
<title>replay</title>
<script type="module">
  import * as spotwise from "./spotwise.mjs";
  import { replay } from "./replay.mjs";
  const input = new Uint8Array(await (await fetch("./blob")).arrayBuffer());
  const bytes = replay(input, spotwise);
  // Text is what comes back from a page; in slices, for a call takes only so many arguments.
  let text = "";
  for (let i = 0; i < bytes.length; i += 8192) text += String.fromCharCode(...bytes.subarray(i, i + 8192));
  globalThis.answer = btoa(text);
</script>`;

const here = import.meta.dirname;
const answer = await withPage(
  {
    files: {
      "/": Buffer.from(page),
      "/spotwise.mjs": `${here}/../dist/spotwise.mjs`,
      "/replay.mjs": `${here}/replay.mjs`,
      "/blob": readFileSync(input),
    },
  },
  async (tab) => {
    const handle = await tab.waitForFunction(() => globalThis.answer, undefined, { timeout: 600_000 });
    return handle.jsonValue();
  },
);
writeFileSync(output, Buffer.from(answer, "base64"));
