// Holds what was measured last against every target and says met or missed. A target of which nothing is measured yet is said so.
//   node tests/bench/targets.mjs BUILT      BUILT is cargo's target folder
import { readFileSync } from "node:fs";
import { join } from "node:path";

const built = process.argv[2];

function read(...path) {
  try {
    return JSON.parse(readFileSync(join(built, ...path), "utf8"));
  } catch {
    return {};
  }
}

/** Median of a benchmark, s. */
const bench = (group, name) => read("criterion", group, name, "new", "estimates.json").median?.point_estimate / 1e9;
const peers = read("bench", "peers.json");
const page = read("bench", "page.json");
const cores = read("bench", "cores.json");
const wide = (level) => {
  const told = read("bench", `${level}.json`);
  return told.node_updates / told.seconds / 1e9 / peers.numba_gnode_s;
};

/** What, the figure, the limit, whether less is better, unit. */
const targets = [
  ["column against the best numba, plain vectors", wide("plain"), 1.6, false, "x"],
  ["column against the best numba, AVX2", wide("v3"), 2.2, false, "x"],
  // What a machine without AVX-512 chooses is the row above.
  ["column against the best numba, widest vectors here", peers.numba, 3.0, false, "x"],
  ["full day, native", 1e3 * bench("answer", "day"), 15, true, "ms"],
  ["full day, WebAssembly over native", page.wasm, 1.3, true, "x"],
  ["edit to new verdict, 95th percentile", page.edit_p95_ms, 100, true, "ms"],
  ["ladder of 8 x 2, all cores", cores.ladder_s, 1, true, "s"],
  ["cadence plan", bench("answer", "cadence"), 1.5, true, "s"],
  ["1000 nights, all cores", cores.nights_s, 8, true, "s"],
  ["1000 nights, browser's pool", page.nights_s, 20, true, "s"],
  ["longest main-thread task", Math.max(page.cold_task_ms, page.edit_task_ms), 50, true, "ms"],
  ["first verdict after a cold load", page.cold_ms, 1500, true, "ms"],
  ["WebAssembly of page and worker, gzipped", page.gzip_kb, 700, true, "kB"],
  ["a day's memory in the browser", page.memory_mb, 64, true, "MB"],
];

for (const [what, figure, limit, isMost, unit] of targets) {
  const known = Number.isFinite(figure);
  const met = isMost ? figure <= limit : figure >= limit;
  const shown = known ? figure.toPrecision(3) : "-";
  const says = known ? (met ? "met" : "MISSED") : "not measured";
  console.log(`${what.padEnd(50)} ${shown.padStart(8)} ${unit.padEnd(2)}  ${isMost ? "at most" : "at least"} ${String(limit).padStart(5)}  ${says}`);
}
const others = [
  ["column, ours", peers.ours_gnode_s, "G node updates/s"],
  ["column, best numba", peers.numba_gnode_s, "G node updates/s"],
  ["numpy over ours", peers.numpy, "x"],
  ["scipy's stiff integrator over ours", peers.scipy, "x"],
  ["SimPy's queue alone over our whole night", peers.simpy, "x"],
  ["20 nights, one core", bench("answer", "nights_20"), "s"],
  ["ladder, one core", bench("answer", "ladder"), "s"],
];
for (const [what, figure, unit] of others) {
  console.log(`${what.padEnd(50)} ${(Number.isFinite(figure) ? figure.toPrecision(3) : "-").padStart(8)} ${unit}`);
}
