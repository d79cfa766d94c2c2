import { type Fault, inFirstRecording, type Strength } from "../fault.js";
import { LEAD_S, labRecipe, type LabSession, sessionOfSweep } from "../laboratory.js";
import { compressor, denoiser, flanger, gate, leveller, limiter, lossy, suppressor, tremolo } from "./effects.js";

/**
 * A person half a metre behind the microphone, half a square metre to sound, scatters sqrt(0.5 / 4 pi) 1.46 m / (1.9 m 0.5 m) of
 * the direct sound, 2.7 ms late; who starts and stops the player is there for both markers and gone for the sweeps.
 */
const PERSON = { gain: 0.31, delayS: 0.0027, untilS: 0.45 } as const;

const personAtMarkers: Strength["inject"] = inFirstRecording((samples, sampleRate) => {
  const delay = Math.round(PERSON.delayS * sampleRate);
  const alone = samples.slice();
  for (const { kind, atSample, samples: count } of labRecipe.events) {
    if (kind !== "marker") continue;
    const from = Math.round(LEAD_S * sampleRate) + atSample;
    const end = Math.min(samples.length, from + count + Math.round(PERSON.untilS * sampleRate));
    for (let n = from; n < end; n++) samples[n]! += PERSON.gain * alone[n - delay]!;
  }
  return samples;
});

/** What is over sooner, or lasts longer, than the laboratory's own sweep of 4 s. */
const SHORT = { durationS: 2.4, leadS: 0.8, gapS: 0.7, tailS: 0.3 } as const;
const shortSession = (): LabSession => sessionOfSweep(SHORT);
/** The reel as it is made when nobody asks for anything else: sweeps of 10 s. */
const defaultSession = (): LabSession => sessionOfSweep({});

const otherSweeps: readonly Fault[] = [
  {
    what: "something followed the level or suppressed noise (sweeps of 2.4 s)",
    code: "processed",
    severity: "reject",
    clean: shortSession,
    strengths: [
      { strength: "none", verdict: "harmless", inject: (clean) => clean },
      {
        strength: "compressor 2:1 above −20 dBFS, 20 and 250 ms",
        verdict: "harmful",
        inject: compressor(-20, 2, 0.02, 0.25),
      },
      { strength: "limiter, 3.5 dB, 1 and 100 ms", verdict: "harmful", inject: limiter(3.5, 0.001, 0.1) },
      { strength: "gain that swings by 20 %, 0.5 Hz", verdict: "harmful", isSlow: true, inject: tremolo(0.5, 0.2, 0) },
      { strength: "flanger of 0.5", verdict: "harmful", isSlow: true, inject: flanger(0.5, 2, 0.5) },
      { strength: "denoiser of 12 dB", verdict: "harmful", isSlow: true, inject: denoiser(12) },
      { strength: "suppressor of 6 dB", verdict: "harmful", isSlow: true, inject: suppressor(6) },
      { strength: "lossy link, steps 32 dB under", verdict: "harmful", isSlow: true, inject: lossy(32) },
    ],
  },
  {
    what: "something followed the level or suppressed noise (sweeps of 10 s)",
    code: "processed",
    severity: "reject",
    clean: defaultSession,
    strengths: [
      { strength: "none", verdict: "harmless", isSlow: true, inject: (clean) => clean },
      {
        strength: "compressor 2:1 above −20 dBFS, 20 and 250 ms",
        verdict: "harmful",
        isSlow: true,
        inject: compressor(-20, 2, 0.02, 0.25),
      },
      { strength: "limiter, 3.5 dB, 1 and 100 ms", verdict: "harmful", isSlow: true, inject: limiter(3.5, 0.001, 0.1) },
      { strength: "gain that swings by 20 %, 0.5 Hz", verdict: "harmful", inject: tremolo(0.5, 0.2, 0) },
      { strength: "flanger of 0.5", verdict: "harmful", inject: flanger(0.5, 2, 0.5) },
      { strength: "flanger of 0.7", verdict: "harmful", isSlow: true, inject: flanger(0.3, 3, 0.7) },
      { strength: "denoiser of 12 dB", verdict: "harmful", inject: denoiser(12) },
      { strength: "suppressor of 6 dB", verdict: "harmful", isSlow: true, inject: suppressor(6) },
      { strength: "lossy link, steps 32 dB under", verdict: "harmful", isSlow: true, inject: lossy(32) },
    ],
  },
];

export const processedFaults: readonly Fault[] = [
  {
    what: "the gain followed the level (sweep: peaks at −12 dBFS)",
    code: "processed",
    severity: "reject",
    strengths: [
      {
        strength: "not at all, but a person stood near for the markers alone",
        verdict: "harmless",
        inject: personAtMarkers,
      },
      {
        strength: "compressor 2:1 that is not reached, −11 dBFS",
        verdict: "harmless",
        isSlow: true,
        inject: compressor(-11, 2),
      },
      { strength: "compressor 2:1 above −19 dBFS", verdict: "harmful", inject: compressor(-19, 2) },
      {
        strength: "the same, slow: 0.3 s and 2 s",
        verdict: "harmful",
        isSlow: true,
        inject: compressor(-19, 2, 0.3, 2),
      },
      { strength: "compressor 4:1 above −30 dBFS", verdict: "harmful", isSlow: true, inject: compressor(-30, 4) },
      { strength: "leveller to −34 dBFS, 0.5 s", verdict: "harmful", isSlow: true, inject: leveller(-34, 0.5, 10) },
      { strength: "noise gate of 6 dB at −50 dBFS", verdict: "harmful", inject: gate(-50, 6) },
      { strength: "noise gate of 20 dB", verdict: "harmful", isSlow: true, inject: gate(-50, 20) },
    ],
  },
  {
    what: "the recording went through a lossy link",
    code: "processed",
    severity: "reject",
    strengths: [
      { strength: "steps 84 dB under each frame's largest", verdict: "harmless", isSlow: true, inject: lossy(84) },
      { strength: "steps 54 dB under", verdict: "harmless", isSlow: true, inject: lossy(54) },
      { strength: "steps 32 dB under", verdict: "harmful", inject: lossy(32) },
      { strength: "steps 24 dB under", verdict: "harmful", isSlow: true, inject: lossy(24) },
    ],
  },
  {
    what: "echo cancelling or noise suppression was on",
    code: "processed",
    severity: "reject",
    strengths: [
      { strength: "up to 12 dB, bin by bin", verdict: "harmful", inject: suppressor(12) },
      { strength: "up to 6 dB, bin by bin", verdict: "harmful", isSlow: true, inject: suppressor(6) },
    ],
  },
  ...otherSweeps,
];
