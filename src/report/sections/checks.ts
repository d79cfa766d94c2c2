import type { Check, Results } from "../../model.js";
import { hertz, unknownMark } from "../../words/numbers.js";
import { checkName } from "../words/checks.js";
import { minusSigns } from "../words/minus-signs.js";
import { channelName, shortMonitorName } from "../words/names.js";
import { quantity } from "../../words/quantity.js";
import { reasonWords } from "../words/reasons.js";
import { type Block, figures, type Section, table, words } from "./section.js";

/** Every monitor held against what is recommended; each limit with its origin, once. */
export function checkSection(results: Results): Section {
  const section = { id: "checks", heading: "Against the recommendations", pictures: [] };
  const checks = results.monitors.flatMap((monitor) => monitor.checks);
  if (checks.length === 0) return { ...section, tables: [] };
  return { ...section, tables: [verdictTable(results), limitTable(checks)] };
}

function verdictTable(results: Results): Block {
  return table({
    caption: "What was found against what is recommended",
    folded: false,
    columns: [words("Monitor"), words("What"), figures("Worst found"), figures("At"), words("Verdict")],
    rows: results.monitors.flatMap(({ id, checks }) =>
      checks.map((check) => [
        words(shortMonitorName(results, id)),
        words(subject(check)),
        figures(check.value === null ? unknownMark : quantity(check.value, null, check.unit, check.value)),
        figures(check.bandHz === null ? "" : hertz(check.bandHz)),
        words(verdict(check)),
      ]),
    ),
    notes: [
      "Of response and reverberation: by how much the limits are exceeded.",
      "Advisory: the limit is remembered, disputed or a choice of ours, so neither pass nor fail hangs on it.",
    ],
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

/** Each limit once, however many monitors and channels were held against it. */
function limitTable(checks: readonly Check[]): Block {
  const distinct = new Map(checks.map((check) => [check.code, check]));
  return table({
    caption: "These limits, and where they come from",
    folded: true,
    columns: [words("What"), words("Limit"), words("From")],
    rows: [...distinct.values()].map(({ code, limit, source }) => [
      words(checkName(code)),
      words(minusSigns(limit)),
      words(minusSigns(source)),
    ]),
    notes: [],
  });
}
