import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";

import { afterEach, beforeEach, describe, expect, it } from "vitest";

import { encodeWav } from "../../src/recording/encode-wav.js";
import { carrywell } from "./run.js";
import { type SmallSession, smallSession, usualSession } from "./small-session.js";

let session: SmallSession;
let out: string;
beforeEach(() => {
  session = smallSession();
  out = join(dirname(session.folder), "report");
});
afterEach(() => {
  session.remove();
});

describe("Input that cannot be used ends with code 2, one paragraph and nothing written:", () => {
  const cases: [string, (session: SmallSession) => void, RegExp][] = [
    [
      "a session that is no JSON",
      (one) => {
        one.put("session.json", '{\n  "schema": "carrywell/session/1",\n  "sweep": sweep.json\n}\n');
      },
      /not valid JSON.*\n {2}where: session\.json, line 3, column \d+\n {2}try: {3}look there/,
    ],
    [
      "an unknown key",
      (one) => {
        one.describe({ positons: [] });
      },
      /key "positons" is unknown.*\n {2}where: session\.json, line \d+, positons\n {2}try: {3}did you mean "positions"\?/,
    ],
    [
      "a missing sweep recipe",
      (one) => {
        one.describe({ sweep: "swep.json" });
      },
      /"swep\.json" does not exist.*\n {2}where: session\.json, line \d+, sweep\n {2}try: {3}did you mean "sweep\.json"\?/,
    ],
    [
      "a sweep recipe that is no recipe",
      (one) => {
        one.put("sweep.json", '{ "schema": "carrywell/sweep/1" }');
      },
      /sweep.*\n {2}where: sweep\.json.*\n {2}try: /,
    ],
    [
      "a sweep outside the folder",
      (one) => {
        one.describe({ sweep: "../sweep.json" });
      },
      /leads out of the session folder.*\n {2}where: session\.json, line \d+, sweep/,
    ],
    [
      "a calibration that a link leads out to",
      (one) => {
        const outside = join(one.folder, "..", "mic.txt");
        writeFileSync(outside, "20 0\n20000 0\n");
        symlinkSync(outside, join(one.folder, "mic.txt"));
        one.describe({ microphone: { calibration: "mic.txt" } });
      },
      /is a link that leads out of the session folder.*\n {2}where: session\.json, line \d+, microphone\.calibration/,
    ],
    [
      "two mix positions",
      (one) => {
        const positions = [...usualSession.positions, { id: "other", kind: "mix" }];
        one.describe({ positions });
      },
      /More than one position.*\n {2}where: .*positions\[2\]\.kind/,
    ],
    [
      "a programme that there is not",
      (one) => {
        one.describe({ translation: { programme: "polka" } });
      },
      /no programme "polka".*\n {2}where: session\.json, translation\.programme\n {2}try: .*popular, pink, or name a WAV, FLAC, AIFF or CAF file/,
    ],
    [
      "a mix as programme that is missing",
      (one) => {
        one.put("song.wav", "");
        one.describe({ translation: { programme: "sung.wav" } });
      },
      /"sung\.wav" does not exist.*\n {2}where: session\.json, line \d+, translation\.programme\n {2}try: {3}did you mean "song\.wav"\?/,
    ],
    [
      "a mix as programme outside the folder",
      (one) => {
        one.describe({ translation: { programme: "../song.wav" } });
      },
      /leads out of the session folder.*\n {2}where: session\.json, line \d+, translation\.programme/,
    ],
    [
      "a mix as programme that is not audio",
      (one) => {
        one.put("song.wav", "la la la");
        one.describe({ translation: { programme: "song.wav" } });
      },
      /no sound file; a mix is read.*\n {2}where: session\.json, translation\.programme: song\.wav\n {2}try: {3}export the mix/,
    ],
    [
      "a mix as programme that is silent",
      (one) => {
        one.put("song.wav", encodeWav([new Float32Array(144_000)], 48_000, "pcm16"));
        one.describe({ translation: { programme: "song.wav" } });
      },
      /The mix is silent.*\n {2}where: session\.json, translation\.programme: song\.wav/,
    ],
    [
      "a playback class whose table has a gap",
      (one) => {
        one.put("kitchen.csv", "Hz;low;typical;high\n125;-9;-5;0\n250;-9;;0\n");
        one.describe({ playbackClasses: [{ id: "kitchen", name: "kitchen radio", file: "kitchen.csv" }] });
      },
      /A number is missing.*\n {2}where: kitchen\.csv, line 3, column 8\n {2}try: {3}give rows/,
    ],
    [
      "a playback class without its table",
      (one) => {
        one.describe({ playbackClasses: [{ id: "kitchen", name: "kitchen radio", file: "kitchen.csv" }] });
      },
      /"kitchen\.csv" does not exist.*\n {2}where: session\.json, line \d+, playbackClasses\[0\]\.file/,
    ],
    [
      "a playback class under a built-in name",
      (one) => {
        one.put("kitchen.csv", "");
        one.describe({ playbackClasses: [{ id: "Phone", name: "my phone", file: "kitchen.csv" }] });
      },
      /id "Phone" is the name of a built-in playback class.*\n {2}where: session\.json, line \d+, playbackClasses\[0\]\.id\n {2}try: .*phone, laptop/,
    ],
    [
      "two playback classes of one name",
      (one) => {
        const kitchen = { id: "kitchen", name: "kitchen radio", file: "kitchen.csv" };
        one.describe({ playbackClasses: [kitchen, { ...kitchen, id: "Kitchen" }] });
      },
      /Two playback classes have the same id.*\n {2}where: session\.json, line \d+, playbackClasses\[1\]\.id/,
    ],
    [
      "a playback class with a key that there is not",
      (one) => {
        one.describe({ playbackClasses: [{ id: "kitchen", name: "kitchen radio", file: "kitchen.csv", levelDb: 62 }] });
      },
      /key "levelDb" is unknown.*\n {2}where: .*\n {2}try: {3}did you mean "levelDba"\?/,
    ],
  ];

  it.each(cases)("%s", async (_, spoil, expected) => {
    spoil(session);
    const { code, out: said, err } = await carrywell(["report", session.folder, "--out", out]);
    expect(err).toMatch(expected);
    expect(code).toBe(2);
    expect(said).toBe("");
    expect(err).not.toMatch(/^\s+at /m);
    expect(existsSync(out)).toBe(false);
    expect(readdirSync(dirname(out))).toEqual(
      ["session"].concat(readdirSync(dirname(out)).filter((n) => n === "mic.txt")).sort((a, b) => a.localeCompare(b)),
    );
  });

  it("a session that is not there", async () => {
    const { code, err } = await carrywell(["report", join(session.folder, "nowhere"), "--out", out]);
    expect(err).toMatch(/^There is no session at .*\n {2}where: .*\n {2}try: {3}give the folder/);
    expect(code).toBe(2);
  });

  it.each([
    [[], /No command was given/],
    [["reprot"], /Unknown command 'reprot'; did you mean report\?/],
    [["report"], /Required option '--out <dir>' not specified/],
    [["report", "x"], /Required option '--out <dir>' not specified/],
    [["sweep", "--out", "x", "--rat", "1"], /Unknown option '--rat'; did you mean --rate\?/],
    [["sweep", "--out", "x", "--rate", "fast"], /"fast" is not a number/],
    [["sweep", "--out", "x", "--format", "mp3"], /Allowed choices are pcm16, pcm24, float32/],
    [["sweep", "--out", "x", "--rate", "44100", "--end", "20000"], /--end 20000.*\n.*--end\n.*4000 to 19845 Hz/],
    [["sweep", "--out", "x", "--repeats", "32", "--duration", "120"], /would last \d+ minutes/],
    [["sweep", "--out", ""], /has no name/],
  ])("the command line %j", async (args, expected) => {
    const { code, out: said, err } = await carrywell(args);
    expect(err).toMatch(expected);
    expect(err).toMatch(/\n {2}where: .+\n {2}try: {3}.+\n$/);
    expect(code).toBe(2);
    expect(said).toBe("");
  });

  it("an error shows where in the program it arose only when asked", async () => {
    session.describe({ sweep: "../sweep.json" });
    const { code, err } = await carrywell(["report", session.folder, "--out", out, "--debug"]);
    expect(code).toBe(2);
    expect(err).toMatch(/^\s+at /m);
  });
});

