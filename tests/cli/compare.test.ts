import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";

import { afterAll, beforeAll, describe, expect, it } from "vitest";

import type { Results } from "../../src/model.js";
import { encodeWav } from "../../src/recording/encode-wav.js";
import { type Changes, changesSchema } from "../../src/schema/changes.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { carrywell } from "./run.js";
import { recordedReel, shortRecipe, type SmallSession, smallSession } from "./small-session.js";

/** The same room twice, with a noise of its own each time: mains and nears at the mix position, mains at the sofa as well. */

const monitors = [
  { id: "mains", role: "main" },
  { id: "nears", role: "nearfield" },
];
const recordings = [
  { file: "mains-mix.wav", monitor: "mains", position: "mix" },
  { file: "nears-mix.wav", monitor: "nears", position: "mix" },
  { file: "mains-sofa.wav", monitor: "mains", position: "sofa" },
];

let before: SmallSession;
let after: SmallSession;
let root: string;
let reports: readonly [string, string];

function studio(): SmallSession {
  const session = smallSession();
  for (const { file } of recordings) {
    session.put(file, encodeWav([recordedReel()], shortRecipe.sampleRate, "pcm16"));
  }
  session.describe({ monitors, recordings });
  return session;
}

const compare = (...args: string[]) => carrywell(["compare", ...args]);
const to = (name: string): string => join(root, name);
const changesIn = (folder: string): Changes =>
  changesSchema.parse(JSON.parse(readFileSync(join(folder, "changes.json"), "utf8")));

beforeAll(async () => {
  [before, after] = [studio(), studio()];
  root = dirname(before.folder);
  reports = [to("report-before"), to("report-after")];
  const written = await Promise.all(
    [before, after].map(({ folder }, n) => carrywell(["report", folder, "--out", reports[n]!, "--quiet"])),
  );
  expect(written.map(({ code }) => code)).toEqual([0, 0]);
});
afterAll(() => {
  before.remove();
  after.remove();
});

describe("Two sessions of one room", () => {
  it("differ in nothing, and the page, the figures and the table say so", async () => {
    const out = to("sessions");
    const { code, out: said, err } = await compare(before.folder, after.folder, "--out", out, "--placement", "0");
    expect(code, err).toBe(0);
    expect(readdirSync(out).sort()).toEqual(["changes.csv", "changes.json", "comparison.html"]);
    expect(said).toMatch(/^Better\n {2}Nothing for certain\.\n\nWorse\n {2}Nothing for certain\.\n/);
    expect(said).toContain(join(out, "comparison.html"));
    const { pairs, unpaired, placementM } = changesIn(out);
    expect(placementM).toBe(0);
    expect(unpaired).toEqual([]);
    const sides = ["L", "R", "both"];
    const places = ["mains@mix", "mains@sofa", "nears@mix"];
    const expected = places.flatMap((place) => sides.map((side) => place.replace("@", `-${side}@`)));
    expect(pairs.map(({ id }) => id).sort()).toEqual(["mains", "nears", ...expected].sort());
    expect(pairs.flatMap(({ quantities }) => quantities).filter(({ change }) => change === "real")).toEqual([]);
  });

  it("are told the same from their reports, by folder or by results.json, as from the recordings", async () => {
    const [folders, files] = [to("from-reports"), to("from-results")];
    const results = reports.map((report) => join(report, "results.json"));
    const ended = [
      await compare(...reports, "--out", folders, "--placement", "0"),
      await compare(...results, "--out", files, "--placement", "0"),
    ];
    expect(ended.map(({ code }) => code)).toEqual([0, 0]);
    const bytes = (folder: string): string => readFileSync(join(folder, "changes.json"), "utf8");
    expect(bytes(folders)).toBe(bytes(files));
    expect(bytes(folders)).toBe(bytes(to("sessions")));
  });

  it("are told to programs as JSON", async () => {
    const { code, out } = await compare(...reports, "--out", to("json"), "--json", "--quiet");
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ comparison: "comparison.html", changes: "changes.json", unpaired: [] });
  });
});

describe("Two monitors of one session", () => {
  it("are held against each other under their names", async () => {
    const out = to("monitors");
    const ended = await compare(reports[0], "--monitor", "mains", "--against", "nears", "--out", out);
    expect(ended.code, ended.err).toBe(0);
    const { compares, pairs } = changesIn(out);
    expect(compares).toBe("monitors");
    expect(pairs[0]).toMatchObject({ id: "mains / nears", kind: "monitor" });
    expect(readFileSync(join(out, "comparison.html"), "utf8")).toContain("Nears against mains");
  });
});

