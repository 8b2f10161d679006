// Takes README's picture of the page as it is built: node tests/browser/picture.mjs (after ./tests/all page).
import { fileURLToPath } from "node:url";
import { open } from "./harness.mjs";

const ends = [];
const { page } = await open({ after: (end) => ends.push(end) }, { width: 1280, height: 940 });
await page.waitForTimeout(1500);
await page.screenshot({ path: fileURLToPath(new URL("../../www/page.png", import.meta.url)) });
for (const end of ends) await end();
