import type { SessionText } from "../schema/session.js";

/** A session as people write and edit it: one line for each monitor, position and recording. */
export function sessionInText(session: SessionText): string {
  const entries = Object.entries(session).map(([key, value]) => {
    const text = Array.isArray(value)
      ? `[\n${value.map((one) => `    ${inOneLine(one)}`).join(",\n")}\n  ]`
      : inOneLine(value);
    return `  ${JSON.stringify(key)}: ${text}`;
  });
  return `{\n${entries.join(",\n")}\n}\n`;
}

/** Line ends inside texts are written as escapes, so all others are layout. */
function inOneLine(value: unknown): string {
  return JSON.stringify(value, null, 1)
    .replace(/\n\s*/g, " ")
    .replace(/\[ ([-\d., e+]+) \]/g, "[$1]");
}
