import { isComparable } from "../impulse/average-takes.js";
import type { Finding, Recording, Session } from "../model.js";
import type { Take } from "./capture.js";
import { takeMisfits } from "./findings.js";
import { type Group, measurementId } from "./group.js";
import type { CapturedRecording } from "./capture-in-turn.js";
import type { Labour } from "./labour.js";
import { sessionFaults } from "./session-faults.js";

export interface CaptureOptions {
  readonly onProgress?: (done: number, total: number, what: string) => void;
  /** Recordings that are refused before anyone listens: their entry in the session cannot be right. */
  readonly refused?: ReadonlyMap<Recording, Finding>;
  /** m/s */
  readonly speedOfSound: number;
}

/** What listening to all recordings gave. */
export interface CapturedSession {
  /** In the order of the session, each with what is wrong with it by itself. */
  readonly captured: readonly CapturedRecording[];
  /** In the order of the session. */
  readonly groups: readonly Group[];
  /** What shows only when recordings are held against each other. */
  readonly findings: readonly Finding[];
}

/**
 * Listens to every recording of a session and holds them against each other: the report and the quick check both begin here.
 *
 * @param labour - hears the recordings in whatever order it takes
 */
export async function captureSession(
  session: Session,
  labour: Pick<Labour, "capture">,
  options: CaptureOptions,
): Promise<CapturedSession> {
  const steps = session.recordings.length;
  let done = 0;
  const captured = await Promise.all(
    session.recordings.map(async (recording): Promise<CapturedRecording> => {
      const refused = options.refused?.get(recording);
      const heard = refused ? { takes: [], findings: [refused], files: [] } : await labour.capture(recording);
      options.onProgress?.(done++, steps, recording.file);
      // A take that came from a thread names a copy of its recording; pairs are told by the session's own.
      return { ...heard, takes: heard.takes.map((take) => ({ ...take, recording })) };
    }),
  );
  const heard = captured.flatMap(({ takes }) => takes);
  const { takes, findings } = sessionFaults(session, heard, options.speedOfSound);
  const { groups, misfits } = groupTakes(session, takes);
  return { captured, groups, findings: [...findings, ...misfits] };
}

/**
 * Takes of one monitor, channel and position belong together. A take of another sample rate or sweep than the first of its
 * group cannot be averaged with it.
 */
function groupTakes(session: Session, takes: readonly Take[]): { groups: Group[]; misfits: Finding[] } {
  const misfits: Finding[] = [];
  const groups = new Map<string, Group & { takes: Take[] }>();
  for (const take of takes) {
    const monitor = session.monitors.find(({ id }) => id === take.recording.monitor);
    if (!monitor) continue;
    const { position } = take.recording;
    const id = measurementId(monitor.id, take.channel, position);
    const group = groups.get(id) ?? { id, monitor, channel: take.channel, position, takes: [] };
    groups.set(id, group);
    const first = group.takes[0] ?? take;
    if (isComparable(first.impulse, take.impulse)) group.takes.push(take);
    else misfits.push(takeMisfits(id, take.recording.file, first.recording.file));
  }
  return { groups: [...groups.values()], misfits };
}
