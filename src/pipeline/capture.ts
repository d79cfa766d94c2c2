import type { ClockDrift } from "../impulse/clock-drift.js";
import { correctHarmonic, correctMicrophone } from "../impulse/correct-microphone.js";
import { type NoiseDensity, withNoise } from "../impulse/noise.js";
import { unevennessDb } from "../impulse/noise-evenness.js";
import { strayMarker } from "../impulse/stray-marker.js";
import type { ChannelName, Finding, HarmonicResponse, ImpulseResponse, Measurement, Recording } from "../model.js";
import { type Fingerprint, fingerprint } from "../recording/fingerprint.js";
import type { CaptureInput } from "./capture-input.js";
import { judge } from "./disturbances.js";
import * as findings from "./findings.js";
import { lostInSilence } from "./findings/signal.js";
import { hearSweep, LEAST_TAIL_S } from "./hear-sweep.js";
import type { Noticed } from "./noticed.js";
import { channelOf, type RecordedSweeps, recordedSweeps } from "./recorded-sweeps.js";
import { lostBetween, wrongByShape } from "./recorder-clock.js";
import { refuseBroken } from "./refuse-broken.js";
import { refuseDropouts } from "./refuse-dropouts.js";
import { isHiddenSweep } from "./sweep-distortion.js";
import { type Answered, isInPlace, toldByMarkers } from "./told-by-markers.js";

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

/** What the loudspeaker's own delay adds to a ratio read off the shape. */
const SHAPE_TOLERANCE = 3e-4;

/**
 * Turns one recording into the impulse responses of the sweeps in it.
 *
 * @throws {InputError} when nothing in the recording can be used
 */
export function captureRecording(input: CaptureInput): Captured {
  const { recording, excitation } = input;
  const { file } = recording;
  const recorded = recordedSweeps(input);
  const { surroundings, sweeps, sounding, drift, wrongClock, quiet } = recorded;
  const { signal } = surroundings;
  const heard = sweeps.flatMap((sweep): Answered[] => {
    const answer = hearSweep(surroundings, excitation, sweep);
    return answer ? [{ sweep, answer }] : [];
  });
  if (heard.length === 0) throw findings.noSweep(file);
  const markers = toldByMarkers(input, surroundings, heard);
  refuseBroken(
    file,
    signal.sampleRate,
    heard.map(({ answer }) => answer.noticed),
    excitation,
    (n, stepS) => isInPlace(heard[n]!, stepS, markers, surroundings),
  );
  refuseGap(input, recorded, heard);
  const ceiling = heard.find(({ answer }) => answer.ceiling)?.answer.ceiling;
  if (ceiling) throw findings.atCeiling(file, ceiling);
  const noticed = heard.map(({ answer: { cut, harmonics, noticed: plain } }): Noticed => ({
    ...plain,
    isDistorted: (noiseDb) => isHiddenSweep(withNoise(cut.impulse, noiseDb), harmonics),
  }));
  if (wrongClock) {
    // Lost samples move the second marker as a wrong clock does.
    refuseDropouts(file, signal, noticed, excitation.growthS);
    throw findings.rateMismatch(file, 1 + wrongClock.ppm * 1e-6, signal.sampleRate);
  }
  const takes = takesOf(input, recorded, heard);
  const impulses = takes.map(({ impulse }) => impulse);
  const shaped = drift ? null : wrongByShape(impulses, excitation);
  if (shaped !== null) throw findings.rateMismatch(file, shaped, signal.sampleRate, SHAPE_TOLERANCE);
  const disturbances = judge(file, signal, excitation, sounding, noticed, {
    ...markers,
    unevennessDb: quiet && unevennessDb(signal, quiet.fromSample, quiet.untilSample),
  });
  return {
    takes: takes.map((take, n) => ({
      ...take,
      impulse: withNoise(take.impulse, (hz) => disturbances.noiseDb(hz, n)),
      disturbedHz: disturbances.disturbedHz[n]!,
    })),
    findings: [...recorded.findings, ...shortTails(recording, heard), ...disturbances.findings],
  };
}

/** @throws {InputError} when samples are missing that no sweep shows, most often in a silence */
function refuseGap(
  { recording, timeline, marker }: CaptureInput,
  { drift, surroundings }: RecordedSweeps,
  heard: readonly Answered[],
): void {
  const strayS = marker && strayMarker(surroundings.signal, timeline, surroundings.found, marker);
  if (strayS !== null) throw lostInSilence(recording.file, strayS);
  const markers = timeline.filter(({ kind }) => kind === "marker").map(({ atSample }) => atSample);
  if (!drift || markers.length < 2) return;
  const sweeps = heard.map(({ sweep, answer }) => ({
    atSample: sweep.event.atSample,
    arrivalSample: answer.arrivalSample,
  }));
  const lostS = lostBetween(drift, sweeps, markers.at(-1)! - markers[0]!, surroundings.signal.sampleRate);
  if (lostS !== null) throw lostInSilence(recording.file, lostS);
}

function takesOf(input: CaptureInput, recorded: RecordedSweeps, heard: readonly Answered[]): Take[] {
  const { recording, excitation, deviationDb } = input;
  const { surroundings, drift, facts, quiet } = recorded;
  const { signal, noise } = surroundings;
  const playedRatio = 1 + (drift?.ppm ?? 0) * 1e-6;
  const ownFingerprint = fingerprint(signal.samples, signal.sampleRate, quiet && quiet.untilSample);
  return heard.map(({ sweep, answer }): Take => {
    const { cut, harmonics, electrical, pushes } = answer;
    // With the electrical signal polarity is absolute: against that signal's own.
    const against = (sign: 1 | -1): 1 | -1 => (sign === (electrical?.polarity ?? 1) ? 1 : -1);
    const impulse: ImpulseResponse = { ...cut.impulse, polarity: against(pushes ?? cut.impulse.polarity) };
    const playedSample = sweep.event.atSample * playedRatio;
    return {
      recording,
      channel: channelOf(recording, sweep.event),
      impulse: deviationDb ? correctMicrophone(impulse, deviationDb) : impulse,
      harmonics: deviationDb ? harmonics.map((one) => correctHarmonic(one, deviationDb)) : harmonics,
      noise,
      arrivalInFileS: cut.arrivalInFileS,
      arrivalPlayedS: drift ? (answer.arrivalSample - playedSample) / (signal.sampleRate * playedRatio) : null,
      arrivalUncertaintyS: answer.arrivalUncertaintyS,
      flightS: electrical?.seconds ?? null,
      pushes: pushes && against(pushes),
      drift,
      playedAtS: sweep.event.atSample / signal.sampleRate,
      levelDbfs: excitation.levelDbfs,
      peakDbfs: facts.peakDbfs,
      clippedSamples: facts.clippedSamples,
      signalToNoiseDb: answer.signalToNoiseDb,
      residual: answer.residual,
      disturbedHz: [],
      fingerprint: ownFingerprint,
    };
  });
}

function shortTails(recording: Recording, heard: readonly Answered[]): Finding[] {
  return heard.flatMap(({ sweep, answer: { tail } }) => {
    if (tail.seconds >= LEAST_TAIL_S) return [];
    const told = tail.endsFile ? findings.endedSoon : findings.shortTail;
    return [told(recording.file, channelOf(recording, sweep.event), tail.seconds, LEAST_TAIL_S)];
  });
}
