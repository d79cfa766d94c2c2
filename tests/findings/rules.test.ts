import { describe, expect, it } from "vitest";

import { findFindings } from "../../src/findings/find-findings.js";
import { ranked } from "../../src/findings/rank.js";
import type { Finding, MonitorResult, Results } from "../../src/model.js";
import { sidesInverted } from "../../src/pipeline/findings.js";
import { codes, quietResults } from "./quiet-results.js";

/** Moves a monitor's low end. */
function endAt(monitor: MonitorResult, hz: number): void {
  monitor.extension = { ...monitor.extension!, minus3Hz: hz * 1.1, minus6Hz: hz, minus10Hz: hz * 0.9 };
  for (const one of monitor.target!.bands) one.deviationDb = one.nominalHz < hz ? -20 : 0;
}

/** A quiet session in which one thing is changed. */
function findingsWith(change: (results: Results, mains: MonitorResult, nears: MonitorResult) => void): Finding[] {
  const results = quietResults();
  const [mains, nears] = results.monitors;
  change(results, mains!, nears!);
  return findFindings(results);
}

function mended(change: Parameters<typeof findingsWith>[0]): Finding[] {
  return findingsWith(change).filter(({ topic }) => topic === "mend");
}

function unknown(change: Parameters<typeof findingsWith>[0]): string[] {
  return codes(findingsWith(change), "unknown");
}

describe("A session in which all is well", () => {
  it("has nothing to mend and nothing unknown, and names what to believe", () => {
    const findings = findFindings(quietResults());
    expect(codes(findings, "mend")).toEqual([]);
    expect(codes(findings, "unknown")).toEqual([]);
    expect(codes(findings, "trust")).toEqual(["low-end-trust", "believable-range", "believable-range"]);
  });

  it("is judged without a mix position, a room or a second side, as far as that goes", () => {
    const results = quietResults();
    results.session.positions = results.session.positions.map((position) => ({ ...position, kind: "near" }));
    delete results.session.room;
    for (const monitor of results.monitors) {
      Object.assign(monitor, { response: null, extension: null, leftRight: null, leftRightReason: "no-mix-position" });
      Object.assign(monitor, { target: null, targetReason: "no-mix-position" });
    }
    const findings = findFindings(results);
    expect(codes(findings, "mend")).toEqual([]);
    expect(codes(findings, "trust")).toEqual([]);
    expect(codes(findings, "unknown")).toEqual(["no-volume"]);
  });

  it("without a mix position still has decays, reflections and noise judged", () => {
    const found = mended((results) => {
      results.session.positions = results.session.positions.map((position) => ({ ...position, kind: "near" }));
      for (const one of results.measurements) one.reverberation.tmS = 0.6;
    });
    expect(found.map(({ code }) => code)).toEqual(["too-live"]);
  });
});

describe("The low end", () => {
  it("is trusted to the monitor that reaches a third octave deeper, or to all that reach equally deep", () => {
    const deeper = findingsWith(() => undefined).find(({ code }) => code === "low-end-trust")!;
    expect(deeper).toMatchObject({ monitors: ["mains"], value: 30, unit: "Hz", severity: "info" });
    const same = findingsWith((_, mains, nears) => {
      nears.extension!.minus6Hz = mains.extension!.minus6Hz! * 2 ** 0.3;
    });
    const both = same.find(({ code }) => code === "low-end-trust")!;
    expect(both.monitors).toEqual(["mains", "nears"]);
    expect(both.message).toMatch(/^Low end: believe mains or nears, down to about 30 Hz/);
  });

  it("that ends above 50 Hz is said, with the frequency", () => {
    expect(mended((_, __, nears) => (nears.extension!.minus6Hz = 49.9))).toEqual([]);
    const [early, ...rest] = mended((_, __, nears) => {
      endAt(nears, 60);
    });
    expect(early).toMatchObject({ code: "ends-early", monitors: ["nears"], value: 60, limit: 50 });
    expect(rest).toEqual([]);
  });

  it("is not taken to end at a null above which and below which the loudspeaker carries", () => {
    const found = mended((_, mains) => {
      // The walk down ends at the null, three bands wide.
      mains.extension = { ...mains.extension!, minus3Hz: 102, minus6Hz: 98, minus10Hz: 95 };
      for (const one of mains.target!.bands.filter(({ nominalHz }) => [63, 80].includes(nominalHz)))
        one.deviationDb = -12;
    });
    expect(found.map(({ code, rangeHz }) => [code, rangeHz])).toEqual([["dip", [63, 80]]]);
  });

  it("with troubles names them, and with grave ones is believed on no monitor", () => {
    const words = (timeS: number): string =>
      findingsWith((results) => {
        for (const one of results.measurements.filter(({ monitor }) => monitor === "mains")) {
          for (const band of one.bands.filter(({ nominalHz }) => nominalHz === 63)) band.t30S = timeS;
        }
      }).find(({ code }) => code === "low-end-trust")!.message;
    expect(words(0.9)).toMatch(/believe mains with care, down to .* \(−6 dB; nears: \d+ Hz\): 63 Hz rings/);
    expect(words(2)).toMatch(/no monitor is to be believed yet/);
  });

  it("below the measured range is deeper than any that ends in it", () => {
    const findings = findingsWith((_, mains) => {
      mains.extension = { ...mains.extension!, minus6Hz: null, flags: ["minus6-below-range"] };
    });
    expect(findings.find(({ code }) => code === "low-end-trust")).toMatchObject({ monitors: ["mains"], value: null });
  });

  it("is no phone's business", () => {
    const findings = mended((_, __, nears) => {
      nears.extension!.minus6Hz = 300;
      nears.role = "phone";
    });
    expect(codes(findings, "mend")).not.toContain("ends-early");
  });
});

