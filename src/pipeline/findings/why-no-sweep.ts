import type { InputError } from "../../errors.js";
import type { Excitation } from "../../impulse/excitation.js";
import { heardSweep, type HeardSweep } from "../../impulse/heard-sweep.js";
import { findPlayed, isWhole, type Played } from "../../impulse/played.js";
import { nearestUsual } from "../../impulse/usual-ratios.js";
import type { Recording, Signal } from "../../model.js";
import * as findings from "../findings.js";

/** What was played, and the file in which the session has it. */
export interface NamedPlayed extends Played {
  readonly sweepFile: string;
}

interface Question extends NamedPlayed {
  readonly recording: Recording;
  readonly signal: Signal;
  readonly otherSweeps: readonly NamedPlayed[];
}

/** What the growth of a sweep is read to, and what frequencies smear by in a short one. */
const GROWTH_TOLERANCE = 0.02;
const GROWTH_SMEAR_S = 0.0045;
/** Over less than four octaves the slope of the line hangs on its ends. */
const PIECE_RANGE = 4 * Math.LN2;
const PIECE_TOLERANCE = 0.1;
/** A usual ratio is looked for so near to the rough one. */
const RATIO_REACH = 0.03;
/** A sweep that is heard so near to an end of the file was cut off by it. */
const AT_END_S = 0.15;

/** Says why the session's sweep is not in a recording: a wrong rate, another sweep, one cut off, or none. */
export function whyNoSweep(question: Question): InputError {
  const { signal, otherSweeps, sweepFile } = question;
  const { file } = question.recording;
  const fits = otherSweeps.find((other) => isWhole(findPlayed(signal, other), other));
  if (fits) return findings.wrongSweep(file, { is: "another", fits: fits.sweepFile, named: sweepFile });
  const heard = heardSweep(signal);
  const own = ownSweep(question.excitation);
  if (!heard || !own) return findings.noSweep(file);
  const ratio = heard.growthS / own.growthS;
  const tolerance = growthTolerance(heard, own);
  if (Math.abs(Math.log(ratio)) < tolerance) return cutOff(question, heard, own) ?? findings.noSweep(file);
  const rate = wrongRate(question, ratio, tolerance);
  if (rate !== null) return findings.rateMismatch(file, rate, signal.sampleRate);
  return findings.wrongSweep(file, { is: "none", heard: inWords(heard), own: inWords(own) });
}

/** Whether a file's sound is the session's sweep at another rate than its header names. */
export function headerIsWrong(question: Question): InputError | null {
  const { signal, excitation, recording } = question;
  const { sampleRate } = excitation;
  const isIt = isWhole(findPlayed({ ...signal, sampleRate }, question), question);
  return isIt ? findings.wrongHeader(recording.file, signal.sampleRate, sampleRate) : null;
}

/** How well the growth of a heard sweep is known: worse for short sweeps, and for pieces of one. */
function growthTolerance({ fromHz, toHz }: HeardSweep, own: HeardSweep): number {
  const range = Math.log(toHz / fromHz);
  return GROWTH_TOLERANCE + GROWTH_SMEAR_S / own.growthS + (range < PIECE_RANGE ? PIECE_TOLERANCE / range : 0);
}

/** The ratio of rates at which all that was played is in the recording: a usual one, or where a reel confirms it, any. */
function wrongRate(question: Question, ratio: number, tolerance: number): number | null {
  const { signal, timeline } = question;
  const holds = (one: number): boolean => isWhole(findPlayed(signal, question, one), question);
  const usual = nearestUsual(ratio, signal.sampleRate, Math.max(tolerance, RATIO_REACH));
  if (usual && holds(usual.ratio)) return usual.ratio;
  const isReel = timeline.filter(({ kind }) => kind === "sweep").length > 1;
  return isReel && holds(ratio) ? ratio : null;
}

/** The session's own sweep as it would be heard: by its recipe, or off its sound. */
function ownSweep(excitation: Excitation): HeardSweep | null {
  const { growthS, sweptHz, sampleRate, zeroSample } = excitation;
  if (growthS === null) return heardSweep({ samples: excitation.samples(), sampleRate });
  const fromS = zeroSample / sampleRate;
  const [fromHz, toHz] = sweptHz;
  return { growthS, fromHz, toHz, fromS, toS: fromS + growthS * Math.log(toHz / fromHz) };
}

/** The right sweep that does not begin, or does not end, in the recording. */
function cutOff({ recording, signal, excitation }: Question, heard: HeardSweep, own: HeardSweep): InputError | null {
  const { sampleRate } = signal;
  const durationS = signal.samples.length / sampleRate;
  const startS = heard.fromS - own.growthS * Math.log(heard.fromHz / own.fromHz) - own.fromS;
  const endS = startS + excitation.samples().length / sampleRate;
  const channel = recording.channel ?? null;
  if (heard.fromS < AT_END_S && startS < 0) {
    return findings.asError([findings.startedLate(recording.file, channel, -startS)], recording.file);
  }
  if (heard.toS > durationS - AT_END_S && endS > durationS) {
    return findings.asError([findings.endedEarly(recording.file, channel, endS - durationS)], recording.file);
  }
  return null;
}

function inWords({ fromHz, toHz, growthS }: HeardSweep): { fromHz: number; toHz: number; lengthS: number } {
  return { fromHz, toHz, lengthS: growthS * Math.log(toHz / fromHz) };
}
