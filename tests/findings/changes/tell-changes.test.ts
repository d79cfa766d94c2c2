import { describe, expect, it } from "vitest";

import { tellChanges } from "../../../src/findings/changes/tell-changes.js";
import type { ChangedQuantity, ChangePair, Compared, Said } from "../../../src/schema/changes.js";

type Parts = Partial<ChangedQuantity> & Pick<ChangedQuantity, "quantity">;

function entry(parts: Parts): ChangedQuantity {
  const { before = 0, after = 0 } = parts;
  return {
    ...{ bandHz: null, fraction: null, atS: null, unit: "dB", before, after, missing: null },
    ...{ difference: before === null || after === null ? null : after - before, uncertainty: 0.5 },
    ...{ justNoticeable: 1, needed: 1, change: "none", verdict: "no-real-change", because: "" },
    ...parts,
  };
}

const real = (verdict: "better" | "worse" | "cannot-tell") => ({ change: "real", verdict }) as const;

function pair(id: string, quantities: ChangedQuantity[], more: Partial<ChangePair> = {}): ChangePair {
  const kind = id.includes("@") ? "measurement" : "monitor";
  const monitor = id.split("-")[0]!;
  return {
    ...{ id, kind, before: id, after: id, monitor, channel: null, position: null, derived: false, apartM: null },
    ...(kind === "measurement" ? { channel: "L", position: "mix" } : {}),
    quantities,
    ...more,
  };
}

function told(pairs: ChangePair[], more: Partial<Compared> = {}): Said[] {
  const side = { title: null, date: null, room: null, notes: null, monitor: null, version: "0" };
  return tellChanges({
    ...{ compares: "sessions", before: side, after: side, mixPosition: "mix", placementM: 0 },
    chance: { judged: 1, atMost: 0.05, expected: 0.05, sharpCoverage: 0, bluntCoverage: 4 },
    ...{ justNoticeable: [], unpaired: [], pairs },
    ...more,
  });
}

const messages = (said: readonly Said[]): string[] => said.map(({ message }) => message);

