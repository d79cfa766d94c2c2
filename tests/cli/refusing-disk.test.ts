import { spawnSync } from "node:child_process";
import {
  chmodSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

import { afterAll, beforeAll, describe, expect, it } from "vitest";

import { filesBelow } from "../../src/files/publish/files-below.js";
import { encodeWav } from "../../src/recording/encode-wav.js";
import { whiteNoise } from "../known-recording.js";
import { carrywell, type Ended } from "./run.js";
import { shortRecipe, smallSession } from "./small-session.js";

const root = mkdtempSync(join(tmpdir(), "carrywell-disk-"));
const session = smallSession();
const mix = join(root, "mix.wav");
const smallDisk = mountedDisk();
const NOBODY = 65_534;
afterAll(() => {
  if (smallDisk !== null) spawnSync("umount", [smallDisk]);
  session.remove();
  rmSync(root, { recursive: true, force: true });
});

/** A disk of a few megabytes; null where this user may not have one. */
function mountedDisk(): string | null {
  const disk = join(root, "disk");
  mkdirSync(disk);
  return spawnSync("mount", ["-t", "tmpfs", "-o", "size=16m", "tmpfs", disk]).status === 0 ? disk : null;
}

/** Leaves so many kilobytes on the disk. */
function fill(disk: string, leaves: number): void {
  const [, free] = /(\d+)\s+\d+%/.exec(spawnSync("df", ["-k", disk]).stdout.toString()) ?? [];
  writeFileSync(join(disk, `filler-${leaves}`), new Uint8Array(1024 * (Number(free) - leaves)));
}

const contents = (folder: string): Map<string, string> =>
  new Map(filesBelow(folder).map((file) => [file, readFileSync(join(folder, file), "base64")]));
/** Each command writes into a folder of its own. */
const commands = {
  sweep: (out: string) => ["sweep", "--duration", "1", "--force", "--out", join(out, "sweep")],
  report: (out: string) => ["report", session.folder, "--out", join(out, "report")],
  listen: (out: string) => ["listen", session.folder, "--mix", mix, "--out", join(out, "listen")],
  init: (out: string) => ["init", join(out, "init"), "--force"],
};
const run = (command: keyof typeof commands, out: string, uid?: number): Promise<Ended> =>
  carrywell([...commands[command](out), "--quiet"], uid === undefined ? {} : { uid });

describe.skipIf(smallDisk === null)("A disk that is full (not run: this user may not mount one)", () => {
  const disk = smallDisk ?? "";
  beforeAll(async () => {
    const noise = whiteNoise(2 * shortRecipe.sampleRate, 4).map((value) => 0.05 * value);
    writeFileSync(mix, encodeWav([noise], shortRecipe.sampleRate, "pcm16"));
    cpSync(session.folder, join(disk, "init"), { recursive: true });
    for (const command of ["sweep", "report"] as const) {
      expect(await run(command, disk)).toMatchObject({ code: 0, err: "" });
    }
    // Enough to begin with, too little for anything that is written; nothing at all for the smallest, which comes last.
    fill(disk, 100);
  }, 120_000);

  it.each(["sweep", "report", "listen", "init"] as const)(
    "is said by %s, and earlier results stay whole",
    async (command) => {
      if (command === "init") fill(disk, 0);
      const before = contents(disk);
      const { code, out, err } = await run(command, disk);
      expect([code, out]).toEqual([2, ""]);
      expect(err).toMatch(
        /^The output cannot be written: the disk is full\.\n {2}where: .*\n {2}try: {3}make room, or/,
      );
      expect(contents(disk)).toEqual(before);
      expect(readdirSync(disk).filter((name) => name.includes(".part") || name === "listen")).toEqual([]);
    },
  );
});

describe("A folder that may not be written to", () => {
  const folder = join(root, "locked");
  const uid = process.getuid?.() === 0 ? NOBODY : undefined;
  beforeAll(async () => {
    cpSync(session.folder, join(folder, "init"), { recursive: true });
    expect((await run("sweep", folder)).code).toBe(0);
    chmodSync(root, 0o755);
    for (const name of [folder, join(folder, "init"), join(folder, "sweep")]) chmodSync(name, 0o555);
  });
  afterAll(() => {
    for (const name of [folder, join(folder, "init"), join(folder, "sweep")]) chmodSync(name, 0o755);
  });

  it.each(["sweep", "init"] as const)("is named by %s, and nothing in it changes", async (command) => {
    const before = contents(folder);
    const { mtimeMs } = statSync(folder);
    const { code, out, err } = await run(command, folder, uid);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(/^The output cannot be written: this user may not write there\.\n {2}where: .*\n {2}try: /);
    expect(contents(folder)).toEqual(before);
    expect(statSync(folder).mtimeMs).toBe(mtimeMs);
  });

  it("does not keep a session in it from being checked and reported elsewhere", async () => {
    const { code, err } = await carrywell(["check", join(folder, "init"), "--quiet"], uid === undefined ? {} : { uid });
    expect([code, err]).toEqual([0, ""]);
  });
});
