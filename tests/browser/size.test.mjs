// What a visitor has to fetch stays small.
import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { gzipSync } from "node:zlib";
import { DIST } from "./harness.mjs";

/** For all wasm, gzipped, in bytes. Page and worker load one program, so it is fetched once. */
const BUDGET = 700_000;

test("the wasm of page and worker together is under 700 kB gzipped", (t) => {
  const sizes = readdirSync(DIST)
    .filter((name) => name.endsWith(".wasm"))
    .map((name) => [name, gzipSync(readFileSync(join(DIST, name)), { level: 9 }).length]);
  assert.equal(sizes.length, 1, "page and worker load the same program");
  const sum = sizes.reduce((sum, [, bytes]) => sum + bytes, 0);
  t.diagnostic(`${sizes.map(([name, bytes]) => `${name} ${bytes}`).join(", ")}: ${sum} of ${BUDGET}`);
  assert.ok(sum < BUDGET, `${sum} bytes`);
});
