import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import { afterAll, beforeAll, describe, expect, it } from "vitest";

import type { Results } from "../../src/model.js";
import { decodeWav } from "../../src/recording/decode-wav.js";
import { encodeWav } from "../../src/recording/encode-wav.js";
import type { Listening } from "../../src/schema/listening.js";
import { loudnessMeter } from "../../src/translation/programme-loudness.js";
import { truePeakMeter } from "../../src/translation/true-peak.js";
import { seededRandom } from "../recording/seeded-random.js";
import { carrywell, type Ended } from "./run.js";
import { type SmallSession, smallSession } from "./small-session.js";

let session: SmallSession;
let root: string;

/** Noise that falls with frequency, a bass line of rich notes in the middle, 3 s. */
function song(rate: number, seconds = 3): Float32Array[] {
  const random = seededRandom(9);
  const sides = [0, 1].map(() => {
    let low = 0;
    return Float32Array.from({ length: seconds * rate }, () => (low = 0.97 * low + 0.03 * (random() - 0.5)) * 2);
  });
  for (let n = 0; n < seconds * rate; n++) {
    let note = 0;
    for (let k = 1; k <= 20; k++) note += Math.sin((2 * Math.PI * 55 * k * n) / rate) / k;
    for (const side of sides) side[n]! += 0.1 * note;
  }
  return sides;
}

function put(name: string, content: Uint8Array | string): string {
  const path = join(root, name);
  writeFileSync(path, content);
  return path;
}

function listenTo(mix: string, out: string, ...more: string[]): Promise<Ended> {
  return carrywell(["listen", session.folder, "--mix", mix, "--out", join(root, out), ...more]);
}

function listeningIn(out: string): Listening {
  return JSON.parse(readFileSync(join(root, out, "listen.json"), "utf8")) as Listening;
}

beforeAll(() => {
  session = smallSession();
  root = join(session.folder, "..");
});
afterAll(() => {
  session.remove();
});

