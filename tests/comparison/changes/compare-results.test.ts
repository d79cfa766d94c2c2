import { describe, expect, it } from "vitest";
import { compareResults } from "../../../src/comparison/changes/compare-results.js";
import { InputError } from "../../../src/errors.js";
import type { BandMetrics, Results } from "../../../src/model.js";
import { compareSessions } from "../../../src/pipeline/compare-sessions.js";
import type { ChangedQuantity, Changes } from "../../../src/schema/changes.js";
import { resultsFixture } from "../../report/results-fixture.js";

/** As if the microphone had not been touched, so that uncertainties are those of the measurements alone. */
const UNTOUCHED = { placementM: 0, monitors: null } as const;

const fixture = resultsFixture();

/** The same session on another day, with something different. */
function later(edit: (results: Results) => void): Results {
  const results = structuredClone(fixture);
  edit(results);
  return results;
}

/** A band of every measurement of a monitor, as it has become. */
function editBands(results: Results, monitor: string, edit: (band: BandMetrics) => void): void {
  for (const one of results.measurements) if (one.monitor === monitor) one.bands.forEach(edit);
}

function compared(after: Results, options: Parameters<typeof compareResults>[2] = UNTOUCHED): ChangesParts {
  return compareResults(fixture, after, options);
}

type ChangesParts = Omit<Changes, "schema" | "version" | "says">;

function entries(changes: ChangesParts, id: string, quantity: string): ChangedQuantity[] {
  return changes.pairs.find((pair) => pair.id === id)!.quantities.filter((one) => one.quantity === quantity);
}

function at(changes: ChangesParts, id: string, quantity: string, bandHz: number, fraction: 1 | 3 = 3): ChangedQuantity {
  return entries(changes, id, quantity).find((one) => one.bandHz === bandHz && one.fraction === fraction)!;
}

describe("A session held against itself", () => {
  it("has changed nowhere, and pairs everything", () => {
    const changes = compared(later(() => undefined));
    expect(changes.unpaired).toEqual([]);
    expect(changes.pairs.filter(({ kind }) => kind === "measurement").map(({ id }) => id)).toEqual(
      fixture.measurements.map(({ id }) => id),
    );
    const all = changes.pairs.flatMap(({ quantities }) => quantities);
    expect(all.filter(({ change }) => change === "real")).toEqual([]);
    expect(all.filter(({ difference }) => difference !== null && difference !== 0)).toEqual([]);
    expect(changes.chance.judged).toBeGreaterThan(300);
  });
});

