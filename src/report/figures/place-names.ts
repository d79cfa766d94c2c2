import type { PlotName } from "./figure.js";

/** A place along an axis that wants to be named. */
export interface Wanted {
  readonly text: string;
  readonly x: number;
  readonly y: number;
}

/** Where a name lies: its row, and its ends along the axis; its hairline falls from the row at `x`. */
interface Place {
  readonly x: number;
  readonly from: number;
  readonly to: number;
  readonly row: number;
  readonly side: PlotName["side"];
}

/**
 * Lays out names in rows above a curve so that no name touches another or another's hairline.
 *
 * A name that cannot be placed together with all the more important ones is left out.
 *
 * @param wanted - the most important first; the search doubles with each few, so keep it short
 * @param rowsY - the lowest row first
 * @param range - of the axis across
 * @param perLetter - width of a letter, in units of the axis across
 */
export function placeNames(
  wanted: readonly Wanted[],
  rowsY: readonly number[],
  range: readonly [number, number],
  perLetter: number,
  page: PlotName["page"],
): PlotName[] {
  const margin = 0.7 * perLetter;
  let named: readonly Wanted[] = [];
  let places: readonly Place[] = [];
  for (const one of wanted) {
    const more = [...named, one].sort((a, b) => a.x - b.x);
    const found = layOut(
      more.map((each) => choices(each, rowsY.length, range, perLetter)),
      margin,
    );
    if (!found) continue;
    named = more;
    places = found;
  }
  return named.map(({ text, x, y }, index) => {
    const { row, side } = places[index]!;
    return { text, x, y, rowY: rowsY[row]!, side, page };
  });
}

/** Everywhere that a name may lie: low rows first, and to the right of its hairline before the left. */
function choices({ text, x }: Wanted, rows: number, range: readonly [number, number], perLetter: number): Place[] {
  const width = text.length * perLetter;
  return Array.from({ length: rows }, (_, row): Place[] => [
    { x, from: x, to: x + width, row, side: "right" },
    { x, from: x - width, to: x, row, side: "left" },
  ])
    .flat()
    .filter(({ from, to }) => from >= range[0] && to <= range[1]);
}

/** Picks one place for each so that none collide; null where there is no such pick. */
function layOut(
  options: readonly (readonly Place[])[],
  margin: number,
  taken: readonly Place[] = [],
): readonly Place[] | null {
  const [own, ...others] = options;
  if (!own) return taken;
  for (const place of own) {
    if (taken.some((other) => collide(place, other, margin))) continue;
    const all = layOut(others, margin, [...taken, place]);
    if (all) return all;
  }
  return null;
}

function collide(a: Place, b: Place, margin: number): boolean {
  if (a.row === b.row) return a.from < b.to + margin && b.from < a.to + margin;
  const [high, low] = a.row > b.row ? [a, b] : [b, a];
  return high.x > low.from - margin && high.x < low.to + margin;
}
