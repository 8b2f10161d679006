// The chef's path: a scenario opened, changed, spoilt, mended, undone, kept, shared, brought in; the computing lost and found.
import assert from "node:assert/strict";
import { test } from "node:test";
import { clean, first, open, until } from "./harness.mjs";
import { found, sideways } from "./looks.mjs";

/** A search over many evenings, on a busy machine. */
const SEARCH_MS = 240_000;

const verdict = (page) => page.locator("#verdict-says").innerText();

/** Waits until the shown answer is that of the form. */
async function still(page) {
  await until(() => page.locator("#verdict[aria-busy=false]").count(), "an answer that stands still");
}

/** Opens a part of the form where only one stands open. */
async function part(page, group) {
  const change = page.locator(`#group-${group} .change`);
  if ((await change.isVisible()) && (await change.getAttribute("aria-expanded")) === "false") await change.click();
}

async function type(page, id, text) {
  await page.locator(`[id="${id}"]`).fill(text);
}

test("from an empty browser to an answer on own data, a way out taken, in under three minutes", async (t) => {
  const begun = Date.now();
  const opened = await open(t);
  const { page } = opened;
  // Their own evening: a name, a smaller oven, guests in each quarter hour, a dish of the common ones with their own grams.
  await type(page, "f-name", "Ours");
  await type(page, "f-oven-width_cm", "105");
  await part(page, "service");
  await type(page, "covers-typed", Array(16).fill("22").join(" "));
  await part(page, "menu");
  const dishes = await page.locator(".dish-list > li").count();
  const there = await page.locator(".dish-name strong").allInnerTexts();
  const common = (await page.locator("select.start option").allInnerTexts()).slice(1);
  await page.locator("select.start").selectOption({ label: common.find((name) => !there.includes(name)) });
  await page.locator(".dish-list > li").nth(dishes).waitFor();
  if (!(await page.locator(".dish-details").count())) await page.locator(".turn").last().click();
  await type(page, `f-menu-${dishes}-ingredients-0-grams`, "260");
  await page.locator("#verdict[data-verdict=gives][aria-busy=false]").waitFor({ timeout: SEARCH_MS });
  assert.equal(await page.locator(".strip").count(), 0, "nothing to mend");
  assert.match(await verdict(page), /\d/);
  // The ways out come by themselves; the first is taken with one press and answered again.
  await page.locator(".way-list button").first().waitFor({ timeout: SEARCH_MS });
  await until(async () => (await page.locator(".ways progress").count()) === 0, "all ways tried", SEARCH_MS);
  const before = await page.locator(".facts").first().innerText();
  await page.locator(".way-list button").first().click();
  await page.locator("#verdict .done", { hasText: "Taken" }).waitFor();
  await until(async () => (await page.locator(".facts").first().innerText()) !== before, "another answer");
  await still(page);
  assert.equal(await page.locator(".strip").count(), 0, "what was put in is right");
  const spent = Date.now() - begun;
  t.diagnostic(`${spent} ms`);
  assert.ok(spent < 180_000, `${spent} ms`);
  clean(opened);
});

test("an edit changes the answer, and undo brings the old one back", async (t) => {
  const opened = await open(t);
  const { page } = opened;
  await still(page);
  const before = await page.locator(".facts").innerText();
  await type(page, "f-oven-width_cm", "100");
  await until(async () => (await page.locator(".facts").innerText()) !== before, "another answer");
  await page.locator(".head-acts button", { hasText: "Undo" }).click();
  await until(async () => (await page.locator(".facts").innerText()) === before, "the answer from before");
  assert.equal(await page.locator("#f-oven-width_cm").inputValue(), "120");
  clean(opened);
});

for (const width of [1280, 390]) {
  test(`a wrong value is named at its field and the last good answer stays, ${width} px`, async (t) => {
    const opened = await open(t, { width });
    const { page } = opened;
    await still(page);
    const before = await verdict(page);
    await part(page, "oven");
    const field = page.locator("#f-oven-door_height_cm");
    await field.fill("4");
    const strip = page.locator(".strip");
    await strip.waitFor();
    assert.match(await strip.innerText(), /1 field to mend/);
    assert.equal(await field.getAttribute("aria-invalid"), "true");
    const described = (await field.getAttribute("aria-describedby")).split(" ");
    const below = page.locator(`[id="${described.at(-1)}"]`);
    assert.match(await below.innerText(), /4.*10.*60/s, "what was typed and what is allowed");
    assert.equal(await verdict(page), before);
    // The link in the strip leads to the field, also when its part is closed.
    await strip.locator("a").first().click();
    await until(() => field.evaluate((element) => element === document.activeElement), "the field in focus");
    await field.fill("29");
    await until(async () => (await strip.count()) === 0, "nothing to mend");
    clean(opened);
  });
}

