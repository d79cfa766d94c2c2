import { beforeAll, describe, expect, it } from "vitest";

import type { Results, Translation } from "../../src/model.js";
import { mixTranslator } from "../../src/pipeline/translate-mix.js";
import { listenPlan } from "../../src/pipeline/listen-plan.js";
import { resultsSchema } from "../../src/schema/results.js";
import type { Listening } from "../../src/schema/listening.js";
import { BANDS } from "../../src/translation/bands.js";
import { text } from "./in-memory-session.js";
import { onePair } from "./one-pair.js";

const octaves = [125, 250, 500, 1000, 2000, 4000, 8000];
const flat = text(["Hz;low;typical;high", ...octaves.map((hz) => `${hz};4;7;9`)].join("\n"));
const low = text(
  ["Hz;low;typical;high", ...[31.5, 63, ...octaves].map((hz) => `${hz};-40;${hz < 200 ? -30 : 0};0`)].join("\n"),
);

let results: Results;
let translation: Translation;
beforeAll(async () => {
  const analysis = await onePair(
    {
      // So low that notes of popular music at 31.5 Hz are not heard.
      translation: { listeningLevelDb: 70 },
      playbackClasses: [
        { id: "kitchen", name: "kitchen radio", file: "flat.csv" },
        {
          ...{ id: "bench", name: "radio on the bench", file: "low.csv", loses: "the bass" },
          mono: true,
          levelDba: 62,
          noiseDba: 48,
        },
        { id: "shop", name: "shop ceiling", file: "low.csv", levelDba: 62 },
        { id: "arena", name: "arena", file: "low.csv", levelDba: 110, noiseDba: 60 },
      ],
    },
    { "flat.csv": flat, "low.csv": low },
  );
  results = resultsSchema.parse(analysis.results);
  translation = results.translation!;
});

const driftTo = (heardOn: string): Translation["drift"][number] =>
  translation.drift.find((one) => one.mixedOn === "mains" && one.heardOn === heardOn)!;

describe("A playback class of the session's own", () => {
  it("stands behind the built-in ones, with what is stated and what is not", () => {
    expect(translation.classes.map(({ id }) => id).slice(6)).toEqual(["kitchen", "bench", "shop", "arena"]);
    const kitchen = translation.classes.find(({ id }) => id === "kitchen")!;
    expect(kitchen).toMatchObject({
      ...{ name: "kitchen radio", loses: null, mono: false, label: "stated in the session", source: "flat.csv" },
      ...{ levelDba: null, noiseDba: null, reasons: ["level-not-stated", "noise-not-stated"] },
    });
    expect(translation.classes.find(({ id }) => id === "bench")).toMatchObject({
      levelDba: 62,
      noiseDba: 48,
      reasons: [],
    });
    expect(results.provenance.files.find(({ file }) => file === "flat.csv")).toMatchObject({
      ...{ use: "playback class", bytes: flat.length },
      sha256: expect.stringMatching(/^[0-9a-f]{64}$/) as string,
    });
  });

  it("is neutral if its table is level, at whatever height, and its other members keep their distance", () => {
    for (const { nominalHz, lowDb, typicalDb, highDb } of translation.classes.find(({ id }) => id === "kitchen")!
      .bands) {
      const stated = nominalHz >= 125 && nominalHz <= 8000;
      // Roundings of a mean of fourteen.
      if (stated)
        for (const [value, want] of [
          [lowDb, -3],
          [typicalDb, 0],
          [highDb, 2],
        ])
          expect(value).toBeCloseTo(want!, 12);
      else expect([lowDb, typicalDb, highDb]).toEqual([null, null, null]);
    }
  });

  it("drifts as neutral monitors do then, and where it states nothing says so", () => {
    const neutral = driftTo("neutral").bands;
    for (const [k, band] of driftTo("class:kitchen").bands.entries()) {
      if (!band.controlled) continue;
      if (band.nominalHz < 125 || band.nominalHz > 8000) {
        expect(band).toMatchObject({ driftDb: null, systemShareDb: null, reason: "heard-on-not-stated" });
        expect(band.roomShareDb).toBe(neutral[k]!.roomShareDb);
      } else expect(band.driftDb).toBeCloseTo(neutral[k]!.driftDb!, 12);
    }
  });

  it("has no line about its level unless that is stated", () => {
    const heardOn = translation.levelShifts.map((one) => one.heardOn);
    expect(heardOn).toContain("class:bench");
    expect(heardOn).not.toContain("class:kitchen");
    expect(translation.levelShifts.find((one) => one.heardOn === "class:bench")!.source).toContain(
      "stated in the session",
    );
    expect(translation.masking.map((one) => one.heardOn)).toEqual(["class:car"]);
  });

  it("is rendered as they are", () => {
    const { versions } = listenPlan(results, new Map(), 48_000, { room: false, on: null });
    expect(versions.find(({ id }) => id === "class:bench")).toMatchObject({
      ...{ file: "class-bench.wav", name: "radio on the bench", loses: "the bass", mono: true, filter: "tone" },
    });
  });
});

