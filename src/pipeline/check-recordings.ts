import { averageTakes } from "../impulse/average-takes.js";
import type { ChannelName, Finding, Recording, Session } from "../model.js";
import type { Take } from "./capture.js";
import { type CaptureOptions, captureSession } from "./capture-session.js";
import { figureFindings, judgedFigures } from "./figure-findings.js";
import { extreme, groupFindings } from "./group.js";
import type { Labour } from "./labour.js";
import { whatIsMissing } from "./what-is-missing.js";

export interface CheckOptions extends CaptureOptions {
  /** What is known about the session as a whole. */
  readonly notes?: readonly Finding[];
}

/** One recording of the session, as it stands before anyone leaves the room. */
export interface CheckedRecording {
  readonly recording: Recording;
  /** Whether all of it can be used. */
  readonly usable: boolean;
  /** The loudspeakers of which it gave an impulse response, also where the rest of it is lost. */
  readonly channels: readonly ChannelName[];
  readonly peakDbfs: number | null;
  readonly signalToNoiseDb: number | null;
  /** Everything that names it, with other recordings or alone; what cannot be used comes first. */
  readonly findings: readonly Finding[];
}

export interface CheckedSession {
  readonly recordings: readonly CheckedRecording[];
  /** What is to be said of the session as a whole, and what was not recorded. */
  readonly findings: readonly Finding[];
}

/**
 * Says of every recording whether it can be used, with the findings that the report would have on it, and measures nothing.
 *
 * @param labour - hears the recordings, as the report does
 */
export async function checkRecordings(
  session: Session,
  labour: Pick<Labour, "capture">,
  { notes = [], ...options }: CheckOptions,
): Promise<CheckedSession> {
  const { captured, groups, findings: across } = await captureSession(session, labour, options);
  const between = [
    ...across,
    ...groups.flatMap((group) => {
      const averaged = averageTakes(group.takes.map(({ impulse }) => impulse));
      return [
        ...groupFindings(group, averaged, options.speedOfSound),
        ...figureFindings(group, judgedFigures(group, averaged)),
      ];
    }),
  ];
  const kept = groups.flatMap(({ takes }) => takes);
  const recordings = session.recordings.map((recording, index): CheckedRecording => {
    const takes = kept.filter((take) => take.recording === recording);
    const named = between.filter((finding) => finding.recordings.includes(recording.file));
    const findings = [...(captured[index]?.findings ?? []), ...named].sort((a, b) => rank(a) - rank(b));
    return {
      recording,
      usable: findings.every(({ severity }) => severity !== "reject"),
      channels: [...new Set(takes.map(({ channel }) => channel))],
      ...levelsOf(takes),
      findings,
    };
  });
  const ofNone = between.filter((finding) => finding.recordings.length === 0);
  return { recordings, findings: [...notes, ...ofNone, ...whatIsMissing(session, kept)] };
}

function levelsOf(takes: readonly Take[]): Pick<CheckedRecording, "peakDbfs" | "signalToNoiseDb"> {
  const peaks = takes.map(({ peakDbfs }) => peakDbfs);
  const ratios = takes.map(({ signalToNoiseDb }) => signalToNoiseDb);
  return { peakDbfs: extreme(Math.max, peaks), signalToNoiseDb: extreme(Math.min, ratios) };
}

function rank({ severity }: Finding): number {
  return ["reject", "warning", "info"].indexOf(severity);
}
