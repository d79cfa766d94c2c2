import { type ClockDrift, driftFromMarkers } from "../impulse/clock-drift.js";
import { findEvents, type Heard } from "../impulse/find.js";
import type { Event, FoundEvent } from "../impulse/event.js";
import { type NoiseDensity, noiseDensity } from "../impulse/noise.js";
import type { ChannelName, Finding, Recording, Signal } from "../model.js";
import { FINGERPRINT_SAMPLES } from "../recording/fingerprint.js";
import { type LevelFacts, levelFacts } from "../recording/level-facts.js";
import { withoutOffset } from "../recording/without-offset.js";
import * as findings from "./findings.js";
import * as signalFindings from "./findings/signal.js";
import { headerIsWrong, whyNoSweep } from "./findings/why-no-sweep.js";
import { wrongTimeline } from "./findings/wrong-timeline.js";
import { hearSweep, type Surroundings } from "./hear-sweep.js";
import type { CaptureInput } from "./capture-input.js";
import { driftFromRepeats } from "./recorder-clock.js";
import { refuseBroken } from "./refuse-broken.js";

/** The sweeps of a recording, before any of them is deconvolved. */
export interface RecordedSweeps {
  readonly surroundings: Surroundings;
  /** Those that were recorded whole, at least one. */
  readonly sweeps: readonly FoundEvent[];
  /** What sounded, whole or not. */
  readonly sounding: readonly FoundEvent[];
  readonly drift: ClockDrift | null;
  /** The same, where it is too fast or too slow for any recorder: the rate is wrong. */
  readonly wrongClock: ClockDrift | null;
  readonly facts: LevelFacts;
  /** Where the silence is whose noise is known. */
  readonly quiet: { readonly fromSample: number; readonly untilSample: number } | null;
  readonly findings: readonly Finding[];
}

const QUIET_MARGIN_S = 0.05;
/** After the last sound a room is taken to be quiet again. */
const DECAYED_S = 1.5;
/** Half the fade-in that is missing moves the lowest level by 0.2 dB, a quarter by 0.02, all of it by 1.3. */
const UNHEARD_SHARE = 0.5;
/** The search finds a beginning no better than this. */
const SEARCH_STEP_S = 0.001;

/**
 * Finds in a recording what was played.
 *
 * @throws {InputError} when nothing in it can be used
 */
export function recordedSweeps(input: CaptureInput): RecordedSweeps {
  const { recording, excitation, timeline } = input;
  const { file } = recording;
  const facts = levelFacts(input.signal);
  if (facts.silent) throw findings.silent(file);
  if (facts.clippedSamples > 0) throw findings.clipped(file, facts.clippedSamples);
  if (input.signal.sampleRate !== excitation.sampleRate) {
    throw headerIsWrong(input) ?? findings.wrongRate(file, input.signal.sampleRate, excitation.sampleRate);
  }
  const signal = withoutOffset(input.signal, facts.offset);
  const events = findEvents(signal, excitation, timeline, input.marker);
  const { found } = events;
  const heard = found.filter(({ event }) => event.kind === "sweep");
  const misfit = heard.length === 0 ? whyNoSweep(input) : wrongTimeline(input, events);
  const notFound = begun(timeline, found, signal.samples.length);
  // Another sweep falls into parts as well, but is known by how it grows.
  const mayBeBroken = misfit !== null && (heard.length > 0 || misfit.code === "no-sweep");
  if (mayBeBroken || notFound.some(({ event }) => event.kind === "sweep")) {
    // A sweep that falls into two parts may not be known again, and what comes after it is out of place too.
    const all = [...found, ...elsewhere(events, timeline), ...notFound];
    refuseBrokenAmong(input, signal, all, mayBeBroken ? all : notFound);
  }
  if (misfit) throw misfit;
  if (!events.isSure) throw findings.whichLoudspeaker(file);

  const problems: Finding[] = [...signalFindings.dcOffset(file, facts.offset)];
  if (events.otherSamples.length > 0) problems.push(findings.moreSweeps(file, events.otherSamples.length));
  const markerDrift = driftFromMarkers(signal, found);
  const unheardSamples = Math.max(SEARCH_STEP_S * signal.sampleRate, UNHEARD_SHARE * excitation.zeroSample);
  const sweeps = heard.filter((sweep) => {
    const fault = incomplete(sweep, signal, recording, unheardSamples);
    if (fault) problems.push(fault);
    return !fault;
  });
  problems.push(...notHeard(timeline, heard, signal, recording));
  if (sweeps.length === 0) throw findings.asError(problems, file);

  // What was played and is not whole sounds all the same.
  const sounding = [...found, ...notFound];
  const quiet = quietStretch(signal, sounding);
  if (!quiet) problems.push(findings.noLead(file));
  const asPlayed: Surroundings = {
    signal,
    loopback: input.loopback,
    found,
    noise: quiet?.noise ?? null,
    clockRatio: 1,
  };
  const drift = markerDrift ?? driftFromRepeats(asPlayed, excitation, sweeps);
  const isWrongClock = drift !== null && Math.abs(drift.ppm) > findings.LARGEST_DRIFT_PPM;
  const clockRatio = drift?.correct && !isWrongClock && excitation.stretches ? 1 + drift.ppm * 1e-6 : 1;
  const isReel = timeline.filter(({ kind }) => kind === "sweep").length > 1;
  if (!drift && isReel && timeline.some(({ kind }) => kind === "marker")) problems.push(findings.clockUnknown(file));
  const surroundings = { ...asPlayed, clockRatio };
  return {
    surroundings,
    sweeps,
    sounding,
    drift,
    wrongClock: isWrongClock ? drift : null,
    facts,
    quiet,
    findings: problems,
  };
}

