import { InputError } from "../errors.js";
import { type Guess, guessSession, type HeardFile } from "../naming/guess-session.js";
import { partsOfName } from "../naming/parts-of-name.js";
import type { SessionText } from "../schema/session.js";
import { proposeMicrophone } from "./survey/propose-microphone.js";
import type { FolderSurvey, SurveyedSound } from "./survey/survey-folder.js";

/** A recording of the proposed session, and what led to it. */
export interface ProposedRecording {
  readonly file: string;
  /** What is in it. */
  readonly holds: string;
  readonly guess: Guess["recordings"][number];
}

export interface Proposal {
  readonly session: SessionText;
  readonly recordings: readonly ProposedRecording[];
  /** Other files of the session. */
  readonly uses: readonly { readonly file: string; readonly use: string }[];
  /** Sound that is no part of it, and why not. */
  readonly leftOut: readonly LeftOut[];
  /** What could not be told, and what to edit. */
  readonly doubts: readonly string[];
}

interface LeftOut {
  readonly file: string;
  readonly reason: string;
  /** It is called like a recording, or nobody could look into it: somebody will miss it. */
  readonly isMissed: boolean;
}

type FoundRecording = Extract<SurveyedSound["content"], { kind: "recording" | "impulse response" }>;

/**
 * Makes a session of what lies in a folder: names say what is what, and give way where the content contradicts them.
 *
 * @param title - of the session
 * @throws {InputError} if no file can be a recording
 */
export function proposeSession(survey: FolderSurvey, title: string): Proposal {
  const found = new Map<string, FoundRecording>();
  for (const { file, content } of survey.sounds) {
    if (content.kind === "recording" || content.kind === "impulse response") found.set(file, content);
  }
  const heard = [...found].map(([file, content]): HeardFile => ({ file, holds: heldBy(file, content) }));
  const guess = guessSession(heard);
  const leftOut = [...survey.sounds.flatMap((sound) => whyLeftOut(sound) ?? []), ...guess.unplaced.map(asLeftOut)];
  if (guess.recordings.length === 0) throw noRecording(leftOut);
  const sweep =
    mostUsed(guess.recordings.flatMap(({ file }) => sweepOf(found.get(file)!) ?? [])) ?? survey.sweeps[0]!.file;
  const microphone = proposeMicrophone(survey);
  const recordings = guess.recordings.map((one) => {
    const content = found.get(one.file)!;
    const own = sweepOf(content);
    return {
      ...{ file: one.file, monitor: one.monitor, position: one.position, take: one.take },
      ...(one.channel === null ? {} : { channel: one.channel }),
      ...(content.kind === "impulse response" ? { kind: "impulse" as const } : {}),
      ...(content.kind === "recording" && content.fileChannel !== null ? { fileChannel: content.fileChannel } : {}),
      ...(content.kind === "recording" && content.loopback !== null ? { loopback: content.loopback } : {}),
      ...(own === null || own === sweep ? {} : { sweep: own }),
    };
  });
  return {
    session: {
      ...{ schema: "carrywell/session/1", title, sweep },
      ...(microphone.microphone ? { microphone: microphone.microphone } : {}),
      monitors: guess.monitors,
      positions: guess.positions,
      recordings,
    },
    recordings: guess.recordings.map((one) => ({
      file: one.file,
      holds: inWords(
        found.get(one.file)!,
        heard.find(({ file }) => file === one.file)!,
      ),
      guess: one,
    })),
    uses: [...usesOf(survey, sweep), ...microphone.uses],
    leftOut,
    doubts: [
      ...guess.doubts,
      ...[...found].flatMap(([file, content]) => aboutChannels(file, content)),
      ...microphone.doubts,
      ...survey.damaged.map(({ file, reason }) => `${file} cannot be used: ${reason}`),
    ],
  };
}

/** Half a reel is taken for the file of one loudspeaker if its name speaks of one. */
function heldBy(file: string, content: FoundRecording): HeardFile["holds"] {
  if (content.kind === "impulse response") return "impulse response";
  if (content.holds !== "either") return content.holds;
  return partsOfName(file).some(({ says }) => ["letter", "side", "both"].includes(says.kind)) ? "one sweep" : "reel";
}

function sweepOf(content: FoundRecording): string | null {
  return content.kind === "recording" ? content.sweep : null;
}

function mostUsed(names: readonly string[]): string | null {
  const counts = new Map<string, number>();
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
  const most = Math.max(0, ...counts.values());
  return [...counts].find(([, count]) => count === most)?.[0] ?? null;
}

function inWords(content: FoundRecording, { holds }: HeardFile): string {
  if (content.kind === "recording" && content.holds === "either") return holds === "reel" ? "half a reel" : "one sweep";
  return holds;
}

function whyLeftOut({ file, content }: SurveyedSound): LeftOut | null {
  const isMissed = partsOfName(file).some(({ says }) => says.kind === "role" || says.kind === "place");
  if (content.kind === "nothing") return { file, reason: content.reason, isMissed };
  if (content.kind === "unreadable") return { file, reason: content.reason, isMissed: true };
  if (content.kind === "copy") return { file, reason: `it is the same file as ${content.of}`, isMissed: false };
  if (content.kind === "electrical") {
    return { file, reason: "it is the sweep as it is played, not what a microphone heard", isMissed };
  }
  return null;
}

function asLeftOut({ file, reason, remedy }: Guess["unplaced"][number]): LeftOut {
  return { file, reason: `${reason}: ${remedy}`, isMissed: true };
}

function usesOf({ sweeps }: FolderSurvey, used: string): Proposal["uses"] {
  return sweeps.map(({ file, recipe }) => ({
    file,
    use: `${recipe ? "the recipe of the sweep" : "the sweep that was played"}${file === used ? "" : ", of some recordings or none"}`,
  }));
}

function aboutChannels(file: string, content: FoundRecording): string[] {
  if (content.kind !== "recording") return [];
  const { fileChannel, loopback, others } = content;
  return [
    ...(loopback === null ? [] : [`${file}: channel ${loopback} is taken for the electrical signal ("loopback").`]),
    ...(others.length === 0
      ? []
      : [
          `${file}: a microphone is in channel ${[fileChannel, ...others].join(" and in ")}; "fileChannel" is ${String(fileChannel)}.`,
        ]),
  ];
}

function noRecording(leftOut: readonly LeftOut[]): InputError {
  const [first] = leftOut;
  return new InputError("No file in the folder holds a recording of its sweep.", {
    where: first ? `${first.file}: ${first.reason}` : "no sound file is there",
    remedy: "copy the recordings into the folder, beside the sweep.json that they were made with",
  });
}
