import type { ChangedQuantity, Said } from "../../schema/changes.js";
import { figuresOf } from "./figures.js";
import { mostWords, storiesOf, whereWords } from "./runs.js";
import { type MonitorChanges, sizeOf } from "./tell.js";

/** Clarity C50 by octave, of all channels the one that has changed most. */
export function tellClarity({ subject, monitor, measured }: MonitorChanges): Said[] {
  const best = new Map<number, ChangedQuantity>();
  for (const entry of measured.flatMap(({ quantities }) => quantities)) {
    if (entry.quantity !== "c50Db" || entry.change !== "real") continue;
    const known = best.get(entry.bandHz!);
    if (!known || sizeOf(entry) > sizeOf(known)) best.set(entry.bandHz!, entry);
  }
  return storiesOf([...best.values()]).map((story) => {
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
  });
}
