import { InputError } from "../errors.js";

/** 60 dB over full scale, more than any float recorder is overdriven: steps of integers written as floats. A choice of ours. */
const LARGEST = 1000;

/** Where samples were read, for messages. */
interface Place {
  readonly name: string;
  readonly firstFrame: number;
  /** From 0. */
  readonly channel: number;
  readonly sampleRate: number;
}

/** @throws {InputError} if a sample is not finite, or so large that it is no sound */
export function refuseNoSound(samples: Float32Array, { name, firstFrame, channel, sampleRate }: Place): void {
  for (let n = 0; n < samples.length; n++) {
    const value = samples[n]!;
    if (value <= LARGEST && value >= -LARGEST) continue;
    const frame = firstFrame + n;
    const what = Number.isFinite(value)
      ? `A sample of the recording is ${Math.abs(value).toPrecision(2)} times full scale: it is no sound, or was never divided by its steps.`
      : `A sample of the recording is not a number: ${value}.`;
    throw new InputError(what, {
      where: `${name}, channel ${channel + 1}, at ${(frame / sampleRate).toFixed(3)} s (sample ${frame})`,
      remedy: "export the recording again, or record it again: the program that wrote it failed at this place",
      ...(Number.isFinite(value) ? {} : { code: "not-finite" }),
    });
  }
}
