import { mkdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";

import { InputError } from "../errors.js";
import { writeTogether } from "../files/stage.js";
import type { SweepRecipe } from "../model.js";
import { encodeWav } from "../recording/encode-wav.js";
import { makeSweepRecipe, type SweepOptions } from "../sweep/recipe.js";
import { renderReel, renderSingle } from "../sweep/render.js";
import { sweepCaution } from "./sweep-caution.js";
import type { Terminal } from "./terminal.js";

export interface SweepCommand extends SweepOptions {
  readonly out: string;
  readonly force: boolean;
}

/** `carrywell sweep`: writes the reel, the single files and the recipe. */
export async function sweep({ out, force, ...options }: SweepCommand, terminal: Terminal): Promise<number> {
  const recipe = makeSweepRecipe(options);
  refuseEndless(recipe);
  const files = renderFiles(recipe);
  if (!force) await refuseDifferent(files, out);
  await writeTogether(out, async (stage) => {
    await mkdir(stage, { recursive: true });
    for (const { name, content } of files) await writeFile(join(stage, name), content);
    return {};
  });
  const { startHz, endHz, lengthS, levelDbfs, sampleRate, format } = recipe;
  const reelS = reelFrames(recipe) / sampleRate;
  // A program that reads the result does not hear, but whoever started it does.
  if (terminal.options.json) terminal.remark(sweepCaution);
  terminal.result({ out, files: files.map(({ name }) => name), reelS, recipe });
  terminal.say(`${terminal.strong("Sweep written")} to ${out}
  reel.wav      both loudspeakers in one file: left in channel 1, right in channel 2; ${reelS.toFixed(1)} s
  sweep-L.wav   the left loudspeaker alone, sweep-R.wav the right one
  sweep.json    the recipe: keep it with the recordings, the report cannot be made without it
  ${startHz} Hz to ${endHz} Hz in ${lengthS.toFixed(3)} s at ${levelDbfs} dBFS, ${sampleRate} Hz, ${format}

${terminal.strong("Caution")}
${sweepCaution}

${terminal.strong("Next")}
  Play reel.wav through the monitors while the workstation records the microphone at ${sampleRate} Hz, one recording for
  each pair of monitors and microphone position. Put the recordings beside sweep.json, write session.json (the README
  has a complete example), and run: carrywell report FOLDER --out REPORT`);
  return 0;
}

function renderFiles(recipe: SweepRecipe): { name: string; content: Uint8Array }[] {
  const { sampleRate, format } = recipe;
  const reel = renderReel(recipe);
  const wav = (name: string, channels: Float64Array[]): { name: string; content: Uint8Array } => ({
    name,
    content: encodeWav(channels, sampleRate, format),
  });
  const left = renderSingle(recipe, "L");
  const right = renderSingle(recipe, "R");
  // Two channels, one silent: a workstation sends a mono file to both loudspeakers.
  return [
    wav("reel.wav", [reel.L, reel.R]),
    wav("sweep-L.wav", [left, new Float64Array(left.length)]),
    wav("sweep-R.wav", [new Float64Array(right.length), right]),
    { name: "sweep.json", content: new TextEncoder().encode(`${JSON.stringify(recipe, null, 2)}\n`) },
  ];
}

function reelFrames(recipe: SweepRecipe): number {
  const last = recipe.events.at(-1);
  return (last ? last.atSample + last.samples : 0) + Math.round(recipe.tailS * recipe.sampleRate);
}

/** Two channels of so many samples still fit into the memory of a small machine. */
const MOST_FRAMES = 2 ** 27;

function refuseEndless(recipe: SweepRecipe): void {
  const frames = reelFrames(recipe);
  if (frames <= MOST_FRAMES) return;
  const minutes = (count: number): string => (count / recipe.sampleRate / 60).toFixed(0);
  throw new InputError(`The reel would last ${minutes(frames)} minutes.`, {
    where: "--duration, --repeats, --gap",
    remedy: `lower one of them: at ${recipe.sampleRate} Hz a reel lasts at most ${minutes(MOST_FRAMES)} minutes`,
  });
}

/** Recordings of an earlier sweep can only be read with the recipe of that sweep. */
async function refuseDifferent(
  files: readonly { readonly name: string; readonly content: Uint8Array }[],
  out: string,
): Promise<void> {
  for (const { name, content } of files) {
    const present = await readFile(join(out, name)).catch(() => null);
    if (present === null || present.equals(content)) continue;
    throw new InputError(`The folder already holds another ${name}.`, {
      where: join(out, name),
      remedy: "give another folder, or add --force if nothing was recorded with the earlier sweep",
    });
  }
}
