import type { Results, Translation } from "../model.js";
import type { Listening, ListeningBassLine } from "../schema/listening.js";
import { type ClassMember, classLevelDb, type PlaybackClass } from "../standards/playback-classes/playback-class.js";
import { REGIONS } from "../standards/regions.js";
import { BANDS, type Curve } from "../translation/bands.js";
import { regionDrift } from "../translation/drift/region-drift.js";
import { type BassSystem, bassListener } from "../translation/listen/bass-line.js";
import { deviceNoiseDb } from "../translation/listen/device-noise.js";
import type { FrameStream } from "../translation/listen/frame-stream.js";
import type { HeardMix } from "../translation/listen/mix-listener.js";
import { monoLoss } from "../translation/listen/mono-loss.js";
import { devicePowers, gainToLevel } from "../translation/listen/played-level.js";
import { whatIsLost } from "../translation/listen/what-is-lost.js";
import { mixProgramme } from "../translation/programme-of-mix.js";

/** A second hearing of the mix, at levels that the first has found. */
export interface MixTranslator extends FrameStream {
  result(): Listening["translation"];
}

const MEMBERS = ["low", "typical", "high"] as const;
const BASS_MEMBERS = ["typical", "low"] as const;
/** A class that gives this much at the lowest fundamental carries a bass line by itself. */
const GIVES_FUNDAMENTAL_DB = -10;
const LOWEST_FUNDAMENTAL_HZ = 40;
/** Less than -20 dB of a mix is no bass line. A choice of ours. */
const LEAST_BASS_SHARE = 0.01;

/**
 * What a mix loses on each playback class and in mono, and how it drifts.
 *
 * @param on - the monitor that is listened on; null gives the drift from every monitor that one may mix on
 */
export function mixTranslator(results: Results, heard: HeardMix, sampleRate: number, on: string | null): MixTranslator {
  const classes = (results.translation?.classes ?? []).map(playbackClass);
  const asked = classes.flatMap((device) => BASS_MEMBERS.map((member) => bassCase(device, member, heard)));
  const played = asked.flatMap((one) => (one.system === null ? [] : [{ ...one, system: one.system }]));
  const bass = bassListener(
    sampleRate,
    played.map(({ system }) => system),
  );
  return {
    push: bass.push,
    result() {
      const lines = bass.result();
      const lineOf = (device: PlaybackClass, member: ClassMember): ListeningBassLine => {
        const isIt = (one: BassCase): boolean => one.device === device && one.member === member;
        const line = lines[played.findIndex(isIt)];
        if (line) return line;
        const reason = asked.find(isIt)?.reason ?? null;
        return { verdict: reason === "nothing-left" ? "lost" : null, pitchShare: null, colourShare: null, reason };
      };
      return {
        mono: heard.bands.map(monoLoss),
        classes: classes.map((device) => ({
          id: device.id,
          name: device.name,
          loses: device.loses,
          members: MEMBERS.map((member) => whatIsLost(heard.bands, device, member, curveOf(device, member))),
          bassLine: givesFundamental(device)
            ? null
            : { typical: lineOf(device, "typical"), low: lineOf(device, "low") },
        })),
        drift: driftOf(results, heard, on),
      };
    },
  };
}

/** A class as the results hold it, by third octave. */
function playbackClass({ levelDba, noiseDba, bands, ...row }: Translation["classes"][number]): PlaybackClass {
  return {
    ...row,
    levelDba: { typical: levelDba, noise: noiseDba, source: row.source },
    envelope: bands.flatMap(({ nominalHz, lowDb, typicalDb, highDb }) =>
      lowDb === null || typicalDb === null || highDb === null ? [] : [[nominalHz, lowDb, typicalDb, highDb] as const],
    ),
  };
}

function curveOf(device: PlaybackClass, member: ClassMember): Curve {
  return BANDS.map(({ nominalHz }) => classLevelDb(device, nominalHz, member));
}

/** @returns false too where the class does not state it */
function givesFundamental(device: PlaybackClass): boolean {
  return (classLevelDb(device, LOWEST_FUNDAMENTAL_HZ, "typical") ?? -Infinity) >= GIVES_FUNDAMENTAL_DB;
}

interface BassCase {
  readonly device: PlaybackClass;
  readonly member: ClassMember;
  /** Null where the bass line is not listened for. */
  readonly system: BassSystem | null;
  readonly reason: ListeningBassLine["reason"];
}

/** The bass is in the middle: it is judged on the sum of both sides. */
function bassCase(device: PlaybackClass, member: ClassMember, { bands }: HeardMix): BassCase {
  const none = (reason: BassCase["reason"]): BassCase => ({ device, member, system: null, reason });
  const { typical, noise } = device.levelDba;
  if (givesFundamental(device)) return none(null);
  if (classLevelDb(device, LOWEST_FUNDAMENTAL_HZ, member) === null) return none("curve-not-stated");
  if (typical === null) return none("level-not-stated");
  if (noise === null) return none("noise-not-stated");
  const powers = devicePowers(bands, true);
  if (bassShare(powers) < LEAST_BASS_SHARE) return none("no-bass");
  const gainDb = gainToLevel(powers, curveOf(device, member), typical);
  if (gainDb === null) return none("nothing-left");
  // Below the envelope the device gives nothing that would matter to a partial.
  const curveDb = (hz: number): number => classLevelDb(device, hz, member) ?? -Infinity;
  return { device, member, system: { curveDb, gainDb, noiseDb: deviceNoiseDb(device.id, noise) }, reason: null };
}

/** Share of the power in the third octaves that hold 35 to 160 Hz. */
function bassShare(powers: readonly number[]): number {
  const inBass = powers.filter((_, k) => BANDS[k]!.nominalHz >= 40 && BANDS[k]!.nominalHz <= 160);
  const total = powers.reduce((sum, power) => sum + power, 0);
  return total > 0 ? inBass.reduce((sum, power) => sum + power, 0) / total : 1;
}

/** The drift of the results, but each region weighed by what this mix holds in its bands. */
function driftOf(
  { translation }: Results,
  { bands: heard }: HeardMix,
  on: string | null,
): Listening["translation"]["drift"] {
  const { levelDb } = mixProgramme("the mix", heard);
  return (translation?.drift ?? [])
    .filter(({ mixedOn }) => on === null || mixedOn === on)
    .map(({ mixedOn, heardOn, uncontrolledBelowHz, bands }) => ({
      ...{ mixedOn, heardOn, uncontrolledBelowHz },
      regions: REGIONS.map((region) => {
        const { driftDb, rangeDb, controlled } = regionDrift(region, bands, levelDb);
        return { region: region.name, driftDb, rangeDb: rangeDb && [rangeDb[0], rangeDb[1]], controlled };
      }),
    }));
}
