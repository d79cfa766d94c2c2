import { describe, expect, it } from "vitest";

import { backgroundFigure } from "../../src/report/figures/background.js";
import { backgroundSection } from "../../src/report/sections/background.js";
import { resultsFixture } from "./results-fixture.js";

const quiet = [22, 15, 9, 6, 5, 4, 4, 2, 2];
const octavesHz = [31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000];

function background(levelsDb: readonly number[]): {
  levelReference: "spl";
  bands: { nominalHz: number; levelDb: number }[];
  aWeightedDb: number;
} {
  const bands = octavesHz.map((nominalHz, index) => ({ nominalHz, levelDb: levelsDb[index]! }));
  return { levelReference: "spl", bands, aWeightedDb: 12 };
}

describe("the picture of the room's noise", () => {
  it("holds noise that lies far below the rating curves", () => {
    // NR 15 at 31.5 Hz, ISO/R 1996: 65.6 dB, from memory.
    const curve = { name: "NR 15", bands: [{ nominalHz: 31.5, levelDb: 65.6 }] };
    const figure = backgroundFigure("dB re 20 µPa", [{ label: "mains", background: background(quiet) }], [curve]);
    const { yaxis } = figure.layout as unknown as { yaxis: { range: [number, number] } };
    expect(yaxis.range[0]).toBeLessThan(2);
    expect(yaxis.range[1]).toBeGreaterThan(65.6);
  });

  it("names the rating curve that the noise touches where it is a sound pressure level", () => {
    const results = resultsFixture();
    for (const measurement of results.measurements) {
      // 1 kHz at 12 dB is NR 12, and no other octave here reaches as high.
      if (!measurement.derived) measurement.background = background(quiet.with(5, 12));
    }
    const [picture] = backgroundSection(results).pictures;
    expect(picture).toMatchObject({ kind: "figure", see: expect.stringContaining("touches NR 12 at 1 kHz") as string });
  });
});
