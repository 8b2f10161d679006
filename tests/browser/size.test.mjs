// What a visitor has to fetch stays small.
import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { gzipSync } from "node:zlib";
import { DIST } from "./harness.mjs";

/** For the program that page and worker both load (so it is fetched once), gzipped, in bytes. */
const BUDGET = 700_000;

test("the wasm of page and worker together is under 700 kB gzipped", (t) => {
  const sizes = readdirSync(DIST)
    .filter((name) => name.endsWith(".wasm"))
    .map((name) => [name, gzipSync(readFileSync(join(DIST, name)), { level: 9 }).length]);
  for (const [name, bytes] of sizes) t.diagnostic(`${name}: ${bytes} bytes gzipped, budget ${BUDGET}`);
  // Long questions and the outside checks are another program, fetched when one of them is first asked, or by the offline copy
  // after the first verdict.
  const names = sizes.map(([name]) => name.replace(/-[0-9a-f]+_bg/, "_bg")).sort();
  assert.deepEqual(names, ["app_bg.wasm", "checks_bg.wasm"]);
  for (const [name, bytes] of sizes) assert.ok(bytes < BUDGET, `${name}: ${bytes} bytes`);
});
