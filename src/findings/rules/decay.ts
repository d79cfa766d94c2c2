import type { BandMetrics, Finding, Results } from "../../model.js";
import { roomDecay } from "../../schema/room-decay.js";
import { roomVolumeM3 } from "../../schema/room-volume.js";
import { BOTH_ROOM_STANDARDS, nominalMeanTime, REVERBERATION } from "../../standards/bs1116.js";
import { limitsAt } from "../../standards/limit-mask.js";
import { audibleModeS } from "../../standards/modal-decay.js";
import { expandedUncertainty, realDifference } from "../../standards/real-difference.js";
import { DECAY_RANGE_HZ } from "../limits.js";
import { atMix, runsOf, thirdOctaves, worstOf } from "../places.js";
import { stated } from "../stated.js";

const MASK_SOURCE = `${BOTH_ROOM_STANDARDS}: reverberation by volume; outside 200 Hz-4 kHz from memory`;
const MODE_SOURCE = "longest unheard decay of a low mode, Stephenson 2012 and Fazenda et al. 2015 (partly from memory)";

/** Bands that ring on at the mix position, and a room that is live or dry as a whole. */
export function decay(results: Results): Finding[] {
  const whole = wholeRoom(results);
  const isLive = whole.some(({ severity }) => severity === "warning");
  // Of a room that is live as a whole its middle and high bands need not be told one by one.
  return [...rings(results, isLive ? LOW_UNTIL_HZ : Infinity), ...whole];
}

/** The slowest decay of one third octave over monitors and channels, and all monitors that are over the limit there. */
interface Slowest {
  readonly nominalHz: number;
  readonly timeS: number;
  readonly uncertaintyS: number | null;
  readonly limitS: number;
  readonly source: string;
  readonly monitors: readonly string[];
}

/** Below, single modes ring; above, surfaces throw sound to and fro. */
const LOW_UNTIL_HZ = 250;

function rings(results: Results, untilHz: number): Finding[] {
  const bands = slowest(results).filter(({ nominalHz }) => nominalHz <= untilHz);
  const [low, high] = [true, false].map((isLow) =>
    bands.filter(({ nominalHz }) => nominalHz <= LOW_UNTIL_HZ === isLow),
  );
  const runs = [low!, high!].flatMap((part) => runsOf(part, ({ monitors }) => monitors.length > 0));
  return runs.map((run) => {
    const worst = worstOf(run, ({ timeS, limitS }) => timeS / limitS);
    const uncertaintyS = expandedUncertainty([worst.uncertaintyS]) ?? 0;
    const monitors = results.monitors
      .map(({ id }) => id)
      .filter((id) => run.some((band) => band.monitors.includes(id)));
    const rangeHz: [number, number] = [run[0]!.nominalHz, run.at(-1)!.nominalHz];
    const { timeS, limitS, nominalHz } = worst;
    return stated(
      "rings",
      { monitors, rangeHz, bandHz: nominalHz, timeS, uncertaintyS, limitS },
      {
        severity: "warning",
        topic: "mend",
        value: timeS,
        uncertainty: uncertaintyS,
        unit: "s",
        limit: limitS,
        source: worst.source,
        audibility: timeS / limitS,
        bandHz: nominalHz,
        rangeHz,
        monitors,
      },
    );
  });
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
      const over = times.filter(
        ({ timeS, uncertaintyS }) =>
          timeS > limit.timeS && realDifference(timeS - limit.timeS, [uncertaintyS], 0) === "real",
      );
      const { timeS, uncertaintyS } = worstOf(over.length > 0 ? over : times, (time) => time.timeS);
      const monitors = [...new Set(over.map(({ id }) => id))];
      return [{ nominalHz, timeS, uncertaintyS, limitS: limit.timeS, source: limit.source, monitors }];
    });
}

/** The room's time; none where the band's own filter rings about as long. */
function roomTime(band: BandMetrics): { timeS: number; uncertaintyS: number | null } | null {
  return band.flags.includes("filter-limited") ? null : roomDecay(band);
}

/** The more patient of the two limits: what the recommendation grants, and what of a single mode is not heard. */
function limitAt(results: Results, nominalHz: number): { timeS: number; source: string } | null {
  const { timeS: meanS, source } = middleOf(results);
  const { upper } = limitsAt(REVERBERATION, nominalHz);
  const maskS = meanS === null || upper === null ? null : meanS + upper;
  const modeS = audibleModeS(nominalHz);
  if (maskS === null) return modeS === null ? null : { timeS: modeS, source: MODE_SOURCE };
  return modeS !== null && modeS > maskS ? { timeS: modeS, source: MODE_SOURCE } : { timeS: maskS, source };
}

/** What the mask lies around: the time recommended for the volume; where that is not known, the room's own mean. */
function middleOf(results: Results): { timeS: number | null; source: string } {
  const volumeM3 = roomVolumeM3(results.session.room);
  if (volumeM3 !== null) return { timeS: nominalMeanTime(volumeM3), source: MASK_SOURCE };
  return { timeS: meanTime(results), source: `${MASK_SOURCE}; volume not stated, so around this room's own mean` };
}

/** Mean of 200 Hz-4 kHz over all that was measured at the mix position. */
function meanTime(results: Results): number | null {
  const times = results.monitors.flatMap(({ id }) => atMix(results, id).flatMap((one) => one.reverberation.tmS ?? []));
  return times.length === 0 ? null : times.reduce((sum, time) => sum + time, 0) / times.length;
}

/** The mean of the recommended range against its limits: live, dry, or nothing to say. */
function wholeRoom(results: Results): Finding[] {
  const volumeM3 = roomVolumeM3(results.session.room);
  const timeS = meanTime(results);
  if (volumeM3 === null || timeS === null) return [];
  const tmS = nominalMeanTime(volumeM3);
  const { lower, upper } = limitsAt(REVERBERATION, 1000);
  const lowerS = tmS + (lower ?? -Infinity);
  const upperS = tmS + (upper ?? Infinity);
  const parts = { value: timeS, unit: "s", source: MASK_SOURCE, monitors: results.monitors.map(({ id }) => id) };
  if (timeS > upperS) {
    const facts = { timeS, limitS: upperS, volumeM3 };
    const mend = { severity: "warning", topic: "mend", limit: upperS, audibility: timeS / upperS } as const;
    return [stated("too-live", facts, { ...parts, ...mend })];
  }
  if (timeS >= lowerS) return [];
  return [
    stated(
      "dry",
      { timeS, limitS: lowerS },
      { ...parts, severity: "info", topic: "trust", limit: lowerS, audibility: 0.5 },
    ),
  ];
}
