import { makeSweepRecipe } from "../../../src/sweep/recipe.js";
import type { Fault } from "../fault.js";
import { cleanSession, labSweep, type LabSession, otherSession, reelOf } from "../laboratory.js";

/** A recording of a reel that is not the session's. */
function played(options: Parameters<typeof makeSweepRecipe>[0]): () => LabSession {
  return () => otherSession((own) => own, { mix: 1 }, reelOf(makeSweepRecipe({ ...labSweep, ...options })));
}

export const wrongSweepFaults: readonly Fault[] = [
  {
    what: "another reel was played than the session names",
    code: "wrong-sweep",
    severity: "reject",
    strengths: [
      // 3.7 s asked for give a growth constant of 0.55 s, 4 s one of 0.6 s; between the two there is no recipe.
      {
        strength: "sweeps of 3.7 s instead of 4 s",
        verdict: "harmful",
        isSlow: true,
        inject: played({ durationS: 3.7 }),
      },
      {
        strength: "sweeps of 10 s instead of 4 s",
        verdict: "harmful",
        isSlow: true,
        inject: played({ durationS: 10 }),
      },
      {
        strength: "the same sweeps 0.1 s further apart",
        verdict: "harmful",
        isSlow: true,
        inject: played({ gapS: 1.3 }),
      },
      { strength: "the same sweeps, each twice", verdict: "harmful", isSlow: true, inject: played({ repeats: 2 }) },
      {
        strength: "up to 16 kHz instead of 20 kHz",
        verdict: "harmful",
        isSlow: true,
        inject: played({ endHz: 16_000 }),
      },
    ],
  },
  {
    what: "a reel was recorded under the name of one loudspeaker",
    code: "wrong-sweep",
    severity: "reject",
    strengths: [
      {
        strength: "left and right of the reel, the entry says left",
        verdict: "harmful",
        inject: () => {
          const clean = cleanSession();
          const recordings = clean.session.recordings.map((one) => ({ ...one, channel: "L" as const }));
          return { ...clean, session: { ...clean.session, recordings } };
        },
      },
    ],
  },
];