/** Long-term powers of a mix, alike on both sides. */
function heard(power: (hz: number) => number): Parameters<typeof mixTranslator>[1] {
  const bands = BANDS.map(({ nominalHz }) => ({
    ...{ nominalHz, left: power(nominalHz), right: power(nominalHz), cross: power(nominalHz) },
  }));
  return { loudnessLufs: -20, truePeakDbtp: -3, bands, loudestFromS: 0 };
}

const translated = (power: (hz: number) => number): Listening["translation"] =>
  mixTranslator(results, heard(power), 48_000, null).result();

describe("A mix on a class of the session's own", () => {
  const on = (id: string, power: (hz: number) => number = () => 1e-4): Listening["translation"]["classes"][number] =>
    translated(power).classes.find((one) => one.id === id)!;

  it("loses what the table says, where level and noise are stated", () => {
    const [poor, ordinary] = on("bench").members;
    expect(ordinary!.loudnessShare).toBeGreaterThan(0);
    expect(ordinary!.reason).toBeNull();
    expect(ordinary!.lowestOctaveHz).toBeGreaterThanOrEqual(125);
    expect(poor!.member).toBe("low");
    expect(on("bench").bassLine!.typical.reason).not.toBe("level-not-stated");
  });

  it("has no figure that hangs on what is not stated, and each says why", () => {
    const kitchen = on("kitchen");
    for (const member of kitchen.members)
      expect(member).toMatchObject({ loudnessShare: null, lowestOctaveHz: null, reason: "level-not-stated" });
    // Its table begins at 125 Hz: whether it gives 40 Hz is not known.
    expect(kitchen.bassLine!.typical).toEqual({
      ...{ verdict: null, pitchShare: null, colourShare: null, reason: "curve-not-stated" },
    });
    const shop = on("shop");
    expect(shop.members[1]).toMatchObject({ lowestOctaveHz: null, reason: "noise-not-stated" });
    expect(shop.members[1]!.loudnessShare).toBeGreaterThan(0);
    expect(shop.bassLine!.typical.reason).toBe("noise-not-stated");
  });

  it("has no loudness beyond what the model is made for", () => {
    // 110 dB(A) of 40 Hz alone would be 145 dB.
    const [, ordinary] = on("arena", (hz) => (hz === 40 ? 1 : 0)).members;
    expect(ordinary).toMatchObject({ loudnessShare: null, reason: "beyond-the-model" });
  });
});

describe("The drift of a mix that is listened to", () => {
  it("is, by region, that of the bands that the mix holds", () => {
    const { bands, regions } = driftTo("neutral");
    const band = bands.find(({ nominalHz }) => nominalHz === 1000)!;
    expect(band.controlled).toBe(true);
    const own = translated((hz) => (hz === 1000 ? 1 : 0)).drift.find(({ heardOn }) => heardOn === "neutral")!;
    const middle = own.regions.find(({ region }) => region === "middle")!;
    // The other two bands weigh 1e-14 of it.
    expect(middle.driftDb).toBeCloseTo(band.driftDb!, 9);
    const popular = regions.find(({ region }) => region === "middle")!;
    expect(Math.abs(middle.driftDb! - popular.driftDb!)).toBeGreaterThan(0.01);
  });

  it("is uncontrolled where the mix's own power lies in bands that are", () => {
    const { bands, regions } = driftTo("neutral");
    const blind = bands.filter(({ controlled }) => !controlled).map(({ nominalHz }) => nominalHz);
    expect(blind).toContain(31.5);
    const own = translated((hz) => (hz === 31.5 ? 1 : 0)).drift.find(({ heardOn }) => heardOn === "neutral")!;
    expect(own.regions.find(({ region }) => region === "sub")).toMatchObject({ driftDb: null, controlled: false });
    // Popular music has more of its power at 40 and 50 Hz.
    expect(regions.find(({ region }) => region === "sub")).toMatchObject({ controlled: true });
  });
});
