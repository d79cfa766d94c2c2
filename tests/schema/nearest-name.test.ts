import { describe, expect, it } from "vitest";

import { nearestName } from "../../src/schema/nearest-name.js";

describe("The name that was probably meant", () => {
  it.each([
    ["positons", ["panels", "positions"], "positions"],
    ["Mains", ["nears", "mains"], "mains"],
    ["mains-miks.wav", ["nears-mix.wav", "mains-mix.wav"], "mains-mix.wav"],
    ["temprature", ["temperatureC", "pressureKPa"], "temperatureC"],
  ])("of %s is found by its few changed letters", (name, known, meant) => {
    expect(nearestName(name, known)).toBe(meant);
  });

  it.each([
    ["colour", ["title", "date", "notes"]],
    ["xy", ["L", "R"]],
    ["mains", []],
  ])("of %s is not guessed where nothing is like it", (name, known) => {
    expect(nearestName(name, known)).toBeNull();
  });
});
