import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

import { afterAll, beforeAll, describe, expect, it } from "vitest";

import { InputError } from "../../src/errors.js";
import { readSession } from "../../src/files/read-session.js";

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "carrywell-session-"));
  writeFileSync(join(folder, "sweep.json"), "{}");
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

const usual = {
  schema: "carrywell/session/1",
  sweep: "sweep.json",
  monitors: [
    { id: "mains", role: "main" },
    { id: "nears", role: "nearfield" },
  ],
  positions: [{ id: "mix", kind: "mix" }],
  recordings: [
    { file: "mains-mix.wav", monitor: "mains", position: "mix" },
    { file: "nears-mix.wav", monitor: "nears", position: "mix" },
  ],
};

function read(session: unknown): ReturnType<typeof readSession> {
  writeFileSync(join(folder, "session.json"), typeof session === "string" ? session : JSON.stringify(session, null, 2));
  return readSession(folder);
}

async function refusal(session: unknown): Promise<InputError> {
  try {
    await read(session);
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("was read without complaint");
}

describe("Reading a session", () => {
  it("gives the session, its folder and nothing refused when all is well", async () => {
    const { session, refused, notes, folder: found } = await read(usual);
    expect(session.recordings.length).toBe(2);
    expect([refused.size, notes.length, found]).toEqual([0, 0, folder]);
  });

  it("takes the example of the README as it stands", async () => {
    const page = readFileSync(new URL("../../README.md", import.meta.url), "utf8");
    const example = /^ *\{\n *"schema": "carrywell\/session\/1"[\s\S]*?\n *\}\n\n/m.exec(page)?.[0];
    const { session, refused, notes } = await read(example);
    expect(session.monitors.length).toBe(2);
    expect([refused.size, notes.length]).toEqual([0, 0]);
  });

  it("without a mix position goes on with a note", async () => {
    const { notes } = await read({ ...usual, positions: [{ id: "mix", kind: "room" }] });
    expect(notes.map(({ code }) => code)).toEqual(["no-mix-position"]);
  });

  it("knows the built-in target and the session's own", async () => {
    writeFileSync(join(folder, "mine.csv"), "20,0\n");
    const targets = [{ id: "mine", file: "mine.csv" }];
    const monitors = [{ ...usual.monitors[0], target: "mine" }, usual.monitors[1]];
    await expect(read({ ...usual, targets, monitors, reference: "tilt" })).resolves.toBeDefined();
  });

  const faults: [string, object, RegExp, RegExp, RegExp][] = [
    [
      "two monitors whose ids differ by capitals only",
      { monitors: [...usual.monitors, { id: "MAINS", role: "check" }] },
      /Two monitors have the same id: "mains" and "MAINS"/,
      /monitors\[2\]\.id$/,
      /own id/,
    ],
    [
      "two positions of one id",
      { positions: [...usual.positions, { id: "mix", kind: "room" }] },
      /Two positions/,
      /positions\[1\]\.id$/,
      /own id/,
    ],
    ["an unknown reference", { reference: "titl" }, /no target "titl"/, /reference$/, /did you mean "tilt"/],
    [
      "an unknown target of a monitor",
      { monitors: [{ ...usual.monitors[0], target: "flattest" }] },
      /no target "flattest"/,
      /monitors\[0\]\.target$/,
      /use one of: flat, tilt, bs1116, ebu3276/,
    ],
    [
      "a target of a monitor with a letter wrong, of its own targets too",
      {
        targets: [{ id: "console", file: "mine.csv" }],
        monitors: [{ ...usual.monitors[0], target: "consoel" }, usual.monitors[1]],
      },
      /no target "consoel"/,
      /monitors\[0\]\.target$/,
      /did you mean "console"/,
    ],
    [
      "a target under a built-in name, whatever its capitals",
      { targets: [{ id: "BS1116", file: "mine.csv" }] },
      /"BS1116" is the name of a built-in target/,
      /targets\[0\]\.id$/,
      /another id/,
    ],
    [
      "a target whose file is missing",
      { targets: [{ id: "mine", file: "nine.csv" }] },
      /does not exist/,
      /targets\[0\]\.file$/,
      /mine\.csv|copy/,
    ],
    [
      "a calibrator's recording outside",
      { microphone: { level: { file: "../cal.wav", soundPressureLevelDb: 94 } } },
      /leads out/,
      /microphone\.level\.file$/,
      /copy the file/,
    ],
    ["a later version", { schema: "carrywell/session/2" }, /version 2.*reads version 1/, /schema$/, /newer program/],
    ["a sweep recipe", { schema: "carrywell/sweep/1" }, /no session/, /schema$/, /carrywell\/session\/1/],
  ];

  it.each(faults)("refuses %s, by line and field", async (_, changes, message, where, remedy) => {
    const error = await refusal({ ...usual, ...changes });
    expect(error.message).toMatch(message);
    expect(error.where).toMatch(/^session\.json, line \d+, /);
    expect(error.where).toMatch(where);
    expect(error.remedy).toMatch(remedy);
  });

  it("refuses a text that is not UTF-8, a list, a number, and a recording given by mistake", async () => {
    writeFileSync(join(folder, "session.json"), Buffer.from('{ "title": "caf\xe9" }', "latin1"));
    await expect(readSession(folder)).rejects.toThrow(/not written in UTF-8/);
    expect((await refusal("[]")).message).toMatch(/The document is a list/);
    expect((await refusal("3")).message).toMatch(/The document is 3/);
    expect((await refusal("null")).message).toMatch(/The document is null/);
    writeFileSync(join(folder, "mains-mix.wav"), "RIFF");
    await expect(readSession(join(folder, "mains-mix.wav"))).rejects.toThrow(/not a session/);
  });

  it("refuses one recording for its own fault and keeps the others", async () => {
    const recordings = [...usual.recordings, { file: "x.wav", monitor: "naers", position: "mix" }];
    const { refused, session } = await read({ ...usual, recordings });
    expect([...refused.keys()]).toEqual([session.recordings[2]]);
    expect([...refused.values()]).toMatchObject([
      { code: "unknown-monitor", severity: "reject", recordings: ["x.wav"] },
    ]);
  });

  it("takes one file with two microphones for two recordings, but not the same track twice", async () => {
    const track = (fileChannel: number, position: string): object => ({
      ...usual.recordings[0],
      fileChannel,
      position,
    });
    const positions = [...usual.positions, { id: "left", kind: "near" }];
    const recordings = [track(1, "mix"), track(2, "left"), track(2, "left")];
    const { refused } = await read({ ...usual, positions, recordings });
    expect([...refused.values()].map(({ code }) => code)).toEqual(["listed-twice"]);
  });
});

describe("A room's volume", () => {
  const room = { lengthM: 6.1, widthM: 4.6, heightM: 2.9 };

  it.each([163, 40, 812])(
    "of %d m³ contradicts dimensions that hold 81 m³, and the error names the field",
    async (volumeM3) => {
      const { message, where, remedy } = await refusal({ ...usual, room: { ...room, volumeM3 } });
      expect(message).toContain("contradicts its dimensions");
      expect(message).toContain("81 m³");
      expect(where).toMatch(/session\.json, line \d+, room\.volumeM3/);
      expect(remedy).toContain("volumeM3");
    },
  );

  it.each([81.4, 65, 100])("of %d m³ fits a room of 81 m³ with slopes or niches", async (volumeM3) => {
    expect((await read({ ...usual, room: { ...room, volumeM3 } })).session.room?.volumeM3).toBe(volumeM3);
  });

  it("may be all that is known of a room, or stand beside one dimension", async () => {
    await expect(read({ ...usual, room: { volumeM3: 500 } })).resolves.toBeDefined();
    await expect(read({ ...usual, room: { volumeM3: 500, heightM: 2.5 } })).resolves.toBeDefined();
  });
});
