import type { Panel, Plain } from "./figure.js";
import { ink, rule, softInk } from "./palette.js";

/** The axes of a figure, as the plot library wants them. */

export type Across = "frequency" | "low frequency" | "delay";

const frequencyTicksHz = [20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000];
const lowTicksHz = [20, 30, 40, 50, 70, 100, 150, 200, 250];
const frequencyTickText = ["20", "50", "100", "200", "500", "1k", "2k", "5k", "10k", "20k"];

export function acrossAxis(across: Across, range: readonly [number, number], panels: readonly Panel[]): Plain {
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
      dtick: 5,
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
    tickvals: across === "frequency" ? frequencyTicksHz : lowTicksHz,
    ticktext: across === "frequency" ? frequencyTickText : lowTicksHz.map(String),
    tickangle: 0,
    unifiedhovertitle: { text: "%{x:.4~r} Hz" },
    title: { text: "Frequency, Hz", standoff: 6 },
  };
}

function ticks({ range, step, highestTick }: Panel): Record<string, Plain> {
  if (highestTick === undefined) return { dtick: step, tick0: 0 };
  const count = Math.floor((highestTick - range[0]) / step) + 1;
  return { tickmode: "array", tickvals: Array.from({ length: count }, (_, index) => highestTick - index * step) };
}

export function panelAxis(panel: Panel, lower: number, upper: number): Plain {
  return {
    domain: [lower, upper],
    range: panel.range,
    ...ticks(panel),
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
