import { InputError } from "../errors.js";
import type { Results } from "../model.js";
import type { Listening, ListeningVersion } from "../schema/listening.js";
import { BANDS, type Curve } from "../translation/bands.js";
import { type RoomImpulse, roomFilter } from "../translation/listen/room-filter.js";
import { toneFilter } from "../translation/listen/tone-filter.js";
import { hertz, listed } from "../words/numbers.js";

/** One way to hear the mix. */
export interface PlannedVersion extends Pick<
  ListeningVersion,
  "id" | "kind" | "name" | "file" | "loses" | "mono" | "filter" | "curve" | "notes"
> {
  /** Left and right; the same array where both are filtered alike. */
  readonly taps: readonly [Float64Array, Float64Array];
}

export interface ListenPlan {
  readonly versions: readonly PlannedVersion[];
  readonly missing: Listening["missing"];
}

export interface ListenOptions {
  readonly room: boolean;
  readonly on: string | null;
}

/** A loudspeaker that gives nothing cannot be made to: what is missing on it is lifted by no more. A choice of ours. */
const MOST_LIFT_DB = 12;

interface Heard {
  readonly version: Pick<PlannedVersion, "id" | "kind" | "name" | "file" | "loses" | "mono">;
  readonly deviationDb: Curve;
}

/**
 * Decides what is rendered: the mix as it is, every monitor of the session and every playback class.
 *
 * @param impulses - by measurement id, for the whole response
 * @throws {InputError} if the monitor that is listened on is not known
 */
export function listenPlan(
  results: Results,
  impulses: ReadonlyMap<string, RoomImpulse>,
  sampleRate: number,
  { room, on }: ListenOptions,
): ListenPlan {
  const monitors = monitorsHeard(results);
  const missing = (results.translation?.deviations ?? []).flatMap(({ monitor, reason }) =>
    reason === null ? [] : [{ id: monitor, reason }],
  );
  const own = on === null ? null : listenedOn(on, monitors, results).deviationDb;
  const heard = [neutral, ...monitors, ...classesHeard(results)];
  const versions = heard.map((one): PlannedVersion => {
    const { version, deviationDb } = one;
    const curve = own === null ? deviationDb : difference(deviationDb, own);
    const whole = room && version.kind === "monitor" ? wholeResponse(version.id, results, impulses, sampleRate) : null;
    if (whole !== null) return { ...version, filter: "room", curve: [], ...whole };
    const tone = toneFilter(curve, sampleRate) ?? new Float64Array([1]);
    const plain = curve.every((level) => level === null || level === 0);
    const taps = plain ? new Float64Array([1]) : tone;
    return {
      ...version,
      filter: plain ? "none" : "tone",
      curve: BANDS.map(({ nominalHz }, k) => ({ nominalHz, levelDb: curve[k] ?? null })),
      notes: [
        ...(room && version.kind === "monitor"
          ? ["no impulse response at the mix position: its tone is rendered"]
          : []),
        ...(own === null ? [] : limitedNote(deviationDb, own)),
      ],
      taps: [taps, taps],
    };
  });
  return { versions, missing };
}

const neutral: Heard = {
  version: {
    ...{ id: "neutral", kind: "neutral", name: "the mix on a neutral system", file: "neutral.wav" },
    ...{ loses: null, mono: false },
  },
  deviationDb: BANDS.map(() => 0),
};

function monitorsHeard({ translation, monitors }: Results): Heard[] {
  return (translation?.deviations ?? []).flatMap(({ monitor: id, reason, bands }) => {
    if (reason !== null || bands.every(({ deviationDb }) => deviationDb === null)) return [];
    const name = monitors.find((one) => one.id === id)?.name ?? id;
    const version = { id, kind: "monitor" as const, name, file: `${id}.wav`, loses: null, mono: false };
    return [{ version, deviationDb: bands.map(({ deviationDb }) => deviationDb) }];
  });
}

function classesHeard({ translation }: Results): Heard[] {
  return (translation?.classes ?? []).map(({ id, name, loses, mono, bands }) => ({
    version: { id: `class:${id}`, kind: "class", name, file: `class-${id}.wav`, loses, mono },
    deviationDb: bands.map(({ typicalDb }) => typicalDb),
  }));
}

function listenedOn(on: string, monitors: readonly Heard[], results: Results): Heard {
  const found = monitors.find(({ version }) => version.id === on);
  if (found) return found;
  const known = results.monitors.some(({ id }) => id === on);
  throw new InputError(
    known ? `What the monitor "${on}" does to the tone is not known.` : `The session has no monitor "${on}".`,
    {
      where: "--on",
      remedy: `name one of: ${monitors.map(({ version }) => version.id).join(", ") || "none was measured"}`,
    },
  );
}

function limitedNote(wanted: Curve, own: Curve): string[] {
  const limited = BANDS.filter((_, k) => {
    const [level, taken] = [wanted[k], own[k]];
    return level != null && taken != null && level - taken > MOST_LIFT_DB;
  });
  if (limited.length === 0) return [];
  const where = listed(limited.map(({ nominalHz }) => hertz(nominalHz)));
  return [`lifted by ${MOST_LIFT_DB} dB and no more at ${where}, so less is heard there than there would be`];
}

function difference(wanted: Curve, own: Curve): Curve {
  return wanted.map((level, k) => {
    const taken = own[k];
    return level === null || taken == null ? null : Math.min(MOST_LIFT_DB, level - taken);
  });
}

function wholeResponse(
  monitor: string,
  results: Results,
  impulses: ReadonlyMap<string, RoomImpulse>,
  sampleRate: number,
): Pick<PlannedVersion, "taps" | "notes"> | null {
  const mix = results.session.positions.find(({ kind }) => kind === "mix")?.id;
  const of = (channel: string): RoomImpulse | null => {
    const impulse = impulses.get(`${monitor}-${channel}@${mix ?? ""}`);
    return impulse?.sampleRate === sampleRate ? impulse : null;
  };
  const sides = [of("L"), of("R")];
  const single = sides[0] ?? sides[1] ?? of("both");
  if (!single) return null;
  const reference = neutralCurve(results);
  const undo = reference && toneFilter(reference, sampleRate);
  const notes = ["each side starts at its own direct sound: their difference in arrival is not kept"];
  if (!sides[0] || !sides[1]) notes.push("one channel was measured: both sides sound through it");
  if (!undo) notes.push("the neutral curve is not known here: the response is as it was measured");
  const left = roomFilter(sides[0] ?? single, undo);
  const right = sides[0] && sides[1] ? roomFilter(sides[1], undo) : left;
  return { taps: [left, right], notes };
}

/** The inverse of what the session calls neutral, where a monitor is held against it. */
function neutralCurve({ translation, monitors }: Results): Curve | null {
  const target = monitors.find((one) => one.target?.id === translation?.reference.id)?.target;
  if (!target) return null;
  return BANDS.map(({ nominalHz }) => {
    const level = target.bands.find((band) => band.nominalHz === nominalHz)?.targetDb ?? null;
    return level === null ? null : -level;
  });
}
