import type { Results } from "../../model.js";
import { roleName } from "../words/names.js";
import { fixed, held, listed } from "../../words/numbers.js";
import { calibrationFile } from "../../schema/calibration-file.js";
import { dateWords } from "../words/date.js";

export interface TitleBlock {
  readonly title: string;
  /** Room, date, and the names behind the ids that findings use, in one line. */
  readonly context: string;
  readonly facts: readonly { readonly name: string; readonly value: string }[];
}

/** Whose room, when, by whom, with what. */
export function titleBlock(results: Results): TitleBlock {
  const { session } = results;
  const { room, microphone, environment } = session;
  const size = [room?.lengthM, room?.widthM, room?.heightM];
  const metres = size.every((length) => length !== undefined)
    ? `${size.map((length) => fixed(length, 2)).join(" × ")} m`
    : null;
  const volume = room?.volumeM3 === undefined ? null : `${fixed(room.volumeM3, 1)} m³`;
  const monitors = results.monitors.map(
    ({ id, name, role }) => `${name === null ? id : `${name} (${id})`}, ${roleName(role)}`,
  );
  const air = [
    environment?.temperatureC === undefined ? null : `${fixed(environment.temperatureC, 1)} °C`,
    environment?.relativeHumidityPercent === undefined
      ? null
      : `${fixed(environment.relativeHumidityPercent, 0)} % relative humidity`,
  ];
  const facts: [string, string | null | undefined][] = [
    ["Room", joined([room?.name, metres, volume]) ?? "not stated"],
    ["Date", session.date === undefined ? "not stated" : dateWords(session.date)],
    ["Engineer", session.engineer ?? "not stated"],
    ["Client", session.client],
    ["Monitors", listed(monitors)],
    ["Microphone", microphone ? (joined([microphone.name, calibration(microphone)]) ?? "not stated") : "not stated"],
    ["Air", joined(air)],
    ["Notes", joined([session.notes, room?.notes])],
  ];
  return {
    title: session.title ?? "Untitled session",
    context: contextWords(results),
    facts: facts.flatMap(([name, value]) => (value ? [{ name, value: held(value) }] : [])),
  };
}

function contextWords({ session, monitors }: Results): string {
  const date = session.date === undefined ? null : dateWords(session.date);
  const named = monitors.flatMap(({ id, name }) => (name === null || name === id ? [] : [`${id}: ${name}`]));
  const place = joined([session.room?.name, date]) ?? "Room and date not stated";
  return held([place, ...named].join(" · "));
}

function calibration(microphone: NonNullable<Results["session"]["microphone"]>): string {
  const file = calibrationFile(microphone);
  return file === null ? "no calibration file" : `calibrated by ${file}`;
}

function joined(parts: readonly (string | null | undefined)[]): string | null {
  const present = parts.filter((part) => part !== null && part !== undefined && part !== "");
  return present.length > 0 ? present.join(", ") : null;
}
