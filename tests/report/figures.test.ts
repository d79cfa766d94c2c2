import { describe, expect, it } from "vitest";

import { backgroundFigure } from "../../src/report/figures/background.js";
import { positionsFigure } from "../../src/report/figures/positions.js";
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

describe("the picture of the mean over the places", () => {
  interface Trace {
    readonly name: string;
    readonly x: readonly (number | null)[];
    readonly y: readonly (number | null)[];
  }
  const positions = {
    ...resultsFixture().monitors[0]!.positions!,
    response: { frequencyHz: [100, 200, 400], levelDb: [80, 84, null], toneDb: [], uncertaintyDb: [] },
    spreadDb: [1, 2.5, null],
  };
  const traces = positionsFigure([{ name: "mains", positions }]).data as unknown as readonly Trace[];

  it("shades one standard deviation to either side of the line, and nothing where no level is known", () => {
    const band = traces.find(({ name }) => name === "band")!;
    expect(band.x).toEqual([100, 200, 200, 100, 100, null]);
    expect(band.y).toEqual([81, 86.5, 81.5, 79, 81, null]);
    expect(traces.find(({ name }) => name === "mean")!.y).toEqual([80, 84, null]);
  });

  it("has a panel for each monitor and one for what they spread", () => {
    const two = positionsFigure([
      { name: "mains", positions },
      { name: "nears", positions },
    ]).data as unknown as readonly Trace[];
    expect(two.filter(({ name }) => name === "mean")).toHaveLength(2);
    expect(two.filter(({ name }) => ["mains", "nears"].includes(name))).toHaveLength(2);
  });
});
