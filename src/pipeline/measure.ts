import { averageTakes, type TakeSpread } from "../impulse/average-takes.js";
import { noisePower } from "../impulse/noise.js";
import { phantomCentre } from "../impulse/phantom-centre.js";
import { measureBackground } from "../metrics/background.js";
import { reverberation } from "../metrics/decay/reverberation.js";
import { measureDistortion } from "../metrics/distortion.js";
import { arrivalEnvelope, energyTimeCurve } from "../metrics/reflections/energy-time.js";
import { findReflections } from "../metrics/reflections/find-reflections.js";
import type { BandLimit } from "../metrics/response/band-limit.js";
import { bandLevel, bandUncertainty } from "../metrics/response/band-levels.js";
import { measureResponse, type ResponseResult } from "../metrics/response/response.js";
import type { ImpulseResponse, Measurement } from "../model.js";
import { bandsWithin } from "../standards/iec61260.js";
import { weightingA } from "../standards/iec61672.js";
import type { Measured, ReadOff } from "./labour.js";
import { extreme, factsOf, type Group, groupFindings, measurementId } from "./group.js";
import { decaysAreHidden, figureFindings, judgedDecays, withinLimit } from "./figure-findings.js";
import { withTakeScatter } from "./take-scatter.js";
import { earlyEnd } from "./findings/measured.js";

export interface Calibration {
  /** Sound pressure level of a full-scale sine; null without a calibrator. */
  readonly fullScaleDb: number | null;
  readonly deviationDb: ((frequencyHz: number) => number) | null;
  readonly speedOfSound: number;
}

/**
 * Measures one group of takes: averages them and reads off the response everything it can tell.
 *
 * @param decaysBelowHz - bands that reach higher have no decay read
 */
export function measureGroup(group: Group, calibration: Calibration, decaysBelowHz = Infinity): ReadOff {
  const { takes } = group;
  const first = takes[0]!;
  const averaged = averageTakes(takes.map((take) => take.impulse));
  const { repeatabilityDb } = averaged;
  const takesDb = takes.length > 1 ? takeUncertainty(averaged.spread, takes.length) : null;
  const offsetDb = pressureOffsetDb(group, calibration);
  const responseWithin = (range: BandLimit | null): ResponseResult => {
    const read = (take: ImpulseResponse): ResponseResult =>
      measureResponse(withinLimit(take, range), offsetDb, takesDb);
    return averaged.agree ? read(averaged.impulse) : energyMean(averaged.aligned.map(read));
  };
  const whole = responseWithin(null);
  const limit = earlyEnd(group.monitor.role, whole.steady, averaged.impulse.sweptHz);
  const impulse = withinLimit(averaged.impulse, limit);
  const result = limit?.isCliff ? responseWithin(limit) : whole;
  const { signalToNoiseDb, worst, drift } = factsOf(takes);
  const { noise } = first;
  const distortion = measureDistortion(
    impulse,
    result.steady,
    takes.map((take) => take.harmonics),
    averaged.agree ? takes.length : 1,
  );
  const areHidden = decaysAreHidden(distortion);
  const read = readOff(group, impulse, result, calibration, areHidden, decaysBelowHz);
  const measurement: Measurement = {
    ...read,
    bands: withTakeScatter(read.bands, averaged.aligned),
    takes: new Set(takes.map((take) => take.recording)).size,
    derived: false,
    quality: {
      usable: true,
      peakDbfs: extreme(
        Math.max,
        takes.map((take) => take.peakDbfs),
      ),
      clippedSamples: takes.reduce((sum, take) => sum + take.clippedSamples, 0),
      clockDriftPpm: drift?.ppm ?? null,
      clockDriftUncertaintyPpm: drift?.uncertaintyPpm ?? null,
      clockDriftCorrected: drift?.correct ?? false,
      signalToNoiseDb,
      repeatabilityDb,
      residual: worst.residual,
      findings: [
        ...groupFindings(group, averaged, calibration.speedOfSound),
        ...figureFindings(group, { decays: read.bands, distortion, limit }),
      ],
    },
    arrival: { inFileS: first.arrivalInFileS, timeS: first.flightS, polarity: impulse.polarity },
    distortion,
    background:
      noise &&
      measureBackground(
        (fromHz, toHz) => noisePower(noise, fromHz, toHz),
        noise.sampleRate,
        (hz) => -(calibration.deviationDb?.(hz) ?? 0),
        calibration.fullScaleDb,
        weightingA,
        noise.seconds,
      ),
  };
  return { measurement, impulse };
}

