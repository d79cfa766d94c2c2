import type { MonitorResult } from "../../model.js";
import type { Figure, Panel, PlotLine } from "./figure.js";
import { depths, stroke } from "./palette.js";
import { panelFigure } from "./panels.js";
import { decibelRange, positiveRange } from "./range.js";

type Positions = NonNullable<MonitorResult["positions"]>;

interface Place {
  readonly name: string;
  readonly positions: Positions;
}

/** The mean over the places with its spread shaded, one panel a monitor; below, the spread alone by third octave. */
export function positionsFigure(monitors: readonly Place[]): Figure {
  return panelFigure({
    id: "plot-positions",
    description:
      "Mean level over the microphone places with its spread for each monitor, and the spread by third octave; the table below has the values.",
    across: "frequency",
    acrossRange: [20, 20_000],
    panels: [...monitors.map(meanPanel), spreadPanel(monitors)],
  });
}

/** Under its end a monitor falls by far more than the places differ. */
const SPAN_DB = [25, 35] as const;

function meanPanel({ name, positions: { response, spreadDb } }: Place, index: number): Panel {
  const { frequencyHz, levelDb } = response;
  const edge = (sign: 1 | -1): (number | null)[] =>
    levelDb.map((level, n) => {
      const spread = spreadDb[n] ?? null;
      return level === null || spread === null ? null : level + sign * spread;
    });
  const [lower, upper] = [edge(-1), edge(1)];
  return {
    title: `${name}: mean over the places, dB`,
    unit: "dB",
    heightPx: 180,
    lines: [{ label: "mean", stroke: { ...stroke(index), dash: "solid", widthPx: 1.2 }, x: frequencyHz, y: levelDb }],
    // Places within a head's reach lie close together: the usual tint would not be seen.
    bands: [{ x: frequencyHz, lower, upper, ofBands: false, colour: depths[2] }],
    ...decibelRange([...upper, ...levelDb, ...lower], SPAN_DB),
  };
}

function spreadPanel(monitors: readonly Place[]): Panel {
  const lines: PlotLine[] = monitors.map(({ name, positions: { bands } }, index) => ({
    label: name,
    stroke: stroke(index),
    x: bands.map((band) => band.nominalHz),
    y: bands.map((band) => band.spreadDb),
    marks: bands.map(() => true),
  }));
  return {
    title: "Spread over the places by third octave, dB",
    unit: "dB",
    heightPx: 150,
    lines,
    ...positiveRange(lines.flatMap((line) => line.y)),
  };
}
