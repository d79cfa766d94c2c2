import type { BandMetrics, Measurement } from "../../model.js";
import { roomDecay } from "../../schema/room-decay.js";
import { flagWords } from "../words/flags.js";
import { bandLabel, withUncertainty } from "../../words/numbers.js";
import type { Figure, PlotBand, PlotLine } from "./figure.js";
import { stroke } from "./palette.js";
import { panelFigure } from "./panels.js";
import { positiveRange } from "./range.js";

/** Shortest and longest recommended decay by third octave. */
export interface DecayMask {
  readonly bands: readonly {
    readonly nominalHz: number;
    readonly lowerS: number | null;
    readonly upperS: number | null;
  }[];
}

/**
 * Reverberation time by third octave, one panel a monitor; hollow where something limits the figure.
 *
 * @param mask - shaded where it is known
 */
export function decayFigure(
  groups: readonly { readonly name: string; readonly lines: readonly { label: string; measurement: Measurement }[] }[],
  mask: DecayMask | null,
): Figure {
  const drawn = groups.map(({ name, lines }) => ({
    name,
    lines: lines.map(({ label, measurement }, index) => decayLine(label, measurement, index)),
  }));
  const axis = positiveRange(drawn.flatMap(({ lines }) => lines.flatMap((line) => line.y)));
  return panelFigure({
    id: "plot-decay",
    description: "Decay time by third octave for each monitor; the tables below have the values.",
    across: "frequency",
    acrossRange: [20, 20_000],
    panels: drawn.map(({ name, lines }) => ({
      title: `${name}: decay time, s`,
      unit: "s",
      decimals: 2,
      heightPx: 170,
      lines,
      ...(mask ? { bands: [maskBand(mask)] } : {}),
      ...axis,
    })),
  });
}

function maskBand({ bands }: DecayMask): PlotBand {
  return {
    x: bands.map((band) => band.nominalHz),
    lower: bands.map((band) => band.lowerS),
    upper: bands.map((band) => band.upperS),
    ofBands: true,
  };
}

/** The one time that stands for a band, with the name that people read. */
export function decayTime(
  band: BandMetrics,
): { readonly name: "T30" | "T20" | "late decay"; readonly valueS: number } | null {
  const decay = roomDecay(band);
  return decay && { name: decay.evaluation === "late" ? "late decay" : decay.evaluation, valueS: decay.timeS };
}

function uncertaintyS(band: BandMetrics): number | null {
  return roomDecay(band)?.uncertaintyS ?? null;
}

function decayLine(label: string, measurement: Measurement, index: number): PlotLine {
  const bands = measurement.bands.filter((band) => band.fraction === 3);
  return {
    label,
    stroke: stroke(index),
    x: bands.map((band) => band.exactHz),
    y: bands.map((band) => decayTime(band)?.valueS ?? null),
    marks: bands.map((band) => band.flags.length === 0),
    bars: bands.map((band) => {
      const standardS = uncertaintyS(band);
      return standardS === null ? null : 2 * standardS;
    }),
    hover: bands.map((band) => {
      const time = decayTime(band);
      const limits = band.flags.length > 0 ? ` (${band.flags.map(flagWords).join("; ")})` : "";
      if (!time) return "";
      return `${bandLabel(band.nominalHz)} Hz: ${time.name} ${withUncertainty(time.valueS, uncertaintyS(band), 2)} s${limits}`;
    }),
  };
}
