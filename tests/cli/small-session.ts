import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";

import type { SweepRecipe } from "../../src/model.js";
import { encodeWav } from "../../src/recording/encode-wav.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { renderReel } from "../../src/sweep/render.js";
import { seededRandom } from "../recording/seeded-random.js";

/** A sweep so short that a whole session is measured in a second or two. */
export const shortRecipe: SweepRecipe = makeSweepRecipe({
  ...{ durationS: 1, startHz: 40, endHz: 18_000, leadS: 0.5, gapS: 0.5, tailS: 0.3 },
  format: "pcm16",
});

/** What a microphone hears of the short reel: both loudspeakers, 5 ms away, in a room that hisses 60 dB below. */
export function recordedReel(gain = 0.5): Float64Array {
  const { L, R } = renderReel(shortRecipe);
  const random = seededRandom(7);
  const late = Math.round(0.005 * shortRecipe.sampleRate);
  return Float64Array.from({ length: L.length + late }, (_, n) => {
    const played = n < late ? 0 : L[n - late]! + R[n - late]!;
    return gain * played + 1e-4 * (random() - 0.5);
  });
}

export interface SmallSession {
  readonly folder: string;
  /** Writes a file of the session, folders included. */
  put(file: string, content: string | Uint8Array): void;
  /** Writes session.json: the usual one, with some of its keys replaced. */
  describe(changes?: Readonly<Record<string, unknown>>): void;
  remove(): void;
}

export const usualSession = {
  schema: "carrywell/session/1",
  date: "2026-05-14",
  sweep: "sweep.json",
  monitors: [{ id: "mains", role: "main" }],
  positions: [
    { id: "mix", kind: "mix" },
    { id: "sofa", kind: "room" },
  ],
  recordings: [{ file: "mains-mix.wav", monitor: "mains", position: "mix" }],
};

/** Makes a folder with one good recording, its recipe and its session.json. */
export function smallSession(): SmallSession {
  const root = mkdtempSync(join(tmpdir(), "carrywell-cli-"));
  const folder = join(root, "session");
  const session: SmallSession = {
    folder,
    put(file, content) {
      const path = join(folder, file);
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(path, content);
    },
    describe(changes = {}) {
      this.put("session.json", JSON.stringify({ ...usualSession, ...changes }, null, 2));
    },
    remove() {
      rmSync(root, { recursive: true, force: true });
    },
  };
  session.put("sweep.json", JSON.stringify(shortRecipe));
  session.put("mains-mix.wav", encodeWav([recordedReel()], shortRecipe.sampleRate, "pcm16"));
  session.describe();
  return session;
}
