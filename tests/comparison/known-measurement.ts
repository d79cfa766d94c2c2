import type { BandMetrics, Measurement } from "../../src/model.js";
import { type Band, bandsWithin } from "../../src/standards/iec61260.js";

type BandParts = Partial<BandMetrics>;
type Parts = Omit<Partial<Measurement>, "bands"> & { bands?: (band: Band) => BandParts };

/** A measurement of which nothing is known but what is stated: octaves and third octaves from 25 Hz to 16 kHz. */
export function knownMeasurement({ bands, ...parts }: Parts = {}): Measurement {
  return {
    id: "mains-L@mix",
    monitor: "mains",
    role: "main",
    channel: "L",
    position: "mix",
    takes: 1,
    derived: false,
    levelReference: "transfer",
    quality: {
      usable: true,
      peakDbfs: null,
      clippedSamples: 0,
      clockDriftPpm: null,
      clockDriftUncertaintyPpm: null,
      clockDriftCorrected: false,
      signalToNoiseDb: null,
      repeatabilityDb: null,
      residual: null,
      findings: [],
    },
    arrival: { inFileS: null, timeS: null, polarity: 1 },
    response: {
      frequencyHz: [],
      levelDb: [],
      toneDb: [],
      directDb: [],
      phaseDeg: [],
      groupDelayS: [],
      uncertaintyDb: [],
      validHz: null,
    },
    reverberation: { tMidS: null, tmS: null, method: "none" },
    energyTime: null,
    reflections: [],
    modes: [],
    distortion: null,
    background: null,
    ...parts,
    bands: allBands.map((band) => ({ ...unknownBand, ...band, ...bands?.(band) })),
  };
}

const allBands = bandsWithin(22, 18_000);

const unknownBand = {
  levelDb: null,
  levelUncertaintyDb: null,
  noiseDb: null,
  edtS: null,
  t20S: null,
  t30S: null,
  lateS: null,
  c50Db: null,
  c80Db: null,
  d50: null,
  tsS: null,
  decayRangeDb: null,
  nonLinearityPerMille: null,
  curvaturePercent: null,
  decayUncertaintyS: null,
  lateUncertaintyS: null,
  flags: [],
};
