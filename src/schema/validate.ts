import { InputError } from "../errors.js";
import { issueInWords } from "./issue-in-words.js";
import type { JsonPath, JsonText } from "./json-text.js";
import { z } from "./zod.js";

/**
 * Holds a document against its schema.
 *
 * @returns the document as the schema reads it, defaults filled in
 * @throws {InputError} that names the first fault in words, its line and field, and how many more there are
 */
export function validate<Schema extends z.ZodType>(schema: Schema, document: JsonText): z.infer<Schema> {
  const parsed = schema.safeParse(document.value, { reportInput: true });
  if (parsed.success) return parsed.data;
  // A misspelt key also makes its right spelling missing: the misspelling is the fault to name.
  const issues = [...parsed.error.issues].sort((a, b) => rank(a) - rank(b));
  const first = issues[0];
  if (!first) throw new RangeError("a failed validation names no issue");
  const { what, path, remedy } = issueInWords(first, schema);
  const more = issues.length > 1 ? ` (${issues.length - 1} more after that)` : "";
  throw new InputError(`${what}${more}.`, { where: placeOf(document, path), remedy });
}

function rank(issue: z.core.$ZodIssue): number {
  return issue.code === "unrecognized_keys" ? 0 : 1;
}

/** A place in a document, as people look for it: file, line, field. */
export function placeOf(document: JsonText, path: JsonPath): string {
  const line = document.lineOf(path);
  const place = line === null ? document.name : `${document.name}, line ${line}`;
  return path.length === 0 ? place : `${place}, ${fieldName(path)}`;
}

/** @example fieldName(["recordings", 2, "take"]) // "recordings[2].take" */
function fieldName(path: JsonPath): string {
  return path
    .map((step, index) => (typeof step === "number" ? `[${step}]` : `${index > 0 ? "." : ""}${String(step)}`))
    .join("");
}
