// The page in its other language: chosen with one press, remembered, on a first visit the browser's own, and no English left.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { clean, expect, first, open, until } from "./harness.mjs";

async function still(page) {
  await until(() => page.locator("#verdict[aria-busy=false]").count(), "an answer that stands still");
}

/** Words of English sentences that no German one has. */
const ENGLISH = /\b(the|of|and|with|for|is|are|from|each|your|you|what|this|when|how|nothing|floor|wood|covers|heat)\b/i;

/** What is read on the page, each text once; links, names of files and the outside checks' list aside. */
async function texts(page) {
  return page.evaluate(() => {
    const all = new Set();
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walk.nextNode()) all.add(walk.currentNode.data.trim());
    for (const attribute of ["aria-label", "aria-valuetext", "placeholder", "title", "alt"]) {
      for (const element of document.querySelectorAll(`[${attribute}]`)) all.add(element.getAttribute(attribute).trim());
    }
    return [...all].filter(Boolean);
  });
}

/** Names of the demonstration: a visitor who came in English first keeps them. */
const NAMES = ["carries", "surprise", "assist", "small"]
  .map((name) => JSON.parse(readFileSync(new URL(`../../demo-data/${name}.json`, import.meta.url), "utf8")))
  .flatMap((scenario) => [scenario.name, scenario.note ?? "", ...scenario.menu.map((dish) => dish.name)])
  .filter(Boolean);

async function english(page) {
  const bare = (text) => NAMES.reduce((left, name) => left.replaceAll(name, ""), text);
  return (await texts(page)).filter((text) => ENGLISH.test(bare(text)) && text !== "English");
}

async function german(t, options) {
  const opened = await open(t, options);
  await opened.page.locator(".bar-acts button", { hasText: "Deutsch" }).click();
  await until(async () => (await opened.page.getAttribute("html", "lang")) === "de", "the page says it is German");
  return opened;
}

/** Scenarios keep the names they were given: a visitor whose browser is German finds German ones from the start. */
async function visitor(t, hash) {
  const opened = await open(t, { verdict: false, hash });
  // What is still being fetched would be broken off by the reload, and that is an error on the page's list.
  await opened.page.waitForLoadState("networkidle");
  await opened.page.evaluate(() => {
    localStorage.clear();
    localStorage.setItem("hearthload.language", JSON.stringify("de"));
  });
  await opened.page.reload();
  return opened;
}

test("another language is one press away, remembered, and changes numbers with it", async (t) => {
  const opened = await german(t);
  const { page } = opened;
  await still(page);
  assert.match(await page.locator("#verdict-says").innerText(), /^Er trägt/);
  assert.match(await page.locator("#verdict .because").innerText(), /\d,\d/);
  assert.match(await page.title(), /Trägt er/);
  // The demonstration nobody touched is told in German too.
  await until(async () => (await page.locator(".dish-name strong").first().innerText()).includes("Lauch"), "German dishes");
  await page.reload();
  await first(page);
  assert.match(await page.locator("#verdict-says").innerText(), /^Er trägt/);
  await page.locator(".bar-acts button", { hasText: "English" }).click();
  await until(async () => (await page.getAttribute("html", "lang")) === "en", "back");
  assert.match(await page.locator("#verdict-says").innerText(), /^It carries/);
  clean(opened);
});

test("a language that cannot be fetched is said, and the page stays as it is; on a visit it opens in English", async (t) => {
  expect(t, /german-[0-9a-f]+\.txt/);
  const opened = await open(t);
  const { page, context } = opened;
  // Without the offline copy, as on a first visit whose network broke off.
  await context.route(/german-[0-9a-f]+\.txt$/, (route) => route.abort());
  await page.evaluate(async () => {
    for (const known of await navigator.serviceWorker.getRegistrations()) await known.unregister();
  });
  await page.reload();
  await first(page);
  await page.locator(".bar-acts button", { hasText: "Deutsch" }).click();
  await page.locator(".strip", { hasText: "Deutsch did not come" }).waitFor();
  assert.equal(await page.getAttribute("html", "lang"), "en");
  await page.evaluate(() => localStorage.setItem("hearthload.language", JSON.stringify("de")));
  await page.reload();
  await first(page);
  assert.match(await page.locator("#verdict-says").innerText(), /^It carries/);
  assert.equal(await page.getAttribute("html", "lang"), "en");
});

test("the chef's door has no English left in German, nor has what is wrong with a field", async (t) => {
  const opened = await visitor(t, "");
  const { page } = opened;
  await first(page);
  await still(page);
  for (const more of await page.locator("details").all()) await more.evaluate((element) => (element.open = true));
  await page.locator(".dish-row .turn").first().click();
  assert.deepEqual(await english(page), []);
  await page.fill("#f-oven-door_height_cm", "4");
  await page.locator(".strip").first().waitFor();
  assert.deepEqual(await english(page), []);
  clean(opened);
});

test("the cook's door and its sheet have no English left in German", async (t) => {
  const opened = await visitor(t, "#tonight");
  const { page } = opened;
  await page.locator(".cook-next").waitFor({ timeout: 60_000 });
  assert.deepEqual(await english(page), []);
  await page.goto(`${opened.address}#tonight/sheet`);
  await page.locator(".sheet").first().waitFor();
  assert.deepEqual(await english(page), []);
  // German says the same in more letters: still one page.
  for (const format of ["A4", "Letter"]) {
    const text = (await page.pdf({ format })).toString("latin1");
    assert.equal((text.match(/\/Type\s*\/Page[^s]/g) ?? []).length, 1, format);
  }
  clean(opened);
});

test("the planner's door has no English left in German", async (t) => {
  const opened = await visitor(t, "#floors");
  const { page } = opened;
  await page.locator(".rungs").waitFor({ timeout: 60_000 });
  for (const more of await page.locator("details").all()) await more.evaluate((element) => (element.open = true));
  assert.deepEqual(await english(page), []);
  clean(opened);
});

test("an amount is typed in spoons or pieces, by keyboard alone", async (t) => {
  const opened = await open(t);
  const { page } = opened;
  await page.locator(".dish-row .turn").first().focus();
  await page.keyboard.press("Enter");
  const measure = page.locator(".measure input").first();
  await measure.focus();
  await page.keyboard.press("ControlOrMeta+A");
  await page.keyboard.type("1 1/2");
  const each = Number((await page.locator(".measure span").first().innerText()).match(/(\d+)\s*g$/)[1]);
  await until(async () => Number(await page.locator(".ingredient .number input").first().inputValue()) === 1.5 * each, "grams follow");
  clean(opened);
});

test("clock fields are read and shown with am and pm, past midnight too", async (t) => {
  const opened = await open(t);
  const { page } = opened;
  await page.locator(".bar-acts button", { hasText: "Units" }).click();
  await page.locator(".unit-row button", { hasText: "8:45 pm" }).click();
  const end = page.locator("#f-service-end");
  await until(async () => /pm|am/.test(await end.inputValue()), "shown with am and pm");
  await end.fill("12:30 am");
  await page.locator("#f-service-start").focus();
  await until(async () => (await end.inputValue()).replace("\u00a0", " ") === "12:30 am +1", "the night after");
  clean(opened);
});
