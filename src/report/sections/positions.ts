import { positionsFigure } from "../figures/positions.js";
import type { MonitorResult, Results } from "../../model.js";
import { monitorName, shortMonitorName } from "../words/names.js";
import { bandLabel, fixed, hertz, listed } from "../../words/numbers.js";
import { type Block, figures, number, type Section, table, uncertainty } from "./section.js";

type Positions = NonNullable<MonitorResult["positions"]>;

interface Spread {
  readonly id: string;
  readonly positions: Positions;
}

/** What changes from one microphone place to the next. */
export function positionsSection(results: Results): Section {
  const known = results.monitors.flatMap(({ id, positions }) =>
    positions && positions.bands.length > 0 ? [{ id, positions }] : [],
  );
  const section = { id: "positions", heading: "From place to place" };
  if (known.length === 0) return { ...section, pictures: [], tables: [] };
  const places = [...new Set(known.flatMap(({ positions }) => positions.ids))];
  return {
    ...section,
    pictures: [
      {
        kind: "figure",
        title: "The mean over the places, and how far they lie apart",
        see: seeWords(results, known),
        caption: `Over ${places.length} places (${places.join(", ")}). Line: energy mean of steady level and loudspeakers; shaded: one standard deviation across the places to either side; smoothed to 1/24 octave. Below: the same standard deviation by third octave.`,
        figure: positionsFigure(known.map(({ id, positions }) => ({ name: shortMonitorName(results, id), positions }))),
      },
    ],
    tables: [levelTable(results, known), ...decayTables(results, known)],
  };
}

function seeWords(results: Results, known: readonly Spread[]): string {
  const widest = known.flatMap(({ id, positions }) => {
    const bands = positions.bands.flatMap(({ nominalHz, spreadDb }) =>
      spreadDb === null ? [] : [{ nominalHz, spreadDb }],
    );
    if (bands.length === 0) return [];
    const most = bands.reduce((a, b) => (b.spreadDb > a.spreadDb ? b : a));
    return [`${fixed(most.spreadDb, 1)} dB at ${hertz(most.nominalHz)} on ${monitorName(results, id)}`];
  });
  const size = widest.length > 0 ? `: at most ${listed(widest)}` : "";
  return `Where the shade is wide, moving your head changes what you hear${size}.`;
}

function levelTable(results: Results, known: readonly Spread[]): Block {
  const bandsHz = new Set(known.flatMap(({ positions }) => positions.bands.map((band) => band.nominalHz)));
  return table({
    caption: "Mean over the places by third octave, dB",
    folded: true,
    columns: [
      figures("Hz"),
      ...known.flatMap(({ id }) => [shortMonitorName(results, id), "Spread", "U in the room"].map(figures)),
    ],
    rows: [...bandsHz]
      .sort((a, b) => a - b)
      .map((nominalHz) => [
        figures(bandLabel(nominalHz)),
        ...known.flatMap(({ positions }) => {
          const band = positions.bands.find((one) => one.nominalHz === nominalHz);
          return [
            number(band?.levelDb ?? null, 1),
            number(band?.spreadDb ?? null, 1),
            uncertainty(band?.roomUncertaintyDb ?? null, 1),
          ];
        }),
      ]),
    notes: [
      "Spread: standard deviation across places. U in the room: expanded uncertainty (k = 2) of the mean as a figure for the room.",
    ],
  });
}

function decayTables(results: Results, known: readonly Spread[]): Block[] {
  const decays = known.filter(({ positions }) => positions.decay.length > 0);
  if (decays.length === 0) return [];
  const bandsHz = new Set(decays.flatMap(({ positions }) => positions.decay.map((band) => band.nominalHz)));
  return [
    table({
      caption: "Mean decay over the places by octave, s",
      folded: true,
      columns: [
        figures("Hz"),
        ...decays.flatMap(({ id }) => [shortMonitorName(results, id), "Spread", "U in the room"].map(figures)),
      ],
      rows: [...bandsHz]
        .sort((a, b) => a - b)
        .map((nominalHz) => [
          figures(bandLabel(nominalHz)),
          ...decays.flatMap(({ positions }) => {
            const band = positions.decay.find((one) => one.nominalHz === nominalHz);
            return [
              number(band?.timeS ?? null, 2),
              number(band?.spreadS ?? null, 2),
              uncertainty(band?.roomUncertaintyS ?? null, 2),
            ];
          }),
        ]),
      notes: ["U in the room: what ISO 3382-2 says of so few places, expanded (k = 2)."],
    }),
  ];
}
