import type { MonitorResult } from "../../model.js";
import { decayStandardDeviation } from "../../standards/iso3382.js";
import { meanDecay } from "../mean-decay.js";
import { meanAndSpread } from "./mean-and-spread.js";
import { independentPlaces, type Place } from "./places.js";

export type PositionDecay = NonNullable<MonitorResult["positions"]>["decay"][number];

/**
 * Decay times over positions by octave: arithmetic mean over positions and channels, and how far positions differ.
 *
 * The uncertainty in the room adds to that of the measurements what ISO 3382-2 says of a mean over so few places. Only
 * independent places count for it (`independentPlaces`): five within a head's reach are, at low frequencies, one place
 * measured five times. Left and right count as one source, which overstates a little.
 *
 * @param places - of one monitor; one where a channel has no decay time in a band is left out there
 * @returns null in a band with fewer than two positions left; the uncertainty also where a measurement has none
 * @remarks Source: ISO 3382-2:2008, 7.1 and 8.2 (arithmetic mean), from memory, medium to high confidence. The larger deviation,
 *   that of T20, is taken where one of the times was read over 20 dB.
 */
export function decayOverPositions(places: readonly Place[]): PositionDecay[] {
  const octaves = places[0]?.channels[0]?.bands.filter((band) => band.fraction === 1) ?? [];
  return octaves.map(({ nominalHz, exactHz }) => {
    const read = places.flatMap(({ position, channels }) => {
      const decay = meanDecay(channels, nominalHz);
      return decay ? [{ position, decay }] : [];
    });
    const overall = meanAndSpread(read.map(({ decay }) => decay.timeS));
    if (!overall) return { nominalHz, timeS: null, spreadS: null, roomUncertaintyS: null };
    const measured = read.map(({ decay }) => decay.uncertaintyS);
    const positions = read.map(({ position }) => position);
    const roomS = decayStandardDeviation(
      read.every(({ decay }) => decay.overThirtyDb) ? "t30" : "t20",
      overall.mean,
      1,
      exactHz,
      independentPlaces(positions, exactHz),
    );
    const known = measured.filter((uncertaintyS) => uncertaintyS !== null);
    return {
      nominalHz,
      timeS: overall.mean,
      spreadS: overall.spread,
      roomUncertaintyS:
        known.length < measured.length ? null : Math.hypot(roomS, Math.hypot(...known) / measured.length),
    };
  });
}
