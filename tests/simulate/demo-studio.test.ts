import { beforeAll, describe, expect, it } from "vitest";
import { builtInTroubles, demoStudio } from "../../src/simulate/demo-studio.js";
import { monitorResponse } from "../../src/simulate/monitor.js";
import { deskReflection } from "../../src/simulate/room/desk-reflection.js";
import { roomImpulse } from "../../src/simulate/room.js";
import { audibleModeS } from "../../src/standards/modal-decay.js";
import { spectrumAt } from "./spectrum-at.js";

/** Enough for everything below 1 kHz, and quick. */
const RATE = 4000;
const [mains, nears] = demoStudio.pairs as [(typeof demoStudio.pairs)[0], (typeof demoStudio.pairs)[0]];
const mix = demoStudio.positions[0]!.xyzM;
const { room } = demoStudio;
const trouble = (code: string): (typeof builtInTroubles)[number] => builtInTroubles.find((one) => one.code === code)!;
const THIRDS_HZ = [...Array(18).keys()].map((n) => 1000 * 10 ** ((n - 15) / 10));

function roomOf(pair: typeof mains, channel: "L" | "R", rate = RATE, lengthS = demoStudio.responseS): Float64Array {
  const xyzM = pair.placement[channel];
  const extraPaths = pair.desk ? [deskReflection(xyzM, mix, room, pair.desk)] : [];
  const source = { xyzM, aimM: mix, directivity: pair.directivity };
  return roomImpulse({ room, source, receiverM: mix, extraPaths }, rate, lengthS);
}

/** Mean square of a loudspeaker's response in the room over a third octave, by plain Fourier sums a quarter hertz apart at 50 Hz. */
function thirdOctavePower(impulse: Float64Array, monitor: (typeof mains)["monitors"]["L"], midbandHz: number): number {
  const places = 48;
  let sum = 0;
  for (let n = 0; n < places; n++) {
    const frequencyHz = midbandHz * 10 ** (((n + 0.5) / places - 0.5) / 10);
    sum +=
      (Math.hypot(...spectrumAt(impulse, RATE, frequencyHz)) * Math.hypot(...monitorResponse(monitor, frequencyHz))) **
      2;
  }
  return sum / places;
}

it("the list of troubles names four, each on monitors that the studio has", () => {
  expect(builtInTroubles.map(({ code }) => code).sort()).toEqual([
    "early-reflection",
    "ends-early",
    "left-right-bands",
    "mode-rings",
  ]);
  const ids = demoStudio.pairs.map(({ id }) => id);
  for (const { monitors } of builtInTroubles) for (const id of monitors) expect(ids).toContain(id);
});

describe("the desk of the demo", () => {
  const { delayS, channels, monitors } = trouble("early-reflection");

  it("reflects both nearfields as late as its mirrored path is longer, 5 dB under the direct sound", () => {
    expect(monitors).toEqual(["nears"]);
    for (const channel of channels!) {
      const xyzM = nears.placement[channel];
      const across = Math.hypot(xyzM[0] - mix[0], xyzM[1] - mix[1]);
      const mirrored = Math.hypot(across, xyzM[2] + mix[2] - 2 * nears.desk!.heightM);
      const direct = Math.hypot(across, xyzM[2] - mix[2]);
      // The list gives the delay to a hundredth of a millisecond: half of that.
      expect(Math.abs((mirrored - direct) / room.soundSpeedMPerS - delayS!)).toBeLessThan(5e-6);
      expect(20 * Math.log10(direct / mirrored) - nears.desk!.lossDb).toBeCloseTo(-5, 0);
      // What the desk adds to the room, at 96 kHz: one arrival, there and so strong.
      const rate = 96_000;
      const source = { xyzM, aimM: mix, directivity: nears.directivity };
      const without = roomImpulse({ room, source, receiverM: mix }, rate, 0.02);
      const added = roomOf(nears, channel, rate, 0.02).map((value, n) => value - without[n]!);
      const peak = added.reduce((best, value, n) => (value > added[best]! ? n : best), 0);
      // Half a sample, 5 us.
      expect(Math.abs(peak / rate - mirrored / room.soundSpeedMPerS)).toBeLessThan(0.51 / rate);
    }
    expect(mains.desk).toBeUndefined();
  });
});

