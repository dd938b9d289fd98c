// Answers a file of rows in Node: node replay-node.mjs IN OUT

import { readFileSync, writeFileSync } from "node:fs";
import * as spotwise from "spotwise";
import { replay } from "./replay.mjs";

const [input, output] = process.argv.slice(2);
if (output === undefined) throw new Error("usage: node replay-node.mjs IN OUT");
writeFileSync(output, replay(readFileSync(input), spotwise));
