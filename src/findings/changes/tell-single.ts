import type { ChangedQuantity, Said } from "../../schema/changes.js";
import { fixed, hertz, listed } from "../../words/numbers.js";
import { figuresOf, fromTo, sizeWords } from "./figures.js";
import { type MonitorChanges, sizeOf, topicOf } from "./tell.js";

/** Quantities that are one figure each: the lower end, levels, arrival, modes. */
export function tellSingle(changes: MonitorChanges): Said[] {
  const { own, measured } = changes;
  const each = measured.flatMap(({ quantities }) => quantities);
  return [
    ...own.filter(({ quantity }) => quantity === "minus6Hz").flatMap((one) => end(changes, one)),
    ...own.filter(({ quantity }) => quantity === "leftRightArrivalS").flatMap((one) => arrival(changes, one)),
    ...level(changes),
    ...largest(each.filter(({ quantity }) => quantity === "modeT60S")).flatMap((one) => modeDecay(changes, one)),
    ...modesThatStayed(changes, largest(each.filter(({ quantity }) => quantity === "modeHz"))),
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

/** Of the same mode on two channels, the one that has changed more. */
function largest(entries: readonly ChangedQuantity[]): ChangedQuantity[] {
  const modes: ChangedQuantity[] = [];
  for (const entry of [...entries].sort((a, b) => sizeOf(b) - sizeOf(a))) {
    if (modes.every(({ bandHz }) => Math.abs(bandHz! / entry.bandHz! - 1) > 0.02)) modes.push(entry);
  }
  return modes.sort((a, b) => a.bandHz! - b.bandHz!);
}

function modeDecay({ subject, monitor }: MonitorChanges, one: ChangedQuantity): Said[] {
  if (one.change !== "real") return [];
  const way = one.difference! < 0 ? "shorter" : "longer";
  const message = `${subject}: the mode at ${fixed(one.bandHz, 1)} Hz rings ${way}, by ${sizeWords(one)} (${fromTo(one)})`;
  const { quantity } = one;
  return [
    { topic: topicOf(one), monitor, message, remedy: null, figures: figuresOf(one), size: sizeOf(one), quantity },
  ];
}

function modesThatStayed({ subject, monitor }: MonitorChanges, entries: readonly ChangedQuantity[]): Said[] {
  const moved = entries.filter(({ change }) => change === "real");
  const stayed = entries.filter(({ change }) => change === "none").map(({ bandHz }) => `${fixed(bandHz, 1)} Hz`);
  const still: Said[] =
    stayed.length === 0
      ? []
      : [
          {
            topic: "same",
            monitor,
            message: `${subject}: the ${stayed.length === 1 ? "mode" : "modes"} at ${listed(stayed)} did not move`,
            ...{ remedy: null, figures: null, size: 0, quantity: "modeHz" },
          },
        ];
  return [
    ...moved.map((one): Said => ({
      topic: topicOf(one),
      monitor,
      message: `${subject}: the mode at ${fixed(one.before, 1)} Hz has moved to ${fixed(one.after, 1)} Hz`,
      ...{ remedy: null, figures: figuresOf(one), size: sizeOf(one), quantity: one.quantity },
    })),
    ...still,
  ];
}
