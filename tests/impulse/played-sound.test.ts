import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { excitationFromSound } from "../../src/impulse/excitation.js";
import { measureDistortion } from "../../src/metrics/distortion.js";
import { measureResponse } from "../../src/metrics/response/response.js";
import type { Signal } from "../../src/model.js";
import { captureRecording, type Take } from "../../src/pipeline/capture.js";
import { decodeWav } from "../../src/recording/decode-wav.js";

/** Figures: SOURCE.md beside the recordings, from an independent scipy check. */
const folder = new URL("../../../shared/data/filter-chain-sweeps/", import.meta.url);
const present = existsSync(folder);

function read(name: string): Signal {
  const audio = decodeWav(new Uint8Array(readFileSync(new URL(name, folder))), name);
  return { samples: audio.channels[0]!, sampleRate: audio.sampleRate };
}

function take(name: string): Take {
  const excitation = excitationFromSound(read("sweep.wav"));
  const samples = excitation.samples().length;
  return captureRecording({
    recording: { file: name, monitor: "chain", position: "mix", take: 1, kind: "sweep", channel: "L" },
    signal: read(name),
    loopback: null,
    excitation,
    timeline: [{ kind: "sweep", channel: "L", atSample: 0, samples }],
    marker: null,
    sweepFile: "played.wav",
    otherSweeps: [],
    deviationDb: null,
  }).takes[0]!;
}

function levelAt(one: Take, hz: number): number {
  const { response } = measureResponse(one.impulse, 0, null);
  return response.levelDb[response.frequencyHz.findIndex((f) => f >= hz)]!;
}

describe.skipIf(!present)("an analogue filter, played and recorded (not run: ../shared/data is absent)", () => {
  it("takes the played file's band and length from its samples", () => {
    const excitation = excitationFromSound(read("sweep.wav"));
    // 10 s at 48 kHz; a twelfth of an octave is how finely the band is looked for.
    expect(Math.abs(excitation.samples().length - 480_000)).toBeLessThan(10);
    expect(Math.abs(Math.log2(excitation.sweptHz[0] / 20))).toBeLessThan(1 / 12);
    expect(Math.abs(Math.log2(excitation.sweptHz[1] / 20_000))).toBeLessThan(1 / 12);
  });

  it.each(["bypass-15.wav", "lp_512-15.wav", "bp_105-15.wav"])(
    "%s comes 99 to 103 ms before the sent file's line",
    (name) => {
      // The sent file has its sweep 2 s in.
      const early = (2 - take(name).arrivalInFileS!) * 48_000;
      // Published as whole samples, found by the largest swing; half a sample, and a filter's own delay within one.
      expect(early).toBeGreaterThanOrEqual(4761);
      expect(early).toBeLessThanOrEqual(4933);
    },
  );

  it("has the bypass flat within 0.4 dB from 100 Hz to 5 kHz at -19.2 dB", () => {
    const one = take("bypass-15.wav");
    const levels = [100, 200, 500, 1000, 2000, 5000].map((hz) => levelAt(one, hz));
    expect(Math.max(...levels) - Math.min(...levels)).toBeLessThan(0.45);
    // Half the last digit printed.
    expect(Math.abs(levelAt(one, 1000) + 19.2)).toBeLessThan(0.05);
  });

  it("has the low-pass inverted against the bypass", () => {
    expect(take("bypass-15.wav").impulse.polarity).toBe(1);
    expect(take("lp_512-15.wav").impulse.polarity).toBe(-1);
  });

  it("leaves nothing unexplained in an electrical chain", () => {
    for (const name of ["bypass-15.wav", "lp_512-15.wav"]) {
      // Single bands and blocks of noise scatter by chance: 12 dB is the limit below which nothing is said.
      expect(take(name).residual!.worstExcessDb).toBeLessThan(12);
    }
  });

  it("finds no sweep where the volume was zero", () => {
    expect(() => take("bypass-0.wav")).toThrow("The session's sweep is not in the recording.");
  });

  it("claims no distortion from a sweep of which only the sound is known", () => {
    const one = take("lp_512-15.wav");
    expect(measureDistortion(one.impulse, measureResponse(one.impulse, 0, null).steady, [one.harmonics])).toBeNull();
  });
});
