import { type ClassMember, classLevelDb, type PlaybackClass } from "../standards/playback-classes/playback-class.js";
import { alignmentDb, BANDS } from "./bands.js";
import type { HeardOn } from "./drift.js";

/**
 * A playback class as deviation from neutral: its typical curve aligned over 200 Hz-4 kHz, the poor and the good member with it.
 *
 * @throws {RangeError} if the class says nothing in part of 200 Hz-4 kHz
 */
export function classDeviation(
  playbackClass: PlaybackClass,
): HeardOn & { readonly envelope: NonNullable<HeardOn["envelope"]> } {
  const curve = (member: ClassMember): (number | null)[] =>
    BANDS.map(({ nominalHz }) => classLevelDb(playbackClass, nominalHz, member));
  const offsetDb = alignmentDb(curve("typical"));
  if (offsetDb === null) throw new RangeError(`the class "${playbackClass.id}" must cover 200 Hz to 4 kHz`);
  const aligned = (member: ClassMember): (number | null)[] =>
    curve(member).map((level) => (level === null ? null : level - offsetDb));
  return {
    id: `class:${playbackClass.id}`,
    name: playbackClass.name,
    kind: "class",
    deviationDb: aligned("typical"),
    uncertaintyDb: BANDS.map(() => 0),
    envelope: { lowDb: aligned("low"), highDb: aligned("high") },
  };
}
