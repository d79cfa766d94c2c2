import type { Monitor } from "../../../src/simulate/monitor.js";
import type { Scenario } from "../../../src/simulate/scenario.js";
import { type Fault, inEveryRecording } from "../fault.js";
import { LEAD_S, type LabSession, labRecipe, otherSession } from "../laboratory.js";

const { sampleRate, events } = labRecipe;
const right = events.find(({ kind, channel }) => kind === "sweep" && channel === "R")!;
const lastMarker = events.at(-1)!;

/** Turns the right loudspeaker's sound over. */
function turnRight(samples: Float64Array): Float64Array {
  const lead = Math.round((LEAD_S - 0.05) * sampleRate);
  for (let n = lead + right.atSample; n < lead + lastMarker.atSample; n++) samples[n]! *= -1;
  return samples;
}

/** A second pair beside the laboratory's own. */
function withMains(mains: Partial<Monitor>): () => LabSession {
  return () =>
    otherSession((own): Scenario => {
      const nears = own.pairs[0]!;
      const monitor = { ...nears.monitors.L, lowRollOff: { frequencyHz: 28, order: 6 }, gainDb: 4, ...mains };
      const placement = {
        L: [nears.placement.L[0] - 0.4, nears.placement.L[1] - 0.3, 1.3],
        R: [nears.placement.R[0] - 0.4, nears.placement.R[1] + 0.3, 1.3],
      } as const;
      const pair = { ...nears, id: "mains", role: "main" as const, placement, monitors: { L: monitor, R: monitor } };
      return { ...own, pairs: [...own.pairs, pair] };
    });
}

export const polarityFaults: readonly Fault[] = [
  {
    what: "one loudspeaker of a pair is wired the wrong way round",
    code: "polarity-inverted",
    severity: "warning",
    // The two add up to nothing where they should carry the bass.
    strengths: [
      {
        strength: "the right one",
        verdict: "harmful",
        truth: "the centre does cancel",
        inject: inEveryRecording(turnRight),
      },
    ],
  },
  {
    what: "one monitor is inverted against the other",
    code: "polarity-inverted",
    severity: "warning",
    strengths: [
      {
        strength: "three ways against two, right way round",
        verdict: "harmless",
        isSlow: true,
        inject: withMains({ crossoversHz: [420, 2600] }),
      },
      {
        strength: "two ways against two, right way round",
        verdict: "harmless",
        isSlow: true,
        inject: withMains({ crossoversHz: [1500] }),
      },
      {
        strength: "two ways against two, inverted",
        verdict: "harmful",
        isSlow: true,
        inject: withMains({ crossoversHz: [1500], polarity: -1 }),
      },
    ],
  },
];