describe("A mix that is listened to through a session", () => {
  let mix: string;
  let ended: Ended;
  let listening: Listening;

  beforeAll(async () => {
    mix = put("song.wav", encodeWav(song(48_000), 48_000, "pcm24"));
    ended = await listenTo(mix, "heard");
    listening = listeningIn("heard");
  });

  it("becomes one file for each monitor and class, a sequence, a page and the figures", () => {
    expect(ended).toMatchObject({ code: 0 });
    expect(readdirSync(join(root, "heard")).sort()).toEqual(
      [
        ...["car", "earphones", "laptop", "phone", "tv", "wireless"].map((id) => `class-${id}.wav`),
        ...["listen.html", "listen.json", "mains.wav", "neutral.wav", "sequence.wav"],
      ].sort(),
    );
    expect(ended.out).toContain("What is lost where");
  });

  it("is equally loud in each of them, and no true peak passes -1 dB", () => {
    for (const { file, matched, truePeakDbtp } of listening.versions) {
      const { channels, encoding } = decodeWav(new Uint8Array(readFileSync(join(root, "heard", file))), file);
      const loudness = loudnessMeter(48_000, [1, 1]);
      loudness.push(channels);
      const peak = truePeakMeter(2);
      peak.push(channels);
      const peakDb = 20 * Math.log10(peak.result());
      expect(encoding).toBe("24-bit PCM");
      // What was measured before the gain is what is in the file, up to the rounding to 24 bits.
      expect(peakDb).toBeCloseTo(truePeakDbtp!, 4);
      expect(peakDb).toBeLessThanOrEqual(-1 + 1e-4);
      if (matched) expect(loudness.result().integrated).toBeCloseTo(listening.loudnessLufs!, 4);
    }
  });

  it("stands in the sequence as its versions do, one after the other", () => {
    const { sequence, versions } = listening;
    const { channels } = decodeWav(new Uint8Array(readFileSync(join(root, "heard", "sequence.wav"))), "sequence.wav");
    const second = versions[1]!;
    const alone = decodeWav(new Uint8Array(readFileSync(join(root, "heard", second.file))), second.file);
    const at = Math.round((sequence.parts[1]!.atS + 1) * 48_000);
    const from = Math.round((sequence.fromS + 1) * 48_000);
    expect(channels[0]!.slice(at, at + 100)).toEqual(alone.channels[0]!.slice(from, from + 100));
    expect(sequence.parts.map(({ id }) => id)).toEqual(versions.map(({ id }) => id));
  });

  it("carries its bass line of rich notes to a television", () => {
    const tv = listening.translation.classes.find(({ id }) => id === "tv")!;
    expect(tv.bassLine!.typical.verdict).toBe("heard");
    expect(listening.translation.classes.find(({ id }) => id === "car")!.bassLine).toBeNull();
  });

  it("comes out the same when it is rendered again over the first", async () => {
    const before = readFileSync(join(root, "heard", "listen.json"), "utf8");
    const mains = readFileSync(join(root, "heard", "mains.wav"));
    expect(await listenTo(mix, "heard", "--quiet")).toMatchObject({ code: 0, out: "", err: "" });
    expect(readFileSync(join(root, "heard", "listen.json"), "utf8")).toBe(before);
    expect(readFileSync(join(root, "heard", "mains.wav")).equals(mains)).toBe(true);
  });

  it("is itself on the monitor that is listened on", async () => {
    expect(await listenTo(mix, "on", "--on", "mains", "--json")).toMatchObject({ code: 0 });
    const mains = listeningIn("on").versions.find(({ id }) => id === "mains")!;
    expect(mains).toMatchObject({ filter: "none", taps: 1 });
    expect(listeningIn("on").versions.find(({ id }) => id === "neutral")!.filter).toBe("tone");
  });

  it("sounds with the whole response of the room when that is asked for", async () => {
    expect(await listenTo(mix, "room", "--room")).toMatchObject({ code: 0 });
    const { versions } = listeningIn("room");
    expect(versions.map(({ id, filter }) => [id, filter]).slice(0, 3)).toEqual([
      ["neutral", "none"],
      ["mains", "room"],
      ["class:phone", "tone"],
    ]);
    expect(readFileSync(join(root, "room", "listen.html"), "utf8")).toContain("Listen on earphones");
  });

  it("may be mono or of another rate, and this is said", async () => {
    const mono = put("mono.wav", encodeWav([song(44_100)[0]!], 44_100, "pcm16"));
    const { code, err } = await listenTo(mono, "mono");
    expect(code).toBe(0);
    expect(err).toContain("The mix is mono");
    expect(err).toContain("resampled to 48000 Hz by libsamplerate");
    const { mix: facts, notes, versions } = listeningIn("mono");
    expect(facts).toMatchObject({ channels: 1, sampleRate: 44_100, renderedRate: 48_000, durationS: 3 });
    expect(notes).toHaveLength(2);
    expect(readdirSync(join(root, "mono")).filter((name) => name.startsWith("."))).toEqual([]);
    const { channels } = decodeWav(new Uint8Array(readFileSync(join(root, "mono", versions[0]!.file))), "neutral.wav");
    expect(channels[0]).toHaveLength(144_000);
    expect(channels[1]).toEqual(channels[0]);
  });
});

describe("A mix that is listened to on a class of the session's own, which is the programme as well", () => {
  it("has its file, its figures, and its weights in the drift", async () => {
    const own = smallSession();
    const sides = song(48_000);
    own.put("song.wav", encodeWav(sides, 48_000, "pcm24"));
    const rows = [31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000].map(
      (hz) => `${hz};${hz < 200 ? "-40;-30,5;-20" : "-3;0;2"}`,
    );
    own.put("kitchen.csv", ["frequency Hz;low dB;typical dB;high dB", ...rows].join("\n"));
    const kitchen = {
      id: "kitchen",
      name: "kitchen radio",
      file: "kitchen.csv",
      mono: true,
      levelDba: 62,
      noiseDba: 48,
    };
    own.describe({ translation: { programme: "song.wav" }, playbackClasses: [kitchen] });
    const [out, report] = ["listened", "reported"].map((name) => join(own.folder, "..", name));
    const mix = join(own.folder, "song.wav");
    expect(await carrywell(["listen", own.folder, "--mix", mix, "--out", out!])).toMatchObject({ code: 0 });
    expect(await carrywell(["report", own.folder, "--out", report!])).toMatchObject({ code: 0 });
    const listening = JSON.parse(readFileSync(join(out!, "listen.json"), "utf8")) as Listening;
    expect(existsSync(join(out!, "class-kitchen.wav"))).toBe(true);
    const { members, bassLine } = listening.translation.classes.find(({ id }) => id === "kitchen")!;
    expect(members.map(({ reason }) => reason)).toEqual([null, null, null]);
    expect(bassLine!.typical.verdict).toBe("heard");
    const { translation } = JSON.parse(readFileSync(join(report!, "results.json"), "utf8")) as Results;
    expect(translation!.programme).toBe("song.wav");
    for (const { heardOn, regions } of listening.translation.drift) {
      const reported = translation!.drift.find((one) => one.heardOn === heardOn)!.regions;
      // One spectrum, computed twice from the same samples at the same rate.
      expect(regions.map(({ driftDb }) => driftDb)).toEqual(reported.map(({ driftDb }) => driftDb));
    }
    const page = readFileSync(join(report!, "report.html"), "utf8");
    expect(page).toContain("own mix, song.wav");
    expect(page).toContain("kitchen radio");
    own.remove();
  });

  it("is never written over", async () => {
    const own = smallSession();
    own.put("class-tv.wav", encodeWav(song(48_000), 48_000, "pcm24"));
    own.put("listen.json", '{"schema":"carrywell/listen/1","versions":[{"file":"class-tv.wav"}]}');
    own.describe({ translation: { programme: "class-tv.wav" } });
    const mix = put("fine.wav", encodeWav(song(48_000, 2), 48_000, "pcm16"));
    const { code, err } = await carrywell(["listen", own.folder, "--mix", mix, "--out", own.folder]);
    expect(err).toContain("made from");
    expect(code).toBe(2);
    own.remove();
  });
});

