import type { JsonPath } from "./json-text.js";
import { z } from "./zod.js";

interface SchemaNode {
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly items?: SchemaNode;
  readonly prefixItems?: readonly SchemaNode[];
}

/** The keys a schema knows in the object at a path; empty where it knows none. */
export function knownKeys(schema: z.ZodType, path: JsonPath): string[] {
  // The JSON Schema shows objects and arrays as they are written, without wrappers for defaults and options.
  let node: SchemaNode | undefined = z.toJSONSchema(schema, {
    io: "input",
    unrepresentable: "any",
    reused: "inline",
  }) as SchemaNode;
  for (const step of path) {
    node = typeof step === "number" ? (node.prefixItems?.[step] ?? node.items) : node.properties?.[String(step)];
    if (!node) return [];
  }
  return Object.keys(node.properties ?? {});
}
