import { describe, expect, it } from "vitest";
import type { Finding, Results } from "../../src/model.js";
import { resultTables } from "../../src/report/tables.js";
import { measureWords } from "../../src/report/sections/treatment/measure-words.js";
import { reportView } from "../../src/report/view.js";
import { finding } from "../../src/schema/finding.js";
import { resultsSchema } from "../../src/schema/results.js";
import { treatRoom } from "../../src/treatment/treat-room.js";
import { resultsFixture } from "./results-fixture.js";

const mend = (parts: Partial<Finding>): Finding =>
  finding({ code: "", severity: "warning", topic: "mend", message: "", monitors: ["mains"], ...parts });

/** The fixture with troubles, and what the core makes of them; it must fit the schema. */
function treated(...findings: Finding[]): Results {
  const results = { ...resultsFixture(), findings };
  return resultsSchema.parse({ ...results, treatment: treatRoom(results) });
}

const chaptersOf = (results: Results): { heading: string; text: string }[] =>
  (reportView(results).page.parts.find(({ id }) => id === "treatment")?.chapters ?? []).map(({ heading, blocks }) => ({
    heading,
    text: blocks
      .map((block) => (block.kind === "prose" ? block.text : block.kind === "list" ? block.items.join("\n") : ""))
      .join("\n")
      .replaceAll("\u00a0", " "),
  }));
const said = (...findings: Finding[]): string => chaptersOf(treated(...findings))[1]!.text;

const ringing = mend({ code: "mode-rings", bandHz: 40, rangeHz: [40, 40], value: 1, limit: 0.5 });