describe("A decay that has become shorter", () => {
  it("is better where it was longer than what stays unheard, by the difference of the two", () => {
    const long = later((results) => {
      editBands(results, "mains", (band) => {
        if (band.nominalHz === 125) Object.assign(band, { t20S: 0.6, t30S: 0.6, decayUncertaintyS: 0.012, flags: [] });
      });
    });
    const short = structuredClone(long);
    editBands(short, "mains", (band) => {
      if (band.nominalHz === 125) Object.assign(band, { t20S: 0.36, t30S: 0.36, decayUncertaintyS: 0.0072 });
    });
    const changes = compareResults(long, short, UNTOUCHED);
    const decay = at(changes, "mains-L@mix", "t30S", 125);
    expect(decay).toMatchObject({ before: 0.6, after: 0.36, change: "real", verdict: "better" });
    expect(decay.difference).toBeCloseTo(-0.24, 12);
    // Two standard deviations of the two together; five per cent of their mean.
    expect(decay.uncertainty).toBeCloseTo(2 * Math.hypot(0.012, 0.0072), 12);
    expect(decay.justNoticeable).toBeCloseTo(0.05 * 0.48, 12);
    expect(decay.because).toContain("nearer to what stays unheard");
    const other = compareResults(short, long, UNTOUCHED);
    expect(at(other, "mains-L@mix", "t30S", 125)).toMatchObject({ change: "real", verdict: "worse" });
  });

  it("is neither better nor worse where both keep to what is recommended", () => {
    // 81.4 m³: 0.233 s, give or take 0.05 s, from 200 Hz to 4 kHz.
    const edit = (timeS: number) => (results: Results) => {
      editBands(results, "mains", (band) => {
        if (band.nominalHz === 1000)
          Object.assign(band, { t20S: timeS, t30S: timeS, decayUncertaintyS: 0.001, flags: [] });
      });
    };
    const changes = compareResults(later(edit(0.27)), later(edit(0.21)), UNTOUCHED);
    expect(at(changes, "mains-L@mix", "t30S", 1000)).toMatchObject({ change: "real", verdict: "cannot-tell" });
    expect(at(changes, "mains-L@mix", "t30S", 1000).because).toContain("both keep to the recommended time");
  });

  it("cannot be told while the band filter rings as long as the room", () => {
    // A third octave at 125 Hz is 29 Hz wide: 4 / 29 Hz = 0.138 s.
    const edit = (timeS: number) => (results: Results) => {
      editBands(results, "mains", (band) => {
        if (band.nominalHz === 125)
          Object.assign(band, { t20S: timeS, t30S: timeS, decayUncertaintyS: 0.001, flags: [] });
      });
    };
    const changes = compareResults(later(edit(0.3)), later(edit(0.12)), UNTOUCHED);
    expect(at(changes, "mains-L@mix", "t30S", 125)).toMatchObject({ needed: null, verdict: "cannot-tell" });
    expect(at(changes, "mains-L@mix", "t30S", 125).because).toContain("filter");
  });
});

describe("A tone that has moved", () => {
  it("is better where it comes nearer to the target, on the channel and on the pair, and another gain is no change", () => {
    const after = later((results) => {
      editBands(results, "mains", (band) => {
        if (band.fraction !== 3 || band.levelDb === null) return;
        // The gain of another day, and 4 dB at 100 Hz.
        band.levelDb += band.nominalHz === 100 ? 2.5 : 6.5;
      });
      const bands = results.monitors.find(({ id }) => id === "mains")!.target!.bands;
      for (const band of bands) if (band.nominalHz === 100 && band.deviationDb !== null) band.deviationDb -= 4;
    });
    const changes = compared(after);
    const was = fixture.monitors[0]!.target!.bands.find(({ nominalHz }) => nominalHz === 100)!.deviationDb!;
    const verdict = Math.abs(was - 4) < Math.abs(was) ? "better" : "worse";
    expect(at(changes, "mains-L@mix", "levelDb", 100).difference).toBeCloseTo(-4, 9);
    expect(at(changes, "mains", "targetDb", 100)).toMatchObject({ change: "real", verdict });
    for (const hz of [50, 250, 1000, 8000]) {
      expect(at(changes, "mains-L@mix", "levelDb", hz)).toMatchObject({ change: "none", verdict: "no-real-change" });
    }
  });

  it("says nothing past the end of what a monitor plays", () => {
    const after = later((results) => {
      for (const band of results.monitors[1]!.target!.bands) if (band.nominalHz === 31.5) band.deviationDb = -22;
    });
    const before = later((results) => {
      for (const band of results.monitors[1]!.target!.bands) if (band.nominalHz === 31.5) band.deviationDb = -14;
    });
    expect(at(compareResults(before, after, UNTOUCHED), "nears", "targetDb", 31.5)).toMatchObject({
      needed: null,
      verdict: "cannot-tell",
    });
  });
});

