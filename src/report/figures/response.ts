import type { Results } from "../../model.js";
import { shortMonitorName } from "../words/names.js";
import type { Figure, Panel, PlotLine } from "./figure.js";
import { stroke } from "./palette.js";
import { panelFigure } from "./panels.js";
import { decibelRange } from "./range.js";

/**
 * Every monitor's response at the mix position, steady state above, tone window below.
 *
 * @param shiftDb - what is added to each monitor's level so that shapes lie on each other
 * @param shadedHz - ranges where one monitor shows what another hides
 */
export function responseFigure(
  results: Results,
  shiftDb: ReadonlyMap<string, number>,
  shadedHz: readonly (readonly [number, number])[],
): Figure {
  const panels: Panel[] = [
    { title: "Steady level: all the sound there is, dB", curve: "levelDb" as const },
    { title: "Tone: what is heard as colour, dB", curve: "toneDb" as const },
  ].map(({ title, curve }) => {
    const lines = results.monitors.flatMap((monitor, index) => {
      if (!monitor.response) return [];
      const shift = shiftDb.get(monitor.id) ?? 0;
      const y = monitor.response[curve].map((level) => (level === null ? null : level + shift));
      const label = shortMonitorName(results, monitor.id);
      const line: PlotLine = { label, stroke: stroke(index), x: monitor.response.frequencyHz, y };
      // The uncertainty that is known is the steady curve's.
      return [curve === "levelDb" ? { ...line, uncertainty: monitor.response.uncertaintyDb } : line];
    });
    const bands = shadedHz.map((x) => ({ x, lower: [null, null], upper: [1000, 1000], ofBands: false }));
    return {
      title,
      unit: "dB",
      heightPx: 240,
      lines,
      bands: curve === "levelDb" ? bands : [],
      ...decibelRange(lines.flatMap((line) => line.y)),
    };
  });
  return panelFigure({
    id: "plot-response",
    description: "Level over frequency of all monitors at the mix position; the table below has the values.",
    across: "frequency",
    acrossRange: [20, 20_000],
    panels,
  });
}