describe("What would help", () => {
  it("stands before the pictures and behind the decisions, its cautions once at its end", () => {
    const { page } = reportView(treated(ringing));
    const ids = page.parts.map(({ id }) => id);
    expect(ids.indexOf("treatment")).toBe(ids.indexOf("pictures") - 1);
    const chapters = chaptersOf(treated(ringing, mend({ code: "flutter" })));
    expect(chapters.map(({ heading }) => heading)).toEqual([
      "",
      "Ringing at 40\u00a0Hz",
      "Flutter between walls that face each other",
      "Before anything is hung or moved",
    ]);
    const cautions = chapters.at(-1)!.text;
    for (const word of [/licensed trades/, /fire class/, /mains/, /Dust/]) expect(cautions).toMatch(word);
  });

  it("says what is not known: how much wall is free, and from which angle the sound comes", () => {
    expect(chaptersOf(treated(ringing))[0]!.text).toMatch(/how much of a wall is free.*which angle.*was not measured/);
  });

  it("gives the physics in words before its figures, and says where a model stands alone", () => {
    const text = said(ringing);
    expect(text).toMatch(/^There is no trust map/);
    // (60/40)² = 2.25 kg/m² times a metre.
    expect(text).toMatch(/f = 60 \/ √\(m d\).*limp sheet of 23, 11 or 7\.5 kg\/m² before 10, 20 or 30 cm/);
    expect(text).toMatch(/friction takes energy where the air moves.*2\.1 m at 40 Hz/);
    expect(text).toMatch(/80 %, no depth is enough/);
    expect(text).toMatch(/the model's word alone/);
    expect(text).toMatch(/Scattering: no answer at this frequency/);
  });

  it("words every kind of measure without a hole", () => {
    const all = chaptersOf(
      treated(
        ringing,
        mend({ code: "peak", bandHz: 200, rangeHz: [200, 200], value: 5, limit: 3 }),
        mend({ code: "dip", bandHz: 315, rangeHz: [250, 315], value: -7, limit: -3 }),
        mend({ code: "phantom-dip", bandHz: 125, rangeHz: [125, 125], value: -5 }),
        mend({ code: "early-reflection", value: -5, limit: -10, atS: 0.004, channels: ["L"] }),
        mend({ code: "too-live", value: 0.6, limit: 0.3 }),
        mend({ code: "double-slope", bandHz: 500 }),
        mend({ code: "left-right-level", value: 1.5, uncertainty: 0.2, channels: ["L"] }),
        mend({ code: "left-right-arrival", value: -2e-4, uncertainty: 4e-6, channels: ["R"] }),
        mend({ code: "left-right-bands", bandHz: 63, rangeHz: [50, 80], value: 4, channels: ["R"] }),
      ),
    );
    expect(all).toHaveLength(12);
    for (const { text } of all) expect(text).not.toMatch(/undefined|null|NaN|not known (Hz|dB)|\s{2}/);
    const text = all.map((one) => one.text).join("\n");
    expect(text).toMatch(/Turn the left side of Soffit mains down by 1\.5 ± 0\.2 dB/);
    expect(text).toMatch(/Delay the left side of Soffit mains by 200 ± 4 µs, or set it back 6\.9 cm/);
    expect(text).toMatch(/from 0\.60 s to 0\.30 s takes 21\.8 m²/);
    expect(text).toMatch(/7 dB more take 5 times the power/);
    expect(text).toMatch(/Close or cover the opening/);
  });

  it("says why no layer belongs on floor and desk, and which of two surfaces must be found first", () => {
    const covers = [{ depthM: 0.01, least: 0.08, most: 0.18 }];
    const cover = { kind: "cover", frequencyHz: 1000, neededAbsorption: 0.68, covers } as const;
    const [which, floor, desk, layer] = measureWords(resultsFixture(), [
      {
        kind: "find-surface",
        surfaces: [
          { surface: "floor", confidence: 0.5 },
          { surface: "ceiling", confidence: 0.49 },
        ],
      },
      { ...cover, surface: "floor", use: "floor" },
      { ...cover, surface: "desk", use: "top" },
      { kind: "turn", surface: "desk", boardToo: false, asideM: 0.5, angleDeg: 13 },
    ]);
    expect(which).toMatch(/by the floor or by the ceiling.*\(50 % and 49 %\)/);
    expect(floor).toMatch(/walked on.*nobody turns it.*rug takes little at 1 kHz: 1 cm about 8 to 18 %.*with 68 %/);
    expect(desk).toMatch(/No layer on “desk”: it is worked at.*off its edge.*blanket/);
    expect(layer).toMatch(/Turn “desk” by 13°/);
  });

  it("states the seat's level in a mode with what the place's doubt makes of it, and depths as about so", () => {
    const [seat] = measureWords(resultsFixture(), [
      {
        ...{ kind: "move-listener", byM: 0.3, nowDb: -10.2, thenDb: -16.1 },
        ...{ nowRangeDb: [-10.8, -9.7], thenRangeDb: [-17.3, -15] },
      },
    ]);
    expect(seat).toMatch(/about −10 dB \(−11 to −10 by where.*about −16 dB \(−17 to −15 .*30 cm further back/);
    expect(said(ringing)).toMatch(/half of the sound from all sides, about \d/);
  });

  it("has a loudspeaker that is raised turned towards the ears again, and none that is moved level", () => {
    const move = { kind: "move-loudspeaker", monitor: "mains", channel: "L", fromHz: 100, toHz: 126.3 } as const;
    const said = (surface: string, upM: number): string =>
      measureWords(resultsFixture(), [{ ...move, surface, awayM: 0.3, upM }])[0]!;
    expect(said("floor", 0.3)).toMatch(
      /to about 130 Hz.*turn it towards the ears again.*ear height counts.*15° over or under/,
    );
    expect(said("left", 0)).not.toMatch(/ears/);
  });

  it("says so where nothing was found to mend, and nothing at all of results of earlier versions", () => {
    expect(chaptersOf(treated()).map(({ text }) => text)).toEqual([
      "Nothing was found that a panel, another place or a setting would mend.",
    ]);
    expect(chaptersOf(resultsFixture())).toEqual([]);
  });

  it("has its depths in full in a table of its own, an empty cell where no depth is enough", () => {
    const { csv } = resultTables(treated(ringing)).find(({ name }) => name === "absorber-depths.csv")!;
    const rows = csv.trim().split(/\r?\n/);
    expect(rows).toHaveLength(7);
    expect(rows.at(-1)).toMatch(/^1,40,20000,0\.8,,,,false$/);
  });
});
