import { readTargetFile } from "../comparison/target/read-target-file.js";
import type { Target } from "../comparison/target/target.js";
import { InputError } from "../errors.js";
import { type Excitation, excitationFromRecipe, excitationFromSound } from "../impulse/excitation.js";
import type { DecodedAudio, Recording, Results, Session, Signal, SweepRecipe } from "../model.js";
import { calibrationAt } from "../recording/calibration-at.js";
import { calibratorLevel } from "../recording/calibrator.js";
import { decodeWav } from "../recording/decode-wav.js";
import { parseMicrophoneCalibration } from "../recording/microphone-calibration.js";
import { pickChannel } from "../recording/pick-channel.js";
import type { ByteSource } from "../recording/wave-reader.js";
import type { PlaybackClass } from "../standards/playback-classes/playback-class.js";
import { programmeFile } from "../schema/programme-file.js";
import { speedOfSound } from "../standards/speed-of-sound.js";
import { parseRecipe, USABLE_HZ } from "../sweep/parse-recipe.js";
import { singleEvents, type TimelineEvent } from "../sweep/timeline.js";
import type { Programme } from "../translation/heard.js";
import { readClassFile } from "../translation/read-class-file.js";
import type { Calibration } from "./measure.js";
import { builtInProgramme, hearProgramme } from "./translate/programme.js";

/** The door's side: bytes of a file named in the session, at once or a stretch at a time, and their hash. */
export interface SessionFiles {
  read(file: string): Promise<Uint8Array>;
  /** For files of any length. */
  open(file: string): Promise<ByteSource>;
  sha256(): RunningHash;
}

/** A hash of what was added so far, in order. */
interface RunningHash {
  add(bytes: Uint8Array): void;
  /** Ends it. */
  hex(): string;
}

interface Played {
  readonly excitation: Excitation;
  readonly timeline: readonly TimelineEvent[];
  readonly marker: SweepRecipe | null;
}

export interface Inputs {
  readonly calibration: Calibration;
  /** Targets that the session brought, by id. */
  readonly targets: ReadonlyMap<string, Target>;
  /** Kinds of devices that the session brought. */
  readonly classes: readonly PlaybackClass[];
  /** Every file read so far, in order of first reading. */
  readonly provenance: Results["provenance"]["files"];
  sound(recording: Recording): Promise<{ signal: Signal; loopback: Signal | null }>;
  played(recording: Recording): Promise<Played>;
  /** What stands for the music; a mix is heard from beginning to end. */
  programme(): Promise<Programme>;
}

/** So much of a file at a time. */
const STRETCH_BYTES = 2 ** 20;
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
  const decode = async (file: string, use: string): Promise<DecodedAudio> => {
    const audio = decodeWav(await read(file, use), file);
    const entry = provenance.find((one) => one.file === file);
    if (entry) {
      entry.sampleRate = audio.sampleRate;
      entry.channels = audio.channels.length;
      entry.durationS = (audio.channels[0]?.length ?? 0) / audio.sampleRate;
      entry.encoding = audio.encoding;
    }
    return audio;
  };
  const recipes = new Map<string, Promise<SweepRecipe>>();
  const recipeOf = (file: string): Promise<SweepRecipe> =>
    once(recipes, file, async () => parseRecipe(new TextDecoder().decode(await read(file, "sweep")), file));
  const excitations = new Map<string, Promise<Excitation>>();
  const isSound = (file: string): boolean => /\.wav$/i.test(file);
  const excitationOf = (file: string): Promise<Excitation> =>
    once(excitations, file, async () =>
      isSound(file)
        ? requireUsable(excitationFromSound(pickChannel(await decode(file, "sweep"), undefined, undefined, file)), file)
        : excitationFromRecipe(await recipeOf(file)),
    );
  // The session's own sweep is read first: without it nothing can be said.
  await excitationOf(session.sweep);
  return {
    calibration: await readCalibration(session, read, decode),
    targets: await readTargets(session, read),
    classes: await readClasses(session, read),
    provenance,
    async sound(recording) {
      const audio = await decode(recording.file, "recording");
      const { loopback } = recording;
      return {
        signal: pickChannel(audio, recording.fileChannel, loopback, recording.file),
        loopback: loopback === undefined ? null : pickChannel(audio, loopback, undefined, recording.file),
      };
    },
    async played(recording) {
      const file = recording.sweep ?? session.sweep;
      const excitation = await excitationOf(file);
      if (!isSound(file)) {
        const recipe = await recipeOf(file);
        const { channel } = recording;
        const timeline = channel === undefined ? recipe.events : singleEvents(recipe, channel === "R" ? "R" : "L");
        return { excitation, timeline, marker: recipe };
      }
      if (recording.channel === undefined) {
        throw new InputError("A recording of a played sound holds one loudspeaker, but it names no channel.", {
          where: recording.file,
          remedy: 'add "channel": "L", "R" or "both" to this recording in session.json',
        });
      }
      const samples = excitation.samples().length;
      return { excitation, timeline: [{ kind: "sweep", channel: "L", atSample: 0, samples }], marker: null };
    },
    async programme() {
      const name = programmeFile(session);
      if (name === null) return builtInProgramme(session.translation?.programme ?? "popular");
      const source = await files.open(name);
      try {
        const { programme, ...facts } = await hearProgramme(source, name);
        const hash = files.sha256();
        for (let from = 0; from < source.bytes; from += STRETCH_BYTES) hash.add(await source.read(from, STRETCH_BYTES));
        provenance.push({ file: name, sha256: hash.hex(), bytes: source.bytes, use: "programme", ...facts });
        return programme;
      } finally {
        await source.close();
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
  decode: (file: string, use: string) => Promise<DecodedAudio>,
): Promise<Calibration> {
  const { microphone, environment } = session;
  const table =
    microphone?.calibration === undefined
      ? null
      : parseMicrophoneCalibration(await read(microphone.calibration, "microphone"), microphone.calibration);
  const deviationDb = table && ((frequencyHz: number): number => calibrationAt(table, frequencyHz));
  let fullScaleDb: number | null = null;
  if (microphone?.level) {
    const { file, soundPressureLevelDb } = microphone.level;
    const tone = calibratorLevel(pickChannel(await decode(file, "calibrator"), undefined, undefined, file), file);
    // The calibrator's tone passes the same microphone: its deviation at that frequency is taken out as well.
    fullScaleDb = soundPressureLevelDb - 20 * Math.log10(tone.amplitude) + (deviationDb?.(tone.toneHz) ?? 0);
  }
  return {
    fullScaleDb,
    deviationDb,
    speedOfSound: speedOfSound(environment?.temperatureC ?? DEFAULT_TEMPERATURE_C),
  };
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
