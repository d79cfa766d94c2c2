import type { ChangedQuantity, Said } from "../../schema/changes.js";
import { figuresOf, fromTo, sizeWords } from "./figures.js";
import { atMost, rangeWords, type Run, runsOf } from "./runs.js";
import { type MonitorChanges, sizeOf, topicOf } from "./tell.js";

/** How bands of one quantity of a monitor are spoken of. */
interface Speech {
  readonly quantity: string;
  /** What has become of a run, by its topic; `rises` where the value is higher than before. */
  readonly what: (topic: Said["topic"], rises: boolean) => string;
  /** How what has not changed is told, by how many bands; null where it is not. */
  readonly same: ((count: string) => string) | null;
}

const speeches: readonly Speech[] = [
  {
    quantity: "targetDb",
    what: (topic, rises) =>
      topic === "better"
        ? "the tone is nearer to its target"
        : topic === "worse"
          ? "the tone is farther from its target"
          : `the tone is ${rises ? "louder" : "quieter"}, and as far from its target`,
    same: (count) => `the tone has not noticeably changed in ${count} third octaves`,
  },
  {
    quantity: "leftRightDb",
    what: (topic) =>
      topic === "better"
        ? "left and right agree better"
        : topic === "worse"
          ? "left and right differ more"
          : "left and right differ the other way",
    same: null,
  },
  {
    quantity: "noiseDb",
    what: (_, rises) => `the room's noise is ${rises ? "louder" : "quieter"}`,
    same: null,
  },
  {
    quantity: "roomLevelDb",
    what: (topic) =>
      topic === "better"
        ? "over all places the tone is nearer to its target"
        : topic === "worse"
          ? "over all places the tone is farther from its target"
          : "over all places the tone is another, and as far from its target",
    same: null,
  },
  {
    quantity: "roomDecayS",
    what: (_, rises) => `over all places the decay is ${rises ? "longer" : "shorter"} in octaves`,
    same: null,
  },
];

/** Tone, sides, noise and means over places, band by band. */
export function tellBands(changes: MonitorChanges): Said[] {
  return speeches.flatMap((speech) => {
    const bands = changes.own.filter(({ quantity }) => quantity === speech.quantity);
    return [...runsOf(bands).map((run) => say(speech, changes, run)), ...same(speech, changes, bands)];
  });
}

function say({ quantity, what }: Speech, { subject, monitor }: MonitorChanges, run: Run): Said {
  const { most } = run;
  const topic = topicOf(most);
  return {
    topic,
    monitor,
    message: `${subject}: ${what(topic, most.difference! > 0)} ${rangeWords(run)}, by ${sizeWords(most)}${atMost(run)} (${fromTo(most)})`,
    remedy: null,
    figures: figuresOf(most),
    size: sizeOf(most),
    quantity,
  };
}

function same(speech: Speech, { subject, monitor }: MonitorChanges, bands: readonly ChangedQuantity[]): Said[] {
  const still = bands.filter(({ change }) => change === "none").length;
  if (speech.same === null || still === 0) return [];
  const count =
    still === bands.length ? `any of the ${String(still)}` : `${String(still)} of the ${String(bands.length)}`;
  const { quantity } = speech;
  return [
    {
      topic: "same",
      monitor,
      message: `${subject}: ${speech.same(count)}`,
      remedy: null,
      figures: null,
      size: 0,
      quantity,
    },
  ];
}
