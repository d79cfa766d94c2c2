import type { JsonPath } from "./json-text.js";
import { knownKeys } from "./known-keys.js";
import { nearestName } from "./nearest-name.js";
import type { z } from "./zod.js";

interface WordedIssue {
  readonly what: string;
  readonly path: JsonPath;
  readonly remedy: string;
}

/** Says a schema's complaint the way a person would: what is wrong, at which path, what to do. */
export function issueInWords(issue: z.core.$ZodIssue, schema: z.ZodType): WordedIssue {
  const { path } = issue;
  const name = nameOf(path);
  switch (issue.code) {
    case "unrecognized_keys":
      return unknownKey(issue.keys[0] ?? "", path, knownKeys(schema, path));
    case "invalid_type":
      if (issue.input === undefined) {
        return { what: `${name} is missing`, path, remedy: `add it: ${expected(issue.expected)}` };
      }
      return wrong(path, `is ${shown(issue.input)}`, expected(issue.expected));
    case "invalid_value":
      if (issue.input === undefined) {
        return { what: `${name} is missing`, path, remedy: `add it: ${choice(issue.values)}` };
      }
      return oneOf(path, issue.input, issue.values);
    case "too_small":
    case "too_big":
      return wrong(path, sized(issue.input), limit(issue));
    case "invalid_format":
    case "custom":
      return wrong(path, `is ${shown(issue.input)}`, ID_RULE);
    default:
      return wrong(path, `cannot be used: ${issue.message}`, "what the README describes");
  }
}

/** The one format in our schemas is the id's; its one further rule is the name that is taken. */
const ID_RULE =
  'an id of 1 to 32 letters, digits and underscores that begins with a letter or digit and is not "neutral"';

function unknownKey(key: string, path: JsonPath, known: readonly string[]): WordedIssue {
  const nearest = nearestName(key, known);
  return {
    what: `The key "${key}" is unknown here`,
    path: [...path, key],
    remedy: nearest === null ? `use one of: ${known.join(", ")}` : `did you mean "${nearest}"?`,
  };
}

function oneOf(path: JsonPath, input: unknown, values: readonly unknown[]): WordedIssue {
  const known = values.filter((value) => typeof value === "string");
  const nearest = typeof input === "string" ? nearestName(input, known) : null;
  const choices = choice(values);
  return wrong(path, `is ${shown(input)}`, nearest === null ? choices : `${choices}; did you mean "${nearest}"?`);
}

function wrong(path: JsonPath, found: string, wanted: string): WordedIssue {
  return { what: `${nameOf(path)} ${found}`, path, remedy: `give ${wanted}` };
}

function nameOf(path: JsonPath): string {
  const last = path.at(-1);
  if (last === undefined) return "The document";
  return typeof last === "number" ? `Entry ${last + 1} of ${nameOf(path.slice(0, -1))}` : `"${String(last)}"`;
}

const kinds: Readonly<Record<string, string>> = {
  string: "a text in quotation marks",
  number: "a number",
  int: "a whole number",
  boolean: "true or false",
  array: "a list in square brackets",
  tuple: "a list of three numbers: x, y, z in metres",
  object: "an object in curly brackets",
  record: "an object in curly brackets",
};

const expected = (kind: string): string => kinds[kind] ?? kind;

function choice(values: readonly unknown[]): string {
  const [only] = values;
  return values.length === 1 ? JSON.stringify(only) : `one of: ${values.map(String).join(", ")}`;
}

function sized(input: unknown): string {
  if (Array.isArray(input)) return input.length === 0 ? "is an empty list" : `has ${input.length} entries`;
  return input === "" ? "is empty" : `is ${shown(input)}`;
}

function limit(issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): string {
  const { origin } = issue;
  if (origin === "string") return "a text that is not empty";
  if (origin === "array") {
    // A list of fixed length is a point in the room.
    return Array.isArray(issue.input) && issue.input.length > 0 ? expected("tuple") : "a list with at least one entry";
  }
  if (issue.code === "too_big") return `a number up to ${String(issue.maximum)}`;
  return issue.inclusive === false ? `a number above ${String(issue.minimum)}` : `at least ${String(issue.minimum)}`;
}

const LONGEST_SHOWN = 60;

function shown(input: unknown): string {
  if (Array.isArray(input)) return "a list";
  if (typeof input === "object" && input !== null) return "an object";
  const text = typeof input === "string" ? JSON.stringify(input) : String(input);
  return text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}...` : text;
}
