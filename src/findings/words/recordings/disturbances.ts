import { fixed, hertz } from "../../../words/numbers.js";
import type { Wordings } from "../../wording.js";

/** What breaks into a recording. */
export const disturbanceWords = {
  dropout: (f: Held | Lost | Misplaced) => ({
    message: "lateS" in f ? misplaced(f) : "lostS" in f ? lost(f) : held(f),
    remedy: `${"lostS" in f && f.atS === undefined ? "play the session's own file; " : ""}close other programs, choose a larger audio buffer or a shorter cable, and record again`,
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

export interface Held {
  atS: number;
  samples: number | null;
  places: number;
}

function held({ atS, samples, places }: Held): string {
  const alike = samples === null ? "" : ` (${samples} alike in a row)`;
  return `Samples are missing or came twice at ${fixed(atS, 3)} s${alike}${morePlaces(places)}: what was recorded after that comes too early or too late.`;
}

export interface Lost {
  /** Negative: so much came twice. */
  lostS: number;
  /** Not stated where no sweep shows the place: then nothing tells a loss from another pause. */
  atS?: number;
  isExact?: boolean;
}

function lost({ lostS, atS, isExact }: Lost): string {
  const [what, how] = lostS > 0 ? ["are missing", "early"] : ["came twice", "late"];
  const size = `(${fixed(1000 * Math.abs(lostS), 0)} ms)`;
  if (atS === undefined) {
    return `Samples ${what} somewhere between the first sound and the last ${size}: what was recorded after that comes too ${how}. Or another file of the same sweep was played, with other pauses.`;
  }
  const where = isExact ? `${fixed(atS, 3)} s` : `about ${fixed(atS, 1)} s`;
  return `Samples ${what} at ${where} ${size}: what was recorded after that comes too ${how}, and the sweep falls into two parts.`;
}

export interface Misplaced {
  /** A marker came so much later than its distance from the sweep says; negative: earlier. */
  lateS: number;
}

function misplaced({ lateS }: Misplaced): string {
  return `The first or the last sound is ${fixed(1000 * Math.abs(lateS), 2)} ms nearer to the sweep, or farther from it, than it was played: samples are missing or came twice somewhere between them, so neither the recorder's clock nor which loudspeaker comes first can be told.`;
}
