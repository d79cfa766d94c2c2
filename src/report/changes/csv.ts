import type { Changes } from "../../schema/changes.js";
import { csv } from "../csv.js";

const columns = [
  "pair",
  "monitor",
  "channel",
  "position",
  "quantity",
  "bandHz",
  "fraction",
  "atS",
  "unit",
  "before",
  "after",
  "difference",
  "uncertainty",
  "justNoticeable",
  "needed",
  "change",
  "verdict",
  "because",
  "missing",
] as const;

/** Every figure of a comparison as one table: full precision, an empty cell for null. */
export function changesCsv({ pairs }: Changes): string {
  return csv(
    columns,
    pairs.flatMap(({ id, monitor, channel, position, quantities }) =>
      quantities.map((one) => {
        const row = { pair: id, monitor, channel, position, ...one };
        return columns.map((column) => row[column]);
      }),
    ),
  );
}
