import { expect, it } from "vitest";

import { mixListener } from "../../../src/translation/listen/mix-listener.js";

const RATE = 16_000;

/** A tone at two levels: loud between two times, 40 dB less elsewhere. */
function song(seconds: number, loudFromS: number, loudToS: number): Float32Array {
  return Float32Array.from({ length: seconds * RATE }, (_, n) => {
    const isLoud = n >= loudFromS * RATE && n < loudToS * RATE;
    return (isLoud ? 0.5 : 0.005) * Math.sin((2 * Math.PI * 500 * n) / RATE);
  });
}

it.each([
  [5, 8],
  [0, 3],
  [7, 10],
  [2.5, 5.5],
])("The loudest 3 s of a mix begin where it gets loud, from %f to %f s", (fromS, toS) => {
  const listener = mixListener(RATE, 3);
  const side = song(10, fromS, toS);
  // Pieces that end inside the half seconds in which energies are kept.
  for (let at = 0; at < side.length; at += 3333)
    listener.push(side.subarray(at, at + 3333), side.subarray(at, at + 3333));
  expect(listener.result().loudestFromS).toBe(fromS);
});

it("The loudest stretch of a mix that is shorter than it begins with the mix", () => {
  const listener = mixListener(RATE, 6);
  const side = song(2, 1, 2);
  listener.push(side, side);
  expect(listener.result().loudestFromS).toBe(0);
});
