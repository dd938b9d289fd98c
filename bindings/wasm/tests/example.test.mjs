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
    const cell = (row, column) => page.textContent(`#places tbody tr:nth-child(${row}) td:nth-child(${column + 1})`);
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

test("a real lens stands beside what the ideal one would have promised", async () => {
  await open({ width: 1200, height: 900 }, async (page) => {
    const cell = async (row, column) =>
      (await page.textContent(`#promise tbody tr:nth-child(${row}) td:nth-child(${column + 1})`)).replaceAll("\u00a0", " ");
    await page.fill("[name=atLens]", "9 mm");
    await page.fill("[name=surfaceRise]", "0 mm");
    await page.fill("[name=surfaceFall]", "0 mm");
    await page.fill("[name=finestGap]", "32 um");
    assert.equal(await page.isVisible("#promise"), false);
    assert.equal(await page.isVisible("#light"), false);
    assert.match(await page.textContent("#verdict h2"), /the whole surface is in focus/);

    await page.selectOption("[name=lens]", "real");
    assert.equal(await page.locator("[name=glass] option").count(), 8);
    // By hand: an ideal lens promises 68.6 µm, which holds the gap; this one gives 74.5 µm, which fills it.
    assert.deepEqual([await cell(1, 1), await cell(1, 2)], ["✓ holds", "✕ lost"]);
    assert.deepEqual([await cell(2, 1), await cell(2, 2)], ["68.6 µm", "74.5 µm"]);
    assert.match(await page.textContent("#verdict h2"), /does not hold/);
    assert.match(await page.textContent("#verdict ul"), /The lens aberrates/);
    assert.equal(await page.isVisible("canvas"), true);
    assert.match(await page.getAttribute("canvas", "aria-label"), /74\.5 micrometres/);
    // The light is dark somewhere and white elsewhere, and another lens gives another picture.
    const picture = () =>
      page.evaluate(() => {
        // From a copy: reading the page's own canvas again and again would draw a warning.
        const canvas = document.querySelector("canvas");
        const copy = new OffscreenCanvas(canvas.width, canvas.height).getContext("2d", { willReadFrequently: true });
        copy.drawImage(canvas, 0, 0);
        const { data } = copy.getImageData(0, 0, canvas.width, canvas.height);
        const light = [...data].filter((_, i) => i % 4 === 0);
        const by = (choose) => light.reduce((a, b) => choose(a, b));
        return { sum: by((a, b) => a + b), least: by((a, b) => Math.min(a, b)), greatest: by((a, b) => Math.max(a, b)) };
      });
    const curved = await picture();
    assert.ok(curved.least < 30 && curved.greatest > 250, JSON.stringify(curved));
    await page.selectOption("[name=shape]", "best form");
    assert.notEqual((await picture()).sum, curved.sum);

    // A clear aperture left empty clips nothing; one too small is a fault at its field.
    await page.fill("[name=clearAperture]", "");
    assert.equal(await cell(9, 2), "100 %");
    await page.fill("[name=clearAperture]", "1 mm");
    assert.match(await page.textContent("label:has([name=clearAperture]) .fault"), /clipping ratio/);
    assert.equal(await page.isVisible("#promise"), false);
    await page.fill("[name=clearAperture]", "18 mm");
    // No wave for so poor a beam, but a verdict.
    await page.fill("[name=m2]", "6");
    assert.match(await page.textContent(".no-picture"), /No picture: M squared = 6 is out of range/);
    assert.equal(await page.isVisible("canvas"), false);
    await page.fill("[name=m2]", "1.2");
    await page.fill("[name=wavelength]", "0.45 um");
    assert.match(await page.textContent("label:has([name=wavelength]) .fault"), /wavelength/);
  });
});

