import { expect, it } from "vitest";
import { monitorFilter } from "../../../src/simulate/monitor/monitor-filter.js";
import { monitorResponse, type Monitor } from "../../../src/simulate/monitor.js";
import { spectrumAt } from "../spectrum-at.js";

it("a sound that passes a monitor keeps the closed form's level and phase at every frequency it holds", () => {
  const monitor: Monitor = {
    lowRollOff: { frequencyHz: 45, order: 4 },
    highRollOff: { frequencyHz: 20_000, order: 2 },
    crossoversHz: [1900],
    shapes: [{ kind: "peak", frequencyHz: 150, gainDb: 3, quality: 2 }],
    delayS: 0.0003,
    gainDb: -2,
  };
  const rate = 48_000;
  // A Hann-shaped pulse of 21 ms, sampled: next to nothing near half the sample rate.
  const pulse = Float64Array.from(
    { length: 1024 },
    (_, n) => Math.sin((Math.PI * n) / 1024) ** 4 * Math.cos(n * n * 1e-3),
  );
  const filtered = monitorFilter(pulse, rate, monitor, 1);
  for (const frequencyHz of [25, 60, 150, 700, 1900, 8000, 15_000]) {
    const [inR, inI] = spectrumAt(pulse, rate, frequencyHz);
    const [outR, outI] = spectrumAt(filtered, rate, frequencyHz);
    const [r, i] = monitorResponse(monitor, frequencyHz);
    const error = Math.hypot(outR - (inR * r - inI * i), outI - (inR * i + inI * r));
    // 1e-6 dB is 1.2e-7 of the level.
    expect(error / Math.hypot(inR * r - inI * i, inR * i + inI * r)).toBeLessThan(1.2e-7);
  }
});
