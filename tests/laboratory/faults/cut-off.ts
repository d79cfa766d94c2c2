import { type Fault, inFirstRecording, type Strength } from "../fault.js";
import { LEAD_S, labRecipe } from "../laboratory.js";

const { sampleRate, fadeInS, growthS, startHz, events } = labRecipe;
const sweeps = events.filter(({ kind }) => kind === "sweep");
const [left, right] = sweeps;

/** File sample so many seconds after a sweep's fade has begun. */
function inSweep(sweep: (typeof sweeps)[number] | undefined, seconds: number): number {
  return Math.round((LEAD_S + seconds) * sampleRate) + sweep!.atSample;
}

/** When a sweep passes a frequency, seconds after its fade has begun. */
const passes = (hz: number): number => fadeInS + growthS * Math.log(hz / startHz);

const startAt = (sample: number): Strength["inject"] => inFirstRecording((samples) => samples.slice(sample));
const endAt = (sample: number): Strength["inject"] => inFirstRecording((samples) => samples.slice(0, sample));
const sweepS = left!.samples / sampleRate;

/** What begins or ends too early for one thing does so for others. */
const alsoLate = ["no-silence"];

export const cutOffFaults: readonly Fault[] = [
  {
    what: "the recorder was started late",
    code: "started-late",
    severity: "reject",
    alongside: alsoLate,
    strengths: [
      // 0.3 s of silence are left, of which the noise is known.
      {
        strength: "0.3 s before the first marker",
        verdict: "harmless",
        isSlow: true,
        inject: startAt(Math.round(1.5 * sampleRate)),
      },
      {
        strength: "all of the left fade-in is missing",
        verdict: "harmful",
        inject: startAt(inSweep(left, fadeInS + 0.01)),
      },
      {
        strength: "at 100 Hz of the left sweep",
        verdict: "harmful",
        isSlow: true,
        inject: startAt(inSweep(left, passes(100))),
      },
      { strength: "at 1 kHz of the right sweep", verdict: "harmful", inject: startAt(inSweep(right, passes(1000))) },
    ],
  },
  {
    what: "the recorder was stopped early, a sweep is cut off",
    code: "ended-early",
    severity: "reject",
    strengths: [
      { strength: "at 100 Hz of the left sweep", verdict: "harmful", inject: endAt(inSweep(left, passes(100))) },
      {
        strength: "10 ms before the right sweep ends",
        verdict: "harmful",
        isSlow: true,
        inject: endAt(inSweep(right, sweepS - 0.01)),
      },
      { strength: "between left and right", verdict: "harmful", isSlow: true, inject: endAt(inSweep(right, -0.5)) },
    ],
  },
  {
    what: "the recorder was stopped early, a decay is cut off",
    code: "ended-early",
    severity: "warning",
    strengths: [
      {
        strength: "0.6 s after the right sweep",
        verdict: "harmless",
        isSlow: true,
        inject: endAt(inSweep(right, sweepS + 0.6)),
      },
      { strength: "0.2 s after the right sweep", verdict: "harmful", inject: endAt(inSweep(right, sweepS + 0.2)) },
    ],
  },
];
