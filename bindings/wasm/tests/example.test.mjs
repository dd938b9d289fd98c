// The example page works in a browser as it stands: no bundler, no framework.

import assert from "node:assert/strict";
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { withPage } from "./browser.mjs";

const folder = join(import.meta.dirname, "..");
const files = {
  "/example/": join(folder, "example/index.html"),
  "/dist/spotwise.mjs": join(folder, "dist/spotwise.mjs"),
  ...Object.fromEntries(readdirSync(join(folder, "example")).map((name) => [`/example/${name}`, join(folder, "example", name)])),
};
const open = (viewport, use) => withPage({ files, start: "/example/", viewport }, use);

test("the page gives a verdict, and a new one for each change", async () => {
  await open({ width: 1200, height: 900 }, async (page) => {
    const heading = () => page.textContent("#verdict h2");
    const cell = (row, column) => page.textContent(`tbody tr:nth-child(${row}) td:nth-child(${column + 1})`);
    assert.match(await heading(), /part of the surface is outside the depth of focus/);
    assert.equal((await cell(2, 2)).replace("\u00a0", " "), "88.1 µm");
    assert.equal(await page.locator("svg polygon").count(), 1);
    assert.match(await page.textContent("#caution"), /blind/);

    await page.fill("[name=surfaceFall]", "0.3 mm");
    assert.match(await heading(), /the whole surface is in focus/);
    await page.fill("[name=finestStroke]", "24 um");
    assert.match(await heading(), /does not hold everywhere/);
    await page.fill("[name=finestStroke]", "100 um");
    await page.fill("[name=focusDistance]", "0.3 mm");
    assert.match(await cell(1, 2), /above/); // the datum lies above a waist that is set below it
    await page.selectOption("[name=focusSide]", "toward");
    assert.match(await cell(1, 2), /below/);

    await page.selectOption("[name=criterion]", "largest diameter");
    await page.fill("[name=limit]", "80 um");
    assert.match(await page.textContent("#verdict ul"), /larger than the largest diameter/);
  });
});

test("the verdict is read aloud at a change, and nothing else is", async () => {
  await open({ width: 400, height: 900 }, async (page) => {
    const live = await page.locator("[aria-live]").evaluateAll((found) => found.map(({ id }) => id));
    assert.deepEqual(live, ["verdict"]);
  });
});

test("a fault stands at its field, and no old answer beside it", async () => {
  await open({ width: 400, height: 900 }, async (page) => {
    for (const [name, text, message] of [
      ["focalLength", "1.5", /the unit is missing/],
      ["m2", "0.9", /M squared = 0.9 is out of range/],
      ["m2", "", /not a finite number/],
      ["focusDistance", "-1 mm", /out of range/],
      ["surfaceRise", "40 mm", /lens to highest place/],
      ["atLens", "90 mm", /divergence half angle/],
    ]) {
      const before = await page.inputValue(`[name=${name}]`);
      await page.fill(`[name=${name}]`, text);
      assert.match(await page.textContent("#verdict"), message);
      assert.equal(await page.isVisible("table"), false);
      if (name !== "atLens") assert.match(await page.textContent(`label:has([name=${name}]) .fault`), message);
      await page.fill(`[name=${name}]`, before);
      assert.equal(await page.isVisible("table"), true);
      assert.equal(await page.locator(".fault").count(), 0);
    }
  });
});

test("nothing sticks out of a narrow screen", async () => {
  for (const width of [400, 320]) {
    await open({ width, height: 900 }, async (page) => {
      assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), width);
    });
  }
});
