import { LOW_DECAY_RANGE, LOW_SIGNAL } from "../../findings/limits.js";
import { bandLimit, type BandLimit } from "../../metrics/response/band-limit.js";
import { drivenTooHard } from "../../metrics/driven-too-hard.js";
import type { LogPower } from "../../dsp/log-power.js";
import type { Distortion, Finding, Measurement } from "../../model.js";
import { isMixedOn } from "../../schema/mixed-on.js";
import type { Band } from "../../standards/iec61260.js";
import { about } from "../findings.js";

/** What is wrong with the recordings of one measurement, as far as its figures show it. */

/** Octaves in which decays are looked for. */
const DECAY_HZ = [125, 4000] as const;
/** What else takes a decay away than noise. */
const OTHER_REASONS = ["disturbed", "outside-swept-range", "direct-sound-only", "not-read"];

export function isJudgedOctave({ fraction, nominalHz }: Pick<Band, "fraction" | "nominalHz">): boolean {
  return fraction === 1 && nominalHz >= DECAY_HZ[0] && nominalHz <= DECAY_HZ[1];
}

export function lowSignal(
  id: string,
  signalToNoiseDb: number | null,
  decays: readonly Pick<Measurement["bands"][number], "fraction" | "nominalHz" | "flags" | "decayRangeDb">[],
  files: string[],
): Finding[] {
  const weakHz = decays
    .filter((band) => isJudgedOctave(band) && !band.flags.some((flag) => OTHER_REASONS.includes(flag)))
    .filter(({ decayRangeDb }) => (decayRangeDb ?? 0) < LOW_DECAY_RANGE.value)
    .map(({ nominalHz }) => nominalHz);
  const isSoft = signalToNoiseDb !== null && signalToNoiseDb < LOW_SIGNAL.value;
  const isShort = weakHz.length >= LOW_DECAY_RANGE.octaves;
  if (!isSoft && !isShort) return [];
  const facts = { id, signalToNoiseDb, weakHz: isShort ? weakHz : [] };
  const parts = { value: signalToNoiseDb, unit: "dB", limit: isSoft ? LOW_SIGNAL.value : null };
  return [about(files, "warning", "low-signal", facts, parts)];
}

export function distorted(id: string, distortion: Distortion | null, files: string[]): Finding[] {
  const found = distortion && drivenTooHard(distortion);
  if (!found) return [];
  const { percent, frequencyHz } = found;
  return [about(files, "warning", "distorted", { id, ...found }, { value: percent, unit: "%", bandHz: frequencyHz })];
}

/** The end of a response that somebody mixes on or checks with; other devices have their limits by nature. */
export function earlyEnd(
  role: Measurement["role"],
  power: LogPower,
  sweptHz: readonly [number, number],
): BandLimit | null {
  const isJudged = role !== "other" && (isMixedOn({ role }) || role === "check");
  return isJudged ? bandLimit(power, sweptHz) : null;
}

export function bandLimited(id: string, limit: BandLimit | null, files: string[]): Finding[] {
  if (!limit) return [];
  const { hz, dropDb } = limit;
  return [about(files, "warning", "band-limited", { id, ...limit }, { value: dropDb, unit: "dB", bandHz: hz })];
}
