import type { Measurement } from "../../model.js";
import type { CsvCell } from "../csv.js";

/** One row for each thing that a measurement holds many of. */

type Row = readonly CsvCell[];

interface MeasurementTable {
  readonly name: string;
  readonly columns: readonly string[];
  readonly rows: (measurement: Measurement) => readonly Row[];
}

/** The columns that every table about measurements begins with. */
export const identity = ["measurement", "monitor", "channel", "position"];

export function identify({ id, monitor, channel, position }: Measurement): Row {
  return [id, monitor, channel, position];
}

const harmonics = ["2", "3", "4", "5"];

const measurementColumns = [
  "role",
  "takes",
  "derived",
  "levelReference",
  "inFileS",
  "timeS",
  "polarity",
  "validFromHz",
  "validToHz",
  "tMidS",
  "tmS",
  "reverberationMethod",
  "backgroundLevelReference",
  "backgroundAWeightedDb",
];

function measurementRow(m: Measurement): Row[] {
  const [from, to] = m.response.validHz ?? [null, null];
  const { inFileS, timeS, polarity } = m.arrival;
  const { tMidS, tmS, method } = m.reverberation;
  const background = [m.background?.levelReference ?? null, m.background?.aWeightedDb ?? null];
  return [
    [
      m.role,
      m.takes,
      m.derived,
      m.levelReference,
      inFileS,
      timeS,
      polarity,
      from,
      to,
      tMidS,
      tmS,
      method,
      ...background,
    ],
  ];
}

const qualityColumns = [
  "usable",
  "peakDbfs",
  "clippedSamples",
  "clockDriftPpm",
  "clockDriftUncertaintyPpm",
  "clockDriftCorrected",
  "signalToNoiseDb",
  "repeatabilityDb",
] as const;
const residualColumns = ["medianExcessDb", "worstExcessDb", "worstAtS", "worstBandHz"] as const;

function qualityRow({ quality }: Measurement): Row[] {
  const { residual } = quality;
  return [
    [
      ...qualityColumns.map((column) => quality[column]),
      ...residualColumns.map((column) => residual?.[column] ?? null),
    ],
  ];
}

const responseColumns = [
  "frequencyHz",
  "levelDb",
  "toneDb",
  "directDb",
  "phaseDeg",
  "groupDelayS",
  "uncertaintyDb",
] as const;

function responseRows({ response }: Measurement): Row[] {
  return response.frequencyHz.map((_, index) => responseColumns.map((column) => response[column][index] ?? null));
}

const bandColumns = [
  "fraction",
  "nominalHz",
  "exactHz",
  "levelDb",
  "noiseDb",
  "edtS",
  "t20S",
  "t30S",
  "lateS",
  "c50Db",
  "c80Db",
  "d50",
  "tsS",
  "decayRangeDb",
  "nonLinearityPerMille",
  "curvaturePercent",
  "decayUncertaintyS",
  "lateUncertaintyS",
] as const;

function bandRows({ bands }: Measurement): Row[] {
  return bands.map((band) => [...bandColumns.map((column) => band[column]), band.flags.join("; ")]);
}

const reflectionColumns = [
  "delayS",
  "pathDifferenceM",
  "levelDb",
  "levelUncertaintyDb",
  "polarity",
  "firstNotchHz",
  "close",
] as const;

function reflectionRows({ reflections }: Measurement): Row[] {
  return reflections.map((reflection, index) => [index + 1, ...reflectionColumns.map((column) => reflection[column])]);
}

const modeColumns = ["frequencyHz", "t60S", "levelDb"] as const;

function modeRows({ modes }: Measurement): Row[] {
  return modes.map((mode) => modeColumns.map((column) => mode[column]));
}

const distortionColumns = ["frequencyHz", ...harmonics.map((order) => `harmonic${order}Db`), "thdPercent"];

function distortionRows({ distortion }: Measurement): Row[] {
  if (!distortion) return [];
  return distortion.frequencyHz.map((frequencyHz, index) => [
    frequencyHz,
    ...harmonics.map((order) => distortion.harmonicsDb[order]?.[index] ?? null),
    distortion.thdPercent[index] ?? null,
  ]);
}

function backgroundRows({ background }: Measurement): Row[] {
  return (background?.bands ?? []).map((band) => [background!.levelReference, band.nominalHz, band.levelDb]);
}

export const measurementTables: readonly MeasurementTable[] = [
  { name: "measurements", columns: measurementColumns, rows: measurementRow },
  { name: "quality", columns: [...qualityColumns, ...residualColumns], rows: qualityRow },
  { name: "response", columns: responseColumns, rows: responseRows },
  { name: "bands", columns: [...bandColumns, "flags"], rows: bandRows },
  { name: "reflections", columns: ["number", ...reflectionColumns], rows: reflectionRows },
  { name: "modes", columns: modeColumns, rows: modeRows },
  { name: "distortion", columns: distortionColumns, rows: distortionRows },
  { name: "background", columns: ["levelReference", "nominalHz", "levelDb"], rows: backgroundRows },
];
