// A small static server for target/www: every answer carries the Content-Security-Policy as a header,
// because the meta tag in index.html does not reach workers. Run by www/serve, imported by the browser tests.
import { spawn } from "node:child_process";
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { dirname, extname, join, normalize, sep } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
export const DIST = join(here, "..", "target", "www");
const DEFAULT_PORT = 8118;

const TYPES = {
  ".css": "text/css; charset=utf-8",
  ".csv": "text/csv; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".png": "image/png",
  ".svg": "image/svg+xml; charset=utf-8",
  ".txt": "text/plain; charset=utf-8",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json; charset=utf-8",
};

/** The policy, read from the one place that states it: the meta tag of index.html. `frame-ancestors` works in a header only. */
export async function policy() {
  const page = await readFile(join(here, "index.html"), "utf8");
  const found = /http-equiv="Content-Security-Policy"\s+content="([^"]+)"/.exec(page);
  if (!found) throw new Error("www/index.html states no Content-Security-Policy");
  return `${found[1].replace(/\s+/g, " ").trim()}; frame-ancestors 'none'`;
}

/** The file a path asks for, or undefined where it leads out of the folder served. */
function fileFor(root, base, path) {
  if (!path.startsWith(base)) return undefined;
  let name;
  try {
    name = decodeURIComponent(path.slice(base.length));
  } catch {
    return undefined;
  }
  if (name.includes("\0")) return undefined;
  if (name === "" || name.endsWith("/")) name += "index.html";
  const file = normalize(join(root, name));
  return file.startsWith(normalize(root) + sep) ? file : undefined;
}

/**
 * Serves `root` on 127.0.0.1 below the path `base`; port 0 takes any free one.
 * Resolves to `{ address, stop }`.
 */
export async function serve({ root = DIST, port = 0, base = "/" } = {}) {
  const headers = {
    "Content-Security-Policy": await policy(),
    "Cache-Control": "no-cache",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
  };
  const answer = async (request, response) => {
    const say = (status, type, body) => {
      response.writeHead(status, { ...headers, "Content-Type": type, "Content-Length": body.length });
      response.end(request.method === "HEAD" ? undefined : body);
    };
    if (request.method !== "GET" && request.method !== "HEAD") {
      return say(405, TYPES[".txt"], Buffer.from("Only GET and HEAD.\n"));
    }
    const file = fileFor(root, base, request.url.replace(/[?#].*$/, ""));
    try {
      if (!file) throw new Error("outside");
      const body = await readFile(file);
      return say(200, TYPES[extname(file)] ?? "application/octet-stream", body);
    } catch {
      return say(404, TYPES[".txt"], Buffer.from("Not here.\n"));
    }
  };
  const server = createServer(answer);
  await new Promise((done, fail) => {
    server.once("error", fail);
    server.listen(port, "127.0.0.1", done);
  });
  const stop = () =>
    new Promise((done) => {
      server.close(done);
      server.closeAllConnections();
    });
  return { address: `http://127.0.0.1:${server.address().port}${base}`, stop };
}

/** Asks the desktop to show the address; a machine without one loses nothing. */
function show(address) {
  const opener = process.platform === "darwin" ? "open" : "xdg-open";
  spawn(opener, [address], { stdio: "ignore", detached: true })
    .on("error", () => console.log(`(${opener} is missing: open the address by hand)`))
    .unref();
}

async function main(words) {
  const at = words.indexOf("--port");
  const asked = at >= 0 ? Number(words[at + 1]) : undefined;
  let served;
  try {
    served = await serve({ port: asked ?? DEFAULT_PORT });
  } catch (error) {
    if (error.code !== "EADDRINUSE" || asked !== undefined) {
      console.error(`hearthload: cannot serve: ${error.message}; try './www/serve --port 0' for any free port.`);
      process.exit(1);
    }
    served = await serve({ port: 0 });
  }
  console.log(`hearthload is on ${served.address}   (Ctrl-C ends it)`);
  if (words.includes("--open")) show(served.address);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await main(process.argv.slice(2));
