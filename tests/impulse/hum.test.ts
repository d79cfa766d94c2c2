import { describe, expect, it } from "vitest";
import { excitationFromRecipe } from "../../src/impulse/excitation.js";
import { findHum } from "../../src/impulse/hum.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { whiteNoise } from "../known-recording.js";

const recipe = makeSweepRecipe({ durationS: 2 });
const { sampleRate } = recipe;
const excitation = excitationFromRecipe(recipe);
const sweep = recipe.events.find(({ kind }) => kind === "sweep")!;
/** The sweep itself is left out: where it sounds below 1 kHz nobody looks. */
const found = [{ event: sweep, startSample: 2 * sampleRate, clarityDb: 60 }];

/** Sines in a silence that is white noise of -100 dBFS. */
function lines(...sines: readonly (readonly [hz: number, peak: number])[]): Float64Array {
  const noise = whiteNoise(6 * sampleRate, 3);
  return noise.map((value, n) =>
    sines.reduce((sum, [hz, peak]) => sum + peak * Math.sin((2 * Math.PI * hz * n) / sampleRate), 1e-5 * value),
  );
}

const heard = (samples: Float64Array): ReturnType<typeof findHum> =>
  findHum({ samples, sampleRate }, excitation, found, 0.3);

describe("Lines of the mains", () => {
  it.each([
    [50, 50.04],
    [60, 59.95],
  ])("of %d Hz are told with their level, also when the mains are a little off", (mainsHz, hz) => {
    const hum = heard(lines([hz, 0.002], [3 * hz, 0.004]))!;
    expect(hum.mainsHz).toBe(mainsHz);
    expect(hum.strongestHz).toBe(3 * mainsHz);
    // Half the squares of both peaks. Five bins hold all of a Hann window's main lobe; 0.1 dB for the third line's 0.15 Hz.
    expect(Math.abs(hum.levelDb - 10 * Math.log10(0.002 ** 2 / 2 + 0.004 ** 2 / 2))).toBeLessThan(0.1);
  });

  it("are not heard in noise, nor in a tone that is no multiple of 50 or 60 Hz", () => {
    expect(heard(lines())).toBeNull();
    expect(heard(lines([77, 0.01]))).toBeNull();
  });

  it("are not a note that sounded before the sweep alone", () => {
    const samples = lines();
    for (let n = 0; n < 1.5 * sampleRate; n++) samples[n]! += 0.01 * Math.sin((2 * Math.PI * 100 * n) / sampleRate);
    expect(heard(samples)).toBeNull();
  });
});