const NO_SPREAD: TakeSpread = { nominalHz: 0, exactHz: 0, deviationDb: 0, differenceDb: 0, relativeDb: [] };
/** Few takes know their own scatter badly: no mean is called better known than this. A choice of ours. */
const TAKES_FLOOR_DB = 0.05;

/** Standard uncertainty of the mean of takes, from the nearest third octave. */
function takeUncertainty(spread: readonly TakeSpread[], count: number): (frequencyHz: number) => number {
  return (frequencyHz) => {
    const distance = (band: TakeSpread): number => Math.abs(Math.log(band.exactHz / frequencyHz));
    const nearest = spread.reduce((a, b) => (distance(b) < distance(a) ? b : a), spread[0] ?? NO_SPREAD);
    return Math.max(nearest.deviationDb / Math.sqrt(count), TAKES_FLOOR_DB);
  };
}

/** Derives the phantom centre from left and right of one reel. */
export function measurePhantom(
  left: Measured,
  right: Measured,
  rightLaterS: number,
  calibration: Calibration,
): ReadOff {
  const impulse = phantomCentre(left.impulse, right.impulse, rightLaterS);
  const group: Group = {
    ...left.group,
    channel: "both",
    takes: [...left.group.takes, ...right.group.takes],
    id: measurementId(left.group.monitor.id, "both", left.group.position),
  };
  const result = measureResponse(impulse, pressureOffsetDb(group, calibration), null);
  const { quality } = left.measurement;
  const areHidden = [left, right].some((side) => decaysAreHidden(side.measurement.distortion));
  const measurement: Measurement = {
    ...readOff(group, impulse, result, calibration, areHidden),
    takes: left.measurement.takes,
    derived: true,
    quality: { ...quality, findings: [], residual: null },
    arrival: { inFileS: null, timeS: null, polarity: left.measurement.arrival.polarity },
    // Reflections of two loudspeakers at once belong to neither, and harmonics do not add as responses do.
    energyTime: null,
    reflections: [],
    distortion: null,
    background: null,
  };
  return { measurement, impulse };
}

type ResponseParts = Omit<Measurement, "takes" | "derived" | "quality" | "arrival" | "distortion" | "background">;

function readOff(
  group: Group,
  impulse: ImpulseResponse,
  result: ResponseResult,
  calibration: Calibration,
  areHidden: boolean,
  decaysBelowHz = Infinity,
): ResponseParts {
  const swept = bandsWithin(...impulse.sweptHz);
  const decays = judgedDecays(impulse, group.takes, swept, areHidden, decaysBelowHz);
  const bands = decays.map((decay) => ({
    ...decay,
    ...bandLevel(impulse, result.steady, result.noiseS, decay, pressureOffsetDb(group, calibration)),
    levelUncertaintyDb: bandUncertainty(result.response, decay),
  }));
  const envelope = arrivalEnvelope(impulse);
  return {
    id: group.id,
    monitor: group.monitor.id,
    role: group.monitor.role,
    channel: group.channel,
    position: group.position,
    levelReference: isPressure(group, calibration) ? "spl" : "transfer",
    response: result.response,
    bands,
    reverberation: reverberation(decays),
    energyTime: energyTimeCurve(envelope),
    reflections: findReflections(envelope, calibration.speedOfSound),
    modes: [],
  };
}

/** Energy mean of the levels of takes that disagree; phase, delay and range are the first take's. */
function energyMean(results: readonly ResponseResult[]): ResponseResult {
  const first = results[0]!;
  const average = (key: "levelDb" | "toneDb" | "directDb"): (number | null)[] =>
    first.response[key].map((_, k) => {
      const levels = results.flatMap((result) => result.response[key][k] ?? []);
      if (levels.length < results.length) return null;
      return 10 * Math.log10(levels.reduce((sum, level) => sum + 10 ** (level / 10), 0) / levels.length);
    });
  return {
    response: {
      ...first.response,
      levelDb: average("levelDb"),
      toneDb: average("toneDb"),
      directDb: average("directDb"),
    },
    steady: {
      mean: (fromHz, toHz) =>
        results.reduce((sum, result) => sum + result.steady.mean(fromHz, toHz), 0) / results.length,
    },
    noiseS: first.noiseS,
  };
}

/** Only a sweep has a level of its own; an impulse response stays a transfer. */
function isPressure(group: Group, calibration: Calibration): boolean {
  return calibration.fullScaleDb !== null && group.takes[0]?.levelDbfs != null;
}

/** dB that turn a transfer level into the sound pressure of a sine at the recipe's level; 0 without a calibrator. */
function pressureOffsetDb(group: Group, calibration: Calibration): number {
  return isPressure(group, calibration) ? calibration.fullScaleDb! + group.takes[0]!.levelDbfs! : 0;
}
