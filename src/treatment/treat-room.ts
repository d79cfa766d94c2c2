import type { Results, Treatment } from "../model.js";
import { measuresFor } from "./measures.js";
import { problemsOf } from "./problem.js";
import { trustGain } from "./trust-gain.js";

/**
 * Says against each trouble that the findings tell which kind of measure works there, and what it would do to the trust map.
 *
 * It lists what physics offers and chooses nothing: what a wall carries, how much of it is free and what sound meets it at which
 * angle nobody has measured.
 *
 * @param results - complete but for this
 * @returns by how many third octaves would be believed more, then by how clearly the trouble is heard
 */
export function treatRoom(results: Results): Treatment {
  const problems = problemsOf(results).map((problem) => ({
    finding: problem.index,
    also: [...problem.also],
    trust: trustGain(problem, results),
    measures: measuresFor(problem.finding, results),
  }));
  const heard = (index: number): number => results.findings[index]!.audibility ?? 0;
  problems.sort(
    (a, b) =>
      (b.trust?.rises ?? 0) - (a.trust?.rises ?? 0) || heard(b.finding) - heard(a.finding) || a.finding - b.finding,
  );
  return { problems };
}
