import type { ChangedQuantity, Said } from "../../schema/changes.js";
import { fixed } from "../../words/numbers.js";
import { figuresOf, fromTo, sizeWords } from "./figures.js";
import { type MonitorChanges, sizeOf, topicOf } from "./tell.js";

/** Left and right have the same reflection where they have it within so much. */
const TOGETHER_S = 0.0003;

interface Told {
  readonly entry: ChangedQuantity;
  readonly sides: string[];
}

/** Early reflections that have become weaker or stronger. */
export function tellReflections({ subject, monitor, measured }: MonitorChanges): Said[] {
  const told: Told[] = [];
  for (const { channel, quantities } of measured) {
    const side = channel === "L" ? "left" : channel === "R" ? "right" : "both";
    for (const entry of quantities) {
      if (entry.quantity !== "reflectionDb" || entry.change !== "real") continue;
      const known = told.find((one) => isSame(one.entry, entry));
      if (known) known.sides.push(side);
      else told.push({ entry, sides: [side] });
    }
  }
  return told.map(({ entry, sides }) => ({
    topic: topicOf(entry),
    monitor,
    message: `${subject} (${[...new Set(sides)].join(" and ")}): the reflection ${fixed(1000 * entry.atS!, 1)} ms after the direct sound is ${entry.difference! < 0 ? "weaker" : "stronger"}, by ${sizeWords(entry)} (${fromTo(entry)})`,
    remedy: null,
    figures: figuresOf(entry),
    size: sizeOf(entry),
    quantity: entry.quantity,
  }));
}

function isSame(a: ChangedQuantity, b: ChangedQuantity): boolean {
  return (
    Math.abs(a.atS! - b.atS!) <= TOGETHER_S &&
    Math.sign(a.difference!) === Math.sign(b.difference!) &&
    topicOf(a) === topicOf(b)
  );
}
