import type { ChangedQuantity, ChangePair, Compared, Said } from "../../schema/changes.js";

/** One monitor of a comparison, as those who tell of it see it. */
export interface MonitorChanges {
  /** "mains", or "nears against mains". */
  readonly subject: string;
  readonly monitor: string;
  /** Of the pair of loudspeakers. */
  readonly own: readonly ChangedQuantity[];
  /** Its measurements at the mix position, or wherever it was measured; none that were computed from others. */
  readonly measured: readonly ChangePair[];
}

/** Tells of one subject. */
export type Teller = (changes: MonitorChanges) => Said[];

/** The monitors of a comparison, with what belongs to each. */
export function monitorsOf({ pairs, compares, mixPosition }: Compared): MonitorChanges[] {
  return pairs
    .filter(({ kind }) => kind === "monitor")
    .map(({ monitor, before, after, quantities }) => {
      const all = pairs.filter((one) => one.kind === "measurement" && one.monitor === monitor);
      const atMix = all.filter(({ position }) => position === mixPosition);
      const measured = atMix.length > 0 ? atMix : all;
      const sides = measured.filter(({ derived }) => !derived);
      return {
        subject: compares === "monitors" ? `${after} against ${before}` : monitor,
        monitor,
        own: quantities,
        measured: sides.length > 0 ? sides : measured,
      };
    });
}

/** How large a change is, in what is just noticed. */
export function sizeOf({ difference, justNoticeable }: ChangedQuantity): number {
  return difference === null || justNoticeable === null || justNoticeable === 0
    ? 0
    : Math.abs(difference) / justNoticeable;
}

/** The topic that a verdict belongs to, of what has really changed. */
export function topicOf({ verdict }: ChangedQuantity): Said["topic"] {
  return verdict === "better" || verdict === "worse" ? verdict : "changed";
}
