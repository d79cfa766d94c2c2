import { describe, expect, it } from "vitest";
import type { AgreedMode } from "../../../src/metrics/modes/band-modes.js";
import type { MonitorResult } from "../../../src/model.js";
import { heardMode } from "../../../src/pipeline/room-modes/heard-modes.js";
import type { FoundMode } from "../../../src/pipeline/room-modes/measured-modes.js";
import { audibleWords } from "../../../src/report/words/modes.js";

const RATE = 1000;
const DAMPING = 6.9 / 1.2;
/** A group wider than a third octave: it has no decay time of its own. */
const wide: FoundMode = {
  ...{ kind: "group", frequencyHz: 50, rangeHz: [39, 67], frequencyUncertaintyHz: null, t60S: null },
  ...{ t60UncertaintyS: null, levelDb: null, places: [], members: [], predicted: [] },
};

/** A click, which is flat, with a ringing of 1.2 s at 45 Hz. */
function judged(amplitude: number): ReturnType<typeof heardMode> {
  const samples = Float64Array.from({ length: 2 * RATE }, (_, n) => {
    const t = n / RATE;
    return (n === 0 ? 1 : 0) + amplitude * Math.exp(-DAMPING * t) * Math.cos(2 * Math.PI * 45 * t);
  });
  const low = { samples, sampleRate: RATE, fullRate: RATE, noise: null, sweptHz: [10, 400] as const };
  const ringing = { frequencyHz: 45, dampingPerS: DAMPING, amplitudes: [amplitude], phases: [0] };
  const monitor = { id: "mains", extension: null } as MonitorResult;
  return heardMode(wide, [ringing as unknown as AgreedMode], [{ monitor, sides: [{ low, place: 0 }] }]);
}

describe("A group of modes without a decay time of its own", () => {
  it("that does not raise the response is not heard, however long it rings", () => {
    const quiet = judged(1e-4);
    // 1e-4 over twice the damping, in samples: 0.009 beside the click's 1.
    expect(quiet.bumps[0]!.raisedDb).toBeLessThan(0.1);
    expect(quiet.audible).toBe(false);
    expect(audibleWords(quiet, (id) => id)).toBe("raises the response too little, however long");
  });

  it("that raises it much cannot be judged", () => {
    const strong = judged(0.1);
    expect(strong.bumps[0]!.raisedDb).toBeGreaterThan(strong.bumps[0]!.heardFromDb);
    expect(strong.audible).toBeNull();
    expect(audibleWords(strong, (id) => id)).toBe("a wide group: no decay of its own");
  });
});
