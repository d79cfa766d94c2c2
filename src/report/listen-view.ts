import type { Listening, ListeningVersion } from "../schema/listening.js";
import { fixed, held, hertz, listed, signed } from "../words/numbers.js";
import { bassWords, clock, driftWords, lostWords, lowestWords, monoWords } from "./words/listening.js";

interface VersionView {
  readonly id: string;
  readonly name: string;
  readonly file: string;
  readonly about: string;
  readonly atS: number;
}

interface DriftTable {
  readonly mixedOn: string;
  readonly note: string;
  readonly columns: readonly string[];
  readonly rows: readonly { readonly region: string; readonly cells: readonly string[] }[];
}

/** Everything that the template of the listening page shows. */
export interface ListenView {
  readonly title: string;
  readonly context: string;
  readonly how: string;
  readonly notes: readonly string[];
  readonly versions: readonly VersionView[];
  readonly sequence: { readonly file: string; readonly about: string };
  readonly classes: readonly { readonly cells: readonly string[] }[];
  readonly mono: string;
  readonly monoRows: readonly { readonly cells: readonly string[] }[];
  readonly drift: readonly DriftTable[];
  readonly version: string;
}

export function listenView(listening: Listening): ListenView {
  const { mix, versions, translation, sequence, notes, missing } = listening;
  return {
    title: `Listening to ${mix.file}`,
    context: held(
      [
        listening.session,
        clock(mix.durationS),
        `${fixed(mix.loudnessLufs, 1)} LUFS`,
        `${fixed(mix.truePeakDbtp, 1)} dBTP`,
      ]
        .filter((part) => part !== null)
        .join(" · "),
    ),
    how: held(howWords(listening)),
    notes: [
      ...notes,
      ...missing.map(({ id, reason }) => `${id} could not be rendered: ${reason.replaceAll("-", " ")}.`),
    ].map(held),
    versions: versions.map((one) => versionView(one, listening)),
    sequence: {
      file: sequence.file,
      about: held(
        `${fixed(sequence.durationS, 0)} s of each, from ${clock(sequence.fromS)}, in this order: ${listed(versions.map(({ name }) => name))}.`,
      ),
    },
    classes: translation.classes.map((one) => ({
      cells: [one.name, lostWords(one), lowestWords(one), bassWords(one)].map(held),
    })),
    mono: held(monoWords(listening)),
    monoRows: translation.mono.map(({ nominalHz, correlation, lossDb, reason }) => ({
      cells: [
        hertz(nominalHz),
        correlation === null ? "no sound" : fixed(correlation, 2),
        reason === "vanishes" ? "vanishes" : reason === "no-sound" ? "no sound" : `${fixed(lossDb, 1)} dB`,
      ].map(held),
    })),
    drift: driftTables(listening),
    version: listening.version,
  };
}

function howWords({ filter, on, versions }: Listening): string {
  if (on !== null) {
    return `Listen on the monitor "${on}" at the mix position: its own colour is taken out of every version, so that its room is not heard twice. What it does not give cannot be put back: lifts end at 12 dB.`;
  }
  const rooms = versions.some((one) => one.filter === "room");
  return filter === "room" && rooms
    ? "Listen on earphones: the monitors sound with the whole response of their room at the microphone, the playback classes with their tone alone."
    : "Listen on earphones or a neutral monitor: each version has the tone of a system, without its reverberation.";
}

function versionView(one: ListeningVersion, { sequence }: Listening): VersionView {
  const about = [one.loses ?? (one.mono ? "mono" : null), gainWords(one), ...one.notes].filter((part) => part !== null);
  const atS = sequence.parts.find(({ id }) => id === one.id)?.atS ?? 0;
  return { id: one.id, name: one.name, file: one.file, about: held(about.join("; ")), atS };
}

function gainWords({ gainDb, matched, reason }: ListeningVersion): string {
  if (reason === "nothing-left") return "nothing of the mix is left on it";
  const gain = `level ${signed(gainDb, 1)} dB`;
  return matched ? gain : `${gain}, still quieter than the others`;
}

function driftTables({ translation: { drift } }: Listening): DriftTable[] {
  const mixedOn = [...new Set(drift.map((one) => one.mixedOn))];
  return mixedOn.map((id) => {
    const rows = drift.filter((one) => one.mixedOn === id && !one.heardOn.startsWith("class:"));
    const below = rows[0]?.uncontrolledBelowHz ?? null;
    return {
      mixedOn: id,
      note: below === null ? "" : held(`Nobody controls what lies below ${hertz(below)} on it.`),
      columns: rows.map(({ heardOn }) => heardOn),
      rows: (rows[0]?.regions ?? []).map(({ region }, n) => ({
        region,
        cells: rows.map((one) => held(driftWords(one.regions[n]!))),
      })),
    };
  });
}
