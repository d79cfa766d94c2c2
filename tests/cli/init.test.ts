import { createHash } from "node:crypto";
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";

import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from "vitest";

import type { Session } from "../../src/model.js";
import { encodeWav } from "../../src/recording/encode-wav.js";
import { renderReel } from "../../src/sweep/render.js";
import { singleEvents } from "../../src/sweep/timeline.js";
import { type Path, recordPaths, whiteNoise } from "../known-recording.js";
import { carrywell, type Ended } from "./run.js";
import { recordedReel, shortRecipe } from "./small-session.js";

const { sampleRate } = shortRecipe;
const wav = (...channels: Float64Array[]): Uint8Array => encodeWav(channels, sampleRate, "pcm16");
/** No two loudspeakers are heard by the same ways: every number is another one. */
const room = (number: number): Path[] => [
  { delayS: 0.005 + 2e-4 * number, gain: 0.3 },
  { delayS: 0.011 + 7e-4 * number, gain: -0.15 },
  { delayS: 0.019 - 4e-4 * number, gain: 0.1 },
];
function heard(events: typeof shortRecipe.events, seed: number, noiseSeed = seed): Float64Array {
  const samples = recordPaths(shortRecipe, events, { L: room(seed), R: room(seed + 0.5) });
  const noise = whiteNoise(samples.length, noiseSeed);
  return samples.map((value, n) => value + 1e-4 * noise[n]!);
}
/** A microphone in a room, before one loudspeaker or a pair. */
const single = (seed: number): Float64Array => heard(singleEvents(shortRecipe, "L"), seed);
const reel = (seed: number): Float64Array => heard(shortRecipe.events, seed);
const wire = recordPaths(shortRecipe, shortRecipe.events, {
  L: [{ delayS: 0.001, gain: 0.5 }],
  R: [{ delayS: 0.001, gain: 0.5 }],
});
const tone = Float64Array.from(
  { length: 4 * sampleRate },
  (_, n) => 0.1 * Math.sin((2 * Math.PI * 1000 * n) / sampleRate),
);

let folder: string;
const put = (file: string, content: string | Uint8Array): void => {
  mkdirSync(dirname(join(folder, file)), { recursive: true });
  writeFileSync(join(folder, file), content);
};
const made = (): void => {
  folder = mkdtempSync(join(tmpdir(), "carrywell-init-"));
  put("sweep.json", JSON.stringify(shortRecipe));
};
const gone = (): void => {
  rmSync(folder, { recursive: true, force: true });
};
const session = (name = "session.json"): Session => JSON.parse(readFileSync(join(folder, name), "utf8")) as Session;
/** Content and date of everything but the session. */
const state = (): string[] =>
  (readdirSync(folder, { recursive: true }) as string[])
    .filter((name) => !name.startsWith("session.json") && statSync(join(folder, name)).isFile())
    .sort()
    .map((name) => {
      const hash = createHash("sha256")
        .update(readFileSync(join(folder, name)))
        .digest("hex");
      return `${name} ${hash} ${statSync(join(folder, name)).mtimeMs}`;
    });

