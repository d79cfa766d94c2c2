import type { MonitorResult } from "../../model.js";
import type { Figure, PlotLine } from "./figure.js";
import { stroke } from "./palette.js";
import { panelFigure } from "./panels.js";
import { positiveRange } from "./range.js";

type Positions = NonNullable<MonitorResult["positions"]>;

/** How far the level changes from place to place, by third octave. */
export function positionsFigure(monitors: readonly { readonly name: string; readonly positions: Positions }[]): Figure {
  const lines: PlotLine[] = monitors.map(({ name, positions: { bands } }, index) => ({
    label: name,
    stroke: stroke(index),
    x: bands.map((band) => band.nominalHz),
    y: bands.map((band) => band.spreadDb),
    marks: bands.map(() => true),
  }));
  return panelFigure({
    id: "plot-positions",
    description: "Spread of the level over the microphone places by third octave; the table below has the values.",
    across: "frequency",
    acrossRange: [20, 20_000],
    panels: [
      {
        title: "Spread over the places, dB",
        unit: "dB",
        heightPx: 190,
        lines,
        ...positiveRange(lines.flatMap((line) => line.y)),
      },
    ],
  });
}