describe("What is said of decays", () => {
  const third = (bandHz: number, before: number, after: number, quantity = "t30S"): ChangedQuantity =>
    entry({
      quantity,
      bandHz,
      fraction: 3,
      unit: "s",
      before,
      after,
      justNoticeable: 0.02,
      needed: 0.04,
      ...real("better"),
    });

  it("joins bands that have become shorter, with the one that has most", () => {
    const bands = [third(100, 0.4, 0.35), third(125, 0.36, 0.3), third(160, 0.33, 0.28), third(500, 0.3, 0.24)];
    const [one] = told([pair("mains", []), pair("mains-L@mix", bands)]);
    expect(one).toMatchObject({ topic: "better", monitor: "mains", quantity: "t30S" });
    expect(one!.message).toBe(
      "mains: the decay is shorter at 100 Hz to 160 Hz and 500 Hz, most at 125 Hz, by 60 ms (0.36 to 0.30 s)",
    );
  });

  it("adds that the mean over the places says so as well", () => {
    const room = entry({
      quantity: "roomDecayS",
      bandHz: 125,
      fraction: 1,
      unit: "s",
      before: 0.4,
      after: 0.3,
      ...real("better"),
    });
    const said = told([pair("mains", [room]), pair("mains-L@mix", [third(125, 0.36, 0.3)])]);
    expect(messages(said)).toEqual([
      "mains: the decay is shorter at 125 Hz, by 60 ms (0.36 to 0.30 s); over all places as well",
    ]);
  });

  const roomDecay = (bandHz: number, before: number, after: number): ChangedQuantity => ({
    ...third(bandHz, before, after, "roomDecayS"),
    fraction: 1,
  });

  it("says of the places only what they show in the same bands, and tells what they show elsewhere by itself", () => {
    const bands = [third(125, 0.36, 0.3), third(1000, 0.3, 0.22)];
    const room = [roomDecay(125, 0.4, 0.3), roomDecay(4000, 0.4, 0.35)];
    expect(messages(told([pair("mains", room), pair("mains-L@mix", bands)]))).toEqual([
      "mains: the decay is shorter at 125 Hz and 1 kHz, most at 1 kHz, by 80 ms (0.30 to 0.22 s); over all places as well, at 125 Hz",
      "mains: over all places the decay is shorter in octaves at 4 kHz, by 50 ms (0.40 to 0.35 s)",
    ]);
  });

  it("never takes places where it became longer as witnesses that it became shorter", () => {
    const pairs = [pair("mains", [roomDecay(125, 0.3, 0.4)]), pair("mains-L@mix", [third(125, 0.36, 0.3)])];
    expect(messages(told(pairs))).toEqual([
      "mains: over all places the decay is longer in octaves at 125 Hz, by 0.10 s (0.30 to 0.40 s)",
      "mains: the decay is shorter at 125 Hz, by 60 ms (0.36 to 0.30 s)",
    ]);
  });

  it("takes T20 where there is no T30, and the late decay behind a cliff, where the others are not judged", () => {
    const bands = [
      { ...third(125, 0.5, 0.3), needed: null },
      { ...third(125, 0.5, 0.3, "t20S"), needed: null },
      third(125, 0.4, 0.3, "lateS"),
    ];
    expect(messages(told([pair("mains", []), pair("mains-L@mix", bands)]))[0]).toContain("(0.40 to 0.30 s)");
  });

  it("tells an octave only where its third octaves are not told", () => {
    const octave = (bandHz: number) => ({ ...third(bandHz, 0.4, 0.3), fraction: 1 as const });
    const said = messages(
      told([pair("mains", []), pair("mains-L@mix", [third(125, 0.36, 0.3), octave(125), octave(1000)])]),
    );
    expect(said).toHaveLength(2);
    expect(said.find((one) => one.includes("octaves"))).toContain("in octaves the decay is shorter at 1 kHz");
  });

  it("that cannot be told states what they can have changed by at most", () => {
    const open = entry({
      ...{ quantity: "t30S", bandHz: 1000, fraction: 1, unit: "s", before: 0.3, after: 0.31, uncertainty: 0.02 },
      ...{ change: "cannot-tell", verdict: "cannot-tell" },
    });
    const [one] = told([pair("mains", []), pair("mains-L@mix", [open])]);
    expect(one!.topic).toBe("unknown");
    // (0.01 + 0.02) / 0.305.
    expect(one!.message).toContain("in the octave at 1 kHz none larger than 10 %");
    expect(one!.remedy).toContain("two takes");
  });

  it("never says of an octave that nobody can tell where a third octave of it or its second slope is told", () => {
    const open = (bandHz: number) =>
      entry({
        ...{ quantity: "t30S", bandHz, fraction: 1, unit: "s", before: 0.9, after: 0.3, uncertainty: 1 },
        ...{ change: "cannot-tell", verdict: "cannot-tell" },
      });
    const slope = entry({
      ...{ quantity: "secondSlopeS", bandHz: 500, fraction: 1, unit: "s", before: 1, after: 0.3 },
      ...{ missing: "after", ...real("better") },
    });
    const bands = [third(1000, 0.9, 0.3), open(250), open(500), open(1000)];
    const open1 = messages(told([pair("mains", [slope]), pair("mains-L@mix", bands)])).at(-1);
    expect(open1).toBe(
      "mains: a difference of decay cannot be told everywhere: in the octave at 250 Hz nobody can say",
    );
  });
});

describe("What is said of the trust map", () => {
  const grade = (bandHz: number, before: number, after: number, verdict: ChangedQuantity["verdict"]): ChangedQuantity =>
    entry({
      quantity: "trust",
      bandHz,
      fraction: 3,
      unit: "grade",
      before,
      after,
      verdict,
      change: verdict === "no-real-change" ? "none" : "real",
      needed: null,
    });

  it("counts the bands gained and lost for real, and names them", () => {
    const bands = [
      grade(63, 0, 1, "better"),
      ...[1000, 1250, 1600].map((hz) => grade(hz, 1, 2, "better")),
      grade(200, 2, 1, "worse"),
      grade(250, 2, 2, "no-real-change"),
    ];
    expect(messages(told([pair("mains", bands)]))).toEqual([
      "mains: the trust map gains four bands: 63 Hz (blind to care); 1 kHz to 1.6 kHz (care to believe)",
      "mains: the trust map loses one band: 200 Hz (believe to care)",
      "mains: the trust map is the same in 1 of 6 bands",
    ]);
  });
});

