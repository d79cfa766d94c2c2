import type { Said } from "../../schema/changes.js";
import { bySides } from "./by-sides.js";
import { figuresOf } from "./figures.js";
import { mostWords, storiesOf, type Story, whereWords } from "./runs.js";
import { type MonitorChanges, sizeOf } from "./tell.js";

/** Clarity C50 by octave, of all channels the one that has changed most; each side's own where they disagree. */
export function tellClarity(changes: MonitorChanges): Said[] {
  const sides = bySides(
    changes,
    ({ quantities }) => quantities.filter(({ quantity }) => quantity === "c50Db"),
    (a, b) => a.bandHz === b.bandHz,
  );
  return sides.flatMap(({ subject, entries }) =>
    storiesOf(entries).map((story) => say(changes.monitor, subject, story)),
  );
}

function say(monitor: string, subject: string, story: Story): Said {
  const { most } = story;
  const way = most.difference! > 0 ? "clearer (C50)" : "less clear (C50)";
  return {
    topic: "changed",
    monitor,
    message: `${subject}: the sound is ${way} in octaves ${whereWords(story)}${mostWords(story)}`,
    remedy: null,
    figures: figuresOf(most),
    size: sizeOf(most),
    quantity: "c50Db",
  };
}
