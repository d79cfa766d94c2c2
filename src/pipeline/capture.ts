import { decayEnd } from "../dsp/decay-end.js";
import { logPower } from "../dsp/log-power.js";
import { delayBetween } from "../dsp/delay-between.js";
import { absolutePolarity } from "../impulse/absolute-polarity.js";
import { findArrival } from "../impulse/arrival.js";
import { arrivalUncertainty } from "../impulse/arrival-uncertainty.js";
import { clockByShape } from "../impulse/clock-by-shape.js";
import { type ClockDrift, clockDrift, driftFromMarkers } from "../impulse/clock-drift.js";
import { correctHarmonic, correctMicrophone } from "../impulse/correct-microphone.js";
import { type CutResponse, beforeSeconds, cutResponse } from "../impulse/cut-response.js";
import { type Deconvolved, deconvolve } from "../impulse/deconvolve.js";
import type { Excitation } from "../impulse/excitation.js";
import { type Event, findEvents, type FoundEvent } from "../impulse/find.js";
import { splitHarmonics } from "../impulse/harmonics.js";
import { markerAgreement } from "../impulse/marker-agreement.js";
import { type LevelCeiling, levelCeiling } from "../impulse/level-ceiling.js";
import { type MarkerLikeness, markerLikeness } from "../impulse/marker-likeness.js";
import { type NoiseDensity, noiseDensity, noiseInResponse, withNoise } from "../impulse/noise.js";
import { unevennessDb } from "../impulse/noise-evenness.js";
import { residualOf, summariseResidual } from "../impulse/residual.js";
import { signalToNoise } from "../impulse/signal-to-noise.js";
import type {
  ChannelName,
  Distortion,
  Finding,
  HarmonicResponse,
  ImpulseResponse,
  Measurement,
  Recording,
  Signal,
} from "../model.js";
import { measureDistortion } from "../metrics/distortion.js";
import { hidesTheRest, isBent } from "../metrics/driven-too-hard.js";
import { steadyState } from "../metrics/response/steady-state.js";
import { type Fingerprint, fingerprint, FINGERPRINT_SAMPLES } from "../recording/fingerprint.js";
import { levelFacts } from "../recording/level-facts.js";
import { withoutOffset } from "../recording/without-offset.js";
import { judge } from "./disturbances.js";
import * as findings from "./findings.js";
import * as signalFindings from "./findings/signal.js";
import { headerIsWrong, type NamedPlayed, whyNoSweep } from "./findings/why-no-sweep.js";
import { wrongTimeline } from "./findings/wrong-timeline.js";
import { notice } from "./notice.js";
import type { Noticed } from "./noticed.js";
import { refuseDropouts } from "./refuse-dropouts.js";

/** One sweep of one recording, deconvolved. */
export interface Take {
  readonly recording: Recording;
  readonly channel: ChannelName;
  readonly impulse: ImpulseResponse;
  readonly harmonics: readonly HarmonicResponse[];
  readonly noise: NoiseDensity | null;
  readonly arrivalInFileS: number | null;
  /** Arrival after the instant of playing, on the player's clock and up to one constant of the recording; for pairs. */
  readonly arrivalPlayedS: number | null;
  readonly arrivalUncertaintyS: number;
  /** Time of flight, when the electrical signal was recorded too. */
  readonly flightS: number | null;
  /** Which way its loudspeaker pushes, against the electrical signal where that is known; null where its phase does not tell. */
  readonly pushes: 1 | -1 | null;
  readonly drift: ClockDrift | null;
  /** When its sweep was played, in seconds of the timeline. */
  readonly playedAtS: number;
  /** Level of the played sine; null when no sweep was played. */
  readonly levelDbfs: number | null;
  readonly peakDbfs: number | null;
  readonly clippedSamples: number;
  readonly signalToNoiseDb: number | null;
  readonly residual: Measurement["quality"]["residual"];
  /** Ranges in which something else sounded while the response did: no decay can be read there. */
  readonly disturbedHz: readonly (readonly [number, number])[];
  /** Of the whole recording. */
  readonly fingerprint: Fingerprint;
}

