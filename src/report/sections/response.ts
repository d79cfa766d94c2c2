import { responseFigure } from "../figures/response.js";
import type { AverageResponse, Results } from "../../model.js";
import { thirdOctaves, valueAt } from "../words/curves.js";
import { monitorName, shortMonitorName } from "../words/names.js";
import { bandLabel, fixed, hertz } from "../words/numbers.js";
import { type Block, figures, number, type Section, table, uncertainty } from "./section.js";

/** All monitors' responses at the mix position, laid on each other. */
export function responseSection(results: Results): Section {
  const id = "response";
  const heading = "Response at the mix position";
  const known = results.monitors.flatMap(({ id, response }) => (response ? [{ id, response }] : []));
  const missing = results.monitors.flatMap((monitor) =>
    monitor.response ? [] : [`${monitorName(results, monitor.id)}: ${reason(monitor.responseReason)}`],
  );
  const blocks: Block[] = missing.length > 0 ? [{ kind: "list", items: missing }] : [];
  if (known.length === 0) return { id, heading, blocks };
  const shifts = shiftsToFirst(results, known[0]!.id);
  blocks.unshift({
    kind: "prose",
    text: "Energy mean of left and right. Steady is everything the room builds up under a long note; tone looks through a window that shortens with frequency, nearer to what is heard as colour.",
  });
  blocks.push(
    {
      kind: "figure",
      title: "Response of all monitors",
      caption: [shiftWords(results, known[0]!.id, shifts), differenceWords(results), zeroWords(results)].join(" "),
      figure: responseFigure(results, shifts),
    },
    responseTable(results, known),
  );
  return { id, heading, blocks };
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

function differenceWords(results: Results): string {
  return results.comparisons
    .flatMap(({ a, b, bands, levelOffsetDb }) => {
      // As drawn: without the difference in level that the shifts take away.
      const known = bands.flatMap(({ nominalHz, differenceDb }) =>
        differenceDb === null ? [] : [{ nominalHz, differenceDb: differenceDb - (levelOffsetDb ?? 0) }],
      );
      if (known.length === 0) return [];
      const widest = known.reduce((x, y) => (Math.abs(y.differenceDb) > Math.abs(x.differenceDb) ? y : x));
      const [louder, softer] = widest.differenceDb >= 0 ? [a, b] : [b, a];
      const size = fixed(Math.abs(widest.differenceDb), 1);
      const names = [louder, softer].map((id) => monitorName(results, id));
      return [
        `Widest apart at ${hertz(widest.nominalHz)}: ${names[0]!} ${size} dB above ${names[1]!} (third octaves).`,
      ];
    })
    .join(" ");
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
      "Levels as measured, read off the 1/24-octave curves. U is the expanded uncertainty (k = 2) at this microphone place.",
    ],
  });
}

function reason(code: string | null): string {
  if (code === "not-measured-at-mix") return "not measured at the mix position";
  if (code === "no-mix-position") return "no measurement at the mix position, so no mean response";
  return code === null ? "no response; the findings say why" : code.replaceAll("-", " ");
}
