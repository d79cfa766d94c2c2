import { execFileSync, type ExecFileSyncOptionsWithBufferEncoding } from "node:child_process";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

import { seededRandom } from "./seeded-random.js";

/** Programs that write and read sound without us, where they are installed. */

const quiet: ExecFileSyncOptionsWithBufferEncoding = { maxBuffer: 2 ** 30, stdio: ["ignore", "pipe", "pipe"] };

export function isInstalled(program: string): boolean {
  try {
    execFileSync(program, [program === "ffmpeg" ? "-version" : "--version"], quiet);
    return true;
  } catch {
    return false;
  }
}

export const run = (program: string, args: readonly string[]): Buffer => execFileSync(program, args, quiet);
const ffmpeg = (args: readonly string[]): Buffer => run("ffmpeg", ["-v", "error", "-y", ...args]);
const sox = (args: readonly string[]): Buffer => run("sox", ["-D", "-V1", ...args]);
const shell = (command: string, ...args: readonly string[]): Buffer => run("sh", ["-c", command, "sh", ...args]);

function doubles(bytes: Uint8Array): Float64Array {
  return new Float64Array(Uint8Array.from(bytes).buffer);
}

export interface Sound {
  readonly channels: number;
  readonly sampleRate: number;
  readonly frames: number;
}

interface Master extends Sound {
  readonly folder: string;
  readonly path: string;
}

/** Noise that reaches both ends of the range, with the ends themselves and the smallest steps, as raw doubles on disk. */
export function master(sound: Sound): Master {
  const { channels, frames } = sound;
  const random = seededRandom(frames + channels);
  const samples = Float64Array.from({ length: frames * channels }, () => 2 * random() - 1);
  samples.set([-1, 1, 0, -0.5, 0.5, 2 ** -31, -(2 ** -31)].slice(0, samples.length));
  const folder = mkdtempSync(join(tmpdir(), "carrywell-formats-"));
  const path = join(folder, "master.f64");
  writeFileSync(path, samples);
  return { ...sound, folder, path };
}

const WAV_CODECS = ["pcm_u8", "pcm_s16le", "pcm_s24le", "pcm_s32le", "pcm_f32le", "pcm_f64le"];
const AIFF_CODECS = [
  "pcm_s8",
  "pcm_u8",
  "pcm_s16le",
  ...["pcm_s16be", "pcm_s24be", "pcm_s32be", "pcm_f32be", "pcm_f64be"],
];
const CAF_CODECS = [
  ...["pcm_s8", "pcm_s16le", "pcm_s24le", "pcm_s32le", "pcm_f32le", "pcm_f64le"],
  ...["pcm_s16be", "pcm_s24be", "pcm_s32be", "pcm_f32be", "pcm_f64be"],
];
const NOTES = ["-metadata", "title=odd", "-metadata", "comment=four", "-metadata", "description=recorded on a Monday"];

/** Everything that ffmpeg writes of what we read, by one run of it. */
export function writtenByFfmpeg({ channels, sampleRate, folder, path }: Master): string[] {
  const outputs: [string, string[]][] = [
    ...WAV_CODECS.flatMap((codec): [string, string[]][] => [
      [`${codec}.wav`, ["-c:a", codec, ...NOTES]],
      [`${codec}-rf64.wav`, ["-c:a", codec, "-rf64", "always"]],
      [`${codec}-bext.wav`, ["-c:a", codec, "-write_bext", "1", ...NOTES]],
    ]),
    ...AIFF_CODECS.map((codec): [string, string[]] => [`${codec}.aiff`, ["-c:a", codec, ...NOTES]]),
    ...CAF_CODECS.map((codec): [string, string[]] => [`${codec}.caf`, ["-c:a", codec, ...NOTES]]),
    ["s16-peak.wav", ["-c:a", "pcm_s16le", "-write_peak", "on"]],
    ["s16.flac", ["-c:a", "flac", "-sample_fmt", "s16", ...NOTES]],
    ["s24.flac", ["-c:a", "flac", "-sample_fmt", "s32"]],
    ["s24-fine.flac", ["-c:a", "flac", "-sample_fmt", "s32", "-compression_level", "12"]],
  ];
  const files = outputs.map(([name]) => join(folder, `ffmpeg-${name}`));
  const options = outputs.flatMap(([, args], n) => [...args, files[n]!]);
  ffmpeg(["-f", "f64le", "-ar", String(sampleRate), "-ac", String(channels), "-i", path, ...options]);
  return files;
}

