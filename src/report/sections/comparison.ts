import type { MonitorResult, Results } from "../../model.js";
import { monitorName, shortMonitorName } from "../words/names.js";
import { reasonWords } from "../words/reasons.js";
import { bandLabel, hertz, listed, unknownMark } from "../../words/numbers.js";
import {
  type Block,
  type Cell,
  figures,
  number,
  type Section,
  signedNumber,
  table,
  uncertainty,
  words,
} from "./section.js";

/** How deep each monitor goes, and how monitors differ, as figures. */
export function comparisonSection(results: Results): Section {
  const dips = results.monitors.flatMap(({ id, extension }) =>
    extension && extension.dipsHz.length > 0
      ? [
          `${monitorName(results, id)}: a dip at ${listed(extension.dipsHz.map(hertz))}, one third octave wide, so not counted against the extension.`,
        ]
      : [],
  );
  const tables: Block[] = [extensionTable(results)];
  if (dips.length > 0) tables.push({ kind: "list", items: dips });
  if (results.comparisons.length > 0) {
    tables.push(pairTable(results), ...showsTables(results), differenceTable(results), ...decayTables(results));
  }
  return { id: "comparison", heading: "Monitor against monitor", pictures: [], tables };
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

type Comparison = Results["comparisons"][number];

function pairName(results: Results, { a, b }: Comparison): string {
  return `${shortMonitorName(results, a)} − ${shortMonitorName(results, b)}`;
}

function pairTable(results: Results): Block {
  return table({
    caption: "One monitor minus the other",
    folded: false,
    columns: [
      words("Pair"),
      ...["Level, dB", "U, dB"].map(figures),
      words("Gain"),
      ...["Reach, octaves", "Arrival, ms"].map(figures),
    ],
    rows: results.comparisons.map((comparison) => [
      words(pairName(results, comparison)),
      signedNumber(comparison.levelOffsetDb, 1),
      uncertainty(comparison.levelUncertaintyDb, 1),
      words(comparison.includesGain ? "included in the level" : "not included"),
      signedNumber(comparison.extension.gapOctaves, 2),
      signedNumber(comparison.arrivalS === null ? null : 1000 * comparison.arrivalS, 2),
    ]),
    notes: [
      "Level: 200 Hz to 4 kHz. Reach: how many octaves the first goes deeper (−6 dB). U: expanded uncertainty (k = 2) at this place.",
      ...new Set(
        results.comparisons.flatMap(({ arrivalReason }) =>
          arrivalReason === null ? [] : [`Arrival not known: ${reasonWords(arrivalReason)}.`],
        ),
      ),
    ],
  });
}

function showsTables(results: Results): Block[] {
  const shows = results.comparisons.flatMap((comparison) => comparison.shows);
  if (shows.length === 0) return [];
  return [
    table({
      caption: "What one monitor shows and the other hides, levels aligned",
      folded: false,
      columns: [
        words("Shows"),
        words("Hides"),
        figures("Range"),
        figures("Difference, dB"),
        figures("U, dB"),
        words("Why"),
      ],
      rows: shows.map(({ monitor, other, kind, fromHz, toHz, differenceDb, uncertaintyDb }) => [
        words(monitorName(results, monitor)),
        words(monitorName(results, other)),
        figures(`${hertz(fromHz)} to ${hertz(toHz)}`),
        number(differenceDb, 1),
        uncertainty(uncertaintyDb, 1),
        words(kind === "reach" ? "the other does not reach so low" : "the other is weaker there"),
      ]),
      notes: [],
    }),
  ];
}

function differenceTable(results: Results): Block {
  const bandsHz = new Set(results.comparisons.flatMap(({ bands }) => bands.map((band) => band.nominalHz)));
  const room = results.comparisons.some(({ roomBands }) => roomBands !== null);
  const heads = room ? ["U", "Over places", "U in the room"] : ["U"];
  return table({
    caption: "Difference between monitors by third octave, dB",
    folded: true,
    columns: [
      figures("Hz"),
      ...results.comparisons.flatMap((comparison) => [pairName(results, comparison), ...heads].map(figures)),
    ],
    rows: [...bandsHz]
      .sort((x, y) => x - y)
      .map((nominalHz) => [
        figures(bandLabel(nominalHz)),
        ...results.comparisons.flatMap(({ bands, roomBands }) => {
          const cells = (of: Comparison["bands"] | null): Cell[] => {
            const band = of?.find((one) => one.nominalHz === nominalHz);
            return [signedNumber(band?.differenceDb ?? null, 1), uncertainty(band?.uncertaintyDb ?? null, 1)];
          };
          return room ? [...cells(bands), ...cells(roomBands)] : cells(bands);
        }),
      ]),
    notes: [
      "At the mix position and as measured: the difference in level is contained. U: expanded uncertainty (k = 2) at this place; in the room: of the means over places.",
    ],
  });
}

function decayTables(results: Results): Block[] {
  const known = results.comparisons.filter(({ decay }) => decay.length > 0);
  if (known.length === 0) return [];
  const bandsHz = new Set(known.flatMap(({ decay }) => decay.map((band) => band.nominalHz)));
  return [
    table({
      caption: "Difference in decay by octave, s",
      folded: true,
      columns: [
        figures("Hz"),
        ...known.flatMap((comparison) => [
          figures(shortMonitorName(results, comparison.a)),
          figures(shortMonitorName(results, comparison.b)),
          figures("Difference"),
          figures("U"),
        ]),
      ],
      rows: [...bandsHz]
        .sort((x, y) => x - y)
        .map((nominalHz) => [
          figures(bandLabel(nominalHz)),
          ...known.flatMap(({ decay }) => {
            const band = decay.find((one) => one.nominalHz === nominalHz);
            return [
              number(band?.aS ?? null, 2),
              number(band?.bS ?? null, 2),
              signedNumber(band?.differenceS ?? null, 2),
              uncertainty(band?.uncertaintyS ?? null, 2),
            ];
          }),
        ]),
      notes: ["Mean of the channels at the mix position. U: expanded uncertainty (k = 2) at this place."],
    }),
  ];
}
