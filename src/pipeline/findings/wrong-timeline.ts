import type { InputError } from "../../errors.js";
import type { Heard } from "../../impulse/find.js";
import type { FoundEvent } from "../../impulse/event.js";
import { findPlayed, isWhole, type Played } from "../../impulse/played.js";
import type { Recording, Signal } from "../../model.js";
import { singleEvents } from "../../sweep/timeline.js";
import * as findings from "../findings.js";

interface Question extends Played {
  readonly recording: Recording;
  readonly signal: Signal;
}

/** Distances between sweeps are read to a few milliseconds in seconds. */
const RATIO_TOLERANCE = 1e-3;
const MARKERS = 2;

/**
 * Holds the sweeps of a recording against the timeline that they should stand in.
 *
 * @returns null when the timeline is right, or when sweeps are merely missing
 */
export function wrongTimeline(question: Question, heard: Heard): InputError | null {
  const { file } = question.recording;
  const wanted = question.timeline.filter(({ kind }) => kind === "sweep");
  const placed = heard.found.filter(({ event }) => event.kind === "sweep");
  const first = placed[0];
  const other = heard.otherSamples[0];
  if (!first) return null;
  if (other === undefined) return placed.length === 1 && wanted.length > 1 ? notTheReel(question, heard) : null;
  if (placed.length < wanted.length) {
    const distances = wanted.slice(1).map((event, n) => event.atSample - wanted[n]!.atSample);
    return otherDistance(question, first, Math.abs(other - first.startSample), distances);
  }
  // Another pass of the reel does no harm where the markers hold this one together.
  if (wanted.length > 1 && question.marker && isWhole(heard, question, MARKERS)) return null;
  const count = placed.length + heard.otherSamples.length;
  return findings.wrongSweep(file, { is: "several", count, wanted: wanted.length });
}

/** Sweeps that are not as far apart as they were played: by a ratio that all of the reel follows, or another reel. */
function otherDistance(question: Question, first: FoundEvent, apart: number, distances: readonly number[]): InputError {
  const { signal, recording } = question;
  const own = distances.reduce((a, b) => (Math.abs(b - apart) < Math.abs(a - apart) ? b : a));
  const ratio = apart / own;
  const stretched = findPlayed(signal, question, ratio);
  const clarityDb = stretched.found.find(({ clarityDb }) => clarityDb !== null)?.clarityDb ?? 0;
  // A wrong rate changes the sweeps themselves, another reel only what lies between.
  if (isWhole(stretched, question) && clarityDb > (first.clarityDb ?? 0)) {
    return findings.rateMismatch(recording.file, ratio, signal.sampleRate, RATIO_TOLERANCE);
  }
  const [heardS, ownS] = [apart / signal.sampleRate, own / signal.sampleRate];
  return findings.wrongSweep(recording.file, { is: "spaced", heardS, ownS });
}

/** One sweep of a reel alone may be the file for one loudspeaker: then both of that file's markers stand around it. */
function notTheReel(question: Question, heard: Heard): InputError | null {
  const { signal, recording, marker } = question;
  if (!marker || recording.channel !== undefined) return null;
  const single = { ...question, timeline: singleEvents(marker, "L") };
  const alone = findPlayed(signal, single);
  const isSingle = isWhole(alone, single, MARKERS) && alone.found.length > heard.found.length;
  return isSingle ? findings.wrongSweep(recording.file, { is: "single" }) : null;
}
