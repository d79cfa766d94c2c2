import { leftRightFigure } from "../figures/left-right.js";
import { BOTH_ROOM_STANDARDS, LEFT_RIGHT_MATCH } from "../../standards/bs1116.js";
import type { Measurement, MonitorResult, Results } from "../../model.js";
import { monitorName, shortMonitorName, shownMeasurements } from "../words/names.js";
import { reasonWords } from "../words/reasons.js";
import { fixed, bandLabel, capital, expanded, hertz, signed, withUncertainty } from "../../words/numbers.js";
import { type Block, figures, type Section, signedNumber, table, uncertainty, words } from "./section.js";

/** Left against right of every monitor. */
export function leftRightSection(results: Results): Section {
  const shown = shownMeasurements(results);
  const side = (monitor: MonitorResult, channel: "L" | "R"): Measurement | undefined =>
    shown.find((measurement) => measurement.monitor === monitor.id && measurement.channel === channel);
  const pictures: Block[] = [];
  for (const monitor of results.monitors) {
    const name = monitorName(results, monitor.id);
    const left = side(monitor, "L");
    const right = side(monitor, "R");
    if (!left || !right) {
      pictures.push({ kind: "prose", text: `${name}: ${missing(monitor.leftRightReason)}` });
      continue;
    }
    // What the lines mean is said once.
    const first = !pictures.some(({ kind }) => kind === "figure");
    pictures.push({
      kind: "figure",
      title: `${name}, left against right`,
      see: seeWords(monitor),
      caption: first ? `${pairWords(monitor)} ${explained(results)}` : pairWords(monitor),
      figure: leftRightFigure(monitor, left, right, name),
    });
  }
  const compared = results.monitors.filter((monitor) => monitor.leftRight);
  const tables =
    compared.length > 0
      ? [pairTable(results, compared), differenceTable(results, compared), ...phantomTables(results, compared)]
      : [];
  return { id: "left-right", heading: "Left against right", pictures, tables };
}

/** The least that is noticed between the ears is 0.5 dB: Breebaart and Faller, Spatial Audio Processing, 3.5.1. */
const AGREE_DB = 0.5;

function seeWords({ leftRight, leftRightReason }: MonitorResult): string {
  if (!leftRight) return capital(missing(leftRightReason));
  const known = leftRight.bands.flatMap(({ nominalHz, differenceDb, uncertaintyDb }) =>
    differenceDb === null ? [] : [{ nominalHz, differenceDb, uncertaintyDb }],
  );
  if (known.length === 0) return "The difference between left and right is not known.";
  const widest = known.reduce((a, b) => (Math.abs(b.differenceDb) > Math.abs(a.differenceDb) ? b : a));
  if (Math.abs(widest.differenceDb) < AGREE_DB) {
    return `Left and right agree within ${fixed(AGREE_DB, 1)} dB in every third octave.`;
  }
  const side = widest.differenceDb > 0 ? "left" : "right";
  const size = withUncertainty(Math.abs(widest.differenceDb), widest.uncertaintyDb, 1);
  return `Left and right are widest apart at ${hertz(widest.nominalHz)}, where ${side} is ${size} dB louder.`;
}

/** Level, arrival and polarity of left against right as sentences. */
function pairWords({ leftRight }: MonitorResult): string {
  if (!leftRight) return "";
  const { levelDb, levelUncertaintyDb, arrivalS, arrivalUncertaintyS, includesGain, samePolarity } = leftRight;
  const gain = includesGain ? " (gain included)" : "";
  const level =
    levelDb === null
      ? "Level difference not known."
      : `Left minus right, 200 Hz to 4 kHz: ${signedWithUncertainty(levelDb, levelUncertaintyDb)} dB${gain}.`;
  const arrival = arrivalS === null ? "Difference in arrival not known." : arrivalWords(arrivalS, arrivalUncertaintyS);
  const polarity = samePolarity
    ? "Same polarity."
    : "The two have opposite polarity: one is wired the wrong way round.";
  return `${level} ${arrival} ${polarity}`;
}

function explained({ monitors }: Results): string {
  const limit = `Shaded: U, expanded uncertainty at this place (k = 2). Dotted: ±${LEFT_RIGHT_MATCH.mostDb} dB from ${hertz(LEFT_RIGHT_MATCH.rangeHz[0])} to ${hertz(LEFT_RIGHT_MATCH.rangeHz[1])}, ${BOTH_ROOM_STANDARDS}, from memory, so advisory.`;
  const centre = monitors.some(({ leftRight }) => (leftRight?.phantom ?? []).length > 0)
    ? " Centre: both sides together, less the 6 dB that two equal sides in step would give; where it falls, kick, bass and voice lose weight."
    : "";
  return `${limit}${centre}`;
}

