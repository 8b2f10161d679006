// After one visit the page works without a network, and a new version replaces the old one whole, when asked.
import assert from "node:assert/strict";
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { seal } from "../../www/seal.mjs";
import { clean, DIST, expect, first, kept, open, until, worker } from "./harness.mjs";

test("reloads and computes with the server gone", async (t) => {
  // The update check is the one thing that is still asked for.
  expect(t, /sw\.js/, /fetching the script/);
  const opened = await open(t);
  await kept(opened.page);
  clean(opened);
  await opened.stop();
  await opened.page.reload();
  await first(opened.page);
  assert.ok(await (await worker(opened.page)).evaluate(() => typeof self.postMessage === "function"), "so does its worker");
  assert.deepEqual(opened.foreign, []);
});

test("German is kept too: chosen once, it is there with the server gone", async (t) => {
  const opened = await open(t);
  const { page } = opened;
  await kept(page);
  await page.locator(".bar-acts button", { hasText: "Deutsch" }).click();
  const german = () => until(async () => (await page.getAttribute("html", "lang")) === "de", "the page in German");
  await german();
  const says = () => page.locator("#verdict-says").innerText();
  await until(async () => /Posten|Boden|Gedecke|trägt/.test(await says()), "a German verdict");
  const before = await says();
  clean(opened);
  await opened.stop();
  await page.reload();
  await german();
  await first(page);
  await until(async () => (await says()) === before, "the same verdict, in German");
  assert.equal(await page.locator("#shelf-title").innerText(), "In diesem Browser aufbewahrt");
  assert.deepEqual(opened.foreign, []);
});

test("once kept, a reload asks the network for nothing but the update check", async (t) => {
  const { page, context } = await open(t);
  await kept(page);
  const asked = [];
  context.on("response", (response) => {
    if (!response.fromServiceWorker()) asked.push(new URL(response.url()).pathname);
  });
  await page.reload();
  await first(page);
  await page.waitForTimeout(500);
  assert.deepEqual([...new Set(asked)].filter((path) => path !== "/sw.js"), []);
});

/** A copy of the built page that a test may change, marked as version 1. */
function copy(t) {
  const folder = mkdtempSync(join(tmpdir(), "hearthload-"));
  t.after(() => rmSync(folder, { recursive: true }));
  cpSync(DIST, folder, { recursive: true });
  deploy(folder, 1);
  return folder;
}

/** Puts a version into `folder` that can be told from others in the page and in the worker. */
function deploy(folder, version) {
  for (const [name, mark] of [
    ["index.html", (text) => text.replace("<html", `<html data-deployed="${version}"`)],
    ["worker_loader.js", (text) => `${text}\nself.deployed = ${version};\n`],
  ]) {
    writeFileSync(join(folder, name), mark(readFileSync(join(DIST, name), "utf8")));
  }
  seal(folder);
}

const deployed = (page) => page.evaluate(() => document.documentElement.dataset.deployed);

async function workerDeployed(page) {
  const started = await worker(page);
  return until(() => started.evaluate(() => self.deployed && String(self.deployed)), "the worker's program");
}

test("a new version waits, is announced, and is taken whole on request", async (t) => {
  const root = copy(t);
  const opened = await open(t, { root });
  const { page } = opened;
  await kept(page);
  assert.equal(await page.evaluate(() => document.documentElement.dataset.update), undefined, "nothing new on a first visit");
  deploy(root, 2);
  await page.reload();
  await first(page);
  assert.equal(await deployed(page), "1", "the old version stays until it is asked to go");
  assert.equal(await workerDeployed(page), "1");
  await page.locator("html[data-update=ready]").waitFor();
  await page.evaluate(() => dispatchEvent(new CustomEvent("hearthload-switch")));
  await page.locator("html[data-deployed='2']").waitFor();
  await first(page);
  assert.equal(await workerDeployed(page), "2", "page and worker changed together");
  const caches = await until(async () => {
    const names = await page.evaluate(() => caches.keys());
    return names.length === 1 && names;
  }, "the old version's files to be dropped");
  assert.match(caches[0], /^hearthload http/);
  clean(opened);
});

test("a half deployed version changes nothing", async (t) => {
  expect(t, /icon-512\.png/);
  const root = copy(t);
  const { page } = await open(t, { root });
  await kept(page);
  deploy(root, 2);
  rmSync(join(root, "icon-512.png"));
  await page.reload();
  await first(page);
  await page.waitForTimeout(1000);
  assert.equal(await page.evaluate(() => document.documentElement.dataset.update), undefined);
  assert.equal(await deployed(page), "1");
});
