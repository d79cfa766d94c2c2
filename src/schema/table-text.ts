import type { InputError } from "../errors.js";

/** Makes the error for a place in a file; lines and columns count from 1. */
export type Damage = (what: string, line: number, column: number) => InputError;

/**
 * Splits the bytes of a table into lines: UTF-8, UTF-16 with its mark, or Latin-1; ended by LF or CRLF.
 *
 * @throws {InputError} of the caller's making at a carriage return that stands alone
 */
export function textLines(bytes: Uint8Array, damage: Damage): string[] {
  return decodeText(bytes)
    .split("\n")
    .map((line, index) => {
      const text = line.endsWith("\r") ? line.slice(0, -1) : line;
      const bareReturn = text.indexOf("\r");
      if (bareReturn < 0) return text;
      const what = "The line holds a carriage return without a line feed, so lines cannot be told apart.";
      throw damage(what, index + 1, bareReturn + 1);
    });
}

function decodeText(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder("utf-16le").decode(bytes);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder("utf-16be").decode(bytes);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}

/** A decimal number with point or comma, or null; a sign, and an exponent, at most once. */
export function parseNumber(text: string): number | null {
  if (!/^[+-]?(\d+([.,]\d*)?|[.,]\d+)([eE][+-]?\d+)?$/.test(text)) return null;
  const value = Number(text.replace(",", "."));
  return Number.isFinite(value) ? value : null;
}

/** A field's text as an error message quotes it. */
export function notANumber(text: string): string {
  if (text === "") return "A number is missing.";
  return `"${text.length > 40 ? `${text.slice(0, 40)}...` : text}" is not a number.`;
}