describe("What is said of the rest", () => {
  it("names a reflection once for both sides, by its delay", () => {
    const one = entry({ quantity: "reflectionDb", atS: 0.00105, before: -5, after: -13, ...real("better") });
    const said = told([
      pair("nears", []),
      pair("nears-L@mix", [one]),
      pair("nears-R@mix", [{ ...one, atS: 0.0011 }], { channel: "R" }),
    ]);
    expect(messages(said)).toEqual([
      "nears (left and right): the reflection 1.1 ms after the direct sound is weaker, by 8.0 dB (−5.0 to −13.0 dB)",
    ]);
  });

  it("of a reflection that is not found any more says how strong it can be at most, and by how much weaker at least", () => {
    const gone = { before: -5, after: -29.6, missing: "after", ...real("better") } as const;
    const one = entry({ quantity: "reflectionDb", atS: 0.001, ...gone });
    const come = entry({
      ...one,
      atS: 0.003,
      before: -31,
      after: -6,
      missing: "before",
      difference: 25,
      ...real("worse"),
    });
    expect(messages(told([pair("nears", []), pair("nears-L@mix", [one, come])]))).toEqual([
      "nears (left): the reflection 1.0 ms after the direct sound is weaker, by at least 24.6 dB (−5.0 to at most −29.6 dB)",
      "nears (left): the reflection 3.0 ms after the direct sound is stronger, by at least 25.0 dB (at most −31.0 to −6.0 dB)",
    ]);
  });

  it("tells which modes ring shorter, and which did not move", () => {
    const mode = { bandHz: 63.2, unit: "s" as const };
    const said = told([
      pair("mains", []),
      pair("mains-L@mix", [
        entry({ quantity: "modeT60S", ...mode, before: 0.9, after: 0.5, ...real("better") }),
        entry({ quantity: "modeHz", bandHz: 63.2, unit: "Hz", before: 63.2, after: 63.3 }),
      ]),
    ]);
    expect(messages(said)).toEqual([
      "mains: the mode at 63.2 Hz rings shorter, by 0.40 s (0.90 to 0.50 s)",
      "mains: the modes at 63.2 Hz did not move".replace("modes", "mode"),
    ]);
  });

  it("of a mode that only one side found says that it is open whether it has gone", () => {
    const gone = entry({
      ...{ quantity: "modeT60S", bandHz: 56.8, unit: "s", before: 1.57, after: null },
      ...{ needed: null, change: "cannot-tell", verdict: "cannot-tell" },
    });
    const pairs = [pair("mains", []), pair("mains-L@mix", [gone])];
    const [one, ...others] = told(pairs);
    expect(others).toEqual([]);
    expect(one).toMatchObject({ topic: "unknown", remedy: null });
    expect(one!.message).toMatch(/^mains: the mode at 56\.8 Hz \(1\.57 s\) is not found any more: gone, too weak or/);
    const two = [pair("mains", [], { id: "mains / nears", after: "nears" }), pairs[1]!];
    expect(told(two, { compares: "monitors" })).toEqual([]);
  });

  it("of a mode that may be mistaken for another beside it says so, where it was heard and seems to ring otherwise", () => {
    const mode = (bandHz: number, before: number, after: number) =>
      entry({
        ...{ quantity: "modeT60S", bandHz, unit: "s", before, after, uncertainty: 0.1, justNoticeable: 0.05 },
        ...{ needed: null, change: "cannot-tell", verdict: "cannot-tell" },
      });
    const said = (...modes: ChangedQuantity[]) => told([pair("mains", []), pair("mains-L@mix", modes)]);
    // 0.55 s stay unheard at 57 Hz.
    const [one, ...others] = said(mode(56.8, 1.57, 0.33));
    expect(others).toEqual([]);
    expect(one).toMatchObject({ topic: "unknown", remedy: null });
    expect(one!.message).toMatch(
      /^mains: the mode at 56\.8 Hz \(1\.57 to 0\.33 s\) cannot be told apart from another that lies so near/,
    );
    expect(messages(said(mode(56.8, 1.57, 0.33), mode(58.2, 0.4, 1.2)))[0]).toContain(
      "the modes at 56.8 Hz (1.57 to 0.33 s) and 58.2 Hz (0.40 to 1.20 s) cannot be told apart",
    );
    expect(said(mode(56.8, 1.57, 1.5)), "within its uncertainty").toEqual([]);
    expect(said(mode(56.8, 0.5, 0.2)), "never heard").toEqual([]);
  });

  it("of two monitors of one session says neither that a mode stayed, which is one, nor that a flutter went", () => {
    const modes = [entry({ quantity: "modeHz", bandHz: 56.8, unit: "Hz", before: 56.8, after: 56.8 })];
    const train = { quantity: "flutterDb", atS: 0.02, before: 14, after: 6, missing: "after" } as const;
    const of = (flutter: ChangedQuantity) =>
      messages(
        told([pair("mains", [flutter], { id: "mains / nears", after: "nears" }), pair("mains-L@mix", modes)], {
          compares: "monitors",
        }),
      );
    expect(of(entry({ ...train, ...real("better") }))).toEqual([
      "nears against mains: the flutter, echoes every 20.0 ms, is found with the other alone: its echoes stand out less, by at least 8.0 dB (+14.0 to at most +6.0 dB)",
    ]);
    expect(of(entry({ ...train, change: "cannot-tell", because: "why" }))[0]).toBe(
      "nears against mains: the flutter, echoes every 20.0 ms, was found with one alone; whether they differ cannot be told: why",
    );
  });

  it("says of several monitors at once what is the same of all, as of the modes, which are the room's", () => {
    const mode = entry({
      ...{ quantity: "modeT60S", bandHz: 63.2, unit: "s", before: 0.9, after: 0.5 },
      ...real("better"),
    });
    const pairs = ["mains", "nears"].flatMap((id) => [pair(id, []), pair(`${id}-L@mix`, [mode])]);
    const said = told(pairs);
    expect(messages(said)).toEqual(["mains and nears: the mode at 63.2 Hz rings shorter, by 0.40 s (0.90 to 0.50 s)"]);
    expect(said[0]!.monitor).toBeNull();
  });

  it("says what to do against what is worse, once for each kind of thing, and of two monitors nothing", () => {
    const tone = (bandHz: number, size: number) =>
      entry({ quantity: "targetDb", bandHz, fraction: 3, before: 0, after: size, ...real("worse") });
    const end = entry({ quantity: "minus6Hz", unit: "Hz", before: 40, after: 60, justNoticeable: 5, ...real("worse") });
    const said = told([pair("mains", [tone(100, 4), tone(1000, -9), end])]);
    expect(said.map(({ quantity, remedy }) => [quantity, remedy?.slice(0, 26) ?? null])).toEqual([
      ["targetDb", "see first whether the chan"],
      ["targetDb", null],
      ["minus6Hz", "see first whether the chan"],
    ]);
    const two = told([pair("mains", [end], { id: "mains / nears", after: "nears" })], { compares: "monitors" });
    expect(two.map(({ remedy }) => remedy)).toEqual([null]);
  });

  it("never says to damp a decay that has become too short", () => {
    const decay = (before: number, after: number) =>
      entry({
        quantity: "t30S",
        bandHz: 500,
        fraction: 3,
        unit: "s",
        before,
        after,
        justNoticeable: 0.02,
        ...real("worse"),
      });
    const remedyFor = (before: number, after: number): string =>
      told([pair("mains", []), pair("mains-L@mix", [decay(before, after)])])[0]!.remedy!;
    expect(remedyFor(0.3, 0.5)).toContain("damp");
    expect(remedyFor(0.3, 0.1)).toMatch(/^take part of what absorbs there out again/);
    expect(remedyFor(0.3, 0.1)).not.toContain("damp");
  });

  it("says to close what opens to another room, not to damp, where a second slope has appeared with the longer decay", () => {
    const slope = entry({
      ...{ quantity: "secondSlopeS", bandHz: 500, fraction: 1, unit: "s", before: 0.3, after: 1, justNoticeable: 0.03 },
      ...{ missing: "before", ...real("worse") },
    });
    const decay = entry({
      ...{ quantity: "t30S", bandHz: 500, fraction: 3, unit: "s", before: 0.3, after: 0.8, justNoticeable: 0.03 },
      ...real("worse"),
    });
    const said = told([pair("mains", [slope]), pair("mains-L@mix", [decay])]);
    expect(said.map(({ quantity, remedy }) => [quantity, remedy?.slice(0, 16) ?? null])).toEqual([
      ["secondSlopeS", "close what opens"],
      ["t30S", null],
    ]);
  });

  it("names left and right where they have changed in different directions, so that neither speaks for both", () => {
    const one = (
      quantity: string,
      before: number,
      after: number,
      unit: "s" | "dB",
      fraction: 1 | 3 | null,
      bandHz = 63,
    ) => entry({ quantity, bandHz, fraction, unit, before, after, justNoticeable: 0.02, ...real("cannot-tell") });
    const side = (channel: "L" | "R", before: number, after: number) =>
      pair(
        `mains-${channel}@mix`,
        [
          one("t30S", before, after, "s", 3, 125),
          one("modeT60S", before, after, "s", null),
          one("c50Db", after, before, "dB", 1, 1000),
          one("t30S", 0.5, 0.5 - before / 10, "s", 3, 2000),
        ],
        { channel },
      );
    const said = messages(told([pair("mains", []), side("L", 0.8, 0.4), side("R", 0.5, 0.7)]));
    expect(said.sort()).toEqual([
      "mains (left): the decay is shorter at 125 Hz, by 0.40 s (0.80 to 0.40 s); no better or worse by what is published",
      "mains (left): the mode at 63.0 Hz rings shorter, by 0.40 s (0.80 to 0.40 s)",
      "mains (left): the sound is clearer (C50) in octaves at 1 kHz, by 0.4 dB (+0.4 to +0.8 dB)",
      "mains (right): the decay is longer at 125 Hz, by 0.20 s (0.50 to 0.70 s); no better or worse by what is published",
      "mains (right): the mode at 63.0 Hz rings longer, by 0.20 s (0.50 to 0.70 s)",
      "mains (right): the sound is less clear (C50) in octaves at 1 kHz, by 0.2 dB (+0.7 to +0.5 dB)",
      "mains: the decay is shorter at 2 kHz, by 80 ms (0.50 to 0.42 s); no better or worse by what is published",
    ]);
  });

  it("stands in the order of what is heard most, better before worse, and with two monitors names both", () => {
    const end = entry({ quantity: "minus6Hz", unit: "Hz", before: 40, after: 60, justNoticeable: 5, ...real("worse") });
    const tone = (bandHz: number, before: number, after: number) =>
      entry({ quantity: "targetDb", bandHz, fraction: 3, before, after, justNoticeable: 1.5, ...real("better") });
    const said = told(
      [pair("mains", [end, tone(100, 5, 2), tone(1000, 9, 2)], { id: "mains / nears", after: "nears" })],
      { compares: "monitors" },
    );
    expect(said.map(({ topic }) => topic)).toEqual(["better", "worse"]);
    expect(messages(said)).toEqual([
      "nears against mains: the tone is nearer to its target at 100 Hz and 1 kHz, most at 1 kHz, by 7.0 dB (+9.0 to +2.0 dB)",
      "nears against mains: it reaches down to 60 Hz instead of 40 Hz (−6 dB)",
    ]);
  });

  it("says that nothing can be told of the noise, and why, where that holds for all of it", () => {
    const because = "no calibrator was recorded on both sides, so that the gain may differ";
    const noise = [125, 250].map((bandHz) =>
      entry({
        quantity: "noiseDb",
        bandHz,
        fraction: 1,
        needed: null,
        change: "cannot-tell",
        verdict: "cannot-tell",
        because,
      }),
    );
    expect(messages(told([pair("mains", noise)]))).toEqual([
      `mains: nothing can be told of the room's noise: ${because}`,
    ]);
    const other = { ...noise[0]!, because: "it is not known after" };
    expect(messages(told([pair("mains", [other, ...noise])]))).toEqual([
      `mains: nothing can be told of the room's noise: ${because}; elsewhere it is not known after`,
    ]);
  });
});
