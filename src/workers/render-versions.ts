import { blockPlan, type BlockPlan, blockSource, filterBlock, filterSpectrum } from "../dsp/block-convolution.js";
import { playMix } from "../files/mix-file.js";
import { createWave, type WaveWriter } from "../files/wave-file.js";
import { decibels } from "../translation/listen/mix-listener.js";
import { type LoudnessMeter, loudnessMeter } from "../translation/programme-loudness.js";
import { type TruePeakMeter, truePeakMeter } from "../translation/true-peak.js";
import type { RenderedVersion, RenderJob, RenderVersion } from "./render-job.js";

interface Running {
  readonly version: RenderVersion;
  readonly filters: readonly [Float64Array, Float64Array];
  /** Null where it is written: what it will be was measured before, up to its gain. */
  readonly meters: { readonly loudness: LoudnessMeter; readonly peak: TruePeakMeter } | null;
  readonly writer: WaveWriter | null;
}

/**
 * Filters a mix into several versions at once, each block transformed once for all of them.
 *
 * Memory is that of one block, however long the mix.
 */
export async function renderVersions(
  { mix, versions }: RenderJob,
  onProgress: (frames: number) => void,
): Promise<RenderedVersion[]> {
  const plan = blockPlan(Math.max(...versions.flatMap(({ taps }) => taps.map((side) => side.length))));
  const running = await Promise.all(versions.map((version) => begin(version, plan, mix)));
  const sources = [blockSource(plan), blockSource(plan)] as const;
  await playMix(
    mix,
    async (left, right) => {
      const spectra = [sources[0].next(left), sources[1].next(right)] as const;
      for (const one of running) await step(one, spectra, left.length, plan);
      onProgress(left.length);
    },
    plan.hop,
  );
  return Promise.all(
    running.map(async ({ version, meters, writer }) => {
      await writer?.close();
      return {
        id: version.id,
        loudnessLufs: meters?.loudness.result().integrated ?? null,
        truePeakDbtp: decibels(meters?.peak.result() ?? 0),
      };
    }),
  );
}

async function begin(version: RenderVersion, plan: BlockPlan, mix: RenderJob["mix"]): Promise<Running> {
  const { taps, output } = version;
  const scale = output?.gain ?? 1;
  const [left, right] = taps;
  const first = filterSpectrum(
    left.map((tap) => tap * scale),
    plan,
  );
  const second =
    right === left
      ? first
      : filterSpectrum(
          right.map((tap) => tap * scale),
          plan,
        );
  const { frames, sampleRate } = mix;
  return {
    version,
    filters: [first, second],
    meters: output ? null : { loudness: loudnessMeter(sampleRate, [1, 1]), peak: truePeakMeter(2) },
    writer: output && (await createWave(output.path, { channels: 2, frames, sampleRate, format: "pcm24" })),
  };
}

async function step(
  { version, filters, meters, writer }: Running,
  spectra: readonly [Float64Array, Float64Array],
  count: number,
  plan: BlockPlan,
): Promise<void> {
  const [left, right] = version.mono ? [halfSum(spectra), null] : spectra;
  const a = filterBlock(left, filters[0], plan).subarray(0, count);
  const same = right === null && filters[0] === filters[1];
  const b = same ? a : filterBlock(right ?? left, filters[1], plan).subarray(0, count);
  meters?.loudness.push([a, b]);
  meters?.peak.push([a, b]);
  await writer?.write([a, b]);
}

function halfSum([left, right]: readonly [Float64Array, Float64Array]): Float64Array {
  const sum = new Float64Array(left.length);
  for (let k = 0; k < sum.length; k++) sum[k] = 0.5 * (left[k]! + right[k]!);
  return sum;
}
