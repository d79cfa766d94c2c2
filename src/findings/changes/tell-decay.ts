import type { ChangedQuantity, Said } from "../../schema/changes.js";
import { decaysOf } from "./decays.js";
import { figuresOf } from "./figures.js";
import { alsoInRoom, inOneBand } from "./in-room.js";
import { mostWords, storiesOf, type Story, whereWords } from "./runs.js";
import { type MonitorChanges, sizeOf, topicOf } from "./tell.js";

/** Where decays have become shorter or longer. */
export function tellDecay(changes: MonitorChanges): Said[] {
  const thirds = storiesOf(decaysOf(changes, 3));
  const told = thirds.flatMap(({ runs }) => runs.flatMap(({ bands }) => bands));
  // An octave whose third octaves are told already is not told again.
  const isNew = (octave: ChangedQuantity): boolean => !told.some((third) => inOneBand(third, octave));
  const octaves = storiesOf(decaysOf(changes, 1).filter(isNew));
  return [
    ...thirds.map((story) => say(changes, story, "the decay")),
    ...octaves.map((story) => say(changes, story, "in octaves the decay")),
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
