import type { Across } from "./axes.js";
import type { Panel, Plain, PlotLine, PlotPoint } from "./figure.js";
import { ink, paper } from "./palette.js";
import { plotText } from "./plot-text.js";
import { round } from "./round.js";

/** Lines and marks, as the plot library wants them. */

export function traceOf(line: PlotLine, panel: Panel, across: Across, suffix: string): Plain {
  const { colour, dash, widthPx } = line.stroke;
  const x = line.x.map((value) => round(value, across === "frequency" ? 5 : 6));
  const y = line.y.map((value) => (value === null ? null : Number(value.toFixed(3))));
  const trace: Record<string, Plain> = {
    type: "scatter",
    mode: line.marks ? "lines+markers" : "lines",
    name: plotText(line.label),
    x,
    y,
    xaxis: "x",
    yaxis: `y${suffix}`,
    connectgaps: false,
    line: { color: colour, dash, width: widthPx, simplify: true },
    hovertemplate: hoverTemplate(line, panel.unit),
  };
  if (line.uncertainty) trace["customdata"] = line.uncertainty.map((u) => (u === null ? null : round(2 * u, 2)));
  if (line.hover) trace["text"] = line.hover.map(plotText);
  if (line.marks) {
    trace["marker"] = {
      size: 7,
      symbol: "circle",
      color: line.marks.map((solid) => (solid ? colour : paper)),
      line: { color: colour, width: 1.5 },
    };
  }
  if (line.bars) {
    const array = line.bars.map((bar) => (bar === null ? 0 : round(bar, 3)));
    trace["error_y"] = { type: "data", array, color: colour, thickness: 1, width: 2.5 };
  }
  return trace;
}

function hoverTemplate(line: PlotLine, unit: string): string {
  if (line.hover) return "%{text}";
  return line.uncertainty ? `%{y:.1f} ± %{customdata:.1f} ${unit}` : `%{y:.1f} ${unit}`;
}

export function pointTrace(points: readonly PlotPoint[], suffix: string): Plain {
  return {
    type: "scatter",
    mode: "markers+text",
    x: points.map((point) => round(point.x, 6)),
    y: points.map((point) => Number(point.y.toFixed(3))),
    xaxis: "x",
    yaxis: `y${suffix}`,
    text: points.map((point) => plotText(point.text)),
    textposition: "top center",
    textfont: { size: 12, color: ink },
    marker: {
      symbol: points.map((point) => point.symbol),
      size: points.map((point) => (point.text === "" ? 5 : 9)),
      color: ink,
      line: { color: ink, width: 1.2 },
    },
    name: "reflection",
    customdata: points.map((point) => plotText(point.hover)),
    hovertemplate: "%{customdata}",
    cliponaxis: false,
  };
}
