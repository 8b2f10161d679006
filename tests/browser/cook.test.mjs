// The cook's path: from an empty browser to a plan against the clock, a reading typed and the rest of the night planned again,
// pieces ticked, the sheet printed.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { clean, open, until } from "./harness.mjs";
import { found, sideways } from "./looks.mjs";

/** A search over many days, on a busy machine. */
const SEARCH_MS = 240_000;
/** A Friday in the demonstration's rush. */
const EVENING = new Date(2026, 10, 27, 18, 5);

/** Opens the cook's door at a moment and waits for its plan. */
async function tonight(t, options = {}) {
  const opened = await open(t, { width: 1024, height: 768, at: EVENING, hash: "#tonight", verdict: false, ...options });
  await opened.page.locator(".cook-next").waitFor({ timeout: SEARCH_MS });
  return opened;
}

/** All orders and the whole strip are seen at once: nothing scrolls inside, nothing lies under the foot bar. */
async function allSeen(page) {
  const [hidden, under] = await page.evaluate(() => {
    const now = document.querySelector(".cook-now");
    const strip = document.querySelector(".cook-strip canvas").getBoundingClientRect();
    const foot = document.querySelector(".cook-caution").getBoundingClientRect();
    return [now.scrollHeight - now.clientHeight, strip.bottom - foot.top];
  });
  assert.ok(hidden <= 0, `${hidden} px of the orders are hidden`);
  assert.ok(under <= 0.5, `${under} px of the strip lie under the foot bar`);
}

/** How many pages it prints on. */
async function pages(page, format) {
  const text = (await page.pdf({ format })).toString("latin1");
  return (text.match(/\/Type\s*\/Page[^s]/g) ?? []).length;
}

const go = (page, hash) => page.evaluate((to) => (location.hash = to), hash);

async function type(page, digits) {
  for (const digit of digits) await page.locator(`.cook-keys button[aria-label="${digit}"]`).click();
}

