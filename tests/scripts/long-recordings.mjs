// What long recordings cost: files beyond an hour and beyond 2 and 4 GB with one reel in them, each reported by a process of its
// own, and the same reel alone for comparison. Holds the figures against those of the reel alone, and the memory against the
// bound. Needs a built checkout, Linux (it reads /proc), and ffmpeg for the one that is FLAC: node tests/scripts/long-recordings.mjs
import { spawn, spawnSync } from "node:child_process";
import {
  closeSync,
  ftruncateSync,
  mkdtempSync,
  openSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
  writeSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

import { encodeFrames } from "../../dist/recording/encode-wav.js";
import { makeSweepRecipe } from "../../dist/sweep/recipe.js";
import { renderReel } from "../../dist/sweep/render.js";

/** More than the reel alone may take: a window of the search, and a stretch of the file. Measured: no more than the reel alone. */
const BOUND_MB = 100;
const bin = fileURLToPath(new URL("../../bin/carrywell.js", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "carrywell-long-"));
const recipe = makeSweepRecipe({ durationS: 8 });
const { sampleRate } = recipe;
const { L, R } = renderReel(recipe);
const random = seeded(1);
const reel = Float64Array.from(L, (value, n) => 0.5 * (value + 0.7 * R[n]) + 1e-4 * (random() - 0.5));

const cases = [
  {
    what: "the reel alone",
    file: "alone.wav",
    channels: 1,
    format: "float32",
    minutes: reel.length / sampleRate / 60,
    at: 0,
  },
  { what: "2.3 GB of WAV, 24 bits", file: "wav.wav", channels: 1, format: "pcm24", minutes: 266, at: 200 },
  { what: "3.9 GB of WAV, stereo, float", file: "stereo.wav", channels: 2, format: "float32", minutes: 170, at: 100 },
  {
    what: "8.3 GB of RF64, 16 tracks of 24 bits",
    file: "rf64.wav",
    channels: 16,
    format: "pcm24",
    minutes: 60,
    at: 33,
  },
  { what: "90 minutes of FLAC, noise of a room", file: "flac.flac", channels: 1, format: "pcm24", minutes: 90, at: 70 },
];

let failed = false;
const rows = {};
let alone;
try {
  writeFileSync(join(folder, "sweep.json"), JSON.stringify(recipe));
  for (const one of cases) {
    const made = make(one);
    if (!made) {
      console.log(`not run: ${one.what}, since ffmpeg is not installed`);
      continue;
    }
    const { seconds, megabytes, results, code, err } = await report(one);
    if (code !== 0) {
      console.log(err);
      failed = true;
      continue;
    }
    alone ??= { megabytes, results };
    const differenceDb = largestDifference(alone.results, results);
    const more = megabytes - alone.megabytes;
    const ok = more < BOUND_MB && differenceDb < 0.02;
    failed ||= !ok;
    rows[one.what] = {
      "size, GB": (statSync(join(folder, one.file)).size / 1e9).toFixed(2),
      minutes: one.minutes.toFixed(0),
      "wall, s": seconds.toFixed(1),
      "most memory, MB": megabytes.toFixed(0),
      "more than alone": more.toFixed(0),
      "levels differ by, dB": differenceDb.toFixed(4),
      ok,
    };
    rmSync(join(folder, one.file));
  }
} finally {
  rmSync(folder, { recursive: true });
}
console.table(rows);
console.log(failed ? "Something is beyond its bound." : `All within ${BOUND_MB} MB of the reel alone.`);
process.exitCode = failed ? 1 : 0;

/** Silence is a hole in the file: it takes no room on the disk. */
function make({ file, channels, format, minutes, at }) {
  const frames = Math.round(minutes * 60 * sampleRate);
  const path = join(folder, file);
  if (file.endsWith(".flac")) return makeFlac(path, frames, at);
  const bytes = { pcm24: 3, float32: 4 }[format];
  const frameBytes = bytes * channels;
  const header = headerOf({ channels, frames, bytes, isFloat: format === "float32" });
  const handle = openSync(path, "w");
  ftruncateSync(handle, header.length + frames * frameBytes);
  writeSync(handle, header, 0, header.length, 0);
  // The last track; the others stay silent.
  const tracks = Array.from({ length: channels }, (_, n) =>
    n === channels - 1 ? reel : new Float64Array(reel.length),
  );
  const place = header.length + Math.round(at * 60 * sampleRate) * frameBytes;
  const sound = encodeFrames(tracks, format);
  writeSync(handle, sound, 0, sound.length, place);
  closeSync(handle);
  return true;
}

function headerOf({ channels, frames, bytes, isFloat }) {
  const dataBytes = frames * channels * bytes;
  const isLong = dataBytes + 36 > 0xffff_ffff;
  const ds64 = isLong ? 36 : 0;
  const header = Buffer.alloc(44 + ds64);
  header.write(isLong ? "RF64" : "RIFF", 0, "latin1");
  header.writeUInt32LE(isLong ? 0xffff_ffff : 36 + dataBytes, 4);
  header.write("WAVE", 8, "latin1");
  if (isLong) {
    header.write("ds64", 12, "latin1");
    header.writeUInt32LE(28, 16);
    header.writeBigUInt64LE(BigInt(36 + ds64 + dataBytes), 20);
    header.writeBigUInt64LE(BigInt(dataBytes), 28);
    header.writeBigUInt64LE(BigInt(frames), 36);
  }
  header.write("fmt ", 12 + ds64, "latin1");
  header.writeUInt32LE(16, 16 + ds64);
  header.writeUInt16LE(isFloat ? 3 : 1, 20 + ds64);
  header.writeUInt16LE(channels, 22 + ds64);
  header.writeUInt32LE(sampleRate, 24 + ds64);
  header.writeUInt32LE(sampleRate * channels * bytes, 28 + ds64);
  header.writeUInt16LE(channels * bytes, 32 + ds64);
  header.writeUInt16LE(8 * bytes, 34 + ds64);
  header.write("data", 36 + ds64, "latin1");
  header.writeUInt32LE(isLong ? 0xffff_ffff : dataBytes, 40 + ds64);
  return header;
}

function makeFlac(path, frames, at) {
  const raw = `${path}.raw`;
  const handle = openSync(raw, "w");
  const second = Float64Array.from({ length: sampleRate }, () => 1e-4 * (random() - 0.5));
  for (let from = 0; from < frames; from += sampleRate) writeSync(handle, encodeFrames([second], "pcm24"));
  const sound = encodeFrames([reel], "pcm24");
  writeSync(handle, sound, 0, sound.length, Math.round(at * 60 * sampleRate) * 3);
  closeSync(handle);
  const input = ["-f", "s24le", "-ar", String(sampleRate), "-ac", "1", "-i", raw];
  const run = spawnSync("ffmpeg", ["-v", "error", ...input, "-sample_fmt", "s32", "-bits_per_raw_sample", "24", path]);
  rmSync(raw);
  return run.status === 0;
}

async function report({ file, channels }) {
  const session = {
    schema: "carrywell/session/1",
    sweep: "sweep.json",
    monitors: [{ id: "mains", role: "main" }],
    positions: [{ id: "mix", kind: "mix" }],
    recordings: [{ file, monitor: "mains", position: "mix", ...(channels > 2 ? { fileChannel: channels } : {}) }],
  };
  writeFileSync(join(folder, "session.json"), JSON.stringify(session));
  const out = join(folder, `out-${file}`);
  const start = performance.now();
  const child = spawn(process.execPath, [bin, "report", folder, "--out", out, "--quiet"]);
  let megabytes = 0;
  let err = "";
  child.stderr.on("data", (data) => (err += data));
  child.stdout.on("data", (data) => (err += data));
  const watch = setInterval(() => {
    try {
      const peak = /VmHWM:\s+(\d+) kB/.exec(readFileSync(`/proc/${child.pid}/status`, "utf8"));
      if (peak) megabytes = Number(peak[1]) / 1024;
    } catch {
      // It has just ended.
    }
  }, 50);
  const code = await new Promise((resolve) => child.on("close", resolve));
  clearInterval(watch);
  const seconds = (performance.now() - start) / 1000;
  const results = code === 0 ? JSON.parse(readFileSync(join(out, "results.json"), "utf8")) : null;
  return { code, err, seconds, megabytes, results };
}

/** Over third octaves from 40 Hz to 16 kHz, both sides. */
function largestDifference(a, b) {
  let largest = 0;
  for (const [n, measurement] of a.measurements.entries()) {
    for (const [k, band] of measurement.bands.entries()) {
      if (band.fraction !== 3 || band.nominalHz < 40 || band.nominalHz > 16_000) continue;
      largest = Math.max(largest, Math.abs(band.levelDb - b.measurements[n].bands[k].levelDb));
    }
  }
  return a.measurements.length === b.measurements.length ? largest : Infinity;
}

function seeded(seed) {
  let state = seed;
  return () => (state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0) / 2 ** 32;
}
