import type { MeasuredMode, RoomModes } from "../../model.js";
import { audibleModeS } from "../../standards/modal-decay.js";
import { hertz } from "../../words/numbers.js";
import { HELD_DB } from "../figures/ring-map.js";
import { audibleWords, measuredName } from "./modes.js";

/** The map's filters smear a mode over a sixth of an octave, to either side of its own range. */
const SMEARED = 2 ** (1 / 6);
/** A tongue is told to half a column of the map. */
const HALF_COLUMN = 2 ** (1 / 24);
/** More are told by the figure. */
const MOST_TOLD = 4;

/** A place of the map where sound lasts longer than stays unheard, and than beside it. */
interface Tongue {
  readonly frequencyHz: number;
  /** Time over the longest that stays unheard. */
  readonly over: number;
}

/** Says of the ring map's tongues that pass the limit why they are not called ringing. */
export function otherTongues(modes: RoomModes, nameOf: (monitor: string) => string): string {
  const heard = modes.measured.filter(({ audible }) => audible === true);
  const others = tonguesOf(modes).filter((tongue) => !heard.some((mode) => reaches(mode, tongue)));
  if (others.length === 0) return "";
  const told = others.slice(0, MOST_TOLD).map((tongue) => `${hertz(Math.round(tongue.frequencyHz))} (${why(tongue)})`);
  const more = others.length > MOST_TOLD ? `; ${others.length - MOST_TOLD} more` : "";
  return `Past the line as well, and not called ringing: ${told.join("; ")}${more}.`;

  function why(tongue: Tongue): string {
    const own = modes.measured.filter((mode) => reaches(mode, tongue));
    const nearest = own.toSorted(
      (a, b) => outside(a, tongue) - outside(b, tongue) || off(a, tongue) - off(b, tongue),
    )[0];
    return nearest ? `${measuredName(nearest)}: ${audibleWords(nearest, nameOf)}` : "no mode was found there";
  }
}

/** By how far they pass the line, the furthest first; of all monitors' maps together. */
function tonguesOf({ ringMaps }: RoomModes): Tongue[] {
  const frequencyHz = ringMaps[0]?.frequencyHz ?? [];
  const over = frequencyHz.map((hz, k) => {
    const times = ringMaps.map(({ falls }) => falls.find(({ byDb }) => byDb === HELD_DB)?.timeS[k] ?? 0);
    const limitS = audibleModeS(hz);
    return limitS === null ? 0 : Math.max(...times) / ((limitS * HELD_DB) / 60);
  });
  return frequencyHz
    .map((hz, k) => ({ frequencyHz: hz, over: over[k]!, before: over[k - 1] ?? 0, after: over[k + 1] ?? 0 }))
    .filter((one) => one.over > 1 && one.over > one.before && one.over >= one.after)
    .sort((a, b) => b.over - a.over);
}

function reaches({ rangeHz }: MeasuredMode, { frequencyHz }: Tongue): boolean {
  return frequencyHz > rangeHz[0] / SMEARED && frequencyHz < rangeHz[1] * SMEARED;
}

/** How far the tongue lies outside a mode's or a group's own range: a group's middle may be far from what it holds. */
function outside({ rangeHz }: MeasuredMode, { frequencyHz }: Tongue): number {
  return Math.max(
    0,
    Math.log(rangeHz[0] / frequencyHz / HALF_COLUMN),
    Math.log(frequencyHz / rangeHz[1] / HALF_COLUMN),
  );
}

function off(mode: MeasuredMode, tongue: Tongue): number {
  return Math.abs(Math.log(mode.frequencyHz / tongue.frequencyHz));
}
