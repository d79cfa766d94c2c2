import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

/**
 * A stream of random numbers that is the same for the same seed: the only door to the generator library.
 *
 * It leaves out cryptography: whoever knows the seed knows the noise.
 */
export class Random {
  readonly #generator;

  /** @param seed - any whole number; only its low 32 bits count */
  constructor(seed: number) {
    if (!Number.isInteger(seed)) throw new RangeError(`seed ${seed} must be a whole number`);
    this.#generator = xoroshiro128plus(seed);
    // Small seeds differ in few bits, and the generator's first numbers show it.
    for (let n = 0; n < 64; n++) this.#generator.next();
  }

  /** One number, evenly spread over 0 (included) to 1 (excluded). */
  uniform(): number {
    return uniformFloat64(this.#generator);
  }

  /**
   * Fills an array with normally distributed numbers of mean 0 and variance 1.
   *
   * @param target - any length; overwritten
   * @returns `target`
   * @remarks Source: G. E. P. Box, M. E. Muller, Ann. Math. Statist. 29 (1958).
   */
  fillNormal(target: Float64Array): Float64Array {
    for (let n = 0; n < target.length; n += 2) {
      // 1 - u is never 0, so the logarithm is finite.
      const radius = Math.sqrt(-2 * Math.log(1 - this.uniform()));
      const angle = 2 * Math.PI * this.uniform();
      target[n] = radius * Math.cos(angle);
      if (n + 1 < target.length) target[n + 1] = radius * Math.sin(angle);
    }
    return target;
  }
}
