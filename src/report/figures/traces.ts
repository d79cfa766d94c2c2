import type { Across } from "./axes.js";
import type { Panel, Plain, PlotLine, PlotPoint } from "./figure.js";
import { ink, paper } from "./palette.js";
import { plotText } from "./plot-text.js";
import { round } from "./round.js";

/** Lines and marks, as the plot library wants them. */

export function traceOf(line: PlotLine, panel: Panel, across: Across, suffix: string): Plain {
  const { colour, dash, widthPx } = line.stroke;
  const x = line.x.map((value) => round(value, across === "delay" ? 6 : 5));
  const y = line.y.map((value) => (value === null ? null : Number(value.toFixed(3))));
  const trace: Record<string, Plain> = {
    type: "scatter",
    mode: line.dots ? "markers" : line.marks ? "lines+markers" : "lines",
    name: plotText(line.label),
    x,
    y,
    xaxis: "x",
    yaxis: `y${suffix}`,
    connectgaps: false,
    line: { color: colour, dash, width: widthPx, simplify: true },
    hovertemplate: hoverTemplate(line, panel),
  };
  if (line.uncertainty) trace["customdata"] = line.uncertainty.map((u) => (u === null ? null : round(2 * u, 2)));
  if (line.hover) trace["text"] = line.hover.map(plotText);
  if (line.marks) {
    trace["marker"] = {
      size: line.symbols ? line.symbols.map((symbol) => (symbol === "circle" ? 7 : 11)) : 7,
      symbol: line.symbols ?? "circle",
      color: line.marks.map((solid) => (solid ? colour : paper)),
      line: { color: colour, width: 1.5 },
      // Sizes in a list make the library draw them translucent.
      opacity: 1,
    };
  }
  if (line.bars) {
    const array = line.bars.map((bar) => (bar === null ? 0 : round(bar, 3)));
    trace["error_y"] = { type: "data", array, color: colour, thickness: 1, width: 2.5 };
  }
  return trace;
}

function hoverTemplate(line: PlotLine, { unit, decimals = 1 }: Panel): string {
  if (line.hover) return "%{text}";
  const value = `%{y:.${decimals}f}`;
  return line.uncertainty ? `${value} ± %{customdata:.${decimals}f} ${unit}` : `${value} ${unit}`;
}

export function pointTrace(points: readonly PlotPoint[], suffix: string): Plain {
  return {
    type: "scatter",
    mode: "markers",
    x: points.map((point) => round(point.x, 6)),
    y: points.map((point) => Number(point.y.toFixed(3))),
    xaxis: "x",
    yaxis: `y${suffix}`,
    marker: {
      symbol: points.map((point) => point.symbol),
      size: points.map(({ large }) => (large ? 9 : 5)),
      opacity: 1,
      color: ink,
      line: { color: ink, width: 1.2 },
    },
    name: "mark",
    customdata: points.map((point) => plotText(point.hover)),
    hovertemplate: "%{customdata}",
    cliponaxis: false,
  };
}
