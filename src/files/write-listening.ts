import { rm, writeFile } from "node:fs/promises";
import { join } from "node:path";

import { InputError } from "../errors.js";
import type { Results } from "../model.js";
import type { ListenOptions, ListenPlan } from "../pipeline/listen-plan.js";
import { mixTranslator } from "../pipeline/translate-mix.js";
import { renderListening } from "../report/listen-page.js";
import type { Listening, ListeningVersion } from "../schema/listening.js";
import { matchLoudness, TRUE_PEAK_LIMIT_DBTP } from "../translation/listen/match-loudness.js";
import { type HeardMix, mixListener } from "../translation/listen/mix-listener.js";
import { filterInThreads, writeInThreads } from "../workers/render.js";
import { olderListening } from "./listening-folder.js";
import { changeMixRate, type MixFile, mixNotes, playMix } from "./mix-file.js";
import { readListenAssets } from "./report-assets.js";
import { writeTogether } from "./stage.js";
import { writeSequence } from "./write-sequence.js";

/** Everything that is rendered, and from what. */
export interface ListeningWork extends ListenOptions {
  readonly version: string;
  readonly mix: MixFile;
  readonly results: Results;
  readonly plan: ListenPlan;
  /** The session's own. */
  readonly sampleRate: number;
  /** Files that must stay. */
  readonly inputs: readonly string[];
  readonly onProgress: (share: number, what: string) => void;
}

const EXCERPT_S = 6;
/** A WAV file holds no more. */
const MOST_BYTES = 0xffff_ff00;
const BYTES_PER_FRAME = { mixAtAnotherRate: 8, version: 6 };

/**
 * Renders a mix and writes a listening: one file for each version, `sequence.wav`, `listen.json` and `listen.html`.
 *
 * @throws {InputError} if the mix is silent, does not fit, or the folder cannot be written to
 */
export async function writeListening(work: ListeningWork, folder: string): Promise<Listening> {
  const { mix, plan, sampleRate } = work;
  refuseTooLong(mix, sampleRate);
  const files = [...plan.versions.map(({ file }) => file), "sequence.wav", "listen.json", "listen.html"];
  refuseSameNames(files);
  const older = await olderListening(folder, files, [mix.path, ...work.inputs]);
  const assets = await readListenAssets();
  let listening: Listening | null = null;
  await writeTogether(folder, async (stage) => {
    const scratch = join(stage, ".mix.wav");
    const played = mix.sampleRate === sampleRate ? mix : await changeMixRate(mix, sampleRate, scratch);
    listening = await renderAll(work, played, stage);
    await rm(scratch, { force: true });
    await Promise.all([
      writeFile(join(stage, "listen.json"), `${JSON.stringify(listening)}\n`),
      writeFile(join(stage, "listen.html"), await renderListening(listening, assets)),
    ]);
    return { obsolete: older.filter((file) => !files.includes(file)) };
  });
  return listening!;
}

async function renderAll(work: ListeningWork, played: MixFile, stage: string): Promise<Listening> {
  const { mix, results, plan, sampleRate, on, onProgress } = work;
  onProgress(0, "hearing the mix");
  const waiting = plan.versions.map(({ id, mono, taps }, n) => ({ id, mono, taps, waitAt: join(stage, `.${n}.wait`) }));
  const [heard, filtered] = await bothDone(
    hear(played),
    filterInThreads(played, waiting, (share) => {
      onProgress(share / 2, "measuring the versions");
    }),
  );
  const { loudnessLufs } = heard;
  if (loudnessLufs === null) {
    throw new InputError("The mix is silent: nothing in it is louder than -70 LUFS.", {
      where: mix.name,
      remedy: "export the mix again",
    });
  }
  const translator = mixTranslator(results, heard, sampleRate, on);
  const { loudnessLufs: common, gains } = matchLoudness(loudnessLufs, filtered);
  const matched = plan.versions.map(({ file }, n) => ({
    samples: filtered[n]!.samples,
    gain: 10 ** (gains[n]!.gainDb / 20),
    path: join(stage, file),
  }));
  await bothDone(
    playMix(played, translator.push),
    writeInThreads(matched, sampleRate, (share) => {
      onProgress((1 + share) / 2, "writing the versions");
    }),
  );
  const durationS = mix.frames / mix.sampleRate;
  const excerptS = Math.min(EXCERPT_S, Math.floor(durationS));
  const sequence = await writeSequence(stage, plan.versions, sampleRate, heard.loudestFromS, excerptS);
  const versions = plan.versions.map(({ taps, ...version }, n): ListeningVersion => ({
    ...version,
    ...gains[n]!,
    taps: Math.max(...taps.map((side) => side.length)),
    loudnessLufs: filtered[n]!.loudnessLufs,
    truePeakDbtp: sum(filtered[n]!.truePeakDbtp, gains[n]!.gainDb),
  }));
  return {
    schema: "carrywell/listen/1",
    version: work.version,
    session: results.session.title ?? null,
    mix: {
      file: mix.name,
      channels: mix.channels,
      sampleRate: mix.sampleRate,
      renderedRate: sampleRate,
      encoding: mix.encoding,
      durationS,
      loudnessLufs,
      truePeakDbtp: heard.truePeakDbtp,
    },
    notes: mixNotes(mix, sampleRate),
    filter: work.room ? "room" : "tone",
    on,
    loudnessLufs: common,
    truePeakLimitDbtp: TRUE_PEAK_LIMIT_DBTP,
    versions,
    missing: [...plan.missing],
    sequence,
    translation: translator.result(),
  };
}

function sum(levelDb: number | null, gainDb: number): number | null {
  return levelDb === null ? null : levelDb + gainDb;
}

/** Waits for the other where one fails: it may still be writing into the folder that is then removed. */
async function bothDone<One, Other>(one: Promise<One>, other: Promise<Other>): Promise<[One, Other]> {
  await Promise.allSettled([one, other]);
  return Promise.all([one, other]);
}

async function hear(mix: MixFile): Promise<HeardMix> {
  const listener = mixListener(mix.sampleRate, EXCERPT_S);
  await playMix(mix, listener.push);
  return listener.result();
}

function refuseTooLong({ frames, sampleRate, name }: MixFile, toRate: number): void {
  const atRate = (frames * toRate) / sampleRate;
  const bytes = atRate * (sampleRate === toRate ? BYTES_PER_FRAME.version : BYTES_PER_FRAME.mixAtAnotherRate);
  if (bytes < MOST_BYTES) return;
  throw new InputError("The mix is too long: what is rendered of it would not fit into a WAV file of 4 GB.", {
    where: name,
    remedy: "render it in parts",
  });
}

/** A monitor may be called as one of our own files is. */
function refuseSameNames(files: readonly string[]): void {
  const twice = files.find((file, n) => files.findIndex((one) => one.toLowerCase() === file.toLowerCase()) !== n);
  if (twice === undefined) return;
  throw new InputError(`A monitor is called as the file "${twice}", which is always written.`, {
    where: "session.json, monitors",
    remedy: "give that monitor another id",
  });
}
