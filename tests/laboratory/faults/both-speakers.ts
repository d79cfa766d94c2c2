import type { Scenario } from "../../../src/simulate/scenario.js";
import { whiteNoise } from "../../known-recording.js";
import { type Fault, inEveryRecording, type Strength } from "../fault.js";
import { LEAD_S, labRecipe, otherSession, reelOf } from "../laboratory.js";

/** Both channels of the reel go to both loudspeakers; white noise so far under the recorded sweep. */
function mono(noiseDb: number): Strength["inject"] {
  return () => {
    const { L, R, sampleRate } = reelOf(labRecipe);
    const both = L.map((value, n) => value + R[n]!);
    const session = otherSession((own) => own, { mix: 1 }, { L: both, R: both, sampleRate });
    return inEveryRecording((samples) => {
      const sweep = labRecipe.events.find(({ kind }) => kind === "sweep")!;
      const from = Math.round(LEAD_S * sampleRate) + sweep.atSample;
      let power = 0;
      for (let n = 0; n < sweep.samples; n++) power += samples[from + n]! ** 2 / sweep.samples;
      const noise = whiteNoise(samples.length, 12);
      const rms = Math.sqrt(power) * 10 ** (noiseDb / 20);
      return samples.map((value, n) => 0.5 * (value + rms * noise[n]!));
    })(session);
  };
}

/** A room that is its own mirror image, but for the microphone's place. */
function mirrored(offsetM: number): Strength["inject"] {
  return () =>
    otherSession((own): Scenario => {
      const middle = own.room.sizeM[1] / 2;
      const pair = own.pairs[0]!;
      const [x, , z] = pair.placement.L;
      const mix = own.positions[0]!;
      return {
        ...own,
        room: { ...own.room, absorption: { ...own.room.absorption, right: own.room.absorption.left } },
        pairs: [{ ...pair, placement: { L: [x, middle - 0.75, z], R: [x, middle + 0.75, z] } }],
        positions: [{ ...mix, xyzM: [mix.xyzM[0], middle + offsetM, mix.xyzM[2]] }],
      };
    });
}

export const bothSpeakersFault: Fault = {
  what: "both loudspeakers played each sweep",
  code: "both-speakers",
  severity: "warning",
  strengths: [
    {
      strength: "a mirror image of a room, microphone 2 mm off its middle",
      verdict: "harmless",
      truth: "another room",
      isSlow: true,
      inject: mirrored(0.002),
    },
    { strength: "mono, noise 45 dB under the sweep", verdict: "harmful", turnsGain: true, inject: mono(-45) },
    {
      strength: "mono, noise 80 dB under the sweep",
      verdict: "harmful",
      turnsGain: true,
      isSlow: true,
      inject: mono(-80),
    },
  ],
};