describe("A folder as people leave it", () => {
  let ended: Ended;
  let before: string[];
  beforeAll(async () => {
    made();
    const { L, R } = renderReel(shortRecipe);
    put("reel.wav", wav(L, R));
    const first = reel(7);
    put("Mains mix 1.wav", wav(first));
    put("Mains L mix 2.wav", wav(heard(shortRecipe.events, 7, 99)));
    put("Mains mix 1 copy.wav", wav(first));
    put("near_L-pos2.wav", wav(single(1)));
    put("near_R-pos2.wav", wav(single(2)));
    put("near_left-head left.wav", wav(single(3)));
    put("kitchen phone.wav", wav(single(4)));
    put("loopback/mains sofa.wav", wav(wire, reel(6)));
    put("calibrator 94 dB.wav", wav(tone));
    put("mic 40217 0deg.txt", "20 -0.5\n1000 0\n20000 1.5\n");
    put("notes.txt", "ask Ida about the gain");
    put("song.wav", wav(whiteNoise(3 * sampleRate, 8).map((value) => 0.05 * value)));
    put("nears mix.wav", "not a sound");
    put("earlier/session.json", "{}");
    put("earlier/mains mix.wav", wav(recordedReel()));
    put("report/results.json", "{}");
    put("report/impulses/mains-L@mix.wav", wav(single(5)));
    before = state();
    ended = await carrywell(["init", folder]);
  });
  afterAll(gone);

  it("becomes a session: kinds of monitors, sides, places and takes from the names", () => {
    const { monitors, positions, recordings, sweep } = session();
    expect(sweep).toBe("sweep.json");
    expect(monitors).toEqual([
      { id: "mains", role: "main" },
      { id: "near", role: "nearfield" },
      { id: "kitchen_phone", role: "phone", name: "kitchen phone" },
    ]);
    expect(positions).toEqual([
      { id: "mix", kind: "mix" },
      { id: "head_left", kind: "near" },
      { id: "sofa", kind: "room" },
      { id: "pos2", kind: "room" },
    ]);
    expect(recordings).toEqual([
      { file: "kitchen phone.wav", monitor: "kitchen_phone", position: "mix", take: 1, channel: "both" },
      { file: "loopback/mains sofa.wav", monitor: "mains", position: "sofa", take: 1, fileChannel: 2, loopback: 1 },
      { file: "Mains L mix 2.wav", monitor: "mains", position: "mix", take: 2 },
      { file: "Mains mix 1.wav", monitor: "mains", position: "mix", take: 1 },
      { file: "near_L-pos2.wav", monitor: "near", position: "pos2", take: 1, channel: "L" },
      { file: "near_left-head left.wav", monitor: "near", position: "head_left", take: 1, channel: "L" },
      { file: "near_R-pos2.wav", monitor: "near", position: "pos2", take: 1, channel: "R" },
    ]);
  });

  it("has the microphone's table, and the calibrator with the level of its name", () => {
    expect(session().microphone).toEqual({
      calibration: "mic 40217 0deg.txt",
      level: { file: "calibrator 94 dB.wav", soundPressureLevelDb: 94 },
    });
  });

  it("is shown with the words that led to each guess", () => {
    expect(ended.out).toMatch(
      /^near_R-pos2\.wav +one sweep +near \(nearfield\) +right +pos2 \(room\) +1 +near = nearfield, R = side, pos 2 = place$/m,
    );
    expect(ended.out).toMatch(
      /^Mains mix 1\.wav +reel +mains \(main\) +left and right +mix +1 +Mains = main, mix = mix position, 1 = take$/m,
    );
  });

  it("is shown with what was left out and why, and the code says that a recording was", () => {
    for (const line of [
      /nears mix\.wav: it cannot be read: /,
      /reel\.wav: it is the sweep as it is played/,
      /song\.wav: the sweep is not in it/,
      /Mains mix 1 copy\.wav: it is the same file as Mains mix 1\.wav/,
      /earlier: this folder is something of its own/,
      /report: this folder is something of its own/,
    ]) {
      expect(ended.out).toMatch(line);
    }
    expect(ended.code).toBe(1);
  });

  it("is shown with what could not be told, what contradicts the content, and what to edit", () => {
    expect(ended.out).toMatch(
      /Mains L mix 2\.wav: its name says L, but it holds a reel of both sides; taken as what it holds/,
    );
    expect(ended.out).toMatch(/How far pos2 is from the seat is not known: .* edit "kind" to "near"/);
    expect(ended.out).toMatch(/channel 1 is taken for the electrical signal/);
  });

  it("is accepted by check and report at once, and nothing but the session was written", async () => {
    const check = await carrywell(["check", folder, "--quiet"]);
    expect([check.code, check.err]).toEqual([0, ""]);
    const report = await carrywell(["report", folder, "--out", join(folder, "report 2"), "--quiet"]);
    expect([report.code, report.err]).toEqual([0, ""]);
    rmSync(join(folder, "report 2"), { recursive: true });
    expect(state()).toEqual(before);
  });
});

