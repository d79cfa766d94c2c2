import type { InputError } from "../../errors.js";
import type { Excitation } from "../../impulse/excitation.js";
import { type Event, findEvents, type Heard } from "../../impulse/find.js";
import { heardSweep, type HeardSweep } from "../../impulse/heard-sweep.js";
import { nearestUsual, type UsualRatio } from "../../impulse/usual-ratios.js";
import type { Recording, Signal, SweepRecipe } from "../../model.js";
import { singleEvents } from "../../sweep/timeline.js";
import * as findings from "../findings.js";

/** A sweep with the timeline that it was played in. */
export interface Played {
  readonly excitation: Excitation;
  /** What was played, in the order of playing; one sweep at sample 0 when only the sound is known. */
  readonly timeline: readonly Event[];
  /** Sound of the timeline's markers. */
  readonly marker: SweepRecipe | null;
}

/** The same as a file that the session names. */
export interface NamedPlayed extends Played {
  readonly sweepFile: string;
}

interface Question extends NamedPlayed {
  readonly recording: Recording;
  readonly signal: Signal;
  readonly otherSweeps: readonly NamedPlayed[];
}

/** What growth is read to, and what a short sweep's frequencies smear by. */
const GROWTH_TOLERANCE = 0.02;
const GROWTH_SMEAR_S = 0.0045;
/** A usual ratio is looked for so near to the rough one. */
const RATIO_REACH = 0.03;
/** A sweep that is heard so near to an end of the file was cut off by it. */
const AT_END_S = 0.15;

/** Says why the session's sweep is not in a recording: a wrong rate, another sweep, one cut off, or none. */
export function whyNoSweep(question: Question): InputError {
  const { signal, otherSweeps, sweepFile } = question;
  const { file } = question.recording;
  const fits = otherSweeps.find((other) => isWhole(findStretched(signal, other, 1), other));
  if (fits) return findings.wrongSweep(file, { is: "another", fits: fits.sweepFile, named: sweepFile });
  const heard = heardSweep(signal);
  if (!heard) return findings.noSweep(file);
  const own = ownSweep(question.excitation);
  if (!own) return findings.noSweep(file);
  const ratio = heard.growthS / own.growthS;
  const tolerance = GROWTH_TOLERANCE + GROWTH_SMEAR_S / own.growthS;
  if (Math.abs(Math.log(ratio)) < tolerance) {
    return cutOff(question, heard, own) ?? findings.noSweep(file);
  }
  const usual = wrongRate(question, ratio, tolerance);
  if (usual) return findings.rateMismatch(file, usual.ratio, usual.name);
  return findings.wrongSweep(file, { is: "none", heard: inWords(heard), own: inWords(own) });
}

/**
 * Holds the sweeps of a recording against the timeline they should stand in.
 *
 * @returns null when the timeline is right, or when sweeps are merely missing
 */
export function wrongTimeline(question: Question, heard: Heard): InputError | null {
  const { recording, signal } = question;
  const { file } = recording;
  const wanted = question.timeline.filter(({ kind }) => kind === "sweep");
  const placed = heard.found.filter(({ event }) => event.kind === "sweep");
  const first = placed[0];
  const other = heard.otherSamples[0];
  if (!first) return null;
  if (other !== undefined && placed.length === wanted.length) {
    const count = 1 + heard.otherSamples.length;
    return wanted.length === 1 ? findings.wrongSweep(file, { is: "several", count }) : null;
  }
  if (other !== undefined) {
    const apart = Math.abs(other - first.startSample);
    const distances = wanted.slice(1).map((event, n) => event.atSample - wanted[n]!.atSample);
    const own = distances.reduce((a, b) => (Math.abs(b - apart) < Math.abs(a - apart) ? b : a));
    const ratio = apart / own;
    if (isWhole(findStretched(signal, question, ratio), question)) {
      const usual = nearestUsual(ratio, signal.sampleRate, 1e-3);
      return findings.rateMismatch(file, usual?.ratio ?? ratio, usual?.name ?? null);
    }
    const [heardS, ownS] = [apart / signal.sampleRate, own / signal.sampleRate];
    return findings.wrongSweep(file, { is: "spaced", heardS, ownS });
  }
  const { marker } = question;
  if (!marker || recording.channel !== undefined || wanted.length < 2 || placed.length > 1) return null;
  const single = { ...question, timeline: singleEvents(marker, "L") };
  const alone = findStretched(signal, single, 1);
  const markers = alone.found.filter(({ event }) => event.kind === "marker");
  const reelMarkers = heard.found.filter(({ event }) => event.kind === "marker");
  const isSingle = isWhole(alone, single) && markers.length > reelMarkers.length;
  return isSingle ? findings.wrongSweep(file, { is: "single" }) : null;
}

