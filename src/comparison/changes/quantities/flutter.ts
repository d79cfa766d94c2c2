import type { FlutterResult } from "../../../model.js";
import { FLUTTER } from "../../../standards/flutter.js";
import { JUST_NOTICEABLE } from "../../../standards/just-noticeable.js";
import type { MeasurementPair, MonitorPair, Quantity, Reading, Side } from "../reading.js";

const ABOVE = "flutterDb";
const DECAY = "flutterT60S";

/** One pair of walls as the two measurements of one side of a monitor show it. */
interface Seen {
  readonly before: FlutterResult | null;
  readonly after: FlutterResult | null;
}

/**
 * Trains of echoes between walls, at the mix position: how far they stand out, the mean of the sides, and how fast they die away.
 *
 * A train that only one of the two shows stands out at most as far in the other as what would have been told. Less is better.
 */
export const flutter: Quantity<MonitorPair> = {
  of: (pair) => {
    const pairs = pair.atMix.filter(({ before }) => !before.derived);
    if (!pair.before.results.flutter || !pair.after.results.flutter || pairs.length === 0) return [];
    return distancesOf(pairs).flatMap((distanceM) => {
      const seen = pairs.map((one) => seenOf(one, distanceM));
      return [above(seen, pairs), ...decay(seen)];
    });
  },
  justNoticeable: { [ABOVE]: JUST_NOTICEABLE.flutter, [DECAY]: JUST_NOTICEABLE.decay },
};

function trainsOf({ results }: Side, id: string): FlutterResult[] {
  return (results.flutter ?? []).filter(({ measurement }) => measurement === id);
}

/** Each pair of walls once, by its distance. */
function distancesOf(pairs: readonly MeasurementPair[]): number[] {
  const all = pairs.flatMap(({ before, after, sides }) => [
    ...trainsOf(sides.before, before.id),
    ...trainsOf(sides.after, after.id),
  ]);
  const distances: number[] = [];
  for (const { distanceM } of all) {
    if (distances.every((one) => Math.abs(one - distanceM) >= FLUTTER.sameWallsM)) distances.push(distanceM);
  }
  return distances;
}

function seenOf({ before, after, sides }: MeasurementPair, distanceM: number): Seen {
  const at = (side: Side, id: string): FlutterResult | null =>
    trainsOf(side, id).find((one) => Math.abs(one.distanceM - distanceM) < FLUTTER.sameWallsM) ?? null;
  return { before: at(sides.before, before.id), after: at(sides.after, after.id) };
}

function above(seen: readonly Seen[], pairs: readonly MeasurementPair[]): Reading {
  const [old, now] = (["before", "after"] as const).map((side) => seen.map((one) => one[side]));
  const mean = (trains: readonly (FlutterResult | null)[]): number =>
    trains.reduce((sum, train) => sum + (train?.aboveDb ?? FLUTTER.leastAboveDb), 0) / trains.length;
  const [before, after] = [mean(old!), mean(now!)];
  const absent = (trains: readonly (FlutterResult | null)[]): boolean => trains.every((train) => train === null);
  const over = (levelDb: number): number => levelDb - FLUTTER.leastAboveDb;
  return {
    ...{ quantity: ABOVE, bandHz: null, fraction: null, atS: firstOf(seen).periodS, unit: "dB", before, after },
    missing: absent(old!) ? "before" : absent(now!) ? "after" : null,
    // What is not found is taken to be known as well as its counterpart.
    uncertainty: Math.hypot(...seen.map(aboveUncertaintyDb)) / seen.length,
    justNoticeable: JUST_NOTICEABLE.flutter,
    goal: { name: "echoes that do not stand out", before: over(before), after: over(after) },
    reason: whyNot(seen, pairs),
  };
}

function firstOf(seen: readonly Seen[]): FlutterResult {
  return seen.flatMap(({ before, after }) => before ?? after ?? [])[0]!;
}

/** The mean of so many echoes, each of which chance scatters. */
function aboveUncertaintyDb({ before, after }: Seen): number {
  const echoes = [before ?? after, after ?? before].map((train) => train?.echoes ?? Infinity);
  return Math.hypot(...echoes.map((count) => FLUTTER.scatterDb / Math.sqrt(count)));
}

/**
 * A train that only one shows may lie just within the limits there, and just outside in the other: then its presence says nothing. It is
 * taken to be clear of what it may lose on the way by twice the uncertainty of that. A choice of ours.
 */
function whyNot(seen: readonly Seen[], pairs: readonly MeasurementPair[]): string | null {
  for (const [k, { before, after }] of seen.entries()) {
    if ((before === null) === (after === null)) continue;
    const { before: old, after: now, sides } = pairs[k]!;
    const others = before ? trainsOf(sides.after, now.id) : trainsOf(sides.before, old.id);
    if (others.length > 0) return "another train of echoes is stronger there on one side, and may hide it";
    const train = (before ?? after)!;
    const limitDb = train.between.length > 0 ? FLUTTER.mostLostDb : FLUTTER.mostLostDb / 2;
    if (train.roundTripDb * (1 + 2 * decayShare(train)) > limitDb) {
      return "it loses nearly so much on a round trip that it would not be told, and may be there on both sides";
    }
  }
  return null;
}

/**
 * Relative standard uncertainty of the decay of a train.
 *
 * @remarks Source: standard error of the slope of a line through n points of equal scatter, sigma / sqrt(n (n^2 - 1) / 12).
 */
function decayShare({ periodS, t60S, echoes }: FlutterResult): number {
  const fallDb = (60 * periodS) / t60S;
  return FLUTTER.scatterDb / Math.sqrt((echoes * (echoes * echoes - 1)) / 12) / fallDb;
}

/** Only where both show the train. */
function decay(seen: readonly Seen[]): Reading[] {
  const both = seen.flatMap(({ before, after }) => (before && after ? [{ before, after }] : []));
  if (both.length === 0) return [];
  const mean = (side: "before" | "after"): number => both.reduce((sum, one) => sum + one[side].t60S, 0) / both.length;
  const own = both.map(({ before, after }) =>
    Math.hypot(before.t60S * decayShare(before), after.t60S * decayShare(after)),
  );
  return [
    {
      ...{ quantity: DECAY, bandHz: null, fraction: null, atS: firstOf(seen).periodS, unit: "s" },
      ...{ before: mean("before"), after: mean("after"), uncertainty: Math.hypot(...own) / both.length },
      ...{ justNoticeable: JUST_NOTICEABLE.decay, goal: null, reason: null },
    },
  ];
}
