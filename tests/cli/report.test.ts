import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";

import { afterAll, beforeAll, describe, expect, it } from "vitest";

import { filesBelow } from "../../src/files/publish/files-below.js";
import { carrywell, type Ended } from "./run.js";
import { type SmallSession, smallSession, usualSession } from "./small-session.js";

let session: SmallSession;
let out: string;
let first: Ended;

function contents(folder: string): Map<string, string> {
  return new Map(filesBelow(folder).map((file) => [file, readFileSync(join(folder, file), "base64")]));
}

beforeAll(async () => {
  session = smallSession();
  out = join(dirname(session.folder), "report");
  first = await carrywell(["report", session.folder, "--out", out]);
});
afterAll(() => {
  session.remove();
});

describe("A report", () => {
  it("of a good session ends with code 0, words on standard output and progress on standard error", () => {
    expect(first.code).toBe(0);
    expect(first.out).toMatch(/mains: usable; .*\n/);
    expect(first.out).toContain(join(out, "report.html"));
    expect(first.err).toMatch(/mains-mix\.wav/);
  });

  it("prints no control characters where there is no terminal", () => {
    expect(first.out + first.err).not.toMatch(/\u001b/);
  });

  it("consists of a page, results, tables and impulse responses, and of nothing else", () => {
    expect(readdirSync(out).sort()).toEqual(["impulses", "report.html", "results.json", "tables"]);
    expect(readdirSync(join(out, "impulses")).sort()).toEqual([
      "about.txt",
      "mains-L@mix.wav",
      "mains-R@mix.wav",
      "mains-both@mix.wav",
    ]);
    expect(readdirSync(join(out, "tables"))).toContain("bands.csv");
    expect(readdirSync(dirname(out)).sort()).toEqual(["report", "session"]);
  });

  it("is the same to the byte when made again from session.json itself, in another place", async () => {
    const again = join(dirname(out), "again", "deep");
    const ended = await carrywell(["report", join(session.folder, "session.json"), "--out", again, "--quiet"]);
    expect(ended).toMatchObject({ code: 0, out: "", err: "" });
    expect(contents(again)).toEqual(contents(out));
  });

  it("takes the place of an older one, leaves strange files alone and clears away what no longer exists", async () => {
    writeFileSync(join(out, "my-notes.txt"), "mine");
    writeFileSync(join(out, "impulses", "my-own.wav"), "mine");
    session.describe({
      monitors: [{ id: "nears", role: "nearfield" }],
      recordings: [{ ...usualSession.recordings[0], monitor: "nears" }],
    });
    const { code, out: json } = await carrywell(["report", session.folder, "--out", out, "--json", "--quiet"]);
    session.describe();
    expect(code).toBe(0);
    expect(JSON.parse(json)).toMatchObject({
      report: "report.html",
      monitors: [{ id: "nears", usable: true }],
      rejected: [],
    });
    expect(readFileSync(join(out, "my-notes.txt"), "utf8")).toBe("mine");
    expect(readdirSync(join(out, "impulses")).sort()).toEqual([
      "about.txt",
      "my-own.wav",
      "nears-L@mix.wav",
      "nears-R@mix.wav",
      "nears-both@mix.wav",
    ]);
    expect([...readdirSync(out), ...readdirSync(dirname(out))].filter((name) => name.endsWith(".part"))).toEqual([]);
  });

  it("that is interrupted leaves the old one whole and nothing beside it, and says so with code 130", async () => {
    const before = contents(out);
    const { code } = await carrywell(["report", session.folder, "--out", out], {
      onErr: (_, stop) => {
        stop("SIGINT");
      },
    });
    expect(code).toBe(130);
    expect(contents(out)).toEqual(before);
  });

  it("that is killed outright leaves the old one whole, and the next run clears up", async () => {
    const before = contents(out);
    const { signal } = await carrywell(["report", session.folder, "--out", out], {
      onErr: (_, stop) => {
        stop("SIGKILL");
      },
    });
    expect(signal).toBe("SIGKILL");
    expect(contents(out)).toEqual(before);
    const { code } = await carrywell(["report", session.folder, "--out", out, "--quiet"]);
    expect(code).toBe(0);
    expect([...readdirSync(out), ...readdirSync(dirname(out))].filter((name) => name.endsWith(".part"))).toEqual([]);
  });
});

describe("The help", () => {
  it.each(["sweep", "init", "check", "report", "demo"])(
    "of %s has an example and all common options",
    async (command) => {
      const { code, out: help } = await carrywell([command, "--help"]);
      expect(code).toBe(0);
      expect(help).toMatch(new RegExp(`Example:\n {2}carrywell ${command} .*`));
      for (const option of ["--quiet", "--json", "--debug"]) expect(help).toContain(option);
    },
  );

  it("lists the commands that exist", async () => {
    const { code, out: help } = await carrywell(["--help"]);
    expect(code).toBe(0);
    const commands = [...help.matchAll(/^ {2}([a-z]+) .*$/gm)].map(([, name]) => name);
    expect(commands).toEqual(expect.arrayContaining(["sweep", "init", "check", "report", "listen", "demo", "help"]));
    expect(existsSync("x")).toBe(false);
  });
});
