import type { Finding } from "../model.js";

const TOPICS: readonly Finding["topic"][] = ["trust", "mend", "unknown", "recording"];
const SEVERITIES: readonly Finding["severity"][] = ["reject", "warning", "info"];

/**
 * Orders findings for reading: what to trust, what to mend, what is not known, what was wrong with recordings; in each the
 * grave before the slight, then by how clearly it is heard.
 */
export function ranked(findings: readonly Finding[]): Finding[] {
  const rank = (one: Finding): number =>
    TOPICS.indexOf(one.topic) * SEVERITIES.length + SEVERITIES.indexOf(one.severity);
  return [...findings].sort((a, b) => rank(a) - rank(b) || (b.audibility ?? 0) - (a.audibility ?? 0));
}
