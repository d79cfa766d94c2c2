import type { Changes, Said } from "../../schema/changes.js";
import { countedOnce } from "../../schema/counted-once.js";
import { capital, held } from "../../words/numbers.js";
import { sideNames } from "./names.js";

const COUNTS = [
  "nothing",
  "one thing",
  "two things",
  "three things",
  "four things",
  "five things",
  "six things",
] as const;

/** What it comes to in two sentences: how much is better and worse, and what to do first. */
export function leadWords(changes: Changes): string {
  const { says, compares } = changes;
  const of = (topic: Said["topic"]): readonly Said[] => says.filter((one) => one.topic === topic);
  const [better, worse] = [countedOnce(says, "better"), countedOnce(says, "worse")];
  if (compares === "monitors") {
    const { before, after } = sideNames(changes);
    const where = `${capital(after)} is better than ${before} in ${count(better)} and worse in ${count(worse)}`;
    return held(better.length + worse.length === 0 ? "Neither is better anywhere for certain." : `${where}.`);
  }
  const what =
    better.length + worse.length === 0
      ? "Nothing has become better or worse for certain"
      : `${capital(count(better))} ${better.length > 1 ? "are" : "is"} better for certain, and ${count(worse)} worse`;
  const first = [...worse, ...of("unknown")].find((one) => one.remedy !== null);
  if (first?.remedy == null) return held(`${what}.`);
  const whom = first.topic === "worse" && first.monitor !== null ? `, for ${first.monitor}` : "";
  return held(`${what}. First${whom}: ${first.remedy}.`);
}

function count(said: readonly Said[]): string {
  return COUNTS[said.length] ?? `${String(said.length)} things`;
}
