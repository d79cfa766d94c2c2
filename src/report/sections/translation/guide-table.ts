import type { Results, Translation } from "../../../model.js";
import { capital, held, hertz, listed } from "../../../words/numbers.js";
import { shortMonitorName } from "../../words/names.js";
import { type Block, type Cell, marked, table, words } from "../section.js";
import { gradeMarks } from "./trust-strips.js";

type Row = Translation["guide"][number];

/** Musical regions against monitors: what to believe for what, and what else to do. */
export function guideTable(results: Results, { guide }: Translation): Block {
  const monitors = guidedMonitors(guide);
  return table({
    caption: "Disc: believe it here. Triangle: with care. Cross: blind.",
    folded: false,
    columns: [words("Region"), ...monitors.map((id) => words(shortMonitorName(results, id))), words("What to do")],
    rows: guide.map((row) => [
      words(held(`${capital(row.region)}, ${hertz(row.fromHz)} to ${hertz(row.toHz)}: ${row.carries}`)),
      ...monitors.map((id) => gradeCell(row, id)),
      words(row.verdict === "all" ? settled(row) : row.advice),
    ]),
    notes: [],
  });
}

function guidedMonitors(guide: readonly Row[]): string[] {
  return [
    ...new Set(guide.flatMap(({ believe, care, blind, unknown }) => [...believe, ...care, ...blind, ...unknown])),
  ];
}

function gradeCell({ believe, care, blind }: Row, id: string): Cell {
  if (believe.includes(id)) return marked(gradeMarks.believe, "believe");
  if (care.includes(id)) return marked(gradeMarks.care, "care");
  if (blind.includes(id)) return marked(gradeMarks.blind, "blind");
  return marked("unknown", "not measured");
}

function settled({ believe }: Row): string {
  return believe.length === 1 ? `Set it on ${listed(believe)}.` : "Set it on any of them.";
}
