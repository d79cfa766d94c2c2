import { acrossAxis, type Across, panelAxis } from "./axes.js";
import { bandTrace } from "./bands.js";
import type { Figure, KeyEntry, Panel, Plain, PlotLine, PlotName } from "./figure.js";
import { ink, paper, softInk } from "./palette.js";
import { plotText } from "./plot-text.js";
import { round } from "./round.js";
import { spread } from "./spread.js";
import { pointTrace, traceOf } from "./traces.js";

/** Panels one above the other over one horizontal axis, written as plain objects for the plot library. */

const titlePx = 32;
const gapPx = 14;
const axisPx = 44;
const leftPx = 40;
const labelPx = 15;
const labelRoomPx = 124;

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
    for (const band of panel.bands ?? []) data.push(bandTrace(band, panel, suffix));
    for (const line of [...(panel.limits ?? []), ...panel.lines]) data.push(traceOf(line, panel, parts.across, suffix));
    if (panel.points && panel.points.length > 0) data.push(pointTrace(panel.points, suffix));
    notes.push(titleNote(panel.title, upper), ...lineLabels(panel, suffix));
    for (const name of panel.names ?? []) notes.push(nameNote(name, suffix));
    topPx += titlePx + panel.heightPx + gapPx;
  });
  layout["annotations"] = notes;
  const heightPx = areaPx + axisPx + 4;
  return { id: parts.id, heightPx, description: parts.description, key: keyOf(panels), keyAlways: false, data, layout };
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

/** Shown on the one page that it is laid out for. */
function nameNote({ text, x, y, rowY, side, page }: PlotName, suffix: string): Plain {
  return {
    name: `${page}-name`,
    text: plotText(text),
    showarrow: true,
    arrowhead: 0,
    arrowwidth: 0.8,
    arrowcolor: softInk,
    standoff: 3,
    xref: "x",
    yref: `y${suffix}`,
    axref: "x",
    ayref: `y${suffix}`,
    x: round(x, 6),
    y: round(y, 5),
    ax: round(x, 6),
    ay: rowY,
    xanchor: side === "right" ? "left" : "right",
    yanchor: "bottom",
    borderpad: 0,
    font: { size: page === "wide" ? 12 : 11, color: ink },
  };
}

function keyOf(panels: readonly Panel[]): KeyEntry[] {
  const entries = new Map<string, KeyEntry>();
  for (const { label, stroke, dots = "" } of panels.flatMap((panel) => (panel.lines.length > 1 ? panel.lines : []))) {
    const dashArray = stroke.dash === "solid" ? "none" : stroke.dash.replaceAll("px", "");
    entries.set(label, { label, colour: stroke.colour, widthPx: stroke.widthPx, dashArray, dot: dots });
  }
  return [...entries.values()];
}