describe("A mix that cannot be rendered", () => {
  const good = song(48_000, 2);
  it.each<[string, string, () => Uint8Array | string, RegExp]>([
    [
      "is silent",
      "silent.wav",
      () => encodeWav([new Float32Array(96_000), new Float32Array(96_000)], 48_000, "pcm16"),
      /silent/,
    ],
    [
      "is not audio",
      "notes.wav",
      () => "only words",
      /no sound file; a mix is read from WAV, FLAC, AIFF[\s\S]*export the mix/,
    ],
    ["is an MP3", "song.mp3", () => "ID3 and so on", /an MP3 file; a mix is read[\s\S]*export the mix/],
    [
      "has six channels",
      "six.wav",
      () =>
        encodeWav(
          Array.from({ length: 6 }, () => good[0]!),
          48_000,
          "pcm16",
        ),
      /6 channels/,
    ],
    [
      "is shorter than a second",
      "short.wav",
      () => encodeWav([good[0]!.subarray(0, 9600)], 48_000, "pcm16"),
      /only 0\.20 s/,
    ],
    ["is cut short", "cut.wav", () => encodeWav(good, 48_000, "pcm24").subarray(0, 300_000), /cut short/],
    ["is empty", "empty.wav", () => "", /an empty file/],
  ])("because it %s ends the run and writes nothing", async (_, name, content, says) => {
    const { code, out, err } = await listenTo(put(name, content()), "nothing");
    expect(code).toBe(2);
    expect(err).toMatch(says);
    expect(err).not.toContain("    at ");
    expect(out).toBe("");
    expect(existsSync(join(root, "nothing"))).toBe(false);
  });

  it("names what is wrong with the command", async () => {
    const mix = put("fine.wav", encodeWav(good, 48_000, "pcm16"));
    expect(await listenTo(join(root, "none.wav"), "nothing")).toMatchObject({ code: 2 });
    const unknown = await listenTo(mix, "nothing", "--on", "nears");
    expect(unknown).toMatchObject({ code: 2 });
    expect(unknown.err).toMatch(/no monitor "nears"[\s\S]*mains/);
    expect(await listenTo(mix, "nothing", "--on", "mains", "--room")).toMatchObject({ code: 2 });
    expect(existsSync(join(root, "nothing"))).toBe(false);
  });

  it("never replaces files that it did not write, nor the mix itself", async () => {
    mkdirSync(join(root, "taken"));
    const mine = put("taken/mains.wav", "mine");
    const mix = put("fine.wav", encodeWav(good, 48_000, "pcm16"));
    const { code, err } = await listenTo(mix, "taken");
    expect(code).toBe(2);
    expect(err).toContain('"mains.wav"');
    expect(readFileSync(mine, "utf8")).toBe("mine");
    expect(await listenTo(mix, "again", "--quiet")).toMatchObject({ code: 0 });
    const itself = await listenTo(join(root, "again", "class-tv.wav"), "again");
    expect(itself).toMatchObject({ code: 2 });
    expect(itself.err).toContain("made from");
  });
});
