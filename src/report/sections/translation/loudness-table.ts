import type { Results, Translation } from "../../../model.js";
import { CRITICAL_BAND_EDGES_HZ } from "../../../standards/critical-bands.js";
import { fixed, hertz } from "../../../words/numbers.js";
import { shortMonitorName } from "../../words/names.js";
import { type Block, figures, table, words } from "../section.js";

/** How loudly each monitor gives the programme, against a neutral one, by the ear's own bands. */
export function loudnessTable(results: Results, { deviations, programme, listeningLevelDb }: Translation): Block {
  const known = deviations.flatMap(({ monitor, loudness }) => (loudness === null ? [] : [{ monitor, loudness }]));
  return table(
    {
      caption: "How loudly the programme is heard on each monitor, by critical band: percent of a neutral one",
      folded: true,
      columns: [words("Up to"), ...known.map(({ monitor }) => figures(shortMonitorName(results, monitor)))],
      rows:
        known.length === 0
          ? []
          : [
              ...CRITICAL_BAND_EDGES_HZ.map((edgeHz, z) => [
                words(hertz(edgeHz)),
                ...known.map(({ loudness }) => {
                  const { neutral, heard } = loudness.barks[z]!;
                  return figures(neutral > 0 ? `${fixed((100 * heard) / neutral, 0)} %` : "—");
                }),
              ]),
              [
                words("Lost of the whole"),
                ...known.map(({ loudness }) => figures(`${fixed(100 * loudness.lostShare, 0)} %`)),
              ],
            ],
      notes: [
        `Specific loudness after ISO 532-1 of the programme "${programme}" at ${fixed(listeningLevelDb, 0)} dB SPL (C): for differences only, music has no loudness in sone. A model, with the measured responses in it.`,
      ],
    },
    "not known: no monitor was measured from 25 Hz to 12.5 kHz.",
  );
}