test("from an empty browser to the next piece, the reading typed, the rest planned again, Back where one was", async (t) => {
  const began = Date.now();
  const opened = await tonight(t);
  const { page } = opened;
  assert.match(await page.locator(".cook-next .count").innerText(), /\d+:\d\d/);
  const before = await page.locator(".cook-next .order").first().innerText();
  assert.match(before, /\d?\d:\d\d, one piece/);
  // Twenty under what the plan has now.
  const under = String(Number((await page.locator(".floor-now").innerText()).match(/\d+/)[0]) - 20);
  await page.locator(".cook-reading a").click();
  await page.locator(".cook-keys").waitFor();
  assert.match(page.url(), /#tonight\/reading$/);
  await page.goBack();
  await page.locator(".cook-next").waitFor();
  await page.goForward();
  // On real keys without a press in between, as with fingers.
  await until(() => page.evaluate(() => document.activeElement?.className === "cook-typing"), "the keys' place in focus");
  await page.keyboard.type(under);
  await page.locator(".typed", { hasText: under }).waitFor();
  for (const _ of under) await page.locator(".cook-keys button[aria-label='Rub out']").click();
  await type(page, under);
  assert.match(await page.locator(".typed").innerText(), new RegExp(`${under}\\s°C`));
  const act = page.locator(".cook-typed button.act");
  await until(() => act.isEnabled(), "the rest of the evening", SEARCH_MS);
  assert.match(await page.locator(".cook-becomes").innerText(), /\d+\s°C under the plan/);
  await act.click();
  await page.locator(".cook-next").waitFor();
  assert.match(await page.locator(".floor-now").innerText(), new RegExp(under));
  await page.locator(".floor-off", { hasText: "under the plan" }).waitFor();
  assert.ok(Date.now() - began < 180_000, "within three minutes");
  // The sheet is that of the rest of the evening, on one page.
  await go(page, "#tonight/sheet");
  await page.locator(".sheet-lead", { hasText: "Planned again at 18:05" }).waitFor();
  const first = (await page.locator(".sheet-ticks li").first().innerText()).trim();
  assert.ok(first >= "18:05", `${first}: no pieces from before the reading to tick`);
  for (const format of ["A4", "Letter"]) assert.equal(await pages(page, format), 1, format);
  await go(page, "#tonight");
  // What was read is kept: the same after the page is opened again.
  await page.reload();
  await page.locator(".floor-off", { hasText: "under the plan" }).waitFor({ timeout: SEARCH_MS });
  clean(opened);
});

test("pieces are ticked, taken back, and survive a reload", async (t) => {
  const opened = await tonight(t);
  const { page } = opened;
  const due = await page.locator(".cook-next .order strong").innerText();
  await page.locator(".cook-next button.act").click();
  await page.locator(".cook-list .told", { hasText: "Fed one at 18:05" }).waitFor();
  assert.notEqual(await page.locator(".cook-next .order strong").innerText(), due, "another piece is next");
  await page.reload();
  await page.locator(".cook-list .told", { hasText: "Fed one at 18:05" }).waitFor({ timeout: SEARCH_MS });
  await page.locator(".cook-list .told button", { hasText: "Undo" }).click();
  await until(async () => (await page.locator(".cook-next .order strong").innerText()) === due, "the piece due again");
  clean(opened);
});

test("the sheet is one page on A4 and on letter, and says the plan", async (t) => {
  const opened = await tonight(t, { scheme: "dark" });
  const { page } = opened;
  for (const format of ["A4", "Letter"]) assert.equal(await pages(page, format), 1, `${format} from the evening's view`);
  await go(page, "#tonight/sheet");
  const sheet = page.locator(".cook-paper .sheet");
  await sheet.waitFor();
  for (const format of ["A4", "Letter"]) assert.equal(await pages(page, format), 1, format);
  const text = await sheet.innerText();
  for (const word of ["Light at", "Lighting", "Tick each piece", "If it is off", "Stop feeding. Do not add air.", "What tonight taught"]) {
    assert.ok(text.includes(word), word);
  }
  await page.emulateMedia({ media: "print" });
  assert.equal(await sheet.evaluate((one) => getComputedStyle(one).color), "rgb(26, 21, 32)", "print is light");
  assert.equal(await page.locator("header .doors").first().isVisible(), false);
  clean(opened);
});

test("a new oven's first firing is shown day by day, and refused with the reason where it shall go faster", async (t) => {
  const opened = await open(t, { width: 1024, height: 768, at: EVENING, hash: "#tonight/more", verdict: false });
  const { page } = opened;
  const firing = page.locator(".first-firing");
  await firing.locator("button.act").click();
  await firing.locator("tbody tr").first().waitFor({ timeout: SEARCH_MS });
  const holds = (await firing.locator("tbody tr td:nth-child(2)").allInnerTexts()).map((text) => Number(text.match(/\d+/)[0]));
  assert.ok(holds.length >= 3 && holds[0] < 100, `${holds}: the first day stays under boiling`);
  assert.deepEqual(holds, [...holds].sort((a, b) => a - b), "hotter day by day");
  assert.match(await firing.locator(".caution").innerText(), /steam/);
  await page.locator("#first-hours").fill("3");
  await firing.locator("button.act").click();
  await until(async () => /3\s?h/.test(await firing.locator(".because").innerText()), "the refusal");
  assert.match(await firing.locator(".because").innerText(), /refus|faster/i);
  assert.deepEqual(await found(page), []);
  // The plan stands above it, and can be tried on rough nights.
  await page.locator(".cook-more h1", { hasText: "The plan in words" }).waitFor({ timeout: SEARCH_MS });
  // Its bad nights come in parts: stopped, what is there stays, and it goes on from there.
  const nights = page.locator(".cook-more .nights");
  await nights.locator("button.act").click();
  await nights.locator("progress").waitFor();
  await until(async () => /[1-9]\d* of 200 nights played/.test(await nights.innerText()), "some nights", SEARCH_MS);
  await nights.locator("button", { hasText: "Stop" }).click();
  await nights.locator(".going", { hasText: "what is here is kept" }).waitFor();
  assert.match(await nights.innerText(), /Tonight’s plan: so far it holds on \d+ of 100 nights/);
  await nights.locator("button", { hasText: "Go on" }).click();
  await nights.locator("progress").waitFor();
  await nights.locator("button", { hasText: "Stop" }).click();
  assert.deepEqual(await found(page), []);
  await page.locator(".cook-more button", { hasText: "rough nights" }).click();
  await page.locator(".cook-more .warning", { hasText: "of 40 rough nights" }).waitFor({ timeout: SEARCH_MS });
  clean(opened);
});

test("a fire that burns gets an answer where the evening has no plan", async (t) => {
  const opened = await open(t, { width: 1024, height: 768, at: new Date(2026, 10, 27, 19, 20) });
  const { page } = opened;
  // Far too small for this evening.
  const evening = JSON.parse(readFileSync(new URL("../../demo-data/carries.json", import.meta.url)));
  Object.assign(evening, { name: "Too small", oven: { ...evening.oven, width_cm: 80, depth_cm: 80 } });
  const buffer = Buffer.from(JSON.stringify(evening));
  await page.locator("input[type=file]").first().setInputFiles({ name: "small.json", mimeType: "application/json", buffer });
  await until(async () => (await page.locator("#f-name").inputValue()) === "Too small", "the evening opened");
  await go(page, "#tonight");
  const burning = page.locator(".cook-none .cook-burning");
  await burning.waitFor({ timeout: SEARCH_MS });
  await burning.locator("a").click();
  await page.locator(".cook-keys").waitFor();
  await type(page, "285");
  await page.locator(".cook-acts button:not([disabled])").click({ timeout: SEARCH_MS });
  await until(async () => /Feed|Wait|Hold|No more/.test(await burning.innerText()), "what to do now", SEARCH_MS);
  assert.match(await burning.innerText(), /285.*19:20/s);
  assert.deepEqual(await found(page), []);
  assert.deepEqual(await sideways(page), []);
  clean(opened);
});

for (const [width, height, scheme] of [[1024, 768, "light"], [1024, 768, "dark"], [1280, 800, "light"], [390, 844, "light"], [390, 844, "dark"], [320, 640, "light"]]) {
  test(`axe finds nothing and nothing scrolls sideways, ${width} px, ${scheme}`, async (t) => {
    const { page } = await tonight(t, { width, height, scheme });
    for (const hash of ["#tonight", "#tonight/reading", "#tonight/sheet", "#tonight/more"]) {
      await go(page, hash);
      await page.locator({ "#tonight": ".cook-next", "#tonight/reading": ".cook-keys", "#tonight/sheet": ".cook-paper", "#tonight/more": ".cook-more" }[hash]).waitFor();
      assert.deepEqual(await found(page), [], hash);
      assert.deepEqual(await sideways(page), [], hash);
      if (width >= 1024 && !["#tonight/sheet", "#tonight/more"].includes(hash)) {
        const over = await page.evaluate(() => document.documentElement.scrollHeight - innerHeight);
        assert.ok(over <= 0, `${hash} is ${over} px higher than the window`);
        if (hash === "#tonight") await allSeen(page);
      }
    }
  });
}
