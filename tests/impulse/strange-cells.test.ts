import { describe, expect, it } from "vitest";
import type { Residual } from "../../src/impulse/residual.js";
import { strangeCells } from "../../src/impulse/strange-cells.js";

const SWEEP_DB = -20;

/** Two blocks of a tenth of a second in two bands, the lead's noise 80 dB under full scale. */
function residual(...excessDb: readonly (readonly number[])[]): Residual {
  return {
    blockS: 0.1,
    startS: 3,
    bandHz: [125, 1000],
    noiseDb: Float64Array.of(-80, -80),
    excessDb: excessDb.map((row) => Float64Array.from(row)),
    unexplained: { samples: new Float64Array(0), sampleRate: 48_000 },
  };
}

describe("what the response leaves over in a block and band", () => {
  it("is worth telling from 15 dB over the noise on, and chance's 12 dB are not", () => {
    expect(strangeCells(residual([12, 14.9]), SWEEP_DB)).toEqual([]);
    expect(strangeCells(residual([15, 0]), -50)).toHaveLength(1);
  });

  it("is not worth telling where it is over 53 dB under the sweep, however far it stands out of the noise", () => {
    // 27 dB over -80 dBFS is 53 dB under a sweep of 0 dBFS.
    expect(strangeCells(residual([26.9, 0]), 0)).toEqual([]);
    expect(strangeCells(residual([27.1, 0]), 0)).toHaveLength(1);
  });

  it("has its place in the file, its band and its level re the sweep, the earliest first", () => {
    expect(strangeCells(residual([0, 40], [50, 0]), SWEEP_DB)).toEqual([
      { atS: 3, bandHz: 1000, excessDb: 40, reSweepDb: -20 },
      { atS: 3.1, bandHz: 125, excessDb: 50, reSweepDb: -10 },
    ]);
  });
});