export interface Captured {
  readonly takes: readonly Take[];
  readonly findings: readonly Finding[];
}

export interface CaptureInput extends NamedPlayed {
  readonly recording: Recording;
  /** The microphone's channel. */
  readonly signal: Signal;
  /** The electrical loopback's channel. */
  readonly loopback: Signal | null;
  /** The session's other sweeps, should one of them be in the recording instead. */
  readonly otherSweeps: readonly NamedPlayed[];
  readonly deviationDb: ((frequencyHz: number) => number) | null;
}

/** The coarse search may be off by a strong early reflection or a slow loudspeaker. */
const SEARCH_MARGIN_S = 0.05;
const QUIET_MARGIN_S = 0.05;
/** After the last sound a room is taken to be quiet again. */
const DECAYED_S = 1.5;
/** With less silence behind a sweep its low frequencies are cut off while they still sound. */
const LEAST_TAIL_S = 0.4;
/** Half the fade-in that is missing moves the lowest level by 0.2 dB, a quarter by 0.02, all of it by 1.3. */
const UNHEARD_SHARE = 0.5;
/** The search finds a beginning no better than this. */
const SEARCH_STEP_S = 0.001;
/** Loudspeakers with plain crossovers gain up to 1.3 dB of peak by a clock that undoes their delay; a thousandth, 5 dB and more. */
const SHARPER_DB = 3;
/** What the loudspeaker's own delay adds to a ratio read off the shape. */
const SHAPE_TOLERANCE = 3e-4;

/**
 * Turns one recording into the impulse responses of the sweeps in it.
 *
 * @throws {InputError} when nothing in the recording can be used
 */
