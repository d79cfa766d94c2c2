import { blockPower } from "../dsp/block-power.js";
import { transformSize } from "../dsp/fft.js";
import { InputError } from "../errors.js";
import type { Signal } from "../model.js";
import { levelFacts } from "./level-facts.js";
import { blackmanHarris, followTone, type ToneBlock } from "./tone-blocks.js";

/** Where acoustic calibrators and pistonphones sound; a strong tone elsewhere is hum or a wrong file. */
const NOMINAL_HZ = [250, 1000] as const;
const NOMINAL_WIDTH = 0.1;
/** Tone over everything else in a block, as power: 20 dB. */
const DOMINANCE = 100;
const LARGEST_RANGE_DB = 0.2;
const SEGMENT_S = 0.5;
const MOST_SEGMENTS = 40;
/** Left out at each end of the tone: hands on the microphone, the calibrator settling. */
const SETTLING_SHARE = 0.2;
const SHORTEST_MIDDLE_S = 1;

/**
 * Measures the steady tone of an acoustic calibrator's recording.
 *
 * The amplitude is what the calibrator's sound pressure (94 dB is 1 Pa RMS) looks like in the recording: it turns full
 * scale into pascals. The tone is looked for around 250 Hz and 1 kHz, followed in overlapping blocks of 0.25 s, and
 * read from the middle 60 % of the longest stretch in which it stands 20 dB above all the rest together, so that
 * handling noise before and after does no harm. Hum and noise are kept out by the block's window.
 *
 * @param signal - one channel, full scale 1
 * @param name - the file's name, for messages
 * @returns frequency in Hz and peak amplitude of the sine re full scale
 * @throws {InputError} if the recording is silent, shorter than 2 s, clipped in the stretch used, if no tone at 250 Hz
 *   or 1 kHz dominates for long enough, or if its level varies by more than 0.2 dB
 * @remarks Source: own method; window: F. J. Harris, Proc. IEEE 66 (1978), four-term minimum (from memory).
 * @example calibratorLevel(sine of amplitude 0.1 at 1 kHz lasting 10 s, "cal.wav") // { toneHz: 1000, amplitude: 0.1 }
 */
export function calibratorLevel(signal: Signal, name: string): { toneHz: number; amplitude: number } {
  const { samples, sampleRate } = signal;
  const fault = (what: string, where = name): InputError =>
    new InputError(what, {
      where,
      remedy: "record the calibrator again: seated firmly, at the gain of the sweeps, 10 s without touching it",
    });
  if (samples.length < 2 * sampleRate) {
    throw fault(`The calibrator's recording lasts ${(samples.length / sampleRate).toFixed(2)} s; 2 s are needed.`);
  }
  if (levelFacts(signal).silent) throw fault("The calibrator's recording is silent.");
  const roughHz = loudestNominalTone(signal);
  const stretch = longestStretch(followTone(signal, roughHz));
  const cut = Math.floor(SETTLING_SHARE * stretch.length);
  const middle = stretch.slice(cut, stretch.length - cut);
  const from = middle[0]?.start ?? 0;
  const to = (middle.at(-1)?.start ?? 0) + (middle.at(-1)?.length ?? 0);
  if (to - from < SHORTEST_MIDDLE_S * sampleRate) {
    if (levelFacts(signal).clippedSamples > 0) throw fault("The calibrator's recording is clipped.");
    throw fault(
      `No calibrator tone at ${NOMINAL_HZ.join(" or ")} Hz stands 20 dB above the rest of the recording for 2 s.`,
    );
  }
  const where = `${name}, ${(from / sampleRate).toFixed(2)} to ${(to / sampleRate).toFixed(2)} s`;
  const used = { samples: samples.subarray(from, to), sampleRate };
  if (levelFacts(used).clippedSamples > 0) throw fault("The calibrator's tone is clipped.", where);

  // Steady phase advance from block to block gives the frequency far finer than any one spectrum's bins.
  const toneHz = roughHz + frequencyError(middle, sampleRate);
  const blocks = followTone(used, toneHz);
  const levels = blocks.map(({ amplitude }) => 20 * Math.log10(amplitude));
  const rangeDb = Math.max(...levels) - Math.min(...levels);
  if (rangeDb > LARGEST_RANGE_DB) {
    const allowed = `a calibrator keeps within ${LARGEST_RANGE_DB} dB`;
    throw fault(`The calibrator's tone varies by ${rangeDb.toFixed(2)} dB; ${allowed}.`, where);
  }
  const meanSquare = blocks.reduce((sum, { amplitude }) => sum + amplitude ** 2, 0) / blocks.length;
  return { toneHz, amplitude: Math.sqrt(meanSquare) };
}

/** The strongest frequency near a nominal one in the mean power spectrum, to a fraction of a bin. */
function loudestNominalTone({ samples, sampleRate }: Signal): number {
  const length = Math.round(SEGMENT_S * sampleRate);
  const size = transformSize(length);
  const powerFrom = blockPower(blackmanHarris(length), size);
  const power = new Float64Array(size / 2 + 1);
  const count = Math.min(MOST_SEGMENTS, Math.floor(samples.length / length));
  for (let index = 0; index < count; index++) {
    const start = Math.floor((index * (samples.length - length)) / Math.max(1, count - 1));
    addTo(power, powerFrom(samples, start));
  }
  let best = 0;
  for (const nominal of NOMINAL_HZ) {
    const first = Math.ceil((nominal * (1 - NOMINAL_WIDTH) * size) / sampleRate);
    const last = Math.floor((nominal * (1 + NOMINAL_WIDTH) * size) / sampleRate);
    for (let k = first; k <= last; k++) if (best === 0 || power[k]! > power[best]!) best = k;
  }
  // The logarithm of this window's main lobe is nearly a parabola.
  const [left, top, right] = [power[best - 1]!, power[best]!, power[best + 1]!].map((p) => Math.log(p + 1e-300));
  const curvature = left! - 2 * top! + right!;
  const offset = curvature < 0 ? (0.5 * (left! - right!)) / curvature : 0;
  return ((best + Math.max(-0.5, Math.min(0.5, offset))) * sampleRate) / size;
}

function addTo(sum: Float64Array, power: Float64Array): void {
  for (let k = 0; k < sum.length; k++) sum[k]! += power[k]!;
}

function longestStretch(blocks: readonly ToneBlock[]): readonly ToneBlock[] {
  let longest: readonly ToneBlock[] = [];
  let start = 0;
  for (let index = 0; index <= blocks.length; index++) {
    const block = blocks[index];
    if (block && block.amplitude ** 2 / 2 >= DOMINANCE * block.restPower) continue;
    if (index - start > longest.length) longest = blocks.slice(start, index);
    start = index + 1;
  }
  return longest;
}

/** Least-squares slope of the phase over the blocks, as Hz above the frequency they were followed at. */
function frequencyError(blocks: readonly ToneBlock[], sampleRate: number): number {
  const middle = (blocks.length - 1) / 2;
  let phase = 0;
  let previous = blocks[0]!.phase;
  let slope = 0;
  let weight = 0;
  for (const [index, block] of blocks.entries()) {
    const step = block.phase - previous;
    phase += step - 2 * Math.PI * Math.round(step / (2 * Math.PI));
    previous = block.phase;
    slope += (index - middle) * phase;
    weight += (index - middle) ** 2;
  }
  const hop = blocks.length > 1 ? blocks[1]!.start - blocks[0]!.start : 1;
  return weight > 0 ? ((slope / weight) * sampleRate) / (2 * Math.PI * hop) : 0;
}
