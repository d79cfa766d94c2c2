import { parse, type ValueNode } from "@humanwhocodes/momoa";

import { InputError } from "../errors.js";

export type JsonPath = readonly PropertyKey[];

/** A JSON document, and where in its text each of its values stands. */
export interface JsonText {
  readonly name: string;
  readonly value: unknown;
  /** The line, from 1, of the value at a path, or of the nearest value around it; null when that cannot be told. */
  lineOf(path: JsonPath): number | null;
}

/**
 * Reads JSON so that every later complaint can say the line: the only door to the parser with positions.
 *
 * @param text - the file's text; a byte order mark is ignored
 * @param name - the file's name, for errors
 * @throws {InputError} with line and column if it is not JSON, or if an object has the same key twice
 */
export function readJsonText(text: string, name: string): JsonText {
  const source = text.replace(/^\uFEFF/, "");
  const tree = positions(source, name);
  if (tree) refuseTwins(tree, name);
  return {
    name,
    value: parseValue(source, name),
    lineOf: (path) => (tree ? lineIn(tree, path) : null),
  };
}

function parseValue(source: string, name: string): unknown {
  try {
    return JSON.parse(source);
  } catch {
    throw notJson("the text does not follow JSON's grammar", name);
  }
}

/** @returns null when the text is nested too deeply for the parser with positions, which JSON.parse can bear */
function positions(source: string, name: string): ValueNode | null {
  try {
    return parse(source, { mode: "json" }).body;
  } catch (error) {
    if (error instanceof RangeError) return null;
    const { line, column } = error as { line?: number; column?: number };
    const place = line === undefined ? name : `${name}, line ${line}, column ${column ?? 1}`;
    throw notJson(inWords(error instanceof Error ? error.message : "", source), place);
  }
}

const tokens: Readonly<Record<string, string>> = {
  RBrace: '"}"',
  LBrace: '"{"',
  RBracket: '"]"',
  LBracket: '"["',
  Comma: "a comma",
  Colon: "a colon",
  String: "a text",
  Number: "a number",
  Boolean: "true or false",
  Null: "null",
};

/** The parser's message without its position and its inner names. */
function inWords(message: string, source: string): string {
  if (source.trim() === "") return "the file is empty";
  // A file cut off in the middle of something: the parser would complain of the last thing in it.
  if (!source.trimEnd().endsWith("}")) return 'it does not end with its closing "}"';
  const text = message.replace(/ \(\d+:\d+\)$/, "").replace(/\.?( found)?\.?$/, "$1");
  const token = /Unexpected token (\w+) found/.exec(text)?.[1];
  if (token !== undefined) return `${tokens[token] ?? token} stands where it cannot`;
  return text.charAt(0).toLowerCase() + text.slice(1);
}

function notJson(reason: string, where: string): InputError {
  return new InputError(`The file is not valid JSON: ${reason}.`, {
    where,
    remedy: "look there, or just before, for a missing or superfluous comma, bracket or quotation mark",
  });
}

/** JSON.parse would silently keep the last of two equal keys. */
function refuseTwins(node: ValueNode, name: string): void {
  if (node.type === "Array") for (const { value } of node.elements) refuseTwins(value, name);
  if (node.type !== "Object") return;
  const seen = new Set<string>();
  for (const member of node.members) {
    const key = keyOf(member);
    if (seen.has(key)) {
      throw new InputError(`The key "${key}" stands twice in one object.`, {
        where: `${name}, line ${member.loc.start.line}`,
        remedy: "remove one of the two, or correct its name",
      });
    }
    seen.add(key);
    refuseTwins(member.value, name);
  }
}

function lineIn(root: ValueNode, path: JsonPath): number {
  let node = root;
  let line = root.loc.start.line;
  for (const step of path) {
    if (node.type === "Object") {
      const member = node.members.find((one) => keyOf(one) === step);
      if (!member) break;
      line = member.loc.start.line;
      node = member.value;
    } else if (node.type === "Array") {
      const element = node.elements[Number(step)];
      if (!element) break;
      node = element.value;
      line = node.loc.start.line;
    } else break;
  }
  return line;
}

function keyOf(member: { readonly name: { type: string; value?: unknown; name?: string } }): string {
  return String(member.name.type === "String" ? member.name.value : member.name.name);
}
