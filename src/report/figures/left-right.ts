import type { Measurement, MonitorResult } from "../../model.js";
import { LEFT_RIGHT_MATCH } from "../../standards/bs1116.js";
import type { Figure, Panel, PlotLine } from "./figure.js";
import { limitStroke, stroke } from "./palette.js";
import { panelFigure } from "./panels.js";
import { decibelRange, differenceRange } from "./range.js";

type LeftRight = NonNullable<MonitorResult["leftRight"]>;

/** Left and right of one monitor, left minus right in third octaves, and what the two make of the centre. */
export function leftRightFigure(monitor: MonitorResult, left: Measurement, right: Measurement, name: string): Figure {
  const sides: PlotLine[] = [
    { label: "left", stroke: stroke(0), ...steady(left) },
    { label: "right", stroke: stroke(1), ...steady(right) },
  ];
  const { leftRight } = monitor;
  const panels: Panel[] = [
    {
      title: "Steady level, dB",
      unit: "dB",
      heightPx: 200,
      lines: sides,
      ...decibelRange(sides.flatMap((line) => line.y)),
    },
  ];
  if (leftRight) panels.push(differencePanel(leftRight));
  if (leftRight?.phantom && leftRight.phantom.length > 0) panels.push(phantomPanel(leftRight.phantom));
  return panelFigure({
    id: `plot-left-right-${monitor.id}`,
    description: `Left and right of ${name} over frequency, and their difference; the tables below have the values.`,
    across: "frequency",
    acrossRange: [20, 20_000],
    panels,
  });
}

function differencePanel({ bands }: LeftRight): Panel {
  const x = bands.map((band) => band.nominalHz);
  const edge = (sign: 1 | -1): (number | null)[] =>
    bands.map(({ differenceDb, uncertaintyDb }) =>
      differenceDb === null || uncertaintyDb === null ? null : differenceDb + sign * 2 * uncertaintyDb,
    );
  const difference: PlotLine = {
    label: "left − right",
    stroke: { ...stroke(0), widthPx: 1.6 },
    x,
    y: bands.map((band) => band.differenceDb),
    uncertainty: bands.map((band) => band.uncertaintyDb),
    marks: bands.map(() => true),
  };
  return {
    title: "Left minus right by third octave, dB",
    unit: "dB",
    heightPx: 135,
    lines: [difference],
    bands: [{ x, lower: edge(-1), upper: edge(1), ofBands: false }],
    limits: ([1, -1] as const).map(limitLine),
    baseline: 0,
    ...differenceRange(difference.y),
  };
}

function limitLine(sign: 1 | -1): PlotLine {
  const y = sign * LEFT_RIGHT_MATCH.mostDb;
  return { label: "limit", stroke: limitStroke, x: LEFT_RIGHT_MATCH.rangeHz, y: [y, y] };
}

function phantomPanel(phantom: NonNullable<LeftRight["phantom"]>): Panel {
  const x = phantom.map((band) => band.nominalHz);
  const uncertainty = phantom.map((band) => band.uncertaintyDb);
  const lines: PlotLine[] = [
    { label: "left", stroke: stroke(0), x, y: phantom.map((band) => band.againstLeftDb), uncertainty },
    { label: "right", stroke: stroke(1), x, y: phantom.map((band) => band.againstRightDb), uncertainty },
  ];
  return {
    title: "Centre against left and against right, dB",
    unit: "dB",
    heightPx: 120,
    lines,
    baseline: 0,
    ...differenceRange(lines.flatMap((line) => line.y)),
  };
}

function steady({ response }: Measurement): Pick<PlotLine, "x" | "y" | "uncertainty"> {
  return { x: response.frequencyHz, y: response.levelDb, uncertainty: response.uncertaintyDb };
}
