import type { MonitorResult } from "../../model.js";
import { bandLabel, fixed } from "../../words/numbers.js";
import type { Figure, Panel } from "./figure.js";
import { stroke } from "./palette.js";
import { panelFigure } from "./panels.js";
import { decibelRange } from "./range.js";

type Positions = NonNullable<MonitorResult["positions"]>;

/** Mean over places by third octave, one panel a monitor, the spread shaded. */
export function positionsFigure(monitors: readonly { readonly name: string; readonly positions: Positions }[]): Figure {
  const panels: Panel[] = monitors.map(({ name, positions: { bands } }) => {
    const x = bands.map((band) => band.nominalHz);
    const edge = (sign: 1 | -1): (number | null)[] =>
      bands.map(({ levelDb, spreadDb }) => (levelDb === null || spreadDb === null ? null : levelDb + sign * spreadDb));
    const lower = edge(-1);
    const upper = edge(1);
    return {
      title: `${name}: mean over places, dB`,
      unit: "dB",
      heightPx: 165,
      lines: [
        {
          label: "mean",
          stroke: { ...stroke(0), widthPx: 1.6 },
          x,
          y: bands.map((band) => band.levelDb),
          marks: bands.map(() => true),
          hover: bands.map(({ nominalHz, levelDb, spreadDb }) =>
            levelDb === null
              ? ""
              : `${bandLabel(nominalHz)} Hz: ${fixed(levelDb, 1)} dB, spread ${spreadDb === null ? "not known" : `${fixed(spreadDb, 1)} dB`}`,
          ),
        },
      ],
      bands: [{ x, lower, upper, ofBands: false }],
      ...decibelRange([...lower, ...upper, ...bands.map((band) => band.levelDb)]),
    };
  });
  return panelFigure({
    id: "plot-positions",
    description: "Mean level over the microphone places and its spread; the table below has the values.",
    across: "frequency",
    acrossRange: [20, 20_000],
    panels,
  });
}
