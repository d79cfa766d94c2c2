import type { Measurement, MonitorResult } from "../../model.js";
import type { Figure, PlotLine } from "./figure.js";
import { stroke } from "./palette.js";
import { panelFigure } from "./panels.js";
import { decibelRange, differenceRange } from "./range.js";

/** Left and right of one monitor, and left minus right in third octaves below. */
export function leftRightFigure(monitor: MonitorResult, left: Measurement, right: Measurement, name: string): Figure {
  const sides: PlotLine[] = [
    { label: "left", stroke: stroke(0), ...steady(left) },
    { label: "right", stroke: stroke(1), ...steady(right) },
  ];
  const bands = monitor.leftRight?.bands ?? [];
  const difference: PlotLine = {
    label: "left − right",
    stroke: stroke(0),
    x: bands.map((band) => band.nominalHz),
    y: bands.map((band) => band.differenceDb),
    marks: bands.map(() => true),
  };
  return panelFigure({
    id: `plot-left-right-${monitor.id}`,
    description: `Left and right of ${name} over frequency, and their difference; the table below has the values.`,
    across: "frequency",
    acrossRange: [20, 20_000],
    panels: [
      {
        title: "Steady, dB",
        unit: "dB",
        heightPx: 220,
        lines: sides,
        ...decibelRange(sides.flatMap((line) => line.y)),
      },
      {
        title: "Left minus right, third octaves, dB",
        unit: "dB",
        heightPx: 120,
        lines: [difference],
        baseline: 0,
        ...differenceRange(difference.y),
      },
    ],
  });
}

function steady({ response }: Measurement): Pick<PlotLine, "x" | "y" | "uncertainty"> {
  return { x: response.frequencyHz, y: response.levelDb, uncertainty: response.uncertaintyDb };
}
