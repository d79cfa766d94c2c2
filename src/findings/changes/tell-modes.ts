import type { ChangedQuantity, Said } from "../../schema/changes.js";
import { audibleModeS } from "../../standards/modal-decay.js";
import { fixed, listed } from "../../words/numbers.js";
import { bySides, type OfSides } from "./by-sides.js";
import { figuresOf, fromTo, sizeWords } from "./figures.js";
import { type MonitorChanges, sizeOf, topicOf } from "./tell.js";

/** More than these at once nobody takes in. */
const NAMED = 2;

/** The room's modes: which ring otherwise, which have moved, which are not found any more. */
export function tellModes(changes: MonitorChanges): Said[] {
  const each = changes.measured.flatMap(({ quantities }) => quantities);
  const decays = each.filter(({ quantity }) => quantity === "modeT60S");
  return [
    ...ofSides(changes, "modeT60S").flatMap(({ subject, entries }) =>
      entries.flatMap((one) => modeDecay({ ...changes, subject }, one)),
    ),
    ...ofSides(changes, "modeHz").flatMap(({ subject, entries }) => modesThatStayed({ ...changes, subject }, entries)),
    ...crowded(changes, largest(decays.filter((one) => one.before !== null && one.after !== null && isOpen(one)))),
    ...oneSided(changes, largest(decays.filter(({ after }) => after === null)), "before"),
    ...oneSided(changes, largest(decays.filter(({ before }) => before === null)), "after"),
  ];
}

/** Modes that only one side found, of those that ring longer than stays unheard: what that means is open. */
function oneSided(
  { subject, monitor }: MonitorChanges,
  entries: readonly ChangedQuantity[],
  side: "before" | "after",
): Said[] {
  const over = (one: ChangedQuantity): number => one[side]! / (audibleModeS(one.bandHz!) ?? Infinity);
  const heard = entries.filter((one) => over(one) > 1).sort((a, b) => over(b) - over(a));
  // Two monitors stand in one room: it is not the mode that only one of them has.
  if (heard.length === 0 || subject !== monitor) return [];
  const rest = heard.length - NAMED;
  const names = heard.slice(0, NAMED).map((one) => `${fixed(one.bandHz, 1)} Hz (${fixed(one[side], 2)} s)`);
  const list = listed(rest > 0 ? [...names, `${String(rest)} more`] : names);
  const [noun, is, was] = heard.length === 1 ? ["mode", "is", "was"] : ["modes", "are", "were"];
  const found =
    side === "before"
      ? `${is} not found any more: gone, too weak or too short to be told, or overlapped by another`
      : `${is} found and ${was} not before: new, stronger, or no longer overlapped by another`;
  const message = `${subject}: the ${noun} at ${list} ${found}; the decay of that third octave tells more`;
  return [{ topic: "unknown", monitor, message, remedy: null, figures: null, size: null, quantity: "modeT60S" }];
}

/**
 * Modes that both sides found, and another beside them with which they may have been mistaken: those that would be worth telling, since
 * they ring longer than stays unheard on one side at least, and otherwise than what is just noticed and than their uncertainty.
 */
function crowded({ subject, monitor }: MonitorChanges, entries: readonly ChangedQuantity[]): Said[] {
  const differ = entries.filter(({ bandHz, before, after, difference, uncertainty, justNoticeable }) => {
    const longestS = Math.max(before!, after!);
    const isHeard = longestS > (audibleModeS(bandHz!) ?? Infinity);
    return isHeard && Math.abs(difference!) > Math.max(uncertainty ?? Infinity, justNoticeable ?? Infinity);
  });
  // Two monitors stand in one room: whatever differs is not the mode.
  if (differ.length === 0 || subject !== monitor) return [];
  const names = differ.map((one) => `${fixed(one.bandHz, 1)} Hz (${fromTo(one)})`);
  const one = differ.length === 1;
  const message = `${subject}: the ${one ? "mode" : "modes"} at ${listed(names)} cannot be told apart from another that lies so near, so that nobody can say whether ${one ? "it rings" : "they ring"} otherwise; the decay of that third octave tells more`;
  return [{ topic: "unknown", monitor, message, remedy: null, figures: null, size: null, quantity: "modeT60S" }];
}

/** Judged by nothing: of what both sides found, only because another lies too near. */
function isOpen({ needed, change }: ChangedQuantity): boolean {
  return needed === null && change === "cannot-tell";
}

/** Of the same mode on two channels the one that has changed more; each side's own where they disagree. */
function ofSides(changes: MonitorChanges, name: string): OfSides[] {
  return bySides(changes, ({ quantities }) => quantities.filter(({ quantity }) => quantity === name), isOne);
}

function isOne(a: ChangedQuantity, b: ChangedQuantity): boolean {
  return Math.abs(a.bandHz! / b.bandHz! - 1) <= 0.02;
}

/** Of the same mode on two channels, one. */
function largest(entries: readonly ChangedQuantity[]): ChangedQuantity[] {
  const modes: ChangedQuantity[] = [];
  for (const entry of [...entries].sort((a, b) => sizeOf(b) - sizeOf(a))) {
    if (!modes.some((one) => isOne(one, entry))) modes.push(entry);
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
  // Two monitors of one session share its modes: one figure that is held against itself says nothing.
  const isShared = ({ difference }: ChangedQuantity): boolean => subject !== monitor && difference === 0;
  const stayed = entries
    .filter((one) => one.change === "none" && !isShared(one))
    .map(({ bandHz }) => `${fixed(bandHz, 1)} Hz`);
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