describe("A reflection", () => {
  const reflection = {
    delayS: 0.001,
    pathDifferenceM: 0.34,
    levelUncertaintyDb: 0.3,
    polarity: 1,
    firstNotchHz: 500,
    close: false,
  } as const;
  const curve = (levelDb: number) => ({
    startS: -0.005,
    stepS: 0.00005,
    levelDb: Array.from({ length: 1300 }, () => levelDb),
  });
  const edit = (levelDb: number | null, floorDb: number) => (results: Results) => {
    for (const one of results.measurements) {
      if (one.derived) continue;
      one.reflections = levelDb === null ? [] : [{ ...reflection, levelDb }];
      one.energyTime = curve(floorDb);
    }
  };

  it("that has gone is as weak as what is left at its delay, and that is better while it broke the limit", () => {
    const changes = compareResults(later(edit(-5, -40)), later(edit(null, -28)), UNTOUCHED);
    const [one] = entries(changes, "nears-L@mix", "reflectionDb");
    expect(one).toMatchObject({ before: -5, after: -28, missing: "after", atS: 0.001, verdict: "better" });
    expect(one!.because).toContain("dB or more, where");
  });

  it("that comes a tenth of a millisecond later is the same one", () => {
    const after = later((results) => {
      edit(-5.5, -40)(results);
      for (const { reflections } of results.measurements) for (const one of reflections) one.delayS += 0.0001;
    });
    const found = entries(compareResults(later(edit(-5, -40)), after, UNTOUCHED), "nears-L@mix", "reflectionDb");
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ before: -5, after: -5.5, change: "none" });
  });

  it("moves with the microphone: what is told untouched cannot be told when it was put back", () => {
    const [before, after] = [later(edit(-9, -40)), later(edit(-12.5, -40))];
    const verdictAt = (placementM: number) =>
      entries(compareResults(before, after, { placementM, monitors: null }), "nears-L@mix", "reflectionDb")[0]!.change;
    expect(verdictAt(0)).toBe("real");
    expect(verdictAt(0.02)).toBe("cannot-tell");
  });
});

describe("The sides", () => {
  it("agree better where they are nearer to equal, and are not judged over two gains", () => {
    const edit = (differenceDb: number, includesGain: boolean) => (results: Results) => {
      const pair = results.monitors[0]!.leftRight!;
      pair.includesGain = includesGain;
      for (const band of pair.bands) if (band.nominalHz === 63) band.differenceDb = differenceDb;
    };
    const changes = compareResults(later(edit(6, false)), later(edit(-1, false)), UNTOUCHED);
    expect(at(changes, "mains", "leftRightDb", 63)).toMatchObject({ difference: -7, verdict: "better" });
    const doubtful = compareResults(later(edit(6, true)), later(edit(-1, false)), UNTOUCHED);
    expect(at(doubtful, "mains", "leftRightDb", 63)).toMatchObject({ needed: null, verdict: "cannot-tell" });
  });
});