/** What sox writes of what we read; its floats in CAF are steps of 32 bits, which is no sound, and in AIFF-C it writes none. */
export function writtenBySox({ channels, sampleRate, folder, path }: Master): string[] {
  const raw = ["-t", "f64", "-r", String(sampleRate), "-c", String(channels), path];
  const kinds: [string, string, number][] = [
    ...["wav", "wavpcm"].flatMap((type): [string, string, number][] => [
      [type, "unsigned-integer", 8],
      ...[16, 24, 32].map((bits): [string, string, number] => [type, "signed-integer", bits]),
    ]),
    ["wav", "floating-point", 32],
    ["wav", "floating-point", 64],
    ...["aiff", "aifc", "caf"].flatMap((type) =>
      [8, 16, 24, 32].map((bits): [string, string, number] => [type, "signed-integer", bits]),
    ),
  ];
  const written = kinds.map(([type, encoding, bits]) => {
    const file = join(folder, `sox-${type}-${encoding}-${bits}.${type === "wavpcm" ? "wav" : type}`);
    sox([...raw, "-t", type, "-e", encoding, "-b", String(bits), "--comment", "odd", file]);
    return file;
  });
  const flac = [16, 24].flatMap((bits) =>
    [0, 5, 8].map((level) => {
      const file = join(folder, `sox-${bits}-level${level}.flac`);
      sox([...raw, "-b", String(bits), "-C", String(level), file]);
      return file;
    }),
  );
  return [...written, ...flac];
}

/** Files whose writers could not go back to fill in their lengths, each with a WAV file of the same sound that is complete. */
export function writtenIntoPipes({ channels, sampleRate, folder, path }: Master): { file: string; complete: string }[] {
  const byFfmpeg = (name: string, codec: string, ...form: string[]): [string, string, string] => {
    const command = `ffmpeg -y -v error -f f64le -ar ${sampleRate} -ac ${channels} -i -`;
    const plain = codec === "flac" ? "pcm_s16le" : codec.replace("be", "le");
    return [`ffmpeg-${name}`, `${command} -c:a ${codec} ${form.join(" ")} -`, `${command} -c:a ${plain} -f wav`];
  };
  const bySox = (name: string, bits: number, type: string): [string, string, string] => {
    const command = `sox -D -V1 -t f64 -r ${sampleRate} -c ${channels} - -b ${bits}`;
    return [`sox-${name}`, `${command} -t ${type} -`, `${command} -t wav`];
  };
  const commands = [
    bySox("pipe.wav", 24, "wav"),
    bySox("pipe.aiff", 16, "aiff"),
    byFfmpeg("pipe.wav", "pcm_s24le", "-f wav"),
    byFfmpeg("pipe-rf64.wav", "pcm_s16le", "-rf64 always -f wav"),
    byFfmpeg("pipe.aiff", "pcm_s24be", "-f aiff"),
    byFfmpeg("pipe.caf", "pcm_s24le", "-f caf"),
    byFfmpeg("pipe.flac", "flac", "-sample_fmt s16 -f flac"),
  ];
  return commands.map(([name, command, completeCommand]) => {
    const file = join(folder, name);
    const complete = `${file}.complete.wav`;
    shell(`cat "$1" | ${command} 2>/dev/null | cat > "$2"`, path, file);
    shell(`cat "$1" | ${completeCommand} "$2" 2>/dev/null`, path, complete);
    return { file, complete };
  });
}

/** FLAC of every length of block that its own encoder makes, and the WAV file that each was made of: ffmpeg cannot read the longest. */
export function writtenByFlac({ channels, sampleRate, folder, path }: Master): { files: string[]; from: string } {
  const [wav, raw] = [join(folder, "for-flac.wav"), join(folder, "for-flac.s24")];
  sox(["-t", "f64", "-r", String(sampleRate), "-c", String(channels), path, "-b", "24", wav]);
  ffmpeg(["-i", wav, "-f", "s24le", "-c:a", "pcm_s24le", raw]);
  const form = ["--force-raw-format", "--endian=little", "--sign=signed", "--bps=24"];
  // A frame of more bytes than our decoding library takes is refused, and said so.
  const blocks = [16, 17, 192, 576, 1000, 4608, 16_384, 65_535].filter((block) => block * channels * 3 <= 65_535 * 8);
  const files = blocks.map((block) => {
    const file = join(folder, `flac-block${block}.flac`);
    const sound = [`--channels=${channels}`, `--sample-rate=${sampleRate}`];
    run("flac", ["-s", "-f", "--lax", "-b", String(block), "-8", ...form, ...sound, raw, "-o", file]);
    return file;
  });
  return { files, from: wav };
}

/** What ffmpeg reads in each file, frame after frame: by one run of it. */
export function readByFfmpeg(files: readonly string[]): Float64Array[] {
  const inputs = files.flatMap((file) => ["-i", file]);
  const outputs = files.flatMap((file, n) => [
    ...["-map", `${n}:a`, "-map_metadata", "-1", "-f", "f64le", "-c:a", "pcm_f64le"],
    `${file}.f64`,
  ]);
  ffmpeg([...inputs, ...outputs]);
  return files.map((file) => doubles(readFileSync(`${file}.f64`)));
}

/** What sox reads in a file, frame after frame. It computes in 32-bit integers. */
export function readBySox(file: string): Float64Array {
  return doubles(sox([file, "-t", "f64", "-"]));
}
