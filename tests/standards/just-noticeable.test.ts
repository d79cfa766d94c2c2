import { expect, it } from "vitest";
import { amount, JUST_NOTICEABLE } from "../../src/standards/just-noticeable.js";

it("a share is one of the mean of the two values, octaves are laid about their middle", () => {
  expect(amount(JUST_NOTICEABLE.decay, 0.4, 0.6)).toBeCloseTo(0.025, 12);
  // From 40 Hz a twelfth of an octave up and down: 42.37852 - 37.75497.
  expect(amount(JUST_NOTICEABLE.extension, 40, 40)).toBeCloseTo(4.62355, 4);
  expect(amount(JUST_NOTICEABLE.bandLevel, -3, 12)).toBe(1.5);
});

it("what ISO 3382-1 does not give for a quantity is marked as lent", () => {
  // Table A.1, read in a transcription: EDT 5 %, C80 1 dB, G 1 dB; T20, T30 and C50 are no rows of it.
  expect(JUST_NOTICEABLE.earlyDecay).toMatchObject({ value: 0.05, lent: false });
  expect(JUST_NOTICEABLE.decay).toMatchObject({ value: 0.05, lent: true });
  expect(JUST_NOTICEABLE.clarity80).toMatchObject({ value: 1, lent: false });
  expect(JUST_NOTICEABLE.clarity50).toMatchObject({ value: 1, lent: true });
});
