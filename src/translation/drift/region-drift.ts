import { isInRegion, type Region } from "../../standards/regions.js";
import type { Curve } from "../bands.js";
import { DRIFT } from "../limits.js";
import type { DriftBand, DriftRegion, Range } from "./drift-result.js";

/** Share of a region's programme that must be known for the region to have a figure: a choice of ours. */
const LEAST_KNOWN_SHARE = 0.5;

/**
 * Drift of a region: energy mean over its bands, each weighing what the programme holds there.
 *
 * Controlled where the controlled bands are at least half of its bands and hold at least half of its programme, as the guide
 * calls a region blind; the figure is theirs alone.
 *
 * @param bands - all bands of one pair
 * @param programmeDb - level of the programme by band, on any one scale
 * @remarks The weights are a choice of ours.
 */
export function regionDrift(region: Region, bands: readonly DriftBand[], programmeDb: Curve): DriftRegion {
  const inside = bands.flatMap((band, k) => {
    const level = programmeDb[k];
    return level != null && isInRegion(band.nominalHz, region) ? [{ band, power: 10 ** (level / 10) }] : [];
  });
  const controlled =
    shareOf(inside, (band) => band.controlled) >= LEAST_KNOWN_SHARE &&
    2 * inside.filter(({ band }) => band.controlled).length >= inside.length;
  const counted = inside.filter(({ band }) => band.controlled === controlled);
  const mean = (of: (band: DriftBand) => number | null): number | null => weightedMeanDb(counted, of);
  const range = (of: (band: DriftBand) => Range | null): Range | null => {
    const [low, high] = [mean((band) => of(band)?.[0] ?? null), mean((band) => of(band)?.[1] ?? null)];
    return low === null || high === null ? null : [low, high];
  };
  const driftDb = mean((band) => band.driftDb);
  return {
    region: region.name,
    driftDb,
    rangeDb: range((band) => band.rangeDb),
    controlled,
    roomShareDb: mean((band) => band.roomShareDb),
    roomShareRangeDb: range((band) => band.roomShareRangeDb),
    systemShareDb: mean((band) => band.systemShareDb),
    systemShareRangeDb: range((band) => band.systemShareRangeDb),
    reason: driftDb !== null ? null : (counted.find(({ band }) => band.reason !== null)?.band.reason ?? "not-measured"),
    size: driftDb === null ? null : sizeOf(driftDb),
  };
}

interface Weighted {
  readonly band: DriftBand;
  readonly power: number;
}

function weightedMeanDb(bands: readonly Weighted[], of: (band: DriftBand) => number | null): number | null {
  if (shareOf(bands, (band) => of(band) !== null) < LEAST_KNOWN_SHARE) return null;
  const known = bands.filter(({ band }) => of(band) !== null);
  const changed = sum(known.map(({ band, power }) => power * 10 ** (of(band)! / 10)));
  return 10 * Math.log10(changed / sum(known.map(({ power }) => power)));
}

function shareOf(bands: readonly Weighted[], holds: (band: DriftBand) => boolean): number {
  if (bands.length === 0) return 0;
  return sum(bands.map(({ band, power }) => (holds(band) ? power : 0))) / sum(bands.map(({ power }) => power));
}

function sizeOf(driftDb: number): "small" | "clear" | "strong" {
  const size = Math.abs(driftDb);
  return size < DRIFT.clearDb.value ? "small" : size <= DRIFT.strongDb.value ? "clear" : "strong";
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
