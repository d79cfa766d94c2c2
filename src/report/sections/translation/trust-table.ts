import type { Results, Translation } from "../../../model.js";
import { hertz } from "../../../words/numbers.js";
import { shortMonitorName } from "../../words/names.js";
import { type Block, table, words } from "../section.js";
import { becauseWords } from "./trust-strips.js";

/** What stands behind the marks, band by band, for whoever cannot point at them or reads on paper. */
export function trustTable(results: Results, { trust }: Translation): Block {
  const bands = trust[0]?.bands ?? [];
  return table(
    {
      caption: "Why: what speaks against each monitor, by third octave",
      folded: true,
      columns: [words("Band"), ...trust.map(({ monitor }) => words(shortMonitorName(results, monitor)))],
      rows: bands.flatMap(({ nominalHz }, k) => {
        const cells = trust.map((one) => one.bands[k]!);
        if (cells.every(({ reasons }) => reasons.length === 0)) return [];
        return [
          [
            words(hertz(nominalHz)),
            ...cells.map(({ grade, reasons }) =>
              words(
                reasons.length === 0
                  ? (grade ?? "not measured")
                  : `${grade ?? "not measured"}: ${becauseWords(reasons)}`,
              ),
            ),
          ],
        ];
      }),
      notes: ["Bands that are not listed are believed everywhere. Limits and their sources stand with the tables."],
    },
    "nothing speaks against any of them.",
  );
}
