import type { ChangedQuantity, Said } from "../../schema/changes.js";
import { fixed, listed } from "../../words/numbers.js";
import { decaysOf } from "./decays.js";
import { spoken } from "./figures.js";
import { inOneBand } from "./in-room.js";
import { joined, spanWords } from "./runs.js";
import type { MonitorChanges } from "./tell.js";

/** A bound wider than this, in per cent, bounds nothing. */
const LARGEST_BOUND = 50;

const SLOPES: readonly string[] = ["secondSlopeS", "lateSlopeS"];

/** What is open, and how much may hide in it. */
export function tellOpen(changes: MonitorChanges): Said[] {
  const { own, measured } = changes;
  const of = (name: string): ChangedQuantity[] => own.filter(({ quantity }) => quantity === name);
  const reflections = measured.flatMap(({ quantities }) =>
    quantities.filter(({ quantity }) => quantity === "reflectionDb"),
  );
  return [
    ...decay(changes, untoldOctaves(changes)),
    ...bands(changes, of("targetDb"), "the tone", "third octaves"),
    ...bands(changes, of("leftRightDb"), "left against right", "third octaves"),
    ...bands(changes, reflections, "early reflections", "reflections"),
    ...bands(changes, of("noiseDb"), "the room's noise", "octaves"),
  ];
}

/** Octaves of which nothing real is told yet, neither of a third octave in them nor of a second slope. */
function untoldOctaves(changes: MonitorChanges): ChangedQuantity[] {
  const told = [...decaysOf(changes, 3), ...changes.own.filter(({ quantity }) => SLOPES.includes(quantity))].filter(
    ({ change }) => change === "real",
  );
  return decaysOf(changes, 1).filter((octave) => !told.some((one) => inOneBand(one, octave)));
}

function decay({ subject, monitor }: MonitorChanges, octaves: readonly ChangedQuantity[]): Said[] {
  const open = octaves.filter(isOpen);
  if (open.length === 0) return [];
  const shareOf = (one: ChangedQuantity): number => (100 * mostOf(one)) / ((one.before! + one.after!) / 2);
  const bounded = open.filter((one) => shareOf(one) <= LARGEST_BOUND);
  const where = (bands: readonly ChangedQuantity[]): string =>
    `in the ${bands.length === 1 ? "octave" : "octaves"} at ${listed(
      joined(
        bands.map(({ bandHz }) => bandHz!),
        1,
      ).map(spanWords),
    )}`;
  const parts = [
    bounded.length === 0 ? null : `${where(bounded)} none larger than ${fixed(Math.max(...bounded.map(shareOf)), 0)} %`,
    bounded.length === open.length ? null : `${where(open.filter((one) => !bounded.includes(one)))} nobody can say`,
  ];
  const message = `${subject}: a difference of decay cannot be told everywhere: ${parts.filter((part) => part !== null).join("; ")}`;
  return [{ topic: "unknown", monitor, message, remedy: null, figures: null, size: null, quantity: "t30S" }];
}

function bands(
  { subject, monitor }: MonitorChanges,
  entries: readonly ChangedQuantity[],
  name: string,
  kind: string,
): Said[] {
  const [first] = entries;
  const open = entries.filter(isOpen);
  const base = { topic: "unknown", monitor, remedy: null, figures: null, size: null } as const;
  if (!first) return [];
  // Where none could be judged, the reasons say more than figures: the commonest first.
  if (entries.every(({ needed }) => needed === null)) {
    const why = reasonsOf(entries).join("; elsewhere ");
    return [{ ...base, message: `${subject}: nothing can be told of ${name}: ${why}`, quantity: first.quantity }];
  }
  if (open.length === 0) return [];
  const most = spoken(Math.max(...open.map(mostOf)), first.unit);
  const count =
    open.length === entries.length
      ? `all ${String(open.length)}`
      : `${String(open.length)} of ${String(entries.length)}`;
  const message = `${subject}: ${name}, ${count} ${kind}: a difference cannot be told; there is none larger than ${most}`;
  return [{ ...base, message, quantity: first.quantity }];
}

function reasonsOf(entries: readonly ChangedQuantity[]): string[] {
  const count = (reason: string): number => entries.filter(({ because }) => because === reason).length;
  return [...new Set(entries.map(({ because }) => because))].sort((a, b) => count(b) - count(a));
}

function isOpen({ change, needed }: ChangedQuantity): boolean {
  return change === "cannot-tell" && needed !== null;
}

function mostOf({ difference, uncertainty }: ChangedQuantity): number {
  return Math.abs(difference!) + uncertainty!;
}
