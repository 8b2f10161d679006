// After one visit the page works without a network, and a new version replaces the old one whole, when asked.
import assert from "node:assert/strict";
import { appendFileSync, cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { seal } from "../../www/seal.mjs";
import { clean, DIST, first, kept, open, until } from "./harness.mjs";

test("reloads and computes with the server gone", async (t) => {
  const opened = await open(t);
  await kept(opened.page);
  clean(opened);
  await opened.stop();
  await opened.page.reload();
  await first(opened.page);
  await until(async () => opened.page.workers().length > 0, "a worker from the kept files");
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

/** A copy of the built page that a test may change. */
function copy(t) {
  const folder = mkdtempSync(join(tmpdir(), "hearthload-"));
  t.after(() => rmSync(folder, { recursive: true }));
  cpSync(DIST, folder, { recursive: true });
  return folder;
}

/** Puts a second version into `folder`: page and worker can both be told from the first. */
function deploy(folder) {
  const page = join(folder, "index.html");
  writeFileSync(page, readFileSync(page, "utf8").replace("<html", '<html data-deployed="2"'));
  appendFileSync(join(folder, "worker_loader.js"), "\nself.deployed = 2;\n");
  seal(folder);
}

const deployed = (page) => page.evaluate(() => document.documentElement.dataset.deployed ?? "1");

async function workerDeployed(page) {
  const worker = await until(async () => page.workers()[0], "the page's worker");
  return worker.evaluate(() => String(self.deployed ?? 1));
}

test("a new version waits, is announced, and is taken whole on request", async (t) => {
  const root = copy(t);
  const opened = await open(t, { root });
  const { page } = opened;
  await kept(page);
  assert.equal(await page.evaluate(() => document.documentElement.dataset.update), undefined, "nothing new on a first visit");
  deploy(root);
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
  const root = copy(t);
  const { page } = await open(t, { root });
  await kept(page);
  deploy(root);
  rmSync(join(root, "icon-512.png"));
  await page.reload();
  await first(page);
  await page.waitForTimeout(1000);
  assert.equal(await page.evaluate(() => document.documentElement.dataset.update), undefined);
  assert.equal(await deployed(page), "1");
});