describe("Left against right", () => {
  const band = (monitor: MonitorResult, hz: number, differenceDb: number): void => {
    monitor.leftRight!.bands.find(({ nominalHz }) => nominalHz === hz)!.differenceDb = differenceDb;
  };

  it.each([
    // Limits of 2 and 3 dB; over them by more than the uncertainty, 0.3 dB.
    [1000, 1.9, false],
    [1000, 2.35, true],
    [250, -2.35, true],
    [100, 2.9, false],
    [100, -3.35, true],
    // Below the end of the loudspeaker and above 10 kHz nothing is asked.
    [25, 9, false],
    [12_500, 9, false],
  ])("at %d Hz a difference of %f dB is told: %s", (hz, differenceDb, isTold) => {
    const found = mended((_, mains) => {
      band(mains, hz, differenceDb);
    });
    expect(found.map(({ code }) => code)).toEqual(isTold ? ["left-right-bands"] : []);
    if (isTold) expect(found[0]).toMatchObject({ value: differenceDb, channels: [differenceDb > 0 ? "R" : "L"] });
  });

  it("joins neighbouring bands, and keeps a left that is weak apart from a right that is weak", () => {
    const found = mended((_, mains) => {
      for (const hz of [63, 80, 100]) band(mains, hz, 4);
      band(mains, 80, 5);
      for (const hz of [500, 630]) band(mains, hz, -3);
    });
    expect(found.map(({ rangeHz, bandHz, channels }) => [rangeHz, bandHz, channels])).toEqual([
      [[63, 100], 80, ["R"]],
      [[500, 630], 500, ["L"]],
    ]);
  });

  it.each([0.6, null])("says that nobody can tell where the uncertainty is %s dB", (uncertaintyDb) => {
    const found = findingsWith((_, mains) => {
      const one = mains.leftRight!.bands.find(({ nominalHz }) => nominalHz === 1000)!;
      Object.assign(one, { differenceDb: 3, uncertaintyDb });
    });
    expect(codes(found, "mend")).toEqual([]);
    expect(codes(found, "unknown")).toEqual(["cannot-tell"]);
  });

  it("is told as measured: one strong band neither shifts the others nor makes a side louder as a whole", () => {
    const found = mended((_, mains) => {
      band(mains, 1000, 8);
      // What the energy mean over 200 Hz to 4 kHz makes of it.
      mains.leftRight!.levelDb = 2;
    });
    expect(found.map(({ code, value, rangeHz }) => [code, value, rangeHz])).toEqual([
      ["left-right-bands", 8, [1000, 1000]],
    ]);
  });

  it("does not take gain for a fault of the loudspeakers", () => {
    const level = (includesGain: boolean): string[] =>
      mended((results, mains) => {
        Object.assign(mains.leftRight!, { levelDb: 5, includesGain });
        for (const one of mains.leftRight!.bands) one.differenceDb = 5;
        const left = results.measurements.filter(({ monitor, channel }) => monitor === "mains" && channel === "L");
        for (const one of left.flatMap(({ bands }) => bands)) one.levelDb = 5;
        // The target lies on the mean of the two.
        mains.target!.offsetDb = 3.2;
      }).map(({ code }) => code);
    expect(level(true)).toEqual([]);
    expect(level(false)).toEqual(["left-right-level"]);
  });

  it("tells level and arrival", () => {
    const found = mended((_, mains) => {
      Object.assign(mains.leftRight!, { levelDb: -1.1, arrivalS: -120e-6 });
      for (const one of mains.leftRight!.bands) one.differenceDb = -1.1;
    });
    expect(found.map(({ code }) => code)).toEqual(["left-right-level", "left-right-arrival"]);
    expect(found[1]!.message).toMatch(/^The right side of mains arrives 120 ± 4 µs later/);
  });

  it("judges the treble by the mean over places, not by one", () => {
    const treble = (places: number): string[] =>
      mended((results, mains) => {
        for (const hz of [4000, 5000]) band(mains, hz, 4);
        const own = results.measurements.filter((one) => one.monitor === "mains" && one.channel === "L");
        for (const one of own.slice(0, places)) {
          for (const each of one.bands.filter(({ nominalHz }) => [4000, 5000].includes(nominalHz))) each.levelDb = 4;
        }
      }).map(({ code }) => code);
    expect(treble(1)).toEqual([]);
    expect(treble(5)).toEqual(["left-right-bands"]);
  });
});

