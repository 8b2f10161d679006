// The planner's path: from an empty browser to which floor to buy, looked at, priced, opened as a scenario and taken back; a
// ladder stopped on its way, its workers killed; bad nights; Back and deep links; read by everybody.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { deflateSync } from "node:zlib";
import { clean, first, open, until } from "./harness.mjs";
import { found, sideways } from "./looks.mjs";

/** How long a ladder may take here, ms: machines that test are busy. */
const LADDER_MS = 150_000;

const verdict = (page) => page.locator("#verdict-says").innerText();
const button = (page, text) => page.locator("button", { hasText: text });

/** The address of a door with the demonstration's first scenario, on few floors so that its ladder is short. */
function link(door, from = 110, to = 120) {
  const demo = JSON.parse(readFileSync(new URL("../../demo-data/carries.json", import.meta.url), "utf8"));
  demo.name = "From the test";
  demo.planning = { ...demo.planning, floor_smallest_cm: from, floor_largest_cm: to, floor_step_cm: 10 };
  return `#${door}/scenario=1.${deflateSync(JSON.stringify(demo)).toString("base64url")}`;
}

/** Waits until the ladder stands whole. */
async function ladder(page) {
  await page.locator("#verdict[data-verdict][aria-busy=false]").waitFor({ timeout: LADDER_MS });
}

/** Stops what runs, or finds that it has ended by itself: a fast machine is no fault. */
async function halt(page) {
  const stop = button(page, "Stop, keep what is there");
  await stop.or(button(page, "Work it out again")).first().waitFor();
  await stop.click({ timeout: 1000 }).catch(() => undefined);
}

/** Keeps a handle on every worker the page starts. */
async function watched(page) {
  await page.addInitScript(() => {
    const Real = Worker;
    window.workers = [];
    window.Worker = class extends Real {
      constructor(...args) {
        super(...args);
        window.workers.push(this);
      }
    };
  });
}

