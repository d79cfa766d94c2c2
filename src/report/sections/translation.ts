import type { Results } from "../../model.js";
import { bandLabel, capital, fixed, hertz, listed, signed } from "../../words/numbers.js";
import { shortMonitorName } from "../words/names.js";
import { type Block, type Cell, figures, type Mark, type Section, table, words } from "./section.js";

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
      rows: regions.map((region) => [words(capital(region)), ...rows.map((one) => driftCell(one, region))]),
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

function driftCell({ heardOn, regions }: Drift, name: string): Cell {
  const region = regions.find((one) => one.region === name);
  if (!region) return figures("—");
  if (!region.controlled) return words("uncontrolled");
  // What a device does to every mix is no fault of this room.
  const rangeDb = heardOn.startsWith("class:") ? region.roomShareRangeDb : region.rangeDb;
  if (rangeDb === null) return figures("—");
  const [low, high] = rangeDb;
  if (Math.max(Math.abs(low), Math.abs(high)) < WORTH_DB) return figures("·");
  return figures(`${signed(low, 1)} to ${signed(high, 1)}`);
}

/** The limits of the trust map, the kinds of devices, and what is never added in: level of listening and driving. */
export function translationSection(results: Results): Section {
  const { translation } = results;
  const section = { id: "translation", heading: "Translation", pictures: [] };
  if (!translation) return { ...section, tables: [] };
  return { ...section, tables: [limitTable(translation), classTable(translation), ...asideTables(translation)] };
}

function limitTable({ limits, parameters }: Translation): Block {
  return table({
    caption: "Limits of the trust map, and parameters of the model",
    folded: true,
    columns: [words("What"), figures("Care beyond"), figures("Blind beyond"), words("Known as"), words("From")],
    rows: [
      ...limits.map(({ code, care, blind, unit, label, source, rangeHz }) => [
        words(`${code.replaceAll("-", " ")}, ${hertz(rangeHz[0])} to ${hertz(rangeHz[1])}`),
        figures(`${String(care)} ${unit}`),
        figures(blind === null ? "never" : `${String(blind)} ${unit}`),
        words(label),
        words(source),
      ]),
      ...parameters.map(({ name, value, label, source }) => [
        words(name),
        figures(String(value)),
        figures(""),
        words(label),
        words(source),
      ]),
    ],
    notes: [],
  });
}

function classTable({ classes }: Translation): Block {
  return table({
    caption: "Kinds of devices: what is lost on them, whatever the mix",
    folded: true,
    columns: [words("Device"), words("What is lost"), words("Known as"), words("From")],
    rows: classes.map(({ name, loses, label, source }) => [words(name), words(loses), words(label), words(source)]),
    notes: ["Envelopes of kinds of devices, not measurements of one; the spread stands in results.json."],
  });
}

function asideTables({ levelShifts, masking }: Translation): Block[] {
  const items = [
    ...levelShifts.map(({ heardOn, fromDb, toDb, bands }) => {
      const at = (hz: number): string => signed(bands.find(({ nominalHz }) => nominalHz === hz)?.shiftDb ?? null, 1);
      return `${heardAs(heardOn)} at ${fixed(toDb, 0)} instead of ${fixed(fromDb, 0)} dB the same mix seems ${at(50)} dB at 50 Hz and ${at(100)} dB at 100 Hz (equal loudness, ISO 226). Never part of a drift.`;
    }),
    ...masking.flatMap(({ speedKmh, maskedBelowHz }) =>
      maskedBelowHz === null
        ? []
        : [
            `In a car at ${fixed(speedKmh, 0)} km/h noise covers what lies below ${hertz(maskedBelowHz)}. Never part of a drift.`,
          ],
    ),
  ];
  return items.length === 0 ? [] : [{ kind: "list", items }];
}

function heardAs(id: string): string {
  return id.startsWith("class:") ? `On a ${id.slice("class:".length)}` : `On ${id}`;
}