test("a number is taken with a comma, and stays as typed while it is typed", async (t) => {
  const opened = await open(t);
  const { page } = opened;
  const field = page.locator("#f-wood-piece_diameter_cm");
  await field.fill("");
  await field.pressSequentially("8,50");
  assert.equal(await field.inputValue(), "8,50");
  assert.equal(await page.locator(".strip").count(), 0);
  await field.blur();
  assert.equal(await field.inputValue(), "8.5");
  clean(opened);
});

test("dishes are moved by keys, taken off with a way back, and made of foods found by name", async (t) => {
  const opened = await open(t);
  const { page } = opened;
  const names = () => page.locator(".dish-name strong").allInnerTexts();
  const before = await names();
  await page.locator("#handle-0").focus();
  await page.keyboard.press("ArrowDown");
  await until(async () => (await names())[1] === before[0], "the first dish second");
  await until(() => page.evaluate(() => document.activeElement?.id === "handle-1"), "the handle still in hand");
  await page.keyboard.press("ArrowDown");
  await until(async () => (await names())[2] === before[0], "the first dish third");
  await until(() => page.evaluate(() => document.activeElement?.id === "handle-2"), "the handle still in hand");
  await page.keyboard.press("Escape");
  await until(async () => JSON.stringify(await names()) === JSON.stringify(before), "all as it was");

  await page.locator(".turn").first().click();
  await page.locator(".search input").fill("butter");
  await page.locator(".hits button").first().click();
  await until(() => page.locator("[id='f-menu-0-ingredients-3-grams']").count(), "a fourth ingredient");
  await type(page, "f-menu-0-ingredients-3-grams", "10");
  await until(async () => (await page.locator(".strip").count()) === 0, "a dish that is right again");

  await page.locator(".dish-details .acts button").last().click();
  await until(async () => (await names()).length === before.length - 1, "a dish fewer");
  await page.locator("#verdict .done button").click();
  await until(async () => (await names()).length === before.length, "the dish back");
  clean(opened);
});

test("covers follow the hours, visibly and with a way back; a number is taken with its unit", async (t) => {
  const opened = await open(t);
  const { page } = opened;
  await still(page);
  const covers = page.locator("#covers-typed");
  const before = await covers.inputValue();
  const end = page.locator("#f-service-end");
  const was = await end.inputValue();
  await end.fill("23:00");
  await page.locator("#verdict .done", { hasText: "quarter hours without covers" }).waitFor();
  assert.equal(await page.locator(".strip").count(), 0, "nothing to mend");
  assert.ok((await covers.inputValue()).startsWith(`${before} 0`), await covers.inputValue());
  await end.fill("19:00");
  await page.locator("#verdict .done", { hasText: "come back with their hour" }).waitFor();
  await end.fill(was);
  assert.equal(await covers.inputValue(), before, "all as it was typed");
  await end.fill("19:00");
  await page.locator("#verdict .done button").click();
  await until(async () => (await covers.inputValue()) === before && (await end.inputValue()) === was, "the hours back, and the covers");
  const width = page.locator("#f-oven-width_cm");
  await width.fill("1,1 m");
  assert.equal(await page.locator(".strip").count(), 0, "a length with its unit");
  await width.blur();
  assert.equal(await width.inputValue(), "110");
  clean(opened);
});

test("covers are changed by keys and typed", async (t) => {
  const opened = await open(t);
  const { page } = opened;
  const columns = page.locator(".columns");
  await columns.focus();
  await page.keyboard.press("End");
  await page.keyboard.press("PageUp");
  await until(async () => /: 9 covers/.test((await columns.getAttribute("aria-valuetext")).replace("\u00a0", " ")), "five more at the end");
  await type(page, "covers-typed", "5 5 5");
  await page.locator("#covers-problem").waitFor();
  await page.locator(".covers .acts button").click();
  await until(async () => (await page.locator(".strip").count()) === 0, "as many columns as quarter hours");
  clean(opened);
});

test("what was typed is there on the next visit, and scenarios can be copied, opened and taken away", async (t) => {
  const opened = await open(t);
  const { page } = opened;
  await page.locator(".shelf button", { hasText: "Copy" }).click();
  await type(page, "f-name", "Ours");
  await type(page, "f-oven-width_cm", "133");
  await page.waitForTimeout(700); // longer than the page waits before it keeps
  await page.reload();
  await first(page);
  assert.equal(await page.locator("#f-oven-width_cm").inputValue(), "133");
  const list = () => page.locator(".kept strong").allInnerTexts();
  assert.ok((await list()).includes("Ours"));
  await page.locator(".kept li", { hasText: "Ours" }).locator("button", { hasText: "Take away" }).click();
  await until(async () => !(await list()).includes("Ours"), "it is gone");
  await page.locator("#verdict .done button").click();
  await until(async () => (await list()).includes("Ours"), "it is back");
  clean(opened);
});

