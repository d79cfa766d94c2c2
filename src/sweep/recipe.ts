import { markerSampleCount, sweepSampleCount } from "../dsp/sweep-signal.js";
import { InputError } from "../errors.js";
import type { SampleFormat, SweepRecipe } from "../model.js";
import { LONGEST_REEL_S, USABLE_HZ } from "./parse-recipe.js";
import { reelEvents } from "./timeline.js";

export interface SweepOptions {
  sampleRate?: number;
  /** Asked for; the recipe holds the length that was made. */
  durationS?: number;
  startHz?: number;
  endHz?: number;
  levelDbfs?: number;
  /** Silence after each sweep; the longest decay that can be seen. */
  gapS?: number;
  format?: SampleFormat;
  repeats?: number;
  /** Silence before everything, in which the room's noise is heard. */
  leadS?: number;
  tailS?: number;
}

const THIRD_OF_AN_OCTAVE = 2 ** (1 / 3);
/** The highest end of a sweep, as a share of the sample rate: what converters still pass. */
const END_SHARE = 0.45;
/** Where the fade-out ends at the latest, as a share of the sample rate. */
const FADE_SHARE = 0.49;

/**
 * Makes a sweep recipe whose growth constant L gives startHz * L a whole number, so that harmonics keep their phase.
 *
 * The length is therefore near what was asked, not equal to it: 10 s asked from 20 Hz to 20 kHz, 10.016 s made.
 *
 * @throws {InputError} if an option is out of its range, with the range
 * @remarks Source: A. Novak, P. Lotton, L. Simon, J. Audio Eng. Soc. 63 (2015), L = round(f1 T / ln(f2/f1)) / f1.
 * @example makeSweepRecipe({ durationS: 10 }).growthS // 1.45
 */
export function makeSweepRecipe(options: SweepOptions = {}): SweepRecipe {
  const sampleRate = inRange("rate", options.sampleRate ?? 48_000, 44_100, 192_000, "Hz");
  if (!Number.isInteger(sampleRate)) throw optionError("rate", sampleRate, "a whole number of Hz");
  const highestHz = END_SHARE * sampleRate;
  const startHz = inRange("start", options.startHz ?? 20, 1, USABLE_HZ[0], "Hz");
  const endHz = inRange("end", options.endHz ?? Math.min(20_000, highestHz), USABLE_HZ[1], highestHz, "Hz");
  const durationS = inRange("duration", options.durationS ?? 10, 0.5, 120, "s");
  const levelDbfs = inRange("level", options.levelDbfs ?? -12, -60, 0, "dBFS");
  const gapS = inRange("gap", options.gapS ?? 2, 0.5, 30, "s");
  const leadS = inRange("lead", options.leadS ?? 2, 0.5, 60, "s");
  const tailS = inRange("tail", options.tailS ?? 1, 0.2, 60, "s");
  const repeats = inRange("repeats", options.repeats ?? 1, 1, 32, "sweeps");
  if (!Number.isInteger(repeats)) throw optionError("repeats", repeats, "a whole number of sweeps");

  const cyclesPerE = Math.round((startHz * durationS) / Math.log(endHz / startHz));
  if (cyclesPerE < 1) {
    throw optionError("duration", durationS, `at least ${(Math.log(endHz / startHz) / startHz).toFixed(2)} s here`);
  }
  const growthS = cyclesPerE / startHz;
  const whole = (seconds: number): number => Math.round(seconds * sampleRate) / sampleRate;
  const floor = (seconds: number): number => Math.floor(seconds * sampleRate) / sampleRate;
  const fadeEndHz = Math.min(endHz * THIRD_OF_AN_OCTAVE, FADE_SHARE * sampleRate);
  const shape = {
    sampleRate,
    startHz,
    endHz,
    growthS,
    lengthS: growthS * Math.log(endHz / startHz),
    levelDbfs,
    fadeInS: floor(growthS * Math.log(THIRD_OF_AN_OCTAVE)),
    fadeOutS: floor(growthS * Math.log(fadeEndHz / endHz)),
  };
  const pauses = { leadS: whole(leadS), gapS: whole(gapS), tailS: whole(tailS), repeats };
  const events = reelEvents({
    ...pauses,
    sampleRate,
    sweepSamples: sweepSampleCount(shape),
    markerSamples: markerSampleCount(sampleRate),
  });
  const last = events.at(-1)!;
  const reelS = (last.atSample + last.samples) / sampleRate;
  if (reelS > LONGEST_REEL_S) {
    throw optionError(
      "repeats",
      repeats,
      `fewer or shorter sweeps: the reel would last ${Math.round(reelS / 60)} minutes`,
    );
  }
  return { schema: "carrywell/sweep/1", ...shape, ...pauses, format: options.format ?? "pcm24", events };
}

function inRange(option: string, value: number, lowest: number, highest: number, unit: string): number {
  if (value >= lowest && value <= highest) return value;
  throw optionError(option, value, `from ${lowest} to ${highest} ${unit}`);
}

function optionError(option: string, value: number, wanted: string): InputError {
  return new InputError(`The sweep cannot be made with --${option} ${value}.`, {
    where: `--${option}`,
    remedy: `give ${wanted}`,
  });
}
