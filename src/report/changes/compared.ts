import type { Changes, Unpaired } from "../../schema/changes.js";
import { unpairedTogether } from "../../schema/unpaired-together.js";
import { capital, closed, fixed, listed } from "../../words/numbers.js";
import { type Block, table, words } from "../sections/section.js";
import { sideNames } from "./names.js";

const whats: Readonly<Record<Unpaired["what"], string>> = {
  monitor: "monitor",
  measurement: "measurement",
  sweep: "sweep",
  microphone: "microphone",
  target: "target",
  bands: "bands",
  recording: "recording left out",
};

/** What was held against what, and what was not. */
export function comparedBlocks(changes: Changes): Block[] {
  const { pairs, unpaired } = changes;
  const measured = pairs.filter(({ kind }) => kind === "measurement");
  const names = sideNames(changes);
  const monitors = pairs.filter(({ kind }) => kind === "monitor").map(({ id }) => id);
  const places = [...new Set(measured.flatMap(({ position }) => position ?? []))];
  const count = measured.length === 1 ? "1 measurement" : `${String(measured.length)} measurements`;
  const found = `${count} of ${listed(monitors)}, at ${listed(places)}, ${measured.length === 1 ? "was" : "were each"} held against the one of the same channel and place.`;
  return [
    { kind: "prose", text: `${found} ${placementWords(changes)}` },
    ...(unpaired.length === 0
      ? [{ kind: "prose" as const, text: "Nothing was left without a counterpart." }]
      : [
          table({
            caption: "Without a counterpart, or not the same on both sides",
            folded: false,
            columns: ["What", "Which", "On the side of", "Why"].map(words),
            rows: unpairedTogether(unpaired).map(({ what, ids, in: side, because }) =>
              [
                capital(whats[what]),
                ids.join("; "),
                side === "both" ? "both" : names[side],
                capital(closed(because)),
              ].map(words),
            ),
            notes: [],
          }),
        ]),
  ];
}

function placementWords({ placementM, compares }: Changes): string {
  if (placementM === 0) return "The microphone is stated not to have been touched in between.";
  const between = compares === "sessions" ? "from one session to the other" : "from one monitor to the other";
  return `The microphone is taken to have been put back ${between} within ${fixed(100 * placementM, 1)} cm of its mark (95 times in a hundred); what that does to sound is in every uncertainty here.`;
}
