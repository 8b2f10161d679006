// Bad luck in a browser: storage full or denied; a clock that jumps, a worker that dies, a tab put to
// sleep, a file that is far too large, markup where a name should be. Nothing typed is lost, and nothing in data ever runs.
import assert from "node:assert/strict";
import { mkdtempSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { browser, clean, expect, first, open, server, until } from "./harness.mjs";

const WIDTH = "#f-oven-width_cm";
const ONE = "hearthload.one.";
const width = (page) => page.locator(WIDTH).inputValue();
const still = (page) => until(() => page.locator("#verdict[aria-busy=false]").count(), "an answer that stands still");
const saved = (page) => page.locator(".saved").first().innerText();
const isKept = (page, text) =>
  until(
    () => page.evaluate(([key, text]) => Object.keys(localStorage).some((it) => it.startsWith(key) && localStorage[it].includes(text)), [ONE, text]),
    `${text} kept`,
  );

/** A page whose browser is prepared by `before` (a context) ahead of its first visit. */
async function visit(t, before) {
  const { address } = await server(t);
  const context = await (await browser(t)).newContext({ viewport: { width: 1280, height: 900 } });
  await before(context, address);
  const page = await context.newPage();
  await page.goto(address);
  await first(page);
  return { page, context, address };
}

/** What is typed in these tests, all of it; each goes on from there. */
const TYPED = { "#f-oven-width_cm": "100", "#f-name": "Bad luck" };

async function type(page, typed = TYPED) {
  for (const [field, text] of Object.entries(typed)) await page.locator(field).fill(text);
}

/** All that was typed stands in its fields, and is kept. */
async function nothingLost(page, typed = TYPED) {
  for (const [field, text] of Object.entries(typed)) assert.equal(await page.locator(field).inputValue(), text, field);
  for (const text of Object.values(typed)) await isKept(page, text);
}

/** The answer on a page that stands still: its verdict and its facts. */
async function answer(page) {
  await still(page);
  // What is spoken of it comes later and goes again.
  return Promise.all(["#verdict-says", "#verdict .because", ".facts"].map((part) => page.locator(part).first().innerText()));
}

/** What the same gives in a browser nothing ever happens to. */
async function undisturbed({ browser: started, address }, typed = TYPED) {
  const context = await started.newContext({ viewport: { width: 1280, height: 900 }, reducedMotion: "reduce" });
  const page = await context.newPage();
  await page.goto(address);
  await first(page);
  const before = await answer(page);
  await type(page, typed);
  const after = await settled(page, before);
  await context.close();
  return after;
}

/** The answer once it is another than `before` and no longer changes. */
async function settled(page, before) {
  await until(async () => (await answer(page)).at(-1) !== before.at(-1), "another answer");
  let last = await answer(page);
  await until(async () => {
    await new Promise((done) => setTimeout(done, 400));
    const now = await answer(page);
    const same = now.join() === last.join();
    last = now;
    return same;
  }, "an answer that stays");
  return last;
}

test("with the storage full all goes on, says so, and is kept again once there is room", async (t) => {
  const opened = await open(t);
  const { page } = opened;
  await still(page);
  await page.evaluate(() => {
    for (let size = 1 << 20; size >= 1; size >>= 1) {
      for (let at = 0; at < 20; at += 1) {
        try {
          localStorage.setItem(`ballast-${size}-${at}`, "x".repeat(size));
        } catch {
          break;
        }
      }
    }
  });
  await page.locator("#f-name").fill(`Ballast ${"long ".repeat(12)}`);
  await until(async () => /keeps nothing/.test(await saved(page)), "a word that nothing is kept");
  await page.locator(WIDTH).fill("111");
  await still(page);
  assert.equal(await width(page), "111");
  await page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith("ballast")).forEach((key) => localStorage.removeItem(key)));
  await page.locator(WIDTH).fill("112");
  await until(async () => /saved in this browser/.test(await saved(page)), "kept again");
  await page.reload();
  await first(page);
  assert.equal(await width(page), "112");
  clean(opened);
});

test("with the storage denied the page computes, and says that it keeps nothing", async (t) => {
  const { page } = await visit(t, (context) =>
    context.addInitScript(() => {
      Object.defineProperty(window, "localStorage", {
        get() {
          throw new DOMException("denied", "SecurityError");
        },
      });
    }),
  );
  await page.locator(WIDTH).fill("111");
  await still(page);
  assert.match(await saved(page), /keeps nothing/);
  assert.equal(await width(page), "111");
});

test("what was typed just before a tab is shut is there the next time", async (t) => {
  const { page, context, address } = await open(t);
  await still(page);
  await page.locator(WIDTH).fill("117");
  await page.close({ runBeforeUnload: false });
  const again = await context.newPage();
  await again.goto(address);
  await first(again);
  assert.equal(await width(again), "117");
});

