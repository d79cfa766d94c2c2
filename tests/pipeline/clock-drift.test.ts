import { describe, expect, it } from "vitest";
import { forwardReal, transformSize } from "../../src/dsp/fft.js";
import type { ImpulseResponse, SweepRecipe } from "../../src/model.js";
import type { Take } from "../../src/pipeline/capture.js";
import { withClockDrift } from "../../src/simulate/recording/clock-drift.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { capture, type Path, whiteNoise } from "../known-recording.js";
import { labRecipe, otherSession } from "../laboratory/laboratory.js";

/** The bars. */
const CLOCK_PPM = 1;
const RESPONSE_DB = 0.1;
const ARRIVAL_S = 5e-6;
const COMPARED_HZ = [25, 16_000] as const;
const DRIFTS_PPM = [-300, -100, 0, 50, 300];

const longRecipe = makeSweepRecipe();
const LEAD_S = 0.7;
/** Direct sound and reflections; left and right are 112.3 us apart. */
const PATHS = { L: reflectionsAfter(0.006_512_3, 1), R: reflectionsAfter(0.0064, 2) };

function reflectionsAfter(directS: number, seed: number): Path[] {
  const chance = whiteNoise(3, seed);
  const later = Array.from(chance, (value, n) => ({
    delayS: directS + 0.0007 * (n + 1) ** 1.7 * (1 + 0.1 * value),
    gain: (n % 2 === 0 ? -0.1 : 0.12) / (n + 1),
  }));
  return [{ delayS: directS, gain: 0.3 }, ...later];
}

/** The sweep `a sin(2 pi f1 L (exp(t/L) - 1))` and the marker at any instant, by their formulas: A. Farina, AES 108 (2000). */
function soundAt(recipe: SweepRecipe, kind: "marker" | "sweep", t: number): number {
  const amplitude = 10 ** (recipe.levelDbfs / 20);
  const isSweep = kind === "sweep";
  const growthS = isSweep ? recipe.growthS : 0.1 / Math.log(16);
  const fromHz = isSweep ? recipe.startHz : 500;
  const fadeInS = isSweep ? recipe.fadeInS : 0;
  const lastS = isSweep ? fadeInS + recipe.lengthS + recipe.fadeOutS : 0.1;
  if (t < 0 || t > lastS) return 0;
  const risesS = isSweep ? fadeInS : 0.01;
  const fallsS = isSweep ? recipe.fadeOutS : 0.01;
  const edge = Math.min(1, t / risesS, (lastS - t) / fallsS);
  const gain = amplitude * (0.5 - 0.5 * Math.cos(Math.PI * edge));
  return gain * Math.sin(2 * Math.PI * fromHz * growthS * (Math.exp((t - fadeInS) / growthS) - 1));
}

/** Reads the sound at the microphone whenever a recorder ticks whose clock is off: nothing is interpolated. */
function recordedWith(ppm: number): Float64Array {
  const { events, sampleRate } = longRecipe;
  const tick = sampleRate * (1 + ppm * 1e-6);
  const last = events.at(-1)!;
  const out = whiteNoise(Math.ceil((LEAD_S + (last.atSample + last.samples) / sampleRate + 1.5) * tick), 5).map(
    (value) => 1e-5 * value,
  );
  for (const event of events) {
    for (const { delayS, gain } of PATHS[event.channel]) {
      const fromS = LEAD_S + event.atSample / sampleRate + delayS;
      const end = Math.min(out.length, (fromS + event.samples / sampleRate) * tick + 2);
      for (let n = Math.max(0, Math.floor(fromS * tick)); n < end; n++) {
        out[n]! += gain * soundAt(longRecipe, event.kind, n / tick - fromS);
      }
    }
  }
  return out;
}

/** Root mean square in bands a 24th of an octave wide, dB, over what is compared. */
function responseDb({ samples, sampleRate }: ImpulseResponse): number[] {
  const size = transformSize(4 * sampleRate);
  const spectrum = forwardReal(samples, size);
  const [fromHz, toHz] = COMPARED_HZ;
  const bands = Math.floor(24 * Math.log2(toHz / fromHz));
  return Array.from({ length: bands }, (_, band) => {
    const lowHz = fromHz * 2 ** (band / 24);
    let sum = 0;
    let count = 0;
    for (let k = Math.ceil((lowHz * size) / sampleRate); k < (lowHz * 2 ** (1 / 24) * size) / sampleRate; k++) {
      sum += spectrum[2 * k]! ** 2 + spectrum[2 * k + 1]! ** 2;
      count++;
    }
    return 10 * Math.log10(sum / count);
  });
}

function largestDifference(a: readonly number[], b: readonly number[]): number {
  return a.reduce((most, value, band) => Math.max(most, Math.abs(value - b[band]!)), 0);
}

const differenceS = ([left, right]: readonly Take[]): number => left!.arrivalPlayedS! - right!.arrivalPlayedS!;

describe("a reel recorded in the open with a clock that is off", () => {
  const heard = (ppm: number): readonly Take[] => capture(longRecipe, longRecipe.events, recordedWith(ppm)).takes;
  const trueResponses = heard(0).map(({ impulse }) => responseDb(impulse));
  const trueDifferenceS = PATHS.L[0]!.delayS - PATHS.R[0]!.delayS;

  it.each(DRIFTS_PPM)("by %d ppm tells the clock, and the response and arrivals as if it were not", (ppm) => {
    const takes = heard(ppm);
    expect(takes.map(({ channel }) => channel)).toEqual(["L", "R"]);
    takes.forEach(({ drift, impulse }, side) => {
      expect(Math.abs(drift!.ppm - ppm)).toBeLessThan(CLOCK_PPM);
      expect(largestDifference(responseDb(impulse), trueResponses[side]!)).toBeLessThan(RESPONSE_DB);
    });
    expect(Math.abs(differenceS(takes) - trueDifferenceS)).toBeLessThan(ARRIVAL_S);
  });
});

describe("a reel recorded in a control room with a clock that is off", () => {
  const room = otherSession(({ recorder, ...rest }) => ({ ...rest, recorder: { ...recorder, clockDriftPpm: 0 } }));
  const { channels, sampleRate } = Object.values(room.sounds)[0]!;
  const heard = (ppm: number): readonly Take[] =>
    capture(labRecipe, labRecipe.events, withClockDrift(channels[0]!, sampleRate, ppm)).takes;
  const undrifted = heard(0);
  const trueResponses = undrifted.map(({ impulse }) => responseDb(impulse));

  it.each(DRIFTS_PPM)("by %d ppm tells the clock, and the response and arrivals as if it were not", (ppm) => {
    const takes = heard(ppm);
    takes.forEach(({ drift, impulse }, side) => {
      expect(Math.abs(drift!.ppm - ppm)).toBeLessThan(CLOCK_PPM);
      expect(largestDifference(responseDb(impulse), trueResponses[side]!)).toBeLessThan(RESPONSE_DB);
    });
    expect(Math.abs(differenceS(takes) - differenceS(undrifted))).toBeLessThan(ARRIVAL_S);
  });
});
