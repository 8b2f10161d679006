// The versions that several tools want to be told are the same everywhere they stand.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const read = (name) => readFileSync(join(root, name), "utf8");
const pins = Object.fromEntries(
  read(".ci/tools")
    .split("\n")
    .filter((line) => /^[A-Z_]+=/.test(line))
    .map((line) => line.split("=")),
);

test("wasm-bindgen is one version in .ci/tools, Trunk.toml and Cargo.lock", () => {
  const locked = /name = "wasm-bindgen"\nversion = "([^"]+)"/.exec(read("Cargo.lock"))?.[1];
  const trunk = /wasm_bindgen = "([^"]+)"/.exec(read("Trunk.toml"))?.[1];
  assert.equal(locked, pins.WASM_BINDGEN);
  assert.equal(trunk, pins.WASM_BINDGEN);
});

test("wasm-opt is one version in .ci/tools and Trunk.toml", () => {
  const trunk = /wasm_opt = "version_([^"]+)"/.exec(read("Trunk.toml"))?.[1];
  assert.equal(`${trunk}.0.0`, pins.BINARYEN);
});

test("npm's lock holds exactly the versions of .ci/tools", () => {
  const packages = JSON.parse(read("tests/browser/package-lock.json")).packages;
  const version = (name) => packages[`node_modules/${name}`]?.version;
  assert.equal(version("binaryen"), pins.BINARYEN);
  assert.equal(version("playwright-core"), pins.PLAYWRIGHT_CORE);
  assert.equal(version("axe-core"), pins.AXE_CORE);
});

test("every package of npm's lock is held by a hash", () => {
  const packages = JSON.parse(read("tests/browser/package-lock.json")).packages;
  const loose = Object.entries(packages).filter(([name, entry]) => name !== "" && !entry.integrity);
  assert.deepEqual(loose.map(([name]) => name), []);
});
