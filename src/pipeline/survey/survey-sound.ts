import { InputError } from "../../errors.js";
import { likeness } from "../../impulse/likeness.js";
import type { DecodedAudio, Signal } from "../../model.js";
import { calibratorLevel } from "../../recording/calibrator.js";
import { distinctChannels } from "../../recording/distinct-channels.js";
import { hearSweeps, type KnownSweep, type SweepsHeard } from "./known-sweep.js";

/** What a sound file is, by what is in it. */
export type SoundContent =
  | {
      readonly kind: "recording";
      readonly sweep: string;
      readonly holds: SweepsHeard["holds"];
      /** 1-based; null where the file leaves no choice. */
      readonly fileChannel: number | null;
      /** The channel of the electrical signal. */
      readonly loopback: number | null;
      /** Further microphones' channels. */
      readonly others: readonly number[];
    }
  | { readonly kind: "calibrator"; readonly toneHz: number }
  /** The sweep as it is played. */
  | { readonly kind: "electrical" }
  | { readonly kind: "impulse response" }
  | { readonly kind: "nothing"; readonly reason: string }
  | { readonly kind: "unreadable"; readonly reason: string };

/** Electrical recordings are like the sweep itself by 0.98 and more, those in measured and simulated rooms by 0.48 to 0.65. */
const ELECTRICAL = 0.95;
/** No microphone gives exact zeros for so long. */
const DIGITAL_SILENCE_S = 0.05;

/**
 * Tells what a sound file holds.
 *
 * @param mayBeImpulse - it is called an impulse response
 */
export function surveySound(
  audio: DecodedAudio,
  name: string,
  sweeps: readonly KnownSweep[],
  mayBeImpulse: boolean,
): SoundContent {
  const channels = distinctChannels(audio);
  const { sampleRate } = audio;
  const heard = channels.flatMap(({ samples, number }) => {
    const signal = { samples, sampleRate };
    const sweeping = hearSweeps(signal, sweeps);
    if (!sweeping) return [];
    const { sweep, first } = sweeping;
    return [{ ...sweeping, number, isElectrical: likeness(signal, sweep.excitation, first.startSample) > ELECTRICAL }];
  });
  if (heard.length > 0 && heard.every(({ isElectrical }) => isElectrical) && beginsInSilence(audio)) {
    return { kind: "electrical" };
  }
  // A loopback stands beside a microphone; alone, what is so like the sweep is a loudspeaker close by.
  const hasMicrophone = heard.some(({ isElectrical }) => !isElectrical);
  const microphones = heard.filter(({ isElectrical }) => !hasMicrophone || !isElectrical);
  const most = Math.max(0, ...microphones.map(({ count }) => count));
  const microphone = microphones.find(({ count }) => count === most);
  if (microphone) {
    const { sweep, holds, number } = microphone;
    return {
      ...{ kind: "recording", sweep: sweep.file, holds },
      fileChannel: channels.length > 1 ? number : null,
      loopback: heard.find((other) => !microphones.includes(other))?.number ?? null,
      others: microphones.filter((other) => other !== microphone).map((other) => other.number),
    };
  }
  const [first] = channels;
  if (!first) return { kind: "nothing", reason: "it is silent" };
  const signal = { samples: first.samples, sampleRate };
  if (mayBeImpulse && isImpulse(signal)) return { kind: "impulse response" };
  const toneHz = calibratorTone(signal, name);
  if (toneHz !== null) return { kind: "calibrator", toneHz };
  return { kind: "nothing", reason: whyNothing(sampleRate, sweeps) };
}

function beginsInSilence({ channels, sampleRate }: DecodedAudio): boolean {
  return channels.every((samples) => samples.subarray(0, DIGITAL_SILENCE_S * sampleRate).every((value) => value === 0));
}

function calibratorTone(signal: Signal, name: string): number | null {
  try {
    return calibratorLevel(signal, name).toneHz;
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

/** A response has nearly all of its energy within half a second of its highest peak. */
function isImpulse({ samples, sampleRate }: Signal): boolean {
  let peak = 0;
  for (let n = 1; n < samples.length; n++) if (Math.abs(samples[n]!) > Math.abs(samples[peak]!)) peak = n;
  const [from, to] = [peak - 0.01 * sampleRate, peak + 0.5 * sampleRate];
  let inside = 0;
  let all = 0;
  for (let n = 0; n < samples.length; n++) {
    const energy = samples[n]! ** 2;
    all += energy;
    if (n >= from && n <= to) inside += energy;
  }
  return inside > 0.9 * all;
}

function whyNothing(sampleRate: number, sweeps: readonly KnownSweep[]): string {
  const rates = [...new Set(sweeps.map(({ excitation }) => excitation.sampleRate))];
  if (rates.includes(sampleRate)) return "the sweep is not in it";
  return `it is sampled at ${sampleRate} Hz, the sweep at ${rates.join(" or ")} Hz`;
}
