import { BANDS } from "../bands.js";
import type { DriftModel, HeardOn, MixedOn } from "../drift.js";
import { inMix } from "./compensation.js";
import type { DriftBand, Range } from "./drift-result.js";
import { smooth } from "./smooth.js";

/** Repeatability enters a range as an expanded uncertainty. */
const COVERAGE_FACTOR = 2;

/** Drift by third octave; see `drift`. */
export function bandDrift(mixed: MixedOn, heard: HeardOn, model: DriftModel): DriftBand[] {
  const own = smooth(mixed.deviationDb);
  const other = smooth(heard.deviationDb);
  const low = heard.envelope && smooth(heard.envelope.lowDb);
  const high = heard.envelope && smooth(heard.envelope.highDb);
  return BANDS.map(({ nominalHz }, k): DriftBand => {
    const deviationDb = own[k] ?? null;
    const systemShareDb = other[k] ?? null;
    const heardErrorDb = COVERAGE_FACTOR * (heard.uncertaintyDb[k] ?? 0);
    const below = systemShareDb === null || low?.[k] == null ? 0 : systemShareDb - low[k];
    const above = systemShareDb === null || high?.[k] == null ? 0 : high[k] - systemShareDb;
    const systemShareRangeDb: Range | null =
      systemShareDb === null
        ? null
        : [systemShareDb - Math.hypot(below, heardErrorDb), systemShareDb + Math.hypot(above, heardErrorDb)];
    const common = { nominalHz, systemShareDb, systemShareRangeDb };
    const nothing = { driftDb: null, rangeDb: null, roomShareDb: null, roomShareRangeDb: null };
    if (deviationDb === null || !mixed.controlled[k]) {
      const spreadDb = model.programme.spreadDb[k] ?? null;
      const range: Range | null = spreadDb === null ? null : [-spreadDb, spreadDb];
      const reason = deviationDb === null ? "not-measured" : "blind";
      return { ...common, ...nothing, rangeDb: range, roomShareRangeDb: range, controlled: false, reason };
    }
    const { compensation } = model;
    const share = sharesOf(deviationDb, model);
    const mixedErrorDb = COVERAGE_FACTOR * (mixed.uncertaintyDb[k] ?? 0);
    const room = { roomShareDb: share.db, roomShareRangeDb: widened(share.db, share, [compensation * mixedErrorDb]) };
    if (systemShareDb === null) {
      const reason = heard.kind === "class" ? "heard-on-not-stated" : "heard-on-not-measured";
      return { ...common, ...nothing, ...room, controlled: true, reason };
    }
    // Heard on the same system, its error is in what is heard and, inverted, in the mix.
    const errorsDb =
      mixed.id === heard.id ? [(1 - compensation) * mixedErrorDb] : [compensation * mixedErrorDb, heardErrorDb];
    const [fromDb, toDb] = widened(share.db, share, errorsDb);
    const driftDb = share.db + systemShareDb;
    return {
      ...common,
      ...room,
      driftDb,
      rangeDb: [driftDb - Math.hypot(share.db - fromDb, below), driftDb + Math.hypot(toDb - share.db, above)],
      controlled: true,
      reason: null,
    };
  });
}

interface Share {
  readonly db: number;
  readonly lowestDb: number;
  readonly highestDb: number;
}

function sharesOf(deviationDb: number, { compensation, compensationRange }: DriftModel): Share {
  const ends = compensationRange.map((share) => inMix(deviationDb, share));
  return { db: inMix(deviationDb, compensation), lowestDb: Math.min(...ends), highestDb: Math.max(...ends) };
}

/** Independent contributions add as squares, to either side for itself. */
function widened(middle: number, { lowestDb, highestDb }: Share, errorsDb: readonly number[]): Range {
  return [middle - Math.hypot(middle - lowestDb, ...errorsDb), middle + Math.hypot(highestDb - middle, ...errorsDb)];
}
