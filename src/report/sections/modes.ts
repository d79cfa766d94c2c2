import type { MeasuredMode, Results, RoomModes } from "../../model.js";
import { MODE_SOURCE } from "../../standards/modal-decay.js";
import { likelyModes, modeName } from "../../words/mode-name.js";
import { capital, fixed, hertz, listed, unknownMark, withUncertainty } from "../../words/numbers.js";
import { HELD_DB, ringMapFigure } from "../figures/ring-map.js";
import { audibleWords, measuredName, predictedNames } from "../words/modes.js";
import { otherTongues } from "../words/tongues.js";
import { shortMonitorName } from "../words/names.js";
import { type Block, type Cell, figures, marked, number, type Section, table, words } from "./section.js";

/** A mode that raises the response less is hidden under others in the map: a choice of ours. */
const SHOWN_DB = 1;

const heading = "Modes: what the room holds on to";

/** Where the room rings at low frequencies, against what its dimensions predict and what is heard. */
export function modesSection(results: Results): Section {
  const { roomModes } = results;
  if (!roomModes) return { id: "modes", heading, pictures: [], tables: [] };
  const told: Block = { kind: "prose", text: `${foundWords(roomModes)} ${boundWords(roomModes)}`.trim() };
  const tables = [
    ...(roomModes.measured.length > 0 ? [measuredTable(results, roomModes)] : []),
    ...predictedTable(roomModes),
  ];
  if (roomModes.ringMaps.length === 0) return { id: "modes", heading, pictures: [told], tables };
  const map: Block = {
    kind: "figure",
    title: "How long each low frequency lasts",
    see: `${seeWords(roomModes)} ${otherTongues(roomModes, (id) => shortMonitorName(results, id))}`.trim(),
    caption: [
      `Time runs down. Each shade ends where the sound has fallen by so much for good, the slower of two sides; seen through filters a sixth of an octave wide. The dotted line: ${MODE_SOURCE}; below 32 Hz and between the sources' points a choice of ours.`,
      `Dots: single modes that raise the response by ${SHOWN_DB} dB or more, where they alone would be ${HELD_DB} dB down; a large one is heard. No shade: too much noise there, or too little sound from the loudspeaker.`,
    ].join(" "),
    figure: ringMapFigure(
      roomModes.ringMaps.map((one) => ({
        name: shortMonitorName(results, one.monitor),
        map: one,
        modes: roomModes.measured.filter(({ bumps }) =>
          bumps.some(({ monitor, raisedDb }) => monitor === one.monitor && raisedDb >= SHOWN_DB),
        ),
      })),
    ),
  };
  return { id: "modes", heading, pictures: [told, map], tables };
}

const reasons: Readonly<Record<string, string>> = {
  "nothing-recorded": "no recording could be used",
  "too-little-recorded": "too little of the decay was recorded",
};

function foundWords({ measured, rangeHz, reason, measurements, schroederHz }: RoomModes): string {
  if (!rangeHz) return `No modes were looked for: ${reasons[reason ?? ""] ?? "the data do not allow it"}.`;
  // What looks like one above the Schroeder frequency is another mixture of many at every place.
  const toHz = Math.min(rangeHz[1], schroederHz ?? Infinity);
  const ones = measured.filter(({ kind, frequencyHz }) => kind === "mode" && frequencyHz < toHz);
  const heard = measured.filter(({ audible }) => audible === true);
  const from = measurements.length === 1 ? "one measurement" : `${measurements.length} measurements together`;
  const count =
    ones.length === 0 ? "no single mode was" : ones.length === 1 ? "one mode was" : `${ones.length} modes were`;
  const verdict =
    heard.length === 0
      ? "None of what was found is known to be heard as ringing."
      : `Heard as ringing: ${listed(heard.map(measuredName))}.`;
  return `Between ${fixed(rangeHz[0], 0)} and ${hertz(Math.round(toHz))} ${count} told apart, from ${from}. ${verdict}`;
}

function boundWords({ schroederHz, schroederUncertaintyHz, predictedReason }: RoomModes): string {
  const bound =
    schroederHz === null
      ? "From where on modes overlap is not known: that takes the room's volume and a decay time."
      : `Above about ${withUncertainty(schroederHz, schroederUncertaintyHz ?? null, 0)} Hz (Schroeder frequency) modes overlap so densely that single ones hardly matter: what is listed from there on are peaks of many together.`;
  return predictedReason === null
    ? bound
    : `${bound} The session gives no dimensions, so nothing is predicted to hold these against.`;
}

