// What a visitor waits for, measured in Chromium: the timed day in WebAssembly, an edit until its verdict, the first verdict after
// a cold load, the longest task on the page's main thread, a share of a thousand nights on a pool of workers, and memory.
//   node tests/bench/page.mjs LOADS [FILE]      LOADS is tests/bench/loads.rs, built; FILE takes the figures as JSON
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { browser, DIST, server, until, VERDICT } from "../browser/harness.mjs";

const COLD_LOADS = 5;
const DAYS = 15;
const EDITS = 40;
/** Nights that are played of the thousand. */
const NIGHTS = 60;

const loads = process.argv[2];
const native = (name) => JSON.parse(execFileSync(loads, [name], { maxBuffer: 1 << 26 }).toString());
const quantile = (values, share) => [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))];

/** Runs in the page before anything else: notes long tasks, the first verdict, and every edit until its verdict stands. */
function listen(verdict) {
  window.seen = { long: [], first: null, edits: [] };
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) window.seen.long.push({ at: entry.startTime, ms: entry.duration });
  }).observe({ type: "longtask", buffered: true });
  let typed = null;
  let busy = false;
  addEventListener("input", () => ([typed, busy] = [performance.now(), false]), true);
  new MutationObserver(() => {
    if (window.seen.first === null && document.querySelector(verdict)) window.seen.first = performance.now();
    const shown = document.querySelector("#verdict");
    if (typed === null || !shown) return;
    const now = shown.getAttribute("aria-busy") === "true";
    if (busy && !now) {
      window.seen.edits.push(performance.now() - typed);
      typed = null;
    }
    busy = now;
  }).observe(document, { subtree: true, childList: true, attributes: true });
}

async function visit(started, address) {
  const context = await started.newContext({ viewport: { width: 1280, height: 900 }, reducedMotion: "reduce" });
  const page = await context.newPage();
  await page.addInitScript(listen, VERDICT);
  await page.goto(address);
  await until(() => page.evaluate(() => window.seen.first), "the first verdict");
  return { context, page };
}

/** Starts `count` workers from a loader, hands them requests as they come free; gives the time of each answer and of all, ms. */
function work({ loader, count, requests }) {
  const ready = [...Array(count)].map(
    () =>
      new Promise((done, fail) => {
        const worker = new Worker(loader, { type: "module" });
        worker.onmessage = () => done(worker);
        worker.onerror = (event) => fail(new Error(event.message));
      }),
  );
  const ask = (worker, request) =>
    new Promise((done, fail) => {
      const began = performance.now();
      worker.onmessage = ({ data }) => {
        if (!data.includes('"answer":{"ok"')) fail(new Error(data.slice(0, 300)));
        done(performance.now() - began);
      };
      worker.postMessage(JSON.stringify({ protocol: 1, run: 1, request }));
    });
  return Promise.all(ready).then(async (workers) => {
    const began = performance.now();
    const times = [];
    const left = [...requests];
    await Promise.all(
      workers.map(async (worker) => {
        while (left.length > 0) times.push(await ask(worker, left.shift()));
      }),
    );
    const all = performance.now() - began;
    for (const worker of workers) worker.terminate();
    return { times, all };
  });
}

/** Linear memory of a worker that has just answered a day, MB: it only ever grows, so this is the most it took. */
async function memory(page, request) {
  const started = page.waitForEvent("worker");
  await page.evaluate(() => (window.spare = new Worker("./worker_loader.js", { type: "module" })));
  const worker = await started;
  await page.evaluate(
    (text) =>
      new Promise((done) => {
        window.spare.onmessage = ({ data }) => (data.includes('"run":0') ? window.spare.postMessage(text) : done());
        setTimeout(() => window.spare.postMessage(text), 1000);
      }),
    JSON.stringify({ protocol: 1, run: 1, request }),
  );
  const program = readdirSync(DIST).find((name) => /^app-[0-9a-f]+\.js$/.test(name));
  const bytes = await worker.evaluate(async (name) => {
    const made = await (await import(new URL(name, self.location.href).href)).default();
    return made.memory.buffer.byteLength;
  }, `./${program}`);
  return bytes / 1e6;
}

