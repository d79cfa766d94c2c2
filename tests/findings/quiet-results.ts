import type { BandMetrics, Finding, Measurement, MonitorResult, Results } from "../../src/model.js";
import { resultsSchema } from "../../src/schema/results.js";
import { THIRD_OCTAVES } from "../../src/standards/iec61260.js";

/** Results of an invented session about which there is nothing to say: every rule is quiet. */

const bandsHz = THIRD_OCTAVES.map(({ nominalHz }) => nominalHz).filter((hz) => hz >= 25 && hz <= 16_000);
const PLACES = ["mix", "left_of", "right_of", "ahead", "behind"];

/** Two pairs of monitors, five places, everything on target. 100 m3, so the mean time may be 0.2 to 0.3 s. */
export function quietResults(): Results {
  const monitors = [
    { id: "mains", role: "main" as const, endHz: 30 },
    { id: "nears", role: "nearfield" as const, endHz: 48 },
  ];
  return resultsSchema.parse({
    schema: "carrywell/results/1",
    session: {
      schema: "carrywell/session/1",
      room: { volumeM3: 100 },
      microphone: { gainFixed: true },
      sweep: "sweep.json",
      monitors: monitors.map(({ id, role }) => ({ id, role })),
      positions: PLACES.map((id) => ({ id, kind: id === "mix" ? "mix" : "near" })),
      recordings: [{ file: "one.wav", monitor: "mains", position: "mix", take: 1 }],
    },
    provenance: { version: "0", settings: {}, files: [] },
    measurements: monitors.flatMap(({ id, role }) =>
      PLACES.flatMap((position) => (["L", "R"] as const).map((channel) => measurement(id, role, channel, position))),
    ),
    monitors: monitors.map(({ id, role, endHz }) => monitorResult(id, role, endHz)),
    comparisons: [],
    translation: null,
    findings: [],
  });
}

function measurement(id: string, role: Measurement["role"], channel: "L" | "R", position: string): Measurement {
  const nothing = bandsHz.map(() => null);
  return {
    id: `${id}-${channel}@${position}`,
    monitor: id,
    role,
    channel,
    position,
    takes: 2,
    derived: false,
    levelReference: "spl",
    quality: {
      usable: true,
      peakDbfs: -12,
      clippedSamples: 0,
      clockDriftPpm: 0,
      clockDriftUncertaintyPpm: 0.1,
      clockDriftCorrected: false,
      signalToNoiseDb: 60,
      repeatabilityDb: 0.05,
      residual: null,
      findings: [],
    },
    arrival: { inFileS: 1, timeS: null, polarity: 1 },
    response: {
      frequencyHz: bandsHz,
      levelDb: nothing,
      toneDb: nothing,
      directDb: nothing,
      phaseDeg: nothing,
      groupDelayS: nothing,
      uncertaintyDb: nothing,
      validHz: [20, 18_000],
    },
    bands: bandsHz.map(band),
    reverberation: { tMidS: 0.25, tmS: 0.25, method: "T30" },
    energyTime: null,
    reflections: [],
    modes: [],
    distortion: { frequencyHz: [50, 100, 200, 400, 800], harmonicsDb: {}, thdPercent: [1, 0.5, 0.3, 0.2, 0.2] },
    background: {
      levelReference: "spl",
      bands: [{ nominalHz: 1000, levelDb: 8 }],
      aWeightedDb: 14,
    },
  };
}

function band(nominalHz: number): BandMetrics {
  return {
    fraction: 3,
    nominalHz,
    exactHz: nominalHz,
    levelDb: 0,
    levelUncertaintyDb: 0.1,
    noiseDb: -70,
    edtS: 0.25,
    t20S: 0.25,
    t30S: 0.25,
    lateS: null,
    lateUncertaintyS: null,
    c50Db: 12,
    c80Db: 18,
    d50: 0.9,
    tsS: 0.02,
    decayRangeDb: 60,
    nonLinearityPerMille: 2,
    curvaturePercent: 2,
    decayUncertaintyS: 0.01,
    flags: [],
  };
}

function monitorResult(id: string, role: MonitorResult["role"], endHz: number): MonitorResult {
  const curve = { frequencyHz: bandsHz, levelDb: bandsHz.map(() => 0), toneDb: bandsHz.map(() => 0) };
  const response = { ...curve, uncertaintyDb: bandsHz.map(() => 0.1) };
  return {
    id,
    name: null,
    role,
    channels: ["L", "R"],
    response,
    responseReason: null,
    positions: {
      ids: PLACES,
      response,
      spreadDb: bandsHz.map(() => 0.5),
      bands: bandsHz.map((nominalHz) => ({ nominalHz, levelDb: 0, spreadDb: 0.5, roomUncertaintyDb: 0.25 })),
      decay: [],
    },
    extension: { minus3Hz: endHz * 1.1, minus6Hz: endHz, minus10Hz: endHz * 0.9, dipsHz: [], flags: [] },
    leftRight: {
      levelDb: 0,
      levelUncertaintyDb: 0.1,
      arrivalS: 5e-6,
      arrivalUncertaintyS: 2e-6,
      includesGain: false,
      samePolarity: true,
      bands: bandsHz.map((nominalHz) => ({ nominalHz, differenceDb: 0, uncertaintyDb: 0.15 })),
      oneSided: [],
      phantom: bandsHz
        .filter((hz) => hz < 500)
        .map((nominalHz) => ({ nominalHz, againstLeftDb: -0.2, againstRightDb: -0.1, uncertaintyDb: 0.15 })),
    },
    leftRightReason: null,
    target: {
      id: "flat",
      source: "a flat line",
      advisory: true,
      offsetDb: 0,
      fitHz: [200, 4000],
      withinPercent: 100,
      rmsDb: 0,
      bands: bandsHz.map((nominalHz) => ({
        nominalHz,
        targetDb: 0,
        // The end of the loudspeaker.
        deviationDb: nominalHz < endHz ? -20 : 0,
        uncertaintyDb: 0.1,
        lowerDb: -3,
        upperDb: 3,
      })),
    },
    targetReason: null,
    checks: [],
  };
}

/** The codes of findings of one topic. */
export function codes(findings: readonly Finding[], topic: Finding["topic"]): string[] {
  return findings.filter((one) => one.topic === topic).map(({ code }) => code);
}