/** Whether a file's sound is the session's sweep at another rate than its header names. */
export function headerIsWrong(question: Question): InputError | null {
  const { signal, excitation, recording } = question;
  const { sampleRate } = excitation;
  const isIt = isWhole(findStretched({ ...signal, sampleRate }, question, 1), question);
  return isIt ? findings.wrongHeader(recording.file, signal.sampleRate, sampleRate) : null;
}

/** A usual ratio of rates at which all that was played is in the recording. */
function wrongRate(question: Question, ratio: number, tolerance: number): UsualRatio | null {
  const { signal } = question;
  const usual = nearestUsual(ratio, signal.sampleRate, Math.max(tolerance, RATIO_REACH));
  return usual && isWhole(findStretched(signal, question, usual.ratio), question) ? usual : null;
}

/** Looks for what was played as a recorder hears it whose clock is off by a ratio. */
function findStretched(signal: Signal, { excitation, timeline, marker }: Played, ratio: number): Heard {
  if (ratio === 1) return findEvents(signal, excitation, timeline, marker);
  const stretched: Excitation = {
    ...excitation,
    samples: (clockRatio = 1) => excitation.samples(clockRatio * ratio),
  };
  const events = timeline.map((event) => ({ ...event, atSample: Math.round(event.atSample * ratio) }));
  // A marker that lasts longer is one made at a higher rate.
  const longer = marker && { ...marker, sampleRate: marker.sampleRate * ratio };
  return findEvents(signal, stretched, events, longer);
}

/** Every sweep is there, and where there are markers, one of them at least. */
function isWhole({ found }: Heard, { timeline, marker }: Played): boolean {
  const count = (kind: Event["kind"], events: readonly { kind: Event["kind"] }[]): number =>
    events.filter((event) => event.kind === kind).length;
  const events = found.map(({ event }) => event);
  const isMarked = marker !== null && count("marker", timeline) > 0;
  return count("sweep", events) === count("sweep", timeline) && (!isMarked || count("marker", events) > 0);
}

/** The session's own sweep as it would be heard: by its recipe, or off its sound. */
function ownSweep(excitation: Excitation): HeardSweep | null {
  const { growthS, sweptHz, sampleRate, zeroSample } = excitation;
  if (growthS === null) return heardSweep({ samples: excitation.samples(), sampleRate });
  const fromS = zeroSample / sampleRate;
  const [fromHz, toHz] = sweptHz;
  return { growthS, fromHz, toHz, fromS, toS: fromS + growthS * Math.log(toHz / fromHz) };
}

/** The right sweep that does not begin, or does not end, in the recording. */
function cutOff({ recording, signal, excitation }: Question, heard: HeardSweep, own: HeardSweep): InputError | null {
  const { sampleRate } = signal;
  const durationS = signal.samples.length / sampleRate;
  const startS = heard.fromS - own.growthS * Math.log(heard.fromHz / own.fromHz) - own.fromS;
  const endS = startS + excitation.samples().length / sampleRate;
  const channel = recording.channel ?? null;
  if (heard.fromS < AT_END_S && startS < 0) {
    return findings.asError([findings.startedLate(recording.file, channel, -startS)], recording.file);
  }
  if (heard.toS > durationS - AT_END_S && endS > durationS) {
    return findings.asError([findings.endedEarly(recording.file, channel, endS - durationS)], recording.file);
  }
  return null;
}

function inWords({ fromHz, toHz, growthS }: HeardSweep): { fromHz: number; toHz: number; lengthS: number } {
  return { fromHz, toHz, lengthS: growthS * Math.log(toHz / fromHz) };
}
