import type { Finding, MonitorResult, Results } from "../../model.js";
import { DEEPER_BY_OCTAVES, LOW_END } from "../limits.js";
import { stated } from "../stated.js";

/** Roles whose low end somebody mixes on. */
const MIXED_ON = ["main", "midfield", "nearfield"];

/** Which monitor carries the low end, and which stop before it; `mended` are the findings that ask for care. */
export function lowEnd(results: Results, mended: readonly Finding[]): Finding[] {
  const known = results.monitors.flatMap((monitor) => {
    const reachHz = reachOf(monitor);
    return reachHz === undefined ? [] : [{ monitor, reachHz }];
  });
  return [...early(known), ...trusted(known, mended)];
}

interface Reach {
  readonly monitor: MonitorResult;
  /** Null: below the measured range. */
  readonly reachHz: number | null;
}

/** The −6 dB end; null when it lies below the measured range, undefined when it is not known. */
function reachOf({ extension }: MonitorResult): number | null | undefined {
  if (!extension) return undefined;
  if (extension.minus6Hz !== null) return extension.minus6Hz;
  return extension.flags.includes("minus6-below-range") ? null : undefined;
}

function early(known: readonly Reach[]): Finding[] {
  return known.flatMap(({ monitor, reachHz }) =>
    reachHz === null || reachHz <= LOW_END.value || !MIXED_ON.includes(monitor.role)
      ? []
      : [
          stated(
            "ends-early",
            { monitor: monitor.id, reachHz, limitHz: LOW_END.value },
            {
              severity: "warning",
              topic: "mend",
              value: reachHz,
              unit: "Hz",
              limit: LOW_END.value,
              source: LOW_END.source,
              // In thirds of an octave: what is missing altogether is heard.
              audibility: 1 + 3 * Math.log2(reachHz / LOW_END.value),
              monitors: [monitor.id],
            },
          ),
        ],
  );
}

function trusted(known: readonly Reach[], mended: readonly Finding[]): Finding[] {
  const order = [...known].sort((a, b) => (a.reachHz ?? 0) - (b.reachHz ?? 0));
  const deepest = order[0];
  if (!deepest || (deepest.reachHz !== null && deepest.reachHz > LOW_END.value)) return [];
  const { monitor, reachHz } = deepest;
  const others = order.slice(1).filter((other) => isDeeper(reachHz, other.reachHz));
  // Two that reach equally far are no choice to name.
  if (others.length < order.length - 1) return [];
  const troubled = mended.some(
    (one) => one.severity === "warning" && one.monitors.includes(monitor.id) && (one.bandHz ?? Infinity) < 200,
  );
  const facts = { monitor: monitor.id, reachHz, others: others.map((other) => other.monitor.id), troubled };
  return [
    stated("low-end-trust", facts, {
      severity: "info",
      topic: "trust",
      value: reachHz,
      unit: "Hz",
      source: LOW_END.source,
      audibility: 2,
      monitors: [monitor.id],
    }),
  ];
}

function isDeeper(aHz: number | null, bHz: number | null): boolean {
  if (bHz === null) return false;
  return aHz === null || Math.log2(bHz / aHz) >= DEEPER_BY_OCTAVES.value;
}
