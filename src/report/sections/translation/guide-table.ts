import type { Results, Translation } from "../../../model.js";
import { capital, held, hertz, listed } from "../../../words/numbers.js";
import { shortMonitorName } from "../../words/names.js";
import { type Block, type Cell, marked, table, words } from "../section.js";
import { isWorthASentence, worthDb } from "./drift-words.js";
import { gradeMarks } from "./trust-strips.js";

type Row = Translation["guide"][number];

/** Musical regions against monitors: what to believe for what, and what else to do. */
export function guideTable(results: Results, translation: Translation): Block {
  const { guide } = translation;
  const monitors = guidedMonitors(guide);
  return table({
    caption: "Disc: believe it here. Triangle: with care. Cross: blind.",
    folded: false,
    columns: [words("Region"), ...monitors.map((id) => words(shortMonitorName(results, id))), words("What to do")],
    rows: guide.map((row) => [
      words(held(`${capital(row.region)}, ${hertz(row.fromHz)} to ${hertz(row.toHz)}: ${row.carries}`)),
      ...monitors.map((id) => gradeCell(row, id)),
      words(row.verdict === "all" ? settled(row, translation) : row.advice),
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

/** Each may be right by its own target and still sound unlike the other. */
function settled({ region: name, believe }: Row, translation: Translation): string {
  if (believe.length === 1) return `Set it on ${listed(believe)}.`;
  const differ = translation.drift.some(({ mixedOn, heardOn, regions }) => {
    if (mixedOn === heardOn || !believe.includes(mixedOn) || !believe.includes(heardOn)) return false;
    const region = regions.find((one) => one.region === name);
    return region !== undefined && isWorthASentence(region.driftDb, region.rangeDb, worthDb(translation));
  });
  return differ
    ? "Set it on any of them, but stay with one: they do not sound alike here (see where mixes drift)."
    : "Set it on any of them.";
}
