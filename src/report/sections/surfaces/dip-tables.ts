import type { Results } from "../../../model.js";
import { fixed, held, hertz, unknownMark } from "../../../words/numbers.js";
import { surfaceName } from "../../../words/surface-name.js";
import { channelName, shortMonitorName } from "../../words/names.js";
import { type Block, figures, number, table, words } from "../section.js";
import { atMix } from "./at-mix.js";

/** Shallower dips stand in surface-dips.csv. */
const TOLD_DB = 6;

/** Dips at the mix position, and the surfaces that may make them. */
export function dipTables(results: Results): Block[] {
  const rows = atMix(results).flatMap(({ surfaces, measurement }) =>
    (surfaces.dips?.measured ?? [])
      .filter(({ depthDb }) => depthDb >= TOLD_DB)
      .map((dip) => {
        const fitting = dip.fitting.map((index) => surfaces.dips!.predicted[index]!);
        return [
          words(shortMonitorName(results, measurement.monitor)),
          words(channelName(measurement.channel, measurement.derived)),
          figures(hertz(dip.frequencyHz)),
          number(dip.depthDb, 1),
          words(dip.otherSide === null ? unknownMark : dip.otherSide ? "yes" : "no"),
          words(fitting.length === 0 ? "none" : fitting.map(({ surface }) => surfaceName(surface)).join(", ")),
          figures(fitting[0] ? hertz(Math.round(fitting[0].frequencyHz)) : ""),
          figures(fixed(100 * dip.byChance, 0)),
          words(
            held(
              dip.moves
                .map(
                  ({ awayM, toHz }) =>
                    `${fixed(100 * Math.abs(awayM), 0)} cm ${awayM < 0 ? "nearer" : "away"}: ${hertz(Math.round(toHz))}`,
                )
                .join("; "),
            ),
          ),
        ];
      }),
  );
  if (rows.length === 0) return [];
  return [
    table({
      caption: "Dips at the mix position, and the surfaces that may make them",
      folded: true,
      columns: [
        ...["Monitor", "Side"].map(words),
        ...["Dip at", "Depth, dB"].map(figures),
        words("Other side too"),
        words("Fits"),
        figures("Predicted"),
        figures("By chance, %"),
        words("Loudspeaker moved"),
      ],
      rows,
      notes: [
        "Dips of 6 dB and more; the others stand in surface-dips.csv. Depth: under the lower of the heights beside it. Predicted: where direct sound and the first one's reflection are half a wave apart. By chance: of dips strewn anywhere from 30 to 500 Hz so many would fit as well; walls and a ceiling whose places are not stated are counted as if they stood anywhere.",
        "Of a reflection that a panel stands in the way of no dip is predicted: bass goes around the panel in part, nobody knows how much. Moved: by no more than leaves 10 cm to every wall and panel stated.",
        "A fit is a hint: in a small room all reflections together make a dip. Only moving the loudspeaker and measuring again shows which.",
      ],
    }),
  ];
}