describe("Sessions that do not match", () => {
  it("say which monitors, places and channels have no counterpart, and compare the rest", () => {
    const after = later((results) => {
      const [, nears] = results.monitors;
      nears!.id = "smalls";
      for (const one of results.measurements) {
        if (one.monitor !== "nears") continue;
        one.monitor = "smalls";
        one.id = one.id.replace("nears", "smalls");
      }
      results.measurements = results.measurements.filter(({ id }) => id !== "mains-R@mix");
    });
    const { unpaired, pairs } = compared(after);
    expect(pairs.map(({ id }) => id)).toEqual(["mains", "mains-L@mix", "mains-both@mix"]);
    expect(unpaired).toContainEqual(expect.objectContaining({ what: "measurement", id: "mains-R@mix", in: "before" }));
    const monitors = unpaired.filter(({ what }) => what === "monitor");
    expect(monitors.map(({ id, in: side }) => [id, side])).toEqual([
      ["nears", "before"],
      ["smalls", "after"],
    ]);
    expect(monitors[0]!.because).toContain('no monitor "nears", but "mains", "smalls"');
  });

  it("can be paired by hand where a monitor has another name", () => {
    const after = later((results) => {
      results.monitors[0]!.id = "soffits";
      for (const one of results.measurements) if (one.monitor === "mains") one.monitor = "soffits";
    });
    const { pairs } = compared(after, { placementM: 0, monitors: { before: "mains", after: "soffits" } });
    expect(pairs[0]).toMatchObject({ id: "mains / soffits", before: "mains", after: "soffits", kind: "monitor" });
  });

  it("name another sweep, another microphone and bands that only one has", () => {
    const after = later((results) => {
      results.provenance.files.find(({ file }) => file === "sweep.json")!.sha256 = "0".repeat(64);
      results.session.microphone = { name: "omni 8" };
      editBands(results, "mains", (band) => {
        if (band.nominalHz === 16_000) band.levelDb = null;
      });
    });
    const { unpaired } = compared(after);
    expect(unpaired.map(({ what }) => what).sort()).toEqual(["bands", "microphone", "sweep"]);
    expect(unpaired.find(({ what }) => what === "bands")!.because).toContain("16 kHz");
  });

  it("do not pair a place that is stated to stand elsewhere", () => {
    const move = (x: number) => (results: Results) => {
      results.session.positions[0]!.xyzM = [x, 2, 1.2];
    };
    const near = compareResults(later(move(3)), later(move(3.1)), { placementM: 0, monitors: null });
    expect(near.unpaired).toEqual([]);
    // Stated 10 cm apart is that much apart, however well the microphone was put there.
    expect(near.pairs.find(({ id }) => id === "mains-L@mix")!.apartM).toBeCloseTo(0.1, 9);
    const far = compareResults(later(move(3)), later(move(3.5)), { placementM: 0, monitors: null });
    expect(far.unpaired.filter(({ what }) => what === "measurement")).toHaveLength(6);
    expect(far.unpaired[0]!.because).toContain("0.50 m");
  });

  it("are refused when nothing is left, or when a monitor that is asked for does not exist", () => {
    const none = later((results) => {
      for (const one of results.measurements) one.position = "sofa";
    });
    const options = { version: "0", placementM: 0, monitors: null };
    expect(() => compareSessions(fixture, none, options)).toThrow(InputError);
    const wrong = { ...options, monitors: { before: "mians", after: "nears" } };
    expect(() => compareSessions(fixture, fixture, wrong)).toThrow(/no monitor "mians"/);
  });
});

describe("Two monitors of one session", () => {
  it("are compared as they stand, level included where the gain is fixed", () => {
    const changes = compareResults(fixture, fixture, { placementM: 0, monitors: { before: "mains", after: "nears" } });
    expect(changes.compares).toBe("monitors");
    expect(changes.pairs.map(({ id }) => id)).toEqual([
      "mains / nears",
      "mains-L@mix / nears-L@mix",
      "mains-R@mix / nears-R@mix",
      "mains-both@mix / nears-both@mix",
    ]);
    const [level] = entries(changes, "mains-L@mix / nears-L@mix", "overallDb");
    expect(level!.needed).not.toBeNull();
    expect(entries(changes, "mains / nears", "noiseDb")).toEqual([]);
  });

  it("of two sessions without a calibrator say nothing of the level", () => {
    const [level] = entries(compared(later(() => undefined)), "mains-L@mix", "overallDb");
    expect(level).toMatchObject({ needed: null, verdict: "cannot-tell" });
    expect(level!.because).toContain("gain");
  });
});

it("results of a version that stated no uncertainty of a clarity cannot tell, and say so", () => {
  const [one] = entries(compared(later(() => undefined)), "mains-L@mix", "c80Db");
  expect(one).toMatchObject({ uncertainty: null, verdict: "cannot-tell", because: "its uncertainty is not known" });
});

