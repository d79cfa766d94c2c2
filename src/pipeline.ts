import { samePolarity } from "./impulse/same-polarity.js";
import { findFindings } from "./findings/find-findings.js";
import { ranked } from "./findings/rank.js";
import type { Finding, ImpulseResponse, Results, Session } from "./model.js";
import { againstTargets } from "./pipeline/against-targets.js";
import { type CaptureOptions, captureSession } from "./pipeline/capture-session.js";
import { compareMonitors } from "./pipeline/compare-monitors.js";
import { decaysAreHidden } from "./pipeline/figure-findings.js";
import { measurementId } from "./pipeline/group.js";
import { prepareInputs, type SessionFiles } from "./pipeline/inputs.js";
import { type Labour, labourHere, type Measured } from "./pipeline/labour.js";
import { pairArrival } from "./pipeline/pair-arrival.js";
import { doubleSlopesOf, flutterOf } from "./pipeline/late-sound.js";
import { roomModes as findRoomModes } from "./pipeline/room-modes.js";
import { roomSurfaces } from "./pipeline/room-surfaces.js";
import { summariseMonitor } from "./pipeline/summarise.js";
import { refuseUnknownReference, translate } from "./pipeline/translate.js";
import { programmeFile } from "./schema/programme-file.js";
import { DIRECT_GATE_S, ONE_TAKE_FLOOR_DB, SMOOTHING_FRACTION } from "./metrics/response/response.js";
import { bandEdges, THIRD_OCTAVES } from "./standards/iec61260.js";
import { LIMITS } from "./translation/limits.js";
import { treatRoom } from "./treatment/treat-room.js";

export { prepareInputs, type SessionFiles } from "./pipeline/inputs.js";
export { type Labour, labourHere } from "./pipeline/labour.js";

export interface AnalysisOptions extends Omit<CaptureOptions, "speedOfSound"> {
  readonly version: string;
  /** Who does the heavy steps; by default they are done where the caller stands. */
  readonly labour?: Labour;
  /** Whether to read what the room does, decays above the bass included; what a mix sounds like does not depend on it. */
  readonly withRoom?: boolean;
  /** What is known about the session as a whole. */
  readonly notes?: readonly Finding[];
}

export interface Analysis {
  readonly results: Results;
  readonly impulses: readonly { name: string; samples: Float64Array; sampleRate: number; arrivalSample: number }[];
  /** Recordings of which something could not be used. */
  readonly rejected: readonly Finding[];
}

/**
 * The whole way from a session to its results: recordings, impulse responses, measurements, comparisons.
 *
 * @param session - validated
 * @param files - gives the bytes of the session's files
 * @throws {InputError} if the sweep recipe, a calibration or the programme cannot be used; a single recording never stops the rest
 */
export async function analyse(session: Session, files: SessionFiles, options: AnalysisOptions): Promise<Analysis> {
  const inputs = await prepareInputs(session, files);
  refuseUnknownReference(session, inputs.targets);
  const ownProgramme = programmeFile(session);
  if (ownProgramme !== null) options.onProgress?.(0, session.recordings.length, ownProgramme);
  const programme = await inputs.programme();
  const base = [...inputs.provenance];
  const labour = options.labour ?? labourHere(inputs);
  const { speedOfSound } = inputs.calibration;
  const { captured, groups, findings: across } = await captureSession(session, labour, { ...options, speedOfSound });
  const findings = [...(options.notes ?? []), ...inputs.notes, ...captured.flatMap((one) => one.findings), ...across];
  const oneSound = new Set(across.filter(({ code }) => code === "both-speakers").flatMap(({ monitors }) => monitors));
  const decaysBelowHz = options.withRoom === false ? DECAYS_OF_A_MIX_HZ : undefined;
  const each = await all(groups, async (group) => ({ ...(await labour.measure(group, decaysBelowHz)), group }));
  const measured = await withPhantoms(withRelativePolarity(each), oneSound, labour);
  const steps = session.recordings.length;
  options.onProgress?.(steps, steps, "results");
  const summaries = session.monitors.map((monitor) => summariseMonitor(monitor, session, measured, oneSound));
  const { measurements, ...room } =
    options.withRoom === false
      ? { measurements: measured.map(({ measurement }) => measurement) }
      : await roomFigures(session, measured, summaries, speedOfSound, labour);
  const measuredResults: Results = {
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
      files: distinctFiles([...base, ...captured.flatMap((one) => one.files)]),
    },
    measurements,
    monitors: summaries.map((summary) => againstTargets(summary, session, measurements, inputs.targets)),
    comparisons: compareMonitors(session, measurements),
    ...room,
    translation: null,
    findings,
  };
  const told: Results = {
    ...measuredResults,
    translation: translate(measuredResults, { ...inputs, programme }),
    findings: ranked([...findings, ...findFindings(measuredResults)]),
  };
  return {
    results: options.withRoom === false ? told : { ...told, treatment: treatRoom(told) },
    impulses: measured.map(({ measurement, impulse }) => impulseFile(measurement.id, impulse)),
    rejected: findings.filter((finding) => finding.severity === "reject"),
  };
}

