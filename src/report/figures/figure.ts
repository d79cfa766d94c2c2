import type { Stroke } from "./palette.js";

/** One plot as plain data: what the plot library draws, and the key that stands beside it on paper. */

export type Plain = null | boolean | number | string | readonly Plain[] | { readonly [key: string]: Plain };

export interface Figure {
  readonly id: string;
  readonly heightPx: number;
  /** For readers who cannot see the plot. */
  readonly description: string;
  readonly key: readonly KeyEntry[];
  readonly data: readonly Plain[];
  readonly layout: Plain;
}

export interface KeyEntry extends KeyDash {
  readonly label: string;
  readonly colour: string;
  readonly widthPx: number;
}

interface KeyDash {
  /** As the stroke-dasharray of SVG. */
  readonly dashArray: string;
}

export interface PlotLine {
  readonly label: string;
  readonly stroke: Stroke;
  readonly x: readonly number[];
  readonly y: readonly (number | null)[];
  /** Marks at the points, solid where true and hollow where false; a line alone without them. */
  readonly marks?: readonly boolean[];
  /** What the pointer shows for each point, instead of its value. */
  readonly hover?: readonly string[];
  /** Standard uncertainty at each point; the pointer shows twice that. */
  readonly uncertainty?: readonly (number | null)[];
  /** Half the height of a bar of uncertainty at each point. */
  readonly bars?: readonly (number | null)[];
}

/** Numbered marks without a line. */
export interface PlotPoint {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly hover: string;
  readonly symbol: "triangle-up" | "triangle-down" | "triangle-up-open" | "triangle-down-open";
}

export interface Panel {
  /** Quantity and unit: "Steady state, dB". */
  readonly title: string;
  readonly unit: string;
  readonly range: readonly [number, number];
  readonly step: number;
  readonly heightPx: number;
  readonly lines: readonly PlotLine[];
  readonly points?: readonly PlotPoint[];
  /** A level that the eye should measure from. */
  readonly baseline?: number;
}
