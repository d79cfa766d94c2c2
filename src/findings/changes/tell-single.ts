import type { ChangedQuantity, Said } from "../../schema/changes.js";
import { hertz, listed } from "../../words/numbers.js";
import { figuresOf, sizeWords } from "./figures.js";
import { type MonitorChanges, sizeOf, topicOf } from "./tell.js";

/** Quantities that are one figure each: the lower end, levels, arrival. */
export function tellSingle(changes: MonitorChanges): Said[] {
  const { own } = changes;
  return [
    ...own.filter(({ quantity }) => quantity === "minus6Hz").flatMap((one) => end(changes, one)),
    ...own.filter(({ quantity }) => quantity === "leftRightArrivalS").flatMap((one) => arrival(changes, one)),
    ...level(changes),
  ];
}

function end({ subject, monitor }: MonitorChanges, one: ChangedQuantity): Said[] {
  const base = { monitor, remedy: null, quantity: one.quantity };
  if (one.change === "none") {
    const message = `${subject}: it reaches as deep, to ${hertz(one.after)} (−6 dB)`;
    return [{ ...base, topic: "same", message, figures: null, size: 0 }];
  }
  if (one.change !== "real") return [];
  const message = `${subject}: it reaches down to ${hertz(one.after)} instead of ${hertz(one.before)} (−6 dB)`;
  return [{ ...base, topic: topicOf(one), message, figures: figuresOf(one), size: sizeOf(one) }];
}

function arrival({ subject, monitor }: MonitorChanges, one: ChangedQuantity): Said[] {
  if (one.change !== "real") return [];
  const how = one.verdict === "better" ? "more nearly together" : "farther apart";
  const message = `${subject}: left and right arrive ${how}, by ${sizeWords(one)}`;
  const { quantity } = one;
  return [
    { topic: topicOf(one), monitor, message, remedy: null, figures: figuresOf(one), size: sizeOf(one), quantity },
  ];
}

function level({ subject, monitor, measured }: MonitorChanges): Said[] {
  const channels = measured.flatMap(({ channel, quantities }) =>
    quantities
      .filter(({ quantity, change }) => quantity === "overallDb" && change === "real")
      .map((one) => ({ one, name: channel === "L" ? "left" : channel === "R" ? "right" : "both" })),
  );
  const [first] = channels;
  if (!first) return [];
  const way = first.one.difference! > 0 ? "louder" : "quieter";
  const sizes = channels.map(({ one, name }) => `${name} by ${sizeWords(one)}`);
  const message = `${subject}: the level from 200 Hz to 4 kHz is another: ${listed(sizes)} ${way}`;
  const { one } = first;
  return [
    {
      topic: "changed",
      monitor,
      message,
      remedy: null,
      figures: figuresOf(one),
      size: sizeOf(one),
      quantity: one.quantity,
    },
  ];
}
