import { bandFilter } from "../../dsp/band-filter.js";
import type { ImpulseResponse } from "../../model.js";
import { bandEdges, OCTAVES } from "../../standards/iec61260.js";
import { bandDecay } from "../decay/band-decay.js";
import { splitSpectra } from "../decay/split-spectra.js";
import type { BlockEnergies } from "./decay-model.js";

/** The decay of one octave at one place, in blocks. */
export interface OctaveDecay extends BlockEnergies {
  readonly nominalHz: number;
  /** Time to fall by 60 dB that the late part of the decay keeps to, and the noise in one block: where a fit may begin. */
  readonly timeS: number;
  readonly noise: number;
}

const OCTAVES_HZ = [125, 8000] as const;
/** The direct sound is moved to before the arrival by the reversed filter, but for a few milliseconds. */
const FROM_S = 0.005;
/** Blocks hold one and a half independent values at least, and are no shorter than this. */
const LEAST_BLOCK_S = 0.005;
const VALUES = 1.5;
/** The noise is looked at for so much of the decay's length after it, and so long at least. */
const NOISE_SHARE = 0.3;
const LEAST_NOISE_S = 0.1;
/** Noise bandwidth of a third-order Butterworth band-pass over the distance of its edges: (pi / 6) / sin(pi / 6). */
const NOISE_BANDWIDTH = Math.PI / 3;

/** Cuts the decays of a response's octaves into blocks of energy. */
export function octaveDecays(impulse: ImpulseResponse): OctaveDecay[] {
  const spectra = splitSpectra(impulse, []);
  if (!spectra) return [];
  return OCTAVES.flatMap((band) => {
    const [fromHz, toHz] = bandEdges(band);
    const swept = fromHz >= impulse.sweptHz[0] && toHz <= Math.min(impulse.sweptHz[1], impulse.sampleRate / 2);
    if (band.nominalHz < OCTAVES_HZ[0] || band.nominalHz > OCTAVES_HZ[1] || !swept) return [];
    const filter = bandFilter(band);
    const decay = bandDecay(spectra, filter);
    if (!decay) return [];
    const { stepS, truncation, energy } = decay;
    const blockS = Math.max(LEAST_BLOCK_S, VALUES / filter.bandwidthHz);
    const kneeS = truncation.steps * stepS;
    const endS = Math.min(energy.length * stepS, (1 + NOISE_SHARE) * kneeS + LEAST_NOISE_S);
    const blocks = inBlocks(energy, stepS, blockS, endS);
    if (blocks.length < FEWEST_BLOCKS) return [];
    return [
      {
        nominalHz: band.nominalHz,
        energy: blocks,
        blockS,
        fromS: FROM_S,
        valuesPerBlock: NOISE_BANDWIDTH * filter.bandwidthHz * blockS,
        timeS: (60 * stepS) / truncation.fallDb,
        noise: (truncation.noise * blockS) / stepS,
      },
    ];
  });
}

/** Five quantities are fitted to them. */
const FEWEST_BLOCKS = 10;

/** Sums steps into blocks, those on a border by their shares. */
function inBlocks(energy: Float64Array, stepS: number, blockS: number, endS: number): Float64Array {
  const blocks = new Float64Array(Math.max(0, Math.floor((endS - FROM_S) / blockS)));
  for (let n = Math.floor(FROM_S / stepS); n < energy.length; n++) {
    const from = (n * stepS - FROM_S) / blockS;
    const to = from + stepS / blockS;
    const block = Math.floor(to);
    const beyond = block > Math.floor(from) ? (to - block) / (to - from) : 1;
    if (block < blocks.length) blocks[block]! += beyond * energy[n]!;
    if (block > 0 && block <= blocks.length && beyond < 1) blocks[block - 1]! += (1 - beyond) * energy[n]!;
  }
  return blocks;
}

/**
 * Takes the decays of one octave at several places together: their energies, each re its own whole.
 *
 * @returns as long as the shortest; null for none, or where blocks do not match
 */
export function together(decays: readonly OctaveDecay[]): OctaveDecay | null {
  const first = decays[0];
  if (!first || decays.some(({ blockS, fromS }) => blockS !== first.blockS || fromS !== first.fromS)) return null;
  const length = Math.min(...decays.map(({ energy }) => energy.length));
  const energy = new Float64Array(length);
  let noise = 0;
  for (const decay of decays) {
    const whole = decay.energy.reduce((sum, value) => sum + value, 0) * decays.length;
    for (let n = 0; n < length; n++) energy[n]! += decay.energy[n]! / whole;
    noise += decay.noise / whole;
  }
  const timeS = decays.reduce((sum, one) => sum + one.timeS, 0) / decays.length;
  return { ...first, energy, noise, timeS, valuesPerBlock: first.valuesPerBlock * decays.length };
}
