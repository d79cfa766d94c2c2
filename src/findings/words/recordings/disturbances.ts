import { fixed, hertz } from "../../../words/numbers.js";
import type { Wordings } from "../../wording.js";

/** What breaks into a recording. */
export const disturbanceWords = {
  dropout: (f: { atS: number; samples: number | null; places: number }) => ({
    message: `Samples are missing or came twice at ${fixed(f.atS, 3)} s${f.samples === null ? "" : ` (${f.samples} alike in a row)`}${morePlaces(f.places)}: what was recorded after that comes too early or too late.`,
    remedy: "close other programs, choose a larger audio buffer or a shorter cable, and record again",
  }),
  knock: (f: { atS: number; bandHz: number; excessDb: number; reSweepDb: number; isAgain: boolean }) => ({
    message: `Something knocked or rattled at ${fixed(f.atS, 1)} s: ${fixed(f.excessDb, 0)} dB over the noise near ${hertz(f.bandHz)}, ${fixed(-f.reSweepDb, 0)} dB under the sweep. Decays that were sounding then are not stated.${f.isAgain ? " It came at the same note of another sweep too, as when something rattles along or a limiter takes hold: the levels of the loudest notes are not to be trusted." : ""}`,
    remedy: f.isAgain
      ? "look for what rattles at that note; switch off any limiter or compressor; play softer, and record again"
      : "record again, with nobody moving and the door shut; if it comes back at the same note, look for what rattles",
  }),
  hum: (f: { mainsHz: number; strongestHz: number; reSweepDb: number }) => ({
    message: `The mains hum in the recording: ${f.mainsHz} Hz and its multiples, strongest at ${f.strongestHz} Hz, only ${fixed(-f.reSweepDb, 0)} dB under the sweep.`,
    remedy: "use a balanced cable, run computer and interface from one socket, keep dimmers and power supplies away",
  }),
} satisfies Wordings;

function morePlaces(places: number): string {
  return places > 1 ? `, and at ${places - 1} more ${places === 2 ? "place" : "places"}` : "";
}
