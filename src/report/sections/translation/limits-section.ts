import type { Results, Translation } from "../../../model.js";
import { capital, fixed, hertz, listed, signed } from "../../../words/numbers.js";
import { loudnessTable } from "./loudness-table.js";
import { type Block, figures, type Section, table, words } from "../section.js";

/** The limits of the trust map, the kinds of devices, and what is never added in: level of listening and driving. */
export function translationSection(results: Results): Section {
  const { translation } = results;
  const section = { id: "translation", heading: "Translation", pictures: [] };
  if (!translation) return { ...section, tables: [] };
  return {
    ...section,
    tables: [
      limitTable(translation),
      loudnessTable(results, translation),
      classTable(translation),
      ...asideTables(translation),
    ],
  };
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
    rows: classes.map(({ name, loses, label, source }) => [
      words(name),
      words(loses ?? "not stated"),
      words(label),
      words(source),
    ]),
    notes: ["Envelopes of kinds of devices, not measurements of one; the spread stands in results.json."],
  });
}

function asideTables({ levelShifts, masking, classes }: Translation): Block[] {
  const items = [
    ...levelShifts.flatMap(({ heardOn, fromDb, toDb, bands }) => {
      const playedOn = classes.find(({ id }) => heardOn === `class:${id}`)!;
      const shifts = SHIFT_TOLD_HZ.flatMap((hz) => {
        const shiftDb = bands.find(({ nominalHz }) => nominalHz === hz)?.shiftDb ?? null;
        const playedDb = playedOn.bands.find(({ nominalHz }) => nominalHz === hz)?.typicalDb ?? null;
        // What a device does not play does not change with the level.
        return shiftDb === null || playedDb === null || playedDb < LEAST_PLAYED_DB
          ? []
          : [`${signed(shiftDb, 1)} dB at ${hertz(hz)}`];
      });
      return shifts.length === 0
        ? []
        : [
            `${capital(playedOn.name)}: played at ${fixed(toDb, 0)} instead of ${fixed(fromDb, 0)} dB SPL (C), the same mix seems ${listed(shifts)} (equal loudness, ISO 226). Never part of a drift.`,
          ];
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

/** Where the change of balance with level is told; the rest stands in results.json. */
const SHIFT_TOLD_HZ = [50, 100, 200];
/** Re neutral: less is not heard as part of the balance. A choice of ours. */
const LEAST_PLAYED_DB = -20;