function signedWithUncertainty(value: number, standard: number | null): string {
  return standard === null ? signed(value, 1) : `${signed(value, 1)} ± ${expanded(standard, 1)}`;
}

function arrivalWords(arrivalS: number, uncertaintyS: number | null): string {
  const size = withUncertainty(1e6 * Math.abs(arrivalS), uncertaintyS === null ? null : 1e6 * uncertaintyS, 0);
  if (uncertaintyS !== null && Math.abs(arrivalS) <= 2 * uncertaintyS) {
    return `Left and right arrive together within the uncertainty (${size} µs).`;
  }
  return `${arrivalS > 0 ? "Left" : "Right"} arrives ${size} µs later.`;
}

function pairTable(results: Results, monitors: readonly MonitorResult[]): Block {
  const micro = (valueS: number | null): number | null => (valueS === null ? null : 1e6 * valueS);
  return table({
    caption: "Left minus right",
    folded: false,
    columns: [
      words("Monitor"),
      ...["Level, dB", "U, dB", "Arrival, µs", "U, µs"].map(figures),
      words("Polarity"),
      words("Gain"),
    ],
    rows: monitors.flatMap(({ id, leftRight }) => {
      if (!leftRight) return [];
      return [
        [
          words(monitorName(results, id)),
          signedNumber(leftRight.levelDb, 2),
          uncertainty(leftRight.levelUncertaintyDb, 2),
          signedNumber(micro(leftRight.arrivalS), 1),
          uncertainty(micro(leftRight.arrivalUncertaintyS), 1),
          words(leftRight.samePolarity ? "same" : "opposite"),
          words(leftRight.includesGain ? "included in the level" : "not included"),
        ],
      ];
    }),
    notes: [
      "Level: 200 Hz to 4 kHz, positive when left is louder. Arrival: positive when left is later. U: expanded uncertainty (k = 2).",
    ],
  });
}

function differenceTable(results: Results, monitors: readonly MonitorResult[]): Block {
  const bandsHz = new Set(monitors.flatMap(({ leftRight }) => leftRight?.bands.map((band) => band.nominalHz) ?? []));
  return table({
    caption: "Left minus right by third octave, dB",
    folded: true,
    columns: [figures("Hz"), ...monitors.flatMap(({ id }) => [shortMonitorName(results, id), "U"].map(figures))],
    rows: [...bandsHz]
      .sort((a, b) => a - b)
      .map((nominalHz) => [
        figures(bandLabel(nominalHz)),
        ...monitors.flatMap(({ leftRight }) => {
          const band = leftRight?.bands.find((one) => one.nominalHz === nominalHz);
          return [signedNumber(band?.differenceDb ?? null, 1), uncertainty(band?.uncertaintyDb ?? null, 1)];
        }),
      ]),
    notes: ["Positive: left is louder. U: expanded uncertainty (k = 2) at this place."],
  });
}

function phantomTables(results: Results, monitors: readonly MonitorResult[]): Block[] {
  const known = monitors.flatMap(({ id, leftRight }) =>
    leftRight?.phantom && leftRight.phantom.length > 0 ? [{ id, phantom: leftRight.phantom }] : [],
  );
  if (known.length === 0) return [];
  const bandsHz = new Set(known.flatMap(({ phantom }) => phantom.map((band) => band.nominalHz)));
  return [
    table({
      caption: "Phantom centre against each side below 500 Hz, dB",
      folded: true,
      columns: [
        figures("Hz"),
        ...known.flatMap(({ id }) => {
          const name = shortMonitorName(results, id);
          return [`${name}: against left`, "against right", "U"].map(figures);
        }),
      ],
      rows: [...bandsHz]
        .sort((a, b) => a - b)
        .map((nominalHz) => [
          figures(bandLabel(nominalHz)),
          ...known.flatMap(({ phantom }) => {
            const band = phantom.find((one) => one.nominalHz === nominalHz);
            return [
              signedNumber(band?.againstLeftDb ?? null, 1),
              signedNumber(band?.againstRightDb ?? null, 1),
              uncertainty(band?.uncertaintyDb ?? null, 1),
            ];
          }),
        ]),
      notes: [
        "The sum of left and right, less the 6.02 dB that two equal sides in step would give. U: expanded uncertainty (k = 2).",
      ],
    }),
  ];
}

function missing(reason: string | null): string {
  if (reason === null) return "left and right cannot be compared here.";
  return `${reasonWords(reason)}, so left and right cannot be compared.`;
}
