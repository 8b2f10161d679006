// Bad luck in a browser: storage full or denied; a clock that jumps, a worker that dies, a tab put to
// sleep, a file that is far too large, markup where a name should be. Nothing typed is lost, and nothing in data ever runs.
import assert from "node:assert/strict";
import { mkdtempSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { browser, clean, first, open, server, until } from "./harness.mjs";

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
  const foreign = [];
  context.on("request", (request) => {
    const url = request.url();
    if (/^(https?|wss?):/.test(url) && new URL(url).origin !== new URL(address).origin) foreign.push(url);
  });
  await page.goto(address);
  await first(page);
  return { page, context, address, foreign };
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
  const { page, foreign } = await visit(t, (context) =>
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
  assert.deepEqual(foreign, []);
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

test("a clock that jumps a year back changes nothing", async (t) => {
  const opened = await open(t);
  const { page } = opened;
  await still(page);
  await page.evaluate(() => {
    const Real = Date;
    const back = 366 * 86_400_000;
    window.Date = class extends Real {
      constructor(...given) {
        if (given.length > 0) super(...given);
        else super(Real.now() - back);
      }
      static now() {
        return Real.now() - back;
      }
    };
  });
  const before = await page.locator(".facts").innerText();
  await page.locator(WIDTH).fill("100");
  await until(async () => (await page.locator(".facts").innerText()) !== before, "another answer");
  await isKept(page, "100");
  await page.reload();
  await first(page);
  assert.equal(await width(page), "100");
  clean(opened);
});

test("a worker that crashes in mid-run is reported, and the next question starts another", async (t) => {
  const { page } = await open(t);
  await still(page);
  const own = await until(() => page.workers()[0], "the page's worker");
  await page.locator(WIDTH).fill("111");
  await own.evaluate(() => setTimeout(() => { throw new Error("out of memory"); })).catch(() => undefined);
  await page.locator(".strip", { hasText: "out of memory" }).waitFor();
  assert.equal(await width(page), "111");
  await isKept(page, "111");
  await page.locator(WIDTH).fill("112");
  await until(async () => (await page.locator(".strip").count()) === 0, "computing again");
  await still(page);
});

test("a tab put to sleep in mid-run goes on when it wakes", async (t) => {
  const opened = await open(t);
  const { page, context } = opened;
  await still(page);
  const before = await page.locator(".facts").innerText();
  const session = await context.newCDPSession(page);
  await page.locator(WIDTH).fill("100");
  await session.send("Page.setWebLifecycleState", { state: "frozen" });
  await new Promise((done) => setTimeout(done, 1500));
  await session.send("Page.setWebLifecycleState", { state: "active" });
  await until(async () => (await page.locator(".facts").innerText()) !== before, "the answer after waking");
  assert.equal(await width(page), "100");
  await isKept(page, "100");
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
