import { join } from "node:path";

import { programmeFile } from "../schema/programme-file.js";
import type { ReadSession } from "./read-session.js";

/** Every file that a session is made of. */
export function inputFiles({ session, folder, file }: Pick<ReadSession, "session" | "folder" | "file">): string[] {
  const { microphone, targets = [], playbackClasses = [], recordings } = session;
  const named = [
    ...[session.sweep, microphone?.calibration, microphone?.level?.file, programmeFile(session)],
    ...[...(microphone?.calibrations ?? []), ...targets, ...playbackClasses].map((one) => one.file),
    ...recordings.flatMap((recording) => [recording.file, recording.sweep]),
  ];
  return [file, ...named.flatMap((name) => (name == null ? [] : [join(folder, name)]))];
}
