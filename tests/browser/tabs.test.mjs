// Two tabs of one browser: what is changed in either is kept and comes to the other; what both change at once is kept twice; what
// one takes away while the other changes it stays; what cannot be read is set aside and said.
import assert from "node:assert/strict";
import { test } from "node:test";
import { clean, first, open, until } from "./harness.mjs";

const WIDTH = "#f-oven-width_cm";
const NAME = "#f-name";
const SECOND = "(second tab)";

const width = (page) => page.locator(WIDTH).inputValue();
const name = (page) => page.locator(NAME).inputValue();
/** All that is kept: name and width of each scenario, by its number. */
const kept = (page) =>
  page.evaluate(() =>
    Object.keys(localStorage)
      .filter((key) => key.startsWith("hearthload.one."))
      .sort((a, b) => a.slice(15) - b.slice(15))
      .map((key) => JSON.parse(localStorage[key]).doc)
      .filter((doc) => doc)
      .map((doc) => [doc.name, doc.oven.width_cm]),
  );
const entry = (page, at) => page.locator(".shelf .kept li").nth(at);
const opens = (page, at) => entry(page, at).locator("button", { hasText: "Open" }).click();

/** A second tab of the same browser. */
async function another(opened) {
  const page = await opened.context.newPage();
  await page.goto(opened.address);
  await first(page);
  return page;
}

/** The page open in a first tab whose hearing can be taken away, and a second one. */
async function two(t) {
  const opened = await open(t);
  // On a window listeners are called as they came: these must be there before the page's own.
  await opened.context.addInitScript(() => {
    for (const kind of ["storage", "visibilitychange", "pageshow", "pagehide"]) {
      window.addEventListener(kind, (event) => window.deaf && event.stopImmediatePropagation(), true);
    }
  });
  await opened.page.reload();
  await first(opened.page);
  return { opened, a: opened.page, b: await another(opened) };
}

/** From now on a tab hears of others no sooner than it writes itself, as one that sleeps or whose processor is busy. */
const deafen = (page) => page.evaluate(() => (window.deaf = true));

test("a change comes to the other tab at once, and edits of two scenarios in two tabs are both kept", async (t) => {
  const { opened, a, b } = await two(t);
  await a.locator(WIDTH).fill("111");
  await until(async () => (await width(b)) === "111", "the change in the other tab");
  await b.locator(".done", { hasText: "another tab" }).waitFor();
  await opens(b, 1);
  await first(b);
  await b.locator(WIDTH).fill("122");
  await a.locator(WIDTH).fill("113");
  await until(async () => (await kept(a))[1][1] === 122 && (await kept(a))[0][1] === 113, "both kept");
  // Each tab is loaded again on what it had open, with what the other did in the list.
  await Promise.all([a.reload(), b.reload()]);
  await Promise.all([first(a), first(b)]);
  assert.deepEqual([await width(a), await width(b)], ["113", "122"]);
  await opens(a, 1);
  assert.equal(await width(a), "122");
  clean(opened);
});

test("one scenario changed in two tabs at once is kept twice, and each tab goes on with its own", async (t) => {
  const { opened, a, b } = await two(t);
  const was = await name(a);
  await deafen(b);
  await a.locator(WIDTH).fill("111");
  // Seen in the other tab's storage, and not heard of.
  await until(async () => (await kept(b))[0][1] === 111, "the first kept");
  await b.locator(WIDTH).fill("122");
  await b.locator(".strip", { hasText: "two tabs at once" }).waitFor();
  assert.equal(await name(b), `${was} ${SECOND}`);
  assert.deepEqual([await width(a), await width(b)], ["111", "122"]);
  const all = await kept(a);
  assert.deepEqual(all[0], [was, 111]);
  assert.deepEqual(all.at(-1), [`${was} ${SECOND}`, 122]);
  await entry(a, all.length - 1).getByText(SECOND).waitFor();
  // What is typed next goes to each its own.
  await b.locator(WIDTH).fill("123");
  await a.locator(WIDTH).fill("112");
  await until(async () => (await kept(a)).at(-1)[1] === 123 && (await kept(a))[0][1] === 112, "both kept on");
  await b.reload();
  await first(b);
  assert.deepEqual([await name(b), await width(b)], [`${was} ${SECOND}`, "123"]);
  clean(opened);
});

test("what is taken away in one tab while it is changed in another is not lost", async (t) => {
  const { opened, a, b } = await two(t);
  const count = (await kept(a)).length;
  await opens(b, 1);
  await first(b);
  const changed = await name(b);
  await deafen(a);
  await b.locator(WIDTH).fill("122");
  await until(async () => (await kept(a))[1][1] === 122, "the change kept");
  await entry(a, 1).locator("button", { hasText: "Take away" }).click();
  await until(async () => (await kept(a)).some((one) => one[0] === changed && one[1] === 122), "still there");
  assert.equal((await kept(a)).length, count);
  assert.equal(await width(b), "122");
  // Taken away by one who knows of the change it goes from both, and can be had back in either.
  await a.reload();
  await first(a);
  await entry(a, 1).locator("button", { hasText: "Take away" }).click();
  await b.locator(".done", { hasText: `${changed} was taken off the list in another tab` }).waitFor();
  assert.equal((await kept(a)).length, count - 1);
  await b.locator(".done button").click();
  await until(async () => (await kept(a)).length === count, "had back");
  assert.equal(await width(b), "122");
  clean(opened);
});

test("what cannot be read is set aside and said, and the rest is there", async (t) => {
  const { opened, a: page, b } = await two(t);
  await b.close();
  await page.locator(WIDTH).fill("111");
  const count = await until(async () => (await kept(page))[0][1] === 111 && (await kept(page)).length, "kept");
  // Under the open page: what is shown is written again.
  await page.evaluate(() => {
    localStorage["hearthload.one.1"] = '{"one":1,"doc":{"name":"torn';
  });
  await page.locator(WIDTH).fill("112");
  await page.locator(".strip", { hasText: "set aside, not thrown away" }).waitFor();
  assert.equal((await kept(page))[0][1], 112);
  // Between visits: the others open.
  await deafen(page);
  await page.evaluate(() => {
    localStorage["hearthload.one.1"] = "\u0000";
  });
  await page.reload();
  await page.locator(".strip", { hasText: "set aside, not thrown away" }).waitFor();
  await first(page);
  assert.equal((await kept(page)).length, count - 1);
  const aside = await page.evaluate(() => [1, 2].map((number) => localStorage[`hearthload.aside.${number}`]));
  assert.deepEqual(aside, ['{"one":1,"doc":{"name":"torn', "\u0000"]);
  await page.locator(".strip button").click();
  assert.equal(await page.locator(".strip", { hasText: "set aside" }).count(), 0);
  clean(opened);
});
