// What every browser test starts from: the built page served as www/serve does it, in a real Chromium, with an ear on
// everything that should not happen (console errors, requests to elsewhere). See start.test.mjs for how it is used.
import assert from "node:assert/strict";
import { existsSync } from "node:fs";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { DIST, serve } from "../../www/server.mjs";

export { DIST, serve };

/** How long a page may take to its first verdict here, in ms: far above the aim, machines that test are busy. */
export const PATIENCE_MS = 30_000;

const FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

function built() {
  if (!existsSync(join(DIST, "index.html"))) throw new Error("target/www is not built: run ./tests/all page");
}

/** What each test saw that should not happen, over all its pages, workers and browsers, and what is to be shut down after it. */
const seen = new WeakMap();

function watch(t) {
  if (!seen.has(t)) {
    const told = { errors: [], foreign: [], origins: new Set(), expected: [], ends: [] };
    seen.set(t, told);
    // One hook for all: after one that fails, no other is run, and a browser left open would keep the runner waiting.
    t.after(async () => {
      // Taken before anything is shut down, for what fails by that is no fault.
      const errors = told.errors.filter((error) => !told.expected.some((pattern) => pattern.test(error)));
      const foreign = told.foreign.filter((url) => !told.origins.has(new URL(url).origin));
      for (const end of told.ends) await end();
      clean({ errors, foreign });
    });
  }
  return seen.get(t);
}

/** Says what a test brings about itself: errors that match are none of the page's. */
export function expect(t, ...patterns) {
  watch(t).expected.push(...patterns);
}

/** A browser for one test; it ends with the test, which fails where anything was logged as an error or asked for elsewhere. */
export async function browser(t) {
  const told = watch(t);
  const executablePath = process.env.CHROMIUM || "/usr/bin/chromium";
  const started = await chromium.launch({ executablePath, args: FLAGS });
  const anew = started.newContext.bind(started);
  started.newContext = async (options) => {
    const context = await anew(options);
    hear(context, told);
    return context;
  };
  told.ends.push(() => started.close());
  return started;
}

/** Serves a folder for one test; `stop` may be called before its end. */
export async function server(t, options = {}) {
  const told = watch(t);
  built();
  const started = await serve(options);
  told.origins.add(new URL(started.address).origin);
  let running = true;
  const stop = async () => {
    if (running) await started.stop();
    running = false;
  };
  told.ends.push(stop);
  return { address: started.address, stop };
}

function hear(context, { errors, foreign }) {
  context.on("console", (message) => {
    if (message.type() === "error") errors.push(`${message.text()} (${message.location().url})`);
  });
  context.on("weberror", (error) => errors.push(String(error.error())));
  context.on("requestfailed", (request) => {
    const why = request.failure()?.errorText ?? "";
    // A tab that is shut or loaded anew breaks off what it still fetches.
    if (why !== "net::ERR_ABORTED") errors.push(`${request.url()}: ${why}`);
    // What the page's policy held back was asked of nobody; that it was tried is an error.
    if (/csp/i.test(why)) foreign.splice(foreign.indexOf(request.url()), 1);
  });
  context.on("request", (request) => {
    if (/^(https?|wss?):/.test(request.url())) foreign.push(request.url());
  });
}

/**
 * Opens the page for test `t` and waits for the first verdict.
 *
 * Options: `width`, `height`, `scheme` ("light" or "dark"), `scale` (device pixels per px), `hash`, `root` and `base` (what is
 * served and below which path), `at` (a Date: the page's clock stands there), `verdict: false` to return at once.
 * Gives `{ page, context, browser, address, stop, errors, foreign }`: `errors` fills with console errors, uncaught errors and
 * failed requests, `foreign` with every address outside the origin that anything here, workers included, asked for.
 */
export async function open(t, options = {}) {
  const { width = 1280, height = 900, scheme = "light", scale = 1, hash = "", root, base, at, verdict = true } = options;
  const { address, stop } = await server(t, { root, base });
  const started = await browser(t);
  const context = await started.newContext({
    viewport: { width, height },
    deviceScaleFactor: scale,
    colorScheme: scheme,
    reducedMotion: "reduce",
  });
  const page = await context.newPage();
  if (at) await page.clock.setFixedTime(at);
  const told = watch(t);
  await page.goto(address + hash);
  if (verdict) await first(page);
  const isForeign = (url) => !told.origins.has(new URL(url).origin);
  return { page, context, browser: started, address, stop, errors: told.errors, get foreign() { return told.foreign.filter(isForeign); } };
}

/** Where a computed verdict stands: "mend" and "stopped" are answers too, but not what a demonstration opens on. */
export const VERDICT = "[data-verdict=carries], [data-verdict=gives]";

/** Waits for the first verdict on a page. */
export async function first(page) {
  await page.locator(VERDICT).first().waitFor({ timeout: PATIENCE_MS });
}

/** Fails when anything was logged as an error or asked for elsewhere. */
export function clean({ errors, foreign }) {
  assert.deepEqual(errors, [], "the console stays free of errors");
  assert.deepEqual(foreign, [], "nothing is asked from another origin");
}

/** Starts a worker of our own from the files the page's worker is made of, and gives it to look into. */
export async function worker(page) {
  const started = page.waitForEvent("worker");
  await page.evaluate(() => {
    window.spare = new Worker("./worker_loader.js", { type: "module" });
  });
  return started;
}

/** Waits until `condition` (an async function) gives something true. */
export async function until(condition, what, patience = PATIENCE_MS) {
  const end = Date.now() + patience;
  for (;;) {
    const value = await condition();
    if (value) return value;
    if (Date.now() > end) throw new Error(`waited in vain: ${what}`);
    await new Promise((done) => setTimeout(done, 50));
  }
}

/** Waits until the service worker keeps a whole version. */
export async function kept(page) {
  await until(() => page.evaluate(() => navigator.serviceWorker.controller?.state === "activated"), "a service worker in charge");
}
