import { describe, expect, it } from "vitest";

import { mixTranslator } from "../../src/pipeline/translate-mix.js";
import type { ListeningClass } from "../../src/schema/listening.js";
import type { PlaybackClass } from "../../src/standards/playback-classes/playback-class.js";
import { mixListener } from "../../src/translation/listen/mix-listener.js";
import { smallLoudspeaker, translatedResults } from "./known-translation.js";

const RATE = 24_000;
const SECONDS = 2;

const sine = (hz: number, amplitude: number): Float32Array =>
  Float32Array.from({ length: SECONDS * RATE }, (_, n) => amplitude * Math.sin((2 * Math.PI * hz * n) / RATE));
const sum = (...parts: Float32Array[]): Float32Array =>
  parts[0]!.map((_, n) => parts.reduce((all, part) => all + part[n]!, 0));

/** What a mix loses on a class of the session's own. */
function lost(device: PlaybackClass, left: Float32Array, right: Float32Array): ListeningClass {
  const listener = mixListener(RATE, 1);
  listener.push(left, right);
  const translator = mixTranslator(translatedResults([device]), listener.result(), RATE, null);
  translator.push(left, right);
  return translator.result().classes.find(({ id }) => id === device.id)!;
}

/** A note whose second and third partial carry it where the fundamental is not given. */
const note = sum(sine(55, 1), sine(110, 0.005), sine(165, 0.005));

describe("Whether the partials of a bass line are asked for", () => {
  // Aligned over 200 Hz to 4 kHz, where the class is level. That -10 dB carry a fundamental is a choice of ours.
  it.each([
    [-9.9, false],
    [-10.1, true],
    [-15, true],
  ])("hangs on what a class gives at 40 Hz: at %f dB it is %s", (at40HzDb, asked) => {
    expect(lost(smallLoudspeaker(at40HzDb), note, note).bassLine !== null).toBe(asked);
  });
});

describe("A bass line on one small source", () => {
  const radio = smallLoudspeaker(-40);
  /** 58 dB over each partial. */
  const loud = sine(1000, 4);

  it("is played as loud as the sum of both sides lets it be, however loud what cancels in it would be on two", () => {
    const upsideDown = loud.map((value) => -value);
    // All that is left is the note at 70 dB(A). Of its fundamental the radio gives 20 dB less and A-weighting (-28 dB) takes the
    // rest down to its partials, 46 dB under it: these are at about 72 dB.
    const { bassLine } = lost(radio, sum(note, loud), sum(note, upsideDown));
    expect(bassLine!.typical).toEqual({ verdict: "heard", pitchShare: 1, colourShare: 1, reason: null });
  });

  it("is lost where what is loud stays in the sum and makes its level", () => {
    // 70 dB(A) at 1 kHz leave 12 dB to each partial; their thresholds are 24 and 17 dB (ISO 226:2003).
    const { bassLine } = lost(radio, sum(note, loud), sum(note, loud));
    expect(bassLine!.typical).toMatchObject({ verdict: "lost", pitchShare: 0, colourShare: 0 });
  });

  it.each([
    [0.95, null],
    [1.05, "no-bass"],
  ])(
    "is not asked for where bass is less than a hundredth of the mix: beside %f times 99 parts, %s",
    (times, reason) => {
      const other = sine(1000, Math.sqrt(99 * times));
      const { bassLine } = lost(radio, sum(sine(55, 1), other), sum(sine(55, 1), other));
      expect(bassLine!.typical.reason).toBe(reason);
    },
  );
});
