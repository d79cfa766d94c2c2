import { decayFigure, decayTime } from "../figures/decay.js";
import { roomVolumeM3 } from "../../schema/room-volume.js";
import { BOTH_ROOM_STANDARDS, type ReverberationMask, reverberationMask } from "../../standards/bs1116.js";
import type { BandMetrics, Measurement, Results } from "../../model.js";
import { flagWords } from "../words/flags.js";
import { channelName, columnName, measurementName, recordedMeasurements, shortMonitorName } from "../words/names.js";
import { bandLabel, fixed, hertz, unknownMark } from "../../words/numbers.js";
import { type Block, type Cell, figures, number, type Section, table, uncertainty, words } from "./section.js";

/** How sound dies away, by octave in one table and in full below. */
export function decaySection(results: Results): Section {
  const measurements = recordedMeasurements(results).filter((measurement) => measurement.bands.length > 0);
  const heading = "How sound dies away";
  if (measurements.length === 0) {
    return { id: "decay", heading, pictures: [{ kind: "prose", text: "No decay could be measured." }], tables: [] };
  }
  const groups = results.monitors
    .map(({ id }) => ({
      name: shortMonitorName(results, id),
      lines: measurements
        .filter((measurement) => measurement.monitor === id)
        .map((measurement) => ({ label: channelName(measurement.channel, measurement.derived), measurement })),
    }))
    .filter(({ lines }) => lines.length > 0);
  const volumeM3 = roomVolumeM3(results.session.room);
  const mask = volumeM3 === null ? null : reverberationMask(volumeM3);
  const pictures: Block[] = [
    {
      kind: "figure",
      title: mask ? "Decay time against what is recommended for the room's size" : "Decay time by third octave",
      see: seeWords(measurements, mask),
      caption: `${maskWords(volumeM3)} T30; T20 where the decay cannot be followed further; the late decay where the direct sound makes a cliff. Hollow points carry a limit, named when pointed at and in the tables. Bars: expanded uncertainty at this place (k = 2).`,
      figure: decayFigure(groups, mask),
    },
    { kind: "prose", text: midWords(measurements) },
  ];
  const tables = [
    summaryTable(results, measurements),
    ...measurements.map((measurement) => fullTable(measurementName(results, measurement), measurement)),
  ];
  return { id: "decay", heading, pictures, tables };
}

function seeWords(measurements: readonly Measurement[], mask: ReverberationMask | null): string {
  const times = measurements.flatMap(({ bands }) =>
    bands.flatMap((band) => {
      const time = band.fraction === 3 ? decayTime(band) : null;
      const limit = mask?.bands.find(({ nominalHz }) => nominalHz === band.nominalHz);
      return time && (!mask || limit)
        ? [{ nominalHz: band.nominalHz, timeS: time.valueS, overS: time.valueS - (limit?.upperS ?? 0) }]
        : [];
    }),
  );
  if (times.length === 0) return "No third octave gave a decay time that could be drawn.";
  const most = times.reduce((a, b) => (b.overS > a.overS ? b : a));
  if (!mask) return `Sound lasts longest at ${hertz(most.nominalHz)}: ${fixed(most.timeS, 2)} s.`;
  if (most.overS <= 0) return "No decay lies above the shaded range that is recommended for a room of this size.";
  return `Points above the shade ring on too long, most at ${hertz(most.nominalHz)}: ${fixed(most.timeS, 2)} s where ${fixed(most.timeS - most.overS, 2)} s is the longest recommended.`;
}

function maskWords(volumeM3: number | null): string {
  if (volumeM3 === null) return "The room's size is not stated, so no recommended range is drawn.";
  return `Shaded: the range that ${BOTH_ROOM_STANDARDS}, recommend for ${fixed(volumeM3, 0)} m³; below 200 Hz and above 4 kHz from memory, so advisory.`;
}

function midWords(measurements: readonly Measurement[]): string {
  const midsS = measurements.flatMap(({ reverberation }) => reverberation.tMidS ?? []);
  const ends = [...new Set([Math.min(...midsS), Math.max(...midsS)].map((timeS) => fixed(timeS, 2)))];
  const value = midsS.length > 0 ? `Mid-frequency reverberation time: ${ends.join(" to ")} s. ` : "";
  return `${value}These are results at this position; ISO 3382-2 asks for several source and microphone places before a room as a whole gets a figure.`;
}

function summaryTable(results: Results, measurements: readonly Measurement[]): Block {
  const notes = new Notes();
  const octaves = measurements[0]!.bands.filter((band) => band.fraction === 1);
  const rows = octaves.map(({ nominalHz }) => [
    figures(bandLabel(nominalHz)),
    ...measurements.map((measurement) => {
      const band = measurement.bands.find((b) => b.fraction === 1 && b.nominalHz === nominalHz);
      return band ? timeCell(band, notes) : figures(unknownMark);
    }),
  ]);
  return table({
    caption: "Decay time by octave, s",
    folded: false,
    columns: [figures("Hz"), ...measurements.map((measurement) => figures(columnName(results, measurement)))],
    rows,
    notes: ["T30; figures with ² are T20, figures with ˡ the late decay after the direct sound.", ...notes.lines()],
  });
}

const timeMarks = { T30: "", T20: "²", "late decay": "ˡ" };

function timeCell(band: BandMetrics, notes: Notes): Cell {
  const time = decayTime(band);
  const letters = notes.letters(band.flags);
  const value = time ? `${fixed(time.valueS, 2)}${timeMarks[time.name]}` : unknownMark;
  return figures(letters === "" ? value : `${value} ${letters}`);
}

function fullTable(name: string, measurement: Measurement): Block {
  const notes = new Notes();
  const heads = [
    "EDT, s",
    "T20, s",
    "T30, s",
    "U, s",
    "Late, s",
    "C50, dB",
    "C80, dB",
    "D50, %",
    "Ts, ms",
    "Range, dB",
  ];
  const rows = measurement.bands.map((band) => [
    figures(bandLabel(band.nominalHz)),
    words(band.fraction === 1 ? "octave" : "third"),
    number(band.edtS, 2),
    number(band.t20S, 2),
    number(band.t30S, 2),
    uncertainty(band.decayUncertaintyS, 2),
    number(band.lateS, 2),
    number(band.c50Db, 1),
    number(band.c80Db, 1),
    number(band.d50 === null ? null : 100 * band.d50, 0),
    number(band.tsS === null ? null : 1000 * band.tsS, 0),
    number(band.decayRangeDb, 0),
    figures(notes.letters(band.flags)),
  ]);
  return table({
    caption: `${name}: every figure by octave and third octave`,
    folded: true,
    columns: [figures("Hz"), words("Band"), ...heads.map(figures), figures("Limits")],
    rows,
    notes: [
      "U: expanded uncertainty (k = 2) of T30, or of T20 where T30 is not known, at this place.",
      ...notes.lines(),
    ],
  });
}

/** Letters in a table's cells and the sentences they stand for. */
class Notes {
  readonly #flags: string[] = [];

  letters(flags: readonly string[]): string {
    return flags.map((flag) => this.#letter(flag)).join(" ");
  }

  lines(): string[] {
    return this.#flags.map((flag) => `${this.#letter(flag)}: ${flagWords(flag)}.`);
  }

  #letter(flag: string): string {
    if (!this.#flags.includes(flag)) this.#flags.push(flag);
    const index = this.#flags.indexOf(flag);
    return index < 26 ? String.fromCharCode(97 + index) : `a${index}`;
  }
}
