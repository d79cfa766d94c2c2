import type { Check, Results } from "../../model.js";
import { capital, hertz } from "../../words/numbers.js";
import { channelName, monitorName } from "../words/names.js";
import { quantity } from "../words/quantity.js";
import { reasonWords } from "../words/reasons.js";
import { type Block, figures, type Section, table, words } from "./section.js";

/** Every monitor held against what is recommended, with the origin of each limit. */
export function checkSection(results: Results): Section {
  const rows = results.monitors.flatMap(({ id, checks }) =>
    checks.map((check) => [
      words(monitorName(results, id)),
      words(subject(check)),
      figures(check.value === null ? "—" : quantity(check.value, null, check.unit, check.value)),
      words(check.limit),
      words(verdict(check)),
      words(check.source),
    ]),
  );
  const tables: Block[] =
    rows.length === 0
      ? []
      : [
          table({
            caption: "What was found against what is recommended",
            folded: false,
            columns: [
              words("Monitor"),
              words("What"),
              figures("Worst found"),
              words("Limit"),
              words("Verdict"),
              words("Where the limit comes from"),
            ],
            rows,
            notes: [
              "Advisory: the limit is remembered, disputed or a choice of ours, so neither pass nor fail hangs on it.",
            ],
          }),
        ];
  return { id: "checks", heading: "Against the recommendations", pictures: [], tables };
}

function subject({ code, channel, bandHz }: Check): string {
  const where = [
    channel === null ? "" : channelName(channel, false),
    bandHz === null ? "" : `at ${hertz(bandHz)}`,
  ].filter((text) => text !== "");
  const what = capital(code.replaceAll("-", " "));
  return where.length > 0 ? `${what}, ${where.join(", ")}` : what;
}

function verdict({ pass, reason, advisory }: Check): string {
  const kept = pass === null ? "not judged" : pass ? "within" : "beyond";
  const why = pass === null && reason !== null ? `: ${reasonWords(reason)}` : "";
  return `${kept}${advisory ? " (advisory)" : ""}${why}`;
}
