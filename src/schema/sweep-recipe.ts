import { z } from "./zod.js";

/** `sweep.json`, version 1: how the sweep was made, enough to build its exact inverse. */

const sample = z.int().nonnegative();
const seconds = z.number().min(0).max(60);

export const sampleFormatSchema = z.enum(["pcm16", "pcm24", "float32"]);

export const sweepRecipeSchema = z.strictObject({
  schema: z.literal("carrywell/sweep/1"),
  sampleRate: z.int().min(8000).max(384_000),
  startHz: z.number().min(1),
  endHz: z.number().positive(),
  /** Growth constant L: the time in which the frequency grows by e; startHz * growthS is a whole number. */
  growthS: z.number().positive(),
  /** From startHz to endHz, without the fades before and after. */
  lengthS: z.number().min(0.1),
  /** Peak level of the sine. */
  levelDbfs: z.number().min(-100).max(0),
  fadeInS: seconds,
  fadeOutS: seconds,
  leadS: seconds,
  gapS: seconds,
  tailS: seconds,
  repeats: z.int().min(1).max(32),
  format: sampleFormatSchema,
  /** Where things begin in the reel; a sweep begins with its fade, fadeInS before the instant of startHz. */
  events: z.array(
    z.strictObject({
      kind: z.enum(["marker", "sweep"]),
      channel: z.enum(["L", "R"]),
      atSample: sample,
      samples: z.int().positive(),
    }),
  ),
});

export type SweepRecipe = z.infer<typeof sweepRecipeSchema>;
export type SampleFormat = z.infer<typeof sampleFormatSchema>;
