import { mkdir, rename, writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { SweepRecipe } from "../model.js";
import { encodeWav } from "../recording/encode-wav.js";
import type { SimulatedSession } from "../simulate/session/record-session.js";

/**
 * Writes a session's folder: session.json, sweep.json and the recordings.
 *
 * Each file is written under another name first, and session.json last, so that a folder with a session.json is whole.
 *
 * @param folder - made if it is missing; files of the same names are replaced, others stay
 */
export async function writeSession(folder: string, simulated: SimulatedSession, recipe: SweepRecipe): Promise<void> {
  await mkdir(folder, { recursive: true });
  const { recordings, calibrator } = simulated;
  for (const { file, samples } of calibrator ? [...recordings, calibrator] : recordings) {
    await replaceFile(join(folder, file), encodeWav([samples], recipe.sampleRate, recipe.format));
  }
  await replaceFile(join(folder, simulated.session.sweep), asText(recipe));
  await replaceFile(join(folder, "session.json"), asText(simulated.session));
}

/** Coordinates on one line, as people write them. */
function asText(value: unknown): string {
  const text = JSON.stringify(value, null, 2);
  return `${text.replace(/\[[\s\d.,-]+\]/g, (numbers) => numbers.replace(/\s+/g, " ").replace(/ ?([[\]]) ?/g, "$1"))}\n`;
}

async function replaceFile(path: string, content: string | Uint8Array): Promise<void> {
  await writeFile(`${path}.part`, content);
  await rename(`${path}.part`, path);
}
