import { samePolarity } from "./impulse/same-polarity.js";
import type { Finding, ImpulseResponse, Recording, Results, Session } from "./model.js";
import { captureImpulse, captureRecording, type Take } from "./pipeline/capture.js";
import { fromError } from "./pipeline/findings.js";
import { type Calibration, type Group, measureGroup, measurementId, measurePhantom } from "./pipeline/measure.js";
import type { Measured } from "./pipeline/measure.js";
import { type Inputs, prepareInputs, type SessionFiles } from "./pipeline/inputs.js";
import { compareMonitors, pairArrival, summariseMonitor } from "./pipeline/summarise.js";
import { DIRECT_GATE_S, ONE_TAKE_FLOOR_DB, SMOOTHING_FRACTION } from "./metrics/response/response.js";

export type { SessionFiles } from "./pipeline/inputs.js";

export interface AnalysisOptions {
  readonly version: string;
  readonly onProgress?: (done: number, total: number, what: string) => void;
  /** Recordings that are refused before anyone listens: their entry in the session cannot be right. */
  readonly refused?: ReadonlyMap<Recording, Finding>;
  /** What is known about the session as a whole. */
  readonly notes?: readonly Finding[];
}

export interface Analysis {
  readonly results: Results;
  readonly impulses: readonly { name: string; samples: Float64Array; sampleRate: number }[];
  /** Recordings of which something could not be used. */
  readonly rejected: readonly Finding[];
}

/**
 * The whole way from a session to its results: recordings, impulse responses, measurements, comparisons.
 *
 * @param session - validated
 * @param files - gives the bytes of the session's files
 * @throws {InputError} if the sweep recipe or a calibration cannot be used; a single recording never stops the rest
 */
export async function analyse(session: Session, files: SessionFiles, options: AnalysisOptions): Promise<Analysis> {
  const inputs = await prepareInputs(session, files);
  const steps = session.recordings.length;
  const findings: Finding[] = [...(options.notes ?? [])];
  const takes: Take[] = [];
  for (const [index, recording] of session.recordings.entries()) {
    options.onProgress?.(index, steps, recording.file);
    const refused = options.refused?.get(recording);
    if (refused) {
      findings.push(refused);
      continue;
    }
    try {
      const captured = await capture(recording, inputs);
      takes.push(...captured.takes);
      findings.push(...captured.findings);
    } catch (error) {
      findings.push(fromError(error, recording.file));
    }
  }
  const measured = withPhantoms(
    withRelativePolarity(groupTakes(session, takes).map((group) => measureGroup(group, inputs.calibration))),
    inputs.calibration,
  );
  options.onProgress?.(steps, steps, "results");
  const results: Results = {
    schema: "carrywell/results/1",
    session,
    provenance: {
      version: options.version,
      settings: {
        smoothingFraction: SMOOTHING_FRACTION,
        directGateS: DIRECT_GATE_S,
        oneTakeFloorDb: ONE_TAKE_FLOOR_DB,
        speedOfSoundMPerS: inputs.calibration.speedOfSound,
      },
      files: inputs.provenance,
    },
    measurements: measured.map(({ measurement }) => measurement),
    monitors: session.monitors.map((monitor) => summariseMonitor(monitor, session, measured)),
    comparisons: compareMonitors(session, measured),
    translation: null,
    findings,
  };
  return {
    results,
    impulses: measured.map(({ measurement, impulse }) => impulseFile(measurement.id, impulse)),
    rejected: findings.filter((finding) => finding.severity === "reject"),
  };
}

async function capture(
  recording: Recording,
  inputs: Inputs,
): Promise<{ takes: readonly Take[]; findings: readonly Finding[] }> {
  const { signal, loopback } = await inputs.sound(recording);
  const { deviationDb } = inputs.calibration;
  if (recording.kind === "impulse") return { takes: [captureImpulse(recording, signal, deviationDb)], findings: [] };
  return captureRecording({ recording, signal, loopback, deviationDb, ...(await inputs.played(recording)) });
}

/** Takes of one monitor, channel and position belong together; groups come in the order of the session. */
function groupTakes(session: Session, takes: readonly Take[]): Group[] {
  const groups = new Map<string, Group & { takes: Take[] }>();
  for (const take of takes) {
    const monitor = session.monitors.find(({ id }) => id === take.recording.monitor);
    if (!monitor) continue;
    const { position } = take.recording;
    const id = measurementId(monitor.id, take.channel, position);
    const group = groups.get(id) ?? { id, monitor, channel: take.channel, position, takes: [] };
    groups.set(id, group);
    group.takes.push(take);
  }
  return [...groups.values()];
}

/** Without an electrical reference polarity is relative: to the first measurement of the session. */
function withRelativePolarity(measured: readonly Measured[]): Measured[] {
  const reference = measured[0];
  return measured.map((one) => {
    const { arrival } = one.measurement;
    if (!reference || arrival.timeS !== null) return one;
    const polarity = samePolarity(reference.impulse, one.impulse) ? 1 : -1;
    return { ...one, measurement: { ...one.measurement, arrival: { ...arrival, polarity } } };
  });
}

/** Adds the phantom centre of each pair that one reel holds with a known clock. */
function withPhantoms(measured: readonly Measured[], calibration: Calibration): Measured[] {
  const ids = new Set(measured.map(({ group }) => group.id));
  return measured.flatMap((left) => {
    if (left.group.channel !== "L") return [left];
    const { monitor, position } = left.group;
    const right = measured.find(({ group }) => group.id === measurementId(monitor.id, "R", position));
    const arrival = right && pairArrival(left, right);
    if (!right || !arrival || ids.has(measurementId(monitor.id, "both", position))) return [left];
    return [left, measurePhantom(left, right, -arrival.differenceS, calibration)];
  });
}

/** Written impulse responses begin so long before the arrival. */
const WRITTEN_BEFORE_S = 0.1;

function impulseFile(id: string, impulse: ImpulseResponse): Analysis["impulses"][number] {
  const from = Math.max(0, Math.round(impulse.arrivalSample - WRITTEN_BEFORE_S * impulse.sampleRate));
  return { name: id, samples: impulse.samples.subarray(from), sampleRate: impulse.sampleRate };
}