/** What the room does, and the measurements with their modes. */
async function roomFigures(
  session: Session,
  measured: readonly Measured[],
  summaries: Parameters<typeof findRoomModes>[2],
  speedOfSound: number,
  labour: Labour,
): Promise<Pick<Results, "measurements" | "roomModes" | "surfaces" | "flutter" | "doubleSlopes">> {
  const single = measured.filter(
    ({ measurement: { derived, distortion } }) => !derived && !decaysAreHidden(distortion),
  );
  const late = all(single, async ({ measurement, impulse }) => ({
    measurement,
    late: await labour.lateSound(impulse),
  }));
  const { measurements, roomModes } = findRoomModes(session, measured, summaries, speedOfSound);
  return {
    measurements,
    roomModes,
    surfaces: roomSurfaces(session, measurements, speedOfSound),
    flutter: flutterOf(session, await late, speedOfSound),
    doubleSlopes: doubleSlopesOf(await late),
  };
}

/** Asks for everything at once; the labour decides how much of it happens at once. */
async function all<Item, Result>(items: readonly Item[], work: (item: Item) => Promise<Result>): Promise<Result[]> {
  return Promise.all(items.map(work));
}

function distinctFiles(files: Results["provenance"]["files"]): Results["provenance"]["files"] {
  return files.filter(({ file }, index) => files.findIndex((other) => other.file === file) === index);
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

/**
 * Adds the phantom centre of each pair that one reel holds with a known clock, behind its left side.
 *
 * @param oneSound - monitors whose left and right are not two loudspeakers
 */
async function withPhantoms(
  measured: readonly Measured[],
  oneSound: ReadonlySet<string>,
  labour: Labour,
): Promise<Measured[]> {
  const ids = new Set(measured.map(({ group }) => group.id));
  const withOwn = await all(measured, async (left) => {
    if (left.group.channel !== "L" || oneSound.has(left.group.monitor.id)) return [left];
    const { monitor, position } = left.group;
    const right = measured.find(({ group }) => group.id === measurementId(monitor.id, "R", position));
    const arrival = right && pairArrival(left, right);
    const id = measurementId(monitor.id, "both", position);
    if (!right || !arrival || ids.has(id)) return [left];
    const phantom = await labour.measurePhantom(left, right, -arrival.differenceS);
    return [left, { ...phantom, group: { ...left.group, channel: "both" as const, id } }];
  });
  return withOwn.flat();
}

/** What a mix sounds like depends on no decay but those by which ringing is judged: up to the edge of their last band. */
const DECAYS_OF_A_MIX_HZ = Math.max(
  ...THIRD_OCTAVES.filter(({ nominalHz }) => nominalHz <= LIMITS.ringing.rangeHz[1]).map((band) => bandEdges(band)[1]),
);
/** Written impulse responses begin so long before the arrival. */
const WRITTEN_BEFORE_S = 0.1;

function impulseFile(id: string, impulse: ImpulseResponse): Analysis["impulses"][number] {
  const from = Math.max(0, Math.round(impulse.arrivalSample - WRITTEN_BEFORE_S * impulse.sampleRate));
  const { sampleRate, arrivalSample } = impulse;
  return { name: id, samples: impulse.samples.subarray(from), sampleRate, arrivalSample: arrivalSample - from };
}
