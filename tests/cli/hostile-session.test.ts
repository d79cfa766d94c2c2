import { createHash } from "node:crypto";
import {
  closeSync,
  ftruncateSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
} from "node:fs";
import { dirname, join } from "node:path";

import { afterEach, beforeEach, describe, expect, it } from "vitest";

import type { Results } from "../../src/model.js";
import { encodeWav } from "../../src/recording/encode-wav.js";
import { zip } from "../fuzz/seeds.js";
import { ascii } from "../recording/wav-file.js";
import { carrywell, type Ended } from "./run.js";
import { recordedReel, shortRecipe, type SmallSession, smallSession, usualSession } from "./small-session.js";

/** Sessions that someone made to do harm, or that became so by accident. */

let session: SmallSession;
let root: string;
let out: string;
beforeEach(() => {
  session = smallSession();
  root = dirname(session.folder);
  out = join(root, "report");
});
afterEach(() => {
  session.remove();
});

const report = async (): Promise<Ended> => carrywell(["report", session.folder, "--out", out]);

/** Every file below the session's parent with what is in it, but for the report. */
function everythingElse(): Record<string, string> {
  return Object.fromEntries(
    readdirSync(root, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && !join(entry.parentPath, entry.name).startsWith(`${out}/`))
      .map((entry) => {
        const path = join(entry.parentPath, entry.name);
        const { mtimeMs, size } = statSync(path);
        const sum = size > 2 ** 24 ? "" : createHash("sha256").update(readFileSync(path)).digest("hex");
        return [path, `${mtimeMs} ${size} ${sum}`];
      }),
  );
}

/** A hundred megabytes, most of them a hole. */
function makeHuge(file: string, beginning: string): void {
  session.put(file, beginning);
  const handle = openSync(join(session.folder, file), "r+");
  ftruncateSync(handle, 100e6);
  closeSync(handle);
}

describe("Texts without end are refused at a glance:", () => {
  const huge: [string, string, Record<string, unknown>, RegExp][] = [
    ["a session.json of 100 MB", "session.json", {}, /This is not a session/],
    ["a recipe of 100 MB", "sweep.json", {}, /larger than any recipe or table[^]*where: sweep\.json/],
    [
      "a microphone's table of 100 MB",
      "mic.txt",
      { microphone: { calibration: "mic.txt" } },
      /larger than any[^]*mic\.txt/,
    ],
    ["a target of 100 MB", "mine.csv", { targets: [{ id: "mine", file: "mine.csv" }] }, /larger than any[^]*mine\.csv/],
  ];
  it.each(huge)("%s", async (_, file, more, expected) => {
    session.describe(more);
    makeHuge(file, file === "session.json" ? JSON.stringify(usualSession) : "20 0\n");
    const before = everythingElse();
    const { code, err } = await report();
    expect(err).toMatch(expected);
    expect(code).toBe(2);
    expect(err).not.toMatch(/^\s+at /m);
    expect(everythingElse()).toEqual(before);
  });

  const deep = (depth: number): string => `${"[".repeat(depth)}${"]".repeat(depth)}`;
  it.each([
    ["a session nested 400 000 deep", deep(400_000), /session\.json/],
    [
      "a title nested 100 000 deep",
      JSON.stringify({ ...usualSession, title: 1 }).replace('"title":1', `"title":${deep(100_000)}`),
      /title/,
    ],
    [
      "keys that every object has",
      JSON.stringify(usualSession).replace("{", '{"__proto__":{"sweep":"x"},'),
      /key "__proto__" is unknown/,
    ],
    ["a constructor", JSON.stringify(usualSession).replace("{", '{"constructor":1,'), /key "constructor" is unknown/],
  ])("%s", async (_, content, expected) => {
    session.put("session.json", content);
    const { code, err } = await report();
    expect(err).toMatch(expected);
    expect(code).toBe(2);
    expect(err).not.toMatch(/^\s+at |RangeError|Maximum call stack/m);
  });

  it.each([
    [
      "a sweep that lasts for years",
      { growthS: 1e9, lengthS: 1e9 * Math.log(shortRecipe.endHz / shortRecipe.startHz) },
    ],
    ["a billion repeats", { repeats: 1e9 }],
    [
      "a reel that ends next year",
      { events: shortRecipe.events.map((event) => ({ ...event, atSample: event.atSample + 1e12 })) },
    ],
    ["events of a billion samples", { events: shortRecipe.events.map((event) => ({ ...event, samples: 1e9 })) }],
  ])("a recipe of %s", async (_, changed) => {
    session.put("sweep.json", JSON.stringify({ ...shortRecipe, ...changed }));
    const { code, err } = await report();
    expect(err).toMatch(/The sweep recipe cannot be used/);
    expect(code).toBe(2);
  });

  it("a played sound that is silent", async () => {
    session.put("played.wav", encodeWav([new Float64Array(48_000)], 48_000, "pcm16"));
    session.describe({ sweep: "played.wav" });
    const { code, err } = await report();
    expect(err).toMatch(/silent[^]*where: played\.wav/);
    expect(code).toBe(2);
  });
});

describe("Names that try to be something else", () => {
  const names = [
    `<img src=x onerror="window.broken = 1">.wav`,
    "=HYPERLINK(evil).wav",
    "\u001b[2J\u001b[31mred.wav",
    "a\u202egnp.wav",
    "$(touch hacked).wav",
    "%s%n %x.wav",
    "x".repeat(200) + ".wav",
  ];

  it("are names, and nothing is written but the report", async () => {
    for (const name of names) session.put(name, encodeWav([recordedReel()], shortRecipe.sampleRate, "pcm16"));
    session.put("archive.wav", zip);
    session.put("text.flac", ascii("fLaC and no more"));
    const recordings = [...names, "archive.wav", "text.flac"].map((file) => ({
      file,
      monitor: "mains",
      position: "sofa",
    }));
    session.describe({ recordings: [...usualSession.recordings, ...recordings] });
    const before = everythingElse();
    const { code, out: said, err } = await report();
    expect(code).toBe(1);
    expect(everythingElse()).toEqual(before);
    // Nothing that a terminal would obey.
    expect(said + err).not.toMatch(/\u001b\[2J|\u001b\[31mred|\u202e/);
    const page = readFileSync(join(out, "report.html"), "utf8");
    expect(page).not.toContain("<img src=x");
    const results = JSON.parse(readFileSync(join(out, "results.json"), "utf8")) as Results;
    const refused = results.findings.filter(({ severity }) => severity === "reject");
    expect(refused.map(({ recordings: [file] }) => file).sort()).toEqual(["archive.wav", "text.flac"]);
    expect(refused.map(({ message }) => message).join("\n")).toMatch(/ZIP archive[^]*FLAC|FLAC[^]*ZIP archive/);
    for (const table of readdirSync(join(out, "tables"))) {
      expect(readFileSync(join(out, "tables", table), "utf8")).not.toMatch(/(^|[,"])=HYPERLINK/m);
    }
  });
});

describe("An output folder with links in it", () => {
  it.each(["tables", "impulses"])("leads nothing out through a link in the place of %s", async (name) => {
    const elsewhere = join(root, "elsewhere");
    mkdirSync(elsewhere);
    mkdirSync(out);
    symlinkSync(elsewhere, join(out, name));
    const before = everythingElse();
    await report();
    expect(readdirSync(elsewhere)).toEqual([]);
    expect(everythingElse()).toEqual(before);
  });
});
