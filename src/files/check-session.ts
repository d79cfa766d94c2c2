import { InputError } from "../errors.js";
import { stated } from "../findings/stated.js";
import type { Finding, Session } from "../model.js";
import { builtInTargets } from "../schema/built-in-targets.js";
import { calibrationFile } from "../schema/calibration-file.js";
import type { JsonPath, JsonText } from "../schema/json-text.js";
import { nearestName } from "../schema/nearest-name.js";
import { placeOf } from "../schema/validate.js";
import { PLAYBACK_CLASSES } from "../standards/playback-classes.js";
import { checkPanels } from "./check-panels.js";
import { checkPlaces } from "./check-places.js";
import { refuseContradictingVolume } from "./check-room.js";

/**
 * Holds a session against itself: ids that are unique, one mix position, names that exist, places inside the room.
 *
 * @returns what should be known, though the session can be used
 * @throws {InputError} at the first contradiction
 */
export function checkSession(session: Session, document: JsonText): Finding[] {
  refuseTwins("monitors", session.monitors, document);
  refuseTwins("positions", session.positions, document);
  refuseTwins("panels", session.panels ?? [], document);
  refuseTwins("targets", session.targets ?? [], document);
  refuseTwins("playbackClasses", session.playbackClasses ?? [], document, "playback classes");
  refuseBuiltInNames("targets", "target", session.targets ?? [], builtInTargets, document);
  refuseBuiltInNames("playbackClasses", "playback class", session.playbackClasses ?? [], builtInClasses, document);
  refuseContradictingVolume(session, document);
  checkTargets(session, document);
  checkCalibrations(session, document);
  checkPanels(session, document);
  checkPlaces(session, document);
  const mixes = session.positions.flatMap(({ kind }, index) => (kind === "mix" ? [index] : []));
  if (mixes.length > 1) {
    throw new InputError("More than one position is of the kind mix.", {
      where: placeOf(document, ["positions", mixes[1] ?? 0, "kind"]),
      remedy: 'keep the place where the engineer sits as "mix", and call the others "near" or "room"',
    });
  }
  return mixes.length === 0 ? [noMixPosition] : [];
}

const builtInClasses = PLAYBACK_CLASSES.map(({ id }) => id);

const noMixPosition = stated("no-mix-position", undefined, { severity: "warning", topic: "unknown" });

function refuseTwins(
  list: string,
  entries: readonly { readonly id: string }[],
  document: JsonText,
  called = list,
): void {
  const seen = new Map<string, string>();
  for (const [index, { id }] of entries.entries()) {
    const twin = seen.get(id.toLowerCase());
    if (twin !== undefined) {
      throw new InputError(`Two ${called} have the same id: "${twin}" and "${id}".`, {
        where: placeOf(document, [list, index, "id"]),
        remedy: "give each its own id; capitals do not tell ids apart",
      });
    }
    seen.set(id.toLowerCase(), id);
  }
}

/** A file under a built-in name would be passed over, or would change what that name means. */
function refuseBuiltInNames(
  list: string,
  what: string,
  entries: readonly { readonly id: string }[],
  builtIn: readonly string[],
  document: JsonText,
): void {
  for (const [index, { id }] of entries.entries()) {
    if (!builtIn.includes(id.toLowerCase())) continue;
    throw new InputError(`The ${what}'s id "${id}" is the name of a built-in ${what}.`, {
      where: placeOf(document, [list, index, "id"]),
      remedy: `give it another id than ${builtIn.join(", ")}`,
    });
  }
}

/** Which table is in use must not be a guess. */
function checkCalibrations({ microphone }: Session, document: JsonText): void {
  const { calibration, calibrations, orientationDeg } = microphone ?? {};
  if (!calibrations || (calibration === undefined && calibrationFile(microphone) !== null)) return;
  const where = placeOf(document, ["microphone", "calibrations"]);
  if (calibration !== undefined) {
    throw new InputError('The microphone has both "calibration" and "calibrations".', {
      where,
      remedy: "keep one of the two",
    });
  }
  const held = calibrations.map((one) => `${one.orientationDeg}°`).join(", ");
  const use = orientationDeg === undefined ? "does not say which is in use" : `is in use at ${orientationDeg}°`;
  throw new InputError(`The microphone has tables for ${held}, and ${use}.`, {
    where,
    remedy: 'give "orientationDeg" of the microphone as one of them',
  });
}

function checkTargets(session: Session, document: JsonText): void {
  const known = [...(session.targets ?? []).map(({ id }) => id), ...builtInTargets];
  const check = (id: string | undefined, path: JsonPath): void => {
    if (id === undefined || known.includes(id)) return;
    const nearest = nearestName(id, known);
    throw new InputError(`There is no target "${id}".`, {
      where: placeOf(document, path),
      remedy:
        nearest === null ? `add it to "targets", or use one of: ${known.join(", ")}` : `did you mean "${nearest}"?`,
    });
  };
  for (const [index, monitor] of session.monitors.entries()) check(monitor.target, ["monitors", index, "target"]);
  check(session.reference, ["reference"]);
}
