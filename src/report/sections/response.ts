import { responseFigure } from "../figures/response.js";
import type { AverageResponse, Results } from "../../model.js";
import { thirdOctaves, valueAt } from "../words/curves.js";
import { monitorName, shortMonitorName } from "../words/names.js";
import { reasonWords } from "../words/reasons.js";
import { bandLabel, fixed, hertz, withUncertainty } from "../../words/numbers.js";
import { type Block, figures, number, type Section, table, uncertainty } from "./section.js";

/** All monitors' responses at the mix position, laid on each other. */
export function responseSection(results: Results): Section {
  const section = { id: "response", heading: "The monitors side by side" };
  const known = results.monitors.flatMap(({ id, response }) => (response ? [{ id, response }] : []));
  const missing = results.monitors.flatMap((monitor) =>
    monitor.response
      ? []
      : [`${monitorName(results, monitor.id)}: no mean response, ${reason(monitor.responseReason)}.`],
  );
  const absent: Block[] = missing.length > 0 ? [{ kind: "list", items: missing }] : [];
  if (known.length === 0) return { ...section, pictures: absent, tables: [] };
  const shifts = shiftsToFirst(results, known[0]!.id);
  const picture: Block = {
    kind: "figure",
    title: known.length > 1 ? "All monitors at the mix position, levels aligned" : "Response at the mix position",
    see: seeWords(results),
    caption: [
      "Energy mean of left and right. Steady is everything the room builds up under a long note; tone looks through a window that shortens with frequency, nearer to what is heard as colour.",
      shiftWords(results, known[0]!.id, shifts),
      zeroWords(results),
      shadedRanges(results).length > 0 ? "Shaded: where one shows what the other hides, listed in the tables." : "",
    ]
      .filter((text) => text !== "")
      .join(" "),
    figure: responseFigure(results, shifts, shadedRanges(results)),
  };
  return { ...section, pictures: [picture, ...absent], tables: [responseTable(results, known)] };
}

/** What to add to each monitor's level so that it agrees with the first one's over the alignment range. */
function shiftsToFirst({ comparisons }: Results, first: string): Map<string, number> {
  const shifts = new Map<string, number>();
  for (const { a, b, levelOffsetDb } of comparisons) {
    if (levelOffsetDb === null) continue;
    if (a === first) shifts.set(b, levelOffsetDb);
    else if (b === first) shifts.set(a, -levelOffsetDb);
  }
  return shifts;
}

function shiftWords(results: Results, first: string, shifts: ReadonlyMap<string, number>): string {
  if (shifts.size === 0) return "Levels as measured.";
  const moves = [...shifts].map(
    ([id, shift]) =>
      `${monitorName(results, id)} ${shift < 0 ? "lowered" : "raised"} by ${fixed(Math.abs(shift), 1)} dB`,
  );
  return `Drawn with ${moves.join(", ")}, so that the shape can be held against ${monitorName(results, first)}.`;
}

/** What 0 dB is. */
function zeroWords({ measurements }: Results): string {
  return measurements.some((measurement) => measurement.levelReference === "transfer")
    ? "0 dB: full scale played comes back as full scale recorded."
    : "0 dB: 20 µPa, for a sine at the level of the sweep.";
}

type Shows = Results["comparisons"][number]["shows"][number];

/** With two monitors: where one shows what the other hides. With more the shades would lie on each other. */
function shadedRanges({ comparisons }: Results): (readonly [number, number])[] {
  const [only, ...rest] = comparisons;
  return only && rest.length === 0 ? only.shows.map(({ fromHz, toHz }) => [fromHz, toHz] as const) : [];
}

function seeWords(results: Results): string {
  // What counts is how much is hidden and over how wide a range.
  const weight = ({ differenceDb, fromHz, toHz }: Shows): number => differenceDb * Math.log2(toHz / fromHz);
  const shows = results.comparisons.flatMap((comparison) => comparison.shows).toSorted((a, b) => weight(b) - weight(a));
  const most = shows[0];
  if (most) {
    const shaded = shadedRanges(results).length > 0 ? " (shaded)" : "";
    const size = withUncertainty(most.differenceDb, most.uncertaintyDb, 1);
    return `From ${hertz(most.fromHz)} to ${hertz(most.toHz)}${shaded} ${monitorName(results, most.monitor)} can show what ${monitorName(results, most.other)} must hide: ${size} dB lie between the lines.`;
  }
  return (
    widestWords(results) ??
    "Look at where the line begins to fall towards the left: what lies below cannot be judged here."
  );
}

/** As drawn: without the difference in level that the shifts take away. */
function widestWords(results: Results): string | null {
  const apart = results.comparisons.flatMap(({ a, b, bands, levelOffsetDb }) =>
    bands.flatMap(({ nominalHz, differenceDb }) =>
      differenceDb === null ? [] : [{ a, b, nominalHz, sizeDb: differenceDb - (levelOffsetDb ?? 0) }],
    ),
  );
  if (apart.length === 0) return null;
  const widest = apart.reduce((x, y) => (Math.abs(y.sizeDb) > Math.abs(x.sizeDb) ? y : x));
  const [louder, softer] = widest.sizeDb >= 0 ? [widest.a, widest.b] : [widest.b, widest.a];
  return `The monitors are widest apart at ${hertz(widest.nominalHz)}: ${monitorName(results, louder)} lies ${fixed(Math.abs(widest.sizeDb), 1)} dB above ${monitorName(results, softer)}.`;
}

function responseTable(results: Results, known: readonly { id: string; response: AverageResponse }[]): Block {
  const columns = known.flatMap(({ id }) => {
    const name = shortMonitorName(results, id);
    return [figures(`${name} steady, dB`), figures(`U, dB`), figures(`${name} tone, dB`)];
  });
  const rows = thirdOctaves.map(({ nominalHz, exactHz }) => [
    figures(bandLabel(nominalHz)),
    ...known.flatMap(({ response }) => {
      const at = (curve: readonly (number | null)[]): number | null => valueAt(response.frequencyHz, curve, exactHz);
      return [
        number(at(response.levelDb), 1),
        uncertainty(at(response.uncertaintyDb), 1),
        number(at(response.toneDb), 1),
      ];
    }),
  ]);
  return table({
    caption: "Response at third-octave midbands",
    folded: true,
    columns: [figures("Hz"), ...columns],
    rows,
    notes: [
      "Levels as measured, mean of left and right, read off the 1/24-octave curves. U is the expanded uncertainty (k = 2) at this microphone place.",
    ],
  });
}

function reason(code: string | null): string {
  return code === null ? "the findings say why" : reasonWords(code);
}
