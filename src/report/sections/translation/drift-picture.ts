import type { Results, Translation } from "../../../model.js";
import { REGIONS } from "../../../standards/regions.js";
import { capital, hertz, signed } from "../../../words/numbers.js";
import { shortMonitorName } from "../../words/names.js";
import type { Bar, Bars } from "../section.js";
import {
  cellWords,
  type Drift,
  type DriftRegion,
  heardName,
  isClass,
  isWorthASentence,
  worthDb,
} from "./drift-words.js";

/** A bar ends at so many dB to either side; what goes further ends in a point. */
const END_DB = 9;

/** Where mixes come out louder or quieter than meant, system by system and region by region, to be read at a glance. */
export function driftPicture(results: Results, translation: Translation): Bars {
  const { drift } = translation;
  const mixedOn = [...new Set(drift.map((one) => one.mixedOn))];
  return {
    kind: "bars",
    id: "drift",
    title: "Up: comes out louder than meant. Down: quieter.",
    see: `Dark: worth a thought. Grey: small, or its range holds zero. Outlined: what such a device does to every mix, whoever made it. Hatched: nobody controlled it. The dotted lines stand at ${String(END_DB)} dB; a point goes beyond.`,
    columns: columnsOf(drift).map(({ region }) => capital(region)),
    groups: mixedOn.map((id) => ({
      name: `Mixed on ${shortMonitorName(results, id)}, heard on`,
      rows: drift
        .filter((one) => one.mixedOn === id)
        .map((one) => ({
          name: heardName(results, one.heardOn),
          aside:
            isClass(one) || one.worst === null
              ? ""
              : `most: ${signed(one.worst.driftDb, 1)} dB, ${hertz(one.worst.nominalHz)}`,
          cells: one.regions.map((region) => ({
            title: cellWords(results, one, region, edgesOf(region)),
            bars: barsOf(one, region, worthDb(translation)),
          })),
        })),
    })),
    caption:
      "Each bar is a range, not a figure with an error: from the least to the most that is to be reckoned with. The figures stand in the tables below.",
  };
}

function columnsOf(drift: readonly Drift[]): readonly DriftRegion[] {
  return drift[0]?.regions ?? [];
}

function edgesOf({ region: name }: DriftRegion): string {
  const region = REGIONS.find((one) => one.name === name);
  return region === undefined ? "" : `${hertz(region.fromHz)} to ${hertz(region.toHz)}`;
}

/** A device's own share and the room's stand side by side, never added. */
function barsOf(drift: Drift, region: DriftRegion, worth: number): Bar[] {
  const device = isClass(drift);
  const rangeDb = device ? region.roomShareRangeDb : region.rangeDb;
  const driftDb = device ? region.roomShareDb : region.driftDb;
  const look = isWorthASentence(driftDb, rangeDb, worth) ? "dark" : "grey";
  return [
    ...(device ? barOf(region.systemShareRangeDb, "outlined") : []),
    ...(region.controlled ? barOf(rangeDb, look) : [uncontrolled]),
  ];
}

const uncontrolled: Bar = { look: "hatched", from: -1, to: 1, near: 0, beyond: "none" };

function barOf(rangeDb: DriftRegion["rangeDb"], look: Bar["look"]): Bar[] {
  if (rangeDb === null) return [];
  const inside = (db: number): number => Math.max(-1, Math.min(1, db / END_DB));
  const [from, to] = [inside(rangeDb[0]), inside(rangeDb[1])];
  const near = from > 0 ? from : to < 0 ? to : 0;
  const beyond = rangeDb[0] < -END_DB ? "below" : rangeDb[1] > END_DB ? "above" : "none";
  return [{ look, from, to, near, beyond }];
}
