// Memory in the browser: what a worker's program holds after a whole day of the largest oven, and what the page's own does after an
// hour's worth of typing, stay far below what a tablet has.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { browser, first, server, until } from "./harness.mjs";

/** A day takes at most this much, bytes: the program's whole memory, of which nothing is ever given back. */
const DAY_BYTES = 64 * 2 ** 20;

/** The largest evening there is: three metres, 5000 covers, 80 dishes. */
function largest() {
  const dish = (number) => ({
    name: `Dish ${number}`,
    ingredients: [{ food: "pizza_dough", grams: 180 }],
    footprint: { diameter_cm: 20 },
    known_bake: { minutes: 3, floor_c: 320 },
    per_100_covers: 1.25,
  });
  return {
    hearthload: 1,
    name: "The largest",
    oven: { width_cm: 300 },
    start: { floor_c: 120 },
    service: { start: "12:00", end: "24:00", covers: Array(48).fill(104) },
    menu: Array.from({ length: 80 }, (_, number) => dish(number)),
  };
}

/** Keeps a handle on the memory of every program that starts in a page or worker. */
const WATCH = `
  for (const how of ["instantiate", "instantiateStreaming"]) {
    const itself = WebAssembly[how];
    WebAssembly[how] = async (...given) => {
      const made = await itself.apply(WebAssembly, given);
      self.programMemory = (made.instance ?? made).exports.memory;
      return made;
    };
  }`;
const bytes = (where) => where.evaluate(() => self.programMemory?.buffer.byteLength);

test("a day takes less than 64 MB, the largest one with its pictures too", async (t) => {
  const { address } = await server(t);
  const context = await (await browser(t)).newContext({ viewport: { width: 1280, height: 900 }, serviceWorkers: "block" });
  await context.addInitScript(WATCH);
  // A worker is not reached by scripts of the page: the same lines go before its loader's own.
  await context.route(/\/worker_loader\.js$/, async (route) => {
    const own = await (await route.fetch()).text();
    const body = `${own.replace(/^import (\w+) from "(.*)";$/m, 'const { default: $1 } = await import("$2");')}`;
    await route.fulfill({ contentType: "text/javascript", body: `${WATCH}\n${body}` });
  });
  const page = await context.newPage();
  await page.goto(address);
  await first(page);
  const worker = page.workers()[0];
  t.diagnostic(`first verdict: worker ${await bytes(worker)} bytes, page ${await bytes(page)} bytes`);
  for (const name of ["carries", "surprise", "assist", "small"]) {
    const text = readFileSync(new URL(`../../demo-data/${name}.json`, import.meta.url));
    await page.locator("input[type=file]").first().setInputFiles({ name: `${name}.json`, mimeType: "application/json", buffer: text });
    await until(() => page.locator("#verdict[aria-busy=false]").count(), name);
  }
  const ordinary = [await bytes(worker), await bytes(page)];
  t.diagnostic(`four demonstrations: worker ${ordinary[0]} bytes, page ${ordinary[1]} bytes`);
  assert.ok(Math.max(...ordinary) < DAY_BYTES, String(ordinary));
  const buffer = Buffer.from(JSON.stringify(largest()));
  await page.locator("input[type=file]").first().setInputFiles({ name: "largest.json", mimeType: "application/json", buffer });
  await until(async () => (await page.locator("#f-name").inputValue()) === "The largest", "the largest opened");
  await until(() => page.locator("#verdict[data-verdict][aria-busy=false]").count(), "its verdict");
  // Typed on and on, nothing is hoarded.
  for (let width = 290; width < 300; width += 1) await page.locator("#f-oven-width_cm").fill(String(width));
  await until(() => page.locator("#verdict[data-verdict][aria-busy=false]").count(), "the last verdict");
  const most = [await bytes(worker), await bytes(page)];
  t.diagnostic(`the largest evening: worker ${most[0]} bytes, page ${most[1]} bytes`);
  assert.equal(page.workers()[0], worker, "the worker was not started anew");
  assert.ok(Math.max(...most) < DAY_BYTES, String(most));
});