test("from an empty browser to which floor to buy in under three minutes", async (t) => {
  const begun = Date.now();
  const opened = await open(t);
  const { page } = opened;
  await page.locator(".doors a", { hasText: "Which floor" }).click();
  assert.match(page.url(), /#floors$/);
  // What is on offer here; the ladder that began by itself is of other floors, and says so.
  await page.locator("#f-planning-floor_smallest_cm").fill("100");
  await page.locator("#f-planning-floor_largest_cm").fill("120");
  await halt(page);
  await button(page, "Work it out again").click();
  await ladder(page);
  assert.match(await verdict(page), /\d+.cm (on wood alone|with gas)/);
  const spent = Date.now() - begun;
  t.diagnostic(`${spent} ms`);
  assert.ok(spent < 180_000, `${spent} ms`);

  // A price changes the cost, and nothing is worked out again.
  const facts = () => page.locator(".verdict .facts").innerText();
  const before = await facts();
  await page.locator("#f-planning-wood_price_kg").fill("3");
  await until(async () => (await facts()) !== before, "another cost");
  assert.equal(await page.locator("#verdict").getAttribute("aria-busy"), "false");
  assert.equal(await page.locator(".going").count(), 0, "the ladder still answers this scenario");

  // Another rung is looked at.
  await button(page.locator(".rungs"), "120").first().click();
  await page.locator("#building-title", { hasText: "120" }).waitFor();
  assert.equal(await page.locator(".rungs tr.lit").count(), 1);

  // It is opened as a scenario, and had back.
  const name = await page.locator(".bar strong").innerText();
  await page.locator(".rungs tr.lit button", { hasText: "Open" }).click();
  await page.locator(".bar strong", { hasText: "120" }).waitFor();
  assert.match(page.url(), /#menu$/);
  await first(page);
  assert.equal(await page.locator("#f-oven-width_cm").inputValue(), "120");
  await page.locator("#verdict .done button").click();
  await until(async () => (await page.locator(".bar strong").innerText()) === name, "the scenario from before");

  // Back: the ladder is still there.
  await page.goBack();
  await page.locator(".planner").waitFor();
  await ladder(page);
  assert.match(await verdict(page), /\d+.cm (on wood alone|with gas)/);
  clean(opened);
});

test("a ladder stopped on its way keeps its rungs, and goes on from there", async (t) => {
  // Enough floors that some are left when it is stopped.
  const opened = await open(t, { hash: link("floors", 90, 150), verdict: false });
  const { page } = opened;
  await page.locator(".rungs tbody tr").first().waitFor({ timeout: LADDER_MS });
  await button(page, "Stop, keep what is there").click();
  await button(page, "Go on").waitFor();
  const rungs = await page.locator(".chart-ladder .same-scroll, .rungs tbody tr").count();
  await page.waitForTimeout(1500);
  assert.equal(await page.locator(".chart-ladder .same-scroll, .rungs tbody tr").count(), rungs, "nothing is worked out any more");
  await button(page, "Go on").click();
  await ladder(page);
  assert.match(await verdict(page), /floor/);
  clean(opened);
});

test("a worker that dies in mid-run is replaced; if all die the ladder can be started again", async (t) => {
  const opened = await open(t, { verdict: false });
  const { page, address } = opened;
  await watched(page);
  await page.goto("about:blank");
  await page.goto(address + link("floors", 90, 150));
  const die = (until) => page.evaluate((until) => window.workers.slice(1, until).forEach((one) => one.dispatchEvent(new ErrorEvent("error", { message: "out of memory" }))), until);
  const kill = () => die(undefined);
  await until(() => page.evaluate(() => window.workers.length >= 3), "a pool at work");
  const strip = page.locator("#verdict .strip", { hasText: "out of memory" });
  await die(2);
  await page.waitForTimeout(300);
  assert.equal(await strip.count(), 0, "one loss is made good without a word");
  // The page's own worker is the first; those of the pool are killed as they come.
  await until(async () => {
    await kill();
    return strip.count();
  }, "the ladder is given up");
  assert.match(await page.locator(".bar strong").innerText(), /From the test/);
  await page.evaluate(() => (window.workers.length = 1));
  await strip.locator("button").click();
  await ladder(page);
  assert.match(await verdict(page), /floor/);
});

test("Back, forward and deep links lead where they say", async (t) => {
  const opened = await open(t, { hash: link("floors", 110, 110), verdict: false });
  const { page } = opened;
  await page.locator(".planner").waitFor();
  await until(() => page.url().endsWith("#floors"), "the address put right");
  assert.match(await page.title(), /floor/);
  await page.locator(".doors a").first().click();
  await page.locator(".chef").waitFor();
  assert.equal(await page.locator(".doors a[aria-current=page]").innerText(), "Does it carry my menu?");
  await page.goBack();
  await page.locator(".planner").waitFor();
  await page.goForward();
  await page.locator(".chef").waitFor();
  await first(page);
  await page.reload();
  await page.locator(".chef").waitFor();
  // What is to be mended may stand behind another door.
  await page.locator("#f-oven-door_height_cm").fill("4");
  await page.locator(".strip").waitFor();
  await page.locator(".doors a").nth(1).click();
  await page.locator(".planner .strip a").first().click();
  await until(() => page.evaluate(() => document.activeElement?.id === "f-oven-door_height_cm"), "the field in focus");
  clean(opened);
});

test("bad nights count up, stop with what there is, and go on", async (t) => {
  const opened = await open(t);
  const { page } = opened;
  const panel = page.locator(".nights");
  // Enough nights that some are left when they are stopped.
  await panel.locator("select").selectOption("200");
  await button(panel, "Play 200 nights").click();
  await panel.locator(".chart-nights").waitFor({ timeout: LADDER_MS });
  await button(panel, "Stop, keep what is there").click();
  await button(panel, "Go on").waitFor();
  const finding = () => panel.locator(".chart-nights .finding").innerText();
  assert.match(await finding(), /so far it holds on \d+ of 100 nights/);
  await button(panel, "Go on").click();
  await until(async () => !(await finding()).includes("so far"), "all nights", LADDER_MS);
  assert.match(await panel.locator(".chart-nights .how").innerText(), /200 nights/);
  // Another scenario: the nights are of the old one, and say so.
  await page.locator("#f-oven-width_cm").fill("125");
  await button(panel, "Work it out again").waitFor();
  clean(opened);
});

test("how sure the verdict is, with what to measure first", async (t) => {
  const opened = await open(t);
  const { page } = opened;
  const panel = page.locator(".sure");
  await button(panel, "Work out how sure").click();
  await panel.locator("progress").waitFor();
  await until(async () => (await panel.locator("progress").count()) === 0, "the whole answer", LADDER_MS);
  assert.match(await panel.innerText(), /stands in \d+ of \d+ draws/);
  assert.ok((await panel.locator("tbody tr").count()) > 5);
  clean(opened);
});

test("axe finds nothing and nothing sticks out, on the way and with the ladder there", async (t) => {
  const opened = await open(t, { hash: link("floors"), verdict: false });
  const { page } = opened;
  await page.locator("progress").waitFor();
  assert.deepEqual(await found(page), [], "while it runs");
  await ladder(page);
  for (const width of [1280, 390, 320]) {
    await page.setViewportSize({ width, height: 900 });
    for (const colorScheme of ["light", "dark"]) {
      await page.emulateMedia({ colorScheme, reducedMotion: "reduce" });
      await page.locator(".planner details").evaluateAll((all) => all.forEach((one) => (one.open = true)));
      await page.waitForTimeout(300);
      assert.deepEqual(await found(page), [], `${width} px, ${colorScheme}`);
    }
    assert.deepEqual(await sideways(page), [], `${width} px`);
  }
  clean(opened);
});
