import type { Results, Translation } from "../../../model.js";
import { bandLabel, fixed, hertz } from "../../../words/numbers.js";
import { shortMonitorName } from "../../words/names.js";
import type { Block, Mark } from "../section.js";

export const gradeMarks: Readonly<Record<"believe" | "care" | "blind", Mark>> = {
  believe: "trust",
  care: "mend",
  blind: "refused",
};

/** Every third octave of every monitor as a mark. */
export function trustStrips(results: Results, { trust }: Translation): Block {
  return {
    kind: "strips",
    id: "trust-map",
    title: "Can a balance be judged here?",
    see: "The same marks, by third octave from 25 Hz to 16 kHz.",
    rows: trust.map((one) => ({
      name: shortMonitorName(results, one.monitor),
      cells: one.bands.map(({ nominalHz, grade, reasons }, k) => ({
        mark: grade === null ? ("unknown" as const) : gradeMarks[grade],
        tick: k % TICK_EVERY === 1 ? bandLabel(nominalHz) : "",
        title: `${hertz(nominalHz)}: ${grade ?? "not measured"}${reasons.length === 0 ? "" : ` (${becauseWords(reasons)})`}`,
      })),
    })),
    caption: "Limits and their sources stand with the tables.",
  };
}

/** An octave. */
const TICK_EVERY = 3;

type Reasons = Translation["trust"][number]["bands"][number]["reasons"];

/** "ringing 1.5 s (limit 0.6)": every reason with its value and limit. */
export function becauseWords(reasons: Reasons): string {
  const each = reasons.map(({ code, value, limit, unit }) => {
    const size = value === null ? "" : ` ${fixed(value, 1)}${unit === null ? "" : ` ${unit}`}`;
    const most = limit === null ? "" : ` (limit ${fixed(limit, 1)})`;
    return `${code.replaceAll("-", " ")}${size}${most}`;
  });
  return each.join("; ");
}
