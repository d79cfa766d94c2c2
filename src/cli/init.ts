import { basename, join, resolve } from "node:path";

import { listFolder } from "../files/list-folder.js";
import { alreadyThere, holdsSession, placeSession } from "../files/place-session.js";
import { sessionFiles } from "../files/session-files.js";
import { proposeSession } from "../pipeline/propose-session.js";
import { surveyFolder } from "../pipeline/survey/survey-folder.js";
import { proposalForPrograms, proposalInWords } from "./init-summary.js";
import { openProgress } from "./progress.js";
import type { Terminal } from "./terminal.js";

/** `carrywell init`: proposes a session for a folder of recordings, and writes it where there is none. */
export async function init(folder: string, force: boolean, terminal: Terminal): Promise<number> {
  const { files, otherFolders, tooLarge, outside } = await listFolder(folder);
  const progress = openProgress(terminal.options.quiet);
  const survey = await surveyFolder(files, sessionFiles(folder), progress.at.bind(progress)).finally(() => {
    progress.close();
  });
  const proposal = proposeSession(survey, basename(resolve(folder)) || "Session");
  const skipped = [
    ...missed(tooLarge, "it is too large to be looked into: cut out the part that is meant"),
    ...missed(
      outside,
      "it is a link that leads out of the folder, or no plain file: copy the file itself into the folder",
    ),
    ...otherFolders.map((file) => ({
      ...{ file, isMissed: false },
      reason: "this folder is something of its own, and was left alone",
    })),
  ];
  const shown = { ...proposal, leftOut: [...proposal.leftOut, ...skipped] };
  const isWritten = force || !holdsSession(folder);
  const kept = isWritten ? placeSession(folder, proposal.session, force) : null;
  terminal.result(proposalForPrograms(shown, isWritten, kept));
  terminal.say(proposalInWords(shown, terminal.strong));
  if (!isWritten) throw alreadyThere(folder);
  terminal.say(`${terminal.strong("Session")}: ${join(folder, "session.json")}${kept === null ? "" : `; the one before is ${kept}`}
${terminal.strong("Next")}:    look it over, add the room's size and "gainFixed": true if the gain was left alone, and run
         carrywell check ${folder}`);
  return shown.leftOut.some(({ isMissed }) => isMissed) ? 1 : 0;
}

function missed(files: readonly string[], reason: string): { file: string; reason: string; isMissed: true }[] {
  return files.map((file) => ({ file, reason, isMissed: true }));
}
