import type { Distortion } from "../../model.js";
import { capital } from "../../words/numbers.js";
import type { Figure, Panel } from "./figure.js";
import { stroke } from "./palette.js";
import { panelFigure } from "./panels.js";
import { decibelRange } from "./range.js";

/** Harmonics two to five over the exciting frequency, one panel a channel. */
export function distortionFigure(
  id: string,
  name: string,
  channels: readonly { readonly label: string; readonly distortion: Distortion }[],
): Figure {
  const axis = decibelRange(
    channels.flatMap(({ distortion }) => Object.values(distortion.harmonicsDb).flat()),
    [40, 80],
  );
  const panels: Panel[] = channels.map(({ label, distortion }) => ({
    title: `${capital(label)}: harmonics, dB re the fundamental`,
    unit: "dB",
    heightPx: 190,
    lines: Object.entries(distortion.harmonicsDb).map(([order, y], index) => ({
      label: harmonicName(order),
      stroke: stroke(index),
      x: distortion.frequencyHz,
      y,
    })),
    ...axis,
  }));
  return panelFigure({
    id: `plot-distortion-${id}`,
    description: `Harmonics of ${name} over the exciting frequency; the table below has total harmonic distortion.`,
    across: "frequency",
    acrossRange: [20, 20_000],
    panels,
  });
}

export function harmonicName(order: string): string {
  return { "2": "2nd", "3": "3rd" }[order] ?? `${order}th`;
}
