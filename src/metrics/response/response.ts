import { frequencyGrid } from "../../dsp/frequency-grid.js";
import { fractionalOctaveEdges, type LogPower, logPower } from "../../dsp/log-power.js";
import { noiseAt } from "../../dsp/noise-at.js";
import type { ImpulseResponse, NoiseSpectrum, Response } from "../../model.js";
import { phaseAt, type SteadyState, steadyState } from "./steady-state.js";
import { gatedPower, toneWindowPower } from "./tone-window.js";

/** All response curves are smoothed over 1/24 octave. */
export const SMOOTHING_FRACTION = 24;
/** The direct sound's gate, and the lowest frequency of which it holds two periods. */
export const DIRECT_GATE_S = 0.004;
const DIRECT_BEFORE_S = 0.001;
const DIRECT_LOWEST_HZ = 2 / DIRECT_GATE_S;
/** Standard uncertainty stated for one take: what re-placing nothing and measuring again changes. A choice of ours. */
export const ONE_TAKE_FLOOR_DB = 0.2;
/** A level with more noise than this under it is not stated. */
const LEAST_SIGNAL_TO_NOISE_DB = 6;

export interface ResponseResult {
  readonly response: Response;
  /** Steady-state power by log frequency, for bands. */
  readonly steady: LogPower;
  readonly noiseS: number;
}

/**
 * Measures level, phase and group delay on the common frequency grid.
 *
 * @param levelOffsetDb - added to every level: 0 for a transfer, the calibration for sound pressure
 * @param takesDb - standard uncertainty of the mean over takes at a frequency, dB; null for one take
 * @returns levels in dB; outside the valid range null
 */
export function measureResponse(
  impulse: ImpulseResponse,
  levelOffsetDb: number,
  takesDb: ((frequencyHz: number) => number) | null,
): ResponseResult {
  const grid = frequencyGrid();
  const steady = steadyState(impulse);
  const power = logPower(steady.power, steady.binHz);
  const delay = logPower(steady.delayPower, steady.binHz);
  const validHz = validRange(impulse, power, steady, grid);
  const inside = (hz: number): boolean => validHz !== null && hz >= validHz[0] && hz <= validHz[1];
  const where = (make: (hz: number, index: number) => number | null): (number | null)[] =>
    Array.from(grid, (hz, index) => (inside(hz) ? make(hz, index) : null));
  const smooth = (curve: LogPower, hz: number): number => curve.mean(...fractionalOctaveEdges(hz, SMOOTHING_FRACTION));
  const level = (value: number): number | null => (value > 0 ? 10 * Math.log10(value) + levelOffsetDb : null);
  const tone = toneWindowPower(impulse, grid, SMOOTHING_FRACTION);
  const direct = gatedPower(impulse, DIRECT_BEFORE_S * impulse.sampleRate, DIRECT_GATE_S * impulse.sampleRate, 0.25);
  const response: Response = {
    frequencyHz: Array.from(grid),
    levelDb: where((hz) => level(smooth(power, hz))),
    toneDb: where((_, index) => level(tone[index]!)),
    directDb: where((hz) => (hz < DIRECT_LOWEST_HZ ? null : level(smooth(direct, hz)))),
    phaseDeg: where((hz) => phaseAt(steady, hz)),
    groupDelayS: where((hz) => smooth(delay, hz) / smooth(power, hz)),
    uncertaintyDb: where((hz) => {
      const { noise } = impulse;
      // Where the noise is not known, nobody can say how far the level is.
      return noise && Math.hypot(noiseDb(noise, steady, hz, smooth(power, hz)), takesDb?.(hz) ?? ONE_TAKE_FLOOR_DB);
    }),
    validHz,
  };
  return { response, steady: power, noiseS: steady.noiseS };
}

/** What noise adds to the uncertainty of a smoothed level, dB: its lift and its scatter. */
function noiseDb(noise: NoiseSpectrum, steady: SteadyState, hz: number, power: number): number {
  const share = (noiseAt(noise, hz) * steady.noiseS) / power;
  const [from, to] = fractionalOctaveEdges(hz, SMOOTHING_FRACTION);
  const cells = Math.max(1, (to - from) * steady.noiseS);
  const db = 10 / Math.LN10;
  return Math.hypot(db * share, db * Math.sqrt((2 * share + share * share) / cells));
}

/** The swept range, smoothing included, narrowed from both ends while noise hides the level. */
function validRange(
  impulse: ImpulseResponse,
  power: LogPower,
  steady: SteadyState,
  grid: Float64Array,
): [number, number] | null {
  const half = 10 ** (0.15 / SMOOTHING_FRACTION);
  // The grid is what is stated: a sweep's own first and last frequency count as inside.
  const sweptFrom = impulse.sweptHz[0] * half;
  const sweptTo = Math.min(impulse.sweptHz[1], 0.49 * impulse.sampleRate) / half;
  const clear = (hz: number): boolean => {
    const level = power.mean(...fractionalOctaveEdges(hz, SMOOTHING_FRACTION));
    if (!(level > 0)) return false;
    if (!impulse.noise) return true;
    return level > 10 ** (LEAST_SIGNAL_TO_NOISE_DB / 10) * noiseAt(impulse.noise, hz) * steady.noiseS;
  };
  const swept = Array.from(grid).filter((hz) => hz >= sweptFrom && hz <= sweptTo);
  const first = swept.find(clear);
  const last = swept.findLast(clear);
  return first === undefined || last === undefined ? null : [first, last];
}
