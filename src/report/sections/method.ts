import type { Results } from "../../model.js";
import { fixed } from "../../words/numbers.js";
import { type Block, figures, table, words } from "./section.js";

const method = [
  "Each recording of an exponential sweep is divided by what was played, over the whole spectrum at once. That gives the impulse response; harmonics arrive before it and are split off.",
  "Response: 1/24-octave smoothing of power on a grid of 320 points a decade. Means over channels and places are means of energy.",
  "Decay: band filters of IEC 61260-1 class 1, noise treated at the knee, integrated backwards. EDT from 0 to −10 dB, T20 from −5 to −25 dB, T30 from −5 to −35 dB. T20 needs 35 dB of range, T30 45 dB.",
  "Reflections: peaks of the 1 to 8 kHz envelope, at least 6 dB above what surrounds them, to 50 ms.",
  "A value that the data cannot support is left out, with the reason; it is never filled in.",
];

const uncertainty = [
  "At this position: every U, bar, shade and figure behind ± is an expanded uncertainty (k = 2, about 95 %) of what was measured where the microphone stood, from repeated takes and noise. With one take it is the noise and a stated floor.",
  "In the room: what a figure says of the room as a whole is far less certain. It is stated only where several places were measured, by the spread between them and by ISO 3382-2, and its heading says “in the room”.",
  "A difference is called real when it is larger than its own expanded uncertainty and than what is just noticeable.",
];

/** How the figures came about. */
export function methodBlocks(results: Results): Block[] {
  const { settings, version } = results.provenance;
  return [
    { kind: "list", items: [...method, ...programmeWords(results)] },
    { kind: "heading", text: "How far the figures hold" },
    { kind: "list", items: [...uncertainty, ...limits(results)] },
    { kind: "heading", text: "Conventions" },
    { kind: "list", items: conventions },
    table({
      caption: `Settings of this run, Carrywell ${version}`,
      folded: true,
      columns: [words("Setting"), figures("Value")],
      rows: Object.entries(settings).map(([name, value]) => [words(name), figures(String(value))]),
      notes: [],
    }),
  ];
}

/** What stands for the music wherever it matters. */
function programmeWords({ translation }: Results): string[] {
  if (!translation) return [];
  const { programme, listeningLevelDb } = translation;
  const spectrum =
    programme === "popular"
      ? "the long-term spectrum of popular music"
      : programme === "pink"
        ? "pink noise"
        : `the long-term spectrum of the session's own mix, ${programme}`;
  return [
    `Translation: what is audible, how much each band weighs in its region, and what level and driving do to the balance are reckoned with ${spectrum}, at ${fixed(listeningLevelDb, 0)} dB C. Where nobody controls a band its range is what recordings of popular music differ by, whatever the programme.`,
  ];
}

const conventions = [
  "Differences are left minus right (positive: left is louder, or later), measured minus target, and the first monitor minus the second.",
  "Level differences between monitors and sides are taken over 200 Hz to 4 kHz unless another range is given.",
  "Limits that are remembered, disputed or chosen by us are advisory: they are drawn and named, and no verdict hangs on them.",
];

/** What follows from how the session was made, whatever it sounds like. */
function limits({ measurements, comparisons, monitors }: Results): string[] {
  const items: string[] = [];
  if (measurements.some((measurement) => measurement.levelReference === "transfer")) {
    items.push("Levels are relative: without a calibrator recording no level here is a sound pressure level.");
  }
  if (comparisons.some((comparison) => comparison.includesGain) || monitors.some((m) => m.leftRight?.includesGain)) {
    items.push(
      "The input gain is not stated to have stayed fixed: differences in level between recordings may be differences in gain. Shapes are not touched by this.",
    );
  }
  if (measurements.some((measurement) => measurement.derived)) {
    items.push(
      "The phantom centre is the sum of left and right, computed from one recording; it stands up to 500 Hz and is no better than its two sides.",
    );
  }
  if (measurements.length > 0 && measurements.every((measurement) => measurement.arrival.timeS === null)) {
    items.push("Times of flight are not known, since no loopback was recorded: only differences in arrival are.");
  }
  return items;
}
