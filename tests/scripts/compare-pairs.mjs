// Measures the same room twice, many times, the whole way: simulates, records, analyses and compares two sessions of one room
// that nobody has touched but for the microphone, and counts the pairs of which anything is called better, worse or changed.
// Needs a built checkout: node tests/scripts/compare-pairs.mjs [pairs] [first seed] [placement in cm]
import { createHash } from "node:crypto";
import { analyse } from "../../dist/pipeline.js";
import { compareSessions } from "../../dist/pipeline/compare-sessions.js";
import { encodeWav } from "../../dist/recording/encode-wav.js";
import { sessionSchema } from "../../dist/schema/session.js";
import { demoStudio } from "../../dist/simulate/demo-studio.js";
import { Random } from "../../dist/simulate/random.js";
import { simulateSession } from "../../dist/simulate/scenario.js";
import { makeSweepRecipe } from "../../dist/sweep/recipe.js";
import { renderReel } from "../../dist/sweep/render.js";

const [pairs, first, placementCm] = [100, 1, 2].map((usual, n) => Number(process.argv[n + 2] ?? usual));
// Radius that holds 95 % of a normal error in three directions, in its standard deviations along one.
const RADIUS_95 = 2.795;
/** Every so many pairs have two places beside the mix position as well. */
const SEVERAL_PLACES = 5;
const recipe = makeSweepRecipe({ durationS: 2.4, leadS: 0.8, gapS: 1.3, tailS: 0.3 });
const reel = { ...renderReel(recipe), sampleRate: recipe.sampleRate };

const counts = { better: 0, worse: 0, changed: 0 };
const tally = new Map();
let told = 0;
for (let seed = first; seed < first + pairs; seed++) {
  const room = roomOf(seed);
  const [before, after] = [await measure(room, seed, 1), await measure(room, seed, 2)];
  const changes = compareSessions(before, after, { placementM: placementCm / 100, monitors: null, version: "0" });
  const real = changes.pairs.flatMap(({ id, quantities }) =>
    quantities.filter(({ change }) => change === "real").map((one) => ({ id, ...one })),
  );
  const sided = real.filter(({ verdict }) => verdict === "better" || verdict === "worse");
  if (sided.length > 0) told++;
  for (const { verdict } of real) counts[verdict === "cannot-tell" ? "changed" : verdict]++;
  for (const { quantity, change, verdict } of changes.pairs.flatMap(({ quantities }) => quantities)) {
    const row = tally.get(quantity) ?? { judged: 0, real: 0, none: 0, open: 0 };
    row.judged++;
    row[change === "cannot-tell" ? "open" : change]++;
    if (verdict === "better" || verdict === "worse") row.sided = (row.sided ?? 0) + 1;
    tally.set(quantity, row);
  }
  const list = real.map(
    ({ id, quantity, bandHz, verdict, because }) => `${id} ${quantity} ${bandHz} ${verdict}: ${because}`,
  );
  console.log(`${seed}: ${changes.chance.judged} judged, ${real.length} real, ${sided.length} better or worse`);
  for (const line of list) console.log(`   ${line}`);
}
console.log(`${told} of ${pairs} pairs show any better or worse; entries: ${JSON.stringify(counts)}`);
console.table(Object.fromEntries(tally));

/** The demo's studio with other walls, other sizes and another seat: from lively to dead. */
function roomOf(seed) {
  const random = new Random(seed);
  const between = (low, high) => low + (high - low) * random.uniform();
  const share = between(0.35, 1.1);
  const absorption = Object.fromEntries(
    Object.entries(demoStudio.room.absorption).map(([wall, octaves]) => [
      wall,
      octaves.map((octave) => Math.min(0.97, Math.max(0.03, octave * share * between(0.8, 1.2)))),
    ]),
  );
  const size = [between(0.9, 1.15), between(0.9, 1.15), between(0.95, 1.1)];
  const seatM = [between(-0.2, 0.2), between(-0.12, 0.12), 0];
  const moved = (place) => place.map((metres, axis) => metres * (axis === 2 ? 1 : size[axis]));
  return {
    ...demoStudio,
    room: { ...demoStudio.room, absorption, sizeM: demoStudio.room.sizeM.map((metres, axis) => metres * size[axis]) },
    pairs: demoStudio.pairs.map((pair) => ({
      ...pair,
      placement: { L: moved(pair.placement.L), R: moved(pair.placement.R) },
    })),
    positions: demoStudio.positions
      .slice(0, seed % SEVERAL_PLACES === 0 ? 3 : 1)
      .map((one) => ({ ...one, takes: 1, xyzM: moved(one.xyzM).map((metres, axis) => metres + seatM[axis]) })),
  };
}

/** One session: the microphone put up anew, another noise, other leads, another gain. */
async function measure(room, seed, day) {
  const random = new Random(1_000_003 * day + seed);
  const placed = (place) => {
    const off = random.fillNormal(new Float64Array(3));
    return place.map((metres, axis) => metres + (off[axis] * placementCm) / 100 / RADIUS_95);
  };
  // What the recorder's gain does to the calibrator it does to everything.
  const gainDb = -3 * random.uniform();
  const { calibrator } = room.recorder;
  const scenario = {
    ...room,
    positions: room.positions.map((one) => ({ ...one, statedM: one.xyzM, xyzM: placed(one.xyzM) })),
    recorder: {
      ...room.recorder,
      gainDb: room.recorder.gainDb + gainDb,
      calibrator: { ...calibrator, peakDbfs: calibrator.peakDbfs + gainDb },
      leadsS: Array.from({ length: 8 }, () => 0.2 + 0.5 * random.uniform()),
      noise: { ...room.recorder.noise, pinkDbRms: -92 + 4 * random.uniform() },
    },
    seed: 10_000 * (2 * seed + day),
  };
  const { session, recordings, calibrator: tone } = simulateSession(scenario, reel);
  const files = { "sweep.json": new TextEncoder().encode(JSON.stringify(recipe)) };
  for (const { file, samples } of [...recordings, tone]) files[file] = encodeWav([samples], recipe.sampleRate, "pcm24");
  const { results } = await analyse(
    sessionSchema.parse(session),
    {
      read: (file) => Promise.resolve(files[file]),
      open: (file) =>
        Promise.resolve({
          bytes: files[file].length,
          read: (from, count) => Promise.resolve(files[file].subarray(from, from + count)),
          close: () => Promise.resolve(),
        }),
      sha256: () => {
        const hash = createHash("sha256");
        return { add: (bytes) => void hash.update(bytes), hex: () => hash.digest("hex") };
      },
    },
    { version: "0" },
  );
  return results;
}
