// The outside checks run in the browser when somebody opens their list, in a program that is not fetched before.
import assert from "node:assert/strict";
import { test } from "node:test";
import { clean, open } from "./harness.mjs";

test("the list of outside checks is fetched and run on request", async (t) => {
  const opened = await open(t);
  const { page, context } = opened;
  const asked = [];
  context.on("request", (request) => asked.push(request.url()));
  await page.locator("#trust button").click();
  await page.locator("#trust table tbody tr").first().waitFor({ timeout: 60_000 });
  assert.ok(asked.some((url) => url.endsWith("checks_loader.js")), "the checks' own program");
  assert.ok((await page.locator("#trust table tbody tr").count()) > 20, "many checks");
  clean(opened);
});
