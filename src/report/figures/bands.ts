import type { Panel, Plain, PlotBand } from "./figure.js";
import { tint } from "./palette.js";
import { round } from "./round.js";

/** Half a third octave, as a ratio. */
const halfBand = 10 ** 0.05;

/** A shaded band as one trace: a closed outline for each run in which it is known, with gaps between them. */
export function bandTrace(band: PlotBand, panel: Panel, suffix: string): Plain {
  const x: (number | null)[] = [];
  const y: (number | null)[] = [];
  for (const run of runs(band)) {
    const upper = outline(band, run, (at) => band.upper[at] ?? panel.range[1]);
    const lower = outline(band, run, (at) => band.lower[at] ?? panel.range[0]).reverse();
    const around = [...upper, ...lower, upper[0]!];
    x.push(...around.map(([across]) => round(across, 5)), null);
    y.push(...around.map(([, up]) => Number(up.toFixed(3))), null);
  }
  return {
    type: "scatter",
    mode: "lines",
    name: "band",
    x,
    y,
    xaxis: "x",
    yaxis: `y${suffix}`,
    fill: "toself",
    fillcolor: band.colour ?? tint,
    line: { width: 0 },
    hoverinfo: "skip",
  };
}

function runs({ x, lower, upper }: PlotBand): number[][] {
  const found: number[][] = [];
  let open = false;
  x.forEach((_, index) => {
    const known = (lower[index] ?? null) !== null || (upper[index] ?? null) !== null;
    if (known && open) found.at(-1)!.push(index);
    else if (known) found.push([index]);
    open = known;
  });
  return found;
}

function outline(
  { x, ofBands }: PlotBand,
  run: readonly number[],
  edge: (index: number) => number,
): [number, number][] {
  const first = run[0]!;
  const last = run.at(-1)!;
  const inner = run.map((index): [number, number] => [x[index]!, edge(index)]);
  return ofBands ? [[x[first]! / halfBand, edge(first)], ...inner, [x[last]! * halfBand, edge(last)]] : inner;
}
