import { readTargetFile } from "../comparison/target/read-target-file.js";
import type { Target } from "../comparison/target/target.js";
import { InputError } from "../errors.js";
import { type Excitation, excitationFromRecipe, excitationFromSound } from "../impulse/excitation.js";
import type { Finding, Recording, Results, Session, Signal, SweepRecipe } from "../model.js";
import { calibrationAt } from "../recording/calibration-at.js";
import { calibratorLevel } from "../recording/calibrator.js";
import { levelFacts } from "../recording/level-facts.js";
import { parseMicrophoneCalibration } from "../recording/microphone-calibration.js";
import type { ByteSource } from "../recording/sound-reader.js";
import type { PlaybackClass } from "../standards/playback-classes/playback-class.js";
import { calibrationFile } from "../schema/calibration-file.js";
import { programmeFile } from "../schema/programme-file.js";
import { isSoundName } from "../schema/sound-name.js";
import { speedOfSound } from "../standards/speed-of-sound.js";
import { parseRecipe, USABLE_HZ } from "../sweep/parse-recipe.js";
import { singleEvents } from "../sweep/timeline.js";
import type { Programme } from "../translation/heard.js";
import { readClassFile } from "../translation/read-class-file.js";
import { type Heard, hearRecording, hearWhole } from "./hear-recording.js";
import { calibrationSuspect } from "./findings/calibration.js";
import type { NamedPlayed } from "./findings/why-no-sweep.js";
import type { Calibration } from "./measure.js";
import { hearSound } from "./session-sounds.js";
import { builtInProgramme, hearProgramme, saidOfProgramme } from "./translate/programme.js";

/** The door's side: bytes of a file named in the session, at once or a stretch at a time, and their hash. */
export interface SessionFiles {
  /** For recipes and tables. */
  read(file: string): Promise<Uint8Array>;
  /** For sound, of any length. */
  open(file: string): Promise<ByteSource>;
  sha256(): RunningHash;
}

/** A hash of what was added so far, in order. */
interface RunningHash {
  add(bytes: Uint8Array): void;
  /** Ends it. */
  hex(): string;
}

/** What the session says was played in a recording, and what else it may have been. */
interface PlayedOf extends NamedPlayed {
  readonly otherSweeps: readonly NamedPlayed[];
}

export interface Inputs {
  readonly calibration: Calibration;
  /** What should be known of it. */
  readonly notes: readonly Finding[];
  /** Targets that the session brought, by id. */
  readonly targets: ReadonlyMap<string, Target>;
  /** Kinds of devices that the session brought. */
  readonly classes: readonly PlaybackClass[];
  /** Every file read so far, in order of first reading. */
  readonly provenance: Results["provenance"]["files"];
  sound(recording: Recording): Promise<Heard>;
  played(recording: Recording): Promise<PlayedOf>;
  /** What stands for the music; a mix is heard from beginning to end. */
  programme(): Promise<Programme>;
}

const DEFAULT_TEMPERATURE_C = 20;

/** Reads what the whole session rests on, and gives access to its recordings one by one. */
export async function prepareInputs(session: Session, files: SessionFiles): Promise<Inputs> {
  const provenance: Results["provenance"]["files"] = [];
  const read = async (file: string, use: string): Promise<Uint8Array> => {
    const bytes = await files.read(file);
    if (!provenance.some((entry) => entry.file === file)) {
      const unknown = { sampleRate: null, channels: null, durationS: null, encoding: null };
      const hash = files.sha256();
      hash.add(bytes);
      provenance.push({ file, sha256: hash.hex(), bytes: bytes.length, use, ...unknown });
    }
    return bytes;
  };
  const wholeSound = async (file: string, use: string): Promise<Signal> =>
    hearSound(files, provenance, file, use, (sound) => hearWhole(sound, undefined, undefined, file));
  const recipes = new Map<string, Promise<SweepRecipe>>();
  const recipeOf = (file: string): Promise<SweepRecipe> =>
    once(recipes, file, async () => parseRecipe(new TextDecoder().decode(await read(file, "sweep")), file));
  const excitations = new Map<string, Promise<Excitation>>();
  const excitationOf = (file: string): Promise<Excitation> =>
    once(excitations, file, async () =>
      isSoundName(file)
        ? requireUsable(excitationFromSound(requireSound(await wholeSound(file, "sweep"), file)), file)
        : excitationFromRecipe(await recipeOf(file)),
    );
  const playedRecipe = async (file: string, { channel }: Recording): Promise<NamedPlayed> => {
    const recipe = await recipeOf(file);
    const timeline = channel === undefined ? recipe.events : singleEvents(recipe, channel === "R" ? "R" : "L");
    return { sweepFile: file, excitation: await excitationOf(file), timeline, marker: recipe };
  };
  // Taken from the session, not from what was read so far: the order of reading must not matter.
  const otherRecipes = async (own: string, recording: Recording): Promise<NamedPlayed[]> => {
    const named = [session.sweep, ...session.recordings.flatMap(({ sweep }) => sweep ?? [])];
    const others = [...new Set(named)].filter((file) => file !== own && !isSoundName(file));
    // One that cannot be read is a matter of the recordings that name it.
    const read = others.map((file) => playedRecipe(file, recording).catch(() => null));
    return (await Promise.all(read)).filter((one) => one !== null);
  };
  const played = async (recording: Recording): Promise<PlayedOf> => {
    const file = recording.sweep ?? session.sweep;
    const otherSweeps = await otherRecipes(file, recording);
    if (!isSoundName(file)) return { ...(await playedRecipe(file, recording)), otherSweeps };
    const excitation = await excitationOf(file);
    if (recording.channel === undefined) {
      throw new InputError("A recording of a played sound holds one loudspeaker, but it names no channel.", {
        where: recording.file,
        remedy: 'add "channel": "L", "R" or "both" to this recording in session.json',
      });
    }
    const samples = excitation.samples().length;
    const timeline = [{ kind: "sweep", channel: "L", atSample: 0, samples }] as const;
    return { sweepFile: file, excitation, timeline, marker: null, otherSweeps };
  };
  // The session's own sweep is read first: without it nothing can be said.
  await excitationOf(session.sweep);
  const { calibration, notes } = await readCalibration(session, read, wholeSound, await excitationOf(session.sweep));
  return {
    calibration,
    notes,
    targets: await readTargets(session, read),
    classes: await readClasses(session, read),
    provenance,
    async sound(recording) {
      return hearSound(files, provenance, recording.file, "recording", async (sound) =>
        hearRecording(sound, recording, recording.kind === "impulse" ? null : await played(recording)),
      );
    },
    played,
    async programme() {
      const name = programmeFile(session);
      if (name === null) return builtInProgramme(session.translation?.programme ?? "popular");
      try {
        return await hearSound(files, provenance, name, "programme", (mix) => hearProgramme(mix, name));
      } catch (error) {
        throw saidOfProgramme(error);
      }
    },
  };
}

