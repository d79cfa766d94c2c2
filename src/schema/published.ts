import { changesSchema } from "./changes.js";
import { resultsSchema } from "./results.js";
import { sessionSchema } from "./session.js";
import { sweepRecipeSchema } from "./sweep-recipe.js";
import { z } from "./zod.js";

/** The JSON Schemas that other programs build on, written from the same schemas that read and type our files. */
export function publishedSchemas(): { readonly name: string; readonly schema: object }[] {
  return [
    // A session as a person writes it: what has a default may be left out.
    { name: "session.schema.json", schema: describe("session.json, version 1", sessionSchema, "input") },
    { name: "sweep-recipe.schema.json", schema: describe("sweep.json, version 1", sweepRecipeSchema, "input") },
    { name: "results.schema.json", schema: describe("results.json, version 1", resultsSchema, "output") },
    { name: "changes.schema.json", schema: describe("changes.json, version 1", changesSchema, "output") },
  ];
}

function describe(title: string, schema: z.ZodType, io: "input" | "output"): object {
  const { $schema, ...rest } = z.toJSONSchema(schema, { io, target: "draft-2020-12" });
  return { $schema, title, ...rest };
}
