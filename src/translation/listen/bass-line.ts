import { decimate } from "../../dsp/decimate.js";
import { forwardReal } from "../../dsp/fft.js";
import { powerOf } from "../../dsp/log-power.js";
import { hearingThresholdDb } from "../../standards/iso226.js";
import { BANDS } from "../bands.js";
import { BASS_LINE } from "./bass-limits.js";
import { type FrameSpectrum, fundamentalOf, type Partial, partialsOf } from "./bass-partials.js";
import { frameStream, type FrameStream, hannWindow } from "./frame-stream.js";

/** What a bass line is heard on. */
export interface BassSystem {
  /** dB by frequency in Hz, from 20 Hz up. */
  readonly curveDb: (frequencyHz: number) => number;
  /** What lifts full-scale levels after the curve to dB SPL. */
  readonly gainDb: number;
  /** Noise around the device, dB SPL by third octave. */
  readonly noiseDb: readonly number[];
}

/** Whether a bass line carries on a system. */
export interface BassLine {
  readonly verdict: "heard" | "weak" | "lost" | null;
  /** Share of the frames with bass in which its pitch, and in which at least its colour is carried. */
  readonly pitchShare: number | null;
  readonly colourShare: number | null;
  readonly reason: "no-bass" | null;
}

export interface BassListener extends FrameStream {
  /** One for each system. */
  result(): BassLine[];
}

/**
 * Frames are sorted by their level in steps of a tenth of a decibel, so that any length fits into one table. Under the lowest
 * nothing is meant as bass.
 */
const LOWEST_DBFS = -90;
const STEPS_PER_DB = 10;
const STEPS = 130 * STEPS_PER_DB;
/** Room for a frequency between two bins of the frame's own resolution. */
const ZERO_PADDING = 2;
/** The share of the new rate that decimating leaves untouched. */
const FLAT_TO = 0.35;

/**
 * Listens whether the pitch of the bass line gets through systems that do not give its fundamental.
 *
 * The fundamental itself is never counted: this is about small loudspeakers.
 *
 * @param systems - curves and levels, fixed beforehand
 * @remarks Source: `BASS_LINE`. What a partial stands out of is looked at before the curve, which would tilt it.
 */
export function bassListener(sampleRate: number, systems: readonly BassSystem[]): BassListener {
  const length = Math.round(BASS_LINE.frameS * sampleRate);
  const size = 2 ** Math.ceil(Math.log2(ZERO_PADDING * length));
  const binHz = sampleRate / size;
  const window = hannWindow(length);
  // Only the lowest bins are looked at: a frame at a lower rate has the same ones.
  const factor = 2 ** Math.max(0, Math.floor(Math.log2((FLAT_TO * sampleRate) / (1.1 * BASS_LINE.highestHz))));
  const scale = (2 * factor ** 2) / (size * window.reduce((sum, weight) => sum + weight * weight, 0));
  const mono = new Float64Array(length);
  const bins = Math.ceil((BASS_LINE.highestHz * 1.1) / binHz);
  const curves = systems.map(({ curveDb }) =>
    Float64Array.from({ length: bins }, (_, k) => 10 ** (curveDb(Math.max(20, k * binHz)) / 10)),
  );
  const counts = new Uint32Array(STEPS);
  const pitched = systems.map(() => new Uint32Array(STEPS));
  const coloured = systems.map(() => new Uint32Array(STEPS));
  const stream = frameStream(length, length >> 1, (left, right) => {
    for (let n = 0; n < length; n++) mono[n] = 0.5 * (left[n]! + right[n]!) * window[n]!;
    const power = powerOf(forwardReal(decimate(mono, factor), size / factor).subarray(0, 2 * bins)).map(
      (value) => value * scale,
    );
    const spectrum: FrameSpectrum = { power, binHz, lobeHz: (2 * sampleRate) / length };
    const fundamentalHz = fundamentalOf(spectrum);
    const level = bandLevelDb(power, binHz);
    if (fundamentalHz === null || level < LOWEST_DBFS) return;
    const step = Math.min(STEPS - 1, Math.floor((level - LOWEST_DBFS) * STEPS_PER_DB));
    counts[step]!++;
    const partials = partialsOf(spectrum, fundamentalHz);
    for (const [s, system] of systems.entries()) {
      const audible = partials.filter((partial) => isAudible(partial, power, curves[s]!, system));
      const upTo = (order: number): number => audible.filter((partial) => partial.order <= order).length;
      if (upTo(BASS_LINE.pitchUpTo) >= BASS_LINE.atLeast) pitched[s]![step]!++;
      if (upTo(BASS_LINE.partials[1]) >= BASS_LINE.atLeast) coloured[s]![step]!++;
    }
  });
  return {
    push: stream.push,
    result: () => systems.map((_, s) => verdictOf(counts, pitched[s]!, coloured[s]!)),
  };
}

function bandLevelDb(power: Float64Array, binHz: number): number {
  const [fromHz, toHz] = BASS_LINE.levelHz;
  let sum = 0;
  for (let k = Math.ceil(fromHz / binHz); k * binHz <= toHz; k++) sum += power[k]!;
  return 10 * Math.log10(sum);
}

function isAudible(
  { frequencyHz, lobe, band }: Partial,
  power: Float64Array,
  curve: Float64Array,
  system: BassSystem,
): boolean {
  let own = 0;
  let others = 0;
  for (let k = Math.min(lobe[0], band[0]); k <= Math.max(lobe[1], band[1]); k++) {
    const here = power[k]! * curve[k]!;
    if (k >= lobe[0] && k <= lobe[1]) own += here;
    else others += here;
  }
  const levelDb = 10 * Math.log10(own) + system.gainDb;
  const thresholdDb = hearingThresholdDb(frequencyHz);
  if (thresholdDb === null || levelDb < thresholdDb + BASS_LINE.overThresholdDb) return false;
  // Inside a third octave the noise is taken as pink: its power goes with the ratio of a band's edges.
  const width = Math.log2(((band[1] + 0.5) / (band[0] - 0.5)) ** 3);
  const noise = width * 10 ** (system.noiseDb[nearestBand(frequencyHz)]! / 10);
  const masker = others * 10 ** (system.gainDb / 10) + noise;
  return levelDb >= 10 * Math.log10(masker) + BASS_LINE.overMaskerDb;
}

function nearestBand(frequencyHz: number): number {
  const step = Math.round(10 * Math.log10(frequencyHz / BANDS[0]!.exactHz));
  return Math.max(0, Math.min(BANDS.length - 1, step));
}

function verdictOf(counts: Uint32Array, pitched: Uint32Array, coloured: Uint32Array): BassLine {
  const total = counts.reduce((sum, count) => sum + count, 0);
  if (total === 0) return { verdict: null, pitchShare: null, colourShare: null, reason: "no-bass" };
  let below = 0;
  let percentile = 0;
  while (below + counts[percentile]! < BASS_LINE.percentile * total) below += counts[percentile++]!;
  const from = Math.max(0, percentile - BASS_LINE.withinDb * STEPS_PER_DB);
  const over = (table: Uint32Array): number => table.subarray(from).reduce((sum, count) => sum + count, 0);
  const pitchShare = over(pitched) / over(counts);
  const colourShare = over(coloured) / over(counts);
  const verdict = pitchShare >= BASS_LINE.heardFrom ? "heard" : pitchShare >= BASS_LINE.weakFrom ? "weak" : "lost";
  return { verdict, pitchShare, colourShare, reason: null };
}
