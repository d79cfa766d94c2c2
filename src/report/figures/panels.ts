import type { Figure, KeyEntry, Panel, Plain, PlotLine, PlotPoint } from "./figure.js";
import { ink, paper, rule, softInk } from "./palette.js";
import { plotText } from "./plot-text.js";
import { spread } from "./spread.js";

/** Panels one above the other over one horizontal axis, written as plain objects for the plot library. */

export type Across = "frequency" | "delay";

const titlePx = 32;
const gapPx = 14;
const axisPx = 44;
const leftPx = 40;
const labelPx = 15;
const labelRoomPx = 124;

const frequencyTicksHz = [20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000];
const frequencyTickText = ["20", "50", "100", "200", "500", "1k", "2k", "5k", "10k", "20k"];

export function panelFigure(parts: {
  readonly id: string;
  readonly description: string;
  readonly across: Across;
  readonly acrossRange: readonly [number, number];
  readonly panels: readonly Panel[];
}): Figure {
  const panels = parts.panels.map((panel) => ({ ...panel, lines: panel.lines.filter(visible) }));
  const areaPx = panels.reduce((sum, panel) => sum + titlePx + panel.heightPx, (panels.length - 1) * gapPx);
  const layout: Record<string, Plain> = {
    ...commonLayout(),
    xaxis: acrossAxis(parts.across, parts.acrossRange, panels),
  };
  const data: Plain[] = [];
  const notes: Plain[] = [];
  let topPx = 0;
  panels.forEach((panel, index) => {
    const suffix = index === 0 ? "" : String(index + 1);
    const upper = 1 - (topPx + titlePx) / areaPx;
    const lower = Math.max(0, 1 - (topPx + titlePx + panel.heightPx) / areaPx);
    layout[`yaxis${suffix}`] = panelAxis(panel, lower, upper);
    for (const line of panel.lines) data.push(...tracesOf(line, panel, parts.across, suffix));
    if (panel.points && panel.points.length > 0) data.push(pointTrace(panel.points, suffix));
    notes.push(titleNote(panel.title, upper), ...lineLabels(panel, suffix));
    topPx += titlePx + panel.heightPx + gapPx;
  });
  layout["annotations"] = notes;
  const heightPx = areaPx + axisPx + 4;
  return { id: parts.id, heightPx, description: parts.description, key: keyOf(panels), data, layout };
}

/** Whether there is anything to see: a point, or two neighbours that a line can join. */
function visible({ y, marks }: PlotLine): boolean {
  return y.some((value, index) => value !== null && (marks !== undefined || (y[index + 1] ?? null) !== null));
}

function commonLayout(): Record<string, Plain> {
  return {
    paper_bgcolor: "rgba(0,0,0,0)",
    plot_bgcolor: "rgba(0,0,0,0)",
    font: { family: "'Helvetica Neue', 'Liberation Sans', Arial, system-ui, sans-serif", size: 12, color: ink },
    margin: { l: leftPx, r: labelRoomPx, t: 4, b: axisPx },
    showlegend: false,
    hovermode: "x unified",
    hoverlabel: { bgcolor: paper, bordercolor: ink, font: { size: 12, color: ink } },
  };
}

function acrossAxis(across: Across, range: readonly [number, number], panels: readonly Panel[]): Plain {
  const shared = {
    anchor: panels.length > 1 ? `y${panels.length}` : "y",
    showgrid: true,
    gridcolor: rule,
    linecolor: ink,
    showline: true,
    ticks: "outside",
    ticklen: 4,
    tickcolor: ink,
    zeroline: false,
    spikecolor: softInk,
    spikethickness: -1,
    spikedash: "solid",
  };
  if (across === "delay") {
    return {
      ...shared,
      range,
      dtick: 10,
      hoverformat: ".2f",
      unifiedhovertitle: { text: "%{x:.2f} ms" },
      title: { text: "Delay after the direct sound, ms", standoff: 6 },
    };
  }
  return {
    ...shared,
    type: "log",
    range: range.map(Math.log10),
    tickmode: "array",
    tickvals: frequencyTicksHz,
    ticktext: frequencyTickText,
    tickangle: 0,
    unifiedhovertitle: { text: "%{x:.4~r} Hz" },
    title: { text: "Frequency, Hz", standoff: 6 },
  };
}

function panelAxis(panel: Panel, lower: number, upper: number): Plain {
  return {
    domain: [lower, upper],
    range: panel.range,
    dtick: panel.step,
    tick0: 0,
    gridcolor: rule,
    ticks: "outside",
    ticklen: 5,
    tickcolor: "rgba(0,0,0,0)",
    zeroline: panel.baseline === 0,
    zerolinecolor: softInk,
    zerolinewidth: 1,
    fixedrange: true,
  };
}

function tracesOf(line: PlotLine, panel: Panel, across: Across, suffix: string): Plain[] {
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
  return [trace];
}

function hoverTemplate(line: PlotLine, unit: string): string {
  if (line.hover) return "%{text}";
  return line.uncertainty ? `%{y:.1f} ± %{customdata:.1f} ${unit}` : `%{y:.1f} ${unit}`;
}

function pointTrace(points: readonly PlotPoint[], suffix: string): Plain {
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

function titleNote(title: string, upper: number): Plain {
  const text = `<b>${plotText(title)}</b>`;
  const place = { xref: "paper", yref: "paper", x: 0, y: upper, xanchor: "left", yanchor: "bottom" };
  return {
    name: "title",
    text,
    showarrow: false,
    xshift: -leftPx,
    yshift: 8,
    font: { size: 13, color: ink },
    ...place,
  };
}

/** Names at the right ends of the lines, moved apart where lines end together. */
function lineLabels(panel: Panel, suffix: string): Plain[] {
  if (panel.lines.length < 2) return [];
  const perPixel = (panel.range[1] - panel.range[0]) / panel.heightPx;
  const ends = panel.lines.map((line) => line.y.findLast((value) => value !== null) ?? panel.range[0]);
  const held = ends.map((end) => Math.min(panel.range[1], Math.max(panel.range[0], end)));
  const places = spread(held, labelPx * perPixel, panel.range);
  return panel.lines.map((line, index) => ({
    name: "line-label",
    text: plotText(line.label),
    showarrow: false,
    xref: "paper",
    yref: `y${suffix}`,
    x: 1,
    y: round(places[index]!, 5),
    xanchor: "left",
    xshift: 6,
    font: { size: 12, color: line.stroke.colour },
  }));
}

function keyOf(panels: readonly Panel[]): KeyEntry[] {
  const entries = new Map<string, KeyEntry>();
  for (const { label, stroke } of panels.flatMap((panel) => (panel.lines.length > 1 ? panel.lines : []))) {
    const dashArray = stroke.dash === "solid" ? "none" : stroke.dash.replaceAll("px", "");
    entries.set(label, { label, colour: stroke.colour, widthPx: stroke.widthPx, dashArray });
  }
  return [...entries.values()];
}

function round(value: number, digits: number): number {
  return Number(value.toPrecision(digits));
}