describe("Sessions that do not match", () => {
  it("say what was paired and what was not: another sweep, another monitor's name, a place that is missing", async () => {
    const other = studio();
    const longer = makeSweepRecipe({ ...shortRecipe, durationS: 1.3 });
    other.put("sweep.json", JSON.stringify(longer));
    for (const name of ["mains-mix.wav", "smalls-mix.wav"]) {
      other.put(name, encodeWav([recordedReel(0.5, longer)], longer.sampleRate, "pcm16"));
    }
    other.describe({
      monitors: [monitors[0], { id: "smalls", role: "nearfield" }],
      recordings: [recordings[0], { ...recordings[1], file: "smalls-mix.wav", monitor: "smalls" }],
    });
    const out = to("other");
    const { code, out: said, err } = await compare(reports[0], other.folder, "--out", out);
    other.remove();
    expect(code, err).toBe(0);
    const { pairs, unpaired } = changesIn(out);
    expect(pairs.map(({ id }) => id).sort()).toEqual(["mains", "mains-L@mix", "mains-R@mix", "mains-both@mix"]);
    expect(unpaired.map(({ what, id, in: side }) => `${what} ${id} ${side}`).sort()).toEqual([
      "measurement mains-L@sofa before",
      "measurement mains-R@sofa before",
      "measurement mains-both@sofa before",
      "monitor nears before",
      "monitor smalls after",
      "sweep sweep.json both",
    ]);
    expect(said).toMatch(/Without a counterpart, or not the same\n/);
    expect(said).toMatch(/monitor nears \(before\): after there is no monitor "nears", but "mains", "smalls"/);
    expect(said).toMatch(/sweep sweep\.json \(both\): not the same sweep was played/);
    const page = readFileSync(join(out, "comparison.html"), "utf8");
    for (const what of ["smalls", "mains, left, at sofa", "Not the same sweep"]) expect(page).toContain(what);
  });

  it("of which one has no recording that can be used are refused with what is wrong with it", async () => {
    const silent = smallSession();
    silent.put("mains-mix.wav", encodeWav([new Float64Array(200_000)], shortRecipe.sampleRate, "pcm16"));
    const out = to("silent");
    const { code, err } = await compare(reports[0], silent.folder, "--out", out);
    silent.remove();
    expect(code).toBe(2);
    expect(err).toMatch(
      /Nothing was measured on both sides.*\n {2}where: mains-mix\.wav \(after\): .*\n {2}try: .*check/,
    );
    expect(existsSync(out)).toBe(false);
  });

  it("of which nothing belongs together are refused, and nothing is written", async () => {
    const results = read(reports[1]);
    results.monitors = results.monitors.filter(({ id }) => id === "nears");
    results.measurements = results.measurements.filter(({ monitor }) => monitor === "nears");
    for (const one of results.monitors) one.id = "smalls";
    for (const one of results.measurements) one.monitor = "smalls";
    const out = to("nothing");
    const { code, err } = await compare(reports[0], put("nothing.json", results), "--out", out);
    expect(code).toBe(2);
    expect(err).toMatch(
      /Nothing was measured on both sides.*\n {2}where: .*no monitor "mains", but "smalls"; .*--monitor mains --against smalls\n {2}try: /,
    );
    expect(existsSync(out)).toBe(false);
  });
});

function read(report: string): Results {
  return JSON.parse(readFileSync(join(report, "results.json"), "utf8")) as Results;
}

function put(name: string, content: unknown): string {
  const file = to(name);
  writeFileSync(file, typeof content === "string" ? content : JSON.stringify(content));
  return file;
}

describe("Results that cannot be used end with code 2, one paragraph and nothing written:", () => {
  const edited = (edit: (results: Record<string, unknown>) => void) => (): string => {
    const results = read(reports[0]) as unknown as Record<string, unknown>;
    edit(results);
    return JSON.stringify(results);
  };
  const whole = edited(() => undefined);
  it.each<[string, () => string, RegExp]>([
    ["half a file", () => whole().slice(0, whole().length / 2), /not JSON, or not all of it/],
    [
      "a version to come",
      edited((results) => (results["schema"] = "carrywell/results/9")),
      /"carrywell\/results\/9".*reads "carrywell\/results\/1"/,
    ],
    ["no measurements", edited((results) => delete results["measurements"]), /"measurements" is not as it was written/],
    [
      "a level that is a text",
      () => whole().replace(/"levelDb":-?[\d.]+/, '"levelDb":"loud"'),
      /not as it was written/,
    ],
    ["a level without end", () => whole().replace(/"levelDb":-?[\d.]+/, '"levelDb":1e999'), /not as it was written/],
    ["a key that every object has", () => whole().replace(/\}$/, ',"__proto__":{"x":1}}'), /cannot be used/],
    [
      "nests 200 000 deep",
      () => whole().replace(/\}$/, `,"x":${"[".repeat(200_000)}${"]".repeat(200_000)}}`),
      /cannot be used/,
    ],
    ["nothing at all", () => "", /.*/],
  ])("%s", async (what, content, expected) => {
    const out = to("hostile");
    const { code, err } = await compare(
      put(`hostile-${what.replaceAll(" ", "-")}.json`, content()),
      reports[1],
      "--out",
      out,
    );
    expect(err).toMatch(expected);
    expect(code).toBe(2);
    expect(err).not.toMatch(/^\s+at |RangeError|Maximum call stack/m);
    expect(existsSync(out)).toBe(false);
  });
});

