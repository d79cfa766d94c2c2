import type { EnergyTime, Measurement, Reflection } from "../../model.js";
import { capital, fixed, signed } from "../words/numbers.js";
import { strongest } from "../words/reflections.js";
import type { Figure, Panel, PlotPoint } from "./figure.js";
import { stroke } from "./palette.js";
import { panelFigure } from "./panels.js";

const fromS = -0.002;
const toS = 0.05;
const mostPoints = 1600;
const floorDb = -45;

/** Energy over time after the direct sound, one panel a channel, with the listed reflections numbered. */
export function energyTimeFigure(
  id: string,
  name: string,
  channels: readonly { readonly label: string; readonly measurement: Measurement; readonly curve: EnergyTime }[],
): Figure {
  const panels: Panel[] = channels.map(({ label, measurement, curve }) => ({
    title: `${capital(label)}, dB re the direct sound`,
    unit: "dB",
    heightPx: 190,
    range: [floorDb, 5],
    step: 10,
    lines: [{ label, stroke: { ...stroke(0), widthPx: 1.2 }, ...peaks(curve) }],
    points: pointsOf(measurement.reflections),
  }));
  return panelFigure({
    id: `plot-energy-time-${id}`,
    description: `Energy over time of ${name} with its early reflections; the table below lists them.`,
    across: "delay",
    acrossRange: [1000 * fromS, 1000 * toS],
    panels,
  });
}

/** All of them marked, the strongest with their numbers. */
function pointsOf(reflections: readonly Reflection[]): PlotPoint[] {
  const named = strongest(reflections);
  return reflections.map((reflection, index) => {
    const place = named.indexOf(index);
    return point(reflection, place < 0 ? "" : String(place + 1));
  });
}

function point(reflection: Reflection, text: string): PlotPoint {
  const way = reflection.polarity === 1 ? ("triangle-up" as const) : ("triangle-down" as const);
  return {
    x: 1000 * reflection.delayS,
    y: reflection.levelDb,
    text,
    hover: `${fixed(1000 * reflection.delayS, 2)} ms, ${signed(reflection.levelDb, 1)} dB`,
    symbol: reflection.close ? `${way}-open` : way,
  };
}

/** The curve's shown part, thinned to the highest of each few points so that no peak is lost. */
function peaks(curve: EnergyTime): { x: number[]; y: (number | null)[] } {
  const first = Math.max(0, Math.ceil((fromS - curve.startS) / curve.stepS));
  const last = Math.min(curve.levelDb.length - 1, Math.floor((toS - curve.startS) / curve.stepS));
  const stride = Math.max(1, Math.ceil((last - first + 1) / mostPoints));
  const x: number[] = [];
  const y: (number | null)[] = [];
  for (let start = first; start <= last; start += stride) {
    let best = start;
    for (let index = start; index < Math.min(start + stride, last + 1); index++) {
      if ((curve.levelDb[index] ?? -Infinity) > (curve.levelDb[best] ?? -Infinity)) best = index;
    }
    x.push(1000 * (curve.startS + best * curve.stepS));
    y.push(curve.levelDb[best] ?? null);
  }
  return { x, y };
}
