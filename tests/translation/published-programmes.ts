import { SURROUND_WEIGHT } from "../../src/standards/bs1770.js";
import { loudnessMeter, type ProgrammeLoudness } from "../../src/translation/programme-loudness.js";
import { truePeakMeter } from "../../src/translation/true-peak.js";

const RATE = 48_000;

/** Peak of a sine in each channel, dBFS, for so long. */
export type Passage = readonly [peakDbfs: readonly number[], lengthS: number];

/** A programme of EBU Tech 3341, Table 1: results found in restatements; how cases 3 to 6 are made is from memory. */
export interface Programme3341 {
  readonly name: string;
  readonly passages: readonly Passage[];
  /** LUFS, within 0.1. */
  readonly integrated: number;
  /** Momentary and short-term stand at the same value. */
  readonly steady: boolean;
}

function stereo(...passages: readonly (readonly [peakDbfs: number, lengthS: number])[]): Passage[] {
  return passages.map(([peakDbfs, lengthS]) => [[peakDbfs, peakDbfs], lengthS]);
}

export const PROGRAMMES_3341: readonly Programme3341[] = [
  { name: "case 1", passages: stereo([-23, 20]), integrated: -23, steady: true },
  { name: "case 2", passages: stereo([-33, 20]), integrated: -33, steady: true },
  { name: "case 3", passages: stereo([-36, 10], [-23, 60], [-36, 10]), integrated: -23, steady: false },
  {
    name: "case 4",
    passages: stereo([-72, 10], [-36, 10], [-23, 60], [-36, 10], [-72, 10]),
    integrated: -23,
    steady: false,
  },
  { name: "case 5", passages: stereo([-26, 20], [-20, 20.1], [-26, 20]), integrated: -23, steady: false },
  { name: "case 6", passages: [[[-28, -28, -24, -30, -30], 20]], integrated: -23, steady: false },
];

/** A sine that runs on over all passages, in pieces of a second. */
export function loudnessOf(passages: readonly Passage[], frequencyHz: number, sampleRate = RATE): ProgrammeLoudness {
  const weights = passages[0]![0].map((_, n) => (n > 2 ? SURROUND_WEIGHT : 1));
  const meter = loudnessMeter(sampleRate, weights);
  let at = 0;
  for (const [peaks, lengthS] of passages) {
    const end = at + Math.round(lengthS * sampleRate);
    while (at < end) {
      const piece = Math.min(sampleRate, end - at);
      const sine = Float64Array.from({ length: piece }, (_, n) =>
        Math.sin((2 * Math.PI * frequencyHz * (at + n)) / sampleRate),
      );
      meter.push(peaks.map((peak) => sine.map((value) => 10 ** (peak / 20) * value)));
      at += piece;
    }
  }
  return meter.result();
}

/** A steady sine of EBU Tech 3341, cases 15 to 19 (from memory): part of the rate, phase, peak re full scale; result dBTP +0.2/-0.4. */
export interface Peak3341 {
  readonly name: string;
  readonly part: number;
  readonly phaseDeg: number;
  readonly amplitude: number;
  readonly dbtp: number;
}

export const PEAKS_3341: readonly Peak3341[] = [
  { name: "case 15", part: 4, phaseDeg: 0, amplitude: 0.5, dbtp: -6 },
  { name: "case 16", part: 4, phaseDeg: 45, amplitude: 0.5, dbtp: -6 },
  { name: "case 17", part: 6, phaseDeg: 60, amplitude: 0.5, dbtp: -6 },
  { name: "case 18", part: 8, phaseDeg: 67.5, amplitude: 0.5, dbtp: -6 },
  { name: "case 19", part: 4, phaseDeg: 45, amplitude: 1.41, dbtp: 3 },
];

/** True peak of such a sine, dBTP; it fades in and out over a tenth of a second, since a hard start has peaks of its own. */
export function truePeakOf({ part, phaseDeg, amplitude }: Omit<Peak3341, "name" | "dbtp">): number {
  const fade = 0.1 * RATE;
  const sine = Float64Array.from({ length: RATE }, (_, n) => {
    const ramp = Math.min(1, n / fade, (RATE - 1 - n) / fade);
    return ramp * amplitude * Math.sin((2 * Math.PI * n) / part + (Math.PI * phaseDeg) / 180);
  });
  const meter = truePeakMeter(1);
  meter.push([sine]);
  return 20 * Math.log10(meter.result());
}
