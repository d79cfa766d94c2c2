import type { Said } from "./changes.js";

/**
 * What is said of one topic, each thing once: a grade of the trust map turns only with what it is made of, which is told as well and counts
 * there.
 */
export function countedOnce(says: readonly Said[], topic: Said["topic"]): Said[] {
  const said = says.filter((one) => one.topic === topic);
  const isMadeOf = (one: Said): boolean =>
    said.some(
      ({ quantity, monitor }) =>
        quantity !== "trust" && (monitor === null || one.monitor === null || monitor === one.monitor),
    );
  return said.filter((one) => one.quantity !== "trust" || !isMadeOf(one));
}
