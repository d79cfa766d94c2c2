import { energyTimeFigure } from "../figures/energy-time.js";
import { BOTH_ROOM_STANDARDS, EARLY_REFLECTIONS } from "../../standards/bs1116.js";
import type { Measurement, MeasurementSurfaces, Results } from "../../model.js";
import { channelName, monitorName, recordedMeasurements } from "../words/names.js";
import { fixed, hertz, unknownMark, withUncertainty } from "../../words/numbers.js";
import { originWords } from "../../words/surface-name.js";
import { strongest } from "../words/reflections.js";
import { type Block, figures, number, type Section, type Table, table, uncertainty, words } from "./section.js";

/** Energy over time after the direct sound, with the reflections named and listed. */
export function reflectionSection(results: Results): Section {
  const measurements = recordedMeasurements(results);
  const pictures: Block[] = [];
  const tables: Block[] = [];
  for (const { id } of results.monitors) {
    const own = measurements.filter((measurement) => measurement.monitor === id);
    const channels = own.flatMap((measurement) => {
      const label = channelName(measurement.channel, measurement.derived);
      return measurement.energyTime ? [{ label, measurement, curve: measurement.energyTime }] : [];
    });
    if (channels.length === 0) continue;
    const name = monitorName(results, id);
    pictures.push({
      kind: "figure",
      title: `${name}: what follows the direct sound`,
      see: seeWords(own),
      caption: pictures.length === 0 ? captionWords : "Drawn as the one above.",
      figure: energyTimeFigure(id, name, channels),
    });
    const counts = own.map(({ reflections }) => reflections.length);
    if (counts.every((count) => count === 0)) continue;
    const shown = own.map(({ reflections }) => strongest(reflections));
    const rest = counts.some((count, index) => count > shown[index]!.length);
    const note = rest ? ["The rest of those listed stand in reflections.csv."] : [];
    tables.push(reflectionTable(`The strongest reflections, ${name}`, own, shown, note, results.surfaces));
  }
  tables.push(...oneSidedTables(results));
  if (pictures.length === 0) pictures.push({ kind: "prose", text: "No energy-time curve could be computed." });
  return { id: "reflections", heading: "Early reflections", pictures, tables };
}

const captionWords = [
  "Named by delay and by how much longer the detour is than the straight way: look for a surface that fits.",
  "Triangles up: reflections of the direct sound's polarity, down: inverted. Hollow: so close that it may be the desk or the loudspeaker itself.",
  `Dotted: ${fixed(EARLY_REFLECTIONS.mostDb, 0)} dB up to ${fixed(1000 * EARLY_REFLECTIONS.untilS, 0)} ms, ${BOTH_ROOM_STANDARDS}, from memory, so advisory.`,
].join(" ");

function seeWords(measurements: readonly Measurement[]): string {
  const all = measurements.flatMap(({ channel, derived, reflections }) =>
    reflections.map((reflection) => ({ side: channelName(channel, derived), reflection })),
  );
  if (all.length === 0) return "No reflection stands out in the first 50 ms.";
  const { side, reflection } = all.reduce((a, b) => (b.reflection.levelDb > a.reflection.levelDb ? b : a));
  const level = withUncertainty(reflection.levelDb, reflection.levelUncertaintyDb, 1);
  return `The strongest reflection comes ${fixed(1000 * reflection.delayS, 1)} ms after the direct sound (${side}), ${fixed(reflection.pathDifferenceM, 2)} m longer on its way, at ${level} dB.`;
}

function oneSidedTables(results: Results): Block[] {
  const rows = results.monitors.flatMap(({ id, leftRight }) =>
    (leftRight?.oneSided ?? []).map(({ channel, delayS, levelDb, levelUncertaintyDb, otherLevelDb }) => [
      words(monitorName(results, id)),
      words(channelName(channel, false)),
      number(1000 * delayS, 2),
      number(levelDb, 1),
      uncertainty(levelUncertaintyDb, 1),
      number(otherLevelDb, 1),
    ]),
  );
  if (rows.length === 0) return [];
  return [
    table({
      caption: "Reflections that one side has and the other has not",
      folded: false,
      columns: [words("Monitor"), words("Side"), ...["Delay, ms", "Level, dB", "U, dB", "Other side, dB"].map(figures)],
      rows,
      notes: ["Level re the direct sound, 1 to 8 kHz. Other side: the highest that it shows within the same time."],
    }),
  ];
}

function reflectionTable(
  caption: string,
  measurements: readonly Measurement[],
  shown: readonly (readonly number[])[],
  notes: readonly string[],
  surfaces: Results["surfaces"],
): Table {
  const ownOf = ({ id }: Measurement): MeasurementSurfaces | undefined =>
    surfaces?.measurements.find((one) => one.id === id && one.reason === null);
  const isPlaced = measurements.some(ownOf);
  const rows = measurements.flatMap((measurement, which) => {
    const own = ownOf(measurement);
    return shown[which]!.map((index) => {
      const reflection = measurement.reflections[index]!;
      return [
        words(channelName(measurement.channel, measurement.derived)),
        number(1000 * reflection.delayS, 2),
        number(reflection.pathDifferenceM, 2),
        number(reflection.levelDb, 1),
        uncertainty(reflection.levelUncertaintyDb, 1),
        figures(hertz(reflection.firstNotchHz)),
        words(`${reflection.polarity === 1 ? "same" : "inverted"}${reflection.close ? ", close" : ""}`),
        ...(isPlaced
          ? [words(own ? originWords(own.origins.filter((one) => one.reflection === index)).text : unknownMark)]
          : []),
      ];
    });
  });
  return table({
    caption,
    folded: false,
    columns: [
      words("Channel"),
      figures("Delay, ms"),
      figures("Path, m"),
      figures("Level, dB"),
      figures("U, dB"),
      figures("First notch"),
      words("Polarity"),
      ...(isPlaced ? [words("By way of")] : []),
    ],
    rows,
    notes: [
      "Level re the direct sound, 1 to 8 kHz. U: expanded uncertainty (k = 2). Path: longer than the direct way by this.",
      ...(isPlaced ? ["By way of: by the places stated; perhaps: with a certainty under 70 %."] : []),
      ...notes,
    ],
  });
}