describe("An output folder", () => {
  it("that is a file is refused", async () => {
    writeFileSync(out, "mine");
    const { code, err } = await carrywell(["report", session.folder, "--out", out, "--quiet"]);
    expect(err).toMatch(/^The output folder is a file/);
    expect(code).toBe(2);
    expect(readFileSync(out, "utf8")).toBe("mine");
  });

  it("that holds someone else's report.html is left as it is", async () => {
    mkdirSync(out);
    writeFileSync(join(out, "report.html"), "mine");
    const { code, err } = await carrywell(["report", session.folder, "--out", out, "--quiet"]);
    expect(err).toMatch(/holds a "report\.html" that no earlier report wrote/);
    expect(code).toBe(2);
    expect(readdirSync(out)).toEqual(["report.html"]);
    expect(readFileSync(join(out, "report.html"), "utf8")).toBe("mine");
  });

  it("in which the report would replace the table of a playback class is refused", async () => {
    const rows = [125, 250, 500, 1000, 2000, 4000].map((hz) => `${hz};-3;0;2`).join("\n");
    session.put("tables/quality.csv", rows);
    session.put("results.json", '{"schema":"carrywell/results/1"}');
    session.describe({ playbackClasses: [{ id: "kitchen", name: "kitchen radio", file: "tables/quality.csv" }] });
    const { code, err } = await carrywell(["report", session.folder, "--out", session.folder, "--quiet"]);
    expect(err).toMatch(/written over "tables\/quality\.csv", which the session needs/);
    expect(code).toBe(2);
    expect(readFileSync(join(session.folder, "tables/quality.csv"), "utf8")).toBe(rows);
  });

  it("in which the report would replace one of its own inputs is refused", async () => {
    session.put("tables/quality.csv", "20 0\n20000 0\n");
    session.put("results.json", '{"schema":"carrywell/results/1"}');
    session.describe({ microphone: { calibration: "tables/quality.csv" } });
    const { code, err } = await carrywell(["report", session.folder, "--out", session.folder, "--quiet"]);
    expect(err).toMatch(/written over "tables\/quality\.csv", which the session needs/);
    expect(code).toBe(2);
    expect(readFileSync(join(session.folder, "tables/quality.csv"), "utf8")).toBe("20 0\n20000 0\n");
  });
});
