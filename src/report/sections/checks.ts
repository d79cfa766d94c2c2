import type { Check, Results } from "../../model.js";
import { capital, hertz, unknownMark } from "../../words/numbers.js";
import { checkName } from "../words/checks.js";
import { channelName, monitorName } from "../words/names.js";
import { quantity } from "../words/quantity.js";
import { reasonWords } from "../words/reasons.js";
import { type Block, figures, type Section, table, words } from "./section.js";

/** Every monitor held against what is recommended; each limit with its origin, once. */
export function checkSection(results: Results): Section {
  const section = { id: "checks", heading: "Against the recommendations", pictures: [] };
  const checks = results.monitors.flatMap((monitor) => monitor.checks);
  if (checks.length === 0) return { ...section, tables: [] };
  const limits = new Map(checks.map((check) => [check.code, limitWords(check)]));
  const tables: Block[] = [
    verdictTable(results),
    { kind: "heading", text: "These limits, and where they come from" },
    { kind: "list", items: [...limits.values()] },
  ];
  return { ...section, tables };
}

function verdictTable(results: Results): Block {
  return table({
    caption: "What was found against what is recommended",
    folded: false,
    columns: [words("Monitor"), words("What"), figures("Worst found"), figures("At"), words("Verdict")],
    rows: results.monitors.flatMap(({ id, checks }) =>
      checks.map((check) => [
        words(monitorName(results, id)),
        words(subject(check)),
        figures(check.value === null ? unknownMark : quantity(check.value, null, check.unit, check.value)),
        figures(check.bandHz === null ? "" : hertz(check.bandHz)),
        words(verdict(check)),
      ]),
    ),
    notes: ["Advisory: the limit is remembered, disputed or a choice of ours, so neither pass nor fail hangs on it."],
  });
}

function subject({ code, channel }: Check): string {
  return channel === null ? checkName(code) : `${checkName(code)}, ${channelName(channel, false)}`;
}

function verdict({ pass, reason, advisory }: Check): string {
  const kept = pass === null ? "not judged" : pass ? "within" : "beyond";
  const why = reason === null ? "" : `: ${reasonWords(reason)}`;
  return `${kept}${advisory ? " (advisory)" : ""}${why}`;
}

function limitWords({ code, limit, source }: Check): string {
  return minusSigns(`${checkName(code)}: ${capital(limit)}. From ${source}.`);
}

/** Hyphens before figures, as plain texts have them, become true minus signs; those of ranges stay. */
function minusSigns(text: string): string {
  return text.replace(/(^|[\s(])-(?=\d)/g, "$1\u2212");
}
