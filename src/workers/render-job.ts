/** What a thread renders: some versions of one mix. */
export interface RenderJob {
  readonly mix: { readonly path: string; readonly name: string; readonly frames: number; readonly sampleRate: number };
  readonly versions: readonly RenderVersion[];
}

export interface RenderVersion {
  readonly id: string;
  readonly mono: boolean;
  readonly taps: readonly [Float64Array, Float64Array];
  /** Where to write, and with what gain; null to measure only. */
  readonly output: { readonly path: string; readonly gain: number } | null;
}

/** What came of a version that was measured; nulls where it was written. */
export interface RenderedVersion {
  readonly id: string;
  readonly loudnessLufs: number | null;
  readonly truePeakDbtp: number | null;
}

export type RenderMessage =
  | { readonly kind: "progress"; readonly frames: number }
  | { readonly kind: "done"; readonly versions: readonly RenderedVersion[] }
  | {
      readonly kind: "failure";
      readonly message: string;
      readonly details: { readonly where: string; readonly remedy: string } | null;
      readonly code: string | undefined;
      readonly syscall: string | undefined;
      readonly path: string | undefined;
    };
