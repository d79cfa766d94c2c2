import type { BandMetrics } from "../../../model.js";
import { bandEdges } from "../../../standards/iec61260.js";
import { LEAST_BANDWIDTH_TIME } from "../../../standards/iso3382.js";
import { JUST_NOTICEABLE, type JustNoticeable } from "../../../standards/just-noticeable.js";
import { decayGoal } from "../decay-goal.js";
import { otherRange } from "../other-range.js";
import { decayByPlacement } from "../placement.js";
import type { MeasurementPair, Quantity, Reading } from "../reading.js";

/**
 * Early decay time in octaves from 125 Hz up, T20, T30 and the decay behind the direct sound in octaves and third octaves.
 *
 * Over ten decibels a narrow or low band decays as its few modes beat, and a centimetre changes that by half.
 */
export const decay: Quantity<MeasurementPair> = {
  of: (pair) =>
    pair.before.bands.flatMap((before) => {
      const after = pair.after.bands.find(
        ({ fraction, nominalHz }) => fraction === before.fraction && nominalHz === before.nominalHz,
      );
      return after ? kinds.flatMap((kind) => read(kind, before, after, pair)) : [];
    }),
  justNoticeable: {
    edtS: JUST_NOTICEABLE.earlyDecay,
    t20S: JUST_NOTICEABLE.decay,
    t30S: JUST_NOTICEABLE.decay,
    lateS: JUST_NOTICEABLE.decay,
  },
};

interface Kind {
  readonly key: "edtS" | "t20S" | "t30S" | "lateS";
  readonly uncertaintyKey: "edtUncertaintyS" | "decayUncertaintyS" | "lateUncertaintyS";
  readonly evaluation: "edt" | "t20" | "t30";
  readonly justNoticeable: JustNoticeable;
}

const kinds: readonly Kind[] = [
  { key: "edtS", uncertaintyKey: "edtUncertaintyS", evaluation: "edt", justNoticeable: JUST_NOTICEABLE.earlyDecay },
  { key: "t20S", uncertaintyKey: "decayUncertaintyS", evaluation: "t20", justNoticeable: JUST_NOTICEABLE.decay },
  { key: "t30S", uncertaintyKey: "decayUncertaintyS", evaluation: "t30", justNoticeable: JUST_NOTICEABLE.decay },
  { key: "lateS", uncertaintyKey: "lateUncertaintyS", evaluation: "t20", justNoticeable: JUST_NOTICEABLE.decay },
];

/** From -5 dB to -25 or -35. */
const FALLS_DB = { t20S: 20, t30S: 30 } as const;

/** The octaves of ISO 3382-1, from memory, and above. */
const EARLY_FROM_HZ = 125;

function read(kind: Kind, before: BandMetrics, after: BandMetrics, pair: MeasurementPair): Reading[] {
  if (kind.key === "edtS" && (before.fraction === 3 || before.nominalHz < EARLY_FROM_HZ)) return [];
  const [old, now] = [before[kind.key], after[kind.key]];
  if (old === null && now === null) return [];
  const both = old !== null && now !== null;
  const own = both ? [ownUncertainty(kind, before), ownUncertainty(kind, after)] : [null];
  const bent = pair.apartM > 0 && both ? [bend(kind, before), bend(kind, after)] : [];
  const { before: one, after: other } = pair.sides;
  return [
    {
      quantity: kind.key,
      bandHz: before.nominalHz,
      fraction: before.fraction,
      atS: null,
      unit: "s",
      before: old,
      after: now,
      uncertainty:
        !both || own.includes(null)
          ? null
          : Math.hypot(
              ...own.map((value) => value!),
              ...bent,
              decayByPlacement(before, kind.evaluation, (old + now) / 2, pair.apartM) * ((old + now) / 2),
            ),
      justNoticeable: kind.justNoticeable,
      goal: both ? decayGoal(before.nominalHz, old, now, other.volumeM3 ?? one.volumeM3) : null,
      reason: whyNot(kind, before) ?? whyNot(kind, after) ?? otherRange(before, after),
    },
  ];
}

/** What is stated holds for the time that was read furthest down; a shorter range is taken to be known no worse, as a share. */
function ownUncertainty({ key, uncertaintyKey }: Kind, band: BandMetrics): number | null {
  const stated = band[uncertaintyKey] ?? null;
  const statedFor = uncertaintyKey === "decayUncertaintyS" ? (band.t30S ?? band.t20S) : band[key];
  return stated === null || statedFor === null ? null : (stated * band[key]!) / statedFor;
}

/**
 * How much a decay that is no straight line leaves open: half of what another range of levels would have given, and how well a line
 * is fixed by points that scatter about it as these do.
 *
 * A microphone that stands a centimetre elsewhere moves a fit past a cliff, or hears a little more of a slow mode at whose node it stands.
 */
function bend({ key }: Kind, band: BandMetrics): number {
  const other = { edtS: band.t20S, t20S: band.t30S, t30S: band.t20S, lateS: band.t30S }[key];
  return Math.hypot(other === null ? 0 : Math.abs(other - band[key]!) / 2, scatter(key, band));
}

/**
 * Standard error of a decay time by the scatter of its curve about the line, of as many independent points as the band has
 * while the level falls over the range.
 *
 * @remarks Source: standard error of a slope in linear regression, b √((1/r² − 1) / (n − 2)); 1 − r² is ISO 3382-2's
 *   non-linearity. That a band of width B has B t independent points in the time t is common practice, no source.
 */
function scatter(key: Kind["key"], band: BandMetrics): number {
  if (key !== "t20S" && key !== "t30S") return 0;
  const unexplained = (band.nonLinearityPerMille ?? 0) / 1000;
  const [fromHz, toHz] = bandEdges(band);
  const timeS = band[key]!;
  const points = (toHz - fromHz) * timeS * (FALLS_DB[key] / 60);
  return timeS * Math.sqrt(unexplained / (1 - unexplained) / Math.max(1, points - 2));
}

/** A time that is not the room's cannot say that the room has changed. */
function whyNot({ key }: Kind, band: BandMetrics): string | null {
  const { flags } = band;
  const [fromHz, toHz] = bandEdges(band);
  const timeS = band[key];
  if (timeS !== null && (toHz - fromHz) * timeS <= LEAST_BANDWIDTH_TIME.reversed) {
    return "the band filter rings about as long as the room";
  }
  if (key !== "lateS" && flags.includes("direct-dominated")) {
    return "the direct sound makes a cliff, so this is not the room's decay; the late decay is";
  }
  return null;
}