export function captureRecording(input: CaptureInput): Captured {
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
  const sweeps = found.filter(({ event }) => event.kind === "sweep");
  if (sweeps.length === 0) throw whyNoSweep(input);
  const misfit = wrongTimeline(input, events);
  if (misfit) throw misfit;
  if (!events.isSure) throw findings.whichLoudspeaker(file);

  const problems: Finding[] = [...signalFindings.dcOffset(file, facts.offset)];
  if (events.otherSamples.length > 0) problems.push(findings.moreSweeps(file, events.otherSamples.length));
  const channelOf = (event: Event): ChannelName => recording.channel ?? event.channel;

  const markerDrift = driftFromMarkers(signal, found);
  const unheardSamples = Math.max(SEARCH_STEP_S * signal.sampleRate, UNHEARD_SHARE * excitation.zeroSample);
  const whole = sweeps.filter((sweep) => {
    const fault = incomplete(sweep, signal, file, channelOf(sweep.event), unheardSamples);
    if (fault) problems.push(fault);
    return !fault;
  });
  problems.push(...notHeard(timeline, sweeps, signal, file, channelOf));
  if (whole.length === 0) throw findings.asError(problems, file);

  // What was played and is not whole sounds all the same.
  const sounding = [...found, ...begun(timeline, found, signal.samples.length)];
  const quiet = quietStretch(signal, sounding);
  const noise = quiet?.noise ?? null;
  if (!noise) problems.push(findings.noLead(file));
  const ownFingerprint = fingerprint(signal.samples, signal.sampleRate, quiet && quiet.untilSample);
  const drift = markerDrift ?? driftFromRepeats(whole, signal, excitation, found);
  const isWrongClock = drift !== null && Math.abs(drift.ppm) > findings.LARGEST_DRIFT_PPM;
  const clockRatio = drift?.correct && !isWrongClock && excitation.stretches ? 1 + drift.ppm * 1e-6 : 1;

  const { deviationDb } = input;
  const isReel = timeline.filter(({ kind }) => kind === "sweep").length > 1;
  if (!drift && isReel && timeline.some(({ kind }) => kind === "marker")) problems.push(findings.clockUnknown(file));
  const playedRatio = 1 + (drift?.ppm ?? 0) * 1e-6;

  const noticed: Noticed[] = [];
  let markerDb: number | null = null;
  let markersAlike: MarkerLikeness | null = null;
  const ceilings: LevelCeiling[] = [];
  const heard = whole.flatMap((sweep) => {
    const deconvolved = deconvolveEvent(sweep, signal, excitation, found, clockRatio);
    const cut = cutEvent(deconvolved, sweep, excitation, noise);
    if (!cut) return [];
    const arrivalSample = deconvolved.startSample + cut.arrivalLag;
    const tailS = tailSeconds(deconvolved, sweep, excitation);
    if (tailS < LEAST_TAIL_S) {
      const isLast = deconvolved.startSample + deconvolved.segmentSamples === signal.samples.length;
      const told = isLast ? findings.endedSoon : findings.shortTail;
      problems.push(told(file, channelOf(sweep.event), tailS, LEAST_TAIL_S));
    }
    const playedSample = sweep.event.atSample * playedRatio;
    const electrical = input.loopback && flight(input.loopback, input, sweep, found, clockRatio, arrivalSample);
    // With the electrical signal polarity is absolute: against that signal's own.
    const against = (sign: 1 | -1): 1 | -1 => (sign === (electrical?.polarity ?? 1) ? 1 : -1);
    const sign = absolutePolarity(cut.impulse);
    const impulse: ImpulseResponse = { ...cut.impulse, polarity: against(sign ?? cut.impulse.polarity) };
    const decaySamples = decayEnd(cut.impulse).first;
    // A response that could not be followed to its end leaves itself unexplained.
    const isWhole = tailS >= LEAST_TAIL_S;
    const residual = isWhole ? residualOf(deconvolved, excitation, cut.arrivalLag, decaySamples, noise) : null;
    const markers = found.filter(({ event }) => event.kind === "marker" && event.channel === sweep.event.channel);
    if (input.marker && noise) {
      markerDb ??= markerAgreement(signal, cut.impulse, markers, input.marker, noise);
      markersAlike ??= markerLikeness(signal, cut.impulse, markers, input.marker, noise, clockRatio);
    }
    const zeroSample = deconvolved.startSample + cut.arrivalLag + excitation.zeroSample;
    const harmonics = splitHarmonics(deconvolved, excitation, cut.arrivalLag);
    const ceiling = levelCeiling(signal, excitation, zeroSample);
    // One reflection in a dry room makes crests of one height too, but no harmonics.
    if (ceiling && isBent(distortionOf(cut.impulse, harmonics))) ceilings.push(ceiling);
    const isDistorted: Noticed["isDistorted"] = (noiseDb) => clipsIn(withNoise(cut.impulse, noiseDb), harmonics);
    noticed.push(notice(signal, excitation, sweep, cut, residual, decaySamples, isDistorted));
    const take: Take = {
      recording,
      channel: channelOf(sweep.event),
      impulse: deviationDb ? correctMicrophone(impulse, deviationDb) : impulse,
      harmonics: deviationDb ? harmonics.map((one) => correctHarmonic(one, deviationDb)) : harmonics,
      noise,
      arrivalInFileS: cut.arrivalInFileS,
      arrivalPlayedS: drift ? (arrivalSample - playedSample) / (signal.sampleRate * playedRatio) : null,
      arrivalUncertaintyS: arrivalUncertainty(cut.impulse),
      flightS: electrical?.seconds ?? null,
      pushes: sign && against(sign),
      drift,
      playedAtS: sweep.event.atSample / signal.sampleRate,
      levelDbfs: excitation.levelDbfs,
      peakDbfs: facts.peakDbfs,
      clippedSamples: facts.clippedSamples,
      signalToNoiseDb: noise && signalToNoise(deconvolved, sweep.event.samples, noise),
      residual: residual && summariseResidual(residual),
      disturbedHz: [],
      fingerprint: ownFingerprint,
    };
    return [take];
  });
  if (heard.length === 0) throw findings.noSweep(file);
  if (ceilings[0]) throw findings.atCeiling(file, ceilings[0]);
  if (isWrongClock) {
    // Lost samples move the second marker as a wrong clock does.
    refuseDropouts(file, signal, noticed, excitation.growthS);
    throw findings.rateMismatch(file, 1 + drift.ppm * 1e-6, signal.sampleRate);
  }
  const shaped = drift ? null : wrongByShape(heard, excitation);
  if (shaped !== null) throw findings.rateMismatch(file, shaped, signal.sampleRate, SHAPE_TOLERANCE);
  const uneven = quiet && unevennessDb(signal, quiet.fromSample, quiet.untilSample);
  const disturbances = judge(file, signal, excitation, sounding, noticed, {
    markerDb,
    markersAlike,
    unevennessDb: uneven,
  });
  const takes = heard.map((take, n) => ({
    ...take,
    impulse: withNoise(take.impulse, (hz) => disturbances.noiseDb(hz, n)),
    disturbedHz: disturbances.disturbedHz[n]!,
  }));
  return { takes, findings: [...problems, ...disturbances.findings] };
}

