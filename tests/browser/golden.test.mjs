// The engine gives the same bits in Chromium as in the builds that cargo tests: one file holds the hashes.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { open } from "./harness.mjs";

const expected = readFileSync(new URL("../reference/golden.txt", import.meta.url), "utf8")
  .split("\n")
  .filter(Boolean)
  .map((line) => line.split(/\s+/));

test("every golden hash comes out the same in the worker", async (t) => {
  const { page } = await open(t, { hash: "#golden", verdict: false });
  const place = page.locator("html[data-golden]");
  await place.waitFor();
  const shown = await place.getAttribute("data-golden");
  assert.ok(expected.length > 0);
  for (const [name, hash] of expected) assert.ok(shown.includes(hash), `${name} should be ${hash}, the page says ${shown}`);
});
