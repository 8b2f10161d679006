// Called by seal.mjs after a release build: lays functions that are like each other side by side, because gzip looks back
// 32 kB only. The order is told to wasm-opt by names, which it drops again; what the program does is not touched.
import { spawnSync } from "node:child_process";
import { readFileSync, renameSync, writeFileSync } from "node:fs";

/** Bytes looked at together; a run that more functions than this have in common tells nothing. */
const GRAM = 6;
const COMMON = 40;
/** How much the functions laid last count, the newest first. */
const WEIGHTS = [1, 0.7, 0.5, 0.35];

/** An unsigned LEB128 number at `at`: its value and where it ends. */
function leb(bytes, at) {
  let value = 0;
  for (let shift = 0; ; shift += 7) {
    const byte = bytes[at++];
    value += (byte & 127) * 2 ** shift;
    if (byte < 128) return [value, at];
  }
}

function lebBytes(value) {
  const bytes = [];
  do {
    bytes.push((value % 128) + (value >= 128 ? 128 : 0));
    value = Math.floor(value / 128);
  } while (value > 0);
  return bytes;
}

/** How many functions are imported, and the bodies of the others. */
function parts(bytes) {
  let imported = 0;
  const bodies = [];
  for (let at = 8; at < bytes.length; ) {
    const kind = bytes[at];
    let [size, from] = leb(bytes, at + 1);
    at = from + size;
    let count;
    if (kind === 2) {
      [count, from] = leb(bytes, from);
      for (; count > 0; count--) {
        for (const _ of "module, field".split(", ")) {
          [size, from] = leb(bytes, from);
          from += size;
        }
        const what = bytes[from++];
        if (what === 0) {
          imported++;
          [, from] = leb(bytes, from);
        } else if (what === 3) from += 2;
        else {
          if (what === 1) from++;
          const limits = bytes[from++];
          [, from] = leb(bytes, from);
          if (limits & 1) [, from] = leb(bytes, from);
        }
      }
    } else if (kind === 10) {
      [count, from] = leb(bytes, from);
      for (; count > 0; count--) {
        [size, from] = leb(bytes, from);
        bodies.push(bytes.subarray(from, from + size));
        from += size;
      }
    }
  }
  return { imported, bodies };
}

/** The places of the bodies, each followed by the one most like it and those before it. */
function order(bodies) {
  const seen = new Map();
  const grams = bodies.map((body) => {
    const own = new Set();
    for (let at = 0; at + GRAM <= body.length; at++) {
      own.add(body[at] + 256 * (body[at + 1] + 256 * (body[at + 2] + 256 * (body[at + 3] + 256 * (body[at + 4] + 256 * body[at + 5])))));
    }
    for (const gram of own) seen.set(gram, (seen.get(gram) ?? 0) + 1);
    return own;
  });
  const where = new Map();
  const telling = grams.map((own, place) => {
    const kept = [...own].filter((gram) => seen.get(gram) > 1 && seen.get(gram) <= COMMON);
    for (const gram of kept) where.set(gram, [...(where.get(gram) ?? []), place]);
    return kept;
  });
  const laid = new Set();
  const list = [];
  for (let first = 0; list.length < bodies.length; ) {
    const score = new Map();
    WEIGHTS.forEach((weight, back) => {
      for (const gram of telling[list.at(-1 - back)] ?? []) {
        for (const place of where.get(gram)) if (!laid.has(place)) score.set(place, (score.get(place) ?? 0) + weight);
      }
    });
    let next, best = 0;
    for (const [place, value] of score) {
      const likeness = value / (Math.sqrt(telling[place].length) + 8);
      if (likeness > best) [next, best] = [place, likeness];
    }
    while (laid.has(first)) first++;
    next ??= first;
    laid.add(next);
    list.push(next);
  }
  return list;
}

/** The module with names that sort its functions in that order. */
function named(bytes, imported, list) {
  const names = [];
  const entry = (index, name) => names.push(...lebBytes(index), ...lebBytes(name.length), ...Buffer.from(name));
  for (let index = 0; index < imported; index++) entry(index, `i${String(index).padStart(6, "0")}`);
  const rank = new Array(list.length);
  list.forEach((place, at) => (rank[place] = at));
  rank.forEach((at, place) => entry(imported + place, `o${String(at).padStart(6, "0")}`));
  const map = [...lebBytes(imported + list.length), ...names];
  const section = [4, ...Buffer.from("name"), 1, ...lebBytes(map.length), ...map];
  return Buffer.concat([bytes, Buffer.from([0, ...lebBytes(section.length), ...section])]);
}

/** Lays the functions of a program anew. */
export function lay(file) {
  const bytes = readFileSync(file);
  const { imported, bodies } = parts(bytes);
  writeFileSync(`${file}.named`, named(bytes, imported, order(bodies)));
  const laid = spawnSync("wasm-opt", ["--reorder-functions-by-name", `${file}.named`, "-o", `${file}.named`], { stdio: "inherit" });
  if (laid.status !== 0) throw new Error(`wasm-opt could not lay ${file} anew`);
  renameSync(`${file}.named`, file);
}
