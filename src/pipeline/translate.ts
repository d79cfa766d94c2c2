import { targetLevel, type Target } from "../comparison/target/target.js";
import type { Results, Session, Translation } from "../model.js";
import { PLAYBACK_CLASSES } from "../standards/playback-classes.js";
import { car } from "../standards/playback-classes/car.js";
import type { PlaybackClass } from "../standards/playback-classes/playback-class.js";
import { POPULAR_MUSIC_SPREAD_DB } from "../standards/popular-music.js";
import { BANDS } from "../translation/bands.js";
import { carMasking } from "../translation/car-masking.js";
import { classDeviation } from "../translation/class-deviation.js";
import { type Deviation, deviations, type Reference } from "../translation/deviations.js";
import { drift, type DriftModel, type HeardOn } from "../translation/drift.js";
import { compensationOf } from "../translation/drift/compensation.js";
import { decisionGuide } from "../translation/guide.js";
import { heardAt, type Programme, programmeAtLevel } from "../translation/heard.js";
import { type HeardLoudness, heardLoudness } from "../translation/heard-loudness.js";
import { heardLevel, type HeardLevel } from "../translation/heard-level.js";
import { levelShift } from "../translation/level-shift.js";
import { DRIFT, LIMITS } from "../translation/limits.js";
import type { MonitorCase } from "../translation/monitor-case.js";
import { isMixedOn } from "../schema/mixed-on.js";
import { type Trust, trustMap } from "../translation/trust-map.js";
import { targetOf } from "./against-targets.js";
import { monitorCase, roomNoiseDb } from "./translate/monitor-case.js";

/** What the session brought for it. */
export interface TranslationInputs {
  readonly programme: Programme;
  /** By id. */
  readonly targets: ReadonlyMap<string, Target>;
  readonly classes: readonly PlaybackClass[];
}

/** A monitor on its way through the translation. */
interface Judged {
  readonly about: MonitorCase;
  readonly heard: HeardLevel;
  readonly deviation: Deviation;
  readonly audibleDb: readonly (number | null)[];
  readonly loudness: HeardLoudness | null;
  readonly trust: Trust;
}

/**
 * What the measurements mean for decisions: which monitor to believe for what, and where mixes made here will drift.
 *
 * @throws {InputError} if the session names a reference that there is not
 */
export function translate(results: Results, { programme, targets, classes: own }: TranslationInputs): Translation {
  const { session } = results;
  const settings = session.translation ?? {};
  const listeningLevelDb = settings.listeningLevelDb ?? DRIFT.listeningLevelDb.value;
  const reference = referenceOf(session, targets);
  const share = compensationOf(settings.compensation, settings.referenceUse);
  const model: DriftModel = { ...share, programme: { levelDb: programme.levelDb, spreadDb: POPULAR_MUSIC_SPREAD_DB } };
  const judged = results.monitors.map((result): Judged => {
    const about = monitorCase(result, results);
    const heard = heardLevel(about);
    const deviation = deviations(heard, reference);
    const audibleDb = heardAt(programme, deviation.deviationDb, listeningLevelDb, roomNoiseDb(about)).map(
      ({ audibleMarginDb }) => audibleMarginDb,
    );
    const fromTargetDb = deviations(heard, ownTarget(result.id, session, targets)).deviationDb;
    const trust = trustMap({ ...about, ...heard, ...deviation, fromTargetDb, audibleDb });
    const field = result.role === "headphone" ? "free" : "diffuse";
    const loudness = heardLoudness(programme, deviation.deviationDb, listeningLevelDb, field);
    return { about, heard, deviation, audibleDb, loudness, trust };
  });
  const mixedOn = judged.filter(({ about }) => isMixedOn(about.result));
  const guided = mixedOn.map(({ about, trust }) => ({ id: about.result.id, bands: trust.bands }));
  const known = judged.filter(({ deviation }) => deviation.reason === null);
  const classes = [...PLAYBACK_CLASSES, ...own].map((playbackClass) => ({
    playbackClass,
    heardOn: classDeviation(playbackClass),
  }));
  const heardOn = [...known.map(asHeardOn), neutral, ...classes.map((one) => one.heardOn)];
  const drifts = known
    .filter((one) => mixedOn.includes(one))
    .flatMap((one) => heardOn.map((other) => drift(asMixedOn(one), other, model)));
  return {
    programme: programme.name,
    programmeBands: programmeBands(programme, listeningLevelDb),
    listeningLevelDb,
    ...share,
    uncontrolledRange: { label: "choice", source: UNCONTROLLED_SOURCE },
    reference: { id: reference.id, source: reference.source },
    parameters: parametersOf(session),
    limits: Object.values(LIMITS).map((limit) => ({ ...limit, rangeHz: [...limit.rangeHz] })),
    deviations: judged.map(deviationRow),
    trust: judged.map(({ about, trust }) => ({ monitor: about.result.id, ...copied(trust) })),
    guide: copied(decisionGuide(guided, programme.levelDb)),
    guideReason: mixedOn.length === 0 ? "no-monitor-to-mix-on" : mixedOn.length === 1 ? "one-monitor" : null,
    drift: copied(drifts).map((one) => ({ ...one, label: "choice" as const })),
    driftReason: drifts.length > 0 ? null : mixedOn.length === 0 ? "no-monitor-to-mix-on" : "no-deviation-known",
    classes: classes.map(classRow),
    levelShifts: classes.flatMap(({ playbackClass: { levelDba }, heardOn }) =>
      levelDba.typical === null
        ? []
        : [
            {
              heardOn: heardOn.id,
              ...copied(levelShift(programme, listeningLevelDb, levelDba.typical)),
              label: "literature" as const,
              source: `ISO 226:2003 for tones; level on it: ${levelDba.source}`,
            },
          ],
    ),
    masking: [
      {
        heardOn: `class:${car.id}`,
        ...copied(carMasking(programme, classDeviation(car).deviationDb, car.levelDba.typical)),
        label: "choice",
        source: "overall noise found for 16-17 electric cars; the shape of its spectrum is from memory",
      },
    ],
  };
}

