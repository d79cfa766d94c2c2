import type { Background } from "../../model.js";
import type { Figure } from "./figure.js";
import { stroke } from "./palette.js";
import { panelFigure } from "./panels.js";
import { decibelRange } from "./range.js";

/** Noise of the silent lead by octave. */
export function backgroundFigure(
  unit: string,
  recordings: readonly { readonly label: string; readonly background: Background }[],
): Figure {
  const lines = recordings.map(({ label, background }, index) => ({
    label,
    stroke: stroke(index),
    x: background.bands.map((band) => band.nominalHz),
    y: background.bands.map((band) => band.levelDb),
    marks: background.bands.map(() => true),
  }));
  return panelFigure({
    id: "plot-background",
    description: "Background noise by octave; the table below has the values.",
    across: "frequency",
    acrossRange: [20, 20_000],
    panels: [
      { title: `Octave levels, ${unit}`, unit: "dB", heightPx: 180, lines, ...decibelRange(lines.flatMap((l) => l.y)) },
    ],
  });
}
