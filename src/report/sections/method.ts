import type { Results } from "../../model.js";
import { figures, type Section, table, words } from "./section.js";

const method = [
  "Each recording of an exponential sweep is divided by what was played, over the whole spectrum at once. That gives the impulse response; harmonics arrive before it and are split off.",
  "Response: 1/24-octave smoothing of power on a grid of 320 points a decade. Means over channels and places are means of energy.",
  "Decay: band filters of IEC 61260-1 class 1, noise treated at the knee, integrated backwards. EDT from 0 to −10 dB, T20 from −5 to −25 dB, T30 from −5 to −35 dB. T20 needs 35 dB of range, T30 45 dB.",
  "Reflections: peaks of the 1 to 8 kHz envelope, at least 6 dB above what surrounds them, to 50 ms.",
  "Differences are left minus right and a minus b. Every U is an expanded uncertainty (k = 2) at this microphone place; what it would be elsewhere in the room it does not say.",
  "A value that the data cannot support is left out, with the reason; it is never filled in.",
];

/** How the figures came about. */
export function methodSection({ provenance }: Results): Section {
  const settings = Object.entries(provenance.settings);
  return {
    id: "method",
    heading: "Method and conventions",
    blocks: [
      { kind: "list", items: method },
      table({
        caption: `Settings of this run, Carrywell ${provenance.version}`,
        folded: true,
        columns: [words("Setting"), figures("Value")],
        rows: settings.map(([name, value]) => [words(name), figures(String(value))]),
        notes: [],
      }),
    ],
  };
}