describe("Early reflections", () => {
  const reflection = (
    delayS: number,
    levelDb: number,
    close = false,
  ): Results["measurements"][number]["reflections"] => [
    {
      delayS,
      levelDb,
      close,
      pathDifferenceM: 343 * delayS,
      levelUncertaintyDb: 0.2,
      polarity: 1,
      firstNotchHz: 0.5 / delayS,
    },
  ];
  const at = (results: Results, channel: string, position = "mix"): Results["measurements"][number] =>
    results.measurements.find((one) => one.id === `nears-${channel}@${position}`)!;

  it.each([
    [0.003, -9.5, true],
    // Over the limit by less than the uncertainty, 0.4 dB.
    [0.003, -9.7, false],
    [0.003, -10.5, false],
    [0.0151, -3, false],
  ])("%f s later at %f dB is told: %s", (delayS, levelDb, isTold) => {
    const found = mended((results) => (at(results, "L").reflections = reflection(delayS, levelDb)));
    expect(found.map(({ code }) => code)).toEqual(isTold ? ["early-reflection"] : []);
  });

  it("that both sides have is one finding", () => {
    const found = mended((results) => {
      at(results, "L").reflections = reflection(0.003, -6);
      at(results, "R").reflections = reflection(0.0031, -5);
    });
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ channels: ["L", "R"], value: -5, atS: 0.0031 });
  });

  it("so close that it may be the loudspeaker itself is told only when it moves with the place", () => {
    const close = (moved: boolean): Finding[] =>
      findingsWith((results) => {
        results.session.positions.forEach(({ id }, index) => {
          at(results, "L", id).reflections = reflection(0.0008 + (moved ? 4e-5 * index : 0), -5, true);
        });
      });
    expect(codes(close(true), "mend")).toEqual(["early-reflection"]);
    expect(codes(close(false), "mend")).toEqual([]);
    expect(codes(close(false), "unknown")).toEqual(["close-reflection"]);
  });

  it("that one side alone has is told once", () => {
    const found = mended((_, mains) => {
      mains.leftRight!.oneSided = [
        { channel: "L", delayS: 0.004, levelDb: -11, levelUncertaintyDb: 0.3, otherLevelDb: -25 },
        { channel: "R", delayS: 0.004, levelDb: -13, levelUncertaintyDb: 0.3, otherLevelDb: -25 },
      ];
    });
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ code: "one-sided-reflection", channels: ["L"] });
  });
});

