import { peakOf } from "../dsp/peak.js";
import type { DecodedAudio } from "../model.js";

/** A channel of a file that carries something of its own. */
export interface DistinctChannel {
  readonly samples: Float32Array;
  /** 1-based. */
  readonly number: number;
}

/** Against the loudest channel, a channel under this carries nothing that was meant to be recorded. */
const EMPTY_SHARE = 1e-4;

/** The channels of a file that sound, each sound once; none in a silent file. */
export function distinctChannels({ channels }: DecodedAudio): DistinctChannel[] {
  const peaks = channels.map((samples) => peakOf(samples));
  const loudest = Math.max(...peaks);
  const distinct: DistinctChannel[] = [];
  for (const [index, samples] of channels.entries()) {
    if (loudest === 0 || peaks[index]! <= EMPTY_SHARE * loudest) continue;
    if (!distinct.some((other) => isEqual(other.samples, samples))) distinct.push({ samples, number: index + 1 });
  }
  return distinct;
}

function isEqual(a: Float32Array, b: Float32Array): boolean {
  return a.length === b.length && a.every((value, n) => value === b[n]);
}
