// Learning from test pieces: the right number in the right field.

import assert from "node:assert/strict";
import { test } from "node:test";
import * as s from "spotwise";

test("Student's t and chi squared, as printed in tables", () => {
  assert.equal(s.studentFactor(0.95, 8).toFixed(3), "2.306");
  assert.equal(s.studentFactor(0.99, 1).toFixed(3), "63.657");
  assert.equal(s.chiSquaredChance(15.507, 8).toFixed(4), "0.0500");
  assert.equal(s.chiSquaredChance(0, 3), 1);
  for (const degrees of [2.5, 0, 100_001]) {
    assert.throws(() => s.studentFactor(0.95, degrees), { code: 2, parameter: 226, value: degrees });
    assert.throws(() => s.chiSquaredChance(3, degrees), { code: 2, parameter: 226, value: degrees });
  }
});
