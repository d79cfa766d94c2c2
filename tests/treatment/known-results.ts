import { findFindings } from "../../src/findings/find-findings.js";
import type { Finding, Results, Translation } from "../../src/model.js";
import { LIMITS } from "../../src/translation/limits.js";
import { trustMap } from "../../src/translation/trust-map.js";
import type { Evidence } from "../../src/translation/trust/rules.js";
import { quietResults } from "../findings/quiet-results.js";
import { evidence } from "../translation/known-case.js";

/** Results of the mains whose trust map is made by the real rules of what is known of them. */
export function resultsOf(
  parts: Partial<Evidence>,
  findings: readonly Finding[],
  change: Partial<Results> = {},
): Results {
  const quiet = quietResults();
  const known = evidence(parts);
  const bands = trustMap(known).bands.map((band) => ({ ...band, reasons: band.reasons.map((one) => ({ ...one })) }));
  const translation = {
    limits: Object.values(LIMITS).map((limit) => ({ ...limit, rangeHz: [...limit.rangeHz] })),
    trust: [{ monitor: "mains", bands, notJudged: [] }],
  } as unknown as Translation;
  return {
    ...quiet,
    monitors: quiet.monitors.map((one) => (one.id === "mains" ? { ...one, leftRight: known.result.leftRight } : one)),
    measurements: quiet.measurements.map((one) => {
      const side = known.sides.find(({ channel }) => channel === one.channel);
      return one.monitor === "mains" && one.position === "mix" && side
        ? { ...one, reflections: side.reflections }
        : one;
    }),
    translation,
    findings: [...findings],
    ...change,
  };
}

/** What the findings' own rules say of results. */
export function told(change: Partial<Results>): Results {
  const results = { ...quietResults(), ...change };
  return { ...results, findings: findFindings(results) };
}
