/** `listen.json`, version 1: what was rendered of a mix, and what it loses where. */

type Nullable = number | null;

export interface ListeningVersion {
  /** `neutral`, a monitor's id, or `class:<id>`. */
  id: string;
  kind: "neutral" | "monitor" | "class";
  name: string;
  file: string;
  /** In words; null for what is not a class. */
  loses: string | null;
  /** Left and right are summed. */
  mono: boolean;
  filter: "none" | "tone" | "room";
  taps: number;
  /** What the filter follows, by third octave, dB; empty where it follows an impulse response. */
  curve: { nominalHz: number; levelDb: Nullable }[];
  /** Before the gain: what the system makes of the loudness of the mix. */
  loudnessLufs: Nullable;
  /** In all. */
  gainDb: number;
  /** In the file. */
  truePeakDbtp: Nullable;
  /** False where it is left quieter, with the reason. */
  matched: boolean;
  reason: "too-quiet-to-match" | "nothing-left" | null;
  notes: string[];
}

export interface ListeningBassLine {
  verdict: "heard" | "weak" | "lost" | null;
  pitchShare: Nullable;
  colourShare: Nullable;
  reason: "no-bass" | "nothing-left" | "level-not-stated" | "noise-not-stated" | "curve-not-stated" | null;
}

export interface ListeningClass {
  id: string;
  name: string;
  /** In words; null where the session does not say. */
  loses: string | null;
  /** One for each member: low, typical, high. */
  members: {
    member: "low" | "typical" | "high";
    loudnessShare: Nullable;
    lowestOctaveHz: Nullable;
    /** Why something is null. */
    reason: "nothing-left" | "level-not-stated" | "noise-not-stated" | "beyond-the-model" | null;
  }[];
  /** On the typical and on a poor member; null for what gives the fundamental itself. */
  bassLine: { typical: ListeningBassLine; low: ListeningBassLine } | null;
}

export interface Listening {
  schema: "carrywell/listen/1";
  version: string;
  session: string | null;
  mix: {
    file: string;
    channels: number;
    sampleRate: number;
    /** What the files are written at. */
    renderedRate: number;
    encoding: string;
    durationS: number;
    loudnessLufs: Nullable;
    truePeakDbtp: Nullable;
  };
  notes: string[];
  filter: "tone" | "room";
  /** The monitor whose own colour is taken out, since it is listened on. */
  on: string | null;
  /** Loudness of every file that is matched. */
  loudnessLufs: Nullable;
  truePeakLimitDbtp: number;
  versions: ListeningVersion[];
  /** Monitors that could not be rendered. */
  missing: { id: string; reason: string }[];
  sequence: { file: string; fromS: number; durationS: number; parts: { id: string; atS: number }[] };
  translation: {
    mono: {
      nominalHz: number;
      correlation: Nullable;
      lossDb: Nullable;
      reason: "no-sound" | "vanishes" | null;
      says: "fine" | "note" | "warning" | null;
    }[];
    classes: ListeningClass[];
    /** Each region weighed by what this mix holds in its bands. */
    drift: {
      mixedOn: string;
      heardOn: string;
      uncontrolledBelowHz: Nullable;
      regions: { region: string; driftDb: Nullable; rangeDb: [number, number] | null; controlled: boolean }[];
    }[];
  };
}