/** Sounds of the timeline that were not found, though the recording lasts until they begin. */
function begun(timeline: readonly Event[], found: readonly FoundEvent[], samples: number): FoundEvent[] {
  const anchor = found[0]!;
  return timeline
    .filter((event) => !found.some((other) => other.event === event))
    .map((event) => ({ event, startSample: anchor.startSample + event.atSample - anchor.event.atSample, clarityDb: 0 }))
    .filter(({ startSample }) => startSample >= 0 && startSample < samples);
}

/** Where nothing was heard twice: the clock ratio at which every direct sound is far sharper, if that is a wrong rate. */
function wrongByShape(takes: readonly Take[], { growthS }: Excitation): number | null {
  if (growthS === null) return null;
  const shapes = takes.map(({ impulse }) => clockByShape(impulse, growthS));
  const isWrong = shapes.every(
    ({ ratio, gainDb }) => gainDb > SHARPER_DB && Math.abs(ratio - 1) > findings.LARGEST_DRIFT_PPM * 1e-6,
  );
  return isWrong ? shapes.reduce((sum, { ratio }) => sum + ratio / shapes.length, 0) : null;
}

/** Why each sweep that was not heard was not: it lies outside the recording, or its loudspeaker did not play. */
function notHeard(
  timeline: readonly Event[],
  heard: readonly FoundEvent[],
  signal: Signal,
  file: string,
  channelOf: (event: Event) => ChannelName,
): Finding[] {
  const anchor = heard[0];
  if (!anchor) return [];
  return timeline.flatMap((event) => {
    if (event.kind !== "sweep" || heard.some((other) => other.event === event)) return [];
    const expected = { event, startSample: anchor.startSample + event.atSample - anchor.event.atSample };
    const channel = channelOf(event);
    return [incomplete(expected, signal, file, channel) ?? findings.channelMissing(file, channel)];
  });
}

