// The server of www/serve and the seal of the service worker, tried on a folder made for the purpose.
import assert from "node:assert/strict";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { seal } from "../../www/seal.mjs";
import { serve } from "../../www/server.mjs";

function folder(t) {
  const made = mkdtempSync(join(tmpdir(), "hearthload-"));
  t.after(() => rmSync(made, { recursive: true }));
  writeFileSync(join(made, "secret.txt"), "outside");
  const root = join(made, "www");
  mkdirSync(join(root, "sub"), { recursive: true });
  writeFileSync(join(root, "index.html"), "<p>here");
  writeFileSync(join(root, "sub", "a.wasm"), "wasm");
  return root;
}

/** Asks for a path exactly as written: fetch would tidy the dots away. */
function raw(address, path, method = "GET") {
  const { hostname, port } = new URL(address);
  return new Promise((done, fail) => {
    const asked = request({ hostname, port, path, method }, (answer) => {
      let body = "";
      answer.on("data", (part) => (body += part)).on("end", () => done({ status: answer.statusCode, headers: answer.headers, body }));
    });
    asked.on("error", fail).end();
  });
}

async function served(t, options = {}) {
  const server = await serve({ root: folder(t), ...options });
  t.after(server.stop);
  return server.address;
}

test("files come with their type, the policy and no stale caching", async (t) => {
  const address = await served(t);
  const page = await raw(address, "/");
  assert.equal(page.status, 200);
  assert.equal(page.body, "<p>here");
  assert.equal(page.headers["content-type"], "text/html; charset=utf-8");
  const wasm = await raw(address, "/sub/a.wasm?v=1");
  assert.equal(wasm.headers["content-type"], "application/wasm");
  for (const answer of [page, wasm, await raw(address, "/none")]) {
    assert.match(answer.headers["content-security-policy"], /^default-src 'none'; script-src 'self' 'wasm-unsafe-eval';/);
    assert.match(answer.headers["content-security-policy"], /frame-ancestors 'none'$/);
    assert.doesNotMatch(answer.headers["content-security-policy"], /unsafe-inline|'unsafe-eval'|\*/);
    assert.equal(answer.headers["cache-control"], "no-cache");
  }
});

test("nothing outside the folder is served", async (t) => {
  const address = await served(t);
  const tries = ["/../secret.txt", "/%2e%2e/secret.txt", "/sub/../../secret.txt", "/..%2fsecret.txt", "/%00", "/%E0%A4%A"];
  for (const path of tries) assert.equal((await raw(address, path)).status, 404, path);
  assert.equal((await raw(address, "/", "POST")).status, 405);
  assert.equal((await raw(address, "/", "HEAD")).body, "");
});

test("a sub-folder serves below its path only", async (t) => {
  const address = await served(t, { base: "/a/b/" });
  assert.equal((await raw(address, "/a/b/")).body, "<p>here");
  assert.equal((await raw(address, "/")).status, 404);
});

test("the seal lists every file and its version changes with any of them", (t) => {
  const root = folder(t);
  const first = seal(root);
  const worker = readFileSync(join(root, "sw.js"), "utf8");
  assert.match(worker, new RegExp(`const VERSION = "${first}";`));
  assert.match(worker, /const FILES = \["\.\/","index\.html","sub\/a\.wasm"\];/);
  assert.equal(seal(root), first, "sealing twice changes nothing");
  writeFileSync(join(root, "sub", "a.wasm"), "other");
  assert.notEqual(seal(root), first);
});
