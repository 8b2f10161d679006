// A computing that breaks, on every door: it is said in words with what is known of it, nothing typed is lost, and no answer to an
// earlier scenario stands there as if it were this one's.
import assert from "node:assert/strict";
import { test } from "node:test";
import { PATIENCE_MS, browser, first, server, until } from "./harness.mjs";

/** A search over many days, on a busy machine. */
const SEARCH_MS = 240_000;
/** The width of the oven whose computing breaks, cm. */
const BROKEN = 133;
const SAYS = "At 19:20 the heat ledger leaves 1000 J open.";
const OLD = "as it was before your last change";

/**
 * Puts itself before the program of a worker: what is asked about an oven of the broken width is answered with a fault, as the
 * engine answers it; all else goes on to the program.
 */
async function breaks(context, loader) {
  const body = `
    import "./${loader}?itself";
    const itself = self.onmessage;
    self.onmessage = (event) => {
      const { protocol, run, request } = JSON.parse(event.data);
      if (JSON.parse(request).scenario?.oven?.width_cm !== ${BROKEN}) return itself.call(self, event);
      self.postMessage(JSON.stringify({ protocol, run, answer: { fault: ${JSON.stringify(SAYS)} } }));
    };`;
  await context.route(new RegExp(`/${loader}$`), (route) => route.fulfill({ contentType: "text/javascript", body }));
}

/** The page at a door, its workers' programs broken as above; the evening's clock stands at a rush. */
async function visit(t, hash, loaders) {
  const { address } = await server(t);
  const context = await (await browser(t)).newContext({ viewport: { width: 1280, height: 900 }, serviceWorkers: "block" });
  for (const loader of loaders) await breaks(context, loader);
  const page = await context.newPage();
  await page.clock.setFixedTime(new Date(2026, 10, 27, 18, 5));
  await page.goto(address + hash);
  return page;
}

const width = (page) => page.locator("#f-oven-width_cm");
const go = (page, hash) => page.evaluate((to) => (location.hash = to), hash);
const strip = (page) => page.locator(".strip", { hasText: SAYS });

test("the live verdict: said, the last good answer named as such, gone with the next good one", async (t) => {
  const page = await visit(t, "", ["worker_loader.js"]);
  await first(page);
  await width(page).fill(String(BROKEN));
  await strip(page).waitFor();
  assert.match(await strip(page).innerText(), /computing stopped.*Your scenario is safe.*last good answer/s);
  assert.equal(await width(page).inputValue(), String(BROKEN));
  // Opened on it there is no older answer: no verdict, no figures, no picture.
  await page.reload();
  await strip(page).waitFor();
  assert.equal(await page.locator("[data-verdict=carries], [data-verdict=gives]").count(), 0);
  assert.doesNotMatch(await strip(page).innerText(), /last good answer/);
  assert.doesNotMatch(await page.locator("#verdict").innerText(), /NaN|undefined|null/);
  await width(page).fill("120");
  await first(page);
  assert.equal(await strip(page).count(), 0);
});

test("the long questions of the chef's door: each says that it broke, and keeps an older answer marked as older", async (t) => {
  const page = await visit(t, "", ["checks_loader.js"]);
  await first(page);
  const panel = (name) => page.locator(`.${name}`).first();
  const ask = (name) => panel(name).locator("button.act").first().click();
  // A first answer, to be an older one.
  await ask("sure");
  await panel("sure").locator("dl.facts").waitFor({ timeout: SEARCH_MS });
  await width(page).fill(String(BROKEN));
  await panel("sure").getByText(OLD).waitFor();
  await ask("sure");
  await panel("sure").locator(".strip", { hasText: SAYS }).waitFor();
  assert.match(await panel("sure").innerText(), new RegExp(OLD));
  await ask("nights");
  // The ways out are looked for by themselves where the evening does not carry.
  await panel("ways").locator("button.act").first().click({ timeout: 3000 }).catch(() => undefined);
  for (const name of ["nights", "ways"]) {
    await panel(name).locator(".strip", { hasText: SAYS }).waitFor();
    assert.doesNotMatch(await panel(name).innerText(), /NaN|undefined|null/);
  }
});

test("the planner's door: no floor is named, and it says why", async (t) => {
  const page = await visit(t, "", ["checks_loader.js"]);
  await first(page);
  await width(page).fill(String(BROKEN));
  await until(async () => page.locator("#verdict[aria-busy=false]").count(), "the verdict");
  await go(page, "floors");
  await strip(page).waitFor({ timeout: PATIENCE_MS });
  assert.equal(await page.locator("[data-verdict]").count(), 0);
  assert.doesNotMatch(await page.locator("main").innerText(), /Buy a floor|NaN|undefined/);
});

test("the cook's door: no plan where there was none, and an earlier one only as an earlier one", async (t) => {
  const page = await visit(t, "#tonight", ["checks_loader.js"]);
  await page.locator(".cook-next").waitFor({ timeout: SEARCH_MS });
  assert.equal(await page.locator("main .strip").count(), 0);
  await go(page, "menu");
  await width(page).fill(String(BROKEN));
  await go(page, "tonight");
  await page.locator("main .strip", { hasText: OLD }).waitFor();
  await strip(page).waitFor();
  // The sheet for the wall says so too.
  await go(page, "tonight/sheet");
  await strip(page).waitFor();
  // What is to be mended first makes the plan an earlier one as well.
  await go(page, "menu");
  await width(page).fill("9999");
  await go(page, "tonight");
  await page.locator("main .strip", { hasText: OLD }).waitFor();
  await go(page, "menu");
  await width(page).fill(String(BROKEN));
  await page.reload();
  await go(page, "tonight");
  await page.locator(".cook-none", { hasText: SAYS }).waitFor({ timeout: PATIENCE_MS });
  assert.equal(await page.locator(".cook-next").count(), 0);
});