/** Sweeps that stand nowhere in the timeline, as if they were its first. */
function elsewhere({ otherSamples }: Heard, timeline: readonly Event[]): FoundEvent[] {
  const event = timeline.find(({ kind }) => kind === "sweep")!;
  return otherSamples.map((startSample) => ({ event, startSample, clarityDb: null }));
}

/**
 * @param found - of places that overlap, the first is taken for a sweep
 * @param inDoubt - those among them that are looked at; the others are once their markers are known
 * @throws {InputError} when one of these sweeps, recorded from beginning to end, falls into two parts
 */
function refuseBrokenAmong(
  { recording, excitation }: CaptureInput,
  signal: Signal,
  found: readonly FoundEvent[],
  inDoubt: readonly FoundEvent[],
): void {
  const apart: FoundEvent[] = [];
  for (const one of found.filter(({ event }) => event.kind === "sweep")) {
    const isInside = one.startSample >= 0 && one.startSample + one.event.samples <= signal.samples.length;
    const isNew = apart.every(({ startSample }) => Math.abs(startSample - one.startSample) >= one.event.samples);
    if (isInside && isNew) apart.push(one);
  }
  const around: Surroundings = { signal, loopback: null, found: apart, noise: null, clockRatio: 1 };
  const looked = apart.filter((sweep) => inDoubt.includes(sweep));
  const noticed = looked.flatMap((sweep) => hearSweep(around, excitation, sweep)?.noticed ?? []);
  refuseBroken(recording.file, signal.sampleRate, noticed, excitation);
}

/** The loudspeaker that played a sound, as the session has it. */
export function channelOf({ channel }: Recording, event: Event): ChannelName {
  return channel ?? event.channel;
}

/** Sounds of the timeline that were not found, though the recording lasts until they begin. */
function begun(timeline: readonly Event[], found: readonly FoundEvent[], samples: number): FoundEvent[] {
  const anchor = found[0];
  if (!anchor) return [];
  return timeline
    .filter((event) => !found.some((other) => other.event === event))
    .map((event) => ({ event, startSample: anchor.startSample + event.atSample - anchor.event.atSample, clarityDb: 0 }))
    .filter(({ startSample }) => startSample >= 0 && startSample < samples);
}

/** Why each sweep that was not heard was not: it lies outside the recording, or its loudspeaker did not play. */
function notHeard(
  timeline: readonly Event[],
  heard: readonly FoundEvent[],
  signal: Signal,
  recording: Recording,
): Finding[] {
  const anchor = heard[0];
  if (!anchor) return [];
  return timeline.flatMap((event) => {
    if (event.kind !== "sweep" || heard.some((other) => other.event === event)) return [];
    const expected = { event, startSample: anchor.startSample + event.atSample - anchor.event.atSample };
    return [
      incomplete(expected, signal, recording) ?? findings.channelMissing(recording.file, channelOf(recording, event)),
    ];
  });
}

/** What of a sweep was not recorded; null if all of it was, but for so much of its beginning that is not heard anyway. */
function incomplete(
  sweep: Pick<FoundEvent, "event" | "startSample">,
  { samples, sampleRate }: Signal,
  recording: Recording,
  unheardSamples = 0,
): Finding | null {
  const { file } = recording;
  const channel = channelOf(recording, sweep.event);
  if (sweep.startSample < -unheardSamples) return findings.startedLate(file, channel, -sweep.startSample / sampleRate);
  const missing = sweep.startSample + sweep.event.samples - samples.length;
  return missing > 0 ? findings.endedEarly(file, channel, missing / sampleRate) : null;
}

/** Noise of the silence before the first sound, or else of the end of the file, when the last decay has gone. */
function quietStretch(
  signal: Signal,
  found: readonly FoundEvent[],
): { noise: NoiseDensity; fromSample: number; untilSample: number } | null {
  const margin = QUIET_MARGIN_S * signal.sampleRate;
  const first = Math.min(...found.map(({ startSample }) => startSample));
  const last = Math.max(...found.map(({ startSample, event }) => startSample + event.samples));
  const before = noiseDensity(signal, 0, first - margin);
  if (before) return { noise: before, fromSample: 0, untilSample: first - margin };
  const fromSample = last + DECAYED_S * signal.sampleRate;
  const after = noiseDensity(signal, fromSample, signal.samples.length);
  return after && { noise: after, fromSample, untilSample: fromSample + FINGERPRINT_SAMPLES };
}
