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

let recorded = 0;

/** What a microphone hears of the short reel: both loudspeakers, 5 ms away, in a room that hisses 60 dB below, never twice alike. */
export function recordedReel(gain = 0.5, recipe = shortRecipe): Float64Array {
  const { L, R } = renderReel(recipe);
  const random = seededRandom(7 + recorded++);
  const late = Math.round(0.005 * recipe.sampleRate);
  const heard = { L: inRoom(L, [331, 431, 547]), R: inRoom(R, [347, 419, 563]) };
  return Float64Array.from({ length: L.length + late }, (_, n) => {
    const played = n < late ? 0 : heard.L[n - late]! + heard.R[n - late]!;
    return gain * played + 1e-4 * (random() - 0.5);
  });
}

/** The sound and what goes to and fro behind it, 26 dB weaker and gone by 60 dB in 0.25 s. */
function inRoom(played: ArrayLike<number>, roundTrips: readonly number[]): Float64Array {
  const heard = Float64Array.from(played);
  for (const delay of roundTrips) {
    const kept = 10 ** ((-3 * delay) / (0.25 * shortRecipe.sampleRate));
    const echo = new Float64Array(played.length);
    for (let n = delay; n < echo.length; n++) {
      echo[n] = 0.05 * played[n - delay]! + kept * echo[n - delay]!;
      heard[n]! += echo[n]!;
    }
  }
  return heard;
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
