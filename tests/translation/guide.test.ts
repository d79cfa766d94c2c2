import { describe, expect, it } from "vitest";
import { isInRegion, REGIONS } from "../../src/standards/regions.js";
import { BANDS } from "../../src/translation/bands.js";
import { decisionGuide, type GuidedMonitor, type GuideRow } from "../../src/translation/guide.js";
import type { Grade } from "../../src/translation/trust/reason.js";
import type { ReasonCode } from "../../src/translation/limits.js";
import { popular } from "./known-curves.js";

function monitor(id: string, gradeAt: (hz: number) => Grade | null, code: ReasonCode = "extension"): GuidedMonitor {
  return {
    id,
    bands: BANDS.map(({ nominalHz }) => {
      const grade = gradeAt(nominalHz);
      const reasons =
        grade === "believe" ? [] : [{ code, grade: grade === null ? null : grade, value: 1, limit: 1, unit: "dB" }];
      return { nominalHz, grade, reasons };
    }),
  };
}

const row = (monitors: GuidedMonitor[], region: string): GuideRow =>
  decisionGuide(monitors, popular.levelDb).find((one) => one.region === region)!;

const mains = monitor("mains", () => "believe");
const nears = monitor("nears", (hz) => (hz < 60 ? "blind" : "believe"));

describe("The decision guide", () => {
  it("names for each region whom to believe, and who is blind", () => {
    expect(row([mains, nears], "sub")).toMatchObject({
      ...{ believe: ["mains"], care: [], blind: ["nears"], unknown: [], verdict: "some" },
      advice: "Set the sub on mains; nears is blind here (it does not reach so far).",
      because: [{ monitor: "nears", codes: ["extension"] }],
    });
    expect(row([mains, nears], "kick weight")).toMatchObject({ believe: ["mains", "nears"], verdict: "all" });
  });

  it("says what to do instead where nobody is to be believed", () => {
    const dull = monitor("other", () => "blind", "audibility");
    expect(row([dull, nears], "sub")).toMatchObject({ believe: [], verdict: "none" });
    expect(row([dull, nears], "sub").advice).toMatch(/^Do not decide the sub here: raise the level/);
    const careful = monitor("mids", () => "care", "left-right");
    expect(row([careful, nears], "sub").advice).toMatch(
      /^Set the sub on mids with care: check in mono .*; nears is blind here \(it does not reach so far\)\.$/,
    );
  });

  it("speaks of the one monitor of a session, and says that there is no other", () => {
    expect(row([nears], "sub").advice).toMatch(/There is no other monitor to check it on\.$/);
    expect(decisionGuide([], popular.levelDb)).toEqual([]);
  });

  it("knows nothing of a region that was not measured", () => {
    const short = monitor("short", (hz) => (hz < 60 ? null : "believe"), "not-measured");
    expect(row([short], "sub")).toMatchObject({ unknown: ["short"], verdict: "not-measured" });
  });

  it("passes over a blind band that holds next to nothing of the programme", () => {
    // 31.5 Hz holds a thirtieth of the sub of popular music, 50 Hz three quarters.
    expect(row([monitor("mains", (hz) => (hz < 35 ? "blind" : "believe"))], "sub").believe).toEqual(["mains"]);
    expect(row([monitor("mains", (hz) => (hz === 50 ? "blind" : "believe"))], "sub").blind).toEqual(["mains"]);
    expect(row([monitor("mains", (hz) => (hz === 40 ? "blind" : "believe"))], "sub").care).toEqual(["mains"]);
  });

  it("calls a monitor blind from half of the region's programme on, though most of its bands are not", () => {
    const blindAt50 = monitor("mains", (hz) => (hz === 50 ? "blind" : "believe"));
    // Of the sub's three bands 50 Hz alone holds the share, the other two half of the rest each.
    const sub = (share: number): GuideRow => {
      const power = (hz: number): number => (hz === 50 ? share : (1 - share) / 2);
      const programmeDb = BANDS.map(({ nominalHz }) => 10 * Math.log10(power(nominalHz)));
      return decisionGuide([blindAt50], programmeDb).find(({ region }) => region === "sub")!;
    };
    expect(sub(0.52)).toMatchObject({ blind: ["mains"], care: [] });
    expect(sub(0.48)).toMatchObject({ blind: [], care: ["mains"] });
  });

  it("calls a monitor blind where most bands of a region are, whatever the programme holds in the one that is left", () => {
    expect(row([monitor("nears", (hz) => (hz < 45 ? "blind" : "believe"))], "sub").blind).toEqual(["nears"]);
  });
});

describe("The regions", () => {
  it("hold each third octave from 25 Hz to 16 kHz once", () => {
    for (const { nominalHz } of BANDS) {
      expect(REGIONS.filter((region) => isInRegion(nominalHz, region))).toHaveLength(1);
    }
  });

  it("have edges on those of third octaves", () => {
    // Nominal edges are round: within 3 %, while third octaves are 26 % apart.
    const edges = BANDS.map(({ exactHz }) => exactHz * 10 ** -0.05);
    for (const { fromHz } of REGIONS.slice(1)) {
      expect(Math.min(...edges.map((edge) => Math.abs(fromHz / edge - 1)))).toBeLessThan(0.03);
    }
    REGIONS.slice(1).forEach(({ fromHz }, k) => {
      expect(fromHz).toBe(REGIONS[k]!.toHz);
    });
  });
});
