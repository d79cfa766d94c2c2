import { distortionFigure, harmonicName } from "../figures/distortion.js";
import type { Distortion, Measurement, Results } from "../../model.js";
import { valueAt } from "../words/curves.js";
import { channelName, columnName, monitorName, recordedMeasurements } from "../words/names.js";
import { bandLabel, hertz, listed, significant } from "../../words/numbers.js";
import { type Block, figures, number, type Section, significantNumber, table } from "./section.js";

const tableHz = [30, 50, 80, 100, 200, 500, 1000, 2000, 5000];

/** What the loudspeaker adds at whole multiples of what it is given. */
export function distortionSection(results: Results): Section {
  const known = recordedMeasurements(results).flatMap((measurement) =>
    measurement.distortion ? [{ measurement, distortion: measurement.distortion }] : [],
  );
  const heading = "Harmonic distortion";
  if (known.length === 0) {
    const text = "Not known: harmonics can be told apart only in a recording of an exponential sweep.";
    return { id: "distortion", heading, pictures: [{ kind: "prose", text }], tables: [] };
  }
  const pictures: Block[] = [];
  for (const { id } of results.monitors) {
    const channels = known
      .filter(({ measurement }) => measurement.monitor === id)
      .map(({ measurement, distortion }) => ({
        label: channelName(measurement.channel, measurement.derived),
        distortion,
      }));
    if (channels.length === 0) continue;
    const name = monitorName(results, id);
    const absent = new Set(channels.flatMap(({ distortion }) => absentHarmonics(distortion)));
    const nowhere =
      absent.size > 0 ? ` Nowhere above the noise in at least one channel: ${listed([...absent].sort())}.` : "";
    pictures.push({
      kind: "figure",
      title: `${name}: harmonics`,
      see: seeWords(
        id,
        known.filter(({ measurement }) => measurement.monitor === id),
        results,
      ),
      caption: `Level of each harmonic at the microphone re the fundamental there, over the frequency that was played. A gap means that the harmonic cannot be told from noise or lies outside the sweep.${nowhere}`,
      figure: distortionFigure(id, name, channels),
    });
  }
  pictures.push({
    kind: "prose",
    text: "It holds at the level that was played; distortion rises with level. The room takes part: a dip at the fundamental reads as more distortion.",
  });
  const tables = [thdTable(results, known), ...known.map((one) => harmonicTable(results, one))];
  return { id: "distortion", heading, pictures, tables };
}

interface Known {
  readonly measurement: Measurement;
  readonly distortion: Distortion;
}

/** The worst as far down as the monitor reaches: below its end a loudspeaker has little but harmonics to give. */
function seeWords(id: string, known: readonly Known[], results: Results): string {
  const lowestHz = results.monitors.find((monitor) => monitor.id === id)?.extension?.minus10Hz ?? 0;
  const all = known.flatMap(({ measurement, distortion }) =>
    distortion.frequencyHz.flatMap((frequencyHz, index) => {
      const percent = distortion.thdPercent[index] ?? null;
      return percent !== null && frequencyHz >= lowestHz ? [{ measurement, frequencyHz, percent }] : [];
    }),
  );
  if (all.length === 0) return "No harmonic stands out of the noise.";
  const worst = all.reduce((a, b) => (b.percent > a.percent ? b : a));
  const side = channelName(worst.measurement.channel, worst.measurement.derived);
  return `All harmonics together reach ${significant(worst.percent, 2)} % at ${hertz(worst.frequencyHz)} (${side}), as far down as it plays (−10 dB).`;
}

function absentHarmonics({ harmonicsDb }: Distortion): string[] {
  return Object.entries(harmonicsDb).flatMap(([order, levels]) =>
    levels.every((level) => level === null) ? [harmonicName(order)] : [],
  );
}

function thdTable(results: Results, known: readonly Known[]): Block {
  return table({
    caption: "Total harmonic distortion, %",
    folded: false,
    columns: [figures("Hz"), ...known.map(({ measurement }) => figures(columnName(results, measurement)))],
    rows: tableHz.map((atHz) => [
      figures(bandLabel(atHz)),
      ...known.map(({ distortion }) =>
        significantNumber(valueAt(distortion.frequencyHz, distortion.thdPercent, atHz), 2),
      ),
    ]),
    notes: ["Harmonics two to five, as far as they stand above the noise."],
  });
}

function harmonicTable(results: Results, { measurement, distortion }: Known): Block {
  const orders = Object.keys(distortion.harmonicsDb);
  return table({
    caption: `Harmonics, ${columnName(results, measurement)}, dB re the fundamental`,
    folded: true,
    columns: [figures("Hz"), ...orders.map((order) => figures(harmonicName(order)))],
    rows: tableHz.map((atHz) => [
      figures(bandLabel(atHz)),
      ...orders.map((order) => number(valueAt(distortion.frequencyHz, distortion.harmonicsDb[order]!, atHz), 0)),
    ]),
    notes: [],
  });
}
