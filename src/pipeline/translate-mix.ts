import type { Results } from "../model.js";
import type { Listening, ListeningBassLine } from "../schema/listening.js";
import { PLAYBACK_CLASSES } from "../standards/playback-classes.js";
import { type ClassMember, classLevelDb, type PlaybackClass } from "../standards/playback-classes/playback-class.js";
import { BANDS, type Curve } from "../translation/bands.js";
import { type BassSystem, bassListener } from "../translation/listen/bass-line.js";
import { deviceNoiseDb } from "../translation/listen/device-noise.js";
import type { FrameStream } from "../translation/listen/frame-stream.js";
import type { HeardMix } from "../translation/listen/mix-listener.js";
import { monoLoss } from "../translation/listen/mono-loss.js";
import { devicePowers, gainToLevel } from "../translation/listen/played-level.js";
import { whatIsLost } from "../translation/listen/what-is-lost.js";

/** A second hearing of the mix, at levels that the first has found. */
export interface MixTranslator extends FrameStream {
  result(): Listening["translation"];
}

const MEMBERS = ["low", "typical", "high"] as const;
const BASS_MEMBERS = ["typical", "low"] as const;
/** A class that gives this much at the lowest fundamental carries a bass line by itself. */
const GIVES_FUNDAMENTAL_DB = -10;
const LOWEST_FUNDAMENTAL_HZ = 40;

/**
 * What a mix loses on each playback class and in mono, and how it drifts.
 *
 * @param on - the monitor that is listened on; null gives the drift from every monitor that one may mix on
 */
export function mixTranslator(results: Results, heard: HeardMix, sampleRate: number, on: string | null): MixTranslator {
  const classes = PLAYBACK_CLASSES.filter(({ id }) => results.translation?.classes.some((one) => one.id === id));
  const small = classes.filter(
    (one) => (classLevelDb(one, LOWEST_FUNDAMENTAL_HZ, "typical") ?? 0) < GIVES_FUNDAMENTAL_DB,
  );
  const asked = small.flatMap((device) => BASS_MEMBERS.map((member) => ({ device, member })));
  const played = asked.flatMap(({ device, member }) => {
    const system = bassSystem(device, member, heard);
    return system === null ? [] : [{ device, member, system }];
  });
  const bass = bassListener(
    sampleRate,
    played.map(({ system }) => system),
  );
  return {
    push: bass.push,
    result() {
      const lines = bass.result();
      const lineOf = (device: PlaybackClass, member: ClassMember): ListeningBassLine => {
        const index = played.findIndex((one) => one.device === device && one.member === member);
        return lines[index] ?? { verdict: "lost", pitchShare: null, colourShare: null, reason: "nothing-left" };
      };
      return {
        mono: heard.bands.map(monoLoss),
        classes: classes.map((device) => ({
          id: device.id,
          name: device.name,
          loses: device.loses,
          members: MEMBERS.map((member) => whatIsLost(heard.bands, device, member, curveOf(device, member))),
          bassLine: small.includes(device) ? { typical: lineOf(device, "typical"), low: lineOf(device, "low") } : null,
        })),
        drift: driftOf(results, on),
      };
    },
  };
}

function curveOf(device: PlaybackClass, member: ClassMember): Curve {
  return BANDS.map(({ nominalHz }) => classLevelDb(device, nominalHz, member));
}

/** The bass is in the middle: it is judged on the sum of both sides. */
function bassSystem(device: PlaybackClass, member: ClassMember, { bands }: HeardMix): BassSystem | null {
  const gainDb = gainToLevel(devicePowers(bands, true), curveOf(device, member), device.levelDba.typical);
  if (gainDb === null) return null;
  return {
    curveDb: (hz) => classLevelDb(device, hz, member) ?? 0,
    gainDb,
    noiseDb: deviceNoiseDb(device),
  };
}

function driftOf({ translation }: Results, on: string | null): Listening["translation"]["drift"] {
  return (translation?.drift ?? [])
    .filter(({ mixedOn }) => on === null || mixedOn === on)
    .map(({ mixedOn, heardOn, uncontrolledBelowHz, regions }) => ({
      ...{ mixedOn, heardOn, uncontrolledBelowHz },
      regions: regions.map(({ region, driftDb, rangeDb, controlled }) => ({ region, driftDb, rangeDb, controlled })),
    }));
}
