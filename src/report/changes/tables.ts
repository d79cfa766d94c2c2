import type { ChangedQuantity, ChangePair, Changes } from "../../schema/changes.js";
import { bandLabel, capital, fixed, signed, significant, unknownMark } from "../../words/numbers.js";
import { quantityName } from "../../words/quantity-names.js";
import { type Block, type Cell, figures, table, words } from "../sections/section.js";
import { pairName, type SideNames, sideNames } from "./names.js";
import { markOf, verdictCell } from "./verdict.js";

/** Quantities of one kind, in one table. */
interface Family {
  readonly caption: string;
  readonly names: readonly string[];
  readonly fraction: 1 | 3 | null;
}

const families: readonly Family[] = [
  { caption: "trust map", names: ["trust"], fraction: 3 },
  { caption: "deviation from the target, dB", names: ["targetDb"], fraction: 3 },
  { caption: "left minus right, dB", names: ["leftRightDb"], fraction: 3 },
  {
    caption: "lower end, arrival and level",
    names: ["minus3Hz", "minus6Hz", "minus10Hz", "leftRightArrivalS", "overallDb"],
    fraction: null,
  },
  { caption: "level re 200 Hz to 4 kHz, by third octave, dB", names: ["levelDb"], fraction: 3 },
  { caption: "decay times by octave, s", names: ["edtS", "t20S", "t30S", "lateS"], fraction: 1 },
  { caption: "decay times by third octave, s", names: ["edtS", "t20S", "t30S", "lateS"], fraction: 3 },
  { caption: "modes", names: ["modeHz", "modeT60S"], fraction: null },
  { caption: "clarity by octave, dB", names: ["c50Db", "c80Db"], fraction: 1 },
  { caption: "early reflections, dB re the direct sound", names: ["reflectionDb"], fraction: null },
  { caption: "background noise by octave, dB", names: ["noiseDb"], fraction: 1 },
  { caption: "flutter, by the interval of its echoes", names: ["flutterDb", "flutterT60S"], fraction: null },
  { caption: "decays of two slopes, s", names: ["lateSlopeS", "secondSlopeS"], fraction: 1 },
  { caption: "mean level over the places, dB", names: ["roomLevelDb"], fraction: 3 },
  { caption: "mean decay time over the places, s", names: ["roomDecayS"], fraction: 1 },
];

const GRADES = ["blind", "care", "believe"] as const;

/** Every figure of one pair, a table a kind, each behind a line that opens it. */
export function pairTables(pair: ChangePair, changes: Changes): Block[] {
  const names = sideNames(changes);
  return families.flatMap(({ caption, names: wanted, fraction }) => {
    const entries = pair.quantities.filter(
      (one) => wanted.includes(one.quantity) && (fraction === null || one.fraction === fraction),
    );
    if (entries.length === 0) return [];
    const listed = wanted.flatMap((name) => entries.filter(({ quantity }) => quantity === name));
    return [
      quantityTable(`${pairName(pair, changes)}: ${caption}${countWords(entries)}`, listed, wanted.length > 1, names),
    ];
  });
}

/** What is in a table, so that nobody opens it in vain. */
function countWords(entries: readonly ChangedQuantity[]): string {
  const count = (mark: ReturnType<typeof markOf>): number => entries.filter((one) => markOf(one) === mark).length;
  const parts = [
    [count("better"), "better"],
    [count("worse"), "worse"],
    [count("changed"), "changed"],
  ].flatMap(([many, word]) => (many === 0 ? [] : [`${String(many)} ${String(word)}`]));
  return parts.length === 0 ? "" : ` (${parts.join(", ")})`;
}

function quantityTable(caption: string, entries: readonly ChangedQuantity[], named: boolean, names: SideNames): Block {
  const placed = entries.some(({ bandHz, atS }) => bandHz !== null || atS !== null);
  const isGraded = entries.every(({ unit }) => unit === "grade");
  const judged = entries.some(({ uncertainty }) => uncertainty !== null);
  const head = [
    ...(named ? [words("What")] : []),
    ...(placed ? [figures(entries.some(({ atS }) => atS !== null) ? "Delay, ms" : "Hz")] : []),
    ...[names.before, names.after].map((name) => (isGraded ? words : figures)(capital(name))),
    ...(judged ? ["Difference", "U", "Just noticed", "Needed"].map(figures) : []),
    words("Verdict"),
    words("Why"),
  ];
  return table(
    {
      caption,
      folded: true,
      columns: head,
      rows: entries.map((entry) => [
        ...(named ? [words(quantityName(entry.quantity))] : []),
        ...(placed ? [placeCell(entry)] : []),
        ...valueCells(entry),
        ...(judged ? sizeCells(entry) : []),
        verdictCell(entry),
        words(whyWords(entry)),
      ]),
      notes: judged
        ? ["U: expanded uncertainty (k = 2) of the difference. Needed: what it takes to be called real here."]
        : [],
    },
    "not known, or not judged.",
  );
}

