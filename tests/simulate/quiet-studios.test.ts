import { describe, expect, it } from "vitest";
import type { Results } from "../../src/model.js";
import type { Scenario } from "../../src/simulate/scenario.js";
import { simulateSession } from "../../src/simulate/scenario.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { renderReel } from "../../src/sweep/render.js";
import { analyseInMemory } from "../pipeline/in-memory-session.js";
import { withFiles } from "./recorded-demo.js";
import { cleanStudio, dryStudio, SHORT_SWEEP } from "./test-rooms.js";

const recipe = makeSweepRecipe(SHORT_SWEEP);
const reel = { ...renderReel(recipe), sampleRate: recipe.sampleRate };

async function resultsOf(studio: Scenario): Promise<Results> {
  const { session, files } = withFiles(simulateSession(studio, reel), recipe);
  return (await analyseInMemory(session, files)).results;
}

const warnings = ({ findings }: Results): string[] =>
  findings.filter(({ severity }) => severity !== "info").map(({ code, message }) => `${code}: ${message}`);

describe("A good room with flat monitors", () => {
  it.each([...Array(20).keys()].map((n) => n + 1))("gives no warning (seed %d)", async (seed) => {
    const results = await resultsOf(cleanStudio(seed));
    expect(warnings(results)).toEqual([]);
    expect(results.measurements.flatMap(({ quality }) => quality.findings)).toEqual([]);
    expect(results.findings.map(({ code }) => code)).not.toContain("dry");
  });
});

describe("A very dry room with flat monitors", () => {
  it.each([1, 2, 3])("is called dry, and no treble is missed (seed %d)", async (seed) => {
    const results = await resultsOf(dryStudio(seed));
    expect(warnings(results)).toEqual([]);
    expect(results.findings.map(({ code }) => code)).toContain("dry");
    const { tmS } = results.measurements[0]!.reverberation;
    // The share that is swallowed was chosen for 0.15 s.
    expect(tmS).toBeGreaterThan(0.135);
    expect(tmS).toBeLessThan(0.165);
  });
});
