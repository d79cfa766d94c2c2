import type { Finding } from "../../model.js";
import { hertz, listed, listedOr } from "../../words/numbers.js";
import { about, isOneBand } from "../phrases/ranges.js";
import { sideOf } from "../phrases/sides.js";
import type { Wordings } from "../wording.js";

/** Who carries the low end, and who does not. */
export const lowEndWords = {
  "low-end-trust": (f: {
    monitors: readonly string[];
    reachHz: number | null;
    /** Those that end earlier. */
    others: readonly { readonly monitor: string; readonly reachHz: number }[];
    troubles: readonly string[];
    isGrave: boolean;
  }) => {
    const names = listedOr(f.monitors);
    const reach = f.reachHz === null ? "to below the measured range" : `to ${about(f.reachHz)}`;
    const others = f.others.map(({ monitor, reachHz }) => `${monitor}: ${hertz(Math.round(reachHz))}`).join(", ");
    const measure = others === "" ? "−6 dB" : `−6 dB; ${others}`;
    if (f.isGrave) {
      const but = f.troubles.length > 0 ? `; but ${listed(f.troubles)}` : "";
      return {
        message: `Low end: no monitor is to be believed yet. Lowest, ${reach} (${measure}): ${names}${but}.`,
        remedy: "judge kick and bass on headphones until that is mended",
      };
    }
    return {
      message:
        f.troubles.length > 0
          ? `Low end: believe ${names} with care, down ${reach} (${measure}): ${listed(f.troubles)}.`
          : `Low end: believe ${names}, down ${reach} (${measure}).`,
      remedy: f.others.length > 0 ? "what to set on which monitor is told below, region by region" : null,
    };
  },
  "ends-early": (f: { monitor: string; reachHz: number }) => ({
    message: `Nothing to judge on ${f.monitor} below ${about(f.reachHz)}: there the level at this place is 6 dB down.`,
    remedy: `decide what lies lower on a monitor that carries it, or on headphones`,
  }),
} satisfies Wordings;

/** A trouble of the low end as half a sentence, for the sentence that says what to believe. */
export function inShort({ code, rangeHz, channels }: Finding): string {
  if (rangeHz === null) return "see what is to be mended";
  const where = isOneBand(rangeHz) ? hertz(rangeHz[0]) : `${hertz(rangeHz[0])} to ${hertz(rangeHz[1])}`;
  if (code === "rings" || code === "mode-rings") return `${where} rings`;
  if (code === "left-right-bands") return `its ${sideOf(channels[0] ?? "both")} side is weak at ${where}`;
  if (code === "peak") return `${where} is too loud`;
  if (code === "dip") return `${where} is too soft`;
  return code === "phantom-dip" ? `the centre is soft at ${where}` : `${where} changes with your head`;
}
