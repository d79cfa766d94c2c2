import type { BandMetrics, Finding, Results } from "../../model.js";
import { roomDecay } from "../../schema/room-decay.js";
import { roomVolumeM3 } from "../../schema/room-volume.js";
import { BOTH_ROOM_STANDARDS, nominalMeanTime, REVERBERATION } from "../../standards/bs1116.js";
import { limitsAt } from "../../standards/limit-mask.js";
import { audibleModeS, MODE_SOURCE } from "../../standards/modal-decay.js";
import { expandedUncertainty, overLimit } from "../../standards/real-difference.js";
import { ASSUMED_VOLUME_M3, DECAY_RANGE_HZ } from "../limits.js";
import { atMix, runsOf, thirdOctaves, worstOf } from "../places.js";
import { stated } from "../stated.js";
import { isOfModes, modesOf } from "./modes.js";

const MASK_SOURCE = `${BOTH_ROOM_STANDARDS}: reverberation by volume; outside 200 Hz-4 kHz from memory`;

/** Bands that ring on at the mix position, and a room that is live or dry as a whole. */
export function decay(results: Results): Finding[] {
  const whole = wholeRoom(results);
  const isLive = whole.some(({ severity }) => severity === "warning");
  // Of a room that is live as a whole its middle and high bands need not be told one by one.
  return [...rings(results, isLive ? LOW_UNTIL_HZ : DECAY_RANGE_HZ[1]), ...whole];
}

/** The slowest decay of one third octave over monitors and channels. */
interface Slowest extends DecayLimit {
  readonly nominalHz: number;
  readonly uncertaintyS: number | null;
  readonly timeS: number;
  /** Monitors whose decay there is known, and those of them that are over the limit. */
  readonly known: readonly string[];
  readonly over: readonly string[];
}

interface DecayLimit {
  readonly limitS: number;
  readonly source: string;
  readonly sizeIsAssumed: boolean;
}

/** Up to here single modes ring; above, surfaces throw sound to and fro. */
const LOW_UNTIL_HZ = 250;

function rings(results: Results, untilHz: number): Finding[] {
  const bands = slowest(results).filter(({ nominalHz }) => nominalHz <= untilHz);
  const slow = bands.filter(({ over }) => over.length > 0);
  const untold = (band: Slowest): boolean => slow.includes(band) && !isOfModes(band, results);
  const told = runsOf(bands, untold).map((run) => {
    const worst = worstOf(run, ({ timeS, limitS }) => timeS / limitS);
    const uncertaintyS = expandedUncertainty([worst.uncertaintyS]) ?? 0;
    const ids = results.monitors.map(({ id }) => id);
    const monitors = ids.filter((id) => run.some(({ over }) => over.includes(id)));
    const heard = ids.filter((id) => run.some(({ known }) => known.includes(id)));
    const rangeHz: [number, number] = [run[0]!.nominalHz, run.at(-1)!.nominalHz];
    const { timeS, limitS, nominalHz, source, sizeIsAssumed } = worst;
    const only = monitors.length === heard.length ? null : monitors;
    return stated(
      "rings",
      { only, rangeHz, bandHz: nominalHz, timeS, uncertaintyS, limitS, sizeIsAssumed },
      {
        severity: "warning",
        topic: "mend",
        value: timeS,
        uncertainty: uncertaintyS,
        unit: "s",
        limit: limitS,
        source,
        audibility: timeS / limitS,
        bandHz: nominalHz,
        rangeHz,
        monitors,
      },
    );
  });
  return [...modesOf(slow, results), ...told];
}