test("the verdict tells of fill and text", async () => {
  await open({ width: 1200, height: 900 }, async (page) => {
    const text = async (selector) => (await page.textContent(selector)).replaceAll("\u00a0", " ");
    const row = async (name) => (await text(`#places tbody tr:has(th:text-is("${name}"))`)).slice(name.length);
    // By hand: 20 W/(500 mm/s · 50 µm) = 0.8 J/mm², over 0.3; 25.4 mm/50 µm = 508.
    assert.match(await text("#verdict .fill"), /lines 50\.0 µm \(508 dpi\) apart, 0\.800 J\/mm², 2\.67 times/);
    // 88.15 µm and 50 µm: 4.3 % in focus, by the sum over all lines; less where the spot is larger.
    assert.match(await text("#verdict .fill"), /ripple 0\.\d+ % to 4\.32 % over the surface/);
    assert.match(await row("Ripple of the fill"), /4\.32 %/);
    assert.match(await text("#verdict .text"), /Text of 4\.00 pt is (crisp|good) at the worst place/);
    assert.match(await row("Smallest good text"), /pt/);
    assert.match(await text("dl"), /Text holdsover/);

    await page.fill("[name=em]", "0.2 pt");
    assert.match(await text("#verdict ul"), /text is too small/);
    assert.match(await row("The text comes out"), /✕ lost/);
    assert.match(await text("svg"), /holdsnone/);
    await page.selectOption("[name=typeface]", "");
    assert.equal(await text("#verdict .text"), "");
    assert.equal(await page.isVisible("[name=em]"), false);
    assert.equal(await page.locator('#places th:text-is("The text comes out")').count(), 0);

    await page.fill("[name=lineInterval]", "250 dpi");
    assert.match(await text("#verdict .fill"), /lines 102 µm \(250 dpi\) apart/);
    assert.match(await text("#verdict ul"), /leave gaps/);
    // What no dose can be is a fault at the field that it comes of.
    await page.fill("[name=threshold]", "1e12 J/mm2");
    assert.match(await text("label:has([name=threshold]) .fault"), /dose ratio/);
    assert.equal(await text("#verdict .fill"), "");
    await page.selectOption("[name=doseBy]", "ratio");
    assert.equal(await text("#verdict .fill"), "Fill: 2.70 times the dose that just marks.");
    assert.equal(await page.locator('#places th:text-is("Ripple of the fill")').count(), 0);
    await page.fill("[name=doseRatio]", "0");
    assert.match(await text("label:has([name=doseRatio]) .fault"), /dose ratio/);
  });
});

test("a dose too little for the material is told, and nothing that it would hold", async () => {
  await open({ width: 1200, height: 900 }, async (page) => {
    const text = async (selector) => (await page.textContent(selector)).replaceAll("\u00a0", " ");
    const count = (name) => page.locator(`#places th:text-is("${name}")`).count();
    await page.fill("[name=threshold]", "1 J/mm2");
    assert.match(await text("#verdict h2"), /✕/);
    assert.match(await text("#verdict ul"), /The dose is too little for the material/);
    assert.match(await text("#verdict .fill"), /0\.800 times the dose that just marks\.$/);
    assert.equal(await text("#verdict .text"), "Text of 4.00 pt is lost everywhere.");
    const row = (name) => text(`#places tbody tr:has(th:text-is("${name}"))`);
    assert.equal(await row("Finest detail held"), "Finest detail held✕ none✕ none✕ none");
    assert.match(await row("The text comes out"), /✕ lost/);
    for (const name of ["Finest stroke held", "Smallest good text", "Ripple of the fill"]) {
      assert.equal(await count(name), 0, name);
    }
    assert.match(await text("svg"), /holdsnone/);
    await page.selectOption("[name=response]", "linear ablation");
    assert.doesNotMatch(await text("dl"), /Depth of the fill/);
    // The same of a real lens, and by a ratio.
    await page.selectOption("[name=lens]", "real");
    assert.match(await text("#promise tbody tr:nth-child(1)"), /✕ nothing marks✕ nothing marks/);
    await page.selectOption("[name=doseBy]", "ratio");
    await page.fill("[name=doseRatio]", "1");
    assert.equal(await text("#verdict .fill"), "Fill: 1.00 times the dose that just marks.");
    await page.fill("[name=doseRatio]", "1.1");
    assert.equal(await count("Finest stroke held"), 1);
  });
});