describe("the bass of the demo's mains", () => {
  const levels = { L: [] as number[], R: [] as number[] };
  beforeAll(() => {
    for (const channel of ["L", "R"] as const) {
      const impulse = roomOf(mains, channel);
      levels[channel] = THIRDS_HZ.map((hz) => 10 * Math.log10(thirdOctavePower(impulse, mains.monitors[channel], hz)));
    }
  });

  it("is weaker on the right by a second-order shelf, in the room as in the closed form, since the room is symmetrical", () => {
    const { frequencyHz: cornerHz, gainDb } = mains.monitors.R.shapes!.at(-1)!;
    const half = 10 ** (gainDb / 40);
    THIRDS_HZ.forEach((hz, n) => {
      const w4 = (hz / cornerHz) ** 4;
      const closedDb = 10 * Math.log10((half ** 2 + w4) / (half ** -2 + w4));
      const differenceDb = levels.R[n]! - levels.L[n]!;
      // Over a third octave the shelf changes by up to 1.2 dB, and the room weighs its parts: some tenths.
      expect(Math.abs(differenceDb - closedDb)).toBeLessThan(0.4);
    });
  });

  it("is weaker by more than 3 dB in the bands that the list names, and by less in all others", () => {
    const [fromHz, toHz] = trouble("left-right-bands").rangeHz!;
    THIRDS_HZ.forEach((hz, n) => {
      const named = hz > fromHz / 1.06 && hz < toHz * 1.06;
      const difference = levels.L[n]! - levels.R[n]!;
      if (named) expect(difference).toBeGreaterThan(3.2);
      else if (hz > toHz) expect(difference).toBeLessThan(2.6);
      if (hz > 245) expect(Math.abs(difference)).toBeLessThan(0.5);
    });
  });
});

describe("the ringing mode of the demo", () => {
  const widthHz = room.soundSpeedMPerS / room.sizeM[1];

  /** Level of one frequency in a window of 0.35 s (raised cosine), for which other modes lie far enough away. */
  function levelFrom(impulse: Float64Array, hz: number, startS: number): number {
    const length = Math.round(0.35 * RATE);
    const from = Math.round(startS * RATE);
    const windowed = impulse
      .subarray(from, from + length)
      .map((value, n) => value * (0.5 - 0.5 * Math.cos((2 * Math.PI * n) / length)));
    return 20 * Math.log10(Math.hypot(...spectrumAt(windowed, RATE, hz)));
  }

  /** From 0.2 to 0.8 s after the emission. */
  function decayS(impulse: Float64Array, hz: number): number {
    return (60 * 0.6) / (levelFrom(impulse, hz, 0.2) - levelFrom(impulse, hz, 0.8));
  }

  it("is the second across the width, where two third octaves meet", () => {
    const [fromHz, toHz] = trouble("mode-rings").rangeHz!;
    expect(widthHz).toBeGreaterThan(fromHz);
    expect(widthHz).toBeLessThan(toHz);
    // Third octaves meet at 1000 * 10^-1.25 Hz.
    expect(Math.abs(widthHz - 56.2)).toBeLessThan(1);
  });

  it("lasts more than two and a half times as long as one that stays unheard, with mains and with nearfields", () => {
    for (const pair of [mains, nears]) {
      const measuredS = decayS(roomOf(pair, "L"), widthHz);
      expect(measuredS).toBeGreaterThan(2.5 * audibleModeS(widthHz)!);
      // A plane wave that only the side walls weaken, each once in a round trip of twice the width, lasts longer than any.
      const shares = [room.absorption.left[0], room.absorption.right[0]];
      const nepers = shares.reduce((sum, share) => sum - 0.5 * Math.log(1 - share), 0);
      const planeS = (Math.log(1000) * 2 * room.sizeM[1]) / (room.soundSpeedMPerS * nepers);
      expect(measuredS).toBeLessThan(planeS);
    }
  });

  it("stands alone: half a second on, everything else up to 250 Hz has fallen at least 20 dB below it", () => {
    const impulse = roomOf(mains, "L");
    const modeDb = levelFrom(impulse, widthHz, 0.5);
    for (let hz = 20; hz <= 250; hz += 2) {
      // The window's own lobe is 2 / 0.35 s = 5.7 Hz wide either way, and those beside it lie 31 dB down.
      if (Math.abs(hz - widthHz) < 7) continue;
      expect(modeDb - levelFrom(impulse, hz, 0.5), `${hz} Hz`).toBeGreaterThan(20);
    }
  });
});

it("the demo's nearfields end between 50 and 63 Hz: 6 dB under the mean of 200 Hz to 2 kHz lies there, and not with the mains", () => {
  const level = (pair: typeof mains): number[] => {
    const impulse = roomOf(pair, "L");
    return THIRDS_HZ.map((hz) => thirdOctavePower(impulse, pair.monitors.L, hz));
  };
  const below = (powers: number[]): number[] => {
    // The Fourier sums reach up to 1.5 kHz: the mean of 200 Hz to 1.25 kHz stands for that up to 2 kHz within a few tenths.
    const middle = powers.filter((_, n) => THIRDS_HZ[n]! > 190 && THIRDS_HZ[n]! < 1300);
    const mean = middle.reduce((sum, power) => sum + power, 0) / middle.length;
    return powers.map((power) => 10 * Math.log10(power / mean));
  };
  const at = (levels: number[], hz: number): number =>
    levels[THIRDS_HZ.findIndex((midband) => Math.abs(midband / hz - 1) < 0.05)]!;
  const ends = below(level(nears));
  expect(at(ends, 50)).toBeLessThan(-7);
  expect(at(ends, 63)).toBeGreaterThan(-5);
  expect(at(below(level(mains)), 31.5)).toBeGreaterThan(-5);
});