function slowest(results: Results): Slowest[] {
  const own = results.monitors.map(({ id, extension }) => ({
    id,
    endHz: extension?.minus10Hz ?? 0,
    measured: atMix(results, id),
  }));
  const nominals = new Set(own.flatMap(({ measured }) => measured.flatMap(thirdOctaves).map((band) => band.nominalHz)));
  return [...nominals]
    .filter((nominalHz) => nominalHz >= DECAY_RANGE_HZ[0] && nominalHz <= DECAY_RANGE_HZ[1])
    .sort((a, b) => a - b)
    .flatMap((nominalHz) => {
      const limit = limitAt(results, nominalHz);
      const times = own.flatMap(({ id, endHz, measured }) =>
        measured.flatMap((one) => {
          // Below its end a monitor excites so little that the band holds what its neighbours leak into it.
          if (nominalHz < endHz) return [];
          const band = thirdOctaves(one).find((other) => other.nominalHz === nominalHz);
          const time = band && roomTime(band);
          return time ? [{ id, ...time }] : [];
        }),
      );
      if (!limit || times.length === 0) return [];
      const over = times.filter((time) => overLimit(time.timeS, limit.limitS, time.uncertaintyS) === "over");
      const { timeS, uncertaintyS } = worstOf(over.length > 0 ? over : times, (time) => time.timeS);
      const ids = (list: typeof times): string[] => [...new Set(list.map(({ id }) => id))];
      return [{ nominalHz, timeS, uncertaintyS, known: ids(times), over: ids(over), ...limit }];
    });
}

/**
 * The room's time. None where the band's own filter rings about as long, nor where 20 dB of a line that is not straight are all
 * there is.
 */
function roomTime(band: BandMetrics): { timeS: number; uncertaintyS: number | null } | null {
  if (band.flags.includes("filter-limited")) return null;
  const time = roomDecay(band);
  return time?.evaluation === "T20" && band.flags.includes("not-straight") ? null : time;
}

/** The more patient of two limits: what the recommendation grants, and what of a single mode is not heard. */
function limitAt(results: Results, nominalHz: number): DecayLimit | null {
  const { upper } = limitsAt(REVERBERATION, nominalHz);
  const modeS = audibleModeS(nominalHz);
  const { meanS, sizeIsAssumed } = recommended(results);
  const maskS = upper === null ? null : meanS + upper;
  if (modeS !== null && modeS > (maskS ?? 0)) return { limitS: modeS, source: MODE_SOURCE, sizeIsAssumed: false };
  return maskS === null ? null : { limitS: maskS, source: MASK_SOURCE, sizeIsAssumed };
}

/** The time recommended for the room's volume; that of a large control room where it is not stated. */
function recommended(results: Results): { meanS: number; sizeIsAssumed: boolean } {
  const volumeM3 = roomVolumeM3(results.session.room);
  return { meanS: nominalMeanTime(volumeM3 ?? ASSUMED_VOLUME_M3), sizeIsAssumed: volumeM3 === null };
}

/** Standard uncertainty of a mean time: the floor that is stated for decays. */
const MEAN_TIME_UNCERTAINTY = 0.02;

/** The mean of 200 Hz-4 kHz over all that was measured, against the recommended range: live, dry, or nothing to say. */
function wholeRoom(results: Results): Finding[] {
  const times = results.monitors.flatMap(({ id }) => atMix(results, id).flatMap((one) => one.reverberation.tmS ?? []));
  if (times.length === 0) return [];
  const timeS = times.reduce((sum, time) => sum + time, 0) / times.length;
  const { meanS, sizeIsAssumed } = recommended(results);
  const { lower, upper } = limitsAt(REVERBERATION, 1000);
  const [lowerS, upperS] = [meanS + (lower ?? -Infinity), meanS + (upper ?? Infinity)];
  const uncertaintyS = 2 * MEAN_TIME_UNCERTAINTY * timeS;
  const monitors = results.monitors.map(({ id }) => id);
  const parts = { value: timeS, uncertainty: uncertaintyS, unit: "s", source: MASK_SOURCE, monitors };
  if (overLimit(timeS, upperS, MEAN_TIME_UNCERTAINTY * timeS) === "over") {
    const facts = { timeS, uncertaintyS, limitS: upperS, volumeM3: roomVolumeM3(results.session.room) };
    const mend = { severity: "warning", topic: "mend", limit: upperS, audibility: timeS / upperS } as const;
    return [stated("too-live", facts, { ...parts, ...mend })];
  }
  if (timeS >= lowerS || sizeIsAssumed) return [];
  const trust = { severity: "info", topic: "trust", limit: lowerS, audibility: 0.5 } as const;
  return [stated("dry", { timeS, limitS: lowerS }, { ...parts, ...trust })];
}