describe("Tone", () => {
  const deviate = (monitor: MonitorResult, deviations: Record<number, number>): void => {
    for (const one of monitor.target!.bands) one.deviationDb = deviations[one.nominalHz] ?? 0;
  };

  it.each([
    [{ 125: 2.9 }, []],
    [{ 125: 3.25 }, ["peak"]],
    // A dip is heard half as well: narrow ones count from twice the limit.
    [{ 125: -5.9 }, []],
    [{ 125: -6.25 }, ["dip"]],
    [{ 125: -3.5, 160: -3.5 }, []],
    [{ 125: -3.5, 160: -3.5, 200: -3.5 }, ["dip"]],
    [{ 31.5: 9 }, []],
  ])("that leaves its target by %o is told: %o", (deviations, expected) => {
    const found = mended((_, mains) => {
      deviate(mains, deviations);
    });
    expect(found.map(({ code }) => code)).toEqual(expected);
  });

  it("above 2 kHz is judged by the mean over places only", () => {
    const one = mended((_, mains) => {
      deviate(mains, { 8000: 5 });
    });
    expect(one).toEqual([]);
    const places = (kind: "near" | "room"): Finding[] =>
      mended((results) => {
        for (const place of results.session.positions) if (place.kind !== "mix") place.kind = kind;
        for (const one of results.measurements.filter(({ monitor }) => monitor === "mains")) {
          for (const each of one.bands.filter(({ nominalHz }) => nominalHz === 8000)) each.levelDb = 5;
        }
      });
    // Places across the room say nothing of the tone at the mix position.
    expect(places("room")).toEqual([]);
    const all = places("near");
    expect(all.map(({ code, bandHz }) => [code, bandHz])).toEqual([["peak", 8000]]);
  });

  it("is believed in the longest stretch without a fault", () => {
    const found = findingsWith((_, mains) => {
      deviate(mains, { 125: 4 });
    });
    expect(found.find(({ code, monitors }) => code === "believable-range" && monitors[0] === "mains")).toMatchObject({
      rangeHz: [160, 16_000],
    });
  });

  it("ranks a wide bump before a narrow one of the same height", () => {
    const found = ranked(
      mended((_, mains) => {
        deviate(mains, { 63: 4, 200: 4, 250: 4, 315: 4, 400: 4 });
      }),
    );
    expect(found.map(({ bandHz }) => bandHz)).toEqual([200, 63]);
  });
});

describe("Decay", () => {
  const slow = (results: Results, hz: number, timeS: number, flags: string[] = []): void => {
    for (const one of results.measurements.filter((each) => each.monitor === "mains" && each.position === "mix")) {
      for (const band of one.bands.filter(({ nominalHz }) => nominalHz === hz))
        Object.assign(band, { t30S: timeS, flags });
    }
  };

  // 100 m3: Tm = 0.25 s. At 63 Hz the mask grants 0.55 s, a single mode is unheard up to 0.51 s; at 50 Hz 0.6 s, without a mask.
  it.each([
    [63, 0.56, [], false],
    [63, 0.58, [], true],
    [63, 0.9, ["filter-limited"], false],
    [50, 0.61, [], false],
    [50, 0.63, [], true],
    [1000, 0.33, [], true],
    [1000, 0.31, [], false],
  ])("at %d Hz of %f s %o is told: %s", (hz, timeS, flags, isTold) => {
    const found = mended((results) => {
      slow(results, hz, timeS, flags);
    });
    expect(found.map(({ code, monitors }) => [code, monitors])).toEqual(isTold ? [["rings", ["mains"]]] : []);
  });

  it("of a whole room is called live, and a dry room is not called dull", () => {
    const room = (tmS: number): Finding[] =>
      findingsWith((results) => {
        for (const one of results.measurements) one.reverberation.tmS = tmS;
      });
    // Over 0.3 s by more than the uncertainty, 4 %.
    expect(codes(room(0.31), "mend")).toEqual([]);
    expect(codes(room(0.32), "mend")).toEqual(["too-live"]);
    const liveWithSlowBands = mended((results) => {
      for (const one of results.measurements) one.reverberation.tmS = 0.32;
      for (const hz of [200, 250, 315, 400]) slow(results, hz, 0.6);
    });
    expect(liveWithSlowBands.map(({ code, rangeHz }) => [code, rangeHz])).toEqual([
      ["rings", [200, 250]],
      ["too-live", null],
    ]);
    expect(codes(room(0.3), "mend")).toEqual([]);
    expect(codes(room(0.15), "mend")).toEqual([]);
    expect(room(0.15).find(({ code }) => code === "dry")!.message).toMatch(/not dull/);
  });
});

