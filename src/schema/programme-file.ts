import type { Session } from "./session.js";
import { isSoundName } from "./sound-name.js";

/** The sound file that a session names as its programme; null where the programme is a built-in one, or none that there is. */
export function programmeFile({ translation }: Pick<Session, "translation">): string | null {
  const name = translation?.programme ?? "";
  return isSoundName(name) ? name : null;
}
