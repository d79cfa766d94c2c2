import { expect, it } from "vitest";
import { originWords } from "../../src/words/surface-name.js";

const by = (...ways: [string, number][]): Parameters<typeof originWords>[0] =>
  ways.map(([surface, confidence]) => ({ surfaces: [surface], confidence }));

it("A reflection that one surface alone explains is called by it", () => {
  expect(originWords(by(["floor", 0.9]))).toEqual({ text: "the floor", certainty: 0.9, isSure: true });
});

it("A reflection is called by every surface that explains it as well, two or three, with the chance that it is one of them", () => {
  expect(originWords(by(["floor", 0.499], ["ceiling", 0.499]))).toMatchObject({ text: "the floor or the ceiling" });
  const three = originWords(by(["floor", 0.33], ["ceiling", 0.33], ["left", 0.33]));
  expect(three).toMatchObject({ text: "the floor or the ceiling or the left wall", isSure: true });
  expect(three.certainty).toBeCloseTo(0.99, 9);
});

it("A reflection that nothing explains well is called by what may be, and no more", () => {
  expect(originWords(by(["floor", 0.4])).text).toBe("perhaps the floor");
});
