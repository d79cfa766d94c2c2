// What a report and a check cost: makes a session of 4 recordings of 14 s at 48 kHz, has it reported several times, each time
// by a new process, and prints what that took; then the same with a check of one reel of 30 s. Needs a built checkout and an otherwise idle machine: node tests/scripts/benchmark.mjs
import { spawnSync } from "node:child_process";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { availableParallelism, cpus, tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { writeSession } from "../../dist/cli/write-session.js";
import { demoStudio } from "../../dist/simulate/demo-studio.js";
import { simulateSession } from "../../dist/simulate/scenario.js";
import { makeSweepRecipe } from "../../dist/sweep/recipe.js";
import { renderReel, renderSingle } from "../../dist/sweep/render.js";

const RUNS = 7;
const RECORDING_S = 14;
const REEL_S = 30;
const bin = fileURLToPath(new URL("../../bin/carrywell.js", import.meta.url));
const folder = await mkdtemp(join(tmpdir(), "carrywell-benchmark-"));
try {
  const recordings = await makeSession(join(folder, "session"));
  const reports = inOrder((run) => ["report", join(folder, "session"), "--out", join(folder, `report-${run}`)]);
  console.log(`${recordings} recordings of ${RECORDING_S} s at 48 kHz, ${RUNS} runs, Node ${process.version}`);
  console.log(`${availableParallelism()} processors: ${cpus()[0]?.model ?? "unknown"}`);
  console.log(`report written after ${spread(reports)}`);
  console.log(`page ${((await readFile(join(folder, "report-0", "report.html"))).length / 1e6).toFixed(1)} MB`);
  await makeReel(join(folder, "reel"));
  const checks = inOrder(() => ["check", join(folder, "reel")]);
  console.log(`one reel of ${REEL_S} s checked after ${spread(checks)}`);
} finally {
  await rm(folder, { recursive: true, force: true });
}

/** Left and right, mains and nearfields: single sweeps of 8 s, each in a file of its own. */
async function makeSession(target) {
  const recipe = makeSweepRecipe({ durationS: 8, leadS: 1.9 });
  const { sampleRate } = recipe;
  const parts = ["L", "R"].map((channel) => {
    const sweep = renderSingle(recipe, channel);
    const scenario = {
      ...demoStudio,
      positions: demoStudio.positions.filter(({ kind }) => kind === "mix").map((mix) => ({ ...mix, takes: 1 })),
      recorder: { ...demoStudio.recorder, leadsS: [0], tailS: 0, calibrator: undefined },
    };
    const file = new Float64Array(RECORDING_S * sampleRate);
    file.set(sweep.subarray(0, file.length));
    const silence = new Float64Array(file.length);
    const reel = { L: silence, R: silence, [channel]: file, sampleRate };
    const simulated = simulateSession(scenario, reel);
    return {
      session: {
        ...simulated.session,
        recordings: simulated.session.recordings.map((one) => ({ ...one, file: `${channel}-${one.file}`, channel })),
      },
      recordings: simulated.recordings.map((one) => ({ ...one, file: `${channel}-${one.file}` })),
    };
  });
  const session = { ...parts[0].session, recordings: parts.flatMap((part) => part.session.recordings) };
  const recordings = parts.flatMap((part) => part.recordings);
  await writeSession(target, { session, recordings, calibrator: null }, recipe);
  return recordings.length;
}

/** One pair of monitors at the mix position. */
async function makeReel(target) {
  const recipe = makeSweepRecipe({ durationS: 10 });
  const { sampleRate } = recipe;
  const atMix = demoStudio.positions.filter(({ kind }) => kind === "mix").map((mix) => ({ ...mix, takes: 1 }));
  const scenario = { ...demoStudio, positions: atMix };
  const simulated = simulateSession(scenario, { ...renderReel(recipe), sampleRate });
  const [first] = simulated.recordings;
  const samples = new Float64Array(REEL_S * sampleRate);
  samples.set(first.samples.subarray(0, samples.length));
  const recordings = simulated.session.recordings.filter(({ file }) => file === first.file);
  const session = { ...simulated.session, recordings };
  await writeSession(target, { ...simulated, session, recordings: [{ ...first, samples }] }, recipe);
}

/** Wall times of so many runs, in seconds, the shortest first. */
function inOrder(args) {
  return Array.from({ length: RUNS }, (_, run) => timed(args(run))).sort((a, b) => a - b);
}

function spread(seconds) {
  const [least, median, most] = [seconds[0], seconds[RUNS >> 1], seconds.at(-1)].map((value) => value.toFixed(2));
  return `${least} to ${most} s, median ${median} s`;
}

function timed(args) {
  const start = performance.now();
  const run = spawnSync(process.execPath, [bin, ...args, "--quiet"], { encoding: "utf8" });
  if (run.status !== 0) throw new Error(`exit ${run.status}: ${run.stderr}${run.stdout}`);
  return (performance.now() - start) / 1000;
}
