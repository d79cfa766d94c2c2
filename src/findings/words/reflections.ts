import { fixed } from "../../words/numbers.js";
import { type Decibels, decibels } from "../phrases/decibels.js";
import { milliseconds } from "../phrases/durations.js";
import { sideOf, sides } from "../phrases/sides.js";
import type { Wordings } from "../wording.js";

/** What follows the direct sound closely. */
export const reflectionWords = {
  "early-reflection": (
    f: Decibels & {
      monitor: string;
      channels: readonly string[];
      delayS: number;
      pathM: number;
      desk: boolean;
      /** By the places stated; null where they are not, or tell nothing. */
      from: { readonly text: string; readonly at: readonly number[] | null } | null;
    },
  ) => ({
    message: `A strong reflection follows the direct sound of ${f.monitor} (${sides(f.channels)}) by ${milliseconds(f.delayS)}: only ${decibels(f)} weaker, where 10 dB are asked for. Its detour is ${fixed(f.pathM, 2)} m.${f.from === null ? "" : ` By the places stated it comes by way of ${f.from.text}.`}`,
    remedy: f.from?.at
      ? `cover or turn that surface where the sound${f.channels.length > 1 ? " of the left one" : ""} meets it, ${fixed(f.from.at[0]!, 2)} m from the front wall, ${fixed(f.from.at[1]!, 2)} m from the left one and ${fixed(f.from.at[2]!, 2)} m up; if it is a desk, clear or angle its top, or raise the loudspeakers; then measure again`
      : f.desk
        ? "look at the desk first: clear or angle its top, raise or move these loudspeakers, and measure again"
        : "find the surface (from your seat, a mirror moved along it shows the loudspeaker) and put an absorber there or turn it",
  }),
  "one-sided-reflection": (f: Decibels & { monitor: string; channel: string; delayS: number; pathM: number }) => ({
    message: `Only the ${sideOf(f.channel)} side of ${f.monitor} has a strong reflection ${milliseconds(f.delayS)} after the direct sound, ${decibels(f)} weaker; its detour is ${fixed(f.pathM, 2)} m.`,
    remedy: "look for what stands on that side only (a window, a rack, a door), and whether the seat is in the middle",
  }),
  "close-reflection": (f: Decibels & { monitor: string; channels: readonly string[]; delayS: number }) => ({
    message: `Something follows the direct sound of ${f.monitor} (${sides(f.channels)}) by ${milliseconds(f.delayS)}, ${decibels(f)} weaker: the desk, or the loudspeaker itself; these places cannot tell.`,
    remedy: "measure more places around, or once with the desk covered by a thick blanket",
  }),
} satisfies Wordings;
