import type { BandMetrics, Measurement, MonitorResult } from "../../src/model.js";
import { BANDS } from "../../src/translation/bands.js";
import type { Evidence } from "../../src/translation/trust/rules.js";
import { zeros } from "./known-curves.js";

/** A monitor about which there is nothing to say, and measurements of it. */

export function band(nominalHz: number, parts: Partial<BandMetrics> = {}): BandMetrics {
  const { exactHz } = BANDS.find((one) => one.nominalHz === nominalHz)!;
  return {
    fraction: 3,
    nominalHz,
    exactHz,
    levelDb: 0,
    levelUncertaintyDb: 0.1,
    noiseDb: -70,
    edtS: 0.2,
    t20S: 0.2,
    t30S: 0.2,
    lateS: null,
    lateUncertaintyS: null,
    c50Db: null,
    c80Db: null,
    d50: null,
    tsS: null,
    decayRangeDb: 60,
    nonLinearityPerMille: 2,
    curvaturePercent: 2,
    decayUncertaintyS: 0.01,
    flags: [],
    ...parts,
  };
}

export function measurement(parts: Partial<Measurement> = {}): Measurement {
  const empty: number[] = [];
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
      peakDbfs: -6,
      clippedSamples: 0,
      clockDriftPpm: null,
      clockDriftUncertaintyPpm: null,
      clockDriftCorrected: false,
      signalToNoiseDb: 60,
      repeatabilityDb: null,
      residual: null,
      findings: [],
    },
    arrival: { inFileS: 1, timeS: null, polarity: 1 },
    response: {
      frequencyHz: empty,
      levelDb: empty,
      toneDb: empty,
      directDb: empty,
      phaseDeg: empty,
      groupDelayS: empty,
      uncertaintyDb: empty,
      validHz: null,
    },
    bands: BANDS.map(({ nominalHz }) => band(nominalHz)),
    reverberation: { tMidS: null, tmS: null, method: "" },
    energyTime: null,
    reflections: [],
    modes: [],
    distortion: { frequencyHz: [50, 100, 1000], harmonicsDb: {}, thdPercent: [1, 1, 1] },
    background: null,
    ...parts,
  };
}

export function monitorResult(parts: Partial<MonitorResult> = {}): MonitorResult {
  return {
    id: "mains",
    name: null,
    role: "main",
    channels: ["L", "R"],
    response: null,
    responseReason: null,
    positions: null,
    extension: null,
    leftRight: {
      levelDb: 0,
      levelUncertaintyDb: 0.1,
      arrivalS: null,
      arrivalUncertaintyS: null,
      includesGain: false,
      samePolarity: true,
      bands: BANDS.map(({ nominalHz }) => ({ nominalHz, differenceDb: 0, uncertaintyDb: 0.1 })),
      oneSided: [],
      phantom: null,
    },
    leftRightReason: null,
    target: null,
    targetReason: null,
    checks: [],
    ...parts,
  };
}

/** Believed in every band. */
export function evidence(parts: Partial<Evidence> = {}): Evidence {
  const side = measurement();
  return {
    result: monitorResult(),
    sides: [side],
    phantom: null,
    around: [[side], [side], [side]],
    levelDb: zeros,
    deviationDb: zeros,
    // Its target is what the session calls neutral.
    fromTargetDb: parts.deviationDb ?? zeros,
    uncertaintyDb: BANDS.map(() => 0.1),
    spreadDb: BANDS.map(() => 0.3),
    audibleDb: BANDS.map(() => 40),
    ...parts,
  };
}
