// The page can be read by everybody: axe finds nothing, and nothing has to be scrolled sideways.
import assert from "node:assert/strict";
import { test } from "node:test";
import { open } from "./harness.mjs";
import { found, sideways } from "./looks.mjs";

for (const scheme of ["light", "dark"]) {
  test(`axe finds nothing on the first view, ${scheme}`, async (t) => {
    const { page } = await open(t, { scheme });
    assert.deepEqual(await found(page), []);
  });
}

for (const width of [320, 390, 640, 1280]) {
  test(`no sideways scroll at ${width} px`, async (t) => {
    const { page } = await open(t, { width });
    assert.deepEqual(await sideways(page), []);
  });
}
