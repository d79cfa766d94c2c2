import type { Finding } from "../model.js";
import { finding } from "../schema/finding.js";
import { catalogue, type Code, type FactsOf } from "./catalogue.js";
import type { Wording } from "./wording.js";

/** Makes a finding: the words come from the catalogue, the figures from the rule. */
export function stated<C extends Code>(
  code: C,
  facts: FactsOf<C>,
  parts: Pick<Finding, "severity" | "topic"> & Partial<Finding>,
): Finding {
  const word = catalogue[code] as (facts: FactsOf<C>) => Wording;
  return finding({ code, ...word(facts), ...parts });
}
