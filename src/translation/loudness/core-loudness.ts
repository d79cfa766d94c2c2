import {
  BANDWIDTH_DB,
  DIFFUSE_FIELD_DB,
  LOW_BAND_REDUCTIONS,
  LOW_GROUPS,
  QUIET_THRESHOLD_DB,
  TRANSMISSION_DB,
} from "../../standards/iso532.js";

/** Free: from the front, as by earphones that mimic it; diffuse: from all sides, as in a room. */
export type SoundField = "free" | "diffuse";

/** Share of the loudness threshold that the ear's own noise makes. */
const THRESHOLD_FACTOR = 0.25;

/**
 * Main loudness of each critical band, before it spreads to higher ones.
 *
 * @param levelDb - shape `[28]`, third octaves 25 Hz to 12.5 kHz, dB SPL; minus infinity for none
 * @returns shape `[20]`, sone per Bark
 * @remarks Source: ISO 532-1:2017, Annex A.
 */
export function coreLoudness(levelDb: readonly number[], field: SoundField): number[] {
  const lowThirds = LOW_GROUPS.reduce((sum, size) => sum + size, 0);
  const bandDb = [...lowCriticalBands(levelDb), ...levelDb.slice(lowThirds)];
  return bandDb.map((level, band) => {
    const atEarDb = level - TRANSMISSION_DB[band]! + (field === "diffuse" ? DIFFUSE_FIELD_DB[band]! : 0);
    const quietDb = QUIET_THRESHOLD_DB[band]!;
    if (atEarDb <= quietDb) return 0;
    const excess = 10 ** ((atEarDb - BANDWIDTH_DB[band]! - quietDb) / 10);
    const loudness =
      0.0635 * 10 ** (0.025 * quietDb) * ((1 - THRESHOLD_FACTOR + THRESHOLD_FACTOR * excess) ** 0.25 - 1);
    // The lowest critical band lies only partly in what the ear hears.
    const share = band === 0 ? Math.min(1, 0.4 + 0.32 * Math.max(0, loudness) ** 0.2) : 1;
    return share * Math.max(0, loudness);
  });
}

/** The third octaves up to 250 Hz, each by its own contour of equal loudness, joined to three critical bands. */
function lowCriticalBands(levelDb: readonly number[]): number[] {
  let next = 0;
  return LOW_GROUPS.map((size) => {
    let power = 0;
    for (const end = next + size; next < end; next++) power += 10 ** (reducedDb(levelDb[next]!, next) / 10);
    // At or below 0 dB nothing is left of the band; the level is far under the threshold in quiet anyway.
    return power > 0 ? 10 * Math.log10(power) : -Infinity;
  });
}

function reducedDb(level: number, third: number): number {
  const range =
    LOW_BAND_REDUCTIONS.find(({ upToDb, reductionDb }) => level <= upToDb - reductionDb[third]!) ??
    LOW_BAND_REDUCTIONS.at(-1)!;
  return level + range.reductionDb[third]!;
}
