import { type MovedDip, movedDip } from "../../words/moved-dip.js";
import { capital, fixed, hertz, significant, withUncertainty } from "../../words/numbers.js";
import { surfaceName } from "../../words/surface-name.js";
import { milliseconds } from "../phrases/durations.js";
import { type Range, range } from "../phrases/ranges.js";
import { sides } from "../phrases/sides.js";
import type { Wordings } from "../wording.js";

/** What walls that face each other, near ones and open doors do. */
export const surfaceWords = {
  flutter: (f: {
    between: readonly string[];
    distanceM: number;
    distanceUncertaintyM: number;
    periodS: number;
    levelDb: number;
    t60S: number;
    places: number;
  }) => ({
    message: `Echoes go to and fro between ${f.between.length > 0 ? f.between.join(" or between ") : "two surfaces that face each other"}, ${withUncertainty(f.distanceM, f.distanceUncertaintyM, 2)} m apart${f.between.length > 0 ? "" : " (twice that if the microphone stood midway)"}: one every ${milliseconds(f.periodS)}, ${fixed(-f.levelDb, 0)} dB under the direct sound after 50 ms, and ${significant(f.t60S, 2)} s to fall by 60 dB.`,
    remedy:
      "clap your hands at the seat and listen for a buzz; cover one of the two, turn it by some degrees or break it up with shelves: one of the two is enough",
  }),
  "double-slope": (f: {
    earlyS: number;
    earlyUncertaintyS: number;
    lateS: number;
    lateUncertaintyS: number;
    turnS: number;
    turnDb: number;
    rangeHz: Range;
    hasFlutter: boolean;
  }) => ({
    message: `The sound falls fast at first and slowly later ${range(f.rangeHz)}: ${withUncertainty(f.earlyS, f.earlyUncertaintyS, 2)} s for 60 dB, and from ${fixed(-f.turnDb, 0)} dB down on ${withUncertainty(f.lateS, f.lateUncertaintyS, 2)} s. What comes late comes back from somewhere else.`,
    remedy: `the usual cause is an opening to another room, such as an open door to a live room: close it and measure again; if it stays, ${f.hasFlutter ? "mend the flutter first, which does the same" : "look for bare walls that face each other while all others are covered"}`,
  }),
  "boundary-dip": (f: {
    monitor: string;
    channels: readonly string[];
    depthDb: number;
    frequencyHz: number;
    surfaces: readonly string[];
    predictedHz: number;
    uncertaintyHz: number;
    byChance: number;
    /** Whether the other side was measured and has no such dip of the surface opposite. */
    isLopsided: boolean;
    moves: readonly Move[];
  }) => ({
    message: `${capital(f.monitor)} (${sides(f.channels)}) has a dip of ${fixed(f.depthDb, 0)} dB at ${hertz(f.frequencyHz)}, where the reflection by ${f.surfaces.map(surfaceName).join(" and by ")} would put one: at ${withUncertainty(f.predictedHz, f.uncertaintyHz / 2, 0)} Hz. It is a hint, no proof: ${fixed(100 * f.byChance, 0)} in 100 dips would lie so near by accident.`,
    remedy: `${moveRemedy(f.channels.length > 1, f.moves)} and measure again: only that shows what makes the dip${f.isLopsided ? "; the other side shows no mirror image of it, and moving one side alone breaks the pair's symmetry: move both alike, or hold what is won against that" : ""}`,
  }),
} satisfies Wordings;

type Move = MovedDip & { readonly awayM: number; readonly upM: number };

function moveRemedy(isPair: boolean, moves: readonly Move[]): string {
  const what = isPair ? "move both loudspeakers by the same" : "move the loudspeaker";
  const surface = isPair ? "its surface" : "that surface";
  const ways = moves.map(
    ({ awayM, ...dip }) =>
      `${fixed(100 * Math.abs(awayM), 0)} cm ${awayM < 0 ? `towards ${surface}` : "away from it"} (the dip goes to ${movedDip(dip)})`,
  );
  if (ways.length === 0) return what;
  const ears = moves.some(({ upM }) => Math.abs(upM) >= 0.02)
    ? `, turn ${isPair ? "them" : "it"} towards the ears again`
    : "";
  return `${what}${isPair ? ", each" : ""} ${ways.join(" or ")}${ears}`;
}
