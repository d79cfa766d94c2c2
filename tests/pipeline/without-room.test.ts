import { expect, it } from "vitest";
import { analyse, type Analysis } from "../../src/pipeline.js";
import { sessionSchema } from "../../src/schema/session.js";
import { demoStudio } from "../../src/simulate/demo-studio.js";
import { recordSession } from "../../src/simulate/session/record-session.js";
import { openStudio } from "../../src/simulate/session/studio.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { renderReel } from "../../src/sweep/render.js";
import { withFiles } from "../simulate/recorded-demo.js";
import { memoryFiles } from "./in-memory-session.js";

const recipe = makeSweepRecipe({ durationS: 2, gapS: 0.8, leadS: 0.6, tailS: 0.4 });
const reel = { ...renderReel(recipe), sampleRate: recipe.sampleRate };
const [mix] = demoStudio.positions;
const scenario = {
  ...demoStudio,
  pairs: demoStudio.pairs.filter(({ id }) => id === "mains"),
  positions: [{ ...mix!, takes: 1 }],
};

it("Without the room a mix carries as with it, and nothing more is said against the recordings", async () => {
  const open = openStudio(scenario, reel);
  const recorded = recordSession(scenario, reel, (pair, position) => open.sound(pair, position));
  const { session, files } = withFiles(recorded, recipe);
  const analysed = async (withRoom: boolean): Promise<Analysis["results"]> =>
    (await analyse(sessionSchema.parse(session), memoryFiles(files), { version: "0", withRoom })).results;
  const [whole, mixOnly] = [await analysed(true), await analysed(false)];
  expect(mixOnly.translation).toEqual(whole.translation);
  expect(mixOnly.measurements.map(({ quality }) => quality.findings)).toEqual(
    whole.measurements.map(({ quality }) => quality.findings),
  );
  // Decays are what is left out.
  const decays = ({ measurements }: Analysis["results"]): number =>
    measurements.flatMap(({ bands }) => bands).filter(({ t20S, edtS }) => t20S !== null || edtS !== null).length;
  expect(decays(mixOnly)).toBeGreaterThan(0);
  expect(decays(mixOnly)).toBeLessThan(0.5 * decays(whole));
});
