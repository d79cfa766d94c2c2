import type { BandMetrics } from "../../model.js";
import { roomDecay } from "../../schema/room-decay.js";
import { audiblePeakDb } from "../../standards/audible-deviation.js";
import { EARLY_UNTIL_S } from "../../standards/early-sound.js";
import { bandEdges } from "../../standards/iec61260.js";
import { audibleModeS } from "../../standards/modal-decay.js";
import { expandedUncertainty } from "../../standards/real-difference.js";
import { alignmentDb, BANDS, type Curve } from "../bands.js";
import { LIMITS } from "../limits.js";
import type { MonitorCase } from "../monitor-case.js";
import { audibleByWidth } from "./audible-by-width.js";
import { against, type Reason } from "./reason.js";

/** What is known of a monitor, by band. */
export interface Evidence extends MonitorCase {
  readonly levelDb: Curve;
  readonly deviationDb: Curve;
  /** How far it is from its own target; null where that says nothing. */
  readonly fromTargetDb: Curve;
  readonly uncertaintyDb: Curve;
  readonly spreadDb: Curve;
  /** How far the programme's notes stand over what hides them; null where it is not known. */
  readonly audibleDb: Curve;
}

/** Reasons of one kind, by band. */
export type Rule = (evidence: Evidence) => readonly Reason[][];

const eachBand = (judge: (k: number, nominalHz: number) => Reason[]): Reason[][] =>
  BANDS.map(({ nominalHz }, k) => judge(k, nominalHz));

const notMeasured: Rule = ({ deviationDb }) =>
  eachBand((k) =>
    deviationDb[k] == null ? [{ code: "not-measured", grade: null, value: null, limit: null, unit: null }] : [],
  );

/** What the end of the monitor says as loudly is not told again as a dip. */
const deviation: Rule = ({ fromTargetDb, levelDb }) => {
  const end = extension({ levelDb });
  const peaks = audibleByWidth(fromTargetDb, 1);
  const dipsDb = fromTargetDb.map((value) => (value === null ? null : -value));
  const dips = audibleByWidth(dipsDb, LIMITS.dip.care / LIMITS.peak.care);
  return eachBand((k, nominalHz) => {
    const dip = against(LIMITS.dip, nominalHz, dipsDb[k] ?? null, { ...LIMITS.dip, care: dips[k]! });
    return [
      ...against(LIMITS.peak, nominalHz, fromTargetDb[k] ?? null, { ...LIMITS.peak, care: peaks[k]! }),
      // As deviations, downward.
      ...dip
        .filter(({ grade }) => !end[k]!.some((told) => told.grade === grade || told.grade === "blind"))
        .map((reason) => ({ ...reason, value: -reason.value!, limit: -reason.limit! })),
    ];
  });
};

const leftRight: Rule = ({ result }) => {
  const pair = result.leftRight;
  if (!pair) return BANDS.map(() => []);
  // The gain of one recording against the other is no difference of the speakers.
  const gainDb = pair.includesGain ? (pair.levelDb ?? 0) : 0;
  return eachBand((_, nominalHz) => {
    const difference = pair.bands.find((band) => band.nominalHz === nominalHz)?.differenceDb ?? null;
    const size = difference === null ? null : Math.abs(difference - gainDb);
    return [LIMITS.leftRightLow, LIMITS.leftRight].flatMap((row) => against(row, nominalHz, size));
  });
};

/** The slowest side; a band that does not stand out rings unheard. */
const ringing: Rule = ({ sides, fromTargetDb }) =>
  eachBand((k, nominalHz) => {
    const unheardS = audibleModeS(nominalHz);
    const standsOut = (fromTargetDb[k] ?? 0) > audiblePeakDb(1);
    const times = sides.flatMap(({ bands }) => {
      const band = bands.find((one) => one.fraction === 3 && one.nominalHz === nominalHz);
      return band && isRooms(band) ? (roomDecay(band)?.timeS ?? []) : [];
    });
    if (unheardS === null || !standsOut || times.length === 0) return [];
    const { care, blind } = LIMITS.ringing;
    return against(LIMITS.ringing, nominalHz, Math.max(...times), { care: care * unheardS, blind: blind * unheardS });
  });

/** Whether the time is the room's: not the filter's own, nor read from 20 dB of a line that is not straight. */
function isRooms(band: BandMetrics): boolean {
  if (band.flags.includes("filter-limited")) return false;
  return roomDecay(band)?.evaluation !== "T20" || !band.flags.includes("not-straight");
}

/** The strongest of either side, from its first notch up. */
const reflections: Rule = ({ sides }) => {
  const early = sides.flatMap((side) => side.reflections.filter(({ delayS }) => delayS <= EARLY_UNTIL_S));
  return eachBand((k, nominalHz) => {
    const [, toHz] = bandEdges(BANDS[k]!);
    const levels = early.filter(({ firstNotchHz }) => firstNotchHz < toHz).map(({ levelDb }) => levelDb);
    return against(LIMITS.reflection, nominalHz, levels.length > 0 ? Math.max(...levels) : null);
  });
};

const spread: Rule = ({ spreadDb }) =>
  eachBand((k, nominalHz) => against(LIMITS.spread, nominalHz, spreadDb[k] ?? null));

/** From the lowest band up to the first that reaches -6 dB re the mean of 200 Hz-4 kHz: a hole above that is a dip. */
function extension({ levelDb }: Pick<Evidence, "levelDb">): Reason[][] {
  const ownDb = alignmentDb(levelDb);
  const relativeDb = levelDb.map((level) => (level === null || ownDb === null ? null : level - ownDb));
  const end = relativeDb.findIndex((level) => level !== null && level >= LIMITS.extension.care);
  return eachBand((k, nominalHz) => (k < end ? against(LIMITS.extension, nominalHz, relativeDb[k] ?? null) : []));
}

const audibility: Rule = ({ audibleDb }) =>
  eachBand((k, nominalHz) => against(LIMITS.audibility, nominalHz, audibleDb[k] ?? null));

/** The worst of either side inside the band. */
const distortion: Rule = ({ sides }) =>
  eachBand((k, nominalHz) => {
    const [fromHz, toHz] = bandEdges(BANDS[k]!);
    const shares = sides.flatMap(({ distortion }) =>
      (distortion?.frequencyHz ?? []).flatMap((hz, n) =>
        hz >= fromHz && hz < toHz ? (distortion!.thdPercent[n] ?? []) : [],
      ),
    );
    return against(LIMITS.distortion, nominalHz, shares.length > 0 ? Math.max(...shares) : null);
  });

/** Where noise is known, a level without an uncertainty lies under it: nothing is known of the monitor there. */
const uncertainty: Rule = ({ deviationDb, uncertaintyDb }) => {
  const noiseIsKnown = uncertaintyDb.some((value) => value !== null);
  const { code, blind, unit } = LIMITS.uncertainty;
  return eachBand((k, nominalHz) => {
    if (deviationDb[k] == null) return [];
    const expandedDb = expandedUncertainty([uncertaintyDb[k] ?? null]);
    if (expandedDb !== null) return against(LIMITS.uncertainty, nominalHz, expandedDb);
    return noiseIsKnown ? [{ code, grade: "blind", value: null, limit: blind, unit }] : [];
  });
};

const onePlace: Rule = ({ around }) => eachBand((_, nominalHz) => against(LIMITS.onePlace, nominalHz, around.length));

/** In the order in which reasons are told. */
export const RULES: readonly Rule[] = [
  notMeasured,
  extension,
  deviation,
  leftRight,
  ringing,
  reflections,
  spread,
  audibility,
  distortion,
  uncertainty,
  onePlace,
];
