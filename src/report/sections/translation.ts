import type { Results } from "../../model.js";
import { bandLabel, capital, fixed, hertz, listed, signed } from "../../words/numbers.js";
import { shortMonitorName } from "../words/names.js";
import { type Block, type Cell, figures, type Mark, table, words } from "./section.js";

type Translation = NonNullable<Results["translation"]>;
type Trust = Translation["trust"][number];
type Drift = Translation["drift"][number];

interface Chapter {
  readonly id: string;
  readonly heading: string;
  readonly blocks: readonly Block[];
}

const marks: Readonly<Record<"believe" | "care" | "blind", Mark>> = {
  believe: "trust",
  care: "mend",
  blind: "refused",
};

/** What to set on which monitor, and where mixes will drift: the decision, before anything is drawn. */
export function translationChapters(results: Results): Chapter[] {
  const { translation } = results;
  if (!translation || translation.guide.length === 0) return [];
  return [
    {
      id: "translation-guide",
      heading: "What to set on which monitor",
      blocks: [guideTable(translation), strips(results, translation)],
    },
    { id: "translation-drift", heading: "Where mixes made here will drift", blocks: driftBlocks(results, translation) },
  ];
}

function guideTable({ guide }: Translation): Block {
  return table({
    caption: "From the lowest to the highest",
    folded: false,
    columns: [words("Set here"), words("On"), words("What to do")],
    rows: guide.map(({ region, fromHz, toHz, carries, believe, care, advice }) => [
      words(`${capital(region)}, ${hertz(fromHz)} to ${hertz(toHz)}: ${carries}`),
      words(believe.length > 0 ? listed(believe) : care.length > 0 ? `${listed(care)}, with care` : "nothing here"),
      words(advice),
    ]),
    notes: [],
  });
}

/** Every third octave of every monitor as a mark. */
function strips(results: Results, { trust }: Translation): Block {
  return {
    kind: "strips",
    id: "trust-map",
    title: "Can a balance be judged here?",
    see: "Disc: believe it. Triangle: with care. Cross: this monitor is blind here.",
    rows: trust.map((one) => ({
      name: shortMonitorName(results, one.monitor),
      cells: one.bands.map(({ nominalHz, grade, reasons }, k) => ({
        mark: grade === null ? ("unknown" as const) : marks[grade],
        tick: k % TICK_EVERY === 1 ? bandLabel(nominalHz) : "",
        title: `${hertz(nominalHz)}: ${grade ?? "not measured"}${because(reasons)}`,
      })),
    })),
    caption:
      "By third octave from 25 Hz to 16 kHz; point at a mark for its reasons. Limits and their sources stand with the tables.",
  };
}

/** An octave. */
const TICK_EVERY = 3;

function because(reasons: Trust["bands"][number]["reasons"]): string {
  if (reasons.length === 0) return "";
  const each = reasons.map(({ code, value, limit, unit }) => {
    const size = value === null ? "" : ` ${fixed(value, 1)}${unit === null ? "" : ` ${unit}`}`;
    const most = limit === null ? "" : ` (limit ${fixed(limit, 1)})`;
    return `${code.replaceAll("-", " ")}${size}${most}`;
  });
  return ` (${each.join("; ")})`;
}

function driftBlocks(results: Results, translation: Translation): Block[] {
  const { compensation, compensationRange, drift } = translation;
  const [least, most] = compensationRange;
  const sentences = drift.flatMap(({ says }) => says ?? []);
  const blocks: Block[] = [
    {
      kind: "prose",
      text: `A model, not a measurement: if you correct by ear, part of a monitor's colour ends up inverted in the mix. How much nobody has published; here ${fixed(compensation, 2)}, and every figure has the range from ${fixed(least, 2)} to ${fixed(most, 2)}.`,
    },
  ];
  if (sentences.length > 0) blocks.push({ kind: "list", items: sentences });
  for (const mixedOn of new Set(drift.map((one) => one.mixedOn))) {
    blocks.push(
      driftTable(
        results,
        drift.filter((one) => one.mixedOn === mixedOn),
        mixedOn,
      ),
    );
  }
  return blocks;
}

/** Less than this is not worth a sentence: a wide deviation that is just heard with popular music (Toole and Olive 1988). */
const WORTH_DB = 1.5;

function driftTable(results: Results, rows: readonly Drift[], mixedOn: string): Block {
  const regions = rows[0]?.regions.map(({ region }) => region) ?? [];
  return table(
    {
      caption: `Mixed on ${shortMonitorName(results, mixedOn)}: how much louder than meant each region comes out, dB`,
      folded: false,
      columns: [words("Region"), ...rows.map(({ heardOn }) => figures(heardName(results, heardOn)))],
      rows: regions.map((region) => [
        words(capital(region)),
        ...rows.map((one) => driftCell(one.regions.find((other) => other.region === region))),
      ]),
      notes: [
        `A range, lowest to highest. Dot: under ${fixed(WORTH_DB, 1)} dB, not worth a thought. Of a kind of device: what this room adds to what the device does to every mix.`,
      ],
    },
    "nobody controlled it: the monitor mixed on is blind there.",
  );
}

function heardName(results: Results, id: string): string {
  if (id === "neutral") return "neutral room";
  return id.startsWith("class:") ? id.slice("class:".length) : shortMonitorName(results, id);
}

function driftCell(region: Drift["regions"][number] | undefined): Cell {
  const rangeDb = region?.shownRangeDb ?? null;
  if (!region || rangeDb === null) return figures("—");
  const [low, high] = rangeDb;
  if (Math.max(Math.abs(low), Math.abs(high)) < WORTH_DB) return figures("·");
  return figures(`${signed(low, 1)} to ${signed(high, 1)}`);
}