describe("Names that try to be something else", () => {
  it("are names on the page, in the table and on the terminal", async () => {
    const evil = `</script><img src=x onerror="window.broken = 1">\u001b[2J=cmd|'/c calc'!A1`;
    const file = (n: 0 | 1): string => {
      const results = read(reports[n]);
      const { session } = results;
      Object.assign(session, { title: evil, notes: evil, engineer: evil, client: evil, room: { name: evil } });
      session.microphone = { ...session.microphone, name: `${evil} ${String(n)}` };
      for (const one of session.monitors) one.name = evil;
      for (const { findings } of [results, ...results.measurements.map(({ quality }) => quality)]) {
        for (const one of findings) one.message = evil;
      }
      results.provenance.version = evil;
      return put(`evil-${String(n)}.json`, results);
    };
    const out = to("evil");
    const { code, out: said, err } = await compare(file(0), file(1), "--out", out);
    expect(code, err).toBe(0);
    expect(said + err).not.toContain("\u001b[2J");
    const page = readFileSync(join(out, "comparison.html"), "utf8");
    expect(page).toContain("&lt;img src=x");
    expect(page).not.toContain("<img src=x");
    expect(page).not.toContain("</script><");
    // No cell begins with what a spreadsheet would carry out.
    expect(readFileSync(join(out, "changes.csv"), "utf8")).not.toMatch(/(^|,)"?[=@]/m);
  });
});

/** Stands for the results of the session before, by another path. */
const SAME = "<same>";

describe("A command line that asks for nothing that can be compared", () => {
  it.each<[string, string[], RegExp]>([
    ["one session and no monitors", [], /only one session.*[^]*--monitor mains --against nears/],
    ["the same session twice", [SAME], /the same session.*[^]*--monitor mains --against nears/],
    ["one monitor against itself", ["--monitor", "mains", "--against", "mains"], /one monitor of one session twice/],
    ["one monitor alone", ["--monitor", "mains"], /--monitor and --against go together/],
    [
      "a monitor that is not there",
      ["--monitor", "mains", "--against", "neers"],
      /no monitor "neers"[^]*did you mean "nears"/,
    ],
    [
      "a microphone put back anywhere",
      ["--monitor", "mains", "--against", "nears", "--placement", "-3"],
      /out of range/,
    ],
    ["a placement in words", ["--monitor", "mains", "--against", "nears", "--placement", "near"], /near/],
  ])("%s", async (_, args, expected) => {
    const out = to("wrong");
    const given = args.map((one) => (one === SAME ? join(reports[0], "results.json") : one));
    const { code, err } = await compare(reports[0], ...given, "--out", out);
    expect(err).toMatch(expected);
    expect(code).toBe(2);
    expect(existsSync(out)).toBe(false);
  });

  it("a session by its folder and by its session.json", async () => {
    const folder = to("one-session");
    mkdirSync(folder);
    writeFileSync(join(folder, "session.json"), "{}");
    const { code, err } = await compare(folder, join(folder, "session.json"), "--out", to("wrong"));
    expect(err).toMatch(/Before and after are the same session/);
    expect(code).toBe(2);
  });

  it("a session that does not exist", async () => {
    const { code, err } = await compare(reports[0], to("nowhere"), "--out", to("wrong"));
    expect(err).toMatch(/nowhere/);
    expect(code).toBe(2);
    expect(existsSync(to("wrong"))).toBe(false);
  });
});

describe("The folder of a comparison", () => {
  it("may be written again, and keeps what is not the comparison's", async () => {
    const out = to("sessions");
    writeFileSync(join(out, "my-notes.txt"), "mine");
    const { code } = await compare(...reports, "--out", out);
    expect(code).toBe(0);
    expect(readFileSync(join(out, "my-notes.txt"), "utf8")).toBe("mine");
    expect(changesIn(out).placementM).toBe(0.02);
  });

  it("may be the report's own, but not one with a comparison.html of somebody else's", async () => {
    const whole = readdirSync(reports[0]);
    expect((await compare(...reports, "--out", reports[0])).code).toBe(0);
    expect(readdirSync(reports[0]).sort()).toEqual([...whole, "changes.csv", "changes.json", "comparison.html"].sort());
    writeFileSync(join(reports[1], "comparison.html"), "mine");
    const { code, err } = await compare(...reports, "--out", reports[1]);
    expect(code).toBe(2);
    expect(err).toMatch(/"comparison\.html" that no earlier comparison wrote/);
    expect(readFileSync(join(reports[1], "comparison.html"), "utf8")).toBe("mine");
  });
});
