import { existsSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import { afterAll, beforeAll, describe, expect, it } from "vitest";

import { encodeWav } from "../../src/recording/encode-wav.js";
import type { Finding, Results } from "../../src/model.js";
import { seededRandom } from "../recording/seeded-random.js";
import { carrywell, type Ended } from "./run.js";
import { recordedReel, shortRecipe, smallSession, usualSession } from "./small-session.js";

/** One session with every bad recording there is beside a good one: each must be named, and none may harm the rest. */

const session = smallSession();
const report = join(session.folder, "report");
let ended: Ended;
let results: Results;
let checked: Ended;

interface Verdict {
  readonly file: string;
  readonly usable: boolean;
  readonly findings: readonly Finding[];
}

interface BadRecording {
  readonly what: string;
  readonly file: string;
  readonly message: RegExp;
  readonly remedy: RegExp;
  readonly monitor?: string;
  readonly position?: string;
  readonly make?: () => void;
}

const { sampleRate } = shortRecipe;
const wav = (samples: Float64Array, rate = sampleRate): Uint8Array => encodeWav([samples], rate, "pcm16");
const whole = wav(recordedReel());

const bad: readonly BadRecording[] = [
  {
    what: "a missing file",
    file: "mains-miks.wav",
    message: /does not exist/,
    remedy: /did you mean "mains-mix\.wav"/,
  },
  {
    what: "a file that is no sound",
    file: "notes.wav",
    message: /notes\.wav/,
    remedy: /WAV/,
    make: () => {
      session.put("notes.wav", "microphone was 20 cm to the left, ask Ida about the gain");
    },
  },
  {
    what: "an empty file",
    file: "empty.wav",
    message: /empty/i,
    remedy: /\w/,
    make: () => {
      session.put("empty.wav", "");
    },
  },
  {
    what: "a folder in place of a file",
    file: "takes.wav",
    message: /is a folder/,
    remedy: /name a file/,
    make: () => {
      mkdirSync(join(session.folder, "takes.wav"));
    },
  },
  {
    what: "a path that climbs out",
    file: "../other.wav",
    message: /leads out of the session/,
    remedy: /copy the file/,
  },
  {
    what: "a path that goes down and climbs out",
    file: "a/../../other.wav",
    message: /leads out of the session/,
    remedy: /copy the file/,
  },
  { what: "an absolute path", file: "/etc/hostname", message: /is absolute/, remedy: /copy the file/ },
  { what: "a path with a drive", file: "C:/takes/a.wav", message: /is absolute/, remedy: /copy the file/ },
  { what: "a path with backslashes", file: "takes\\a.wav", message: /backslashes/, remedy: /write "\/"/ },
  {
    what: "a link that leads out",
    file: "link.wav",
    message: /is a link that leads out/,
    remedy: /copy the file/,
    make: () => {
      writeFileSync(join(session.folder, "..", "outside.wav"), whole);
      symlinkSync(join(session.folder, "..", "outside.wav"), join(session.folder, "link.wav"));
    },
  },
  {
    what: "a link that leads back to itself",
    file: "loop.wav",
    message: /leads back to itself/,
    remedy: /copy it/,
    make: () => {
      symlinkSync("loop.wav", join(session.folder, "loop.wav"));
    },
  },
  {
    what: "a monitor that does not exist",
    file: "a.wav",
    monitor: "manis",
    message: /no monitor "manis" \(session\.json, line \d+, recordings\[\d+\]\.monitor\)/,
    remedy: /did you mean "mains"\?/,
  },
  {
    what: "a monitor whose id could not exist",
    file: "b.wav",
    monitor: "the big ones",
    message: /no monitor "the big ones"/,
    remedy: /use one of: mains/,
  },
  {
    what: "a position that does not exist",
    file: "c.wav",
    position: "Mix",
    message: /no position "Mix"/,
    remedy: /did you mean "mix"\?/,
  },
  { what: "a file that is listed twice", file: "mains-mix.wav", message: /listed already/, remedy: /remove the entry/ },
  {
    what: "silence",
    file: "silent.wav",
    message: /is silent/,
    remedy: /check the microphone/,
    make: () => {
      session.put("silent.wav", wav(new Float64Array(5 * sampleRate)));
    },
  },
  {
    what: "clipping",
    file: "clipped.wav",
    message: /clipped: \d+ samples/,
    remedy: /lower the microphone's gain/,
    make: () => {
      session.put("clipped.wav", wav(recordedReel(8)));
    },
  },
  {
    what: "a wrong sample rate",
    file: "rate.wav",
    message: /says that it is sampled at 44100 Hz, but its sound was sampled at 48000 Hz/,
    remedy: /have the file say 48000 Hz/,
    make: () => {
      session.put("rate.wav", wav(recordedReel(), 44_100));
    },
  },
  {
    what: "a recording without the sweep",
    file: "hiss.wav",
    message: /sweep is not in the recording/,
    remedy: /check that this file is the right one/,
    make: () => {
      const random = seededRandom(3);
      session.put("hiss.wav", wav(Float64Array.from({ length: 5 * sampleRate }, () => 0.2 * (random() - 0.5))));
    },
  },
  {
    what: "a recording that ends as the second sweep begins",
    file: "early.wav",
    message: /ends .* before the right sweep does/,
    remedy: /until the second marker/,
    make: () => {
      session.put("early.wav", wav(recordedReel().subarray(0, 2.6 * sampleRate)));
    },
  },
  {
    what: "a recording that ends in the middle of the first sweep",
    file: "cut.wav",
    message: /ends .* before the (left|right) sweep does|[LR] sweep of the reel is not/,
    remedy: /until the second marker|runs to the end/,
    make: () => {
      session.put("cut.wav", wav(recordedReel().subarray(0, 1.8 * sampleRate)));
    },
  },
  {
    what: "a file that lost its end on the way",
    file: "truncated.wav",
    message: /truncated\.wav/,
    remedy: /copy|again/,
    make: () => {
      session.put("truncated.wav", whole.subarray(0, Math.floor(whole.length / 3)));
    },
  },
];

beforeAll(async () => {
  for (const { make } of bad) make?.();
  const recordings = bad.map(({ file, monitor = "mains", position = "sofa" }) => ({ file, monitor, position }));
  session.describe({ recordings: [...usualSession.recordings, ...recordings] });
  ended = await carrywell(["report", session.folder, "--out", report]);
  checked = await carrywell(["check", session.folder]);
  if (existsSync(report)) results = JSON.parse(readFileSync(join(report, "results.json"), "utf8")) as Results;
});
afterAll(() => {
  session.remove();
});

describe("A session with bad recordings", () => {
  it("is reported, and the exit code says that something was rejected", () => {
    expect(ended.err).not.toMatch(/failed/);
    expect(ended.code).toBe(1);
    expect(existsSync(join(report, "report.html"))).toBe(true);
  });

  it("still measures the good recording, both channels", () => {
    const good = results.measurements.filter(({ position, derived }) => position === "mix" && !derived);
    expect(good.map(({ id, quality }) => [id, quality.usable])).toEqual([
      ["mains-L@mix", true],
      ["mains-R@mix", true],
    ]);
  });

  it.each(bad)("names $what, why, and what to do", ({ file, message, remedy }) => {
    const findings = results.findings.filter(
      (finding) => finding.severity === "reject" && finding.recordings.includes(file),
    );
    expect(findings.length).toBeGreaterThan(0);
    const about = findings.map((finding) => `${finding.recordings.join()} ${finding.message}`).join("\n");
    expect(about).toMatch(message);
    expect(findings.map((finding) => finding.remedy).join("\n")).toMatch(remedy);
    expect(ended.out).toContain(findings[0]!.remedy);
  });

  it("never shows a stack trace", () => {
    expect(ended.out + ended.err).not.toMatch(/^\s+at /m);
  });

  it("is checked with one line for each recording, and the same remedy as in the report", () => {
    expect([checked.code, checked.err]).toEqual([1, expect.not.stringMatching(/failed|^\s+at /m)]);
    const lines = checked.out.split("\n");
    for (const { file } of bad) {
      const verdict =
        file === "early.wav" || file === "cut.wav" ? /^✗ \S+ +(usable in part|not usable)/ : /^✗ .* not usable$/;
      expect(lines.filter((line) => line.includes(`✗ ${file} `)).join()).toMatch(verdict);
    }
    expect(lines[0]).toMatch(/^✓ mains-mix\.wav +usable: left and right; peak −\d+\.\d dBFS, \d+ dB over the noise$/);
    for (const { remedy } of results.findings.filter(({ severity }) => severity === "reject")) {
      expect(checked.out).toContain(`try: ${remedy!}`);
    }
    expect(checked.out).toContain(`1 of ${bad.length + 1} recordings can be used`);
  });

  it("is checked with the findings of the report, no more and no fewer", async () => {
    const { code, out } = await carrywell(["check", session.folder, "--json", "--quiet"]);
    expect(code).toBe(1);
    const { recordings } = JSON.parse(out) as { recordings: Verdict[] };
    expect(recordings.map(({ file, usable }) => [file, usable])).toEqual([
      ["mains-mix.wav", true],
      ...bad.map(({ file }) => [file, false]),
    ]);
    const said = (findings: readonly Finding[]): string[] =>
      [...new Set(findings.map((finding) => JSON.stringify(finding)))].sort();
    const reported = [
      ...results.findings.filter(({ topic }) => topic === "recording"),
      ...results.measurements.flatMap(({ quality }) => quality.findings),
    ];
    expect(said(recordings.flatMap(({ findings }) => findings))).toEqual(said(reported));
  });

  it("lets no path of this machine into its results", () => {
    expect(JSON.stringify(results)).not.toContain(session.folder);
  });
});