test("files are brought in, and those that are none are refused in words", async (t) => {
  const opened = await open(t);
  const { page } = opened;
  const file = (name, text) => page.locator("input[type=file]").setInputFiles({ name, mimeType: "application/json", buffer: Buffer.from(text) });
  await file("torn.json", '{"hearthload": 1, "name"');
  await page.locator(".strip", { hasText: "torn.json" }).waitFor();
  await file("later.json", '{"hearthload": 99}');
  await page.locator(".strip", { hasText: "newer" }).waitFor();
  await page.locator(".strip button", { hasText: "Put away" }).click();
  await file("bare.json", '{"hearthload": 1}');
  await page.locator(".bar strong", { hasText: "bare" }).waitFor();
  await page.locator(".strip", { hasText: "to mend" }).waitFor();
  clean(opened);
});

test("a link carries the whole scenario to another browser", async (t) => {
  const opened = await open(t);
  const { page, browser, address } = opened;
  await type(page, "f-oven-width_cm", "127");
  await page.locator(".bar button", { hasText: "Share" }).click();
  const link = await until(async () => {
    const text = await page.locator("#share-link").inputValue();
    return text.startsWith(address) && text;
  }, "a link");
  const other = await (await browser.newContext()).newPage();
  await other.goto(link);
  await first(other);
  await until(async () => (await other.locator("#f-oven-width_cm").inputValue()) === "127", "the same oven");
  assert.ok(!(await other.url()).includes("scenario="), "the address is put right");
  await other.goto(`${link.slice(0, -20)}`);
  await other.locator(".strip", { hasText: "damaged" }).waitFor();
  clean(opened);
});

test("a worker that dies in mid-run is reported and started again; nothing typed is lost", async (t) => {
  const opened = await open(t, { verdict: false });
  const { page } = opened;
  // The page's own worker, with a handle on it.
  await page.addInitScript(() => {
    const Real = Worker;
    window.Worker = class extends Real {
      constructor(...args) {
        super(...args);
        window.newest = this;
      }
    };
  });
  await page.reload();
  await first(page);
  await still(page);
  const before = await verdict(page);
  await type(page, "f-oven-width_cm", "111");
  await page.evaluate(() => window.newest.dispatchEvent(new ErrorEvent("error", { message: "out of memory" })));
  const strip = page.locator(".strip", { hasText: "out of memory" });
  await strip.waitFor();
  assert.equal(await verdict(page), before, "the last answer stays");
  assert.equal(await page.locator("#f-oven-width_cm").inputValue(), "111");
  await strip.locator("button").click();
  await until(async () => (await page.locator(".strip").count()) === 0, "computing again");
  await still(page);
});

test("a pinned answer stands beside the new one", async (t) => {
  const opened = await open(t);
  const { page } = opened;
  await still(page);
  await page.locator(".head-acts button", { hasText: "Pin this" }).click();
  await until(async () => (await page.locator(".facts .pinned").allInnerTexts()).every((text) => text === "same as pinned"), "no difference yet");
  await type(page, "f-oven-width_cm", "100");
  await until(async () => (await page.locator(".facts").innerText()).match(/[+\u2212]\d/), "signed differences");
  await page.locator(".pin button").click();
  await until(async () => (await page.locator(".facts .pinned").count()) === 0, "unpinned");
  clean(opened);
});

test("the floor plan follows its slider, and says where it stands", async (t) => {
  const opened = await open(t);
  const { page } = opened;
  const slider = page.locator("#moment");
  await slider.focus();
  await page.keyboard.press("Home");
  await until(async () => /^18:00,/.test(await slider.getAttribute("aria-valuetext")), "the first order's minute");
  await page.locator(".slider button", { hasText: "+15" }).click();
  await until(async () => /^18:15,/.test(await slider.getAttribute("aria-valuetext")), "a quarter hour later");
  clean(opened);
});

for (const [width, scheme] of [[1280, "light"], [1280, "dark"], [390, "light"], [390, "dark"], [320, "light"]]) {
  test(`axe finds nothing and nothing sticks out with all open and a field to mend, ${width} px ${scheme}`, async (t) => {
    const { page } = await open(t, { width, scheme });
    await still(page);
    await page.locator(".bar button", { hasText: "Share" }).click();
    await page.locator(".head-acts button", { hasText: "Pin this" }).click();
    await part(page, "menu");
    await page.locator(".turn").first().click();
    assert.deepEqual(await found(page), [], "a dish open");
    assert.deepEqual(await sideways(page), [], "a dish open");
    await part(page, "oven");
    await type(page, "f-oven-door_height_cm", "4");
    await page.locator(".strip").waitFor();
    await page.evaluate(() => document.querySelectorAll("details").forEach((one) => (one.open = true)));
    await page.waitForTimeout(300); // the tables are drawn once they are open
    assert.deepEqual(await found(page), [], "all open");
    assert.deepEqual(await sideways(page), [], "all open");
  });
}

