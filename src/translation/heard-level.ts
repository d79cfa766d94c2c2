import { energyMeanDb } from "../dsp/energy-mean.js";
import { energyMeanUncertaintyDb } from "../dsp/energy-mean-uncertainty.js";
import type { Measurement } from "../model.js";
import { bandEdges } from "../standards/iec61260.js";
import { BANDS, type Curve } from "./bands.js";
import { ENOUGH_PLACES, ONE_PLACE_HZ } from "./limits.js";
import type { MonitorCase } from "./monitor-case.js";

/**
 * Up to here the steady state is heard, from there on what the tone window leaves; between them the two powers are mixed,
 * straight over log frequency. A choice of ours: ten periods of the tone window are shorter than a control room's decay from
 * about there on.
 */
const BLEND_HZ = [200, 500] as const;
/** Below, kick, bass and voice in the middle are the sum of two speakers; above, centimetres decide. */
const PHANTOM_BELOW_HZ = 300;
/** Two equal sides in step are twice the pressure. */
const IN_STEP_DB = 20 * Math.log10(2);

export interface HeardLevel {
  readonly levelDb: Curve;
  /** Standard uncertainty. */
  readonly uncertaintyDb: Curve;
  /** Standard deviation over places within a head's reach; null with fewer than three. */
  readonly spreadDb: Curve;
}

/**
 * Level that is heard as tone of a monitor at the mix position, by third octave.
 *
 * Steady state in the bass, the tone window above. Below 300 Hz it is that of the phantom centre where there is one, less the
 * 6 dB that two equal sides in step would give; else, and above, the energy mean of the sides. Above 2 kHz it is the mean over
 * the places within a head's reach if there are three of them: there one place says little.
 *
 * @returns dB on the scale of the measurements
 */
export function heardLevel({ sides, phantom, around }: Omit<MonitorCase, "result">): HeardLevel {
  const mix = sidesLevel(sides);
  const places = around.map(sidesLevel);
  const bands = BANDS.map(({ nominalHz }, k) => {
    const centre = nominalHz < PHANTOM_BELOW_HZ && phantom ? steadyOf(phantom, k) : null;
    const spread = spreadOver(places.map((place) => place[k]!.levelDb));
    const own =
      centre?.levelDb == null ? mix[k]! : { levelDb: centre.levelDb - IN_STEP_DB, uncertaintyDb: centre.uncertaintyDb };
    if (nominalHz <= ONE_PLACE_HZ || spread === null) return { ...own, spreadDb: spread };
    const scatterDb = spread / Math.sqrt(places.length);
    return {
      levelDb: energyMeanDb(places.map((place) => place[k]!.levelDb)),
      uncertaintyDb: own.uncertaintyDb === null ? null : Math.hypot(own.uncertaintyDb, scatterDb),
      spreadDb: spread,
    };
  });
  return {
    levelDb: bands.map(({ levelDb }) => levelDb),
    uncertaintyDb: bands.map(({ uncertaintyDb }) => uncertaintyDb),
    spreadDb: bands.map(({ spreadDb }) => spreadDb),
  };
}

interface Level {
  readonly levelDb: number | null;
  readonly uncertaintyDb: number | null;
}

function sidesLevel(sides: readonly Measurement[]): Level[] {
  return BANDS.map((_, k) => {
    const each = sides.map((side) => blended(side, k));
    const levels = each.map(({ levelDb }) => levelDb);
    const uncertainties = each.map(({ uncertaintyDb }) => uncertaintyDb);
    return {
      levelDb: energyMeanDb(levels),
      uncertaintyDb: energyMeanUncertaintyDb(levels, uncertainties, "independent"),
    };
  });
}

function blended(measurement: Measurement, k: number): Level {
  const steady = steadyOf(measurement, k);
  const share = toneShare(BANDS[k]!.nominalHz);
  const toneDb = share === 0 ? null : toneOf(measurement, k);
  if (steady.levelDb === null || toneDb === null) return steady;
  const power = (1 - share) * 10 ** (steady.levelDb / 10) + share * 10 ** (toneDb / 10);
  return { levelDb: 10 * Math.log10(power), uncertaintyDb: steady.uncertaintyDb };
}

/** Share of the tone window in what is heard. */
function toneShare(hz: number): number {
  const [from, to] = BLEND_HZ;
  return Math.min(1, Math.max(0, Math.log(hz / from) / Math.log(to / from)));
}

function steadyOf({ bands }: Measurement, k: number): Level {
  const { nominalHz } = BANDS[k]!;
  const band = bands.find((one) => one.fraction === 3 && one.nominalHz === nominalHz);
  return { levelDb: band?.levelDb ?? null, uncertaintyDb: band?.levelUncertaintyDb ?? null };
}

/** Mean power of the tone window's curve over the band, on its even steps of log frequency. */
function toneOf({ response }: Measurement, k: number): number | null {
  const [fromHz, toHz] = bandEdges(BANDS[k]!);
  const inside = response.frequencyHz.flatMap((hz, n) =>
    hz > fromHz && hz < toHz ? [response.toneDb[n] ?? null] : [],
  );
  return energyMeanDb(inside);
}

/** Standard deviation with n - 1; null with fewer than three places, or where one is not known. */
function spreadOver(levels: readonly (number | null)[]): number | null {
  const known = levels.filter((level) => level !== null);
  if (known.length < ENOUGH_PLACES || known.length < levels.length) return null;
  const mean = known.reduce((sum, level) => sum + level, 0) / known.length;
  return Math.sqrt(known.reduce((sum, level) => sum + (level - mean) ** 2, 0) / (known.length - 1));
}