describe("A mode", () => {
  const withMode =
    (frequencyHz: number, t60S: number, more: object = {}) =>
    (results: Results): void => {
      for (const one of results.measurements) {
        one.modes = one.id === "mains-L@mix" ? [{ frequencyHz, t60S, levelDb: 0, ...more }] : [];
      }
    };
  const compare = (before: (results: Results) => void, after: (results: Results) => void, quantity: string) =>
    entries(compareResults(later(before), later(after), UNTOUCHED), "mains-L@mix", quantity);

  it("that rings shorter is better while it rang longer than what stays unheard", () => {
    const [one] = compare(withMode(56, 1.5), withMode(56.1, 0.4), "modeT60S");
    expect(one).toMatchObject({ before: 1.5, after: 0.4, verdict: "better" });
  });

  it("is compared as exactly as it was measured, and never more exactly than modes are", () => {
    const known = compare(withMode(56, 1), withMode(56, 1), "modeT60S")[0]!.uncertainty;
    // Twice 5 % of either.
    expect(known).toBeCloseTo(2 * Math.hypot(0.05, 0.05), 12);
    const poor = { t60UncertaintyS: 0.3, frequencyUncertaintyHz: 0.4 };
    const [rings] = compare(withMode(56, 1, poor), withMode(56, 1, poor), "modeT60S");
    expect(rings!.uncertainty).toBeCloseTo(2 * Math.hypot(0.3, 0.3), 12);
    const [hertz] = compare(withMode(56, 1, poor), withMode(56, 1, poor), "modeHz");
    expect(hertz!.uncertainty).toBeCloseTo(2 * Math.hypot(0.4, 0.4), 12);
  });

  it("that only one side found cannot be told, with its figure and the reason", () => {
    const [gone, come] = compare(withMode(56, 1.5), withMode(80, 0.5), "modeT60S");
    expect(gone).toMatchObject({ bandHz: 56, before: 1.5, after: null, verdict: "cannot-tell" });
    expect(gone!.because).toBe("no single mode is found there after");
    expect(come).toMatchObject({ bandHz: 80, before: null, after: 0.5, change: "cannot-tell" });
    expect(compare(withMode(56, 1.5), withMode(80, 0.5), "modeHz")).toEqual([]);
  });

  describe("among others in the room", () => {
    const found = (
      kind: "mode" | "group",
      frequencyHz: number,
      rangeHz: [number, number],
      membersHz: number[] = [],
    ) => ({
      ...{ kind, frequencyHz, rangeHz, frequencyUncertaintyHz: null, t60S: null, t60UncertaintyS: null, levelDb: null },
      members: membersHz.map((hz) => ({ frequencyHz: hz, t60S: 0.3, levelDb: 0 })),
      ...{ places: [], unheardS: null, bumps: [], audible: null, predicted: [] },
    });
    const single = found("mode", 56.8, [56.1, 57.5]);
    const room = (t60S: number, others: ReturnType<typeof found>[]) => (results: Results) => {
      withMode(56.8, t60S)(results);
      results.roomModes = {
        ...{ measurements: [], rangeHz: [20, 200], reason: null, measured: [single, ...others], predicted: null },
        ...{ predictedReason: null, tolerance: 0.03, schroederHz: 95, ringMaps: [] },
      };
    };
    const rings = (others: ReturnType<typeof found>[]): ChangedQuantity =>
      compare(room(1.57, others), room(0.33, others), "modeT60S")[0]!;

    it("is told although a group of overlapping ones surrounds it, as long as none of the group lies within reach", () => {
      expect(rings([found("group", 51, [39, 67], [52.9])])).toMatchObject({ change: "real", verdict: "better" });
      expect(rings([found("group", 51, [39, 67], [52.9, 57.6])])).toMatchObject({ needed: null });
    });

    it("may be mistaken for another single one within reach, and then cannot be told", () => {
      expect(rings([found("mode", 58.6, [58.2, 59])]).because).toContain("another lies so near");
      expect(rings([found("mode", 61.6, [59.6, 63.5])]).change).toBe("real");
    });

    it("that may be mistaken for another is said to be open, in words", () => {
      const near = [found("mode", 58.6, [58.2, 59])];
      const options = { ...UNTOUCHED, version: "0" };
      const { says } = compareSessions(later(room(1.57, near)), later(room(0.33, near)), options);
      const ofModes = says.filter(({ quantity }) => quantity.startsWith("mode"));
      expect(ofModes.map(({ topic }) => topic)).toEqual(["unknown"]);
      expect(ofModes[0]!.message).toContain("56.8 Hz (1.57 to 0.33 s) cannot be told apart from another");
    });
  });
});
