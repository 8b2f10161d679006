// The top level of the repository is what it is meant to be, and every script and module says first what it is for.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const tracked = execFileSync("git", ["ls-files", "-z", "--cached", "--others", "--exclude-standard"], { cwd: root })
  .toString()
  .split("\0")
  .filter(Boolean);

test("the top level holds nothing but its parts and what tools demand", () => {
  const allowed = new Set([
    ...["Cargo.toml", "README.md", "DEVELOPERS.md", "src", "www", "tests", "Trunk.toml", "demo-data"],
    ...[".ci", ".cargo", ".gitignore", "Cargo.lock", "clippy.toml", "rustfmt.toml", "deny.toml"],
    ...["LICENSE-MIT", "LICENSE-APACHE"],
  ]);
  const extra = new Set(tracked.map((name) => name.split("/")[0]).filter((name) => !allowed.has(name)));
  assert.deepEqual([...extra], []);
});

test("every script and stylesheet opens with a comment that says what it is", () => {
  const mute = tracked.filter((name) => {
    if (!/\.(mjs|js|css)$|^\.ci\/|^www\/serve$|^tests\/all$/.test(name)) return false;
    const lines = readFileSync(join(root, name), "utf8").split("\n");
    return !/^(\/\/|\/\*|#) ?\S/.test(lines[0].startsWith("#!") ? lines[1] : lines[0]);
  });
  assert.deepEqual(mute, []);
});

test("shell scripts parse", () => {
  for (const name of [".ci/run", ".ci/setup", ".ci/tools", "www/serve", "tests/all", "tests/fuzz/run", "tests/bench/all", "tests/bench/counts", "tests/bench/peers"]) {
    execFileSync("bash", ["-n", name], { cwd: root });
  }
});

test(".ci/run calls tests/all and nothing else", () => {
  const acts = readFileSync(join(root, ".ci/run"), "utf8")
    .split("\n")
    .filter((line) => line.trim() && !line.startsWith("#"));
  assert.deepEqual(acts, ['exec "$(dirname "${BASH_SOURCE[0]}")/../tests/all"']);
});
