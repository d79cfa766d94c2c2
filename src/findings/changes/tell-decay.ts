import type { ChangedQuantity, Said } from "../../schema/changes.js";
import { decaysBySides, decaysOf } from "./decays.js";
import { figuresOf } from "./figures.js";
import { alsoInRoom, inOneBand } from "./in-room.js";
import { mostWords, storiesOf, type Story, whereWords } from "./runs.js";
import { type MonitorChanges, sizeOf, topicOf } from "./tell.js";

/** Where decays have become shorter or longer. */
export function tellDecay(changes: MonitorChanges): Said[] {
  const told = decaysOf(changes, 3).filter(({ change }) => change === "real");
  // An octave whose third octaves are told already is not told again.
  const isNew = (octave: ChangedQuantity): boolean => !told.some((third) => inOneBand(third, octave));
  return [
    ...decaysBySides(changes, 3).flatMap(({ subject, entries }) =>
      storiesOf(entries).map((story) => say({ ...changes, subject }, story, "the decay")),
    ),
    ...decaysBySides(changes, 1).flatMap(({ subject, entries }) =>
      storiesOf(entries.filter(isNew)).map((story) => say({ ...changes, subject }, story, "in octaves the decay")),
    ),
  ];
}

function say({ subject, monitor, own }: MonitorChanges, story: Story, what: string): Said {
  const { most } = story;
  const topic = topicOf(most);
  const way = most.difference! < 0 ? "shorter" : "longer";
  const side = topic === "changed" ? "; no better or worse by what is published" : "";
  return {
    topic,
    monitor,
    message: `${subject}: ${what} is ${way} ${whereWords(story)}${mostWords(story)}${side}${alsoInRoom(own, "roomDecayS", story)}`,
    remedy: null,
    figures: figuresOf(most),
    size: sizeOf(most),
    rises: most.difference! > 0,
    quantity: most.quantity,
  };
}
