import type { Finding, Results } from "../../model.js";
import { expandedUncertainty, overLimit } from "../../standards/real-difference.js";
import { PHANTOM_LOSS } from "../limits.js";
import { runsOf, worstOf } from "../places.js";
import { stated } from "../stated.js";

const FROM_HZ = 40;

/** Ranges in which left and right together give less than either side does. */
export function phantomCentre(results: Results): Finding[] {
  return results.monitors.flatMap(({ id, leftRight, extension }) => {
    if (!leftRight?.samePolarity) return [];
    const fromHz = Math.max(FROM_HZ, extension?.minus6Hz ?? 0);
    const bands = (leftRight.phantom ?? []).flatMap(({ nominalHz, againstLeftDb, againstRightDb, uncertaintyDb }) =>
      nominalHz < fromHz || againstLeftDb === null || againstRightDb === null
        ? []
        : [{ nominalHz, lossDb: -Math.max(againstLeftDb, againstRightDb), uncertaintyDb }],
    );
    const lost = runsOf(
      bands,
      ({ lossDb, uncertaintyDb }) => overLimit(lossDb, PHANTOM_LOSS.value, uncertaintyDb) === "over",
    );
    return lost.map((run) => {
      const worst = worstOf(run, ({ lossDb }) => lossDb);
      const uncertaintyDb = expandedUncertainty([worst.uncertaintyDb]);
      const rangeHz: [number, number] = [run[0]!.nominalHz, run.at(-1)!.nominalHz];
      return stated(
        "phantom-dip",
        { monitor: id, rangeHz, bandHz: worst.nominalHz, valueDb: -worst.lossDb, uncertaintyDb },
        {
          severity: "warning",
          topic: "mend",
          value: -worst.lossDb,
          uncertainty: uncertaintyDb,
          unit: "dB",
          limit: -PHANTOM_LOSS.value,
          source: PHANTOM_LOSS.source,
          audibility: worst.lossDb / PHANTOM_LOSS.value,
          bandHz: worst.nominalHz,
          rangeHz,
          monitors: [id],
        },
      );
    });
  });
}