function placeCell({ bandHz, atS }: ChangedQuantity): Cell {
  if (atS !== null) return figures(fixed(1000 * atS, 2));
  return figures(bandHz === null ? unknownMark : bandLabel(bandHz));
}

function valueCells(entry: ChangedQuantity): Cell[] {
  return (["before", "after"] as const).map((side) => {
    const value = entry[side];
    if (value === null) return figures(unknownMark);
    const bound = entry.missing === side ? "at most " : "";
    return entry.unit === "grade" ? words(GRADES[value]!) : figures(`${bound}${number(value, entry, false)}`);
  });
}

function sizeCells(entry: ChangedQuantity): Cell[] {
  const { difference, uncertainty, justNoticeable, needed } = entry;
  const cell = (value: number | null): Cell => figures(value === null ? unknownMark : number(value, entry, false));
  return [
    figures(difference === null ? unknownMark : number(difference, entry, true)),
    ...[uncertainty, justNoticeable, needed].map(cell),
  ];
}

/** Times of arrival in microseconds; everything else as it is measured. */
function number(value: number, { unit, quantity, bandHz }: ChangedQuantity, sign: boolean): string {
  const write = sign ? signed : fixed;
  if (quantity === "leftRightArrivalS") return `${write(1e6 * value, 0)} µs`;
  const text = unit === "s" ? write(value, 3) : unit === "Hz" ? write(value, 1) : write(value, 2);
  // In a table of several units each figure has its own.
  return bandHz === null && quantity !== "reflectionDb" ? `${text} ${unit}` : text;
}

function whyWords({ because, needed, change }: ChangedQuantity): string {
  // The figures stand beside it; only what they do not say is said.
  if (needed === null) return because;
  if (change !== "real") return "";
  return /(?:: |; )(?!.*(?:: |; ))(.*)$/.exec(because)?.[1] ?? "";
}

/** At other places than the mix position: what is real there. */
export function otherPlaces(pairs: readonly ChangePair[], changes: Changes): Block[] {
  const names = sideNames(changes);
  const real = pairs.flatMap((pair) =>
    pair.quantities.filter(({ change }) => change === "real").map((entry) => ({ pair, entry })),
  );
  const judged = pairs.reduce((sum, { quantities }) => sum + quantities.length, 0);
  const caption = `Other places: ${String(real.length)} of ${String(judged)} figures have really changed`;
  if (real.length === 0) return [{ kind: "prose", text: `${caption}.` }];
  return [
    table({
      caption,
      folded: true,
      columns: [
        ...["Where", "What"].map(words),
        figures("Hz or ms"),
        ...[names.before, names.after].map((name) => figures(capital(name))),
        ...["Difference", "U"].map(figures),
        words("Verdict"),
      ],
      rows: real.map(({ pair, entry }) => [
        words(pairName(pair, changes)),
        words(quantityName(entry.quantity)),
        placeCell(entry),
        ...valueCells(entry),
        ...sizeCells(entry).slice(0, 2),
        verdictCell(entry),
      ]),
      notes: ["All figures of all places stand in changes.json and changes.csv."],
    }),
  ];
}

export function justNoticeableTable({ justNoticeable }: Changes): Block {
  const kinds = new Map<string, Changes["justNoticeable"]>();
  for (const one of justNoticeable) {
    const key = `${String(one.value)} ${one.source}`;
    kinds.set(key, [...(kinds.get(key) ?? []), one]);
  }
  return table({
    caption: "Just noticeable differences, and where they come from",
    folded: false,
    columns: [words("Quantity"), figures("Just noticed"), words("Lent"), words("Source")],
    rows: [...kinds.values()].map((same) => {
      const { value, unit, lent, source } = same[0]!;
      return [
        words(capital(same.map(({ quantity }) => quantityName(quantity)).join("; "))),
        figures(thresholdWords(value, unit)),
        words(lent ? "lent from another quantity" : ""),
        words(source),
      ];
    }),
    notes: [],
  });
}

function thresholdWords(value: number, unit: Changes["justNoticeable"][number]["unit"]): string {
  if (unit === "share") return `${significant(100 * value, 2)} %`;
  if (unit === "octaves") return `${significant(value, 2)} octave`;
  return unit === "s" ? `${fixed(1e6 * value, 0)} µs` : `${String(value)} dB`;
}
