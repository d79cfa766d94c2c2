import { describe, expect, it } from "vitest";
import { monitorResponse, type Monitor } from "../../src/simulate/monitor.js";
import { rootMeanSquare } from "../../src/simulate/recording/noise.js";
import { simulateRecording } from "../../src/simulate/recording.js";
import { spectrumAt } from "./spectrum-at.js";

const RATE = 48_000;
const OPEN_AIR = Float64Array.of(1);

/** A tone of one second that swells and dies away, alone on its frequency. */
function tone(frequencyHz: number, amplitude = 0.5): Float64Array {
  return Float64Array.from(
    { length: RATE },
    (_, n) => amplitude * Math.sin((Math.PI * n) / RATE) ** 2 * Math.sin((2 * Math.PI * frequencyHz * n) / RATE),
  );
}

describe("a simulated recording", () => {
  it("holds what the monitor makes of the sound, after the lead, at the recorder's gain", () => {
    const monitor: Monitor = { lowRollOff: { frequencyHz: 60, order: 4 }, gainDb: -3 };
    const played = { L: tone(80), R: null };
    const recording = simulateRecording({
      played,
      sampleRate: RATE,
      paths: { L: { monitor, roomImpulse: OPEN_AIR } },
      leadS: 0.5,
      tailS: 1,
      gainDb: 6,
    });
    expect(recording.length).toBe(2.5 * RATE);
    const ratio = Math.hypot(...spectrumAt(recording, RATE, 80)) / Math.hypot(...spectrumAt(played.L, RATE, 80));
    // 1e-6 dB is 1.2e-7.
    expect(ratio / (10 ** (6 / 20) * Math.hypot(...monitorResponse(monitor, 80)))).toBeCloseTo(1, 6);
    expect(rootMeanSquare(recording, 0, 0.4 * RATE)).toBeLessThan(1e-9);
  });

  it("is the sum of the left and the right loudspeaker, each by its own room response", () => {
    const played = { L: tone(400), R: tone(900) };
    const left = { monitor: {}, roomImpulse: Float64Array.of(0, 0, 0.5) };
    const right = { monitor: {}, roomImpulse: Float64Array.of(0.25) };
    const record = (paths: Parameters<typeof simulateRecording>[0]["paths"]): Float64Array =>
      simulateRecording({ played, sampleRate: RATE, paths });
    const both = record({ L: left, R: right });
    const one = record({ L: left });
    const other = record({ R: right });
    for (let n = 100; n < RATE; n += 977) {
      expect(both[n]).toBeCloseTo(one[n]! + other[n]!, 13);
      // The band limit's ringing, which falls with the cube of time, is cut 50 ms (2400 samples) ahead: 1 / (pi 2400 (2 x
      // 0.045 x 2400)^2) = 3e-9 of a sound that reached up to it.
      expect(one[n]).toBeCloseTo(0.5 * played.L[n - 2]!, 8);
      expect(other[n]).toBeCloseTo(0.25 * played.R[n]!, 8);
    }
  });

  it("is as long and as low in pitch as the drift of the clock makes it", () => {
    const options = {
      played: { L: tone(1000), R: null },
      sampleRate: RATE,
      paths: { L: { monitor: {}, roomImpulse: OPEN_AIR } },
    };
    const drifted = simulateRecording({ ...options, clockDriftPpm: 100 });
    expect(drifted.length).toBe(RATE + 5);
    const levelAt = (hz: number): number => Math.hypot(...spectrumAt(drifted, RATE, hz));
    // A symmetrical swell has a symmetrical spectrum about 1000 / 1.0001 Hz.
    expect(levelAt(1000 / 1.0001 + 0.5) / levelAt(1000 / 1.0001 - 0.5)).toBeCloseTo(1, 4);
  });

  it("keeps the stated distance between sound and noise, RMS to RMS", () => {
    const options = {
      played: { L: tone(1000), R: null },
      sampleRate: RATE,
      paths: { L: { monitor: {}, roomImpulse: OPEN_AIR } },
      leadS: 4,
    };
    const noisy = simulateRecording({ ...options, noise: { signalToNoiseDb: 40 }, seed: 2 });
    const clean = simulateRecording(options);
    const noise = noisy.map((value, n) => value - clean[n]!);
    const ratioDb = 20 * Math.log10(rootMeanSquare(clean, 4 * RATE, 5 * RATE) / rootMeanSquare(noise, 0, noise.length));
    // The noise reaches down to 10 Hz: 10 % more power than counted, 0.4 dB; 5 s of it scatter by 0.1 dB.
    expect(Math.abs(ratioDb - 40 + 0.4)).toBeLessThan(0.3);
    expect(simulateRecording({ ...options, noise: { signalToNoiseDb: 40 }, seed: 2 })).toEqual(noisy);
  });

  it("hums at the stated level and frequency", () => {
    const silent = { L: new Float64Array(RATE), R: null };
    const recording = simulateRecording({
      played: silent,
      sampleRate: RATE,
      paths: {},
      noise: { hum: { frequencyHz: 50, dbRms: -60 } },
    });
    expect(rootMeanSquare(recording, 0, RATE)).toBeCloseTo(1e-3, 9);
    expect((Math.SQRT2 * Math.hypot(...spectrumAt(recording, RATE, 50))) / RATE).toBeCloseTo(1e-3, 9);
  });

  it("of nothing is refused", () => {
    expect(() => simulateRecording({ played: { L: null, R: null }, sampleRate: RATE, paths: {} })).toThrow(RangeError);
  });
});
