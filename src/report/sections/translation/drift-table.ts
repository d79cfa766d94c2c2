import type { Results, Translation } from "../../../model.js";
import { capital, fixed, hertz, signed } from "../../../words/numbers.js";
import { shortMonitorName } from "../../words/names.js";
import { type Block, type Cell, figures, table, words } from "../section.js";
import { type Drift, heardName, isClass, rangeWords, worthDb } from "./drift-words.js";

/** The figures of one row of the picture's groups: by region and system. */
export function driftTable(results: Results, translation: Translation, mixedOn: string): Block {
  const rows = translation.drift.filter((one) => one.mixedOn === mixedOn);
  const regions = rows[0]?.regions.map(({ region }) => region) ?? [];
  const worth = worthDb(translation);
  return table(
    {
      caption: `Mixed on ${shortMonitorName(results, mixedOn)}: how much louder than meant each region comes out, dB`,
      folded: true,
      columns: [words("Region"), ...rows.map(({ heardOn }) => figures(heardName(results, heardOn)))],
      rows: [
        ...regions.map((region) => [words(capital(region)), ...rows.map((one) => driftCell(one, region, worth))]),
        [words("Band that drifts most"), ...rows.map(worstCell)],
      ],
      notes: [
        `A range, lowest to highest. Dot: under ${fixed(worth, 1)} dB, not worth a thought. Of a kind of device: what this room adds; what the device does to every mix stands in results.json and in the picture.`,
      ],
    },
    "not known: one of the two was not measured there.",
  );
}

function driftCell(drift: Drift, name: string, worth: number): Cell {
  const region = drift.regions.find((one) => one.region === name);
  if (!region) return figures("—");
  if (!region.controlled) return words("uncontrolled");
  // What a device does to every mix is no fault of this room.
  const rangeDb = isClass(drift) ? region.roomShareRangeDb : region.rangeDb;
  if (rangeDb === null) return figures("—");
  if (Math.max(Math.abs(rangeDb[0]), Math.abs(rangeDb[1])) < worth) return figures("·");
  return figures(rangeWords(rangeDb).replace(/ dB$/, ""));
}

function worstCell({ worst }: Drift): Cell {
  return figures(worst === null ? "—" : `${hertz(worst.nominalHz)}: ${signed(worst.driftDb, 1)}`);
}
