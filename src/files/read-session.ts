import { readFile, stat } from "node:fs/promises";
import { basename, dirname, join } from "node:path";

import { InputError } from "../errors.js";
import type { Finding, Recording, Session } from "../model.js";
import { calibrationFile } from "../schema/calibration-file.js";
import { type JsonText, readJsonText } from "../schema/json-text.js";
import { programmeFile } from "../schema/programme-file.js";
import { sessionSchema } from "../schema/session.js";
import { placeOf, validate } from "../schema/validate.js";
import { checkSession } from "./check-session.js";
import { findInside } from "./inside-folder.js";
import { LARGEST_TEXT } from "./largest-text.js";
import { refuseRecordings } from "./refuse-recordings.js";

export interface ReadSession {
  readonly session: Session;
  /** The folder that all paths in the session start from. */
  readonly folder: string;
  /** The session's own file. */
  readonly file: string;
  /** Recordings that cannot be used, whatever they sound like. */
  readonly refused: ReadonlyMap<Recording, Finding>;
  /** What should be known about the session as a whole. */
  readonly notes: readonly Finding[];
}

/**
 * Reads a session and holds it against everything that can be known without listening.
 *
 * @param given - the session's folder, or its session.json
 * @throws {InputError} if the session as a whole cannot be used; a fault of one recording only refuses that recording
 */
export async function readSession(given: string): Promise<ReadSession> {
  const file = await sessionFile(given);
  const folder = dirname(file);
  const document = readJsonText(await textOf(file), basename(file));
  refuseOtherKinds(document);
  const session = validate(sessionSchema, document);
  const notes = checkSession(session, document);
  await findSharedFiles(session, folder, document);
  return { session, folder, file, notes, refused: refuseRecordings(session, document) };
}

async function sessionFile(given: string): Promise<string> {
  const entry = await stat(given).catch(() => null);
  if (!entry) {
    throw new InputError(`There is no session at "${given}".`, {
      where: given,
      remedy: "give the folder that holds session.json, or that file",
    });
  }
  if (!entry.isDirectory()) return given;
  const file = join(given, "session.json");
  if (await stat(file).catch(() => null)) return file;
  throw new InputError("The folder holds no session.json.", {
    where: given,
    remedy: "write one that names monitors, positions and recordings; the README has a complete example",
  });
}

async function textOf(file: string): Promise<string> {
  const entry = await stat(file);
  if (!entry.isFile() || entry.size > LARGEST_TEXT || !/\.json$/i.test(file)) {
    throw new InputError("This is not a session.", {
      where: file,
      remedy: "give the folder that holds session.json, or that file",
    });
  }
  const bytes = await readFile(file).catch((error: unknown) => {
    throw new InputError(`The session cannot be read: ${String((error as NodeJS.ErrnoException).code)}.`, {
      where: file,
      remedy: "make the file readable",
    });
  });
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new InputError("The session is not written in UTF-8.", {
      where: file,
      remedy: "save it again as UTF-8 text",
    });
  }
}

/** A sweep recipe or a results file given as a session deserves a better answer than its first unknown key. */
function refuseOtherKinds(document: JsonText): void {
  const kind: unknown = (document.value as { schema?: unknown } | null)?.schema;
  if (typeof kind !== "string" || kind === "carrywell/session/1") return;
  const [tool, what, version] = kind.split("/");
  const newer = tool === "carrywell" && what === "session";
  throw new InputError(
    newer
      ? `The session is version ${version ?? "?"}; this program reads version 1.`
      : `This is "${kind}", no session.`,
    {
      where: placeOf(document, ["schema"]),
      remedy: newer
        ? 'use a newer program, or write "carrywell/session/1"'
        : 'give a file whose "schema" is "carrywell/session/1"',
    },
  );
}

/** Files that the whole session rests on: without one of them nothing can be said. */
async function findSharedFiles(session: Session, folder: string, document: JsonText): Promise<void> {
  const { microphone } = session;
  const shared: { readonly file: string | null | undefined; readonly path: (string | number)[] }[] = [
    { file: session.sweep, path: ["sweep"] },
    {
      file: calibrationFile(microphone),
      path: ["microphone", microphone?.calibrations ? "calibrations" : "calibration"],
    },
    { file: microphone?.level?.file, path: ["microphone", "level", "file"] },
    ...(session.targets ?? []).map((target, index) => ({ file: target.file, path: ["targets", index, "file"] })),
    ...(session.playbackClasses ?? []).map(({ file }, index) => ({ file, path: ["playbackClasses", index, "file"] })),
    { file: programmeFile(session), path: ["translation", "programme"] },
  ];
  for (const { file, path } of shared) {
    if (file == null) continue;
    try {
      await findInside(folder, file);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      throw new InputError(error.message, { where: placeOf(document, path), remedy: error.remedy });
    }
  }
}
