import { findEvents } from "../impulse/find.js";
import { levelFacts } from "../recording/level-facts.js";
import { readTrack } from "../recording/read-tracks.js";
import type { SoundReader } from "../recording/sound-reader.js";
import type { Played } from "../impulse/played.js";

/** The part of a long recording that is of use. */
interface FoundReel {
  readonly from: number;
  readonly to: number;
  /** Where in the file the sweeps were heard as completely as anywhere, in seconds: the first of them lies in the part. */
  readonly heardAtS: readonly number[];
}

/** Silence before and behind, for the noise and for the last decay. */
const AROUND_S = 10;
/** What a window holds beyond two reels: short reels shall not make many windows. */
const WINDOW_MORE_S = 30;
const OVERLAP_MORE_S = 2;
const SAME_S = 0.5;

interface Reading {
  /** File sample at which the first sweep heard begins. */
  readonly at: number;
  /** File sample at which the timeline begins. */
  readonly origin: number;
  readonly sweeps: number;
}

/**
 * Finds what was played within a long recording, window by window.
 *
 * Windows overlap by the length of what was played, so that it lies in one of them as a whole. Where it is heard several times
 * the first complete one counts.
 *
 * @param reelS - length of what was played
 * @returns the loudest window where nothing was heard: what follows says why
 */
export async function findReel(sound: SoundReader, channel: number, played: Played, reelS: number): Promise<FoundReel> {
  const { frames, sampleRate } = sound;
  const { excitation, timeline, marker } = played;
  const windowSamples = Math.round((2 * reelS + WINDOW_MORE_S) * sampleRate);
  const hop = windowSamples - Math.round((reelS + OVERLAP_MORE_S) * sampleRate);
  const readings: Reading[] = [];
  let loudest = { from: 0, peakDbfs: -Infinity };
  for (let from = 0; from === 0 || from + windowSamples - hop < frames; from += hop) {
    const signal = { samples: await readTrack(sound, channel, from, from + windowSamples), sampleRate };
    const { silent, peakDbfs } = levelFacts(signal);
    if (peakDbfs !== null && peakDbfs > loudest.peakDbfs) loudest = { from, peakDbfs };
    if (silent || sampleRate !== excitation.sampleRate) continue;
    const sweeps = findEvents(signal, excitation, timeline, marker).found.filter(({ event }) => event.kind === "sweep");
    const [first] = sweeps.sort((a, b) => a.startSample - b.startSample);
    if (!first) continue;
    const at = from + first.startSample;
    readings.push({ at, origin: at - first.event.atSample, sweeps: sweeps.length });
  }
  const most = Math.max(...readings.map(({ sweeps }) => sweeps));
  const heard = distinct(
    readings.filter(({ sweeps }) => sweeps === most),
    SAME_S * sampleRate,
  );
  const [first] = heard;
  if (!first) return { from: loudest.from, to: Math.min(frames, loudest.from + windowSamples), heardAtS: [] };
  const around = AROUND_S * sampleRate;
  return {
    from: Math.max(0, Math.floor(first.origin - around)),
    to: Math.min(frames, Math.ceil(first.origin + reelS * sampleRate + around)),
    heardAtS: heard.map(({ at }) => at / sampleRate),
  };
}

/** Neighbouring windows hear the same. */
function distinct(readings: readonly Reading[], within: number): Reading[] {
  const found: Reading[] = [];
  for (const reading of readings) if (found.every(({ at }) => Math.abs(at - reading.at) > within)) found.push(reading);
  return found;
}
