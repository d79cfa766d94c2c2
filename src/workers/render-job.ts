import type { MixFile } from "../files/mix-file.js";
import type { WaitingSamples } from "../files/waiting-samples.js";

/** What a thread does: filters and measures some versions of one mix, or writes some with the gain that was then found. */
export type RenderJob =
  | { readonly kind: "filter"; readonly mix: MixFile; readonly versions: readonly RenderVersion[] }
  | { readonly kind: "write"; readonly sampleRate: number; readonly versions: readonly MatchedVersion[] };

export interface RenderVersion {
  readonly id: string;
  readonly mono: boolean;
  readonly taps: readonly [Float64Array, Float64Array];
  /** Where its samples shall wait for their gain. */
  readonly waitAt: string;
}

export interface FilteredVersion {
  readonly id: string;
  readonly loudnessLufs: number | null;
  readonly truePeakDbtp: number | null;
  /** One channel where both sides are alike. */
  readonly samples: WaitingSamples;
}

export interface MatchedVersion {
  readonly samples: WaitingSamples;
  readonly gain: number;
  /** The WAV file. */
  readonly path: string;
}

export type RenderMessage =
  | { readonly kind: "progress"; readonly frames: number }
  /** With what was filtered; nothing where it was written. */
  | { readonly kind: "done"; readonly filtered: readonly FilteredVersion[] }
  | {
      readonly kind: "failure";
      readonly message: string;
      readonly details: { readonly where: string; readonly remedy: string } | null;
      readonly code: string | undefined;
      readonly syscall: string | undefined;
      readonly path: string | undefined;
    };
