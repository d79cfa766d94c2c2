import type { Finding, MonitorResult, Results } from "../../model.js";
import { DEEPER_BY_OCTAVES, GRAVE, LOW_END } from "../limits.js";
import { isMixedOn } from "../../schema/mixed-on.js";
import { reachOf } from "../reach.js";
import { ranked } from "../rank.js";
import { stated } from "../stated.js";
import { inShort } from "../words/low-end.js";

interface Known {
  readonly monitor: MonitorResult;
  /** Null: below the measured range. */
  readonly reachHz: number | null;
}

/** Which monitors carry the low end, and which stop before it; `mended` are the findings that ask for care. */
export function lowEnd(results: Results, mended: readonly Finding[]): Finding[] {
  const known = results.monitors.filter(isMixedOn).flatMap((monitor): Known[] => {
    const reach = reachOf(monitor);
    return reach ? [{ monitor, reachHz: reach.minus6Hz }] : [];
  });
  return [...known.flatMap(early), ...trusted(known, mended)];
}

function early({ monitor, reachHz }: Known): Finding[] {
  if (reachHz === null || reachHz <= LOW_END.value) return [];
  return [
    stated(
      "ends-early",
      { monitor: monitor.id, reachHz },
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
  ];
}

function trusted(known: readonly Known[], mended: readonly Finding[]): Finding[] {
  const depth = ({ reachHz }: Known): number => reachHz ?? 0;
  const order = [...known].sort((a, b) => depth(a) - depth(b));
  const deepest = order[0];
  if (!deepest || depth(deepest) > LOW_END.value) return [];
  const equal = order.filter(
    (one) => depth(one) === 0 || Math.log2(depth(one) / Math.max(1, depth(deepest))) < DEEPER_BY_OCTAVES.value,
  );
  const monitors = equal.map(({ monitor }) => monitor.id);
  const others = order
    .filter((one) => !equal.includes(one))
    .map((one) => ({ monitor: one.monitor.id, reachHz: depth(one) }));
  const troubles = mended.filter(
    (one) => one.monitors.some((id) => monitors.includes(id)) && (one.rangeHz?.[0] ?? Infinity) < LOW_TROUBLE_HZ,
  );
  const facts = {
    monitors,
    reachHz: deepest.reachHz,
    others,
    troubles: ranked(troubles).slice(0, MOST_NAMED).map(inShort),
    isGrave: troubles.some(({ audibility }) => (audibility ?? 0) >= GRAVE.value),
  };
  return [
    stated("low-end-trust", facts, {
      severity: "info",
      topic: "trust",
      value: deepest.reachHz,
      unit: "Hz",
      source: LOW_END.source,
      audibility: 2,
      monitors,
    }),
  ];
}

/** More than these would hide the verdict. */
const MOST_NAMED = 2;
/** Below, a trouble touches what the low end is trusted for. */
const LOW_TROUBLE_HZ = 200;
