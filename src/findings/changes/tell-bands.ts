import type { ChangedQuantity, Said } from "../../schema/changes.js";
import { decaysOf } from "./decays.js";
import { figuresOf } from "./figures.js";
import { alsoInRoom, saysTheSame } from "./in-room.js";
import { mostWords, storiesOf, type Story, whereWords } from "./runs.js";
import { type MonitorChanges, sizeOf, topicOf } from "./tell.js";

/** How bands of one quantity of a monitor are spoken of. */
interface Speech {
  readonly quantity: string;
  /** What has become of a run, by its topic; `rises` where the value is higher than before. */
  readonly what: (topic: Said["topic"], rises: boolean) => string;
  /** How what has not changed is told, by how many bands; null where it is not. */
  readonly same: ((count: string) => string) | null;
  /** The means over places that say the same of the room. */
  readonly room: string | null;
  /** What already says the same of the mix position. */
  readonly unless: (changes: MonitorChanges) => readonly ChangedQuantity[];
}

const nothing = (): readonly ChangedQuantity[] => [];

const speeches: readonly Speech[] = [
  {
    quantity: "targetDb",
    what: (topic, rises) =>
      topic === "better"
        ? "the tone is nearer to its target"
        : topic === "worse"
          ? "the tone is farther from its target"
          : `the tone is ${rises ? "louder" : "quieter"}, and as far from its target`,
    same: (count) => `no noticeable difference of tone in ${count} third octaves`,
    room: "roomLevelDb",
    unless: nothing,
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
    room: null,
    unless: nothing,
  },
  {
    quantity: "noiseDb",
    what: (_, rises) => `the room's noise is ${rises ? "louder" : "quieter"}`,
    same: null,
    room: null,
    unless: nothing,
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
    room: null,
    unless: ({ own }) => own.filter(({ quantity }) => quantity === "targetDb"),
  },
  {
    quantity: "roomDecayS",
    what: (_, rises) => `over all places the decay is ${rises ? "longer" : "shorter"} in octaves`,
    same: null,
    room: null,
    unless: (changes) => [...decaysOf(changes, 3), ...decaysOf(changes, 1)],
  },
];

/** Tone, sides, noise and means over places, band by band. */
export function tellBands(changes: MonitorChanges): Said[] {
  return speeches.flatMap((speech) => {
    const bands = changes.own.filter(({ quantity }) => quantity === speech.quantity);
    const known = speech.unless(changes);
    const untold = bands.filter((band) => !known.some((atMix) => saysTheSame(band, atMix)));
    return [...storiesOf(untold).map((story) => say(speech, changes, story)), ...same(speech, changes, bands)];
  });
}

function say({ quantity, what, room }: Speech, { subject, monitor, own }: MonitorChanges, story: Story): Said {
  const { most } = story;
  const topic = topicOf(most);
  return {
    topic,
    monitor,
    message: `${subject}: ${what(topic, most.difference! > 0)} ${whereWords(story)}${mostWords(story)}${room === null ? "" : alsoInRoom(own, room, story)}`,
    remedy: null,
    figures: figuresOf(most),
    size: sizeOf(most),
    rises: most.difference! > 0,
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
