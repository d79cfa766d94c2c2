import { join } from "node:path";

import { InputError } from "../errors.js";
import { inputFiles } from "../files/input-files.js";
import { findMix, mixNotes } from "../files/mix-file.js";
import { programVersion } from "../files/program-version.js";
import { readSession } from "../files/read-session.js";
import { writeListening } from "../files/write-listening.js";
import { listenPlan } from "../pipeline/listen-plan.js";
import { listeningInWords } from "../report/words/listening.js";
import { analyseSession } from "./analyse-session.js";
import { openProgress } from "./progress.js";
import type { Terminal } from "./terminal.js";

export interface ListenCommand {
  readonly session: string;
  readonly mix: string;
  readonly out: string;
  readonly room: boolean;
  readonly on: string | null;
}

const STEPS = 20;

/** `carrywell listen`: renders a mix as it is heard on each monitor and playback class. */
export async function listen(
  { session, mix: file, out, room, on }: ListenCommand,
  terminal: Terminal,
): Promise<number> {
  if (room && on !== null) {
    throw new InputError("--room and --on cannot be used together.", {
      where: "command line",
      remedy: "use --room for earphones, --on for a monitor of the session: its room is heard already",
    });
  }
  const mix = await findMix(file);
  const source = await readSession(session);
  const analysis = await analyseSession(source, terminal, { withRoom: false });
  const { results, impulses, rejected } = analysis;
  const sampleRate = impulses[0]?.sampleRate;
  if (sampleRate === undefined) {
    throw new InputError("No recording of the session could be used, so no monitor can be heard.", {
      where: session,
      remedy: "run carrywell report, which says what is wrong with each recording",
    });
  }
  for (const note of mixNotes(mix, sampleRate)) terminal.remark(note);
  const plan = listenPlan(results, new Map(impulses.map((one) => [one.name, one])), sampleRate, { room, on });
  const progress = openProgress(terminal.options.quiet);
  let shown = -1;
  try {
    const listening = await writeListening(
      {
        ...{ version: await programVersion(), mix, results, plan, sampleRate, room, on, inputs: inputFiles(source) },
        onProgress(share, what) {
          const step = Math.floor(share * STEPS);
          if (step > shown) progress.at((shown = step), STEPS, what);
        },
      },
      out,
    );
    terminal.result(listening);
    terminal.say(
      `${listeningInWords(listening, terminal.strong)}\n${terminal.strong("Listen")}: ${join(out, "listen.html")}`,
    );
    return rejected.length > 0 ? 1 : 0;
  } finally {
    progress.close();
  }
}
