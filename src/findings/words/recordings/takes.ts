import { fixed, hertz } from "../../../words/numbers.js";
import type { Wordings } from "../../wording.js";

const FIRST_TAKE = "levels are averaged as energy, time figures are the first take's";

/** Recordings of one place against each other. */
export const takeWords = {
  "takes-differ": (f: { id: string; differenceDb: number; bandHz: number; averaged: boolean }) => ({
    message: `The takes of ${f.id} differ by ${fixed(f.differenceDb, 1)} dB near ${hertz(f.bandHz)}${f.averaged ? ", though they agree in the middle" : `: ${FIRST_TAKE}`}.`,
    remedy: "look for what changed between the takes: a door, a filter, a switched loudspeaker, noise",
  }),
  "gain-changed": (f: { id: string; differenceDb: number }) => ({
    message: `The takes of ${f.id} differ by ${fixed(f.differenceDb, 1)} dB, alike at all frequencies, as when a gain is turned: ${FIRST_TAKE}.`,
    remedy: "leave the microphone's gain and the monitors' volume alone between takes, and record again",
  }),
  "duplicate-take": (f: { first: string; second: string; gainDb: number; isRepeat: boolean }) => {
    const gain = Math.abs(f.gainDb) < 0.05 ? "" : `, ${fixed(Math.abs(f.gainDb), 1)} dB apart in gain`;
    return f.isRepeat
      ? {
          message: `${f.second} is the same recording as ${f.first}${gain}, not a second take: it is left out.`,
          remedy: "name the file of the other take, or remove the entry",
        }
      : {
          message: `${f.first} and ${f.second} are the same recording${gain}, but the session takes them for different things: neither is used.`,
          remedy: "find out which of the two it is, and name the right file for the other",
        };
  },
  "take-misfits": (f: { id: string; firstFile: string }) => ({
    message: `This take of ${f.id} was made with another sweep or sample rate than ${f.firstFile}: they cannot be averaged.`,
    remedy: "record all takes of one place with the same sweep, or give this one a position of its own",
  }),
  "position-moved": (f: { id: string; leastM: number; mostM: number }) => ({
    message: `Between the takes of ${f.id} the microphone moved by some ${fixed(100 * f.leastM, 0)} to ${fixed(100 * f.mostM, 0)} cm, as far as the reflections that they still have in common near 4 kHz tell: ${FIRST_TAKE}.`,
    remedy:
      "leave the microphone where it is between takes and record again, or name the places as different positions",
  }),
} satisfies Wordings;
