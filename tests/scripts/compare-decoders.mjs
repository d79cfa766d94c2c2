/**
 * For developers: every sample format that two other decoders can write, decoded by them and by us; and what we write ourselves.
 *
 * Needs `sox` and `ffmpeg` on the path and a built `dist` (`npm run build`, or a folder named as the first argument).
 * Prints the largest difference to each, and fails where it passes what rounding allows: 32-bit PCM and 64-bit float
 * do not fit into our 32-bit floats (half a unit in the last place below 1: 2^-25), and sox computes in 32-bit integers (its floats
 * are off by up to 2^-31, and clip at full scale).
 */
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));
const dist = resolve(process.argv[2] ?? join(root, "dist"));
const { decodeWav } = await import(pathToFileURL(join(dist, "recording/decode-wav.js")).href);
const { encodeWav } = await import(pathToFileURL(join(dist, "recording/encode-wav.js")).href);
const folder = mkdtempSync(join(tmpdir(), "compare-decoders-"));
const quiet = { maxBuffer: 2 ** 30, stdio: ["ignore", "pipe", "pipe"] };
const sox = (...args) => execFileSync("sox", ["-D", "-V1", ...args], quiet);
const ffmpeg = (...args) => execFileSync("ffmpeg", ["-v", "error", "-y", ...args], quiet);
const doubles = (buffer) => new Float64Array(Uint8Array.from(buffer).buffer);

/** Noise that reaches both ends of the range, with the ends themselves. */
function master(channels) {
  const frames = 4800 * channels;
  const samples = new Float64Array(frames);
  let state = 12_345;
  for (let n = 0; n < frames; n++) {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    samples[n] = state / 2 ** 31 - 1;
  }
  samples.set([-1, 1, 0, -0.5, 0.5, 2 ** -31, -(2 ** -31)]);
  const path = join(folder, `master-${channels}.f64`);
  writeFileSync(path, samples);
  return path;
}

function files() {
  const made = [];
  for (const [channels, rate] of [
    [1, 44_100],
    [2, 48_000],
    [6, 192_000],
  ]) {
    const raw = ["-t", "f64", "-r", String(rate), "-c", String(channels), master(channels)];
    for (const [encoding, bits] of [
      ["unsigned-integer", 8],
      ["signed-integer", 16],
      ["signed-integer", 24],
      ["signed-integer", 32],
      ["floating-point", 32],
      ["floating-point", 64],
    ]) {
      for (const type of ["wav", "wavpcm"]) {
        if (type === "wavpcm" && encoding === "floating-point") continue;
        const path = join(folder, `sox-${type}-${encoding}-${bits}-${channels}ch.wav`);
        sox(...raw, "-t", type, "-e", encoding, "-b", String(bits), "--comment", "odd", path);
        made.push(path);
      }
    }
    for (const codec of ["pcm_u8", "pcm_s16le", "pcm_s24le", "pcm_s32le", "pcm_f32le", "pcm_f64le"]) {
      const path = join(folder, `ffmpeg-${codec}-${channels}ch.wav`);
      const input = ["-f", "f64le", "-ar", String(rate), "-ac", String(channels), "-i", raw.at(-1)];
      ffmpeg(...input, "-c:a", codec, "-metadata", "title=odd", "-metadata", "comment=four", path);
      made.push(path);
    }
    const samples = doubles(readFileSync(raw.at(-1)));
    const split = Array.from({ length: channels }, (_, c) => samples.filter((_, n) => n % channels === c));
    for (const format of ["pcm16", "pcm24", "float32"]) {
      const path = join(folder, `ours-${format}-${channels}ch.wav`);
      writeFileSync(path, encodeWav(split, rate, format));
      made.push(path);
    }
  }
  const shared = join(root, "../shared/data");
  const measured = existsSync(shared) ? readdirSync(shared, { recursive: true }) : [];
  return [...made, ...measured.filter((file) => file.endsWith(".wav")).map((file) => join(shared, file))];
}

function largestDifference(audio, other) {
  const count = audio.channels.length;
  if (other.length !== count * audio.channels[0].length) return Infinity;
  let largest = 0;
  for (let n = 0; n < other.length; n++) {
    largest = Math.max(largest, Math.abs(audio.channels[n % count][Math.floor(n / count)] - other[n]));
  }
  return largest;
}

let failed = 0;
const table = {};
try {
  for (const path of files()) {
    const bytes = readFileSync(path);
    const audio = decodeWav(bytes, path);
    const tag = bytes.readUInt16LE(bytes.indexOf("fmt ") + 8);
    const wide = audio.encoding === "32-bit PCM" || audio.encoding === "64-bit float" ? 2 ** -25 : 0;
    const isFloat = audio.encoding.endsWith("float");
    const toSox = largestDifference(audio, doubles(sox(path, "-t", "f64", "-")));
    const toFfmpeg = largestDifference(audio, doubles(ffmpeg("-i", path, "-f", "f64le", "-c:a", "pcm_f64le", "-")));
    const allowedSox = wide + (isFloat ? 2 ** -31 : 0);
    const ok = toSox <= allowedSox && toFfmpeg <= wide;
    if (!ok) failed++;
    table[path.replace(`${folder}/`, "").replace(/^.*shared\/data\//, "")] = {
      header: tag === 0xfffe ? "extensible" : `plain ${tag}`,
      encoding: audio.encoding,
      channels: audio.channels.length,
      "to sox": toSox.toPrecision(2),
      "to ffmpeg": toFfmpeg.toPrecision(2),
      allowed: `${allowedSox.toPrecision(2)} / ${wide.toPrecision(2)}`,
      ok,
    };
  }
} finally {
  rmSync(folder, { recursive: true });
}
console.table(table);
console.log(failed === 0 ? "All agree." : `${failed} files differ by more than rounding allows.`);
process.exitCode = failed === 0 ? 0 : 1;
