// The page opens on a verdict, wherever it is hosted, without an error and without asking anybody else for anything.
import assert from "node:assert/strict";
import { test } from "node:test";
import { clean, expect, open, VERDICT } from "./harness.mjs";

test("opens on a computed verdict with a sentence in it", async (t) => {
  const opened = await open(t);
  const words = await opened.page.locator(VERDICT).first().innerText();
  assert.ok(words.trim().length > 10, `the verdict says something: ${JSON.stringify(words)}`);
  assert.equal(await opened.page.locator("#boot").count(), 0, "the start-up line is gone");
  clean(opened);
});

test("works below a path of its own", async (t) => {
  const opened = await open(t, { base: "/kitchen/tools/" });
  assert.match(opened.page.url(), /\/kitchen\/tools\//);
  clean(opened);
});

test("the manifest names icons that exist", async (t) => {
  const { page, address } = await open(t, { verdict: false });
  const manifest = await (await page.request.get(`${address}app.webmanifest`)).json();
  assert.ok(manifest.icons.length >= 2);
  for (const { src, type } of manifest.icons) {
    const icon = await page.request.get(new URL(src, address).href);
    assert.equal(icon.status(), 200, src);
    assert.equal(icon.headers()["content-type"].split(";")[0], type);
  }
});

test("says in words when the program cannot start", async (t) => {
  expect(t, /_bg\.wasm/, /Failed to fetch/);
  const { page } = await open(t, { verdict: false });
  await page.context().route(/_bg\.wasm$/, (route) => route.abort());
  await page.evaluate(async () => {
    for (const known of await navigator.serviceWorker.getRegistrations()) await known.unregister();
  });
  await page.reload();
  await page.locator("#boot[role=alert]").waitFor();
  assert.match(await page.locator("#boot").innerText(), /could not start/);
});
