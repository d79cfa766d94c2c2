import { expect, it } from "vitest";
import { renderReport } from "../../src/report/page.js";
import { type Results, resultsSchema } from "../../src/schema/results.js";
import { shippedAssets } from "./report-assets.js";
import { resultsFixture } from "./results-fixture.js";

type Translation = NonNullable<Results["translation"]>;

const share = {
  roomShareDb: 1,
  roomShareRangeDb: [0.5, 2] as [number, number],
  systemShareDb: 6,
  systemShareRangeDb: [4, 14] as [number, number],
  reason: null,
};

/** Two regions, one of them out of control, heard on another monitor and on one kind of device. */
function translation(): Translation {
  const region = (
    name: string,
    rangeDb: [number, number],
    controlled: boolean,
  ): Translation["drift"][number]["regions"][0] => ({
    region: name,
    driftDb: controlled ? 3 : null,
    rangeDb,
    controlled,
    size: null,
    ...share,
  });
  const heardOn = (id: string): Translation["drift"][number] => ({
    mixedOn: "mains",
    heardOn: id,
    label: "choice",
    uncontrolledBelowHz: 28,
    bands: [],
    regions: [region("rumble", [-8, 8], false), region("bass", [2, 4], true), region("air", [-1, 1.2], true)],
    worst: null,
    says: id === "nears" ? "If you correct by ear, mixes balanced on mains come out 2 to 4 dB heavy on nears." : null,
  });
  return {
    programme: "popular",
    listeningLevelDb: 79,
    compensation: 0.6,
    compensationRange: [0.3, 0.8],
    programmeBands: [{ nominalHz: 25, levelDb: 44 }],
    uncontrolledRange: { label: "choice", source: "how recordings differ" },
    reference: { id: "tilt", source: "a line" },
    parameters: [{ name: "clearDb", value: 1.5, label: "literature", source: "a paper" }],
    limits: [
      {
        code: "deviation-peak",
        care: 2.5,
        blind: 6,
        unit: "dB",
        side: "above",
        rangeHz: [25, 16_000],
        label: "literature",
        source: "a paper",
      },
    ],
    deviations: [],
    trust: [
      {
        monitor: "mains",
        bands: [
          {
            nominalHz: 25,
            grade: "blind",
            reasons: [{ code: "extension", grade: "blind", value: -14, limit: -10, unit: "dB" }],
          },
          { nominalHz: 31.5, grade: "believe", reasons: [] },
          { nominalHz: 40, grade: null, reasons: [] },
        ],
        notJudged: [],
      },
    ],
    guide: [
      {
        region: "bass",
        fromHz: 90,
        toHz: 180,
        carries: "bass notes",
        believe: ["mains"],
        care: [],
        blind: ["nears"],
        unknown: [],
        verdict: "some",
        advice: "Set the bass on mains; nears is blind here.",
        because: [],
      },
    ],
    guideReason: null,
    drift: [heardOn("nears"), heardOn("class:phone")],
    driftReason: null,
    classes: [],
    levelShifts: [],
    masking: [],
  };
}

async function page(): Promise<string> {
  return renderReport(resultsSchema.parse({ ...resultsFixture(), translation: translation() }), shippedAssets());
}

it("The guide stands behind the findings and before everything else", async () => {
  const html = await page();
  const at = (text: string): number => html.indexOf(text);
  expect(at("Set the bass on mains; nears is blind here.")).toBeGreaterThan(
    at("What was not measured well enough to say"),
  );
  expect(at("Set the bass on mains; nears is blind here.")).toBeLessThan(at('id="recordings"'));
});

it("A band's grade is a mark with its reason, value and limit", async () => {
  const html = await page();
  expect(html).toContain('title="25 Hz: blind (extension −14.0 dB (limit −10.0))"');
  expect(html).toContain('title="31.5 Hz: believe"');
  expect(html).toContain('title="40 Hz: not measured"');
});

it("Drift is a range, a dot where it is not worth a thought, and says where nobody controlled it", async () => {
  const cells = [...(await page()).matchAll(/<td[^>]*>([^<]*)<\/td>/g)].map((match) => match[1]!);
  // Of a kind of device only what this room adds: 0.5 to 2 dB.
  for (const cell of ["uncontrolled", "+2.0 to +4.0", "+0.5 to +2.0", "·"]) expect(cells).toContain(cell);
  expect(cells).not.toContain("−8.0 to +8.0");
});

it("The picture of the drift says of every bar what it stands for, and never adds a device to the room", async () => {
  const said = [...(await page()).matchAll(/data-says="(Mixed on [^"]*)"/g)].map((match) => match[1]!);
  expect(said).toHaveLength(6);
  expect(said).toContain(
    "Mixed on Soffit mains, heard on Two-way nears, bass (90 Hz to 180 Hz): 2.0 to 4.0 dB louder than meant.",
  );
  expect(said).toContain(
    "Mixed on Soffit mains, heard on Two-way nears, air (9 kHz to 18 kHz): from 1.0 dB quieter to 1.2 dB louder than meant.",
  );
  expect(said).toContain(
    "Mixed on Soffit mains, heard on Two-way nears, rumble (20 Hz to 28 Hz): uncontrolled, as Soffit mains is blind there; recordings differ there by ±8 dB.",
  );
  expect(said).toContain(
    "Mixed on Soffit mains, heard on phone, bass (90 Hz to 180 Hz): this room adds +0.5 to +2.0 dB; such a device does +4.0 to +14.0 dB to every mix.",
  );
});

it("A bar is dark where its range has one sign and is worth a sentence, and its length follows the scale", async () => {
  const cells = (await page()).match(/<svg viewBox="-12 -20 24 40"[\s\S]*?<\/svg>/g)!;
  const looks = cells.map((cell) => [...cell.matchAll(/<g class="(\w+)"/g)].map((match) => match[1]));
  // Rumble, bass and air on nears, then on a phone: its own share beside the room's.
  expect(looks).toEqual([
    ["hatched"],
    ["dark"],
    ["grey"],
    ["outlined", "hatched"],
    // What the room adds, 1.2 dB, is not worth a sentence.
    ["outlined", "grey"],
    ["outlined", "grey"],
  ]);
  // 2 to 4 dB on a scale of 9 dB to 18 units: from -8 to -4.
  expect(cells[1]).toContain('<rect y="-8" width="8" height="4" />');
  // 4 to 14 dB go past the end.
  expect(cells[4]).toContain('d="M0 -18h8L4 -20z"');
});

it("Results without a translation make a page without one", async () => {
  const html = await renderReport(resultsFixture(), shippedAssets());
  expect(html).not.toContain("Where to decide what");
});
