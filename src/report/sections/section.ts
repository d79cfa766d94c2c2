import type { Figure } from "../figures/figure.js";
import { expanded, fixed, signed, significant, unknownMark } from "../../words/numbers.js";

/** What a page is made of, in plain objects that a template can lay out. */

/** Marks are told apart by their shape. */
export type Mark = "trust" | "mend" | "unknown" | "usable" | "care" | "refused" | "note" | ChangeMark;

/** What a comparison says of a quantity. */
export type ChangeMark = "better" | "worse" | "changed" | "same" | "unknown";

export interface Cell {
  readonly text: string;
  readonly numeric: boolean;
  readonly mark: Mark | null;
}

export interface Statement {
  readonly mark: Mark;
  readonly verdict: string;
  readonly subject: string;
  readonly text: string;
  readonly details: readonly { readonly mark: Mark; readonly text: string; readonly remedy: string }[];
}

export interface Table {
  readonly kind: "table";
  readonly caption: string;
  /** Behind a line that opens it: for figures that only some readers want. */
  readonly folded: boolean;
  readonly columns: readonly Cell[];
  readonly rows: readonly (readonly Cell[])[];
  readonly notes: readonly string[];
}

export type Block =
  | { readonly kind: "heading"; readonly text: string }
  | { readonly kind: "prose"; readonly text: string }
  | { readonly kind: "list"; readonly items: readonly string[] }
  | Picture
  | Strips
  | Bars
  | Table;

/** One row of marks a monitor, one mark a band; drawn without a program. */
interface Strips {
  readonly kind: "strips";
  readonly id: string;
  readonly title: string;
  readonly see: string;
  readonly rows: readonly {
    readonly name: string;
    readonly cells: readonly { readonly mark: Mark; readonly tick: string; readonly title: string }[];
  }[];
  readonly caption: string;
}

/** Small bars about zero in rows and columns, drawn without a program. */
export interface Bars {
  readonly kind: "bars";
  readonly id: string;
  readonly title: string;
  readonly see: string;
  readonly columns: readonly string[];
  readonly groups: readonly {
    readonly name: string;
    readonly rows: readonly {
      readonly name: string;
      readonly aside: string;
      readonly cells: readonly { readonly title: string; readonly bars: readonly Bar[] }[];
    }[];
  }[];
  readonly caption: string;
}

/** From -1 to 1, the ends of the scale. */
export interface Bar {
  readonly look: "dark" | "grey" | "outlined" | "hatched";
  readonly from: number;
  readonly to: number;
  /** The end towards zero; 0 where the bar holds zero. */
  readonly near: number;
  /** Where it goes on past the end. */
  readonly beyond: "none" | "above" | "below";
}

interface Picture {
  readonly kind: "figure";
  readonly figure: Figure;
  readonly title: string;
  /** One sentence that says what to see. */
  readonly see: string;
  /** What a careful reader also wants to know. */
  readonly caption: string;
}

/** One subject: its pictures stand with all pictures, its tables with all tables. */
export interface Section {
  readonly id: string;
  readonly heading: string;
  readonly pictures: readonly Block[];
  readonly tables: readonly Block[];
}

export function words(text: string): Cell {
  return { text, numeric: false, mark: null };
}

/** A column's head above numbers, or a number that is already written. */
export function figures(text: string): Cell {
  return { text, numeric: true, mark: null };
}

/** A word with the mark that says the same at a glance. */
export function marked(mark: Mark, text: string): Cell {
  return { text, numeric: false, mark };
}

/** A rounded number; a dash where it is not known. */
export function number(value: number | null, decimals: number): Cell {
  return figures(value === null ? unknownMark : fixed(value, decimals));
}

export function signedNumber(value: number | null, decimals: number): Cell {
  return figures(value === null ? unknownMark : signed(value, decimals));
}

export function significantNumber(value: number | null, digits: number): Cell {
  return figures(value === null ? unknownMark : significant(value, digits));
}

/** The expanded uncertainty (k = 2) of what stands beside it. */
export function uncertainty(standard: number | null, decimals: number): Cell {
  return figures(standard === null ? unknownMark : expanded(standard, decimals));
}

/** A table, with a note on the dash where one occurs: not known, unless the table has a better reason. */
export function table(
  parts: Omit<Table, "kind">,
  dashMeans = "not known: the data cannot support a figure here.",
): Table {
  const dashed = parts.rows.some((row) => row.some((cell) => cell.text.startsWith(unknownMark)));
  const notes = dashed ? [...parts.notes, `${unknownMark} ${dashMeans}`] : parts.notes;
  return { kind: "table", ...parts, notes };
}
