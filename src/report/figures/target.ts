import type { MonitorResult, TargetResult } from "../../model.js";
import { bandLabel, signed, withUncertainty } from "../../words/numbers.js";
import type { Figure, Panel, PlotLine } from "./figure.js";
import { stroke } from "./palette.js";
import { panelFigure } from "./panels.js";
import { differenceRange } from "./range.js";

type Band = TargetResult["bands"][number];

/** Measured minus target by third octave, one panel a monitor, the tolerance shaded. */
export function targetFigure(
  monitors: readonly { readonly name: string; readonly target: NonNullable<MonitorResult["target"]> }[],
): Figure {
  const axis = differenceRange(monitors.flatMap(({ target }) => target.bands.map((band) => shown(band.deviationDb))));
  const panels: Panel[] = monitors.map(({ name, target }) => ({
    // A long id would reach beyond a narrow plot.
    title: `${name} against ${target.id.length <= 12 ? `“${target.id}”` : "its target"}, dB`,
    unit: "dB",
    heightPx: 165,
    lines: [deviationLine(target.bands)],
    bands: [
      {
        x: target.bands.map((band) => band.nominalHz),
        lower: target.bands.map((band) => band.lowerDb),
        upper: target.bands.map((band) => band.upperDb),
        ofBands: true,
      },
    ],
    baseline: 0,
    ...axis,
  }));
  return panelFigure({
    id: "plot-target",
    description: "Measured level minus target by third octave for each monitor; the table below has the values.",
    across: "frequency",
    acrossRange: [20, 20_000],
    panels,
  });
}

/** Below its end a monitor leaves any target by far; what counts is near the tolerance. */
function shown(deviationDb: number | null): number | null {
  return deviationDb === null ? null : Math.min(10, Math.max(-10, deviationDb));
}

function deviationLine(bands: readonly Band[]): PlotLine {
  return {
    label: "measured − target",
    stroke: { ...stroke(0), widthPx: 1.4 },
    x: bands.map((band) => band.nominalHz),
    y: bands.map((band) => band.deviationDb),
    marks: bands.map(() => true),
    symbols: bands.map((band) => {
      const side = outside(band);
      return side === null ? "circle" : side;
    }),
    bars: bands.map(({ uncertaintyDb }) => (uncertaintyDb === null ? null : 2 * uncertaintyDb)),
    hover: bands.map((band) => {
      if (band.deviationDb === null) return "";
      const value = `${bandLabel(band.nominalHz)} Hz: ${withUncertainty(band.deviationDb, band.uncertaintyDb, 1)} dB`;
      const limits = [band.lowerDb, band.upperDb].map((limit) => (limit === null ? "open" : signed(limit, 1)));
      return limits.every((limit) => limit === "open") ? value : `${value} (tolerance ${limits.join(" to ")} dB)`;
    }),
  };
}

/** A mark that points away from the tolerance, for a band that has left it. */
function outside({ deviationDb, lowerDb, upperDb }: Band): "triangle-up" | "triangle-down" | null {
  if (deviationDb === null) return null;
  if (upperDb !== null && deviationDb > upperDb) return "triangle-up";
  return lowerDb !== null && deviationDb < lowerDb ? "triangle-down" : null;
}