test("an evening that does not carry brings its ways out by itself, and one press takes the first", async (t) => {
  const opened = await open(t);
  const { page } = opened;
  await still(page);
  await page.locator(".kept li", { hasText: "Skillet" }).locator("button", { hasText: "Open" }).click();
  await page.locator("#verdict[data-verdict=gives]").waitFor();
  await page.locator(".way-list button").first().waitFor({ timeout: SEARCH_MS });
  const gains = (await page.locator(".way-list:not(.two) .gain").allInnerTexts()).map((text) => Number(text));
  assert.ok(gains.length > 0 && gains.every((gain) => gain > 0), String(gains));
  // What is enough stands first, what loses least before what gains most.
  const planned = Number((await page.locator(".ways .how").allInnerTexts()).join(" ").match(/\((\d+)\s(?:\w+\s)?planned\)/)[1]);
  const most = (await page.locator(".way-list:not(.two) .way span").allInnerTexts()).map((text) => Number(text.match(/\d+/)[0]));
  const enough = most.map((covers) => covers >= planned);
  const marked = (await page.locator(".way-list:not(.two) .enough").allInnerTexts()).map((text) => text === "enough alone");
  assert.deepEqual(marked, enough, "each says whether it is enough alone");
  assert.deepEqual(enough, [...enough].sort((a, b) => b - a), `${most} of ${planned}: what is enough first`);
  await page.locator(".way-list button").first().click();
  await page.locator("#verdict .done", { hasText: "Taken" }).waitFor();
  await still(page);
  assert.equal(await page.locator(".strip").count(), 0, "what was put in is right");
  assert.equal(await page.locator("#verdict[data-verdict=carries]").count(), Number(enough[0]), "it carries where that is enough");
  await page.locator("#verdict .done button").click();
  await until(async () => (await page.locator(".way-list .now").count()) === 0, "the change taken back");
  clean(opened);
});

for (const scheme of ["light", "dark"]) {
  test(`axe finds nothing on bad nights once they are played, ${scheme}`, async (t) => {
    const opened = await open(t, { scheme });
    const { page } = opened;
    await still(page);
    const nights = page.locator(".nights");
    await nights.locator("select").selectOption("60");
    await nights.locator("button.act").click();
    await nights.locator("canvas").first().waitFor({ timeout: SEARCH_MS });
    await until(async () => (await nights.locator("progress").count()) === 0, "all nights played", SEARCH_MS);
    assert.match(await nights.innerText(), /60/);
    await page.evaluate(() => document.querySelectorAll(".nights details").forEach((one) => (one.open = true)));
    await page.waitForTimeout(300); // the tables are drawn once they are open
    assert.ok((await nights.locator("table").count()) > 0, "tables beside the pictures");
    assert.deepEqual(await found(page), []);
    assert.deepEqual(await sideways(page), []);
    clean(opened);
  });
}

test("units are chosen once, put on figures and fields, and remembered; the scenario stays as it is", async (t) => {
  const opened = await open(t);
  const { page } = opened;
  await still(page);
  const metric = Number((await page.locator(".facts dd strong").first().innerText()).match(/\d+/)[0]);
  const width = await page.locator("#f-oven-width_cm").inputValue();
  await page.locator(".bar-acts button", { hasText: "Units" }).click();
  await page.locator(".unit-row button", { hasText: "°F" }).click();
  await page.locator(".unit-row button", { hasText: /^in$/ }).click();
  await until(async () => (await page.locator(".facts dd strong").first().innerText()).includes("°F"), "degrees Fahrenheit");
  const shown = Number((await page.locator(".facts dd strong").first().innerText()).match(/\d+/)[0]);
  assert.ok(Math.abs(shown - (metric * 1.8 + 32)) <= 1.5, `${metric} °C is ${shown} °F`);
  assert.equal(await page.locator("#f-oven-width_cm-unit").innerText(), "in");
  assert.ok(Math.abs(Number(await page.locator("#f-oven-width_cm").inputValue()) * 2.54 - Number(width)) < 0.1);
  assert.deepEqual(await found(page), []);
  await page.reload();
  await first(page);
  assert.ok((await page.locator(".facts dd strong").first().innerText()).includes("°F"), "remembered");
  await page.locator(".bar-acts button", { hasText: "Units" }).click();
  await page.locator(".unit-row button", { hasText: "°C" }).click();
  await page.locator(".unit-row button", { hasText: /^cm$/ }).click();
  await until(async () => (await page.locator("#f-oven-width_cm").inputValue()) === width, "the scenario's own number");
  clean(opened);
});
