import { logPower } from "../dsp/log-power.js";
import type { AveragedTakes } from "../impulse/average-takes.js";
import { onsetSample } from "../impulse/onset.js";
import { bandMetrics, type DecayMetrics, decayRanges, unknownDecay } from "../metrics/decay/band-metrics.js";
import { isDisturbed, withholdHidden, withholdDisturbed } from "../metrics/decay/withhold-disturbed.js";
import { measureDistortion } from "../metrics/distortion.js";
import { drivenTooHard } from "../metrics/driven-too-hard.js";
import type { BandLimit } from "../metrics/response/band-limit.js";
import { steadyPower } from "../metrics/response/steady-state.js";
import type { Distortion, Finding, ImpulseResponse } from "../model.js";
import { type Band, bandEdges, OCTAVES } from "../standards/iec61260.js";
import { bandLimited, distorted, earlyEnd, isJudgedOctave, lowSignal } from "./findings/measured.js";
import type { Take } from "./capture.js";
import { factsOf, filesOf, type Group } from "./group.js";

/** The figures of one place by which its recordings are judged. */
export interface JudgedFigures {
  readonly decays: readonly Pick<DecayMetrics, "fraction" | "nominalHz" | "flags" | "decayRangeDb">[];
  readonly distortion: Distortion | null;
  readonly limit: BandLimit | null;
}

/** What the figures of one place say against its recordings. The report and the quick check both ask here. */
export function figureFindings({ id, takes }: Group, { decays, distortion, limit }: JudgedFigures): Finding[] {
  const files = filesOf(takes);
  return [
    // What takes decays away then is told already.
    ...lowSignal(id, factsOf(takes).signalToNoiseDb, decaysAreHidden(distortion) ? [] : decays, files),
    ...distorted(id, distortion, files),
    ...bandLimited(id, limit, files),
  ];
}

/** Those figures alone, for a check that measures nothing else. Takes that disagree are judged by the first. */
export function judgedFigures({ monitor, takes }: Group, averaged: AveragedTakes): JudgedFigures {
  const whole = averaged.impulse;
  const { power, binHz } = steadyPower(whole);
  const steady = logPower(power, binHz);
  const limit = earlyEnd(monitor.role, steady, whole.sweptHz);
  const impulse = withinLimit(whole, limit);
  const harmonics = takes.map((take) => take.harmonics);
  return {
    decays: octaveRanges(impulse, disturbed(takes)),
    distortion: measureDistortion(impulse, steady, harmonics, averaged.agree ? takes.length : 1),
    limit,
  };
}

function octaveRanges(impulse: ImpulseResponse, disturbedHz: Take["disturbedHz"]): JudgedFigures["decays"] {
  const octaves = OCTAVES.filter((band) => isJudgedOctave(band) && !isDisturbed(band, disturbedHz));
  const ranges = decayRanges(impulse, octaves);
  return octaves.map((octave, n) => ({ ...octave, ...ranges[n]! }));
}

/** Whether harmonics are so many or so strong that nothing of a decay can be told. */
export function decaysAreHidden(distortion: Distortion | null): boolean {
  return distortion !== null && (drivenTooHard(distortion)?.hidesDecays ?? false);
}

const disturbed = (takes: Group["takes"]): Take["disturbedHz"] => takes.flatMap(({ disturbedHz }) => disturbedHz);

/**
 * Decays in bands, without those under which something else sounded; none where harmonics hide them.
 *
 * @param belowHz - bands that reach higher are left unknown, flagged `not-read`
 */
export function judgedDecays(
  impulse: ImpulseResponse,
  takes: Group["takes"],
  bands: readonly Band[],
  areHidden: boolean,
  belowHz: number,
): DecayMetrics[] {
  const asked = bands.filter((band) => bandEdges(band)[1] <= belowHz);
  const read = bandMetrics({ ...impulse, arrivalSample: onsetSample(impulse) }, asked);
  const decays = bands.map((band) => read[asked.indexOf(band)] ?? { ...unknownDecay(band), flags: ["not-read"] });
  return areHidden ? withholdHidden(decays) : withholdDisturbed(decays, disturbed(takes));
}

/** Behind a cliff there is nothing of the loudspeaker: as if it had not been swept. */
export function withinLimit(impulse: ImpulseResponse, limit: BandLimit | null): ImpulseResponse {
  return limit?.isCliff ? { ...impulse, sweptHz: [impulse.sweptHz[0], limit.hz] } : impulse;
}
