import type { MonitorResult, Results } from "../../model.js";
import { monitorName, shortMonitorName } from "../words/names.js";
import { bandLabel, hertz, listed, signed, unknownMark } from "../words/numbers.js";
import { type Block, figures, type Section, signedNumber, table, uncertainty, words } from "./section.js";

/** How deep each monitor goes, how its two sides agree, and how monitors differ, as figures. */
export function comparisonSection(results: Results): Section {
  const blocks: Block[] = [extensionTable(results), leftRightTable(results)];
  const dips = results.monitors.flatMap(({ id, extension }) =>
    extension && extension.dipsHz.length > 0
      ? [
          `${monitorName(results, id)}: a dip at ${listed(extension.dipsHz.map(hertz))}, one third octave wide, so not counted against the extension.`,
        ]
      : [],
  );
  if (dips.length > 0) blocks.splice(1, 0, { kind: "list", items: dips });
  if (results.comparisons.length > 0) blocks.push(...comparisonTables(results));
  return { id: "comparison", heading: "Extension, balance, difference", blocks };
}

function extensionTable(results: Results): Block {
  const rows = results.monitors.map(({ id, extension }) => [
    words(monitorName(results, id)),
    figures(limitWords(extension, "minus3")),
    figures(limitWords(extension, "minus6")),
    figures(limitWords(extension, "minus10")),
  ]);
  return table({
    caption: "Low-frequency extension at the mix position",
    folded: false,
    columns: [words("Monitor"), figures("−3 dB"), figures("−6 dB"), figures("−10 dB")],
    rows,
    notes: [
      "The lowest frequency from which the third-octave curve stays above the limit up to 200 Hz, re its mean from 200 Hz to 2 kHz. The room takes part. Below range: still above the limit in the lowest band measured.",
    ],
  });
}

function limitWords(extension: MonitorResult["extension"], limit: "minus3" | "minus6" | "minus10"): string {
  if (!extension) return unknownMark;
  const limitHz = extension[`${limit}Hz`];
  if (limitHz !== null) return hertz(limitHz);
  if (extension.flags.includes(`${limit}-below-range`)) return "below range";
  return extension.flags.includes(`${limit}-not-met-at-200`) ? "above 200 Hz" : unknownMark;
}

function leftRightTable(results: Results): Block {
  return table({
    caption: "Left minus right",
    folded: false,
    columns: [
      words("Monitor"),
      figures("Level, dB"),
      figures("Arrival, µs"),
      figures("U, µs"),
      words("Polarity"),
      words("Gain"),
    ],
    rows: results.monitors.map(({ id, leftRight }) => {
      const { levelDb = null, arrivalS = null, arrivalUncertaintyS = null } = leftRight ?? {};
      return [
        words(monitorName(results, id)),
        signedNumber(levelDb, 2),
        signedNumber(arrivalS === null ? null : 1e6 * arrivalS, 1),
        uncertainty(arrivalUncertaintyS === null ? null : 1e6 * arrivalUncertaintyS, 1),
        words(leftRight ? (leftRight.samePolarity ? "same" : "opposite") : unknownMark),
        words(leftRight ? (leftRight.includesGain ? "included in the level" : "not included") : unknownMark),
      ];
    }),
    notes: [
      "Level: 200 Hz to 4 kHz, positive when left is louder. Arrival: positive when left is later. U: expanded uncertainty (k = 2).",
    ],
  });
}

function comparisonTables(results: Results): Block[] {
  const name = (a: string, b: string): string => `${shortMonitorName(results, a)} − ${shortMonitorName(results, b)}`;
  const offsets = results.comparisons.map(({ a, b, levelOffsetDb, includesGain }) => {
    const size = levelOffsetDb === null ? "not known" : `${signed(levelOffsetDb, 1)} dB`;
    const pair = `${monitorName(results, a)} minus ${monitorName(results, b)}`;
    return `${pair}: level ${size} over 200 Hz to 4 kHz${includesGain ? ", any change of gain included" : ""}.`;
  });
  const bandsHz = new Set(results.comparisons.flatMap(({ bands }) => bands.map((band) => band.nominalHz)));
  const bands = table({
    caption: "Difference between monitors by third octave, dB",
    folded: true,
    columns: [figures("Hz"), ...results.comparisons.map(({ a, b }) => figures(name(a, b)))],
    rows: [...bandsHz]
      .sort((x, y) => x - y)
      .map((nominalHz) => [
        figures(bandLabel(nominalHz)),
        ...results.comparisons.map((comparison) =>
          signedNumber(comparison.bands.find((band) => band.nominalHz === nominalHz)?.differenceDb ?? null, 1),
        ),
      ]),
    notes: ["As measured: the difference in level is contained."],
  });
  return [{ kind: "list", items: offsets }, bands];
}
