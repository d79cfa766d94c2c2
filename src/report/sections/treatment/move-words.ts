import type { Measure, Results } from "../../../model.js";
import { MOST_OFF_EARS_DEG } from "../../../standards/ear-height.js";
import { movedDip } from "../../../words/moved-dip.js";
import { listed } from "../../../words/numbers.js";
import { surfaceName } from "../../../words/surface-name.js";
import { length } from "../../words/lengths.js";
import { channelName, shortMonitorName } from "../../words/names.js";

type Move = Extract<Measure, { kind: "move-loudspeaker" }>;

/** All moves of loudspeakers against one dip in one sentence; what both sides would do alike is said once. */
export function moveWords(results: Results, moves: readonly Move[]): string[] {
  const [first] = moves;
  if (!first) return [];
  const ways = new Map<string, Move[]>();
  for (const move of moves) {
    const way = wayWords(move);
    ways.set(way, [...(ways.get(way) ?? []), move]);
  }
  const sides = [...new Set(moves.map(({ channel }) => channel))];
  const surfaces = [...new Set(moves.map(({ surface }) => surface))];
  const told = [...ways].map(([way, own]) =>
    own.length === sides.length ? way : `${way} (${own.map(({ channel }) => channelName(channel, false)).join(", ")})`,
  );
  const side = sides.length === 1 ? `the ${channelName(first.channel, false)} side` : "both sides";
  return [
    `Moving the loudspeaker: it changes the detour by ${surfaces.map(surfaceName).join(" and by ")}, and with it where the two waves cancel. With ${side} of ${shortMonitorName(results, first.monitor)}, ${listed(told).replace(/ and ([^,]*)$/, " or $1")}, if that surface makes the dip; measure again to see.${moves.some(({ upM }) => Math.abs(upM) >= RAISED_M) ? EARS : ""}`,
  ];
}

/** A loudspeaker that goes up or down by less still looks at the ears. */
const RAISED_M = 0.02;
const EARS = ` Raised or lowered, turn it towards the ears again; the ear height counts, so no move is told that puts it further than ${MOST_OFF_EARS_DEG}° over or under the ears as seen from the seat (a choice of ours), unless it hangs there now and comes nearer.`;

function wayWords({ awayM, ...dip }: Move): string {
  return `${length(Math.abs(awayM))} ${awayM < 0 ? "nearer to it" : "away from it"} takes the dip to ${movedDip(dip)}`;
}