async function main() {
  const ends = [];
  const t = { after: (end) => ends.push(end) };
  const figures = {};
  try {
    const { address } = await server(t);
    const started = await browser(t);
    const firsts = [];
    const tasks = [];
    for (let i = 0; i < COLD_LOADS; i += 1) {
      const { context, page } = await visit(started, address);
      await page.waitForTimeout(500);
      const seen = await page.evaluate(() => window.seen);
      firsts.push(seen.first);
      tasks.push(...seen.long.map(({ ms }) => ms));
      await context.close();
    }
    figures.cold_ms = quantile(firsts, 0.5);
    figures.cold_task_ms = Math.max(0, ...tasks);
    const { page } = await visit(started, address);
    await page.waitForTimeout(1500);
    await page.evaluate(() => (window.seen.long = []));
    // By turns the oven, which is set up anew for it, and the menu, for which it stands.
    const [width, share] = ["f-oven-width_cm", "f-menu-0-per_100_covers"].map((id) => page.locator(`[id="${id}"]`).first());
    for (let i = 0; i < EDITS; i += 1) {
      const before = await page.evaluate(() => window.seen.edits.length);
      await (i % 2 ? width.fill(String(119 - (i % 7))) : share.fill(String(59 - (i % 7))));
      await until(() => page.evaluate((count) => window.seen.edits.length > count, before), "a verdict after an edit");
    }
    const seen = await page.evaluate(() => window.seen);
    figures.edit_ms = quantile(seen.edits, 0.5);
    figures.edit_p95_ms = quantile(seen.edits, 0.95);
    figures.edit_task_ms = Math.max(0, ...seen.long.map(({ ms }) => ms));
    const request = JSON.stringify(native("day-request"));
    // Each day in another room than the one before: an oven that stands is not set up again, and natively it is.
    const rooms = [...Array(DAYS)].map((_, i) => {
      const day = JSON.parse(request);
      day.scenario.oven.room_c = 20 + (i % 2);
      return JSON.stringify(day);
    });
    const days = await page.evaluate(work, { loader: "./worker_loader.js", count: 1, requests: rooms });
    figures.wasm_day_ms = quantile(days.times, 0.5);
    figures.wasm_day_least_ms = Math.min(...days.times);
    figures.memory_mb = await memory(page, request);
    const day = native("day");
    figures.native_day_ms = 1e3 * day.median_s;
    // The shortest of each: what another program does meanwhile counts in neither.
    figures.wasm = figures.wasm_day_least_ms / (1e3 * day.least_s);
    const whole = JSON.parse(JSON.stringify(native("nights-request")));
    const requests = [...Array(NIGHTS / 5)].map((_, i) => JSON.stringify({ ...whole, part: { from: 5 * i, count: 5 } }));
    const count = await page.evaluate(() => Math.min(4, Math.max(2, navigator.hardwareConcurrency)));
    const nights = await page.evaluate(work, { loader: "./checks_loader.js", count, requests });
    figures.nights_s = (nights.all / 1e3) * (1000 / NIGHTS);
    const programs = readdirSync(DIST).filter((name) => /^app-.*\.wasm$/.test(name));
    figures.gzip_kb = programs.reduce((sum, name) => sum + gzipSync(readFileSync(join(DIST, name)), { level: 9 }).length / 1e3, 0);
  } finally {
    for (const end of ends.reverse()) await end();
  }
  for (const [name, value] of Object.entries(figures)) console.log(`page: ${name.padEnd(18)} ${value.toFixed(2)}`);
  if (process.argv[3]) writeFileSync(process.argv[3], JSON.stringify(figures));
}

await main();
