import type { Stroke } from "./palette.js";

/** One plot as plain data: what the plot library draws, and the key that stands beside it on paper. */

export type Plain = null | boolean | number | string | readonly Plain[] | { readonly [key: string]: Plain };

export interface Figure {
  readonly id: string;
  readonly heightPx: number;
  /** For readers who cannot see the plot. */
  readonly description: string;
  readonly key: readonly KeyEntry[];
  /** Also on a wide page, where lines are otherwise named beside the plot. */
  readonly keyAlways: boolean;
  readonly data: readonly Plain[];
  readonly layout: Plain;
}

export interface KeyEntry extends KeyDash {
  readonly label: string;
  readonly colour: string;
  readonly widthPx: number;
  /** Of dots without a line; empty for a line. */
  readonly dot: "" | "solid" | "hollow";
}

interface KeyDash {
  /** As the stroke-dasharray of SVG. */
  readonly dashArray: string;
}

type Symbol = "circle" | "triangle-up" | "triangle-down" | "triangle-up-open" | "triangle-down-open";

export interface PlotLine {
  readonly label: string;
  readonly stroke: Stroke;
  readonly x: readonly number[];
  readonly y: readonly (number | null)[];
  /** Dots that no line joins, drawn so in the key as well. */
  readonly dots?: "solid" | "hollow";
  /** Marks at the points, solid where true and hollow where false; a line alone without them. */
  readonly marks?: readonly boolean[];
  /** The shapes of the marks; discs without them. */
  readonly symbols?: readonly Symbol[];
  /** What the pointer shows for each point, instead of its value. */
  readonly hover?: readonly string[];
  /** Standard uncertainty at each point; the pointer shows twice that. */
  readonly uncertainty?: readonly (number | null)[];
  /** Half the height of a bar of uncertainty at each point. */
  readonly bars?: readonly (number | null)[];
}

/** What is shaded between two edges: a tolerance, an uncertainty, a spread. */
export interface PlotBand {
  readonly x: readonly number[];
  /** An edge that is null beside one that is not lies beyond the panel. */
  readonly lower: readonly (number | null)[];
  readonly upper: readonly (number | null)[];
  /** Nominal bands reach half their width beyond the midbands at the ends. */
  readonly ofBands: boolean;
  /** Instead of the tint. */
  readonly colour?: string;
}

/** Marks without a line. */
export interface PlotPoint {
  readonly x: number;
  readonly y: number;
  readonly hover: string;
  readonly symbol: Symbol;
  readonly large: boolean;
}

/** A name above the curve, with a hairline down to what it names. */
export interface PlotName {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly rowY: number;
  /** Where the text lies, seen from the hairline. */
  readonly side: "right" | "left";
  /** The page it is laid out for. */
  readonly page: "wide" | "narrow";
}

export interface Panel {
  /** Quantity and unit: "Steady state, dB". */
  readonly title: string;
  readonly unit: string;
  /** Decimals under the pointer; 1 where nothing is said. */
  readonly decimals?: number;
  readonly range: readonly [number, number];
  readonly step: number;
  /** Where the axis goes on above what can be measured, to hold names. */
  readonly highestTick?: number;
  readonly heightPx: number;
  readonly lines: readonly PlotLine[];
  readonly bands?: readonly PlotBand[];
  /** Limits of a recommendation, drawn thin; they stand in no key. */
  readonly limits?: readonly PlotLine[];
  readonly points?: readonly PlotPoint[];
  readonly names?: readonly PlotName[];
  /** A level that the eye should measure from. */
  readonly baseline?: number;
}
