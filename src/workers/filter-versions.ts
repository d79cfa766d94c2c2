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
  /** Null where the mix is left as it is. */
  readonly filters: readonly [Float64Array, Float64Array] | null;
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
      for (const one of running) await step(one, filteredBy(one, [left, right], spectra, plan));
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
  const isOne = isOneChannel(version, mix);
  return {
    version,
    isMono: version.mono || isOne,
    filters: filtersOf(version, plan),
    // One channel is heard from both sides: twice its power.
    loudness: loudnessMeter(mix.sampleRate, isOne ? [2] : [1, 1]),
    peak: truePeakMeter(isOne ? 1 : 2),
    writer: await putWaiting(version.waitAt),
  };
}

/** Whether a version is the mix itself. */
export function isUnfiltered({ taps }: RenderVersion): boolean {
  return taps.every((side) => side.length === 1 && side[0] === 1);
}

function filtersOf(version: RenderVersion, plan: BlockPlan): Running["filters"] {
  if (isUnfiltered(version)) return null;
  const [left, right] = version.taps;
  const first = filterSpectrum(left, plan);
  return [first, right === left ? first : filterSpectrum(right, plan)];
}

async function step({ loudness, peak, writer }: Running, filtered: readonly Float64Array[]): Promise<void> {
  loudness.push(filtered);
  peak.push(filtered);
  await writer.write(filtered);
}

/** The newest piece of the mix as a version has it: one side where both are alike. */
function filteredBy(
  { isMono, filters }: Running,
  sides: readonly [Float32Array, Float32Array],
  spectra: readonly [Float64Array, Float64Array],
  plan: BlockPlan,
): Float64Array[] {
  if (!filters) return isMono ? [halfSum(sides)] : sides.map((side) => new Float64Array(side));
  const [left, right] = isMono ? [halfSum(spectra), null] : spectra;
  const [first, second] = filters;
  const count = sides[0].length;
  const filtered = [filterBlock(left, first, plan).subarray(0, count)];
  if (right !== null || second !== first) filtered.push(filterBlock(right ?? left, second, plan).subarray(0, count));
  return filtered;
}

function halfSum([left, right]:
  readonly [Float32Array, Float32Array] | readonly [Float64Array, Float64Array]): Float64Array {
  const sum = new Float64Array(left.length);
  for (let k = 0; k < sum.length; k++) sum[k] = 0.5 * (left[k]! + right[k]!);
  return sum;
}
