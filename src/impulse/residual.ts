import { blockPower, hann, sumOfBins } from "../dsp/block-power.js";
import { energyOf } from "../dsp/energy.js";
import { forwardReal, inverseProduct, transformSize } from "../dsp/fft.js";
import { fractionalOctaveEdges } from "../dsp/log-power.js";
import { raisedCosine } from "../dsp/raised-cosine.js";
import type { Signal } from "../model.js";
import type { Deconvolved } from "./deconvolve.js";
import type { Excitation } from "./excitation.js";
import { explainedLags, type LagWindow } from "./explained-lags.js";
import { type NoiseDensity, noisePower } from "./noise.js";

/** What the response and its harmonics do not explain, in blocks of time and octave bands. */
export interface Residual {
  readonly blockS: number;
  /** File second at which the first block begins. */
  readonly startS: number;
  readonly bandHz: readonly number[];
  /** Noise of the silent lead by band, mean square re full scale, dB. */
  readonly noiseDb: Float64Array;
  /** dB over that noise, by block, then band. */
  readonly excessDb: readonly Float64Array[];
  /** What is not explained, as a signal that begins at `startS`. */
  readonly unexplained: Signal;
}

const BLOCK_S = 0.1;
/** Lower octaves are narrower than a block can resolve from the sweep's own lower end. */
const BANDS_HZ = [125, 250, 500, 1000, 2000, 4000, 8000] as const;
/** The 8 kHz octave ends at 11.3 kHz: from here on half the sample rate holds it. */
const TWICE_HIGHEST_HZ = 23_000;
/** Weaker than the recording by this much, a residual is arithmetic, not sound. */
const NUMERICAL_FLOOR = 1e-10;

/**
 * Compares a recorded sweep with what was played through its own response and harmonics.
 *
 * A knock, a dropout or a codec leaves something that no time-invariant system explains. The part of time and frequency
 * that the response itself occupies is blind: what falls in it is taken for response, so it is kept short; and a gain that
 * moves slowly reads as another response.
 *
 * @param afterSamples - the response has decayed so long after the arrival
 * @returns null when the noise of the room is not known
 */
export function residualOf(
  deconvolved: Deconvolved,
  excitation: Excitation,
  arrivalLag: number,
  afterSamples: number,
  noise: NoiseDensity | null,
): Residual | null {
  if (!noise) return null;
  const { sampleRate } = excitation;
  const factor = sampleRate >= TWICE_HIGHEST_HZ * 2 ? 2 : 1;
  const rate = sampleRate / factor;
  const unexplained = unexplainedSignal(deconvolved, excitation, arrivalLag, afterSamples, factor);
  const block = Math.round(BLOCK_S * rate);
  const size = transformSize(block);
  const edges = BANDS_HZ.filter((bandHz) => bandHz * Math.SQRT2 < excitation.sweptHz[1]).map((bandHz) =>
    fractionalOctaveEdges(bandHz, 1),
  );
  const floor =
    (NUMERICAL_FLOOR * 2 * energyOf(deconvolved.recorded)) / (deconvolved.circular.length * deconvolved.segmentSamples);
  const reference = edges.map(([from, to]) => Math.max(noisePower(noise, from, to), floor));
  const excessDb: Float64Array[] = [];
  const powerFrom = blockPower(hann(block), size);
  for (let start = 0; start + block <= deconvolved.segmentSamples / factor; start += block) {
    const power = powerFrom(unexplained, start);
    excessDb.push(
      Float64Array.from(edges, ([from, to], band) => {
        const first = Math.max(1, Math.round((from * size) / rate));
        const last = Math.max(first, Math.round((to * size) / rate) - 1);
        return 10 * Math.log10(Math.max(sumOfBins(power, first, last), floor) / reference[band]!);
      }),
    );
  }
  return {
    blockS: BLOCK_S,
    startS: deconvolved.startSample / sampleRate,
    bandHz: BANDS_HZ.slice(0, edges.length),
    noiseDb: Float64Array.from(reference, (power) => 10 * Math.log10(power)),
    excessDb,
    unexplained: { samples: unexplained, sampleRate: rate },
  };
}

/** The recording minus the played sweep through the kept lags: what was played, through the lags that are left. */
function unexplainedSignal(
  deconvolved: Deconvolved,
  excitation: Excitation,
  arrivalLag: number,
  afterSamples: number,
  factor: number,
): Float64Array {
  const { circular, clockRatio } = deconvolved;
  const { growthS, sampleRate } = excitation;
  const size = circular.length;
  const left = circular.slice();
  for (const lags of explainedLags(deconvolved, growthS, sampleRate, arrivalLag, afterSamples)) takeOut(left, lags);
  // The lower part of the spectrum is the same signal at a lower rate, and holds every band that is looked at.
  const end = size / factor + 2;
  const played = excitation.spectrum(size, clockRatio).subarray(0, end);
  const leftSpectrum = forwardReal(left, size)
    .subarray(0, end)
    .fill(0, end - 2);
  return inverseProduct(leftSpectrum, played, 1 / factor);
}

/** Takes a window's share out of a circular response, in place. */
function takeOut(circular: Float64Array, { from, to, fade }: LagWindow): void {
  const size = circular.length;
  const first = Math.floor(from);
  const last = Math.ceil(to) - 1;
  for (let lag = first; lag <= last; lag++) {
    const index = ((lag % size) + size) % size;
    circular[index]! *= 1 - raisedCosine(Math.min((lag - from) / fade, (to - lag) / fade));
  }
}

/** The residual in four figures: its median, and the worst block and band. */
export function summariseResidual(residual: Residual): {
  blockS: number;
  medianExcessDb: number | null;
  worstExcessDb: number | null;
  worstAtS: number | null;
  worstBandHz: number | null;
} {
  const all: number[] = [];
  let worst = { excessDb: Number.NEGATIVE_INFINITY, block: 0, band: 0 };
  residual.excessDb.forEach((bands, block) => {
    bands.forEach((excessDb, band) => {
      all.push(excessDb);
      if (excessDb > worst.excessDb) worst = { excessDb, block, band };
    });
  });
  all.sort((a, b) => a - b);
  const median = all[all.length >> 1];
  if (median === undefined) {
    return { blockS: residual.blockS, medianExcessDb: null, worstExcessDb: null, worstAtS: null, worstBandHz: null };
  }
  return {
    blockS: residual.blockS,
    medianExcessDb: median,
    worstExcessDb: worst.excessDb,
    worstAtS: residual.startS + worst.block * residual.blockS,
    worstBandHz: residual.bandHz[worst.band] ?? null,
  };
}
