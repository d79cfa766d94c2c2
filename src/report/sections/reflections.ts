import { energyTimeFigure } from "../figures/energy-time.js";
import type { Measurement, Results } from "../../model.js";
import { channelName, monitorName, recordedMeasurements } from "../words/names.js";
import { capital, fixed, hertz, signed } from "../words/numbers.js";
import { strongest } from "../words/reflections.js";
import { type Block, figures, number, type Section, type Table, table, uncertainty, words } from "./section.js";

/** Energy over time after the direct sound, with the reflections listed. */
export function reflectionSection(results: Results): Section {
  const measurements = recordedMeasurements(results);
  const blocks: Block[] = [
    {
      kind: "prose",
      text: "A reflection that is strong and early colours the direct sound. The path tells how much longer the detour is than the straight way: look for a surface that fits. Triangles up: reflections of the direct sound's polarity, down: inverted. Hollow: so close that it may be the desk or the loudspeaker itself. The strongest are numbered.",
    },
  ];
  for (const { id } of results.monitors) {
    const own = measurements.filter((measurement) => measurement.monitor === id);
    const channels = own.flatMap((measurement) => {
      const label = channelName(measurement.channel, measurement.derived);
      return measurement.energyTime ? [{ label, measurement, curve: measurement.energyTime }] : [];
    });
    if (channels.length === 0) continue;
    const name = monitorName(results, id);
    blocks.push({
      kind: "figure",
      title: `Energy over time, ${name}`,
      caption: own.map((measurement) => strongestWords(measurement)).join(" "),
      figure: energyTimeFigure(id, name, channels),
    });
    const listed = own.map(({ reflections }) => reflections.length);
    if (listed.every((count) => count === 0)) continue;
    const shown = own.map(({ reflections }) => strongest(reflections));
    const rest = listed.some((count, index) => count > shown[index]!.length);
    const note = rest ? ["The rest of those listed stand in reflections.csv."] : [];
    blocks.push(reflectionTable(`The strongest reflections, ${name}`, own, shown, note));
  }
  if (blocks.length === 1) blocks[0] = { kind: "prose", text: "No energy-time curve could be computed." };
  return { id: "reflections", heading: "Early reflections", blocks };
}

function strongestWords({ channel, derived, reflections }: Measurement): string {
  const subject = capital(channelName(channel, derived));
  if (reflections.length === 0) return `${subject}: no reflection stands out in the first 50 ms.`;
  const loudest = reflections.reduce((a, b) => (b.levelDb > a.levelDb ? b : a));
  const place = strongest(reflections).indexOf(reflections.indexOf(loudest)) + 1;
  return `${subject}: ${reflections.length} listed, the strongest (number ${place}) ${signed(loudest.levelDb, 1)} dB at ${fixed(1000 * loudest.delayS, 2)} ms.`;
}

function reflectionTable(
  caption: string,
  measurements: readonly Measurement[],
  shown: readonly (readonly number[])[],
  notes: readonly string[],
): Table {
  const rows = measurements.flatMap((measurement, which) =>
    shown[which]!.map((index, place) => {
      const reflection = measurement.reflections[index]!;
      return [
        words(channelName(measurement.channel, measurement.derived)),
        figures(String(place + 1)),
        number(1000 * reflection.delayS, 2),
        number(reflection.pathDifferenceM, 2),
        number(reflection.levelDb, 1),
        uncertainty(reflection.levelUncertaintyDb, 1),
        figures(hertz(reflection.firstNotchHz)),
        words(`${reflection.polarity === 1 ? "same" : "inverted"}${reflection.close ? ", close" : ""}`),
      ];
    }),
  );
  return table({
    caption,
    folded: false,
    columns: [
      words("Channel"),
      figures("No."),
      figures("Delay, ms"),
      figures("Path, m"),
      figures("Level, dB"),
      figures("U, dB"),
      figures("First notch"),
      words("Polarity"),
    ],
    rows,
    notes: [
      "Level re the direct sound, 1 to 8 kHz. U: expanded uncertainty (k = 2). Path: longer than the direct way by this.",
      ...notes,
    ],
  });
}
