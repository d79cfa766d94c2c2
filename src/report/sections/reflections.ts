import { energyTimeFigure } from "../figures/energy-time.js";
import type { Measurement, Results } from "../../model.js";
import { channelName, monitorName, recordedMeasurements } from "../words/names.js";
import { capital, fixed, hertz, signed } from "../words/numbers.js";
import { type Block, figures, number, type Section, table, words } from "./section.js";

/** Energy over time after the direct sound, with the reflections listed. */
export function reflectionSection(results: Results): Section {
  const measurements = recordedMeasurements(results);
  const blocks: Block[] = [
    {
      kind: "prose",
      text: "A reflection that is strong and early colours the direct sound. The path tells how much longer the detour is than the straight way: look for a surface that fits. Triangles up: reflections of the direct sound's polarity, down: inverted. Hollow: under 1 ms, the desk or the loudspeaker itself.",
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
    if (own.some((measurement) => measurement.reflections.length > 0)) blocks.push(reflectionTable(name, own));
  }
  if (blocks.length === 1) blocks[0] = { kind: "prose", text: "No energy-time curve could be computed." };
  return { id: "reflections", heading: "Early reflections", blocks };
}

function strongestWords({ channel, derived, reflections }: Measurement): string {
  const subject = capital(channelName(channel, derived));
  if (reflections.length === 0) return `${subject}: no reflection stands out in the first 50 ms.`;
  const strongest = reflections.reduce((a, b) => (b.levelDb > a.levelDb ? b : a));
  const place = reflections.indexOf(strongest) + 1;
  return `${subject}: ${reflections.length} listed, the strongest (number ${place}) ${signed(strongest.levelDb, 1)} dB at ${fixed(1000 * strongest.delayS, 2)} ms.`;
}

function reflectionTable(name: string, measurements: readonly Measurement[]): Block {
  const rows = measurements.flatMap((measurement) =>
    measurement.reflections.map((reflection, index) => [
      words(channelName(measurement.channel, measurement.derived)),
      figures(String(index + 1)),
      number(1000 * reflection.delayS, 2),
      number(reflection.pathDifferenceM, 2),
      number(reflection.levelDb, 1),
      number(2 * reflection.levelUncertaintyDb, 1),
      figures(hertz(reflection.firstNotchHz)),
      words(`${reflection.polarity === 1 ? "same" : "inverted"}${reflection.close ? ", close" : ""}`),
    ]),
  );
  return table({
    caption: `Reflections, ${name}`,
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
    ],
  });
}
