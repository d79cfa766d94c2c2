import { logPower } from "../dsp/log-power.js";
import { measureDistortion } from "../metrics/distortion.js";
import { hidesTheRest, isBent } from "../metrics/driven-too-hard.js";
import { steadyState } from "../metrics/response/steady-state.js";
import type { Distortion, HarmonicResponse, ImpulseResponse } from "../model.js";

/** Whether a sweep's harmonics are those of something that bends the wave. */
export function isBentSweep(impulse: ImpulseResponse, harmonics: readonly HarmonicResponse[]): boolean {
  return isBent(distortionOf(impulse, harmonics));
}

/** Whether a sweep's harmonics are so strong that nothing else can be told. */
export function isHiddenSweep(impulse: ImpulseResponse, harmonics: readonly HarmonicResponse[]): boolean {
  const distortion = distortionOf(impulse, harmonics);
  return distortion !== null && hidesTheRest(distortion);
}

function distortionOf(impulse: ImpulseResponse, harmonics: readonly HarmonicResponse[]): Distortion | null {
  const steady = steadyState(impulse);
  return measureDistortion(impulse, logPower(steady.power, steady.binHz), [harmonics]);
}
