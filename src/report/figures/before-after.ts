import type { ChangedQuantity } from "../../schema/changes.js";
import { hertz, fixed, signed } from "../../words/numbers.js";
import type { Figure, Panel, PlotLine } from "./figure.js";
import { softInk, stroke, type Stroke } from "./palette.js";
import { panelFigure } from "./panels.js";
import { differenceRange, positiveRange } from "./range.js";

/** The two dots of a band stand beside one another: so far from its middle, as a ratio. */
const ASIDE = 10 ** 0.014;
const earlier: Stroke = { colour: softInk, dash: "solid", widthPx: 1.3 };

/** Before and after as dots, band by band, with the uncertainty of their difference as a bar at the later one. */
export function dotsFigure(
  id: string,
  description: string,
  panels: readonly { readonly title: string; readonly entries: readonly ChangedQuantity[] }[],
  unit: "s" | "dB",
  names: { readonly before: string; readonly after: string },
): Figure {
  const all = panels.flatMap(({ entries }) =>
    entries.flatMap(({ before, after, uncertainty }) => [
      before,
      (after ?? 0) + (uncertainty ?? 0),
      (after ?? 0) - (uncertainty ?? 0),
    ]),
  );
  const axis = unit === "s" ? positiveRange(all) : { ...differenceRange(all), baseline: 0 };
  return panelFigure({
    id,
    description: `${description}, ${names.before} and ${names.after}; the tables below have the values.`,
    across: "frequency",
    acrossRange: [20, 20_000],
    panels: panels.map(({ title, entries }): Panel => ({
      title,
      unit,
      decimals: unit === "s" ? 2 : 1,
      heightPx: 190,
      lines: [dots(entries, "before", names.before), dots(entries, "after", names.after, unit)],
      ...axis,
    })),
  });
}

function dots(
  entries: readonly ChangedQuantity[],
  side: "before" | "after",
  label: string,
  unit?: "s" | "dB",
): PlotLine {
  const solid = side === "after";
  return {
    label,
    stroke: solid ? stroke(0) : earlier,
    dots: solid ? "solid" : "hollow",
    marks: entries.map(() => solid),
    x: entries.map(({ bandHz }) => (solid ? bandHz! * ASIDE : bandHz! / ASIDE)),
    y: entries.map((entry) => entry[side]),
    ...(unit && {
      bars: entries.map(({ uncertainty }) => uncertainty),
      hover: entries.map((entry) => hoverWords(entry, unit)),
    }),
    ...(unit ? {} : { hover: entries.map(() => "") }),
  };
}

function hoverWords({ bandHz, before, after, difference, uncertainty }: ChangedQuantity, unit: "s" | "dB"): string {
  const decimals = unit === "s" ? 2 : 1;
  const value = unit === "s" ? fixed : signed;
  const spread = uncertainty === null ? "" : ` ± ${fixed(uncertainty, decimals)}`;
  return `${hertz(bandHz)}: ${value(before, decimals)} to ${value(after, decimals)} ${unit}; ${signed(difference, decimals)}${spread} ${unit}`;
}
