import type { Finding } from "../../src/model.js";
import type { LabSession, LabSound } from "./laboratory.js";

/** Something that goes wrong at a session, at several strengths. */
export interface Fault {
  /** What went wrong, for people. */
  readonly what: string;
  /** Of the finding that names it. */
  readonly code: string;
  readonly severity: Finding["severity"];
  /** Further codes that the same cause may be told by: no false alarm, and not enough. */
  readonly alongside?: readonly string[];
  /** The session in which it happens; by default one recording at the mix position. */
  readonly clean?: () => LabSession;
  /** From weak to strong. */
  readonly strengths: readonly Strength[];
}

export interface Strength {
  readonly strength: string;
  /**
   * Harmful: a figure would be wrong by more than it claims, so the fault has to be named. Harmless: nobody may be alarmed.
   */
  readonly verdict: "harmless" | "harmful";
  /** Only by the script: what lies between the weakest harmful and the strongest harmless, or takes long. */
  readonly isSlow?: boolean;
  /** File second at which it happens; the finding that names it has to say the same. */
  readonly atS?: number;
  /** What is injected turns the gain as well, by the same at all frequencies: levels are compared but for that. */
  readonly turnsGain?: true;
  /** Why figures need not be those of the clean session: they are true of something else that was there to be measured. */
  readonly truth?: string;
  readonly inject: (clean: LabSession) => LabSession;
}

/** Lifts a change of samples to the session's first recording, every channel of it. */
export function inFirstRecording(
  change: (samples: Float64Array, sampleRate: number) => Float64Array,
  parts: Partial<LabSound> = {},
): (clean: LabSession) => LabSession {
  return (clean) => {
    const file = clean.session.recordings[0]!.file;
    const sound = clean.sounds[file]!;
    const channels = sound.channels.map((samples) => change(samples.slice(), sound.sampleRate));
    return { ...clean, sounds: { ...clean.sounds, [file]: { ...sound, channels, ...parts } } };
  };
}

/** Lifts a change of samples to every recording of the session, every channel of it. */
export function inEveryRecording(
  change: (samples: Float64Array, sampleRate: number) => Float64Array,
): (clean: LabSession) => LabSession {
  return (clean) => ({
    ...clean,
    sounds: Object.fromEntries(
      Object.entries(clean.sounds).map(([file, sound]) => [
        file,
        { ...sound, channels: sound.channels.map((samples) => change(samples.slice(), sound.sampleRate)) },
      ]),
    ),
  });
}
