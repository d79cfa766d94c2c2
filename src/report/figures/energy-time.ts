import type { EnergyTime, Measurement, Reflection } from "../../model.js";
import { EARLY_REFLECTIONS } from "../../standards/bs1116.js";
import { capital, fixed, signed } from "../../words/numbers.js";
import type { Figure, Panel, PlotLine, PlotName, PlotPoint } from "./figure.js";
import { limitStroke, stroke } from "./palette.js";
import { panelFigure } from "./panels.js";
import { placeNames } from "./place-names.js";

const fromS = -0.002;
const toS = 0.03;
const mostPoints = 1600;
const mostNames = 6;
const rangeDb = [-40, 21] as const;
/** Where names stand, above the direct sound's 0 dB. */
const rowsDb = [3, 7.5, 12, 16.5];
/** Widths of a letter over the width of the axis: on a page of 640 px, and on a telephone. */
const letterShare = { wide: 6.2 / 560, narrow: 5.9 / 300 };

/** Energy over time after the direct sound, one panel a channel, with the strongest reflections named. */
export function energyTimeFigure(
  id: string,
  name: string,
  channels: readonly { readonly label: string; readonly measurement: Measurement; readonly curve: EnergyTime }[],
): Figure {
  const panels: Panel[] = channels.map(({ label, measurement, curve }) => {
    const shown = measurement.reflections.filter(({ delayS }) => delayS < toS);
    const strong = shown.toSorted((a, b) => b.levelDb - a.levelDb).slice(0, mostNames);
    return {
      title: `${capital(label)}, dB re the direct sound`,
      unit: "dB",
      heightPx: 240,
      range: rangeDb,
      step: 10,
      highestTick: 0,
      lines: [{ label, stroke: { ...stroke(0), widthPx: 1.2 }, ...peaks(curve) }],
      limits: [limitLine],
      points: shown.map((reflection) => point(reflection, strong.includes(reflection))),
      names: namesOf(strong),
    };
  });
  return panelFigure({
    id: `plot-energy-time-${id}`,
    description: `Energy over time of ${name} with its early reflections; the tables below list them.`,
    across: "delay",
    acrossRange: [1000 * fromS, 1000 * toS],
    panels,
  });
}

const limitLine: PlotLine = {
  label: "limit",
  stroke: limitStroke,
  x: [0, 1000 * EARLY_REFLECTIONS.untilS],
  y: [EARLY_REFLECTIONS.mostDb, EARLY_REFLECTIONS.mostDb],
};

/** How a reflection is called in plots and sentences: by how late it comes and how much longer its way is. */
function reflectionName({ delayS, pathDifferenceM }: Reflection): string {
  return `${fixed(1000 * delayS, 1)} ms, ${fixed(pathDifferenceM, 2)} m`;
}

/** @param strong - the strongest first */
function namesOf(strong: readonly Reflection[]): PlotName[] {
  const wanted = strong.map((reflection) => ({
    text: reflectionName(reflection),
    x: 1000 * reflection.delayS,
    y: reflection.levelDb + 1.5,
  }));
  const range = [1000 * fromS, 1000 * toS] as const;
  return (["wide", "narrow"] as const).flatMap((page) =>
    placeNames(wanted, rowsDb, range, letterShare[page] * (range[1] - range[0]), page),
  );
}

function point(reflection: Reflection, large: boolean): PlotPoint {
  const way = reflection.polarity === 1 ? ("triangle-up" as const) : ("triangle-down" as const);
  return {
    x: 1000 * reflection.delayS,
    y: reflection.levelDb,
    hover: `${reflectionName(reflection)}, ${signed(reflection.levelDb, 1)} dB`,
    symbol: reflection.close ? `${way}-open` : way,
    large,
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
