// Opens a page of a small local server in the system's Chromium, and refuses any complaint in its
// console.

import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { createServer } from "node:http";
import { extname } from "node:path";
import { chromium } from "playwright-core";

const types = {
  ".html": "text/html; charset=utf-8",
  ".mjs": "text/javascript; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
};

/** Chromium's path: from the variable CHROMIUM, or as found on the path. */
function chromiumPath() {
  if (process.env.CHROMIUM) return process.env.CHROMIUM;
  for (const name of ["chromium", "chromium-browser", "google-chrome"]) {
    try {
      return execFileSync("which", [name], { encoding: "utf8" }).trim();
    } catch {
      // Try the next name.
    }
  }
  throw new Error("no Chromium found: install one, or name it in the variable CHROMIUM");
}

/**
 * Serves `files` (a map from path to what is sent: a path on disk, or bytes), opens `start` and
 * gives the page to `use`.
 */
export async function withPage({ files, start = "/", viewport }, use) {
  const server = createServer((request, response) => {
    const path = new URL(request.url, "http://localhost").pathname;
    const file = files[path];
    if (file === undefined) {
      response.writeHead(path === "/favicon.ico" ? 204 : 404).end();
      return;
    }
    const name = typeof file === "string" ? file : path;
    const type = path === "/" ? ".html" : extname(name);
    response.setHeader("content-type", types[type] ?? "application/octet-stream");
    response.end(typeof file === "string" ? readFileSync(file) : file);
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  const complaints = [];
  const browser = await chromium.launch({
    executablePath: chromiumPath(),
    // Chromium's sandbox refuses to run as root, as which containers run.
    chromiumSandbox: process.getuid?.() !== 0,
  });
  try {
    const page = await browser.newPage(viewport ? { viewport } : {});
    page.on("console", (message) => {
      if (["error", "warning"].includes(message.type())) complaints.push(message.text());
    });
    page.on("pageerror", (error) => complaints.push(String(error)));
    await page.goto(`http://127.0.0.1:${server.address().port}${start}`);
    const result = await use(page);
    if (complaints.length > 0) throw new Error(`the console complains: ${complaints.join("; ")}`);
    return result;
  } finally {
    await browser.close();
    server.close();
  }
}
