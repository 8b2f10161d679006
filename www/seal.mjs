// Runs after every build of the page. Writes worker_loader.js, by which a worker loads the very program the page loads, and the other
// language's text; puts into sw.js the list of files that make up this version and a hash of them all, so that the service worker takes or
// leaves a version whole. Trunk calls it with TRUNK_STAGING_DIR; tests give a folder.
import { createHash } from "node:crypto";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { lay } from "./order.mjs";

/** Every file of the version but the service worker itself, sorted, as paths relative to the folder. */
function filesIn(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.path, entry.name)).split(sep).join("/"))
    .filter((name) => name !== "sw.js")
    .sort();
}

/** Seals `folder` and returns its version. */
export function seal(folder) {
  const files = filesIn(folder);
  const hash = createHash("sha256");
  for (const name of files) hash.update(`${name}\0`).update(readFileSync(join(folder, name)));
  const template = readFileSync(join(dirname(fileURLToPath(import.meta.url)), "sw.js"), "utf8");
  hash.update(template);
  const version = hash.digest("hex").slice(0, 16);
  // "./" is how a browser asks for index.html; it is kept under that name too.
  const list = ["./", ...files];
  const sealed = template.replace('"unsealed"', JSON.stringify(version)).replace("[];", `${JSON.stringify(list)};`);
  writeFileSync(join(folder, "sw.js"), sealed);
  return version;
}

/** The worker's way in: the names that trunk gave to the program stand in index.html. */
function writeLoader(folder) {
  const page = readFileSync(join(folder, "index.html"), "utf8");
  const name = (which) => {
    const found = new RegExp(`data-${which}="([^"]+)"`).exec(page)?.[1];
    if (!found) throw new Error(`index.html names no data-${which}`);
    return JSON.stringify(found);
  };
  const lines = [
    `import start from ${name("js")};`,
    `await start({ module_or_path: new URL(${name("wasm")}, import.meta.url) });`,
  ];
  writeFileSync(join(folder, "worker_loader.js"), `${lines.join("\n")}\n`);
}

/** The other language's text as one file, its name in index.html. */
function writeGerman(folder) {
  const parts = join(dirname(fileURLToPath(import.meta.url)), "..", "src", "page", "src", "words", "german");
  const read = (name) => readFileSync(join(parts, name), "utf8");
  const sentences = readdirSync(parts).filter((name) => name !== "words.txt").sort();
  const lines = [read("words.txt"), "---\n", ...sentences.map(read)].join("").split("\n");
  const text = lines.filter((line) => line && !line.startsWith("#")).join("\n");
  const name = `german-${createHash("sha256").update(text).digest("hex").slice(0, 16)}.txt`;
  writeFileSync(join(folder, name), text);
  const page = join(folder, "index.html");
  writeFileSync(page, readFileSync(page, "utf8").replace('data-german="german.txt"', `data-german="${name}"`));
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const folder = process.argv[2] ?? process.env.TRUNK_STAGING_DIR;
  if (!folder) throw new Error("seal.mjs wants a folder, or TRUNK_STAGING_DIR");
  // Debug builds are not worth the seconds.
  if (process.env.TRUNK_PROFILE === "release") {
    for (const name of filesIn(folder).filter((name) => /^app-.*\.wasm$/.test(name))) lay(join(folder, name));
  }
  writeLoader(folder);
  writeGerman(folder);
  seal(folder);
}