describe("Other rules", () => {
  it("tell a level that changes within a head's reach, but not across the room", () => {
    const spread = (kind: "near" | "room"): string[] =>
      mended((results) => {
        const [, ...others] = results.session.positions;
        others.forEach((place, index) => {
          place.kind = kind;
          const here = results.measurements.filter((one) => one.monitor === "mains" && one.position === place.id);
          // 0, 4, -4, 4, -4 dB: a standard deviation of 4 dB.
          for (const band of here.flatMap(({ bands }) => bands))
            if (band.nominalHz === 80) band.levelDb = index % 2 ? -4 : 4;
        });
      }).map(({ code }) => code);
    expect(spread("near")).toEqual(["moves-with-head"]);
    expect(spread("room")).toEqual([]);
  });

  it("tell a phantom centre that is softer than either side, not one that follows its weaker side", () => {
    const phantom = (againstLeftDb: number, againstRightDb: number): string[] =>
      mended((_, mains) => {
        Object.assign(
          mains.leftRight!.phantom!.find(({ nominalHz }) => nominalHz === 80)!,
          {
            againstLeftDb,
            againstRightDb,
          },
        );
      }).map(({ code }) => code);
    expect(phantom(-3.5, -4.5)).toEqual(["phantom-dip"]);
    expect(phantom(-6, 2)).toEqual([]);
  });

  it("tell distortion over 3 % in the bass and 1 % above, where it holds for more than one place on the axis", () => {
    const thd = (thdPercent: number[]): string[] =>
      mended((results) => {
        results.measurements.find((one) => one.id === "mains-L@mix")!.distortion!.thdPercent = thdPercent;
      }).map(({ code }) => code);
    expect(thd([2.9, 2.9, 2.9, 0.9, 0.9])).toEqual([]);
    expect(thd([3.5, 3.5, 3.5, 0.2, 0.2])).toEqual(["distortion"]);
    expect(thd([0.5, 0.5, 3.5, 1.5, 1.5])).toEqual(["distortion"]);
    expect(thd([9, 0.5, 0.5, 0.5, 0.5])).toEqual([]);
  });

  it("rate the quietest silence against NR 15", () => {
    const noise = (levels: number[]): string[] =>
      mended((results) => {
        results.measurements.forEach((one, index) => (one.background!.bands[0]!.levelDb = levels[index] ?? 40));
      }).map(({ code }) => code);
    expect(noise([14.9])).toEqual([]);
    expect(noise([30, 16])).toEqual(["background-noise"]);
  });

  it("say what was not measured well enough", () => {
    const one = unknown((results) => {
      results.measurements = results.measurements.filter(({ position }) => position === "mix");
      results.monitors = results.monitors.slice(0, 1);
      delete results.session.room;
      for (const each of results.measurements) each.levelReference = "transfer";
      results.monitors[0]!.leftRight!.includesGain = true;
    });
    expect(one).toEqual(["few-places", "one-monitor", "gain-unknown", "not-calibrated", "no-volume"]);
    const side = unknown((_, mains) => Object.assign(mains, { leftRight: null, leftRightReason: "one-channel" }));
    expect(side).toEqual(["one-channel"]);
  });

  it("give each finding its monitor, value, unit, limit and source", () => {
    const found = mended((results, mains, nears) => {
      endAt(nears, 60);
      mains.leftRight!.levelDb = 2;
      for (const one of mains.leftRight!.bands) one.differenceDb = 2;
      mains.target!.bands.find(({ nominalHz }) => nominalHz === 125)!.deviationDb = 5;
      for (const one of results.measurements) one.reverberation.tmS = 0.5;
    });
    expect(found).toHaveLength(4);
    for (const { value, unit, limit, source, monitors, remedy, audibility } of found) {
      expect([value, unit, limit, source, remedy, audibility].every((part) => part !== null)).toBe(true);
      expect(monitors.length).toBeGreaterThan(0);
    }
  });
});

describe("What is to be believed of the tone", () => {
  it("says that left agrees with right only where that was measured and nothing speaks against it", () => {
    const words = (change: Parameters<typeof findingsWith>[0]): string =>
      findingsWith(change).find(({ code, monitors }) => code === "believable-range" && monitors[0] === "mains")!
        .message;
    expect(words(() => undefined)).toMatch(/left agrees with right/);
    expect(words((_, mains) => Object.assign(mains, { leftRight: null }))).not.toMatch(/left agrees/);
    const louder = words((_, mains) => {
      mains.leftRight!.levelDb = 3;
      for (const one of mains.leftRight!.bands) one.differenceDb = 3;
    });
    expect(louder).not.toMatch(/left agrees/);
  });

  it("is not asked of what nobody mixes on", () => {
    const found = findingsWith((_, __, nears) => {
      nears.role = "check";
      endAt(nears, 200);
      for (const one of nears.target!.bands) one.deviationDb = -9;
    });
    expect(codes(found, "mend")).toEqual([]);
  });
});

describe("The order", () => {
  it("puts trust first, then faults by how clearly they are heard, then what is not known", () => {
    const order = ranked(
      findingsWith((results, mains, nears) => {
        delete results.session.room;
        endAt(nears, 60);
        results.findings.push(sidesInverted("mains", ["mains.wav"]));
        mains.leftRight!.levelDb = 1.2;
        for (const one of mains.leftRight!.bands) one.differenceDb = 1.2;
      }),
    ).map(({ code }) => code);
    expect(order).toEqual([
      "low-end-trust",
      // A pair out of step has no tone to be believed.
      "believable-range",
      "ends-early",
      "left-right-level",
      "no-volume",
    ]);
  });
});
