import type { Code, FactsOf } from "../findings/catalogue.js";
import { stated } from "../findings/stated.js";
import type { Finding, Recording, Session } from "../model.js";
import type { JsonText } from "../schema/json-text.js";
import { nearestName } from "../schema/nearest-name.js";
import { placeOf } from "../schema/validate.js";

/** Finds the recordings whose entry in the session cannot be right; the others do not suffer for them. */
export function refuseRecordings(session: Session, document: JsonText): Map<Recording, Finding> {
  const refused = new Map<Recording, Finding>();
  const entries = new Map<string, number>();
  for (const [index, recording] of session.recordings.entries()) {
    const finding =
      unknownId("monitor", recording, session.monitors, index, document) ??
      unknownId("position", recording, session.positions, index, document) ??
      repeated(recording, entries.get(entryOf(recording)), index, document);
    if (finding) refused.set(recording, finding);
    else entries.set(entryOf(recording), index);
  }
  return refused;
}

function unknownId(
  kind: "monitor" | "position",
  recording: Recording,
  known: readonly { readonly id: string }[],
  index: number,
  document: JsonText,
): Finding | null {
  const id = recording[kind];
  const ids = known.map((one) => one.id);
  if (ids.includes(id)) return null;
  const nearest = nearestName(id, ids);
  const place = placeOf(document, ["recordings", index, kind]);
  return refusal(recording, `unknown-${kind}`, { id, place, known: ids, nearest });
}

/** The same sound listed twice would pass for a second take that agrees perfectly. */
function repeated(
  recording: Recording,
  earlier: number | undefined,
  index: number,
  document: JsonText,
): Finding | null {
  if (earlier === undefined) return null;
  return refusal(recording, "listed-twice", { earlier, place: placeOf(document, ["recordings", index]) });
}

function entryOf({ file, fileChannel, channel }: Recording): string {
  return JSON.stringify([file, fileChannel ?? null, channel ?? null]);
}

function refusal<C extends Code>(recording: Recording, code: C, facts: FactsOf<C>): Finding {
  return stated(code, facts, { severity: "reject", topic: "recording", recordings: [recording.file] });
}