/** What of a sweep was not recorded; null if all of it was, but for so much of its beginning that is not heard anyway. */
function incomplete(
  sweep: Pick<FoundEvent, "event" | "startSample">,
  signal: Signal,
  file: string,
  channel: ChannelName,
  unheardSamples = 0,
): Finding | null {
  const { sampleRate } = signal;
  if (sweep.startSample < -unheardSamples) return findings.startedLate(file, channel, -sweep.startSample / sampleRate);
  const missing = sweep.startSample + sweep.event.samples - signal.samples.length;
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

function deconvolveEvent(
  sweep: FoundEvent,
  signal: Signal,
  excitation: Excitation,
  found: readonly FoundEvent[],
  clockRatio: number,
): Deconvolved {
  const { sampleRate } = signal;
  const margin = SEARCH_MARGIN_S * sampleRate;
  const later = found
    .filter(({ startSample }) => startSample > sweep.startSample)
    .map(({ startSample }) => startSample);
  const endSample = Math.min(signal.samples.length, ...later.map((startSample) => startSample - 0.01 * sampleRate));
  return deconvolve(
    signal,
    excitation,
    {
      startSample: sweep.startSample - margin,
      endSample: Math.floor(endSample),
      beforeSamples: Math.ceil((beforeSeconds(excitation) + 2 * SEARCH_MARGIN_S) * sampleRate),
    },
    clockRatio,
  );
}

function cutEvent(
  deconvolved: Deconvolved,
  sweep: FoundEvent,
  excitation: Excitation,
  noise: NoiseDensity | null,
): CutResponse | null {
  const expectedLag = sweep.startSample - deconvolved.startSample;
  const after = tailSeconds(deconvolved, sweep, excitation) * excitation.sampleRate;
  return cutResponse(
    deconvolved,
    excitation,
    expectedLag,
    Math.max(after, 0.05 * excitation.sampleRate),
    noise && noiseInResponse(noise, excitation, deconvolved.circular.length, deconvolved.clockRatio),
  );
}

/** How long the room was recorded after the sweep's end, before the next sound or the end of the file. */
function tailSeconds(deconvolved: Deconvolved, sweep: FoundEvent, excitation: Excitation): number {
  const behind = deconvolved.segmentSamples - (sweep.startSample - deconvolved.startSample);
  return (behind - excitation.samples(deconvolved.clockRatio).length) / excitation.sampleRate;
}

/** Without markers: the first and the last sweep of one loudspeaker are the same sound too. */
function driftFromRepeats(
  sweeps: readonly FoundEvent[],
  signal: Signal,
  excitation: Excitation,
  found: readonly FoundEvent[],
): ClockDrift | null {
  const first = sweeps[0];
  const last = sweeps.findLast(({ event }) => event.channel === first?.event.channel);
  if (!first || !last || first === last) return null;
  const responses = [first, last].map((sweep) => {
    const deconvolved = deconvolveEvent(sweep, signal, excitation, found, 1);
    const cut = cutEvent(deconvolved, sweep, excitation, null);
    if (!cut) return null;
    const start = Math.round(cut.arrivalLag - 0.01 * signal.sampleRate);
    const from = Math.round(cut.impulse.arrivalSample - 0.01 * signal.sampleRate);
    const length = Math.round(0.08 * signal.sampleRate);
    return { at: deconvolved.startSample + start, samples: cut.impulse.samples.subarray(from, from + length) };
  });
  const [a, b] = responses;
  if (!a || !b) return null;
  const delay = delayBetween(a.samples, b.samples, signal.sampleRate, [200, 8000]);
  return clockDrift(b.at + delay.samples - a.at, last.event.atSample - first.event.atSample, delay.uncertaintySamples);
}

/** Time from the electrical signal to the microphone, and the electrical signal's polarity. */
function flight(
  loopback: Signal,
  input: CaptureInput,
  sweep: FoundEvent,
  found: readonly FoundEvent[],
  clockRatio: number,
  arrivalSample: number,
): { seconds: number; polarity: 1 | -1 } | null {
  const electrical = deconvolveEvent(sweep, loopback, input.excitation, found, clockRatio);
  const expected = sweep.startSample - electrical.startSample;
  const { sampleRate } = loopback;
  const arrival = findArrival(electrical.circular, sampleRate, [
    expected - 0.2 * sampleRate,
    expected + 0.03 * sampleRate,
  ]);
  if (!arrival) return null;
  const seconds = (arrivalSample - electrical.startSample - arrival.lagSamples) / sampleRate;
  return { seconds, polarity: arrival.polarity };
}

function clipsIn(impulse: ImpulseResponse, harmonics: readonly HarmonicResponse[]): boolean {
  const distortion = distortionOf(impulse, harmonics);
  return distortion !== null && hidesTheRest(distortion);
}

function distortionOf(impulse: ImpulseResponse, harmonics: readonly HarmonicResponse[]): Distortion | null {
  const steady = steadyState(impulse);
  return measureDistortion(impulse, logPower(steady.power, steady.binHz), [harmonics]);
}