async function readClasses(
  session: Session,
  read: (file: string, use: string) => Promise<Uint8Array>,
): Promise<PlaybackClass[]> {
  const classes: PlaybackClass[] = [];
  for (const stated of session.playbackClasses ?? []) {
    classes.push(readClassFile(await read(stated.file, "playback class"), stated));
  }
  return classes;
}

async function readTargets(
  session: Session,
  read: (file: string, use: string) => Promise<Uint8Array>,
): Promise<Map<string, Target>> {
  const targets = new Map<string, Target>();
  for (const { id, file } of session.targets ?? [])
    targets.set(id, readTargetFile(await read(file, "target"), file, id));
  return targets;
}

async function readCalibration(
  session: Session,
  read: (file: string, use: string) => Promise<Uint8Array>,
  wholeSound: (file: string, use: string) => Promise<Signal>,
  { sweptHz }: Excitation,
): Promise<{ calibration: Calibration; notes: Finding[] }> {
  const { microphone, environment } = session;
  const tableFile = calibrationFile(microphone);
  const orientationDeg = microphone?.orientationDeg ?? null;
  const table =
    tableFile === null
      ? null
      : parseMicrophoneCalibration(await read(tableFile, "microphone"), tableFile, orientationDeg);
  const deviationDb = table && ((frequencyHz: number): number => calibrationAt(table, frequencyHz));
  let fullScaleDb: number | null = null;
  if (microphone?.level) {
    const { file, soundPressureLevelDb } = microphone.level;
    const tone = calibratorLevel(await wholeSound(file, "calibrator"), file);
    // The calibrator's tone passes the same microphone: its deviation at that frequency is taken out as well.
    fullScaleDb = soundPressureLevelDb - 20 * Math.log10(tone.amplitude) + (deviationDb?.(tone.toneHz) ?? 0);
  }
  return {
    calibration: {
      fullScaleDb,
      deviationDb,
      speedOfSound: speedOfSound(environment?.temperatureC ?? DEFAULT_TEMPERATURE_C),
    },
    notes: table && tableFile !== null ? calibrationSuspect(tableFile, table, orientationDeg, sweptHz) : [],
  };
}

function requireSound(played: Signal, file: string): Signal {
  if (!levelFacts(played).silent) return played;
  throw new InputError("The played sound is silent.", { where: file, remedy: "name the sound file that was played" });
}

/** Refuses a played sound in which arrivals cannot be read. */
function requireUsable(excitation: Excitation, file: string): Excitation {
  const [fromHz, toHz] = excitation.sweptHz;
  if (fromHz <= USABLE_HZ[0] && toHz >= USABLE_HZ[1]) return excitation;
  throw new InputError(`The played sound reaches only from ${fromHz.toFixed(0)} to ${toHz.toFixed(0)} Hz.`, {
    where: file,
    remedy: `use a sweep from ${USABLE_HZ[0]} Hz or below to ${USABLE_HZ[1]} Hz or above`,
  });
}

/** Does a thing once per key, and hands out the same promise afterwards. */
function once<Value>(store: Map<string, Promise<Value>>, key: string, make: () => Promise<Value>): Promise<Value> {
  const known = store.get(key);
  if (known) return known;
  const value = make();
  store.set(key, value);
  return value;
}
