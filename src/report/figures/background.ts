import type { Background } from "../../model.js";
import type { Figure, PlotLine } from "./figure.js";
import { limitStroke, stroke } from "./palette.js";
import { panelFigure } from "./panels.js";
import { decibelRange } from "./range.js";

/** A curve that noise is rated by. */
export interface RatingCurve {
  readonly name: string;
  readonly bands: readonly { readonly nominalHz: number; readonly levelDb: number }[];
}

/** Noise of the silent lead by octave, with rating curves where it is a sound pressure level. */
export function backgroundFigure(
  unit: string,
  recordings: readonly { readonly label: string; readonly background: Background }[],
  ratings: readonly RatingCurve[],
): Figure {
  const lines: PlotLine[] = recordings.map(({ label, background }, index) => ({
    label,
    stroke: stroke(index),
    x: background.bands.map((band) => band.nominalHz),
    y: background.bands.map((band) => band.levelDb),
    marks: background.bands.map(() => true),
  }));
  const curves: PlotLine[] = ratings.map(({ name, bands }) => ({
    label: name,
    stroke: limitStroke,
    x: bands.map((band) => band.nominalHz),
    y: bands.map((band) => band.levelDb),
  }));
  const all = [...lines, ...curves];
  return panelFigure({
    id: "plot-background",
    description: "Background noise by octave; the table below has the values.",
    across: "frequency",
    acrossRange: [20, 20_000],
    panels: [
      {
        title: `Octave levels, ${unit}`,
        unit: "dB",
        heightPx: 230,
        lines: all,
        // Rating curves rise steeply to the left, and quiet noise lies far below that.
        ...decibelRange(
          all.flatMap((line) => line.y),
          [30, 100],
        ),
      },
    ],
  });
}
