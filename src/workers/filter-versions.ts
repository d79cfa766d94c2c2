import { blockPlan, type BlockPlan, blockSource, filterBlock, filterSpectrum } from "../dsp/block-convolution.js";
import { type MixFile, playMix } from "../files/mix-file.js";
import { putWaiting, type WaitingWriter } from "../files/waiting-samples.js";
import { decibels } from "../translation/listen/mix-listener.js";
import { type LoudnessMeter, loudnessMeter } from "../translation/programme-loudness.js";
import { type TruePeakMeter, truePeakMeter } from "../translation/true-peak.js";
import type { FilteredVersion, RenderVersion } from "./render-job.js";

interface Running {
  readonly version: RenderVersion;
  readonly isMono: boolean;
  readonly filters: readonly [Float64Array, Float64Array];
  readonly loudness: LoudnessMeter;
  readonly peak: TruePeakMeter;
  readonly writer: WaitingWriter;
}

/** Whether both sides of a version are the same samples: they are then filtered, measured and kept once. */
export function isOneChannel({ mono, taps: [left, right] }: RenderVersion, { channels }: MixFile): boolean {
  return (mono || channels === 1) && left === right;
}

/**
 * Filters a mix into several versions at once, each block transformed once for all of them, and measures what comes out.
 *
 * Memory is that of one block, however long the mix.
 */
export async function filterVersions(
  mix: MixFile,
  versions: readonly RenderVersion[],
  onProgress: (frames: number) => void,
): Promise<FilteredVersion[]> {
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
    running.map(async ({ version, loudness, peak, writer }) => {
      await writer.close();
      const channels = isOneChannel(version, mix) ? 1 : 2;
      return {
        id: version.id,
        loudnessLufs: loudness.result().integrated,
        truePeakDbtp: decibels(peak.result()),
        samples: { path: version.waitAt, channels, frames: mix.frames, stretch: plan.hop },
      };
    }),
  );
}

async function begin(version: RenderVersion, plan: BlockPlan, mix: MixFile): Promise<Running> {
  const [left, right] = version.taps;
  const first = filterSpectrum(left, plan);
  const isOne = isOneChannel(version, mix);
  return {
    version,
    isMono: version.mono || isOne,
    filters: [first, right === left ? first : filterSpectrum(right, plan)],
    // One channel is heard from both sides: twice its power.
    loudness: loudnessMeter(mix.sampleRate, isOne ? [2] : [1, 1]),
    peak: truePeakMeter(isOne ? 1 : 2),
    writer: await putWaiting(version.waitAt),
  };
}

async function step(
  { isMono, filters: [first, second], loudness, peak, writer }: Running,
  spectra: readonly [Float64Array, Float64Array],
  count: number,
  plan: BlockPlan,
): Promise<void> {
  const [left, right] = isMono ? [halfSum(spectra), null] : spectra;
  const filtered = [filterBlock(left, first, plan).subarray(0, count)];
  if (right !== null || second !== first) filtered.push(filterBlock(right ?? left, second, plan).subarray(0, count));
  loudness.push(filtered);
  peak.push(filtered);
  await writer.write(filtered);
}

function halfSum([left, right]: readonly [Float64Array, Float64Array]): Float64Array {
  const sum = new Float64Array(left.length);
  for (let k = 0; k < sum.length; k++) sum[k] = 0.5 * (left[k]! + right[k]!);
  return sum;
}
