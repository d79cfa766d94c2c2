import { markerSampleCount, sweepSampleCount } from "../dsp/sweep-signal.js";
import { InputError } from "../errors.js";
import type { SweepRecipe } from "../model.js";
import { sweepRecipeSchema } from "../schema/sweep-recipe.js";

/** A sweep must start at the first or below and end at the second or above: arrivals are read between 1 and 8 kHz. */
export const USABLE_HZ = [200, 4000] as const;
/** Half an hour of sweeps in one pass is more than anyone plays. A choice of ours. */
export const LONGEST_REEL_S = 1800;

/**
 * Reads a sweep recipe.
 *
 * @param text - the content of `sweep.json`
 * @throws {InputError} if it is not JSON, not a recipe, or contradicts itself
 */
export function parseRecipe(text: string, name: string): SweepRecipe {
  let content: unknown;
  try {
    content = JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (error) {
    throw new InputError(`The sweep recipe is not valid JSON: ${error instanceof Error ? error.message : ""}.`, {
      where: name,
      remedy: "use the sweep.json that was written together with the sweep",
    });
  }
  const parsed = sweepRecipeSchema.safeParse(content);
  const issue = parsed.error?.issues[0];
  if (!parsed.success) throw contradiction(name, issue ? `${issue.path.join(".")}: ${issue.message}` : "unknown");
  const recipe = parsed.data;
  if (recipe.endHz <= recipe.startHz || recipe.endHz > recipe.sampleRate / 2) {
    throw contradiction(name, "endHz must lie between startHz and half the sample rate");
  }
  if (recipe.startHz > USABLE_HZ[0] || recipe.endHz < USABLE_HZ[1]) {
    throw contradiction(name, `it must sweep from ${USABLE_HZ[0]} Hz or below to ${USABLE_HZ[1]} Hz or above`);
  }
  if (Math.abs(recipe.growthS * Math.log(recipe.endHz / recipe.startHz) - recipe.lengthS) > 1e-6) {
    throw contradiction(name, "lengthS does not follow from startHz, endHz and growthS");
  }
  if (!recipe.events.some((event) => event.kind === "sweep")) throw contradiction(name, "events hold no sweep");
  checkEvents(recipe, name);
  return recipe;
}

/** What is played must follow from the rest, and end: memory and time of everything that follows are those of the reel. */
function checkEvents(recipe: SweepRecipe, name: string): void {
  const { sampleRate, events } = recipe;
  const samples = { sweep: sweepSampleCount(recipe), marker: markerSampleCount(sampleRate) };
  let end = 0;
  for (const event of events) {
    if (event.samples !== samples[event.kind]) {
      throw contradiction(name, `a ${event.kind} of ${event.samples} samples does not follow from the lengths`);
    }
    if (event.atSample < end) throw contradiction(name, "events lie over each other, or not in the order of playing");
    end = event.atSample + event.samples;
  }
  if (end > LONGEST_REEL_S * sampleRate) {
    const minutes = Math.round(end / sampleRate / 60);
    throw contradiction(name, `its reel lasts ${minutes} minutes; up to ${LONGEST_REEL_S / 60} are read`);
  }
}

function contradiction(name: string, what: string): InputError {
  return new InputError(`The sweep recipe cannot be used: ${what}.`, {
    where: name,
    remedy: "use the sweep.json that was written together with the sweep, unedited",
  });
}