test("the material answers as it is told", async () => {
  await open({ width: 1200, height: 900 }, async (page) => {
    const text = async (selector) => (await page.textContent(selector)).replaceAll("\u00a0", " ");
    const seen = '#places tbody tr:has(th:text-is("… as the melt sees it"))';
    assert.equal(await page.isVisible("[name=property]"), false);
    await page.selectOption("[name=response]", "melt");
    assert.match(await text("label:has([name=property])"), /thermal diffusivity/);
    // By hand: √(88.143² + 4.011·88.143), as 32·κ·√(π/8)/v = 32·0.1·0.62666/500 mm = 4.011 µm.
    assert.equal(await text(`${seen} td:nth-child(3)`), "90.1 µm");
    // At a twenty-fifth of the speed 100.3 µm.
    await page.fill("[name=speed]", "20 mm/s");
    assert.equal(await text(`${seen} td:nth-child(3)`), "129 µm");
    await page.fill("[name=property]", "0 mm2/s");
    assert.equal(await page.locator(seen).count(), 0);
    await page.fill("[name=property]", "0.1");
    assert.match(await text("label:has([name=property]) .fault"), /the unit is missing/);
    await page.fill("[name=property]", "1 m2/s");
    assert.match(await text("label:has([name=property]) .fault"), /diffusivity/);

    // Another kind asks for another number: here for 50 µm and 3 J/mm³.
    await page.fill("[name=speed]", "500 mm/s");
    await page.selectOption("[name=response]", "logarithmic ablation");
    assert.match(await text("#verdict .fill"), /; 49\.0 µm deep\.$/); // 50·ln(0.8/0.3)
    await page.selectOption("[name=response]", "linear ablation");
    assert.match(await text("#verdict .fill"), /; 167 µm deep\.$/); // (0.8 − 0.3)/3 mm
    assert.match(await text("dl"), /Depth of the fill167 µm/);
    await page.fill("[name=property]", "0 J/mm3");
    assert.match(await text("label:has([name=property]) .fault"), /removal energy/);
    await page.selectOption("[name=response]", "coating");
    assert.equal(await page.isVisible("[name=property]"), false);
    assert.doesNotMatch(await text("#verdict .fill"), /deep/);
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
      ["power", "20", /the unit is missing/],
      ["speed", "500 W", /unit/],
      ["lineInterval", "dpi", /not a finite number/],
      ["lineInterval", "2 mm", /interval over spot radius/],
      ["threshold", "0.3 J", /unit/],
      ["em", "4", /the unit is missing/],
      ["m2", "0.9", /M squared = 0.9 is out of range/],
      ["m2", "", /not a finite number/],
      ["focusDistance", "-1 mm", /out of range/],
      ["surfaceRise", "40 mm", /lens to highest place/],
      ["atLens", "90 mm", /divergence half angle/],
    ]) {
      const before = await page.inputValue(`[name=${name}]`);
      await page.fill(`[name=${name}]`, text);
      assert.match(await page.textContent("#verdict"), message);
      assert.equal(await page.isVisible("#places"), false);
      if (name !== "atLens") assert.match(await page.textContent(`label:has([name=${name}]) .fault`), message);
      await page.fill(`[name=${name}]`, before);
      assert.equal(await page.isVisible("#places"), true);
      assert.equal(await page.locator(".fault").count(), 0);
    }
  });
});

test("nothing sticks out of a narrow screen", async () => {
  for (const width of [400, 320]) {
    await open({ width, height: 900 }, async (page) => {
      assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), width);
      await page.selectOption("[name=lens]", "real");
      assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), width);
      await page.selectOption("[name=response]", "logarithmic ablation");
      assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), width);
      await page.fill("[name=threshold]", "1 J/mm2");
      assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), width);
    });
  }
});
