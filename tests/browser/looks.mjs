// Looks a test can take at a page as it stands: what axe finds, what sticks out sideways.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

/** What axe finds on a page as it stands, one line for each rule that is broken. */
export async function found(page) {
  await page.evaluate(AXE);
  const { violations } = await page.evaluate((values) => window.axe.run({ runOnly: { type: "tag", values } }), RULES);
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(" ")).join(", ")}`);
}

/** What sticks out to the right of the window, if the page can be scrolled sideways; else nothing. */
export function sideways(page) {
  return page.evaluate(() => {
    const { clientWidth, scrollWidth } = document.documentElement;
    if (scrollWidth <= clientWidth) return [];
    const out = [...document.querySelectorAll("body *")].filter((one) => one.getBoundingClientRect().right > clientWidth + 0.5);
    return [`${scrollWidth} px wide in ${clientWidth}`, ...out.slice(0, 5).map((one) => one.outerHTML.slice(0, 120))];
  });
}
