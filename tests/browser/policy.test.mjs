// The Content-Security-Policy holds on every file, in the page and in the worker: no eval, no outside request.
import assert from "node:assert/strict";
import { readdirSync } from "node:fs";
import { test } from "node:test";
import { DIST, expect, open, worker } from "./harness.mjs";

/** Runs as a task of its own: what the debugger evaluates directly would be let off the policy. */
const tryEval = () =>
  new Promise((done) => {
    setTimeout(() => {
      try {
        done(`ran: ${(0, eval)("6 * 7")}`);
      } catch (error) {
        done(error.name);
      }
    });
  });

const tryOutside = () =>
  new Promise((done) => {
    setTimeout(() => {
      fetch("http://127.0.0.2:9/outside").then(
        () => done("answered"),
        () => undefined,
      );
      addEventListener("securitypolicyviolation", (event) => done(event.effectiveDirective));
      setTimeout(() => done("no refusal seen"), 5000);
    });
  });

/** What the browser says of what its policy held back. */
const HELD_BACK = [/Content Security Policy/, /127\.0\.0\.2:9\/outside: csp/];

test("every file carries the policy as a header", async (t) => {
  const { page, address } = await open(t, { verdict: false });
  const files = readdirSync(DIST, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => `${entry.path.slice(DIST.length)}/${entry.name}`.slice(1));
  assert.ok(files.some((name) => name === "worker_loader.js") && files.includes("sw.js"), files.join(" "));
  for (const name of ["", ...files]) {
    const answer = await page.request.get(address + name);
    const policy = answer.headers()["content-security-policy"];
    assert.match(policy ?? "none", /^default-src 'none'; script-src 'self' 'wasm-unsafe-eval'/, name);
    assert.doesNotMatch(policy, /unsafe-inline/, name);
  }
});

test("the page cannot evaluate text or ask elsewhere", async (t) => {
  expect(t, ...HELD_BACK);
  const { page } = await open(t);
  assert.equal(await page.evaluate(tryEval), "EvalError");
  assert.equal(await page.evaluate(tryOutside), "connect-src");
});

test("the worker cannot evaluate text or ask elsewhere", async (t) => {
  expect(t, ...HELD_BACK);
  const { page } = await open(t);
  const started = await worker(page);
  assert.equal(await started.evaluate(tryEval), "EvalError");
  assert.equal(await started.evaluate(tryOutside), "connect-src");
});

test("markup from outside cannot run", async (t) => {
  expect(t, ...HELD_BACK, /none\.png/);
  const { page } = await open(t);
  const ran = await page.evaluate(
    () =>
      new Promise((done) => {
        const place = document.createElement("div");
        place.innerHTML = '<img src="./none.png" onerror="window.ran = true">';
        document.body.append(place);
        setTimeout(() => done(window.ran === true), 500);
      }),
  );
  assert.equal(ran, false);
});
