import type { BandMetrics, Measurement } from "../../model.js";
import { roomDecay } from "../../schema/room-decay.js";
import { levelDeviationDb, squaredPressureCorrelation } from "../../standards/diffuse-field.js";
import { bandEdges } from "../../standards/iec61260.js";
import { decayStandardDeviation } from "../../standards/iso3382.js";
import { combByPlacement } from "./comb.js";
import type { MeasurementPair, MonitorPair } from "./reading.js";

/** What a microphone that stands a little elsewhere changes: statistics of a diffuse field under the direct sound. */

/** 20 degrees; nothing here is known better than to a tenth. */
const SPEED_OF_SOUND = 343;
/** Of a normal error in three directions: the radius that holds 95 % of it, in root mean squares (chi, 3 degrees of freedom). */
const RADIUS_95 = 2.795 / Math.sqrt(3);
/** Reflections within the direct sound's gate move as well: no more of a level is ever taken to stand still. */
const MOST_DIRECT = 0.9;

type Band = Pick<BandMetrics, "fraction" | "exactHz">;

/**
 * How far apart the microphone's two places are, root mean square, when both were set up anew.
 *
 * @param placementM - radius that holds the place 95 times in a hundred
 * @param statedM - distance of the two places as the sessions state them
 */
export function rmsApart(placementM: number, statedM: number): number {
  return Math.hypot((Math.SQRT2 * placementM) / RADIUS_95, statedM);
}

/** Share of independence of a band's energy at the two places: 0 where they are one, root 2 where they are far apart. */
function apartness({ exactHz }: Band, apartM: number): number {
  const wavenumber = (2 * Math.PI * exactHz) / SPEED_OF_SOUND;
  return Math.sqrt(2 * (1 - squaredPressureCorrelation(wavenumber, apartM)));
}

/**
 * Standard deviation of the difference of a band's level at the two places.
 *
 * Direct sound of share D beside a diffuse field: the relative variance of their sum is 1 - D^2 times that of the field alone,
 * the interference of the two included. Strong early reflections are no diffuse field; their combs are added.
 *
 * @returns dB
 */
export function levelByPlacement({ before, after, apartM }: MeasurementPair, band: Band): number {
  if (apartM === 0) return 0;
  const [fromHz, toHz] = bandEdges(band);
  const direct = Math.min(MOST_DIRECT, directShare(before, band), directShare(after, band));
  // A time that nobody knows leaves the band as scattered as a tone.
  const timeS = Math.min(timeNear(before, band) ?? 0, timeNear(after, band) ?? 0);
  const field = apartness(band, apartM) * levelDeviationDb(toHz - fromHz, timeS) * Math.sqrt(1 - direct * direct);
  const combs = [before, after].map(({ reflections }) => combByPlacement(band, reflections, apartM));
  return Math.hypot(field, Math.max(...combs));
}

/** The same of a monitor at the mix position: its sides are taken to move alike, which overstates. */
export function pairLevelByPlacement({ atMix }: MonitorPair, band: Band): number {
  return Math.max(0, ...sides(atMix).map((side) => levelByPlacement(side, band)));
}

/** The same of the difference of the two sides, which move each for itself. */
export function differenceByPlacement({ atMix }: MonitorPair, band: Band): number {
  return Math.hypot(...sides(atMix).map((side) => levelByPlacement(side, band)));
}

function sides(atMix: readonly MeasurementPair[]): readonly MeasurementPair[] {
  return atMix.filter(({ before }) => !before.derived);
}

/** Ten decibels of a decay are less of an average than twenty: the deviation goes with the range to the power -3/2. */
const EARLY_FACTOR = 2 ** 1.5;

/**
 * Standard deviation of the difference of a decay time at the two places, as a share of it.
 *
 * @remarks Source: ISO 3382-2's deviation of one place, times how independent the two are. EDT's by the range it is read over:
 *   J. L. Davy et al., J. Sound Vib. 63 (1979), from memory, low confidence.
 */
export function decayByPlacement(band: Band, evaluation: "edt" | "t20" | "t30", timeS: number, apartM: number): number {
  if (apartM === 0) return 0;
  const kind = evaluation === "t30" ? "t30" : "t20";
  const share = decayStandardDeviation(kind, timeS, band.fraction, band.exactHz, 1) / timeS;
  return apartness(band, apartM) * share * (evaluation === "edt" ? EARLY_FACTOR : 1);
}

/**
 * The reverberation time that counts for how much a band is an average: its own, else that of the nearest band that has one.
 */
function timeNear({ bands }: Measurement, { exactHz }: Band): number | null {
  let nearest = Infinity;
  let timeS: number | null = null;
  for (const band of bands) {
    const away = Math.abs(Math.log(band.exactHz / exactHz));
    const decay = away < nearest ? roomDecay(band) : null;
    if (!decay) continue;
    nearest = away;
    timeS = decay.timeS;
  }
  return timeS;
}

/** Share of a band's energy that comes within the direct sound's gate; 0 where the gate cannot resolve the band. */
function directShare({ response }: Measurement, band: Band): number {
  const [fromHz, toHz] = bandEdges(band);
  let direct = 0;
  let all = 0;
  for (const [k, hz] of response.frequencyHz.entries()) {
    if (hz < fromHz || hz > toHz) continue;
    const level = response.levelDb[k];
    const gated = response.directDb[k];
    if (level == null || gated == null) return 0;
    direct += 10 ** (gated / 10);
    all += 10 ** (level / 10);
  }
  return all > 0 ? Math.min(1, direct / all) : 0;
}