function seeWords({ measured, predicted }: RoomModes): string {
  const over = ({ t60S, unheardS }: MeasuredMode): number => (t60S ?? 0) / (unheardS ?? Infinity);
  const heard = measured.filter(({ audible }) => audible === true);
  const worst = heard.toSorted((a, b) => over(b) - over(a))[0];
  if (!worst) {
    return "Where the solid edge stays above the dotted line a note ends soon enough; no mode is known to ring so long that it is heard.";
  }
  const likely = likelyModes(worst.predicted.flatMap((index) => predicted?.[index] ?? []));
  return `The tongue at ${measuredName(worst)} reaches below the dotted line: it takes ${withUncertainty(worst.t60S, worst.t60UncertaintyS, 2)} s to fall by 60 dB${likely ? `; by the dimensions ${likely.text}` : ""}.`;
}

function measuredTable(results: Results, { measured, predicted }: RoomModes): Block {
  return table(
    {
      caption: "Modes as measured",
      folded: false,
      columns: [
        figures("Hz"),
        figures("Decay, s"),
        figures("Unheard to, s"),
        words("Heard"),
        words("Why"),
        figures("Raises, dB"),
        figures("Level, dB"),
        ...(predicted ? [words("Predicted (Hz)")] : []),
      ],
      rows: measured.map((mode) => [
        figures(
          mode.kind === "mode"
            ? withUncertainty(mode.frequencyHz, mode.frequencyUncertaintyHz, 2)
            : groupName(mode, measured),
        ),
        figures(mode.t60S === null ? unknownMark : withUncertainty(mode.t60S, mode.t60UncertaintyS, 2)),
        number(mode.unheardS, 2),
        verdictCell(mode),
        words(capital(audibleWords(mode, (id) => shortMonitorName(results, id)))),
        number(mode.bumps.length === 0 ? null : Math.max(...mode.bumps.map(({ raisedDb }) => raisedDb)), 0),
        number(mode.levelDb, 0),
        ...(predicted ? [words(predictedNames(mode, predicted))] : []),
      ]),
      notes: [
        "Two figures of Hz: modes that overlap, told as a group; “others between” them: the single modes in that range stand in rows of their own and are no part of it. Decay: to fall by 60 dB. Behind ±: expanded uncertainty (k = 2). Unheard to: the longest decay that stays unheard.",
        "Level: at the arrival, re the strongest single mode, over all places. Raises: how far the response at the mix position stands above what it would be without the mode, the most over monitors.",
      ],
    },
    "not known: of a wide group there is no single figure.",
  );
}

/** Of a group in whose range modes of their own lie, only the others are meant. */
function groupName(group: MeasuredMode, measured: readonly MeasuredMode[]): string {
  const [fromHz, toHz] = group.rangeHz;
  const holdsOne = measured.some(
    ({ kind, frequencyHz }) => kind === "mode" && frequencyHz >= fromHz && frequencyHz <= toHz,
  );
  return `${holdsOne ? "others between " : ""}${fixed(fromHz, 0)} ${holdsOne ? "and" : "to"} ${fixed(toHz, 0)}`;
}

function verdictCell({ audible }: MeasuredMode): Cell {
  if (audible === null) return marked("unknown", "cannot tell");
  return audible ? marked("mend", "yes") : words("no");
}

/** So far the list is worth reading; all of them stand in a file. */
const LISTED_HZ = 120;

function predictedTable({ predicted, measured, tolerance }: RoomModes): Block[] {
  if (!predicted) return [];
  const shown = predicted.filter(({ frequencyHz }) => frequencyHz <= LISTED_HZ);
  const rest = predicted.length - shown.length;
  const at = (index: number): string =>
    measured
      .filter((mode) => mode.kind === "mode" && mode.predicted.includes(index))
      .map((mode) => fixed(mode.frequencyHz, 1))
      .join(", ");
  return [
    table({
      caption: `Modes as predicted from the dimensions, up to ${LISTED_HZ} Hz`,
      folded: true,
      columns: [figures("Hz"), words("Mode"), words("Kind"), figures("To the next, Hz"), figures("Measured, Hz")],
      rows: shown.map(({ frequencyHz, order, kind, spacingHz }, index) => [
        figures(fixed(frequencyHz, 1)),
        words(modeName(order)),
        words(kind),
        number(spacingHz, 1),
        figures(at(index)),
      ]),
      notes: [
        `Of a rigid rectangular room; real walls and niches move them by some percent. Measured: single modes within ${fixed(100 * tolerance, 0)} %; one that fits several predicted ones stands beside each, since frequency does not tell them apart.`,
        ...(rest > 0 ? [`The ${rest} above stand in predicted-modes.csv.`] : []),
      ],
    }),
  ];
}
