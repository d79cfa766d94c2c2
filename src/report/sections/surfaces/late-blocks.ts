import type { Results } from "../../../model.js";
import { hertz, withUncertainty } from "../../../words/numbers.js";
import { measurementName } from "../../words/names.js";
import { type Block, figures, number, table, words } from "../section.js";

/** Echoes that go to and fro, and what comes back from other rooms. */
export function lateBlocks(results: Results): Block[] {
  const trains = results.flutter ?? [];
  const slopes = results.doubleSlopes ?? [];
  const quiet = [
    ...(trains.length === 0 ? ["No flutter between walls that face each other stands out."] : []),
    ...(slopes.length === 0
      ? ["No octave's decay has two slopes: nothing comes back from another room, as far as the noise lets one see."]
      : []),
  ].join(" ");
  const blocks: Block[] = quiet === "" ? [] : [{ kind: "prose", text: quiet }];
  if (trains.length > 0) {
    blocks.push(
      table({
        caption: "Echoes that go to and fro",
        folded: false,
        columns: [
          ...["Where measured", "Between"].map(words),
          ...["Apart, m", "Every, ms", "After 50 ms, dB", "Stands out, dB", "T, s", "Round trip, dB"].map(figures),
        ],
        rows: trains.map((train) => {
          const measurement = results.measurements.find(({ id }) => id === train.measurement);
          return [
            words(measurement ? measurementName(results, measurement) : train.measurement),
            words(train.between.length > 0 ? train.between.join(" or ") : "not known"),
            figures(withUncertainty(train.distanceM, train.distanceUncertaintyM, 2)),
            number(1000 * train.periodS, 2),
            number(train.levelDb, 0),
            number(train.aboveDb, 0),
            number(train.t60S, 2),
            number(train.roundTripDb, 1),
          ];
        }),
        notes: [
          "After 50 ms: of the echoes re the direct sound, 800 Hz to 6 kHz. T: time in which they fall by 60 dB.",
        ],
      }),
    );
  }
  if (slopes.length > 0) {
    blocks.push(
      table({
        caption: "Decays with two slopes, over all places",
        folded: false,
        columns: [
          "Octave",
          "Early, s",
          "Late, s",
          "Apart at the arrival, dB",
          "Turn, s",
          "Turn, dB",
          "Measurements",
        ].map(figures),
        rows: slopes.map((slope) => [
          figures(hertz(slope.nominalHz)),
          figures(withUncertainty(slope.earlyS, slope.earlyUncertaintyS, 2)),
          figures(withUncertainty(slope.lateS, slope.lateUncertaintyS, 2)),
          number(slope.apartDb, 1),
          number(slope.turnS, 2),
          number(slope.turnDb, 0),
          figures(String(slope.measurements)),
        ]),
        notes: [
          "Fitted to the energies of the decay with its noise. Turn: where the late decay takes over, on the backward-integrated curve.",
        ],
      }),
    );
  }
  return blocks;
}
