import { blockPower, hann, sumOfBins } from "../dsp/block-power.js";
import { transformSize } from "../dsp/fft.js";
import { fractionalOctaveEdges } from "../dsp/log-power.js";
import type { Signal } from "../model.js";
import type { Excitation } from "./excitation.js";
import type { FoundEvent } from "./event.js";

/** The recording's own sound in blocks of time and octave bands, where nothing that was played can be heard. */
export interface QuietCells {
  readonly blockS: number;
  readonly bandHz: readonly number[];
  /** Mean square re full scale, dB, by block from the recording's beginning, then band; NaN where something was played. */
  readonly levelDb: readonly Float64Array[];
}

const BLOCK_S = 0.1;
/** The lowest octave of a studio's noise and the highest that every sample rate holds. */
const BANDS_HZ = [31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000] as const;
/** A loudspeaker driven at the end of its range may be heard so many times higher. */
const HIGHEST_ORDER = 16;
/** Modes of the lowest octaves go on when all else has sunk into the noise. */
const LOW_HZ = 100;
const LOW_DECAY_S = 1.2;
/** The search that found the sounds may be off by this, and filters ring. */
const MARGIN_S = 0.05;

/**
 * Looks at the recording in the cells of time and frequency that the sweep leaves alone.
 *
 * A sweep is in one place at a time: the octaves that it has left behind are silent once the room has decayed, and those more
 * than its harmonics above it are silent still. There the noise goes on as it did in the lead, unless something happened:
 * somebody knocked, the air conditioning started, or a gain moved.
 *
 * @param decayS - after so long the room's response has sunk into the noise
 */
export function quietCells(
  { samples, sampleRate }: Signal,
  excitation: Excitation,
  found: readonly FoundEvent[],
  decayS: number,
): QuietCells {
  const edges = BANDS_HZ.map((bandHz) => fractionalOctaveEdges(bandHz, 1));
  const sounding = found.map((one) => soundingSpans(one, excitation, sampleRate, edges, decayS));
  const block = Math.round(BLOCK_S * sampleRate);
  const size = transformSize(block);
  const powerFrom = blockPower(hann(block), size);
  const levelDb: Float64Array[] = [];
  for (let start = 0; start + block <= samples.length; start += block) {
    const [fromS, toS] = [start / sampleRate, (start + block) / sampleRate];
    const isQuiet = edges.map((_, band) => !sounding.some((spans) => fromS < spans[band]![1] && toS > spans[band]![0]));
    const row = new Float64Array(edges.length).fill(Number.NaN);
    levelDb.push(row);
    if (!isQuiet.includes(true)) continue;
    const power = powerFrom(samples, start);
    edges.forEach(([from, to], band) => {
      if (!isQuiet[band]) return;
      const first = Math.max(1, Math.round((from * size) / sampleRate));
      const last = Math.max(first, Math.round((to * size) / sampleRate) - 1);
      row[band] = 10 * Math.log10(sumOfBins(power, first, last) + Number.MIN_VALUE);
    });
  }
  return { blockS: BLOCK_S, bandHz: BANDS_HZ, levelDb };
}

/** From when until when one sound may be heard in each band, its harmonics and the room's answer included, seconds. */
function soundingSpans(
  { event, startSample }: FoundEvent,
  { growthS, sweptHz, zeroSample }: Excitation,
  sampleRate: number,
  edges: readonly (readonly [number, number])[],
  decayS: number,
): [number, number][] {
  const startS = startSample / sampleRate;
  const endS = startS + event.samples / sampleRate;
  const zeroS = startS + zeroSample / sampleRate;
  return edges.map(([fromHz, toHz]) => {
    if (event.kind === "marker" || growthS === null) return [startS - MARGIN_S, endS + MARGIN_S + decayS];
    const at = (hz: number): number => Math.min(endS, Math.max(startS, zeroS + growthS * Math.log(hz / sweptHz[0])));
    return [
      at(fromHz / HIGHEST_ORDER) - MARGIN_S,
      at(toHz) + MARGIN_S + (toHz < LOW_HZ ? Math.max(decayS, LOW_DECAY_S) : decayS),
    ];
  });
}
