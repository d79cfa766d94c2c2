import { readFileSync } from "node:fs";

import type { ListenAssets } from "../../src/report/listen-page.js";
import type { Listening, ListeningVersion } from "../../src/schema/listening.js";

function text(name: string): string {
  return readFileSync(new URL(`../../report-templates/${name}`, import.meta.url), "utf8");
}

export function shippedListenAssets(): ListenAssets {
  return {
    template: text("listen.liquid"),
    style: `${text("report.css")}\n${text("listen.css")}`,
    script: text("listen.js"),
  };
}

function version(id: string, kind: ListeningVersion["kind"], name: string, loses: string | null): ListeningVersion {
  return {
    ...{ id, kind, name, loses, file: `${id.replace(":", "-")}.wav`, mono: loses !== null, notes: [] },
    ...{ filter: kind === "neutral" ? "none" : "tone", taps: 8192, curve: [], loudnessLufs: -16, truePeakDbtp: -3 },
    ...{ gainDb: -1.5, matched: true, reason: null },
  };
}

const lost = { verdict: "lost", pitchShare: 0.1, colourShare: 0.4, reason: null } as const;

/** A listening with one of everything. */
export const listeningFixture: Listening = {
  ...{ schema: "carrywell/listen/1", version: "0.1.0", session: "Tuesday", notes: ["The mix is mono."] },
  ...{ filter: "tone", on: null, loudnessLufs: -17.5, truePeakLimitDbtp: -1 },
  mix: {
    ...{ file: "song.wav", channels: 1, sampleRate: 48_000, renderedRate: 48_000, encoding: "24-bit PCM" },
    ...{ durationS: 10, loudnessLufs: -16, truePeakDbtp: -0.2 },
  },
  versions: [
    version("neutral", "neutral", "the mix on a neutral system", null),
    version("mains", "monitor", "Soffit mains", null),
    version("class:phone", "class", "phone in the hand", "nothing below 500 Hz"),
  ],
  missing: [{ id: "nears", reason: "no-mix-position" }],
  sequence: { file: "sequence.wav", fromS: 2, durationS: 6, parts: [{ id: "neutral", atS: 0 }] },
  translation: {
    mono: [
      { nominalHz: 25, correlation: null, lossDb: null, reason: "no-sound", says: null },
      { nominalHz: 1000, correlation: 0.9, lossDb: -0.22, reason: null, says: "fine" },
      { nominalHz: 8000, correlation: -0.2, lossDb: -3.98, reason: null, says: "warning" },
      { nominalHz: 10_000, correlation: -1, lossDb: null, reason: "vanishes", says: "warning" },
    ],
    classes: [
      {
        ...{ id: "phone", name: "phone in the hand", loses: "nothing below 500 Hz" },
        members: [
          { member: "low", loudnessShare: 0.45, lowestOctaveHz: 500, reason: null },
          { member: "typical", loudnessShare: 0.38, lowestOctaveHz: 500, reason: null },
          { member: "high", loudnessShare: 0.29, lowestOctaveHz: 250, reason: null },
        ],
        bassLine: { typical: { ...lost, verdict: "weak", pitchShare: 0.4 }, low: lost },
      },
    ],
    drift: ["nears", "class:phone"].map((heardOn) => ({
      ...{ mixedOn: "mains", heardOn, uncontrolledBelowHz: 44.7 },
      regions: [
        { region: "kick weight", driftDb: -2.1, rangeDb: [-3.3, -0.4] as [number, number], controlled: true },
        { region: "rumble", driftDb: null, rangeDb: [-8, 8] as [number, number], controlled: false },
        { region: "air", driftDb: null, rangeDb: null, controlled: true },
      ],
    })),
  },
};

const hostile = '<img src=x onerror="globalThis.broken=1"></script><script>globalThis.broken=1</script>{{ title }}.wav';

/** Text that would run, load or fill in if anything let it. */
export const hostileListening: Listening = {
  ...listeningFixture,
  mix: { ...listeningFixture.mix, file: hostile },
  session: hostile,
  notes: [hostile],
  versions: listeningFixture.versions.map((one) => ({ ...one, name: hostile })),
};