describe("A folder with a session of its own", () => {
  const own = '{ "schema": "carrywell/session/1", "title": "by hand" }';
  beforeEach(() => {
    made();
    put("mains mix.wav", wav(recordedReel()));
    put("session.json", own);
  });
  afterEach(gone);

  it("keeps it: the guess is shown, nothing is written, and the code says so", async () => {
    const { code, out, err } = await carrywell(["init", folder, "--quiet"]);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(/already holds a session\.json; nothing was written.*\n {2}where: .*\n {2}try: .*--force/);
    const told = await carrywell(["init", folder]);
    expect(told.out).toMatch(/mains mix\.wav +reel +mains \(main\)/);
    expect(readdirSync(folder).sort()).toEqual(["mains mix.wav", "session.json", "sweep.json"]);
    expect(readFileSync(join(folder, "session.json"), "utf8")).toBe(own);
  });

  it("has it replaced with --force, and a copy is kept each time", async () => {
    const first = await carrywell(["init", folder, "--force", "--json", "--quiet"]);
    expect([first.code, first.err]).toEqual([0, ""]);
    expect(JSON.parse(first.out)).toMatchObject({
      ...{ file: "session.json", written: true, kept: "session.json.1" },
      recordings: [{ file: "mains mix.wav", monitor: "mains", position: "mix", take: 1, channel: null, holds: "reel" }],
      session: session(),
    });
    const written = readFileSync(join(folder, "session.json"), "utf8");
    const second = await carrywell(["init", folder, "--force", "--json", "--quiet"]);
    expect(JSON.parse(second.out)).toMatchObject({ kept: "session.json.2" });
    expect(readdirSync(folder).sort()).toEqual([
      ...["mains mix.wav", "session.json", "session.json.1", "session.json.2", "sweep.json"],
    ]);
    expect(readFileSync(join(folder, "session.json.1"), "utf8")).toBe(own);
    expect(readFileSync(join(folder, "session.json.2"), "utf8")).toBe(written);
  });
});

describe("A folder that cannot become a session", () => {
  beforeEach(made);
  afterEach(gone);

  const cases: [string, () => void, RegExp][] = [
    [
      "without a recording",
      () => undefined,
      /No file in the folder holds a recording.*\n {2}where: .*\n {2}try: {3}copy the recordings/,
    ],
    [
      "without a sweep",
      () => {
        rmSync(join(folder, "sweep.json"));
        put("mains mix.wav", wav(recordedReel()));
      },
      /Nothing in the folder says what was played.*\n {2}where: sweep\.json\n {2}try: {3}copy the sweep\.json/,
    ],
    [
      "with a damaged sweep",
      () => {
        put("sweep.json", '{ "schema": "carrywell/sweep/1", "sampleRate": 48000 }');
        put("mains mix.wav", wav(recordedReel()));
      },
      /sweep recipe cannot be used.*\n {2}where: sweep\.json/,
    ],
    [
      "that is a file",
      () => {
        folder = join(folder, "sweep.json");
      },
      /This is a file.*\n {2}where: /,
    ],
    [
      "that is not there",
      () => {
        folder = join(folder, "nowhere");
      },
      /There is no such folder/,
    ],
  ];
  it.each(cases)("%s is refused with what to do", async (_, make, message) => {
    const root = folder;
    make();
    const { code, out, err } = await carrywell(["init", folder, "--quiet"]);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(message);
    expect(readdirSync(root)).not.toContain("session.json");
    folder = root;
  });

  it("with names that would steer a terminal prints none of that", async () => {
    put("mains \u001b[2J mix\u0007.wav", wav(recordedReel()));
    const { code, out } = await carrywell(["init", folder]);
    expect(code).toBe(0);
    expect(out).not.toMatch(/[\u0000-\u0009\u000b-\u001f]/);
  });
});

describe("What nobody could look into", () => {
  beforeEach(made);
  afterEach(gone);

  it.each([
    ["a link that leads out of the folder", "Take 7.wav", /link that leads out of the folder/],
    ["a damaged file, whatever it is called", "Take 8.wav", /cannot be read: .*cut short/],
    ["a lossy file", "Take 9.m4a", /lossy or video format/],
  ])("%s is listed as left out, and the exit code says so", async (_, file, reason) => {
    put("Mains mix.wav", wav(reel(7)));
    if (file === "Take 7.wav") symlinkSync("/etc/hostname", join(folder, file));
    else if (file === "Take 8.wav") put(file, wav(reel(8)).subarray(0, 40_000));
    else put(file, "ftypM4A");
    const { code, out } = await carrywell(["init", folder, "--json"]);
    const { leftOut, recordings } = JSON.parse(out) as {
      leftOut: { file: string; reason: string }[];
      recordings: unknown[];
    };
    expect(leftOut).toEqual([{ file, reason: expect.stringMatching(reason) as string }]);
    expect([recordings.length, code]).toEqual([1, 1]);
  });
});
