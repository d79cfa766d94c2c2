/**
 * Power of a spectrum averaged over stretches of log frequency, in constant time per stretch.
 *
 * The running integral of |H|^2 over ln f is taken once; every smoothing width and every band reads from it.
 */
export interface LogPower {
  /** Mean of the quantity over log frequency between two frequencies inside 0 and half the sample rate. */
  mean(fromHz: number, toHz: number): number;
}

let logSteps = new Float64Array(1);

/** ln((k+1)/k) by k, at least up to `count`: the same for every spectrum. */
function logStepsUpTo(count: number): Float64Array {
  const known = logSteps;
  if (known.length >= count) return known;
  logSteps = new Float64Array(count);
  logSteps.set(known);
  for (let k = known.length; k < count; k++) logSteps[k] = Math.log1p(1 / k);
  return logSteps;
}

/** Squared magnitudes of complex numbers; of a half spectrum, shape `[size / 2 + 1]`. */
export function powerOf(spectrum: Float64Array): Float64Array {
  const power = new Float64Array(spectrum.length / 2);
  for (let k = 0; k < power.length; k++) {
    const re = spectrum[2 * k]!;
    const im = spectrum[2 * k + 1]!;
    power[k] = re * re + im * im;
  }
  return power;
}

/**
 * @param values - one per bin, from 0 to half the sample rate, shape `[size / 2 + 1]`: powers, or anything else to average
 * @param binHz - spacing of the bins
 */
export function logPower(values: Float64Array, binHz: number): LogPower {
  const steps = logStepsUpTo(values.length);
  const running = new Float64Array(values.length);
  integrate(running, values, steps);
  const integralTo = (frequencyHz: number): number => {
    const place = Math.min(Math.max(frequencyHz / binHz, 1), values.length - 1);
    const k = Math.min(Math.floor(place), values.length - 2);
    const share = place - k;
    const here = values[k]! + share * (values[k + 1]! - values[k]!);
    return running[k]! + 0.5 * (values[k]! + here) * Math.log(place / k);
  };
  return {
    mean: (fromHz, toHz) => (integralTo(toHz) - integralTo(fromHz)) / Math.log(toHz / fromHz),
  };
}

/** By the trapezoidal rule. */
function integrate(running: Float64Array, values: Float64Array, steps: Float64Array): void {
  let sum = 0;
  for (let k = 1; k + 1 < values.length; k++) {
    sum += 0.5 * (values[k]! + values[k + 1]!) * steps[k]!;
    running[k + 1] = sum;
  }
}

/** Edges of a fractional-octave stretch around a frequency, base ten: f * 10^(-+0.15 / fraction). */
export function fractionalOctaveEdges(frequencyHz: number, fraction: number): [number, number] {
  const half = 10 ** (0.15 / fraction);
  return [frequencyHz / half, frequencyHz * half];
}
