import { describe, expect, it } from "vitest";
import type { Results } from "../../src/model.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { renderReel } from "../../src/sweep/render.js";
import { analyseInMemory } from "../pipeline/in-memory-session.js";
import { withFiles } from "../simulate/recorded-demo.js";
import { SHORT_SWEEP } from "../simulate/test-rooms.js";
import { cleanStudioSession, STUDIOS } from "./clean-studios.js";

/** The script asks for all studios, and for the sweep that people use beside a short one; the suite for a few and the short one. */
const isWhole = (process.env.CARRYWELL_FAULTS ?? "quick") !== "quick";
const recipes = [SHORT_SWEEP, ...(isWhole ? [{}] : [])].map((options) => makeSweepRecipe(options));

/** Warnings and refusals that concern the recording; what is wrong with the room is the room's. */
const alarms = ({ findings, measurements }: Results): string[] =>
  [...findings, ...measurements.flatMap(({ quality }) => quality.findings)]
    .filter(({ topic, code, severity }) => (topic === "recording" || OF_CABLES.includes(code)) && severity !== "info")
    .map(({ code, message }) => `${code}: ${message}`);

/** Told as what to mend, but read off the recordings. */
const OF_CABLES = ["polarity-inverted", "channels-swapped"];

/** The most noise and the least. */
const FEW = [1, STUDIOS];
const seeds = isWhole ? Array.from({ length: STUDIOS }, (_, n) => n + 1) : FEW;

describe.each(recipes.map((recipe) => [recipe.lengthS, recipe] as const))(
  "two takes of %f s, all well",
  (_, recipe) => {
    const reel = { ...renderReel(recipe), sampleRate: recipe.sampleRate };

    it.each(seeds)("alarm nobody (studio %d)", async (seed) => {
      const { session, files } = withFiles(cleanStudioSession(seed, reel).session, recipe);
      const { results } = await analyseInMemory(session, files);
      expect(results.measurements.filter(({ derived }) => !derived)).toHaveLength(2);
      expect(alarms(results)).toEqual([]);
    });
  },
);
