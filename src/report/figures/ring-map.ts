import type { MeasuredMode, RingMap } from "../../model.js";
import { audibleModeS } from "../../standards/modal-decay.js";
import { fixed, hertz, withUncertainty } from "../../words/numbers.js";
import type { Figure, KeyEntry, Panel, PlotBand, PlotLine, PlotPoint } from "./figure.js";
import { depths, limitStroke, stroke } from "./palette.js";
import { panelFigure } from "./panels.js";
import { positiveRange } from "./range.js";

/** The fall that is held against what stays unheard: half of the 60 dB that decay times are told by. */
export const HELD_DB = 30;

/**
 * How long the sound of each low frequency lasts, one panel a monitor: time down, the darker the less it has fallen, and a line
 * from which on it is heard.
 */
export function ringMapFigure(
  maps: readonly { readonly name: string; readonly map: RingMap; readonly modes: readonly MeasuredMode[] }[],
): Figure {
  const limit = limitLine();
  const times = maps.flatMap(({ map }) => map.falls.flatMap(({ timeS }) => timeS));
  const { range, step } = positiveRange([...times, ...limit.y]);
  const hz = maps.flatMap(({ map }) => map.frequencyHz);
  const figure = panelFigure({
    id: "plot-ring-map",
    description:
      "Time in which the sound of each low frequency falls, for each monitor; the table of modes has the figures.",
    across: "low frequency",
    acrossRange: [Math.min(...hz), Math.max(...hz)],
    panels: maps.map(({ name, map, modes }): Panel => ({
      title: `${name}: time after the sound has stopped, s`,
      unit: "s",
      decimals: 2,
      heightPx: 230,
      range: [range[1], range[0]],
      step,
      bands: shades(map),
      lines: [],
      limits: [edge(map), limit],
      points: modes.flatMap(point),
    })),
  });
  return { ...figure, key: keyOf(maps.flatMap(({ map }) => map.falls.map(({ byDb }) => byDb))), keyAlways: true };
}

function limitLine(): PlotLine & { readonly y: readonly number[] } {
  const points = Array.from({ length: 45 }, (_, k) => 20 * 2 ** (k / 12)).flatMap((frequencyHz) => {
    const timeS = audibleModeS(frequencyHz);
    return timeS === null ? [] : [{ frequencyHz, timeS: (timeS * HELD_DB) / 60 }];
  });
  return {
    label: "limit",
    stroke: limit,
    x: points.map(({ frequencyHz }) => frequencyHz),
    y: points.map(({ timeS }) => timeS),
    hover: points.map(({ frequencyHz, timeS }) => `${hertz(frequencyHz)}: up to ${fixed(timeS, 2)} s stays unheard`),
  };
}

const limit = { ...limitStroke, widthPx: 2 };
const heldEdge = { ...stroke(0), widthPx: 1.8 };

function edge({ frequencyHz, falls }: RingMap): PlotLine {
  const held = falls.find(({ byDb }) => byDb === HELD_DB)?.timeS ?? frequencyHz.map(() => null);
  return {
    label: "fallen",
    stroke: heldEdge,
    x: frequencyHz,
    y: held,
    hover: held.map((timeS) => (timeS === null ? "" : `${HELD_DB} dB down after ${fixed(timeS, 2)} s`)),
  };
}

/** From each fall to the next; a gap where the sound is lost in noise first. */
function shades({ frequencyHz, falls }: RingMap): PlotBand[] {
  return falls.map(({ timeS }, k) => {
    const before = falls[k - 1]?.timeS ?? frequencyHz.map(() => 0);
    const isKnown = (column: number): boolean => timeS[column] != null && before[column] != null;
    return {
      x: frequencyHz,
      lower: frequencyHz.map((_, column) => (isKnown(column) ? before[column]! : null)),
      upper: frequencyHz.map((_, column) => (isKnown(column) ? timeS[column]! : null)),
      ofBands: false,
      colour: shadeOf(k),
    };
  });
}

function shadeOf(depth: number): string {
  return depths[Math.min(depth, depths.length - 1)]!;
}

/** A mode stands where it alone would have fallen so far. */
function point({ kind, frequencyHz, t60S, t60UncertaintyS, audible }: MeasuredMode): PlotPoint[] {
  if (kind !== "mode" || t60S === null) return [];
  const heard = audible === true ? ", heard" : "";
  return [
    {
      x: frequencyHz,
      y: (t60S * HELD_DB) / 60,
      hover: `mode at ${hertz(frequencyHz)}: ${withUncertainty(t60S, t60UncertaintyS, 2)} s to fall by 60 dB${heard}`,
      symbol: "circle",
      large: audible === true,
    },
  ];
}

function keyOf(fallsDb: readonly number[]): KeyEntry[] {
  const steps = [...new Set(fallsDb)].sort((a, b) => a - b);
  const line = { dashArray: "none", dot: "" as const };
  return [
    ...steps.map((byDb, k) => ({
      ...line,
      label: k === 0 ? `down by less than ${byDb} dB` : `${steps[k - 1]} to ${byDb} dB`,
      colour: shadeOf(k),
      widthPx: 8,
    })),
    { ...line, label: `down by ${HELD_DB} dB`, colour: heldEdge.colour, widthPx: heldEdge.widthPx },
    {
      label: `longest that stays unheard, to ${HELD_DB} dB down`,
      colour: limit.colour,
      widthPx: limit.widthPx,
      dashArray: limit.dash.replaceAll("px", ""),
      dot: "",
    },
    { ...line, label: "a mode of its own", colour: limit.colour, widthPx: 1, dot: "solid" },
  ];
}