for (const [where, by] of [["back", -366], ["ahead", 366]]) {
  test(`a clock that jumps a year ${where} in mid-run changes nothing`, async (t) => {
    const opened = await open(t);
    const { page } = opened;
    const before = await answer(page);
    await type(page);
    await page.evaluate((by) => {
      const Real = Date;
      const ms = by * 86_400_000;
      window.Date = class extends Real {
        constructor(...given) {
          if (given.length > 0) super(...given);
          else super(Real.now() + ms);
        }
        static now() {
          return Real.now() + ms;
        }
      };
    }, by);
    assert.deepEqual(await settled(page, before), await undisturbed(opened));
    await nothingLost(page);
    await page.reload();
    await first(page);
    await nothingLost(page);
    assert.deepEqual(await answer(page), await undisturbed(opened));
    clean(opened);
  });
}

test("a worker that crashes in mid-run is reported, and the next question starts another", async (t) => {
  expect(t, /out of memory/);
  const opened = await open(t);
  const { page } = opened;
  await still(page);
  const own = await until(() => page.workers()[0], "the page's worker");
  await type(page);
  await own.evaluate(() => setTimeout(() => { throw new Error("out of memory"); })).catch(() => undefined);
  await page.locator(".strip", { hasText: "out of memory" }).waitFor();
  await nothingLost(page);
  const typed = { ...TYPED, "#f-oven-width_cm": "112" };
  await type(page, typed);
  await until(async () => (await page.locator(".strip").count()) === 0, "computing again");
  const expected = await undisturbed(opened, typed);
  await until(async () => (await answer(page)).join() === expected.join(), "the answer of a browser nothing happened to");
  await nothingLost(page, typed);
  await page.reload();
  await first(page);
  await nothingLost(page, typed);
});

test("a tab put to sleep in mid-run goes on when it wakes", async (t) => {
  const opened = await open(t);
  const { page, context } = opened;
  const before = await answer(page);
  const session = await context.newCDPSession(page);
  await type(page);
  await session.send("Page.setWebLifecycleState", { state: "frozen" });
  await new Promise((done) => setTimeout(done, 1500));
  await session.send("Page.setWebLifecycleState", { state: "active" });
  assert.deepEqual(await settled(page, before), await undisturbed(opened));
  await nothingLost(page);
  await page.reload();
  await first(page);
  await nothingLost(page);
  clean(opened);
});

test("a file of 100 MB is refused in words and hurts nothing", async (t) => {
  const opened = await open(t);
  const { page } = opened;
  const folder = mkdtempSync(join(tmpdir(), "hearthload-"));
  t.after(() => rmSync(folder, { recursive: true }));
  const file = join(folder, "heap.json");
  writeFileSync(file, "{");
  truncateSync(file, 100_000_000);
  await page.locator(WIDTH).fill("111");
  await page.locator("input[type=file]").first().setInputFiles(file);
  await page.locator(".strip", { hasText: "larger than a scenario can be" }).waitFor();
  assert.equal(await width(page), "111");
  clean(opened);
});

test("markup in names, files and links is text and never runs", async (t) => {
  const opened = await open(t);
  const { page, browser: started, address } = opened;
  await still(page);
  const markup = `<img src=x onerror="window.ran=1"><script>window.ran=1</script>"'&`;
  const harmless = async (where, what) => {
    await where.waitForTimeout(300);
    assert.equal(await where.evaluate(() => window.ran), undefined, what);
    assert.equal(await where.locator("img[src=x], main script").count(), 0, what);
  };
  // Pasted into a name.
  await page.locator("#f-name").focus();
  await page.keyboard.press("ControlOrMeta+A");
  await page.keyboard.insertText(markup);
  await until(async () => (await page.locator("body").innerText()).includes("<img src=x"), "the markup as text");
  await harmless(page, "pasted");
  // In every text of a file, and as a name of a field.
  const draft = await page.evaluate((key) => JSON.parse(localStorage.getItem(`${key}1`)).doc, ONE);
  const bad = { ...draft, name: markup, note: markup, [markup]: 1, menu: draft.menu.map((dish, at) => ({ ...dish, name: `${markup} ${at}` })) };
  await page.locator("input[type=file]").first().setInputFiles({ name: `${markup}.json`, mimeType: "application/json", buffer: Buffer.from(JSON.stringify(bad)) });
  await until(async () => (await page.locator("body").innerText()).includes("onerror"), "the file's markup as text");
  await harmless(page, "from a file");
  await page.locator("input[type=file]").first().setInputFiles({ name: "page.json", mimeType: "text/html", buffer: Buffer.from(`<html>${markup}</html>`) });
  await page.locator(".strip", { hasText: "is not a scenario" }).waitFor();
  await harmless(page, "a page for a file");
  // By link, in another browser.
  const { deflateSync } = await import("node:zlib");
  const packed = deflateSync(Buffer.from(JSON.stringify(bad))).toString("base64url");
  const other = await (await started.newContext()).newPage();
  await other.goto(`${address}#scenario=1.${packed}`);
  await until(async () => (await other.locator("body").innerText()).includes("onerror"), "the link's markup as text");
  await harmless(other, "from a link");
  clean(opened);
});
