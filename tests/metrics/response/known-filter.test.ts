import { beforeAll, describe, expect, it } from "vitest";
import type { ImpulseResponse } from "../../../src/model.js";
import { measureResponse } from "../../../src/metrics/response/response.js";
import { makeSweepRecipe } from "../../../src/sweep/recipe.js";
import { renderSingle } from "../../../src/sweep/render.js";
import { singleEvents } from "../../../src/sweep/timeline.js";
import { capture, filtered, pinkNoise, rms } from "../../known-recording.js";

interface Complex {
  re: number;
  im: number;
}

const times = (a: Complex, b: Complex): Complex => ({ re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re });
const over = (a: Complex, b: Complex): Complex => {
  const power = b.re * b.re + b.im * b.im;
  return { re: (a.re * b.re + a.im * b.im) / power, im: (a.im * b.re - a.re * b.im) / power };
};

/** A small monitor in closed form: high-pass 35 Hz, resonance at 60 Hz, all-pass of a crossover at 2 kHz, fall at 30 kHz. */
function filter(f: number): Complex {
  const section = (corner: number, q: number): Complex => ({ re: corner * corner - f * f, im: (f * corner) / q });
  const mirror = (corner: number, q: number): Complex => ({ re: corner * corner - f * f, im: (-f * corner) / q });
  let h: Complex = { re: 0.3, im: 0 };
  h = times(h, over({ re: -f * f, im: 0 }, section(35, 0.71)));
  h = times(h, over(mirror(2000, 0.71), section(2000, 0.71)));
  h = times(h, over({ re: 3600 - f * f, im: (2 * f * 60) / 2 }, section(60, 2)));
  return times(h, over({ re: 9e8, im: 0 }, section(30_000, 0.71)));
}

const DELAY_S = 0.012_34;
const recipe = makeSweepRecipe();
const events = singleEvents(recipe, "L");
let recorded: Float64Array;

beforeAll(() => {
  recorded = filtered(renderSingle(recipe, "L"), recipe.sampleRate, (f) => {
    const angle = -2 * Math.PI * f * DELAY_S;
    return times(filter(f), { re: Math.cos(angle), im: Math.sin(angle) });
  });
});

function impulseOf(samples: Float64Array): ImpulseResponse {
  return capture(recipe, events, samples, { channel: "L" }).takes[0]!.impulse;
}

/** Mean power of the truth over the same 1/24 octave, by 64 points. */
function truthDb(hz: number): number {
  let sum = 0;
  for (let n = 0; n < 64; n++) {
    const { re, im } = filter(hz * 10 ** (((n + 0.5) / 64 - 0.5) / 80));
    sum += re * re + im * im;
  }
  return 10 * Math.log10(sum / 64);
}

function worstLevelError(impulse: ImpulseResponse): number {
  const { response } = measureResponse(impulse, 0, null);
  let worst = 0;
  response.frequencyHz.forEach((hz, k) => {
    if (hz >= 25 && hz <= 18_000) worst = Math.max(worst, Math.abs(response.levelDb[k]! - truthDb(hz)));
  });
  return worst;
}

describe("a known filter through the default sweep", () => {
  it("is measured to 0.02 dB from 25 Hz to 18 kHz without noise", () => {
    expect(worstLevelError(impulseOf(recorded))).toBeLessThan(0.02);
  });

  it("keeps its phase to 0.1 degree after one fitted delay", () => {
    const { response } = measureResponse(impulseOf(recorded), 0, null);
    const points: [number, number][] = [];
    let turns = 0;
    response.frequencyHz.forEach((hz, k) => {
      if (hz < 25 || hz > 18_000) return;
      const { re, im } = filter(hz);
      let error = response.phaseDeg[k]! - (180 / Math.PI) * Math.atan2(im, re) + turns;
      const previous = points.at(-1)?.[1] ?? 0;
      const wrap = -360 * Math.round((error - previous) / 360);
      error += wrap;
      turns += wrap;
      points.push([hz, error]);
    });
    const slope = points.reduce((s, [hz, e]) => s + hz * e, 0) / points.reduce((s, [hz]) => s + hz * hz, 0);
    const worst = Math.max(...points.map(([hz, error]) => Math.abs(error - slope * hz)));
    expect(worst).toBeLessThan(0.1);
  });

  it.each([1, 2, 3, 4, 5, 6])(
    "is measured to 0.1 dB with pink noise 40 dB under the recorded sweep, seed %d",
    (seed) => {
      const sweep = events.find(({ kind }) => kind === "sweep")!;
      const noise = pinkNoise(recorded.length, seed, recipe.sampleRate);
      const gain = (0.01 * rms(recorded, sweep.atSample, sweep.atSample + sweep.samples)) / rms(noise);
      expect(worstLevelError(impulseOf(recorded.map((value, n) => value + gain * noise[n]!)))).toBeLessThan(0.1);
    },
  );

  it("states an uncertainty that its own errors respect", () => {
    const sweep = events.find(({ kind }) => kind === "sweep")!;
    const noise = pinkNoise(recorded.length, 9, recipe.sampleRate);
    const gain = (0.1 * rms(recorded, sweep.atSample, sweep.atSample + sweep.samples)) / rms(noise);
    const { response } = measureResponse(impulseOf(recorded.map((value, n) => value + gain * noise[n]!)), 0, () => 0);
    let inside = 0;
    let count = 0;
    response.frequencyHz.forEach((hz, k) => {
      if (hz < 25 || hz > 18_000) return;
      count++;
      if (Math.abs(response.levelDb[k]! - truthDb(hz)) <= 2 * response.uncertaintyDb[k]!) inside++;
    });
    // Two standard uncertainties hold 95 %; neighbouring points are alike, so the share scatters by a few percent.
    expect(inside / count).toBeGreaterThan(0.88);
    // And it is not merely large: at 1 kHz with 20 dB it is known to a tenth.
    expect(response.uncertaintyDb[response.frequencyHz.findIndex((hz) => hz >= 1000)]).toBeLessThan(0.3);
  });
});
