import type { Results } from "../../model.js";

/** Whether two sessions played the same sweep: their recipes are the same file. */
export function sameSweep(before: Results, after: Results): boolean {
  const recipe = recipeOf(before);
  return recipe !== null && recipe === recipeOf(after);
}

function recipeOf({ session, provenance }: Results): string | null {
  return provenance.files.find(({ file }) => file === session.sweep)?.sha256 ?? null;
}
