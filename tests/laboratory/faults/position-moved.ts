import type { Scenario } from "../../../src/simulate/scenario.js";
import { type Fault, type Strength } from "../fault.js";
import { cleanSession, type LabSession, otherSession } from "../laboratory.js";

/** The microphone is so much further back for the second take. */
function movedBack(metres: number): Strength["inject"] {
  return () =>
    withSecondTake(
      otherSession((own): Scenario => {
        const mix = own.positions[0]!;
        const [x, y, z] = mix.xyzM;
        // Of another seed: two recordings of one noise would be one recording.
        return { ...own, seed: own.seed + 7, positions: [{ ...mix, xyzM: [x + metres, y, z] }] };
      }),
    );
}

function withSecondTake(other: LabSession): LabSession {
  const clean = cleanSession({ mix: 2 });
  const second = clean.session.recordings[1]!.file;
  return { ...clean, sounds: { ...clean.sounds, [second]: other.sounds[other.session.recordings[0]!.file]! } };
}

/** The gain is so much higher for the second take. */
function turnedUp(gainDb: number): Strength["inject"] {
  return () => {
    const clean = cleanSession({ mix: 2 });
    const second = clean.session.recordings[1]!.file;
    const sound = clean.sounds[second]!;
    const channels = sound.channels.map((samples) => samples.map((value) => 10 ** (gainDb / 20) * value));
    return { ...clean, sounds: { ...clean.sounds, [second]: { ...sound, channels } } };
  };
}

export const positionMovedFaults: readonly Fault[] = [
  {
    what: "the microphone was moved between two takes",
    code: "position-moved",
    severity: "warning",
    strengths: [
      { strength: "5 mm", verdict: "harmless", isSlow: true, inject: movedBack(0.005) },
      { strength: "2 cm", verdict: "harmful", inject: movedBack(0.02) },
      { strength: "8 cm", verdict: "harmful", isSlow: true, inject: movedBack(0.08) },
    ],
  },
  {
    what: "the gain was turned between two takes",
    code: "gain-changed",
    severity: "warning",
    strengths: [
      { strength: "0.3 dB", verdict: "harmless", isSlow: true, inject: turnedUp(0.3) },
      { strength: "0.8 dB", verdict: "harmful", isSlow: true, inject: turnedUp(0.8) },
    ],
  },
];