/** What the session states stands in place of the default. */
function parametersOf({ translation = {} }: Session): Translation["parameters"] {
  const stated = new Map(Object.entries(translation));
  return Object.entries(DRIFT).map(([name, parameter]) => {
    const own = stated.get(name);
    if (name === "compensation" && own === undefined && translation.referenceUse !== undefined) {
      const { compensation: value } = compensationOf(undefined, translation.referenceUse);
      return { name, value, label: "choice", source: "0.8 (1 - referenceUse), as stated in the session" };
    }
    return typeof own === "number"
      ? { name, value: own, label: "choice", source: "stated in the session" }
      : { name, ...parameter };
  });
}

const UNCONTROLLED_SOURCE =
  "where nobody controls a band: one standard deviation between recordings of popular music, whatever the programme";

/** Levels with a neutral system. */
function programmeBands(programme: Programme, listeningLevelDb: number): Translation["programmeBands"] {
  const levels = programmeAtLevel(programme, listeningLevelDb);
  return BANDS.map(({ nominalHz }, k) => ({ nominalHz, levelDb: programme.empty?.[k] ? null : levels[k]! }));
}

function classRow({
  playbackClass: { id, name, loses, mono, label, source, levelDba },
  heardOn: { deviationDb, envelope },
}: {
  readonly playbackClass: PlaybackClass;
  readonly heardOn: ReturnType<typeof classDeviation>;
}): Translation["classes"][number] {
  const { typical, noise } = levelDba;
  return {
    ...{ id, name, loses, mono, label, source, levelDba: typical, noiseDba: noise },
    reasons: [
      ...(typical === null ? (["level-not-stated"] as const) : []),
      ...(noise === null ? (["noise-not-stated"] as const) : []),
    ],
    bands: BANDS.map(({ nominalHz }, k) => ({
      nominalHz,
      lowDb: envelope.lowDb[k] ?? null,
      typicalDb: deviationDb[k] ?? null,
      highDb: envelope.highDb[k] ?? null,
    })),
  };
}

function deviationRow({ about, heard, deviation, audibleDb, loudness }: Judged): Translation["deviations"][number] {
  return {
    monitor: about.result.id,
    label: "measured",
    reason: deviation.reason === null ? null : (about.result.responseReason ?? deviation.reason),
    bands: BANDS.map(({ nominalHz }, k) => ({
      nominalHz,
      deviationDb: deviation.deviationDb[k] ?? null,
      uncertaintyDb: deviation.uncertaintyDb[k] ?? null,
      spreadDb: heard.spreadDb[k] ?? null,
      audibleMarginDb: audibleDb[k] ?? null,
    })),
    loudness: loudness && copied(loudness),
  };
}

function asMixedOn({ about, deviation, trust }: Judged): Parameters<typeof drift>[0] {
  const controlled = trust.bands.map(({ grade }) => grade === "believe" || grade === "care");
  return { id: about.result.id, ...deviation, controlled };
}

function asHeardOn({ about: { result }, deviation }: Judged): HeardOn {
  const kind = isMixedOn(result) ? "monitor" : "device";
  return { id: result.id, name: result.name ?? result.id, kind, ...deviation, envelope: null };
}

const zeros = BANDS.map(() => 0);
const neutral: HeardOn = {
  id: "neutral",
  name: "neutral monitors",
  kind: "neutral",
  deviationDb: zeros,
  uncertaintyDb: zeros,
  envelope: null,
};

/** The session's reference, or the target of its first main, or of its first monitor. */
function referenceOf(session: Session, own: ReadonlyMap<string, Target>): Reference {
  const first = session.monitors.find(({ role }) => role === "main") ?? session.monitors[0]!;
  return curveOf(targetOf(session.reference ?? first.target, first.role, own));
}

/** What a monitor is meant to sound like: one is believed where it does, whatever is called neutral. */
function ownTarget(id: string, session: Session, own: ReadonlyMap<string, Target>): Reference {
  const { target, role } = session.monitors.find((monitor) => monitor.id === id)!;
  return curveOf(targetOf(target, role, own));
}

function curveOf(target: Target): Reference {
  return { id: target.id, source: target.source, levelDb: (nominalHz) => targetLevel(target, nominalHz) };
}

/**
 * Looks at what the session names for its translation, before anyone waits for the rest.
 *
 * @throws {InputError} if it names a reference that there is not
 */
export function refuseUnknownReference(session: Session, own: ReadonlyMap<string, Target>): void {
  referenceOf(session, own);
}

/** The rooms hold their results read-only; what is written may be changed by whoever reads it. */
function copied<Data>(data: Data): Writable<Data> {
  return structuredClone(data);
}

type Writable<Data> = {
  -readonly [Key in keyof Data]: Data[Key] extends object | null ? Writable<Data[Key]> : Data[Key];
};
